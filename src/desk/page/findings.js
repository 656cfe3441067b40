// The examination: only what makes sense for this animal, by body system.
/** @import {Entry, Finding, FormLike, Level} from "./types" */
import {make, shared, word} from "./tools.js";
import {listenToText} from "./fields.js";
import {pathText} from "./record.js";
import {entriesOf, kindOf, levelOf, systemsOf, withAllFine, withLevel} from "./exam.js";

let counter = 0;

/** @param {FormLike} form @param {Entry} entry */
const pathOf = (form, entry) => ["findings", entriesOf(form.record).indexOf(entry)];

/**
 * Where and what else: the veterinarian's own words.
 * @param {FormLike} form
 * @param {Entry} entry
 */
function words(form, entry) {
  return (/** @type {const} */ (["where", "note"])).map((key) => {
    const id = `w${++counter}`;
    const path = [...pathOf(form, entry), key];
    const properties = {id, value: entry[key] ?? "", autocomplete: "off"};
    const input = listenToText(key === "note" ? make("textarea", {rows: 1, ...properties}) : make("input", properties), (text) => form.changed(path, text));
    const fault = make("p", {class: "fault", hidden: true});
    form.places.set(pathText(path), {input, fault, path});
    return make("div", {class: `field word-${key}`}, make("label", {for: id}, word(`field.findings.${key}`)), input, fault);
  });
}

/**
 * @param {FormLike} form
 * @param {Finding} finding
 * @param {Entry | null} entry
 * @param {() => void} redraw
 */
function levels(form, finding, entry, redraw) {
  const group = `g${++counter}`;
  const choices = /** @type {(Level | "")[]} */ (["", ...finding.severities]);
  return choices.map((level) => make("label", {class: `level level-${level || "open"}`},
    make("input", {type: "radio", name: group, value: level, checked: levelOf(entry) === level, onchange: () => {
      form.changed(["findings"], withLevel(entriesOf(form.record), finding.code, entry, level));
      redraw();
    }}),
    make("span", {}, level ? word(`level.${level}`) : word("findings.not-looked"))));
}

/**
 * @param {FormLike} form
 * @param {Finding} finding
 * @param {Entry | null} entry
 * @param {() => void} redraw
 */
function entryRow(form, finding, entry, redraw) {
  const fault = make("p", {class: "fault", hidden: true});
  const isFound = entry && levelOf(entry) !== "normal";
  const again = () => {
    form.changed(["findings"], [...entriesOf(form.record), {code: finding.code, severity: levelOf(entry)}]);
    redraw();
  };
  const set = make("fieldset", {class: `finding${isFound ? " found" : entry ? " fine" : ""}`, "data-code": finding.code},
    make("legend", {}, finding.name), make("div", {class: "levels"}, levels(form, finding, entry, redraw)), fault,
    isFound && make("div", {class: "words"}, words(form, entry),
      make("button", {type: "button", class: "quiet-button", onclick: again}, word("findings.again"))));
  if (entry) {
    const path = pathOf(form, entry);
    const input = /** @type {HTMLElement} */ (set.querySelector("input:checked") ?? set.querySelector("input"));
    form.places.set(pathText(path), {input, fault, path});
  }
  return set;
}

/** @param {FormLike} form @param {Finding} finding */
function rows(form, finding) {
  const holder = make("div", {class: "finding-rows"});
  const draw = (isAgain = true) => {
    const own = entriesOf(form.record).filter((one) => one.code === finding.code);
    holder.replaceChildren(...(own.length ? own : [null]).map((entry) => entryRow(form, finding, entry, draw)));
    if (isAgain) /** @type {HTMLElement | null} */ (holder.querySelector("input:checked") ?? holder.querySelector("input"))?.focus();
  };
  draw(false);
  return holder;
}

/**
 * @param {FormLike} form
 * @param {string} system
 * @param {Finding[]} findings
 */
function systemPart(form, system, findings) {
  const holder = make("section", {class: "system", "aria-labelledby": `system-${system}`});
  const allFine = () => {
    form.changed(["findings"], withAllFine(entriesOf(form.record), findings));
    draw();
    holder.querySelector("button")?.focus();
  };
  function draw() {
    const canBeFine = findings.some((one) => one.severities.includes("normal"));
    holder.replaceChildren(make("div", {class: "system-head"}, make("h3", {id: `system-${system}`}, word(`system.${system}`)),
      canBeFine ? make("button", {type: "button", class: "quiet-button", onclick: allFine}, word("findings.all-normal")) : ""),
    ...findings.map((one) => rows(form, one)));
  }
  draw();
  return holder;
}

/**
 * What stands in the record and is not known for this animal must be seen to be taken out.
 * @param {FormLike} form
 * @param {Set<string>} known
 */
function strangers(form, known) {
  const others = entriesOf(form.record).filter((one) => !known.has(one.code));
  if (!others.length) return null;
  return make("section", {class: "system"}, make("h3", {}, word("findings.other")), others.map((entry) => {
    const fault = make("p", {class: "fault", hidden: true});
    const path = pathOf(form, entry);
    const button = make("button", {type: "button", class: "quiet-button", onclick: () => {
      form.changed(["findings"], entriesOf(form.record).filter((one) => one !== entry));
      drawFindings(form);
    }}, `${word("remove")}: ${entry.code ?? ""}`);
    form.places.set(pathText(path), {input: button, fault, path});
    return make("div", {class: "stranger"}, button, fault);
  }));
}

/** @param {FormLike} form */
export function drawFindings(form) {
  form.forget("findings");
  const systems = systemsOf(kindOf(form.record.patient, shared.start), shared.start.findings);
  const known = new Set([...systems.values()].flat().map((one) => one.code));
  const none = systems.size ? "" : make("p", {class: "quiet"}, word("findings.none"));
  form.findings.replaceChildren(...[...systems].map(([system, findings]) => systemPart(form, system, findings)), none, strangers(form, known) ?? "");
}
