// The visits of a day, or those found by a few letters.
/** @import {Visit, Visits} from "./types" */
import {ask, longDay, make, shared, speciesName, tellRefusal, word} from "./tools.js";
import {moveDay} from "./record.js";

/** @param {Visit} visit @param {boolean} withDay */
function row(visit, withDay) {
  const link = make("a", {href: `#/record/${visit.name}`}, visit.patient || visit.name);
  return make("tr", {},
    make("th", {scope: "row"}, link), make("td", {}, speciesName(visit.species)), make("td", {}, visit.keeper),
    withDay && make("td", {}, visit.date), make("td", {}, make("span", {class: `state state-${visit.state}`}, word(`state.${visit.state}`))));
}

/** @param {Visits} answer @param {boolean} withDay */
function table(answer, withDay) {
  const heads = ["animal", "species", "keeper", ...(withDay ? ["date"] : []), "state"];
  return make("table", {class: "visits"},
    make("caption", {class: "away"}, word("visits")),
    make("thead", {}, make("tr", {}, heads.map((key) => make("th", {scope: "col"}, word(`column.${key}`))))),
    make("tbody", {}, answer.visits.map((visit) => row(visit, withDay))));
}

/** @param {Visits["drafts"]} drafts */
function draftLinks(drafts) {
  if (!drafts.length) return "";
  return make("section", {class: "begun"}, make("h2", {}, word("begun")),
    make("ul", {}, drafts.map((one) =>
      make("li", {}, make("a", {href: `#/draft/${one.draft}`}, one.patient || word("no-name"))))));
}

/** @param {Visits} answer */
function remarks(answer) {
  return [answer.templates_broken && "templates-broken", answer.other_names > 0 && "other-names",
    answer.found > answer.shown && "more-found"].filter((key) => key !== false).map((key) => make("p", {class: "remark"}, word(key)));
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
    this.find = make("input", {type: "search", id: "find", autocomplete: "off", oninput: () => this.fill().catch(tellRefusal)});
    content.replaceChildren(make("div", {class: "today", onkeydown: (/** @type {KeyboardEvent} */ event) => this.walk(event)},
      make("div", {class: "title-line"}, make("h1", {}, longDay(day)), make("a", {class: "button main", id: "new", href: "#/new"}, word("new-visit"))),
      make("div", {class: "find-line"}, make("label", {}, word("find"), this.find), dayLine(day)),
      this.list));
    document.title = `${longDay(day)} · ${shared.start.clinic}`;
  }

  /** What is shown is always what the letters of now find. */
  fill() {
    const letters = this.find.value.trim();
    this.shown = (async () => {
      const answer = await ask("/api/visits", letters ? {find: letters} : {day: this.day});
      if (letters !== this.find.value.trim()) return;
      this.list.replaceChildren(answer.visits.length ? table(answer, Boolean(letters)) : make("p", {class: "quiet"}, word(letters ? "none-found" : "no-visits")),
        ...remarks(answer), draftLinks(answer.drafts));
    })();
    return this.shown;
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
  const timer = setInterval(() => document.hidden || view.list.contains(document.activeElement) || view.fill().catch(() => {}), 5000);
  return () => clearInterval(timer);
}
