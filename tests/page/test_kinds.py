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
sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
try:
    import pikepdf
    from read_yaml import read_yaml
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
        found.update(read_yaml(path.read_text()))
    return found


INSTRUCTIONS = read_yaml((ROOT / "templates/instructions.yaml").read_text())["instructions"]


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


class Card(unittest.TestCase):
    """The emergency card, asked for beside a record of another kind. ID-1 of ISO/IEC 7810 is 85.60 x 53.98 mm."""
    FACE = (85.60 / 25.4 * 72, 53.98 / 25.4 * 72)

    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def card(self, record, language, paper="a4", *more):
        pdf = self.folder / "card.pdf"
        day = re.search(r"date: (\S+?),", record.read_text())[1]
        done = subprocess.run([PROGRAM, "sheet", record, "--kind", "card", "--language", language, "--paper", paper, "--replace", "-o", pdf,
                               "--today", day, *more], capture_output=True, text=True)
        self.assertEqual(done.returncode, 0, done.stderr)
        plan = json.loads(subprocess.run([PROGRAM, "explain", "--json", record, "--today", day], capture_output=True, text=True, check=True).stdout)
        return pdf, plan

    def faces(self, pdf):
        """The dashed frame's place, and the words of the left and of the right face in it."""
        with pikepdf.open(pdf) as file:
            self.assertEqual(len(file.pages), 1)
            height = float(file.pages[0].mediabox[3])
            ops = [(str(op), [float(one) for one in args if not isinstance(one, (pikepdf.Name, pikepdf.Array, pikepdf.String, pikepdf.Dictionary))])
                   for args, op in pikepdf.parse_content_stream(file.pages[0])]
        boxes = [args for op, args in ops if op == "re" and abs(args[2] - 2 * self.FACE[0]) < 0.1 and abs(abs(args[3]) - self.FACE[1]) < 0.1]
        self.assertEqual(len(boxes), 1)
        x, y, _, tall = boxes[0]
        top = height - max(y, y + tall)
        words = []
        for side in (0, 1):
            done = subprocess.run(["pdftotext", "-x", str(round(x + side * self.FACE[0])), "-y", str(round(top)), "-W", str(round(self.FACE[0])), "-H",
                                   str(round(self.FACE[1])), "-raw", pdf, "-"], capture_output=True, text=True, check=True).stdout
            words.append(" ".join(done.split()))
        return words

    def test_every_sign_and_both_numbers_stand_on_it(self):
        names = {"en": "English", "es": "español", "fr": "français"}
        seen = 0
        longest = "surgery-veiled-chameleon"
        for number, visit in enumerate(VISITS):
            for turn, language in enumerate(names):
                if turn != number % 3 and visit.stem != longest:
                    continue
                words = words_of(language)
                with self.subTest(visit=visit.stem, language=language):
                    pdf, plan = self.card(visit, language, list(PAPERS)[(number + turn) % 2])
                    self.assertEqual(broken(pdf), {})
                    self.assertGreaterEqual(min(sizes(pdf)), 9)
                    front, back = self.faces(pdf)
                    for wanted in (plan["patient"]["name"], "555-0142", "555-0199", "Fernhollow Animal Clinic", "12 Alder Lane", {"en": "Sat 9", "es": "sáb 9", "fr": "sam 9"}[language], names[language],
                                   words["sheet.draft-mark"]):
                        self.assertIn(wanted, front)
                    for sign in plan["warnings"]:
                        if sign["tier"] != "now" or sign["already"]:
                            continue
                        seen += 1
                        keys = [f"sign.{sign['code']}"] + [one["key"] for one in INSTRUCTIONS.get(f"sign.{sign['code']}", {}).get("variants", [])]
                        said = [words[key + ".card"] for key in keys if key + ".card" in words] or forms(sign["code"], words)
                        self.assertTrue(any("{" in one or one in back for one in said), (said, back))
        self.assertGreater(seen, 150)

    def test_it_is_signed_as_the_visit_is_and_lies_beside_its_sheet(self):
        record = self.folder / "visit.yaml"
        record.write_text(VISITS[0].read_text())
        clinic = self.folder / "clinic.yaml"
        clinic.write_text((ROOT / "templates/clinic.yaml").read_text().replace("invented: yes\n", ""))
        day = re.search(r"date: (\S+?),", record.read_text())[1]
        subprocess.run([PROGRAM, "approve", record, "--by", "Dr Ada Moss", "--clinic", clinic, "--today", day], check=True, capture_output=True)
        front, _ = self.faces(self.card(record, "en", "a4", "--clinic", clinic)[0])
        self.assertIn("Checked and signed by Dr Ada Moss", front)
        self.assertNotIn("Draft", front)
        made = [subprocess.run([PROGRAM, "sheet", record, "--data", ROOT, "--today", day, *kind], capture_output=True, text=True, check=True, cwd=self.folder).stdout
                for kind in ((), ("--kind", "card"))]
        self.assertEqual(len({*made}), 2, made)
        self.assertTrue(made[1].strip().endswith(".card.pdf"), made)

    def test_a_kind_that_is_not_there_is_named(self):
        done = subprocess.run([PROGRAM, "sheet", VISITS[0], "--kind", "crad", "-o", "-", "--today", "2026-12-31"], capture_output=True, text=True)
        self.assertEqual(done.returncode, 1)
        self.assertIn("there is no kind of sheet 'crad'; did you mean 'card'?", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
