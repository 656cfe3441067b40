/* What French asks of numbers and dates beyond other words: one for less than two, a decimal comma,
 * the first of a month. Expected texts by the rules of French typography, from memory. */
#include "common/suite.h"
#include "words/format.h"
#include "words/format_opening.h"
#include "words/wording.h"

static struct arena arena;
static struct diag diag;
static struct format format;

static void set_up(void)
{
    arena_init(&arena);
    diag_init(&diag);
    const struct wording *words =
        wording_read(PROJECT_FOLDER "/templates/wording", "fr", NULL, &arena, &diag);
    ck_assert_ptr_nonnull(words);
    format = (struct format){words, UNITS_METRIC, &arena, &diag, 0, false};
}

static void tear_down(void)
{
    diag_finish(&diag);
    arena_finish(&arena);
}

START_TEST(less_than_two_is_one)
{
    ck_assert_str_eq(format_hours(&format, 0), "0\u00A0heure");
    ck_assert_str_eq(format_hours(&format, 0.5), "0,5\u00A0heure");
    ck_assert_str_eq(format_hours(&format, 1), "1\u00A0heure");
    ck_assert_str_eq(format_hours(&format, 1.5), "1,5\u00A0heure");
    ck_assert_str_eq(format_hours(&format, 2), "2\u00A0heures");
    ck_assert_str_eq(format_amount(&format, 0.5, UNIT_DROP), "0,5\u00A0goutte");
    ck_assert_str_eq(format_amount(&format, 3, UNIT_DROP), "3\u00A0gouttes");
    ck_assert_str_eq(format_days(&format, 10, 12), "10–12\u00A0jours");
    ck_assert_str_eq(format_days(&format, 14, 14), "2\u00A0semaines");
}
END_TEST

START_TEST(a_comma_parts_the_decimals)
{
    ck_assert_str_eq(format_temp(&format, 26.5), "26,5\u00A0°C");
    ck_assert_str_eq(format_number(&format, -1234.5, 1), "−1234,5");
    ck_assert_str_eq(format_percent(&format, 70), "70\u00A0%");
}
END_TEST

START_TEST(the_first_of_a_month_is_an_ordinal)
{
    ck_assert_str_eq(format_date_long(&format, (struct date){2026, 3, 20}),
                     "vendredi 20\u00A0mars 2026");
    ck_assert_str_eq(format_date_long(&format, (struct date){2026, 3, 1}),
                     "dimanche 1er\u00A0mars 2026");
    ck_assert_str_eq(format_date_short(&format, (struct date){2026, 3, 1}), "1er\u00A0mars\u00A0"
                                                                            "2026");
    ck_assert_str_eq(format_date_day(&format, (struct date){2026, 12, 1}), "mar 1er\u00A0déc");
    ck_assert_str_eq(format_date_day(&format, (struct date){2026, 12, 11}), "ven 11\u00A0déc");
}
END_TEST

START_TEST(a_time_of_day_has_its_h)
{
    struct opening opening = {.is_known = true};
    for (int day = 0; day < 5; day++)
        opening.days[day] = (struct opening_day){.spans = {{8 * 60, 18 * 60 + 30}}, .count = 1};
    ck_assert_str_eq(format_opening(&format, &opening), "lun à ven\u00A0"
                                                        "8\u00A0h\u00A0"
                                                        "00–18\u00A0h\u00A0"
                                                        "30");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("french");
    TCase *own = tcase_create("french");
    tcase_add_checked_fixture(own, set_up, tear_down);
    tcase_add_test(own, less_than_two_is_one);
    tcase_add_test(own, a_comma_parts_the_decimals);
    tcase_add_test(own, the_first_of_a_month_is_an_ordinal);
    tcase_add_test(own, a_time_of_day_has_its_h);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
