#!/usr/bin/env python3
"""What is past is said as past: a limit that is passed, a sign that is there, a weight that falls too fast. Common practice, no source."""
import json
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path


sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402
from languages import LANGUAGES  # noqa: E402

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-16"
WORDS = {lang: {**read_yaml((ROOT / f"templates/wording/{lang}/sheet.yaml").read_text()), **read_yaml((ROOT / f"templates/wording/{lang}/signs.yaml").read_text())}
         for lang in LANGUAGES}


def words(lang="en", species="corn-snake", kind="checkout", **parts):
    visit = {"visit": {"date": TODAY, "kind": kind, "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species, **parts.pop("about", {})},
             "keeper": {"name": "Ana", "language": lang, "units": "metric"}, **parts}
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "sheet.pdf"
        done = subprocess.run([PROGRAM, "sheet", "-", "-o", out, "--today", TODAY], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT)
        assert done.returncode == 0, done.stderr
        return " ".join(subprocess.run(["pdftotext", "-raw", out, "-"], capture_output=True, text=True, check=True).stdout.split())


class Passed(unittest.TestCase):
    maxDiff = 3000

    def both(self, before, after, now, then, **about):
        """`before` is printed of the one visit, `after` of the other, never both."""
        for lang in LANGUAGES:
            first, second = words(lang, **about, **now), words(lang, **about, **then)
            old, new = WORDS[lang][before], WORDS[lang][after]
            old, new = ((text if isinstance(text, str) else text[0]).split("{")[0].strip() or text.split("}")[1].split("{")[0].strip() for text in (old, new))
            self.assertIn(old, first)
            self.assertNotIn(new, first)
            self.assertIn(new, second)
            self.assertNotIn(old, second)

    def test_a_fast_that_is_too_long_already(self):
        self.both("sign.refuses-food-past-limit", "sign.refuses-food-past-limit.worse", {"diet": {"last": "2026-03-10"}}, {"diet": {"last": "2025-06-01"}})

    def test_a_nervous_sign_that_is_there_is_no_news(self):
        """What was found and sent home under treatment is a reason to go only when it gets worse (clinical table: future and past are told apart)."""
        for code, species in (("limp", "axolotl"), ("no-tongue-flick", "ball-python"), ("rolling", "corn-snake"), ("stargazing", "boa-constrictor")):
            found = {"findings": [{"code": code, "severity": "severe", "state": "under-treatment"}]}
            other = {"findings": [{"code": "airway-infection" if species != "axolotl" else "fungus-tufts", "severity": "mild"}]}
            if code in ("no-tongue-flick", "rolling", "stargazing"):  # only the finding itself raises it
                for lang in LANGUAGES:
                    text = words(lang, species=species, **found)
                    self.assertIn(WORDS[lang][f"sign.{code}.worse"], text)
                    self.assertNotIn(WORDS[lang][f"sign.{code}"], text)
            else:
                self.both(f"sign.{code}", f"sign.{code}.worse", other, found, species=species)

    def test_a_stool_that_is_overdue_already(self):
        self.both("sign.no-stool-past-limit", "sign.no-stool-past-limit.worse", {"history": {"stool": "2026-03-12"}}, {"history": {"stool": "2025-06-01"}})

    def test_an_upper_limit_that_is_passed_already(self):
        self.both("sheet.temperature.limit", "sheet.temperature.limit-passed", {"enclosure": {"readings": {"warm-side": "26 C"}}},
                  {"enclosure": {"readings": {"warm-side": "33 C"}}}, species="crested-gecko", kind="email")

    def test_one_missed_meal_is_no_sign_in_a_grown_animal_that_fasts(self):
        """A grown ball python that keeps its weight leaves meals for months (the clinical table); of a young one, one that loses and one of another
        kind a missed meal is told (common practice, no source)."""
        loses = [{"on": "2026-02-16", "mass": "1600 g"}]
        rows = [("ball-python", {"hatched": "2018-05", "mass": "1500 g"}, False), ("ball-python", {"hatched": "2025-11", "mass": "120 g"}, True),
                ("ball-python", {"hatched": "2018-05", "mass": "1500 g", "earlier": loses}, True), ("corn-snake", {"hatched": "2018-05", "mass": "600 g"}, True)]
        for species, about, listed in rows:
            visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species, **about}}
            done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT)
            self.assertEqual("missed-meal" in [one["code"] for one in json.loads(done.stdout)["warnings"]], listed, (species, about))

    def test_a_weight_that_is_below_its_alarm_already(self):
        light = {"mass": "400 g", "earlier": [{"on": "2026-01-16", "mass": "525 g"}, {"on": "2026-02-01", "mass": "522 g"}, {"on": "2026-02-16", "mass": "520 g"}]}
        steady = {"mass": "515 g", "earlier": [{"on": "2026-02-16", "mass": "520 g"}]}
        for lang, sentence in (("en", "which is too fast"), ("es", "Es demasiado rápido"), ("fr", "C'est trop rapide")):
            before, after = words(lang, kind="email", about=steady), words(lang, kind="email", about=light)
            self.assertNotIn(sentence, before)
            self.assertIn(sentence, after)

    def test_shaking_is_a_reason_to_go_in_the_young_and_with_soft_bones(self):
        """The clinical table: today in a calm grown animal, now in the young, the gravid and those with soft bones."""
        def tier(**patient):
            findings = patient.pop("findings", [])
            done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], capture_output=True, text=True, cwd=ROOT, input=json.dumps(
                {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "findings": findings,
                 "patient": {"name": "Fern", "species": "bearded-dragon", "sex": "female", **patient}}))
            return next(one["tier"] for one in json.loads(done.stdout)["warnings"] if one["code"] == "tremor")
        self.assertEqual(tier(hatched="2020-05"), "today")
        self.assertEqual(tier(hatched="2025-11"), "now")
        for code, severity in (("soft-jaw", "mild"), ("bent-bones", "mild"), ("gravid", "mild"), ("tremor", "mild")):
            self.assertEqual(tier(hatched="2020-05", findings=[{"code": code, "severity": severity}]), "now", code)

    def test_the_first_step_of_an_ill_animal_has_its_number(self):
        """What warms it day and night is a variant of another order about the same place, and keeps the number of the place."""
        text = words(species="ball-python", findings=[{"code": "airway-infection", "severity": "moderate"}],
                     enclosure={"size": "120 x 60 x 60 cm", "readings": {"warm-side": "27 C", "night": "22 C"}})
        tonight = text[text.index("Tonight"):text.index("drawn to scale")]
        self.assertIn("Warm the warm side", tonight)
        self.assertIn("30–34", tonight)

    def test_what_has_one_severity_says_none(self):
        """A mild new animal and a mild shed are no findings of anybody."""
        for code, name in (("quarantine-new", "New animal, kept apart"), ("in-shed-now", "About to shed")):
            text = words(findings=[{"code": code, "severity": "mild"}])
            self.assertIn(f"{name}.", text)
            self.assertNotIn(f"{name}, mild", text)

    def test_severity_has_three_words(self):
        self.assertEqual([WORDS["en"][f"severity.{one}"] for one in ("mild", "moderate", "severe")], ["mild", "moderate", "severe"])


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
