/* What a finding makes of the usual meals. All is worked out by hand for a snake of 600 g with an
 * adult's meal of 5-10 % (30-60 g) every 10-14 days, or a lizard with 6-12 insects. That a diet
 * waits half as long again and never gives more than now, that a small meal is half of the usual
 * and that a thin animal is built up by quarters within two weeks is common practice, no source. */
#include "common/suite.h"

#include "care/feeding.h"
#include "care/feeding_fixture.h"
#include "care/intake.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static struct species_feeding_stage stage;

static void set_up(void)
{
    const struct food_size sizes[] = {sized("pinky", 1, 2), sized("adult", 20, 30)};
    fixture_init(&f);
    stage = (struct species_feeding_stage){.meal_percent = fixture_cited(5, 10)};
    const struct food mouse = food_of("mouse", FOOD_PREY, sizes, 2);
    give_foods(&stage, &mouse, 1);
    weigh(600);
    *feeding() = (struct feeding_plan){.diet = DIET_WHOLE_PREY,
                                       .has_meal = true,
                                       .meal_low_g = 30,
                                       .meal_high_g = 60,
                                       .every_low_days = 10,
                                       .every_high_days = 14,
                                       .usual_low_days = 10,
                                       .usual_high_days = 14,
                                       .fast_limit_days = 60};
}

static void eats_insects(int low, int high, double low_days, double high_days)
{
    struct feeding_plan *p = feeding();
    p->diet = DIET_INSECTS;
    p->has_meal = false;
    p->meal_low_g = p->meal_high_g = 0;
    p->has_insects = true;
    p->insects_low = low;
    p->insects_high = high;
    p->every_low_days = p->usual_low_days = low_days;
    p->every_high_days = p->usual_high_days = high_days;
}

/* So many grams a day at this interval; 0 days: nobody knows how often. */
static void now_eats(double g_day, double days)
{
    feeding()->now = (struct feeding_now){.has_g = g_day > 0, .g_day = g_day};
    feeding()->has_interval_now = days > 0;
    feeding()->interval_now_days = days;
}

static void now_counts(double a_day, double days)
{
    feeding()->now = (struct feeding_now){.has_count = a_day > 0, .count_day = a_day};
    feeding()->has_interval_now = days > 0;
    feeding()->interval_now_days = days;
}

static void settle(const char *stance)
{
    fixture_settle(&f, "food", stance, "finding:overweight");
    feeding_apply_stance(&f.b, &stage);
}

static void meal_is(double low_g, double high_g)
{
    ck_assert_double_eq_tol(feeding()->meal_low_g, low_g, 1e-9);
    ck_assert_double_eq_tol(feeding()->meal_high_g, high_g, 1e-9);
}

static void pieces_are(int low, int high)
{
    ck_assert_int_eq(feeding()->insects_low, low);
    ck_assert_int_eq(feeding()->insects_high, high);
}

static void days_are(double low, double high)
{
    ck_assert_double_eq(feeding()->every_low_days, low);
    ck_assert_double_eq(feeding()->every_high_days, high);
}

/* Each input of a derivation, in order; the last name is NULL. */
struct input {
    const char *name;
    double value;
};

static void derived_is(const char *what, double value, const struct input *inputs, size_t count)
{
    const struct derivation *made = fixture_derivation(&feeding()->how, what);
    ck_assert_msg(made != NULL, "%s", what);
    ck_assert_double_eq_tol(made->value, value, 1e-9);
    ck_assert_uint_eq(made->input_count, count);
    for (size_t i = 0; i < count; i++) {
        ck_assert_str_eq(made->inputs[i].name, inputs[i].name);
        ck_assert_double_eq_tol(made->inputs[i].value, inputs[i].value, 1e-9);
    }
}

#define DERIVED_IS(what, value, ...)                                                               \
    derived_is(what, value, (const struct input[]){__VA_ARGS__},                                   \
               COUNT(((const struct input[]){__VA_ARGS__})))

/* ---- a small meal ---- */

static const struct {
    double now_g; /* 0: nobody knows */
    double low_g, high_g;
} small_rows[] = {{0, 15, 30}, {40, 15, 20}, {20, 10, 10}, {80, 15, 30}};

START_TEST(a_small_meal_is_half_of_the_usual_or_of_what_it_eats_now)
{
    const double now_g = small_rows[_i].now_g;
    feeding()->has_meal_now = now_g > 0;
    feeding()->meal_now_g = now_g;
    settle("small");
    meal_is(small_rows[_i].low_g, small_rows[_i].high_g);
    days_are(10, 14);
    ck_assert_int_eq(feeding()->change, FEEDING_NO_LARGE_MEAL);
    ck_assert_str_eq(feeding()->change_from, "overweight");
    ck_assert(!feeding()->paused);
    DERIVED_IS("feeding.share_of_meal_g", small_rows[_i].high_g,
               {"usual", small_rows[_i].high_g * 2}, {"share", 50});
}
END_TEST

/* Of the usual 10 to 14 days half is the least that smaller meals may come in: what is rarer than
 * the half, or just that, stays. */
