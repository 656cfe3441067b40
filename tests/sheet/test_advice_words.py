#!/usr/bin/env python3
"""What every instruction must say, and every species' warning list against the signs that are in print."""
import json
import re
import subprocess
import sys
import unittest
from pathlib import Path


sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from agreement import agreed  # noqa: E402
from read_yaml import read_yaml  # noqa: E402
from languages import LANGUAGES  # noqa: E402

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
SHEETS = {path.stem: read_yaml(path.read_text()) for path in sorted((ROOT / "species-sheets").glob("*.yaml"))}
WORDS = {lang: {key: agreed(value, lang) for path in (ROOT / "templates/wording" / lang).glob("*.yaml") if path.name != "language.yaml"
                for key, value in read_yaml(path.read_text()).items()} for lang in LANGUAGES}
RULES = read_yaml((ROOT / "templates/rules.yaml").read_text())["rules"]
ACTIONS = sorted({rule["do"] for rule in RULES.values()})
FINDINGS = read_yaml((ROOT / "templates/findings.yaml").read_text())["findings"]

# an action that names a number to reach, and the slot that holds it
NUMBERS = {"cool-water": "water.target", "warm-water": "water.target", "cool-basking": "basking-surface.target", "warm-basking": "basking-surface.target",
           "cool-warm-side": "warm-side.target", "warm-warm-side": "warm-side.target", "cool-cool-side": "cool-side.target", "warm-cool-side": "cool-side.target",
           "cool-night": "night.target", "warm-night": "night.target", "widen-gradient": "cool-side.target", "keep-warm-side-warm": "warm-side.target",
           "check-warmth": "warm-side.target", "hang-lamp-at": "uvb.mesh-distance", "raise-humidity": "humidity.target", "lower-humidity": "humidity.target",
           "feed-less-often": "meal.mass", "feed-small-often": "steps.first", "larger-box": "enclosure.least", "pause-food": "feeding.resume",
           "change-part-water": "water.share", "change-more-water": "water.usual-share", "change-less-water": "water.usual-share", "settle-ph": "ph.target",
           "harden-water": "hardness.target", "raise-water-level": "depth.target", "lower-water-level": "depth.target"}
# chlorine is taken out whole: there is no number to reach
WITHOUT = {"treat-water"}
MEASURE = {"en": r"\b([Mm]easure|[Rr]ead|[Ww]eigh|thermometer|as this sheet says)\b", "es": r"\b(Mide|Lee|Pesa|termómetro|según esta hoja)\b",
           "fr": r"\b(Mesurez|Lisez|Pesez|thermomètre|selon cette fiche)\b"}
CALL = {"en": r"\b([Cc]all|[Gg]o now|[Gg]o to a clinic|[Aa]sk us|Tell us)\b", "es": r"\b([Ll]lama|[Aa]cude ya|[Pp]regunta|[Pp]ide|Dínoslo)\b",
        "fr": r"\b([Aa]ppelez|[Cc]onsultez d'urgence|Allez tout de suite|[Dd]emandez-nous)\b"}

# Signs in print, the groups they hold for, and where. The training page: 'seek a vet without delay', read in a copy.
TRAINING = "veterinary emergency training page, 'seek a vet without delay'"
REPTILES = ("snake", "lizard", "tortoise", "turtle")
PUBLISHED = [
    ("trauma", "bite", REPTILES, TRAINING), ("shell break", "crushed-shell", ("tortoise", "turtle"), TRAINING),
    ("bone break", "broken-bone", ("lizard", "tortoise", "turtle"), TRAINING), ("bleeding that will not stop", "bleeding", REPTILES, TRAINING),
    ("burns", "burn", REPTILES, TRAINING), ("heat stroke", "overheated", REPTILES, TRAINING), ("hypothermia", "overheated", REPTILES, TRAINING),
    ("straining", "straining-and-weak", REPTILES, TRAINING), ("difficult laying or birth", "straining-and-weak", REPTILES, TRAINING),
    ("choking", "open-mouth-breathing", REPTILES, TRAINING), ("bloat", "bloat", REPTILES, TRAINING), ("foreign body", "poisoned", REPTILES, TRAINING),
    ("toxin", "poisoned", REPTILES, TRAINING), ("cloacal prolapse", "prolapse", REPTILES, TRAINING), ("collapse", "limp", REPTILES, TRAINING),
    ("seizures", "fits", REPTILES, TRAINING), ("head tilt", "head-tilt", REPTILES, TRAINING),
    ("open-mouth breathing", "open-mouth-breathing", ("snake",), "WikiVet 'Snake Respiratory Disease'"),
]
# what the words must hold so that one sign stands for two in print
WORDED = {"hypothermia": ("overheated", "cold", "frío", "froid"), "choking": ("open-mouth-breathing", "chokes", "atraganta", "étouffe"), "foreign body": ("poisoned", "not food", "no es comida", "ne se mange pas")}


