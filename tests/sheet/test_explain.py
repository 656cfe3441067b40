#!/usr/bin/env python3
"""`explain` of each example against a golden file that was read line by line against the arithmetic (hand calculation of each
derived number from its inputs), and --json against the text: every derivation stands in both with the same value."""
import datetime
import difflib
import json
import math
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import yaml

sys.path.insert(0, str(Path(__file__).resolve().parent))
sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "program"))
import arithmetic
import test_generated

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

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


LAMPS = [
    {"kind": "compact", "measured": {"uvi": 2.0, "at": "25 cm"}, "height": "30 cm"},
    {"kind": "metal-halide", "measured": {"uvi": 5.0, "at": "40 cm"}, "height": "60 cm", "offset": "10 cm", "mesh": {"wire": "0.3 mm", "opening": "2 mm"}},
    {"kind": "tube", "measured": {"uvi": 2.5, "at": "30 cm"}, "height": "35 cm"},
    {"kind": "tube", "tube-length": "85 cm", "measured": {"uvi": 4.0, "at": "30 cm"}, "height": "40 cm", "offset": "15 cm", "mesh-loss": "20 %"},
]


def wider(number):
    """A generated visit with every kind of lamp in turn, weighings, lengths, and the findings that change how one feeds."""
    record, _ = test_generated.make(number)
    species = test_generated.SPECIES[record["patient"]["species"]]
    group = species["species"]["group"]
    if group != "salamander":
        record["enclosure"]["lamp"] = {**LAMPS[number % 4], "installed": "2025-10-01"}
    length = species["size"].get("adult-length")
    if length:
        record["patient"]["length"] = f"{test_generated.band(length)[0]:g} {length['range'].split()[-1]}"
    mass = record["patient"].get("mass")
    if mass:
        grams, unit = re.fullmatch(r"([\d.]+) *(\w+)", mass).groups()
        record["patient"]["earlier"] = [{"on": "2026-01-10", "mass": f"{float(grams) * (0.85, 0.97, 1.08)[number % 3]:.7g} {unit}"}]
    record["enclosure"].setdefault("readings", {})["room"] = "20 C"
    if "water" in species:
        record["enclosure"]["readings"]["water"] = "30 C"
        record["water"] = {"ammonia": f"{number % 5 * 0.25} mg/l", "ammonia-as": ("total", "total-n", "nh3")[number // len(test_generated.SPECIES) % 3], "nitrite": "0.1 mg/l", "nitrate": "90 mg/l", "ph": "8.6",
                           "hardness": "3 dGH", "chlorine": "0.1 mg/l", "depth": "12 cm", "filter": number % 2 == 0, "change": {"share": "20 %", "every": "30 days"}}
    if "basking-surface" not in species["temperature"]:
        record["enclosure"]["readings"]["basking-surface"] = "45 C"
    record["enclosure"].update({"walls": "wood", "lid": "wood", "size": "120 x 60 x 50 cm", "platform-height": "10 cm", "perch-height": f"{number % 3 * 10} cm", "animals": number % 4 + 1, "outdoor": number % 5 == 4, "latitude": number % 9 * 10 - 40})
    code = ("overweight", "underweight", "regurgitated", "weak")[number // 4 % 4]
    if code in test_generated.CATALOGUE["findings"] and test_generated.fits(test_generated.CATALOGUE["findings"][code], species):
        severities = test_generated.CATALOGUE["findings"][code]["severities"]
        record["findings"] = [{"code": code, "severity": severities[len(severities) // 2]}]
        if mass:
            record["patient"]["goal-mass"] = f"{float(grams) * (0.8 if code == 'overweight' else 1.2):.7g} {unit}"
    if number % 7 == 3:
        record["targets"] = {"light-hours": "9-10 h", "because": "As seen today.", "by": "Dr Ines Calder"}
    record["medicines"] = [{"name": "Syrup", "amount": "0.3 ml", "every": ("12 h", "24 h", "48 h")[number % 3], "for": "9 days", "first": "2026-03-21",
                            "dose": "4 mg/kg", "concentration": "15 mg/ml", "confirmed": True}]
    stage = species["feeding"]["stages"][-1]
    food = stage["foods"][-1]
    fed = {"meal": f"{float(grams) * 0.06:.7g} {unit}"} if "meal" in stage and mass else {"count": 5}
    record["diet"] = [{"food": food, **fed, "every": "9 days" if "meal" in stage else "2 days"}]
    return record


FORMAT = ROOT / "src/explain/format.md"
SHARED = {"source", "how", "facts", "confirmed"}  # described once


def described():
    """The keys that the page of the format names for each part."""
    rows = re.findall(r"^\| `(\w+)` \| (.*) \|$", FORMAT.read_text(), re.M)
    return {part: set(re.findall(r"`(\w+)`", text)) for part, text in rows}


def keys_below(value, open_keys=False):
    if isinstance(value, list):
        for one in value:
            yield from keys_below(one)
    elif isinstance(value, dict):
        for key, one in value.items():
            if not open_keys:
                yield key
            if key not in SHARED:
                yield from keys_below(one)


class Format(unittest.TestCase):
    def test_what_is_not_known_is_null_and_never_left_out(self):
        """As the page of the format promises: a reader asks for a key once and finds it in each plan."""
        for path in sorted((ROOT / "templates/visits").glob("*.yaml")):
            plan = json.loads(explain(path.stem, "--json"))
            box, feeding, water = plan["enclosure"], plan["feeding"], plan["water"]
            wanted = [(zone, ["target", "limit", "source"]) for zone in plan["temperature"]] + [(one, ["words", "start", "end"]) for one in plan["actions"]]
            wanted += [(box, ["nest"]), (box["hides"], ["source"]), (box["company"], ["source"]), (feeding["size_rule"], ["code", "source"])]
            wanted += [(one, ["source"]) for one in (water or {}).get("tests", [])]
            for whole, keys in wanted:
                self.assertLessEqual(set(keys), set(whole), (path.stem, whole))

    def test_every_key_is_described(self):
        rows, records = described(), [*(ROOT / "templates/visits").glob("*.yaml"), *(ROOT / "tests/sheet/cases").glob("*.yaml")]
        self.assertGreater(len(records), 20)
        for path in records:
            done = subprocess.run([PROGRAM, "explain", "--json", path, "--today", TODAY], capture_output=True, text=True, cwd=ROOT)
            self.assertEqual(done.returncode, 0, done.stderr)
            for part, value in json.loads(done.stdout).items():
                self.assertIn(part, rows, "a part that the page does not have")
                missing = set(keys_below(value, open_keys=part == "stances")) - rows[part] - SHARED
                self.assertEqual(missing, set(), f"{part} of {path.name}, not in src/explain/format.md")

    def test_every_key_described_is_written(self):
        code = "".join(p.read_text() for p in (ROOT / "src/explain").glob("*.c"))
        for part, keys in described().items():
            for key in keys | {part}:
                self.assertIn(f'"{key}"', code, part)


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
                self.assertIn(f"- {one['what']}, {one['value']:.6g} {one['unit']}".rstrip() + ",", text)

    def test_what_a_number_is_worked_out_by_is_among_the_sources(self):
        """Each publication once. The bound of a diet is a source where it is fallen short of, and that of a weight is the clinic's practice."""
        for path in GOLDEN.glob("*.txt"):
            plan = json.loads(explain(path.stem, "--json"))
            texts = [source["text"] for source in plan["sources"]]
            self.assertEqual(len(texts), len(set(texts)))
            for one in derivations(plan):
                if one["what"] not in ("feeding.diet.least", "weight.alarm_low_g"):
                    self.assertIn(one["source"], [*texts, "arithmetic", "as given in the record"], f"{path.stem}: {one['what']}")

    def test_the_usual_that_a_finding_calls_for_is_the_findings(self):
        """One that carries is kept as warm as always until she has laid, and nothing else may move that."""
        for found, wanted in (([], ("usual", "none", "default")), ([{"code": "gravid", "severity": "moderate"}], ("usual", "laid", "finding:gravid"))):
            record = {"visit": {"date": "2026-03-16", "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "findings": found,
                      "patient": {"name": "Fern", "species": "corn-snake", "sex": "female", "hatched": "2019-05"}}
            done = subprocess.run([PROGRAM, "explain", "--json", "-", "--today", TODAY], input=yaml.safe_dump(record), capture_output=True, text=True, cwd=ROOT)
            warmth = json.loads(done.stdout)["stances"]["warmth-day"][0]
            self.assertEqual((warmth["stance"], warmth["end_by"], warmth["because"]), wanted)

    def growth_of(self, *earlier):
        """What explain says of Biscuit's weight (1850 g on 2026-03-14) after these weighings."""
        record = read_yaml((ROOT / "templates/visits/biscuit-ball-python.yaml").read_text())
        record["patient"]["earlier"] = [{"on": on, "mass": mass} for on, mass in earlier]
        words = [PROGRAM, "explain", "--json", "-", "--today", TODAY]
        done = subprocess.run(words, input=yaml.safe_dump(record), capture_output=True, text=True, cwd=ROOT)
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)["growth"]

    def test_the_trend_is_a_straight_line_through_what_can_be_right(self):
        """Least squares by Python's own statistics.linear_regression; the ball python's sheet bounds a mass by 30 and 4000 g."""
        weighings = [("2025-12-01", "1740 g"), ("2025-06-02", "1610 g"), ("2025-09-01", "14 kg"), ("2025-07-20", "2 g")]
        growth = self.growth_of(*weighings)
        self.assertEqual([(w["on"], w["mass_g"]) for w in growth["weighings"]], [("2025-06-02", 1610), ("2025-12-01", 1740), ("2026-03-14", 1850)])
        days = [(datetime.date.fromisoformat(w["on"]) - datetime.date(2025, 6, 2)).days for w in growth["weighings"]]
        line = statistics.linear_regression(days, [1610, 1740, 1850])
        for got, day in zip(growth["trend_g"], (days[0], days[-1])):
            self.assertAlmostEqual(got, line.intercept + line.slope * day, 6)
        self.assertEqual(self.growth_of(("2025-09-01", "14 kg"))["trend_g"], None)

    def work_again(self, one):
        """The value and both ends of its band, against a second calculation from its inputs."""
        inputs = {i["name"]: i["value"] for i in one["inputs"]}
        low, high = one["uncertainty"]
        self.assertLessEqual(low, one["value"] + 1e-9, one)
        self.assertGreaterEqual(high, one["value"] - 1e-9, one)
        if one["formula"] in arithmetic.HELD:
            return
        again = arithmetic.FORMULAS[one["formula"]](inputs, one["value"], (low, high))
        for got, wanted in zip((one["value"], low, high), again):
            if wanted is not None:
                self.assertTrue(math.isclose(got, wanted, rel_tol=2e-4, abs_tol=2e-3), (got, wanted, one))

    def test_every_number_is_worked_out_again(self):
        seen = {}
        for path in sorted((ROOT / "templates/visits").glob("*.yaml")):
            for one in derivations(json.loads(explain(path.stem, "--json"))):
                self.work_again(one)
                seen[one["formula"]] = seen.get(one["formula"], 0) + 1
        for case in sorted((ROOT / "tests/sheet/cases").glob("*.yaml")):
            done = subprocess.run([PROGRAM, "explain", "--json", case, "--today", TODAY], capture_output=True, text=True, cwd=ROOT)
            self.assertEqual(done.returncode, 0, done.stderr)
            for one in derivations(json.loads(done.stdout)):
                self.work_again(one)
                seen[one["formula"]] = seen.get(one["formula"], 0) + 1
        records = [make(number) for number in range(test_generated.COUNT) for make in (lambda n: test_generated.make(n)[0], wider)]
        # a warm side of the veterinarian's own below the upper half of the zone: the night begins where that day does
        records.append({"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Tango", "species": "boa-constrictor"},
                        "findings": [{"code": "airway-infection", "severity": "moderate"}], "targets": {"warm-side": "28-30 C", "because": "As seen today.", "by": "Dr Ines Calder"}})
        runs = [(ROOT, one) for one in records]
        for data, record in ((where, yaml.safe_dump(one, allow_unicode=True)) for where, one in runs):
            words = [PROGRAM, "explain", "--json", "-", "--today", TODAY, "--data", data]
            done = subprocess.run(words, input=record, capture_output=True, text=True, cwd=ROOT)
            self.assertEqual(done.returncode, 0, done.stderr + record)
            for one in derivations(json.loads(done.stdout)):
                self.work_again(one)
                seen[one["formula"]] = seen.get(one["formula"], 0) + 1
        missed = set(arithmetic.FORMULAS) - set(seen)
        print("worked out again:", ", ".join(f"{name} {count}" for name, count in sorted(seen.items())))
        self.assertEqual(missed, set(), "no visit reaches these")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
