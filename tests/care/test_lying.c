/* Where an animal that must not climb lies, and the light and warmth there. The fixture's lizard is
 * of Ferguson zone 3 as in test_uvb_plan.c: target 1.0-2.6, aim 1.8. Every lamp here is a point, so
 * all is worked out by hand with the inverse square: 2.8 at 30 cm is 1.8 at 37.417 cm. How high a
 * perch may be is the clinical table's own-length rule, from memory. */
#include <math.h>

#include "common/suite.h"
#include "care/fixture.h"

static struct care_fixture f;
static struct visit_enclosure *box;

static void set_up(void)
{
    fixture_init(&f);
    fixture_uv_use(&f, UV_LIMIT_MEAN, UV_START_LOW);
    box = &f.visit.enclosure;
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static void again(void)
{
    tear_down();
    set_up();
}

static void hang(double uvi, double height_cm)
{
    box->lamp.kind = fixture_choice(LAMP_COMPACT);
    box->lamp.measured.uvi = fixture_quantity(uvi);
    box->lamp.measured.at_cm = fixture_quantity(30);
    box->lamp.height_cm = fixture_quantity(height_cm);
}

static const struct uvb_plan *made(void)
{
    ck_assert(lying_plan(&f.b) && uvb_plan(&f.b));
    return &f.plan.uvb;
}

static void keep_low(const char *stance, enum habit habit, double platform_cm)
{
    f.species.habit = fixture_choice((int)habit);
    f.plan.patient.has_length = true;
    f.plan.patient.length_cm = 12;
    if (platform_cm >= 0)
        box->platform_height_cm = fixture_quantity(platform_cm);
    fixture_settle(&f, "climbing", stance, "finding:bent-bones");
}

/* At 37 cm on its platform it had 1.84; on the floor, 57 cm away, it has 2.8 (30/57)^2 = 0.776. */
START_TEST(the_floor_is_farther_from_the_lamp)
{
    hang(2.8, 37);
    box->platform_height_cm = fixture_quantity(20);
    ck_assert_int_eq((made(), f.plan.measured[MEASURE_UVB].verdict), VERDICT_IN_RANGE);
    ck_assert(!f.plan.lying.low);
    again();
    hang(2.8, 37);
    keep_low("ground-only", HABIT_TERRESTRIAL, 20);
    const struct uvb_plan *plan = made();
    ck_assert(f.plan.lying.low && f.plan.lying.known);
    ck_assert_double_eq(f.plan.lying.lower_by_cm, 20);
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_UVB].reading, 0.7756, 1e-4);
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, VERDICT_TOO_LOW);
    ck_assert_double_eq_tol(plan->recommended_cm, 37.417, 1e-3);
    ck_assert_double_eq_tol(plan->change_cm, 37.417 - 57, 1e-3);
}
END_TEST

/* A climber on a perch as high as it is long, 12 cm: 20 lower than its branch at 32. Back 3 cm. */
START_TEST(a_climber_keeps_a_perch_of_its_own_length)
{
    static const char *const stances[] = {"ground-only", "low"};
    hang(2.8, 37);
    box->back_height_cm = fixture_quantity(3);
    keep_low(stances[_i], HABIT_ARBOREAL, 32);
    const struct uvb_plan *plan = made();
    ck_assert_double_eq(f.plan.lying.above_floor_cm, 12);
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_UVB].reading, 0.7756, 1e-4);
    ck_assert_double_eq_tol(plan->lamp_above_floor_cm, 37.417 + 3 + 12, 1e-3);
    ck_assert_int_eq(plan->perch, PERCH_UNKNOWN);
}
END_TEST

/* The distance to the back is the same wherever it lies; how far it is now is not known. */
START_TEST(without_the_branchs_height_only_the_distance_is_said)
{
    hang(2.8, 37);
    keep_low("ground-only", HABIT_ARBOREAL, -1);
    const struct uvb_plan *plan = made();
    ck_assert_double_eq_tol(plan->recommended_cm, 37.417, 1e-3);
    ck_assert(!f.plan.measured[MEASURE_UVB].has_reading && !plan->has_change);
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, VERDICT_UNKNOWN);
    ck_assert_ptr_nonnull(fixture_review(&f, "low-place-unknown"));
    again();
    hang(2.8, 37);
    keep_low("low", HABIT_ARBOREAL, 32);
    f.plan.patient.has_length = false;
    made();
    ck_assert(f.plan.lying.low && !f.plan.lying.known);
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, VERDICT_UNKNOWN);
    ck_assert_ptr_nonnull(fixture_review(&f, "low-place-unknown"));
}
END_TEST

START_TEST(who_lies_as_before_keeps_its_numbers)
{
    hang(2.8, 37);
    keep_low("ground-only", HABIT_TERRESTRIAL, -1); /* it stood on nothing */
    made();
    ck_assert(!f.plan.lying.low && f.plan.measured[MEASURE_UVB].has_reading);
    again();
    keep_low("ground-only", HABIT_ARBOREAL, 10); /* lower than it is long */
    made();
    ck_assert(!f.plan.lying.low);
    again();
    f.species.group = fixture_choice(GROUP_TURTLE); /* a ramp leads to its dry place */
    keep_low("low", HABIT_SEMI_AQUATIC, 20);
    made();
    ck_assert(!f.plan.lying.low);
    again();
    keep_low("free", HABIT_TERRESTRIAL, 20);
    made();
    ck_assert(!f.plan.lying.low);
}
END_TEST

