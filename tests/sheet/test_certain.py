#!/usr/bin/env python3
"""What is only suspected is told as such and cared for as if it were so; tissue that was put back is told as put back. Common practice, no source."""
import json
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-16"


def run(command, visit, *words):
    return subprocess.run([PROGRAM, command, "-", "--today", TODAY, *words], input=json.dumps(visit), capture_output=True, text=True, cwd=ROOT, timeout=60)


def record(species, lang="en", kind="checkout", veterinarian=True, **parts):
    return {"visit": {"date": TODAY, "kind": kind, **({"veterinarian": "Dr Ines Calder"} if veterinarian else {})},
            "patient": {"name": "Fern", "species": species, "sex": "male"}, "keeper": {"name": "Ana", "language": lang, "units": "metric"}, **parts}


def printed(visit):
    with tempfile.TemporaryDirectory() as folder:
        done = run("sheet", visit, "-o", f"{folder}/s.pdf")
        assert done.returncode == 0, done.stderr
        text = subprocess.run(["pdftotext", "-raw", f"{folder}/s.pdf", "-"], capture_output=True, text=True, check=True).stdout
        return " ".join(text.replace("\u00a0", " ").split())


def plan(visit):
    done = run("explain", visit, "--json")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def gout(certainty=None, lang="en", kind="checkout", **more):
    return record("panther-chameleon", lang, kind, findings=[{"code": "gout", "severity": "moderate", **({"certainty": certainty} if certainty else {}), **more}])


