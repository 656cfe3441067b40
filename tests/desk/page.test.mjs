// The page's pure functions, without a browser:  node --test page.test.mjs
import test from 'node:test';
import assert from 'node:assert/strict';
import {apart, asLastVisit, cleaned, folded, moveDay, pathAround, pathText, put, speciesOf, together, unitFor, valueAt, valueParts} from '../../src/desk/page/record.js';
import {added, moved, putBack, reworded, struck} from '../../src/desk/page/decisions.js';
import {asksAgain, confirmedTopic, joined, withoutTopic, withStance} from '../../src/desk/page/topics.js';
import {byCode, entriesOf, kindOf, levelOf, summaryOf, systemsOf, withAllFine, withLevel} from '../../src/desk/page/exam.js';

test('a path is written as faults name it, items counted from 1', () => {
    assert.equal(pathText(['findings', 1, 'note']), 'findings[2].note');
    assert.equal(pathText(['patient', 'name']), 'patient.name');
    assert.equal(pathText([]), '');
    const around = [];
    for (let at = 'patient.earlier[2].on'; at; at = pathAround(at))
        around.push(at);
    assert.deepEqual(around, ['patient.earlier[2].on', 'patient.earlier[2]', 'patient.earlier', 'patient']);
});

test('a value is put where its path leads, and nothing beside it moves', () => {
    const record = {patient: {name: 'Fern'}};
    put(record, ['patient', 'earlier', 0, 'mass'], '40 g');
    assert.deepEqual(record, {patient: {name: 'Fern', earlier: [{mass: '40 g'}]}});
    assert.equal(valueAt(record, ['patient', 'earlier', 0, 'mass']), '40 g');
    assert.equal(valueAt(record, ['diet', 'food']), undefined);
    put(record, ['patient', 'earlier', 0, 'mass'], '41 g');
    assert.deepEqual(record.patient.earlier, [{mass: '41 g'}]);
});

test('a measure is taken apart and put together', () => {
    assert.deepEqual(apart('29 C', ['C', 'F']), ['29', 'C']);
    assert.deepEqual(apart('30-32 C', ['C', 'F']), ['30-32', 'C']);
    assert.deepEqual(apart('120 x 60 x 60 cm', ['mm', 'cm']), ['120 x 60 x 60', 'cm']);
    assert.equal(apart('3 lb 3 oz', ['g', 'lb', 'oz']), null, 'written in a way of its own');
    assert.equal(apart('29', ['C', 'F']), null);
    assert.equal(together(' 29 ', 'C'), '29 C');
    assert.equal(together('3 lb 3 oz', 'g'), '3 lb 3 oz', 'whoever types the unit is taken at their word');
    assert.equal(together('', 'C'), '');
});

test('one record has one way of measuring', () => {
    const field = {key: 'night', kind: 'quantity', units: ['C', 'F'], usual: {metric: 'C', us: 'F'}};
    assert.equal(unitFor({}, field, 'us'), 'F', 'the clinic, when nobody else says');
    assert.equal(unitFor({keeper: {units: 'metric'}}, field, 'us'), 'C', 'the keeper before the clinic');
    const begun = {keeper: {units: 'us'}, enclosure: {readings: {'warm-side': '28 C'}}};
    assert.equal(unitFor(begun, field, 'us'), 'C', 'what stands in the record before both');
    const mass = {key: 'mass', kind: 'quantity', units: ['g', 'kg', 'oz', 'lb'], usual: {metric: 'g', us: 'oz'}};
    assert.equal(unitFor(begun, mass, 'us'), 'oz', 'of its own kind');
    assert.equal(unitFor({}, {key: 'uvi', kind: 'quantity', units: []}, 'us'), undefined);
});

test('signs that nobody sees are taken out, all others stay (Unicode 15, general categories Cc and Cs)', () => {
    assert.equal(cleaned('a\u0001b\u000bc\u007f\u0085d\ufffe'), 'abcd');
    assert.equal(cleaned('one\r\ntwo\rthree\tfour'), 'one\ntwo\nthree\tfour');
    assert.equal(cleaned('half \ud83e pair'), 'half  pair');
    for (const text of ['Ñandú – 3½ «sí» 🦎', 'שלום \u200f', 'e\u0301'])
        assert.equal(cleaned(text), text);
});

test('a day moves over months, years and leap days (Gregorian calendar)', () => {
    assert.equal(moveDay('2026-02-28', 1), '2026-03-01');
    assert.equal(moveDay('2028-02-28', 1), '2028-02-29');
    assert.equal(moveDay('2026-01-01', -1), '2025-12-31');
});

const finding = (code, system, severities, excludes = [], value = false) => ({code, system, name: code, severities, excludes, steps: [], value});
const all = [finding('body-condition', 'body', ['normal'], ['overweight']), finding('overweight', 'body', ['mild', 'severe']), finding('posture', 'watching', ['normal']),
    finding('retained-shed', 'skin', ['normal', 'mild']), finding('mites', 'skin', ['normal', 'mild']), finding('soft-shell', 'shell', ['mild']),
    finding('breath-rate', 'watching', ['normal'], [], true)];
