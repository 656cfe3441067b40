/* What was advised at the visit before and how it stands today, by plans that are written down
 * here: the outcomes as care/plan.h names them. */
#include <string.h>

#include "care/fixture.h"
#include "care/since.h"
#include "common/suite.h"

static struct care_fixture f;
static struct care_plan before;
static struct action then[4], now[4];
static struct action_reason reasons[4];
static struct rule rules[3];
static struct step steps[2];

/* Three rules for three actions, each about a warm side that is too low; the first two steps have
 * places. */
static void set_up(void)
{
    static const char *const names[] = {"first", "second", "third"}, *const codes[] = {
                                                                         "act-1", "act-2", "act-3"};
    fixture_init(&f);
    before = (struct care_plan){.on = {2026, 2, 14}, .actions = then, .action_count = 3};
    memset(then, 0, sizeof then), memset(now, 0, sizeof now);
    memset(reasons, 0, sizeof reasons), memset(rules, 0, sizeof rules),
        memset(steps, 0, sizeof steps);
    for (size_t i = 0; i < 3; i++) {
        rules[i].name.text = names[i];
        rules[i].action.text = codes[i];
        rules[i].when.measured[ZONE_WARM_SIDE] = fixture_one_of(&f, VERDICT_TOO_LOW);
        reasons[i].rule = names[i];
        then[i] = (struct action){
            .code = codes[i], .is_first = true, .is_at_hand = true, .reasons = &reasons[i]};
        now[i] = (struct action){.code = codes[i]};
    }
    steps[0] = (struct step){.name.text = "act-1", .place = fixture_choice(ZONE_WARM_SIDE)};
    steps[1] = (struct step){.name.text = "act-2", .place = fixture_choice(PLACE_LAMP_DISTANCE)};
    f.rules.rules = (struct list){.items = rules, .count = 3};
    f.steps.steps = (struct list){.items = steps, .count = 2};
    f.in.previous.plan = &before;
}

static void tear_down(void)
{
    fixture_finish(&f);
}

/* ---- asked before --------------------------------------------------------------------------- */

START_TEST(each_rule_was_asked_before)
{
    for (size_t i = 0; i < 3; i++)
        ck_assert_msg(since_asked_before(&f.b, &rules[i]), "rule %zu", i);
    f.in.previous.plan = NULL;
    ck_assert(!since_asked_before(&f.b, &rules[0]));
}
END_TEST

/* For an action that was not asked for, one of the veterinarian's own, a reason that nobody mends,
 * or a rule that there is no more: no. */
START_TEST(what_nobody_mends_was_not_asked_before)
{
    rules[0].when.measured[ZONE_WARM_SIDE] = (struct list){0};
    ck_assert(!since_asked_before(&f.b, &rules[0]));
    then[1].own = "in words";
    ck_assert(!since_asked_before(&f.b, &rules[1]));
    reasons[2].rule = "gone";
    ck_assert(!since_asked_before(&f.b, &rules[2]));
    /* of two reasons either will do */
    reasons[3] = (struct action_reason){.rule = "second"};
    reasons[2].next = &reasons[3];
    ck_assert(since_asked_before(&f.b, &rules[2]));
    before.action_count = 2;
    ck_assert(!since_asked_before(&f.b, &rules[2]));
}
END_TEST

/* ---- outcomes ------------------------------------------------------------------------------- */

static const struct since_item *only(void)
{
    before.action_count = 1;
    ck_assert(since_plan(&f.b));
    ck_assert_uint_eq(f.plan.since.item_count, 1);
    return &f.plan.since.items[0];
}

START_TEST(how_it_came_out)
{
    static const struct {
        enum verdict now;
        enum since_outcome outcome;
    } rows[] = {{VERDICT_IN_RANGE, SINCE_DONE},
                {VERDICT_BORDERLINE, SINCE_NEAR},
                {VERDICT_UNKNOWN, SINCE_UNKNOWN},
                {VERDICT_TOO_HIGH, SINCE_TURNED},
                {VERDICT_TOO_LOW, SINCE_OVER}};
    f.plan.measured[ZONE_WARM_SIDE].verdict = rows[_i].now;
    ck_assert_int_eq(only()->outcome, rows[_i].outcome);
    /* of two reasons the worse counts, on either side */
    rules[1].when.measured[ZONE_WARM_SIDE] = (struct list){0};
    rules[1].when.measured[ZONE_COOL_SIDE] = fixture_one_of(&f, VERDICT_TOO_LOW);
    f.plan.measured[ZONE_COOL_SIDE].verdict = VERDICT_IN_RANGE;
    reasons[0].next = &reasons[1];
    ck_assert_int_eq(only()->outcome, rows[_i].outcome);
    reasons[0].next = NULL, reasons[1].next = &reasons[0];
    then[0].reasons = &reasons[1];
    ck_assert_int_eq(only()->outcome, rows[_i].outcome);
    reasons[1].next = NULL;
    then[0].reasons = &reasons[0];
}
END_TEST

