/* The whole feeding plan of a stage, beside what the keeper does and what the veterinarian set. A
 * snake of 600 g eats 5-10 % of its mass every 10 to 14 days; all is worked out by hand. How long
 * is too long without food is the species sheet's. */
#include "common/suite.h"

#include <math.h>

#include "care/energy.h"
#include "care/feeding_fixture.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static struct species_feeding_stage stages[2];
static struct food foods[3];

static void set_up(void)
{
    const struct food_size mice[] = {sized("hopper", 10, 15)},
                           crickets[] = {sized("small", 0.1, 0.2)};
    fixture_init(&f);
    foods[0] = food_of("mouse", FOOD_PREY, mice, 1);
    foods[1] = food_of("cricket", FOOD_INSECT, crickets, 1);
    foods[2] = food_of("greens", FOOD_PLANT, NULL, 0);
    for (size_t i = 0; i < 2; i++) {
        stages[i] = (struct species_feeding_stage){.meal_percent = fixture_cited(5, 10),
                                                   .every_days = fixture_cited(10, 14),
                                                   .stage = fixture_choice(STAGE_ADULT)};
        give_foods(&stages[i], foods, 1);
    }
    stages[0].stage = fixture_choice(STAGE_JUVENILE);
    stages[0].until_age_days = fixture_quantity(400);
    f.reference.foods = fixture_list(&f, foods, 3, sizeof *foods);
    f.species.group = fixture_choice(GROUP_SNAKE);
    f.species.diet = fixture_choice(DIET_WHOLE_PREY);
    f.species.no_food_days = fixture_cited(60, 90);
    f.species.no_food_young_days = fixture_cited(20, 30);
    f.species.no_stool_days = fixture_cited(40, 50);
    weigh(600);
    f.plan.patient.age_known = true;
    f.plan.patient.age_days = 4000;
    feeding()->stage = STAGE_ADULT;
}

static struct feeding_plan *made(void)
{
    feed_by(stages, 2);
    ck_assert(feeding_plan(&f.b));
    return feeding();
}

/* A lizard of 6-12 insects each second or third day instead. */
static void be_insect_eater(void)
{
    f.species.group = fixture_choice(GROUP_LIZARD);
    f.species.diet = fixture_choice(DIET_INSECTS);
    for (size_t i = 0; i < 2; i++) {
        stages[i].meal_percent = (struct sourced_value){0};
        stages[i].insects = fixture_cited(6, 12);
        stages[i].every_days = fixture_cited(2, 3);
        stages[i].foods = fixture_list(&f, &foods[1].name, 1, sizeof foods[1].name);
    }
}

static void is_band(double low, double high, double wanted_low, double wanted_high)
{
    ck_assert_double_eq_tol(low, wanted_low, 1e-9);
    ck_assert_double_eq_tol(high, wanted_high, 1e-9);
}

static void told_is(const char *code, const char *fact, double low, double high)
{
    const struct review *told = fixture_review(&f, code);
    ck_assert_msg(told != NULL, "%s", code);
    const struct plan_fact *one = fixture_fact(told, fact);
    ck_assert_msg(one != NULL, "%s %s", code, fact);
    is_band(one->low, one->high, low, high);
}

/* ---- the usual ---- */

START_TEST(a_snakes_meal_is_a_share_of_its_mass)
{
    const struct feeding_plan *p = made();
    ck_assert(p->has_meal && !p->has_insects && !p->has_plant_share && !p->beside.is_known);
    is_band(p->meal_low_g, p->meal_high_g, 30, 60);
    is_band(p->every_low_days, p->every_high_days, 10, 14);
    is_band(p->usual_low_days, p->usual_high_days, 10, 14);
    is_band(p->fast_limit_days, p->stool_limit_days, 60, 40);
    is_band(p->pause_low_days, p->pause_high_days, 10, 14);
    ck_assert(p->has_diet && p->diet == DIET_WHOLE_PREY);
    ck_assert_str_eq(p->meal_from.source, "common practice");
    ck_assert_int_eq(p->meal_from.origin, ORIGIN_SPECIES_SHEET);
    static const char *const names[] = {"feeding.meal_g.low", "feeding.meal_g.high"};
    for (size_t i = 0; i < 2; i++) {
        const struct derivation *meal = fixture_derivation(&p->how, names[i]);
        const double share = i ? 10 : 5;
        is_band(meal->low, meal->high, 594 * share / 100, 606 * share / 100);
        ck_assert_double_eq(meal->value, 6 * share);
        ck_assert(meal->inputs[0].value == 600 && meal->inputs[1].value == share &&
                  meal->inputs[2].value == 6);
    }
    ck_assert_uint_eq(p->food_count, 1);
    ck_assert_int_eq(p->foods[0].count, 3); /* 45 g of hoppers at their heaviest */
    ck_assert_uint_eq(p->line_count, 1);
    const struct feeding_line *line = &p->lines[0];
    ck_assert_str_eq(line->kind, "all");
    ck_assert(line->has_g && !line->has_count && !line->has_share && line->food_count == 1);
    is_band(line->low_g, line->high_g, 30, 60);
    is_band(line->every_low_days, line->every_high_days, 10, 14);
    ck_assert(line->next == p->next && line->next_count == p->next_count && p->next_count == 8);
    ck_assert_ptr_null(fixture_review(&f, "stage-assumed"));
}
END_TEST

