/* How actions stand in the rows of a sheet: which have the number of a place, which are bought,
 * what is written down once, and until when they must be done. 14 March 2026 is a Saturday. */
#include "common/suite.h"

#include <string.h>

#include "care/fixture.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { ACTIONS = 3 };

static struct care_fixture f;
static struct action actions[ACTIONS];
static struct step entries[ACTIONS];
static struct finding_plan found;

static void set_up(void)
{
    static const char *const codes[] = {"warm", "weigh", "feed"};
    fixture_init(&f);
    memset(actions, 0, sizeof actions);
    memset(entries, 0, sizeof entries);
    for (int i = 0; i < ACTIONS; i++) {
        actions[i].code = actions[i].words = codes[i];
        entries[i].name = fixture_text(codes[i]);
    }
    found = (struct finding_plan){.code = "burn", .severity = SEVERITY_MILD};
    f.plan.actions = actions;
    f.plan.action_count = ACTIONS;
    f.steps.way_out_days = fixture_cited(14, 14);
    f.steps.way_out_fasting_days = fixture_cited(3, 3);
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

static const struct step_plan *planned(void)
{
    f.steps.steps = fixture_list(&f, entries, ACTIONS, sizeof *entries);
    ck_assert(steps_plan(&f.b));
    return f.plan.steps;
}

/* The veterinarian's own words have no row of the book. */
START_TEST(her_own_words_show_her)
{
    actions[1].code = "own";
    entries[0].pictogram = fixture_choice(PICTOGRAM_LOG);
    const struct step_plan *steps = planned();
    ck_assert_int_eq(steps[1].pictogram, PICTOGRAM_WRITTEN);
    ck_assert_int_eq(steps[0].pictogram, PICTOGRAM_LOG);
    ck_assert(!steps[1].has_place && !steps[1].write && !steps[1].is_bought);
}
END_TEST

START_TEST(a_row_has_the_number_of_its_place)
{
    entries[0].place = fixture_choice(MEASURE_WARM_SIDE);
    const struct step_plan *steps = planned();
    ck_assert(steps[0].has_place);
    ck_assert_int_eq(steps[0].place, MEASURE_WARM_SIDE);
    ck_assert(!steps[1].has_place);
}
END_TEST

/* A variant shows its own picture where it has a row, and is bought where that is said. */
START_TEST(a_variant_may_be_something_else)
{
    static const struct {
        bool bought;
        const char *words, *bought_as;
        bool is_bought;
    } rows[] = {{true, "warm", NULL, true},
                {false, "warm", NULL, false},
                {true, "unplug", NULL, false},
                {true, "unplug", "unplug", true},
                {false, "unplug", "unplug", false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        entries[0].bought = fixture_flag(rows[i].bought);
        entries[0].bought_as = fixture_texts(&f, rows[i].bought_as, NULL, NULL, NULL);
        actions[0].words = rows[i].words;
        ck_assert_msg(planned()[0].is_bought == rows[i].is_bought, "row %d", i);
    }
    again();
    entries[0].pictogram = fixture_choice(2);
    entries[2].pictogram = fixture_choice(3);
    actions[0].words = "feed";
    ck_assert_int_eq(planned()[0].pictogram, 3);
    actions[0].words = "unplug";
    ck_assert_int_eq(planned()[0].pictogram, 2);
}
END_TEST

/* What it weighs is written down once; a place's number and what is ticked each time. */
START_TEST(what_is_written_down_is_so_once)
{
    static const struct {
        const char *first, *second;
        bool place, twice;
    } rows[] = {{"mass", "mass", false, false},
                {"mass", "food", false, true},
                {"mass", "mass", true, true},
                {"done", "done", false, true},
                {NULL, "mass", false, true}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        entries[0].write.text = rows[i].first;
        entries[2].write.text = rows[i].second;
        if (rows[i].place)
            entries[2].place = fixture_choice(MEASURE_NIGHT);
        const struct step_plan *steps = planned();
        ck_assert_msg((steps[2].write != NULL) == rows[i].twice, "row %d", i);
        ck_assert((steps[0].write != NULL) == (rows[i].first != NULL));
        ck_assert_ptr_null(steps[1].write);
    }
}
END_TEST

/* "Turn the heat up", and the record says nothing of any heater: but a room can be warmed. */
START_TEST(who_has_no_heater_is_told_so)
{
    static const struct {
        bool heats;
        int place; /* -1: none */
        bool heat, thermostat, guard, lacks;
    } rows[] = {
        {true, MEASURE_WARM_SIDE, false, false, false, true},
        {false, MEASURE_WARM_SIDE, false, false, false, false},
        {true, MEASURE_NIGHT, false, false, false, false},
        {true, MEASURE_WARM_SIDE, true, false, false, false},
        {true, MEASURE_WARM_SIDE, false, true, false, false},
        {true, MEASURE_WARM_SIDE, false, false, true, false},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        const struct visit_heat mat = {.kind = fixture_choice(HEAT_MAT)};
        entries[0].heats = fixture_flag(rows[i].heats);
        entries[0].place = fixture_choice(rows[i].place);
        if (rows[i].heat)
            f.visit.enclosure.heat = fixture_list(&f, &mat, 1, sizeof mat);
        if (rows[i].thermostat)
            f.visit.enclosure.thermostat = fixture_flag(true);
        if (rows[i].guard)
            f.visit.enclosure.heat_guard = fixture_flag(true);
        const struct step_plan *steps = planned();
        ck_assert_msg(steps[0].lacks_heater == rows[i].lacks, "row %d", i);
        ck_assert_int_eq(steps[0].heats, rows[i].heats);
    }
}
END_TEST

static long way_out(void)
{
    planned();
    return date_days_between(f.plan.on, f.plan.way_out);
}

/* Three days where an ill animal's food, water or warmth waits for the numbers, else two weeks. */
START_TEST(until_when_it_must_be_done)
{
    static const struct {
        bool ill;
        const char *topic, *stance; /* NULL: none */
        bool heats, tonight, place;
        long days;
    } rows[] = {
        {true, NULL, NULL, false, false, false, 14},
        {true, "water-change", "part-now-then-daily", false, false, false, 3},
        {false, "water-change", "part-now-then-daily", false, false, false, 14},
        {true, "water-change", "usual", false, false, false, 14},
        {true, "food-gate", "warm-and-watered-first", false, false, false, 3},
        {true, "food-gate", "watered-first", false, false, false, 3},
        {true, "food-gate", "usual", false, false, false, 14},
        {true, NULL, NULL, true, true, false, 3},
        {true, NULL, NULL, true, false, false, 14},
        {true, NULL, NULL, false, true, false, 14},
        {false, NULL, NULL, true, true, false, 14},
        {true, "warmth-day", "ill-warm", false, false, true, 3},
        {true, "warmth-day", "ill-warm", false, false, false, 14},
        {true, "warmth-day", "usual", false, false, true, 14},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        for (int at = 0; at < ACTIONS; at += 2) {
            again();
            f.plan.findings = &found;
            f.plan.finding_count = rows[i].ill;
            if (rows[i].topic)
                fixture_settle(&f, rows[i].topic, rows[i].stance, "default");
            entries[at].heats = fixture_flag(rows[i].heats);
            actions[at].is_tonight = rows[i].tonight;
            if (rows[i].place)
                entries[at].place = fixture_choice(MEASURE_WARM_SIDE);
            else
                entries[at].place = fixture_choice(MEASURE_COOL_SIDE);
            ck_assert_msg(way_out() == rows[i].days, "row %d", i);
        }
    }
}
END_TEST

/* Before a closed day rather than after it, and at the recheck where that comes first. */
START_TEST(whoever_calls_calls_when_it_is_open)
{
    struct opening *opening = &f.plan.letterhead.opening;
    opening->is_known = true;
    for (int day = 0; day < 5; day++)
        opening->days[day] = (struct opening_day){{{8 * 60, 18 * 60}}, 1};
    ck_assert_int_eq(way_out(), 13); /* the 28th is a Saturday, too */
    f.plan.has_recheck = true;
    f.plan.recheck = date_add_days(f.plan.on, 13);
    ck_assert_int_eq(way_out(), 13);
    f.plan.recheck = date_add_days(f.plan.on, 12);
    ck_assert_int_eq(way_out(), 12);
    f.plan.recheck = date_add_days(f.plan.on, 20);
    ck_assert_int_eq(way_out(), 13);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("action_steps");
    TCase *tcase = tcase_create("action_steps");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, her_own_words_show_her);
    tcase_add_test(tcase, a_row_has_the_number_of_its_place);
    tcase_add_test(tcase, a_variant_may_be_something_else);
    tcase_add_test(tcase, what_is_written_down_is_so_once);
    tcase_add_test(tcase, who_has_no_heater_is_told_so);
    tcase_add_test(tcase, until_when_it_must_be_done);
    tcase_add_test(tcase, whoever_calls_calls_when_it_is_open);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
