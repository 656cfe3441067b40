/* UVB of a plan. The fixture's lizard is of Ferguson zone 3 (Ferguson et al. 2010; Baines et al.
 * 2016, table 1): mean 1.0-2.6, maximum 2.9-7.4; here a clinic has settled that the mean
 * is all it gives, and hangs for its middle: the target is 1.0-2.6, the aim 1.8. How the zones are
 * used without that is test_uvb_zones.c. Point lamps are worked out by hand with the inverse
 * square; tubes are checked by integrating the tube here. */
#include <math.h>
#include <string.h>

#include "common/suite.h"
#include "care/lamp_fixture.h"
#include "care/uvb.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static void set_up(void)
{
    set_up_lamp();
    fixture_uv_use(&f, UV_LIMIT_MEAN, UV_START_LOW);
}

/* The shape of a tube's light by the midpoint rule over its pieces, D^2 / r^4 each. */
static double tube_shape(double length, double distance, double beside)
{
    enum { PIECES = 20000 };
    double sum = 0, step = length / PIECES;
    for (int i = 0; i < PIECES; i++) {
        double z = -length / 2 + (i + 0.5) * step - beside;
        double r2 = distance * distance + z * z;
        sum += distance * distance / (r2 * r2) * step;
    }
    return sum / length;
}

static double tube_light(double uvi, double at_cm, double length, double distance, double beside)
{
    return uvi * tube_shape(length, distance, beside) / tube_shape(length, at_cm, 0);
}

/* 3.6 at 30 cm: 1.8 at 30 sqrt(3.6/1.8) = 42.43, 2.6 at 35.30, 1.0 at 56.92 cm; at 45 cm 1.6. */
START_TEST(point_lamp_by_hand)
{
    hang(LAMP_COMPACT, 3.6, 30, 45);
    const struct uvb_plan *plan = made();
    ck_assert_int_eq(plan->distance_why, DISTANCE_KNOWN);
    ck_assert_double_eq_tol(plan->recommended_cm, 30 * sqrt(3.6 / 1.8), 0.01);
    ck_assert_double_eq_tol(plan->nearest_cm, 30 * sqrt(3.6 / 2.6), 0.01);
    ck_assert_double_eq_tol(plan->farthest_cm, 30 * sqrt(3.6 / 1.0), 0.01);
    ck_assert(!plan->nearest_held_by_formula);
    ck_assert(f.plan.measured[MEASURE_UVB].has_reading);
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_UVB].reading, 1.6, 1e-9);
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, VERDICT_IN_RANGE);
    ck_assert(plan->has_change);
    ck_assert_double_eq(plan->change_cm, 0);
    ck_assert_double_eq(plan->most_uvi, 7.4);
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].target_from.origin, ORIGIN_REFERENCE);
    /* a meter is sure to 10 %: distances go with the root */
    const struct derivation *d = fixture_derivation(&plan->how, "uvb.distance.recommended_cm");
    ck_assert_str_eq(d->formula, "inverse-square");
    ck_assert_double_eq_tol(d->low, 42.43 * sqrt(0.9), 0.02);
    ck_assert_double_eq_tol(d->high, 42.43 * sqrt(1.1), 0.02);
}
END_TEST

START_TEST(tube_by_integration)
{
    static const double offsets[] = {0, 12};
    hang(LAMP_TUBE, 4.0, 30, 50);
    lamp->tube_length_cm = fixture_quantity(85);
    lamp->mesh_loss_percent = fixture_quantity(35);
    lamp->offset_cm = fixture_quantity(offsets[_i]);
    const struct uvb_plan *plan = made();
    double uvi = 4.0 * 0.65;
    ck_assert_double_eq_tol(plan->through_mesh_share, 0.65, 1e-12);
    ck_assert_double_eq_tol(tube_light(uvi, 30, 85, plan->recommended_cm, offsets[_i]), 1.8, 1e-3);
    ck_assert_double_eq_tol(tube_light(uvi, 30, 85, plan->farthest_cm, offsets[_i]), 1.0, 1e-3);
    ck_assert_double_eq_tol(tube_light(uvi, 30, 85, plan->nearest_cm, 0), 2.6, 1e-3);
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_UVB].reading,
                            tube_light(uvi, 30, 85, 50, offsets[_i]), 1e-4);
    ck_assert_str_eq(fixture_derivation(&plan->how, "uvb.uvi_now")->formula,
                     offsets[_i] > 0 ? "keitz-tube-off-middle" : "keitz-tube");
}
END_TEST

