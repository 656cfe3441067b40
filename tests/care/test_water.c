/* Water: un-ionised ammonia against worked tables, and advice that never calms as the water gets
 * worse. */
#include <math.h>
#include <string.h>

#include "common/suite.h"
#include "care/ammonia.h"
#include "care/fixture.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static struct care_fixture f;

static void set_up(void)
{
    fixture_init(&f);
    f.species.habit = fixture_choice(HABIT_AQUATIC);
    struct sourced_value *on_sheet = f.species.measured;
    on_sheet[MEASURE_WATER] = fixture_cited(16, 18);
    on_sheet[MEASURE_AMMONIA] = on_sheet[MEASURE_NITRITE] = on_sheet[MEASURE_CHLORINE] =
        fixture_cited(0, 0);
    on_sheet[MEASURE_NH3] = fixture_cited(0, 0.02);
    on_sheet[MEASURE_NITRATE] = fixture_cited(0, 20);
    on_sheet[MEASURE_PH] = fixture_cited(6.5, 8);
    f.species.water_change_percent = fixture_cited(20, 30);
    f.species.water_change_days = fixture_cited(7, 7);
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static void read_test(enum measure_id measure, double value)
{
    f.visit.measured[measure] = fixture_quantity(value);
}

static const struct water_plan *made(void)
{
    memset(&f.plan.water, 0, sizeof f.plan.water);
    memset(f.plan.measured, 0, sizeof f.plan.measured);
    ck_assert(temperature_plan(&f.b));
    ck_assert(water_plan(&f.b));
    return &f.plan.water;
}

/* Percent of the ammonia that is NH3, Emerson et al. 1975, as the tables of fresh water give it (a
 * reference table worked out apart from this program; its digits are three). */
static const struct {
    double ph;
    double percent[9]; /* at 10, 14, 16, 18, 20, 22, 25, 28, 30 deg C */
} emerson_rows[] = {
    {6.5, {.059, .080, .093, .108, .125, .145, .180, .222, .254}},
    {7.0, {.186, .253, .294, .342, .396, .457, .566, .697, .799}},
    {7.5, {.586, .796, .925, 1.07, 1.24, 1.43, 1.77, 2.17, 2.48}},
    {8.0, {1.83, 2.48, 2.87, 3.32, 3.82, 4.39, 5.38, 6.56, 7.46}},
    {8.5, {5.56, 7.43, 8.54, 9.78, 11.2, 12.7, 15.3, 18.2, 20.3}},
};

START_TEST(the_share_of_the_gas_is_the_tables)
{
    static const double temps_c[] = {10, 14, 16, 18, 20, 22, 25, 28, 30};
    for (size_t i = 0; i < COUNT(temps_c); i++) {
        double wanted = emerson_rows[_i].percent[i];
        double got = 100 * ammonia_share(emerson_rows[_i].ph, temps_c[i]);
        ck_assert_msg(fabs(got - wanted) <= 0.006 * wanted, "pH %g, %g C: %g not %g",
                      emerson_rows[_i].ph, temps_c[i], got, wanted);
    }
}
END_TEST

/* Total ammonia at which the gas is 0.02 mg/l, from the same reference. */
static const struct {
    double ph, temp_c, total_mg_l;
} total_rows[] = {
    {7.0, 16, 6.8}, {7.0, 18, 5.9}, {7.0, 25, 3.5},  {7.5, 16, 2.2},  {7.5, 18, 1.9},
    {7.5, 25, 1.1}, {8.0, 16, 0.7}, {8.0, 18, 0.60}, {8.0, 25, 0.37},
};

START_TEST(so_much_ammonia_is_as_much_gas_as_is_borne)
{
    double total = 0.02 / ammonia_share(total_rows[_i].ph, total_rows[_i].temp_c);
    double step = total_rows[_i].total_mg_l < 1 ? 0.01 : 0.1;
    ck_assert_double_eq_tol(total, total_rows[_i].total_mg_l, step / 2 + 1e-9);
}
END_TEST

/* NH3 is 17.03 g/mol and N 14.007: a kit that reads nitrogen shows 17/14 = 1.216 times too little.
 */
START_TEST(a_kit_that_reads_nitrogen_reads_less)
{
    read_test(MEASURE_AMMONIA, 1.9);
    read_test(MEASURE_PH, 7.5);
    read_test(MEASURE_WATER, 18);
    f.visit.water.ammonia_as = fixture_choice(AMMONIA_TOTAL);
    made();
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_NH3].reading, 0.02, 0.0005);
    f.visit.water.ammonia_as = fixture_choice(AMMONIA_TOTAL_N);
    made();
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_NH3].reading, 0.02 * 1.216, 0.0006);
    f.visit.water.ammonia_as = fixture_choice(AMMONIA_NH3);
    made();
    ck_assert_double_eq(f.plan.measured[MEASURE_NH3].reading, 1.9);
}
END_TEST

