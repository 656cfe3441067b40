// The frame of the page: head, language, and which view stands in the middle.
/** @import {Leave} from "./types" */
import {ask, atTheDoor, byId, claimWindow, make, shared, tell, tellRefusal, word, wordOr} from "./tools.js";
import {setWho, who} from "./dialog.js";
import {logIn, personPart, watchIdle} from "./people.js";
import {showToday} from "./today.js";
import {showRecord} from "./form.js";
import {showShelter} from "./shelter.js";
import {showReview} from "./review.js";

/** @typedef {(content: HTMLElement, what: string) => Promise<Leave>} View */

/** What the view before wants done when it goes. @type {Leave | null} */
let leave = null;

/** @type {[RegExp, View][]} */
const views = [
  [/^#\/day\/(\d{4}-\d\d-\d\d)$/, showToday],
  [/^#\/record\/([A-Za-z0-9._-]+)$/, (content, name) => showRecord(content, {name})],
  [/^#\/draft\/([A-Za-z0-9._-]+)$/, (content, draft) => showRecord(content, {draft})],
  [/^#\/shelter(?:\/([0-9a-f]+))?$/, showShelter],
  [/^#\/review(?:\/([a-z0-9-]+))?$/, showReview],
  [/^#\/new$/, (content) => showRecord(content, {})],
  [/^/, (content) => (shared.start.person?.role === "shelter" ? showShelter(content, "") : showToday(content, shared.start.today))],
];

async function leaveView() {
  const before = leave;
  leave = null;
  if (before) await before();
}

/** What is under way, and how often a view was asked for. */
let turn = Promise.resolve();
let asked = 0;

/** One after the other: no view is drawn over by one that was asked for before it and came later. @param {() => Promise<void>} work */
function inTurn(work) {
  turn = turn.then(work).catch(tellRefusal);
  return turn;
}

/** Of views that wait for their turn only the last is shown. */
function show() {
  const mine = ++asked;
  return inTurn(async () => { if (mine === asked) await showNow(); });
}

async function showNow() {
  await leaveView();
  const part = ["#/shelter", "#/review"].find((one) => location.hash.startsWith(one)) ?? "#/today";
  for (const link of /** @type {NodeListOf<HTMLAnchorElement>} */ (document.querySelectorAll("#head nav a"))) {
    if (link.hash === part) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
  const [pattern, view] = /** @type {[RegExp, View]} */ (views.find(([one]) => one.test(location.hash)));
  const match = /** @type {RegExpExecArray} */ (pattern.exec(location.hash));
  leave = await view(byId("content"), match[1]).catch((error) => { tellRefusal(error); return null; });
}

function languageChoice() {
  const select = make("select", {id: "language", onchange: () => begin(select.value)}, shared.start.languages.map((code) =>
    make("option", {value: code, selected: code === shared.lang, lang: code}, wordOr(`lang.${code}`, code))));
  return make("label", {class: "small"}, word("language"), select);
}

function nameField() {
  const input = make("input", {id: "who", autocomplete: "name", maxlength: 80, value: who(), title: word("who.help"), oninput: () => setWho(input.value.trim())});
  return make("label", {class: "small"}, word("who"), input);
}

function showHead() {
  document.documentElement.lang = shared.lang;
  byId("skip").textContent = word("skip");
  byId("head").replaceChildren(
    make("p", {class: "clinic"}, make("strong", {}, shared.start.clinic), " ", make("span", {}, word("title"))),
    make("nav", {"aria-label": word("menu")}, shared.start.person?.role !== "shelter" && make("a", {href: "#/today"}, word("today")), make("a", {href: "#/shelter"}, word("shelter")),
      shared.start.person?.role !== "shelter" && make("a", {href: "#/review"}, word("review"))),
    make("div", {class: "head-end"}, personPart() ?? nameField(), languageChoice()));
}

/** @param {string} language */
function begin(language) {
  asked++;
  return inTurn(() => beginNow(language));
}

/** The view that stands stays in use until the words of the new language are there. @param {string} language */
async function beginNow(language) {
  const start = await ask("/api/start", {lang: language});
  await leaveView();
  tell("");
  Object.assign(shared, {start, words: start.words, token: start.token, lang: start.lang});
  localStorage.setItem("desk-language", shared.lang);
  atTheDoor.logIn = async () => { await logIn(); showHead(); };
  if (shared.start.people && !shared.start.person) await atTheDoor.logIn();
  showHead();
  await showNow();
}

byId("skip").addEventListener("click", (event) => {
  event.preventDefault();
  byId("content").focus();
});
window.addEventListener("hashchange", () => show());
watchIdle();
claimWindow().then(() => begin(localStorage.getItem("desk-language") ?? navigator.language.slice(0, 2))).catch(tellRefusal);
