#!/usr/bin/env python3
"""The whole program from outside: exit statuses, messages with their place, nothing written on a fault, the same
bytes twice, and what other programs read back from the PDF.

usage: test_program.py BASKLEAF
"""
import json
import os
import pathlib
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "common"))
from tray import Tray  # noqa: E402

ROOT = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = sys.argv.pop(1)
VISITS = ROOT / "templates" / "visits"
EXAMPLES = ["biscuit-ball-python", "ember-bearded-dragon", "pebble-leopard-gecko", "juniper-adoption"]
TODAY = "2026-06-01"
PLAN_KEYS = ["patient", "species", "temperature", "humidity", "water", "uvb", "feeding", "enclosure", "growth", "weight", "since_last", "winter_rest",
             "findings", "medicines", "stances", "actions", "instructions", "warnings", "cautions", "dates", "review", "sources"]
LEAST = "visit: {date: 2026-03-14, kind: checkout}\npatient: {name: Biscuit, species: ball-python}\n"


def run(*words, stdin=None, **more):
    return subprocess.run([PROGRAM, *map(str, words)], input=stdin, capture_output=True, cwd=more.pop("cwd", ROOT), **more)


class InFolder(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="baskleaf-"))

    def tearDown(self):
        subprocess.run(["umount", self.folder / "small"], capture_output=True)
        shutil.rmtree(self.folder, ignore_errors=True)

    def sheet(self, visit, *more):
        out = self.folder / "sheet.pdf"
        return run("sheet", "--today", TODAY, "-o", out, "--replace", *more, visit), out


class Plans(InFolder):
    def plan(self, name):
        done = run("explain", "--json", "--today", TODAY, VISITS / f"{name}.yaml")
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        return json.loads(done.stdout)

    def test_every_example_explains_itself_with_the_agreed_keys(self):
        for name in EXAMPLES:
            plan = self.plan(name)
            self.assertEqual(list(plan), PLAN_KEYS)
            text = run("explain", "--today", TODAY, VISITS / f"{name}.yaml")
            self.assertEqual((text.returncode, text.stderr), (0, b""))
            self.assertNotIn(b"nan", text.stdout.lower())

    def test_shed_in_patches_brings_humidity_and_warmth_into_the_actions(self):
        """Common practice, no source."""
        codes = [a["code"] for a in self.plan("biscuit-ball-python")["actions"]]
        self.assertTrue(any("humidity" in c for c in codes), codes)
        self.assertTrue(any("warm" in c or "basking" in c for c in codes), codes)

    def test_at_most_three_first_and_eight_in_all(self):
        for name in EXAMPLES:
            actions = self.plan(name)["actions"]
            self.assertLessEqual(sum(a["first"] for a in actions), 3)
            self.assertLessEqual(len(actions), 8)
            harms = [a["harm"] for a in actions]
            self.assertEqual(harms, sorted(harms, reverse=True))

    def test_a_dragon_is_offered_more_uvb_than_a_gecko(self):
        """Ferguson zones 3 and 1: means of 1.0-2.6 and 0-0.7, maxima of 2.9-7.4 and 0.6-1.4 (Baines et al. 2016, table 1)."""
        dragon, gecko = self.plan("ember-bearded-dragon")["uvb"], self.plan("pebble-leopard-gecko")["uvb"]
        self.assertEqual((dragon["uvi_target"], gecko["uvi_target"]), ([1.0, 7.4], [0, 1.4]))
        self.assertGreater(dragon["background_uvi"], gecko["background_uvi"])
        self.assertGreater(dragon["uvi_aim"], gecko["uvi_target"][1])

    def test_without_readings_nothing_is_judged(self):
        plan = self.plan("juniper-adoption")
        self.assertEqual({z["verdict"] for z in plan["temperature"]}, {"unknown"})
        self.assertIsNone(plan["uvb"]["distance"]["recommended_cm"])
        self.assertTrue([r for r in plan["review"] if r["kind"] == "missing"])

    def test_a_snake_that_does_not_flick_its_tongue_goes_now(self):
        """Common practice, no source."""
        record = LEAST + "findings: [{code: no-tongue-flick, severity: severe}]\n"
        done = run("explain", "--json", "--today", TODAY, "-", stdin=record.encode())
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        plan = json.loads(done.stdout)
        self.assertTrue(plan["patient"]["go_now"])
        self.assertEqual(plan["findings"][0]["tier"], "now")

    def test_json_from_another_system_reads_like_yaml(self):
        record = json.dumps({"visit": {"date": "2026-03-14", "kind": "checkout"},
                             "patient": {"name": "Zoë", "species": "ball-python", "mass": "1450 g"}})
        done = run("explain", "--json", "--today", TODAY, "-", stdin=record.encode())
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        self.assertEqual(json.loads(done.stdout)["patient"]["name"], "Zoë")