/* Worked out from wire and opening: (1.2 / 1.5)^2 = 0.64 (open area of woven wire). */
START_TEST(mesh_is_given_worked_out_or_read_through)
{
    hang(LAMP_COMPACT, 5.0, 30, 45);
    lamp->mesh.wire_cm = fixture_quantity(0.03);
    lamp->mesh.opening_cm = fixture_quantity(0.12);
    ck_assert_double_eq_tol(made()->through_mesh_share, 0.64, 1e-9);
    ck_assert_double_eq_tol(f.plan.uvb.recommended_cm, 30 * sqrt(5.0 * 0.64 / 1.8), 0.01);
    again();
    hang(LAMP_COMPACT, 3.2, 30, 45);
    lamp->mesh_loss_percent = fixture_quantity(36);
    lamp->measured.through_mesh = fixture_flag(true);
    ck_assert_double_eq(made()->through_mesh_share, 1); /* it is in the reading already */
    ck_assert_double_eq_tol(f.plan.uvb.recommended_cm, 30 * sqrt(3.2 / 1.8), 0.01);
    again();
    hang(LAMP_COMPACT, 3.2, 30, 45);
    f.visit.enclosure.lid = fixture_choice(LID_MESH);
    ck_assert_int_eq(made()->distance_why, DISTANCE_NO_READING); /* unknown is not none */
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, VERDICT_UNKNOWN);
    ck_assert_ptr_nonnull(fixture_review(&f, "mesh-loss-unknown"));
}
END_TEST

START_TEST(more_mesh_never_hangs_the_lamp_higher)
{
    static const enum lamp_kind kinds[] = {LAMP_TUBE, LAMP_COMPACT};
    double before = INFINITY;
    size_t known = 0;
    for (int loss = 0; loss <= 100; loss++) {
        again();
        hang(kinds[_i], 5.0, 30, 45);
        if (kinds[_i] == LAMP_TUBE)
            lamp->tube_length_cm = fixture_quantity(55);
        lamp->mesh_loss_percent = fixture_quantity(loss);
        const struct uvb_plan *plan = made();
        if (plan->distance_why != DISTANCE_KNOWN)
            continue;
        known++;
        ck_assert_double_le(plan->recommended_cm, before + 1e-3);
        ck_assert_double_le(plan->nearest_cm, plan->recommended_cm);
        ck_assert_double_le(plan->recommended_cm, plan->farthest_cm);
        before = plan->recommended_cm;
    }
    ck_assert_uint_gt(known, 60);
}
END_TEST

/* Property over readings and zones: the plan never says a distance at which the animal right under
 * the lamp would get more than the target's upper end, or more than the zone's maximum. */
START_TEST(nothing_recommended_is_above_the_target)
{
    for (int zone = 1; zone <= 4; zone++)
        for (double uvi = 0.2; uvi < 12; uvi *= 1.15) {
            again();
            f.species.ferguson_zone = fixture_cited(zone, zone);
            hang(LAMP_MERCURY_VAPOUR, uvi, 35, 0);
            const struct uvb_plan *plan = made();
            if (plan->distance_why != DISTANCE_KNOWN)
                continue;
            double at_nearest = uvi * pow(35 / plan->nearest_cm, 2);
            ck_assert_double_le(at_nearest, f.plan.measured[MEASURE_UVB].high * 1.0001);
            ck_assert_double_le(at_nearest, plan->most_uvi);
            ck_assert_double_ge(plan->nearest_cm, 20);
            ck_assert_double_le(plan->farthest_cm, 70 + 1e-9);
        }
}
END_TEST

