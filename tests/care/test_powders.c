/* Powders on the food. Meals fall on every second day from tomorrow on, 15 March 2026: the first,
 * third, fifth ... day after the visit, until the 56th. Days are counted off from that; that one
 * powder lies on a meal, the rarest choosing first, is common practice, no source. */
#include "common/suite.h"

#include "care/feeding_fixture.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static void set_up(void)
{
    fixture_init(&f);
    feeding()->diet = DIET_INSECTS;
    feeding()->stage = STAGE_ADULT;
    feeding()->every_low_days = feeding()->every_high_days = 2;
    feeding()->has_last = true;
    feeding()->last = (struct date){2026, 3, 13};
}

static struct species_supplement weekly(enum supplement what, double low, double high)
{
    return (struct species_supplement){.what = fixture_choice((int)what),
                                       .per_week = fixture_cited(low, high)};
}

static struct species_supplement by_meals(enum supplement what, double every)
{
    return (struct species_supplement){.what = fixture_choice((int)what),
                                       .every_meals = fixture_cited(every, every + 1)};
}

static void plan(const struct species_supplement *powders, size_t count)
{
    f.species.supplements = fixture_list(&f, powders, count, sizeof *powders);
    feeding_plan_supplements(&f.b);
}

/* The days after the visit; they end at 0. */
static void days_are(size_t at, const int *wanted)
{
    ck_assert_uint_gt(feeding()->supplement_count, at);
    const struct supplement_plan *s = &feeding()->supplements[at];
    size_t count = 0;
    for (; wanted[count]; count++) {
        ck_assert_uint_gt(s->day_count, count);
        long day = date_days_between(f.plan.on, s->days[count]);
        ck_assert_msg(day == wanted[count], "use %zu on day %ld, not %d", count, day,
                      wanted[count]);
    }
    ck_assert_uint_eq(s->day_count, count);
}

#define DAYS_ARE(at, ...) days_are(at, (const int[]){__VA_ARGS__, 0})

/* One powder, so many times a week, on the first meal from its day on. */
START_TEST(once_a_week)
{
    const struct species_supplement one = weekly(SUPPLEMENT_MULTIVITAMIN, _i ? 0 : 1, 1);
    plan(&one, 1);
    DAYS_ARE(0, 1, 9, 15, 23, 29, 37, 43, 51);
    const struct supplement_plan *s = &feeding()->supplements[0];
    ck_assert_int_eq(s->what, SUPPLEMENT_MULTIVITAMIN);
    ck_assert(s->per_week_low == (_i ? 0 : 1) && s->per_week_high == 1 && s->every_meals == 0);
    ck_assert_str_eq(s->from.source, "common practice");
    ck_assert_int_eq(s->from.origin, ORIGIN_SPECIES_SHEET);
}
END_TEST

START_TEST(twice_a_week)
{
    const struct species_supplement one = weekly(SUPPLEMENT_CALCIUM, _i ? 1.5 : 2, 3);
    plan(&one, 1);
    DAYS_ARE(0, 1, 5, 9, 11, 15, 19, 23, 25, 29, 33, 37, 39, 43, 47, 51, 53);
}
END_TEST

START_TEST(every_other_week)
{
    const struct species_supplement one = weekly(SUPPLEMENT_MULTIVITAMIN, 0.5, 0.5);
    plan(&one, 1);
    DAYS_ARE(0, 1, 15, 29, 43);
}
END_TEST

START_TEST(every_third_meal)
{
    const struct species_supplement one = by_meals(SUPPLEMENT_MULTIVITAMIN, 3);
    plan(&one, 1);
    DAYS_ARE(0, 1, 7, 13, 19, 25, 31, 37, 43, 49, 55);
    ck_assert_int_eq(feeding()->supplements[0].every_meals, 3);
}
END_TEST

START_TEST(a_part_of_a_meal_is_every_meal)
{
    const struct species_supplement one = by_meals(SUPPLEMENT_MULTIVITAMIN, 0.5);
    plan(&one, 1);
    ck_assert_int_eq(feeding()->supplements[0].every_meals, 1);
    ck_assert_uint_eq(feeding()->supplements[0].day_count, 28);
}
END_TEST

/* Of 3.5 fed days a week the vitamins take one: calcium twice, or on all that are left. */
START_TEST(the_rarest_chooses_first)
{
    const struct species_supplement both[] = {weekly(SUPPLEMENT_CALCIUM, 2, 2),
                                              weekly(SUPPLEMENT_MULTIVITAMIN, 1, 1)};
    plan(both, 2);
    DAYS_ARE(0, 3, 5, 11, 13, 17, 19, 25, 27, 31, 33, 39, 41, 45, 47, 53, 55);
    DAYS_ARE(1, 1, 9, 15, 23, 29, 37, 43, 51);
}
END_TEST

