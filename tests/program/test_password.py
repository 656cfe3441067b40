#!/usr/bin/env python3
"""A password for the PDF, of `sheet` and of `mail`, read back with qpdf, poppler and the project's own checker of PDF/UA and PDF/A.

AES with 256-bit keys: ISO 32000-2, 7.6.4, revision 6. PDF/A forbids encryption: ISO 19005-2, 6.1.3. PDF/UA allows it where a screen reader
may extract the text: ISO 14289-1, 7.16. At least eight letters: NIST SP 800-63B, 5.1.1.2."""
import email
import email.policy
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "page/conformance"))
try:
    from check_pdf import broken
except ImportError as missing:
    print(f"skipped: {missing} (Debian: python3-pikepdf, python3-fonttools)")
    sys.exit(77)

PROGRAM = Path(sys.argv.pop(1)).resolve()
ROOT = Path(__file__).resolve().parents[2]
PEBBLE = ROOT / "templates/visits/pebble-leopard-gecko.yaml"
DAY = ("--today", "2026-03-17")
PASSWORD = "shed skin 42"


def tool(*words, status=0):
    done = subprocess.run(list(map(str, words)), capture_output=True, text=True)
    assert done.returncode == status, (words, done.stdout, done.stderr)
    return done.stdout + done.stderr


