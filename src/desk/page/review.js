// Reviewing species sheets: what is left by species; one species value by value, confirmed or changed by a veterinarian.
/** @import {Review, ReviewedSpecies, Trust, ValueOfSheet} from "./types" */
import {ask, longDay, make, nodes, send, shared, speciesName, tell, tellRefusal, word, wordOr} from "./tools.js";
import {who} from "./dialog.js";
import {folded, valueParts} from "./record.js";

/** What a sheet names by a key, in words: "Mass of a meal · adult". @param {string} key */
function valueName(key) {
  const {name, of} = valueParts(key);
  return [wordOr(`value.${name}`, wordOr(`field.targets.${name.split(".").at(-1)}`, key)),
    ...of.map((one) => wordOr(`value.of.${one}`, wordOr(`choice.${one}`, one)))].join(" · ");
}

/** @param {{metric: string, us: string}} value */
const shown = (value) => (shared.start.units === "us" ? value.us : value.metric);

/** @param {Trust} trust */
const countText = (trust) => `${word("review.left")}: ${trust.left} / ${trust.values}`;

/** @param {Trust} trust */
const byText = (trust) => (trust.by ? `${word("review.confirmed-by")} ${trust.by}, ${longDay(trust.on ?? "")}` : word("review.nobody"));

const mayConfirm = () => !shared.start.person || shared.start.person.role === "veterinarian";

// ---- all species -----------------------------------------------------------------------

/** @param {HTMLElement} content */
async function showAll(content) {
  /** @type {{species: ReviewedSpecies[]}} */
  const {species} = await ask("/api/reviews");
  const rows = species.map((one) => ({...one, name: speciesName(one.code)})).toSorted((a, b) => folded(a.name).localeCompare(folded(b.name)));
  content.replaceChildren(make("div", {class: "today review"}, make("h1", {}, word("review")), make("p", {}, word("review.text")),
    make("table", {class: "visits"}, make("caption", {class: "away"}, word("review")),
      make("thead", {}, make("tr", {}, ["column.species", "review.left", "review.confirmed-by"].map((key) => make("th", {scope: "col"}, word(key))))),
      make("tbody", {}, rows.map((one) => make("tr", {}, make("th", {scope: "row"}, make("a", {href: `#/review/${one.code}`}, one.name)),
        make("td", {}, `${one.trust.left} / ${one.trust.values}`), make("td", {}, one.trust.by ? `${one.trust.by}, ${one.trust.on}` : "")))))));
  document.title = `${word("review")} · ${shared.start.clinic}`;
  content.focus({preventScroll: true});
}

// ---- one species -----------------------------------------------------------------------

/** Sources and reasons stand as the sheet has them. @param {string | null} source */
const sourceText = (source) => make("span", {lang: "en"}, source ?? "");

/** @param {ValueOfSheet} value */
function foundation(value) {
  const {confirmed} = value;
  return [
    make("p", {}, `${word("review.source")}: `, sourceText(value.source), ` (${word(`review.trust.${value.trust}`)})`),
    value.choice && make("p", {}, `${word("review.choice")}: `, sourceText(value.choice)),
    value.disagrees.length > 0 && [make("h3", {}, word("review.disagrees")), make("ul", {}, value.disagrees.map((one) =>
      make("li", {}, make("strong", {}, shown(one)), ": ", sourceText(one.source), ` (${word(`review.trust.${one.trust}`)})`)))],
    confirmed && make("p", {class: "confirmed"}, [`${word("review.confirmed-by")} ${confirmed.by}, ${longDay(confirmed.on)}`, confirmed.edition, confirmed.reason].filter(Boolean).join(" · ")),
    value.shipped_now && make("p", {class: "remark"}, `${word("review.reopened")} ${shown(value.shipped_now)}: `, sourceText(value.shipped_now.source)),
    value.says.length > 0 && make("details", {class: "says-list"}, make("summary", {}, `${word("review.says")}: ${value.says.length}`),
      make("ul", {}, value.says.map((one) => make("li", {}, one)))),
  ];
}

