#!/usr/bin/env python3
"""What a keeper is told of the heat as it is built: by the kind of each source, by day and by night. Written by hand from the clinical table
(a mercury-vapour lamp is never dimmed and takes its heat along, a hot rock is a danger by itself, no thermostat for what has no heater);
common practice, no source."""
import json
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM, WRITE_PLAIN = (Path(argument).resolve() for argument in sys.argv[1:3])
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-20"


def visit(species, *kinds, readings=None, lamp=None, findings=(), **flags):
    box = {"heat": [{"kind": kind, **flags} for kind in kinds], "readings": readings or {}, **({"lamp": {"kind": lamp}} if lamp else {})}
    return {"visit": {"date": TODAY, "kind": "reading", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species},
            "enclosure": box, "findings": [{"code": code} for code in findings]}


def made(record, **more):
    done = subprocess.run([PROGRAM, "explain", "--json", "-", "--today", TODAY], input=json.dumps({**record, **more}), capture_output=True, text=True, cwd=ROOT)
    if done.returncode:
        raise AssertionError(done.stderr)
    return json.loads(done.stdout)


def actions(record, **more):
    return [one["code"] for one in made(record, **more)["actions"]]


def sheet(record, kind="checkout", lang="en"):
    """The sheet as text: both pages of the one that hangs, or another kind."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "visit.yaml"
        path.write_text(json.dumps({**record, "visit": {**record["visit"], "kind": kind}}))
        done = subprocess.run([WRITE_PLAIN, ROOT, path, TODAY, lang, "whole"], capture_output=True, text=True)
    if done.returncode:
        raise AssertionError(done.stderr)
    return done.stdout


ONE_LAMP, DOWN_LAMP, DOWN_MAT, DOWN_HEATER = "Lift or dim the lamp", "Lift or dim a lamp", "mat's thermostat down", "heater's thermostat down"
UP_ANY, UP_MAT, UP_HEATER = "Turn up the heat", "mat's thermostat up", "heater's thermostat up"
WEAKER_BULB = "Lift the lamp, or put in a weaker bulb"
NO_DIMMING, NEW_HEATER, NEW_LAMP = "[Nn]ever dim", "Put in a guarded heater", "Hang a guarded lamp"
TURNED = (ONE_LAMP, WEAKER_BULB, DOWN_LAMP, DOWN_MAT, DOWN_HEATER, UP_ANY, UP_MAT, UP_HEATER, NO_DIMMING, NEW_HEATER, NEW_LAMP, "Turn the heat (lamp )?(up|down)", "Turn the day lamps off",
          "Use heat without light, or warm the room at night, and read")


RED = {"en": "Leave no lamp on at night but the red", "es": "deja encendida solo la lámpara roja", "fr": "ne laissez allumée que la lampe rouge"}


class Kinds(unittest.TestCase):
    def how(self, wanted, record):
        """This is said of the heat, and nothing of what is not there."""
        text = sheet(record)
        for phrase in {wanted, *TURNED}:
            if phrase == DOWN_MAT and wanted == DOWN_LAMP:
                continue  # one sentence holds both
            self.assertEqual(bool(re.search(phrase, text)), phrase == wanted, f"{phrase}: {record['enclosure']}\n{text}")

    def test_a_frog_under_a_lamp_that_heats_has_no_basking_spot(self):
        for species in ("whites-tree-frog", "fire-bellied-toad"):
            old = visit(species, "mercury-vapour", lamp="mercury-vapour")
            old["enclosure"]["lamp"].update({"installed": "2023-01-01", "height": "40 cm"})
            self.assertIn("change-lamp", actions(old))
            for lang, word in (("en", "bask"), ("es", "asole"), ("fr", "point chaud")):
                self.assertNotIn(word, sheet(old, lang=lang))

    def test_by_day(self):
        for kinds, lamp, cool, warm in (
                (("lamp",), None, ONE_LAMP, UP_ANY), (("mat",), None, DOWN_MAT, UP_MAT), (("ceramic",), None, DOWN_HEATER, UP_HEATER),
                (("mercury-vapour",), None, NO_DIMMING, NO_DIMMING), ((), "mercury-vapour", NO_DIMMING, NO_DIMMING),
                (("lamp", "mercury-vapour"), None, NO_DIMMING, "(?s)Turn up the other heat.*Never dim"), (("none",), None, DOWN_LAMP, NEW_LAMP)):
            self.how(cool, visit("bearded-dragon", *kinds, readings={"basking-surface": "46 C"}, lamp=lamp))
            if not warm.startswith("(?s)"):
                self.how(warm, visit("bearded-dragon", *kinds, readings={"basking-surface": "28 C"}, lamp=lamp))
            else:
                self.assertRegex(sheet(visit("bearded-dragon", *kinds, readings={"basking-surface": "28 C"}, lamp=lamp)), warm)

    def test_the_warm_side(self):
        for kinds, lamp, cool, warm in (
                (("lamp",), None, WEAKER_BULB, "Turn the heat (lamp )?(up|down)"), (("mat",), None, DOWN_MAT, "Turn the heat (lamp )?(up|down)"),
                (("mercury-vapour",), None, NO_DIMMING, NO_DIMMING), ((), "mercury-vapour", NO_DIMMING, NO_DIMMING),
                (("mat", "mercury-vapour"), None, NO_DIMMING, NO_DIMMING), (("none",), None, "Turn the heat (lamp )?(up|down)", NEW_HEATER)):
            self.how(cool, visit("bearded-dragon", *kinds, readings={"warm-side": "38 C"}, lamp=lamp))
            self.how(warm, visit("bearded-dragon", *kinds, readings={"warm-side": "22 C"}, lamp=lamp))
            self.how(warm, visit("bearded-dragon", *kinds, readings={"warm-side": "22 C"}, lamp=lamp, findings=["airway-infection"]))

    def test_by_night(self):
        off, without = "Turn the day lamps off", "Use heat without light, or warm the room at night, and read"
        for kinds, cool, warm in ((("lamp",), off, without), (("mat",), DOWN_HEATER, UP_HEATER), (("ceramic", "mat"), DOWN_HEATER, UP_HEATER),
                                  (("lamp", "mat"), off, without), (("none",), off, NEW_HEATER)):
            self.how(cool, visit("leopard-gecko", *kinds, readings={"night": "29 C"}))
            self.how(warm, visit("leopard-gecko", *kinds, readings={"night": "14 C"}))

    def test_the_heater_that_is_safe_is_turned_up(self):
        """One of two has its guard and its thermostat: that one warms tonight, the other waits; a box whose yes stands for all its heat tells
        no heater from another (common practice, no source)."""
        safe = {"kind": "ceramic", "thermostat": True, "guard": True}
        for heat, wanted in (([{"kind": "lamp", "thermostat": False, "guard": False}, safe], True), ([{"kind": "lamp", "thermostat": False, "guard": False}, {**safe, "guard": False}], False),
                             ([{"kind": "lamp", "thermostat": False, "guard": False}, {**safe, "thermostat": False}], False),
                             ([{"kind": "ceramic", "thermostat": False, "guard": False}, {"kind": "mat", "thermostat": True, "guard": True}], False)):
            for place in ("night", "warm-side"):
                record = visit("bearded-dragon", readings={place: "15 C"}, findings=["airway-infection"])
                record["enclosure"]["heat"] = heat
                text = sheet(record)
                self.assertEqual("Turn up only the heater that has its guard and thermostat" in text, wanted, (place, heat))
                waits = re.search("only once it has a guard and a thermostat|[Pp]ut in a (guard|thermostat)", text)
                self.assertEqual(bool(waits), not wanted, (place, heat))

    def test_a_night_that_no_heater_may_warm_goes_as_near_as_it_can(self):
        """No number that a well one would do with stands in for the ill one's: the room goes as near to it as it can (common practice, no source)."""
        record = visit("boa-constrictor", readings={"night": "18 C", "warm-side": "31 C", "cool-side": "28 C"}, findings=["airway-infection"])
        for kind, wanted in (("lamp", "Until then warm the room, as near to that as it goes"),
                             ("ceramic", "Warm the room at night, as near to that as it goes. Put in a guard and a thermostat")):
            record["enclosure"]["heat"] = [{"kind": kind, "thermostat": False, "guard": False}]
            text = sheet(record)
            self.assertIn(wanted, text)
            self.assertNotRegex(text, "at least")

    def test_a_lamp_that_is_changed_is_no_reason_to_turn_others_down_yet(self):
        """A mercury-vapour lamp too strong at any height goes off and takes its heat along: read again before the other heat is turned down."""
        box = {"readings": {"basking-surface": "41 C"}, "size": "150 x 80 x 50 cm",
               "lamp": {"kind": "mercury-vapour", "measured": {"uvi": 6.5, "at": "40 cm"}, "installed": "2026-01-01", "height": "40 cm"}}
        for heat, wanted in (([{"kind": "lamp"}], "Turn the other heat down only if it is still too hot"), ([], "ask us if it is still too hot")):
            record = visit("red-footed-tortoise")
            record["enclosure"] = {**box, "heat": heat}
            text = sheet(record)
            self.assertIn("First set the UVB lamp as this sheet says", text)
            self.assertIn(wanted, text)
            self.assertNotRegex(text, "Turn the other heat down first|Make more room below it")

    def test_what_burned_is_off_for_every_place_that_is_too_hot(self):
        """One order for the mat, its number in the drawing at the first place that it changes, and nobody is asked about the other (common
        practice, no source)."""
        burnt = visit("kenyan-sand-boa", "mat", readings={"basking-surface": "41 C", "warm-side": "35 C"}, findings=["burn"])
        text = sheet(burnt)
        self.assertIn("Unplug the mat", text)
        self.assertNotRegex(text, DOWN_MAT)
        self.assertEqual(re.findall(r"(?m)^1\.\n(.*)\.\n", text.split("The smallest box")[1]), ["Basking spot"])
        self.assertRegex(text.replace("\u00a0", " "), r"(?m)^Basking spot\.\n32–35 °C\.\nnow 41\.\nWarm side\.\n29–31 °C\.\nnow 35\.$")

    def test_what_burned_is_not_turned_up(self):
        """The mat is unplugged until the burn is healed: another heater warms in its place."""
        for place, cold, wanted in (("basking-surface", "22 C", NEW_LAMP), ("warm-side", "22 C", NEW_HEATER), ("night", "14 C", NEW_HEATER)):
            self.how(wanted, visit("leopard-gecko", "mat", readings={place: cold}, findings=["burn"]))

    def test_what_may_have_burned_is_not_turned_down(self):
        """A mat beside a lamp: the mat goes, and the lamp does not burn on for an hour over the burnt animal until somebody measures."""
        for kind, wanted in (("lamp", "Lift or dim the lamp now, and measure the surface after one hour. Still too hot\\? Turn it off, and on again only with a guard and a thermostat"), ("mercury-vapour", NO_DIMMING)):
            text = sheet(visit("ball-python", "mat", kind, readings={"basking-surface": "40 C"}, findings=["burn"], guard=False))
            self.assertIn("Unplug the mat", text)
            self.assertRegex(re.sub(r"\s+", " ", text), wanted)
            self.assertNotIn("only if it is still too hot", text if kind == "lamp" else "")
            self.assertNotRegex(text, DOWN_MAT)

    def test_no_light_warms_the_night(self):
        """Heat of a dark night gives no light (the clinical table, 4.1: heat without light under a thermostat): a lamp that has no guard is
        not turned up for it, whatever other heat there is."""
        for species, findings in (("hermanns-tortoise", ["nose-discharge"]), ("leopard-gecko", [])):
            for kinds, off in ((("lamp",), True), (("red-light",), True), (("mercury-vapour",), True), (("lamp", "mat"), False), (("ceramic",), False)):
                record = visit(species, *kinds, readings={"night": "12 C"}, findings=findings, guard=False, thermostat=False)
                for lang, dark, lamp in (("en", "without light", "Leave no lamp on at night."), ("es", "sin luz", "No dejes ninguna lámpara encendida de noche"),
                                         ("fr", "sans lumière", "Ne laissez aucune lampe allumée la nuit")):
                    told = re.sub(r"\s+", " ", sheet(record, lang=lang))
                    self.assertIn(dark, told, (kinds, lang))
                    self.assertEqual(lamp in told, off and kinds != ("red-light",), (kinds, lang))
                    self.assertEqual(RED[lang] in told, kinds == ("red-light",), (kinds, lang))  # it is all the night's warmth

    def test_words(self):
        """What the code above stands for: no lamp of mercury vapour is told to be dimmed, no heater that is not there to be turned up."""
        for lang, never, turn in (("en", "[Nn]ever dim", "[Tt]urn"), ("es", "[Nn]unca atenúes", r"\b[Ss]ube|\b[Bb]aja "), ("fr", "[Jj]amais", r"\b[Mm]ontez|\b[Bb]aissez")):
            words = (ROOT / f"templates/wording/{lang}/actions.yaml").read_text()
            for line in re.findall(r"^action\.[a-z-]+\.how-(?:with-)?mercury: .*", words, re.M):
                if "hang-lamp-at" not in line and "change-lamp" not in line:
                    self.assertRegex(line, never)
            for line in re.findall(r"^action\.[a-z-]+\.how-none: .*", words, re.M):
                self.assertNotRegex(line, turn)


