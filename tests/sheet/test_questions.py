#!/usr/bin/env python3
"""Fifteen questions of an owner, asked of the printed checkout of clinical cases. The answer is what `explain` has, written by this file in
metric units; it must stand on the pages. Common practice, no source."""
import datetime
import json
import math
import re
import subprocess
import sys
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import yaml

PROGRAM = Path(sys.argv.pop(1)).resolve()
ROOT = Path(__file__).resolve().parents[2]
CASES = sorted(case for case in (ROOT / "tests/sheet/cases").glob("*.yaml") if "kind: checkout" in case.read_text())[::int(sys.argv.pop(1)) if len(sys.argv) > 1 else 2]
TODAY = "2026-03-20"
WORDS = {key: text for file in (ROOT / "templates/wording/en").glob("*.yaml") for key, text in yaml.safe_load(file.read_text()).items()}
INSTRUCTIONS = yaml.safe_load((ROOT / "templates/instructions.yaml").read_text())["instructions"]


def close(text):
    """Without spaces and signs that a line may add or lose."""
    return re.sub(r"[\s\u00a0\u2022]+", "", text).lower()


def asked(case):
    made = subprocess.run([PROGRAM, "sheet", case, "--units", "metric", "--language", "en", "--today", TODAY, "-o", "-"], capture_output=True, check=True)
    pages = subprocess.run(["pdftotext", "-raw", "-", "-"], input=made.stdout, capture_output=True, check=True).stdout.decode()
    plan = subprocess.run([PROGRAM, "explain", "--json", case, "--today", TODAY], capture_output=True, check=True).stdout
    return json.loads(plan), close(pages)


def number(value):
    return f"{value:.1f}".rstrip("0").rstrip(".")


def band(low, high, unit):
    return f"{number(low)}{unit}" if low == high else f"{number(low)}\u2013{number(high)}{unit}"


def day(iso):
    date = datetime.date.fromisoformat(iso)
    return f"{date.strftime('%a')} {date.day} {date.strftime('%b')}"


def sayings(code, part=""):
    """What may be said under a key: its own words or those of a variant, up to the first slot."""
    keys = [code] + [one["key"] for one in INSTRUCTIONS.get(code, {}).get("variants", [])]
    texts = [text for key in keys for text in [WORDS.get(key + part)] if text]
    texts = [one for text in texts for one in (text if isinstance(text, list) else [text])]
    return [piece for piece in (close(text.split("{")[0]) for text in texts) if piece]


