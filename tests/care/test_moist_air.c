/* The physics of moist air against published tables. "memory" beside a row: the number
 * was not re-read in the publication itself. */
#include <math.h>

#include "common/suite.h"
#include "care/moist_air.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static double saturation(double temp_c)
{
    double hpa = NAN;
    ck_assert(moist_air_saturation_hpa(temp_c, &hpa));
    return hpa;
}

static double dew_point(double temp_c, double rh_percent)
{
    double dew_c = NAN;
    ck_assert(moist_air_dew_point_c(temp_c, rh_percent, &dew_c));
    return dew_c;
}

static double moved(double from_c, double rh_percent, double to_c)
{
    double rh = NAN;
    ck_assert(moist_air_rh_at(from_c, rh_percent, to_c, &rh));
    return rh;
}

static double water(double temp_c, double rh_percent)
{
    double g_m3 = NAN;
    ck_assert(moist_air_water_g_m3(temp_c, rh_percent, &g_m3));
    return g_m3;
}

static const struct {
    double temp_c, hpa;
    const char *from;
} pressure_rows[] = {
    /* CRC Handbook of Chemistry and Physics, vapour pressure of water (memory) */
    {0, 6.113, "CRC"},
    {5, 8.726, "CRC"},
    {10, 12.281, "CRC"},
    {20, 23.388, "CRC"},
    {25, 31.690, "CRC"},
    {30, 42.455, "CRC"},
    {40, 73.814, "CRC"},
    {50, 123.440, "CRC"},
    /* ASHRAE Handbook Fundamentals 2017, chapter 1, table 3 (memory) */
    {5, 8.726, "ASHRAE"},
    {25, 31.697, "ASHRAE"},
    {50, 123.513, "ASHRAE"},
};

START_TEST(saturation_agrees_with_the_handbooks)
{
    double hpa = pressure_rows[_i].hpa, temp_c = pressure_rows[_i].temp_c;
    ck_assert_double_eq_tol(saturation(temp_c), hpa, 0.001 * hpa);
}
END_TEST

/* A published table of dew points in whole degrees (memory); its dry columns are known to be wrong
 * and are left out. */
static const struct {
    double temp_c, rh_percent, dew_c;
} dew_rows[] = {{50, 70, 43}, {20, 60, 12}, {20, 80, 16}, {25, 60, 16}, {25, 80, 21},
                {30, 70, 24}, {30, 80, 26}, {35, 80, 31}, {40, 90, 38}};

START_TEST(dew_point_agrees_with_the_table)
{
    double temp_c = dew_rows[_i].temp_c, rh = dew_rows[_i].rh_percent;
    ck_assert_double_eq_tol(dew_point(temp_c, rh), dew_rows[_i].dew_c, 1.0);
}
END_TEST

/* ASHRAE Fundamentals 2017, chapter 1, example 1 (memory): 40 deg C dry bulb, 20 deg C wet bulb
 * at 101.325 kPa is 14 % and a dew point of 7 deg C. */
START_TEST(dew_point_agrees_with_the_ashrae_example)
{
    ck_assert_double_eq_tol(dew_point(40, 14), 7, 0.5);
}
END_TEST

/* By definition: the air at its dew point is saturated. */
START_TEST(dew_point_is_the_inverse_of_saturation)
{
    for (double temp_c = 0; temp_c <= 50; temp_c += 2.5)
        for (double rh = 5; rh <= 100; rh += 5) {
            double vapour = saturation(temp_c) * rh / 100;
            ck_assert_double_eq_tol(saturation(dew_point(temp_c, rh)), vapour, 1e-9 * vapour);
        }
    ck_assert_double_eq_tol(dew_point(25, 100), 25, 1e-9);
}
END_TEST

/* Arithmetic on the CRC column above: RH2 = RH1 es(t1) / es(t2). 20 deg C 50 % warmed to 25 is
 * 50 x 23.388 / 31.690 = 36.90 %, to 30: 27.54 %; 35 deg C is not in the rows above and was
 * worked out from the equation itself (computed, 20.8 %). */
