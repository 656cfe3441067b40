#!/usr/bin/env python3
"""A photo of the animal: each kind of sound PNG and JPEG is shown upright, small, with its alternative text and nothing else of the file in the PDF; what
is no photo, damaged, moving, of printing colours or a trap is refused with the place that names it. Pictures are made by Pillow, an outside writer; the
orientation mark by Exif 2.3 (tag 0x0112), PNG's eXIf and acTL by the PNG specification (3rd edition)."""
import io
import json
import re
import struct
import subprocess
import sys
import tempfile
import time
import unittest
import zlib
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent / "conformance"))
try:
    import pikepdf
    from PIL import Image
    from check_pdf import broken
except ImportError as missing:
    print(f"skipped: {missing} (Debian: python3-pil, python3-pikepdf, python3-fonttools)")
    sys.exit(77)

PROGRAM = Path(sys.argv.pop(1)).resolve()
ROOT = Path(__file__).resolve().parents[2]
DAY = ("--today", "2026-03-20")
VISITS = {"checkout": "pebble-leopard-gecko", "email": "clover-corn-snake", "adoption": "juniper-adoption"}
RED, GREEN, BLUE, WHITE = (200, 20, 20), (20, 160, 20), (20, 20, 200), (250, 250, 250)
PLACE = b"GPSLatitudeSecretPlace"


