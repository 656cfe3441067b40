// A shelter's list: dropped as a spreadsheet wrote it, looked at row by row, mended, signed, made into sheets with progress, printed as one file.
/** @import {Fault, List, Lists, Making, Row} from "./types" */
import {ask, byId, dropZone, make, nodes, Refusal, send, sendFile, shared, tell, tellRefusal, word, wordOr} from "./tools.js";
import {openDialog} from "./dialog.js";

const LOOK_AGAIN_MS = 400;

/** @param {Fault} fault */
const faultText = (fault) => [fault.path && wordOr(`title.${fault.path.replace(/^.*\./, "")}`, fault.path), fault.said ?? fault.text].filter(Boolean).join(": ");

/** @param {Fault[]} faults */
const faultLines = (faults) => faults.map((fault) => make("p", {class: "fault", lang: fault.said ? null : "en"}, faultText(fault)));

class ShelterView {
  /** @type {List | null} */
  list = null;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  timer = undefined;
  /** A file on its way to the desk. @type {Promise<void> | undefined} */
  reading = undefined;
  progress = make("div", {class: "progress", role: "status"});
  trouble = make("div", {class: "fault-list"});
  result = make("div", {class: "list-result"});

  /** @param {HTMLElement} content */
  constructor(content) {
    content.replaceChildren(make("div", {class: "today"}, make("div", {class: "title-line"}, make("h1", {}, word("shelter"))), this.zone(), this.result));
    document.title = `${word("shelter")} · ${shared.start.clinic}`;
  }

  zone() {
    const input = make("input", {type: "file", id: "list-file", accept: ".csv,.tsv,.txt,text/csv,text/plain"});
    return dropZone({input, take: (file) => { this.reading = this.read(file); }}, make("label", {for: "list-file"}, word("shelter.drop")), input,
      make("p", {class: "hint"}, word("shelter.columns")));
  }

  /** @param {() => Promise<void>} work */
  async attempt(work) {
    try {
      await work();
    } catch (error) {
      tellRefusal(error);
      if (error instanceof Refusal && error.answer.faults?.length) this.trouble.replaceChildren(...faultLines(error.answer.faults));
    }
  }

  /** @param {string} path @param {object} body */
  change(path, body) {
    return this.attempt(async () => this.show(await send(path, {id: this.list?.id, ...body})));
  }

  /** @param {File} file */
  read(file) {
    this.trouble.replaceChildren();
    this.result.replaceChildren(this.trouble);
    const from = location.hash;
    return this.attempt(async () => {
      this.show(await sendFile("/api/shelter/drop", {file: file.name}, file));
      if (location.hash === from) history.replaceState(null, "", `#/shelter/${this.list?.id}`);
    });
  }

  // ---- columns and rows -------------------------------------------------------------

  /** What each column means; one that nobody knows is asked for, and remembered. @param {List} list */
  columns(list) {
    const isUnknown = list.columns.some((one) => one.title && !one.name) || list.faults.length > 0;
    const choices = list.columns.map((one, column) => {
      const select = make("select", {id: `column-${column}`, onchange: () => this.change("/api/shelter/column", {column: String(column), name: select.value})},
        make("option", {value: ""}, word("shelter.pass-over")),
        list.names.map((name) => make("option", {value: name, selected: name === one.name}, wordOr(`title.${name}`, name))));
      return make("div", {class: "field"}, make("label", {for: `column-${column}`}, one.title || `(${column + 1})`), select);
    });
    return make("details", {class: "part", open: isUnknown}, make("summary", {}, word("shelter.meaning")), faultLines(list.faults), make("div", {class: "fields"}, choices));
  }

  /** @param {Row} row */
  mend(row) {
    const columns = this.list?.columns ?? [];
    const inputs = columns.map((_, i) => make("input", {id: `cell-${i}`, value: row.cells[i] ?? "", autocomplete: "off"}));
    const dialog = openDialog(`${word("shelter.mend")}: ${row.name || row.line}`, [faultLines(row.faults),
      make("div", {class: "fields"}, columns.map((one, i) => make("div", {class: "field"}, make("label", {for: `cell-${i}`}, one.title || `(${i + 1})`), inputs[i])))],
    {id: "mend-do", name: word("shelter.mend-do"), run: async () => {
      await this.change("/api/shelter/mend", {line: String(row.line), cells: inputs.map((input) => input.value)});
      dialog.close();
    }});
  }

  /** @param {Row} row */
  rowLine(row) {
    const leave = (/** @type {string} */ left) => () => this.change("/api/shelter/leave", {line: String(row.line), left});
    const state = row.left
      ? [make("span", {class: "state"}, word("row.left")), make("button", {type: "button", class: "quiet-button", onclick: leave("no")}, word("row.take"))]
      : row.good ? make("span", {class: "state state-printed"}, word("row.good"))
        : [faultLines(row.faults), make("button", {type: "button", class: "row-mend", "aria-label": `${word("shelter.mend")}: ${row.name}`, onclick: () => this.mend(row)}, word("shelter.mend")),
          make("button", {type: "button", class: "quiet-button", onclick: leave("yes")}, word("row.leave"))];
    return make("tr", {class: row.left ? "left-out" : null},
      make("td", {}, row.line), make("th", {scope: "row"}, row.name), make("td", {}, row.species), make("td", {}, row.adopter), make("td", {}, state));
  }

