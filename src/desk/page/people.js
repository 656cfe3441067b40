// Who is at the desk: logging in, out, and the lock of a desk that nobody uses.
import {make, send, shared, tell, tellRefusal, word} from "./tools.js";

const LOOK_EVERY_MS = 5000;

/** @type {Promise<void> | null} */
let asking = null;
let lastTouch = Date.now();

/** Asks for name and passphrase over whatever is shown; what is typed below stays. @returns {Promise<void>} */
export function logIn() {
  asking ??= new Promise((done) => {
    const name = make("input", {id: "login-name", autocomplete: "username", maxlength: 80, value: shared.start.person?.name ?? localStorage.getItem("desk-name") ?? ""});
    const passphrase = make("input", {id: "login-passphrase", type: "password", autocomplete: "current-password", maxlength: 500});
    const enter = async (/** @type {Event} */ event) => {
      event.preventDefault();
      try {
        const answer = await send("/api/login", {name: name.value.trim(), passphrase: passphrase.value});
        shared.start.person = answer.person;
        localStorage.setItem("desk-name", answer.person.name);
        lastTouch = Date.now();
        dialog.close();
        dialog.remove();
        asking = null;
        tell("");
        done();
      } catch (error) {
        passphrase.value = "";
        tellRefusal(error);
      }
    };
    const dialog = make("dialog", {class: "lock", "aria-labelledby": "login-title", oncancel: (/** @type {Event} */ event) => event.preventDefault()},
      make("form", {onsubmit: enter}, make("h2", {id: "login-title"}, word("login.title")),
        make("div", {class: "field"}, make("label", {for: "login-name"}, word("who")), name),
        make("div", {class: "field"}, make("label", {for: "login-passphrase"}, word("login.passphrase")), passphrase),
        make("div", {class: "told", role: "status"}),
        make("div", {class: "deeds"}, make("button", {class: "main", id: "login-do"}, word("login.do")))));
    document.body.append(dialog);
    dialog.showModal();
    (name.value ? passphrase : name).focus();
  });
  return asking;
}

export async function logOut() {
  await send("/api/logout", {}).catch(() => {});
  if (shared.start.person) localStorage.setItem("desk-name", shared.start.person.name);
  document.getElementById("content")?.replaceChildren();
  location.reload();
}

/** Nobody has touched anything for a while: the desk is locked, and nothing can be read over the dialog. */
export function watchIdle() {
  for (const kind of ["pointerdown", "keydown", "input"]) document.addEventListener(kind, () => (lastTouch = Date.now()), {capture: true, passive: true});
  setInterval(async () => {
    if (!shared.start?.person || asking || Date.now() - lastTouch < shared.start.idle * 1000) return;
    await send("/api/logout", {}).catch(() => {});
    await logIn();
  }, LOOK_EVERY_MS);
}

/** The name of whoever is logged in, with a way out; in the place of the field for a name. */
export function personPart() {
  const {person} = shared.start;
  if (!person) return null;
  return make("div", {class: "small", id: "person"}, `${person.name} (${word(`role.${person.role}`)})`,
    make("button", {type: "button", id: "log-out", class: "quiet-button", onclick: () => logOut()}, word("login.out")));
}