START_TEST(what_other_sources_say_is_told)
{
    const struct sourced_value meal = fixture_cited(12, 16), every = fixture_cited(20, 40);
    stages[1].meal_percent.disagrees = fixture_list(&f, &meal, 1, sizeof meal);
    stages[1].every_days.disagrees = fixture_list(&f, &every, 1, sizeof every);
    made();
    told_is("meal-spread", "other", 12, 16);
    told_is("meal-spread", "chosen", 5, 10);
    told_is("interval-spread", "other", 20, 40);
}
END_TEST

START_TEST(without_a_mass_there_are_no_grams)
{
    f.plan.patient.has_mass = false;
    ck_assert(!made()->has_meal);
    ck_assert(!feeding()->has_need);
    ck_assert_ptr_null(fixture_derivation(&feeding()->how, "feeding.meal_g.low"));
}
END_TEST

START_TEST(a_lizards_meal_is_counted)
{
    be_insect_eater();
    const struct feeding_plan *p = made();
    ck_assert(p->has_insects && !p->has_meal && !p->beside.is_known);
    is_band(p->insects_low, p->insects_high, 6, 12);
    ck_assert_str_eq(p->meal_from.source, "common practice");
    is_band(p->pause_low_days, p->pause_high_days, 0, 0); /* a snake's alone */
    const struct feeding_line *line = &p->lines[0];
    ck_assert(line->has_count && !line->has_g && p->line_count == 1);
    is_band(line->low_count, line->high_count, 6, 12);
}
END_TEST

/* Insects in a rhythm of their own beside a mix; plants every day beside the animals. */
START_TEST(each_kind_of_food_has_its_rhythm)
{
    be_insect_eater();
    f.species.diet = fixture_choice(_i ? DIET_MIXED : DIET_FRUIT_MIX);
    struct text_value codes[] = {foods[1].name, foods[2].name};
    stages[1].foods = fixture_list(&f, codes, 2, sizeof *codes);
    stages[1].plant_share_percent = fixture_cited(60, 80);
    if (!_i)
        stages[1].insects_every_days = fixture_cited(7, 9);
    const struct feeding_plan *p = made();
    ck_assert(p->has_plant_share);
    is_band(p->plant_low_percent, p->plant_high_percent, 60, 80);
    ck_assert_str_eq(p->meal_from.source, "common practice");
    ck_assert_uint_eq(p->line_count, 2);
    const struct feeding_line *first = &p->lines[0], *second = &p->lines[1];
    ck_assert_str_eq(first->kind, _i ? "plants" : "mix");
    ck_assert_str_eq(second->kind, "animals");
    ck_assert(first->food_count == 1 && second->food_count == 1);
    ck_assert_str_eq(first->foods[0].food, "greens");
    ck_assert_str_eq(second->foods[0].food, "cricket");
    ck_assert(second->has_count);
    is_band(second->low_count, second->high_count, 6, 12);
    is_band(first->every_low_days, first->every_high_days, _i ? 1 : 2, _i ? 1 : 3);
    is_band(second->every_low_days, second->every_high_days, _i ? 2 : 7, _i ? 3 : 9);
    ck_assert_int_eq(first->has_share, _i);
    if (_i)
        is_band(first->low_percent, first->high_percent, 60, 80);
    ck_assert_int_eq(p->beside.is_known, !_i);
    ck_assert_int_eq(p->has_insects, _i);
    if (!_i) {
        is_band(p->beside.low, p->beside.high, 6, 12);
        is_band(p->beside.every_low_days, p->beside.every_high_days, 7, 9);
    }
}
END_TEST

/* All insects beside a mix are counted together: the latest day on which any came, the shortest of
 * their intervals, how many a day. Where no day is known, none is said. */
START_TEST(what_it_gets_beside_a_mix_is_counted_together)
{
    const struct visit_diet crickets = {.food = fixture_text("cricket"),
                                        .count = fixture_quantity(6),
                                        .every_days = fixture_quantity(3)};
    struct visit_diet diets[] = {crickets, crickets, crickets};
    const struct feeding_beside_now *now = &f.plan.feeding.beside_now;
    diets[1].every_days = fixture_quantity(2);
    if (_i < 3) {
        diets[_i].last = fixture_date(2026, 3, 10);
        diets[(_i + 1) % 3].last = fixture_date(2026, 3, 8);
    }
    be_insect_eater();
    f.species.diet = fixture_choice(DIET_FRUIT_MIX);
    stages[1].insects_every_days = fixture_cited(7, 9);
    given(diets, 3);
    made();
    ck_assert(now->is_given && now->has_count);
    ck_assert_double_eq_tol(now->count_day, 2 + 3 + 2, 1e-9);
    ck_assert_double_eq(now->interval_days, 2);
    ck_assert_int_eq(now->has_last, _i < 3);
    if (now->has_last)
        ck_assert_int_eq(date_days_between(now->last, f.plan.on), 4);
}
END_TEST

