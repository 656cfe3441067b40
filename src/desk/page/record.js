// What is done to a record and its texts without the page: pure functions, tried one by one in tests/desk/page.test.mjs.
/** @import {Field, Path, Species, Tree, UnitSystem} from "./types" */

/**
 * "findings[2].note" for ["findings", 1, "note"]: as faults name it.
 * @param {Path} path
 */
export function pathText(path) {
  return path.reduce((/** @type {string} */ text, part) =>
    typeof part === "number" ? `${text}[${part + 1}]` : text ? `${text}.${part}` : part, "");
}

/**
 * The path around this one, "" at the top: "findings[2].note" stands in "findings[2]", that in "findings".
 * @param {string} path
 */
export const pathAround = (path) => /** @type {RegExpExecArray} */ (/^(.*?)(?:\.?[^.[]+|\[\d+\])$/.exec(path) ?? ["", ""])[1];

/**
 * @param {Tree} record
 * @param {Path} path
 * @returns {any}
 */
export function valueAt(record, path) {
  return path.reduce((/** @type {any} */ place, part) => (place === undefined || place === null ? undefined : place[part]), record);
}

/**
 * @param {Tree} record
 * @param {Path} path
 * @param {unknown} value
 */
export function put(record, path, value) {
  /** @type {any} */
  let place = record;
  path.slice(0, -1).forEach((part, i) => {
    if (typeof place[part] !== "object" || place[part] === null) place[part] = typeof path[i + 1] === "number" ? [] : {};
    place = place[part];
  });
  place[path[path.length - 1]] = value;
}

/**
 * "29 C" as number and unit; null when it is written in a way of its own ("3 lb 3 oz").
 * @param {string} value
 * @param {string[]} units
 * @returns {[string, string] | null}
 */
export function apart(value, units) {
  const match = /^\s*([-0-9.,–x ]*[0-9])\s*(\S+)\s*$/.exec(value);
  return match && units.includes(match[2]) ? [match[1].trim(), match[2]] : null;
}

/**
 * What was typed with the unit beside it; as typed when somebody typed the unit too.
 * @param {string} typed
 * @param {string} unit
 */
export function together(typed, unit) {
  const text = typed.trim().replace(/(\d),(\d{1,2})(?!\d)/g, "$1.$2"); // a comma before three digits could mean a thousand
  return text === "" || /[^\d\s.,–x-]/.test(text) ? text : `${text} ${unit}`;
}

/** @param {any} value @returns {string[]} */
function textsIn(value) {
  if (typeof value === "string") return [value];
  return value && typeof value === "object" ? Object.values(value).flatMap(textsIn) : [];
}

/**
 * The unit that is offered first: one record, one way of measuring. What stands in the record decides, then the keeper's units, then the clinic's.
 * @param {Tree} record
 * @param {Field} field
 * @param {UnitSystem} system
 */
export function unitFor(record, field, system) {
  const units = field.units ?? [];
  const wanted = record.keeper?.units in (field.usual ?? {}) ? record.keeper.units : system;
  const usual = field.usual?.[/** @type {UnitSystem} */ (wanted)] ?? units[0];
  const written = new Set(textsIn(record).map((text) => apart(text, units)?.[1]));
  return written.has(usual) ? usual : Object.values(field.usual ?? {}).find((unit) => written.has(unit)) ?? usual;
}

/**
 * Text without signs that nobody sees and no record holds: controls but tab and line feed, halves of pairs.
 * @param {string} text
 */
export function cleaned(text) {
  return text.replace(/\r\n?/g, "\n").replace(/[\p{Cc}\p{Cs}\uFFFE\uFFFF]/gu, (sign) => (sign === "\t" || sign === "\n" ? sign : ""));
}

/**
 * "2026-03-14" moved by days, without any time zone.
 * @param {string} day
 * @param {number} days
 */
export function moveDay(day, days) {
  const date = new Date(`${day}T12:00:00Z`);
  date.setUTCDate(date.getUTCDate() + days);
  return date.toISOString().slice(0, 10);
}

/**
 * Without case, accents and signs, for comparing.
 * @param {string} text
 */
export const folded = (text) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase().replace(/[^\p{L}\p{N}]+/gu, " ").trim();

/**
 * The species somebody means by a name: common or scientific, in any language, or both as the list offers them.
 * @template {Species} One
 * @param {string} typed
 * @param {One[]} all
 */
export function speciesOf(typed, all) {
  const wanted = folded(typed);
  return all.find((one) => [one.name, one.scientific, one.code, `${one.name} ${one.scientific}`, ...one.also].some((name) => folded(name) === wanted));
}

/** @param {Tree | undefined} tree */
const said = (tree) => Object.fromEntries(Object.entries(tree ?? {}).filter(([, value]) => value !== "" && value !== undefined));

/**
 * A new visit of an animal that was here before: who it is, who keeps it and in what, what it weighed; never what was found or read then.
 * What is typed already stays.
 * @param {Tree} record
 * @param {Tree} last
 * @param {string} name the record of `last`
 * @returns {Tree}
 */
export function asLastVisit(record, last, name) {
  const {mass, length, earlier = [], ...animal} = last.patient ?? {};
  const {readings: _, lamp, ...enclosure} = last.enclosure ?? {};
  const {measured: __, ...hanging} = lamp ?? {};
  const weighed = mass || length ? [said({on: last.visit?.date, mass, length})] : [];
  const kept = {...enclosure, ...(lamp ? {lamp: hanging} : {}), ...said(record.enclosure)};
  return {...record,
    visit: {...said({veterinarian: last.visit?.veterinarian, previous: name}), ...said(record.visit)},
    patient: {...animal, ...said(record.patient), earlier: [...earlier, ...weighed, ...(record.patient?.earlier ?? [])]},
    keeper: {...said(record.keeper), ...said(last.keeper)},
    ...(Object.keys(kept).length ? {enclosure: kept} : {})};
}

/**
 * The key of a sheet's value apart: its general name, and of which stage of life or powder it speaks.
 * "feeding.stages.adult.meal" is feeding.meal of the adult.
 * @param {string} key
 */
export function valueParts(key) {
  const [group, , ...rest] = key.split(".");
  if (!rest.length) return {name: key, of: []};
  return {name: `${group}.${rest.at(-1)}`, of: rest.slice(0, -1).flatMap((one) => one.split("+"))};
}
