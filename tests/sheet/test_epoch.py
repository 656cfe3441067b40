#!/usr/bin/env python3
"""The number of the formulas (CARE_FORMULA_EPOCH of care/plan.h) goes up when numbers change that no change of the data explains, because
signatures rest on it. tests/sheet/golden/epoch.json holds the epoch, a digest of every number and code of the examples' plans, and a digest of
the data they come from; `test_epoch.py PROGRAM --accept` writes it anew, and refuses when the program alone has changed the numbers
under the same epoch."""
import hashlib
import json
import re
import subprocess
import sys
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
KEPT = ROOT / "tests/sheet/golden/epoch.json"
VISITS = sorted((ROOT / "templates/visits").glob("*.yaml"))
DATA = sorted([*VISITS, *(ROOT / "species-sheets").glob("*.yaml"), *(ROOT / "templates/sheets").glob("*.yaml"),
               *(p for p in (ROOT / "templates").glob("*.yaml") if p.name not in ("look.yaml", "mail-settings.yaml"))])
SAID = ("text", "say", "words", "label", "title")  # sentences belong to the wording


def without_sentences(value):
    if isinstance(value, dict):
        return {key: without_sentences(item) for key, item in value.items() if key not in SAID}
    return [without_sentences(item) for item in value] if isinstance(value, list) else value


def numbers():
    sha = hashlib.sha256()
    for visit in VISITS:
        done = subprocess.run([PROGRAM, "explain", "--json", "--today", "2026-11-30", visit], capture_output=True, text=True, check=True, cwd=ROOT)
        sha.update(json.dumps(without_sentences(json.loads(done.stdout)), sort_keys=True).encode())
    return sha.hexdigest()


def now():
    data = hashlib.sha256()
    for path in DATA:
        data.update(path.read_bytes())
    epoch = int(re.search(r"CARE_FORMULA_EPOCH = (\d+)", (ROOT / "src/care/plan.h").read_text()).group(1))
    return {"epoch": epoch, "data": data.hexdigest(), "numbers": numbers()}


def why_not(kept, new):
    """What is wrong with taking over `new`, or None."""
    if new["epoch"] < kept["epoch"]:
        return "the epoch never goes back"
    if new["numbers"] != kept["numbers"] and new["data"] == kept["data"] and new["epoch"] == kept["epoch"]:
        return "the program alone has changed the numbers: raise CARE_FORMULA_EPOCH in src/care/plan.h, so that old signatures do not hold"
    return None


class Epoch(unittest.TestCase):
    def test_numbers_change_with_the_epoch_or_the_data(self):
        kept, new = json.loads(KEPT.read_text()), now()
        self.assertIsNone(why_not(kept, new))
        if new["numbers"] != kept["numbers"]:
            self.fail(f"the numbers have changed with the {'data' if new['data'] != kept['data'] else 'epoch'}: "
                      f"look at the goldens, then {Path(__file__).name} PROGRAM --accept")

    def test_the_rule_itself(self):
        kept = {"epoch": 3, "data": "a", "numbers": "x"}
        self.assertIsNone(why_not(kept, kept))
        self.assertIn("raise", why_not(kept, {**kept, "numbers": "y"}))
        self.assertIsNone(why_not(kept, {**kept, "numbers": "y", "epoch": 4}))
        self.assertIsNone(why_not(kept, {**kept, "numbers": "y", "data": "b"}))
        self.assertIn("never", why_not(kept, {**kept, "epoch": 2}))


if __name__ == "__main__":
    if "--accept" in sys.argv:
        new = now()
        wrong = why_not(json.loads(KEPT.read_text()), new) if KEPT.exists() else None
        if wrong:
            sys.exit(wrong)
        KEPT.write_text(json.dumps(new, indent=1) + "\n")
        sys.exit(0)
    unittest.main(argv=sys.argv[:1], verbosity=2)
