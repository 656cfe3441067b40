/* The ends of what is worked out of a UVB lamp: the lid, a perch below it, a tube of unknown
 * length, the map of a lamp that moves. The clinic hangs for the mean of Ferguson zone 3 as in
 * test_uvb_plan.c (Ferguson et al. 2010; Baines et al. 2016, table 1): target 1.0-2.6, aim 1.8.
 * Point lamps are worked out by hand with the inverse square, endless lines with the inverse
 * distance; the truth of a tube of unknown length lies between. */
#include <math.h>

#include "common/suite.h"
#include "care/lamp_fixture.h"
#include "care/uvb.h"

static struct visit_enclosure *box;

static void set_up(void)
{
    set_up_lamp();
    fixture_uv_use(&f, UV_LIMIT_MEAN, UV_START_LOW);
    box = &f.visit.enclosure;
}

static void measure_box(double height_cm, double platform_cm, double back_cm)
{
    box->size = (struct box){true, 120, 60, height_cm, UNIT_CENTIMETRE, {0}};
    box->platform_height_cm = fixture_quantity(platform_cm);
    box->back_height_cm = fixture_quantity(back_cm);
}

/* ---- the lid ---------------------------------------------------------------------------- */

/* 14 at 30 cm is still 3.5 at 60, as far as that reading is believed. Below a lid at 60 cm there
 * is no other place, so the lamp is too strong; a centimetre more and only the reading ends. */
START_TEST(too_strong_is_the_lamp_where_the_lid_ends_the_search)
{
    static const struct {
        double height_cm;
        enum uvb_distance_why why;
    } rows[] = {{60 + 14, DISTANCE_TOO_STRONG},
                {59 + 14, DISTANCE_TOO_STRONG},
                {61 + 14, DISTANCE_OUT_OF_REACH}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        hang(LAMP_COMPACT, 14, 30, 0);
        measure_box(rows[i].height_cm, 10, 4);
        ck_assert_int_eq(made()->distance_why, rows[i].why);
        const struct review *told = fixture_review(&f, "uvb-too-strong-here");
        ck_assert_ptr_nonnull(told);
        ck_assert_double_eq_tol(fixture_fact(told, "light")->low, 3.5, 1e-9);
        ck_assert_double_eq_tol(fixture_fact(told, "light")->high, 31.5, 1e-9); /* at 20 cm */
        ck_assert_double_eq(fixture_fact(told, "supported")->low, 20);
        ck_assert_double_eq(fixture_fact(told, "supported")->high, 60);
        ck_assert_double_eq(fixture_fact(told, "ceiling")->low, 2.6);
        ck_assert_double_eq(fixture_fact(told, "target")->low, 1);
    }
}
END_TEST

/* 0.1 at 40 cm: 0.4 at 20 cm, where a point lamp begins, is too weak for 1.0 wherever it hangs. Its
 * middle beside the spot makes no difference: above the spot it is too weak too. At 63 cm half the
 * distance is 31.5: nearer nobody knows. */
START_TEST(too_weak_is_the_lamp_where_its_nearest_place_was_looked_at)
{
    static const struct {
        double uvi, at_cm, offset_cm;
        enum uvb_distance_why why;
    } rows[] = {{0.1, 40, 0, DISTANCE_TOO_WEAK},
                {0.1, 40, 10, DISTANCE_TOO_WEAK},
                {0.1, 41, 0, DISTANCE_OUT_OF_REACH},
                /* 1.0 above the spot, and too weak 12 cm beside it */
                {0.25, 40, 12, DISTANCE_OUT_OF_REACH}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        hang(LAMP_COMPACT, rows[i].uvi, rows[i].at_cm, 0);
        lamp->offset_cm = fixture_quantity(rows[i].offset_cm);
        ck_assert_int_eq(made()->distance_why, rows[i].why);
        ck_assert_ptr_nonnull(fixture_review(&f, "uvb-too-weak-here"));
    }
}
END_TEST

/* 0.65 at 40 cm is 2.6 at 20 cm, where the formula ends: the target itself holds it there. 0.6 is
 * 2.4 there, and only the formula does. */
