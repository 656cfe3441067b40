// A file that lies beside the record: a photo of the animal, a logger's readings. Dropped on the field or chosen, its name goes into the record.
/** @import {Beside, FormLike, Path} from "./types" */
import {dropZone, make, refusalText, sendFile, tell, word} from "./tools.js";
import {pathText, valueAt} from "./record.js";

/**
 * The record with the file named in it; of a logger's each probe, to be given its place.
 * @param {FormLike} form
 * @param {Path} path
 * @param {Beside} kept
 */
function withFile(form, path, kept) {
  const record = structuredClone(form.record);
  /** @type {any} */
  let at = record;
  for (const key of path.slice(0, -1)) at = at[key] = typeof at[key] === "object" ? at[key] : {};
  at[String(path.at(-1))] = kept.file;
  if (kept.probes.length) at.probes = Object.fromEntries(kept.probes.map((name) => [name, at.probes?.[name] ?? ""]));
  return record;
}

/**
 * @param {FormLike} form
 * @param {Path} path
 * @param {"photo" | "log"} as
 * @param {HTMLElement} name the field with the file's name
 * @param {string} label
 */
export function besideZone(form, path, as, name, label) {
  const trouble = make("p", {class: "fault beside-fault", role: "alert", hidden: true});
  /** @param {File} file */
  const take = async (file) => {
    trouble.hidden = true;
    try {
      /** @type {Beside} */
      const kept = await sendFile("/api/beside", {as, file: file.name, on: valueAt(form.record, ["visit", "date"]) ?? ""}, file);
      form.replace(withFile(form, path, kept));
      tell(word("beside.kept"));
      const again = document.querySelector(`[data-path="${pathText(path)}"] input[type="file"]`);
      if (again instanceof HTMLElement) again.focus();
    } catch (error) {
      trouble.textContent = refusalText(error);
      trouble.hidden = false;
    }
  };
  const input = make("input", {type: "file", accept: as === "photo" ? "image/jpeg,image/png" : ".csv,.txt,.tsv,text/csv,text/plain",
    "aria-label": `${word(`beside.${as}`)}: ${label}`});
  return dropZone({class: "beside", input, take}, name, make("span", {class: "hint"}, word(`beside.${as}`)), input, trouble);
}
