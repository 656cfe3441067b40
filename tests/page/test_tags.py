#!/usr/bin/env python3
"""The finished PDF for those who read it by ear or on a screen, as poppler's pdfinfo takes its structure tree: words at the ends of shown lines
do not glue together (ISO 32000-1, 14.8.2.5), the notice of a draft is the first thing in the tree and stands in the title, and what is mailed
has live links to call and to write (RFC 3966, RFC 6068)."""
import email
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path
from typing import NamedTuple

import pikepdf

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from languages import LANGUAGES  # noqa: E402

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
VISITS = sorted((ROOT / "templates/visits").glob("*.yaml"))
DAY = ("--today", "2026-11-30")


def tree(pdf):
    """The strings of the tree as they stand there, one each marked content; nothing is joined here."""
    said = subprocess.run(["pdfinfo", "-struct-text", pdf], capture_output=True, text=True, check=True).stdout
    return re.findall(r'^ *"(.*)"$', said, re.M)


def pages_fonts(page):
    """font name -> code -> letters, from each font's ToUnicode map."""
    maps = {}
    for name, font in page.Resources.Font.items():
        text = font.ToUnicode.read_bytes().decode("latin-1") if "/ToUnicode" in font else ""
        own = maps[name] = {}
        for block in re.findall(r"beginbf(?:range|char)(.*?)endbf", text, re.S):
            for first, last, letters in re.findall(r"^<(\w{2})>(?:<(\w{2})>)? ?<(\w+)>$", block, re.M):
                start = bytes.fromhex(letters).decode("utf-16-be")
                for step in range(int(last or first, 16) - int(first, 16) + 1):
                    own[int(first, 16) + step] = start[:-1] + chr(ord(start[-1]) + step)
    return maps


class Part(NamedTuple):
    """An element of the tree, or a piece of its content, and what of it is read aloud."""
    type: str
    text: str


def marked_contents(file):
    """(page, mark) -> the letters that stand there; what a span says in their place goes before them (ISO 32000-1, 14.9.4 and 14.9.5)."""
    found = {}
    for page in file.pages:
        codes, font, inside = pages_fonts(page), None, []
        for words, operator in pikepdf.parse_content_stream(page):
            if str(operator) in ("BDC", "BMC"):
                about = words[1] if len(words) > 1 and isinstance(words[1], pikepdf.Dictionary) else {}
                mark = int(about["/MCID"]) if "/MCID" in about else inside[-1][0] if inside else None
                instead = next((str(about[key]) for key in ("/E", "/ActualText") if key in about), None)
                inside.append((mark, instead is not None or bool(inside and inside[-1][1])))
                if mark is not None:
                    found[page.objgen, mark] = found.get((page.objgen, mark), "") + (instead or "")
            elif str(operator) == "EMC":
                inside.pop()
            elif str(operator) == "Tf":
                font = str(words[0])
            elif str(operator) == "Tj" and inside and inside[-1][0] is not None and not inside[-1][1]:
                found[page.objgen, inside[-1][0]] += "".join(codes[font].get(code, "?") for code in bytes(words[0]))
    return found


def read_aloud(pdf):
    """The whole tree in its order: each element before what it holds, the document first."""
    with pikepdf.open(pdf) as file:
        contents = marked_contents(file)

        def walk(element, page):
            page = element.get("/Pg", page)
            kids = element.get("/K", pikepdf.Array([]))
            parts, text = [], ""
            for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
                if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
                    inner = walk(kid, page)
                elif isinstance(kid, pikepdf.Dictionary) and "/MCID" not in kid:
                    continue  # a link's rectangle
                else:
                    of, mark = (kid.get("/Pg", page), kid["/MCID"]) if isinstance(kid, pikepdf.Dictionary) else (page, kid)
                    inner = [Part("content", contents.get((of.objgen, int(mark)), ""))]
                parts += inner
                text += inner[0].text
            kind = str(element["/S"])
            instead = next((str(element[key]) for key in ("/ActualText", "/Alt") if key in element and (key == "/ActualText" or kind == "/Figure")), None)
            if instead is not None:
                parts, text = [], instead
            return [Part(kind, text), *parts]

        root = file.Root.StructTreeRoot.K
        return walk(root[0] if isinstance(root, pikepdf.Array) else root, file.pages[0])


