#!/usr/bin/env python3
"""People with roles and passphrases, sessions that end, TLS for other machines, and lines that drip.
Cookies: RFC 6265 and its draft for SameSite; scrypt: RFC 7914; certificates: RFC 5280, read by Python's ssl."""
import os
import re
import socket
import ssl
import stat
import subprocess
import sys
import tempfile
import time
import unittest
from pathlib import Path


sys.path.insert(0, os.path.dirname(__file__))
from desk import TODAY, VISITS, Desk  # noqa: E402

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

BASKLEAF = sys.argv.pop(1)
BISCUIT = "biscuit-ball-python.yaml"
ANA, INES, SAM = ("Ana Brook", "reception", "four plain words here"), ("Dr Ines Calder", "veterinarian", "another four words now"), ("Sam Reyes", "shelter", "and some more of them")
SLOW = 10 if os.environ.get("BASKLEAF_SANITIZED") else 1

probe = subprocess.run([BASKLEAF, "desk", "/", "--person", "Ana Brook", "--role", "none"], capture_output=True, text=True)
if "built without" in probe.stderr:
    print(probe.stderr)
    sys.exit(77)


class WithPeople(unittest.TestCase):
    def open(self, more=(), people=(ANA, INES, SAM)):
        self.desk = Desk(BASKLEAF, more=more, people=people)
        self.addCleanup(self.desk.end)
        return self.desk

    def enter(self, person):
        status, answer = self.desk.log_in(person[0], person[2])
        self.assertEqual((status, answer.get("person")), (200, {"name": person[0], "role": person[1]}), answer)

    def record(self):
        return self.desk.get("/api/record", name=BISCUIT)

    def sign(self, by="Dr Nobody At All"):
        return self.desk.post("/api/sign", {"name": BISCUIT, "version": self.record()["version"], "by": by})


