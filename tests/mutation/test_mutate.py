#!/usr/bin/env python3
"""The mutation tool itself: what it changes and what it leaves alone."""
import re
import shutil
import sys
import tempfile
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
import mutate  # noqa: E402
import reach  # noqa: E402
import served_tests  # noqa: E402

TABLE = """static const int table[] = {
    3,
};
int f(int a)
{
    if (a < 3 &&
        a > 1)
        return 2;
    return 4;
}"""


class Mutants(unittest.TestCase):
    def of(self, line):
        return set(mutate.mutants_of_line(line))

    def test_each_kind(self):
        self.assertEqual(self.of("    if (a < b && c)"), {"    if (a <= b && c)", "    if (a > b && c)", "    if (a < b || c)"})
        self.assertEqual(self.of("    double x = 3 * y;"), {"    double x = 4 * y;", "    double x = 3 / y;"})
        self.assertEqual(self.of("    set_age(plan);"), {""})
        self.assertEqual(self.of("    return true;"), {"    return false;"})

    def test_more_room_and_the_lesser_of_equals_are_no_mutants(self):
        self.assertEqual(self.of("    char *out = arena_take(arena, 2 * strlen(text) + 1), *at = out;"),
                         {"    char *out = arena_take(arena, 2 * strlen(text) - 1), *at = out;", "    char *out = arena_take(arena, 2 / strlen(text) + 1), *at = out;"})
        self.assertEqual(self.of("    char text[16];"), set())
        self.assertEqual(self.of("    static const double rows[] = {1};"), {"    static const double rows[] = {2};"})
        self.assertEqual(self.of("    return a - b < c ? a - b : c;"), {"    return a - b > c ? a - b : c;", "    return a + b < c ? a - b : c;", "    return a - b < c ? a + b : c;"})
        self.assertIn("    return a <= b ? a : c;", self.of("    return a < b ? a : c;"))

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

    def test_each_suite_of_what_is_changed_is_asked(self):
        rows = re.findall(r"'(\w+)': \['(\w+)', \w+\]", (mutate.ROOT / "tests/meson.build").read_text())
        suites = {name for name, layer in rows if layer in mutate.FOLDERS}
        self.assertGreater(len(suites), 80)
        self.assertEqual(suites - set(served_tests.UNITS), set())
        self.assertEqual([name for name in reach.HOLDING if name not in {f"libserved_{suite}." for suite in suites}], [])

    def test_what_is_explained_is_there(self):
        self.assertEqual(list(mutate.stale(mutate.explained())), [])
        row = next(iter(mutate.explained()))
        self.assertEqual(len(list(mutate.stale([(row[0], row[1] + " ", row[2])]))), 1, "a line that is there no more")
        self.assertEqual(len(list(mutate.stale([(row[0], row[1], row[1])]))), 1, "no mutant of it")
        self.assertEqual(len(list(mutate.stale([("src/care/gone.c", *row[1:])]))), 1, "a file that is there no more")

    def test_a_copy_that_was_left_changed_is_not_taken(self):
        with tempfile.TemporaryDirectory() as folder:
            copy = Path(folder) / "copy"
            shutil.copytree(mutate.ROOT / "src", copy / "src")
            self.assertEqual(mutate.differing(copy), [])
            (copy / "src/care/diet.c").write_text((copy / "src/care/diet.c").read_text() + "\n")
            (copy / "src/care/water.c").unlink()
            self.assertEqual(mutate.differing(copy), ["src/care/diet.c", "src/care/water.c"])
            with self.assertRaises(SystemExit):
                mutate.make_copy(folder)

    def test_a_mutant_is_shown_to_what_reaches_its_line(self):
        name = "src/care/f.c"
        found = reach.Map({"slow": reach.Map.row(9.0, {name: {4: True, 6: True, 8: True, 9: False}}),
                           "quick": reach.Map.row(0.5, {name: {4: True, 6: True, 8: False, 9: True}}),
                           "other": reach.Map.row(0.1, {"src/care/g.c": {4: True, 9: False}})})
        self.assertEqual(found.parts_at(name, 6, TABLE), ["quick", "slow"])
        self.assertEqual(found.parts_at(name, 7, TABLE), ["quick", "slow"], "a line of the statement before it")
        self.assertEqual(found.parts_at(name, 8, TABLE), ["slow"])
        self.assertEqual(found.parts_at(name, 9, TABLE), ["quick"])
        self.assertEqual(found.parts_at(name, 2, TABLE), ["quick", "slow"], "a table is of each that reaches the file")
        self.assertEqual(mutate.chosen_parts(found, name, 5, TABLE, 5), (["quick"], False))
        self.assertEqual(mutate.chosen_parts(found, name, 5, TABLE, 10), (["quick", "slow"], True))
        self.assertEqual(found.parts_at("src/care/g.c", 9, TABLE), [], "a line that nothing reaches")
        named = reach.Map({"slow_g": reach.Map.row(9.0, {"src/care/g_r.c": {4: True}}), "g_r": reach.Map.row(7.0, {"src/care/g_r.c": {4: True}}),
                           "other": reach.Map.row(0.1, {"src/care/g_r.c": {4: True}})})
        self.assertEqual(named.parts_at("src/care/g_r.c", 4, TABLE), ["g_r", "other", "slow_g"], "the suite of its name first")
        self.assertEqual(found.parts_at("src/care/g.c", 9, TABLE + "_exit(0);"), ["other"], "a child may reach it that counts nothing")
        self.assertEqual(found.parts_at("src/care/tables.c", 1, TABLE), ["other", "quick", "slow"], "a file of tables alone is of all")


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