def text(value):
    return value if isinstance(value, str) else " ".join(one if isinstance(one, str) else " ".join(one.values()) for one in value)


def warnings(species, **parts):
    record = {"visit": {"date": "2026-03-14", "kind": "checkout"}, "patient": {"name": "Fern", "species": species}, **parts}
    done = subprocess.run([PROGRAM, "explain", "--json", "-", "--today", "2026-03-14"], input=json.dumps(record), capture_output=True, text=True, cwd=ROOT)
    if done.returncode:
        raise AssertionError(done.stderr)
    return {one["code"]: one["tier"] for one in json.loads(done.stdout)["warnings"]}


class Instructions(unittest.TestCase):
    def test_no_range_is_left_to_the_reader_to_work_out(self):
        """The middle, the upper half, the dry end: whoever is told to keep to it reads its number (Clear Communication Index of the CDC: the
        reader does no arithmetic). The last of several sayings is for an animal that has no such number."""
        part = {"en": r"\b(middle|half|dry end) of (its|these|the) (range|numbers)|\bmiddle\b.*numbers", "es": r"(medio|mitad \w+|extremo \w+) de (su|esos) (margen|números)|punto medio",
                "fr": r"(milieu|moitié \w+) de (sa|ces) (plage|nombres)|au plus sec|chiffre le plus haut"}
        for lang in LANGUAGES:
            for key in [key for key in WORDS[lang] if key.startswith(("stance.humidity.", "stance.warmth-day.ill", "action.measure-again."))]:
                said = WORDS[lang][key]
                first = said[0] if isinstance(said, list) else said
                self.assertNotRegex(first, part[lang], f"{lang} {key}")

    def test_the_middle_of_a_band_is_printed(self):
        """Readings on the edges of 27-29 and 25-27 C: the number to set stands there, in steps of half a degree as the bands do. No
        heater is set to the cool side: it is measured again, and that is all."""
        case = ROOT / "tests/sheet/cases/gravid-obese-corn-snake.yaml"
        done = subprocess.run([PROGRAM, "sheet", case, "-o", "-", "--today", "2026-03-20", "--units", "metric"], capture_output=True, check=True, cwd=ROOT)
        said = subprocess.run(["pdftotext", "-raw", "-", "-"], input=done.stdout, capture_output=True, check=True).stdout.decode()
        said = " ".join(said.replace("\u00a0", " ").split())
        self.assertRegex(said, r"set the warm side to 28 °C\.")
        self.assertRegex(said, r"Measure again: [^.]*the cool side")
        self.assertNotIn("set the cool side", said)

    def test_each_listed_action_is_one(self):
        self.assertLessEqual(set(NUMBERS), set(ACTIONS))

    def test_a_reading_out_of_range_names_the_number_to_reach(self):
        for name, rule in RULES.items():
            asked = [one for one in rule["when"].values() if set(one if isinstance(one, list) else [one]) <= {"too-low", "too-high"}]
            for words in WORDS.values():
                do = words[f"action.{rule['do']}.do"]
                if asked and rule["do"] not in WITHOUT:
                    self.assertRegex(text((do if isinstance(do, list) else [do])[:1]), r"{(?!patient\.|species\.)[a-z.-]+}", name)

    def test_number_how_and_when_to_stop(self):
        for lang, words in WORDS.items():
            for action in ACTIONS:
                do = words[f"action.{action}.do"]
                first = text((do if isinstance(do, list) else [do])[:1])
                if action in NUMBERS:
                    self.assertIn("{" + NUMBERS[action] + "}", first, (lang, action))
                    self.assertRegex(text(words[f"action.{action}.how"]), MEASURE[lang], (lang, action))
                self.assertIn(f"action.{action}.how", words, lang)
                if action == "go-to-clinic-now":
                    continue
                self.assertRegex(text(words[f"action.{action}.stop"]), CALL[lang], (lang, action))

    def test_every_finding_says_when_to_call(self):
        for lang, words in WORDS.items():
            for code, finding in FINDINGS.items():
                if set(finding["severities"]) == {"normal"} or code == "fast-heart-rate":  # nothing to do at home
                    continue
                self.assertRegex(text(words[f"finding.{code}.home"]), CALL[lang], (lang, code))


