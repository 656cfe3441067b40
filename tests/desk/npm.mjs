// npm's packages for a test, installed once into a folder of the build; exit status 77 says why a test was skipped.
import {spawnSync} from 'node:child_process';
import {existsSync, mkdirSync, readFileSync} from 'node:fs';
import {join} from 'node:path';

export const PACKAGES = {'playwright-core': '1.65.1', 'axe-core': '4.14.1', 'typescript': '7.0.2', 'oxlint': '1.94.0'};

export function skip(reason) {
    console.log(`skipped: ${reason}`);
    process.exit(77);
}

/** Is that version there already? */
function isThere(folder, name) {
    const about = join(folder, 'node_modules', name, 'package.json');
    return existsSync(about) && JSON.parse(readFileSync(about, 'utf8')).version === PACKAGES[name];
}

/** Each caller has a folder of its own, so that two tests at once do not install over each other. */
export function install(folder, names) {
    mkdirSync(folder, {recursive: true});
    if (names.every((name) => isThere(folder, name)))
        return join(folder, 'node_modules');
    const npm = spawnSync('npm', ['install', '--no-save', '--no-audit', '--no-fund', '--ignore-scripts', '--prefix', folder,
        ...names.map((name) => `${name}@${PACKAGES[name]}`)], {encoding: 'utf8', timeout: 120000});
    if (npm.status !== 0)
        skip(`npm could not install: ${(npm.stderr || String(npm.error)).trim().split('\n')[0]}`);
    return join(folder, 'node_modules');
}
