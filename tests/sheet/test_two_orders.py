#!/usr/bin/env python3
"""Two orders for one thing, and orders that begin or end by themselves, on the finished sheet: each visit and what its page says or must not
say by hand, common practice, no source."""
import json
import re
import subprocess
import sys
import unittest
from pathlib import Path

import yaml

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-16"


def visit(species, findings=(), **more):
    """A visit of this animal; findings as "code severity"."""
    record = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species},
              "findings": [dict(zip(("code", "severity"), one.split())) for one in findings]}
    for key, value in more.items():
        key = key.replace("_", "-")
        record[key] = {**record[key], **value} if isinstance(record.get(key), dict) else value
    return record


def plan(record):
    done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=json.dumps(record), capture_output=True, text=True, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def text(record, language="en"):
    record = {**record, "keeper": {"name": "Ana", "language": language, **record.get("keeper", {})}}
    sheet = subprocess.run([PROGRAM, "sheet", "-", "-o", "-", "--today", TODAY], input=json.dumps(record).encode(), capture_output=True, cwd=ROOT)
    assert sheet.returncode == 0, sheet.stderr
    page = subprocess.run(["pdftotext", "-raw", "-", "-"], input=sheet.stdout, capture_output=True, check=True).stdout.decode()
    return " ".join(page.replace("\u00a0", " ").replace("-\n", "-").split())


class DeadParts(unittest.TestCase):
    def test_no_bath_begins_by_itself_where_a_part_dies(self):
        """A bath to the chin soaks the tail: none before we say so, and no day of a check lets it begin."""
        for species, code in (("spiny-tailed-lizard", "tail-death"), ("leopard-gecko", "toe-death"), ("corn-snake", "tail-death")):
            record = visit(species, [f"{code} mild", "dehydrated moderate", "belly-stool moderate"], follow_up={"recheck": "4 days"})
            phases = plan(record)["stances"]["bath"]
            self.assertEqual([one["stance"] for one in phases], ["none"], species)
            self.assertNotIn("give-drink-soak", [one["code"] for one in plan(record)["actions"]])
            self.assertNotIn("drinking bath of", text(record), species)


class TreePython(unittest.TestCase):
    BOX = {"readings": {"warm-side": "30 C", "humidity": "88 %", "humidity-at": "cool-side"}}
    DRIER, WET = ("Open the air holes", "Ouvrez les aérations", "Abre los agujeros"), ("Mist the leaves", "Humectez les feuilles", "Rocía las hojas")

    def test_what_is_to_get_drier_is_not_misted(self):
        """A snake that has a bowl needs no wet leaves while its air is too damp."""
        how = next(one for one in plan(visit("green-tree-python", enclosure=self.BOX))["actions"] if one["code"] == "lower-humidity")
        self.assertTrue(how)
        said = text(visit("green-tree-python", enclosure=self.BOX))
        self.assertIn("Open the air holes, and read the damp meter", said)

    def test_no_mist_falls_on_a_splint(self):
        record = visit("veiled-chameleon", ["fracture moderate"], done_today=["splint"], follow_up={"recheck": "14 days"})
        for language, words in (("en", "Mist the leaves, never the animal"), ("es", "rocía las hojas, nunca al animal"), ("fr", "brumisez les feuilles, jamais l'animal")):
            self.assertIn(words, text(record, language))
            self.assertNotIn(words, text(visit("veiled-chameleon"), language))

    def test_a_hide_on_the_floor_says_nothing_of_the_perches(self):
        """A snake in stitches that has no hide is told of its perches all the same."""
        for hides in (0, 1):
            record = visit("green-tree-python", ["prolapse severe"], enclosure={**self.BOX, "hides": hides}, done_today=["prolapse-replaced", "sutures", "sedation"],
                           follow_up={"recheck": "5 days"})
            self.assertIn("Then keep perches low", text(record), hides)

    def test_no_mist_falls_on_stitches(self):
        record = visit("green-tree-python", ["prolapse severe"], enclosure=self.BOX, done_today=["prolapse-replaced", "sutures"], follow_up={"recheck": "5 days"})
        said = text(record)
        self.assertNotIn("until drops hang on them", said)
        self.assertIn("Mist only leaves away from it", said)
        self.assertIn("Keep a bowl of clean water", said)
        self.assertIn("until drops hang on them", text(visit("green-tree-python")))


class Gloves(unittest.TestCase):
    def test_gloves_do_not_end_with_the_first_day(self):
        """Ten days of baths follow the day of rest after an X-ray: bare hands harm a frog's skin on each of them."""
        bath = {"name": "Itraconazole bath", "route": "in-a-bath", "every": "24 h", "for": "10 days", "first": TODAY, "at": "evening", "directions": "5 minutes."}
        record = visit("whites-tree-frog", ["chytrid severe"], medicines=[bath], done_today=["x-ray"], follow_up={"recheck": "3 days"})
        for language, words in (("en", "Now and later, wear fresh, wet gloves without powder each time"), ("es", "Ahora y después, usa cada vez guantes nuevos, mojados y sin polvo"),
                                ("fr", "Maintenant et plus tard, mettez chaque fois des gants neufs, mouillés, sans talc")):
            self.assertIn(words, text(record, language))


class Ends(unittest.TestCase):
    def test_the_day_of_an_end_is_no_day_of_a_beginning(self):
        """"Not before Wednesday: cool it" reads as "do not cool it before Wednesday", of what begins tonight."""
        record = visit("whites-tree-frog", ["chytrid severe"], enclosure={"readings": {"warm-side": "30 C"}}, done_today=["mouth-swab"],
                       follow_up={"recheck": "3 days", "results": [{"of": "mouth-swab", "by": "2026-03-20"}]})
        for language, never, words in (("en", "not before", "From today until our checks are clear (Thu 19 Mar or later)"), ("es", "antes del", "Desde hoy hasta que los análisis salgan bien (el jueves 19 mar o después)"),
                                       ("fr", "pas avant", "Dès aujourd'hui, jusqu'à ce que les analyses soient bonnes (le jeu 19 mars ou plus tard)")):
            said = text(record, language)
            self.assertNotIn(never, said)
            self.assertIn(words, said)


class Waking(unittest.TestCase):
    """What wakes lies on the floor with nothing to climb: perches come behind that, and only where something asks for them low."""
    PERCH = {"en": "Set perches no higher", "es": "Pon perchas no más altas", "fr": "Mettez les perchoirs pas plus haut"}

    def test_a_drowsy_climber_is_told_one_thing(self):
        record = visit("chinese-water-dragon", ["abscess moderate"], done_today=["abscess-flush", "sedation"], follow_up={"recheck": "4 days"})
        for language, words in self.PERCH.items():
            self.assertNotIn(words, text(record, language))
        self.assertIn("nothing to climb", text(record))

    def test_a_nerve_or_a_cut_keeps_the_perches_low_behind_it(self):
        for found, done in (("spinal-disease moderate", ["sedation"]), ("abscess moderate", ["surgery", "sedation"])):
            said = text(visit("chinese-water-dragon", [found], done_today=done, follow_up={"recheck": "4 days"}))
            self.assertNotIn(self.PERCH["en"], said, found)
            self.assertIn("Take perches out until it is awake. Then set them no higher than its own length", said, found)


