#!/usr/bin/env python3
"""The fast suites in one process, against the program in another (served.c): the same tests as `meson test`, in the order in which they
notice most a second. Ends at the first that fails and names it; status 0 when nothing does.

    tests/mutation/served_tests.py BUILD-FOLDER [--times] [--parts FILE] [--map FILE]

A run of the program or of write_plain that a test asks for is handed to the server; any other goes its own way, after what it runs is built
anew. What copies the data and takes something out of it tries the tests and not the program: it is left out here. With --parts only those
that the file names, a line each, in its order. With --map, in a build that counts, all of them, and what each reaches is written (reach.py)."""
import argparse
import ast
import importlib
import json
import os
import resource
import select
import signal
import subprocess
import sys
import tempfile
import threading
import time
import unittest
from pathlib import Path

import reach

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "tests" / folder) for folder in ("sheet", "program", "harm", "common")]
REAL_RUN = subprocess.run
LONGEST_S = 60
# A mutant may ask for memory without end; the sanitizers' own book of it is larger than any limit.
MEMORY_BYTES = resource.RLIM_INFINITY if "ASAN_OPTIONS" in os.environ else 2 << 30
UNITS = ("visit", "species", "species_published", "opening", "log", "roster_cells", "spreadsheet", "fits", "mail_address", "stored", "signs_words",
         "body", "action_order", "heat", "temperature", "ultraviolet", "uvb_lamp", "uvb_plan", "uvb_zones", "lying", "humidity_plan", "moist_air",
         "water", "daylight", "opening_days", "meals", "given_diet", "powders", "feeding_plan", "days", "growth", "foods", "food_change",
         "plausible", "own_targets", "rule_match", "mix_insects", "uvb_place", "mended", "aftercare", "home", "plural", "format", "slots", "units", "date", "text", "tree", "french",
         "opening_words", "readability", "species_checks", "formats", "findings", "topics", "instructions", "sheet_template", "log_cells", "roster", "since",
         "values", "drawable", "settle", "winter_rest", "decisions", "warnings", "actions", "sources", "log_plan", "catalogue", "message", "printer", "signature", "written_values", "take_over", "render", "page_one", "openings",
         "printed_instructions", "review_list", "resources", "value_uses", "own_sheet", "allowed_texts", "stances", "plan_dates", "plan_medicines", "finding_list", "whom_fits", "visit_limits", "glossary", "sound", "headline", "action_steps", "actions_decided", "winter_calls", "sheet_context", "packet_rows", "shipped", "shipped_words")
# Suites, and of some the tests alone that look at the program as it is.
SUITES = (
    ("test_epoch", None), ("test_required", None), ("test_called", ["Called.test_what_is_called_for_holds"]), ("test_settled", ["Settled.test_what_is_settled_is_what_was_written_down"]),
    ("test_found", ["Found.test_what_is_called_for_holds"]), ("test_cases", ["Cases"]), ("test_explain", ["Explain"]),
    ("test_diet", None), ("test_food_rules", None), ("test_winter", None), ("test_since", None), ("test_aftercare", None), ("test_feeding", None),
    ("test_slips", None), ("test_medicines", None), ("test_dates", None), ("test_sign", None), ("test_overwrite", None), ("test_edges", None),
    ("test_hand", None), ("test_passed", None), ("test_order", None), ("test_logger", None), ("test_harm", None),
    ("test_folder", ["Folder.test_a_language_outside_the_folder", "Folder.test_each_fault_is_told_with_its_place"]), ("test_unlisted", None), ("test_joined", None),
    # the others of these two ask for further fonts, which the served program does not load: a class that fails by itself is left out whole
    ("test_mail", ["Message.test_all_of_it_is_there", "Message.test_heads_cannot_be_smuggled_in",
                   "Message.test_without_an_address_there_is_no_message", "Message.test_what_is_under_a_password_is_told_nowhere_else", "Message.test_drafts_stay_here", "Message.test_the_same_message_has_the_same_id",
                   "Letter", "Send"]),
    ("test_page_room", None), ("test_review", None), ("test_packet", ["Yaml", "Csv", "Divided", "Changed"]),  # the others wait for what they kill
)
FOLDERS = ("care", "records", "context", "signing", "render", "batch", "mail", "words", "print", "review")  # those of mutate.py


