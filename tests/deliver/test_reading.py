#!/usr/bin/env python3
"""Reading ease of every example sheet: Debian's `style` (package diction) and our own counter say grade 6 or less (AMA and patient-education
reviews ask for 4th to 6th grade)."""
import re
import shutil
import subprocess
import sys
import unittest
from pathlib import Path

PROGRAM, WRITE_PLAIN = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
ROOT = Path(__file__).resolve().parents[2]
GRADE, EASE = 6.0, 70.0
VISITS = sorted((ROOT / "templates/visits").glob("*.yaml"))


class Reading(unittest.TestCase):
    def test_style_agrees_that_the_sheets_are_easy(self):
        if not shutil.which("style"):
            self.skipTest("Debian's package diction is not installed")
        own = subprocess.run([PROGRAM, "check", ".", "--today", "2026-03-20"], capture_output=True, text=True, cwd=ROOT)
        self.assertEqual(own.returncode, 0, own.stderr)
        for visit in VISITS:
            text = subprocess.run([WRITE_PLAIN, ROOT, visit, "2026-03-20", "en"], capture_output=True, text=True, check=True).stdout
            said = subprocess.run(["style"], input=text, capture_output=True, text=True).stdout
            grade = float(re.search(r"Kincaid: (-?[\d.]+)", said).group(1))
            ease = float(re.search(r"Flesch Index: (-?[\d.]+)", said).group(1))
            ours = float(re.search(rf"(?s)/{visit.name}: .*?the whole sheet +en +(-?[\d.]+)", own.stdout).group(1))
            print(f"{visit.stem}: style {grade}, ours {ours}, Flesch ease {ease}", file=sys.stderr)
            self.assertLessEqual(grade, GRADE)
            self.assertLessEqual(ours, GRADE)
            self.assertGreaterEqual(ease, EASE)
            self.assertAlmostEqual(grade, ours, delta=1.5)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=1)
