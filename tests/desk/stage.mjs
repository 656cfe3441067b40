// What the browser tests share: the desk with a stand-in for the print system and a mail server, Debian's chromium driven by npm's
// playwright-core, axe-core (rules tagged for WCAG 2.0, 2.1 and 2.2, levels A and AA), and a hand on the keyboard.
import {spawn, spawnSync} from 'node:child_process';
import {createRequire} from 'node:module';
import {cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import {createServer} from 'node:net';
import {tmpdir} from 'node:os';
import {join, resolve} from 'node:path';
import assert from 'node:assert/strict';
import {install, skip} from './npm.mjs';

export {skip};

export const TODAY = '2026-03-20';
export const root = resolve(import.meta.dirname, '../..');
const WCAG = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

export const [program, folder, pictures] = process.argv.slice(2).filter((one) => !one.startsWith('--'));
const browserPath = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync) ?? skip('chromium is not installed');
const require = createRequire(join(resolve(install(folder, ['playwright-core', 'axe-core'])), 'x.js'));
const {chromium} = require('playwright-core');
const axe = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

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

export class Desk {
    /** @param {string[]} more options */
    constructor(more = []) {
        this.more = more;
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
        this.process = spawn(program, ['desk', this.folder, '--today', TODAY, '--port', port, '--settings', join(this.tray, 'mail.yaml'), ...this.more],
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

    async end() {
        await this.stop('SIGTERM');
        this.printers.stdin.end();
        this.mailServer.close();
        for (const one of [this.folder, this.tray])
            rmSync(one, {recursive: true, force: true});
    }

    async words(lang) {
        return (await (await fetch(`${this.address}api/start?lang=${lang}`)).json()).words;
    }

    read(name) {
        return readFileSync(join(this.folder, name), 'utf8');
    }

    run(...words) {
        return spawnSync(program, [...words, '--today', TODAY], {maxBuffer: 1 << 26});
    }
}

// ---- what a hand on the keyboard does ---------------------------------------------------

/** The control of a field of the record. */
export const field = (path) => `[data-path="${path}"] input, [data-path="${path}"] textarea, [data-path="${path}"] select:not(.unit)`;

export class Hand {
    constructor(page, desk) {
        Object.assign(this, {page, desk, shot: 0, troubles: []});
        page.setDefaultTimeout(120000); // every wait is for a condition; a machine that builds beside it is slow
        page.on('pageerror', (error) => this.troubles.push(error.message));
        page.on('console', (message) => /Content Security|Uncaught/.test(message.text()) && this.troubles.push(message.text()));
    }

    async picture(name) {
        if (pictures)
            await this.page.screenshot({path: join(pictures, `${String(++this.shot).padStart(2, '0')}-${name}.png`), fullPage: true});
    }

    /** Tab until the element is reached, as one without a mouse would. */
    async tabTo(selector, key = 'Tab') {
        // the page itself holds the focus where it is wanted, so that not every step has to be asked for
        await this.page.evaluate((wanted) => {
            globalThis.letTab?.();
            const hold = (event) => event.key === 'Tab' && document.activeElement.matches(wanted) && event.preventDefault();
            document.addEventListener('keydown', hold, true);
            globalThis.letTab = () => document.removeEventListener('keydown', hold, true);
        }, selector);
        for (let i = 0; i < 40; i++) {
            if (await this.page.evaluate((wanted) => document.activeElement.matches(wanted), selector)) {
                await this.page.evaluate(() => globalThis.letTab());
                return;
            }
            for (let step = 0; step < 10; step++)
                await this.page.keyboard.press(key);
        }
        assert.fail(`${selector} cannot be reached with ${key}`);
    }

    async fill(path, text) {
        await this.tabTo(field(path));
        await this.page.keyboard.type(text);
    }

    async look(name) {
        await this.fits(name);
        await this.page.evaluate(axe);
        const result = await this.page.evaluate((tags) => globalThis.axe.run(document, {runOnly: tags, iframes: false}), WCAG);
        const told = result.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.target.join(' ')).slice(0, 3).join(', ')}`);
        assert.deepEqual(told, [], `axe on ${name}`);
        assert.ok(result.passes.length > 10, `axe saw something on ${name}`);
    }

    /** Nothing stands outside the window (WCAG 2.2, 1.4.10: 320 px wide at least). */
    async fits(name) {
        const wide = await this.page.evaluate(() => document.scrollingElement.scrollWidth - innerWidth);
        assert.ok(wide <= 0, `${name} is ${wide} px wider than the window`);
        await this.picture(name);
    }

    says(text) {
        return this.page.locator('#told', {hasText: text}).waitFor();
    }

    kept(words) {
        return this.page.locator('.says', {hasText: words.kept}).waitFor();
    }

    /** A view of the page, loaded anew. */
    async open(hash, selector, state = 'visible') {
        await this.page.goto('about:blank');
        await this.page.goto(`${this.desk.address}${hash}`);
        if (selector)
            await this.page.locator(selector).first().waitFor({state});
    }

    async language(lang) {
        await this.page.locator('#language').waitFor();
        if (await this.page.locator('html').getAttribute('lang') !== lang) // a hand does not choose what stands
            await this.page.locator('#language').selectOption(lang);
        await this.page.locator(`html[lang="${lang}"]`).waitFor();
        await this.page.locator('h1').waitFor();
    }
}

// ---- people ----------------------------------------------------------------------------

/** At the console: [name, role, passphrase] each. */
export function addPeople(folder, people) {
    for (const [name, role, passphrase] of people) {
        const done = spawnSync(program, ['desk', folder, '--person', name, '--role', role], {input: `${passphrase}\n`, encoding: 'utf8'});
        if (/built without/.test(done.stderr))
            skip(done.stderr.trim());
        assert.equal(done.status, 0, done.stderr);
    }
}

export async function enter(page, address, [name, , passphrase]) {
    await page.goto(address);
    await page.locator('#login-name').fill(name);
    await page.locator('#login-passphrase').fill(passphrase);
    await page.locator('#login-do').click();
    await page.locator('dialog.lock').waitFor({state: 'detached'});
}

// ---- run -------------------------------------------------------------------------------

/** Runs a test over a desk of its own; ends the process with its status. */
export async function run(what, test, more = [], prepare = () => {}) {
    const desk = new Desk(more);
    let status = 0, browser, hand;
    try {
        prepare(desk.folder);
        await desk.start();
        browser = await chromium.launch({executablePath: browserPath, args: ['--no-sandbox'],
            env: {...process.env, XDG_CONFIG_HOME: desk.tray, XDG_CACHE_HOME: desk.tray}});
        const context = await browser.newContext({viewport: {width: 1280, height: 900}, locale: 'en-GB', ignoreHTTPSErrors: true});
        hand = new Hand(await context.newPage(), desk);
        await test(hand, desk, browser);
        assert.deepEqual(hand.troubles, []);
        console.log(what);
    } catch (error) {
        console.log(error.stack ?? error);
        await hand?.picture('at-the-fault').catch(() => {});
        status = 1;
    } finally {
        await browser?.close();
        await desk.end();
    }
    process.exit(status);
}