static const struct {
    double calcium, vitamin; /* a week */
    bool settled;            /* on every meal, by a finding */
    bool every;
    size_t days; /* of calcium */
} fit_rows[] = {
    {3, 1, false, true, 20},   {2.5, 1, false, true, 20}, {2.4, 1, false, false, 0},
    {3.5, 0, false, true, 28}, {3.4, 0, false, false, 0}, {1, 1, true, true, 20},
    {1, 0, true, true, 28},
};

START_TEST(calcium_on_every_meal_that_is_left)
{
    const struct species_supplement both[] = {
        weekly(SUPPLEMENT_CALCIUM, fit_rows[_i].calcium, 7),
        weekly(SUPPLEMENT_MULTIVITAMIN, fit_rows[_i].vitamin, 1)};
    if (fit_rows[_i].settled)
        fixture_settle(&f, "supplement", "every-feeding", "finding:soft-bones");
    plan(both, fit_rows[_i].vitamin > 0 ? 2 : 1);
    const struct supplement_plan *calcium = &feeding()->supplements[0];
    ck_assert_int_eq(calcium->every_meals, fit_rows[_i].every);
    if (fit_rows[_i].every) {
        ck_assert_uint_eq(calcium->day_count, fit_rows[_i].days);
        ck_assert(calcium->per_week_low == 0 && calcium->per_week_high == 0);
    }
}
END_TEST

/* Two of one rhythm take turns: the second three days after the first. */
START_TEST(powders_of_one_rhythm_take_turns)
{
    const struct species_supplement both[] = {weekly(SUPPLEMENT_MULTIVITAMIN, 1, 1),
                                              weekly(SUPPLEMENT_CALCIUM_D3, 1, 1)};
    plan(both, 2);
    DAYS_ARE(0, 1, 9, 15, 23, 29, 37, 43, 51);
    DAYS_ARE(1, 5, 11, 19, 25, 33, 39, 47, 53);
}
END_TEST

/* Where there are too few meals for both, the one that the sheet lists first has its days as if it
 * were alone (twice_a_week). */
START_TEST(of_one_rhythm_the_first_listed_chooses_first)
{
    const struct species_supplement both[] = {weekly(SUPPLEMENT_MULTIVITAMIN, 2, 2),
                                              weekly(SUPPLEMENT_CALCIUM_D3, 2, 2)};
    plan(both, 2);
    DAYS_ARE(0, 1, 5, 9, 11, 15, 19, 23, 25, 29, 33, 37, 39, 43, 47, 51, 53);
}
END_TEST

/* Plants stand there each day. Beside animals each second day calcium lies on all other days. */
START_TEST(of_daily_food_each_day_is_free)
{
    const struct species_supplement one = weekly(SUPPLEMENT_MULTIVITAMIN, 1, 1);
    feeding()->diet = _i ? DIET_MIXED : DIET_PLANTS;
    plan(&one, 1);
    DAYS_ARE(0, 1, 8, 15, 22, 29, 36, 43, 50);
}
END_TEST

START_TEST(calcium_between_the_meals_of_a_mixed_diet)
{
    const struct species_supplement both[] = {weekly(SUPPLEMENT_CALCIUM, _i ? 5 : 6, 7),
                                              weekly(SUPPLEMENT_MULTIVITAMIN, 1, 1)};
    feeding()->diet = DIET_MIXED;
    plan(both, 2);
    const struct supplement_plan *calcium = &feeding()->supplements[0];
    ck_assert_int_eq(calcium->every_meals, 0);
    ck_assert(calcium->per_week_low == (_i ? 5 : 6) && calcium->per_week_high == (_i ? 7 : 6));
    if (!_i) { /* six of seven days: all that the vitamins leave */
        ck_assert_uint_eq(calcium->day_count, 48);
        for (size_t i = 0; i < 48; i++)
            ck_assert_int_ne(date_days_between(f.plan.on, calcium->days[i]) % 7, 1);
    }
    tear_down();
    set_up();
    feeding()->diet = DIET_MIXED; /* animals each day too: then on every meal */
    feeding()->every_low_days = feeding()->every_high_days = 1;
    plan(both, 2);
    ck_assert_int_eq(feeding()->supplements[0].every_meals, !_i);
}
END_TEST

