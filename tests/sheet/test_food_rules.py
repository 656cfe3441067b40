#!/usr/bin/env python3
"""What an animal must never be given and how large a piece may be, on every species' sheet in both languages, against the clinical table
(never-foods: animal poison control and summaries of fish with thiaminase, copies; sizes: common practice, no source)."""
import json
import re
import subprocess
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402


PROGRAM, WRITE_PLAIN = (Path(word).resolve() for word in sys.argv[1:3])
ROOT = Path(__file__).resolve().parents[2]
SHEETS = {path.stem: read_yaml(path.read_text()) for path in (ROOT / "species-sheets").glob("*.yaml")}
TODAY = "2026-03-20"
INSECTS = {"cricket", "dubia", "mealworm", "superworm", "silkworm", "soldier-fly-larva", "fruit-fly"}
PLANTS = {"leafy-greens", "flowers-and-weeds", "grass-and-hay", "squash", "fruit"}
FISH = {"goldfish", "minnow", "carp"}
# the clinical table's words for each, as a keeper reads them
WORDS = {"en": {"fireflies": "fireflies", "wild-insects": "insects from outdoors", "avocado": "avocado", "rhubarb-leaf": "rhubarb leaves",
                "goldfish": "goldfish", "minnow": "minnows", "carp": "carp"},
         "es": {"fireflies": "luciérnagas", "wild-insects": "insectos cazados fuera", "avocado": "aguacate", "rhubarb-leaf": "hojas de ruibarbo",
                "goldfish": "peces dorados", "minnow": "piscardos", "carp": "carpas"},
         "fr": {"fireflies": "lucioles", "wild-insects": "insectes pris dehors", "avocado": "avocat", "rhubarb-leaf": "feuilles de rhubarbe",
                "goldfish": "poissons rouges", "minnow": "vairons", "carp": "carpes"}}
EYES = {"en": "No insect may be longer than the gap between the eyes.", "es": "Ningún insecto más largo que el espacio entre los ojos.",
        "fr": "Pas d'insecte plus long que l'espace entre les yeux."}
GIRTH = {"en": "No prey may be wider than the widest part of the body.",
         "es": "Ninguna presa debe ser más ancha que la parte más ancha del cuerpo.",
         "fr": "Aucune proie ne doit dépasser la plus grande largeur du corps."}


def record(species, language, kind="reading", **more):
    return json.dumps({"visit": {"date": TODAY, "kind": kind}, "patient": {"name": "Fern", "species": species},
                       "keeper": {"name": "Lena Marsh", "language": language}, **more})


def wanted(species):
    """By hand: what the species eats at any age, and its group."""
    sheet = SHEETS[species]
    foods, group = {f for stage in sheet["feeding"]["stages"] for f in stage["foods"]}, sheet["species"]["group"]
    never = set()
    if foods & INSECTS and group in ("lizard", "frog", "tortoise"):
        never |= {"fireflies", "wild-insects"}
    if foods & PLANTS:
        never |= {"avocado", "rhubarb-leaf"}
    if "freshwater-fish" in foods or group == "salamander":
        never |= FISH
    return never, foods, group


