// What holds of each topic of care, in the live plan: why, until when, what gave way; and the veterinarian's own choice in its place, with
// a reason, a day where it needs one, and a second yes where it is dangerous. Every word comes with the plan.
/** @import {Decision, Fault, Phase, Topic, Tree} from "./types" */
/** @import {PlanView} from "./plan.js" */
import {make, shared, tell, word} from "./tools.js";
import {openDialog} from "./dialog.js";
import {mayDecide} from "./decisions.js";

/** @param {Decision[]} decisions @param {string} topic */
export const withoutTopic = (decisions, topic) => decisions.filter((one) => one.topic !== topic);

/** @param {Decision[]} decisions @param {Decision} decided */
export const withStance = (decisions, decided) => [...withoutTopic(decisions, decided.topic ?? ""), decided];

/** @param {Decision[]} decisions @param {string} topic */
export const confirmedTopic = (decisions, topic) => decisions.map((one) => (one.topic === topic ? {...one, confirmed: "yes"} : one));

/** The fault that asks for the second yes. @param {Fault[]} faults */
export const asksAgain = (faults) => faults.some((one) => one.code === "decision-unconfirmed");

/** @param {PlanView} view */
const decided = (view) => /** @type {Decision[]} */ (view.form.record.decisions ?? []);

/** @param {PlanView} view @param {Decision[]} decisions @param {Topic} topic */
async function put(view, decisions, topic) {
  view.decide(decisions, null);
  view.focusNext = `topic:${topic.topic}`;
  await view.form.keeping;
}

/** Nothing dangerous stands without it. @param {PlanView} view @param {Topic} topic @param {string} says */
function askAgain(view, topic, says) {
  let isSure = false;
  const dialog = openDialog(word("plan.second-yes"), [make("p", {}, make("strong", {}, `${topic.name}: ${says}`)), make("p", {}, `${word("plan.holds")}: ${sayPhase(topic.phases[0])}`), make("p", {}, word("plan.second-yes.text"))],
    {id: "second-yes", name: word("plan.second-yes.do"), run: () => {
      isSure = true;
      dialog.close();
      return put(view, confirmedTopic(decided(view), topic.topic), topic);
    }});
  dialog.addEventListener("close", () => {
    if (!isSure && !view.form.isGone) view.form.undo();
  });
}

/** @param {string} id @param {string} name @param {HTMLElement} control */
const row = (id, name, control) => make("div", {class: "field"}, make("label", {for: id}, name), control);

/** @param {string} key @param {HTMLElement} control */
function refuse(key, control) {
  tell(word(key), true);
  control.focus();
}

/** @param {PlanView} view @param {Topic} topic */
function askForStance(view, topic) {
  const now = topic.phases[0];
  const before = decided(view).find((one) => one.topic === topic.topic);
  const visit = /** @type {Tree} */ (view.form.record.visit ?? {});
  const stance = make("select", {id: "stance"}, make("option", {value: ""}, ""),
    topic.choices.map((one) => make("option", {value: one.stance, selected: one.stance === before?.stance}, one.says)));
  const until = make("input", {id: "stance-until", type: "date", value: before?.until ?? ""});
  const because = make("input", {id: "own-because", maxlength: 200, autocomplete: "off", value: before?.because ?? ""});
  const by = visit.veterinarian ? null : make("input", {id: "stance-by", maxlength: 80, autocomplete: "off", value: shared.start.person?.name ?? ""});
  const dialog = openDialog(`${word("plan.decide")}: ${topic.name}`, [make("p", {}, sayPhase(now)),
    row("stance", word("field.decisions.stance"), stance), row("stance-until", word("field.decisions.until"), until),
    row("own-because", word("field.decisions.because"), because), by && row("stance-by", word("sign.by"), by)],
  {id: "own-do", name: word("plan.put"), run: async () => {
    const choice = topic.choices.find((one) => one.stance === stance.value), why = because.value.trim().replace(/\s+/g, " ");
    if (!choice) return refuse("refused.stance-is-missing", stance);
    if (choice.needs_end && !until.value) return refuse("refused.end-is-missing", until);
    if (!why) return refuse("refused.why-is-missing", because);
    if (by && !by.value.trim()) return refuse("refused.who-is-missing", by);
    dialog.close();
    if (by) view.form.record = {...view.form.record, visit: {...visit, veterinarian: by.value.trim()}};
    await put(view, withStance(decided(view), {topic: topic.topic, stance: choice.stance, ...(until.value ? {until: until.value} : {}), because: why}), topic);
    if (asksAgain(view.form.faults)) askAgain(view, topic, choice.says);
    return undefined;
  }});
  stance.focus();
}

