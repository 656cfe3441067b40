#!/usr/bin/env python3
"""Wall time of the example sheet from a cold process and a warm cache: the middle and the best of 50 runs, and the time
of a process that does nothing beside it."""
import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = Path(sys.argv[1]).resolve()


def milliseconds(*words):
    times = []
    for _ in range(50):
        start = time.perf_counter()
        subprocess.run([str(w) for w in words], check=True, stdout=subprocess.DEVNULL, cwd=ROOT)
        times.append((time.perf_counter() - start) * 1000)
    return statistics.median(times), min(times)


for name, words in {"example sheet": (PROGRAM, "sheet", "templates/visits/biscuit-ball-python.yaml", "-o", "-"),
                    "explain --json": (PROGRAM, "explain", "--json", "templates/visits/biscuit-ball-python.yaml"),
                    "an empty process": ("true",)}.items():
    middle, best = milliseconds(*words)
    print(f"{name}: {middle:.1f} ms (best {best:.1f} ms)")