class WithFile(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.file = self.password(PASSWORD + "\n")
        self.pdf = self.folder / "locked.pdf"

    def password(self, text, mode=0o600):
        path = self.folder / "password"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        path.chmod(mode)
        return path

    def run_program(self, *words, status=0):
        done = subprocess.run([PROGRAM, *map(str, words), *DAY], capture_output=True, timeout=60)
        self.assertEqual(done.returncode, status, done.stderr.decode())
        return done

    def make(self, *words):
        return self.run_program("sheet", PEBBLE, "--password-file", self.file, "-o", self.pdf, *words).stderr.decode()


class Sheet(WithFile):
    def test_it_opens_with_the_password_alone(self):
        said = self.make()
        self.assertIn("no longer archival", said)
        self.assertNotIn(PASSWORD, said)
        for word in ((), ("--password=",), ("--password=shed skin 43",)):
            self.assertIn("invalid password", tool("qpdf", *word, "--check", self.pdf, status=2))
        about = tool("qpdf", f"--password={PASSWORD}", "--check", "--show-encryption", self.pdf)
        self.assertIn("R = 6", about)
        self.assertIn("stream encryption method: AESv3", about)
        self.assertIn("string encryption method: AESv3", about)
        self.assertIn("No syntax or stream encoding errors found", about)
        self.assertEqual(set(re.findall(r"^(?:extract|print|modify)[\w ]*: (?!.*none)(.*)$", about, re.M)), {"allowed"})

    def test_nothing_stands_open_in_the_file(self):
        self.make()
        raw = self.pdf.read_bytes()
        for word in (b"Pebble", b"P\0e\0b\0b\0l\0e", b"Okafor", b"pdfaid", b"pdfuaid", b"baskleaf", PASSWORD.encode()):
            self.assertNotIn(word, raw)

    def test_the_content_is_the_sheets(self):
        self.make()
        plain = self.folder / "plain.pdf"
        self.run_program("sheet", PEBBLE, "-o", plain)
        self.assertEqual(tool("pdftotext", "-layout", "-upw", PASSWORD, self.pdf, "-"), tool("pdftotext", "-layout", plain, "-"))
        for page in (1, 2):
            tool("pdftoppm", "-r", "40", "-f", page, "-l", page, "-upw", PASSWORD, self.pdf, self.folder / "locked")
            tool("pdftoppm", "-r", "40", "-f", page, "-l", page, plain, self.folder / "plain")
        for one, other in zip(sorted(self.folder.glob("locked-*.ppm")), sorted(self.folder.glob("plain-*.ppm")), strict=True):
            self.assertEqual(one.read_bytes(), other.read_bytes())

    def test_what_it_claims(self):
        """All that PDF/UA asks, and of PDF/A's conditions only those broken that a password breaks; so PDF/A is not claimed."""
        self.make()
        self.assertEqual(set(broken(self.pdf, PASSWORD)), {"no-encryption", "pdfa-identification", "extension-schema"})
        open_again = self.folder / "open.pdf"
        tool("qpdf", f"--password={PASSWORD}", "--decrypt", "--stream-data=uncompress", self.pdf, open_again)
        raw = open_again.read_bytes()
        self.assertNotIn(b"pdfaid:part", raw)
        self.assertIn(b"<pdfuaid:part>1</pdfuaid:part>", raw)

    def test_no_two_runs_are_alike(self):
        """Salts are random, as they must be; the manual says so."""
        self.make()
        first = self.pdf.read_bytes()
        self.make()
        self.assertNotEqual(self.pdf.read_bytes(), first)
        self.assertTrue("no two runs give the same bytes" in " ".join((ROOT / "README.md").read_text().split()))

    def test_files_that_are_refused(self):
        for text, mode, wanted in ((PASSWORD, 0o640, "others on this machine may read it"), (PASSWORD, 0o604, "others on this machine may read it"),
                                   ("", 0o600, "one line"), ("\n", 0o600, "one line"), ("seven77\n", 0o600, "8 to 127"), ("x" * 128, 0o600, "8 to 127"),
                                   ("x" * 5000, 0o600, "8 to 127"), ("eidechsenhäute\n", 0o600, "without accents"),
                                   ("two lines\nof password\n", 0o600, "one line"), (b"shed\0skin\0of\0old\n", 0o600, "one line")):
            self.password(text, mode)
            done = self.run_program("sheet", PEBBLE, "--password-file", self.file, "-o", self.pdf, status=1)
            self.assertIn(wanted, done.stderr.decode(), text)
            self.assertNotIn("shed skin", done.stderr.decode())
            self.assertFalse(self.pdf.exists())
        for path in (self.folder / "none", self.folder):
            self.run_program("sheet", PEBBLE, "--password-file", path, "-o", self.pdf, status=1)
        self.run_program("sheet", PEBBLE, "--password-file", self.file, "--print", status=2)

    def test_longest_and_windows_line_end(self):
        for text in ("y" * 127 + "\n", "y" * 127 + "\r\n", "y" * 127):
            self.password(text)
            self.make()
            tool("qpdf", "--password=" + "y" * 127, "--check", self.pdf)


class Mail(WithFile):
    def message(self, *words, language="en"):
        return self.run_program("mail", PEBBLE, "--drafts", "-o", "-", "--language", language, *words).stdout

    def test_nothing_lies_open_beside_the_pdf(self):
        for language, wanted in (("en", "password"), ("es", "contraseña")):
            raw = self.message("--password-file", self.file, language=language)
            message = email.message_from_bytes(raw, policy=email.policy.default)
            letter, *sheets = message.iter_parts()
            self.assertEqual([part.get_content_type() for part in letter.iter_parts()], ["text/plain", "text/html"])
            self.assertEqual([sheet.get_content_type() for sheet in sheets], ["application/pdf"] * 2)
            self.assertIn(message["Subject"], ("DRAFT: Pebble", "BORRADOR: Pebble"), "the subject tells the name alone")
            for text in (part.get_content() for part in letter.iter_parts()):
                self.assertIn(wanted, text)
                self.assertIn("555-0142", text)
                for told in ("°C", "°F", "UVI", "calendar", "gecko", "Tonight", "Esta noche"):
                    self.assertNotIn(told, text, "what the PDF tells is not told beside it")
            for sheet in sheets:
                self.pdf.write_bytes(sheet.get_content())
                tool("qpdf", f"--password={PASSWORD}", "--check", self.pdf)
                self.assertIn("Pebble", tool("pdftotext", "-upw", PASSWORD, self.pdf, "-"))

    def test_the_message_stays_the_same_one(self):
        """Its bytes differ, its Message-ID must not: by that a second sending is noticed."""
        one, other = (email.message_from_bytes(self.message("--password-file", self.file)) for _ in range(2))
        self.assertEqual(one["Message-ID"], other["Message-ID"])
        self.assertNotEqual(one.get_payload(1).get_payload(), other.get_payload(1).get_payload())
        self.assertNotEqual(one["Message-ID"], email.message_from_bytes(self.message())["Message-ID"])


if __name__ == "__main__":
    unittest.main(verbosity=2)
