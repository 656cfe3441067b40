// Two people on two machines over TLS: their roles, their names in the log, the lock of an idle desk.
//
//   node browser_people.mjs BASKLEAF FOLDER [SCREENSHOTS]
//
// Exit status: 0 good, 1 not, 77 skipped with the reason.
import assert from 'node:assert/strict';
import {addPeople, enter, field, run} from './stage.mjs';

const BISCUIT = 'biscuit-ball-python.yaml';
const PEOPLE = [['Ana Brook', 'reception', 'four plain words here'], ['Dr Ines Calder', 'veterinarian', 'another four words now'], ['Sam Reyes', 'shelter', 'and some more of them']];

await run('two people on two origins over TLS, each with what is theirs to do', async (hand, desk, browser) => {
    process.env.NODE_TLS_REJECT_UNAUTHORIZED = '0'; // the desk's own certificate
    const {page} = hand;
    const w = await desk.words('en');
    const port = desk.port;
    const reception = `https://127.0.0.1:${port}/`, examination = `https://localhost:${port}/`;
    await page.goto(reception);
    await page.locator('dialog.lock').waitFor();
    await hand.look('login');
    await page.locator('#login-name').fill('Ana Brook');
    await page.locator('#login-passphrase').fill('not the right one');
    await page.keyboard.press('Enter');
    await page.locator('dialog .told.trouble', {hasText: w['refused.wrong-passphrase']}).waitFor();
    await enter(page, reception, PEOPLE[0]);
    await page.locator('#person', {hasText: 'Ana Brook'}).waitFor();

    const other = await (await browser.newContext({ignoreHTTPSErrors: true})).newPage();
    await enter(other, examination, PEOPLE[1]);

    // reception writes, and cannot sign
    await page.goto(`${reception}#/record/${BISCUIT}`);
    await page.locator('.part-visit').waitFor();
    await page.locator(field('message')).fill('From the front desk.');
    await page.locator('#save').click();
    await hand.says(w.saved);
    await page.locator('#sign').click();
    await page.locator('#told.trouble', {hasText: w['refused.not-a-veterinarian']}).waitFor();
    await hand.look('record-reception');

    // the veterinarian on the other machine sees it and signs, under her own name alone
    await other.goto(`${examination}#/record/${BISCUIT}`);
    await other.locator('.part-visit').waitFor();
    assert.equal(await other.locator(field('message')).inputValue(), 'From the front desk.');
    await other.locator('#sign').click();
    assert.equal(await other.locator('#sign-by').inputValue(), 'Dr Ines Calder');
    assert.equal(await other.locator('#sign-by').getAttribute('readonly'), '');
    await other.locator('#sign-do').click();
    await other.locator('.record .state-ready').waitFor();
    assert.match(desk.read(BISCUIT.replace('.yaml', '.log')), /saved\tAna Brook[\s\S]*signed\tDr Ines Calder/);

    // an idle desk locks; what was typed is there for whoever comes back
    await page.reload();
    await page.locator('.part-visit').waitFor();
    await page.locator(field('message')).fill('Half a sentence');
    await hand.kept(w);
    await page.route('**/api/start*', async (route) => {
        const answer = await route.fetch();
        await route.fulfill({response: answer, json: {...await answer.json(), idle: 1}});
    });
    await page.reload();
    await page.locator('dialog.lock').waitFor();
    await hand.picture('locked');
    const status = await page.evaluate(async (name) => (await fetch(`/api/record?name=${name}`)).status, BISCUIT);
    assert.equal(status, 401, 'behind the lock nothing is answered');
    await page.unroute('**/api/start*');
    await page.locator('#login-passphrase').fill(PEOPLE[0][2]);
    await page.keyboard.press('Enter');
    await page.locator('dialog.lock').waitFor({state: 'detached'});
    assert.equal(await page.locator(field('message')).inputValue(), 'Half a sentence');

    // the shelter sees its lists alone
    await page.locator('#log-out').click();
    await page.locator('dialog.lock').waitFor();
    await enter(page, `${reception}#/today`, PEOPLE[2]);
    await page.locator('.drop-zone').waitFor();
    assert.equal(await page.locator('#head nav a').count(), 1);
    await hand.look('shelter-person');
}, ['--allow-remote'], (folder) => addPeople(folder, PEOPLE));
