// A dialog of the page: one at a time, gone with the view it belongs to.
/** @import {Child} from "./types" */
import {byId, make, nodes, shared, tell, word} from "./tools.js";

/**
 * @param {string} title
 * @param {Child[]} body
 * @param {{id: string, name: string, run: () => void | Promise<void>} | null} deed what its main button does
 * @returns {HTMLDialogElement}
 */
export function openDialog(title, body, deed) {
  closeDialogs();
  const before = /** @type {HTMLElement | null} */ (document.activeElement);
  const run = async (/** @type {Event} */ event) => {
    event.preventDefault();
    if (!deed) return;
    const button = /** @type {HTMLButtonElement} */ (byId(deed.id));
    if (button.disabled) return;
    button.disabled = true;
    await Promise.resolve(deed.run()).finally(() => (button.disabled = false));
  };
  const dialog = make("dialog", {"aria-labelledby": "dialog-title"},
    make("form", {method: "dialog", onsubmit: run},
      make("h2", {id: "dialog-title"}, title), ...nodes(body), make("div", {class: "told", role: "status"}),
      make("div", {class: "deeds"}, deed && make("button", {class: "main", id: deed.id}, deed.name),
        make("button", {type: "button", class: "cancel", onclick: () => dialog.close()}, word(deed ? "cancel" : "close-dialog")))));
  dialog.addEventListener("close", () => {
    dialog.remove();
    if (before?.isConnected) before.focus();
    else if (before?.id) document.getElementById(before.id)?.focus();
  });
  document.body.append(dialog);
  dialog.showModal();
  return dialog;
}

/** What was asked for one record must not be answered for another. */
export function closeDialogs() {
  for (const dialog of document.querySelectorAll("dialog:not(.lock)")) /** @type {HTMLDialogElement} */ (dialog).close();
}

/** The name that stands in the log, asked for where it is needed; "" when nobody gave one. */
export const who = () => shared.start.person?.name ?? localStorage.getItem("desk-who") ?? "";

/** @param {string} name */
export function setWho(name) {
  localStorage.setItem("desk-who", name);
  const field = /** @type {HTMLInputElement | null} */ (document.getElementById("who"));
  if (field && field.value.trim() !== name) field.value = name;
}

/** @returns {Promise<string>} */
export function needWho() {
  if (who()) return Promise.resolve(who());
  return new Promise((done) => {
    const name = make("input", {id: "who-asked", maxlength: 80, autocomplete: "name"});
    const dialog = openDialog(word("who.title"), [make("div", {class: "field"}, make("label", {for: "who-asked"}, word("who")), name,
      make("p", {class: "hint"}, word("who.help")))], {id: "who-do", name: word("go-on"), run: () => {
      if (!name.value.trim()) return tell(word("refused.who-is-missing"), true);
      setWho(name.value.trim());
      dialog.close();
      return undefined;
    }});
    dialog.addEventListener("close", () => done(who()));
    name.focus();
  });
}
