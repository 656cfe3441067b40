/* What a keeper can mend, and how it stands now: a rule that asks for something bad of the home,
 * by the rules' own words (check --format rules). */
#include <stddef.h>

#include "care/fixture.h"
#include "care/rule_match.h"
#include "common/suite.h"

static struct care_fixture f;

static void set_up(void)
{
    fixture_init(&f);
}

static void tear_down(void)
{
    fixture_finish(&f);
}

#define OF(list_) offsetof(struct rule_when, list_)

/* What is asked for: bad of the home, or good. */
static const struct {
    size_t asked;
    int bad, good;
} home_rows[] = {
    {OF(lamp), LAMP_STATE_DUE, LAMP_STATE_FINE},
    {OF(enclosure), VERDICT_TOO_LOW, VERDICT_IN_RANGE},
    {OF(water_test), WATER_HARMFUL, WATER_FINE},
    {OF(water_change), VERDICT_TOO_LOW, VERDICT_IN_RANGE},
    {OF(filter), 0, 1},
    {OF(gradient), GRADIENT_INVERTED, GRADIENT_GOOD},
    {OF(night_drop), NIGHT_NO_DROP, NIGHT_GOOD},
    {OF(wall), WALL_WET, WALL_DRY},
    {OF(hygrometer), HYGROMETER_ELSEWHERE, HYGROMETER_IN_PLACE},
    {OF(thermostat), 0, 1},
    {OF(heat_guard), 0, 1},
    {OF(photoperiod), PHOTOPERIOD_NEVER_DARK, PHOTOPERIOD_USUAL},
    {OF(hides), HIDES_NONE, HIDES_ENOUGH},
    {OF(perch), PERCH_TOO_NEAR, PERCH_FINE},
    {OF(shade), 0, 1},
    {OF(water_dish), 0, 1},
    {OF(company), COMPANY_MIXED, COMPANY_NONE},
    {OF(food_given), FOOD_GIVEN_POISON, FOOD_GIVEN_FINE},
    {OF(plants_given), PLANTS_GIVEN_CALCIUM_SHORT, PLANTS_GIVEN_FINE},
};

static void ask(struct rule_when *when, size_t at, int value)
{
    *(struct list *)((char *)when + at) = fixture_one_of(&f, value);
}

START_TEST(a_bad_home_can_be_mended_and_a_good_one_not)
{
    struct rule_when when = {0};
    ck_assert(!rule_when_mends(&when));
    ask(&when, home_rows[_i].asked, home_rows[_i].bad);
    ck_assert(rule_when_mends(&when));
    ask(&when, home_rows[_i].asked, home_rows[_i].good);
    ck_assert(!rule_when_mends(&when));
}
END_TEST

START_TEST(a_reading_on_either_side_can_be_mended)
{
    static const int verdicts[] = {VERDICT_TOO_LOW, VERDICT_TOO_HIGH, VERDICT_IN_RANGE,
                                   VERDICT_UNKNOWN, VERDICT_BORDERLINE};
    for (int m = 0; m < MEASURE_COUNT; m++)
        for (size_t i = 0; i < sizeof verdicts / sizeof *verdicts; i++) {
            struct rule_when when = {0};
            when.measured[m] = fixture_one_of(&f, verdicts[i]);
            ck_assert_int_eq(rule_when_mends(&when), i < 2);
            ck_assert_int_eq(rule_when_mended(&f.b, &when) != MENDED_NOTHING, i < 2);
        }
    struct rule_when when = {0};
    when.heat_kind = fixture_one_of(&f, HEAT_RED_LIGHT);
    ck_assert(rule_when_mends(&when));
    when.heat_kind = (struct list){0};
    when.group = fixture_one_of(&f, GROUP_SNAKE); /* what it is nobody mends */
    ck_assert(!rule_when_mends(&when));
}
END_TEST

/* A warm side that was too low, and how it is read today. */
START_TEST(how_a_reading_came_out)
{
    static const struct {
        enum verdict now;
        enum mended mended;
    } rows[] = {{VERDICT_UNKNOWN, MENDED_UNKNOWN},
                {VERDICT_IN_RANGE, MENDED_YES},
                {VERDICT_BORDERLINE, MENDED_NEARLY},
                {VERDICT_TOO_LOW, MENDED_NOT},
                {VERDICT_TOO_HIGH, MENDED_TURNED}};
    struct rule_when when = {0};
    when.measured[ZONE_WARM_SIDE] = fixture_one_of(&f, VERDICT_TOO_LOW);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        f.plan.measured[ZONE_WARM_SIDE].verdict = rows[i].now;
        ck_assert_int_eq(rule_when_mended(&f.b, &when), rows[i].mended);
    }
    /* of two, the graver counts, wherever it stands */
    when.measured[ZONE_COOL_SIDE] = fixture_one_of(&f, VERDICT_TOO_LOW);
    f.plan.measured[ZONE_WARM_SIDE].verdict = VERDICT_TOO_LOW;
    f.plan.measured[ZONE_COOL_SIDE].verdict = VERDICT_IN_RANGE;
    ck_assert_int_eq(rule_when_mended(&f.b, &when), MENDED_NOT);
    f.plan.measured[ZONE_WARM_SIDE].verdict = VERDICT_IN_RANGE;
    f.plan.measured[ZONE_COOL_SIDE].verdict = VERDICT_TOO_LOW;
    ck_assert_int_eq(rule_when_mended(&f.b, &when), MENDED_NOT);
}
END_TEST

START_TEST(how_a_state_and_a_heater_came_out)
{
    struct rule_when when = {0};
    when.gradient = fixture_one_of(&f, GRADIENT_INVERTED);
    f.plan.temperature.gradient = GRADIENT_GOOD;
    ck_assert_int_eq(rule_when_mended(&f.b, &when), MENDED_YES);
    f.plan.temperature.gradient = GRADIENT_UNKNOWN;
    ck_assert_int_eq(rule_when_mended(&f.b, &when), MENDED_UNKNOWN);
    f.plan.temperature.gradient = GRADIENT_TOO_FLAT;
    ck_assert_int_eq(rule_when_mended(&f.b, &when), MENDED_NOT);
    when.heat_kind = fixture_one_of(&f, HEAT_HOT_ROCK);
    f.plan.temperature.gradient = GRADIENT_GOOD;
    ck_assert_int_eq(rule_when_mended(&f.b, &when), MENDED_UNKNOWN); /* none is written */
    struct visit_heat heat = {.kind = fixture_choice(HEAT_HOT_ROCK)};
    f.visit.enclosure.heat = fixture_list(&f, &heat, 1, sizeof heat);
    ck_assert_int_eq(rule_when_mended(&f.b, &when), MENDED_NOT);
    heat.kind = fixture_choice(HEAT_PANEL);
    f.visit.enclosure.heat = fixture_list(&f, &heat, 1, sizeof heat);
    ck_assert_int_eq(rule_when_mended(&f.b, &when), MENDED_YES);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("mended");
    TCase *tests = tcase_create("mended");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, a_bad_home_can_be_mended_and_a_good_one_not, 0,
                        sizeof home_rows / sizeof *home_rows);
    tcase_add_test(tests, a_reading_on_either_side_can_be_mended);
    tcase_add_test(tests, how_a_reading_came_out);
    tcase_add_test(tests, how_a_state_and_a_heater_came_out);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