/* Insects each day beside a mix: a line names the next eight of eight weeks' days. */
START_TEST(insects_beside_a_mix_have_their_next_days)
{
    be_insect_eater();
    f.species.diet = fixture_choice(DIET_FRUIT_MIX);
    stages[1].insects_every_days = fixture_cited(_i ? 1 : 14, _i ? 1 : 14);
    const struct feeding_plan *p = made();
    ck_assert_uint_eq(p->beside.day_count, _i ? 56 : 8);
    const struct feeding_line *insects = &p->lines[p->line_count - 1];
    ck_assert_uint_eq(insects->next_count, 8);
    ck_assert_int_eq(date_days_between(f.plan.on, insects->next[0]), _i ? 1 : 14);
    ck_assert_int_eq(date_days_between(f.plan.on, insects->next[7]), _i ? 8 : 112);
}
END_TEST

/* Months without food are normal of a grown animal whose weight holds, and of none else. */
static const struct {
    long age_days; /* 0: unknown */
    enum weight_state weight;
    bool young_is_known;
    double limit_days;
} limit_rows[] = {
    {4000, WEIGHT_STEADY, true, 60},  {4000, WEIGHT_RISING, true, 60},
    {4000, WEIGHT_FALLING, true, 20}, {4000, WEIGHT_FALLING_FAST, true, 20},
    {399, WEIGHT_STEADY, true, 20},   {400, WEIGHT_STEADY, true, 60},
    {399, WEIGHT_STEADY, false, 60},
};

START_TEST(how_long_it_may_go_without_food)
{
    f.plan.patient.age_days = limit_rows[_i].age_days;
    feeding()->stage = limit_rows[_i].age_days < 400 ? STAGE_JUVENILE : STAGE_ADULT;
    f.plan.growth.weight = limit_rows[_i].weight;
    f.species.no_food_young_days.range.known = limit_rows[_i].young_is_known;
    ck_assert_double_eq(made()->fast_limit_days, limit_rows[_i].limit_days);
}
END_TEST

START_TEST(the_last_stage_is_assumed_of_one_of_unknown_age)
{
    f.plan.patient.age_known = false;
    made();
    ck_assert_ptr_nonnull(fixture_review(&f, "stage-assumed"));
    tear_down();
    set_up();
    f.plan.patient.age_known = false;
    feed_by(&stages[1], 1);
    ck_assert(feeding_plan(&f.b));
    ck_assert_ptr_null(fixture_review(&f, "stage-assumed"));
}
END_TEST

/* The end of a stage is the first day, centimetre or gram that is not of it. */
static const struct {
    double age_days, length_cm, mass_g; /* 0: unknown */
    enum stage stage;
    enum stage_reason reason;
} stage_rows[] = {
    {399, 10, 10, STAGE_JUVENILE, STAGE_BY_AGE},     {400, 10, 10, STAGE_ADULT, STAGE_BY_AGE},
    {0, 49.9, 900, STAGE_JUVENILE, STAGE_BY_LENGTH}, {0, 50, 10, STAGE_ADULT, STAGE_BY_LENGTH},
    {0, 0, 199, STAGE_JUVENILE, STAGE_BY_MASS},      {0, 0, 200, STAGE_ADULT, STAGE_BY_MASS},
    {0, 0, 0, STAGE_ADULT, STAGE_ASSUMED_ADULT},
};

START_TEST(age_goes_before_length_and_length_before_mass)
{
    stages[0].until_length_cm = fixture_quantity(50);
    stages[0].until_mass_g = fixture_quantity(200);
    feed_by(stages, 2);
    f.plan.patient.age_known = stage_rows[_i].age_days > 0;
    f.plan.patient.age_days = (long)stage_rows[_i].age_days;
    f.plan.patient.has_length = stage_rows[_i].length_cm > 0;
    f.visit.patient.length_cm = fixture_quantity(stage_rows[_i].length_cm);
    f.plan.patient.has_mass = stage_rows[_i].mass_g > 0;
    f.visit.patient.mass_g = fixture_quantity(stage_rows[_i].mass_g);
    ck_assert(stage_plan(&f.b));
    ck_assert_int_eq(feeding()->stage, stage_rows[_i].stage);
    ck_assert_int_eq(feeding()->stage_reason, stage_rows[_i].reason);
    ck_assert_int_eq(feeding_is_young(&f.b), stage_rows[_i].stage == STAGE_JUVENILE);
}
END_TEST

/* ---- the veterinarian's ---- */

START_TEST(her_meal_and_interval_win)
{
    f.visit.targets.meal_g = fixture_band(40, 50);
    f.visit.targets.every_days = fixture_band(5, 6);
    const struct feeding_plan *p = made();
    is_band(p->meal_low_g, p->meal_high_g, 40, 50);
    is_band(p->every_low_days, p->every_high_days, 5, 6);
    ck_assert(p->meal_from.origin == ORIGIN_VETERINARIAN &&
              p->every_from.origin == ORIGIN_VETERINARIAN);
    told_is("own-meal", "target", 40, 50);
    told_is("own-meal", "usual", 30, 60);
    told_is("own-interval", "target", 5, 6);
    told_is("own-interval", "usual", 10, 14);
    ck_assert_ptr_null(fixture_review(&f, "own-meal-while-paused"));
}
END_TEST

