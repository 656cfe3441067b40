// One field of the form, by the kind its table gives it. A field reads and writes one place of the record:
// the record is plain objects, lists and texts, as the YAML file has them.
/** @import {Field, FormLike, Path} from "./types" */
import {make, shared, word, wordOr} from "./tools.js";
import {besideZone} from "./beside.js";
import {kindOf} from "./exam.js";
import {apart, cleaned, pathText, put, speciesOf, together, unitFor, valueAt} from "./record.js";

/** @typedef {(form: FormLike, path: Path, field: Field) => HTMLElement} Maker */

let counter = 0;

/** @param {Path} path */
export const labelOf = (path) => word(`field.${path.filter((part) => typeof part !== "number").join(".")}`);

/**
 * What is typed goes into the record without signs that nobody sees; that one was taken out is said beside the field.
 * @param {HTMLInputElement | HTMLTextAreaElement} input
 * @param {(text: string) => void} keep
 */
export function listenToText(input, keep) {
  input.addEventListener("input", () => {
    const text = cleaned(input.value);
    input.parentElement?.querySelector(".taken-out")?.remove();
    if (text !== input.value) {
      input.value = text;
      input.after(make("p", {class: "hint taken-out", role: "status"}, word("taken-out")));
    }
    keep(text);
  });
  return input;
}

/**
 * A label, the control, what it needs, and the place for its fault.
 * @param {FormLike} form
 * @param {Path} path
 * @param {Field} field
 * @param {HTMLElement} control
 * @param {HTMLElement} input the part of the control that takes the focus
 * @param {HTMLElement | null} [more] a hint
 */
function framed(form, path, field, control, input, more = null) {
  const id = `f${++counter}`;
  const fault = make("p", {class: "fault", id: `${id}-fault`, hidden: true});
  const isOfExample = field.example && ["band", "box", "partial-date"].includes(field.kind);
  const hint = isOfExample ? make("span", {class: "hint"}, `${word("for-example")} ${field.example}`) : more;
  if (hint) hint.id = `${id}-hint`;
  input.id = id;
  input.setAttribute("aria-describedby", [hint && `${id}-hint`, `${id}-fault`].filter(Boolean).join(" "));
  // inside a group that may be left out whole, nothing is needed yet
  const isNeeded = field.required && (shared.start.fields.some((one) => one.key === path[0] && one.required) || path.some((part) => typeof part === "number"));
  if (isNeeded) input.setAttribute("aria-required", "true");
  form.places.set(pathText(path), {input, fault, path});
  return make("div", {class: `field field-${field.kind}${field.long ? " field-long" : ""}`, "data-path": pathText(path)},
    make("label", {for: id}, labelOf(path), isNeeded && make("span", {class: "needed"}, ` (${word("required")})`)),
    control, hint, fault);
}

/** @type {Maker} */
function textField(form, path, field) {
  const properties = {value: valueAt(form.record, path) ?? "", autocomplete: "off"};
  const input = field.long ? make("textarea", {rows: 2, ...properties}) : make("input", properties);
  listenToText(input, (text) => form.changed(path, text));
  return framed(form, path, field, input, input);
}

/** @param {"photo" | "log"} as @returns {Maker} */
const besideField = (as) => (form, path, field) => {
  const group = path.slice(0, -1), short = valueAt(form.record, group);
  if (typeof short === "string") put(form.record, group, {file: short}); // log: week.csv
  const input = make("input", {value: valueAt(form.record, path) ?? "", autocomplete: "off"});
  listenToText(input, (text) => form.changed(path, text));
  return framed(form, path, field, besideZone(form, path, as, input, labelOf(path)), input);
};

/**
 * Free names with a choice each: a logger's probes. The names come with the file.
 * @type {Maker}
 */
function namedField(form, path, field) {
  const own = (field.fields ?? [])[0], names = Object.keys(valueAt(form.record, path) ?? {});
  const fault = make("p", {class: "fault", hidden: true});
  const set = make("fieldset", {class: "records", tabindex: -1, "data-path": pathText(path)}, make("legend", {}, labelOf(path)), names.map((name) => {
    const at = [...path, name];
    const value = valueAt(form.record, at)?.[own.key] ?? valueAt(form.record, at) ?? "";
    const id = `f${++counter}`;
    const select = make("select", {id, onchange: () => form.chosen(at, select.value)}, make("option", {value: ""}, word("not-said")),
      choiceOptions(own).map(([code, text]) => make("option", {value: code, selected: code === value}, text)));
    form.places.set(pathText(at), {input: select, fault, path});
    return make("div", {class: "field"}, make("label", {for: id}, name), select);
  }), fault);
  form.places.set(pathText(path), {input: set, fault, path});
  return set;
}

