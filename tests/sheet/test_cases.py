#!/usr/bin/env python3
"""The clinical cases, each read line by line in every language as the veterinarian who signs would (the clinical table: common
practice, no source, where a line names none), and frozen. A sheet that differs is a decision of a clinician again: read each line of it.
A sample of the settlements and of the declared instructions is taken out one at a time: the cases must notice."""
import json
import random
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from languages import LANGUAGES  # noqa: E402

PROGRAM, WRITE_PLAIN = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
ROOT = Path(__file__).resolve().parents[2]
HERE = Path(__file__).resolve().parent
CASES = sorted((HERE / "cases").glob("*.yaml"))
TODAY, SEED, SETTLEMENTS, DECLARATIONS = "2026-03-20", 20261127, 12, 13


def text_of(data, case, language):
    """Whole, and as the kind of sheet in running text: what a page leaves out for want of room depends on its design, not on the case."""
    with tempfile.TemporaryDirectory() as folder:
        visit = Path(folder) / case.name
        visit.write_text(re.sub(r"kind: checkout\b", "kind: reading", case.read_text()))
        for log in case.parent.glob("*.csv"):
            shutil.copy(log, folder)
        done = subprocess.run([WRITE_PLAIN, data, visit, TODAY, language, "whole"], capture_output=True, text=True)
    return done.stdout if done.returncode == 0 else f"no sheet: {done.stderr}"


def rows_of(path):
    """Every row of a table of one line a row: name -> line number."""
    return {line.split(":")[0].strip(): number for number, line in enumerate(path.read_text().splitlines())
            if re.match(r"  [a-z][a-z0-9.-]*: \{", line)}


def without(data, name, number):
    lines = (ROOT / "templates" / name).read_text().splitlines(keepends=True)
    (data / "templates" / name).write_text("".join(lines[:number] + lines[number + 1:]))


class Cases(unittest.TestCase):
    def test_each_case_reads_as_it_was_signed(self):
        pairs = [(case, language) for case in CASES for language in LANGUAGES]
        with ThreadPoolExecutor(2) as pool:
            texts = list(pool.map(lambda pair: text_of(ROOT, *pair), pairs))
        for (case, language), text in zip(pairs, texts):
            golden = HERE / "golden/cases" / f"{case.stem}.{language}.txt"
            self.assertEqual(text.splitlines(), golden.read_text().splitlines(),
                             f"{golden.name} differs: read each line against {case.name} before it is accepted")
        self.assertGreaterEqual(len(CASES), 20)

    def test_every_line_says_something(self):
        """No empty place, no slot and no key in any case and language, and no language has a block that another lacks."""
        for case in CASES:
            texts = [(HERE / "golden/cases" / f"{case.stem}.{language}.txt").read_text() for language in LANGUAGES]
            for text in texts:
                self.assertNotRegex(text, r"[{}]|\b(sheet|action|finding|sign|why|stance)\.[a-z]|: ?[.,]|  ", case.stem)
            self.assertLess(abs(len(texts[0].splitlines()) - len(texts[1].splitlines())), 5, case.stem)


def explained(data, case):
    done = subprocess.run([PROGRAM, "explain", "--json", case, "--data", data, "--today", TODAY], capture_output=True, text=True, cwd=data)
    return json.loads(done.stdout) if done.returncode == 0 else {"stances": done.stderr, "instructions": []}


def said(data, case):
    plan = explained(data, case)
    return plan["stances"], plan["instructions"]


class Mutations(unittest.TestCase):
    """Taking away a row that a case uses must change what some case settles, names as the reason or lists as an instruction. How many of the
    sample change no printed word besides (the loser would have come to the same) is told, not held."""

    @classmethod
    def setUpClass(cls):
        cls.plans = [explained(ROOT, case) for case in CASES]
        cls.usual = {case: (plan["stances"], plan["instructions"]) for case, plan in zip(CASES, cls.plans)}
        cls.texts = {case: text_of(ROOT, case, "en") for case in CASES}

    def check(self, name, used, count):
        rows = {row: number for row, number in rows_of(ROOT / "templates" / name).items() if row in used}
        sample = random.Random(SEED).sample(sorted(rows), count)
        alive, silent = [], []
        with tempfile.TemporaryDirectory() as folder:
            data = Path(folder)
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, data / part)
            for row in sample:
                without(data, name, rows[row])
                if all(said(data, case) == usual for case, usual in self.usual.items()):
                    alive.append(row)
                if all(text_of(data, case, "en") == text for case, text in self.texts.items()):
                    silent.append(row)
        print(f"{name}: of {count} rows {len(silent)} change no printed word: {', '.join(silent)}", file=sys.stderr)
        self.assertEqual(alive, [], "rows that no case notices")

    def test_settlements(self):
        text = json.dumps([plan["stances"] for plan in self.plans])
        self.check("settlements.yaml", set(re.findall(r"settlement:([a-z0-9-]+)", text)), SETTLEMENTS)

    def test_declarations(self):
        self.check("instructions.yaml", {one["code"] for plan in self.plans for one in plan["instructions"]}, DECLARATIONS)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