START_TEST(her_meal_is_one_where_none_is_usual)
{
    be_insect_eater();
    f.visit.targets.meal_g = fixture_band(4, 5);
    ck_assert(made()->has_meal);
    ck_assert_ptr_null(fixture_fact(fixture_review(&f, "own-meal"), "usual"));
}
END_TEST

START_TEST(her_insects_win)
{
    be_insect_eater();
    f.visit.targets.insects = fixture_band(3, 4);
    if (_i)
        stages[1].insects_every_days = fixture_cited(7, 9);
    const struct feeding_plan *p = made();
    if (_i)
        is_band(p->beside.low, p->beside.high, 3, 4);
    else
        is_band(p->insects_low, p->insects_high, 3, 4);
    ck_assert_int_eq(p->has_insects, !_i);
    ck_assert_int_eq(p->meal_from.origin, ORIGIN_VETERINARIAN);
    told_is("own-insects", "target", 3, 4);
    told_is("own-insects", "usual", 6, 12);
}
END_TEST

START_TEST(her_meal_says_nothing_of_when_a_pause_ends)
{
    fixture_settle(&f, "food", "none-until-vet", "finding:burn");
    foods[0].kcal_per_g = fixture_cited(1.5, 1.7); /* of which nothing is worked out then */
    f.reference.foods = fixture_list(&f, foods, 3, sizeof *foods);
    if (_i == 0)
        f.visit.targets.meal_g = fixture_band(40, 50);
    else if (_i == 1)
        f.visit.targets.every_days = fixture_band(5, 6);
    const struct feeding_plan *p = made();
    ck_assert(p->paused && p->next_count == 0 && p->line_count == 0);
    ck_assert(!p->has_energy && !fixture_derivation(&p->how, "feeding.energy.plan.low"));
    const struct review *told = fixture_review(&f, "own-meal-while-paused");
    ck_assert_int_eq(told != NULL, _i < 2);
    if (told)
        ck_assert_str_eq(told->facts->text, "burn");
}
END_TEST

/* Her plan for the food without a number on it; a tube's volume is one. */
static const struct {
    const char *stance;
    double tube_ml, tube_every_h;
    bool meal, insects, every, told;
} blank_rows[] = {
    {"vet-plan", 0, 0, false, false, false, true}, {"vet-plan", 5, 24, false, false, false, false},
    {"vet-plan", 5, 0, false, false, false, true}, {"vet-plan", 0, 24, false, false, false, true},
    {"vet-plan", 0, 0, true, false, true, false},  {"vet-plan", 0, 0, false, true, true, false},
    {"vet-plan", 0, 0, true, false, false, true},  {"vet-plan", 0, 0, false, true, false, true},
    {"vet-plan", 0, 0, false, false, true, true},  {"as-usual", 0, 0, false, false, false, false},
};

START_TEST(food_that_is_hers_is_written_down)
{
    fixture_settle(&f, "food", blank_rows[_i].stance, "finding:burn");
    f.plan.aftercare.tube_ml = blank_rows[_i].tube_ml;
    f.plan.aftercare.tube_every_h = blank_rows[_i].tube_every_h;
    if (blank_rows[_i].meal)
        f.visit.targets.meal_g = fixture_band(4, 5);
    if (blank_rows[_i].insects)
        f.visit.targets.insects = fixture_band(4, 5);
    if (blank_rows[_i].every)
        f.visit.targets.every_days = fixture_band(2, 3);
    made();
    ck_assert_int_eq(fixture_review(&f, "food-not-written") != NULL, blank_rows[_i].told);
}
END_TEST

/* No published diet of an amphibian was found: its numbers are hers. */
static const struct {
    enum group group;
    const char *found;
    enum severity severity;
    const char *stance;
    bool insects, meal, every, asks;
} diet_rows[] = {
    {GROUP_FROG, "overweight", SEVERITY_MILD, "as-usual", false, false, false, true},
    {GROUP_SALAMANDER, "overweight", SEVERITY_MILD, "offer-only", false, false, false, true},
    {GROUP_LIZARD, "overweight", SEVERITY_MILD, "as-usual", false, false, false, false},
    {GROUP_FROG, "overweight", SEVERITY_NORMAL, "as-usual", false, false, false, false},
    {GROUP_FROG, "burn", SEVERITY_MILD, "as-usual", false, false, false, false},
    {GROUP_FROG, "overweight", SEVERITY_MILD, "vet-plan", false, false, false, false},
    {GROUP_FROG, "overweight", SEVERITY_MILD, "as-usual", true, false, true, false},
    {GROUP_FROG, "overweight", SEVERITY_MILD, "as-usual", false, true, true, false},
    {GROUP_FROG, "overweight", SEVERITY_MILD, "as-usual", true, false, false, true},
    {GROUP_FROG, "overweight", SEVERITY_MILD, "as-usual", false, false, true, true},
};

