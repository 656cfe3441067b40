#!/usr/bin/env python3
"""The same bytes under a locale with a decimal comma and in time zones east and west of Greenwich; and what "today" is
there, when nobody says it."""
import datetime
import os
import shutil
import subprocess
import sys
import tempfile
import unittest
import zoneinfo
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
VISIT = ROOT / "templates/visits/biscuit-ball-python.yaml"
ZONES = ("Pacific/Auckland", "America/Los_Angeles", "Etc/GMT+12", "Etc/GMT-14")


def run(*words, **environment):
    return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, cwd=ROOT, timeout=60,
                          env={"PATH": os.environ["PATH"], **environment})


class Places(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def bytes_in(self, **environment):
        both = b""
        for words in (("sheet", VISIT, "-o", "-"), ("explain", "--json", VISIT)):
            done = run(*words, "--today", "2026-03-20", **environment)
            self.assertEqual(done.returncode, 0, done.stderr.decode())
            both += done.stdout
        return both

    def test_a_decimal_comma_changes_nothing(self):
        if not shutil.which("localedef") or not Path("/usr/share/i18n/locales/de_DE").exists():
            self.skipTest("the sources of locales are not installed (Debian's package locales)")
        subprocess.run(["localedef", "-i", "de_DE", "-f", "UTF-8", self.folder / "de_DE.UTF-8"], check=True, capture_output=True)
        # glibc itself never frees the list it makes of LOCPATH, which the leak sanitizer tells of
        comma = {"LOCPATH": str(self.folder), "LC_ALL": "de_DE.UTF-8", "LANG": "de_DE.UTF-8", "ASAN_OPTIONS": "detect_leaks=0"}
        # the locale is really there: printf of the shell's own uses it
        shown = subprocess.run(["/usr/bin/printf", "%.1f", "1,5"], capture_output=True, text=True, env=comma)
        self.assertEqual(shown.stdout, "1,5")
        self.assertEqual(self.bytes_in(**comma), self.bytes_in())

    def test_time_zones_change_nothing(self):
        whole = self.bytes_in()
        for zone in ZONES:
            self.assertEqual(self.bytes_in(TZ=zone), whole, zone)

    def test_today_is_the_day_at_the_clinic(self):
        for zone in ZONES:
            for days, status in ((0, 0), (2, 1)):
                day = datetime.datetime.now(zoneinfo.ZoneInfo(zone)).date() + datetime.timedelta(days=days)
                visit = self.folder / "visit.yaml"
                visit.write_text(f"visit: {{date: {day}, kind: checkout}}\npatient: {{name: Fern, species: ball-python}}\n")
                done = run("check", visit, TZ=zone)
                self.assertEqual(done.returncode, status, f"{zone} {day}: {done.stderr.decode()}")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
