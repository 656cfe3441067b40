/* How far the setting of a heater gives way to what a disease asks for: by hand, from the header's
 * two sentences; and what a rule weighs, worked out by hand. */
#include <math.h>

#include "common/suite.h"
#include "care/action_order.h"
#include "care/fixture.h"

enum { GRAVE = 70, SLIGHT = 40 };

static const struct action of_diseases[] = {{.harm = GRAVE, .of_disease = true},
                                            {.harm = SLIGHT, .of_disease = true}};

/* What is left of a heater's harm beside a grave and a slight disease. */
static const struct {
    struct action heater;
    double left;
} rows[] = {
    {{.harm = 90, .of_heater = true}, SLIGHT - 1},
    {{.harm = SLIGHT, .of_heater = true}, SLIGHT - 1},
    {{.harm = SLIGHT - 0.5, .of_heater = true}, SLIGHT - 0.5},
    {{.harm = 90, .of_heater = true, .is_far_too_hot = true}, GRAVE - 1},
    {{.harm = GRAVE, .of_heater = true, .is_far_too_hot = true}, GRAVE - 1},
    {{.harm = GRAVE - 0.5, .of_heater = true, .is_far_too_hot = true}, GRAVE - 0.5},
    {{.harm = 90}, 90},                                        /* sets no heater */
    {{.harm = 90, .of_heater = true, .of_disease = true}, 90}, /* the disease's own */
};

START_TEST(a_heater_stands_behind_the_disease)
{
    for (size_t place = 0; place < 3; place++) { /* wherever it was gathered */
        struct action actions[3];
        for (size_t i = 0, next = 0; i < 3; i++)
            actions[i] = i == place ? rows[_i].heater : of_diseases[next++];
        action_cap_heaters(actions, 3);
        ck_assert_double_eq(actions[place].harm, rows[_i].left);
        for (size_t i = 0, next = 0; i < 3; i++)
            if (i != place)
                ck_assert_double_eq(actions[i].harm, of_diseases[next++].harm);
    }
}
END_TEST

START_TEST(alone_it_keeps_its_place)
{
    struct action actions[] = {{.harm = 90, .of_heater = true}, {.harm = 50}, of_diseases[0]};
    action_cap_heaters(actions, 2); /* the disease lies past the end */
    ck_assert_double_eq(actions[0].harm, 90);
    ck_assert_double_eq(actions[1].harm, 50);
}
END_TEST

/* Warmth is had before a shop is asked: what is bought stands behind a heater that gave way, unless
 * the disease itself asks for it or no heater gave way. */
START_TEST(what_is_bought_gives_way_with_the_heater)
{
    struct action actions[] = {{.harm = 82, .of_heater = true},
                               {.harm = 79},
                               {.harm = 79, .of_disease = true},
                               {.harm = 79, .is_at_hand = true},
                               {.harm = SLIGHT, .of_disease = true, .is_at_hand = true}};
    action_cap_heaters(actions, 5);
    ck_assert_double_eq(actions[0].harm, SLIGHT - 1);
    ck_assert_double_eq(actions[1].harm, actions[0].harm);
    for (size_t i = 2; i < 4; i++)
        ck_assert_double_eq(actions[i].harm, 79);
    struct action warm[] = {{.harm = 79}, {.harm = SLIGHT, .of_disease = true}};
    action_cap_heaters(warm, 2);
    ck_assert_double_eq(warm[0].harm, 79);
}
END_TEST

/* Nothing weighs less than nothing. */
START_TEST(no_harm_is_below_none)
{
    struct action actions[] = {{.harm = 5, .of_heater = true}, {.harm = 0.5, .of_disease = true}};
    action_cap_heaters(actions, 2);
    ck_assert_double_eq(actions[0].harm, 0);
}
END_TEST

/* ---- what a rule weighs ----------------------------------------------------------------- */

static struct care_fixture f;

static void set_up(void)
{
    fixture_init(&f);
}

static void tear_down(void)
{
    fixture_finish(&f);
}

