#!/usr/bin/env python3
"""Where the program meets its surroundings: descriptors that are closed, files that may not grow, permissions and owners, links, pipes, spreadsheets
that run what looks like a formula, mail addresses that are two, what a killed run left."""
import csv
import json
import os
import re
import resource
import signal
import stat
import subprocess
import sys
import tempfile
import unicodedata
import unittest
from decimal import Decimal
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
VISIT = ROOT / "templates/visits/biscuit-ball-python.yaml"
TODAY = ("--today", "2026-03-20")


def run(*words, **more):
    return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True, cwd=ROOT, timeout=60, **more)


def with_value(record, key, value):
    """Sets a key such as diet[0].meal."""
    *parts, last = key.split(".")
    for part in parts:
        name, bracket, _ = part.partition("[")
        record = record.setdefault(name, [{}] if bracket else {})
        record = record[0] if bracket else record
    record[last] = value


class Limits(unittest.TestCase):
    ROWS = [[cell.strip() for cell in line.split("|")] for line in (ROOT / "tests/program/limits.txt").read_text().splitlines() if line and not line.startswith("#")]

    def refused(self, values, warmth):
        """The keys that are told to lie outside, of a record of all of them. What is as hot as its limit is believed in F alone: 90 C is a slip for 90 F."""
        record = {"visit": {"date": "2026-03-14", "kind": "checkout"}, "patient": {"name": "Fern", "species": "red-eared-slider"}}
        for (key, _, _, unit, _), value in zip(self.ROWS, values):
            unit, value = (warmth, Decimal(value) * 9 / 5 + 32) if unit == "C" and warmth == "F" else (unit, value)
            with_value(record, key, f"{value} {unit}".strip())
        done = subprocess.run([PROGRAM, "explain", *TODAY, "-"], input=json.dumps(record), capture_output=True, text=True, cwd=ROOT, timeout=60)
        self.assertEqual(done.returncode, 1, "keys that are not written there are missing")
        told = re.findall(r"^<standard input>:\d+:\d+: (\S+): '[^']*' is outside what is possible", done.stderr, re.M)
        return {re.sub(r"\[\d+\]", "[0]", key) for key in told}

    def test_each_key_with_limits_is_listed(self):
        told = subprocess.run([PROGRAM, "check", "--format", "visit"], capture_output=True, text=True, cwd=ROOT, check=True).stdout
        bounded = re.findall(r"^ +([\w-]+): (?:quantity|from-to)[^.]*?, (?:whole, )?[-\d.]+ to [-\d.]+[.,]", told, re.M)
        self.assertEqual(sorted(bounded), sorted(row[0].split(".")[-1] for row in self.ROWS))

    def test_each_limit_takes_itself_and_refuses_what_lies_beyond(self):
        keys = {row[0] for row in self.ROWS}
        whole = {"enclosure.hides", "enclosure.animals", "enclosure.males", "medicines[0].doses", "follow-up.aftercare[0].times", "targets.powders[0].per-week",
                 "targets.powders[0].every-meals", "decisions[0].place"}
        for end, beyond, warmth in ((1, -1, "C"), (2, 1, "F")):
            self.assertEqual(self.refused([row[end] for row in self.ROWS], warmth), set(), end)
            out = [int(row[end]) + beyond if row[0] in whole else f"{Decimal(row[end]) + beyond * Decimal('0.00001'):f}" for row in self.ROWS]
            self.assertEqual(keys - self.refused(out, warmth), set(), end)


class InFolder(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))


