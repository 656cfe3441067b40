// What is done to the findings of a record without the page: pure functions.
/** @import {Entry, Finding, Group, Level, Species, Tree} from "./types" */
import {speciesOf} from "./record.js";

/**
 * What is known of the record's animal: its species, or the group of one without a sheet.
 * @param {Record<string, any> | undefined} patient
 * @param {{species: Species[], unlisted: Group[]}} start
 * @returns {Species | Group | undefined}
 */
export function kindOf(patient, start) {
  if (patient?.species === "unlisted") return start.unlisted.find((one) => one.group === patient.unlisted?.group);
  return patient?.species ? speciesOf(patient.species, start.species) : undefined;
}

/**
 * The findings that make sense for a species, by body system in the order of the table (the head last).
 * @param {{findings: string[]} | undefined} species
 * @param {Finding[]} findings
 * @returns {Map<string, Finding[]>}
 */
export function systemsOf(species, findings) {
  /** @type {Map<string, Finding[]>} */
  const systems = new Map();
  for (const one of findings)
    if (species?.findings.includes(one.code)) systems.set(one.system, [...(systems.get(one.system) ?? []), one]);
  return systems;
}

/**
 * The entries of a record; a short form of a finding ("- breathing") counts as the long one.
 * @param {Tree} record
 * @returns {Entry[]}
 */
export function entriesOf(record) {
  const list = Array.isArray(record.findings) ? record.findings : [];
  record.findings = list.map((/** @type {any} */ one) => (typeof one === "string" ? {code: one} : one));
  return record.findings;
}

/** @param {Entry | null | undefined} entry @returns {Level | ""} */
export const levelOf = (entry) => (entry ? entry.severity ?? "mild" : "");

/**
 * May the two not stand beside each other ("breathing: fine" and "airway infection: clear")?
 * @param {Map<string, Finding>} known by code
 * @param {string} one
 * @param {string} other
 */
const excludeEachOther = (known, one, other) => Boolean(known.get(one)?.excludes.includes(other) || known.get(other)?.excludes.includes(one));

/** @param {Finding[]} findings @returns {Map<string, Finding>} */
export const byCode = (findings) => new Map(findings.map((one) => [one.code, one]));

/** What is normal is not suspected. @param {Entry} entry */
const withoutDoubt = (entry) => /** @type {Entry} */ (Object.fromEntries(Object.entries(entry).filter(([key]) => key !== "certainty")));

/**
 * The list with one entry at a level; "" takes it out. What was fine and cannot be so beside what is found is no longer noted.
 * @param {Entry[]} list
 * @param {string} code
 * @param {Entry | null} entry
 * @param {Level | ""} level
 * @param {Map<string, Finding>} known
 */
export function withLevel(list, code, entry, level, known) {
  if (level === "") return list.filter((one) => one !== entry);
  const rest = level === "normal" ? list
    : list.filter((one) => one === entry || levelOf(one) !== "normal" || !excludeEachOther(known, one.code, code));
  if (!entry) return [...rest, {code, severity: level}];
  return rest.map((one) => (one === entry ? {...(level === "normal" ? withoutDoubt(one) : one), severity: level} : one));
}

/**
 * The list with all that is still open in a group marked as fine, but for the opposite of what was found; numbers are written, not marked.
 * @param {Entry[]} list
 * @param {Finding[]} group
 * @param {Map<string, Finding>} known
 */
export function withAllFine(list, group, known) {
  const found = list.filter((one) => levelOf(one) !== "normal");
  const open = group.filter((one) => one.severities.includes("normal") && !one.value && !list.some((entry) => entry.code === one.code) &&
    !found.some((entry) => excludeEachOther(known, entry.code, one.code)));
  return [...list, ...open.map((one) => ({code: one.code, severity: /** @type {const} */ ("normal")}))];
}

/**
 * What is noted in a group: how many findings, how many fine ones, how many still open.
 * @param {Entry[]} list
 * @param {Finding[]} group
 * @param {Map<string, Finding>} known
 */
export function summaryOf(list, group, known) {
  const codes = new Set(group.map((one) => one.code));
  const own = list.filter((one) => codes.has(one.code));
  const fine = own.filter((one) => levelOf(one) === "normal").length;
  return {found: own.length - fine, fine, open: withAllFine(list, group, known).length - list.length};
}