/* The warm side should have 28-32 C and the cool side 22-26; the thermometer errs by 1 C. */
static struct measured_plan *read_at(enum zone zone, double low, double high, double reading)
{
    struct measured_plan *plan = &f.plan.measured[zone];
    double change = reading > high ? high - reading : reading < low ? low - reading : 0;
    *plan = (struct measured_plan){.applies = true,
                                   .low = low,
                                   .high = high,
                                   .has_reading = true,
                                   .reading = reading,
                                   .judged = reading,
                                   .judged_low = reading - 1,
                                   .judged_high = reading + 1,
                                   .most = INFINITY,
                                   .change = change,
                                   .verdict = reading > high  ? VERDICT_TOO_HIGH
                                              : reading < low ? VERDICT_TOO_LOW
                                                              : VERDICT_IN_RANGE};
    return plan;
}

static struct rule_weight weigh(int side)
{
    struct rule rule = {.harm = fixture_quantity(50), .graded = fixture_flag(true)};
    rule.when.measured[ZONE_WARM_SIDE] = fixture_one_of(&f, side);
    rule.when.measured[ZONE_COOL_SIDE] = fixture_one_of(&f, side);
    return action_weigh(&f.b, &rule);
}

/* A limit that it bears is known, 38 C: the thermometer must show more than its error beyond. */
START_TEST(beyond_what_it_bears_is_far_too_hot)
{
    static const struct {
        double reading;
        bool far;
    } far_rows[] = {{39, false}, {39.01, true}, {34, false}};
    for (size_t i = 0; i < sizeof far_rows / sizeof *far_rows; i++) {
        read_at(ZONE_WARM_SIDE, 28, 32, far_rows[i].reading)->most = 38;
        ck_assert_int_eq(weigh(VERDICT_TOO_HIGH).far_too_hot, far_rows[i].far);
    }
    read_at(ZONE_WARM_SIDE, 28, 32, 20)->most = 38;
    ck_assert(!weigh(VERDICT_TOO_LOW).far_too_hot);
}
END_TEST

/* No limit is known. The cool side is 4 C wide, 22-26, and the warm side ends at 32: at 33 C and
 * more beyond the error, 33.01, it is hotter than any place should be and a whole width outside.
 * Warmer than its own band by a width, 30.5, is not yet hotter than the warm side. */
START_TEST(without_a_limit_hotter_than_any_place_and_a_width_outside)
{
    static const struct {
        double reading;
        bool far;
    } far_rows[] = {{33, false}, {33.01, true}, {30.5, false}};
    read_at(ZONE_WARM_SIDE, 28, 32, 30);
    for (size_t i = 0; i < sizeof far_rows / sizeof *far_rows; i++) {
        read_at(ZONE_COOL_SIDE, 22, 26, far_rows[i].reading);
        ck_assert_int_eq(weigh(VERDICT_TOO_HIGH).far_too_hot, far_rows[i].far);
    }
    /* hotter than any place beyond the error, and less than a width of 4 outside: 35.9 and 36 */
    read_at(ZONE_COOL_SIDE, 22, 26, 24);
    read_at(ZONE_WARM_SIDE, 28, 32, 35.9);
    ck_assert(!weigh(VERDICT_TOO_HIGH).far_too_hot);
    read_at(ZONE_WARM_SIDE, 28, 32, 36);
    ck_assert(weigh(VERDICT_TOO_HIGH).far_too_hot);
}
END_TEST

/* 60 % at the band's end, all of it a width outside; 1 C of 4 is 0.6 + 0.4 / 4 = 0.7. A band of no
 * width counts what the thermometer errs either way, 2 C. */
