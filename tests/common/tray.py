#!/usr/bin/env python3
"""A stand-in for a print system: takes jobs over IPP on loopback and puts each one's bytes under its title into a folder.

    tray.py FOLDER          prints its port, then serves until standard input ends

A file in the folder makes a fault: `jam` refuses every job, `cut` hangs up when a document comes, `silent` never answers, `paused` keeps jobs waiting
before a printer that stands still, `lost` aborts them. The text of `state` is a number of RFC 8011, 5.3.7, and behind a blank why, for every job;
that of `media` stands for the printer's usual paper; `none` takes the printer away.
"""
import http.server
import sys
import threading
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
from ipp import BOOLEAN, CHARSET, ENUM, INTEGER, JOB, KEYWORD, LANGUAGE, MEDIA_TYPE, NAME, OPERATION, PRINTER, TEXT, URI, decode, encode  # noqa: E402

OK, NOT_FOUND, NOT_ACCEPTING = 0x0000, 0x0406, 0x0506
CREATE_JOB, SEND_DOCUMENT, CANCEL_JOB, GET_JOB, GET_PRINTER, GET_DEFAULT, GET_PRINTERS = 0x0005, 0x0006, 0x0008, 0x0009, 0x000B, 0x4001, 0x4002
TRAY = "Tray"


class Tray(http.server.ThreadingHTTPServer):
    daemon_threads = True

    def __init__(self, folder):
        super().__init__(("127.0.0.1", 0), Answers)
        self.folder, self.titles, self.canceled, self.asked = Path(folder), {}, [], []
        self.port = self.server_address[1]
        threading.Thread(target=self.serve_forever, daemon=True).start()

    def handle_error(self, *_):
        """Whoever hangs up early is in the test."""

    def printer(self):
        uri = f"ipp://127.0.0.1:{self.port}/printers/{TRAY}"
        return [(NAME, "printer-name", TRAY), (URI, "printer-uri-supported", uri), (ENUM, "printer-state", 5 if self.is_set("paused") else 3),
                (KEYWORD, "printer-state-reasons", "paused" if self.is_set("paused") else "none"),
                (BOOLEAN, "printer-is-accepting-jobs", 1), (INTEGER, "printer-type", 0x1000), (TEXT, "printer-info", "a tray"),
                (MEDIA_TYPE, "document-format-supported", "application/pdf"), (KEYWORD, "sides-supported", ["one-sided", "two-sided-long-edge"]),
                (KEYWORD, "media-supported", ["iso_a4_210x297mm", "na_letter_8.5x11in"]), (KEYWORD, "media-default", self.text("media") or "iso_a4_210x297mm"),
                (KEYWORD, "job-creation-attributes-supported", ["copies", "media", "sides"]), (KEYWORD, "ipp-versions-supported", ["1.1", "2.0"]),
                (ENUM, "operations-supported", [CREATE_JOB, SEND_DOCUMENT, CANCEL_JOB, GET_JOB, GET_PRINTER])]

    def is_set(self, fault):
        return (self.folder / fault).exists()

    def text(self, fault):
        return (self.folder / fault).read_text().strip() if self.is_set(fault) else ""

    def answer(self, code, asked, document):
        """(status, what the status means, groups)"""
        if self.is_set("none") or asked.get("printer-uri", [TRAY])[0].rpartition("/")[2] not in (TRAY, ""):
            return NOT_FOUND, "no such printer", []
        if code in (GET_DEFAULT, GET_PRINTER, GET_PRINTERS):
            return OK, "", [(PRINTER, self.printer())]
        if code == CREATE_JOB:
            if self.is_set("jam"):
                return NOT_ACCEPTING, "out of paper", []
            self.asked.append(asked)
            number = len(self.titles) + 1
            self.titles[number] = asked["job-name"][0]
            return OK, "", [(JOB, [(INTEGER, "job-id", number), (ENUM, "job-state", 3)])]
        if code == SEND_DOCUMENT:
            (self.folder / Path(self.titles[asked["job-id"][0]]).name).write_bytes(document)
            return OK, "", [(JOB, [(INTEGER, "job-id", asked["job-id"][0]), (ENUM, "job-state", 3)])]
        if code == GET_JOB:  # RFC 8011, 5.3.7: 3 pending, 8 aborted, 9 completed
            state = 8 if self.is_set("lost") else 3 if self.is_set("paused") else 9
            number, _, why = self.text("state").partition(" ")
            return OK, "", [(JOB, [(INTEGER, "job-id", asked["job-id"][0]), (ENUM, "job-state", int(number or state)), (KEYWORD, "job-state-reasons", why or "none")])]
        if code == CANCEL_JOB:
            self.canceled.append(asked["job-id"][0])
            return OK, "", []
        return NOT_FOUND, "a tray does not do that", []


class Answers(http.server.BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def log_message(self, *_):
        pass

    def body(self):
        if self.headers.get("Transfer-Encoding") != "chunked":
            return self.rfile.read(int(self.headers.get("Content-Length", 0)))
        parts = []
        while size := int(self.rfile.readline(), 16):
            parts.append(self.rfile.read(size))
            self.rfile.readline()
        self.rfile.readline()
        return b"".join(parts)

    def do_POST(self):
        tray = self.server
        while tray.is_set("silent"):
            time.sleep(0.1)
        code, number, asked, document = decode(self.body())
        if code == SEND_DOCUMENT and tray.is_set("cut"):
            self.close_connection = True
            return
        status, text, groups = tray.answer(code, asked, document)
        head = [(CHARSET, "attributes-charset", "utf-8"), (LANGUAGE, "attributes-natural-language", "en")]
        if text:
            head.append((TEXT, "status-message", text))
        data = encode(status, [(OPERATION, head), *groups], number)
        self.send_response(200)
        self.send_header("Content-Type", "application/ipp")
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        self.wfile.write(data)


if __name__ == "__main__":
    tray = Tray(sys.argv[1])
    print(tray.port, flush=True)
    sys.stdin.read()
