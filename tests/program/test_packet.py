#!/usr/bin/env python3
"""A roster's sheets in one run: what is refused, what is passed over, and that the same bytes come out however the work
is divided or interrupted. The manifest and the digests in it are read with Python's csv and hashlib."""
import csv
import ctypes
import hashlib
import os
import pty
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
ROSTERS = ROOT / "templates/rosters"
DAY = ("--today", "2026-03-18")
SLOW = 4 if os.environ.get("BASKLEAF_SANITIZED") else 1
SPECIES = ["leopard-gecko", "corn-snake", "crested-gecko", "ball-python"]
HAS_CSV = "CSV" in sys.argv[2:]


def run(*words):
    return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, cwd=ROOT, timeout=120 * SLOW)


def many(count, start=1):
    return "name,species,mass\n" + "".join(f"Pet {i},{SPECIES[i % 4]},{50 + i} g\n" for i in range(start, start + count))


def files(folder):
    return {p.name: p.read_bytes() for p in Path(folder).iterdir() if not p.name.startswith(".")}


def manifest(folder, name="manifest.csv"):
    with open(Path(folder) / name, newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


class Base(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.out = self.folder / "out"

    def write(self, text, name="roster.csv", encoding="utf-8"):
        path = self.folder / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode(encoding))
        return path

    def packet(self, roster, *words, status=0, out=None, drafts=True):
        done = run("packet", roster, "-o", out or self.out, *DAY, *(["--drafts"] if drafts else []), *words)
        self.assertEqual(done.returncode, status, done.stderr.decode())
        return done.stderr.decode()

    def refused(self, text, *wanted, name="roster.csv"):
        said = self.packet(self.write(text, name), status=1)
        for words in wanted:
            self.assertRegex(said, words)
        self.assertFalse(self.out.exists() and any(self.out.glob("*.pdf")), "nothing is made of a broken file")

    def check_sums(self, folder=None, name="manifest.csv"):
        rows = manifest(folder or self.out, name)
        for row in rows:
            if row["status"] == "made":
                data = (Path(folder or self.out) / row["file"]).read_bytes()
                self.assertEqual(hashlib.sha256(data).hexdigest(), row["pdf-sha256"])
        return rows


class Yaml(Base):
    def test_example(self):
        self.packet(ROSTERS / "autumn-day.yaml")
        rows = self.check_sums()
        self.assertEqual([(r["row"], r["status"], r["name"]) for r in rows],
                         [("1", "made", "Nettle"), ("2", "made", "Thistle"), ("3", "made", "Moss")])
        subprocess.run(["qpdf", "--check", self.out / rows[0]["file"]], check=True, capture_output=True)

    def test_broken(self):
        for text, words in (("animals: []\n", "at least one"), ("animals: 3\n", "a list"), ("roster: {}\n", "animals"),
                            ("animals: [{name: A}]\nother: 1\n", "unknown key 'other'"),
                            ("roster: {kind: adopt}\nanimals: [{name: A, species: corn-snake}]\n", r"roster\.yaml:1:16: visit.kind: there is no kind of sheet 'adopt'")):
            with self.subTest(text):
                self.refused(text, words, name="roster.yaml")

    def test_bad_rows(self):
        roster = self.write("animals:\n  - {name: A, species: corn-snake, wieght: 3 g}\n  - {name: B, species: corn-snake}\n"
                            "  - just words\n  - {species: corn-snake}\n", "roster.yaml")
        said = self.packet(roster, status=1)
        self.assertRegex(said, r"roster.yaml:2:\d+: unknown column 'wieght'")
        self.assertRegex(said, r"roster.yaml:4:5: ")
        self.assertRegex(said, r"roster.yaml:5:5: this row has no 'name'")
        self.assertEqual([r["status"] for r in manifest(self.out)], ["bad", "made", "bad", "bad"])

    def test_two_names_of_one_column(self):
        """Which of the two is meant nobody can know; an empty one says nothing."""
        roster = self.write("animals:\n  - {name: A, species: corn-snake, weight: 200 g, mass: 300 g}\n"
                            "  - {name: B, species: corn-snake, mass: , weight: 300 g}\n", "roster.yaml")
        said = self.packet(roster, status=1)
        self.assertRegex(said, r"roster.yaml:2:\d+: the column 'mass' stands twice")
        self.assertEqual([r["status"] for r in manifest(self.out)], ["bad", "made"])

    def test_signature(self):
        roster = self.write((ROSTERS / "autumn-day.yaml").read_text(), "day.yaml")
        said = self.packet(roster, status=1, drafts=False)
        self.assertIn("is a draft: no veterinarian has signed it", said)
        self.assertFalse(self.out.exists())
        before = roster.read_text()
        self.assertEqual(run("approve", roster, "--by", "Dr Ines Calder", *DAY).returncode, 0)
        self.assertEqual(re.sub(r"signed-off: \{.*?\}\}, ", "", roster.read_text()), before)
        self.packet(roster, drafts=False)
        text = subprocess.run(["pdftotext", self.out / "00001-nettle.pdf", "-"], capture_output=True, text=True, check=True).stdout
        self.assertIn("Dr Ines Calder", text)
        self.assertNotRegex(text, "(?i)draft")
        roster.write_text(roster.read_text().replace("38 g", "83 g"))
        said = self.packet(roster, status=1, drafts=False)
        self.assertIn("changed since: the visit record", said)
        self.assertIn("is a draft again", said)
        self.packet(roster, "--resume")
        text = subprocess.run(["pdftotext", self.out / "00001-nettle.pdf", "-"], capture_output=True, text=True, check=True).stdout
        self.assertRegex(text, "(?i)draft")

    def test_what_is_of_no_row_is_named_up_to_five(self):
        """In the order of their names; what is hidden, is no PDF or has no name before its ending is not the packet's. One row's own sheet is."""
        roster = self.write("roster: {date: 2026-03-18, kind: adoption}\nanimals: [{name: Fern, species: ball-python}]\n", "roster.yaml")
        self.packet(roster)
        (own,) = [name for name in files(self.out) if name.endswith(".pdf")]
        for name in (".hidden.pdf", ".pdf", "notes.txt", "pdf"):
            (self.out / name).write_text("x")
        self.assertNotIn("of no row", self.packet(roster, "--replace"))
        names = [f"{letter}.pdf" for letter in "fbdacegh"]
        for count in (1, 5, 6, 8):
            for name in names[:count]:
                (self.out / name).write_text("x")
            told = self.packet(roster, "--replace")
            named = ", ".join(sorted(names[:count])[:5])
            self.assertIn(f"{count} PDF files here are of no row of this roster: {named}{', ...' if count > 5 else ''}; --set-aside", told)
            self.assertNotIn(own, told)
        self.packet(roster, "--replace", "--set-aside")
        left = {path.name for path in self.out.iterdir() if path.name.endswith((".pdf", ".txt", "pdf"))}
        self.assertEqual(left, {own, ".hidden.pdf", ".pdf", "notes.txt", "pdf"})
        self.assertEqual({path.name for path in (self.out / "set-aside").iterdir()}, set(names))


@unittest.skipUnless(HAS_CSV, "built without libcsv")
class Csv(Base):
    def test_example(self):
        self.packet(ROSTERS / "spring-day.csv")
        rows = self.check_sums()
        self.assertEqual([r["file"] for r in rows], ["id-fs-101-juniper.pdf", "id-fs-102-clover.pdf", "id-fs-103-sorrel.pdf",
                                                     "id-fs-104-juniper.pdf"])
        text = subprocess.run(["pdftotext", self.out / "id-fs-102-clover.pdf", "-"], capture_output=True, text=True, check=True).stdout
        self.assertIn('"just in case"', " ".join(text.split()))

    def test_forms(self):
        plain = "name,species,mass\nPet,Corn snake,310 g\nOther,corn_snake,\n"
        self.packet(self.write(plain))
        wanted = files(self.out)
        forms = {
            "byte-order mark": "\ufeff" + plain,
            "semicolons": plain.replace(",", ";"),
            "tabs": plain.replace(",", "\t"),
            "sep line": "sep=;\r\n" + plain.replace(",", ";"),
            "mark and sep line": "\ufeffsep=;\n" + plain.replace(",", ";"),
            "CR LF": plain.replace("\n", "\r\n"),
            "CR": plain.replace("\n", "\r"),
            "no last line end": plain.rstrip("\n"),
            "quoted": re.sub(r"([^,\n]+)", r'"\1"', plain),
            "empty rows": plain.replace("Other", "\n,,\nOther") + ",,\n\n",
            "unit in the title": plain.replace("mass", "Mass (g)").replace("310 g", "310"),
            "passed over": plain.replace("mass\n", "mass,#kennel\n").replace("310 g", "310 g,K9"),
        }
        for form, text in forms.items():
            with self.subTest(form):
                out = self.folder / form
                self.packet(self.write(text), out=out)
                got = files(out)
                self.assertEqual([(n, d) for n, d in wanted.items() if n.endswith(".pdf")],
                                 [(n, got.get(n)) for n in wanted if n.endswith(".pdf")])

    def test_broken(self):
        head = "name,species\n"
        self.refused('name,"species\nA,corn-snake\n', r"roster.csv:1:1: .*never closed")
        self.refused(head + 'A,"corn-\nsn"a"ke"\n', r"roster.csv:2:1: .*quote stands inside", r"roster.csv:3:1: .*quote stands inside", "2 of 2 rows")
        self.refused((head + '"Zoë,corn-snake\nB",corn-snake\n').encode("latin-1"), r"roster.csv:2:1: .*Latin-1.*'CSV UTF-8'")
        self.refused(("namë,species\nA,corn-snake\n").encode("latin-1"), r"roster.csv:1:1: .*Latin-1.*'CSV UTF-8'")
        self.refused((head + "A,corn-snake\n").encode("utf-16"), r"UTF-16.*'CSV UTF-8'")
        self.refused(head + "A\x00,corn-snake\n", "no text")
        self.refused("", "is empty")
        self.refused(head, "names no animal")
        self.refused("name,spieces\nA,corn-snake\n", "unknown column 'spieces'; did you mean 'species'")
        self.refused("name\nA\n", "'name' and 'species' are needed")
        self.refused("name,species,Name\nA,corn-snake,B\n", "stands twice")
        self.refused(head + "A,corn-snake," + "x" * 70000 + "\n", "does not end within")

    def test_a_quote_left_open_costs_its_own_row_alone(self):
        """RFC 4180, 2.5 and 2.7: what follows the quote would be of its cell. The rows after it are read all the same."""
        far = "E,corn-snake,," + "x" * 30000 + "\n"
        for case, rows, words, made in (
                ("in the last row", 'A,corn-snake,\nC,corn-snake,\n"B,corn-snake,', "4:1: .*never closed", "23"),
                ("in the last row behind a stray one", 'A,corn-snake,\nB "b" b,"corn-snake,\n', "3:1: .*quote stands inside", "2"),
                ("between", 'A,corn-snake,\n"B,corn-snake,\nC,corn-snake,\n', "3:1: .*never closed", "24"),
                ("before a quoted cell", 'A,corn-snake,\n"B,corn-snake,\nC,corn-snake,\nD,corn-snake,"two, and"\n', "3:1: .*quote stands inside", "245"),
                ("farther than a row may reach", 'A,corn-snake,\nB,"corn-snake,\n' + 3 * far, "3:1: .*is a quote left open", "2456")):
            with self.subTest(case):
                said = self.packet(self.write("name,species,notes,#kennel\n" + rows), status=1, out=self.folder / case)
                self.assertRegex(said, "roster.csv:" + words)
                self.assertEqual(len(re.findall(r"roster.csv:\d", said)), 1, said)
                self.assertEqual("".join(r["line"] for r in self.check_sums(self.folder / case) if r["status"] == "made"), made)
        self.assertEqual(run("approve", self.folder / "roster.csv", "--by", "Dr Ines Calder", *DAY).returncode, 1)  # nothing is signed that cannot be read

    def test_a_stray_letter_costs_its_own_row_alone(self):
        """Bytes of Latin-1 and Windows-1252, a control character, and quotes that RFC 4180 does not know, each in one row of six."""
        rows = [b"Ana,corn-snake,", b"Zo\xeb,corn-snake,", b'B "b" b,corn-snake,', b'C"c,corn-snake,', b"D\x1b,corn-snake,", b'Eve,corn-snake,"two, and"']
        roster = self.write(b"name,species,notes\n" + b"\n".join(rows) + b"\n")
        said = self.packet(roster, status=1)
        for words in (r"csv:3:1: .*Latin-1", r"csv:4:1: .*quote stands inside", r"csv:5:1: .*quote stands inside", r"csv:6:1: .*control character", "4 of 6 rows were not made"):
            self.assertRegex(said, words)
        made = self.check_sums()
        self.assertEqual([(r["status"], r["line"], r["name"]) for r in made if r["status"] == "made"], [("made", "2", "Ana"), ("made", "7", "Eve")])
        self.assertEqual([r["line"] for r in made], ["2", "3", "4", "5", "6", "7"])
        self.assertTrue(all(r["reason"] for r in made[1:5]))
        self.assertEqual(run("approve", roster, "--by", "Dr Ines Calder", *DAY).returncode, 1)  # nothing is signed that cannot be read

    def test_a_stray_letter_behind_an_open_quote_ends_the_run(self):
        """Nobody knows whether the row ends with its line: what follows might be its own, or another animal's. Both quotes on the line: it does."""
        for notes, goes_on in (('"two\x1b, and"', True), ('"two\x1b', False), ('two\x1b"', False)):
            with self.subTest(notes):
                out = self.folder / f"out{len(notes)}{goes_on}"
                rows = ["A,corn-snake,", f"B,corn-snake,{notes}", "C,corn-snake,", "D,corn-snake,"]
                roster = self.write("name,species,notes\n" + "\n".join(rows) + "\n")
                self.assertRegex(self.packet(roster, status=1, out=out), r"csv:3:1: .*control character")
                self.assertEqual(any(out.glob("*.pdf")), goes_on)

    def test_bad_rows(self):
        roster = self.write("id,name,species,mass,hatched,age,email\n"
                            "1,Good,corn-snake,300 g,,,\n"
                            "2,Bare,corn-snake,300,,,\n"
                            "3,Lost,corm-snake,,,,\n"
                            "1,Double,corn-snake,,,,\n"
                            "4,\"Two\nlines\",corn-snake,,,,\n"
                            "5,Old,corn-snake,,2024,2 years,\n"
                            "6,Mail,corn-snake,,,,\"a@example.org\nBcc: b@example.org\"\n"
                            "7,Long,corn-snake,,,,,,surplus\n"
                            "---,Dash,corn-snake,,,,\n"
                            "8,Last,corn-snake,,,8 months,\n")
        said = self.packet(roster, status=1)
        for words in (r"csv:3:4: .*mass", r"csv:4:3: .*did you mean 'corn-snake'", r"csv:5:1: .*already in row 1", r"csv:6:2: .*one line",
                      r"csv:8:6: .*not both", r"csv:9:7: .*address", r"csv:11:9: .*under no title", r"csv:12:1: .*letter", "8 of 10 rows were not made"):
            self.assertRegex(said, words)
        rows = self.check_sums()
        self.assertEqual([r["status"] for r in rows], ["made"] + ["bad"] * 8 + ["made"])
        self.assertTrue(all(r["reason"] for r in rows[1:9]))
        self.assertEqual([r["line"] for r in rows], ["2", "3", "4", "5", "6", "8", "9", "11", "12", "13"])

    def test_names(self):
        names = ["../../etc/passwd", "/etc/passwd", "..", "CON", "nul.txt", "a" * 300, "\ue123", "Juniper", "Juniper", "juniper", "-rf", "."]
        roster = self.write("name,species\n" + "".join(f"{n},corn-snake\n" for n in names))
        before = sorted(p.name for p in self.folder.iterdir())
        said = self.packet(roster, status=1)  # no font has a letter of private use
        self.assertRegex(said, r"roster.csv:8:1: .*U\+E123")
        made = [r["file"] for r in self.check_sums() if r["status"] == "made"]
        self.assertEqual(len(set(made)), len(made))
        self.assertEqual(len(made), 11)
        self.assertEqual(sorted(p.name for p in self.folder.iterdir()), sorted(before + ["out"]))
        for name in made:
            self.assertRegex(name, r"^\d{5}-[a-z0-9][a-z0-9-]*\.pdf$")
        ids = self.write("id,name,species\n../../x,A,corn-snake\nCON,B,corn-snake\n", "ids.csv")
        self.packet(ids, out=self.folder / "ids")
        self.assertEqual(sorted(files(self.folder / "ids")), ["id-con-b.pdf", "id-x-a.pdf", "manifest.csv"])

    def test_a_species_that_the_clinics_folder_alone_has(self):
        """By its code, which is none of its names."""
        own = self.folder / "own"
        own.mkdir()
        sheet = (ROOT / "species-sheets/ball-python.yaml").read_text()
        for old, new in (("code: ball-python", "code: test-python"), ("en: ball python", "en: proof python"), ("es: pitón bola", "es: pitón de prueba"),
                         ("fr: python royal", "fr: python d'essai"), ("  also:", "  # also:")):
            self.assertIn(old, sheet)
            sheet = sheet.replace(old, new, 1)
        (own / "test-python.yaml").write_text(sheet)
        roster = self.write("name,species\nFern,test-python\nMoss,corn-snake\n")
        self.packet(roster, "--species-dir", own)
        self.assertEqual([row["status"] for row in self.check_sums()], ["made", "made"])
        self.assertRegex(self.packet(roster, out=self.folder / "without", status=1), r"csv:2:2: .*test-python")

    def test_signature(self):
        roster = self.write((ROSTERS / "spring-day.csv").read_text(), "day.csv")
        self.assertIn("no veterinarian", self.packet(roster, status=1, drafts=False))
        text = roster.read_bytes()
        done = run("approve", roster, "--by", "Dr Ines Calder", *DAY)
        self.assertEqual((done.returncode, done.stdout.decode().strip()), (0, f"{roster}.yaml"), done.stderr)
        self.assertTrue((roster.parent / "day.csv.yaml").read_text().endswith("  kind: adoption\n"))
        self.assertEqual(roster.read_bytes(), text)
        self.packet(roster, drafts=False)
        one = files(self.out)
        done = run("packet", roster, "-o", self.folder / "later", "--today", "2026-04-02")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(files(self.folder / "later"), one)
        roster.write_bytes(text.replace(b"52 g", b"25 g"))
        self.assertIn("changed since", self.packet(roster, status=1, drafts=False))

    def test_signing_refused(self):
        roster = self.write("name,species,mass\nA,corn-snake,3\nB,corn-snake,3 g\nC,no-snake,\n")
        done = run("approve", roster, "--by", "Dr Ines Calder", *DAY)
        self.assertEqual(done.returncode, 1)
        self.assertRegex(done.stderr.decode(), r"(?s)csv:2:3: .*csv:4:2: ")
        self.assertFalse(Path(f"{roster}.yaml").exists())

    def test_usage(self):
        roster = self.write(many(3))
        for words in (["--shard", "0/2"], ["--shard", "3/2"], ["--shard", "2"], ["--jobs", "0"], ["--jobs", "x"], ["--jobs", "1e3"]):
            self.packet(roster, *words, status=2)
        self.assertEqual(run("packet", "-", "--drafts").returncode, 2)
        self.packet(self.folder / "no.csv", status=1)
        self.packet(roster, status=3, out=self.folder / "no/such/parent")


@unittest.skipUnless(HAS_CSV, "built without libcsv")
class Divided(Base):
    def setUp(self):
        super().setUp()
        self.roster = self.write(many(24).replace("Pet 7,ball-python", "Pet 7,no-python"))
        self.packet(self.roster, status=1)
        self.whole = files(self.out)

    def test_jobs(self):
        said = self.packet(self.roster, status=1)
        for jobs in (2, 3, 40):
            other = self.folder / f"jobs-{jobs}"
            self.assertEqual(self.packet(self.roster, "--jobs", jobs, out=other, status=1), said)
            self.assertEqual(files(other), self.whole)

    def merged(self, folder, shards):
        names = [f"manifest-{i}-of-{shards}.csv" for i in range(1, shards + 1)]
        got = files(folder)
        parts = [got.pop(name).split(b"\r\n", 1) for name in names]
        self.assertEqual(len({head for head, _ in parts}), 1)
        got["manifest.csv"] = parts[0][0] + b"\r\n" + b"".join(rest for _, rest in parts)
        return got

    def test_shards(self):
        for shards in (1, 5, 24):
            out = self.folder / f"shards-{shards}"
            for i in range(shards, 0, -1):
                done = run("packet", self.roster, "-o", out, *DAY, "--drafts", "--shard", f"{i}/{shards}")
                self.assertIn(done.returncode, (0, 1), done.stderr)
            self.assertEqual(files(out) if shards == 1 else self.merged(out, shards), self.whole)

    def test_parallel(self):
        if not shutil.which("parallel"):
            self.skipTest("GNU parallel is not installed")
        out = self.folder / "parallel"
        done = subprocess.run(["parallel", "--will-cite", "-q", "-j2", str(PROGRAM), "packet", str(self.roster), "-o", str(out), *DAY,
                               "--drafts", "--shard", "{}/4", ":::", "1", "2", "3", "4"], capture_output=True, cwd=ROOT, timeout=120 * SLOW,
                              env={**os.environ, "HOME": str(self.folder)})
        self.assertEqual(done.returncode, 1, done.stderr)  # one of the four parts has the bad row
        self.assertEqual(self.merged(out, 4), self.whole)

    def test_resume_changes(self):
        times = {p.name: p.stat().st_mtime_ns for p in self.out.glob("*.pdf")}
        self.roster.write_text(self.roster.read_text().replace("Pet 3,ball-python,53 g", "Pet 3,ball-python,54 g"))
        (self.out / "00012-pet-12.pdf").unlink()
        (self.out / "00015-pet-15.pdf").write_bytes(b"%PDF-1.7 something else")
        self.packet(self.roster, "--resume", status=1)
        changed = sorted(n for n, t in times.items() if (self.out / n).stat().st_mtime_ns != t)
        self.assertEqual(changed, ["00003-pet-3.pdf", "00012-pet-12.pdf", "00015-pet-15.pdf"])
        fresh = self.folder / "fresh"
        self.packet(self.roster, out=fresh, status=1)
        self.assertEqual(files(self.out), files(fresh))

    def test_two_runs(self):
        big = self.write(many(400), "big.csv")
        self.out = self.folder / "two"
        first = subprocess.Popen([PROGRAM, "packet", big, "-o", self.out, *DAY, "--drafts"], cwd=ROOT, stdout=subprocess.DEVNULL)
        while not (self.out / ".manifest.csv.new").exists() and first.poll() is None:
            time.sleep(0.001)
        time.sleep(0.02)
        self.assertIn("another run is writing", self.packet(big, status=3))
        self.assertEqual(first.wait(), 0)
        self.check_sums()


@unittest.skipUnless(HAS_CSV, "built without libcsv")
class Changed(Base):
    def test_a_signed_roster_prints_what_was_signed(self):
        """Its row 399 is changed in place while the run is under way: none of the new content comes out as signed."""
        for jobs in ("1", "2"):
            roster = self.write(many(400), f"changed-{jobs}.csv")
            self.assertEqual(run("approve", roster, "--by", "Dr Ines Calder", *DAY).returncode, 0)
            out = self.folder / f"changed-{jobs}"
            text = roster.read_bytes()
            line = text.splitlines(keepends=True)[399]
            first = subprocess.Popen([PROGRAM, "packet", roster, "-o", out, *DAY, "--jobs", jobs], cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
            while not list(out.glob("*.pdf")) and first.poll() is None:
                time.sleep(0.001)
            with open(roster, "r+b") as file:
                file.seek(text.index(line))
                file.write(line.replace(b"ball-python", b"corn-snake "))
            said = first.communicate()[1].decode()
            self.assertEqual(first.returncode, 3, said)
            self.assertIn("changed after its signature", said)
            self.assertEqual([p.name for p in out.glob("00399-*.pdf")], [])


@unittest.skipUnless(HAS_CSV, "built without libcsv")
class Killed(Base):
    @classmethod
    def setUpClass(cls):
        """Helpers whose parent was killed become this process's own: it waits for them, as long as they take and no longer. The first
        process of the system may take seconds to."""
        PR_SET_CHILD_SUBREAPER = 36  # Linux, prctl(2)
        cls.assertEqual(cls(), ctypes.CDLL(None).prctl(PR_SET_CHILD_SUBREAPER, 1, 0, 0, 0), 0)

    def kills(self, *words):
        """A hundred kills in all, each at another moment, each followed by a look at what stands there."""
        count = 40
        roster = self.write(many(count))
        begin = time.monotonic()
        self.packet(roster, *words)
        lasts = time.monotonic() - begin
        whole = files(self.out)
        out = self.folder / "killed"
        kept = 0
        for i in range(50):
            run_ = subprocess.Popen([PROGRAM, "packet", roster, "-o", out, *DAY, "--drafts", "--resume", *words], cwd=ROOT,
                                    stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
            time.sleep(lasts * (i % 25 + 1) / 25)
            os.killpg(run_.pid, signal.SIGKILL if i % 5 else signal.SIGTERM)
            run_.wait()
            while True:  # its helpers too
                try:
                    os.waitpid(-run_.pid, 0)
                except ChildProcessError:
                    break
            if not out.exists():
                continue
            got = files(out)
            for name, data in got.items():
                self.assertEqual(data, whole[name], f"{name} is not whole after kill {i}")
            kept = max(kept, len(got))
            if "manifest.csv" in got or i % 10 == 9:
                shutil.rmtree(out)
        self.assertGreater(kept, 0)
        self.packet(roster, "--resume", out=out)
        self.assertEqual(files(out), whole)

    def test_one_job(self):
        self.kills()

    def test_two_jobs(self):
        self.kills("--jobs", "2")

    def test_resume_goes_on(self):
        roster = self.write(many(300))
        run_ = subprocess.Popen([PROGRAM, "packet", roster, "-o", self.out, *DAY, "--drafts"], cwd=ROOT, stdout=subprocess.DEVNULL)
        while len(list(self.out.glob("*.pdf"))) < 20 and run_.poll() is None:
            time.sleep(0.001)
        run_.kill()
        run_.wait()
        done = run("packet", roster, "-o", self.out, *DAY, "--drafts", "--resume")
        made, kept = map(int, re.search(rb"(\d+) made, (\d+) kept", done.stdout).groups())
        self.assertEqual(made + kept, 300)
        self.assertGreaterEqual(kept, 19)
        self.assertEqual([p.name for p in self.out.iterdir() if p.name.startswith(".manifest")], [])


@unittest.skipUnless(HAS_CSV, "built without libcsv")
class Terminal(Base):
    def test_progress(self):
        roster = self.write(many(30))
        ours, theirs = pty.openpty()
        done = subprocess.Popen([PROGRAM, "packet", roster, "-o", self.out, *DAY, "--drafts"], cwd=ROOT, stdout=subprocess.DEVNULL, stderr=theirs)
        os.close(theirs)
        said = b""
        try:
            while chunk := os.read(ours, 4096):
                said += chunk
        except OSError:
            pass  # Linux says so when the other end closes
        self.assertEqual(done.wait(), 0)
        os.close(ours)
        self.assertIn(b"30 of 30, 0:00 left", said)
        self.assertEqual(self.packet(roster), "")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