START_TEST(what_is_asked_again_is_not_done)
{
    f.plan.measured[ZONE_WARM_SIDE].verdict = VERDICT_IN_RANGE;
    f.plan.actions = now, f.plan.action_count = 3;
    now[0].is_second = true;
    ck_assert_int_eq(only()->outcome, SINCE_STILL);
    now[0].is_second = false;
    ck_assert_int_eq(only()->outcome, SINCE_GOES_ON);
    now[0].own = "in words"; /* the same code of another's words is another */
    ck_assert_int_eq(only()->outcome, SINCE_DONE);
    then[0].own = "in words";
    ck_assert_int_eq(only()->outcome, SINCE_UNKNOWN);
    ck_assert_str_eq(only()->own, "in words");
    then[0].own = NULL, now[0].own = NULL;
    reasons[0].rule = "gone";
    f.plan.action_count = 0;
    ck_assert_int_eq(only()->outcome, SINCE_OVER);
}
END_TEST

/* The first changes, and what had to be bought behind them; not what begins later than today. */
START_TEST(which_changes_are_asked_after)
{
    static const struct {
        bool first, at_hand;
        int start_days; /* after today; 99: at once */
        bool asked;
    } rows[] = {{true, true, 99, true},   {true, false, 99, true}, {false, false, 99, true},
                {false, true, 99, false}, {true, true, 1, false},  {true, true, 0, true},
                {true, true, -1, true},   {false, false, 1, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        before.action_count = 1;
        then[0].is_first = rows[i].first, then[0].is_at_hand = rows[i].at_hand;
        then[0].has_start = rows[i].start_days != 99;
        then[0].start = date_add_days(f.plan.on, rows[i].start_days);
        ck_assert(since_plan(&f.b));
        ck_assert_msg(f.plan.since.item_count == rows[i].asked, "row %zu", i);
    }
}
END_TEST

/* ---- numbers of a place --------------------------------------------------------------------- */

static void read_place(struct measured_plan *at, double judged, enum verdict verdict, double low)
{
    *at = (struct measured_plan){.has_reading = true,
                                 .verdict = verdict,
                                 .judged = judged,
                                 .applies = true,
                                 .low = low,
                                 .high = low + 2};
}

START_TEST(a_place_has_its_numbers_of_both_days)
{
    read_place(&before.measured[ZONE_WARM_SIDE], 26, VERDICT_TOO_LOW, 30);
    read_place(&f.plan.measured[ZONE_WARM_SIDE], 29, VERDICT_TOO_LOW, 31);
    const struct since_item *item = only();
    ck_assert(item->has_place && item->place == ZONE_WARM_SIDE);
    ck_assert(item->has_then && item->then == 26 && item->has_now && item->now == 29);
    ck_assert(item->has_target && item->low == 31 && item->high == 33); /* today's target */
    f.plan.measured[ZONE_WARM_SIDE].applies = false;
    item = only();
    ck_assert(item->has_target && item->low == 30 && item->high == 32); /* else that of then */
    before.measured[ZONE_WARM_SIDE].applies = false;
    ck_assert(!only()->has_target);
    f.plan.measured[ZONE_WARM_SIDE].verdict = VERDICT_UNKNOWN;
    ck_assert(!only()->has_now && only()->has_then);
    before.measured[ZONE_WARM_SIDE].has_reading = false;
    ck_assert(!only()->has_then);
    f.plan.measured[ZONE_WARM_SIDE] = (struct measured_plan){.verdict = VERDICT_IN_RANGE};
    ck_assert(!only()->has_now);
    steps[0].name.text = "another";
    ck_assert(!only()->has_place);
}
END_TEST

START_TEST(a_lamp_has_its_height_of_both_days)
{
    then[0].code = "act-2";
    before.enclosure.lamp_height_cm = 40, f.plan.enclosure.lamp_height_cm = 30;
    before.uvb.distance_why = DISTANCE_KNOWN, before.uvb.nearest_cm = 20,
    before.uvb.farthest_cm = 25;
    f.plan.uvb.distance_why = DISTANCE_KNOWN, f.plan.uvb.nearest_cm = 28,
    f.plan.uvb.farthest_cm = 33;
    const struct since_item *item = only();
    ck_assert(item->has_then && item->then == 40 && item->has_now && item->now == 30);
    ck_assert(item->has_target && item->low == 28 && item->high == 33);
    f.plan.uvb.lamp_overdue = true; /* of a lamp that is past its time the distance says nothing */
    item = only();
    ck_assert(item->has_target && item->low == 20 && item->high == 25);
    before.uvb.lamp_overdue = true;
    ck_assert(!only()->has_target);
    before.uvb.lamp_overdue = false, before.uvb.distance_why = DISTANCE_NO_READING;
    ck_assert(!only()->has_target);
    before.enclosure.lamp_height_cm = f.plan.enclosure.lamp_height_cm = 1; /* as good as any */
    ck_assert(only()->has_then && only()->has_now);
    before.enclosure.lamp_height_cm = 0;
    ck_assert(!only()->has_then && only()->has_now);
    f.plan.enclosure.lamp_height_cm = 0;
    ck_assert(!only()->has_now);
}
END_TEST

/* ---- the days and the weight ---------------------------------------------------------------- */

START_TEST(the_days_between_are_counted)
{
    only();
    ck_assert(f.plan.since.known);
    ck_assert_int_eq(f.plan.since.days, 28); /* 14 February to 14 March 2026 */
    ck_assert_int_eq(date_compare(f.plan.since.on, before.on), 0);
    ck_assert(!f.plan.since.weight.known);
    before.patient.has_mass = true, before.patient.mass_g = 100;
    only();
    ck_assert(!f.plan.since.weight.known);
    f.plan.patient.has_mass = true, f.plan.patient.mass_g = 90;
    only();
    ck_assert(f.plan.since.weight.known);
    ck_assert(f.plan.since.weight.then_g == 100 && f.plan.since.weight.now_g == 90);
    before.patient.has_mass = false;
    only();
    ck_assert(!f.plan.since.weight.known);
}
END_TEST

START_TEST(a_first_visit_has_nothing_before_it)
{
    f.in.previous.plan = NULL;
    ck_assert(since_plan(&f.b));
    ck_assert(!f.plan.since.known);
}
END_TEST

/* What was taken over is remarked; what the keeper was asked to change is asked for. */
START_TEST(what_was_taken_over_is_told)
{
    static const struct taken_fact facts[] = {{"size", false}, {"heat", true}, {"keeper", false}};
    f.in.previous.taken = facts, f.in.previous.taken_count = 3;
    only();
    ck_assert_uint_eq(f.plan.since.taken_count, 2);
    ck_assert_str_eq(f.plan.since.taken[0], "size");
    ck_assert_str_eq(f.plan.since.taken[1], "keeper");
    ck_assert_ptr_nonnull(fixture_review(&f, "taken-size"));
    ck_assert_ptr_nonnull(fixture_review(&f, "taken-keeper"));
    ck_assert_ptr_nonnull(fixture_review(&f, "asked-heat"));
    ck_assert_ptr_null(fixture_review(&f, "taken-heat"));
    ck_assert_int_eq(fixture_review(&f, "taken-size")->kind, REVIEW_REMARK);
    ck_assert_int_eq(fixture_review(&f, "asked-heat")->kind, REVIEW_MISSING);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("since");
    TCase *own = tcase_create("since");
    tcase_add_checked_fixture(own, set_up, tear_down);
    tcase_add_test(own, each_rule_was_asked_before);
    tcase_add_test(own, what_nobody_mends_was_not_asked_before);
    tcase_add_loop_test(own, how_it_came_out, 0, 5);
    tcase_add_test(own, what_is_asked_again_is_not_done);
    tcase_add_test(own, which_changes_are_asked_after);
    tcase_add_test(own, a_place_has_its_numbers_of_both_days);
    tcase_add_test(own, a_lamp_has_its_height_of_both_days);
    tcase_add_test(own, the_days_between_are_counted);
    tcase_add_test(own, a_first_visit_has_nothing_before_it);
    tcase_add_test(own, what_was_taken_over_is_told);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
