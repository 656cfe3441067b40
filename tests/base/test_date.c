/* Dates against published ones: leap years, ISO 8601, day numbers. */
#include "common/suite.h"
#include "base/date.h"

/* Weekdays and day counts of well-known days. Sources: ISO 8601 (weekday 1 is
 * Monday); 1970-01-01 is day 0 and a Thursday, 2000-01-01 day 10957 and a Saturday
 * (POSIX.1-2017, 4.16 "Seconds Since the Epoch": 946684800 s / 86400). */
static const struct {
    struct date date;
    long days;
    int weekday;
} known[] = {
    {{1970, 1, 1}, 0, 4},      {{1969, 12, 31}, -1, 3},  {{2000, 1, 1}, 10957, 6},
    {{2000, 2, 29}, 11016, 2}, {{2001, 9, 9}, 11574, 7}, /* 1 000 000 000 s, a Sunday */
};

START_TEST(counts_days_and_weekdays)
{
    ck_assert_int_eq(date_to_days(known[_i].date), known[_i].days);
    ck_assert_int_eq(date_weekday(known[_i].date), known[_i].weekday);
    ck_assert_int_eq(date_compare(date_from_days(known[_i].days), known[_i].date), 0);
}
END_TEST

START_TEST(every_day_for_three_centuries_follows_the_last)
{
    struct date date = {1900, 1, 1};
    int weekday = 1; /* 1 January 1900 was a Monday */
    for (long days = date_to_days(date); date.year < 2200; days++) {
        ck_assert(date_is_valid(date));
        ck_assert_int_eq(date_to_days(date), days);
        ck_assert_int_eq(date_weekday(date), weekday);
        weekday = weekday % 7 + 1;
        struct date next = date_from_days(days + 1);
        int expected_day = date.day + 1;
        if (expected_day > date_days_in_month(date.year, date.month))
            expected_day = 1;
        ck_assert_int_eq(next.day, expected_day);
        date = next;
    }
}
END_TEST

START_TEST(months_end_where_the_month_ends)
{
    static const struct {
        struct date from;
        int months;
        struct date to;
    } rows[] = {
        {{2023, 1, 31}, 1, {2023, 2, 28}},   {{2024, 1, 31}, 1, {2024, 2, 29}},
        {{2024, 2, 29}, 12, {2025, 2, 28}},  {{2025, 12, 31}, 2, {2026, 2, 28}},
        {{2026, 3, 14}, 6, {2026, 9, 14}},   {{2026, 3, 31}, -1, {2026, 2, 28}},
        {{2026, 1, 15}, -1, {2025, 12, 15}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ck_assert_int_eq(date_compare(date_add_months(rows[i].from, rows[i].months), rows[i].to),
                         0);
}
END_TEST

START_TEST(reads_only_real_dates)
{
    struct date date = {1, 2, 3};
    static const char *const bad[] = {"",           "2026",       "2026-13-01",  "2026-02-29",
                                      "2026-2-3",   "26-02-03",   "2026-02-03x", "2026/02/03",
                                      "1899-12-31", "2200-01-01", "2026-00-10"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        ck_assert_msg(!date_read(bad[i], false, &date), "%s was read", bad[i]);
    ck_assert_int_eq(date.year, 1);
    ck_assert(date_read("2024-02-29", false, &date));
    ck_assert_int_eq(date.day, 29);
    ck_assert(date_read("2022-08", true, &date));
    ck_assert_int_eq(date.day, 0);
    ck_assert_int_eq(date_to_days(date), date_to_days((struct date){2022, 8, 15}));
    char text[16];
    date_write_iso(date, text);
    ck_assert_str_eq(text, "2022-08");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("date");
    TCase *tcase = tcase_create("date");
    tcase_add_loop_test(tcase, counts_days_and_weekdays, 0, sizeof known / sizeof *known);
    tcase_add_test(tcase, every_day_for_three_centuries_follows_the_last);
    tcase_add_test(tcase, months_end_where_the_month_ends);
    tcase_add_test(tcase, reads_only_real_dates);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
