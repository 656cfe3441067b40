// One record: the form, kept while it is typed, with its faults beside the fields and its plan at the side.
import {ask, make, Refusal, send, shared, tell, tellRefusal, who, word, wordOr} from "./tools.js";
import {fieldFor, labelOf, put} from "./fields.js";
import {drawFindings} from "./findings.js";
import {PlanView} from "./plan.js";

const KEEP_AFTER_MS = 400;

// The order of a visit: who comes, what is found, what hangs at home, what happens next.
const parts = [
  ["visit", [["visit", "date"], ["visit", "kind"], ["visit", "veterinarian"]]],
  ["patient", [["patient"]]],
  ["keeper", [["keeper"]]],
  ["findings", []],
  ["enclosure", [["enclosure"]]],
  ["diet", [["diet"]]],
  ["after", [["done-today"], ["medicines"], ["follow-up"], ["message"]]],
  ["targets", [["targets"]]],
];

function fieldAt(path) {
  return path.reduce((found, key) => (found ? found.fields : shared.start.fields).find((one) => one.key === key), null);
}

/** What says nothing is left out, as the desk does it. */
function pruned(value) {
  if (Array.isArray(value)) return value.map(pruned).filter((one) => one !== undefined);
  if (typeof value !== "object" || value === null) return value === "" || value === null ? undefined : value;
  const kept = Object.entries(value).map(([key, one]) => [key, pruned(one)]).filter(([, one]) => one !== undefined);
  return kept.length ? Object.fromEntries(kept) : undefined;
}

class Form {
  constructor(opened, content) {
    Object.assign(this, {id: opened.id ?? "", name: opened.name ?? "", version: opened.draft?.version ?? opened.version ?? "",
      onDisk: opened.version ?? "", state: opened.state ?? "examine", log: opened.log ?? [], remarks: opened.remarks});
    this.record = structuredClone(opened.draft?.record ?? opened.record ?? {});
    this.isTyped = Boolean(opened.draft) || !this.name;
    this.hasDraft = Boolean(opened.draft);
    this.showsMissing = Boolean(this.name);
    this.places = new Map();
    this.faults = opened.faults ?? [];
    this.content = content;
    this.plan = new PlanView(this);
  }

  // ---- what is typed -------------------------------------------------------------

