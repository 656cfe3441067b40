// Beside the form: what the sheet will say, what would make it more exact, what to look at; the sheet, its signature, the log.
/** @import {Action, Child, Decision, Plan, Stale} from "./types" */
/** @import {Form} from "./form.js" */
import {byId, longDay, make, nodes, send, sendForPdf, shared, speciesName, tell, tellRefusal, word} from "./tools.js";
import {openDialog} from "./dialog.js";
import {actionDeeds, decisionPart, mayDecide} from "./decisions.js";
import {topicsPart} from "./topics.js";

/** @param {Action} action @param {Child} deeds */
function actionItem(action, deeds) {
  return make("li", {"data-action": action.own ?? action.code}, make("strong", {}, action.do), action.how && make("p", {}, action.how),
    action.why.map((why) => make("p", {class: "why"}, why)), deeds);
}

/**
 * @param {string} title
 * @param {string[]} list
 * @param {string | null} none
 * @returns {Child}
 */
function lines(title, list, none) {
  if (!list.length && !none) return null;
  return [make("h3", {}, title), list.length ? make("ul", {}, list.map((one) => make("li", {}, one))) : make("p", {class: "quiet"}, none)];
}

/** @param {Stale | null} stale @returns {Child} */
function changedSince(stale) {
  return stale && make("p", {class: "remark"}, `${word("sign.since")} ${stale.by}, ${stale.on}: ${stale.changed.map((one) => word(`part-of-sheet.${one}`)).join(", ")}`);
}

/** Here the open plan lies over the record, not beside it. */
const narrow = window.matchMedia("(max-width: 59.99rem)");

/** What lies under the open plan takes no focus until it is shut. */
export function coverRecord() {
  const covers = narrow.matches && document.querySelector(".plan.over") !== null;
  for (const one of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("#skip, #head, .record > :not(.two, #plan-open), .two > :not(.plan)"))) one.inert = covers;
}

narrow.addEventListener("change", coverRecord);

export class PlanView {
  /** @param {Form} form */
  constructor(form) {
    this.form = form;
    /** @type {Plan | null} */
    this.plan = null;
    /** @type {string | null} */
    this.blob = null;
    /** Whose button keeps the focus when the plan comes anew; "" its title. @type {string | null} */
    this.focusNext = null;
    /** Whether the topics that nothing asked for are unfolded. */
    this.showsUsual = false;
    this.body = make("div", {class: "plan-body"});
    this.sheet = make("div", {class: "sheet"});
    this.log = make("div", {class: "log-part"});
    this.button = make("button", {type: "button", id: "show-sheet", onclick: () => this.showSheet()}, word("sheet"));
    this.element = make("aside", {class: "plan", id: "plan", "aria-labelledby": "plan-title",
      onkeydown: (/** @type {KeyboardEvent} */ event) => event.key === "Escape" && this.isOver() && this.turnOver()},
      make("h2", {id: "plan-title", tabindex: -1}, word("plan")), this.body,
      make("div", {class: "deeds"}, this.button, mayDecide() && make("button", {type: "button", id: "plan-sign",
        onclick: () => form.isSaved() && this.askToSign()}, word("sign"))), this.sheet, this.log);
    this.drawLog();
  }

  isOver() {
    return this.element.classList.contains("over");
  }

  /** On a screen without room for both, plan and sheet come over the form and go again. */
  opener() {
    const isOver = this.isOver();
    return make("button", {type: "button", id: "plan-open", "aria-expanded": String(isOver), "aria-controls": "plan", onclick: () => this.turnOver()},
      word(isOver ? "plan.close" : "plan"));
  }

  turnOver() {
    const button = byId("plan-open"), shows = this.element.classList.toggle("over");
    button.setAttribute("aria-expanded", String(shows));
    button.textContent = word(shows ? "plan.close" : "plan");
    coverRecord();
    (shows ? /** @type {HTMLElement} */ (this.element.firstElementChild) : button).focus();
  }

  drawLog() {
    const log = this.form.log;
    this.log.replaceChildren(make("h3", {}, word("log")), log.length
      ? make("ul", {class: "log"}, log.map((one) => make("li", {}, make("time", {}, one.at.replace(/:\d\d UTC/, " UTC")),
        ` ${one.who}: ${word(`deed.${one.deed}`)}${one.remark ? ` (${one.remark})` : ""}`)))
      : make("p", {class: "quiet"}, word("log.none")));
  }

