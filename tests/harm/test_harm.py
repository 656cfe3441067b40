#!/usr/bin/env python3
"""Each way a sheet could hurt an animal, looked at from outside: the record goes in, the plan and the printed words
come out, and the arithmetic here is the test's own. tests/harm/mutations.py breaks the program on purpose and shows that
each of these fails."""
import json
import math
import re
import subprocess
import sys
import tempfile
import unittest
from datetime import date
from pathlib import Path


sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402
from findings import without_excluded  # noqa: E402

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-16"


def run(*words, stdin=None):
    return subprocess.run([PROGRAM, *map(str, words)], input=stdin, capture_output=True, cwd=ROOT, timeout=60)


def record(species="ball-python", **parts):
    base = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"},
            "patient": {"name": "Sorrel", "species": species}, "keeper": {"name": "Lena Marsh", "language": "en", "units": "metric"}}
    for key, value in parts.items():
        base[key.replace("_", "-")] = {**base.get(key, {}), **value} if isinstance(value, dict) else value
    return json.dumps(base).encode()


class Harm(unittest.TestCase):
    def plan(self, visit):
        done = run("explain", "--json", "--today", TODAY, "-", stdin=visit)
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        return json.loads(done.stdout)

    def printed(self, visit, *words, order="-layout"):
        with tempfile.TemporaryDirectory() as folder:
            out = Path(folder) / "sheet.pdf"
            done = run("sheet", "--today", TODAY, "-o", out, *words, "-", stdin=visit)
            self.assertEqual(done.returncode, 0, done.stderr.decode())
            text = subprocess.run(["pdftotext", order, out, "-"], capture_output=True, text=True, check=True).stdout
        return text

    def flat(self, visit, *words, order="-layout"):
        return re.sub(r"\s+", " ", self.printed(visit, *words, order=order))

    # ---- the cold that nobody saw -----------------------------------------------------------------------

    def test_a_night_without_heat_is_told(self):
        """A week of a logger in which the heater fails once, from 22 h to 6 h (eight hours between the first and the last cold reading): printed,
        remarked, and judged as a night that is too cold, however good all other nights are. A corn snake's night is 18 C or more (its sheet)."""
        visit = ROOT / "tests/sheet/cases/cold-night-corn-snake.yaml"
        done = run("explain", "--json", "--today", "2026-03-20", visit)
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        plan = json.loads(done.stdout)
        self.assertIn("log-below-limit", [one["code"] for one in plan["review"]])
        self.assertEqual(next(one["verdict"] for one in plan["temperature"] if one["zone"] == "night"), "too-low")
        with tempfile.TemporaryDirectory() as folder:
            out = Path(folder) / "sheet.pdf"
            self.assertEqual(run("sheet", "--drafts", "--today", "2026-03-20", "-o", out, visit).returncode, 0)
            text = subprocess.run(["pdftotext", "-raw", out, "-"], capture_output=True, text=True, check=True).stdout
        self.assertIn("below 18 °C for at most 8 hours on end", re.sub(r"\s+", " ", text))

    # ---- food that poisons ---------------------------------------------------------------------------------

    def test_what_kills_is_named_wherever_food_is_offered(self):
        """Half a firefly can kill an adult dragon (animal poison control, in the reference's copy), avocado and rhubarb leaves are toxic, goldfish
        and minnows break down vitamin B1: on the sheet for the fridge, however ill the animal is."""
        for species, words in (("bearded-dragon", ("fireflies", "insects from outdoors", "avocado", "rhubarb leaves")), ("whites-tree-frog", ("fireflies",)),
                               ("green-iguana", ("avocado", "rhubarb leaves")), ("red-eared-slider", ("goldfish", "minnows", "carp"))):
            for found in ([], [{"code": "underweight", "severity": "moderate"}, {"code": "diarrhoea", "severity": "mild"}]):
                never = " ".join(re.findall(r"Never give ([^.]*)\.", re.sub(r"\s+", " ", self.printed(record(species, findings=found), order="-raw"))))
                for word in words:
                    self.assertIn(word, never, species)

    def test_what_harms_is_taken_out_of_the_dish(self):
        """The clinical table: avocado, rhubarb leaves and fireflies are poison (animal poison control, a copy; the rest from memory), goldfish, minnows
        and carp break down vitamin B1 (a copy), frozen or not. What the keeper gives of it comes first and by name, fasting or not."""
        for species, food, word, code in (("green-iguana", "avocado", "avocado", "stop-food"), ("hermanns-tortoise", "rhubarb-leaf", "rhubarb leaves", "stop-food"), ("hermanns-tortoise", "oleander", "oleander", "stop-food"),
                                          ("whites-tree-frog", "fireflies", "fireflies", "stop-food"), ("bearded-dragon", "avocado", "avocado", "stop-food"),
                                          ("red-eared-slider", "goldfish", "goldfish", "stop-fish"), ("axolotl", "minnow", "minnows", "stop-fish")):
            for found in ([], [{"code": "belly-mass", "severity": "severe"}]):
                visit = record(species, diet=[{"food": food, "every": "7 days"}], findings=found)
                self.assertIn(code, [one["code"] for one in self.plan(visit)["actions"] if one["first"]], (species, food))
                self.assertRegex(re.sub(r"\s+", " ", self.printed(visit, order="-raw")), f"(?i)no more {word}", (species, food))
            for fine in ("collards", "earthworm", "trout"):
                self.assertFalse({"stop-food", "stop-fish"} & set(self.actions(species, diet=[{"food": fine, "every": "7 days"}])), (species, fine))

    def test_what_is_not_known_of_food_is_never_called_good(self):
        """A food without numbers, and calcium that oxalate may have bound, leave the whole food unjudged."""
        for other in ("seaweed", "fruit", "squash"):
            diet = self.plan(record("green-iguana", diet=[{"food": "collards", "meal": "50 g", "every": "1 days"}, {"food": other, "every": "1 days"}]))
            self.assertEqual(diet["feeding"]["diet"]["verdict"], "unknown", other)
        self.assertNotEqual(self.plan(record("green-iguana", diet={"food": "spinach", "meal": "50 g", "every": "1 days"}))["feeding"]["diet"]["verdict"],
                            "in-range")

    def test_poor_plants_are_changed(self):
        """The clinical table: staples from 1.5 of calcium to phosphorus and little oxalate, lettuce, spinach and fruit at most now and then."""
        for species, food in (("green-iguana", "spinach"), ("bearded-dragon", "iceberg"), ("red-footed-tortoise", "banana"), ("hermanns-tortoise", "romaine")):
            self.assertIn("change-plants", self.actions(species, diet={"food": food, "every": "1 days"}), (species, food))
        self.assertNotIn("change-plants", self.actions("green-iguana", diet={"food": "dandelion", "every": "1 days"}))
        # no new food while nothing may be eaten; of insects none while an ill animal keeps to what it is used to
        for code, severity, leaves in (("belly-mass", "severe", False), ("airway-infection", "moderate", True)):
            found = [{"code": code, "severity": severity}]
            self.assertEqual("change-plants" in self.actions("green-iguana", diet={"food": "spinach", "every": "1 days"}, findings=found), leaves, code)
            self.assertNotIn("more than one kind", self.flat(record("leopard-gecko", diet={"food": "cricket", "every": "2 days"}, findings=found)), code)

    def test_vitamin_b1_goes_with_fish_alone(self):
        """The sheets' own choice: with every meal of fish, not of pellets or leaves."""
        for species in ("red-eared-slider", "painted-turtle", "garter-snake"):
            plan = self.plan(record(species))
            self.assertEqual([one["with_fish"] for one in plan["feeding"]["supplements"] if one["what"] == "thiamine"], [True], species)
            text = re.sub(r"\s+", " ", self.printed(record(species), order="-raw"))
            self.assertIn("Vitamin B1 (thiamine) with each meal of fish", text, species)
            self.assertNotRegex(text, r"thiamine\) at (each|all)", species)

    # ---- food of the ill ----------------------------------------------------------------------------------

    def test_no_ill_or_gravid_animal_is_fed_more_than_it_eats(self):
        """A gravid boa of 6.2 kg that eats one rat of 300 g every four weeks gets that, and not a share of a mass that is her young's; an axolotl in
        fouled water gets one worm in place of two (the clinical table; common practice, no source)."""
        boa = self.plan(record("boa-constrictor", patient={"sex": "female", "hatched": "2018", "mass": "6.2 kg", "length": "190 cm"},
                               diet={"food": "rat", "meal": "300 g", "every": "28 days", "last": "2026-03-01"}, findings=[{"code": "gravid", "step": "late"}]))["feeding"]
        self.assertEqual((boa["meal_g"], boa["every_days"], boa["next"][0]), ([300, 300], [28, 28], "2026-03-29"))
        self.assertEqual([(one["food"], one["count"]) for one in boa["foods"]], [("rat", 1)])
        axolotl = self.plan(record("axolotl", diet={"food": "earthworm", "count": 2, "every": "2 days"}, water={"ammonia": "0.5 mg/l"},
                                   findings=[{"code": "gill-damage", "severity": "mild"}]))["feeding"]
        self.assertEqual(axolotl["insects"], [1, 1])

    def test_no_frog_is_dieted_without_a_number(self):
        """From fifteen insects a day to the usual three to six every third day is a cut of nine tenths that nobody ordered (the clinical table: never a
        frog without the veterinarian's number)."""
        fat = record("whites-tree-frog", patient={"mass": "115 g", "hatched": "2019"}, diet={"food": "cricket", "count": 15, "every": "1 days"},
                     findings=[{"code": "overweight", "severity": "severe"}])
        self.assertIsNone(self.plan(fat)["feeding"]["insects"])
        self.assertRegex(self.flat(fat), r"_+ insects every _+ days")

    # ---- water that poisons --------------------------------------------------------------------------------

    def water(self, **tests):
        return self.plan(record("axolotl", water={key.replace("_", "-"): value for key, value in tests.items()}))

    def test_the_gas_in_the_water_is_never_made_little(self):
        """Emerson et al. 1975 in the reference's worked values: 1.9 mg/l at pH 7.5 and 18 C are 0.02 mg/l of NH3, a pH of 8.5 there gives 9.78 % of all."""
        for total, ph, temp, gas in ((1.9, "7.5", "18 C", 0.0203), (1.0, "8.5", "18 C", 0.0978), (1.0, "6.5", "10 C", 0.00059)):
            water = self.water(ammonia=f"{total} mg/l", ammonia_as="total", ph=ph, temperature=temp)["water"]
            self.assertTrue(math.isclose(water["nh3_mg_l"], gas, rel_tol=0.01), water)

    def test_whatever_shows_of_a_poison_is_changed_today(self):
        """In part, of nearly the same warmth: never the whole, never a shock."""
        for poison in ("ammonia", "nitrite"):
            plan = self.water(**{poison: "0.05 mg/l"})
            self.assertEqual(plan["actions"][0]["code"], "change-part-water")
            low, high = plan["water"]["change_share_percent"]
            self.assertTrue(0 < low <= high <= 50, plan["water"])
            self.assertLessEqual(plan["water"]["change_apart_c"], 2)
        self.assertEqual(self.water(chlorine="0.05 mg/l")["actions"][0]["code"], "treat-water")

    def test_fouled_water_is_changed_before_it_is_cooled(self):
        """A part at the same warmth first; to cool at once would be a second shock."""
        plan = self.water(ammonia="0.05 mg/l", temperature="25 C")
        self.assertEqual([one["code"] for one in plan["actions"]][:2], ["change-part-water", "cool-water"])

    def test_too_warm_water_is_cooled_in_steps(self):
        cooling = self.water(temperature="25 C")["water"]["cooling"]
        self.assertLessEqual(cooling["step_c_hour"], 1)
        self.assertLessEqual(cooling["step_c_day"], 4)
        text = self.flat(record("axolotl", water={"temperature": "25 C"}), "--drafts")
        self.assertIn("never add ice", text)

    # ---- a reading at the edge -------------------------------------------------------------------------------

    def test_nothing_above_its_limit_waits_for_a_second_reading(self):
        """The gecko's sheet, read apart: a reading past the upper limit is too high whatever the thermometer's error, and in a place without a target too."""
        limit = float(re.search(r"[\d.]+", str(read_yaml((ROOT / "species-sheets/crested-gecko.yaml").read_text())["temperature"]["upper-limit"]["range"])).group())
        for place in ("warm-side", "basking-surface"):
            plan = self.plan(record("crested-gecko", enclosure={"readings": {place: f"{limit + 0.3} C"}}))
            self.assertEqual({z["zone"]: z["verdict"] for z in plan["temperature"]}[place], "too-high")

    def test_a_reading_at_the_edge_never_comes_first(self):
        """79 F against 26 C: a tenth of a degree, a thermometer's error ten times that."""
        plan = self.plan(record("ball-python", enclosure={"readings": {"warm-side": "29.9 C", "night": "18 C"}}))
        self.assertEqual(plan["actions"][-1]["code"], "measure-again")
        self.assertEqual(plan["actions"][0]["code"], "warm-night")

    # ---- an ill animal cooled, an amphibian warmed --------------------------------------------------------

    @staticmethod
    def band(about):
        numbers = [float(n) for n in re.findall(r"[\d.]+", str(about["range"]))] if about else []
        return [numbers[0], numbers[-1]] if numbers else None

    def test_no_ill_reptile_is_cooled_and_no_amphibian_warmed(self):
        """Every species, read by a general-purpose YAML reader, with an infection, a wound and an operation. WikiVet's preferred air zones, where a
        sheet has one, are passed at no place of an ill reptile on the cool side; elsewhere common practice, no source: the night's cool end is that of
        the day, nothing is hotter than the healthy basking spot or the sheet's limit. Amphibians keep their own bands."""
        seen = 0
        for path in sorted((ROOT / "species-sheets").glob("*.yaml")):
            sheet = read_yaml(path.read_text())
            own = {zone: self.band(about) for zone, about in sheet["temperature"].items() if isinstance(about, dict)}
            amphibian = sheet["species"]["group"] in ("frog", "salamander")
            ill = "amphibian-airway" if amphibian else "airway-infection"
            for parts in ({"findings": [{"code": ill, "severity": "moderate"}]}, {"findings": [{"code": "wound", "severity": "moderate"}]},
                          {"findings": [{"code": "underweight", "severity": "severe"}]}, {"done_today": ["surgery"]}):
                plan = self.plan(record(path.stem, enclosure={"readings": {"night": "17 C"}}, **parts))
                zones = {z["zone"]: z for z in plan["temperature"]}
                if amphibian:
                    for zone, about in zones.items():
                        self.assertEqual(about["target"], own.get(zone), (path.stem, zone))
                    continue
                least = max(own["cool-side"][0], (own.get("preferred-air") or own["cool-side"])[0])
                most = min(own["basking-surface"][1] if "basking-surface" in own else 99, (own.get("upper-limit") or [99])[0])
                self.assertGreaterEqual(zones["night"]["target"][0], least, (path.stem, parts))
                self.assertEqual(zones["night"]["verdict"], "too-low", (path.stem, parts))
                self.assertNotIn("cool-night", [a["code"] for a in plan["actions"]])
                # one box: no place is asked to be warmer by night than it is by day
                for night, day in (("night", "cool-side"), ("night-warm-side", "warm-side")):
                    for end in (0, 1):
                        if night in zones and day in zones:
                            self.assertLessEqual(zones[night]["target"][end], zones[day]["target"][end], (path.stem, parts, night))
                for zone in ("warm-side", "cool-side", "night", "night-warm-side"):
                    if zone in zones:
                        self.assertLessEqual(zones[zone]["target"][1], most, (path.stem, zone))
                seen += 1
        self.assertGreater(seen, 100)

    # ---- a medicine -------------------------------------------------------------------------------------

    def test_a_tenfold_dose_is_noticed_and_no_other_is_printed(self):
        """5 mg/kg x 900 g = 4.5 mg; of 25 mg/ml that is 0.18 ml. 0.2 ml was rounded, 2 ml and 0.02 ml are slips of the point."""
        for amount, noticed in (("0.18 ml", None), ("0.2 ml", None), ("0.3 ml", "medicine-amount-differs"), ("2 ml", "medicine-tenfold"),
                                ("0.02 ml", "medicine-tenfold"), ("45 mg", "medicine-tenfold"), ("4500 µg", None), ("0.05 g", "medicine-tenfold")):
            medicine = {"name": "Syrup", "amount": amount, "every": "24 h", "for": "10 days", "first": TODAY, "dose": "5 mg/kg", "concentration": "25 mg/ml"}
            if noticed == "medicine-tenfold":
                refused = run("explain", "-", "--today", TODAY, stdin=record(patient={"mass": "900 g"}, medicines=[medicine]))
                self.assertEqual((refused.returncode, refused.stdout), (1, b""), amount)
                self.assertIn("add 'confirmed: yes' [B366]", refused.stderr.decode())
                medicine["confirmed"] = True
            visit = record(patient={"mass": "900 g"}, medicines=[medicine])
            codes = [one["code"] for one in self.plan(visit)["review"] if one["code"] in ("medicine-tenfold", "medicine-amount-differs")]
            self.assertEqual(codes, [noticed] if noticed else [], amount)
            text = self.printed(visit)
            self.assertIn(amount, text.replace("\u00a0", " "))
            self.assertNotIn("mg/kg", text)
            if amount != "0.18 ml":
                self.assertNotRegex(text, r"\b0\.18\b")

    def test_no_dose_is_added_or_lost(self):
        """Ten days of one dose each are ten doses, counted by hand: 27 February to 8 March of a year without a leap day."""
        plan = self.plan(record(medicines=[{"name": "Syrup", "amount": "0.2 ml", "every": "24 h", "for": "10 days", "first": "2027-02-27"}]))
        self.assertEqual([d["on"] for d in plan["medicines"][0]["doses"]],
                         ["2027-02-27", "2027-02-28", *(f"2027-03-0{day}" for day in range(1, 9))])

    # ---- a target band swapped --------------------------------------------------------------------------

    def test_each_band_stands_at_its_own_zone(self):
        """The species' files, read by a general-purpose YAML reader, against the plan: every zone of every species."""
        seen = 0
        for path in sorted((ROOT / "species-sheets").glob("*.yaml")):
            sheet = read_yaml(path.read_text())
            zones = {z["zone"]: z["target"] for z in self.plan(record(path.stem))["temperature"]}
            for zone, about in sheet["temperature"].items():
                if zone not in zones:
                    continue
                low, high = map(float, re.match(r"([\d.]+)(?:-([\d.]+))? C$", about["range"]).group(1, 2) if "-" in about["range"]
                                else (re.match(r"[\d.]+", about["range"]).group(),) * 2)
                self.assertEqual(zones[zone], [low, high], f"{path.stem} {zone}")
                seen += 1
        self.assertGreater(seen, 90)

    def test_warm_is_printed_as_warm(self):
        text = self.printed(record(enclosure={"readings": {"warm-side": "27 C", "cool-side": "25 C"}}), order="-raw")
        of = {name: re.search(rf"{name}[^\d]*(\d+–\d+ °C)", text)[1] for name in ("Basking spot", "Warm side", "Cool side", "Night")}
        # species-sheets/ball-python.yaml: 32-34 and 30-32 C (common practice, no source), 26-28 C (Germany, federal ministry of agriculture, pet
        # data base), 23-25 C (Austria, 2. Tierhaltungsverordnung)
        for name, band in {"Basking spot": "32–34", "Warm side": "30–32", "Cool side": "26–28", "Night": "23–25"}.items():
            self.assertIn(f"{band} °C", of[name])

    # ---- a unit read as another -------------------------------------------------------------------------

    def test_one_reading_in_two_units_is_one_reading(self):
        """1 lb = 453.59237 g, 1 in = 2.54 cm (international yard and pound, 1959); F = 9/5 C + 32."""
        metric = self.plan(record(patient={"mass": "1360.77711 g", "length": "121.92 cm"}, enclosure={
            "size": "121.92 x 60.96 x 60.96 cm", "readings": {"basking-surface": "30 C", "night": "20 C"}}))
        us = self.plan(record(patient={"mass": "3 lb", "length": "4 ft"}, enclosure={
            "size": "48 x 24 x 24 in", "readings": {"basking-surface": "86 F", "night": "68 F"}}))
        for a, b in zip(metric["temperature"], us["temperature"]):
            for key in ("reading", "change"):
                if a[key] is not None:
                    self.assertAlmostEqual(a[key], b[key], places=6)
        for a, b in zip(metric["feeding"]["meal_g"], us["feeding"]["meal_g"]):
            self.assertAlmostEqual(a, b, places=3)
        self.assertEqual(metric["enclosure"]["verdict"], us["enclosure"]["verdict"])

    def test_bare_numbers_are_refused(self):
        for visit in (record(patient={"mass": 1450}), record(enclosure={"readings": {"night": 21}}), record(enclosure={"size": "120 x 60 x 60"})):
            done = run("sheet", "-o", "/dev/null", "--today", TODAY, "-", stdin=visit)
            self.assertEqual(done.returncode, 1)
            self.assertIn(b"unit", done.stderr)

    # ---- differences of temperature ----------------------------------------------------------------------

    def test_a_difference_has_no_32_in_it(self):
        """A basking spot of 29 C against 32-34 C lacks 3 C, which is 5.4 F: printed as 5 or 6, never as 37."""
        text = self.flat(record(visit={"kind": "email"}, keeper={"name": "Lena Marsh", "language": "en", "units": "us"},
                                enclosure={"readings": {"basking-surface": "29 C"}}))
        row = re.search(r"Basking spot.{0,60}", text).group()
        self.assertRegex(row, r"\b[56] °F\b")
        self.assertNotRegex(text, r"\b37(\.4)? °F")

    # ---- a lamp nearer than safe ----------------------------------------------------------------------------

    @staticmethod
    def tube(distance, length):
        """Irradiance of a line of light, by summing small pieces (no closed form)."""
        steps = 4000
        piece = length / steps
        return sum(piece * distance ** 2 / (distance ** 2 + ((i + 0.5) * piece - length / 2) ** 2) ** 2 for i in range(steps))

    def test_no_lamp_is_hung_nearer_than_safe(self):
        """UV index at the nearest distance <= the most the zone allows (Ferguson et al. 2010; Baines et al. 2016, table 1:
        zone 1 1.4, zone 3 7.4)."""
        lamps = ({"kind": "tube", "tube-length": "55 cm"}, {"kind": "compact"}, {"kind": "mercury-vapour"})
        for species, most in (("ball-python", 1.4), ("bearded-dragon", 7.4)):
            for lamp in lamps:
                for loss in (0, 35):
                    enclosure = {"lid": "mesh", "lamp": {**lamp, "measured": {"uvi": 4.0, "at": "30 cm"}, "mesh-loss": f"{loss} %",
                                                         "installed": "2026-01-10", "height": "35 cm"}}
                    uvb = self.plan(record(species, enclosure=enclosure))["uvb"]
                    if uvb["distance"]["nearest_cm"] is None:
                        continue
                    for key, bound in (("nearest_cm", most), ("recommended_cm", most)):
                        d = uvb["distance"][key]
                        share = self.tube(d, 55) / self.tube(30, 55) if lamp["kind"] == "tube" else (30 / d) ** 2
                        self.assertLessEqual(4.0 * (1 - loss / 100) * share, bound * 1.001, (species, lamp, loss, key))
                    self.assertLessEqual(uvb["distance"]["nearest_cm"], uvb["distance"]["recommended_cm"])

    def test_a_lamp_in_its_zone_is_left_and_a_stronger_one_is_not(self):
        """At the basking place between the zone's mean and its maximum (Ferguson et al. 2010; Baines et al. 2016, table 1: zone 3
        1.0-2.6 / 2.9-7.4)."""
        for species, uvi, verdict in (("argentine-tegu", 6, "in-range"), ("green-iguana", 5, "in-range"), ("bearded-dragon", 4, "in-range"),
                                      ("bearded-dragon", 8, "too-high"), ("bearded-dragon", 0.7, "too-low")):
            uvb = self.plan(record(species, enclosure={"lamp": {"kind": "compact", "measured": {"uvi": uvi, "at": "30 cm"}, "height": "30 cm"}}))["uvb"]
            self.assertEqual(uvb["verdict"], verdict, (species, uvi))
            self.assertEqual(uvb["change_cm"] == 0, verdict == "in-range", (species, uvi))

    def test_no_lamp_is_sent_above_the_lid(self):
        """12 at 40 cm is 7.4 (zone 3) at 50.9 cm: in a box of 45 cm nothing safe fits, in one of 60 cm it does, as far as it goes."""
        for height, fits in ((45, False), (60, True)):
            plan = self.plan(record("bearded-dragon", enclosure={"size": f"120 x 60 x {height} cm", "lamp": {
                "kind": "compact", "measured": {"uvi": 12, "at": "40 cm"}, "installed": "2026-01-10", "height": "30 cm"}}))
            codes = [one["code"] for one in plan["actions"]]
            self.assertEqual("weaker-lamp" in codes, not fits, height)
            self.assertEqual("hang-lamp-at" in codes, fits, height)
            self.assertLessEqual(plan["uvb"]["distance"]["recommended_cm"] or 0, height)

    def test_what_an_unknown_mesh_holds_back_is_not_nothing(self):
        plan = self.plan(record("bearded-dragon", enclosure={"lid": "mesh", "lamp": {
            "kind": "compact", "measured": {"uvi": 4, "at": "30 cm"}, "installed": "2026-01-10", "height": "30 cm"}}))
        self.assertEqual((plan["uvb"]["verdict"], plan["uvb"]["distance"]["recommended_cm"]), ("unknown", None))
        self.assertIn("measure-lamp", [one["code"] for one in plan["actions"]])

    def test_the_printed_height_is_the_one_computed(self):
        """A sheet that hangs at the box says the whole band where the lamp hangs well, its ends rounded inwards, and one height where it does not."""
        for kind in ("email", "checkout"):
            for height in ("50 cm", "15 cm"):
                visit = record("bearded-dragon", visit={"kind": kind}, enclosure={"size": "120 x 60 x 60 cm", "lid": "mesh", "lamp": {
                    "kind": "tube", "tube-length": "55 cm", "measured": {"uvi": 3.2, "at": "30 cm", "through-mesh": True}, "installed": "2026-01-10", "height": height}})
                uvb = self.plan(visit)["uvb"]
                distance, text = uvb["distance"], self.flat(visit)
                if kind == "checkout" and uvb["change_cm"] == 0:
                    self.assertIn(f"{math.ceil(distance['nearest_cm'])}–{math.floor(distance['farthest_cm'])} cm", text)
                else:
                    self.assertRegex(text, rf"\b{math.floor(distance['recommended_cm'] + 0.5)} cm")
                if uvb["change_cm"] != 0:
                    self.assertIn(f"Never nearer than {math.ceil(distance['nearest_cm'])} cm", text)

    def test_behind_glass_there_is_no_height(self):
        uvb = self.plan(record("bearded-dragon", enclosure={"lamp": {
            "kind": "tube", "tube-length": "55 cm", "measured": {"uvi": 3.2, "at": "30 cm"}, "behind": "glass", "height": "30 cm"}}))["uvb"]
        self.assertIsNone(uvb["distance"]["recommended_cm"])

    # ---- where it lies, and what cleans its things ---------------------------------------------------------

    def test_a_soft_boned_climber_is_not_lit_from_its_old_perch(self):
        """A point lamp of UVI 2.5 at 40 cm, 40 cm above a branch at 70 cm. On a perch of its own 15 cm it is 95 cm away, beyond the reading's
        reach; the mean of zone 3 is 1.0 to 2.6, of which the middle is aimed at: 40 cm x sqrt(2.5 / 1.8)."""
        box = {"size": "80 x 80 x 150 cm", "platform-height": "70 cm", "back-height": "3 cm", "readings": {"basking-surface": "33 C"},
               "lamp": {"kind": "compact", "measured": {"uvi": 2.5, "at": "40 cm"}, "height": "40 cm", "installed": "2026-01-10"}}
        bones = [{"code": "bent-bones", "severity": "moderate"}]
        patient = {"length": "15 cm", "hatched": "2025-03"}
        well, ill = (self.plan(record("veiled-chameleon", patient=patient, enclosure=box, findings=found)) for found in ([], bones))
        self.assertEqual(well["uvb"]["verdict"], "in-range")
        self.assertEqual((ill["uvb"]["verdict"], ill["uvb"]["lies_above_floor_cm"]), ("too-low", 15))
        self.assertAlmostEqual(ill["uvb"]["distance"]["recommended_cm"], 40 * math.sqrt(2.5 / 1.8), 3)
        self.assertEqual([z["verdict"] for z in ill["temperature"] if z["zone"] == "basking-surface"], ["unknown"])
        self.assertIn("hang-lamp-at", [one["code"] for one in ill["actions"] if one["first"]])
        text = self.flat(record("veiled-chameleon", patient=patient, enclosure=box, findings=bones), order="-raw")
        self.assertIn("The UVB lamp must hang 47 cm above the back there.", text)

    def test_a_germ_is_killed_by_what_was_published_and_never_by_bleach(self):
        """Johnson et al. 2003: Bd dies in 20 s in 70 % ethanol; Bryan et al. 2009: ranavirus, chlorhexidine of 0.75 % or more, 1 min. Steam against
        cryptosporidium is memory; against mites no source names a product."""
        for species, code, product, percent, seconds in (("whites-tree-frog", "chytrid", "ethanol", 70, 20), ("whites-tree-frog", "ranavirus", "chlorhexidine", 0.75, 60),
                                                         ("corn-snake", "cryptosporidium", "steam", None, None)):
            visit = record(species, findings=[{"code": code, "severity": "moderate", "state": "seen"}])
            row = self.plan(visit)["findings"][0]["disinfectant"]
            self.assertEqual((row["product"], row["percent"], row["seconds"]), (product, percent, seconds))
            self.assertEqual(row["source"]["trust"], "memory" if percent is None else "original")
            text = self.flat(visit, "--kind", "email")
            self.assertIn({"ethanol": "alcohol of 70 % for at least 20 seconds", "chlorhexidine": "chlorhexidine of 0.75 % for at least 60 seconds",
                           "steam": "steam or boiling water"}[product], text.replace("\N{NO-BREAK SPACE}", " "))
            self.assertEqual("Never use bleach near it." in text, species == "whites-tree-frog")
        self.assertIsNone(self.plan(record("corn-snake", findings=[{"code": "mites", "severity": "mild"}]))["findings"][0]["disinfectant"])

    # ---- what lies and stands in the box -------------------------------------------------------------------

    def actions(self, species, **parts):
        return [one["code"] for one in self.plan(record(species, **parts))["actions"]]

    def test_sand_in_the_gut_takes_the_sand_out(self):
        """The clinical table, impaction-of-sand: floor remove-loose for good. Paper stays."""
        blocked = [{"code": "impaction-of-sand", "severity": "moderate"}]
        for floor in ("sand", "soil", "gravel", "bark"):
            self.assertEqual(self.actions("bearded-dragon", findings=blocked, enclosure={"substrate": floor})[0], "take-out-loose-floor", floor)
        self.assertNotIn("take-out-loose-floor", self.actions("bearded-dragon", findings=blocked, enclosure={"substrate": "paper"}))

    def test_no_perch_reaches_into_the_lamp(self):
        """A point lamp of UVI 5 at 30 cm, held against the perch by the inverse square where the lamp will hang; zone 3 (Baines et al. 2016, table 1)."""
        def box(perch):
            return {"platform-height": "10 cm", "perch-height": perch, "lamp": {
                "kind": "compact", "measured": {"uvi": 5, "at": "30 cm"}, "height": "40 cm"}}
        near, low = (self.plan(record("bearded-dragon", enclosure=box(perch))) for perch in ("30 cm", "15 cm"))
        for plan, state in ((near, "too-near"), (low, "fine")):
            hangs = 40 + (plan["uvb"]["distance"].get("change_cm") or 0)
            below = plan["uvb"]["perch_below_lamp_cm"]
            self.assertAlmostEqual(below, hangs + 10 - (30 if state == "too-near" else 15), 4)
            self.assertAlmostEqual(plan["uvb"]["perch_uvi"], 5 * (30 / below) ** 2, 4)
            self.assertEqual(plan["uvb"]["perch"], state)
            self.assertEqual("lower-perch" in [one["code"] for one in plan["actions"]], state == "too-near")

    def test_who_hides_in_leaves_or_digs_is_told_of_no_second_hide(self):
        for species, hides, says in (("corn-snake", "1", "add-second-hide"), ("corn-snake", "0", "add-hides"), ("corn-snake", "2", None), ("western-hognose", "1", None),
                                     ("western-hognose", "0", "add-hide"), ("crested-gecko", "0", "add-cover"), ("veiled-chameleon", "0", None), ("axolotl", "0", None),
                                     ("red-eared-slider", "0", None)):
            found = [one for one in self.actions(species, enclosure={"hides": hides}) if one in ("add-hide", "add-hides", "add-second-hide", "add-cover")]
            self.assertEqual(found, [says] if says else [], (species, hides))

    # ---- who shares the box ------------------------------------------------------------------------------

    def test_kinds_that_do_not_belong_together_are_parted(self):
        """Merck, Management and husbandry of reptiles: species are not mixed, non-breeding snakes and aquatic turtles single, chameleons alone;
        Environmental diseases: males are territorial."""
        for species, box, parted in (("bearded-dragon", {"mates": ["leopard-gecko"]}, True), ("corn-snake", {"animals": "2"}, True),
                                     ("red-eared-slider", {"mates": ["red-eared-slider"]}, True), ("veiled-chameleon", {"animals": "2"}, True),
                                     ("bearded-dragon", {"animals": "2", "males": "2"}, True), ("bearded-dragon", {"animals": "2", "males": "1"}, False),
                                     ("hermanns-tortoise", {"animals": "2"}, False), ("corn-snake", {"animals": "1"}, False)):
            self.assertEqual("own-box" in self.actions(species, enclosure=box), parted, (species, box))

    def test_who_was_exposed_is_named(self):
        """The clinical table: what spreads calls for the mates by name."""
        spread = {"findings": [{"code": "mites", "severity": "mild"}], "enclosure": {"animals": "3", "mates": ["corn-snake", "common-kingsnake"]}}
        self.assertIn("show-mates", self.actions("corn-snake", **spread))
        self.assertIn("corn snake, common kingsnake", self.flat(record("corn-snake", **spread)).lower())

    def test_so_many_need_so_much_floor(self):
        """Austria, 2. Tierhaltungsverordnung, Anlage 4: 0.9 m2 for two axolotls of up to 30 cm, a quarter more for each further. The tortoises' law
        (Burgenland): 2 m2 for one or two, 0.5 m2 for each further."""
        for species, animals, least in (("axolotl", 2, 9000), ("axolotl", 3, 11250), ("axolotl", 4, 13500), ("hermanns-tortoise", 2, 20000),
                                        ("hermanns-tortoise", 4, 30000)):
            for length, width, big in ((100, 45, False), (int((least * 2) ** 0.5) + 1, int((least / 2) ** 0.5) + 2, True)):
                plan = self.plan(record(species, patient={"hatched": "2010", "length": "18 cm"}, enclosure={"animals": str(animals), "size": f"{length} x {width} x 60 cm"}))["enclosure"]
                wide, deep, _ = plan["minimum_cm"]
                self.assertGreaterEqual(wide * deep, least, (species, animals))
                self.assertLess(wide * deep, least * 1.05, (species, animals))
                self.assertEqual(plan["verdict"], "in-range" if big else "too-low", (species, animals, length, width))

    # ---- life in the sun ---------------------------------------------------------------------------------

    def test_no_lamp_and_no_vitamin_for_who_lives_in_the_sun(self):
        """The sun is the UVB source: no lamp is ordered and no D3 given; brought in, it needs a lamp (the clinical table, settlement 107)."""
        for species in ("hermanns-tortoise", "bearded-dragon", "green-iguana"):
            out = self.plan(record(species, enclosure={"outdoor": True}))
            self.assertTrue(out["uvb"]["sun"], species)
            self.assertNotIn("calcium-d3", [one["what"] for one in out["feeding"]["supplements"]], species)
            self.assertFalse({"add-uvb-lamp", "measure-lamp"} & {one["code"] for one in out["actions"]}, species)
        ill = self.plan(record("hermanns-tortoise", findings=[{"code": "airway-infection", "severity": "moderate"}], enclosure={"outdoor": True}))
        self.assertFalse(ill["uvb"]["sun"])
        self.assertLess({"bring-in", "add-uvb-lamp"}, {one["code"] for one in ill["actions"]})

    def test_the_young_and_the_tropical_go_out_on_warmer_days(self):
        """Boyer (in the reference, a copy): the young never under 21 C, tropical adults 18 and 24 C, temperate ones 3 K less."""
        for species, born, cold in (("sulcata-tortoise", "2005", (18, 24)), ("hermanns-tortoise", "2005", (15, 21)), ("hermanns-tortoise", "2025-10", (21, 21)),
                                    ("sulcata-tortoise", "2025-10", (21, 24)), ("bearded-dragon", "2022", (None, None))):
            plan = self.plan(record(species, patient={"hatched": born}, enclosure={"outdoor": True}))["enclosure"]["outdoors"]
            self.assertEqual((plan["morning_c"], plan["midday_c"]), cold, (species, born))

    # ---- humidity against a blistered belly ------------------------------------------------------------------

    def test_a_blistered_belly_is_never_wetted(self):
        """Common practice, no source: blistered belly scales are kept dry even when old skin would ask for damp air."""
        both = [{"code": "retained-shed", "severity": "mild"}, {"code": "blistered-belly-scales", "severity": "moderate"}]
        dry = self.plan(record(findings=both, enclosure={"readings": {"humidity": "52 %", "humidity-at": "cool-side"}}))
        shed = self.plan(record(findings=both[:1], enclosure={"readings": {"humidity": "52 %", "humidity-at": "cool-side"}}))
        self.assertLessEqual(dry["humidity"]["target"][1], 70)  # the species' ordinary band is 60-80 %
        self.assertGreater(shed["humidity"]["target"][0], 60)
        codes = [a["code"] for a in dry["actions"]]
        self.assertFalse([c for c in codes if c in ("shallow-bath", "give-drink-soak", "add-moist-hide")], codes)
        held = {topic: dry["stances"][topic][0]["stance"] for topic in ("humidity", "bath", "damp-hide", "floor")}
        self.assertEqual(held, {"humidity": "low-end", "bath": "none", "damp-hide": "none", "floor": "paper-dry"})
        self.assertTrue([c for c in (a["code"] for a in shed["actions"]) if "humidity" in c or "bath" in c or "moist" in c])
        self.assertTrue(dry["review"], "the conflict is put to the veterinarian")

    # ---- a meal for a vomiting snake ---------------------------------------------------------------------------

    def test_a_vomiting_snake_gets_no_meal(self):
        """Regurgitation: nothing for 10-14 days (common practice, no source)."""
        visit = record(patient={"mass": "1450 g", "hatched": "2022-08"}, diet={"food": "mouse", "every": "7 days", "last": "2026-03-10"},
                       findings=[{"code": "vomited", "severity": "moderate"}])
        plan = self.plan(visit)
        feeding = plan["feeding"]
        self.assertTrue(feeding["paused"])
        # half a meal comes before the usual one
        self.assertEqual([phase["stance"] for phase in plan["stances"]["food"]][:2], ["rest-until", "restart"])
        self.assertFalse([d for d in feeding["next"] if d < "2026-03-26"], feeding["next"])
        well = record(patient={"mass": "1450 g", "hatched": "2022-08"}, diet={"food": "mouse", "every": "7 days", "last": "2026-03-10"})
        self.assertTrue(self.plan(well)["feeding"]["next"])

    # ---- a fat animal fed more, a thin one fed less ---------------------------------------------------------------

    def eats(self, species, code, **diet):
        feeding = self.plan(record(species, patient={"mass": "2 kg" if species == "ball-python" else "60 g", "hatched": "2019-05"}, diet=diet,
                                   findings=[{"code": code, "severity": "moderate"}]))["feeding"]
        low, high = feeding["insects"] if "count" in diet else feeding["meal_g"]
        return low / feeding["every_days"][1], high / feeding["every_days"][0], feeding

    def test_a_diet_never_feeds_more_than_now(self):
        """A fat python's usual meal, 5-10 % of its fat mass, would be more than the 40 g in ten days that it eats."""
        for days in (3, 7, 10, 28, 45):
            for grams in (15, 40, 120, 300):
                self.assertLessEqual(self.eats("ball-python", "overweight", food="rat", meal=f"{grams} g", every=f"{days} days")[1], grams / days + 1e-9)
        for count in (1, 3, 12):
            self.assertLessEqual(self.eats("leopard-gecko", "overweight", food="mealworm", count=count, every="1 day")[1], count)

    def test_a_thin_animal_never_gets_less_than_now(self):
        """Three worms a day were made one or two every second day."""
        for days in (3, 7, 10, 28, 45):
            for grams in (15, 40, 120, 300):
                self.assertGreaterEqual(self.eats("ball-python", "underweight", food="rat", meal=f"{grams} g", every=f"{days} days")[0] + 1e-9, grams / days)
        for count in (1, 3, 12):
            self.assertGreaterEqual(self.eats("leopard-gecko", "underweight", food="mealworm", count=count, every="1 day")[0], count)

    def test_a_loss_is_told_with_its_sign(self):
        """760 to 640 g is 16 % less: so much lost already, 3 % of 640 g more, 621 g, is the time to call (common practice, no source), and 625 a number that is kept in mind."""
        visit = record("corn-snake", patient={"mass": "640 g", "hatched": "2019-05", "earlier": [{"on": "2026-02-10", "mass": "760 g"}]})
        text = self.flat(visit, "--drafts")
        self.assertIn("down 120 g since 10 Feb 2026. That is too fast.", text)
        self.assertRegex(text, r"Loses more: weighs 625 g")

    # ---- a rest that harms ----------------------------------------------------------------------------------------

    def winter(self, **parts):
        grown = {"patient": {"sex": "male", "hatched": "2012-06", "mass": "1000 g"}, "winter_rest": {"planned": True},
                 "history": {"owned-since": "2020-05-01", "stool-clean": "2026-03-10"}}
        return record(parts.pop("species", "hermanns-tortoise"), **{**grown, **parts})

    def test_no_tropical_and_no_ill_animal_rests_in_winter(self):
        """Leopard, sulcata and red-footed tortoises must not (Lewis 2022); ball pythons and boas: practice, from memory."""
        for species, mass, ill in (("ball-python", "1450 g", False), ("sulcata-tortoise", "20 kg", False), ("veiled-chameleon", "120 g", False),
                                   ("hermanns-tortoise", "1000 g", True), ("corn-snake", "600 g", True)):
            visit = self.winter(species=species, **({"findings": [{"code": "wound", "severity": "mild"}]} if ill else {}),
                                patient={"hatched": "2019-06", "mass": mass})
            plan = self.plan(visit)
            self.assertFalse(plan["winter_rest"]["allowed"], species)
            self.assertNotIn("plan", [p["stance"] for p in plan["stances"]["winter-rest"]], species)
            self.assertFalse([p for t in ("warmth-day", "warmth-night") for p in plan["stances"][t] if p["stance"] == "rest"], species)
            self.assertIn("No winter rest for Sorrel", self.flat(visit))
        plan = self.plan(self.winter())
        self.assertTrue(plan["winter_rest"]["allowed"])

    def test_an_animal_at_rest_is_not_heated_and_not_fed(self):
        visit = self.winter(winter_rest={"in-progress": True}, enclosure={"readings": {"basking-surface": "6 C", "warm-side": "6 C", "cool-side": "5 C"}})
        plan = self.plan(visit)
        self.assertEqual([a["code"] for a in plan["actions"] if a["code"].startswith("warm")], [])
        self.assertFalse([d for d in plan["dates"] if d["what"] == "meal"])
        self.assertNotRegex(self.flat(visit), r"Basking spot|Warm side|too cold\b")

    def test_an_open_wound_gets_no_bath(self):
        for code in ("wound", "burn", "bite-wound"):
            visit = record("hermanns-tortoise", findings=[{"code": code, "severity": "moderate"}, {"code": "dehydrated", "severity": "moderate"}],
                           follow_up={"recheck": "14 days"})
            plan = self.plan(visit)
            self.assertEqual({p["stance"] for p in plan["stances"]["bath"] if p["from"] < "2026-03-30"} & {"drink-soak", "shed-soak"}, set(), code)
            self.assertNotIn("give-drink-soak", [a["code"] for a in plan["actions"]], code)

    def test_stitches_stay_in_and_dry_for_long_enough(self):
        """At least 3-6 weeks, later where it is cool (WikiVet, Lizard and Snake Surgery; 28-42 days from memory)."""
        for warm_side, days in (("30 C", 28), ("22 C", 42), (None, 42)):
            enclosure = {"readings": {"warm-side": warm_side}} if warm_side else {}
            plan = self.plan(record("bearded-dragon", done_today=["sutures"], enclosure=enclosure))
            out = [date.fromisoformat(one["on"]) for one in plan["dates"] if one["what"] == "check-after"]
            self.assertTrue(out and (min(out) - date.fromisoformat(TODAY)).days >= days - 2, (warm_side, out))  # a closed Sunday is passed over
            operated = self.plan(record("bearded-dragon", done_today=["surgery", "sutures"], enclosure=enclosure))
            for topic, stance in (("bath", "none"), ("dryness", "dry-until")):
                for one in (plan, operated):
                    first = one["stances"][topic][0]
                    self.assertEqual((first["stance"], first["until"]), (stance, str(min(out))), topic)

    def test_no_watery_food_while_the_stool_is_loose(self):
        """The clinical table, diarrhoea: lettuce and fruit out for lizards and tortoises. Neither on the menu, nor now and then."""
        loose = [{"code": "diarrhoea", "severity": "moderate"}]
        for species, given in (("red-footed-tortoise", "strawberry"), ("green-iguana", "romaine"), ("argentine-tegu", "banana")):
            visit = record(species, findings=loose, diet=[{"food": given, "every": "1 days"}], visit={"kind": "reading"})
            self.assertNotIn("fruit", [food for line in self.plan(visit)["feeding"]["lines"] for food in line["food"]], species)
            text = re.sub(r"\s+", " ", self.printed(visit, order="-raw"))
            self.assertIn("Give no fruit, lettuce or cucumber", text, species)
            self.assertNotRegex(text, "now and then (strawberries|romaine lettuce|bananas?)", species)

    def test_a_course_in_words_is_not_over_with_its_first_dose(self):
        """Twenty doses with one box to tick: the course would end with the first."""
        text = self.flat(record(medicines=[{"name": "Salve", "directions": "Thinly, twice a day for ten days."}]))
        self.assertRegex(text, "[Kk]eep a list of the doses that you give")

    def test_what_is_severe_is_seen_again_soon(self):
        """The near end of the usual days, and nobody is told a later one (common practice, no source)."""
        for code, species in (("abscess", "corn-snake"), ("swollen-eyes", "bearded-dragon"), ("airway-infection", "corn-snake")):
            days = {}
            for severity in ("mild", "severe"):
                plan = self.plan(record(species, findings=[{"code": code, "severity": severity}]))
                low = plan["findings"][0]["recheck_days"][0]
                days[severity] = [(date.fromisoformat(one["on"]) - date.fromisoformat(TODAY)).days for one in plan["dates"] if one["what"] == "recheck-usual"]
            self.assertLessEqual(days["severe"][0], low, code)
            self.assertLess(days["severe"], days["mild"], code)

    def test_who_licks_drops_is_not_sent_to_a_bowl(self):
        """A bowl is wrong for chameleons, crested geckos and green tree pythons (from memory, no source)."""
        for species in ("veiled-chameleon", "crested-gecko", "green-anole", "green-tree-python"):
            visit = record(species, visit={"kind": "email"}, findings=[{"code": "dehydrated", "severity": "moderate"}])
            self.assertEqual(self.plan(visit)["stances"]["water-offered"][0]["stance"], "drops-and-mist", species)
            text = self.flat(visit)
            self.assertIn("Mist the leaves in the morning and in the evening", text, species)
            self.assertNotIn("bowl that does not tip", text, species)

    def test_a_live_bearer_gets_no_nest(self):
        for species in ("boa-constrictor", "garter-snake", "blue-tongued-skink"):
            visit = record(species, patient={"sex": "female", "hatched": "2020-05"}, findings=[{"code": "gravid", "severity": "moderate", "step": "late"}])
            plan = self.plan(visit)
            self.assertEqual({p["stance"] for p in plan["stances"]["nest"]}, {"none"}, species)
            self.assertNotIn("give-nest-box", [a["code"] for a in plan["actions"]], species)

    # ---- a powder given too often --------------------------------------------------------------------------------

    def test_half_a_time_a_week_is_every_second_week(self):
        """Vitamin D3 and multivitamin powder once every two weeks (species-sheets/bearded-dragon.yaml; common practice, no source)."""
        visit = record("bearded-dragon", patient={"mass": "96 g", "hatched": "2025-09"})
        per_week = {s["what"]: s["per_week"] for s in self.plan(visit)["feeding"]["supplements"]}
        self.assertEqual(per_week["calcium-d3"], [0.5, 0.5])
        text = re.sub(r"\s+", " ", self.printed(visit, order="-raw"))
        self.assertIn("Calcium powder with vitamin D3 once every 2 weeks", text)
        self.assertNotRegex(text, r"D3 (once a|1 times a) week")

    # ---- a warning sign dropped -----------------------------------------------------------------------------------

    def test_no_warning_sign_is_dropped_however_much_there_is_to_say(self):
        words = {}
        for path in (ROOT / "templates/wording/en").glob("*.yaml"):
            words.update(read_yaml(path.read_text()))
        findings = read_yaml((ROOT / "templates/findings.yaml").read_text())["findings"]
        many = [{"code": code, "severity": about["severities"][-1], "note": "A long remark that takes room on the page. " * 6}
                for code, about in findings.items() if "snake" in about["groups"] and code != "no-tongue-flick"]
        many = without_excluded(sorted(many, key=lambda f: f["severity"] == "normal"), "female")
        for kind in ("checkout", "email"):  # the wall's lists and those of running text
            visit = record(visit={"kind": kind}, patient={"sex": "female", "mass": "1450 g", "hatched": "2020-05"}, findings=many[:40],
                           message="Please read all of it. " * 80)
            text = re.sub(r"[\W_]+", "", self.printed(visit, order="-raw"))
            plan = self.plan(visit)
            self.assertGreater(len(plan["warnings"]), 20)
            for warning in plan["warnings"]:
                code = {"carrying-and-dull": "carrying-eggs-and-duller", "prolapse": "prolapse-again"}.get(warning["code"], warning["code"])
                sentence = words[f"sign.{code}" + (".worse" if warning["already"] else "")]
                forms = [one for one in (sentence if isinstance(sentence, list) else [sentence["other"] if isinstance(sentence, dict) else sentence]) if isinstance(one, str)]
                printed = [all(re.sub(r"[\W_]+", "", piece) in text for piece in re.split(r"\{[^}]*\}", form)) for form in forms]
                self.assertTrue(any(printed) or not forms, f"{kind}: {forms} of {warning}")

    def test_an_old_lamps_distance_is_not_given_for_the_new_one(self):
        lamp = {"kind": "tube", "tube-length": "85 cm", "measured": {"uvi": 4.0, "at": "30 cm"}, "height": "50 cm", "installed": "2024-01-10"}
        visit = record(patient={"mass": "390 g", "species": "bearded-dragon"}, enclosure={"size": "120 x 60 x 60 cm", "lamp": lamp})
        text = re.sub(r"\s+", " ", self.printed(visit, order="-raw"))
        self.assertIn("Put in a new UVB lamp", text)
        self.assertIn("keep the old one on and ask 555-0142", text)
        self.assertNotIn("UVB lamp to back", text)
        self.assertNotRegex(text, r"\d+ cm above|\bnow 50 cm")
        mailed = re.sub(r"\s+", " ", self.printed(record(visit={"kind": "email"}, patient={"mass": "390 g", "species": "bearded-dragon"},
                                                         enclosure={"size": "120 x 60 x 60 cm", "lamp": lamp}), order="-raw"))
        self.assertIn("at the height we tell you", mailed)
        self.assertNotRegex(mailed, r"Hang the UVB lamp \d")
        self.assertNotRegex(mailed, r"UVB lamp at \d")

    def test_the_drawn_box_has_the_hides_of_the_record_and_asks_for_no_smaller_one(self):
        """A bearded dragon needs 125 x 100 x 75 cm: 200 cm of length are no fault, and no hide is there until one is put in."""
        for hides in (0, 2):
            text = self.printed(record("bearded-dragon", enclosure={"size": "200 x 40 x 40 cm", "hides": str(hides)}, patient={"length": "48 cm"}), order="-raw")
            picture = text.split("drawn to scale")[1].split("Go now")[0] if "drawn to scale" in text else text.split("too small")[1].split("Go now")[0]
            self.assertEqual("hide" in picture, hides > 0, picture)
            self.assertRegex(text, r"too small, needs [^\n]* or more")

    def test_what_is_there_already_does_not_send_the_keeper_back(self):
        visit = record(findings=[{"code": "retained-shed", "severity": "mild"}, {"code": "overweight", "severity": "mild"}])
        text = re.sub(r"\s+", " ", self.printed(visit, order="-raw"))
        self.assertIn("Old skin still on after the next shed", text)
        self.assertNotIn("Old skin left in patches", text.split("Call today")[1])

    # ---- a stale signature -------------------------------------------------------------------------------------------

    def test_what_changes_after_the_signature_makes_a_draft_again(self):
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "visit.yaml"
            path.write_bytes((ROOT / "templates/visits/pebble-leopard-gecko.yaml").read_bytes())
            today = ("--today", "2026-03-17")
            done = run("approve", path, "--by", "Dr Ines Calder", *today)
            self.assertEqual(done.returncode, 0, done.stderr.decode())
            signed = self.page_one(path, *today)
            self.assertNotRegex(signed, r"(?i)\bdraft\b")
            text = path.read_text()
            path.write_text(text.replace("night: 20 C", "night: 14 C"))
            self.assertNotEqual(path.read_text(), text)
            self.assertRegex(self.page_one(path, *today), r"(?i)\bdraft\b")

    def page_one(self, path, *words):
        with tempfile.TemporaryDirectory() as folder:
            out = Path(folder) / "sheet.pdf"
            done = run("sheet", "-o", out, *words, path)
            self.assertEqual(done.returncode, 0, done.stderr.decode())
            return subprocess.run(["pdftotext", "-l", "1", out, "-"], capture_output=True, text=True, check=True).stdout


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], *sys.argv[2:]], verbosity=2)