class Roles(WithPeople):
    def test_without_people_the_desk_is_as_it_was(self):
        desk = self.open(people=())
        self.assertEqual((desk.get("/api/start")["people"], desk.scheme), (False, "http"))
        self.assertEqual(self.sign("Dr Ines Calder")[0], 200)

    def test_nothing_without_a_login(self):
        desk = self.open()
        start = desk.get("/api/start")
        self.assertEqual((start["people"], start["person"]), (True, None))
        for path in ("visits", f"record?name={BISCUIT}", f"sheet?name={BISCUIT}", "jobs", "printers", "shelter/lists", "shelter?id=0000000000000000"):
            self.assertEqual(desk.ask("GET", f"/api/{path}")[0], 401, path)
        for path in ("draft", "save", "discard", "preview", "sign", "print", "printed", "mail", "job", "shelter/drop", "shelter/sign", "shelter/make"):
            self.assertEqual(desk.post(f"/api/{path}", {})[0], 401, path)

    def test_a_header_of_a_proxy_names_nobody(self):
        """RFC 7239 and the names in use beside it: no option of the desk asks for one, so none lets anybody in, changes a host or an origin."""
        desk = self.open()
        names = {"Forwarded": f"for=192.0.2.7;host={desk.host};proto=https", "X-Forwarded-For": "127.0.0.1", "X-Forwarded-User": INES[0], "X-Remote-User": INES[0],
                 "Remote-User": INES[0], "X-Forwarded-Host": desk.host, "X-Forwarded-Proto": "https"}
        for headers in ({}, names, *({name: text} for name, text in names.items())):
            self.assertEqual(desk.ask("GET", "/api/visits", headers=headers)[0], 401, headers)
            self.assertIn(desk.ask("GET", "/api/start", headers={**headers, "Host": "evil.example"})[0], (400, 421), headers)
        self.enter(ANA)
        status, answer = desk.post("/api/sign", {"name": BISCUIT, "version": self.record()["version"], "by": INES[0]}, **names)
        self.assertEqual((status, answer["error"]), (403, "not-a-veterinarian"))

    def test_only_a_veterinarian_signs_as_herself(self):
        desk = self.open()
        self.enter(ANA)
        self.assertEqual(self.sign()[1]["error"], "not-a-veterinarian")
        opened = self.record()
        self.assertEqual(desk.save(BISCUIT, {**opened["record"], "message": "m"}, opened["version"], who="Somebody Else")[0], 200)
        self.assertEqual(self.record()["log"][0]["who"], "Ana Brook", "the log names who was logged in")
        self.enter(INES)
        self.assertEqual(self.sign()[0], 200)
        path = desk.folder / BISCUIT
        signed = path.read_text()
        self.assertEqual(read_yaml(signed)["visit"]["signed-off"]["by"], "Dr Ines Calder")
        self.assertEqual(self.record()["state"], "ready")
        self.assertEqual(self.record()["log"][0]["who"], "Dr Ines Calder")
        for was, edited in (('"by": "Dr Ines Calder"', '"by": "Dr EVIL"'), ('"on": "2026-03-20"', '"on": "2026-03-19"')):
            self.assertIn(was, signed)
            path.write_text(signed.replace(was, edited))
            self.assertEqual(self.record()["state"], "sign", "an edited name or day is no signature")
            done = subprocess.run([BASKLEAF, "mail", path, "-o", Path(desk.own.name) / "m.eml", "--today", TODAY], capture_output=True, text=True)
            self.assertIn("draft again", done.stderr, "and the command line says so")
        with tempfile.TemporaryDirectory() as other:
            copy = Path(other) / BISCUIT
            copy.write_text((VISITS / BISCUIT).read_text())
            subprocess.run([BASKLEAF, "approve", copy, "--by", "Dr Ines Calder", "--today", TODAY], check=True, capture_output=True)
            path.write_text(copy.read_text())
            self.assertEqual(self.record()["state"], "sign", "what was signed without the clinic's key is none")
        path.write_text(signed)
        self.assertEqual(self.record()["state"], "ready")
        subprocess.run([BASKLEAF, "mail", path, "-o", Path(desk.own.name) / "m.eml", "--today", TODAY], check=True, capture_output=True)

    def test_the_shelter_sees_its_lists_alone(self):
        desk = self.open()
        self.enter(SAM)
        self.assertEqual(desk.ask("GET", "/api/visits")[0], 403)
        self.assertEqual(desk.ask("GET", f"/api/sheet?name={BISCUIT}")[0], 403)
        status, shown = desk.drop(b"name,species\nFern,ball python\n")
        self.assertEqual(status, 200)
        self.assertEqual(desk.post("/api/shelter/sign", {"id": shown["id"], "by": "Dr Ines Calder"})[1]["error"], "not-a-veterinarian")

    def test_tries_are_limited_and_the_console_helps(self):
        desk = self.open()
        self.assertEqual(desk.log_in("Nobody Here", "whatever it is")[1]["error"], "wrong-passphrase")
        for _ in range(5):
            self.assertEqual(desk.log_in(ANA[0], "not this one at all")[1]["error"], "wrong-passphrase")
        self.assertEqual(desk.log_in(*ANA[::2])[1]["error"], "too-many-tries", "even the right one waits")
        desk.person(ANA[0], "veterinarian", "a new one by the console")
        self.assertEqual(desk.log_in(ANA[0], "a new one by the console")[1]["person"]["role"], "veterinarian")
        self.assertEqual(desk.ask("GET", "/api/visits")[0], 200)
        desk.person(ANA[0], "reception", "and one more by the console")
        self.assertEqual(desk.ask("GET", "/api/visits")[0], 401, "a changed person logs in anew")

    def test_sessions(self):
        desk = self.open()
        self.enter(ANA)
        for part in ("HttpOnly", "SameSite=Strict", "Path=/"):
            self.assertIn(part, desk.set_cookie)
        key = desk.cookie.split("=")[1]
        self.assertRegex(key, "^[0-9a-f]{64}$")
        for wrong in ("", "0" * 64, key[:-1], key + "0", key.upper()):
            self.assertEqual(desk.ask("GET", "/api/visits", headers={"Cookie": f"desk-{desk.port}={wrong}"})[0], 401, wrong)
        self.assertEqual(desk.post("/api/logout", {})[0], 200)
        self.assertEqual(desk.ask("GET", "/api/visits")[0], 401, "the key is worth nothing any more")
        origin = {"Origin": "https://evil.example", "X-Desk-Token": desk.token}
        self.assertEqual(desk.ask("POST", "/api/login", "{}", origin)[0], 403)

    def test_what_stands_in_the_file(self):
        desk = self.open()
        file = desk.folder / ".people.yaml"
        self.assertEqual(stat.S_IMODE(file.stat().st_mode), 0o600)
        text = file.read_text()
        for _, _, passphrase in (ANA, INES, SAM):
            self.assertNotIn(passphrase, text)
        self.assertEqual(len(set(re.findall(r"\$7\$[^\"]{50,}", text))), 3)
        file.chmod(0o644)
        os.utime(file)
        self.assertEqual(desk.ask("GET", "/api/visits")[0], 500, "a file that others may read lets nobody in")
        file.write_text("people: nobody")
        file.chmod(0o600)
        self.assertEqual(desk.ask("GET", "/api/start")[0], 500)

    def test_the_console_refuses(self):
        desk = self.open(people=())
        self.assertIn("role", desk.person("Ana Brook", "boss", "long enough it is", 2))
        self.assertIn("ten letters", desk.person("Ana Brook", "reception", "short", 1))
        self.assertIn("whole name", desk.person("Ana", "reception", "long enough it is", 1))
        self.assertIn("no person", desk.person("Ana Brook", "none", "", 1))


