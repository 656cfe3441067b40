/* A letter that the fonts lack is told as itself, at its place, whatever stands before it. Here the
 * fonts know ASCII alone. */
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "render/drawable.h"
#include "yaml/tree.h"

static bool is_ascii(const struct measure *self, enum text_style style, unsigned code_point)
{
    (void)self;
    (void)style;
    return code_point < 0x80;
}

static bool check(const char *yaml, const char *passed_over)
{
    const struct measure ascii = {.has_glyph = is_ascii};
    const struct node *tree =
        tree_read_bytes("x.yaml", (struct bytes){yaml, strlen(yaml)}, &arena, &diag);
    ck_assert_ptr_nonnull(tree);
    return drawable_check(tree, &ascii, passed_over, &diag);
}

/* U+00E9 is C3 A9, U+6C49 E6 B1 89, U+1F98E F0 9F A6 8E (RFC 3629). */
static const struct {
    const char *yaml, *letter, *code;
    int line;
} rows[] = {
    {"name: \xC3\xA9mile\n", "'\xC3\xA9'", "(U+00E9)", 1},
    {"name: Em\xC3\xA9\n", "'\xC3\xA9'", "(U+00E9)", 1},
    {"of: it\nname: a long text before \xE6\xB1\x89 and behind\n", "'\xE6\xB1\x89'", "(U+6C49)", 2},
    {"a: [one, two, \xF0\x9F\xA6\x8E]\n", "'\xF0\x9F\xA6\x8E'", "(U+1F98E)", 1},
};

START_TEST(the_letter_is_named)
{
    ck_assert(!check(rows[_i].yaml, NULL));
    ck_assert_str_eq(diag.first->code, "no-glyph");
    ck_assert_int_eq(diag.first->at.line, rows[_i].line);
    ck_assert_msg(strstr(diag.first->text, rows[_i].letter) &&
                      strstr(diag.first->text, rows[_i].code),
                  "%s", diag.first->text);
    ck_assert_ptr_null(diag.first->next);
}
END_TEST

/* One of each text; not the keys, nor what is replaced, nor what is passed over. */
START_TEST(each_text_and_nothing_else)
{
    ck_assert(check("name: plain\nother: [a, b]\n", NULL));
    ck_assert(check("k\xC3\xA9y: plain\nin-latin: {\xE6\xB1\x89: han}\n", NULL));
    ck_assert(check("text-\xC3\xA9: a\nsigned: {by: \xC3\xA9}\nsigned-off: \xC3\xA9\n", "signed"));
    ck_assert_ptr_null(diag.first);
    ck_assert(!check("a: \xC3\xA9\xC3\xA8\nb: [x, \xC3\xA9]\nsigned: \xC3\xA9\n", "sealed"));
    size_t told = 0;
    for (const struct diag_message *m = diag.first; m; m = m->next)
        told++;
    ck_assert_uint_eq(told, 3);
}
END_TEST

static Suite *make_suite(void)
{
    Suite *suite = suite_create("drawable");
    TCase *tests = tcase_create("drawable");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, the_letter_is_named, 0, (int)(sizeof rows / sizeof *rows));
    tcase_add_test(tests, each_text_and_nothing_else);
    suite_add_tcase(suite, tests);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
