#!/usr/bin/env python3
"""The register of messages: nothing is said that has no row there, nothing stands there that nobody says, and a number is its message's for ever."""
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

import c_functions

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = ROOT / ".build/src/cli/baskleaf" if len(sys.argv) < 2 else sys.argv[1]
FROZEN = Path(__file__).with_name("message_numbers.txt")
ROW = re.compile(r'^    \{(\d+), "([a-z0-9-]+)",\s+"((?:[^"\\]|\\.)*)",\s+"((?:[^"\\]|\\.)*)"\},$', re.M)
DEFINED = re.compile(r"^(?:static )?[\w *]+?[ *](\w+)\(([^;{}]*?)\)\s*\n\{|^#define (\w+)\(([^)]*)\)\s*\\\n", re.M)
QUOTED = re.compile(r'/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', re.S)
PASSED_ON = {"m->code", "quiet.last->code"}  # what another sink took already


def arguments(text, code, at):
    """The arguments of the call whose bracket opens at `at`; `code` is the text without what stands in quotes. Commas in brackets part nothing."""
    end, found, depth, begin = c_functions.close_of(code, at, "(", ")") - 1, [], 0, at + 1
    for i in range(at, end):
        depth += (code[i] in "([{") - (code[i] in ")]}")
        if code[i] == "," and depth == 1:
            found.append(text[begin:i].strip())
            begin = i + 1
    return [*found, text[begin:end].strip()]


def names_of(parameters):
    return [re.split(r"[\s*]+", one.strip())[-1] for one in parameters.split(",")]


class Sources:
    def __init__(self):
        self.texts = {path: path.read_text(encoding="utf-8") for path in sorted((ROOT / "src").rglob("*.[ch]"))}
        self.found = {}
        self.raisers = {("diag_report", None): 2, ("diag_report_path", None): 2}
        while self.find_wrappers():
            pass

    def calls(self, name, path):
        """(place, arguments) of each call and of each definition of the name."""
        text = self.texts[path]
        if f"{name}(" not in text:
            return []
        if (name, path) not in self.found:
            code = QUOTED.sub(lambda quoted: " " * len(quoted.group()), text)
            self.found[name, path] = [(match.start(), arguments(text, code, match.end() - 1)) for match in re.finditer(rf"\b{name}\(", code)]
        return self.found[name, path]

    def find_wrappers(self):
        """A function or macro that hands one of its own parameters on as a code says messages too."""
        before = len(self.raisers)
        for path, text in self.texts.items():
            heads = list(DEFINED.finditer(text))
            for i, head in enumerate(heads):
                name, own = head.group(1) or head.group(3), names_of(head.group(2) or head.group(4))
                end = heads[i + 1].start() if i + 1 < len(heads) else len(text)
                scope = path if head.group().startswith("static") else None
                for (known, where), at in list(self.raisers.items()):
                    for place, words in self.calls(known, path) if where in (None, path) else ():
                        if head.end() <= place < end and words[at].strip("()") in own:
                            self.raisers[(name, scope)] = own.index(words[at].strip("()"))
        return len(self.raisers) > before

    def said(self):
        """Each code with where it is said; what is no text must be a parameter of a wrapper or PASSED_ON."""
        for (name, where), at in self.raisers.items():
            for path in self.texts:
                for place, words in self.calls(name, path) if where in (None, path) else ():
                    if re.match(r"(?:const )?(?:char|struct|enum|bool)\b", words[0]) or words[0] == "r" and "#define" in self.texts[path][max(0, place - 9):place]:
                        continue
                    here = f"{path.relative_to(ROOT)}:{self.texts[path].count(chr(10), 0, place) + 1}"
                    yield here, words[at], re.findall(r'"([^"]*)"', words[at])