/** @param {Phase} phase */
function sayPhase(phase) {
  const beside = phase.beside.length ? ` (${word("plan.beside")} ${phase.beside.join(", ")})` : "";
  const end = phase.until ? `, ${word("plan.until")} ${phase.until}` : phase.ends ? `, ${phase.ends}` : "";
  const why = phase.because.length ? `, ${word("plan.because")}: ${phase.because.join(", ")}` : "";
  return `${phase.says}${beside}${end}${why}`;
}

/** @param {Phase} phase */
const underPhase = (phase) => [
  phase.decided_by !== undefined && make("p", {class: "why decided-by"}, `${word("plan.decided-by")} ${phase.decided_by}`,
    phase.reason && `: ${phase.reason}`, phase.confirmed && ` (${word("plan.second-yes.given")})`),
  phase.gave_way.map((one) => make("p", {class: "why"}, `${word("plan.gave-way")}: ${one.says}${one.because ? ` (${one.because})` : ""}`))];

/** What only its limits part is one thing to a reader, and lasts as long as the last of it. @param {Phase[]} phases @returns {Phase[]} */
export function joined(phases) {
  /** @type {Phase[]} */
  const told = [];
  for (const one of phases) {
    const last = told.at(-1);
    const isSame = last && [last.says, ...last.beside, last.reason].join("|") === [one.says, ...one.beside, one.reason].join("|");
    if (isSame) told[told.length - 1] = {...last, until: one.until, ends: one.ends};
    else told.push(one);
  }
  return told;
}

/** @param {PlanView} view @param {Topic} topic */
function topicItem(view, topic) {
  const [now, ...later] = joined(topic.phases);
  const isOwn = decided(view).some((one) => one.topic === topic.topic);
  const deed = (/** @type {string} */ what, /** @type {() => void} */ run) => make("button", {type: "button", class: `quiet-button topic-${what}`,
    "aria-label": `${word(`plan.${what}`)}: ${topic.name}`, onclick: run}, word(`plan.${what}`));
  return make("li", {"data-topic": topic.topic}, make("strong", {}, `${topic.name}: `), sayPhase(now), underPhase(now),
    later.map((one) => [make("p", {}, `${word("plan.then-from")} ${one.from}: ${sayPhase(one)}`), underPhase(one)]),
    mayDecide() && make("div", {class: "plan-deeds"}, deed("decide", () => askForStance(view, topic)),
      isOwn && deed("take-back", () => {
        view.showsUsual = true;
        return put(view, withoutTopic(decided(view), topic.topic), topic);
      })));
}

/** What something asked for stands open, the usual is one step away. @param {PlanView} view @param {Topic[]} topics */
export function topicsPart(view, topics) {
  const settled = topics.filter((one) => !one.usual), usual = topics.filter((one) => one.usual);
  const list = (/** @type {Topic[]} */ some) => make("ul", {class: "topics"}, some.map((one) => topicItem(view, one)));
  return [settled.length > 0 && [make("h3", {}, word("plan.holds")), list(settled)],
    usual.length > 0 && make("details", {class: "topics-usual", open: view.showsUsual, ontoggle: (/** @type {Event} */ event) => {
      view.showsUsual = /** @type {HTMLDetailsElement} */ (event.target).open;
    }}, make("summary", {}, word("plan.holds-else")), list(usual))];
}