class Questions(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with ThreadPoolExecutor(2) as pool:
            cls.sheets = dict(zip([case.stem for case in CASES], pool.map(asked, CASES)))

    def each(self):
        for self.case, (plan, pages) in self.sheets.items():
            yield plan, pages

    def stands(self, text, pages):
        self.assertIn(close(text), pages, self.case)

    def zone(self, name, least):
        """How warm shall it be there, and how warm is it?"""
        seen = 0
        for plan, pages in self.each():
            for one in plan["temperature"]:
                if one["zone"] != name or one["target"] is None or None in one["target"]:
                    continue
                seen += 1
                self.stands(band(*one["target"], "°C"), pages)
                if one["reading"] is not None and not one["implausible"]:
                    self.stands(f"now {number(one['reading'])}", pages)
        self.assertGreaterEqual(seen, least)

    def test_01_how_warm_at_the_basking_spot(self):
        self.zone("basking-surface", 5)

    def test_02_how_warm_at_the_warm_side(self):
        self.zone("warm-side", 10)

    def test_03_how_warm_at_the_cool_side(self):
        self.zone("cool-side", 10)

    def test_04_how_warm_at_night(self):
        self.zone("night", 10)

    def test_05_how_damp(self):
        seen = 0
        for plan, pages in self.each():
            lives_in_water = plan["species"]["group"] == "turtle"  # what is in the air says little to who is under water
            if plan["humidity"] and plan["humidity"]["target"] and None not in plan["humidity"]["target"] and not lives_in_water:
                seen += 1
                low, high = plan["humidity"]["target"]
                self.stands(band(math.ceil(low), math.floor(high), "%"), pages)
        self.assertGreaterEqual(seen, 10)

    def test_06_how_far_the_lamp(self):
        seen = 0
        for plan, pages in self.each():
            distance = plan["uvb"] and plan["uvb"]["distance"]
            stance = plan["stances"].get("uvb-lamp", [{}])[0].get("stance")
            if not distance or distance["recommended_cm"] is None or stance in ("off-until", "replace-then-rehang"):
                continue
            seen += 1
            # a band is rounded inwards: never nearer, never farther than it says
            wanted = [f"{distance['recommended_cm']:.0f}cm", f"{math.ceil(distance['nearest_cm'])}\u2013{math.floor(distance['farthest_cm'])}cm"]
            self.assertTrue(any(one in pages for one in wanted), (self.case, wanted))
        self.assertGreaterEqual(seen, 1)

    def test_07_how_long_light(self):
        for plan, pages in self.each():
            if plan["uvb"] and plan["uvb"]["hours"] and not plan["uvb"]["sun"]:
                self.stands(f"{plan['uvb']['hours']:.0f} hours", pages)

    def test_08_what_tonight(self):
        for plan, pages in self.each():
            if plan["actions"]:
                said = sayings(f"action.{plan['actions'][0]['code']}", ".short") + sayings("wall.main.go-now")
                self.assertTrue(any(one in pages for one in said), (self.case, said))

    def test_09_when_the_next_meal(self):
        for plan, pages in self.each():
            meals = [one["on"] for one in plan["dates"] if one["what"] == "meal"]
            if meals and plan["feeding"]["every_days"] and plan["feeding"]["every_days"][0] > 1:
                self.stands(day(meals[0]), pages)

    def test_10_how_much_food(self):
        for plan, pages in self.each():
            for line in plan["feeding"]["lines"]:
                if line["count"]:
                    low, high = line["count"]
                    self.stands(f"{low}" if low == high else f"{low}\u2013{high}", pages)
                elif line["amount_g"]:
                    self.stands(f"{line['amount_g'][1]:.0f} g", pages)

    def test_11_when_to_go_at_once(self):
        seen = 0
        for plan, pages in self.each():
            for sign in plan["warnings"]:
                if sign["tier"] == "now" and not sign["already"]:
                    seen += 1
                    said = sayings(f"sign.{sign['code']}")
                    self.assertTrue(any(one in pages for one in said), (self.case, said))
        self.assertGreaterEqual(seen, 150)

    def test_12_whom_to_call_by_day_and_when_it_is_closed(self):
        for _, pages in self.each():
            self.stands("Open 555-0142", pages)
            self.stands("Closed 555-0199", pages)
            self.stands("If closed, call 555-0199 first", pages)
            self.stands("Open Mon to Fri 8:00\u201318:00", pages)

    def test_13_when_to_come_back(self):
        for plan, pages in self.each():
            visits = [one["on"] for one in plan["dates"] if one["what"] in ("recheck", "given-here")]
            first = min((one for one in plan["dates"] if one["what"] in ("recheck", "given-here")), key=lambda one: one["on"], default=None)
            what = "Next visit, for a dose" if first and first["on"] not in [d["on"] for d in plan["dates"] if d["what"] == "recheck"] else "Next visit"
            self.stands(f"{what}: {day(min(visits))}" if visits else "Next visit:", pages)

    def test_14_what_was_found(self):
        for plan, pages in self.each():
            for one in plan["findings"]:
                if one.get("severity") in ("mild", "moderate", "severe"):
                    said = sayings(f"finding.{one['code']}.name")
                    self.assertTrue(any(text in pages for text in said), (self.case, said))

    def test_15_at_which_weight_to_call(self):
        seen = 0
        for plan, pages in self.each():
            low = plan["weight"]["alarm_low_g"]
            if low is None or not any(one["code"] == "weight-loss" for one in plan["warnings"]):
                continue
            seen += 1
            self.assertRegex(pages, r"weighs\d+(\.\d)?k?gorless|lostatenth|backbone", self.case)
        self.assertGreaterEqual(seen, 5)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
