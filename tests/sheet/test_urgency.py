#!/usr/bin/env python3
"""One sign has one urgency on one sheet: the list of signs, a finding's sentence, the aftercare and an action's last line say the same
(urgencies.yaml, by hand)."""
import json
import random
import re
import subprocess
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import yaml

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests/common"))
import findings as together  # noqa: E402
import settling  # noqa: E402

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

PROGRAM, PLAIN = (Path(sys.argv.pop(1)).resolve() for _ in range(2))
TODAY, VISITS, SEED = "2026-03-16", 240, 14
TABLE = read_yaml(Path(__file__).with_name("urgencies.yaml").read_text(encoding="utf-8"))
SPECIES = sorted(path.stem for path in (ROOT / "species-sheets").glob("*.yaml"))
URGENT = re.compile(r"\b(go now|call us now|call us today|call today|the same day)\b", re.I)


def urgencies(sentence, words):
    """A sentence may name two: "call us today if it shakes, and go now if it falls"."""
    found = set()
    calls = list(URGENT.finditer(sentence))
    for place, call in enumerate(calls):
        end = calls[place + 1].start() if place + 1 < len(calls) else len(sentence)
        begin = calls[place - 1].end() if place else 0
        before = sentence[begin:call.start()] if sentence.lower().startswith("if ") or " so " in sentence[begin:call.start()] else ""
        if re.search(words, before + sentence[call.end():end], re.I):
            found.add("now" if "now" in call.group(0).lower() else "today")
    return found


def explained(animal, found, done):
    return json.loads(subprocess.run([PROGRAM, "explain", "--json", "-", "--today", TODAY], input=yaml.safe_dump(record_of(animal, found, done)), capture_output=True, text=True,
                                     cwd=ROOT, timeout=60, check=True).stdout)


def record_of(animal, found, done):
    return {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"},
              "patient": {"name": "Fern", "species": animal, "sex": "female", "hatched": "2021-05"},
              "findings": [dict(zip(("code", "severity"), text.split())) for text in found], "done-today": done, "follow-up": {"recheck": "7 days"}}


def sheet(animal, found, done):
    record = record_of(animal, found, done)
    with tempfile.TemporaryDirectory() as folder:
        visit = Path(folder, "visit.yaml")
        visit.write_text(yaml.safe_dump(record), encoding="utf-8")
        plan = json.loads(subprocess.run([PROGRAM, "explain", "--json", visit, "--today", TODAY], capture_output=True, text=True, cwd=ROOT, timeout=60, check=True).stdout)
        text = subprocess.run([PLAIN, ROOT, visit, TODAY, "en", "whole"], capture_output=True, text=True, timeout=60, check=True).stdout
    tiers = {sign["code"]: "now" if sign["tier"] == "now" else "today" for sign in plan["warnings"]}
    return tiers, re.split(r"(?<=[.?!:])\s+", text.replace("\u00a0", " "))


def listed(animal, found, done):
    """The signs of the list, in words, with their urgency."""
    words = {}
    for name in ("signs", "findings"):
        words.update(read_yaml((ROOT / f"templates/wording/en/{name}.yaml").read_text(encoding="utf-8")))
    plan = explained(animal, found, done)
    keys = {one["code"]: one["printed"] for one in plan["instructions"]}
    for sign in plan["warnings"]:
        own = f"sign.{sign['code']}"
        key = keys.get(own) or own
        if sign["already"]:
            key = keys.get(f"{own}.worse") or f"{key}.worse"
        text = words[key]
        yield ("now" if sign["tier"] == "now" else "today", text[0] if isinstance(text, list) else text)


def said(sentences, sign):
    words = TABLE["words"][sign]
    return {(urgency, sentence) for sentence in sentences if re.search(words, sentence, re.I) for urgency in urgencies(sentence, words)}


def visits():
    dice = random.Random(SEED)
    for _ in range(VISITS):
        animal = settling.Animal(species := dice.choice(SPECIES))
        entries = settling.CATALOGUE["findings"]
        pool = [code for code, entry in entries.items() if "normal" not in entry["severities"] and animal.can_have(entry) and code != "hemipenal-plug"]
        chosen = together.without_excluded([{"code": code} for code in dice.sample(pool, dice.choice([2, 3, 4]))], "female")
        done = [code for code in dice.sample(sorted(settling.CATALOGUE["procedures"]), 2) if animal.can_have(settling.CATALOGUE["procedures"][code])]
        yield species, [f'{one["code"]} {dice.choice(entries[one["code"]]["severities"])}' for one in chosen], done[:1]


class Urgency(unittest.TestCase):
    def test_visits_by_hand(self):
        for name, one in TABLE["visits"].items():
            with self.subTest(visit=name):
                tiers, sentences = sheet(one["animal"], one["found"], one.get("done-today", []))
                self.assertEqual({urgency for urgency, _ in said(sentences, one["sign"])}, {one["urgency"]}, said(sentences, one["sign"]))
                if one["sign"] in tiers:
                    self.assertEqual(tiers[one["sign"]], one["urgency"])

    def test_no_sheet_says_two(self):
        made, heard = list(visits()), 0
        with ThreadPoolExecutor(2) as pool:
            for one, (tiers, sentences) in zip(made, pool.map(lambda v: sheet(*v), made)):
                for sign in TABLE["words"]:
                    found = said(sentences, sign)
                    heard += bool(found)
                    urgent = {urgency for urgency, _ in found} | ({tiers[sign]} if sign in tiers and found else set())
                    self.assertLessEqual(len(urgent), 1, (one, sign, tiers.get(sign), found))
        self.assertGreater(heard, VISITS // 4)

    def test_the_list_says_no_sign_twice(self):
        """Two rows of the list that are one sign: never one to go for and one to call for."""
        by_hand = [(one["animal"], one["found"], one.get("done-today", [])) for one in TABLE["visits"].values()]
        by_hand += [("painted-turtle", ["swollen-eyes severe", "vitamin-a-deficiency moderate"], ["dry-hours"])]
        heard = dict.fromkeys(TABLE["listed"], 0)
        made = by_hand + list(visits())
        with ThreadPoolExecutor(2) as pool:
            for one, signs in zip(made, pool.map(lambda v: list(listed(*v)), made)):
                for name, words in TABLE["listed"].items():
                    found = {(urgency, text) for urgency, text in signs if re.search(words, text)}
                    heard[name] += len(found) > 0
                    self.assertLessEqual(len({urgency for urgency, _ in found}), 1, (one, found))
        self.assertTrue(all(heard.values()), heard)

    def test_rows_by_hand(self):
        for name, one in TABLE["rows"].items():
            tiers = {sign["code"]: sign["tier"] for sign in explained(one["animal"], one["found"], [])["warnings"]}
            self.assertEqual(tiers[one["sign"]], one["urgency"], name)

    def test_both_are_tried_of_each_sign(self):
        for sign in TABLE["words"]:
            tried = {one["urgency"] for one in TABLE["visits"].values() if one["sign"] == sign}
            self.assertIn("now", tried, sign)


if __name__ == "__main__":
    unittest.main(verbosity=2)
