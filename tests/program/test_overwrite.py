#!/usr/bin/env python3
"""No command writes over what it did not make, nor over what it reads, however the file is spelled; names that would meet do not."""
import os
import subprocess
import sys
import tempfile
import unicodedata
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = ("--today", "2026-03-20")
RECORD = """visit: {date: 2026-03-14, kind: checkout}
patient: {name: %s, species: ball-python}
keeper: {name: %s, email: rosa.lind@example.org}
"""


def run(*words, cwd=None, stdin=None):
    return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True, input=stdin, cwd=cwd or ROOT, timeout=60)


class InFolder(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.record = self.write("rec.yaml", "Biscuit", "Rosa Lind")

    def write(self, name, animal, keeper):
        path = self.folder / name
        path.write_text(RECORD % (animal, keeper), encoding="utf-8")
        return path

    def refused(self, done, path, text, word):
        self.assertEqual(done.returncode, 1, done.stdout + done.stderr)
        self.assertIn(word, done.stderr)
        self.assertEqual(path.read_text(encoding="utf-8"), text)


class Inputs(InFolder):
    def test_the_record_is_not_turned_into_its_sheet(self):
        text = self.record.read_text()
        (self.folder / "soft").symlink_to(self.record)
        os.link(self.record, self.folder / "hard.yaml")
        (self.folder / "sub").mkdir()
        spelled = (self.record, self.folder / "." / "rec.yaml", self.folder / "sub/../rec.yaml", self.folder / "soft", self.folder / "hard.yaml")
        for command in ("sheet", "mail", "dates", "explain"):
            for output in spelled:
                for more in ((), ("--replace",)):
                    words = [command, self.record, "-o", output, *more, *TODAY]
                    done = run(*words, *(["--drafts"] if command == "mail" else []))
                    self.refused(done, self.record, text, "is read by this command")
        self.assertTrue((self.folder / "soft").is_symlink())

    def test_nor_where_the_shell_hands_it_over(self):
        """A record that a shell put at standard input is the file that it was taken from."""
        text = self.record.read_text()
        for command in ("sheet", "mail", "dates", "explain"):
            for more in ((), ("--replace",)):
                with self.record.open() as file:
                    words = [command, "-", "-o", self.record, *more, *TODAY, *(["--drafts"] if command == "mail" else [])]
                    done = subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True, stdin=file, timeout=60)
                self.refused(done, self.record, text, "is read by this command")

    def test_nor_the_clinic_its_logo_or_a_template(self):
        clinic = self.folder / "clinic.yaml"
        clinic.write_text((ROOT / "templates/clinic.yaml").read_text())
        done = run("sheet", self.record, "--clinic", clinic, "-o", clinic, "--replace", *TODAY)
        self.refused(done, clinic, clinic.read_text(), "is read by this command")
        for name in ("templates/rules.yaml", "templates/wording/en/dates.yaml", "species-sheets/ball-python.yaml"):
            path = ROOT / name if (ROOT / name).exists() else next((ROOT / "templates/wording/en").glob("*.yaml"))
            self.refused(run("sheet", self.record, "-o", path, "--replace", *TODAY), path, path.read_text(), "is read by this command")

    def test_nor_what_lies_beside_the_record(self):
        """Photo, logger's file and the visit before are read by their names in the record, not by a word of the command line."""
        photo, log = self.folder / "p.png", self.folder / "week.csv"
        photo.write_bytes((ROOT / "templates/pictures/example-1.png").read_bytes())
        log.write_text("time,T1 (C)\n" + "".join(f"2026-03-{day:02} {hour:02}:00,28.5\n" for day in range(5, 14) for hour in range(24)))
        before = self.write("prev.yaml", "Biscuit", "Rosa Lind")
        before.write_text(before.read_text().replace("2026-03-14", "2026-01-10"))
        self.record.write_text("visit: {date: 2026-03-14, kind: checkout, previous: prev.yaml}\n"
                               "patient: {name: Biscuit, species: ball-python, photo: p.png}\n"
                               "enclosure: {readings: {log: {file: week.csv, probes: {T1: warm-side}}}}\n")
        for command in ("sheet", "dates", "explain"):
            for path in (photo, log, before):
                was = path.read_bytes()
                done = run(command, self.record, "-o", path, "--replace", *TODAY)
                self.assertEqual((done.returncode, path.read_bytes() == was), (1, True), done.stderr)
                self.assertIn("is read by this command", done.stderr)

    def test_nor_is_a_roster_a_parts_manifest(self):
        roster = self.folder / "manifest-1-of-2.csv"
        text = "name,species\nFern,ball-python\nMoss,corn-snake\n"
        roster.write_text(text)
        done = run("packet", roster, "--drafts", "-o", self.folder, "--replace", "--shard", "1/2", *TODAY)
        self.assertEqual((done.returncode, roster.read_text()), (1, text), done.stderr)

    def test_a_manifest_that_nobody_made_is_left_alone(self):
        folder, roster = self.folder / "list", self.folder / "roster.csv"
        folder.mkdir()
        (folder / "manifest.csv").write_text("our own list\n")
        roster.write_text("name,species\nFern,ball-python\n")
        words = ("packet", roster, "--drafts", "-o", folder, *TODAY)
        self.refused(run(*words), folder / "manifest.csv", "our own list\n", "--replace writes over")
        self.assertEqual(run(*words, "--replace").returncode, 0)

    def test_a_roster_is_not_its_manifest(self):
        roster = self.folder / "manifest.csv"
        roster.write_text("name,species\nFern,ball-python\n")
        done = run("packet", roster, "--drafts", "-o", self.folder, "--replace", *TODAY)
        self.assertEqual(done.returncode, 1, done.stderr)
        self.assertEqual(roster.read_text(), "name,species\nFern,ball-python\n")