class MercuryLamp(unittest.TestCase):
    BOX = {"heat": [{"kind": "lamp", "power": "75 W", "thermostat": False, "guard": True}], "readings": {"basking-surface": "40 C"},
           "lamp": {"kind": "mercury-vapour", "measured": {"uvi": 2.1, "at": "35 cm"}, "height": "35 cm", "installed": "2024-06-01"}}

    def test_the_old_lamp_warms_until_the_new_one_may(self):
        """It is half of the heat: out with it before the new one's distance is known would leave the spot colder, which is to be raised."""
        for language, words in (("en", "keep the old one on and ask"), ("es", "¿Vacío? Deja puesta la vieja y llama"),
                                ("fr", "gardez l'ancienne et demandez")):
            self.assertIn(words, text(visit("spiny-tailed-lizard", ["dehydrated mild"], enclosure=self.BOX), language))

    def test_a_lamp_without_dimmer_is_asked_about(self):
        self.assertIn("ask us if it has no dimmer", text(visit("spiny-tailed-lizard", ["dehydrated mild"], enclosure=self.BOX)))


class WeakOnMat(unittest.TestCase):
    """What shakes, is limp or drowsy does not move off a mat that gets too hot: a thermostat tonight, or the plug pulled and the room warmed. It has no day by which to be bought."""
    MAT = {"heat": [{"kind": "mat", "power": "12 W", "thermostat": False}]}
    WORDS = (("en", "Put the heat mat on a thermostat or unplug it", "Unplugged, warm the room to", "Heat without a thermostat"), ("es", "Pon la manta en un termostato o desenchúfala", "Si la desenchufas, calienta la sala a", "Pon un termostato"),
             ("fr", "Tapis sur thermostat, ou débranchez-le", "S'il est débranché, chauffez la pièce à", "Ajoutez un thermostat"))

    def thermostat(self, record):
        return next((one for one in plan(record)["actions"] if one["code"] == "add-thermostat"), None)

    def test_the_mat_is_held_tonight_or_unplugged(self):
        for found, done in (("stargazing moderate", ()), ("tremor moderate", ()), ("limp severe", ()), ("underweight mild", ("sedation",))):
            record = visit("garter-snake", [found], enclosure=self.MAT, done_today=list(done))
            self.assertTrue(self.thermostat(record)["tonight"], found)
            for language, title, room, _ in self.WORDS:
                said = text(record, language)
                self.assertIn(title, said, found)
                self.assertIn(room, said, found)
        for heat in ([{"kind": "mat", "thermostat": True}], [{"kind": "lamp", "thermostat": False, "guard": True}]):
            self.assertNotIn("heat mat on a thermostat", text(visit("garter-snake", ["tremor moderate"], enclosure={"heat": heat})))
        self.assertNotIn("heat mat on a thermostat", text(visit("garter-snake", ["underweight mild"], enclosure=self.MAT)))
        burnt = [one["code"] for one in plan(visit("garter-snake", ["tremor moderate", "burn moderate"], enclosure=self.MAT))["actions"]]
        self.assertIn("unplug-mat", burnt)

    def test_the_wet_floor_that_made_the_blisters_is_among_the_first(self):
        record = visit("garter-snake", ["stargazing moderate", "tremor moderate", "blistered-belly-scales moderate", "worms moderate"], enclosure={**self.MAT, "substrate": "coconut-fibre", "animals": 3, "mates": ["garter-snake"]})
        codes = [one["code"] for one in plan(record)["actions"]]
        self.assertLess(codes.index("keep-dry-floor"), 3)
        self.assertLess(codes.index("keep-dry-floor"), codes.index("own-box"))


class TubOrTank(unittest.TestCase):
    def test_a_toad_in_a_tub_says_which_water_is_cooled(self):
        """It is moved to a tub as warm as its own, and others stay in the tank: "cool the water" leaves open of which."""
        box = {"animals": 3, "mates": ["fire-bellied-toad"], "readings": {"water": "28 C"}}
        record = visit("fire-bellied-toad", ["red-legs moderate"], enclosure=box, water={"ammonia": "1 mg/l", "nitrite": "0.5 mg/l"})
        for language, both in (("en", "ool the water of tub and tank"), ("es", "nfría recipiente y acuario"), ("fr", "afraîchissez le bac et l'aquarium")):
            self.assertIn(both, text(record, language))
            self.assertNotIn(both, text(visit("fire-bellied-toad", ["red-legs moderate"], enclosure={"animals": 1, "readings": {"water": "28 C"}}), language))


class SameLamp(unittest.TestCase):
    def test_mates_of_soft_bones_are_looked_at(self):
        """Two hatchlings lived under the same LED on the same cucumber: they are to be seen, and nothing of them spreads. What spreads keeps its own words."""
        box = {"animals": 3, "mates": ["hermanns-tortoise"]}
        for language, words, never in (("en", "had the same light and food", "count as ill"), ("es", "uvieron la misma luz y comida", "Cuentan como enfermos"), ("fr", "ont eu la même lumière et la même nourriture", "comptent comme malades")):
            said = text(visit("hermanns-tortoise", ["soft-shell severe"], enclosure=box), language)
            self.assertIn(words, said)
            self.assertNotIn(never, said)
            spreads = text(visit("hermanns-tortoise", ["soft-shell severe", "nose-discharge moderate"], enclosure=box), language)
            self.assertIn(never, spreads)
            self.assertNotIn(words, spreads)
        self.assertNotIn("show-mates", [one["code"] for one in plan(visit("hermanns-tortoise", ["soft-shell severe"], enclosure={"animals": 1}))["actions"]])