/* After a rest with its first meal; in a new home after five days. */
START_TEST(no_powder_before_the_first_meal)
{
    const struct species_supplement one = weekly(SUPPLEMENT_MULTIVITAMIN, 1, 1);
    if (_i) {
        f.kind.new_home = fixture_flag(true);
    } else {
        feeding()->paused = feeding()->has_resume = true;
        feeding()->resume = date_add_days(f.plan.on, 10);
        feeding()->last = date_add_days(f.plan.on, -30);
    }
    plan(&one, 1);
    if (_i)
        DAYS_ARE(0, 5, 13, 19, 27, 33, 41, 47, 55);
    else
        DAYS_ARE(0, 10, 18, 24, 32, 38, 46, 52);
}
END_TEST

/* Nor where plants stand there every day: while food rests none does. */
START_TEST(without_meals_there_is_no_day)
{
    const struct species_supplement both[] = {weekly(SUPPLEMENT_MULTIVITAMIN, 1, 1),
                                              by_meals(SUPPLEMENT_CALCIUM, 1)};
    feeding()->diet = _i ? DIET_PLANTS : DIET_INSECTS;
    feeding()->paused = true;
    plan(both, 2);
    ck_assert_uint_eq(feeding()->supplement_count, 2);
    ck_assert_uint_eq(feeding()->supplements[0].day_count, 0);
    ck_assert_uint_eq(feeding()->supplements[1].day_count, 0);
}
END_TEST

/* Too much of the vitamins that fat holds does harm: of a powder that nobody says how often, never.
 */
START_TEST(a_powder_of_no_times_a_week_has_no_day)
{
    const struct species_supplement one = weekly(SUPPLEMENT_MULTIVITAMIN, 0, 0);
    feeding()->diet = _i ? DIET_PLANTS : DIET_INSECTS;
    plan(&one, 1);
    ck_assert_uint_eq(feeding()->supplement_count, 1);
    ck_assert_uint_eq(feeding()->supplements[0].day_count, 0);
}
END_TEST

/* Thiamine makes up for what fish destroys: with each meal of fish, and takes no other's day. */
START_TEST(thiamine_goes_with_the_fish)
{
    const struct species_supplement both[] = {weekly(SUPPLEMENT_THIAMINE, 7, 7),
                                              weekly(SUPPLEMENT_CALCIUM, 3.4, 7)};
    plan(both, 2);
    ck_assert(feeding()->supplements[0].with_fish);
    ck_assert_uint_eq(feeding()->supplements[0].day_count, 0);
    ck_assert_int_eq(feeding()->supplements[1].every_meals, 0); /* 3.5 days are left to it */
    ck_assert(!feeding()->supplements[1].with_fish);
}
END_TEST

/* Which powder is wanted: by stage, by the light that reaches it, and by what was settled. */
static const struct {
    const char *what_for;
    enum supplement what;
    enum supplement_when when;
    int stage; /* -1: all */
    bool needs_light, sun, rests;
    enum lamp_state lamp;
    const char *stance; /* of supplements; NULL: none */
    bool wanted;
} wanted_rows[] = {
    {"always", SUPPLEMENT_CALCIUM, SUPPLEMENT_ALWAYS, -1, false, false, false, LAMP_STATE_MISSING,
     NULL, true},
    {"its stage", SUPPLEMENT_CALCIUM, SUPPLEMENT_ALWAYS, STAGE_ADULT, false, false, false,
     LAMP_STATE_MISSING, NULL, true},
    {"another stage", SUPPLEMENT_CALCIUM, SUPPLEMENT_ALWAYS, STAGE_JUVENILE, false, false, false,
     LAMP_STATE_MISSING, NULL, false},
    {"lit", SUPPLEMENT_CALCIUM, SUPPLEMENT_WITH_UVB, -1, true, false, false, LAMP_STATE_FINE, NULL,
     true},
    {"unlit", SUPPLEMENT_CALCIUM, SUPPLEMENT_WITH_UVB, -1, true, false, false, LAMP_STATE_MISSING,
     NULL, false},
    {"behind glass", SUPPLEMENT_CALCIUM, SUPPLEMENT_WITH_UVB, -1, true, false, false,
     LAMP_STATE_BLOCKED, NULL, false},
    {"in need of none", SUPPLEMENT_CALCIUM, SUPPLEMENT_WITH_UVB, -1, false, false, false,
     LAMP_STATE_FINE, NULL, false},
    {"in the sun", SUPPLEMENT_CALCIUM, SUPPLEMENT_WITH_UVB, -1, false, true, false,
     LAMP_STATE_MISSING, NULL, true},
    {"at rest the lamp comes back", SUPPLEMENT_CALCIUM, SUPPLEMENT_WITH_UVB, -1, false, false, true,
     LAMP_STATE_FINE, NULL, true},
    {"without light, lit", SUPPLEMENT_CALCIUM_D3, SUPPLEMENT_WITHOUT_UVB, -1, true, false, false,
     LAMP_STATE_FINE, NULL, false},
    {"without light, unlit", SUPPLEMENT_CALCIUM_D3, SUPPLEMENT_WITHOUT_UVB, -1, true, false, false,
     LAMP_STATE_MISSING, NULL, true},
    {"the sun makes it", SUPPLEMENT_CALCIUM_D3, SUPPLEMENT_ALWAYS, -1, true, true, false,
     LAMP_STATE_FINE, NULL, false},
    {"D3 is stopped", SUPPLEMENT_CALCIUM_D3, SUPPLEMENT_ALWAYS, -1, true, false, false,
     LAMP_STATE_FINE, "stop-d3", false},
    {"calcium is not", SUPPLEMENT_CALCIUM, SUPPLEMENT_ALWAYS, -1, true, false, false,
     LAMP_STATE_FINE, "stop-d3", true},
    {"only what was written", SUPPLEMENT_CALCIUM, SUPPLEMENT_ALWAYS, -1, true, false, false,
     LAMP_STATE_FINE, "as-written", false},
};

