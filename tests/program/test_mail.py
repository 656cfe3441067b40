#!/usr/bin/env python3
"""The mail message, read back by Python's own parser; and sent to a real SMTP server on loopback (Debian's python3-aiosmtpd), with faults at
each stage."""
import asyncio
import collections
import email
import email.header
import email.policy
import html.parser
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

import yaml

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


# RFC 3696, 3 (as its errata 246 and 3563 have it) and RFC 5322, 3.2.3 and 3.4.1: all of them are one address
GOOD = ('"Abc@def"@example.org', '"Fred Bloggs"@example.org', r'"Joe.\\Blow"@example.org', r'"a\"b"@example.org', 'customer/department=shipping@example.org',
        '$A12345@example.org', '!def!xyz%abc@example.org', '_somename@example.org', "o'malley+gecko@sub.example.org", '""@example.org')
# RFC 6531, 3.3 and RFC 6532, 3.1: letters beyond ASCII in both parts
UTF8 = ("núñez@example.org", "hana@bücher.example.org", "用户@例子.example.org", '"núñez peña"@example.org')
# RFC 5322: no dot at an end or beside another, no bare blank, one '@'; RFC 1123, 2.1: no hyphen at a label's end; RFC 5321, 4.5.3.1: 64, 63 and 254 bytes.
# That nothing unseen may stand in one is ours.
BAD = ("a..b@example.org", ".a@example.org", "a.@example.org", "a b@example.org", "a@b@example.org", '"a@example.org', '"a"b@example.org', r'"a\"@example.org',
       "hana", "@example.org", "hana@", "hana@example", "hana@-a.example.org", "hana@a-.example.org", "hana@ex_ample.org", "hana@example.org.", "hana@[192.0.2.1]",
       "h" * 65 + "@example.org", "hana@" + "a" * 64 + ".org", "ú" * 33 + "@example.org", "hana@" + "a.b" * 90 + ".org",
       "ha\u200bna@example.org", "hana@exa\u202emple.org", "ha\u0085na@example.org", "ha\u00a0na@example.org", "Hana <hana@example.org>")


def as_sent(address):
    """Where the local part is ASCII, the domain by Python's own codec for it (RFC 3490)."""
    local, _, domain = address.rpartition("@")
    return f"{local}@{domain.encode('idna').decode()}" if local.isascii() else address


