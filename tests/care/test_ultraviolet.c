/* How UV light falls off: the closed forms against integration, published rows and limits. */
#include <math.h>

#include "common/suite.h"
#include "care/ultraviolet.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))
#define PI 3.14159265358979323846

static double light(const struct uv_source *source, double distance_cm, double beside_cm)
{
    double uvi = NAN;
    ck_assert(uv_index_at(source, distance_cm, beside_cm, &uvi));
    return uvi;
}

static double place(const struct uv_source *source, double uvi, double near_cm, double far_cm)
{
    double distance_cm = NAN;
    ck_assert(uv_distance_for(source, uvi, 0, near_cm, far_cm, &distance_cm));
    return distance_cm;
}

/* Keitz's own starting point, independent of the closed form: every piece dz of a diffuse
 * line of power P and length L gives P / (pi^2 L) cos(leaving) cos(arriving) / r^2, both
 * cosines D / r. Composite Simpson. */
static double integrated(double power_w, double length_m, double distance_m, double beside_m)
{
    enum { PIECES = 4000 };
    double step = length_m / PIECES, sum = 0;
    for (int i = 0; i <= PIECES; i++) {
        double z = -length_m / 2 + i * step - beside_m;
        double r2 = distance_m * distance_m + z * z;
        double weight = i == 0 || i == PIECES ? 1 : i % 2 ? 4 : 2;
        sum += weight * distance_m * distance_m / (r2 * r2);
    }
    return power_w / (PI * PI * length_m) * sum * step / 3;
}

START_TEST(tube_closed_form_equals_integration)
{
    static const double lengths[] = {0.10, 0.30, 0.55, 0.85, 1.15};
    static const double distances[] = {0.05, 0.15, 0.30, 0.60, 1.5};
    static const double besides[] = {0, 0.05, 0.2, 0.425, 0.9};
    for (size_t l = 0; l < COUNT(lengths); l++)
        for (size_t d = 0; d < COUNT(distances); d++) {
            double middle = integrated(10, lengths[l], distances[d], 0);
            ck_assert_double_eq_tol(uv_tube_irradiance(10, lengths[l], distances[d]), middle,
                                    1e-6 * middle);
            for (size_t b = 0; b < COUNT(besides); b++) {
                double beside = integrated(10, lengths[l], distances[d], besides[b]);
                ck_assert_double_eq_tol(
                    uv_tube_irradiance_beside(10, lengths[l], distances[d], besides[b]), beside,
                    1e-6 * beside);
            }
        }
}
END_TEST

START_TEST(beside_by_nothing_is_opposite_the_middle)
{
    for (double d = 0.05; d < 3; d += 0.05)
        ck_assert_double_eq_tol(uv_tube_irradiance_beside(7, 0.85, d, 0),
                                uv_tube_irradiance(7, 0.85, d), 1e-12);
    ck_assert_double_eq_tol(uv_tube_irradiance_beside(7, 0.85, 0.3, 0.2),
                            uv_tube_irradiance_beside(7, 0.85, 0.3, -0.2), 1e-12);
}
END_TEST

/* Limits of Keitz's formula: far away E D^2 = P / pi^2 (a point), near by E = P / (2 pi D L). */
START_TEST(tube_has_its_two_limits)
{
    ck_assert_double_eq_tol(uv_tube_irradiance(1, 0.01, 100) * 1e4, 1 / (PI * PI), 1e-6);
    ck_assert_double_eq_tol(uv_tube_irradiance(1, 1000, 0.1), 1 / (2 * PI * 0.1 * 1000), 1e-9);
}
END_TEST

/* The second closed form, and two pinned values (computed: they pin the implementation, and prove
 * nothing about the world). At D = 2L the half angle is 14.04 deg; published as +-14 in the IUVA
 * lamp protocol, Lawal et al. 2017 (memory). */
START_TEST(tube_other_form_and_pins)
{
    double l = 0.85, d = 0.30;
    double other = 10 / (PI * PI * d * l) * (atan(l / (2 * d)) + 2 * l * d / (l * l + 4 * d * d));
    ck_assert_double_eq_tol(uv_tube_irradiance(10, l, d), other, 1e-12);
    ck_assert_double_eq_tol(uv_tube_irradiance(1, 1, 1), 0.0875058, 1e-7);
    ck_assert_double_eq_tol(uv_tube_irradiance(10, 0.85, 0.30), 5.671066, 1e-6);
    ck_assert_double_eq_tol(atan(1.0 / (2 * 2)) * 180 / PI, 14, 0.05);
}
END_TEST

