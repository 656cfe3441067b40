#!/usr/bin/env python3
"""What stands beside what on one sheet, by hand (beside.yaml): pairs that no generated visit may print together, and visits whose
parts once spoke past each other."""
import datetime
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
TODAY, VISITS, SEED = "2026-03-16", 300, 20
BESIDE = yaml.load(Path(__file__).with_name("beside.yaml").read_text(encoding="utf-8"), Loader=yaml.SafeLoader)
SPECIES = sorted(path.stem for path in (ROOT / "species-sheets").glob("*.yaml"))


def explain(animal, found, readings=None, patient=None, **parts):
    record = {"visit": {"date": TODAY, "kind": "reading", "veterinarian": "Dr Ines Calder"},
              "patient": {"name": "Fern", "species": animal, "sex": "female", "hatched": "2021-05", **(patient or {})},
              "findings": [dict(zip(("code", "severity", "state"), text.split())) for text in found], "follow-up": {"recheck": "7 days"}, **parts}
    if readings:
        record["enclosure"] = {"readings": readings}
    done = subprocess.run([PROGRAM, "explain", "--json", "-", "--today", TODAY], input=yaml.safe_dump(record), capture_output=True, text=True, cwd=ROOT,
                          timeout=60)
    return json.loads(done.stdout) if done.returncode == 0 else done.stderr


def printed(plan):
    return {one["printed"] for one in plan["instructions"] if one["printed"]}


def fits(key, pattern):
    if pattern.startswith("*"):
        return key.endswith(pattern[1:])
    return key.startswith(pattern[:-1]) if pattern.endswith("*") else key == pattern


def visits():
    dice = random.Random(SEED)
    for _ in range(VISITS):
        species = dice.choice(SPECIES)
        animal = settling.Animal(species)
        pool = [code for code, entry in settling.CATALOGUE["findings"].items() if entry["severities"] != ["normal"] and animal.can_have(entry)]
        chosen = together.without_excluded([{"code": code} for code in dice.sample(pool, dice.choice([2, 3, 3, 4]))], "female")
        found = [f'{one["code"]} {dice.choice([s for s in settling.CATALOGUE["findings"][one["code"]]["severities"] if s != "normal"])}' for one in chosen]
        done = dice.choice([[], ["sedation"], ["beak-trim"], ["tube-feeding"], ["imaging", "fluids-under-skin"]])
        done = [code for code in done if animal.can_have(settling.CATALOGUE["procedures"][code])]
        yield species, found, {"warm-side": f"{dice.randint(20, 34)} C", "humidity": f"{dice.randint(15, 95)} %", "humidity-at": "cool-side"}, done


