#!/usr/bin/env python3
"""`sheet --print`: against Debian's own cupsd on loopback, where it is installed, and against a stand-in that fails as no real server would
on demand. What a job must hold: RFC 8011 (copies, sides, media) and PWG 5101.1 (names of paper)."""
import os
import re
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
import cupsd  # noqa: E402
import ipp  # noqa: E402
from tray import Tray  # noqa: E402

PROGRAM = Path(sys.argv.pop(1)).resolve()
ROOT = Path(__file__).resolve().parents[2]
BISCUIT = ROOT / "templates/visits/biscuit-ball-python.yaml"
DAY = ("--today", "2026-03-17")
LETTER, A4 = "612 x 792 pts", "595.28 x 841.89 pts"  # ANSI X3.151; ISO 216


class Prints(unittest.TestCase):
    server = ""

    @classmethod
    def setUpClass(cls):
        cls.folder = Path(cls.enterClassContext(tempfile.TemporaryDirectory()))
        cls.signed = cls.folder / "visit.yaml"
        cls.signed.write_text(BISCUIT.read_text())
        done = cls.run_program("approve", cls.signed, "--by", "Dr Ines Calder", *DAY)
        assert done.returncode == 0, done.stderr

    @classmethod
    def run_program(cls, *words, **more):
        # no wishes of whoever runs the tests, and the messages in English
        environment = {name: value for name, value in os.environ.items() if name not in ("LPDEST", "PRINTER", "CUPS_SERVER")}
        environment |= {"CUPS_SERVER": cls.server, "HOME": str(cls.folder), "LC_ALL": "C"}
        return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True, cwd=cls.folder, timeout=120, env=environment, **more)

    def sheet(self, *words, status=0):
        done = self.run_program("sheet", *words, *DAY)
        self.assertEqual(done.returncode, status, done.stderr)
        return done

    def paper_of(self, pdf):
        said = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=True).stdout
        size = re.search(r"Page size: +([\d.]+) x ([\d.]+ pts)", said)
        return f"{float(size.group(1)):g} x {size.group(2)}"


@unittest.skipUnless(cupsd.PROGRAM, "cupsd is not installed (cups-daemon)")
class RealServer(Prints):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.cupsd = cupsd.Cupsd([cupsd.Printer("Front", "Letter", duplex=True, default=True), cupsd.Printer("Back-Room", "A4"),
                                 cupsd.Printer("Labels", "A5"), cupsd.Printer("Plain", None), cupsd.Printer("Closed", "A4", accepting=False)])
        cls.server = f"127.0.0.1:{cls.cupsd.port}"

    @classmethod
    def tearDownClass(cls):
        cls.cupsd.end()

    def printed(self, *words):
        """(the file that was kept, the printer, the job's attributes, what was said)"""
        kept = self.folder / "kept.pdf"
        done = self.sheet(*words, "-o", kept)
        printer, number = re.fullmatch(rf"{re.escape(str(kept))}\n(\S+): job (\d+)\n", done.stdout).groups()
        self.assertEqual(self.cupsd.job_bytes(int(number)), kept.read_bytes(), "the job's bytes are the sheet's")
        status, job = ipp.ask(self.cupsd.port, ipp.GET_JOB_ATTRIBUTES, [(ipp.URI, "job-uri", f"ipp://localhost/jobs/{number}")])
        self.assertEqual(status, 0)
        self.assertEqual(job["document-format"], ["application/pdf"])
        return kept, printer, job, done.stderr

    def test_the_default_printer_gives_its_paper(self):
        kept, printer, job, said = self.printed(self.signed, "--print")
        self.assertEqual((printer, self.paper_of(kept)), ("Front", LETTER))
        self.assertEqual((job["media"], job["sides"], job["copies"]), (["na_letter_8.5x11in"], ["two-sided-long-edge"], [1]))
        self.assertEqual(job["job-name"], ["biscuit-rosa-lind-2026-03-14.pdf"])
        self.assertIn("the printer 'Front' stands still", said)

    def test_a_printer_by_name_with_copies(self):
        for words in ((self.signed, "--print", "Back-Room", "--copies", "3"), ("--print", "Back-Room", self.signed, "--copies=3"),
                      ("--print=Back-Room", "--copies", "3", self.signed)):
            kept, printer, job, _ = self.printed(*words)
            self.assertEqual((printer, self.paper_of(kept)), ("Back-Room", A4))
            self.assertEqual((job["media"], job["sides"], job["copies"]), (["iso_a4_210x297mm"], ["one-sided"], [3]))

    def test_print_before_the_record_is_the_default(self):
        _, printer, _, _ = self.printed("--print", self.signed)
        self.assertEqual(printer, "Front")

    def test_paper_that_is_asked_for(self):
        kept, _, job, _ = self.printed(self.signed, "--print", "--paper", "a4")
        self.assertEqual((self.paper_of(kept), job["media"]), (A4, ["iso_a4_210x297mm"]))

    def test_paper_that_the_user_has_set_for_a_printer(self):
        options = self.folder / ".cups/lpoptions"  # as lpoptions(1) keeps it
        options.parent.mkdir()
        options.write_text("Dest Front media=A4\nDest Back-Room media=na_letter_8.5x11in\n")
        try:
            for name, paper in (("Front", A4), ("Back-Room", LETTER)):
                self.assertEqual(self.paper_of(self.printed(self.signed, "--print", name)[0]), paper)
        finally:
            options.unlink()
            options.parent.rmdir()

    def test_a_printer_with_other_paper_or_none(self):
        for name in ("Labels", "Plain"):
            kept, _, job, said = self.printed(self.signed, "--print", name)
            self.assertEqual((self.paper_of(kept), job["media"]), (A4, ["iso_a4_210x297mm"]), "the clinic's own paper")
            self.assertIn(f"the printer '{name}' does not say that it holds A4 or Letter", said)

    def test_nothing_is_written_unless_asked_for(self):
        (self.folder / "out").mkdir(exist_ok=True)
        self.sheet(self.signed, "--print")
        self.assertEqual(list((self.folder / "out").iterdir()), [])

    def refused(self, *words, status):
        before = self.cupsd.jobs()
        done = self.sheet(*words, status=status)
        self.assertEqual((self.cupsd.jobs(), done.stdout), (before, ""))
        return done.stderr

    def test_a_missing_printer_lists_those_that_exist(self):
        said = self.refused(self.signed, "--print", "Fornt", status=1)
        self.assertIn("there is no printer 'Fornt'; there are: Back-Room, Closed, Front, Labels, Plain", said)

    def test_a_printer_that_takes_no_jobs(self):
        said = self.refused(self.signed, "--print", "Closed", status=3)
        self.assertIn("the printer 'Closed' did not take the sheet: ", said)
        self.assertIn("not accepting jobs", said)

    def test_drafts(self):
        said = self.refused(BISCUIT, "--print", status=1)
        self.assertIn("is a draft", said)
        kept, _, _, _ = self.printed(BISCUIT, "--print", "--drafts")
        text = subprocess.run(["pdftotext", kept, "-"], capture_output=True, text=True, check=True).stdout
        self.assertIn("DRAFT", text.upper())

    def test_no_printer_is_the_default(self):
        for printers, status, wanted in (([cupsd.Printer("One", "A4"), cupsd.Printer("Two", "A4")], 1, "no printer is the default; name one of: One, Two"),
                                         ([], 3, "the print system has no printer yet")):
            own = cupsd.Cupsd(printers)
            try:
                type(self).server = f"127.0.0.1:{own.port}"
                self.assertIn(wanted, self.sheet(self.signed, "--print", status=status).stderr)
            finally:
                type(self).server = f"127.0.0.1:{self.cupsd.port}"
                own.end()


