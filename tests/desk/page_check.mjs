// The page's own code: types (tsc over JSDoc), a linter, and that both find what is wrong.
//
//   node page_check.mjs FOLDER
//
// Exit status: 0 good, 1 not, 77 skipped with the reason.
import {spawnSync} from 'node:child_process';
import {cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import {join, resolve} from 'node:path';
import assert from 'node:assert/strict';
import {install} from './npm.mjs';

const modules = install(process.argv[2], ['typescript', 'oxlint']);
const page = resolve(import.meta.dirname, '../../src/desk/page');

function run(tool, ...words) {
    const done = spawnSync(join(modules, '.bin', tool), words, {encoding: 'utf8'});
    return {status: done.status, said: `${done.stdout}${done.stderr}`};
}

const types = (folder) => run('tsc', '-p', folder);
const lint = (folder) => run('oxlint', '--deny-warnings', '-c', join(folder, '.oxlintrc.json'), folder);

for (const check of [types, lint]) {
    const {status, said} = check(page);
    assert.equal(status, 0, said);
}

const broken = mkdtempSync(join(tmpdir(), 'page-'));
try {
    cpSync(page, broken, {recursive: true});
    const file = join(broken, 'record.js');
    writeFileSync(file, readFileSync(file, 'utf8').replace('record.keeper?.units', 'record.keper.units.length.nothing'));
    writeFileSync(join(broken, 'more.js'), '/** @param {number} n */\nexport const f = (n) => n.trim();\nvar left = 1;\n');
    assert.match(types(broken).said, /more\.js.*trim/, 'a wrong type is found');
    assert.match(lint(broken).said, /no-var/, 'an unused old variable is found');
} finally {
    rmSync(broken, {recursive: true});
}
console.log('types and linter find nothing in the page');
