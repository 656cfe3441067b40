#!/usr/bin/env python3
"""An animal without a species sheet: its group's cautions and the veterinarian's own targets, and never a number of another species."""
import json
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path


PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-16"
GROUPS = ("snake", "lizard", "tortoise", "turtle", "frog", "salamander")
sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402
from findings import fits_sex, without_excluded  # noqa: E402
from languages import LANGUAGES  # noqa: E402

CATALOGUE = read_yaml((ROOT / "templates/findings.yaml").read_text())
CAUTIONS = {one["group"]: one for one in read_yaml((ROOT / "templates/unlisted.yaml").read_text())["groups"]}
TARGETS = {"basking-surface": "41-43 C", "cool-side": "23-25 C", "night": "17-19 C", "humidity": "37-47 %", "uvi": "1.7-2.3", "every": "3-4 days",
           "because": "A colony of a colleague does well on it."}


def run(*words, stdin=None, text=True):
    return subprocess.run([PROGRAM, *map(str, words)], input=stdin, capture_output=True, text=text, cwd=ROOT, timeout=60)


def record(group="lizard", kind="checkout", lang="en", about=None, **parts):
    base = {"visit": {"date": TODAY, "kind": kind, "veterinarian": "Dr Ines Calder"},
            "patient": {"name": "Rook", "species": "unlisted", "unlisted": {"kind": "plated lizard", "group": group, **(about or {})}},
            "keeper": {"name": "Lena Marsh", "language": lang, "units": "metric"}}
    for key, value in parts.items():
        base[key] = {**base.get(key, {}), **value} if isinstance(value, dict) else value
    return json.dumps(base)


def fitting(group):
    """Each finding that fits every animal of the group, at its first level."""
    traits = set(CAUTIONS[group]["traits"])
    return [{"code": code, "severity": one["severities"][0]} for code, one in CATALOGUE["findings"].items()
            if group in one["groups"] and set(one.get("needs", [])) <= traits and not set(one.get("never-with", [])) & traits]


