// The frame of the page: head, language, and which view stands in the middle.
import {ask, make, shared, tell, tellRefusal, who, word} from "./tools.js";
import {showToday} from "./today.js";
import {showRecord} from "./form.js";
import {showShelter} from "./shelter.js";

let leave = null; // what the view before wants done when it goes

const views = [
  [/^#\/day\/(\d{4}-\d\d-\d\d)$/, (content, day) => showToday(content, day)],
  [/^#\/record\/([A-Za-z0-9._-]+)$/, (content, name) => showRecord(content, {name})],
  [/^#\/draft\/([A-Za-z0-9._-]+)$/, (content, draft) => showRecord(content, {draft})],
  [/^#\/shelter(?:\/([0-9a-f]+))?$/, (content, id) => showShelter(content, id)],
  [/^#\/new$/, (content) => showRecord(content, {})],
];

async function show() {
  const content = document.getElementById("content");
  if (leave) await leave();
  leave = null;
  const isShelter = location.hash.startsWith("#/shelter");
  document.querySelectorAll("#head nav a").forEach((link) => {
    if ((link.hash === "#/shelter") === isShelter) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  });
  for (const [pattern, view] of views) {
    const match = pattern.exec(location.hash);
    if (!match) continue;
    leave = (await view(content, ...match.slice(1)).catch(tellRefusal)) ?? null;
    return;
  }
  leave = (await showToday(content, shared.start.today).catch(tellRefusal)) ?? null;
}

function languageChoice() {
  const options = shared.start.languages.map((code) =>
    make("option", {value: code, selected: code === shared.lang, lang: code}, shared.words[`lang.${code}`] ?? code));
  return make("label", {class: "small"}, word("language"),
    make("select", {id: "language", onchange: (event) => begin(event.target.value)}, options));
}

function nameField() {
  return make("label", {class: "small"}, word("who"),
    make("input", {id: "who", autocomplete: "name", maxlength: 80, value: who(), title: word("who.help"),
      oninput: (event) => localStorage.setItem("desk-who", event.target.value.trim())}));
}

function showHead() {
  document.documentElement.lang = shared.lang;
  document.title = `${word("title")} · ${shared.start.clinic}`;
  document.getElementById("skip").textContent = word("skip");
  document.getElementById("head").replaceChildren(
    make("p", {class: "clinic"}, make("strong", {}, shared.start.clinic), " ", make("span", {}, word("title"))),
    make("nav", {"aria-label": word("menu")}, make("a", {href: "#/today"}, word("today")), make("a", {href: "#/shelter"}, word("shelter"))),
    make("div", {class: "head-end"}, nameField(), languageChoice()));
}

async function begin(language) {
  if (leave) await leave();
  leave = null;
  tell("");
  shared.lang = language;
  shared.start = await ask("/api/start");
  shared.words = shared.start.words;
  shared.token = shared.start.token;
  shared.lang = shared.start.lang;
  localStorage.setItem("desk-language", shared.lang);
  showHead();
  await show();
}

document.getElementById("skip").addEventListener("click", (event) => {
  event.preventDefault();
  document.getElementById("content").focus();
});
window.addEventListener("hashchange", () => show());
begin(localStorage.getItem("desk-language") ?? navigator.language.slice(0, 2)).catch(tellRefusal);