/* A 36-inch fluorescent tube as measured, relative to 1 m; widely reprinted (memory). Lit
 * length 0.80 m. The row at 6 inches (12.9) is 8 % off: nearer than 15 cm or so the formula reads
 * too high, which is why the plan does not go there. */
static const struct {
    double inches, relative;
} measured_rows[] = {{8, 9.85},  {10, 7.94},  {12, 6.48},   {18, 3.60},
                     {36, 1.22}, {60, 0.452}, {100, 0.169}, {120, 0.115}};

START_TEST(tube_agrees_with_measurements_from_8_inches_outward)
{
    struct uv_source tube = {UV_TUBE, 80, 1, 100};
    double relative = measured_rows[_i].relative;
    ck_assert_double_eq_tol(light(&tube, measured_rows[_i].inches * 2.54, 0), relative,
                            0.05 * relative);
}
END_TEST

START_TEST(tube_reads_too_high_very_near)
{
    struct uv_source tube = {UV_TUBE, 80, 1, 100};
    double at_6_inches = light(&tube, 6 * 2.54, 0);
    ck_assert_double_gt(at_6_inches, 12.9 * 1.05);
    ck_assert_double_lt(at_6_inches, 12.9 * 1.10);
}
END_TEST

/* Inverse square by arithmetic: 4.0 at 30 cm is 1.0 at 60 cm and 9.0 at 20 cm. Beside a point,
 * a flat receiver gets cos of the angle as well: at x = D, 1 / (2 sqrt 2). */
START_TEST(point_falls_with_the_square)
{
    struct uv_source lamp = {UV_POINT, 0, 4.0, 30};
    ck_assert_double_eq_tol(light(&lamp, 60, 0), 1.0, 1e-12);
    ck_assert_double_eq_tol(light(&lamp, 20, 0), 9.0, 1e-12);
    ck_assert_double_eq_tol(light(&lamp, 30, 30), 4.0 / (2 * sqrt(2)), 1e-12);
}
END_TEST

START_TEST(a_tube_lies_between_a_point_and_a_line)
{
    struct uv_source point = {UV_POINT, 0, 2.0, 30}, line = {UV_LINE, 0, 2.0, 30};
    for (double length = 5; length < 200; length *= 1.5) {
        struct uv_source tube = {UV_TUBE, length, 2.0, 30};
        ck_assert_double_eq_tol(light(&tube, 30, 0), 2.0, 1e-12);
        ck_assert_double_gt(light(&tube, 60, 0), light(&point, 60, 0));
        ck_assert_double_lt(light(&tube, 60, 0), light(&line, 60, 0));
        ck_assert_double_lt(light(&tube, 16, 0), light(&point, 16, 0));
        ck_assert_double_gt(light(&tube, 16, 0), light(&line, 16, 0));
    }
}
END_TEST

START_TEST(distance_is_the_inverse_of_light)
{
    struct uv_source lamps[] = {
        {UV_POINT, 0, 4.0, 30}, {UV_TUBE, 55, 4.0, 30}, {UV_LINE, 0, 4.0, 30}};
    for (size_t i = 0; i < COUNT(lamps); i++)
        for (double d = 16; d <= 60; d += 1.7)
            ck_assert_double_eq_tol(place(&lamps[i], light(&lamps[i], d, 0), 15, 60), d, 1e-3);
    ck_assert_double_eq_tol(place(&lamps[0], 2.25, 15, 60), 40, 1e-3); /* 30 sqrt(4/2.25) */
}
END_TEST

START_TEST(no_distance_outside_the_range)
{
    struct uv_source lamp = {UV_POINT, 0, 4.0, 30};
    double out = 7;
    ck_assert(!uv_distance_for(&lamp, 0.9, 0, 15, 60, &out)); /* still brighter at 60 cm */
    ck_assert(!uv_distance_for(&lamp, 17, 0, 15, 60, &out));  /* not even at 15 cm */
    ck_assert_double_eq(out, 7);
}
END_TEST

/* 20 cm beside a point the light first rises with distance, then falls: the farther of the
 * two places is the one that is found. */
START_TEST(beside_a_lamp_the_farther_place_is_found)
{
    struct uv_source lamp = {UV_POINT, 0, 4.0, 30};
    double out = 0, wanted = light(&lamp, 40, 20);
    ck_assert_double_gt(light(&lamp, 15, 20), light(&lamp, 5, 20));
    ck_assert(uv_distance_for(&lamp, wanted, 20, 2, 60, &out));
    ck_assert_double_eq_tol(out, 40, 1e-3);
}
END_TEST

