/* The length of the day against published values, from memory: FAO Irrigation and Drainage Paper 56
 * (Allen et al. 1998), example 8, 20 degrees south on 3 September, sunset hour angle 1.527 rad; and
 * by hand: at the equator always 12 h, day and night of two latitudes make up 24 h. */
#include <math.h>

#include "care/daylight.h"
#include "common/suite.h"

static void set_up(void)
{
}

static void tear_down(void)
{
}

START_TEST(the_published_example)
{
    ck_assert_double_eq_tol(daylight_hours(-20, 246), 24 / 3.14159265 * 1.527, 0.01);
}
END_TEST

START_TEST(at_the_equator_and_on_both_halves)
{
    for (int day = 1; day <= 366; day++) {
        ck_assert_double_eq_tol(daylight_hours(0, day), 12, 1e-9);
        for (double latitude = 5; latitude < 90; latitude += 5)
            ck_assert_double_eq_tol(daylight_hours(latitude, day) + daylight_hours(-latitude, day),
                                    24, 1e-9);
    }
}
END_TEST

/* Almanac day lengths with the air's bending of light (nautical almanac, from memory): 40 degrees
 * 15 h 1 min and 9 h 20 min at the solstices, 50 degrees 16 h 22 min and 8 h 4 min. The formula
 * leaves that out: up to a quarter of an hour shorter, never longer. */
START_TEST(almanac_rows)
{
    static const struct {
        double latitude, longest, shortest;
    } rows[] = {{40, 15.02, 9.33}, {50, 16.37, 8.07}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double june = daylight_hours(rows[i].latitude, 172);
        double december = daylight_hours(rows[i].latitude, 355);
        ck_assert_double_lt(june, rows[i].longest);
        ck_assert_double_gt(june, rows[i].longest - 0.27);
        ck_assert_double_lt(december, rows[i].shortest);
        ck_assert_double_gt(december, rows[i].shortest - 0.27);
    }
}
END_TEST

/* A published table of sunrise (Strous, "Astronomy Answers", The Position of the Sun: Tables, table
 * 1, 1 January, its row read in a copy): minutes after midnight by the sun, from 60 degrees south
 * to 50 north in steps of 2. The day is twice what is left until noon. The table counts the bending
 * of light: the formula is never longer by more than the table's rounding, and shorter by no more
 * than 17 minutes at 60 degrees, 8 within 50. */
START_TEST(a_sunrise_table)
{
    static const int minutes[] = {163, 182, 199, 212, 224, 235, 245, 253, 261, 268, 275, 281,
                                  287, 292, 297, 302, 307, 311, 316, 320, 324, 328, 332, 335,
                                  339, 343, 346, 350, 353, 356, 360, 363, 367, 370, 373, 377,
                                  380, 384, 388, 391, 395, 399, 403, 407, 411, 416, 421, 425,
                                  431, 436, 442, 448, 455, 462, 470, 479};
    const double rounding_h = 1.0 / 60, day_h = 24;
    for (size_t i = 0; i < sizeof minutes / sizeof *minutes; i++) {
        double latitude = -60 + 2 * (double)i;
        double table_h = day_h - 2 * minutes[i] / 60.0, ours_h = daylight_hours(latitude, 1);
        double most_h = fabs(latitude) > 50 ? 17.0 / 60 : 8.0 / 60;
        ck_assert_msg(ours_h <= table_h + rounding_h && ours_h >= table_h - most_h,
                      "%g degrees: %g h, table %g h", latitude, ours_h, table_h);
    }
}
END_TEST

START_TEST(where_the_sun_does_not_set)
{
    ck_assert_double_eq(daylight_hours(80, 172), 24);
    ck_assert_double_eq(daylight_hours(80, 355), 0);
    ck_assert_double_eq(daylight_hours(-90, 172), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("daylight");
    TCase *tcase = tcase_create("daylight");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, the_published_example);
    tcase_add_test(tcase, at_the_equator_and_on_both_halves);
    tcase_add_test(tcase, almanac_rows);
    tcase_add_test(tcase, a_sunrise_table);
    tcase_add_test(tcase, where_the_sun_does_not_set);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
