#!/usr/bin/env python3
"""Every call that can fail is made to fail in turn: a clean error with exit status 3, nothing
half-written, the old file untouched. `--all` tries each allocation instead of a sample."""
import os
import shutil
import subprocess
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
# LD_PRELOAD takes spaces and colons for ends of names: the library stands where there are none
PRELOADED = tempfile.TemporaryDirectory()
INTERPOSER = Path(shutil.copy(sys.argv[2], PRELOADED.name))
EVERY_ONE = "--all" in sys.argv
ROOT = Path(__file__).resolve().parents[2]
VISIT = ROOT / "templates/visits/ember-bearded-dragon.yaml"
CALLS = ("write", "fsync", "rename", "read", "open", "close", "alloc")
# Calls whose failing may go unnoticed: the folder's own opening and fsync after the rename (the last of their kind; some file
# systems refuse them and the new file stands all the same), and closing a file that was only read.
LAST_IS_A_COURTESY = {"fsync", "open"}
OLD = b"an older sheet"
# command: (words, writes a file named here)
RUNS = {
    "sheet": (["sheet", str(VISIT), "--today", "2026-03-16", "--replace", "-o"], True),
    "sheet to standard output": (["sheet", str(VISIT), "--today", "2026-03-16", "-o", "-"], False),
    "explain": (["explain", str(VISIT), "--today", "2026-03-16", "--json"], False),
    "check": (["check", str(VISIT), "--today", "2026-03-16"], False),
    "start": (["start", "ball-python", "--today", "2026-03-16", "--replace", "-o"], True),
    "approve": (["approve", "--today", "2026-03-16", "--by", "Dr. I. Marsh"], True),
    "dates": (["dates", str(VISIT), "--today", "2026-03-16", "--replace", "-o"], True),
    "mail": (["mail", str(VISIT), "--today", "2026-03-16", "--drafts", "--replace", "-o"], True),
}
# libical 3 uses memory that it was refused and is then stopped by the system: an end without words, but with nothing written
STOPPED = {"dates": -11, "mail": -11}
# what stands there before: the record itself where that is what is written
BEFORE = {"approve": VISIT.read_bytes()}


def run(name, folder, **environment):
    words, writes = RUNS[name]
    target = folder / "result"
    if writes:
        target.write_bytes(BEFORE.get(name, OLD))
        words = words + [str(target)]
    # the data is named, because a lost note of where it lies is made up for by looking beside the program
    done = subprocess.run([PROGRAM, words[0], "--data", ROOT, *words[1:]], capture_output=True, cwd=ROOT, timeout=60,
                          env={"PATH": os.environ["PATH"], "XDG_CONFIG_HOME": str(ROOT / "tests/common/config"), "LD_PRELOAD": str(INTERPOSER), **environment})
    left = sorted(p.name for p in folder.iterdir())
    return done, (target.read_bytes() if writes else done.stdout), left