START_TEST(too_near_is_raised_and_too_far_is_lowered)
{
    hang(LAMP_COMPACT, 3.6, 30, 30);
    ck_assert_int_eq(light()->verdict, VERDICT_TOO_HIGH);
    ck_assert_double_eq_tol(f.plan.uvb.change_cm, 42.43 - 30, 0.01);
    again();
    hang(LAMP_COMPACT, 3.6, 30, 60);
    ck_assert_int_eq(light()->verdict, VERDICT_TOO_LOW);
    ck_assert_double_eq_tol(f.plan.uvb.change_cm, 42.43 - 60, 0.01);
}
END_TEST

START_TEST(above_the_zones_maximum_is_said)
{
    hang(LAMP_COMPACT, 8.0, 30, 25); /* 11.5 there; 7.4 at most */
    ck_assert_double_eq_tol(light()->reading, 8.0 * 900 / 625, 1e-9);
    const struct review *review = fixture_review(&f, "uvb-above-most");
    ck_assert_double_eq(fixture_fact(review, "most")->low, 7.4);
}
END_TEST

/* ---- the supported range --------------------------------------------------------------- */

/* 1.2 at 40 cm of zone 3: 2.6 would be at 27.2 cm, inside 20-80. 0.5 at 40 cm: 2.6 would be at 17.5
 * cm, nearer than a point lamp is a point: held at 20 cm, where it is 2.0. */
START_TEST(nearest_is_held_where_the_formula_ends)
{
    hang(LAMP_COMPACT, 0.5, 40, 0);
    const struct uvb_plan *plan = made();
    ck_assert_int_eq(plan->distance_why, DISTANCE_KNOWN);
    ck_assert(plan->nearest_held_by_formula);
    ck_assert_double_eq_tol(plan->nearest_cm, 20, 1e-9);
    ck_assert_double_eq_tol(plan->recommended_cm, 40 * sqrt(0.5 / 1.8), 0.01);
    ck_assert_str_eq(fixture_derivation(&plan->how, "uvb.distance.nearest_cm")->formula,
                     "held-in-range");
    ck_assert_ptr_nonnull(fixture_review(&f, "uvb-nearest-held"));
    ck_assert(!plan->has_change);
    ck_assert_ptr_nonnull(fixture_review(&f, "lamp-height-unknown"));
}
END_TEST

START_TEST(a_reading_reaches_twice_and_half_its_distance)
{
    /* zone 1 asks for 0-0.7: no distance is too far, but 60 cm is where a reading at 30 ends */
    f.species.ferguson_zone = fixture_cited(1, 1);
    hang(LAMP_COMPACT, 0.6, 30, 0);
    const struct uvb_plan *plan = made();
    ck_assert_double_eq_tol(plan->farthest_cm, 60, 1e-9);
    ck_assert_double_eq_tol(plan->recommended_cm, 30 * sqrt(0.6 / 0.35), 0.01);
    ck_assert_double_eq_tol(plan->nearest_cm, 30 * sqrt(0.6 / 0.7), 0.01);
    again();
    /* read at 80 cm, half of it is 40: 2.6 at 80 sqrt(0.4/2.6) = 31.4 is not supported */
    hang(LAMP_COMPACT, 0.4, 80, 0);
    plan = made();
    ck_assert_double_eq_tol(plan->nearest_cm, 40, 1e-9);
    ck_assert(plan->nearest_held_by_formula);
    ck_assert_double_eq_tol(plan->recommended_cm, 40, 1e-9);
}
END_TEST

