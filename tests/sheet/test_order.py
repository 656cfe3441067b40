#!/usr/bin/env python3
"""The order of actions: harm, how far outside, and what the findings make of it. Common practice, no source: a disease comes before
the setting of a heater, a tenth of a degree is no reason to change anything first, and soft bones make every fault of the light graver."""
import json
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path


sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "program"))
import test_generated  # noqa: E402

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-16"
RULES = read_yaml((ROOT / "templates/rules.yaml").read_text())["rules"]
HEATERS = {rule["do"] for rule in RULES.values() if rule.get("heater")}
DISEASES = {rule["do"] for rule in RULES.values() if rule.get("disease")}
SOFT = {"code": "soft-jaw", "severity": "moderate"}
OLD_LAMP = {"lamp": {"kind": "tube", "installed": "2024-10-01"}}


def actions(species, readings, findings, targets=None, **enclosure):
    visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species},
             "keeper": {"name": "Ana"}, "enclosure": {"readings": readings, **enclosure}, "findings": findings, **({"targets": targets} if targets else {})}
    done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)["actions"]


def printed(visit):
    """The text of a sheet, a page each."""
    sheet = subprocess.run([PROGRAM, "sheet", "-", "-o", "-", "--today", TODAY], input=json.dumps(visit).encode(), capture_output=True, check=True, cwd=ROOT).stdout
    text = subprocess.run(["pdftotext", "-raw", "-", "-"], input=sheet, capture_output=True, check=True).stdout.decode().replace("\u00a0", " ")
    return [" ".join(page.split()) for page in text.split("\f")]


def harm_of(found, code):
    return next(one["harm"] for one in found if one["code"] == code)


# what only a sheet may say that asks for no change, and what none may say of one that is ill
NOTHING = {"en": ("Nothing has to change", "change nothing and keep"), "es": ("No hay que cambiar nada", "No cambies nada. Guarda"),
           "fr": ("Il n'y a rien à changer", "Ne changez rien. Gardez")}
CALM = ("Nothing is urgent", "Nothing is clearly wrong")


def verdicts(value):
    if isinstance(value, dict):
        for key, inner in value.items():
            if key.endswith("verdict"):
                yield inner
            yield from verdicts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from verdicts(inner)


def plan_and_words(visit):
    text = json.dumps(visit)
    done = subprocess.run([PROGRAM, "explain", "--json", "--today", "2026-03-20", "-"], input=text, capture_output=True, text=True, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    plan = json.loads(done.stdout)
    if any(one["first"] for one in plan["actions"]):
        return plan, ""  # the list itself stands there
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "sheet.pdf"
        done = subprocess.run([PROGRAM, "sheet", "-", "-o", out, "--today", "2026-03-20"], input=text, capture_output=True, text=True, cwd=ROOT)
        assert done.returncode == 0, done.stderr
        return plan, " ".join(subprocess.run(["pdftotext", out, "-"], capture_output=True, text=True, check=True).stdout.split())


class Called(unittest.TestCase):
    def test_what_a_finding_asks_for_is_its_own_though_it_is_the_usual(self):
        """A gravid snake is kept as warm as ever and that is the finding's word, not nobody's: who signs reads which finding holds it."""
        for findings, because in (([], "default"), ([{"code": "gravid"}], "finding:gravid")):
            visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "ball-python"}, "findings": findings}
            done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT)
            self.assertEqual([(one["stance"], one["because"]) for one in json.loads(done.stdout)["stances"]["warmth-day"]], [("usual", because)])


    def test_a_finding_that_there_is_not_is_never_passed_over(self):
        """Misspelt, it would leave its medicine rules and warnings off the sheet without a word: each is named, wherever it stands."""
        for codes in (["retained-shedd"], ["retained-shed", "burm"], ["burm", "retained-shed"], ["burm", "retained-shedd"]):
            visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "ball-python"},
                     "findings": [{"code": code, "severity": "mild"} for code in codes]}
            done = subprocess.run([PROGRAM, "explain", "--today", TODAY, "-"], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT)
            self.assertEqual(done.returncode, 1, codes)
            for code in codes:
                self.assertEqual(f"'{code}'" in done.stderr, code != "retained-shed", (codes, done.stderr))


class Room(unittest.TestCase):
    """What stands on two pages: the later ones move up before anything is left out, and as little as will do (templates/sheets/checkout.yaml: pages)."""

    def pages(self, record, *words):
        sheet = subprocess.run([PROGRAM, "sheet", "-", "-o", "-", "--today", "2026-03-20", *words], input=record, capture_output=True, check=True, cwd=ROOT).stdout
        text = subprocess.run(["pdftotext", "-raw", "-", "-"], input=sheet, capture_output=True, check=True).stdout.decode().replace("\u00a0", " ")
        return [" ".join(page.split()) for page in text.split("\f") if page.strip()]

    def test_where_the_sources_alone_move_up_no_third_page_is_begun(self):
        """What is normal has gone already; a row of page one, which would stand on the full page two, stays where it is."""
        record = {"visit": {"date": "2026-03-20", "kind": "checkout", "veterinarian": "Dr Ines Calder"},
                  "patient": {"name": "Señora Tortuga de la Cañada", "species": "leopard-tortoise", "mass": "6 kg"}, "keeper": {"language": "en", "units": "metric"},
                  "enclosure": {"readings": {"basking-surface": "36 C", "cool-side": "28 C", "night": "24 C", "humidity": "89 %", "humidity-at": "cool-side"},
                                "lamp": {"kind": "tube", "tube-length": "55 cm", "measured": {"uvi": 3, "at": "30 cm"}, "mesh-loss": "30 %",
                                         "installed": "2025-10-01", "height": "40 cm", "hours": 12}},
                  "findings": [{"code": code, "severity": severity} for code, severity in
                               (("posture", "normal"), ("belly-gas", "moderate"), ("eyes", "normal"), ("airway-infection", "moderate"),
                                ("vitamin-a-deficiency", "severe"))],
                  "done-today": ["blood-sample", "x-ray"], "follow-up": {"recheck": "3 weeks"}}
        self.assertEqual(len(self.pages(json.dumps(record).encode(), "--paper", "letter")), 2)