START_TEST(small_meals_come_no_more_often_than_twice_as_usual)
{
    static const double rows[][4] = {{5, 6, 5, 6}, {4, 6, 10, 14}, {9, 20, 9, 20}};
    feeding()->every_low_days = rows[_i][0];
    feeding()->every_high_days = rows[_i][1];
    settle("small");
    days_are(rows[_i][2], rows[_i][3]);
}
END_TEST

static const struct {
    int low, high;
    double a_day, days;
    int few, many;
} half_rows[] = {{5, 10, 0, 0, 2, 5}, {5, 10, 1, 4, 2, 2}, {5, 10, 1, 1, 1, 1},  {1, 1, 0, 0, 1, 1},
                 {5, 10, 3, 9, 2, 5}, {5, 10, 1, 0, 2, 5}, {4, 10, 1.1, 7, 2, 4}};

START_TEST(half_of_the_insects_is_one_at_least)
{
    eats_insects(half_rows[_i].low, half_rows[_i].high, 2, 3);
    now_counts(half_rows[_i].a_day, half_rows[_i].days);
    feeding()->beside.is_known = true;
    feeding()->beside.low = 4;
    feeding()->beside.high = 9;
    settle("restart");
    pieces_are(half_rows[_i].few, half_rows[_i].many);
    ck_assert_int_eq(feeding()->beside.low, 2);
    ck_assert_int_eq(feeding()->beside.high, 4);
    ck_assert_ptr_null(fixture_derivation(&feeding()->how, "feeding.share_of_meal_g"));
}
END_TEST

START_TEST(of_one_insect_beside_one_is_left)
{
    feeding()->beside.is_known = true;
    feeding()->beside.low = feeding()->beside.high = 1;
    settle("small");
    ck_assert_int_eq(feeding()->beside.low, 1);
    ck_assert_int_eq(feeding()->beside.high, 1);
}
END_TEST

/* A diet cuts the insects beside a mix as it cuts the mix: of the usual 6-12 two thirds where
 * nobody knows what it gets, else from two thirds of now to all of it, on its days or the usual
 * ones where those are rarer; 0.25 a day is one on each fourth day. Who gets none now gets none. */
static const struct {
    double a_day, interval_days, usual_days;
    int low, high;
    double every_days;
} beside_rows[] = {
    {0, 0, 1, 6, 8, 1}, {3, 2, 1, 4, 6, 2},   {3, 1, 2, 4, 6, 2},  {0.25, 1, 1, 1, 1, 4},
    {6, 1, 1, 4, 6, 1}, {20, 1, 1, 4, 12, 1}, {3, 4, 2, 4, 12, 4},
};

START_TEST(a_diet_gives_fewer_insects_beside)
{
    static const enum diet_kind diets[] = {DIET_FRUIT_MIX, DIET_PLANTS, DIET_MIXED};
    for (size_t i = 0; i < COUNT(diets); i++) {
        struct feeding_plan *p = feeding();
        p->diet = diets[i];
        p->beside = (struct feeding_beside){.is_known = true,
                                            .low = 6,
                                            .high = 12,
                                            .every_low_days = beside_rows[_i].usual_days,
                                            .every_high_days = beside_rows[_i].usual_days};
        p->beside_now.has_count = p->beside_now.is_given = beside_rows[_i].a_day > 0;
        p->beside_now.count_day = beside_rows[_i].a_day;
        p->beside_now.interval_days = beside_rows[_i].interval_days;
        settle("less");
        ck_assert(p->beside.is_known);
        ck_assert_int_eq(p->beside.low, beside_rows[_i].low);
        ck_assert_int_eq(p->beside.high, beside_rows[_i].high);
        ck_assert_double_eq(p->beside.every_low_days, beside_rows[_i].every_days);
        ck_assert_double_eq(p->beside.every_high_days, beside_rows[_i].every_days);
    }
}
END_TEST

/* Who has to eat more gets them no more seldom than now, and no fewer a day. */
START_TEST(more_insects_beside_come_no_more_seldom)
{
    static const struct {
        double a_day, interval_days;
        int low, high;
        double every_days;
    } rows[] = {{8, 1, 9, 12, 1}, {8, 2, 16, 16, 2}, {8, 5, 24, 24, 3}, {0, 0, 9, 12, 3}};
    struct feeding_plan *p = feeding();
    p->beside = (struct feeding_beside){.is_known = true, .low = 6, .high = 12};
    p->beside_now.has_count = rows[_i].a_day > 0;
    p->beside_now.count_day = rows[_i].a_day;
    p->beside_now.interval_days = rows[_i].interval_days;
    feeding_more_beside(&f.b, 3);
    ck_assert_int_eq(p->beside.low, rows[_i].low);
    ck_assert_int_eq(p->beside.high, rows[_i].high);
    ck_assert_double_eq(p->beside.every_low_days, rows[_i].every_days);
}
END_TEST

/* ---- a diet ---- */

