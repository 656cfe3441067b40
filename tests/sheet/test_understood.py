#!/usr/bin/env python3
"""What readers who were no makers misread on page one, each held so that it stays mended: whose number is called at night, what is the main
message, how far heat goes up, how far a lamp hangs today, what the signs mean. Scored with PEMAT-P (AHRQ) and the CDC Clear Communication
Index, both from memory: items 3, 6 and 25 of the one, 1, 15 and 16 of the other. Numbers of species sheets are read from the sheets.

    test_understood.py PROGRAM
"""
import html
import json
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv.pop(1)).resolve()
ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests/common"))
from languages import LANGUAGES  # noqa: E402
from read_yaml import read_yaml  # noqa: E402

TODAY = "2026-03-20"
PAPERS = {"a4": 595.28, "letter": 612}
CASES = sorted((ROOT / "tests/sheet/cases").glob("*.yaml"))
CLINIC = ROOT / "tests/common/config/baskleaf/clinic.yaml"
WORDS = {lang: read_yaml((ROOT / f"templates/wording/{lang}/wall.yaml").read_text(encoding="utf-8")) for lang in LANGUAGES}


def page_of(record, words, *how):
    source = {"input": json.dumps(record).encode()} if isinstance(record, dict) else {}
    pdf = subprocess.run([PROGRAM, "sheet", "-" if source else record, "-o", "-", "--drafts", "--today", TODAY, *words],
                         capture_output=True, cwd=ROOT, **source)
    assert pdf.returncode == 0, pdf.stderr
    return subprocess.run(["pdftotext", *how, "-l", "1", "-", "-"], input=pdf.stdout, capture_output=True, check=True).stdout.decode().replace("\u00a0", " ")


def boxes(record, *words):
    """The words of page one with their boxes: (word, left, top, right, bottom)."""
    return [(html.unescape(word), float(x), float(top), float(right), float(bottom)) for x, top, right, bottom, word in
            re.findall(r'xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)<', page_of(record, words, "-bbox"))]


def said_on(record, *words):
    """Page one as it is read."""
    return " ".join(page_of(record, words, "-raw").split())


def home(species, zones, findings=(), **parts):
    return {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Nimbus", "species": species},
            "keeper": {"language": "en", "units": "metric"}, "findings": list(findings), "enclosure": {"readings": zones, "thermostat": True}, **parts}