def squares(page, is_graded):
    """How many boxes, 7 to 20 pt high and no wider than two numbers need, are drawn by a line on the page, as content or not; where findings have grades but for those of 8.25 pt."""
    count, path = 0, []
    for words, operator in pikepdf.parse_content_stream(page):
        if str(operator) == "re":
            path.append((float(words[2]), float(words[3])))
        elif str(operator) in ("S", "s", "f", "F", "B", "n"):
            count += str(operator) in ("S", "s") and len(path) == 1 and 7 < abs(path[0][1]) < 20 and -0.08 < abs(path[0][0]) - abs(path[0][1]) < 12 and not (is_graded and abs(abs(path[0][0]) - 8.25) < 0.02)
            path = []
    return count


class Tags(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def sheet(self, visit, *words):
        out = self.folder / f"{visit.stem}.pdf"
        done = subprocess.run([PROGRAM, "sheet", visit, "--replace", "-o", out, *DAY, *words], capture_output=True, text=True)
        self.assertEqual(done.returncode, 0, done.stderr)
        return out

    def test_words_at_line_ends_stay_apart(self):
        """Every word of the tree is a word that the page shows, line by line; only an address breaks inside."""
        for visit in VISITS[:3]:  # pdfinfo takes seconds for each
            for language in LANGUAGES if visit == VISITS[0] else ("en",):
                with self.subTest(f"{visit.stem} {language}"):
                    pdf = self.sheet(visit, "--language", language)
                    shown = subprocess.run(["pdftotext", "-raw", pdf, "-"], capture_output=True, text=True, check=True).stdout
                    known = set(shown.split())
                    words = [word for text in tree(pdf) for word in text.split()]
                    self.assertGreater(len(words), 300)
                    self.assertEqual([word for word in words if word not in known and word.strip(".,;:()") not in shown
                                      and not word.startswith("https://")], [])

    def test_the_notice_of_a_draft_is_read_first(self):
        for visit in VISITS[:2]:
            pdf = self.sheet(visit, "--language", "en")
            first = tree(pdf)[0]
            self.assertTrue(first.startswith("Draft"), first)
            with pikepdf.open(pdf) as file:
                self.assertTrue(str(file.docinfo["/Title"]).startswith("DRAFT: "))
                self.assertIn("DRAFT: ", file.Root.Metadata.read_bytes().decode())
            # once, and no second time on later pages
            self.assertEqual(sum(text.startswith("Draft. Do not use it yet.") for text in tree(pdf)), 1)

    def test_a_line_to_write_on_is_no_row(self):
        """Each row of a table says something: nobody is read an empty one."""
        adoption = ROOT / "templates/visits/juniper-adoption.yaml"
        said = subprocess.run(["pdfinfo", "-struct-text", self.sheet(adoption)], capture_output=True, text=True, check=True).stdout
        rows = re.split(r"^ *TR\b.*$", said, flags=re.M)[1:]
        self.assertGreater(len(rows), 20)
        texts = [" ".join(re.findall(r'^ *"(.*)"$', row, re.M)).replace("\xa0", " ").strip() for row in rows]
        self.assertEqual([text for text in texts if not text], [])

    def test_nothing_is_said_by_strong_type_alone(self):
        """WCAG 2.2, 1.3.1 and 1.4.1: what the eye is told by type the ear is told by words, in each language for the same signs; of an animal with no
        finding no sign is its own."""
        visit, counts = VISITS[0], set()
        well = self.folder / "well.yaml"
        well.write_text("visit: {date: 2026-03-14, kind: email}\npatient: {name: Fern, species: ball-python}\nkeeper: {language: en}\n")
        self.assertNotIn("Watch most:", " ".join(tree(self.sheet(well))))
        for language, words in (("en", "Watch most:"), ("es", "Vigila más:"), ("fr", "À surveiller :")):
            with self.subTest(language):
                text = " ".join(" ".join(tree(self.sheet(visit, "--kind", "email", "--language", language))).replace("\u00a0", " ").split())
                counts.add(text.count(words))
                self.assertNotRegex(text, r"\(bold|negrita|en gras")
        self.assertEqual((len(counts), min(counts) > 0), (1, True))

    def test_a_signed_sheet_has_none(self):
        record = self.folder / "visit.yaml"
        record.write_text(VISITS[0].read_text())
        subprocess.run([PROGRAM, "approve", record, "--by", "Dr Ines Calder", *DAY], check=True, capture_output=True)
        pdf = self.sheet(record)
        self.assertFalse([text for text in tree(pdf) if "raft" in text])
        with pikepdf.open(pdf) as file:
            self.assertNotIn("DRAFT", str(file.docinfo["/Title"]))

    def test_how_urgent_signs_are_is_a_heading_with_a_bookmark(self):
        """Who moves by headings or bookmarks comes to "go now" too; its telephones stay links where links live."""
        biscuit = next(v for v in VISITS if v.stem.startswith("biscuit"))
        for kind, live in (("email", True), ("clinic", False)):
            with pikepdf.open(self.sheet(biscuit, "--kind", kind)) as file, file.open_outline() as outline:
                worry = next(part for top in outline.root for part in top.children if str(part.title) == "When to worry")
                titles = [str(part.title) for part in worry.children]
                self.assertEqual(titles, ["Go now. Call 555-0142, if closed 555-0199", "Call 555-0142 the same day", "Call 555-0142 this week"], kind)
                pages = [note for page in file.pages for note in page.get("/Annots", [])]
                self.assertEqual(sum(str(note.A.URI) == "tel:5550142" for note in pages) >= 3, live, kind)

    def test_what_is_mailed_has_live_links(self):
        for visit in VISITS:
            if "email:" not in visit.read_text():
                continue
            done = subprocess.run([PROGRAM, "mail", visit, "--drafts", "-o", "-", *DAY], capture_output=True)
            self.assertEqual(done.returncode, 0, done.stderr)
            message = email.message_from_bytes(done.stdout)
            part = next(part for part in message.walk() if part.get_content_type() == "application/pdf")
            pdf = self.folder / "mailed.pdf"
            pdf.write_bytes(part.get_payload(decode=True))
            with pikepdf.open(pdf) as file:
                links = {str(note.A.URI) for page in file.pages for note in page.get("/Annots", []) if note.Subtype == "/Link"}
            self.assertLessEqual({"tel:5550142", "tel:5550199", "mailto:desk@fernhollow.example.org", "https://fernhollow.example.org"}, links)
        # on paper nothing can be clicked
        with pikepdf.open(self.sheet(next(v for v in VISITS if "kind: checkout" in v.read_text()))) as file:
            self.assertFalse([note for page in file.pages for note in page.get("/Annots", [])])

    def spans(self, pdf, key):
        """What each span inside an element's marked content says under this key, with the letters it stands round, page by page."""
        found = []
        with pikepdf.open(pdf) as file:
            for page in file.pages:
                codes = pages_fonts(page)
                inside, text, font = None, "", None
                for words, operator in pikepdf.parse_content_stream(page):
                    if str(operator) == "BDC" and str(words[0]) == "/Span" and key in words[1]:
                        inside, text = str(words[1][key]), ""
                    elif str(operator) == "Tf":
                        font = str(words[0])
                    elif str(operator) == "Tj" and inside is not None:
                        text += "".join(codes[font].get(code, "?") for code in bytes(words[0]))
                    elif str(operator) == "EMC" and inside is not None:
                        found.append((text, inside))
                        inside = None
        return found

    def test_short_forms_say_what_they_are_read_as(self):
        """ISO 32000-1, 14.9.5. The words by hand; one of a thing is not told as many."""
        record = self.folder / "visit.yaml"
        record.write_text("visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines Calder}\npatient: {name: Wed, species: ball-python, mass: 1850 g}\n"
                          "enclosure: {readings: {warm-side: 27 C, cool-side: 26 C, night: 26 C}}\nkeeper: {language: en}\n"
                          "medicines: [{name: Syrup, amount: 1 ml, route: by-mouth, every: 24 h, for: 3 days, first: 2026-03-15, directions: Shake it in March.}]\n")
        for language, wanted in (("en", {("°C", "degrees Celsius"), ("UVB", "ultraviolet B"), ("Dr", "Doctor"), ("Mar", "March"), ("ml", "millilitre")}),
                                 ("es", {("°C", "grados Celsius"), ("UVB", "ultravioleta B"), ("mar", "marzo"), ("ml", "mililitro")}),
                                 ("fr", {("°C", "degrés Celsius"), ("avr", "avril"), ("ml", "millilitre")})):
            with self.subTest(language):
                found = set(self.spans(self.sheet(record, "--language", language), "/E"))
                self.assertLessEqual(wanted, found)
                self.assertNotIn(("ml", "millilitres"), found)
        # an animal's name that is spelled as a weekday is none: that stands before a number
        said = self.spans(self.sheet(record, "--language", "en"), "/E")
        shown = subprocess.run(["pdftotext", "-raw", self.folder / "visit.pdf", "-"], capture_output=True, text=True, check=True).stdout
        self.assertIn("Wed", shown)
        self.assertLessEqual(said.count(("Wed", "Wednesday")), len(re.findall(r"\bWed\s\d", shown)))
        self.assertNotIn("March", [text for text, _ in said])

    def test_who_it_is_and_whose_is_read_aloud(self):
        """What stands in head and foot stands in the tree too, once: who reads by ear learns whose animal it is and where the clinic is."""
        visit = next(v for v in VISITS if v.stem.startswith("biscuit"))
        for kind in ("checkout", "adoption", "email", "clinic", "reading", "large-print"):
            with self.subTest(kind):
                said = " ".join(read_aloud(self.sheet(visit, "--kind", kind, "--language", "en"))[0].text.replace("\u00a0", " ").split())
                for words in ("Fernhollow Animal Clinic, 12 Alder Lane, Millbrook", "555-0142", "555-0199", "Rosa Lind", "Biscuit", "14 March 2026"):
                    self.assertIn(words, said)
                self.assertEqual(said.count("Rosa Lind"), 1)

    def test_a_box_to_tick_is_read_as_one(self):
        """U+2610 "ballot box" for each square that is drawn to be ticked; the squares of how grave a finding is are none."""
        boxes = 0
        for stem, kind in (("biscuit", "checkout"), ("biscuit", "email"), ("juniper", "adoption"), ("pebble", "large-print")):
            for visit in (v for v in VISITS if v.stem.startswith(stem)):
                pdf = self.sheet(visit, "--kind", kind)
                with self.subTest(f"{visit.stem} {kind}"), pikepdf.open(pdf) as file:
                    said = read_aloud(pdf)[0].text
                    self.assertEqual(said.count("\u2610"), sum(squares(page, stem != "juniper") for page in file.pages))
                    boxes += said.count("\u2610")
                    self.assertNotRegex(said, "\u2610\\S")
        self.assertGreater(boxes, 60)

    def test_no_row_and_no_head_of_a_table_is_empty(self):
        for kind in ("checkout", "adoption", "email", "clinic", "reading", "large-print", "phone"):
            parts = read_aloud(self.sheet(next(v for v in VISITS if v.stem.startswith("biscuit")), "--kind", kind))
            with self.subTest(kind):
                self.assertEqual([part for part in parts if part.type in ("/TR", "/TH", "/LI", "/LBody", "/P", "/H1", "/H2") and not part.text.strip()], [])

    def test_no_short_form_is_left_as_it_is(self):
        """Behind a number each unit, and each name of a weekday or a month, is read in full; pictures have words of their own."""
        short = (r"\d[\u00a0 ](?:lb|oz|cm|mm|kg|g|ml|mg|in|ft|gal|l|W|°[CF])(?![\w])", r"°[CF]", r"\b(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)\b(?! to\b)", r"\d[\u00a0 ](?:Jan|Feb|Mar|Apr|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\b",
                 r"\b(?:UVB|LED|PVC)\b", r"\bDr\b")
        for stem, kind, units in (("biscuit", "checkout", "us"), ("biscuit", "clinic", "us"), ("pebble", "email", "metric"), ("juniper", "adoption", "metric"), ("ember", "reading", "us")):
            visit = next(v for v in VISITS if v.stem.startswith(stem))
            said = " ".join(part.text for part in read_aloud(self.sheet(visit, "--kind", kind, "--language", "en", "--units", units)) if part.type == "content")
            with self.subTest(f"{stem} {kind} {units}"):
                self.assertEqual([found.group() for pattern in short for found in re.finditer(pattern, said)], [])

    def test_no_cell_of_a_phone_breaks_a_word(self):
        """Six numbers of water in four columns of a phone's width: no shown line of an element ends inside a word that goes on in the next."""
        axolotl = next(v for v in VISITS if v.stem.startswith("nube"))
        for language in LANGUAGES:
            broken, lines = [], 0
            with pikepdf.open(self.sheet(axolotl, "--kind", "phone", "--language", language)) as file:
                for page in file.pages:
                    codes, font, marks, last, y = pages_fonts(page), None, [], None, 0.0
                    for words, operator in pikepdf.parse_content_stream(page):
                        if str(operator) in ("BDC", "BMC"):
                            about = words[1] if len(words) > 1 and isinstance(words[1], pikepdf.Dictionary) else {}
                            marks.append(int(about["/MCID"]) if "/MCID" in about else marks[-1] if marks else None)
                        elif str(operator) == "EMC":
                            marks.pop()
                        elif str(operator) == "Tf":
                            font = str(words[0])
                        elif str(operator) == "Td":
                            y = float(words[1])
                        elif str(operator) == "Tj":
                            text = "".join(codes[font].get(code, "?") for code in bytes(words[0]))
                            mark = marks[-1] if marks else None
                            if mark is not None and last and last[0] == mark and abs(last[1] - y) > 1:
                                lines += 1
                                if last[2][-1:].isalpha() and text[:1].isalpha():
                                    broken.append(f"{last[2]}|{text}")
                            last = (mark, y, text)
            self.assertEqual((broken, lines > 20), ([], True), language)

    def test_free_texts_have_their_own_language(self):
        """ISO 32000-1, 14.9.2: where the record says it, and only on a sheet in another one."""
        note = "A ring of old skin sits on the tail and wants a careful eye every evening for the next week."
        why = "Her skin needs it."
        record = self.folder / "visit.yaml"
        text = ("visit: {date: 2026-03-14, kind: checkout, notes-in: en}\npatient: {name: Fern, species: ball-python}\n"
                f"findings: [{{code: retained-shed, severity: mild, note: {note}}}]\n"
                "medicines: [{name: Eye drops, directions: One drop in each eye.}]\n"
                f"targets: {{warm-side: 31-33 C, by: Dr Ines Calder, because: {why}}}\n")
        for kind in ("checkout", "email"):
            record.write_text(text.replace("checkout", kind))
            pdf = self.sheet(record, "--language", "es")
            tagged = self.spans(pdf, "/Lang")
            with pikepdf.open(pdf) as file:
                whole = [element for element in file.objects if isinstance(element, pikepdf.Dictionary) and element.get("/S") == "/Span" and element.get("/Lang") == "en"]
            if kind == "email":  # running text has an element of its own, a filled page marks the letters
                self.assertGreaterEqual(len(whole), 2)
            said = "".join(text for text, lang in tagged if lang == "en").replace(" ", "")
            for words in (note, "One drop in each eye.", why) if kind == "checkout" else ():
                self.assertIn(words.replace(" ", ""), said)
            self.assertEqual(self.spans(self.sheet(record, "--language", "en"), "/Lang"), [])
        record.write_text(text.replace(", notes-in: en", ""))
        self.assertEqual(self.spans(self.sheet(record, "--language", "es"), "/Lang"), [])
        record.write_text(text.replace("notes-in: en", "notes-in: in English"))
        done = subprocess.run([PROGRAM, "check", record, *DAY], capture_output=True, text=True)
        self.assertEqual(done.returncode, 1)
        self.assertIn("1:53: visit.notes-in: is not a language tag; write one such as en, es or pt-BR", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
