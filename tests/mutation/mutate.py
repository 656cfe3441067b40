#!/usr/bin/env python3
"""How well the tests notice: changes the program's sources in one place after another, builds, runs the fast suites until one fails, and
prints the score and what survived.

    tests/mutation/mutate.py [--sample N] [--seed S] [--only PATH] [--minutes M] [--least PERCENT] [--list] [--progress]
                             [--longest S] [--folder FOLDER]

A mutant is one line with one change: a comparison turned, a bound moved, `&&` for `||`, a sign or a constant changed, a truth turned round, a
call dropped. Mutants that do not compile are no mutants. `explained.txt` beside this file lists survivors that change nothing anybody
could see: `path | the line as it stands | the line of the mutant | why`; a row whose line or mutant is there no more is an error. With --least the exit status is 1 below that
share of noticed ones, the explained ones left out.

Works on a copy, built twice: once with counts, to see which part of the suites reaches which line (reach.py), and once without, which is
changed. A mutant is shown to the parts that reach its line alone, the quickest first, until they have taken the seconds of --longest; one
that no part reaches has survived at once. What none of them notices is shown to the same parts under gcc's sanitizers (tests/memory), which
notice a step past an array's end and memory that is not given back. With --folder the copy and its map stay there for the next run of the same sources."""
import argparse
import os
import random
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import reach

ROOT = Path(__file__).resolve().parents[2]
EXPLAINED = Path(__file__).with_name("explained.txt")
FOLDERS = ("care", "records", "context", "signing", "render", "batch", "mail", "words", "print", "review")
SERVED = ["ninja", "-C", ".build", "tests/mutation/served"]
PROGRAMS = [*SERVED[:3], "page-fonts", "src/cli/baskleaf", "src/cli/baskleaf-more", "tests/write_plain", "tests/mutation/served"]
# No names for a debugger: what is built for one mutant is built fast.
PLAIN = ["meson", "setup", ".build", "-Ddebug=false", "-Doptimization=1"]
SANITIZED = ["meson", "setup", ".sanitized", "-Ddebug=false", "-Doptimization=1", "-Db_sanitize=address,undefined", "-Db_lundef=false"]
STOPPING = {"ASAN_OPTIONS": "detect_leaks=1", "UBSAN_OPTIONS": "halt_on_error=1"}
COUNTING = ["meson", "setup", ".counting", "-Ddebug=false", "-Doptimization=0", "-Db_coverage=true"]
UNREACHED = "no test reaches it"
COMPARISONS = {" < ": (" <= ", " > "), " <= ": (" < ", " >= "), " > ": (" >= ", " < "), " >= ": (" > ", " <= "), " == ": (" != ",), " != ": (" == ",)}
OTHERS = {" && ": (" || ",), " || ": (" && ",), " + ": (" - ",), " - ": (" + ",), " * ": (" / ",), "true": ("false",), "false": ("true",)}
# Not the exponent of 1e-9: what makes up for the last bit of a number may be ten times less.
# More room than is needed changes nothing, and of two that are equal either is the lesser: neither is a mutant.
ROOM = re.compile(r"\b(?:arena_take|ARENA_ARRAY)\((?:[^()]|\([^()]*\))*\)|^\s+(?:static )?(?:const )?(?:struct )?\w+ \*?\w+\[([^]=]+)\](?: = [^;]*)?;$")
EITHER = re.compile(r"([\w.>\[\] +*/-]+?) [<>] ([\w.>\[\]-]+) \? (?:\1 : \2|\2 : \1)(?![\w.(\[])")
NUMBER = re.compile(r"(?<![\w.\"%])(?<!\de-)(\d+(?:\.\d+)?)(?![\w.\"])")
CALL = re.compile(r"^\s+[a-z]\w*\([^;{}]*\);$")
WORDS = re.compile(r'"(?:[^"\\]|\\.)*"|\'(?:[^\'\\]|\\.)*\'')


def masked(line):
    """The line with its texts blanked, so that nothing in them is changed."""
    return WORDS.sub(lambda m: "\0" * len(m.group()), line)


