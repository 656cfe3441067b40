#!/usr/bin/env python3
"""One hundred visits over all species, both languages, both systems of units and both papers, from a fixed seed: each is set, every
word stands inside the margins, nothing is empty, unworded or without a glyph, no file is over 120 kB."""
import html
import json
import random
import re
import subprocess
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path


sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402
from findings import without_excluded  # noqa: E402
from languages import LANGUAGES  # noqa: E402

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
# the pages of a checkout sheet and of a new home's packet are filled from 26 pt below the upper edge to 16 pt above the lower one, which office printers can print on (common practice)
COUNT, SEED, MARGIN_PT, FILLED_MARGIN_PT, MOST_BYTES = 100, 20260320, 36, 16, 120_000
PAPERS = {"a4": (595.28, 841.89), "letter": (612, 792)}
SPECIES = {path.stem: read_yaml(path.read_text()) for path in sorted((ROOT / "species-sheets").glob("*.yaml"))}
CATALOGUE = read_yaml((ROOT / "templates/findings.yaml").read_text())
NAMES = ["Fern", "Ñandú", "Dr. Schuppe III", "Zoë-Lou", "A", "Señora Tortuga de la Cañada", "O'Malley \"Scales\" & Co", "Bartholomew Maximilian"]


def fits(finding, species):
    about = species["species"]
    traits = set(about.get("traits", []))
    return about["group"] in finding["groups"] and set(finding.get("needs", [])) <= traits and not set(finding.get("never-with", [])) & traits \
        and about["reproduction"] in finding.get("reproduction", [about["reproduction"]])


def band(cited):
    numbers = [float(n) for n in re.findall(r"[\d.]+", str(cited["range"]))]
    return numbers[0], numbers[-1]