/** @type {Maker} */
function dateField(form, path, field) {
  const value = valueAt(form.record, path) ?? "";
  const isWhole = field.kind === "date" && (value === "" || /^\d{4}-\d\d-\d\d$/.test(value));
  const input = make("input", {type: isWhole ? "date" : "text", value});
  listenToText(input, (text) => form.changed(path, text));
  return framed(form, path, field, input, input);
}

/**
 * @param {FormLike} form
 * @param {Path} path
 * @param {Field} field
 * @param {[string, string][]} options code and name
 */
function choiceField(form, path, field, options) {
  const value = valueAt(form.record, path) ?? "";
  const isOther = value && !options.some(([code]) => code === value);
  const input = make("select", {onchange: () => form.chosen(path, input.value)},
    make("option", {value: ""}, word("not-said")),
    options.map(([code, name]) => make("option", {value: code, selected: code === value}, name)),
    isOther && make("option", {value, selected: true}, value));
  return framed(form, path, field, input, input);
}

/** @param {Field} field @returns {[string, string][]} */
const choiceOptions = (field) => (field.choices ?? []).map((code) => [code, wordOr(`choice.${code}`, code)]);

/** @returns {[string, string][]} */
const flagOptions = () => [["yes", word("yes")], ["no", word("no")]];

/** @type {Maker} */
function measureField(form, path, field) {
  const value = valueAt(form.record, path) ?? "";
  const units = field.units ?? [];
  const parts = value === "" ? ["", ""] : apart(value, units);
  const number = make("input", {value: parts && units.length ? parts[0] : value, autocomplete: "off",
    inputmode: field.kind === "quantity" ? "decimal" : "text"});
  if (!units.length || !parts) {
    listenToText(number, (text) => form.changed(path, text));
    return framed(form, path, field, number, number);
  }
  const wanted = parts[1] || unitFor(form.record, field, shared.start.units);
  const unit = make("select", {class: "unit", "aria-label": `${labelOf(path)}: ${word("unit")}`},
    units.map((one) => make("option", {value: one, selected: one === wanted}, one)));
  listenToText(number, () => form.changed(path, together(number.value, unit.value)));
  unit.addEventListener("change", () => form.chosen(path, together(number.value, unit.value)));
  // the first value of a record says how all others are read
  form.units.push(() => {
    if (!number.value.trim()) unit.value = unitFor(form.record, field, shared.start.units);
  });
  return framed(form, path, field, make("span", {class: "measure"}, number, unit), number);
}

/** @type {Maker} */
function speciesField(form, path, field) {
  const all = shared.start.species.map((one) => ({...one, label: [one.name, one.scientific].filter(Boolean).join(" · ")}));
  const known = speciesOf(valueAt(form.record, path) ?? "", all);
  const list = make("datalist", {id: "all-species"}, all.map((one) => make("option", {value: one.label})));
  const input = make("input", {list: "all-species", autocomplete: "off", value: known?.label ?? valueAt(form.record, path) ?? ""});
  listenToText(input, (text) => {
    const found = speciesOf(text, shared.start.species);
    form.changed(path, found?.code ?? text.trim());
    form.speciesChanged();
  });
  return framed(form, path, field, make("span", {}, input, list), input, make("span", {class: "hint"}, word("species.help")));
}

/** What a probe shows is the animal's sex from now on. @param {FormLike} form @param {boolean} isShown */
function sexFound(form, isShown) {
  const path = ["patient", "sex"];
  const group = `sex-${++counter}`;
  return make("fieldset", {class: "sex-found", hidden: !isShown}, make("legend", {}, labelOf(path)), ["female", "male"].map((one) =>
    make("label", {class: "check"}, make("input", {type: "radio", name: group, value: one, checked: valueAt(form.record, path) === one, onchange: () => {
      form.chosen(path, one);
      const field = form.places.get("patient.sex")?.input;
      if (field instanceof HTMLSelectElement) field.value = one;
      form.speciesChanged();
    }}), word(`choice.${one}`))));
}