static void put_on_mesh(double uvi)
{
    hang(uvi, 36); /* 60 less platform 20 less back 4: on the lid */
    box->size = (struct box){true, 100, 50, 60, UNIT_CENTIMETRE, {0}};
    box->lid = fixture_choice(LID_MESH);
    box->back_height_cm = fixture_quantity(4);
    keep_low("ground-only", HABIT_TERRESTRIAL, 20);
}

/* Through 40 % of mesh 2.8 at 30 cm is 1.68, on the floor 56 cm away 0.482. Taken into the box the
 * lamp loses its mesh: 37.417 cm, where through the mesh 29 would have been said, and 2.6 at 31.13.
 */
START_TEST(a_lamp_taken_below_the_mesh_is_reckoned_without_it)
{
    put_on_mesh(2.8);
    box->lamp.mesh_loss_percent = fixture_quantity(40);
    const struct uvb_plan *plan = made();
    ck_assert_double_eq_tol(f.plan.measured[MEASURE_UVB].reading, 1.68 * 900 / (56 * 56), 1e-4);
    ck_assert(plan->below_mesh);
    ck_assert_double_eq_tol(plan->recommended_cm, 37.417, 1e-3);
    ck_assert_double_eq_tol(plan->nearest_cm, 30 * sqrt(2.8 / 2.6), 1e-3);
    again();
    put_on_mesh(1.68); /* read below the mesh: what it is without nobody knows */
    box->lamp.measured.through_mesh = fixture_flag(true);
    ck_assert_int_eq(made()->distance_why, DISTANCE_NO_READING);
    ck_assert_int_eq(f.plan.uvb.lamp, LAMP_STATE_UNMEASURED);
    ck_assert_ptr_nonnull(fixture_review(&f, "low-lamp-behind-mesh"));
}
END_TEST

/* How near a lamp comes without its mesh is not said where nobody knows how high the lid is, nor
 * where it hangs and so what reaches the animal now. */
START_TEST(into_the_box_goes_no_lamp_that_is_not_known_to_be_too_far)
{
    put_on_mesh(2.8);
    box->lamp.mesh_loss_percent = fixture_quantity(40);
    if (_i)
        box->lamp.height_cm.known = false;
    else
        box->size.known = false;
    ck_assert_int_eq(made()->distance_why, DISTANCE_NO_READING);
    ck_assert(!f.plan.uvb.below_mesh);
    ck_assert_int_eq(f.plan.measured[MEASURE_UVB].verdict, _i ? VERDICT_UNKNOWN : VERDICT_TOO_LOW);
    ck_assert_ptr_nonnull(fixture_review(&f, "low-lamp-behind-mesh"));
}
END_TEST

/* 7 at 30 cm and 40 % of mesh: 4.2, and on the floor, 56 cm from the lid, still 1.205. */
START_TEST(a_lamp_that_is_strong_enough_stays_on_its_mesh)
{
    put_on_mesh(7);
    box->lamp.mesh_loss_percent = fixture_quantity(40);
    const struct uvb_plan *plan = made();
    ck_assert(!plan->below_mesh);
    ck_assert_double_eq_tol(plan->nearest_cm, 56, 1e-9);
    ck_assert_double_eq(plan->change_cm, 0);
}
END_TEST

START_TEST(lower_never_gets_more_light)
{
    double before = INFINITY;
    for (int platform_cm = 0; platform_cm <= 25; platform_cm += 5) {
        again();
        hang(2.8, 32);
        keep_low("ground-only", HABIT_TERRESTRIAL, platform_cm);
        made();
        ck_assert(f.plan.measured[MEASURE_UVB].has_reading);
        ck_assert_double_lt(f.plan.measured[MEASURE_UVB].reading, before);
        before = f.plan.measured[MEASURE_UVB].reading;
    }
}
END_TEST

/* Too cold above is too cold below; right above says nothing of below, too hot stays a danger. */
START_TEST(a_warm_spot_is_measured_again_where_it_lies)
{
    static const struct {
        double read_c;
        enum verdict verdict;
    } rows[] = {{34, VERDICT_UNKNOWN}, {25, VERDICT_TOO_LOW}, {48, VERDICT_TOO_HIGH}};
    f.species.measured[ZONE_BASKING_SURFACE] = fixture_cited(32, 36);
    f.visit.measured[ZONE_BASKING_SURFACE] = fixture_quantity(rows[_i].read_c);
    keep_low("ground-only", HABIT_TERRESTRIAL, 20);
    ck_assert(lying_plan(&f.b) && temperature_plan(&f.b));
    ck_assert_int_eq(f.plan.measured[ZONE_BASKING_SURFACE].verdict, rows[_i].verdict);
    ck_assert_int_eq(fixture_review(&f, "basking-read-higher") != NULL, _i == 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("lying");
    TCase *tests = tcase_create("lying");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, the_floor_is_farther_from_the_lamp);
    tcase_add_loop_test(tests, a_climber_keeps_a_perch_of_its_own_length, 0, 2);
    tcase_add_test(tests, without_the_branchs_height_only_the_distance_is_said);
    tcase_add_test(tests, who_lies_as_before_keeps_its_numbers);
    tcase_add_test(tests, a_lamp_taken_below_the_mesh_is_reckoned_without_it);
    tcase_add_loop_test(tests, into_the_box_goes_no_lamp_that_is_not_known_to_be_too_far, 0, 2);
    tcase_add_test(tests, a_lamp_that_is_strong_enough_stays_on_its_mesh);
    tcase_add_test(tests, lower_never_gets_more_light);
    tcase_add_loop_test(tests, a_warm_spot_is_measured_again_where_it_lies, 0, 3);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
