// The visits of a day, or those found by a few letters.
/** @import {Booked, Job, Visit, Visits} from "./types" */
import {ask, longDay, make, nodes, shared, speciesName, tellRefusal, word} from "./tools.js";
import {isUnderWay, jobLine, printSheet} from "./hand_out.js";
import {moveDay} from "./record.js";

/** The keeper, and the number to call. @param {Visit | Booked} one */
const keeperOf = (one) => nodes([one.keeper, one.telephone && make("a", {class: "telephone", href: `tel:${one.telephone.replace(/[^+\d]/g, "")}`}, one.telephone)]);

/** Who is to come on this day and is not here yet. @param {Booked[]} booked */
function expected(booked) {
  if (!booked.length) return "";
  return make("section", {class: "begun booked"}, make("h2", {}, word("booked")), make("ul", {}, booked.map((one) =>
    make("li", {}, one.at && make("span", {}, `${one.at} `), make("a", {href: `#/record/${one.name}`}, one.patient || one.name), ` ${speciesName(one.species)} `, keeperOf(one)))));
}

/**
 * @param {Visit} visit
 * @param {Job | undefined} job the last of this record
 * @param {TodayView} view
 */
function row(visit, job, view) {
  const link = make("a", {href: `#/record/${visit.name}`}, visit.patient || visit.name);
  const again = () => view.fill().catch(tellRefusal);
  const print = visit.state === "ready" && !(job && isUnderWay(job)) && make("button", {type: "button", class: "row-print",
    "aria-label": `${word("print")}: ${visit.patient}`, onclick: () => printSheet({name: visit.name, version: visit.version}, again)}, word("print"));
  const state = visit.broken ? make("span", {class: "state state-sign"}, `${word("state.broken")} ${visit.broken}`)
    : make("span", {class: `state state-${visit.state}`}, word(`state.${visit.state}`));
  return make("tr", {},
    make("th", {scope: "row"}, link), make("td", {}, speciesName(visit.species)), make("td", {}, keeperOf(visit)),
    view.find.value.trim() && make("td", {}, visit.date),
    make("td", {}, make("div", {class: "row-state"}, state, print), job && job.state !== "done" && jobLine(job, again)));
}

/** @param {Visits} answer @param {TodayView} view */
function table(answer, view) {
  const heads = ["animal", "species", "keeper", ...(view.find.value.trim() ? ["date"] : []), "state"];
  return make("table", {class: "visits"},
    make("caption", {class: "away"}, word("visits")),
    make("thead", {}, make("tr", {}, heads.map((key) => make("th", {scope: "col"}, word(`column.${key}`))))),
    make("tbody", {}, answer.visits.map((visit) => row(visit, answer.jobs.find((job) => job.record === visit.name), view))));
}

/** Mail and print of other days' visits that are not done. @param {Visits} answer @param {TodayView} view */
function queue(answer, view) {
  const others = answer.jobs.filter((job) => job.state !== "done" && !answer.visits.some((visit) => visit.name === job.record));
  if (!others.length) return "";
  return make("section", {class: "begun"}, make("h2", {}, word("queue")), others.map((job) =>
    make("div", {}, make("a", {href: `#/record/${job.record}`}, job.record.replace(/\.yaml$/, "")), jobLine(job, () => view.fill().catch(tellRefusal)))));
}

/** @param {Visits["drafts"]} drafts */
function draftLinks(drafts) {
  if (!drafts.length) return "";
  return make("section", {class: "begun"}, make("h2", {}, word("begun")),
    make("ul", {}, drafts.map((one) =>
      make("li", {}, make("a", {href: `#/draft/${one.draft}`}, one.patient || word("no-name")),
        make("span", {class: "hint"}, ` ${[one.who, one.at.replace(/:\d\d UTC/, " UTC")].filter(Boolean).join(" · ")}`)))));
}

/** @param {Visits} answer */
function remarks(answer) {
  const left = answer.left.length > 0 && make("details", {class: "remark"}, make("summary", {}, `${word("left-alone")}: ${answer.left.length}`),
    make("p", {}, word("left-alone.why")), make("ul", {}, answer.left.map((name) => make("li", {}, name))));
  return [answer.templates_broken && make("p", {class: "remark"}, word("templates-broken")), left,
    answer.found > answer.shown && make("p", {class: "remark"}, word("more-found"))].filter((one) => one !== false);
}