/** @type {Maker} */
function proceduresField(form, path) {
  const group = kindOf(form.record.patient, shared.start)?.group;
  const done = () => [valueAt(form.record, path) ?? []].flat();
  const boxes = shared.start.procedures.filter((one) => !one.groups.length || !group || one.groups.includes(group) || done().includes(one.code))
    .map((one) => {
      const box = make("input", {type: "checkbox", value: one.code, checked: done().includes(one.code), onchange: () => {
        form.chosen(path, box.checked ? [...done(), one.code] : done().filter((code) => code !== one.code));
        if (one.sets_sex) sex.hidden = !box.checked;
      }});
      return make("label", {class: "check"}, box, one.name);
    });
  const sex = sexFound(form, shared.start.procedures.some((one) => one.sets_sex && done().includes(one.code)));
  const fault = make("p", {class: "fault", hidden: true});
  const set = make("fieldset", {class: "checks", tabindex: -1, "data-path": pathText(path)}, make("legend", {}, labelOf(path)), boxes, sex, fault);
  form.places.set(pathText(path), {input: set, fault, path});
  return set;
}

/**
 * Records in a list: earlier weighings, medicines.
 * @type {Maker}
 */
function listField(form, path, field) {
  const holder = make("fieldset", {class: "records"});
  const items = () => valueAt(form.record, path) ?? [];
  const take = (/** @type {number} */ i) => {
    form.chosen(path, items().filter((/** @type {unknown} */ _, /** @type {number} */ at) => at !== i));
    draw();
    holder.querySelector("button")?.focus();
  };
  const add = () => {
    form.chosen(path, [...items(), {}]);
    draw();
    [...holder.querySelectorAll(".one-record")].at(-1)?.querySelector("input")?.focus();
  };
  function draw() {
    form.forget(pathText(path));
    const fault = make("p", {class: "fault", hidden: true});
    const button = make("button", {type: "button", "aria-label": `${word("add")}: ${labelOf(path)}`, onclick: add}, word("add"));
    holder.replaceChildren(make("legend", {}, labelOf(path)),
      ...items().map((/** @type {unknown} */ _, /** @type {number} */ i) => make("div", {class: "one-record"},
        (field.fields ?? []).map((own) => fieldFor(form, [...path, i, own.key], own)),
        make("button", {type: "button", class: "quiet-button", "aria-label": `${word("remove")}: ${labelOf(path)} ${i + 1}`, onclick: () => take(i)},
          word("remove")))),
      button, fault);
    form.places.set(pathText(path), {input: button, fault, path});
  }
  draw();
  return holder;
}

/**
 * A group is shut while nothing stands in it, but for the measures that most records have.
 * @type {Maker}
 */
function groupField(form, path, field) {
  const fields = field.fields ?? [];
  const isOpen = valueAt(form.record, path) !== undefined || (path.length === 2 && fields.some((one) => one.kind === "quantity"));
  return make("details", {class: "group", open: isOpen}, make("summary", {}, labelOf(path)),
    make("div", {class: "fields"}, fields.map((own) => fieldFor(form, [...path, own.key], own))));
}

/** @type {Record<string, Maker>} */
const byPath = {
  "patient.species": speciesField,
  "patient.photo": besideField("photo"),
  "enclosure.readings.log.file": besideField("log"),
  "done-today": proceduresField,
  "diet.food": (form, path, field) => choiceField(form, path, field, shared.start.foods.map((one) => [one.code, one.name])),
  "visit.kind": (form, path, field) =>
    choiceField(form, path, field, shared.start.kinds.map((code) => [code, wordOr(`choice.${code}`, code)])),
  "keeper.language": (form, path, field) =>
    choiceField(form, path, field, shared.start.languages.map((code) => [code, wordOr(`lang.${code}`, code)])),
};

/** @type {Record<string, Maker>} */
const byKind = {
  text: textField, texts: textField, date: dateField, "partial-date": dateField, quantity: measureField, band: measureField, box: measureField,
  choice: (form, path, field) => choiceField(form, path, field, choiceOptions(field)),
  flag: (form, path, field) => choiceField(form, path, field, flagOptions()),
  record: groupField, records: listField, named: namedField,
  "some-records": (form, path, field) => (Array.isArray(valueAt(form.record, path)) ? listField : groupField)(form, path, field),
};

/** @type {Maker} */
export function fieldFor(form, path, field) {
  return (byPath[pathText(path.filter((part) => typeof part !== "number"))] ?? byKind[field.kind] ?? textField)(form, path, field);
}
