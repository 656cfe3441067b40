/* The lamp of a plan: its state, its age, its hours, and whose target it is hung for. Where it
 * hangs is test_uvb_plan.c. Zones: Ferguson et al. 2010; Baines et al. 2016, table 1. */
#include <math.h>
#include <string.h>

#include "common/suite.h"
#include "care/daylight.h"
#include "care/lamp_fixture.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static void set_up(void)
{
    set_up_lamp();
}

/* ---- the lamp's state ------------------------------------------------------------------------ */

START_TEST(no_number_without_a_lamp_or_a_reading)
{
    ck_assert_int_eq(made()->distance_why, DISTANCE_NO_LAMP);
    ck_assert_int_eq(f.plan.uvb.lamp, LAMP_STATE_UNKNOWN);
    ck_assert_ptr_nonnull(fixture_review(&f, "uvb-lamp-unknown"));
    again();
    lamp->kind = fixture_choice(LAMP_NONE);
    ck_assert_int_eq(made()->distance_why, DISTANCE_NO_LAMP);
    ck_assert_int_eq(f.plan.uvb.lamp, LAMP_STATE_MISSING);
    again();
    lamp->kind = fixture_choice(LAMP_TUBE);
    lamp->height_cm = fixture_quantity(40);
    ck_assert_int_eq(made()->distance_why, DISTANCE_NO_READING);
    ck_assert_int_eq(f.plan.uvb.lamp, LAMP_STATE_UNMEASURED);
    ck_assert_int_eq(fixture_review(&f, "uvb-unmeasured")->at.line, 20);
    ck_assert(!f.plan.measured[MEASURE_UVB].has_reading && !f.plan.uvb.has_change);
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, VERDICT_UNKNOWN);
}
END_TEST

START_TEST(glass_and_plastic_give_no_distance)
{
    hang(LAMP_TUBE, 3.6, 30, 40);
    lamp->behind = fixture_choice(_i == 0 ? BARRIER_GLASS : BARRIER_PLASTIC);
    const struct uvb_plan *plan = made();
    ck_assert_int_eq(plan->distance_why, DISTANCE_BLOCKED);
    ck_assert_int_eq(plan->lamp, LAMP_STATE_BLOCKED);
    ck_assert_double_eq(plan->recommended_cm, 0);
    ck_assert(!f.plan.measured[MEASURE_UVB].has_reading);
}
END_TEST

START_TEST(an_animal_that_needs_no_uvb_gets_none)
{
    f.species.needs_uvb = fixture_flag(false);
    f.species.ferguson_zone.range.known = false;
    hang(LAMP_TUBE, 3.6, 30, 40);
    ck_assert(!light()->applies);
    ck_assert_int_eq(f.plan.uvb.distance_why, DISTANCE_NOT_NEEDED);
    ck_assert_int_eq(f.plan.uvb.lamp, LAMP_STATE_NOT_NEEDED);
    ck_assert_ptr_nonnull(fixture_review(&f, "uvb-lamp-not-needed"));
}
END_TEST

/* Calendar months (tube 12, compact 6) from the fixture's 2026-03-14. */
static const struct {
    enum lamp_kind kind;
    int year, month, day;
    struct date due;
    bool overdue;
    enum lamp_state state;
} age_rows[] = {
    {LAMP_COMPACT, 2025, 8, 31, {2026, 2, 28}, true, LAMP_STATE_DUE},   /* the month's last day */
    {LAMP_COMPACT, 2025, 9, 14, {2026, 3, 14}, true, LAMP_STATE_DUE},   /* due today */
    {LAMP_COMPACT, 2025, 10, 13, {2026, 4, 13}, false, LAMP_STATE_DUE}, /* in 30 days */
    {LAMP_COMPACT, 2025, 10, 14, {2026, 4, 14}, false, LAMP_STATE_FINE},
    {LAMP_TUBE, 2024, 2, 29, {2025, 2, 28}, true, LAMP_STATE_DUE}, /* leap day */
    {LAMP_TUBE, 2026, 3, 14, {2027, 3, 14}, false, LAMP_STATE_FINE},
};