/* Not said is not guessed; the ammonia itself still counts. */
START_TEST(what_the_kit_reads_is_never_guessed)
{
    read_test(MEASURE_AMMONIA, 1.9);
    read_test(MEASURE_PH, 7.5);
    read_test(MEASURE_WATER, 18);
    const struct water_plan *plan = made();
    ck_assert(!f.plan.measured[MEASURE_NH3].has_reading);
    ck_assert_ptr_nonnull(fixture_review(&f, "ammonia-as-unsaid"));
    ck_assert(plan->part_now);
    ck_assert_int_eq(plan->state, WATER_HARMFUL);
}
END_TEST

/* Of what a kit reads in all the gas follows only with pH and warmth: without either that is asked
 * for, where there is any. */
START_TEST(the_gas_of_a_total_needs_ph_and_warmth)
{
    static const struct {
        double total_mg_l;
        bool has_ph, has_warmth, told;
    } rows[] = {{1.9, true, true, false},
                {1.9, false, true, true},
                {1.9, true, false, true},
                {0, false, false, false},
                {1.9, false, false, true}};
    read_test(MEASURE_AMMONIA, rows[_i].total_mg_l);
    if (rows[_i].has_ph)
        read_test(MEASURE_PH, 7.5);
    if (rows[_i].has_warmth)
        read_test(MEASURE_WATER, 18);
    f.visit.water.ammonia_as = fixture_choice(AMMONIA_TOTAL);
    made();
    ck_assert_int_eq(fixture_review(&f, "ammonia-without-ph") != NULL, rows[_i].told);
    ck_assert_int_eq(f.plan.measured[MEASURE_NH3].has_reading,
                     rows[_i].has_ph && rows[_i].has_warmth);
    ck_assert_ptr_null(fixture_review(&f, "ammonia-as-unsaid"));
}
END_TEST

/* Verdicts from calm to grave. */
static int grave(enum verdict verdict)
{
    return verdict == VERDICT_TOO_HIGH ? 2 : verdict == VERDICT_BORDERLINE;
}

/* More ammonia, a higher pH or warmer water never gives calmer advice (the reference's own rule:
 * any ammonia that shows, today). */
START_TEST(worse_water_never_gives_calmer_advice)
{
    double gas_before = -1;
    int grave_before = 0;
    bool part_before = false;
    f.visit.water.ammonia_as = fixture_choice(AMMONIA_TOTAL);
    for (int step = 0; step <= 400; step++) {
        double share = step / 400.0;
        read_test(MEASURE_AMMONIA, _i == 0 ? 8 * share : 1.5);
        read_test(MEASURE_PH, _i == 1 ? 6 + 3 * share : 7.4);
        read_test(MEASURE_WATER, _i == 2 ? 8 + 22 * share : 18);
        const struct water_plan *plan = made();
        const struct measured_plan *gas = &f.plan.measured[MEASURE_NH3];
        ck_assert_double_ge(gas->reading, gas_before);
        ck_assert_int_ge(grave(gas->verdict), grave_before);
        ck_assert(plan->part_now || !part_before);
        gas_before = gas->reading;
        grave_before = grave(gas->verdict);
        part_before = plan->part_now;
    }
    ck_assert_int_eq(grave_before, 2);
    ck_assert(part_before);
}
END_TEST

/* Whatever shows of a poison counts; never more than a part is changed at once. */
static const struct {
    enum measure_id measure;
    double value;
    enum water_state state;
    bool part_now;
} state_rows[] = {
    {MEASURE_AMMONIA, 0, WATER_FINE, false},      {MEASURE_AMMONIA, 0.05, WATER_HARMFUL, true},
    {MEASURE_NITRITE, 0.05, WATER_HARMFUL, true}, {MEASURE_CHLORINE, 0.05, WATER_HARMFUL, true},
    {MEASURE_NITRATE, 19, WATER_FINE, false},     {MEASURE_NITRATE, 60, WATER_FOULED, true},
    {MEASURE_PH, 5, WATER_FOULED, false},
};

START_TEST(what_shows_is_changed_today)
{
    read_test(state_rows[_i].measure, state_rows[_i].value);
    f.visit.water.volume_l = fixture_quantity(90);
    const struct water_plan *plan = made();
    ck_assert_int_eq(plan->state, state_rows[_i].state);
    ck_assert_int_eq(plan->part_now, state_rows[_i].part_now);
    ck_assert_double_eq(plan->part_low_l, 18); /* 20-30 % of 90 l */
    ck_assert_double_eq(plan->part_high_l, 27);
    ck_assert_double_eq(plan->part_apart_c, 1);
    ck_assert_int_eq(date_days_between(f.plan.on, plan->retest), 1);
}
END_TEST

/* A frog's dish is emptied whole; the part is for a tank that somebody lives in. */
START_TEST(a_dish_is_no_tank)
{
    f.species.habit = fixture_choice(HABIT_ARBOREAL);
    read_test(MEASURE_CHLORINE, 0.1);
    const struct water_plan *plan = made();
    ck_assert_int_eq(plan->state, WATER_HARMFUL);
    ck_assert(!plan->part_now);
}
END_TEST

