/* A winter's rest: its days counted off the calendar, its warmth and grams by hand, and what speaks
 * against it at each limit and one step past it. The limits are those of reference-values.yaml
 * (common practice, no source); emptying, days and warmth of the row here are invented. The year is
 * 2026; a month is a twelfth of 365.25 days. */
#include <string.h>

#include "care/fixture.h"
#include "care/feeding.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct care_fixture f;

static void be_on(int month, int day)
{
    f.visit.date = fixture_date(2026, month, day);
    f.plan.on = f.visit.date.date;
}

static struct date_value before(int days)
{
    struct date on = date_add_days(f.plan.on, -days);
    return fixture_date(on.year, on.month, on.day);
}

/* A grown, healthy one of 1000 g that may rest: 28 days to empty, 14 up to 500 g; a first rest of
 * 42 days, later ones of 112, at 3-7 C. Its cool side is 22-26 C by day. */
static void set_up(void)
{
    fixture_init(&f);
    const struct text_value code = fixture_text("test-lizard");
    const struct rest_emptying emptying[] = {
        {.up_to_g = fixture_quantity(500), .days = fixture_cited(7, 14)},
        {.days = fixture_cited(21, 28)}};
    const struct winter_rest_reference row = {.name = fixture_text("lizards"),
                                              .species = fixture_list(&f, &code, 1, sizeof code),
                                              .rest_c = fixture_cited(3, 7),
                                              .emptying =
                                                  fixture_list(&f, emptying, 2, sizeof *emptying),
                                              .first_days = fixture_cited(42, 42),
                                              .longest_days = fixture_cited(112, 112)};
    f.reference.winter_rests = fixture_list(&f, &row, 1, sizeof row);
    be_on(9, 25);
    f.visit.winter_rest.planned = fixture_flag(true);
    f.visit.history.events[EVENT_OWNED_SINCE] = before(3000);
    f.visit.history.events[EVENT_STOOL_CLEAN] = before(10);
    f.species.brumation = fixture_choice(BRUMATION_AFTER_CHECK);
    f.species.brumation_least_age_days = fixture_cited(700, 1100);
    f.plan.feeding.stage = STAGE_ADULT;
    f.plan.patient.age_known = true;
    f.plan.patient.age_days = 4000;
    f.plan.patient.has_mass = true;
    f.plan.patient.mass_g = 1000;
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static void again(void)
{
    tear_down();
    set_up();
}

static const struct winter_rest_plan *planned(void)
{
    f.plan.winter_rest = (struct winter_rest_plan){0};
    ck_assert(winter_rest_plan(&f.b));
    return &f.plan.winter_rest;
}

static bool is_day(struct date day, int month, int on)
{
    return day.month == month && day.day == on;
}

/* ---- days ----------------------------------------------------------------------------------- */

static void forget_emptying(void)
{
    ((struct winter_rest_reference *)f.reference.winter_rests.items)->emptying.count = 0;
}

/* Not before the gut is empty, nor before 1 November. */
START_TEST(it_begins_when_the_gut_is_empty)
{
    static const struct {
        int month, day;
        double mass_g;
        int start[2], last_meal[2];
    } rows[] = {{9, 25, 1000, {11, 1}, {10, 4}},   {10, 3, 1000, {11, 1}, {10, 4}},
                {10, 4, 1000, {11, 1}, {10, 4}},   {10, 5, 1000, {11, 2}, {10, 5}},
                {11, 10, 1000, {12, 8}, {11, 10}}, {10, 20, 500, {11, 3}, {10, 20}},
                {10, 20, 499, {11, 3}, {10, 20}},  {10, 20, 500.1, {11, 17}, {10, 20}}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        be_on(rows[i].month, rows[i].day);
        f.plan.patient.mass_g = rows[i].mass_g;
        const struct winter_rest_plan *w = planned();
        ck_assert(w->is_asked && !w->in_progress && w->has_start && w->has_last_meal);
        ck_assert_msg(is_day(w->start, rows[i].start[0], rows[i].start[1]), "row %d: %d-%d", i,
                      w->start.month, w->start.day);
        ck_assert_msg(is_day(w->last_meal, rows[i].last_meal[0], rows[i].last_meal[1]),
                      "row %d: %d-%d", i, w->last_meal.month, w->last_meal.day);
    }
}
END_TEST

/* Without days of emptying there is no first day but the veterinarian's, and no last meal; one that
 * is at rest has had its last. */
START_TEST(days_that_nobody_said)
{
    forget_emptying();
    const struct winter_rest_plan *w = planned();
    ck_assert(!w->has_start && !w->has_last_meal && !w->has_wake);
    f.visit.winter_rest.starts = fixture_date(2026, 11, 20);
    w = planned();
    ck_assert(w->has_start && is_day(w->start, 11, 20) && !w->has_last_meal && w->has_wake);
    again();
    f.visit.winter_rest.starts = fixture_date(2026, 11, 20);
    w = planned();
    ck_assert(w->has_last_meal && is_day(w->last_meal, 10, 23));
    again();
    f.visit.winter_rest.in_progress = fixture_flag(true);
    w = planned();
    ck_assert(w->in_progress && !w->has_start && !w->has_last_meal);
    f.visit.winter_rest.starts = fixture_date(2026, 9, 1);
    w = planned();
    ck_assert(w->has_start && !w->has_last_meal && w->step_count == 0);
}
END_TEST

/* Hers; else 42 days of a first one and of a young one, 112 of a grown one that woke before. It is
 * warm again two days after, and eats within seven. */
START_TEST(it_ends_before_it_is_too_long)
{
    static const struct {
        int own;
        bool woke;
        enum stage stage;
        int days; /* 0: nobody's */
    } rows[] = {{0, false, STAGE_ADULT, 42},
                {0, true, STAGE_ADULT, 112},
                {0, true, STAGE_SUBADULT, 42},
                {60, true, STAGE_ADULT, 60},
                {60, false, STAGE_ADULT, 60}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        if (rows[i].own)
            f.visit.winter_rest.longest_days = fixture_quantity(rows[i].own);
        if (rows[i].woke)
            f.visit.history.events[EVENT_WOKE_FROM_REST] = before(200);
        f.plan.feeding.stage = rows[i].stage;
        const struct winter_rest_plan *w = planned();
        ck_assert(w->has_wake);
        ck_assert_int_eq(date_days_between(w->start, w->wake), rows[i].days);
        ck_assert_int_eq(date_days_between(w->wake, w->warm_by), 2);
        ck_assert_int_eq(date_days_between(w->wake, w->eat_by), 7);
    }
    again();
    ((struct winter_rest_reference *)f.reference.winter_rests.items)->first_days.range.known =
        false;
    ck_assert(!planned()->has_wake && f.plan.winter_rest.week_count == 0);
}
END_TEST

/* From 22 C to 5, the middle of 3-7, in three steps of 17/3 within the week before it. */
START_TEST(it_is_cooled_in_equal_steps)
{
    static const double to_c[] = {22 - 17.0 / 3, 22 - 34.0 / 3, 5};
    static const int days[] = {7, 4, 0}; /* before; 3.5 is rounded up */
    const struct winter_rest_plan *w = planned();
    ck_assert(w->has_c && w->low_c == 3 && w->high_c == 7);
    ck_assert_uint_eq(w->step_count, 3);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq_tol(w->steps[i].to_c, to_c[i], 1e-9);
        ck_assert_int_eq(date_days_between(w->steps[i].on, w->start), days[i]);
    }
    f.visit.winter_rest.rest_c = fixture_band(8, 10); /* hers */
    w = planned();
    ck_assert(w->low_c == 8 && w->high_c == 10 && w->c_from.origin == ORIGIN_VETERINARIAN);
    ck_assert_double_eq_tol(w->steps[2].to_c, 9, 1e-9);
    f.species.measured[MEASURE_COOL_SIDE].range.known = false;
    ck_assert_uint_eq(planned()->step_count, 0);
}
END_TEST