  /** @param {Decision[]} decisions @param {Action | null} action what was moved */
  decide(decisions, action) {
    this.focusNext = action ? action.own ?? action.code : "";
    this.form.replace({...this.form.record, decisions});
  }

  /** Where the hand was, it stays. */
  holdFocus() {
    if (this.focusNext === null) return;
    const item = [.../** @type {NodeListOf<HTMLElement>} */ (this.body.querySelectorAll("li"))].find((one) => (one.dataset.action ?? `topic:${one.dataset.topic}`) === this.focusNext);
    (item?.querySelector("button") ?? /** @type {HTMLElement} */ (this.element.firstElementChild)).focus();
    this.focusNext = null;
  }

  /** @param {Plan | null} plan */
  show(plan) {
    this.plan = plan;
    this.button.disabled = !plan;
    if (!plan) {
      this.body.replaceChildren(make("p", {class: "quiet"}, word("plan.none")));
      return;
    }
    const all = [...plan.first, ...plan.more];
    const item = (/** @type {Action} */ one) => actionItem(plan.first.includes(one) ? one : {...one, how: null, why: []}, actionDeeds(this, one, all.indexOf(one), all.length));
    this.body.replaceChildren(...nodes([
      plan.go_now && make("p", {class: "go-now"}, word("plan.go-now")),
      make("h3", {}, word("plan.first")),
      plan.first.length ? make("ol", {}, plan.first.map(item)) : make("p", {class: "quiet"}, word("plan.no-first")),
      plan.more.length > 0 && [make("h3", {}, word("plan.more")), make("ul", {}, plan.more.map((one) => item(one)))],
      decisionPart(this, plan.struck),
      topicsPart(this, plan.topics),
      lines(word("plan.missing"), plan.missing, null),
      lines(word("plan.review"), plan.review, word("plan.no-review")),
    ]));
    this.holdFocus();
  }

  forget() {
    if (this.blob) URL.revokeObjectURL(this.blob);
    this.blob = null;
  }

  async showSheet() {
    const form = this.form;
    this.forget();
    try {
      if (form.isTyped) this.blob = await sendForPdf("/api/preview", form.body());
      const source = this.blob ?? `/api/sheet?name=${encodeURIComponent(form.name)}`;
      this.sheet.replaceChildren(...nodes([
        form.isTyped && make("p", {class: "remark"}, word("sheet-draft")),
        make("p", {}, make("a", {href: source, target: "_blank", rel: "noopener", id: "sheet-link"}, word("sheet-open"))),
        make("iframe", {src: source, title: word("sheet-title")})]));
      this.sheet.scrollIntoView({block: "nearest"});
    } catch (error) {
      tellRefusal(error);
    }
  }

  askToSign() {
    const {patient = {}, keeper = {}, visit = {}} = this.form.record;
    const {person} = shared.start;
    if (person && person.role !== "veterinarian") {
      tell(word("refused.not-a-veterinarian"), true);
      return;
    }
    const by = make("input", {id: "sign-by", value: person?.name ?? visit.veterinarian ?? "", maxlength: 80, autocomplete: "off", readonly: Boolean(person)});
    const whose = [["animal", patient.name], ["species", speciesName(patient.species ?? "")], ["keeper", keeper.name ?? word("not-said")], ["date", longDay(visit.date ?? "")]];
    const dialog = openDialog(word("sign.title"), [
      make("dl", {class: "whose"}, whose.map(([key, value]) => [make("dt", {}, word(`column.${key}`)), make("dd", {}, value)])),
      make("p", {}, word("sign.text")), changedSince(this.form.stale),
      lines(word("plan.review"), this.plan?.review ?? [], word("plan.no-review")),
      make("div", {class: "field"}, make("label", {for: "sign-by"}, word("sign.by")), by)],
    {id: "sign-do", name: word("sign.do"), run: () => this.sign(dialog, by.value.trim())});
    by.focus();
  }

  /**
   * @param {HTMLDialogElement} dialog
   * @param {string} by
   */
  async sign(dialog, by) {
    try {
      await send("/api/sign", {name: this.form.name, version: this.form.version, by});
      dialog.close();
      tell(word("signed"));
      window.dispatchEvent(new HashChangeEvent("hashchange"));
    } catch (error) {
      tellRefusal(error);
    }
  }
}
