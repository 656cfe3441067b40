#!/usr/bin/env python3
"""Animals whose food has two lines, each with its own rhythm: insects beside a fruit mix, animals beside plants. Dates by hand; what it eats now against the
plan over generated visits. What has no published source says so."""
import json
import random
import re
import subprocess
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402


PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
FOODS = read_yaml((ROOT / "templates/foods.yaml").read_text())["foods"]
SHEETS = {path.stem: read_yaml(path.read_text()) for path in (ROOT / "species-sheets").glob("*.yaml")}


def explain(species, findings=(), **parts):
    patient = {"name": "Fern", "species": species, **parts.pop("patient", {})}
    record = {"visit": {"date": "2026-03-14", "kind": "checkout"}, "patient": patient, "findings": [dict(zip(("code", "severity"), one.split())) for one in findings], **parts}
    done = subprocess.run([PROGRAM, "explain", "--json", "-", "--today", "2026-03-14"], input=json.dumps(record), capture_output=True, text=True, cwd=ROOT)
    if done.returncode:
        raise AssertionError(done.stderr)
    return json.loads(done.stdout)


def of(plan, what):
    return [date["on"] for date in plan["dates"] if date["what"] == what]


class BesideAMix(unittest.TestCase):
    GECKO = {"hatched": "2022-05", "mass": "42 g"}
    # mix on Friday the 13th, every second day; crickets on Tuesday the 10th, every week
    DIET = [{"food": "fruit-mix", "every": "2 days", "last": "2026-03-13"}, {"food": "cricket", "count": 4, "every": "7 days", "last": "2026-03-10"}]
    TUESDAYS = ["2026-03-17", "2026-03-24", "2026-03-31", "2026-04-07", "2026-04-14", "2026-04-21", "2026-04-28", "2026-05-05"]

    def test_powder_lies_on_the_insects(self):
        """Once a week on the insects (the species sheets; from memory); the mix holds its own. In either order of the record's foods."""
        for diet in (self.DIET, self.DIET[::-1]):
            for name in ("crested-gecko", "gargoyle-gecko"):
                plan = explain(name, patient=self.GECKO, diet=diet)
                self.assertEqual(of(plan, "meal")[:3], ["2026-03-15", "2026-03-17", "2026-03-19"])
                self.assertEqual(of(plan, "insects"), self.TUESDAYS)
                self.assertEqual(plan["feeding"]["lines"][1]["next"], self.TUESDAYS)
                self.assertEqual(of(plan, "supplement"), self.TUESDAYS)
                said = [one["printed"] for one in plan["instructions"]]
                self.assertIn("sheet.supplement.on-insects", said)
                self.assertEqual(plan["feeding"]["interval_verdict"], "in-range")

    def test_three_powders_share_the_insects_of_a_day_gecko(self):
        """Insects every 3-7 days, five in the middle, from the 12th: the 17th, 22nd, 27th. D3 and vitamins every second week, calcium at all others: one
        powder at a time, and none on a day of the mix alone (from memory)."""
        plan = explain("giant-day-gecko", patient=self.GECKO, diet=[self.DIET[0], {"food": "cricket", "count": 4, "every": "5 days", "last": "2026-03-12"}])
        insects = of(plan, "insects")
        self.assertEqual(insects[:4], ["2026-03-17", "2026-03-22", "2026-03-27", "2026-04-01"])
        powders = of(plan, "supplement")
        self.assertEqual(powders[:4], insects[:4])
        self.assertEqual(len(powders), len(set(powders)))

    def test_calcium_each_time_for_eggs_bones_and_growth(self):
        """Growing, gravid and soft-boned animals: calcium at every feeding (reference 8, practice M), here each time there are insects; also where the mix
        is most of what it eats."""
        fed = [{**self.DIET[0], "meal": "2 g"}, {**self.DIET[1], "size": "adult"}]
        for findings, patient in ((["gravid moderate"], {**self.GECKO, "sex": "female"}), (["bent-bones moderate"], self.GECKO), ([], {"hatched": "2025-10", "mass": "12 g"})):
            for diet in (self.DIET, fed):
                plan = explain("crested-gecko", findings, patient=patient, diet=diet)
                self.assertEqual(plan["stances"]["supplement"][0]["stance"], "every-feeding")
                self.assertEqual([(one["what"], one["every_meals"]) for one in plan["feeding"]["supplements"]], [("calcium", 1)])
                self.assertEqual(of(plan, "supplement")[:2], of(plan, "insects")[:2])

    def test_calcium_for_soft_bones_though_the_food_is_complete(self):
        """The stance outranks a complete food (the clinical table, 1.2: every-feeding before none); vitamins and D3 stay out (Stahl & Donoghue, p. 1245)."""
        diet = {"food": "pellets-turtle", "meal": "3 g", "every": "1 days"}
        plan = explain("red-eared-slider", ["soft-shell moderate"], diet=diet)
        self.assertEqual([one["what"] for one in plan["feeding"]["supplements"]], ["calcium"])
        self.assertIn("complete-food-calcium", [one["code"] for one in plan["review"]])