class Sheets(InFolder):
    def test_every_example_is_sound_for_other_programs(self):
        for name in EXAMPLES:
            for paper, width in (("a4", "595"), ("letter", "612")):
                done, out = self.sheet(VISITS / f"{name}.yaml", "--paper", paper)
                self.assertEqual(done.returncode, 0, done.stderr.decode())
                check = subprocess.run(["qpdf", "--check", out], capture_output=True)
                self.assertEqual(check.returncode, 0, check.stdout.decode() + check.stderr.decode())
                info = subprocess.run(["pdfinfo", out], capture_output=True)
                self.assertEqual(info.stderr, b"")
                self.assertIn(width, re.search(rb"Page size: *([\d.]+)", info.stdout).group(1).decode())
                fonts = subprocess.run(["pdffonts", out], capture_output=True, text=True)
                self.assertEqual(fonts.stderr, "")
                for line in fonts.stdout.splitlines()[2:]:
                    self.assertRegex(line, r"yes +yes +yes +\d+ +\d+$")

    def text_of(self, *words):
        done, out = self.sheet(*words)
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        read = subprocess.run(["pdftotext", "-layout", out, "-"], capture_output=True)
        self.assertEqual(read.stderr, b"")
        return read.stdout.decode()

    def test_draft_is_said_on_every_page(self):
        for page in self.text_of(VISITS / "biscuit-ball-python.yaml").rstrip("\f").split("\f"):
            self.assertRegex(page, r"(?i)draft")

    def test_two_runs_give_the_same_bytes(self):
        _, out = self.sheet(VISITS / "biscuit-ball-python.yaml")
        first = out.read_bytes()
        self.sheet(VISITS / "biscuit-ball-python.yaml")
        self.assertEqual(first, out.read_bytes())
        piped = run("sheet", "--today", TODAY, "-o", "-", VISITS / "biscuit-ball-python.yaml")
        self.assertEqual(first, piped.stdout)

    def test_keeper_units_hold(self):
        self.assertIn("°F", self.text_of(VISITS / "biscuit-ball-python.yaml"))
        self.assertNotIn("°F", self.text_of(VISITS / "pebble-leopard-gecko.yaml"))

    def test_long_input_flows_on(self):
        long_name = "Biscuit " * 50
        note = "The skin is dry and dull. " * 150
        record = LEAST.replace("Biscuit", f'"{long_name.strip()}"') + \
            f"findings: [{{code: retained-shed, severity: mild, note: \"{note.strip()}\"}}]\n"
        path = self.folder / "long.yaml"
        path.write_text(record)
        self.text_of(path)
        read = subprocess.run(["pdftotext", self.folder / "sheet.pdf", "-"], capture_output=True)
        text = " ".join(read.stdout.decode().split())
        pages = text.count("page ")
        # a page's head and foot may stand inside a sentence that flows on
        self.assertGreaterEqual(text.count("The skin is dry and dull."), 150 - pages)


