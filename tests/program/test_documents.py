#!/usr/bin/env python3
"""README.md and DEVELOPERS.md against what they speak of: lines that fit a window, files that are there, options that exist, and the table of
species against the species sheets."""
import re
import subprocess
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "common"))
from read_yaml import read_yaml  # noqa: E402


PROGRAM = Path(sys.argv[1]).resolve()
ROOT = Path(__file__).resolve().parents[2]
DOCUMENTS = {name: (ROOT / name).read_text(encoding="utf-8") for name in ("README.md", "DEVELOPERS.md")}
WIDEST = 100


def said(*words):
    return subprocess.run([PROGRAM, *words], capture_output=True, text=True, check=True).stdout


class Documents(unittest.TestCase):
    def test_no_line_is_too_long(self):
        for name, text in DOCUMENTS.items():
            for number, line in enumerate(text.splitlines(), 1):
                self.assertLessEqual(len(line), WIDEST, f"{name}:{number}")

    def test_the_table_of_species_is_that_of_the_sheets(self):
        rows = re.findall(r"^\| ([^|]+) \| \*([^|]+)\* \| (\w+) \| `([\w-]+)` \|$", DOCUMENTS["README.md"], re.M)
        sheets = {path.stem: read_yaml(path.read_text(encoding="utf-8"))["species"] for path in sorted((ROOT / "species-sheets").glob("*.yaml"))}
        wanted = [(one["names"]["en"], one["scientific"], one["group"], code) for code, one in sheets.items()]
        self.assertEqual(rows, wanted)

    def test_files_that_are_named_are_there(self):
        """`src/...`, `templates/...` and the like in backquotes; * stands for any name, CAPITALS for the reader's own."""
        for name, text in DOCUMENTS.items():
            for path in re.findall(r"`((?:src|templates|species-sheets|tests)/[^` ]*)`", text):
                pattern = re.sub(r"[A-Z]{2,}", "*", path)
                self.assertTrue(list(ROOT.glob(pattern.rstrip("/"))), f"{name}: {path}")

    def test_headers_of_the_layers_are_there(self):
        rows = re.findall(r"^\| (\w+) \| [^|]+ \| ([^|]+) \|$", DOCUMENTS["DEVELOPERS.md"], re.M)
        layers = [(layer, headers) for layer, headers in rows if (ROOT / "src" / layer).is_dir()]
        self.assertGreater(len(layers), 15)
        for layer, headers in layers:
            for header in re.findall(r"`([\w]+\.h)`", headers):
                self.assertTrue((ROOT / "src" / layer / header).exists(), f"{layer}: {header}")

    def test_options_and_commands_exist(self):
        commands = re.findall(r"^  ([a-z]+) ", said("--help"), re.M)
        options = {option for command in commands for option in re.findall(r"--[a-z-]+", said(command, "--help"))}
        for name, text in DOCUMENTS.items():
            for option in re.findall(r"`(--[a-z-]+)", text):
                self.assertIn(option, options | {"--benchmark"}, name)
            for command in re.findall(r"(?m)^    \S*baskleaf ([a-z]+)", text):
                self.assertIn(command, commands, name)
        for command in commands:
            self.assertRegex(DOCUMENTS["README.md"], rf"baskleaf {command}\b", "a command that README does not show")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=1)