/* From two thirds of what it eats now to all of it, at an interval half as long again. */
static const struct {
    const char *what;
    double g_day, interval_days, fast_limit_days, usual_high_days, goal_g, lightest_g;
    double days, low_g, high_g;
} diet_rows[] = {
    {"40 g each 10 days", 4, 10, 60, 14, 0, 2, 15, 40, 60},
    {"a goal of 500 g", 4, 10, 60, 14, 500, 2, 15, 40, 50},
    {"a goal of 300 g", 4, 10, 60, 14, 300, 2, 15, 30, 30},
    {"ten days and a half", 1, 7, 60, 14, 0, 2, 11, 22.0 / 3, 11},
    {"never sooner than usual", 1, 5, 60, 14, 0, 2, 10, 20.0 / 3, 10},
    {"its limit without food", 4, 10, 14, 12, 0, 2, 14, 112.0 / 3, 56},
    {"a limit of whole days", 4, 10, 14.9, 12, 0, 2, 14, 112.0 / 3, 56},
    {"a limit no longer than usual says nothing", 4, 10, 14, 14, 0, 2, 15, 40, 60},
    {"it waits longer already", 2, 20, 14, 12, 0, 2, 20, 80.0 / 3, 40},
    {"the lightest prey is heavier", 1, 7, 60, 14, 0, 30, 30, 20, 30},
    {"the lightest prey is as heavy", 2, 10, 60, 14, 0, 30, 15, 20, 30},
};

START_TEST(a_diet_waits_longer_and_gives_no_more_than_now)
{
    const struct food_size size = sized("only", 1, diet_rows[_i].lightest_g);
    const struct food mouse = food_of("mouse", FOOD_PREY, &size, 1);
    give_foods(&stage, &mouse, 1);
    now_eats(diet_rows[_i].g_day, diet_rows[_i].interval_days);
    feeding()->fast_limit_days = diet_rows[_i].fast_limit_days;
    feeding()->usual_high_days = diet_rows[_i].usual_high_days;
    f.plan.weight.has_goal = diet_rows[_i].goal_g > 0;
    f.plan.weight.goal_g = diet_rows[_i].goal_g;
    settle("less");
    days_are(diet_rows[_i].days, diet_rows[_i].days);
    meal_is(diet_rows[_i].low_g, diet_rows[_i].high_g);
    ck_assert_int_eq(feeding()->change, FEEDING_LONGER_INTERVAL);
    ck_assert_str_eq(feeding()->every_from.because, "overweight");
    ck_assert_ptr_null(fixture_review(&f, "intake-unknown"));
    DERIVED_IS("feeding.most_meal_g", diet_rows[_i].g_day * diet_rows[_i].days,
               {"now", diet_rows[_i].g_day}, {"interval", diet_rows[_i].days});
    DERIVED_IS("feeding.every_days.high", diet_rows[_i].days,
               {"usual", diet_rows[_i].interval_days}, {"times", 1.5}, {"usual-low", 10},
               {"fast-limit", diet_rows[_i].fast_limit_days}, {"lowest", diet_rows[_i].days});
    if (diet_rows[_i].goal_g > 0)
        DERIVED_IS("feeding.goal_meal_g", diet_rows[_i].goal_g / 10, {"goal", diet_rows[_i].goal_g},
                   {"share", 10});
}
END_TEST

START_TEST(only_prey_with_sizes_has_a_lightest)
{
    const struct food_size size = sized("only", 10, 100);
    const struct food foods[] = {food_of("cricket", FOOD_INSECT, &size, 1),
                                 food_of("egg", FOOD_PREY, NULL, 0)};
    give_foods(&stage, foods, 2);
    now_eats(1, 10);
    settle("less");
    days_are(15, 15); /* 15 g are no less than anything */
}
END_TEST

START_TEST(of_two_kinds_of_prey_the_lighter_counts)
{
    const struct food_size small = sized("only", 10, 20), large = sized("only", 30, 40);
    const struct food foods[] = {food_of("rat", FOOD_PREY, &large, 1),
                                 food_of("mouse", FOOD_PREY, &small, 1)};
    give_foods(&stage, foods, 2);
    now_eats(1, 10);
    settle("less");
    days_are(20, 20); /* 20 g at 1 g a day */
}
END_TEST

/* Where nobody knows what it eats now. */
static const struct {
    double interval_days, fast_limit_days, goal_g;
    double low_days, high_days, low_g, high_g;
} unknown_rows[] = {
    {0, 60, 0, 15, 21, 30, 60},    {0, 60, 500, 15, 21, 25, 50}, {20, 60, 0, 20, 30, 30, 60},
    {0, 18, 0, 15, 18, 30, 60},    {20, 18, 0, 20, 20, 30, 60},  {0, 60, 600, 15, 21, 30, 60},
    {12, 60, 700, 15, 21, 30, 60},
};