START_TEST(what_the_animal_needs)
{
    struct species_supplement one = weekly(wanted_rows[_i].what, 1, 1);
    const struct choice_value stages[] = {fixture_choice(STAGE_HATCHLING),
                                          fixture_choice(wanted_rows[_i].stage)};
    one.when = fixture_choice((int)wanted_rows[_i].when);
    if (wanted_rows[_i].stage >= 0)
        one.stages = fixture_list(&f, stages, 2, sizeof *stages);
    f.plan.measured[MEASURE_UVB].applies = wanted_rows[_i].needs_light;
    f.plan.uvb.sun = wanted_rows[_i].sun;
    f.plan.uvb.lamp = wanted_rows[_i].lamp;
    if (wanted_rows[_i].rests)
        fixture_settle(&f, "warmth-day", "rest", "call:winter-rest");
    if (wanted_rows[_i].stance)
        fixture_settle(&f, "supplement", wanted_rows[_i].stance, "finding:gout");
    plan(&one, 1);
    ck_assert_msg(feeding()->supplement_count == wanted_rows[_i].wanted, "%s",
                  wanted_rows[_i].what_for);
    ck_assert_int_eq(fixture_review(&f, "powders-not-written") != NULL,
                     wanted_rows[_i].stance && strcmp(wanted_rows[_i].stance, "as-written") == 0);
}
END_TEST

/* The veterinarian's own powders stand instead of the species'. */
START_TEST(her_powders_stand_instead)
{
    const struct visit_powder own[] = {
        {.what = fixture_choice(SUPPLEMENT_CALCIUM_D3), .per_week = fixture_quantity(1)},
        {.what = fixture_choice(SUPPLEMENT_CALCIUM), .every_meals = fixture_quantity(2)}};
    const struct species_supplement usual = weekly(SUPPLEMENT_MULTIVITAMIN, 1, 1);
    f.visit.targets.powders = fixture_list(&f, own, 2, sizeof *own);
    if (_i)
        fixture_settle(&f, "supplement", "stop-d3", "finding:gout");
    plan(&usual, 1);
    ck_assert_uint_eq(feeding()->supplement_count, _i ? 1 : 2);
    const struct supplement_plan *calcium = &feeding()->supplements[_i ? 0 : 1];
    ck_assert_int_eq(calcium->what, SUPPLEMENT_CALCIUM);
    ck_assert_int_eq(calcium->every_meals, 2);
    ck_assert_int_eq(calcium->from.origin, ORIGIN_VETERINARIAN);
    if (!_i) {
        DAYS_ARE(0, 1, 9, 15, 23, 29, 37, 43, 51);
        ck_assert(feeding()->supplements[0].per_week_low == 1 &&
                  feeding()->supplements[0].per_week_high == 1);
        /* every second meal, 1, 5, 9 ...; those with D3 stay without */
        DAYS_ARE(1, 5, 13, 17, 21, 25, 33, 41, 45, 49, 53);
    }
}
END_TEST

/* More than half of the food is complete by itself: no powder (Stahl & Donoghue, in Small Animal
 * Clinical Nutrition, 5th ed., p. 1245). */
