#!/usr/bin/env python3
"""Each call of topics.yaml that no finding makes, by its own visit: what holds on its day, as called.yaml says by hand. No such call stands
without one, and one that is taken out, whole or one of the things that it calls for, is missed by its own visit."""
import shutil
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import yaml

sys.path.insert(0, str(Path(__file__).resolve().parent))
import test_settled  # noqa: E402

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

ROOT = Path(__file__).resolve().parents[2]
VISITS = yaml.load(Path(__file__).with_name("called.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
CALLS = read_yaml((ROOT / "templates/topics.yaml").read_text(encoding="utf-8"))["calls"]


def settled(visit, data=ROOT):
    return test_settled.stances({"found": [], **{key: value for key, value in visit.items() if key != "also"}}, data)


def faults(visit, stances):
    """What does not hold on the day of the visit."""
    if isinstance(stances, str):
        return [stances]
    now = {topic: phases[0]["stance"] for topic, phases in stances.items()}
    wrong = [f"{topic} is {now.get(topic)}, not {stance}" for topic, stance in visit["holds"].items() if now.get(topic) != stance]
    # `over`: what is called for too and loses on that day
    lost = {topic: [one["stance"] for one in phases[0].get("lost", [])] for topic, phases in stances.items()}
    return wrong + [f"{topic} has not lost {one}" for topic, over in visit.get("over", {}).items() for one in over if one not in lost.get(topic, [])]


class Called(unittest.TestCase):
    def test_every_call_has_its_visit(self):
        self.assertEqual(set(VISITS), set(CALLS))

    def test_what_is_called_for_holds(self):
        with ThreadPoolExecutor(2) as pool:
            for (name, visit), stances in zip(VISITS.items(), pool.map(settled, VISITS.values())):
                with self.subTest(call=name):
                    self.assertEqual(faults(visit, stances), [])

    def test_one_taken_out_is_missed(self):
        lines = (ROOT / "templates/topics.yaml").read_text(encoding="utf-8").splitlines(keepends=True)
        first = lines.index("calls:\n")
        alone = sorted(name for name, visit in VISITS.items() if "also" not in visit)
        with tempfile.TemporaryDirectory() as folder:
            data = Path(folder)
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, data / part)
            for name in alone:
                place = next(n for n, line in enumerate(lines) if n > first and line.startswith(f"  {name}:"))
                for instead in self.without(lines[place], CALLS[name]["call"]):
                    (data / "templates/topics.yaml").write_text("".join(lines[:place] + instead + lines[place + 1:]), encoding="utf-8")
                    self.assertTrue(faults(VISITS[name], settled(VISITS[name], data)), f"nobody misses {name}: {instead or 'the row'}")

    def without(self, line, calls):
        """The row taken out, then each of its calls alone."""
        yield []
        for call in calls if len(calls) > 1 else []:
            rest = line.replace(f'"{call}", ', "") if f'"{call}", ' in line else line.replace(f', "{call}"', "")
            self.assertNotEqual(rest, line)
            yield [rest]


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
