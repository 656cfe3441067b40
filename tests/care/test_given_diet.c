/* What the keeper gives, judged as a whole. Minerals are invented, in mg of 100 g, and summed by
 * hand; a batch may hold a tenth more or less of either. That a staple has half as much calcium
 * again as phosphorus and that staples are half of the plants is common practice, no source. */
#include "common/suite.h"

#include <math.h>

#include "care/feeding_fixture.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static struct food foods[9];

static struct food plant(const char *code, double calcium_mg, double phosphorus_mg)
{
    struct food food = food_of(code, FOOD_PLANT, NULL, 0);
    if (calcium_mg > 0) {
        food.minerals.calcium_mg = fixture_quantity(calcium_mg);
        food.minerals.phosphorus_mg = fixture_quantity(phosphorus_mg);
        food.minerals.source = fixture_text("practice");
        food.minerals.row = fixture_text("row 7");
    }
    return food;
}

/* Dandelion 3 to 1, kale 1.5, cucumber 1, banana a fifth; weeds of which nothing is known. */
static void set_up(void)
{
    const struct choice_value oxalate = fixture_choice(FOOD_OXALATE),
                              goitrogen = fixture_choice(FOOD_GOITROGEN);
    fixture_init(&f);
    foods[0] = plant("dandelion", 300, 100);
    foods[1] = plant("kale", 150, 100);
    foods[2] = plant("cucumber", 100, 100);
    foods[3] = plant("banana", 20, 100);
    foods[4] = plant("weeds", 0, 0);
    foods[5] = food_of("cricket", FOOD_INSECT, NULL, 0);
    foods[5].calcium_to_phosphorus = fixture_cited(0.1, 0.2);
    foods[6] = plant("spinach", 200, 100);
    foods[6].flags = fixture_list(&f, &oxalate, 1, sizeof oxalate);
    foods[7] = food_of("roach", FOOD_INSECT, NULL, 0);
    foods[8] = food_of("mouse", FOOD_PREY, NULL, 0);
    foods[1].flags = fixture_list(&f, &goitrogen, 1, sizeof goitrogen);
    f.reference.foods = fixture_list(&f, foods, COUNT(foods), sizeof *foods);
    f.reference.food_sources = f.species.sources;
    f.species.group = fixture_choice(GROUP_TORTOISE);
    f.species.diet = fixture_choice(DIET_PLANTS);
    const struct food_balance balance = {.calcium_percent = fixture_band(1.4, 2),
                                         .phosphorus_percent = fixture_band(0.8, 1),
                                         .source = fixture_text("practice")};
    f.reference.balances = fixture_list(&f, &balance, 1, sizeof balance);
}

struct portion {
    const char *food;
    double g_day; /* 0: nobody knows */
};

enum { PORTIONS_MOST = 3 };

static const struct diet_plan *judged(const struct portion *portions,
                                      const struct species_feeding_stage *stage)
{
    struct visit_diet diets[PORTIONS_MOST];
    size_t count = 0;
    for (; count < PORTIONS_MOST && portions[count].food; count++) {
        diets[count] = (struct visit_diet){.food = fixture_text(portions[count].food),
                                           .every_days = fixture_quantity(2)};
        if (portions[count].g_day > 0)
            diets[count].meal_g = fixture_quantity(portions[count].g_day * 2);
    }
    given(diets, count);
    feeding_judge_diet(&f.b, stage);
    return &feeding()->diet_now;
}

/* The sum of what is known in grams; what has no amount may be any part of the whole. 0.9 by 1.1
 * and 1.1 by 0.9 are what batches leave. The least is 1.4 % by 1 %. */
