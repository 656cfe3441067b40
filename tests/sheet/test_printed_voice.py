#!/usr/bin/env python3
"""What the finished sheet says, held against the plan: every sentence of the words' files that tells a keeper to do something, as far as
it has no slot, stands on the sheet only where explain's `instructions` lists it. Common practice, no source: one voice."""
import json
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import yaml

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "tests/program"), str(ROOT / "tests/common")]
PROGRAM, WRITE_PLAIN = (Path(arg).resolve() for arg in sys.argv[1:3])
import test_generated  # noqa: E402
from languages import LANGUAGES  # noqa: E402

INSTRUCTIONS = yaml.safe_load((ROOT / "templates/instructions.yaml").read_text())["instructions"]
TODAY, COUNT = "2026-03-20", 44


def letters(text):
    return re.sub(r"[\W_]+", "", text).lower()


def is_declared(key):
    codes = set(INSTRUCTIONS) | {v["key"] for row in INSTRUCTIONS.values() for v in row.get("variants", [])}
    return any(".".join(key.split(".")[:n]) in codes for n in range(1, key.count(".") + 2))


def sentences(lang):
    """Declared sentences without slots, long enough to be told apart: letters -> the keys that say them."""
    found, parts = {}, []
    for file in (ROOT / "templates/wording" / lang).glob("*.yaml"):
        for key, value in yaml.safe_load(file.read_text()).items():
            for text in value if isinstance(value, list) else [value]:
                for one in text.values() if isinstance(text, dict) else [text]:
                    parts += [(key, letters(part)) for part in re.split(r"\{[^}]*\}", str(one))]
                if isinstance(text, str) and "{" not in text and len(text) > 28 and is_declared(key):
                    found.setdefault(letters(text), set()).add(key)
    # a sentence that is a part of another's cannot be told apart from it
    return {sentence: keys for sentence, keys in found.items() if not any(sentence in part and key not in keys for key, part in parts)}


class PrintedVoice(unittest.TestCase):
    def test_every_instruction_on_the_sheet_is_one_of_the_plan(self):
        seen = dict.fromkeys(LANGUAGES, 0)
        words = {lang: sentences(lang) for lang in seen}
        for number in range(COUNT):
            record = test_generated.make(number)[0]
            for lang in seen:
                record.setdefault("keeper", {})["language"] = lang
                text = yaml.safe_dump(record, allow_unicode=True)
                plan = json.loads(subprocess.run([PROGRAM, "explain", "--json", "-", "--today", TODAY], input=text, capture_output=True,
                                                 text=True, check=True, cwd=ROOT).stdout)
                allowed = {one["printed"] for one in plan["instructions"]} | {one["code"] for one in plan["instructions"]}
                visit = Path(self.folder()) / "visit.yaml"
                visit.write_text(text)
                printed = letters(subprocess.run([WRITE_PLAIN, ROOT, visit, TODAY, lang], capture_output=True, text=True, check=True).stdout)
                for sentence, keys in words[lang].items():
                    if sentence not in printed:
                        continue
                    seen[lang] += 1
                    said = [key for key in keys if any(key == code or key.startswith(code + ".") for code in allowed)]
                    self.assertTrue(said, f"visit {number} ({lang}) says {sorted(keys)}, which is no instruction of its plan")
        self.assertGreater(min(seen.values()), 400, seen)

    def folder(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        return folder.name


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
