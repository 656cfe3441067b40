#!/usr/bin/env python3
"""Two orders for one thing, and orders that begin or end by themselves, on the finished sheet: each visit and what its page says or must not
say by hand, common practice, no source."""
import json
import subprocess
import sys
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-16"


def visit(species, findings=(), **more):
    """A visit of this animal; findings as "code severity"."""
    record = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species},
              "findings": [dict(zip(("code", "severity"), one.split())) for one in findings]}
    for key, value in more.items():
        key = key.replace("_", "-")
        record[key] = {**record[key], **value} if isinstance(record.get(key), dict) else value
    return record


def plan(record):
    done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=json.dumps(record), capture_output=True, text=True, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def text(record, language="en"):
    record = {**record, "keeper": {"name": "Ana", "language": language, **record.get("keeper", {})}}
    sheet = subprocess.run([PROGRAM, "sheet", "-", "-o", "-", "--today", TODAY], input=json.dumps(record).encode(), capture_output=True, cwd=ROOT)
    assert sheet.returncode == 0, sheet.stderr
    page = subprocess.run(["pdftotext", "-raw", "-", "-"], input=sheet.stdout, capture_output=True, check=True).stdout.decode()
    return " ".join(page.replace("\u00a0", " ").replace("-\n", "-").split())


class DeadParts(unittest.TestCase):
    def test_no_bath_begins_by_itself_where_a_part_dies(self):
        """A bath to the chin soaks the tail: none before we say so, and no day of a check lets it begin."""
        for species, code in (("spiny-tailed-lizard", "tail-death"), ("leopard-gecko", "toe-death"), ("corn-snake", "tail-death")):
            record = visit(species, [f"{code} mild", "dehydrated moderate", "belly-stool moderate"], follow_up={"recheck": "4 days"})
            phases = plan(record)["stances"]["bath"]
            self.assertEqual([one["stance"] for one in phases], ["none"], species)
            self.assertNotIn("give-drink-soak", [one["code"] for one in plan(record)["actions"]])
            self.assertNotIn("drinking bath of", text(record), species)


class TreePython(unittest.TestCase):
    BOX = {"readings": {"warm-side": "30 C", "humidity": "88 %", "humidity-at": "cool-side"}}
    DRIER, WET = ("Open the air holes", "Ouvrez les aérations", "Abre los agujeros"), ("Mist the leaves", "Humectez les feuilles", "Rocía las hojas")

    def test_what_is_to_get_drier_is_not_misted(self):
        """A snake that has a bowl needs no wet leaves while its air is too damp."""
        how = next(one for one in plan(visit("green-tree-python", enclosure=self.BOX))["actions"] if one["code"] == "lower-humidity")
        self.assertTrue(how)
        said = text(visit("green-tree-python", enclosure=self.BOX))
        self.assertIn("Open the air holes, and read the damp meter", said)

    def test_no_mist_falls_on_stitches(self):
        record = visit("green-tree-python", ["prolapse severe"], enclosure=self.BOX, done_today=["prolapse-replaced", "sutures"], follow_up={"recheck": "5 days"})
        said = text(record)
        self.assertNotIn("until drops hang on them", said)
        self.assertIn("Mist only leaves away from it", said)
        self.assertIn("Keep a bowl of clean water", said)
        self.assertIn("until drops hang on them", text(visit("green-tree-python")))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1] + sys.argv[2:])
