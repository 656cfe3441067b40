// One record: the form, kept while it is typed, with its faults beside the fields and its plan at the side.
/** @import {Draft, Fault, Job, LogLine, Opened, Part, Path, Place, Stale, State, Tree} from "./types" */
import {ask, byId, drawn, longDay, make, Refusal, send, shared, speciesName, tell, tellRefusal, word} from "./tools.js";
import {closeDialogs, needWho, who} from "./dialog.js";
import {fieldFor, labelOf} from "./fields.js";
import {drawFindings} from "./findings.js";
import {isUnderWay, jobLine, mailSheet, printSheet} from "./hand_out.js";
import {keeperPart} from "./keeper.js";
import {watchName} from "./last_visit.js";
import {coverRecord, PlanView} from "./plan.js";
import {pathAround, pathText, put} from "./record.js";

const KEEP_AFTER_MS = 400; // of rest
const KEEP_AT_LATEST_MS = 700; // while somebody types on
const TRY_AGAIN_MS = 1000;
const LOOK_AGAIN_MS = 1000;

export class Form {
  title = make("h1", {tabindex: -1});
  about = make("p", {class: "about"});
  mark = make("span", {role: "status"});
  says = make("span", {class: "says", role: "status"});
  deeds = make("div", {class: "deeds"});
  notice = make("div", {class: "notice"});
  lastVisit = make("div", {class: "last-visit remark", role: "status"});
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  lastTimer = undefined;
  queue = make("div", {class: "queue", role: "status"});
  findings = make("div", {class: "findings"});
  /** Says to those who do not see it what came to be wrong. */
  faultsSaid = make("p", {class: "away", id: "faults-said", role: "status"});
  /** What was said of each. @type {Set<string>} */
  saidFaults = new Set();
  faultList = make("div", {class: "fault-list", role: "group", "aria-label": word("faults")});

  /**
   * @param {Opened} opened
   * @param {HTMLElement} content
   */
  constructor(opened, content) {
    this.name = opened.name ?? "";
    this.draft = opened.draft ?? `n-${drawn(16)}`;
    const own = opened.drafts?.find((one) => one.window === shared.window) ?? (this.name ? undefined : opened.drafts?.[0]);
    /** What other windows typed. @type {Draft[]} */
    this.others = (opened.drafts ?? []).filter((one) => one !== own);
    this.version = own?.version ?? opened.version ?? "";
    this.onDisk = opened.version ?? "";
    /** @type {State} */
    this.state = opened.state ?? "examine";
    /** @type {Stale | null} */
    this.stale = opened.stale ?? null;
    /** @type {LogLine[]} */
    this.log = opened.log ?? [];
    /** @type {Job[]} */
    this.jobs = opened.jobs ?? [];
    this.remarks = opened.remarks;
    /** @type {Tree} */
    this.record = structuredClone(own?.record ?? opened.record ?? {});
    this.isTyped = Boolean(own) || !this.name;
    this.hasDraft = Boolean(own);
    this.showsMissing = Boolean(this.name);
    /** @type {Map<string, Place>} */
    this.places = new Map();
    /** @type {Fault[]} */
    this.faults = opened.faults ?? [];
    /** What is no fault and stands beside a field. @type {Fault[]} */
    this.notes = opened.notes ?? [];
    /** @type {(() => void)[]} */
    this.units = [];
    /** The record before each click. @type {Tree[]} */
    this.before = [];
    /** @type {number | undefined} */
    this.firstChange = undefined;
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.timer = undefined;
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.lookTimer = undefined;
    /** @type {Promise<void> | undefined} */
    this.keeping = undefined;
    /** @type {Promise<void> | undefined} */
    this.saving = undefined;
    this.isGone = false;
    this.content = content;
    this.plan = new PlanView(this);
  }

  // ---- what is typed -------------------------------------------------------------