class MuskTurtle(unittest.TestCase):
    """A truly aquatic turtle dries out: no hours out of the water but those that were written."""
    DONE = ["surgery", "abscess-flush"]

    def test_hours_that_were_written_can_be_written(self):
        record = visit("common-musk-turtle", ["swollen-ear moderate"], done_today=[*self.DONE, "dry-hours"],
                       follow_up={"recheck": "7 days", "aftercare": [{"of": "dry-hours", "hours": "20 h", "times": 1}]})
        self.assertEqual(plan(record)["stances"]["dry-hours"][0]["stance"], "as-written")
        self.assertIn("20 hours", text(record))

    def test_a_drop_in_the_ear_is_not_washed_out_at_once(self):
        drops = {"name": "Drops", "amount": "1 drops", "route": "in-the-ear", "every": "24 h", "for": "7 days", "first": TODAY, "at": "evening"}
        for language, words in (("en", "in the ear, then out of the water for as long as we say"), ("es", "en el oído, y luego fuera del agua el tiempo que digamos"),
                                ("fr", "dans l'oreille, puis hors de l'eau le temps que nous disons")):
            self.assertIn(words, text(visit("common-musk-turtle", ["swollen-ear moderate"], medicines=[drops]), language))
            self.assertNotIn(words, text(visit("hermanns-tortoise", ["swollen-ear moderate"], medicines=[drops]), language))

    def test_water_is_taken_out_with_the_plug_pulled(self):
        """A heater left dry and live burns and kills: the step that takes the water out says so, and gives one evening one order."""
        record = visit("common-musk-turtle", ["swollen-ear moderate", "floating moderate"], done_today=[*self.DONE, "sedation"], follow_up={"recheck": "7 days"})
        for language, plug, once, never in (("en", "First unplug what is electric in the water", "Tonight it does not swim. From tomorrow, once fully awake, it must reach", "Once awake, it must reach"),
                                            ("es", "Antes desenchufa lo eléctrico del agua", "Esta noche no nada. Desde mañana, si despertó del todo, debe llegar", "Al despertar, debe llegar"),
                                            ("fr", "Débranchez d'abord tout appareil dans l'eau", "Ce soir, l'animal ne nage pas. Dès demain, bien en éveil", "Une fois l'animal en éveil, il doit")):
            said = text(record, language)
            self.assertIn(plug, said)
            if plan(record)["stances"]["dry-hours"][0]["stance"] != "none":
                self.assertIn(once, said)
                self.assertNotIn(never, said)

    def test_low_water_is_that_of_the_tub_it_swims_in(self):
        """Dry for most of the day it swims in a tub of its own: that tub is filled low, and nobody empties the tank around its heater or draws low water in it. With few dry hours it lives in its tank."""
        home = {"size": "80 x 35 x 40 cm"}
        record = visit("common-musk-turtle", ["swollen-ear moderate", "floating moderate"], patient={"length": "9 cm"}, enclosure=home, done_today=[*self.DONE, "dry-hours"], follow_up={"recheck": "7 days"})
        few = {**record, "follow-up": {"recheck": "7 days", "aftercare": [{"of": "dry-hours", "hours": "1 h", "times": 2}]}}
        for language, tub, unplug, low in (("en", "From tomorrow, once fully awake, fill its swimming tub only so far", "First unplug what is electric in the water, and plug it in", "low water: ask us"),
                                           ("es", "Desde mañana, si despertó del todo, llena su recipiente para nadar solo", "Enchúfalo solo si queda cubierto", "agua baja: pregúntanos"),
                                           ("fr", "Dès demain, bien en éveil, remplissez son bac de nage juste", "Rebranchez-le s'il reste couvert", "eau basse : demandez-nous")):
            said = text(record, language)
            self.assertIn(tub, said)
            self.assertNotIn(unplug, said)
            self.assertNotIn(low, said)
            in_tank = text(few, language)
            self.assertNotIn(tub, in_tank)
            self.assertIn(unplug, in_tank)
            self.assertIn(low, in_tank)
        awake = {**record, "done-today": ["dry-hours"]}
        self.assertIn("Fill its swimming tub only so far", text(awake))
        self.assertNotIn("Take water out until", text(awake))

    def test_without_them_it_stays_in_its_water(self):
        self.assertEqual(plan(visit("common-musk-turtle", ["shell-rot moderate"], done_today=self.DONE))["stances"]["dry-hours"][0]["stance"], "none")


class Nest(unittest.TestCase):
    def test_she_climbs_over_no_wall(self):
        """Soft bones, perches low: the rim of the bin is as high as its soil is deep, so a ramp leads to it."""
        record = visit("veiled-chameleon", ["soft-jaw moderate", "gravid moderate"], patient={"sex": "female", "hatched": "2024-05"})
        for language, words in (("en", "with a ramp up to its rim"), ("es", "con una rampa hasta el borde"), ("fr", "avec une rampe jusqu'au bord")):
            self.assertIn(words, text(record, language))


class YoungTortoise(unittest.TestCase):
    def test_a_dry_hatchling_with_sore_eyes_gets_its_damp_hide(self):
        """Its air may not get damper, for the eyes: then the damp hide, which a hatchling needs anyway, is put in, and not only left where one stands."""
        found = ["dehydrated moderate", "swollen-eyes moderate"]
        record = visit("hermanns-tortoise", found, patient={"mass": "14 g", "hatched": "2025-12"})
        self.assertIn("add-moist-hide", [one["code"] for one in plan(record)["actions"] if one["tonight"]])
        for language, words, never in (("en", "Put in a damp hide", "that it has may stay"), ("es", "Pon un refugio húmedo", "que ya tenga puede quedarse"), ("fr", "Mettez une cachette humide", "peut rester")):
            said = text(record, language)
            self.assertIn(words, said)
            self.assertNotIn(never, said)
        self.assertNotIn("add-moist-hide", [one["code"] for one in plan(visit("hermanns-tortoise", found, patient={"hatched": "2000-05"}))["actions"]])


class WarmEnd(unittest.TestCase):
    def test_an_end_above_the_usual_warm_side_is_asked_about(self):
        """A boa's usual warm side is 28-31 C, the zone that it seeks ends at 34: 34 by night as by day is for who signs to say, once."""
        def asked(species, found):
            return [one["code"] for one in plan(visit(species, found))["review"]].count("ill-warmth-above-usual")
        self.assertEqual(asked("boa-constrictor", ["airway-infection mild"]), 1)
        self.assertEqual(asked("boa-constrictor", []), 0)
        self.assertEqual(asked("hermanns-tortoise", ["airway-infection mild"]), 0)

    ZONES = {"ball-python": (25, 34), "boa-constrictor": (28, 34), "common-kingsnake": (25, 32), "corn-snake": (25, 32), "eastern-box-turtle": (24, 29), "garter-snake": (21, 32), "green-anole": (23, 29), "leopard-gecko": (25, 30),
             "western-rat-snake": (25, 32)}

    def test_no_night_goes_to_the_zones_end(self):
        """The warm place by night lies inside the zone and ends below where it ends by day, with a sick airway too; an upper limit that no source gives is asked about, and a ball python has one."""
        for species, (low, high) in self.ZONES.items():
            for found in ("airway-infection moderate", "underweight severe"):
                seen = plan(visit(species, [found]))
                zones = {one["zone"]: one["target"] for one in seen["temperature"]}
                night, day = zones["night-warm-side"], zones["warm-side"]
                self.assertGreaterEqual(night[0], low, species)
                self.assertLess(night[1], min(high, day[1]), (species, found))
                self.assertLess(night[0], night[1], (species, found))
                self.assertEqual("upper-limit-unknown" in [one["code"] for one in seen["review"]], found.startswith("airway") and species != "ball-python", (species, found))
        self.assertNotIn("upper-limit-unknown", [one["code"] for one in plan(visit("boa-constrictor"))["review"]])


class TubeWater(unittest.TestCase):
    def test_water_before_the_meal_has_a_way_in(self):
        """Eyes swollen shut, no baths, a tube in place: "it must have had water" without a way is a gate that no keeper can open."""
        record = visit("eastern-box-turtle", ["swollen-eyes moderate", "not-eating moderate"], enclosure={"readings": {"warm-side": "17 C"}}, done_today=["feeding-tube-placed", "surgery"],
                       follow_up={"recheck": "5 days", "aftercare": [{"of": "feeding-tube-placed", "amount": "6 ml", "every": "24 h", "first": "2026-03-17"}]})
        for language, words in (("en", "water through the tube: ____ ml"), ("es", "agua por la sonda: ____ ml"), ("fr", "de l'eau par la sonde : ____ ml")):
            self.assertIn(words, text(record, language))


