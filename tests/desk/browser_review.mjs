// A review of a species sheet at the desk, by keyboard: from the list to a signed sheet that says who confirmed its numbers, and on which day.
//
//   node browser_review.mjs BASKLEAF FOLDER [SCREENSHOTS]
//
// Exit status: 0 good, 1 not, 77 skipped with the reason.
import {spawnSync} from 'node:child_process';
import {mkdtempSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import {join} from 'node:path';
import assert from 'node:assert/strict';
import {addPeople, enter, run, TODAY} from './stage.mjs';

const PEOPLE = [['Ana Brook', 'reception', 'four plain words here'], ['Dr Ines Calder', 'veterinarian', 'another four words now']];
const BISCUIT = 'biscuit-ball-python.yaml';
const own = mkdtempSync(join(tmpdir(), 'own-'));
process.on('exit', () => rmSync(own, {recursive: true, force: true}));

await run('a species sheet reviewed at the desk, from the list to a signed sheet', async (hand, desk) => {
    process.env.NODE_TLS_REJECT_UNAUTHORIZED = '0'; // the desk's own certificate
    const {page} = hand;
    const w = await desk.words('en');
    const press = (key) => page.keyboard.press(key);
    const left = async () => Number(/(\d+) \//.exec(await page.locator('.review-count').innerText())[1]);

    // reception reads, and changes nothing
    await enter(page, desk.address, PEOPLE[0]);
    await hand.open('#/review/ball-python', '.value');
    await hand.language('en');
    await page.locator('.remark', {hasText: w['review.veterinarian-only']}).waitFor();
    assert.equal(await page.locator('.confirm, .change').count(), 0);
    await page.locator('#log-out').click();
    await page.locator('dialog.lock').waitFor();
    await enter(page, desk.address, PEOPLE[1]);

    // by keyboard: the list of species, the sheet, the value that could do most harm
    await hand.open('#/today', '#find');
    await hand.tabTo('#head nav a[href="#/review"]');
    await press('Enter');
    await page.locator('.review table').waitFor();
    await hand.look('species');
    await hand.tabTo('a[href="#/review/ball-python"]');
    await press('Enter');
    await page.locator('.value').first().waitFor();
    assert.equal(await page.locator('.value').first().getAttribute('data-key'), 'temperature.basking-surface');
    const first = page.locator('[data-key="temperature.basking-surface"]');
    for (const text of ['32–34 °C', w['review.source'], w['review.disagrees'], '33 °C', w['review.says']])
        await first.getByText(text, {exact: false}).first().waitFor();
    const begun = await left();
    assert.equal(begun, await page.locator('.value.open').count());
    await hand.tabTo('#review-edition');
    await page.keyboard.type('Handbook of Reptile Care, 2nd edition');
    await hand.tabTo('[data-key="temperature.warm-side"] .confirm');
    await press('Enter');
    await hand.says(w['review.done']);
    assert.equal(await left(), begun - 1);
    assert.ok(await page.evaluate(() => document.activeElement.closest('.value.open')), 'the work goes on at what is left');

    // what cannot be is refused beside what was typed; then it is changed
    await hand.tabTo('[data-key="temperature.basking-surface"] .change summary');
    await press('Enter');
    await press('Tab');
    assert.equal(await page.evaluate(() => document.activeElement.value), '32-34 C');
    await press('Control+A');
    await page.keyboard.type('34-60 C');
    await press('Enter');
    await page.locator('#told.trouble', {hasText: w['refused.value-refused']}).waitFor();
    assert.equal(await left(), begun - 1);
    await press('Control+A');
    await page.keyboard.type('33-35 C');
    await press('Enter');
    await page.locator('.settled [data-key="temperature.basking-surface"]').waitFor({state: 'attached'});
    assert.equal(await left(), begun - 2);
    const sheet = readFileSync(join(own, 'ball-python.yaml'), 'utf8');
    for (const line of ['by: Dr Ines Calder', `on: ${TODAY}`, 'Handbook of Reptile Care, 2nd edition', 'value: 33-35 C'])
        assert.ok(sheet.includes(line), line);

    for (const lang of ['es', 'fr', 'en']) {
        await hand.language(lang);
        await page.locator('.value').first().waitFor();
        for (const details of await page.locator('.review details').all())
            await details.evaluate((one) => (one.open = true));
        for (const width of [390, 768, 1280]) {
            await page.setViewportSize({width, height: 900});
            await hand.look(`review-${lang}-${width}`);
        }
    }
    await hand.open('#/review', '.review table');
    await page.setViewportSize({width: 390, height: 900});
    await hand.look('species-390');
    await page.setViewportSize({width: 1280, height: 900});

    // the sheet of a visit says so once it is signed
    await hand.open(`#/record/${BISCUIT}`, '.part-visit');
    await page.locator('#sign').click();
    await page.locator('#sign-do').click();
    await page.locator('.record .state-ready').waitFor();
    const bytes = await page.evaluate(async (name) => [...new Uint8Array(await (await fetch(`/api/sheet?name=${name}`)).arrayBuffer())], BISCUIT);
    writeFileSync(join(own, 'sheet.pdf'), Buffer.from(bytes));
    const text = spawnSync('pdftotext', ['-raw', join(own, 'sheet.pdf'), '-'], {encoding: 'utf8'}).stdout.replace(/\s+/g, ' ');
    assert.match(text, /Numbers for this species reviewed by your clinic: Dr Ines Calder, on 20 Mar 2026\./);
    assert.ok(text.includes(`${begun - 2} numbers are still common practice`), text);
    assert.match(text, /Checked and signed by Dr Ines Calder/);
}, ['--allow-remote', '--species-dir', own], (folder) => addPeople(folder, PEOPLE));
