/* YAML to trees: places, kinds of scalar, bounds. */
#include <string.h>

#include "common/suite.h"
#include "common/arena_and_diag.h"
#include "base/strbuf.h"
#include "yaml/tree.h"

static struct node *read_text(const char *text)
{
    return tree_read_bytes("t.yaml", (struct bytes){text, strlen(text)}, &arena, &diag);
}

START_TEST(keeps_the_place_of_every_value)
{
    const struct node *tree = read_text("a: 1\nlist:\n  - x\n  - {k: 'v'}\n");
    ck_assert_ptr_nonnull(tree);
    const struct node *list = tree_find(tree, "list");
    ck_assert_int_eq(list->kind, NODE_LIST);
    ck_assert_uint_eq(list->count, 2);
    ck_assert_int_eq(list->items[0]->at.line, 3);
    ck_assert_int_eq(list->items[0]->at.column, 5);
    const struct node *v = tree_find(list->items[1], "k");
    ck_assert_str_eq(v->text, "v");
    ck_assert(!v->is_plain);
    ck_assert_int_eq(v->at.line, 4);
    ck_assert_int_eq(v->at.column, 9);
}
END_TEST

/* JSON is YAML: a practice system can pipe its own in. */
START_TEST(reads_json)
{
    const struct node *tree = read_text("{\"patient\": {\"name\": \"Bis\\u00e9cuit\"}}");
    ck_assert_str_eq(tree_find(tree_find(tree, "patient"), "name")->text, "Bisécuit");
}
END_TEST

/* RFC 8259, section 7: "a string containing only the G clef character (U+1D11E) may be represented
 * as "\uD834\uDD1E"". In double quotes alone; what stands behind keeps its place. */
START_TEST(joins_the_two_escapes_of_one_character)
{
    const struct node *tree = read_text("{\"clef\": \"\\uD834\\uDD1E!\", \"two\": \"\\ud83e\\udd8e "
                                        "\\ud83d\\udc0d\\n\", \"next\": [1]}");
    ck_assert_str_eq(tree_find(tree, "clef")->text, "\U0001D11E!");
    ck_assert_str_eq(tree_find(tree, "two")->text, "\U0001F98E \U0001F40D\n");
    ck_assert_int_eq(tree_find(tree, "next")->at.line, 1);
    ck_assert_int_eq(tree_find(tree, "next")->at.column, 73);
    tree = read_text("a: \\ud83e\\udd8e\nb: '\\ud83e\\udd8e'\nc: \"\\\\ud83e\\\\udd8e "
                     "é\\ud83e\\udd8e\" # x\nd: [1]\n");
    ck_assert_str_eq(tree_find(tree, "a")->text, "\\ud83e\\udd8e");
    ck_assert_str_eq(tree_find(tree, "b")->text, "\\ud83e\\udd8e");
    ck_assert_str_eq(tree_find(tree, "c")->text, "\\ud83e\\udd8e é\U0001F98E");
    ck_assert_int_eq(tree_find(tree, "d")->at.line, 4);
    ck_assert_int_eq(tree_find(tree, "d")->at.column, 4);
}
END_TEST

static const struct {
    const char *text;
    const char *code;
    int line;
} bad_rows[] = {
    {"a: b\nc: \"\\ud83e\"\n", "yaml-syntax", 2},
    {"a: \"\\udd8e\\ud83e\"\n", "yaml-syntax", 1},
    {"a: \"\\ud83e\\udd8e\"\nb: \"\\ud83e\\u0041\"\n", "yaml-syntax", 2},
    {"", "empty-file", 1},
    {"# only a comment\n", "empty-file", 1},
    {"~\n", "empty-file", 1},
    {"a: [1, 2\n", "yaml-syntax", 2},
    {"a: 1\na: 2\n", "double-key", 2},
    {"a: 1\n---\nb: 2\n", "second-document", 2},
    {"a: *nothing\n", "unknown-anchor", 1},
    {"a: &x [*x]\n", "unknown-anchor", 1},
    {"a: \"x\\0y\"\n", "control-character", 1},
    {"a: \"x\\e[2Jy\"\n", "control-character", 1},
    {"? [1]\n: 2\n", "key-not-text", 1},
    {"a: \xff\xfe\n", "not-text", 1},
    {"a: b\nc: \xff\n", "not-text", 2},
};

START_TEST(refuses_with_place)
{
    ck_assert_ptr_null(read_text(bad_rows[_i].text));
    ck_assert_ptr_nonnull(diag.first);
    ck_assert_str_eq(diag.first->code, bad_rows[_i].code);
    ck_assert_int_eq(diag.first->at.line, bad_rows[_i].line);
}
END_TEST

START_TEST(bounds_depth)
{
    struct strbuf text;
    strbuf_init(&text, &arena);
    for (int i = 0; i < 1000; i++)
        strbuf_add(&text, "[");
    ck_assert_ptr_null(read_text(text.text));
    ck_assert_str_eq(diag.first->code, "too-deep");
}
END_TEST

START_TEST(bounds_depth_through_aliases)
{
    struct strbuf text;
    strbuf_init(&text, &arena);
    strbuf_add(&text, "a0: &a0 [x]\n");
    for (int i = 1; i < 40; i++)
        strbuf_addf(&text, "a%d: &a%d [*a%d]\n", i, i, i - 1);
    ck_assert_ptr_null(read_text(text.text));
    ck_assert_str_eq(diag.first->code, "too-deep");
    /* a30 is 31 lists under the mapping: the first beyond TREE_DEPTH_LIMIT is a31 */
    ck_assert_int_eq(diag.first->at.line, 32);
}
END_TEST

START_TEST(bounds_aliases_that_multiply)
{
    struct strbuf text;
    strbuf_init(&text, &arena);
    strbuf_add(&text, "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
    for (int i = 1; i < 12; i++) {
        strbuf_addf(&text, "a%d: &a%d [", i, i);
        for (int k = 0; k < 10; k++)
            strbuf_addf(&text, "%s*a%d", k ? ", " : "", i - 1);
        strbuf_add(&text, "]\n");
    }
    ck_assert_ptr_null(read_text(text.text));
    ck_assert_str_eq(diag.first->code, "too-many-nodes");
    ck_assert_uint_lt(arena.used_bytes, 4 * 1024 * 1024);
}
END_TEST

START_TEST(anchors_within_bounds_are_fine)
{
    const struct node *tree = read_text("a: &x {k: v}\nb: *x\n");
    ck_assert_ptr_nonnull(tree);
    ck_assert_str_eq(tree_find(tree_find(tree, "b"), "k")->text, "v");
}
END_TEST

START_TEST(all_faults_of_content_in_one_run)
{
    ck_assert_ptr_null(read_text("a: 1\na: 2\nb: 3\nb: 4\n"));
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], 2);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tree");
    TCase *tcase = tcase_create("tree");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, keeps_the_place_of_every_value);
    tcase_add_test(tcase, reads_json);
    tcase_add_test(tcase, joins_the_two_escapes_of_one_character);
    tcase_add_loop_test(tcase, refuses_with_place, 0, sizeof bad_rows / sizeof *bad_rows);
    tcase_add_test(tcase, bounds_depth);
    tcase_add_test(tcase, bounds_depth_through_aliases);
    tcase_add_test(tcase, bounds_aliases_that_multiply);
    tcase_add_test(tcase, anchors_within_bounds_are_fine);
    tcase_add_test(tcase, all_faults_of_content_in_one_run);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