/* A tube follows its formula farther than a lamp with a reflector does: three times, here 90 cm. */
START_TEST(a_tube_reaches_three_times_its_distance)
{
    f.species.ferguson_zone = fixture_cited(1, 1);
    hang(LAMP_TUBE, 0.6, 30, 90);
    lamp->tube_length_cm = fixture_quantity(55);
    const struct uvb_plan *plan = made();
    ck_assert_double_eq_tol(plan->farthest_cm, 90, 1e-9);
    ck_assert(f.plan.measured[MEASURE_UVB].has_reading);
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_UVB].reading, tube_light(0.6, 30, 55, 90, 0),
                            1e-5);
    again();
    hang(LAMP_TUBE, 0.08, 60, 0); /* not even 0.72 at 20 cm, were it a point */
    f.species.ferguson_zone = fixture_cited(1, 1);
    lamp->tube_length_cm = fixture_quantity(55);
    ck_assert_double_eq_tol(made()->nearest_cm, 20, 1e-9); /* a third of 60, above 15 */
}
END_TEST

static const struct {
    enum lamp_kind kind;
    double uvi, at_cm;
    const char *code;
    enum uvb_distance_why why;
} reach_rows[] = {
    {LAMP_COMPACT, 14, 30, "uvb-too-strong-here", DISTANCE_OUT_OF_REACH}, /* 3.5 at 60 cm */
    {LAMP_COMPACT, 0.1, 30, "uvb-too-weak-here", DISTANCE_TOO_WEAK},      /* 0.2 at 20 cm */
    {LAMP_COMPACT, 0.1, 80, "uvb-too-weak-here", DISTANCE_OUT_OF_REACH},  /* nearer than 40: read */
    {LAMP_COMPACT, 4, 15, "uvb-read-too-near", DISTANCE_OUT_OF_REACH},
    {LAMP_TUBE, 4, 10, "uvb-read-too-near", DISTANCE_OUT_OF_REACH},
    {LAMP_COMPACT, 0, 30, "uvb-no-light", DISTANCE_OUT_OF_REACH},
    {LAMP_COMPACT, 40, 30, "uvi-implausible", DISTANCE_NO_READING},
};

START_TEST(what_the_reading_does_not_support_is_not_said)
{
    hang(reach_rows[_i].kind, reach_rows[_i].uvi, reach_rows[_i].at_cm, 0);
    const struct uvb_plan *plan = made();
    ck_assert_int_eq(plan->distance_why, reach_rows[_i].why);
    ck_assert_double_eq(plan->recommended_cm, 0);
    ck_assert_double_eq(plan->nearest_cm, 0);
    ck_assert_double_eq(plan->farthest_cm, 0);
    ck_assert(!plan->has_change && !plan->has_shade_uvi && !plan->has_lamp_above_platform);
    ck_assert_ptr_nonnull(fixture_review(&f, reach_rows[_i].code));
}
END_TEST

/* Nearer than the formula holds no index is given, but it is certainly above that at 20 cm (8.1).
 * Beyond the reach it is certainly below that at 60 cm. Between certainty and doubt: unknown. */
static const struct {
    double uvi, height_cm;
    enum verdict verdict;
} outside_rows[] = {{3.6, 12, VERDICT_TOO_HIGH},
                    {3.6, 90, VERDICT_TOO_LOW},
                    {1.0, 12, VERDICT_UNKNOWN},
                    {5.0, 90, VERDICT_UNKNOWN}};

START_TEST(a_lamp_outside_the_range_gets_no_number)
{
    hang(LAMP_COMPACT, outside_rows[_i].uvi, 30, outside_rows[_i].height_cm);
    const struct uvb_plan *plan = made();
    ck_assert(!f.plan.measured[MEASURE_UVB].has_reading);
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, outside_rows[_i].verdict);
    ck_assert_ptr_nonnull(fixture_review(&f, "lamp-height-unsupported"));
    ck_assert_int_eq(plan->distance_why, DISTANCE_KNOWN);
    ck_assert_double_eq_tol(plan->change_cm, plan->recommended_cm - outside_rows[_i].height_cm,
                            1e-9);
}
END_TEST

/* ---- a tube of unknown length ------------------------------------------------------------ */