class Unlisted(unittest.TestCase):
    maxDiff = 3000

    def plan(self, visit):
        done = run("explain", "--json", "--today", TODAY, "-", stdin=visit)
        self.assertEqual(done.returncode, 0, done.stderr)
        return json.loads(done.stdout)

    def pdf(self, visit, *words):
        with tempfile.TemporaryDirectory() as folder:
            out = Path(folder) / "sheet.pdf"
            done = run("sheet", "--today", TODAY, "-o", out, *words, "-", stdin=visit)
            self.assertEqual(done.returncode, 0, done.stderr)
            text = subprocess.run(["pdftotext", "-layout", out, "-"], capture_output=True, text=True, check=True).stdout
            return out.read_bytes(), re.sub(r"\s+", " ", text)

    READINGS = {"readings": {"basking-surface": "35 C", "warm-side": "28 C", "cool-side": "24 C", "night": "20 C", "water": "21 C", "humidity": "30 %",
                             "humidity-at": "cool-side"},
                "lamp": {"kind": "tube", "tube-length": "55 cm", "measured": {"uvi": 3.0, "at": "30 cm"}, "installed": "2026-01-10", "height": "30 cm"},
                "size": "120 x 60 x 60 cm", "thermostat": True, "heat-guard": True}

    def test_without_targets_there_is_no_number(self):
        for group in GROUPS:
            for kind in ("checkout", "email", "adoption"):
                for lang in LANGUAGES:
                    with self.subTest(f"{group} {kind} {lang}"):
                        visit = record(group, kind, lang, enclosure=self.READINGS, diet={"last": "2026-03-10", "every": "7 days"}, patient={"mass": "310 g"})
                        visit = json.dumps({**json.loads(visit), "patient": {**json.loads(record(group))["patient"], "mass": "310 g"}})
                        plan = self.plan(visit)
                        self.assertTrue(plan["species"]["unlisted"])
                        self.assertEqual([zone for zone in plan["temperature"] if zone["target"]], [])
                        self.assertIsNone(plan["enclosure"]["minimum_cm"])
                        self.assertEqual([], [d for d in plan["dates"] if d["what"] in ("meal", "supplement", "lamp-change")])
                        # what it had is told as that, never as what to keep
                        text = re.sub(r"(had when you came, |tenía |avait )\d+ °C", "", self.pdf(visit)[1])
                        self.assertNotRegex(text, r"\d ?°[CF]|\d ?%|UV index Aim|Índice UV|Indice UV")
                        self.assertIn({"en": "no care sheet", "es": "No tenemos una hoja", "fr": "pas de fiche de soins"}[lang], text)

    def test_with_targets_only_those_are_printed(self):
        visit = record(enclosure=self.READINGS, targets=TARGETS)
        plan = self.plan(visit)
        zones = {zone["zone"]: zone["target"] for zone in plan["temperature"] if zone["target"]}
        self.assertEqual(zones, {"basking-surface": [41, 43], "cool-side": [23, 25], "night": [17, 19]})
        text = self.pdf(visit)[1]
        for said in ("41–43 °C", "23–25 °C", "17–19 °C", "37–47 %", "1.7–2.3", "Every 3–4 days", TARGETS["because"]):
            self.assertIn(said, text)
        read = {35, 28, 24, 20, 30}  # the keeper's own
        aimed = {41, 43, 23, 25, 17, 19, 37, 47}
        steps = {6, 2, 1, 7}  # 41 - 35, 19 - 17 ..., what differs
        for number in re.findall(r"(\d+) ?(?:°C|%)", text):
            self.assertIn(int(number), read | aimed | steps, text)

    def test_another_species_sheet_cannot_reach_it(self):
        """The same bytes whatever the species sheets say: every number of every sheet changed, then all but one gone."""
        visits = [record(group, findings=without_excluded(fitting(group))[:50], enclosure=self.READINGS, targets=TARGETS) for group in GROUPS]
        with tempfile.TemporaryDirectory() as folder:
            data = Path(folder) / "data"
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, data / part)
            before = [self.pdf(visit, "--data", data)[0] for visit in visits]
            for path in sorted((data / "species-sheets").glob("*.yaml")):
                path.write_text(re.sub(r"range: ([\d.]+)", lambda m: f"range: {float(m.group(1)) * 1.01:.4g}", path.read_text()))
            self.assertEqual(before, [self.pdf(visit, "--data", data)[0] for visit in visits])
            for path in sorted((data / "species-sheets").glob("*.yaml"))[1:]:
                path.unlink()
            self.assertEqual(before, [self.pdf(visit, "--data", data)[0] for visit in visits])

    def test_every_finding_of_the_group_can_be_said(self):
        """With each finding alone: a sheet comes out, and no advice that needs a number which nobody set."""
        for group in GROUPS:
            for finding in fitting(group):
                with self.subTest(f"{group} {finding['code']}"):
                    if not fits_sex(finding["code"], "unknown"):
                        continue
                    plan = self.plan(record(group, findings=[finding]))
                    codes = {action["code"] for action in plan["actions"]}
                    self.assertFalse(codes & {"raise-humidity", "lower-humidity", "keep-warm-side-warm", "check-warmth", "shallow-bath", "feed-less-often",
                                              "feed-small-often", "give-nest-box", "add-uvb-lamp"}, codes)

    def test_what_it_has_decides_which_findings_make_sense(self):
        shut = [{"code": "spectacles", "severity": "normal"}]
        self.assertEqual(run("explain", "--today", TODAY, "-", stdin=record("lizard", findings=shut)).returncode, 1)
        self.plan(record("lizard", about={"traits": ["spectacles"]}, findings=shut))
        self.plan(record("snake", findings=shut))

    def test_a_diet_alone_says_no_amount(self):
        text = self.pdf(record(about={"diet": "insects"}))[1]
        self.assertIn("Ask us what Rook may eat", text)
        self.assertNotRegex(text, r"\d+–\d+ insects|[Tt]haw")
        self.assertNotRegex(self.pdf(record())[1], r"[Tt]haw and warm|Feed the insects|fresh plants")

    def test_faults_are_told(self):
        bare = {**json.loads(record())}
        bare["patient"] = {"name": "Rook", "species": "unlisted"}
        beside = json.loads(record())
        beside["patient"]["species"] = "ball-python"
        for visit, said in ((bare, "needs its kind and group"), (beside, "stands beside 'ball-python'")):
            done = run("check", "-", stdin=json.dumps(visit))
            self.assertEqual(done.returncode, 1)
            self.assertIn(said, done.stderr)
        with tempfile.TemporaryDirectory() as folder:
            roster = Path(folder) / "animals.csv"
            roster.write_text("name,species\nRook,unlisted\n")
            done = run("check", roster)
            self.assertEqual(done.returncode, 1)
            self.assertIn("needs a visit record of its own", done.stderr)
            short = Path(folder) / "unlisted.yaml"
            short.write_text((ROOT / "templates/unlisted.yaml").read_text().split("  - group: salamander")[0])
            done = run("check", short)
            self.assertEqual(done.returncode, 1)
            self.assertIn("says nothing of a salamander", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
