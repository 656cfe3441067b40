// A whole visit at the front desk in a real browser, by keyboard, in both languages: from a new record to a printed and mailed sheet.
//
//   node browser.mjs BASKLEAF FOLDER [SCREENSHOTS]
//
// Exit status: 0 good, 1 not, 77 skipped with the reason.
import {readdirSync, readFileSync} from 'node:fs';
import {join} from 'node:path';
import assert from 'node:assert/strict';
import {field, root, run, TODAY} from './stage.mjs';

let hand, page, desk;

// ---- the visit --------------------------------------------------------------------------

async function newVisit(lang, animal, w) {
    await hand.tabTo('#who');
    await page.keyboard.type('Ana Brook');
    await hand.tabTo('#new');
    await page.keyboard.press('Enter');
    await page.locator('.part-visit').waitFor();
    await hand.fits(`new-${lang}`);
    await hand.fill('patient.name', animal);
    await hand.fill('patient.species', 'Python regius');
    await hand.fill('patient.mass', '1450');
    await page.keyboard.press('Tab');
    await page.keyboard.type('g');
    await hand.fill('keeper.name', 'Rosa Lind');
    await hand.fill('keeper.email', 'nobody');
    await page.locator('[data-path="keeper.email"] .fault:not([hidden])').waitFor();
    const described = await page.locator(field('keeper.email')).getAttribute('aria-describedby');
    assert.ok(await page.locator(`#${described.split(' ').at(-1)}`).innerText(), 'the fault is read out with its field');
    assert.equal(await page.locator(field('keeper.email')).getAttribute('aria-invalid'), 'true');
    await hand.picture(`fault-${lang}`);
    await hand.tabTo(field('keeper.email'), 'Shift+Tab');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('rosa.lind@example.org');
    await hand.kept(w);
}

async function openGroup(system) {
    await hand.tabTo(`#system-${system}`);
    await page.keyboard.press('Enter');
}

async function examine(w) {
    await openGroup('watching');
    await hand.tabTo('[data-code="breathing"] input');
    await page.keyboard.press('ArrowRight'); // one step from "not noted" to "fine"
    await page.keyboard.press('ArrowRight'); // one too many takes nothing away
    await page.locator('[data-code="breathing"].fine').waitFor();
    await openGroup('skin');
    await hand.tabTo('[data-code="retained-shed"] input');
    await page.keyboard.press('ArrowRight');
    await hand.tabTo('[data-code="retained-shed"] .word-where input');
    await page.keyboard.type('tail');
    await page.keyboard.press('Tab');
    await page.keyboard.type('It came off in pieces.');
    await hand.fill('enclosure.readings.humidity', '40');
    const head = await page.locator('.system-name').allInnerTexts();
    const order = ['watching', 'skin', 'vent-and-tail', 'eyes', 'nose', 'mouth'].map((one) => head.indexOf(w[`system.${one}`]));
    assert.ok(order.every((at, i) => at >= 0 && (i === 0 || at > order[i - 1])), 'the head comes last');
    assert.equal(await page.locator('[data-code="soft-shell"]').count(), 0, 'a snake has no shell to look at');
    await hand.kept(w);
    await page.locator('.plan ol li').first().waitFor();
}

/** The server dies; the page is loaded again: what was typed a second ago is there. */
async function killAndGoOn(w) {
    await hand.tabTo(field('message'));
    await page.keyboard.type('Typed just before the end.');
    await page.waitForTimeout(1000);
    await desk.stop('SIGKILL');
    await desk.start(desk.port);
    await page.reload();
    await page.locator('.part-visit').waitFor();
    assert.equal(await page.locator(field('message')).inputValue(), 'Typed just before the end.');
    assert.equal(await page.locator('[data-code="retained-shed"] .word-where input').inputValue(), 'tail');
    await hand.kept(w);
}