class Understood(unittest.TestCase):
    maxDiff = 2000

    def test_the_second_number_is_the_one_of_nights(self):
        """Nothing says "closed" beside a number, and the longest usual numbers (ITU-T E.164: fifteen digits) leave the paper and each other alone."""
        long = {"555-0142": "+44 20 7946 0958", "555-0199": "+49 1555 5550199"}
        text = CLINIC.read_text()
        for short, number in long.items():
            text = text.replace(f": {short}", f': "{number}"')
        labels = {"en": "Nights and closed days", "es": "De noche y días cerrados", "fr": "La nuit et jours fermés"}
        with tempfile.TemporaryDirectory() as folder:
            own = Path(folder) / "clinic.yaml"
            own.write_text(text)
            for paper, width in PAPERS.items():
                for lang, label in labels.items():
                    for number, more in (("555-0199", ()), (long["555-0199"], ("--clinic", own))):
                        with self.subTest(f"{paper} {lang} {number}"):
                            how = (ROOT / "templates/visits/biscuit-ball-python.yaml", "--paper", paper, "--language", lang, *more)
                            words, said = boxes(*how), said_on(*how)
                            # in the corner of the head and in the bar of the alert
                            self.assertEqual(said.count(f"{label} {number}"), 2, said)
                            self.assertLess(max(word[3] for word in words), width - 17.5)  # what a printer reaches
                            for one in words:
                                for other in words:
                                    apart = one is other or one[3] <= other[1] + 0.6 or other[3] <= one[1] + 0.6
                                    self.assertTrue(apart or one[4] - 3.5 <= other[2] or other[4] - 3.5 <= one[2], (one, other))

    def test_the_message_has_two_sizes(self):
        """What was found and the first step stand large; medicine and the day to come back in a second line, smaller and of 12 points or more."""
        for name, first, second in (("burn-shed-leopard-gecko", "Burn.", "Burn gel."), ("soft-bones-low-chameleon", "Bent", "until"),
                                    ("shell-rot-musk-turtle", "Sore", "Shell")):
            for paper in PAPERS:
                words = boxes(ROOT / f"tests/sheet/cases/{name}.yaml", "--paper", paper, "--language", "en")
                until = next(i for i, word in enumerate(words) if word[0].startswith("Tonight"))
                words = words[:until]
                large = next(word for word in words if word[0].rstrip(".") == first.rstrip("."))
                back = next(word for word in words if word[0] == "home")
                small = [word for word in words if abs((word[4] - word[2]) - (back[4] - back[2])) < 0.1]
                self.assertIn(second.split()[0], [word[0] for word in small], words)
                self.assertGreater(large[4] - large[2], 1.1 * (back[4] - back[2]), words)
                self.assertGreaterEqual(back[4] - back[2], 13)  # a word of 12 pt is 13.4 pt high
                self.assertGreater(back[2], large[2])

    def test_a_well_animal_is_named_with_what_the_sheet_is_for(self):
        for lang, purpose in (("en", "What to do at home until you come back on"), ("es", "Qué hacer en casa hasta que vuelvas el"),
                              ("fr", "Que faire à la maison jusqu'à votre retour le")):
            said = said_on(ROOT / "tests/sheet/cases/goldfish-slider.yaml", "--language", lang)
            self.assertRegex(said, rf"Anchor ?: .{{10,120}}{purpose}")
        said = said_on(ROOT / "templates/visits/biscuit-ball-python.yaml", "--language", "en")
        self.assertRegex(said, r"Biscuit: Above ideal weight\. The box is too cold and too dry\. Tonight warm the basking spot\. What to do at home until you come back on Sat 4 Apr\.")
        # one that is ill too
        self.assertIn("What to do at home until", said_on(ROOT / "tests/sheet/cases/soft-bones-low-chameleon.yaml", "--language", "en"))

    def test_heat_goes_up_to_a_number(self):
        """By day to the limit of the species sheet, where it has one; else, and by night, to the end of the row's own target."""
        python = read_yaml((ROOT / "species-sheets/ball-python.yaml").read_text())["temperature"]
        limit = re.match(r"\d+", python["upper-limit"]["range"])[0]
        zones = {"basking-surface": "27 C", "warm-side": "26 C", "cool-side": "25 C", "night": "18 C"}
        said = said_on(home("ball-python", zones)).split("Nimbus's box")[0].split("The smallest box")[0]
        self.assertIn(f"Never above {limit} °C.", said)
        self.assertNotIn("Stop at", said.split("Keep the night")[0])
        dragon = read_yaml((ROOT / "species-sheets/bearded-dragon.yaml").read_text())["temperature"]
        self.assertNotIn("upper-limit", dragon)
        said = said_on(home("bearded-dragon", {"basking-surface": "35 C", "warm-side": "30 C", "cool-side": "25 C", "night": "18 C"}))
        basking = re.search(r"Warm the basking spot \d+\u2013(\d+) °C now 35 Stop at (\d+) °C\.", said)
        self.assertIsNotNone(basking, said)
        self.assertEqual(basking[1], basking[2])
        # what is cooled has none
        said = said_on(home("ball-python", {"basking-surface": "45 C", "warm-side": "39 C", "cool-side": "27 C"}))
        self.assertNotIn("Never above", said.split("Go now")[0])

    def test_a_lamp_is_as_far_as_it_hangs_today(self):
        """It hangs 32 cm above the back on a perch of 85 cm. On one of its own length, 16 cm, that is 32 + 85 - 16 = 101 cm: not now."""
        for lang in LANGUAGES:
            said = said_on(ROOT / "tests/sheet/cases/soft-bones-low-chameleon.yaml", "--language", lang)
            now = WORDS[lang]["wall.now"]
            self.assertIn(now.replace("{value}", "32 cm"), said)
            self.assertNotIn(now.replace("{value}", "101 cm"), said)
            self.assertIn("101 cm", said)  # the row says what it will be

    def test_a_reading_that_is_off_has_a_step_or_a_word(self):
        """A frog that is kept cool, and a step that the veterinarian struck: the drawing says to ask. A turtle that is warmed in steps
        (8 C today, 25-28 C in three days: 8 + 17/3 = 14 C tonight) is told them in the row, and nobody is asked about the 8 C as well."""
        struck = home("bearded-dragon", {"basking-surface": "40 C", "warm-side": "22 C", "cool-side": "25 C", "night": "22 C"},
                      decisions=[{"action": "warm-warm-side", "strike": "yes", "because": "It is moved tomorrow."}])
        for record, asked, reading, step in ((ROOT / "tests/sheet/cases/chytrid-tree-frog.yaml", True, "22", None), (struck, True, "22", None),
                                             (ROOT / "tests/sheet/cases/ill-at-rest-box-turtle.yaml", False, "8", "14 °C")):
            for lang in LANGUAGES:
                said = said_on(record, "--language", lang)
                self.assertEqual(WORDS[lang]["wall.now-ask"].replace("{value}", reading) in said, asked, (said, lang))
                self.assertTrue(step is None or step in said, (said, lang))

    def test_a_question_mark_is_explained_on_the_same_page(self):
        """However full the page is; without one nothing is explained."""
        seen = set()
        for case in CASES:
            if "kind: checkout" not in case.read_text():
                continue
            for lang, paper in [(lang, paper) for lang in LANGUAGES for paper in PAPERS]:
                said = said_on(case, "--language", lang, "--paper", paper)
                stem = WORDS[lang]["wall.now"].replace("{value}", "")
                asked = re.search(re.escape(stem) + r"[\d.,½]+ ?(%|cm|in|po)? ?\?", said) is not None
                key = re.sub(r"\s+", " ", WORDS[lang]["wall.key.edge"].replace("\u00a0", " "))
                self.assertEqual(key in said, asked, f"{case.stem} {lang} {paper}: {said[:1500]}")
                seen.add((lang, asked))
        self.assertEqual(seen, {(lang, asked) for lang in LANGUAGES for asked in (True, False)})


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
