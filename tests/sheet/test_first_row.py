#!/usr/bin/env python3
"""A head that says what is wrong and not what to do tonight sends its reader to search (PEMAT 11). On each paper, in each language, of each example
its message holds the words that lead and then those of row 1, up to where a title may go on below; and what page one has no room for it names."""
import re
import subprocess
import sys
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-20"
# first words: of an ill animal, and of one that is well; the heading of the rows; what page two has; its heading
WORDS = {"en": (r"(?:First|Tonight):? ", "Tonight", "Also tonight, next pages: ", "Tonight too"),
         "es": (r"(?:Primero|Esta noche):? ", "Esta noche", "También hoy, más adelante: ", "También hoy"),
         "fr": (r"(?:D'abord|Ce soir)(?:,| :)? ", "Ce soir", "Ce soir aussi, plus loin : ", "Ce soir aussi")}


def printed(job):
    case, language, paper = job
    pdf = subprocess.run([PROGRAM, "sheet", case, "-o", "-", "--drafts", "--paper", paper, "--language", language, "--today", TODAY], capture_output=True, cwd=ROOT).stdout
    said = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True, check=True).stdout.decode()
    return job, said.replace("\u00a0", " ").replace("\u202f", " ").split("\f")


class FirstRow(unittest.TestCase):
    def test_the_message_names_the_first_row_and_page_one_what_is_on_page_two(self):
        cases = sorted((ROOT / "tests/sheet/cases").glob("*.yaml")) + sorted((ROOT / "templates/visits").glob("*.yaml"))
        jobs = [(case, language, paper) for case in cases if "kind: checkout" in case.read_text() for language in WORDS for paper in ("a4", "letter")]
        with ThreadPoolExecutor(2) as pool:
            sheets = list(pool.map(printed, jobs))
        seen = later = 0
        for (case, language, paper), pages in sheets:
            first, heading, names, too = WORDS[language]
            row = re.search(rf"^{heading}\b(?:[^\n]*\n){{1,3}}?1\n([^\n]+)\n", pages[0], re.M)
            with self.subTest(case=case.stem, language=language, paper=paper):
                self.assertEqual(bool(re.search(rf"^{too}\b", "\n".join(pages[1:]), re.M)), names in " ".join(pages[0].split()))
                later += names in " ".join(pages[0].split())
                if row:
                    seen += 1
                    title = row[1][0].lower() + row[1][1:]
                    self.assertRegex(" ".join(pages[0][:row.start(1)].split()), first + re.escape(title))
        self.assertGreater(seen, 200)
        self.assertGreater(later, 10)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
