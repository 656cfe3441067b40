// The jobs of a day, counted: clicks, keys and fields.
//
//   node browser_jobs.mjs BASKLEAF FOLDER [SCREENSHOTS]
//
// Exit status: 0 good, 1 not, 77 skipped with the reason.
import {writeFileSync} from 'node:fs';
import {join} from 'node:path';
import assert from 'node:assert/strict';
import {field, run} from './stage.mjs';

const BISCUIT = 'biscuit-ball-python.yaml';
let hand, page, desk, w;
const counts = {clicks: 0, keys: 0, fields: 0};

async function click(selector) {
    counts.clicks++;
    await page.locator(selector).first().click();
}

async function type(selector, text) {
    counts.fields++;
    counts.keys += text.length;
    await page.locator(selector).fill(text);
}

function told(job, most) {
    console.log(`${job}: ${counts.clicks} clicks, ${counts.keys} keys, ${counts.fields} fields`);
    assert.ok(counts.clicks <= most, `${job} takes ${counts.clicks} clicks, more than ${most}`);
    Object.assign(counts, {clicks: 0, keys: 0, fields: 0});
}

async function signed(name) {
    const {token} = await (await fetch(`${desk.address}api/start`)).json();
    const {version} = await (await fetch(`${desk.address}api/record?name=${name}`)).json();
    const headers = {'Origin': desk.address.replace(/\/$/, ''), 'X-Desk-Token': token};
    const answer = await fetch(`${desk.address}api/sign`, {method: 'POST', headers, body: JSON.stringify({name, version, by: 'Dr Ines Calder'})});
    assert.equal(answer.status, 200);
}

/** A sheet that is ready, from the list of the day to the printer. */
async function printOne() {
    await signed(BISCUIT);
    await page.evaluate(() => localStorage.setItem('desk-who', 'Ana Brook'));
    await hand.open('#/day/2026-03-14', '.state-ready');
    await hand.picture('row-to-print');
    await click('.row-print');
    await page.locator('.visits .state-printed').first().waitFor();
    await hand.look('row-printed');
    told('print a ready sheet', 3);
}

/**
 * A table in a shelter's own words as four dialects write it: text by RFC 4180 with a mark (UTF-8); the same with semicolons, decimal
 * commas and Windows-1252 where the comma is taken; text with tabs in UTF-16; every text quoted, lines ended by LF alone.
 */
const DIALECTS = {
    'UTF-8 with a mark, commas': ['utf8', '\ufeff', ',', '.', '\r\n', false],
    'Windows-1252, semicolons, decimal commas': ['latin1', '', ';', ',', '\r\n', false],
    'UTF-16 with a mark, tabs': ['utf16le', '\ufeff', '\t', ',', '\r\n', false],
    'UTF-8, all quoted, LF': ['utf8', '', ',', '.', '\n', true],
};

/** Untouched, as it was exported: to one file for the printer. */
async function fortyAnimals(dialect) {
    const [encoding, mark, separator, point, end, isQuoted] = DIALECTS[dialect];
    const rows = [['Animal name', 'Breed', 'Gender', 'Age', 'Weight (kg)', 'New owner']];
    for (let i = 0; i < 40; i++)
        rows.push([`\u00d1and\u00fa ${i}`, ['leopard gecko', 'royal python', 'corn snake'][i % 3], 'MF'[i % 2], ['2 yrs', '18 mo'][i % 2], `0${point}${50 + i}`, `Jos\u00e9 ${i}`]);
    const text = rows.map((row) => row.map((cell) => (isQuoted ? `"${cell}"` : cell)).join(separator) + end).join('');
    const file = join(desk.tray, `${encoding}-${isQuoted}.csv`);
    writeFileSync(file, Buffer.from(mark + text, encoding));
    await hand.open('#/today', '#find');
    await page.evaluate(() => localStorage.removeItem('desk-signer'));
    await click('#head nav a[href="#/shelter"]');
    await page.locator('.drop-zone').waitFor();
    await click('label[for="list-file"]');
    await page.locator('#list-file').setInputFiles(file);
    await page.locator('#list-by').waitFor();
    assert.equal(await page.locator('.visits tbody tr').count(), 40);
    assert.equal(await page.locator('.visits tbody th').first().innerText(), '\u00d1and\u00fa 0', 'no letter is another one');
    assert.equal(await page.locator('.visits .state-printed').count(), 40, 'no row has a fault');
    await hand.look(`list, ${dialect}`);
    await type('#list-by', 'Dr Ines Calder');
    await click('#list-sign');
    await page.locator('.progress', {hasText: w['shelter.made']}).waitFor();
    const [sheet] = await Promise.all([page.context().waitForEvent('page'), click('#list-print')]);
    const answer = await fetch(`${desk.address}${(await page.locator('#list-print').getAttribute('href')).slice(1)}`);
    assert.equal(answer.headers.get('Content-Type'), 'application/pdf');
    await sheet.close();
    told(`forty animals from a spreadsheet (${dialect}) to one file`, 6);
}

