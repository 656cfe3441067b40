#!/usr/bin/env python3
"""Shelters' lists as spreadsheets write them: RFC 4180 and its dialects; Windows-1252 by the WHATWG Encoding Standard, through Python's
codec; UTF-16 by RFC 2781. The archive is opened by Python's zipfile, the joined file by its page count."""
import io
import os
import subprocess
import sys
import time
import unittest
import zipfile
from pathlib import Path

sys.path[:0] = [os.path.dirname(__file__), os.path.join(os.path.dirname(__file__), "../common")]
from desk import ROOT, TODAY, Desk  # noqa: E402
from languages import LANGUAGES  # noqa: E402

BASKLEAF = sys.argv.pop(1)
ANIMALS = 40
SIGNER = "Dr Ines Calder"


def rows(decimal):
    """Forty animals of a shelter's own table: titles, letters and units as people write them."""
    species = ("leopard gecko", "ball python", "Eublepharis macularius", "corn snake", "royal python")
    for i in range(ANIMALS):
        yield ["Ñandú “Nº %d”" % i if i % 3 == 0 else f"Juniper {i}", species[i % 5], "MF"[i % 2], ("2 yrs", "18 mo", "1 year 6 months")[i % 3],
               f"0{decimal}{50 + i}", f"José Muñoz {i}"]


TITLES = ["Animal name", "Breed", "Gender", "Age", "Weight (kg)", "New owner"]


def table(separator, line_end, decimal=".", quoted=False):
    def cell(text):
        needs = quoted or separator in text or '"' in text or "\n" in text
        return '"' + text.replace('"', '""') + '"' if needs else text

    return "".join(separator.join(cell(text) for text in row) + line_end for row in [TITLES, *rows(decimal)])


DIALECTS = {
    "UTF-8 with a mark, comma, CRLF": ("\ufeff" + table(",", "\r\n")).encode(),
    "Windows-1252, semicolon, decimal comma, CRLF": table(";", "\r\n", ",").encode("cp1252"),
    "UTF-16 with a mark, tab, CRLF": table("\t", "\r\n", ",").encode("utf-16"),
    "UTF-8, comma, LF, every text quoted": table(",", "\n", quoted=True).encode(),
    "a first line sep=;, CR alone": ("sep=;\r" + table(";", "\r")).encode("cp1252"),
}