START_TEST(a_diet_of_unknown_meals_waits_longer_than_usual)
{
    now_eats(0, unknown_rows[_i].interval_days);
    feeding()->fast_limit_days = unknown_rows[_i].fast_limit_days;
    f.plan.weight.has_goal = unknown_rows[_i].goal_g > 0;
    f.plan.weight.goal_g = unknown_rows[_i].goal_g;
    settle("less");
    days_are(unknown_rows[_i].low_days, unknown_rows[_i].high_days);
    meal_is(unknown_rows[_i].low_g, unknown_rows[_i].high_g);
    ck_assert_str_eq(fixture_review(&f, "intake-unknown")->facts->text, "overweight");
    /* and how the longest of them was worked out is told */
    const struct derivation *made = fixture_derivation(&feeding()->how, "feeding.every_days.high");
    ck_assert_ptr_nonnull(made);
    ck_assert_double_eq(made->high, unknown_rows[_i].high_days);
}
END_TEST

/* Of what comes in no known amount, beside plants, the days stay, or those of now where rarer. */
START_TEST(a_mixed_diet_of_unknown_amounts_keeps_its_days)
{
    static const double rows[][3] = {{0, 10, 14}, {12, 12, 14}, {20, 20, 20}, {7, 10, 14}};
    feeding()->diet = DIET_MIXED;
    feeding()->has_meal = false;
    now_eats(0, rows[_i][0]);
    settle("less");
    days_are(rows[_i][1], rows[_i][2]);
    ck_assert_ptr_nonnull(fixture_review(&f, "intake-unknown"));
    ck_assert_str_eq(feeding()->every_from.because, "overweight");
}
END_TEST

/* Insects beside plants in no usual amount: as many in those days as it eats now at most, and so
 * many times fewer at least; never less than one, for which it waits. */
START_TEST(fewer_insects_than_now_of_no_usual_amount)
{
    static const struct {
        double a_day, interval_days, times;
        int low, high;
        double days;
    } rows[] = {
        {4, 3, 1.5, 8, 12, 3}, {4, 3, 2, 6, 12, 3}, {0.25, 2, 2, 1, 1, 4}, {1, 1, 2, 1, 1, 1}};
    struct feeding_plan *p = feeding();
    p->diet = DIET_MIXED;
    p->has_meal = p->has_insects = false;
    p->has_interval_now = p->now.has_count = true;
    p->interval_now_days = rows[_i].interval_days;
    p->now.count_day = rows[_i].a_day;
    ck_assert(feeding_less_than_present(&f.b, rows[_i].times));
    ck_assert(p->has_insects && !p->has_meal);
    ck_assert_int_eq(p->insects_low, rows[_i].low);
    ck_assert_int_eq(p->insects_high, rows[_i].high);
    days_are(rows[_i].days, rows[_i].days);
}
END_TEST

/* A thin one is given no fewer than now: a part of an insect is another insect. */
START_TEST(as_many_insects_as_now_of_no_usual_amount)
{
    static const struct {
        double a_day, interval_days, usual_days;
        int pieces;
        double days;
    } rows[] = {{1.25, 2, 7, 3, 2}, {4, 3, 7, 12, 3}, {1.25, 4, 2, 3, 2}, {0.25, 2, 7, 1, 2}};
    struct feeding_plan *p = feeding();
    p->diet = DIET_MIXED;
    p->has_meal = p->has_insects = false;
    p->has_interval_now = p->now.has_count = true;
    p->interval_now_days = rows[_i].interval_days;
    p->every_low_days = p->every_high_days = rows[_i].usual_days;
    p->now.count_day = rows[_i].a_day;
    feeding_present_or_more(&f.b);
    ck_assert(p->has_insects && !p->has_meal);
    ck_assert_int_eq(p->insects_low, rows[_i].pieces);
    ck_assert_int_eq(p->insects_high, rows[_i].pieces);
    days_are(rows[_i].days, rows[_i].days);
}
END_TEST

START_TEST(the_limit_without_food_is_of_the_whole_food)
{
    feeding()->diet = _i ? DIET_AQUATIC : DIET_INSECTS;
    feeding()->fast_limit_days = 16;
    settle("less");
    days_are(15, _i ? 16 : 21);
}
END_TEST

START_TEST(plants_are_never_cut_down)
{
    feeding()->diet = DIET_PLANTS;
    settle("less");
    days_are(10, 14);
    meal_is(30, 60);
    ck_assert_int_eq(feeding()->change, FEEDING_AS_USUAL);
    ck_assert_str_eq(fixture_review(&f, "interval-kept-for-plants")->facts->text, "overweight");
}
END_TEST

/* Insects: as often as now, two thirds of now to all of it, never none. */
static const struct {
    double a_day, days;
    double every_days;
    int low, high;
    double most;
} fewer_rows[] = {
    {3, 2, 2, 4, 6, 6},    {0.2, 2, 5, 1, 1, 1},  {10, 1, 1, 7, 10, 10},
    {20, 1, 1, 8, 12, 12}, {0.25, 1, 4, 1, 1, 1}, {1, 7, 7, 5, 7, 7},
};

START_TEST(a_diet_of_insects_keeps_its_days)
{
    eats_insects(6, 12, 2, 3);
    now_counts(fewer_rows[_i].a_day, fewer_rows[_i].days);
    settle("less");
    pieces_are(fewer_rows[_i].low, fewer_rows[_i].high);
    days_are(fewer_rows[_i].every_days, fewer_rows[_i].every_days);
    ck_assert_ptr_null(fixture_review(&f, "intake-unknown"));
    DERIVED_IS("feeding.insects.high", fewer_rows[_i].high, {"most", fewer_rows[_i].most});
}
END_TEST