static const struct {
    struct portion given[PORTIONS_MOST];
    bool has_ratio;
    double low, high; /* before batches */
    size_t unknown;
    bool has_share;
    double unknown_percent;
    enum verdict verdict;
} ratio_rows[] = {
    {{{"dandelion", 10}}, true, 3, 3, 0, true, 0, VERDICT_IN_RANGE},
    /* 10 g of 3 and 30 of a fifth: 36 to 40 mg */
    {{{"dandelion", 10}, {"banana", 30}}, true, 0.9, 0.9, 0, true, 0, VERDICT_TOO_LOW},
    {{{"kale", 10}}, true, 1.5, 1.5, 0, true, 0, VERDICT_BORDERLINE},
    {{{"dandelion", 0}}, true, 3, 3, 0, false, 0, VERDICT_IN_RANGE},
    {{{"dandelion", 10}, {"banana", 0}}, true, 0.2, 3, 0, false, 0, VERDICT_BORDERLINE},
    {{{"cucumber", 10}, {"banana", 0}}, true, 0.2, 1, 0, false, 0, VERDICT_TOO_LOW},
    {{{"dandelion", 30}, {"weeds", 10}}, true, 3, 3, 1, true, 25, VERDICT_UNKNOWN},
    {{{"weeds", 10}}, false, 0, 0, 1, true, 100, VERDICT_UNKNOWN},
    {{{"weeds", 10}, {"roach", 0}}, false, 0, 0, 2, false, 100, VERDICT_UNKNOWN},
    {{{"cricket", 10}}, true, 0.1, 0.1, 0, true, 0, VERDICT_TOO_LOW},
    /* oxalate binds all that it may: 10 g of 2 and 10 of 3 are 2.5, or 1.5 */
    {{{"spinach", 10}, {"dandelion", 10}}, true, 1.5, 2.5, 0, true, 0, VERDICT_BORDERLINE},
    {{{"spinach", 0}}, true, 0, 2, 0, false, 0, VERDICT_BORDERLINE},
    {{{"dandelion", 10}, {"kale", 10}, {"cucumber", 10}},
     true,
     5.5 / 3,
     5.5 / 3,
     0,
     true,
     0,
     VERDICT_IN_RANGE},
};

START_TEST(calcium_by_phosphorus_of_the_whole)
{
    const struct diet_plan *d = judged(ratio_rows[_i].given, NULL);
    ck_assert(d->is_judged);
    ck_assert_int_eq(d->has_ratio, ratio_rows[_i].has_ratio);
    ck_assert_double_eq_tol(d->ratio_low, ratio_rows[_i].low * 0.9 / 1.1, 1e-9);
    ck_assert_double_eq_tol(d->ratio_high, ratio_rows[_i].high * 1.1 / 0.9, 1e-9);
    ck_assert_uint_eq(d->unknown_count, ratio_rows[_i].unknown);
    ck_assert_int_eq(d->has_unknown_share, ratio_rows[_i].has_share);
    ck_assert_double_eq_tol(d->unknown_percent, ratio_rows[_i].unknown_percent, 1e-9);
    ck_assert_int_eq(d->ratio_verdict, ratio_rows[_i].verdict);
    ck_assert(d->has_least);
    ck_assert_double_eq_tol(d->least_ratio, 1.4, 1e-9);
    const struct derivation *low =
        fixture_derivation(&d->how, "feeding.diet.calcium_to_phosphorus.low");
    ck_assert_int_eq(low != NULL, ratio_rows[_i].has_ratio);
    if (low) {
        ck_assert_double_eq_tol(low->value, ratio_rows[_i].low, 1e-9);
        ck_assert_double_eq(low->inputs[1].value, 10);
        ck_assert_double_eq_tol(low->high, ratio_rows[_i].low * 1.1 / 0.9, 1e-9);
    }
    bool is_short = ratio_rows[_i].verdict == VERDICT_TOO_LOW &&
                    strcmp(ratio_rows[_i].given[0].food, "cricket") != 0;
    ck_assert_int_eq((d->faults & DIET_CALCIUM_SHORT) != 0, is_short);
    const struct review *told = fixture_review(&f, "diet-calcium-short");
    ck_assert_int_eq(told != NULL, is_short);
    if (told)
        ck_assert(fixture_fact(told, "least")->low == d->least_ratio &&
                  fixture_fact(told, "ratio")->low == d->ratio_low &&
                  fixture_fact(told, "ratio")->high == d->ratio_high);
}
END_TEST

