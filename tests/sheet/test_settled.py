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
OWN = {"no", "others", "unseen", "animal", "found", "holds", "over", "hatched", "mass", "earlier", "kind", "group"}


def record(example):
    found = [dict(zip(("code", "severity", "state"), text.split())) for text in example["found"]]
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
        wanted = [wanted] if isinstance(wanted, str) else wanted
        if phases[:len(wanted)] != wanted:
            yield f"{topic} is {phases}, not {wanted}"
    for topic, stance in example.get("over", {}).items():
        if stance not in [lost["stance"] for phase in settled[topic] for lost in phase["lost"]]:
            yield f"{stance} of {topic} did not lose"
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
            for (name, example), settled in zip(EXAMPLES.items(), pool.map(stances, EXAMPLES.values())):
                with self.subTest(settlement=name):
                    self.assertEqual(list(faults(name, example, settled)), [])

    def missed(self, changes):
        """What the settlement's visit says once its line has become another, for each of (settlement, its line, what becomes of it)."""
        whole = (ROOT / "templates/settlements.yaml").read_text(encoding="utf-8")
        with tempfile.TemporaryDirectory() as folder:
            data = Path(folder)
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, data / part)
            for name, line, becomes in changes:
                self.assertEqual(whole.count(line), 1, name)
                (data / "templates/settlements.yaml").write_text(whole.replace(line, becomes), encoding="utf-8")
                yield list(faults(name, EXAMPLES[name], stances(EXAMPLES[name], data)))

    def lines(self):
        """settlement -> its line in the file"""
        found = {line.split(":")[0].strip(): line for line in (ROOT / "templates/settlements.yaml").read_text(encoding="utf-8").splitlines(keepends=True) if re.match("  [a-z]", line)}
        return {name: found[name] for name in EXAMPLES}

    def test_one_taken_out_is_missed(self):
        lines = self.lines()
        for name, wrong in zip(lines, self.missed((name, line, "") for name, line in lines.items())):
            self.assertTrue(wrong, f"nobody misses {name}")

    def test_one_outcome_taken_out_is_missed(self):
        """Of the stances that a settlement puts in place, where it puts several; but for those that its visit does not come to see (all with --all, else a sample)."""
        changes, wanted = [], []
        for name, line in self.lines().items():
            before, then, after = re.fullmatch(r"(.*then: \[)([^\]]*)(\].*\n)", line).groups()
            outcomes = then.split(", ")
            for outcome in outcomes if len(outcomes) > 1 else []:
                changes.append((name, line, before + ", ".join(one for one in outcomes if one != outcome) + after))
                wanted.append((name, outcome.strip('"')))
        chosen = range(len(changes)) if EVERY else sorted(random.Random(SEED).sample(range(len(changes)), SAMPLE))
        for at, wrong in zip(chosen, self.missed([changes[at] for at in chosen])):
            name, outcome = wanted[at]
            self.assertEqual(bool(wrong), outcome not in EXAMPLES[name].get("unseen", []), f"{name}: {outcome}")


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