async function saveAndSign(lang, w) {
    await hand.tabTo('#save');
    await page.keyboard.press('Enter');
    await hand.says(w.saved);
    await page.locator('.record .state-sign').waitFor();
    await hand.look(`record-${lang}`);
    await hand.tabTo('#sign');
    await page.keyboard.press('Enter');
    await page.locator('dialog[open]').waitFor();
    await hand.look(`sign-${lang}`);
    await page.keyboard.type('Dr Ines Calder');
    await page.keyboard.press('Enter');
    await page.locator('.record .state-ready').waitFor();
    await page.locator('.log li', {hasText: w['deed.signed']}).waitFor();
}

async function sheetIsTheSame(name) {
    const path = join(desk.folder, name);
    const check = desk.run('check', path);
    assert.equal(check.status, 0, String(check.stderr));
    const cli = desk.run('sheet', path, '-o', '-');
    assert.equal(cli.status, 0, String(cli.stderr));
    await hand.tabTo('#show-sheet');
    await page.keyboard.press('Enter');
    const source = await page.locator('.sheet iframe').getAttribute('src');
    const bytes = await page.evaluate(async (from) => [...new Uint8Array(await (await fetch(from)).arrayBuffer())], source);
    assert.deepEqual(Buffer.from(bytes), cli.stdout);
    return cli.stdout;
}

async function visit(lang, animal) {
    const w = await desk.words(lang);
    await page.goto(desk.address);
    await hand.language(lang);
    await page.goto(`${desk.address}#/today`);
    await hand.fits(`empty-day-${lang}`);
    await newVisit(lang, animal, w);
    await examine(w);
    await killAndGoOn(w);
    await saveAndSign(lang, w);
    const name = readdirSync(desk.folder).find((one) => one.startsWith(animal.toLowerCase()) && one.endsWith('.yaml'));
    const sheet = await sheetIsTheSame(name);
    await hand.tabTo('#print', 'Shift+Tab');
    await page.keyboard.press('Enter');
    await hand.says(w['told.printing']);
    await page.locator('.record .state-printed').waitFor();
    const [printed] = readdirSync(desk.tray).filter((one) => one.startsWith(animal.toLowerCase()) && one.endsWith('.pdf'));
    assert.deepEqual(readFileSync(join(desk.tray, printed)), sheet);
    await hand.tabTo('#mail');
    await page.keyboard.press('Enter');
    await hand.says(w['told.mailing']);
    await page.locator('.record .state-mailed').waitFor();
    await page.locator('.log li', {hasText: w['deed.mailed']}).waitFor();
    assert.match(desk.mails.at(-1), /^Content-Type: multipart\/mixed/m);
    await page.goto(`${desk.address}#/today`);
    await page.locator('.visits .state-mailed').first().waitFor();
    await hand.look(`today-${lang}`);
    await page.evaluate(() => localStorage.setItem('desk-who', ''));
}

/** A photo and a logger's file go onto the record: by keyboard to their fields, undone with a step back, a wrong file told at its place. */
async function beside() {
    const w = await desk.words('en');
    const file = (path) => `[data-path="${path}"] input[type="file"]`;
    const named = (path) => page.locator(`[data-path="${path}"] input:not([type="file"])`);
    const log = 'enclosure.readings.log.file';
    await page.goto(`${desk.address}#/record/juniper-adoption.yaml`);
    await page.locator(file('patient.photo')).waitFor();
    await page.locator(`[data-path="${log}"]`).evaluate((at) => {
        for (let part = at.closest('details'); part; part = part.parentElement.closest('details'))
            part.open = true;
    });
    await page.locator(file(log)).setInputFiles({name: 'Week 1.csv', mimeType: 'text/csv', buffer: Buffer.from('Time,T1 Temperature (C)\n2026-01-02 10:00,25\n2026-01-02 11:00,26\n')});
    await hand.says(w['beside.kept']);
    assert.match(await named(log).inputValue(), /^week-1-[0-9a-f]{16}\.csv$/);
    await page.locator('[data-path="enclosure.readings.log.probes"] select').selectOption('warm-side');
    await hand.look('beside');
    await page.locator(file(log)).setInputFiles({name: 'bad.csv', mimeType: 'text/csv', buffer: Buffer.from('Time,T1 Temperature (C)\n2026-01-02 10:00,warm\n')});
    await page.locator('.beside-fault', {hasText: "Line 2: 'warm' is no number."}).waitFor();
    await hand.look('beside-refused');
    await page.locator(file('patient.photo')).setInputFiles({name: 'a.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no photo')});
    await page.locator('[data-path="patient.photo"] .beside-fault:not([hidden])').waitFor();
    await hand.tabTo('#undo', 'Shift+Tab');
    await page.keyboard.press('Enter');
    await hand.tabTo('#undo');
    await page.keyboard.press('Enter');
    assert.equal(await named(log).inputValue(), '');
    await page.locator('#discard').evaluate((button) => { window.confirm = () => true; button.click(); });
    await page.locator('.visits, .record').first().waitFor();
}