class Server:
    def __init__(self, path):
        self.folder = tempfile.TemporaryDirectory(dir="/dev/shm" if os.access("/dev/shm", os.W_OK) else None)
        self.files = [f"{self.folder.name}/{name}" for name in ("in", "out", "err")]
        self.one_at_a_time = threading.Lock()
        self.process = subprocess.Popen([path], stdin=subprocess.PIPE, stdout=subprocess.PIPE, start_new_session=True,
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
            os.killpg(self.process.pid, signal.SIGKILL)  # and what it runs, which may never end
            raise SystemExit("the program does not come to an end")
        return int(answer), *(Path(path).read_bytes() for path in self.files[1:])


class Programs:
    """The programs as files, built when the first test asks for one: a mutant that the server shows to be noticed needs none."""

    def __init__(self, build):
        self.build = build
        self.is_built = False

    def need(self, word):
        if not self.is_built and str(word).startswith(f"{self.build}/"):
            self.is_built = True
            REAL_RUN(["ninja", "-C", str(self.build), "src/cli/baskleaf", "src/cli/baskleaf-more", "tests/write_plain"], capture_output=True, check=True)


def served_run(server, names, programs):
    """subprocess.run that hands the programs of `names` to the server."""
    def settings_of(env):
        """What is set otherwise than here; None when something is missing there."""
        if env is None:
            return {}
        return None if set(os.environ) - set(env) else {name: value for name, value in env.items() if os.environ.get(name) != value}

    def run(words, *, input=None, capture_output=False, text=None, cwd=None, env=None, timeout=None, check=False, **more):
        name, settings = names.get(str(words[0])) if isinstance(words, (list, tuple)) else None, settings_of(env)
        if name is None or settings is None or not capture_output or more:
            for word in words if isinstance(words, (list, tuple)) else ():
                programs.need(word)
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


def imported(name, words):
    """The module, told the words of the command: some take theirs out of the list."""
    sys.argv[1:] = words
    return importlib.import_module(name)


def classes_of(name):
    """The classes of a suite that have tests, unread: importing one may take seconds."""
    path = next(path for path in (Path(folder) / f"{name}.py" for folder in sys.path) if path.exists())
    return [node.name for node in ast.parse(path.read_text(encoding="utf-8")).body
            if isinstance(node, ast.ClassDef) and any(isinstance(one, ast.FunctionDef) and one.name.startswith("test") for one in node.body)]


def parts(server, words):
    """Each thing to ask: its name and what gives why it failed, or None. A suite is asked class by class, so that a mutant meets those
    alone that reach it."""
    for name in UNITS:
        yield name, lambda name=name: failed_unit(server, name)
    for name, chosen in SUITES:
        for one in chosen or classes_of(name):
            yield f"{name}.{one}", lambda name=name, one=one: failed_suite(imported(name, words), [one])


def built_popen(programs):
    class Popen(subprocess.Popen):
        def __init__(self, words, *rest, **more):
            for word in words if isinstance(words, (list, tuple)) else ():
                programs.need(word)
            super().__init__(words, *rest, **more)
    return Popen


def write_map(found, counts, path):
    """Runs every part by itself and writes what it reaches. One that fails beside the counts (it limits what a program may write, and says so)
    is told and left out. False when most do: then it is not the counts."""
    rows = {}
    for name, ask in found:
        counts.forget()
        began = time.monotonic()
        why = ask()
        seconds = time.monotonic() - began
        print(f"{name} {seconds:.2f} s{': left out: ' + why if why else ''}", flush=True)
        if not why:
            rows[name] = reach.Map.row(seconds, counts.lines())
    unfinished = Path(f"{path}.new")
    unfinished.write_text(json.dumps(rows), encoding="utf-8")
    unfinished.replace(path)
    return len(rows) * 2 > len(found)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("build", type=lambda text: Path(text).resolve())
    parser.add_argument("--times", action="store_true")
    parser.add_argument("--parts", type=Path)
    parser.add_argument("--map", type=Path)
    options = parser.parse_args()
    build = options.build
    program, write_plain = build / "src/cli/baskleaf", build / "tests/write_plain"
    os.environ["XDG_CONFIG_HOME"] = str(ROOT / "tests/common/config")
    os.environ["CK_TIMEOUT_MULTIPLIER"] = "2"
    server = Server(build / "tests/mutation/served")
    programs = Programs(build)
    subprocess.run = served_run(server, {str(program): "program", str(write_plain): "write_plain"}, programs)
    subprocess.Popen = built_popen(programs)
    found = list(parts(server, [str(program), str(write_plain), "CSV"]))
    if options.map:
        return 0 if write_map(found, reach.Counts(build, FOLDERS), options.map) else 1
    if options.parts:
        asks = dict(found)
        found = [(name, asks[name]) for name in options.parts.read_text(encoding="utf-8").splitlines()]
    for name, ask in found:
        began = time.monotonic()
        why = ask()
        if options.times:
            print(f"{name} {time.monotonic() - began:.2f} s", flush=True)
        if why:
            print(f"{name}: {why}")
            return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
