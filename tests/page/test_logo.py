#!/usr/bin/env python3
"""A clinic's logo: each kind of sound PNG is shown with its alternative text and the sheet stays sound for other programs; what is
no PNG, damaged or too large is refused with the place where it was named."""
import struct
import subprocess
import sys
import tempfile
import unittest
import zlib
from pathlib import Path

PROGRAM, CHECKER = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
ROOT = Path(__file__).resolve().parents[2]


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png(width, height, depth, colour, row, interlace=0, more=b""):
    """By the PNG specification (ISO/IEC 15948), rows without a filter."""
    head = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, interlace)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + more + chunk(b"IDAT", zlib.compress(row)) + chunk(b"IEND", b"")


def rows(width, height, pixel):
    return b"".join(b"\0" + b"".join(pixel(x, y) for x in range(width)) for y in range(height))


def adam7(width, height, pixel):
    passes = ((0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2))
    return b"".join(b"\0" + b"".join(pixel(x, y) for x in range(x0, width, dx)) for x0, y0, dx, dy in passes
                    for y in range(y0, height, dy) if x0 < width)


RGB = lambda x, y: bytes((x * 3 % 256, 90, y * 5 % 256))
SOUND = {
    "colour": png(64, 32, 8, 2, rows(64, 32, RGB)),
    "colour with alpha": png(64, 32, 8, 6, rows(64, 32, lambda x, y: RGB(x, y) + bytes((x * 4,)))),
    "16 bits": png(64, 32, 16, 2, rows(64, 32, lambda x, y: b"".join(bytes((v, 0)) for v in RGB(x, y)))),
    "grey": png(64, 32, 8, 0, rows(64, 32, lambda x, y: bytes((x * 4,)))),
    "palette": png(64, 32, 8, 3, rows(64, 32, lambda x, y: bytes((x % 2,))), more=chunk(b"PLTE", b"\x10\x20\x30\xf0\xf0\xf0")),
    "interlaced": png(64, 32, 8, 2, adam7(64, 32, RGB), interlace=1),
    "one pixel": png(1, 1, 8, 2, rows(1, 1, RGB)),
    "very wide": png(2000, 4, 8, 2, rows(2000, 4, RGB)),
}
BAD = {
    "empty": b"",
    "a JPEG": b"\xff\xd8\xff\xe0" + bytes(200),
    "text": b"logo " * 100,
    "cut short": SOUND["colour"][:-40],
    "a wrong check sum": SOUND["colour"].replace(SOUND["colour"][20:24], b"\0\0\0\x41", 1),
    "too wide": png(2001, 4, 8, 2, rows(2001, 4, RGB)),
    "says it is huge": png(0x7FFFFFFF, 0x7FFFFFFF, 8, 2, b"\0"),
    "no width": png(0, 4, 8, 2, b"\0"),
    "over a megabyte": b"\x89PNG\r\n\x1a\n" + bytes(1024 * 1024),
}


class Logo(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))
        text = (ROOT / "templates/clinic.yaml").read_text()
        (self.folder / "clinic.yaml").write_text(text + "logo: logo.png\n")

    def sheet(self, data, kind="adoption"):
        if data is not None:
            (self.folder / "logo.png").write_bytes(data)
        visit = {"adoption": "juniper-adoption", "checkout": "pebble-leopard-gecko"}[kind]
        out = self.folder / "sheet.pdf"
        done = subprocess.run([PROGRAM, "sheet", ROOT / f"templates/visits/{visit}.yaml", "--clinic", self.folder / "clinic.yaml", "--replace", "-o", out,
                               "--today", "2026-03-20"], capture_output=True, text=True)
        return done, out

    def test_sound_logos_are_shown(self):
        for name, data in SOUND.items():
            with self.subTest(name):
                done, out = self.sheet(data, "checkout")
                self.assertEqual(done.returncode, 0, done.stderr)
                images = subprocess.run(["pdfimages", "-list", out], capture_output=True, text=True)
                self.assertEqual(len(images.stdout.splitlines()), 3, images.stdout)
                self.assertEqual(subprocess.run(["qpdf", "--check", out], capture_output=True).returncode, 0)

    def test_the_sheet_with_a_logo_keeps_to_the_standards(self):
        for kind in ("checkout", "adoption"):
            done, out = self.sheet(SOUND["colour with alpha"], kind)
            self.assertEqual(done.returncode, 0, done.stderr)
            checked = subprocess.run([sys.executable, CHECKER, out], capture_output=True, text=True)
            self.assertEqual(checked.returncode, 0, checked.stdout + checked.stderr)

    def test_bad_logos_are_refused_with_their_place(self):
        for name, data in {**BAD, "missing": None}.items():
            with self.subTest(name):
                (self.folder / "logo.png").unlink(missing_ok=True)
                done, out = self.sheet(data)
                self.assertEqual(done.returncode, 1, done.stderr)
                self.assertIn("logo", done.stderr)
                self.assertFalse(out.exists())

    def test_two_runs_give_the_same_bytes(self):
        first = self.sheet(SOUND["palette"])[1].read_bytes()
        self.assertEqual(self.sheet(SOUND["palette"])[1].read_bytes(), first)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