async function fortyAnimalsOfEach() {
    for (const dialect of Object.keys(DIALECTS))
        await fortyAnimals(dialect);
}

/** A workbook is named as such, with what to do. */
async function workbook() {
    await hand.open('#/shelter', '.drop-zone');
    await page.locator('#list-file').setInputFiles({name: 'animals.xlsx', mimeType: 'application/octet-stream', buffer: Buffer.from('PK\u0003\u0004 and more')});
    await page.locator('#told.trouble', {hasText: w['refused.list-is-workbook']}).waitFor();
}

/** A whole examination of a snake beside the notes: two findings, all else fine, a heart rate, a note on what is fine; and a step back. */
async function exam() {
    await hand.open('#/new', '.part-visit');
    await type(field('patient.name'), 'Sorrel');
    await type(field('patient.species'), 'Ball python');
    await type(field('patient.mass'), '1450');
    await page.locator('.system-toggle').first().waitFor();
    await hand.picture('exam-shut');
    Object.assign(counts, {clicks: 0, keys: 0, fields: 0});
    await click('#system-body-condition');
    await click('[data-code="overweight"] input[value="mild"]');
    await click('#system-skin');
    await click('[data-code="retained-shed"] input[value="mild"]');
    await type('[data-code="retained-shed"] .word-where input', 'tail');
    for (const one of await page.locator('.all-fine-here').all()) {
        const before = await page.locator('.all-fine-here').count();
        await click('.all-fine-here');
        assert.equal(await page.locator('.all-fine-here').count(), before - 1, String(one));
    }
    await hand.look('exam');
    const record = await (async () => {
        await hand.kept(w);
        const draft = await page.evaluate(() => location.hash.slice(8));
        return (await (await fetch(`${desk.address}api/record?draft=${draft}`)).json()).drafts[0].record;
    })();
    const fine = record.findings.filter((one) => one.severity === 'normal').map((one) => one.code);
    assert.ok(fine.includes('breathing') && fine.includes('mouth') && !fine.includes('body-condition'), `no opposite of what was found: ${fine}`);
    told('a whole examination', 20);

    // a note on what is fine, and a number
    await page.locator('#system-heart').click();
    await page.locator('[data-code="heart"] .add-note').click();
    await page.locator('[data-code="heart"] textarea').fill('Doppler, quiet.');
    await page.locator('[data-code="heart-rate"] input[value="normal"]').check();
    await page.locator('[data-code="heart-rate"] .word-value input').fill('38');
    await hand.kept(w);
    // every click is undone, with the button and with the keys
    await page.locator('[data-code="heart-rate"] input[value=""]').check();
    assert.equal(await page.locator('[data-code="heart-rate"] .word-value').count(), 0);
    await page.locator('#undo').click();
    assert.equal(await page.locator('[data-code="heart-rate"]').count() || await page.locator('#system-heart').click().then(() => page.locator('[data-code="heart-rate"]').count()), 1);
    assert.equal(await page.locator('[data-code="heart-rate"] .word-value input').inputValue(), '38');
    await page.locator('[data-code="heart"] input[value=""]').check();
    await page.keyboard.press('Control+z');
    await page.locator('#told', {hasText: w.undone}).waitFor();
    if (!await page.locator('[data-code="heart"]').count())
        await page.locator('#system-heart').click();
    assert.equal(await page.locator('[data-code="heart"] textarea').inputValue(), 'Doppler, quiet.');
}