class Dangers(unittest.TestCase):
    def test_hot_rock(self):
        safe = visit("ball-python", "hot-rock", thermostat=True, guard=True)
        self.assertIn("unplug-hot-rock", actions(safe))
        self.assertNotIn("unplug-hot-rock", actions(visit("ball-python", "mat", thermostat=True)))
        burnt = visit("ball-python", "hot-rock", findings=["burn"])
        self.assertIn("Unplug the hot rock", sheet(burnt))
        self.assertNotIn("Unplug the mat", sheet(burnt))
        self.assertEqual(actions(burnt)[0], "unplug-hot-rock")
        weak = visit("bearded-dragon", "hot-rock", "lamp", guard=False, findings=["weak-grip"], readings={"basking-surface": "32 C"})
        codes = actions(weak)
        self.assertEqual(codes[:2], ["unplug-hot-rock", "guard-the-heat"])  # what lies on it cannot leave it
        self.assertLess(codes.index("guard-the-heat"), codes.index("warm-basking"))  # no bare lamp is turned up
        bought = {one["code"]: one["tonight"] for one in made(visit("bearded-dragon", "hot-rock", guard=True, thermostat=False, findings=["weak-grip"]))["actions"]}
        self.assertEqual(list(bought)[:2], ["unplug-hot-rock", "add-thermostat"])  # what takes its place is on one tonight
        self.assertTrue(bought["add-thermostat"])
        both = visit("bearded-dragon", "hot-rock", "lamp", guard=False, findings=["burn"])  # the rock goes before a guard is bought
        self.assertEqual(actions(both)[:2], ["unplug-hot-rock", "guard-the-heat"])

    def test_a_rock_beside_another_heater_is_not_the_only_one(self):
        """The clinical table, settlement 117: a veterinarian is asked for a safe source tonight where the hot rock was all the heat there is."""
        for kinds, asked in ((["hot-rock"], True), (["hot-rock", "ceramic"], False), (["lamp", "hot-rock"], False), (["ceramic"], False)):
            plan = made(visit("ball-python", *kinds, findings=["burn"]))
            self.assertEqual("burnt-by-the-only-heat" in json.dumps(plan["review"]), asked, kinds)
            self.assertEqual(plan["stances"]["warmth-night"][0]["stance"], "no-drop", kinds)

    def test_a_rock_that_goes_names_no_heater_that_is_not_there(self):
        """Beside a hot rock the lamp is the heat that stays: nothing is said of a mat that nobody has."""
        for kind, said, never in (("lamp", ONE_LAMP, "mat"), ("mat", DOWN_MAT, "lamp"), ("ceramic", DOWN_HEATER, "mat")):
            text = " ".join(sheet(visit("bearded-dragon", kind, "hot-rock", readings={"basking-surface": "47 C"})).split())
            said_of_it = re.search(r"(?i)(bring the basking spot down|cool the basking spot).*?measure (the surface|on top)", text)[0]
            self.assertIn(said, said_of_it, kind)
            self.assertNotRegex(said_of_it, rf"\b{never}\b", kind)

    def test_the_only_heat_is_covered_and_not_unplugged(self):
        """A thin gecko in a room of 19 C lies on a mat of 37 C without a thermostat: unplugged it spends the night in the cold. A tile or paper lies
        between the two, measured, and a thermostat is due tonight; before the air is made wetter (a veterinarian's reading, no source)."""
        cold = {"basking-surface": "37 C", "warm-side": "26 C", "cool-side": "22 C", "night": "18 C", "room": "19 C", "humidity": "28 %", "humidity-at": "cool-side"}
        record = visit("leopard-gecko", "mat", readings=cold, thermostat=False, guard=True)
        record["findings"] = [{"code": "thin-tail", "severity": "moderate"}, {"code": "stuck-toe-shed", "severity": "mild"}]
        for lang, kept, unplug, first in (("en", "lay a tile or several layers of paper", "or unplug", "unplug it and call 555-0142 now (closed: 555-0199)"),
                                          ("es", "una baldosa o varias capas de papel", "o desenchúfala", "Desenchúfala y llama ya al 555-0142 (cerrado: 555-0199)"),
                                          ("fr", "un carreau ou plusieurs couches de papier", "ou débranchez", "Débranchez-le et appelez vite le 555-0142 (fermé : 555-0199)")):
            text = " ".join(sheet(record, lang=lang).split())
            self.assertIn(kept, text)
            self.assertIn(first, text)
            self.assertNotIn(unplug, text)
        plan = made(record)["actions"]
        order = [one["code"] for one in plan]
        self.assertTrue(next(one for one in plan if one["code"] == "add-thermostat")["tonight"])
        self.assertLess(order.index("cool-basking"), order.index("raise-humidity"))
        # one with a thermostat is turned down, and nothing is laid on it; who cannot move off it lies on none
        safe = {**record, "enclosure": {**record["enclosure"], "heat": [{"kind": "mat", "thermostat": True, "guard": True}]}}
        self.assertIn("Turn the mat's thermostat down. Measure the surface", " ".join(sheet(safe).split()))
        self.assertNotIn("a tile or several layers", sheet(safe))
        weak = sheet({**record, "findings": [{"code": "weak-grip", "severity": "moderate"}]})
        self.assertIn("unplug it, warm the room to 25", weak.replace("\u00a0", " "))
        self.assertNotIn("a tile or several layers", weak)

    def test_a_mat_that_is_off_gets_no_thermostat(self):
        """A burnt boa wakes from its sedation: its mat is off until the burn is healed, and only the lamp that stays goes on a thermostat. Of mat and
        lamp one order cools the spot and the warm side, and one warms the night (a veterinarian's reading, no source)."""
        record = visit("boa-constrictor", readings={"basking-surface": "48 C", "warm-side": "33 C", "cool-side": "27 C", "night": "24 C"}, findings=["burn"])
        record["enclosure"]["heat"] = [{"kind": kind, "thermostat": False, "guard": False} for kind in ("mat", "lamp")]
        record["findings"], record["done-today"] = [{"code": "burn", "severity": "moderate"}], ["sedation"]
        for lang, never in (("en", "heat mat on a thermostat"), ("es", "manta (térmica )?en un termostato"), ("fr", "tapis (chauffant )?sur (un )?thermostat")):
            text = sheet(record, lang=lang)
            self.assertNotRegex(text, never)
        text = " ".join(sheet(record).split())
        self.assertNotIn("by night a guarded heater", text)
        self.assertNotIn("the heat that made it is still there", text)
        self.assertEqual(len(re.findall("(?i)guarded heater without light", text)), 1, text)
        codes = actions(record)
        self.assertIn("cool-basking", codes)
        self.assertNotIn("cool-warm-side", codes)

    def test_the_warm_place_by_night_is_written_down_too(self):
        """It was ordered at 26-28 C and had no row in the table of readings; a chameleon sleeps as warm everywhere and needs no second one."""
        cold = {"warm-side": "21 C", "cool-side": "13 C", "night": "7 C"}
        for species, lines in (("hermanns-tortoise", 1), ("panther-chameleon", 0)):
            record = {**visit(species, readings=cold), "findings": [{"code": "airway-infection", "severity": "moderate"}]}
            for lang, word in (("en", "Night, warm end"), ("es", "Noche, cálido"), ("fr", "Nuit, côté chaud")):
                rows = sheet(record, lang=lang).replace("\u00a0", " ").split({"en": ": read", "es": ": lee", "fr": " : lisez"}[lang], 1)[1]
                self.assertEqual(rows.count(word), lines, (species, lang))

    def test_where_it_wakes_is_as_warm_as_its_night(self):
        """"A warm place" had no number; what was read at the branch stays on the page as that, and nobody says how far a lamp hangs from one that
        was brought lower (a veterinarian's reading, no source)."""
        record = visit("chinese-water-dragon", "lamp", thermostat=True, guard=True, readings={"basking-surface": "33 C", "warm-side": "28 C", "cool-side": "24 C", "night": "20 C"})
        record["enclosure"].update({"size": "120 x 60 x 120 cm", "platform-height": "70 cm", "back-height": "5 cm",
                                    "lamp": {"kind": "tube", "measured": {"uvi": 2.4, "at": "35 cm", "through-mesh": True}, "installed": "2026-01-01", "height": "35 cm", "hours": 12}})
        record["patient"]["length"], record["done-today"] = "22 cm", ["surgery", "sedation"]
        for lang, warm, higher, hangs in (("en", "warm (27\u201328.5 °C)", "was 33 higher up, now", "now 35 cm"), ("es", "tibio (27\u201328,5 °C)", "arriba 33, ahora", "ahora 35 cm"),
                                          ("fr", "tiède (27\u201328,5 °C)", "en haut 33, maintenant", "maintenant 35 cm")):
            text = " ".join(sheet(record, lang=lang).replace("\u00a0", " ").split())
            self.assertIn(warm, text)
            self.assertIn(higher, text)
            self.assertNotIn(hangs, text)

    def test_the_cool_side_ends_where_the_warm_side_begins(self):
        """A boa's cool end is lifted to 28 C, the lowest of its zone (the clinical table): never as warm as the warm side beside it, by day or by
        night, while that keeps its usual band."""
        for species in ("boa-constrictor", "corn-snake", "leopard-gecko", "ball-python"):
            band = {one["zone"]: one["target"] for one in made(visit(species, findings=["burn"]))["temperature"]}
            for place in ("cool-side", "night"):
                self.assertLessEqual(band[place][1], band["warm-side"][0], (species, place))

    def test_a_night_that_is_too_warm_over_a_mat_without_a_thermostat(self):
        for lang, words in (("en", "or unplug a heater that has none"), ("es", "Si no tiene, desenchúfalo"), ("fr", "S'il n'en a pas, débranchez-le")):
            text = " ".join(sheet(visit("whites-tree-frog", "mat", thermostat=False, readings={"night": "28 C"}), lang=lang).split())
            self.assertIn(words, text)

    def test_the_night_has_its_own_number_in_the_row(self):
        """An ill tortoise's warm side: 28-30 C by day and 26-28 C by night, said in the step, as the strip below says it; and a meter at its edge
        adds no third number: the step that warms the place has said how far (readers took one number for both)."""
        words = {"en": ("At night: 26–28 °C", "the warm side to 29 °C by day"), "es": ("De noche: 26–28 °C", "de día el lado cálido a 29 °C"), "fr": ("La nuit : 26–28 °C", "le côté chaud à 29 °C le jour")}
        for lang, (night, by_day) in words.items():
            for reading, kinds, more in (("25 C", ("ceramic",), {}), ("29 C", ("ceramic",), {}), ("25 C", ("none",), {}), ("25 C", ("mercury-vapour",), {}), ("25 C", ("ceramic",), {"guard": False})):
                record = visit("hermanns-tortoise", *kinds, readings={"warm-side": reading}, findings=["airway-infection"], **more)
                record["findings"][0]["severity"] = "moderate"
                text = " ".join(sheet(record, lang=lang).split())
                self.assertIn(night, text, (lang, reading, kinds))
                self.assertNotRegex(text, "night's number|valor de la noche|chiffre de la nuit")
            record["enclosure"] = {"heat": [{"kind": "ceramic", "thermostat": True, "guard": True}], "readings": {"warm-side": "27.9 C"}}
            self.assertNotIn(by_day, " ".join(sheet(record, lang=lang).split()))

    def test_no_hand_is_laid_on_what_may_burn_it(self):
        """Where a burn has no known cause the hand comes from above first (common practice, no source)."""
        for lang, first, then in (("en", "hold your hand above", "lay it there only if"), ("es", "acerca la mano desde arriba", "Apóyala solo si"), ("fr", "approchez la main par-dessus", "Posez-la seulement si")):
            text = " ".join(sheet(visit("corn-snake", "lamp", thermostat=True, guard=True, findings=["burn"]), lang=lang).split())
            self.assertIn(first, text)
            self.assertGreater(text.index(then), text.index(first))

    def test_an_ill_animals_cold_night_waits_one_day_wherever_it_stands(self):
        """Behind three other steps the night that an ill lizard needs warm had three days, where a snake's had one (a reader's finding)."""
        for findings, days in ((["tremor", "weak-grip", "airway-infection"], "Sat 21 Mar"), ([], "Mon 23 Mar")):
            record = visit("giant-day-gecko", "lamp", thermostat=False, guard=False, readings={"night": "15 C", "warm-side": "28 C", "cool-side": "25 C", "basking-surface": "32 C"}, findings=findings)
            record["findings"] = [{**one, "severity": "severe"} for one in record["findings"]]
            self.assertIn(f"Not right by {days}", " ".join(sheet(record).split()), findings)

    def test_a_hot_rock_alone_is_not_turned_down(self):
        """Nothing is to be lifted or turned that is not there: the rock goes, and what comes in its place has the number of the spot."""
        for readings in ({"basking-surface": "40 C"}, {"warm-side": "37 C"}):
            for findings in ([], ["burn"]):
                text = sheet(visit("ball-python", "hot-rock", readings=readings, findings=findings))
                self.assertIn("Unplug the hot rock", text)
                self.assertRegex(text, r"By\s+day\s+use[^.]+in its\s+place\s+\(\d")  # not the night's number
                self.assertRegex(text, r"night\s+use\s+one\s+without\s+light,\s+at\s+the\s+night's\s+numbers")
                self.assertEqual("The box is too hot" in text, not findings)
                self.assertNotRegex(text, "|".join(TURNED))

    def test_a_mate_of_another_kind_is_not_kept_at_the_patients_numbers(self):
        """A toad's cool side is a tree frog's cold: the number is of the patient's kind alone."""
        for mates, is_told in ((["fire-bellied-toad"], True), (["fire-bellied-toad", "whites-tree-frog"], False), (["whites-tree-frog"], False)):
            toad = visit("fire-bellied-toad", "lamp", findings=["chytrid"])
            toad["enclosure"] |= {"animals": 1 + len(mates), "mates": mates}
            text = re.sub(r"\s+", " ", sheet(toad))
            step = re.search(r"Tonight move the other.*?second box", text)[0]
            self.assertEqual(" °C" in step, is_told, step)
            self.assertEqual("its own sheet says (ask us)" in step, not is_told, step)

    def test_a_cold_night_does_not_turn_a_cold_side_down(self):
        """Night up and basking spot down: the side that calls for neither is judged by itself (the clinical table, heat is of parts)."""
        for side, stance in (("27 C", "raise"), ("31 C", "hold"), ("36 C", "lower")):
            plan = made(visit("ball-python", "lamp", readings={"night": "19 C", "basking-surface": "40 C", "warm-side": side}))
            now = {topic: phases[0]["stance"] for topic, phases in plan["stances"].items() if topic.startswith("heat.")}
            self.assertEqual((now["heat.night"], now["heat.basking-surface"], now.get("heat.warm-side", "hold")), ("raise", "lower", stance), side)

    def test_red_light(self):
        self.assertIn("change-red-light", actions(visit("ball-python", "red-light", thermostat=True, guard=True)))
        self.assertNotIn("change-red-light", actions(visit("ball-python", "ceramic", thermostat=True, guard=True)))
        # it stays until the night is warm without it: the night comes first
        cold = actions(visit("ball-python", "red-light", thermostat=True, guard=True, readings={"night": "18 C"}))
        self.assertLess(cold.index("warm-night"), cold.index("change-red-light"))
        # an axolotl is never heated: nothing is to be hung in its place
        self.assertNotIn("change-red-light", actions(visit("axolotl", "red-light", thermostat=True, guard=True)))

    def test_gone_by_the_next_visit(self):
        with tempfile.TemporaryDirectory() as folder:
            before = visit("ball-python", "hot-rock", "red-light", thermostat=True, guard=True)
            before["visit"]["date"] = "2026-02-20"
            (Path(folder) / "before.yaml").write_text(json.dumps(before))
            for kinds, outcome in (((), "unknown"), (("mat",), "done"), (("mat", "hot-rock", "red-light"), "still")):
                now = visit("ball-python", *kinds, thermostat=True, guard=True)
                now["visit"]["previous"] = "before.yaml"
                path = Path(folder) / "now.yaml"
                path.write_text(json.dumps(now))
                done = subprocess.run([PROGRAM, "explain", "--json", path, "--today", TODAY], capture_output=True, text=True, cwd=ROOT, check=True)
                was = {one["code"]: one["outcome"] for one in json.loads(done.stdout)["since_last"]["actions"]}
                self.assertEqual(was, {"unplug-hot-rock": outcome, "change-red-light": outcome}, kinds)

    def test_nothing_to_control_or_to_guard(self):
        for kind, bad in (("none", set()), ("lamp", {"add-thermostat", "guard-the-heat"}), ("mat", {"add-thermostat"})):
            record = visit("crested-gecko", kind)
            record["enclosure"].update({"thermostat": False, "heat-guard": False})
            self.assertEqual(set(actions(record)) & {"add-thermostat", "guard-the-heat"}, bad, kind)
        record["enclosure"]["lamp"] = {"kind": "mercury-vapour"}
        self.assertIn("guard-the-heat", actions(record))