  /**
   * @param {Path} path
   * @param {unknown} value
   */
  changed(path, value) {
    put(this.record, path, value);
    this.isTyped = true;
    this.says.textContent = word("keeping");
    const now = Date.now();
    this.firstChange ??= now;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.keep(), Math.min(KEEP_AFTER_MS, Math.max(0, this.firstChange + KEEP_AT_LATEST_MS - now)));
    if (["patient", "keeper", "visit"].includes(String(path[0]))) this.drawHead();
    if (["patient.name", "keeper.name"].includes(pathText(path))) watchName(this);
    for (const update of this.units) update();
    if (pathText(path) === "patient.unlisted.group") this.speciesChanged();
  }

  /**
   * What is done with a click: one step back takes it away again.
   * @param {Path} path
   * @param {unknown} value
   */
  chosen(path, value) {
    this.before.push(structuredClone(this.record));
    this.changed(path, value);
    this.drawDeeds();
  }

  undo() {
    const before = this.before.pop();
    if (!before) return;
    this.show(before);
    tell(word("undone"));
  }

  /** Another record in the place of this one; a step back brings this one again. @param {Tree} record */
  replace(record) {
    this.before.push(structuredClone(this.record));
    this.show(record);
  }

  /** @param {Tree} record */
  show(record) {
    const top = window.scrollY;
    this.record = record;
    this.places.clear();
    this.units = [];
    this.isTyped = true;
    this.draw();
    this.keep();
    window.scrollTo(0, top);
  }

  /** In a field of text the browser takes letters back itself. @param {KeyboardEvent} event */
  onKey(event) {
    const isUndo = (event.ctrlKey || event.metaKey) && !event.shiftKey && event.key.toLowerCase() === "z";
    const at = event.target;
    const isText = at instanceof HTMLTextAreaElement || (at instanceof HTMLInputElement && !["radio", "checkbox"].includes(at.type));
    if (!isUndo || isText || !this.before.length) return;
    event.preventDefault();
    this.undo();
  }

  body() {
    return {draft: this.draft, name: this.name, window: shared.window, version: this.version, who: who(), record: this.record};
  }

  /**
   * One after the other, so that the last text typed is the last one kept.
   * @param {RequestInit} [more]
   */
  keep(more) {
    clearTimeout(this.timer);
    this.timer = undefined;
    this.firstChange = undefined;
    this.keeping = (this.keeping ?? Promise.resolve()).then(() => this.keepNow(more));
    return this.keeping;
  }

  /** @param {RequestInit} [more] */
  async keepNow(more) {
    try {
      const answer = await send("/api/draft", this.body(), more);
      this.hasDraft = true;
      if (this.isGone) return;
      this.faults = answer.faults;
      this.notes = answer.notes;
      this.showFaults();
      this.plan.show(answer.plan);
      if (!this.timer) this.says.textContent = word("kept");
      this.drawDeeds();
      if (!this.name && location.hash === "#/new") history.replaceState(null, "", `#/draft/${this.draft}`);
    } catch (error) {
      this.says.textContent = word("not-kept");
      if (error instanceof Refusal) tellRefusal(error);
      else if (!this.timer && !this.isGone) this.timer = setTimeout(() => this.keep(), TRY_AGAIN_MS);
    }
  }

  speciesChanged() {
    drawFindings(this);
  }

  /** @param {string} prefix */
  forget(prefix) {
    for (const key of this.places.keys()) if (key === prefix || key.startsWith(`${prefix}[`)) this.places.delete(key);
  }

  // ---- faults ---------------------------------------------------------------------

  /** @param {Fault} fault */
  faultText(fault) {
    if (shared.lang !== "en" || fault.code === "missing-key") return fault.said ?? `${fault.text} [B${fault.number}]`;
    return fault.text.charAt(0).toUpperCase() + fault.text.slice(1);
  }

  /**
   * The field a fault stands beside: its own or the nearest around it.
   * @param {string} path
   */
  placeOf(path) {
    for (let at = path; at; at = pathAround(at)) if (this.places.has(at)) return this.places.get(at);
    return undefined;
  }

  showFaults() {
    for (const {input, fault} of this.places.values()) {
      fault.hidden = true;
      input.removeAttribute("aria-invalid");
    }
    const shown = this.faults.filter((one) => this.showsMissing || one.code !== "missing-key");
    this.sayFaults(shown);
    const lines = shown.map((one) => {
      const place = this.placeOf(one.path);
      if (!place) return make("li", {}, this.faultText(one));
      place.fault.textContent = this.faultText(one);
      place.fault.hidden = false;
      place.input.setAttribute("aria-invalid", "true");
      place.input.closest("details")?.setAttribute("open", "");
      return make("li", {}, make("button", {type: "button", class: "link", onclick: () => place.input.focus()}, labelOf(place.path)), ": ", this.faultText(one));
    });
    this.showNotes();
    this.faultList.replaceChildren(...(lines.length ? [make("h2", {}, `${word("faults")}: ${lines.length}`), make("ul", {}, lines)] : []));
  }

  /** Only what is new is said; and that nothing is left. @param {Fault[]} faults */
  sayFaults(faults) {
    const texts = faults.map((one) => {
      const place = this.placeOf(one.path);
      return place ? `${labelOf(place.path)}: ${this.faultText(one)}` : this.faultText(one);
    });
    const anew = texts.filter((one) => !this.saidFaults.has(one));
    if (anew.length) this.faultsSaid.textContent = anew.join(" ");
    else if (!texts.length && this.saidFaults.size) this.faultsSaid.textContent = word("faults.none");
    this.saidFaults = new Set(texts);
  }

  /** What is kept but not printed is said beside its field; what is said already stays, so that it is read out once. */
  showNotes() {
    const said = new Map(this.notes.map((one) => [this.placeOf(one.path), one.said ?? one.text]));
    for (const place of this.places.values()) {
      const shown = place.input.closest(".field")?.querySelector(".note-of-field");
      const text = said.get(place);
      if (text === shown?.textContent) continue;
      shown?.remove();
      if (text) place.fault.before(make("p", {class: "hint note-of-field", role: "status"}, text));
    }
  }

  // ---- save -----------------------------------------------------------------------

  /** One click, one record: what is under way is not begun a second time. */
  save(over = false) {
    this.saving ??= this.saveNow(over).finally(() => (this.saving = undefined));
    return this.saving;
  }

  /** @param {boolean} over */
  async saveNow(over) {
    this.showsMissing = true;
    await this.keep();
    if (this.faults.length) {
      tell(word("refused.faults"), true);
      this.faultList.querySelector("button")?.focus();
      return;
    }
    if (!await needWho()) return;
    try {
      const answer = await send("/api/save", {...this.body(), over: over ? "yes" : ""});
      tell(answer.unlogged ? word("saved-unlogged") : answer.kept ? `${word("saved-kept")} ${answer.kept}` : word("saved"), answer.unlogged);
      this.isGone = true;
      openAgain(answer.name);
    } catch (error) {
      if (error instanceof Refusal && error.status === 409 && error.answer.kept) this.showConflict(error.answer);
      else tellRefusal(error);
    }
  }

  /** @param {{name: string, kept: string, version: string}} answer */
  showConflict(answer) {
    this.name = answer.name;
    this.notice.replaceChildren(make("div", {class: "conflict", role: "alert"},
      make("p", {}, `${word("changed-meanwhile")} ${answer.kept}`),
      make("button", {type: "button", onclick: () => this.discard()}, word("take-other")),
      make("button", {type: "button", onclick: () => { this.version = answer.version; this.save(true); }}, word("keep-mine"))));
    this.notice.querySelector("button")?.focus();
  }

  async discard() {
    clearTimeout(this.timer);
    await this.keeping;
    this.isGone = true;
    await send("/api/discard", this.body()).catch(tellRefusal);
    if (this.name) openAgain(this.name);
    else location.hash = "#/today";
  }

  // ---- what other windows typed -----------------------------------------------------

  /** @param {Draft} other */
  dropOther(other) {
    this.others = this.others.filter((one) => one !== other);
    return send("/api/discard", {draft: this.draft, name: this.name, window: other.window}).catch(tellRefusal);
  }

  /** @param {Draft} other */
  async takeOver(other) {
    this.record = structuredClone(other.record);
    this.version = other.version;
    this.isTyped = true;
    this.places.clear();
    this.units = [];
    this.draw();
    await this.keep();
    if (this.hasDraft) await this.dropOther(other);
    this.drawNotice();
  }

  /** @param {Draft} other */
  otherLine(other) {
    return make("div", {class: "remark other-window"}, make("p", {}, [word("other-window"), other.who, other.at].filter(Boolean).join(" · ")),
      make("button", {type: "button", class: "take-over", onclick: () => this.takeOver(other)}, word("other-window.take")),
      make("button", {type: "button", class: "quiet-button", onclick: async () => {
        if (!confirm(word("discard.sure"))) return;
        await this.dropOther(other);
        this.drawNotice();
      }}, word("discard")));
  }

  // ---- drawing ----------------------------------------------------------------------

  /** Whose record this is stands at its head and in the title of the window. */
  drawHead() {
    const {patient = {}, keeper = {}, visit = {}} = this.record;
    const about = [patient.species && speciesName(patient.species), keeper.name, visit.date && longDay(visit.date)].filter(Boolean);
    this.title.textContent = patient.name || word("new-visit");
    this.about.textContent = about.join(" · ");
    document.title = [this.title.textContent, patient.species && speciesName(patient.species), keeper.name, visit.date].filter(Boolean).join(" · ");
    this.mark.className = this.name ? `state state-${this.state}` : "";
    this.mark.textContent = this.name ? word(`state.${this.state}`) : "";
  }

  drawNotice() {
    this.notice.replaceChildren(this.name && this.hasDraft ? make("p", {class: "remark"}, word("draft-shown")) : "",
      this.remarks ? make("p", {class: "remark"}, word("remarks")) : "", ...this.others.map((other) => this.otherLine(other)));
  }

  drawQueue() {
    this.queue.replaceChildren(...this.jobs.filter((job) => job.state !== "done").map((job) => jobLine(job, () => this.look())));
    clearTimeout(this.lookTimer);
    if (this.jobs.some(isUnderWay) && !this.isGone) this.lookTimer = setTimeout(() => this.look(), LOOK_AGAIN_MS);
  }

  /** How far print and mail are by now; what is typed stays as it is. */
  async look() {
    try {
      /** @type {Opened} */
      const now = await ask("/api/record", {name: this.name, looking: "yes"});
      if (this.isGone) return;
      this.jobs = now.jobs ?? [];
      this.state = now.state ?? this.state;
      this.log = now.log ?? [];
      this.plan.drawLog();
      this.drawHead();
      this.drawDeeds();
    } catch {
      // the desk is away for a moment: what is shown stays
    }
    this.drawQueue();
  }

  /** Only what lies in the folder is signed, printed and mailed. */
  isSaved() {
    const isSaved = Boolean(this.name) && !this.isTyped;
    if (!isSaved) tell(word("refused.save-first"), true);
    return isSaved;
  }

  /** @param {boolean} [asks] which printer */
  print(asks) {
    if (this.isSaved()) printSheet({name: this.name, version: this.version}, () => this.look(), asks);
  }

  mail() {
    if (this.isSaved()) mailSheet({name: this.name, version: this.version}, () => this.look());
  }

  drawDeeds() {
    const isSaved = this.name && !this.isTyped;
    const focused = this.deeds.contains(document.activeElement) && document.activeElement?.id;
    this.deeds.replaceChildren(
      make("button", {type: "button", id: "save", class: this.isTyped ? "main" : null, onclick: () => this.save()}, word("save")),
      make("button", {type: "button", id: "sign", class: isSaved && this.state === "sign" ? "main" : null,
        onclick: () => this.isSaved() && this.plan.askToSign()}, word("sign")),
      make("button", {type: "button", id: "print", class: isSaved && this.state === "ready" ? "main" : null, onclick: () => this.print()}, word("print")),
      make("button", {type: "button", id: "print-where", class: "quiet-button", onclick: () => this.print(true)}, word("print.choose")),
      make("button", {type: "button", id: "mail", onclick: () => this.mail()}, word("mail")),
      this.before.length ? make("button", {type: "button", id: "undo", class: "quiet-button", onclick: () => this.undo()}, word("undo")) : "",
      this.hasDraft ? make("button", {type: "button", id: "discard", class: "quiet-button",
        onclick: () => confirm(word("discard.sure")) && this.discard()}, word("discard")) : "");
    if (focused) document.getElementById(focused)?.focus();
  }

  /** @param {Part} part */
  part({key, fields}) {
    const all = fields.flatMap((name) => shared.start.fields.filter((one) => one.key === name));
    const alone = all.length === 1 && all[0].kind === "record" ? all[0] : null;
    const body = key === "findings" ? this.findings : make("div", {class: "fields"}, alone
      ? (alone.fields ?? []).map((own) => fieldFor(this, [alone.key, own.key], own)) : all.map((field) => fieldFor(this, [field.key], field)));
    return make("section", {class: `part part-${key}`, id: `part-of-${key}`, "aria-labelledby": `part-${key}`},
      make("h2", {id: `part-${key}`, tabindex: -1}, word(`part.${key}`)), this.skipLink(key), body);
  }

  /** The parts in their order, the plan last: where each begins. @returns {[string, string][]} */
  partPlaces() {
    return [...shared.start.parts.map(({key}) => /** @type {[string, string]} */ ([key, word(`part.${key}`)])), ["plan", word("plan")]];
  }

  /** @param {string} key */
  goTo(key) {
    if (key === "plan" && byId("plan-open").checkVisibility() && !this.plan.isOver()) return this.plan.turnOver();
    const head = byId(key === "plan" ? "plan-title" : `part-${key}`);
    head.scrollIntoView({block: "start"});
    return head.focus({preventScroll: true});
  }

  /** Past the whole of a part, from its head; seen by whoever comes to it with the keys. @param {string} key */
  skipLink(key) {
    const all = this.partPlaces();
    const [next, name] = all[all.findIndex(([one]) => one === key) + 1];
    return make("button", {type: "button", class: "link skip-part", onclick: () => this.goTo(next)}, `${word("parts.skip")}: ${name}`);
  }

  /** From part to part without walking through all fields. */
  partLinks() {
    return make("nav", {class: "part-links", "aria-label": word("parts")}, this.partPlaces().map(([key, name]) =>
      make("button", {type: "button", class: "link", "data-part": key, onclick: () => this.goTo(key)}, name)));
  }

  draw() {
    const form = make("form", {autocomplete: "off", onsubmit: (/** @type {Event} */ event) => { event.preventDefault(); this.save(); }},
      shared.start.parts.map((part) => this.part(part)));
    this.content.replaceChildren(make("div", {class: "record", onkeydown: (/** @type {KeyboardEvent} */ event) => this.onKey(event)},
      make("div", {class: "record-head"},
        make("div", {class: "title-line"}, make("a", {href: "#/today", class: "back"}, word("back")), this.title, this.mark, this.says, this.about),
        this.deeds, this.partLinks()),
      this.plan.opener(), this.notice, this.lastVisit, this.queue, make("div", {class: "two"}, make("div", {}, this.faultsSaid, this.faultList, form, keeperPart(this)), this.plan.element)));
    drawFindings(this);
    this.drawHead();
    this.drawNotice();
    this.drawQueue();
    this.drawDeeds();
    coverRecord();
  }
}

