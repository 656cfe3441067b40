#!/usr/bin/env python3
"""Reviewing a species sheet at the desk: the command's own list and its own file, by a veterinarian alone."""
import json
import os
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path


sys.path.insert(0, os.path.dirname(__file__))
from desk import ROOT, TODAY, Desk  # noqa: E402

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402

BASKLEAF = sys.argv.pop(1)
LANGUAGES = sorted(p.name for p in (ROOT / "templates" / "wording").iterdir())
ANA, INES = ("Ana Brook", "reception", "four plain words here"), ("Dr Ines Calder", "veterinarian", "another four words now")
EDITION = "Handbook of Reptile Care, 2nd edition"
has_people = "built without" not in subprocess.run([BASKLEAF, "desk", "/", "--person", "Ana Brook", "--role", "none"], capture_output=True, text=True).stderr


class DeskReview(unittest.TestCase):
    def open(self, people=()):
        self.own = Path(self.enterContext(tempfile.TemporaryDirectory()))
        self.desk = Desk(BASKLEAF, more=("--species-dir", str(self.own)), people=people)
        self.addCleanup(self.desk.end)
        if people:
            self.enter(people[0])

    def enter(self, person):
        self.assertEqual(self.desk.log_in(person[0], person[2])[0], 200)

    def listed(self, species="ball-python", **more):
        return self.desk.get("/api/review", species=species, **more)

    def settle(self, key, value="", species="ball-python", **more):
        return self.desk.post("/api/review", {"species": species, "key": key, "value": value, "by": "Dr Ines Calder", **more})

    def command(self, *words):
        return subprocess.run([BASKLEAF, "review", "ball-python", "--species-dir", self.own, "--today", TODAY, *words], capture_output=True, text=True, check=True).stdout

    def test_the_list_is_the_commands(self):
        self.open()
        shown, command = self.listed(), json.loads(self.command("--json"))
        self.assertEqual(shown["trust"], command["trust"])
        self.assertEqual([{k: v for k, v in value.items() if k not in ("written", "says")} for value in shown["values"]], command["values"])
        one = next(x for x in self.desk.get("/api/reviews")["species"] if x["code"] == "ball-python")
        self.assertEqual(one["trust"], command["trust"])

    def test_each_value_says_what_it_drives_in_the_pages_language(self):
        """The sentence of templates/wording with the value in its place: 32-34 C of the sheet."""
        self.open()
        for lang in LANGUAGES:
            basking = self.listed(lang=lang)["values"][0]
            self.assertEqual(basking["key"], "temperature.basking-surface")
            self.assertTrue(any("32–34" in text for text in basking["says"]), basking["says"])
            self.assertFalse(any("{" in text for text in basking["says"]))
            self.assertNotEqual(basking["says"], self.listed(lang="es" if lang == "en" else "en")["values"][0]["says"])

    def test_every_value_has_its_name(self):
        self.open()
        species = [x["code"] for x in self.desk.get("/api/reviews")["species"]]
        self.assertEqual(len(species), len(list((ROOT / "species-sheets").glob("*.yaml"))))
        keys = {value["key"] for code in species for value in self.listed(code)["values"]}
        self.assertGreater(len(keys), 60)
        for lang in LANGUAGES:
            words = self.desk.get("/api/start", lang=lang)["words"]
            for key in keys:
                group, *rest = key.split(".")
                name = f"{group}.{rest[-1]}"
                self.assertTrue(f"value.{name}" in words or f"field.targets.{rest[-1]}" in words, (lang, key))
                for part in (p for one in rest[1:-1] for p in one.split("+")):
                    self.assertTrue(f"value.of.{part}" in words or f"choice.{part}" in words, (lang, key, part))

    def test_confirmed_and_changed_by_the_commands_own_code(self):
        self.open()
        before = self.listed()["trust"]
        status, after = self.settle("temperature.warm-side", edition=EDITION)
        self.assertEqual((status, after["trust"]["left"], after["trust"]["by"], after["trust"]["on"]), (200, before["left"] - 1, "Dr Ines Calder", TODAY))
        status, after = self.settle("temperature.basking-surface", "33-35 C", edition=EDITION, reason="what our patients do well at")
        self.assertEqual((status, after["trust"]["left"]), (200, before["left"] - 2))
        at_the_desk = (self.own / "ball-python.yaml").read_bytes()
        entry = read_yaml(at_the_desk)["reviewed"]["temperature.basking-surface"]
        self.assertEqual((entry["value"], entry["by"], entry["edition"], entry["reason"]), ("33-35 C", "Dr Ines Calder", EDITION, "what our patients do well at"))
        (self.own / "ball-python.yaml").unlink()
        by = ("--by", "Dr Ines Calder", "--edition", EDITION)
        self.command(*by, "--confirm", "temperature.warm-side")
        self.command(*by, "--set", "temperature.basking-surface=33-35 C", "--reason", "what our patients do well at")
        self.assertEqual((self.own / "ball-python.yaml").read_bytes(), at_the_desk)

    def test_what_is_shown_to_be_changed_is_the_value_itself(self):
        """Set to what its field begins with, a value stays ours: nothing is rounded on the way."""
        self.open()
        for species in ("ball-python", "axolotl", "hermanns-tortoise"):
            for value in self.listed(species)["values"]:
                status, answer = self.settle(value["key"], value["written"], species)
                self.assertEqual(status, 200, (species, value["key"], value["written"], answer))
                now = next(x for x in answer["values"] if x["key"] == value["key"])
                self.assertEqual((now["metric"], now["trust"], now["source"]), (value["metric"], value["trust"], value["source"]), value["key"])
            self.assertEqual(self.listed(species)["trust"]["left"], 0)

    def test_what_cannot_be_is_refused_and_nothing_is_written(self):
        self.open()
        for key, value, more, error in (("temperature.basking-surface", "34-60 C", {}, "value-refused"), ("temperature.nigth", "", {}, "value-refused"),
                                        ("temperature.night", "24-26 C; temperature.warm-side=20 C", {}, "not-one-line"),
                                        ("temperature.night,humidity.range", "", {}, "not-one-line"), ("", "", {}, "not-one-line"),
                                        ("temperature.night", "", {"edition": "a\nb"}, "not-one-line"), ("temperature.night", "", {"species": "../../etc/passwd"}, "no-species"),
                                        ("temperature.night", ["24 C"], {}, "not-understood"), ("light.ferguson-zone", "9", {}, "value-refused"),
                                        ("temperature.night", "", {"by": "x"}, "veterinarian-is-missing")):
            status, answer = self.settle(key, value, **more)
            self.assertEqual((status, answer["error"]), ({"no-species": 404, "not-understood": 400}.get(error, 422), error), (key, value))
        self.assertEqual(list(self.own.iterdir()), [])
        self.assertEqual(self.desk.ask("GET", "/api/review?species=..%2f..%2fx")[0], 404)

    @unittest.skipUnless(has_people, "built without people")
    def test_only_a_veterinarian_under_her_own_name(self):
        self.open(people=(ANA, INES))
        status, answer = self.settle("temperature.night")
        self.assertEqual((status, answer["error"]), (403, "not-a-veterinarian"))
        self.assertEqual(list(self.own.iterdir()), [])
        self.enter(INES)
        self.assertEqual(self.settle("temperature.night", by="Dr Nobody At All")[1]["trust"]["by"], "Dr Ines Calder")

    def test_the_plan_follows_at_once_and_the_signature_asks_again(self):
        self.open()
        name = "biscuit-ball-python.yaml"
        version = self.desk.get("/api/record", name=name)["version"]
        self.assertEqual(self.desk.post("/api/sign", {"name": name, "version": version, "by": "Dr Ines Calder"})[0], 200)
        self.assertEqual(self.desk.get("/api/record", name=name)["state"], "ready")
        self.settle("temperature.basking-surface", "33-35 C")
        self.assertEqual(self.desk.get("/api/record", name=name)["state"], "sign")


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
