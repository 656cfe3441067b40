// A whole visit at the front desk in a real browser, by keyboard, in both languages: from a new record to a printed and mailed sheet.
//
//   node browser.mjs BASKLEAF FOLDER [SCREENSHOTS]
//
// Debian's chromium is driven by npm's playwright-core; axe-core looks at every view (rules tagged for WCAG 2.0, 2.1 and 2.2, levels A and
// AA). Both are installed into FOLDER once. Exit status: 0 good, 1 not, 77 skipped with the reason.
import {spawn, spawnSync} from 'node:child_process';
import {createRequire} from 'node:module';
import {cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import {createServer} from 'node:net';
import {tmpdir} from 'node:os';
import {join, resolve} from 'node:path';
import assert from 'node:assert/strict';
import {install, skip} from './npm.mjs';

const TODAY = '2026-03-20';
const WCAG = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
const [program, folder, pictures] = process.argv.slice(2);
const root = resolve(import.meta.dirname, '../..');

function packages() {
    const require = createRequire(join(resolve(install(folder, ['playwright-core', 'axe-core'])), 'x.js'));
    return {chromium: require('playwright-core').chromium, axe: readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8')};
}

const browserPath = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync) ?? skip('chromium is not installed');
const {chromium, axe} = packages();

// ---- the desk -------------------------------------------------------------------------

/** A mail server that takes everything (RFC 5321), with what it was given. */
function mailServer(mails) {
    const server = createServer((line) => {
        let text = '', data = null;
        line.write('220 here\r\n');
        line.on('error', () => {});
        line.on('data', (part) => {
            text += part;
            for (let end; (end = text.indexOf('\r\n')) >= 0;) {
                const word = text.slice(0, end);
                text = text.slice(end + 2);
                if (data !== null && word !== '.') {
                    data += `${word}\n`;
                } else if (data !== null) {
                    mails.push(data);
                    data = null;
                    line.write('250 taken\r\n');
                } else if (word === 'DATA') {
                    data = '';
                    line.write('354 go on\r\n');
                } else {
                    line.write('250 fine\r\n');
                }
            }
        });
    });
    return new Promise((done) => server.listen(0, '127.0.0.1', () => done(server)));
}

class Desk {
    constructor() {
        this.folder = mkdtempSync(join(tmpdir(), 'desk-'));
        cpSync(join(root, 'templates/visits'), this.folder, {recursive: true});
        this.tray = mkdtempSync(join(tmpdir(), 'tray-')); // a stand-in for the print system puts there what it is given
    }

    async start(port = '0') {
        this.printers ??= spawn('/usr/bin/python3', [join(root, 'tests/common/tray.py'), this.tray], {stdio: ['pipe', 'pipe', 'inherit']});
        this.printersPort ??= await new Promise((done) => this.printers.stdout.once('data', (data) => done(String(data).trim())));
        this.mails ??= [];
        this.mailServer ??= await mailServer(this.mails);
        writeFileSync(join(this.tray, 'mail.yaml'), JSON.stringify({host: '127.0.0.1', port: this.mailServer.address().port, tls: 'none', timeout: 9}), {mode: 0o600});
        this.process = spawn(program, ['desk', this.folder, '--today', TODAY, '--port', port, '--settings', join(this.tray, 'mail.yaml')],
            {stdio: ['ignore', 'pipe', 'inherit'], env: {...process.env, CUPS_SERVER: `127.0.0.1:${this.printersPort}`}});
        const line = await new Promise((done) => this.process.stdout.once('data', (data) => done(String(data))));
        this.address = line.trim();
        this.port = /:(\d+)\/$/.exec(this.address)[1];
    }

    async stop(signal) {
        const ended = new Promise((done) => this.process.once('exit', done));
        this.process.kill(signal);
        await ended;
    }

    run(...words) {
        return spawnSync(program, [...words, '--today', TODAY], {maxBuffer: 1 << 26});
    }
}

// ---- what a hand on the keyboard does ---------------------------------------------------

let page, desk, shot = 0;

async function picture(name) {
    if (pictures)
        await page.screenshot({path: join(pictures, `${String(++shot).padStart(2, '0')}-${name}.png`), fullPage: true});
}

/** Tab until the element is reached, as one without a mouse would. */
async function tabTo(selector, key = 'Tab') {
    // the page itself holds the focus where it is wanted, so that not every step has to be asked for
    await page.evaluate((wanted) => {
        globalThis.letTab?.();
        const hold = (event) => event.key === 'Tab' && document.activeElement.matches(wanted) && event.preventDefault();
        document.addEventListener('keydown', hold, true);
        globalThis.letTab = () => document.removeEventListener('keydown', hold, true);
    }, selector);
    for (let i = 0; i < 40; i++) {
        if (await page.evaluate((wanted) => document.activeElement.matches(wanted), selector)) {
            await page.evaluate(() => globalThis.letTab());
            return;
        }
        for (let step = 0; step < 10; step++)
            await page.keyboard.press(key);
    }
    assert.fail(`${selector} cannot be reached with ${key}`);
}

const field = (path) => `[data-path="${path}"] input, [data-path="${path}"] textarea, [data-path="${path}"] select:not(.unit)`;

async function fill(path, text) {
    await tabTo(field(path));
    await page.keyboard.type(text);
}

async function look(name) {
    await fits(name);
    await page.evaluate(axe);
    const result = await page.evaluate((tags) => globalThis.axe.run(document, {runOnly: tags, iframes: false}), WCAG);
    const told = result.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.target.join(' ')).slice(0, 3).join(', ')}`);
    assert.deepEqual(told, [], `axe on ${name}`);
    assert.ok(result.passes.length > 10, `axe saw something on ${name}`);
}

/** Nothing stands outside the window (WCAG 2.2, 1.4.10: 320 px wide at least). */
async function fits(name) {
    const wide = await page.evaluate(() => document.scrollingElement.scrollWidth - innerWidth);
    assert.ok(wide <= 0, `${name} is ${wide} px wider than the window`);
    await picture(name);
}

const says = (text) => page.locator('#told', {hasText: text}).waitFor();
const kept = (words) => page.locator('.says', {hasText: words.kept}).waitFor();

async function words(lang) {
    const answer = await fetch(`${desk.address}api/start?lang=${lang}`);
    return (await answer.json()).words;
}

// ---- the visit --------------------------------------------------------------------------

async function newVisit(lang, animal, w) {
    await tabTo('#who');
    await page.keyboard.type('Ana Brook');
    await tabTo('#new');
    await page.keyboard.press('Enter');
    await page.locator('.part-visit').waitFor();
    await fits(`new-${lang}`);
    await fill('patient.name', animal);
    await fill('patient.species', 'Python regius');
    await fill('patient.mass', '1450');
    await page.keyboard.press('Tab');
    await page.keyboard.type('g');
    await fill('keeper.name', 'Rosa Lind');
    await fill('keeper.email', 'nobody');
    await page.locator('[data-path="keeper.email"] .fault:not([hidden])').waitFor();
    const described = await page.locator(field('keeper.email')).getAttribute('aria-describedby');
    assert.ok(await page.locator(`#${described.split(' ').at(-1)}`).innerText(), 'the fault is read out with its field');
    assert.equal(await page.locator(field('keeper.email')).getAttribute('aria-invalid'), 'true');
    await picture(`fault-${lang}`);
    await tabTo(field('keeper.email'), 'Shift+Tab');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('rosa.lind@example.org');
    await kept(w);
}