/* 2.4 at 30 cm. As a point 2.6 lies at 28.8 cm, as an endless line at 27.7: the nearest is the
 * larger. 1.0 lies at 46.5 cm and 72 (held at 60): the farthest is the smaller. 1.8 at 34.64 and
 * 40: their mean root is 37.2. */
START_TEST(a_tube_of_unknown_length_lies_between_point_and_line)
{
    hang(LAMP_TUBE, 2.4, 30, 30);
    const struct uvb_plan *plan = made();
    ck_assert_int_eq(plan->distance_why, DISTANCE_KNOWN);
    ck_assert_double_eq_tol(plan->nearest_cm, 30 * sqrt(2.4 / 2.6), 0.01);
    ck_assert_double_eq_tol(plan->farthest_cm, 30 * sqrt(2.4), 0.01);
    ck_assert_double_eq_tol(plan->recommended_cm, sqrt(30 * sqrt(2.4 / 1.8) * 30 * 2.4 / 1.8),
                            0.01);
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_UVB].reading, 2.4,
                            1e-9); /* at the reading's own distance */
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, VERDICT_IN_RANGE);
    ck_assert_ptr_nonnull(fixture_review(&f, "tube-length-unknown"));
    ck_assert(!plan->has_shade_uvi);
}
END_TEST

/* Whatever the length turns out to be, the light is inside the target at what was said. */
START_TEST(what_is_said_of_an_unknown_length_holds_for_every_length)
{
    hang(LAMP_TUBE, 2.4, 30, 0);
    const struct uvb_plan *plan = made();
    for (double length = 10; length < 200; length += 15) {
        ck_assert_double_le(tube_light(2.4, 30, length, plan->nearest_cm, 0), 2.6 + 1e-3);
        ck_assert_double_ge(tube_light(2.4, 30, length, plan->farthest_cm, 0), 1.0 - 1e-3);
    }
}
END_TEST

/* At 50 cm it is 0.864 as a point, too low, and 1.44 as a line, in range: nobody knows. The larger
 * is shown, because too much does the harm. */
START_TEST(where_point_and_line_differ_there_is_no_verdict)
{
    hang(LAMP_TUBE, 2.4, 30, 50);
    const struct uvb_plan *plan = made();
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, VERDICT_UNKNOWN);
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_UVB].reading, 1.44, 1e-9);
    const struct derivation *d = fixture_derivation(&plan->how, "uvb.uvi_now");
    ck_assert_double_eq_tol(d->low, 0.864 * 0.9, 1e-9);
    ck_assert_double_eq_tol(d->high, 1.44 * 1.1, 1e-9);
}
END_TEST

START_TEST(an_unknown_length_that_matters_gives_nothing)
{
    hang(LAMP_TUBE, 9.0, 30, 50); /* 60 cm: 2.25 as a point, 4.5 as a line */
    const struct uvb_plan *plan = made();
    ck_assert_int_eq(plan->distance_why, DISTANCE_OUT_OF_REACH);
    ck_assert_ptr_nonnull(fixture_review(&f, "uvb-needs-tube-length"));
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict,
                     VERDICT_TOO_HIGH); /* 3.24 and 5.4: both above 2.6 */
}
END_TEST

/* ---- off the middle ----------------------------------------------------------------------- */

/* 2.8 at 30 cm read under the middle; the basking spot lies 25 cm beside. Below the middle the
 * animal would get 2.6 at 31.1 cm, so no distance is nearer, though the spot gets less. */
