"""What do readers that we did not write make of the sheet with every kind of block?

    test_layout_file.py WRITE-LAYOUT FONTS-FOLDER

It holds every condition of check_pdf.py on both papers, its text comes out in the order of the
structure, and a 200-dpi one-bit print of it, read by OCR, gives back 98 of 100 words.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections import Counter

from check_pdf import broken

WORDS_SHARE = 0.98  # the project's own aim for a one-bit print
count = 0


def say(ok, what, more=""):
    global count
    count += 1
    print(f"{'ok' if ok else 'not ok'} {count} - {what}")
    if not ok:
        print("# " + str(more).replace("\n", "\n# "))


def run(*command):
    return subprocess.run(command, capture_output=True, text=True)


def words(text):
    """Dashes and quotation marks are one to OCR; what holds no letter or digit is no word."""
    text = re.sub("[\u2010-\u2015]", "-", text)
    return Counter(re.findall(r"[^\W_][^\W_.\-]*(?:[.\-][^\W_]+)*", text))


def check_conditions(writer, fonts, paper):
    path = f"{paper}.pdf"
    done = run(writer, fonts, paper, path)
    say(done.returncode == 0, f"{paper}: is written", done.stderr)
    found = broken(path)
    say(found == {}, f"{paper}: holds every condition", found)
    return path


def check_order(path):
    """Blocks that must come out one after the other, the columns among them."""
    text = " ".join(run("pdftotext", "-raw", path, "-").stdout.split())
    order = ["Care sheet for Pickle", "Change this first", "How warm?", "What to aim for",
             "Basking spot 34\u201336 \u00B0C 29 \u00B0C, too low", "Cool side 24", "How to feed",
             "1. Offer leaves", "\u2022 dandelion", "2. Dust", "Go now", "Call today",
             "Good signs", "leaves from your hand.", "Signs to write down", "The enclosure",
             "Hold the lamp", "Week 1", "Week 8", "Emergency card", "More at",
             "1. The target", "24. The target", "It does not replace a visit"]
    places = [text.find(part) for part in order]
    say(-1 not in places and places == sorted(places), f"{path}: is read in order",
        list(zip(order, places)))


def check_print(path):
    """Tesseract's segmentation 6 takes the page as one block, as these pages are."""
    if shutil.which("tesseract") is None:
        print("# the one-bit print is not read: needs tesseract (Debian: tesseract-ocr)")
        return
    written = words(run("pdftotext", path, "-").stdout)
    run("pdftoppm", "-mono", "-r", "200", path, "print")
    read = Counter()
    for name in sorted(os.listdir(".")):
        if name.startswith("print"):
            read += words(run("tesseract", name, "-", "--psm", "6").stdout)
    lost = written - read
    share = 1 - sum(lost.values()) / sum(written.values())
    say(share >= WORDS_SHARE, f"{path}: {share:.1%} of the words survive one-bit printing", lost)


def main():
    missing = [name for name in ("pdftotext", "pdftoppm") if shutil.which(name) is None]
    if missing:
        print(f"1..0 # SKIP needs {' '.join(missing)} (Debian: poppler-utils)")
        return 0
    writer, fonts = (os.path.abspath(path) for path in sys.argv[1:3])
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        for paper in ("a4", "letter"):
            check_order(check_conditions(writer, fonts, paper))
        check_print("a4.pdf")
        os.chdir("/")
    print(f"1..{count}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