class Remote(WithPeople):
    def refused(self, *more, folder):
        return subprocess.run([BASKLEAF, "desk", folder, "--port", "0", *more], capture_output=True, text=True, timeout=20)

    def test_other_machines_need_tls_and_people(self):
        with tempfile.TemporaryDirectory() as folder:
            done = self.refused("--allow-remote", folder=folder)
            if "built without" in done.stderr:
                self.skipTest(done.stderr)
            self.assertEqual(done.returncode, 2)
            self.assertIn("--person", done.stderr)
            self.assertIn("--allow-remote", self.refused("--address", "192.0.2.1", folder=folder).stderr)
            own = Path(folder) / "own.pem"
            own.write_text("nothing")
            own.chmod(0o600)
            self.assertIn("no certificate", self.refused("--allow-remote", "--certificate", own, folder=folder).stderr)

    def test_over_tls(self):
        try:
            desk = self.open(more=("--allow-remote",))
        except AttributeError:
            self.skipTest("built without GnuTLS")
        self.assertEqual(desk.scheme, "https")
        pem = desk.folder / ".certificate.pem"
        self.assertEqual(stat.S_IMODE(pem.stat().st_mode), 0o600)
        checking = ssl.create_default_context(cadata=ssl.DER_cert_to_PEM_cert(ssl.PEM_cert_to_DER_cert(re.search("-----BEGIN CERT.*?END CERTIFICATE-----", pem.read_text(), re.S).group(0))))
        with socket.create_connection(("127.0.0.1", desk.port)) as line, checking.wrap_socket(line, server_hostname="127.0.0.1") as safe:
            self.assertIn(safe.version(), ("TLSv1.3", "TLSv1.2"))
        with socket.create_connection(("127.0.0.1", desk.port), timeout=10) as line:
            line.sendall(f"GET /api/start HTTP/1.1\r\nHost: {desk.host}\r\n\r\n".encode())
            self.assertNotIn(b"token", line.recv(4096), "nothing is said without TLS")
        self.enter(ANA)
        self.assertIn("Secure", desk.set_cookie)
        self.assertEqual(desk.ask("GET", "/api/visits")[0], 200)
        self.assertEqual(desk.ask("POST", "/api/draft", "{}", {"Origin": f"http://{desk.host}", "X-Desk-Token": desk.token})[0], 403, "a page without TLS is another place")
        self.assertIn("max-age", desk.ask("GET", "/")[1]["Strict-Transport-Security"])
        (desk.folder / ".people.yaml").unlink()
        self.assertEqual(desk.ask("GET", "/api/visits")[0], 401, "no file of people opens nothing to other machines")

    def test_the_same_certificate_after_a_new_start(self):
        try:
            desk = self.open(more=("--allow-remote",))
        except AttributeError:
            self.skipTest("built without GnuTLS")
        before = (desk.folder / ".certificate.pem").read_bytes()
        desk.end()
        desk.start(("--allow-remote",))
        self.assertEqual((desk.folder / ".certificate.pem").read_bytes(), before)


class Lines(WithPeople):
    def test_two_hundred_dripping_lines_are_cut(self):
        """A byte a second never ends a request; the line is cut all the same, and others are answered meanwhile."""
        desk = self.open(people=())
        lines = [socket.create_connection(("127.0.0.1", desk.port), timeout=5) for _ in range(200)]
        begin = time.monotonic()
        open_lines = list(lines)
        text = iter(f"GET /api/visits HTTP/1.1\r\nHost: {desk.host}\r\nX: {'a' * 200}")
        while open_lines and time.monotonic() - begin < 60 * SLOW:
            letter = next(text).encode()
            for line in list(open_lines):
                try:
                    line.sendall(letter)
                    line.setblocking(False)
                    try:
                        if line.recv(100) == b"":
                            raise ConnectionError
                    except BlockingIOError:
                        pass
                    line.setblocking(True)
                except OSError:
                    open_lines.remove(line)
            self.assertEqual(desk.ask("GET", "/api/start")[0], 200)
            time.sleep(1)
        self.assertEqual(len(open_lines), 0)
        self.assertLess(time.monotonic() - begin, 40 * SLOW)
        for line in lines:
            line.close()

    def test_the_page_from_a_folder(self):
        with tempfile.TemporaryDirectory() as folder:
            (Path(folder) / "desk.css").write_text("/* mine */")
            desk = self.open(more=("--page", folder), people=())
            self.assertEqual(desk.ask("GET", "/desk.css")[2], b"/* mine */")
            self.assertIn(b"<!doctype html>", desk.ask("GET", "/")[2].lower(), "what is not there comes from the program")
            (Path(folder) / "desk.css").write_text("/* again */")
            self.assertEqual(desk.ask("GET", "/desk.css")[2], b"/* again */")
            (Path(folder) / "secret.txt").write_text("no page")
            self.assertEqual(desk.ask("GET", "/secret.txt")[0], 404)


if __name__ == "__main__":
    sys.stdout = sys.stderr
    unittest.main(verbosity=2)