class Sooner(unittest.TestCase):
    def call_by(self, *findings):
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "bearded-dragon", "mass": "400 g"},
                 "findings": [dict(zip(("code", "severity"), one.split())) for one in findings]}
        sheet = subprocess.run([PROGRAM, "sheet", "-", "-o", "-", "--kind", "reading", "--today", TODAY], input=json.dumps(visit).encode(), capture_output=True, check=True, cwd=ROOT).stdout
        text = " ".join(subprocess.run(["pdftotext", "-raw", "-", "-"], input=sheet, capture_output=True, check=True).stdout.decode().split())
        return set(re.findall(r"no better, by \w+ (\d+ \w+)", text.replace("\u00a0", " ")))

    def test_the_drier_of_two_findings_says_when_to_call(self):
        """Whoever lacks more water calls sooner, whichever of the two was written first."""
        soon, later = self.call_by("dehydrated severe"), self.call_by("sunken-eyes mild")
        self.assertEqual((len(soon), len(later)), (1, 1))
        self.assertNotEqual(soon, later)
        for both in (("dehydrated severe", "sunken-eyes mild"), ("sunken-eyes mild", "dehydrated severe"), ("dehydrated mild", "sunken-eyes severe")):
            self.assertEqual(self.call_by(*both), soon, both)


