#!/usr/bin/env python3
"""A data logger in place of single readings: what is judged is worked out again by sorting; what is refused has its place; a signature
covers the file's bytes."""
import json
import math
import os
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-16"
MINUTES = range(0, 24 * 60, 10)


def week():
    """Rows a tenth minute of two days; the second night the heating fails from one to four."""
    for day in (12, 13):
        for minute in MINUTES:
            hour = minute / 60
            warm = 27 + 3 * math.sin((hour - 6) / 12 * math.pi) - (6 if day == 13 and 1 <= hour < 4 else 0)
            yield day, minute, round(warm, 1), round(warm - 4, 1), 50 + minute % 7


def text(rows):
    lines = ["Time,T1 Temperature (C),T2 Temperature (C),T2 Humidity (%)"]
    lines += [f"2026-03-{d} {m // 60:02}:{m % 60:02},{warm},{cool},{damp}" for d, m, warm, cool, damp in rows]
    return "\n".join(lines) + "\n"


def nearest_rank(values, percent):
    values = sorted(values)
    return values[max(1, math.ceil(percent * len(values) / 100)) - 1]


class Logger(unittest.TestCase):
    maxDiff = 3000

    def setUp(self):
        self.hold = tempfile.TemporaryDirectory()
        self.addCleanup(self.hold.cleanup)
        self.folder = Path(self.hold.name)
        (self.folder / "week.csv").write_text(text(week()))

    def write(self, log, **readings):
        record = {"visit": {"date": "2026-03-14", "kind": "checkout", "veterinarian": "Dr Ines Calder"},
                  "patient": {"name": "Biscuit", "species": "ball-python"},
                  "keeper": {"name": "Rosa Lind", "email": "rosa.lind@example.org"},
                  "enclosure": {"readings": {**readings, "log": log}, "lamp": {"kind": "tube", "hours": 12}}}
        (self.folder / "now.yaml").write_text(json.dumps(record))

    def run_it(self, *words):
        return subprocess.run([PROGRAM, *map(str, words), "--today", TODAY], capture_output=True, text=True, cwd=ROOT, timeout=60)

    def plan(self):
        done = self.run_it("explain", "--json", self.folder / "now.yaml")
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)

    def fault(self, *parts):
        done = self.run_it("explain", self.folder / "now.yaml")
        self.assertEqual(done.returncode, 1, done.stdout)
        for part in parts:
            self.assertIn(part, done.stderr)

    MAPPED = {"file": "week.csv", "probes": {"T1": "warm-side", "T2": "cool-side"}}

    def test_what_is_judged_is_what_sorting_gives(self):
        self.write(self.MAPPED)
        plan = self.plan()
        day = [r for r in week() if 360 <= r[1] < 1080]
        night = [r for r in week() if not 360 <= r[1] < 1080]
        readings = {z["zone"]: z["reading"] for z in plan["temperature"]}
        self.assertAlmostEqual(readings["warm-side"], nearest_rank([r[2] for r in day], 50))
        self.assertAlmostEqual(readings["cool-side"], nearest_rank([r[3] for r in day], 50))
        self.assertAlmostEqual(readings["night"], nearest_rank([r[3] for r in night], 5))
        self.assertAlmostEqual(plan["humidity"]["reading"], nearest_rank([r[4] for r in day], 50))
        warm = plan["logger"]["probes"][0]
        self.assertEqual((warm["probe"], warm["zone"], warm["lowest"]), ("T1", "warm-side", min(r[2] for r in week())))
        for part, rows in (("day", day), ("night", night)):
            for key, percent in (("p5", 5), ("median", 50), ("p95", 95)):
                self.assertAlmostEqual(warm[part][key], nearest_rank([r[2] for r in rows], percent), msg=f"{part} {key}")
        low, high = next(z["target"] for z in plan["temperature"] if z["zone"] == "warm-side")
        outside = [r for r in day if not low <= r[2] <= high]
        self.assertAlmostEqual(warm["day"]["outside_percent"], 100 * len(outside) / len(day), places=3)

    def test_the_failed_night_is_told(self):
        self.write(self.MAPPED)
        plan = self.plan()
        cold = [r for r in plan["review"] if r["code"] == "log-below-limit"]
        self.assertEqual(len(cold), 2)
        cool = next(p for p in plan["logger"]["probes"] if p["zone"] == "cool-side" and p["unit"] == "C")
        run = longest = None
        stamps = [(d * 1440 + m, c) for d, m, _, c, _ in week()]
        for at, value in stamps:
            run = (run if run is not None else at) if value < cool["lowest_usual"] else None
            if run is not None:
                longest = max(longest or 0, at - run)
        self.assertAlmostEqual(cool["longest_below_h"], longest / 60, places=4)

    def test_a_lowest_reading_at_the_limit_is_not_below_it(self):
        """23 C is the lower end of a ball python's night in its species sheet."""
        for lowest, codes in ((23, 0), (22.9, 1)):
            self.write({"file": "week.csv", "probes": {"T2": "cool-side"}})
            (self.folder / "week.csv").write_text(text((d, m, w, max(c, lowest), h) for d, m, w, c, h in week()))
            plan = self.plan()
            self.assertEqual(next(p for p in plan["logger"]["probes"] if p["unit"] == "C")["lowest_usual"], 23)
            self.assertEqual(len([r for r in plan["review"] if r["code"] == "log-below-limit"]), codes, lowest)

    def test_of_rows_by_day_or_by_night_alone_there_is_no_drop(self):
        for is_day, spared in ((True, "night"), (False, "cool-side")):
            self.write(self.MAPPED)
            rows = [row for row in week() if (420 <= row[1] < 1020 if is_day else not 300 <= row[1] < 1140)]
            (self.folder / "week.csv").write_text(text(rows))
            plan = self.plan()
            readings = {z["zone"]: z.get("reading") for z in plan["temperature"]}
            self.assertIsNone(readings[spared])
            self.assertAlmostEqual(readings["cool-side" if is_day else "night"], nearest_rank([r[3] for r in rows], 50 if is_day else 5))
            drops = [probe["night_drop_c"] for probe in plan["logger"]["probes"] if probe["unit"] == "C"]
            self.assertEqual(drops, [None, None], is_day)

    def test_the_drop_is_what_the_night_lacks(self):
        self.write(self.MAPPED)
        for probe, column in (("T1", 2), ("T2", 3)):
            by = [[row[column] for row in week() if (360 <= row[1] < 1080) == is_day] for is_day in (True, False)]
            drop = next(p["night_drop_c"] for p in self.plan()["logger"]["probes"] if p["probe"] == probe and p["unit"] == "C")
            self.assertAlmostEqual(drop, nearest_rank(by[0], 50) - nearest_rank(by[1], 50))

    def test_the_ends_are_the_twentieth_of_either_side(self):
        """By nearest rank of readings that are all different, a hundred by day and two hundred by night."""
        self.write(self.MAPPED)
        days = [("2026-03-13", 360 + 6 * i, 28 + 0.1 * (i * 37 % 100)) for i in range(100)]
        nights = [("2026-03-12" if i < 100 else "2026-03-14", (1081 if i < 100 else 0) + 3 * (i % 100), 20 + 0.1 * (i * 37 % 200)) for i in range(200)]
        rows = sorted((day, minute, value) for day, minute, value in days + nights)
        (self.folder / "week.csv").write_text("Time,T1 Temperature (C),T2 Temperature (C)\n" + "".join(
            f"{day} {minute // 60:02}:{minute % 60:02},{value:.1f},{value:.1f}\n" for day, minute, value in rows))
        probe = self.plan()["logger"]["probes"][0]
        for part, values in (("day", days), ("night", nights)):
            for name, percent in (("p5", 5), ("median", 50), ("p95", 95)):
                self.assertAlmostEqual(probe[part][name], nearest_rank([value for *_, value in values], percent), msg=(part, name))

    def sheet(self, kind, language="en"):
        record = json.loads((self.folder / "now.yaml").read_text())
        record["visit"]["kind"] = kind
        record["keeper"]["language"] = language
        (self.folder / "now.yaml").write_text(json.dumps(record))
        done = self.run_it("sheet", "--drafts", "--replace", "-o", self.folder / "now.pdf", self.folder / "now.yaml")
        self.assertEqual(done.returncode, 0, done.stderr)
        text = subprocess.run(["pdftotext", "-raw", self.folder / "now.pdf", "-"], capture_output=True, text=True, check=True).stdout
        return " ".join(text.replace("\N{NO-BREAK SPACE}", " ").split())

    def test_the_sheet_says_what_its_readings_rest_on(self):
        """By hand: the cool side is below 23 C from 18:10 h to 5:50 h of the next day, 11 h 40 min, printed in half hours; the rows of both
        days are whole."""
        self.write(self.MAPPED)
        for kind in ("checkout", "email", "reading", "large-print"):
            self.assertIn("Judged by 2 days of your logger (100 % of that time): below 23 °C for at most 11.5 hours on end (the cool side).",
                          self.sheet(kind), kind)
        self.assertIn("Según 2 días de tu registrador (100 % de ese tiempo): bajo 23 °C", self.sheet("checkout", "es"))
        self.assertIn("D'après 2 jours de votre enregistreur (100 % de ce temps) : sous 23 °C", self.sheet("checkout", "fr"))
        self.write({"file": "week.csv", "probes": {"T2": "cool-side"}})
        (self.folder / "week.csv").write_text(text((d, m, w + 9, c + 9, h) for d, m, w, c, h in week()))
        self.assertIn("(100 % of that time): never below 23 °C.", self.sheet("checkout"))
        self.write({"file": "week.csv", "probes": {"T2": "basking-surface"}})
        self.assertIn("2 days of your logger", self.sheet("checkout"))

    def test_the_week_is_drawn_and_told(self):
        """What the picture shows stands in its alternative: by day the lowest and the highest of each probe."""
        self.write(self.MAPPED)
        for kind, drawn in (("clinic", True), ("checkout", False), ("email", True)):
            self.assertEqual("A week of your logger" in self.sheet(kind), drawn, kind)
        told = subprocess.run(["pdfinfo", "-struct-text", self.folder / "now.pdf"], capture_output=True, text=True, check=True).stdout
        probe = self.plan()["logger"]["probes"][1]
        for day in (12, 13):
            cool = [r[3] for r in week() if r[0] == day]
            self.assertIn({"on": f"2026-03-{day}", "lowest": min(cool), "highest": max(cool)}, probe["week"])
        self.assertIn("Cool side.", told)
        (self.folder / "now.yaml").write_text(json.dumps({**json.loads((self.folder / "now.yaml").read_text()), "enclosure": {}}))
        self.assertNotIn("A week of your logger", self.sheet("email"))

    def test_a_week_later_takes_the_place_of_the_one_before(self):
        """Three weeks, forward and back: of a colder first week nothing is drawn."""
        lines = [f"2026-{2 + d // 28:02}-{1 + d % 28:02} {h:02}:30,{10 if d < 21 else 20 + h}" for d in range(20, 40) for h in range(24)]
        for rows in (lines, lines[::-1]):
            (self.folder / "week.csv").write_text("\n".join(["Time,T1 Temperature (C)", *rows]) + "\n")
            self.write({"file": "week.csv", "probes": {"T1": "warm-side"}})
            plan = self.plan()
            self.assertEqual(plan["logger"]["probes"][0]["lowest"], 10)
            self.assertEqual([(one["on"], one["lowest"], one["highest"]) for one in plan["logger"]["probes"][0]["week"]],
                             [(f"2026-03-{day:02}", 20, 43) for day in range(6, 13)])

    def test_the_logger_wins_and_says_so(self):
        self.write(self.MAPPED, **{"warm-side": "20 C"})
        plan = self.plan()
        self.assertIn("log-differs", [r["code"] for r in plan["review"]])
        self.assertGreater(next(z["reading"] for z in plan["temperature"] if z["zone"] == "warm-side"), 25)

    def test_titles_may_name_the_places(self):
        (self.folder / "week.csv").write_text(text(week()).replace("T1 T", "Warm side T").replace("T2 T", "Cool side T"))
        self.write("week.csv")
        self.assertEqual([p["zone"] for p in self.plan()["logger"]["probes"]], ["warm-side", "cool-side"])

    def test_what_is_refused(self):
        self.write("week.csv")
        self.fault("now.yaml:1:", "no probe of the file has a place", "'T1', 'T2'")
        self.write({"file": "week.csv", "probes": {"T9": "warm-side"}})
        self.fault("now.yaml:1:", "'T9' is no probe of the file")
        self.write({"file": "week.csv", "probes": {"T9": "warm-side", "T2": "cool-side"}})  # whichever of them it is
        self.fault("now.yaml:1:", "'T9' is no probe of the file")
        self.write({"file": "week.csv", "probes": {"T1": "night"}})
        self.fault("its nights count by themselves")
        self.write({"file": "week.csv", "probes": {"T1": "warm-side", "T2": "warm-side"}})
        self.fault("two probes lie at one place")
        for name in ("../week.csv", "/etc/passwd", "a/../../week.csv"):
            self.write({**self.MAPPED, "file": name})
            self.fault("must lie in the record's folder")
        self.write({**self.MAPPED, "file": "none.csv"})
        self.fault("is not there")
        (self.folder / "folder.csv").mkdir()
        os.mkfifo(self.folder / "pipe.csv")
        for name in ("folder.csv", "pipe.csv"):
            self.write({**self.MAPPED, "file": name})
            self.fault(f"{name}' is no ordinary file; name the logger's CSV file")
        self.write(self.MAPPED)
        (self.folder / "week.csv").write_text("")
        self.fault("week.csv:1:1: is empty")
        # a recorder set to F under a title of C: 80.6 F is 27 C
        (self.folder / "week.csv").write_text(text((d, m, round(w * 1.8 + 32, 1), round(c * 1.8 + 32, 1), h) for d, m, w, c, h in week()))
        self.fault("now.yaml:1:", "where no animal lives", "write F into the file's title")
        (self.folder / "week.csv").write_text(text((d, m, 500, -200, 1000) for d, m, w, c, h in week()))
        self.fault("now.yaml:1:", "no reading of its probes is one that such an instrument can take")
        (self.folder / "week.csv").write_text(text(week()).replace("2026-03-13 00:10", "2026-02-30 00:10"))
        self.fault("week.csv:147:1: '2026-02-30 00:10' is no day")
        (self.folder / "week.csv").write_text(text(week()).replace("2026-03-13 00:10", "2026-03-15 00:10"))
        self.write(self.MAPPED)
        self.fault("week.csv:147:1: lies after the day of the visit")

    def test_a_file_lies_in_the_records_folder_or_below_it(self):
        for name, is_above in (("..", True), ("../week.csv", True), ("a/..", True), ("a/../week.csv", True), ("/week.csv", True),
                               ("...", False), ("a..", False), ("..a", False), ("a/..b", False)):
            self.write({"file": name, "probes": {"T1": "warm-side"}})
            done = self.run_it("explain", self.folder / "now.yaml")
            self.assertEqual(done.returncode, 1, name)
            self.assertEqual("must lie in the record's folder or below it" in done.stderr, is_above, (name, done.stderr))

    def test_a_signature_covers_the_file(self):
        self.write(self.MAPPED)
        record = self.folder / "now.yaml"
        done = self.run_it("approve", record, "--by", "Dr Ines Calder")
        self.assertEqual(done.returncode, 0, done.stderr)
        signed = self.run_it("mail", record, "-o", self.folder / "a.eml")
        self.assertEqual(signed.returncode, 0, signed.stderr)
        # a byte that changes no number
        (self.folder / "week.csv").write_text(text(week()) + "\n")
        stale = self.run_it("mail", record, "-o", self.folder / "b.eml")
        self.assertEqual(stale.returncode, 1, stale.stdout)
        self.assertIn("changed after it was", stale.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
