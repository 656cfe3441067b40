#!/usr/bin/env python3
"""The number of the formulas (CARE_FORMULA_EPOCH of care/plan.h) goes up when numbers change that no change of the data explains, because
signatures rest on it. tests/sheet/golden/epoch.json holds the epoch, a digest of the data, and of each record, by the digest of its text, the
digest of every number and code of its plan: the examples, the clinical cases and some hundred records out of the visit's format, which reach what
no example has. `test_epoch.py PROGRAM --accept` writes it anew, and refuses when the program alone has changed the numbers of a
record under the same epoch."""
import functools
import hashlib
import json
import re
import subprocess
import sys
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "fuzz"))
import valid  # noqa: E402

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
KEPT = ROOT / "tests/sheet/golden/epoch.json"
VISITS = sorted((ROOT / "templates/visits").glob("*.yaml"))
CASES = sorted((ROOT / "tests/sheet/cases").glob("*.yaml"))
GENERATED = range(500)  # seeds
DATA = sorted([*VISITS, *(ROOT / "species-sheets").glob("*.yaml"), *(ROOT / "templates/sheets").glob("*.yaml"),
               *(p for p in (ROOT / "templates").glob("*.yaml") if p.name not in ("look.yaml", "mail-settings.yaml"))])
FORM, DRAWN = valid.read_format(PROGRAM, "visit"), valid.Data()
SPECIES = sorted(DRAWN.species)
SAID = ("text", "say", "words", "label", "title")  # sentences belong to the wording


def without_sentences(value):
    if isinstance(value, dict):
        return {key: without_sentences(item) for key, item in value.items() if key not in SAID}
    return [without_sentences(item) for item in value] if isinstance(value, list) else value


def digest(text):
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def explain(place, today, text=None):
    return subprocess.run([PROGRAM, "explain", "--json", "--today", today, place], input=text, capture_output=True, text=True, cwd=ROOT)


@functools.lru_cache(maxsize=None)
def record_of(source):
    """(the record's text, what `explain` says of it); a seed's record is what the program leaves of it."""
    if isinstance(source, Path):
        return source.read_text(encoding="utf-8"), explain(source, "2026-11-30")
    said = []

    def ask(text):
        said.append(explain("-", valid.TODAY.isoformat(), text))
        return said[-1].returncode, said[-1].stderr

    return valid.settle(valid.Generator(DRAWN, source, SPECIES[source % len(SPECIES)]).visit(FORM), FORM, ask)[0], said[-1]


def numbers_of(source):
    text, done = record_of(source)
    done.check_returncode()
    return digest(text), digest(json.dumps(without_sentences(json.loads(done.stdout)), sort_keys=True))


def now():
    data = hashlib.sha256()
    for path in DATA:
        data.update(path.read_bytes())
    epoch = int(re.search(r"CARE_FORMULA_EPOCH = (\d+)", (ROOT / "src/care/plan.h").read_text()).group(1))
    with ThreadPoolExecutor(2) as pool:
        records = dict(pool.map(numbers_of, [*VISITS, *CASES, *GENERATED]))
    return {"epoch": epoch, "data": data.hexdigest(), "records": dict(sorted(records.items()))}


def why_not(kept, new):
    """What is wrong with taking over `new`, or None. A record that only one of them knows says nothing of formulas."""
    if new["epoch"] < kept["epoch"]:
        return "the epoch never goes back"
    changed = [text for text, numbers in new["records"].items() if kept["records"].get(text, numbers) != numbers]
    if changed and new["data"] == kept["data"] and new["epoch"] == kept["epoch"]:
        return f"the program alone has changed the numbers of {len(changed)} records: raise CARE_FORMULA_EPOCH in src/care/plan.h, so that old signatures do not hold"
    return None


class Epoch(unittest.TestCase):
    def test_numbers_change_with_the_epoch_or_the_data(self):
        kept, new = json.loads(KEPT.read_text()), now()
        self.assertIsNone(why_not(kept, new))
        if new["records"] != kept["records"]:
            self.fail(f"the numbers, or what is refused, have changed with the {'data' if new['data'] != kept['data'] else 'epoch'}: "
                      f"look at the goldens, then {Path(__file__).name} PROGRAM --accept")

    def test_the_rule_itself(self):
        kept = {"epoch": 3, "data": "a", "records": {"one": "x", "two": "x"}}
        changed = {**kept, "records": {"one": "x", "two": "y"}}
        self.assertIsNone(why_not(kept, kept))
        self.assertIn("of 1 records: raise", why_not(kept, changed))
        self.assertIsNone(why_not(kept, {**kept, "records": {"one": "x", "three": "y"}}))
        self.assertIsNone(why_not(kept, {**changed, "epoch": 4}))
        self.assertIsNone(why_not(kept, {**changed, "data": "b"}))
        self.assertIn("never", why_not(kept, {**kept, "epoch": 2}))

    def test_the_records_reach_what_there_is(self):
        """Each species, and most findings and foods, stand in one of the records."""
        text = "".join(record_of(source)[0] for source in [*CASES, *GENERATED])
        for names, share in ((DRAWN.species, 1), (DRAWN.findings, 0.9), (DRAWN.foods, 0.8)):
            missing = [name for name in names if name not in text]
            self.assertLessEqual(len(missing), (1 - share) * len(names), missing)


if __name__ == "__main__":
    if "--accept" in sys.argv:
        new = now()
        wrong = why_not(json.loads(KEPT.read_text()), new)
        if wrong:
            sys.exit(wrong)
        KEPT.write_text(json.dumps(new, indent=1) + "\n")
        sys.exit(0)
    unittest.main(argv=sys.argv[:1], verbosity=2)