START_TEST(off_the_middle_the_brightest_place_still_counts)
{
    hang(LAMP_COMPACT, 2.8, 30, 32);
    lamp->offset_cm = fixture_quantity(12);
    const struct uvb_plan *plan = made();
    double slant = sqrt(32 * 32 + 12 * 12);
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_UVB].reading,
                            2.8 * 900 * 32 / (slant * slant * slant), 1e-9);
    ck_assert_double_eq_tol(plan->nearest_cm, 30 * sqrt(2.8 / 2.6), 0.01);
    ck_assert_double_ge(plan->recommended_cm, plan->nearest_cm);
    ck_assert_ptr_nonnull(fixture_review(&f, "beam-off-middle"));
    again();
    hang(LAMP_COMPACT, 2.8, 30, 32);
    lamp->offset_cm = fixture_quantity(60);
    ck_assert_int_eq(made()->distance_why, DISTANCE_OUT_OF_REACH);
    again();
    /* 5.6 at 30 cm is still 1.4 below the middle at 60 cm, where the reading's reach ends */
    hang(LAMP_COMPACT, 5.6, 30, 32);
    lamp->offset_cm = fixture_quantity(40);
    f.visit.targets.measured[MEASURE_UVB] = fixture_band(0.9, 1.0);
    ck_assert_int_eq(made()->distance_why, DISTANCE_OUT_OF_REACH);
    ck_assert_ptr_nonnull(fixture_review(&f, "uvb-too-strong-here"));
}
END_TEST

/* 2.8 at 30 cm, the spot 20 cm beside, the lamp at 28: the spot gets 2.8 x 900 x 28 / (28^2 +
 * 20^2)^1.5 = 1.73, in range, but right below it is 3.2. The middle of the target at the spot would
 * need a place nearer than that of 2.6 below (31.13 cm): so it is raised to there. */
START_TEST(a_spot_in_range_beside_a_place_that_is_not_raises_the_lamp)
{
    hang(LAMP_COMPACT, 2.8, 30, 28);
    lamp->offset_cm = fixture_quantity(20);
    const struct uvb_plan *plan = made();
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_UVB].reading, 1.732, 0.001);
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, VERDICT_IN_RANGE);
    ck_assert_double_eq(plan->recommended_cm, plan->nearest_cm);
    ck_assert_double_eq_tol(plan->recommended_cm, 30 * sqrt(2.8 / 2.6), 0.01);
    ck_assert_double_eq_tol(plan->change_cm, 31.13 - 28, 0.01);
    ck_assert_str_eq(fixture_derivation(&plan->how, "uvb.distance.recommended_cm")->formula,
                     "held-in-range");
}
END_TEST

START_TEST(off_middle_is_named_when_it_alone_is_in_the_way)
{
    hang(LAMP_COMPACT, 2.8, 30, 32);
    lamp->offset_cm = fixture_quantity(30);
    f.visit.targets.measured[MEASURE_UVB] =
        fixture_band(1.0, 1.2); /* 1.2 at the middle from 45.8 cm on */
    ck_assert_int_eq(made()->distance_why, DISTANCE_OUT_OF_REACH);
    ck_assert_ptr_nonnull(fixture_review(&f, "uvb-off-middle"));
}
END_TEST

/* ---- heights and shade ---------------------------------------------------------------------- */

/* 3.6 at 30 cm as above: 42.43 + back 4 + platform 10 = 56.43 cm, above a box of 50. Far end: the
 * lamp stands 30 cm (half the width) from one end of 120, so 90 beside and 52.43 below: 3.6 x 900
 * x 52.43 / (52.43^2 + 90^2)^1.5 = 0.150. */