/* 10 g of dandelion hold 30 mg of calcium and 10 of phosphorus. */
START_TEST(the_minerals_of_one_food)
{
    const struct portion one[PORTIONS_MOST] = {{"dandelion", 10}};
    const struct diet_plan *d = judged(one, NULL);
    const struct diet_food *food = &d->given[0];
    ck_assert(food->is_listed && food->has_g && food->has_minerals && food->has_ratio &&
              food->has_class && food->is_plant && !food->is_insect && !food->is_never &&
              !food->is_left_out && !food->binds_calcium);
    ck_assert(food->g_day == 10 && food->calcium_mg_day == 30 && food->phosphorus_mg_day == 10 &&
              food->ratio == 3);
    ck_assert_str_eq(food->from.source, "common practice, row 7");
    const struct derivation *calcium = fixture_derivation(&d->how, "feeding.diet.calcium_mg_day"),
                            *phosphorus =
                                fixture_derivation(&d->how, "feeding.diet.phosphorus_mg_day");
    ck_assert(calcium->value == 30 && calcium->inputs[0].value == 10 &&
              calcium->inputs[1].value == 300);
    ck_assert(phosphorus->value == 10 && phosphorus->inputs[1].value == 100);
    const struct derivation *sum = fixture_derivation(&d->how, "feeding.diet.summed.low");
    ck_assert(sum->value == 3 && sum->inputs[0].value == 30 && sum->inputs[1].value == 10);
    const struct derivation *least = fixture_derivation(&d->how, "feeding.diet.least");
    ck_assert(least->inputs[0].value == 1.4 && least->inputs[1].value == 1);
}
END_TEST

START_TEST(an_insects_ratio_is_of_the_table)
{
    const struct portion one[PORTIONS_MOST] = {{"cricket", 10}, {"roach", 10}};
    const struct diet_plan *d = judged(one, NULL);
    ck_assert(d->given[0].is_insect && !d->given[0].is_plant && !d->given[0].has_minerals);
    ck_assert_double_eq(d->given[0].ratio, 0.1);
    ck_assert_str_eq(d->given[0].from.source, "common practice");
    ck_assert_str_eq(fixture_review(&f, "diet-food-no-minerals")->facts->text, "roach");
}
END_TEST

/* Whole prey brings its own bones. */
START_TEST(prey_is_not_judged)
{
    const struct portion one[PORTIONS_MOST] = {{"mouse", 10}};
    const struct diet_plan *d = judged(one, NULL);
    ck_assert(!d->is_judged && !d->has_ratio && !d->has_least && d->faults == 0);
    ck_assert_ptr_null(f.plan.review);
    ck_assert_int_eq(d->never, FOOD_GIVEN_FINE);
    ck_assert_int_eq(d->plants, PLANTS_GIVEN_UNKNOWN);
}
END_TEST

/* A staple from 1.5 to 1 on, now and then from 1 to 1; oxalate is no staple. */
static const struct {
    double calcium_mg;
    bool oxalate;
    int at_most; /* -1: nothing said */
    bool like_says;
    enum food_class wanted;
} class_rows[] = {
    {150, false, -1, false, FOOD_STAPLE},
    {149, false, -1, false, FOOD_NOW_AND_THEN},
    {100, false, -1, false, FOOD_NOW_AND_THEN},
    {99, false, -1, false, FOOD_TREAT},
    {300, true, -1, false, FOOD_NOW_AND_THEN},
    {99, true, -1, false, FOOD_TREAT},
    {300, false, FOOD_TREAT, false, FOOD_TREAT},
    {300, false, FOOD_NOW_AND_THEN, false, FOOD_NOW_AND_THEN},
    {99, false, FOOD_NOW_AND_THEN, false, FOOD_TREAT},
    {300, false, FOOD_STAPLE, false, FOOD_STAPLE},
    {300, false, FOOD_TREAT, true, FOOD_TREAT},
};