/* ---- weight --------------------------------------------------------------------------------- */

/* Each week of the rest that is still to come, until the day before it wakes: 1 % less a month. */
START_TEST(each_week_it_is_weighed)
{
    for (int under_way = 0; under_way < 2; under_way++) {
        again();
        if (under_way) {
            f.visit.winter_rest.in_progress = fixture_flag(true);
            f.visit.winter_rest.starts = before(14);
        }
        const struct winter_rest_plan *w = planned();
        ck_assert(w->has_mass && w->start_g == 1000);
        ck_assert_double_eq_tol(w->call_g, 920, 1e-9); /* 8 and 10 of 100 */
        ck_assert_double_eq_tol(w->wake_g, 900, 1e-9);
        /* 42 days are six weeks; of one that began two weeks ago three are to come */
        const int weeks = under_way ? 3 : 6, first = under_way ? 3 : 0;
        ck_assert_uint_eq(w->week_count, weeks);
        for (int i = 0; i < weeks; i++) {
            const int day = (first + i) * 7;
            ck_assert_int_eq(date_days_between(w->start, w->weeks[i].on), day);
            ck_assert_double_eq_tol(w->weeks[i].least_g, 1000 * (1 - 0.01 * day / (365.25 / 12)),
                                    1e-9);
        }
    }
    again(); /* 42 days and one more are a seventh weighing, on the day before it wakes */
    f.visit.winter_rest.longest_days = fixture_quantity(43);
    ck_assert_uint_eq(planned()->week_count, 7);
}
END_TEST

