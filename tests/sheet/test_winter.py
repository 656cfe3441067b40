#!/usr/bin/env python3
"""The winter's rest: who may, from when to when, at which grams it ends. Numbers against the reference's rows by hand: 3-7 C and six weeks of a
first rest, four months later (Three Counties Tortoises, help sheet, 2007); last food 2-4 weeks before (UK veterinary leaflet); 1 % a month
(a keeper's page on Hermann's tortoises); who may (Lewis 2022, British Veterinary Nursing Association). Emptying by size, the steps of cooling,
8 % and 10 %, the days of waking, 90 days of a stool test and all of the snakes': common practice from memory, no source."""
import json
import subprocess
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402


PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-12-20"


def record(**parts):
    base = {"visit": {"date": "2026-09-25", "kind": "checkout", "veterinarian": "Dr Ines Calder"},
            "patient": {"name": "Otto", "species": "hermanns-tortoise", "sex": "male", "hatched": "2008-06", "mass": "1000 g", "length": "17 cm"},
            "history": {"owned-since": "2019-05-01", "stool-clean": "2026-09-20"}, "winter-rest": {"planned": True}}
    for key, value in parts.items():
        key = key.replace("_", "-")
        base[key] = {**base.get(key, {}), **value} if isinstance(value, dict) else value
        if isinstance(base[key], dict):
            base[key] = {k.replace("_", "-"): v for k, v in base[key].items() if v is not None}
    return json.dumps(base)


