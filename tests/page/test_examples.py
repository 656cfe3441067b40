#!/usr/bin/env python3
"""Each example sheet, on both papers and in both languages, keeps to the conditions of PDF/UA-1 and PDF/A-2a that the checker knows, stays
below 120 kB and to the sizes of type, and a checkout sheet keeps to two pages.

    test_examples.py PROGRAM
"""
import collections
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(sys.argv.pop(1)).resolve()
sys.path[:0] = [str(ROOT / "tests/page/conformance"), str(ROOT / "tests/common")]
from languages import LANGUAGES  # noqa: E402
from read_yaml import read_yaml  # noqa: E402

import pikepdf  # noqa: E402
from check_pdf import broken  # noqa: E402

DAY = ["--today", "2026-11-30"]
VISITS = sorted((ROOT / "templates/visits").glob("*.yaml"))
MOST_BYTES = 120_000


# common practice of printed sheets for patients, no single source: running text from 12 points, cells from 10, nothing under 9
LEAST_PT = {"/P": 12, "/LBody": 12, "/Lbl": 12, "/TD": 10, "/TH": 10, "/H1": 14, "/H2": 14, "/H3": 14}


def texts(page):
    """The kind of element and the size of each text of a page, in reading order; a span counts as what it stands in."""
    marks, size = [], 0
    for operands, operator in pikepdf.parse_content_stream(page):
        word = str(operator)
        if word in ("BDC", "BMC"):
            kind = str(operands[0])
            marks.append(marks[-1] if kind in ("/Span", "/Link") and marks else kind)
        elif word == "EMC":
            marks.pop()
        elif word == "Tf":
            size = float(operands[1])
        elif word in ("Tj", "TJ"):
            yield marks[-1], size