class Certain(unittest.TestCase):
    def test_nothing_says_a_suspicion_as_proven(self):
        """Its name stands nowhere without its doubt, what it means is said as what it would mean, and no reason takes it for granted."""
        words = {"en": ("Gout", "Perhaps gout", "We suspect this", "The joints hurt"), "es": ("Gota", "Quizá gota", "Lo sospechamos", "Las articulaciones duelen"),
                 "fr": ("Goutte", "Goutte, à confirmer", "Nous le soupçonnons", "Les articulations")}
        for lang, (name, doubt, meaning, _) in words.items():
            for kind in ("checkout", "email", "large-print", "phone"):
                text = printed(gout("suspected", lang, kind))
                self.assertIn(doubt, text, (lang, kind))
                self.assertIn(meaning, text, (lang, kind))
                self.assertNotRegex(text.replace(doubt, ""), rf"\b{name}\b", (lang, kind))
                text = printed(gout("certain", lang, kind))
                self.assertNotIn(doubt, text)
                self.assertNotIn(meaning, text)
                self.assertRegex(text, rf"\b{name}\b")

    def test_a_reason_says_the_doubt(self):
        self.assertIn("Why: Perhaps gout. Until we know, we act as if it were so.", printed(gout("suspected")))
        self.assertNotIn("Until we know", printed(gout()))

    def test_care_is_the_same(self):
        """The cautious stance: all that is told to do, in the same order, with the same signs to go for."""
        sure, unsure = plan(gout()), plan(gout("suspected"))
        for key in ("actions", "stances", "warnings", "dates", "cautions"):
            self.assertEqual(sure[key], unsure[key], key)
        self.assertEqual([[f["certainty"] for f in p["findings"]] for p in (sure, unsure)], [["certain"], ["suspected"]])

    def test_a_name_that_doubts_already_does_not_doubt_twice(self):
        text = printed(record("ball-python", findings=[{"code": "serpentovirus-suspect", "severity": "mild", "certainty": "suspected"}]))
        self.assertIn("Perhaps a snake virus", text)
        self.assertNotIn("Perhaps perhaps", text)

    def test_what_is_normal_is_not_suspected(self):
        done = run("explain", record("ball-python", findings=[{"code": "mouth", "severity": "normal", "certainty": "suspected"}]))
        self.assertEqual(done.returncode, 1)
        self.assertIn("what is normal is not suspected", done.stderr)

    def test_tissue_that_was_put_back_is_not_out(self):
        """In the banner, in what was found and in what to go for; and what was seen without a word of putting back is past all the same."""
        out = {"en": ("Tissue out at the rear", "Tissue hanging out"), "es": ("Tejido fuera por detrás", "Tejido que"), "fr": ("Tissu sorti à l'arrière", "Tissu qui")}
        back = {"en": "We put tissue back in at the rear", "es": "Volvimos a meter tejido por detrás", "fr": "Tissu que nous avons remis à l'arrière"}
        seen = {"en": "Tissue came out at the rear", "es": "Salió tejido por detrás", "fr": "Du tissu était sorti à l'arrière"}
        again = {"en": "tissue comes out again", "es": "Vuelve a salir el tejido", "fr": "tissu ressort"}
        for lang in out:
            for species in ("whites-tree-frog", "leopard-gecko"):
                found = [{"code": "prolapse", "severity": "mild"}]
                for text, name in ((printed(record(species, lang, findings=found, **{"done-today": ["prolapse-replaced"]})), back), (printed(record(species, lang, findings=found)), seen)):
                    self.assertIn(name[lang], text)
                    self.assertIn(again[lang], text)
                    for words in out[lang]:
                        self.assertNotIn(words, text)
                text = printed(record(species, lang, veterinarian=False, kind="adoption", findings=found))
                self.assertIn(out[lang][0], text)
                self.assertNotIn(again[lang], text)

    def test_a_lamp_without_uvb_to_rely_on_is_not_measured(self):
        """An LED lamp that nobody measured: no reading of it is asked for and no day is named for a new one, but which lamp to ask for this week; the
        powder is that of an animal without UVB. One that a meter read is judged by its reading, as any (common practice, no source)."""
        words = {"en": ("UVB tube", "measured", "New UVB lamp"), "es": ("tubo UVB", "medir la lámpara", "ámpara UVB nueva"), "fr": ("tube UVB", "mesurer la lampe", "ampe UVB neuve")}
        led, tube = ({"lamp": {"kind": kind, "installed": "2025-12-01", "height": "30 cm", "hours": 12}, "lid": "mesh", "size": "120 x 60 x 60 cm"} for kind in ("led", "tube"))
        for lang, (ask, measure, new) in words.items():
            for findings in ([], [{"code": "bent-bones", "severity": "mild"}]):
                text = printed(record("bearded-dragon", lang, enclosure=led, findings=findings))
                self.assertIn(ask, text, lang)
                self.assertIn("LED", text)
                self.assertNotRegex(text, f"{measure}|{new} [0-9]", lang)
                other = printed(record("bearded-dragon", lang, enclosure=tube, findings=findings))
                self.assertNotIn(ask, other)
                self.assertRegex(other, measure)
        dark, lit = plan(record("bearded-dragon", enclosure=led)), plan(record("bearded-dragon", enclosure=tube))
        none = plan(record("bearded-dragon", enclosure={**led, "lamp": {"kind": "none"}}))
        self.assertEqual(dark["feeding"]["supplements"], none["feeding"]["supplements"])
        self.assertEqual((dark["uvb"]["lamp"], dark["uvb"]["lamp_due"], [d for d in dark["dates"] if d["what"] == "lamp-change"]), ("unreliable", None, []))
        self.assertEqual(lit["uvb"]["lamp"], "unmeasured")
        read = plan(record("bearded-dragon", enclosure={**led, "lamp": {**led["lamp"], "measured": {"uvi": 3.2, "at": "30 cm"}}}))
        self.assertNotEqual(read["uvb"]["lamp"], "unreliable")

    def test_the_banner_names_what_the_keeper_treats(self):
        """Drops, a rinse or a salve are for one place; what is found there stands in the banner beside what leads, however mild, and what is in doubt
        behind what is not, so that the doubt is not of both (common practice, no source)."""
        def banner(species, findings, route, lang="en", **more):
            drops = {"name": "Drops", "amount": "1 drops", "route": route, "every": "24 h", "for": "5 days", "first": TODAY, **more}
            return printed(record(species, lang, findings=findings, medicines=[drops]))

        eyes, ear = {"code": "swollen-eyes", "severity": "moderate"}, {"code": "swollen-ear", "severity": "mild"}
        sore = {**eyes, "severity": "mild"}
        doubt = {"code": "gout", "severity": "severe", "certainty": "suspected"}
        for lang, words in (("en", "Swollen eyes and perhaps gout."), ("es", "Ojos hinchados y quizá gota."), ("fr", "Yeux gonflés et goutte, à confirmer.")):
            self.assertIn(words, banner("panther-chameleon", [sore, doubt], "in-the-eye", lang))
            self.assertIn(words, banner("panther-chameleon", [eyes, doubt], "by-mouth", lang))  # what is sure and not mild is named for itself
        self.assertIn("Fern: Perhaps gout.", banner("panther-chameleon", [sore, doubt], "by-mouth"))
        self.assertIn("Fern: Perhaps gout.", banner("panther-chameleon", [sore, doubt], "in-the-eye", given="here"))
        worse = {"code": "airway-infection", "severity": "severe"}
        for route, also in (("in-the-eye", "Airway infection and swollen eyes."), ("in-the-ear", "Airway infection and swollen ear."), ("on-the-skin", "Airway infection and swollen eyes.")):
            self.assertIn(f"Fern: {also}", banner("eastern-box-turtle", [worse, eyes, ear], route))
        self.assertIn("Fern: Airway infection and swollen eyes.", banner("eastern-box-turtle", [worse, eyes, ear], "in-the-ear", given="here"))
        virus = [{"code": "serpentovirus-suspect", "severity": "moderate"}, {"code": "mouth-inflammation", "severity": "moderate"}]
        self.assertIn("Fern: Sore mouth and perhaps a snake virus.", banner("ball-python", virus, "in-the-mouth"))

    def test_an_airway_infection_leads_before_want_of_a_vitamin(self):
        for severity in ("moderate", "mild"):
            found = [{"code": "vitamin-a-deficiency", "severity": "moderate"}, {"code": "airway-infection", "severity": severity}]
            self.assertRegex(printed(record("eastern-box-turtle", findings=found)), r"Fern: Airway infection( and too little vitamin A)?\. First keep the warm side warm")

    def test_what_the_record_answers_is_not_asked(self):
        """A thermostat that the record names; one that it does not name is asked for."""
        for lang, asks in (("en", "if it has none"), ("es", "¿No tiene? Pregúntanos."), ("fr", "Il n'y en a pas ? Demandez")):
            for known in (True, None):
                heat = {"kind": "mat", "power": "30 W", "guard": True, **({"thermostat": True} if known else {})}
                box = {"size": "120 x 60 x 60 cm", "heat": [heat], "readings": {"warm-side": "26 C", "cool-side": "21 C", "night": "19 C"}}
                ill = [{"code": "serpentovirus-suspect", "severity": "moderate"}]
                self.assertEqual(asks in printed(record("western-rat-snake", lang, enclosure=box, findings=ill)), not known, (lang, known))

    def test_no_air_is_dried_that_reads_below_its_aim(self):
        """A sore wants air that is not damp, which is no order to dry what is dry already."""
        for lang, dry, right in (("en", "the air dry", "is right, and no damper"), ("es", "el aire seco", "y no más húmedo"), ("fr", "l'air sec", "et pas plus humide")):
            text = printed(record("eastern-box-turtle", lang, findings=[{"code": "cracked-shell", "severity": "mild"}], **{"done-today": ["shell-dressing"]},
                                  enclosure={"readings": {"humidity": "57 %", "humidity-at": "cool-side"}}))
            self.assertIn(right, text)
            self.assertNotIn(dry, text)

    def test_a_dressing_is_kept_from_the_sun_and_not_from_its_lamps(self):
        for lang, sun, lamps in (("en", "sun of a window or the garden", "leave the lamps as they are"), ("es", "sol de la ventana ni del jardín", "lámparas siguen como están"),
                                 ("fr", "ni à la fenêtre ni au jardin", "lampes restent comme elles sont")):
            for species in ("eastern-box-turtle", "red-eared-slider"):
                text = printed(record(species, lang, findings=[{"code": "cracked-shell", "severity": "mild"}], **{"done-today": ["shell-dressing"]}))
                self.assertIn(sun, text, (lang, species))
                self.assertIn(lamps, text)

    def test_a_dark_toe_has_one_answer(self):
        """Clinical table, toe-death: today, and at once where it spreads or smells; black or dark is no other urgency."""
        for lang, spreads, black in (("en", "the dark part spreads or smells", "if it is black"), ("es", "lo oscuro se extiende o huele", "está negro"),
                                     ("fr", "partie sombre s'étend ou sent mauvais", "il est noir")):
            for more in ([], [{"code": "toe-death", "severity": "mild"}]):
                text = printed(record("leopard-gecko", lang, findings=[{"code": "stuck-toe-shed", "severity": "moderate"}, *more]))
                self.assertIn(spreads, text)
                self.assertNotIn(black, text)

    def test_a_meal_that_is_dated_is_not_counted_too(self):
        """Brought up on 14 March: the longer end of 10 to 14 days is 28 March."""
        for lang, days, half in (("en", "wait 10", "half a meal already"), ("es", "espera 10", "media comida"), ("fr", "attendez 10", "demi-repas")):
            text = printed(record("corn-snake", lang, findings=[{"code": "vomited", "severity": "moderate"}], history={"regurgitated": "2026-03-14"},
                                  diet={"food": "mouse", "size": "adult", "count": "1", "every": "10 days", "last": "2026-03-12"}))
            self.assertIn("28 mar", text.lower())
            self.assertIn(half, text)
            self.assertNotIn(days, text)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