class Outputs(InFolder):
    def test_a_started_record_is_never_begun_again(self):
        path = self.folder / "new-visit.yaml"
        self.assertEqual(run("start", "ball-python", "-o", path, *TODAY).returncode, 0)
        self.assertEqual(run("approve", path, "--by", "Dr Ines Calder", *TODAY).returncode, 0)
        signed = path.read_text()
        self.assertIn("signed-off: {", signed)
        self.refused(run("start", "ball-python", "-o", path, *TODAY), path, signed, "--replace writes over it")
        self.assertEqual(run("start", "corn-snake", "-o", path, "--replace", *TODAY).returncode, 0)
        self.assertIn("corn-snake", path.read_text())

    def test_a_foreign_file_is_left_alone(self):
        for command in ("sheet", "mail", "dates", "explain"):
            output = self.folder / f"{command}.out"
            output.write_text("a letter to the bank\n")
            words = [command, self.record, "-o", output, *TODAY] + (["--drafts"] if command == "mail" else [])
            self.refused(run(*words), output, "a letter to the bank\n", "was not made of this visit")
            self.assertEqual(run(*words, "--replace").returncode, 0)
            self.assertNotIn(b"bank", output.read_bytes())

    def test_the_same_visits_sheet_is_made_anew(self):
        """A correction of the record, without --replace; another visit's record is refused."""
        for command in ("sheet", "mail", "dates"):
            output = self.folder / f"{command}.out"
            words = [command, self.record, "-o", output, *TODAY] + (["--drafts"] if command == "mail" else [])
            self.assertEqual(run(*words).returncode, 0)
            before = output.read_bytes()
            text = self.record.read_text()
            self.record.write_text(text.replace("species: ball-python", "species: ball-python, mass: 1420 g"))
            done = run(*words)
            self.assertEqual(done.returncode, 0, done.stderr)
            if command != "dates":
                self.assertNotEqual(output.read_bytes(), before)
            self.record.write_text(text.replace("2026-03-14", "2026-03-15"))
            self.assertEqual(run(*words).returncode, 1, command)
            self.record.write_text(text)

    def test_one_command_leaves_alone_what_another_made_of_the_same_visit(self):
        made = {}
        for command in ("sheet", "mail", "dates"):
            made[command] = self.folder / f"made.{command}"
            self.assertEqual(run(command, self.record, "--drafts", "-o", made[command], *TODAY).returncode if command != "sheet"
                             else run(command, self.record, "-o", made[command], *TODAY).returncode, 0)
        for command in ("sheet", "mail", "dates", "explain"):
            for other, output in made.items():
                before = output.read_bytes()
                done = run(command, self.record, "-o", output, *([] if command in ("sheet", "explain") else ["--drafts"]), *TODAY)
                with self.subTest(command=command, over=other):
                    self.assertEqual((done.returncode, output.read_bytes() == before), (0, True) if command == other else (1, True), done.stderr)
                    self.assertEqual("--replace writes over it" in done.stderr, command != other)

    def test_signing_parts_no_hard_link(self):
        other = self.folder / "safe-copy.yaml"
        os.link(self.record, other)
        text = self.record.read_text()
        for path in (self.record, other):
            self.refused(run("approve", path, "--by", "Dr Ines Calder", *TODAY), path, text, "has another name too (a hard link)")
        self.assertTrue(self.record.samefile(other))
        other.unlink()
        self.assertEqual(run("approve", self.record, "--by", "Dr Ines Calder", *TODAY).returncode, 0)
        roster = self.folder / "roster.csv"
        roster.write_text("name,species\nFern,ball-python\n")
        words = ("approve", roster, "--by", "Dr Ines Calder", *TODAY)
        signed = self.folder / run(*words).stdout.strip()
        os.link(signed, other)
        before = signed.read_text()
        self.refused(run(*words[:-1], "2026-03-21"), signed, before, "has another name too (a hard link)")

    def test_a_sheet_with_a_password_is_known_again(self):
        password = self.folder / "password"
        password.write_text("shed skin 42\n")
        password.chmod(0o600)
        words = ("sheet", self.record, "--password-file", password, "-o", self.folder / "locked.pdf", *TODAY)
        done = run(*words)
        if "built without" in done.stderr:
            self.skipTest("built without libqpdf")
        self.assertEqual((done.returncode, run(*words).returncode), (0, 0))
        other = self.write("other.yaml", "Clover", "Rosa Lind")
        self.assertEqual(run("sheet", other, *words[2:]).returncode, 1)