class SafeHeatFirst(unittest.TestCase):
    """What makes heat safe stands before what turns it up, and there it is not named again; where one of both is there, or page one has no
    room for them, a row names what is missing."""
    COLD = {"basking-surface": "32 C", "warm-side": "32 C", "cool-side": "26 C", "night": "21 C", "humidity": "35 %"}
    NAMED = {"en": ("First put in a guard and a thermostat", "First put in the guard and the thermostat", "Put a guard on the heat.", "Add a thermostat."),
             "es": ("Primero pon una rejilla y un termostato", "Primero pon la rejilla y el termostato", "Pon rejilla al calor.", "Pon un termostato."),
             "fr": ("D'abord, mettez une grille et un thermostat", "D'abord, mettez la grille et le thermostat", "Mettez une grille au chauffage.", "Ajoutez un thermostat.")}

    def read(self, lang, findings=("soft-jaw", "weak-grip", "dehydrated"), **box):
        record = visit("bearded-dragon", "lamp", readings=self.COLD, findings=findings)
        lamp = {"kind": "tube", "installed": "2025-01-20", "height": "30 cm"}
        record["enclosure"].update({"thermostat": False, "heat-guard": False, "size": "45 x 45 x 80 cm", "platform-height": "55 cm", "lamp": lamp, **box})
        return " ".join(sheet(record, lang=lang).split())

    def test_both_are_named_once_before_they_are_asked_for(self):
        for lang, (named, both, guard, thermostat) in self.NAMED.items():
            text = self.read(lang)
            self.assertNotIn(named, text, lang)
            self.assertEqual(text.count(both), 1, lang)
            self.assertLess(max(text.index(guard), text.index(thermostat)), text.index(both), lang)

    def test_one_of_them_is_named(self):
        text = self.read("en", **{"heat-guard": True})
        self.assertNotIn("the guard and the thermostat", text)
        self.assertEqual(text.count("First put in a thermostat"), 1)

    def test_a_row_of_page_one_names_them(self):
        text = self.read("en", findings=())
        self.assertEqual((text.count("First put in a guard and a thermostat"), text.count("the guard and the thermostat")), (1, 0))

    def test_a_row_names_them_and_a_list_does_not(self):
        text = self.read("en", findings=("soft-jaw", "weak-grip", "mouth-inflammation"), readings={**self.COLD, "warm-side": "25 C"})
        self.assertEqual((text.count("First put in a guard and a thermostat"), text.count("First put in the guard and the thermostat")), (1, 1))


