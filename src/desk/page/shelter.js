// A shelter's list: dropped as CSV, looked at row by row, signed, made into sheets with progress, taken as one file.
/** @import {Fault, List, Making, Row} from "./types" */
import {ask, byId, make, nodes, Refusal, send, shared, tell, tellRefusal, word} from "./tools.js";

/** @param {Row} row */
function rowLine(row) {
  return make("tr", {},
    make("td", {}, row.number), make("th", {scope: "row"}, row.name), make("td", {}, row.species), make("td", {}, row.adopter),
    make("td", {}, row.good ? make("span", {class: "state state-printed"}, word("row.good")) : row.faults.map((fault) => make("p", {class: "fault", lang: "en"}, fault))));
}

/** @param {List} list */
function table(list) {
  const heads = ["row.number", "column.animal", "column.species", "column.keeper", "column.state"];
  return make("table", {class: "visits"}, make("caption", {class: "away"}, word("shelter")),
    make("thead", {}, make("tr", {}, heads.map((key) => make("th", {scope: "col"}, word(key))))),
    make("tbody", {}, list.rows.map(rowLine)));
}

class ShelterView {
  /** @param {HTMLElement} content */
  constructor(content) {
    this.id = "";
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.timer = undefined;
    this.progress = make("div", {class: "progress", role: "status"});
    this.trouble = make("div", {class: "fault-list"});
    this.result = make("div", {class: "list-result"});
    content.replaceChildren(make("div", {class: "today"}, make("div", {class: "title-line"}, make("h1", {}, word("shelter"))), this.zone(), this.result));
    document.title = `${word("shelter")} · ${shared.start.clinic}`;
  }

  zone() {
    const input = make("input", {type: "file", id: "list-file", accept: ".csv,text/csv", onchange: () => input.files?.[0] && this.read(input.files[0])});
    const zone = make("div", {class: "drop-zone"}, make("label", {for: "list-file"}, word("shelter.drop")), input,
      make("p", {class: "hint"}, word("shelter.columns")));
    zone.addEventListener("dragover", (event) => { event.preventDefault(); zone.classList.add("over"); });
    zone.addEventListener("dragleave", () => zone.classList.remove("over"));
    zone.addEventListener("drop", (event) => {
      event.preventDefault();
      zone.classList.remove("over");
      const file = event.dataTransfer?.files[0];
      if (file) this.read(file);
    });
    return zone;
  }

  /** @param {() => Promise<void>} work */
  async attempt(work) {
    try {
      await work();
    } catch (error) {
      tellRefusal(error);
      if (error instanceof Refusal && error.answer.faults?.length)
        this.trouble.replaceChildren(make("ul", {}, error.answer.faults.map((/** @type {Fault} */ one) => make("li", {lang: "en"}, one.text))));
    }
  }

  /** @param {File} file */
  read(file) {
    this.trouble.replaceChildren();
    this.result.replaceChildren(this.trouble);
    return this.attempt(async () => {
      const csv = (await file.text()).replace(/^\uFEFF/, "");
      this.show(await send("/api/shelter/drop", {csv}));
      history.replaceState(null, "", `#/shelter/${this.id}`);
    });
  }

  /** @param {List} list */
  show(list) {
    this.id = list.id;
    const good = list.rows.filter((row) => row.good).length;
    const by = make("input", {id: "list-by", maxlength: 80, autocomplete: "off"});
    this.progress.replaceChildren();
    this.trouble.replaceChildren();
    this.result.replaceChildren(
      make("h2", {}, `${word("shelter.rows")}: ${good} / ${list.rows.length}`), this.trouble,
      make("div", {class: "title-line list-deeds"},
        list.signed ? make("span", {class: "state state-ready"}, `${word("deed.signed")}: ${list.by}`) : [
          make("label", {class: "small", for: "list-by"}, word("sign.by")), by,
          make("button", {type: "button", id: "list-sign", onclick: () => this.sign(by.value.trim())}, word("sign.do"))],
        make("button", {type: "button", id: "list-make", class: list.signed ? "main" : null, onclick: () => this.make()}, word("shelter.make"))),
      this.progress, table(list));
    if (list.making) this.showMaking(list.making);
  }

  /** @param {string} by */
  sign(by) {
    return this.attempt(async () => {
      this.show(await send("/api/shelter/sign", {id: this.id, by}));
      tell(word("signed"));
      byId("list-make").focus();
    });
  }

  make() {
    // sheets of an earlier run are no longer offered while these are made
    clearTimeout(this.timer);
    this.progress.replaceChildren();
    return this.attempt(async () => this.showMaking((await send("/api/shelter/make", {id: this.id})).making));
  }

  /** @param {Making} making */
  showMaking(making) {
    clearTimeout(this.timer);
    const bar = make("progress", {max: making.all || 1, value: making.done, "aria-label": word("shelter.make")});
    const ended = !making.good ? "shelter.failed" : making.bad ? "shelter.some" : "shelter.made";
    this.progress.replaceChildren(...nodes([bar, make("span", {}, making.ended ? word(ended) : `${making.done} / ${making.all}`), making.ended && making.good &&
      make("a", {class: "button", id: "list-take", download: "sheets.zip", href: `/api/shelter/sheets?id=${this.id}&lang=${shared.lang}`}, word("shelter.take"))]));
    if (!making.ended) this.timer = setTimeout(() => this.attempt(async () =>
      this.showMaking((await ask("/api/shelter", {id: this.id, progress: "yes"})).making)), 400);
  }
}

/**
 * @param {HTMLElement} content
 * @param {string} id
 */
export async function showShelter(content, id) {
  const view = new ShelterView(content);
  if (id) await view.attempt(async () => view.show(await ask("/api/shelter", {id})));
  return () => clearTimeout(view.timer);
}
