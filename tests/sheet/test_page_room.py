#!/usr/bin/env python3
"""What page one has room for it says, and a sheet has no more pages than it must: `pages` of its kind, or one more where that is not enough. Which
visits fill a page was seen on paper; that each row has its own reason follows from the rows, which all have one."""
import json
import re
import subprocess
import sys
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-11-29"
WHY = {"en": "Why:", "es": "Por qué:", "fr": "Pourquoi :"}


def pages(kind, findings, language="en", severity="moderate", **parts):
    lamp = {"kind": "lamp", "power": "100 W", "thermostat": False, "guard": False}
    home = {"size": "100 x 50 x 50 cm", "readings": {"warm-side": "24 C", "cool-side": "21 C", "night": "15 C"}, "thermostat": False, "heat": [lamp]}
    visit = {"visit": {"date": TODAY, "kind": kind, "veterinarian": "Dr Ines Calder"}, "keeper": {"language": language}, "enclosure": home,
             "patient": {"name": "Nimbus", "species": "bearded-dragon", "mass": "300 g", "length": "40 cm"},
             "findings": [{"code": code, "severity": severity} for code in findings], "follow-up": {"recheck": "6 days"}, **parts}
    pdf = subprocess.run([PROGRAM, "sheet", "-", "-o", "-", "--today", TODAY], input=json.dumps(visit).encode(), capture_output=True, cwd=ROOT)
    assert pdf.returncode == 0, pdf.stderr
    text = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf.stdout, capture_output=True, check=True).stdout.decode()
    return [" ".join(page.replace("\u00a0", " ").replace("\u202f", " ").split()) for page in text.split("\f")[:-1]]


def pages_of(kind):
    return int(re.search(r"^pages: (\d+)$", (ROOT / f"templates/sheets/{kind}.yaml").read_text(), re.M).group(1))


class PageRoom(unittest.TestCase):
    def test_each_row_of_tonight_says_why(self):
        """Given up while the other pages were tried, or with the message's length before a row moves: said again where there is room."""
        for kind, findings in (("checkout", ["bite-wound"]), ("adoption", ["burn", "dehydrated"])):
            with self.subTest(kind=kind):
                first = pages(kind, findings)[0]
                rows = re.findall(r"(?<=\s)([123]) (?=[A-Z])", first.split("drawn to scale")[0])
                self.assertEqual(rows[:3], ["1", "2", "3"], first)
                self.assertEqual(first.count(WHY["en"]), 3, first)

    def test_the_second_page_is_the_last(self):
        for language in WHY:
            self.assertEqual(len(pages("checkout", ["burn", "dehydrated"], language)), pages_of("checkout"), language)

    def test_lines_close_up_before_another_page_begins(self):
        """A new owner's sheet keeps its pages, and one of seven ills and many medicines is one page longer and not two."""
        for language in WHY:
            self.assertEqual(len(pages("adoption", ["burn"], language)), pages_of("adoption"), language)
        ills = ["burn", "dehydrated", "mites", "soft-jaw", "bite-wound", "gout", "underweight"]
        given = "Give it slowly into the side of the mouth, wait until it has swallowed, and write down the time. Keep it in the fridge."
        for count in (6, 18):
            medicines = [{"name": f"Medicine {chr(65 + i)}", "directions": given} for i in range(count)]
            self.assertLessEqual(len(pages("checkout", ills, severity="severe", medicines=medicines)), pages_of("checkout") + 1, count)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