START_TEST(of_unknown_insects_two_thirds_of_the_usual)
{
    eats_insects(6, 12, 2, 3);
    now_counts(_i ? 5 : 0, _i ? 0 : 2);
    settle("less");
    pieces_are(4, 8);
    days_are(2, 3);
    ck_assert_ptr_nonnull(fixture_review(&f, "intake-unknown"));
}
END_TEST

/* ---- built up ---- */

static const struct {
    double g_day, interval_days, goal_g;
    double days, low_g, high_g, least_g;
} up_rows[] = {
    {2, 7, 0, 7, 21, 42, 14},   /* 30-60 g each 10 days are 21-42 g each 7 */
    {2, 7, 800, 7, 28, 56, 14}, /* of a goal of 800 g: 40-80 g each 10 days */
    {2, 7, 600, 7, 21, 42, 14}, /* a goal that is reached */
    {2, 7, 500, 7, 21, 42, 14}, /* or passed */
    {2, 20, 0, 10, 30, 60, 20}, /* it waits too long */
    {2, 0, 0, 10, 30, 60, 20},
};

START_TEST(a_thin_snake_is_built_up_by_quarters)
{
    now_eats(up_rows[_i].g_day, up_rows[_i].interval_days);
    f.plan.weight.has_goal = up_rows[_i].goal_g > 0;
    f.plan.weight.goal_g = up_rows[_i].goal_g;
    settle("build-up");
    days_are(up_rows[_i].days, up_rows[_i].days);
    meal_is(up_rows[_i].low_g, up_rows[_i].high_g);
    ck_assert(feeding()->is_rising);
    ck_assert_double_eq(feeding()->least_meal_g, up_rows[_i].least_g);
    ck_assert_double_eq(feeding()->least_insects, 0);
    ck_assert_double_eq(feeding()->start_percent, 25);
    ck_assert_double_eq(feeding()->start_days, 14);
    ck_assert_int_eq(feeding()->start_from.origin, ORIGIN_REFERENCE);
    const struct review *told = fixture_review(&f, "build-up-share");
    ck_assert_double_eq(fixture_fact(told, "share")->low, 25);
    ck_assert_double_eq(fixture_fact(told, "days")->high, 14);
    DERIVED_IS("feeding.every_days.high", up_rows[_i].days, {"usual-low", 10},
               {"now", up_rows[_i].interval_days});
    if (up_rows[_i].goal_g > 600)
        DERIVED_IS("feeding.goal_meal_g", up_rows[_i].goal_g / 10, {"goal", up_rows[_i].goal_g},
                   {"share", 10});
    else
        ck_assert_ptr_null(fixture_derivation(&feeding()->how, "feeding.goal_meal_g"));
}
END_TEST

/* The veterinarian's own start, either half of it. */
START_TEST(the_veterinarian_says_how_it_begins)
{
    now_eats(2, 10);
    if (_i != 1)
        f.visit.targets.start_percent = fixture_quantity(40);
    if (_i != 0)
        f.visit.targets.start_days = fixture_quantity(_i == 2 ? 0.5 : 10);
    settle("build-up");
    ck_assert_double_eq(feeding()->start_percent, _i == 1 ? 25 : 40);
    ck_assert_double_eq(feeding()->start_days, _i == 0 ? 14 : _i == 1 ? 10 : 1);
    ck_assert_int_eq(feeding()->start_from.origin, ORIGIN_VETERINARIAN);
    ck_assert_ptr_null(fixture_review(&f, "build-up-share"));
}
END_TEST

START_TEST(a_thin_snake_of_unknown_meals_does_not_rise)
{
    now_eats(0, 7);
    settle("build-up");
    ck_assert(!feeding()->is_rising);
    days_are(7, 7);
    meal_is(21, 42);
    ck_assert_double_eq(feeding()->least_meal_g, 0);
    ck_assert_double_eq(feeding()->start_percent, 0);
    ck_assert_ptr_nonnull(fixture_review(&f, "intake-unknown"));
}
END_TEST

/* 5-10 insects each second day are 3-5 each day; it eats three a day now. */
START_TEST(a_thin_lizard_is_built_up_by_pieces)
{
    eats_insects(5, 10, 2, 3);
    now_counts(_i ? 0 : 3, 1);
    settle("build-up");
    days_are(1, 1);
    pieces_are(2, 5);
    ck_assert_int_eq(feeding()->is_rising, !_i);
    ck_assert_double_eq(feeding()->least_insects, _i ? 0 : 3);
    ck_assert_double_eq(feeding()->least_meal_g, 0);
    ck_assert_int_eq(fixture_review(&f, "intake-unknown") != NULL, _i);
}
END_TEST

/* ---- as usual, of a thin one ---- */

static const struct {
    double g_day;
    double low_g, high_g, high_days;
} thin_rows[] = {{0, 45, 60, 14}, {2, 45, 60, 14}, {45.0 / 14, 45, 60, 14}, {4, 45, 60, 11},
                 {5, 50, 60, 10}, {7, 70, 70, 10}, {6, 60, 60, 10}};