START_TEST(lamps_are_due_by_kind_in_calendar_months)
{
    hang(age_rows[_i].kind, 2.4, 30, 32);
    if (age_rows[_i].kind == LAMP_TUBE)
        lamp->tube_length_cm = fixture_quantity(55);
    lamp->installed = fixture_date(age_rows[_i].year, age_rows[_i].month, age_rows[_i].day);
    const struct uvb_plan *plan = made();
    ck_assert(plan->has_lamp_due);
    ck_assert_int_eq(date_compare(plan->lamp_due, age_rows[_i].due), 0);
    ck_assert_int_eq(plan->lamp_overdue, age_rows[_i].overdue);
    ck_assert_int_eq(plan->lamp, age_rows[_i].state);
    /* the distance was worked out for the old lamp, and the new one is stronger */
    ck_assert_int_eq(fixture_review(&f, "uvb-distance-of-old-lamp") != NULL,
                     age_rows[_i].state == LAMP_STATE_DUE);
}
END_TEST

START_TEST(a_life_in_days_is_counted_in_days)
{
    struct lamp_reference *row = LIST_AT(f.reference.lamps, struct lamp_reference, 1);
    row->life_days = fixture_cited(180, 200); /* the earlier end counts */
    row->life_days.range.unit = UNIT_DAY;
    hang(LAMP_COMPACT, 2.4, 30, 32);
    lamp->installed = fixture_date(2026, 1, 1);
    ck_assert_int_eq(date_days_between((struct date){2026, 1, 1}, made()->lamp_due), 180);
    again();
    hang(LAMP_COMPACT, 2.4, 30, 32);
    ck_assert(!made()->has_lamp_due);
    ck_assert_ptr_nonnull(fixture_review(&f, "lamp-age-unknown"));
}
END_TEST

static const struct {
    int month;
    double hours;
    enum season season;
} season_rows[] = {{2, 10, SEASON_WINTER},  {3, 12, SEASON_WINTER}, {4, 12, SEASON_SUMMER},
                   {5, 14, SEASON_SUMMER},  {8, 14, SEASON_SUMMER}, {9, 12, SEASON_SUMMER},
                   {10, 12, SEASON_WINTER}, {12, 10, SEASON_WINTER}};

static const struct {
    double set_h;
    const char *code; /* NULL: within an hour of the season's 14 */
} timer_rows[] = {
    {12, "lamp-hours-short"}, {13, NULL}, {14, NULL}, {15, NULL}, {16, "lamp-hours-long"}};

START_TEST(the_timer_is_judged_by_the_season)
{
    f.visit.date = fixture_date(2026, 6, 14);
    f.visit.enclosure.lamp.hours = (struct quantity){.known = true, .value = timer_rows[_i].set_h};
    made();
    ck_assert_int_eq(fixture_review(&f, "lamp-hours-short") != NULL,
                     timer_rows[_i].code && strstr(timer_rows[_i].code, "short") != NULL);
    ck_assert_int_eq(fixture_review(&f, "lamp-hours-long") != NULL,
                     timer_rows[_i].code && strstr(timer_rows[_i].code, "long") != NULL);
}
END_TEST

START_TEST(hours_go_with_the_season)
{
    f.visit.date = fixture_date(2026, season_rows[_i].month, 14);
    ck_assert_double_eq(made()->hours_now, season_rows[_i].hours);
    ck_assert_int_eq(f.plan.uvb.season, season_rows[_i].season);
    ck_assert_ptr_nonnull(fixture_review(&f, "season-northern"));
    again();
    f.species.hours_winter = fixture_cited(14, 14); /* no difference, no remark */
    made();
    ck_assert_ptr_null(fixture_review(&f, "season-northern"));
}
END_TEST

/* Summer are the months whose middle day is longer than twelve hours at 45 degrees (how long it is:
 * FAO 56, test_daylight.c). South of the equator it is the other half of the year; on it, and where
 * nobody said, it is the northern one. */
START_TEST(each_half_of_the_earth_has_its_summer)
{
    static const struct {
        double latitude; /* NAN: not written */
        bool south;
    } rows[] = {{NAN, false}, {50, false}, {0.1, false}, {0, false}, {-0.1, true}, {-50, true}};
    for (size_t i = 0; i < COUNT(rows); i++)
        for (int month = 1; month <= 12; month++) {
            again();
            f.visit.date = fixture_date(2026, month, 14);
            if (!isnan(rows[i].latitude))
                f.visit.enclosure.latitude_deg = fixture_quantity(rows[i].latitude);
            int day = (int)date_days_between((struct date){2026, 1, 1}, f.visit.date.date) + 1;
            bool is_long = daylight_hours(rows[i].south ? -45 : 45, day) > 12;
            made();
            ck_assert_msg(f.plan.uvb.season == (is_long ? SEASON_SUMMER : SEASON_WINTER),
                          "%g degrees, month %d", rows[i].latitude, month);
        }
}
END_TEST