class ReviewView {
  /** @param {HTMLElement} content @param {string} code */
  constructor(content, code) {
    this.content = content;
    this.code = code;
    this.edition = make("input", {id: "review-edition", maxlength: 180, autocomplete: "off"});
    this.by = make("input", {id: "review-by", maxlength: 80, autocomplete: "off", value: who(), readonly: Boolean(shared.start.person)});
    this.head = make("p", {class: "review-count", role: "status"});
    this.list = make("div", {});
  }

  /** @param {ValueOfSheet} value @param {string} changed "": as it stands @param {string} reason */
  async settle(value, changed, reason) {
    try {
      this.show(await send("/api/review", {species: this.code, key: value.key, value: changed, reason, edition: this.edition.value.trim(), by: this.by.value.trim()}));
      tell(`${word("review.done")} ${valueName(value.key)}`);
      /** @type {HTMLElement} */ (this.list.querySelector("section h2") ?? this.head).focus();
    } catch (error) {
      tellRefusal(error);
    }
  }

  /** @param {ValueOfSheet} value @param {number} i */
  deeds(value, i) {
    if (!mayConfirm()) return null;
    const number = make("input", {id: `value-${i}`, value: value.written, autocomplete: "off", maxlength: 80});
    const reason = make("input", {id: `reason-${i}`, autocomplete: "off", maxlength: 180});
    return [make("div", {class: "deeds"}, make("button", {type: "button", class: "confirm", "aria-label": `${word("review.confirm")}: ${valueName(value.key)}`,
      onclick: () => this.settle(value, "", "")}, word("review.confirm"))),
    make("details", {class: "change"}, make("summary", {}, word("review.change")), make("form", {onsubmit: (/** @type {Event} */ event) => {
      event.preventDefault();
      if (number.value.trim()) this.settle(value, number.value.trim(), reason.value.trim());
    }}, make("div", {class: "fields"}, make("div", {class: "field"}, make("label", {for: number.id}, word("review.value")), number),
      make("div", {class: "field"}, make("label", {for: reason.id}, word("review.reason")), reason)),
    make("button", {class: "set", "aria-label": `${word("review.set")}: ${valueName(value.key)}`}, word("review.set"))))];
  }

  /** @param {ValueOfSheet} value @param {number} i */
  part(value, i) {
    return make("section", {class: `part value${value.open ? " open" : ""}`, "data-key": value.key, "aria-labelledby": `value-name-${i}`},
      make("h2", {id: `value-name-${i}`, tabindex: -1}, `${valueName(value.key)}: ${shown(value)}`), foundation(value), this.deeds(value, i));
  }

  /** @param {Review} review */
  show(review) {
    const parts = review.values.map((value, i) => ({value, part: this.part(value, i)}));
    const settled = parts.filter(({value}) => !value.open).map(({part}) => part);
    this.head.textContent = `${countText(review.trust)} · ${byText(review.trust)}`;
    this.list.replaceChildren(...nodes([parts.filter(({value}) => value.open).map(({part}) => part), review.trust.left === 0 && make("p", {class: "quiet"}, word("review.none-left")),
      settled.length > 0 && make("details", {class: "settled"}, make("summary", {}, `${word("review.settled")}: ${settled.length}`), settled)]));
  }

  async begin() {
    /** @type {Review} */
    const review = await ask("/api/review", {species: this.code});
    const name = speciesName(this.code);
    this.content.replaceChildren(make("div", {class: "today review"},
      make("div", {class: "title-line"}, make("h1", {tabindex: -1}, name, " ", make("em", {lang: "la"}, review.scientific)), make("a", {href: "#/review", class: "back"}, word("review.all"))),
      this.head, make("p", {}, word("review.order")),
      mayConfirm() ? make("div", {class: "fields part"}, make("div", {class: "field"}, make("label", {for: this.by.id}, word("sign.by")), this.by),
        make("div", {class: "field"}, make("label", {for: this.edition.id}, word("review.edition")), this.edition)) : make("p", {class: "remark"}, word("review.veterinarian-only")),
      this.list));
    this.show(review);
    document.title = `${name} · ${word("review")}`;
    this.content.focus({preventScroll: true});
    window.scrollTo(0, 0);
  }
}

/**
 * @param {HTMLElement} content
 * @param {string | undefined} code
 */
export async function showReview(content, code) {
  if (code) await new ReviewView(content, code).begin();
  else await showAll(content);
  return () => {};
}