# Spanish as clinics say it, by a reader whose language it is: the key and what it must hold
SPANISH = [("sheet.found.title", "Qué encontramos"), ("sheet.head.found", "Qué encontramos"), ("wall.found", "Qué encontramos"),
           ("sheet.found.fine", "Revisado y normal"), ("severity.moderate", "moderado"), ("sheet.result.temperature.too-low", "{change} por debajo"),
           ("sheet.result.temperature.too-high", "{change} de más"), ("sheet.tier.now", "Urgencia: ven ya y llama al"),
           ("sheet.warnings.title", "Señales de alarma"), ("sheet.date-long", "de {month} de"),
           ("caution.no-live-prey", "No dejes en el terrario presas vivas que no se haya comido"), ("food.flowers-and-weeds", "sin pesticidas"),
           ("sheet.cautions.title", "Precauciones"), ("caution.who-should-not-handle", "No deben manipularlo"),
           ("caution.burns-and-guards", "piedras térmicas"), ("sign.wheezing-or-bubbles", "en nariz o boca"),
           ("finding.retained-spectacle.name", "Piel vieja que quedó sobre el ojo"), ("sign.regurgitation", "Regurgita o vomita"),
           ("action.shallow-bath.how", "agua a {warm-side.target}"), ("action.clear-mites.how", "Cambia todo el sustrato"),
           ("date.recheck-usual", "Pide una revisión"), ("date.quarantine-end", "Fin de la cuarentena"), ("action.offer-water.do", "agua limpia"),
           ("stance.watch.weight.watch", "la décima parte"), ("measure.basking-surface.plain", "zona para asolearse")]
# one word for one thing, and no adjective that takes an animal's sex for granted
NEVER_SPANISH = r"(?i)\b(zona de sol|flojo|espalda|caca|una décima parte|rocas calientes|control(es)?)\b"
# no measure where a number is known: in what is said when every slot has its value
VAGUE = {"en": r"(?i)\b(lukewarm|far too)\b", "es": r"(?i)\b(agua tan tibia como|muchísimo)\b", "fr": r"(?i)\b(tiède comme|bien trop)\b"}
LITTLE = {"en": r"\ba little\b", "es": r"\bun poco\b", "fr": r"\bun peu\b"}
# Signs that are grave at first sight: to see it once, however small, is the threshold.
AT_SIGHT = set("""open-mouth-breathing open-mouth-breathing-cool laboured-breathing limp fits stargazing head-tilt rolling prolapse prolapse-frog wound-opens-alone carrying-and-dull carrying-eggs-and-dull
    carrying-young-and-dull carrying-eggs-and-duller carrying-young-and-duller dull-after-operation bite crushed-shell broken-bone dragging-legs drowned poisoned choking overheated frozen bloat red-legs
    floating gasps-at-surface skin-sloughing wheezing-or-bubbles discharge red-scales smelly-shell red-mouth swelling soft-jaw soft-jaw-looks soft-shell bent-bones
    regurgitation blood-in-stool sunken-eyes sunken-eyes-alone skin-folds sore-eyes-new-lamp sore-eyes-no-lamp mites swims-lopsided fungus-tufts dark-tail-tip dark-stump stiff-part
    no-tongue-flick slow-weight-change wound-opens smelly-wound dressing-slips dressing-slips-swims swollen-dark-toes tube-out mouth-bleeds refuses-food-steady dressing-slips-wet dressing-slips-loose""".split())
