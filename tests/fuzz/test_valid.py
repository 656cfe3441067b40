#!/usr/bin/env python3
"""Generated files that stay valid, and what must hold of every plan and every sheet made of them: `test_valid.py PROGRAM [--runs N] [--seed S]`.

Of the plan: each topic has exactly one phase on any day, each derivation comes out again by a second calculation. Of the sheet: it is made,
twice the same, conforms to PDF/UA-1 and PDF/A-2a as far as tests/page/conformance knows, says no instruction that the plan does not list, and
the plan's temperatures, humidity, weights and dates stand on it. Without --runs a few seconds' worth; a failure prints its seed."""
import argparse
import collections
import datetime
import json
import math
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import yaml

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / folder) for folder in ("tests/fuzz", "tests/sheet", "tests/page/conformance")]
PARSER = argparse.ArgumentParser()
PARSER.add_argument("program")
PARSER.add_argument("--runs", type=int, default=3)
PARSER.add_argument("--seed", type=int, default=20)
OPTIONS = PARSER.parse_args()
PROGRAM = Path(OPTIONS.program).resolve()
sys.argv = [sys.argv[0], str(PROGRAM)]
import arithmetic  # noqa: E402
import check_pdf  # noqa: E402
import test_printed_voice as voice  # noqa: E402
import valid  # noqa: E402

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

WALL_ZONES = {"basking-surface", "warm-side", "cool-side", "night", "water"}
ASIDE = {"card"}  # goes beside a sheet, not in its place
NUMBER = r"-?\d+(?:[.,]\d+)?"
BAND = re.compile(rf"({NUMBER})(?:\s*[–-]\s*({NUMBER}))?\s*(°C|°F|%)")
ANOTHER = 1000  # from the seed of a record to that of another


def run(*words, data=ROOT, text=None):
    return subprocess.run([PROGRAM, *map(str, words), "--today", valid.TODAY.isoformat(), "--data", data], input=text, capture_output=True, cwd=ROOT)


def derivations(value):
    if isinstance(value, dict):
        if "formula" in value and "uncertainty" in value:
            yield value
        for one in value.values():
            yield from derivations(one)
    elif isinstance(value, list):
        for one in value:
            yield from derivations(one)


def wrong_derivation(plan):
    for one in derivations(plan):
        low, high = one["uncertainty"]
        if not low <= one["value"] + 1e-9 or not high >= one["value"] - 1e-9:
            return f"outside its own band: {one}"
        if one["formula"] in arithmetic.HELD:
            continue
        again = arithmetic.FORMULAS[one["formula"]]({i["name"]: i["value"] for i in one["inputs"]}, one["value"], (low, high))
        for got, wanted in zip((one["value"], low, high), again):
            if wanted is not None and not math.isclose(got, wanted, rel_tol=2e-4, abs_tol=2e-3):
                return f"{got} should be {wanted}: {one}"
    return None


def wrong_phases(plan):
    """On any day exactly one phase of a topic holds: each begins where the one before it ends, the last has no end."""
    for topic, phases in plan["stances"].items():
        ends = [one["until"] for one in phases]
        if [one["from"] for one in phases[1:]] != ends[:-1] or ends[-1] is not None or phases[0]["from"] > valid.TODAY.isoformat():
            return f"{topic}: {phases}"
        if sorted(one["from"] for one in phases) != [one["from"] for one in phases]:
            return f"{topic}: the phases do not follow one another: {phases}"
    return None


def wrong_weighing(plan):
    """No day to weigh at home where the topic says not to, on any day."""
    for one in plan["dates"]:
        holds = [phase["stance"] for phase in plan["stances"].get("weighing", []) if phase["from"] <= one["on"] and one["on"] < (phase["until"] or "9999")]
        if one["what"] == "weigh" and holds == ["not-at-home"]:
            return f"to be weighed on {one['on']}, against {plan['stances']['weighing']}"
    return None


