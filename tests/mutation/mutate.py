#!/usr/bin/env python3
"""How well the tests notice: changes the program's sources in one place after another, builds, runs the fast suites until one fails, and
prints the score and what survived.

    tests/mutation/mutate.py [--sample N] [--seed S] [--only PATH] [--minutes M] [--least PERCENT] [--list] [--progress]

A mutant is one line with one change: a comparison turned, a bound moved, `&&` for `||`, a sign or a constant changed, a truth turned round, a
call dropped. Mutants that do not compile are no mutants. `explained.txt` beside this file lists survivors that change nothing anybody
could see: `path | the line as it stands | the line of the mutant | why`. With --least the exit status is 1 below that
share of noticed ones, the explained ones left out. Works on a copy. A mutant that is noticed takes some seconds, most of them less than ten;
one that survives sees every suite of `served_tests.py`, a minute or two."""
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
# What is not among those of served_tests.py, and what looks at the way out of the program alone, for mutants of that way.
FURTHER = ("readability", "french", "opening_words")
WAY_OUT = ("mail", "joined", "packet")
OF_WAY_OUT = ("context", "signing", "render", "batch", "mail")
BUILD = ["ninja", "-C", ".build", "src/cli/baskleaf", "src/cli/baskleaf-more", "tests/mutation/served", "tests/write_plain", "program"]
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
    """Status and what was printed."""
    try:
        done = subprocess.run(words, cwd=folder, capture_output=True, text=True, errors="replace", timeout=timeout, env={**os.environ, "CK_TIMEOUT_MULTIPLIER": "2"})
        return done.returncode, done.stdout + done.stderr
    except subprocess.TimeoutExpired:
        return 1, "does not come to an end"  # one that never ends is noticed


def who_notices(copy, path="src/batch/packet.c"):
    """The test that fails, or None. Most mutants meet their end in the suites that share one process with the program."""
    status, told = run([sys.executable, "tests/mutation/served_tests.py", ".build"], copy, 1200)
    if status:
        return (told.strip().splitlines() or ["the program ends"])[-1]
    stage = FURTHER + (WAY_OUT if Path(path).parent.name in OF_WAY_OUT or "roster" in path else ())
    status, told = run(["meson", "test", "-C", ".build", "--maxfail", "1", *stage], copy, 900)
    return next((line.strip() for line in told.splitlines() if re.search(r"FAIL|ERROR|TIMEOUT", line)), "meson") if status else None


def explained():
    if not EXPLAINED.exists():
        return {}
    rows = (line.split(" | ") for line in EXPLAINED.read_text(encoding="utf-8").splitlines() if line and not line.startswith("#"))
    return {(path, old.strip(), new.strip()): why for path, old, new, why in rows}


def make_copy(folder):
    copy = Path(folder) / "copy"
    shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".build*", ".git", "out"), symlinks=True)
    (copy / "out").mkdir()
    for words in (["meson", "setup", ".build"], BUILD):
        done = subprocess.run(words, cwd=copy, capture_output=True, text=True)
        if done.returncode:
            sys.exit(done.stdout[-2000:] + done.stderr[-2000:])
    failed = who_notices(copy)
    if failed:
        sys.exit(f"the suites fail before anything is changed: {failed}")
    return copy


def try_one(copy, mutant):
    """Who notices it; "" when it survives, None for what is no program."""
    path, number, _, changed = mutant
    file = copy / path
    before = file.read_text(encoding="utf-8")
    lines = before.split("\n")
    lines[number] = changed
    file.write_text("\n".join(lines), encoding="utf-8")
    try:
        return None if run(BUILD, copy, 300)[0] else who_notices(copy, path) or ""
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
            who = try_one(copy, mutant)
            noticed += bool(who)
            if options.progress and who is not None:
                print(f"{noticed + len(survivors) + (not who)}: {'noticed by ' + who if who else 'survived'} after {time.monotonic() - began:.0f} s: {mutant[0]}:{mutant[1] + 1}",
                      file=sys.stderr, flush=True)
            if who == "":
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
