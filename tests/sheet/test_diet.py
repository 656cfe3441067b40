#!/usr/bin/env python3
"""What the keeper feeds, judged as a whole. The rows of the plants by name: USDA National Nutrient Database (SR), mg in 100 g raw, a copy;
their ratios as the clinical table prints them. Bands of the whole food: MSD (Merck) Veterinary Manual, a copy. Class of a plant (staple from
1.5 and little oxalate, treat below 1), one kind of insect alone, half of the plants: common practice, from memory."""
import json
import random
import shutil
import subprocess
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402


PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-20"
# code: NDB number, calcium, phosphorus, ratio as printed (None: the clinical table leaves it out)
PUBLISHED = {
    "collards": ("11161", 232, 25, 9.3), "nopal": ("11963", 164, 16, 10.3), "turnip-greens": ("11568", 190, 42, 4.5),
    "grape-leaf": ("11974", 363, 91, 4.0), "arugula": ("11959", 160, 52, 3.1), "dandelion": ("11207", 187, 66, 2.8),
    "pak-choi": ("11116", 105, 37, 2.8), "beet-greens": ("11086", 117, 41, 2.9), "fig": ("09089", 35, 14, 2.5),
    "parsley": ("11297", 138, 58, 2.4), "prickly-pear": ("09287", 56, 24, 2.3), "chicory-greens": ("11152", 100, 47, 2.1),
    "watercress": ("11591", 120, 60, 2.0), "papaya": ("09226", 20, 10, 2.0), "spinach": ("11457", 99, 49, 2.0),
    "mustard-greens": ("11270", 115, 58, 2.0), "endive": ("11213", 52, 28, 1.9), "kale": ("11233", 150, 92, 1.6),
    "cabbage": ("11109", 40, 26, 1.5), "butternut": ("11485", 48, 33, 1.5), "cilantro": ("11165", 67, 48, 1.4),
    "green-leaf-lettuce": ("11253", 36, 29, 1.2), "romaine": ("11251", 33, 30, 1.1), "chard": ("11147", 51, 46, 1.1),
    "carrot": ("11124", 33, 35, 0.94), "iceberg": ("11252", 18, 20, 0.90), "broccoli": ("11090", 47, 66, 0.71),
    "cucumber": ("11205", 16, 24, 0.67), "sweet-potato": ("11507", 30, 47, 0.64), "strawberry": ("09316", 16, 24, 0.67),
    "apple": ("09003", 6, 11, 0.55), "blueberry": ("09050", 6, 12, 0.50), "radicchio": ("11952", 19, 40, 0.47),
    "banana": ("09040", 5, 22, 0.23), "rhubarb-stalk": ("09307", 86, 14, None), "witloof": ("11151", 19, 26, None)}
OXALATE = {"spinach", "chard", "beet-greens", "parsley", "rhubarb-stalk"}
FRUIT = {"fig", "prickly-pear", "papaya", "strawberry", "apple", "blueberry", "banana"}


def plan(species, diet, **more):
    record = {"visit": {"date": TODAY, "kind": "reading"}, "patient": {"name": "Fern", "species": species}, "diet": diet, **more}
    done = subprocess.run([PROGRAM, "explain", "--json", "-", "--today", TODAY], input=json.dumps(record), capture_output=True, text=True,
                          cwd=ROOT)
    if done.returncode:
        raise AssertionError(done.stderr)
    return json.loads(done.stdout)


def diet_of(species, diet, **more):
    return plan(species, diet, **more)["feeding"]["diet"]


def daily(food, grams=None):
    return {"food": food, "every": "1 days", **({"meal": f"{grams} g"} if grams else {})}


def many(work, items):
    with ThreadPoolExecutor(2) as pool:
        return list(pool.map(work, items))


def wanted_class(code):
    """By hand, as the clinical table's rule says it; fruit is sugar and never the main food (memory)."""
    _, calcium, phosphorus, _ = PUBLISHED[code]
    ratio = calcium / phosphorus
    if ratio < 1:
        return "treat"
    return "now-and-then" if ratio < 1.5 or code in OXALATE or code in FRUIT else "staple"


