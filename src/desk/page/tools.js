// What every part of the page uses: making elements, words, asking the desk, telling people something.
/** @import {Child, Start} from "./types" */
import {speciesOf} from "./record.js";

/** @type {{start: Start, words: Record<string, string>, token: string, lang: string, window: string}} */
export const shared = {start: /** @type {any} */ (null), words: {}, token: "", lang: "", window: ""};

/** @param {number} digits */
export function drawn(digits) {
  return [...crypto.getRandomValues(new Uint8Array(digits))].map((byte) => (byte & 15).toString(16)).join("");
}

const CLAIM_MS = 1500;

/** Holds a name while this window is open; false where another window has it. @param {string} id */
const hold = (id) => new Promise((held) => {
  navigator.locks.request(`desk-window-${id}`, {signal: AbortSignal.timeout(CLAIM_MS)}, () => { held(true); return new Promise(() => {}); })
    .catch(() => held(false));
});

/** This window's own name, the same after it is loaded again; a window that was made as a copy of another gets one of its own. */
export async function claimWindow() {
  const before = sessionStorage.getItem("desk-window");
  shared.window = before && await hold(before) ? before : drawn(12);
  if (shared.window !== before) await hold(shared.window);
  sessionStorage.setItem("desk-window", shared.window);
}

/**
 * An element: make("p", {class: "x"}, "text", child, ...). Functions under on... listen.
 * @template {keyof HTMLElementTagNameMap} Name
 * @param {Name} name
 * @param {Record<string, any>} [properties]
 * @param {...Child} children
 * @returns {HTMLElementTagNameMap[Name]}
 */
export function make(name, properties = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(properties)) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else if (key === "value") /** @type {HTMLInputElement} */ (/** @type {unknown} */ (element)).value = value;
    else element.setAttribute(key, value === true ? "" : value);
  }
  element.append(...nodes(children));
  return element;
}

/** @param {Child[]} children @returns {(Node | string)[]} */
export function nodes(children) {
  return children.flat(8).filter((child) => child !== null && child !== undefined && child !== false)
    .map((child) => (child instanceof Node ? child : String(child)));
}

/** @param {string} id */
export const byId = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

/**
 * The word under a key of desk.yaml; the key itself shows that one is missing.
 * @param {string} key
 */
export const word = (key) => shared.words[key] ?? key;

/** @param {string} key @param {string} other */
export const wordOr = (key, other) => shared.words[key] ?? other;

// ---- telling ---------------------------------------------------------------------------

/** @type {ReturnType<typeof setTimeout> | undefined} */
let toldTimer;

/**
 * Says something to everybody, screen readers included: in the dialog that is open, else at the head of the page.
 * @param {string} text
 */
export function tell(text, isTrouble = false) {
  const place = /** @type {HTMLElement} */ (document.querySelector("dialog[open] .told") ?? byId("told"));
  clearTimeout(toldTimer);
  place.classList.toggle("trouble", isTrouble);
  place.replaceChildren(...nodes(text ? [make("span", {}, text), make("button", {type: "button", class: "quiet-button close", "aria-label": word("close"),
    onclick: () => tell("")}, "×")] : []));
  if (text && !isTrouble) toldTimer = setTimeout(() => place.replaceChildren(), 8000);
}

/** What the desk refused, as it says why. */
export class Refusal extends Error {
  /**
   * @param {number} status
   * @param {any} answer
   */
  constructor(status, answer) {
    super(answer.error);
    this.status = status;
    this.answer = answer;
  }
}

/** Refusals that say nothing without what was found; of many the first ones, the rest stands at its fields. */
const FAULTS_TOLD = {"faults": 2, "photo-not-read": 9, "log-not-read": 9, "value-refused": 1};

/** @param {unknown} error */
export function refusalText(error) {
  if (!(error instanceof Refusal)) return word("not-kept");
  const most = /** @type {Record<string, number>} */ (FAULTS_TOLD)[error.message] ?? 0;
  /** @type {{said?: string, text: string}[]} */
  const faults = error.answer.faults ?? [];
  return [wordOr(`refused.${error.message}`, word("refused.other")), ...faults.slice(0, most).map((one) => one.said ?? one.text)].join(" ");
}