/** A new record begins today, with the clinic's own language and units. @returns {Opened} */
function fresh() {
  return {record: {visit: {date: shared.start.today, kind: shared.start.kinds.includes("checkout") ? "checkout" : shared.start.kinds[0]},
    keeper: {language: shared.start.language, units: shared.start.units}}};
}

/** @param {string} name */
export function openAgain(name) {
  if (location.hash !== `#/record/${name}`) location.hash = `#/record/${name}`;
  else window.dispatchEvent(new HashChangeEvent("hashchange"));
}

/**
 * @param {HTMLElement} content
 * @param {{name?: string, draft?: string}} wanted
 */
export async function showRecord(content, wanted) {
  /** @type {Opened} */
  const opened = wanted.name || wanted.draft ? await ask("/api/record", /** @type {Record<string, string>} */ (wanted)) : fresh();
  if (wanted.draft && opened.name) { // saved meanwhile in another window
    location.replace(`#/record/${opened.name}`);
    return () => {};
  }
  const form = new Form(opened, content);
  form.draw();
  form.plan.show(form.hasDraft ? null : opened.plan ?? null);
  form.showFaults();
  if (form.hasDraft) await form.keep();
  if (!form.name && !form.hasDraft) form.places.get(pathText(["patient", "name"]))?.input.focus();
  else byId("content").focus({preventScroll: true});
  window.scrollTo(0, 0);
  const last = () => { if (form.timer) form.keep({keepalive: true}); };
  window.addEventListener("pagehide", last);
  return async () => {
    window.removeEventListener("pagehide", last);
    clearTimeout(form.lookTimer);
    clearTimeout(form.lastTimer);
    form.plan.forget();
    form.plan.element.classList.remove("over");
    coverRecord();
    closeDialogs();
    if (form.timer && !form.isGone) await form.keep();
    form.isGone = true;
    clearTimeout(form.timer);
  };
}