START_TEST(a_diet_of_an_amphibian_is_asked_for)
{
    const struct finding_plan findings[] = {
        {.code = "shed", .severity = SEVERITY_MILD},
        {.code = diet_rows[_i].found, .severity = diet_rows[_i].severity}};
    be_insect_eater();
    f.species.group = fixture_choice((int)diet_rows[_i].group);
    found(findings, 2);
    fixture_settle(&f, "food", diet_rows[_i].stance, "finding:overweight");
    if (diet_rows[_i].insects)
        f.visit.targets.insects = fixture_band(3, 4);
    if (diet_rows[_i].meal)
        f.visit.targets.meal_g = fixture_band(3, 4);
    if (diet_rows[_i].every)
        f.visit.targets.every_days = fixture_band(3, 4);
    const struct feeding_plan *p = made();
    ck_assert_int_eq(p->asks_amount, diet_rows[_i].asks);
    ck_assert_int_eq(fixture_review(&f, "diet-number-missing") != NULL, diet_rows[_i].asks);
    ck_assert_int_eq(p->has_insects || p->has_meal, !diet_rows[_i].asks);
    ck_assert_int_eq(p->every_high_days == 0, diet_rows[_i].asks);
    if (diet_rows[_i].asks)
        ck_assert_int_eq(p->change, FEEDING_AS_USUAL);
}
END_TEST

/* ---- the keeper's ---- */

static const struct {
    double meal_g, count, days; /* 0: not written */
    bool insects;
    enum verdict meal, interval;
} now_rows[] = {
    {29.9, 0, 9.9, false, VERDICT_TOO_LOW, VERDICT_TOO_LOW},
    {30, 0, 10, false, VERDICT_IN_RANGE, VERDICT_IN_RANGE},
    {60, 0, 14, false, VERDICT_IN_RANGE, VERDICT_IN_RANGE},
    {60.1, 0, 14.1, false, VERDICT_TOO_HIGH, VERDICT_TOO_HIGH},
    {0, 3, 0, false, VERDICT_UNKNOWN, VERDICT_UNKNOWN},
    {0, 5, 1, true, VERDICT_TOO_LOW, VERDICT_TOO_LOW},
    {0, 6, 2, true, VERDICT_IN_RANGE, VERDICT_IN_RANGE},
    {0, 12, 3, true, VERDICT_IN_RANGE, VERDICT_IN_RANGE},
    {0, 13, 4, true, VERDICT_TOO_HIGH, VERDICT_TOO_HIGH},
    {2, 0, 2, true, VERDICT_UNKNOWN, VERDICT_IN_RANGE},
};

START_TEST(what_it_gets_now_is_judged)
{
    struct visit_diet diet = {.food = now_rows[_i].insects ? foods[1].name : foods[0].name};
    if (now_rows[_i].insects)
        be_insect_eater();
    diet.meal_g = fixture_quantity(now_rows[_i].meal_g);
    diet.meal_g.known = now_rows[_i].meal_g > 0;
    diet.count = fixture_quantity(now_rows[_i].count);
    diet.count.known = now_rows[_i].count > 0;
    diet.every_days = fixture_quantity(now_rows[_i].days);
    diet.every_days.known = now_rows[_i].days > 0;
    given(&diet, 1);
    made();
    ck_assert_int_eq(feeding()->meal_verdict, now_rows[_i].meal);
    ck_assert_int_eq(feeding()->interval_verdict, now_rows[_i].interval);
    tear_down();
    set_up();
    given(&diet, 1);
    fixture_settle(&f, "food", "none-until-vet", "finding:burn");
    made(); /* nobody is blamed for a meal while none is given */
    ck_assert_int_eq(feeding()->meal_verdict, VERDICT_UNKNOWN);
    ck_assert_int_eq(feeding()->interval_verdict, VERDICT_UNKNOWN);
}
END_TEST

START_TEST(a_fast_past_its_limit_is_told)
{
    const struct visit_diet diet = {
        .last = {.known = true, .date = date_add_days(f.plan.on, _i ? -61 : -60)}};
    given(&diet, 1);
    made();
    ck_assert_int_eq(fixture_review(&f, "no-food-past-limit") != NULL, _i);
    if (_i) {
        told_is("no-food-past-limit", "days", 61, 61);
        told_is("no-food-past-limit", "limit", 60, 60);
    }
}
END_TEST

START_TEST(of_an_unknown_limit_nothing_is_told)
{
    const struct visit_diet diet = {
        .last = {.known = true, .date = date_add_days(f.plan.on, -600)}};
    given(&diet, 1);
    f.species.no_food_days = (struct sourced_value){0};
    f.species.no_food_young_days = (struct sourced_value){0};
    made();
    ck_assert_ptr_null(fixture_review(&f, "no-food-past-limit"));
}
END_TEST

START_TEST(an_animal_without_stages_has_what_was_set)
{
    f.visit.targets.meal_g = fixture_band(4, 5);
    f.visit.targets.every_days = fixture_band(2, 2);
    if (_i)
        fixture_settle(&f, "food", "vet-plan", "finding:burn");
    feed_by(stages, 0);
    ck_assert(feeding_plan(&f.b));
    ck_assert_int_eq(feeding()->paused, _i);
    ck_assert_uint_eq(feeding()->next_count, _i ? 0 : 8);
    is_band(feeding()->meal_low_g, feeding()->meal_high_g, 4, 5);
}
END_TEST

