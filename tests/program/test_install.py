#!/usr/bin/env python3
"""`meson install` into a folder: the program finds its data there by itself and sets the same bytes, the manual pages render without a
warning, the completion completes, the licences are there; `meson dist` packs a source archive."""
import json
import os
import re
import shutil
import subprocess
import sys
import tarfile
import tempfile
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
BUILD = Path(sys.argv[2]).resolve()
ROOT = Path(__file__).resolve().parents[2]
PLAIN = {"PATH": os.environ["PATH"], "HOME": "/nonexistent"}


class Install(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.temporary = tempfile.TemporaryDirectory()
        cls.top = Path(cls.temporary.name)
        done = subprocess.run(["meson", "install", "--no-rebuild", "--destdir", cls.top, "-C", BUILD], capture_output=True, text=True)
        if done.returncode:
            raise AssertionError(done.stdout + done.stderr)
        cls.program = next(cls.top.rglob("bin/baskleaf"))
        cls.prefix = cls.program.parents[1]

    @classmethod
    def tearDownClass(cls):
        cls.temporary.cleanup()

    def test_the_same_sheet_without_environment(self):
        visit = ROOT / "templates/visits/biscuit-ball-python.yaml"
        got, wanted = (subprocess.run([program, "sheet", visit, "-o", "-", "--today", "2026-03-20"], capture_output=True, env=PLAIN, cwd=self.top)
                       for program in (self.program, PROGRAM))
        self.assertEqual(got.returncode, 0, got.stderr.decode())
        self.assertEqual(got.stdout, wanted.stdout)
        self.assertTrue(got.stdout.startswith(b"%PDF-"))

    def test_no_program_holds_the_path_of_who_built_it(self):
        for program in (PROGRAM, PROGRAM.with_name("baskleaf-more"), self.program):
            held = program.read_bytes()
            self.assertNotIn(os.fsencode(ROOT), held, program)
            self.assertNotIn(os.fsencode(BUILD), held, program)

    def test_the_larger_program_takes_over(self):
        """Found beside the installed program, wherever the whole was put; told of when it is missing."""
        more = self.prefix / "libexec/baskleaf/baskleaf-more"
        words = [self.program, "mail", ROOT / "templates/visits/biscuit-ball-python.yaml", "--drafts", "-o", "-", "--today", "2026-03-20"]
        done = subprocess.run(words, capture_output=True, env=PLAIN, cwd=self.top)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn(b"application/pdf", done.stdout)
        aside = more.rename(more.with_name("aside"))
        try:
            done = subprocess.run(words, capture_output=True, env=PLAIN, cwd=self.top)
        finally:
            aside.rename(more)
        self.assertEqual((done.returncode, done.stdout), (3, b""))
        self.assertIn(b"baskleaf-more: cannot be run", done.stderr)

    def test_further_letters_are_found(self):
        """The module beside the larger program, by both programs; without it the letter is told."""
        module = self.prefix / "libexec/baskleaf/baskleaf-letters.so"
        if not module.exists() or not Path("/usr/share/fonts/truetype/noto/NotoSansHebrew-Regular.ttf").exists():
            self.skipTest("built without fribidi, or no font has Hebrew here")
        visit = self.top / "visit.yaml"
        visit.write_text("visit: {date: 2026-03-14, kind: checkout}\npatient: {name: יעל, species: ball-python}\nkeeper: {email: a@example.org}\n", encoding="utf-8")
        sheet, mail = ([self.program, command, visit, *more, "-o", "-", "--today", "2026-03-20"] for command, more in (("sheet", []), ("mail", ["--drafts"])))
        done = subprocess.run(sheet, capture_output=True, env=PLAIN, cwd=self.top)
        self.assertEqual((done.returncode, done.stdout), (0, subprocess.run([PROGRAM, *sheet[1:]], capture_output=True, env=PLAIN, cwd=self.top).stdout), done.stderr)
        self.assertEqual(subprocess.run(mail, capture_output=True, env=PLAIN, cwd=self.top).returncode, 0)
        aside = module.rename(module.with_name("aside"))
        try:
            done = subprocess.run(sheet, capture_output=True, env=PLAIN, cwd=self.top)
        finally:
            aside.rename(module)
        self.assertEqual((done.returncode, done.stdout), (1, b""))
        self.assertIn("2:17: no font here has 'י'", done.stderr.decode())

    def test_out_is_made_where_one_stands(self):
        with tempfile.TemporaryDirectory() as here:
            done = subprocess.run([self.program, "sheet", ROOT / "templates/visits/biscuit-ball-python.yaml", "--today", "2026-03-20"], capture_output=True, text=True, env=PLAIN, cwd=here)
            self.assertEqual((done.returncode, len(list(Path(here).glob("out/*.pdf")))), (0, 1), done.stderr)

    def test_manual_pages(self):
        pages = sorted(self.prefix.glob("share/man/man*/*"))
        self.assertEqual([p.name for p in pages if p.suffix == ".1"], ["baskleaf.1"])
        kinds = re.findall(r"[\w-]+", subprocess.run([PROGRAM, "check", "--format", "nosuch"], capture_output=True, text=True).stderr.split("these are:")[1].split(" [")[0])
        self.assertEqual({p.name for p in pages if p.suffix == ".5"}, {f"baskleaf-{kind}.5" for kind in kinds})
        self.assertEqual([p.name for p in pages if p.suffix == ".7"], ["baskleaf-messages.7"])
        text = (self.prefix / "share/man/man1/baskleaf.1").read_text().replace("\\-", "-")
        for page in pages:
            self.assertRegex(page.read_text(), r'\A\.TH \S+ [157] "\d{4}-\d\d-\d\d" ', page.name)
        examples = re.findall(r"^\.B (baskleaf .*)$", text.partition(".SH EXAMPLES")[2].partition(".SH FILES")[0], re.M)
        self.assertGreaterEqual(len(examples), 5)
        for line in examples:
            command, *words = line.split()[1:]
            told = subprocess.run([PROGRAM, command, "--help"], capture_output=True, text=True)
            self.assertEqual(told.returncode, 0, line)
            for word in words:
                if word.startswith("-"):
                    self.assertRegex(told.stdout, rf"(?m)^ +(-\w, +)?{re.escape(word)}\b|^ +{re.escape(word)}, ", line)
        self.assertIn("clinic.yaml", text.partition(".SH FILES")[2])
        for command in re.findall(r"^  (\w+) ", subprocess.run([PROGRAM, "--help"], capture_output=True, text=True).stdout, re.M):
            self.assertIn(f".SS {command} ", text)
            for option in re.findall(r"--[\w-]+", subprocess.run([PROGRAM, command, "--help"], capture_output=True, text=True).stdout):
                self.assertIn(option, text)
        if not shutil.which("groff"):
            self.skipTest("groff is not installed: the pages were not set")
        for page in pages:
            done = subprocess.run(["groff", "-man", "-Tutf8", "-ww", page], capture_output=True, text=True)
            self.assertEqual((done.returncode, done.stderr), (0, ""), page.name)

    def complete(self, *words):
        script = self.prefix / "share/bash-completion/completions/baskleaf"
        asked = f'. "{script}"; COMP_WORDS=({" ".join(words)}); COMP_CWORD={len(words) - 1}; _baskleaf baskleaf "{words[-1]}" "{words[-2]}"; printf "%s\\n" "${{COMPREPLY[@]}}"'
        done = subprocess.run(["bash", "-c", asked], capture_output=True, text=True, env={**PLAIN, "PATH": f"{self.program.parent}:{PLAIN['PATH']}"}, cwd=self.top)
        self.assertEqual(done.stderr, "")
        return [line for line in done.stdout.split("\n") if line]

    def test_completion(self):
        self.assertEqual(self.complete("baskleaf", "pa"), ["packet"])
        self.assertEqual(self.complete("baskleaf", "sheet", "--pap"), ["--paper"])
        self.assertEqual(self.complete("baskleaf", "sheet", "--paper", "l"), ["letter"])
        self.assertEqual(self.complete("baskleaf", "sheet", "--paper", "=", "l"), ["letter"])  # as bash parts --paper=l
        self.assertEqual(self.complete("baskleaf", "sheet", "--paper", "="), ["a4", "letter"])
        for name in ("two words.yaml", "--drafts.yaml"):
            (Path(self.top) / name).touch()
        self.assertEqual(self.complete("baskleaf", "sheet", "two"), ["two words.yaml"])
        self.assertEqual(self.complete("baskleaf", "sheet", "--dra"), ["--drafts"])
        self.assertEqual(self.complete("baskleaf", "sheet", "--", "--dra"), ["--drafts.yaml"])
        self.assertEqual(self.complete("baskleaf", "start", "ball"), ["ball-python"])
        self.assertIn("es", self.complete("baskleaf", "sheet", "--language", "e"))

    def test_licences(self):
        self.assertEqual((self.prefix / "share/doc/baskleaf/copyright").read_text(), (ROOT / "LICENSE").read_text())
        self.assertIn("fonts-liberation.copyright", (self.prefix / "share/doc/baskleaf/fonts.txt").read_text())
        if Path("/usr/share/doc/fonts-liberation/copyright").exists():
            self.assertIn("liberation", (self.prefix / "share/doc/baskleaf/fonts-liberation.copyright").read_text().lower())
        self.assertFalse((self.prefix / "share/baskleaf/templates/pictures").exists())


class Elsewhere(unittest.TestCase):
    """A build that was given other folders for data and programs finds both there, wherever the whole lies."""

    @classmethod
    def setUpClass(cls):
        cls.temporary = tempfile.TemporaryDirectory()
        build, cls.top = Path(cls.temporary.name) / "build", Path(cls.temporary.name) / "top"
        cls.run_or_end("meson", "setup", build, ROOT, "-Ddatadir=things", "-Dlibexecdir=helpers", "-Ddebug=false", "-Doptimization=0")
        listed = json.loads(cls.run_or_end("meson", "introspect", "--installed", build))
        made = [str(Path(path).relative_to(build)) for path in listed if Path(path).is_relative_to(build)]
        cls.run_or_end("ninja", "-C", build, *made)  # not the tests
        cls.run_or_end("meson", "install", "--no-rebuild", "--destdir", cls.top, "-C", build)
        shutil.rmtree(build)
        cls.program = next(cls.top.rglob("bin/baskleaf"))
        cls.prefix = cls.program.parents[1]

    @classmethod
    def run_or_end(cls, *words):
        done = subprocess.run(words, capture_output=True, text=True)
        if done.returncode:
            raise AssertionError(done.stdout[-2000:] + done.stderr[-2000:])
        return done.stdout

    @classmethod
    def tearDownClass(cls):
        cls.temporary.cleanup()

    def asked(self, program, *words):
        return subprocess.run([program, *words, "-o", "-", "--today", "2026-03-20"], capture_output=True, env=PLAIN, cwd=self.top)

    def test_nothing_lies_in_the_usual_folders(self):
        self.assertEqual(sorted(p.name for p in self.prefix.glob("things/*")), ["bash-completion", "baskleaf", "doc"])
        self.assertTrue((self.prefix / "helpers/baskleaf/baskleaf-more").exists())
        self.assertFalse((self.prefix / "share/baskleaf").exists() or (self.prefix / "libexec").exists())

    def test_the_data_is_found(self):
        visit = ROOT / "templates/visits/biscuit-ball-python.yaml"
        got, wanted = (self.asked(program, "sheet", visit) for program in (self.program, PROGRAM))
        self.assertEqual((got.returncode, got.stdout == wanted.stdout), (0, True), got.stderr.decode())
        data = self.prefix / "things/baskleaf"
        aside = data.rename(data.with_name("aside"))
        try:
            self.assertNotEqual(self.asked(self.program, "sheet", visit).returncode, 0)
        finally:
            aside.rename(data)

    def test_the_larger_program_is_found(self):
        done = self.asked(self.program, "mail", ROOT / "templates/visits/biscuit-ball-python.yaml", "--drafts")
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn(b"application/pdf", done.stdout)

    def test_further_letters_are_found(self):
        if not (self.prefix / "helpers/baskleaf/baskleaf-letters.so").exists() or not Path("/usr/share/fonts/truetype/noto/NotoSansHebrew-Regular.ttf").exists():
            self.skipTest("built without fribidi, or no font has Hebrew here")
        visit = self.top / "visit.yaml"
        visit.write_text("visit: {date: 2026-03-14, kind: checkout}\npatient: {name: יעל, species: ball-python}\nkeeper: {email: a@example.org}\n", encoding="utf-8")
        for words in (("sheet", visit), ("mail", visit, "--drafts")):
            done = self.asked(self.program, *words)
            self.assertEqual(done.returncode, 0, done.stderr.decode())


class Dist(unittest.TestCase):
    def test_dist(self):
        if not (ROOT / ".git").exists() or not shutil.which("git"):
            self.skipTest("not a git checkout: there is nothing to pack")
        with tempfile.TemporaryDirectory() as folder:
            clone, build = Path(folder) / "clone", Path(folder) / "build"
            for words in (["git", "clone", "-q", ROOT, clone], ["meson", "setup", build, clone], ["meson", "dist", "--no-tests", "--formats", "gztar", "-C", build]):
                done = subprocess.run(words, capture_output=True, text=True, cwd=folder)
                self.assertEqual(done.returncode, 0, done.stdout[-2000:] + done.stderr[-2000:])
            names = tarfile.open(next((build / "meson-dist").glob("*.tar.gz"))).getnames()
            top = names[0].split("/")[0]
            for path in ("README.md", "LICENSE", "meson.build", "src/cli/main.c", "templates/rules.yaml", "species-sheets/axolotl.yaml", "tests/run.sh"):
                self.assertIn(f"{top}/{path}", names)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
