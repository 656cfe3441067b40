#!/usr/bin/env python3
"""The mutation tool itself: what it changes and what it leaves alone."""
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
import mutate  # noqa: E402


class Mutants(unittest.TestCase):
    def of(self, line):
        return set(mutate.mutants_of_line(line))

    def test_each_kind(self):
        self.assertEqual(self.of("    if (a < b && c)"), {"    if (a <= b && c)", "    if (a > b && c)", "    if (a < b || c)"})
        self.assertEqual(self.of("    double x = 3 * y;"), {"    double x = 4 * y;", "    double x = 3 / y;"})
        self.assertEqual(self.of("    set_age(plan);"), {""})
        self.assertEqual(self.of("    return true;"), {"    return false;"})

    def test_texts_and_comments_stay(self):
        self.assertEqual(self.of('    say("a < b && 3 + 4");'), {""})
        self.assertEqual(self.of("/* a < b */"), set())
        self.assertEqual(self.of("#define TWO 2"), set())

    def test_there_are_many_in_each_folder(self):
        found = {}
        for path, *_ in mutate.all_mutants(""):
            folder = path.split("/")[1]
            found[folder] = found.get(folder, 0) + 1
        self.assertEqual(set(found), set(mutate.FOLDERS))
        self.assertGreater(found["care"], 1000)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