START_TEST(the_formula_holds_the_nearest_where_the_target_would_not)
{
    hang(LAMP_COMPACT, 0.651, 40, 0);
    ck_assert(!made()->nearest_held_by_formula);
    ck_assert_ptr_null(fixture_review(&f, "uvb-nearest-held"));
    again();
    hang(LAMP_COMPACT, 0.65, 40, 0);
    ck_assert(made()->nearest_held_by_formula);
    again();
    hang(LAMP_COMPACT, 0.6, 40, 0);
    ck_assert(made()->nearest_held_by_formula);
    ck_assert_double_eq(fixture_fact(fixture_review(&f, "uvb-nearest-held"), "nearest")->low, 20);
    again(); /* half of 64 cm is where this reading ends: 4 times 0.65, to the last bit */
    hang(LAMP_COMPACT, 0.65, 64, 0);
    ck_assert_double_eq_tol(made()->nearest_cm, 32, 1e-3);
    ck_assert(f.plan.uvb.nearest_held_by_formula);
    again(); /* of unknown length: 2.0 as a line at 15 cm, and 4.0 as a point, which is too much */
    hang(LAMP_TUBE, 1, 30, 0);
    ck_assert(!made()->nearest_held_by_formula);
    ck_assert_double_eq_tol(f.plan.uvb.nearest_cm, 30 / sqrt(2.6), 1e-3);
}
END_TEST

/* Nearer than any formula holds it is brighter still than at the nearest place, and how bright
 * nobody knows. 0.65 at 64 cm is 2.6 at 32, so nearer it is more. A tube of unknown length of 1.0
 * at 30 cm is 2.0 as a line and 4.0 as a point at 15 cm: that may be too much or not; of 1.5 it
 * is 3.0 at least. Beside the middle of the lamp nobody knows either. */
START_TEST(nearer_than_the_nearest_too_much_is_more)
{
    static const struct {
        enum lamp_kind kind;
        double uvi, at_cm, height_cm, offset_cm;
        enum verdict verdict;
    } rows[] = {{LAMP_COMPACT, 0.65, 64, 31, 0, VERDICT_TOO_HIGH},
                {LAMP_COMPACT, 0.64, 64, 31, 0, VERDICT_UNKNOWN},
                {LAMP_COMPACT, 0.65, 64, 31, 5, VERDICT_UNKNOWN},
                {LAMP_TUBE, 1, 30, 12, 0, VERDICT_UNKNOWN},
                {LAMP_TUBE, 1.5, 30, 12, 0, VERDICT_TOO_HIGH}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        hang(rows[i].kind, rows[i].uvi, rows[i].at_cm, rows[i].height_cm);
        lamp->offset_cm = fixture_quantity(rows[i].offset_cm);
        ck_assert_int_eq(light()->verdict, rows[i].verdict);
        ck_assert(!light()->has_reading);
    }
}
END_TEST

/* 3.6 at 30 cm: 2.6 lies at 35.30 cm, 1.0 at 56.92, 1.8 at 42.43. A lid between the first two ends
 * the farthest, one nearer than the first leaves no place, one below the aim holds it. */
START_TEST(the_lid_is_the_farthest_that_a_lamp_hangs)
{
    hang(LAMP_COMPACT, 3.6, 30, 0);
    measure_box(50 + 14, 10, 4);
    ck_assert_double_eq(made()->farthest_cm, 50);
    ck_assert_double_eq_tol(f.plan.uvb.recommended_cm, 42.426, 1e-3);
    again();
    hang(LAMP_COMPACT, 3.6, 30, 0);
    measure_box(40 + 14, 10, 4);
    ck_assert_double_eq(made()->recommended_cm, 40);
    again();
    hang(LAMP_COMPACT, 3.6, 30, 0);
    measure_box(35 + 14, 10, 4);
    ck_assert_int_eq(made()->distance_why, DISTANCE_TOO_STRONG);
    const struct review *told = fixture_review(&f, "lamp-above-box");
    ck_assert_double_eq_tol(fixture_fact(told, "lamp")->low, 35.301 + 14, 1e-3);
    ck_assert_double_eq(fixture_fact(told, "box")->low, 49);
    again(); /* above the box now: there it may stay */
    hang(LAMP_COMPACT, 3.6, 30, 45);
    measure_box(35 + 14, 10, 4);
    ck_assert_double_eq(made()->farthest_cm, 45);
}
END_TEST