START_TEST(a_thin_snake_gets_the_upper_half_and_no_less_than_now)
{
    const struct finding_plan thin = {.code = _i % 2 ? "underweight" : "thin-tail",
                                      .severity = SEVERITY_MILD};
    found(&thin, 1);
    now_eats(thin_rows[_i].g_day, 7);
    settle("as-usual");
    meal_is(thin_rows[_i].low_g, thin_rows[_i].high_g);
    days_are(10, thin_rows[_i].high_days);
    ck_assert_int_eq(feeding()->change, FEEDING_AS_USUAL);
}
END_TEST

static const struct {
    double a_day;
    int low, high;
    double high_days;
} thin_pieces_rows[] = {{0, 8, 10, 3}, {2, 8, 10, 3}, {4, 8, 10, 2}, {6, 12, 12, 2}};

START_TEST(a_thin_lizard_gets_the_upper_half_and_no_less_than_now)
{
    const struct finding_plan thin = {.code = "underweight", .severity = SEVERITY_MILD};
    found(&thin, 1);
    eats_insects(5, 10, 2, 3);
    now_counts(thin_pieces_rows[_i].a_day, 1);
    settle("as-usual");
    pieces_are(thin_pieces_rows[_i].low, thin_pieces_rows[_i].high);
    days_are(2, thin_pieces_rows[_i].high_days);
}
END_TEST

/* So do the insects beside a mix: of the usual 6 to 12 each third day the upper half, and no fewer
 * a day than the eight of now. */
START_TEST(a_thin_one_gets_no_fewer_insects_beside)
{
    static const struct {
        double a_day;
        int low, high;
    } rows[] = {{0, 9, 12}, {8, 24, 24}};
    const struct finding_plan thin = {.code = "underweight", .severity = SEVERITY_MILD};
    struct feeding_plan *p = feeding();
    found(&thin, 1);
    p->beside = (struct feeding_beside){
        .is_known = true, .low = 6, .high = 12, .every_low_days = 3, .every_high_days = 3};
    p->beside_now.has_count = rows[_i].a_day > 0;
    p->beside_now.count_day = rows[_i].a_day;
    settle("as-usual");
    ck_assert_int_eq(p->beside.low, rows[_i].low);
    ck_assert_int_eq(p->beside.high, rows[_i].high);
}
END_TEST

START_TEST(who_is_not_thin_eats_as_usual)
{
    const struct finding_plan findings[] = {{.code = "underweight", .severity = SEVERITY_NORMAL},
                                            {.code = "burn", .severity = SEVERITY_SEVERE}};
    found(findings, 2);
    now_eats(7, 7);
    settle("as-usual");
    meal_is(30, 60);
    days_are(10, 14);
}
END_TEST

/* ---- only offered ---- */

static const struct {
    double g_day, interval_days, fast_limit_days;
    double low_g, high_g, low_days, high_days;
    bool as_now;
} offer_rows[] = {
    {5, 8, 60, 40, 40, 8, 8, true},    {10, 8, 60, 60, 60, 8, 8, true},
    {1, 60, 60, 60, 60, 60, 60, true}, {0.5, 61, 60, 30.5, 30.5, 14, 14, true},
    {1, 14, 0, 14, 14, 14, 14, true},  {1, 15, 0, 15, 15, 14, 14, true},
    {0, 8, 60, 30, 60, 8, 8, false},   {5, 0, 60, 30, 60, 10, 14, false},
};

START_TEST(what_is_offered_is_what_it_is_used_to)
{
    now_eats(offer_rows[_i].g_day, offer_rows[_i].interval_days);
    feeding()->fast_limit_days = offer_rows[_i].fast_limit_days;
    settle("offer-only");
    meal_is(offer_rows[_i].low_g, offer_rows[_i].high_g);
    days_are(offer_rows[_i].low_days, offer_rows[_i].high_days);
    ck_assert_int_eq(feeding()->is_as_now, offer_rows[_i].as_now);
    ck_assert_int_eq(feeding()->meal_from.origin == ORIGIN_KEEPER, offer_rows[_i].as_now);
    ck_assert_int_eq(feeding()->every_from.origin == ORIGIN_KEEPER,
                     offer_rows[_i].interval_days > 0);
    ck_assert_int_eq(feeding()->change, FEEDING_NO_DIETING);
}
END_TEST

/* Half an insect a meal is no meal of insects; then "do not cut down" has nothing to be about. */
static const struct {
    double a_day;
    int low, high;
    bool as_now, keeps_plants;
    enum feeding_change change;
} offer_pieces_rows[] = {
    {0.5, 1, 1, true, true, FEEDING_NO_DIETING},  {0.4, 5, 10, false, true, FEEDING_AS_USUAL},
    {2.9, 5, 5, true, true, FEEDING_NO_DIETING},  {5, 10, 10, true, true, FEEDING_NO_DIETING},
    {6, 12, 12, true, false, FEEDING_NO_DIETING}, {0, 5, 10, false, true, FEEDING_NO_DIETING},
};

