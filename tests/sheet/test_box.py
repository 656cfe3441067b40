#!/usr/bin/env python3
"""What a keeper is told of the box and of who lives in it: company, nest, water, and until when. Written by hand from the clinical table
(4.2-4.6: depth of the nest, a frog's own band, company by kind); what names no source is common practice, no source."""
import json
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM, WRITE_PLAIN = (Path(argument).resolve() for argument in sys.argv[1:3])
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-20"
LANGUAGES = ("en", "es", "fr")


def visit(species, findings=(), enclosure=None, patient=None, **more):
    return {"visit": {"date": TODAY, "kind": "checkout", "veterinarian": "Dr Ines Calder"}, "patient": {"name": "Fern", "species": species, **(patient or {})},
            "keeper": {"units": "metric"}, "enclosure": enclosure or {}, "findings": [{"code": one} if isinstance(one, str) else one for one in findings], **more}


def plan_of(record):
    done = subprocess.run([PROGRAM, "explain", "--json", "-", "--today", TODAY], input=json.dumps(record), capture_output=True, text=True, cwd=ROOT)
    if done.returncode:
        raise AssertionError(done.stderr)
    return json.loads(done.stdout)


def sheet(record, lang="en", laid=False):
    """The sheet as text in one line, hard spaces as plain ones; laid: as its pages hold it, with the next shorter words where they are full."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "visit.yaml"
        path.write_text(json.dumps(record))
        done = subprocess.run([WRITE_PLAIN, ROOT, path, TODAY, lang, *([] if laid else ["whole"])], capture_output=True, text=True)
    if done.returncode:
        raise AssertionError(done.stderr)
    return re.sub(r"\s+", " ", done.stdout)


class Company(unittest.TestCase):
    def test_soil_to_lay_in_is_told_where_it_lifts_her_to_the_lamp(self):
        """10 inches of soil below a lamp that hangs 33 cm above her back on the floor leave 4 cm; on a platform of 12.7 cm she is lifted by less.
        Who signs is told, and the keeper sets the soil clear of the lamps (a reader's finding; common practice, no source)."""
        lamp = {"kind": "tube", "tube-length": "55 cm", "measured": {"uvi": 3, "at": "33 cm"}, "installed": "2026-02-01"}
        gravid = [{"code": "gravid", "severity": "moderate"}]
        for species, height, platform, told in (("bearded-dragon", "33 cm", None, True), ("bearded-dragon", "33 cm", "35 cm", False), ("bearded-dragon", None, None, False),
                                                ("veiled-chameleon", "33 cm", None, True)):
            box = {"size": "120 x 60 x 60 cm", "lamp": {**lamp, **({"height": height} if height else {})}, **({"platform-height": platform} if platform else {})}
            record = visit(species, gravid, box, {"sex": "female", "hatched": "2023"})
            self.assertEqual("nest-near-lamp" in [one["code"] for one in plan_of(record)["review"]], told, (species, height, platform))
            for lang, words in (("en", "clear of the lamps"), ("es", "lejos de las lámparas"), ("fr", "loin des lampes")):
                self.assertIn(words, sheet(record, lang), (species, lang))
        self.assertNotIn("nest-near-lamp", [one["code"] for one in plan_of(visit("bearded-dragon", [], {"size": "120 x 60 x 60 cm", "lamp": {**lamp, "height": "33 cm"}}))["review"]])

    def test_the_others_do_not_keep_heat_that_is_too_much(self):
        """The numbers of the sheet hold in the tub too, whether their box was too warm, too cold or right (White's tree frog: 24-26 C on the cool side)."""
        for reading in ("31 C", "27 C", "15 C"):
            record = visit("whites-tree-frog", ["red-legs"], {"animals": 3, "mates": ["whites-tree-frog"], "readings": {"warm-side": reading}})
            record["findings"][0]["state"] = "seen"
            for lang, band, had in (("en", "clean tub at 24–26 °C", "as warm as they had it"), ("es", "recipiente limpio a 24–26 °C", "con el calor que tenían"),
                                    ("fr", "bac propre à 24–26 °C", "à la chaleur qu'ils avaient")):
                text = sheet(record, lang)
                self.assertEqual((band in text, had in text), (True, False), (reading, lang))

    def test_two_kinds_go_into_two_tubs(self):
        for mates, apart in ((["whites-tree-frog", "green-anole"], True), (["whites-tree-frog"], False)):
            for reading in ("31 C", "27 C"):
                record = visit("whites-tree-frog", ["red-legs"], {"animals": 3, "mates": mates, "readings": {"warm-side": reading}})
                record["findings"][0]["state"] = "seen"
                for lang, words in (("en", "clean tubs, green anole apart from the rest"), ("es", "recipientes limpios, anolis verde en uno aparte"),
                                    ("fr", "bacs propres, anole vert à part")):
                    self.assertEqual(words in sheet(record, lang), apart, (mates, reading, lang))

    def test_one_mate_is_one(self):
        many = {"en": "the others|box mates|Box mates|They count", "es": "pasa a los demás|compañeros|Cuentan como", "fr": "les autres dans|compagnons|Ils comptent"}
        one = {"en": "the other one", "es": "al otro", "fr": "l'autre"}
        for animals in (2, 3):
            record = visit("corn-snake", ["mites"], {"animals": animals, "mates": ["corn-snake"]})
            for lang in LANGUAGES:
                text = sheet(record, lang)
                self.assertEqual(bool(re.search(many[lang], text)), animals == 3, (animals, lang, re.findall(many[lang], text)))
                self.assertEqual(one[lang] in text, animals == 2, (animals, lang))


    def test_what_shares_a_runny_nose_is_seen_too(self):
        """A tortoise's runny nose and any airway infection may be caught (the clinical table, AIR: company until tested)."""
        for species, code, caught in (("hermanns-tortoise", "nose-discharge", True), ("ball-python", "airway-infection", True), ("ball-python", "nose-discharge", False)):
            for animals in (1, 2):
                box = {"animals": animals, **({"mates": [species]} if animals > 1 else {})}
                asked = {one["code"]: one for one in plan_of(visit(species, [{"code": code, "severity": "moderate"}], box))["actions"]}
                self.assertEqual("show-mates" in asked, caught and animals > 1, (species, code, animals))
                if caught and animals > 1:
                    self.assertIn("Tonight move the other one", sheet(visit(species, [{"code": code, "severity": "moderate"}], box)))


    def test_who_is_ill_is_parted_tonight_and_the_well_one_moves(self):
        """Mates bite the ill and take its food (the clinical table, ILL: company alone; common practice, no source): no second box is waited for, and it is
        said who moves. A healthy pair stays."""
        moves = {"en": "Tonight move the other one", "es": "Esta noche pasa al otro a un recipiente limpio", "fr": "Ce soir, mettez l'autre dans un bac propre"}
        for species, code, more, parted in (("red-eared-slider", "swollen-ear", {}, True), ("red-eared-slider", "swollen-ear", {"done-today": ["abscess-flush"]}, True),
                                            ("giant-day-gecko", "weak-grip", {}, True), ("bearded-dragon", "swollen-joint", {}, True), ("whites-tree-frog", "pale-mouth", {}, True),
                                            ("green-iguana", "long-claws", {}, False)):
            record = visit(species, [{"code": code, "severity": "moderate"}], {"animals": 2, "mates": [species], "males": 1}, **more)
            own = [one for one in plan_of(record)["actions"] if one["code"] == "own-box"]
            self.assertEqual([one["tonight"] for one in own if one["tonight"]], [True] if parted else [], (species, code, own))
            for lang, words in moves.items():
                self.assertEqual(words in sheet(record, lang), parted, (species, code, lang))


class Nest(unittest.TestCase):
    def test_who_lays_in_a_hollow_is_given_no_soil(self):
        """A day gecko and a tokay lay in a tube or a crack and dig no tunnel (their species sheets: nest, kind hollow; common practice, no source)."""
        tubes, soil = {"en": "tubes to lay in", "es": "tubos para la puesta", "fr": "tubes pour pondre"}, {"en": "tunnel", "es": "túnel", "fr": "tunnel"}
        for species, hollow in (("giant-day-gecko", True), ("tokay-gecko", True), ("crested-gecko", False)):
            for lang in LANGUAGES:
                text = sheet(visit(species, [{"code": "gravid", "step": "early"}], {"size": "45 x 45 x 90 cm"}, {"sex": "female", "hatched": "2022"}), lang)
                self.assertEqual((tubes[lang] in text.lower(), soil[lang] in text), (hollow, not hollow), (species, lang))

    def test_who_shakes_is_not_lifted_to_be_weighed(self):
        """The clinical table, tremor: never with it, handling for weighing."""
        for severity in ("mild", "severe"):
            record = visit("giant-day-gecko", [{"code": "tremor", "severity": severity}], {}, {"mass": "46 g"}, **{"follow-up": {"recheck": "7 days"}})
            plan = plan_of(record)
            self.assertEqual(plan["stances"]["weighing"][0]["stance"], "not-at-home")
            self.assertEqual([one["on"] for one in plan["dates"] if one["what"].startswith("weigh") and one["on"] < "2026-03-27"], [])
            for lang, scales in (("en", "the scales"), ("es", "la balanza|pesarla"), ("fr", "la pesée|la peser")):
                self.assertNotRegex(sheet(record, lang), scales)


class Water(unittest.TestCase):
    def test_hours_out_of_the_water_have_their_last_day(self):
        """Twenty dry hours a day without an end dry a turtle out: the date of the check that was written is the last one, and it swims in a tub."""
        record = visit("red-eared-slider", [{"code": "swollen-ear", "severity": "moderate"}], **{"done-today": ["surgery", "dry-hours"], "follow-up": {"recheck": "7 days", "aftercare": [
            {"of": "dry-hours", "hours": "20 h", "times": "1", "check": "2026-03-30"}, {"of": "surgery", "check": "2026-03-27"}]}})
        phases = plan_of(record)["stances"]["dry-hours"]
        self.assertEqual([(one["stance"], one["until"]) for one in phases], [("as-written", "2026-03-30"), ("none", None)])
        for lang, until, tub in (("en", "Until Monday 30 March 2026 dry for 20 hours|Until Mon 30 Mar dry for 20 hours", "a clean tub"), ("es", "Hasta el lunes 30 mar", "recipiente limpio"), ("fr", "Jusqu'au lun(di)? 30 mars", "bac propre")):
            text = sheet(record, lang)
            self.assertRegex(text, until)
            self.assertIn(tub, text)

    def test_no_heater_runs_above_the_water(self):
        """Glass that heats in the air cracks and gives shocks: where water is let out of a tank with a heater, the plug comes first; and until the depth is
        known she can reach the air (common practice, no source)."""
        cold = {"readings": {"water": "20 C", "basking-surface": "31 C"}}
        foul = {"ammonia": "0.5 mg/l", "volume": "60 l", "depth": "20 cm"}
        for box, water, code, words in ((cold, {}, "airway-infection", {"en": ("always under water, and unplug it before you let water out", "Unplug what is electric in it before you let water out", "a ledge just below the surface"),
                                                             "es": ("siempre bajo el agua. Desenchúfalo antes de sacar agua", "Antes de sacar agua, desenchufa lo eléctrico", "un apoyo justo bajo la superficie"),
                                                             "fr": ("sous l'eau. Débranchez-le avant d'enlever de l'eau", "un appui juste sous la surface")}),
                                 ({"readings": {"water": "25 C"}}, foul, "swollen-eyes", {"en": ("First unplug what is electric in the water",), "es": ("Antes desenchufa lo eléctrico",), "fr": ("Débranchez d'abord ce qui est électrique",)})):
            for lang in LANGUAGES:
                text = sheet(visit("red-eared-slider", [{"code": code, "severity": "moderate"}], box, water=water), lang)
                for one in words[lang]:
                    self.assertIn(one, text, (code, lang))

    def test_no_water_before_it_is_awake(self):
        """The drowsy drown in their own bowl (the clinical table, sedation: water shallow until awake, food and water by mouth not before): the first swim
        and the first bowl wait for it, and no line of the sheet gives them tonight as it is."""
        dry = {"aftercare": [{"of": "dry-hours", "hours": "22 h", "times": "1", "check": "2026-03-30"}]}
        few = {"aftercare": [{"of": "dry-hours", "hours": "4 h", "times": "2", "check": "2026-03-30"}]}
        swims = {"en": ("in between it swims and drinks", "tomorrow, once fully awake"), "es": ("Entre medias, que nade y beba", "mañana, si despertó del todo"),
                 "fr": ("Entre les deux, l'animal nage et boit", "demain, bien réveillé")}
        stays = {"en": "Tonight it stays dry", "es": "Esta noche se queda en seco", "fr": "Ce soir, l'animal reste au sec"}  # else it lives, and swims, in its own tank
        drinks = {"en": ("now and each day|[Gg]ive water now|[Oo]ffer water in a shallow dish", "[Oo]nce (Fern is fully )?awake|as soon as Fern is fully awake"), "es": ("ahora y cada día|[Dd]a agua ahora|[Oo]frece agua en plato bajo", "([Cc]uando|[Aa]l) desp"),
                  "fr": ("maintenant et chaque jour|de l'eau maintenant|[Mm]ettez de l'eau, peu profonde", "[Aa]u réveil|fini de se réveiller")}
        for done in ([], ["sedation"], ["surgery"]):
            for lang in LANGUAGES:
                for hours in (dry, few):
                    text = sheet(visit("red-eared-slider", [{"code": "shell-rot", "severity": "moderate"}], **{"done-today": ["dry-hours", *done], "follow-up": hours}), lang)
                    swims_now = stays[lang] not in text if hours is few else swims[lang][0] in text
                    self.assertEqual([swims_now, swims[lang][1].lower() in text.lower()], [not done, bool(done)], (done, lang))
                for species in ("corn-snake", "leopard-tortoise"):
                    text = sheet(visit(species, [{"code": "dehydrated", "severity": "moderate"}], **{"done-today": done}), lang)
                    self.assertEqual([bool(re.search(one, text)) for one in drinks[lang]], [not done, bool(done)], (done, lang, species))

    def test_a_dressing_without_a_mark_waits_in_the_carrying_box(self):
        for lang, words in (("en", "leave it in its carrying box until you reach us tonight"), ("es", "Hasta que nos llames esta noche (555-0199), sigue en su caja de viaje"),
                            ("fr", "D'ici votre appel ce soir (555-0199), l'animal reste dans sa boîte de transport")):
            for more, waits in (({}, True), ({"follow-up": {"aftercare": [{"of": "shell-dressing", "in-water": "leave-on"}]}}, False)):
                record = visit("common-musk-turtle", [{"code": "shell-rot", "severity": "moderate"}], **{"done-today": ["shell-dressing"]}, **more)
                self.assertEqual(words in sheet(record, lang), waits, (lang, more))


class Lamps(unittest.TestCase):
    TUBE = {"kind": "tube", "tube-length": "115 cm", "measured": {"uvi": 3.2, "at": "30 cm"}, "height": "30 cm"}

    def test_what_is_old_and_measures_right_can_wait_for_the_check(self):
        """Age alone is no reason to buy a lamp by tomorrow: what measures right is changed at the check (common practice, no source)."""
        for uvi, day in ((3.2, "2026-03-27"), (0.4, "2026-03-21")):
            record = visit("bearded-dragon", ["overweight"], {"size": "180 x 90 x 90 cm", "lamp": {**self.TUBE, "measured": {"uvi": uvi, "at": "30 cm"}, "installed": "2024-11-01"}},
                           **{"follow-up": {"recheck": "7 days"}})
            self.assertEqual([one["on"] for one in plan_of(record)["dates"] if one["what"] == "lamp-change"], [day], uvi)

    def test_light_comes_tonight_where_there_is_none(self):
        for hours, tonight in ((0, [True]), (8, [False]), (12, [])):
            record = visit("bearded-dragon", [], {"lamp": {**self.TUBE, "installed": "2026-02-01", "hours": hours}})
            self.assertEqual([one["tonight"] for one in plan_of(record)["actions"] if one["code"] == "set-timer"], tonight, hours)

    def test_a_little_uvb_is_no_step_of_tonight(self):
        """A snake or a frog lives without it for a while; not one whose bones are soft."""
        for species, code, tonight in (("whites-tree-frog", "overweight", False), ("corn-snake", "wound", False), ("whites-tree-frog", "bent-bones", True)):
            record = visit(species, [{"code": code, "severity": "moderate"}], {"lamp": {"kind": "none"}})
            self.assertEqual([one["first"] for one in plan_of(record)["actions"] if one["code"] == "add-uvb-lamp"], [tonight], (species, code))

    def test_the_old_lamp_is_named_by_its_place_and_its_age(self):
        """What stands on the record is printed beside the question that is left open."""
        for height, told in ("45 cm", True), (None, False):
            lamp = {"kind": "tube", "installed": "2024-09-20", **({"height": height} if height else {})}
            for lang, words in (("en", "The old one is 45 cm away and 1 year 6 months old"), ("es", "La vieja está a 45 cm y tiene 1 año"), ("fr", "L'ancienne est à 45 cm et a 1 an")):
                self.assertEqual(words in sheet(visit("green-iguana", ["weak-grip"], {"lamp": lamp}), lang), told, (height, lang))

    def test_no_distance_of_a_lamp_that_is_not_there(self):
        for kind, asked in (("led", False), ("none", False), ("tube", True)):
            text = sheet(visit("crested-gecko", [{"code": "weak-grip", "severity": "mild"}], {"lamp": {"kind": kind}}, {"length": "11 cm"}))
            self.assertEqual("how far the UVB lamp must hang" in text, asked, kind)

    GLASS = {"kind": "compact", "installed": "2024-10-01", "behind": "glass", "height": "30 cm", "hours": 8}

    def test_what_is_old_and_behind_glass_is_both(self):
        """The clinical table, 43: replaced and rehung; the glass goes first, and no date of a new lamp stands without its step."""
        for installed, old in (("2024-10-01", True), ("2026-02-01", False)):
            record = visit("hermanns-tortoise", ["soft-shell"], {"size": "90 x 45 x 45 cm", "lamp": {**self.GLASS, "installed": installed}})
            asked = [one["code"] for one in plan_of(record)["actions"]]
            self.assertIn("clear-lamp-path", asked)
            self.assertEqual("change-lamp" in asked, old, installed)
            if old:
                self.assertLess(asked.index("clear-lamp-path"), asked.index("change-lamp"))

    def test_days_stay_short_under_a_lamp_that_nobody_measured(self):
        """The clinical table, 49: glass off and unmeasured, days short, watch the eyes."""
        for behind, later in (({"behind": "glass"}, True), ({}, False)):
            lamp = {"kind": "tube", "installed": "2026-02-01", "height": "30 cm", "hours": 8, **behind}
            for lang, timer, wait in (("en", "Put light on a timer", "Lengthen the days to 12 hours only once we say"), ("es", "Pon la luz con temporizador", "Alarga los días a 12 horas solo cuando te digamos"),
                                      ("fr", "Mettez la lumière sur minuterie", "Allongez les jours à 12 heures seulement quand nous disons")):
                text = sheet({**visit("hermanns-tortoise", [], {"lamp": lamp}), "visit": {"date": TODAY, "kind": "reading", "veterinarian": "Dr Ines Calder"}}, lang)
                self.assertEqual((timer in text, wait in text), (not later, later), (behind, lang))
                now = {"en": "Light for 12 hours, then", "es": "Luz 12 horas. De", "fr": "Lumière pendant 12 heures, puis"}[lang]
                self.assertEqual(now in text, not later)


class Frogs(unittest.TestCase):
    def test_no_other_heat_while_it_is_too_warm(self):
        """A frog's box that is too warm loses its mat, and no heater comes in its place (the clinical table, 4.6: never above the upper limit). A reptile
        keeps its only heat: covered, for unplugged it stood in a cold room (a veterinarian, of printed sheets), unless both ends are hot."""
        rows = (("whites-tree-frog", {}, ("add no other heat while it is too warm", "no pongas otro calor mientras esté demasiado caliente", "n'ajoutez aucune autre chaleur tant qu'il fait trop chaud")),
                ("leopard-gecko", {"cool-side": "34 C"}, ("add no other heat while both ends are too warm", "no pongas otro calor mientras los dos lados", "n'ajoutez aucune autre chaleur tant que les deux côtés")),
                ("leopard-gecko", {}, None))
        for species, more, none in rows:
            record = visit(species, [], {"heat": [{"kind": "mat"}], "readings": {"warm-side": "38 C", **more}})
            for at, (lang, cover, other) in enumerate((("en", "a tile or several layers of paper on the mat", "no other heat"), ("es", "una baldosa o varias capas de papel", "otro calor"),
                                                       ("fr", "d'un carreau ou de plusieurs couches de papier", "aucune autre chaleur"))):
                text = sheet(record, lang)
                self.assertEqual((cover in text, other in text), (not none, bool(none)), (species, lang))
                if none:
                    self.assertIn(none[at], text)

    def test_what_is_not_weighed_is_not_lifted_for_the_scales(self):
        """An ill frog is weighed as written; whoever lifts one has wet gloves on (the clinical table, 4.6)."""
        record = visit("whites-tree-frog", [{"code": "bloat", "severity": "moderate"}, {"code": "red-legs", "severity": "mild"}, {"code": "belly-stool", "severity": "mild"}], {
            "size": "45 x 45 x 45 cm", "lid": "mesh", "heat": [{"kind": "mat", "thermostat": False}], "substrate": "gravel", "animals": 3, "mates": ["whites-tree-frog", "green-anole"],
            "readings": {"warm-side": "31 C", "cool-side": "27 C", "night": "19 C", "humidity": "40 %"}})
        del record["visit"]["veterinarian"]
        text = sheet(record, laid=True)  # so full a page leaves out what each finding says of the home, and its stances speak for themselves
        self.assertIn("Lift it only to move or treat it, with wet gloves without powder.", text)
        self.assertNotIn("kitchen scale", text)


class Nests(unittest.TestCase):
    def test_the_ground_is_as_deep_as_the_species_digs(self):
        """The clinical table, 4.3: 15-30 cm for chameleons; crested gecko 12-15 cm, Hermann's tortoise 20-25 cm by their sheets."""
        for species, depth, length in (("panther-chameleon", "15–30 cm", "30 cm"), ("crested-gecko", "12–15 cm", "15 cm"), ("bearded-dragon", "25–30 cm", "30 cm"), ("hermanns-tortoise", "20–25 cm", "20 cm")):
            record = visit(species, [{"code": "gravid", "step": "late"}], patient={"sex": "female", "length": length})  # its rim is no higher than its body is long
            self.assertEqual(plan_of(record)["enclosure"]["nest"]["depth_cm"], [float(one) for one in depth[:-3].split("–")], species)
            for lang, body in (("en", "as the body is long"), ("es", "como largo es el cuerpo"), ("fr", "que le corps est long")):
                text = sheet(record, lang)
                self.assertIn(depth, text, (species, lang))
                self.assertNotIn(body, text)

    def test_eggs_that_nobody_saw_end_nothing(self):
        """Who only may carry eggs may never lay: what is asked for ends when it is seen again."""
        for certainty, laid in (("suspected", False), ("certain", True)):
            record = visit("panther-chameleon", [{"code": "gravid", "step": "early", "certainty": certainty}], patient={"sex": "female"}, **{"follow-up": {"recheck": "10 days"}})
            ends = {phase["end_by"] for phases in plan_of(record)["stances"].values() for phase in phases if phase["because"] == "finding:gravid"}
            self.assertEqual("laid" in ends, laid)
            self.assertIn("laid" if laid else "recheck", ends)
            self.assertEqual("Until the eggs are laid" in sheet(record), laid)


class Damp(unittest.TestCase):
    def test_the_hide_that_is_drawn_is_not_forbidden(self):
        """No extra damp, and a damp hide in the drawing: the sheet says that it stays."""
        for lang, extra, hide in (("en", "and add no extra damp", "A damp hide that it has may stay"), ("es", "sin añadir más", "El refugio húmedo que ya tenga puede quedarse"),
                                  ("fr", "N'en ajoutez pas", "Une cachette humide déjà là peut rester")):
            for code, stays in (("nose-discharge", True), ("airway-infection", False)):
                text = sheet(visit("hermanns-tortoise", [{"code": code, "severity": "moderate"}], {"readings": {"humidity": "40 %", "humidity-at": "cool-side"}}, {"hatched": "2025-08"}), lang, laid=False)
                self.assertIn(extra, text)
                self.assertEqual(hide in text, stays, (code, lang))


class Ends(unittest.TestCase):
    def test_nobody_waits_for_a_test_that_was_not_made(self):
        tests = {"en": "Until our checks are clear", "es": "Hasta que los análisis salgan bien", "fr": "Jusqu'à ce que les analyses soient bonnes"}
        looks = {"en": "Until we see at a check that it is clear", "es": "Hasta que en una revisión lo veamos bien", "fr": "Jusqu'à ce que tout soit bon à un contrôle chez nous"}
        for done, is_test in (([], False), (["mouth-swab"], True)):
            record = visit("whites-tree-frog", [{"code": "red-legs", "state": "seen"}], **{"done-today": done, "follow-up": {"recheck": "7 days", **(
                {"results": [{"of": "mouth-swab", "by": "2026-03-24"}]} if done else {})}})
            for lang in LANGUAGES:
                text = sheet(record, lang)
                self.assertEqual((tests[lang] in text, looks[lang] in text), (is_test, not is_test), (done, lang))

    def test_mites_end_where_none_is_seen(self):
        """No laboratory tests for mites: a result of something else ends nothing of theirs."""
        record = visit("boa-constrictor", ["mites", "retained-shed"], **{"done-today": ["mouth-swab"], "follow-up": {"results": [{"of": "mouth-swab", "by": "2026-03-24"}]}})
        for lang, words in (("en", "Until we see no mites"), ("es", "Hasta que ya no veamos ácaros"), ("fr", "Jusqu'à ce que nous ne voyions plus d'acariens")):
            self.assertIn(words, sheet(record, lang))
        two = {**record, "findings": record["findings"] + [{"code": "worms"}]}
        self.assertNotIn("Until we see no mites", sheet(two))

    def test_hands_off_until_the_recheck(self):
        """A shed comes when it comes; who may be handled is asked at the recheck."""
        for medicine in (False, True):
            record = visit("boa-constrictor", [{"code": "mouth-inflammation", "severity": "moderate"}, "retained-shed"], **{"follow-up": {"recheck": "10 days"}}, medicines=[
                {"name": "Ceftazidime", "amount": "0.8 ml", "route": "into-the-muscle", "every": "72 h", "doses": 8}] if medicine else [])
            phases = plan_of(record)["stances"]["handling"]
            self.assertEqual((phases[0]["stance"], phases[0]["until"]), ("for-treatment-only", "2026-03-30"), medicine)

    def test_air_that_is_right_is_not_made_damper(self):
        """A reading inside its band is held (the clinical table, 1.2), whatever skin is still on: the sheet says the number."""
        record = visit("ball-python", ["retained-shed"], {"readings": {"humidity": "80 %", "humidity-at": "cool-side"}})
        for lang, hold, more in (("en", "Keep the humidity at 70–90 % until all old skin is off", "more damp until"), ("es", "Mantén la humedad al 70–90 %", "aire más húmedo"),
                                 ("fr", "Gardez l'humidité à 70–90 %", "air plus humide")):
            text = sheet(record, lang)
            self.assertIn(hold, text)
            self.assertNotIn(more, text)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
