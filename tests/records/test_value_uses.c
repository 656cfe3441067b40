/* What a value of a species sheet drives: the row that stands for its key, the rules that follow
 * from it, and names that there are not. */
#include <string.h>

#include "base/file.h"
#include "common/own_folder.h"
#include "records/species_values.h"
#include "records/value_uses.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct rule rules[3];
static struct rule_book book;

static void set_up_rules(void)
{
    static const char *const names[] = {"too-warm", "too-cold", "too-dry"};
    set_up_folder();
    memset(rules, 0, sizeof rules);
    for (int i = 0; i < COUNT(rules); i++)
        rules[i].name.text = names[i];
    book = (struct rule_book){.rules = {.items = rules, .count = 3}};
}

/* ---- the row of a key
 * ---------------------------------------------------------------------------- */

START_TEST(a_star_stands_for_what_is_there)
{
    static const struct {
        const char *pattern, *key;
        bool fits;
    } rows[] = {
        {"size.adult", "size.adult", true},
        {"size.adult", "size.adults", false},
        {"size.adult", "size.adul", false},
        {"stages.*.meal", "stages.adult.meal", true},
        {"stages.*.meal", "stages.a.meal", true},
        {"stages.*.meal", "stages..meal", false}, /* nothing is no part */
        {"stages.*.meal", "stages.meal", false},
        {"stages.*.meal", "stages.adult.meals", false},
        {"stages.*.meal", "stages.adult.every", false},
        {"stages.*.meal", "places.adult.meal", false},
        {"stages.*.meal", "stages.adult.fat.meal", true},
        {"stages.*", "stages.adult", true},
        {"stages.*", "stages.", false},
        {"*.meal", "adult.meal", true},
        {"*.meal", ".meal", false},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        struct value_use use = {.key = {.text = rows[i].pattern}};
        const struct value_uses uses = {.uses = {.items = &use, .count = 1}};
        ck_assert_msg((value_uses_find(&uses, rows[i].key) == &use) == rows[i].fits, "row %d", i);
    }
}
END_TEST

START_TEST(the_first_row_that_fits_stands)
{
    struct value_use all[] = {{.key = {.text = "a.b"}},
                              {.key = {.text = "a.*"}},
                              {.key = {.text = "a.c"}},
                              {.key = {.text = "z"}}};
    const struct value_uses uses = {.uses = {.items = all, .count = 3}};
    ck_assert_ptr_eq(value_uses_find(&uses, "a.b"), &all[0]);
    ck_assert_ptr_eq(value_uses_find(&uses, "a.c"), &all[1]);
    ck_assert_ptr_null(value_uses_find(&uses, "z"));
}
END_TEST

/* ---- rules
 * --------------------------------------------------------------------------------------- */

START_TEST(a_value_drives_the_rules_that_are_named)
{
    struct text_value names[] = {{.text = "too-warm"}, {.text = "too-dry"}};
    const struct value_use use = {.rules = {.items = names, .count = 2}};
    ck_assert(value_use_drives(&use, &rules[0]));
    ck_assert(!value_use_drives(&use, &rules[1]));
    ck_assert(value_use_drives(&use, &rules[2]));
}
END_TEST

/* And those that ask for one of its conditions. */
START_TEST(a_value_drives_the_rules_that_are_judged_by_it)
{
    struct text_value keys[] = {
        {.text = "gradient"}, {.text = "no-such-key"}, {.text = "warm-side"}};
    const struct value_use use = {.conditions = {.items = keys, .count = 3}};
    struct choice_value verdict = {.known = true, .value = VERDICT_TOO_HIGH};
    const struct list asked = {.items = &verdict, .count = 1};
    ck_assert(!value_use_drives(&use, &rules[0]));
    rules[0].when.measured[MEASURE_COOL_SIDE] = asked;
    ck_assert(!value_use_drives(&use, &rules[0]));
    rules[0].when.measured[MEASURE_WARM_SIDE] = asked;
    ck_assert(value_use_drives(&use, &rules[0]));
    rules[1].when.gradient = asked;
    ck_assert(value_use_drives(&use, &rules[1]));
}
END_TEST

/* ---- reading
 * ------------------------------------------------------------------------------------- */

/* Rows before one that stands for all that is left. */
static struct value_uses *read_uses(const char *rows, const struct rule_book *of)
{
    const char *path = arena_format(&arena, "%s/uses.yaml", folder);
    const char *text = arena_format(&arena,
                                    "uses:\n%s"
                                    "source: practice\ntrust: memory\nsources: {}\n",
                                    rows);
    ck_assert(file_write_quickly(path, text, strlen(text), 0600, &diag));
    return value_uses_read(path, of, &arena, &diag);
}

static size_t told(const char *code, const char *part)
{
    size_t count = 0;
    for (const struct diag_message *m = diag.first; m; m = m->next)
        count += strcmp(m->code, code) == 0 && strstr(m->text, part) != NULL;
    return count;
}

static size_t told_at_all(void)
{
    size_t count = 0;
    for (const struct diag_message *m = diag.first; m; m = m->next)
        count++;
    return count;
}

#define THE_REST "  '*': {slots: []}\n"