/* ---- the steps of a build-up: a quarter, a half, three quarters, the whole in two weeks ---- */

static void rise(bool has_meal, const int *days, size_t count)
{
    struct date dates[12] = {{0}};
    for (size_t i = 0; i < count; i++)
        dates[i] = date_add_days(f.plan.on, days[i]);
    *feeding() = (struct feeding_plan){.is_rising = true,
                                       .has_meal = has_meal,
                                       .has_insects = !has_meal,
                                       .meal_low_g = has_meal ? 30 : 0,
                                       .meal_high_g = has_meal ? 60 : 0,
                                       .insects_low = has_meal ? 0 : 5,
                                       .insects_high = has_meal ? 0 : 10,
                                       .least_meal_g = has_meal ? 14 : 0,
                                       .least_insects = has_meal ? 0 : 3,
                                       .start_percent = 25,
                                       .start_days = 14,
                                       .meal_day_count = count};
    feeding()->meal_days = fixture_list(&f, dates, count, sizeof *dates).items;
    feeding_plan_steps(&f.b);
}

START_TEST(grams_rise_by_quarters)
{
    static const int days[] = {3, 4, 5, 9, 10, 13, 14, 20};
    static const double wanted[][3] = {{25, 14, 15}, {50, 15, 30}, {75, 22.5, 45}, {100, 30, 60}};
    static const int from[] = {3, 5, 10, 14};
    rise(true, days, COUNT(days));
    ck_assert_uint_eq(feeding()->step_count, 4);
    const struct derivation *made_step = feeding()->how.first;
    for (size_t i = 0; i < 4; i++, made_step = made_step->next) {
        const struct feeding_step *step = &feeding()->steps[i];
        ck_assert_int_eq(date_days_between(f.plan.on, step->from), from[i]);
        ck_assert_double_eq_tol(step->share_percent, wanted[i][0], 1e-9);
        is_band(step->low_g, step->high_g, wanted[i][1], wanted[i][2]);
        ck_assert_double_eq_tol(made_step->value, wanted[i][1], 1e-9);
        ck_assert_double_eq(made_step->inputs[0].value, 30);
        ck_assert_double_eq_tol(made_step->inputs[1].value, wanted[i][0], 1e-9);
        ck_assert_double_eq(made_step->inputs[2].value, 14);
        ck_assert_str_eq(made_step->unit, "g");
    }
    ck_assert_ptr_null(made_step);
    is_band(feeding()->meal_low_g, feeding()->meal_high_g, 14, 60);
}
END_TEST

START_TEST(pieces_rise_by_quarters)
{
    static const int days[] = {1, 5, 10, 15, 16};
    static const int wanted[][2] = {{3, 3}, {3, 5}, {4, 8}, {5, 10}};
    rise(false, days, COUNT(days));
    ck_assert_uint_eq(feeding()->step_count, 4);
    const struct derivation *made_step = feeding()->how.first;
    for (size_t i = 0; i < 4; i++, made_step = made_step->next) {
        is_band(feeding()->steps[i].low, feeding()->steps[i].high, wanted[i][0], wanted[i][1]);
        ck_assert_double_eq(made_step->value, wanted[i][0]);
        ck_assert(made_step->inputs[0].value == 5 && made_step->inputs[2].value == 3);
        ck_assert_str_eq(made_step->unit, "");
    }
    is_band(feeding()->insects_low, feeding()->insects_high, 3, 10);
}
END_TEST

START_TEST(what_does_not_rise_has_no_steps)
{
    static const int days[] = {1, 5};
    rise(true, days, 0);
    ck_assert_uint_eq(feeding()->step_count, 0);
    is_band(feeding()->meal_low_g, feeding()->meal_high_g, 30, 60);
    tear_down();
    set_up();
    made();
    ck_assert_uint_eq(feeding()->step_count, 0);
}
END_TEST

/* ---- energy ---- */

/* Andrews & Pough 1985, eq. 2: 0.013 m^0.80 10^(0.038 T) 10^(0.14 s) ml of oxygen an hour, 20.1 J
 * per ml, 4184 J a kcal; the least of a reptile 10 kg^0.75 kcal a day (clinical reference 3). */
static double squamate_kcal(double mass_g, double temp_c, double resting)
{
    return exp(log(0.013) + 0.8 * log(mass_g) + log(10) * (0.038 * temp_c + 0.14 * resting)) * 24 *
           20.1 / 4184;
}

static double least_kcal(double mass_g)
{
    return 10 * exp(0.75 * log(mass_g / 1000));
}

static const struct {
    enum group group;
    double body_c, air_c, warm_c; /* middles; 0: unknown */
    bool squamate;
    double temp_c;
} need_rows[] = {
    {GROUP_SNAKE, 38, 30, 28, true, 38}, {GROUP_LIZARD, 0, 30, 28, true, 30},
    {GROUP_LIZARD, 0, 0, 28, true, 28},  {GROUP_TORTOISE, 38, 30, 28, false, 0},
    {GROUP_TURTLE, 0, 0, 28, false, 0},  {GROUP_SNAKE, 0, 0, 0, false, 0},
    {GROUP_SNAKE, 1, 0, 0, true, 1},     {GROUP_SNAKE, 50, 0, 0, true, 50},
    {GROUP_SNAKE, 51, 0, 0, false, 0},
};

