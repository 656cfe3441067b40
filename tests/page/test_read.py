#!/usr/bin/env python3
"""The printed page for other eyes: OCR of a 200-dpi one-bit render gives back at least 98 % of the words; poppler and pdf.js read in the
same order; every colour used keeps its contrast (WCAG 2.2: 7:1 for text, 3:1 for lines that mean something)."""
import json
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pikepdf

PROGRAM, NPM_FOLDER = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
ROOT = Path(__file__).resolve().parents[2]
SHEETS = {"biscuit-ball-python": ("en", "eng"), "ember-bearded-dragon": ("es", "spa"), "pebble-leopard-gecko": ("en", "eng"), "juniper-adoption": ("en", "eng")}
PDFJS = "4.10.38"


def letters(text):
    return re.sub(r"[\W_]+", "", text)


def luminance(colour):
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in map(float, colour)]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a, b):
    light, dark = sorted((luminance(a), luminance(b)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


class Read(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = Path(cls.enterClassContext(tempfile.TemporaryDirectory()))
        for name in SHEETS:
            subprocess.run([PROGRAM, "sheet", f"templates/visits/{name}.yaml", "-o", cls.folder / f"{name}.pdf", "--today", "2026-03-20"],
                           check=True, cwd=ROOT, stdout=subprocess.DEVNULL)

    def test_ocr_gives_the_words_back(self):
        if not shutil.which("tesseract"):
            self.skipTest("tesseract (Debian's tesseract-ocr) is not installed")
        known = subprocess.run(["tesseract", "--list-langs"], capture_output=True, text=True).stdout.split()
        for name in ("biscuit-ball-python", "ember-bearded-dragon"):
            language = SHEETS[name][1]
            if language not in known:
                print(f"not read: {name}, tesseract has no '{language}'", file=sys.stderr)
                continue
            pdf = self.folder / f"{name}.pdf"
            wanted, got = Counter(), Counter()
            subprocess.run(["pdftoppm", "-mono", "-r", "200", "-l", "2", pdf, self.folder / name], check=True)
            for number, image in enumerate(sorted(self.folder.glob(f"{name}-*.pbm")), 1):
                said = subprocess.run(["pdftotext", "-f", str(number), "-l", str(number), pdf, "-"], capture_output=True, text=True).stdout
                wanted += Counter(re.findall(r"[^\W\d_]{2,}", said))
                # as a page of columns, and as words anywhere: labels of a drawing and cells of a calendar are no columns
                seen = [subprocess.run(["tesseract", image, "-", "-l", language, "--psm", mode], capture_output=True, text=True).stdout for mode in ("3", "11")]
                page = Counter()
                for text in seen:
                    page |= Counter(re.findall(r"[^\W\d_]{2,}", text))
                got += page
            share = sum((wanted & got).values()) / sum(wanted.values())
            print(f"{name}: {share:.2%} of {sum(wanted.values())} words", file=sys.stderr)
            self.assertGreaterEqual(share, 0.98, (wanted - got).most_common(20))

    def test_two_readers_agree_on_the_order(self):
        if not shutil.which("node") or not shutil.which("npm"):
            self.skipTest("node and npm are not installed")
        package = NPM_FOLDER / "node_modules/pdfjs-dist"
        if not package.exists():
            NPM_FOLDER.mkdir(parents=True, exist_ok=True)
            done = subprocess.run(["npm", "install", "--no-save", "--no-audit", "--no-fund", "--ignore-scripts", "--omit=optional", "--prefix", NPM_FOLDER,
                                   f"pdfjs-dist@{PDFJS}"], capture_output=True, text=True, timeout=90)
            if done.returncode:
                self.skipTest(f"npm could not install pdfjs-dist: {done.stderr.strip().splitlines()[0] if done.stderr.strip() else ''}")
        script = """import {getDocument} from 'PACKAGE/legacy/build/pdf.mjs';
            const doc = await getDocument({url: process.argv[2], verbosity: 0, useSystemFonts: false}).promise;
            const pages = [];
            for (let n = 1; n <= doc.numPages; n++)
                pages.push((await (await doc.getPage(n)).getTextContent()).items.map(i => i.str).join(' '));
            console.log(JSON.stringify(pages));""".replace("PACKAGE", str(package))
        (self.folder / "read.mjs").write_text(script)
        for name in SHEETS:
            pdf = self.folder / f"{name}.pdf"
            theirs = json.loads(subprocess.run(["node", self.folder / "read.mjs", pdf], capture_output=True, text=True, check=True).stdout.splitlines()[-1])
            for number, page in enumerate(theirs, 1):
                ours = subprocess.run(["pdftotext", "-raw", "-f", str(number), "-l", str(number), pdf, "-"], capture_output=True, text=True).stdout
                self.assertEqual(letters(page), letters(ours), f"{name}, page {number}")

    def test_every_colour_keeps_its_contrast(self):
        """WCAG 2 contrast: 7:1 for text on its ground, 3:1 for what is drawn. White letters stand on a solid dark area that was drawn before
        them; white areas and lines only clear the ground for what comes on them."""
        paper = (1, 1, 1)
        for name in SHEETS:
            with pikepdf.open(self.folder / f"{name}.pdf") as pdf:
                for page in pdf.pages:
                    fill = stroke = (0, 0, 0)
                    saved, path, at, areas = [], [], (0.0, 0.0), []
                    texts = lines = 0
                    for operands, operator in pikepdf.parse_content_stream(page):
                        op = str(operator)
                        values = [float(v) for v in operands if isinstance(v, (int, float, Decimal))]
                        if op == "q":
                            saved.append((fill, stroke))
                        elif op == "Q":
                            fill, stroke = saved.pop()
                        elif op in ("rg", "RG"):
                            colour = tuple(round(v, 4) for v in values)
                            fill, stroke = (colour, stroke) if op == "rg" else (fill, colour)
                        elif op in ("g", "G"):
                            colour = (round(values[0], 4),) * 3
                            fill, stroke = (colour, stroke) if op == "g" else (fill, colour)
                        elif op == "re":
                            path += [(values[0], values[1]), (values[0] + values[2], values[1] + values[3])]
                        elif op in ("m", "l", "c"):
                            path += list(zip(values[::2], values[1::2]))
                        elif op == "BT":
                            at = (0.0, 0.0)
                        elif op == "Td":
                            at = (at[0] + values[0], at[1] + values[1])
                        elif op in ("Tj", "TJ", "'"):
                            texts += 1
                            around = [colour for (left, bottom, right, top), colour in areas if left <= at[0] <= right and bottom <= at[1] <= top]
                            ground = around[-1] if around and luminance(fill) > 0.7 else paper
                            for other in [ground] + [c for c in around if luminance(c) > 0.7 and luminance(fill) <= 0.7]:
                                self.assertGreaterEqual(contrast(fill, other), 7, f"{name}: text {fill} on {other} at {at}")
                        if op in ("f", "F", "f*", "B", "b") and path:
                            xs, ys = zip(*path)
                            areas.append(((min(xs), min(ys), max(xs), max(ys)), fill))
                        for colour in [stroke] * (op in ("S", "s", "B", "b")) + [fill] * (op in ("f", "F", "f*", "B", "b")):
                            lines += 1
                            if luminance(colour) <= 0.7:
                                self.assertGreaterEqual(contrast(colour, paper), 3, f"{name}: lines {colour}")
                        if op in ("f", "F", "f*", "B", "b", "S", "s", "n"):
                            path = []
                    self.assertTrue(texts and lines)

    def test_files_stay_small(self):
        for name in SHEETS:
            self.assertLessEqual((self.folder / f"{name}.pdf").stat().st_size, 120_000, name)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
