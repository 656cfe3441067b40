/* The clinic's hours and closed days as English text: expected by the calendar of 2026 (1 January
 * is a Thursday) and by the clock of twelve hours, where noon is 12 pm and midnight 12 am. */
#include <string.h>

#include "common/suite.h"
#include "words/format.h"
#include "words/format_opening.h"
#include "words/short_forms_read.h"
#include "words/wording.h"

static struct arena arena;
static struct diag diag;
static struct format format, us;

static void set_up(void)
{
    arena_init(&arena);
    diag_init(&diag);
    const struct wording *words =
        wording_read(PROJECT_FOLDER "/templates/wording", "en", NULL, &arena, &diag);
    ck_assert_ptr_nonnull(words);
    format = (struct format){words, UNITS_METRIC, &arena, &diag, 0, false};
    us = (struct format){words, UNITS_US, &arena, &diag, 0, false};
}

static void tear_down(void)
{
    diag_finish(&diag);
    arena_finish(&arena);
}

static const struct {
    int minute;
    const char *metric, *us;
} clock_rows[] = {
    {0, "0:00", "12\u00A0am"},        {30, "0:30", "12:30\u00A0am"},
    {61, "1:01", "1:01\u00A0am"},     {11 * 60 + 59, "11:59", "11:59\u00A0am"},
    {12 * 60, "12:00", "12\u00A0pm"}, {12 * 60 + 5, "12:05", "12:05\u00A0pm"},
    {13 * 60, "13:00", "1\u00A0pm"},  {23 * 60 + 59, "23:59", "11:59\u00A0pm"},
    {24 * 60, "24:00", "12\u00A0am"},
};

START_TEST(tells_the_time)
{
    ck_assert_str_eq(format_clock(&format, clock_rows[_i].minute), clock_rows[_i].metric);
    ck_assert_str_eq(format_clock(&us, clock_rows[_i].minute), clock_rows[_i].us);
}
END_TEST

/* What only days with the very same hours share is one row; a closed day is none. */
START_TEST(gathers_days_of_the_same_hours)
{
    enum { EIGHT = 8 * 60, TWELVE = 12 * 60, TWO = 14 * 60, SIX = 18 * 60, NIGHT = 24 * 60 };
    const struct opening_day whole = {.spans = {{EIGHT, SIX}}, .count = 1},
                             parted = {.spans = {{EIGHT, TWELVE}, {TWO, SIX}}, .count = 2};
    struct opening opening = {.is_known = true,
                              .days = {whole,
                                       whole,
                                       parted,
                                       parted,
                                       {.spans = {{EIGHT, TWELVE}, {TWO, SIX - 30}}, .count = 2},
                                       {.count = 0},
                                       {.spans = {{0, NIGHT}}, .count = 1}}};
    ck_assert_str_eq(format_opening(&format, &opening), "Mon to Tue\u00A0"
                                                        "8:00–18:00, Wed to Thu\u00A0"
                                                        "8:00–12:00 and 14:00–18:00, "
                                                        "Fri\u00A0"
                                                        "8:00–12:00 and 14:00–17:30, Sun\u00A0"
                                                        "day and night");
    opening.days[6] = (struct opening_day){.spans = {{0, SIX}}, .count = 1};
    opening.days[5] = (struct opening_day){.spans = {{EIGHT, NIGHT}}, .count = 1};
    opening.days[0] = opening.days[1] = opening.days[2] = (struct opening_day){0};
    opening.days[3] = opening.days[4] = (struct opening_day){0};
    ck_assert_str_eq(format_opening(&format, &opening), "Sat\u00A0"
                                                        "8:00–24:00, Sun\u00A0"
                                                        "0:00–18:00");
    for (int day = 0; day < OPENING_DAYS; day++)
        opening.days[day] = whole;
    ck_assert_str_eq(format_opening(&format, &opening), "Mon to Sun\u00A0"
                                                        "8:00–18:00");
    opening.is_known = false;
    ck_assert_ptr_null(format_opening(&format, &opening));
}
END_TEST

/* From Thursday 19 March to Thursday 30 April 2026: both ends count. */
static const struct {
    struct closed_days days;
    const char *text;
} closed_rows[] = {
    {{{2026, 3, 18}, {2026, 3, 18}}, NULL},
    {{{2026, 3, 10}, {2026, 3, 18}}, NULL},
    {{{2026, 3, 19}, {2026, 3, 19}}, "Thu 19\u00A0Mar"},
    {{{2026, 3, 10}, {2026, 3, 19}}, "Tue 10\u00A0Mar to Thu 19\u00A0Mar"},
    {{{2026, 4, 30}, {2026, 4, 30}}, "Thu 30\u00A0Apr"},
    {{{2026, 4, 30}, {2026, 5, 2}}, "Thu 30\u00A0Apr to Sat 2\u00A0May"},
    {{{2026, 5, 1}, {2026, 5, 1}}, NULL},
    {{{2026, 3, 1}, {2026, 6, 1}}, "Sun 1\u00A0Mar to Mon 1\u00A0Jun"},
};

START_TEST(names_the_closed_days_ahead)
{
    const struct opening opening = {.holidays = &closed_rows[_i].days, .holiday_count = 1};
    const char *text =
        format_closed(&format, &opening, (struct date){2026, 3, 19}, (struct date){2026, 4, 30});
    ck_assert_pstr_eq(text, closed_rows[_i].text);
}
END_TEST

/* A voice says the whole name for each short one; May is whole already. */
START_TEST(months_and_weekdays_have_their_whole_names)
{
    static const char *const names[] = {
        "January",   "February",  "March",   "April",    "May",      "June",   "July",
        "August",    "September", "October", "November", "December", "Monday", "Tuesday",
        "Wednesday", "Thursday",  "Friday",  "Saturday", "Sunday"};
    const struct phrase_context ctx = {.format = format};
    struct document document = {0};
    short_forms_set(&ctx, &document);
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        size_t found = 0;
        for (size_t k = 0; k < document.short_form_count; k++) {
            const struct short_form *form = &document.short_forms[k];
            if (strcmp(form->means, names[i]) != 0)
                continue;
            found++;
            ck_assert(strncmp(form->text, names[i], 3) == 0 && strlen(form->text) <= 4);
            ck_assert_int_eq(form->place, i < 12 ? SHORT_BEHIND_NUMBER : SHORT_BEFORE_NUMBER);
        }
        ck_assert_msg(found == (strcmp(names[i], "May") != 0), "%s", names[i]);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("opening_words");
    TCase *tests = tcase_create("opening_words");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, months_and_weekdays_have_their_whole_names);
    tcase_add_loop_test(tests, tells_the_time, 0, sizeof clock_rows / sizeof *clock_rows);
    tcase_add_test(tests, gathers_days_of_the_same_hours);
    tcase_add_loop_test(tests, names_the_closed_days_ahead, 0,
                        sizeof closed_rows / sizeof *closed_rows);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
