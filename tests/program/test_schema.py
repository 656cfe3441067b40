#!/usr/bin/env python3
"""The JSON Schemas against a general-purpose validator (Debian's python3-jsonschema, draft 2020-12): each schema is itself valid, every
file we ship passes, and what the reader refuses for its form the schema refuses too."""
import datetime
import json
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import yaml

try:
    from jsonschema import Draft202012Validator
except ImportError:
    print("skipped: python3-jsonschema is not installed")
    sys.exit(77)

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TEMPLATES = ROOT / "templates"
FILES = {
    "visit": sorted((TEMPLATES / "visits").glob("*.yaml")),
    "species": sorted((ROOT / "species-sheets").glob("*.yaml")),
    "findings": [TEMPLATES / "findings.yaml"],
    "topics": [TEMPLATES / "topics.yaml"],
    "settlements": [TEMPLATES / "settlements.yaml"],
    "instructions": [TEMPLATES / "instructions.yaml"],
    "signs": [TEMPLATES / "warning-signs.yaml"],
    "rules": [TEMPLATES / "rules.yaml"],
    "reference-values": [TEMPLATES / "reference-values.yaml"],
    "foods": [TEMPLATES / "foods.yaml"],
    "value-uses": [TEMPLATES / "value-uses.yaml"],
    "clinic": [TEMPLATES / "clinic.yaml"],
    "roster": sorted((TEMPLATES / "rosters").glob("*.yaml")),
    "mail-settings": [TEMPLATES / "mail-settings.yaml"],
    "look": [TEMPLATES / "look.yaml"],
    "sheet": sorted((TEMPLATES / "sheets").glob("*.yaml")),
    "language": sorted((TEMPLATES / "wording").glob("*/language.yaml")),
}


def run(*words, stdin=None):
    return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True, cwd=ROOT, input=stdin)


class Loader(yaml.SafeLoader):
    """With YAML 1.2's idea of true and false, as editors have it: 'on' and 'no' are texts."""


Loader.yaml_implicit_resolvers = {first: [(tag, rule) for tag, rule in rules if tag != "tag:yaml.org,2002:bool" or first in "tTfF"]
                                  for first, rules in yaml.SafeLoader.yaml_implicit_resolvers.items()}


def load(text):
    """As JSON knows it: dates are texts."""
    return json.loads(json.dumps(yaml.load(text, Loader), default=lambda o: o.isoformat() if isinstance(o, datetime.date) else str(o)))


def schema(kind):
    done = run("check", "--schema", kind)
    if done.returncode:
        raise AssertionError(done.stderr)
    return json.loads(done.stdout)


class Schema(unittest.TestCase):
    def test_every_kind_has_a_valid_schema_and_a_text(self):
        asked = run("check", "--schema", "nothing")
        self.assertEqual(asked.returncode, 2)
        kinds = asked.stderr.strip().split("these are: ")[1].split(" [")[0].split(", ")
        self.assertLessEqual(set(FILES), set(kinds))
        for kind in kinds:
            Draft202012Validator.check_schema(schema(kind))
            self.assertGreater(len(run("check", "--format", kind).stdout.splitlines()), 3)

    def test_every_file_we_ship_passes(self):
        for kind, paths in FILES.items():
            validator = Draft202012Validator(schema(kind))
            self.assertTrue(paths, kind)
            for path in paths:
                faults = [f"{list(e.absolute_path)}: {e.message[:200]}" for e in validator.iter_errors(load(path.read_text()))]
                self.assertEqual(faults, [], path.name)

    # (text, instead): both the reader and the schema refuse it
    BROKEN = [("mass: 1850 g", "mass: 1850"), ("mass: 1850 g", "mass: 1850 C"), ("sex: female", "sex: girl"),
              ("name: Biscuit", "nam: Biscuit"), ("night: 21 C", "night: [21 C]"), ("size: 130 x 70 x 70 cm", "size: 120 x 60 cm"),
              ("thermostat: yes", "thermostat: perhaps"), ("date: 2026-03-14", "date: 14.3.2026"), ("findings:", "finding:"),
              ("  species: ball-python\n", ""), ("hours: 12", "hours: noon"), ("follow-up: {recheck: 21 days}", "follow-up: {recheck: 21 fortnights}")]

    def test_what_the_reader_refuses_for_its_form_the_schema_refuses(self):
        validator = Draft202012Validator(schema("visit"))
        text = (TEMPLATES / "visits/biscuit-ball-python.yaml").read_text()
        for before, after in self.BROKEN:
            self.assertEqual(text.count(before), 1, before)
            broken = text.replace(before, after)
            self.assertFalse(validator.is_valid(load(broken)), after)
            self.assertEqual(run("check", "-", "--today", "2026-03-20", stdin=broken).returncode, 1, after)

    def test_quantities_as_they_may_be_written(self):
        validator = Draft202012Validator(schema("visit"))
        for mass, good in {"3 lb 3 oz": True, "1.45 kg": True, "1450g": True, "1450": False, "3 lb 3": False, "g": False, "-": False,
                           "3 lbs 3 oz": True, "1,45 kg": True, "1.45\u00a0Kg": True, "1450 grams": True, "0,950 kg": True, "1,450 kg": False, "1450 gr": True, "1450 gm": True}.items():
            record = {"visit": {"date": "2026-03-14", "kind": "checkout"}, "patient": {"name": "Fern", "species": "ball-python", "mass": mass}}
            self.assertEqual(validator.is_valid(record), good, mass)
            done = run("check", "-", "--today", "2026-03-20", stdin=json.dumps(record))
            self.assertEqual(done.returncode == 0, good, f"{mass}: {done.stderr}")

    def test_a_decimal_comma_between_braces_is_told(self):
        record = "visit: {date: 2026-03-14, kind: checkout}\npatient: {name: Fern, species: ball-python, mass: 1,45 kg}\n"
        done = run("check", "-", "--today", "2026-03-20", stdin=record)
        self.assertEqual(done.returncode, 1)
        self.assertIn("<standard input>:2:53: patient: '45 kg' is no key; between braces a comma ends a value", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
