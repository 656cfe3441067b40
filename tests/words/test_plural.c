/* Plural rules as the Unicode CLDR writes them, on the samples that it gives with them. */
#include <string.h>

#include "common/suite.h"
#include "words/plural.h"

static struct arena arena;

static void set_up(void)
{
    arena_init(&arena);
}

static void tear_down(void)
{
    arena_finish(&arena);
}

/* Rules and samples: Unicode CLDR 44, supplemental/plurals.xml, from memory; an independent
 * implementation is asked over a grid in plural_compare.mjs. */
static const struct {
    enum plural plural;
    const char *rule;
    double fitting[6], others[6]; /* ended by -1 */
} rows[] = {
    /* English, German, Italian */
    {PLURAL_ONE, "i = 1 and v = 0 @integer 1", {1, -1}, {0, 2, 11, 1.5, -1}},
    /* Spanish */
    {PLURAL_ONE, "n = 1", {1, -1}, {0, 2, 21, 1.5, -1}},
    /* French, Portuguese */
    {PLURAL_ONE, "i = 0,1", {0, 1, 1.5, -1}, {2, 17, 100, -1}},
    /* Russian, Ukrainian */
    {PLURAL_ONE, "v = 0 and i % 10 = 1 and i % 100 != 11", {1, 21, 101, -1}, {0, 11, 111, -1}},
    {PLURAL_FEW,
     "v = 0 and i % 10 = 2..4 and i % 100 != 12..14",
     {2, 4, 22, 102, -1},
     {0, 5, 12, 14, 112, -1}},
    {PLURAL_MANY,
     "v = 0 and i % 10 = 0 or v = 0 and i % 10 = 5..9 or v = 0 and i % 100 = 11..14",
     {0, 5, 11, 19, 100, -1},
     {1, 2, 21, 1.5, -1}},
    /* Polish */
    {PLURAL_MANY,
     "v = 0 and i != 1 and i % 10 = 0..1 or v = 0 and i % 10 = 5..9 or v = 0 and i % 100 = 12..14",
     {0, 5, 13, 21, 100, -1},
     {1, 2, 22, -1}},
    /* Arabic */
    {PLURAL_TWO, "n = 2", {2, -1}, {1, 3, 12, -1}},
    {PLURAL_FEW, "n % 100 = 3..10", {3, 10, 103, -1}, {2, 11, 100, -1}},
    {PLURAL_MANY, "n % 100 = 11..99", {11, 26, 111, -1}, {10, 100, 102, -1}},
};

START_TEST(numbers_fall_where_the_cldr_puts_them)
{
    const char *wrong = NULL;
    struct plural_rules rules = {0};
    rules.conditions[rows[_i].plural] = plural_parse(rows[_i].rule, &arena, &wrong);
    ck_assert_msg(rules.conditions[rows[_i].plural] != NULL, "not read at '%s'", wrong);
    for (const double *n = rows[_i].fitting; *n >= 0; n++)
        ck_assert_msg(plural_choose(&rules, *n) == rows[_i].plural, "%g", *n);
    for (const double *n = rows[_i].others; *n >= 0; n++)
        ck_assert_msg(plural_choose(&rules, *n) == PLURAL_OTHER, "%g", *n);
}
END_TEST

static const struct {
    const char *text, *wrong;
} broken[] = {
    {"", ""},
    {"n", "n"},
    {"exactly one", "exactly one"},
    {"x = 1", "x = 1"},
    {"n = 1 und v = 0", "und v = 0"},
    {"n % 0 = 1", "n % 0 = 1"},
    {"n = 1..", "n = 1.."},
    {"n = 1 and", ""},
    {"n = 1,", "n = 1,"},
    {"n = 12345678901", "n = 12345678901"},
};

START_TEST(what_is_no_rule_is_refused_where_it_fails)
{
    const char *wrong = NULL;
    ck_assert_ptr_null(plural_parse(broken[_i].text, &arena, &wrong));
    ck_assert_str_eq(wrong + strspn(wrong, " "), broken[_i].wrong + strspn(broken[_i].wrong, " "));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("plural");
    TCase *tests = tcase_create("plural");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, numbers_fall_where_the_cldr_puts_them, 0,
                        sizeof rows / sizeof *rows);
    tcase_add_loop_test(tests, what_is_no_rule_is_refused_where_it_fails, 0,
                        sizeof broken / sizeof *broken);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