class Beside(unittest.TestCase):
    def test_what_has_no_word_of_its_topic_is_listed(self):
        for code, one in BESIDE["listed"].items():
            more = {"medicines": [{key: str(value) for key, value in one["medicine"].items()}]} if "medicine" in one else {}
            if "referral" in one:
                more["follow-up"] = {"recheck": "7 days", "referral": {key: str(value) for key, value in one["referral"].items()}}
            plan = explain(one["animal"], one["found"], visit={"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, **{"done-today": one.get("done", [])}, **more)
            self.assertIsInstance(plan, dict, plan)
            self.assertIn(code, [each["code"] for each in plan["instructions"]])

    def test_no_pair_on_any_sheet(self):
        made = list(visits())
        with ThreadPoolExecutor(2) as pool:
            for one, plan in zip(made, pool.map(lambda v: explain(*v[:3], **{"done-today": v[3]}), made)):
                self.assertIsInstance(plan, dict, (one, plan))
                keys = printed(plan)
                for pair in BESIDE["never-together"]:
                    both = [any(fits(key, pair[side]) for key in keys) for side in ("one", "other")]
                    self.assertFalse(all(both), (one, pair))

    def test_each_pair_has_texts_that_are_printed_somewhere(self):
        """A pair of which one text no longer is could never fail."""
        declared = read_yaml((ROOT / "templates/instructions.yaml").read_text(encoding="utf-8"))["instructions"]
        keys = set(declared) | {variant["key"] for one in declared.values() for variant in one.get("variants", [])}
        for pair in BESIDE["never-together"]:
            for side in ("one", "other"):
                self.assertTrue(any(fits(key, pair[side]) for key in keys), pair)

    def test_visits(self):
        for name, one in BESIDE["visits"].items():
            with self.subTest(visit=name):
                plan = explain(one["animal"], one["found"], one.get("readings"), one.get("patient"), **{part: one[part] for part in ("medicines", "enclosure", "water", "done-today", "follow-up", "diet") if part in one})
                self.assertIsInstance(plan, dict, plan)
                keys = printed(plan)
                self.assertLessEqual(set(one.get("says", [])), keys, one["why"])
                self.assertFalse(set(one.get("never", [])) & keys, one["why"])
                days = {action["code"]: action for action in plan["actions"]}
                codes = [action["code"] for action in plan["actions"]]
                ordered = one.get("in-order", [])
                self.assertEqual([code for code in codes if code in ordered], ordered, one["why"])
                self.assertLessEqual(set(one.get("first", [])), {action["code"] for action in plan["actions"] if action["first"]}, one["why"])
                self.assertFalse(set(one.get("no-dates", [])) & {date["what"] for date in plan["dates"]}, one["why"])
                for topic, begins in one.get("ends-where-begins", {}).items():
                    self.assertEqual(plan["stances"][topic][0]["stance"], "none", one["why"])
                    self.assertEqual(plan["stances"][topic][1]["from"], days[begins]["start"], one["why"])

    def test_what_drinks_through_its_skin_gets_no_chlorine(self):
        """Each finding of a frog, seen and on its way: where its sheet names clean or fresh water, it says without chlorine (common practice, no
        source). What keeps a tank's own water clean is no water to take."""
        plain = {"en": r"(?:with|of|in|offer|give|keep|but) (?:its )?(?:clean|fresh),? (?:shallow )?water(?! without chlorine)", "es": r"(?:(?:con|de|en|deja|da|ofrece) agua limpia(?! sin cloro)|^el agua limpia no)",
                 "fr": r"(?:d'|de l'|dans l'|une |dans une )eau propre(?!,? sans chlore)"}
        words = {lang: {key: json.dumps(value, ensure_ascii=False) for path in (ROOT / "templates/wording" / lang).glob("*.yaml")
                        for key, value in read_yaml(path.read_text(encoding="utf-8")).items()} for lang in plain}
        frog = settling.Animal("whites-tree-frog")
        found = [f"{code} {entry['severities'][-1]}" for code, entry in settling.CATALOGUE["findings"].items() if entry["severities"] != ["normal"] and frog.can_have(entry)]
        made = [([one + state], done) for one in found for state, done in (("", []), (" go-now", []), ("", ["sedation"]))]
        with ThreadPoolExecutor(2) as pool:
            for (visit, done), plan in zip(made, pool.map(lambda one: explain("whites-tree-frog", one[0], **{"done-today": one[1]}), made)):
                self.assertIsInstance(plan, dict, (visit, plan))
                for lang, regex in plain.items():
                    said = {key: words[lang][sub] for key in printed(plan) for sub in (key, key + ".do", key + ".how", key + ".stop") if sub in words[lang]}
                    self.assertEqual({}, {key: text for key, text in said.items() if re.search(regex, text, re.I)}, (visit, done, lang))

    def test_a_drowsy_one_lies_alone(self):
        """Its mate is out before it is laid down, be it operated or only put to sleep, by whoever of the two moves; one that lives alone, and one
        whose mates stay outdoors, hears of none (common practice, no source)."""
        first = {"en": ("First move the other one", "First part Fern from the other one"), "es": ("Antes pasa al otro", "Antes aparta"), "fr": ("Mettez d'abord l'autre", "Séparez")}
        with tempfile.TemporaryDirectory() as folder:
            for animal, done in (("horsfield-tortoise", "sedation"), ("horsfield-tortoise", "surgery"), ("corn-snake", "sedation"), ("horned-frog", "sedation"),
                                 ("painted-turtle", "sedation"), ("axolotl", "sedation")):
                for home, told in (("animals: 2", True), ("animals: 1", False), ("animals: 2, outdoor: yes", animal == "painted-turtle")):
                    if "outdoor" in home and (animal != "painted-turtle" and done != "surgery"):
                        continue
                    visit = Path(folder, f"{animal}.yaml")
                    visit.write_text(f"visit: {{date: {TODAY}, kind: reading, veterinarian: Dr Ines Calder}}\npatient: {{name: Fern, species: {animal}}}\n"
                                     f"enclosure: {{{home}}}\ndone-today: [{done}]\nfollow-up: {{recheck: 7 days}}\n", encoding="utf-8")
                    for lang, begins in first.items():
                        text = subprocess.run([PLAIN, ROOT, visit, TODAY, lang, "whole"], capture_output=True, text=True, timeout=60, check=True).stdout
                        self.assertEqual(any(each in " ".join(text.replace("\u00a0", " ").split()) for each in begins), told, (animal, done, home, lang))

    def told(self, record, lang):
        with tempfile.TemporaryDirectory() as folder:
            visit = Path(folder, "visit.yaml")
            visit.write_text(f"visit: {{date: {TODAY}, kind: reading, veterinarian: Dr Ines Calder}}\n{record}", encoding="utf-8")
            text = subprocess.run([PLAIN, ROOT, visit, TODAY, lang, "whole"], capture_output=True, text=True, timeout=60, check=True).stdout
        return " ".join(text.replace("\u00a0", " ").split())

    def test_what_is_not_weighed_is_judged_by_no_weight(self):
        """A weight to call for stands beside no order to leave the scale alone (a reader of printed sheets)."""
        fat = "patient: {name: Fern, species: horned-frog, mass: 205 g, length: 9.4 cm}\nfindings: [{code: overweight, severity: moderate}, {code: MORE, severity: moderate}]\n"
        for lang, weighs in (("en", "Weighs 2"), ("es", "Pesa 2"), ("fr", "Pèse 2")):
            self.assertIn(weighs, self.told(fat.replace("{code: MORE, severity: moderate}", ""), lang))
            self.assertNotIn(weighs, self.told(fat.replace("MORE", "red-legs"), lang))

    def test_no_red_lamp_burns_all_night_unguarded(self):
        """The order that lets it burn says behind what, as the step for a guard may stand on another page (a reader of printed sheets)."""
        cold = ("patient: {name: Fern, species: ball-python}\nfindings: [{code: airway-infection, severity: moderate}]\n"
                "enclosure: {heat: [{kind: red-light, power: 60 W, thermostat: no, guard: no}], readings: {night: 19 C, warm-side: 26 C}}\n")
        for lang, guard in (("en", "red or blue one, and that only behind a guard"), ("es", "la lámpara roja o azul, siempre tras una rejilla"), ("fr", "la lampe rouge ou bleue, derrière une grille")):
            self.assertIn(guard, self.told(cold, lang))

    def test_no_urine_the_morning_after_is_no_emergency_by_itself(self):
        """How long it may take is the veterinarian's: no table of ours has a number (a reader of printed sheets)."""
        stone = "patient: {name: Fern, species: horsfield-tortoise}\nfindings: [{code: bladder-stone, severity: severe}, {code: dehydrated, severity: mild}]\n"
        for lang, by in (("en", "No urine and no white part by the day that your veterinarian writes here: ____"), ("es", "Sin orina ni parte blanca el día que escribe aquí la clínica: ____"),
                         ("fr", "Ni urine ni partie blanche le jour que le vétérinaire écrit ici : ____")):
            self.assertIn(by, self.told(stone, lang))
            self.assertNotIn(by, self.told(stone.replace("{code: bladder-stone, severity: severe}, ", ""), lang))

    def test_a_young_one_is_asked_for_no_height_of_the_grown(self):
        box = BESIDE["young-box"]
        plan = explain(box["animal"], [], patient={"hatched": box["hatched"], "length": box["length"], "mass": "180 g"})
        self.assertEqual(plan["enclosure"]["minimum_cm"], box["least-cm"])
        grown = explain(box["animal"], [], patient={"hatched": "2005-08", "length": "60 cm", "mass": "40 kg"})
        self.assertGreater(grown["enclosure"]["minimum_cm"][2], 0)

    def test_food_comes_back_on_the_day_that_is_named(self):
        """After a rest the first meal is on its last day, wherever nobody knows of a meal since."""
        for animal, found, done in (("kenyan-sand-boa", ["vomited moderate"], []), ("axolotl", ["wound moderate"], ["sedation"]),
                                    ("carpet-python", ["vomited moderate", "overweight moderate"], [])):
            plan = explain(animal, found, **{"done-today": done})
            self.assertEqual(plan["feeding"]["next"][0], plan["feeding"]["resume"], animal)

    def test_eggs_and_young_go_by_reproduction(self):
        for animal, code in BESIDE["refused"].items():
            self.assertIn(f"'{code}' makes no sense for a", explain(animal, [f"{code} mild"]), animal)

    def test_days_after_food_came_up(self):
        with tempfile.TemporaryDirectory() as folder:
            for animal, words in BESIDE["came-up"].items():
                visit = Path(folder, f"{animal}.yaml")
                visit.write_text(f"visit: {{date: {TODAY}, kind: reading, veterinarian: Dr Ines Calder}}\npatient: {{name: Fern, species: {animal}}}\n"
                                 "findings: [{code: vomited, severity: moderate}]\n", encoding="utf-8")
                text = subprocess.run([PLAIN, ROOT, visit, TODAY, "en", "whole"], capture_output=True, text=True, timeout=60, check=True).stdout.replace("\u00a0", " ")
                if not any(letter.isdigit() for letter in words):
                    self.assertIn(f"After food came up, wait {words}", text, animal)
                    continue
                # the day counts them, from the longer of the two: 30 March
                meal = datetime.date.fromisoformat(TODAY) + datetime.timedelta(days=int(re.findall(r"\d+", words)[-1]))
                self.assertRegex(text, rf"From [A-Z][a-z]+ {meal.day} {meal:%B} {meal.year} feed as this sheet says", animal)
                self.assertNotIn("After food came up, wait", text, animal)


if __name__ == "__main__":
    unittest.main(verbosity=2)
