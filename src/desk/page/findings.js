// The examination: only what makes sense for this animal, by body system; a group opens where something is to be noted.
/** @import {Entry, Finding, FormLike, Level} from "./types" */
import {make, shared, word, wordOr} from "./tools.js";
import {listenToText} from "./fields.js";
import {pathText} from "./record.js";
import {byCode, entriesOf, kindOf, levelOf, summaryOf, systemsOf, withAllFine, withLevel} from "./exam.js";

let counter = 0;

/** @param {FormLike} form @param {Entry} entry */
const pathOf = (form, entry) => ["findings", entriesOf(form.record).indexOf(entry)];

const known = () => byCode(shared.start.findings);

/**
 * @param {FormLike} form
 * @param {Entry} entry
 * @param {"where" | "note" | "value" | "step" | "state" | "certainty"} key
 * @param {(id: string, change: (text: string) => void, choose: (text: string) => void) => HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement} control
 */
function wordField(form, entry, key, control) {
  const id = `w${++counter}`;
  const path = [...pathOf(form, entry), key];
  const input = control(id, (text) => form.changed(path, text), (text) => form.chosen(path, text));
  const fault = make("p", {class: "fault", hidden: true});
  form.places.set(pathText(path), {input, fault, path});
  return make("div", {class: `field word-${key}`}, make("label", {for: id}, word(`field.findings.${key}`)), input, fault);
}

/** @param {FormLike} form @param {Entry} entry @param {"where" | "note" | "value"} key */
function textWord(form, entry, key) {
  return wordField(form, entry, key, (id, change) => {
    const properties = {id, value: entry[key] ?? "", autocomplete: "off", inputmode: key === "value" ? "decimal" : null};
    return listenToText(key === "note" ? make("textarea", {rows: 1, ...properties}) : make("input", properties), change);
  });
}

/** @param {FormLike} form @param {Entry} entry @param {"step" | "state" | "certainty"} key @param {string[]} choices */
function choiceWord(form, entry, key, choices) {
  return wordField(form, entry, key, (id, _, choose) => {
    const select = make("select", {id, onchange: () => choose(select.value)}, make("option", {value: ""}, word("not-said")),
      choices.map((one) => make("option", {value: one, selected: one === entry[key]}, wordOr(`choice.${one}`, one))));
    return select;
  });
}

/** @param {"state" | "certainty"} key */
const choicesOf = (key) => shared.start.fields.find((one) => one.key === "findings")?.fields?.find((one) => one.key === key)?.choices ?? [];

/**
 * Where and what else: the veterinarian's own words; a fine finding has a note when somebody asks for it.
 * @param {FormLike} form
 * @param {Finding} finding
 * @param {Entry} entry
 * @param {() => void} again
 */
function words(form, finding, entry, again) {
  const isFound = levelOf(entry) !== "normal";
  const number = finding.value && textWord(form, entry, "value");
  if (!isFound && !entry.note) {
    const holder = make("div", {class: "words"}, number, make("button", {type: "button", class: "quiet-button add-note", "aria-label": `${word("findings.note")}: ${finding.name}`, onclick: () => {
      entry.note ??= "";
      const field = textWord(form, entry, "note");
      holder.querySelector(".add-note")?.replaceWith(field);
      field.querySelector("textarea")?.focus();
    }}, word("findings.note")));
    return holder;
  }
  return make("div", {class: "words"}, isFound && textWord(form, entry, "where"), number, textWord(form, entry, "note"),
    isFound && finding.steps.length > 0 && choiceWord(form, entry, "step", finding.steps), isFound && choiceWord(form, entry, "state", choicesOf("state")),
    isFound && choiceWord(form, entry, "certainty", choicesOf("certainty")),
    isFound && make("button", {type: "button", class: "quiet-button", onclick: again}, word("findings.again")));
}

/** The arrow keys end at the first and the last level: a finding is never lost by one press too many. @param {KeyboardEvent} event */
function stayInside(event) {
  const inputs = [...(/** @type {HTMLElement} */ (event.currentTarget)).querySelectorAll("input")];
  const at = inputs.indexOf(/** @type {HTMLInputElement} */ (event.target));
  const step = ["ArrowRight", "ArrowDown"].includes(event.key) ? 1 : ["ArrowLeft", "ArrowUp"].includes(event.key) ? -1 : 0;
  if (step && !inputs[at + step]) event.preventDefault();
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
  return make("div", {class: "levels", onkeydown: stayInside}, choices.map((level) => make("label", {class: `level level-${level || "open"}`},
    make("input", {type: "radio", name: group, value: level, checked: levelOf(entry) === level, onchange: () => {
      form.chosen(["findings"], withLevel(entriesOf(form.record), finding.code, entry, level, known()));
      redraw();
    }}),
    make("span", {}, level ? word(`level.${level}`) : word("findings.not-looked")))));
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
    form.chosen(["findings"], [...entriesOf(form.record), {code: finding.code, severity: levelOf(entry)}]);
    redraw();
  };
  const set = make("fieldset", {class: `finding${isFound ? " found" : entry ? " fine" : ""}`, "data-code": finding.code},
    make("legend", {}, finding.name), levels(form, finding, entry, redraw), fault, entry && words(form, finding, entry, again));
  if (entry) {
    const path = pathOf(form, entry);
    const input = /** @type {HTMLElement} */ (set.querySelector("input:checked") ?? set.querySelector("input"));
    form.places.set(pathText(path), {input, fault, path});
  }
  return set;
}