START_TEST(warming_air_dries_it_by_the_ratio_of_saturations)
{
    ck_assert_double_eq_tol(moved(20, 50, 25), 50 * 23.388 / 31.690, 0.05);
    ck_assert_double_eq_tol(moved(20, 50, 30), 50 * 23.388 / 42.455, 0.05);
    ck_assert_double_eq_tol(moved(20, 50, 35), 20.8, 0.05);
    ck_assert_double_eq_tol(moved(30, moved(20, 50, 30), 20), 50, 1e-9);
}
END_TEST

/* The trap: a sealed box keeps g/m3, so its vapour pressure rises with the temperature. A box
 * with vents does not, and the answers differ by T2/T1: 1.7 % of the value over five degrees. */
START_TEST(a_box_with_vents_is_not_a_sealed_box)
{
    double sealed = water(20, 50) / water(30, 100) * 100;
    double vented = moved(20, 50, 30);
    ck_assert_double_eq_tol(sealed / vented, 303.15 / 293.15, 1e-6);
    ck_assert_double_gt(sealed - vented, 0.5);
}
END_TEST

/* Water in saturated air, g/m3, tables of meteorology (memory), within 0.5 %. */
static const struct {
    double temp_c, g_m3;
} water_rows[] = {{0, 4.8}, {10, 9.4}, {20, 17.3}, {30, 30.4}, {40, 51.1}, {50, 83.0}};

START_TEST(water_agrees_with_the_table)
{
    /* the rows have one decimal: half a digit is allowed on top */
    double tolerance = 0.005 * water_rows[_i].g_m3 + 0.05;
    ck_assert_double_eq_tol(water(water_rows[_i].temp_c, 100), water_rows[_i].g_m3, tolerance);
}
END_TEST

START_TEST(a_hotter_place_never_reads_wetter)
{
    for (double rh = 1; rh <= 100; rh += 3)
        for (double to_c = 1; to_c <= 50; to_c += 1)
            ck_assert_double_lt(moved(25, rh, to_c), moved(25, rh, to_c - 1));
}
END_TEST

START_TEST(nonsense_is_refused_and_nothing_is_touched)
{
    static const double bad_rh[] = {0, -1, 100.001, NAN, INFINITY, -INFINITY};
    static const double bad_c[] = {-40.1, 50.1, NAN, INFINITY, -INFINITY};
    double out = 123;
    for (size_t i = 0; i < COUNT(bad_rh); i++) {
        ck_assert(!moist_air_dew_point_c(20, bad_rh[i], &out));
        ck_assert(!moist_air_rh_at(20, bad_rh[i], 25, &out));
        ck_assert(!moist_air_water_g_m3(20, bad_rh[i], &out));
    }
    for (size_t i = 0; i < COUNT(bad_c); i++) {
        ck_assert(!moist_air_saturation_hpa(bad_c[i], &out));
        ck_assert(!moist_air_dew_point_c(bad_c[i], 50, &out));
        ck_assert(!moist_air_rh_at(bad_c[i], 50, 20, &out));
        ck_assert(!moist_air_rh_at(20, 50, bad_c[i], &out));
        ck_assert(!moist_air_water_g_m3(bad_c[i], 50, &out));
    }
    /* a dew point below the equation's range */
    ck_assert(!moist_air_dew_point_c(20, 0.1, &out));
    ck_assert_double_eq(out, 123);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("moist_air");
    TCase *tests = tcase_create("moist_air");
    tcase_add_loop_test(tests, saturation_agrees_with_the_handbooks, 0, COUNT(pressure_rows));
    tcase_add_loop_test(tests, dew_point_agrees_with_the_table, 0, COUNT(dew_rows));
    tcase_add_test(tests, dew_point_agrees_with_the_ashrae_example);
    tcase_add_test(tests, dew_point_is_the_inverse_of_saturation);
    tcase_add_test(tests, warming_air_dries_it_by_the_ratio_of_saturations);
    tcase_add_test(tests, a_box_with_vents_is_not_a_sealed_box);
    tcase_add_loop_test(tests, water_agrees_with_the_table, 0, COUNT(water_rows));
    tcase_add_test(tests, a_hotter_place_never_reads_wetter);
    tcase_add_test(tests, nonsense_is_refused_and_nothing_is_touched);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
