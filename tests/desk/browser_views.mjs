// Each view and each dialog of the desk, in each language, as wide as a desk, a tablet, a phone and at 400 %: axe finds nothing, nothing
// stands outside the window, what has the focus is not covered, and each button of a dialog can be reached.
//
//   node browser_views.mjs BASKLEAF FOLDER [SCREENSHOTS] [--all | --all=LANGUAGE]
//
// Without --all each view is looked at once, in turn in another language and at another width.
// WCAG 2.2: 1.4.10 (a window 1280 px wide at 400 % is 320 CSS px wide), 2.4.11 (the focus is not obscured).
// Exit status: 0 good, 1 not, 77 skipped with the reason.
import {readdirSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';
import assert from 'node:assert/strict';
import {addPeople, Desk, field, Hand, root, run, TODAY} from './stage.mjs';

const whole = process.argv.find((one) => /^--all(=|$)/.test(one));
const isWhole = whole !== undefined;
const SIZES = [['1280 px', 1280, 900], ['768 px', 768, 1024], ['390 px', 390, 844], ['400 %', 320, 225]];
const LANGUAGES = readdirSync(join(root, 'templates/wording')).sort();
const [BISCUIT, CLOVER, EMBER, JUNIPER, NUBE, PEBBLE] = ['biscuit-ball-python', 'clover-corn-snake', 'ember-bearded-dragon', 'juniper-adoption', 'nube-axolotl',
    'pebble-leopard-gecko'].map((name) => `${name}.yaml`);
const PEOPLE = [['Ana Brook', 'reception', 'four plain words here'], ['Dr Ines Calder', 'veterinarian', 'another four words now'], ['Sam Reyes', 'shelter', 'and some more of them']];
const LIST = 'Name;Species;Weight;Shoe size\r\nJuniper;leopard gecko;53 g;3\r\nFern;zzyzx;many;4\r\n';
let hand, page, desk, w, people;

// ---- how each comes up -------------------------------------------------------------------

const record = (name) => hand.open(`#/record/${name}`, '.part-visit');
const who = (name) => page.evaluate((text) => localStorage.setItem('desk-who', text), name);
const dialog = () => page.locator('dialog[open]').waitFor();
const unfold = () => page.evaluate(() => { for (const one of document.querySelectorAll('main details')) one.open = true; });
const overThePlan = async () => { if (await page.locator('#plan-open').isVisible() && !await page.locator('#plan').isVisible()) await page.locator('#plan-open').click(); };

async function plan(name) {
    await record(name);
    await page.locator('.plan ol li').first().waitFor({state: 'attached'});
}

async function dropList(text, selector, name = 'list.csv') {
    await hand.open('#/shelter', '.drop-zone');
    await page.locator('#list-file').setInputFiles({name, mimeType: 'text/csv', buffer: Buffer.from(text)});
    await page.locator(selector).first().waitFor();
}

async function refused(button) {
    await page.locator(button).click();
    await page.locator('dialog[open] .told.trouble').waitFor();
}

async function seldom(name) {
    await record(name);
    await who('Ana Brook');
    await page.locator('details summary', {hasText: w.seldom}).click();
}

async function topic(choose) {
    await plan(CLOVER);
    await page.locator('.topics-usual summary, li[data-topic="food"]').first().waitFor();
    await unfold();
    await page.locator('li[data-topic="food"] .topic-decide').click();
    await dialog();
    if (!choose)
        return refused('#own-do');
    await page.locator('#stance').selectOption('rest-until');
    await page.locator('#stance-until').fill('2026-03-28');
    await page.locator('#own-because').fill('The gut must rest.');
    await page.locator('#own-do').click();
    return page.locator('#second-yes').waitFor();
}

/** Over a desk that knows no people. @type {[string, () => Promise<any>, (() => Promise<void>)?][]} */
const open = [
    ['a day', () => hand.open('#/day/2026-03-14', '.visits')],
    ['a day without visits', () => hand.open('#/day/2020-01-01', '#find')],
    ['what lies there and is no visit', async () => { await hand.open('#/today', '.visits'); await unfold(); }],
    ['found', async () => { await hand.open('#/today', '#find'); await page.locator('#find').fill('python'); await page.locator('.visits td:nth-of-type(3)').first().waitFor(); }],
    ['nothing found', async () => { await hand.open('#/today', '#find'); await page.locator('#find').fill('zzyzx'); await page.getByText(w['none-found'], {exact: true}).waitFor(); }],
    ['a new visit', () => hand.open('#/new', '.part-visit')],
    ['a new visit of one that was here', async () => { await hand.open('#/new', '.part-visit'); await page.locator(field('patient.name')).fill('biscuit'); await page.locator('#as-last-visit').waitFor(); }],
    ['a record', () => record(EMBER)],
    ['a record with all its groups open', async () => {
        await record(BISCUIT);
        await page.evaluate(() => { for (const one of document.querySelectorAll('.system-toggle[aria-expanded="false"]')) one.click(); });
        await unfold();
    }],
    ['the plan', async () => { await plan(EMBER); await unfold(); }, overThePlan],
    ['the sheet', async () => { await plan(EMBER); await overThePlan(); await page.locator('#show-sheet').click(); await page.locator('.sheet iframe').waitFor(); }, overThePlan],
    ['a record with faults', async () => {
        await record(JUNIPER);
        await page.locator(field('patient.mass')).fill('many');
        await page.locator(field('keeper.email')).fill('nobody');
        await page.locator('.fault-list li').nth(1).waitFor();
    }],
    ['a record that changed meanwhile', async () => {
        await who('Ana Brook');
        await record(NUBE);
        await page.locator(field('message')).fill(`Typed here, ${Date.now()}`);
        writeFileSync(join(desk.folder, NUBE), `${desk.read(NUBE)}# by hand, ${Date.now()}\n`);
        await page.locator('#save').click();
        await page.locator('.conflict').waitFor();
    }],
    ['a record that another window has too', async () => {
        const {token} = await (await fetch(`${desk.address}api/start`)).json();
        const {record: there, version} = await (await fetch(`${desk.address}api/record?name=${PEBBLE}`)).json();
        const answer = await fetch(`${desk.address}api/draft`, {method: 'POST', headers: {'Origin': desk.address.replace(/\/$/, ''), 'X-Desk-Token': token},
            body: JSON.stringify({draft: 'x', name: PEBBLE, window: 'another1', version, who: 'Ana Brook', record: {...there, message: 'From the other one.'}})});
        assert.equal(answer.status, 200);
        await record(PEBBLE);
        await page.locator('.other-window').waitFor();
    }],
    ['a desk that is away', async () => {
        await record(JUNIPER);
        await page.route('**/api/draft*', (route) => route.abort());
        await page.locator(field('message')).fill('more');
        await page.locator('.says', {hasText: w['not-kept']}).waitFor();
        await page.unrouteAll({behavior: 'ignoreErrors'});
    }],
    ['dialog: who', async () => { await record(EMBER); await who(''); await page.locator('#print').click(); await dialog(); await refused('#who-do'); }],
    ['dialog: sign', async () => { await plan(EMBER); await page.locator('#sign').click(); await dialog(); await page.locator('#sign-by').fill('x'); await refused('#sign-do'); }],
    ['dialog: print', async () => { await record(EMBER); await who('Ana Brook'); await page.locator('#print-where').click(); await page.locator('#printer').waitFor(); }],
    ['dialog: print, no printer', async () => {
        await record(EMBER);
        await who('Ana Brook');
        await page.route('**/api/printers*', (route) => route.fulfill({json: {known: true, why: '', printers: []}}));
        await page.locator('#print-where').click();
        await page.locator('#print-by-hand').waitFor();
        await page.unrouteAll({behavior: 'ignoreErrors'});
    }],
    ['dialog: void', async () => { await seldom(EMBER); await page.locator('#void').click(); await dialog(); await refused('#void-do'); }],
    ['dialog: forget', async () => { await seldom(BISCUIT); await page.locator('#forget').click(); await dialog(); await refused('#forget-do'); }],
    ['dialog: strike', async () => { await plan(EMBER); await page.locator('.plan-strike').first().click(); await dialog(); await refused('#own-do'); }],
    ['dialog: other words', async () => { await plan(EMBER); await page.locator('.plan-reword').first().click(); await dialog(); }],
    ['dialog: add', async () => { await plan(EMBER); await page.locator('#plan-add').click(); await dialog(); }],
    ['dialog: what holds of a topic', () => topic(false)],
    ['dialog: a second yes', () => topic(true)],
    ['a list with faults', async () => { await dropList(LIST, '.row-mend'); await unfold(); }],
    ['a list that cannot be read', () => dropList('PK\u0003\u0004 not a table', '#told.trouble', 'animals.xlsx')],
    ['dialog: mend a row', async () => { await dropList(LIST, '.row-mend'); await page.locator('.row-mend').first().click(); await dialog(); }],
    ['a list that is made', async () => {
        await dropList('Name;Species\r\nJuniper;leopard gecko\r\n', '#list-by');
        await page.locator('#list-by').fill('Dr Ines Calder');
        await page.locator('#list-sign').click();
        await page.locator('.progress', {hasText: w['shelter.made']}).waitFor();
    }],
    ['lists of other days', async () => { await dropList(LIST, '.row-mend'); await hand.open('#/shelter', '.earlier'); }],
    ['species sheets', () => hand.open('#/review', '.review .visits')],
    ['a species sheet', async () => { await hand.open('#/review/ball-python', '.part.value'); await unfold(); }],
];

async function leaveDesk() {
    await page.context().clearCookies();
    await page.goto('about:blank');
    await page.goto(desk.address);
    await page.locator('dialog.lock').waitFor();
}

async function enterAs([name, , passphrase], selector) {
    await leaveDesk();
    await page.locator('#login-name').fill(name);
    await page.locator('#login-passphrase').fill(passphrase);
    await page.locator('#login-do').click();
    await page.locator(selector).first().waitFor();
}

/** Over a desk with people. */
const locked = [
    ['login', leaveDesk],
    ['login refused', async () => {
        await leaveDesk();
        await page.locator('#login-name').fill('Nobody Here');
        await page.locator('#login-passphrase').fill('not the right one');
        await refused('#login-do');
    }],
    ['a record, for reception', async () => { await enterAs(PEOPLE[0], '#find'); await plan(EMBER); }, overThePlan],
    ['a species sheet, for reception', async () => { await enterAs(PEOPLE[0], '#find'); await hand.open('#/review/ball-python', '.part.value'); }],
    ['a locked desk', async () => {
        await enterAs(PEOPLE[1], '#find');
        await page.route('**/api/start*', async (route) => {
            const answer = await route.fetch();
            await route.fulfill({response: answer, json: {...await answer.json(), idle: 1}});
        });
        await record(EMBER);
        await page.locator('dialog.lock').waitFor();
        await page.unrouteAll({behavior: 'ignoreErrors'});
    }],
    ['lists, for the shelter', () => enterAs(PEOPLE[2], '.drop-zone')],
];

// ---- looking -----------------------------------------------------------------------------

/** Each button and field of the dialog can be turned to and hit. */
async function dialogIsReachable(name) {
    const hidden = await page.evaluate(() => [...document.querySelectorAll('dialog[open] :is(button, input, select, textarea, a[href])')].filter((one) => {
        one.scrollIntoView({block: 'center'});
        const [box] = one.getClientRects(), at = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
        return !(at === one || one.contains(at) || at?.contains(one) && at.closest('label'));
    }).map((one) => one.id || one.className || one.tagName));
    assert.deepEqual(hidden, [], `out of reach in ${name}`);
}

/** What has the focus is seen, at least in part. */
async function focusIsSeen(name, most = 12) {
    for (let i = 0; i < most; i++) {
        await page.keyboard.press('Tab');
        const hidden = await page.evaluate(() => {
            const one = document.activeElement;
            if (!one || one === document.body || one.tagName === 'IFRAME')
                return null;
            const boxes = [...one.getClientRects()].flatMap((box) => [0.1, 0.5, 0.9].flatMap((x) => [0.1, 0.5, 0.9].map((y) => [box.x + box.width * x, box.y + box.height * y])));
            const isSeen = boxes.some(([x, y]) => { const at = document.elementFromPoint(x, y); return at && (at === one || one.contains(at) || at.contains(one) && at.tagName === 'LABEL'); });
            return isSeen ? null : one.id || one.outerHTML.slice(0, 80);
        });
        assert.equal(hidden, null, `covered while it has the focus, in ${name}`);
    }
}

async function look(name, [size, width, height], ready) {
    const what = `${name}, ${size}`;
    await page.setViewportSize({width, height});
    await ready?.();
    await page.evaluate(() => { // what lies half under the line of messages, or under the link that skips, is no smaller for that
        scrollTo(0, 0);
        if (document.activeElement?.id === 'skip') document.activeElement.blur();
    });
    await hand.look(what);
    if (await page.locator('dialog[open]').count())
        await dialogIsReachable(what);
    else
        await focusIsSeen(what);
}

/** Each comes up at its widest and stands while the window becomes narrow. */
async function lookAt(views) {
    for (const [i, lang] of LANGUAGES.entries()) {
        w = await desk.words(lang);
        for (const [k, [name, comesUp, ready]] of views.entries()) {
            if (isWhole ? !['--all', `--all=${lang}`].includes(whole) : k % LANGUAGES.length !== i)
                continue;
            await page.setViewportSize({width: 1280, height: 900});
            await page.evaluate((to) => localStorage.setItem('desk-language', to), lang).catch(() => {});
            await comesUp();
            for (const [n, size] of SIZES.entries())
                if (isWhole || n === k % SIZES.length)
                    await look(`${name}, ${lang}`, size, ready);
        }
    }
}

await run(isWhole ? 'axe finds nothing in any view or dialog, language and width' : 'axe finds nothing in a view or dialog of each kind', async (...all) => {
    [hand, desk] = all;
    page = hand.page;
    page.setDefaultTimeout(30000);
    writeFileSync(join(desk.folder, 'broken.yaml'), 'visit: {date: 2026-03-20\npatient: [');
    writeFileSync(join(desk.folder, 'a letter.txt'), 'no visit');
    await hand.open('#/today', '#find');
    await lookAt(open);

    people = new Desk();
    try {
        addPeople(people.folder, PEOPLE);
        await people.start();
        desk = hand.desk = people;
        await hand.open('#/today', 'dialog.lock');
        await lookAt(locked);
    } finally {
        await people.end();
    }
});