class Lists(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.desk = Desk(BASKLEAF, records=False)

    @classmethod
    def tearDownClass(cls):
        assert cls.desk.end() == 0

    def drop(self, text, file="list.csv"):
        status, shown = self.desk.drop(text if isinstance(text, bytes) else text.encode(), file)
        self.assertEqual(status, 200, shown)
        return shown

    def change(self, path, shown, **more):
        status, shown = self.desk.post(f"/api/shelter/{path}", {"id": shown["id"], **more})
        self.assertEqual(status, 200, shown)
        return shown

    def make(self, shown):
        self.assertEqual(self.desk.post("/api/shelter/make", {"id": shown["id"]})[0], 200)
        for _ in range(600):
            making = self.desk.get("/api/shelter", id=shown["id"], progress="yes")["making"]
            if making["ended"]:
                return making
            time.sleep(0.1)
        self.fail(making)

    def faults(self, shown):
        return {row["line"]: [fault["text"] for fault in row["faults"]] for row in shown["rows"] if row["faults"]}

    def test_each_dialect_is_read_untouched(self):
        for name, data in DIALECTS.items():
            shown = self.drop(data, name + ".csv")
            self.assertEqual(self.faults(shown), {}, name)
            self.assertEqual([one["name"] for one in shown["columns"]], ["name", "species", "sex", "age", "mass", "adopter"], name)
            self.assertEqual(len(shown["rows"]), ANIMALS, name)
            first = 3 if data.startswith(b"sep=") else 2
            self.assertEqual([row["line"] for row in shown["rows"]], list(range(first, first + ANIMALS)), name)
            self.assertEqual([row["name"] for row in shown["rows"]], [row[0] for row in rows(".")], name)
            self.assertEqual(shown["rows"][0]["adopter"], "José Muñoz 0", name)
            roster = (self.desk.folder / ".shelter" / shown["id"] / "roster.csv").read_text()
            self.assertIn('"male","2 years","0.50"', roster, name)
            self.assertIn("mass (kg)", roster)
        self.assertLessEqual({f"{name}.csv" for name in DIALECTS}, {one["file"] for one in self.desk.get("/api/shelter/lists")["lists"]}, "earlier lists are found")

    def test_from_a_list_to_one_file(self):
        """The sheets are the command line's, byte for byte; all of them stand in one file for the printer."""
        shown = self.drop((ROOT / "templates" / "rosters" / "spring-day.csv").read_bytes())
        listed = shown["id"]
        self.assertEqual(shown["rows"][0]["name"], "Juniper")
        self.assertFalse(shown["signed"])
        self.assertEqual(self.desk.post("/api/shelter/make", {"id": listed})[1]["error"], "list-not-signed")
        for what in ("sheets", "joined"):
            self.assertEqual(self.desk.ask("GET", f"/api/shelter/{what}?id={listed}")[0], 409)
        self.assertEqual(self.desk.post("/api/shelter/sign", {"id": listed, "by": " "})[0], 422)
        shown = self.change("sign", shown, by=SIGNER)
        self.assertEqual((shown["signed"], shown["by"]), (True, SIGNER))
        making = self.make(shown)
        self.assertTrue(making["good"])
        self.assertEqual((making["done"], making["bad"]), (len(shown["rows"]), 0))
        status, headers, body = self.desk.ask("GET", f"/api/shelter/sheets?id={listed}")
        self.assertEqual((status, headers["Content-Type"]), (200, "application/zip"))
        archive = zipfile.ZipFile(io.BytesIO(body))
        self.assertIsNone(archive.testzip())
        out = self.desk.folder.parent / "packet"
        subprocess.run([BASKLEAF, "packet", self.desk.folder / ".shelter" / listed / "roster.csv", "-o", out, "--today", TODAY], check=True, capture_output=True)
        made = {one.name: one.read_bytes() for one in out.iterdir() if not one.name.startswith(".")}
        self.assertEqual({name: archive.read(name) for name in archive.namelist()}, made)
        self.assertEqual(len([name for name in made if name.endswith(".pdf")]), len(shown["rows"]))
        if making["joined"]:
            status, headers, body = self.desk.ask("GET", f"/api/shelter/joined?id={listed}")
            self.assertEqual((status, headers["Content-Type"], body[:5]), (200, "application/pdf", b"%PDF-"))
        again = self.drop((ROOT / "templates" / "rosters" / "spring-day.csv").read_bytes())
        self.assertTrue(again["signed"], "the same list again is as it was left")

    def test_bad_rows_are_mended_or_left_out_and_the_others_signed(self):
        shown = self.drop("name,species\nFern,ball-python\n\nMoss,no-such-animal\nRoca,boll python\n")
        self.assertEqual([(row["line"], row["good"]) for row in shown["rows"]], [(2, True), (4, False), (5, False)])
        self.assertIn("no-such-animal", self.faults(shown)[4][0])
        status, answer = self.desk.post("/api/shelter/sign", {"id": shown["id"], "by": SIGNER})
        self.assertEqual((status, answer["error"]), (422, "rows-wrong"))
        shown = self.change("mend", shown, line="5", cells=["Roca", "ball python"])
        self.assertEqual([row["line"] for row in shown["rows"] if row["good"] and not row["left"]], [2, 5])
        shown = self.change("leave", shown)
        self.assertEqual([row["line"] for row in shown["rows"] if row["left"]], [4])
        shown = self.change("sign", shown, by=SIGNER)
        self.assertTrue(shown["signed"])
        self.assertEqual(self.make(shown)["done"], 2)
        shown = self.change("leave", shown, line="4", left="no")
        self.assertFalse(shown["signed"], "another row, another signature")
        self.assertEqual(self.desk.get("/api/shelter", id=shown["id"])["rows"][2]["cells"], ["Roca", "ball python"], "what was mended stays")

    def test_a_title_that_nobody_knows_is_asked_for_once(self):
        shown = self.drop("Rufname,Tierart,Colour\nFern,ball python,green\n")
        self.assertEqual(([one["name"] for one in shown["columns"]], shown["rows"]), (["", "", ""], []))
        self.assertIn("missing-column", [one["code"] for one in shown["faults"]])
        self.change("column", shown, column="0", name="name")
        shown = self.change("column", shown, column="1", name="species")
        self.assertEqual([(row["name"], row["good"]) for row in shown["rows"]], [("Fern", True)])
        shown = self.drop("Tierart,Rufname\nball python,Moss\n")
        self.assertEqual([(row["name"], row["good"]) for row in shown["rows"]], [("Moss", True)], "remembered for the next list")
        for more in ({"column": "9", "name": "name"}, {"column": "0", "name": "no-column"}):
            self.assertEqual(self.desk.post("/api/shelter/column", {"id": shown["id"], **more})[0], 400)

    def test_cells_as_people_write_them(self):
        """What could mean two things is left for a person; a mass is never guessed."""
        shown = self.drop("name;species;sex;mass;born;language\n"
                          "A;ball python;M;1,45 kg;14.03.2025;Español\nB;ball python;hembra;1450gr;13/02/2025;en\nC;ball python;?;3 lb 3 oz;2024;english\n"
                          "D;ball python;f;1,450 kg;2025-02-03;es\nE;ball python;f;1.450 g;2025-02-03;es\nF;ball python;f;52 g;3/4/2025;es\n")
        good = {row["name"]: row["good"] for row in shown["rows"]}
        self.assertEqual(good, {"A": True, "B": True, "C": True, "D": False, "E": False, "F": False}, self.faults(shown))
        roster = (self.desk.folder / ".shelter" / shown["id"] / "roster.csv").read_text().splitlines()
        self.assertEqual(roster[1:4], ['2,"A","ball python","male","1.45 kg","2025-03-14","es"', '3,"B","ball python","female","1450 g","2025-02-13","en"',
                                       '4,"C","ball python","unknown","3 lb 3 oz","2024","en"'])

    def test_a_list_in_french(self):
        shown = self.drop("Nom;Espèce;Sexe;Poids;Né le;Langue;Remarques\nA;python royal;femelle;1,45 kg;14.03.2025;français;calme\n"
                          "B;tortue d'Hermann;mâle;900 grammes;2019;fr;\n")
        self.assertEqual({row["name"]: row["good"] for row in shown["rows"]}, {"A": True, "B": True}, self.faults(shown))
        roster = (self.desk.folder / ".shelter" / shown["id"] / "roster.csv").read_text().splitlines()
        self.assertEqual(roster[1:3], ['2,"A","python royal","female","1.45 kg","2025-03-14","fr","calme"', '3,"B","tortue d\'Hermann","male","900 g","2019","fr",""'])

    def test_what_is_no_list_says_what_to_do(self):
        book = io.BytesIO()
        with zipfile.ZipFile(book, "w") as archive:
            archive.writestr("xl/workbook.xml", "<workbook/>")
        old = bytes.fromhex("d0cf11e0a1b11ae1") + bytes(512)
        for data, error in ((book.getvalue(), "list-is-workbook"), (old, "list-is-workbook"), (b"", "list-not-read"), (b"\n", "list-not-read"),
                            (b"only words", "list-not-read"), (b"\x01,\x02\n1,2\n", "list-not-read")):
            status, answer = self.desk.drop(data)
            self.assertEqual((status, answer["error"]), (422, error), data[:20])
        for lang in LANGUAGES:
            self.assertIn("CSV", self.desk.get("/api/start", lang=lang)["words"]["refused.list-is-workbook"])
        for listed in ("../../etc", "0" * 16, "", "ABCDEF0123456789"):
            for what in ("make", "sign", "mend", "leave", "column"):
                self.assertEqual(self.desk.post(f"/api/shelter/{what}", {"id": listed})[0], 404, (what, listed))


if __name__ == "__main__":
    sys.stdout = sys.stderr
    unittest.main(verbosity=2)
