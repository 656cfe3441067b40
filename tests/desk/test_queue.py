#!/usr/bin/env python3
"""Mail and print in the background: nobody waits, states are true, and nothing goes twice.
SMTP: RFC 5321 (4yz: try later, 5yz: for good). Job states: RFC 8011, 5.3.7."""
import json
import os
import re
import subprocess
import sys
import tempfile
import threading
import time
import unittest
from pathlib import Path

sys.path.insert(0, os.path.dirname(__file__))
from desk import TODAY, Desk  # noqa: E402
from mail_stage import MailServer  # noqa: E402

BASKLEAF = sys.argv.pop(1)
BISCUIT = "biscuit-ball-python.yaml"
SLOW = 10 if os.environ.get("BASKLEAF_SANITIZED") else 1


class WithSigned(unittest.TestCase):
    """A desk of its own with a mail server, and a signed record."""

    def open(self, mail_port=1, with_address=True, timeout=20):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.settings = Path(folder.name) / "settings.yaml"
        self.settings.write_text(json.dumps({"host": "127.0.0.1", "port": mail_port, "tls": "none", "timeout": timeout}))
        self.settings.chmod(0o600)
        self.desk = Desk(BASKLEAF, folder.name, more=("--settings", self.settings))
        self.addCleanup(self.desk.end)
        if not with_address:
            path = self.desk.folder / BISCUIT
            path.write_text(re.sub(r"email: [^,]*, ", "", path.read_text(), count=1))
        self.version = self.sign(BISCUIT)

    def sign(self, name):
        version = self.desk.get("/api/record", name=name)["version"]
        status, answer = self.desk.post("/api/sign", {"name": name, "version": version, "by": "Dr Ines Calder"})
        self.assertEqual(status, 200, answer)
        return answer["version"]

    def hand(self, what, name=BISCUIT, version=None, **more):
        return self.desk.post(f"/api/{what}", {"name": name, "version": version or self.version, "who": "Ana Brook", **more})

    def record(self, name=BISCUIT):
        return self.desk.get("/api/record", name=name)

    def deeds(self):
        return [one["deed"] for one in reversed(self.record()["log"])]

    def job(self, kind, *states):
        job = self.desk.job(BISCUIT, kind, states)
        if "built without" in job["why"]:
            self.skipTest(job["why"])
        return job