async function examine(w) {
    await tabTo('[data-code="breathing"] input');
    await page.keyboard.press('ArrowRight'); // one step from "not noted" to "fine"
    await tabTo('[data-code="retained-shed"] input');
    await page.keyboard.press('ArrowRight');
    await tabTo('[data-code="retained-shed"] .word-where input');
    await page.keyboard.type('tail');
    await page.keyboard.press('Tab');
    await page.keyboard.type('It came off in pieces.');
    await fill('enclosure.readings.humidity', '40');
    const head = await page.locator('.system h3').allInnerTexts();
    const order = ['watching', 'skin', 'vent-and-tail', 'eyes', 'nose', 'mouth'].map((one) => head.indexOf(w[`system.${one}`]));
    assert.ok(order.every((at, i) => at >= 0 && (i === 0 || at > order[i - 1])), 'the head comes last');
    assert.equal(await page.locator('[data-code="soft-shell"]').count(), 0, 'a snake has no shell to look at');
    await kept(w);
    await page.locator('.plan ol li').first().waitFor();
}

/** The server dies; the page is loaded again: what was typed a second ago is there. */
async function killAndGoOn(w) {
    await tabTo(field('message'));
    await page.keyboard.type('Typed just before the end.');
    await page.waitForTimeout(1000);
    await desk.stop('SIGKILL');
    await desk.start(desk.port);
    await page.reload();
    await page.locator('.part-visit').waitFor();
    assert.equal(await page.locator(field('message')).inputValue(), 'Typed just before the end.');
    assert.equal(await page.locator('[data-code="retained-shed"] .word-where input').inputValue(), 'tail');
    await kept(w);
}

