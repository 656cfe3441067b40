// Printing and mailing: what leaves the house goes into the desk's queue, and the page shows how far it is.
/** @import {Job, Printer, Printers} from "./types" */
import {ask, make, Refusal, send, tell, tellRefusal, word, wordOr} from "./tools.js";
import {needWho, openDialog} from "./dialog.js";

/** @typedef {{name: string, version: string}} Sheet a saved record */

const ASK_AGAIN_MS = 700;
const ASKS_MOST = 20;

const remembered = () => localStorage.getItem("desk-printer") ?? "";

/** @param {() => void} done what follows when the job is in the queue */
async function attempt(/** @type {string} */ path, /** @type {object} */ body, /** @type {() => void} */ done) {
  try {
    const {deed} = await send(path, body);
    tell(word(`told.${deed}`));
    done();
  } catch (error) {
    tellRefusal(error);
  }
}

/** The printers, once the print system has answered or failed to. @returns {Promise<Printers>} */
async function printers() {
  /** @type {Printers} */
  let answer = await ask("/api/printers");
  for (let i = 0; i < ASKS_MOST && !answer.known; i++) {
    await new Promise((go) => setTimeout(go, ASK_AGAIN_MS));
    answer = await ask("/api/printers");
  }
  return answer;
}

/** @param {Printer} one */
const printerName = (one) => [one.info || one.name, one.default && word("print.default"), one.stopped !== null && word("print.stands")].filter(Boolean).join(" · ");

/**
 * Which printer, remembered for this browser; or somebody prints by hand.
 * @param {Sheet} sheet
 * @param {Printers} known
 * @param {(printer: string, copies: string) => void} print
 * @param {() => void} done
 */
function choosePrinter(sheet, known, print, done) {
  const source = `/api/sheet?name=${encodeURIComponent(sheet.name)}`;
  const choice = make("select", {id: "printer"}, known.printers.map((one) =>
    make("option", {value: one.name, selected: remembered() ? one.name === remembered() : one.default}, printerName(one))));
  const copies = make("input", {id: "copies", type: "number", min: 1, max: 9, value: "1", inputmode: "numeric"});
  const byHand = make("button", {type: "button", id: "print-by-hand", onclick: async () => {
    const who = await needWho();
    if (!who) return;
    dialog.close();
    await attempt("/api/printed", {...sheet, who}, done);
  }}, word("print.by-hand"));
  const hasPrinter = known.printers.length > 0;
  const dialog = openDialog(word("print.title"), [
    hasPrinter ? make("div", {class: "fields"}, make("div", {class: "field"}, make("label", {for: "printer"}, word("print.which")), choice),
      make("div", {class: "field"}, make("label", {for: "copies"}, word("print.copies")), copies))
      : make("p", {class: "remark"}, word("print.no-printer"), known.why ? ` ${known.why}` : ""),
    make("p", {}, make("a", {href: source, target: "_blank", rel: "noopener"}, word("print.open"))), make("p", {}, byHand)],
  hasPrinter ? {id: "print-do", name: word("print"), run: () => {
    localStorage.setItem("desk-printer", choice.value);
    dialog.close();
    print(choice.value, copies.value);
  }} : null);
  if (hasPrinter) choice.focus();
  else byHand.focus();
}

/**
 * To the remembered printer, or to the default one; asks where there is neither.
 * @param {Sheet} sheet
 * @param {() => void} done
 */
export async function printSheet(sheet, done, asks = false) {
  const who = await needWho();
  if (!who) return;
  const print = (/** @type {string} */ printer, copies = "1") => attempt("/api/print", {...sheet, who, printer, copies}, done);
  if (!asks && remembered()) {
    await print(remembered());
    return;
  }
  try {
    const known = await printers();
    if (!asks && known.printers.some((one) => one.default)) await print("");
    else choosePrinter(sheet, known, print, done);
  } catch (error) {
    tellRefusal(error);
  }
}

/**
 * @param {Sheet} sheet
 * @param {() => void} done
 */
export async function mailSheet(sheet, done) {
  const who = await needWho();
  if (who) await attempt("/api/mail", {...sheet, who}, done);
}

// ---- the queue -------------------------------------------------------------------------

/** @param {Job} job */
export const isUnderWay = (job) => !["done", "failed", "unsure"].includes(job.state);

/** Where a job stands, in one line; what can be done about it. @param {Job} job @param {() => void} done */
export function jobLine(job, done) {
  const act = (/** @type {string} */ what) => async () => {
    try {
      await send("/api/job", {number: job.number, do: what});
    } catch (error) {
      if (error instanceof Refusal) tellRefusal(error);
    }
    done();
  };
  const canTry = job.state === "failed" || (job.state === "waiting" && job.tries > 0);
  return make("p", {class: `job job-${job.state}`}, make("span", {}, wordOr(`job.${job.kind}.${job.state}`, job.state), job.why ? `: ${job.why}` : ""),
    canTry && make("button", {type: "button", class: "quiet-button", onclick: act("now")}, word("job.now")),
    job.state !== "at-work" && job.state !== "done" && make("button", {type: "button", class: "quiet-button", onclick: act("drop")}, word("job.drop")));
}