/* Under way the grams are of the weight before: 950 after a loss of 5 % were 1000. */
START_TEST(under_way_the_loss_counts_from_before)
{
    f.visit.winter_rest.in_progress = fixture_flag(true);
    f.plan.patient.mass_g = 950;
    f.plan.growth.known = true;
    f.plan.growth.change_percent = -5;
    ck_assert_double_eq_tol(planned()->start_g, 1000, 1e-9);
    ck_assert_double_eq_tol(f.plan.winter_rest.call_g, 920, 1e-9);
    f.visit.winter_rest.in_progress = fixture_flag(false);
    ck_assert_double_eq(planned()->start_g, 950);
    f.plan.patient.has_mass = false;
    ck_assert(!planned()->has_mass && f.plan.winter_rest.week_count == 0);
}
END_TEST

/* At rest it is weighed as the rest is, and by its usual rhythm before and after. */
START_TEST(no_other_weighing_falls_into_it)
{
    be_on(10, 20);
    fixture_settle(&f, "weighing", "weekly", "finding:burn");
    f.visit.winter_rest.longest_days = fixture_quantity(14);
    const struct winter_rest_plan *w = planned(); /* from 17 November to 1 December */
    ck_assert(is_day(w->start, 11, 17) && is_day(w->wake, 12, 1));
    ck_assert(dates_plan(&f.b));
    /* 27 October and then each week; from the 17th on at rest, awake on 1 December again */
    static const int wanted[][2] = {{10, 27}, {11, 3}, {11, 10}, {12, 1}, {12, 8}, {12, 15}};
    size_t usual = 0, resting = 0;
    for (size_t i = 0; i < f.plan.date_count; i++) {
        const struct plan_date *one = &f.plan.dates[i];
        if (strcmp(one->what, "weigh") == 0) {
            ck_assert_uint_lt(usual, COUNT(wanted));
            ck_assert_msg(is_day(one->on, wanted[usual][0], wanted[usual][1]), "%d-%d",
                          one->on.month, one->on.day);
            usual++;
        }
        if (strcmp(one->what, "rest-weigh") == 0)
            ck_assert(is_day(one->on, 11, resting++ ? 24 : 17));
    }
    ck_assert_uint_eq(usual, COUNT(wanted));
    ck_assert_uint_eq(resting, 2);
}
END_TEST

/* ---- what speaks against it ----------------------------------------------------------------- */

static void event(enum history_event event, int days)
{
    f.visit.history.events[event] = before(days);
}

static void scored(double score, double of)
{
    f.visit.patient.body_score.score = fixture_quantity(score);
    f.visit.patient.body_score.of = fixture_quantity(of);
}

static void aged(long days)
{
    f.plan.patient.age_days = days;
}

static void changed(double percent)
{
    f.plan.growth.known = true;
    f.plan.growth.change_percent = percent;
}

static bool is_against(const char *why)
{
    const struct winter_rest_plan *w = &f.plan.winter_rest;
    for (size_t i = 0; i < w->why_count; i++)
        if (strcmp(w->why[i], why) == 0)
            return true;
    return false;
}

/* The limit itself and a day, a point or a percent past it. */
static const struct {
    const char *why;
    int days; /* since the event, until the first day, or of age */
    double score, of;
    bool speaks;
} gate_rows[] = {
    {"newly-owned", 364, 0, 0, true}, {"newly-owned", 365, 0, 0, false},
    {"untested", 89, 0, 0, false},    {"untested", 90, 0, 0, true},
    {"was-ill", 364, 0, 0, true},     {"was-ill", 365, 0, 0, false},
    {"woken", 179, 0, 0, true},       {"woken", 180, 0, 0, false},
    {"too-young", 1099, 0, 0, true},  {"too-young", 1100, 0, 0, false},
    {"gut-full", 27, 0, 0, true},     {"gut-full", 28, 0, 0, false},
    {"thin", 0, 2.5, 5, true},        {"thin", 0, 3, 5, false},
    {"thin", 0, 4, 9, true},          {"thin", 0, 5, 9, false},
};