/* ---- whose target ------------------------------------------------------------------------- */

START_TEST(between_two_zones_the_limits_are_the_lower_ones)
{
    f.species.ferguson_zone = fixture_cited(1, 2);
    hang(LAMP_COMPACT, 1.0, 30, 45);
    const struct uvb_plan *plan = made();
    ck_assert_double_eq(f.plan.measured[MEASURE_UVB].low, 0);
    ck_assert_double_eq(f.plan.measured[MEASURE_UVB].high, 1.4); /* of the lower zone */
    ck_assert_double_eq(plan->most_uvi, 1.4);
    ck_assert_double_eq(plan->background_uvi, 0.7);
    /* between the upper zone's mean, 1.0, and where the lower one's maximum begins, 0.6 */
    ck_assert_double_eq_tol(plan->recommended_cm, 30 * sqrt(1 / 0.8), 0.01);
    ck_assert_ptr_nonnull(fixture_review(&f, "uvb-between-zones"));
}
END_TEST

START_TEST(the_veterinarians_target_wins)
{
    hang(LAMP_COMPACT, 3.6, 30, 42); /* 1.84 there, 1.65 if the meter is off by a tenth */
    f.visit.targets.measured[MEASURE_UVB] = fixture_band(0.9, 1.5);
    f.visit.targets.because = fixture_text("sore eyes");
    const struct uvb_plan *plan = made();
    ck_assert_double_eq_tol(plan->recommended_cm, 30 * sqrt(3.6 / 1.2), 0.01);
    ck_assert_double_eq_tol(plan->nearest_cm, 30 * sqrt(3.6 / 1.5), 0.01);
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, VERDICT_TOO_HIGH);
    ck_assert_str_eq(f.plan.measured[MEASURE_UVB].target_from.because, "sore eyes");
    ck_assert_ptr_null(fixture_review(&f, "own-uvi-above-zone"));
    again();
    hang(LAMP_COMPACT, 3.6, 30, 45);
    f.visit.targets.measured[MEASURE_UVB] = fixture_band(5, 8);
    made();
    ck_assert_ptr_nonnull(fixture_review(&f, "own-uvi-above-zone"));
    /* of a clinic whose lowest zone ends below 1 too */
    again();
    LIST_AT(f.reference.uv_zones, struct uv_zone_reference, 0)->most_uvi = fixture_cited(0.6, 0.8);
    f.species.ferguson_zone = fixture_cited(1, 1);
    hang(LAMP_COMPACT, 3.6, 30, 45);
    f.visit.targets.measured[MEASURE_UVB] = fixture_band(0.7, 0.9);
    made();
    ck_assert_ptr_nonnull(fixture_review(&f, "own-uvi-above-zone"));
}
END_TEST

START_TEST(an_led_lamp_is_remarked)
{
    hang(LAMP_LED, 3.6, 30, 45);
    ck_assert_double_eq_tol(made()->recommended_cm, 30 * sqrt(3.6 / 2.75), 0.01);
    ck_assert_ptr_nonnull(fixture_review(&f, "led-lamp-as-point"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("uvb_lamp");
    TCase *tests = tcase_create("uvb_lamp");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, no_number_without_a_lamp_or_a_reading);
    tcase_add_loop_test(tests, glass_and_plastic_give_no_distance, 0, 2);
    tcase_add_test(tests, an_animal_that_needs_no_uvb_gets_none);
    tcase_add_loop_test(tests, lamps_are_due_by_kind_in_calendar_months, 0, COUNT(age_rows));
    tcase_add_test(tests, a_life_in_days_is_counted_in_days);
    tcase_add_loop_test(tests, the_timer_is_judged_by_the_season, 0, COUNT(timer_rows));
    tcase_add_loop_test(tests, hours_go_with_the_season, 0, COUNT(season_rows));
    tcase_add_test(tests, each_half_of_the_earth_has_its_summer);
    tcase_add_test(tests, between_two_zones_the_limits_are_the_lower_ones);
    tcase_add_test(tests, the_veterinarians_target_wins);
    tcase_add_test(tests, an_led_lamp_is_remarked);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