/** An animal that was here before: one click, and only what is new is typed; then voided, and another keeper forgotten. */
async function asLastTime() {
    await hand.open('#/new', '.part-visit');
    await type(field('patient.name'), 'biscuit');
    await click('#as-last-visit');
    await page.locator('.last-visit', {hasText: w['last.taken']}).waitFor();
    await type(field('patient.mass'), '1900');
    await hand.kept(w);
    assert.equal(await page.locator(field('keeper.name')).inputValue(), 'Rosa Lind');
    assert.equal(await page.locator(field('enclosure.readings.night')).inputValue(), '', 'a reading of then is none of today');
    assert.equal(await page.locator('.some-found').count(), 0);
    await hand.look('as-last-visit');
    await click('#save');
    await page.waitForFunction(() => location.hash.startsWith('#/record/biscuit-2026-03-20'));
    told('a visit as last time', 3);

    await page.locator('details summary', {hasText: w.seldom}).click();
    await page.locator('#void').click();
    await page.locator('#void-do').click();
    await page.locator('dialog .told.trouble', {hasText: w['refused.why-is-missing']}).waitFor();
    await page.locator('#void-why').fill('entered twice');
    await hand.look('void');
    await page.locator('#void-do').click();
    await hand.says(w['void.done']);
    await hand.open(`#/record/${BISCUIT}`, '.part-visit');
    await page.locator('details summary', {hasText: w.seldom}).click();
    const [download] = await Promise.all([page.waitForEvent('download'), page.locator('#keeper-export').click()]);
    assert.equal(await download.failure(), null);
    await page.locator('#forget').click();
    await page.locator('#forget-name').fill('Rosa');
    await page.locator('#forget-do').click();
    await page.locator('dialog .told.trouble', {hasText: w['refused.not-the-name']}).waitFor();
    await hand.look('forget');
    await page.locator('#forget-name').fill('Rosa Lind');
    await page.locator('#forget-do').click();
    await hand.says(w['forget.done']);
    await page.locator('.today').waitFor();
    assert.equal((await (await fetch(`${desk.address}api/visits?find=biscuit`)).json()).found, 0);
}

/** The veterinarian decides in the live plan: leaves out, puts back, moves, says otherwise, adds, steps back; saves and signs there. */
async function decides() {
    await hand.open(`#/record/ember-bearded-dragon.yaml`, '.plan ol li');
    await page.evaluate(() => localStorage.setItem('desk-who', 'Ana Brook'));
    const codes = () => page.locator('.plan li[data-action]').evaluateAll((all) => all.map((one) => one.dataset.action));
    const comes = (wanted) => page.waitForFunction((list) => list === [...document.querySelectorAll('.plan li[data-action]')].map((one) => one.dataset.action).join('|'), wanted.join('|'));
    const begun = await codes();
    assert.ok(begun.length > 3, begun.join());
    await click(`[data-action="${begun[0]}"] .plan-strike`);
    await click('#own-do');
    await page.locator('dialog .told.trouble', {hasText: w['refused.why-is-missing']}).waitFor();
    await type('#own-because', 'The keeper has none.');
    await click('#own-do');
    // the thermostat is one of the first three then, and stands before the heat that it makes safe
    assert.deepEqual(begun.slice(2), ['warm-basking', 'add-thermostat']);
    await comes([begun[1], begun[3], begun[2]]);
    await page.locator('.plan-struck').waitFor();
    await click('.plan-back');
    await comes(begun);
    await click(`[data-action="${begun[2]}"] .plan-earlier`);
    await comes([begun[0], begun[2], begun[1], ...begun.slice(3)]);
    assert.equal(await page.evaluate(() => document.activeElement.closest('li').dataset.action), begun[2], 'the hand stays at what it moved');
    await page.keyboard.press('Control+z');
    await comes(begun);
    await click(`[data-action="${begun[1]}"] .plan-reword`);
    await type('#own-words', 'Lamp off until we call.');
    await type('#own-because', 'It is too strong.');
    await hand.look('own-words');
    await click('#own-do');
    await comes([begun[0], 'Lamp off until we call.', ...begun.slice(2)]);
    await click('#plan-add');
    await type('#own-words', 'Bring the lamp along.');
    await click('#own-do');
    await comes([begun[0], 'Lamp off until we call.', ...begun.slice(2), 'Bring the lamp along.']);
    await hand.look('decided');
    await page.locator('#save').click();
    await hand.says(w.saved);
    const text = desk.read('ember-bearded-dragon.yaml');
    for (const line of [`action: ${begun[1]}`, 'strike: yes', 'because: It is too strong.', 'do: Lamp off until we call.', 'do: Bring the lamp along.'])
        assert.ok(text.includes(line), line);
    await page.locator('.record .state-sign').waitFor();
    await click('#plan-sign');
    await type('#sign-by', 'Dr Ines Calder');
    await click('#sign-do');
    await page.locator('.record .state-ready').waitFor();
    Object.assign(counts, {clicks: 0, keys: 0, fields: 0});
}

