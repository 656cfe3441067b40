/* Rows of a list that a shelter wrote, as the records that they become. CSV by RFC 4180; years and
 * months by the calendar. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/strbuf.h"
#include "common/own_folder.h"
#include "common/suite.h"
#include "records/roster.h"

static const struct date today = {2026, 3, 20};
static void dump(struct strbuf *out, const struct node *node)
{
    if (node->kind == NODE_SCALAR) {
        strbuf_add(out, node->text);
        return;
    }
    strbuf_add(out, node->kind == NODE_MAP ? "{" : "[");
    for (size_t i = 0; i < node->count; i++) {
        strbuf_addf(out, "%s%s%s", i ? ", " : "", node->kind == NODE_MAP ? node->keys[i]->text : "",
                    node->kind == NODE_MAP ? ": " : "");
        dump(out, node->items[i]);
    }
    strbuf_add(out, node->kind == NODE_MAP ? "}" : "]");
}

/* Each row's record on a line of its own, "-" for one that is refused. */
static const char *records_of(const char *name, const char *text)
{
    struct roster roster;
    struct roster_row row;
    struct strbuf out;
    const char *path = file_join(&arena, folder, name);
    diag_finish(&diag);
    diag_init(&diag);
    strbuf_init(&out, &arena);
    strbuf_add(&out, "");
    ck_assert(file_write_atomic(path, text, strlen(text), 0600, &diag));
    if (!roster_open(&roster, path, &diag))
        strbuf_add(&out, "not opened");
    else
        for (size_t number = 1;; number++) {
            row = (struct roster_row){0};
            enum roster_step step = roster_next(&roster, &arena, &diag, &row);
            if (step != ROSTER_ROW) {
                strbuf_add(&out, step == ROSTER_BROKEN ? "broken" : "");
                break;
            }
            ck_assert_uint_eq(row.number, number);
            const struct node *tree = roster_row_tree(&roster, &row, today, &arena, &diag);
            if (tree)
                dump(&out, tree);
            strbuf_add(&out, tree ? "\n" : "-\n");
        }
    roster_close(&roster);
    return out.text ? out.text : "";
}

#define VISIT "visit: {date: 2026-03-20, kind: adoption}"
#define PATIENT "patient: {name: A, species: b"

static const struct {
    const char *title, *cell,
        *record; /* a column beside name and species; NULL: the row is refused */
} cells[] = {
    {"mass", "12 g", "{" VISIT ", " PATIENT ", mass: 12 g}}"},
    {"mass (kg)", "1.2", "{" VISIT ", " PATIENT ", mass: 1.2 kg}}"},
    {"mass (kg)", "12 g", "{" VISIT ", " PATIENT ", mass: 12 g}}"},
    {"# ours", "12", "{" VISIT ", " PATIENT "}}"},
    {"findings", "burn", "{" VISIT ", " PATIENT "}, findings: [{code: burn}]}"},
    {"findings", "  burn:mild;mouth | thin:severe",
     "{" VISIT ", " PATIENT
     "}, findings: [{severity: mild, code: burn}, {code: mouth}, {severity: severe, code: thin}]}"},
    {"findings", "\" burn:mild, mouth\n\"",
     "{" VISIT ", " PATIENT "}, findings: [{severity: mild, code: burn}, {code: mouth}]}"},
    {"findings", "", "{" VISIT ", " PATIENT "}}"},
    {"date", "2026-03-01",
     "{"
     "visit: {kind: adoption, date: 2026-03-01}, " PATIENT "}}"},
    {"kind", "checkout",
     "{"
     "visit: {date: 2026-03-20, kind: checkout}, " PATIENT "}}"},
    /* an age in months or years gives a month, in weeks or days a day */
    {"age", "8 months", "{" VISIT ", " PATIENT ", hatched: 2025-07}}"},
    {"age", "2 years", "{" VISIT ", " PATIENT ", hatched: 2024-03}}"},
    {"age", "10 days", "{" VISIT ", " PATIENT ", hatched: 2026-03-10}}"},
    {"age", "2 weeks", "{" VISIT ", " PATIENT ", hatched: 2026-03-06}}"},
    {"age", "200 years", "{" VISIT ", " PATIENT ", hatched: 1826-03}}"},
    {"age", "201 years", NULL},
    {"age", "old", NULL},
    {"hatched", "2025", "{" VISIT ", " PATIENT ", hatched: 2025}}"},
};

START_TEST(a_cell_stands_in_its_place_of_the_record)
{
    const char *text =
        arena_format(&arena, "name,species,%s\nA,b,%s\n", cells[_i].title, cells[_i].cell);
    const char *record = records_of("list.csv", text);
    ck_assert_str_eq(record,
                     cells[_i].record ? arena_format(&arena, "%s\n", cells[_i].record) : "-\n");
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], !cells[_i].record);
}
END_TEST

