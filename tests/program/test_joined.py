#!/usr/bin/env python3
"""`packet --joined`: all sheets in one file for the printer, read back with qpdf and poppler. What may stand in the file: ISO 32000-1, 7.5 and
7.7; that each animal has leaves of its own: common practice of duplex printing, no source."""
import csv
import os
import re
import signal
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv.pop(1)).resolve()
ROOT = Path(__file__).resolve().parents[2]
DAY = ("--today", "2026-03-18")
# kinds of sheet of different lengths, one drawn out by a page; the third has a fault
NOTE = ("A note of some length for the keeper. " * 100).strip()
ROSTER = f"""name,species,kind,mass,notes
Fern,axolotl,email,,
Sorrel,leopard-gecko,checkout,52 g,
Broken,no-such-species,checkout,,
Nettle,corn-snake,email,310 g,
Moss,axolotl,email,,{NOTE}
Juniper,ball-python,adoption,900 g,
"""
GOOD = ["Fern", "Sorrel", "Nettle", "Moss", "Juniper"]


def tool(*words):
    done = subprocess.run(list(map(str, words)), capture_output=True)
    assert done.returncode == 0, (words, done.stdout, done.stderr)
    return done.stdout


def pages(pdf):
    """The text of each page."""
    return [page.decode() for page in tool("pdftotext", "-layout", pdf, "-").split(b"\f")[:-1]]


