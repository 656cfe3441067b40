#!/usr/bin/env python3
"""What a file may not leave out, by what it is for: without these no sheet can be planned, read, answered for or sent, so none may be made
optional by an oversight. The lists were set down by hand from the formats' meaning; a format that asks for more or less is read against them.
Every number says where it is from and how far it is trusted, in all formats."""
import json
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
SIGNED = "{0}.signed-off.by {0}.signed-off.on {0}.signed-off.parts.*.digest {0}.signed-off.earlier.*.by"
# A log that nobody can find, a lamp of no kind, a measurement without its distance, a mesh without its holes: none can be worked with.
MEASURED = """{0}.heat.*.kind {0}.readings.log.file {0}.readings.log.probes.*.zone {0}.lamp.kind {0}.lamp.measured.uvi {0}.lamp.measured.at
              {0}.lamp.mesh.wire {0}.lamp.mesh.opening"""
NEEDED = {
    "visit": "visit patient visit.date visit.kind patient.name patient.species patient.earlier.*.on patient.body-score.score patient.body-score.of"
             " patient.unlisted.kind patient.unlisted.group water.change.share water.change.every findings.*.code medicines.*.name medicines.*.not-on.*.on"
             " follow-up.results.*.of follow-up.results.*.by follow-up.aftercare.*.of targets.because targets.powders.*.powder"
             " in-latin.*.of in-latin.*.write " + SIGNED.format("visit") + " " + MEASURED.format("enclosure"),
    "clinic": "name telephone out-of-hours language units paper hours.*.times holidays.*.from",
    "roster": "animals animals.*.findings.*.code " + SIGNED.format("roster") + " " + MEASURED.format("animals.*.enclosure"),
    "mail-settings": "host port tls",
    "rules": "rules cautions sources rules.*.when rules.*.do rules.*.harm rules.*.source rules.*.trust rules.*.raised-by.finding"
             " rules.*.raised-by.by sources.*.text",
    "settlements": "settlements sources sources.*.text settlements.*.when settlements.*.then settlements.*.reason settlements.*.source"
                   " settlements.*.trust",
    "sheet": "kind sections sections.*.title.*.text sections.*.text.*.text",
}
# The same of what the project itself writes, but for a number's range, source and trust, which the tests below ask of all of them: a care of no
# light, a size that nothing can be held against, a food of unknown calcium, a zone without its most, a step without words.
OURS = {
    "species": "species enclosure feeding feeding.diet feeding.stages feeding.stages.*.every feeding.stages.*.foods feeding.stages.*.stage "
        "feeding.supplements.*.what feeding.supplements.*.when law light light.hours-summer light.hours-winter light.uvb nest "
        "nest.kind normal reviewed.*.by reviewed.*.on reviewed.*.value size size.adult-length size.plausible-length size.plausible-mass sources sources.*.text species.brumation species.code species.group species.habit species.names species.names.*.text "
        "species.reproduction species.scientific species.traits temperature warnings",
    "findings": "findings findings.*.calls.*.call findings.*.groups findings.*.severities findings.*.sooner.*.tier findings.*.system "
        "procedures procedures.*.calls.*.call procedures.*.system sources sources.*.text",
    "topics": "bundles.*.*.call bundles.*.calls bundles.*.calls.*.call calls.*.call calls.*.when sources sources.*.text topics "
        "topics.*.defaults.*.stance topics.*.kind topics.*.parts.*.defaults.*.stance topics.*.parts.*.translate.*.from "
        "topics.*.parts.*.translate.*.to topics.*.translate.*.from topics.*.translate.*.to written.*.of written.*.language written.*.parts",
    "reference-values": "company.*.together disinfectants.*.groups disinfectants.*.product dose-clocks.*.every dose-clocks.*.from hides.*.least lamps lamps.*.life limits limits.*.value "
        "materials materials.*.lambda materials.*.thickness outdoors.*.midday outdoors.*.morning sources sources.*.text uv-uses uv-uses.*.because uv-uses.*.limit uv-uses.*.start uv-zones uv-zones.*.mean uv-zones.*.most winter-rests.*.emptying.*.time "
        "winter-rests.*.species",
    "foods": "balance.*.calcium balance.*.phosphorus foods foods.*.kind foods.*.mg-per-100-g.calcium foods.*.mg-per-100-g.phosphorus "
        "foods.*.mg-per-100-g.row foods.*.sizes.*.mass never sizes sources sources.*.text",
    "signs": "signs signs.*.always signs.*.groups signs.*.tier sources sources.*.text",
    "instructions": "instructions instructions.*.says.*.stances instructions.*.section instructions.*.topics.*.stances "
        "instructions.*.variants.*.key instructions.*.variants.*.topics.*.stances",
    "value-uses": "sources sources.*.text uses",
    "look": "colours colours.accent colours.alert colours.cool colours.leaf colours.muted colours.paper colours.text colours.tint "
        "colours.warm sizes sizes.body sizes.leading sizes.margin sizes.part sizes.section sizes.small sizes.table sizes.title",
    "language": "reading-ease sounds.*.before sounds.*.becomes",
    "steps": "sources sources.*.text steps steps.*.pictogram steps.*.write way-out way-out-fasting",
}
KINDS = ("species", "rules", "topics", "reference-values", "foods", "signs", "findings", "settlements")