def bands(text):
    """Every band on the pages, in degrees Celsius or percent: (unit, low, high)."""
    for low, high, unit in BAND.findall(text):
        values = [float(n.replace(",", ".")) for n in (low, high or low)]
        yield "%" if unit == "%" else "C", *((v - 32) / 1.8 if unit == "°F" else v for v in values)


def missing_number(plan, text):
    """A number of the plan that no page says. Degrees and percent are printed whole, and a band never wider than it is by a half. On the way
    to a clinic the box can wait: its drawing and limits are the first to give way."""
    found = list(bands(text))
    printed = lambda unit, target: any(u == unit and -0.51 <= low - target[0] < 1 and -0.51 <= target[1] - high < 1 for u, low, high in found)
    for one in plan["temperature"]:
        if one["zone"] in WALL_ZONES and one["target"] and not plan["patient"]["go_now"] and not printed("C", one["target"]):
            return f"{one['zone']}: {one['target']}"
    humid = plan["humidity"]
    if humid and humid["target"] and "humidity" in plan["stances"] and not plan["patient"]["go_now"] and not printed("%", humid["target"]):
        return f"humidity: {humid['target']}"
    for one in plan["dates"]:
        day = datetime.date.fromisoformat(one["on"])
        if one["what"] == "recheck" and not re.search(rf"\b{day.day}\b", text):
            return f"recheck: {one['on']}"
    for one in plan["medicines"]:
        if one["amount"] and not any(math.isclose(float(n.replace(",", ".")), one["amount"]["value"], rel_tol=0.006) for n in re.findall(r"\d+(?:[.,]\d+)?", text)):
            return f"amount of {one['name']}: {one['amount']}"
    alarm = (plan["weight"] or {}).get("alarm_low_g")
    weighs = any(one["what"] == "weigh" for one in plan["dates"])
    # a round number, no later than worked out and by a third of the loss at most sooner
    sooner = max(1, ((plan["patient"]["mass_g"] or 0) - (alarm or 0)) / 3)
    if alarm and weighs and "°C" in text and not any(-1 <= n - alarm <= sooner + 0.5 for n in grams(text)):
        return f"weight at which to call: {alarm} g"
    return None


def grams(text):
    for number, unit in re.findall(r"(\d+(?:[.,]\d+)?)\s(k?g)\b", text):
        yield float(number.replace(",", ".")) * (1000 if unit == "kg" else 1)


class World:
    """A data folder, and what must hold of each record in it."""

    def __init__(self, data=ROOT):
        self.data = data
        voice.ROOT = data
        voice.files.cache_clear()
        voice.sentences.cache_clear()

    def fault(self, text, species_dir=None):
        more = ("--species-dir", species_dir) if species_dir else ()
        said = run("explain", "--json", "-", *more, data=self.data, text=text.encode())
        if said.returncode:
            return f"explain: {said.stderr.decode()}"
        plan = json.loads(said.stdout, parse_constant=lambda name: (_ for _ in ()).throw(ValueError(f"{name} in the plan")))
        wrong = wrong_derivation(plan) or wrong_phases(plan) or wrong_weighing(plan)
        if wrong:
            return wrong
        made = [run("sheet", "-", "-o", "-", *more, data=self.data, text=text.encode()) for _ in range(2)]
        if made[0].returncode:
            return f"sheet: {made[0].stderr.decode()}"
        if made[0].stdout != made[1].stdout:
            return "the same record gives other bytes"
        return self.page_fault(plan, made[0].stdout, read_yaml(text))

    def page_fault(self, plan, pdf, record):
        with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
            file.write(pdf)
            file.flush()
            broken = check_pdf.broken(file.name, "")
            text = subprocess.run(["pdftotext", "-raw", file.name, "-"], capture_output=True, check=True).stdout.decode()
        if broken:
            return f"does not conform: {broken}"
        allowed = {one["printed"] for one in plan["instructions"]} | {one["code"] for one in plan["instructions"]}
        lang = record["keeper"]["language"]
        cased = voice.cased(text)
        for sentence, keys in voice.sentences(lang).items():
            if sentence in cased and not any(key == code or key.startswith(code + ".") for key in keys for code in allowed):
                return f"says {sorted(keys)}, which is no instruction of its plan"
        missing = None if record["visit"]["kind"] in ASIDE else missing_number(plan, text)
        return f"{record['visit']['kind']}: not on the pages: {missing}\n{text}" if missing else None