def make(number):
    rng = random.Random(SEED + number)
    code = sorted(SPECIES)[number % len(SPECIES)]
    species = SPECIES[code]
    chance = lambda share: rng.random() < share
    readings = {}
    for zone, cited in species["temperature"].items():
        if zone in ("basking-surface", "warm-side", "cool-side", "night", "water") and chance(0.7):
            low, high = band(cited)
            readings[zone] = f"{rng.uniform(low - 4, high + 4):.0f} C"
    order = [z for z in ("cool-side", "warm-side", "basking-surface") if z in readings]
    values = sorted((readings[z] for z in order), key=lambda t: float(t.split()[0]))
    readings.update(zip(order, values))
    if species["species"]["group"] != "salamander" and chance(0.7):
        readings.update({"humidity": f"{rng.randint(20, 95)} %", "humidity-at": "cool-side"})
    findings = [{"code": c, "severity": rng.choice(f["severities"]), **({"note": rng.choice(["Seen on the left.", "Está más pálido que en enero; ver foto."])} if chance(0.3) else {})}
                for c, f in CATALOGUE["findings"].items() if fits(f, species) and chance(0.12)]
    findings = without_excluded(findings)
    record = {
        "visit": {"date": "2026-03-20", "kind": ("checkout", "email", "adoption")[number // 3 % 3], **({"veterinarian": "Dr Ines Calder"} if chance(0.8) else {})},
        "patient": {"name": rng.choice(NAMES), "species": code, **({"hatched": f"{rng.randint(2016, 2025)}-0{rng.randint(1, 9)}"} if chance(0.7) else {})},
        "keeper": {"language": LANGUAGES[number % len(LANGUAGES)], "units": ("metric", "us")[number // 2 % 2], **({"name": "Ana Peña Núñez", "email": "ana@example.org"} if chance(0.7) else {})},
        "enclosure": {"readings": readings, **({"size": "120 x 60 x 60 cm", "walls": rng.choice(["glass", "pvc", "wood"]), "lid": rng.choice(["mesh", "glass", "pvc"])} if chance(0.7) else {})},
        "findings": findings,
    }
    if not readings:
        del record["enclosure"]["readings"]
    adult = species.get("size", {}).get("adult-mass")
    if adult and chance(0.8):
        record["patient"]["mass"] = re.sub(r"^([\d.]+)(-[\d.]+)?", lambda m: m.group(1), str(adult["range"]))
    if chance(0.5) and species["species"]["group"] != "salamander":
        record["enclosure"]["lamp"] = {"kind": "tube", "tube-length": "55 cm", "measured": {"uvi": 3.0, "at": "30 cm"}, "mesh-loss": "30 %",
                                       "installed": "2025-10-01", "height": "40 cm", "hours": 12}
    if chance(0.4):
        record["medicines"] = [{"name": "Eye drops", "directions": "One drop in each eye, morning and night, for seven days."}]
    if number % 4 == 1:
        record.setdefault("medicines", []).append({"name": "Syrup", "amount": "0.25 ml", "route": "by-mouth", "every": ("8 h", "24 h", "3 days")[number // 4 % 3],
                                                   "for": "20 days", "first": "2026-03-21", "directions": "Shake it well."})
    if chance(0.5):
        record["done-today"] = ["blood-sample", "x-ray"]
    if chance(0.6):
        record["follow-up"] = {"recheck": "3 weeks"}
    paper = rng.choice(["a4", "letter"])
    if species["species"]["brumation"] != "never" and number % 2:  # a rest that may be
        record.update({"winter-rest": {"planned": True}, "findings": [], "history": {"owned-since": "2019-01-10", "stool-clean": "2026-03-10"}})
        record["patient"]["hatched"] = "2017-05"
        record.pop("done-today", None)
    return record, paper


def overflow(words, paper, kind):
    width, height = PAPERS[paper]
    across = FILLED_MARGIN_PT if kind != "email" else MARGIN_PT
    side = across + 1.4 if kind != "email" else MARGIN_PT  # a fuller sheet uses all the paper that a printer reaches
    for x0, y0, x1, y1, word in words:
        if float(x0) < side - 0.6 or float(x1) > width - side + 0.6 or float(y0) < across - 3 or float(y1) > height - across + 3:
            return word
    return None


def fault(number):
    record, paper = make(number)
    what = f"visit {number} ({record['patient']['species']}, {record['keeper']['language']}, {record['keeper']['units']}, {paper}, {record['visit']['kind']})"
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "sheet.pdf"
        done = subprocess.run([PROGRAM, "sheet", "-", "-o", out, "--today", "2026-03-20", "--paper", paper], input=json.dumps(record).encode(), capture_output=True, cwd=ROOT)
        if done.returncode:
            return f"{what}: {done.stderr.decode()}{json.dumps(record)}"
        boxes = subprocess.run(["pdftotext", "-bbox", out, "-"], capture_output=True)
        if boxes.stderr:
            return f"{what}: {boxes.stderr.decode()}"
        if out.stat().st_size > MOST_BYTES:
            return f"{what}: {out.stat().st_size} bytes"
    words = re.findall(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)</word>', boxes.stdout.decode())
    text = html.unescape(" ".join(word[4] for word in words))
    if len(words) < 150:
        return f"{what}: only {len(words)} words"
    if re.search(r"[{}\ufffd\x00]|\b(sheet|action|finding|sign|why|normal|date)\.[a-z-]+\b", text):
        return f"{what}: an unworded key, a slot or a missing glyph: {re.search(r'.{20}([{}]|sheet[.]|action[.]|finding[.]|sign[.]|why[.]|normal[.]|date[.]).{20}', text)}"
    if record["keeper"]["language"] == "fr":
        text = text.replace(" ;", ";")  # French sets a space before it
    empty = re.search(r".{30}(: ?[.,;]|[,;] ?[.,;:]|[a-z]\.\.| [.,;]).{0,10}", text)
    if empty:
        return f"{what}: an empty place: {empty.group()}"
    word = overflow(words, paper, record["visit"]["kind"])
    return f"{what}: '{word}' stands in the margin" if word else None


def extremes():
    """Names of 400 letters, every finding at once and none, a python of five metres, a gecko of three grams, every accent of the languages."""
    base = {"visit": {"date": "2026-03-20", "kind": "checkout"}, "patient": {"name": "Fern", "species": "carpet-python"}, "keeper": {"name": "Ana"}}
    long = "Bartholomew Maximilian " * 17 + "end"
    accents = "ÁÉÍÓÚÜÑ áéíóúüñ ¿Qué? ¡Sí! «uno» “dos” ‘tres’ naïve café Brontë œuf À Ç Ê"
    for kind in ("checkout", "email", "adoption"):
        for language in LANGUAGES:
            about = {**base, "visit": {**base["visit"], "kind": kind}, "keeper": {"name": long, "language": language}}
            yield "long names", {**about, "patient": {**base["patient"], "name": long}, "visit": {**about["visit"], "veterinarian": long}}
            yield "accents", {**about, "patient": {**base["patient"], "name": accents}, "message": accents * 5}
            for code in ("carpet-python", "bearded-dragon", "red-footed-tortoise", "whites-tree-frog"):
                every = [{"code": c, "severity": f["severities"][-1], "note": "Una nota. " * 8} for c, f in CATALOGUE["findings"].items()
                         if fits(f, SPECIES[code])]
                every = without_excluded(sorted(every, key=lambda f: f["severity"] == "normal"), "female")
                every = every[:60]  # as many as a record may hold
                yield f"{len(every)} findings", {**about, "patient": {"name": "Fern", "species": code, "sex": "female"}, "findings": every}
            yield "no findings", about
            yield "five metres", {**about, "patient": {**base["patient"], "length": "500 cm", "mass": "60 kg"}, "enclosure": {"size": "500 x 200 x 200 cm"}}
            yield "three grams", {**about, "patient": {"name": "Fern", "species": "leopard-gecko", "mass": "3 g", "length": "4 cm"}, "enclosure": {"size": "20 x 20 x 10 cm"}}


def overlap(page):
    """Two words on one another: by more than a fifth of a line up and down, and a point across."""
    boxes = sorted(((float(x0), float(y0), float(x1), float(y1), w) for x0, y0, x1, y1, w in page), key=lambda box: box[1])
    for i, a in enumerate(boxes):
        for b in boxes[i + 1:]:
            if b[1] >= a[3]:
                break  # it and all that follow begin below
            across, down = min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1])
            if across > 1 and down > 0.35 * min(a[3] - a[1], b[3] - b[1]):
                return f"{a[4]} {b[4]}"
    return None


def extreme_fault(about):
    what, record = about
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "sheet.pdf"
        done = subprocess.run([PROGRAM, "sheet", "-", "-o", out, "--today", "2026-03-20"], input=json.dumps(record).encode(), capture_output=True, cwd=ROOT)
        if done.returncode:
            return f"{what}: {done.stderr.decode()}"
        pages = subprocess.run(["pdftotext", "-bbox", out, "-"], capture_output=True, text=True).stdout.split("<page ")[1:]
    for number, page in enumerate(pages, 1):
        words = re.findall(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)</word>', page)
        fault = overflow(words, "a4", record["visit"]["kind"]) or overlap(words)
        if fault:
            return f"{what} ({record['visit']['kind']}, {record['keeper'].get('language')}), page {number}: {fault}"
    return None


class Generated(unittest.TestCase):
    def test_extremes_neither_clip_nor_overlap(self):
        with ThreadPoolExecutor(2) as pool:
            faults = [f for f in pool.map(extreme_fault, extremes()) if f]
        self.assertEqual(faults[:8], [], f"{len(faults)}")
        self.assertGreaterEqual(max(int(w.split()[0]) for w, _ in extremes() if w.endswith("findings") and w[0].isdigit()), 35)


    def test_a_hundred_visits(self):
        with ThreadPoolExecutor(2) as pool:
            faults = [f for f in pool.map(fault, range(COUNT)) if f]
        self.assertEqual(faults[:5], [], f"{len(faults)} of {COUNT}")
        made = [make(n) for n in range(COUNT)]
        self.assertEqual({r["patient"]["species"] for r, _ in made}, set(SPECIES))
        self.assertEqual(len({(r["keeper"]["language"], r["keeper"]["units"], p) for r, p in made}), 4 * len(LANGUAGES))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
