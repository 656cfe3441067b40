#!/usr/bin/env python3
"""Each settlement by its own visit: what is settled, by whom, and who lost, as settled.yaml says by hand. No settlement stands without
one, and one that is taken out is missed by its own visit."""
import json
import random
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import yaml

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

EVERY = "--all" in sys.argv
PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY, SAMPLE, SEED = "2026-03-16", 60, 14
EXAMPLES = yaml.load(Path(__file__).with_name("settled.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
SETTLEMENTS = read_yaml((ROOT / "templates/settlements.yaml").read_text(encoding="utf-8"))["settlements"]
OWN = {"no", "others", "by", "of", "agree", "animal", "found", "holds", "over", "hatched", "mass", "earlier", "kind", "group"}


def visits(name):
    """The settlement's own visit, then those of the single stances that this one does not show."""
    whole = EXAMPLES[name]
    shared = {key: value for key, value in whole.items() if key not in {"by", "holds", "over", "others", "agree"}}
    return [whole, *({**shared, **one} for one in whole.get("by", []))]


def visit_of(name, outcome):
    """That which has to miss the outcome."""
    return next((one for one in visits(name)[1:] if outcome in one["of"]), EXAMPLES[name])


def record(example):
    found = [dict(zip(("code", "severity", "state", "step"), text.split())) for text in example["found"]]
    patient = {"name": "Fern", "species": example["animal"], "sex": "female", "hatched": example.get("hatched", "2019-05"),
               **{key: example[key] for key in ("mass", "earlier") if key in example}}
    if "group" in example:
        patient["unlisted"] = {"kind": "plated lizard", "group": example["group"]}
    return {"visit": {"date": TODAY, "kind": example.get("kind", "checkout"), "veterinarian": "Dr Ines Calder"}, "patient": patient,
            "findings": found, "follow-up": {"recheck": "14 days"}, **{key: value for key, value in example.items() if key not in OWN}}


def stances(example, data=ROOT):
    done = subprocess.run([PROGRAM, "explain", "--json", "-", "--data", data, "--today", TODAY], input=yaml.safe_dump(record(example)),
                          capture_output=True, text=True, timeout=60)
    return json.loads(done.stdout)["stances"] if done.returncode == 0 else done.stderr


def faults(name, example, settled):
    """What is not as the example says."""
    if isinstance(settled, str):
        yield settled
        return
    for topic, wanted in example["holds"].items():
        phases = [phase["stance"] for phase in settled.get(topic, [])]
        phases += [f"then {phase['then']}" for phase in settled.get(topic, [])[-1:] if phase["then"]]
        phases += ["open" for phase in settled.get(topic, [])[-1:] if not phase["until"] and not phase["then"]]
        wanted = [wanted] if isinstance(wanted, str) else wanted
        dated = {at: f"{phase['stance']} from {phase['from']}" for at, phase in enumerate(settled.get(topic, [])) if " from " in "".join(wanted[at:at + 1])}
        phases = [dated.get(at, phase) for at, phase in enumerate(phases)]
        if phases[:len(wanted)] != wanted:
            yield f"{topic} is {phases}, not {wanted}"
    for topic, stance in example.get("over", {}).items():
        if stance not in [lost["stance"] for phase in settled[topic] for lost in phase["lost"]]:
            yield f"{stance} of {topic} did not lose"
    for topic in example.get("agree", []):
        if any(lost["because"].startswith("settlement:") for phase in settled[topic] for lost in phase["lost"]):
            yield f"two settlements speak of {topic} with two mouths"
    for topic in set(example["holds"]) - set(example.get("others", [])):
        if not any(phase["because"] == f"settlement:{name}" for phase in settled.get(topic, [])):
            yield f"the settlement did not decide {topic}"


class Settled(unittest.TestCase):
    def test_every_settlement_has_its_visit(self):
        self.assertEqual(set(EXAMPLES), set(SETTLEMENTS))
        # line 115 is about days on which the clinic is closed: test_opening_days
        self.assertEqual({int(one["no"]) for one in EXAMPLES.values()} - {0}, set(range(1, 121)) - {115})

    def test_what_is_settled_is_what_was_written_down(self):
        with ThreadPoolExecutor(2) as pool:
            tried = [(name, example) for name in EXAMPLES for example in visits(name)]
            for (name, example), settled in zip(tried, pool.map(stances, [example for _, example in tried])):
                with self.subTest(settlement=name, of=example.get("of")):
                    self.assertEqual(list(faults(name, example, settled)), [])

    def missed(self, changes):
        """What the visit says once the settlement's line has become another, for each of (settlement, visit, its line, what becomes of it)."""
        whole = (ROOT / "templates/settlements.yaml").read_text(encoding="utf-8")
        with tempfile.TemporaryDirectory() as folder:
            data = Path(folder)
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, data / part)
            for name, example, line, becomes in changes:
                self.assertEqual(whole.count(line), 1, name)
                (data / "templates/settlements.yaml").write_text(whole.replace(line, becomes), encoding="utf-8")
                yield list(faults(name, example, stances(example, data)))

    def lines(self):
        """settlement -> its line in the file"""
        found = {line.split(":")[0].strip(): line for line in (ROOT / "templates/settlements.yaml").read_text(encoding="utf-8").splitlines(keepends=True) if re.match("  [a-z]", line)}
        return {name: found[name] for name in EXAMPLES}

    def test_one_taken_out_is_missed(self):
        lines = self.lines()
        for name, wrong in zip(lines, self.missed((name, EXAMPLES[name], line, "") for name, line in lines.items())):
            self.assertTrue(wrong, f"nobody misses {name}")

    def test_one_outcome_taken_out_is_missed(self):
        """Of the stances that a settlement puts in place, where it puts several (all with --all, else a sample)."""
        changes, wanted = [], []
        for name, line in self.lines().items():
            before, then, after = re.fullmatch(r"(.*then: \[)([^\]]*)(\].*\n)", line).groups()
            outcomes = then.split(", ")
            for outcome in outcomes if len(outcomes) > 1 else []:
                changes.append((name, visit_of(name, outcome.strip('"')), line, before + ", ".join(one for one in outcomes if one != outcome) + after))
                wanted.append((name, outcome.strip('"')))
        chosen = range(len(changes)) if EVERY else sorted(random.Random(SEED).sample(range(len(changes)), SAMPLE))
        for at, wrong in zip(chosen, self.missed([changes[at] for at in chosen])):
            name, outcome = wanted[at]
            self.assertTrue(wrong, f"nobody misses {outcome} of {name}")


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