static const struct {
    struct {
        bool pellets;
        double meal_g; /* each day; 0: nobody knows */
    } diets[2];
    size_t count;
    bool complete;
} complete_rows[] = {
    {{{true, 0}}, 1, true},
    {{{false, 5}}, 1, false},
    {{{true, 5}, {false, 5}}, 2, false},
    {{{true, 5.1}, {false, 5}}, 2, true},
    {{{false, 5}, {true, 5.1}}, 2, true},
    {{{true, 9}, {false, 0}}, 2, false},
    {{{false, 0}, {true, 9}}, 2, false},
    {{{true, 0}, {true, 0}}, 2, true},
    {{{0}}, 0, false},
};

START_TEST(complete_food_needs_no_powder)
{
    const struct food foods[] = {food_of("pellets", FOOD_PREPARED, NULL, 0),
                                 food_of("cricket", FOOD_INSECT, NULL, 0)};
    const struct species_supplement one = weekly(SUPPLEMENT_CALCIUM, 1, 1);
    struct visit_diet diets[2];
    f.reference.foods = fixture_list(&f, foods, 2, sizeof *foods);
    for (size_t i = 0; i < complete_rows[_i].count; i++) {
        diets[i] = (struct visit_diet){.food = foods[!complete_rows[_i].diets[i].pellets].name,
                                       .every_days = fixture_quantity(1)};
        if (complete_rows[_i].diets[i].meal_g > 0)
            diets[i].meal_g = fixture_quantity(complete_rows[_i].diets[i].meal_g);
    }
    given(diets, complete_rows[_i].count);
    plan(&one, 1);
    ck_assert_int_eq(fixture_review(&f, "complete-food") != NULL, complete_rows[_i].complete);
    ck_assert_uint_eq(feeding()->supplement_count, !complete_rows[_i].complete);
}
END_TEST

/* Of a kind that gets no powders nothing is remarked, whatever it eats. */
START_TEST(without_powders_there_is_none_to_leave_out)
{
    const struct food pellets = food_of("pellets", FOOD_PREPARED, NULL, 0);
    const struct visit_diet diet = {.food = pellets.name, .every_days = fixture_quantity(1)};
    f.reference.foods = fixture_list(&f, &pellets, 1, sizeof pellets);
    given(&diet, 1);
    feeding_plan_supplements(&f.b);
    ck_assert_ptr_null(fixture_review(&f, "complete-food"));
}
END_TEST

/* Powders lie on the insects beside a mix, which is complete, on their days alone. */
START_TEST(beside_a_mix_the_insects_are_dusted)
{
    const struct species_supplement one = weekly(SUPPLEMENT_CALCIUM, 1, 1);
    feeding()->diet = DIET_FRUIT_MIX;
    feeding()->beside.is_known = true;
    feeding()->beside.every_low_days = feeding()->beside.every_high_days = _i ? 7 : 4;
    feeding_plan_beside_days(&f.b);
    plan(&one, 1);
    if (_i) /* as often as they come: on each */
        ck_assert_int_eq(feeding()->supplements[0].every_meals, 1);
    else
        DAYS_ARE(0, 4, 8, 16, 24, 32, 36, 44, 52);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("powders");
    TCase *tests = tcase_create("powders");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, once_a_week, 0, 2);
    tcase_add_loop_test(tests, twice_a_week, 0, 2);
    tcase_add_test(tests, every_other_week);
    tcase_add_test(tests, every_third_meal);
    tcase_add_test(tests, a_part_of_a_meal_is_every_meal);
    tcase_add_test(tests, the_rarest_chooses_first);
    tcase_add_loop_test(tests, calcium_on_every_meal_that_is_left, 0, COUNT(fit_rows));
    tcase_add_test(tests, powders_of_one_rhythm_take_turns);
    tcase_add_test(tests, of_one_rhythm_the_first_listed_chooses_first);
    tcase_add_loop_test(tests, of_daily_food_each_day_is_free, 0, 2);
    tcase_add_loop_test(tests, calcium_between_the_meals_of_a_mixed_diet, 0, 2);
    tcase_add_loop_test(tests, no_powder_before_the_first_meal, 0, 2);
    tcase_add_loop_test(tests, without_meals_there_is_no_day, 0, 2);
    tcase_add_loop_test(tests, a_powder_of_no_times_a_week_has_no_day, 0, 2);
    tcase_add_test(tests, thiamine_goes_with_the_fish);
    tcase_add_loop_test(tests, what_the_animal_needs, 0, COUNT(wanted_rows));
    tcase_add_loop_test(tests, her_powders_stand_instead, 0, 2);
    tcase_add_loop_test(tests, complete_food_needs_no_powder, 0, COUNT(complete_rows));
    tcase_add_test(tests, without_powders_there_is_none_to_leave_out);
    tcase_add_loop_test(tests, beside_a_mix_the_insects_are_dusted, 0, 2);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