START_TEST(how_often_a_plant_may_lie_there)
{
    const struct choice_value flag = fixture_choice(FOOD_OXALATE);
    struct food food = plant("leaf", class_rows[_i].calcium_mg, 100);
    struct food kind = food_of("fruit", FOOD_PLANT, NULL, 0);
    enum food_class made;
    if (class_rows[_i].oxalate)
        food.flags = fixture_list(&f, &flag, 1, sizeof flag);
    if (class_rows[_i].at_most >= 0)
        (class_rows[_i].like_says ? &kind : &food)->at_most =
            fixture_choice(class_rows[_i].at_most);
    if (class_rows[_i].like_says)
        food.like = fixture_text("fruit");
    f.reference.foods = fixture_list(&f, &kind, 1, sizeof kind);
    ck_assert(feeding_food_class(&f.b, &food, &made));
    ck_assert_int_eq(made, class_rows[_i].wanted);
    food.minerals.calcium_mg.known = false;
    ck_assert(!feeding_food_class(&f.b, &food, &made));
    ck_assert(!feeding_food_class(&f.b, &foods[5], &made));
}
END_TEST

/* Half of the plants at least, by mass; what has no class may be all or none of it. */
static const struct {
    struct portion given[PORTIONS_MOST];
    bool known;
    double low, high;
    enum verdict verdict;
    enum plants_given_state plants;
} staple_rows[] = {
    {{{"dandelion", 10}}, true, 100, 100, VERDICT_IN_RANGE, PLANTS_GIVEN_FINE},
    {{{"dandelion", 0}}, true, 100, 100, VERDICT_IN_RANGE, PLANTS_GIVEN_FINE},
    {{{"dandelion", 10}, {"cucumber", 10}}, true, 50, 50, VERDICT_IN_RANGE, PLANTS_GIVEN_FINE},
    {{{"dandelion", 30}, {"cucumber", 31}},
     true,
     3000.0 / 61,
     3000.0 / 61,
     VERDICT_TOO_LOW,
     PLANTS_GIVEN_FEW_STAPLES},
    {{{"banana", 0}}, true, 0, 0, VERDICT_TOO_LOW, PLANTS_GIVEN_CALCIUM_SHORT},
    {{{"dandelion", 0}, {"cucumber", 10}}, false, 0, 0, VERDICT_UNKNOWN, PLANTS_GIVEN_UNKNOWN},
    {{{"dandelion", 10}, {"weeds", 30}}, true, 25, 100, VERDICT_UNKNOWN, PLANTS_GIVEN_UNKNOWN},
    {{{"cucumber", 30}, {"weeds", 10}}, true, 0, 25, VERDICT_TOO_LOW, PLANTS_GIVEN_FEW_STAPLES},
    {{{"dandelion", 30}, {"weeds", 30}}, true, 50, 100, VERDICT_IN_RANGE, PLANTS_GIVEN_FINE},
    {{{"dandelion", 20}, {"cucumber", 10}, {"cricket", 90}},
     true,
     200.0 / 3,
     200.0 / 3,
     VERDICT_IN_RANGE,
     PLANTS_GIVEN_FINE},
    {{{"kale", 10}}, true, 100, 100, VERDICT_IN_RANGE, PLANTS_GIVEN_GOITROGENS},
    {{{"kale", 10}, {"dandelion", 10}}, true, 100, 100, VERDICT_IN_RANGE, PLANTS_GIVEN_FINE},
    {{{"cricket", 10}}, false, 0, 0, VERDICT_UNKNOWN, PLANTS_GIVEN_UNKNOWN},
};

