/* What each format takes, row by row: which keys must stand there, how much a list holds, from
 * where to where a number goes. A golden of the formats (formats.txt): a file that was read is
 * read, so no row moves unseen. What follows from what a quantity is, is asked besides. */
#include <string.h>

#include "base/strbuf.h"
#include "common/arena_and_diag.h"
#include "common/golden.h"
#include "common/suite.h"
#include "records/clinic.h"
#include "records/findings.h"
#include "records/instructions.h"
#include "records/mail_settings.h"
#include "records/reference_values.h"
#include "records/roster.h"
#include "records/sheet_template.h"
#include "records/species.h"
#include "records/steps.h"
#include "records/topics.h"
#include "records/unlisted.h"
#include "records/value_uses.h"
#include "records/visit.h"

static const struct schema *const formats[] = {&visit_schema,
                                               &species_schema,
                                               &finding_catalogue_schema,
                                               &sign_catalogue_schema,
                                               &rule_book_schema,
                                               &topic_catalogue_schema,
                                               &settlement_book_schema,
                                               &instruction_catalogue_schema,
                                               &step_book_schema,
                                               &reference_values_schema,
                                               &foods_schema,
                                               &clinic_schema,
                                               &mail_settings_schema,
                                               &sheet_template_schema,
                                               &look_schema,
                                               &roster_head_schema,
                                               &unlisted_animals_schema,
                                               &value_uses_schema};
enum { FORMAT_COUNT = sizeof formats / sizeof *formats, SCHEMAS_MOST = 300 };

static const struct schema *seen[SCHEMAS_MOST];
static size_t seen_count;

static bool was_seen(const struct schema *schema)
{
    for (size_t i = 0; i < seen_count; i++)
        if (seen[i] == schema)
            return true;
    ck_assert_uint_lt(seen_count, SCHEMAS_MOST);
    seen[seen_count++] = schema;
    return false;
}

static void add_row(struct strbuf *out, const struct schema *schema, const struct field *field)
{
    if (!field->required && !field->is_whole && !field->is_made && !field->has_range &&
        !field->has_likely && !field->most)
        return;
    strbuf_addf(out, "%s: %s%s%s%s", schema->name, field->key, field->required ? ", required" : "",
                field->is_whole ? ", whole" : "", field->is_made ? ", made" : "");
    if (field->has_range)
        strbuf_addf(out, ", %.10g to %.10g", field->low, field->high);
    if (field->has_likely)
        strbuf_addf(out, ", likely %.10g to %.10g", field->likely_low, field->likely_high);
    if (field->most)
        strbuf_addf(out, ", at most %zu", field->most);
    strbuf_add(out, "\n");
}

/* Each schema once, where it is met first. */
static void add_schema(struct strbuf *out, const struct schema *schema)
{
    if (was_seen(schema))
        return;
    if (schema->never_empty || schema->short_key)
        strbuf_addf(out, "%s:%s%s%s\n", schema->name, schema->never_empty ? " never empty" : "",
                    schema->short_key ? " short for " : "",
                    schema->short_key ? schema->short_key : "");
    for (size_t i = 0; i < schema->field_count; i++)
        add_row(out, schema, &schema->fields[i]);
    for (size_t i = 0; i < schema->field_count; i++)
        if (schema->fields[i].schema)
            add_schema(out, schema->fields[i].schema);
}

static const char head[] =
    "# Rows of the formats that must stand there, are whole or made, or have bounds; each schema "
    "once. A golden: the numbers were read off the\n"
    "# program and read through afterwards, so they hold that a row does not move unseen, not that "
    "it is right. tests/program/limits.txt says why of a\n"
    "# visit record's; the others bound a slip of the keys, or how long a list grows that one "
    "writes by hand (memory).\n";

START_TEST(no_row_moves_unseen)
{
    struct strbuf out;
    strbuf_init(&out, &arena);
    strbuf_add(&out, head);
    seen_count = 0;
    for (size_t i = 0; i < FORMAT_COUNT; i++)
        add_schema(&out, formats[i]);
    golden_check(TESTS_FOLDER "/records/formats.txt", out.text);
}
END_TEST

/* A share is at most all of it, a day has 24 hours, water is between its ends of pH (0 to 14),
 * nothing weighs less than nothing; no place of an animal is read below -20 C or above 90 C, a
 * stone under a lamp (memory). */
static void check_row(const char *name, const struct field *field)
{
    if (!field->has_range)
        return;
    ck_assert_msg(field->low < field->high, "%s.%s", name, field->key);
    switch (field->dimension) {
    case DIM_PERCENT:
        ck_assert_msg(field->low >= 0, "%s.%s", name, field->key);
        break;
    case DIM_HOURS:
    case DIM_MASS:
    case DIM_LENGTH:
    case DIM_DURATION:
        ck_assert_msg(field->low >= 0, "%s.%s", name, field->key);
        break;
    case DIM_TEMPERATURE:
        ck_assert_msg(field->low >= -20 && field->high <= 90, "%s.%s", name, field->key);
        break;
    default:
        break;
    }
    if (field->has_likely)
        ck_assert_msg(field->low <= field->likely_low && field->likely_low < field->likely_high,
                      "%s.%s", name, field->key);
}

START_TEST(no_row_takes_what_cannot_be)
{
    struct strbuf out;
    strbuf_init(&out, &arena);
    seen_count = 0;
    for (size_t i = 0; i < FORMAT_COUNT; i++)
        add_schema(&out, formats[i]);
    ck_assert_uint_gt(seen_count, 50);
    for (size_t i = 0; i < seen_count; i++)
        for (size_t k = 0; k < seen[i]->field_count; k++)
            check_row(seen[i]->name, &seen[i]->fields[k]);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("formats");
    TCase *own = tcase_create("formats");
    tcase_add_checked_fixture(own, set_up, tear_down);
    tcase_set_timeout(own, 30);
    tcase_add_test(own, no_row_moves_unseen);
    tcase_add_test(own, no_row_takes_what_cannot_be);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