class TubeFed(unittest.TestCase):
    """What is fed through a tube "and nothing else" has no plate before it."""

    def record(self, done):
        return visit("eastern-box-turtle", ["swollen-eyes moderate", "not-eating moderate"], done_today=done,
                     follow_up={"recheck": "5 days", "aftercare": [{"of": "feeding-tube-placed", "amount": "6 ml", "every": "24 h", "first": "2026-03-17"}] if done else []})

    def test_no_plate_beside_the_tube(self):
        for diet in ("eastern-box-turtle", "green-iguana", "hermanns-tortoise"):
            for done in (["feeding-tube-placed"], []):
                record = self.record(done)
                record["patient"]["species"] = diet
                said = {one["printed"] for one in plan(record)["instructions"]}
                self.assertEqual("stance.food-form.serving.dish-or-tongs-dish" in said, not done, (diet, done))

    def test_a_variant_of_a_line_of_meals_waits_for_food_as_the_line_does(self):
        """By the declarations: a line that holds only while food is offered has no variant that forgets it."""
        declared = yaml.safe_load((ROOT / "templates/instructions.yaml").read_text())["instructions"]
        lines = {code: one for code, one in declared.items() if code.startswith("stance.food-form.") and "food" in one.get("topics", {})}
        self.assertGreater(len(lines), 5)
        for code, one in lines.items():
            for variant in one.get("variants", []):
                self.assertEqual(sorted(variant.get("topics", {}).get("food", [])), sorted(one["topics"]["food"]), (code, variant["key"]))


class HeatedToad(unittest.TestCase):
    """A kind that needs no heat may have some: a mat without a thermostat under a drowsy toad is made safe before it is turned up."""
    MORE = {"done_today": ["sedation", "sutures"], "diet": [{"food": "cricket", "count": 4, "every": "2 days", "last": "2026-03-11"}]}
    READ = {"readings": {"warm-side": "19 C", "cool-side": "16 C", "night": "12 C"}}

    def test_a_mat_is_put_on_a_thermostat_tonight(self):
        mat = {"heat": [{"kind": "mat", "power": "8 W", "thermostat": False, "guard": False}]}
        for heat, is_there in ((mat, True), ({}, False), ({"heat": [{"kind": "mat", "thermostat": True}]}, False)):
            steps = {one["code"]: one["tonight"] for one in plan(visit("fire-bellied-toad", ["bite-wound moderate"], enclosure={**self.READ, **heat}, **self.MORE))["actions"]}
            self.assertEqual(steps.get("add-thermostat"), True if is_there else None, heat)

    def test_no_gate_opens_before_the_first_meal(self):
        """Five days without food and cold: what eats insects waits for warmth, not for days of it; awake on Tuesday, its first meal is then."""
        record = visit("fire-bellied-toad", ["bite-wound moderate", "underweight mild"], enclosure=self.READ, **self.MORE,
                       patient={"hatched": "2023", "mass": "9 g", "earlier": [{"on": "2026-01-10", "mass": "11 g", "healthy": True}]})
        record["findings"].append({"code": "not-eating", "value": 5})
        for language, none, later in (("en", "No food before Tue 17 Mar", "18 Mar on"), ("es", "Sin comida antes del martes 17 mar", "antes del miércoles 18"), ("fr", "avant le mar 17 mars", "avant le mer 18")):
            said = text(record, language)
            self.assertIn(none, said, language)
            self.assertNotIn(later, said, language)


class OtherPieces(unittest.TestCase):
    def test_two_eggs_are_not_two_roaches(self):
        """What is used to so many of one food is given so many of the like; nobody knows how many roaches two eggs or two mice are."""
        for food, pieces in ((("egg", None), None), (("mouse", "adult"), None), (("dubia", "adult"), [2, 2])):
            diet = {"food": food[0], "count": 2, "every": "3 days", "last": "2026-03-12", **({"size": food[1]} if food[1] else {})}
            fed = plan(visit("argentine-tegu", ["underweight moderate", "not-eating mild"], diet=[diet], patient={"hatched": "2021-05", "mass": "2.1 kg"}, done_today=["sedation"]))["feeding"]
            self.assertEqual(fed["insects"], pieces, food)


class GravelTakenOut(unittest.TestCase):
    """What was swallowed today was gravel: the rest of it goes tonight, and what is never to be used again is named after what lay there."""

    def test_the_floor_goes_tonight(self):
        record = visit("horned-frog", ["belly-mass moderate"], done_today=["swallowed-object-removed"], enclosure={"substrate": "gravel"}, patient={"mass": "145 g", "hatched": "2023-03"})
        for done, because in (("swallowed-object-removed", "loose-floor-object-out"), ("x-ray", "loose-floor")):
            asked = [one for one in plan({**record, "done-today": [done]})["actions"] if one["code"] == "take-out-loose-floor"]
            self.assertEqual([one["why"] for one in asked], [[because]])
            self.assertTrue(done == "x-ray" or asked[0]["tonight"])
        for language, words in (("en", "gravel, cedar"), ("es", "grava, cedro"), ("fr", "gravier, de cèdre")):
            self.assertIn(words, text(record, language), language)


class ColdAir(unittest.TestCase):
    """78 % at 22.8 C is 58 % at 27.8 C (Buck 1996: 27.7 hPa of 37.3, by hand): the same sheet that heats the box lets nothing of it out."""
    READ = {"basking-surface": "30 C", "warm-side": "27 C", "humidity-at": "cool-side"}

    def told(self, cool, air, found=("airway-infection mild",)):
        plans = plan(visit("boa-constrictor", found, enclosure={"readings": {**self.READ, "cool-side": cool, "humidity": air}}))
        return {one["code"] for one in plans["actions"]} & {"measure-humidity-warm", "lower-humidity", "raise-humidity"}

    def test_damp_that_was_read_cold_is_read_again(self):
        self.assertEqual(self.told("22.8 C", "78 %"), {"measure-humidity-warm"})
        for language, words in (("en", "Measure the humidity again once it is warm"), ("es", "Mide otra vez la humedad cuando haga calor"), ("fr", "Remesurez l'humidité une fois qu'il fait chaud")):
            said = text(visit("boa-constrictor", ["airway-infection mild"], enclosure={"readings": {**self.READ, "cool-side": "22.8 C", "humidity": "78 %"}}), language)
            self.assertIn(words, said)

    def test_what_stays_too_damp_or_is_too_dry_waits_for_nothing(self):
        self.assertEqual(self.told("22.8 C", "99 %"), {"lower-humidity"})  # 78 % at the boa's coolest place even then
        self.assertEqual(self.told("28.5 C", "78 %"), {"lower-humidity"})
        self.assertEqual(self.told("22.8 C", "25 %"), {"raise-humidity"})