START_TEST(staples_are_half_of_the_plants)
{
    const struct diet_plan *d = judged(staple_rows[_i].given, NULL);
    ck_assert_int_eq(d->has_staples, staple_rows[_i].known);
    ck_assert_double_eq_tol(d->staple_low_percent, staple_rows[_i].low, 1e-9);
    ck_assert_double_eq_tol(d->staple_high_percent, staple_rows[_i].high, 1e-9);
    ck_assert_int_eq(d->staple_verdict, staple_rows[_i].verdict);
    ck_assert_int_eq(d->plants, staple_rows[_i].plants);
    ck_assert_int_eq((d->faults & DIET_FEW_STAPLES) != 0,
                     staple_rows[_i].verdict == VERDICT_TOO_LOW);
    ck_assert_int_eq((d->faults & DIET_GOITROGENS_ALONE) != 0,
                     staple_rows[_i].plants == PLANTS_GIVEN_GOITROGENS);
}
END_TEST

/* What must never be given, the worst of it; a food that no table has is told with its nearest. */
static const struct {
    struct portion given[PORTIONS_MOST];
    int faults;
    enum food_given_state worst;
} never_rows[] = {
    {{{0}}, 0, FOOD_GIVEN_UNKNOWN},
    {{{"mouse", 1}}, 0, FOOD_GIVEN_FINE},
    {{{"dog-food", 1}}, DIET_UNFIT, FOOD_GIVEN_UNFIT},
    {{{"goldfish", 1}}, DIET_THIAMINASE, FOOD_GIVEN_THIAMINASE},
    {{{"avocado", 1}}, DIET_POISON, FOOD_GIVEN_POISON},
    {{{"mouse", 1}, {"dog-food", 1}, {"goldfish", 1}},
     DIET_UNFIT | DIET_THIAMINASE,
     FOOD_GIVEN_THIAMINASE},
    {{{"avocado", 1}, {"goldfish", 1}, {"dog-food", 1}},
     DIET_UNFIT | DIET_THIAMINASE | DIET_POISON,
     FOOD_GIVEN_POISON},
    {{{"fireflies", 1}}, 0, FOOD_GIVEN_FINE}, /* for frogs alone here */
    {{{"unreasoned", 1}}, DIET_UNFIT, FOOD_GIVEN_UNFIT},
};

START_TEST(the_worst_of_what_must_never_be_given)
{
    const struct choice_value frogs = fixture_choice(GROUP_FROG);
    struct food_rule rules[] = {
        {.name = fixture_text("dog-food"), .because = fixture_choice(NEVER_UNFIT)},
        {.name = fixture_text("goldfish"), .because = fixture_choice(NEVER_THIAMINASE)},
        {.name = fixture_text("avocado"), .because = fixture_choice(NEVER_POISON)},
        {.name = fixture_text("fireflies"), .because = fixture_choice(NEVER_POISON)},
        {.name = fixture_text("unreasoned")}};
    for (size_t i = 0; i < COUNT(rules); i++)
        rules[i].source = fixture_text("practice");
    rules[3].whom.groups = fixture_list(&f, &frogs, 1, sizeof frogs);
    f.reference.never_foods = fixture_list(&f, rules, COUNT(rules), sizeof *rules);
    const struct diet_plan *d = judged(never_rows[_i].given, NULL);
    ck_assert_int_eq(d->faults, never_rows[_i].faults);
    ck_assert_int_eq(d->never, never_rows[_i].worst);
    ck_assert_ptr_null(fixture_review(&f, "diet-food-unlisted"));
    if (_i == 2)
        ck_assert(d->given[0].is_listed && d->given[0].is_never && !d->given[0].has_ratio);
}
END_TEST

/* Richer than each food that its sheet lists, both by the whole band of the table (kcal of a gram,
 * invented), or prey where none is listed. What is listed is never richer, and what has no number
 * is not called so. */