START_TEST(as_many_insects_are_offered_as_it_eats_now)
{
    eats_insects(5, 10, 2, 3);
    feeding()->has_plant_share = true;
    now_counts(offer_pieces_rows[_i].a_day, 2);
    settle("offer-only");
    pieces_are(offer_pieces_rows[_i].low, offer_pieces_rows[_i].high);
    ck_assert_int_eq(feeding()->is_as_now, offer_pieces_rows[_i].as_now);
    ck_assert_int_eq(feeding()->has_plant_share, offer_pieces_rows[_i].keeps_plants);
    ck_assert_int_eq(feeding()->change, offer_pieces_rows[_i].change);
}
END_TEST

START_TEST(plants_stand_there_each_day_though_only_offered)
{
    feeding()->diet = DIET_PLANTS;
    now_eats(5, 8);
    settle("offer-only");
    days_are(10, 14);
    meal_is(30, 60);
    ck_assert(!feeding()->is_as_now);
}
END_TEST

/* What lost against offering alone still bounds it: 40 g are halved, or become a diet of 40 g. */
START_TEST(a_limit_that_lost_still_bounds)
{
    static const struct {
        const char *limits[2];
        double low_g, high_g;
        enum feeding_change change;
    } rows[] = {{{"less", "small"}, 20, 20, FEEDING_NO_LARGE_MEAL},
                {{"less", "unheard"}, 40, 40, FEEDING_NO_DIETING},
                {{"unheard", "small"}, 20, 20, FEEDING_NO_LARGE_MEAL}};
    const struct stance_phase phase = {.stance = "offer-only",
                                       .from = f.plan.on,
                                       .because = "finding:wheeze",
                                       .limits = rows[_i].limits,
                                       .limit_count = 2};
    const struct topic_plan food = {.topic = "food", .phases = &phase, .phase_count = 1};
    f.plan.topics = &food;
    f.plan.topic_count = 1;
    now_eats(5, 8);
    feeding_apply_stance(&f.b, &stage);
    meal_is(rows[_i].low_g, rows[_i].high_g);
    ck_assert_int_eq(feeding()->change, rows[_i].change);
    ck_assert_str_eq(feeding()->change_from, "wheeze");
}
END_TEST

/* ---- a rest ---- */

static const struct {
    const char *first, *then, *second, *found;
    bool has_resume;
    enum feeding_change change;
    double low_g, high_g;
} rest_rows[] = {
    {"rest-until", NULL, "restart", "vomited", true, FEEDING_AFTER_VOMITING, 15, 30},
    {"rest-until", NULL, "restart", "burn", true, FEEDING_PAUSE, 15, 30},
    {"rest-until", NULL, "as-usual", "vomited", true, FEEDING_AFTER_VOMITING, 15, 30},
    {"rest-until", "restart", NULL, "burn", false, FEEDING_PAUSE, 15, 30},
    {"rest-until", NULL, NULL, "burn", false, FEEDING_PAUSE, 30, 60},
    {"rest-until", NULL, "vet-plan", "burn", false, FEEDING_PAUSE, 30, 60},
    {"none-until-vet", NULL, "restart", "vomited", true, FEEDING_AFTER_VOMITING, 15, 30},
    {"vet-plan", NULL, NULL, "vomited", false, FEEDING_PAUSE, 30, 60},
};

START_TEST(nothing_until_the_rest_is_over_and_then_what_follows)
{
    const struct finding_plan one = {.code = rest_rows[_i].found, .severity = SEVERITY_MILD};
    struct stance_phase phases[] = {{.stance = rest_rows[_i].first,
                                     .from = f.plan.on,
                                     .because = "finding:vomited",
                                     .then = rest_rows[_i].then},
                                    {.stance = rest_rows[_i].second, .from = {2026, 3, 24}}};
    phases[0].has_until = rest_rows[_i].second != NULL;
    phases[0].until = phases[1].from;
    const struct topic_plan topics[] = {
        {.topic = "bath"},
        {.topic = "food", .phases = phases, .phase_count = rest_rows[_i].second ? 2 : 1}};
    f.plan.topics = topics;
    f.plan.topic_count = 2;
    found(&one, 1);
    feeding_apply_stance(&f.b, &stage);
    ck_assert(feeding()->paused);
    ck_assert_int_eq(feeding()->has_resume, rest_rows[_i].has_resume);
    if (rest_rows[_i].has_resume)
        ck_assert(is_day(feeding()->resume, 3, 24));
    ck_assert_int_eq(feeding()->change, rest_rows[_i].change);
    ck_assert_str_eq(feeding()->change_from, "vomited");
    meal_is(rest_rows[_i].low_g, rest_rows[_i].high_g);
    memset(feeding(), 0, sizeof *feeding()); /* of an animal without stages a pause holds too */
    feeding_apply_stance(&f.b, NULL);
    ck_assert(feeding()->paused);
}
END_TEST