/* Open area of woven wire, tables of the wire trade (memory), rounded to half a percent: 40 a
 * inch of 0.010 in is 36 %; an opening of 1/2 in with wire of 1/8 in is 64 %; cloths with other
 * wires across than along: 24 x 0.015 by 70 x 0.010 in is 19 %, 72 x 0.008 by 36 x 0.013 in 22.5 %.
 * A cloth's two directions multiply, so it is the root of its two square meshes. */
static const struct {
    double wire_in[2], opening_in[2], percent;
} mesh_rows[] = {
    {{0.010, 0.010}, {1.0 / 40 - 0.010, 1.0 / 40 - 0.010}, 36},
    {{0.125, 0.125}, {0.5, 0.5}, 64},
    {{0.015, 0.010}, {1.0 / 24 - 0.015, 1.0 / 70 - 0.010}, 19},
    {{0.008, 0.013}, {1.0 / 72 - 0.008, 1.0 / 36 - 0.013}, 22.5},
};

START_TEST(mesh_agrees_with_the_wire_tables)
{
    double share[2] = {NAN, NAN};
    for (int i = 0; i < 2; i++)
        ck_assert(uv_mesh_share(mesh_rows[_i].wire_in[i] * 2.54, mesh_rows[_i].opening_in[i] * 2.54,
                                &share[i]));
    ck_assert_double_eq_tol(sqrt(share[0] * share[1]) * 100, mesh_rows[_i].percent, 0.5);
}
END_TEST

START_TEST(nonsense_is_refused_and_nothing_is_touched)
{
    static const double bad[] = {0, -1, NAN, INFINITY, -INFINITY};
    double out = 7;
    for (size_t i = 0; i < COUNT(bad); i++) {
        struct uv_source lamp = {UV_POINT, 0, 4.0, 30};
        struct uv_source no_distance = {UV_POINT, 0, 4.0, bad[i]};
        struct uv_source no_length = {UV_TUBE, bad[i], 4.0, 30};
        ck_assert(!uv_index_at(&lamp, bad[i], 0, &out));
        ck_assert(!uv_index_at(&no_distance, 30, 0, &out));
        ck_assert(!uv_index_at(&no_length, 30, 0, &out));
        ck_assert(!uv_distance_for(&lamp, 1, 0, bad[i], 60, &out));
        ck_assert(!uv_mesh_share(0.03, bad[i], &out));
    }
    ck_assert(!uv_index_at(&(struct uv_source){UV_POINT, 0, NAN, 30}, 30, 0, &out));
    ck_assert(!uv_index_at(&(struct uv_source){UV_POINT, 0, -1, 30}, 30, 0, &out));
    ck_assert(!uv_index_at(&(struct uv_source){UV_POINT, 0, 4, 30}, 30, NAN, &out));
    ck_assert(!uv_mesh_share(NAN, 0.1, &out));
    ck_assert_double_eq(out, 7);
    ck_assert_double_eq(uv_tube_irradiance(1, 0, 1), 0);
    ck_assert_double_eq(uv_tube_irradiance_beside(1, 1, 0, 0), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("ultraviolet");
    TCase *tests = tcase_create("ultraviolet");
    tcase_add_test(tests, tube_closed_form_equals_integration);
    tcase_add_test(tests, beside_by_nothing_is_opposite_the_middle);
    tcase_add_test(tests, tube_has_its_two_limits);
    tcase_add_test(tests, tube_other_form_and_pins);
    tcase_add_loop_test(tests, tube_agrees_with_measurements_from_8_inches_outward, 0,
                        COUNT(measured_rows));
    tcase_add_test(tests, tube_reads_too_high_very_near);
    tcase_add_test(tests, point_falls_with_the_square);
    tcase_add_test(tests, a_tube_lies_between_a_point_and_a_line);
    tcase_add_test(tests, distance_is_the_inverse_of_light);
    tcase_add_test(tests, no_distance_outside_the_range);
    tcase_add_test(tests, beside_a_lamp_the_farther_place_is_found);
    tcase_add_loop_test(tests, mesh_agrees_with_the_wire_tables, 0, COUNT(mesh_rows));
    tcase_add_test(tests, nonsense_is_refused_and_nothing_is_touched);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
