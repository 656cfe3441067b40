#!/usr/bin/env python3
"""Reading ease of every example sheet: Debian's `style` (package diction) and our own counter say grade 6 or less (AMA and patient-education
reviews ask for 4th to 6th grade)."""
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import yaml

sys.path[:0] = [str(Path(__file__).resolve().parents[1] / folder) for folder in ("program", "common")]
import test_generated
from languages import LANGUAGES

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

PROGRAM, WRITE_PLAIN = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve()
ROOT = Path(__file__).resolve().parents[2]
GRADE, EASE = 6.0, 70.0
VISITS = sorted((ROOT / "templates/visits").glob("*.yaml"))


class Reading(unittest.TestCase):
    def test_style_agrees_that_the_sheets_are_easy(self):
        if not shutil.which("style"):
            self.skipTest("Debian's package diction is not installed")
        own = subprocess.run([PROGRAM, "check", ".", "--today", "2026-03-20"], capture_output=True, text=True, cwd=ROOT)
        self.assertEqual(own.returncode, 0, own.stderr)
        for visit in VISITS:
            text = subprocess.run([WRITE_PLAIN, ROOT, visit, "2026-03-20", "en"], capture_output=True, text=True, check=True).stdout
            said = subprocess.run(["style"], input=text, capture_output=True, text=True).stdout
            grade = float(re.search(r"Kincaid: (-?[\d.]+)", said).group(1))
            ease = float(re.search(r"Flesch Index: (-?[\d.]+)", said).group(1))
            ours = float(re.search(rf"(?s)/{visit.name}: .*?the whole sheet +en +(-?[\d.]+)", own.stdout).group(1))
            print(f"{visit.stem}: style {grade}, ours {ours}, Flesch ease {ease}", file=sys.stderr)
            self.assertLessEqual(grade, GRADE)
            self.assertLessEqual(ours, GRADE)
            self.assertGreaterEqual(ease, EASE)
            self.assertAlmostEqual(grade, ours, delta=1.5)

    def test_words_are_explained_where_they_first_stand(self):
        """On the examples and forty generated sheets of all kinds: a word of the list has its meaning in the block where it first stands
        outside headings, once, and no meaning stands without its word."""
        with tempfile.TemporaryDirectory() as folder:
            visits = list(VISITS)
            for number in range(40):
                visits.append(Path(folder) / f"visit-{number}.yaml")
                visits[-1].write_text(yaml.safe_dump(test_generated.make(number)[0], allow_unicode=True))
            met = set()
            for lang in LANGUAGES:
                words = read_yaml((ROOT / f"templates/wording/{lang}/sheet.yaml").read_text())
                terms = {key[5:-5]: (words[key], words[key[:-5] + ".means"]) for key in words if key.startswith("term.") and key.endswith(".word")}
                for visit in visits:
                    done = subprocess.run([WRITE_PLAIN, ROOT, visit, "2026-03-20", lang], capture_output=True, text=True, check=True)
                    blocks = done.stdout.split("\n")
                    for code, (forms, means) in terms.items():
                        forms = [forms] if isinstance(forms, str) else forms
                        said = [n for n, block in enumerate(blocks) if means in block or means == block]
                        holding = [n for n, block in enumerate(blocks)
                                   if any(re.search(rf"(?<!\w){re.escape(form)}(?!\w)", block.replace(means, ""), re.I) for form in forms)]
                        self.assertLessEqual(len(said), 1, (visit.name, lang, means))
                        early = [blocks[n] for n in holding if not said or n < said[0]]
                        # the head of a table's row is not in this text: the meaning then stands in the cell beside it
                        early = [block for block in early if len(block.split()) > 4]
                        if re.search("kind: (checkout|adoption)", visit.read_text()):
                            # the rows of its first pages have no room: their meanings stand in one place
                            self.assertTrue(said or not holding, (visit.name, lang, means))
                        else:
                            self.assertEqual(early, [], (visit.name, lang, means))
                        if said:
                            met.add((lang, code))
            # these stand in a veterinarian's own words alone: ours have plainer ones (test_medicines explains them)
            theirs = {"ulcer", "glottis", "isotonic", "prolapse", "sedation", "omnivore", "regurgitation", "uric-acid", "mg-dl"}
            self.assertEqual(met, {(lang, code) for lang in LANGUAGES for code in terms.keys() - theirs})

    def test_a_veterinarians_own_hard_words_are_explained(self):
        for lang in LANGUAGES:
            words = read_yaml((ROOT / f"templates/wording/{lang}/sheet.yaml").read_text())
            for term in ("ulcer", "glottis", "isotonic"):
                form = words[f"term.{term}.word"]
                form = form if isinstance(form, str) else form[0]
                visit = {"visit": {"date": "2026-03-14", "kind": "reading"}, "patient": {"name": "Fern", "species": "corn-snake"}, "keeper": {"language": lang},
                         "findings": [{"code": "mouth-inflammation", "severity": "mild", "note": f"Here: {form}."}]}
                with tempfile.NamedTemporaryFile("w", suffix=".yaml") as file:
                    yaml.safe_dump(visit, file, allow_unicode=True)
                    file.flush()
                    text = subprocess.run([WRITE_PLAIN, ROOT, file.name, "2026-03-20", lang], capture_output=True, text=True, check=True).stdout
                self.assertIn(words[f"term.{term}.means"], text, (lang, term))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
