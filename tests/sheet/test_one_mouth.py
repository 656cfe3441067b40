#!/usr/bin/env python3
"""What two places of a sheet say of one thing does not fight, and what the message leaves out is not wrong. That the places are asked about here
is what owners misread (common practice, no source)."""
import html
import json
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-20"
LANGUAGES = ("en", "es", "fr")


def pages(species, codes, language="en", paper="a4", **parts):
    visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "keeper": {"language": language},
             "findings": [one if isinstance(one, dict) else {"code": one, "severity": "moderate"} for one in codes], "follow-up": {"recheck": "12 days"}, **parts,
             "patient": {"name": "Nimbus", "species": species, **parts.get("patient", {})}}
    pdf = subprocess.run([PROGRAM, "sheet", "-", "-o", "-", "--today", TODAY, "--paper", paper], input=json.dumps(visit).encode(), capture_output=True, cwd=ROOT)
    assert pdf.returncode == 0, pdf.stderr
    said = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf.stdout, capture_output=True, check=True).stdout.decode()
    return " ".join(said.replace("\u00a0", " ").split())


def letters(species, codes, language, paper, **parts):
    """Page by page, line by line: what is bold stands between «»."""
    visit = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "keeper": {"language": language},
             "patient": {"name": "Nimbus", "species": species}, "findings": [{"code": one, "severity": "moderate"} for one in codes], **parts}
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run([PROGRAM, "sheet", "-", "-o", f"{folder}/a.pdf", "--today", TODAY, "--paper", paper], input=json.dumps(visit).encode(), capture_output=True, cwd=ROOT)
        assert done.returncode == 0, done.stderr
        page = subprocess.run(["pdftohtml", "-xml", "-i", "-stdout", f"{folder}/a.pdf"], capture_output=True, text=True, check=True).stdout
    rows = {}
    for at, (number, text) in enumerate((number, text) for number, one in enumerate(page.split("<page ")[1:]) for text in re.findall(r"<text .*?</text>", one)):
        top, left = (int(re.search(rf'{name}="(\d+)"', text)[1]) for name in ("top", "left"))
        rows.setdefault((number, top), []).append((left, at, re.sub(r"<b>(.*?)</b>", r"«\1»", re.sub(r"</?text[^>]*>", "", text))))
    lines = [(min(row)[0], html.unescape(" ".join(text for _, _, text in sorted(row)))) for _, row in sorted(rows.items())]
    return [(left, re.sub(r"\s+", " ", text.replace("\u00a0", " "))) for left, text in lines]


def head(text):
    return re.split(r"Tonight|Esta noche|Ce soir", text, maxsplit=1)[0]


