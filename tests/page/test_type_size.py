#!/usr/bin/env python3
"""How much of a hung sheet is set in 12 points or more, as aids for writing to patients ask of text that everybody must read: over
all cases nine tenths of the letters on average, and four fifths on each."""
import os
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
# pdftohtml enlarges three times at most and rounds its sizes to whole pixels.
ENLARGED, LEAST_PT, A_ROUNDING = 3, 12, 0.4
FONT = re.compile(r'<fontspec id="(\d+)" size="(\d+)"')
TEXT = re.compile(r'<text [^>]*font="(\d+)"[^>]*>(.*?)</text>')


def share_of_large(pdf):
    page = subprocess.run(["pdftohtml", "-xml", "-i", "-stdout", "-zoom", str(ENLARGED), pdf], capture_output=True, text=True, check=True).stdout
    size_pt = {number: int(size) / ENLARGED for number, size in FONT.findall(page)}
    letters = large = 0
    for number, text in TEXT.findall(page):
        count = len(re.sub(r"<[^>]*>|\s", "", text))
        letters += count
        large += count * (size_pt[number] >= LEAST_PT - A_ROUNDING)
    return large / letters


class TypeSize(unittest.TestCase):
    def test_nine_tenths_of_the_letters_are_large(self):
        cases = sorted(case for case in (ROOT / "tests/sheet/cases").glob("*.yaml") if "kind: checkout" in case.read_text())
        with tempfile.TemporaryDirectory() as folder:
            shares = {}
            for case in cases:
                pdf = Path(folder) / f"{case.stem}.pdf"
                subprocess.run([PROGRAM, "sheet", case, "--today", "2026-03-20", "-o", pdf], check=True, cwd=ROOT, stdout=subprocess.DEVNULL,
                               env={**os.environ, "TMPDIR": folder})
                shares[case.stem] = share_of_large(pdf)
        least = min(shares, key=shares.get)
        mean = sum(shares.values()) / len(shares)
        print(f"{mean:.1%} of the letters of {len(shares)} sheets are of 12 pt or more; least: {least}, {shares[least]:.1%}", file=sys.stderr)
        self.assertGreaterEqual(mean, 0.90)
        self.assertGreaterEqual(shares[least], 0.80, least)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
