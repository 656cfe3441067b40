#!/usr/bin/env python3
"""What two places of one page said differently, as readers of finished pages saw it: each is said once, or both say the same. Common practice, no
source, where a line names none."""
import json
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM, WRITE_PLAIN = (Path(arg).resolve() for arg in sys.argv[1:3])
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-20"
READINGS = {"warm-side": "29 C", "cool-side": "24 C", "night": "23 C", "humidity": "45 %", "humidity-at": "cool-side"}


def record(species, **parts):
    base = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"},
            "patient": {"name": "Juno", "species": species, "sex": "female", "hatched": "2019-05", "mass": "400 g"}, "keeper": {"language": "en", "units": "metric"}}
    for key, value in parts.items():
        key = key.replace("_", "-")
        base[key] = {**base.get(key, {}), **value} if isinstance(value, dict) else value
    return json.dumps(base)


def plan_of(text):
    done = subprocess.run([PROGRAM, "explain", "--json", "--today", TODAY, "-"], input=text, capture_output=True, text=True, cwd=ROOT, check=True)
    return json.loads(done.stdout)


def printed(text, language="en"):
    with tempfile.TemporaryDirectory() as folder:
        visit = Path(folder) / "visit.yaml"
        visit.write_text(text.replace('"language": "en"', f'"language": "{language}"'))
        done = subprocess.run([WRITE_PLAIN, ROOT, visit, TODAY, language, "whole"], capture_output=True, text=True, check=True)
    return " ".join(done.stdout.split())