class StandIn(Prints):
    def setUp(self):
        self.tray = Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.printers = Tray(self.tray)
        type(self).server = f"127.0.0.1:{self.printers.port}"
        self.addCleanup(self.printers.server_close)
        self.addCleanup(self.printers.shutdown)

    def test_the_bytes(self):
        self.assertEqual(self.sheet(self.signed, "--print").stdout, "Tray: job 1\n")
        (printed,) = self.tray.glob("*.pdf")
        kept = self.folder / "kept.pdf"
        self.sheet(self.signed, "-o", kept)
        self.assertEqual(printed.read_bytes(), kept.read_bytes())

    def test_a_job_that_is_refused(self):
        (self.tray / "jam").touch()
        self.assertIn("did not take the sheet: out of paper", self.sheet(self.signed, "--print", status=3).stderr)

    def test_a_line_that_is_cut(self):
        (self.tray / "cut").touch()
        done = self.sheet(self.signed, "--print", status=3)
        self.assertIn("look whether it prints before you try again", done.stderr)
        self.assertEqual((done.stdout, self.printers.canceled), ("", [1]))

    def test_a_server_that_says_nothing(self):
        (self.tray / "silent").touch()
        start = time.monotonic()
        self.assertIn("no print system answers", self.sheet(self.signed, "--print", "Tray", status=3).stderr)
        self.assertLess(time.monotonic() - start, 25)
        (self.tray / "silent").unlink()

    def test_no_server(self):
        self.printers.server_close()
        self.assertIn(f"no print system answers at 127.0.0.1:{self.printers.port}", self.sheet(self.signed, "--print", status=3).stderr)

    def test_usage(self):
        for words, wanted in ((("--copies", "2"), "needs --print"), (("--print", "-o", "-"), "both want the sheet"),
                              (("--print", "--copies", "0"), "1 to 99"), (("--print", "--copies", "100"), "1 to 99"),
                              (("--print", "--copies", "two"), "1 to 99"), (("--print", "Tray", "more"), "one word too many")):
            self.assertIn(wanted, self.sheet(self.signed, *words, status=2).stderr)
        self.assertEqual(list(self.tray.iterdir()), [])


if __name__ == "__main__":
    if not cupsd.PROGRAM:
        print("cupsd is not installed (cups-daemon): printing is tried on a stand-in alone")
    unittest.main(verbosity=2)