def explains(text):
    done = run("explain", "--json", "-", text=text.encode())
    return done.returncode, done.stderr.decode()


def check_as(path):
    def ask(text):
        path.write_text(text, encoding="utf-8")
        done = run("check", path)
        return done.returncode, done.stderr.decode()
    return ask


def branch(top, changed):
    """A data folder like ours in which some files are others': {path below the folder: text}."""
    for path in (ROOT / "species-sheets", *(ROOT / "templates").rglob("*")):
        here = top / path.relative_to(ROOT)
        if path.is_dir() and path.name != "species-sheets":
            here.mkdir(parents=True, exist_ok=True)
        elif str(path.relative_to(ROOT)) in changed:
            here.write_text(changed[str(path.relative_to(ROOT))], encoding="utf-8")
        else:
            here.parent.mkdir(parents=True, exist_ok=True)
            here.symlink_to(path)
    return top


def other_words(text, rng):
    """Longer words with other letters; slots, keys and the lists' order stay, so that each sentence still says its own."""
    def longer(match):
        return match.group() + rng.choice("aeoñé") if rng.random() < 0.2 else match.group()

    def worded(value):
        if isinstance(value, list):
            return [worded(one) for one in value]
        if isinstance(value, dict):
            return {key: one if key == "count-by" else worded(one) for key, one in value.items()}
        return "".join(part if part.startswith("{") else re.sub(r"(?<![\w’'-])[^\W\d_]{4,}(?![\w’'-])", longer, part) for part in re.split(r"(\{[^}]*\})", str(value)))
    return yaml.safe_dump({key: worded(value) for key, value in yaml.load(text, valid.LOADER).items()}, allow_unicode=True, width=10000, sort_keys=False)


def shifted(value, rng):
    """Some ranges of a tree moved by up to a tenth: a sheet as another source would write it."""
    if isinstance(value, dict):
        return {key: moved(one, rng) if key == "range" and rng.random() < 0.3 else shifted(one, rng) for key, one in value.items()}
    return [shifted(one, rng) for one in value] if isinstance(value, list) else value


def moved(text, rng):
    factor = rng.uniform(0.92, 1.08)
    return re.sub(r"\d+\.?\d*", lambda n: f"{float(n.group()) * factor:.{len(n.group().partition('.')[2])}f}", str(text))


def other_rule(rule, conditions, rng):
    """A rule with another harm, one condition less, or other words in one."""
    when = dict(rule["when"])
    name = rng.choice(sorted(when))
    kind = conditions[name].kind
    if len(when) > 1 and rng.random() < 0.5:
        del when[name]
    elif kind.startswith("list of ") and " or " in kind:
        when[name] = rng.sample(choices := re.split(r", | or ", kind.removeprefix("list of ")), rng.randint(1, len(choices) - 1))
    return {**rule, "when": when, "harm": rng.randint(1, 100)}


