/* Humidity of a plan. The saturation pressures in the hand arithmetic are rows of the CRC
 * Handbook (memory), not of the code: 20 deg C 23.388 hPa, 25: 31.690, 30: 42.455, 40: 73.814. */
#include <math.h>
#include <string.h>

#include "common/suite.h"
#include "care/fixture.h"
#include "records/findings.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static struct care_fixture f;

static void set_up(void)
{
    fixture_init(&f); /* humidity 30-40 %, in shed 50-60 % */
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static void read_zone(enum zone zone, double temp_c)
{
    f.visit.measured[zone] = fixture_quantity(temp_c);
}

static void read_humidity(double rh_percent, enum zone at)
{
    f.visit.measured[MEASURE_HUMIDITY] = fixture_quantity(rh_percent);
    f.visit.enclosure.readings.humidity_at = fixture_choice(at);
}

static const struct humidity_plan *made(void)
{
    ck_assert(temperature_plan(&f.b));
    ck_assert(humidity_plan(&f.b));
    return &f.plan.humidity;
}

static double equivalent(const struct humidity_plan *plan, enum zone zone)
{
    for (size_t i = 0; i < plan->equivalent_count; i++)
        if (plan->equivalent[i].zone == zone)
            return plan->equivalent[i].rh_percent;
    return NAN;
}

START_TEST(the_reading_moves_along_the_gradient)
{
    read_zone(ZONE_COOL_SIDE, 25);
    read_zone(ZONE_WARM_SIDE, 30);
    read_zone(ZONE_BASKING_SURFACE, 40);
    read_zone(ZONE_NIGHT, 20);
    read_humidity(60, ZONE_COOL_SIDE);
    const struct humidity_plan *plan = made();
    ck_assert_double_eq_tol(equivalent(plan, ZONE_COOL_SIDE), 60, 1e-9);
    ck_assert_double_eq_tol(equivalent(plan, ZONE_WARM_SIDE), 60 * 31.690 / 42.455, 0.05);
    ck_assert_double_eq_tol(equivalent(plan, ZONE_BASKING_SURFACE), 60 * 31.690 / 73.814, 0.05);
    ck_assert_double_eq_tol(equivalent(plan, ZONE_NIGHT), 60 * 31.690 / 23.388, 0.1);
    ck_assert(isnan(equivalent(plan, ZONE_WATER)));
    /* a hygrometer is sure to 5 points: 55 and 65 % at the cool side; two thermometers to 1 K each,
     * so the step to the warm side to 1.414 K. Pressures at 31.414 and 28.586 degC by the Magnus
     * form of WMO No. 8 Annex 4.B, which is within 0.35 %. */
    const struct derivation *d = fixture_derivation(&plan->how, "humidity.warm-side.rh_percent");
    ck_assert_str_eq(d->formula, "constant-vapour-pressure");
    ck_assert_double_eq_tol(d->low, 55 * 31.690 / 45.900, 0.15);
    ck_assert_double_eq_tol(d->high, 65 * 31.690 / 39.018, 0.2);
}
END_TEST

/* No hygrometer's error makes air of more than all the water that it can hold, nor of none: 98 % is
 * 93 to 100 % at the cool side, 3 % is 0.1 to 8 %. Pressures as above. */
START_TEST(an_error_ends_where_air_is_full_or_dry)
{
    static const struct {
        double read, low, high;
    } rows[] = {{98, 93, 100}, {3, 0.1, 8}, {95, 90, 100}, {94.9, 89.9, 99.9}};
    for (size_t i = 0; i < COUNT(rows); i++, tear_down(), set_up()) {
        read_zone(ZONE_COOL_SIDE, 25);
        read_zone(ZONE_WARM_SIDE, 30);
        read_humidity(rows[i].read, ZONE_COOL_SIDE);
        const struct humidity_plan *plan = made();
        const struct derivation *d =
            fixture_derivation(&plan->how, "humidity.warm-side.rh_percent");
        ck_assert_double_eq_tol(d->low, rows[i].low * 31.690 / 45.900, 0.004 * d->low);
        ck_assert_double_eq_tol(d->high, rows[i].high * 31.690 / 39.018, 0.004 * d->high);
    }
}
END_TEST

/* Where it was read nothing was moved: 55 to 65 %. Thermometers sure to 2 K make the step sure to
 * 2.828 K: pressures at 32.828 and 27.172 degC by the Magnus form as above. */
START_TEST(each_thermometer_has_its_error_and_the_place_that_was_read_none)
{
    for (size_t i = 0; i < f.reference.limits.count; i++) {
        struct limit_reference *limit = (struct limit_reference *)f.reference.limits.items + i;
        if (strcmp(limit->name.text, "temperature-reading-error-c") == 0)
            limit->value = fixture_cited(2, 2);
    }
    read_zone(ZONE_COOL_SIDE, 25);
    read_zone(ZONE_WARM_SIDE, 30);
    read_humidity(60, ZONE_COOL_SIDE);
    const struct humidity_plan *plan = made();
    const struct derivation *here = fixture_derivation(&plan->how, "humidity.cool-side.rh_percent"),
                            *there =
                                fixture_derivation(&plan->how, "humidity.warm-side.rh_percent");
    ck_assert_double_eq_tol(here->low, 55, 1e-9);
    ck_assert_double_eq_tol(here->high, 65, 1e-9);
    const double wet_hpa = 6.112 * exp(17.62 * 32.828 / (243.12 + 32.828)),
                 dry_hpa = 6.112 * exp(17.62 * 27.172 / (243.12 + 27.172));
    ck_assert_double_eq_tol(there->low, 55 * 31.690 / wet_hpa, 0.2);
    ck_assert_double_eq_tol(there->high, 65 * 31.690 / dry_hpa, 0.3);
}
END_TEST

/* The formula holds to 50 degC: with a step sure to 1.414 K nothing is said of a place hotter than
 * 48.586, and no end of its band is made up. */
START_TEST(nothing_is_said_past_the_formula)
{
    static const double hot_c[] = {48.5, 48.6, 49.44, 50};
    for (size_t i = 0; i < COUNT(hot_c); i++, tear_down(), set_up()) {
        read_zone(ZONE_COOL_SIDE, 25);
        read_zone(ZONE_WARM_SIDE, hot_c[i]);
        read_humidity(60, ZONE_COOL_SIDE);
        const struct humidity_plan *plan = made();
        ck_assert_double_eq_tol(equivalent(plan, ZONE_COOL_SIDE), 60, 1e-9);
        ck_assert_int_eq(isnan(equivalent(plan, ZONE_WARM_SIDE)) != 0, i > 0);
        for (size_t at = 0; at < plan->equivalent_count; at++) {
            const struct humidity_zone *one = &plan->equivalent[at];
            ck_assert(one->low_percent <= one->rh_percent && one->rh_percent <= one->high_percent);
        }
    }
}
END_TEST

/* The trap: a sealed box would keep g/m3, e / T, and be read 1.7 % higher (303.15 / 298.15). */
START_TEST(the_sealed_box_answer_differs)
{
    read_zone(ZONE_COOL_SIDE, 25);
    read_zone(ZONE_WARM_SIDE, 30);
    read_humidity(60, ZONE_COOL_SIDE);
    double sealed = 60 * (31.690 / 298.15) / (42.455 / 303.15);
    double vented = equivalent(made(), ZONE_WARM_SIDE);
    ck_assert_double_eq_tol(sealed / vented, 1.0168, 0.001);
    ck_assert_double_gt(sealed - vented, 0.5);
}
END_TEST

START_TEST(a_zone_without_reading_takes_the_middle_of_its_target)
{
    read_zone(ZONE_COOL_SIDE, 25);
    read_humidity(50, ZONE_COOL_SIDE);
    f.species.measured[ZONE_WARM_SIDE] = fixture_cited(29, 31);
    f.species.measured[ZONE_NIGHT].range.known = false;
    const struct humidity_plan *plan = made();
    ck_assert_double_eq_tol(equivalent(plan, ZONE_WARM_SIDE), 50 * 31.690 / 42.455, 0.05);
    ck_assert(isnan(equivalent(plan, ZONE_NIGHT)));
}
END_TEST

START_TEST(a_hotter_warm_side_never_reads_wetter)
{
    double before = INFINITY;
    for (double warm_c = 26; warm_c <= 48; warm_c += 0.5) {
        fixture_finish(&f);
        fixture_init(&f);
        read_zone(ZONE_COOL_SIDE, 25);
        read_zone(ZONE_WARM_SIDE, warm_c);
        read_humidity(60, ZONE_COOL_SIDE);
        double now = equivalent(made(), ZONE_WARM_SIDE);
        ck_assert_double_lt(now, before);
        before = now;
    }
}
END_TEST

/* 28 % at the warm side of 30 deg C is 28 x 42.455 / 31.690 = 37.5 % at the cool side of 25, and
 * 80 % there is more than the cool air can hold. Both are shown, and neither is judged: nobody read
 * it there. */
START_TEST(a_reading_under_the_lamp_is_moved_and_not_judged)
{
    static const struct {
        double read, there;
    } rows[] = {{28, 28 * 42.455 / 31.690}, {80, 100}};
    read_zone(ZONE_COOL_SIDE, 25);
    read_zone(ZONE_WARM_SIDE, 30);
    read_humidity(rows[_i].read, ZONE_WARM_SIDE);
    const struct humidity_plan *plan = made();
    const struct measured_plan *air = &f.plan.measured[MEASURE_HUMIDITY];
    ck_assert_int_eq(plan->reading_at, ZONE_WARM_SIDE);
    ck_assert_double_eq(air->reading, rows[_i].read);
    ck_assert_double_eq_tol(equivalent(plan, ZONE_COOL_SIDE), rows[_i].there, 0.05);
    ck_assert_int_eq(air->verdict, VERDICT_UNKNOWN);
    ck_assert_double_eq(air->change, 0);
    ck_assert_int_eq(plan->wall, WALL_UNKNOWN);
    ck_assert_ptr_nonnull(fixture_review(&f, "hygrometer-place"));
}
END_TEST

START_TEST(a_reading_that_cannot_be_moved_is_not_judged)
{
    read_humidity(24, ZONE_WARM_SIDE);
    f.species.measured[ZONE_COOL_SIDE].range.known = false;
    const struct humidity_plan *plan = made();
    ck_assert_int_eq(plan->reading_at, ZONE_WARM_SIDE);
    ck_assert_int_eq(f.plan.measured[MEASURE_HUMIDITY].verdict, VERDICT_UNKNOWN);
    ck_assert_double_eq(f.plan.measured[MEASURE_HUMIDITY].change, 0);
    ck_assert_ptr_nonnull(fixture_review(&f, "hygrometer-not-moved"));
}
END_TEST

static const struct {
    const char *stance;
    double low, high;
    bool in_shed;
    enum origin origin;
} change_rows[] = {
    {"usual", 30, 40, false, ORIGIN_SPECIES_SHEET},
    {"shed-band", 50, 60, true, ORIGIN_FINDING},
    {"low-end", 30, 35, false, ORIGIN_FINDING},
    /* 32.5 to 37.5 % is finer than a meter that may be off by 5 % either way */
    {"middle", 30, 40, false, ORIGIN_SPECIES_SHEET},
    {"upper-half", 35, 40, false, ORIGIN_FINDING},
};

START_TEST(findings_change_the_target)
{
    fixture_settle(&f, "humidity", change_rows[_i].stance,
                   _i ? "finding:retained-shed" : "default");
    const struct humidity_plan *plan = made();
    ck_assert_double_eq(f.plan.measured[MEASURE_HUMIDITY].low, change_rows[_i].low);
    ck_assert_double_eq(f.plan.measured[MEASURE_HUMIDITY].high, change_rows[_i].high);
    ck_assert_int_eq(plan->in_shed_now, change_rows[_i].in_shed);
    ck_assert_int_eq(f.plan.measured[MEASURE_HUMIDITY].target_from.origin, change_rows[_i].origin);
    ck_assert(plan->has_shed_band);
    ck_assert_double_eq(plan->shed_high_percent, 60);
    ck_assert_int_eq(f.plan.measured[MEASURE_HUMIDITY].verdict, VERDICT_UNKNOWN);
    ck_assert_ptr_nonnull(fixture_review(&f, "humidity-unread"));
}
END_TEST

START_TEST(without_a_shed_band_nothing_is_invented)
{
    f.species.humidity_shed_percent.range.known = false;
    fixture_settle(&f, "humidity", "shed-band", "finding:retained-shed");
    const struct humidity_plan *plan = made();
    ck_assert_double_eq(f.plan.measured[MEASURE_HUMIDITY].high, 40);
    ck_assert(!plan->in_shed_now);
    ck_assert_ptr_nonnull(fixture_review(&f, "no-shed-band"));
}
END_TEST

START_TEST(the_veterinarians_target_wins)
{
    fixture_settle(&f, "humidity", "shed-band", "finding:retained-shed");
    f.visit.targets.measured[MEASURE_HUMIDITY] = fixture_band(55, 65);
    f.visit.targets.because = fixture_text("shed left on the toes");
    read_zone(ZONE_COOL_SIDE, 25);
    read_humidity(40, ZONE_COOL_SIDE);
    const struct humidity_plan *plan = made();
    ck_assert_double_eq(f.plan.measured[MEASURE_HUMIDITY].low, 55);
    ck_assert_double_eq(f.plan.measured[MEASURE_HUMIDITY].change, 15);
    ck_assert_int_eq(f.plan.measured[MEASURE_HUMIDITY].target_from.origin, ORIGIN_VETERINARIAN);
    ck_assert_str_eq(f.plan.measured[MEASURE_HUMIDITY].target_from.because,
                     "shed left on the toes");
    ck_assert(!plan->in_shed_now);
    ck_assert_ptr_nonnull(fixture_review(&f, "own-humidity-target")); /* above 60 */
}
END_TEST

/* Dew point of 25 deg C and 80 %: 21 deg C in a published table of whole degrees (memory). */
START_TEST(dew_point_of_the_air_read)
{
    read_zone(ZONE_COOL_SIDE, 25);
    read_humidity(80, ZONE_COOL_SIDE);
    const struct humidity_plan *plan = made();
    ck_assert(plan->has_dew_point);
    ck_assert_double_eq_tol(plan->dew_point_c, 21, 1);
    ck_assert_int_eq(plan->wall, WALL_DRY); /* nothing colder than 25 was read */
}
END_TEST

/* Water lacking, from the CRC rows and the gas law: at 25 deg C a point of humidity is
 * 216.679 x 0.31690 / 298.15 = 0.23031 g/m3; from 20 % to 30 % lack ten of them, give or take five.
 */
START_TEST(water_that_the_air_lacks)
{
    read_zone(ZONE_COOL_SIDE, 25);
    read_humidity(20, ZONE_COOL_SIDE);
    const struct humidity_plan *plan = made();
    ck_assert_int_eq(f.plan.measured[MEASURE_HUMIDITY].verdict, VERDICT_TOO_LOW);
    ck_assert_double_eq(f.plan.measured[MEASURE_HUMIDITY].change, 10);
    ck_assert(plan->has_water_lack);
    ck_assert_double_eq_tol(plan->water_lack_g_m3, 2.3031, 0.005);
    const struct derivation *d = fixture_derivation(&plan->how, "humidity.water_lack_g_m3");
    ck_assert_double_eq_tol(d->low, 1.1516, 0.005);
    ck_assert_double_eq_tol(d->high, 3.4547, 0.005);
}
END_TEST

/* The hygrometer's own five points (common practice, no source) hold the target's end. */
START_TEST(air_at_the_edge_is_measured_again)
{
    read_zone(ZONE_COOL_SIDE, 25);
    read_humidity(44, ZONE_COOL_SIDE); /* 30-40 % */
    made();
    ck_assert_int_eq(f.plan.measured[MEASURE_HUMIDITY].verdict, VERDICT_BORDERLINE);
    ck_assert_double_eq(f.plan.measured[MEASURE_HUMIDITY].change, -4);
}
END_TEST

START_TEST(air_that_is_wet_enough_lacks_nothing)
{
    read_zone(ZONE_COOL_SIDE, 25);
    read_humidity(46, ZONE_COOL_SIDE);
    const struct humidity_plan *plan = made();
    ck_assert_int_eq(f.plan.measured[MEASURE_HUMIDITY].verdict, VERDICT_TOO_HIGH);
    ck_assert_double_eq(f.plan.measured[MEASURE_HUMIDITY].change, -6);
    ck_assert(!plan->has_water_lack);
}
END_TEST

/* A 6 mm pane (R 0.13 + 0.006 + 0.13 = 0.266) at 25 deg C inside: its face is 25 - (25 - room) x
 * 0.13 / 0.266. The dew point of 25 deg C, 80 % is 21 deg C (table above, within one degree), so a
 * room of 10 deg C (face 17.7) runs wet and a room of 23 (face 24.0) does not. */
static const struct {
    double room_c, face_c;
    enum wall_state wall;
} wall_rows[] = {{10, 17.67, WALL_WET}, {23, 24.02, WALL_DRY}};

START_TEST(a_cold_room_makes_the_glass_run_wet)
{
    f.visit.enclosure.walls = fixture_choice(WALL_GLASS);
    f.visit.enclosure.lid = fixture_choice(LID_MESH);
    f.visit.enclosure.readings.room_c = fixture_quantity(wall_rows[_i].room_c);
    read_zone(ZONE_COOL_SIDE, 25);
    read_humidity(80, ZONE_COOL_SIDE);
    const struct humidity_plan *plan = made();
    ck_assert_int_eq(plan->wall, wall_rows[_i].wall);
    ck_assert_double_eq_tol(fixture_derivation(&plan->how, "humidity.wall_face_c")->value,
                            wall_rows[_i].face_c, 0.01);
    ck_assert_ptr_null(fixture_derivation(&plan->how, "humidity.lid_face_c"));
}
END_TEST

START_TEST(without_a_room_the_coldest_reading_stands_for_the_wall)
{
    read_zone(ZONE_COOL_SIDE, 25);
    read_zone(ZONE_NIGHT, 19);
    read_humidity(80, ZONE_COOL_SIDE);
    ck_assert_int_eq(made()->wall, WALL_WET);
    ck_assert_double_eq(
        fixture_derivation(&f.plan.humidity.how, "humidity.coldest_surface_c")->value, 19);
    ck_assert_double_eq(equivalent(&f.plan.humidity, ZONE_NIGHT), 100); /* it cannot hold more */
}
END_TEST

static const double impossible[] = {0, -3, 100.5, NAN, INFINITY};

START_TEST(an_impossible_humidity_is_refused_with_its_place)
{
    read_humidity(impossible[_i], ZONE_COOL_SIDE);
    f.visit.measured[MEASURE_HUMIDITY].at = (struct mark){"visit.yaml", 12, 9};
    ck_assert(temperature_plan(&f.b));
    ck_assert(!humidity_plan(&f.b));
    ck_assert(fixture_said(&f, "humidity-impossible"));
    ck_assert_int_eq(f.diag.first->at.line, 12);
    ck_assert(!f.plan.measured[MEASURE_HUMIDITY].has_reading);
}
END_TEST

START_TEST(an_animal_of_the_water_has_no_humidity)
{
    f.species.measured[MEASURE_HUMIDITY].range.known = false;
    read_humidity(50, ZONE_COOL_SIDE);
    const struct humidity_plan *plan = made();
    ck_assert(!f.plan.measured[MEASURE_HUMIDITY].applies);
    ck_assert_ptr_null(plan->how.first);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("humidity_plan");
    TCase *tests = tcase_create("humidity_plan");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, the_reading_moves_along_the_gradient);
    tcase_add_test(tests, an_error_ends_where_air_is_full_or_dry);
    tcase_add_test(tests, each_thermometer_has_its_error_and_the_place_that_was_read_none);
    tcase_add_test(tests, nothing_is_said_past_the_formula);
    tcase_add_test(tests, the_sealed_box_answer_differs);
    tcase_add_test(tests, a_zone_without_reading_takes_the_middle_of_its_target);
    tcase_add_test(tests, a_hotter_warm_side_never_reads_wetter);
    tcase_add_loop_test(tests, a_reading_under_the_lamp_is_moved_and_not_judged, 0, 2);
    tcase_add_test(tests, a_reading_that_cannot_be_moved_is_not_judged);
    tcase_add_loop_test(tests, findings_change_the_target, 0, COUNT(change_rows));
    tcase_add_test(tests, without_a_shed_band_nothing_is_invented);
    tcase_add_test(tests, the_veterinarians_target_wins);
    tcase_add_test(tests, dew_point_of_the_air_read);
    tcase_add_test(tests, water_that_the_air_lacks);
    tcase_add_test(tests, air_at_the_edge_is_measured_again);
    tcase_add_test(tests, air_that_is_wet_enough_lacks_nothing);
    tcase_add_loop_test(tests, a_cold_room_makes_the_glass_run_wet, 0, COUNT(wall_rows));
    tcase_add_test(tests, without_a_room_the_coldest_reading_stands_for_the_wall);
    tcase_add_loop_test(tests, an_impossible_humidity_is_refused_with_its_place, 0,
                        COUNT(impossible));
    tcase_add_test(tests, an_animal_of_the_water_has_no_humidity);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