class Descriptors(InFolder):
    def test_closed_ones_take_no_words(self):
        """What is said about a bad row must not land in the manifest that is open meanwhile."""
        roster = self.folder / "roster.csv"
        roster.write_text("name,species\nFern,ball-python\nMoss,no-such-animal\n")
        for closed in ("<&-", ">&-", "2>&-", "<&- >&- 2>&-"):
            out = self.folder / f"out{len(closed)}"
            done = subprocess.run(["bash", "-c", f'"$0" "$@" {closed}', PROGRAM, "packet", roster, "--drafts", "-o", out, *TODAY], capture_output=True, cwd=ROOT)
            self.assertIn(done.returncode, (1, 3), closed)
            rows = list(csv.reader((out / "manifest.csv").open(newline="")))
            self.assertEqual([len(row) for row in rows], [9, 9, 9], closed)
            self.assertEqual([row[1] for row in rows[1:]], ["made", "bad"], closed)

    def test_a_file_that_may_not_grow(self):
        def limit():
            resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))
        done = run("sheet", VISIT, "-o", self.folder / "sheet.pdf", *TODAY, preexec_fn=limit)
        self.assertEqual(done.returncode, 3, done.stderr)
        self.assertIn("File too large", done.stderr)
        self.assertEqual(list(self.folder.iterdir()), [])

    def test_pipes_that_nobody_writes_to(self):
        pipe = self.folder / "pipe.png"
        os.mkfifo(pipe)
        clinic = self.folder / "clinic.yaml"
        clinic.write_text((ROOT / "templates/clinic.yaml").read_text() + "logo: pipe.png\n")
        done = run("sheet", VISIT, "--clinic", clinic, "-o", "-", *TODAY)
        self.assertEqual(done.returncode, 1)
        self.assertIn("pipe.png' is empty", done.stderr)
        self.assertEqual(run("check", pipe).returncode, 1)

    def test_a_wish_that_nobody_knows(self):
        for option, wish in (("--paper", "a3"), ("--units", "stones"), ("--paper", "A4")):
            for out in (self.folder / "sheet.pdf", "-"):
                done = run("sheet", VISIT, option, wish, "-o", out, *TODAY)
                self.assertEqual((done.returncode, done.stdout), (2, ""), (option, wish))
                self.assertRegex(done.stderr, rf"^baskleaf: '{option}' takes \w+ or \w+, not '{wish}' \[B\d+\]\n$")
        self.assertEqual(list(self.folder.iterdir()), [])

    def test_version(self):
        done = run("--version")
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        self.assertRegex(done.stdout, r"^baskleaf \d+\.\d+\.\d+, formulas \d+\n$")


class Files(InFolder):
    def test_each_page_says_which_of_how_many_it_is(self):
        out = self.folder / "pages.pdf"
        self.assertEqual(run("sheet", VISIT, "--kind", "reading", "-o", out, *TODAY).returncode, 0)
        pages = subprocess.run(["pdftotext", out, "-"], capture_output=True, text=True, check=True).stdout.split("\f")[:-1]
        self.assertGreater(len(pages), 1)
        for number, page in enumerate(pages, 1):
            self.assertEqual(re.findall(r"page (\d+) of (\d+)", page), [(str(number), str(len(pages)))])

    def test_what_is_refused_makes_no_file(self):
        """The fault stands first and what follows it is good: the good does not make up for it."""
        good, out = VISIT.read_text(), self.folder / "none.pdf"
        for fault, line in (("findings:\n", "  - {code: nosuch, severity: mild}\n"), ("findings:\n", "  - {code: shell-rot, severity: mild}\n"),
                            ("done-today: [", "nosuch, "), ("findings:\n", "  - {code: mouth, severity: nosuch}\n")):
            self.assertIn(fault, good)
            record = self.folder / "visit.yaml"
            record.write_text(good.replace(fault, fault + line))
            for command in ("sheet", "approve", "check", "explain"):
                before = record.read_bytes()
                words = {"sheet": ("-o", out), "explain": ("-o", out), "approve": ("--by", "Dr Ines Calder")}.get(command, ())
                done = run(command, record, *words, *TODAY)
                with self.subTest(line, command=command):
                    self.assertEqual((done.returncode, out.exists(), record.read_bytes()), (1, False, before), done.stderr)

    def test_the_umask_holds(self):
        for umask, mode in ((0o077, 0o600), (0o027, 0o640), (0o022, 0o640)):
            out = self.folder / f"{umask:o}.pdf"
            self.assertEqual(run("sheet", VISIT, "-o", out, *TODAY, umask=umask).returncode, 0)
            self.assertEqual(stat.S_IMODE(out.stat().st_mode), mode, oct(umask))

    def test_signing_keeps_owner_permissions_and_links(self):
        record, link = self.folder / "visit.yaml", self.folder / "link.yaml"
        record.write_text(VISIT.read_text())
        record.chmod(0o664)
        if os.geteuid() == 0:
            os.chown(record, 1234, 1235)
        before = record.stat()
        link.symlink_to("visit.yaml")
        done = run("approve", link, "--by", "Dr Ines Calder", *TODAY)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertTrue(link.is_symlink())
        after = record.stat()
        self.assertEqual((after.st_uid, after.st_gid, after.st_mode), (before.st_uid, before.st_gid, before.st_mode))
        self.assertIn("Dr Ines Calder", record.read_text())

    def test_what_a_killed_run_left_is_swept_and_nothing_else(self):
        left, young = self.folder / ".baskleaf-0011223344556677", self.folder / ".other"
        left.write_text("half a sheet")
        young.write_text("somebody's")
        self.assertEqual(run("sheet", VISIT, "-o", self.folder / "sheet.pdf", *TODAY).returncode, 0)
        self.assertEqual(sorted(p.name for p in self.folder.iterdir()), [".other", "sheet.pdf"])

    def test_a_temporary_file_in_use_is_not_swept(self):
        import fcntl
        used = self.folder / ".baskleaf-8899aabbccddeeff"
        with used.open("w") as file:
            fcntl.flock(file, fcntl.LOCK_EX)
            self.assertEqual(run("sheet", VISIT, "-o", self.folder / "sheet.pdf", *TODAY).returncode, 0)
            self.assertTrue(used.exists())