class GardenPen(unittest.TestCase):
    """What is brought in tonight leaves its pen: no step warms the garden or airs it, and no "now" of it stands beside the box that it comes into."""
    READ = {"basking-surface": "24 C", "warm-side": "17 C", "cool-side": "12 C", "night": "7 C", "humidity": "99 %", "humidity-at": "cool-side"}
    PEN_STEPS = {"warm-night", "warm-basking", "warm-warm-side", "warm-cool-side", "warm-ill-side", "lower-humidity", "measure-humidity-warm", "widen-gradient"}

    def test_nothing_is_done_to_the_pen(self):
        found = ["swollen-ear severe", "nose-discharge mild"]
        inside = visit("eastern-box-turtle", found, enclosure={"readings": self.READ})
        outside = visit("eastern-box-turtle", found, enclosure={"readings": self.READ, "outdoor": True})
        self.assertTrue(self.PEN_STEPS & {one["code"] for one in plan(inside)["actions"]})
        codes = {one["code"] for one in plan(outside)["actions"]}
        self.assertIn("bring-in", codes)
        self.assertEqual(self.PEN_STEPS & codes, set())
        for language, now, room in (("en", "now 7", "Tonight a box in a room at"), ("es", "ahora 7", "Esta noche basta una caja en una sala a"), ("fr", "actuellement 7", "Ce soir, une caisse dans une pièce à")):
            said = text(outside, language)
            self.assertNotIn(now, said)
            self.assertIn(room, said)

    EQUIPPED = {"outdoor": True, "size": "150 x 90 x 40 cm", "thermostat": False, "heat": [{"kind": "red-light", "power": "60 W", "thermostat": False, "guard": False}], "substrate": "soil", "hides": 1, "animals": 3,
                "mates": ["eastern-box-turtle"], "readings": READ, "lamp": {"kind": "none"}}
    PEN_THINGS = {"add-thermostat", "guard-the-heat", "check-the-guard", "change-red-light", "larger-box", "keep-dry-floor", "take-out-loose-floor", "change-floor", "add-second-hide"}

    def test_the_pens_lamp_stays_with_those_outside(self):
        """What hangs, lies and stands in the pen is of no step while the animal is indoors: she would take the lamp from the two that stay. The box that is drawn is the one to get, and the veterinarian is told."""
        found = ["swollen-ear severe", "nose-discharge mild"]
        record = visit("eastern-box-turtle", found, enclosure=self.EQUIPPED, done_today=["surgery"])
        seen = plan(record)
        self.assertEqual(self.PEN_THINGS & {one["code"] for one in seen["actions"]}, set())
        self.assertLess({"keep-dry-floor", "larger-box", "change-red-light"}, {one["code"] for one in plan(visit("eastern-box-turtle", found, enclosure={**self.EQUIPPED, "outdoor": False}, done_today=["surgery"]))["actions"]})
        self.assertIn("pen-left", [one["code"] for one in seen["review"]])
        self.assertNotIn("pen-left", [one["code"] for one in plan(visit("eastern-box-turtle", ["overgrown-beak mild"], enclosure=self.EQUIPPED))["review"]])
        for language, size, room, heat in (("en", "150 × 90", "Tonight a box with paper towels in a room at", "leave the others and their heat where they are"), ("es", "150 × 90", "Esta noche basta una caja con papel de cocina en una sala a", "a los demás con su calor donde están"),
                                           ("fr", "150 × 90", "Ce soir, une caisse avec de l'essuie-tout dans une pièce à", "les autres et ce qui les chauffe où ils sont")):
            said = text(record, language)
            self.assertNotIn(size, said)
            self.assertIn(room, said)
            self.assertIn(heat, said)
        self.assertIn("150 × 90", text(visit("eastern-box-turtle", ["overgrown-beak mild"], enclosure=self.EQUIPPED), "es"))

    def test_a_turtle_of_a_pond_comes_to_a_tub(self):
        """No box of towels for one that lives in water, and no step empties the pond: it comes in first, and its tub is filled low. What was put to sleep lies dry tonight."""
        pond = {"outdoor": True, "animals": 3, "mates": ["red-eared-slider"], "readings": {"water": "12 C"}}
        record = visit("red-eared-slider", ["airway-infection moderate", "floating moderate"], enclosure=pond, water={"ammonia": "1 mg/l"})
        codes = [one["code"] for one in plan(record)["actions"]]
        self.assertEqual(codes[0], "bring-in")
        self.assertEqual({"change-part-water", "warm-water", "cool-water"} & set(codes), set())
        for language, tub, low, out in (("en", "Tonight a clean tub will do", "Fill its tub only so far", "Take water out"), ("es", "Esta noche basta un recipiente limpio", "Llena su recipiente solo", "Saca agua"),
                                        ("fr", "Ce soir, un bac propre suffit", "Remplissez son bac juste", "Enlevez de l'eau")):
            said = text(record, language)
            self.assertIn(tub, said)
            self.assertIn(low, said)
            self.assertNotIn(out, said)
            asleep = text({**record, "done-today": ["sedation"]}, language)
            self.assertNotIn(tub, asleep)
            self.assertIn(out, text({**record, "enclosure": {**pond, "outdoor": False}}, language))


class Unlisted(unittest.TestCase):
    def test_what_it_had_is_no_number_to_keep(self):
        """A kind without a sheet that came too hot: what it had is told as that, and the numbers are blanks for the clinic's hand."""
        frog = {"species": "unlisted", "unlisted": {"kind": "dyeing dart frog", "group": "frog", "habit": "terrestrial", "diet": "insects", "reproduction": "egg-layer", "traits": ["bare-skin", "limbs"]}}
        record = visit("unlisted", ["worms severe"], patient=frog, enclosure={"readings": {"warm-side": "29 C"}})
        for language, blanks, had, never in (("en", "warm ____, damp ____, light ____ hours", "what Fern had when you came, 29 °C", "its own warmth"), ("es", "calor ____, humedad ____, luz ____ horas", "Al llegar Fern tenía 29 °C", "su temperatura estable"),
                                             ("fr", "chaleur ____, humidité ____, lumière ____ heures", "À l'arrivée, Fern avait 29 °C", "sa température stable")):
            said = text(record, language)
            self.assertIn(blanks, said)
            self.assertIn(had, said)
            self.assertNotIn(never, said)

    def test_its_mates_go_to_no_warmth_that_nobody_judged(self):
        """29 C is no target of a kind without a sheet: where the others go tonight is a blank too, and a listed kind has its number there."""
        frog = {"species": "unlisted", "unlisted": {"kind": "dyeing dart frog", "group": "frog", "habit": "terrestrial", "diet": "insects", "reproduction": "egg-layer", "traits": ["bare-skin", "limbs"]}}
        record = visit("unlisted", ["worms severe"], patient=frog, done_today=["surgery"], enclosure={"animals": 3, "readings": {"warm-side": "29 C"}})
        for language, blank in (("en", "a clean tub at ____ (empty? ask us)"), ("es", "un recipiente limpio a ____ (¿vacío? pregunta)"), ("fr", "un bac propre à ____ (vide ? demandez)")):
            self.assertIn(blank, text(record, language))
        self.assertNotIn("clean tub at ____", text(visit("corn-snake", ["worms severe"], done_today=["surgery"], enclosure={"animals": 3, "readings": {"warm-side": "29 C"}})))


