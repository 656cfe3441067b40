"""What do readers that we did not write make of a sheet? qpdf and poppler.

    test_read_back.py WRITE-SAMPLE FONTS-FOLDER

The text that went in comes out, in order and as wide as measured; fonts are embedded subsets that
lead back to Unicode; nobody warns; the same operations give the same bytes; files stay small.
Skips everything, with the reason, when a reader is missing.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile

from check_pdf import broken

SIZE_LIMIT_TWO_FONTS = 60_000  # bytes; half of what the project allows itself
SIZE_LIMIT = 120_000
READERS = ("qpdf", "pdffonts", "pdftotext", "pdfinfo", "pdftoppm")
count = 0


def say(ok, what, more=""):
    global count
    count += 1
    print(f"{'ok' if ok else 'not ok'} {count} - {what}")
    if not ok:
        print("# " + str(more).replace("\n", "\n# "))


def run(*command):
    done = subprocess.run(command, capture_output=True, text=True)
    return done.returncode, done.stdout, done.stderr


def squeeze(text):
    return re.sub(r"\s+", "", text)


def read_texts(listing):
    rows = [line.split("\t") for line in listing.splitlines()]
    return [(int(r[0]), float(r[1]), float(r[2]), float(r[3]), float(r[4]), r[5]) for r in rows]


def check_text(path, texts):
    status, out, err = run("pdftotext", "-raw", path, "-")
    say(status == 0 and err == "", f"{path}: poppler reads the text without a warning", err)
    put_in = squeeze("".join(text for *_, text in texts))
    say(squeeze(out) == put_in, f"{path}: the text that went in comes out",
        squeeze(out) + "\n" + put_in)
    lines = " ".join(out.split())
    lost = [text for *_, text in texts if " ".join(text.split()) not in lines]
    say(lost == [], f"{path}: every stretch of text keeps its words apart", lost)


def read_words(path):
    """[(page, left, top, right, bottom)] of every word that poppler sees."""
    _, out, _ = run("pdftotext", "-bbox", path, "-")
    box = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)"')
    return [(number, *(float(value) for value in found))
            for number, page in enumerate(out.split("<page ")[1:], 1)
            for found in box.findall(page)]


def check_widths(path, texts):
    """The last word of a stretch ends where the layout was told that it would."""
    words, wrong, compared = read_words(path), [], 0
    for page, x, y, width, _, text in texts:
        if text.endswith(" "):
            continue  # poppler's boxes leave the space out
        ends = [word[3] for word in words if word[0] == page and word[2] < y < word[4]]
        near = min((abs(end - (x + width)) for end in ends), default=99)
        compared += 1
        if near > 0.07:  # positions stand on a grid of 1/16 pt
            wrong.append((text, width, near))
    say(compared > 15 and wrong == [], f"{path}: measured widths are those of the reader", wrong)


def check_fonts(path, kinds):
    status, out, err = run("pdffonts", path)
    rows = [line.split() for line in out.splitlines()[2:]]
    say(status == 0 and err == "", f"{path}: poppler reads the fonts without a warning", err)
    # ... type, encoding, emb, sub, uni, object, generation
    flags = [row[-5:-2] for row in rows]
    say(rows != [] and all(f == ["yes", "yes", "yes"] for f in flags),
        f"{path}: all fonts are embedded, subsets, and lead back to Unicode", out)
    say(all(re.match(r"^[A-Z]{6}\+LiberationSans(-Bold)?$", row[0]) for row in rows),
        f"{path}: all fonts have a subset's name", out)
    say(len(rows) == kinds, f"{path}: {kinds} fonts, no more than needed", out)


def check_file(writer, fonts, kind, path, kinds):
    _, listing, err = run(writer, fonts, kind, path)
    say(err == "", f"{path}: is written", err)
    texts = read_texts(listing)
    status, out, err = run("qpdf", "--check", path)
    say(status == 0 and err == "", f"{path}: qpdf finds nothing", out + err)
    say(broken(path) == {}, f"{path}: meets every condition of check_pdf.py", broken(path))
    check_fonts(path, kinds)
    check_text(path, texts)
    check_widths(path, texts)
    status, _, err = run("pdftoppm", "-r", "40", "-png", path, path)
    say(status == 0 and err == "", f"{path}: poppler draws it without a warning", err)
    size = os.path.getsize(path)
    limit = SIZE_LIMIT_TWO_FONTS if kinds == 2 else SIZE_LIMIT
    say(size <= limit, f"{path}: {size} bytes, at most {limit}")
    again = path + ".again"
    run(writer, fonts, kind, again)
    with open(path, "rb") as one, open(again, "rb") as other:
        say(one.read() == other.read(), f"{path}: the same operations give the same bytes")


def main():
    missing = [name for name in READERS if shutil.which(name) is None]
    if missing:
        print(f"1..0 # SKIP needs {' '.join(missing)} (Debian: qpdf, poppler-utils)")
        return 0
    writer, fonts = (os.path.abspath(path) for path in sys.argv[1:3])
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        check_file(writer, fonts, "plain", "plain.pdf", 2)
        check_file(writer, fonts, "long", "long.pdf", 2)
        check_file(writer, fonts, "rich", "rich.pdf", 7)
        os.chdir("/")
    print(f"1..{count}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
