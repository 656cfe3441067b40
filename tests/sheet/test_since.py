#!/usr/bin/env python3
"""Since last time: a record names the visit before. What was asked for then stands with then, now and goal; what a keeper could mend and
did not goes up and says so; facts are taken over where the record is silent, findings never. Numbers are worked out by hand."""
import json
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-16"
THEN = {"visit": {"date": "2026-01-10", "kind": "checkout", "veterinarian": "Dr Ines Calder"},
        "patient": {"name": "Biscuit", "species": "ball-python", "sex": "female", "hatched": "2020-08-01", "mass": "2000 g", "length": "118 cm"},
        "keeper": {"name": "Rosa Lind", "language": "en", "units": "metric"},
        "enclosure": {"size": "140 x 70 x 70 cm", "walls": "pvc", "lid": "mesh", "heat-guard": "no", "thermostat": "no",
                      "readings": {"warm-side": "26 C", "cool-side": "25 C", "night": "24 C", "humidity": "40 %"}},
        "findings": [{"code": "overweight", "severity": "mild"}]}


def now(**parts):
    record = {"visit": {"date": "2026-02-07", "kind": "checkout", "veterinarian": "Dr Ines Calder", "previous": "then.yaml"},
              "patient": {"name": "Biscuit", "species": "ball-python", "sex": "female", "hatched": "2020-08-01", "mass": "1960 g", "length": "118 cm"},
              "enclosure": {"heat-guard": "yes", "readings": {"warm-side": "26 C", "cool-side": "25 C", "night": "24 C", "humidity": "65 %"}}}
    for part, keys in parts.items():
        record[part] = {**record.get(part, {}), **keys} if isinstance(keys, dict) else keys
    return record