class Rows(unittest.TestCase):
    def test_an_insect_without_numbers_is_told(self):
        """The reference has calcium and phosphorus of crickets and of soldier fly larvae alone: with any other the whole is not judged."""
        for food, told in (("cricket", False), ("soldier-fly-larva", False), ("dubia", True), ("superworm", True)):
            record = {"visit": {"date": TODAY, "kind": "checkout"}, "patient": {"name": "Fern", "species": "bearded-dragon"},
                      "diet": [{"food": food, "count": 10, "every": "1 days"}]}
            done = subprocess.run([PROGRAM, "explain", "--json", "-", "--today", TODAY], input=json.dumps(record), capture_output=True, text=True, cwd=ROOT)
            plan = json.loads(done.stdout)
            self.assertEqual("diet-food-no-minerals" in [one["code"] for one in plan["review"]], told, food)
            self.assertEqual(plan["feeding"]["diet"]["verdict"] == "unknown", told, food)

    def test_published(self):
        for code, diet in zip(PUBLISHED, many(lambda code: diet_of("green-iguana", [daily(code, 50)]), PUBLISHED)):
            number, calcium, phosphorus, printed = PUBLISHED[code]
            one = diet["given"][0]
            self.assertTrue(one["source"]["source"].endswith(f", {number}") and "USDA" in one["source"]["source"], one)
            self.assertEqual(one["source"]["trust"], "copy")
            self.assertAlmostEqual(one["calcium_mg_day"], calcium / 2, 4, code)
            self.assertAlmostEqual(one["phosphorus_mg_day"], phosphorus / 2, 4, code)
            if printed is not None:
                self.assertLessEqual(abs(one["calcium_to_phosphorus"] - printed), 0.06, code)
            self.assertEqual(one["class"], wanted_class(code), code)
            low, high = diet["calcium_to_phosphorus"]
            # oxalate may have bound all of it
            self.assertAlmostEqual(low, 0 if code in OXALATE else calcium / phosphorus * 0.9 / 1.1, 4, code)
            self.assertAlmostEqual(high, calcium / phosphorus * 1.1 / 0.9, 4, code)

    def test_whole_table(self):
        """Every plant with numbers in our data is one of the rows above."""
        foods = read_yaml((ROOT / "templates/foods.yaml").read_text())["foods"]
        self.assertEqual({code for code, food in foods.items() if food["kind"] == "plant" and "mg-per-100-g" in food}, set(PUBLISHED))
        self.assertEqual({code for code in PUBLISHED if "oxalate" in foods[code].get("flags", [])}, OXALATE)

    def test_least(self):
        """Calcium's lower end to phosphorus' upper end of the manual's bands: 1.4 to 1.0, 1.0 to 0.9, 0.8 to 0.9."""
        for species, least in (("green-iguana", 1.4), ("bearded-dragon", 1 / 0.9), ("leopard-gecko", 0.8 / 0.9)):
            diet = diet_of(species, [daily("cricket", 2)])
            self.assertAlmostEqual(diet["least"], least, 4, species)
            self.assertIn("Merck", diet["source"]["source"])
        # the manual's bands are those of reptiles
        self.assertIsNone(diet_of("whites-tree-frog", [daily("cricket", 2)])["least"])


