#!/usr/bin/env python3
"""The further kinds of sheet (phone, large print) over examples and cases, in both languages and on both papers: whole, in the right size and order, to the
standards (PDF/UA-1, PDF/A-2a), with every sign to go at once for."""
import json
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent / "conformance"))
try:
    import pikepdf
    import yaml
    from check_pdf import broken
except ImportError as missing:
    print(f"skipped: {missing} (Debian: python3-pikepdf, python3-fonttools, python3-yaml)")
    sys.exit(77)

PROGRAM = Path(sys.argv.pop(1)).resolve()
ROOT = Path(__file__).resolve().parents[2]
VISITS = [*sorted((ROOT / "templates/visits").glob("*.yaml")),
          *(ROOT / f"tests/sheet/cases/{name}.yaml" for name in ("vomiting-thin-ball-python", "warm-ammonia-axolotl", "surgery-veiled-chameleon"))]
PAPERS = {"a4": (595.28, 841.89), "letter": (612, 792)}
# kind: the least size of type (ours: large print is 18 pt or more; the look's own least for the phone), the pages' size where it is not the paper's
KINDS = {"large-print": (18, None), "phone": (9, (240, 520))}


def words_of(language):
    found = {}
    for path in sorted((ROOT / f"templates/wording/{language}").glob("*.yaml")):
        found.update(yaml.safe_load(path.read_text()))
    return found


INSTRUCTIONS = yaml.safe_load((ROOT / "templates/instructions.yaml").read_text())["instructions"]


def forms(code, words):
    """What may be said for a sign: its own words, or those that stand in their place for some animals."""
    keys = [f"sign.{code}"] + [one["key"] for one in INSTRUCTIONS.get(f"sign.{code}", {}).get("variants", []) if "key" in one]
    said = [words[key] for key in keys]
    return [" ".join(one.split()) for some in said for one in (some if isinstance(some, list) else [some])]


def sizes(pdf):
    with pikepdf.open(pdf) as file:
        return [float(operands[1]) for page in file.pages for operands, operator in pikepdf.parse_content_stream(page) if str(operator) == "Tf"]


def flowing(pdf):
    """The words without what stands on every page: what all pages begin and end with."""
    raw = subprocess.run(["pdftotext", "-raw", pdf, "-"], capture_output=True, text=True, check=True).stdout
    pages = [re.sub(r"\d{3}-\d{4}\s+(page|página) \d+ (of|de) \d+\s*$", "", page.strip()).split() for page in raw.split("\f") if page.strip()]
    head = 0
    while len(pages) > 1 and len({tuple(page[:head + 1]) for page in pages}) == 1:
        head += 1
    return " ".join(word for page in pages for word in page[head:])


class Kinds(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def make(self, visit, kind, language, paper):
        record, pdf = self.folder / "visit.yaml", self.folder / "sheet.pdf"
        record.write_text(re.sub(r"kind: \w+", f"kind: {kind}", visit.read_text(), count=1))
        day = re.search(r"date: (\S+?),", record.read_text())[1]
        done = subprocess.run([PROGRAM, "sheet", record, "--language", language, "--paper", paper, "--replace", "-o", pdf, "--today", day], capture_output=True, text=True)
        self.assertEqual(done.returncode, 0, done.stderr)
        plan = json.loads(subprocess.run([PROGRAM, "explain", "--json", record, "--today", day], capture_output=True, text=True, check=True).stdout)
        return pdf, plan

    def test_each_kind_language_and_paper(self):
        for kind, (least_pt, page_size) in KINDS.items():
            for language in ("en", "es"):
                words = words_of(language)
                for paper, paper_size in PAPERS.items():
                    for visit in VISITS:
                        with self.subTest(kind=kind, language=language, paper=paper, visit=visit.stem):
                            pdf, plan = self.make(visit, kind, language, paper)
                            self.assertEqual(broken(pdf), {})
                            self.assertGreaterEqual(min(sizes(pdf)), least_pt)
                            with pikepdf.open(pdf) as file:
                                box = [float(side) for side in file.pages[0].mediabox]
                            for is_side, wanted in zip(box[2:], page_size or paper_size, strict=True):
                                self.assertAlmostEqual(is_side, wanted, 0)
                            text = flowing(pdf)
                            for number in ("555-0142", "555-0199"):
                                self.assertIn(number, text)
                            signs = [sign["code"] for sign in plan["warnings"] if sign["tier"] == "now" and not sign["already"]]
                            self.assertTrue(signs)
                            for code in signs:
                                said = forms(code, words)
                                self.assertTrue(any("{" in one or one in text for one in said), (code, said))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