class BadInput(InFolder):
    """Exit status 1, a message with its place, nothing written, under a second and 100 MB."""

    def refused(self, visit, says, status=1):
        limit = lambda: resource.setrlimit(resource.RLIMIT_DATA, (100 << 20, 100 << 20))
        if os.environ.get("BASKLEAF_SANITIZED"):
            limit = None  # the address sanitizer reserves terabytes of address space
        out = self.folder / "sheet.pdf"
        begin = time.monotonic()
        done = run("sheet", "--today", TODAY, "-o", out, visit, preexec_fn=limit)
        spent = time.monotonic() - begin
        message = done.stderr.decode(errors="replace")
        self.assertEqual(done.returncode, status, message)
        self.assertRegex(message, says)
        self.assertFalse(out.exists())
        self.assertEqual([p.name for p in self.folder.iterdir() if p.name.startswith(".baskleaf")], [])
        if not os.environ.get("BASKLEAF_SANITIZED"):
            self.assertLess(spent, 1.0)

    def write(self, text, name="visit.yaml"):
        path = self.folder / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    def test_missing_file(self):
        self.refused(self.folder / "none.yaml", "cannot be read: No such file")

    def test_folder(self):
        self.refused(self.folder, "is a folder")

    def test_empty_file(self):
        self.refused(self.write(""), "is empty")

    def test_binary_rubbish(self):
        self.refused(self.write(bytes(range(256)) * 50), "visit.yaml")

    def test_hundred_megabytes(self):
        path = self.folder / "visit.yaml"
        with open(path, "wb") as f:
            f.truncate(100 << 20)
        self.refused(path, "larger than the limit")

    def test_thousand_deep_nest(self):
        self.refused(self.write("a: " + "[" * 1000), r":1:\d+: nested deeper")

    def test_alias_bomb(self):
        text = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
            f"a{i}: &a{i} [{', '.join([f'*a{i-1}'] * 10)}]\n" for i in range(1, 12))
        self.refused(self.write(text), r":\d+:\d+: more than")

    def test_unknown_species_names_the_nearest(self):
        self.refused(self.write(LEAST.replace("ball-python", "bal-python")), r":2:\d+:.*did you mean 'ball-python'")

    def test_species_by_any_of_its_names_is_the_same_animal(self):
        """The common and the scientific name, in any language, as a roster's column takes them; of the visit before as well."""
        explain = lambda text: json.loads(run("explain", "--json", self.write(text)).stdout)["species"]
        by_code = explain(LEAST)
        for name in ("royal python", "Royal Python", "Python regius", "ball python", "pitón real"):
            self.assertEqual(explain(LEAST.replace("ball-python", name)), by_code, name)
        (self.folder / "before.yaml").write_text(LEAST.replace("ball-python", "royal python").replace("2026-03-14", "2026-01-14"))
        after = LEAST.replace("date: 2026-03-14", "date: 2026-03-14, previous: before.yaml")
        self.assertNotEqual(after, LEAST)
        self.assertEqual(explain(after), by_code)
        (self.folder / "before.yaml").write_text(LEAST.replace("ball-python", "corn snake").replace("2026-03-14", "2026-01-14"))
        self.refused(self.write(after), "it has the species 'corn-snake'")

    def test_species_cannot_leave_its_folder(self):
        self.refused(self.write(LEAST.replace("ball-python", "../../etc/passwd")), "there is no species sheet")

    def test_unit_that_does_not_fit(self):
        self.refused(self.write(LEAST + "diet: {meal: 25 cm}\n"), r":3:\d+:.*g, kg, oz or lb")

    def test_cool_side_warmer_than_basking(self):
        self.refused(self.write(LEAST + "enclosure: {readings: {cool-side: 35 C, basking-surface: 30 C}}\n"), "swapped")

    def test_negative_mass(self):
        self.refused(self.write(LEAST.replace("Biscuit", "Biscuit, mass: -5 g")), r":2:\d+:.*outside what is possible")

    def test_date_in_the_future(self):
        self.refused(self.write(LEAST.replace("2026-03-14", "2027-03-14")), r":1:\d+:.*future")

    def test_finding_that_makes_no_sense_names_those_that_do(self):
        record = LEAST.replace("ball-python", "leopard-gecko") + "findings: [{code: retained-spectacle, severity: mild}]\n"
        self.refused(self.write(record), r"makes no sense for a leopard gecko; for it there are: \w")

    def test_all_faults_come_in_one_run(self):
        path = self.write(LEAST + "enclosure: {readings: {humidty: 40 %, night: 21}}\nkeper: {}\n")
        done = run("sheet", "--today", TODAY, path)
        self.assertEqual(len(done.stderr.decode().strip().splitlines()), 3)


