#!/usr/bin/env python3
"""Sheets a second for one and two jobs, then time and peak memory as a roster grows, in one run.

    packet.py PROGRAM [ROWS...]
"""
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
SIZES = [int(word) for word in sys.argv[2:]] or [1, 100, 1000, 10000]
SPECIES = ["leopard-gecko", "corn-snake", "crested-gecko", "ball-python"]


def measure(folder, rows, jobs):
    """Seconds, and the peak memory in MB of the process that started the others."""
    roster = folder / f"{rows}.csv"
    roster.write_text("name,species,mass\n" + "".join(f"Pet {i},{SPECIES[i % 4]},{50 + i % 100} g\n" for i in range(rows)))
    start = time.perf_counter()
    run = subprocess.Popen([PROGRAM, "packet", roster, "--drafts", "-o", folder / f"{rows}-{jobs}", "--jobs", str(jobs),
                            "--today", "2026-03-18"], stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(run.pid, 0)
    if status:
        sys.exit(f"packet ended with {status}")
    return time.perf_counter() - start, usage.ru_maxrss / 1024


with tempfile.TemporaryDirectory() as folder:
    for rows in SIZES:
        for jobs in (1, 2):
            seconds, peak = measure(Path(folder), rows, jobs)
            print(f"{rows:6} rows, {jobs} job{'s' if jobs > 1 else ' '}: {seconds:8.2f} s, {rows / seconds:6.0f} sheets a second, peak {peak:5.1f} MB",
                  flush=True)