class Swallowed(unittest.TestCase):
    def test_what_was_taken_out_is_no_lump_that_nobody_knows(self):
        record = visit("boa-constrictor", ["belly-mass severe"], done_today=["swallowed-object-removed", "sedation"])
        for language, lump, out, bare, never in (("en", "Lump in the belly", "and we took it out today", "feed it in a bare tub, without cloth", "only tests can say"),
                                                 ("es", "Bulto en el vientre", "Hoy lo sacamos", "en un recipiente vacío, sin telas", "Solo las pruebas"),
                                                 ("fr", "Boule dans le ventre", "Nous l'avons retiré aujourd'hui", "dans un bac nu, sans tissu", "Seuls des tests")):
            said = text(record, language)
            self.assertNotIn(lump, said)
            self.assertIn(lump, text({**record, "done-today": ["sedation"]}, language))
            self.assertIn(out, said)
            self.assertIn(bare, said)
            self.assertNotIn(never, said)
            self.assertIn(never, text({**record, "done-today": ["sedation"]}, language))


class SoreMouth(unittest.TestCase):
    def test_nothing_rough_lies_beside_a_sore_mouth(self):
        """The clinical table, mouth-inflammation: rough things out, whether it may eat or not."""
        for severity in ("mild", "severe"):
            for language, said in (("en", "Leave nothing rough with it"), ("es", "No le dejes nada áspero"), ("fr", "Ne laissez rien de rugueux")):
                self.assertRegex(text(visit("boa-constrictor", [f"mouth-inflammation {severity}"]), language), f"{said}|Take away rough things|Quita cosas ásperas|Enlevez ce qui est rugueux", (severity, language))


class SecondTime(unittest.TestCase):
    def test_food_that_comes_up_a_second_time_is_one_to_go_for(self):
        """The clinical table, vomited: severe, twice or a weak hatchling, go now."""
        for severity in ("mild", "moderate", "severe"):
            record = visit("corn-snake", [f"vomited {severity}"])
            for language, words in (("en", "If it brings up food again, go now"), ("es", "Acude ya si vuelve a devolver la comida"), ("fr", "Consultez d'urgence si le repas remonte encore")):
                said = text(record, language)
                self.assertIn(words, said, severity)


class OldFloor(unittest.TestCase):
    FLOOR = {"substrate": "gravel"}

    def test_what_spreads_takes_a_frogs_old_floor_out(self):
        """Worms or a germ: damp paper on top of the fouled floor helps nothing."""
        for found in ("worms severe", "quarantine-new mild", "chytrid moderate"):
            record = visit("whites-tree-frog", [found], enclosure=self.FLOOR)
            for language, words in (("en", "Tonight take the old floor out in a closed bag"), ("es", "Esta noche saca el suelo viejo"), ("fr", "Ce soir, enlevez l'ancien sol")):
                self.assertIn(words, text(record, language), found)


class SameDish(unittest.TestCase):
    """Mates eat from the same dish: what is stopped for one is stopped for all."""
    WORDS = (("en", "None for the others in the box either"), ("es", "Tampoco a los otros del terrario"), ("fr", "Rien de cela aux autres non plus"))

    def test_no_mate_gets_the_fish_that_made_one_ill(self):
        record = visit("garter-snake", ["tremor moderate"], diet=[{"food": "goldfish", "count": 2, "every": "4 days"}])
        for language, words in self.WORDS:
            self.assertNotIn(words, text(record, language))
            self.assertIn(words, text({**record, "enclosure": {"animals": 3, "mates": ["garter-snake"]}}, language))
        self.assertIn("None for the other one in the box either", text({**record, "enclosure": {"animals": 2, "mates": ["garter-snake"]}}))


class Unsteady(unittest.TestCase):
    """What shakes or holds its head back may choke: no day alone makes it eat (the clinical table, NERVE: none by hand, offer when steady)."""
    WORDS = (("en", "Food only while it is steady, else ask us.", "only while it lies steady", "or is too unsteady to eat"), ("es", "Comida solo mientras esté firme; si no, pregunta.", "solo mientras esté firme", "o sin firmeza para comer"),
             ("fr", "À manger seulement s'il est stable, sinon demandez.", "seulement si l'animal est stable", "ou trop instable pour manger"))

    def test_its_meals_wait_for_a_steady_head(self):
        record = visit("garter-snake", ["stargazing moderate"], diet=[{"food": "trout", "count": 2, "every": "4 days", "last": "2026-03-12"}], patient={"mass": "34 g", "hatched": "2025-08"})
        other = visit("garter-snake", ["not-eating mild"], diet=record["diet"], patient={"mass": "34 g", "hatched": "2025-08"})
        for language, day, offer, call in self.WORDS:
            said = text(record, language)
            self.assertIn(day, said)
            self.assertIn(offer, said)
            self.assertIn(call, said)  # a call, and no reason to push food into it
            self.assertNotIn(day, text(other, language))


class Unheated(unittest.TestCase):
    """A box with no heat in it has none to move, to turn off or to put at one end."""
    MOVED = {"en": r"[Mm]ove heat|all heat at one end|[Tt]urn the heat off", "es": r"[Mm]ueve el calor|todo el calor|[Aa]paga el calor", "fr": r"[Dd]éplacez la chaleur|toute la chaleur|[Cc]oupez la chaleur"}

    def test_heat_that_is_not_there_is_not_moved(self):
        for readings in ({"cool-side": "24 C", "warm-side": "25 C"}, {"cool-side": "20 C", "warm-side": "20.5 C"}):
            for language, moved in self.MOVED.items():
                bare, heated = (text(visit("fire-bellied-toad", enclosure={"size": "60 x 40 x 40 cm", "heat": [{"kind": kind}], "readings": readings}), language) for kind in ("none", "lamp"))
                self.assertNotRegex(bare, moved)
                self.assertRegex(heated, moved)

    GATES = {"warm-and-watered-first": "Not before it is warm enough and has had water.", "warm-first": "Not before it is warm enough.",
             "clean-water": "Not before the water is clean and has the right warmth."}

    def test_food_that_waits_is_not_offered_at_once(self):
        """The row of tonight said 'offer food' while the food itself waited for its water."""
        for language, waits in (("en", "Not before the water is clean and has the right warmth."), ("es", "No antes de que el agua esté limpia y a su temperatura."), ("fr", "Pas avant que l'eau soit propre et à la bonne température.")):
            self.assertIn(waits, text(visit("fire-bellied-toad", ["skin-sloughing moderate", "underweight mild"]), language))
        seen = set()
        for species, code, box in (("leopard-gecko", "not-eating", {}), ("leopard-gecko", "thin-tail", {}), ("ball-python", "not-eating", {"readings": {"warm-side": "31 C", "cool-side": "27 C", "night": "27 C"}}),
                                   ("axolotl", "not-eating", {"decided": True})):
            more = {"decisions": [{"topic": "food-gate", "stance": "none", "because": "The water was tested here.", "confirmed": "yes"}]} if box.pop("decided", False) else {}
            record = visit(species, [f"{code} moderate"], enclosure=box, **more)
            gate = plan(record)["stances"]["food-gate"][0]["stance"]
            if "offer-food" in [one["code"] for one in plan(record)["actions"]]:
                seen.add(gate)
                said, words = text(record), self.GATES.get(gate)
                self.assertEqual([one for one in self.GATES.values() if one in said], [words] if words else [], (species, gate))
        self.assertIn("none", seen)


