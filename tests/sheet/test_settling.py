"""The program's stances on the day of a visit against a second reading of the same data (tests/common/settling.py): what may
stand together, in twos and threes, at every level and state, on every species."""
import json
import random
import subprocess
import sys
import unittest
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests/common"))
import findings as together  # noqa: E402
import settling  # noqa: E402

PROGRAM = Path(sys.argv.pop(1)).resolve()
SPECIES = sorted(path.stem for path in (ROOT / "species-sheets").glob("*.yaml"))
VISITS = 120


def explained(species, findings, done):
    record = {"visit": {"date": "2026-03-16", "kind": "checkout", "veterinarian": "Dr Ines Calder"},
              "patient": {"name": "Fern", "species": species, "sex": "female", "hatched": "2012-01"},
              "findings": [{"code": code, "severity": severity, "state": state} for code, severity, state in findings], "done-today": done}
    made = subprocess.run([PROGRAM, "explain", "-", "--json"], input=json.dumps(record), capture_output=True, text=True, cwd=ROOT, timeout=60)
    return json.loads(made.stdout) if made.stdout else made.stderr


def visits(seed):
    dice = random.Random(seed)
    while True:
        species = dice.choice(SPECIES)
        animal = settling.Animal(species)
        pool = [code for code, entry in settling.CATALOGUE["findings"].items() if entry["severities"] != ["normal"] and animal.can_have(entry)]
        chosen = together.without_excluded([{"code": code} for code in dice.sample(pool, dice.choice([2, 2, 3]))], "female")
        found = [(one["code"], dice.choice([s for s in settling.CATALOGUE["findings"][one["code"]]["severities"] if s != "normal"]),
                  dice.choice(["seen", "seen", "under-treatment", "unseen"])) for one in chosen]
        done = dice.choice([[], [], ["surgery"], ["sedation"], ["blood-sample"]])
        yield species, found, done


class Settling(unittest.TestCase):
    maxDiff = 2000

    def test_a_second_reading_settles_alike(self):
        for _, (species, found, done) in zip(range(VISITS), visits(14)):
            plan = explained(species, found, done)
            with self.subTest(species=species, found=found, done=done):
                self.assertIsInstance(plan, dict, plan)
                now = {topic: phases[0]["stance"] for topic, phases in plan["stances"].items()}
                again = settling.settle(species, found, done)  # hatched in 2012: grown
                self.assertEqual({topic: stance for topic, (stance, _) in again.items()}, now)


if __name__ == "__main__":
    unittest.main(verbosity=2)
