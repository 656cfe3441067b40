#!/usr/bin/env python3
"""An owner's questions, asked of the printed checkout in English and in Spanish. Which question is asked of which visit, and at which place of the
sheet its answer must stand, is in questions.yaml; the answer is what the record or `explain` has, written by this file in metric units. The places
are read out of the PDF's structure. Common practice, no source."""
import datetime
import json
import math
import re
import subprocess
import sys
import unittest
from concurrent.futures import ThreadPoolExecutor
from functools import lru_cache
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from agreement import agreed  # noqa: E402
from read_yaml import read_yaml  # noqa: E402
from structure import read_structure  # noqa: E402


PROGRAM = Path(sys.argv.pop(1)).resolve()
ROOT = Path(__file__).resolve().parents[2]
ASKED = read_yaml((ROOT / "tests/sheet/questions.yaml").read_text())
CLINIC = read_yaml((ROOT / "tests/common/config/baskleaf/clinic.yaml").read_text())
INSTRUCTIONS = read_yaml((ROOT / "templates/instructions.yaml").read_text())["instructions"]
SHEETS = (("en", "a4"), ("es", "letter"))
WORDS = {lang: {key: text for file in (ROOT / "templates/wording" / lang).glob("*.yaml") for key, text in read_yaml(file.read_text()).items()}
         for lang, _ in SHEETS}