static const struct {
    const char *given;
    bool lists_mouse;
    double cricket_kcal, roach_low_kcal;
    bool is_rich;
} rich_rows[] = {
    {"roach", false, 1.2, 2.5, true},    {"roach", false, 1.2, 1.2, false},
    {"roach", false, 0, 2.5, false},     {"roach", false, 1.2, 0, false},
    {"roach", true, 1.2, 1.6, false},    {"roach", true, 1.2, 2.5, true},
    {"cricket", false, 1.2, 2.5, false}, {"mouse", false, 1.2, 2.5, true},
    {"mouse", true, 1.2, 2.5, false},    {"rat", true, 1.2, 2.5, false},
    {"rat", false, 1.2, 2.5, true},      {"kale", false, 1.2, 2.5, false},
};

START_TEST(richer_than_each_listed_food_or_prey_where_none_is)
{
    const struct text_value listed[] = {fixture_text("cricket"), fixture_text("mouse")};
    struct species_feeding_stage stage = {
        .foods = fixture_list(&f, listed, rich_rows[_i].lists_mouse ? 2 : 1, sizeof *listed)};
    foods[4] = food_of("rat", FOOD_PREY, NULL, 0);
    if (rich_rows[_i].cricket_kcal > 0)
        foods[5].kcal_per_g = fixture_cited(1, rich_rows[_i].cricket_kcal);
    if (rich_rows[_i].roach_low_kcal > 0)
        foods[7].kcal_per_g = fixture_cited(rich_rows[_i].roach_low_kcal, 3);
    foods[8].kcal_per_g = fixture_cited(1.5, 1.7);
    f.reference.foods = fixture_list(&f, foods, COUNT(foods), sizeof *foods);
    const struct diet_plan *d = judged((struct portion[3]){{rich_rows[_i].given, 0}}, &stage);
    ck_assert_uint_eq(d->given_count, 1);
    ck_assert_int_eq(d->given[0].is_rich, rich_rows[_i].is_rich);
}
END_TEST

/* Whichever of three it is. */
START_TEST(one_rich_food_among_others_is_told)
{
    const struct text_value listed = fixture_text("cricket");
    struct species_feeding_stage stage = {.foods = fixture_list(&f, &listed, 1, sizeof listed)};
    struct portion three[PORTIONS_MOST] = {{"cricket", 0}, {"cricket", 0}, {"cricket", 0}};
    f.species.diet = fixture_choice(DIET_INSECTS);
    if (_i < PORTIONS_MOST)
        three[_i].food = "mouse";
    const struct diet_plan *d = judged(three, &stage);
    ck_assert_uint_eq(d->given_count, PORTIONS_MOST);
    ck_assert_int_eq(d->never, _i < PORTIONS_MOST ? FOOD_GIVEN_RICH : FOOD_GIVEN_FINE);
}
END_TEST

START_TEST(a_food_of_no_table_is_told_with_its_nearest)
{
    const struct portion one[PORTIONS_MOST] = {{"dandelions", 10}, {"kale", 1}};
    const struct diet_plan *d = judged(one, NULL);
    ck_assert(!d->given[0].is_listed && d->given[1].is_listed);
    const struct review *told = fixture_review(&f, "diet-food-unlisted");
    ck_assert_str_eq(fixture_fact(told, "food")->text, "dandelions");
    ck_assert_str_eq(fixture_fact(told, "nearest")->text, "dandelion");
    ck_assert_uint_eq(d->unknown_count, 1);
}
END_TEST

/* Of a stage that is fed several kinds of insects, all that is given is one. */
static const struct {
    struct portion given[PORTIONS_MOST];
    size_t offered; /* kinds that the stage names; 0: no stage */
    bool one;
} kind_rows[] = {
    {{{"cricket", 1}}, 2, true},
    {{{"cricket", 1}, {"cricket", 2}}, 2, true},
    {{{"cricket", 1}, {"roach", 1}}, 2, false},
    {{{"dandelion", 1}, {"roach", 1}}, 2, true},
    {{{"cricket", 1}, {"unheard", 1}}, 2, false},
    {{{"dandelion", 1}}, 2, false},
    {{{"cricket", 1}}, 1, false},
    {{{"cricket", 1}}, 0, false},
    {{{0}}, 2, false},
};