START_TEST(just_outside_weighs_less)
{
    read_at(ZONE_WARM_SIDE, 28, 32, 33);
    struct rule_weight weight = weigh(VERDICT_TOO_HIGH);
    ck_assert_double_eq_tol(weight.share, 0.7, 1e-9);
    ck_assert_double_eq_tol(weight.harm, 35, 1e-9);
    ck_assert(weight.within_error);
    read_at(ZONE_WARM_SIDE, 28, 32, 33.5);
    ck_assert(!weigh(VERDICT_TOO_HIGH).within_error);
    read_at(ZONE_WARM_SIDE, 28, 32, 40);
    ck_assert_double_eq(weigh(VERDICT_TOO_HIGH).share, 1);
    read_at(ZONE_WARM_SIDE, 30, 30, 31);
    ck_assert_double_eq_tol(weigh(VERDICT_TOO_HIGH).share, 0.8, 1e-9);
    /* of two the farthest, and the error must hold of both */
    read_at(ZONE_WARM_SIDE, 28, 32, 33);
    read_at(ZONE_COOL_SIDE, 22, 26, 28);
    weight = weigh(VERDICT_TOO_HIGH);
    ck_assert_double_eq_tol(weight.share, 0.8, 1e-9);
    ck_assert(!weight.within_error);
    /* on the side that is not asked for, and inside */
    read_at(ZONE_WARM_SIDE, 28, 32, 27);
    read_at(ZONE_COOL_SIDE, 22, 26, 24);
    ck_assert_double_eq(weigh(VERDICT_TOO_HIGH).share, 1);
    ck_assert(!weigh(VERDICT_TOO_HIGH).within_error);
}
END_TEST

/* A band with one end has no width: of pH what the kit errs either way, 0.4, counts; 0.2 above it
 * is half of that. */
START_TEST(a_band_with_one_end)
{
    struct rule rule = {.harm = fixture_quantity(50), .graded = fixture_flag(true)};
    rule.when.measured[MEASURE_PH] = fixture_one_of(&f, VERDICT_TOO_HIGH);
    f.plan.measured[MEASURE_PH] = (struct measured_plan){.applies = true,
                                                         .low = -INFINITY,
                                                         .high = 8,
                                                         .judged = 8.2,
                                                         .most = INFINITY,
                                                         .change = -0.2,
                                                         .verdict = VERDICT_TOO_HIGH};
    ck_assert_double_eq_tol(action_weigh(&f.b, &rule).share, 0.8, 1e-9);
}
END_TEST

START_TEST(what_was_found_raises_it)
{
    const struct text_value burn = fixture_text("burn");
    struct finding_plan found = {.code = "burn", .severity = SEVERITY_MILD};
    struct rule rule = {.harm = fixture_quantity(50)};
    rule.raised.finding = fixture_list(&f, &burn, 1, sizeof burn);
    rule.raised.by = fixture_quantity(20);
    ck_assert_ptr_null(action_weigh(&f.b, &rule).raised_by);
    f.plan.findings = &found;
    f.plan.finding_count = 1;
    ck_assert_double_eq(action_weigh(&f.b, &rule).harm, 70);
    ck_assert_str_eq(action_weigh(&f.b, &rule).raised_by, "burn");
    rule.raised.by = fixture_quantity(60);
    ck_assert_double_eq(action_weigh(&f.b, &rule).harm, 100);
    found.severity = SEVERITY_NORMAL;
    ck_assert_double_eq(action_weigh(&f.b, &rule).harm, 50);
    ck_assert_ptr_null(action_weigh(&f.b, &rule).raised_by);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("action_order");
    TCase *tests = tcase_create("action_order");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, a_heater_stands_behind_the_disease, 0, sizeof rows / sizeof *rows);
    tcase_add_test(tests, alone_it_keeps_its_place);
    tcase_add_test(tests, what_is_bought_gives_way_with_the_heater);
    tcase_add_test(tests, no_harm_is_below_none);
    tcase_add_test(tests, beyond_what_it_bears_is_far_too_hot);
    tcase_add_test(tests, without_a_limit_hotter_than_any_place_and_a_width_outside);
    tcase_add_test(tests, just_outside_weighs_less);
    tcase_add_test(tests, a_band_with_one_end);
    tcase_add_test(tests, what_was_found_raises_it);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