/* Common practice, no source: 1 K an hour, 4 K a day. */
static const struct {
    double water_c, days;
} cooling_rows[] = {{19.5, 1}, {22, 1}, {22.5, 2}, {26, 2}, {26.5, 3}};

START_TEST(too_warm_is_cooled_in_steps)
{
    read_test(MEASURE_WATER, cooling_rows[_i].water_c);
    const struct water_plan *plan = made();
    ck_assert(plan->cool_down);
    ck_assert_double_eq(plan->cool_c_hour, 1);
    ck_assert_double_eq(plan->cool_c_day, 4);
    ck_assert_double_eq(plan->cool_days, cooling_rows[_i].days);
}
END_TEST

/* 20-30 % every 7 days: what the keeper does is judged a day's worth, and never the whole at once.
 */
static const struct {
    double share_percent, every_days;
    enum verdict verdict;
} change_rows[] = {
    {20, 7, VERDICT_IN_RANGE},  {10, 3.5, VERDICT_IN_RANGE}, {20, 14, VERDICT_TOO_LOW},
    {50, 14, VERDICT_IN_RANGE}, {100, 7, VERDICT_TOO_HIGH},  {100, 60, VERDICT_TOO_HIGH},
};

START_TEST(the_keepers_changes_are_judged)
{
    f.visit.water.change_share_percent = fixture_quantity(change_rows[_i].share_percent);
    f.visit.water.change_every_days = fixture_quantity(change_rows[_i].every_days);
    ck_assert_int_eq(made()->change_verdict, change_rows[_i].verdict);
}
END_TEST

/* The most that each kit is believed to read, and what is above it is asked about. */
static const struct {
    enum measure_id measure;
    double most;
    const char *code;
} kit_rows[] = {{MEASURE_NITRATE, 500, "water-test-implausible"},
                {MEASURE_PH, 10, "water-ph-implausible"}};

START_TEST(what_no_water_has_is_asked)
{
    read_test(kit_rows[_i].measure, kit_rows[_i].most);
    made();
    ck_assert_ptr_null(fixture_review(&f, kit_rows[_i].code));
    read_test(kit_rows[_i].measure, kit_rows[_i].most + 0.5);
    made();
    ck_assert_ptr_nonnull(fixture_review(&f, kit_rows[_i].code));
}
END_TEST

START_TEST(the_depth_goes_with_the_animal)
{
    f.species.least_depth_times = fixture_cited(1, 1);
    f.species.most_depth_times = fixture_cited(3, 3);
    f.plan.patient.has_length = true;
    f.plan.patient.length_cm = 22;
    read_test(MEASURE_DEPTH, 18);
    made();
    const struct measured_plan *depth = &f.plan.measured[MEASURE_DEPTH];
    ck_assert_double_eq(depth->low, 22);
    ck_assert_double_eq(depth->high, 66);
    ck_assert_int_eq(depth->verdict, VERDICT_TOO_LOW);
    f.visit.enclosure.size =
        (struct box){.known = true, .length_cm = 100, .width_cm = 45, .height_cm = 45};
    made();
    ck_assert_double_eq(depth->high, 40); /* 5 cm below the rim of 45 */
    f.species.most_depth_times.range.known = false;
    f.visit.enclosure.size.known = false;
    made();
    ck_assert(isinf(depth->high));
}
END_TEST

/* What is no number ends the run: nothing is planned of it. */
START_TEST(what_is_no_number_ends_the_run)
{
    static const enum measure_id read[] = {MEASURE_PH, MEASURE_AMMONIA, MEASURE_DEPTH};
    read_test(read[_i], NAN);
    ck_assert(temperature_plan(&f.b));
    ck_assert(!water_plan(&f.b));
    ck_assert_ptr_nonnull(f.diag.first);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("water");
    TCase *tests = tcase_create("water");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, the_share_of_the_gas_is_the_tables, 0, COUNT(emerson_rows));
    tcase_add_loop_test(tests, so_much_ammonia_is_as_much_gas_as_is_borne, 0, COUNT(total_rows));
    tcase_add_test(tests, a_kit_that_reads_nitrogen_reads_less);
    tcase_add_test(tests, what_the_kit_reads_is_never_guessed);
    tcase_add_loop_test(tests, the_gas_of_a_total_needs_ph_and_warmth, 0, 5);
    tcase_add_loop_test(tests, worse_water_never_gives_calmer_advice, 0, 3);
    tcase_add_loop_test(tests, what_shows_is_changed_today, 0, COUNT(state_rows));
    tcase_add_test(tests, a_dish_is_no_tank);
    tcase_add_loop_test(tests, too_warm_is_cooled_in_steps, 0, COUNT(cooling_rows));
    tcase_add_loop_test(tests, the_keepers_changes_are_judged, 0, COUNT(change_rows));
    tcase_add_loop_test(tests, what_no_water_has_is_asked, 0, COUNT(kit_rows));
    tcase_add_test(tests, the_depth_goes_with_the_animal);
    tcase_add_loop_test(tests, what_is_no_number_ends_the_run, 0, 3);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
