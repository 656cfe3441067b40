"""A desk for a test: started over a folder of its own, spoken to over HTTP, ended by its own id."""
import http.client
import json
import os
import re
import shutil
import ssl
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from urllib.parse import urlencode

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from tray import Tray  # noqa: E402

ROOT = Path(__file__).resolve().parents[2]
VISITS = ROOT / "templates" / "visits"
TODAY = "2026-03-20"
NEW = "n-0123456789abcdef"  # the key of a visit that has no record yet
WINDOW = "window01"


class Desk:
    def __init__(self, program, folder=None, records=True, more=(), people=()):
        self.program = program
        self.own = tempfile.TemporaryDirectory()
        self.tray = Path(self.own.name) / "tray"  # where a stand-in for the print system puts what it is given
        self.tray.mkdir()
        self.printers = Tray(self.tray)
        self.folder = Path(folder or self.own.name) / "records"
        self.folder.mkdir(exist_ok=True)
        if records:
            for file in VISITS.glob("*.yaml"):
                shutil.copy(file, self.folder)
        for person in people:
            self.person(*person)
        self.start(more)

    def person(self, name, role, passphrase="", status=0):
        """At the console."""
        done = subprocess.run([self.program, "desk", self.folder, "--person", name, "--role", role], input=passphrase + "\n", capture_output=True, text=True)
        assert done.returncode == status, done.stderr
        return done.stderr

    def start(self, more=()):
        self.process = subprocess.Popen([self.program, "desk", self.folder, "--today", TODAY, *more], stdout=subprocess.PIPE, text=True,
                                        env={**os.environ, "CUPS_SERVER": f"127.0.0.1:{self.printers.port}"})
        line = self.process.stdout.readline()
        self.scheme, port = re.fullmatch(r"(https?)://127\.0\.0\.1:(\d+)/\n", line).groups()
        self.port = int(port)
        self.host = f"127.0.0.1:{self.port}"
        self.cookie = ""
        self.token = self.get("/api/start")["token"]

    def ask(self, method, path, body=None, headers=None):
        """(status, headers, bytes)"""
        if self.scheme == "https":
            trusting = ssl._create_unverified_context()  # noqa: S323 - the desk's own certificate, checked in a test of its own
            connection = http.client.HTTPSConnection("127.0.0.1", self.port, timeout=20, context=trusting)
        else:
            connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        try:
            connection.request(method, path, body, {"Host": self.host, **({"Cookie": self.cookie} if self.cookie else {}), **(headers or {})})
            answer = connection.getresponse()
            return answer.status, answer.headers, answer.read()
        finally:
            connection.close()

    def get(self, path, **parameters):
        status, _, body = self.ask("GET", path + ("?" + urlencode(parameters) if parameters else ""))
        assert status == 200, (status, body)
        return json.loads(body)

    def post(self, path, body, **headers):
        """(status, answer)"""
        usual = {"Origin": f"{self.scheme}://{self.host}", "X-Desk-Token": self.token, "Content-Type": "application/json"}
        data = body if isinstance(body, bytes) else json.dumps(body, ensure_ascii=False).encode()
        status, _, text = self.ask("POST", path, data, {**usual, **headers})
        return status, json.loads(text)

    def log_in(self, name, passphrase):
        """The status; from now on every request is that person's."""
        data = json.dumps({"name": name, "passphrase": passphrase})
        status, headers, text = self.ask("POST", "/api/login", data, {"Origin": f"{self.scheme}://{self.host}", "X-Desk-Token": self.token})
        if status == 200:
            self.set_cookie = headers["Set-Cookie"]
            self.cookie = self.set_cookie.split(";")[0]
        return status, json.loads(text)

    def body(self, record, name="", version="", draft="", **more):
        """What a window sends: of a record by its name, or of a new visit by a draft's key."""
        return {"draft": draft, "name": name, "window": WINDOW, "version": version, "who": "Ana Brook", "record": record, **more}

    def save(self, name, record, version, **more):
        return self.post("/api/save", self.body(record, name, version, **more))

    def keep(self, record, draft=NEW, **more):
        return self.post("/api/draft", self.body(record, draft=draft, **more))

    def drop(self, data, file="list.csv"):
        """A shelter's list, byte for byte: (status, answer)."""
        return self.post("/api/shelter/drop?" + urlencode({"file": file}), data, **{"Content-Type": "application/octet-stream"})

    def job(self, name, kind, states, seconds=20):
        """The record's job of a kind, as soon as it is in one of these states."""
        jobs = []
        for _ in range(seconds * 10):
            jobs = [one for one in self.get("/api/jobs", name=name)["jobs"] if one["kind"] == kind]
            if jobs and jobs[0]["state"] in states:
                return jobs[0]
            time.sleep(0.1)
        raise AssertionError((name, kind, states, jobs))

    def end(self):
        """Asked to end as by the keyboard; the exit status."""
        self.process.terminate()
        self.process.stdout.close()
        return self.process.wait(timeout=20)

    def kill(self):
        self.process.kill()
        self.process.stdout.close()
        self.process.wait(timeout=20)

    def check(self, name):
        return subprocess.run([self.program, "check", self.folder / name, "--today", TODAY], capture_output=True, text=True)
