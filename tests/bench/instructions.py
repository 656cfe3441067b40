#!/usr/bin/env python3
"""The instructions of a sheet beside those of a bare libharu program that draws the same operations: they do not wander with
what else the machine does, so a change of some percent is seen. Warm: what two further sheets cost a process that made one.
Cold: a whole process to standard output. Needs valgrind, whose count leaves out the kernel's work.

    instructions.py PROGRAM BENCH_SHEET BARE_SHEET FONTS-FOLDER [VISIT ...]
"""
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM, BENCH, BARE, FONTS = (Path(word).resolve() for word in sys.argv[1:5])
VISITS = [Path(word).resolve() for word in sys.argv[5:]] or sorted((ROOT / "templates/visits").glob("*.yaml"))
DAY = "2026-11-30"


def instructions(*words):
    counter = ["valgrind", "--tool=cachegrind", "--cache-sim=no", "--cachegrind-out-file=/dev/null"]
    run = subprocess.run(counter + [str(word) for word in words], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, cwd=ROOT)
    assert run.returncode == 0, (words, run.returncode, run.stderr.decode())
    return int(re.search(r"I\s+refs:\s+([0-9,]+)", run.stderr.decode()).group(1).replace(",", ""))


def warm(visit, what):
    return (instructions(BENCH, ROOT, visit, what, 3) - instructions(BENCH, ROOT, visit, what, 1)) / 2


def told(name, ours, bare):
    return f"{name} {ours / 1e6:.2f} million, bare libharu {bare / 1e6:.2f}, ratio {ours / bare:.2f}"


def compare(visit, folder):
    operations = folder / "operations"
    subprocess.run([BENCH, ROOT, visit, operations], check=True, stderr=subprocess.DEVNULL, cwd=ROOT)
    ours = instructions(PROGRAM, "sheet", visit, "-o", "-", "--today", DAY, "--drafts")
    bare = instructions(BARE, operations, FONTS, "/dev/stdout")
    print(f"{visit.stem}: {told('warm', warm(visit, 'ours'), warm(visit, 'bare'))}; {told('cold', ours, bare)}", flush=True)


if not shutil.which("valgrind"):
    sys.exit("valgrind is not installed")
with tempfile.TemporaryDirectory() as name:
    for one in VISITS:
        compare(one, Path(name))