class Valid(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.data = valid.Data()
        cls.form = valid.read_format(PROGRAM, "visit")

    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def seeds(self, share=1.0):
        return range(OPTIONS.seed, OPTIONS.seed + max(1, round(OPTIONS.runs * share)))

    def record(self, seed, species=None):
        generator = valid.Generator(self.data, seed, species)
        return valid.settle(generator.visit(self.form), self.form, explains)

    def hold(self, seed, world, text, species_dir=None):
        fault = world.fault(text, species_dir)
        self.assertIsNone(fault, f"--seed {seed}: {fault}\n{text}")

    def test_what_was_found(self):
        """The records on which an earlier run failed."""
        world = World()
        for path in sorted((ROOT / "tests/fuzz/seeds/valid").glob("*.yaml")):
            with self.subTest(path.name):
                self.assertIsNone(world.fault(path.read_text(encoding="utf-8")))

    def test_records(self):
        world, rounds = World(), collections.Counter()
        for seed in self.seeds():
            text, needed = self.record(seed)
            rounds[needed] += 1
            self.hold(seed, world, text)
        print("records, valid after so many rounds:", dict(sorted(rounds.items())))

    def test_species_sheets(self):
        world = World()
        for seed in self.seeds(0.5):
            rng = valid.random.Random(seed)
            code = rng.choice(sorted(self.data.species))
            path = self.folder / f"{code}.yaml"
            ask = check_as(path)
            while ask(yaml.safe_dump(shifted(self.data.species[code], rng), allow_unicode=True, sort_keys=False))[0]:
                pass  # zones that overtook one another
            self.hold(seed, world, self.record(seed, code)[0], self.folder)
            path.unlink()

    def test_rules(self):
        form = valid.read_format(PROGRAM, "rules")
        made = 0
        conditions = {one.key: one for one in next(one for one in form.below[0].below if one.key == "when").below}
        for seed in self.seeds(1):
            rng = valid.random.Random(seed)
            book = read_yaml((ROOT / "templates/rules.yaml").read_text(encoding="utf-8"))
            named = {name: dict(rule) for name, rule in book["rules"].items()}
            for name in rng.sample(sorted(book["rules"]), 30):
                book["rules"][name] = other_rule(book["rules"][name], conditions, rng)
            valid.settle(book, form, check_as(self.folder / "rules.yaml"))
            for name in named.keys() - book["rules"].keys():
                book["rules"][name] = named[name]  # value-uses.yaml names rules: one taken out is missed there
            text, _ = valid.settle(book, form, check_as(self.folder / "rules.yaml"))
            world = World(branch(self.folder / str(seed), {"templates/rules.yaml": text}))
            # an action may now be called for where its words have no value: that is refused, with the place of the words, and another
            # animal may have it
            for other in range(seed, seed + 4 * ANOTHER, ANOTHER):
                text, _ = self.record(other)
                if not re.search(r"\w+\.yaml:\d+:\d+: .* cannot be said: .* \[B710\]\n", run("sheet", "-", "-o", "-", data=world.data, text=text.encode()).stderr.decode()):
                    made += 1
                    self.hold(seed, world, text)
                    break
        self.assertGreaterEqual(made * 4, len(self.seeds(1)))

    def test_words(self):
        for seed in self.seeds(0.3):
            rng = valid.random.Random(seed)
            changed = {str(path.relative_to(ROOT)): other_words(path.read_text(encoding="utf-8"), rng)
                       for path in (ROOT / "templates/wording").glob("*/*.yaml") if path.name not in ("language.yaml", "topics.yaml", "desk.yaml", "desk-topics.yaml", "desk-settlements.yaml")}
            world = World(branch(self.folder / str(seed), changed))
            for more in range(3):
                self.hold(seed, world, self.record(1000 * seed + more)[0])

    def test_rosters(self):
        form = valid.read_format(PROGRAM, "roster")
        for seed in self.seeds(0.3):
            tree = {"roster": {"date": valid.TODAY.isoformat(), "kind": "adoption"}, "animals": []}
            rows = next(one for one in form.below if one.key == "animals")
            for row in range(4):
                tree["animals"].append(valid.Generator(self.data, 100 * seed + row).roster_row(rows))
            path = self.folder / f"{seed}.yaml"
            valid.settle(tree, form, check_as(path))
            out = self.folder / str(seed)
            done = run("packet", path, "--drafts", "-o", out)
            self.assertEqual(done.returncode, 0, f"--seed {seed}: {done.stderr.decode()}\n{path.read_text(encoding='utf-8')}")
            sheets = sorted(out.glob("*.pdf"))
            self.assertEqual(len(sheets), len(tree["animals"]), f"--seed {seed}")
            self.assertEqual({sheet.name: broken for sheet in sheets if (broken := check_pdf.broken(str(sheet), ""))}, {}, f"--seed {seed}")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