class Winter(unittest.TestCase):
    def plan(self, **parts):
        done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=record(**parts), capture_output=True, text=True, cwd=ROOT)
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)

    def rest(self, **parts):
        return self.plan(**parts)["winter_rest"]

    # ---- is it at rest now? -----------------------------------------------------------------------------------

    def test_who_lies_as_cold_as_in_its_rest_is_not_told_to_bask(self):
        """3-7 C is the rest's own band (Three Counties). Planned and that cold is resting, whatever the record forgot, and who signs is asked. One that
        is warmer is awake; 'no' is an answer; without readings the day that has come is asked about."""
        cold = {"readings": {"warm-side": "5 C", "cool-side": "5 C", "night": "5 C"}}
        between = {"readings": {"warm-side": "10 C", "night": "9 C"}}
        warm = {"readings": {"warm-side": "27 C", "cool-side": "21 C", "night": "17 C"}}
        rows = [({"starts": "2026-11-10"}, cold, True, "rest-by-readings"), ({}, cold, True, "rest-by-readings"),
                ({"starts": "2026-11-10"}, between, True, "rest-by-readings"), ({}, between, False, None),
                ({"starts": "2026-11-10"}, warm, False, "rest-day-has-come"), ({"starts": "2026-12-20"}, warm, False, None),
                ({"starts": "2026-11-10"}, {}, False, "rest-day-has-come"), ({"starts": "2026-12-01"}, {}, False, "rest-day-has-come"),
                ({"starts": "2026-12-02"}, {}, False, None), ({"starts": "2026-11-10", "in-progress": False}, cold, False, None)]
        for rest, home, rests, asked in rows:
            with self.subTest(rest=rest, home=home):
                plan = self.plan(visit={"date": "2026-12-01"}, winter_rest=rest, enclosure=home)
                self.assertEqual(plan["winter_rest"]["under_way"], rests)
                self.assertEqual([one["code"] for one in plan["review"] if one["code"].startswith("rest-")], [asked] if asked else [])
                heats = [one["code"] for one in plan["actions"] if one["code"].startswith(("warm-", "raise-"))]
                self.assertTrue(not heats if rests or not home or home is warm else heats, heats)
                if rests:
                    self.assertEqual(plan["stances"]["warmth-day"][0]["stance"], "rest")

    # ---- the gate ---------------------------------------------------------------------------------------------

    def test_a_healthy_grown_tortoise_may_rest(self):
        plan = self.plan()
        self.assertEqual((plan["winter_rest"]["allowed"], plan["winter_rest"]["why"]), (True, []))
        self.assertEqual(plan["stances"]["winter-rest"][0]["stance"], "plan")

    def test_each_reason_shuts_the_gate_and_leaves_no_date(self):
        cases = {
            "ill": {"findings": [{"code": "nose-discharge", "severity": "mild"}]},
            "gravid": {"findings": [{"code": "gravid", "step": "early"}], "patient": {"sex": "female"}},
            "was-ill": {"history": {"operated": "2026-01-10"}},
            "too-young": {"patient": {"hatched": "2024-06", "mass": "90 g", "length": "7.7 cm"}, "history": {"owned-since": "2024-08-01"}},
            "age-unknown": {"patient": {"hatched": None}},
            "thin": {"patient": {"mass": "800 g"}},  # 0.163 g/cm3, below Jackson's 0.18
            "losing": {"patient": {"earlier": [{"on": "2026-08-25", "mass": "1080 g"}]}},
            "weight-unknown": {"patient": {"mass": None}},
            "newly-owned": {"history": {"owned-since": "2026-02-01"}},
            "time-unknown": {"history": {"owned-since": None}},
            "untested": {"history": {"stool-clean": "2026-06-01"}},
            "woken": {"history": {"woke-from-rest": "2026-04-10"}},
            "gut-full": {"winter-rest": {"starts": "2026-10-01"}},
            "too-late": {"visit": {"date": "2026-12-19"}, "history": {"stool-clean": "2026-12-01"}},
        }
        for why, parts in cases.items():
            rest = self.rest(**parts)
            self.assertEqual((rest["allowed"], rest["why"]), (False, [why]), why)
            self.assertFalse(any(rest["dates"].values()), why)
            self.assertFalse(any(d["what"].startswith("rest-") for d in self.plan(**parts)["dates"]), why)

    def test_what_the_record_lacks_is_asked_for_only_where_that_opens_the_gate(self):
        """"We do not know how long you have had it. There is no stool test." stood below an illness that shuts it anyway, and nobody could act on it."""
        lacking = {"history": {"owned-since": None, "stool-clean": None}}
        said = {"en": ("Tell us how long you have had it.", "Ask us for a new stool test", "What we found must be well first."),
                "es": ("Dinos desde cuándo vive contigo.", "Pide un análisis de heces nuevo", "Antes debe curarse lo que encontramos."),
                "fr": ("Dites-nous depuis quand l'animal est chez vous.", "Demandez une nouvelle analyse des selles", "Ce que nous avons vu doit d'abord guérir.")}
        for language, (owned, test, ill) in said.items():
            for findings in ([], [{"code": "nose-discharge", "severity": "mild"}]):
                done = subprocess.run([PROGRAM, "sheet", "-", "-o", "-", "--today", TODAY, "--language", language], input=record(**lacking, findings=findings).encode(), capture_output=True, cwd=ROOT)
                self.assertEqual(done.returncode, 0, done.stderr)
                text = subprocess.run(["pdftotext", "-raw", "-", "-"], input=done.stdout, capture_output=True, check=True).stdout.decode()
                text = " ".join(text.replace("\u00a0", " ").split())
                for one in (owned, test):
                    self.assertEqual(one in text, not findings, (language, one, text))
                self.assertEqual(ill in text, bool(findings), (language, text))

    def test_who_stays_awake_has_light_as_in_summer(self):
        """No rest, full warmth and 12-14 hours of light (reference 5, the rule): each kind that rests, ill in winter though nobody asked for a rest, and
        one whose rest is refused for the time it has been owned (the clinical table, settlement 55)."""
        sheets = {path.stem: read_yaml(path.read_text()) for path in (ROOT / "species-sheets").glob("*.yaml")}
        resting = sorted(name for name, sheet in sheets.items() if sheet["species"]["brumation"] == "after-check")
        self.assertGreater(len(resting), 10)
        for name in resting:
            ill = {"visit": {"date": "2026-01-12", "kind": "checkout"}, "patient": {"name": "Fern", "species": name, "hatched": "2018-05"},
                   "findings": [{"code": "airway-infection", "severity": "moderate"}]}
            new = {**ill, "findings": [], "winter-rest": {"planned": "yes"}, "history": {"owned-since": "2025-12-01"}}
            for why, visit in (("ill", ill), ("new", new)):
                done = subprocess.run([PROGRAM, "explain", "--json", "--today", "2026-01-12", "-"], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT)
                held = {topic: phases[0]["stance"] for topic, phases in json.loads(done.stdout)["stances"].items()}
                self.assertEqual((held["winter-rest"], held["light-hours"]), ("not-this-year", "long"), (name, why))

    def test_a_score_in_the_thin_half_is_too_thin(self):
        self.assertEqual(self.rest(patient={"body-score": {"score": "2", "of": "5"}})["why"], ["thin"])
        self.assertEqual(self.rest(patient={"body-score": {"score": "3", "of": "5"}})["why"], [])

    def test_who_must_never(self):
        """Leopard, sulcata and red-footed tortoise (Lewis 2022); tropical snakes and water turtles kept indoors: practice, from memory."""
        for species in ("sulcata-tortoise", "leopard-tortoise", "red-footed-tortoise", "ball-python", "boa-constrictor", "veiled-chameleon",
                        "red-eared-slider", "axolotl", "green-iguana"):
            plan = self.plan(patient={"species": species, "mass": None, "length": None})
            self.assertEqual((plan["winter_rest"]["allowed"], plan["winter_rest"]["why"]), (False, ["species"]), species)
            self.assertEqual([p["stance"] for p in plan["stances"]["winter-rest"]], ["never"], species)
            for topic in ("warmth-day", "warmth-night"):
                self.assertNotIn("rest", [p["stance"] for p in plan["stances"].get(topic, [])], species)

    # ---- the plan ---------------------------------------------------------------------------------------------

    def test_the_days_of_a_first_rest(self):
        """1000 g: two weeks of emptying; not before November; six weeks, no more."""
        rest = self.rest()
        self.assertEqual(rest["temperature_c"], [3, 7])
        self.assertEqual(rest["dates"], {"last_meal": "2026-10-18", "starts": "2026-11-01", "wakes": "2026-12-13", "eats_by": "2026-12-20",
                                         # from the cool side's 20 C to 5 C in thirds
                                         "cooling": [{"on": "2026-10-25", "to_c": 15}, {"on": "2026-10-28", "to_c": 10}, {"on": "2026-11-01", "to_c": 5}],
                                         "warming": []})

    def test_the_heavier_the_longer_it_empties(self):
        for mass, length, last in (("1000 g", "17 cm", "2026-10-18"), ("1001 g", "17 cm", "2026-10-11"), ("2100 g", "22 cm", "2026-10-04")):
            self.assertEqual(self.rest(patient={"mass": mass, "length": length})["dates"]["last_meal"], last, mass)

    def test_four_months_for_one_that_has_rested_before(self):
        """122 days from 1 November: four months of 30.4 days."""
        self.assertEqual(self.rest(history={"woke-from-rest": "2026-03-01"})["dates"]["wakes"], "2027-03-03")

    def test_the_grams_of_each_limit(self):
        """1000 g: 8 % and 10 % off; 1 % a month is 2.3 g a week."""
        limits = self.rest()["limits_g"]
        self.assertEqual((limits["start"], limits["call"], limits["wake"]), (1000, 920, 900))
        # a scale is sure to 1 % (memory): 990 to 1010 g, each less 8 % and 10 %
        bands = {one["what"]: one["uncertainty"] for one in self.rest()["how"]}
        for what, band in (("winter_rest.call_g", (910.8, 929.2)), ("winter_rest.wake_g", (891, 909))):
            self.assertEqual(tuple(round(end, 6) for end in bands[what]), band, what)
        self.assertEqual([round(week["least"], 1) for week in limits["weekly"]], [1000, 997.7, 995.4, 993.1, 990.8, 988.5])

    def test_a_snake_rests_at_ten_to_fifteen_degrees(self):
        rest = self.rest(patient={"species": "corn-snake", "mass": "600 g", "length": "120 cm"})
        self.assertEqual((rest["allowed"], rest["temperature_c"]), (True, [10, 15]))
        self.assertEqual((rest["dates"]["last_meal"], rest["dates"]["wakes"]), ("2026-10-11", "2026-12-13"))

    def test_what_nobody_has_published_is_the_veterinarians(self):
        asked = {"species": "bearded-dragon", "mass": "390 g", "length": "20 cm"}
        rest = self.rest(patient=asked)
        self.assertTrue(rest["allowed"])
        self.assertIsNone(rest["temperature_c"])
        self.assertFalse(any(rest["dates"].values()))
        rest = self.rest(patient=asked, winter_rest={"starts": "2026-12-01", "longest": "8 weeks", "temperature": "15-18 C"})
        self.assertEqual((rest["temperature_c"], rest["dates"]["wakes"]), ([15, 18], "2027-01-26"))
        self.assertEqual((rest["dates"]["starts"], rest["dates"]["last_meal"]), ("2026-12-01", None), "how long it empties nobody has published")

    def test_no_meal_and_no_powder_falls_into_the_rest(self):
        dates = [d for d in self.plan()["dates"] if d["what"] in ("meal", "supplement")]
        self.assertTrue(dates)
        self.assertFalse([d for d in dates if "2026-10-18" < d["on"] < "2026-12-13"])

    def test_at_rest_it_is_weighed_for_the_rest_alone(self):
        """Weighed each week until the rest and again from its end; between them the rest's own weighings stand alone."""
        days = {"weigh": [], "rest-weigh": []}
        plan = self.plan(winter_rest={"longest": "14 days", "starts": "2026-10-12"}, decisions=[{"topic": "weighing", "stance": "weekly", "because": "it is light"}])
        for date in plan["dates"]:
            days.setdefault(date["what"], []).append(date["on"])
        starts, wakes = plan["winter_rest"]["dates"]["starts"], plan["winter_rest"]["dates"]["wakes"]
        self.assertEqual((starts, wakes), ("2026-10-12", "2026-10-26"))
        self.assertTrue([on for on in days["weigh"] if on < starts])
        self.assertTrue([on for on in days["weigh"] if on >= wakes])
        self.assertFalse([on for on in days["weigh"] if starts <= on < wakes])
        self.assertTrue(days["rest-weigh"])
        self.assertTrue(all(starts <= on <= wakes for on in days["rest-weigh"]))

    def test_on_each_day_one_warmth_holds(self):
        stances = {t: [(p["stance"], p["from"]) for p in self.plan()["stances"][t]] for t in ("warmth-day", "warmth-night", "food")}
        self.assertEqual(stances["warmth-day"], [("usual", "2026-09-25"), ("rest", "2026-10-25"), ("wake-steps", "2026-12-13"), ("usual", "2026-12-15")])
        self.assertEqual(stances["warmth-night"], [("usual", "2026-09-25"), ("rest", "2026-10-25"), ("no-drop", "2026-12-13"), ("usual", "2026-12-20")])
        self.assertEqual(stances["food"], [("as-usual", "2026-09-25"), ("rest-until", "2026-10-19"), ("offer-only", "2026-12-13"), ("as-usual", "2026-12-20")])

    # ---- under way, and just over ---------------------------------------------------------------------------------

    COLD = {"readings": {"basking-surface": "6 C", "warm-side": "6 C", "cool-side": "5 C", "night": "5 C"}, "lamp": {"kind": "none"}}

    def test_nobody_turns_the_heat_up_on_an_animal_at_rest(self):
        plan = self.plan(visit={"date": "2026-12-15"}, winter_rest={"planned": None, "in_progress": True, "starts": "2026-11-15"}, enclosure=self.COLD)
        self.assertEqual([a["code"] for a in plan["actions"]], [])
        self.assertEqual(plan["winter_rest"]["dates"]["wakes"], "2026-12-27")
        self.assertFalse([zone for zone in plan["temperature"] if zone.get("target")])

    def test_an_ill_one_at_rest_is_woken(self):
        plan = self.plan(visit={"date": "2026-12-15"}, winter_rest={"planned": None, "in_progress": True}, enclosure=self.COLD,
                         findings=[{"code": "nose-discharge", "severity": "mild"}])
        self.assertEqual(plan["stances"]["winter-rest"][0]["stance"], "wake-now")
        self.assertEqual((plan["winter_rest"]["allowed"], plan["winter_rest"]["why"]), (False, ["ill"]))
        self.assertEqual([p["stance"] for p in plan["stances"]["warmth-day"]], ["wake-steps", "usual"])
        self.assertNotIn("warm-basking", [a["code"] for a in plan["actions"]])

    def test_what_breaks_off_a_rest_that_is_under_way(self):
        """What is a danger at rest itself (common practice, no source): illness, eggs, youth, thinness. What only asks for more to be known before a rest,
        or for time between two, does not wake an animal that lies well."""
        cases = {
            "ill": ({"findings": [{"code": "nose-discharge", "severity": "mild"}]}, True),
            "gravid": ({"findings": [{"code": "gravid", "step": "early"}], "patient": {"sex": "female"}}, True),
            "too-young": ({"patient": {"hatched": "2024-06", "mass": "90 g", "length": "7.7 cm"}, "history": {"owned-since": "2024-08-01"}}, True),
            "thin": ({"patient": {"mass": "800 g"}}, True),
            "was-ill": ({"history": {"operated": "2026-04-10"}}, False),
            "age-unknown": ({"patient": {"hatched": None}}, False),
            "weight-unknown": ({"patient": {"mass": None}}, False),
            "newly-owned": ({"history": {"owned-since": "2026-06-01"}}, False),
            "time-unknown": ({"history": {"owned-since": None}}, False),
            "untested": ({"history": {"stool-clean": "2026-06-01"}}, False),
            "woken": ({"history": {"woke-from-rest": "2026-06-10"}}, False),
        }
        for why, (parts, wakes) in cases.items():
            rest = self.rest(visit={"date": "2026-12-15"}, winter_rest={"planned": None, "in_progress": True}, enclosure=self.COLD, **parts)
            self.assertEqual(rest["why"], [why] if wakes else [], why)

    def test_a_tenth_lost_at_rest_wakes_it(self):
        for mass, why in (("907 g", ["lost"]), ("910 g", [])):
            rest = self.rest(visit={"date": "2026-12-15"}, winter_rest={"planned": None, "in_progress": True},
                             patient={"mass": mass, "length": None, "earlier": [{"on": "2026-11-14", "mass": "1008 g"}]})
            self.assertEqual(rest["why"], why, mass)

    def test_just_awake_there_is_no_hot_spot_yet(self):
        for day, stance in (("2026-03-15", "wake-steps"), ("2026-03-16", "usual")):
            plan = self.plan(visit={"date": day}, winter_rest={"planned": None}, history={"woke-from-rest": "2026-03-14", "stool-clean": None},
                             enclosure={"readings": {"basking-surface": "25 C", "warm-side": "22 C"}})
            self.assertEqual(plan["stances"]["warmth-day"][0]["stance"], stance)
            self.assertEqual("warm-basking" in [a["code"] for a in plan["actions"]], stance == "usual")

    def test_who_is_woken_is_warmed_in_steps_by_night_as_by_day(self):
        """No place is turned up in one night: two days (memory, `rest-wake-days`) are three equal steps from what the warm side shows to the low end of
        the band of that day, ill or not. King snake, airway: upper half of 25-32, 28.5. Hermann's tortoise, mites: the day's own cool side stays."""
        king = {"name": "Tux", "species": "common-kingsnake", "mass": "690 g", "length": "121 cm", "hatched": "2018-08"}
        corn = {"name": "Moss", "species": "corn-snake", "mass": "400 g", "length": "110 cm", "hatched": "2018-08"}
        cold = {"readings": {"warm-side": "11 C", "cool-side": "9 C", "night": "8 C"}}
        ill = {"findings": [{"code": "airway-infection", "severity": "mild"}]}
        for patient, parts in ((king, ill), (corn, ill), (king, {"findings": [{"code": "worms", "severity": "mild"}]}), ({}, ill)):
            with self.subTest(patient=patient, parts=parts):
                plan = self.plan(visit={"date": "2026-12-15"}, patient=patient, winter_rest={"planned": None, "in_progress": True}, enclosure=cold,
                                 follow_up={"recheck": "10 days"}, **parts)
                codes = [one["code"] for one in plan["actions"]]
                self.assertEqual(codes[0], "end-winter-rest")
                self.assertFalse([one for one in codes if one.startswith(("warm-", "raise-"))])
                self.assertFalse([zone for zone in plan["temperature"] if zone.get("target")])
                steps = plan["winter_rest"]["dates"]["warming"]
                self.assertEqual([one["on"] for one in steps], ["2026-12-15", "2026-12-16", "2026-12-17"])
                rises = [b["to_c"] - a["to_c"] for a, b in zip([{"to_c": 11}] + steps, steps)]
                self.assertTrue(all(abs(rise - rises[0]) < 1e-6 for rise in rises) and 0 < rises[0] < 7, rises)
                if patient is king and parts is ill:
                    self.assertEqual([round(one["to_c"], 2) for one in steps], [16.83, 22.67, 28.5])

    def test_the_first_meal_of_one_that_is_woken_is_small_and_waits_for_the_warmth(self):
        """Nothing on the two days of warming, then no meal above half the usual (memory); nobody calls that it eats nothing before it was offered any, and
        who signs is asked for the day, which no source has."""
        plan = self.plan(visit={"date": "2026-12-15"}, winter_rest={"planned": None, "in_progress": True}, follow_up={"recheck": "10 days"},
                         patient={"name": "Tux", "species": "common-kingsnake", "mass": "690 g", "length": "121 cm", "hatched": "2018-08"},
                         enclosure={"readings": {"warm-side": "11 C", "cool-side": "9 C", "night": "8 C"}}, findings=[{"code": "worms", "severity": "mild"}],
                         diet={"food": "mouse", "size": "adult", "count": "2", "every": "10 days", "last": "2026-11-01"})
        self.assertEqual([(one["stance"], one["from"]) for one in plan["stances"]["food"]], [("rest-until", "2026-12-15"), ("offer-only", "2026-12-17")])
        self.assertEqual(plan["feeding"]["next"][0], "2026-12-17")
        two_adult_mice_g = (2 * 20, 2 * 35)  # a usual meal of hers, by hand; half of it is less than one band's low end
        self.assertLess(plan["feeding"]["meal_g"][1], two_adult_mice_g[1] / 2 + 1)
        self.assertIn("first-meal-after-fast", [one["code"] for one in plan["review"]])

    def test_the_air_of_a_cold_box_is_read_again_once_it_is_warm(self):
        """80 % at 12 C is 37 % at 25 C (Buck 1996: 14.0 hPa of 31.7, by hand): no damp is let out, none put in, for what the cold air shows. Where it is warm,
        the same number is told as it was."""
        for species in ("argentine-tegu", "common-kingsnake"):
            for warm, cool, air, codes in (("14 C", "12 C", "82 %", {"measure-humidity-warm"}), ("14 C", "12 C", "20 %", {"measure-humidity-warm"}),
                                           ("31 C", "25 C", "98 %", {"lower-humidity"}), ("14 C", "12 C", None, set())):
                with self.subTest(species=species, warm=warm, air=air):
                    readings = {"warm-side": warm, "cool-side": cool, "humidity-at": "cool-side", **({"humidity": air} if air else {})}
                    plan = self.plan(visit={"date": "2026-11-29"}, patient={"species": species, "mass": None, "length": None}, winter_rest={"planned": None, "in_progress": True},
                                     findings=[{"code": "nose-discharge", "severity": "mild"}], enclosure={"readings": readings})
                    told = {one["code"] for one in plan["actions"]}
                    self.assertEqual(told & {"measure-humidity-warm", "lower-humidity", "raise-humidity", "measure-humidity"}, codes)

    def test_whatever_it_eats_its_first_meal_waits_for_the_warmth(self):
        """Food lies in a cold gut, of insects as of mice: no day alone opens the first meal (readers of printed sheets)."""
        said = {"argentine-tegu": "it must be warm enough", "common-kingsnake": "it must be warm enough", "hermanns-tortoise": "it must be warm enough"}
        rests = {"winter_rest": {"planned": None, "in_progress": True}, "visit": {"date": "2026-11-29"}}
        woke = {"winter_rest": {"planned": None}, "visit": {"date": "2026-03-15"}, "history": {"woke-from-rest": "2026-03-14", "stool-clean": None}}
        for species, words in said.items():
            for parts in (rests, woke):
                with self.subTest(species=species, parts=parts):
                    home = {"patient": {"species": species, "mass": None, "length": None}, "findings": [{"code": "toe-death" if "tegu" in species else "worms", "severity": "mild"}],
                            "enclosure": {"readings": {"warm-side": "14 C", "cool-side": "12 C"}}, **parts}
                    self.assertEqual(self.plan(**home)["stances"]["food-gate"][0]["stance"], "warm-and-watered-first")
                    done = subprocess.run([PROGRAM, "sheet", "-", "-o", "-", "--today", home["visit"]["date"]], input=record(**home).encode(), capture_output=True, cwd=ROOT)
                    text = subprocess.run(["pdftotext", "-raw", "-", "-"], input=done.stdout, capture_output=True, check=True).stdout.decode()
                    self.assertIn(words, " ".join(text.split()))

    def test_the_first_meal_after_a_long_fast_is_small_wherever_it_lay(self):
        """Awake or not: once it has eaten nothing for longer than its kind bears (14 days, losing weight), half a meal (memory), and prey swallowed whole comes
        two days (memory) later than tomorrow into a cold box. One that ate last week eats as it did; one with a rising share of its own keeps that."""
        for species, food in (("common-kingsnake", "mouse"), ("corn-snake", "mouse")):
            for last, warm, found, small, day in (("2026-10-12", "25 C", "weight-falling", True, "2026-12-02"), ("2026-10-12", "30 C", "weight-falling", True, "2026-11-30"),
                                                  ("2026-11-22", "25 C", "weight-falling", False, "2026-12-02"), ("2026-10-12", "30 C", "underweight", False, "2026-11-30")):
                with self.subTest(species=species, last=last, warm=warm, found=found):
                    plan = self.plan(visit={"date": "2026-11-29"}, patient={"name": "Tux", "species": species, "mass": "690 g", "length": "121 cm", "hatched": "2018-08",
                                                                           "earlier": [{"on": "2026-11-05", "mass": "790 g"}]},
                                     enclosure={"readings": {"warm-side": warm}}, findings=[{"code": found, "severity": "moderate"}], winter_rest={"planned": None},
                                     diet={"food": food, "size": "adult", "count": "2", "every": "10 days", "last": last})
                    self.assertEqual("first-meal-after-fast" in [one["code"] for one in plan["review"]], last == "2026-10-12")
                    calls = [one["because"] for phase in plan["stances"]["food"] for one in [phase] + phase.get("lost", [])]
                    self.assertEqual("call:long-fast" in calls, small, calls)
                    self.assertEqual(plan["feeding"]["next"][0], day)

    def test_no_small_meal_for_eggs_nor_for_who_eats_a_little_each_day(self):
        """A gravid animal is never given less, and insects of a chameleon that ate five days ago are no large meal (the clinical table, gravid, food)."""
        for species, found, last, small in (("corn-snake", "worms", "2026-09-01", True), ("corn-snake", "gravid", "2026-09-01", False), ("panther-chameleon", "worms", "2026-11-20", False)):
            plan = self.plan(visit={"date": "2026-11-29"}, patient={"name": "Tux", "species": species, "sex": "female", "mass": None, "length": None, "hatched": "2018-08"},
                             findings=[{"code": found, **({"step": "early"} if found == "gravid" else {"severity": "mild"})}], winter_rest={"planned": None},
                             diet={"food": "mouse" if species == "corn-snake" else "cricket", "count": "2", "every": "10 days", "last": last})
            calls = [one["because"] for phase in plan["stances"]["food"] for one in [phase] + phase.get("lost", [])]
            self.assertEqual("call:long-fast" in calls, small, (species, found, calls))

    def test_who_woke_yesterday_into_a_cold_box_is_warmed_in_steps_too(self):
        for warm, told in (("12 C", True), ("29 C", False), (None, False)):
            plan = self.plan(visit={"date": "2026-03-15"}, winter_rest={"planned": None}, history={"woke-from-rest": "2026-03-14", "stool-clean": None},
                             enclosure={"readings": {"warm-side": warm} if warm else {}})
            codes = [one["code"] for one in plan["actions"]]
            self.assertEqual("warm-in-steps" in codes, told, (warm, codes))
            self.assertNotIn("warm-warm-side", codes)
            self.assertEqual(bool(plan["winter_rest"]["dates"]["warming"]), told)

    def test_the_veterinarian_decides_with_a_second_yes(self):
        decision = {"topic": "winter-rest", "stance": "plan", "because": "it rested well for ten years"}
        done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=record(history={"owned-since": None}, decisions=[decision]),
                              capture_output=True, text=True, cwd=ROOT)
        self.assertEqual(done.returncode, 1)
        self.assertIn("confirmed: yes", done.stderr)
        rest = self.rest(history={"owned-since": None}, decisions=[{**decision, "confirmed": True}])
        self.assertEqual((rest["allowed"], rest["dates"]["starts"]), (True, "2026-11-01"))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