START_TEST(one_kind_of_insect_alone)
{
    const struct text_value codes[] = {foods[0].name, foods[5].name, foods[7].name};
    struct species_feeding_stage stage = {0};
    stage.foods = fixture_list(&f, codes, 1 + kind_rows[_i].offered, sizeof *codes);
    const struct diet_plan *d = judged(kind_rows[_i].given, kind_rows[_i].offered ? &stage : NULL);
    ck_assert_int_eq((d->faults & DIET_ONE_INSECT) != 0, kind_rows[_i].one);
}
END_TEST

START_TEST(without_a_diet_of_its_kind_no_least_is_known)
{
    const struct portion one[PORTIONS_MOST] = {{"banana", 10}};
    f.species.diet.known = false;
    const struct diet_plan *d = judged(one, NULL);
    ck_assert(!d->has_least && d->has_ratio);
    ck_assert_int_eq(d->ratio_verdict, VERDICT_UNKNOWN);
}
END_TEST

/* The kinds of the stage, the most calcium first; four that may stand alone. */
START_TEST(plants_stand_by_their_calcium)
{
    struct food many[] = {
        plant("a", 150, 100), plant("b", 400, 100), plant("c", 300, 100),
        plant("d", 120, 100), plant("e", 160, 100), plant("g", 50, 100),
        plant("h", 200, 100), plant("i", 500, 100), food_of("greens", FOOD_PLANT, NULL, 0)};
    const struct choice_value goitrogen = fixture_choice(FOOD_GOITROGEN);
    const struct text_value kind = fixture_text("greens");
    struct species_feeding_stage stage = {0};
    for (size_t i = 0; i < 8; i++)
        many[i].like = kind;
    many[7].like = fixture_text("fruit"); /* the stage names none */
    many[1].flags = fixture_list(&f, &goitrogen, 1, sizeof goitrogen);
    f.reference.foods = fixture_list(&f, many, COUNT(many), sizeof *many);
    stage.foods = fixture_list(&f, &kind, 1, sizeof kind);
    feeding_plan_classes(&f.b, &stage);
    static const char *const staples[] = {"b", "c", "h", "e", "a"}, *const best[] = {"c", "h", "e",
                                                                                     "a"};
    const struct diet_plan *d = &feeding()->diet_now;
    ck_assert_uint_eq(d->by_class[FOOD_STAPLE].count, COUNT(staples));
    for (size_t i = 0; i < COUNT(staples); i++)
        ck_assert_str_eq(d->by_class[FOOD_STAPLE].foods[i], staples[i]);
    ck_assert_uint_eq(d->by_class[FOOD_NOW_AND_THEN].count, 1);
    ck_assert_str_eq(d->by_class[FOOD_NOW_AND_THEN].foods[0], "d");
    ck_assert_uint_eq(d->by_class[FOOD_TREAT].count, 1);
    ck_assert_str_eq(d->by_class[FOOD_TREAT].foods[0], "g");
    ck_assert_uint_eq(d->best.count, COUNT(best));
    for (size_t i = 0; i < COUNT(best); i++)
        ck_assert_str_eq(d->best.foods[i], best[i]);
    tear_down();
    set_up();
    feeding_plan_classes(&f.b, NULL);
    ck_assert_uint_eq(feeding()->diet_now.by_class[FOOD_STAPLE].count, 0);
}
END_TEST

