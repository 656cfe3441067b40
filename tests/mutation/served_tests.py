#!/usr/bin/env python3
"""The fast suites in one process, against the program in another (served.c): the same tests as `meson test`, in the order in which they
notice most a second. Ends at the first that fails and names it; status 0 when nothing does.

    tests/mutation/served_tests.py BUILD-FOLDER [--times]

A run of the program or of write_plain that a test asks for is handed to the server; any other goes its own way. What copies the data and
takes something out of it tries the tests and not the program: it is left out here."""
import importlib
import os
import resource
import select
import subprocess
import sys
import tempfile
import threading
import time
import unittest
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "tests" / folder) for folder in ("sheet", "program", "harm", "common")]
REAL_RUN = subprocess.run
LONGEST_S = 60
MEMORY_BYTES = 2 << 30  # a mutant may ask for memory without end
UNITS = ("visit", "species", "species_published", "opening", "log", "spreadsheet", "stored", "signs_words",
         "body", "action_order", "heat", "temperature", "ultraviolet", "uvb_lamp", "uvb_plan", "uvb_zones", "lying", "humidity_plan", "moist_air", "water",
         "daylight", "opening_days", "plural", "slots", "units", "date", "text", "tree")
# Suites, and of some the tests alone that look at the program as it is.
SUITES = (
    ("test_epoch", None), ("test_called", ["Called.test_what_is_called_for_holds"]), ("test_settled", ["Settled.test_what_is_settled_is_what_was_written_down"]),
    ("test_found", ["Found.test_what_is_called_for_holds"]), ("test_cases", ["Cases"]), ("test_explain", ["Explain"]),
    ("test_diet", None), ("test_food_rules", None), ("test_winter", None), ("test_since", None), ("test_aftercare", None), ("test_feeding", None),
    ("test_slips", None), ("test_medicines", None), ("test_dates", None), ("test_sign", None), ("test_overwrite", None), ("test_edges", None),
    ("test_hand", None), ("test_passed", None), ("test_order", None), ("test_logger", None), ("test_harm", None),
    ("test_folder", ["Folder.test_each_fault_is_told_with_its_place"]), ("test_unlisted", None),
)


class Server:
    def __init__(self, path):
        self.folder = tempfile.TemporaryDirectory(dir="/dev/shm" if os.access("/dev/shm", os.W_OK) else None)
        self.files = [f"{self.folder.name}/{name}" for name in ("in", "out", "err")]
        self.one_at_a_time = threading.Lock()
        self.process = subprocess.Popen([path], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                                        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES)))

    def run(self, *request):
        with self.one_at_a_time:
            return self.run_alone(*request)

    def run_alone(self, words, given, cwd, settings, timeout):
        Path(self.files[0]).write_bytes(given)
        fields = [os.path.abspath(cwd or "."), *self.files, *(f"{name}={value}" for name, value in settings.items()), "", *map(str, words)]
        request = b"".join(os.fsencode(field) + b"\0" for field in fields)
        try:
            self.process.stdin.write(b"%d\n" % len(request) + request)
            self.process.stdin.flush()
            ready, _, _ = select.select([self.process.stdout], [], [], timeout or LONGEST_S)
            answer = self.process.stdout.readline() if ready else b""
        except BrokenPipeError:
            answer = b""
        if not answer:
            raise SystemExit("the program does not come to an end")
        return int(answer), *(Path(path).read_bytes() for path in self.files[1:])


def served_run(server, names):
    """subprocess.run that hands the programs of `names` to the server."""
    def settings_of(env):
        """What is set otherwise than here; None when something is missing there."""
        if env is None:
            return {}
        return None if set(os.environ) - set(env) else {name: value for name, value in env.items() if os.environ.get(name) != value}

    def run(words, *, input=None, capture_output=False, text=None, cwd=None, env=None, timeout=None, check=False, **more):
        name, settings = names.get(str(words[0])) if isinstance(words, (list, tuple)) else None, settings_of(env)
        if name is None or settings is None or not capture_output or more:
            return REAL_RUN(words, input=input, capture_output=capture_output, text=text, cwd=cwd, env=env, timeout=timeout, check=check, **more)
        given = input.encode() if isinstance(input, str) else input or b""
        status, out, err = server.run([name, *words[1:]], given, cwd, settings, timeout)
        done = subprocess.CompletedProcess(words, status, *((out.decode(), err.decode()) if text else (out, err)))
        if check:
            done.check_returncode()
        return done
    return run


def failed_unit(server, name):
    status, out, err = server.run([name], b"", ROOT, {}, None)
    lines = out.decode(errors="replace").splitlines()
    bad = [line for line in lines if line.startswith("not ok")]
    return (bad[0] if bad else f"status {status}: {err.decode(errors='replace')[-300:]}") if bad or status or not lines else None


def failed_suite(module, chosen):
    loader = unittest.TestLoader()
    tests = loader.loadTestsFromNames(chosen, module) if chosen else loader.loadTestsFromModule(module)
    result = unittest.TestResult()
    result.failfast = True
    tests.run(result)
    if not result.testsRun:
        return "no test ran"
    for test, why in result.failures + result.errors:
        return f"{test.id()}: {why.strip().splitlines()[-1][:200]}"
    return None


def parts(server):
    """Each thing to ask: its name and what gives why it failed, or None."""
    for name in UNITS:
        yield name, lambda name=name: failed_unit(server, name)
    for name, chosen in SUITES:
        yield name, lambda name=name, chosen=chosen: failed_suite(importlib.import_module(name), chosen)


def main():
    build = Path(sys.argv[1]).resolve()
    shows = "--times" in sys.argv
    program, write_plain = build / "src/cli/baskleaf", build / "tests/write_plain"
    os.environ["XDG_CONFIG_HOME"] = str(ROOT / "tests/common/config")
    os.environ["CK_TIMEOUT_MULTIPLIER"] = "2"
    sys.argv[1:] = [str(program), str(write_plain)]
    server = Server(build / "tests/mutation/served")
    subprocess.run = served_run(server, {str(program): "program", str(write_plain): "write_plain"})
    for name, ask in parts(server):
        began = time.monotonic()
        why = ask()
        if shows:
            print(f"{name} {time.monotonic() - began:.2f} s", flush=True)
        if why:
            print(f"{name}: {why}")
            return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
