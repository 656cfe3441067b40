#!/usr/bin/env python3
"""The calendar file, read back by a parser we did not write (Debian's python3-icalendar; RFC 5545)."""
import datetime
import json
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

try:
    import icalendar
except ImportError:
    print("skipped: python3-icalendar is not installed")
    sys.exit(77)

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
VISITS = sorted((ROOT / "templates/visits").glob("*.yaml"))
DAY = ("--today", "2026-03-20")


def run(*words, stdin=None):
    return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, cwd=ROOT, input=stdin)


if b"without libical" in run("dates", VISITS[0], "-o", "-", *DAY).stderr:
    print("skipped: this program was built without libical")
    sys.exit(77)


class Dates(unittest.TestCase):
    def read(self, visit, *words, stdin=None):
        done = run("dates", visit, "-o", "-", *DAY, *words, stdin=stdin)
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        self.assertNotIn(b"\n", done.stdout.replace(b"\r\n", b""))
        self.assertTrue(all(len(line) <= 75 for line in done.stdout.split(b"\r\n")))
        calendar = icalendar.Calendar.from_ical(done.stdout)
        self.assertEqual(calendar["METHOD"], "PUBLISH")
        return {str(e["UID"]): e for e in calendar.walk("VEVENT")}

    def test_every_date_of_the_plan_is_there(self):
        for visit in VISITS:
            events = self.read(visit)
            plan = json.loads(run("explain", "--json", visit, *DAY).stdout)
            standing = {(uid.rsplit("-", 2)[0], e["DTSTART"].dt.isoformat()) for uid, e in events.items() if e["STATUS"] == "CONFIRMED"}
            for what, places in {"meal": 8, "weigh": 20, "lamp-change": 1, "recheck": 1, "supplement": 16}.items():
                wanted = sorted({d["on"] for d in plan["dates"] if d["what"] == what})[:places]
                self.assertEqual(sorted(on for kind, on in standing if kind == what), wanted, f"{visit.name} {what}")

    def booked(self, follow_up, *words):
        text = f"visit: {{date: 2026-03-14, kind: checkout}}\npatient: {{name: Biscuit, species: ball-python}}\nfollow-up: {follow_up}\n"
        return run(*words, "-", *DAY, stdin=text.encode())

    def test_a_booked_day_and_time_win_over_the_weeks(self):
        for language, units, wanted in (("en", "us", "Bring Biscuit for a check at 2:30\u00a0pm"), ("es", "metric", "Trae a Biscuit a revisión a las 14:30"),
                                        ("fr", "metric", "Amener Biscuit au contrôle à 14\u00a0h\u00a030")):
            done = self.booked('{recheck: 21 days, booked: 2026-04-08, booked-at: "14:30"}', "dates", "-o", "-", "--language", language, "--units", units)
            events = {str(e["UID"]).rsplit("-", 2)[0]: e for e in icalendar.Calendar.from_ical(done.stdout).walk("VEVENT") if e["STATUS"] == "CONFIRMED"}
            self.assertEqual((events["recheck"]["DTSTART"].dt, str(events["recheck"]["SUMMARY"])), (datetime.date(2026, 4, 8), wanted))
        told = json.loads(self.booked('{booked: 2026-04-08, booked-at: "14:30"}', "explain", "--json").stdout)
        self.assertEqual([(one["on"], one["facts"]["at"]) for one in told["dates"] if one["what"] == "recheck"], [("2026-04-08", "14:30")])
        sheet = self.booked('{booked: 2026-04-08, booked-at: "14:30"}', "sheet", "-o", "-", "--units", "metric").stdout
        page = subprocess.run(["pdftotext", "-raw", "-", "-"], input=sheet, capture_output=True).stdout.decode().replace("\xa0", " ")
        self.assertIn("Next visit: Wed 8 Apr, at 14:30.", " ".join(page.split()))

    def test_the_next_visit_may_be_the_first_date_of_all(self):
        told = json.loads(self.booked("{booked: 2026-03-16}", "explain", "--json").stdout)
        self.assertEqual((told["dates"][0]["what"], told["dates"][0]["on"]), ("recheck", "2026-03-16"))
        sheet = self.booked("{booked: 2026-03-16}", "sheet", "-o", "-", "--units", "metric", "--language", "en").stdout
        page = subprocess.run(["pdftotext", "-raw", "-", "-"], input=sheet, capture_output=True).stdout.decode().replace("\xa0", " ")
        self.assertIn("Next visit: Mon 16 Mar, at", " ".join(page.split()))

    def test_a_day_on_which_nobody_is_there_is_told(self):
        # 2026-04-05 is a Sunday; the invented clinic opens from Monday to Saturday
        told = json.loads(self.booked("{booked: 2026-04-05}", "explain", "--json").stdout)
        self.assertIn("booked-on-closed-day", [one["code"] for one in told["review"]])
        self.assertEqual([one["on"] for one in told["dates"] if one["what"] == "recheck"], ["2026-04-05"], "what was agreed on does not move")

    def test_what_is_booked_wrongly_has_its_place(self):
        for follow_up, wanted in (("{booked: 2026-03-14}", "<standard input>:3:21: follow-up.booked: lies before the day after the visit; write a later day"),
                                  ('{booked: 2026-04-04, booked-at: "25:00"}', "follow-up.booked-at: '25:00' is no time of the day, such as 17:30"),
                                  ('{booked-at: "9:00"}', "follow-up.booked-at: needs its day; write 'booked' too")):
            done = self.booked(follow_up, "explain")
            self.assertEqual(done.returncode, 1)
            self.assertIn(wanted, done.stderr.decode())

    def test_entries_are_whole_days_with_alarms(self):
        for uid, event in self.read(VISITS[0]).items():
            self.assertEqual(event["DTEND"].dt - event["DTSTART"].dt, datetime.timedelta(days=1))
            alarms = event.walk("VALARM")
            if event["STATUS"] == "CONFIRMED":
                self.assertIn(datetime.timedelta(hours=9), [a["TRIGGER"].dt for a in alarms], uid)
                self.assertTrue(str(event["SUMMARY"]) and "555-0142" in str(event["DESCRIPTION"]))
            else:
                self.assertEqual(alarms, [])

    def test_a_second_visit_updates_instead_of_doubling(self):
        first = (ROOT / "templates/visits/biscuit-ball-python.yaml").read_text()
        second = first.replace("date: 2026-03-14", "date: 2026-03-18").replace("last: 2026-03-10", "last: 2026-03-17").replace("recheck: 21 days", "recheck: 28 days")
        # a severe prolapse: no food until the veterinarian says so, hence no meal has a date (common practice, no source)
        paused = second.replace("findings:", "findings:\n  - {code: prolapse, severity: severe}")
        one, two, three = (self.read("-", stdin=text.encode()) for text in (first, second, paused))
        self.assertEqual(set(one), set(two))
        self.assertEqual(set(one), set(three))
        self.assertTrue(all(two[uid]["SEQUENCE"] > one[uid]["SEQUENCE"] for uid in one))
        self.assertTrue([uid for uid in three if uid.startswith("meal-") and three[uid]["STATUS"] == "CANCELLED"])
        self.assertFalse([uid for uid in two if uid.startswith("meal-") and two[uid]["STATUS"] == "CANCELLED"])

    def test_another_animal_has_entries_of_its_own(self):
        text = (ROOT / "templates/visits/biscuit-ball-python.yaml").read_text()
        self.assertFalse(set(self.read("-", stdin=text.encode())) & set(self.read("-", stdin=text.replace("name: Biscuit", "name: Toast").encode())))

    def test_the_keepers_language(self):
        english = self.read(VISITS[0], "--language", "en")
        spanish = self.read(VISITS[0], "--language", "es")
        self.assertEqual(set(english), set(spanish))
        for uid in english:
            self.assertNotEqual(str(english[uid]["DESCRIPTION"]), str(spanish[uid]["DESCRIPTION"]))

    def test_a_medicine_is_one_entry_that_comes_again(self):
        """Worked out by hand; every 36 h from a morning on falls on no even days."""
        text = (ROOT / "templates/visits/biscuit-ball-python.yaml").read_text().replace("medicines:", "x-none:")
        medicines = """medicines:
  - {name: Syrup, amount: 0.2 ml, every: 48 h, doses: 10, first: 2026-03-20}
  - {name: Drops, amount: 1 drop, every: 36 h, doses: 4, first: 2026-03-20}
  - {name: Salve, directions: Thinly.}
"""
        events = {uid.rsplit("-", 1)[0]: e for uid, e in self.read("-", stdin=(text + medicines).encode()).items()}
        syrup, drops, salve = (events[f"dose-{place}"] for place in (1, 2, 3))
        self.assertEqual((syrup["DTSTART"].dt, dict(syrup["RRULE"])), (datetime.date(2026, 3, 20), {"FREQ": ["DAILY"], "COUNT": [10], "INTERVAL": [2]}))
        self.assertIn("Syrup", syrup["SUMMARY"])
        self.assertIn("0.2\u00a0ml, every 2\u00a0days, 10\u00a0doses", syrup["DESCRIPTION"])
        self.assertNotIn("RRULE", drops)
        further = drops["RDATE"] if isinstance(drops["RDATE"], list) else [drops["RDATE"]]
        days = [one.dt for part in further for one in part.dts]
        # RFC 5545, 3.8.5.2: days are told from moments by VALUE=DATE
        self.assertEqual({part.params.get("VALUE") for part in further}, {"DATE"})
        # morning of the 20th, evening of the 21st, morning of the 23rd, evening of the 24th
        self.assertEqual(days, [datetime.date(2026, 3, day) for day in (21, 23, 24)])
        self.assertEqual(salve["STATUS"], "CANCELLED")
        self.assertEqual([e["STATUS"] for kind, e in events.items() if kind.startswith("dose-")].count("CANCELLED"), 18)

    def test_two_runs_give_the_same_bytes(self):
        self.assertEqual(run("dates", VISITS[0], "-o", "-", *DAY).stdout, run("dates", VISITS[0], "-o", "-", *DAY).stdout)

    def test_names_tell_nothing_outside_their_entry(self):
        text = run("dates", VISITS[0], "-o", "-", *DAY).stdout.decode()
        self.assertNotIn("rosa.lind", text)
        with tempfile.TemporaryDirectory() as folder:
            done = run("dates", VISITS[0], "-o", Path(folder) / "c.ics", *DAY)
            self.assertEqual(done.returncode, 0)
            self.assertEqual((Path(folder) / "c.ics").stat().st_mode & 0o007, 0)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
