#!/usr/bin/env python3
"""The mail message, read back by Python's own parser; and sent to a real SMTP server on loopback (Debian's python3-aiosmtpd), with faults at
each stage."""
import asyncio
import email
import email.header
import email.policy
import json
import logging
import os
import re
import shutil
import socket
import ssl
import subprocess
import sys
import tempfile
import threading
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
DAY = ("--today", "2026-03-17")
PEBBLE = (ROOT / "templates/visits/pebble-leopard-gecko.yaml").read_text()


def run(*words, **more):
    return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, cwd=ROOT, timeout=60, **more)


class Signed(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def signed(self, text=PEBBLE):
        path = self.folder / "visit.yaml"
        path.write_text(text)
        done = run("approve", path, "--by", "Dr Ines Calder", *DAY)
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        return path


class Message(Signed):
    def message(self, path, *words):
        done = run("mail", path, "-o", "-", *DAY, *words)
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        lines = done.stdout.split(b"\r\n")
        self.assertNotIn(b"\n", b"".join(lines))
        self.assertTrue(all(len(line) <= 78 for line in lines))
        return email.message_from_bytes(done.stdout, policy=email.policy.default), done.stdout

    def test_all_of_it_is_there(self):
        path = self.signed()
        message, _ = self.message(path)
        self.assertEqual(message.defects, [])
        self.assertEqual(message["From"].addresses[0].addr_spec, "desk@fernhollow.example.org")
        self.assertEqual(message["To"].addresses[0].addr_spec, "hana.okafor@example.org")
        self.assertEqual(message["To"].addresses[0].display_name, "Hana Okafor")
        self.assertEqual(message["Date"].datetime.date().isoformat(), "2026-03-17")
        self.assertIn("Pebble", message["Subject"])
        text, pdf, calendar = message.iter_parts()
        words = text.get_content().replace("\xa0", " ")
        for wanted in ("Dear Hana Okafor", "30–34 °C", "555-0142", "555-0199"):
            self.assertIn(wanted, words)
        self.assertNotIn("raft", words)
        sheet = run("sheet", path, "-o", "-", *DAY).stdout
        # the same sheet, but for the links that can be clicked
        mark = re.compile(rb"/ID \[ <([0-9a-f]{32})>")
        self.assertEqual(mark.findall(pdf.get_content()), mark.findall(sheet))
        self.assertTrue(mark.findall(sheet))
        self.assertEqual(pdf.get_filename(), "pebble-hana-okafor-2026-03-17.pdf")
        self.assertEqual(calendar.get_content_type(), "text/calendar")
        self.assertEqual(calendar.get_payload(decode=True), run("dates", path, "-o", "-", *DAY).stdout)

    def test_names_of_any_letters(self):
        for name in ("Ñandú Peña-Núñez de la Cañada y del Río Grande con un nombre muy largo que no acaba", 'O\'Malley "Scales" (vet), <x@y>', "李小龙"):
            text = PEBBLE.replace("name: Hana Okafor", "name: " + json.dumps(name, ensure_ascii=False))
            done = run("mail", self.signed(text), "-o", "-", *DAY)
            if done.returncode:
                self.assertIn(b"our fonts have no", done.stderr)  # the sheet's font has no such letter: told before anything is written
                continue
            # by the older parser: the newer one puts spaces between encoded words of a name (a fault of its own)
            raw = email.message_from_bytes(done.stdout)["To"]
            person, _, address = str(email.header.make_header(email.header.decode_header(raw))).rpartition("<")
            self.assertEqual(person.strip(), name)
            self.assertEqual(address, "hana.okafor@example.org>")

    def test_heads_cannot_be_smuggled_in(self):
        for before, after in (("name: Hana Okafor", 'name: "Hana\\nBcc: all@example.org"'), ("hana.okafor@example.org", '"hana@example.org\\nBcc: all@example.org"'),
                              ("hana.okafor@example.org", '"hana@example.org, all@example.org"')):
            path = self.folder / "visit.yaml"
            path.write_text(PEBBLE.replace(before, after))
            done = run("mail", path, "-o", self.folder / "m.eml", "--drafts", *DAY)
            self.assertEqual(done.returncode, 1, after)
            self.assertRegex(done.stderr.decode(), r"visit\.yaml:\d+:\d+: ")
            self.assertFalse((self.folder / "m.eml").exists())

    def test_without_an_address_there_is_no_message(self):
        path = self.signed(PEBBLE.replace(", email: hana.okafor@example.org", ""))
        done = run("mail", path, "-o", "-", *DAY)
        self.assertEqual(done.returncode, 1)
        self.assertIn(b"no mail address of the keeper", done.stderr)

    def test_drafts_stay_here(self):
        path = self.folder / "visit.yaml"
        path.write_text(PEBBLE)
        self.assertEqual(run("mail", path, "-o", "-", *DAY).returncode, 1)
        message, _ = self.message(path, "--drafts")
        self.assertIn("DRAFT", message["Subject"])

    def test_the_same_message_has_the_same_id(self):
        path = self.signed()
        first, bytes_one = self.message(path)
        second, bytes_two = self.message(path)
        self.assertEqual(bytes_one, bytes_two)
        other, _ = self.message(path, "--language", "es")
        self.assertNotEqual(first["Message-ID"], other["Message-ID"])


sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from mail_stage import STAGES, Stage  # noqa: E402

try:
    from aiosmtpd.controller import Controller
    from aiosmtpd.smtp import AuthResult
except ImportError:
    Controller = None

logging.disable(logging.CRITICAL)  # the server tells each fault that it is made to see
CAN_SEND = b"without libcurl" not in run("mail", "--help").stdout and Controller and shutil.which("openssl")
@unittest.skipUnless(CAN_SEND, "libcurl, python3-aiosmtpd and openssl are needed")
class Send(Signed):
    def settings(self, port, tls="none", **more):
        path = self.folder / "settings.yaml"
        path.write_text(json.dumps({"host": "127.0.0.1" if tls == "none" else "localhost", "port": port, "tls": tls, "timeout": 3, **more}))
        path.chmod(0o600)
        return path

    def send(self, visit, settings, *words):
        return run("mail", visit, "-o", self.folder / "m.eml", "--send", "--settings", settings, *DAY, *words)

    def test_it_arrives_whole_over_tls_with_a_password(self):
        subprocess.run(["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj", "/CN=localhost", "-addext", "subjectAltName=DNS:localhost",
                        "-keyout", self.folder / "key.pem", "-out", self.folder / "cert.pem"], check=True, capture_output=True)
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.load_cert_chain(self.folder / "cert.pem", self.folder / "key.pem")
        got, asked = [], []

        class Handler:
            async def handle_DATA(self, server, session, envelope):
                got.append((envelope.mail_from, envelope.rcpt_tos, envelope.content))
                return "250 taken"

        def check(server, session, envelope, mechanism, data):
            asked.append((data.login, data.password))
            return AuthResult(success=data.password == b"s3cret-word")

        server = Controller(Handler(), hostname="127.0.0.1", port=0, tls_context=context, require_starttls=True, authenticator=check, auth_required=True)
        server.port = socket.create_server(("127.0.0.1", 0)).getsockname()[1]
        server.start()
        try:
            visit = self.signed()
            good = self.settings(server.port, "starttls", user="desk", password="s3cret-word", authority=str(self.folder / "cert.pem"))
            done = self.send(visit, good)
            self.assertEqual(done.returncode, 0, done.stderr.decode())
            self.assertEqual(asked, [(b"desk", b"s3cret-word")])
            self.assertEqual(got[0][:2], ("desk@fernhollow.example.org", ["hana.okafor@example.org"]))
            self.assertEqual(got[0][2].rstrip(b"\r\n"), (self.folder / "m.eml").read_bytes().rstrip(b"\r\n"))
            again = self.send(visit, good)
            self.assertEqual(again.returncode, 1)
            self.assertIn(b"--resend", again.stderr)
            elsewhere = self.send(visit, good, "-o", self.folder / "other.eml")  # the record remembers, not the message's file
            self.assertEqual((elsewhere.returncode, len(got)), (1, 1), elsewhere.stderr)
            self.assertEqual(len(got), 1)
            self.assertEqual(self.send(visit, good, "--resend").returncode, 0)
            self.assertEqual(len(got), 2)
            for wrong in ({"password": "wr0ng-word", "authority": str(self.folder / "cert.pem")}, {"password": "s3cret-word"}):
                failed = self.send(visit, self.settings(server.port, "starttls", user="desk", **wrong), "--resend")
                self.assertEqual(failed.returncode, 3, failed.stderr.decode())
                self.assertNotRegex(failed.stderr + failed.stdout, rb"word")
            self.assertEqual(len(got), 2)
        finally:
            server.stop()

    def test_refusals_and_later(self):
        visit = self.signed()
        for stage, code, word in (("RCPT", "450 greylisted", b"later"), ("MAIL", "421 busy", b"later"), ("RCPT", "550 nobody", b"refused"), ("end of data", "554 no", b"refused"),
                                  ("end of data", "451 later", b"later")):
            server = Stage({stage: code})
            done = self.send(visit, self.settings(server.port))
            self.assertEqual(done.returncode, 3, (stage, code))
            self.assertIn(word, done.stderr, (stage, code))
            self.assertFalse((self.folder / "visit.yaml.sent").exists(), (stage, code))
            self.assertTrue((self.folder / "m.eml").exists())

    def test_a_line_that_drops_or_falls_silent_at_each_stage(self):
        visit = self.signed()
        for stage in STAGES:
            for how in (None, "silence") if stage in ("EHLO", "end of data") else (None,):
                (self.folder / "visit.yaml.sent").unlink(missing_ok=True)
                server = Stage({stage: how})
                done = self.send(visit, self.settings(server.port))
                self.assertEqual(done.returncode, 3, (stage, how, done.stderr))
                message = email.message_from_bytes((self.folder / "m.eml").read_bytes())
                if stage == "end of data":
                    self.assertIn(b"may have arrived", done.stderr)
                    self.assertIn(message["Message-ID"].strip().strip("<>"), (self.folder / "visit.yaml.sent").read_text())
                    second = Stage({})
                    again = self.send(visit, self.settings(second.port))
                    self.assertEqual(again.returncode, 1)
                    self.assertEqual(second.seen, [], "nothing is sent again by itself")
                    forced = self.send(visit, self.settings(second.port), "--resend")
                    self.assertEqual(forced.returncode, 0, forced.stderr)
                    self.assertEqual(email.message_from_bytes((self.folder / "m.eml").read_bytes())["Message-ID"], message["Message-ID"])
                else:
                    self.assertIn(b"nothing was sent", done.stderr, stage)
                    self.assertFalse((self.folder / "visit.yaml.sent").exists())

    def test_nobody_listens(self):
        with socket.create_server(("127.0.0.1", 0)) as closed:
            port = closed.getsockname()[1]
        done = self.send(self.signed(), self.settings(port))
        self.assertEqual(done.returncode, 3)
        self.assertTrue((self.folder / "m.eml").exists())

    def test_settings_are_private_and_lines_secret(self):
        visit = self.signed()
        path = self.settings(25)
        path.chmod(0o640)
        self.assertIn(b"chmod 600", self.send(visit, path).stderr)
        path.write_text(json.dumps({"host": "mail.example.org", "port": 25, "tls": "none"}))
        path.chmod(0o600)
        self.assertIn(b"this machine", self.send(visit, path).stderr)
        path.write_text(json.dumps({"host": "mail.example.org/x", "port": 25, "tls": "starttls"}))
        self.assertEqual(self.send(visit, path).returncode, 1)
        self.assertEqual(run("mail", visit, "--send", *DAY).returncode, 2)
        self.assertEqual(run("mail", visit, "--send", "--settings", path, "-o", "-", *DAY).returncode, 2)

    def test_drafts_are_not_sent(self):
        path = self.folder / "visit.yaml"
        path.write_text(PEBBLE)
        server = Stage({})
        self.assertEqual(self.send(path, self.settings(server.port)).returncode, 1)
        self.assertEqual(server.seen, [])


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
