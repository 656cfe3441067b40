#!/usr/bin/env python3
"""A logger's file of many rows, explained: seconds, rows a second, and peak memory beside that of a file of a thousand rows. It must not grow
by more than two megabytes.

    logger.py PROGRAM [ROWS]
"""
import json
import subprocess
import sys
import tempfile
from datetime import datetime, timedelta
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(sys.argv[1]).resolve()
ROWS = int(sys.argv[2]) if len(sys.argv) > 2 else 10_000_000
LAST, AT_ONCE, GROWS_MOST_MB = datetime(2026, 3, 14, 12), 100_000, 2


def write(path, rows):
    """Three seconds apart, up to the day of the visit: never in memory as a whole."""
    with path.open("w") as out:
        out.write("Time,T1 Temperature (C),T2 Temperature (C)\n")
        for start in range(0, rows, AT_ONCE):
            out.writelines(f"{LAST - timedelta(seconds=3 * (rows - i))},{24 + i % 50 / 10},{20 + i % 40 / 10}\n" for i in range(start, min(start + AT_ONCE, rows)))


def measure(folder, rows):
    write(folder / "log.csv", rows)
    (folder / "visit.yaml").write_text(json.dumps({
        "visit": {"date": "2026-03-14", "kind": "checkout"}, "patient": {"name": "Biscuit", "species": "ball-python"},
        "enclosure": {"readings": {"log": {"file": "log.csv", "probes": {"T1": "warm-side", "T2": "cool-side"}}}}}))
    words = [sys.executable, "-I", "-S", ROOT / "tests/common/peak.py", PROGRAM, "explain", folder / "visit.yaml", "--today", "2026-03-14"]
    status, peak, seconds, _ = subprocess.run([str(w) for w in words], check=True, capture_output=True, text=True, cwd=ROOT).stdout.split()
    if int(status):
        sys.exit(f"explain ended with {status}")
    return int(peak) / 1024, float(seconds)


with tempfile.TemporaryDirectory() as folder:
    few, _ = measure(Path(folder), 1000)
    many, seconds = measure(Path(folder), ROWS)
    print(f"{ROWS} rows: {seconds:.2f} s, {ROWS / seconds:.0f} rows a second, peak {many:.1f} MB; a thousand rows: {few:.1f} MB")
    if many > few + GROWS_MOST_MB:
        sys.exit("the memory grows with the rows")