/** Each settled topic stands in the live plan in plain words; the veterinarian puts another stance there, with a reason, a day and a second yes. */
async function decidesTopics() {
    await hand.open('#/record/biscuit-ball-python.yaml', '.plan li[data-topic]');
    await page.evaluate(() => localStorage.setItem('desk-who', 'Ana Brook'));
    const food = page.locator('li[data-topic="food"]');
    const choose = async (stance, until, why) => {
        await click('li[data-topic="food"] .topic-decide');
        await page.locator('#stance').selectOption(stance);
        await page.locator('#stance-until').fill(until);
        await page.locator('#own-because').fill(why);
        await click('#own-do');
    };
    if (!await food.isVisible())
        await page.locator('.topics-usual summary').click();
    await food.waitFor();
    assert.match(await food.innerText(), /^Food: /);
    const begun = await food.innerText();
    await choose('', '', '');
    await page.locator('dialog .told.trouble', {hasText: w['refused.stance-is-missing']}).waitFor();
    await page.locator('#stance').selectOption({label: 'half meals'});
    await click('#own-do');
    await page.locator('dialog .told.trouble', {hasText: w['refused.why-is-missing']}).waitFor();
    await type('#own-because', 'It gains too fast.');
    await hand.look('topic');
    await click('#own-do');
    await page.locator('li[data-topic="food"] .decided-by', {hasText: 'Decided by Dr Ines Calder: It gains too fast.'}).waitFor();
    assert.match(await food.innerText(), /^Food: half meals/);
    assert.equal(await page.evaluate(() => document.activeElement.closest('li')?.dataset.topic), 'food', 'the hand stays at its topic');
    await page.keyboard.press('Control+z');
    await page.waitForFunction((text) => document.querySelector('li[data-topic="food"]')?.innerText === text, begun);

    // a pause needs a day, and a second yes; without it nothing was decided
    await choose('rest-until', '', 'The gut must rest.');
    await page.locator('dialog .told.trouble', {hasText: w['refused.end-is-missing']}).waitFor();
    await page.locator('#stance-until').fill('2026-03-28');
    await click('#own-do');
    await page.locator('#second-yes').waitFor();
    await hand.look('second-yes');
    await click('dialog .cancel');
    await page.waitForFunction((text) => document.querySelector('li[data-topic="food"]')?.innerText === text, begun);
    await choose('rest-until', '2026-03-28', 'The gut must rest.');
    await click('#second-yes');
    await page.locator('li[data-topic="food"] .decided-by', {hasText: `The gut must rest. (${w['plan.second-yes.given']})`}).waitFor();
    assert.match(await food.innerText(), /^Food: pause, the gut rests, until 28\sMar\s2026/);
    for (const lang of ['es', 'fr', 'en']) {
        await hand.language(lang);
        await food.waitFor({state: 'attached'});
        await hand.look(`topics-${lang}`);
    }
    await click('li[data-topic="food"] .topic-take-back');
    await page.waitForFunction((text) => document.querySelector('li[data-topic="food"]')?.innerText === text, begun);
    await choose('small', '', 'It gains too fast.');
    await page.locator('li[data-topic="food"] .decided-by').waitFor();
    await page.locator('#save').click();
    await hand.says(w.saved);
    const text = desk.read('biscuit-ball-python.yaml');
    for (const line of ['topic: food', 'stance: small', 'because: It gains too fast.'])
        assert.ok(text.includes(line), line);
    assert.ok(!text.includes('confirmed'), 'the yes was for the pause');
    Object.assign(counts, {clicks: 0, keys: 0, fields: 0});
}

