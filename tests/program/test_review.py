#!/usr/bin/env python3
"""A clinic reviews a species sheet: from the list of what to confirm to a signed sheet, and what our next sheet opens again."""
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402


PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
DAY = ("--today", "2026-11-27")
BY = ("--by", "Dr Ines Calder")
EDITION = ("--edition", "Handbook of Reptile Care, 2nd edition")
VISIT = "visit: {date: 2026-11-27, kind: adoption, veterinarian: Dr Ines Calder}\npatient: {name: Biscuit, species: ball-python, mass: 1450 g}\n" \
        "keeper: {name: Rosa Lind, language: LANG}\n"


class Review(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.data, self.own = self.folder / "data", self.folder / "own"
        for name in ("templates", "species-sheets"):
            shutil.copytree(ROOT / name, self.data / name)
        self.own.mkdir()
        self.sheet = self.own / "ball-python.yaml"
        self.shipped = self.data / "species-sheets/ball-python.yaml"

    def run_program(self, *words, status=0, env=None):
        done = subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True, cwd=self.folder, timeout=60, env=env)
        self.assertEqual(done.returncode, status, done.stderr)
        return done

    def review(self, *words, status=0, species="ball-python"):
        return self.run_program("review", species, "--data", self.data, "--species-dir", self.own, *DAY, *words, status=status)

    def listed(self, species="ball-python"):
        return json.loads(self.review("--json", species=species).stdout.replace("\N{NO-BREAK SPACE}", " "))

    def value(self, key):
        return next(v for v in self.listed()["values"] if v["key"] == key)

    def change_shipped(self, before, after):
        text = self.shipped.read_text()
        self.assertEqual(text.count(before), 1)
        self.shipped.write_text(text.replace(before, after))

    def visit(self, lang="en"):
        path = self.folder / f"visit-{lang}.yaml"
        if not path.exists():
            path.write_text(VISIT.replace("LANG", lang))
        return path

    def page(self, lang="en"):
        out = self.folder / "sheet.pdf"
        self.run_program("sheet", self.visit(lang), "--data", self.data, "--species-dir", self.own, *DAY, "-o", out, "--replace")
        text = subprocess.run(["pdftotext", "-raw", out, "-"], capture_output=True, text=True, check=True).stdout
        return re.sub(r"\s+", " ", text)

    def explained(self):
        return json.loads(self.run_program("explain", "--json", self.visit(), "--data", self.data, "--species-dir", self.own, *DAY).stdout)

    # ---- the list ------------------------------------------------------------------------------------------------------------------

    def test_order_of_one_species_by_hand(self):
        """Worked out by hand from rules.yaml: too hot at the spot over a burn 99, at both ends 98, a lamp with soft bones 89, a shed in dry air
        78, food that is built up 65, the longest fast 62; what is published comes behind, however harmful (the cool side: both ends too hot 98)."""
        values = self.listed()["values"]
        first = [(v["key"], v["harm"]) for v in values[:4]]
        self.assertEqual(first, [("temperature.basking-surface", 99), ("temperature.warm-side", 98), ("light.ferguson-zone", 89),
                                 ("humidity.in-shed", 78)])
        # a meal's size has three rules and six sentences, two of them beside hay, its interval two and six: the more used first
        self.assertEqual([v["key"] for v in values[4:10]],
                         [f"feeding.stages.{stage}.{what}" for what in ("meal", "every") for stage in ("hatchling", "juvenile", "adult")])
        self.assertEqual([(len(v["rules"]), len(v["sentences"])) for v in values[6:8]], [(3, 6), (2, 6)])
        still_open = [v["open"] for v in values]
        self.assertEqual(still_open, sorted(still_open, reverse=True))
        cool = next(v for v in values if v["key"] == "temperature.cool-side")
        self.assertEqual((cool["open"], cool["trust"], cool["harm"]), (False, "original", 98))

    def test_a_value_says_what_it_is_and_what_it_drives(self):
        """Both units by hand: 32 C = 89.6 F, 34 C = 93.2 F, in whole degrees; the rules that name the basking spot for a snake."""
        basking = self.value("temperature.basking-surface")
        self.assertEqual((basking["metric"], basking["us"]), ("32–34 °C", "90–93 °F"))
        self.assertEqual(basking["trust"], "memory")
        self.assertEqual(basking["disagrees"][0]["metric"], "33 °C")
        self.assertIn("action.cool-basking.do", basking["sentences"])
        for action in ("cool-basking", "warm-basking", "swap-ends"):
            self.assertIn(action, basking["actions"])
        self.assertNotIn("cool-water", basking["actions"])
        self.assertEqual(self.value("size.longest-life")["metric"], "62 years")
        text = self.review().stdout
        self.assertLess(text.index("temperature.basking-surface: 32"), text.index("temperature.warm-side: 30"))
        self.assertIn("published or confirmed\n", text)

    def test_the_text_counts_what_it_lists(self):
        """One of a thing is one, none and many are many; what a value does is said once, however many rules ask for it."""
        singular = 0
        for species in ("ball-python", "axolotl"):
            text, values = self.review(species=species).stdout, {v["key"]: v for v in self.listed(species)["values"]}
            for entry in re.split(r"\n(?= *\d+\. )", text)[1:]:
                key = re.match(r" *\d+\. ([\w.-]+): ", entry).group(1)
                rules, plural_rules, sentences, plural_sentences = re.search(r"(\d+) rule(s?), (\d+) sentence(s?)\n", entry).groups()
                self.assertEqual((int(rules), int(sentences)), (len(values[key]["rules"]), len(values[key]["sentences"])), key)
                self.assertEqual((plural_rules, plural_sentences), ("s" * (rules != "1"), "s" * (sentences != "1")), key)
                singular += (rules == "1") + (sentences == "1")
                for what, count in (("does", None), ("says", int(sentences))):
                    listed = re.search(rf"\n      {what}: (.*)", entry)
                    names = listed.group(1).split(", ") if listed else []
                    self.assertEqual(len(names), len(set(names)), (key, names))
                    self.assertIn(len(names), range(int(rules) + 1) if count is None else [count], key)
                    self.assertEqual(bool(names), int(rules) > 0 if count is None else count > 0, key)
        self.assertGreater(singular, 3)

    def test_the_figure_counts_values_with_a_publication(self):
        """Counted in the sheet itself: every mapping with a range and a trust that is no disagreement, and the least box."""
        def values(node):
            if isinstance(node, dict):
                if "range" in node and "trust" in node:
                    yield node["trust"]
                    return
                for key, below in node.items():
                    yield from values(below)
                if "least-trust" in node:
                    yield node["least-trust"]
            elif isinstance(node, list):
                for below in node:
                    yield from values(below)
        for path in sorted((ROOT / "species-sheets").glob("*.yaml")):
            trusts = list(values(read_yaml(path.read_text())))
            founded = sum(t != "memory" for t in trusts)
            trust = self.listed(path.stem)["trust"]
            self.assertEqual((trust["values"], trust["founded"]), (len(trusts), founded), path.name)
            self.assertEqual(trust["percent"], founded * 100 // len(trusts))
            keys = [v["key"] for v in self.listed(path.stem)["values"]]
            self.assertEqual(len(keys), len(set(keys)), f"{path.name}: a key stands for two values")
        line = next(x for x in self.run_program("species", "ball-python", "--data", self.data).stdout.splitlines())
        self.assertIn(f" {self.listed()['trust']['percent']} % ", line)
        self.assertIn(f"trust {self.listed()['trust']['percent']} %", self.run_program("check", self.shipped).stdout)

    def test_what_a_value_drives_is_checked(self):
        """A rule, a condition or a slot that there is not, and a value without a row."""
        path = self.data / "templates/value-uses.yaml"
        text = path.read_text()
        for before, after, fault in (("rules: [gravid-nest]", "rules: [gravid-nests]", "there is no rule 'gravid-nests'"),
                                     ("slots: [upper-limit]", "slots: [upper-limits]", "no slot '{upper-limits}'"),
                                     ("conditions: [humidity, wall]", "conditions: [humidity, walls]", "'walls' is no key of a rule's 'when'"),
                                     ("  nest.depth: {", "  nest.deep: {", "'nest.depth' of the species sheets has no row")):
            self.assertEqual(text.count(before), 1)
            path.write_text(text.replace(before, after))
            told = self.run_program("check", self.data, *DAY, status=1).stderr
            self.assertIn(fault, told)
            self.assertRegex(told, r"value-uses\.yaml:\d+:\d+: ")
            if "gravid-nests" in fault or "no row" in fault:  # what is read with the other templates stops a sheet too
                self.run_program("sheet", self.visit(), "--data", self.data, *DAY, "-o", self.folder / "none.pdf", status=1)
                self.assertFalse((self.folder / "none.pdf").exists())
        self.run_program("check", ROOT / "templates/value-uses.yaml")

    # ---- from the list to a signed sheet -------------------------------------------------------------------------------------------

    def test_a_session_from_the_list_to_a_signed_sheet(self):
        before = self.listed()["trust"]
        done = self.review(*BY, *EDITION, "--confirm", "temperature.warm-side,feeding.stages.adult.meal", "--set",
                           "temperature.basking-surface=33-35 C; enclosure.least=140 x 70 x 70 cm", "--reason", "what our patients do well at")
        self.assertEqual(done.stdout, f"{self.sheet}\n")
        written = read_yaml(self.sheet.read_text())
        self.assertEqual(written["temperature"]["basking-surface"]["range"], "33-35 C")
        self.assertEqual(written["temperature"]["basking-surface"]["disagrees"][0]["range"], "32-34 C")
        self.assertEqual(written["temperature"]["cool-side"]["range"], "26-28 C")
        self.assertEqual(written["enclosure"]["least"], "140 x 70 x 70 cm")
        self.assertEqual(str(written["reviewed"]["temperature.warm-side"][True]), "2026-11-27")  # YAML 1.1 reads `on` so
        self.assertIn("# - Directive 2010/63/EU", self.sheet.read_text(), "remarks of the shipped sheet stay")
        self.run_program("check", self.sheet)
        after = self.listed()["trust"]
        # the least box was published before: three of the four were left
        self.assertEqual((after["confirmed"], after["left"]), (4, before["left"] - 3))
        self.assertFalse(self.value("temperature.warm-side")["open"])
        plan = self.explained()
        basking = next(z for z in plan["temperature"] if z["zone"] == "basking-surface")
        self.assertEqual(basking["target"], [33, 35])
        self.assertEqual(basking["source"]["confirmed"], {"by": "Dr Ines Calder", "on": "2026-11-27", "edition": EDITION[1]})
        cool = next(z for z in plan["temperature"] if z["zone"] == "cool-side")
        self.assertIsNone(cool["source"]["confirmed"])
        self.assertEqual(plan["species"]["left_to_review"], after["left"])
        self.assertEqual({v["key"] for v in plan["species"]["reviewed"]["values"]},
                         {"temperature.warm-side", "feeding.stages.adult.meal", "temperature.basking-surface", "enclosure.least"})
        self.run_program("approve", self.visit(), *BY, "--data", self.data, "--species-dir", self.own, *DAY)
        self.assertIn("Checked and signed by Dr Ines Calder", self.page())
        # the signature covers the clinic's sheet ...
        self.review(*BY, "--confirm", "humidity.in-shed")
        self.assertNotIn("Checked and signed by Dr Ines Calder", self.page())
        # ... and what it follows of ours
        self.run_program("approve", self.visit(), *BY, "--data", self.data, "--species-dir", self.own, *DAY)
        self.assertIn("Checked and signed by Dr Ines Calder", self.page())
        self.change_shipped("range: 90 days", "range: 80 days")
        self.assertNotIn("Checked and signed by Dr Ines Calder", self.page())

    def test_the_page_says_who_reviewed_and_what_is_left(self):
        self.review(*BY, "--confirm", "temperature.warm-side")
        left = self.listed()["trust"]["left"]
        english, spanish = self.page(), self.page("es")
        self.assertIn("Numbers for this species reviewed by your clinic: Dr Ines Calder, on 27 Nov 2026. "
                      f"{left} numbers are still common practice; your veterinarian decides.", english)
        self.assertIn(f"Datos de esta especie revisados por tu clínica: Dr Ines Calder, el 27 nov 2026. {left} datos siguen siendo práctica común", spanish)
        last = [v["key"] for v in self.listed()["values"] if v["open"]]
        self.review(*BY, "--confirm", ",".join(last[1:]))
        self.assertIn("One number is still common practice", self.page())
        self.assertIn("Un dato sigue siendo práctica común", self.page("es"))
        self.review(*BY, "--confirm", last[0])
        self.assertEqual(self.listed()["trust"]["percent"], 100)
        self.assertNotIn("still common practice", self.page())

    def test_an_owner_never_reads_that_a_value_is_from_memory(self):
        for lang, words, practice in (("en", "memory", "your veterinarian decides"), ("es", "memoria", "decide tu clínica veterinaria")):
            for kind in ("adoption", "email", "checkout", "reading"):
                visit = self.visit(lang)
                visit.write_text(VISIT.replace("LANG", lang).replace("adoption", kind))
                text = self.page(lang)
                self.assertNotIn(words, text.lower())
                self.assertNotIn("memory", text.lower())
                if kind in ("adoption", "email"):
                    self.assertIn(practice, text)
        self.assertIn("memory", self.run_program("explain", self.visit(), "--data", self.data).stdout)

    def test_the_text_says_why_this_value(self):
        """Of each value that says why it was chosen, beside it."""
        text = self.review().stdout.replace("\N{NO-BREAK SPACE}", " ")
        chosen = {v["key"]: v["choice"] for v in self.listed()["values"] if v.get("choice")}
        listed = {m[1]: m[0] for m in re.finditer(r"^ *\d+\. ([\w.-]+): .*(?:\n {6}.*)*", text, re.M)}
        self.assertTrue(set(chosen) & set(listed))
        for key, item in listed.items():
            self.assertEqual(re.findall(r"why this one: (.*)", item), [chosen[key]] if key in chosen else [], key)

    # ---- our next sheet ------------------------------------------------------------------------------------------------------------

    def test_a_change_of_ours_opens_only_what_it_touches(self):
        self.review(*BY, "--confirm", "temperature.warm-side,humidity.in-shed", "--set", "temperature.basking-surface=33-35 C")
        self.change_shipped("range: 30-32 C", "range: 29-31.5 C")
        self.change_shipped("longest-fast-young: {range: 21 days", "longest-fast-young: {range: 20 days")
        trust = self.listed()["trust"]
        self.assertEqual((trust["confirmed"], trust["reopened"]), (2, 1))
        warm = self.value("temperature.warm-side")
        # what was confirmed stays until the veterinarian looks again; ours stands beside it
        self.assertEqual((warm["open"], warm["metric"], warm["confirmed"]["reopened"]), (True, "30–32 °C", True))
        self.assertEqual((warm["confirmed"]["by"], warm["confirmed"]["on"]), ("Dr Ines Calder", "2026-11-27"))
        self.assertEqual(warm["shipped_now"]["metric"], "29–31.5 °C")
        self.assertFalse(self.value("humidity.in-shed")["open"])
        self.assertFalse(self.value("temperature.basking-surface")["open"])
        # what nobody confirmed follows ours
        self.assertEqual(self.value("feeding.longest-fast-young")["metric"], "20 days")
        plan = self.explained()
        self.assertIn("own-sheet-reopened", [r["code"] for r in plan["review"]])
        zone = next(z for z in plan["temperature"] if z["zone"] == "warm-side")
        self.assertEqual((zone["target"], zone["source"]["confirmed"]), ([30, 32], None))
        # looked at again: taken from ours, and settled
        self.review(*BY, "--set", "temperature.warm-side=29-31.5 C")
        warm = self.value("temperature.warm-side")
        self.assertEqual((warm["open"], warm["metric"], warm["trust"]), (False, "29–31.5 °C", "memory"))
        self.assertEqual(self.value("temperature.basking-surface")["metric"], "33–35 °C")

    def test_a_value_that_ours_has_no_more_takes_no_other_with_it(self):
        """The next edition of ours may have dropped what was confirmed: the others stay as the veterinarian confirmed them."""
        self.review(*BY, "--confirm", "humidity.in-shed,temperature.warm-side")
        self.change_shipped("  in-shed: {range: 70-90 %, source: practice, trust: memory}\n", "")
        keys = {v["key"] for v in self.listed()["values"]}
        self.assertIn("temperature.warm-side", keys)
        self.assertFalse(self.value("temperature.warm-side")["open"])
        self.assertNotIn("humidity.in-shed", keys)
        self.page()

    def test_a_confirmed_value_that_ours_has_no_more_is_told_with_its_place(self):
        """Where the sheet is read and where it is written anew, once each; and no more once it has been written without the value."""
        self.review(*BY, "--confirm", "humidity.in-shed,temperature.warm-side")
        self.assertEqual(self.review("--json").stderr, "")
        self.change_shipped("  in-shed: {range: 70-90 %, source: practice, trust: memory}\n", "")
        line = next(n for n, text in enumerate(self.sheet.read_text().split("\n"), 1) if re.match(r"\s+humidity\.in-shed:", text))
        self.assertGreater(line, 1 + self.sheet.read_text().split("\n").index("reviewed:"), "what is named stands under `reviewed`")
        told = re.compile(rf"ball-python\.yaml:{line}:\d+: remark: .*'humidity\.in-shed'.*\[B644\]")
        for done in (self.review("--json"), self.run_program("explain", self.visit(), "--data", self.data, "--species-dir", self.own),
                     self.review(*BY, "--confirm", "temperature.night")):
            self.assertEqual((len(told.findall(done.stderr)), done.stderr.count("B644")), (1, 1), done.stderr)
        self.assertEqual(self.review("--json").stderr, "")
        self.assertFalse(self.value("temperature.warm-side")["open"])

    def test_a_word_of_ours_opens_nothing(self):
        self.review(*BY, "--confirm", "temperature.warm-side")
        self.change_shipped("the day air of the Austrian rule", "The day air of the Austrian rule")
        self.change_shipped("habit: terrestrial", "habit: terrestrial   # mostly")
        self.assertEqual(self.listed()["trust"]["reopened"], 0)
        self.change_shipped("{range: 29-31 C, source: at-law, trust: copy}", "{range: 28-31 C, source: at-law, trust: copy}")
        self.assertEqual(self.listed()["trust"]["reopened"], 1, "a source that disagrees is part of what was judged")

    def test_a_box_is_opened_again_by_each_of_its_sides(self):
        self.review(*BY, "--confirm", "enclosure.least")
        for least in ("135 x 70 x 70 cm", "130 x 75 x 70 cm", "130 x 70 x 75 cm"):
            self.change_shipped("  least: 130 x 70 x 70 cm", f"  least: {least}")
            self.assertEqual(self.listed()["trust"]["reopened"], 1, least)
            self.change_shipped(f"  least: {least}", "  least: 130 x 70 x 70 cm")
            self.assertEqual(self.listed()["trust"]["reopened"], 0)

    def test_a_box_set_to_our_sides_is_ours_again(self):
        """All three of them: a box of one other side is the veterinarian's own."""
        for least in ("135 x 70 x 70 cm", "130 x 75 x 70 cm", "130 x 70 x 75 cm"):
            self.review(*BY, "--set", f"enclosure.least={least}")
            self.assertIn("own-review", self.sheet.read_text(), least)
            self.review(*BY, "--set", "enclosure.least=130 x 70 x 70 cm")
            self.assertNotIn("least-source: own-review", self.sheet.read_text(), least)

    def test_a_box_changed_by_hand_is_no_more_what_was_confirmed(self):
        self.review(*BY, "--confirm", "enclosure.least")
        text = self.sheet.read_text()
        self.assertEqual(self.value("enclosure.least")["confirmed"]["by"], "Dr Ines Calder")
        for least in ("135 x 70 x 70 cm", "130 x 75 x 70 cm", "130 x 70 x 75 cm"):
            self.sheet.write_text(re.sub(r"(?m)^(  least: ).*", rf"\g<1>{least}", text))
            self.assertIn(least, self.sheet.read_text())
            self.assertIsNone(self.value("enclosure.least")["confirmed"], least)

    # ---- what is refused -----------------------------------------------------------------------------------------------------------

    def refused(self, *words, status=1):
        before = self.sheet.read_bytes() if self.sheet.exists() else None
        done = self.review(*BY, *words, status=status)
        self.assertEqual(self.sheet.read_bytes() if self.sheet.exists() else None, before, "nothing may be written")
        self.assertEqual(done.stdout, "")
        return done.stderr

    def test_a_value_that_cannot_be_is_refused(self):
        self.assertIn("above the 35 C of 'upper-limit'", self.refused("--set", "temperature.basking-surface=34-38 C"))
        self.assertIn("below the zone that must be cooler", self.refused("--set", "temperature.warm-side=20-24 C"))
        self.assertIn("write a number with C or F", self.refused("--set", "temperature.warm-side=30-32"))
        self.assertIn("outside what is possible", self.refused("--set", "humidity.range=60-120 %"))
        self.assertIn("outside what is possible here (1 to 4)", self.refused("--set", "light.ferguson-zone=9"))
        self.assertIn("outside what is possible here", self.refused("--set", "enclosure.length-times=90"))
        self.assertIn("plausible", self.refused("--set", "size.adult-mass=9000 g"))
        self.assertIn("did you mean 'temperature.warm-side'", self.refused("--confirm", "temperature.warmside"))
        self.assertIn("write KEY=VALUE", self.refused("--set", "temperature.warm-side"))
        self.review(*BY, "--confirm", "temperature.night")
        self.refused("--confirm", "temperature.warm-side", "--set", "temperature.warm-side=20-24 C")

    def test_a_sheet_of_somebodys_hand_is_not_written_over(self):
        shutil.copy(self.shipped, self.sheet)
        self.assertIn("by hand", self.refused("--confirm", "temperature.warm-side"))
        self.sheet.unlink()
        self.review(*BY, "--confirm", "temperature.warm-side")
        text = self.sheet.read_text()
        self.sheet.write_text(text.replace("range: 26-28 C", "range: 25-28 C"))
        self.assertIn("by hand", self.refused("--confirm", "temperature.night"))
        # it stands as it is, with what was confirmed in it
        self.assertEqual(self.value("temperature.cool-side")["metric"], "25–28 °C")
        self.assertFalse(self.value("temperature.warm-side")["open"])
        self.change_shipped("longest-fast-young: {range: 21 days", "longest-fast-young: {range: 20 days")
        self.assertEqual(self.value("feeding.longest-fast-young")["metric"], "21 days")

    def test_the_command_line_says_what_is_missing(self):
        self.assertIn("--by", self.review("--confirm", "temperature.night", status=2).stderr)
        self.assertIn("--confirm", self.refused(status=2))
        self.assertIn("one line", self.refused("--confirm", "temperature.night", "--edition", "a\nb", status=2))
        self.assertIn("did you mean 'ball-python'", self.review("--json", species="ball-pyton", status=1).stderr)

    def test_the_clinics_own_place_is_found_by_itself(self):
        home = {**os.environ, "XDG_CONFIG_HOME": str(self.folder / "config")}
        path = self.folder / "config/baskleaf/species-sheets/ball-python.yaml"
        done = self.run_program("review", "ball-python", "--data", self.data, *BY, "--confirm", "temperature.night", *DAY, env=home)
        self.assertEqual(done.stdout, f"{path}\n")
        plan = json.loads(self.run_program("explain", "--json", self.visit(), "--data", self.data, *DAY, env=home).stdout)
        self.assertEqual(plan["species"]["reviewed"]["by"], "Dr Ines Calder")
        listed = self.run_program("species", "ball-python", "--data", self.data, env=home).stdout
        self.assertIn("the clinic's own sheet", listed)

    def test_the_same_review_gives_the_same_bytes(self):
        words = (*BY, "--confirm", "temperature.night,humidity.in-shed", "--set", "light.hours-winter=11 h")
        self.review(*words)
        first = self.sheet.read_bytes()
        self.sheet.unlink()
        self.review(*words)
        self.assertEqual(self.sheet.read_bytes(), first)
        self.review(*words)
        self.assertEqual(self.sheet.read_bytes(), first)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