class Order(unittest.TestCase):
    def test_equipment_does_not_stand_before_the_disease(self):
        """The clinical table: no setting of a heater stands before what a disease asks for (common practice, no source)."""
        found = actions("leopard-gecko", {"warm-side": "26 C", "cool-side": "23 C", "night": "20 C"},
                        [{"code": "underweight", "severity": "severe"}, {"code": "dehydrated", "severity": "moderate"}],
                        heat=[{"kind": "ceramic", "power": "20 W", "thermostat": False, "guard": False}])
        codes = [one["code"] for one in found]
        for before in ("offer-water", "warm-night"):
            for behind in ("guard-the-heat", "add-thermostat"):
                self.assertLess(codes.index(before), codes.index(behind), codes)

    def test_a_turtle_that_floats_reaches_the_air_on_its_feet(self):
        """The clinical table, 85: floating and a sick lung, shallow water, both treated; no heater before it."""
        found = actions("common-musk-turtle", {"water": "19 C", "basking-surface": "26 C"},
                        [{"code": "floating", "severity": "moderate"}, {"code": "airway-infection", "severity": "moderate"}])
        codes = [one["code"] for one in found]
        self.assertLess(codes.index("shallow-water"), codes.index("warm-basking"), codes)

    def test_an_ill_axolotl_leaves_its_fouled_tank_first(self):
        """Into clean water before the tank is mended, where another lives in it too; alone the tank is all it has (common practice, no source)."""
        def plan(**more):
            visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "axolotl"},
                     "water": {"temperature": "17 C", "ammonia": "2 mg/l"}, "findings": [{"code": "fungus-tufts", "severity": "moderate"}], **more}
            done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT)
            return [one["code"] for one in json.loads(done.stdout)["actions"]]
        self.assertEqual(plan(enclosure={"animals": "2"})[:2], ["own-box", "change-part-water"])
        self.assertEqual(plan()[0], "change-part-water")
        self.assertNotIn("own-box", plan())

    def test_loose_floor_goes_tonight_where_germs_live_in_it(self):
        """Of what spreads by the floor; paper has nothing to throw out, and who has no germ keeps its floor (common practice, no source)."""
        for code, floor, wanted in (("cryptosporidium", "sand", True), ("cryptosporidium", "paper", False), ("overweight", "sand", False)):
            found = actions("leopard-gecko", {}, [{"code": code, "severity": "moderate"}], substrate=floor)
            step = [one for one in found if one["code"] == "keep-dry-floor"]
            self.assertEqual(len(step), int(wanted), (code, floor))

    def test_loose_floor_goes_tonight_from_under_an_open_wound(self):
        """A crack of the shell, a bite and dead toes are open, as a fresh cut is: what lies loose gets in (common practice, no source). Paper has nothing to
        throw out, and stitches beside the wound ask for no second step."""
        for species, code in (("leopard-tortoise", "cracked-shell"), ("hermanns-tortoise", "bite-wound"), ("argentine-tegu", "toe-death")):
            for floor, wanted in (("soil", True), ("paper", False)):
                found = actions(species, {}, [{"code": code, "severity": "moderate"}], substrate=floor)
                step = [one for one in found if one["code"] == "keep-dry-floor"]
                self.assertEqual([one.get("tonight", False) for one in step], [True] * int(wanted), (species, code, floor))

    def test_the_fish_that_brings_the_fits_goes_first(self):
        """Thiaminase and a nerve that shows it: first; with nothing of the nerve it is one change among others (Merck: thiamine deficiency of fish
        eaters; the order is common practice, no source). What to leave in a fit stands with it, however full the page."""
        for code, first in (("fits", True), ("worms", False)):
            visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fizz", "species": "garter-snake"},
                     "diet": {"food": "goldfish", "count": 4, "every": "5 days"}, "enclosure": {"readings": {"night": "15 C", "warm-side": "20 C"}},
                     "findings": [{"code": code, "severity": "moderate"}, {"code": "underweight", "severity": "mild"}]}
            done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT)
            codes = [one["code"] for one in json.loads(done.stdout)["actions"]]
            self.assertEqual(codes.index("stop-fish") == 0, first, codes)
            self.assertEqual("put nothing into the mouth" in " ".join(printed(visit)), code == "fits")

    def test_a_drowsy_turtle_lies_dry_before_any_water(self):
        """Narcosis today and a lung that floats: the step of the water begins with what holds before it (the clinical table: no deep bowl, no bath until awake)."""
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Moss", "species": "common-musk-turtle"},
                 "findings": [{"code": "floating", "severity": "moderate"}, {"code": "airway-infection", "severity": "moderate"}]}
        for done in ([], ["sedation"]):
            page = printed({**visit, "done-today": done})[0]
            self.assertIn("Keep the water shallow", page)
            for said in (r"Let it lie on warm \(22–25 °C\), dry ground, in no water at all", "Once awake, it must reach the air"):
                self.assertEqual(bool(re.search(said, page)), bool(done), page)
            if done:
                self.assertLess(page.index("in no water at all"), page.index("Keep the water shallow"), page)

    def test_a_cold_lung_comes_before_a_trace_of_ammonia(self):
        """A turtle breathes air; a frog or newt breathes the water that is changed (common practice, no source). And lopsided with a sick lung it goes
        when it gets worse."""
        found = [{"code": "airway-infection", "severity": "moderate"}, {"code": "floating", "severity": "mild"}]
        for species, frog in (("painted-turtle", False), ("axolotl", True)):
            findings = [{"code": "fungus-tufts", "severity": "moderate"}] if frog else found
            water = {"temperature": "24 C" if frog else "18 C", "ammonia": "1 mg/l"}
            visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Dot", "species": species}, "water": water, "findings": findings}
            done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT)
            plan = json.loads(done.stdout)
            codes = [one["code"] for one in plan["actions"]]
            self.assertEqual(codes.index("change-part-water") < codes.index("cool-water" if frog else "warm-water"), frog, codes)
        turtle = {"visit": visit["visit"], "patient": {"name": "Dot", "species": "painted-turtle"}}
        for findings, tier in ((found, "now"), (found[1:], "today")):
            plan, _ = plan_and_words({**turtle, "findings": findings})
            self.assertEqual({one["code"]: one["tier"] for one in plan["warnings"]}["swims-lopsided"], tier)

    def test_nobody_ill_waits_three_days_for_warmth(self):
        """The day on which the keeper calls is the next one for an ill animal that is too cold, of each group; a well one has its three days (memory)."""
        for species, code, wanted in (("whites-tree-frog", "prolapse", "Tue 17 Mar"), ("bearded-dragon", "airway-infection", "Tue 17 Mar"), ("bearded-dragon", None, "Thu 19 Mar")):
            page = printed({"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species},
                            "enclosure": {"readings": {"warm-side": "20 C", "cool-side": "18 C"}}, "findings": [{"code": code, "severity": "moderate"}] if code else []})[0]
            self.assertIn(f"Not right by {wanted}?", page)

    def test_who_lives_alone_is_kept_apart_behind_the_warmth(self):
        """Its own tools wait where nobody else is; with mates, or where nobody said, they are tonight's (common practice, no source)."""
        for animals, first in ((1, False), (2, True), (None, True)):
            found = actions("greek-tortoise", {"warm-side": "20 C", "basking-surface": "24 C"}, [{"code": "worms", "severity": "moderate"}], **({"animals": animals} if animals else {}))
            codes = [one["code"] for one in found]
            self.assertEqual(codes.index("keep-apart") < codes.index("warm-basking"), first, (animals, codes))

    def test_a_bound_female_leaves_her_mates_tonight(self):
        for code, tonight in (("egg-bound", True), ("worms", False)):
            found = actions("western-hognose", {}, [{"code": code, "severity": "moderate"}], animals=2)
            own = [i for i, one in enumerate(found) if one["code"] == "own-box"]
            self.assertEqual(bool(own) and own[0] < 3, tonight or code == "worms", found)

    def test_what_came_up_is_met_with_warmth(self):
        """Regurgitation raises the heat above mites and old skin (the clinical table); a cold box of another ill one keeps its place."""
        small = [{"code": "mites", "severity": "mild"}, {"code": "retained-shed", "severity": "mild"}]
        for code, first in (("vomited", True), ("worms", False)):
            found = actions("corn-snake", {"warm-side": "23 C", "humidity": "20 %", "humidity-at": "cool-side"}, [{"code": code, "severity": "moderate"}, *small])
            codes = [one["code"] for one in found]
            self.assertEqual(codes.index("warm-warm-side") < min(codes.index("clear-mites"), codes.index("raise-humidity")), first, codes)

    def test_not_eating_has_its_day_though_food_rests_until_it_is_awake(self):
        """The day to call is counted past the rest of a day; a rest that the veterinarian ends has none."""
        for done, wanted in (([], True), (["sedation"], True), (["surgery"], False)):
            visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "veiled-chameleon", "mass": "140 g", "hatched": "2023-05"},
                     "diet": {"food": "cricket", "count": 6, "every": "2 days", "last": "2026-03-10"}, "findings": [{"code": "not-eating", "severity": "moderate"}], "done-today": done,
                     "follow-up": {"recheck": "14 days"}}
            self.assertEqual("Has eaten nothing by" in " ".join(printed(visit)), wanted, done)

    def test_no_dry_hide_for_what_has_no_damp_one(self):
        """A damp hide that it has by nature is taken from a burnt snake; of a dragon nothing is said (the clinical table: species that have none)."""
        for species, said in (("corn-snake", True), ("bearded-dragon", False)):
            text = " ".join(printed({"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species},
                                     "findings": [{"code": "burn", "severity": "moderate"}]}))
            self.assertEqual("No damp hide" in text, said, species)

    def test_sore_joints_come_down_before_the_heat_is_set(self):
        """Gout of a climber: the perches come down first, and the warmth is read where it sits then; on the ground there is nothing to lower."""
        found = actions("panther-chameleon", {"basking-surface": "38 C", "warm-side": "29 C"}, [{"code": "gout", "severity": "moderate"}], **{"perch-height": "70 cm"})
        codes = [one["code"] for one in found]
        self.assertLess(codes.index("protect-bones"), codes.index("cool-basking"), codes)

    def test_a_male_leaves_a_bound_female_among_the_first(self):
        """One that carries eggs has time; one whose eggs are stuck has none (common practice, no source)."""
        for code, first in (("egg-bound", True), ("gravid", False)):
            found = actions("leopard-gecko", {"warm-side": "25 C", "night": "19 C", "humidity": "20 %", "humidity-at": "cool-side"},
                            [{"code": code, "severity": "moderate"}], animals=3, males=1, hides=0)
            codes = [one["code"] for one in found]
            self.assertEqual("part-male" in codes[:3] or "own-box" in codes[:3], first, codes)

    def test_stuck_eggs_are_warmed_before_a_lamp_is_asked_for(self):
        """Warmth is part of the treatment, the box to lay in is for tonight, and a lamp can wait (common practice, no source)."""
        for species in ("leopard-gecko", "corn-snake"):
            found = actions(species, {"warm-side": "24 C", "night": "18 C"}, [{"code": "egg-bound", "severity": "moderate"}], lamp={"kind": "none"})
            codes = [one["code"] for one in found]
            self.assertEqual({"warm-warm-side", "give-nest-box"}, set(codes[:2]), codes)

    def test_an_ill_one_is_warmed_before_a_lamp_is_asked_for(self):
        """A tortoise with worms, thin and cold, that has no UVB lamp: the shop is closed tonight, the heat is there."""
        found = actions("greek-tortoise", {"basking-surface": "28 C", "warm-side": "23 C", "night": "15 C"},
                        [{"code": "underweight", "severity": "moderate"}, {"code": "worms", "severity": "moderate"}], lamp={"kind": "none"})
        codes = [one["code"] for one in found]
        for warm in ("warm-basking", "warm-warm-side"):
            self.assertLess(codes.index(warm), codes.index("add-uvb-lamp"), codes)

    def test_an_ill_one_is_warmed_tonight(self):
        """Behind three other steps of tonight the two warm places are due tonight all the same, each behind what makes its heat safe."""
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "blue-tongued-skink"},
                 "enclosure": {"heat": [{"kind": "lamp", "power": "75 W", "thermostat": False, "guard": False}], "lamp": {"kind": "led", "hours": 12},
                               "readings": {"basking-surface": "33 C", "warm-side": "27 C"}},
                 "findings": [{"code": "mouth-inflammation", "severity": "moderate"}, {"code": "soft-jaw", "severity": "mild"}], "done-today": ["sedation"]}
        pages = printed(visit)
        rest = pages[1][pages[1].index("Tonight too"):]
        for warm in ("Warm the warm side now", "Warm the basking spot"):
            self.assertLess(rest.index("Add a thermostat"), rest.index(warm), rest)
            self.assertLess(rest.index(warm), rest.index("Ask us about a UVB lamp"), rest)
        # the rest until it is awake ends in what the veterinarian writes, not in no word for days
        text = " ".join(pages)
        self.assertIn("Your veterinarian writes it here", text)
        self.assertNotIn("No food until we say so", text)

    def test_page_two_makes_heat_safe_before_it_turns_it_up(self):
        """Page one had no room for the row that warms: no row stands between it and its guard, so they stand in the order in which they are done, on page two
        as in the list on page one."""
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"},
                 "patient": {"name": "Saphir", "species": "panther-chameleon", "sex": "male", "hatched": "2024-12", "mass": "92 g", "length": "15 cm",
                             "earlier": [{"on": "2026-01-05", "mass": "112 g", "healthy": True}]},
                 "enclosure": {"thermostat": False, "readings": {"basking-surface": "27 C", "warm-side": "25 C", "cool-side": "22 C", "night": "21 C", "room": "20 C", "humidity": "35 %",
                                                                 "humidity-at": "cool-side"},
                               "lamp": {"kind": "tube", "tube-length": "30 cm", "measured": {"uvi": "1.0", "at": "20 cm", "through-mesh": True}, "installed": "2024-12-05", "height": "30 cm",
                                        "hours": 16}},
                 "findings": [{"code": "weak-grip", "severity": "moderate"}, {"code": "mouth-inflammation", "severity": "mild", "note": "A yellow spot at the right gum."}],
                 "done-today": ["x-ray", "blood-sample", "mouth-swab", "fluids-under-skin"]}
        pages = printed(visit)
        listed = pages[0][pages[0].index("Also tonight, next pages"):].lower()
        behind = " ".join(pages[1:]) # two pages that have it as lists
        rest = behind[behind.index("Tonight too"):].lower()
        for text in (listed, rest):
            text = " ".join(text.split())
            self.assertLess(text.index("add a thermostat"), text.index("warm the basking spot"), text)

    def test_nobody_waits_longer_than_to_the_check(self):
        """Short of water, seen again tomorrow: the day to call is no later."""
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "boa-constrictor"},
                 "findings": [{"code": "dehydrated", "severity": "mild"}], "follow-up": {"booked": "2026-03-17", "recheck": "1 day"}}
        text = " ".join(printed(visit))
        self.assertIn("Tue 17 Mar", text)
        self.assertNotIn("Wed 18 Mar", text)

    def test_what_is_to_be_measured_again_has_no_tick(self):
        """63 °F of 64 to 72: the meter may err by as much, so the picture says what the step says. 64 °F is inside what is shown, and asks for nothing."""
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "whites-tree-frog"},
                 "keeper": {"language": "en", "units": "us"}, "enclosure": {"readings": {"night": "63 F"}}, "findings": [{"code": "wound", "severity": "mild"}]}
        text = " ".join(printed(visit))
        self.assertIn("Measure again: the night", text)
        self.assertIn("now 63?", text)
        visit["enclosure"]["readings"]["night"] = "64 F"
        self.assertNotIn("64?", " ".join(printed(visit)))

    def test_a_step_stays_where_she_put_it(self):
        """The veterinarian has the last word: her order stands, though no thermostat holds the heat yet."""
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "bearded-dragon"},
                 "enclosure": {"heat": [{"kind": "lamp", "power": "100 W", "thermostat": False, "guard": True}], "readings": {"basking-surface": "30 C"}}}
        for decisions, first in (([], ["add-thermostat", "warm-basking"]), ([{"action": "warm-basking", "place": 1, "because": "I set it here."}], ["warm-basking", "add-thermostat"])):
            done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=json.dumps({**visit, "decisions": decisions}), capture_output=True, text=True, cwd=ROOT)
            self.assertEqual(done.returncode, 0, done.stderr)
            codes = [one["code"] for one in json.loads(done.stdout)["actions"]]
            self.assertEqual([code for code in codes if code in first], first, codes)

    def test_what_spreads_is_parted_before_all_else(self):
        """A rat snake with a boa, head bent back, cold: parted, then kept low (common practice, no source)."""
        found = actions("western-rat-snake", {"warm-side": "26 C", "night": "19 C"}, [{"code": "serpentovirus-suspect", "severity": "moderate"}, {"code": "stargazing", "severity": "mild"}],
                        animals=2, mates=["boa-constrictor"])
        self.assertEqual("own-box", found[0]["code"], found)

    def test_a_drowsy_one_wakes_first(self):
        """What is done before anything else at home, each kind in its own way, and how warm where it lies dry (common practice, no source). As warm as
        the row of the night on the same page, or the dry box of a turtle that has dry hours."""
        for species, said in (("eastern-box-turtle", "flat, warm (24–28 °C), dry floor"), ("red-eared-slider", "in no water at all"), ("whites-tree-frog", "Keep its skin wet")):
            pages = printed({"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species},
                             "findings": [{"code": "wound", "severity": "moderate"}], "done-today": ["sedation"],
                             "follow-up": {"aftercare": [{"of": "sedation", "awake-by": "19:00"}]}})
            first = " ".join(pages[0].split())
            self.assertIn("Let it wake up", first, species)
            self.assertIn(said, first, species)
            self.assertIn("fully awake by 19:00", first, species)
            for warm in re.findall(r"warm \((.+?)\), dry", first):
                self.assertRegex(first, rf"(At night: |Night, [\w ]+?|dry box at ){warm}", species)

    def test_stuck_eggs_promise_no_meal_and_no_second_limit_of_straining(self):
        """No menu and no alarm for an empty dish before the veterinarian has written one; two hours of straining is the one limit."""
        for species in ("western-hognose", "leopard-gecko"):
            text = " ".join(" ".join(printed({"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species, "sex": "female", "mass": "60 g"},
                                              "findings": [{"code": "egg-bound", "severity": "moderate"}], "follow-up": {"recheck": "2 days"}})).split())
            for never in ("Strains more than once", "Eats nothing by", "Has eaten nothing by", "Do not cut down on food"):
                self.assertNotIn(never, text, species)
            for said in ("Strains 2 hours for nothing", "Your veterinarian writes it here", "Count and keep the eggs"):
                self.assertIn(said, text, species)

    def test_a_bath_of_a_tortoise_is_a_field(self):
        """What nobody wrote is asked for, not forbidden: many a thin one is soaked each day (common practice, no source)."""
        text = " ".join(" ".join(printed({"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "greek-tortoise"},
                                          "findings": [{"code": "nose-discharge", "severity": "moderate"}, {"code": "underweight", "severity": "moderate"}]})).split())
        self.assertIn("chin: ____ minutes, every ____ days", text)
        self.assertNotIn("Give no bath", text)

    def test_a_rest_of_food_is_due_tonight(self):
        """Three others before it, and no meal is given on the evening of narcosis."""
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Jade", "species": "green-iguana"},
                 "enclosure": {"lamp": {"kind": "tube", "installed": "2024-10-01"}, "readings": {"warm-side": "22 C", "night": "14 C"}, "heat": [{"kind": "lamp", "guard": False}],
                               "perch-height": "110 cm"},
                 "findings": [{"code": "fracture", "severity": "severe"}, {"code": "soft-jaw", "severity": "moderate"}], "done-today": ["sedation"],
                 "decisions": [{"do": "Carry her to the nest.", "place": 3}]}
        pages = printed(visit)
        self.assertNotIn("Give no food", pages[0])
        self.assertRegex(pages[1], r"Tonight too(: | .*)Give no food")

    def test_the_unseen_is_fed_no_more_than_the_seen(self):
        """The clinical table: what is blocked or swollen gets no food, whoever looked; a telephone's note is nobody's handwriting."""
        for code, species in (("belly-mass", "horned-frog"), ("bloat", "whites-tree-frog"), ("impaction-of-sand", "bearded-dragon")):
            for state in ("go-now", "unseen", "seen"):
                visit = {"visit": {"date": TODAY, "kind": "checkout"}, "patient": {"name": "Pudge", "species": species},
                         "findings": [{"code": code, "severity": "severe", "state": state, "note": "It ate gravel."}]}
                if state == "seen":
                    visit["visit"]["veterinarian"] = "Dr Ines Calder"
                text = " ".join(printed(visit))
                self.assertIn("No food until we say so", text, (code, state))
                self.assertIn("Your vet wrote: It ate" if state == "seen" else "Our note: It ate", text)
                self.assertEqual("No word by" in text, state == "seen", text)

    def test_what_made_it_ill_leads_before_what_was_mended(self):
        """A long beak comes of the same cause, and was cut here: the liver leads, and alone the beak does."""
        rows = (([("overgrown-beak", "severe"), ("fatty-liver-suspect", "moderate")], "Umber: Perhaps a fatty liver"), ([("overgrown-beak", "severe")], "Umber: Long beak"))
        for findings, wanted in rows:
            text = printed({"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Umber", "species": "red-footed-tortoise"},
                            "findings": [{"code": code, "severity": severity} for code, severity in findings]})[0]
            self.assertIn(wanted, text)

    def test_what_a_step_says_to_call_for_is_no_sign_to_go_for(self):
        """A severe finding makes its signs more urgent, but not what its own step says to call for the same day (the clinical table: any: today)."""
        plan, _ = plan_and_words({"visit": {"date": "2026-03-14", "kind": "checkout", "veterinarian": "Dr Ines Calder"},
                                  "patient": {"name": "Tiza", "species": "leopard-gecko", "mass": "34 g"},
                                  "findings": [{"code": "cryptosporidium", "severity": "severe"}, {"code": "underweight", "severity": "severe"}]})
        tiers = {one["code"]: one["tier"] for one in plan["warnings"]}
        self.assertEqual((tiers["regurgitation"], tiers["weight-loss"]), ("today", "today"))
        thin, _ = plan_and_words({"visit": {"date": "2026-03-14", "kind": "checkout", "veterinarian": "Dr Ines Calder"},
                                  "patient": {"name": "Tiza", "species": "leopard-gecko", "mass": "34 g"}, "findings": [{"code": "thin-tail", "severity": "severe"}]})
        self.assertEqual({one["code"]: one["tier"] for one in thin["warnings"]}["thin-tail"], "today")

    def test_what_the_message_names_is_done_first(self):
        found = actions("common-kingsnake", {"warm-side": "28 C", "night": "21 C"},
                        [{"code": "gravid", "severity": "mild"}, {"code": "mites", "severity": "moderate"}])
        self.assertEqual(found[0]["code"], "clear-mites")
        self.assertIn("finding:mites", found[0]["from"])

    def test_of_its_own_steps_the_graver_stays_first(self):
        """Both are of the one finding that the message names: eggs without a nest stick, a male beside her is a burden (common practice, no source)."""
        for species in ("leopard-gecko", "bearded-dragon"):
            found = actions(species, {}, [{"code": "gravid", "severity": "moderate"}], animals=3, males=1)
            self.assertEqual([(one["code"], one["from"]) for one in found[:2]], [("give-nest-box", ["finding:gravid"]), ("part-male", ["finding:gravid"])], species)

    def test_who_goes_now_waits_for_nothing_at_home(self):
        """Nobody of the clinic has looked yet: no finding says when to call, no day of a meal or of a check is told, what was seen is what was
        noticed (common practice, no source). What was seen here keeps all of it."""
        visit = {"visit": {"date": TODAY, "kind": "checkout"}, "patient": {"name": "Lima", "species": "whites-tree-frog", "mass": "44 g"},
                 "diet": {"food": "cricket", "count": 8, "every": "2 days"}, "keeper": {"name": "Ana"},
                 "findings": [{"code": "bloat", "severity": "severe", "state": "go-now"}, {"code": "not-eating", "severity": "mild"}]}
        text = " ".join(printed(visit))
        for words in ("What was noticed", "Not eating, mild"):
            self.assertIn(words, text)
        for words in ("What we found", "Six weeks", "until the next check on", "Next: ", "go now if it floats"):
            self.assertNotIn(words.lower(), text.lower())
        visit["visit"]["veterinarian"] = "Dr Ines Calder"
        visit["findings"] = [{**one, "state": "seen"} for one in visit["findings"]]
        text = " ".join(printed(visit))
        for words in ("What we found", "Call us today to ask when to come back"):
            self.assertIn(words, text)

    def test_what_begins_another_day_is_not_among_tonights(self):
        """Stitches and sedation leave no bath on the day itself: it is dated, and tonight's rows hold what is done tonight."""
        for findings, done in ((["belly-stool"], "sutures"), (["belly-stool"], "sedation"), (["sunken-eyes"], "fluids-under-skin")):
            visit = {"visit": {"date": "2026-03-20", "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "ball-python", "mass": "900 g"},
                     "findings": [{"code": code, "severity": "moderate"} for code in findings]}
            for done_today, first in (([], True), ([done], False)):
                bath = next(one for one in plan_and_words({**visit, "done-today": done_today})[0]["actions"] if one["code"] == "give-drink-soak")
                self.assertEqual((bath["first"], bath["start"] is None), (first, first), f"{findings} {done_today}")

    def test_what_is_too_hot_is_turned_down_before_anything_is_bought(self):
        """29 C of a gecko that bears 28 C: it costs nothing, and stands on page one beside any disease."""
        box = {"thermostat": False, "heat": [{"kind": "lamp", "thermostat": False, "guard": False}]}
        for found in ([], [{"code": "mouth-inflammation", "severity": "mild"}], [{"code": "stuck-toe-shed", "severity": "severe"}]):
            hot = [one["code"] for one in actions("crested-gecko", {"warm-side": "29 C"}, found, **box) if one["first"]]
            self.assertLess(hot.index("cool-warm-side"), hot.index("guard-the-heat"), found)

    def test_a_ring_of_old_skin_is_loosened_before_the_nest(self):
        """What the message names is done first: a toe dies under a tight ring, the eggs have days."""
        for severity, first in (("severe", "add-moist-hide"), ("mild", "give-nest-box")):
            found = actions("leopard-gecko", {}, [{"code": "gravid", "severity": "mild"}, {"code": "stuck-toe-shed", "severity": severity}])
            self.assertEqual(found[0]["code"], first)

    def test_a_spot_that_its_kind_does_not_use_shows_its_reading_and_the_limit(self):
        """A crested gecko has no basking spot and bears 28 C (its species sheet): 40 C is turned down first, with both numbers."""
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "keeper": {"name": "Ana", "units": "metric"},
                 "patient": {"name": "Fern", "species": "crested-gecko"}, "findings": [{"code": "wound", "severity": "moderate"}],
                 "enclosure": {"readings": {"basking-surface": "40 C", "warm-side": "25 C"}}}
        text = " ".join(printed(visit))
        self.assertIn("First cool the basking spot", text)
        self.assertIn("28 °C or less now 40", text)

    def test_tissue_that_hangs_out_is_kept_moist_on_the_way(self):
        """On page one, where the keeper reads before leaving; nobody bathes it before the clinic has seen it (common practice, no source)."""
        visit = {"visit": {"date": TODAY, "kind": "checkout"}, "patient": {"name": "Fern", "species": "green-iguana"}, "keeper": {"name": "Ana"},
                 "findings": [{"code": code, "severity": severity, "state": "unseen"} for code, severity in (("prolapse", "severe"), ("dehydrated", "moderate"))]}
        first, *rest = printed(visit)
        self.assertIn("Keep the tissue moist", first)
        self.assertNotRegex(" ".join(rest), "Tonight|drinking bath")

    def test_a_dry_chameleon_is_misted_tonight(self):
        """Behind a lamp that hurts its eyes and two places that are wrong: it drinks drops alone (common practice, no source)."""
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "keeper": {"name": "Ana"}, "patient": {"name": "Fern", "species": "panther-chameleon"},
                 "enclosure": {"heat": [{"kind": "lamp", "guard": False, "thermostat": False}], "readings": {"basking-surface": "37 C", "night": "17 C"}},
                 "findings": [{"code": code, "severity": "moderate"} for code in ("lamp-sore-eyes", "dehydrated")]}
        text = " ".join(printed(visit))
        self.assertIn("Mist until drops hang", text[text.index("Tonight"):text.index("Then, in this order")])

    def test_what_cannot_wait_is_tonight_behind_the_first_three(self):
        """Common practice, no source: a toad with red legs in fouled, warm water is parted from its mates and its water is cooled on the
        same evening; a larger box can wait."""
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "keeper": {"name": "Ana"},
                 "patient": {"name": "Fern", "species": "fire-bellied-toad", "mass": "9 g"},
                 "enclosure": {"size": "40 x 30 x 30 cm", "animals": 3, "mates": ["fire-bellied-toad"], "readings": {"warm-side": "27 C", "cool-side": "25 C"}},
                 "water": {"temperature": "26 C", "ammonia": "0.5 mg/l", "ph": "7.6"}, "findings": [{"code": "red-legs", "severity": "moderate"}, {"code": "bloat", "severity": "mild"}]}
        text = " ".join(printed(visit))
        for step in ("Cool the water", "Give it a box of its own", "Look after the others too", "Keep apart from others"):
            self.assertIn(step, text.split("drawn to scale")[0] + text.split("Tonight too")[1].split("Then, in this order")[0])
        self.assertIn("Plan a box of 60 × 40 × 40 cm", text.split("Then, in this order")[1].replace("\u00a0", " "))

    def test_mates_in_bad_water_and_a_male_beside_her_are_told(self):
        """Common practice, no source. One that lives alone, or with others in good water, has no such step."""
        def codes(species, findings, **about):
            visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species, "sex": "female"},
                     "findings": findings, **about}
            return {one["code"] for one in plan_and_words(visit)[0]["actions"]}
        foul, clean = ({"ammonia": ammonia, "ph": "7.5", "temperature": "17 C"} for ammonia in ("2 mg/l", "0 mg/l"))
        for animals, water, told in ((2, foul, True), (1, foul, False), (2, clean, False)):
            self.assertEqual("look-after-mates" in codes("axolotl", [], water=water, enclosure={"animals": animals}), told, (animals, water))
        gravid = [{"code": "gravid", "severity": "moderate"}]
        for animals, findings, told in ((2, gravid, True), (1, gravid, False), (2, [], False)):
            self.assertEqual("part-male" in codes("crested-gecko", findings, enclosure={"animals": animals}), told, (animals, findings))

    def test_who_moves_when_a_male_leaves_her_is_said_for_tonight(self):
        """She stays where she may lay, he goes tonight, into warmth that is named (common practice, no source)."""
        for findings in ("gravid", "egg-bound"):
            visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "crested-gecko", "sex": "female"},
                     "keeper": {"name": "Ana", "units": "metric"}, "findings": [{"code": findings, "severity": "moderate"}], "enclosure": {"animals": 2}}
            text = " ".join(printed(visit))
            self.assertRegex(text, r"Tonight move (him|the other one) to a clean tub at \d+.\d+ °C, and leave Fern in this box", findings)
        plan, _ = plan_and_words({**visit, "findings": [{"code": "gravid", "severity": "moderate"}]})
        self.assertTrue(next(one for one in plan["actions"] if one["code"] == "part-male")["tonight"])

    def test_a_frog_is_cooled_step_by_step_and_its_jaw_is_looked_at(self):
        """A sudden fall harms a bare skin, so the row says so itself; nobody feels the jaw of a frog (common practice, no source)."""
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "whites-tree-frog"},
                 "keeper": {"name": "Ana", "units": "metric"}, "findings": [{"code": "bent-bones", "severity": "moderate"}],
                 "enclosure": {"heat": [{"kind": "ceramic", "thermostat": "yes"}], "readings": {"warm-side": "33 C"}}}
        text = " ".join(printed(visit))
        self.assertIn("Turn the heat down step by step", text)
        self.assertNotIn("jaw that feels", text)

    def test_who_left_the_bad_water_is_not_said_to_live_in_it(self):
        """A turtle's mate goes to a tub tonight: only one of "move it" and "it lives in the same water" can hold (two orders)."""
        for findings, moves in (([{"code": "wound", "severity": "moderate"}], True), ([], False)):
            visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "common-musk-turtle"},
                     "keeper": {"name": "Ana", "units": "metric"}, "findings": findings, "enclosure": {"animals": 2}, "water": {"ammonia": "2 mg/l", "ph": "7.5", "temperature": "24 C"}}
            text = " ".join(printed(visit))
            self.assertEqual(("Tonight move the other one" in text, "It lives in the same water" in text, "Change its tub's water each day" in text), (moves, not moves, moves), text)

    def test_richer_food_leaves_the_dish_of_a_fat_animal(self):
        """kcal in a gram as fed, Finke's analyses, from memory: waxworm 2.75, superworm 2.42, cricket 1.4, earthworm 0.71; a mouse is no
        food of an insect eater's sheet (common practice, no source)."""
        fat = [{"code": "overweight", "severity": "moderate"}]
        for food, findings, told in (("waxworm", fat, True), ("mouse", fat, True), ("superworm", fat, True), ("cricket", fat, False), ("earthworm", fat, False), ("waxworm", [], False)):
            visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "horned-frog", "mass": "300 g", "hatched": "2022-03"},
                     "findings": findings, "diet": {"food": food, "count": "4", "every": "3 days"}}
            self.assertEqual("stop-rich-food" in {one["code"] for one in plan_and_words(visit)[0]["actions"]}, told, (food, findings))

    def test_a_tenth_of_a_degree_is_never_first(self):
        """79 F is 26.1 C; the cool end of a bearded dragon's sheet ends at 26 C."""
        for findings in ([], [SOFT], [{"code": "mites", "severity": "mild"}]):
            codes = [one["code"] for one in actions("bearded-dragon", {"cool-side": "79 F"}, findings) if one["first"]]
            self.assertFalse(HEATERS & set(codes), codes)

    def test_a_tenth_over_what_the_animal_bears_is_told_but_not_first(self):
        """No error of a meter excuses an upper limit (20 C of the axolotl, 28 C of the crested gecko), yet a tenth of a degree changes
        nothing before the rest."""
        for species, zone, target, reading, code in (("axolotl", "water", "16-20 C", "20.1 C", "cool-water"), ("crested-gecko", "warm-side", "24-28 C", "28.1 C", "cool-warm-side")):
            found = actions(species, {zone: reading}, [], targets={zone: target, "because": "As seen."})
            cool = next(one for one in found if one["code"] == code)
            self.assertFalse(cool["first"], found)
            self.assertLess(cool["harm"], 70)

    def test_soft_bones_and_the_lamp_come_before_any_heater(self):
        for readings in ({"basking-surface": "30 C"}, {"cool-side": "31 C"}, {"basking-surface": "45 C", "night": "12 C"}):
            codes = [one["code"] for one in actions("bearded-dragon", readings, [SOFT], **OLD_LAMP)]
            heaters = [codes.index(code) for code in HEATERS & set(codes)]
            self.assertTrue(heaters, (readings, codes))
            self.assertLess(max(codes.index("protect-bones"), codes.index("change-lamp")), min(heaters), (readings, codes))

    def test_no_heater_stands_before_the_gravest_disease(self):
        for code in ("soft-jaw", "burn", "vomited", "airway-infection"):
            for readings in ({"basking-surface": "60 C", "cool-side": "38 C"}, {"basking-surface": "20 C", "cool-side": "15 C", "night": "8 C"}):
                found = [one["code"] for one in actions("bearded-dragon", readings, [{"code": code, "severity": "moderate"}])]
                # beside a spot that burns nobody is told to keep the warm side warm: then the disease asks for nothing of its own
                self.assertTrue(found[0] in DISEASES or not DISEASES & set(found), (code, readings, found))
                self.assertTrue(HEATERS & set(found[:3]), (code, readings, found))

    def test_a_box_without_a_cool_place_comes_before_all(self):
        """A crested gecko bears 28 C (its sheet's upper limit) and has 31 at one end and 28 at the other: whatever else is wrong, the box is cooled
        first, by less heat and not by another heater (common practice, no source). With one cool end the disease leads."""
        ill = [{"code": "dehydrated", "severity": "moderate"}, {"code": "bite-wound", "severity": "mild"}]
        for cool, first in (("28 C", True), ("22 C", False)):
            found = actions("crested-gecko", {"warm-side": "31 C", "cool-side": cool, "night": "24 C"}, ill,
                            heat=[{"kind": "mat", "power": "16 W", "thermostat": False}])
            self.assertEqual(found[0]["code"] == "cool-warm-side", first, cool)
            self.assertIn("cool-warm-side", [one["code"] for one in found])

    def test_a_sore_skin_leaves_the_loose_floor_tonight(self):
        """Loose floor sticks to a burn: it is thrown out tonight (common practice, no source); paper is changed by day."""
        burnt = [{"code": "burn", "severity": "mild"}]
        for floor, tonight in (("cedar-or-pine", True), ("sand", True), ("paper", False)):
            found = actions("blue-tongued-skink", {}, burnt, substrate=floor)
            step = next(one for one in found if one["code"] == "keep-dry-floor")
            self.assertEqual("sore-skin-loose-floor" in step["why"], tonight, floor)

    def test_farther_outside_weighs_more(self):
        harms = [harm_of(actions("bearded-dragon", {"basking-surface": f"{warm} C"}, []), "warm-basking") for warm in (36, 34, 30, 20)]
        self.assertEqual(harms, sorted(harms))
        self.assertLess(harms[0], harms[-1])
        self.assertEqual(harms[-1], RULES["basking-too-cold"]["harm"])  # in full, and no more
        self.assertEqual(harms[-2], harms[-1])

    def test_soft_bones_make_the_light_graver(self):
        for enclosure, code in (({"lamp": {"kind": "none"}}, "add-uvb-lamp"), ({"lamp": {"kind": "tube", "behind": "glass", "installed": "2026-01-01"}}, "clear-lamp-path"),
                                ({"lamp": {"kind": "tube", "installed": "2026-01-01"}}, "measure-lamp"), (OLD_LAMP, "change-lamp")):
            well, ill = (harm_of(actions("bearded-dragon", {}, findings, **enclosure), code) for findings in ([], [SOFT]))
            self.assertGreater(ill, well, code)

    def test_a_turtle_is_warmed_by_its_water_first(self):
        """An ill water turtle lives in its water: that comes before the warmth of the land (the clinical table 1.4, water turtles)."""
        ill = [{"code": "airway-infection", "severity": "moderate"}]
        codes = [one["code"] for one in actions("painted-turtle", {"water": "19 C", "basking-surface": "26 C"}, ill)]
        self.assertEqual(codes[0], "warm-water")
        self.assertIn("warm-basking", codes)
        self.assertNotIn("keep-warm-side-warm", codes, "of the same water: it is said once")

    def test_food_that_came_up_makes_the_cold_graver(self):
        well, ill = (harm_of(actions("corn-snake", {"warm-side": "24 C"}, findings), "warm-warm-side") for findings in ([], [{"code": "vomited", "severity": "mild"}]))
        self.assertGreater(ill, well)

    def test_nothing_has_to_change_is_not_said_while_a_limit_is_broken(self):
        """Over the generated visits, as they are and without their findings, so that the list is often empty."""
        fine = 0
        for number in range(test_generated.COUNT):
            visit, _ = test_generated.make(number)
            for findings in (visit["findings"], []):
                plan, words = plan_and_words({**visit, "findings": findings})
                if not words:
                    continue
                is_broken = bool({"too-low", "too-high"} & set(verdicts(plan)))
                said = any(sentence in words for sentence in NOTHING[visit["keeper"]["language"]])
                self.assertFalse((is_broken or plan["actions"]) and said, json.dumps(visit))
                fine += said
        self.assertGreater(fine, 0)
        said = plan_and_words({"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "crested-gecko"},
                               "keeper": {"name": "Ana"}, "enclosure": {"readings": {"warm-side": "28.1 C"}}, "targets": {"warm-side": "24-28 C", "because": "As seen."}})[1]
        self.assertFalse([sentence for sentence in NOTHING["en"] if sentence in said])
        self.assertIn("Nothing is urgent", said)

    def test_nothing_has_to_change_is_not_said_beside_a_change(self):
        """A snake's lamp burns for five hours of the day: no reading is off, and the light still goes on a timer."""
        for kind in ("checkout", "reading", "email"):
            visit = {"visit": {"date": TODAY, "kind": kind, "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "common-kingsnake", "hatched": "2022-05"},
                     "keeper": {"name": "Ana", "language": "en"},
                     "enclosure": {"size": "165 x 66 x 82 cm", "thermostat": True, "heat-guard": True, "water-dish": True, "shade": True, "hides": 3,
                                   "readings": {"basking-surface": "31 C", "warm-side": "28 C", "cool-side": "23.5 C", "night": "20 C", "humidity": "60 %", "humidity-at": "cool-side"},
                                   "lamp": {"kind": "tube", "installed": "2026-01-01", "height": "30 cm", "hours": 5}}}
            plan, said = plan_and_words(visit)
            self.assertIn("set-timer", [one["code"] for one in plan["actions"]])
            self.assertFalse([sentence for sentence in NOTHING["en"] if sentence in said], kind)
            self.assertIn("Nothing is urgent", said)

    def test_nobody_is_told_that_nothing_is_urgent_of_what_is_ill(self):
        """The tremor has no change of the box to come first."""
        for warm in ("28 C", "29.3 C"):
            plan, said = plan_and_words({"visit": {"date": TODAY, "kind": "email", "veterinarian": "Dr Ines Calder"},
                                         "patient": {"name": "Fern", "species": "corn-snake", "hatched": "2019-05"}, "keeper": {"name": "Ana", "language": "en"},
                                         "findings": [{"code": "tremor", "severity": "moderate"}], "follow-up": {"recheck": "14 days"},
                                         "enclosure": {"readings": {"warm-side": warm}, "thermostat": True, "heat-guard": True, "substrate": "paper"}})
            self.assertFalse([one["code"] for one in plan["actions"] if one["first"]])
            self.assertFalse([sentence for sentence in CALM if sentence in said], warm)

    def test_a_poison_is_not_made_little_of(self):
        self.assertFalse([name for name, rule in RULES.items() if rule.get("graded") and set(rule["when"]) & {"ammonia", "nh3", "nitrite", "chlorine"}])


class Placed(unittest.TestCase):
    """What is placed by hand further up pushes none of tonight's into later: it stays tonight's, and who signs is told."""
    BOX = {"heat": [{"kind": "mat", "thermostat": True, "guard": True}], "substrate": "aspen", "hides": 0, "water-dish": False}

    def made(self, decisions):
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "corn-snake"}, "keeper": {"name": "Ana"},
                 "enclosure": {**self.BOX, "readings": {"warm-side": "24 C", "cool-side": "22 C", "humidity": "80 %", "humidity-at": "cool-side"}},
                 "findings": [], "decisions": decisions}
        done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT)
        self.assertEqual(done.returncode, 0, done.stderr)
        return visit, json.loads(done.stdout)

    def test_what_is_pushed_stays_tonights(self):
        _, before = self.made([])
        codes = [one["code"] for one in before["actions"]]
        third, last = codes[2], codes[-1]
        self.assertGreater(len(codes), 3)
        visit, after = self.made([{"action": last, "place": 1}])
        pushed = next(one for one in after["actions"] if one["code"] == third)
        self.assertEqual((pushed["first"], pushed["tonight"]), (False, True))
        self.assertEqual(after["actions"][3]["code"], third)  # right behind the first ones
        told = [one["facts"]["step"] for one in after["review"] if one["code"] == "step-pushed-behind"]
        self.assertEqual(told, [f"action.{third}.short"])
        self.assertRegex(printed(visit)[0], "Also tonight")

    def test_nothing_is_pushed_where_it_only_changes_places(self):
        _, before = self.made([])
        third = before["actions"][2]["code"]
        _, after = self.made([{"action": third, "place": 1}])
        self.assertEqual([one for one in after["review"] if one["code"] == "step-pushed-behind"], [])
        self.assertEqual({one["code"] for one in after["actions"] if one["tonight"]}, {one["code"] for one in before["actions"] if one["tonight"]})


class Decided(unittest.TestCase):
    """What a veterinarian decided of the food ends and explains the step that tells it, and no other step of the topic."""

    def test_plants_are_changed_for_good(self):
        visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "bearded-dragon", "hatched": "2024-01"}, "keeper": {"name": "Ana"},
                 "diet": [{"food": "cricket", "size": "medium", "count": 10, "every": "1 days"}, {"food": "collard-greens", "every": "1 days"}, {"food": "spinach", "every": "1 days"}], "findings": [],
                 "decisions": [{"topic": "food", "stance": "small", "until": "2026-03-19", "because": "the gut must empty first"}]}
        done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT)
        self.assertEqual(done.returncode, 0, done.stderr)
        found = {one["code"]: one["end"] for one in json.loads(done.stdout)["actions"]}
        self.assertEqual((found["feed-small"], found["change-plants"]), ("2026-03-19", None))
        self.assertEqual(" ".join(printed(visit)).count("the gut must empty first"), 1)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
