// The veterinarian's hand in the live plan: an action left out, put back, moved, said in other words or added. What follows goes into
// the record's decisions, the last of which places what it names. Pure functions, but for the last one.
/** @import {Action, Decision} from "./types" */
/** @import {PlanView} from "./plan.js" */
import {make, shared, tell, word} from "./tools.js";
import {openDialog} from "./dialog.js";

/** @param {Decision} one @param {Action} action */
const isOf = (one, action) => (action.own === null ? one.action === action.code : one.do === action.own);

/** @param {Decision[]} decisions @param {Action} action @param {string} because */
export function struck(decisions, action, because) {
  const rest = decisions.filter((one) => !isOf(one, action));
  return action.own === null ? [...rest, {action: action.code, strike: "yes", because}] : rest;
}

/** @param {Decision[]} decisions @param {string} code */
export const putBack = (decisions, code) => decisions.filter((one) => one.action !== code);

/** @param {Decision[]} decisions @param {Action} action @param {number} place from 1 */
export function moved(decisions, action, place) {
  const before = decisions.find((one) => isOf(one, action)) ?? (action.own === null ? {action: action.code} : {do: action.own});
  return [...decisions.filter((one) => !isOf(one, action)), {...before, place: String(place)}];
}

/** @param {Decision[]} decisions @param {string} text @param {number} [place] */
export const added = (decisions, text, place) => [...decisions, place ? {do: text, place: String(place)} : {do: text}];

/** @param {Decision[]} decisions @param {Action} action @param {string} text @param {number} place @param {string} because */
export const reworded = (decisions, action, text, place, because) => added(struck(decisions, action, because), text, place);

/**
 * Asks for words of the veterinarian's own, for the reason, or for both; nothing is taken without them.
 * @param {string} title
 * @param {{own: string | null, why: boolean}} asked the words to begin with; null: none are asked for
 * @param {(own: string, because: string) => void} keep
 */
function askForWords(title, asked, keep) {
  const own = make("textarea", {id: "own-words", rows: 2, maxlength: 300, value: asked.own ?? ""});
  const because = make("input", {id: "own-because", maxlength: 200, autocomplete: "off"});
  const dialog = openDialog(title, [
    asked.own !== null && make("div", {class: "field"}, make("label", {for: "own-words"}, word("plan.words")), own),
    asked.why && make("div", {class: "field"}, make("label", {for: "own-because"}, word("field.decisions.because")), because)], {id: "own-do", name: word("plan.put"), run: () => {
    const [words, why] = [own, because].map((one) => one.value.trim().replace(/\s+/g, " "));
    if (asked.why && !why) return tell(word("refused.why-is-missing"), true);
    if (asked.own !== null && !words) return own.focus();
    dialog.close();
    return keep(words, why);
  }});
  (asked.own === null ? because : own).focus();
}

/** @param {PlanView} view */
const before = (view) => /** @type {Decision[]} */ (view.form.record.decisions ?? []);

export const mayDecide = () => !shared.start.person || shared.start.person.role === "veterinarian";

/**
 * What can be done about one action.
 * @param {PlanView} view
 * @param {Action} action
 * @param {number} at from 0
 * @param {number} count
 */
export function actionDeeds(view, action, at, count) {
  if (!mayDecide()) return null;
  const deed = (/** @type {string} */ what, /** @type {() => void} */ run, /** @type {string} */ sign) => make("button", {type: "button", class: `quiet-button plan-${what}`,
    "aria-label": `${word(`plan.${what}`)}: ${action.do}`, title: word(`plan.${what}`), onclick: run}, sign);
  return make("div", {class: "plan-deeds"},
    at > 0 && deed("earlier", () => view.decide(moved(before(view), action, at), action), "↑"),
    at < count - 1 && deed("later", () => view.decide(moved(before(view), action, at + 2), action), "↓"),
    deed("strike", () => (action.own === null ? askForWords(`${word("plan.strike")}: ${action.do}`, {own: null, why: true},
      (_, because) => view.decide(struck(before(view), action, because), null)) : view.decide(struck(before(view), action, ""), null)), word("plan.strike")),
    deed("reword", () => askForWords(word("plan.reword"), {own: action.do, why: action.own === null},
      (text, because) => view.decide(reworded(before(view), action, text, at + 1, because), null)), word("plan.reword")));
}

/** What was left out, and what can be added. @param {PlanView} view @param {{code: string, do: string | null}[]} out */
export function decisionPart(view, out) {
  const may = mayDecide();
  return [out.length > 0 && [make("h3", {}, word("plan.struck")), make("ul", {class: "plan-struck"}, out.map((one) => make("li", {}, one.do ?? one.code, " ",
    may && make("button", {type: "button", class: "quiet-button plan-back", "aria-label": `${word("plan.back")}: ${one.do ?? one.code}`,
      onclick: () => view.decide(putBack(before(view), one.code), null)}, word("plan.back")))))],
  may && make("p", {}, make("button", {type: "button", id: "plan-add", onclick: () => askForWords(word("plan.add"), {own: "", why: false},
    (text) => view.decide(added(before(view), text), null))}, word("plan.add")))];
}
