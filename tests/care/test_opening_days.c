/* Checks and closed days. Expected days are read off the calendar of 2026: the visit's day, 14
 * March, is a Saturday; the clinic is open from Monday to Friday. That what is grave is looked at
 * sooner is common practice, no source. */
#include <string.h>

#include "care/fixture.h"
#include "common/suite.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static struct care_fixture f;
static struct finding_plan finding;
static const struct closed_days week = {{2026, 3, 23}, {2026, 3, 29}},
                                spring = {{2026, 3, 15}, {2026, 4, 30}};

static void set_up(void)
{
    fixture_init(&f);
    struct opening *opening = &f.plan.letterhead.opening;
    opening->is_known = true;
    for (int day = 0; day < 5; day++)
        opening->days[day] = (struct opening_day){{{8 * 60, 18 * 60}}, 1};
    f.visit.follow_up.recheck.known = true;
    f.visit.follow_up.recheck.unit = UNIT_DAY;
    f.visit.follow_up.recheck.at = (struct mark){"v.yaml", 9, 5};
}

static void tear_down(void)
{
    fixture_finish(&f);
}

/* What was found: how grave, and how late it is usually looked at again; 0: nothing was found. */
struct found {
    enum severity severity;
    bool today;
    double recheck_high_days;
};

static const struct {
    double days;
    struct found found;
    const struct closed_days *holidays;
    struct date expected;
    const char *code;
} rows[] = {
    {2, {0}, NULL, {2026, 3, 16}, NULL},
    {7, {0}, NULL, {2026, 3, 23}, "check-moved-later"},
    {8, {SEVERITY_MODERATE, false, 9}, NULL, {2026, 3, 23}, "check-moved-later"},
    {8, {SEVERITY_MODERATE, false, 8}, NULL, {2026, 3, 20}, "check-moved-earlier"},
    {8, {SEVERITY_MODERATE, false, 5}, NULL, {2026, 3, 20}, "check-moved-earlier"},
    {8, {SEVERITY_SEVERE, false, 30}, NULL, {2026, 3, 20}, "check-moved-earlier"},
    {8, {SEVERITY_MILD, true, 30}, NULL, {2026, 3, 20}, "check-moved-earlier"},
    {8, {SEVERITY_NORMAL, true, 0}, NULL, {2026, 3, 23}, "check-moved-later"},
    /* no open day between the visit and the check */
    {1, {SEVERITY_SEVERE, false, 3}, NULL, {2026, 3, 16}, "check-no-open-day"},
    {1, {SEVERITY_MILD, false, 3}, NULL, {2026, 3, 16}, "check-moved-later"},
    {1, {SEVERITY_MILD, false, 1}, NULL, {2026, 3, 16}, "check-no-open-day"},
    /* the next open day, the 30th, is more than a week off */
    {7, {0}, &week, {2026, 3, 20}, "check-moved-earlier"},
    {9, {0}, &week, {2026, 3, 30}, "check-moved-later"},
    {7, {0}, &spring, {2026, 3, 21}, "check-no-open-day"},
};

static void plan_row(size_t row)
{
    const struct found *found = &rows[row].found;
    f.visit.follow_up.recheck.value = f.visit.follow_up.recheck.written = rows[row].days;
    finding = (struct finding_plan){.code = "burn",
                                    .severity = found->severity,
                                    .is_urgent = found->today,
                                    .tier = found->today ? TIER_TODAY : TIER_SOON,
                                    .has_recheck = found->recheck_high_days > 0,
                                    .recheck_high_days = found->recheck_high_days,
                                    .recheck_days = found->recheck_high_days};
    f.plan.findings = &finding;
    f.plan.finding_count = 1;
    if (rows[row].holidays) {
        f.plan.letterhead.opening.holidays = rows[row].holidays;
        f.plan.letterhead.opening.holiday_count = 1;
    }
    ck_assert(recheck_plan(&f.b));
}

START_TEST(a_check_falls_on_an_open_day)
{
    plan_row((size_t)_i);
    ck_assert_int_eq(date_compare(f.plan.recheck, rows[_i].expected), 0);
    const struct review *review = f.plan.review;
    if (!rows[_i].code) {
        ck_assert_ptr_null(review);
        return;
    }
    ck_assert_str_eq(review->code, rows[_i].code);
    ck_assert_int_eq(review->at.line, 9);
    ck_assert_int_eq(date_days_between(f.plan.on, fixture_fact(review, "planned")->date),
                     (long)rows[_i].days);
    ck_assert_int_eq(date_compare(fixture_fact(review, "open")->date, rows[_i].expected), 0);
}
END_TEST

/* A visit on Friday the 13th, a check on the closed day after it. */
START_TEST(a_check_is_never_on_the_day_of_the_visit)
{
    f.plan.on = (struct date){2026, 3, 13};
    f.visit.follow_up.recheck.value = 1;
    finding = (struct finding_plan){.code = "burn", .severity = SEVERITY_SEVERE};
    f.plan.findings = &finding;
    f.plan.finding_count = 1;
    ck_assert(recheck_plan(&f.b));
    ck_assert_int_eq(date_compare(f.plan.recheck, (struct date){2026, 3, 16}), 0);
    ck_assert_ptr_nonnull(fixture_review(&f, "check-no-open-day"));
}
END_TEST

