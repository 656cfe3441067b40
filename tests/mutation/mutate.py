#!/usr/bin/env python3
"""How well the tests notice: changes the program's sources in one place after another, builds, runs the fast suites, and prints the score and
what survived.

    tests/mutation/mutate.py [--sample N] [--seed S] [--only PATH] [--minutes M] [--least PERCENT] [--list] [--progress]

A mutant is one line with one change: a comparison turned, a bound moved, `&&` for `||`, a sign or a constant changed, a truth turned round, a
call dropped. Mutants that do not compile are no mutants. `explained.txt` beside this file lists survivors that change nothing anybody
could see: `path | the line as it stands | the line of the mutant | why`. With --least the exit status is 1 below that
share of noticed ones, the explained ones left out. Works on a copy; a mutant takes some seconds."""
import argparse
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
EXPLAINED = Path(__file__).with_name("explained.txt")
FOLDERS = ("care", "records", "context", "signing", "render", "batch", "mail", "words")
# The quickest first: most mutants meet their end there. The names are those of meson.build.
STAGES = (
    ("epoch",),
    ("body", "action_order", "heat", "temperature", "ultraviolet", "uvb_lamp", "uvb_plan", "humidity_plan", "moist_air", "water", "daylight", "opening_days",
     "visit", "species", "species_published", "opening", "log", "spreadsheet", "plural", "readability", "french", "opening_words", "slots", "signs_words", "units", "stored"),
    ("explain", "feeding", "food_rules", "diet", "winter", "hand", "since", "unlisted", "passed", "logger"),
    ("cases", "settled", "order", "slips", "sign", "overwrite", "medicines", "dates", "aftercare"),
    ("edges", "harm"),
)
# What looks at the way out of the program alone, for mutants of that way.
WAY_OUT = ("mail", "joined", "packet")
OF_WAY_OUT = ("context", "signing", "render", "batch", "mail")
COMPARISONS = {" < ": (" <= ", " > "), " <= ": (" < ", " >= "), " > ": (" >= ", " < "), " >= ": (" > ", " <= "), " == ": (" != ",), " != ": (" == ",)}
OTHERS = {" && ": (" || ",), " || ": (" && ",), " + ": (" - ",), " - ": (" + ",), " * ": (" / ",), "true": ("false",), "false": ("true",)}
NUMBER = re.compile(r"(?<![\w.\"%])(\d+(?:\.\d+)?)(?![\w.\"])")
CALL = re.compile(r"^\s+[a-z]\w*\([^;{}]*\);$")
WORDS = re.compile(r'"(?:[^"\\]|\\.)*"|\'(?:[^\'\\]|\\.)*\'')


def masked(line):
    """The line with its texts blanked, so that nothing in them is changed."""
    return WORDS.sub(lambda m: "\0" * len(m.group()), line)


def mutants_of_line(line):
    plain = masked(line)
    if plain.lstrip().startswith(("#", "/*", "*", "//", "static const char", "enum {")) or "/*" in plain:
        return
    for table in (COMPARISONS, OTHERS):
        for old, news in table.items():
            for match in re.finditer(re.escape(old) if old.startswith(" ") else rf"\b{old}\b", plain):
                for new in news:
                    yield line[:match.start()] + new + line[match.end():]
    for match in NUMBER.finditer(plain):
        value = match.group()
        yield line[:match.start()] + (str(int(value) + 1) if value.isdigit() else str(float(value) * 10)) + line[match.end():]
    if CALL.match(plain) and "return" not in plain:
        yield ""


def all_mutants(only):
    for folder in FOLDERS:
        for path in sorted((ROOT / "src" / folder).glob("*.c")):
            name = str(path.relative_to(ROOT))
            if only and only not in name:
                continue
            for number, line in enumerate(path.read_text(encoding="utf-8").split("\n")):
                for changed in mutants_of_line(line):
                    if changed != line:
                        yield name, number, line, changed