class Faults(unittest.TestCase):
    maxDiff = None

    def count(self, name):
        with tempfile.TemporaryDirectory() as folder:
            counts = Path(folder) / "counts"
            work = Path(folder) / "work"
            work.mkdir()
            done, result, _ = run(name, work, FAULT_COUNT=str(counts))
            self.assertEqual(done.returncode, 0, done.stderr.decode())
            return {a: int(b) for a, b in (line.split() for line in counts.read_text().splitlines())}, result

    def one(self, name, call, at, total, whole, every):
        with tempfile.TemporaryDirectory() as folder:
            extra = {"FAULT_EVERY": "1"} if every else {}
            done, result, left = run(name, Path(folder), FAULT_CALL=call, FAULT_AT=str(at), **extra)
        what = f"{name}: {call} {at}{' and on' if every else ''}: {done.returncode} {done.stderr.decode(errors='replace')[:300]}"
        writes = RUNS[name][1]
        if done.returncode == 0:
            is_courtesy = call == "close" or (call in LAST_IS_A_COURTESY and at == total and RUNS[name][1])
            if not is_courtesy:
                return f"{what}: a failed call went unnoticed"
            if result != whole:
                return f"{what}: reported well, but the result differs"
        elif call == "alloc" and done.returncode == STOPPED.get(name) and result == OLD and left == ["result"]:
            return None
        elif done.returncode != 3:
            return f"{what}: exit status 3 is the environment's"
        elif not done.stderr.strip():
            return f"{what}: nothing was said"
        elif writes and result not in (BEFORE.get(name, OLD), whole):
            return f"{what}: a half-written file"
        if [n for n in left if n != "result"]:
            return f"{what}: left behind {left}"
        return None

    def all_of(self, name):
        counts, whole = self.count(name)
        tries = []
        for call in CALLS:
            total = counts[call]
            points = list(range(1, total + 1))
            if call == "alloc" and not EVERY_ONE:
                points = sorted(set(points[:20] + points[::max(1, total // 60)] + points[-10:]))
            tries += [(call, at, total, every) for at in points for every in ((False, True) if call != "alloc" else (True,))]
        with ThreadPoolExecutor(2) as pool:
            faults = [f for f in pool.map(lambda t: self.one(name, t[0], t[1], t[2], whole, t[3]), tries) if f]
        print(f"{name}: {len(tries)} failed calls", file=sys.stderr)
        self.assertEqual(faults[:10], [])


# three rows: enough for every kind of call, and short
ROSTER = "roster: {kind: checkout}\nanimals:\n" + "".join(
    f"  - {{id: a{i}, name: Animal {i}, species: leopard-gecko, mass: {50 + i} g}}\n" for i in range(3))


class Packet(unittest.TestCase):
    """Whatever fails, each sheet that stands is whole, and --resume makes the rest."""

    def packet(self, folder, *words, **environment):
        (folder / "names.yaml").write_text(ROSTER)
        done = subprocess.run([PROGRAM, "packet", folder / "names.yaml", "--drafts", "--replace", "-o", folder / "out", "--today", "2026-03-16", *words],
                              capture_output=True, cwd=ROOT, timeout=60, env={"PATH": os.environ["PATH"], "XDG_CONFIG_HOME": str(ROOT / "tests/common/config"), "LD_PRELOAD": str(INTERPOSER), **environment})
        out = folder / "out"
        return done, {p.name: p.read_bytes() for p in out.iterdir() if p.name != ".roster"} if out.exists() else {}

    def one(self, call, at, whole, every):
        what = f"{call} {at}{' and on' if every else ''}"
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            done, files = self.packet(folder, FAULT_CALL=call, FAULT_AT=str(at), **({"FAULT_EVERY": "1"} if every else {}))
            what += f": {done.returncode} {done.stderr.decode(errors='replace')[:200]}"
            wrong = [n for n, data in files.items() if n.endswith((".pdf", "manifest.csv")) and not n.startswith(".") and data != whole.get(n)]
            if done.returncode not in (0, 3) or (done.returncode == 3 and not done.stderr.strip()):
                return f"{what}: exit status 3 with a word is the environment's"
            if wrong:
                return f"{what}: not whole: {wrong}"
            if done.returncode == 0 and files != whole:
                return f"{what}: reported well, but the result differs"
            done, files = self.packet(folder, "--resume")
            if done.returncode != 0 or {n: d for n, d in files.items() if not n.startswith(".")} != whole:
                return f"{what}: --resume does not mend it: {done.returncode} {done.stderr.decode(errors='replace')[:200]} {sorted(files)}"
        return None

    def test_packet(self):
        with tempfile.TemporaryDirectory() as name:
            counts = Path(name) / "counts"
            done, whole = self.packet(Path(name), FAULT_COUNT=str(counts))
            self.assertEqual(done.returncode, 0, done.stderr.decode())
            self.assertEqual(len(whole), 4)
            totals = {a: int(b) for a, b in (line.split() for line in counts.read_text().splitlines())}
        tries = []
        for call in CALLS:
            total = totals[call]
            points = list(range(1, total + 1))
            if call == "alloc" and not EVERY_ONE:
                points = sorted(set(points[:10] + points[::max(1, total // 40)] + points[-10:]))
            tries += [(call, at, every) for at in points for every in ((False, True) if call != "alloc" else (True,))]
        with ThreadPoolExecutor(2) as pool:
            faults = [f for f in pool.map(lambda t: self.one(t[0], t[1], whole, t[2]), tries) if f]
        print(f"packet: {len(tries)} failed calls", file=sys.stderr)
        self.assertEqual(faults[:10], [])


for each in RUNS:
    setattr(Faults, "test_" + each.replace(" ", "_"), lambda self, each=each: self.all_of(each))

if __name__ == "__main__":
    if os.environ.get("BASKLEAF_SANITIZED"):
        print("skipped: the sanitizers bring their own allocator, which cannot be made to fail from outside")
        sys.exit(77)
    unittest.main(argv=sys.argv[:1] + [a for a in sys.argv[3:] if a.startswith(("Faults.", "Packet."))], verbosity=2)