class Names(InFolder):
    def names(self, *people):
        home = self.folder / "home"
        home.mkdir(exist_ok=True)
        (home / "out").mkdir(exist_ok=True)
        for name in ("templates", "species-sheets"):
            if not (home / name).exists():
                (home / name).symlink_to(ROOT / name)
        made = []
        for i, (animal, keeper) in enumerate(people):
            record = self.write(f"record-{i}.yaml", animal, keeper)
            done = run("sheet", record, "--data", home, *TODAY)
            made.append((done.returncode, Path(done.stdout.strip()).name, done.stderr))
        return made

    def test_two_keepers_animals_of_one_name(self):
        made = self.names(("Biscuit", "Rosa Lind"), ("Biscuit", "Ana Sol"))
        self.assertEqual([m[:2] for m in made], [(0, "biscuit-rosa-lind-2026-03-14.pdf"), (0, "biscuit-ana-sol-2026-03-14.pdf")])

    def test_names_that_meet_all_the_same_are_told(self):
        made = self.names(("Ana", "Rosa Lind"), ("ANA", "Rosa Lind"))
        self.assertEqual([m[0] for m in made], [0, 1])
        self.assertIn("was not made of this visit", made[1][2])

    def test_letters_beyond_ascii(self):
        made = self.names(("Ñu", "Íñigo Å. Łoś"), ("Змей", '""'), ("Όφις", '""'))
        self.assertEqual([m[:2] for m in made], [(0, "nu-inigo-a-los-2026-03-14.pdf"), (0, "animal-record-1-2026-03-14.pdf"), (0, "animal-record-2-2026-03-14.pdf")])

    def test_accents_as_unicode_takes_them_off(self):
        """The base letter of each canonical decomposition (Unicode Character Database, as Python ships it)."""
        letters = [chr(code) for code in range(0xC0, 0x180) if unicodedata.decomposition(chr(code)) and "<" not in unicodedata.decomposition(chr(code))]
        self.assertGreater(len(letters), 150)
        roster = self.folder / "letters.yaml"
        roster.write_text("roster: {kind: adoption}\nanimals:\n" + "".join(f"  - {{name: x{letter}x, species: ball-python}}\n" for letter in letters), encoding="utf-8")
        out = self.folder / "out"
        done = run("packet", roster, "--drafts", "-o", out, *TODAY)
        self.assertEqual(done.returncode, 0, done.stderr)
        for letter, path in zip(letters, sorted(out.glob("*.pdf")), strict=True):
            base = unicodedata.normalize("NFD", letter)[0].lower()
            self.assertEqual(path.name[6:], f"x{base}x.pdf", letter)


class Folders(InFolder):
    def roster(self, name, animal):
        path = self.folder / name
        path.write_text(f"name,species\n{animal},ball-python\n")
        return path

    def packet(self, roster, *words):
        return run("packet", roster, "--drafts", "-o", self.folder / "out", *words, *TODAY)

    def test_another_rosters_folder(self):
        first, second = self.roster("one.csv", "Fern"), self.roster("two.csv", "Fern")
        second.write_text("name,species\nFern,corn-snake\n")
        done = self.packet(first)
        self.assertEqual(done.returncode, 0, done.stderr)
        before = (self.folder / "out/00001-fern.pdf").read_bytes()
        done = self.packet(second)
        self.assertEqual(done.returncode, 1, done.stdout)
        self.assertIn("one.csv", done.stderr)
        self.assertEqual((self.folder / "out/00001-fern.pdf").read_bytes(), before)
        self.assertEqual(self.packet(first).returncode, 0)
        self.assertEqual(self.packet(second, "--replace").returncode, 0)

    def test_a_folder_with_foreign_files(self):
        out = self.folder / "out"
        out.mkdir()
        (out / "00001-fern.pdf").write_text("not ours")
        done = self.packet(self.roster("one.csv", "Fern"))
        self.assertEqual(done.returncode, 1, done.stdout)
        self.assertEqual((out / "00001-fern.pdf").read_text(), "not ours")

    def test_stale_sheets_are_named_and_set_aside_on_request(self):
        roster, out = self.roster("one.csv", "Fern"), self.folder / "out"
        self.assertEqual(self.packet(roster, *JOINED).returncode, 0)
        roster.write_text("name,species\nMoss,ball-python\n")
        done = self.packet(roster)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("00001-fern.pdf", done.stderr)
        self.assertTrue((out / "00001-fern.pdf").exists())
        done = self.packet(roster, "--set-aside")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(sorted(p.name for p in out.iterdir() if p.suffix == ".pdf"), ["00001-moss.pdf"])
        self.assertIn("00001-fern.pdf", [p.name for p in (out / "set-aside").iterdir()])
        self.assertEqual(self.packet(roster).stderr, "")


JOINED = ("--joined",) if "built without" not in run("packet", "--joined", "nothing").stderr else ()

if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
