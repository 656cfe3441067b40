#!/usr/bin/env python3
"""Sheets a second for one and two jobs, work a sheet (which a busy machine does not lengthen much) and peak memory as a
roster grows, in one run.

    packet.py PROGRAM [ROWS...]
"""
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(sys.argv[1]).resolve()
SIZES = [int(word) for word in sys.argv[2:]] or [1, 100, 1000, 10000]
SPECIES = ["leopard-gecko", "corn-snake", "crested-gecko", "ball-python"]


def measure(folder, rows, jobs):
    """Seconds, seconds of work, and the peak memory in MB of the process that started the others."""
    roster = folder / f"{rows}.csv"
    roster.write_text("name,species,mass\n" + "".join(f"Pet {i},{SPECIES[i % 4]},{50 + i % 100} g\n" for i in range(rows)))
    words = [sys.executable, "-I", "-S", ROOT / "tests/common/peak.py", PROGRAM, "packet", roster, "--drafts", "-o", folder / f"{rows}-{jobs}",
             "--jobs", jobs, "--today", "2026-03-18"]
    status, peak, seconds, work = subprocess.run([str(w) for w in words], check=True, capture_output=True, text=True).stdout.split()
    if int(status):
        sys.exit(f"packet ended with {status}")
    shutil.rmtree(folder / f"{rows}-{jobs}")
    return float(seconds), float(work), int(peak) / 1024


with tempfile.TemporaryDirectory() as folder:
    for rows in SIZES:
        for jobs in (1, 2):
            seconds, work, peak = measure(Path(folder), rows, jobs)
            print(f"{rows:6} rows, {jobs} job{'s' if jobs > 1 else ' '}: {seconds:8.2f} s, {rows / seconds:6.0f} sheets a second, "
                  f"{1000 * work / rows:5.2f} ms of work a sheet, peak {peak:5.1f} MB",
                  flush=True)