class Addresses(Signed):
    def record(self, address):
        path = self.folder / "visit.yaml"
        path.write_text(PEBBLE.replace("hana.okafor@example.org", json.dumps(address)))
        return path

    def test_one_grammar_for_keeper_and_clinic(self):
        clinic = (ROOT / "tests/common/config/baskleaf/clinic.yaml").read_text()
        for address in GOOD + UTF8 + BAD:
            good = address not in BAD
            done = run("check", self.record(address), *DAY)
            self.assertEqual(done.returncode, 0 if good else 1, (address, done.stderr.decode()))
            if not good:
                self.assertRegex(done.stderr.decode(), r"visit\.yaml:13:\d+: (keeper\.email: is not one plain mail address|the text holds a control character)")
            own = self.folder / "clinic.yaml"
            own.write_text(re.sub(r"(?m)^email:.*$", lambda _: "email: " + json.dumps(address), clinic))
            done = run("check", own, *DAY)
            self.assertEqual(done.returncode, 0 if good else 1, (address, done.stderr.decode()))

    def test_what_a_message_carries(self):
        for address in GOOD + UTF8:
            done = run("mail", self.record(address), "-o", "-", "--drafts", *DAY)
            self.assertEqual(done.returncode, 0, (address, done.stderr.decode()))
            wanted = as_sent(address)
            self.assertIn(f"\r\n <{wanted}>\r\n".encode(), done.stdout)
            head = email.message_from_bytes(done.stdout, policy=email.policy.SMTPUTF8)["To"]
            if wanted.isascii() and address != '""@example.org':
                self.assertEqual(head.defects, ())
                self.assertEqual(len(head.addresses), 1)
                self.assertEqual(head.addresses[0].display_name, "Hana Okafor")
                self.assertEqual(head.addresses[0].domain, wanted.rpartition("@")[2])

    def test_a_soft_hyphen_is_not_sent(self):
        done = run("mail", self.record("ha\u00adna@example.org"), "-o", "-", "--drafts", *DAY)
        self.assertIn(b"<hana@example.org>", done.stdout)

    def test_a_domain_that_none_can_be(self):
        """RFC 5892: a sign such as U+2603 is disallowed in a domain."""
        done = run("mail", self.record("hana@a\u2603b.example.org"), "-o", self.folder / "m.eml", "--drafts", *DAY)
        self.assertEqual(done.returncode, 1, done.stderr)
        self.assertRegex(done.stderr.decode(), r"visit\.yaml:\d+:\d+: .*domain")
        self.assertFalse((self.folder / "m.eml").exists())

    def test_links_are_encoded(self):
        """RFC 6068, 2 and 6: the letter of the e-mail and the PDF have the clinic's address as a target that reads back to it."""
        import urllib.parse
        clinic = (ROOT / "tests/common/config/baskleaf/clinic.yaml").read_text()
        for address in ('"Fred Bloggs"@example.org', "customer/dept=a%b&c?d@example.org", "hana+gecko@bücher.example.org", "núñez@example.org"):
            own = self.folder / "clinic.yaml"
            own.write_text(re.sub(r"(?m)^email:.*$", lambda _: "email: " + json.dumps(address), clinic))
            done = run("mail", self.record("hana@example.org"), "-o", "-", "--drafts", "--clinic", own, *DAY)
            self.assertEqual(done.returncode, 0, done.stderr.decode())
            letter, *_ = email.message_from_bytes(done.stdout, policy=email.policy.default).iter_parts()
            links = {link for link in Page(content(list(letter.iter_parts())[1])).links if link.startswith("mailto:")}
            self.assertEqual(len(links), 1, links)
            target = links.pop()
            self.assertRegex(target, r"^mailto:(?:[A-Za-z0-9._~+-]|%[0-9A-F]{2})+@(?:[A-Za-z0-9.-]|%[0-9A-F]{2})+$")
            self.assertEqual(urllib.parse.unquote(target.removeprefix("mailto:")), address)


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
        letter, pdf, phone, calendar = message.iter_parts()
        text, html = letter.iter_parts()
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
        self.assertEqual(phone.get_filename(), "pebble-hana-okafor-2026-03-17.phone.pdf")
        self.assertEqual([part.get_content_type() for part in (letter, text, html, pdf, phone)],
                         ["multipart/alternative", "text/plain", "text/html", "application/pdf", "application/pdf"])
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

    def test_what_is_under_a_password_is_told_nowhere_else(self):
        """The letter says that there is a sheet and how it opens; nothing of the visit stands in what anybody can read."""
        password = self.folder / "password"
        password.write_text("salt-and-reed-7\n")
        os.chmod(password, 0o600)
        message, _ = self.message(self.signed(), "--password-file", password)
        letter, *files = message.iter_parts()
        for part in letter.iter_parts():
            words = " ".join(part.get_content().replace("\xa0", " ").split())
            self.assertIn("The sheet is added as a PDF that opens with the password you got from us.", words)
            self.assertNotIn("30\N{EN DASH}34", words)
            self.assertNotIn("salt-and-reed-7", words)
        self.assertEqual(message["Subject"].strip(), "Pebble")
        self.assertTrue(all(b"/Encrypt" in part.get_content() for part in files if part.get_content_type() == "application/pdf"))

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
        self.assertRegex(done.stderr.decode(), r"visit\.yaml:\d+:\d+: there is no mail address of the keeper")

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


class Page(html.parser.HTMLParser):
    """What a page shows, as words, a table's cell after its head as one reads it; what it asks for; whether each element is closed in order."""
    EMPTY = {"meta", "br"}
    INLINE = {"a", "b", "span"}

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.tags, self.links, self.text, self.open, self.lang, self.styles = set(), [], "", [], None, []
        self.heads, self.cell, self.index, self.scope = [], "", 0, None
        self.feed(text)
        self.close()
        self.words = self.text.split()

    def handle_starttag(self, tag, attributes):
        self.tags.add(tag)
        self.text += "" if tag in self.INLINE else " "
        values = dict(attributes)
        self.lang = values.get("lang") if tag == "html" else self.lang
        self.styles.append(values.get("style", ""))
        if tag == "table":
            self.heads = []
        if tag == "tr":
            self.index = 0
        if tag in ("td", "th"):
            self.scope, self.cell = values.get("scope"), ""
        assert not set(values) - {"lang", "charset", "name", "content", "style", "href", "scope"}, attributes
        if tag == "a":
            self.links.append(values["href"])
        if tag not in self.EMPTY:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag, tag
        self.text += "" if tag in self.INLINE else " "
        if tag not in ("td", "th"):
            return
        if self.scope == "col":
            self.heads.append(self.cell)
        elif self.cell.strip():
            self.text += (f"{self.heads[self.index]}: " if self.heads and self.heads[self.index] else "") + self.cell + " "
        self.index += 1

    def handle_data(self, data):
        if "td" in self.open or "th" in self.open:
            self.cell += data
        elif "title" not in self.open:
            self.text += data