async function saveAndSign(lang, w) {
    await tabTo('#save');
    await page.keyboard.press('Enter');
    await says(w.saved);
    await page.locator('.record .state-sign').waitFor();
    await look(`record-${lang}`);
    await tabTo('#sign');
    await page.keyboard.press('Enter');
    await page.locator('dialog[open]').waitFor();
    await look(`sign-${lang}`);
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
    await tabTo('#show-sheet');
    await page.keyboard.press('Enter');
    const source = await page.locator('.sheet iframe').getAttribute('src');
    const bytes = await page.evaluate(async (from) => [...new Uint8Array(await (await fetch(from)).arrayBuffer())], source);
    assert.deepEqual(Buffer.from(bytes), cli.stdout);
    return cli.stdout;
}

async function visit(lang, animal) {
    const w = await words(lang);
    await page.goto(desk.address);
    await page.locator('#language').selectOption(lang);
    await page.locator('h1').waitFor();
    await page.goto(`${desk.address}#/today`);
    await fits(`empty-day-${lang}`);
    await newVisit(lang, animal, w);
    await examine(w);
    await killAndGoOn(w);
    await saveAndSign(lang, w);
    const name = readdirSync(desk.folder).find((one) => one.startsWith(animal.toLowerCase()) && one.endsWith('.yaml'));
    const sheet = await sheetIsTheSame(name);
    await tabTo('#print', 'Shift+Tab');
    await page.keyboard.press('Enter');
    await says(w.printed);
    await page.locator('.record .state-printed').waitFor();
    assert.deepEqual(readFileSync(join(desk.tray, `${animal.toLowerCase()}-${TODAY}.pdf`)), sheet);
    await tabTo('#mail');
    await page.keyboard.press('Enter');
    await says(w.mailed);
    await page.locator('.record .state-mailed').waitFor();
    await page.locator('.log li', {hasText: w['deed.mailed']}).waitFor();
    assert.match(desk.mails.at(-1), /^Content-Type: multipart\/mixed/m);
    await page.goto(`${desk.address}#/today`);
    await page.locator('.visits .state-mailed').first().waitFor();
    await look(`today-${lang}`);
    await page.evaluate(() => localStorage.setItem('desk-who', ''));
}