class Whole(unittest.TestCase):
    def test_by_mass(self):
        """30 g of collards and 70 g of banana: 73.1 mg of calcium, 22.9 mg of phosphorus, not the middle of 9.3 and 0.23."""
        diet = diet_of("green-iguana", [daily("collards", 30), daily("banana", 70)])
        wanted = (0.3 * 232 + 0.7 * 5) / (0.3 * 25 + 0.7 * 22)
        self.assertAlmostEqual(diet["calcium_to_phosphorus"][0], wanted * 0.9 / 1.1, 3)
        self.assertAlmostEqual(diet["calcium_to_phosphorus"][1], wanted * 1.1 / 0.9, 3)
        self.assertEqual((diet["verdict"], diet["unknown_percent"]), ("in-range", 0))
        self.assertEqual((diet["staple_percent"], diet["staple_verdict"]), ([30, 30], "too-low"))
        self.assertEqual(diet["faults"], ["few-staples"])

    def test_interval_counts(self):
        """70 g a week are 10 g a day."""
        diet = diet_of("green-iguana", [{"food": "collards", "meal": "70 g", "every": "7 days"}])
        self.assertAlmostEqual(diet["given"][0]["calcium_mg_day"], 23.2, 4)

    def test_oxalate(self):
        """40 g of spinach and 60 g of banana: its 39.6 mg count from none to all, so nothing is settled by calcium, but by staples."""
        diet = diet_of("green-iguana", [daily("spinach", 40), daily("banana", 60)])
        phosphorus = 0.4 * 49 + 0.6 * 22
        self.assertAlmostEqual(diet["calcium_to_phosphorus"][0], 0.6 * 5 / phosphorus * 0.9 / 1.1, 3)
        self.assertAlmostEqual(diet["calcium_to_phosphorus"][1], (0.6 * 5 + 0.4 * 99) / phosphorus * 1.1 / 0.9, 3)
        self.assertEqual((diet["verdict"], diet["staple_percent"], diet["faults"]), ("borderline", [0, 0], ["few-staples"]))
        self.assertEqual(diet_of("green-iguana", [daily("spinach")])["calcium_to_phosphorus"][0], 0)

    def test_amounts_unknown(self):
        """Without grams the whole lies between its parts; the crickets' 0.11 is common practice, from memory."""
        diet = diet_of("bearded-dragon", [daily("iceberg"), daily("cricket")])
        self.assertAlmostEqual(diet["calcium_to_phosphorus"][0], 0.11 * 0.9 / 1.1, 3)
        self.assertAlmostEqual(diet["calcium_to_phosphorus"][1], 0.9 * 1.1 / 0.9, 3)
        self.assertEqual((diet["verdict"], diet["unknown_percent"], diet["unknown_foods"]), ("too-low", None, 0))
        self.assertEqual(set(diet["faults"]), {"calcium-short", "few-staples", "one-insect"})

    def test_unknown_is_not_zero(self):
        """Banana alone is too poor; with half of the food unknown nothing is said of the whole."""
        self.assertEqual(diet_of("green-iguana", [daily("banana", 50)])["verdict"], "too-low")
        for other in ("seaweed", "leafy-greens"):
            diet = diet_of("green-iguana", [daily("banana", 50), daily(other, 150)])
            self.assertEqual((diet["verdict"], diet["unknown_percent"], diet["unknown_foods"]), ("unknown", 75, 1), other)
            self.assertNotIn("calcium-short", diet["faults"])
        self.assertEqual(diet["staple_percent"], [0, 75])

    def test_never(self):
        for species, food, reason in (("green-iguana", "avocado", "poison"), ("bearded-dragon", "fireflies", "poison"),
                                      ("green-iguana", "fireflies", "poison"), ("hermanns-tortoise", "rhubarb-leaf", "poison"),
                                      ("red-eared-slider", "goldfish", "thiaminase"), ("garter-snake", "minnow", "thiaminase"),
                                      ("hermanns-tortoise", "dog-or-cat-food", "unfit"), ("bearded-dragon", "dog-or-cat-food", "unfit"),
                                      ("savannah-monitor", "dog-or-cat-food", "unfit"), ("green-iguana", "onion", "unfit")):
            diet = diet_of(species, [daily(food)])
            self.assertEqual((diet["given"][0]["never"], diet["faults"]), (reason, [reason]), (species, food))
            self.assertTrue(diet["given"][0]["source"]["source"])
        for species, food in (("red-eared-slider", "trout"), ("axolotl", "earthworm")):
            self.assertIsNone(diet_of(species, [daily(food)])["given"][0]["never"], food)

    def test_poor_plants_are_changed_while_food_is_only_offered(self):
        """A running nose leaves food offered only: which leaves is another question than how much, and a soft shell needs their calcium."""
        ill = [{"code": "soft-shell", "severity": "moderate"}, {"code": "nose-discharge", "severity": "mild"}]
        for food, wanted in (("romaine", True), ("dandelion", False)):
            made = plan("hermanns-tortoise", [daily(food)], findings=ill)
            self.assertEqual(made["stances"]["food"][0]["stance"], "offer-only")
            self.assertEqual("change-plants" in [one["code"] for one in made["actions"]], wanted, food)

    def test_kinds(self):
        self.assertEqual(diet_of("green-iguana", [daily("kale", 10), daily("collards", 10)])["faults"], ["goitrogens-alone"])
        self.assertEqual(diet_of("green-iguana", [daily("kale", 10), daily("dandelion", 10)])["faults"], [])
        self.assertEqual(diet_of("leopard-gecko", [daily("cricket")])["faults"], ["one-insect"])
        self.assertEqual(diet_of("leopard-gecko", [daily("cricket"), daily("dubia")])["faults"], [])
        self.assertEqual(diet_of("leopard-gecko", [daily("cricket"), daily("locust")])["faults"], [])

    def test_whole_prey(self):
        """A mouse brings its own bones: nothing is judged."""
        diet = diet_of("ball-python", [daily("mouse", 20)])
        self.assertEqual((diet["calcium_to_phosphorus"], diet["verdict"], diet["faults"]), (None, "unknown", []))

    def test_unlisted_told(self):
        made = plan("green-iguana", [daily("colards", 20)])
        told = [one for one in made["review"] if one["code"] == "diet-food-unlisted"]
        self.assertEqual([(one["facts"]["food"], one["facts"]["nearest"]) for one in told], [("colards", "collards")])
        self.assertTrue(told[0]["line"])


