/* The clinic's hours and holidays: what is read, what is refused, which days are closed. */
#include <string.h>

#include "common/suite.h"
#include "common/arena_and_diag.h"
#include "records/clinic.h"

#define REST                                                                                       \
    "name: Pond Lane Vets\ntelephone: 555-0171\nout-of-hours: 555-0172\nlanguage: en\n"            \
    "units: metric\npaper: a4\n"

static const struct clinic *read_hours(const char *lines)
{
    const char *text = arena_format(&arena, "%s%s", REST, lines);
    return clinic_read_bytes("c.yaml", (struct bytes){text, strlen(text)}, &arena, &diag);
}

/* By the calendar: 21 December 2026 is a Monday, 25 December a Friday. */
static bool is_closed(const struct clinic *clinic, int year, int month, int day)
{
    return opening_is_closed(&clinic->opening, (struct date){year, month, day});
}

START_TEST(knows_closed_days)
{
    const struct clinic *c =
        read_hours("hours: {mon-fri: [\"8:00-12:30\", \"14:00-18:00\"], sat: 9:00-13:00}\n"
                   "holidays: [{from: 2026-12-30, to: 2027-01-02}, 2026-12-25]\n");
    ck_assert_ptr_nonnull(c);
    ck_assert(!is_closed(c, 2026, 12, 21));
    ck_assert(!is_closed(c, 2026, 12, 26));
    ck_assert(is_closed(c, 2026, 12, 27));
    ck_assert(is_closed(c, 2026, 12, 25));
    ck_assert(!is_closed(c, 2026, 12, 29));
    ck_assert(is_closed(c, 2026, 12, 30));
    ck_assert(is_closed(c, 2027, 1, 2));
    ck_assert(!is_closed(c, 2027, 1, 4));
    ck_assert_uint_eq(c->opening.days[0].count, 2);
    ck_assert_int_eq(c->opening.days[0].spans[0].to_minute, 12 * 60 + 30);
    ck_assert_uint_eq(c->opening.days[6].count, 0);
}
END_TEST

