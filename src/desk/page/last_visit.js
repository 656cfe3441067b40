// The animal was here before: what stays the same is taken over with a click.
/** @import {Visit, Visits} from "./types" */
/** @import {Form} from "./form.js" */
import {ask, longDay, make, shared, speciesName, word} from "./tools.js";
import {asLastVisit, folded} from "./record.js";

const ASK_AFTER_MS = 500;

/** @param {string} one @param {string} other */
const same = (one, other) => folded(one) === folded(other);

/** The newest visit before this one of the same name, and keeper where one is typed. @param {Form} form @returns {Promise<Visit | undefined>} */
async function findLast(form) {
  const {patient = {}, keeper = {}} = form.record;
  /** @type {Visits} */
  const answer = await ask("/api/visits", {find: patient.name, looking: "yes"});
  return answer.visits.filter((one) => same(one.patient, patient.name) && (!keeper.name || same(one.keeper, keeper.name)) && !one.broken)
    .toSorted((a, b) => b.date.localeCompare(a.date))[0];
}

/** @param {Form} form */
async function offer(form) {
  const last = form.record.patient?.name ? await findLast(form) : undefined;
  if (form.isGone || form.name) return;
  if (!last) {
    form.lastVisit.replaceChildren();
    return;
  }
  form.lastVisit.replaceChildren(make("p", {}, [last.patient, speciesName(last.species), last.keeper, longDay(last.date)].filter(Boolean).join(" · ")),
    make("button", {type: "button", id: "as-last-visit", onclick: async () => {
      const {record} = await ask("/api/record", {name: last.name});
      form.replace(asLastVisit(form.record, record, last.name));
      form.lastVisit.replaceChildren(make("p", {}, word("last.taken")));
    }}, word("last.take")));
}

/** Looks a moment after a name was typed; only a visit that is new. @param {Form} form */
export function watchName(form) {
  clearTimeout(form.lastTimer);
  if (!form.name && shared.start) form.lastTimer = setTimeout(() => offer(form).catch(() => {}), ASK_AFTER_MS);
}