class Powders(unittest.TestCase):
    """Growing, gravid and soft-boned animals have calcium at every feeding (reference 8, practice M; the clinical table, 2.5 and the bundle BONE). Frogs and
    newts have what is written (the same); prey that is eaten whole brings its own."""

    def test_every_kind_and_stage(self):
        seen = 0
        for name, sheet in sorted(SHEETS.items()):
            kind, group = sheet["feeding"]["diet"], sheet["species"]["group"]
            for code, hatched in (("", "2025-11-20"), ("gravid mild", "2016"), ("bent-bones moderate", "2016"), ("soft-shell moderate", "2016")):
                if kind == "whole-prey" or group in ("frog", "salamander") or (code.startswith("soft-shell") and group not in ("tortoise", "turtle")):
                    continue
                plan = explain(name, [code] if code else [], patient={"hatched": hatched, **({"sex": "female"} if "gravid" in code else {})})
                powders, days = plan["feeding"]["supplements"], of(plan, "supplement")
                calcium = next(one for one in powders if one["what"] == "calcium")
                others = sum(one["per_week"][0] for one in powders if one["what"] != "calcium" and one["per_week"])
                # plants stand there each day: on all of them, but those of the rarer powders
                self.assertTrue(calcium["every_meals"] == 1 or calcium["per_week"][0] >= 7 - others, (name, code))
                self.assertEqual(len(days), len(set(days)), (name, code))
                seen += 1
        self.assertGreater(seen, 60)

    def test_growing_on_a_complete_food_alone_needs_none(self):
        """More than half of it complete: no powder (Stahl & Donoghue, p. 1245), in a young turtle too, unless its bones ask for it."""
        diet = {"food": "pellets-turtle", "meal": "1 g", "every": "1 days"}
        young = explain("red-eared-slider", patient={"hatched": "2025-06"}, diet=diet)
        soft = explain("red-eared-slider", ["soft-shell moderate"], patient={"hatched": "2025-06"}, diet=diet)
        self.assertEqual([[one["what"] for one in plan["feeding"]["supplements"]] for plan in (young, soft)], [[], ["calcium"]])


