#!/usr/bin/env python3
"""Words that agree with the patient's sex. One visit as of a female, of a male and of an animal of unknown sex: the sheets differ in
words that agree and in nothing else. The pairs are written here by the grammar of each language (from memory), not taken from the data."""
import difflib
import json
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from agreement import declared  # noqa: E402
from languages import LANGUAGES  # noqa: E402

PROGRAM, WRITE_PLAIN = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-20"
# (of a male or of unknown sex, of a female), as a whole word or as the end of one
PAIRS = {"es": {("lo", "la"), ("Lo", "La"), ("él", "ella"), ("o", "a")},
         "fr": {("le", "la"), ("il", "elle"), ("Il", "Elle"), ("s'il", "si elle"), ("S'il", "Si elle"), ("lui", "elle"), ("", "e")}}
# A verb, or a word before the pronoun, by which a masculine one can only mean the patient.
MASCULINE = {"es": r"(?i)\b(lléva|manipúla|pésa|tóca|levánta|despiérta|tén|ten|déja)lo\b|\blo (manipules|peses|obligues|toques)\b|pesarlo",
             "fr": r"(?i)\b(logez|soignez|réveillez|sortez)-le\b|logez-la seul\b|le soulevez"}
# What is found, what is done: animals of a tank, of the trees and of the ground, ill and well, and a plain one.
VISITS = [
    ("boa-constrictor", ["airway-infection moderate", "underweight moderate", "not-eating mild"], ["sedation"], {}),
    ("bearded-dragon", ["bent-bones moderate", "tremor mild", "in-shed-now mild"], ["x-ray"], {}),
    ("veiled-chameleon", ["soft-jaw moderate", "bent-bones moderate"], [], {}),
    ("whites-tree-frog", ["chytrid severe"], [], {}),
    ("axolotl", ["bite-wound moderate"], [], {"water": "24 C"}),
    ("hermanns-tortoise", ["overweight mild", "soft-shell mild"], ["imaging"], {}),
    ("corn-snake", ["quarantine-new mild", "rolling severe"], [], {}),
    ("leopard-gecko", [], [], {}),
]


# What the heading says of the sex, and what is normal of one sex alone, is no agreement.
OF_SEX = {"en": r"(Male|Female|Not known)\.|.*\b([Ff]emale|[Mm]ales?)\b", "es": r"(Macho|Hembra|No se sabe)\.|.*\b([Hh]embra|[Mm]achos?)\b",
          "fr": r"(Mâle|Femelle|Non connu)\.|.*\b([Ff]emelle|[Mm]âles?)\b"}


def text_of(visit, language, sex):
    species, found, done, readings = visit
    record = {"visit": {"date": TODAY, "kind": "reading", "veterinarian": "Dr Ines Calder"},
              "patient": {"name": "Fern", "species": species, "sex": sex, "hatched": "2021-05", "mass": "400 g"},
              "findings": [dict(zip(("code", "severity"), one.split())) for one in found], "done-today": done, "follow-up": {"recheck": "14 days"},
              "enclosure": {"readings": readings}}
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "visit.yaml"
        path.write_text(json.dumps({key: value for key, value in record.items() if value}))
        done = subprocess.run([WRITE_PLAIN, ROOT, path, TODAY, language, "whole"], capture_output=True, text=True)
    assert done.returncode == 0, (species, done.stderr)
    return [line for line in done.stdout.splitlines() if not re.match(OF_SEX[language], line)]


def agrees(male, female, language):
    """Is the one word the other's form?"""
    bare = [word.strip(".,:;()") for word in (male, female)]
    return any(bare[0][:len(bare[0]) - len(one)] == bare[1][:len(bare[1]) - len(other)] and bare[0].endswith(one) and bare[1].endswith(other)
               for one, other in PAIRS[language])