START_TEST(each_limit_of_who_may_rest)
{
    const char *why = gate_rows[_i].why;
    const int days = gate_rows[_i].days;
    ck_assert_uint_eq(planned()->why_count, 0); /* nothing speaks against this one */
    if (strcmp(why, "newly-owned") == 0)
        event(EVENT_OWNED_SINCE, days);
    else if (strcmp(why, "untested") == 0)
        event(EVENT_STOOL_CLEAN, days);
    else if (strcmp(why, "was-ill") == 0)
        event(days % 2 ? EVENT_OPERATED : EVENT_REGURGITATED, days);
    else if (strcmp(why, "woken") == 0)
        event(EVENT_WOKE_FROM_REST, days);
    else if (strcmp(why, "too-young") == 0)
        aged(days);
    else if (strcmp(why, "gut-full") == 0)
        f.visit.winter_rest.starts = before(-days);
    else
        scored(gate_rows[_i].score, gate_rows[_i].of);
    ck_assert_uint_eq(planned()->why_count, gate_rows[_i].speaks);
    ck_assert_int_eq(is_against(why), gate_rows[_i].speaks);
}
END_TEST

/* One that rests is woken for what cannot wait, and for a tenth lost or a day too many. */
static const struct {
    const char *why;
    double percent;
    int began; /* days ago */
    bool speaks;
} wake_rows[] = {{"lost", -9.9, 5, false},   {"lost", -10, 5, true},    {"lost", 3, 5, false},
                 {"too-long", 0, 41, false}, {"too-long", 0, 42, true}, {"too-long", 0, 43, true}};

START_TEST(what_ends_a_rest_that_runs)
{
    f.visit.winter_rest.in_progress = fixture_flag(true);
    f.visit.winter_rest.starts = before(wake_rows[_i].began);
    f.visit.history.events[EVENT_STOOL_CLEAN].known = false; /* too late to ask */
    changed(wake_rows[_i].percent);
    ck_assert_uint_eq(planned()->why_count, wake_rows[_i].speaks);
    ck_assert_int_eq(is_against(wake_rows[_i].why), wake_rows[_i].speaks);
}
END_TEST

/* A first day of its own making lies in November or December; hers is hers. */
START_TEST(no_rest_begins_after_december)
{
    be_on(12, 3); /* 28 days on is New Year's Eve */
    event(EVENT_STOOL_CLEAN, 10);
    planned();
    ck_assert(!is_against("too-late"));
    be_on(12, 4);
    planned();
    ck_assert(is_against("too-late"));
    f.visit.winter_rest.starts = fixture_date(2027, 1, 5);
    planned();
    ck_assert(!is_against("too-late"));
}
END_TEST

START_TEST(what_is_not_known_or_not_right)
{
    static const char *const codes[] = {"ill",          "gravid", "age-unknown", "weight-unknown",
                                        "time-unknown", "losing", "losing",      "species"};
    struct finding_plan one = {.code = _i == 1 ? "gravid" : "mites",
                               .severity = _i < 2 ? SEVERITY_MILD : SEVERITY_NORMAL};
    f.plan.findings = &one;
    f.plan.finding_count = 1;
    f.plan.patient.age_known = _i != 2;
    f.plan.patient.has_mass = _i != 3;
    f.visit.history.events[EVENT_OWNED_SINCE].known = _i != 4;
    f.plan.growth.weight = _i == 5 ? WEIGHT_FALLING : _i == 6 ? WEIGHT_FALLING_FAST : WEIGHT_STEADY;
    if (_i == 7)
        f.species.brumation = fixture_choice(BRUMATION_NEVER);
    ck_assert_uint_eq(planned()->why_count, 1);
    ck_assert_str_eq(f.plan.winter_rest.why[0], codes[_i]);
}
END_TEST

static Suite *make_suite(void)
{
    Suite *suite = suite_create("winter_rest");
    TCase *tests = tcase_create("winter_rest");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, it_begins_when_the_gut_is_empty);
    tcase_add_test(tests, days_that_nobody_said);
    tcase_add_test(tests, it_ends_before_it_is_too_long);
    tcase_add_test(tests, it_is_cooled_in_equal_steps);
    tcase_add_test(tests, each_week_it_is_weighed);
    tcase_add_test(tests, under_way_the_loss_counts_from_before);
    tcase_add_test(tests, no_other_weighing_falls_into_it);
    tcase_add_loop_test(tests, each_limit_of_who_may_rest, 0, COUNT(gate_rows));
    tcase_add_loop_test(tests, what_ends_a_rest_that_runs, 0, COUNT(wake_rows));
    tcase_add_test(tests, no_rest_begins_after_december);
    tcase_add_loop_test(tests, what_is_not_known_or_not_right, 0, 8);
    suite_add_tcase(suite, tests);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