  changed(path, value) {
    put(this.record, path, value);
    this.isTyped = true;
    this.says.textContent = word("keeping");
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.keep(), KEEP_AFTER_MS);
    if (path[0] === "patient" && path[1] === "name") this.title.textContent = value || word("new-visit");
  }

  body() {
    return {id: this.id, name: this.name, version: this.version, record: pruned(this.record) ?? {}};
  }

  /** One after the other, so that the last text typed is the last one kept. */
  keep(more) {
    clearTimeout(this.timer);
    this.timer = null;
    this.keeping = (this.keeping ?? Promise.resolve()).then(() => this.keepNow(more));
    return this.keeping;
  }

  async keepNow(more) {
    try {
      const answer = await send("/api/draft", this.body(), more);
      this.id = answer.id;
      this.hasDraft = true;
      this.faults = answer.faults;
      this.showFaults();
      this.plan.show(answer.plan);
      if (!this.timer) this.says.textContent = word("kept");
      this.drawDeeds();
      if (!this.name && location.hash === "#/new") history.replaceState(null, "", `#/draft/${this.id}`);
    } catch (error) {
      this.says.textContent = word("not-kept");
      if (error instanceof Refusal) tellRefusal(error);
      else if (!this.timer) this.timer = setTimeout(() => this.keep(), 2000);
    }
  }

  speciesChanged() {
    drawFindings(this);
  }

  forget(prefix) {
    for (const key of this.places.keys()) if (key === prefix || key.startsWith(`${prefix}[`)) this.places.delete(key);
  }

  // ---- faults ---------------------------------------------------------------------

  faultText(fault) {
    if (shared.lang !== "en" || fault.code === "missing-key") return fault.said ?? fault.text;
    return fault.text.charAt(0).toUpperCase() + fault.text.slice(1);
  }

  /** The field a fault stands beside: its own or the nearest around it. */
  placeOf(path) {
    for (let at = path; at; at = at.replace(/(\.[^.[]+|\[\d+\])$/, "")) {
      if (this.places.has(at)) return this.places.get(at);
      if (!/[.[]/.test(at)) return undefined;
    }
    return undefined;
  }

  showFaults() {
    for (const {input, fault} of this.places.values()) {
      fault.hidden = true;
      input.removeAttribute("aria-invalid");
    }
    const shown = this.faults.filter((one) => this.showsMissing || one.code !== "missing-key");
    const lines = shown.map((one) => {
      const place = this.placeOf(one.path);
      if (!place) return make("li", {}, this.faultText(one));
      place.fault.textContent = this.faultText(one);
      place.fault.hidden = false;
      place.input.setAttribute("aria-invalid", "true");
      const label = labelOf(place.path);
      return make("li", {}, make("button", {type: "button", class: "link", onclick: () => place.input.focus()}, label), ": ", this.faultText(one));
    });
    this.faultList.replaceChildren(...(lines.length ? [make("h2", {}, `${word("faults")}: ${lines.length}`), make("ul", {}, lines)] : []));
  }

  // ---- save, sign -----------------------------------------------------------------

  async save(over = false) {
    this.showsMissing = true;
    await this.keep();
    if (this.faults.length) {
      tell(word("refused.faults"), true);
      this.faultList.querySelector("button")?.focus();
      return;
    }
    if (!who()) {
      tell(word("refused.who-is-missing"), true);
      document.getElementById("who").focus();
      return;
    }
    try {
      const answer = await send("/api/save", {...this.body(), who: who(), over: over ? "yes" : ""});
      tell(answer.kept ? `${word("saved-kept")} ${answer.kept}` : word("saved"));
      await openAgain(this.content, answer.name);
    } catch (error) {
      if (error instanceof Refusal && error.status === 409 && error.answer.kept) this.showConflict(error.answer);
      else tellRefusal(error);
    }
  }

  showConflict(answer) {
    this.notice.replaceChildren(make("div", {class: "conflict", role: "alert"},
      make("p", {}, `${word("changed-meanwhile")} ${answer.kept}`),
      make("button", {type: "button", onclick: () => this.discard()}, word("take-other")),
      make("button", {type: "button", onclick: () => { this.version = answer.version; this.save(true); }}, word("keep-mine"))));
    this.notice.querySelector("button").focus();
  }

  async discard() {
    clearTimeout(this.timer);
    await this.keeping;
    await send("/api/discard", {id: this.id}).catch(tellRefusal);
    if (this.name) await openAgain(this.content, this.name);
    else location.hash = "#/today";
  }

  // ---- drawing ----------------------------------------------------------------------

  drawDeeds() {
    const isSaved = this.name && !this.isTyped;
    this.deeds.replaceChildren(
      make("button", {type: "button", id: "save", class: this.isTyped ? "main" : null, onclick: () => this.save()}, word("save")),
      make("button", {type: "button", id: "sign", class: isSaved && this.state === "sign" ? "main" : null,
        onclick: () => this.plan.askToSign()}, word("sign")),
      make("button", {type: "button", id: "print", class: isSaved && this.state === "ready" ? "main" : null,
        onclick: () => this.plan.print()}, word("print")),
      make("button", {type: "button", id: "mail", onclick: () => this.plan.mail()}, word("mail")),
      this.hasDraft && make("button", {type: "button", id: "discard", class: "quiet-button",
        onclick: () => confirm(word("discard.sure")) && this.discard()}, word("discard")) || "");
  }

  part([key, paths]) {
    const body = key === "findings" ? [this.findings = make("div", {class: "findings"})] : paths.flatMap((path) => {
      const field = fieldAt(path);
      return field.kind === "record" && path.length === 1 && key !== "after"
        ? field.fields.map((own) => fieldFor(this, [...path, own.key], own)) : [fieldFor(this, path, field)];
    });
    return make("section", {class: `part part-${key}`, "aria-labelledby": `part-${key}`},
      make("h2", {id: `part-${key}`}, word(`part.${key}`)), make("div", {class: key === "findings" ? "" : "fields"}, body));
  }

  draw() {
    this.title = make("h1", {}, this.record.patient?.name || word("new-visit"));
    this.says = make("span", {class: "says", role: "status"});
    this.deeds = make("div", {class: "deeds"});
    this.notice = make("div", {class: "notice"},
      this.name && this.hasDraft && make("p", {class: "remark"}, word("draft-shown")),
      this.remarks && make("p", {class: "remark"}, word("remarks")));
    this.faultList = make("div", {class: "fault-list", role: "group", "aria-label": word("faults")});
    const state = this.name && make("span", {class: `state state-${this.state}`}, word(`state.${this.state}`));
    const form = make("form", {autocomplete: "off", onsubmit: (event) => { event.preventDefault(); this.save(); }},
      parts.map((part) => this.part(part)));
    this.content.replaceChildren(make("div", {class: "record"},
      make("div", {class: "record-head"},
        make("div", {class: "title-line"}, make("a", {href: "#/today", class: "back"}, word("back")), this.title, state, this.says),
        this.deeds),
      this.notice, make("div", {class: "two"}, make("div", {}, this.faultList, form), this.plan.element)));
    drawFindings(this);
    this.drawDeeds();
  }
}

/** A new record begins today, with the clinic's own language and units. */
function fresh() {
  return {record: {visit: {date: shared.start.today, kind: "checkout"},
    keeper: {language: shared.start.language, units: shared.start.units}}};
}

async function openAgain(content, name) {
  if (location.hash !== `#/record/${name}`) {
    location.hash = `#/record/${name}`;
    return;
  }
  window.dispatchEvent(new HashChangeEvent("hashchange"));
}

export async function showRecord(content, wanted) {
  const opened = wanted.name || wanted.draft ? await ask("/api/record", wanted) : fresh();
  const form = new Form(opened, content);
  form.draw();
  form.plan.show(opened.draft ? null : opened.plan ?? null);
  form.showFaults();
  if (opened.draft) await form.keep();
  if (!form.name && !opened.draft) form.places.get("patient.name").input.focus();
  else document.getElementById("content").focus({preventScroll: true});
  window.scrollTo(0, 0);
  const last = () => form.timer && form.keep({keepalive: true});
  window.addEventListener("pagehide", last);
  return async () => {
    window.removeEventListener("pagehide", last);
    form.plan.forget();
    if (form.timer) await form.keep();
  };
}
