#!/usr/bin/env python3
"""Each call of findings.yaml and each bundle of topics.yaml by visits of its own: what holds on its day, as found.yaml says by hand. No finding or
procedure that calls for something stands without one, and a call that is taken out is missed by one of its visits (all of them with --all, a sample
otherwise); `kept` names by hand those that something else of the same visit says as well."""
import re
import random
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

EVERY, SAMPLE, SEED = "--all" in sys.argv, 24, 14
ROOT = Path(__file__).resolve().parents[2]
BOOK = yaml.load(Path(__file__).with_name("found.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
WARM = {"corn-snake": {"basking-surface": "31 C", "warm-side": "28 C", "cool-side": "24 C"}}
STEPS = {"early", "late", "nest-searching", "laying"}
# Another age than the one of test_settled.
AGES = {"corn-snake-hatchling": ("corn-snake", {"hatched": "2026-02-20", "mass": "7 g"}),
        "hermanns-tortoise": ("hermanns-tortoise", {"hatched": "2005-05", "mass": "1200 g"}),
        "hermanns-tortoise-juvenile": ("hermanns-tortoise", {"hatched": "2024-08-01", "mass": "90 g"})}


def visit_of(head, is_done):
    """The record of a row's head: animal, what was found or done, how severe, in which state."""
    head, _, done = head.partition(" after ")
    words = head.split()
    is_warm = words[-1] == "warm"  # every place is measured and right
    words = words[:-1] if is_warm else words
    animal, parts = AGES.get(words[0], (words[0], {}))
    visit = {"animal": animal, "found": [], **parts}
    if is_warm:
        visit["enclosure"] = {"readings": WARM[animal]}
    if done or is_done:
        visit["done-today"] = [one for one in (done, words[1] if is_done else "") if one]
    if is_done:
        pass
    elif words[2] in STEPS:
        visit["findings"] = [{"code": words[1], "step": words[2]}]
    else:
        visit["found"] = [" ".join(words[1:])]
    if words[1] in ("vomited", "post-winter-not-eating"):
        visit["history"] = {"regurgitated": "2026-03-15"} if words[1] == "vomited" else {"woke-from-rest": "2026-03-06"}
    if words[1] == "hemipenal-plug":
        visit["patient"] = {"name": "Fern", "species": animal, "sex": "male", "hatched": "2019-05"}
    if words[1] == "beak-trim":
        visit["follow-up"] = {"recheck": "14 days", "aftercare": [{"of": "beak-trim", "check": "2026-03-23"}]}
    return visit


def holds_of(text):
    wanted = {}
    for part in text.split(", "):
        if part.startswith("+"):
            wanted.update(holds_of(BOOK["parts"][part[1:]]))
        else:
            topic, stances = part.split(" ", 1)
            wanted[topic] = stances.split(" > ")
    return wanted


ROWS = [(head, visit_of(head, section == "procedures"), holds_of(text)) for section in ("findings", "procedures") for head, text in BOOK[section].items()]
CODES = {head.split()[1] for head, _, _ in ROWS}


def faults(wanted, stances):
    if isinstance(stances, str):
        return [stances]
    found = []
    for topic, line in wanted.items():
        line, _, end = " > ".join(line).partition(" until ")
        line = line.split(" > ")
        phases = [phase["stance"] for phase in stances.get(topic, [])]
        phases += [phase["then"] for phase in stances.get(topic, [])[-1:] if phase["then"]]
        if phases[:len(line)] != line:
            found.append(f"{topic} is {phases}, not {line}")
        elif end and stances[topic][0]["end_by"] != end:
            found.append(f"{topic} ends by {stances[topic][0]['end_by']}, not {end}")
        elif line[:-1] != ["usual"] and stances[topic][0]["because"] == "default":  # the same as usual, but nobody called for it
            found.append(f"{topic} is as usual")
    return found


def calls_of(path, first, last):
    """Every call of the lines: the line's place, its code, the call, the line without it."""
    lines = (ROOT / path).read_text(encoding="utf-8").splitlines(keepends=True)
    inside, code = False, None
    for place, line in enumerate(lines):
        if not line.startswith(" ") and line.strip():
            inside = first <= line.strip().rstrip(":") <= last if first == last else line.strip().rstrip(":") in (first, last)
        head = re.match(r"  ([a-z0-9-]+):", line)
        code = head.group(1) if head else code
        listed = re.search(r"call: \[([^]]*)\]", line)
        if not inside or not listed or not line.startswith(("      - {", "    - {")):
            continue
        calls = listed.group(1).split(", ")
        for call in calls:
            rest = [one for one in calls if one != call]
            instead = line.replace(listed.group(0), f"call: [{', '.join(rest)}]") if rest else ""
            yield lines, place, code, call.strip('"'), instead


def groups_of(change):
    """Of a row of some groups alone: which, with `after NAME` for one of something done."""
    line = change[0][change[1]]
    groups, done = re.search(r"groups: \[([^]]*)\]", line), re.search(r"[{ ]done: \[([^]]*)\]", line)
    return f"after {done.group(1)}" if done else groups.group(1).replace(",", "") if groups else ""


class Found(unittest.TestCase):
    maxDiff = None
    def test_everything_that_calls_has_its_visit(self):
        book = read_yaml((ROOT / "templates/findings.yaml").read_text(encoding="utf-8"))
        calling = {code for section in ("findings", "procedures") for code, one in book[section].items() if one.get("calls")}
        self.assertEqual(CODES, calling)

    def test_what_is_called_for_holds(self):
        with ThreadPoolExecutor(2) as pool:
            for (head, _, wanted), stances in zip(ROWS, pool.map(lambda row: test_settled.stances(row[1]), ROWS)):
                with self.subTest(visit=head):
                    self.assertEqual(faults(wanted, stances), [])

    def missed(self, path, changes, visits_of):
        """The changes that no visit misses."""
        with tempfile.TemporaryDirectory() as folder:
            data = Path(folder)
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, data / part)
            for lines, place, code, call, instead in changes:
                text = "".join(lines[:place] + [instead] + lines[place + 1:])
                if not instead and lines[place - 1].strip() == "calls:" and not lines[place + 1].lstrip().startswith("- {"):
                    text = "".join(lines[:place - 1] + lines[place + 1:])
                (data / path).write_text(text, encoding="utf-8")
                if not any(faults(wanted, test_settled.stances(visit, data)) for visit, wanted in visits_of(code)):
                    yield f"{code} {call} {lines[place].strip()[:70]}"
            (data / path).write_text((ROOT / path).read_text(encoding="utf-8"), encoding="utf-8")

    def drawn(self, path, first, last, kept):
        changes = [one for one in calls_of(path, first, last) if not {f"{one[2]} {one[3]}", f"{one[2]} {one[3]} {groups_of(one)}"} & set(kept)]
        return changes if EVERY else random.Random(SEED).sample(changes, SAMPLE)

    def test_a_call_taken_out_is_missed(self):
        own = lambda code: [(visit, wanted) for head, visit, wanted in ROWS if head.split()[1] == code]
        changes = self.drawn("templates/findings.yaml", "findings", "procedures", BOOK["kept"])
        self.assertEqual(list(self.missed("templates/findings.yaml", changes, own)), [])

    def test_a_call_of_a_bundle_taken_out_is_missed(self):
        own = lambda code: [(visit, wanted) for head, visit, wanted in ROWS if head in BOOK["bundles"][code]]
        changes = self.drawn("templates/topics.yaml", "bundles", "bundles", BOOK["kept"])
        self.assertEqual(list(self.missed("templates/topics.yaml", changes, own)), [])


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
