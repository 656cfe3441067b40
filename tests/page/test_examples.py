#!/usr/bin/env python3
"""Each example sheet, on both papers and in both languages, keeps to the conditions of PDF/UA-1 and PDF/A-2a that the checker knows, stays
below 120 kB, and a checkout sheet on A4 keeps to two pages, signed or not.

    test_examples.py PROGRAM
"""
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(sys.argv.pop(1)).resolve()
sys.path.insert(0, str(ROOT / "tests/page/conformance"))

import pikepdf  # noqa: E402
from check_pdf import broken  # noqa: E402

DAY = ["--today", "2026-11-30"]
VISITS = sorted((ROOT / "templates/visits").glob("*.yaml"))
MOST_BYTES = 120_000


class Examples(unittest.TestCase):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp())
        self.addCleanup(shutil.rmtree, self.folder)

    def sheet(self, visit, *words):
        out = self.folder / "sheet.pdf"
        subprocess.run([PROGRAM, "sheet", visit, "-o", out, *DAY, *words], check=True, capture_output=True)
        return out

    def test_standards(self):
        for visit in VISITS:
            for paper in ("a4", "letter"):
                for language in ("en", "es"):
                    with self.subTest(f"{visit.stem} {paper} {language}"):
                        out = self.sheet(visit, "--paper", paper, "--language", language)
                        self.assertEqual(broken(out), {})
                        self.assertLessEqual(out.stat().st_size, MOST_BYTES)

    def test_two_pages(self):
        checkouts = [visit for visit in VISITS if "kind: checkout" in visit.read_text()]
        self.assertGreaterEqual(len(checkouts), 3)
        for visit in checkouts:
            signed = self.folder / visit.name
            shutil.copy(visit, signed)
            subprocess.run([PROGRAM, "approve", signed, "--by", "Dr Ines Calder", *DAY], check=True, capture_output=True)
            for record in (visit, signed):
                with pikepdf.open(self.sheet(record, "--paper", "a4")) as pdf:
                    self.assertEqual(len(pdf.pages), 2, record)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
