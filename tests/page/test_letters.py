#!/usr/bin/env python3
"""Everybody's letters on a sheet: names in many scripts keep the conditions of PDF/UA-1 and PDF/A-2a, are read as they were written,
and what cannot be set is told with its place.

    test_letters.py PROGRAM

Where a font's package is missing its script is skipped. What is expected of Arabic is by hand: in the word for 'Muhammad', U+0645 U+062D
U+0645 U+062F, each letter joins the next, so no glyph is the one that the letter has alone (The Unicode Standard 15, 9.2).
"""
import os
import re
import shutil
import subprocess
import sys
import tempfile
import unicodedata
import unittest
from pathlib import Path


ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(sys.argv.pop(1)).resolve()
sys.path.insert(0, str(ROOT / "tests/page/conformance"))

import font_rules  # noqa: E402
from check_pdf import broken  # noqa: E402
from fontTools.ttLib import TTFont  # noqa: E402
from sheet import Sheet  # noqa: E402

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

FONTS = Path("/usr/share/fonts/truetype")
NOTO, DROID = "noto/NotoSans-Regular.ttf", "droid/DroidSansFallbackFull.ttf"
NAMES = {  # script: (a name, the font that has it)
    "Vietnamese": ("Nguyễn Thị Hồng", NOTO),
    "Yoruba": ("Adébáyọ̀", NOTO),
    "Greek with breathings": ("Ἀλέξανδρος", NOTO),
    "Georgian": ("გიორგი", "noto/NotoSansGeorgian-Regular.ttf"),
    "Armenian": ("Ռուբեն", "noto/NotoSansArmenian-Regular.ttf"),
    "Hebrew": ("יעל כהן", "noto/NotoSansHebrew-Regular.ttf"),
    "Arabic": ("محمد", "noto/NotoSansArabic-Regular.ttf"),
    "Devanagari": ("अनिता", "noto/NotoSansDevanagari-Regular.ttf"),
    "Bengali": ("রহিম", "noto/NotoSansBengali-Regular.ttf"),
    "Tamil": ("தமிழ்", "noto/NotoSansTamil-Regular.ttf"),
    "Thai": ("สมชาย", "noto/NotoSansThai-Regular.ttf"),
    "Ethiopic": ("ሰላም", "noto/NotoSansEthiopic-Regular.ttf"),
    "Khmer": ("សុខា", "noto/NotoSansKhmer-Regular.ttf"),
    "Chinese": ("王芳", DROID),
    "Japanese": ("けんた", DROID),
    "Korean": ("김민수", "nanum/NanumGothic.ttf"),
    "Cyrillic": ("Юлия", "liberation/LiberationSans-Regular.ttf"),
}
RECORD = """visit: {date: 2026-03-14, kind: checkout}
patient: {name: "%s", species: ball-python}
keeper: {name: Rosa Lind}
"""
DAY = ["--today", "2026-11-30"]