class Since(unittest.TestCase):
    maxDiff = 3000

    def setUp(self):
        self.hold = tempfile.TemporaryDirectory()
        self.addCleanup(self.hold.cleanup)
        self.folder = Path(self.hold.name)

    def run_it(self, *words):
        return subprocess.run([PROGRAM, *map(str, words), "--today", TODAY], capture_output=True, text=True, cwd=ROOT, timeout=60)

    def write(self, visit, then=THEN):
        if then:
            (self.folder / "then.yaml").write_text(json.dumps(then))
        path = self.folder / "now.yaml"
        path.write_text(json.dumps(visit))
        return path

    def plan(self, visit, then=THEN):
        done = self.run_it("explain", "--json", self.write(visit, then))
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)

    def outcomes(self, visit, then=THEN):
        return {one["code"]: one["outcome"] for one in self.plan(visit, then)["since_last"]["actions"]}

    def words(self, visit, then=THEN):
        out = self.folder / "sheet.pdf"
        done = self.run_it("sheet", "-o", out, self.write(visit, then))
        self.assertEqual(done.returncode, 0, done.stderr)
        out.replace(self.folder / "read.pdf")
        text = subprocess.run(["pdftotext", "-raw", self.folder / "read.pdf", "-"], capture_output=True, text=True, check=True).stdout
        return " ".join(text.split())

    def test_nothing_is_said_without_a_visit_before(self):
        visit = now(visit={"previous": ""})
        del visit["visit"]["previous"]
        self.assertIsNone(self.plan(visit)["since_last"])
        self.assertNotIn("Since Sat", self.words(visit))

    def test_each_first_change_of_then_with_its_outcome(self):
        """The guard is there now; of the thermostat nobody spoke; the warm side reads 26 C as it did, aim 30-32 C, and the
        air rose from 40 to 65 %, aim 60-80 % (the species sheet). What had to be bought stands behind the first three."""
        since = self.plan(now())["since_last"]
        self.assertEqual((since["on"], since["days"]), ("2026-01-10", 28))
        self.assertEqual([(one["code"], one["outcome"], one["then"], one["now"], one["target"]) for one in since["actions"]],
                         [("guard-the-heat", "done", None, None, None), ("warm-warm-side", "still", 26, 26, [30, 32]),
                          ("raise-humidity", "done", 40, 65, [60, 80]), ("add-thermostat", "unknown", None, None, None)])

    def test_the_warm_side_mended_nearly_turned_and_unread(self):
        for reading, wanted in (("31 C", "done"), ("29.5 C", "near"), ("26 C", "still"), ("36 C", "turned")):
            visit = now(enclosure={"readings": {"warm-side": reading, "cool-side": "25 C"}})
            self.assertEqual(self.outcomes(visit)["warm-warm-side"], wanted, reading)
        self.assertEqual(self.outcomes(now(enclosure={"readings": {"night": "24 C"}}))["warm-warm-side"], "unknown")

    def test_the_weight_against_the_curve_of_then(self):
        """2000 g, four weeks, half a percent to one percent a week (the reference values): 1920 to 1960 g."""
        for mass, verdict in (("1940 g", "in-range"), ("1850 g", "too-low"), ("2010 g", "too-high")):
            weight = self.plan(now(patient={"mass": mass}))["since_last"]["weight"]
            self.assertEqual((weight["then_g"], weight["expected_g"], weight["verdict"]), (2000, [1920, 1960], verdict))

    def test_what_stands_a_second_time_goes_up(self):
        """81 for the cold warm side, and 10 (harm-second-time). Never lower than without the visit before, whatever was read."""
        alone = now()
        del alone["visit"]["previous"]
        for warm in ("22 C", "26 C", "28 C", "29.5 C", "31 C", "34 C", "38 C"):
            readings = {"readings": {"warm-side": warm, "cool-side": "25 C", "humidity": "40 %"}}
            first = [one["code"] for one in self.plan({**alone, "enclosure": readings})["actions"]]
            for one in self.plan(now(enclosure=readings))["actions"]:
                if one.get("second_time"):
                    self.assertIn(one["code"], first)
        harms = {one["code"]: one["harm"] for one in self.plan(now())["actions"]}
        self.assertEqual(harms["warm-warm-side"], 91)
        self.assertEqual({one["code"]: one["harm"] for one in self.plan(alone)["actions"]}["warm-warm-side"], 81)

    def test_the_printed_sheet_thanks_and_says_still(self):
        text = self.words(now())
        for wanted in ("Since Sat 10 Jan", "Done. Thank you!", "A guard on the heat.", "Not looked at today", "A thermostat.",
                       "Warm side: 26 °C then, 26 °C today, goal 30–32 °C.", "Still: warm the warm side", "We expected 1920–1960 g"):
            self.assertIn(wanted, text.replace("\u00a0", " "))
        self.assertIn("Hecho. ¡Gracias!", self.words(now(keeper={"language": "es"})))

    def test_facts_are_taken_over_and_told_but_no_finding_and_no_reading(self):
        plan = self.plan(now(enclosure={"readings": {"night": "24 C"}}))
        self.assertEqual(plan["since_last"]["taken_over"], ["weighing", "size", "walls", "lid", "keeper"])
        told = [one["code"] for one in plan["review"] if one["code"].startswith("taken-")]
        self.assertEqual(told, ["taken-weighing", "taken-size", "taken-walls", "taken-lid", "taken-keeper"])
        self.assertEqual(plan["enclosure"]["size_cm"], [140, 70, 70])
        self.assertEqual(plan["patient"]["keeper"], "Rosa Lind")
        self.assertEqual([(one["on"], one["mass_g"]) for one in plan["growth"]["weighings"]], [("2026-01-10", 2000), ("2026-02-07", 1960)])
        self.assertEqual(plan["findings"], [])
        self.assertTrue(all(one["reading"] is None for one in plan["temperature"] if one["zone"] != "night"))

    def test_what_the_record_says_itself_stands(self):
        plan = self.plan(now(enclosure={"size": "150 x 80 x 70 cm"}, keeper={"name": "Ana Ruiz"}))
        self.assertEqual((plan["enclosure"]["size_cm"], plan["patient"]["keeper"]), ([150, 80, 70], "Ana Ruiz"))
        self.assertEqual(plan["since_last"]["taken_over"], ["weighing", "walls", "lid"])

    def test_what_was_to_be_changed_is_not_taken_over(self):
        small = {**THEN, "enclosure": {**THEN["enclosure"], "size": "60 x 40 x 40 cm", "heat-guard": "yes", "thermostat": "yes"}}
        plan = self.plan(now(), small)
        self.assertIsNone(plan["enclosure"]["size_cm"])
        self.assertIn("asked-size", [one["code"] for one in plan["review"]])
        self.assertNotIn("larger-box", [one["code"] for one in plan["actions"]])

    FURNISHED = {"heat-guard": "yes", "thermostat": "yes", "heat": [{"kind": "mat", "power": "30 W", "thermostat": "yes", "guard": "yes"}],
                 "substrate": "paper", "hides": 2, "shade": "yes", "water-dish": "yes", "outdoor": "no", "animals": 1}

    def test_what_lies_stands_and_lives_in_the_box_is_taken_over(self):
        then = {**THEN, "enclosure": {**THEN["enclosure"], **self.FURNISHED}}
        visit = now()
        visit["enclosure"] = {"readings": {"night": "24 C"}}
        plan = self.plan(visit, then)
        self.assertEqual(plan["since_last"]["taken_over"],
                         ["weighing", "size", "walls", "lid", "floor", "hides", "shade", "dish", "outdoor", "company", "heat", "keeper"])
        box = plan["enclosure"]
        self.assertEqual((box["heating"]["thermostat"], box["substrate"], box["hides"]["number"], box["shade"], box["company"]["animals"]),
                         (True, "paper", 2, True, 1))

    def test_who_shares_the_box_today_is_not_who_shared_it_then(self):
        """Whichever of the three the record says of company, it says all of it."""
        then = {**THEN, "enclosure": {**THEN["enclosure"], "animals": 3, "males": 1}}
        for says in ({}, {"animals": 2}, {"males": 0}, {"mates": ["corn-snake"]}):
            told = [one["code"] for one in self.plan(now(enclosure=says), then)["review"] if one["code"] in ("taken-company", "asked-company")]
            self.assertEqual(len(told), 0 if says else 1, says)

    def test_of_the_box_too_what_was_to_be_changed_is_asked_for(self):
        """By the rules: no dish, no shade, no hide and a resinous floor are each to be changed, and a corn snake in the box is to go."""
        then = {**THEN, "enclosure": {**THEN["enclosure"], "substrate": "cedar-or-pine", "hides": 0, "shade": "no", "water-dish": "no",
                                      "animals": 2, "mates": ["corn-snake"]}}
        visit = now()
        visit["enclosure"] = {"readings": {"night": "24 C"}}
        plan = self.plan(visit, then)
        asked = {one["code"] for one in plan["review"] if one["code"].startswith("asked-")}
        self.assertEqual(asked, {"asked-floor", "asked-hides", "asked-shade", "asked-dish", "asked-company", "asked-heat"})
        told = {one["code"] for one in plan["actions"]}
        self.assertFalse(told & {"change-floor", "add-hides", "make-shade", "add-water-dish", "own-box"})

    def test_a_signature_covers_the_names_of_those_that_share_the_box(self):
        """A mate's names stand in its own sheet: another name there makes the signed sheet a draft again."""
        own = self.folder / "own"
        own.mkdir()
        mate = (ROOT / "species-sheets" / "corn-snake.yaml").read_text()
        visit = now(enclosure={"mates": ["corn-snake"]}, keeper={"name": "Rosa Lind", "email": "rosa.lind@example.org"})
        del visit["visit"]["previous"]
        record = self.write(visit, None)
        (own / "corn-snake.yaml").write_text(mate)
        self.assertEqual(self.run_it("approve", record, "--by", "Dr Ines Calder", "--species-dir", own).returncode, 0)
        mail = self.run_it("mail", record, "-o", self.folder / "a.eml", "--species-dir", own)
        self.assertEqual(mail.returncode, 0, mail.stderr)
        (own / "corn-snake.yaml").write_text(re.sub(r"en: *[^,}]+", "en: maize snake", mate, count=1))
        stale = self.run_it("mail", record, "-o", self.folder / "b.eml", "--species-dir", own)
        self.assertEqual(stale.returncode, 1)
        self.assertIn("changed after it was", stale.stderr)

    def test_a_new_home_takes_only_the_weighings(self):
        plan = self.plan(now(visit={"kind": "adoption"}))
        self.assertEqual(plan["since_last"]["taken_over"], ["weighing"])

    def test_only_one_visit_back_is_read(self):
        chain = {**THEN, "visit": {**THEN["visit"], "previous": "is-not-there.yaml"}}
        self.assertEqual(self.outcomes(now(), chain), self.outcomes(now()))

    def test_what_cannot_be_it_is_refused_with_its_place(self):
        patient, visit = THEN["patient"], THEN["visit"]
        for then, wanted in ((None, "is not there"), ({**THEN, "patient": {**patient, "name": "Pretzel"}}, "another animal's record"),
                             ({**THEN, "patient": {**patient, "species": "corn-snake"}}, "another animal's record"),
                             ({**THEN, "patient": {**patient, "hatched": "2016"}}, "another animal's record"),
                             ({**THEN, "visit": {**visit, "date": "2026-02-08"}}, "does not lie before"),
                             ({**THEN, "visit": {**visit, "date": "2026-02-07"}}, "does not lie before")):
            with self.subTest(wanted):
                done = self.run_it("explain", self.write(now(), then))
                self.assertEqual(done.returncode, 1)
                self.assertRegex(done.stderr, r"now\.yaml:1:\d+: visit\.previous")
                self.assertIn(wanted, done.stderr)
                self.assertEqual(len(done.stderr.splitlines()), 1, "one slip, one fault")
        self.assertIn("from the root", self.run_it("explain", self.write(now(visit={"previous": "/etc/hostname"}))).stderr)

    def test_a_signature_covers_the_record_before(self):
        path = self.write(now())
        self.assertEqual(self.run_it("approve", path, "--by", "Dr Ines Calder").returncode, 0)
        out = self.folder / "sheet.pdf"

        def is_draft():
            self.assertEqual(self.run_it("sheet", "-o", out, path).returncode, 0)
            text = subprocess.run(["pdftotext", out, "-"], capture_output=True, text=True, check=True).stdout
            out.unlink()
            return "draft" in text.lower()
        self.assertFalse(is_draft())
        (self.folder / "then.yaml").write_text(json.dumps({**THEN, "patient": {**THEN["patient"], "mass": "2001 g"}}))
        self.assertTrue(is_draft())


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