class Faults(InFolder):
    def test_usage(self):
        for words in ([], ["shet"], ["sheet"], ["sheet", "--papr", "a4", "x"], ["sheet", "a", "b"],
                      ["sheet", "--today", "tomorrow", "x"]):
            done = run(*words)
            self.assertEqual(done.returncode, 2, words)
            self.assertTrue(done.stderr)
        for command in ["sheet", "explain", "check", "species", "start"]:
            done = run(command, "--help")
            self.assertEqual((done.returncode, done.stderr), (0, b""))
            self.assertIn(f"usage: baskleaf {command}".encode(), done.stdout)

    def test_full_disk(self):
        done = run("sheet", "--today", TODAY, "-o", "/dev/full", VISITS / "biscuit-ball-python.yaml")
        self.assertEqual(done.returncode, 3)
        small = self.folder / "small"
        small.mkdir()
        if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=8k", "tmpfs", small], capture_output=True).returncode:
            self.skipTest("mounting a small tmpfs needs root")
        done = run("sheet", "--today", TODAY, "-o", small / "sheet.pdf", VISITS / "biscuit-ball-python.yaml")
        self.assertEqual(done.returncode, 3, done.stderr.decode())
        self.assertEqual(list(small.iterdir()), [])

    def test_folder_that_is_not_there(self):
        done = run("sheet", "--today", TODAY, "-o", self.folder / "no" / "sheet.pdf", VISITS / "biscuit-ball-python.yaml")
        self.assertEqual(done.returncode, 3)

    def test_closed_pipe(self):
        read, write = os.pipe()
        os.close(read)
        done = subprocess.run([PROGRAM, "explain", "--today", TODAY, str(VISITS / "biscuit-ball-python.yaml")],
                              stdout=write, stderr=subprocess.PIPE, cwd=ROOT)
        os.close(write)
        self.assertEqual(done.returncode, 3)

    def test_killed_run_leaves_whole_files_or_none(self):
        for wait in range(0, 40, 2):
            out = self.folder / "killed.pdf"
            process = subprocess.Popen([PROGRAM, "sheet", "--today", TODAY, "-o", out,
                                        str(VISITS / "biscuit-ball-python.yaml")], cwd=ROOT,
                                       stdout=subprocess.DEVNULL)
            time.sleep(wait / 1000)
            process.kill()
            process.wait()
            if out.exists():
                self.assertTrue(out.read_bytes().rstrip().endswith(b"%%EOF"))
                out.unlink()