START_TEST(without_hours_nothing_moves)
{
    f.plan.letterhead.opening = (struct opening){0};
    plan_row(1);
    ck_assert_int_eq(date_compare(f.plan.recheck, (struct date){2026, 3, 21}), 0);
    ck_assert_ptr_null(f.plan.review);
}
END_TEST

START_TEST(the_usual_day_is_never_passed)
{
    f.visit.follow_up.recheck.known = false;
    finding = (struct finding_plan){.code = "burn",
                                    .severity = SEVERITY_MILD,
                                    .has_recheck = true,
                                    .recheck_high_days = 14,
                                    .recheck_days = 14};
    f.plan.findings = &finding;
    f.plan.finding_count = 1;
    struct date on = date_add_days(f.plan.on, 14); /* Saturday 28 March */
    ck_assert_int_eq(
        date_compare(build_check_day(&f.b, on, on, (struct mark){0}), (struct date){2026, 3, 27}),
        0);
}
END_TEST

START_TEST(whoever_calls_by_then_calls_an_open_clinic)
{
    f.steps.way_out_days = fixture_cited(8, 8); /* Sunday 22 March */
    ck_assert(steps_plan(&f.b));
    ck_assert_int_eq(date_compare(f.plan.way_out, (struct date){2026, 3, 20}), 0);
}
END_TEST

/* In a new home it is looked at after two weeks: Saturday 28 March is closed, and nothing says it
 * must not be Monday. */
START_TEST(a_new_home_is_looked_at_on_an_open_day)
{
    f.visit.follow_up.recheck.known = false;
    f.kind.new_home = fixture_flag(true);
    ck_assert(recheck_plan(&f.b) && dates_plan(&f.b));
    const struct plan_date *found = NULL;
    for (size_t i = 0; i < f.plan.date_count; i++)
        if (strcmp(f.plan.dates[i].what, "recheck-usual") == 0)
            found = &f.plan.dates[i];
    ck_assert_ptr_nonnull(found);
    ck_assert_int_eq(date_compare(found->on, (struct date){2026, 3, 30}), 0);
    const struct review *told = fixture_review(&f, "check-moved-later");
    ck_assert_ptr_nonnull(told);
    ck_assert_ptr_null(told->at.file); /* it is nobody's line */
}
END_TEST

START_TEST(free_lines_are_told)
{
    static const char *const lines[] = {"Mondays"};
    f.plan.letterhead.hours_text = lines;
    f.plan.letterhead.hours_text_count = 1;
    ck_assert(opening_hours_plan(&f.b));
    ck_assert_ptr_nonnull(fixture_review(&f, "hours-as-text"));
}
END_TEST

/* Where an animal is sent on to is told with the check or without one; a line that the record does
 * not fill is a blank. */
START_TEST(it_is_sent_on)
{
    static const struct {
        const char *to;
        bool has_day, asks_check, by_finding, is_asked, has_blanks;
    } cases[] = {
        {"Fern Hill", true, true, false, true, false},
        {"Fern Hill", true, false, false, true, false},
        {"Fern Hill", false, true, false, true, true},
        {NULL, true, false, false, true, true},
        {NULL, false, false, true, true, true},
        {NULL, false, true, false, false, false},
        {"Fern Hill", true, false, true, true, false},
    };
    struct finding_plan found = {.code = "a", .state = STATE_REFERRED};
    if (cases[_i].by_finding) {
        f.plan.findings = &found;
        f.plan.finding_count = 1;
    }
    f.visit.follow_up.recheck.known = cases[_i].asks_check;
    f.visit.follow_up.recheck.value = f.visit.follow_up.recheck.written = 10;
    f.visit.follow_up.referral.to.text = cases[_i].to;
    if (cases[_i].has_day)
        f.visit.follow_up.referral.on = fixture_date(2026, 3, 20);
    ck_assert(recheck_plan(&f.b));
    const struct referral_plan *sent = &f.plan.referral;
    ck_assert_int_eq(sent->is_asked, cases[_i].is_asked);
    ck_assert_ptr_eq(sent->to, cases[_i].to);
    ck_assert_int_eq(sent->has_day, cases[_i].has_day);
    ck_assert(!sent->has_day || date_compare(sent->on, (struct date){2026, 3, 20}) == 0);
    ck_assert_int_eq(f.plan.has_blanks, cases[_i].has_blanks);
    ck_assert_int_eq(f.plan.has_recheck, cases[_i].asks_check);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("opening_days");
    TCase *tests = tcase_create("opening_days");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, a_check_falls_on_an_open_day, 0, COUNT(rows));
    tcase_add_test(tests, a_check_is_never_on_the_day_of_the_visit);
    tcase_add_test(tests, without_hours_nothing_moves);
    tcase_add_test(tests, the_usual_day_is_never_passed);
    tcase_add_test(tests, whoever_calls_by_then_calls_an_open_clinic);
    tcase_add_test(tests, a_new_home_is_looked_at_on_an_open_day);
    tcase_add_test(tests, free_lines_are_told);
    tcase_add_loop_test(tests, it_is_sent_on, 0, 7);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