/** @param {FormLike} form @param {Finding} finding @param {() => void} redraw */
function rows(form, finding, redraw) {
  const own = entriesOf(form.record).filter((one) => one.code === finding.code);
  return (own.length ? own : [null]).map((entry) => entryRow(form, finding, entry, redraw));
}

/** "2 found, 1 fine" @param {ReturnType<typeof summaryOf>} summary */
function summaryWords({found, fine, open}) {
  if (!found && !fine) return make("span", {class: "hint"}, word("findings.not-looked"));
  return make("span", {class: found ? "some-found" : "all-fine"}, [found && `${found} ${word("findings.found")}`, fine && `${fine} ${word("level.normal")}`,
    open && `${open} ${word("findings.not-looked")}`].filter(Boolean).join(", "));
}

/**
 * A group stays shut until something is noted in it or it is asked for.
 * @param {FormLike} form
 * @param {string} system
 * @param {Finding[]} findings
 * @param {Set<string>} opened
 */
function systemPart(form, system, findings, opened) {
  const summary = summaryOf(entriesOf(form.record), findings, known());
  const isOpen = opened.has(system) || summary.found > 0;
  const body = make("div", {class: "system-body", hidden: !isOpen});
  const fill = () => body.replaceChildren(...findings.flatMap((one) => rows(form, one, () => again(one.code))));
  const again = (/** @type {string} */ code) => {
    opened.add(system);
    drawFindings(form, opened);
    const set = form.findings.querySelector(`[data-code="${code}"]`);
    /** @type {HTMLElement | null} */ (set?.querySelector("input:checked") ?? set?.querySelector("input") ?? null)?.focus();
  };
  const toggle = make("button", {type: "button", class: "system-toggle", id: `system-${system}`, "aria-expanded": String(isOpen), onclick: () => {
    const shows = body.hidden;
    if (shows) fill();
    body.hidden = !shows;
    toggle.setAttribute("aria-expanded", String(shows));
    if (shows) opened.add(system);
    else opened.delete(system);
  }}, make("span", {class: "system-name"}, word(`system.${system}`)), " ", summaryWords(summary));
  const fine = make("button", {type: "button", class: "quiet-button all-fine-here", "aria-label": `${word("findings.all-normal")}: ${word(`system.${system}`)}`, onclick: () => {
    form.chosen(["findings"], withAllFine(entriesOf(form.record), findings, known()));
    drawFindings(form, opened);
    document.getElementById(`system-${system}`)?.focus();
  }}, word("findings.all-normal"));
  if (isOpen) fill();
  return make("section", {class: "system", "aria-labelledby": `system-${system}`},
    make("div", {class: "system-head"}, make("h3", {}, toggle), summary.open > 0 && fine), body);
}

/**
 * What stands in the record and is not known for this animal must be seen to be taken out.
 * @param {FormLike} form
 * @param {Set<string>} codes
 */
function strangers(form, codes) {
  const others = entriesOf(form.record).filter((one) => !codes.has(one.code));
  if (!others.length) return null;
  return make("section", {class: "system"}, make("h3", {}, word("findings.other")), others.map((entry) => {
    const fault = make("p", {class: "fault", hidden: true});
    const path = pathOf(form, entry);
    const button = make("button", {type: "button", class: "quiet-button", onclick: () => {
      form.chosen(["findings"], entriesOf(form.record).filter((one) => one !== entry));
      drawFindings(form);
    }}, `${word("remove")}: ${entry.code ?? ""}`);
    form.places.set(pathText(path), {input: button, fault, path});
    return make("div", {class: "stranger"}, button, fault);
  }));
}

/** @param {FormLike} form @param {Set<string>} opened the groups that somebody opened */
export function drawFindings(form, opened = new Set()) {
  form.forget("findings");
  const systems = systemsOf(kindOf(form.record.patient, shared.start), shared.start.findings);
  const codes = new Set([...systems.values()].flat().map((one) => one.code));
  const none = systems.size ? "" : make("p", {class: "quiet"}, word("findings.none"));
  form.findings.replaceChildren(...[...systems].map(([system, findings]) => systemPart(form, system, findings, opened)), none, strangers(form, codes) ?? "");
  form.showFaults();
}
