#!/usr/bin/env python3
"""Signing a record: the text stays as it was written, and what changes afterwards makes a draft again."""
import json
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402


PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
PEBBLE = (ROOT / "templates/visits/pebble-leopard-gecko.yaml").read_text()
DAY = ("--today", "2026-03-17")
BLOCK = """# first line
visit:   # the visit itself
  date: 2026-03-17   # a Tuesday

  kind: checkout
# between
patient:
  name: Zoë   # two letters, one accent
  species: leopard-gecko
"""
FORMS = {
    "flow": "visit: {date: 2026-03-17, kind: checkout}\npatient: {name: Zoë, species: leopard-gecko}\n",
    "block": BLOCK,
    "block, CRLF": BLOCK.replace("\n", "\r\n"),
    "no last line feed": BLOCK.rstrip("\n"),
    "byte-order mark": "\ufeff" + BLOCK,
    "JSON": json.dumps({"visit": {"date": "2026-03-17", "kind": "checkout"}, "patient": {"name": "Zoë", "species": "leopard-gecko"}}, indent=1),
    "flow over lines": "visit: {\n    date: 2026-03-17,   # day\n    kind: checkout}\npatient: {name: Zoë, species: leopard-gecko}\n",
    "signed by hand": BLOCK.replace("  kind: checkout\n", "  signed-off:\n    by: Dr Old\n    on: 2026-01-02\n  kind: checkout\n"),
    "signed before": BLOCK.replace("  kind: checkout\n", "  signed-off: {by: 'Dr O''Old, }', on: 2026-01-02}   # stays\n  kind: checkout\n"),
}


def run(*words):
    return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, cwd=ROOT, timeout=60)