DAYS = {"en": "Mon Tue Wed Thu Fri Sat Sun".split(), "es": "lunes martes miércoles jueves viernes sábado domingo".split()}
MONTHS = {"en": "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split(), "es": "ene feb mar abr may jun jul ago sep oct nov dic".split()}
DECIMAL = {"en": ".", "es": ","}
# What an animal's home lacks and a shop has.
BOUGHT = ("add-thermostat", "guard-the-heat", "add-uvb-lamp", "change-lamp", "change-lamp-later", "stronger-lamp", "weaker-lamp", "add-filter",
          "larger-box", "add-hides", "add-hide", "add-second-hide", "add-water-dish", "harden-water")
# What its words call normal after it, by hand.
NORMAL_AFTER = {"injection": {"en": "A small lump is normal for two days", "es": "Un bulto pequeño es normal"},
                "blood-sample": {"en": "A small bruise is normal", "es": "Un moretón pequeño es normal"},
                "fluids-under-skin": {"en": "A soft swelling is normal for a day", "es": "Una hinchazón blanda es normal un día"}}


def close(text):
    """Without spaces and signs that a line may add or lose, and with Spanish days as short as where a page is fullest."""
    text = re.sub(r"\b(lun|mar|jue|vie|mié|sáb|dom)(es|tes|ves|rnes|rcoles|ado|ingo)?\b", r"\1", text.lower().replace("domingo", "dom"))
    return re.sub(r"[\s\u00a0\u202f\u2022]+", "", text)


def listed(what):
    return what if isinstance(what, list) else [what]


class Place:
    """What stands under headings: a row of a table, an item of a list or a paragraph each, its cells apart."""

    def __init__(self, found):
        self.headings = {close(heading) for heading, _ in found}
        self.items = [item for _, item in found]
        self.all = close(" ".join(cell for item in self.items for cell in item))

    def holds(self, *texts):
        """One item that says all of them."""
        return any(all(close(text) in close(" ".join(item)) for text in texts) for item in self.items)

    def text(self):
        return self.all


def pattern(text):
    """A heading with its slots open."""
    pieces = [re.escape(close(piece)) for piece in re.split(r"\{[^}]*\}", text)]
    return re.compile(".*".join(pieces))


@lru_cache
def words_of(lang, sex):
    return {key: agreed(value, lang, sex) for key, value in WORDS[lang].items()}


class Sheet:
    def __init__(self, case, lang, paper):
        self.case, self.lang = f"{case.stem}.{lang}", lang
        self.visit = read_yaml(case.read_text())
        self.words = words_of(lang, self.visit["patient"].get("sex"))
        self.today = str(self.visit["visit"]["date"])
        self.species = read_yaml((ROOT / "species-sheets" / f"{self.visit['patient']['species']}.yaml").read_text())
        options = ["--today", self.today]
        made = subprocess.run([PROGRAM, "sheet", case, "--units", "metric", "--language", lang, "--paper", paper, *options, "-o", "-"],
                              capture_output=True, check=True)
        self.plan = json.loads(subprocess.run([PROGRAM, "explain", "--json", case, *options], capture_output=True, check=True).stdout)
        first = subprocess.run(["pdftotext", "-raw", "-l", "1", "-", "-"], input=made.stdout, capture_output=True, check=True)
        self.first = close(first.stdout.decode())
        self.items = read_structure(made.stdout)
        self.printed = {one["code"]: one["printed"] for one in self.plan["instructions"]}

    @lru_cache(maxsize=None)
    def at(self, place):
        if place == "anywhere":
            return Place(self.items)
        if place == "days":  # in brief the dates are a line and the half days have no heading: wherever they stand outside the drawing
            lines = tuple(self.said("wall.weeks.days", "wall.weeks.later"))
            drawn = self.at("box").headings
            return Place([(heading, item) for heading, item in self.items if close(heading) not in drawn
                          and (len(item) > 2 or close(item[0]).startswith(lines))])
        patterns = [pattern(text) for key in ASKED["places"][place] for text in listed(self.words[key])]
        return Place([(heading, item) for heading, item in self.items if (not heading if place == "top" else any(p.fullmatch(close(heading)) for p in patterns))])

    def holds(self, path):
        """Does the record or the species sheet say something there?"""
        if path.startswith("not "):
            return not self.holds(path[4:])
        root, *keys = path.split(".")
        what = {"visit": self.visit, "species": self.species}[root]
        for key in keys:
            what = what.get(key) if isinstance(what, dict) else None
        return bool(what)

    def number(self, value, digits=1):
        return f"{value:.{digits}f}".rstrip("0").rstrip(".").replace(".", DECIMAL[self.lang]) if digits else f"{value:.0f}"

    def band(self, low, high, unit):
        return f"{self.number(low)}{unit}" if low == high else f"{self.number(low)}\u2013{self.number(high)}{unit}"

    def day(self, iso):
        date = datetime.date.fromisoformat(str(iso))
        return f"{DAYS[self.lang][date.weekday()]} {date.day} {MONTHS[self.lang][date.month - 1]}"

    def now(self, value):
        return f"{self.said('wall.now')[0]} {self.number(value)}"

    def said(self, *keys):
        """What may be said under one of the keys or its variants, up to the first slot."""
        every = [key for one in keys for key in [self.printed.get(one, one), one]]
        every += [one["key"] for key in keys for one in INSTRUCTIONS.get(key, {}).get("variants", [])]
        texts = [text for key in every if key in self.words for text in listed(self.words[key]) if isinstance(text, str)]
        return [piece for piece in (close(text.split("{")[0]) for text in texts) if piece]

    def dated(self, words, iso):
        """A day in the row of the weeks, in the line that stands for them, or among what comes later."""
        date, start = datetime.date.fromisoformat(iso), datetime.date.fromisoformat(self.today)
        week = (date - start).days // 7
        for item in self.at("days").items:
            text = close(" ".join(item))
            for word in words:
                if not text.startswith(word) and word not in text:
                    continue
                cells = item[2:] if len(item) > 3 else []  # behind the row's name and the reading of the visit
                if text.startswith(word) and week < len(cells) and re.search(rf"(?<!\d){date.day}(?!\d)", cells[week]):
                    return True
                if len(item) <= 3 and close(self.day(iso)) in text[text.index(word):]:
                    return True
        return False


class Answers:
    """Each gives what must stand there and does not: an empty list where the question is answered. None where nothing is asked after all."""

    @staticmethod
    def zone(sheet, place, names):
        missing, asked = [], False
        for one in sheet.plan["temperature"]:
            if one["zone"] not in listed(names) or one["target"] is None or None in one["target"]:
                continue
            asked = True
            # common practice, no source: two targets by night are told apart by their places
            of_two = any(other["zone"] == "night-warm-side" and other["target"] and None not in other["target"] for other in sheet.plan["temperature"])
            night = "wall.limit.night-cool" if of_two else "wall.limit.night"
            name = sheet.words[night if one["zone"] == "night" else f"measure.{one['zone']}.name"]
            texts = [name, sheet.band(*one["target"], "°C")]
            if one["reading"] is not None and not one["implausible"]:
                texts.append(sheet.now(one["reading"]))
            # beside a tall drawing the limits stand below the rows of page one
            if not place.holds(*texts) and not sheet.at("steps").holds(*texts):
                missing.append(texts)
        return missing if asked else None

    @staticmethod
    def damp(sheet, place):
        damp = sheet.plan["humidity"]
        if not damp or not damp["target"] or None in damp["target"] or sheet.plan["species"]["group"] in ("turtle", "salamander"):
            return None
        low, high = damp["target"]
        texts = [sheet.words["wall.box.air"], sheet.band(math.ceil(low), math.floor(high), "%")]
        if damp["reading"] is not None:
            texts.append(f"{sheet.said('wall.now')[0]} {damp['judged']:.0f}")
        return [] if place.holds(*texts) else [texts]

    @staticmethod
    def lamp(sheet, place):
        lamp = sheet.visit["enclosure"]["lamp"]
        distance, stance = sheet.plan["uvb"]["distance"], sheet.plan["stances"]["uvb-lamp"][0]["stance"]
        if not distance or distance["recommended_cm"] is None or stance in ("off-until", "replace-then-rehang"):
            wanted = [sheet.words["wall.box.ask"], *sheet.said("action.turn-lamp-off.short"), *sheet.said("action.change-lamp.short")]
            return [] if any(one in sheet.at("box").text() + sheet.at("steps").text() for one in map(close, wanted)) else [wanted]
        # a band is rounded inwards: never nearer, never farther than it says
        wanted = [f"{distance['recommended_cm']:.0f} cm", f"{math.ceil(distance['nearest_cm'])}\u2013{math.floor(distance['farthest_cm'])} cm"]
        now = re.match(r"([\d.]+) cm", str(lamp["height"])).group(1)
        above = distance.get("present_cm")
        told = f"{sheet.said('wall.now')[0]} {now if above is None else f'{above:.0f}'} cm"
        return [] if any(place.holds(sheet.words["wall.box.lamp"], one, told) for one in wanted) else [[wanted, told]]

    @staticmethod
    def meal(sheet, place):
        feeding = sheet.plan["feeding"]
        text, missing = place.text(), []
        if feeding["paused"]:
            said = sheet.said("wall.food.paused", "wall.food.paused-until", "wall.food.as-written")
            return [] if any(one in text for one in said) else [said]
        for line in feeding["lines"]:
            if line["count"]:
                amount = "\u2013".join(sorted({str(n) for n in line["count"]}, key=int))
            else:
                amount = f"{line['amount_g'][1]:.0f} g" if line["amount_g"] else None
            often = line["every_days"]
            dates = line["next"] if often and round(often[1]) > 1 else []
            texts = ([amount] if amount else []) + ([sheet.day(dates[0])] if dates else [])
            missing += [one for one in texts if close(one) not in text]
        if not feeding["lines"] and feeding["next"] and feeding["every_days"] and feeding["every_days"][1] > 1:
            missing += [] if close(sheet.day(feeding["next"][0])) in text else [feeding["next"][0]]
        if not feeding["lines"] and not feeding["asks_amount"]:  # nothing is known: then it says whom to ask
            missing += [] if any(one in text for one in sheet.said("wall.food.ask", "sheet.feeding.daily")) else ["amount"]
        return missing

    @staticmethod
    def tonight(sheet, place):
        first = [one["code"] for one in sheet.plan["actions"] if one["first"]]
        if sheet.plan["patient"]["go_now"]:
            return [] if any(one in place.text() for one in sheet.said("wall.way.sheet.do")) else ["the way"]
        if not first:  # the message says that nothing is to be changed, or what is unknown
            said = sheet.said("wall.main.right", "wall.main.well", "wall.main.unmeasured", "wall.main.is", "wall.main.ask") + [close(sheet.plan["patient"]["name"])]
            return [] if any(one in sheet.at("top").text() for one in said) else [said]
        missing = []
        for rank, code in enumerate(first):
            said = Answers.verb(sheet, code)
            here = place if rank == 0 else sheet.at("steps")
            if not any(one in here.text() for one in said):
                missing.append((code, said))
        return missing

    @staticmethod
    def verb(sheet, code):
        printed = sheet.printed.get(f"action.{code}", f"action.{code}")
        return sheet.said(f"{printed}.short", f"action.{code}.short")

    @staticmethod
    def tomorrow(sheet, _):
        """What has its date on the day after, and by when a first change must be right: the next day that the clinic is open."""
        next_day = datetime.date.fromisoformat(sheet.today) + datetime.timedelta(days=1)
        missing, asked = [], False
        for one in sheet.plan["dates"]:
            if one["on"] != str(next_day):
                continue
            words = {"meal": ["wall.weeks.meal", "wall.weeks.insects", "wall.food.next", "wall.food.next-warm", "wall.food.next-clean"], "weigh": ["wall.weeks.weigh"],
                     "recheck": ["wall.weeks.recheck"], "given-here": ["wall.weeks.given-here"]}.get(one["what"])
            if words is None or (one["what"] == "meal" and round((sheet.plan["feeding"]["every_days"] or [1, 1])[1]) <= 1):
                continue
            asked = True
            in_food = one["what"] == "meal" and close(sheet.day(next_day)) in sheet.at("food").text()
            if not in_food and not sheet.dated(sheet.said(*words), one["on"]):
                missing.append((one["what"], one["on"]))
        for medicine in sheet.plan["medicines"]:
            for dose in medicine["doses"]:
                if dose["on"] == str(next_day) and medicine["given"] == "at-home":
                    asked = True
                    row = [item for item in sheet.at("medicines").items if len(item) > 2 and close(item[0]).startswith(close(medicine["name"]))]
                    if not any(re.search(rf"(?<!\d){next_day.day}(?!\d)", " ".join(item)) for item in row):
                        missing.append((medicine["name"], dose["on"]))
        steps = [one for one in sheet.plan["actions"] if one["first"] and one["code"] in ("warm-warm-side", "warm-basking", "warm-night", "cool-basking")]
        if steps and not sheet.plan["patient"]["go_now"]:
            asked = True
            # what is read on the morning after can be told on the day the clinic opens next
            days = [next_day + datetime.timedelta(days=more) for more in range(3)]
            if not any(close(sheet.day(one)) in sheet.at("steps").text() for one in days if one.weekday() < 6):
                missing.append(("right by", sheet.day(next_day)))
        return missing if asked else None

    @staticmethod
    def go_now(sheet, place):
        missing = []
        for sign in sheet.plan["warnings"]:
            if sign["tier"] != "now":
                continue
            said = sheet.said(f"sign.{sign['code']}.worse") if sign["already"] else sheet.said(f"sign.{sign['code']}")
            if said and not any(one in place.text() for one in said):
                missing.append((sign["code"], said))
        return missing

    @staticmethod
    def where(sheet, place):
        hours = {"en": "Mon to Fri 8:00\u201318:00, Sat 9:00\u201313:00", "es": "lun a vie 8:00\u201318:00, sáb 9:00\u201313:00"}[sheet.lang]
        closed = {"en": f"If closed, call {CLINIC['out-of-hours']} first", "es": f"¿Cerrado? Llama al {CLINIC['out-of-hours']}"}[sheet.lang]
        # where room is short the address stands in the page's foot, which is read aloud on the last page
        return [one for one in [CLINIC["telephone"], CLINIC["out-of-hours"], hours, closed] if close(one) not in place.text() or close(one) not in sheet.first] \
            + [one for one in [CLINIC["name"], *CLINIC["address"]] if close(one) not in sheet.first]

    @staticmethod
    def medicine(sheet, place):
        missing = []
        for given, planned in zip(sheet.visit["medicines"], sheet.plan["medicines"]):
            texts = [given["name"]] + ([given["directions"]] if "directions" in given else [])
            texts += [str(given["amount"]).replace(".", DECIMAL[sheet.lang])] if "amount" in given else []
            if "route" in given:
                texts.append(re.sub(r"\{.*", "", sheet.words[f"medicine-route.{given['route']}"]))
            if planned["doses"]:
                texts += [sheet.day(planned["doses"][0]["on"]), sheet.day(planned["doses"][-1]["on"])]
            missing += [one for one in texts if close(one) not in place.text()]
            for dose in planned["doses"]:
                if planned["given"] != "at-home" and dose["on"] > sheet.today and not sheet.dated(sheet.said("wall.weeks.given-here", "wall.later.given-here"), dose["on"]):
                    missing.append(dose)
        return missing

    @staticmethod
    def back(sheet, place):
        days = [one["on"] for one in sheet.plan["dates"] if one["what"] in ("recheck", "given-here", "check-after")]
        day = sheet.day(min(days))
        day = day if min(days)[:4] == sheet.today[:4] else f" {min(days)[:4]}"  # of another year: with it
        said = sheet.said("wall.next-visit", "wall.next-visit.given-here", "wall.next-visit.check-after")
        missing = [] if any(close(day) in close(" ".join(item)) and close(" ".join(item)).startswith(tuple(said)) for item in place.items) else [day]
        if any(one.get("severity") in ("moderate", "severe") for one in sheet.plan["findings"]) and not sheet.plan["patient"]["go_now"]:
            # what is done at home ends with the check, whatever brings it here before
            checks = [one["on"] for one in sheet.plan["dates"] if one["what"] == "recheck"]
            day = sheet.day(max(min(checks), min(days))) if checks else day
            # a second ill stands before the day, which the dates say
            top = sheet.at("top").text()
            ills = sum(any(name in top for name in sheet.said(f"finding.{one['code']}.name")) for one in sheet.plan["findings"])
            missing += [] if close(day) in top or ills > 1 else [f"message: {day}"]
        return missing

    @staticmethod
    def weigh(sheet, _):
        missing = []
        days = [one["on"] for one in sheet.plan["dates"] if one["what"] == "weigh"]
        if days and not sheet.dated(sheet.said("wall.weeks.weigh", "wall.later.weigh"), days[0]):
            missing.append(days[0])
        low = sheet.plan["weight"]["alarm_low_g"]
        if low is not None and any(one["code"] == "weight-loss" for one in sheet.plan["warnings"]):
            # rounded so that the call comes no later: up
            shown = [f"{sheet.number(mass, digits)}{unit}" for digits in (0, 1, 2) for mass, unit in
                     ((low, "g"), (math.ceil(low), "g"), (low / 1000, "kg"), (math.ceil(low / 10) * 10, "g"), (math.ceil(low / 10) / 100, "kg"))]
            # a round number, at most a third of the loss sooner
            third = (sheet.plan["patient"]["mass_g"] - low) / 3
            step = max(n * 10 ** k for n in (1, 5) for k in range(-1, 5) if n * 10 ** k <= max(third, 0.1))
            shown += [f"{sheet.number(math.ceil(low / step - 1e-6) * step, digits)}g" for digits in (0, 1)]
            missing += [] if any(one in sheet.at("call").text() for one in shown) else [("call at", shown)]
        return missing if days or low is not None else None

    @staticmethod
    def normal(sheet, _):
        """After what was done today, or where that leaves nothing behind, of what was found, else of its kind: what is most often taken for
        illness."""
        after = [NORMAL_AFTER[done][sheet.lang] for done in sheet.visit.get("done-today", []) if done in NORMAL_AFTER]
        if after:
            return [text for text in after if not sheet.at("care").holds(text)]
        said = [one for code in ("now", "now-gills", "now-breath", "now-bones", "now-shell", *sheet.species["normal"]) for one in sheet.said(f"normal.{code}")]
        return [] if any(one in sheet.at("anywhere").text() for one in said) else [said[:1]]

    @staticmethod
    def buy(sheet, place):
        bought = [one for one in sheet.plan["actions"] if one["code"] in BOUGHT or sheet.printed.get(f"action.{one['code']}", "action.")[7:] in BOUGHT]
        missing = []
        for one in bought:
            said = Answers.verb(sheet, one["code"])
            if not any(text in place.text() for text in said):
                missing.append((one["code"], said))
            if one["code"] == "larger-box":
                # a side that is long enough stays: nobody buys a shorter box
                least = [max(wanted, is_now) for wanted, is_now in zip(sheet.plan["enclosure"]["minimum_cm"], sheet.plan["enclosure"]["size_cm"]) if wanted]
                if not all(close(sheet.number(float(size), 0)) in sheet.at("box").text() for size in least):
                    missing.append(("least box", least))
        return missing if bought else None

    @staticmethod
    def worse(sheet, _):
        """What each finding raised stands in the list of its urgency; what is measured has a row to be written in."""
        lists = {"now": sheet.at("go-now").text(), "today": sheet.at("call").text(), "soon": sheet.at("call").text()}
        missing, asked = [], False
        for sign in sheet.plan["warnings"]:
            if not sign["because"].startswith(("finding:", "done:")):
                continue
            said = sheet.said(f"sign.{sign['code']}.worse") if sign["already"] else sheet.said(f"sign.{sign['code']}")
            asked = asked or bool(said)
            if said and not any(one in lists[sign["tier"]] for one in said):
                missing.append((sign["code"], said))
        for one in sheet.plan["temperature"]:
            wrong = one["verdict"] in ("too-low", "too-high") and one["zone"] != "room"
            if not wrong or one["target"] is None or None in one["target"] or sheet.plan["patient"]["go_now"]:
                continue
            asked = True
            name = sheet.words["measure.night.name" if one["zone"] == "night" else f"measure.{one['zone']}.name"]
            band = sheet.band(*one["target"], "°C")
            if not sheet.at("days").holds(name, band) and not sheet.at("steps").holds(band):
                missing.append(("to write down", one["zone"]))
        return missing if asked else None

    @staticmethod
    def catching(sheet, place):
        frog = sheet.plan["species"]["group"] in ("frog", "salamander")
        keys = ["wall.caution.salmonella-hygiene" + ("-amphibian" if frog else ""), "wall.caution.who-should-not-handle"]
        missing = [key for key in keys if not place.holds(sheet.words[key])]
        alone = sheet.plan["stances"].get("company", [{}])[0].get("stance")
        if alone and "alone" in alone:
            said = [close(word) for word in sheet.words["topic-words.company"]] + sheet.said(f"stance.company.{alone}", "action.keep-apart.short")
            missing += [] if any(one in sheet.at("care").text() for one in said) else [said]
        return missing


class Questions(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        folders = [ROOT / "tests/sheet/cases", ROOT / "templates/visits"]
        files = [next(folder / f"{case}.yaml" for folder in folders if (folder / f"{case}.yaml").exists()) for case in ASKED["cases"]]
        with ThreadPoolExecutor(2) as pool:
            cls.sheets = list(pool.map(lambda one: Sheet(*one), [(file, *how) for file in files for how in SHEETS]))


def asking(question):
    def test(self):
        name, arguments = (question["answer"], []) if isinstance(question["answer"], str) else next(iter(question["answer"].items()))
        arguments = [arguments] if arguments else []
        asked = {lang: 0 for lang, _ in SHEETS}
        wrong = []
        for sheet in self.sheets:
            if not all(sheet.holds(path) for path in question["asked-when"]):
                continue
            place = sheet.at(question["at"])
            missing = getattr(Answers, name.replace("-", "_"))(sheet, place, *arguments)
            if missing is None:
                continue
            asked[sheet.lang] += 1
            if missing:
                wrong.append((sheet.case, missing))
            elif question.get("page") == 1 and question["at"] not in ("top", "anywhere"):
                if not all(heading in sheet.first for heading in place.headings):
                    wrong.append((sheet.case, "not on page one"))
        self.assertEqual(wrong, [], "\n" + "\n".join(map(str, wrong)))
        for lang, count in asked.items():
            self.assertGreaterEqual(count, question["least"], lang)
    test.__doc__ = question["ask"]
    return test


for number, one_question in enumerate(ASKED["questions"], 1):
    setattr(Questions, f"test_{number:02}_{one_question['answer'] if isinstance(one_question['answer'], str) else 'zone'}".replace("-", "_"), asking(one_question))

if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