def differing(male, female):
    """The words that were replaced, pair by pair; a word for two is one text of two."""
    before, after = ([word for line in lines for word in line.replace("si elle", "si\u00a0elle").replace("Si elle", "Si\u00a0elle").split(" ")]
                     for lines in (male, female))
    for kind, a, b, c, d in difflib.SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        if kind != "equal":
            yield before[a:b], after[c:d]


class Agreement(unittest.TestCase):
    maxDiff = 2000

    def test_a_females_sheet_differs_in_words_that_agree_alone(self):
        for language in PAIRS:
            count = 0
            for visit in VISITS:
                male, female = (text_of(visit, language, sex) for sex in ("male", "female"))
                for before, after in differing(male, female):
                    self.assertEqual(len(before), len(after), (visit[0], before, after))
                    for one, other in zip(before, after):
                        count += 1
                        self.assertTrue(agrees(one, other.replace("\u00a0", " "), language), (visit[0], one, other))
                self.assertNotRegex("\n".join(female), MASCULINE[language], visit[0])
            self.assertGreater(count, {"es": 40, "fr": 12}[language], language)

    def test_an_unknown_sex_reads_as_a_male(self):
        for language in LANGUAGES:
            for visit in VISITS:
                self.assertEqual(text_of(visit, language, "unknown"), text_of(visit, language, "male"), (language, visit[0]))

    def test_english_needs_none(self):
        self.assertEqual(declared("en"), {})
        for visit in VISITS:
            self.assertEqual(text_of(visit, "en", "female"), text_of(visit, "en", "male"), visit[0])

    def test_the_data_declare_the_pairs_of_the_grammar(self):
        for language, pairs in PAIRS.items():
            self.assertEqual({(one["other"], one["female"]) for one in declared(language).values()}, pairs, language)

    def check(self, *changes):
        """What `check` says of the data after changes of (file, text, instead)."""
        with tempfile.TemporaryDirectory() as folder:
            for name in ("templates", "species-sheets"):
                shutil.copytree(ROOT / name, Path(folder) / name)
            for file, text, instead in changes:
                path = Path(folder) / "templates/wording" / file
                before = path.read_text()
                self.assertIn(text, before)
                path.write_text(before.replace(text, instead, 1))
            done = subprocess.run([PROGRAM, "check", folder, "--today", TODAY], capture_output=True, text=True)
            return done.returncode, done.stderr

    def test_a_language_may_add_a_form(self):
        """One of its own, in one sentence: no other language has to have it."""
        code, said = self.check(("es/language.yaml", "  object-pronoun:", "  article: {female: una, other: un}\n  object-pronoun:"),
                                ("es/stances.yaml", 'stance.transport.company.alone: "', 'stance.transport.company.alone: "Es {patient.article} más. '))
        self.assertEqual(code, 0, said)

    def test_what_is_wrong_is_told(self):
        for change, told in (
            (("es/language.yaml", "  object-pronoun:", "  name: {female: una, other: un}\n  object-pronoun:"), r"the plan fills \{patient.name\} itself"),
            (("es/stances.yaml", "Lléva{patient.object-pronoun} sin", "Lléva{patient.objet-pronoun} sin"), r"did you mean \{patient.object-pronoun\}"),
            (("en/stances.yaml", "Carry it alone.", "Carry {patient.object-pronoun} alone."), r"which nothing fills"),
            (("es/desk.yaml", 'desk.title: "', 'desk.title: "{patient.object-pronoun}'), r"which nothing fills"),
        ):
            code, said = self.check(change)
            self.assertEqual(code, 1, change)
            self.assertRegex(said, told)

    def test_a_topic_is_found_in_a_text_that_agrees(self):
        """"manipúlalo" is a word of the topic handling: where a text holds it with the slot and declares nothing, `check` tells."""
        code, said = self.check(("es/findings.yaml", 'finding.vomited.home: "', 'finding.vomited.home: "Manipúla{patient.object-pronoun} poco. '))
        self.assertEqual(code, 1, said)
        self.assertRegex(said, r"speaks of the topic 'handling' \(\"manipúlalo\"\)")


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
