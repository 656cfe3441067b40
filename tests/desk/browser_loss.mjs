// Nothing typed is lost, nothing is done to the wrong record: each of these went wrong once.
//
//   node browser_loss.mjs BASKLEAF FOLDER [SCREENSHOTS]
//
// Exit status: 0 good, 1 not, 77 skipped with the reason.
import {readdirSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';
import assert from 'node:assert/strict';
import {field, root, run, TODAY} from './stage.mjs';

const BISCUIT = 'biscuit-ball-python.yaml', EMBER = 'ember-bearded-dragon.yaml', JUNIPER = 'juniper-adoption.yaml';
const MOMENTS = 100, MOMENT_MS = 300;
let hand, page, desk, w;

const open = (name) => hand.open(`#/record/${name}`, '.part-visit');
const value = (path) => page.locator(field(path)).inputValue();
const name = (text = 'Ana Brook') => page.evaluate((who) => localStorage.setItem('desk-who', who), text);

/** Killed at a hundred moments while somebody types without a pause: at most the last second is lost. */
async function killedWhileTyping() {
    await open(BISCUIT);
    await name();
    await page.locator(field('message')).fill('');
    let typed = '';
    for (let round = 0; round < MOMENTS; round++) {
        const moments = [];
        const end = Date.now() + 300 + (round * 37) % 1400;
        for (let i = 0; Date.now() < end; i++) {
            typed += String.fromCharCode(97 + i % 26);
            await page.locator(field('message')).press(typed.at(-1));
            moments.push([Date.now(), typed]);
            await page.waitForTimeout(20);
        }
        const killed = Date.now();
        await desk.stop('SIGKILL');
        await desk.start(desk.port);
        const {drafts} = await (await fetch(`${desk.address}api/record?name=${BISCUIT}`)).json();
        const safe = moments.filter(([at]) => at <= killed - 1000).at(-1)?.[1] ?? '';
        const found = drafts[0]?.record.message ?? '';
        assert.ok(found.startsWith(safe), `round ${round}: ${found.length} of ${typed.length} letters kept, ${safe.length} were older than a second`);
        await hand.kept(w); // the page finds the new desk by itself, with a new token, and sends all of it
    }
    assert.equal(await value('message'), typed);
    await page.reload();
    await page.locator('.part-visit').waitFor();
    assert.equal(await value('message'), typed, 'what was typed is there after the page is loaded again');
    await page.evaluate(() => (globalThis.confirm = () => true));
    await page.locator('#discard').click();
    await page.locator('#discard').waitFor({state: 'detached'});
}

/** Two windows on one visit: both texts are kept, and each window shows the other's. */
async function twoWindowsOneVisit() {
    const other = await page.context().newPage();
    await open(JUNIPER);
    await other.goto(`${desk.address}#/record/${JUNIPER}`);
    await other.locator('.part-visit').waitFor();
    await page.locator(field('message')).fill('typed in the first');
    await other.locator(field('message')).fill('typed in the second');
    await hand.kept(w);
    await other.locator('.says', {hasText: w.kept}).waitFor();
    await page.reload();
    await page.locator('.other-window').waitFor();
    await hand.look('other-window');
    assert.equal(await value('message'), 'typed in the first');
    await page.locator('.take-over').click();
    await page.locator('.other-window').waitFor({state: 'detached'});
    assert.equal(await value('message'), 'typed in the second');
    await other.close();
    await page.evaluate(() => (globalThis.confirm = () => true));
    await page.locator('#discard').click();
    await page.locator('#discard').waitFor({state: 'detached'});
}

/** A sign that nobody sees, pasted: it is taken out and said beside its field, and keeping goes on. */
async function pastedSigns() {
    await open(JUNIPER);
    await page.locator(field('message')).fill('before\u0001\u000b after\u007f');
    await page.locator('[data-path="message"] .taken-out', {hasText: w['taken-out']}).waitFor();
    await hand.kept(w);
    assert.equal(await value('message'), 'before after');
    await page.locator(field('message')).fill('before');
    assert.equal(await page.locator('.taken-out').count(), 0);
    await hand.kept(w);
}

/** "Sign" on one record, back, another record: the first one's question is gone and names whose sheet it was. */
async function signsWhatItShows() {
    await open(BISCUIT);
    await page.locator('#sign').click();
    const dialog = page.locator('dialog[open]');
    for (const text of ['Biscuit', 'ball python', 'Rosa Lind', '2026'])
        await dialog.getByText(text, {exact: false}).first().waitFor();
    await hand.look('sign-dialog');
    await page.evaluate(() => (location.hash = '#/record/ember-bearded-dragon.yaml'));
    await page.locator('h1', {hasText: 'Ember'}).waitFor();
    assert.equal(await page.locator('dialog').count(), 0, 'the question goes with its record');
    assert.ok((await page.title()).startsWith('Ember'), await page.title());
    assert.match(await page.locator('.about').innerText(), /bearded dragon/i);
    for (const one of [BISCUIT, EMBER])
        assert.doesNotMatch(desk.read(one), /signed-off/);
    await page.locator('#sign').click();
    for (const nobody of ['x', 'a b', '..  ..']) {
        await page.locator('#sign-by').fill(nobody);
        await page.locator('#sign-do').click();
        await page.locator('dialog .told.trouble', {hasText: w['refused.veterinarian-is-missing']}).waitFor();
    }
    await page.locator('.cancel').click();
    assert.doesNotMatch(desk.read(EMBER), /signed-off/);
}

/** Letters and Enter open today's visit, then the newest; accents, species, order and telephone do not matter. */
async function findsTheRightOne() {
    const text = desk.read(BISCUIT);
    const visit = (file, animal, keeper, day, telephone) => writeFileSync(join(desk.folder, file), text
        .replace(/name: Biscuit/, `name: ${animal}`).replace(/date: [\d-]+/, `date: ${day}`)
        .replace(/keeper:[\s\S]*?\n(?=\S)/, `keeper:\n  name: ${keeper}\n  telephone: "${telephone}"\n  language: en\n`));
    visit('a-old.yaml', 'Ñandú', 'José Muñoz', '2025-01-10', '+1 555-0142');
    visit('b-new.yaml', 'Ñandú', 'José Muñoz', '2026-03-01', '+1 555-0142');
    visit('z-today.yaml', 'Ñandú', 'José Muñoz', TODAY, '+1 555-0142');
    for (const letters of ['nandu', 'munoz nandu', 'NANDÚ jose', '555 0142', '555-0142', 'python nandu', 'nandu regius']) {
        await hand.open('#/today', '#find');
        await page.locator('#find').pressSequentially(letters);
        await page.keyboard.press('Enter'); // at once, before anything can be shown
        await page.locator('.part-visit').waitFor();
        assert.equal(await page.evaluate(() => location.hash), '#/record/z-today.yaml', letters);
    }
    await hand.open('#/today', '#find');
    await page.locator('#find').fill('nandu');
    await page.locator('.visits tbody tr').nth(2).waitFor();
    assert.deepEqual(await page.locator('.visits tbody td:nth-of-type(3)').allInnerTexts(), [TODAY, '2026-03-01', '2025-01-10']);
    await hand.look('found');
}

/** A species that was typed into a record's file by any of its names is found by all of them, shown by its own, and has its findings. */
async function typedByHand() {
    const text = desk.read(BISCUIT);
    assert.match(text, /species: ball-python/);
    for (const [file, species] of [['y-royal.yaml', 'royal python'], ['y-latin.yaml', 'Python regius']])
        writeFileSync(join(desk.folder, file), text.replace(/species: ball-python/, `species: ${species}`).replace(/name: Biscuit/, 'name: Yarrow').replace(/date: [\d-]+/, `date: ${TODAY}`));
    for (const letters of ['yarrow royal', 'yarrow regius', 'ball yarrow', 'yarrow']) {
        await hand.open('#/today', '#find');
        await page.locator('#find').fill(letters);
        // the day's own list stands there until the search has narrowed it
        await page.waitForFunction(() => document.querySelectorAll('.visits tbody tr').length === 2, null, {timeout: 10000});
        assert.deepEqual(await page.locator('.visits tbody td:nth-of-type(1)').allInnerTexts(), ['ball python', 'ball python'], letters);
    }
    for (const file of ['y-royal.yaml', 'y-latin.yaml']) {
        await open(file);
        assert.match(await page.locator('.about').innerText(), /^ball python · /);
        assert.match(await value('patient.species'), /^ball python/);
        assert.ok(await page.locator('.system-toggle').count() > 5, 'its findings are there');
        assert.equal(await page.locator('.stranger').count(), 0, 'what was found is known of it');
        await page.locator('.plan li').first().waitFor();
    }
}

/** 28 under a default of F is no reading of 28 F; and one record keeps to one way of measuring. */
async function unitsThatCannotBe() {
    await hand.open('#/new', '.part-visit');
    await page.locator(field('keeper.units')).selectOption('us');
    assert.equal(await page.locator('[data-path="enclosure.readings.warm-side"] .unit').inputValue(), 'F');
    await page.locator(field('patient.name')).fill('Moss');
    await page.locator(field('patient.species')).fill('Python regius');
    await page.locator(field('enclosure.readings.warm-side')).fill('28');
    const fault = page.locator('[data-path="enclosure.readings.warm-side"] .fault:not([hidden])');
    await fault.waitFor();
    assert.match(await fault.innerText(), /28 C/);
    await hand.picture('unit');
    await page.locator('[data-path="enclosure.readings.warm-side"] .unit').selectOption('C');
    await fault.waitFor({state: 'detached'}).catch(() => {});
    await page.waitForFunction(() => document.querySelector('[data-path="enclosure.readings.warm-side"] .fault').hidden);
    assert.equal(await page.locator('[data-path="enclosure.readings.night"] .unit').inputValue(), 'C', 'the rest of the record follows');
    await page.evaluate(() => (globalThis.confirm = () => true));
    await page.locator('#discard').click();
    await page.locator('.today').waitFor();
}

/** A double click and two windows make one record. */
async function oneRecord() {
    const before = readdirSync(desk.folder).length;
    await hand.open('#/new', '.part-visit');
    await page.locator(field('patient.name')).fill('New');
    await page.locator(field('patient.species')).fill('royal python'); // as forgiving as a list of a shelter
    await hand.kept(w);
    await page.waitForFunction(() => location.hash.startsWith('#/draft/'));
    const other = await page.context().newPage();
    await other.goto(page.url());
    await other.locator('.part-visit').waitFor();
    await other.locator('.says', {hasText: w.kept}).waitFor();
    await page.locator('#save').dblclick();
    await page.waitForFunction(() => location.hash.startsWith('#/record/'));
    await other.locator('#save').dblclick();
    await other.waitForFunction(() => location.hash.startsWith('#/record/'));
    const made = readdirSync(desk.folder).filter((one) => one.startsWith('new-') && one.endsWith('.yaml'));
    assert.deepEqual(made, [`new-${TODAY}.yaml`], 'a record of an animal called New is no draft');
    assert.equal(readdirSync(desk.folder).length, before + 2, 'a record and its log');
    await other.close();
    await open(made[0]);
    await page.locator(field('message')).fill('more');
    await hand.kept(w);
    await page.reload();
    await page.locator('.part-visit').waitFor();
    assert.equal(await value('message'), 'more');
}

/** The desk's answers under an address wait until the function that is given back is called. */
async function hold(address) {
    let letGo;
    const gone = new Promise((done) => (letGo = done));
    await page.route(address, async (route) => { await gone; await route.continue(); });
    return async () => {
        const answered = page.waitForResponse(address);
        letGo();
        await (await answered).finished();
        await page.unroute(address);
        await page.waitForTimeout(MOMENT_MS); // what is drawn of it is drawn by now
    };
}

/** A view that comes late is not drawn over the one that was asked for after it. */
async function comesLate() {
    await hand.open('#/today', '#find');
    const record = await hold('**/api/record?*');
    await page.evaluate((to) => (location.hash = `#/record/${to}`), BISCUIT);
    await page.waitForTimeout(MOMENT_MS);
    await page.evaluate(() => (location.hash = '#/shelter'));
    await record();
    await page.locator('.drop-zone #list-file').waitFor();
    assert.equal(await page.locator('.part-visit').count(), 0);
}

/** A list that is dropped while the language changes is there in the new one. */
async function droppedMeanwhile() {
    await hand.open('#/shelter', '.drop-zone');
    const start = await hold('**/api/start?*'), drop = await hold('**/api/shelter/drop?*');
    await page.locator('#language').selectOption('es');
    await page.locator('#list-file').setInputFiles(join(root, 'templates/rosters/spring-day.csv'));
    await start();
    await drop();
    await page.locator('html[lang="es"] .visits tbody tr').first().waitFor();
    assert.match(page.url(), /#\/shelter\/[0-9a-f]+$/);
    await hand.language('en');
}

/** Without a name at the top, the name is asked for where it is needed, and the work goes on. */
async function asksForTheName() {
    await name('');
    await open(JUNIPER);
    await page.locator(field('patient.mass')).fill('55');
    await page.locator('#save').click();
    await page.locator('#who-asked').fill('Ana Brook');
    await hand.look('name-asked');
    await page.locator('#who-do').click();
    await hand.says(w.saved);
    assert.match(desk.read('juniper-adoption.log'), /saved\tAna Brook/);
}

await run('nothing typed is lost, and nothing is done to the wrong record', async (...all) => {
    [hand, desk] = all;
    page = hand.page;
    w = await desk.words('en');
    await hand.open('#/today', '#find');
    await hand.language('en');
    await comesLate();
    await droppedMeanwhile();
    await twoWindowsOneVisit();
    await pastedSigns();
    await signsWhatItShows();
    await findsTheRightOne();
    await typedByHand();
    await unitsThatCannotBe();
    await name();
    await oneRecord();
    await asksForTheName();
    await killedWhileTyping();
});