START_TEST(what_it_uses_by_the_published_equations)
{
    f.species.group = fixture_choice((int)need_rows[_i].group);
    if (need_rows[_i].body_c > 0)
        f.species.preferred_body =
            fixture_cited(need_rows[_i].body_c - 0.5, need_rows[_i].body_c + 0.5);
    if (need_rows[_i].air_c > 0)
        f.species.preferred_air =
            fixture_cited(need_rows[_i].air_c - 0.5, need_rows[_i].air_c + 0.5);
    f.plan.measured[ZONE_WARM_SIDE] = (struct measured_plan){.applies = need_rows[_i].warm_c > 0,
                                                             .low = need_rows[_i].warm_c - 2,
                                                             .high = need_rows[_i].warm_c + 2};
    const struct feeding_plan *p = made();
    const double temp_c = need_rows[_i].temp_c, least = least_kcal(600);
    ck_assert(p->has_need);
    const struct derivation *d = fixture_derivation(&p->how, "feeding.energy.need.least");
    ck_assert_double_eq_tol(d->value, least, 1e-9);
    is_band(d->low, d->high, least_kcal(594), least_kcal(606));
    ck_assert_double_eq(d->inputs[1].value, 6);
    static const char *const names[] = {"feeding.energy.need.standard",
                                        "feeding.energy.need.resting"};
    double low = least, high = least;
    for (int resting = 0; resting < 2; resting++) {
        d = fixture_derivation(&p->how, names[resting]);
        ck_assert_int_eq(d != NULL, need_rows[_i].squamate);
        if (!d)
            continue;
        const double kcal = squamate_kcal(600, temp_c, resting);
        ck_assert_double_eq_tol(d->value, kcal, 1e-9);
        is_band(d->low, d->high, squamate_kcal(594, temp_c - 1, resting),
                squamate_kcal(606, temp_c + 1, resting));
        ck_assert(d->inputs[1].value == temp_c && d->inputs[2].value == 6 &&
                  d->inputs[3].value == 1);
        if (resting)
            high = fmax(least, kcal);
        else
            low = fmin(least, kcal);
    }
    is_band(p->need_low_kcal_day, p->need_high_kcal_day, low, high);
}
END_TEST

START_TEST(of_amphibians_no_formula_holds)
{
    f.species.group = fixture_choice(_i ? GROUP_FROG : GROUP_SALAMANDER);
    f.species.preferred_body = fixture_cited(25, 30);
    ck_assert(!made()->has_need);
    ck_assert(!feeding()->has_energy);
}
END_TEST

/* Hoppers of 10-15 g, 1.5-1.7 kcal a gram: three are 30-45 g, every 10-14 days, every day
 * or without a rhythm, of which there is no day's energy. */
START_TEST(what_the_plan_gives_beside_it)
{
    foods[0].kcal_per_g = fixture_cited(1.5, 1.7);
    f.reference.foods = fixture_list(&f, foods, 3, sizeof *foods);
    f.species.group = fixture_choice(GROUP_TORTOISE); /* the least formula alone: 6.817 kcal */
    if (_i > 0)
        stages[1].every_days = _i == 1 ? fixture_cited(1, 1) : (struct sourced_value){0};
    const struct feeding_plan *p = made();
    ck_assert_int_eq(p->has_energy, _i < 2);
    is_band(p->plan_low_kcal_day, p->plan_high_kcal_day, (double[]){30 * 1.5 / 14, 45, 0}[_i],
            (double[]){45 * 1.7 / 10, 76.5, 0}[_i]);
    if (_i > 0)
        return;
    const struct derivation *low = fixture_derivation(&p->how, "feeding.energy.plan.low");
    ck_assert(low->inputs[0].value == 30 && low->inputs[1].value == 1.5 &&
              low->inputs[2].value == 14 && low->inputs[3].value == 10);
    is_band(low->low, low->high, low->value * 0.9, low->value * 1.1);
    const struct derivation *high = fixture_derivation(&p->how, "feeding.energy.plan.high");
    ck_assert_double_eq_tol(high->value, 7.65, 1e-9);
    ck_assert(!fixture_review(&f, "energy-below-need") &&
              !fixture_review(&f, "energy-far-above-need"));
}
END_TEST

