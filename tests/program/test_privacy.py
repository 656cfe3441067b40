#!/usr/bin/env python3
"""What belongs to the keeper stays where it is meant: not in a PDF's metadata, not in a file that others may read, not in messages."""
import json
import os
import random
import signal
import stat
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path

import pikepdf

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = ("--today", "2026-03-20")
KEEPER = {"name": "Zebedee Quillfeather", "email": "quillfeather@example.org", "language": "en", "units": "metric"}
SECRETS = ("Zebedee", "Quillfeather", "quillfeather")


def record(**parts):
    return {"visit": {"date": "2026-03-14", "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": "corn-snake", "mass": "620 g"},
            "keeper": KEEPER, **parts}


def run(*words, stdin=None, **more):
    return subprocess.run([PROGRAM, *map(str, words)], input=stdin, capture_output=True, cwd=ROOT, **more)


def others_may_read(path):
    return bool(path.lstat().st_mode & stat.S_IRWXO)


class Privacy(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = Path(folder.name)

    def test_metadata_tells_no_more_than_the_page(self):
        for kind in ("checkout", "email", "adoption"):
            out = self.folder / f"{kind}.pdf"
            visit = record()
            visit["visit"]["kind"] = kind
            done = run("sheet", "-", "-o", out, *TODAY, stdin=json.dumps(visit).encode())
            self.assertEqual(done.returncode, 0, done.stderr)
            with pikepdf.open(out) as pdf:
                said = [str(value) for _, value in pdf.docinfo.items()] + [bytes(pdf.Root.Metadata.read_bytes()).decode()]
                said += [str(item.title) for item in pdf.open_outline().root]
            self.assertTrue(any("Fern" in one for one in said))
            for secret in SECRETS:
                self.assertFalse([one for one in said if secret in one], kind)

    def test_no_file_that_others_may_read(self):
        """With an open umask: a sheet, a message, a calendar, a packet, a signature, and whatever a killed run leaves behind."""
        def open_umask():
            os.umask(0)
        visit = self.folder / "visit.yaml"
        visit.write_text(json.dumps(record()))
        visit.chmod(0o600)
        done = run("approve", visit, "--by", "Dr Ines Calder", *TODAY, preexec_fn=open_umask)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(stat.S_IMODE(visit.stat().st_mode), 0o600)
        for command, name in (("sheet", "a.pdf"), ("mail", "a.eml"), ("dates", "a.ics")):
            done = run(command, visit, "-o", self.folder / name, *TODAY, preexec_fn=open_umask)
            if done.returncode and b"built without" in done.stderr:
                continue
            self.assertEqual(done.returncode, 0, done.stderr)
            self.assertFalse(others_may_read(self.folder / name), name)
        roster = self.folder / "roster.yaml"
        roster.write_text(json.dumps({"animals": [{"id": f"R{n}", "name": "Fern", "species": "corn-snake", "adopter": KEEPER["name"]} for n in range(60)]}))
        chance = random.Random(20260320)
        for turn in range(12):
            packet = self.folder / f"packet-{turn}"
            process = subprocess.Popen([PROGRAM, "packet", roster, "--drafts", "-o", packet, *TODAY], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=ROOT,
                                       preexec_fn=open_umask)
            time.sleep(chance.uniform(0, 0.4))
            process.send_signal(signal.SIGKILL)
            process.wait()
            for path in packet.rglob("*"):
                self.assertFalse(path.is_file() and others_may_read(path), path.name)

    def test_messages_name_the_place_and_not_the_keeper(self):
        broken = [
            record(patient={"name": "Fern", "species": "corn-snake", "mass": "620"}),
            record(patient={"name": "Fern", "species": "corn-snak"}),
            record(enclosure={"readings": {"warm-side": "300 C", "humidty": "40 %"}}),
            record(findings=[{"code": "soft-shell", "severity": "mild"}]),
            record(visit={"date": "2026-02-30", "kind": "checkout"}),
        ]
        for visit in broken:
            for command in ("sheet", "explain", "mail", "dates", "check"):
                path = self.folder / "broken.yaml"
                path.write_text(json.dumps(visit, indent=1))
                words = [command, path, *TODAY] + (["-o", self.folder / "x"] if command != "check" else [])
                done = run(*words)
                self.assertEqual(done.returncode, 1, (command, visit))
                text = (done.stdout + done.stderr).decode()
                self.assertIn("broken.yaml:", text)
                self.assertFalse([s for s in SECRETS if s in text], (command, text))
        visit = self.folder / "good.yaml"
        visit.write_text(json.dumps(record()))
        settings = self.folder / "settings.yaml"
        settings.write_text(json.dumps({"host": "127.0.0.1", "port": 1, "tls": "none", "timeout": 1}))
        settings.chmod(0o600)
        for words in (["mail", visit], ["mail", visit, "--drafts", "--send", "--settings", settings, "-o", self.folder / "m.eml"], ["sheet", visit, "-o", "/nonexistent/a.pdf"],
                      ["sheet", visit, "-o", self.folder / "fine.pdf"]):
            done = run(*words, *TODAY)
            self.assertFalse([s for s in SECRETS if s in done.stderr.decode()], words)

    def test_a_roster_names_its_lines(self):
        roster = self.folder / "roster.csv"
        roster.write_text("name,species,adopter,email,mass\nFern,corn-snake,Zebedee Quillfeather,quillfeather@example.org,620\nMoss,corn-snak,Zebedee Quillfeather,quillfeather@example.org,620 g\n")
        done = run("packet", roster, "--drafts", "-o", self.folder / "out", *TODAY)
        if b"built without" in done.stderr:
            self.skipTest("built without libcsv")
        self.assertEqual(done.returncode, 1)
        self.assertRegex(done.stderr.decode(), r"roster\.csv:2:")
        self.assertFalse([s for s in SECRETS if s in done.stderr.decode()], done.stderr.decode())


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