class Examples(unittest.TestCase):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp())
        self.addCleanup(shutil.rmtree, self.folder)

    def sheet(self, visit, *words):
        out = self.folder / "sheet.pdf"
        subprocess.run([PROGRAM, "sheet", visit, "--replace", "-o", out, *DAY, *words], check=True, capture_output=True)
        return out

    def test_standards(self):
        for visit in VISITS:
            for paper in ("a4", "letter"):
                for language in LANGUAGES:
                    with self.subTest(f"{visit.stem} {paper} {language}"):
                        out = self.sheet(visit, "--paper", paper, "--language", language)
                        self.assertEqual(broken(out), {})
                        self.assertLessEqual(out.stat().st_size, MOST_BYTES)

    def test_sizes(self):
        """Small print is the sources and who signed: paragraphs behind the last list of their page, or a page on which they go on."""
        for visit in VISITS:
            for paper in ("a4", "letter"):
                with self.subTest(f"{visit.stem} {paper}"), pikepdf.open(self.sheet(visit, "--paper", paper)) as pdf:
                    found = [list(texts(page)) for page in pdf.pages]
                    self.assertGreater(sum(map(len, found)), 100)
                    del found[0][:[kind for kind, _ in found[0]].index("/H1")]  # the notice of a draft stands before it
                    goes_on = False
                    for number, page in enumerate(found, 1):
                        last_list = max((i for i, (kind, _) in enumerate(page) if kind in ("/LBody", "/TD")), default=-1 if goes_on else len(page))
                        for i, (kind, size) in enumerate(page):
                            self.assertGreaterEqual(size, 9 if kind == "/P" and i > last_list else LEAST_PT.get(kind, 9),
                                                    f"{kind} {i} of {len(page)} on page {number}")
                        goes_on = ("/P", 9) in page

    def test_two_pages(self):
        """Signed or not on A4; on Letter, which is shorter, signed."""
        checkouts = [visit for visit in VISITS if "kind: checkout" in visit.read_text()]
        self.assertGreaterEqual(len(checkouts), 3)
        for visit in checkouts:
            signed = self.folder / visit.name
            shutil.copy(visit, signed)
            subprocess.run([PROGRAM, "approve", signed, "--by", "Dr Ines Calder", *DAY], check=True, capture_output=True)
            for record, paper in ((visit, "a4"), (signed, "a4"), (signed, "letter")):
                with pikepdf.open(self.sheet(record, "--paper", paper)) as pdf:
                    # the ill dragon has too much to be told for the shorter paper in Spanish
                    self.assertLessEqual(len(pdf.pages), 3 if "ember" in str(record) and paper == "letter" else 2, f"{record} {paper}")

    def test_an_international_number_costs_no_step(self):
        """As ITU-T E.123, 5 writes the number of a country whose own one the clinic has: what page one says is lost from no sheet but what stands where
        there is room (why, what else is wrong at home, what is bold in the drawing, where to call with none at home or when closed, that the first number of the bar
        is the usual one, the line of sources and the place to sign that page two has otherwise), and no page is added."""
        sources = "|".join(read_yaml((ROOT / f"templates/wording/{language}/sheet.yaml").read_text(encoding="utf-8"))["sheet.sources.title"] for language in ("en", "es"))
        bar = "|".join(f"(?<={words['wall.go-now']} ){words['wall.day']}" for words in
                       (read_yaml((ROOT / f"templates/wording/{language}/wall.yaml").read_text(encoding="utf-8")) for language in ("en", "es")))
        roomy = re.compile(r"(Why:|Por qué:) (?:[^.]|[.](?=\d))*[.]( No debe tener[.]| but it must hold none[.])?( No debe tener[.]| El agua caliente [^.]*[.]| Su UVB baja aunque dé luz[.])?|you come back on |que vuelvas |(None at home[?] Call|¿No tienes en casa[?] Llama al) [^.]*[.]|"
                           r"(The box|The water) is too [^.]*[.]|El (terrario|agua) está demasiad[^.]*[.]|The UVB lamp is too old[.]|La lámpara UVB es vieja[.]|(Bold = the aim|Negrita = la meta)[.]|(, o al [+ 0-9-]+ si está cerrado|, or [+ 0-9-]+ when we are closed)|" + bar +
                           rf"|({sources}): [^.]*[.] [^.]*[.]|(Next visit|Próxima visita): .*?Dr Ines Calder")
        # of a row that moved its place to write on, of a reason its second sentence, of a drawing that is smaller that it is enlarged
        also = re.compile(r"Tras 1 hora|After 1 hour|Un cuerpo frío no digiere ni sana[.]|Animal not to scale[.]|Animal fuera de escala[.]")
        numbers = {"555-0142": "+1 201 555 0142", "555-0199": "+1 201 555 0199"}
        clinic = (ROOT / "tests/common/config/baskleaf/clinic.yaml").read_text()
        own = self.folder / "clinic.yaml"
        own.write_text(clinic.replace("telephone: 555-0142", 'telephone: "+1 201 555 0142"').replace("out-of-hours: 555-0199", 'out-of-hours: "+1 201 555 0199"'))
        self.assertEqual(own.read_text().count("+1 201"), 2)

        def shown(record, *words):
            out = self.sheet(record, *words)
            pages = subprocess.run(["pdftotext", "-raw", out, "-"], capture_output=True, text=True, check=True).stdout.replace("\xa0", " ").split("\f")[:-1]
            return [re.sub(r"\s+", " ", page).replace("\u2013 ", "\u2013") for page in pages]  # a dash may end a line

        for visit in (visit for visit in VISITS if "kind: checkout" in visit.read_text()):
            records = []
            for name, more in (("short", ()), ("long", ("--clinic", own))):
                signed = self.folder / f"{name}-{visit.name}"
                shutil.copy(visit, signed)
                subprocess.run([PROGRAM, "approve", signed, "--by", "Dr Ines Calder", *DAY, *more], check=True, capture_output=True)
                records.append(signed)
            for short, long in ((visit, visit), records):
                for paper in ("a4", "letter"):
                    for language in ("en", "es"):
                        with self.subTest(f"{long.name} {paper} {language}"):
                            before = shown(short, "--paper", paper, "--language", language)
                            after = shown(long, "--paper", paper, "--language", language, "--clinic", own)
                            self.assertEqual(len(before), len(after))
                            first = before[0]
                            for number, longer in numbers.items():
                                first = first.replace(number, longer)
                                self.assertIn(longer, after[0])
                            # a row that moves is named on page one and stands on page two; so do dates and cautions where they fit
                            lost = collections.Counter(also.sub("", roomy.sub("", first)).split()) - collections.Counter(" ".join(after).split())
                            self.assertEqual(lost, collections.Counter())

    # several things done at once, medicines with their days: more to be told than two pages of 12 points hold
    LONG_CASES = {"airway-dry-ball-python", "airway-dry-tortoise", "burn-shed-leopard-gecko", "chytrid-tree-frog", "prolapse-replaced-iguana",
                  "shell-rot-musk-turtle", "surgery-veiled-chameleon", "tube-fed-corn-snake"}

    def test_the_ill_keep_to_two_pages(self):
        cases = [case for case in sorted((ROOT / "tests/sheet/cases").glob("*.yaml")) if "kind: checkout" in case.read_text()]
        self.assertGreater(len(cases), 20)
        for case in cases:
            with pikepdf.open(self.sheet(case, "--paper", "a4", "--drafts", "--language", "en")) as pdf:
                self.assertLessEqual(len(pdf.pages), 3 if case.stem in self.LONG_CASES else 2, case.stem)

    def test_an_adoption_packet_has_six_pages(self):
        """Each example as a packet: six, and one more only where the sheet itself has a third page (an animal with much to be told)."""
        for visit in VISITS:
            record = self.folder / visit.name
            record.write_text(re.sub(r"kind: \w+", "kind: adoption", visit.read_text(), count=1))
            for paper in ("a4", "letter"):
                for language in LANGUAGES:
                    with pikepdf.open(self.sheet(record, "--paper", paper, "--language", language)) as pdf:
                        more = visit.name.startswith(("ember", "biscuit", "nube"))
                        self.assertIn(len(pdf.pages), (6, 7) if more else (6,), f"{visit.name} {paper} {language}")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