class OnlyForTheIll(unittest.TestCase):
    """A night that is right for a well animal, raised by what was found: nobody is told that the box is too cold. The bands of the
    species sheet: 16-21 C by night, 21-26 C at the cool end (box turtle)."""

    def read(self, code, severity, night, kind="checkout"):
        record = visit("eastern-box-turtle", "lamp", readings={"warm-side": "27 C", "cool-side": "22 C", "night": night})
        return " ".join(sheet({**record, "findings": [{"code": code, "severity": severity}]}, kind).split())

    def test_a_night_that_fits_a_well_animal(self):
        for code in ("underweight", "not-eating", "gravid", "after-laying"):
            text = self.read(code, "mild", "18 C")
            self.assertNotIn("The box is too cold", text, code)
            self.assertRegex(text.lower(), "keep the night warmer|warm the cool end at night", code)

    def test_a_night_that_no_animal_should_have(self):
        for code in ("underweight", "gravid"):
            self.assertIn("The box is too cold", self.read(code, "mild", "11 C"), code)

    def test_why(self):
        blamed = "cold nights make it ill"
        self.assertNotIn(blamed, self.read("airway-infection", "moderate", "18 C", "reading"))
        self.assertIn("A warm night helps it now", self.read("airway-infection", "moderate", "18 C", "reading"))
        self.assertIn(blamed, self.read("not-eating", "mild", "11 C", "reading"))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
