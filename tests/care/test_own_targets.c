/* Slips of the pen among the veterinarian's own targets: asked back at the first step past each
 * limit, not at the limit itself, and not once they are confirmed. The animal of the fixture has
 * 38-42 C at the basking spot, 30-34 on the warm side, 22-26 on the cool side and 18-22 at night;
 * 8 K, a UV index of 9.5, 10 % of air and half of the animal as a meal are the limits of
 * reference-values.yaml. */
#include <string.h>

#include "care/fixture.h"
#include "care/measured.h"
#include "common/suite.h"

static struct care_fixture f;
static struct visit_targets *own;

static void set_up(void)
{
    fixture_init(&f);
    own = &f.visit.targets;
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

/* How many are asked back; the check says the same. */
static size_t asked(void)
{
    diag_finish(&f.diag);
    diag_init(&f.diag);
    bool good = own_targets_check(&f.b);
    size_t count = 0;
    for (const struct diag_message *m = f.diag.first; m; m = m->next)
        count += strcmp(m->code, "target-unusual") == 0;
    ck_assert_int_eq(good, f.diag.first == NULL);
    return count;
}

static void confirm(const char *key)
{
    struct text_value name = fixture_text(key);
    own->confirmed = fixture_list(&f, &name, 1, sizeof name);
}

/* Asked once, and not when it is confirmed by its name; another's name confirms nothing. */
static void is_asked(const char *key, bool wanted)
{
    ck_assert_msg(asked() == wanted, "%s", key);
    if (wanted)
        ck_assert_str_eq(f.diag.first->path, arena_format(&f.arena, "targets.%s", key));
    confirm(key);
    ck_assert_uint_eq(asked(), 0);
    confirm("nothing");
    ck_assert_uint_eq(asked(), wanted);
    ck_assert(fixture_said(&f, "confirms-nothing"));
    own->confirmed.count = 0;
}

START_TEST(none_is_asked_of_none)
{
    ck_assert_uint_eq(asked(), 0);
    for (int zone = 0; zone < ZONE_COUNT; zone++)
        own->measured[zone] = f.species.measured[zone].range;
    own->measured[MEASURE_HUMIDITY] = f.species.measured[MEASURE_HUMIDITY].range;
    ck_assert_uint_eq(asked(), 0);
}
END_TEST

static const struct {
    int zone;
    double low, high;
    bool asked;
} zone_rows[] = {
    /* above what it bears, 42 C */
    {ZONE_BASKING_SURFACE, 38, 42, false},
    {ZONE_BASKING_SURFACE, 38, 42.1, true},
    {ZONE_WARM_SIDE, 30, 42, false},
    {ZONE_WARM_SIDE, 30, 42.1, true},
    {ZONE_COOL_SIDE, 22, 42.1, true},
    {ZONE_NIGHT, 18, 42.1, true},
    /* past its neighbours: night, cool side, warm side, basking spot */
    {ZONE_NIGHT, 26, 26, false},
    {ZONE_NIGHT, 26.1, 27, true},
    {ZONE_COOL_SIDE, 17, 18, false},
    {ZONE_COOL_SIDE, 17, 17.9, true},
    {ZONE_COOL_SIDE, 34, 35, false},
    {ZONE_COOL_SIDE, 34.1, 35, true},
    {ZONE_WARM_SIDE, 22, 22, false},
    {ZONE_WARM_SIDE, 42, 42, false},
    /* more than 8 K below the species' own */
    {ZONE_BASKING_SURFACE, 30, 42, false},
    {ZONE_BASKING_SURFACE, 29.9, 42, true},
    {ZONE_WARM_SIDE, 22, 30, false},
    {ZONE_WARM_SIDE, 21.9, 30, true},
    {ZONE_COOL_SIDE, 14, 22, false},
    {ZONE_COOL_SIDE, 13.9, 22, true},
    {ZONE_NIGHT, 10, 18, false},
    {ZONE_NIGHT, 9.9, 18, true},
};

START_TEST(a_zone_at_its_limits)
{
    f.species.upper_limit = fixture_cited(42, 42);
    own->measured[zone_rows[_i].zone] = fixture_band(zone_rows[_i].low, zone_rows[_i].high);
    is_asked(measures[zone_rows[_i].zone].id, zone_rows[_i].asked);
}
END_TEST

/* A neighbour is what the veterinarian set there, else the species'; one that nobody knows is no
 * neighbour. A species without a limit bears what is written. */
START_TEST(against_the_neighbour_that_holds)
{
    own->measured[ZONE_NIGHT] = fixture_band(26.1, 27);
    ck_assert_uint_eq(asked(), 1);
    own->measured[ZONE_COOL_SIDE] = fixture_band(24, 28);
    ck_assert_uint_eq(asked(), 0);
    own->measured[ZONE_COOL_SIDE] = fixture_band(23, 24);
    ck_assert_uint_eq(asked(), 2); /* each of the two stands against the other */
    again();
    own->measured[ZONE_BASKING_SURFACE] = fixture_band(30, 60);
    ck_assert_uint_eq(asked(), 0);
    own->measured[ZONE_NIGHT] = fixture_band(26.1, 27);
    f.species.measured[ZONE_COOL_SIDE].range.known = false;
    ck_assert_uint_eq(asked(), 0);
    f.species.measured[ZONE_NIGHT].range.known = false;
    own->measured[ZONE_NIGHT] = fixture_band(-5, 20);
    ck_assert_uint_eq(asked(), 0);
}
END_TEST

/* Water lies beside the gradient, not in it. */
START_TEST(water_is_no_part_of_the_gradient)
{
    own->measured[ZONE_WATER] = fixture_band(45, 46);
    ck_assert_uint_eq(asked(), 0);
    f.species.upper_limit = fixture_cited(42, 42);
    is_asked(measures[ZONE_WATER].id, true);
    f.species.measured[ZONE_WATER] = fixture_cited(24, 26);
    own->measured[ZONE_WATER] = fixture_band(16, 20);
    ck_assert_uint_eq(asked(), 0);
    own->measured[ZONE_WATER] = fixture_band(15.9, 20);
    is_asked(measures[ZONE_WATER].id, true);
}
END_TEST

START_TEST(air_drier_than_a_meter_shows)
{
    own->measured[MEASURE_HUMIDITY] = fixture_band(10, 40);
    is_asked("humidity", false);
    own->measured[MEASURE_HUMIDITY] = fixture_band(9.9, 40);
    is_asked("humidity", true);
}
END_TEST

START_TEST(light_above_the_highest_zone)
{
    own->measured[MEASURE_UVB] = fixture_band(3, 9.5);
    is_asked("uvi", false);
    own->measured[MEASURE_UVB] = fixture_band(3, 9.6);
    is_asked("uvi", true);
}
END_TEST

/* Half of 200 g; without a mass half of the heaviest grown one's 2000 g; without either nobody
 * knows. */
START_TEST(a_meal_of_more_than_half)
{
    static const struct {
        double mass_g, grown_g, meal_g;
        bool asked;
    } rows[] = {{200, 2000, 100, false}, {200, 2000, 100.1, true}, {0, 2000, 1000, false},
                {0, 2000, 1000.1, true}, {200, 0, 100.1, true},    {0, 0, 5000, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        if (rows[i].mass_g > 0)
            f.visit.patient.mass_g = fixture_quantity(rows[i].mass_g);
        if (rows[i].grown_g > 0)
            f.species.adult_mass_g = fixture_cited(500, rows[i].grown_g);
        own->meal_g = fixture_band(50, rows[i].meal_g);
        is_asked("meal", rows[i].asked);
    }
}
END_TEST

/* A name confirms a target that there is. */
START_TEST(what_confirms_nothing_is_a_slip)
{
    static const char *const names[] = {"meal",  "uvi",       "humidity",
                                        "night", "warm-side", "basking-surface"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        again();
        confirm(names[i]);
        ck_assert_uint_eq(asked(), 0);
        ck_assert(fixture_said(&f, "confirms-nothing"));
        own->meal_g = fixture_band(1, 2);
        own->measured[MEASURE_UVB] = fixture_band(1, 2);
        own->measured[MEASURE_HUMIDITY] = fixture_band(30, 40);
        own->measured[ZONE_NIGHT] = fixture_band(18, 22);
        own->measured[ZONE_BASKING_SURFACE] = fixture_band(38, 42);
        own->measured[ZONE_WARM_SIDE] = fixture_band(30, 34);
        ck_assert_uint_eq(asked(), 0);
        ck_assert(!fixture_said(&f, "confirms-nothing"));
    }
}
END_TEST

/* ---- told as the veterinarian's own ------------------------------------------------------ */

/* Told where either end lies outside of the usual; the zone, or the measure of water, is named,
 * for there are many. */
START_TEST(an_own_target_is_told_with_its_place)
{
    static const struct {
        enum measure_id measure;
        const char *code, *fact, *text;
    } rows[] = {{MEASURE_WARM_SIDE, "own-temperature-target", "zone", "zone.warm-side"},
                {MEASURE_NIGHT, "own-temperature-target", "zone", "zone.night"},
                {MEASURE_HUMIDITY, "own-humidity-target", NULL, NULL},
                {MEASURE_UVB, "own-uvb-target", NULL, NULL},
                {MEASURE_PH, "own-water-target", "measure", "measure.ph.plain"}};
    static const double bands[][2] = {{20, 30}, {19.9, 30}, {20, 30.1}, {21, 29}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (size_t k = 0; k < sizeof bands / sizeof *bands; k++) {
            again();
            own->measured[rows[i].measure] = fixture_band(bands[k][0], bands[k][1]);
            measured_remark_own(&f.b, rows[i].measure, 20, 30);
            const struct review *review = fixture_review(&f, rows[i].code);
            ck_assert_int_eq(review != NULL, k == 1 || k == 2);
            if (!review)
                continue;
            const struct plan_fact *zone = fixture_fact(review, "zone"),
                                   *measure = fixture_fact(review, "measure");
            ck_assert_int_eq(zone != NULL, rows[i].fact && strcmp(rows[i].fact, "zone") == 0);
            ck_assert_int_eq(measure != NULL, rows[i].fact && strcmp(rows[i].fact, "measure") == 0);
            if (rows[i].fact)
                ck_assert_str_eq((zone ? zone : measure)->text, rows[i].text);
            ck_assert_double_eq(fixture_fact(review, "usual")->low, 20);
            ck_assert_double_eq(fixture_fact(review, "usual")->high, 30);
            ck_assert_double_eq(fixture_fact(review, "target")->low, bands[k][0]);
            ck_assert_double_eq(fixture_fact(review, "target")->high, bands[k][1]);
        }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("own_targets");
    TCase *tests = tcase_create("own_targets");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, none_is_asked_of_none);
    tcase_add_loop_test(tests, a_zone_at_its_limits, 0, sizeof zone_rows / sizeof *zone_rows);
    tcase_add_test(tests, against_the_neighbour_that_holds);
    tcase_add_test(tests, water_is_no_part_of_the_gradient);
    tcase_add_test(tests, air_drier_than_a_meter_shows);
    tcase_add_test(tests, light_above_the_highest_zone);
    tcase_add_test(tests, a_meal_of_more_than_half);
    tcase_add_test(tests, what_confirms_nothing_is_a_slip);
    tcase_add_test(tests, an_own_target_is_told_with_its_place);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
