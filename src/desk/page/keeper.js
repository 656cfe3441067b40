// What is seldom done to a record: voided with a reason; all of one keeper's handed out or forgotten.
/** @import {Form} from "./form.js" */
import {make, send, shared, tell, tellRefusal, word} from "./tools.js";
import {needWho, openDialog} from "./dialog.js";

/** @param {Form} form */
async function askToVoid(form) {
  const who = await needWho();
  if (!who) return;
  const why = make("input", {id: "void-why", maxlength: 80, autocomplete: "off"});
  const dialog = openDialog(word("void.title"), [make("p", {}, `${form.title.textContent} · ${form.about.textContent}`), make("p", {}, word("void.text")),
    make("div", {class: "field"}, make("label", {for: "void-why"}, word("void.why")), why)],
  {id: "void-do", name: word("void"), run: async () => {
    try {
      await send("/api/void", {name: form.name, version: form.onDisk, who, why: why.value.trim()});
      dialog.close();
      form.isGone = true;
      location.hash = "#/today";
      tell(word("void.done"));
    } catch (error) {
      tellRefusal(error);
    }
  }});
  why.focus();
}

/** @param {Form} form @param {string} keeper */
async function askToForget(form, keeper) {
  const who = await needWho();
  if (!who) return;
  const typed = make("input", {id: "forget-name", maxlength: 120, autocomplete: "off"});
  const dialog = openDialog(`${word("forget.title")}: ${keeper}`, [make("p", {}, word("forget.text")),
    make("div", {class: "field"}, make("label", {for: "forget-name"}, word("forget.name")), typed)],
  {id: "forget-do", name: word("forget"), run: async () => {
    if (typed.value.trim() !== keeper) {
      tell(word("refused.not-the-name"), true);
      return;
    }
    try {
      const answer = await send("/api/forget", {keeper, who});
      dialog.close();
      form.isGone = true;
      location.hash = "#/today";
      tell(`${word("forget.done")} ${answer.records}`);
    } catch (error) {
      tellRefusal(error);
    }
  }});
  typed.focus();
}

/** @param {Form} form */
export function keeperPart(form) {
  const keeper = form.record.keeper?.name;
  if (!form.name) return null;
  return make("details", {class: "part"}, make("summary", {}, word("seldom")), make("div", {class: "deeds"},
    make("button", {type: "button", id: "void", onclick: () => askToVoid(form)}, word("void")),
    keeper && make("a", {class: "button", id: "keeper-export", download: "keeper.zip",
      href: `/api/keeper?name=${encodeURIComponent(keeper)}&lang=${shared.lang}`}, `${word("keeper.export")}: ${keeper}`),
    keeper && make("button", {type: "button", id: "forget", onclick: () => askToForget(form, keeper)}, `${word("forget.title")}: ${keeper}`)));
}
