#!/usr/bin/env python3
"""When a step is to be stopped is told of signs: each such sentence against the urgency of the sign itself, and against what
is so already today. What a sentence speaks of is written down here by hand; urgency by common triage, from memory."""
import re
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402


sys.path.insert(0, str(Path(__file__).resolve().parent))
ROOT = Path(__file__).resolve().parents[2]
# Beside the sign the word that is in the sentence. What the keeper reads of a sign that one would go for at once is after "go now".
SPEAKS = {
    "unplug-mat": {"burn": "burn grows"}, "unplug-hot-rock": {"burn": "new burn"}, "guard-the-heat": {"burn": "new burn"}, "check-the-guard": {"burn": "new burn"}, "add-thermostat": {"limp": "limp"},
    "cool-water": {"gasps-at-surface": "gasps", "floating": "floats"}, "change-part-water": {"gasps-at-surface": "gasps", "rolling": "upright"},
    "change-dish": {"red-legs": "red", "skin-sloughing": "comes off"}, "cool-basking": {"limp": "limp"}, "turn-basking-off": {"limp": "limp", "tremor": "shakes"},
    "cool-box": {"limp": "limp", "tremor": "shakes"}, "cool-warm-side": {"limp": "limp"}, "cool-cool-side": {"limp": "limp"},
    "lower-humidity": {"clicking-breath": "clicks", "wheezing-or-bubbles": "bubbles"}, "pause-food": {"regurgitation": "brings up"},
    "feed-as-written": {"regurgitation": "comes up"}, "protect-bones": {"tremor": "shakes", "dragging-legs": "back legs"},
    "keep-dry-hours": {"sunken-eyes": "eyes sink"}, "keep-dry-hours-few": {"sunken-eyes": "eyes sink"},
    "take-out-loose-floor": {"straining": "strains"}, "clear-tank-floor": {"floating": "floats"}, "add-water-dish": {"sunken-eyes": "sunken"},
    "lower-perch": {"sore-eyes-new-lamp": "eyes stay shut"}, "shallow-water": {"rolling": "rolls", "limp": "limp"}, "shallow-gills": {"rolling": "rolls", "limp": "limp"}, "let-wake": {"limp": "limp"},
    "shallow-bowl": {"rolling": "rolls", "limp": "limp"}, "stop-fish": {"tremor": "shakes"}, "lower-water-level": {}, "look-after-mates": {}, "change-lamp": {"sore-eyes-new-lamp": "eyes swell"}, "add-uvb-lamp": {"sore-eyes-new-lamp": "eyes swell"}, "own-box": {"bite": "bitten"},
}
# Findings that are the sign, where the catalogue's `already` does not say so.
IS_SO = {"limp": ["limp"], "rolling": ["rolling"], "dragging-legs": ["dragging-legs"], "floating": ["bloat"], "shed-in-patches": ["in-shed-now"]}
# A new event each time, said with "new", "more" or "shakes more than today": nothing that is so today.
NEW_EACH_TIME = {("unplug-mat", "burn"), ("unplug-hot-rock", "burn"), ("guard-the-heat", "burn"), ("check-the-guard", "burn"), ("own-box", "bite"), ("protect-bones", "tremor")}

# What a finding's own words say to go now for, and the sign that then stands on page one: of every sheet, or raised by the finding itself.
GOES_NOW = {"bent-bones": "dragging-legs", 
    "limp": "limp", "tremor": "fits", "gravid": "straining-and-weak", "burn": "burn", "stuck-toe-shed": "dark-part-spreads", "red-legs": "limp",
    "prolapse": "prolapse", "airway-infection": "open-mouth-breathing", "mouth-inflammation": "mouth-bleeds", "gill-damage": "gasps-at-surface",
    "bloat": "bloat", "rolling": "rolling", "stargazing": "stargazing", "head-tilt": "head-tilt", "egg-bound": "straining-and-weak", "skin-sloughing": "limp",
    "weak-grip": "bite", "dragging-legs": "dragging-legs", "dropped-tail": "bleeding", "nose-discharge": "open-mouth-breathing", "bleeding": "bleeding",
    "fits": "fits", "heat-stroke": "limp", "septic": "limp", "drowned": "open-mouth-breathing", "poisoned": "limp", "floating": "open-mouth-breathing",
    "water-poisoned": "limp", "bladder-stone": "straining-and-weak", "after-laying": "straining-and-weak",
    "after-birth": "straining-and-weak", "chytrid": "limp", "ranavirus": "limp", "fracture": "swollen-dark-toes", "toe-death": "dark-part-spreads",
    "tail-death": "dark-part-spreads", "hemipenal-plug": "prolapse", "lamp-sore-eyes": "eyes-stay-shut", "serpentovirus-suspect": "open-mouth-breathing",
    "amphibian-airway": "limp", "amphibian-mouth": "mouth-bleeds",
}