START_TEST(names_that_there_are_are_taken)
{
    const struct value_uses *uses =
        read_uses("  size: {conditions: [warm-side, gradient], rules: [too-warm, too-cold, "
                  "too-dry], slots: [night.target], harm: 72}\n" THE_REST,
                  &book);
    ck_assert_ptr_nonnull(uses);
    ck_assert_uint_eq(told_at_all(), 0);
    const struct value_use *size = value_uses_find(uses, "size");
    ck_assert_uint_eq(size->conditions.count, 2);
    ck_assert_uint_eq(size->rules.count, 3);
    ck_assert_uint_eq(size->slots.count, 1);
    ck_assert_double_eq(size->harm.value, 72);
}
END_TEST

/* Each key that a rule's condition may have is one that a value may be judged by. */
START_TEST(each_key_of_a_condition_is_one)
{
    for (size_t i = 0; i < rule_when_schema.field_count; i++) {
        const char *row = arena_format(&arena, "  size: {conditions: [%s]}\n" THE_REST,
                                       rule_when_schema.fields[i].key);
        ck_assert_msg(read_uses(row, &book) != NULL, "%s", row);
    }
}
END_TEST

START_TEST(names_that_there_are_not_are_told_each)
{
    static const struct {
        const char *rows;
        size_t conditions, rules;
    } rows[] = {
        {"  size: {conditions: [chilly]}\n", 1, 0},
        {"  size: {conditions: [chilly, gradient, draughty]}\n", 2, 0},
        {"  size: {rules: [too-wet]}\n", 0, 1},
        {"  size: {rules: [too-wet, too-warm, too-loud]}\n", 0, 2},
        {"  size: {rules: [too-wet], conditions: [chilly]}\n", 1, 1},
        {"  size: {rules: [too-wet]}\n  mass: {rules: [too-warm]}\n", 0, 1},
        {"  size: {rules: [too-warm]}\n  mass: {rules: [too-wet]}\n", 0, 1},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        diag_finish(&diag);
        diag_init(&diag);
        const char *text = arena_format(&arena, "%s" THE_REST, rows[i].rows);
        ck_assert_ptr_null(read_uses(text, &book));
        ck_assert_uint_eq(told("unknown-condition", "'"), rows[i].conditions);
        ck_assert_uint_eq(told("unknown-rule", "'"), rows[i].rules);
        ck_assert_uint_eq(told_at_all(), rows[i].conditions + rows[i].rules);
    }
    ck_assert_uint_eq(told("unknown-rule", "'too-wet'"), 1);
}
END_TEST

/* Where no rules could be read, nothing is said of them. */
START_TEST(without_rules_no_name_is_looked_up)
{
    ck_assert_ptr_nonnull(read_uses("  size: {rules: [too-wet]}\n" THE_REST, NULL));
    ck_assert_uint_eq(told_at_all(), 0);
}
END_TEST

/* A value of the species sheets that nothing is said of is told by its key, and no other. */
START_TEST(a_value_without_a_row_is_told)
{
    const char **keys;
    const size_t count = species_value_keys(&arena, &keys);
    struct strbuf rows;
    strbuf_init(&rows, &arena);
    ck_assert_uint_ge(count, 20);
    for (size_t i = 1; i < count; i++)
        strbuf_addf(&rows, "  '%s': {slots: []}\n", keys[i]);
    ck_assert_ptr_null(read_uses(rows.text, &book));
    ck_assert_uint_eq(told_at_all(), 1);
    ck_assert_uint_eq(told("value-without-use", arena_format(&arena, "'%s'", keys[0])), 1);
    strbuf_addf(&rows, "  '%s': {slots: []}\n", keys[0]);
    ck_assert_ptr_nonnull(read_uses(rows.text, &book));
    ck_assert_uint_eq(told_at_all(), 1);
}
END_TEST

/* What comes with the program is whole. */
START_TEST(the_file_of_the_program_is_read)
{
    const struct rule_book *ours =
        rule_book_read(PROJECT_FOLDER "/templates/rules.yaml", &arena, &diag);
    ck_assert_ptr_nonnull(ours);
    ck_assert_ptr_nonnull(
        value_uses_read(PROJECT_FOLDER "/templates/value-uses.yaml", ours, &arena, &diag));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("value_uses");
    TCase *tcase = tcase_create("value_uses");
    tcase_add_checked_fixture(tcase, set_up_rules, tear_down_folder);
    tcase_add_test(tcase, a_star_stands_for_what_is_there);
    tcase_add_test(tcase, the_first_row_that_fits_stands);
    tcase_add_test(tcase, a_value_drives_the_rules_that_are_named);
    tcase_add_test(tcase, a_value_drives_the_rules_that_are_judged_by_it);
    tcase_add_test(tcase, names_that_there_are_are_taken);
    tcase_add_test(tcase, each_key_of_a_condition_is_one);
    tcase_add_test(tcase, names_that_there_are_not_are_told_each);
    tcase_add_test(tcase, without_rules_no_name_is_looked_up);
    tcase_add_test(tcase, a_value_without_a_row_is_told);
    tcase_add_test(tcase, the_file_of_the_program_is_read);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