def content(part):
    return part.get_content().replace("\r\n", "\n")


def unflowed(text):
    """RFC 3676, 4.2 and 4.4, DelSp=no: a line that ends in a space goes on; one space at a line's start is taken off."""
    paragraphs, before = [], ""
    for line in text.split("\n"):
        line = line[1:] if line.startswith(" ") else line
        before += line
        if not line.endswith(" "):
            paragraphs.append(before)
            before = ""
    assert before == "", "the last paragraph ends"
    return paragraphs


def text_words(text):
    """Without what only a text needs: marks of lists, rules below headings."""
    words = " ".join(re.sub(r"^\s*(- +|\[ \] +|\d+\. +|! )", "", line) for line in unflowed(text) if not re.fullmatch(r"\s*(=+|-+|\.+)", line))
    return [word for word in words.split() if word not in ("[", "]")]


ILL = (ROOT / "tests/sheet/cases/vomiting-thin-ball-python.yaml").read_text()
CASES = ("vomiting-thin-ball-python", "warm-ammonia-axolotl", "overheated-day-gecko", "prolapse-replaced-iguana", "winter-rest-tortoise", "surgery-veiled-chameleon")


def with_address(text):
    """Each example and case has a keeper; an address is all that some lack. Every value stays the text that it is."""
    record = yaml.load(text, Loader=yaml.BaseLoader)
    record.setdefault("keeper", {}).setdefault("email", "hana.okafor@example.org")
    return record


