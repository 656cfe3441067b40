// What every part of the page uses: making elements, words, asking the desk.

export const shared = {start: null, words: {}, token: ""};

/** An element: make("p", {class: "x"}, "text", child, ...). Functions under on... listen. */
export function make(name, properties = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(properties)) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else if (key === "value") element.value = value;
    else element.setAttribute(key, value === true ? "" : value);
  }
  element.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== false));
  return element;
}

/** The word under a key of desk.yaml; the key itself shows that one is missing. */
export function word(key) {
  return shared.words[key] ?? key;
}

export const wordOr = (key, other) => shared.words[key] ?? other;

/** Says something to everybody, screen readers included. */
export function tell(text, isTrouble = false) {
  const place = document.getElementById("told");
  place.className = isTrouble ? "trouble" : "";
  place.textContent = text;
  clearTimeout(tell.timer);
  if (!isTrouble) tell.timer = setTimeout(() => (place.textContent = ""), 6000);
}

export class Refusal extends Error {
  constructor(status, answer) {
    super(answer.error);
    this.status = status;
    this.answer = answer;
  }
}

function address(path, parameters) {
  const all = new URLSearchParams({...parameters, lang: shared.lang});
  return `${path}?${all}`;
}

async function settle(response) {
  const answer = await response.json().catch(() => ({error: "other"}));
  if (!response.ok) throw new Refusal(response.status, answer);
  return answer;
}

export const ask = async (path, parameters = {}) => settle(await fetch(address(path, parameters)));

const change = (path, body, more = {}) =>
  fetch(address(path, {}), {
    method: "POST",
    headers: {"Content-Type": "application/json", "X-Desk-Token": shared.token},
    body: JSON.stringify(body),
    ...more,
  });

export const send = async (path, body, more) => settle(await change(path, body, more));

/** A PDF of something that is not saved, as an address inside this page. */
export async function sendForPdf(path, body) {
  const response = await change(path, body);
  if (!response.ok) return settle(response);
  return URL.createObjectURL(await response.blob());
}

export function tellRefusal(error) {
  const key = error instanceof Refusal ? `refused.${error.message}` : "not-kept";
  // what the print system or the mail server said stands behind the page's own words
  const more = error instanceof Refusal && ["not-printed", "not-mailed", "mail-later"].includes(error.message) ? error.answer.faults?.at(-1)?.text : null;
  tell([wordOr(key, word("refused.other")), more].filter(Boolean).join(" "), true);
}

export const who = () => localStorage.getItem("desk-who") ?? "";

/** "2026-03-14" moved by days, without any time zone. */
export function moveDay(day, days) {
  const date = new Date(`${day}T12:00:00Z`);
  date.setUTCDate(date.getUTCDate() + days);
  return date.toISOString().slice(0, 10);
}

export function longDay(day) {
  return new Intl.DateTimeFormat(shared.lang, {dateStyle: "full", timeZone: "UTC"}).format(new Date(`${day}T12:00:00Z`));
}