START_TEST(heights_and_the_shade_end)
{
    hang(LAMP_COMPACT, 3.6, 30, 45);
    f.visit.enclosure.size = (struct box){true, 120, 60, 50, UNIT_CENTIMETRE, {0}};
    f.visit.enclosure.back_height_cm = fixture_quantity(4);
    f.visit.enclosure.platform_height_cm = fixture_quantity(10);
    const struct uvb_plan *plan = made();
    ck_assert_double_eq_tol(plan->lamp_above_platform_cm, 46.43, 0.01);
    ck_assert_double_eq_tol(plan->lamp_above_floor_cm, 56.43, 0.01);
    ck_assert_double_eq(fixture_fact(fixture_review(&f, "lamp-above-box"), "box")->low, 50);
    ck_assert(plan->has_shade_uvi);
    ck_assert_double_eq_tol(plan->shade_uvi, 0.150, 0.001);
    ck_assert_ptr_null(fixture_review(&f, "uvb-no-shade-end"));
    again();
    hang(LAMP_COMPACT, 3.6, 30, 45);
    f.visit.enclosure.back_height_cm = fixture_quantity(4);
    f.visit.enclosure.size = (struct box){true, 120, 60, 46, UNIT_CENTIMETRE, {0}};
    ck_assert(made()->has_lamp_above_platform && !f.plan.uvb.has_lamp_above_floor);
    ck_assert_ptr_nonnull(fixture_review(&f, "lamp-above-box")); /* on the floor, at the least */
    again();
    hang(LAMP_COMPACT, 3.6, 30, 45);
    f.visit.enclosure.size = (struct box){true, 120, 60, 46, UNIT_CENTIMETRE, {0}};
    ck_assert(!made()->has_lamp_above_platform);
    ck_assert_ptr_null(fixture_review(&f, "lamp-above-box"));
}
END_TEST

/* A tube of 55 cm against the end wall of a box of 120: its middle is 27.5 cm from it. */
START_TEST(a_tube_stands_against_the_end_wall)
{
    hang(LAMP_TUBE, 2.4, 30, 32);
    lamp->tube_length_cm = fixture_quantity(55);
    f.visit.enclosure.size = (struct box){true, 60, 120, 60, UNIT_CENTIMETRE, {0}};
    const struct uvb_plan *plan = made();
    ck_assert_double_eq_tol(plan->shade_uvi,
                            tube_light(2.4, 30, 55, plan->recommended_cm, 120 - 27.5), 1e-4);
    const struct derivation *d = fixture_derivation(&plan->how, "uvb.shade_uvi");
    ck_assert_double_eq(d->low, 0);
    ck_assert_double_eq_tol(d->high, plan->shade_uvi * 1.1, 1e-9);
}
END_TEST

START_TEST(a_tube_as_long_as_the_box_leaves_no_shade)
{
    hang(LAMP_TUBE, 2.4, 40, 45);
    lamp->tube_length_cm = fixture_quantity(85);
    f.visit.enclosure.size = (struct box){true, 60, 40, 60, UNIT_CENTIMETRE, {0}};
    const struct uvb_plan *plan = made();
    ck_assert_double_eq_tol(plan->shade_uvi, tube_light(2.4, 40, 85, plan->recommended_cm, 30),
                            1e-3);
    ck_assert_ptr_nonnull(fixture_review(&f, "uvb-no-shade-end"));
}
END_TEST

/* 2.8 at 30 cm, right at 36 cm: it stays, 36 + back 4 + platform 10 = 50 cm above the floor and
 * half the width, 30, from its end. Eight columns of 15 cm, six rows of 10: the second column of
 * the lowest row lies 45 below and 7.5 beside. 15 cm below a point lamp no formula holds. */
START_TEST(the_map_is_of_the_lamp_as_it_will_hang)
{
    hang(LAMP_COMPACT, 2.8, 30, 36);
    f.visit.enclosure.size = (struct box){true, 120, 60, 60, UNIT_CENTIMETRE, {0}};
    f.visit.enclosure.back_height_cm = fixture_quantity(4);
    f.visit.enclosure.platform_height_cm = fixture_quantity(10);
    const struct uvi_map *map = &made()->map;
    ck_assert(map->known);
    ck_assert_double_eq_tol(map->lamp_above_floor_cm, 50, 1e-9);
    ck_assert_double_eq_tol(map->lamp_from_end_cm, 30, 1e-9);
    ck_assert_double_eq_tol(map->from_end_cm[1], 22.5, 1e-9);
    ck_assert_double_eq_tol(map->above_floor_cm[0], 5, 1e-9);
    ck_assert_double_eq_tol(map->uvi[0][1], 2.8 * 900 * 45 / pow(45 * 45 + 7.5 * 7.5, 1.5), 1e-9);
    ck_assert(map->has_uvi[2][1] && !map->has_uvi[3][1] && !map->has_uvi[5][7]);
    again();
    hang(LAMP_COMPACT, 2.8, 30, 36); /* how high it hangs above the floor is not written */
    f.visit.enclosure.size = (struct box){true, 120, 60, 60, UNIT_CENTIMETRE, {0}};
    ck_assert(!made()->map.known);
}
END_TEST

