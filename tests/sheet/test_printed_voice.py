#!/usr/bin/env python3
"""What the finished sheet says, held against explain's `instructions`: every sentence of the words' files that tells a keeper to do
something, as far as it has no slot, stands on the sheet only where the list has it; and what the list has stands in the text of the PDF.
Over generated visits, and both ways over every example and case. Common practice, no source: one voice."""
import json
import re
import subprocess
import sys
import tempfile
import unittest
from functools import cache
from pathlib import Path

import yaml

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "tests/program"), str(ROOT / "tests/common")]
PROGRAM = Path(sys.argv[1]).resolve()
import test_generated  # noqa: E402
from languages import LANGUAGES  # noqa: E402

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

INSTRUCTIONS = read_yaml((ROOT / "templates/instructions.yaml").read_text())["instructions"]
TODAY, COUNT = "2026-03-20", 24


def cased(text):
    return re.sub(r"[\W_]+", "", text)


def letters(text):
    return cased(text).lower()


def is_declared(key):
    codes = set(INSTRUCTIONS) | {v["key"] for row in INSTRUCTIONS.values() for v in row.get("variants", [])}
    return any(".".join(key.split(".")[:n]) in codes for n in range(1, key.count(".") + 2))


@cache
def files(lang):
    return [yaml.load(file.read_text(), Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader)) for file in (ROOT / "templates/wording" / lang).glob("*.yaml")]


@cache
def sentences(lang):
    """Declared sentences without slots, long enough to be told apart: letters -> the keys that say them."""
    found, parts = {}, []
    for words in files(lang):
        for key, value in words.items():
            for text in value if isinstance(value, list) else [value]:
                for one in text.values() if isinstance(text, dict) else [text]:
                    parts += [(key, cased(part)) for part in re.split(r"\{[^}]*\}", str(one))]
                if isinstance(text, str) and "{" not in text and len(text) > 28 and is_declared(key):
                    found.setdefault(cased(text), set()).add(key)
    # a sentence that is a part of another's cannot be told apart from it
    return {sentence: keys for sentence, keys in found.items() if not any(sentence in part and key not in keys for key, part in parts)}


def catalogue(lang):
    """Every wording key with the alternatives of its sentence."""
    found = {}
    for words in files(lang):
        for key, value in words.items():
            found[key] = [str(one) for text in (value if isinstance(value, list) else [value])
                          for one in (text.values() if isinstance(text, dict) else [text])]
    return found


def of_code(words, code):
    return [text for key, texts in words.items() if key == code or key.startswith(code + ".") for text in texts]


def stands(sentence, text):
    """Are its letters there, in this order, with something in place of each slot? Sentence by sentence, as a meaning may stand between."""
    for part in re.split(r"[.!?:](?: |$)", sentence):
        pieces = [letters(piece) for piece in re.split(r"\{[^}]*\}", part)]
        pieces = [piece for piece in pieces if piece]
        if pieces and not re.search(".{0,90}?".join(re.escape(piece) for piece in pieces), text):
            return False
    return True


def without_running_heads(pages):
    """What stands at the head or the foot of more than one page would part a sentence that goes on overleaf."""
    pages = [[line for line in page.splitlines() if line.strip()] for page in pages]
    bare = [{re.sub(r"\d+", "", line) for line in page[:4] + page[-4:]} for page in pages]
    running = {line for place, one in enumerate(bare) for line in one if any(line in other for other in bare[:place] + bare[place + 1:])}
    for page in pages:
        ends = (range(min(4, len(page))), range(max(4, len(page) - 4), len(page)))
        yield "\n".join(line for place, line in enumerate(page) if not (any(place in end for end in ends) and re.sub(r"\d+", "", line) in running))


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
                printed = self.pages("-", input=text.encode())
                for sentence, keys in words[lang].items():
                    if sentence not in printed:
                        continue
                    seen[lang] += 1
                    said = [key for key in keys if any(key == code or key.startswith(code + ".") for code in allowed)]
                    self.assertTrue(said, f"visit {number} ({lang}) says {sorted(keys)}, which is no instruction of its plan")
        self.assertGreater(min(seen.values()), 250, seen)

    def pages(self, visit, **more):
        """The letters on the pages of its PDF; no other way of writing the sheet leaves out what has no room there."""
        pdf = subprocess.run([PROGRAM, "sheet", visit, "--data", ROOT, "--today", TODAY, "-o", "-"], capture_output=True, check=True, cwd=ROOT, **more)
        text = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf.stdout, capture_output=True, check=True).stdout.decode()
        return cased("\n".join(without_running_heads(text.split("\f"))))

    def folder(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        return folder.name

    def test_the_list_is_what_the_pdf_says(self):
        """Each example and case in one language, its pages read by pdftotext."""
        records = sorted((ROOT / "templates/visits").glob("*.yaml")) + sorted((ROOT / "tests/sheet/cases").glob("*.yaml"))
        words = {lang: (sentences(lang), catalogue(lang)) for lang in LANGUAGES}
        listed = found = 0
        for number, path in enumerate(records):
            lang = LANGUAGES[number % len(LANGUAGES)]
            record = yaml.load(path.read_text(), Loader=yaml.BaseLoader)
            record.setdefault("keeper", {})["language"] = lang
            visit = Path(self.folder()) / path.name
            visit.write_text(yaml.safe_dump(record, allow_unicode=True))
            for other in path.parent.glob("*.csv"):
                (visit.parent / other.name).write_bytes(other.read_bytes())
            told = json.loads(subprocess.run([PROGRAM, "explain", "--json", visit, "--data", ROOT, "--today", TODAY], capture_output=True,
                                             check=True).stdout)["instructions"]
            text = self.pages(visit)
            with self.subTest(record=path.name, language=lang):
                keys = {one["printed"] for one in told} | {one["code"] for one in told}
                silent = [one["printed"] for one in told if not any(stands(value, text.lower()) for value in of_code(words[lang][1], one["printed"]))]
                self.assertEqual(silent, [], "listed, but not on the pages")
                spoken = {sentence: said for sentence, said in words[lang][0].items() if sentence in text}
                extra = [sorted(said) for said in spoken.values() if not any(key == code or key.startswith(code + ".") for key in said for code in keys)]
                self.assertEqual(extra, [], "on the pages, but not listed")
                listed, found = listed + len(told), found + len(spoken)
        self.assertGreater(listed, 1500)
        self.assertGreater(found, 700)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