# Any other sign says how much, how long or how often, or against what it is held.
EXTENT = {"en": r"\{|\d|____|\b(more than|than is usual|each|even|than at|after|all day|[Oo]ne|so long that|does not|when held|again|spreads|still|nothing by|tenth)\b",
          "es": r"\{|\d|____|\b(más de|de lo normal|en la muda|antes de|aún|cada|aunque sean?|aun|que en esta|tras|todo el día|una comida|tan larg[ao]s que|no para|cuando|al cogerla|otra vez|[Vv]uelve a|avanza|siguen?|décima)\b",
          "fr": r"\{|\d|____|\b(plus d'une|que d'habitude|avant|chaque|même|à cette visite|après|toute? l[ea] jour(?:née)?|[Uu]n repas|si long(ue)?s qu'|qui continue|quand|encore|s'étend|toujours|ressort|dixième)\b"}
# of what is there already: what would be news
UNCLEAR = {"en": r"(?i)\b(now and then|mild|a little|slight|some)\b", "es": r"(?i)\b(a ratos|un poco|leve)\b", "fr": r"(?i)\b(par moments|un peu|léger|légère)\b"}


class Wording(unittest.TestCase):
    def printed(self, lang):
        """What a sheet says first of each key, the clinic's own page left out."""
        for key, value in WORDS[lang].items():
            if not key.startswith(("desk.", "review.", "topic-words.")):
                first = value[0] if isinstance(value, list) else value
                yield key, text([first])

    def test_spanish_as_a_clinic_says_it(self):
        for key, held in SPANISH:
            value = WORDS["es"][key]
            self.assertIn(held, text([value[0] if isinstance(value, list) else value]), key)
        for key, said in self.printed("es"):
            self.assertNotRegex(said, NEVER_SPANISH, key)

    def test_french_and_spanish_say_what_they_mean(self):
        """"Baissez la lampe" brings it nearer where it was to be dimmed, "fixez" is fastened before it is stared at, and an animal that is a she is not
        "despierto", nor another one who may touch her a male (French and Spanish usage, memory)."""
        never = {"fr": r"[Bb]aissez la lampe\b|[Nn]e fixez pas|laissez faire un autre\.|\u2019| : ", "es": r"[Dd]espierto a las|[Pp]or sí mismo|toque otro\.|Cúbrelo con un paño limpio en el camino|^Deja todo polvo"}
        for lang, words in never.items():
            for key, said in self.printed(lang):
                self.assertNotRegex(said, words, (lang, key))

    def test_no_turtle_breathes_water(self):
        """It has lungs (biology): what is said of the others in a tank is said of turtles too."""
        for lang, breath in (("en", "breath"), ("es", "respir"), ("fr", "respir")):
            self.assertNotIn(breath, text(WORDS[lang]["action.look-after-mates.how"]))

    def test_french_elides_before_no_name(self):
        """"Pour que Olive" is wrong and "pour qu'Rex" too: no word that loses its vowel stands before a name (French orthography)."""
        words = re.compile(r"\b(?:que|de|ce|je|le|la|ne|se|si on|jusque|lorsque|puisque|quoique) \{(?:patient|clinic|keeper|vet)\.name\}", re.I)
        self.assertRegex("pour que {patient.name} ne", words)
        self.assertEqual([], [key for key, value in WORDS["fr"].items() if not key.startswith("desk.") and words.search(text(value))])

    def test_no_vague_measure_where_a_number_is_known(self):
        for lang in LANGUAGES:
            for key, said in self.printed(lang):
                self.assertNotRegex(said, VAGUE[lang], (lang, key))
            for action in NUMBERS:
                value = WORDS[lang][f"action.{action}.do"]
                self.assertNotRegex(text([value[0] if isinstance(value, list) else value]), LITTLE[lang], (lang, action))
                for key, how in WORDS[lang].items():
                    if key.startswith(f"action.{action}.how") and action != "lower-water-level":
                        self.assertNotRegex(text([how] if isinstance(how, str) else how), LITTLE[lang], (lang, key))


# What a snake has not, in what a finding is called and means: such texts instruct nobody, and no sweep of instructions reads them.
LIMBS = {"en": r"\b(toes?|legs?|feet|foot|claws?|knees?|elbows?)\b", "es": r"\b(dedos?|patas?|pies?|uñas?|codos?)\b",
         "fr": r"\b(doigts?|pattes?|pieds?|griffes?|coudes?)\b"}