class Letter(Signed):
    """RFC 2045 and 2046: lines, boundaries, the best alternative last. RFC 3676: flowed text. The page is read by Python's html.parser."""

    def parts(self, record, *words):
        path = self.folder / "visit.yaml"
        path.write_text(record if isinstance(record, str) else json.dumps(record, ensure_ascii=False))
        day = re.search(r"\d{4}-\d\d-\d\d", path.read_text())[0]
        done = run("mail", path, "-o", "-", "--drafts", "--today", day, *words)
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        message = email.message_from_bytes(done.stdout, policy=email.policy.default)
        self.assertEqual([part.defects for part in message.walk() if part.defects], [])
        letter, pdf, phone, *_ = message.iter_parts()
        text, page = letter.iter_parts()
        return message, text, page, pdf, phone

    def test_both_alternatives_say_the_same(self):
        for name in CASES + ("examples",):
            files = [ROOT / f"tests/sheet/cases/{name}.yaml"] if name != "examples" else sorted((ROOT / "templates/visits").glob("*.yaml"))
            for file in files:
                for language in ("en", "es"):
                    _, text, page, _, _ = self.parts(with_address(file.read_text()), "--language", language)
                    shown = Page(content(page))
                    self.assertEqual(shown.lang, language)
                    self.assertEqual(shown.open, [])
                    words = [word for word in shown.words if word != "\N{BALLOT BOX}"]
                    self.assertEqual(text_words(content(text)), words, (file.name, language))

    def test_flowed_text(self):
        _, text, _, _, _ = self.parts(PEBBLE)
        self.assertEqual(text["Content-Type"].params["format"], "flowed")
        self.assertEqual(text["Content-Type"].params["charset"], "utf-8")
        self.assertNotIn("delsp", text["Content-Type"].params)
        lines = content(text).split("\n")
        self.assertTrue(any(line.endswith(" ") for line in lines))
        self.assertLessEqual(max(map(len, lines)), 78)
        self.assertFalse([line for line in lines if line.startswith((">", "From "))])
        self.assertFalse([line for line in unflowed(content(text)) if re.search(r"\S  ", line.lstrip(" -"))], "no indent is left inside a paragraph")

    def test_a_paragraph_that_looks_like_a_quotation(self):
        """RFC 3676, 4.4: what begins with >, a space or "From " is stuffed with a space."""
        for name in ("From Russia", "> Pebble"):
            record = with_address(PEBBLE)
            record["patient"]["name"] = name
            _, text, _, _, _ = self.parts(record)
            self.assertIn("\n " + name, content(text))
            self.assertFalse([line for line in content(text).split("\n") if line.startswith((">", "From "))])
            self.assertIn(name, unflowed(content(text)))

    def test_the_page_asks_for_nothing(self):
        for record in (PEBBLE, ILL):
            _, _, page, _, _ = self.parts(with_address(record))
            html_text = content(page)
            shown = Page(html_text)
            self.assertFalse(shown.tags & {"img", "script", "style", "link", "iframe", "object", "form", "video", "svg", "base"}, shown.tags)
            self.assertNotRegex(html_text, r"(?i)url\(|@import|src=|http:|javascript:|cid:")
            self.assertLessEqual(set(shown.links), {"tel:5550142", "tel:5550199", "mailto:desk@fernhollow.example.org", "https://fernhollow.example.org"})
            self.assertLess(len(html_text.encode()), 100_000, "some readers cut what is longer")
            # what is pressed is 44 px high or more: WCAG 2.2, 2.5.5
            buttons = [style for style in shown.styles if "min-height" in style]
            self.assertGreaterEqual(len(buttons), 2)
            for style in buttons:
                height = int(re.search(r"min-height:(\d+)px", style)[1]) + 2 * int(re.search(r"padding:(\d+)px", style)[1])
                self.assertGreaterEqual(height, 44)
            # read on a narrow screen: nothing has a width in points of its own
            self.assertNotRegex(html_text, r"[^-]width:\d+px")

    def test_all_is_escaped(self):
        nasty = "<img src=x onerror=alert(1)> & \"Q\" 'z' </p>"
        record = with_address(PEBBLE)
        record["patient"]["name"] = nasty
        record["keeper"]["name"] = "<b>Hana</b>"
        record["findings"] = [{"code": "retained-shed", "severity": "mild", "where": "tail", "note": "<script>alert(1)</script>"}]
        _, _, page, _, _ = self.parts(record)
        shown = Page(content(page))
        self.assertEqual(shown.open, [])
        self.assertFalse(shown.tags & {"img", "script"})
        said = " ".join(shown.words)
        for text in (nasty, "<b>Hana</b>", "<script>alert(1)</script>"):
            self.assertIn(text, said)
        self.assertNotIn("<script", content(page))

    def test_the_subject_says_who_and_what(self):
        for record, english, spanish in (
                ((ROOT / "templates/visits/biscuit-ball-python.yaml").read_text(), "Biscuit: tonight warm the basking spot", "Biscuit: esta noche "),
                (PEBBLE, "Pebble: ", "Pebble: ")):
            for language, wanted, draft in (("en", english, "DRAFT: "), ("es", spanish, "BORRADOR: ")):
                message, text, page, _, _ = self.parts(with_address(record), "--language", language)
                self.assertTrue(message["Subject"].startswith(draft + wanted), message["Subject"])
                self.assertTrue(Page(content(page)).words[:2], "the page begins with the state")
                self.assertRegex(unflowed(content(text))[0], "Draft|Borrador")

    def test_at_once_and_unmeasured(self):
        limp = with_address(PEBBLE)
        limp["findings"] = [{"code": "limp", "severity": "severe", "state": "go-now"}]
        message, text, page, _, _ = self.parts(limp)
        self.assertEqual(message["Subject"], "DRAFT: Pebble: go to a clinic now")
        self.assertIn("#FFFFFF", content(page))
        bare = {"visit": {"date": "2026-03-17", "kind": "checkout"}, "patient": {"name": "Fern", "species": "corn-snake"},
                "keeper": {"name": "Hana", "email": "hana@example.org"}}
        message, *_ = self.parts(bare)
        self.assertEqual(message["Subject"], "DRAFT: Fern: measure the box tonight")

    def test_the_phone_pdf_says_what_the_page_says(self):
        if not shutil.which("pdftotext"):
            self.skipTest("pdftotext is needed")
        _, text, page, _, phone = self.parts(with_address(ILL))
        file = self.folder / "phone.pdf"
        file.write_bytes(phone.get_content())
        size = subprocess.run(["pdfinfo", file], capture_output=True, text=True, check=True).stdout
        self.assertRegex(size, r"Page size: +240 x 520 pts")
        drawn = subprocess.run(["pdftotext", "-raw", file, "-"], capture_output=True, text=True, check=True).stdout.split()
        counted = collections.Counter(drawn)
        letter = collections.Counter(word for word in text_words(content(text)))
        # all but the few sentences of the letter around it
        missing = letter - counted
        self.assertLess(sum(missing.values()), 60, missing)
        for word in ("Tonight", "555-0142", "555-0199"):
            self.assertIn(word, counted)


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
                                  ("end of data", "451 later", b"later"),
                                  # the ends of what RFC 5321, 4.2.1, calls transient and permanent
                                  ("end of data", "400 later", b"later"), ("end of data", "499 later", b"later"), ("end of data", "500 no", b"refused")):
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

    def test_a_link_to_a_record_is_that_record(self):
        visit = self.signed()
        link = self.folder / "link.yaml"
        link.symlink_to(visit)
        server = Stage({})
        self.assertEqual(self.send(visit, self.settings(server.port)).returncode, 0)
        second = Stage({})
        again = self.send(link, self.settings(second.port))
        self.assertEqual((again.returncode, second.seen), (1, []), again.stderr.decode())

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

    def test_addresses_beyond_ascii(self):
        """RFC 6531, 3.1 and 3.4: SMTPUTF8 stands behind MAIL only where an address needs it; where the server does not announce it, nothing is said."""
        for keeper, announced, sent in (("hana@bücher.example.org", False, True), ("hana@bücher.example.org", True, True), ('"Fred Bloggs"@example.org', False, True),
                                        ('"a@b"@bücher.example.org', False, True), ("núñez@example.org", True, True), ("núñez@bücher.example.org", True, True),
                                        ("núñez@example.org", False, False)):
            got, options = [], []

            class Handler:
                async def handle_MAIL(self, server, session, envelope, address, mail_options):
                    envelope.mail_from = address
                    options.append(mail_options)
                    return "250 SMTPUTF8 is known here"  # what stands behind a code is said to nobody (RFC 5321, 4.2)

                async def handle_DATA(self, server, session, envelope):
                    got.append((envelope.rcpt_tos, envelope.content))
                    return "250 taken"

            server = Controller(Handler(), hostname="127.0.0.1", port=0, enable_SMTPUTF8=announced)
            server.port = socket.create_server(("127.0.0.1", 0)).getsockname()[1]
            server.start()
            try:
                (self.folder / "visit.yaml").unlink(missing_ok=True)
                (self.folder / "visit.yaml.sent").unlink(missing_ok=True)
                visit = self.signed(PEBBLE.replace("hana.okafor@example.org", json.dumps(keeper)))
                done = self.send(visit, self.settings(server.port), "--replace")
                self.assertEqual(done.returncode, 0 if sent else 1, (keeper, announced, done.stderr.decode()))
                if not sent:
                    self.assertEqual((got, options), ([], []))
                    self.assertRegex(done.stderr.decode(), r"visit\.yaml:\d+:\d+: .*SMTPUTF8.*nothing was sent")
                    self.assertFalse((self.folder / "visit.yaml.sent").exists())
                    continue
                self.assertEqual([[word for word in words if word == "SMTPUTF8"] for words in options], [[] if as_sent(keeper).isascii() else ["SMTPUTF8"]], keeper)
                domain = keeper.rpartition("@")[2].encode("idna").decode()  # an envelope may have it in ASCII beside a local part that is not
                self.assertIn(got[0][0][0], (as_sent(keeper), keeper.rpartition("@")[0] + "@" + domain))
                self.assertIn(f"<{as_sent(keeper)}>".encode(), got[0][1])
            finally:
                server.stop()

    def test_drafts_are_not_sent(self):
        path = self.folder / "visit.yaml"
        path.write_text(PEBBLE)
        server = Stage({})
        self.assertEqual(self.send(path, self.settings(server.port)).returncode, 1)
        self.assertEqual(server.seen, [])


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