def load(path):
    return read_yaml((ROOT / path).read_text(encoding="utf-8"))


WORDS, SIGNS = load("templates/wording/en/actions.yaml"), load("templates/warning-signs.yaml")["signs"]
DECLARED, FINDINGS = load("templates/instructions.yaml")["instructions"], load("templates/findings.yaml")["findings"]


def sentence(code):
    text = WORDS[f"action.{code}.stop"]
    # the last alternative stands where no sign of it has become one to go at once for
    return text[-1] if isinstance(text, list) else text


def so_today(sign):
    own = [code for code, one in FINDINGS.items() if sign in (one.get("already") or [])]
    return own + IS_SO.get(sign, [])


class Stops(unittest.TestCase):
    def test_the_table_says_what_the_sentences_say(self):
        for code, signs in SPEAKS.items():
            for sign, word in signs.items():
                self.assertIn(word, sentence(code).lower(), (code, sign))
                self.assertIn(sign, SIGNS)

    def test_what_cannot_wait_is_never_to_be_called_about(self):
        for code, signs in SPEAKS.items():
            for sign, word in signs.items():
                text = sentence(code).lower()
                urgent = text.find("go now")
                if SIGNS[sign]["tier"] == "now":
                    self.assertTrue(0 <= urgent < text.index(word), f"{code}: {text}")

    def test_every_sentence_that_names_such_a_sign_is_in_the_table(self):
        words = {"limp", "shakes", "gasps", "floats", "strains and", "sunken", "eyes sink", "clicks", "back legs"}
        for key, text in WORDS.items():
            if not key.endswith(".stop") or key.count(".") != 2:
                continue
            code = key.split(".")[1]
            first = text[0] if isinstance(text, list) else text
            first = (first["other"] if isinstance(first, dict) else first).lower()
            if any(word in first for word in words - {"strains and"}) and not code.startswith(("protect-bones-", "check-water", "raise-water-level", "offer-")):
                self.assertIn(code, SPEAKS, first)

    def test_what_is_so_already_is_told_as_more_or_again(self):
        for code, signs in SPEAKS.items():
            variants = DECLARED.get(f"action.{code}.stop", {}).get("variants", [])
            turned = {finding for one in variants for finding in one.get("found", [])}
            for sign in signs:
                for finding in so_today(sign):
                    groups = set(FINDINGS[finding]["groups"]) & set(DECLARED.get(f"action.{code}", {}).get("for", {}).get("groups", FINDINGS[finding]["groups"]))
                    if (code, sign) not in NEW_EACH_TIME and groups:
                        self.assertIn(finding, turned, f"{code} speaks of {sign}, which {finding} is")

    def test_what_a_finding_says_to_go_now_for_stands_on_page_one(self):
        homes = {key.split(".")[1] for key, text in load("templates/wording/en/findings.yaml").items()
                 if key.startswith("finding.") and key.split(".")[2].startswith("home") and re.search(r"\bgo now\b", str(text), re.I)}
        self.assertEqual(homes, set(GOES_NOW))
        for finding, sign in GOES_NOW.items():
            about = SIGNS[sign]
            self.assertEqual(about["tier"], "now", sign)
            self.assertTrue(about["always"] or sign in FINDINGS[finding]["warnings"], f"{finding} says to go now for what page one leaves out: {sign}")

    def test_what_stands_in_for_an_action_has_all_its_words(self):
        """The row of the sheet that hangs asks for a short form, whatever stands in; without it there is no sheet."""
        words = set().union(*(load(str(path.relative_to(ROOT))) for path in (ROOT / "templates/wording/en").glob("*.yaml")))
        rows = {code: row for code, row in load("templates/instructions.yaml")["instructions"].items() if code.startswith("action.")}
        for code, row in rows.items():
            for variant in row.get("variants", []):
                for part in ("do", "how", "stop", "short"):
                    if f"{code}.{part}" in words and variant["key"].startswith("action."):
                        self.assertIn(f"{variant['key']}.{part}", words)

    def test_nobody_is_to_call_because_it_does_not_eat_where_it_does_not(self):
        """Not eating stands beside each of these: its own day to call says it. That it cannot eat is another thing."""
        for name in ("findings", "signs"):
            for key, text in load(f"templates/wording/en/{name}.yaml").items():
                if key.startswith("finding.") and ".home" in key or key.endswith(".worse") and not key.startswith("sign.refuses-food"):
                    self.assertNotRegex(str(text), "will not eat|stops eating|does not eat")


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