class Register(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.rows = [(int(n), code, means, remedy) for n, code, means, remedy in ROW.findall((ROOT / "src/base/messages.c").read_text(encoding="utf-8"))]
        cls.said = list(Sources().said())

    def test_a_command_that_is_named_is_one(self):
        """Whoever is told to run 'baskleaf X' finds it: in what is said, in the data and in the manuals."""
        usage = subprocess.run([PROGRAM, "--help"], capture_output=True, text=True, check=True).stdout
        commands, named = set(re.findall(r"^  (\w+) ", usage, re.M)), {}
        self.assertGreater(len(commands), 10)
        paths = [*(ROOT / "src").rglob("*.[chj]"), *(ROOT / "src").rglob("*.js"), *(ROOT / "src").rglob("*.sh"), *(ROOT / "templates").rglob("*.yaml"),
                 *(ROOT / "species-sheets").glob("*.yaml"), ROOT / "README.md", ROOT / "DEVELOPERS.md", ROOT / "src/install/manual.py"]
        for path in paths:
            text = re.sub(r'"\s*\n\s*"', "", path.read_text(encoding="utf-8"))
            for word in re.findall(r"(?:['`]|cli/)baskleaf ([a-z]+)\b", text):
                named.setdefault(word, path)
        self.assertGreater(len(named), 8)
        self.assertEqual({word: path for word, path in named.items() if word not in commands}, {})

    def test_all_rows_are_read(self):
        printed = subprocess.run([PROGRAM, "check", "--message", "all"], capture_output=True, text=True, check=True).stdout
        self.assertEqual(re.findall(r"^B(\d+) \(([a-z0-9-]+)\)", printed, re.M), [(str(n), code) for n, code, *_ in self.rows])
        self.assertGreater(len(self.rows), 250)

    def test_nothing_is_said_without_a_row(self):
        known = {code for _, code, *_ in self.rows}
        for here, words, codes in self.said:
            if not codes:
                self.assertIn(words.strip("()"), PASSED_ON | {"code"}, f"{here}: name the message's code here")
            for code in codes:
                self.assertIn(code, known, f"{here}: give '{code}' a row in src/base/messages.c (the next number of its group) and a line in {FROZEN.name}")
        self.assertGreater(len(self.said), 380)

    def test_nothing_stands_there_that_nobody_says(self):
        said = {code for _, _, codes in self.said for code in codes}
        self.assertEqual([code for _, code, *_ in self.rows if code not in said], [])

    def test_numbers_rise_and_are_never_used_again(self):
        numbers = [n for n, *_ in self.rows]
        self.assertEqual(numbers, sorted(set(numbers)))
        self.assertEqual(len({code for _, code, *_ in self.rows}), len(numbers))
        lines = [line.split() for line in FROZEN.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
        self.assertEqual(len({number for number, *_ in lines}), len(lines), "a number stands twice")
        self.assertEqual([(int(line[0]), line[1]) for line in lines if len(line) == 2], [(n, code) for n, code, *_ in self.rows])
        self.assertEqual([line for line in lines if line[2:] not in ([], ["retired"])], [])

    def test_each_says_what_it_means_and_what_to_do(self):
        for number, code, means, remedy in self.rows:
            for text in (means, remedy):
                self.assertGreater(len(text), 5, code)
                self.assertFalse(text.endswith("."), code)
            self.assertFalse(means[0].isupper() and means[1:2].islower(), code)
            self.assertTrue(100 < number < 1000, code)


class Printed(unittest.TestCase):
    def run_check(self, *words):
        return subprocess.run([PROGRAM, "check", *words], capture_output=True, text=True)

    def test_a_fault_ends_with_its_number(self):
        with tempfile.TemporaryDirectory() as folder:
            record = Path(folder) / "visit.yaml"
            record.write_text("visit: {date: 2026-03-14, kind: checkout}\npatient: {name: Biscuit, species: ball-python, humidty: 3}\n", encoding="utf-8")
            done = self.run_check(str(record))
        self.assertEqual(done.returncode, 1)
        self.assertRegex(done.stderr, r"visit\.yaml:2:48: patient: unknown key 'humidty'.* \[B214\]\n")

    def test_one_is_told_by_number_and_by_code(self):
        told = [self.run_check("--message", name) for name in ("B214", "214", "unknown-key")]
        self.assertEqual({done.stdout for done in told}, {told[0].stdout})
        self.assertRegex(told[0].stdout, r"\AB214 \(unknown-key\): this kind of file has no such key\.\n  To do: .*check --format KIND.*\.\n\Z")
        for none in ("B1", "B2140", "nosuch", "", "214x", "BB214"):
            self.assertEqual((self.run_check("--message", none).returncode, self.run_check("--message", none).stdout), (2, ""), none)

    def test_each_word_of_the_desk_is_of_a_message(self):
        codes = dict(re.findall(r"^B\d+ \(([a-z0-9-]+)\): (.*)$", self.run_check("--message", "all").stdout, re.M))
        for path in sorted((ROOT / "templates/wording").glob("*/desk.yaml")):
            worded = re.findall(r"^desk\.fault\.([a-z0-9-]+):", path.read_text(encoding="utf-8"), re.M)
            self.assertEqual([code for code in worded if code not in codes], [], path)
            self.assertGreater(len(worded), 40)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