/* Its hours of the day: the first minute of each span is among them, its end is not. */
START_TEST(knows_hours_of_a_day)
{
    const struct clinic *c =
        read_hours("hours: {mon-fri: [\"8:00-12:30\", \"14:00-18:00\"], sat: 9:00-13:00}\n"
                   "holidays: [2026-12-25]\n");
    static const struct {
        int day, hour, minute;
        bool open;
    } rows[] = {{21, 7, 59, false}, {21, 8, 0, true},   {21, 12, 29, true},  {21, 12, 30, false},
                {21, 13, 0, false}, {21, 14, 0, true},  {21, 17, 59, true},  {21, 18, 0, false},
                {26, 8, 30, false}, {26, 12, 59, true}, {26, 15, 30, false}, {27, 10, 0, false},
                {25, 10, 0, false}, {24, 10, 0, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ck_assert_msg(opening_is_open_at(&c->opening, (struct date){2026, 12, rows[i].day},
                                         rows[i].hour * 60 + rows[i].minute) == rows[i].open,
                      "row %zu", i);
    const struct clinic *unknown = read_hours("holidays: [2026-12-27]\n");
    ck_assert(opening_is_open_at(&unknown->opening, (struct date){2026, 12, 26}, 3 * 60));
    ck_assert(!opening_is_open_at(&unknown->opening, (struct date){2026, 12, 27}, 10 * 60));
}
END_TEST

START_TEST(free_lines_are_kept_and_close_nothing)
{
    const struct clinic *c = read_hours("hours: [Monday to Friday 8 to 6, Saturday 9 to 1]\n");
    ck_assert_ptr_nonnull(c);
    ck_assert_uint_eq(c->hours_text.count, 2);
    ck_assert_str_eq(LIST_AT(c->hours_text, struct text_value, 1)->text, "Saturday 9 to 1");
    ck_assert(!is_closed(c, 2026, 12, 27));
    ck_assert_ptr_null(diag.first);
}
END_TEST

START_TEST(nothing_said_is_never_closed)
{
    ck_assert(!is_closed(read_hours(""), 2026, 12, 27));
    ck_assert(is_closed(read_hours("holidays: [2026-12-27]\n"), 2026, 12, 27));
}
END_TEST

/* Midnight is 24:00, 59 the last minute of an hour, and an afternoon may begin where the morning
 * ends. */
START_TEST(takes_the_ends_of_what_may_be)
{
    const struct clinic *c = read_hours("hours: {mon: [\"0:00-8:59\", \"8:59-24:00\"]}\n");
    ck_assert_ptr_nonnull(c);
    const struct opening_day *monday = &c->opening.days[0];
    ck_assert_uint_eq(monday->count, 2);
    ck_assert_int_eq(monday->spans[0].from_minute, 0);
    ck_assert_int_eq(monday->spans[0].to_minute, 8 * 60 + 59);
    ck_assert_int_eq(monday->spans[1].from_minute, 8 * 60 + 59);
    ck_assert_int_eq(monday->spans[1].to_minute, 24 * 60);
}
END_TEST

/* The hours stand on the seventh line. */
static const struct {
    const char *lines, *code, *says;
} bad_rows[] = {
    {"hours: {monday: 8:00-18:00}\n", "not-days", "write mon, tue"},
    {"hours: {fri-mon: 8:00-18:00}\n", "not-days", "in a row"},
    {"hours: {mon-: 8:00-18:00}\n", "not-days", "in a row"},
    {"hours: {mon-fri: 8:00-18:00, wed: 9:00-12:00}\n", "day-twice", "'wed' has hours already"},
    {"hours: {mon: 8 to 6}\n", "not-hours", "8:00-18:00"},
    {"hours: {mon: 8:00-25:00}\n", "not-hours", "8:00-18:00"},
    {"hours: {mon: 8:00-18:60}\n", "not-hours", "8:00-18:00"},
    {"hours: {mon: 8:0-18:00}\n", "not-hours", "8:00-18:00"},
    {"hours: {mon: 8-18:00}\n", "not-hours", "8:00-18:00"},
    {"hours: {mon: 8.00-18:00}\n", "not-hours", "8:00-18:00"},
    {"hours: {mon: 008:00-18:00}\n", "not-hours", "8:00-18:00"},
    {"hours: {mon: \":30-18:00\"}\n", "not-hours", "8:00-18:00"},
    {"hours: {mon: 8:00-24:01}\n", "not-hours", "8:00-18:00"},
    {"hours: {mon: 8:00-8:00}\n", "not-hours", "from when to when"},
    {"hours: {mon: 18:00-8:00}\n", "not-hours", "from when to when"},
    {"hours: {mon: [8:00-13:00, 12:00-18:00]}\n", "not-hours", "one after the other"},
    {"hours: {mon: closed}\n", "never-open", "when it is open"},
    {"holidays: [25 December]\n", "not-a-date", "2026-03-14"},
    {"holidays: [{from: 2026-12-27, to: 2026-12-26}]\n", "ends-before", "first closed day"},
};

START_TEST(refuses_with_its_place)
{
    ck_assert_ptr_null(read_hours(bad_rows[_i].lines));
    ck_assert_ptr_nonnull(diag.first);
    ck_assert_str_eq(diag.first->code, bad_rows[_i].code);
    ck_assert_int_eq(diag.first->at.line, 7);
    ck_assert_ptr_nonnull(strstr(diag.first->text, bad_rows[_i].says));
}
END_TEST

START_TEST(parts_an_answer)
{
    const char *days, *times;
    ck_assert(opening_part_line("mon-fri  8:00-18:00", &arena, &days, &times));
    ck_assert_str_eq(days, "mon-fri");
    ck_assert_str_eq(times, "8:00-18:00");
    ck_assert(!opening_part_line("Monday to Friday 8:00-18:00", &arena, &days, &times));
    ck_assert(!opening_part_line("mon", &arena, &days, &times));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("opening");
    TCase *tests = tcase_create("opening");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, knows_closed_days);
    tcase_add_test(tests, knows_hours_of_a_day);
    tcase_add_test(tests, free_lines_are_kept_and_close_nothing);
    tcase_add_test(tests, nothing_said_is_never_closed);
    tcase_add_test(tests, takes_the_ends_of_what_may_be);
    tcase_add_loop_test(tests, refuses_with_its_place, 0, sizeof bad_rows / sizeof *bad_rows);
    tcase_add_test(tests, parts_an_answer);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
