/* The values of a species sheet one by one: each has a row of what it drives, and those that a
 * clinic has confirmed are counted, with who was last. What counts as settled is README.md's:
 * published, or confirmed by the clinic and not opened again since. */
#include <string.h>

#include "base/file.h"
#include "common/own_folder.h"
#include "common/suite.h"
#include "records/species_values.h"
#include "records/value_uses.h"

#define USES PROJECT_FOLDER "/templates/value-uses.yaml"

/* ---- what a value drives -------------------------------------------------------------------- */

static const char *shipped(void)
{
    struct bytes bytes;
    ck_assert(file_read(USES, 1 << 20, &arena, &diag, &bytes));
    return arena_format(&arena, "%.*s", (int)bytes.length, bytes.data);
}

static const struct value_uses *read_uses(const char *text, const struct rule_book *rules)
{
    const char *path = file_join(&arena, folder, "value-uses.yaml");
    diag_finish(&diag);
    diag_init(&diag);
    ck_assert(file_write_atomic(path, text, strlen(text), 0600, &diag));
    return value_uses_read(path, rules, &arena, &diag);
}

/* Take out any one row: the value that it stands for is named, the first and the last too. */
START_TEST(each_value_needs_its_row)
{
    const char *whole = shipped(), *line = strstr(whole, "\nuses:\n");
    size_t count = 0;
    ck_assert_ptr_nonnull(line);
    ck_assert_ptr_nonnull(read_uses(whole, NULL));
    for (line = strchr(line + 1, '\n') + 1; strncmp(line, "  ", 2) == 0; count++) {
        const char *next = strchr(line, '\n') + 1, *key = line + 2;
        const char *without = arena_format(&arena, "%.*s%s", (int)(line - whole), whole, next);
        const int length = (int)(strchr(key, ':') - key);
        ck_assert_msg(!read_uses(without, NULL), "%.*s", length, key);
        ck_assert_str_eq(diag.first->code, "value-without-use");
        const char *named = arena_format(&arena, "'%.*s'", length, key);
        ck_assert_msg(strstr(diag.first->text, named), "%s: %s", named, diag.first->text);
        ck_assert_ptr_null(diag.first->next);
        line = next;
    }
    ck_assert_uint_ge(count, 50); /* counted low */
}
END_TEST

/* Each key of a rule's condition may be named, no other. */
START_TEST(a_condition_is_a_key_of_a_rule)
{
    const char *whole = shipped();
    const char *row = "  humidity.range: {conditions: [";
    const char *at = strstr(whole, row);
    struct rule_book rules = {0};
    ck_assert_ptr_nonnull(at);
    const char *rest = strstr(at, "], slots:");
    for (size_t i = 0; i <= rule_when_schema.field_count; i++) {
        bool is_key = i < rule_when_schema.field_count;
        const char *key = is_key ? rule_when_schema.fields[i].key : "no-such-condition";
        /* no rule is at hand, so each that is named is told too */
        ck_assert(!read_uses(
            arena_format(&arena, "%.*s%s%s%s", (int)(at - whole), whole, row, key, rest), &rules));
        size_t told = 0;
        for (const struct diag_message *m = diag.first; m; m = m->next)
            told += strcmp(m->code, "unknown-condition") == 0;
        ck_assert_msg(told == !is_key, "%s: %zu", key, told);
    }
}
END_TEST

/* `*` stands for one part or more of a key, and never for none. */
START_TEST(a_star_stands_for_a_part)
{
    static const struct {
        const char *key, *found;
    } rows[] = {{"feeding.stages.adult.meal", "feeding.stages.*.meal"},
                {"feeding.supplements.calcium.juvenile+subadult.with-uvb.per-week",
                 "feeding.supplements.*.per-week"},
                {"feeding.stages..meal", NULL},
                {"feeding.stages.meal", NULL},
                {"feeding.stages.adult.meals", NULL},
                {"feeding.adult.meal", NULL},
                {"nest.depth", "nest.depth"},
                {"nest.depths", NULL}};
    const struct value_uses *uses = read_uses(shipped(), NULL);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct value_use *use = value_uses_find(uses, rows[i].key);
        ck_assert_msg(rows[i].found ? use && strcmp(use->key.text, rows[i].found) == 0 : !use, "%s",
                      rows[i].key);
    }
}
END_TEST

