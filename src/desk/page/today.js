// The visits of a day, or those found by a few letters.
import {ask, longDay, make, moveDay, shared, tellRefusal, word} from "./tools.js";

const speciesName = (code) => shared.start.species.find((one) => one.code === code)?.name ?? code;

function stateMark(state) {
  return make("span", {class: `state state-${state}`}, word(`state.${state}`));
}

function row(visit, withDay) {
  const link = make("a", {href: `#/record/${visit.name}`}, visit.patient || visit.name);
  const cells = [
    make("th", {scope: "row"}, link), make("td", {}, speciesName(visit.species)), make("td", {}, visit.keeper),
    withDay && make("td", {}, visit.date), make("td", {}, stateMark(visit.state)),
  ];
  return make("tr", {}, cells);
}

function table(answer, withDay) {
  const heads = ["animal", "species", "keeper", withDay && "date", "state"].filter(Boolean);
  return make("table", {class: "visits"},
    make("caption", {class: "away"}, word("visits")),
    make("thead", {}, make("tr", {}, heads.map((key) => make("th", {scope: "col"}, word(`column.${key}`))))),
    make("tbody", {}, answer.visits.map((visit) => row(visit, withDay))));
}

function draftLinks(drafts) {
  if (!drafts.length) return null;
  return make("section", {class: "begun"}, make("h2", {}, word("begun")),
    make("ul", {}, drafts.map((one) =>
      make("li", {}, make("a", {href: `#/draft/${one.draft}`}, one.patient || word("no-name"))))));
}

function remarks(answer) {
  return [answer.templates_broken && "templates-broken", answer.other_names > 0 && "other-names",
    answer.found > answer.shown && "more-found"].filter(Boolean).map((key) => make("p", {class: "remark"}, word(key)));
}

/** Up and down walk through the list from the field of letters on; Enter opens the first. */
function walk(event, content) {
  const stops = [content.querySelector("#find"), ...content.querySelectorAll(".visits a, .begun a")];
  const at = stops.indexOf(document.activeElement);
  const step = {ArrowDown: 1, ArrowUp: -1}[event.key];
  if (at < 0) return;
  if (step && stops[at + step]) {
    event.preventDefault();
    stops[at + step].focus();
  } else if (event.key === "Enter" && at === 0 && stops[1]) {
    event.preventDefault();
    stops[1].click();
  }
}

function dayLine(day) {
  return make("div", {class: "day-line"},
    make("a", {class: "button", href: `#/day/${moveDay(day, -1)}`, "aria-label": word("day-before")}, "←"),
    make("label", {class: "small"}, word("day"),
      make("input", {type: "date", id: "day", value: day,
        onchange: (event) => event.target.value && (location.hash = `#/day/${event.target.value}`)})),
    make("a", {class: "button", href: `#/day/${moveDay(day, 1)}`, "aria-label": word("day-after")}, "→"));
}

export async function showToday(content, day) {
  const list = make("div", {id: "list"});
  const find = make("input", {type: "search", id: "find", autocomplete: "off"});
  async function fill() {
    const letters = find.value.trim();
    const answer = await ask("/api/visits", letters ? {find: letters} : {day});
    if (letters !== find.value.trim()) return;
    const none = make("p", {class: "quiet"}, word(letters ? "none-found" : "no-visits"));
    list.replaceChildren(answer.visits.length ? table(answer, Boolean(letters)) : none, ...remarks(answer),
      draftLinks(answer.drafts) ?? "");
  }
  const view = make("div", {class: "today", onkeydown: (event) => walk(event, content)},
    make("div", {class: "title-line"},
      make("h1", {}, longDay(day)),
      make("a", {class: "button main", id: "new", href: "#/new"}, word("new-visit"))),
    make("div", {class: "find-line"}, make("label", {}, word("find"), find), dayLine(day)),
    list);
  find.addEventListener("input", () => fill().catch(tellRefusal));
  content.replaceChildren(view);
  await fill();
  find.focus();
  const timer = setInterval(() => document.hidden || list.contains(document.activeElement) || fill().catch(() => {}), 5000);
  return () => clearInterval(timer);
}