/* 9 at 30 cm of a tube of unknown length: at 15 cm 36 as a point and 18 as a line, at 90 cm 1
 * and 3. Who looks at it is told the most of the near end and the least of the far one. */
START_TEST(what_is_told_of_a_tube_of_unknown_length)
{
    hang(LAMP_TUBE, 9, 30, 0);
    ck_assert_int_eq(made()->distance_why, DISTANCE_OUT_OF_REACH);
    const struct review *told = fixture_review(&f, "uvb-needs-tube-length");
    ck_assert_ptr_nonnull(told);
    ck_assert_double_eq_tol(fixture_fact(told, "light")->low, 1, 1e-9);
    ck_assert_double_eq_tol(fixture_fact(told, "light")->high, 36, 1e-9);
}
END_TEST

/* The veterinarian's own 10-12 hours, whatever the season: an hour off is the same, three are far.
 */
START_TEST(the_timer_is_judged_by_the_veterinarians_hours)
{
    static const struct {
        double set_h;
        const char *code;
        int off;
    } rows[] = {{9, NULL, 0},
                {8.9, "lamp-hours-short", 0},
                {13, NULL, 0},
                {13.1, "lamp-hours-long", 0},
                {7.1, "lamp-hours-short", 0},
                {7, "lamp-hours-short", -1},
                {14.9, "lamp-hours-long", 0},
                {15, "lamp-hours-long", 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        hang(LAMP_COMPACT, 3.6, 30, 45);
        f.visit.targets.light_hours = fixture_band(10, 12);
        lamp->hours = fixture_quantity(rows[i].set_h);
        const struct uvb_plan *plan = made();
        ck_assert_double_eq(plan->hours_now, 11);
        ck_assert_int_eq(plan->hours_off, rows[i].off);
        ck_assert_double_eq(plan->hours_set, rows[i].code ? rows[i].set_h : 0);
        ck_assert_int_eq(fixture_review(&f, "lamp-hours-short") != NULL,
                         rows[i].code && rows[i].set_h < 10);
        ck_assert_int_eq(fixture_review(&f, "lamp-hours-long") != NULL,
                         rows[i].code && rows[i].set_h > 12);
    }
}
END_TEST

/* ---- a perch ---------------------------------------------------------------------------- */

/* 2.4 at 30 cm and 32 above a platform of 20: in range as a point (2.11) and as a line (2.25), so
 * it stays. A perch at 25 lies 27 cm below the lamp: 2.4 (30/27)^2 = 2.963 as a point, 2.667 as a
 * line; one at 10 lies 42 below: 1.224 and 1.714. The brighter is said, for it does the harm; 2.6
 * lies at 28.82 cm. */
START_TEST(a_perch_below_a_tube_of_unknown_length)
{
    static const struct {
        double perch_cm, below_cm, most, least;
        enum perch_state state;
    } rows[] = {{25, 27, 2.4 * 900 / 729, 2.4 * 30 / 27, PERCH_TOO_NEAR},
                {10, 42, 2.4 * 30 / 42, 2.4 * 900 / 1764, PERCH_FINE}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        hang(LAMP_TUBE, 2.4, 30, 32);
        box->platform_height_cm = fixture_quantity(20);
        box->perch_cm = fixture_quantity(rows[i].perch_cm);
        const struct uvb_plan *plan = made();
        ck_assert_double_eq(plan->change_cm, 0);
        ck_assert_double_eq(plan->perch_below_lamp_cm, rows[i].below_cm);
        ck_assert_int_eq(plan->perch, rows[i].state);
        ck_assert(plan->has_perch_uvi);
        ck_assert_double_eq_tol(plan->perch_uvi, rows[i].most, 1e-9);
        const struct derivation *d = fixture_derivation(&plan->how, "uvb.perch_uvi");
        ck_assert_double_eq_tol(d->low, rows[i].least * 0.9, 1e-9);
        ck_assert_double_eq_tol(d->high, rows[i].most * 1.1, 1e-9);
    }
}
END_TEST

/* 0.5 at 40 cm and 28 above a platform of 10: 1.02, it stays. Its nearest is 20 cm, where the
 * formula ends, its reading reaches to 80. At 20 cm it is 2.0, at 80 cm 0.125. */
START_TEST(a_perch_has_an_index_where_the_reading_reaches)
{
    static const struct {
        double platform_cm, perch_cm;
        enum perch_state state;
        double uvi; /* below 0: none is said */
    } rows[] = {{10, 18, PERCH_FINE, 2},
                {10, 19, PERCH_TOO_NEAR, -1},
                {60, 8, PERCH_FINE, 0.125},
                {60, 7, PERCH_FINE, -1},
                {10, 45, PERCH_TOO_NEAR, -1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        hang(LAMP_COMPACT, 0.5, 40, 28);
        box->platform_height_cm = fixture_quantity(rows[i].platform_cm);
        box->perch_cm = fixture_quantity(rows[i].perch_cm);
        const struct uvb_plan *plan = made();
        ck_assert_double_eq(plan->change_cm, 0);
        ck_assert_int_eq(plan->perch, rows[i].state);
        ck_assert_int_eq(plan->has_perch_uvi, rows[i].uvi >= 0);
        if (plan->has_perch_uvi)
            ck_assert_double_eq_tol(plan->perch_uvi, rows[i].uvi, 1e-9);
        /* a perch above the lamp is right at it */
        ck_assert_double_ge(plan->perch_below_lamp_cm, 0);
    }
}
END_TEST

/* Judged where the lamp will hang: 3.6 at 30 cm hangs at 30 and goes up to 42.43. A perch 25 cm
 * above the floor, the platform at 20, is 25 below it now and 37.43 then. */
START_TEST(a_perch_is_judged_below_the_lamp_as_it_will_hang)
{
    hang(LAMP_COMPACT, 3.6, 30, 30);
    box->platform_height_cm = fixture_quantity(20);
    box->perch_cm = fixture_quantity(25);
    ck_assert_int_eq(light()->verdict, VERDICT_TOO_HIGH);
    const struct uvb_plan *plan = &f.plan.uvb;
    ck_assert_double_eq_tol(plan->perch_below_lamp_cm, 37.426, 1e-3);
    ck_assert_int_eq(plan->perch, PERCH_FINE);
    for (int missing = 0; missing < 3; missing++) {
        again();
        hang(LAMP_COMPACT, 3.6, 30, missing == 0 ? 0 : 30);
        if (missing != 1)
            box->platform_height_cm = fixture_quantity(20);
        if (missing != 2)
            box->perch_cm = fixture_quantity(25);
        ck_assert_int_eq(made()->perch, PERCH_UNKNOWN);
    }
}
END_TEST

/* A tube beside the spot: right below its middle the perch is judged by the tube's own formula. */
START_TEST(a_perch_lies_right_below_the_middle)
{
    hang(LAMP_TUBE, 2.4, 30, 32);
    lamp->tube_length_cm = fixture_quantity(55);
    lamp->offset_cm = fixture_quantity(8);
    box->platform_height_cm = fixture_quantity(20);
    box->perch_cm = fixture_quantity(10);
    const struct derivation *d = fixture_derivation(&made()->how, "uvb.perch_uvi");
    ck_assert_str_eq(d->formula, "keitz-tube");
    again();
    hang(LAMP_COMPACT, 2.8, 30, 36);
    lamp->offset_cm = fixture_quantity(8);
    box->platform_height_cm = fixture_quantity(20);
    box->perch_cm = fixture_quantity(10);
    d = fixture_derivation(&made()->how, "uvb.perch_uvi");
    ck_assert_str_eq(d->formula, "inverse-square");
}
END_TEST

/* 3.6 at 30 cm is 1.6 at 45: a meter that is off by a tenth may have read 1.44 or 1.76. */
START_TEST(what_is_judged_is_as_far_off_as_the_meter)
{
    hang(LAMP_COMPACT, 3.6, 30, 45);
    ck_assert_double_eq_tol(light()->judged, 1.6, 1e-9);
    ck_assert_double_eq_tol(light()->judged_low, 1.44, 1e-9);
    ck_assert_double_eq_tol(light()->judged_high, 1.76, 1e-9);
}
END_TEST

/* ---- the map ---------------------------------------------------------------------------- */

/* 3.6 at 30 cm, hung at 60: too weak, so it comes down to 42.43, and with back 4 and platform 10
 * the map is of a lamp at 56.43. At 45 cm it is right and stays: 59. */
START_TEST(the_map_follows_the_lamp)
{
    static const struct {
        double height_cm, lamp_cm;
    } rows[] = {{60, 56.426}, {45, 59}, {0, 56.426}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        hang(LAMP_COMPACT, 3.6, 30, rows[i].height_cm);
        measure_box(80, 10, 4);
        ck_assert(made()->map.known);
        ck_assert_double_eq_tol(f.plan.uvb.map.lamp_above_floor_cm, rows[i].lamp_cm, 1e-3);
    }
    again(); /* of a tube whose length nobody knows there is none */
    hang(LAMP_TUBE, 2.4, 30, 32);
    measure_box(80, 10, 4);
    ck_assert_int_eq(made()->distance_why, DISTANCE_KNOWN);
    ck_assert(!f.plan.uvb.map.known && !f.plan.uvb.has_shade_uvi);
}
END_TEST

/* 1.8 at 42.43 cm. A box of 31 cm with its lamp over the middle of its width of 30: 15 from one
 * end, 16 beside the other, 3.6 x 900 x 42.43 / (42.43^2 + 16^2)^1.5 = 1.474, more than half
 * of 1.8. */
START_TEST(half_of_the_light_at_the_far_end_is_no_shade)
{
    hang(LAMP_COMPACT, 3.6, 30, 0);
    box->size = (struct box){true, 31, 30, 80, UNIT_CENTIMETRE, {0}};
    const struct review *told = (made(), fixture_review(&f, "uvb-no-shade-end"));
    ck_assert_ptr_nonnull(told);
    ck_assert_double_eq_tol(fixture_fact(told, "shade")->low, 1.474, 1e-3);
    ck_assert_double_eq_tol(fixture_fact(told, "spot")->low, 1.8, 1e-3);
    again(); /* 30 beside of 45: 3.6 x 900 x 42.43 / (42.43^2 + 30^2)^1.5 = 0.980, still more */
    hang(LAMP_COMPACT, 3.6, 30, 0);
    box->size = (struct box){true, 45, 30, 80, UNIT_CENTIMETRE, {0}};
    made();
    ck_assert_double_eq_tol(f.plan.uvb.shade_uvi, 0.980, 1e-3);
    ck_assert_ptr_nonnull(fixture_review(&f, "uvb-no-shade-end"));
    again(); /* 34 beside of 49: 0.855, less than 0.9 */
    hang(LAMP_COMPACT, 3.6, 30, 0);
    box->size = (struct box){true, 49, 30, 80, UNIT_CENTIMETRE, {0}};
    made();
    ck_assert_double_eq_tol(f.plan.uvb.shade_uvi, 0.855, 1e-3);
    ck_assert_ptr_null(fixture_review(&f, "uvb-no-shade-end"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("uvb_place");
    TCase *tests = tcase_create("uvb_place");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, too_strong_is_the_lamp_where_the_lid_ends_the_search);
    tcase_add_test(tests, too_weak_is_the_lamp_where_its_nearest_place_was_looked_at);
    tcase_add_test(tests, the_formula_holds_the_nearest_where_the_target_would_not);
    tcase_add_test(tests, nearer_than_the_nearest_too_much_is_more);
    tcase_add_test(tests, the_lid_is_the_farthest_that_a_lamp_hangs);
    tcase_add_test(tests, what_is_told_of_a_tube_of_unknown_length);
    tcase_add_test(tests, the_timer_is_judged_by_the_veterinarians_hours);
    tcase_add_test(tests, a_perch_below_a_tube_of_unknown_length);
    tcase_add_test(tests, a_perch_has_an_index_where_the_reading_reaches);
    tcase_add_test(tests, a_perch_is_judged_below_the_lamp_as_it_will_hang);
    tcase_add_test(tests, a_perch_lies_right_below_the_middle);
    tcase_add_test(tests, what_is_judged_is_as_far_off_as_the_meter);
    tcase_add_test(tests, the_map_follows_the_lamp);
    tcase_add_test(tests, half_of_the_light_at_the_far_end_is_no_shade);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