async function twoWindows() {
    const w = await desk.words('en');
    const name = 'juniper-adoption.yaml';
    const other = await page.context().newPage();
    for (const [window, mass] of [[page, '53'], [other, '54']]) {
        await window.goto(`${desk.address}#/record/${name}`);
        await window.locator('#who').fill('Ana Brook');
        await window.locator(field('patient.mass')).fill(mass);
    }
    await page.locator('#save').click();
    await hand.says(w.saved);
    await other.locator('#save').click();
    await other.locator('.conflict').waitFor();
    assert.match(readFileSync(join(desk.folder, name), 'utf8'), /mass: 53 g/);
    await other.close();
}

async function shelter(lang) {
    const w = await desk.words(lang);
    await page.goto(`${desk.address}#/shelter`);
    await hand.language(lang);
    await page.locator('.drop-zone label', {hasText: w['shelter.drop']}).waitFor();
    await page.locator('#list-file').setInputFiles(join(root, 'templates/rosters/spring-day.csv'));
    await page.waitForURL(/#\/shelter\/./); // the list's own address: it was read and is shown
    await page.locator('#list-sign, #list-make').waitFor();
    await hand.look(`shelter-${lang}`);
    if (await page.locator('#list-sign').count()) {
        await hand.tabTo('#list-by');
        await page.keyboard.type('Dr Ines Calder');
        await hand.tabTo('#list-sign');
    } else {
        await hand.tabTo('#list-make');
    }
    await page.keyboard.press('Enter');
    await page.locator('.progress', {hasText: w['shelter.made']}).waitFor();
    await hand.look(`shelter-made-${lang}`);
    await hand.tabTo('#list-take');
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
    assert.equal(download.suggestedFilename(), 'sheets.zip');
    assert.equal(await download.failure(), null, download.url());
    assert.equal(readFileSync(await download.path()).readUInt32LE(0), 0x04034b50); // a ZIP's first bytes (APPNOTE 4.3.7)
}

async function otherSizes() {
    // a 1280-pixel screen at 400 % is 320 px wide; at its full width each view is looked at where it is used
    const views = [['today', '#/day/2026-03-14', '.visits'], ['record', '#/record/biscuit-ball-python.yaml', '.part-visit'], ['shelter', '#/shelter', '.drop-zone'],
        ['species', '#/review', '.review .visits'], ['review', '#/review/ball-python', '.part.value']];
    for (const [name, width] of [['tablet', 768], ['phone', 390], ['zoom-400', 320]]) {
        await page.setViewportSize({width, height: 900});
        for (const [view, hash, shown] of views) {
            await page.goto(`${desk.address}${hash}`);
            await page.locator(shown).first().waitFor();
            await hand.look(`${view}-${name}`);
        }
    }
}

await run('a whole visit in two languages, by keyboard; axe found nothing on any view', async (...all) => {
    [hand, desk] = all;
    page = hand.page;
    await visit('en', 'Fern');
    await visit('es', 'Roca');
    await shelter('es');
    await shelter('en');
    await beside();
    await twoWindows();
    await otherSizes();
});
