#!/usr/bin/env python3
"""`check` of a data folder out of which one declaration of instructions.yaml was taken, or into which a word of another topic was planted:
it refuses each, or what it cannot see is held by hand in another test (all declarations with --all, a sample otherwise; every topic's word list in every language)."""
import json
import random
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path


import yaml

import test_stops

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

EVERY = "--all" in sys.argv
PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
BESIDE = read_yaml((ROOT / "tests/sheet/beside.yaml").read_text(encoding="utf-8"))
WHOM = (ROOT / "tests/sheet/whom_rows.c").read_text(encoding="utf-8")
# what test_whom asks each animal of; the rows that it cannot tell apart ask nobody
HEARD = set(re.findall(r'\{"([a-z0-9.-]+)",', WHOM.split("whom_unseen[] =")[0]))
MISSED = yaml.load((ROOT / "tests/sheet/declared.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
TODAY, SAMPLE, SEED = "2026-03-20", 40, 14
LANGUAGES = sorted(path.name for path in (ROOT / "templates/wording").iterdir())
# a text that tells nothing yet, of each kind that is looked through, and the file of words it stands in
PLACES = [("action.measure-again.do", "actions.yaml"), ("caution.local-law", "actions.yaml"), ("sign.crushed-shell", "signs.yaml"),
          ("sheet.first-weeks.day-11", "sheet.yaml"), ("sheet.setup.papers", "sheet.yaml"), ("normal.hissing", "signs.yaml")]


class Declared(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.data = Path(folder.name)
        for part in ("templates", "species-sheets"):
            shutil.copytree(ROOT / part, self.data / part)

    def check(self):
        return subprocess.run([PROGRAM, "check", self.data, "--today", TODAY], capture_output=True, text=True)

    def test_the_folder_as_it_is(self):
        self.assertEqual(self.check().returncode, 0)

    def printed(self, visit, data):
        """(text, what is printed in its place) of all that the visit's sheet says."""
        record = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"},
                  "patient": {"name": "Fern", "species": visit["animal"], "sex": "female", "hatched": "2021-05"}, "follow-up": {"recheck": "7 days"},
                  "findings": [dict(zip(("code", "severity", "state", "step"), text.split())) for text in visit["found"]],
                  **{part: visit[part] for part in ("enclosure", "water", "done-today", "medicines", "decisions") if part in visit}}
        record["visit"]["kind"] = visit.get("kind", "checkout")
        record["patient"].update(visit.get("patient", {}))
        if "says" in visit or "never" in visit:  # of test_beside, as it plans them
            record["visit"]["kind"] = "reading"
            record["enclosure"] = {**record.get("enclosure", {}), **({"readings": visit["readings"]} if "readings" in visit else {})}
            record["follow-up"].update(visit.get("follow-up", {}))
        if "medicine" in visit:
            record["medicines"] = [{key: str(value) for key, value in visit["medicine"].items()}]
        if "referral" in visit:
            record["follow-up"]["referral"] = {key: str(value) for key, value in visit["referral"].items()}
        if "done" in visit:
            record["done-today"] = visit["done"]
        done = subprocess.run([PROGRAM, "explain", "--json", "-", "--data", data, "--today", TODAY], input=yaml.safe_dump(record), capture_output=True, text=True)
        self.assertEqual(done.returncode, 0, done.stderr)
        return {(one["code"], one["printed"]) for one in json.loads(done.stdout)["instructions"]}

    def is_turned_by_a_sign(self, code, rows):
        """test_stops: a finding of an animal that has the action is what the sentence speaks of, and no row would turn it."""
        action = code[:-len(".stop")]
        own = code.split(".")[1]
        for sign in test_stops.SPEAKS.get(own, {}) if code == f"action.{own}.stop" else {}:
            for finding in test_stops.so_today(sign):
                has = set(test_stops.FINDINGS[finding]["groups"])
                if (own, sign) not in test_stops.NEW_EACH_TIME and has & set(rows.get(action, {}).get("for", {}).get("groups", has)):
                    return True
        return False

    def assert_held_elsewhere(self, code, rows):
        """What only chooses among texts that others name too: by whom it is heard (test_whom), by what is so already (test_stops), by a visit that
        lists it, that must not say it or that says otherwise without it; each such visit is run without the declaration."""
        if code in HEARD or self.is_turned_by_a_sign(code, rows):
            return
        if code in MISSED and "unsaid" in MISSED[code]:
            said = [MISSED[code]["unsaid"] in {key for _, key in self.printed(MISSED[code], data)} for data in (ROOT, self.data)]
            self.assertEqual(said, [False, True], code)
            return
        if code in MISSED:
            said = (code, MISSED[code]["prints"])
            self.assertIn(said, self.printed(MISSED[code], ROOT))
            self.assertNotIn(said, self.printed(MISSED[code], self.data), code)
            return
        if code in BESIDE["listed"]:
            self.assertNotIn(code, {of for of, _ in self.printed(BESIDE["listed"][code], self.data)})
            return
        says = [one for one in BESIDE["visits"].values() if code in one.get("says", [])]
        self.assertTrue(any(code not in {key for _, key in self.printed(one, self.data)} for one in says), f"nobody misses {code}")

    def test_each_visit_misses_its_declaration(self):
        path = self.data / "templates/instructions.yaml"
        text = path.read_text(encoding="utf-8")
        rows = read_yaml(text)["instructions"]
        for code in MISSED:
            with self.subTest(taken=code):
                self.assertIn(code, rows)
                path.write_text(re.sub(rf"^  {re.escape(code)}: \{{.*\n", "", text, flags=re.M), encoding="utf-8")
                self.assert_held_elsewhere(code, rows)

    def test_one_taken_out_is_missed(self):
        path = self.data / "templates/instructions.yaml"
        lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
        rows = [number for number, line in enumerate(lines) if re.match(r"  [a-z][a-z0-9.-]*: \{", line)]
        whole = read_yaml("".join(lines))["instructions"]
        self.assertEqual(len(rows), len(whole))
        for number in rows if EVERY else random.Random(SEED).sample(rows, SAMPLE):
            path.write_text("".join(lines[:number] + lines[number + 1:]), encoding="utf-8")
            done = self.check()
            if done.returncode == 0:
                with self.subTest(taken=lines[number].split(":")[0].strip()):
                    self.assert_held_elsewhere(lines[number].split(":")[0].strip(), whole)
                continue
            with self.subTest(taken=lines[number].split(":")[0].strip()):
                self.assertRegex(done.stdout + done.stderr, "declare it in instructions.yaml|without declaring it|names no|no instruction|nothing in the data speaks of|which warning signs it speaks of", lines[number])

    def test_a_word_of_another_topic_is_seen(self):
        for language in LANGUAGES:
            words = read_yaml((ROOT / f"templates/wording/{language}/topics.yaml").read_text(encoding="utf-8"))
            for number, (topic, spoken) in enumerate(sorted((key, value) for key, value in words.items() if key.startswith("topic-words."))):
                key, file = PLACES[number % len(PLACES)]
                path = self.data / "templates/wording" / language / file
                text = path.read_text(encoding="utf-8")
                word = random.Random(number).choice(spoken).replace("…", "{patient.name}").replace("*", "")
                path.write_text(re.sub(rf"^{re.escape(key)}:.*$", f'{key}: "So {word}."', text, flags=re.M), encoding="utf-8")
                done = self.check()
                path.write_text(text, encoding="utf-8")
                with self.subTest(language=language, topic=topic, word=word, key=key):
                    self.assertRegex(done.stdout + done.stderr, f"'{re.escape(key)}' speaks of the topic '{re.escape(topic.split('.', 1)[1])}'")


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