def run(words, folder, timeout):
    try:
        return subprocess.run(words, cwd=folder, capture_output=True, text=True, timeout=timeout, env={**os.environ, "CK_TIMEOUT_MULTIPLIER": "2"}).returncode
    except subprocess.TimeoutExpired:
        return 1  # one that never ends is noticed


def tests_notice(copy, folder="batch"):
    """Meson builds what a stage needs, and no more."""
    stages = STAGES + ((WAY_OUT,) if folder in OF_WAY_OUT else ())
    return any(run(["meson", "test", "-C", ".build", "--maxfail", "1", *stage], copy, 600) != 0 for stage in stages)


def explained():
    if not EXPLAINED.exists():
        return {}
    rows = (line.split(" | ") for line in EXPLAINED.read_text(encoding="utf-8").splitlines() if line and not line.startswith("#"))
    return {(path, old.strip(), new.strip()): why for path, old, new, why in rows}


def make_copy(folder):
    copy = Path(folder) / "copy"
    shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".build*", ".git", "out"), symlinks=True)
    (copy / "out").mkdir()
    for words in (["meson", "setup", ".build"], ["ninja", "-C", ".build"]):
        done = subprocess.run(words, cwd=copy, capture_output=True, text=True)
        if done.returncode:
            sys.exit(done.stdout[-2000:] + done.stderr[-2000:])
    if tests_notice(copy):
        log = (copy / ".build/meson-logs/testlog.txt").read_text(encoding="utf-8", errors="replace")
        sys.exit(f"the suites fail before anything is changed:\n{log[-3000:]}")
    return copy


def try_one(copy, mutant):
    """'noticed', 'survived' or None for what is no program."""
    path, number, _, changed = mutant
    file = copy / path
    before = file.read_text(encoding="utf-8")
    lines = before.split("\n")
    lines[number] = changed
    file.write_text("\n".join(lines), encoding="utf-8")
    try:
        layer = Path(path).parent
        if run(["ninja", "-C", ".build", f"{layer}/lib{layer.name}.a"], copy, 300) != 0:
            return None
        return "noticed" if tests_notice(copy, layer.name) else "survived"
    finally:
        file.write_text(before, encoding="utf-8")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--sample", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="")
    parser.add_argument("--least", type=float, default=0)
    parser.add_argument("--minutes", type=float, default=0, help="take no further mutant after so many minutes")
    parser.add_argument("--list", action="store_true")
    parser.add_argument("--progress", action="store_true", help="tell each mutant's end as it comes")
    options = parser.parse_args()
    mutants = list(all_mutants(options.only))
    if options.list:
        print(f"{len(mutants)} mutants of {len({m[0] for m in mutants})} files")
        return 0
    random.Random(options.seed).shuffle(mutants)
    known, noticed, survivors = explained(), 0, []
    with tempfile.TemporaryDirectory() as folder:
        copy = make_copy(folder)
        ends = time.monotonic() + options.minutes * 60
        for mutant in mutants:
            if noticed + len(survivors) >= options.sample or options.minutes and time.monotonic() > ends:
                break
            began = time.monotonic()
            fate = try_one(copy, mutant)
            noticed += fate == "noticed"
            if options.progress and fate:
                print(f"{noticed + len(survivors) + (fate == 'survived')}: {fate} after {time.monotonic() - began:.0f} s: {mutant[0]}:{mutant[1] + 1}",
                      file=sys.stderr, flush=True)
            if fate == "survived":
                path, number, line, changed = mutant
                why = known.get((path, line.strip(), changed.strip()))
                survivors.append((mutant, why))
                print(f"survived: {path}:{number + 1}: {line.strip()}  ->  {changed.strip() or '(dropped)'}{'  explained: ' + why if why else ''}", flush=True)
    unexplained = sum(why is None for _, why in survivors)
    share = 100 * noticed / max(1, noticed + unexplained)
    print(f"{noticed} noticed, {len(survivors)} survived, {len(survivors) - unexplained} of them explained: {share:.1f} %")
    return 0 if share >= options.least else 1


if __name__ == "__main__":
    sys.exit(main())