/* Of insects the number and the size: 6-12 of 0.1-0.2 g each second or third day. */
START_TEST(what_insects_give)
{
    be_insect_eater();
    foods[1].kcal_per_g = fixture_cited(1.4, 1.4);
    f.reference.foods = fixture_list(&f, foods, 3, sizeof *foods);
    const struct feeding_plan *p = made();
    is_band(p->plan_low_kcal_day, p->plan_high_kcal_day, 0.6 * 1.4 / 3, 2.4 * 1.4 / 2);
    const struct derivation *few = fixture_derivation(&p->how, "feeding.insects_g.low"),
                            *many = fixture_derivation(&p->how, "feeding.insects_g.high");
    ck_assert_double_eq_tol(few->value, 0.6, 1e-9);
    is_band(few->low, few->high, 0.6, 1.2);
    ck_assert_double_eq_tol(many->value, 2.4, 1e-9);
    is_band(many->low, many->high, 1.2, 2.4);
    told_is("energy-below-need", "plan", p->plan_low_kcal_day, p->plan_high_kcal_day);
    told_is("energy-below-need", "need", p->need_low_kcal_day, p->need_high_kcal_day);
}
END_TEST

START_TEST(far_more_than_it_uses_is_told)
{
    f.species.group = fixture_choice(GROUP_TORTOISE);
    /* 30 g each 14 days at least; the need of 600 g is 6.817: three times that are 20.45 */
    const double dense = 3 * least_kcal(600) * 14 / 30;
    foods[0].kcal_per_g = fixture_cited(dense + (_i ? 0.01 : -0.01), 100);
    f.reference.foods = fixture_list(&f, foods, 3, sizeof *foods);
    made();
    ck_assert_int_eq(fixture_review(&f, "energy-far-above-need") != NULL, _i);
}
END_TEST

/* Less calcium than phosphorus, and no powder on it. */
static const struct {
    double ratio;
    bool powder, told;
} calcium_rows[] = {{0.11, false, true},
                    {0.99, false, true},
                    {1, false, false},
                    {0, false, false},
                    {0.11, true, false}};

START_TEST(food_short_of_calcium_without_powder_is_told)
{
    be_insect_eater();
    foods[1].calcium_to_phosphorus = fixture_cited(calcium_rows[_i].ratio, 9);
    f.reference.foods = fixture_list(&f, foods, 3, sizeof *foods);
    const struct species_supplement powder = {.what = fixture_choice(SUPPLEMENT_CALCIUM),
                                              .per_week = fixture_cited(2, 3)};
    if (calcium_rows[_i].powder)
        f.species.supplements = fixture_list(&f, &powder, 1, sizeof powder);
    made();
    ck_assert_int_eq(fixture_review(&f, "calcium-short") != NULL, calcium_rows[_i].told);
    if (calcium_rows[_i].told) {
        told_is("calcium-short", "ratio", calcium_rows[_i].ratio, calcium_rows[_i].ratio);
        told_is("calcium-short", "least", 1, 1);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("feeding_plan");
    TCase *tests = tcase_create("feeding_plan");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, a_snakes_meal_is_a_share_of_its_mass);
    tcase_add_test(tests, what_other_sources_say_is_told);
    tcase_add_test(tests, without_a_mass_there_are_no_grams);
    tcase_add_test(tests, a_lizards_meal_is_counted);
    tcase_add_loop_test(tests, each_kind_of_food_has_its_rhythm, 0, 2);
    tcase_add_loop_test(tests, insects_beside_a_mix_have_their_next_days, 0, 2);
    tcase_add_loop_test(tests, what_it_gets_beside_a_mix_is_counted_together, 0, 4);
    tcase_add_loop_test(tests, how_long_it_may_go_without_food, 0, COUNT(limit_rows));
    tcase_add_test(tests, the_last_stage_is_assumed_of_one_of_unknown_age);
    tcase_add_loop_test(tests, age_goes_before_length_and_length_before_mass, 0, COUNT(stage_rows));
    tcase_add_test(tests, her_meal_and_interval_win);
    tcase_add_test(tests, her_meal_is_one_where_none_is_usual);
    tcase_add_loop_test(tests, her_insects_win, 0, 2);
    tcase_add_loop_test(tests, her_meal_says_nothing_of_when_a_pause_ends, 0, 3);
    tcase_add_loop_test(tests, food_that_is_hers_is_written_down, 0, COUNT(blank_rows));
    tcase_add_loop_test(tests, a_diet_of_an_amphibian_is_asked_for, 0, COUNT(diet_rows));
    tcase_add_loop_test(tests, what_it_gets_now_is_judged, 0, COUNT(now_rows));
    tcase_add_loop_test(tests, a_fast_past_its_limit_is_told, 0, 2);
    tcase_add_test(tests, of_an_unknown_limit_nothing_is_told);
    tcase_add_loop_test(tests, an_animal_without_stages_has_what_was_set, 0, 2);
    tcase_add_test(tests, grams_rise_by_quarters);
    tcase_add_test(tests, pieces_rise_by_quarters);
    tcase_add_test(tests, what_does_not_rise_has_no_steps);
    tcase_add_loop_test(tests, what_it_uses_by_the_published_equations, 0, COUNT(need_rows));
    tcase_add_loop_test(tests, of_amphibians_no_formula_holds, 0, 2);
    tcase_add_loop_test(tests, what_the_plan_gives_beside_it, 0, 3);
    tcase_add_test(tests, what_insects_give);
    tcase_add_loop_test(tests, far_more_than_it_uses_is_told, 0, 2);
    tcase_add_loop_test(tests, food_short_of_calcium_without_powder_is_told, 0,
                        COUNT(calcium_rows));
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
