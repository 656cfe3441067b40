#!/usr/bin/env python3
"""What on a signed sheet was at odds with the patient that went home, with the veterinarian's own words or with itself: each visit and what
its page says or must not say by hand, common practice, no source."""
import json
import re
import subprocess
import sys
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-11-30"
LANGUAGES = ("en", "es", "fr")


def visit(species, findings=(), **more):
    """A visit of this animal; findings as "code severity [step]"."""
    record = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Orla Fenwick"}, "patient": {"name": "Fern", "species": species},
              "findings": [dict(zip(("code", "severity", "step"), one.split())) for one in findings]}
    for key, value in more.items():
        key = key.replace("_", "-")
        record[key] = {**record[key], **value} if isinstance(record.get(key), dict) else value
    return record


def run(record, *command):
    done = subprocess.run([PROGRAM, *command, "--today", TODAY], input=json.dumps(record).encode(), capture_output=True, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    return done.stdout


def plan(record):
    return json.loads(run(record, "explain", "--json", "-"))


def asked(record):
    return [one["code"] for one in plan(record)["review"]]


def steps(record):
    return [one["code"] for one in plan(record)["actions"]]


def text(record, language="en"):
    record = {**record, "keeper": {"name": "Ana", "language": language, **record.get("keeper", {})}}
    page = subprocess.run(["pdftotext", "-raw", "-", "-"], input=run(record, "sheet", "-", "-o", "-"), capture_output=True, check=True).stdout.decode()
    return " ".join(page.replace("\u00a0", " ").replace("-\n", "-").split())


class FloatsAtHome(unittest.TestCase):
    """A salamander that floats was looked at and goes home so: what it is already is nothing to go at once for, only worse is."""
    NEWS = {"en": "Floats more, or on its back", "es": "Flota más, o boca arriba", "fr": "Flotte plus, ou sur le dos"}
    IS_SO = {"en": ("Floats and cannot dive", "cannot stay upright"), "es": ("no logra hundirse", "no mantiene el equilibrio"), "fr": ("ne peut pas plonger", "ne se tient pas droit")}

    def test_what_it_goes_home_with_sends_nobody_back(self):
        for species in ("axolotl", "whites-tree-frog"):
            floats = visit(species, ["floating moderate", "belly-gas mild"], follow_up={"recheck": "3 days"})
            for language in LANGUAGES:
                said = text(floats, language)
                if species == "axolotl":
                    self.assertIn(self.NEWS[language], said)
                for words in self.IS_SO[language]:
                    self.assertNotIn(words, said, (species, language))

    def test_another_is_told_of_it(self):
        for language in LANGUAGES:
            said = text(visit("axolotl", ["belly-gas mild"]), language)
            for words in self.IS_SO[language]:
                self.assertIn(words, said)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
