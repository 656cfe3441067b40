/* The days of meals. Each is counted off the calendar of 2026 from the visit's day, 14 March: the
 * next meal comes an interval after the last one, none today or before, none while food rests, and
 * prey that is swallowed whole neither shortly before a check nor before a dose at the clinic (48
 * hours without handling: common practice, no source). */
#include "common/suite.h"

#include "care/feeding_fixture.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static void set_up(void)
{
    fixture_init(&f);
    feeding()->diet = DIET_INSECTS;
}

struct month_day {
    int month, day;
};

static void feed_every(double low_days, double high_days, struct month_day last)
{
    feeding()->every_low_days = low_days;
    feeding()->every_high_days = high_days;
    feeding()->has_last = last.month > 0;
    feeding()->last = (struct date){2026, last.month, last.day};
}

static void meals_are(const struct month_day *wanted, size_t count)
{
    size_t made = 0;
    const struct date *days = feeding_meal_days(&f.b, &made);
    ck_assert_uint_ge(made, count);
    for (size_t i = 0; i < count; i++)
        ck_assert_msg(is_day(days[i], wanted[i].month, wanted[i].day), "meal %zu: %d-%d", i,
                      days[i].month, days[i].day);
}

#define MEALS_ARE(...)                                                                             \
    meals_are((const struct month_day[]){__VA_ARGS__},                                             \
              COUNT(((const struct month_day[]){__VA_ARGS__})))

/* Eight weeks end on 9 May; there are eight dates at least. */
static const struct {
    struct month_day last; /* month 0: none is known */
    double low_days, high_days;
    struct month_day first, second, third;
    size_t count;
} rhythm_rows[] = {
    {{3, 10}, 5, 5, {3, 15}, {3, 20}, {3, 25}, 12}, /* the twelfth on 9 May itself */
    {{3, 14}, 2, 3, {3, 16}, {3, 19}, {3, 21}, 22}, /* two and three days in turn */
    {{3, 13}, 2, 3, {3, 15}, {3, 18}, {3, 20}, 23}, /* tomorrow is none too early */
    {{3, 12}, 2, 3, {3, 15}, {3, 17}, {3, 20}, 23}, /* today is: it begins tomorrow */
    {{2, 1}, 7, 7, {3, 15}, {3, 22}, {3, 29}, 8},   /* long due */
    {{0, 0}, 10, 14, {3, 26}, {4, 7}, {4, 19}, 8},  /* from today, past the eight weeks */
    {{3, 10}, 14, 28, {3, 31}, {4, 21}, {5, 12}, 8},
    {{3, 14}, 1, 1, {3, 15}, {3, 16}, {3, 17}, 56},
    {{3, 14}, 0.5, 0.5, {3, 15}, {3, 16}, {3, 17}, 56}, /* never twice a day */
};

START_TEST(the_next_meal_is_an_interval_after_the_last)
{
    size_t made = 0;
    feed_every(rhythm_rows[_i].low_days, rhythm_rows[_i].high_days, rhythm_rows[_i].last);
    MEALS_ARE(rhythm_rows[_i].first, rhythm_rows[_i].second, rhythm_rows[_i].third);
    feeding_meal_days(&f.b, &made);
    ck_assert_uint_eq(made, rhythm_rows[_i].count);
}
END_TEST

START_TEST(the_plan_names_the_next_eight)
{
    feed_every(5, 5, (struct month_day){3, 10});
    feeding_plan_dates(&f.b);
    ck_assert_uint_eq(feeding()->meal_day_count, 12);
    ck_assert_uint_eq(feeding()->next_count, 8);
    ck_assert(is_day(feeding()->next[0], 3, 15) && is_day(feeding()->next[7], 4, 19));
    ck_assert(is_day(feeding()->meal_days[11], 5, 9));
}
END_TEST

START_TEST(without_an_interval_or_an_end_of_the_pause_there_is_no_day)
{
    size_t made = 1;
    feed_every(0, 0, (struct month_day){3, 10});
    feeding_meal_days(&f.b, &made);
    ck_assert_uint_eq(made, 0);
    feed_every(5, 5, (struct month_day){3, 10});
    feeding()->paused = true;
    feeding_plan_dates(&f.b);
    ck_assert_uint_eq(feeding()->next_count, 0);
    ck_assert_uint_eq(feeding()->meal_day_count, 0);
}
END_TEST

