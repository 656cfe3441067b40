#!/usr/bin/env python3
"""Medicines as a schedule: dose days counted by hand, what looks like a slip, and what the keeper reads and ticks."""
import datetime
import json
import random
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

try:
    import pikepdf
except ImportError:
    print("skipped: python3-pikepdf is not installed")
    sys.exit(77)

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-11-27"
SYRUP = {"name": "Syrup", "amount": "0.2 ml", "route": "by-mouth", "every": "24 h", "for": "10 days", "first": "2026-11-28"}


def run(*words, stdin):
    return subprocess.run([PROGRAM, *map(str, words)], input=stdin, capture_output=True, text=True, cwd=ROOT, timeout=60)


def record(*medicines, date=TODAY, kind="checkout", language="en", findings=(), done=(), more=(), recheck=None, **patient):
    return {"visit": {"date": date, "kind": kind, "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Bruno", "species": "hermanns-tortoise", **patient},
            "keeper": {"name": "Lena Marsh", "email": "lena@example.org", "language": language, "units": "metric"}, "findings": list(findings),
            "done-today": list(done), "medicines": list(medicines), **({"follow-up": {"recheck": recheck}} if recheck else {}), **dict(more)}


class Medicines(unittest.TestCase):
    def plan(self, *medicines, today=TODAY, **parts):
        done = run("explain", "--json", "-", "--today", today, stdin=json.dumps(record(*medicines, date=today, **parts)))
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)

    def doses(self, today=TODAY, **medicine):
        one = self.plan({"name": "Syrup", "amount": "0.2 ml", **medicine}, today=today)["medicines"][0]
        return one, [d["on"][5:] + (f" {d['at']}" if d["at"] else "") for d in one["doses"]]

    def printed(self, *medicines, layout="-layout", paper="a4", **parts):
        with tempfile.TemporaryDirectory() as folder:
            done = run("sheet", "-", "-o", f"{folder}/s.pdf", "--today", parts.get("date", TODAY), "--paper", paper, stdin=json.dumps(record(*medicines, **parts)))
            self.assertEqual(done.returncode, 0, done.stderr)
            return subprocess.run(["pdftotext", layout, f"{folder}/s.pdf", "-"], capture_output=True, text=True, check=True).stdout.replace("\u00a0", " ")

    # ---- the days, counted by hand -------------------------------------------------------------------

    def test_every_day_across_the_months_end(self):
        one, days = self.doses(**{"every": "24 h", "for": "10 days", "first": "2026-11-28"})
        self.assertEqual(days, ["11-28", "11-29", "11-30", "12-01", "12-02", "12-03", "12-04", "12-05", "12-06", "12-07"])
        self.assertEqual((one["last"], one["every_hours"], one["for_days"], one["amount"]), ("2026-12-07", 24, 10, {"value": 0.2, "unit": "ml"}))

    def test_twice_a_day_from_an_evening(self):
        one, days = self.doses(**{"every": "12 h", "doses": 5, "first": "2026-11-29", "at": "evening"})
        self.assertEqual(days, ["11-29 evening", "11-30 morning", "11-30 evening", "12-01 morning", "12-01 evening"])
        self.assertEqual(one["dose_count"], 5)
        # three days are six doses wherever they begin
        self.assertEqual(len(self.doses(**{"every": "12 h", "for": "3 days", "first": "2026-11-29", "at": "evening"})[1]), 6)

    def test_three_and_four_times_a_day(self):
        self.assertEqual(self.doses(**{"every": "8 h", "doses": 4, "first": "2026-11-30"})[1], ["11-30 morning", "11-30 afternoon", "11-30 night", "12-01 morning"])
        self.assertEqual(self.doses(**{"every": "6 h", "doses": 5, "first": "2026-11-30"})[1],
                         ["11-30 morning", "11-30 noon", "11-30 evening", "11-30 night", "12-01 morning"])

    def test_hours_that_nobody_wrote_are_a_blank(self):
        """Every 8 hours at home: three doses a day, every 6 hours four. 6:00, 14:00 and 22:00 were hours of ours, and woke an animal whose light goes
        out after twelve hours (a veterinarian, of printed sheets): a blank stands there and she is asked. Counted from an hour of hers, or twice a day,
        none is."""
        for every, at, wanted in (("8 h", "evening", ["11-29", "11-30", "11-30", "11-30"]), ("8 h", "noon", ["11-29", "11-29", "11-30", "11-30"]), ("6 h", "morning", ["11-29"] * 4)):
            one, _ = self.doses(**{"every": every, "doses": 4, "first": "2026-11-29", "at": at})
            self.assertEqual([(d["on"][5:], d["time"]) for d in one["doses"]], [(day, None) for day in wanted], (every, at))
        # of the visit's own day the morning is over (a reader of printed sheets): six and two o'clock had boxes that nobody could tick
        for every, wanted in (("8 h", ["11-27", "11-28", "11-28", "11-28"]), ("6 h", ["11-27", "11-27", "11-28", "11-28"])):
            one, _ = self.doses(**{"every": every, "doses": 4, "first": TODAY})
            self.assertEqual([(d["on"][5:], d["time"]) for d in one["doses"]], [(day, None) for day in wanted], every)
        drops = {"name": "Drops", "amount": "1 drop", "every": "8 h", "doses": 4, "first": "2026-11-27", "at": "evening"}
        for language, blank, asked in (("en", "Drops, at ____", "Its hours stand in the table. Empty? Ask us before you leave."), ("es", "Drops, a las ____", "Sus horas van en la tabla. ¿Vacías? Pregunta antes de irte."),
                                       ("fr", "Drops, à ____ h", "Ses heures sont dans le tableau. Vides ? Demandez avant de partir.")):
            text = self.words(drops, language=language)
            self.assertEqual((text.count(blank), text.count(asked)), (3, 1), text)
            self.assertNotRegex(text, r"Drops, \d")
        for more, is_asked in (({}, True), ({"every": "12 h"}, False), ({"given-today": True, "given-today-at": "15:00", "at": None}, False), ({"given": "here"}, False)):
            one = {key: value for key, value in {**drops, **more}.items() if value is not None}
            self.assertEqual("dose-hours-not-written" in [r["code"] for r in self.plan(one)["review"]], is_asked, more)

    def test_directions_say_which_eye(self):
        """"In the sore eye or eyes" and behind it "left eye only" are two orders (a veterinarian, of printed sheets)."""
        drops = {"name": "Drops", "amount": "1 drop", "route": "in-the-eye", "every": "12 h", "for": "5 days", "first": "2026-11-28"}
        for language, both, one, left in (("en", "1 drop in the sore eye or eyes,", "1 drop in the eye,", "Left eye only."), ("es", "1 gota en el ojo u ojos enfermos,", "1 gota en el ojo,", "Solo el ojo izquierdo."),
                                          ("fr", "1 goutte dans l'œil ou les yeux malades,", "1 goutte dans l'œil,", "Œil gauche seulement.")):
            for directions, said in ((left, one), ("With clean hands.", both)):
                self.assertIn(said, self.words({**drops, "directions": directions}, language=language, findings=[{"code": "swollen-eyes", "severity": "mild"}]))

    def test_what_is_given_each_day_keeps_the_hour_of_its_first_dose(self):
        """First here at 16:00, then every 24 hours at home: at 16:00, as her interval says; a part of the day that she wrote stands before it."""
        for every, more, wanted, row in (("24 h", {}, ["11-28 16:00", "11-29 16:00"], "Syrup, 16:00"), ("48 h", {}, ["11-29 16:00", "12-01 16:00"], "Syrup, 16:00"),
                                         ("24 h", {"at": "evening"}, ["11-28 None", "11-29 None"], "Syrup, evening")):
            drug = {"amount": "0.2 ml", "every": every, "doses": 3, "given-today": True, "given-today-at": "16:00", **more}
            one, _ = self.doses(**drug)
            self.assertEqual([f"{d['on'][5:]} {d['time']}" for d in one["doses"]], wanted, (every, more))
            self.assertIn(row, self.words({"name": "Syrup", **drug}))

    # ---- a dose of today, counted by hand -----------------------------------------------------------

    def test_the_next_dose_is_counted_from_the_one_of_today(self):
        """From Friday 27 November: every third day 30 November, 3 and 6 December, four doses in all; every 8 hours from 15:00: 23:00, 7:00; every 12
        hours from 9:30: 21:30."""
        for more, wanted in ((("3 days", {"doses": 4}), ["11-30", "12-03", "12-06"]), (("24 h", {"for": "3 days"}), ["11-28", "11-29"]),
                             (("24 h", {"for": "3 days", "at": "evening"}), ["11-28 evening", "11-29 evening"])):
            one, days = self.doses(**{"every": more[0], **more[1], "given-today": True})
            self.assertEqual((days, one["dose_count"], one["given_today"], one["first"][5:]), (wanted, len(wanted), True, wanted[0].split()[0]), more)
        # what falls after midnight is tomorrow's: a box under today would be ticked at bedtime, hours after the first
        for every, at, wanted in (("8 h", "15:00", ["11-27 23:00", "11-28 7:00", "11-28 15:00"]), ("12 h", "9:30", ["11-27 21:30", "11-28 9:30", "11-28 21:30"]),
                                  ("12 h", "15:30", ["11-28 3:30", "11-28 15:30", "11-29 3:30"]), ("12 h", "12:00", ["11-28 0:00", "11-28 12:00", "11-29 0:00"]),
                                  ("8 h", "17:00", ["11-28 1:00", "11-28 9:00", "11-28 17:00"])):
            one, _ = self.doses(**{"every": every, "doses": 4, "given-today": True, "given-today-at": at})
            self.assertEqual([f"{d['on'][5:]} {d['time']}" for d in one["doses"]], wanted)
            self.assertEqual(one["given_today_at"], at)
            small = any(re.match("[0-3]:", day.split()[1]) for day in wanted)
            self.assertEqual("medicine-in-the-small-hours" in self.remarks({"name": "Syrup", "amount": "0.2 ml", "every": every, "doses": 4, "given-today": True, "given-today-at": at}), small, at)

    def test_doses_that_the_clinic_gives_by_the_clock_are_told_with_their_hours(self):
        """Every 12 hours from 11:00 here: 23:00 tonight, 11:00 and 23:00 tomorrow. Tonight's stood on no page and tomorrow's two visits shared one blank hour;
        who signs is asked whether it stays in. What is given at home, or once a day, has no such line."""
        shot = {"name": "Shot", "amount": "0.1 ml", "every": "12 h", "doses": 4, "given": "here", "given-today": True, "given-today-at": "11:00"}
        for language, said, blank in (("en", "Doses with us: today 23:00 and Sat 28 Nov 11:00 and 23:00, and ask us", "for a dose: "),
                                      ("es", "Dosis en la clínica: hoy 23:00 y sábado 28 nov 11:00 y 23:00. Antes", "para una dosis: "),
                                      ("fr", "Doses chez nous : aujourd'hui 23 h 00 et sam 28 nov 11 h 00 et 23 h 00. Demandez", "pour une dose : ")):
            text = self.words(shot, language=language)
            self.assertIn(said, text)
            self.assertEqual(text.count(said[:said.index(" 23") + 3]), 2, text)
            self.assertNotIn(blank, text)
        plan = self.plan(shot)
        self.assertIn("doses-here-by-the-clock", [one["code"] for one in plan["review"]])
        for more in ({"given": "at-home"}, {"every": "24 h"}):
            self.assertNotIn("doses-here-by-the-clock", [one["code"] for one in self.plan({**shot, **more, **({"given-today-at": None} if "every" in more else {})})["review"]], more)

    def test_page_one_says_that_a_dose_of_tonight_is_with_us(self):
        """From 11:00 every 12 hours the next is at 23:00 tonight: the head of page one named every medicine but that. From 16:00 it is tomorrow's."""
        shot = {"name": "Shot", "amount": "0.1 ml", "every": "12 h", "doses": 4, "given": "here", "given-today": True, "given-today-at": "11:00"}
        for language, said in (("en", "Back to us today at 23:00: Shot."), ("es", "Hoy vuelve aquí a las 23:00: Shot."),
                                        ("fr", "Revenez aujourd'hui à 23 h 00 : Shot.")):
            for found in ([{"code": "abscess", "severity": "moderate"}], []):
                self.assertIn(said, self.words(shot, SYRUP, language=language, findings=found).split("1 de 2")[0].split("1 of 2")[0])
                self.assertNotIn(said[:20], self.words({**shot, "given-today-at": "16:00"}, SYRUP, language=language, findings=found))

    def test_without_its_time_the_next_dose_is_never_too_soon(self):
        shot = {"name": "Drops", "amount": "1 drop", "every": "8 h", "doses": 4, "given-today": True}
        plan = self.plan(shot)
        self.assertEqual([(d["on"][5:], d["time"]) for d in plan["medicines"][0]["doses"]], [("11-28", None)] * 3)
        self.assertIn("dose-today-without-time", [one["code"] for one in plan["review"]])
        self.assertNotIn("dose-today-without-time", [one["code"] for one in self.plan({**shot, "given-today-at": "15:00"}, {**shot, "name": "Other", "every": "24 h"})["review"]])

    def test_a_dose_of_today_keeps_all_that_goes_for_the_next(self):
        """The day it is given from, how a needle is used, and as many boxes as there are doses left: 30 November, 3 and 6 December."""
        shot = {"name": "Shot", "amount": "0.1 ml", "route": "into-the-muscle", "every": "3 days", "doses": 4, "given-today": True}
        ill = [{"code": "abscess", "severity": "moderate"}]
        for language, said, start, needle in (("en", "3 more doses: Mon 30 Nov to Sun 6 Dec. The first dose was given here today.", "Shot from Mon 30 Nov", "Inject only where and how we have shown you"),
                                              ("es", "3 dosis más: del lunes 30 nov al domingo 6 dic. La primera dosis se dio aquí hoy.", "Shot desde el lunes 30 nov", "Inyecta solo donde y como te enseñamos"),
                                              ("fr", "encore 3 doses : du lun 30 nov au dim 6 déc. La première dose a été donnée ici aujourd'hui.", "Shot à partir du lun 30 nov", "Piquez seulement là et comme montré")):
            text = self.words(shot, language=language, findings=ill)
            for words in (said, start, needle):
                self.assertIn(words, text)
        lines = [line.split() for line in self.printed(shot, findings=ill).splitlines()]
        self.assertIn(["Shot", "30", "3", "6"], lines)
        self.assertIn("given here today at 15:00", self.words({**shot, "given-today-at": "15:00"}))

    def test_a_single_dose_of_today_leaves_nothing_to_give(self):
        for more in ({}, {"every": "24 h", "doses": 1}):
            shot = {"name": "Shot", "amount": "0.1 ml", "route": "injection", "given-today": True, **more}
            text = self.words(shot)
            self.assertIn("Given by us, 0.1 ml as an injection: Fri 27 Nov.", text)
            self.assertNotIn("Inject only", text)
            self.assertNotIn("Tick each dose", text)

    def test_a_day_and_a_time_beside_the_dose_of_today_are_refused(self):
        base = {"name": "Shot", "amount": "0.1 ml", "given-today": True}
        for more, said in (({"every": "24 h", "first": "2026-11-28"}, "leave 'first' out"), ({"every": "8 h", "at": "evening"}, "given-today-at"),
                           ({"every": "8 h", "given-today-at": "25:00"}, "no time of the day"), ({"every": "8 h", "given-today": False, "given-today-at": "9:00"}, "given-today: yes")):
            done = run("explain", "-", "--today", TODAY, stdin=json.dumps(record({**base, **more})))
            self.assertEqual(done.returncode, 1, more)
            self.assertIn(said, done.stderr)

    def test_a_rinse_of_the_mouth_is_not_swallowed(self):
        """Common practice, no source."""
        for language, route, how, mouth in (("en", "in the mouth, on the gums", "not breathed in", "by mouth"), ("es", "en la boca, en las encías", "no lo respire", "por la boca"),
                                            ("fr", "dans la bouche, sur les gencives", "sans être respiré", "par la bouche")):
            text = self.words({**SYRUP, "route": "in-the-mouth"}, language=language)
            self.assertIn(route, text)
            self.assertIn(how, text)
            self.assertNotIn(mouth, text)
            self.assertNotIn(how, self.words(SYRUP, language=language))
            self.assertNotIn(how, self.words({**SYRUP, "route": "in-the-mouth", "given": "here"}, language=language))

    def test_the_last_dose_has_its_box(self):
        """Ten days from 28 November end on 7 December. Of more the table shows ten, as twelve columns were set smaller than the rest, and each day that is left
        has a line of its own: nobody counts "every 3 days until". Past six days the end is said. By hand."""
        for days, rest in ((10, None), (11, "then Tue 8 Dec ____."), (12, "then Tue 8 Dec ____ and Wed 9 Dec ____."), (13, "then Tue 8 Dec ____, Wed 9 Dec ____ and Thu 10 Dec ____."),
                           (17, "then every 24 hours until Mon 14 Dec.")):
            text = self.printed({**SYRUP, "for": f"{days} days"})
            row = next(line for line in text[text.index("Tick each dose"):].splitlines() if line.strip().startswith("Syrup"))
            self.assertEqual((row.split()[-1], len(row.split())), ("7", 11))
            said = re.findall(r"then (?:every|\w{3} \d+ \w{3} ____)[^.]*\.", " ".join(text.split()))
            self.assertEqual(said, [rest] if rest else [], days)
        self.assertIn("Syrup : ensuite, mar 8 déc ____ et mer 9 déc ____.", self.words({**SYRUP, "for": "12 days"}, language="fr"))
        # of two the one that ends soonest brings the other's boxes of its days with it; what ends later is said
        text = self.printed({**SYRUP, "for": "20 days"}, {"name": "Shot", "amount": "0.1 ml", "every": "3 days", "doses": 6, "first": "2026-11-28"})
        rows = {name: next(line.split()[1:] for line in text[text.index("Tick each dose"):].splitlines() if line.strip().startswith(name)) for name in ("Syrup", "Shot")}
        self.assertEqual(rows, {"Syrup": ["28", "29", "30", "1", "2", "3", "4", "5", "6", "7"], "Shot": ["28", "1", "4", "7"]})
        self.assertIn("Shot: then Thu 10 Dec ____ and Sun 13 Dec ____.", re.sub(r"\s+", " ", text))

    def test_each_dose_of_the_days_that_are_shown_has_its_box(self):
        """An empty cell reads "nothing today", and so does a day between two others that has no column (a reader of printed sheets): of whatever
        is given at home each dose from the first day of the table to its last has a box, and what goes on behind it is said."""
        draw = random.Random(20261130)
        went_on = ended = 0
        for _ in range(40):
            medicines = []
            for name in ("Aa", "Bb", "Cc", "Dd")[:draw.randint(1, 4)]:
                end = draw.choice([{"doses": draw.randint(1, 14)}, {"for": f"{draw.randint(1, 20)} days"}, {}])
                medicines.append({"name": name, "amount": "0.1 ml", "route": "by-mouth", "every": draw.choice(["8 h", "12 h", "24 h", "48 h", "3 days", "7 days", "14 days"]),
                                  "first": (datetime.date(2026, 11, 27) + datetime.timedelta(draw.choice([0, 1, 2, 5, 9]))).isoformat(), **end})
            plan, text = self.plan(*medicines), self.printed(*medicines)
            shown = re.search(r"Tick each dose.* from \w+ \d+ \w+ to \w+ (\d+ \w+)", text)
            self.assertTrue(shown, text)
            last = shown.group(1)
            dated = lambda day: min((datetime.datetime.strptime(f"{day} {year}", "%d %b %Y").date() for year in (2026, 2027)), key=lambda d: abs((d - datetime.date(2026, 12, 20)).days))
            table = text[text.index("Tick each dose"):]
            for one in plan["medicines"]:
                wanted = {}
                for dose in one["doses"]:
                    if dose["on"] <= dated(last).isoformat():
                        wanted.setdefault("____" if one["every_hours"] == 8 else dose["time"] or dose["at"], []).append(str(int(dose["on"][8:])))
                got = {}
                for line in table.splitlines():
                    if line.split()[:1] in ([one["name"]], [one["name"] + ","]):
                        at, *days = line.replace("at ____", "____").split()[1:] if "," in line else [None, *line.split()[1:]]
                        got.setdefault(at, []).extend(days)
                got = {at: days for at, days in got.items() if days}
                self.assertEqual({at: sorted(days) for at, days in got.items()}, {at: sorted(days) for at, days in wanted.items()}, (one["name"], last, medicines, table[:1500]))
                goes_on = not one["dose_count"] or one["doses"][-1]["on"] > dated(last).isoformat()
                self.assertEqual(f"{one['name']}: then " in re.sub(r"\s+", " ", table), goes_on, (one["name"], medicines, table[:1500]))
                went_on, ended = went_on + goes_on, ended + (not goes_on)
        self.assertTrue(went_on > 20 and ended > 20, (went_on, ended))

    def test_every_other_day_across_the_leap_day(self):
        self.assertEqual(self.doses("2028-02-24", **{"every": "48 h", "for": "9 days", "first": "2028-02-25"})[1], ["02-25", "02-27", "02-29", "03-02", "03-04"])
        self.assertEqual(self.doses("2027-02-24", **{"every": "2 days", "for": "9 days", "first": "2027-02-25"})[1], ["02-25", "02-27", "03-01", "03-03", "03-05"])

    def test_every_week(self):
        one, days = self.doses(**{"every": "7 days", "for": "3 weeks", "first": "2026-12-20"})
        self.assertEqual((days, one["last"]), (["12-20", "12-27", "01-03"], "2027-01-03"))

    def test_without_an_end_the_planners_weeks_are_listed(self):
        one, days = self.doses(**{"every": "7 days", "first": "2026-11-30"})
        self.assertEqual((len(days), one["last"], one["dose_count"]), (8, None, None))

    def test_directions_alone_have_no_days(self):
        one = self.plan({"name": "Salve", "directions": "Thinly, each evening."})["medicines"][0]
        self.assertEqual((one["doses"], one["directions"], one["amount"], one["every_hours"]), ([], "Thinly, each evening.", None, None))

    # ---- what the clinic gives ---------------------------------------------------------------------------

    def test_a_dose_that_the_clinic_gives_is_a_visit(self):
        """From Friday 27 November every third day: 30 November, 3 and 6 December, the last a Sunday, when the invented clinic is closed: then the
        Monday, and the veterinarian is told. Each day has no open day to go to: that is told too."""
        shot = {"name": "Shot", "amount": "0.1 ml", "route": "injection", "given": "here", "every": "3 days", "doses": 4, "first": "2026-11-27"}
        plan = self.plan(shot)
        self.assertEqual([d["on"] for d in plan["dates"] if d["what"] == "given-here"], ["2026-11-30", "2026-12-03", "2026-12-07"])
        self.assertEqual([d for d in plan["dates"] if d["what"] == "dose"], [])
        self.assertEqual([(one["code"], bool(one["line"])) for one in plan["review"] if one["code"].startswith("dose-")], [("dose-moved", True), ("dose-here-without-hour", True)])
        daily = self.plan({**shot, "every": "24 h", "doses": 5})
        self.assertEqual([one["code"] for one in daily["review"] if one["code"].startswith("dose-")], ["dose-on-closed-day"])
        text = " ".join(self.printed(shot, findings=[{"code": "nose-discharge", "severity": "mild"}]).split())
        self.assertIn("What to do at home until you come back on Mon 30 Nov", text)
        self.assertIn("Next visit, for a dose: Mon 30 Nov", text)
        # 3, 6 and now 7 December: "every 3 days" would belie the days beside it
        self.assertIn("Given by us, 0.1 ml as an injection, about every 3 days", text)
        kept = " ".join(self.printed({**shot, "doses": 3}, findings=[{"code": "nose-discharge", "severity": "mild"}]).split())
        self.assertIn("as an injection, every 3 days", kept)
        self.assertIn("With us: dose Mon 30 Nov, Thu 3 Dec and Mon 7 Dec", text)
        at_home = {**shot, "given": "at-home"}
        self.assertEqual(len([d for d in self.plan(at_home)["dates"] if d["what"] == "dose"]), 4)

    def test_nobody_is_sent_to_a_closed_door_for_a_dose(self):
        """From Friday 27 November every day, three doses with the one of today: Saturday, open, and Sunday, closed."""
        shot = {"name": "Shot", "amount": "0.1 ml", "route": "injection", "given": "here", "every": "24 h", "doses": 3, "given-today": True}
        plan = self.plan(shot)
        self.assertEqual([d["on"] for d in plan["dates"] if d["what"] == "given-here"], ["2026-11-28"])
        told = [one for one in plan["review"] if one["code"] == "dose-on-closed-day"]
        self.assertEqual([bool(one["line"]) for one in told], [True])
        for language, said in (("en", "We are closed on Sun 29 Nov: ask us today who gives that dose."), ("es", "Cerramos el domingo 29 nov: pregunta hoy quién da esa dosis."),
                               ("fr", "Nous sommes fermés le dim 29 nov : demandez aujourd'hui qui donne cette dose.")):
            self.assertIn(said, self.words(shot, language=language))
            self.assertNotIn(said, self.words({**shot, "doses": 2}, language=language))
            self.assertNotIn(said, self.words({**shot, "given": "at-home"}, language=language))

    # ---- the next dose that the clinic gives --------------------------------------------------------------

    def page_one(self, *medicines, **parts):
        """Up to its foot, in whatever language."""
        return re.split(r"(?:page|página) 1 (?:of|de|sur) ", self.words(*medicines, **parts))[0]

    def test_page_one_names_the_next_dose_with_us(self):
        """From Friday 27 November at 11:20 every 24 hours: Saturday at 11:20, when the invented clinic is open from 9 to 13. A reader of printed sheets:
        page one sent home until the check in eight days who was due the next morning for what it lives by, and the hour was a blank."""
        shot = {"name": "Shot", "amount": "0.1 ml", "route": "into-the-muscle", "every": "24 h", "doses": 2, "given": "here", "given-today": True, "given-today-at": "11:20"}
        rows = (("en", "Back to us Sat 28 Nov at 11:20: Shot.", "Back to us Sat 28 Nov: Shot.", "Next visit, for a dose: Sat 28 Nov, at 11:20.", "Next visit, for a dose: Sat 28 Nov, at ____ (ask us)."),
                ("es", "Vuelve aquí el sábado 28 nov a las 11:20: Shot.", "Vuelve aquí el sábado 28 nov: Shot.", "para una dosis: sábado 28 nov, a las 11:20.", "para una dosis: sábado 28 nov, a las ____ (pregunta)."),
                ("fr", "Revenez le sam 28 nov à 11 h 20 : Shot.", "Revenez le sam 28 nov : Shot.", "pour une dose : sam 28 nov, à 11 h 20.", "pour une dose : sam 28 nov, à ____ h (demandez)."))
        for language, at, on, visit, blank in rows:
            for found in ([{"code": "abscess", "severity": "moderate"}], []):
                parts = {"language": language, "findings": found, "recheck": "8 days"}
                text = self.words(shot, SYRUP, layout="-raw", **parts)
                self.assertIn(at, self.page_one(shot, SYRUP, **parts))
                self.assertIn(visit, text)
                for more in ({"given-today-at": None}, {"given-today-at": "15:30"}, {"at": "evening"}):
                    other = {key: value for key, value in {**shot, **more}.items() if value is not None}
                    text = self.words(other, SYRUP, layout="-raw", **parts)
                    self.assertIn(on, self.page_one(other, SYRUP, **parts), more)
                    self.assertIn(blank, text)
                self.assertNotIn(on[:15], self.page_one({**shot, "given": "at-home"}, SYRUP, **parts))
                # the check of that day brings it anyway: its day is told once, with the dose
                checked = self.page_one(shot, SYRUP, **{**parts, "recheck": "1 days"})
                self.assertIn(at, checked)
                self.assertIn({"en": "until then", "es": "hasta entonces", "fr": "d'ici là"}[language], checked)

    def test_a_dose_on_the_day_of_another_clinic_is_asked_for(self):
        """Two orders for one morning stood on a sheet: fasting before the operation elsewhere, and a painkiller on a leaf (a veterinarian read it)."""
        pain = {"name": "Meloxicam", "amount": "0.1 ml", "route": "by-mouth", "every": "24 h", "for": "5 days", "first": "2026-11-28"}
        for on, given, asked in (("2026-11-30", {}, ["2026-11-30"]), ("2026-12-09", {}, []), ("2026-11-30", {"given": "here"}, [])):
            review = self.plan({**pain, **given}, more={"follow-up": {"referral": {"to": "Hillbrook", "on": on}}})["review"]
            self.assertEqual([one["facts"]["on"] for one in review if one["code"] == "dose-on-referral-day"], asked, (on, given))

    def test_days_without_a_dose(self):
        """Five days with one left out are four doses that end as written; five doses with one left out are five that end a day later. A day that is none
        of its days is asked about, and so is a course of which nothing would be left."""
        off = {"not-on": ["2026-11-30"]}
        one, days = self.doses(**{"every": "24 h", "for": "5 days", "first": "2026-11-28", **off})
        self.assertEqual((days, one["last"]), (["11-28", "11-29", "12-01", "12-02"], "2026-12-02"))
        one, days = self.doses(**{"every": "24 h", "doses": 5, "first": "2026-11-28", **off})
        self.assertEqual((days, one["last"]), (["11-28", "11-29", "12-01", "12-02", "12-03"], "2026-12-03"))
        one, days = self.doses(**{"every": "12 h", "doses": 4, "first": "2026-11-29", **off})
        self.assertEqual(days, ["11-29 morning", "11-29 evening", "12-01 morning", "12-01 evening"])
        one, days = self.doses(**{"every": "24 h", "for": "3 days", "first": "2026-11-30", **off})
        self.assertEqual((days, one["first"]), (["12-01", "12-02"], "2026-12-01"))
        _, days = self.doses(**{"every": "24 h", "first": "2026-11-28", **off})
        self.assertEqual((days[:3], "12-20" in days), (["11-28", "11-29", "12-01"], True))
        for more, asked in (({**off}, False), ({"not-on": ["2026-11-30", "2026-12-09"]}, True), ({"for": "1 days", "first": "2026-11-30", **off}, True)):
            self.assertEqual("medicine-day-out-unused" in self.remarks({**SYRUP, "for": "5 days", **more}), asked, more)
        self.assertEqual(self.doses(**{"every": "24 h", "for": "1 days", "first": "2026-11-30", **off})[1], ["11-30"])
        for language, said in (("en", "Not on Mon 30 Nov."), ("es", "No el lunes 30 nov."), ("fr", "Pas le lun 30 nov.")):
            text = self.printed({**SYRUP, "for": "5 days", **off}, language=language)
            self.assertIn(said, " ".join(text.split()), language)
            row = next(line for line in text.splitlines() if line.split()[-4:] == ["28", "29", "1", "2"] or line.split()[-4:] == ["28", "29", "1er", "2"])
            self.assertNotIn("30", row.split())

    def test_what_her_own_step_says_of_the_day_elsewhere_has_no_box(self):
        """A box on the morning of an operation beside "no meloxicam that morning": her words stand alone. A step of another day, another medicine or
        a number that is part of another one takes no box away."""
        pain = {"name": "Meloxicam 0.5 mg/ml", "amount": "0.1 ml", "route": "by-mouth", "every": "24 h", "for": "5 days", "first": "2026-11-28"}
        follow = {"follow-up": {"referral": {"to": "Hillbrook", "on": "2026-12-01"}}}
        for step, left in (("Tue 1 December: no food and no MELOXICAM before the clinic.", True), ("Give no meloxicam on the 11th.", False),
                           ("Meloxicam: 1.5 ml stays in the fridge.", False), ("On 1 December give no Syrup.", False), ("On 1 December come early.", False)):
            plan = self.plan(pain, more={**follow, "decisions": [{"do": step}]})
            days = [dose["on"] for dose in plan["medicines"][0]["doses"]]
            self.assertEqual("2026-12-01" not in days, left, step)
            self.assertEqual("2026-12-02" in days, True, step)
            self.assertEqual("dose-on-referral-day" in [one["code"] for one in plan["review"]], not left, step)
        for language, said in (("en", "On Tue 1 Dec: only as we wrote for that day."), ("es", "El martes 1 dic: solo lo escrito para ese día."),
                               ("fr", "Le mar 1er déc : seulement ce qui est écrit pour ce jour.")):
            text = " ".join(self.printed(pain, language=language, more={**follow, "decisions": [{"do": "1 December: no meloxicam."}]}).split())
            self.assertIn(said, text, language)

    def test_directions_that_go_by_a_medicine_that_ends_sooner(self):
        """"After the meloxicam", six days longer than it: on those it has no hour, and a veterinarian is asked for one. Not where both end together, where
        it ends later, where no other is named, or of what we give."""
        pain = {"name": "Meloxicam 0.5 mg/ml", "amount": "0.03 ml", "route": "by-mouth", "every": "24 h", "for": "4 days", "first": "2026-11-28"}
        cream = {"name": "Cream", "amount": "0.1 ml", "route": "on-the-skin", "every": "24 h", "for": "10 days", "first": "2026-11-28", "directions": "After the meloxicam, a thin film."}
        for first, second, asked in ((pain, cream, True), ({**pain, "for": "10 days"}, cream, False), (pain, {**cream, "for": "3 days"}, False),
                                     (pain, {**cream, "directions": "At 20:15, a thin film."}, False), (pain, {**cream, "given": "here"}, False)):
            for both in ((first, second), (second, first)):
                found = [one["facts"] for one in self.plan(*both)["review"] if one["code"] == "medicine-after-one-that-ends"]
                self.assertEqual(found, [{"medicine": "Cream", "until": "2026-12-01"}] * asked, both)

    def test_an_hour_at_which_the_clinic_is_closed_is_asked_for(self):
        """Fri 27 Nov 15:30 and 24 hours: Saturday after 13:00. The record has no hour, or it is open: nothing to ask. Every 12 hours it is asked whether
        it stays in, of two doses the one that is left is a visit at four in the night."""
        shot = {"name": "Shot", "amount": "0.1 ml", "every": "24 h", "doses": 2, "given": "here", "given-today": True}
        for more, told in (({"given-today-at": "15:30"}, [("2026-11-28", "15:30")]), ({"given-today-at": "13:00"}, [("2026-11-28", "13:00")]), ({"given-today-at": "12:59"}, []),
                           ({}, []), ({"given-today-at": "15:30", "at": "noon"}, []), ({"given-today-at": "15:30", "given": "at-home"}, []),
                           ({"given-today-at": "15:30", "every": "72 h", "doses": 3}, []), ({"given-today-at": "20:00", "every": "72 h", "doses": 3}, []), ({"given-today-at": "15:30", "doses": 6}, [("2026-11-28", "15:30")]),
                           ({"given-today-at": "16:00", "every": "12 h"}, [("2026-11-28", "4:00")]), ({"given-today-at": "16:00", "every": "12 h", "doses": 5}, [])):
            asked = [one for one in self.plan({**shot, **more})["review"] if one["code"] == "dose-when-closed"]
            self.assertEqual([(one["facts"]["on"], one["facts"]["clock"]) for one in asked], told, more)
            self.assertTrue(all(one["line"] for one in asked))
        self.assertNotIn("4:00", self.words({**shot, "every": "12 h", "given-today-at": "16:00"}))

    def test_doses_with_us_say_one_day_and_hour_everywhere(self):
        """Fri 27 Nov 14:00 and every third day: Mon 30 Nov, Thu 3 Dec, at an hour that nobody booked (a reader of printed sheets); saline each day until Tue 1 Dec
        at 10:15, so Saturday, and Monday, Tuesday but not Sunday. A booked visit on the day of a dose is the visit for it."""
        shot = {"name": "Shot", "amount": "0.1 ml", "every": "72 h", "doses": 3, "given": "here", "given-today": True, "given-today-at": "14:00"}
        saline = {**shot, "name": "Saline", "every": "24 h", "doses": 5, "given-today-at": "10:15"}
        plan = self.plan(shot, saline)
        self.assertEqual([(one["on"][5:], one["facts"]["medicine"], one["facts"].get("clock")) for one in plan["dates"] if one["what"] == "given-here"],
                         [("11-28", "Saline", "10:15"), ("11-30", "Shot", None), ("11-30", "Saline", "10:15"), ("12-01", "Saline", "10:15"), ("12-03", "Shot", None)])
        self.assertEqual([[f"{one['on'][5:]} {one['time']}" for one in medicine["doses"]] for medicine in plan["medicines"]],
                         [["11-30 14:00", "12-03 14:00"], ["11-28 10:15", "11-29 10:15", "11-30 10:15", "12-01 10:15"]])
        ill = [{"code": "abscess", "severity": "moderate"}]
        text = self.words(shot, saline, findings=ill, recheck="12 days")
        self.assertIn("Back to us Sat 28 Nov at 10:15: Saline.", text)
        self.assertNotIn("at 10:15: Shot", text)
        for said in ("With us: Saline Sat 28 Nov, Mon 30 Nov and Tue 1 Dec at 10:15.", "With us: Shot Mon 30 Nov at 10:15 and Thu 3 Dec."):  # one visit on Monday
            self.assertIn(said, text)
        # of one course the hour stands once; two at one hour are one visit, two at two hours are two
        daily = {**shot, "every": "24 h"}
        self.assertIn("With us: dose Sat 28 Nov at 10:00.", self.words({**daily, "doses": 2, "given-today-at": "10:00"}, findings=ill, recheck="12 days"))
        two = self.words({**daily, "given-today-at": "10:00"}, {**daily, "name": "Drip", "given-today-at": "10:00"}, findings=ill, recheck="12 days")
        self.assertIn("Back to us Sat 28 Nov at 10:00: Shot and Drip.", two)
        apart = self.words({**daily, "given-today-at": "11:00"}, {**daily, "name": "Drip", "given-today-at": "9:00"}, findings=ill, recheck="12 days")
        self.assertIn("Back to us Sat 28 Nov at 11:00: Shot. Back to us Sat 28 Nov at 9:00: Drip.", apart)
        self.assertIn("Next visit, for a dose: Sat 28 Nov, at 9:00.", apart)

    def test_an_hour_that_nobody_booked_is_a_blank(self):
        """Every third day from an injection at 14:00: the clinic's hour of Monday is nobody's appointment; on the day of a booked check it is that check's."""
        shot = {"name": "Shot", "amount": "0.1 ml", "every": "72 h", "doses": 4, "given": "here", "given-today": True, "given-today-at": "14:00"}
        ill = [{"code": "abscess", "severity": "moderate"}]
        for every in ("48 h", "72 h"):
            text = self.words({**shot, "every": every}, findings=ill, recheck="12 days")
            self.assertNotRegex(text.replace("given here today at 14:00", ""), r"14:00")
            self.assertRegex(text, r"Next visit, for a dose: \w+ \d+ \w+, at ____ \(ask us\)")
        for booked_at in ({"booked-at": "16:10"}, {}):
            page = self.words(shot, findings=ill, more={"follow-up": {"recheck": "6 days", "booked": "2026-12-03", **booked_at}})
            self.assertEqual("Mon 30 Nov, Thu 3 Dec at 16:10 and Mon 7 Dec" in page, bool(booked_at), page)

    def test_a_next_dose_on_a_closed_day_is_asked_for_on_page_one(self):
        """Sat 28 Nov 10:00 and 24 hours: Sunday, when the clinic is closed, then Monday at 10:00."""
        shot = {"name": "Shot", "amount": "0.1 ml", "every": "24 h", "doses": 3, "given": "here", "given-today": True, "given-today-at": "10:00"}
        for language, asks, back in (("en", "Ask us today who gives Shot on Sun 29 Nov.", "Back to us Mon 30 Nov at 10:00: Shot."), ("es", "Pregunta hoy quién da Shot el domingo 29 nov.", "Vuelve aquí el lunes 30 nov a las 10:00: Shot."),
                                     ("fr", "Demandez aujourd'hui qui donne Shot le dim 29 nov.", "Revenez le lun 30 nov à 10 h 00 : Shot.")):
            parts = {"language": language, "findings": [{"code": "abscess", "severity": "moderate"}], "recheck": "9 days", "date": "2026-11-28"}
            page = self.page_one(shot, **parts)
            self.assertIn(f"{asks} {back}", page)
            self.assertIn(asks, self.page_one({**shot, "doses": 2}, **parts))
            # on Friday the next is Saturday's: Sunday's is asked for beside the medicine
            self.assertNotIn(asks, self.page_one(shot, **{**parts, "date": TODAY}))

    def test_doses_of_the_clinic_without_a_day_are_asked_for(self):
        """Ten days of doses here and no first one: no page says that it stays at home until the check, and the keeper asks for the days."""
        shot = {"name": "Shot", "amount": "0.1 ml", "route": "injection", "given": "here", "every": "24 h", "for": "10 days"}
        ill = [{"code": "abscess", "severity": "moderate"}]
        told = [one for one in self.plan(shot)["review"] if one["code"] == "medicine-without-first-day"]
        self.assertEqual([bool(one["line"]) for one in told], [True])
        for language, said, until in (("en", "Ask us today on which days to come for it.", "What to do at home until"), ("es", "Pregunta hoy qué días hay que venir a que la demos.", "Qué hacer en casa hasta"),
                                      ("fr", "Demandez aujourd'hui quels jours venir pour la recevoir.", "Que faire à la maison jusqu'")):
            text = self.words(shot, language=language, findings=ill)
            self.assertIn(said, text)
            self.assertNotIn(until, text)
            dated = self.words({**shot, "first": "2026-11-28"}, language=language, findings=ill)
            self.assertNotIn(said, dated)
            self.assertIn(until, dated)

    # ---- what looks like a slip ------------------------------------------------------------------------

    def remarks(self, *medicines, **parts):
        plan = self.plan(*medicines, **parts)
        found = [one for one in plan["review"] if one["code"].startswith("medicine-") and one["code"] != "medicine-without-use"]  # "Syrup" says none
        self.assertTrue(all(one["line"] for one in found), found)
        return [one["code"] for one in found]

    def test_a_slip_of_the_point_stops_every_command_until_it_is_confirmed(self):
        """0.2 mg/kg of 4.08 kg are 0.816 mg, of 1.5 mg/ml 0.54 ml: 5.4 ml is ten times that, and was signed beside a remark."""
        slip = {**SYRUP, "amount": "5.4 ml", "dose": "0.2 mg/kg", "concentration": "1.5 mg/ml"}
        for medicine, good in ((slip, False), ({**slip, "confirmed": False}, False), ({**slip, "confirmed": True}, True), ({**slip, "amount": "0.54 ml"}, True)):
            with tempfile.TemporaryDirectory() as folder:
                visit = Path(folder) / "visit.yaml"
                visit.write_text(json.dumps(record(medicine, mass="4.08 kg")))
                for command in (("check",), ("explain",), ("sheet", "-o", f"{folder}/s.pdf"), ("dates", "-o", f"{folder}/s.ics"), ("approve", "--by", "Dr Ines Calder")):
                    before = visit.read_text()
                    done = run(command[0], visit, *command[1:], *(() if command[0] == "check" else ("--today", TODAY)), stdin="")
                    self.assertEqual("[B366]" in done.stderr, not good, (command, medicine, done.stderr))
                    if not good:
                        self.assertEqual((done.returncode, visit.read_text()), (1, before), command)
                        self.assertEqual([path.name for path in Path(folder).iterdir()], ["visit.yaml"], command)

    def test_what_is_right_is_not_remarked(self):
        self.assertEqual(self.remarks(SYRUP, {"name": "Salve", "directions": "Thinly.", "given": "here"}), [])

    def test_a_course_in_words_has_no_box_that_says_done(self):
        """"Twice a day for ten days" is twenty doses: one box to tick would end it with the first. What has no days is written down."""
        salve = {"name": "Salve", "directions": "Thinly, twice a day for ten days"}
        self.assertEqual(self.remarks(salve), ["medicine-in-words-alone"])
        for language, said in (("en", "eep a list of the doses that you give"), ("es", "Apunta las dosis que das."),
                               ("fr", "Notez les doses données.")):
            visit = {"language": language}
            text = " ".join(self.printed(salve, **visit).split())
            ask = {"en": "First dose: ________ (ask us before you leave, and k", "es": "Primera dosis: ________ (pregunta antes de irte).", "fr": "Première dose : ________ (demandez-nous avant de partir)."}[language]
            self.assertIn(f"Thinly, twice a day for ten days. {ask}" + (said if language == "en" else f" {said}"), text)
            dated = " ".join(self.printed({**salve, "first": "2026-11-28"}, **visit).split())
            self.assertEqual((ask in dated, said in dated), (False, True))
            self.assertNotIn(said, " ".join(self.printed(SYRUP, **visit).split()))

    def test_a_course_in_words_has_room_for_its_days_and_says_where_its_amount_stands(self):
        """PEMAT 22: a first day alone, and an amount on a label, left an owner to guess when to stop and how much. Where no end was
        written there is a blank for it, as a guessed day would end a course; a written length keeps its own. Common practice, no source."""
        syrup = {"name": "Syrup", "directions": "The amount on the label twice a day."}
        for language, first, last, amount in (("en", "First dose: ________", "last dose: ________", "Each time ________ (see label)."),
                                              ("es", "Primera dosis: ________", "última: ________", "Cada vez ________ (ver etiqueta)."),
                                              ("fr", "Première dose : ________", "dernière : ________", "Chaque fois ________ (voir l'étiquette).")):
            told = {"language": language, "findings": [{"code": "soft-jaw", "severity": "moderate"}], "recheck": "7 days"}
            text = self.words(syrup, **told)
            self.assertEqual([bool(re.search(one, text)) for one in (first, last, re.escape(amount))], [True] * 3, text)
            dabbed = self.words({"name": "Wash", "directions": "Dab it on."}, **told)
            self.assertEqual([bool(re.search(one, dabbed)) for one in (first, last, re.escape(amount))], [True, True, False], dabbed)
            # her own length is the only one: seven days are no check after three
            for own in ("for seven days", "durante siete días", "pendant sept jours", "until it is clean"):
                long = self.words({**syrup, "directions": f"Thinly, {own}."}, **told)
                self.assertEqual([bool(re.search(one, long)) for one in (first, last)], [True, False], long)
            day = {"en": r"last \w+ \d+ Dec", "es": r"última, el \w+,? \d+ dic", "fr": r"dernière le \w+ \d+ déc"}[language]
            for own in ("until the recheck", "hasta el control", "jusqu'au contrôle"):
                seen = self.words({**syrup, "directions": f"Twice a day {own}."}, **told)
                self.assertEqual([bool(re.search(one, seen)) for one in (first, day, last)], [True, True, False], seen)
            ended = self.words({**syrup, "every": "12 h", "for": "5 days"}, **told)
            self.assertEqual([bool(re.search(one, ended)) for one in (first, last)], [True, False], ended)

    def test_each_slip_is_told(self):
        without = lambda *keys: {key: value for key, value in SYRUP.items() if key not in keys}
        self.assertEqual(self.remarks(without("for")), ["medicine-without-end"])
        self.assertEqual(self.remarks(without("first")), ["medicine-without-first-day"])
        self.assertEqual(self.remarks(without("every", "for")), ["medicine-without-every"])
        self.assertEqual(self.remarks({**SYRUP, "first": "2026-11-20"}), ["medicine-before-visit"])
        self.assertEqual(self.remarks({**SYRUP, "first": "2027-11-28"}), ["medicine-starts-late"])
        self.assertEqual(self.remarks(SYRUP, {**SYRUP, "name": "SYRUP"}), ["medicine-twice"])
        self.assertEqual(self.remarks({**SYRUP, "dose": "5 mg/kg"}), ["medicine-without-mass"])

    def test_a_powder_on_the_food_is_asked_about_where_no_food_is_given(self):
        """"Dust it on the flies" beside "give no food" leads a keeper to put powder into a small mouth, or to feed."""
        powder = {**{key: value for key, value in SYRUP.items() if key != "amount"}, "directions": "Dust it on the flies."}
        fasts, eats = {"findings": [{"code": "belly-mass", "severity": "severe"}]}, {"findings": [{"code": "worms", "severity": "mild"}]}
        self.assertIn("medicine-and-no-food", self.remarks(powder, **fasts))
        self.assertNotIn("medicine-and-no-food", self.remarks(powder, **eats))
        self.assertNotIn("medicine-and-no-food", self.remarks({**SYRUP, "directions": "Into the cheek."}, **fasts))

    def test_a_medicine_by_a_tube_that_nobody_placed_is_told(self):
        """Who signs sees it on the way to the paper, and the sheet goes on: the tube may be an old one."""
        by_tube = {**SYRUP, "route": "feeding-tube"}
        tube = {"findings": [{"code": "not-eating", "severity": "severe"}]}
        self.assertIn("medicine-without-tube", self.remarks(by_tube, **tube))
        self.assertNotIn("medicine-without-tube", self.remarks(by_tube, done=["feeding-tube-placed"], **tube))
        self.assertNotIn("medicine-without-tube", self.remarks(SYRUP, **tube))
        told = run("sheet", "-", "-o", "/dev/null", "--today", TODAY, "--drafts", stdin=json.dumps(record(by_tube, **tube)))
        self.assertEqual(told.returncode, 0, told.stderr)
        self.assertIn("medicine-without-tube", told.stderr)

    def test_the_amount_is_worked_out_for_the_veterinarian(self):
        """5 mg/kg x 0.9 kg = 4.5 mg; 4.5 mg / 25 mg/ml = 0.18 ml."""
        plan = self.plan({**SYRUP, "dose": "5 mg/kg", "concentration": "25 mg/ml"}, mass="900 g", length="16 cm")
        how = {one["what"]: one["value"] for one in plan["medicines"][0]["how"]}
        self.assertEqual({what: round(value, 9) for what, value in how.items()}, {"medicine.amount_mg": 4.5, "medicine.amount_ml": 0.18})
        self.assertIn("medicine-worked-out", [one["code"] for one in plan["review"]])

    # ---- bad input, with its place ---------------------------------------------------------------------

    def test_bad_input_is_refused_with_its_place(self):
        for line, message in (("amount: -0.2 ml", "outside what is possible"), ("amount: 0.2", "has no unit; write it with ml, mg"), ("every: 0 h", "outside what is possible"),
                              ("every: 24", "has no unit; write it with h, days or weeks"), ("route: by-moth", "did you mean 'by-mouth'"), ("doses: 2.5, every: 24 h", "is not a whole number"),
                              ("for: 3 days, doses: 3, every: 24 h", "either for or doses"), ("doses: 3", "say under 'every'"), ("first: 2026-02-30", "is not a date"),
                              ("every: 12 h, at: evening", "say under 'first'"), ("at: dawn", "is not known here")):
            text = "\n".join(["visit: {date: 2026-11-27, kind: checkout}", "patient: {name: Bruno, species: hermanns-tortoise}", "medicines:",
                              f"  - {{name: Syrup, directions: As told, {line}}}"])
            done = run("explain", "-", "--today", TODAY, stdin=text)
            self.assertEqual(done.returncode, 1, line)
            self.assertRegex(done.stderr, r"(?m)^[^:]+:4:\d+: ", line)
            self.assertIn(message, done.stderr, line)

    # ---- what the keeper reads -------------------------------------------------------------------------

    def test_the_line_in_both_languages(self):
        for language, wanted in (("en", "0.2 ml into the mouth, every 24 hours, 10 days: Sat 28 Nov to Mon 7 Dec"),
                                 ("es", "0,2 ml en la boca, cada 24 horas, 10 días: del sábado 28 nov al lunes 7 dic")):
            for kind in ("checkout", "email", "adoption"):
                text = re.sub(r"\s+", " ", self.printed({**SYRUP, "directions": "With food."}, language=language, kind=kind, layout="-raw"))
                self.assertIn(f"{wanted}. With food.", text, (language, kind))

    BELOW = "|".join(sorted({one for language in ("en", "es", "fr") for line in (ROOT / f"templates/wording/{language}/wall.yaml").read_text().splitlines()
                             if line.startswith("cut-word.") for one in line.split('"')[1].split(r"\n")}))

    def words(self, *medicines, **parts):
        """Without the word below a small picture, which stands at the end of whatever line is beside it."""
        return " ".join(re.sub(rf"(?m) +(?:{self.BELOW})$", "", self.printed(*medicines, **parts)).split())

    def test_by_mouth_waits_until_it_can_swallow(self):
        """What a drowsy animal has in its mouth goes down the windpipe (common practice, no source). In the message and in the medicine's own row;
        not of a later day, another way in, or a day without narcosis."""
        ill, today = [{"code": "abscess", "severity": "moderate"}], {**SYRUP, "first": TODAY}
        for language, message, row in (("en", "Syrup once Bruno is fully awake", "Today give it only once Bruno is fully awake."),
                                       ("es", "Syrup cuando Bruno despierte del todo", "Hoy, solo cuando Bruno despierte del todo."),
                                       ("fr", "Syrup une fois Bruno tout à fait en éveil", "seulement une fois Bruno tout à fait en éveil.")):
            for done in ("sedation", "surgery"):
                text = self.words(today, language=language, findings=ill, done=[done])
                self.assertIn(message, text, (language, done))
                self.assertIn(row, text, (language, done))
            self.assertIn(row, self.words({**today, "directions": "With food."}, language=language, findings=ill, done=["sedation"]))
            for medicine, done in ((SYRUP, ["sedation"]), ({**today, "route": "in-the-eye"}, ["sedation"]), (today, ["nail-trim"]),
                                   ({**today, "given": "here"}, ["sedation"])):
                self.assertNotIn(row, self.words(medicine, language=language, findings=ill, done=done), medicine)

    def test_written_directions_are_pointed_to_and_not_belied(self):
        """"Only after we have called", or "wipe the mouth": no day, no verb and no way in of the sheet's own stands against it (common practice, no
        source)."""
        ill = [{"code": "abscess", "severity": "moderate"}]
        for language, points, day, verb, route in (("en", "Syrup as we wrote", "from", "[Gg]ive Syrup", "by mouth"), ("es", "Syrup según lo escrito", "desde", "[Dd]a Syrup", "por la boca"),
                                                   ("fr", "Syrup comme écrit", "à partir du", "[Dd]onnez Syrup", "par la bouche")):
            for first in (TODAY, "2026-11-30"):
                plain, told = ({**SYRUP, "first": first, **more} for more in ({}, {"directions": "Only after we have called."}))
                text, other = self.words(told, language=language, findings=ill), self.words(plain, language=language, findings=ill)
                self.assertEqual(text.count(points), 1, text)
                # where room is short in brief
                self.assertRegex(text, {"en": "Tick each dose, only as we wrote above|Tick each dose (.{20,60} )?as above", "es": "Marca cada dosis, solo como escribimos arriba|Marca según lo (.{20,60} )?escrito",
                                        "fr": "Cochez chaque dose, seulement comme écrit plus haut|À cocher (.{20,60} )?comme écrit"}[language])
                self.assertNotRegex(text, f"{verb}|Syrup {day}")
                self.assertNotIn(route, text)
                self.assertRegex(other, f"{verb}|Syrup {day}")
                self.assertIn(route, other)
            self.assertNotIn({"en": " Give Fri", "es": " Dar vie", "fr": " Donner ven"}[language], self.words({**told, "first": TODAY}, language=language, findings=ill))

    def test_a_first_dose_tonight_stands_on_page_one_whatever_is_written_of_it(self):
        """With directions, with them and no rhythm, or one of many: nobody turns the page at night for a dose that page one is silent
        about. What begins tomorrow is not due, and what we give is none of the keeper's."""
        ill = [{"code": "abscess", "severity": "moderate"}]
        tonight = {**SYRUP, "name": "Drops", "route": "in-the-eye", "first": TODAY, "at": "evening", "directions": "Lids held open."}
        once = {"name": "Rinse", "directions": "Once, after the bath.", "first": TODAY}
        plain = {**SYRUP, "name": "Cream", "route": "on-the-skin", "first": TODAY}
        later = {**tonight, "first": "2026-11-28"}
        for language, due, give, many in (("en", "Due today, see Medicines: ", "Today give Cream.", "Doses are due today: see Medicines."),
                                          ("es", "Toca hoy, mira Medicinas: ", "Hoy da Cream.", "Hoy tocan dosis: mira Medicinas."),
                                          ("fr", "Prévu aujourd'hui, voir Médicaments : ", "Aujourd'hui, donnez Cream.", "Des doses sont prévues aujourd'hui : voir Médicaments.")):
            def first(*medicines, done=()):
                return self.words(*medicines, language=language, findings=ill, done=done).partition("555-0199")[2].partition("page 1")[0]
            self.assertIn(due + "Drops", first(tonight))
            self.assertIn(due + "Rinse", first(once))
            self.assertIn(give, first(plain))
            both = first(tonight, plain)
            self.assertEqual((due + "Drops" in both, give in both), (True, True))
            self.assertIn(many, first(tonight, once, {**tonight, "name": "Gel"}))
            for none in (later, {**tonight, "given": "here"}):
                self.assertNotIn(due, first(none), none)
            self.assertNotIn(many, first(later, {**later, "name": "Gel"}, {**later, "name": "Salve"}))

    def test_who_injects_at_home_was_shown_how(self):
        """Common practice, no source. Once for several, beside directions too ("the first dose was given here" tells nobody how); what the clinic
        injects is no task of the keeper."""
        shot = {**SYRUP, "name": "Shot", "route": "into-the-muscle"}
        for language, said in (("en", "Inject only where and how we have shown you, with a new needle each time. Bring used needles to us in a hard, closed container."),
                               ("es", "Inyecta solo donde y como te enseñamos, con aguja nueva. Trae las usadas en un bote duro y cerrado."),
                               ("fr", "Piquez seulement là et comme montré, avec une aiguille neuve. Rapportez les usées dans une boîte dure et fermée.")):
            for kind in ("checkout", "email"):
                self.assertEqual(self.words(shot, {**shot, "name": "Other", "route": "under-the-skin"}, language=language, kind=kind).count(said), 1, (language, kind))
            self.assertEqual(self.words({**shot, "directions": "First dose given here today."}, language=language).count(said), 1)
            for none in ({**shot, "given": "here"}, SYRUP):
                self.assertNotIn(said[:20], self.words(none, language=language), none)

    def test_what_goes_through_a_tube_does_not_go_into_the_mouth(self):
        """Common practice, no source: directions leave the route as it is; nobody gives it before the animal is awake, nor without having been shown."""
        dose = {**SYRUP, "route": "feeding-tube", "first": TODAY, "directions": "Then 1 ml of warm water."}
        for language, through, mouth, ask in (("en", "0.2 ml through the feeding tube, every 24 hours", "mouth", "Not shown how? Call before the first dose."),
                                              ("es", "0,2 ml por la sonda, cada 24 horas", "la boca, cada", "¿Dudas? Llama antes de la primera dosis."),
                                              ("fr", "0,2 ml par la sonde, toutes les 24 heures", "la bouche, toutes", "Pas montré ? Appelez avant la première dose.")):
            text = self.words(dose, language=language)
            self.assertIn(through, text)
            self.assertNotIn(mouth, text.partition(through)[2][:120])
            self.assertIn(ask, text)
        self.assertIn("Today give it only once Bruno is fully awake.", self.words(dose, done=["sedation"]))

    def test_no_medicine_is_said_where_the_sheet_is_full(self):
        """After an examination nobody has to look for it, on a page that is set as close as it goes too."""
        for name, said in (("biscuit-ball-python", "None to give at home."), ("nube-axolotl", "Ninguna para dar en casa.")):
            with tempfile.TemporaryDirectory() as folder:
                run("sheet", ROOT / f"templates/visits/{name}.yaml", "-o", f"{folder}/s.pdf", "--drafts", "--today", "2026-03-20", stdin="")
                text = subprocess.run(["pdftotext", "-raw", f"{folder}/s.pdf", "-"], capture_output=True, text=True, check=True).stdout
            self.assertIn(said, " ".join(text.split()), name)

    def test_what_it_sits_in_is_no_drop_on_the_skin(self):
        """Five minutes in the bath beside "on the skin" were two ways in for one medicine."""
        bath = {**SYRUP, "amount": "60 ml", "route": "in-a-bath", "directions": "Five minutes."}
        for language, said in (("en", "60 ml as a bath, every 24 hours"), ("es", "60 ml como baño, cada 24 horas"), ("fr", "60 ml en bain, toutes les 24 heures")):
            self.assertIn(said, self.words(bath, language=language))

    def test_a_dose_says_how_and_whom_to_ask_before_the_first(self):
        """PEMAT 22 (explicit steps); how is common practice, no source. Directions lead, and a tablet is not dripped."""
        eye = {**SYRUP, "name": "Drops", "amount": "1 drops", "route": "in-the-eye"}
        shot = {**SYRUP, "name": "Shot", "route": "into-the-muscle"}
        for language, drip, tip, ask in (("en", "Let it drip into the side of the mouth, never by force.", "keep the tip off the eye", "Not shown how? Call before the first dose."),
                                         ("es", "Gota a gota a un lado de la boca, sin forzar.", "no toques el ojo con la punta", "¿Dudas? Llama antes de la primera dosis."),
                                         ("fr", "Goutte à goutte sur le côté de la bouche, sans forcer.", "l'embout à distance de l'œil", "Pas montré ? Appelez avant la première dose.")):
            for kind in ("checkout", "email"):
                both = self.words({**SYRUP, "amount": "0.2 ml", "route": "by-mouth"}, eye, shot, language=language, kind=kind)
                self.assertEqual([both.count(said) for said in (drip, tip, ask)], [1, 1, 1], (language, kind))
            tablet = self.words({**SYRUP, "amount": "1 tablets", "route": "by-mouth"}, language=language)
            self.assertEqual([tablet.count(said) for said in (drip, ask)], [0, 1], language)
            told = self.words({**SYRUP, "route": "by-mouth", "directions": "Wipe it into the cheek."}, language=language)
            self.assertEqual([told.count(said) for said in (drip, ask)], [0, 0], language)
            here = self.words({**shot, "given": "here"}, language=language)
            self.assertNotIn(ask, here)

    def test_each_way_stands_behind_its_own_medicine(self):
        """Behind the list it was read of the last one: a cream dripped into the mouth. Two that share a way are named before it."""
        cream = {**SYRUP, "name": "Cream", "route": "on-the-skin", "directions": "A thin film."}
        shot = {"name": "Shot", "amount": "0.1 ml", "route": "injection", "given": "here", "every": "3 days", "doses": 2, "first": "2026-11-30"}
        for language, drip, names in (("en", "Let it drip into the side of the mouth, never by force.", "Syrup and Other: "), ("es", "Gota a gota a un lado de la boca, sin forzar.", "Syrup y Other: "),
                                      ("fr", "Goutte à goutte sur le côté de la bouche, sans forcer.", "Syrup et Other : ")):
            for kind in ("checkout", "email"):
                for last in (cream, shot):
                    text = self.words(SYRUP, last, language=language, kind=kind)
                    said = text[:text.index(drip)].rindex("Syrup")
                    self.assertNotIn(last["name"], text[said:text.index(drip)], (language, kind))
                two = self.words(SYRUP, cream, {**SYRUP, "name": "Other"}, language=language, kind=kind)
                self.assertEqual((two.count(drip), two.count(names + drip)), (1, 1), (language, kind))

    def test_who_was_not_shown_one_of_two_is_asked_behind_that_one(self):
        """Behind the last it was read of the antibiotic that we give. Of one among several nobody says its name a second time."""
        shot = {"name": "Shot", "amount": "0.1 ml", "route": "injection", "given": "here", "every": "3 days", "doses": 2, "first": "2026-11-30"}
        salve = {**SYRUP, "name": "Salve", "route": "on-the-skin", "directions": "A thin film."}
        for language, ask in (("en", "Not shown how? Call before the first dose."), ("es", "¿Dudas? Llama antes de la primera dosis."), ("fr", "Pas montré ? Appelez avant la première dose.")):
            for kind in ("checkout", "email"):
                for other in (shot, salve):
                    text = self.words(SYRUP, other, language=language, kind=kind)
                    own = text[:text.index(ask)]
                    self.assertEqual((text.count(ask), other["name"] in own[own.rindex("Syrup"):]), (1, False), (language, kind, text))
                    self.assertNotRegex(text, r"Syrup\s?: " + re.escape(ask[:8]))
                two = self.words(SYRUP, shot, {**SYRUP, "name": "Other"}, language=language, kind=kind)
                self.assertRegex(two, r"Syrup (and|y|et) Other\s?: [^:]*" + re.escape(ask[:8]))

    def test_a_medicine_of_a_known_class_says_what_it_helps_with(self):
        """CDC index, benefits and risks: by the word of its class in the name, in any language of a record, or by a way in that only such a medicine has.
        A name without a class, or a brand, gets no benefit made up. Common practice, no source."""
        clinic = {"given": "here", "first": "2026-11-30", "every": "3 days"}
        for name, more, said in (("Antibiotic", {}, ("It fights germs, so give every dose", "Da todas las dosis", "donnez toutes les doses")),
                                 ("Antibiótico", clinic, ("come for every dose", "Ven a todas las dosis", "venez pour chaque dose")),
                                 ("Antidouleur", {}, ("It eases pain", "Alivia el dolor", "Il calme la douleur")),
                                 ("Dewormer", {}, ("It kills the worms", "Mata los gusanos", "Il tue les vers")),
                                 ("Antifúngico", {"route": "on-the-skin"}, ("It kills the fungus", "Mata los hongos", "Il tue le champignon")),
                                 ("Calcium syrup", {}, ("It gives bones their calcium", "Da calcio a los huesos", "Il donne du calcium aux os")),
                                 ("Tobra", {"route": "in-the-eye", "amount": "1 drops"}, ("It helps the sore eye heal", "Ayuda a sanar el ojo", "Il aide l'œil à guérir")),
                                 ("Burn cream", {"route": "on-the-skin"}, ("It helps the sore spot heal", "Ayuda a sanar la zona", "Il aide la plaie à guérir"))):
            for language, words in zip(("en", "es", "fr"), said):
                for kind in ("checkout", "email"):
                    ill = [{"code": "airway-infection", "severity": "moderate"}] if more == clinic else []
                    self.assertIn(words, self.words({**SYRUP, "name": name, **more}, language=language, kind=kind, findings=ill), (name, kind))
        text = self.words({**SYRUP, "name": "Antibiotic", "directions": "Only after we have called."})
        self.assertIn("It fights germs.", text)
        self.assertNotIn("give every dose", text)
        for unknown in (SYRUP, {**SYRUP, "name": "Baytril", "route": "on-the-skin"}):
            self.assertNotRegex(self.words(unknown), r"It (fights|eases|kills|helps|gives|keeps)")

    def test_who_missed_a_dose_or_sees_it_worse_knows_whom_to_call(self):
        """Of what the keeper gives, once for all; what we give is missed by nobody at home, but seen worse there. "Never give two, but call us, and do so too if
        it is worse" was read as two for the worse: each of the two is asked for by itself. Common practice, no source."""
        shot = {"name": "Shot", "amount": "0.1 ml", "route": "injection", "given": "here", "every": "3 days", "doses": 2, "first": "2026-11-30"}
        for language, missed, of_any, said, worse in (("en", "Missed a dose", " of any medicine", "? Never give two at once: call us.", " Worse after a dose? Call us."),
                                                      ("es", "¿Falta una dosis", " de alguna medicina", "? Nunca des dos juntas: llama.", " ¿Peor tras una dosis? Llama."),
                                                      ("fr", "ose ", "d'un médicament ", "oubliée ? Jamais deux à la fois : appelez.", " Pire après une dose ? Appelez.")):
            for kind in ("email", "large-print", "checkout"):
                self.assertEqual(self.words(SYRUP, language=language, kind=kind).count(missed + said + worse), 1, (language, kind))
                for other in (shot, {**SYRUP, "name": "Other"}):
                    self.assertEqual(self.words(SYRUP, other, language=language, kind=kind).count(missed + of_any + said + worse), 1, (language, kind))
                here = self.words(shot, language=language, kind=kind)
                self.assertEqual((here.count(worse.strip()), said in here), (1, False), (language, kind))
            self.assertNotIn(worse.strip(), self.words(language=language))
            self.assertIn(missed + said, self.words({**SYRUP, "name": "Other"}, language=language, species="whites-tree-frog"))

    def test_a_cream_under_a_bandage_that_stays_on_is_asked_about(self):
        """The sheet orders the cream each evening and forbids to change the bandage: her words clash, and she is asked. Beside no bandage, by mouth, or given
        by the clinic, nothing is."""
        for done, more, asked in ((["bandage"], {}, True), ([], {}, False), (["shell-dressing"], {}, False), (["bandage"], {"route": "by-mouth", "amount": "0.1 ml"}, False), (["bandage"], {"given": "here"}, False)):
            cream = {"name": "Cream", "route": "on-the-skin", "every": "24 h", "for": "5 days", "first": "2026-11-28", "directions": "Thin.", **more}
            self.assertEqual("cream-and-bandage" in [one["code"] for one in self.plan(cream, done=done)["review"]], asked, (done, more))

    def test_what_goes_into_the_mouth_beside_a_tube_is_asked_about(self):
        """A tube was placed today, and another medicine goes by mouth: who signs sees it. Not without a tube, through it, or given here."""
        for done, more, asked in ((["feeding-tube-placed"], {}, True), ([], {}, False), (["feeding-tube-placed"], {"route": "feeding-tube"}, False), (["feeding-tube-placed"], {"given": "here"}, False)):
            self.assertEqual("by-mouth-beside-tube" in [one["code"] for one in self.plan({**SYRUP, **more}, done=done)["review"]], asked, (done, more))

    def test_a_bath_of_an_amphibian_says_how_warm_and_how_deep(self):
        """As warm as the sheet keeps its water or its cool side; of a kind without a sheet a line to fill in. While it is cooled step by step the number
        would be a shock, so then as warm as its own. How deep, her directions say, else there is a line and she is asked; who lives in water has none."""
        bath = {"name": "Ringer", "route": "in-a-bath", "every": "24 h", "for": "3 days", "first": "2026-11-28", "directions": "15 minutes."}
        frog = {"kind": "dyeing dart frog", "scientific": "Dendrobates tinctorius", "group": "frog", "habit": "terrestrial", "diet": "insects", "reproduction": "egg-layer", "traits": ["bare-skin", "limbs"]}
        for species, more, said in (("fire-bellied-toad", {}, "Make the bath 18–22 °C by a thermometer."), ("whites-tree-frog", {}, r"Make the bath \d+–\d+ °C by a thermometer."),
                                    ("unlisted", {"unlisted": frog}, "Make the bath ____ warm (empty? ask us).")):
            text = self.words(bath, species=species, **more)
            self.assertRegex(text, said if "d+" in said else re.escape(said), species)
            self.assertIn("Make the bath ____ deep (empty? ask us)", text, species)
        self.assertNotIn("____ deep", self.words(bath, species="axolotl"))
        self.assertRegex(self.words(bath, species="axolotl"), r"Make the bath \d+–\d+ °C by a thermometer.")
        self.assertNotIn("Make the bath", self.words(bath, species="hermanns-tortoise"))
        for language, says in (("en", "15 minutes, lukewarm, 1 cm deep."), ("es", "15 minutos, a 20 °C, 1 cm de hondo."), ("fr", "15 minutes, eau tiède, 1 cm de profondeur.")):
            own = {**bath, "directions": says}
            self.assertNotIn("Make the bath", self.words(own, species="fire-bellied-toad"), language)
            self.assertEqual(self.asked(own), set(), language)
        self.assertEqual(self.asked(bath), {"bath-depth-not-written"})
        hot = {"enclosure": {"readings": {"warm-side": "29 C"}}, "water": {"temperature": "28 C"}}
        for language, said in (("en", "Make the bath as warm as its own water or air is then"), ("es", "El baño, igual de cálido que su agua o su aire"), ("fr", "Le bain : à la même température que son eau ou son air")):
            self.assertIn(said, self.words(bath, species="fire-bellied-toad", language=language, more=hot))
            self.assertNotIn(said, self.words(bath, species="fire-bellied-toad", language=language))

    def asked(self, *medicines):
        return {one["code"] for one in self.plan(*medicines, species="fire-bellied-toad")["review"] if one["code"].startswith("bath-")}

    def test_two_baths_or_a_bath_and_a_drop_on_the_skin_have_an_order(self):
        """A bath washes off what lies on the skin, and two in a row are one long one. What is given here, or says itself when, is not told."""
        bath = {"name": "Ringer", "route": "in-a-bath", "every": "24 h", "for": "3 days", "first": "2026-11-28", "directions": "At 20 °C, 1 cm deep."}
        drop = {"name": "Drop", "amount": "1 drops", "route": "on-the-skin", "every": "24 h", "for": "3 days", "first": "2026-11-28"}
        order = {"en": "Give a bath before what goes on the skin", "es": "El baño va antes que lo de la piel", "fr": "Donnez le bain avant ce qui va sur la peau"}
        apart = {"en": "Never give two baths in a row", "es": "Nunca dos baños seguidos", "fr": "Jamais deux bains de suite"}
        for language in order:
            for medicines, said, unsaid in (([drop, bath], order, apart), ([bath, {**bath, "name": "Calcium"}], apart, order), ([bath], None, None), ([drop, {**drop, "name": "Gel"}], None, None),
                                            ([bath, {**drop, "directions": "An hour after the bath."}], None, None), ([{**bath, "given": "here"}, drop], None, None)):
                text = self.words(*medicines, species="fire-bellied-toad", language=language)
                for words in (order, apart):
                    self.assertEqual(text.count(words[language]), 1 if words is said else 0, (language, medicines))
                self.assertEqual("bath-washes-skin" in self.asked(*medicines), said is not None, medicines)

    def test_a_bath_and_a_drop_that_have_their_times_keep_them(self):
        """Drops in the morning and the bath in the evening, as written: "ask how long to wait" and "the bath first" stood against her own times. Each at its
        part of the day; of two in one part, or of one with none, the order is asked for as before."""
        bath = {"name": "Ringer", "route": "in-a-bath", "every": "24 h", "for": "3 days", "first": "2026-11-28", "at": "evening", "directions": "At 20 °C, 1 cm deep."}
        drop = {"name": "Drop", "amount": "1 drops", "route": "on-the-skin", "every": "24 h", "for": "3 days", "first": "2026-11-28", "at": "morning"}
        asks = {"en": "how long to wait", "es": "cuánto esperar", "fr": "combien de temps attendre"}
        keeps = {"en": "at the time of day that we wrote", "es": "a la hora del día escrita", "fr": "au moment de la journée écrit"}
        for language in asks:
            for medicines, apart in (([drop, bath], True), ([bath, {**bath, "name": "Calcium", "at": "noon"}], True), ([drop, {**bath, "at": "morning"}], False),
                                     ([{**drop, "every": "12 h"}, bath], False), ([drop, {k: v for k, v in bath.items() if k != "at"}], False)):
                text = self.words(*medicines, species="fire-bellied-toad", language=language)
                self.assertEqual((asks[language] in text, keeps[language] in text), (not apart, apart), (language, medicines))
                self.assertEqual("bath-washes-skin" in self.asked(*medicines), not apart, medicines)

    def test_a_written_warmth_of_a_bath_is_asked_about_while_its_water_is_cooled(self):
        """23 °C today and 16-18 in days, at most 4 a day (the clinical table, 6): a bath of 16 from tomorrow is a shock. Her words cannot be read, and the
        sheet's own line, as warm as its own water, falls away beside them: who signs is asked. Not without a warmth, nor in water that is right."""
        bath = {"name": "Sal", "amount": "2000 ml", "route": "in-a-bath", "every": "12 h", "for": "7 days", "first": "2026-11-28", "directions": "Ten minutes, at 16 °C."}
        for says, water, asked in (("Ten minutes, at 16 °C.", "23 C", True), ("Ten minutes.", "23 C", False), ("Ten minutes, at 16 °C.", "17 C", False)):
            for species, read in (("axolotl", {"water": {"temperature": water}}),):
                review = {one["code"] for one in self.plan({**bath, "directions": says}, species=species, more=read)["review"]}
                self.assertEqual("bath-warmth-while-cooling" in review, asked, (says, water))

    def test_each_medicine_says_one_thing_to_watch_for(self):
        """By the way it is given, and whom to tell: a strict rater of printed sheets found neither on any. The veterinarian's own stands in its place, beside
        the dose we give only what is seen at home, and no clinical number is in it. A full page has no room for ours, and always for hers. Common practice, no source."""
        drop = {key: value for key, value in SYRUP.items() if key != "route"}
        for language, own, said in (("en", "Call us if you see this: red droppings.", {"by-mouth": "Call us if it spits it out", "injection": "spot of the needle turns dark or sore", "on-the-skin": "if that spot gets redder",
                                                                                       "in-the-eye": "if the eye gets redder or cloudier", "in-a-bath": "Thrashes in it? End the bath"}),
                                    ("es", "Llama si ves esto: red droppings.", {"by-mouth": "Llama si lo escupe", "injection": "el pinchazo se oscurece", "on-the-skin": "Llama si esa zona se pone más roja",
                                                                                "in-the-eye": "Llama si el ojo se pone más rojo", "in-a-bath": "¿Se agita en él?"}),
                                    ("fr", "Appelez si vous voyez ceci : red droppings.", {"by-mouth": "Appelez si l'animal le recrache", "injection": "si la piqûre noircit", "on-the-skin": "Appelez si l'endroit rougit",
                                                                                           "in-the-eye": "Appelez si l'œil devient plus rouge", "in-a-bath": "L'animal s'agite ? Arrêtez le bain"})):
            for route, words in said.items():
                one = {**drop, "name": "Aa", "route": route}
                self.assertEqual(self.words(one, language=language).count(words), 1, (language, route))
                both = self.words(one, {**one, "name": "Bb"}, language=language).count(words)
                self.assertEqual(both, 1, (language, route))
                text = self.words({**one, "watch": "red droppings"}, language=language)
                self.assertEqual((words in text, own in text), (False, True), (language, route))
                self.assertEqual(words in self.words({**one, "given": "here"}, language=language), route == "injection", (language, route))

    def test_what_stands_in_brackets_is_not_asked_for_nor_said_again(self):
        """"Fipronil on a cloth (mites) ... What it is for: against the mites." (a veterinarian, of printed sheets). Brackets with a strength or a form tell nothing of it."""
        for name, asked in (("Syrup (loose stool)", False), ("Syrup (0.5 mg/ml)", True), ("Syrup", True)):
            self.assertEqual("medicine-without-use" in [r["code"] for r in self.plan({**SYRUP, "name": name})["review"]], asked, name)
        for name, use, said in (("Syrup (loose stool)", "for loose stool", False), ("Syrup (loose stool)", "for the pain", True), ("Syrup (5 %)", "for loose stool", True)):
            self.assertEqual("What it is for:" in self.words({**SYRUP, "name": name, "for-what": use}), said, (name, use))

    def test_each_medicine_says_what_it_is_for(self):
        """As its veterinarian wrote it, else by its name: a class, or the stem of its international name (from memory). Where neither says it who signs is
        asked, once a visit; what treats two kinds of ills is never guessed."""
        for name, use in (("Ceftazidime", "It fights germs"), ("Enrofloxacine", "It fights germs"), ("Méloxicam", "It eases pain."), ("Fenbendazole", "It kills the worms"), ("Itraconazole", "It kills the fungus"),
                          ("Metronidazole", None), ("Syrup", None)):
            one, ill = {**SYRUP, "name": name}, [{"code": "abscess", "severity": "moderate"}]
            text = self.words(one, findings=ill)
            self.assertEqual([said for said in ("It fights germs", "It eases pain.", "It kills the worms", "It kills the fungus") if said in text], [use] if use else [], name)
            asked = [r["code"] for r in self.plan(one, {**one, "name": f"{name} two"})["review"]].count("medicine-without-use")
            self.assertEqual(asked, 0 if use else 1, name)
        for language, said in (("en", "What it is for: the germs of the gut."), ("es", "Para qué es: the germs of the gut."), ("fr", "À quoi il sert : the germs of the gut.")):
            own = {**SYRUP, "name": "Antibiotic", "for-what": "the germs of the gut"}
            text = self.words(own, language=language)
            self.assertIn(said, text)
            self.assertNotRegex(text, "It fights germs|Combate los gérmenes|Il combat les microbes")
            self.assertNotIn("medicine-without-use", [r["code"] for r in self.plan({**own, "name": "Syrup"})["review"]])
        self.assertEqual([self.plan({**SYRUP, "for-what": "germs", "watch": "red droppings"})["medicines"][0][key] for key in ("for_what", "watch")], ["germs", "red droppings"])

    def test_days_with_us_say_which_medicine(self):
        """"With us: dose" of feedings and an antibiotic in one row (a veterinarian, of printed sheets): of several each has its own days, of one it is the dose."""
        shot = {"name": "Shot", "amount": "0.1 ml", "route": "injection", "every": "3 days", "doses": 2, "first": "2026-11-30", "given": "here"}
        food = {"name": "Gruel", "amount": "9 ml", "every": "24 h", "doses": 2, "first": "2026-11-30", "given": "here"}
        ill = [{"code": code, "severity": "moderate"} for code in ("abscess", "airway-infection")]
        for language, several, one in (("en", ("With us: Shot Mon 30 Nov and Thu 3 Dec.", "With us: Gruel Mon 30 Nov and Tue 1 Dec."), "With us: dose Mon 30 Nov and Thu 3 Dec."),
                                       ("es", ("En la clínica: Shot lunes 30 nov y jueves 3 dic.", "En la clínica: Gruel lunes 30 nov y martes 1 dic."), "En la clínica: dosis lunes 30 nov y jueves 3 dic."),
                                       ("fr", ("Chez nous : Shot lun 30 nov et jeu 3 déc.", "Chez nous : Gruel lun 30 nov et mar 1er déc."), "Chez nous : dose lun 30 nov et jeu 3 déc.")):
            text = self.words(shot, food, language=language, findings=ill)
            for said in several:
                self.assertIn(said, text)
            self.assertNotIn(one[:one.index("30")], text)
            self.assertIn(one, self.words(shot, language=language, findings=ill))

    def test_no_sheet_goes_without_what_to_do_of_a_missed_dose(self):
        """Two doses at once do harm, so it stands once wherever a medicine is given at home, however full its pages, and says that it is of any medicine. Of
        what we give alone nobody at home misses a dose. Common practice, no source."""
        shot = {"name": "Shot", "amount": "0.1 ml", "route": "injection", "given": "here", "every": "3 days", "doses": 2, "first": "2026-11-30"}
        ills = [{"code": code, "severity": "moderate"} for code in ("airway-infection", "dehydrated", "burn", "mites", "worms")]
        for language, missed, double, worse in (("en", r"Missed a dose of any medicine\?", "Never give two at once", r"Worse after a dose\?"),
                                                ("es", r"¿Falta una dosis de alguna medicina\?", "Nunca des dos juntas", r"¿Peor tras una dosis\?"),
                                                ("fr", r"Une dose d'un médicament oubliée \?", "Jamais deux à la fois", r"Pire après une dose \?")):
            for species, findings in (("whites-tree-frog", []), ("hermanns-tortoise", ills), ("corn-snake", ills), ("axolotl", ills[1:3])):
                for paper in ("a4", "letter"):
                    pages = " ".join(self.printed({**SYRUP, "name": "Antibiotic"}, shot, language=language, findings=findings, species=species, paper=paper).split())
                    self.assertEqual([len(re.findall(one, pages)) for one in (missed, double, worse)], [1, 1, 1], (language, species, paper, pages))
            self.assertNotRegex(self.words(shot, language=language, findings=ills), missed)

    def test_what_a_medicine_is_for_costs_no_page(self):
        """It is the first to go where the pages are full: an animal with nine ills keeps its rows and its pages."""
        ills = [{"code": code, "severity": "moderate"} for code in ("airway-infection", "dehydrated", "burn", "nose-discharge", "soft-jaw", "underweight", "mites", "worms")]
        for name, language in ((name, language) for name in ("Syrup", "Antibiotic") for language in ("en", "es", "fr")):
            pages = self.printed({**SYRUP, "name": name}, findings=ills, language=language).count("\f")
            self.assertEqual(pages, self.printed({**SYRUP, "name": "Syrup"}, findings=ills, language=language).count("\f"), (name, language))

    def test_every_eight_hours_has_a_box_for_each(self):
        """Ten days of three doses are thirty, the first in the evening of 28 November, the last in the afternoon of 8 December: ten days of boxes, by hand, and
        what the 8th still has is said."""
        drops = {**SYRUP, "every": "8 h", "for": "10 days", "first": "2026-11-28", "at": "evening"}
        for units in ("metric", "us"):
            record_ = record(drops, findings=[{"code": "abscess", "severity": "moderate"}])
            record_["keeper"] = {**record_.get("keeper", {}), "language": "en", "units": units}
            with tempfile.TemporaryDirectory() as folder:
                run("sheet", "-", "-o", f"{folder}/s.pdf", "--today", TODAY, stdin=json.dumps(record_))
                text = subprocess.run(["pdftotext", "-layout", f"{folder}/s.pdf", "-"], capture_output=True, text=True, check=True).stdout.replace("\u00a0", " ")
            rows = [row.split() for row in re.findall(r"Syrup, at ____ +([\d ]+)\n", text)]
            self.assertEqual([row[0] for row in rows], ["29", "29", "28"])
            self.assertEqual([row[-1] for row in rows], ["7", "7", "7"])
            self.assertEqual(sum(map(len, rows)), 28)
            self.assertIn("Syrup: then every 8 hours until Tue 8 Dec.", " ".join(text.split()))

    def test_boxes_stand_in_the_order_of_their_hours(self):
        """After a dose here at 15:30 the next is due at 3:30 in the night, so its row comes first; after one at 17:00 every eight hours: 1:00,
        9:00, 17:00. Hours that nobody wrote are blanks, one a dose of the day. By hand."""
        def rows(**drug):
            text = self.printed({"name": "Syrup", "amount": "0.2 ml", "route": "by-mouth", **drug}, findings=[{"code": "abscess", "severity": "moderate"}])
            return re.findall(r"Syrup, (\d+:\d\d|at ____) +(\d+)", text)
        here = {"doses": 8, "given-today": True}
        self.assertEqual(rows(every="12 h", **here, **{"given-today-at": "15:30"}), [("3:30", "28"), ("15:30", "28")])
        self.assertEqual(rows(every="8 h", **here, **{"given-today-at": "17:00"}), [("1:00", "28"), ("9:00", "28"), ("17:00", "28")])
        self.assertEqual([day for _, day in rows(every="8 h", doses=8, first="2026-11-28", at="evening")], ["29", "29", "28"])
        self.assertEqual([day for _, day in rows(every="6 h", doses=12, first="2026-11-28", at="morning")], ["28"] * 4)

    def test_words_of_another_language_are_told_to_who_prints(self):
        """A dose that the keeper cannot read is no dose."""
        directions = {"name": "Jarabe", "directions": "Dos veces al día."}
        one = record(directions)
        one["keeper"] = {**one.get("keeper", {}), "language": "es"}
        noted = {**one, "visit": {**one["visit"], "notes-in": "en"}}
        for given, language, told in ((one, "en", True), (one, "es", False), (noted, "en", False), (noted, "es", True), (record(SYRUP), "es", False)):
            with tempfile.TemporaryDirectory() as folder:
                done = run("sheet", "-", "-o", f"{folder}/s.pdf", "--language", language, "--today", TODAY, stdin=json.dumps(given))
            self.assertEqual("Dos veces al día" in done.stderr and "[B831]" in done.stderr, told, done.stderr)

    def test_a_soft_jaw_is_never_pulled_open(self):
        """It breaks (common practice, no source): beside what goes in by mouth, and where the jaw itself is told."""
        soft = [{"code": "soft-jaw", "severity": "moderate"}]
        for language, beside, told in (("en", "Never pull the soft jaw open to give it.", "Never pull the jaw open"), ("es", "No tires nunca de la mandíbula blanda", "Nunca abras la boca a la fuerza"),
                                       ("fr", "N'ouvrez jamais de force la mâchoire molle", "N'ouvrez jamais la bouche de force")):
            self.assertIn(beside, self.words(SYRUP, language=language, findings=soft))
            self.assertNotIn(beside, self.words({**SYRUP, "route": "on-the-skin"}, language=language, findings=soft))
            self.assertNotIn(beside, self.words(SYRUP, language=language, findings=[{"code": "abscess", "severity": "moderate"}]))
            self.assertIn(told, self.words(language=language, findings=soft))

    def test_a_number_stays_with_its_unit(self):
        """"10" at a line's end and "%" on the next is read as ten of something."""
        text = self.printed({**SYRUP, "name": "Povidone iodine 10 % and syrup 23 mg/ml"}, findings=[{"code": "abscess", "severity": "moderate"}], layout="-raw")
        self.assertNotRegex(text, r"10\n%|23\nmg")
        with tempfile.TemporaryDirectory() as folder:
            for pad in range(1, 40):  # wherever the line ends
                name = "X" * pad + " 10 %"
                run("sheet", "-", "-o", f"{folder}/s.pdf", "--replace", "--today", TODAY, stdin=json.dumps(record({**SYRUP, "name": name}, findings=[{"code": "abscess", "severity": "moderate"}])))
                text = subprocess.run(["pdftotext", "-raw", f"{folder}/s.pdf", "-"], capture_output=True, text=True, check=True).stdout
                self.assertNotRegex(text, r"10\s*\n\s*%", name)

    def test_each_dose_has_a_day_to_tick(self):
        for language, day, rest in (("en", "Tick each dose", "Syrup: then every 24 hours until Sun 20 Dec."),
                                    ("es", "Marca cada dosis", "Syrup: después, cada 24 horas hasta el domingo 20 dic.")):
            text = self.printed({**SYRUP, "for": "23 days"}, language=language)
            self.assertIn(day, text)
            # the first ten of the days, from 28 November on; what does not fit is said
            row = next(line for line in text[text.index(day):].splitlines() if line.strip().startswith("Syrup"))
            self.assertEqual(row.split()[1:], ["28", "29", "30", "1", "2", "3", "4", "5", "6", "7"])
            self.assertIn(rest, re.sub(r"\s+", " ", text))
        ticked = self.printed(SYRUP, language="en")
        self.assertNotIn("then every", ticked)

    def test_a_box_for_each_time_of_day(self):
        text = self.printed({"name": "Drops", "amount": "1 drop", "every": "12 h", "doses": 3, "first": TODAY, "at": "evening"})
        rows = {" ".join(line.split()[:2]): line.split()[2:] for line in text.splitlines() if line.strip().startswith("Drops, ")}
        self.assertEqual(rows, {"Drops, morning": ["28"], "Drops, evening": ["27", "28"]})
        self.assertIn("1 drop, every 12 hours, 3 doses: Fri 27 Nov to Sat 28 Nov", re.sub(r"\s+", " ", text))

    def test_a_dose_has_its_box_in_one_table(self):
        """With a second box of it two people give it twice. 28 and 30 November and 2 December, of the ill and of the well."""
        for findings in ([{"code": "airway-infection", "severity": "moderate"}], []):
            lines = [line.split() for line in self.printed({**SYRUP, "every": "48 h", "for": "6 days"}, findings=findings).splitlines()]
            self.assertIn(["Syrup", "28", "30", "2"], lines)
            self.assertFalse([line for line in lines if line[:1] == ["Medicine"]])

    def test_what_the_table_has_no_room_for_stands_in_the_weeks(self):
        """Ten days from 28 November end on 7 December; a dose a day for twenty days goes on to the 17th."""
        lines = [line.split() for line in self.printed({**SYRUP, "for": "20 days"}, findings=[]).splitlines()]
        weeks = [day for line in lines if line[:1] == ["Medicine"] for day in line[1:]]
        self.assertTrue(weeks)
        self.assertFalse({"28", "29", "30", "1", "7"} & set(weeks), weeks)

    def test_a_dose_has_one_box(self):
        """Every frame that is drawn is a box, square but for what is rounded; between two and three doses lies one of them."""
        def boxes(doses):
            with tempfile.TemporaryDirectory() as folder:
                drops = {"name": "Drops", "amount": "1 drop", "every": "12 h", "doses": doses, "first": TODAY}
                done = run("sheet", "-", "-o", f"{folder}/s.pdf", "--today", TODAY, stdin=json.dumps(record(drops, kind="email")))
                self.assertEqual(done.returncode, 0, done.stderr)
                with pikepdf.open(f"{folder}/s.pdf") as pdf:
                    return sum(str(one.operator) == "re" and abs(float(one.operands[2]) - float(one.operands[3])) < 0.2 for page in pdf.pages
                               for one in pikepdf.parse_content_stream(page))
        self.assertEqual(boxes(3) - boxes(2), 1)

    def test_the_planner_has_them(self):
        """In a kind of sheet of a clinic's own that has eight weeks."""
        with tempfile.TemporaryDirectory() as folder:
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, Path(folder) / part)
            kind = Path(folder) / "templates/sheets/email.yaml"
            kind.write_text(kind.read_text() + "  - planner\n")
            done = run("sheet", "-", "--data", folder, "-o", f"{folder}/s.pdf", "--today", TODAY,
                       stdin=json.dumps(record({**SYRUP, "every": "7 days", "for": "14 days"}, kind="email")))
            self.assertEqual(done.returncode, 0, done.stderr)
            text = subprocess.run(["pdftotext", "-layout", f"{folder}/s.pdf", "-"], capture_output=True, text=True, check=True).stdout
        head = next(line for line in text.splitlines() if "Week from" in line)
        self.assertIn("Medicine", head)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
