#!/usr/bin/env python3
"""`check` of a whole data folder: ours is of one piece, each kind of fault is told with its place, and every rule is reached by a visit."""
import json
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402


PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
TODAY = "2026-03-20"


def run(*words, stdin=None):
    return subprocess.run([PROGRAM, *map(str, words)], input=stdin, capture_output=True, text=True, cwd=ROOT, timeout=120)


def visit(species="ball-python", **parts):
    base = {"visit": {"date": TODAY, "kind": "checkout"}, "patient": {"name": "Fern", "species": species}}
    for key, value in parts.items():
        base[key] = {**base.get(key, {}), **value} if isinstance(value, dict) else value
    return json.dumps(base)


def found(*codes, species="ball-python", severity="moderate", **more):
    return visit(species, findings=[{"code": code, "severity": severity} for code in codes], **more)


def seen(*codes, **more):
    """Found, and looked at by a veterinarian."""
    return found(*codes, visit={"veterinarian": "Dr Ines Calder"}, **more)


def read(species="ball-python", **readings):
    return visit(species, enclosure={"readings": {key.replace("_", "-"): value for key, value in readings.items()}})


def lamp(species="bearded-dragon", **about):
    return visit(species, enclosure={"lamp": {key.replace("_", "-"): value for key, value in about.items()}})


def water(species="axolotl", **tests):
    return visit(species, patient={"length": "20 cm", "hatched": "2023-05"}, water={key.replace("_", "-"): value for key, value in tests.items()})