class NotBoth(unittest.TestCase):
    """Two orders of printed sheets that nobody can carry out both."""
    def test_a_bandage_that_stays_on_has_no_cream_under_it(self):
        cream = [{"name": "Burn cream", "route": "on-the-skin", "every": "24 h", "for": "10 days", "first": "2026-03-16", "directions": "A thin film."}]
        for language, words in (("en", "Burn cream: put it beside the bandage, and under it only once we have said how"), ("es", "Burn cream: ponlo al lado, y debajo solo cuando digamos cómo"),
                                ("fr", "Burn cream : à côté, et dessous seulement quand nous avons dit comment")):
            for done, route, given, said in ((["bandage"], "on-the-skin", "at-home", True), ([], "on-the-skin", "at-home", False), (["bandage"], "in-the-eye", "at-home", False), (["bandage"], "on-the-skin", "here", False)):
                record = visit("rosy-boa", ["burn moderate"], done_today=done, medicines=[{**cream[0], "route": route, "given": given}])
                self.assertEqual(words in text(record, language), said, (language, done, route, given))

    def test_a_frog_in_a_tub_with_a_low_dish_has_no_tank_to_fill(self):
        box = {"animals": 2, "mates": ["fire-bellied-toad"]}
        for language, dish, ledge in (("en", "In its tub give only the low dish of water", "ledge just below the surface"), ("es", "En su recipiente pon solo el plato bajo con agua", "apoyo justo bajo la superficie"),
                                      ("fr", "Dans son bac, seulement la coupelle peu profonde", "appui juste sous la surface")):
            ill = ["red-legs moderate", "bloat mild"]
            said, alone = (text(visit("fire-bellied-toad", ill, enclosure=enclosure, water={"ammonia": "0.5 mg/l"}), language) for enclosure in (box, {"animals": 1}))
            self.assertEqual((dish in said, ledge in said), (True, False), language)
            self.assertEqual((dish in alone, ledge in alone), (False, True), language)


class Drowsy(unittest.TestCase):
    """What falls into water before it is awake drowns: one order for the evening, none in its box and the bowl only from then on."""
    WORDS = (("en", "no water to fall into", "Keep all water out until it is fully awake", ": Give only a shallow bowl"), ("es", "ni agua donde caer", "Sin agua en su caja hasta que despierte del todo", ": Deja solo un plato de agua bajo"),
             ("fr", "ni eau où tomber", "Aucune eau dans sa boîte avant le réveil complet", ": Mettez seulement une coupelle"))

    def test_no_bowl_before_it_is_awake(self):
        for species, done in (("horsfield-tortoise", "surgery"), ("boa-constrictor", "sedation"), ("leopard-gecko", "sedation")):
            for language, dry, first, bowl in self.WORDS:
                said = text(visit(species, done_today=[done]), language).replace("•", "")
                self.assertIn(dry, said, (species, language))
                self.assertIn(first, said, (species, language))
                self.assertNotIn(bowl.strip(": "), said, (species, language))

    def test_what_was_not_put_to_sleep_has_its_bowl_at_once(self):
        for language, _, first, bowl in self.WORDS:
            said = text(visit("boa-constrictor", ["head-tilt moderate"]), language)
            self.assertNotIn(first, said)
            self.assertIn(bowl.strip(": "), said)

    def test_a_turtles_tank_waits_too(self):
        """A ledge in its water, beside a turtle that is to lie in none until it is awake, was a second order for one evening."""
        for language, first, ledge in (("en", "Keep all water out until it is fully awake", "Ask us today how deep the water may be:"), ("es", "Nada de agua hasta que despierte del todo", "Pregunta hoy cuánta agua dejar:"),
                                       ("fr", "Aucune eau avant le réveil complet", "Demandez aujourd'hui combien d'eau laisser.")):
            said = text(visit("red-eared-slider", ["airway-infection moderate"], done_today=["sedation"]), language)
            self.assertIn(first, said, language)
            self.assertNotIn(ledge, said, language)
            self.assertIn(ledge, text(visit("red-eared-slider", ["airway-infection moderate"]), language))

    def test_the_bowl_of_a_limp_one_waits_too(self):
        how = next(one for one in plan(visit("boa-constrictor", ["limp severe"], done_today=["sedation"]))["actions"] if one["code"] == "shallow-water")
        self.assertTrue(how)
        for language, words in (("en", "Put it in only once Fern is fully awake"), ("es", "Ponlo solo cuando Fern despierte del todo"), ("fr", "Mettez-la seulement quand Fern a fini de se réveiller")):
            self.assertIn(words, text(visit("boa-constrictor", ["limp severe"], done_today=["sedation"]), language))
            self.assertNotIn(words, text(visit("boa-constrictor", ["limp severe"]), language))


class TreatedMouth(unittest.TestCase):
    """Where no meal may be before a day, since its mouth or airway is treated, that day stands wherever food is offered: no gate opens sooner."""
    MORE = {"patient": {"mass": "910 g", "length": "98 cm", "hatched": "2023-07"}, "diet": {"food": "rat", "size": "small", "count": 1, "every": "10 days", "last": "2026-02-12"},
            "follow_up": {"recheck": "10 days"}, "enclosure": {"readings": {"warm-side": "25 C", "cool-side": "22 C", "night": "20 C", "humidity": "70 %"}}}
    WASH = [{"name": "Chlorhexidine", "amount": "1 ml", "route": "in-the-mouth", "every": "24 h", "for": "7 days", "first": "2026-03-16", "at": "evening"}]
    WORDS = (("en", "No meal before", "(?:No food before|Food only from)", ", and not before it is warm", " on, once the warm side", "Offer food once"), ("es", "Sin comida antes del", "Sin comida antes del", r"\. No antes de", r"\. Desde entonces", "Ofrece comida cuando"),
             ("fr", "Aucun repas avant le", "Aucun repas avant le", r"\. Pas avant assez", r"\. Ensuite", "Proposez à manger une fois"))

    def test_the_later_day_is_in_every_gate(self):
        found = ["mouth-inflammation mild", "not-eating moderate", "dehydrated moderate", "retained-shed mild"]
        for language, meal, none, step, gate, at_once in self.WORDS:
            treated, other = text(visit("ball-python", found, medicines=self.WASH, **self.MORE), language), text(visit("ball-python", found[1:], **self.MORE), language)
            for before, after in ((meal, r"\s?: "), (none, step), (none, gate)):
                self.assertRegex(treated, rf"{before} \w+ 27 [Mm]ars?{after}")  # the day after the check of the 26th, three days behind the last wash
            self.assertNotIn(at_once, treated)
            self.assertNotRegex(other, rf"{none} \w+ 27 [Mm]ar")


