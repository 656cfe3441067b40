#!/usr/bin/env python3
"""An arrow between layers only points down: checks every #include of src/ against the order of the
layers, and that libharu and libyaml are known to one layer each."""
import pathlib
import re
import statistics
import sys
import unittest

import c_functions

ROOT = pathlib.Path(__file__).resolve().parents[2]
LAYERS = ["base", "yaml", "records", "document", "layout", "pdf", "pdftools", "care", "words", "explain", "sheet",
          "context", "review", "signing", "render", "batch", "mail", "print", "check", "desk", "cli"]
# what knows no reptiles: these may use one another and the base, nothing else
GENERAL_MAY_USE = {"base": {"base"}, "yaml": {"base", "yaml"}, "document": {"base", "document"}, "layout": {"base", "document", "layout"},
                   "pdf": {"base", "document", "layout", "pdf"}, "pdftools": {"base", "pdftools"}}
ONLY_IN = {"hpdf": "pdf", "yaml.h": "yaml", "linebreak.h": "layout", "hb": "pdf", "fribidi": "pdf", "uninorm": "records", "idn2": "mail", "qrencode.h": "sheet", "microhttpd.h": "desk", "cups/": "print", "qpdf/": "pdftools"}
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

    def test_what_knows_no_reptiles_uses_nothing_that_does(self):
        for path, own, _ in includes():
            layer = path.parts[0]
            if own and layer in GENERAL_MAY_USE:
                self.assertIn(own.split("/")[0], GENERAL_MAY_USE[layer], f"{path} includes {own}")

    def test_every_folder_is_a_layer(self):
        folders = {p.name for p in (ROOT / "src").iterdir() if p.is_dir()}
        self.assertEqual(folders, set(LAYERS) | {"install"})

    def test_foreign_headers_are_known_to_one_layer(self):
        for path, _, system in includes():
            for name, layer in ONLY_IN.items():
                if system.startswith(name):
                    self.assertEqual(path.parts[0], layer, f"{path} includes {system}")

    def test_what_is_inside_libharu_is_known_to_one_file(self):
        """haru_probe.c tries that one file at build time; a second one would go untried."""
        handles = "annotation|attr|catalog|definition|descriptor|dict|doc|encoder|font|image|info|item|link|object|page|program|stream|xref"
        inside = re.compile(rf"\b({handles})->|\bHPDF_(?!SetInfo)\w+(_Rec|Attr|Header)\b")
        texts = {p.name: p.read_text(encoding="utf-8") for p in (ROOT / "src/pdf").glob("*.[ch]")}
        users = {name for name, text in texts.items() if "HPDF_" in text and inside.search(text)}
        self.assertEqual(users, {"haru_inside.c"})
        headers = {str(path) for path, _, system in includes() if system.startswith("hpdf")}
        self.assertEqual(headers, {"pdf/haru_inside.h"})

    def test_the_plan_is_closed(self):
        """Whoever says the plan says what is in it: it holds no way back to the records, and what makes it is care's alone."""
        records = r"struct (visit|species|clinic|finding_catalogue|finding|procedure|sign_catalogue|rule_book|reference_values)\b"
        others = r"struct (topic_catalogue|settlement_book|instruction_catalogue|instruction|step_book|sheet_template|log_file)\b"
        plan = (ROOT / "src/care/plan.h").read_text(encoding="utf-8")
        before_inputs = plan[: plan.index("struct care_inputs {")]
        for kind in (records, others):
            self.assertNotRegex(before_inputs, kind + r" \*")
        self.assertIn("struct care_plan {", before_inputs)
        # nor lists of the records' own items: what a sheet lists is listed in the plan's own words
        self.assertNotRegex(before_inputs, r"struct list \w+;")
        for path in sorted((ROOT / "src").rglob("*.[ch]")):
            layer, text = path.relative_to(ROOT / "src").parts[0], path.read_text(encoding="utf-8")
            if layer not in ("care", "context"):
                self.assertNotRegex(text, r"\bcare_(inputs|build|plan_make)\b", f"{path} makes plans")
            if layer != "care":
                self.assertNotRegex(text, r'"care/(?!plan\.h)', f"{path} looks into care")
                # the records of these names are care's; what the plan says of them it says as patient, taxon, letterhead and the rest
                self.assertNotRegex(text, r"\b(plan|PLAN)(->|\.)(visit|species|clinic)\b", f"{path} reaches through the plan")
            if layer in ("words", "explain", "sheet", "mail", "print"):
                found = re.search(records, text)
                self.assertIsNone(found, f"{path} names {found and found.group()}: the plan should say it")
                self.assertNotRegex(text, r"\bstruct visit_", f"{path} reads the visit: the plan should say it")

    def test_functions_stay_short(self):
        """At most 60 lines, half of them at most 10; at most 6 parameters, but where a library calls and says which."""
        called_by_library = {"desk/server.c receive"}  # MHD_AccessHandlerCallback
        lengths = []
        for path in sorted((ROOT / "src").rglob("*.[ch]")):
            for function in c_functions.functions(path.read_text(encoding="utf-8")):
                name = f"{path.relative_to(ROOT / 'src')} {function.name}"
                lengths.append(function.lines)
                self.assertLessEqual(function.lines, 60, f"{name} has so many lines, line {function.line}")
                if name not in called_by_library:
                    self.assertLessEqual(function.parameters, 6, f"{name} has so many parameters, line {function.line}")
        self.assertGreater(len(lengths), 1500)
        self.assertLessEqual(statistics.median(lengths), 10)

    def test_functions_are_found(self):
        """What the test before this one counts, on a text whose functions are counted by eye."""
        text = '''#define MAKE(name_) \\
    static int name_(void) {
static const struct row rows[] = {{1, f}, {2, g}};
enum kind { ONE, TWO };
/* int in_remark(void) { */
static int two(const char *text, int (*call)(int a, int b))
{
    if (text[0] == '{' || "}"[0])
        return call(1, (int[]){2}[0]);
    return 0; }

void declared(int a, int b, int c, int d, int e, int f, int g);
int none(void) { return 1; }
__attribute__((noreturn)) void tell(const char *format, ...) { for (;;) { } }
GETTER(made)
{
    return 1;
}
'''
        found = [(f.name, f.parameters, f.line, f.lines) for f in c_functions.functions(text)]
        called = c_functions.called(text)
        self.assertLess({"call", "declared"}, called)
        self.assertFalse({"two", "in_remark"} & called)
        self.assertEqual(found, [("two", 2, 6, 5), ("none", 0, 13, 1), ("tell", 1, 14, 1), ("GETTER", 1, 15, 4)])

    def refuse_circles(self, needs):
        done, under_way = set(), []

        def visit(name):
            self.assertNotIn(name, under_way, f"a circle: {' -> '.join(under_way + [name])}")
            if name not in done:
                under_way.append(name)
                for other in sorted(needs.get(name, ())):
                    visit(other)
                done.add(under_way.pop())

        for name in sorted(needs):
            visit(name)
        return done

    def test_no_circle_of_calls(self):
        """No file calls another that calls it, however many stand between. What is called through a table of functions is not
        seen: a block may hold blocks and a sentence sentences."""
        texts = {str(p.relative_to(ROOT / "src")): p.read_text(encoding="utf-8") for p in (ROOT / "src").rglob("*.c")}
        made_in = {}
        for path, text in texts.items():
            if not path.endswith("_none.c"):
                made_in.update({f.name: path for f in c_functions.functions(text) if not f.is_static and f.name != "main"})
        self.assertGreater(len(made_in), 500)
        self.refuse_circles({path: {made_in[name] for name in c_functions.called(text) & set(made_in)} - {path} for path, text in texts.items()})
        with self.assertRaisesRegex(AssertionError, "a circle: a.c -> b.c -> c.c -> a.c"):
            self.refuse_circles({"a.c": {"b.c"}, "b.c": {"c.c", "d.c"}, "c.c": {"a.c"}})

    def test_no_circle_of_headers(self):
        needs = {}
        for path, own, _ in includes():
            if own and path.suffix == ".h":
                needs.setdefault(str(path), set()).add(own)
        self.assertGreater(len(self.refuse_circles(needs)), 80)

    def test_no_file_grows_past_reading(self):
        for path in (ROOT / "src").rglob("*.[ch]"):
            lines = path.read_text(encoding="utf-8").count("\n")
            self.assertLess(lines, 800, f"{path} has {lines} lines")

    def test_who_depends_on_a_trial_asks_for_it(self):
        """What was measured in a trial is kept by what was asked of the look: a block that reads it past block_asks would stand in the next
        trial as it was in this."""
        asked = re.compile(r"\blook->(tight|leads_in|boxes_flow|ticks_flow)\b")
        for path in (ROOT / "src").rglob("*.[ch]"):
            if str(path.relative_to(ROOT / "src")) not in ("layout/block_setters.h", "sheet/compose.c"):
                with self.subTest(path=path.name):
                    self.assertNotRegex(path.read_text(encoding="utf-8"), asked)
        self.assertRegex("if (composer->look->tight)", asked)

    def test_each_c_file_opens_with_a_line_on_its_job(self):
        for folder in ("src", "tests"):
            for path in sorted((ROOT / folder).rglob("*.c")):
                first = path.read_text(encoding="utf-8").split("\n", 1)[0]
                self.assertRegex(first, r"^/\* .{12,}", f"{path}: the first line says what the file does")

    def test_no_two_files_share_a_name(self):
        """An include, a search or a talk about a file names one file: foo.c and foo.h of one folder are one name."""
        for ending in ("[ch]", "js", "py"):
            where = {}
            for path in [*(ROOT / "src").rglob("*." + ending), *(ROOT / "tests").rglob("*." + ending)]:
                where.setdefault(path.stem, set()).add(path.parent)
            for name, folders in sorted(where.items()):
                self.assertEqual(len(folders), 1, f"'{name}' stands in {sorted(map(str, folders))}")

    def test_the_top_level_is_as_agreed(self):
        visible = {p.name for p in ROOT.iterdir() if not p.name.startswith(".")}
        self.assertEqual(visible, TOP)


if __name__ == "__main__":
    sys.stdout = sys.stderr
    unittest.main(verbosity=2)