class Mail(WithSigned):
    def test_the_message_of_the_command_line_once(self):
        server = MailServer()
        self.open(server.port)
        status, answer = self.hand("mail")
        self.assertEqual((status, answer.get("deed")), (200, "mailing"), answer)
        self.job("mail", "done", "failed")
        out = self.desk.folder.parent / "m.eml"
        subprocess.run([BASKLEAF, "mail", self.desk.folder / BISCUIT, "-o", out, "--today", TODAY], check=True, capture_output=True)
        self.assertEqual([one.rstrip(b"\r\n") for one in server.messages], [out.read_bytes().rstrip(b"\r\n")])
        self.assertEqual((self.record()["state"], self.record()["log"][0]["who"], self.deeds()[-2:]), ("mailed", "Ana Brook", ["mailing", "mailed"]))
        self.assertEqual(self.hand("mail")[1]["error"], "mailed-before")
        self.assertEqual(len(server.messages), 1)

    def test_a_silent_server_stops_nobody(self):
        """500 requests at once while the mail server says nothing."""
        server = MailServer({"connected": "silence"})
        self.open(server.port)
        self.assertEqual(self.hand("mail")[0], 200)
        self.job("mail", "at-work", "failed")
        times, wrong = [], []

        def client():
            begin = time.monotonic()
            try:
                self.desk.get("/api/visits", find="biscuit")
            except Exception as trouble:  # noqa: BLE001
                wrong.append(repr(trouble))
            times.append(time.monotonic() - begin)

        clients = [threading.Thread(target=client) for _ in range(500)]
        for one in clients:
            one.start()
        for one in clients:
            one.join()
        self.assertEqual(wrong, [])
        self.assertLess(max(times), 10 * SLOW)
        self.assertEqual(self.job("mail", "at-work")["state"], "at-work", "and the mail is still under way")
        self.assertEqual(self.hand("mail")[1]["error"], "under-way")
        self.assertEqual(self.hand("printed")[0], 200, "the same record is noted as printed meanwhile")
        server.answers.clear()
        self.job("mail", "done", "failed", "waiting")

    def test_put_off_and_tried_again_but_never_twice(self):
        server = MailServer({"RCPT": "450 later"})
        self.open(server.port)
        self.hand("mail")
        job = self.job("mail", "waiting", "failed")
        while not job["tries"]:
            job = self.job("mail", "waiting")
        self.assertIn("450", job["why"])
        self.assertEqual(self.record()["state"], "ready")
        server.answers.clear()
        self.assertEqual(self.desk.post("/api/job", {"number": job["number"], "do": "now"})[0], 200)
        self.job("mail", "done")
        self.assertEqual(self.deeds()[-4:], ["mailing", "mail-later", "mailing", "mailed"])
        self.assertEqual(self.desk.post("/api/job", {"number": job["number"], "do": "now"})[0], 409)
        self.assertEqual((self.hand("mail")[1]["error"], len(server.messages)), ("mailed-before", 1))

    def test_refused_for_good(self):
        server = MailServer({"RCPT": "550 nobody"})
        self.open(server.port)
        self.hand("mail")
        self.assertIn("550", self.job("mail", "failed")["why"])
        self.assertEqual((self.record()["state"], self.deeds()[-1], server.tries), ("ready", "not-mailed", 1))

    def test_a_server_that_is_away_is_asked_later(self):
        self.open(1)
        self.hand("mail")
        job = self.job("mail", "waiting", "failed")
        while not job["tries"]:
            job = self.job("mail", "waiting")
        self.assertEqual(self.desk.post("/api/job", {"number": job["number"], "do": "drop"})[0], 200)
        self.assertEqual(self.desk.get("/api/jobs", name=BISCUIT)["jobs"], [])

    def test_what_may_have_arrived_is_not_sent_again(self):
        server = MailServer({"end of data": None})
        self.open(server.port)
        self.hand("mail")
        self.job("mail", "unsure", "failed")
        self.assertEqual((self.record()["state"], self.hand("mail")[1]["error"]), ("maybe-mailed", "mailed-before"))

    def test_killed_while_it_is_sent(self):
        server = MailServer({"end of data": "silence"})
        self.open(server.port)
        self.hand("mail")
        self.job("mail", "at-work", "failed")
        while not server.tries:
            time.sleep(0.05)
        self.desk.kill()
        self.desk.start(("--settings", self.settings))
        self.assertEqual((self.record()["state"], self.hand("mail")[1]["error"]), ("maybe-mailed", "mailed-before"))

    def test_what_cannot_be_logged_is_not_sent(self):
        if os.geteuid() == 0:
            make_unwritable = lambda path: (path.unlink(), path.mkdir())  # root writes into any file, but not into a folder
        else:
            make_unwritable = lambda path: path.chmod(0o400)
        server = MailServer()
        self.open(server.port)
        log = (self.desk.folder / BISCUIT).with_suffix(".log")
        make_unwritable(log)
        for _ in range(3):
            for what in ("mail", "print", "printed"):
                self.assertEqual(self.hand(what)[1]["error"], "not-logged", what)
        name = "ember-bearded-dragon.yaml"
        (self.desk.folder / name).with_suffix(".log").mkdir()
        version = self.record(name)["version"]
        self.assertEqual(self.desk.post("/api/sign", {"name": name, "version": version, "by": "Dr Ines Calder"})[1]["error"], "not-logged")
        self.assertEqual((server.messages, list(self.desk.tray.glob("*.pdf"))), ([], []))
        status, answer = self.desk.save(name, {**self.record(name)["record"], "message": "m"}, version)
        self.assertEqual((status, answer["unlogged"]), (200, True), "what was typed is saved all the same")

    def test_refusals_have_their_reason(self):
        self.open(1)
        name = "ember-bearded-dragon.yaml"
        self.assertEqual(self.hand("mail", name, self.record(name)["version"])[1]["error"], "not-signed")
        self.settings.chmod(0o644)
        self.hand("mail")
        job = self.job("mail", "failed")
        self.assertEqual(job["tries"], 1)
        self.assertNotIn("tls", job["why"], "no value of the settings is told")
        self.assertEqual(self.hand("mail")[0], 200, "nothing was sent, so it may be tried")
        self.open(1, with_address=False)
        self.assertEqual(self.hand("mail")[1]["error"], "no-mail-address")
        self.desk.end()
        self.desk.start()
        self.assertEqual(self.hand("mail")[1]["error"], "no-mail-settings")


