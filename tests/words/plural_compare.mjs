// Our plural categories against those of the JavaScript engine (ICU), over a grid: for every language that templates/wording has,
// and for languages with more categories, whose rules are quoted from the Unicode CLDR (supplemental/plurals.xml).
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";

const [grid, wording] = process.argv.slice(2);
const rules = {
  fr: { one: "i = 0,1" },
  ru: { one: "v = 0 and i % 10 = 1 and i % 100 != 11", few: "v = 0 and i % 10 = 2..4 and i % 100 != 12..14",
        many: "v = 0 and i % 10 = 0 or v = 0 and i % 10 = 5..9 or v = 0 and i % 100 = 11..14" },
  pl: { one: "i = 1 and v = 0", few: "v = 0 and i % 10 = 2..4 and i % 100 != 12..14",
        many: "v = 0 and i != 1 and i % 10 = 0..1 or v = 0 and i % 10 = 5..9 or v = 0 and i % 100 = 12..14" },
  cs: { one: "i = 1 and v = 0", few: "i = 2..4 and v = 0", many: "v != 0" },
  ar: { zero: "n = 0", one: "n = 1", two: "n = 2", few: "n % 100 = 3..10", many: "n % 100 = 11..99" },
  lv: { zero: "n % 10 = 0 or n % 100 = 11..19 or v = 2 and f % 100 = 11..19",
        one: "n % 10 = 1 and n % 100 != 11 or v = 2 and f % 10 = 1 and f % 100 != 11 or v != 2 and f % 10 = 1" },
  sl: { one: "v = 0 and i % 100 = 1", two: "v = 0 and i % 100 = 2", few: "v = 0 and i % 100 = 3..4 or v != 0" },
  lt: { one: "n % 10 = 1 and n % 100 != 11..19", few: "n % 10 = 2..9 and n % 100 != 11..19", many: "f != 0" },
  cy: { zero: "n = 0", one: "n = 1", two: "n = 2", few: "n = 3", many: "n = 6" },
};
for (const lang of readdirSync(wording)) {
  const text = readFileSync(`${wording}/${lang}/language.yaml`, "utf8");
  rules[lang] = Object.fromEntries([...text.matchAll(/^  (zero|one|two|few|many): (.*)$/gm)].map(([, category, rule]) => [category, rule]));
}
let compared = 0, wrong = 0;
for (const [lang, own] of Object.entries(rules)) {
  const theirs = new Intl.PluralRules(lang);
  if (theirs.resolvedOptions().locale !== lang) {
    console.log(`skipped: this engine knows no plural rules for ${lang}`);
    process.exit(77);
  }
  const words = Object.entries(own).map(([category, rule]) => `${category}=${rule}`);
  for (const line of execFileSync(grid, words, { encoding: "utf8" }).trim().split("\n")) {
    const [number, category] = line.split(" ");
    compared++;
    if (theirs.select(Number(number)) !== category) {
      wrong++;
      console.log(`${lang} ${number}: ours ${category}, theirs ${theirs.select(Number(number))}`);
    }
  }
}
console.log(`${compared} numbers in ${Object.keys(rules).length} languages, ${wrong} differ`);
process.exit(wrong === 0 ? 0 : 1);