class Sign(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def write(self, text, name="visit.yaml"):
        path = self.folder / name
        path.write_bytes(text.encode())
        return path

    def sign(self, path, *words, by="Dr Ines Calder"):
        done = run("approve", path, "--by", by, *DAY, *words)
        self.assertEqual(done.returncode, 0, done.stderr.decode())

    def pages(self, path, *words):
        out = self.folder / "sheet.pdf"
        done = run("sheet", path, "-o", out, *DAY, *words)
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        text = subprocess.run(["pdftotext", "-layout", out, "-"], capture_output=True, text=True, check=True).stdout
        return re.sub(r"[ \n]+", " ", text).rstrip("\f").split("\f"), done.stderr.decode()

    def test_what_to_look_at_is_said_before_the_signature(self):
        """`check` says all that `approve` says, word by word, and writes nothing; the step that her own words stand in has its name."""
        frog = {"visit": {"date": "2026-03-17", "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Mo", "species": "horned-frog"}, "enclosure": {"substrate": "gravel"},
                "findings": [{"code": "belly-stool", "severity": "mild"}, {"code": "prolapse", "severity": "moderate", "state": "under-treatment"}], "done-today": ["sutures"]}
        path = self.write(json.dumps(frog))
        before = run("check", path, *DAY).stderr.decode()
        self.assertEqual(json.loads(path.read_text()), frog)
        said = run("approve", path, "--by", "Dr Ines Calder", *DAY).stderr.decode()
        told = [line.split(": ", 1)[1] for line in said.splitlines() if "to look at before signing" in line]
        self.assertGreater(len(told), 2)
        for line in told:
            self.assertIn(line.split("signing: ")[1], before)
        lizard = {**frog, "patient": {"name": "Mo", "species": "veiled-chameleon", "sex": "female"}, "findings": [{"code": "gravid", "severity": "moderate", "step": "nest-searching"}],
                  "done-today": [], "enclosure": {}, "decisions": [{"do": "Give a nest bin with 30 cm of moist soil.", "place": 1}]}
        self.assertRegex(run("check", self.write(json.dumps(lizard)), *DAY).stderr.decode(), "Your own words stand in the step: [a-z ]{5,}\\.")

    def test_the_text_stays_as_it_was_written(self):
        for name, before in FORMS.items():
            with self.subTest(name):
                path = self.write(before)
                self.sign(path)
                after = path.read_bytes().decode()
                signature = read_yaml(after.lstrip("\ufeff"))["visit"]["signed-off"]
                self.assertEqual(signature["by"], "Dr Ines Calder")
                self.assertEqual(str(signature["on"]), "2026-03-17")
                self.assertRegex(signature["digest"], r"^[0-9a-f]{64}$")
                # what is not the signature is there, byte by byte and in order
                rest = re.sub(r'"?signed-off"?: \{"by".*?\}\}(, |\r?\n *)?', "", after, count=1)
                if "signed" in name:
                    self.assertTrue(after.startswith(before[:before.index("  signed-off")]))
                    self.assertTrue(after.endswith(before[before.index("  kind"):]))
                else:
                    self.assertEqual(rest, before)
                pages, _ = self.pages(path)
                self.assertFalse([p for p in pages if "draft" in p.lower()])

    def test_signing_again_changes_nothing_else(self):
        path = self.write(FORMS["block"])
        self.sign(path)
        first = path.read_bytes()
        self.sign(path)
        self.assertEqual(first, path.read_bytes())

    def test_each_part_that_changes_is_named_on_every_page(self):
        data = self.folder / "data"
        for part in ("templates", "species-sheets"):
            shutil.copytree(ROOT / part, data / part)
        clinic = data / "templates/clinic.yaml"
        clinic.write_text(clinic.read_text().replace("invented: yes\n", ""))
        at = ("--data", data, "--clinic", clinic)
        changes = {
            "the visit": None,
            "the species sheet": data / "species-sheets/leopard-gecko.yaml",
            "the rules": data / "templates/findings.yaml",
            "the words": data / "templates/wording/en/signs.yaml",
            "the clinic": data / "templates/clinic.yaml",
        }
        for what, changed in changes.items():
            with self.subTest(what):
                path = self.write(PEBBLE)
                self.sign(path, *at)
                whole, _ = self.pages(path, *at)
                self.assertFalse([p for p in whole if "draft" in p.lower()])
                target = changed or path
                before = target.read_text()
                target.write_text(before + "# a remark\n" if changed else before.replace("68 g", "69 g"))
                pages, said = self.pages(path, *at)
                target.write_text(before)
                for page in pages:
                    self.assertIn(f"Draft again. Dr Ines Calder signed on Tuesday 17 March 2026. Changed since then: {what}.", page)
                self.assertIn("changed since", said)

    def data(self):
        data = self.folder / "data"
        for part in ("templates", "species-sheets"):
            shutil.copytree(ROOT / part, data / part)
        return data

    def is_draft(self, path, *words):
        done = run("mail", path, "-o", "-", *DAY, *words)
        self.assertIn(done.returncode, (0, 1), done.stderr.decode())
        return b"is a draft" in done.stderr

    def test_everything_that_can_change_a_sheet_is_signed(self):
        """The signer, the day, the kind of sheet, the logo, the reference values and the fonts."""
        data = self.data()
        logo = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\1\0\0\0\1\x08\2\0\0\0\x90wS\xde\0\0\0\x0cIDATx\x9cc\xf8\xff\xff?\0\5\xfe\2\xfe\r\xefF\xb8\0\0\0\0IEND\xaeB`\x82"
        (data / "templates/logo.png").write_bytes(logo)
        clinic = data / "templates/clinic.yaml"
        clinic.write_text("logo: logo.png\n" + clinic.read_text().replace("invented: yes\n", ""))
        fonts = next(PROGRAM.parents[1].glob("pdf/fonts"), None) or next(p for p in PROGRAM.parents[1].rglob("fonts") if p.is_dir())
        (data / "fonts").mkdir()
        for file in fonts.glob("*.*"):
            if file.suffix in (".ttf", ".z"):
                shutil.copy(file, data / "fonts")
        at = ("--data", data, "--clinic", clinic)
        path = self.write(PEBBLE)
        self.sign(path, *at)
        self.assertFalse(self.is_draft(path, *at))
        text = path.read_text()
        for before, after in (("Dr Ines Calder\", \"on", "Dr Someone Else\", \"on"), ('"on": "2026-03-17"', '"on": "2026-03-16"')):
            self.assertIn(before, text)
            path.write_text(text.replace(before, after))
            self.assertTrue(self.is_draft(path, *at), after)
        path.write_text(text)
        for name in ("templates/sheets/checkout.yaml", "templates/reference-values.yaml", "templates/foods.yaml", "templates/look.yaml", "templates/warning-signs.yaml"):
            file = data / name
            old = file.read_bytes()
            file.write_bytes(old + b"# a remark\n")
            self.assertTrue(self.is_draft(path, *at), name)
            file.write_bytes(old)
        (data / "templates/logo.png").write_bytes(logo.replace(b"\xff\xff?", b"\xff\xff?") + b"\0")
        self.assertTrue(self.is_draft(path, *at), "logo")
        (data / "templates/logo.png").write_bytes(logo)
        font = data / "fonts/plain-full.ttf"
        old = font.read_bytes()
        font.write_bytes(old[:-1] + bytes([old[-1] ^ 1]))
        self.assertTrue(self.is_draft(path, *at), "font")
        font.write_bytes(old)
        self.assertFalse(self.is_draft(path, *at))

    def test_only_the_words_of_the_sheets_own_language_count(self):
        data = self.data()
        at = ("--data", data)
        path = self.write(PEBBLE)
        self.sign(path, *at)
        words = data / "templates/wording"
        for name, language, draft in (("es/desk.yaml", "en", False), ("en/desk.yaml", "en", False), ("en/desk-topics.yaml", "en", False), ("en/desk-settlements.yaml", "en", False), ("es/desk.yaml", "es", False), ("es/sheet.yaml", "en", False),
                                      ("es/sheet.yaml", "es", True), ("en/sheet.yaml", "en", True), ("en/sheet.yaml", "es", False)):
            file = words / name
            old = file.read_text()
            file.write_text(old + "# a remark\n")
            self.assertEqual(self.is_draft(path, *at, "--language", language), draft, (name, language))
            file.write_text(old)
        # a language that came after the signature was never looked at
        shutil.copytree(words / "es", words / "pt")
        self.assertTrue(self.is_draft(path, *at, "--language", "pt"))
        self.assertFalse(self.is_draft(path, *at, "--language", "es"))

    def test_the_words_that_were_signed_cannot_be_named_afterwards(self):
        data = self.data()
        path = self.write(PEBBLE)
        self.sign(path, "--data", data)
        before = read_yaml(path.read_text())["visit"]["signed-off"]["parts"]["words-en"]
        file = data / "templates/wording/en/sheet.yaml"
        file.write_text(file.read_text() + "# a remark\n")
        other = self.write(PEBBLE, "other.yaml")
        self.sign(other, "--data", data)
        now = read_yaml(other.read_text())["visit"]["signed-off"]["parts"]["words-en"]
        self.assertNotEqual(before, now)
        path.write_text(path.read_text().replace(before, now))
        self.assertTrue(self.is_draft(path, "--data", data))

    def test_who_signed_before_stays_written(self):
        path = self.write(PEBBLE)
        self.sign(path)
        first = read_yaml(path.read_text())["visit"]["signed-off"]
        self.assertNotIn("earlier", first)
        path.write_text(path.read_text().replace("68 g", "69 g"))
        self.sign(path, by="Dr Sam Okafor")
        second = read_yaml(path.read_text())["visit"]["signed-off"]
        self.assertEqual(second["earlier"], [{key: first[key] for key in ("by", "on", "digest")}])
        self.sign(path, by="Dr Ines Calder")
        third = read_yaml(path.read_text())["visit"]["signed-off"]
        self.assertEqual(third["earlier"], [{key: one[key] for key in ("by", "on", "digest")} for one in (second, first)])
        self.assertFalse(self.is_draft(path))

    def test_remarks_in_the_record_do_not_count(self):
        path = self.write(PEBBLE)
        self.sign(path)
        path.write_text("# seen by the desk\n" + path.read_text().replace("kind: checkout", "kind:   checkout"))
        pages, _ = self.pages(path)
        self.assertFalse([p for p in pages if "draft" in p.lower()])

    def test_a_signature_without_digest_is_none(self):
        path = self.write(PEBBLE.replace("visit: {", "visit: {signed-off: {by: Dr Ines Calder, on: 2026-03-17}, "))
        pages, _ = self.pages(path)
        for page in pages:
            self.assertIn("Draft", page)

    def test_refusals_leave_the_record_alone(self):
        bad = PEBBLE.replace("68 g", "68")
        for text, words, status in ((PEBBLE, [], 2), (PEBBLE, ["--by", "  "], 2), (PEBBLE, ["--by", "A\nB"], 2), (bad, ["--by", "Dr A"], 1)):
            path = self.write(text)
            done = run("approve", path, *DAY, *words)
            self.assertEqual(done.returncode, status, done.stderr.decode())
            self.assertEqual(path.read_text(), text)
        self.assertEqual(run("approve", "-", "--by", "Dr A").returncode, 2)

    def test_names_are_quoted(self):
        path = self.write(FORMS["block"])
        name = 'Dr "Quote" O\'Neil: {x} #1 \\ Ñandú'
        self.sign(path, by=name)
        self.assertEqual(read_yaml(path.read_text())["visit"]["signed-off"]["by"], name)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