/** A probe shows the sex: it is asked for at the tick, and stands on the animal; each choice steps back. */
async function probeSetsSex() {
    await hand.open('#/new', '.part-visit');
    await page.locator(field('patient.name')).fill('Sorrel');
    await page.locator(field('patient.species')).fill('Ball python');
    await page.locator('input[value="sexed-by-probe"]').check();
    await page.locator('.sex-found input[value="male"]').check();
    assert.equal(await page.locator(field('patient.sex')).inputValue(), 'male');
    await page.locator('#undo').click();
    assert.equal(await page.locator(field('patient.sex')).inputValue(), '');
    await page.locator(field('patient.mass')).fill('1450');
    const unit = page.locator('[data-path="patient.mass"] .unit');
    await unit.selectOption('kg');
    await page.locator('#undo').click();
    assert.equal(await unit.inputValue(), 'g', 'a unit chosen is taken back too');
    await page.evaluate(() => (globalThis.confirm = () => true));
    await hand.kept(w);
    await page.locator('#discard').click();
    await page.locator('.today').waitFor();
}

/** Midnight: whoever looks at today looks at the new day. */
async function midnight() {
    await hand.open('#/today', '#find');
    const before = await page.locator('h1').innerText();
    const turned = async (route) => {
        const answer = await route.fetch();
        await route.fulfill({response: answer, json: {...await answer.json(), today: '2026-03-21'}}).catch(() => {}); // asked for when all is over
    };
    await page.route('**/api/visits*', turned);
    await page.waitForFunction((text) => document.querySelector('h1').innerText !== text, before);
    assert.match(await page.locator('h1').innerText(), /21/);
    await page.unrouteAll({behavior: 'ignoreErrors'});
}

/** How often Tab is pressed until what has the focus is wanted; on the way a link that skips is taken where `takes` says so. */
async function tabsTo(wanted, takes = null) {
    const isAt = (selector) => page.evaluate((one) => document.activeElement.matches(one), selector);
    for (let tabs = 1; tabs < 500; tabs++) {
        await page.keyboard.press('Tab');
        if (takes && await isAt(takes))
            await page.keyboard.press('Enter');
        if (await isAt(wanted))
            return tabs;
    }
    return assert.fail(`${wanted} is not reached`);
}

/** All stops of a record are many; nobody has to pass them. */
async function fewStops() {
    const begin = () => page.locator('#content').focus();
    await begin();
    const all = await tabsTo('#show-sheet');
    const parts = await page.locator('section.part').count();
    await begin();
    const skipping = await tabsTo('#plan-title', '.skip-part');
    console.log(`a record of ${parts} parts: ${all} stops to the sheet, ${skipping} from part to part to the plan`);
    assert.ok(skipping <= 25, `${skipping} stops to the plan`);
    for (const key of await page.locator('section.part').evaluateAll((all) => all.map((one) => one.id.slice('part-of-'.length)))) {
        await begin();
        const tabs = await tabsTo(`[data-part="${key}"]`);
        await page.keyboard.press('Enter');
        assert.equal(await page.evaluate(() => document.activeElement.id), `part-${key}`);
        assert.ok(tabs <= 20, `${key} is ${tabs} stops away`);
    }
    await begin();
    assert.ok(await tabsTo('[data-part="plan"]') <= 20);
    await page.keyboard.press('Enter');
    assert.equal(await page.evaluate(() => document.activeElement.id), 'plan-title');
}

/** A fault is said to those who do not see it beside its field, once, and that it is gone. */
async function faultsAreSaid() {
    await hand.open('#/record/juniper-adoption.yaml', '.part-visit');
    await page.locator('#faults-said').evaluate((place) => {
        globalThis.said = [];
        new MutationObserver(() => globalThis.said.push(place.textContent)).observe(place, {childList: true, characterData: true, subtree: true});
    });
    assert.equal(await page.locator('#faults-said').getAttribute('role'), 'status');
    await page.locator(field('keeper.email')).fill('nobody');
    await page.waitForFunction(() => globalThis.said.length);
    await page.locator(field('message')).fill('More words.');
    await hand.kept(w);
    await page.waitForTimeout(900);
    const [first, ...more] = await page.evaluate(() => globalThis.said);
    assert.match(first, /^Mail address: .*example\.org/);
    assert.deepEqual(more, [], 'what was said is not said again');
    await page.locator(field('keeper.email')).fill('sam.reyes@example.org');
    await page.waitForFunction((none) => globalThis.said.at(-1) === none, w['faults.none']);
    await page.evaluate(() => (globalThis.confirm = () => true));
    await page.locator('#discard').click();
    await page.locator('#discard').waitFor({state: 'detached'});
}