class Print(WithSigned):
    def test_the_signed_sheet_byte_for_byte(self):
        self.open()
        name = "ember-bearded-dragon.yaml"
        self.assertEqual(self.hand("print", name, self.record(name)["version"])[1]["error"], "not-signed")
        self.assertEqual(self.desk.post("/api/print", {"name": BISCUIT, "version": self.version, "who": ""})[1]["error"], "who-is-missing")
        self.assertEqual(self.hand("print", version="0" * 64)[1]["error"], "changed-meanwhile")
        self.assertEqual(self.hand("print")[0], 200)
        self.job("print", "done", "failed")
        out = self.desk.folder.parent / "print.pdf"
        subprocess.run([BASKLEAF, "sheet", self.desk.folder / BISCUIT, "-o", out, "--today", TODAY], check=True, capture_output=True)
        (printed,) = self.desk.tray.glob("*.pdf")
        self.assertEqual(printed.read_bytes(), out.read_bytes())
        self.assertEqual((self.record()["state"], self.record()["log"][0]["who"], self.deeds()[-3:]), ("printed", "Ana Brook", ["printing", "at-printer", "printed"]))

    def test_a_paused_printer_has_not_printed(self):
        self.open()
        (self.desk.tray / "paused").touch()
        self.assertEqual(self.hand("print")[0], 200)
        job = self.job("print", "stopped", "failed")
        self.assertIn("paused", job["why"])
        self.assertEqual(self.record()["state"], "at-printer")
        self.assertEqual(self.hand("print")[1]["error"], "under-way")
        (self.desk.tray / "paused").unlink()
        self.job("print", "done")
        self.assertEqual(self.record()["state"], "printed")

    def test_a_job_that_the_printer_gives_up(self):
        self.open()
        (self.desk.tray / "lost").touch()
        self.hand("print")
        self.job("print", "failed")
        self.assertEqual((self.record()["state"], self.deeds()[-1]), ("ready", "not-printed"))

    def test_no_paper(self):
        self.open()
        (self.desk.tray / "jam").touch()
        self.hand("print")
        job = self.job("print", "failed")
        self.assertIn("out of paper", job["why"])
        self.assertEqual(self.record()["state"], "ready")
        (self.desk.tray / "jam").unlink()
        self.assertEqual(self.desk.post("/api/job", {"number": job["number"], "do": "now"})[0], 200)
        self.job("print", "done")
        self.assertEqual(self.record()["state"], "printed")

    def test_printers_by_name(self):
        self.open()
        for _ in range(100):
            answer = self.desk.get("/api/printers", anew="yes")
            if answer["known"]:
                break
            time.sleep(0.1)
        if "built without" in answer["why"]:
            self.skipTest(answer["why"])
        self.assertEqual([one["name"] for one in answer["printers"]], ["Tray"], answer)
        for copies in ("0", "-1", "10", "x"):
            self.assertEqual(self.hand("print", printer="Tray", copies=copies)[0], 400, copies)
        self.assertEqual(self.hand("print", printer="Tray", copies="3")[0], 200)
        self.job("print", "done")
        self.assertEqual(self.desk.printers.asked[-1]["copies"], [3])

    def test_printed_by_hand(self):
        self.open()
        self.assertEqual(self.hand("printed")[1].get("deed"), "printed-by-hand")
        self.assertEqual((self.record()["state"], self.deeds()[-1]), ("printed", "printed-by-hand"))


if __name__ == "__main__":
    sys.stdout = sys.stderr
    unittest.main(verbosity=2)