/** @param {string} day */
function dayLine(day) {
  const input = make("input", {type: "date", id: "day", value: day, onchange: () => { if (input.value) location.hash = `#/day/${input.value}`; }});
  return make("div", {class: "day-line"},
    make("a", {class: "button", href: `#/day/${moveDay(day, -1)}`, "aria-label": word("day-before")}, "←"),
    make("label", {class: "small"}, word("day"), input),
    make("a", {class: "button", href: `#/day/${moveDay(day, 1)}`, "aria-label": word("day-after")}, "→"));
}

class TodayView {
  /**
   * @param {HTMLElement} content
   * @param {string} day
   */
  constructor(content, day) {
    this.day = day;
    this.list = make("div", {id: "list"});
    this.count = make("p", {class: "away", role: "status"});
    this.find = make("input", {type: "search", id: "find", autocomplete: "off", oninput: () => this.fill().catch(tellRefusal)});
    content.replaceChildren(make("div", {class: "today", onkeydown: (/** @type {KeyboardEvent} */ event) => this.walk(event)},
      make("div", {class: "title-line"}, make("h1", {}, longDay(day)), make("a", {class: "button main", id: "new", href: "#/new"}, word("new-visit"))),
      make("div", {class: "find-line"}, make("label", {}, word("find"), this.find), dayLine(day)),
      this.count, this.list));
    document.title = `${longDay(day)} · ${shared.start.clinic}`;
  }

  /** What is shown is always what the letters of now find; how many is said to those who do not see it. */
  fill(isLooking = false) {
    const letters = this.find.value.trim();
    this.shown = (async () => {
      /** @type {Visits} */
      const answer = await ask("/api/visits", {...(letters ? {find: letters} : {day: this.day}), ...(isLooking ? {looking: "yes"} : {})});
      if (letters !== this.find.value.trim()) return;
      this.list.replaceChildren(...nodes([answer.visits.length ? table(answer, this) : make("p", {class: "quiet"}, word(letters ? "none-found" : "no-visits")),
        letters ? "" : expected(answer.booked), remarks(answer), queue(answer, this), draftLinks(answer.drafts)]));
      const said = letters ? `${word("found")}: ${answer.found}` : "";
      if (this.count.textContent !== said) this.count.textContent = said;
      if (answer.today !== shared.start.today) this.dayTurns(answer.today);
    })();
    return this.shown;
  }

  /** Midnight: whoever looks at today looks at the new one. @param {string} today */
  dayTurns(today) {
    const sawToday = this.day === shared.start.today;
    shared.start.today = today;
    if (sawToday && !location.hash.startsWith("#/day/")) window.dispatchEvent(new HashChangeEvent("hashchange"));
  }

  /**
   * Up and down walk through the list from the field of letters on; Enter opens the first that is found.
   * @param {KeyboardEvent} event
   */
  walk(event) {
    const stops = /** @type {HTMLElement[]} */ ([this.find, ...this.list.querySelectorAll(".visits tbody a, .begun a")]);
    const at = stops.indexOf(/** @type {HTMLElement} */ (document.activeElement));
    const step = event.key === "ArrowDown" ? 1 : event.key === "ArrowUp" ? -1 : 0;
    if (at < 0) return;
    if (step && stops[at + step]) {
      event.preventDefault();
      stops[at + step].focus();
    } else if (event.key === "Enter" && at === 0) {
      event.preventDefault();
      this.openFirst().catch(tellRefusal);
    }
  }

  async openFirst() {
    await this.shown;
    /** @type {HTMLElement | null} */ (this.list.querySelector(".visits tbody a, .begun a"))?.click();
  }
}

/**
 * @param {HTMLElement} content
 * @param {string} day
 */
export async function showToday(content, day) {
  const view = new TodayView(content, day);
  await view.fill();
  view.find.focus();
  const timer = setInterval(() => document.hidden || view.list.contains(document.activeElement) || view.fill(true).catch(() => {}), 3000);
  return () => clearInterval(timer);
}
