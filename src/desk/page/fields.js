// One field of the form, by the kind its table gives it. A field reads and writes one place of the record:
// the record is plain objects, lists and texts, as the YAML file has them.
import {make, shared, word, wordOr} from "./tools.js";

let counter = 0;

/** "findings[2].note" for ["findings", 1, "note"]: as faults name it. */
export function pathText(path) {
  return path.reduce((text, part) => (typeof part === "number" ? `${text}[${part + 1}]` : text ? `${text}.${part}` : part), "");
}

export const labelOf = (path) => word(`field.${path.filter((part) => typeof part !== "number").join(".")}`);

export function valueAt(record, path) {
  return path.reduce((place, part) => (place === undefined || place === null ? undefined : place[part]), record);
}

export function put(record, path, value) {
  let place = record;
  path.slice(0, -1).forEach((part, i) => {
    if (place[part] === undefined || typeof place[part] !== "object") place[part] = typeof path[i + 1] === "number" ? [] : {};
    place = place[part];
  });
  place[path.at(-1)] = value;
}

/** A label, the control, what it needs, and the place for its fault. `form` is the whole form's own (form.js). */
function framed(form, path, field, control, input, more = null) {
  const id = `f${++counter}`;
  const fault = make("p", {class: "fault", id: `${id}-fault`, hidden: true});
  const hint = field.example && ["band", "box", "partial-date"].includes(field.kind)
    ? make("span", {class: "hint", id: `${id}-hint`}, `${word("for-example")} ${field.example}`) : more;
  if (more && hint === more) more.id = `${id}-hint`;
  input.id = id;
  input.setAttribute("aria-describedby", [hint && `${id}-hint`, `${id}-fault`].filter(Boolean).join(" "));
  // inside a group that may be left out whole, nothing is needed yet
  const isNeeded = field.required && (["visit", "patient"].includes(path[0]) || path.some((part) => typeof part === "number"));
  if (isNeeded) input.setAttribute("aria-required", "true");
  form.places.set(pathText(path), {input, fault, path});
  return make("div", {class: `field field-${field.kind}`, "data-path": pathText(path)},
    make("label", {for: id}, labelOf(path), isNeeded && make("span", {class: "needed"}, ` (${word("required")})`)),
    control, hint, fault);
}

function textField(form, path, field) {
  const isLong = ["note", "directions", "because", "message"].includes(field.key);
  const properties = {value: valueAt(form.record, path) ?? "", autocomplete: "off",
    oninput: (event) => form.changed(path, event.target.value)};
  const input = isLong ? make("textarea", {rows: 2, ...properties}) : make("input", properties);
  return framed(form, path, field, input, input);
}

function dateField(form, path, field) {
  const value = valueAt(form.record, path) ?? "";
  const isWhole = field.kind === "date" && (value === "" || /^\d{4}-\d\d-\d\d$/.test(value));
  const input = make("input", {type: isWhole ? "date" : "text", value, oninput: (event) => form.changed(path, event.target.value)});
  return framed(form, path, field, input, input);
}

function select(form, path, options, value) {
  return make("select", {onchange: (event) => form.changed(path, event.target.value)},
    make("option", {value: ""}, word("not-said")),
    options.map(([code, name]) => make("option", {value: code, selected: code === value}, name)),
    value && !options.some(([code]) => code === value) && make("option", {value, selected: true}, value));
}

function choiceField(form, path, field, options) {
  const input = select(form, path, options, valueAt(form.record, path) ?? "");
  return framed(form, path, field, input, input);
}

const choiceOptions = (field) => field.choices.map((code) => [code, wordOr(`choice.${code}`, code)]);
const flagOptions = () => [["yes", word("yes")], ["no", word("no")]];

// The unit that is offered first, by the units the keeper reads in.
const usual = {metric: ["C", "g", "cm", "%", "days", "h"], us: ["F", "oz", "in", "%", "days", "h"]};

function firstUnit(form, units) {
  const system = form.record.keeper?.units ?? shared.start.units;
  return (usual[system] ?? usual.metric).find((unit) => units.includes(unit)) ?? units[0];
}

/** "29 C" as number and unit; null when it is written in a way of its own ("3 lb 3 oz"). */
function apart(value, units) {
  const match = /^\s*([-0-9.,–x ]*[0-9])\s*(\S+)\s*$/.exec(value);
  return match && units.includes(match[2]) ? [match[1].trim(), match[2]] : null;
}

