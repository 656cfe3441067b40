#!/usr/bin/env python3
"""A full disk, a disk that cannot be written, a folder that goes away, a reader that hangs up, two runs at once: a clean error
with exit status 3 and nothing half-written. The disk is a small tmpfs in a mount namespace of the test's own.

    test_disk.py PROGRAM
"""
import os
import shutil
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

INSIDE = "BASKLEAF_TEST_MOUNTS"
ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(sys.argv[1]).resolve()
VISIT = ROOT / "templates/visits/ember-bearded-dragon.yaml"
DAY = ["--today", "2026-03-18"]
OLD = b"an older sheet"
SMALL_KB = 200
ANIMALS = 40


def run(*words, **settings):
    return subprocess.run([str(w) for w in (PROGRAM, *words)], capture_output=True, cwd=ROOT, timeout=120, **settings)


def roster(path, animals=ANIMALS):
    path.write_text("animals:\n" + "".join(f"  - {{name: Animal {i}, species: leopard-gecko, mass: {40 + i} g}}\n" for i in range(animals)))
    return path


class Disk(unittest.TestCase):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp())
        self.addCleanup(shutil.rmtree, self.folder, True)
        self.disk = self.folder / "disk"
        self.disk.mkdir()

    def mount(self, size_kb):
        subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={size_kb}k", "tmpfs", self.disk], check=True)
        self.addCleanup(subprocess.run, ["umount", "-l", self.disk])

    def remount(self, options):
        subprocess.run(["mount", "-o", f"remount,{options}", "tmpfs", self.disk], check=True)

    def refused(self, done, *texts):
        said = done.stderr.decode()
        self.assertEqual(done.returncode, 3, said)
        for text in texts:
            self.assertIn(text, said)

    def fill(self):
        with open(self.disk / "filler", "wb", buffering=0) as filler:
            try:
                while True:
                    filler.write(b"x" * 4096)
            except OSError:
                pass

    def sheet_outlives(self, reason):
        """Commands that write a file leave the old one as it was and nothing beside it."""
        before = sorted(p.name for p in self.disk.iterdir())
        for words in (["sheet", VISIT], ["explain", VISIT, "--json"], ["dates", VISIT], ["mail", VISIT, "--drafts"], ["start", "ball-python"]):
            self.refused(run(*words, *DAY, "--replace", "-o", self.disk / "old"), reason)
            self.assertEqual((self.disk / "old").read_bytes(), OLD, words[0])
            self.assertEqual(sorted(p.name for p in self.disk.iterdir()), before, words[0])

    def test_full(self):
        self.mount(SMALL_KB)
        (self.disk / "old").write_bytes(OLD)
        self.fill()
        self.sheet_outlives("No space left on device")

    def test_full_while_signing(self):
        self.mount(SMALL_KB)
        record = self.disk / "visit.yaml"
        shutil.copy(VISIT, record)
        self.fill()
        self.refused(run("approve", record, "--by", "Dr. I. Marsh", *DAY), "No space left on device")
        self.assertEqual(record.read_bytes(), VISIT.read_bytes())

    def test_packet_on_a_disk_that_fills_up(self):
        names = roster(self.folder / "names.yaml")
        whole = self.folder / "whole"
        self.assertEqual(run("packet", names, "--drafts", "-o", whole, *DAY).returncode, 0)
        for jobs in ("1", "2"):
            out = self.disk / "out"
            self.mount(10 * SMALL_KB)
            self.refused(run("packet", names, "--drafts", "-o", out, *DAY, "--jobs", jobs), "No space left on device", "--resume")
            made = list(out.glob("*.pdf"))
            self.assertTrue(0 < len(made) < ANIMALS, len(made))
            for sheet in made:
                self.assertEqual(sheet.read_bytes(), (whole / sheet.name).read_bytes(), sheet.name)
            self.remount("size=64m")
            self.assertEqual(run("packet", names, "--drafts", "-o", out, *DAY, "--resume").returncode, 0)
            self.assertEqual({p.name: p.read_bytes() for p in out.iterdir()}, {p.name: p.read_bytes() for p in whole.iterdir()})

    def test_cannot_be_written(self):
        self.mount(1024)
        (self.disk / "old").write_bytes(OLD)
        self.remount("ro")
        self.sheet_outlives("Read-only file system")
        self.refused(run("packet", roster(self.folder / "names.yaml", 2), "--drafts", "-o", self.disk / "out", *DAY), "Read-only file system")

    def test_folder_that_is_not_there(self):
        for words in (["sheet", VISIT], ["mail", VISIT, "--drafts"], ["dates", VISIT]):
            self.refused(run(*words, *DAY, "-o", self.disk / "gone/sheet.pdf"), "No such file or directory")
        self.refused(run("packet", roster(self.folder / "names.yaml", 2), "--drafts", "-o", self.disk / "gone/out", *DAY), "No such file or directory")

    def test_folder_that_goes_away(self):
        names = roster(self.folder / "names.yaml", 2000)
        out = self.disk / "out"
        running = subprocess.Popen([PROGRAM, "packet", names, "--drafts", "-o", out, *DAY], cwd=ROOT, stderr=subprocess.PIPE)
        while not list(out.glob("*.pdf")):
            time.sleep(0.001)
        moved = self.disk / "moved"
        out.rename(moved)
        said = running.communicate()[1].decode()
        self.assertEqual(running.returncode, 3, said)
        self.assertIn("No such file or directory", said)
        self.assertFalse(out.exists())
        for sheet in moved.glob("*.pdf"):
            self.assertTrue(sheet.read_bytes().endswith(b"%%EOF\n"), sheet.name)

    def test_reader_that_hangs_up(self):
        for words in (["sheet", VISIT, "-o", "-"], ["explain", VISIT, "--json"], ["explain", VISIT], ["check", "--format", "visit"], ["species"], ["--help"]):
            read, write = os.pipe()
            os.close(read)
            done = subprocess.run([PROGRAM, *map(str, words), *(DAY if words[0] in ("sheet", "explain") else [])], stdout=write, stderr=subprocess.PIPE, cwd=ROOT)
            os.close(write)
            self.assertEqual(done.returncode, 3, (words, done.stderr))
            self.assertIn("Broken pipe", done.stderr.decode(), words)

    def test_no_standard_output_at_all(self):
        done = subprocess.run(["sh", "-c", 'exec "$0" "$@" >&-', PROGRAM, "sheet", VISIT, "-o", "-", *DAY], stderr=subprocess.PIPE, cwd=ROOT)
        self.refused(done, "Bad file descriptor")

    def test_two_sheets_at_once(self):
        out = self.disk / "sheet.pdf"
        alone = run("sheet", VISIT, *DAY, "-o", "-").stdout
        running = [subprocess.Popen([PROGRAM, "sheet", VISIT, *DAY, "-o", out], cwd=ROOT, stdout=subprocess.DEVNULL) for _ in range(12)]
        self.assertEqual([p.wait() for p in running], [0] * 12)
        self.assertEqual(out.read_bytes(), alone)
        self.assertEqual([p.name for p in self.disk.iterdir()], ["sheet.pdf"])


if __name__ == "__main__":
    if not os.environ.get(INSIDE):
        apart = ["unshare", "-m"] if os.geteuid() == 0 else ["unshare", "-Urm"]
        if subprocess.run([*apart, "true"], capture_output=True).returncode != 0:
            print("skipped: this system gives no mount namespace to put a small disk in")
            sys.exit(77)
        sys.exit(subprocess.run([*apart, sys.executable, *sys.argv], env={**os.environ, INSIDE: "1"}).returncode)
    unittest.main(argv=sys.argv[:1], verbosity=2)
