// A shelter's list: dropped as CSV, looked at row by row, signed, made into sheets with progress, taken as one file.
import {ask, make, Refusal, send, shared, tell, tellRefusal, word} from "./tools.js";

function rowLine(row) {
  return make("tr", {},
    make("td", {}, String(row.number)), make("th", {scope: "row"}, row.name), make("td", {}, row.species), make("td", {}, row.adopter),
    make("td", {}, row.good ? make("span", {class: "state state-printed"}, word("row.good")) : row.faults.map((fault) => make("p", {class: "fault", lang: "en"}, fault))));
}

function table(list) {
  const heads = ["row.number", "column.animal", "column.species", "column.keeper", "column.state"];
  return make("table", {class: "visits"}, make("caption", {class: "away"}, word("shelter")),
    make("thead", {}, make("tr", {}, heads.map((key) => make("th", {scope: "col"}, word(key))))),
    make("tbody", {}, list.rows.map(rowLine)));
}

class ShelterView {
  constructor(content) {
    this.result = make("div", {class: "list-result"});
    const file = make("input", {type: "file", id: "list-file", accept: ".csv,text/csv",
      onchange: (event) => event.target.files[0] && this.read(event.target.files[0])});
    const zone = make("div", {class: "drop-zone"}, make("label", {for: "list-file"}, word("shelter.drop")), file,
      make("p", {class: "hint"}, word("shelter.columns")));
    zone.addEventListener("dragover", (event) => { event.preventDefault(); zone.classList.add("over"); });
    zone.addEventListener("dragleave", () => zone.classList.remove("over"));
    zone.addEventListener("drop", (event) => {
      event.preventDefault();
      zone.classList.remove("over");
      if (event.dataTransfer.files[0]) this.read(event.dataTransfer.files[0]);
    });
    content.replaceChildren(make("div", {class: "today"}, make("div", {class: "title-line"}, make("h1", {}, word("shelter"))), zone, this.result));
  }

  async attempt(work) {
    try {
      await work();
    } catch (error) {
      tellRefusal(error);
      if (error instanceof Refusal && error.answer.faults?.length)
        this.trouble?.replaceChildren(make("ul", {}, error.answer.faults.map((one) => make("li", {lang: "en"}, one.text))));
    }
  }

  async read(file) {
    this.trouble = make("div", {class: "fault-list"});
    this.result.replaceChildren(this.trouble);
    await this.attempt(async () => {
      const csv = (await file.text()).replace(/^\uFEFF/, "");
      this.show(await send("/api/shelter/drop", {csv}));
      history.replaceState(null, "", `#/shelter/${this.list.id}`);
    });
  }

  show(list) {
    this.list = list;
    const good = list.rows.filter((row) => row.good).length;
    const by = make("input", {id: "list-by", maxlength: 80, autocomplete: "off"});
    this.progress = make("div", {class: "progress", role: "status"});
    this.trouble = make("div", {class: "fault-list"});
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

  sign(by) {
    return this.attempt(async () => {
      this.show(await send("/api/shelter/sign", {id: this.list.id, by}));
      tell(word("signed"));
      document.getElementById("list-make").focus();
    });
  }

  make() {
    // sheets of an earlier run are no longer offered while these are made
    clearTimeout(this.timer);
    this.progress.replaceChildren();
    return this.attempt(async () => this.showMaking((await send("/api/shelter/make", {id: this.list.id})).making));
  }

  showMaking(making) {
    clearTimeout(this.timer);
    const bar = make("progress", {max: making.all || 1, value: making.done, "aria-label": word("shelter.make")});
    bar.value = making.done;
    const text = making.ended ? word(!making.good ? "shelter.failed" : making.bad ? "shelter.some" : "shelter.made") : `${making.done} / ${making.all}`;
    this.progress.replaceChildren(...[bar, make("span", {}, text), making.ended && making.good &&
      make("a", {class: "button", id: "list-take", download: "sheets.zip", href: `/api/shelter/sheets?id=${this.list.id}&lang=${shared.lang}`}, word("shelter.take"))].filter(Boolean));
    if (!making.ended) this.timer = setTimeout(() => this.attempt(async () =>
      this.showMaking((await ask("/api/shelter", {id: this.list.id, progress: "yes"})).making)), 400);
  }
}

export async function showShelter(content, id) {
  const view = new ShelterView(content);
  if (id) await view.attempt(async () => view.show(await ask("/api/shelter", {id})));
  return () => clearTimeout(view.timer);
}