/** @param {unknown} error */
export function tellRefusal(error) {
  tell(refusalText(error), true);
}

// ---- asking ----------------------------------------------------------------------------

/**
 * @param {string} path
 * @param {Record<string, string>} parameters
 */
const address = (path, parameters) => `${path}?${new URLSearchParams({lang: shared.lang, ...parameters})}`;

/** @param {Response} response */
async function settle(response) {
  const answer = await response.json().catch(() => ({error: "other"}));
  if (!response.ok) throw new Refusal(response.status, answer);
  return answer;
}

/**
 * @param {string} path
 * @param {Record<string, string>} [parameters]
 */
export const ask = async (path, parameters = {}) => settle(await again(() => fetch(address(path, parameters))));

/** What is done when the desk wants to know who asks (people.js). @type {{logIn: () => Promise<void>}} */
export const atTheDoor = {logIn: () => Promise.resolve()};

/**
 * Tries once more after a login, or with a new token: a desk that was started anew knows other ones.
 * @param {() => Promise<Response>} once
 */
async function again(once) {
  const response = await once();
  if (response.status === 401) {
    await atTheDoor.logIn();
    return again(once);
  }
  if (response.status !== 403 || (await response.clone().json().catch(() => ({}))).error !== "not-from-this-page") return response;
  shared.token = (await ask("/api/start")).token;
  return once();
}

/**
 * @param {string} path
 * @param {unknown} body
 * @param {RequestInit} more
 */
const post = (path, body, more) => fetch(address(path, {}), {
  method: "POST",
  headers: {"Content-Type": "application/json", "X-Desk-Token": shared.token},
  body: JSON.stringify(body),
  ...more,
});

/**
 * @param {string} path
 * @param {unknown} body
 * @param {RequestInit} [more]
 */
const change = (path, body, more = {}) => again(() => post(path, body, more));

/**
 * @param {string} path
 * @param {unknown} body
 * @param {RequestInit} [more]
 */
export const send = async (path, body, more) => settle(await change(path, body, more));

/**
 * A file as it is, byte for byte.
 * @param {string} path
 * @param {Record<string, string>} parameters
 * @param {File} file
 */
export async function sendFile(path, parameters, file) {
  const bytes = await file.arrayBuffer();
  const once = () => fetch(address(path, parameters), {
    method: "POST", headers: {"Content-Type": "application/octet-stream", "X-Desk-Token": shared.token}, body: bytes});
  return settle(await again(once));
}

/**
 * A PDF of something that is not saved, as an address inside this page.
 * @param {string} path
 * @param {unknown} body
 * @returns {Promise<string>}
 */
export async function sendForPdf(path, body) {
  const response = await change(path, body);
  return response.ok ? URL.createObjectURL(await response.blob()) : settle(response);
}

// ---- the animal, the day ---------------------------------------------------------------

/** Of a code, or of whatever name somebody wrote into the record by hand. @param {string} written */
export const speciesName = (written) => speciesOf(written, shared.start.species)?.name ?? written;

/** @param {string} day */
export function longDay(day) {
  return /^\d{4}-\d\d-\d\d$/.test(day)
    ? new Intl.DateTimeFormat(shared.lang, {dateStyle: "full", timeZone: "UTC"}).format(new Date(`${day}T12:00:00Z`)) : day;
}

// ---- a file that is dropped -------------------------------------------------------------

/**
 * Where a file is dropped, or chosen with the field in it.
 * @param {{class?: string, input: HTMLInputElement, take: (file: File) => void}} about
 * @param {...Child} children
 */
export function dropZone({class: more = "", input, take}, ...children) {
  const zone = make("div", {class: `drop-zone ${more}`.trim()}, children);
  const taken = (/** @type {FileList | null | undefined} */ files) => { if (files?.[0]) take(files[0]); };
  input.addEventListener("change", () => taken(input.files));
  zone.addEventListener("dragover", (event) => { event.preventDefault(); zone.classList.add("over"); });
  zone.addEventListener("dragleave", () => zone.classList.remove("over"));
  zone.addEventListener("drop", (event) => {
    event.preventDefault();
    zone.classList.remove("over");
    taken(event.dataTransfer?.files);
  });
  return zone;
}