class SaidOnce(unittest.TestCase):
    def test_a_nest_box_is_the_one_damp_hide(self):
        """Mites hide in damp moss (the clinical table, 12); no nest is the commonest cause of stuck eggs (1.1)."""
        text = record("western-hognose", findings=[{"code": "gravid", "step": "late"}, {"code": "mites", "severity": "moderate"}])
        stances = plan_of(text)["stances"]
        self.assertEqual((stances["damp-hide"][0]["stance"], stances["nest"][0]["stance"]), ("none", "needed-now"))
        for language, said, never in (("en", "No damp hide but the nest box", "No damp hide, but"), ("es", "Sin más refugio húmedo que el nido", "Sin refugio húmedo"),
                                      ("fr", "Pas d'autre cachette humide que le nid", "Pas de cachette humide")):
            page = printed(text, language)
            self.assertIn(said, page)
            self.assertNotIn(never, page)
        alone = printed(record("western-hognose", findings=[{"code": "mites", "severity": "moderate"}, {"code": "retained-shed", "severity": "mild"}]))
        self.assertIn("No damp hide, but a dry hide", alone)

    def test_the_step_that_gives_water_says_it_for_the_line_beside_it(self):
        """And where the veterinarian strikes the step, the line stands."""
        dry = [{"code": "dehydrated", "severity": "moderate"}]
        strike = [{"action": "offer-water", "strike": "yes", "because": "We gave fluids."}]
        for parts, step, line in (({}, 1, 0), ({"decisions": strike}, 0, 1)):
            page = printed(record("corn-snake", findings=dry, **parts))
            self.assertEqual((page.count("Give water now. Use a bowl"), page.count("Give clean water now and each day.")), (step, line), parts)

    def test_eggs_or_young_never_both(self):
        """By the species sheet's reproduction, in every place that says it."""
        for species, said, never in (("western-hognose", ("Until the eggs are laid", "Carrying eggs"), ("young",)),
                                     ("kenyan-sand-boa", ("Until the young are born", "Carrying young"), ("eggs",))):
            text = record(species, findings=[{"code": "gravid", "step": "early"}])
            self.assertEqual(plan_of(text)["species"]["reproduction"], {"western-hognose": "egg-layer"}.get(species, "live-bearer"))
            page = printed(text)
            for words in said:
                self.assertIn(words, page)
            for words in never:
                self.assertNotIn(words, page, species)
        stuck = printed(record("kenyan-sand-boa", findings=[{"code": "egg-bound", "severity": "severe"}]))
        self.assertIn("The young are stuck", stuck)
        self.assertNotIn("eggs", stuck)

    def test_carrying_has_steps_and_no_severity(self):
        for found, said in (({"code": "gravid", "step": "late"}, "Carries eggs, late."), ({"code": "gravid"}, "Carries eggs.")):
            page = printed(record("western-hognose", findings=[found]))
            self.assertIn(said.split(",")[0].rstrip("."), page)
            self.assertNotIn("mild", page)
        self.assertIn("late", printed(record("western-hognose", findings=[{"code": "gravid", "step": "late"}])))

    def test_a_visit_before_the_check_says_what_it_is_for(self):
        dose = {"name": "Wormer", "amount": "0.1 ml", "route": "by-mouth", "every": "72 h", "doses": 3, "first": "2026-03-23", "given": "here"}
        text = record("leopard-gecko", findings=[{"code": "worms", "severity": "mild"}], medicines=[dose], follow_up={"recheck": "14 days"})
        page = self.wall(text)
        self.assertIn("Next visit, for a dose: Mon 23 Mar", page)
        alone = self.wall(record("leopard-gecko", findings=[{"code": "worms", "severity": "mild"}], follow_up={"recheck": "14 days"}))
        self.assertIn("Next visit: Fri 3 Apr", alone)

    def wall(self, text):
        with tempfile.TemporaryDirectory() as folder:
            visit, out = Path(folder) / "visit.json", Path(folder) / "out.pdf"
            visit.write_text(text)
            subprocess.run([PROGRAM, "sheet", visit, "--today", TODAY, "-o", out], capture_output=True, check=True, cwd=ROOT)
            return " ".join(subprocess.run(["pdftotext", out, "-"], capture_output=True, text=True, check=True).stdout.split())

    def test_twice_a_week_ends_on_a_day(self):
        text = record("blue-tongued-skink", patient={"earlier": [{"on": "2026-02-01", "mass": "520 g"}]}, follow_up={"recheck": "10 days"},
                      findings=[{"code": "underweight", "severity": "severe"}])
        phases = [(p["stance"], p["until"]) for p in plan_of(text)["stances"]["weighing"]]
        self.assertEqual(phases[0], ("twice-weekly", "2026-03-30"))
        self.assertIn("twice a week until Mon 30 Mar", printed(text))

    def test_one_urgency_for_one_sign(self):
        """A severe finding raises its signs: its own sentence says go now with them."""
        for code in ("soft-jaw", "tongue-misses"):
            for severity, said, never in (("severe", "go now if it cannot eat", "call us today if it cannot eat"), ("moderate", "call us today if it cannot eat", "go now if it cannot eat")):
                text = record("blue-tongued-skink", visit={"kind": "reading"}, findings=[{"code": code, "severity": severity}])
                tiers = {one["code"]: one["tier"] for one in plan_of(text)["warnings"]}
                self.assertEqual(tiers[code], "now" if severity == "severe" else "today")
                page = printed(text).lower()
                self.assertIn(said, page)
                self.assertNotIn(never, page)

    def test_a_sign_stands_once(self):
        for code, severity in (("underweight", "severe"), ("airway-infection", "severe"), ("dehydrated", "severe"), ("worms", "severe")):
            codes = [one["code"] for one in plan_of(record("corn-snake", findings=[{"code": code, "severity": severity}]))["warnings"]]
            self.assertEqual(len(codes), len(set(codes)), code)

    def test_what_a_thin_animals_keeper_does_meanwhile(self):
        """26.5 C where 27-29 C is right may be the meter's error: the middle, 28 C, is right whichever way it errs."""
        for severity, said in (("moderate", True), (None, False)):
            target = plan_of(record("corn-snake"))["temperature"]
            low = next(zone for zone in target if zone["zone"] == "warm-side")["target"][0]
            found = [{"code": "underweight", "severity": severity}] if severity else []
            text = record("corn-snake", findings=found, enclosure={"readings": {**READINGS, "warm-side": f"{low - 0.5} C"}})
            zone = next(zone for zone in plan_of(text)["temperature"] if zone["zone"] == "warm-side")
            self.assertEqual(zone["verdict"], "borderline")
            middle = sum(zone["target"]) / 2
            self.assertEqual(f"Until you know, set the warm side to {middle:g} °C" in printed(text), said)

    def test_one_end_of_a_pause_in_food(self):
        text = record("kenyan-sand-boa", done_today=["sedation"], findings=[{"code": "wound", "severity": "moderate"}])
        self.assertEqual(plan_of(text)["stances"]["food"][0]["stance"], "none-until-vet")
        page = printed(text)
        self.assertIn("Let it wake up", page)
        self.assertNotIn("no food until it is fully awake", page)

    def test_a_stance_is_told_where_a_finding_only_points_at_it(self):
        """'Ask us before you change the ground' and 'weigh as this sheet says' are not the paper and the weighing themselves."""
        claws = printed(record("blue-tongued-skink", done_today=["prolapse-replaced"],
                               findings=[{"code": "prolapse", "severity": "moderate"}, {"code": "long-claws", "severity": "mild"}]))
        self.assertRegex(claws, "[Pp]lain, dry paper")
        self.assertIn("Weigh it every two weeks", printed(record("whites-tree-frog", findings=[{"code": "overweight", "severity": "moderate"}])))
        worms = printed(record("bearded-dragon", findings=[{"code": "worms", "severity": "moderate"}]))
        self.assertEqual(worms.count("Give no medicine but what we wrote here"), 1)

    def test_an_empty_line_says_what_to_do(self):
        page = printed(record("greek-tortoise", done_today=["tube-feeding"], findings=[{"code": "limp", "severity": "severe"}]))
        self.assertIn("Nothing written? Call us before you feed", page)

    def test_no_warm_box_for_what_was_too_hot(self):
        """The clinical table, 2.3: no heat on the way of an overheated animal."""
        for species in ("leopard-gecko", "corn-snake"):
            for found, said in (("heat-stroke", False), ("wound", True)):
                page = printed(record(species, findings=[{"code": found, "severity": "moderate"}]))
                self.assertEqual("warm, dark box" in page, said, (species, found))
                self.assertEqual("and use no heat on the way" in page, not said, (species, found))

    def test_one_weight_to_call_at_in_the_winters_rest(self):
        """Clinical reference 5, from memory: call at 8 % lost, wake at 10 %. Before the rest a tenth is the alarm, and says that it is for before."""
        patient = {"hatched": "2010-05", "mass": "1200 g", "sex": "male"}
        rests = {"patient": patient, "history": {"owned-since": "2015-05-01", "stool-clean": "2026-03-01", "woke-from-rest": "2025-02-20"}}
        page = printed(record("hermanns-tortoise", **rests, winter_rest={"planned": True}))
        self.assertIn("Weighs 1080 g or less before it rests", page)
        self.assertNotIn("1080 g or less in the next", page)
        self.assertIn("Weighs 1080 g or less in the next 60 days", printed(record("hermanns-tortoise", **rests)))

    def test_a_shell_that_was_closed_here_sends_nobody_back(self):
        page = printed(record("painted-turtle", findings=[{"code": "cracked-shell", "severity": "moderate"}], done_today=["shell-dressing"]))
        self.assertIn("The crack opens, moves or bleeds", page)
        self.assertNotIn("A cracked or crushed shell", page)

    def test_the_product_stands_on_the_page_that_hangs(self):
        """70 % ethanol for 20 s (Johnson et al. 2003), 0.75 % chlorhexidine for a minute (Bryan et al. 2009); bleach fails on cryptosporidium (memory)."""
        for species, code, said in (("fire-bellied-toad", "chytrid", "alcohol of 70 % for at least 20 seconds"), ("whites-tree-frog", "ranavirus", "chlorhexidine of 0.75 % for at least 60 seconds"),
                                    ("leopard-gecko", "cryptosporidium", "Bleach does not kill this germ")):
            self.assertIn(said, self.wall(record(species, findings=[{"code": code, "severity": "moderate"}], patient={"mass": "20 g"})), code)

    def test_the_weight_before_and_after_laying(self):
        """Clinical reference 9: 15-40 % may go with the eggs; 3: more than a tenth in 60 days at any other time."""
        for species, said in (("western-hognose", "Weighs 360 g or less, or 240 g or less after laying"), ("kenyan-sand-boa", "Weighs 360 g or less, or 240 g or less after the birth")):
            self.assertIn(said, printed(record(species, findings=[{"code": "gravid", "step": "early"}])))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