class OneMouth(unittest.TestCase):
    def test_a_low_water_is_shallow_and_not_cold(self):
        """Only warmth is cold or hot: water of 18 cm made the head say that a tank at 22 degrees was too cold."""
        for depth, water, said in (("18 cm", "22 C", ("too warm and too shallow", "demasiado caliente y poco profunda", "trop chaude et trop peu profonde")),
                                   ("18 cm", "17 C", ("The water is too shallow", "El agua está poco profunda", "L'eau est trop peu profonde"))):
            for language, words in zip(LANGUAGES, said):
                text = head(pages("axolotl", [{"code": "gill-damage", "severity": "mild"}], language, patient={"length": "22 cm"}, enclosure={"size": "100 x 45 x 45 cm"},
                                  water={"temperature": water, "depth": depth}))
                self.assertIn(words, text)
                self.assertNotRegex(text, "box is|tank is|terrario está|acuario está|terrarium est|aquarium est")

    def test_the_home_of_a_turtle_is_no_vivarium(self):
        cold = {"readings": {"basking-surface": "24 C"}, "thermostat": True, "heat-guard": True}
        for species, said in (("red-eared-slider", ("The tank is too cold", "El acuario está demasiado frío", "L'aquarium est trop froid")),
                              ("fire-bellied-toad", ("The box is too cold", "El terrario está demasiado frío", "Le terrarium est trop froid"))):
            home = cold if species == "red-eared-slider" else {"readings": {"night": "8 C", "cool-side": "12 C", "warm-side": "12 C"}, "thermostat": True, "heat-guard": True}
            for language, words in zip(LANGUAGES, said):
                self.assertIn(words, head(pages(species, ["underweight"], language, enclosure=home)))

    def test_the_second_ill_leaves_a_full_head_before_the_first_step(self):
        """What is worst and what to do first stand in every message (PEMAT U11); the second ill is told under what was found."""
        text = subprocess.run([PROGRAM, "sheet", "tests/sheet/cases/soft-bones-old-lamp-iguana.yaml", "-o", "-", "--today", TODAY, "--paper", "letter"], capture_output=True, cwd=ROOT)
        said = " ".join(subprocess.run(["pdftotext", "-raw", "-", "-"], input=text.stdout, capture_output=True, check=True).stdout.decode().replace("\u00a0", " ").split())
        self.assertRegex(head(said), r"Kiwi: Weak grip( and soft jaw)?\.( The (box|UVB lamp) is too \w+\.)* First lower the perches")
        self.assertIn("Soft jaw, moderate.", said)
        self.assertNotIn("perches, pad", said)

    def test_a_perch_that_is_cold_is_warmed_by_the_step_that_warms(self):
        """"Bring nothing hot nearer, and ask us" stood on the sheet that told to turn up that heat. The lamp at the top of the box warms no perch at its
        floor: a guarded one hangs there as high as we write (a veterinarian's reading, no source)."""
        ask = ("bring nothing hot nearer, and ask us today", "no acerques nada caliente y pregúntanos hoy", "ne rapprochez rien de chaud et demandez-nous le jour même")
        step = ("warm the basking spot as this sheet says", "calienta la zona para asolearse como dice esta hoja", "chauffez le point chaud comme le dit cette fiche")
        lamp = ("Hang a guarded heat lamp on a thermostat there, ____ above its back", "Cuelga ahí una lámpara de calor con rejilla y termostato, a ____ del lomo",
                "Accrochez-y une lampe chauffante grillagée avec thermostat, à ____ du dos")
        for reading, said, not_said in (("27 C", step, ask), ("31 C", ask, step)):
            for language, one, other in zip(LANGUAGES, said, not_said):
                text = pages("panther-chameleon", ["soft-jaw"], language, enclosure={"perch-height": "60 cm", "readings": {"basking-surface": reading}})
                self.assertIn(one, text)
                self.assertNotIn(other, text)
                self.assertEqual(lamp[LANGUAGES.index(language)] in text, reading == "27 C")

    def test_what_takes_the_mats_place_has_its_thermostat_from_the_start(self):
        """A new heater over a burn without one until some day would be the next burn. Beside that the thermostat of the lamp has no later day: the keeper who
        reads of both does not know which lamp is meant."""
        home = {"thermostat": False, "heat": [{"kind": "mat", "thermostat": False, "guard": False}, {"kind": "lamp", "thermostat": False, "guard": True}], "readings": {"basking-surface": "46 C"}}
        said = (("each on a thermostat, and call us if you have none", "Add a thermostat. By ", "Add a thermostat."), ("los dos con rejilla y termostato. ¿No tienes? Llama.", "termostato. Antes de acabar el ", "Pon un termostato."),
                ("les deux avec grille et thermostat. Sinon, appelez.", "thermostat. Au plus tard le ", "Ajoutez un thermostat."))
        for language, (tonight, then, step) in zip(LANGUAGES, said):
            text = pages("blue-tongued-skink", [{"code": "burn", "severity": "moderate", "where": "belly"}], language, enclosure=home)
            self.assertIn(tonight, text)
            self.assertNotIn(then, text)
            self.assertIn(step.rstrip("."), text)

    def test_a_lamp_that_is_too_near_has_one_number(self):
        """From 10 in, 13 in once it lies low, never nearer than 16: the middle one says nothing and reads as leave."""
        home = {"size": "122 x 61 x 46 cm", "lid": "mesh", "platform-height": "8 cm", "back-height": "5 cm",
                "lamp": {"kind": "tube", "tube-length": "55 cm", "measured": {"uvi": 4.5, "at": "25 cm", "through-mesh": True}, "installed": "2026-01-15", "height": "25 cm", "hours": 13}}
        text = pages("blue-tongued-skink", [{"code": "burn", "severity": "moderate", "where": "belly"}, "dehydrated"], enclosure=home)
        self.assertRegex(text, r"Never nearer than 41 cm\.( By \w+ \d+ \w+\.)? Measure the 41 cm from the lamp to the back where Nimbus lies low\.")
        self.assertNotIn("33 cm", text)

    def test_who_was_not_shown_how_is_asked_of_what_is_given_at_home(self):
        home = {"name": "Syrup", "amount": "0.2 ml", "route": "by-mouth", "every": "12 h", "for": "14 days", "first": TODAY, "at": "evening"}
        here = {"name": "Shot", "amount": "0.05 ml", "route": "injection", "every": "3 days", "doses": 4, "first": "2026-03-22", "given": "here"}
        for language, said in zip(LANGUAGES, ("Not shown how?", "¿Dudas?", "Pas montré")):
            text = pages("bearded-dragon", ["soft-jaw"], language, medicines=[home, here])
            self.assertNotIn("Shot", text[text.rindex("Syrup", 0, text.index(said)):text.index(said)])

    def test_what_goes_for_two_medicines_stands_in_the_entry_of_neither(self):
        """How to drip two of them stood in the entry of a third, and who looked one up found its dose alone: behind names in bold it is found however full the
        pages are. A missed dose is told from the last entry too, by its line, by its letters or by those names."""
        by_mouth = {"route": "by-mouth", "every": "12 h", "for": "9 days", "first": TODAY}
        medicines = [{"name": "Syrup", "amount": "0.2 ml", "at": "evening", **by_mouth}, {"name": "Drops", "amount": "0.1 ml", "at": "evening", **by_mouth},
                     {"name": "Spray", "route": "on-the-skin", "every": "5 days", "doses": 4, "first": TODAY, "directions": "Wipe it on, not on eyes or nose"}]
        full = {"enclosure": {"size": "60 x 45 x 45 cm", "lid": "mesh", "thermostat": False, "readings": {"basking-surface": "31 C", "warm-side": "25 C", "cool-side": "20 C", "night": "14 C", "humidity": "70 %"}},
                "done-today": ["fluids-under-skin", "imaging", "blood-sample"]}
        names = {"en": r"Syrup and Drops:", "es": r"Syrup y Drops:", "fr": r"Syrup et Drops ?:"}
        drip = {"en": "Let it drip", "es": "Gota a gota", "fr": "Goutte à goutte"}
        missed = {"en": "Missed a dose of any", "es": "¿Falta una dosis de alguna", "fr": "Une dose d'un médicament oubliée"}
        for codes, parts in ((["soft-jaw"], {}), (["soft-jaw"], full), (["soft-jaw", "burn", "dehydrated", "mites", "underweight"], full)):
            for language in LANGUAGES:
                for paper in ("a4", "letter"):
                    lines = letters("bearded-dragon", codes, language, paper, medicines=medicines, **parts)
                    said = " ".join(re.sub(r"» ?«", " ", " ".join(text for _, text in lines)).split())
                    with self.subTest(codes=codes, language=language, paper=paper):
                        self.assertRegex(said, rf"{names[language]} ?»? ?{drip[language]}") # bold, but on a line of its own below columns
                        self.assertRegex(said, r"not (\w+ )?on (\w+ )?eyes or (\w+ )?nose\.") # a picture has its word beside it
                        worse = re.escape(missed[language])
                        self.assertRegex(said, worse)
                        first = " ".join(missed[language].split()[:2])
                        begins = any(left < 60 and text.lstrip("« ").startswith(first) for left, text in lines)
                        self.assertTrue(begins or re.search(rf"({names[language]} ?»[^«]*|«[^»]*){worse}", said), said)

    def test_what_stays_in_the_water_is_weighed_there(self):
        for language, said in zip(LANGUAGES, ("move and weigh it in a tub with water", "pésalo en un recipiente con agua", "pesez-le dans un récipient d'eau")):
            self.assertIn(said, pages("axolotl", ["gill-damage"], language))
            off = [{"topic": "weighing", "stance": "not-at-home", "until": "2026-04-20", "because": "Told so"}]
            self.assertNotIn(said, pages("axolotl", ["gill-damage"], language, decisions=off))

    def test_spanish_and_and_or_change_before_their_own_sound(self):
        """From the grammar of Spanish (memory): y before i- or hi- is e, but not before hie-."""
        self.assertIn("Caparazón blando e infección respiratoria", head(pages("red-eared-slider", ["soft-shell", "airway-infection"], "es")))

    def test_an_aim_reached_is_no_word_for_a_purpose(self):
        """"Para al llegar a 42 °C" reads as "in order to"."""
        text = pages("bearded-dragon", ["underweight"], "es", enclosure={"readings": {"basking-surface": "35 C"}, "thermostat": True, "heat-guard": True})
        self.assertRegex(text, r"No pases de \d|Nunca a más de \d")
        self.assertNotIn("Para al llegar", text)

    def test_gas_is_not_right_where_ammonia_is_wrong(self):
        """At pH 6.5 hardly any of the ammonia is gas: right by itself, beside ammonia that is wrong it says the contrary. At 8.5 much of it is, and it is named."""
        for language, gas in zip(LANGUAGES, ("Ammonia gas", "Amoníaco (gas)", "Ammoniac en gaz")):
            for ammonia, ph, is_said in (("0.5 mg/l", 6.5, False), ("2 mg/l", 8.5, True)):
                text = pages("axolotl", ["gill-damage"], language, water={"ammonia": ammonia, "ammonia-as": "total-n", "ph": ph, "temperature": "17 C"})
                self.assertEqual(gas.lower() in text.lower(), is_said, (language, ammonia))

    def test_a_change_of_water_stands_once(self):
        """How much, how often and how warm stand with the water; the list of what to do had it a second time without how much."""
        text = pages("common-musk-turtle", [{"code": "shell-rot", "severity": "moderate"}])
        self.assertEqual(len(re.findall(r"each day(?: for now)?, (?:at the same warmth|but never all)", text)), 1)
        self.assertIn("Change a quarter of the water each day for now", text)  # 20-30 % (the clinical table, 6)

    def test_a_weighing_is_written_beside_its_day(self):
        """Six boxes of three days stood for one weighing among them. Who weighs each day has a box each day."""
        text = pages("common-musk-turtle", [{"code": "shell-rot", "severity": "moderate"}], patient={"mass": "210 g"})
        self.assertRegex(text, r"Weigh \w+ \d+ \w+ ____")
        self.assertNotRegex(text, r"Ate Weight")

    def test_what_is_suspected_goes_on_in_small_letters(self):
        ill = [{"code": "gout", "severity": "moderate", "certainty": "suspected"}]
        for language, said in zip(LANGUAGES, (r"If so, [a-z]", r"Si es así, [a-záéíóú]", r"Si c'est le cas, [a-zéà]")):
            self.assertRegex(pages("bearded-dragon", ill, language), said)

    def test_words_of_the_water_and_of_the_sore_place_are_plain(self):
        for language, means, consequence in zip(LANGUAGES, ("Ammonia is a poison", "El amoníaco es un veneno", "L'ammoniac est un poison"),
                                                ("so it gets less air", "Así respira peor", "respire moins bien")):
            text = pages("axolotl", ["gill-damage"], language, water={"ammonia": "0.5 mg/l", "ph": 7.5})
            self.assertIn(means, text)
            self.assertIn(consequence, text)
        for language, dry, deeper in zip(LANGUAGES, ("Only what we wrote here may wet it", "Solo lo escrito aquí puede mojarla", "Seul ce qui est écrit ici peut le mouiller"),
                                         ("the sore can go deeper", "puede hacerse más honda", "peut aller plus profond")):
            self.assertIn(dry, pages("blue-tongued-skink", ["burn"], language))
            self.assertIn(deeper, pages("red-eared-slider", ["shell-rot"], language))

    def test_the_water_of_a_dressing_is_asked_for_wherever_it_is_spoken_of(self):
        for language, said, field in zip(LANGUAGES, ("Ask us before it goes into the water", "Antes de que vuelva al agua, pregúntanos", "Avant tout retour à l'eau"), ("leave it on ____", "dejarlo ____", "le laisser ____")):
            text = pages("common-musk-turtle", ["shell-rot"], language, **{"done-today": ["shell-dressing"]})
            self.assertEqual(text.count(said), 2)
            self.assertIn(field, text.split(said)[2][:110])


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
