/* How the exposure zones are used: target, background and aim of each published row, the verdict of
 * what a lamp gives, and what a clinic has settled otherwise. */
#include <math.h>

#include "common/suite.h"
#include "care/fixture.h"
#include "care/ultraviolet.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static struct care_fixture f;

static void set_up(void)
{
    fixture_init(&f);
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static const struct measured_plan *under(double uvi, double at_cm, double height_cm)
{
    struct visit_lamp *lamp = &f.visit.enclosure.lamp;
    lamp->kind = fixture_choice(LAMP_COMPACT);
    lamp->measured.uvi = fixture_quantity(uvi);
    lamp->measured.at_cm = fixture_quantity(at_cm);
    lamp->height_cm = fixture_quantity(height_cm);
    ck_assert(uvb_plan(&f.b));
    return &f.plan.measured[MEASURE_UVB];
}

/* Ferguson et al. 2010 and Baines et al. 2016, table 1: mean / maximum of zone 1 0-0.7 / 0.6-1.4, 2
 * 0.7-1.0 / 1.1-3.0, 3 1.0-2.6 / 2.9-7.4, 4 2.6-3.5 / 4.5-9.5. The aim, half way from the mean's
 * end to where the maximum begins, by hand: 0.65, 1.05, 2.75, 4.0. */
static const struct {
    int zone;
    double low, high, background, aim;
} zone_rows[] = {{1, 0, 1.4, 0.7, 0.65},
                 {2, 0.7, 3.0, 1.0, 1.05},
                 {3, 1.0, 7.4, 2.6, 2.75},
                 {4, 2.6, 9.5, 3.5, 4}};

START_TEST(each_published_row_from_mean_to_maximum)
{
    f.species.ferguson_zone = fixture_cited(zone_rows[_i].zone, zone_rows[_i].zone);
    const struct measured_plan *light = under(zone_rows[_i].aim, 30, 30);
    ck_assert_double_eq(light->low, zone_rows[_i].low);
    ck_assert_double_eq(light->high, zone_rows[_i].high);
    ck_assert_double_eq(f.plan.uvb.background_uvi, zone_rows[_i].background);
    ck_assert_double_eq_tol(f.plan.uvb.aim_uvi, zone_rows[_i].aim, 1e-9);
    ck_assert_double_eq_tol(f.plan.uvb.recommended_cm, 30, 0.01);
}
END_TEST

/* Zone 3: a tegu at 6, an iguana at 5 and a dragon at 4 have what they should. */
static const struct {
    double uvi;
    enum verdict verdict;
} verdict_rows[] = {{4, VERDICT_IN_RANGE}, {5, VERDICT_IN_RANGE},   {6, VERDICT_IN_RANGE},
                    {2, VERDICT_IN_RANGE}, {7.5, VERDICT_TOO_HIGH}, {0.8, VERDICT_TOO_LOW},
                    {9, VERDICT_TOO_HIGH}};

START_TEST(what_lies_between_mean_and_maximum_is_left_alone)
{
    ck_assert_int_eq(under(verdict_rows[_i].uvi, 30, 30)->verdict, verdict_rows[_i].verdict);
    ck_assert(f.plan.uvb.has_change);
    if (verdict_rows[_i].verdict == VERDICT_IN_RANGE)
        ck_assert_double_eq(f.plan.uvb.change_cm, 0);
    else if (verdict_rows[_i].verdict == VERDICT_TOO_HIGH)
        ck_assert_double_gt(f.plan.uvb.change_cm, 0);
    else
        ck_assert_double_lt(f.plan.uvb.change_cm, 0);
}
END_TEST

/* Zone 3 as clinics may settle it; the middle of its mean is 1.8. */
static const struct {
    enum uv_limit limit;
    enum uv_start start;
    double high, aim;
} use_rows[] = {{UV_LIMIT_MOST, UV_START_LOW, 7.4, 1.8},
                {UV_LIMIT_LEAST_MOST, UV_START_BETWEEN, 2.9, 2.75},
                {UV_LIMIT_MEAN, UV_START_BETWEEN, 2.6, 2.6},
                {UV_LIMIT_MEAN, UV_START_LOW, 2.6, 1.8}};

START_TEST(the_clinic_settles_how_a_zone_is_used)
{
    fixture_uv_use(&f, use_rows[_i].limit, use_rows[_i].start);
    const struct measured_plan *light = under(5, 30, 30);
    ck_assert_double_eq(light->high, use_rows[_i].high);
    ck_assert_double_eq_tol(f.plan.uvb.aim_uvi, use_rows[_i].aim, 1e-9);
    ck_assert_int_eq(light->verdict, use_rows[_i].high < 5 ? VERDICT_TOO_HIGH : VERDICT_IN_RANGE);
    ck_assert_str_eq(f.plan.uvb.use_because, "as the clinic has it");
}
END_TEST

/* Property: below the middle of a lamp of any kind and length a nearer place is never darker. */
START_TEST(a_lamp_nearer_never_gives_less)
{
    static const struct uv_source lamps[] = {{UV_POINT, 0, 3.2, 30},
                                             {UV_TUBE, 15, 3.2, 30},
                                             {UV_TUBE, 55, 0.4, 60},
                                             {UV_TUBE, 115, 9, 20},
                                             {UV_LINE, 0, 3.2, 30}};
    double before = INFINITY;
    for (double distance_cm = 5; distance_cm < 200; distance_cm *= 1.01) {
        double uvi = -1;
        ck_assert(uv_index_at(&lamps[_i], distance_cm, 0, &uvi));
        ck_assert_double_gt(uvi, 0);
        ck_assert_double_lt(uvi, before);
        before = uvi;
    }
}
END_TEST

/* The same of the plan: once too strong, it stays so however near the lamp comes. */
START_TEST(a_lamp_nearer_is_never_judged_weaker)
{
    bool strong = false, weak_after = false;
    for (double height_cm = 90; height_cm >= 4; height_cm -= 1) {
        enum verdict verdict = under(6, 40, height_cm)->verdict;
        strong |= verdict == VERDICT_TOO_HIGH;
        weak_after |= strong && verdict != VERDICT_TOO_HIGH;
        tear_down();
        set_up();
    }
    ck_assert(strong);
    ck_assert(!weak_after);
}
END_TEST

/* Where no formula holds: nearer than a reading of 9 (zone 3: 7.4) it is more. */
START_TEST(nearer_than_a_reading_that_is_too_strong_is_too_strong)
{
    ck_assert_int_eq(under(9, 12, 8)->verdict, VERDICT_TOO_HIGH);
    ck_assert_int_eq(under(9, 12, 12)->verdict, VERDICT_TOO_HIGH);
    tear_down();
    set_up();
    ck_assert_int_eq(under(9, 12, 25)->verdict, VERDICT_UNKNOWN);
    ck_assert_int_eq(under(6, 12, 8)->verdict, VERDICT_UNKNOWN);
}
END_TEST

/* A lid of mesh of which nothing is known: a reading of 9 (zone 3: 7.4) that may be of below it is
 * too much from there on inwards; of one that was read above it half is: 15 gives 7.5, 14 gives 7.
 */
static const struct {
    bool is_written, is_through;
    double uvi, height_cm;
    enum verdict verdict;
} mesh_rows[] = {{false, false, 9, 25, VERDICT_TOO_HIGH}, {false, false, 9, 30, VERDICT_TOO_HIGH},
                 {false, false, 9, 35, VERDICT_UNKNOWN},  {false, false, 6, 25, VERDICT_UNKNOWN},
                 {true, false, 9, 25, VERDICT_UNKNOWN},   {true, true, 9, 25, VERDICT_TOO_HIGH},
                 {true, false, 15, 30, VERDICT_TOO_HIGH}, {true, false, 14, 30, VERDICT_UNKNOWN},
                 {true, false, 15, 35, VERDICT_UNKNOWN}};

START_TEST(a_reading_of_an_unknown_side_of_the_mesh_is_too_strong_until_known)
{
    f.visit.enclosure.lid.known = true;
    f.visit.enclosure.lid.value = LID_MESH;
    f.visit.enclosure.lamp.measured.through_mesh.known = mesh_rows[_i].is_written;
    f.visit.enclosure.lamp.measured.through_mesh.value = mesh_rows[_i].is_through;
    ck_assert_int_eq(under(mesh_rows[_i].uvi, 30, mesh_rows[_i].height_cm)->verdict,
                     mesh_rows[_i].verdict);
}
END_TEST

/* 12 at 40 cm: 7.4 at 40 sqrt(12/7.4) = 50.9 cm, 2.75 at 83.6. From a back of 5 on a platform of 10
 * a box of 60 leaves 45: nothing safe fits. One of 70 leaves 55: as far as fits, not 83.6. */
static const struct {
    double box_cm;
    enum uvb_distance_why why;
    double recommended_cm;
} box_rows[] = {{60, DISTANCE_TOO_STRONG, 0}, {70, DISTANCE_KNOWN, 55}, {120, DISTANCE_KNOWN, 80}};

START_TEST(no_lamp_is_hung_above_the_lid)
{
    f.visit.enclosure.size = (struct box){true, 120, 60, box_rows[_i].box_cm, UNIT_CENTIMETRE, {0}};
    f.visit.enclosure.back_height_cm = fixture_quantity(5);
    f.visit.enclosure.platform_height_cm = fixture_quantity(10);
    ck_assert_int_eq(under(12, 40, 30)->verdict, VERDICT_TOO_HIGH);
    ck_assert_int_eq(f.plan.uvb.distance_why, box_rows[_i].why);
    ck_assert_int_eq(f.plan.uvb.lamp, box_rows[_i].why == DISTANCE_TOO_STRONG
                                          ? LAMP_STATE_TOO_STRONG
                                          : LAMP_STATE_FINE);
    ck_assert_double_eq_tol(f.plan.uvb.recommended_cm, box_rows[_i].recommended_cm, 0.01);
}
END_TEST

/* June: the fixture's summer has 14 hours of light; three hours from it are the keeper's to change.
 */
static const struct {
    double set_h;
    int off;
} hour_rows[] = {{8, -1}, {11, -1}, {11.5, 0}, {14, 0}, {16.5, 0}, {17, 1}};

START_TEST(a_timer_far_from_the_season_is_off)
{
    f.visit.date = fixture_date(2026, 6, 14);
    f.visit.enclosure.lamp.hours = fixture_quantity(hour_rows[_i].set_h);
    under(4, 30, 30);
    ck_assert_int_eq(f.plan.uvb.hours_off, hour_rows[_i].off);
}
END_TEST

/* A zone that the reference does not have, or no word on how zones are used: nothing is aimed at.
 */
START_TEST(a_zone_without_a_row_has_no_target)
{
    static const struct {
        double low, high;
        bool has_use;
    } rows[] = {{0, 3, true}, {3, 5, true}, {3, 3, false}};
    f.species.ferguson_zone = fixture_cited(rows[_i].low, rows[_i].high);
    if (!rows[_i].has_use)
        f.reference.uv_uses = (struct list){0};
    const struct measured_plan *light = under(2, 30, 30);
    ck_assert(!light->applies);
    ck_assert_int_eq(light->verdict, VERDICT_UNKNOWN);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("uvb_zones");
    TCase *tests = tcase_create("uvb_zones");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, each_published_row_from_mean_to_maximum, 0, COUNT(zone_rows));
    tcase_add_loop_test(tests, what_lies_between_mean_and_maximum_is_left_alone, 0,
                        COUNT(verdict_rows));
    tcase_add_loop_test(tests, the_clinic_settles_how_a_zone_is_used, 0, COUNT(use_rows));
    tcase_add_loop_test(tests, a_lamp_nearer_never_gives_less, 0, 5);
    tcase_add_test(tests, a_lamp_nearer_is_never_judged_weaker);
    tcase_add_test(tests, nearer_than_a_reading_that_is_too_strong_is_too_strong);
    tcase_add_loop_test(tests, a_reading_of_an_unknown_side_of_the_mesh_is_too_strong_until_known,
                        0, sizeof mesh_rows / sizeof *mesh_rows);
    tcase_add_loop_test(tests, no_lamp_is_hung_above_the_lid, 0, COUNT(box_rows));
    tcase_add_loop_test(tests, a_timer_far_from_the_season_is_off, 0, COUNT(hour_rows));
    tcase_add_loop_test(tests, a_zone_without_a_row_has_no_target, 0, 3);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