/* After a rest until 24 March. A meal that came up again is none. */
static const struct {
    struct month_day last, came_up, resume;
    double every_days;
    enum feeding_change change;
    struct month_day first, second;
} rest_rows[] = {
    {{3, 13}, {0, 0}, {3, 24}, 14, FEEDING_PAUSE, {3, 27}, {4, 10}},
    {{3, 13}, {3, 13}, {3, 24}, 14, FEEDING_PAUSE, {3, 24}, {4, 7}},
    {{3, 13}, {3, 14}, {3, 24}, 14, FEEDING_PAUSE, {3, 24}, {4, 7}},
    {{3, 13}, {3, 12}, {3, 24}, 14, FEEDING_AFTER_VOMITING, {3, 27}, {4, 10}},
    {{3, 13}, {0, 0}, {3, 24}, 14, FEEDING_AFTER_VOMITING, {3, 24}, {4, 7}},
    {{0, 0}, {3, 12}, {3, 24}, 14, FEEDING_PAUSE, {3, 24}, {4, 7}},
    {{3, 1}, {0, 0}, {3, 24}, 5, FEEDING_PAUSE, {3, 24}, {3, 29}},
    {{3, 1}, {0, 0}, {3, 10}, 5, FEEDING_PAUSE, {3, 15}, {3, 20}},
    {{3, 13}, {3, 13}, {0, 0}, 14, FEEDING_AFTER_VOMITING, {3, 27}, {4, 10}}, /* nothing rests */
};

START_TEST(after_a_rest_a_meal_that_came_up_does_not_count)
{
    feed_every(rest_rows[_i].every_days, rest_rows[_i].every_days, rest_rows[_i].last);
    feeding()->paused = feeding()->has_resume = rest_rows[_i].resume.month > 0;
    feeding()->resume = (struct date){2026, rest_rows[_i].resume.month, rest_rows[_i].resume.day};
    feeding()->change = rest_rows[_i].change;
    if (rest_rows[_i].came_up.month > 0)
        f.visit.history.events[EVENT_REGURGITATED] =
            on_day(rest_rows[_i].came_up.month, rest_rows[_i].came_up.day);
    MEALS_ARE(rest_rows[_i].first, rest_rows[_i].second);
}
END_TEST

/* Offered food has no last meal to wait for; where one is known the rhythm stays. */
START_TEST(what_is_only_offered_is_offered_from_tomorrow_on)
{
    fixture_settle(&f, "food", "offer-only", "finding:wheeze");
    feed_every(7, 7, (struct month_day){0, 0});
    MEALS_ARE({3, 15}, {3, 22});
    feed_every(7, 7, (struct month_day){3, 12});
    MEALS_ARE({3, 19}, {3, 26});
}
END_TEST

/* Nothing from 20 to 28 March, for surgery on the 29th perhaps: those days are left out. */
START_TEST(a_later_pause_takes_its_days_alone)
{
    static struct stance_phase phases[] = {
        {.stance = "as-usual", .from = {2026, 3, 14}, .has_until = true, .until = {2026, 3, 20}},
        {.stance = "rest-until", .from = {2026, 3, 20}, .has_until = true, .until = {2026, 3, 29}},
        {.stance = "as-usual", .from = {2026, 3, 29}}};
    static const struct topic_plan food = {.topic = "food", .phases = phases, .phase_count = 3};
    f.plan.topics = &food;
    f.plan.topic_count = 1;
    feed_every(5, 5, (struct month_day){3, 14});
    MEALS_ARE({3, 19}, {3, 29}, {4, 3});
    phases[2].stance = "none-until-vet"; /* and never again, as far as anybody knows */
    size_t made = 0;
    feeding_meal_days(&f.b, &made);
    ck_assert_uint_eq(made, 1);
}
END_TEST

START_TEST(only_three_stances_offer_no_meal)
{
    static const struct {
        const char *stance;
        bool rests;
    } rows[] = {{"none-until-vet", true}, {"rest-until", true}, {"vet-plan", true},
                {"as-usual", false},      {"restart", false},   {"less", false},
                {"offer-only", false}};
    for (size_t i = 0; i < COUNT(rows); i++)
        ck_assert_msg(feeding_is_pause(rows[i].stance) == rows[i].rests, "%s", rows[i].stance);
}
END_TEST

/* A meal that may not stand on its day comes sooner, but no sooner than the shortest interval. */
static const struct {
    bool whole_prey, asked; /* is it swallowed whole; was an empty stomach asked for? */
    double low_days, high_days;
    struct month_day last, check; /* 0: none */
    struct month_day first, second, third;
} check_rows[] = {
    /* a check on 28 March: no prey on 26, 27 and 28 */
    {true, false, 7, 7, {3, 14}, {3, 28}, {3, 21}, {3, 29}, {4, 5}},
    {true, false, 5, 9, {3, 14}, {3, 28}, {3, 21}, {3, 29}, {4, 5}},
    {true, false, 4, 10, {3, 14}, {3, 28}, {3, 21}, {3, 25}, {4, 1}},
    {true, false, 7, 7, {3, 14}, {3, 30}, {3, 21}, {3, 31}, {4, 7}},
    {true, false, 6, 8, {3, 14}, {3, 30}, {3, 21}, {3, 27}, {4, 3}},
    {true, false, 7, 7, {3, 14}, {3, 31}, {3, 21}, {3, 28}, {4, 4}},
    {true, false, 7, 7, {3, 14}, {3, 27}, {3, 21}, {3, 28}, {4, 4}},
    {true, true, 7, 7, {3, 14}, {0, 0}, {3, 21}, {3, 28}, {4, 4}},
    /* insects: only where it was asked for, and a day */
    {false, false, 7, 7, {3, 14}, {3, 28}, {3, 21}, {3, 28}, {4, 4}},
    {false, true, 7, 7, {3, 14}, {3, 28}, {3, 21}, {3, 29}, {4, 5}},
    {false, true, 7, 7, {3, 14}, {3, 29}, {3, 21}, {3, 30}, {4, 6}},
    {false, true, 7, 7, {3, 14}, {3, 30}, {3, 21}, {3, 28}, {4, 4}},
    /* the first meal of all waits for the last one too, and never for a day that is over */
    {true, false, 7, 7, {3, 14}, {3, 21}, {3, 22}, {3, 29}, {4, 5}},
    {true, false, 4, 10, {3, 14}, {3, 21}, {3, 18}, {3, 25}, {4, 1}},
    {true, false, 1, 3, {3, 13}, {3, 16}, {3, 17}, {3, 19}, {3, 21}},
    {true, false, 7, 7, {0, 0}, {3, 21}, {3, 18}, {3, 25}, {4, 1}},
};