class Documents(InFolder):
    def test_every_command_of_the_readme_runs(self):
        """The two set-up commands are what CI runs; here the rest, in a copy, because they write into out/."""
        home = self.folder / "home"
        program = home / ".build/src/cli/baskleaf"
        program.parent.mkdir(parents=True)
        for name in ("baskleaf", "baskleaf-more"):
            shutil.copy(pathlib.Path(PROGRAM).with_name(name), program.with_name(name))
        shutil.copytree(pathlib.Path(PROGRAM).parents[1] / "pdf/fonts", home / ".build/src/pdf/fonts", ignore=shutil.ignore_patterns("*.p"))
        for name in ("templates", "species-sheets"):
            shutil.copytree(ROOT / name, home / name)
        (home / "out").mkdir()
        text = (ROOT / "README.md").read_text(encoding="utf-8").replace("\\\n", " ")
        commands = [line.strip() for line in text.splitlines() if line.startswith(("    .build/src/cli/baskleaf", "    (umask"))]
        self.assertGreaterEqual(len(commands), 7)
        tray = self.folder / "tray"  # instead of this machine's own printer
        tray.mkdir()
        # a clinic of its own: what is reviewed here must not reach other tests
        shutil.copytree(ROOT / "tests/common/config", self.folder / "config")
        environment = {**os.environ, "CUPS_SERVER": f"127.0.0.1:{Tray(tray).port}", "XDG_CONFIG_HOME": str(self.folder / "config")}
        for command in commands:
            done = subprocess.run(["bash", "-c", command], cwd=home, capture_output=True, env=environment)
            if b"built without" in done.stderr:
                print(f"passed over: {command}: {done.stderr.decode()}")
                continue
            self.assertEqual(done.returncode, 0, f"{command}: {done.stderr.decode()}")

    def test_no_path_of_the_build_is_in_the_program(self):
        """So a checkout can be moved or renamed, and what is built in one place runs in another."""
        if "/usr/" in str(ROOT) or os.environ.get("BASKLEAF_SANITIZED"):
            self.skipTest("the build's own folder cannot be told apart here")
        for name in ("baskleaf", "baskleaf-more"):
            stripped = self.folder / name
            subprocess.run(["strip", "-o", stripped, pathlib.Path(PROGRAM).with_name(name)], check=True)
            self.assertNotIn(str(ROOT).encode(), stripped.read_bytes(), name)

    def test_a_build_outside_the_sources_finds_its_data(self):
        build = self.folder / "elsewhere/build"
        (build / "src/cli").mkdir(parents=True)
        shutil.copy(PROGRAM, build / "src/cli/baskleaf")
        for part in ("pdf/fonts", "context"):
            shutil.copytree(pathlib.Path(PROGRAM).parents[1] / part, build / "src" / part, ignore=shutil.ignore_patterns("*.p"))
        done = subprocess.run([build / "src/cli/baskleaf", "sheet", VISITS / "biscuit-ball-python.yaml", "-o", self.folder / "sheet.pdf", "--today", TODAY], capture_output=True)
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        roster = ROOT / "templates/rosters/autumn-day.yaml"
        done = subprocess.run([build / "src/cli/baskleaf", "packet", roster, "--drafts", "--jobs", "2", "-o", self.folder / "out", "--today", TODAY], capture_output=True, timeout=60)
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        # and without fonts it says so at once
        shutil.rmtree(build / "src/pdf")
        for words in (["sheet", VISITS / "biscuit-ball-python.yaml", "-o", "-"], ["packet", roster, "--drafts", "--jobs", "2", "-o", self.folder / "none"]):
            done = subprocess.run([build / "src/cli/baskleaf", *words, "--today", TODAY], capture_output=True, timeout=60)
            self.assertEqual(done.returncode, 3, done.stderr.decode())
            self.assertIn(b"fonts", done.stderr)

    def test_the_readmes_pictures_are_both_pages_of_the_example(self):
        done = subprocess.run(["bash", "src/pictures.sh", str(self.folder)], cwd=ROOT, capture_output=True, env={**os.environ, "BASKLEAF": PROGRAM})
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        made = sorted(p.name for p in self.folder.glob("*.png"))
        self.assertEqual(made, ["example-1.png", "example-2.png"])
        text = (ROOT / "README.md").read_text(encoding="utf-8")
        for name in made:
            self.assertIn(f"templates/pictures/{name}", text)
            self.assertLess((ROOT / "templates/pictures" / name).stat().st_size, 150_000)

    def test_started_record_passes_check(self):
        for species in [p.stem for p in sorted((ROOT / "species-sheets").glob("*.yaml"))]:
            started = run("start", species, "-o", self.folder / "new.yaml", "--replace")
            self.assertEqual(started.returncode, 0, started.stderr.decode())
            done = run("check", self.folder / "new.yaml")
            self.assertEqual(done.returncode, 0, f"{species}: {done.stderr.decode()}")

    def test_check_passes_everything_we_ship(self):
        files = [*sorted((ROOT / "species-sheets").glob("*.yaml")), *sorted(VISITS.glob("*.yaml"))]
        files += [ROOT / "templates" / n for n in ("clinic.yaml", "findings.yaml", "rules.yaml", "steps.yaml", "warning-signs.yaml", "reference-values.yaml", "foods.yaml")]
        done = run("check", "--today", TODAY, *files)
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        self.assertEqual(sum(line.endswith(b": good") for line in done.stdout.splitlines()), len(files))

    def test_drafts_is_taken_by_every_command_that_makes_something(self):
        visit = VISITS / "biscuit-ball-python.yaml"
        for command in ("sheet", "mail", "dates"):
            done = run(command, "--drafts", "--today", TODAY, "-o", self.folder / command, visit)
            self.assertEqual(done.returncode, 0, f"{command}: {done.stderr.decode()}")
        done = run("packet", "--drafts", "--today", TODAY, "-o", self.folder / "packet", ROOT / "templates/rosters/autumn-day.yaml")
        self.assertEqual(done.returncode, 0, done.stderr.decode())

    def test_a_clinics_own_sheet_overrides_ours(self):
        own = self.folder / "own"
        own.mkdir()
        text = (ROOT / "species-sheets" / "ball-python.yaml").read_text(encoding="utf-8")
        (own / "ball-python.yaml").write_text(text.replace("basking-surface:\n    range: 32-34 C", "basking-surface:\n    range: 33-34 C"))
        done = run("explain", "--json", "--today", TODAY, "--species-dir", own, VISITS / "biscuit-ball-python.yaml")
        plan = json.loads(done.stdout)
        self.assertTrue(plan["species"]["from_clinic"])
        self.assertEqual(plan["temperature"][0]["target"], [33, 34])


if __name__ == "__main__":
    PROGRAM = os.path.abspath(PROGRAM)
    unittest.main(argv=[sys.argv[0]], testRunner=unittest.TextTestRunner(stream=sys.stderr, verbosity=2))
