// What is done to the findings of a record without the page: pure functions.
/** @import {Entry, Finding, Group, Level, Species, Tree} from "./types" */

/**
 * What is known of the record's animal: its species, or the group of one without a sheet.
 * @param {Record<string, any> | undefined} patient
 * @param {{species: Species[], unlisted: Group[]}} start
 * @returns {Species | Group | undefined}
 */
export function kindOf(patient, start) {
  if (patient?.species === "unlisted") return start.unlisted.find((one) => one.group === patient.unlisted?.group);
  return start.species.find((one) => one.code === patient?.species);
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
 * The list with one entry at a level; "" takes it out.
 * @param {Entry[]} list
 * @param {string} code
 * @param {Entry | null} entry
 * @param {Level | ""} level
 */
export function withLevel(list, code, entry, level) {
  if (level === "") return list.filter((one) => one !== entry);
  if (!entry) return [...list, {code, severity: level}];
  return list.map((one) => (one === entry ? {...one, severity: level} : one));
}

/**
 * The list with all that is still open in a group marked as fine. Where something was found in the group, a finding that can only be
 * fine may be its opposite ("body condition: fine" beside "overweight: clear"), so it is left to the veterinarian.
 * @param {Entry[]} list
 * @param {Finding[]} group
 */
export function withAllFine(list, group) {
  const codes = new Set(group.map((one) => one.code));
  const isFound = list.some((one) => codes.has(one.code) && levelOf(one) !== "normal");
  const open = group.filter((one) => one.severities.includes("normal") && !list.some((entry) => entry.code === one.code) &&
    !(isFound && one.severities.length === 1));
  return [...list, ...open.map((one) => ({code: one.code, severity: /** @type {const} */ ("normal")}))];
}
