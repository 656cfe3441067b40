/* Steady heat: a published wall, and arithmetic. */
#include <math.h>

#include "common/suite.h"
#include "care/heat.h"

/* A worked wall of building physics teaching, after ISO 6946 (memory): render 18 mm / 0.50,
 * brick 102 / 0.77, brick 102 / 0.56, plaster 13 / 0.57 W/mK, films 0.13 and 0.04: R 0.54, U 1.85.
 */
START_TEST(u_value_agrees_with_the_published_wall)
{
    static const struct heat_layer wall[] = {
        {0.018, 0.50}, {0.102, 0.77}, {0.102, 0.56}, {0.013, 0.57}};
    double u = NAN;
    ck_assert(heat_u_value(0.13, 0.04, wall, 4, &u));
    ck_assert_double_eq_tol(1 / u, 0.54, 0.005);
    ck_assert_double_eq_tol(u, 1.85, 0.02);
}
END_TEST

/* By arithmetic: 6 mm of glass between two indoor films is 1 / (0.13 + 0.006 + 0.13) = 3.759; the
 * films are almost all of it. */
START_TEST(films_dominate_a_pane)
{
    struct heat_layer glass = {0.006, 1.0};
    double pane = NAN, films = NAN;
    ck_assert(heat_u_value(0.13, 0.13, &glass, 1, &pane));
    ck_assert(heat_u_value(0.13, 0.13, NULL, 0, &films));
    ck_assert_double_eq_tol(pane, 3.7594, 1e-4);
    ck_assert_double_lt(films / pane, 1.03);
}
END_TEST

/* By hand: a cube of 1 m, U 2 everywhere, one air change: 6 m2 x 2 + 0.33 = 12.33 W/K. A box of
 * 1.2 x 0.6 x 0.5 m: walls 1.8 m2, lid and floor 0.72 m2, 0.36 m3;
 * 1.8 x 3 + 0.72 x (4 + 2) + 0.33 x 2 x 0.36 = 5.4 + 4.32 + 0.2376 = 9.9576 W/K. */
START_TEST(loss_adds_up)
{
    struct heat_box cube = {1, 1, 1, 2, 2, 2, 1};
    struct heat_box box = {1.2, 0.6, 0.5, 3, 4, 2, 2};
    ck_assert_double_eq_tol(heat_loss_w_k(&cube), 12.33, 1e-9);
    ck_assert_double_eq_tol(heat_loss_w_k(&box), 9.9576, 1e-9);
}
END_TEST

/* By hand: three changes of a quarter cubic metre, each gaining 20 g: 15 g/h x 2450 J / 3600 s =
 * 10.2 W; air that gains nothing takes nothing along. */
START_TEST(vapour_takes_its_heat_along)
{
    ck_assert_double_eq_tol(heat_vapour_w(3, 0.25, 25, 5), 10.208, 0.001);
    ck_assert_double_eq(heat_vapour_w(3, 0.25, 5, 25), 0);
}
END_TEST

/* The drop over a film is its share of the whole resistance: glass as above, 25 deg C inside, 15
 * outside: 25 - 10 x 0.13 / 0.266 = 20.11. */
START_TEST(inner_face_lies_between)
{
    ck_assert_double_eq_tol(heat_inner_face_c(25, 15, 1 / 0.266, 0.13), 25 - 1.3 / 0.266, 1e-9);
    ck_assert_double_eq(heat_inner_face_c(25, 25, 3, 0.13), 25);
}
END_TEST

START_TEST(nonsense_is_refused_and_nothing_is_touched)
{
    double u = 7;
    ck_assert(!heat_u_value(0, 0, NULL, 0, &u));
    ck_assert(!heat_u_value(-0.1, 0.3, NULL, 0, &u));
    ck_assert(!heat_u_value(NAN, 0.1, NULL, 0, &u));
    ck_assert(!heat_u_value(0.1, INFINITY, NULL, 0, &u));
    ck_assert(!heat_u_value(0.1, 0.1, &(struct heat_layer){0.01, 0}, 1, &u));
    ck_assert(!heat_u_value(0.1, 0.1, &(struct heat_layer){-0.01, 1}, 1, &u));
    ck_assert(!heat_u_value(0.1, 0.1, &(struct heat_layer){NAN, 1}, 1, &u));
    ck_assert_double_eq(u, 7);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("heat");
    TCase *tests = tcase_create("heat");
    tcase_add_test(tests, u_value_agrees_with_the_published_wall);
    tcase_add_test(tests, films_dominate_a_pane);
    tcase_add_test(tests, loss_adds_up);
    tcase_add_test(tests, vapour_takes_its_heat_along);
    tcase_add_test(tests, inner_face_lies_between);
    tcase_add_test(tests, nonsense_is_refused_and_nothing_is_touched);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
