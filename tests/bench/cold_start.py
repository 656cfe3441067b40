#!/usr/bin/env python3
"""The processor's time (user and system, so other work on the machine does not count) of a sheet to standard output from a
cold process and a warm cache beside a bare libharu program that draws the same operations with the same small fonts. Runs
alternate; middles of the times and the middle of the ratios. A sheet written to a file is also made durable (fsync of the file
and its folder), which the bare program does not do.

    cold_start.py PROGRAM BENCH_SHEET BARE_SHEET FONTS-FOLDER
"""
import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM, BENCH, BARE, FONTS = (Path(word).resolve() for word in sys.argv[1:5])
RUNS = 60
DAY = "2026-11-30"


def milliseconds(*words):
    process = subprocess.Popen([str(word) for word in words], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=ROOT)
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0, (words, process.returncode)
    return (used.ru_utime + used.ru_stime) * 1000


def compare(visit, folder):
    operations = folder / "operations"
    subprocess.run([BENCH, ROOT, visit, operations], check=True, stderr=subprocess.DEVNULL, cwd=ROOT)
    ours, bare = [], []
    for _ in range(RUNS):
        ours.append(milliseconds(PROGRAM, "sheet", visit, "-o", "-", "--today", DAY))
        bare.append(milliseconds(BARE, operations, FONTS, "/dev/stdout"))
    ratio = statistics.median(a / b for a, b in zip(ours, bare))
    print(f"{visit.stem}: {statistics.median(ours):.1f} ms, bare libharu {statistics.median(bare):.1f} ms, ratio {ratio:.2f}", flush=True)


with tempfile.TemporaryDirectory() as name:
    for visit in sorted((ROOT / "templates/visits").glob("*.yaml")):
        compare(visit, Path(name))
print(f"an empty process: {statistics.median(milliseconds('true') for _ in range(RUNS)):.1f} ms")