class Joined(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.out = self.folder / "out"
        self.joined = self.out / "joined.pdf"

    def packet(self, text, *words, status=0, out=None):
        roster = self.folder / "roster.csv"
        roster.write_text(text)
        done = subprocess.run([PROGRAM, "packet", roster, "--joined", "-o", out or self.out, *DAY, *words], capture_output=True, text=True, timeout=300)
        self.assertEqual(done.returncode, status, done.stderr)
        return done

    def sheets(self, out=None):
        with open((out or self.out) / "manifest.csv", newline="", encoding="utf-8") as file:
            return [(out or self.out) / row["file"] for row in csv.DictReader(file) if row["status"] == "made"]

    def test_every_animal_in_order_on_leaves_of_its_own(self):
        done = self.packet(ROSTER, "--drafts", status=1)
        self.assertIn("no-such-species", done.stderr)
        self.assertIn("1 of 6 rows were not made", done.stderr)
        sheets = self.sheets()
        self.assertEqual([re.sub(r"\d+-|\.pdf", "", sheet.name) for sheet in sheets], [name.lower() for name in GOOD])
        found, at, lengths = pages(self.joined), 0, []
        for name, sheet in zip(GOOD, sheets):
            own = pages(sheet)
            lengths.append(len(own))
            self.assertEqual(at % 2, 0, f"{name} begins on the back of a leaf")
            self.assertIn(name, own[0])
            self.assertEqual(found[at:at + len(own)], own, name)
            at += len(own)
            if at % 2:
                self.assertEqual(found[at].strip(), "")
                at += 1
        self.assertEqual(at, len(found))
        self.assertEqual({length % 2 for length in lengths}, {0, 1}, "both kinds of length are tried")
        self.assertIn(f"{self.joined}: 5 sheets on {at} pages", done.stdout)

    def test_the_file_is_sound(self):
        self.packet(ROSTER, "--drafts", "--paper", "letter", status=1)
        self.assertIn(b"No syntax or stream encoding errors found", tool("qpdf", "--check", self.joined))
        about = tool("pdfinfo", "-l", "9999", self.joined).decode()
        self.assertEqual(set(re.findall(r"Page +\d+ size: +(.*?) \(", about)), {"612 x 792 pts"}, "blank pages too")
        raw = tool("qpdf", "--qdf", "--object-streams=disable", self.joined, "-")
        for claim in (b"pdfaid", b"pdfuaid", b"/MarkInfo", b"/StructParents", b"/StructTreeRoot", b"/Annots"):
            self.assertNotIn(claim, raw, "what the joined file cannot keep it does not claim")
        self.assertIn(b"/Duplex /DuplexFlipLongEdge", raw)
        self.assertEqual(self.joined.stat().st_mode & 0o007, 0, "it holds keepers' names")
        fonts = tool("pdffonts", self.joined).decode().splitlines()[2:]
        self.assertTrue(fonts and all(line.split()[-5] == "yes" for line in fonts), "every font is embedded")

    def test_the_pages_look_alike(self):
        """Rendered by poppler, the same picture to the byte."""
        self.packet(ROSTER, "--drafts", status=1)
        at = 1
        for sheet in self.sheets():
            count = len(pages(sheet))
            for page in (1, count):
                one, other = (tool("pdftoppm", "-r", "40", "-f", number, "-l", number, pdf)
                              for number, pdf in ((page, sheet), (at + page - 1, self.joined)))
                self.assertEqual(one, other, (sheet.name, page))
            at += count + count % 2

    def test_the_same_bytes_however_it_was_made(self):
        self.packet(ROSTER, "--drafts", status=1)
        wanted = self.joined.read_bytes()
        self.packet(ROSTER, "--drafts", "--jobs", "3", status=1, out=self.folder / "three")
        self.assertEqual((self.folder / "three/joined.pdf").read_bytes(), wanted)
        self.sheets()[1].unlink()
        self.joined.unlink()
        done = self.packet(ROSTER, "--drafts", "--resume", status=1)
        self.assertIn("1 made, 4 kept", done.stdout)
        self.assertEqual(self.joined.read_bytes(), wanted)
        self.packet(ROSTER, "--drafts", "--resume", status=1)
        self.assertEqual(self.joined.read_bytes(), wanted)
        self.packet(ROSTER.replace("52 g", "55 g"), "--drafts", "--resume", status=1)
        self.assertNotEqual(self.joined.read_bytes(), wanted, "a changed row is in it")

    def test_shards_have_a_file_each(self):
        for shard in (1, 2):
            self.packet(ROSTER, "--drafts", "--shard", f"{shard}/2", status=shard % 2)
        whole = pages(self.out / "joined-1-of-2.pdf") + pages(self.out / "joined-2-of-2.pdf")
        self.packet(ROSTER, "--drafts", status=1, out=self.folder / "whole")
        self.assertEqual(whole, pages(self.folder / "whole/joined.pdf"))

    def test_nothing_to_join(self):
        """An earlier day's file must not lie there as if it were this one's."""
        self.packet(ROSTER, "--drafts", status=1)
        done = self.packet("name,species\nBroken,no-such-species\n", "--drafts", status=1)
        self.assertIn("no sheet, so no such file", done.stdout)
        self.assertFalse(self.joined.exists())

    def test_drafts_are_not_joined(self):
        self.assertIn("is a draft", self.packet(ROSTER.replace("Broken,no-such-species", "Whole,ball-python"), status=1).stderr)
        self.assertFalse(self.joined.exists())

    def test_a_disk_that_is_full(self):
        """The size of a file is limited for the process, as by a quota (POSIX, setrlimit): the earlier file stays."""
        self.packet(ROSTER, "--drafts", status=1)
        before = self.joined.read_bytes()
        done = subprocess.run(["bash", "-c", f'trap "" XFSZ; ulimit -f {len(before) * 2 // 3 // 1024}; exec "$@"', "x", PROGRAM, "packet",
                               self.folder / "roster.csv", "--joined", "-o", self.out, *DAY, "--drafts", "--language", "es"], capture_output=True, text=True)
        self.assertEqual(done.returncode, 3, done.stderr)
        self.assertIn("joined.pdf", done.stderr)
        self.assertEqual(self.joined.read_bytes(), before)
        self.assertEqual(list(self.out.glob(".baskleaf-*")), [])

    def test_killed_at_any_moment(self):
        for step in range(8):
            process = subprocess.Popen([PROGRAM, "packet", self.roster(), "--joined", "-o", self.out, *DAY, "--drafts"],
                                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            time.sleep(0.03 + step * 0.04)
            process.send_signal(signal.SIGKILL)
            process.wait()
            if self.joined.exists():
                tool("qpdf", "--check", self.joined)
                self.joined.unlink()

    def roster(self):
        path = self.folder / "many.csv"
        path.write_text("name,species,kind\n" + "".join(f"Pet {i},corn-snake,checkout\n" for i in range(30)))
        return path

    def test_memory_stays_flat(self):
        """Peak memory (ru_maxrss) of 300 sheets beside that of 60; the joined file alone is ten times what may be added."""
        peaks = []
        for count in (60, 300):
            path = self.folder / f"{count}.csv"
            path.write_text("name,species,kind\n" + "".join(f"Pet {i},corn-snake,checkout\n" for i in range(count)))
            process = subprocess.Popen([PROGRAM, "packet", path, "--joined", "-o", self.folder / str(count), *DAY, "--drafts"],
                                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            _, status, usage = os.wait4(process.pid, 0)
            process.returncode = os.waitstatus_to_exitcode(status)
            self.assertEqual(process.returncode, 0)
            peaks.append(usage.ru_maxrss)
        size = (self.folder / "300/joined.pdf").stat().st_size // 1024
        if not os.environ.get("BASKLEAF_SANITIZED"):
            self.assertLess(peaks[1] - peaks[0], size // 10, (peaks, size))


if __name__ == "__main__":
    unittest.main(verbosity=2)