class Properties(unittest.TestCase):
    def test_calcium_rich(self):
        """A food with more calcium for its phosphorus than the whole never lowers it, with its amount or without."""
        seed = random.Random(16)
        rich = [code for code, row in PUBLISHED.items() if row[1] / row[2] >= 4 and code not in OXALATE]
        cases = []
        for _ in range(30):
            diet = [daily(code, seed.choice((None, seed.randint(2, 80)))) for code in seed.sample(sorted(set(PUBLISHED) - set(rich)), seed.randint(1, 4))]
            cases.append((diet, diet + [daily(seed.choice(rich), seed.choice((None, seed.randint(1, 60))))]))
        order = ["too-low", "borderline", "in-range"]
        for (before, after), (one, more) in zip(cases, many(lambda c: [diet_of("green-iguana", diet) for diet in c], cases)):
            for end in (0, 1):
                self.assertGreaterEqual(more["calcium_to_phosphorus"][end], one["calcium_to_phosphorus"][end] - 1e-9, (before, after))
            self.assertGreaterEqual(order.index(more["verdict"]), order.index(one["verdict"]), (before, after))

    def test_summed_from_parts(self):
        """The sum is that of the foods' own lines."""
        diet = diet_of("bearded-dragon", [daily("romaine", 12), daily("butternut", 9), daily("soldier-fly-larva", 2)])
        how = {one["what"]: one for one in diet["how"]}["feeding.diet.summed.high"]
        given = {one["name"]: one["value"] for one in how["inputs"]}
        for name in ("calcium", "phosphorus"):
            self.assertAlmostEqual(given[name], sum(one[f"{name}_mg_day"] for one in diet["given"]), 4)
        # larvae: 3.0 % and 0.93 % of dry matter, 61.2 % water
        self.assertAlmostEqual(diet["given"][2]["calcium_mg_day"], 2 * 1000 * 0.030 * (1 - 0.612), 0)
        self.assertAlmostEqual(diet["given"][2]["phosphorus_mg_day"], 2 * 1000 * 0.0093 * (1 - 0.612), 0)


class Input(unittest.TestCase):
    def faults(self, *changes):
        with tempfile.TemporaryDirectory() as folder:
            for part in ("species-sheets", "templates"):
                shutil.copytree(ROOT / part, Path(folder) / part)
            foods = Path(folder, "templates/foods.yaml")
            text = foods.read_text()
            for before, after in changes:
                self.assertEqual(text.count(before), 1, before)
                text = text.replace(before, after)
            foods.write_text(text)
            done = subprocess.run([PROGRAM, "check", "."], capture_output=True, text=True, cwd=folder)
        self.assertEqual(done.returncode, 1, done.stdout)
        lines = text.split("\n")
        return [(lines[int(line.split(":")[1]) - 1].split(":")[0].strip(), line.split(": ", 1)[1]) for line in done.stderr.split("\n")
                if "foods.yaml:" in line]

    def test_bad_rows(self):
        """Each fault with its place and what would be right."""
        told = self.faults(("calcium: 232", "calcium: -232"), ("calcium: 100, phosphorus: 47", "calcium: 100, phosphorus: 0"),
                           ("[oxalate], mg-per-100-g: {calcium: 99", "[oxalat], mg-per-100-g: {calcium: 99"), (', row: "11963"', ""))
        self.assertEqual([food for food, _ in told], ["collards", "nopal", "chicory-greens", "spinach"])
        for (_, text), words in zip(told, ("0 to 20000", "row", "0.1 to 20000", "oxalate or goitrogen")):
            self.assertIn(words, text)

    def test_goes_with_nothing(self):
        told = self.faults(("like: squash, mg-per-100-g: {calcium: 48", "like: sqash, mg-per-100-g: {calcium: 48"))
        self.assertEqual(told[0][0], "butternut")
        self.assertIn("'sqash'", told[0][1])


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