/* ---- what is confirmed ---------------------------------------------------------------------- */

static struct species *sheet(void)
{
    return species_read(PROJECT_FOLDER "/species-sheets/ball-python.yaml", &arena, &diag);
}

/* Confirmations in any order of the sheet: the last day's name stands at the head. */
START_TEST(who_reviewed_last_is_named)
{
    static const struct date days[] = {{2026, 3, 2}, {2026, 3, 9}, {2025, 12, 30}};
    static const int orders[][3] = {{0, 1, 2}, {0, 2, 1}, {1, 0, 2},
                                    {1, 2, 0}, {2, 0, 1}, {2, 1, 0}};
    static const char *const names[] = {"A. Early", "B. Last", "C. First"};
    struct species *species = sheet();
    struct species_value *values;
    struct confirmation made[3];
    const size_t count = species_values(species, NULL, &arena, &values);
    const size_t places[] = {0, count / 2, count - 1};
    for (size_t k = 0; k < 3; k++) {
        const int one = orders[_i][k];
        made[k] = (struct confirmation){.by = names[one], .on = days[one]};
        *values[places[k]].confirmed = &made[k];
    }
    species_values_count(species, values, count);
    ck_assert_str_eq(species->review.by, "B. Last");
    ck_assert_int_eq(date_compare(species->review.on, days[1]), 0);
    ck_assert_uint_eq(species->review.confirmed, 3);
}
END_TEST

/* Settled are those that are published, and those confirmed that nothing has opened again. */
START_TEST(what_is_settled_and_what_is_left)
{
    struct species *species = sheet();
    struct species_value *values;
    const size_t count = species_values(species, NULL, &arena, &values);
    const struct confirmation sure = {.by = "A", .on = {2026, 1, 2}},
                              open = {.by = "A", .on = {2026, 1, 2}, .is_reopened = true};
    size_t published = 0;
    for (size_t i = 0; i < count; i++)
        published += values[i].trust != TRUST_MEMORY;
    species_values_count(species, values, count);
    ck_assert_uint_eq(species->review.founded, published);
    ck_assert_ptr_null(species->review.by);
    for (size_t i = 0; i < count; i++)
        *values[i].confirmed = i < 2 ? &open : &sure;
    species_values_count(species, values, count);
    ck_assert_uint_eq(species->review.count, count);
    ck_assert_uint_eq(species->review.reopened, 2);
    ck_assert_uint_eq(species->review.confirmed, count - 2);
    ck_assert_uint_eq(species->review.founded, count - 2);
    ck_assert_uint_eq(species->review.left, 2);
}
END_TEST

/* Whole percent, rounded down: nothing is called whole while one value is left. */
START_TEST(trust_in_percent)
{
    static const struct {
        size_t count, founded;
        int percent;
    } rows[] = {{0, 0, 0},  {1, 0, 0},   {1, 1, 100},     {3, 1, 33},
                {3, 2, 66}, {200, 1, 0}, {200, 199, 99},  {200, 200, 100},
                {50, 1, 2}, {7, 6, 85},  {1000, 999, 99}, {1000, 10, 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct species_review review = {.count = rows[i].count, .founded = rows[i].founded};
        ck_assert_int_eq(species_trust_percent(&review), rows[i].percent);
    }
}
END_TEST

static Suite *make_suite(void)
{
    Suite *suite = suite_create("values");
    TCase *tests = tcase_create("values");
    tcase_add_checked_fixture(tests, set_up_folder, tear_down_folder);
    tcase_add_test(tests, each_value_needs_its_row);
    tcase_add_test(tests, a_condition_is_a_key_of_a_rule);
    tcase_add_test(tests, a_star_stands_for_a_part);
    tcase_add_loop_test(tests, who_reviewed_last_is_named, 0, 6);
    tcase_add_test(tests, what_is_settled_and_what_is_left);
    tcase_add_test(tests, trust_in_percent);
    suite_add_tcase(suite, tests);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