function measureField(form, path, field) {
  const value = valueAt(form.record, path) ?? "";
  const parts = value === "" ? ["", ""] : apart(value, field.units);
  const isOwn = !field.units.length || !parts;
  const number = make("input", {value: isOwn ? value : parts[0], autocomplete: "off",
    inputmode: field.kind === "quantity" ? "decimal" : "text"});
  if (isOwn) {
    number.addEventListener("input", () => form.changed(path, number.value));
    return framed(form, path, field, number, number);
  }
  const wanted = parts[1] || firstUnit(form, field.units);
  const unit = make("select", {class: "unit", "aria-label": `${labelOf(path)}: ${word("unit")}`},
    field.units.map((one) => make("option", {value: one, selected: one === wanted}, one)));
  const write = () => {
    const typed = number.value.trim();
    const hasUnit = /[^\d\s.,–x-]/.test(typed); // somebody typed the unit too
    form.changed(path, typed === "" || hasUnit ? typed : `${typed} ${unit.value}`);
  };
  number.addEventListener("input", write);
  unit.addEventListener("change", write);
  return framed(form, path, field, make("span", {class: "measure"}, number, unit), number);
}

function speciesField(form, path, field) {
  const all = shared.start.species.map((one) => ({...one, label: `${one.name} · ${one.scientific}`}));
  const known = all.find((one) => one.code === valueAt(form.record, path));
  const list = make("datalist", {id: "all-species"}, all.map((one) => make("option", {value: one.label})));
  const input = make("input", {list: "all-species", autocomplete: "off", value: known?.label ?? valueAt(form.record, path) ?? ""});
  input.addEventListener("input", () => {
    const typed = input.value.trim().toLowerCase();
    const names = (one) => [one.label, one.name, one.scientific, one.code].some((name) => name.toLowerCase() === typed);
    form.changed(path, all.find(names)?.code ?? input.value.trim());
    form.speciesChanged();
  });
  return framed(form, path, field, make("span", {}, input, list), input, make("span", {class: "hint"}, word("species.help")));
}

function proceduresField(form, path) {
  const group = shared.start.species.find((one) => one.code === form.record.patient?.species)?.group;
  const done = () => [valueAt(form.record, path) ?? []].flat();
  const boxes = shared.start.procedures.filter((one) => !one.groups.length || !group || one.groups.includes(group) || done().includes(one.code))
    .map((one) => make("label", {class: "check"},
      make("input", {type: "checkbox", checked: done().includes(one.code), onchange: (event) =>
        form.changed(path, event.target.checked ? [...done(), one.code] : done().filter((code) => code !== one.code))}),
      one.name));
  const fault = make("p", {class: "fault", hidden: true});
  const set = make("fieldset", {class: "checks", tabindex: -1}, make("legend", {}, labelOf(path)), boxes, fault);
  form.places.set(pathText(path), {input: set, fault, path});
  return set;
}

/** Records in a list: earlier weighings, medicines. */
function listField(form, path, field) {
  const holder = make("fieldset", {class: "records"});
  const items = () => valueAt(form.record, path) ?? [];
  function draw() {
    form.forget(pathText(path));
    const fault = make("p", {class: "fault", hidden: true});
    holder.replaceChildren(make("legend", {}, labelOf(path)),
      ...items().map((_, i) => make("div", {class: "one-record"},
        field.fields.map((own) => fieldFor(form, [...path, i, own.key], own)),
        make("button", {type: "button", class: "quiet-button", "aria-label": `${word("remove")}: ${labelOf(path)} ${i + 1}`,
          onclick: () => { form.changed(path, items().filter((_, k) => k !== i)); draw(); holder.querySelector("button").focus(); }},
        word("remove")))),
      make("button", {type: "button", "aria-label": `${word("add")}: ${labelOf(path)}`, onclick: () => {
        form.changed(path, [...items(), {}]);
        draw();
        [...holder.querySelectorAll(".one-record")].at(-1).querySelector("input").focus();
      }}, word("add")), fault);
    form.places.set(pathText(path), {input: holder.querySelector(":scope > button"), fault, path});
  }
  draw();
  return holder;
}

function groupField(form, path, field) {
  return make("fieldset", {class: "group"}, make("legend", {}, labelOf(path)),
    make("div", {class: "fields"}, field.fields.map((own) => fieldFor(form, [...path, own.key], own))));
}

const byPath = {
  "patient.species": speciesField,
  "done-today": proceduresField,
  "diet.food": (form, path, field) => choiceField(form, path, field, shared.start.foods.map((one) => [one.code, one.name])),
  "keeper.language": (form, path, field) =>
    choiceField(form, path, field, shared.start.languages.map((code) => [code, wordOr(`lang.${code}`, code)])),
};

const byKind = {
  text: textField, date: dateField, "partial-date": dateField, quantity: measureField, band: measureField, box: measureField,
  choice: (form, path, field) => choiceField(form, path, field, choiceOptions(field)),
  flag: (form, path, field) => choiceField(form, path, field, flagOptions()),
  record: groupField, records: listField,
};

export function fieldFor(form, path, field) {
  return (byPath[pathText(path)] ?? byKind[field.kind])(form, path, field);
}
