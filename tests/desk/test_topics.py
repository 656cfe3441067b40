#!/usr/bin/env python3
"""Why a topic is settled as it is, in the words of the page's language: each settlement by the visit that was written for it by hand
(tests/sheet/settled.yaml), and a decision that goes against one."""
import os
import sys
import unittest
from pathlib import Path


BASKLEAF = sys.argv[1]
sys.path[:0] = [os.path.dirname(__file__), os.path.join(os.path.dirname(__file__), "../common"), os.path.join(os.path.dirname(__file__), "../sheet")]
from desk import NEW, ROOT, Desk  # noqa: E402
from languages import LANGUAGES  # noqa: E402
from test_settled import EXAMPLES, SETTLEMENTS, record  # noqa: E402

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

SAID = {lang: {key.removeprefix("desk.settlement."): text for key, text in
               read_yaml((ROOT / f"templates/wording/{lang}/desk-settlements.yaml").read_text(encoding="utf-8")).items()} for lang in LANGUAGES}


class Settled(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.desk = Desk(BASKLEAF, records=False)

    @classmethod
    def tearDownClass(cls):
        assert cls.desk.end() == 0

    def keep(self, tree, lang):
        status, answer = self.desk.post(f"/api/draft?lang={lang}", self.desk.body(tree, draft=NEW))
        self.assertEqual(status, 200)
        return answer

    def test_each_language_has_reasons_of_its_own(self):
        for name in SETTLEMENTS:
            texts = [SAID[lang][name] for lang in LANGUAGES]
            self.assertEqual(len(set(texts)), len(LANGUAGES), name)

    def test_each_settlement_says_why_in_the_pages_language(self):
        for name, example in EXAMPLES.items():
            for lang in LANGUAGES:
                plan = self.keep(record(example), lang)["plan"]
                self.assertIsNotNone(plan, name)
                phases = [phase for topic in plan["topics"] if topic["topic"] in example["holds"] for phase in topic["phases"]]
                self.assertIn(SAID[lang][name], [why for phase in phases for why in phase["because"]], (name, lang))
                if SETTLEMENTS[name].get("ask"):
                    self.assertTrue([line for line in plan["review"] if line.endswith(f"({SAID[lang][name]})")], (name, lang, plan["review"]))

    def test_a_decision_against_one_is_told_in_the_pages_language(self):
        tree = record(EXAMPLES["thin-and-blocked"])
        tree["decisions"] = [{"topic": "food", "stance": "build-up", "because": "It must gain."}]
        said = {lang: [one["said"] for one in self.keep(tree, lang)["faults"] if one["code"] == "decision-unconfirmed"] for lang in LANGUAGES}
        self.assertEqual([len(one) for one in said.values()], [1] * len(LANGUAGES), said)
        self.assertEqual(len({one[0] for one in said.values()}), len(LANGUAGES), said)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