def is_within(pattern, plain, match):
    """Does what was found lie in what the pattern finds (of an array, in its brackets)?"""
    spans = [found.span(1) if pattern is ROOM and found.group(1) else found.span() for found in pattern.finditer(plain)]
    return any(begin <= match.start() < end for begin, end in spans)


def mutants_of_line(line):
    plain = masked(line)
    if plain.lstrip().startswith(("#", "/*", "*", "//", "static const char", "enum {")) or "/*" in plain:
        return
    for table in (COMPARISONS, OTHERS):
        for old, news in table.items():
            for match in re.finditer(re.escape(old) if old.startswith(" ") else rf"\b{old}\b", plain):
                for new in news:
                    if not (new.endswith("= ") and is_within(EITHER, plain, match)):
                        yield line[:match.start()] + new + line[match.end():]
    for match in NUMBER.finditer(plain):
        value = match.group()
        if is_within(ROOM, plain, match):
            continue
        yield line[:match.start()] + (str(int(value) + 1) if value.isdigit() else str(float(value) * 10)) + line[match.end():]
    if CALL.match(plain) and "return" not in plain:
        yield ""


def all_mutants(only):
    for folder in FOLDERS:
        for path in sorted((ROOT / "src" / folder).glob("*.c")):
            name = str(path.relative_to(ROOT))
            if only and only not in name or name.endswith("_none.c"):  # that stands in for a library which is here: nothing compiles it
                continue
            for number, line in enumerate(path.read_text(encoding="utf-8").split("\n")):
                for changed in mutants_of_line(line):
                    if changed != line:
                        yield name, number, line, changed


def run(words, folder, timeout, **settings):
    """Status and what was printed."""
    try:
        done = subprocess.run(words, cwd=folder, capture_output=True, text=True, errors="replace", timeout=timeout,
                              env={**os.environ, "CK_TIMEOUT_MULTIPLIER": "2", **settings})
        return done.returncode, done.stdout + done.stderr
    except subprocess.TimeoutExpired:
        return 1, "does not come to an end"  # one that never ends is noticed


def chosen_parts(reached, path, number, text, longest):
    """The parts that a mutant of the line is shown to, and whether those are all that reach it."""
    found, chosen, seconds = reached.parts_at(path, number + 1, text), [], 0
    for name in found:
        seconds += reached.parts[name]["seconds"]
        if chosen and seconds > longest:
            break
        chosen.append(name)
    return chosen, len(chosen) == len(found)


def who_notices(copy, names, longest):
    """The part that fails and why, or None."""
    (copy / "parts").write_text("\n".join(names) + "\n", encoding="utf-8")
    for build, settings in ((".build", {}), (".sanitized", STOPPING)):
        if run([word.replace(".build", build) for word in SERVED], copy, 300)[0]:
            return "the sanitized program cannot be built"
        status, told = run([sys.executable, "tests/mutation/served_tests.py", build, "--parts", "parts"], copy, longest * 5 + 60, **settings)
        if status:
            return (told.strip().splitlines() or ["the program ends"])[-1]
    return None


def explained():
    if not EXPLAINED.exists():
        return {}
    rows = (line.split(" | ") for line in EXPLAINED.read_text(encoding="utf-8").splitlines() if line and not line.startswith("#"))
    return {(path, old.strip(), new.strip()): why for path, old, new, why in rows}


def stale(rows):
    """What is wrong with the rows that speak of a line or a mutant that the sources do not have."""
    for path, old, new in rows:
        lines = (ROOT / path).read_text(encoding="utf-8").split("\n") if (ROOT / path).exists() else []
        found = [line for line in lines if line.strip() == old]
        if not found:
            yield f"{path}: there is no line: {old}"
        elif new not in {changed.strip() for changed in mutants_of_line(found[0])}:
            yield f"{path}: is no mutant of its line: {new}"


def build_or_end(copy, *commands):
    for words in commands:
        done = subprocess.run(words, cwd=copy, capture_output=True, text=True)
        if done.returncode:
            sys.exit(done.stdout[-2000:] + done.stderr[-2000:])