/* Rules for what it is fed: by what its stages name, else by its kind of diet. */
static const struct {
    enum diet_kind diet;
    enum food_kind eats;
    bool fed;
} eats_rows[] = {
    {DIET_WHOLE_PREY, FOOD_PREY, true},  {DIET_WHOLE_PREY, FOOD_INSECT, false},
    {DIET_INSECTS, FOOD_INSECT, true},   {DIET_INSECTS, FOOD_PLANT, false},
    {DIET_PLANTS, FOOD_PLANT, true},     {DIET_PLANTS, FOOD_PREY, false},
    {DIET_MIXED, FOOD_INSECT, true},     {DIET_MIXED, FOOD_PLANT, true},
    {DIET_MIXED, FOOD_PREY, false},      {DIET_FRUIT_MIX, FOOD_INSECT, true},
    {DIET_FRUIT_MIX, FOOD_PLANT, false}, {DIET_AQUATIC, FOOD_PREPARED, true},
    {DIET_AQUATIC, FOOD_INSECT, false},
};

START_TEST(rules_are_for_what_it_is_fed)
{
    const struct choice_value eats = fixture_choice((int)eats_rows[_i].eats);
    const struct list kinds = fixture_list(&f, &eats, 1, sizeof eats);
    const struct food_rule never[] = {
        {.name = fixture_text("for-all"), .source = fixture_text("practice")},
        {.name = fixture_text("when-given"), .when_given = fixture_flag(true)},
        {.name = fixture_text("of-the-kind"), .eats = kinds, .source = fixture_text("unheard")}};
    const struct food_rule sizes[] = {
        {.name = fixture_text("first"), .eats = kinds, .source = fixture_text("practice")},
        {.name = fixture_text("second"), .source = fixture_text("practice")}};
    f.reference.never_foods = fixture_list(&f, never, 3, sizeof *never);
    f.reference.food_sizes = fixture_list(&f, sizes, 2, sizeof *sizes);
    f.species.diet = fixture_choice((int)eats_rows[_i].diet);
    for (int staged = 0; staged < 2; staged++) {
        feeding()->never_count = 0;
        feeding()->size_rule = NULL;
        if (staged) { /* what its stages name goes before: plants alone */
            struct species_feeding_stage stages[2] = {0};
            stages[1].foods = fixture_list(&f, &foods[0].name, 1, sizeof foods[0].name);
            feed_by(stages, 2);
        }
        bool fed = staged ? eats_rows[_i].eats == FOOD_PLANT : eats_rows[_i].fed;
        feeding_plan_rules(&f.b);
        ck_assert_uint_eq(feeding()->never_count, fed ? 2 : 1);
        ck_assert_str_eq(feeding()->never[0].code, "for-all");
        ck_assert_str_eq(feeding()->never[0].from.source, "common practice");
        if (fed)
            ck_assert_str_eq(feeding()->never[1].from.source, "unheard");
        ck_assert_str_eq(feeding()->size_rule, fed ? "first" : "second");
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("given_diet");
    TCase *tests = tcase_create("given_diet");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, calcium_by_phosphorus_of_the_whole, 0, COUNT(ratio_rows));
    tcase_add_test(tests, the_minerals_of_one_food);
    tcase_add_test(tests, an_insects_ratio_is_of_the_table);
    tcase_add_test(tests, prey_is_not_judged);
    tcase_add_loop_test(tests, how_often_a_plant_may_lie_there, 0, COUNT(class_rows));
    tcase_add_loop_test(tests, staples_are_half_of_the_plants, 0, COUNT(staple_rows));
    tcase_add_loop_test(tests, the_worst_of_what_must_never_be_given, 0, COUNT(never_rows));
    tcase_add_loop_test(tests, richer_than_each_listed_food_or_prey_where_none_is, 0,
                        COUNT(rich_rows));
    tcase_add_loop_test(tests, one_rich_food_among_others_is_told, 0, PORTIONS_MOST + 1);
    tcase_add_test(tests, a_food_of_no_table_is_told_with_its_nearest);
    tcase_add_loop_test(tests, one_kind_of_insect_alone, 0, COUNT(kind_rows));
    tcase_add_test(tests, without_a_diet_of_its_kind_no_least_is_known);
    tcase_add_test(tests, plants_stand_by_their_calcium);
    tcase_add_loop_test(tests, rules_are_for_what_it_is_fed, 0, COUNT(eats_rows));
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