const known = byCode(all);

test('only what makes sense for the species is asked', () => {
    const systems = systemsOf({findings: ['posture', 'overweight', 'body-condition']}, all);
    assert.deepEqual([...systems.keys()], ['body', 'watching']);
    assert.deepEqual(systems.get('body').map((one) => one.code), ['body-condition', 'overweight']);
    assert.equal(systemsOf(undefined, all).size, 0);
});

test('an entry is set, changed and taken out', () => {
    const record = {findings: ['posture']};
    assert.deepEqual(entriesOf(record), [{code: 'posture'}], 'the short form counts as the long one');
    let list = withLevel([], 'mites', null, 'mild', known);
    assert.deepEqual(list, [{code: 'mites', severity: 'mild'}]);
    list = [{...list[0], note: 'few'}];
    list = withLevel(list, 'mites', list[0], 'severe', known);
    assert.deepEqual(list, [{code: 'mites', severity: 'severe', note: 'few'}], 'what was noted stays');
    const doubted = [{code: 'posture', severity: 'mild', certainty: 'suspected', note: 'odd'}];
    assert.deepEqual(withLevel(doubted, 'posture', doubted[0], 'normal', known), [{code: 'posture', severity: 'normal', note: 'odd'}], 'what is normal is not suspected');
    assert.equal(withLevel(doubted, 'posture', doubted[0], 'severe', known)[0].certainty, 'suspected', 'and what is found stays so');
    assert.deepEqual(withLevel(list, 'mites', list[0], '', known), []);
    assert.equal(levelOf({code: 'x'}), 'mild');
});

test('"all fine" marks what is open, and never the opposite of what was found', () => {
    const of = (system) => all.filter((one) => one.system === system);
    assert.deepEqual(withAllFine([], of('skin'), known).map((one) => one.code), ['retained-shed', 'mites']);
    const fat = [{code: 'overweight', severity: 'severe'}];
    assert.deepEqual(withAllFine(fat, of('body'), known), fat, 'no "body condition: fine" beside an overweight one');
    const shed = [{code: 'retained-shed', severity: 'mild', where: 'tail'}];
    assert.deepEqual(withAllFine(shed, of('skin'), known), [...shed, {code: 'mites', severity: 'normal'}], 'what was found stays as it was');
    assert.deepEqual(withAllFine([], of('watching'), known).map((one) => one.code), ['posture'], 'a number is written, not marked');
});

test('what is found takes away the "fine" that cannot stand beside it', () => {
    const fine = [{code: 'body-condition', severity: 'normal'}, {code: 'posture', severity: 'normal'}];
    assert.deepEqual(withLevel(fine, 'overweight', null, 'mild', known).map((one) => one.code), ['posture', 'overweight']);
    assert.deepEqual(withLevel([], 'overweight', null, 'mild', known).map((one) => one.code), ['overweight']);
});

test('a group says what is noted in it', () => {
    const skin = all.filter((one) => one.system === 'skin');
    assert.deepEqual(summaryOf([], skin, known), {found: 0, fine: 0, open: 2});
    assert.deepEqual(summaryOf([{code: 'mites', severity: 'mild'}, {code: 'posture', severity: 'normal'}], skin, known), {found: 1, fine: 0, open: 1});
});

test('a comma is a decimal point, but for what could be a thousand', () => {
    assert.equal(together('29,5', 'C'), '29.5 C');
    assert.equal(together('120,5 x 60 x 60', 'cm'), '120.5 x 60 x 60 cm');
    assert.equal(together('1,450', 'g'), '1,450 g');
});

test('the kind is the species, or the group of an animal without a sheet', () => {
    const start = {species: [{code: 'ball-python', name: 'ball python', scientific: 'Python regius', also: ['royal python'], group: 'snake', findings: ['mites']},
                             {code: 'unlisted', name: 'unlisted', scientific: '', also: [], group: '', findings: []}],
                   unlisted: [{group: 'frog', findings: ['weak']}]};
    assert.equal(kindOf({species: 'ball-python'}, start).group, 'snake');
    for (const written of ['royal python', 'Python regius']) // typed into the record by hand
        assert.equal(kindOf({species: written}, start).group, 'snake', written);
    assert.deepEqual(kindOf({species: 'unlisted', unlisted: {group: 'frog'}}, start).findings, ['weak']);
    assert.equal(kindOf({species: 'unlisted'}, start), undefined);
    assert.equal(kindOf(undefined, start), undefined);
});

test('a species is found by any of its names', () => {
    const start = [{code: 'ball-python', name: 'pitón real', scientific: 'Python regius', also: ['royal python', 'ball python']}];
    for (const typed of ['royal python', 'Royal-Python', 'piton real', 'PYTHON REGIUS', 'pitón real · Python regius', 'ball-python'])
        assert.equal(speciesOf(typed, start)?.code, 'ball-python', typed);
    assert.equal(speciesOf('python', start), undefined);
    assert.equal(folded('Ñandú-3'), 'nandu 3');
});