def schema(kind):
    done = subprocess.run([PROGRAM, "check", "--schema", kind], capture_output=True, text=True, cwd=ROOT, check=True)
    return json.loads(done.stdout)


def parts(node, shared, path=(), seen=()):
    """Each mapping of the format with its path."""
    while "$ref" in node:
        name = node["$ref"].split("/")[-1]
        if name in seen:
            return
        node, seen = shared[name], (*seen, name)
    if "properties" in node:
        yield path, node
    for key, below in node.get("properties", {}).items():
        yield from parts(below, shared, (*path, key), seen)
    for key in ("items", "additionalProperties"):
        if isinstance(node.get(key), dict):
            yield from parts(node[key], shared, (*path, "*"), seen)
    for key in ("anyOf", "oneOf", "allOf"):
        for below in node.get(key, ()):
            yield from parts(below, shared, path, seen)


def needed(kind):
    tree = schema(kind)
    found = set()
    for path, node in parts(tree, tree.get("$defs", {})):
        found |= {".".join((*path, key)) for key in node.get("required", ())}
    return found


class Required(unittest.TestCase):
    maxDiff = None

    def test_what_a_file_is_for_is_never_left_out(self):
        for kind, keys in NEEDED.items():
            with self.subTest(kind):
                self.assertEqual(needed(kind), set(keys.split()))

    def test_what_we_write_is_whole(self):
        for kind, keys in OURS.items():
            with self.subTest(kind):
                self.assertEqual({key for key in needed(kind) if key.split(".")[-1] not in ("range", "source", "trust")}, set(keys.split()))

    def test_each_number_says_its_source_and_its_trust(self):
        count = 0
        for kind in KINDS:
            tree = schema(kind)
            for path, node in parts(tree, tree.get("$defs", {})):
                if {"range", "source", "trust"} <= set(node["properties"]):
                    count += 1
                    self.assertLessEqual({"range", "source", "trust"}, set(node.get("required", ())), f"{kind}: {'.'.join(path)}")
        self.assertGreater(count, 100)

    def test_whatever_has_a_source_says_how_it_was_read(self):
        """Also rules, findings and foods, which are no numbers."""
        found = set()
        for kind in KINDS:
            tree = schema(kind)
            for path, node in parts(tree, tree.get("$defs", {})):
                if {"source", "trust"} <= set(node["properties"]) and "call" not in node["properties"]:  # a call is of its finding's source
                    found.add((kind, ".".join(path)))
                    self.assertLessEqual({"source", "trust"}, set(node.get("required", ())), f"{kind}: {'.'.join(path)}")
        self.assertLessEqual({("foods", "never.*"), ("findings", "findings.*"), ("findings", "procedures.*"), ("reference-values", "uv-uses.*")}, found)


class Sheets(unittest.TestCase):
    """A kind of sheet as its file says it: print of 12 points is the least that is called clear (common practice, no source), twice as large the most
    that a page holds; words of one's own stand in a section of one's own."""

    def setUp(self):
        self.file = Path(self.enterContext(tempfile.TemporaryDirectory())) / "email.yaml"
        self.text = (ROOT / "templates/sheets/email.yaml").read_text()

    def check(self, text):
        self.assertNotEqual(text, self.text)
        self.file.write_text(text)
        return subprocess.run([PROGRAM, "check", self.file], capture_output=True, text=True, cwd=ROOT)

    def test_print_is_neither_too_small_nor_too_large(self):
        for points, good in (("12", True), ("11.9", False), ("24", True), ("24.1", False)):
            done = self.check(self.text + f"\ntext: {points}\n")
            self.assertEqual(done.returncode == 0, good, done.stderr)
            self.assertEqual("text: " in done.stderr and "12 to 24" in done.stderr, not good, done.stderr)

    def test_a_section_of_ours_has_no_words_of_ones_own(self):
        for words, good in (("show: own, text: {en: {text: Ring the bell.}}", True), ("show: own, title: {en: {text: The door}}, text: {en: {text: Ring.}}", True),
                            ("show: own", False), ("show: animal, text: {en: {text: Ring the bell.}}", False), ("show: animal, title: {en: {text: The door}}", False)):
            done = self.check(self.text.replace("sections:\n", f"sections:\n  - {{{words}}}\n", 1))
            told = "need" in done.stderr if words == "show: own" else "belong to a section 'own'" in done.stderr
            self.assertEqual((done.returncode == 0, told), (good, not good), (words, done.stderr))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