class Intake(unittest.TestCase):
    """What it eats now against the plan, of the line whose amount the record has."""
    ROUNDS = 40

    def visits(self, kind, code, severity):
        draw = random.Random(f"{kind} {code} {severity}")
        names = sorted(name for name, sheet in SHEETS.items() if sheet["feeding"]["diet"] == kind)
        for _ in range(self.ROUNDS):
            name = draw.choice(names)
            stage = next((one for one in SHEETS[name]["feeding"]["stages"] if one["stage"] == "adult"), SHEETS[name]["feeding"]["stages"][-1])
            eats = [food for food in stage["foods"] if FOODS[food]["kind"] == "insect" or (kind == "mixed" and FOODS[food]["kind"] != "plant")]
            days, count = draw.choice([1, 2, 3, 4, 5, 7, 10, 14, 21, 30]), draw.randint(1, 30)
            other = {"food": "fruit-mix" if kind == "fruit-mix" else "leafy-greens", "every": f"{draw.choice([1, 2, 3, 7])} days"}
            diet = [{"food": draw.choice(eats), "count": count, "every": f"{days} days", "last": "2026-03-10"}, other]
            plan = explain(name, [f"{code} {severity}"], patient={"hatched": "2019-05"}, diet=diet[::draw.choice([1, -1])])
            line = plan["feeding"]["lines"][1]
            yield f"{name} {code} {severity} {diet}", plan, line, count / days

    def test_how_often_leaves_are_given_is_no_rhythm_of_the_insects(self):
        """The species sheet's own (7 to 14 days for a grown red-footed tortoise, from memory), though banana lies there every day."""
        leaves = {"food": "banana", "every": "1 days", "last": "2026-03-13"}
        worms = {"food": "earthworm", "every": "10 days", "last": "2026-03-10"}
        for diet, days in (([leaves], [7, 14]), ([leaves, worms], [10, 10]), ([worms, leaves], [10, 10])):
            plan = explain("red-footed-tortoise", ["nose-discharge moderate"], patient={"hatched": "2015-05"}, diet=diet)
            self.assertEqual(plan["stances"]["food"][0]["stance"], "offer-only")
            self.assertEqual([line["every_days"] for line in plan["feeding"]["lines"] if line["kind"] == "animals"], [days], diet)

    def test_a_thin_turtle_in_fouled_water_is_fed_no_less_often_than_now(self):
        """Half a meal while ammonia shows (clinical table), but not every second or third day (its sheet, from memory) where it is thin and eats daily."""
        water, diet = {"ammonia": "0.5 mg/l", "temperature": "25 C", "ph": "7.4"}, {"food": "pellets-turtle", "every": "1 days", "last": "2026-03-13"}
        for earlier, days in (("585 g", [1, 1]), ("520 g", [2, 3])):
            plan = explain("painted-turtle", ["underweight mild"] if days == [1, 1] else [], water=water, diet=diet,
                           patient={"hatched": "2015-05", "mass": "520 g", "earlier": [{"on": "2026-01-10", "mass": earlier}]})
            self.assertEqual(plan["stances"]["food"][0]["stance"], "small")
            self.assertEqual([line["every_days"] for line in plan["feeding"]["lines"] if line["kind"] == "animals"], [days])

    def test_a_diet_never_raises_it(self):
        seen = 0
        for kind in ("mixed", "fruit-mix"):
            for severity in ("mild", "severe"):
                for what, plan, line, now in self.visits(kind, "overweight", severity):
                    self.assertEqual(plan["stances"]["food"][0]["stance"], "less", what)
                    self.assertLessEqual(line["count"][1] / line["every_days"][0], now * (1 + 1e-9), what)
                    said = [one["printed"] for one in plan["instructions"]]
                    self.assertTrue({"action.feed-fewer", "action.feed-more-leaves"} & set(said), what)
                    self.assertNotIn("sheet.feeding-change.longer-interval", said, what)  # its days stay
                    seen += 1
        self.assertEqual(seen, 4 * self.ROUNDS)

    def test_a_thin_one_never_eats_less(self):
        seen = 0
        for kind in ("mixed", "fruit-mix"):
            for severity in ("mild", "moderate", "severe"):
                for what, plan, line, now in self.visits(kind, "underweight", severity):
                    self.assertIn(plan["stances"]["food"][0]["stance"], ("as-usual", "build-up"), what)
                    self.assertGreaterEqual(line["count"][0] / line["every_days"][1] * (1 + 1e-9), now, what)
                    seen += 1
        self.assertEqual(seen, 6 * self.ROUNDS)

    def test_the_days_stay_where_nobody_wrote_an_amount(self):
        """Fewer at a meal, on the usual days (the clinical table, 4.2, 4.4, 4.5: no longer interval like a snake's); a thin one's no rarer than now."""
        for name, usual in (("red-eared-slider", [2, 3]), ("blue-tongued-skink", [2, 4]), ("red-footed-tortoise", [7, 14])):
            fat = explain(name, ["overweight moderate"], patient={"hatched": "2015"}, diet={"food": "earthworm", "every": "1 days"})
            self.assertEqual(fat["feeding"]["every_days"], usual, name)
            self.assertIn("intake-unknown", [one["code"] for one in fat["review"]], name)
            thin = explain(name, ["underweight mild"], patient={"hatched": "2015"}, diet={"food": "earthworm", "every": "2 days"})
            self.assertEqual(thin["feeding"]["every_days"], [2, 2], name)

    def test_one_that_lost_much_keeps_what_it_eats(self):
        """Never less (the clinical table, 2.3, weight-falling; issue: too thin, never less than now): 760 g to 640 g in a month is a tenth and more. Eight
        pellets a day, before a sedation or not, stay eight a day, of whatever it eats."""
        slider = {"patient": {"hatched": "2019", "mass": "640 g", "earlier": [{"on": "2026-02-13", "mass": "760 g"}]},
                  "diet": {"food": "pellets-turtle", "count": 8, "every": "1 days", "last": "2026-03-13"}}
        for done in ([], ["sedation"]):
            feeding = explain("red-eared-slider", **slider, **{"done-today": done})["feeding"]
            self.assertEqual((feeding["insects"], feeding["every_days"]), ([8, 8], [1, 1]), done)
        snake = explain("corn-snake", patient={"hatched": "2019", "mass": "640 g", "earlier": [{"on": "2026-02-13", "mass": "760 g"}]},
                        diet={"food": "mouse", "meal": "50 g", "every": "7 days", "last": "2026-03-10"})["feeding"]
        self.assertGreaterEqual(snake["meal_g"][0] / snake["every_days"][1], 50 / 7 - 1e-9)

    def test_pellets_are_no_insects(self):
        """A slider of 20 pellets a day, too heavy: two thirds of them to all (common practice, no source), each day as now."""
        plan = explain("red-eared-slider", ["overweight moderate"], patient={"hatched": "2015"}, diet={"food": "pellets-turtle", "count": 20, "every": "1 days"})
        self.assertEqual((plan["feeding"]["insects"], plan["feeding"]["every_days"]), ([14, 20], [1, 1]))
        said = [one["printed"] for one in plan["instructions"]]
        self.assertIn("action.feed-more-leaves", said)