/* ---- nonsense ----------------------------------------------------------------------------------
 */

START_TEST(a_distance_of_nothing_is_refused_with_its_place)
{
    static const double bad[] = {0, -30, NAN, INFINITY};
    struct quantity *places[] = {&lamp->measured.at_cm, &lamp->height_cm, &lamp->tube_length_cm};
    static const char *const paths[] = {"enclosure.lamp.measured.at", "enclosure.lamp.height",
                                        "enclosure.lamp.tube-length"};
    for (size_t p = 0; p < COUNT(places); p++)
        for (size_t i = 0; i < COUNT(bad); i++) {
            again();
            hang(LAMP_TUBE, 3.6, 30, 45);
            lamp->tube_length_cm = fixture_quantity(55);
            *places[p] = fixture_quantity(bad[i]);
            places[p]->at = (struct mark){"visit.yaml", 21, 7};
            ck_assert(!uvb_plan(&f.b));
            ck_assert(fixture_said(&f, isfinite(bad[i]) ? "distance-zero" : "not-a-number"));
            ck_assert_str_eq(f.diag.first->path, paths[p]);
            ck_assert_int_eq(f.diag.first->at.line, 21);
            ck_assert_double_eq(f.plan.uvb.recommended_cm, 0);
        }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("uvb_plan");
    TCase *tests = tcase_create("uvb_plan");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, point_lamp_by_hand);
    tcase_add_loop_test(tests, tube_by_integration, 0, 2);
    tcase_add_test(tests, mesh_is_given_worked_out_or_read_through);
    tcase_add_loop_test(tests, more_mesh_never_hangs_the_lamp_higher, 0, 2);
    tcase_add_test(tests, nothing_recommended_is_above_the_target);
    tcase_add_test(tests, too_near_is_raised_and_too_far_is_lowered);
    tcase_add_test(tests, above_the_zones_maximum_is_said);
    tcase_add_test(tests, nearest_is_held_where_the_formula_ends);
    tcase_add_test(tests, a_reading_reaches_twice_and_half_its_distance);
    tcase_add_test(tests, a_tube_reaches_three_times_its_distance);
    tcase_add_loop_test(tests, what_the_reading_does_not_support_is_not_said, 0, COUNT(reach_rows));
    tcase_add_loop_test(tests, a_lamp_outside_the_range_gets_no_number, 0, COUNT(outside_rows));
    tcase_add_test(tests, a_tube_of_unknown_length_lies_between_point_and_line);
    tcase_add_test(tests, what_is_said_of_an_unknown_length_holds_for_every_length);
    tcase_add_test(tests, where_point_and_line_differ_there_is_no_verdict);
    tcase_add_test(tests, an_unknown_length_that_matters_gives_nothing);
    tcase_add_test(tests, off_the_middle_the_brightest_place_still_counts);
    tcase_add_test(tests, a_spot_in_range_beside_a_place_that_is_not_raises_the_lamp);
    tcase_add_test(tests, off_middle_is_named_when_it_alone_is_in_the_way);
    tcase_add_test(tests, heights_and_the_shade_end);
    tcase_add_test(tests, a_tube_stands_against_the_end_wall);
    tcase_add_test(tests, a_tube_as_long_as_the_box_leaves_no_shade);
    tcase_add_test(tests, the_map_is_of_the_lamp_as_it_will_hang);
    tcase_add_test(tests, a_distance_of_nothing_is_refused_with_its_place);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
