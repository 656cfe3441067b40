#!/usr/bin/env python3
"""The end of a run of the suite: `closing.py PASSED FAILED BUILD-FOLDER...` reads what `meson test` wrote in each build folder, shows the
first failure whole, names the others, names every check that could not run with its reason, and ends with one line of counts, to which
PASSED and FAILED are added. Exit status 0 when nothing failed and something ran."""
import json
import re
import sys
from pathlib import Path

# as unittest (one case of a file), our own tests that end with 77, and the Test Anything Protocol say it
SKIPPED = (re.compile(r"""^(?P<case>.*?)(?: \(.*\))?(?: \.\.\.)? skipped (?P<q>['"])(?P<why>.*)(?P=q)$""", re.M),
           re.compile(r"^(?P<case>)skipped: (?P<why>.*)$", re.M),
           re.compile(r"^ok \d+ (?:- )?(?P<case>.*?) # SKIP (?P<why>.*)$", re.M | re.I))


def results(folder):
    for line in (Path(folder) / "meson-logs/testlog.json").read_text(encoding="utf-8").splitlines():
        yield json.loads(line)


def told(result):
    return (result.get("stdout") or "") + (result.get("stderr") or "")


def not_run(result):
    """(which check, why) of everything in one test that could not run."""
    found = {(f"{result['name'].split(' / ')[-1]}{': ' + m['case'].strip() if m['case'].strip() else ''}", m["why"])
             for pattern in SKIPPED for m in pattern.finditer(told(result))}
    if result["result"] == "SKIP" and not found:
        found = {(result["name"].split(" / ")[-1], "no reason was given")}
    return found


def main(passed, failed, folders):
    failures, missing = [], set()
    for folder in folders:
        for result in results(folder):
            missing |= not_run(result)
            if result["result"] in ("OK", "EXPECTEDFAIL"):
                passed += 1
            elif result["result"] != "SKIP":
                failed += 1
                failures.append((folder, result))
    if failures:
        folder, first = failures[0]
        print(f"== the first failure, {first['name']} in {folder} ({first['result']}):\n{told(first)}")
    for folder, other in failures[1:]:
        print(f"failed too: {other['name']} in {folder}; {folder}/meson-logs/testlog.txt tells it whole")
    if missing:
        print(f"== {len(missing)} checks cannot run here:")
    for case, why in sorted(missing):
        print(f"   {case}: {why}")
    print(f"{passed} passed, {failed} failed, {len(missing)} skipped")
    return 0 if passed and not failed else 1


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2]), sys.argv[3:]))