START_TEST(without_a_stance_nothing_changes)
{
    feeding_apply_stance(&f.b, &stage);
    meal_is(30, 60);
    days_are(10, 14);
    ck_assert(!feeding()->paused && !feeding()->change_from);
    fixture_settle(&f, "food", "less", "finding:overweight");
    feeding_apply_stance(&f.b, NULL);
    days_are(10, 14);
    ck_assert(!feeding()->paused);
}
END_TEST

/* A share of the insects beside a mix, in whole ones: no fewer than one, no more than the most. */
START_TEST(a_share_of_the_insects_beside_a_mix)
{
    static const struct {
        int low, high;
        double share;
        int left_low, left_high;
    } rows[] = {{2, 4, 0.5, 1, 2},
                {4, 8, 0.5, 2, 4},
                {1, 1, 0.5, 1, 1},
                {3, 5, 0.5, 1, 2},
                {6, 12, 0.25, 1, 3}};
    struct feeding_plan *p = &f.plan.feeding;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        p->beside = (struct feeding_beside){
            .is_known = true, .low = rows[i].low, .high = rows[i].high, .every_low_days = 7};
        feeding_share_of_beside(&f.b, rows[i].share);
        ck_assert_int_eq((int)p->beside.low, rows[i].left_low);
        ck_assert_int_eq((int)p->beside.high, rows[i].left_high);
        ck_assert_double_eq(p->beside.every_low_days, 7); /* its rhythm stays */
        p->beside = (struct feeding_beside){.low = rows[i].low, .high = rows[i].high};
        feeding_share_of_beside(&f.b, rows[i].share);
        ck_assert_int_eq((int)p->beside.high, rows[i].high); /* none is none */
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("food_change");
    TCase *tests = tcase_create("food_change");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, small_meals_come_no_more_often_than_twice_as_usual, 0, 3);
    tcase_add_loop_test(tests, a_small_meal_is_half_of_the_usual_or_of_what_it_eats_now, 0,
                        COUNT(small_rows));
    tcase_add_loop_test(tests, half_of_the_insects_is_one_at_least, 0, COUNT(half_rows));
    tcase_add_test(tests, of_one_insect_beside_one_is_left);
    tcase_add_loop_test(tests, a_diet_gives_fewer_insects_beside, 0, COUNT(beside_rows));
    tcase_add_loop_test(tests, more_insects_beside_come_no_more_seldom, 0, 4);
    tcase_add_loop_test(tests, fewer_insects_than_now_of_no_usual_amount, 0, 4);
    tcase_add_loop_test(tests, as_many_insects_as_now_of_no_usual_amount, 0, 4);
    tcase_add_loop_test(tests, a_diet_waits_longer_and_gives_no_more_than_now, 0, COUNT(diet_rows));
    tcase_add_test(tests, only_prey_with_sizes_has_a_lightest);
    tcase_add_test(tests, of_two_kinds_of_prey_the_lighter_counts);
    tcase_add_loop_test(tests, a_diet_of_unknown_meals_waits_longer_than_usual, 0,
                        COUNT(unknown_rows));
    tcase_add_loop_test(tests, a_mixed_diet_of_unknown_amounts_keeps_its_days, 0, 4);
    tcase_add_loop_test(tests, the_limit_without_food_is_of_the_whole_food, 0, 2);
    tcase_add_test(tests, plants_are_never_cut_down);
    tcase_add_loop_test(tests, a_diet_of_insects_keeps_its_days, 0, COUNT(fewer_rows));
    tcase_add_loop_test(tests, of_unknown_insects_two_thirds_of_the_usual, 0, 2);
    tcase_add_loop_test(tests, a_thin_snake_is_built_up_by_quarters, 0, COUNT(up_rows));
    tcase_add_loop_test(tests, the_veterinarian_says_how_it_begins, 0, 3);
    tcase_add_test(tests, a_thin_snake_of_unknown_meals_does_not_rise);
    tcase_add_loop_test(tests, a_thin_lizard_is_built_up_by_pieces, 0, 2);
    tcase_add_loop_test(tests, a_thin_snake_gets_the_upper_half_and_no_less_than_now, 0,
                        COUNT(thin_rows));
    tcase_add_loop_test(tests, a_thin_lizard_gets_the_upper_half_and_no_less_than_now, 0,
                        COUNT(thin_pieces_rows));
    tcase_add_loop_test(tests, a_thin_one_gets_no_fewer_insects_beside, 0, 2);
    tcase_add_test(tests, who_is_not_thin_eats_as_usual);
    tcase_add_loop_test(tests, what_is_offered_is_what_it_is_used_to, 0, COUNT(offer_rows));
    tcase_add_loop_test(tests, as_many_insects_are_offered_as_it_eats_now, 0,
                        COUNT(offer_pieces_rows));
    tcase_add_test(tests, plants_stand_there_each_day_though_only_offered);
    tcase_add_loop_test(tests, a_limit_that_lost_still_bounds, 0, 3);
    tcase_add_loop_test(tests, nothing_until_the_rest_is_over_and_then_what_follows, 0,
                        COUNT(rest_rows));
    tcase_add_test(tests, without_a_stance_nothing_changes);
    tcase_add_test(tests, a_share_of_the_insects_beside_a_mix);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
