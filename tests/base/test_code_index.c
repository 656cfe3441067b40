/* The index of dotted codes: the longest code that a key is or begins with, part by part. */
#include <stdint.h>

#include "common/suite.h"
#include "base/code_index.h"

static const char *const codes[] = {"action.bath", "action.bath.daily", "sign.limp", "a"};

static const struct {
    const char *key;
    size_t place;
} rows[] = {
    {"action.bath", 0},
    {"action.bath.how", 0},
    {"action.bath.daily.how", 1},
    {"action.bath.dailyness", 0},
    {"action.bathe", SIZE_MAX},
    {"action", SIZE_MAX},
    {"sign.limp.worse", 2},
    {"", SIZE_MAX},
    {"a", 3},
    {"a.b.c", 3},
};

START_TEST(the_longest_code_is_found)
{
    struct arena arena;
    arena_init(&arena);
    const struct code_index index = code_index_make(codes, sizeof codes / sizeof *codes, &arena);
    ck_assert_uint_eq(code_index_find(&index, rows[_i].key), rows[_i].place);
    const struct code_index none = code_index_make(codes, 0, &arena);
    ck_assert_uint_eq(code_index_find(&none, rows[_i].key), SIZE_MAX);
    arena_finish(&arena);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("code_index");
    TCase *tcase = tcase_create("code_index");
    tcase_add_loop_test(tcase, the_longest_code_is_found, 0, sizeof rows / sizeof *rows);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