class Spreadsheets(InFolder):
    """OWASP, CSV Injection: cells that begin with = + - @, a tab or a return. Some keyboards write these signs full-width (Unicode, Halfwidth and Fullwidth Forms)."""

    def test_no_cell_is_a_formula_and_each_can_be_had_back(self):
        names = ["=cmd|' /C calc'!A0", "+1+1", "-2+3", "@SUM(A1)", "'quoted", "Fern", "=HYPERLINK(\"https://example.org\",\"x\")",
                 "\N{FULLWIDTH EQUALS SIGN}1+1", "\N{FULLWIDTH PLUS SIGN}1", "\N{FULLWIDTH HYPHEN-MINUS}1", "\N{FULLWIDTH COMMERCIAL AT}SUM(A1)",
                 "Fern;=1+1;x", "Ana,=1+1", "Bo;'x", ";=1+1", "a;\"=1+1\"", "\"=1+1\"", "a; =b", "\N{FULLWIDTH LATIN CAPITAL LETTER A}na"]
        roster = self.folder / "roster.csv"
        with roster.open("w", newline="") as file:
            writer = csv.writer(file)
            writer.writerow(["name", "species"])
            writer.writerows([name, "no-such-animal" if name == "Fern" else "ball-python"] for name in names)
        done = run("packet", roster, "--drafts", "-o", self.folder / "out", *TODAY)
        self.assertIn(done.returncode, (0, 1), done.stderr)
        rows = list(csv.DictReader((self.folder / "out/manifest.csv").open(newline="")))
        self.assertEqual(len(rows), len(names))
        for row, name in zip(rows, names):
            for cell in row.values():
                # a spreadsheet that parts lists by semicolons parts our cells there too, and may take their quotes for its own
                for part in re.split("[,;\t]", cell):
                    self.assertNotIn(unicodedata.normalize("NFKC", part.lstrip('"')[:1] or "x"), "=+-@\t\r")
            self.assertEqual(re.sub("(^|[,;\t])'", r"\1", row["name"]), name)
        self.assertFalse(rows[-1]["name"].startswith("'"), "a full-width letter begins no formula")


class Addresses(InFolder):
    """RFC 5322, 3.4.1 and RFC 5321, 4.5.3.1; the examples are made after them."""

    def mail(self, address):
        record = self.folder / "visit.yaml"
        record.write_text(f'visit: {{date: 2026-03-14, kind: checkout}}\npatient: {{name: Fern, species: ball-python}}\nkeeper: {{name: Ana, email: "{address}"}}\n')
        return run("mail", record, "--drafts", "-o", "-", *TODAY)

    def test_one_address(self):
        for address in ("ana@example.org", "ana.sol+fern@mail.example.org", "o'neil_9@xn--bcher-kva.example.org", "a" * 64 + "@example.org"):
            done = self.mail(address)
            self.assertEqual(done.returncode, 0, (address, done.stderr))

    def test_anything_else(self):
        for address in ("ana@example.org, eve@example.net", "ana@example.org;eve@example.net", "ana", "ana@", "@example.org", "ana@@example.org", "ana@example..org", ".ana@example.org",
                        "ana @example.org", "Ana <ana@example.org>", "ana@" + "x" * 250 + ".org"):
            done = self.mail(address)
            self.assertEqual((done.returncode, done.stdout), (1, ""), address)
            self.assertIn("mail address", done.stderr)


if __name__ == "__main__":
    signal.signal(signal.SIGPIPE, signal.SIG_DFL)
    unittest.main(argv=sys.argv[:1], verbosity=2)
