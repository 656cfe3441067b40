// The examination: only what makes sense for this animal, by body system in the order of the table (the head last).
import {make, shared, word} from "./tools.js";
import {pathText} from "./fields.js";

let counter = 0;

function systemsFor(form) {
  const species = shared.start.species.find((one) => one.code === form.record.patient?.species);
  const all = species ? shared.start.findings.filter((one) => species.findings.includes(one.code)) : [];
  const systems = new Map();
  for (const finding of all) systems.set(finding.system, [...(systems.get(finding.system) ?? []), finding]);
  return systems;
}

const entries = (form) => (form.record.findings ??= []);

/** A short form of a finding ("- breathing") counts as the long one. */
function normalise(form) {
  const list = Array.isArray(form.record.findings) ? form.record.findings : [];
  form.record.findings = list.map((one) => (typeof one === "string" ? {code: one} : one));
}

const levelOf = (entry) => (entry ? entry.severity ?? "mild" : "");

function setLevel(form, code, entry, level) {
  const list = entries(form);
  if (level === "") form.record.findings = list.filter((one) => one !== entry);
  else if (entry) entry.severity = level;
  else list.push({code, severity: level});
  form.changed(["findings"], form.record.findings);
}

function words(form, entry) {
  return ["where", "note"].map((key) => {
    const id = `w${++counter}`;
    const path = ["findings", entries(form).indexOf(entry), key];
    const input = make(key === "note" ? "textarea" : "input", {id, rows: key === "note" ? 1 : null, value: entry[key] ?? "", autocomplete: "off",
      oninput: (event) => { entry[key] = event.target.value; form.changed(["findings"], form.record.findings); }});
    const fault = make("p", {class: "fault", hidden: true});
    form.places.set(pathText(path), {input, fault, path});
    return make("div", {class: `field word-${key}`}, make("label", {for: id}, word(`field.findings.${key}`)), input, fault);
  });
}

function levels(form, finding, entry, redraw) {
  const group = `g${++counter}`;
  const choices = ["", ...finding.severities];
  return choices.map((level) => make("label", {class: `level level-${level || "open"}`},
    make("input", {type: "radio", name: group, value: level, checked: levelOf(entry) === level,
      onchange: () => { setLevel(form, finding.code, entry, level); redraw(level); }}),
    make("span", {}, level ? word(`level.${level}`) : word("findings.not-looked"))));
}

function entryRow(form, finding, entry, redraw) {
  const path = entry ? ["findings", entries(form).indexOf(entry)] : null;
  const fault = make("p", {class: "fault", hidden: true});
  const isFound = entry && levelOf(entry) !== "normal";
  const set = make("fieldset", {class: `finding${isFound ? " found" : entry ? " fine" : ""}`, "data-code": finding.code},
    make("legend", {}, finding.name), make("div", {class: "levels"}, levels(form, finding, entry, redraw)), fault,
    isFound && make("div", {class: "words"}, words(form, entry),
      make("button", {type: "button", class: "quiet-button", onclick: () => {
        entries(form).push({code: finding.code, severity: levelOf(entry)});
        form.changed(["findings"], form.record.findings);
        redraw("");
      }}, word("findings.again"))));
  if (path) form.places.set(pathText(path), {input: set.querySelector("input:checked") ?? set.querySelector("input"), fault, path});
  return set;
}

function rows(form, finding) {
  const holder = make("div", {class: "finding-rows"});
  const draw = (level) => {
    const own = entries(form).filter((one) => one.code === finding.code);
    holder.replaceChildren(...(own.length ? own : [null]).map((entry) => entryRow(form, finding, entry, draw)));
    if (level !== undefined) (holder.querySelector("input:checked") ?? holder.querySelector("input")).focus();
  };
  draw();
  return holder;
}

function allFine(form, findings, redraw) {
  const open = findings.filter((one) => one.severities.includes("normal"));
  if (!open.length) return null;
  return make("button", {type: "button", class: "quiet-button", onclick: () => {
    for (const one of open)
      if (!entries(form).some((entry) => entry.code === one.code)) entries(form).push({code: one.code, severity: "normal"});
    form.changed(["findings"], form.record.findings);
    redraw();
  }}, word("findings.all-normal"));
}

function systemPart(form, system, findings) {
  const holder = make("section", {class: "system", "aria-labelledby": `system-${system}`});
  const draw = (isAgain) => {
    const button = allFine(form, findings, () => draw(true));
    holder.replaceChildren(make("div", {class: "system-head"}, make("h3", {id: `system-${system}`}, word(`system.${system}`)), button ?? ""),
      ...findings.map((one) => rows(form, one)));
    if (isAgain) holder.querySelector("button")?.focus();
  };
  draw();
  return holder;
}

/** What stands in the record and is not known for this animal must be seen to be taken out. */
function strangers(form, systems) {
  const known = new Set([...systems.values()].flat().map((one) => one.code));
  const others = entries(form).filter((one) => !known.has(one.code));
  if (!others.length) return null;
  return make("section", {class: "system"}, make("h3", {}, word("findings.other")), others.map((entry) => {
    const fault = make("p", {class: "fault", hidden: true});
    const button = make("button", {type: "button", class: "quiet-button", onclick: () => {
      form.record.findings = entries(form).filter((one) => one !== entry);
      form.changed(["findings"], form.record.findings);
      drawFindings(form);
    }}, `${word("remove")}: ${entry.code ?? ""}`);
    const path = ["findings", entries(form).indexOf(entry)];
    form.places.set(pathText(path), {input: button, fault, path});
    return make("div", {class: "stranger"}, button, fault);
  }));
}

export function drawFindings(form) {
  normalise(form);
  form.forget("findings");
  const systems = systemsFor(form);
  const other = strangers(form, systems);
  const none = systems.size ? null : make("p", {class: "quiet"}, word("findings.none"));
  form.findings.replaceChildren(...[...systems].map(([system, findings]) => systemPart(form, system, findings)), none ?? "", other ?? "");
}