class Letters(unittest.TestCase):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp())
        self.addCleanup(shutil.rmtree, self.folder)

    def run_on(self, command, name, *words, record=RECORD):
        visit = self.folder / "visit.yaml"
        visit.write_text(record % name, encoding="utf-8")
        return subprocess.run([PROGRAM, command, visit, *words, *DAY], capture_output=True, text=True)

    def sheet(self, name, record=RECORD):
        done = self.run_on("sheet", name, "--replace", "-o", self.folder / "sheet.pdf", record=record)
        self.assertEqual(done.returncode, 0, done.stderr)
        return self.folder / "sheet.pdf", done.stderr

    def need(self, script):
        if not (FONTS / NAMES[script][1]).exists():
            self.skipTest(f"{NAMES[script][1]} is not installed")

    def read(self, pdf):
        """As a reader takes it out of the PDF: in the order of reading, without the marks that it sets around what runs from the right,
        and a lam with its alef as two letters again (U+FEFB, which Unicode takes for both)."""
        shown = subprocess.run(["pdftotext", pdf, "-"], capture_output=True, text=True).stdout
        return re.sub("[\u202a-\u202e]", "", re.sub("[\ufef5-\ufefc]", lambda m: unicodedata.normalize("NFKC", m[0]), shown))

    def test_names_in_every_script(self):
        for script, (name, _) in NAMES.items():
            with self.subTest(script):
                self.need(script)
                out, _ = self.sheet(name)
                self.assertEqual(broken(out), {})
                self.assertIn(name, self.read(out))

    def test_a_sheet_of_all_scripts(self):
        """One sheet with a name in each script, and whatever else is typed: a note, a keeper and an animal of three directions."""
        have = {script: name for script, (name, font) in NAMES.items() if (FONTS / font).exists()}
        if len(have) < 15:
            self.skipTest(f"fonts for {len(have)} scripts alone are installed")
        typed = "Zoe\u0308 10\u202f%% ✓ 1⅓ 🦎"
        record = RECORD.replace("Rosa Lind", have["Hebrew"]) + "message: %s\n" % ", ".join([typed, *have.values()])
        out, _ = self.sheet(have["Arabic"], record=record)
        self.assertEqual(broken(out), {})
        shown = "".join(self.read(out).split())  # a line may end within a name
        for script, name in have.items():
            self.assertIn("".join(name.split()), shown, script)
        self.assertIn("Zoë10%√11/3,", shown)

    def test_points_and_vowels_stop_no_sheet(self):
        """Hebrew with niqqud, Arabic with harakat: marks of Unicode's category Mn, drawn over and under their letters."""
        for script, name in (("Hebrew", "שָׁלוֹם"), ("Arabic", "مُحَمَّد")):
            with self.subTest(script):
                self.need(script)
                self.assertTrue(any(unicodedata.category(letter) == "Mn" for letter in name))
                self.assertEqual(self.run_on("check", name).returncode, 0)
                out, told = self.sheet(name)
                self.assertEqual(broken(out), {})
                self.assertEqual(told.count("no font"), 0, told)

    def test_what_stands_beside_a_name_keeps_its_place(self):
        """The foot names the animal, then the keeper. Unicode Standard Annex 9 would set the second of two Hebrew names to the left of
        the first; isolates keep the sentence in its own direction."""
        self.need("Hebrew")
        out, _ = self.sheet("יעל", record=RECORD.replace("Rosa Lind", "דוד"))
        words = subprocess.run(["pdftotext", "-l", "1", "-bbox", out, "-"], capture_output=True, text=True).stdout
        foot = {}  # the last place of each word
        for x, y, word in re.findall(r'<word xMin="([\d.]+)" yMin="([\d.]+)"[^>]*>([^<]*)<', words):
            foot[word] = (float(y), float(x))
        self.assertAlmostEqual(foot["י"][0], foot["ו"][0], delta=3)
        self.assertLess(foot["י"][1], foot["ו"][1])

    def test_our_own_letters_load_nothing(self):
        """Half of a cold start would go to the module and its libraries."""
        self.need("Hebrew")
        visit, seen = self.folder / "visit.yaml", {}
        for name in ("Zoë Núñez", "Юлия", "יעל"):
            visit.write_text(RECORD % name, encoding="utf-8")
            done = subprocess.run([PROGRAM, "sheet", visit, "--replace", "-o", self.folder / "x.pdf", *DAY], capture_output=True, text=True,
                                  env={**os.environ, "LD_DEBUG": "files"})
            self.assertEqual(done.returncode, 0)
            seen[name] = "baskleaf-letters.so" in done.stderr
        self.assertEqual(seen, {"Zoë Núñez": False, "Юлия": False, "יעל": True})

    def test_arabic_is_joined(self):
        """Four glyphs for four letters, in the order of reading, none as it stands alone."""
        self.need("Arabic")
        name = NAMES["Arabic"][0]
        sheet = Sheet(self.sheet(name)[0])
        [font] = [f for f in font_rules.fonts(sheet) if "Arabic" in f.name and "Bold" not in f.name][:1]
        maps, _ = font_rules.to_unicode(font.item)
        marks = [m for m in sheet.marks if m.operator == "TJ" and m.font is not None and m.font.objgen == font.item.objgen]
        codes = [int.from_bytes(text, "big") for mark in marks for text in mark.text][: len(name)]
        self.assertEqual([maps[code] for code in codes], list(name))
        # the two letters meem have two shapes: at the beginning and in the middle
        self.assertNotEqual(font.glyph_of(codes[0]), font.glyph_of(codes[2]))
        alone = TTFont(FONTS / NAMES["Arabic"][1])
        widths = [alone["hmtx"][alone.getBestCmap()[ord(c)]][0] * 1000 // alone["head"].unitsPerEm for c in name]
        self.assertNotEqual([font.width_of(code) for code in codes], widths)

    def test_accents_written_apart_give_the_same_bytes(self):
        made = {self.sheet(unicodedata.normalize(form, "Zoë Núñez"))[0].read_bytes() for form in ("NFC", "NFD")}
        self.assertEqual(len(made), 1)

    def test_the_same_letters_give_the_same_bytes(self):
        self.need("Hebrew")
        self.assertEqual(self.sheet("יעל כהן")[0].read_bytes(), self.sheet("יעל כהן")[0].read_bytes())

    def test_usual_signs(self):
        """A number and a fraction keep apart; a tick is one of the font's own."""
        out, _ = self.sheet("Kai 1⅓ ✓\u202fX\ufeff")
        shown = subprocess.run(["pdftotext", out, "-"], capture_output=True, text=True).stdout
        self.assertIn("Kai 1 1/3 √ X", shown.replace("\u00a0", " "))

    def test_an_emoji_is_left_out_and_told(self):
        out, told = self.sheet("Biscuit 🦎")
        self.assertRegex(told, r"visit\.yaml:2:17: remark: '🦎' \(U\+1F98E\) is left out")
        self.assertEqual(out.read_bytes(), self.sheet("Biscuit")[0].read_bytes())
        self.assertEqual(self.sheet("Biscuit 🦎, Kai 🦎 🦎")[0].read_bytes(), self.sheet("Biscuit, Kai")[0].read_bytes())
        self.assertRegex(self.run_on("check", "🦎").stderr, r"visit\.yaml:2:17: nothing of '🦎' can be printed")

    def test_what_cannot_be_set_is_told_with_its_place(self):
        """A letter of private use has no meaning and no font."""
        for command, words in (("check", []), ("approve", ["--by", "Dr Ines Calder"]), ("sheet", ["-o", self.folder / "no.pdf"])):
            with self.subTest(command):
                done = self.run_on(command, "Kai \ue123", *words)
                self.assertEqual(done.returncode, 1)
                self.assertRegex(done.stderr, r"visit\.yaml:2:17: no font here has '\ue123' \(U\+E123\).*in-latin")

    def signed_wording(self, name):
        self.assertEqual(self.run_on("approve", name, "--by", "Dr Ines Calder").returncode, 0)
        return read_yaml((self.folder / "visit.yaml").read_text(encoding="utf-8"))["visit"]["signed-off"]["parts"]["wording"]

    def test_a_signature_covers_the_fonts(self):
        """The same wording is signed for all letters of our own font, another one for each font of the machine."""
        for script in ("Hebrew", "Arabic"):
            self.need(script)
        ours = self.signed_wording("Zoë")
        hebrew, arabic = (self.signed_wording(NAMES[script][0]) for script in ("Hebrew", "Arabic"))
        self.assertEqual(self.signed_wording("Юлия"), ours)
        self.assertEqual(self.signed_wording("דוד"), hebrew)
        self.assertEqual(len({ours, hebrew, arabic}), 3)
        self.run_on("approve", NAMES["Hebrew"][0], "--by", "Dr Ines Calder")
        done = subprocess.run([PROGRAM, "sheet", self.folder / "visit.yaml", "-o", self.folder / "signed.pdf", *DAY], capture_output=True, text=True)
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        self.assertNotIn("No veterinarian has signed it", self.read(self.folder / "signed.pdf"))

    def test_there_is_a_way_to_print(self):
        record = RECORD + 'in-latin: [{of: "Kai \ue123", write: Kai Wang}]\n'
        self.assertEqual(self.run_on("check", "Kai \ue123", record=record).returncode, 0)
        out, _ = self.sheet("Kai \ue123", record=record)
        self.assertIn("Kai Wang", subprocess.run(["pdftotext", out, "-"], capture_output=True, text=True).stdout)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