static void eat(bool whole_prey)
{
    f.species.diet = fixture_choice(whole_prey ? DIET_WHOLE_PREY : DIET_INSECTS);
}

START_TEST(no_meal_shortly_before_a_check)
{
    eat(check_rows[_i].whole_prey);
    f.visit.follow_up.empty_stomach = fixture_flag(check_rows[_i].asked);
    f.plan.has_recheck = check_rows[_i].check.month > 0;
    f.plan.recheck = (struct date){2026, check_rows[_i].check.month, check_rows[_i].check.day};
    feed_every(check_rows[_i].low_days, check_rows[_i].high_days, check_rows[_i].last);
    MEALS_ARE(check_rows[_i].first, check_rows[_i].second, check_rows[_i].third);
}
END_TEST

static const struct {
    bool whole_prey, given_here;
    struct month_day dose;
    struct month_day first;
} dose_rows[] = {
    {true, true, {3, 21}, {3, 22}},  {true, true, {3, 22}, {3, 23}},
    {true, true, {3, 20}, {3, 21}},  {true, true, {3, 23}, {3, 21}},
    {true, false, {3, 21}, {3, 21}}, {false, true, {3, 21}, {3, 21}},
};

START_TEST(no_prey_just_before_a_dose_at_the_clinic)
{
    const struct dose_plan doses[] = {
        {{2026, 3, 15}, DAY_PART_MORNING, 0, false},
        {{2026, dose_rows[_i].dose.month, dose_rows[_i].dose.day}, DAY_PART_MORNING, 0, false}};
    const struct medicine_plan medicine = {
        .is_given_here = dose_rows[_i].given_here, .doses = doses, .listed = 2};
    f.plan.medicines = &medicine;
    f.plan.medicine_count = 1;
    eat(dose_rows[_i].whole_prey);
    feed_every(7, 7, (struct month_day){3, 14});
    MEALS_ARE(dose_rows[_i].first);
}
END_TEST

/* In a new home after five days (common practice, no source), yet within its own limit. */
static const struct {
    bool new_home;
    double limit_days;
    long first;
} home_rows[] = {{false, 0, 1},  {false, 3, 1},  {true, 0, 5}, {true, 3, 3},
                 {true, 3.7, 3}, {true, 0.5, 1}, {true, 5, 5}, {true, 9, 5}};

START_TEST(a_new_home_comes_before_the_first_meal)
{
    f.kind.new_home = fixture_flag(home_rows[_i].new_home);
    feeding()->fast_limit_days = home_rows[_i].limit_days;
    ck_assert_int_eq(feeding_first_day(&f.b), home_rows[_i].first);
    feed_every(1, 1, (struct month_day){3, 14});
    MEALS_ARE({3, 14 + (int)home_rows[_i].first});
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("meals");
    TCase *tests = tcase_create("meals");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, the_next_meal_is_an_interval_after_the_last, 0, COUNT(rhythm_rows));
    tcase_add_test(tests, the_plan_names_the_next_eight);
    tcase_add_test(tests, without_an_interval_or_an_end_of_the_pause_there_is_no_day);
    tcase_add_loop_test(tests, after_a_rest_a_meal_that_came_up_does_not_count, 0,
                        COUNT(rest_rows));
    tcase_add_test(tests, what_is_only_offered_is_offered_from_tomorrow_on);
    tcase_add_test(tests, a_later_pause_takes_its_days_alone);
    tcase_add_test(tests, only_three_stances_offer_no_meal);
    tcase_add_loop_test(tests, no_meal_shortly_before_a_check, 0, COUNT(check_rows));
    tcase_add_loop_test(tests, no_prey_just_before_a_dose_at_the_clinic, 0, COUNT(dose_rows));
    tcase_add_loop_test(tests, a_new_home_comes_before_the_first_meal, 0, COUNT(home_rows));
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