def page(species, language="en", findings=(), **parts):
    """The printed sheet, each run of spaces one."""
    patient = {"name": "Fern", "species": species, **parts.pop("patient", {})}
    record = {"visit": {"date": "2026-03-14", "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": patient, "keeper": {"name": "Lena Marsh", "language": language},
              "findings": [dict(zip(("code", "severity"), one.split())) for one in findings], **parts}
    done = subprocess.run([PROGRAM, "sheet", "-", "-o", "-", "--today", "2026-03-14"], input=json.dumps(record).encode(), capture_output=True, cwd=ROOT)
    if done.returncode:
        raise AssertionError(done.stderr.decode())
    text = subprocess.run(["pdftotext", "-raw", "-", "-"], input=done.stdout, capture_output=True, check=True).stdout.decode()
    return " ".join(text.split())


class WhatTheNumberIs(unittest.TestCase):
    """Two raters and a veterinarian read these sheets and asked which number holds. Common practice, no source."""

    DRAGON = {"hatched": "2025-10", "mass": "142 g"}
    SMALL = [{"topic": "food", "stance": "small", "until": "2026-03-20", "because": "the gut must empty first"}]

    def test_half_of_it_already(self):
        """Her own "3-5 insects" and ours beside "half a meal": nobody halves them once more. Half of one piece is one, and no half."""
        said = {"en": ("The amount here is the small meal already", "The amount here is half a meal already"),
                "es": ("La cantidad de aquí ya es la comida pequeña", "La cantidad de aquí ya es media comida"),
                "fr": ("La quantité ici est déjà le petit repas", "La quantité ici est déjà un demi-repas")}
        for language, (own, ours) in said.items():
            for targets, wanted, other in (({"targets": {"insects": "3-5", "because": "half"}}, own, ours), ({}, ours, own)):
                text = page("bearded-dragon", language, patient=self.DRAGON, decisions=self.SMALL, diet={"food": "cricket", "count": 12, "every": "1 days"}, **targets)
                self.assertIn(wanted, text, (language, targets))
                self.assertNotIn(other, text, (language, targets))
        one = page("axolotl", patient={"mass": "142 g", "hatched": "2023"}, decisions=self.SMALL, diet={"food": "earthworm", "count": 1, "every": "2 days"})
        self.assertNotIn("half a meal already", one)

    def test_hay_is_not_counted(self):
        """A veterinarian's 80-120 g beside hay at all times; whoever eats no hay, and what is no number of hers, says nothing of it."""
        meal = {"targets": {"meal": "80-120 g", "every": "1 days", "because": "as now"}}
        said = {"en": "80–120 g of fresh plants a meal, and dry hay is not counted", "es": "80–120 g de plantas frescas cada vez, sin contar el heno seco",
                "fr": "80–120 g de plantes fraîches par repas, sans compter le foin sec"}
        for language, words in said.items():
            self.assertIn(words, page("sulcata-tortoise", language, patient={"mass": "4200 g", "hatched": "2019"}, **meal))
        for species, parts, asked in (("sulcata-tortoise", meal, True), ("sulcata-tortoise", {}, False), ("green-iguana", meal, False)):
            plan = explain(species, patient={"mass": "4200 g", "hatched": "2019"}, visit={"date": "2026-03-14", "kind": "checkout", "veterinarian": "Dr Ines Calder"}, **parts)
            self.assertEqual("meal-without-hay" in [one["code"] for one in plan["review"]], asked, (species, parts))
            self.assertEqual("hay is not counted" in page(species, patient={"mass": "4200 g", "hatched": "2019"}, **parts), asked, (species, parts))

    def test_the_day_elsewhere_stands_in_food(self):
        """Her own step fasts it on the morning of the operation, and the food says each day: it points to her words. Where she says nothing she is asked."""
        follow = {"follow-up": {"referral": {"to": "Hillbrook", "on": "2026-03-20"}}}
        visit = {"date": "2026-03-14", "kind": "checkout", "veterinarian": "Dr Ines Calder"}
        said = {"en": ("Friday 20 March: nothing to eat.", "Food on Fri 20 Mar: only as we wrote for that day."),
                "es": ("Viernes 20 de marzo: nada de comida.", "Comida el viernes 20 mar: solo lo escrito para ese día."),
                "fr": ("Vendredi 20 mars : rien à manger.", "À manger le ven 20 mars : seulement ce qui est écrit pour ce jour.")}
        for language, (step, words) in said.items():
            parts = {"patient": {"mass": "900 g"}, "decisions": [{"do": step}], **follow}
            self.assertIn(words.split(":")[1].strip(), page("hermanns-tortoise", language, **parts).replace("\u00a0", " "), language)
            for more, asked in ((parts, False), ({**parts, "decisions": [{"do": "Come early on 20 March."}]}, True), ({**parts, "decisions": [{"do": step.replace("20", "21")}]}, True)):
                self.assertEqual("referral-food" in [one["code"] for one in explain("hermanns-tortoise", visit=visit, **more)["review"]], asked, more)
        self.assertNotIn("for that day", page("hermanns-tortoise", patient={"mass": "900 g"}, decisions=[{"do": "Come early on 20 March."}], **follow))

    def test_why_a_meal_is_later(self):
        """Every 12 days from the 10th: the 22nd, and the 3rd of April but for the clinic's dose of that day, so the 4th, thirteen days later."""
        dose = {"name": "Fipronil", "amount": "0.3 ml", "every": "7 days", "doses": 3, "first": "2026-03-20", "given": "here", "directions": "Here."}
        parts = {"patient": {"mass": "610 g", "hatched": "2021-06"}, "diet": {"food": "mouse", "size": "adult", "count": 1, "every": "12 days", "last": "2026-03-10"},
                 "targets": {"every": "12 days", "because": "grown"}}
        for language, words in (("en", "No meal just before our dose on Fri 3 Apr."), ("es", "Nada de comida justo antes de nuestra dosis del viernes 3 abr."),
                                ("fr", "Pas de repas juste avant notre dose du ven 3 avr.")):
            self.assertIn(words, page("corn-snake", language, medicines=[dose], **parts).replace("\u00a0", " "), language)
        self.assertNotIn("just before our dose", page("corn-snake", medicines=[], **parts))

    def test_the_first_meal_is_no_day_of_water(self):
        """"Water: mist ... From Tue 1 Dec" was read as water from then on."""
        for language, first, water in (("en", "First meal: Sun 15 Mar", "Mist the leaves in the"), ("es", "Primera comida: domingo 15 mar", "Agua: rocía"),
                                       ("fr", "Premier repas : dim 15 mars", "Eau : brumisez")):
            text = page("veiled-chameleon", language, ["gravid moderate"], patient={"mass": "128 g", "hatched": "2025-01", "sex": "female"},
                        targets={"insects": "5-7", "every": "1 days", "because": "as now"}).replace("\u00a0", " ")
            self.assertIn(first, text, language)
            self.assertLess(text.index(first), text.index(water), language)

    def test_what_a_gravid_female_gained(self):
        """20 g more of one with eggs, good or bad?"""
        for species, language, words in (("veiled-chameleon", "en", "Eggs are part of that."), ("veiled-chameleon", "es", "Los huevos son parte de eso."),
                                         ("veiled-chameleon", "fr", "Les œufs en font partie."), ("boa-constrictor", "en", "Its young are part of that.")):
            times = 30 if species == "boa-constrictor" else 1
            parts = {"patient": {"mass": f"{128 * times} g", "hatched": "2024-01", "sex": "female", "earlier": [{"on": "2026-02-14", "mass": f"{104 * times} g"}]}}
            self.assertIn(words, page(species, language, ["gravid moderate"], **parts), (species, language))
            self.assertNotIn(words, page(species, language, **parts), (species, language))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