class Bodies(unittest.TestCase):
    def test_no_finding_speaks_to_a_snake_of_its_legs(self):
        declared = read_yaml((ROOT / "templates/instructions.yaml").read_text())["instructions"]
        seen = 0
        for code, entry in FINDINGS.items():
            if "snake" not in entry["groups"] or "limbs" in entry.get("needs", []):
                continue
            for part in ("name", "meaning", "home"):
                key = f"finding.{code}.{part}"
                own = [one["key"] for one in declared.get(key, {}).get("variants", []) if one.get("groups") == ["snake"]]
                for lang in LANGUAGES:
                    seen += 1
                    for said in (own or [key]):
                        if said in WORDS[lang]:
                            self.assertNotRegex(str(WORDS[lang][said]), LIMBS[lang], (said, lang))
        self.assertGreater(seen, 300)


class Signs(unittest.TestCase):
    def test_no_reason_speaks_to_a_frogs_keeper_of_reptiles(self):
        """The reason of a rule stands on the sheet of each animal that the rule may hold for."""
        for code, rule in RULES.items():
            if {"frog", "salamander"}.intersection(rule["when"].get("group", ["frog"])):
                for lang in LANGUAGES:
                    self.assertNotRegex(text(WORDS[lang].get(f"why.{code}", "")), "(?i)r[eé]ptil", f"{lang}: why.{code}")

    def test_every_warning_has_its_threshold(self):
        for lang in LANGUAGES:
            for key, value in WORDS[lang].items():
                if not key.startswith("sign."):
                    continue
                code, *part = key.split(".")[1:]
                for said in [value] if isinstance(value, str) else value:
                    self.assertNotRegex(text([said]), UNCLEAR[lang], (lang, key))
                    if code not in AT_SIGHT and not part:
                        self.assertRegex(text([said]), EXTENT[lang], (lang, key))
        self.assertLessEqual(AT_SIGHT, {key.split(".")[1] for key in WORDS["en"] if key.startswith("sign.")})

    def test_every_species_against_the_signs_in_print(self):
        for name, sheet in SHEETS.items():
            listed = warnings(name)
            for printed, code, groups, source in PUBLISHED:
                if sheet["species"]["group"] in groups and not (code == "broken-bone" and "limbs" not in sheet["species"].get("traits", [])):
                    self.assertEqual(listed.get(code), "now", f"{name}: {printed} ({source})")

    def test_one_sign_for_two_says_both(self):
        for printed, (code, *held) in WORDED.items():
            for lang, words in zip(("en", "es", "fr"), held, strict=True):
                self.assertIn(words, WORDS[lang][f"sign.{code}"].lower(), printed)

    def test_signs_of_mites(self):
        """WikiVet, snake mite page: black specks, soaking, trouble with the shed, eye caps left on: on every snake's sheet."""
        for name, sheet in SHEETS.items():
            if sheet["species"]["group"] == "snake":
                self.assertLessEqual({"mites", "soaks-all-day", "shed-in-patches", "spectacle-left-on"}, set(warnings(name)), name)

    def test_eyes_hurt_by_a_lamp(self):
        """Gardiner, Baines & Pandher 2009, J Zoo Wildl Med 40(4):757-766: a ball python and a blue-tongued skink; it went when the lamps were removed."""
        for name in ("ball-python", "blue-tongued-skink"):
            self.assertEqual(warnings(name).get("sore-eyes-new-lamp"), "today", name)

    def test_carrying_and_dull(self):
        """WikiVet 'Lizard and Snake Dystocia': bright is normal, lethargy or depression means a difficult birth."""
        for name, sheet in SHEETS.items():
            if sheet["species"]["group"] in ("snake", "lizard"):
                found = warnings(name, findings=[{"code": "gravid", "severity": FINDINGS["gravid"]["severities"][0]}])
                self.assertEqual(found.get("carrying-and-dull"), "now", name)

    def test_a_missed_meal_is_no_sign_where_it_is_normal(self):
        grown = {"name": "Fern", "species": "ball-python", "mass": "1450 g"}
        self.assertNotIn("missed-meal", warnings("ball-python", patient=grown))
        thin = {**grown, "earlier": [{"on": "2026-02-14", "mass": "1700 g"}]}
        self.assertEqual(warnings("ball-python", patient=thin).get("missed-meal"), "soon")
        self.assertEqual(warnings("ball-python", patient={**grown, "mass": "90 g"}).get("missed-meal"), "soon")
        self.assertEqual(warnings("corn-snake").get("missed-meal"), "soon")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