  /** @param {List} list */
  table(list) {
    const heads = ["row.line", "column.animal", "column.species", "column.keeper", "column.state"];
    return make("table", {class: "visits"}, make("caption", {class: "away"}, word("shelter")),
      make("thead", {}, make("tr", {}, heads.map((key) => make("th", {scope: "col"}, word(key))))),
      make("tbody", {}, list.rows.toSorted((a, b) => Number(a.good) - Number(b.good)).map((row) => this.rowLine(row))));
  }

  /** @param {List} list */
  deeds(list) {
    const bad = list.rows.filter((row) => !row.good && !row.left).length;
    if (bad)
      return make("button", {type: "button", id: "list-leave", class: "main", onclick: () => this.change("/api/shelter/leave", {})}, `${word("shelter.leave-bad")} (${bad})`);
    if (list.signed)
      return [make("span", {class: "state state-ready"}, `${word("deed.signed")}: ${list.by}`),
        make("button", {type: "button", id: "list-make", class: "main", onclick: () => this.make()}, word("shelter.make"))];
    const {person} = shared.start;
    if (person && person.role !== "veterinarian") return make("p", {class: "remark"}, word("refused.not-a-veterinarian"));
    const by = make("input", {id: "list-by", maxlength: 80, autocomplete: "off", value: person?.name ?? localStorage.getItem("desk-signer") ?? "", readonly: Boolean(person)});
    return [make("label", {class: "small", for: "list-by"}, word("sign.by")), by,
      make("button", {type: "button", id: "list-sign", class: "main", onclick: () => this.sign(by.value.trim())}, word("shelter.sign-make"))];
  }

  /** @param {List} list */
  show(list) {
    this.list = list;
    const rows = list.rows.filter((row) => !row.left);
    const about = [list.file, list.at.replace(/:\d\d UTC/, " UTC"), list.encoding].filter(Boolean).join(" · ");
    this.progress.replaceChildren();
    this.trouble.replaceChildren();
    this.result.replaceChildren(make("h2", {}, about), this.columns(list), ...nodes(list.rows.length ? [
      make("p", {class: "counts"}, `${word("shelter.rows")}: ${rows.filter((row) => row.good).length} / ${list.rows.length}`), this.trouble,
      make("div", {class: "title-line list-deeds"}, this.deeds(list)), this.progress, this.table(list)] : [this.trouble]));
    if (list.making && list.signed) this.showMaking(list.making);
  }

  // ---- signing and making -------------------------------------------------------------

  /** One click signs and makes. @param {string} by */
  sign(by) {
    return this.attempt(async () => {
      this.show(await send("/api/shelter/sign", {id: this.list?.id, by}));
      localStorage.setItem("desk-signer", by);
      tell(word("signed"));
      await this.make();
      byId("list-make").focus();
    });
  }

  make() {
    // sheets of an earlier run are no longer offered while these are made
    clearTimeout(this.timer);
    this.progress.replaceChildren();
    return this.attempt(async () => this.showMaking((await send("/api/shelter/make", {id: this.list?.id})).making));
  }

  /** @param {Making} making */
  showMaking(making) {
    clearTimeout(this.timer);
    const query = `id=${this.list?.id}&lang=${shared.lang}`;
    const bar = make("progress", {max: making.all || 1, value: making.done, "aria-label": word("shelter.make")});
    const ended = !making.good ? "shelter.failed" : making.bad ? "shelter.some" : "shelter.made";
    this.progress.replaceChildren(...nodes([bar, make("span", {}, making.ended ? word(ended) : `${making.done} / ${making.all}`),
      making.joined && make("a", {class: "button main", id: "list-print", target: "_blank", rel: "noopener", href: `/api/shelter/joined?${query}`}, word("shelter.joined")),
      making.ended && making.good && make("a", {class: "button", id: "list-take", download: "sheets.zip", href: `/api/shelter/sheets?${query}`}, word("shelter.take"))]));
    if (!making.ended) this.timer = setTimeout(() => this.attempt(async () =>
      this.showMaking((await ask("/api/shelter", {id: this.list?.id ?? "", progress: "yes"})).making)), LOOK_AGAIN_MS);
  }

  /** Lists of other days. */
  async showEarlier() {
    /** @type {Lists} */
    const {lists} = await ask("/api/shelter/lists");
    if (!lists.length || this.reading) return; // a file that was dropped meanwhile stays
    this.result.replaceChildren(make("h2", {}, word("shelter.earlier")), make("ul", {class: "earlier"}, lists.toSorted((a, b) => b.at.localeCompare(a.at)).map((one) =>
      make("li", {}, make("a", {href: `#/shelter/${one.id}`}, one.file || one.id), make("span", {class: "hint"}, ` ${one.at.replace(/:\d\d UTC/, " UTC")}`)))));
  }
}

/**
 * @param {HTMLElement} content
 * @param {string} id
 */
export async function showShelter(content, id) {
  const view = new ShelterView(content);
  await view.attempt(async () => (id ? view.show(await ask("/api/shelter", {id})) : view.showEarlier()));
  return async () => {
    await view.reading; // so that a list that is read while the language changes is the one that is shown
    clearTimeout(view.timer);
  };
}