def differing(copy):
    """Files of the sources that the copy has otherwise: what stands there changed would be noticed at each mutant."""
    return [str(path.relative_to(ROOT)) for path in sorted((ROOT / "src").rglob("*.[ch]"))
            if not (copy / path.relative_to(ROOT)).exists() or (copy / path.relative_to(ROOT)).read_bytes() != path.read_bytes()]


def make_copy(folder):
    """The copy and the map of it."""
    copy, found = Path(folder) / "copy", Path(folder) / "copy/.counting/reached.json"
    others = differing(copy) if copy.exists() else []
    if others:
        sys.exit("\n".join([f"{copy} is of other sources", *others]))
    if found.exists():
        return copy, reach.Map.read(found)
    if not copy.exists():
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".build*", ".git", "out"), symlinks=True)
        (copy / "out").mkdir()
    if not (copy / ".counting/build.ninja").exists():
        build_or_end(copy, COUNTING)
    build_or_end(copy, [word.replace(".build", ".counting") for word in PROGRAMS],
                 [sys.executable, "tests/mutation/served_tests.py", ".counting", "--map", found], PLAIN, PROGRAMS,
                 SANITIZED, [word.replace(".build", ".sanitized") for word in PROGRAMS])
    return copy, reach.Map.read(found)


def try_one(copy, reached, mutant, longest):
    """Who notices it and what is to be said of a survivor; None for what is no program."""
    path, number, _, changed = mutant
    file = copy / path
    before = file.read_text(encoding="utf-8")
    lines = before.split("\n")
    names, is_all = chosen_parts(reached, path, number, before, longest)
    lines[number] = changed
    file.write_text("\n".join(lines), encoding="utf-8")
    try:
        if run(SERVED, copy, 300)[0]:
            return None
        return who_notices(copy, names, longest) if names else None, "" if is_all and names else f"{len(names)} parts looked" if names else UNREACHED
    finally:
        file.write_text(before, encoding="utf-8")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--sample", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="")
    parser.add_argument("--least", type=float, default=0)
    parser.add_argument("--minutes", type=float, default=0, help="take no further mutant after so many minutes")
    parser.add_argument("--longest", type=float, default=60, help="seconds of tests that a mutant is shown at most")
    parser.add_argument("--folder", type=Path, help="keep the copy there for the next run")
    parser.add_argument("--list", action="store_true")
    parser.add_argument("--progress", action="store_true", help="tell each mutant's end as it comes")
    options = parser.parse_args()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit("ended"))  # what is changed is changed back
    mutants = list(all_mutants(options.only))
    if options.list:
        print(f"{len(mutants)} mutants of {len({m[0] for m in mutants})} files")
        return 0
    random.Random(options.seed).shuffle(mutants)
    known, noticed, survivors = explained(), 0, []
    wrong = list(stale(known))
    if wrong:
        sys.exit("\n".join([f"{EXPLAINED.name} is out of date", *wrong]))
    with tempfile.TemporaryDirectory() as folder:
        copy, reached = make_copy(options.folder or folder)
        ends = time.monotonic() + options.minutes * 60
        for mutant in mutants:
            if noticed + len(survivors) >= options.sample or options.minutes and time.monotonic() > ends:
                break
            began = time.monotonic()
            found = try_one(copy, reached, mutant, options.longest)
            if found is None:
                continue
            (who, remark), (path, number, line, changed) = found, mutant
            noticed += bool(who)
            if not who:
                why = known.get((path, line.strip(), changed.strip()))
                survivors.append((mutant, why))
                print(f"survived: {path}:{number + 1}: {line.strip()}  ->  {changed.strip() or '(dropped)'}"
                      f"{'  (' + remark + ')' if remark else ''}{'  explained: ' + why if why else ''}", flush=True)
            if options.progress:
                print(f"{noticed + len(survivors)}: {'noticed by ' + who if who else 'survived'} after {time.monotonic() - began:.0f} s: {path}:{number + 1}",
                      file=sys.stderr, flush=True)
    unexplained = sum(why is None for _, why in survivors)
    share = 100 * noticed / max(1, noticed + unexplained)
    print(f"{noticed} noticed, {len(survivors)} survived, {len(survivors) - unexplained} of them explained: {share:.1f} %")
    return 0 if share >= options.least else 1


if __name__ == "__main__":
    sys.exit(main())