/* A row that cannot be read costs itself alone, and is told where it stands. */
static const struct {
    const char *text, *records, *code;
    int line, column;
} files[] = {
    {"name,species\nA,b\nC,d\n",
     "{" VISIT ", " PATIENT "}}\n{" VISIT ", patient: {name: C, species: d}}\n", NULL, 0, 0},
    {"name,species\r\nA,b\r\n\r\n , \r\nC,d", "{" VISIT ", " PATIENT "}}\n", NULL, 0, 0},
    {"name;species\nA;b\n", "{" VISIT ", " PATIENT "}}\n", NULL, 0, 0},
    {"name\tspecies\rA\tb\r", "{" VISIT ", " PATIENT "}}\n", NULL, 0, 0},
    {"\"name\",\"species\"\n\"A\",\"b\"\n", "{" VISIT ", " PATIENT "}}\n", NULL, 0, 0},
    {"name,species,\nA,b,c\nA,b\n", "-\n{" VISIT ", " PATIENT "}}\n", "too-many-cells", 2, 3},
    {"name,species\nA,b,c\nA,b\n", "-\n{" VISIT ", " PATIENT "}}\n", "too-many-cells", 2, 3},
    {"name,species\nA,b,\nA,b\n", "{" VISIT ", " PATIENT "}}\n{" VISIT ", " PATIENT "}}\n", NULL, 0,
     0},
    {"name,species\nA\nA,b\n", "-\n{" VISIT ", " PATIENT "}}\n", "missing-cell", 2, 1},
    {"name,species\n,b\nA,b\n", "-\n{" VISIT ", " PATIENT "}}\n", "missing-cell", 2, 1},
    {"name,species\n\"A,b\nA,b\n", "-\n{" VISIT ", " PATIENT "}}\n", "open-quote", 2, 0},
    {"name,species,age,hatched\nA,b,2 years,2024\n", "-\n", "bad-age", 2, 3},
    {"name,name,species\nA,A,b\n", "not opened", "column-twice", 1, 2},
    {"name,mass\nA,1 g\n", "not opened", "missing-column", 1, 1},
    {"", "not opened", "empty-roster", 1, 0},
};

START_TEST(a_bad_row_costs_itself_alone)
{
    const char *records = records_of("list.csv", files[_i].text);
    if (_i == 1) /* the last line has no end */
        ck_assert_str_eq(records,
                         arena_format(&arena, "%s{" VISIT ", patient: {name: C, species: d}}\n",
                                      files[_i].records));
    else
        ck_assert_msg(strcmp(records, files[_i].records) == 0, "%s: %s %s", files[_i].text, records,
                      diag.first ? diag.first->text : "");
    if (!files[_i].code) {
        ck_assert_msg(!diag.first, "%s", diag.first->text);
        return;
    }
    ck_assert_str_eq(diag.first->code, files[_i].code);
    ck_assert_int_eq(diag.first->at.line, files[_i].line);
    ck_assert(files[_i].column == 0 || diag.first->at.column == files[_i].column);
}
END_TEST

/* What holds for all rows stands where a row says nothing; a row's own word wins. */
START_TEST(what_holds_for_all_is_a_rows_unless_it_says_otherwise)
{
    static const char text[] =
        "roster: {date: 2026-03-18, kind: checkout, veterinarian: V, language: es, units: us}\n"
        "animals:\n"
        "  - {name: A, species: b}\n"
        "  - {name: C, species: d, date: 2026-03-19, kind: email, veterinarian: W, language: fr, "
        "units: metric, age: 1 month}\n";
    ck_assert_str_eq(records_of("list.yaml", text),
                     "{visit: {date: 2026-03-18, kind: checkout, veterinarian: V}, keeper: "
                     "{language: es, units: us}, " PATIENT "}}\n"
                     "{visit: {date: 2026-03-19, kind: email, veterinarian: W}, patient: {name: C, "
                     "species: d, hatched: 2026-02}, keeper: {language: fr, units: metric}}\n");
    ck_assert_ptr_null(diag.first);
}
END_TEST

START_TEST(a_box_stands_once)
{
    ck_assert_str_eq(
        records_of("list.yaml",
                   "animals: [{name: A, species: b, humidity: 50 %, enclosure: {hides: 2}}]\n"),
        "-\n");
    ck_assert_str_eq(diag.first->code, "box-twice");
    records_of("list.yaml", "animals: [{name: A, species: b, humidity: 50 %}]\n");
    ck_assert_ptr_null(diag.first);
    records_of("list.yaml", "animals: [{name: A, species: b, enclosure: {hides: 2}}]\n");
    ck_assert_ptr_null(diag.first);
}
END_TEST

START_TEST(sixty_findings_at_most)
{
    const char *text = "name,species,findings\nA,b,";
    for (int i = 0; i < 61; i++)
        text = arena_format(&arena, "%sf%d ", text, i);
    const char *record = records_of("list.csv", arena_format(&arena, "%s\n", text));
    ck_assert_ptr_nonnull(strstr(record, "{code: f59}]"));
    ck_assert_ptr_null(strstr(record, "f60"));
}
END_TEST

START_TEST(a_file_is_a_roster_by_its_name_or_its_keys)
{
    static const struct {
        const char *path;
        bool csv;
    } rows[] = {{"a.csv", true},   {"a.CSV", true}, {"a.tsv", true},      {"a.txt", true},
                {"a.yaml", false}, {"csv", false},  {"a.csv.yaml", false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ck_assert_msg(roster_is_csv(rows[i].path) == rows[i].csv, "%s", rows[i].path);
    static const char *const trees[] = {"roster: {}\n", "animals: []\n", "visit: {}\n"};
    for (size_t i = 0; i < 3; i++)
        ck_assert_int_eq(roster_is_tree(tree_read_bytes(
                             "a", (struct bytes){trees[i], strlen(trees[i])}, &arena, &diag)),
                         i < 2);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("roster");
    TCase *own = tcase_create("roster");
    tcase_add_checked_fixture(own, set_up_folder, tear_down_folder);
    tcase_set_timeout(own, 30);
    tcase_add_loop_test(own, a_cell_stands_in_its_place_of_the_record, 0,
                        sizeof cells / sizeof *cells);
    tcase_add_loop_test(own, a_bad_row_costs_itself_alone, 0, sizeof files / sizeof *files);
    tcase_add_test(own, what_holds_for_all_is_a_rows_unless_it_says_otherwise);
    tcase_add_test(own, a_box_stands_once);
    tcase_add_test(own, sixty_findings_at_most);
    tcase_add_test(own, a_file_is_a_roster_by_its_name_or_its_keys);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