test('a visit as the last one: who, where and what it weighed; nothing that was found or read', () => {
    const last = {visit: {date: '2026-01-12', kind: 'checkout', veterinarian: 'Dr Ines Calder', 'signed-off': {by: 'x'}},
                  patient: {name: 'Fern', species: 'ball-python', sex: 'female', mass: '1400 g', earlier: [{on: '2025-06-01', mass: '1300 g'}]},
                  keeper: {name: 'Rosa Lind', email: 'r@example.org', language: 'es'}, findings: [{code: 'mites'}], medicines: [{name: 'm'}], targets: {because: 'b'},
                  enclosure: {size: '120 x 60 x 60 cm', readings: {night: '21 C'}, lamp: {kind: 'tube', measured: {uvi: '3'}, height: '30 cm'}}, message: 'old'};
    const fresh = {visit: {date: '2026-03-20', kind: 'checkout'}, patient: {name: 'Fern', mass: '1450 g'}, keeper: {language: 'en', units: 'us'}};
    assert.deepEqual(asLastVisit(fresh, last, 'fern-2026-01-12.yaml'), {
        visit: {date: '2026-03-20', kind: 'checkout', veterinarian: 'Dr Ines Calder', previous: 'fern-2026-01-12.yaml'},
        patient: {name: 'Fern', species: 'ball-python', sex: 'female', mass: '1450 g', earlier: [{on: '2025-06-01', mass: '1300 g'}, {on: '2026-01-12', mass: '1400 g'}]},
        keeper: {language: 'es', units: 'us', name: 'Rosa Lind', email: 'r@example.org'},
        enclosure: {size: '120 x 60 x 60 cm', lamp: {kind: 'tube', height: '30 cm'}},
    });
});

test('the key of a value of a species sheet is told apart from whom it is for', () => {
    assert.deepEqual(valueParts('temperature.warm-side'), {name: 'temperature.warm-side', of: []});
    assert.deepEqual(valueParts('feeding.stages.adult.meal'), {name: 'feeding.meal', of: ['adult']});
    assert.deepEqual(valueParts('feeding.supplements.calcium.hatchling+juvenile.always.per-week'),
        {name: 'feeding.per-week', of: ['calcium', 'hatchling', 'juvenile', 'always']});
});

test('a decision about an action takes the place of the one before it, and the last one stands last', () => {
    const lamp = {code: 'change-lamp', own: null}, words = {code: 'own', own: 'Lamp off.'};
    const out = struck([{topic: 'food', stance: 'as-usual'}, {action: 'change-lamp', place: '2'}], lamp, 'none here');
    assert.deepEqual(out, [{topic: 'food', stance: 'as-usual'}, {action: 'change-lamp', strike: 'yes', because: 'none here'}]);
    assert.deepEqual(putBack(out, 'change-lamp'), [{topic: 'food', stance: 'as-usual'}]);
    assert.deepEqual(moved([{action: 'change-lamp', place: '2'}, {do: 'Lamp off.'}], lamp, 1), [{do: 'Lamp off.'}, {action: 'change-lamp', place: '1'}]);
    assert.deepEqual(moved([{do: 'Lamp off.', because: 'x'}], words, 3), [{do: 'Lamp off.', because: 'x', place: '3'}]);
    assert.deepEqual(struck([{do: 'Lamp off.'}], words, ''), []);
    assert.deepEqual(reworded([], lamp, 'Lamp off.', 2, 'too strong'), [{action: 'change-lamp', strike: 'yes', because: 'too strong'}, {do: 'Lamp off.', place: '2'}]);
    assert.deepEqual(added([], 'Lamp off.'), [{do: 'Lamp off.'}]);
});

test('one decision a topic; the second yes is for that topic alone', () => {
    const before = [{action: 'larger-box', place: '1'}, {topic: 'food', stance: 'small', because: 'a'}, {topic: 'bath', stance: 'none', because: 'b'}];
    const after = withStance(before, {topic: 'food', stance: 'rest-until', until: '2026-03-28', because: 'c'});
    assert.deepEqual(after, [before[0], before[2], {topic: 'food', stance: 'rest-until', until: '2026-03-28', because: 'c'}]);
    assert.deepEqual(confirmedTopic(after, 'food').map((one) => one.confirmed), [undefined, undefined, 'yes']);
    assert.deepEqual(withoutTopic(after, 'food'), [before[0], before[2]]);
    assert.equal(asksAgain([{path: 'decisions[1].stance', code: 'decision-unconfirmed', text: ''}]), true);
    assert.equal(asksAgain([{path: 'decisions[1].until', code: 'decision-over', text: ''}]), false);
});

test('phases that say the same are told once, until the end of the last', () => {
    const phase = (says, until, reason) => ({says, until, reason, beside: [], ends: null, from: '', because: []});
    const told = joined([phase('half meals', '30 Mar', 'a'), phase('half meals', '9 Apr', 'a'), phase('as usual', null)]);
    assert.deepEqual(told.map((one) => [one.says, one.until]), [['half meals', '9 Apr'], ['as usual', null]]);
    assert.equal(joined([phase('half meals', '30 Mar', 'a'), phase('half meals', null)]).length, 2, 'who decided differs');
});