TUBE = {"kind": "tube", "tube_length": "55 cm", "installed": "2026-01-10"}
# For a rule a visit that fires it, unless a finding alone does; those that templates/visits fires stand in the table that `check` prints.
REACH = {
    "air-read-cold": visit("hermanns-tortoise", **{"winter-rest": {"in-progress": True}, "findings": [{"code": "worms", "severity": "mild"}]},
                           enclosure={"readings": {"warm-side": "12 C", "cool-side": "10 C", "humidity": "80 %", "humidity-at": "cool-side"}}),
    "air-read-elsewhere": visit("whites-tree-frog", enclosure={"readings": {"warm-side": "27 C", "humidity": "80 %", "humidity-at": "warm-side"}}),
    "toe-ring-hide": visit("leopard-gecko", findings=[{"code": "stuck-toe-shed", "severity": "severe"}]),
    "burn-hot-rock": visit(findings=[{"code": "burn", "severity": "moderate"}], enclosure={"heat": [{"kind": "hot-rock"}]}),
    "weak-on-hot-rock": visit("bearded-dragon", findings=[{"code": "weak-grip", "severity": "moderate"}], enclosure={"heat": [{"kind": "hot-rock"}]}),
    "weak-on-mat": visit(findings=[{"code": "stargazing", "severity": "moderate"}], enclosure={"heat": [{"kind": "mat", "thermostat": False}]}),
    "drowsy-on-mat": visit(enclosure={"heat": [{"kind": "mat", "thermostat": False}]}, **{"done-today": ["sedation"]}),
    "hot-mat": visit("leopard-gecko", enclosure={"heat": [{"kind": "mat", "thermostat": False}], "readings": {"basking-surface": "38 C"}}),
    "hot-without-thermostat": visit("leopard-gecko", enclosure={"heat": [{"kind": "mat", "thermostat": False}], "readings": {"basking-surface": "38 C"}}),
    "burn-mat": visit(findings=[{"code": "burn", "severity": "moderate"}], enclosure={"heat": [{"kind": "mat"}]}),
    "sore-skin-loose-floor": visit(findings=[{"code": "burn", "severity": "moderate"}], enclosure={"substrate": "sand"}),
    "burn-guarded": visit(findings=[{"code": "burn", "severity": "moderate"}], enclosure={"heat-guard": True}),
    "night-warm-place-too-cold-ill": visit("corn-snake", findings=[{"code": "airway-infection", "severity": "moderate"}], enclosure={"readings": {"night-warm-side": "20 C"}}),
    "night-warm-place-too-cold": visit("corn-snake", enclosure={"readings": {"night-warm-side": "20 C"}}, targets={"night-warm-side": "26-28 C", "because": "so", "by": "Dr Test"}),
    "no-guard": visit(enclosure={"heat-guard": False}),
    "no-thermostat": visit(enclosure={"thermostat": False}),
    "hot-rock": visit(enclosure={"heat": [{"kind": "hot-rock", "thermostat": True, "guard": True}]}),
    "red-light": visit(enclosure={"heat": [{"kind": "red-light", "thermostat": True, "guard": True}]}),
    "water-too-warm": read("axolotl", water="24 C"),
    "water-too-cold": read("red-eared-slider", water="15 C"),
    "basking-too-hot": read("leopard-gecko", basking_surface="42 C"),
    "warm-side-too-hot": read(warm_side="38 C"),
    "nowhere-cool": read(warm_side="38 C", cool_side="34 C"),
    "cool-side-too-hot": read(cool_side="30 C"),
    "night-too-hot": read(night="28 C"),
    "inverted-gradient": read(warm_side="25 C", cool_side="29 C"),
    "basking-too-cold": read(basking_surface="28 C"),
    "warm-side-too-cold": read(warm_side="26 C"),
    "water-too-cold-ill": visit("red-eared-slider", findings=[{"code": "airway-infection", "severity": "moderate"}], enclosure={"readings": {"water": "19 C"}}),
    "warm-side-too-cold-weak": visit(findings=[{"code": "underweight", "severity": "moderate"}], enclosure={"readings": {"warm-side": "24 C"}}),
    "water-too-cold-weak": visit("red-eared-slider", findings=[{"code": "underweight", "severity": "moderate"}], enclosure={"readings": {"water": "19 C"}}),
    "warm-side-too-cold-ill": visit(findings=[{"code": "airway-infection", "severity": "moderate"}], enclosure={"readings": {"warm-side": "26 C"}}),
    "basking-too-cold-weak": visit("bearded-dragon", findings=[{"code": "underweight", "severity": "moderate"}], enclosure={"readings": {"basking-surface": "30 C"}}),
    "basking-too-cold-ill": visit("bearded-dragon", findings=[{"code": "airway-infection", "severity": "moderate"}], enclosure={"readings": {"basking-surface": "30 C"}}),
    "basking-too-cold-bones": visit("bearded-dragon", findings=[{"code": "soft-jaw", "severity": "moderate"}], enclosure={"readings": {"basking-surface": "30 C"}}),
    "night-too-cold-ill-frog": visit("whites-tree-frog", findings=[{"code": "red-legs", "severity": "moderate"}], enclosure={"readings": {"night": "15 C"}}),
    "warm-side-too-cold-ill-frog": visit("whites-tree-frog", findings=[{"code": "red-legs", "severity": "moderate"}], enclosure={"readings": {"warm-side": "20 C"}}),
    "night-too-cold-ill": visit(findings=[{"code": "airway-infection", "severity": "moderate"}], enclosure={"readings": {"night": "18 C"}}),
    "no-hot-spot": seen("heat-stroke", severity="severe"),
    "cool-side-too-cold": read(cool_side="20 C"),
    "night-too-cold": read(night="18 C"),
    "night-too-deep": read("spiny-tailed-lizard", warm_side="34 C", night="15 C"),
    "night-no-drop": read("leopard-gecko", warm_side="28 C", night="28 C"),
    "flat-gradient": read("fire-bellied-toad", warm_side="20.5 C", cool_side="20 C"),
    "lamp-too-strong": lamp(**TUBE, measured={"uvi": 9.0, "at": "30 cm"}, height="20 cm"),
    "lamp-too-weak": lamp(**TUBE, measured={"uvi": 1.2, "at": "30 cm"}, height="40 cm"),
    "lamp-old": lamp(**{**TUBE, "installed": "2024-01-10"}, measured={"uvi": 3.0, "at": "30 cm"}, height="35 cm"),
    "lamp-old-soft-bones": json.dumps({**json.loads(lamp(**{**TUBE, "installed": "2024-01-10"}, measured={"uvi": 3.0, "at": "30 cm"}, height="35 cm")),
                                       "findings": [{"code": "soft-jaw", "severity": "mild"}]}),
    "lamp-old-later": json.dumps({**json.loads(lamp(**{**TUBE, "installed": "2024-01-10"}, measured={"uvi": 3.0, "at": "30 cm"}, height="35 cm")),
                                  "findings": [{"code": "lamp-sore-eyes", "severity": "mild"}]}),
    "lamp-not-told": found("soft-jaw", species="bearded-dragon"),
    "lamp-strong-for-box": visit("bearded-dragon", enclosure={"size": "120 x 60 x 45 cm", "lamp": {
        "kind": "compact", "installed": "2026-01-10", "measured": {"uvi": 14.0, "at": "40 cm"}, "height": "30 cm"}}),
    "lamp-weak-anywhere": lamp(kind="compact", installed="2026-01-10", measured={"uvi": 0.1, "at": "30 cm"}, height="30 cm"),
    "light-never-dark": lamp(**TUBE, measured={"uvi": 3.0, "at": "30 cm"}, height="30 cm", hours=24),
    "light-none": lamp(**TUBE, measured={"uvi": 3.0, "at": "30 cm"}, height="30 cm", hours=0),
    "light-none-behind-glass": lamp(**TUBE, measured={"uvi": 3.0, "at": "30 cm"}, height="35 cm", behind="glass", hours=0),
    "light-hours-off": lamp(**TUBE, measured={"uvi": 3.0, "at": "30 cm"}, height="30 cm", hours=20),
    "light-hours-few": lamp(**TUBE, measured={"uvi": 3.0, "at": "30 cm"}, height="30 cm", hours=4),
    "light-hours-few-behind-glass": lamp(**TUBE, measured={"uvi": 3.0, "at": "30 cm"}, height="35 cm", behind="glass", hours=4),
    "runny-nose-among-mates": visit("hermanns-tortoise", findings=[{"code": "nose-discharge", "severity": "mild"}], enclosure={"animals": 2, "mates": ["hermanns-tortoise"]}),
    "wounded-in-company": visit("leopard-gecko", **{"done-today": ["sutures"]}, findings=[{"code": "wound", "severity": "moderate"}], enclosure={"animals": 2, "mates": ["leopard-gecko"]}),
    "mates-of-a-runny-nose": visit("hermanns-tortoise", findings=[{"code": "nose-discharge", "severity": "mild"}], enclosure={"animals": 2, "mates": ["hermanns-tortoise"]}),
    "sore-mouth-among-mates": visit("hermanns-tortoise", findings=[{"code": "mouth-inflammation", "severity": "mild"}], enclosure={"animals": 2, "mates": ["hermanns-tortoise"]}),
    "mates-of-a-sore-mouth": visit("ball-python", findings=[{"code": "mouth-inflammation", "severity": "mild"}], enclosure={"animals": 2, "mates": ["ball-python"]}),
    "own-tools-of-the-airway": found("airway-infection", species="rosy-boa", enclosure={"animals": "2"}),
    "own-tools-of-mouth-or-nose": visit("greek-tortoise", findings=[{"code": "nose-discharge", "severity": "mild"}], enclosure={"animals": 2, "mates": ["greek-tortoise"]}),
    "lamp-behind-glass": lamp(**TUBE, measured={"uvi": 3.0, "at": "30 cm"}, height="35 cm", behind="glass"),
    "swallowed-floor-to-paper": visit("spiny-tailed-lizard", findings=[{"code": "impaction-of-sand", "severity": "moderate"}, {"code": "tail-death", "severity": "mild"}],
                                      enclosure={"substrate": "sand"}),
    "germs-in-wet-floor": found("chytrid", species="whites-tree-frog", enclosure={"substrate": "moss"}),
    "loose-floor-swallowed": found("impaction-of-sand", species="bearded-dragon", enclosure={"substrate": "sand"}),
    "loose-floor-object-out": found("belly-mass", species="horned-frog", **{"done-today": ["swallowed-object-removed"]}, enclosure={"substrate": "gravel"}),
    "loose-floor": visit("leopard-gecko", patient={"mass": "4 g", "hatched": "2026-02"}, enclosure={"substrate": "sand"}),
    "chlorine-shows-turtle": visit("red-eared-slider", water={"temperature": "25 C", "chlorine": "0.3 mg/l"}),
    "night-far-too-cold-ill": visit(findings=[{"code": "airway-infection", "severity": "moderate"}], enclosure={"readings": {"night": "18 C"}}),
    "loose-floor-sore-eyes": found("swollen-eyes", species="leopard-gecko", enclosure={"substrate": "sand"}),
    "tight-ring-hide": visit("leopard-gecko", findings=[{"code": "stuck-toe-shed", "severity": "moderate"}]),
    "stuck-lid-hide": visit("leopard-gecko", findings=[{"code": "retained-shed", "severity": "moderate"}, {"code": "swollen-eyes", "severity": "moderate"}]),
    "warm-already": visit("corn-snake", findings=[{"code": "airway-infection", "severity": "moderate"}], enclosure={"readings": {"warm-side": "30 C"}}),
    "resin-never-again": found("mites", enclosure={"substrate": "cedar-or-pine"}),
    "thin-among-mates": visit("leopard-gecko", **{"done-today": ["stool-sample"]}, findings=[{"code": "underweight", "severity": "moderate"}], enclosure={"animals": 2, "mates": ["leopard-gecko"]}),
    "thin-keep-apart": visit("leopard-gecko", **{"done-today": ["stool-sample"]}, findings=[{"code": "underweight", "severity": "moderate"}], enclosure={"animals": 2, "mates": ["leopard-gecko"]}),
    "mates-of-the-thin": visit("leopard-gecko", **{"done-today": ["stool-sample"]}, findings=[{"code": "underweight", "severity": "moderate"}], enclosure={"animals": 2, "mates": ["leopard-gecko"]}),
    "floor-with-resin": visit(enclosure={"substrate": "cedar-or-pine"}),
    "crushed-shell": visit(enclosure={"substrate": "crushed-shell"}),
    "swallowed-under-paper": seen("prolapse", "belly-stool", species="horned-frog", enclosure={"substrate": "gravel"}),
    "object-out-under-paper": seen("prolapse", species="horned-frog", **{"done-today": ["swallowed-object-removed"]}, enclosure={"substrate": "gravel"}),
    "object-out-to-paper": found("bite-wound", species="bearded-dragon", **{"done-today": ["swallowed-object-removed"]}, enclosure={"substrate": "sand"}),
    "gravel-in-an-ill-gut": found("belly-gas", species="axolotl", enclosure={"substrate": "gravel"}),
    "gravel-in-tank": visit("axolotl", enclosure={"substrate": "gravel"}),
    "gravel-swallowed": visit("whites-tree-frog", enclosure={"substrate": "gravel"}),
    "no-hide": visit(enclosure={"hides": "0"}),
    "no-hide-for-digger": visit("western-hognose", enclosure={"hides": "0"}),
    "no-cover": visit("crested-gecko", enclosure={"hides": "0"}),
    "one-hide": visit(enclosure={"hides": "1"}),
    "no-shade": visit("red-eared-slider", enclosure={"shade": False}),
    "perch-near-lamp": visit("bearded-dragon", enclosure={"platform-height": "10 cm", "perch-height": "40 cm", "lamp": {
        "kind": "tube", "tube-length": "55 cm", "measured": {"uvi": 3, "at": "30 cm"}, "height": "35 cm"}}),
    "no-dish-unsteady": visit("bearded-dragon", visit={"veterinarian": "Dr Ines Calder"}, findings=[{"code": "fits", "severity": "moderate"}], enclosure={"water-dish": False}),
    "no-dish": visit(enclosure={"water-dish": False}),
    "food-poison": visit("green-iguana", diet={"food": "avocado", "every": "7 days"}),
    "food-unfit": visit("hermanns-tortoise", diet={"food": "dog-or-cat-food", "every": "7 days"}),
    "fish-thiaminase": visit("red-eared-slider", diet={"food": "goldfish", "every": "3 days"}),
    "plants-calcium-short": visit("green-iguana", diet={"food": "banana", "every": "1 days"}),
    "plants-few-staples": visit("green-iguana", diet={"food": "spinach", "every": "1 days"}),
    "plants-goitrogens": visit("green-iguana", diet={"food": "kale", "every": "1 days"}),
    "mixed-kinds": visit(enclosure={"mates": ["corn-snake"]}),
    "mixed-kinds-ill": found("mites", enclosure={"mates": ["corn-snake"]}),
    "two-males": visit("bearded-dragon", enclosure={"animals": "2", "males": "2"}),
    "lives-alone": visit(enclosure={"animals": "2"}),
    "ill-among-mates": found("mites", species="ball-python", enclosure={"animals": "2"}),
    "drowned-shallow": seen("drowned", species="painted-turtle"),
    "ill-in-tank": found("wound", species="axolotl", enclosure={"animals": "2"}),
    "water-too-warm-ill": visit("fire-bellied-toad", findings=[{"code": "red-legs", "severity": "moderate"}], enclosure={"readings": {"water": "27 C"}}),
    "tub-too-warm": found("fungus-tufts", species="axolotl", enclosure={"animals": "2", "mates": ["axolotl"]}, water={"temperature": "23 C"}),
    "ill-in-fouled-tank": found("wound", species="axolotl", enclosure={"animals": "2"}, water={"temperature": "17 C", "ammonia": "2 mg/l"}),
    "germs-in-loose-floor": found("cryptosporidium", species="leopard-gecko", enclosure={"substrate": "sand"}),
    "ammonia-shows-turtle": visit("red-eared-slider", water={"temperature": "25 C", "ammonia": "1 mg/l"}),
    "nitrite-shows-turtle": visit("red-eared-slider", water={"temperature": "25 C", "nitrite": "1 mg/l"}),
    "keep-apart-alone": found("cryptosporidium", species="leopard-gecko", enclosure={"animals": "1"}),
    "sore-joints": found("gout", species="veiled-chameleon"),
    "stuck-eggs-cold": seen("egg-bound", species="corn-snake", patient={"sex": "female"}, enclosure={"readings": {"warm-side": "22 C"}}),
    "stuck-eggs-cold-spot": seen("egg-bound", species="corn-snake", patient={"sex": "female"}, enclosure={"readings": {"basking-surface": "24 C"}}),
    "ill-at-rest": found("worms", species="common-kingsnake", **{"winter-rest": {"in-progress": "yes"}}),
    "woken-and-cold": visit(species="common-kingsnake", enclosure={"readings": {"warm-side": "12 C"}}, history={"woke-from-rest": TODAY}),
    "stitches-on-loose-floor": visit(**{"done-today": ["sutures"]}, enclosure={"substrate": "aspen"}),
    "burn-under-the-spot": visit("sulcata-tortoise", findings=[{"code": "burn", "severity": "moderate"}], enclosure={
        "heat": [{"kind": "lamp"}], "readings": {"basking-surface": "47 C"}}),
    "drowsy-in-company": visit("leopard-gecko", **{"done-today": ["sedation"]}, findings=[{"code": "wound", "severity": "moderate"}], enclosure={"animals": 2, "mates": ["leopard-gecko"]}),
    "dry-home": visit("red-eared-slider", **{"done-today": ["dry-hours"]}),
    "dry-home-in-company": visit("red-eared-slider", **{"done-today": ["dry-hours"]}, findings=[{"code": "shell-rot", "severity": "moderate"}], enclosure={"animals": 2, "mates": ["red-eared-slider"]}),
    "helpless-in-company": found("tremor", species="bearded-dragon", enclosure={"animals": "2"}),
    "ill-frog-in-fouled-water": found("red-legs", species="fire-bellied-toad", enclosure={"animals": "2"}, water={"temperature": "22 C", "ammonia": "1 mg/l"}),
    "wound-on-loose-floor": found("toe-death", species="argentine-tegu", enclosure={"substrate": "soil"}),
    "drowsy": visit(**{"done-today": ["sedation"]}),
    "low-water": seen("limp", species="axolotl", severity="severe"),
    "drowsy-in-water": visit("axolotl", **{"done-today": ["sedation"]}),
    "regurgitated-cold": found("vomited", species="corn-snake", enclosure={"readings": {"warm-side": "22 C"}}),
    "regurgitated-cold-spot": found("vomited", species="corn-snake", enclosure={"readings": {"basking-surface": "24 C"}}),
    "mates-in-bad-water": visit("axolotl", enclosure={"animals": "2"}, water={"temperature": "17 C", "ammonia": "2 mg/l"}),
    "mates-in-poisoned-water": found("water-poisoned", species="axolotl", enclosure={"animals": "2"}),
    "male-beside-gravid": found("gravid", species="crested-gecko", patient={"sex": "female", "hatched": "2020-05"}, enclosure={"animals": "2"}),
    "food-rich": visit("horned-frog", diet={"food": "waxworm", "count": "5", "every": "2 days"}, findings=[{"code": "overweight", "severity": "moderate"}]),
    "ill-in-company": found("wound", species="bearded-dragon", enclosure={"animals": "2"}),
    "mates-of-soft-bones": found("soft-shell", species="hermanns-tortoise", enclosure={"mates": ["hermanns-tortoise"]}),
    "mates-exposed": found("mites", enclosure={"mates": ["ball-python"]}),
    "bring-in": found("airway-infection", species="hermanns-tortoise", enclosure={"outdoor": True}),
    "bring-in-drowsy": found("airway-infection", species="hermanns-tortoise", enclosure={"outdoor": True}, **{"done-today": ["sedation"]}),
    "days-out": visit("hermanns-tortoise", enclosure={"outdoor": True}),
    "lamp-missing": lamp(kind="none"),
    "lamp-missing-other": lamp("ball-python", kind="none"),
    "lamp-missing-soft": json.dumps({**json.loads(lamp("whites-tree-frog", kind="none")), "findings": [{"code": "bent-bones", "severity": "mild"}]}),
    "lamp-unreliable": lamp(kind="led"),
    "lamp-unreliable-other": lamp("ball-python", kind="led"),
    "lamp-unmeasured": lamp(**TUBE, height="35 cm"),
    "air-too-dry": read(humidity="30 %", humidity_at="cool-side"),
    "shed-needs-warmth": found("retained-shed"),
    "air-too-wet": read(humidity="90 %", humidity_at="cool-side"),
    "wet-air-on-sore-belly": found("blistered-belly-scales", species="corn-snake", enclosure={"readings": {"humidity": "90 %", "humidity-at": "cool-side"}}),
    "wet-wall": visit("whites-tree-frog", enclosure={"size": "60 x 45 x 60 cm", "walls": "glass", "readings": {
        "room": "12 C", "cool-side": "24 C", "night": "22 C", "humidity": "75 %", "humidity-at": "cool-side"}}),
    "underweight-warmth": found("underweight"),
    "weight-falling": visit(patient={"mass": "1200 g", "hatched": "2020-05", "earlier": [{"on": "2026-02-20", "mass": "1400 g"}]}),
    "found-go-now": found("prolapse", severity="severe"),
    "shed-needs-humidity": visit(findings=[{"code": "retained-shed", "severity": "mild"}], enclosure={"readings": {"humidity": "40 %", "humidity-at": "cool-side"}}),
    "shed-moist-hide": found("retained-shed"),
    "tortoise-moist-hide": found("pyramiding", species="hermanns-tortoise"),
    "dry-young-tortoise-hide": visit("hermanns-tortoise", patient={"mass": "14 g", "hatched": "2025-12"}, findings=[
        {"code": "dehydrated", "severity": "moderate"}, {"code": "swollen-eyes", "severity": "moderate"}]),
    "shed-bath": found("retained-shed"),
    "airway-warm": found("airway-infection"),
    "vomited-pause": found("vomited"),
    "paused": visit(**{"done-today": ["prolapse-replaced"]}),
    "overweight-interval": found("overweight"),
    "drink-soak": visit("horsfield-tortoise", findings=[{"code": "dehydrated", "severity": "moderate"}]),
    "dry-hours": visit("red-eared-slider", findings=[{"code": "shell-rot", "severity": "moderate"}]),
    "lamp-off": found("lamp-sore-eyes", species="bearded-dragon"),
    "fracture": found("fracture", species="bearded-dragon"),
    "stay-low": seen("rolling", severity="severe"),
    "shallow-water": seen("rolling", severity="severe"),
    "keep-apart": found("worms"),
    "vet-food": seen("septic"),
    "offer-food": found("not-eating"),
    "offer-food-fat": found("overweight", "mouth-inflammation"),
    "small-meals": found("belly-mass"),
    "bearer-hide": found("gravid", species="boa-constrictor", patient={"sex": "female", "hatched": "2020-05"}),
    "gravid-nest-now": visit("veiled-chameleon", patient={"sex": "female", "hatched": "2024-05"}, findings=[{"code": "gravid", "severity": "mild", "step": "nest-searching"}]),
    "gravid-nest": found("gravid", patient={"sex": "female", "hatched": "2020-05"}),
    "ammonia-poison": water(ammonia="2.5 mg/l", ammonia_as="total", ph="7.5", temperature="18 C"),
    "ammonia-shows": water(ammonia="0.25 mg/l"),
    "nitrite-shows": water(nitrite="0.1 mg/l"),
    "chlorine-shows": water(chlorine="0.1 mg/l"),
    "dish-fouled": water("whites-tree-frog", chlorine="0.2 mg/l"),
    "water-harmed": found("water-poisoned", species="axolotl"),
    "stuck-eggs-nest": seen("egg-bound", species="leopard-gecko"),
    "dish-harmed": found("water-poisoned", species="whites-tree-frog"),
    "nitrate-high": water(nitrate="80 mg/l"),
    "water-changed-whole": water(change={"share": "100 %", "every": "7 days"}),
    "water-seldom-changed": water(change={"share": "20 %", "every": "30 days"}),
    "no-filter": water(filter=False),
    "ph-off": water(ph="5.5"),
    "water-soft": water(hardness="2 dGH"),
    "water-shallow": water(depth="10 cm"),
    "water-deep": water(depth="90 cm"),
    "at-the-edge": read(warm_side="29.5 C"),
    "box-too-small": visit(patient={"length": "120 cm", "hatched": "2020-05"}, enclosure={"size": "60 x 40 x 40 cm"}),
}