class Rules(unittest.TestCase):
    def explain(self, text):
        done = subprocess.run([PROGRAM, "explain", "--json", "-", "--today", TODAY], input=text, capture_output=True, text=True, cwd=ROOT)
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)

    def page(self, folder, text, language):
        visit = Path(folder) / f"{language}.yaml"
        visit.write_text(text)
        done = subprocess.run([WRITE_PLAIN, ROOT, visit, TODAY, language, "whole"], capture_output=True, text=True)
        self.assertEqual(done.returncode, 0, done.stderr)
        return done.stdout

    def test_each_species(self):
        with ThreadPoolExecutor(2) as pool:
            plans = dict(zip(SHEETS, pool.map(lambda s: self.explain(record(s, "en")), SHEETS)))
        seen = set()
        for species, plan in plans.items():
            never, foods, group = wanted(species)
            self.assertEqual({one["food"] for one in plan["feeding"]["never"]}, never, species)
            for one in plan["feeding"]["never"]:
                self.assertTrue(one["source"]["source"], species)
            rule = plan["feeding"]["size_rule"]
            self.assertEqual(rule["code"], "prey" if group == "snake" else "insect" if foods & INSECTS and group in ("lizard", "frog") else None)
            if rule["code"]:
                self.assertEqual((rule["source"]["trust"], "practice" in rule["source"]["source"]), ("memory", True), species)
            said = {one["code"] for one in plan["instructions"]}
            self.assertEqual("sheet.feeding.never" in said, bool(never), species)
            self.assertEqual({code for code in said if code.startswith("sheet.feeding.size.")},
                             {f"sheet.feeding.size.{rule['code']}"} if rule["code"] else set(), species)
            seen |= never
        self.assertEqual(seen, set(WORDS["en"]))

    def test_printed(self):
        """In running text and on the sheet for the fridge, one species a kind of eater."""
        with tempfile.TemporaryDirectory() as folder:
            for species in ("bearded-dragon", "whites-tree-frog", "green-iguana", "hermanns-tortoise", "common-musk-turtle", "axolotl", "garter-snake",
                            "corn-snake", "eastern-box-turtle"):
                never, _, group = wanted(species)
                for language, words in WORDS.items():
                    for kind in ("reading", "checkout"):
                        text = self.page(folder, record(species, language, kind), language)
                        for code, word in words.items():
                            self.assertEqual(word in text, code in never, (species, language, kind, code))
                    self.assertEqual(EYES[language] in text, species in ("bearded-dragon", "whites-tree-frog"), (species, language))
                    self.assertEqual(GIRTH[language] in text, group == "snake", (species, language))

    LOOSE = {"en": "Give no fruit, lettuce or cucumber until the stool is firm again.", "es": "No des fruta, lechuga ni pepino hasta que las heces vuelvan a ser firmes.",
             "fr": "Ne donnez ni fruits, ni laitue, ni concombre tant que les selles sont molles."}

    def test_what_the_lines_of_the_picture_mean(self):
        """Two raters read "Prey" and "Insect" below it as no caption: what is measured against what stands there, one line below the other."""
        below = {"corn-snake": {"en": ("no wider", "than its body"), "es": ("no más ancha", "que el cuerpo"), "fr": ("pas plus large", "que le corps")},
                 "leopard-gecko": {"en": ("eye to eye", "at most"), "es": ("tope: de", "ojo a ojo"), "fr": ("d'œil à œil", "au plus")}}
        with tempfile.TemporaryDirectory() as folder:
            for species, by_language in below.items():
                for language, (first, second) in by_language.items():
                    page = Path(folder) / f"{species}.{language}.pdf"
                    subprocess.run([PROGRAM, "sheet", "-", "-o", page, "--today", TODAY], input=record(species, language, "checkout", patient={
                        "name": "Fern", "species": species, "hatched": "2022-05", "mass": "60 g"}), text=True, check=True, capture_output=True, cwd=ROOT)
                    boxes = subprocess.run(["pdftotext", "-bbox", page, "-"], capture_output=True, text=True, check=True).stdout
                    words = [(float(x), float(y), float(right), text.replace("&apos;", "'")) for x, y, right, text in
                             re.findall(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="[\d.]+">(.*?)</word>', boxes)]
                    found = {}
                    for text in (first, second):
                        part = text.split()
                        found.update((text, (*words[i][:2], words[i + len(part) - 1][2])) for i in range(len(words))
                                     if [word[3] for word in words[i:i + len(part)]] == part and words[i][0] > 450)
                    self.assertEqual(set(found), {first, second}, (species, language))
                    self.assertAlmostEqual(found[first][0], found[second][0], delta=0.5)
                    self.assertTrue(8 < found[second][1] - found[first][1] < 14, (species, language, found))
                    self.assertLess(max(right for _, _, right in found.values()), 595, (species, language))

    def test_no_watery_food_while_the_stool_is_loose(self):
        """The clinical table, diarrhoea: watery items out (lizards and land tortoises: lettuce and fruit), the food as usual. Neither the menu nor what
        is said of the keeper's own plants offers them."""
        loose = [{"code": "diarrhoea", "severity": "moderate"}]
        given = [{"food": "strawberry", "meal": "10 g", "every": "1 days"}, {"food": "romaine", "meal": "5 g", "every": "1 days"}]
        with tempfile.TemporaryDirectory() as folder:
            for species in ("bearded-dragon", "red-footed-tortoise", "hermanns-tortoise", "argentine-tegu"):
                for found in (loose, []):
                    feeding = self.explain(record(species, "en", findings=found, diet=given))["feeding"]
                    foods = {food for line in feeding["lines"] for food in line["food"]}
                    self.assertTrue(foods & {"leafy-greens", "flowers-and-weeds"}, species)
                    self.assertEqual("fruit" in foods, not found and "fruit" in wanted(species)[1], species)
                    for language, said in self.LOOSE.items():
                        text = self.page(folder, record(species, language, findings=found, diet=given), language)
                        self.assertEqual(said in text, bool(found), (species, language))
                        if found and language == "en":
                            self.assertNotRegex(text, "now and then [^.]*(strawberries|lettuce)")
            for species in ("ball-python", "leopard-gecko", "red-eared-slider", "whites-tree-frog"):  # none of theirs, or no land animal
                self.assertNotIn(self.LOOSE["en"], self.page(folder, record(species, "en", findings=loose), "en"), species)

    def test_shelf(self):
        """Which plants how often, and which fish, on the sheet that is mailed: fruit only where the species' own sheet names it, squash likewise,
        and no list for who eats neither."""
        words = {"en": ("dandelion greens", "spinach", "iceberg lettuce", "banana", "butternut squash", "trout"),
                 "es": ("hojas de diente de león", "espinacas", "lechuga iceberg", "plátano", "calabaza butternut", "trucha"),
                 "fr": ("pissenlit", "épinards", "laitue iceberg", "banane", "courge butternut", "truite")}
        with tempfile.TemporaryDirectory() as folder:
            for language, named in words.items():
                for species in ("green-iguana", "hermanns-tortoise", "bearded-dragon", "red-eared-slider", "garter-snake", "leopard-gecko"):
                    _, foods, _ = wanted(species)
                    leaves, fruit, squash, fish = (one in foods for one in ("leafy-greens", "fruit", "squash", "freshwater-fish"))
                    text = self.page(folder, record(species, language, "email"), language).lower()
                    self.assertEqual([one in text for one in named], [leaves] * 3 + [fruit, squash, fish], (species, language))

    def test_shelf_in_its_rows(self):
        """Each list beside its own head, on paper."""
        heads = {"en": ("Most of its plants", "Plants now and then", "A bite as a treat", "How often"),
                 "es": ("Sus plantas de cada día", "Plantas de vez en cuando", "Un bocado de premio", "Cada cuánto"),
                 "fr": ("Plantes de chaque jour", "De temps en temps", "Une bouchée, en friandise", "Rythme")}
        named = {"en": ("dandelion", "spinach", "iceberg"), "es": ("diente de león", "espinacas", "iceberg"), "fr": ("pissenlit", "épinards", "iceberg")}
        with tempfile.TemporaryDirectory() as folder:
            for language, rows in heads.items():
                # what goes home for reading, and what a new keeper shops by
                for kind in ("email", "adoption"):
                    page = Path(folder) / f"{kind}.{language}.pdf"
                    subprocess.run([PROGRAM, "sheet", "-", "-o", page, "--today", TODAY], input=record("hermanns-tortoise", language, kind), text=True,
                                   check=True, capture_output=True, cwd=ROOT)
                    text = " ".join(subprocess.run(["pdftotext", "-raw", page, "-"], capture_output=True, text=True, check=True).stdout.split())
                    start = text.index(rows[0])
                    places = [text.index(head, start) for head in rows]
                    self.assertEqual(places, sorted(places), (language, kind))
                    for first, end, word in zip(places, places[1:], named[language]):
                        self.assertIn(word, text[first:end].lower(), (language, kind))

    def test_nothing_to_eat_no_list(self):
        """Where no food may be given until the veterinarian says, no list of foods reads as leave to feed."""
        text = record("bearded-dragon", "en", findings=[{"code": "belly-mass", "severity": "severe", "state": "seen"}])
        plan = self.explain(text)
        self.assertTrue(plan["feeding"]["paused"])
        self.assertFalse({"sheet.feeding.never", "sheet.feeding.staples"} & {one["code"] for one in plan["instructions"]})


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