def quarters(width=64, height=48):
    """Red, green above; blue, white below: each turn of it looks different."""
    picture = Image.new("RGB", (width, height))
    for box, colour in (((0, 0), RED), ((1, 0), GREEN), ((0, 1), BLUE), ((1, 1), WHITE)):
        picture.paste(colour, (box[0] * width // 2, box[1] * height // 2, (box[0] + 1) * width // 2, (box[1] + 1) * height // 2))
    return picture


def exif(orientation, order="<"):
    """A TIFF head and one directory: the mark, and a description that must not survive."""
    entries = struct.pack(order + "HHIHH", 0x0112, 3, 1, orientation, 0) + struct.pack(order + "HHII", 0x010E, 2, len(PLACE) + 1, 38)
    return (b"II" if order == "<" else b"MM") + struct.pack(order + "HIH", 42, 8, 2) + entries + struct.pack(order + "I", 0) + PLACE + b"\0"


def jpeg(picture, **more):
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=92, **more)
    return out.getvalue()


def with_exif(data, body):
    """An APP1 segment behind the first two bytes."""
    segment = b"Exif\0\0" + body
    return data[:2] + b"\xff\xe1" + struct.pack(">H", len(segment) + 2) + segment + data[2:]


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png(picture, *chunks, **more):
    out = io.BytesIO()
    picture.save(out, "PNG", **more)
    data = out.getvalue()
    return data[:33] + b"".join(chunks) + data[33:]


def png16(width=64, height=48):
    head = struct.pack(">IIBBBBB", width, height, 16, 2, 0, 0, 0)
    rows = b"".join(b"\0" + b"\xc8\x00\x14\x00\x14\x00" * width for _ in range(height))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


def png_bomb():
    head = struct.pack(">IIBBBBB", 30000, 30000, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0" * 10_000_000, 9)) + chunk(b"IEND", b"")


def jpeg_bomb():
    """A head that says 65,500 by 65,500; and many thousand passes over a large progressive picture."""
    data = bytearray(jpeg(quarters()))
    at = data.index(b"\xff\xc0")
    data[at + 5:at + 9] = struct.pack(">HH", 65500, 65500)
    return bytes(data)


def many_scans():
    data = jpeg(quarters(1600, 1200), progressive=True)
    at = data.rindex(b"\xff\xda")
    return data[:at] + data[at:-2] * 3000 + data[-2:]


class Photo(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def sheet(self, data, kind="email", name="animal.jpg", language="en", more=(), without=None):
        record, out = self.folder / "visit.yaml", self.folder / "sheet.pdf"
        text = (ROOT / f"templates/visits/{VISITS[kind]}.yaml").read_text()
        if without:
            text = re.sub(without, "", text, flags=re.M)
        record.write_text(re.sub(r"(?m)^(patient:\s*\{?)(.*)$", rf"\1photo: {name}, \2", text, count=1) if "patient: {" in text
                          else re.sub(r"(?m)^patient:\n", f"patient:\n  photo: {name}\n", text, count=1))
        if data is not None:
            (self.folder / name).write_bytes(data)
        out.unlink(missing_ok=True)
        done = subprocess.run([PROGRAM, "sheet", record, "--language", language, "-o", out, *DAY, *more], capture_output=True, text=True, timeout=60)
        return done, out

    def image(self, out):
        """The photo as the PDF holds it, decoded by Pillow."""
        with pikepdf.open(out) as file:
            found = [image for page in file.pages for image in page.images.values()]
            return [(Image.open(io.BytesIO(image.read_raw_bytes())).convert("RGB"), image.read_raw_bytes()) for image in found]

    def assert_quarters(self, picture, wanted, name):
        width, height = picture.size
        for (x, y), colour in zip(((1, 1), (3, 1), (1, 3), (3, 3)), wanted, strict=True):
            is_colour = picture.getpixel((x * width // 4, y * height // 4))
            self.assertLess(max(abs(a - b) for a, b in zip(is_colour, colour, strict=True)), 40, (name, x, y, is_colour, colour))

    def test_every_sound_kind_is_shown(self):
        upright = (RED, GREEN, BLUE, WHITE)
        sound = {"JPEG": jpeg(quarters()), "progressive": jpeg(quarters(), progressive=True), "PNG": png(quarters()), "alpha": png(quarters().convert("RGBA")),
                 "palette": png(quarters().convert("P")), "large": jpeg(quarters(4000, 3000)), "one pixel": jpeg(Image.new("RGB", (1, 1), RED)),
                 "grey": jpeg(quarters().convert("L")), "16 bits": png16(), "very tall": jpeg(quarters(40, 4000)),
                 "bytes behind its end": jpeg(quarters()) + b"trailer" * 50}
        for name, data in sound.items():
            with self.subTest(name):
                done, out = self.sheet(data)
                self.assertEqual(done.returncode, 0, done.stderr)
                ((picture, raw),) = self.image(out)
                self.assertLessEqual(max(picture.size), 480)
                self.assertLessEqual(len(raw), 60 * 1024)
                if name in ("JPEG", "progressive", "PNG", "alpha", "palette", "large", "bytes behind its end"):
                    self.assert_quarters(picture, upright, name)
                if name == "16 bits":
                    self.assertLess(abs(picture.getpixel((20, 20))[0] - 200), 12)

    def test_it_is_turned_by_its_mark(self):
        """Exif 2.3, 4.6.4: where the 0th row and column of the stored picture are to be seen."""
        wanted = {1: (RED, GREEN, BLUE, WHITE), 2: (GREEN, RED, WHITE, BLUE), 3: (WHITE, BLUE, GREEN, RED), 4: (BLUE, WHITE, RED, GREEN),
                  5: (RED, BLUE, GREEN, WHITE), 6: (BLUE, RED, WHITE, GREEN), 7: (WHITE, GREEN, BLUE, RED), 8: (GREEN, WHITE, RED, BLUE)}
        for mark, colours in wanted.items():
            for order in "<>":
                for name, data in (("a.jpg", with_exif(jpeg(quarters()), exif(mark, order))), ("a.png", png(quarters(), chunk(b"eXIf", exif(mark, order))))):
                    done, out = self.sheet(data, name=name)
                    self.assertEqual(done.returncode, 0, done.stderr)
                    ((picture, _),) = self.image(out)
                    self.assertEqual(picture.size, (64, 48) if mark < 5 else (48, 64), (mark, order, name))
                    self.assert_quarters(picture, colours, (mark, order, name))

    def test_a_broken_mark_turns_nothing(self):
        for body in (b"", b"II", exif(9), exif(0), exif(6)[:9], b"II*\0\xff\xff\xff\xff", b"XX" + exif(6)[2:], exif(6).replace(b"\x12\x01", b"\x13\x01", 1)):
            done, out = self.sheet(with_exif(jpeg(quarters()), body))
            self.assertEqual(done.returncode, 0, done.stderr)
            ((picture, _),) = self.image(out)
            self.assert_quarters(picture, (RED, GREEN, BLUE, WHITE), body)

    def test_nothing_but_pixels_is_left(self):
        """The place above all: Exif, XMP, IPTC, comments, colour profiles, small copies, what lies behind the end, and PNG's texts."""
        secret = b"SECRET 47.3769 N 8.5417 E"
        data = with_exif(jpeg(quarters(), comment=secret, icc_profile=secret * 10), exif(1))
        xmp = b"http://ns.adobe.com/xap/1.0/\0" + secret
        data = data[:2] + b"\xff\xe1" + struct.pack(">H", len(xmp) + 2) + xmp + b"\xff\xed" + struct.pack(">H", len(secret) + 2) + secret + data[2:] + secret
        texts = png(quarters(), chunk(b"tEXt", b"Place\0" + secret), chunk(b"eXIf", exif(1)))
        for name, file in (("a.jpg", data), ("a.png", texts)):
            self.assertIn(secret, file)
            done, out = self.sheet(file, name=name)
            self.assertEqual(done.returncode, 0, done.stderr)
            ((picture, raw),) = self.image(out)
            for part in (secret, PLACE, b"Exif", b"xap", b"SECRET", b"GPS", b"ICC_PROFILE"):
                self.assertNotIn(part, raw)
            # only what draws (ITU-T T.81, table B.1) and JFIF's head
            at, markers = 2, []
            while raw[at] == 0xFF and raw[at + 1] != 0xDA:
                markers.append(raw[at + 1])
                at += 2 + struct.unpack(">H", raw[at + 2:at + 4])[0]
            self.assertLessEqual(set(markers), {0xE0, 0xDB, 0xC0, 0xC4}, [hex(marker) for marker in markers])
            whole = subprocess.run(["qpdf", "--qdf", "--object-streams=disable", out, "-"], capture_output=True, check=True).stdout
            self.assertNotIn(b"SECRET", whole)
            self.assertNotIn(PLACE, whole)

    def test_what_is_no_photo_is_refused_at_its_place(self):
        sound = jpeg(quarters(400, 300))
        bad = {"empty": (b"", "no PNG and no JPEG"), "text": (b"photo " * 100, "no PNG and no JPEG"), "GIF": (b"GIF89a" + bytes(100), "no PNG and no JPEG"),
               "cut short": (sound[:len(sound) // 2], "cut short"), "cut PNG": (png(quarters(400, 300))[:-200], "cut short"),
               "a head alone": (sound[:30], "cut short"), "CMYK": (jpeg(quarters().convert("CMYK")), "CMYK"),
               "moving": (png(quarters(), chunk(b"acTL", struct.pack(">II", 2, 0))), "moving"), "PNG bomb": (png_bomb(), "pixels"),
               "JPEG bomb": (jpeg_bomb(), "pixels"), "many passes": (many_scans(), "damaged"),
               "a wrong check sum": (png(quarters()).replace(b"IDAT", b"IDAT\0", 1)[:-1], "damaged"), "too many bytes": (sound + bytes(25 * 1024 * 1024), "24"),
               "missing": (None, "is not there")}
        for name, (data, wanted) in bad.items():
            with self.subTest(name):
                (self.folder / "animal.jpg").unlink(missing_ok=True)
                start = time.monotonic()
                done, out = self.sheet(data)
                self.assertLess(time.monotonic() - start, 20)
                self.assertEqual(done.returncode, 1, done.stderr)
                self.assertIn(wanted, done.stderr)
                if name != "too many bytes":
                    self.assertRegex(done.stderr, r"visit\.yaml:\d+:\d+: ")
                self.assertFalse(out.exists())
        for name in ("/etc/hostname", "."):
            done, _ = self.sheet(None, name=name)
            self.assertEqual(done.returncode, 1, done.stderr)
            self.assertRegex(done.stderr, r"visit\.yaml:\d+:\d+: patient\.photo: ")

    def test_a_checkout_has_it_where_its_head_has_room(self):
        """Beside two telephone numbers, one below the other or, with sex, age and mass, the longer one below its label: both numbers stand there. A page
        that is full keeps its lines, and the photo gives way."""
        VISITS["full"] = "biscuit-ball-python"
        for kind, few, shown in (("checkout", r"^  (sex|hatched|mass): .*\n", True), ("checkout", None, True), ("full", None, False)):
            done, out = self.sheet(jpeg(quarters(400, 300)), kind, without=few)
            self.assertEqual(done.returncode, 0, done.stderr)
            head = subprocess.run(["pdftotext", "-l", "1", "-raw", out, "-"], capture_output=True, text=True, check=True).stdout.split("Go now")[0]
            self.assertEqual([head.count(number) for number in ("555-0142", "555-0199")], [1 + head.count("Call 555-0142"), 1], head)
            with pikepdf.open(out) as file:
                figures = [str(item.get("/Alt", "")) for item in file.objects if isinstance(item, pikepdf.Dictionary) and item.get("/S") == "/Figure"]
            self.assertEqual(any(text.startswith("Photo of") for text in figures), shown, (kind, few, figures))

    def test_standards_and_pages(self):
        """With a photo the sheet keeps to PDF/UA-1 and PDF/A-2a and takes no page more than without, but for an adoption packet's and an e-mail's flow."""
        for kind in ("checkout", "email", "adoption"):
            for language, said in (("en", "Photo of"), ("es", "Foto de")):
                for paper in ("a4", "letter"):
                    done, out = self.sheet(jpeg(quarters(4000, 3000)), kind, language=language, more=("--paper", paper))
                    self.assertEqual(done.returncode, 0, done.stderr)
                    self.assertEqual(broken(out), {})
                    self.assertLess(out.stat().st_size, (120 + 60) * 1024)
                    with pikepdf.open(out) as file:
                        figures = [str(item.get("/Alt", "")) for item in file.objects if isinstance(item, pikepdf.Dictionary) and item.get("/S") == "/Figure"]
                        pages = len(file.pages)
                    if kind != "checkout":  # there only where the head has room for it
                        self.assertTrue(any(text.startswith(said) for text in figures), (kind, figures))
                    if kind == "checkout":
                        self.assertEqual(pages, 2)

    def test_a_checkout_has_two_pages_whatever_its_photo(self):
        """The head shows it only where name and line stay as they are."""
        for visit in sorted((ROOT / "templates/visits").glob("*.yaml")):
            if "kind: checkout" not in visit.read_text():
                continue
            VISITS["other"] = visit.stem
            for size in ((4000, 3000), (3000, 4000), (4000, 100), (100, 4000)):
                with_photo = self.pages(self.sheet(jpeg(quarters(*size)), "other"))
                plain = subprocess.run([PROGRAM, "sheet", visit, "--replace", "-o", self.folder / "plain.pdf", *DAY], capture_output=True, text=True)
                self.assertEqual(with_photo, self.pages((plain, self.folder / "plain.pdf")), visit.stem)

    def pages(self, made):
        done, out = made
        self.assertEqual(done.returncode, 0, done.stderr)
        with pikepdf.open(out) as file:
            return len(file.pages)

    def test_the_signature_covers_its_bytes(self):
        done, _ = self.sheet(jpeg(quarters()), "checkout")
        record = self.folder / "visit.yaml"
        signed = subprocess.run([PROGRAM, "approve", record, "--by", "Dr Ines Calder", *DAY], capture_output=True, text=True)
        self.assertEqual(signed.returncode, 0, signed.stderr)

        def state():
            done = subprocess.run([PROGRAM, "sheet", record, "--replace", "-o", self.folder / "s.pdf", *DAY], capture_output=True, text=True)
            self.assertEqual(done.returncode, 0, done.stderr)
            return subprocess.run(["pdftotext", self.folder / "s.pdf", "-"], capture_output=True, text=True, check=True).stdout

        self.assertIn("Checked and signed", state())
        (self.folder / "animal.jpg").write_bytes(with_exif(jpeg(quarters()), exif(3)))
        self.assertNotIn("Checked and signed by Dr Ines Calder", state())

    def test_two_runs_give_the_same_bytes(self):
        data = jpeg(quarters(1000, 800))
        first = self.sheet(data)[1].read_bytes()
        self.assertEqual(self.sheet(data)[1].read_bytes(), first)

    def test_a_record_without_one_is_as_before(self):
        record = ROOT / "templates/visits/biscuit-ball-python.yaml"
        plain = json.loads(subprocess.run([PROGRAM, "explain", "--json", record, *DAY], capture_output=True, text=True, check=True).stdout)
        self.assertNotIn("jpeg", json.dumps(plain))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
