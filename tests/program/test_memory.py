#!/usr/bin/env python3
"""Memory: it does not grow with a roster's length, and no input below the size limit drives it far.

    test_memory.py PROGRAM
"""
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv.pop(1)).resolve()
ROOT = Path(__file__).resolve().parents[2]
LIMIT = 4 * 1024 * 1024  # FILE_LIMIT_BYTES
MOST_MB = 60            # for the worst of all inputs; an ordinary sheet takes 8


def run(*words):
    """Status and peak memory in kB."""
    words = [sys.executable, "-I", "-S", ROOT / "tests/common/peak.py", PROGRAM, *words]
    status, peak, *_ = subprocess.run([str(w) for w in words], check=True, capture_output=True, text=True, cwd=ROOT).stdout.split()
    return int(status), int(peak)


def csv_rows(count):
    return "id,name,species,mass,adopter\n" + "".join(f"A{i},Animal {i},leopard-gecko,{40 + i % 30} g,Adopter {i}\n" for i in range(count))


def yaml_rows(count):
    return "roster:\n  kind: adoption\nanimals:\n" + "".join(
        f"  - {{id: A{i}, name: Animal {i}, species: leopard-gecko, mass: {40 + i % 30} g, adopter: Adopter {i}}}\n" for i in range(count))


def fill(piece, before="", after=""):
    return before + piece * ((LIMIT - len(before) - len(after) - 1) // len(piece)) + after


# what a file of nearly 4 MiB can be at its worst
WORST = {
    "one long text": fill("x"),
    "one long quoted text": fill("x", 'message: "', '"'),
    "many items": fill("- a\n", "message:\n"),
    "empty mappings": fill("{},", "a: [", "{}]"),
    "deep lists": fill("["),
    "deep mappings": fill("{a: "),
    "many keys": "".join(f"key{i}: {i}\n" for i in range(200000)),
    "unknown keys in many mappings": fill("{nmae: x, spceies: y, mas: z},", "findings: [", "{}]"),
    "wrong words": fill("{code: swolen-jaw, severity: gret},", "findings: [", "{}]"),
    "aliases": fill("*a,", "x: &a [1,2,3,4,5,6,7,8,9]\ny: [", "*a]"),
    "aliases that multiply": "a0: &a0 [x,x,x,x,x,x,x,x,x,x]\n" + "".join(
        f"a{i}: &a{i} [{','.join([f'*a{i - 1}'] * 10)}]\n" for i in range(1, 12)),
    "anchors": "".join(f"k{i}: &anchor{i} x\n" for i in range(150000)),
    "comments": fill("# nothing\n"),
    "a broken end": fill("- {a: b}\n", "", "{"),
    "no text": fill("\x01"),
}


class Memory(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def enterContext(self, context):  # Python 3.11 has it, 3.10 has not
        value = context.__enter__()
        self.addCleanup(context.__exit__, None, None, None)
        return value

    def packet(self, name, text):
        roster = self.folder / name
        roster.write_text(text)
        status, peak = run("packet", roster, "--drafts", "-o", self.folder / f"{name}.out", "--today", "2026-03-18")
        self.assertEqual(status, 0)
        return peak

    def test_flat(self):
        """Where the system laid the pages alone moves a peak by half a megabyte: the rows are many, so that a kilobyte a row is twice that."""
        for end, rows in (("csv", csv_rows), ("yaml", yaml_rows)):
            short, long = (self.packet(f"{count}.{end}", rows(count)) for count in (20, 1500))
            for again in range(2):  # a busy machine lays them otherwise: what grows does so each time
                if long - short >= 1000:
                    short = max(short, self.packet(f"20-{again}.{end}", rows(20)))
                    long = min(long, self.packet(f"1500-{again}.{end}", rows(1500)))
            # 16 bytes a row are its name's hash and number, against two animals of one name
            self.assertLess(long - short, 1000, f"{end}: {short} kB for 20 rows, {long} kB for 1500")

    def test_worst(self):
        for name, text in WORST.items():
            path = self.folder / "worst.yaml"
            path.write_text(text)
            self.assertLessEqual(path.stat().st_size, LIMIT)
            for words in (("check", path), ("sheet", path, "-o", self.folder / "never.pdf"),
                          ("packet", path, "--drafts", "-o", self.folder / "never")):
                status, peak = run(*words)
                self.assertEqual(status, 1, f"{name}: {words[0]}")
                self.assertLess(peak / 1024, MOST_MB, f"{name}: {words[0]}")

    def test_too_large(self):
        path = self.folder / "large.yaml"
        path.write_text("# " + "x" * LIMIT)
        for command in ("check", "sheet", "packet"):
            status, peak = run(command, path)
            self.assertEqual(status, 1)
            self.assertLess(peak / 1024, 30, command)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