async function twoWindows() {
    const w = await words('en');
    const name = 'juniper-adoption.yaml';
    const other = await page.context().newPage();
    for (const [window, mass] of [[page, '53'], [other, '54']]) {
        await window.goto(`${desk.address}#/record/${name}`);
        await window.locator('#who').fill('Ana Brook');
        await window.locator(field('patient.mass')).fill(mass);
    }
    await page.locator('#save').click();
    await says(w.saved);
    await other.locator('#save').click();
    await other.locator('.conflict').waitFor();
    assert.match(readFileSync(join(desk.folder, name), 'utf8'), /mass: 53 g/);
    await other.close();
}

async function shelter(lang) {
    const w = await words(lang);
    await page.goto(`${desk.address}#/shelter`);
    await page.locator('#language').selectOption(lang);
    await page.locator('.drop-zone label', {hasText: w['shelter.drop']}).waitFor();
    // the choice of language draws the view anew, and a slow machine may do so after the file was chosen
    for (let tries = 1; ; tries++) {
        await page.locator('#list-file').setInputFiles(join(root, 'templates/rosters/spring-day.csv'));
        try {
            await page.locator('.visits').waitFor({timeout: 20000});
            break;
        } catch (fault) {
            if (tries === 3)
                throw fault;
        }
    }
    await look(`shelter-${lang}`);
    await tabTo('#list-make');
    await page.keyboard.press('Enter');
    if (await page.locator('#list-sign').count()) {
        await says(w['refused.list-not-signed']);
        await tabTo('#list-by', 'Shift+Tab');
        await page.keyboard.type('Dr Ines Calder');
        await tabTo('#list-sign');
        await page.keyboard.press('Enter');
        await page.locator('.list-result .state-ready').waitFor();
        await tabTo('#list-make');
        await page.keyboard.press('Enter');
    }
    await page.locator('.progress', {hasText: w['shelter.made']}).waitFor();
    await tabTo('#list-take');
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
    assert.equal(download.suggestedFilename(), 'sheets.zip');
    assert.equal(await download.failure(), null, download.url());
    assert.equal(readFileSync(await download.path()).readUInt32LE(0), 0x04034b50); // a ZIP's first bytes (APPNOTE 4.3.7)
}

async function otherSizes() {
    // 640 px is a 1280-pixel screen at 200 %
    for (const [name, width] of [['tablet', 768], ['zoom-200', 640], ['small', 320]]) {
        await page.setViewportSize({width, height: 900});
        for (const [view, hash] of [['today', '#/day/2026-03-14'], ['record', '#/record/biscuit-ball-python.yaml'], ['shelter', '#/shelter']]) {
            await page.goto(`${desk.address}${hash}`);
            await page.locator({today: '.visits', record: '.part-visit', shelter: '.drop-zone'}[view]).waitFor();
            await fits(`${view}-${name}`);
        }
    }
}

// ---- run -------------------------------------------------------------------------------

desk = new Desk();
await desk.start();
const browser = await chromium.launch({executablePath: browserPath, args: ['--no-sandbox']});
let status = 0;
try {
    page = await (await browser.newContext({viewport: {width: 1280, height: 900}, locale: 'en-GB'})).newPage();
    page.setDefaultTimeout(90000); // a machine that builds beside it is slow
    const troubles = [];
    page.on('pageerror', (error) => troubles.push(error.message));
    page.on('console', (message) => /Content Security|Uncaught/.test(message.text()) && troubles.push(message.text()));
    await visit('en', 'Fern');
    await visit('es', 'Roca');
    await shelter('es');
    await shelter('en');
    await twoWindows();
    await otherSizes();
    assert.deepEqual(troubles, []);
    console.log('a whole visit in two languages, by keyboard; axe found nothing on any view');
} catch (error) {
    console.log(error.stack ?? error);
    await picture('at-the-fault').catch(() => {});
    status = 1;
} finally {
    await browser.close();
    await desk.stop('SIGTERM');
    for (const one of [desk.folder, desk.tray])
        rmSync(one, {recursive: true, force: true});
}
process.exit(status);