/** Few stops on the way to the part that is wanted, and the plan a click away at every width. */
async function stopsAndPlan() {
    await hand.open(`#/record/${BISCUIT}`, '.part-visit');
    await fewStops();
    await page.locator('.part-links .link', {hasText: w['part.targets']}).click();
    assert.equal(await page.evaluate(() => document.activeElement.id), 'part-targets');
    for (const width of [390, 768, 1024]) {
        await page.setViewportSize({width, height: 800});
        await hand.fits(`record-${width}`);
        await page.locator('#plan-open').click();
        assert.ok(await page.locator('#show-sheet').isVisible());
        await hand.look(`plan-over-${width}`);
        await page.locator('#plan-open').click();
        assert.equal(await page.locator('#show-sheet').isVisible(), false);
    }
    await page.setViewportSize({width: 1280, height: 900});
    assert.ok(await page.locator('#show-sheet').isVisible());
}

/** The open plan scrolls: what lies last in it is turned to with the wheel and clicked, above the button that shuts it. */
async function planScrolls() {
    for (const [width, height] of [[1024, 600], [390, 700]]) {
        await page.setViewportSize({width, height});
        await hand.open(`#/record/${BISCUIT}`, '.plan ol li', 'attached');
        await page.locator('#plan-open').click();
        const box = await page.locator('#plan').boundingBox();
        assert.ok(box.y >= 0 && box.y + box.height <= height, `the plan stands in the window at ${width} px, not down to ${box.y + box.height}`);
        await page.mouse.move(box.x + box.width / 2, box.y + height / 2);
        for (const wanted of ['plan-add', 'plan-sign', 'show-sheet']) {
            await turnTo(wanted, height);
            await page.mouse.click(...await middle(wanted));
            if (wanted === 'show-sheet')
                await page.locator('.sheet iframe').waitFor();
            else
                await page.locator('dialog[open] .cancel').click();
        }
        await turnTo('sheet-link', height);
        await toldOverPlan(width);
    }
    await page.setViewportSize({width: 1280, height: 900});
}

/** What is told stands over the open plan; Escape shuts it, and what lay under it is there again. */
async function toldOverPlan(width) {
    await page.keyboard.press('Escape');
    assert.equal(await page.locator('#plan').isVisible(), false);
    assert.equal(await page.evaluate(() => document.activeElement.id), 'plan-open');
    await page.locator(field('message')).fill('One more word.');
    await hand.kept(w);
    await page.locator('#plan-open').click();
    assert.equal(await page.locator('.record-head').evaluate((head) => head.inert), width < 960, `${width} px`);
    await page.locator('#plan-sign').click();
    await page.locator('#told.trouble', {hasText: w['refused.save-first']}).waitFor();
    assert.ok(await page.evaluate(() => {
        const box = document.querySelector('#told span').getBoundingClientRect();
        return document.querySelector('#told').contains(document.elementFromPoint(box.x + 4, box.y + box.height / 2));
    }), `the message lies under the plan at ${width} px`);
    await page.evaluate(() => (globalThis.confirm = () => true));
    await page.locator('#plan-open').click();
    await page.locator('#discard').click();
    await page.locator('#discard').waitFor({state: 'detached'});
}

const middle = async (id) => {
    const box = await page.locator(`#${id}`).boundingBox();
    return [box.x + box.width / 2, box.y + box.height / 2];
};

/** With the wheel alone, until a hand would hit it. */
async function turnTo(id, height) {
    for (let i = 0; i < 100; i++) {
        const [x, y] = await middle(id);
        if (await page.evaluate(([wanted, at]) => document.elementFromPoint(...at)?.id === wanted, [id, [x, y]]))
            return;
        await page.mouse.wheel(0, y < 0 ? -80 : 80);
        await page.waitForTimeout(30);
    }
    assert.fail(`#${id} cannot be turned to in a window ${height} px high`);
}

await run('the jobs of a day are done in few moves', async (...all) => {
    [hand, desk] = all;
    page = hand.page;
    w = await desk.words('en');
    await hand.open('#/today', '#find');
    await hand.language('en');
    await printOne();
    await fortyAnimalsOfEach();
    await workbook();
    await exam();
    await probeSetsSex();
    await decides();
    await decidesTopics();
    await midnight();
    await stopsAndPlan();
    await planScrolls();
    await faultsAreSaid();
    await asLastTime();
});
