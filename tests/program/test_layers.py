#!/usr/bin/env python3
"""An arrow between layers only points down: checks every #include of src/ against the order of the
layers, and that libharu and libyaml are known to one layer each."""
import pathlib
import re
import sys
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
LAYERS = ["support", "yaml", "records", "care", "wording", "page", "deliver", "desk", "main"]
ONLY_IN = {"hpdf": "page", "yaml.h": "yaml", "linebreak.h": "page", "qrencode.h": "wording", "microhttpd.h": "desk", "cups/": "deliver", "qpdf/": "deliver"}
INCLUDE = re.compile(r'^\s*#\s*include\s+(?:"([^"]+)"|<([^>]+)>)', re.M)
TOP = {"README.md", "DEVELOPERS.md", "LICENSE", "meson.build", "src", "templates", "species-sheets", "tests", "out"}


def includes():
    for path in sorted((ROOT / "src").rglob("*.[ch]")):
        for own, system in INCLUDE.findall(path.read_text(encoding="utf-8")):
            yield path.relative_to(ROOT / "src"), own, system


class Layers(unittest.TestCase):
    def test_own_headers_lie_in_the_same_layer_or_below(self):
        seen = 0
        for path, own, _ in includes():
            if not own:
                continue
            layer, target = path.parts[0], own.split("/")[0]
            self.assertIn(target, LAYERS, f"{path} includes {own}: name it with its layer")
            self.assertLessEqual(LAYERS.index(target), LAYERS.index(layer), f"{path} includes {own}: upward")
            seen += 1
        self.assertGreater(seen, 50)

    def test_foreign_headers_are_known_to_one_layer(self):
        for path, _, system in includes():
            for name, layer in ONLY_IN.items():
                if system.startswith(name):
                    self.assertEqual(path.parts[0], layer, f"{path} includes {system}")

    def test_no_file_grows_past_reading(self):
        for path in (ROOT / "src").rglob("*.[ch]"):
            lines = path.read_text(encoding="utf-8").count("\n")
            self.assertLess(lines, 800, f"{path} has {lines} lines")

    def test_the_top_level_is_as_agreed(self):
        visible = {p.name for p in ROOT.iterdir() if not p.name.startswith(".")}
        self.assertEqual(visible, TOP)


if __name__ == "__main__":
    sys.stdout = sys.stderr
    unittest.main(verbosity=2)