class DryAndHungry(unittest.TestCase):
    """A turtle kept dry is not in its tank: its meal waits for its tub and its dry box, in the care lines and in the step alike."""
    WORDS = (("en", "Not before the water of its tub is at ([^ ]* °C) and its dry box at ([^ ]* °C)", "Not before the water and the basking spot", "once the water of its tub is at {0} and its dry box at {1}"),
             ("es", "No antes de que el agua de su recipiente esté a ([^ ]* °C) y su caja seca a ([^ ]* °C)", "No antes de que el agua y la zona", "cuando el agua de su recipiente esté a {0} y su caja seca a {1}"),
             ("fr", "Pas avant que l'eau de son bac soit à ([^ ]* °C) et sa boîte sèche à ([^ ]* °C)", "Pas avant que l'eau et le point chaud", "l'eau de son bac à {0} et sa boîte sèche à {1}"))

    def test_both_gates_are_of_tub_and_dry_box(self):
        found, box = ["shell-rot moderate", "not-eating moderate"], {"enclosure": {"readings": {"basking-surface": "22 C"}}, "water": {"temperature": "20 C"}}
        for language, step, tank, care in self.WORDS:
            dry = text(visit("painted-turtle", found, done_today=["dry-hours"], **box), language)
            heat = re.search(step, dry)
            self.assertIsNotNone(heat, dry)
            self.assertIn(care.format(*heat.groups()), dry)
            self.assertNotIn(tank, dry)
            self.assertIn(tank, text(visit("painted-turtle", ["not-eating moderate"], **box), language))


class NeverRests(unittest.TestCase):
    """What is ill and never rests in winter has no ten hours of light in winter: soft bones and shells need the day."""

    def test_an_ill_turtle_has_long_days(self):
        for species in ("painted-turtle", "red-eared-slider", "common-musk-turtle"):
            record = visit(species, ["soft-shell moderate"], visit={"date": "2026-01-12"}, patient={"hatched": "2025-02"})
            self.assertGreaterEqual(plan(record)["uvb"]["hours"], 12, species)
            self.assertLess(plan({**record, "findings": [], "patient": {**record["patient"], "hatched": "2015-02"}})["uvb"]["hours"], 12, species)


class TightToes(unittest.TestCase):
    """The worst ring of skin gets no less than a mild one: a damp hide for the toes, by the veterinarian's own words in a blank, and never "none"."""
    WORDS = (("en", r"damp moss for its toes, in our words: _+ \(empty\? ask us today\)", "no damp hide for now"), ("es", r"musgo húmedo para los dedos, según escribimos: _+ \(¿vacío\? pregunta hoy\)", "No pongas refugio húmedo"),
             ("fr", r"mousse humide pour les doigts, selon nos mots : _+ \(vide \? demandez aujourd'hui\)", "Pas d'abri humide"))

    def test_its_damp_hide_is_asked_for(self):
        record = visit("leopard-gecko", ["stuck-toe-shed severe", "underweight moderate", "dehydrated moderate"])
        self.assertEqual(plan(record)["stances"]["bath"][0]["stance"], "none")
        for language, blank, none in self.WORDS:
            said = text(record, language)
            self.assertRegex(said, blank)
            self.assertNotIn(none, said)

    def test_a_dead_toe_is_not_laid_on_moss(self):
        record = visit("leopard-gecko", ["stuck-toe-shed severe", "toe-death moderate", "underweight moderate"])
        for language, blank, _ in self.WORDS:
            self.assertNotRegex(text(record, language), blank)


class NightOnThePage(unittest.TestCase):
    """A step raises the warm place at night: its reading says "warmer", and not "ask before you change it"; without such a step it is asked of."""
    ASK = (("en", "24, ask us today"), ("es", "24, llama hoy"), ("fr", "24, demandez"))
    HEAT = {"heat": [{"kind": "mat", "power": "20 W", "thermostat": True, "guard": True}], "thermostat": True, "heat-guard": True}

    def box(self, day, **heat):
        return {"readings": {"basking-surface": "32 C", "warm-side": day, "cool-side": "24 C", "night": "23 C", "night-warm-side": "24 C"}, **self.HEAT, **heat}

    def test_what_a_step_raises_is_not_asked_of(self):
        """The step that warms the place, and the one that keeps it warm."""
        for day, found in (("25 C", ["vomited moderate", "weight-falling moderate"]), ("29 C", ["bite-wound moderate"])):
            record = visit("western-hognose", found, enclosure=self.box(day))
            for language, ask in self.ASK:
                self.assertNotIn(ask, text(record, language), day)

    def test_without_a_step_it_is_asked_of(self):
        """Too warm by night: nothing here turns it down, so nobody changes it before a call."""
        box = self.box("29 C")
        box["readings"]["night-warm-side"] = "33 C"
        record = visit("western-hognose", ["bite-wound moderate"], enclosure=box)
        for language, ask in self.ASK:
            self.assertIn(ask.replace("24", "33"), text(record, language))

    def test_without_a_heater_the_step_says_which_one_to_put_in(self):
        record = visit("western-hognose", ["bite-wound moderate"], enclosure=self.box("29 C", heat=[{"kind": "none"}]))
        self.assertIn("action.warm-night.how-none", [one["printed"] for one in plan(record)["instructions"]])
        for language, ask in self.ASK:
            self.assertNotIn(ask, text(record, language))


class TwoInOneBox(unittest.TestCase):
    """Parted tonight, nobody watches for a bite until then; a tub without a warm end keeps no second animal."""
    BOX = {"animals": 2, "readings": {"warm-side": "27 C", "cool-side": "22 C"}}
    UNTIL = (("en", "Watch them until then", "one end at"), ("es", "Vigílalos hasta entonces", "con un extremo a"), ("fr", "Surveillez-les jusque-là", "un bout à"))

    def test_who_is_parted_tonight_is_not_watched_until_then(self):
        for found in ("mites moderate", "bite-wound moderate"):
            record = visit("corn-snake", [found], enclosure={**self.BOX, "mates": ["corn-snake"]})
            for language, until, warm in self.UNTIL:
                said = text(record, language)
                self.assertNotIn(until, said)
                self.assertRegex(said, f"2[25]–2[58] °C, {warm} 2[0-9.,]+–")

    def test_who_waits_for_a_box_is_watched(self):
        record = visit("crested-gecko", enclosure={**self.BOX, "males": 2, "mates": ["crested-gecko"]})
        for language, until, _ in self.UNTIL:
            self.assertIn(until, text(record, language))


class TrimmedClaws(unittest.TestCase):
    """A well tortoise whose claws were cut keeps its floor: "the box needs no change" stands on the same sheet."""
    WORDS = (("en", "loose floor", "If a claw bleeds, lay dry paper"), ("es", "suelo suelto", "Si una uña sangra, pon papel seco"), ("fr", "sol meuble", "Si une griffe saigne, mettez du papier sec"))

    def test_its_floor_stays(self):
        record = visit("leopard-tortoise", done_today=["nail-trim"], enclosure={"substrate": "soil"})
        self.assertEqual([one["stance"] for one in plan(record)["stances"]["floor"]], ["usual"])
        for language, floor, bleeds in self.WORDS:
            said = text(record, language)
            self.assertNotIn(floor, said)
            self.assertIn(bleeds, said)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1] + sys.argv[2:])
