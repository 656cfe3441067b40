#!/usr/bin/env python3
"""`explain` of each example against a golden file that was read line by line against the arithmetic (hand calculation of each
derived number from its inputs), and --json against the text: every derivation stands in both with the same value."""
import difflib
import json
import subprocess
import sys
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
GOLDEN = Path(__file__).with_name("golden")
TODAY = "2026-03-20"


def explain(name, *words):
    done = subprocess.run([PROGRAM, "explain", *words, f"templates/visits/{name}.yaml", "--today", TODAY], capture_output=True, text=True, cwd=ROOT)
    if done.returncode:
        raise AssertionError(done.stderr)
    return done.stdout


def derivations(value):
    if isinstance(value, dict):
        if "what" in value and "formula" in value:
            yield value
        for inner in value.values():
            yield from derivations(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from derivations(inner)


class Explain(unittest.TestCase):
    def test_text_is_the_golden_file(self):
        names = sorted(p.stem for p in GOLDEN.glob("*.txt"))
        self.assertEqual(names, sorted(p.stem for p in (ROOT / "templates/visits").glob("*.yaml")))
        for name in names:
            got, wanted = explain(name), (GOLDEN / f"{name}.txt").read_text()
            changes = "\n".join(difflib.unified_diff(wanted.splitlines(), got.splitlines(), "golden", "now", lineterm="", n=1))
            self.assertEqual(changes, "", f"{name}: read each line against the arithmetic before the golden file takes it over")

    def test_json_says_the_same(self):
        for path in GOLDEN.glob("*.txt"):
            text = path.read_text()
            found = list(derivations(json.loads(explain(path.stem, "--json"))))
            self.assertGreaterEqual(len(found), 4)
            for one in found:
                self.assertTrue(one["source"], one)
                self.assertTrue(one["inputs"], one)
                self.assertIn(f"      {one['what']} = {one['value']:.6g}", text)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=1)
