#!/usr/bin/env python3
"""What was composed is what another program reads in the PDF: every sentence of the document, and every number that an owner
acts on, converted here by the test's own arithmetic."""
import json
import math
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path


sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402
from languages import LANGUAGES  # noqa: E402

PROGRAM, WRITE_PLAIN = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-20"
SENTENCE = r"(?<=[.!?])\s+|\n"
VISITS = sorted((ROOT / "templates/visits").glob("*.yaml"))


def letters(text):
    return re.sub(r"[\W_]+", "", text)


def is_there(sentence, pages):
    """Whole, or in a column that goes on over a page break in two parts that stand whole."""
    wanted = letters(sentence)
    return wanted in pages or any(wanted[:k] in pages and wanted[k:] in pages for k in range(1, len(wanted)))


class Text(unittest.TestCase):
    def read(self, visit, *words):
        with tempfile.TemporaryDirectory() as folder:
            out = Path(folder) / "sheet.pdf"
            done = subprocess.run([PROGRAM, "sheet", visit, "--today", TODAY, "-o", out, *words], capture_output=True, cwd=ROOT)
            self.assertEqual(done.returncode, 0, done.stderr.decode())
            text = subprocess.run(["pdftotext", "-raw", out, "-"], capture_output=True, text=True, check=True).stdout
        # running heads and page numbers stand between the pages of a sentence that goes on
        pages = [page.splitlines() for page in text.rstrip("\f").split("\f")]
        running = [line for line in pages[0][:4] + pages[0][-1:] if all(line in page for page in pages)] if len(pages) > 1 else []
        return "\n".join(line for place, page in enumerate(pages) for line in page if (place == 0 or line not in running) and not re.search(r"\b(page|página) \d+ (of|de|sur) \d+$", line))

    def test_every_sentence_comes_back(self):
        for visit in VISITS:
            for language in LANGUAGES:
                done = subprocess.run([WRITE_PLAIN, ROOT, visit, TODAY, language], capture_output=True, text=True)
                self.assertEqual(done.returncode, 0, done.stderr)
                pages = self.read(visit, "--language", language)
                got = letters(pages)
                sentences = [s for s in re.split(SENTENCE, done.stdout) if letters(s)]
                self.assertGreater(len(sentences), 60)
                # the key to the drawing's signs gives way to the drawing
                key = read_yaml((ROOT / f"templates/wording/{language}/wall.yaml").read_text(encoding="utf-8"))["wall.box.key"]
                lost = [s for s in sentences if not is_there(s, got) and letters(s) != letters(key)]
                # a page that is full leaves these out as wholes, and nothing else
                for section in ("normal-here", "notes", "words"):
                    whole = [s for s in self.sentences(visit, TODAY, language, "whole", section)]
                    # a sentence of it that stands elsewhere too is not lost
                    if whole and whole[0] in lost and all(s in lost or done.stdout.count(s.rstrip(".")) > 1 for s in whole):
                        lost = [s for s in lost if s not in whole]
                self.assertEqual(lost, [], f"{visit.name} {language}")

    def plain(self, *words):
        return subprocess.run([WRITE_PLAIN, ROOT, *words], capture_output=True, text=True, check=True).stdout

    def sentences(self, *words):
        return [s for s in re.split(SENTENCE, self.plain(*words)) if letters(s)]

    def test_in_brief_only_the_sections_of_the_list_say_less(self):
        """A checkout sheet that would take a third page: what stands in any section that is not in the template's list stands whole."""
        brief = read_yaml((ROOT / "templates/sheets/checkout.yaml").read_text())["in-brief"]
        shorter = 0
        for visit in VISITS:
            for language in LANGUAGES:
                laid, whole = (self.sentences(visit, TODAY, language, *more) for more in ((), ("whole",)))
                may_go = {s for section in brief for s in self.sentences(visit, TODAY, language, "whole", section)}
                # a row that moves to page two takes its number and its line to write on with it, and the message names page one's rows
                notes = read_yaml((ROOT / f"templates/wording/{language}/wall.yaml").read_text())
                may_go |= {f"{n}." for n in range(1, 4)} | {f"{words}." for key, words in notes.items() if key.startswith("wall.write.")}
                may_go |= set(self.sentences(visit, TODAY, language, "whole", "main-message"))
                there = letters("".join(laid))
                self.assertEqual([s for s in whole if letters(s) not in there and s not in may_go], [], f"{visit.name} {language}")
                shorter += laid != whole
        self.assertGreater(shorter, 0)

    def test_the_weight_chart_shows_no_weighing_that_cannot_be_right(self):
        """A slip of 14 kg (the sheet bounds the species by 4000 g) is put to review; it must not stand on the owner's sheet."""
        text = (ROOT / "templates/visits/biscuit-ball-python.yaml").read_text()
        slip = text.replace("  earlier:\n", "  earlier:\n    - {on: 2025-09-01, mass: 14 kg}\n").replace("units: us", "units: metric").replace("kind: checkout", "kind: email")
        self.assertNotEqual(text, slip)
        with tempfile.TemporaryDirectory() as folder:
            visit = Path(folder) / "slip.yaml"
            visit.write_text(slip)
            drawn = re.sub(r"\s+", " ", self.read(visit))
        self.assertIn("1740 g", drawn)
        self.assertNotRegex(drawn, r"\b14 ?kg|14[ ,.]?000 g|1 Sept? 2025")

    def test_every_number_to_aim_for_comes_back(self):
        for visit in VISITS:
            for units in ("metric", "us"):
                done = subprocess.run([PROGRAM, "explain", "--json", visit, "--today", TODAY], capture_output=True, cwd=ROOT)
                plan = json.loads(done.stdout)
                text = re.sub(r"\s+", " ", self.read(visit, "--units", units, "--language", "en"))
                for wanted in self.numbers(plan, units, "kind: checkout" in visit.read_text()):
                    self.assertTrue(wanted in text, f"{wanted} in {visit.name} {units}")

    @staticmethod
    def length(cm, us, way):
        """Half inches and whole centimetres from ten on; `way` rounds."""
        if not us:
            return f"{way(cm):g}"
        half = way(cm / 2.54 * 2) / 2
        return f"{int(half)}{'½' if half % 1 else ''}"

    def numbers(self, plan, units, hangs):
        """Bands of temperature are rounded as readings are, so that a reading at an end shows the end's number. UV index and percent as they are. A sheet that hangs at the box shows
        the whole band of heights where the lamp hangs well, and no UV index: an owner has a tape, not a meter."""
        us = units == "us"
        for zone in plan["temperature"]:
            low, high = zone["target"]
            if us:
                low, high = (math.floor(end * 9 / 5 + 32.5) for end in (low, high))
            yield f"{low:g}–{high:g} °{'F' if us else 'C'}"
        if plan["humidity"] and plan["humidity"]["target"]:
            low, high = plan["humidity"]["target"]
            yield f"{low:g}–{high:g} %"
        uvb = plan["uvb"]
        # the distance for an overdue lamp is not printed: a new one is stronger
        is_overdue = uvb and uvb["lamp_due"] is not None and uvb["lamp_due"] <= plan["dates"][0]["on"]
        unit, distance = "in" if us else "cm", uvb and uvb["distance"]
        if uvb and distance["recommended_cm"] is not None and not is_overdue:
            if hangs and uvb["change_cm"] == 0:
                low, high = (self.length(distance[key], us, way) for key, way in (("nearest_cm", math.ceil), ("farthest_cm", math.floor)))
                yield f"{low}–{high} {unit}"
            else:
                yield f"{self.length(distance['recommended_cm'], us, lambda x: math.floor(x + 0.5))} {unit}"
            if not hangs:
                low, high = uvb["uvi_target"]
                yield f"{low:g}–{high:g}"
        months = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()
        # who eats every day is told so instead of dates
        for day in plan["feeding"]["next"][:0 if plan["feeding"]["every_days"][1] == 1 else 3]:
            year, month, date = map(int, day.split("-"))
            yield f"{date} {months[month - 1]}"
        for about in plan["dates"]:
            if about["what"] in ("recheck", "lamp-change"):
                year, month, date = map(int, about["on"].split("-"))
                yield f"{date} {months[month - 1]}"


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
