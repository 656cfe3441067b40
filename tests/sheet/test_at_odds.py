#!/usr/bin/env python3
"""What on a signed sheet was at odds with the patient that went home, with the veterinarian's own words or with itself: each visit and what
its page says or must not say by hand, common practice, no source."""
import json
import re
import subprocess
import sys
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-11-30"
LANGUAGES = ("en", "es", "fr")


def visit(species, findings=(), **more):
    """A visit of this animal; findings as "code severity [step]"."""
    record = {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Orla Fenwick"}, "patient": {"name": "Fern", "species": species},
              "findings": [dict(zip(("code", "severity", "step"), one.split())) for one in findings]}
    for key, value in more.items():
        key = key.replace("_", "-")
        record[key] = {**record[key], **value} if isinstance(record.get(key), dict) else value
    return record


def run(record, *command):
    done = subprocess.run([PROGRAM, *command, "--today", TODAY], input=json.dumps(record).encode(), capture_output=True, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    return done.stdout


def plan(record):
    return json.loads(run(record, "explain", "--json", "-"))


def asked(record):
    return [one["code"] for one in plan(record)["review"]]


def steps(record):
    return [one["code"] for one in plan(record)["actions"]]


def text(record, language="en"):
    record = {**record, "keeper": {"name": "Ana", "language": language, **record.get("keeper", {})}}
    page = subprocess.run(["pdftotext", "-raw", "-", "-"], input=run(record, "sheet", "-", "-o", "-"), capture_output=True, check=True).stdout.decode()
    return " ".join(page.replace("\u00a0", " ").replace("-\n", "-").split())


class FloatsAtHome(unittest.TestCase):
    """A salamander that floats was looked at and goes home so: what it is already is nothing to go at once for, only worse is."""
    NEWS = {"en": "Floats more, or on its back", "es": "Flota más, o boca arriba", "fr": "Flotte plus, ou sur le dos"}
    IS_SO = {"en": ("Floats and cannot dive", "cannot stay upright"), "es": ("no logra hundirse", "no mantiene el equilibrio"), "fr": ("ne peut pas plonger", "ne se tient pas droit")}

    def test_what_it_goes_home_with_sends_nobody_back(self):
        for species in ("axolotl", "whites-tree-frog"):
            floats = visit(species, ["floating moderate", "belly-gas mild"], follow_up={"recheck": "3 days"})
            for language in LANGUAGES:
                said = text(floats, language)
                if species == "axolotl":
                    self.assertIn(self.NEWS[language], said)
                for words in self.IS_SO[language]:
                    self.assertNotIn(words, said, (species, language))

    def test_another_is_told_of_it(self):
        for language in LANGUAGES:
            said = text(visit("axolotl", ["belly-gas mild"]), language)
            for words in self.IS_SO[language]:
                self.assertIn(words, said)


class SearchesANest(unittest.TestCase):
    """A chameleon that searches a nest digs as deep as its kind does, and basks where it has basked: neither soil nor warmth is taken from it
    for a perch no higher than it is long, which soft bones ask for and eggs do not."""
    BOX = {"size": "60 x 60 x 120 cm", "walls": "mesh", "platform-height": "85 cm", "readings": {"basking-surface": "34 C", "warm-side": "27 C"},
           "lamp": {"kind": "tube", "tube-length": "55 cm", "measured": {"uvi": 2.2, "at": "25 cm", "through-mesh": "yes"}, "installed": "2026-04-10", "height": "28 cm"}}
    DEEP = {"en": "soil 15–30 cm deep", "es": "15–30 cm de tierra", "fr": "15–30 cm de terre"}
    OWN_LENGTH = {"en": "no higher than", "es": "no más altas que", "fr": "pas plus haut que"}
    SOFT = {"en": "Pad the floor", "es": "Acolcha el suelo", "fr": "Rembourrez le sol"}
    OWN = {"en": "Set a bucket with 30 cm of moist sand for the nest today.", "es": "Pon hoy un cubo con 30 cm de arena, que al excavar no se derrumbe.",
           "fr": "Mettez un seau avec 30 cm de sable, pour creuser."}

    def of(self, step, *found, **more):
        return visit("veiled-chameleon", [f"gravid moderate {step}", *found], patient={"sex": "female", "mass": "128 g", "length": "16 cm", "hatched": "2025-10"},
                     enclosure=self.BOX, follow_up={"recheck": "4 days"}, **more)

    def test_the_soil_is_as_deep_as_early(self):
        for step in ("early", "nest-searching", "laying"):
            for language in LANGUAGES:
                said = text(self.of(step), language)
                self.assertIn(self.DEEP[language], said, (step, language))
                self.assertNotIn(self.OWN_LENGTH[language], said, (step, language))
        self.assertIn(self.OWN_LENGTH["en"], text(self.of("nest-searching", "bent-bones mild")))

    def test_it_basks_where_it_did(self):
        for language in LANGUAGES:
            self.assertIn(self.SOFT[language], text(self.of("nest-searching"), language))
        told = plan(self.of("nest-searching"))
        self.assertFalse({"basking-read-higher", "low-place-unknown"} & {one["code"] for one in told["review"]})

    def test_a_nest_in_ones_own_words_stands_in_the_step_and_is_asked_of(self):
        """Hers says how deep, and nothing of ours beside it; where it stands and why it is there hers leaves out. Struck or not."""
        struck = {"action": "give-nest-box", "strike": "yes", "because": "mine is written"}
        for language in LANGUAGES:
            for decisions in ([{"do": self.OWN[language], "place": 1}], [struck, {"do": self.OWN[language], "place": 1}]):
                own = self.of("nest-searching", decisions=decisions)
                said = text(own, language)
                self.assertEqual(said.count(self.OWN[language]), 1, said)
                self.assertNotIn(self.DEEP[language], said)
                self.assertEqual(steps(own)[0], "give-nest-box")
                self.assertNotIn("own", steps(own))
                for words in {"en": ("clear of the lamps", "may hold them and fall ill"), "es": ("lejos de las lámparas", "puede retenerlos y enfermar"),
                              "fr": ("loin des lampes", "peut les retenir et tomber malade")}[language]:
                    self.assertIn(words, said)
                self.assertEqual(asked(own).count("step-own"), 1)
        other = self.of("nest-searching", decisions=[{"do": "Keep the room quiet."}])
        self.assertIn("give-nest-box", steps(other))
        self.assertNotIn("step-own", asked(other))


class AStepOfOnesOwn(unittest.TestCase):
    """What a step in the veterinarian's words says no other step orders a second time: hers stand in the one that says it, by the first of
    their sentences that speaks of one. What speaks of none stays a step by itself."""
    SAME = {  # what hers says, the step it stands in, and what that adds once
        "gravel": ("horned-frog", ["belly-stool mild"], {"enclosure": {"substrate": "gravel"}}, "take-out-loose-floor",
                   {"en": ("Throw the gravel out for good.", "damp with water"), "es": ("Tira la grava para siempre.", "papel de cocina húmedo"),
                    "fr": ("Jetez le gravier pour toujours.", "papier absorbant humide")}),
        "spinach": ("sulcata-tortoise", ["bladder-stone moderate"], {"diet": [{"food": "spinach", "every": "2 days"}]}, "stop-food",
                    {"en": ("Take the spinach out. Give hay at will.", "Look in all its food"), "es": ("Retira las espinacas. Da heno.", "Mira en toda su comida"),
                     "fr": ("Retirez les épinards. Donnez du foin.", "Cherchez dans toute sa nourriture")}),
        "males": ("crested-gecko", ["bite-wound moderate"], {"patient": {"sex": "male"}, "enclosure": {"animals": 2, "males": 2, "mates": ["crested-gecko"]}}, "own-box",
                  {"en": ("The two males never live together again.", "Then set up a second box"), "es": ("Los dos machos no vuelven a juntarse nunca.", "prepara otro terrario"),
                   "fr": ("Les deux mâles ne vivent plus jamais ensemble.", "Installez ensuite un second terrarium")}),
        "mate": ("corn-snake", ["mites moderate"], {"enclosure": {"animals": 2, "males": 0, "mates": ["corn-snake"]}}, "show-mates",
                 {"en": ("Bring the second snake on Mon 7 Dec at 10:15. Each in its own box.", "Call us if you cannot come"),
                  "es": ("Trae la segunda serpiente el lun 7 dic. Cada una en su propia caja.", "Llama si no puedes venir"),
                  "fr": ("Amenez le second serpent le lun 7 déc. Chacun dans sa propre boîte.", "Appelez si vous ne pouvez pas venir")}),
    }

    def test_hers_stand_in_the_step_that_says_the_same(self):
        for case, (species, findings, more, step, words) in self.SAME.items():
            for language in LANGUAGES:
                hers, added = words[language]
                record = visit(species, findings, decisions=[{"do": hers}], **more)
                told = steps(record)
                self.assertNotIn("own", told, (case, language))
                self.assertEqual(told.count(step), 1, (case, language, told))
                said = text(record, language)
                self.assertEqual(said.count(hers.split(". ")[0]), 1, (case, language, said))
                self.assertIn(added, said, (case, language))
                self.assertIn("step-own", asked(record))

    def test_what_speaks_of_none_is_a_step_by_itself(self):
        """Sand to dig in is none to throw out, and a stool is no floor."""
        species, findings, more, step, _ = self.SAME["gravel"]
        for hers in ("Add 30 cm of moist sand to dig in.", "Keep the room quiet.", "Take the dish out at night."):
            record = visit(species, findings, decisions=[{"do": hers}], **more)
            self.assertLessEqual({"own", step}, set(steps(record)), hers)
            self.assertNotIn("step-own", asked(record))

    def test_what_is_struck_leaves_the_place_of_the_others(self):
        """Places are counted as they were before: hers in a struck step keeps its own."""
        species, findings, more, step, words = self.SAME["spinach"]
        struck = {"action": step, "strike": "yes", "because": "mine is written"}
        for decisions in ([struck, {"do": words["en"][0], "place": 1}], [{"do": words["en"][0], "place": 1}, struck]):
            self.assertEqual(steps(visit(species, findings, decisions=decisions, **more))[0], step)
        self.assertNotIn(step, steps(visit(species, findings, decisions=[struck], **more)))

    def test_what_stands_on_another_page_is_named_by_its_first_sentence(self):
        """A list in a sentence has no full stop within."""
        box = {**SearchesANest.BOX, "lid": "mesh", "perch-height": "85 cm", "back-height": "5 cm", "thermostat": "no", "heat": [{"kind": "lamp", "power": "75 W", "thermostat": "no", "guard": "yes"}],
               "readings": {"basking-surface": "36 C", "warm-side": "27 C", "cool-side": "23 C", "night": "19 C", "night-warm-side": "20 C", "room": "21 C", "humidity": "42 %"}}
        record = visit("veiled-chameleon", ["gravid moderate nest-searching", "dehydrated mild"], patient={"sex": "female", "mass": "128 g", "length": "16 cm", "hatched": "2025-10"},
                       enclosure=box, follow_up={"recheck": "4 days", "booked": "2026-12-04", "results": [{"of": "x-ray", "by": "2026-12-01", "how": "telephone"}]},
                       medicines=[{"name": "Oral calcium gluconate (for the eggs)", "amount": "0.3 ml", "route": "by-mouth", "every": "24 h", "for": "7 days", "first": "2026-12-01", "at": "morning", "given": "at-home"}],
                       decisions=[{"do": "Set up today a nest bin of 30 cm with 30 cm of moist sand and soil that does not fall in when she digs, and leave her alone there.", "place": 1}, {"do": "Sing to it. Hum too.", "place": 3}],
                       **{"done-today": ["x-ray", "fluids-under-skin"], "winter-rest": {"planned": "no"}})
        said = text(record, "es")
        self.assertRegex(said, r"También hoy, más adelante: [^.]*sing to it( y|,|\. )")
        self.assertNotIn("ing to it. Hum too y", said)
        self.assertEqual(said.count("Hum too."), 1)

    def test_a_long_step_of_hers_stands_once(self):
        """The message names its first sentence, or where that is long its row."""
        short, long = "Sing to it. Then hum as long as it listens to you.", "Sing to it each evening for a quarter of an hour in a low and steady voice, then hum for ten minutes."
        for hers, named in ((short, "First: Sing to it."), (long, "First do step 1 below.")):
            said = text(visit("corn-snake", ["wound moderate"], decisions=[{"do": hers, "place": 1}]))
            self.assertIn(named, said)
            self.assertEqual(said.count(hers), 1, said)


class SaidTwice(unittest.TestCase):
    """What a sheet names, or denies, is said once: a list of foods, a gas of the water, a gut that is not blocked."""
    FROG = {"enclosure": {"size": "60 x 40 x 40 cm"}, "diet": [{"food": "earthworm", "size": "medium", "count": 4, "every": "7 days", "last": "2026-11-25"}],
            "targets": {"meal": "6-8 g", "every": "7 days", "because": "small meals", "by": "Dr Orla Fenwick"},
            "water": {"ammonia": "0 mg/l", "ammonia-as": "total", "nitrite": "0 mg/l", "chlorine": "0 mg/l", "ph": 7.2, "temperature": "23 C"},
            "patient": {"mass": "210 g", "length": "11 cm", "hatched": "2024"}}

    def test_a_list_of_foods(self):
        for language, food in (("en", "silkworms"), ("es", "gusanos de seda"), ("fr", "vers à soie")):
            self.assertEqual(text(visit("horned-frog", ["wound mild"], **self.FROG), language).count(food), 1, language)

    def test_ammonia_and_its_gas(self):
        for language, gas in (("en", "Ammonia (gas)"), ("es", "Amoníaco (gas)"), ("fr", "Ammoniac (gaz)")):
            self.assertNotIn(gas, text(visit("horned-frog", ["wound mild"], **self.FROG), language))

    def test_plants_to_change_to_are_named_by_their_step(self):
        record = visit("bearded-dragon", ["dehydrated mild"], patient={"mass": "400 g", "length": "20 cm", "hatched": "2023-04"},
                       diet=[{"food": "dubia", "size": "medium", "count": 5, "every": "1 days"}, {"food": "collards", "every": "1 days"}])
        said = text(record)
        self.assertIn("change-plants", steps(record))
        self.assertNotIn("safe flowers and weeds or squash", said)
        self.assertIn("cactus pads", said)

    def test_sand_that_blocks_nothing_yet(self):
        for language, blocks in (("en", "soil blocks the gut"), ("es", "tapa el intestino."), ("fr", "bloquent l'intestin")):
            self.assertNotIn(blocks, text(visit("bearded-dragon", ["impaction-of-sand moderate"]), language))


class WellAndLater(unittest.TestCase):
    """Well, with one thing to plan: the message says that it is well, what to plan and why; what it gained is right by its score."""

    def of(self, score=3):
        return visit("milk-snake", ["breathing normal", "skin normal"],
                     patient={"mass": "240 g", "length": "84 cm", "hatched": "2023-07", "earlier": [{"on": "2026-05-29", "mass": "215 g", "healthy": "yes"}], "body-score": {"score": score, "of": 5}},
                     enclosure={"size": "120 x 60 x 60 cm", "thermostat": "yes", "heat-guard": "yes", "hides": 2, "water-dish": "yes", "animals": 1, "substrate": "aspen", "walls": "pvc", "lid": "pvc",
                                "heat": [{"kind": "lamp", "power": "60 W", "thermostat": "yes", "guard": "yes"}],
                                "readings": {"basking-surface": "31 C", "warm-side": "28 C", "cool-side": "24 C", "night": "20 C", "humidity": "50 %"},
                                "lamp": {"kind": "tube", "tube-length": "55 cm", "measured": {"uvi": 1.4, "at": "40 cm", "through-mesh": "yes"}, "installed": "2026-08-01", "height": "42 cm", "hours": 10}},
                     diet={"food": "mouse", "size": "adult", "count": 1, "every": "12 days", "last": "2026-11-22"}, follow_up={"recheck": "12 months"})

    def test_the_message_names_what_to_plan_and_why(self):
        for language, words in (("en", ("is well. When you can, plan a box", "gives room to stretch")), ("es", ("está bien. Cuando puedas", "Uno mayor da sitio")),
                                ("fr", ("va bien. Dès que possible", "Pourquoi"))):
            record = self.of()
            self.assertEqual(steps(record)[0], "larger-box")
            for one in words:
                self.assertIn(one, text(record, language), language)

    def test_a_gain_is_right_by_the_score(self):
        self.assertIn("Its body score is right, so it should hold this weight.", text(self.of()))
        self.assertNotIn("body score is right", text(self.of(4)))


class TermsOfOnesOwn(unittest.TestCase):
    """A term in a note of the veterinarian's has its meaning on the sheet, once, in the sheet's language; without the term, none."""
    NOTES = {"en": "Sedated. Regurgitation after the prolapse. An omnivore; abscess; uric acid 16 mg/dl.",
             "es": "Bajo sedación. Regurgitación tras el prolapso. Omnívoro; absceso; ácido úrico 16 mg/dl.",
             "fr": "Sous sédation. Régurgitation après le prolapsus. Omnivore ; abcès ; acide urique 16 mg/dl."}
    MEANT = {"en": ("makes it sleepy", "food came back up", "tissue that came out", "plants and animals", "pocket of pus", "gout crystals", "in the blood"),
             "es": ("que adormece", "devolver la comida", "tejido que salió", "plantas y animales", "bolsa de pus", "cristales de la gota", "en la sangre"),
             "fr": ("qui endort", "rendre la nourriture", "tissu sorti", "plantes et animaux", "poche de pus", "cristaux de la goutte", "dans le sang")}

    def test_each_term_is_explained(self):
        for language in LANGUAGES:
            record = visit("blue-tongued-skink", ["wound mild"])
            plain = text(record, language)
            record["findings"][0]["note"] = self.NOTES[language]
            said = text(record, language)
            for meant in self.MEANT[language]:
                self.assertEqual((said.count(meant), plain.count(meant)), (1, 0), (language, meant))


class AReasonOfOnesOwn(unittest.TestCase):
    """The reason for what was decided stands behind what was decided, never alone."""
    DECIDED = (("corn-snake", ["mites moderate"], "humidity", "usual", {"en": "Keep the humidity at 40–60 %. Why: so", "es": "humedad a 40–60 %. Por qué: so", "fr": "à 40–60 %. Pourquoi : so"}),
               ("sulcata-tortoise", ["bladder-stone moderate"], "food", "as-usual", {"en": "as this sheet says. Why: so", "es": "como dice esta hoja. Por qué: so", "fr": "comme le dit cette fiche. Pourquoi : so"}),
               ("veiled-chameleon", ["bent-bones mild"], "climbing", "free", {"en": "let it climb. Why: so", "es": "que trepe. Por qué: so", "fr": "grimper l'animal. Pourquoi : so"}))

    def test_what_was_decided_is_said_before_why(self):
        for species, findings, topic, stance, words in self.DECIDED:
            record = visit(species, findings, decisions=[{"topic": topic, "stance": stance, "until": "2026-12-21", "confirmed": "yes", "because": "so"}])
            for language in LANGUAGES:
                self.assertIn(words[language], text(record, language).replace("\u00a0", " "), (species, language))
            self.assertNotIn("stance-unsaid", asked(record))

    def test_what_has_no_words_is_asked_and_its_reason_left_out(self):
        record = visit("corn-snake", ["wound mild"], decisions=[{"topic": "food-form", "stance": "usual", "until": "2026-12-21", "confirmed": "yes", "because": "Quite unheard of"}])
        self.assertIn("stance-unsaid", asked(record))
        self.assertNotIn("unheard", text(record))

    def test_why_it_is_kept_apart_stands_in_the_step(self):
        record = visit("crested-gecko", ["bite-wound moderate"], enclosure={"animals": 2, "males": 2, "mates": ["crested-gecko"]},
                       decisions=[{"topic": "company", "stance": "alone", "because": "they bite"}])
        self.assertEqual(text(record).count("Why: they bite."), 1)
        self.assertNotIn("Your vet wrote: they bite", text(record))


class ABathOfOnesOwn(unittest.TestCase):
    """A bath that the veterinarian writes as a step is the only one, and no day stands against it: no drinking bath beside it, and no "none
    before" on the evening on which it begins."""
    OWN = {"en": "Warm bath of 10 minutes at 30 °C at 18:00.", "es": "Baño tibio de 10 minutos a 30 °C a las 18:00.", "fr": "Bain tiède de 10 minutes à 30 °C à 18 h."}
    BUT = {"en": "Give no bath but the one", "es": "Sin baños, salvo el escrito", "fr": "sauf celui"}
    DRINK = {"en": "drinking bath", "es": "baño poco profundo", "fr": "bain peu profond"}

    def of(self, species, *found, language=None, done=("fluids-under-skin",)):
        own = {"decisions": [{"do": self.OWN[language], "place": 1}]} if language else {}
        return visit(species, found, done_today=list(done), follow_up={"recheck": "3 days"}, **own)

    def test_one_bath_a_day(self):
        for language in LANGUAGES:
            found = self.of("bearded-dragon", "impaction-of-sand moderate", "dehydrated mild", language=language)
            said = text(found, language)
            self.assertNotIn(self.DRINK[language], said.lower())
            self.assertIn(self.BUT[language], said)
            self.assertNotIn("give-drink-soak", steps(found))
            self.assertIn("settlement-asks", asked(found))
        self.assertIn("give-drink-soak", steps(self.of("bearded-dragon", "impaction-of-sand moderate", "dehydrated mild")))

    def test_none_before_tomorrow_is_not_said_beside_one_of_tonight(self):
        for language in LANGUAGES:
            ill = ("blue-tongued-skink", "gout moderate", "dehydrated moderate")
            said = text(self.of(*ill, language=language, done=("blood-sample", "fluids-under-skin")), language)
            self.assertIn(self.BUT[language], said)
            self.assertNotRegex(said, r"(From|Desde el|À partir du) (Tue|mar|martes|mardi) 1(er)? (Dec|dic|déc) (give only|solo el escrito|seulement)")


class FoodAmongTheMedicines(unittest.TestCase):
    """A mash among the medicines with a first day of its own, and a meal beside it: one day on the page, that of the table of doses, and no
    "nothing else" beside what else is written."""
    MASH = {"name": "Recovery gruel (food)", "amount": "4 ml", "route": "by-mouth", "every": "24 h", "for": "7 days", "first": "2026-12-02", "given": "at-home",
            "directions": "At 13:00. Offer squash too."}
    TOO_SOON = {"en": "Tue 1 Dec", "es": "mar 1 dic", "fr": "mar 1er déc"}
    FIRST = {"en": ("irst on Wed 2 Dec", "offer nothing else"), "es": ("primera vez, el mié 2 dic", "No ofrezcas nada más"), "fr": ("première fois, le mer 2 déc", "N'offrez rien d'autre")}

    def of(self, **more):
        return visit("blue-tongued-skink", ["gout moderate", "not-eating mild"], medicines=[self.MASH], diet=[{"food": "squash", "every": "3 days", "last": "2026-11-22"}],
                     decisions=[{"topic": "food", "stance": "vet-plan", "until": "2026-12-08", "because": "gruel and squash"}], follow_up={"recheck": "7 days"}, **more)

    def test_the_written_day_is_the_only_one(self):
        beside = {"targets": {"meal": "20-25 g", "every": "1 days", "because": "squash too", "by": "Dr Orla Fenwick"}}
        for more in ({}, beside):
            for language, (first, else_) in self.FIRST.items():
                said = text(self.of(**more), language).replace("miércoles", "mié").replace("mercredi", "mer").replace("martes", "mar").replace("Wednesday", "Wed")
                self.assertIn(first, said)
                self.assertNotIn(else_, said)
                self.assertNotRegex(said, f"(irst on|primera vez,? el|première fois,? le) {self.TOO_SOON[language]}")


class FewDryHours(unittest.TestCase):
    """A musk turtle that is dry for some hours a day lives in its own tank for the rest: title and text say one thing, and no tub is named. One
    that is dry by day swims in a tub."""
    OTHER = {"en": ("clean tub of", "its own tank"), "es": ("otro recipiente limpio", "su propio acuario"), "fr": ("bac propre", "dans son propre aquarium")}

    def of(self, hours, times, *done):
        return visit("common-musk-turtle", ["swollen-ear moderate"], done_today=["dry-hours", *done], enclosure={"readings": {"warm-side": "25 C"}},
                     follow_up={"recheck": "7 days", "aftercare": [{"of": "dry-hours", "hours": hours, "times": times, "check": "2026-12-10"}]})

    def test_title_and_text_name_one_home(self):
        for done in ((), ("sedation",)):
            for language, (tub, tank) in self.OTHER.items():
                few, long = (text(self.of(hours, 1, *done), language) for hours in ("4 h", "20 h"))
                self.assertIn(tank, few)
                self.assertNotIn(tub, few)
                self.assertIn(tub, long)

    BACK = {"en": r"Tonight it stays dry\. Tomorrow, once fully awake, back into its own tank\b.*? each day from 18:00 to 22:00 in a clean, dry box at (\S+) °C",
            "es": r"Esta noche se queda en seco\. Mañana, si despertó del todo, vuelve a su propio acuario\b.*? cada día de 18:00 a 22:00 en una caja limpia a (\S+) °C",
            "fr": r"Ce soir, l'animal reste au sec\. Demain, bien réveillé, retour dans son propre aquarium\b.*? chaque jour de 18 h 00 à 22 h 00 dans une boîte propre à (\S+) °C"}
    WAKES = {"en": r"Let it lie on warm \((\S+) .C\)", "es": r"en suelo tibio \((\S+) .C\)", "fr": r"sur un sol tiède \((\S+) .C\)"}

    def test_the_morning_after_it_is_put_back(self):
        """Dry tonight and dry hours from tomorrow evening: read as written, nobody put it into its water between; it wakes in the box of those hours."""
        for language in LANGUAGES:
            asleep = self.of("4 h", 1, "sedation", "surgery")
            asleep["follow-up"]["aftercare"][0]["from"] = "18:00"
            said = text(asleep, language)
            self.assertRegex(said, self.BACK[language])
            box, wakes = (re.search(row[language], said).group(1) for row in (self.BACK, self.WAKES))
            self.assertEqual(box, wakes, language)
            plain = text(visit("common-musk-turtle", ["swollen-ear moderate"], done_today=["sedation"], follow_up={"recheck": "7 days"}), language)
            self.assertNotRegex(plain, self.BACK[language])


class OneLampAndNoOtherHeat(unittest.TestCase):
    """A skink with gout whose only heat is a lamp: the low place was "bring nothing hot nearer, and ask us" beside "turn the heat up now, by night only
    heat without light", of which there is none."""
    WORDS = {"en": ("bring nothing hot nearer, and ask us", "warm the warm side as this sheet says", "by night only heat without light", "or call us if you have none"),
             "es": ("no acerques nada caliente y pregúntanos", "calienta el lado cálido como dice esta hoja", "de noche solo sin luz", "(¿no tienes? Llama)"),
             "fr": ("ne rapprochez rien de chaud et demandez", "chauffez le côté chaud comme le dit cette fiche", "la nuit sans lumière seulement", "(rien chez vous ? Appelez)")}

    def of(self, warm, *heat):
        return visit("blue-tongued-skink", ["gout moderate"], patient={"mass": "430 g", "length": "31 cm", "hatched": "2014"},
                     enclosure={"heat": [{"kind": kind, "power": "100 W", "thermostat": "yes", "guard": "yes"} for kind in heat], "heat-guard": "yes", "thermostat": "yes",
                                "readings": {"basking-surface": "35 C", "warm-side": warm, "night-warm-side": "21 C"}, "platform-height": "10 cm"})

    def test_one_order_and_what_to_do_without(self):
        for language, (ask, step, dark, none) in self.WORDS.items():
            lamp, both, right = text(self.of("28 C", "lamp"), language), text(self.of("28 C", "lamp", "ceramic"), language), text(self.of("31 C", "lamp"), language)
            for said in (lamp, both):
                self.assertNotIn(ask, said)
                self.assertIn(step, said)
            self.assertNotIn(dark, lamp)
            self.assertIn(none, lamp)
            self.assertIn(dark, both)
            self.assertIn(ask, right)


class BathBesideTheNeedle(unittest.TestCase):
    """"Keep it clean and dry for a day" beside a bath of tonight in the veterinarian's own words; who signs is asked of the two, and only then."""
    OWN = {"en": "Warm bath each day at 18:00 until Thursday.", "es": "Baño tibio cada día a las 18:00 hasta el jueves.", "fr": "Bain tiède chaque jour à 18 h jusqu'à jeudi."}
    DRY = {"en": ("clean and dry for a day", "dry but for what we wrote here"), "es": ("limpia y seca un día", "seca salvo por lo escrito aquí"),
           "fr": ("propre et sec un jour", "sec sauf pour ce qui est écrit ici")}

    def test_dry_but_for_the_bath(self):
        for language, (dry, bath) in self.DRY.items():
            for own, there, never in ((self.OWN[language], bath, dry), ("Oil", dry, bath)):
                record = visit("sulcata-tortoise", ["bladder-stone moderate"], done_today=["blood-sample"], decisions=[{"do": own}])
                said = text(record, language)
                self.assertIn(there, said)
                self.assertNotIn(never, said)
                self.assertEqual("bath-after-blood-sample" in asked(record), there == bath)
        self.assertNotIn("bath-after-blood-sample", asked(visit("sulcata-tortoise", ["bladder-stone moderate"], done_today=["x-ray"], decisions=[{"do": self.OWN["en"]}])))


class UnfitIsNoPoison(unittest.TestCase):
    """Spinach two days ago is known here and poisons nobody: "call at once if it has just eaten some" is for poison alone, and names it."""
    WORDS = {"en": ("Call us if it seems ill", "has just eaten some"), "es": ("Llama si se ve mal", "si acaba de comer"), "fr": ("Appelez si l'animal semble malade", "vient d'en manger")}

    def test_the_call_is_of_poison(self):
        for language, (calm, now) in self.WORDS.items():
            for foods, is_poison in ((["spinach"], False), (["avocado"], True), (["spinach", "avocado"], True)):
                diet = [{"food": food, "every": "2 days", "last": "2026-11-28"} for food in ("grass-and-hay", *foods)]
                said = text(visit("sulcata-tortoise", ["bladder-stone moderate"], diet=diet, decisions=[{"action": "stop-food", "place": 1}]), language)
                self.assertEqual(now in said, is_poison, (language, foods))
                self.assertEqual(calm in said, not is_poison, (language, foods))


class FoodRestsUntilTheCheck(unittest.TestCase):
    """What rests until the day of the check is fed once it was seen, not on that day before its hour; and who signs is told. A rest that ends on
    another day is not touched."""

    def of(self, until, species="horned-frog"):
        return visit(species, ["prolapse moderate"], done_today=["sutures"], diet={"food": "earthworm", "size": "medium", "count": 4, "every": "5 days", "last": "2026-11-25"},
                     follow_up={"booked": "2026-12-03", "booked-at": "12:00"},
                     decisions=[{"topic": "food", "stance": "none-until-vet", "until": until, "confirmed": True, "because": "it carries stitches"}])

    def test_no_meal_on_the_day_of_the_check(self):
        for species in ("horned-frog", "axolotl"):
            on_check = plan(self.of("2026-12-03", species))
            self.assertEqual(on_check["stances"]["food"][0]["until"], "2026-12-04", species)
            self.assertNotIn("2026-12-03", on_check["feeding"]["next"])
            self.assertIn("first-meal-moved", [one["code"] for one in on_check["review"]])
            for until in ("2026-12-02", "2026-12-04"):
                other = plan(self.of(until, species))
                self.assertEqual(other["stances"]["food"][0]["until"], until)
                self.assertNotIn("first-meal-moved", [one["code"] for one in other["review"]])
        for language, day in (("en", "No food before Fri 4 Dec"), ("es", "Sin comida antes del vie 4 dic"), ("fr", "Rien à manger avant le ven 4 déc")):
            self.assertIn(day, text(self.of("2026-12-03"), language).replace("viernes", "vie").replace("vendredi", "ven"))


class PreyThatItEats(unittest.TestCase):
    """A snake that eats one adult mouse well keeps it while its mass lies in the band; one that is too heavy or too light a meal is changed."""

    def of(self, grams, size="adult", **more):
        return visit("milk-snake", patient={"mass": "240 g", "length": "84 cm", "hatched": "2023-07"},
                     diet={"food": "mouse", "size": size, "meal": f"{grams} g", "count": 1, "every": "12 days", "last": "2026-11-22"}, **more)

    def prey(self, record):
        return [(one["food"], one["size"], one["count"]) for one in plan(record)["feeding"]["foods"]]

    def test_one_that_fits_stays(self):
        own = {"targets": {"meal": "18-24 g", "because": "as it eats now", "by": "Dr Orla Fenwick"}}
        for more in ({}, own):
            self.assertEqual(self.prey(self.of(22, **more)), [("mouse", "adult", 1)])
        for language, words in (("en", "One adult mouse"), ("es", "Un ratón adulto"), ("fr", "Une souris adulte")):
            self.assertIn(words, text(self.of(22), language))

    def test_one_that_does_not_is_changed(self):
        for grams, size in ((28, "adult"), (4, "fuzzy")):
            self.assertNotEqual(self.prey(self.of(grams, size)), [("mouse", size, 1)])


class FloorThatWasSwallowed(unittest.TestCase):
    """Gravel or sand that was swallowed goes out tonight by its name and does not come back by itself, whatever paper a sore or a germ asks for. It is one act,
    so it is one step: with its paper where that is dry, else by itself."""
    NAMED = {"en": ("sand, bark, soil and gravel", "Never put gravel back", "for good"), "es": ("arena, corteza, tierra y grava", "Nunca vuelvas a poner grava", "nunca más"),
             "fr": ("sable, écorce, terre et gravier", "Ne remettez jamais de gravier", "pour toujours")}
    FLOOR = ("take-out-loose-floor", "keep-dry-floor", "change-floor")

    def test_paper_takes_no_step_from_it(self):
        out = {"done_today": ["swallowed-object-removed"], "follow_up": {"recheck": "3 days"}}
        rows = (("horned-frog", ["prolapse moderate", "belly-stool mild"], "gravel", out, "take-out-loose-floor", True), ("horned-frog", ["prolapse moderate"], "gravel", out, "take-out-loose-floor", True),
                ("horned-frog", ["chytrid moderate"], "soil", out, "take-out-loose-floor", True),
                ("bearded-dragon", ["impaction-of-sand moderate", "burn mild"], "sand", {}, "keep-dry-floor", True), ("bearded-dragon", ["burn mild"], "sand", out, "keep-dry-floor", True),
                ("bearded-dragon", ["bite-wound mild"], "sand", out, "keep-dry-floor", True), ("green-iguana", ["belly-stool moderate", "burn mild"], "bark", {}, "keep-dry-floor", False))
        for species, found, floor, more, code, named in rows:
            record = visit(species, found, enclosure={"substrate": floor}, **more)
            acts = [one for one in plan(record)["actions"] if one["code"] in self.FLOOR and one["tonight"]]
            self.assertEqual([one["code"] for one in acts], [code], (species, found))
            self.assertNotIn("step-lost", asked(record))
            for language, words in self.NAMED.items() if named else ():
                said = text(record, language)
                for word in words[1:2] if code == "take-out-loose-floor" else (words[0], words[2]):
                    self.assertIn(word, said, (species, found, language))


class ShallowForGills(unittest.TestCase):
    """A salamander that floats rests in a tub of low water whose water is all new each day; its tank keeps its water, its filter and its daily
    part, told in litres of the whole. Nobody lowers the tank by the part that the next step puts back. The gravel leaves the same evening."""
    TUB = {"en": ("tub of low water", "Each day all the tub's water is new", "In the tank the filter stays on and a quarter is changed each day", "a quarter of the tank's water (30 l)"),
           "es": ("recipiente con poca agua", "Cada día toda el agua del recipiente es nueva", "En el acuario el filtro sigue en marcha y se cambia una cuarta parte cada día", "una cuarta parte del agua del acuario (30 l)"),
           "fr": ("bac à l'eau basse", "Chaque jour, toute l'eau du bac est neuve", "Dans l'aquarium, le filtre tourne et un quart est changé chaque jour", "un quart de l'eau de l'aquarium (30 l)")}
    COOLED = {"en": ("cool the water of tub and tank", " ice"), "es": ("enfría recipiente y acuario", " hielo"), "fr": ("rafraîchissez le bac et l'aquarium", " glace")}
    BY_PART = {"en": "Let it down by the part", "es": "Bájala con la parte", "fr": "Baissez-la avec la part"}

    def of(self, *found, **water):
        return visit("axolotl", found, enclosure={"substrate": "gravel"}, water={"ammonia": "0.25 mg/l", "ammonia-as": "total-n", "depth": "30 cm", "volume": "120 l", "filter": True, **water}, follow_up={"recheck": "3 days"})

    def test_tub_tank_and_gravel(self):
        for language in LANGUAGES:
            said = text(self.of("floating moderate"), language)
            for words in self.TUB[language]:
                self.assertIn(words.lower(), said.lower(), language)
            self.assertNotIn(self.BY_PART[language], said)
            clean = text(self.of("floating moderate", ammonia="0 mg/l"), language)
            self.assertIn(self.TUB[language][1], clean)
            self.assertNotIn(self.TUB[language][2], clean)
            frog = text(visit("fire-bellied-toad", ["floating moderate"], water={"ammonia": "0.25 mg/l", "ammonia-as": "total-n", "depth": "8 cm"}), language)
            self.assertNotIn(self.BY_PART[language], frog)
        for found, ill in (("floating moderate", True), ("belly-gas mild", True), ("fungus-tufts mild", False)):
            gravel = next(one for one in plan(self.of(found))["actions"] if one["code"] == "clear-tank-floor")
            self.assertEqual("gravel-in-an-ill-gut" in gravel["why"], ill, found)
            self.assertTrue(gravel["tonight"] or not ill)

    def test_cooling_is_told_once_and_of_both_waters(self):
        for language in LANGUAGES:
            said = text(self.of("floating moderate", temperature="22 C"), language)
            self.assertIn(self.COOLED[language][0], said.lower())
            self.assertEqual(said.count(self.COOLED[language][1]), 1, language)


    def test_what_it_came_for_stands_before_its_mild_cause_and_the_dose_of_the_check_has_its_name(self):
        """A reader of printed sheets: "gas in the belly" of one that was brought because it floats. A cause that is as grave leads as before."""
        dose = {"medicines": [{"name": "Ceftazidime", "amount": "0.03 ml", "route": "into-the-muscle", "every": "72 h", "doses": 4, "given-today": True, "given-today-at": "15:00", "first": TODAY, "given": "here"}],
                "follow-up": {"recheck": "3 days", "booked": "2026-12-03", "booked-at": "15:00"}}
        record = {**self.of("floating moderate", "belly-gas mild", temperature="22 C"), **dose}
        for language, named, back in (("en", "Floats to one side and gas in the belly.", "at 15:00: Ceftazidime. What to do at home until then."),
                                      ("es", "Flota de lado y gas en el vientre.", "a las 15:00: Ceftazidime. Qué hacer en casa hasta entonces."),
                                      ("fr", "Flotte de travers et gaz dans le ventre.", "à 15 h 00 : Ceftazidime. Que faire à la maison d'ici là.")):
            said = text(record, language)
            self.assertIn(named, said)
            self.assertIn(back, said)
        self.assertIn("Gas in the belly and floats to one side.", text({**self.of("floating moderate", "belly-gas moderate", temperature="22 C"), **dose}))


class WaterThatFits(unittest.TestCase):
    """A turtle that goes back to its own tank after some dry hours: how much water is so many litres of that tank, or a layer of it, or a strip of paper; it
    is begun tonight and told there; its dry time has its hours, and no line is drawn that no word speaks of (readers of printed sheets)."""
    DAILY = {"en": ("each day", "(25 l)", "7 cm of its depth", "folded in half twice"), "es": ("cada día", "(25 l)", "7 cm de hondo", "doblada dos veces"), "fr": ("chaque jour", "(25 l)", "7 cm de hauteur", "pliée deux fois")}
    THEN = {"en": "Then, in this order", "es": "Después, en este orden", "fr": "Ensuite, dans cet ordre"}
    HOURS = {"en": ("from 18:00 to 22:00", "then 4 hours out of the water", "as long as we say", "low water"), "es": ("de 18:00 a 22:00", "luego 4 horas fuera del agua", "el tiempo que digamos", "agua baja"),
             "fr": ("de 18 h 00 à 22 h 00", "puis 4 heures hors de l'eau", "le temps que nous disons", "eau basse")}

    def of(self, hours=None, **water):
        wash = {"name": "Iodine wash", "amount": "5 ml", "route": "in-the-ear", "every": "24 h", "for": "10 days", "first": "2026-12-01", "given": "at-home", "directions": "Right ear at 18:00."}
        aftercare = [{"of": "sedation", "awake-by": "17:30"}, {"of": "dry-hours", "hours": "4 h", "times": 1, "check": "2026-12-10", **(hours or {})}]
        return visit("common-musk-turtle", ["swollen-ear moderate"], patient={"length": "10 cm", "mass": "205 g"}, enclosure={"size": "90 x 45 x 45 cm", "walls": "glass", "lid": "mesh"},
                     water={"temperature": "24 C", "nitrate": "60 mg/l", **water}, done_today=["sedation", "surgery", "abscess-flush", "dry-hours"], medicines=[wash], follow_up={"recheck": "7 days", "aftercare": aftercare})

    def test_litres_or_a_layer_or_a_strip(self):
        for language in LANGUAGES:
            day, litres, layer, strip = self.DAILY[language]
            for water, told in (({"volume": "100 l", "depth": "28 cm"}, litres), ({"depth": "28 cm"}, litres), ({}, strip)):
                said = text(self.of(**water), language)
                tonight = said.split(self.THEN[language], 1)[0]
                self.assertIn(day, tonight, (language, water))
                self.assertIn(told, tonight, (language, water))
                self.assertEqual(strip in said, told == strip, (language, water))
            unmeasured = self.of(depth="28 cm")
            del unmeasured["enclosure"]["size"]
            self.assertIn(layer, text(unmeasured, language))
        let_down = text(visit("red-eared-slider", ["floating moderate"], water={"ammonia": "0.5 mg/l", "ammonia-as": "total-n", "depth": "28 cm", "volume": "100 l"}, enclosure={"size": "90 x 45 x 45 cm"}))
        self.assertIn("folded in half twice", let_down)  # the tank is let down: its litres are no more
        self.assertNotIn("(25 l)", let_down)

    def test_the_dry_time_has_its_hours(self):
        for language in LANGUAGES:
            clock, out, unsaid, low = self.HOURS[language]
            said = text(self.of(volume="100 l", depth="28 cm"), language)
            self.assertIn(clock, said)
            self.assertIn(out, said)
            self.assertNotIn(unsaid, said)
            self.assertNotIn(low, said)
        self.assertIn("from 19:30 to 23:30", text(self.of(hours={"from": "19:30"}, volume="100 l")))
        twice = text(self.of(hours={"times": 2}, volume="100 l"))
        self.assertIn("2 × a day for 4 hours", twice)
        self.assertNotIn("18:00 to", twice)
        refused = subprocess.run([PROGRAM, "explain", "-", "--today", TODAY], input=json.dumps(self.of(hours={"from": "25:00"})).encode(), capture_output=True, cwd=ROOT)
        self.assertIn(b"follow-up.aftercare.from: '25:00' is no time of the day", refused.stderr)


class PowdersOfFewMeals(unittest.TestCase):
    """One powder a meal: of one meal a week no two powders can each have one, so they take turns, and who signs is told. Powders that the
    veterinarian writes among the targets are printed also where calcium is a medicine."""

    def test_they_take_turns(self):
        weekly = {"targets": {"meal": "6-8 g", "every": "7 days", "because": "small meals", "by": "Dr Orla Fenwick"}, "patient": {"mass": "210 g", "hatched": "2024"}}
        record = visit("horned-frog", **weekly)
        powders = plan(record)["feeding"]["supplements"]
        self.assertLessEqual(sum(one["per_week"][1] if one["per_week"] else 7 for one in powders), 1.01, powders)
        self.assertIn("powders-share-meals", asked(record))
        for language, words in (("en", "once every 2 weeks"), ("es", "cada 2 semanas"), ("fr", "toutes les 2 semaines")):
            self.assertEqual(text(record, language).count(words), 2, language)
        often = visit("horned-frog", patient={"mass": "210 g", "hatched": "2024"}, targets={**weekly["targets"], "every": "2 days"})
        self.assertNotIn("powders-share-meals", asked(often))

    def test_own_powders_stand_beside_a_medicine(self):
        calcium = {"name": "Calcium syrup", "amount": "0.3 ml", "route": "by-mouth", "every": "24 h", "for": "7 days", "first": "2026-12-01", "given": "at-home"}
        own = {"targets": {"powders": [{"powder": "multivitamin", "per-week": 1}], "because": "eggs", "by": "Dr Orla Fenwick"}}
        for more, printed in ((own, True), ({}, False)):
            record = visit("veiled-chameleon", ["gravid moderate early"], medicines=[calcium], patient={"sex": "female", "mass": "128 g", "hatched": "2025-10"}, **more)
            for language, words in (("en", "ultivitamin powder for reptiles once a week"), ("es", "itaminas para reptiles una vez por semana"), ("fr", "une fois par semaine")):
                self.assertEqual(words in text(record, language), printed, language)


if __name__ == "__main__":
    unittest.main(argv=[sys.argv[0], "-v"])