RULES = read_yaml((ROOT / "templates/rules.yaml").read_text())["rules"]
FINDINGS = read_yaml((ROOT / "templates/findings.yaml").read_text())["findings"]
ONE_A_GROUP = {read_yaml(path.read_text())["species"]["group"]: path.stem for path in sorted((ROOT / "species-sheets").glob("*.yaml"))}


def as_list(value):
    return value if isinstance(value, list) else [value]


class Folder(unittest.TestCase):
    maxDiff = 4000

    def fired(self, record):
        done = run("explain", "--json", "--today", TODAY, "-", stdin=record)
        if done.returncode:
            return {done.stderr}  # this animal does not have this finding, say
        return {name for action in json.loads(done.stdout)["actions"] for name in action["why"]}

    def test_every_rule_is_reached(self):
        """By the visit above; a rule that asks for findings alone by one of them, on the first kind of animal that has it."""
        self.assertLessEqual(set(REACH), set(RULES), "rules that are gone")
        for rule, about in RULES.items():
            with self.subTest(rule):
                if rule in REACH:
                    self.assertIn(rule, self.fired(REACH[rule]))
                    continue
                self.assertIn("finding", about["when"], f"'{rule}' needs a visit in REACH that fires it")
                tried = [self.fired(found(code, species=species, severity=next(s for s in FINDINGS[code]["severities"] if s != "normal")))
                         for code in as_list(about["when"]["finding"])[:3] for species in ONE_A_GROUP.values()]
                self.assertTrue(any(rule in one for one in tried), f"'{rule}' needs a visit in REACH that fires it: {tried}")

    def test_names_in_c_are_names_of_the_data(self):
        """A stance, topic or action that is renamed would leave a question in C to which the answer is never yes again."""
        text = "\n".join(path.read_text() for path in sorted((ROOT / "src").rglob("*.c")))
        stances = {}

        def gather(topics, above):
            for name, topic in topics.items():
                stances[above + name] = set(topic.get("stances", ()))
                gather(topic.get("parts", {}), f"{above}{name}.")

        gather(read_yaml((ROOT / "templates/topics.yaml").read_text())["topics"], "")
        actions = {rule["do"] for rule in read_yaml((ROOT / "templates/rules.yaml").read_text())["rules"].values()}
        held = re.findall(r'\bplan_holds(?:_on)?\([^"()]*"([\w.-]+)",\s*"([\w-]+)"', text)
        topics = re.findall(r'\bplan_phase_on\([^"()]*"([\w.-]+)"', text)
        asked = [code for one in re.findall(r"\bASKED\(([^)]*)\)", text) for code in re.findall(r'"([\w-]+)"', one)]
        asked += re.findall(r'\bsection_has_action\([^"()]*"([\w-]+)"', text)
        self.assertTrue(len(held) > 20 and len(topics) > 5 and len(asked) > 20, (held, topics, asked))
        self.assertEqual([one for one in held if one[1] not in stances.get(one[0], ())], [])
        self.assertEqual([one for one in topics if one not in stances], [])
        self.assertEqual([one for one in asked if one not in actions], [])

    def test_our_own_folder_is_of_one_piece(self):
        done = run("check", ".", "--today", TODAY)
        self.assertEqual(done.returncode, 0, done.stderr)
        # what the table leaves open is what the test above reaches
        untried = set(re.findall(r"fires '([a-z-]+)'", done.stderr))
        self.assertEqual(untried, {r for r, by in re.findall(r"(?m)^  ([a-z-]+) +(-)$", done.stdout)})
        self.assertLessEqual(untried, set(RULES))
        scored = [path for path in (ROOT / "templates/wording").glob("*/language.yaml") if read_yaml(path.read_text())["reading-ease"] != "none"]
        self.assertEqual(len(re.findall(r"(?m)^  the whole sheet", done.stdout)), len(scored) * len(list((ROOT / "templates/visits").glob("*.yaml"))))

    # (file, text, instead, what is said; its place is told before)
    FAULTS = [
        ("templates/wording/es/findings.yaml", 'finding.mites.home:', 'finding.mitos.home:', "'mites' has no words in 'es'"),
        ("templates/wording/en/actions.yaml", "action.keep-dry-floor.do: \"Keep {patient.name} on", "action.keep-dry-floor.do: \"Keep it on", "has the slot {patient.name}"),
        ("templates/wording/en/signs.yaml", "sign.limp:", "sign.limping:", "'limp' has no words in 'en'"),
        ("templates/wording/en/signs.yaml", "sign.limp:", "sign.sleepy: Sleepy\nsign.limp:", "nothing in the data speaks of 'sign.sleepy'"),
        ("templates/warning-signs.yaml", "  limp: {", "  sleepy: {tier: soon, groups: [snake], always: no, source: triage, trust: memory}\n  limp: {", "no species, finding or procedure raises 'sleepy'"),
        # one urgency of a sign in all texts: the slot, and the signs that it goes by
        ("templates/instructions.yaml", "action.feed-as-written.stop: {section: changes, topic: food, signs: [regurgitation],", "action.feed-as-written.stop: {section: changes, topic: food,", r"'action.feed-as-written.stop' says .go-now.: name under 'signs'"),
        ("templates/instructions.yaml", "action.feed-as-written.stop: {section: changes, topic: food, signs: [regurgitation]", "action.feed-as-written.stop: {section: changes, topic: food, signs: [regurgitate]", "there is no warning sign 'regurgitate'"),
        ("templates/instructions.yaml", "action.clear-tank-floor: {section: changes, topic: floor", "action.clear-tank-floor: {section: changes, topic: floor, signs: [floating]", "'action.clear-tank-floor' names signs, but none of its texts"),
        ("templates/warning-signs.yaml", "raised-with: [smelly-wound, swelling]", "raised-with: [smelly-wounds, swelling]", "there is no warning sign 'smelly-wounds'"),
        ("templates/findings.yaml", "never-where: [off-the-floor]", "never-where: [off-floor]", "no row of 'written' in topics.yaml is of 'off-floor'"),
        ("templates/warning-signs.yaml", "unless-found: [egg-bound, eggs-helped]", "unless-found: [eggbound, eggs-helped]", "there is no finding or procedure 'eggbound'"),
        ("templates/warning-signs.yaml", "now-with: [tube-feeding, feeding-tube-placed, vomited, swallowed-object-removed]", "now-with: [tube-feeding, feeding-tube, vomited, swallowed-object-removed]", "there is no finding or procedure 'feeding-tube'"),
        ("templates/findings.yaml", "warnings: [no-tongue-flick, limp]", "warnings: [no-tongue-flick, limb]", "there is no warning sign 'limb'"),
        ("templates/rules.yaml", "when: {finding: [mites]}", "when: {finding: [mitts]}", "mitts"),
        ("templates/rules.yaml", "when: {finding: [mites]}", "when: {finding: [mites], sheet: [adopton]}", "no kind of sheet 'adopton'; did you mean 'adoption'"),
        ("templates/settlements.yaml", 'then: ["humidity:low-end", "damp-hide:none", "bath:none"]', 'then: ["humidity:low-ent", "damp-hide:none", "bath:none"]', "'humidity:low-ent' names no stance of its topic"),
        ("templates/findings.yaml", 'call: ["food:less"]', 'call: ["fod:less"]', "'fod:less' names no topic"),
        ("templates/instructions.yaml", "topics: {food-form: [soft]}, key: action.offer-soft-food", "topics: {food-frm: [soft]}, key: action.offer-soft-food", "there is no topic 'food-frm'"),
        ("templates/instructions.yaml", "topics: {food-form: [soft]}, key: action.offer-soft-food", "topics: {food-form: [sort]}, key: action.offer-soft-food", "'sort' is no stance of 'food-form'"),
        ("templates/instructions.yaml", "variants: [{done: [prolapse-replaced], key: finding.prolapse.name-back", "variants: [{done: [prolapse-back], key: finding.prolapse.name-back", "there is no procedure 'prolapse-back'"),
        ("templates/findings.yaml", "- {call: [shed]}", "- {call: [sheds], until: shed}", "there is no bundle 'sheds'"),
        ("species-sheets/ball-python.yaml", "cool-side:\n    range: 26-28 C", "cool-side:\n    range: 34-36 C", "cool"),
        ("species-sheets/ball-python.yaml", "in-shed: {range: 70-90 %, source: practice", "in-shed: {range: 70-90 %, source: somewhere", "somewhere"),
        ("species-sheets/ball-python.yaml", "in-shed: {range: 70-90 %, source: practice, trust: memory}", "in-shed: {range: 70-90 %}", "source"),
        ("species-sheets/ball-python.yaml", "law: [", "law: [moon-law, ", "moon-law"),
        ("templates/wording/en/sheet.yaml", 'sheet.setup.humidity: "Humidity', 'sheet.setup.humidity: "\ue123 Humidity', r"no font here has '\ue123' \(U\+E123\)"),
        # a slot that nothing fills: the sentence's other alternative would be said, and the number be missing
        ("templates/wording/en/sheet.yaml", 'sheet.setup.humidity: "Humidity of {humidity.target}', 'sheet.setup.humidity: "Humidity of {humidty.target}',
         r"the slot {humidty.target}, which nothing fills; did you mean {humidity.target}"),
        ("templates/wording/es/sheet.yaml", "unit.day: {count-by: n", "unit.day: {count-by: m", "the slot {m}, which nothing fills"),
        ("templates/wording/es/language.yaml", "reading-ease: szigriszt", "reading-ease: flesch-kincaid", "made for the language 'en'"),
        ("templates/wording/es/language.yaml", "reading-ease: szigriszt", "", "reading-ease"),
        ("templates/wording/es/language.yaml", "one: n = 1", "one: exactly one", "is no plural rule at 'exactly one'"),
        ("templates/wording/es/language.yaml", "one: n = 1", "one: n = 1\n  few: n = 2..4", "the plural form 'few' is missing"),
        ("species-sheets/corn-snake.yaml", "scientific: Pantherophis guttatus", "scientific: Python regius", "also the scientific name in .*ball-python"),
        ("species-sheets/tokay-gecko.yaml", ", es: gecko tokay,", ",", "'tokay-gecko' has no name in 'es'"),  # no example is of it
        ("templates/wording/en/desk.yaml", "desk.field.patient.sex:", "desk.field.patient.sexe:", "field 'patient.sex' of a visit, on the desk's page, has no words in 'en'"),
        ("templates/wording/en/desk.yaml", "desk.field.patient.sex:", "desk.field.patient.sexe:", "a visit has no field for 'desk.field.patient.sexe'"),
        ("templates/wording/es/desk-topics.yaml", "desk.topic.bath:", "desk.topic.bathe:", "no words for this in 'es'; write desk.topic.bath "),
        ("templates/wording/es/desk-topics.yaml", "desk.stance.heat.lower:", "desk.stance.heat.low:", "no words for this in 'es'; write desk.stance.heat.basking-surface.lower "),
        ("templates/wording/es/desk-topics.yaml", "desk.because.growing:", "desk.because.grown:", "no words for this in 'es'; write desk.because.growing "),
        ("templates/wording/es/desk-settlements.yaml", "desk.settlement.gravid-and-fat:", "desk.settlement.gravid-or-fat:", "no words for this in 'es'; write desk.settlement.gravid-and-fat in wording/es/desk-settlements.yaml"),
        ("templates/wording/es/desk-settlements.yaml", "desk.settlement.gravid-and-fat:", "desk.settlement.gravid-or-fat:", "there is no settlement for 'desk.settlement.gravid-or-fat'"),
        ("templates/wording/es/desk.yaml", "desk.choice.pvc:", "desk.choice.vinyl:", "choice 'pvc' of 'enclosure.walls', on the desk's page, has no words in 'es'"),
        ("templates/wording/en/sheet.yaml", "measure.humidity.plain:", "measure.humidty.plain:", "measured quantity 'humidity' has no words in 'en'; write measure.humidity.plain"),
        ("templates/wording/es/desk.yaml", "desk.lang.es:", "desk.lang.ez:", "the language 'es', on the desk's page, has no words"),
        ("templates/look.yaml", 'text: "#000000"', 'text: "#8C8C8C"', "contrast"),
        ("templates/look.yaml", "body: 12", "body: 11", "body"),
        ("templates/sheets/adoption.yaml", "  - photo\n", "  - fownd\n", "fownd"),
        ("templates/sheets/checkout.yaml", "pages: 2\n", "", "'pages' and 'in-brief' stand together"),
        ("templates/sheets/checkout.yaml", "in-brief: [normal-here", "in-brief: [emergencies", "emergencies"),
        ("templates/sheets/adoption.yaml", "  - {left: [light]", "  - {show: law, left: [light]", "or 'columns' with one list"),
        ("templates/sheets/adoption.yaml", "{left: [light]", "{left: [page-break]", "not-in-a-column|over the whole width"),
        ("templates/sheets/checkout.yaml", "  - page: [state,", "  - show: law\n    page: [state,", "or 'page' with one list"),
        ("templates/sheets/adoption.yaml", "  - {left: [light]", "  - {foot: [law], left: [light]", "there is no page whose foot it is"),
        ("templates/foods.yaml", 'row: "11161", source: usda', 'row: "11963", source: usda', "row '11963' of 'usda' is that of 'collards' too"),
        ("templates/foods.yaml", 'row: "11161", source: usda', 'row: "11161", source: usdaa', "'usdaa' is not among this file's sources; did you mean 'usda'"),
        ("templates/foods.yaml", "nopal: {kind: plant, like: leafy-greens", "nopal: {kind: plant, like: leafy-green", "did you mean 'leafy-greens'"),
        ("templates/reference-values.yaml", "ranavirus: {groups: [lizard, tortoise, turtle, frog, salamander], product: chlorhexidine", "ranavirus: {groups: [lizard, tortoise, turtle, frog, salamander], product: bleach", "never used near an amphibian"),
        ("templates/reference-values.yaml", "harm-danger: {value: {range: 90", "harm-danger: {value: {range: 500", "harm-danger: '500' is outside what is possible here"),
        ("templates/reference-values.yaml", 'every: 8 h, from: "6:00"', 'every: 8 h, from: "six"', "'six' is no time of the day"),
        ("templates/reference-values.yaml", "stomach-percent: {value: {range: 2-5", "stomach-percent: {value: {range: 2-500", "stomach-percent: '500' is outside"),
        ("templates/rules.yaml", "no-guard: {when: {heat-guard: [no]}", "no-guard: {when: {}", "rules.no-guard.when: is empty; write what must hold"),
        ("templates/rules.yaml", "no-guard: {when: {heat-guard: [no]}", "no-guard: {when: {heat-guard: [no], group: []}", "when.group: is empty"),
        ("templates/rules.yaml", "no-guard: {when: {heat-guard: [no]}", "no-guard: {when: {heat-guard: [no], group: }", "when.group: is empty"),
        ("templates/rules.yaml", 'stance: ["warmth-day:cool-down"]', 'stance: ["warmth-day:cool-dwn"]', "did you mean 'warmth-day:cool-down'"),
        ("templates/rules.yaml", "source: practice, trust: memory}\n  no-guard", "source: practise, trust: memory}\n  no-guard", "'practise' is not among this file's sources"),
        ("templates/settlements.yaml", "{finding: [gravid], and-finding: [overweight]}", "{finding: [gravid], and-finding: [overwieght]}", "no finding 'overwieght'"),
        ("templates/foods.yaml", "at-most: now-and-then, not-with: [diarrhoea, overweight, fatty-liver-suspect]", "at-most: now-and-then, not-with: [diarrhea]", "no finding 'diarrhea'"),
        ("templates/findings.yaml", "check-with: sutures", "check-with: suture", "no procedure 'suture'"),
        ("templates/settlements.yaml", 'calls: ["humidity:shed-band"]', 'calls: ["humidty:shed-band"]', "names no topic of topics.yaml; did you mean 'humidity'"),
        ("templates/topics.yaml", "default: routine", "default: routin", "did you mean 'routine'"),
        ("templates/sheets/checkout.yaml", "food, water-here, findings", "food, water-here, water-here, findings", "'water-here' stands twice"),
        ("templates/sheets/checkout.yaml", "food, water-here, findings, winter", "food, findings, winter", "'water-here' is no section of this sheet"),
        ("templates/sheets/checkout.yaml", "in-brief: [normal-here, source-line", "in-brief: [normal-here, source-line, source-line", "'source-line' stands twice"),
        ("templates/sheets/checkout.yaml", "pages: 2\n", "pages: 2.5\n", "'2.5' is not a whole number"),
        ("templates/steps.yaml", "  warm-basking: {place", "  warm-basket: {place", "'warm-basking' has no row|is no action of a rule"),
        ("templates/steps.yaml", "basking-surface, pictogram: heat, write: hour, food", "basking-surface, pictogram: heat, write: our, food", "wall.write.our"),
        ("templates/steps.yaml", "guard-the-heat: {pictogram: guard, ", "guard-the-heat: {", "guard-the-heat: 'pictogram' is missing"),
        ("templates/steps.yaml", "hang-lamp-at: {place: lamp-distance, pictogram: tube, ", "hang-lamp-at: {place: lamp-distance, ", "hang-lamp-at: 'pictogram' is missing"),
        ("templates/steps.yaml", "bought-as: [give-nest-moss,", "bought-as: [give-nest-mos,", "write action.give-nest-mos.do"),
        ("templates/topics.yaml", "  - {of: bath, language: fr, parts: [bain, baign, tremp]}\n", "", "'written' has no row of 'bath' in 'fr'"),
        ("templates/topics.yaml", "[snake], never-done: [feeding-tube-placed", "[snake], never-done: [feeding-tube-placd", "there is no procedure 'feeding-tube-placd'"),
        ("templates/instructions.yaml", "blistered-belly-scales], never-found: [septic", "blistered-belly-scales], never-found: [septi", "there is no finding 'septi'"),
        ("templates/instructions.yaml", "for: {never-own-step: [nest]}", "for: {never-own-step: [nset]}", "no row of 'written' in topics.yaml is of 'nset'"),
        ("templates/steps.yaml", "own-step: [nest]", "own-step: [nset]", "no row of 'written' in topics.yaml is of 'nset'"),
        ("templates/settlements.yaml", "own-step: [bath]", "own-step: [bth]", "no row of 'written' in topics.yaml is of 'bth'"),
        ("templates/rules.yaml", "basking-too-hot: {when: {basking-surface: [too-high]}, do: cool-basking, harm: 93, graded: yes, heater: yes, tonight: yes, raised-by: {finding: [heat-stroke]", "basking-too-hot: {when: {basking-surface: [too-high]}, do: cool-basking, harm: 93, graded: yes, heater: yes, tonight: yes, raised-by: {finding: [heat-strok]", "there is no finding 'heat-strok'"),
        ("templates/instructions.yaml", "{never-written: [weighing], stances", "{never-written: [weihing], stances", "no row of 'written' in topics.yaml is of 'weihing'"),
        ("templates/instructions.yaml", "watch.steadiness, said-by: let-wake}", "watch.steadiness, said-by: let-wak}", "write action.let-wak.do"),
        ("templates/steps.yaml", "[warm-basking.how-unsafe, warm-basking.how-low]", "[warm-basking.how-unsaf]", "write action.warm-basking.how-unsaf"),
        ("templates/instructions.yaml", "stance.bath.none, stance.bath", "stance.bath.non, stance.bath", "'stance.bath.non' is no instruction of this file"),
        ("templates/wording/es/sheet.yaml", 'sheet.date-day: "{weekday} ', 'sheet.date-day: "', "has the slot {weekday-short}, which its twin in 'es'"),
        ("templates/warning-signs.yaml", "  bleeding: {tier: now, alarm: blood, ", "  bleeding: {tier: now, ", "say in 'alarm'"),
        ("templates/wording/en/wall.yaml", "action.warm-basking.short", "action.warm-basket.short", "'warm-basking' has no words|nothing in the data speaks of 'action.warm-basket"),
    ]

    def test_each_fault_is_told_with_its_place(self):
        with tempfile.TemporaryDirectory() as folder:
            copy = Path(folder) / "data"
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, copy / part)
            for name, text, instead, said in self.FAULTS:
                with self.subTest(said):
                    path = copy / name
                    before = path.read_text()
                    self.assertEqual(before.count(text), 1, f"{name}: {text}")
                    path.write_text(before.replace(text, instead))
                    done = run("check", copy, "--today", TODAY)
                    path.write_text(before)
                    self.assertEqual(done.returncode, 1, done.stderr[-500:])
                    lines = [line for line in done.stderr.splitlines() if re.search(said, line)]
                    self.assertTrue(lines, done.stderr[-1500:])
                    self.assertRegex(lines[0], r"^\S+\.yaml:\d+:\d+: ")

    def test_what_the_program_asks_for_by_name_is_there(self):
        """A list of the veterinarian's words under another name in all languages is missed as one language's is."""
        with tempfile.TemporaryDirectory() as folder:
            copy = Path(folder) / "data"
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, copy / part)
            path = copy / "templates/topics.yaml"
            text = path.read_text()
            for name in ("lower-shell", "medicine-way", "given-as-food", "bath-warmth", "bath-depth"):
                self.assertIn(f"{{of: {name},", text)
                path.write_text(text.replace(f"{{of: {name},", f"{{of: {name}s,"))
                done = run("check", copy, "--today", TODAY)
                self.assertEqual(done.returncode, 1, name)
                for language in ("en", "es", "fr"):
                    self.assertIn(f"'written' has no row of '{name}' in '{language}'", done.stderr)

    def test_a_language_that_is_a_copy_is_refused(self):
        with tempfile.TemporaryDirectory() as folder:
            copy = Path(folder) / "data"
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, copy / part)
            english, spanish = (copy / "templates/wording" / lang for lang in ("en", "es"))
            (spanish / "signs.yaml").write_bytes((english / "signs.yaml").read_bytes())
            done = run("check", copy, "--today", TODAY)
            self.assertEqual(done.returncode, 1)
            self.assertRegex(done.stderr, r"wording/es/signs\.yaml:1:1: is byte for byte .*wording/en/signs\.yaml")
            # a copy with a remark of its own in every file, so that no byte comparison notices
            for path in english.glob("*.yaml"):
                if path.name != "language.yaml":
                    (spanish / path.name).write_text("# es\n" + path.read_text())
            done = run("check", copy, "--today", TODAY)
            self.assertEqual(done.returncode, 1)
            self.assertRegex(done.stderr, r"wording/es/\w+\.yaml:\d+:\d+: \d+ of \d+ sentences of 'es' are those of 'en'")

    def test_a_file_of_words_is_checked_by_itself(self):
        with tempfile.TemporaryDirectory() as folder:
            wording = Path(folder) / "wording"
            shutil.copytree(ROOT / "templates/wording", wording)
            for path in [wording / "en/desk.yaml", *sorted((wording / "es").glob("*.yaml"))]:
                self.assertEqual(run("check", path).stdout, f"{path}: good\n")
            here = subprocess.run([PROGRAM, "check", "signs.yaml"], cwd=wording / "es", capture_output=True, text=True)
            self.assertEqual((here.returncode, here.stderr), (0, ""))
            path = wording / "es/sheet.yaml"
            text = path.read_text()
            for before, after, said in (
                ("unit.gram:", "unit.gramo:", r"sheet\.yaml:\d+:1: 'unit\.gramo' is not worded in the language 'en'"),
                ("unit.gram:", "unit.gramo:", r"en/sheet\.yaml:\d+:1: 'unit\.gram' is not worded in the language 'es'"),
                ("unit.gram: \"{n}", "unit.gram: \"{m}", r"es/sheet\.yaml:\d+:1: 'unit\.gram' has the slot {m}"),
                ("unit.gram: \"{n}", "unit.gram: \"{n", r"es/sheet\.yaml:\d+:\d+: a slot is written"),
            ):
                self.assertEqual(text.count(before), 1, before)
                path.write_text(text.replace(before, after))
                done = run("check", path)
                self.assertEqual(done.returncode, 1, said)
                self.assertRegex(done.stderr, said)

    def test_a_file_of_words_outside_the_folder(self):
        """Whatever the check of the folder would say were it in there, at its own lines."""
        with tempfile.TemporaryDirectory() as folder:
            own = Path(folder) / "our own.yaml"
            text = (ROOT / "templates/wording/es/sheet.yaml").read_text()
            english = (ROOT / "templates/wording/en/sheet.yaml").read_text()
            own.write_text(text)
            done = run("check", own, "--language", "es", "--today", TODAY)
            self.assertEqual((done.returncode, done.stdout, done.stderr), (0, f"{own}: good\n", ""))
            done = run("check", own, "--today", TODAY)  # nobody can know whose words they are
            self.assertEqual(done.returncode, 1)
            self.assertRegex(done.stderr, r"our own\.yaml: whose words are these\? Say --language")
            in_folder = Path(folder) / "es" / "sheet.yaml"  # its folder says it
            in_folder.parent.mkdir()
            in_folder.write_text(text)
            self.assertEqual(run("check", in_folder, "--today", TODAY).returncode, 0)
            for words, said in (
                (text.replace("unit.gram:", "unit.gramo:"), r"our own\.yaml:\d+:1: 'unit\.gramo' (is not worded|has no twin)"),
                (text.replace('unit.gram: "{n}', 'unit.gram: "{m}'), r"our own\.yaml:\d+:1: 'unit\.gram' has the slot \{m\}"),
                (text + "\nsign.no-such-sign: \"x\"\n", r"our own\.yaml:\d+:1: nothing in the data speaks of 'sign\.no-such-sign'"),
                (text + "\nsheet.feeding.more: \"Bañe al animal cada día.\"\n", r"our own\.yaml:\d+:1: .*sheet\.feeding\.more"),
                ("# es\n" + english, r"our own\.yaml:\d+:\d+: \d+ of \d+ sentences of 'es' are those of 'en'"),
                (english, r"our own\.yaml:1:1: is byte for byte .*wording/en/sheet\.yaml"),
                (text.replace('unit.gram: "{n}', 'unit.gram: "{n} ᚠ'), r"our own\.yaml:\d+:\d+: .*ᚠ"),
            ):
                own.write_text(words)
                done = run("check", own, "--language", "es", "--today", TODAY)
                self.assertEqual(done.returncode, 1, said)
                self.assertRegex(done.stderr, said)
                self.assertNotIn(": remark: ", done.stderr)
            own.write_text("no.such: x\n")
            done = run("check", own, "--language", "es", "--today", TODAY)
            self.assertRegex(done.stderr, r"our own\.yaml:1:1: no key of this file stands in the language 'es'")

    def test_a_language_outside_the_folder(self):
        """A language of the clinic's own, before it lies in the data: every text that is missing is told."""
        with tempfile.TemporaryDirectory() as folder:
            own = Path(folder) / "pt"
            shutil.copytree(ROOT / "templates/wording/es", own)
            language = own / "language.yaml"
            language.write_text("".join(line for line in language.read_text().splitlines(True) if not line.startswith("reading-ease")) + "reading-ease: none\n")
            (own / "signs.yaml").write_text((own / "signs.yaml").read_text() + "sign.extra: x\n")
            done = run("check", own / "signs.yaml", "--today", TODAY)
            self.assertEqual(done.returncode, 1)
            self.assertRegex(done.stderr, r"pt/signs\.yaml:\d+:1: 'sign\.extra' is not worded in the language 'en'")

    def test_a_sheet_names_its_animal_in_its_own_language(self):
        with tempfile.TemporaryDirectory() as folder:
            own = Path(folder) / "ball-python.yaml"
            text = (ROOT / "species-sheets/ball-python.yaml").read_text()
            line = next(i for i, one in enumerate(text.splitlines(), 1) if ", es: pitón bola," in one)
            own.write_text(text.replace(", es: pitón bola,", ","))
            words = ("sheet", ROOT / "templates/visits/biscuit-ball-python.yaml", "--species-dir", folder, "--today", TODAY, "-o", Path(folder) / "x.pdf")
            self.assertEqual(run(*words, "--language", "en").returncode, 0)
            done = run(*words, "--language", "es", "--replace")
            self.assertEqual(done.returncode, 1)
            self.assertRegex(done.stderr, rf"ball-python\.yaml:{line}:\d+: species\.names: 'ball-python' has no name in 'es'")

    def test_what_cannot_be_drawn_is_told_with_its_line(self):
        record = 'visit: {date: 2026-03-20, kind: checkout}\npatient:\n  name: %s\n  species: ball-python\nkeeper: {email: a@example.org}\n'
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "visit.yaml"
            for name, place in (('"Fern \ue123"', r"3:9: no font here has '\ue123'"), (b'"F\xc3\xa9\xff"', r"3:12: is not UTF-8 text")):
                path.write_bytes(record.encode() % name if isinstance(name, bytes) else (record % name).encode())
                for words in (("check", path), ("sheet", path, "-o", Path(folder) / "x.pdf"), ("mail", path, "--drafts", "-o", Path(folder) / "x.eml")):
                    done = run(*words, "--today", TODAY)
                    self.assertEqual(done.returncode, 1, words)
                    self.assertRegex(done.stderr, rf"(?m)^\S+visit\.yaml:{place}")
                    self.assertFalse(list(Path(folder).glob("x.*")))
            # the option, not the record, asked for it
            path.write_text(record % "Fern")
            self.assertNotIn("visit.yaml", run("sheet", path, "--language", "fr", "--today", TODAY).stderr)

    def test_a_clinic_makes_a_kind_of_sheet_of_its_own(self):
        """A file of templates/sheets and its words; nothing else knows the kinds by name."""
        with tempfile.TemporaryDirectory() as folder:
            copy = Path(folder) / "data"
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, copy / part)
            (copy / "templates/sheets/boarding.yaml").write_text("kind: boarding\nnew-home: yes\nsections: [animal, go-now, message, medicines, temperature, feeding, warnings, cautions, signature]\n")
            done = run("check", copy, "--today", TODAY)
            self.assertEqual(done.returncode, 1)
            self.assertRegex(done.stderr, r"boarding\.yaml:1:7: 'boarding' has no words in 'en'; write sheet\.title\.boarding")
            for lang in (copy / "templates/wording").iterdir():
                for name, line in (("sheet", 'sheet.title.boarding: "Boarding sheet for {patient.name}"\n'), ("desk", 'desk.choice.boarding: "boarding"\n')):
                    (lang / f"{name}.yaml").write_text((lang / f"{name}.yaml").read_text() + line)
            done = run("check", copy, "--today", TODAY)
            self.assertEqual(done.returncode, 0, done.stderr)
            visit = Path(folder) / "visit.yaml"
            visit.write_text(f"visit: {{date: {TODAY}, kind: boarding}}\npatient: {{name: Fern, species: ball-python}}\n")
            done = run("sheet", visit, "--data", copy, "--today", TODAY, "-o", Path(folder) / "sheet.pdf")
            self.assertEqual(done.returncode, 0, done.stderr)
            self.assertIn(b"Boarding sheet for Fern", (Path(folder) / "sheet.pdf").read_bytes())
            # what a new home needs follows the file, not the name
            plan = json.loads(run("explain", "--json", "--data", copy, visit, "--today", TODAY).stdout)
            self.assertIn("move-in", [one["what"] for one in plan["dates"]])
            # a kind that no file holds, and a file under another name
            visit.write_text(visit.read_text().replace("kind: boarding", "kind: bording"))
            done = run("check", visit, "--data", copy, "--today", TODAY)
            self.assertRegex(done.stderr, r"visit\.yaml:1:33: visit\.kind: there is no kind of sheet 'bording'; did you mean 'boarding'\?")
            (copy / "templates/sheets/boarding.yaml").rename(copy / "templates/sheets/stay.yaml")
            done = run("check", copy / "templates/sheets/stay.yaml")
            self.assertRegex(done.stderr, r"stay\.yaml:1:7: the kind 'boarding' stands in the file stay\.yaml; name both alike")

    def test_hard_words_are_told(self):
        with tempfile.TemporaryDirectory() as folder:
            copy = Path(folder) / "data"
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, copy / part)
            path = copy / "templates/wording/en/sheet.yaml"
            hard = ("Unquestionably individualised thermoregulatory considerations necessitate extraordinarily conscientious deliberation regarding "
                    "characteristically heterogeneous environmental circumstances immediately preceding alimentation.")
            text = re.sub(r"(?m)^sheet\.feeding-how\.whole-prey: .*$", f"sheet.feeding-how.whole-prey: {hard}", path.read_text())
            path.write_text(text)
            done = run("check", copy, "--today", TODAY)
            self.assertEqual(done.returncode, 1)
            self.assertRegex(done.stderr, r"biscuit-ball-python\.yaml: food is too hard to read in 'en'")

    def test_sentences_cut_short_are_told(self):
        """The longer texts of a file, parted where they are joined: grade 1 or less by hand (6 words a sentence, 1.2 syllables a word: 0.9)."""
        with tempfile.TemporaryDirectory() as folder:
            copy = Path(folder) / "data"
            for part in ("templates", "species-sheets"):
                shutil.copytree(ROOT / part, copy / part)
            path = copy / "templates/wording/en/findings.yaml"
            path.write_text(re.sub(r",? (and|so|so that|because|but)\b", ".", path.read_text()))
            # a row is no longer text, however short its sentences are
            path = copy / "templates/wording/en/wall.yaml"
            path.write_text(re.sub(r"(?m)^wall\.say-back: .*$", 'wall.say-back: "' + "Read it. " * 5 + 'Done."', path.read_text()))
            done = run("check", copy, "--today", TODAY)
            self.assertEqual(done.returncode, 1)
            self.assertRegex(done.stderr, r"findings\.yaml: the longer texts are cut into short sentences in 'en' \((-?0|1)\.\d, at least 3\)")
            self.assertNotIn("wall.yaml: the longer texts", done.stderr)

    def test_a_folder_without_rules_is_refused(self):
        done = run("check", "src")
        self.assertEqual(done.returncode, 1)
        self.assertIn("templates/rules.yaml", done.stderr)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
