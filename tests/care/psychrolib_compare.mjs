// Our moist air against npm's psychrolib 1.1.1 (general-purpose, MIT; ASHRAE Fundamentals 2017, chapter 1),
// an independent reference with another equation for saturation (Hyland & Wexler).
//
//   node psychrolib_compare.mjs GRID FOLDER
//
// GRID is the program that prints our values; psychrolib is installed into FOLDER once. Exit status:
// 0 agrees, 1 differs, 77 skipped with the reason (psychrolib cannot be had here).
import {spawnSync} from 'node:child_process';
import {createRequire} from 'node:module';
import {existsSync, mkdirSync} from 'node:fs';
import {join} from 'node:path';

const VERSION = '1.1.1';
const PRESSURE_PA = 101325;
const [grid, folder] = process.argv.slice(2);

// Worst difference allowed, and why.
const columns = {
    saturation: {allowed: 0.1, unit: '%'},  // Buck states 0.05 %, Hyland & Wexler as much
    dewPoint: {allowed: 0.05, unit: 'C'},   // 0.1 % of pressure is 0.015-0.02 C; psychrolib iterates to 0.001 C
    rhWarmer: {allowed: 0.1, unit: 'points'},
    water: {allowed: 0.2, unit: '%'},       // psychrolib holds the air's pressure, we use the gas law alone
};

function skip(reason) {
    console.log(`skipped: ${reason}`);
    process.exit(77);
}

function psychrolib() {
    const packageFolder = join(folder, 'node_modules', 'psychrolib');
    if (!existsSync(packageFolder)) {
        mkdirSync(folder, {recursive: true});
        const npm = spawnSync('npm', ['install', '--no-save', '--no-audit', '--no-fund', '--ignore-scripts',
            '--prefix', folder, `psychrolib@${VERSION}`], {encoding: 'utf8', timeout: 60000});
        if (npm.status !== 0)
            skip(`npm could not install psychrolib@${VERSION}: ${(npm.stderr || String(npm.error)).trim().split('\n')[0]}`);
    }
    const require = createRequire(join(packageFolder, 'package.json'));
    if (require('./package.json').version !== VERSION)
        skip(`another version of psychrolib lies in ${packageFolder}`);
    const library = require('./psychrolib.js');
    library.SetUnitSystem(library.SI);
    return library;
}

const reference = psychrolib();
const run = spawnSync(grid, {encoding: 'utf8'});
if (run.status !== 0) {
    console.error(`${grid} failed`);
    process.exit(1);
}

const worst = Object.fromEntries(Object.keys(columns).map(name => [name, {difference: -1, at: ''}]));
function compare(name, ours, theirs, at) {
    const difference = Math.abs(columns[name].unit === '%' ? (ours - theirs) / theirs * 100 : ours - theirs);
    // a NaN is a difference, not agreement
    if (!(difference <= worst[name].difference))
        worst[name] = {difference, at};
}

let rows = 0, frost = 0;
for (const line of run.stdout.trim().split('\n').slice(1)) {
    const [temp, rh, saturation, dew, warmer, water] = line.split(',').map(Number);
    const at = `${temp} C, ${rh} %`;
    rows++;
    compare('saturation', saturation, reference.GetSatVapPres(temp) / 100, at);
    const vapour = reference.GetVapPresFromRelHum(temp, rh / 100);
    compare('rhWarmer', warmer, reference.GetRelHumFromVapPres(temp + 5, vapour) * 100, at);
    const ratio = reference.GetHumRatioFromRelHum(temp, rh / 100, PRESSURE_PA);
    compare('water', water, ratio / reference.GetMoistAirVolume(temp, ratio, PRESSURE_PA) * 1000, at);
    const theirDew = reference.GetTDewPointFromRelHum(temp, rh / 100);
    if (theirDew < 0.01)
        frost++; // psychrolib gives the frost point over ice there, we the dew point over water
    else
        compare('dewPoint', dew, theirDew, at);
}

let good = rows === 46 * 20 && frost < rows / 3;
console.log(`${rows} points, ${frost} of them without a dew point above 0 C`);
for (const [name, {allowed, unit}] of Object.entries(columns)) {
    const {difference, at} = worst[name];
    const agrees = difference >= 0 && difference <= allowed;
    good = good && agrees;
    console.log(`${name}: worst difference ${difference.toFixed(4)} ${unit} at ${at} (allowed ${allowed})${agrees ? '' : ' DIFFERS'}`);
}
process.exit(good ? 0 : 1);
