#!/usr/bin/env python3
"""`check` of a data folder out of which one declaration of instructions.yaml was taken, or into which a word of another topic was planted:
it refuses each, or what it cannot see is held by hand in another test (all declarations with --all, a sample otherwise; every topic's word list in every language)."""
import random
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path


import test_stops

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

EVERY = "--all" in sys.argv
PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
BESIDE = read_yaml((ROOT / "tests/sheet/beside.yaml").read_text(encoding="utf-8"))
NEVER = {key for one in BESIDE["visits"].values() for key in one.get("never", [])}
WHOM = (ROOT / "tests/sheet/whom_rows.c").read_text(encoding="utf-8")
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

    def assert_held_elsewhere(self, code, declared):
        """What only chooses among texts that others name too: by whom it is heard (whom_rows.c), by what is so already (test_stops), by the
        row whose variant it is, or by a visit that must not say it or lists it (beside.yaml)."""
        stops = code.split(".")[1] in test_stops.SPEAKS and code.endswith(".stop")
        self.assertTrue(stops or code in NEVER or code in BESIDE["listed"] or f'"{code}"' in WHOM or re.search(rf"key: {re.escape(code)}[,}}]", declared), f"nobody misses {code}")

    def test_one_taken_out_is_missed(self):
        path = self.data / "templates/instructions.yaml"
        lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
        rows = [number for number, line in enumerate(lines) if re.match(r"  [a-z][a-z0-9.-]*: \{", line)]
        self.assertEqual(len(rows), len(read_yaml("".join(lines))["instructions"]))
        for number in rows if EVERY else random.Random(SEED).sample(rows, SAMPLE):
            path.write_text("".join(lines[:number] + lines[number + 1:]), encoding="utf-8")
            done = self.check()
            if done.returncode == 0:
                self.assert_held_elsewhere(lines[number].split(":")[0].strip(), "".join(lines))
                continue
            self.assertRegex(done.stdout + done.stderr, "declare it in instructions.yaml|without declaring it|names no|no instruction|nothing in the data speaks of", lines[number])

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
