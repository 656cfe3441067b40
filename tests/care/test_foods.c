/* Which food, in which size, how many pieces. Mice of 1-2, 3-5 and 20-30 g and crickets of 0.1-0.2,
 * 0.3-0.6 and 0.7-1 g are invented; that a meal is of three pieces at most and an insect no heavier
 * than 3 % of the body is common practice, no source. */
#include "common/suite.h"

#include "care/feeding_fixture.h"
#include "care/intake.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static struct species_feeding_stage stage;

static void set_up(void)
{
    fixture_init(&f);
    stage = (struct species_feeding_stage){.stage = fixture_choice(STAGE_ADULT)};
    feeding()->stage = STAGE_ADULT;
}

static struct food mouse(void)
{
    const struct food_size sizes[] = {sized("pinky", 1, 2), sized("fuzzy", 3, 5),
                                      sized("adult", 20, 30)};
    struct food food = food_of("mouse", FOOD_PREY, sizes, COUNT(sizes));
    food.calcium_to_phosphorus = fixture_cited(1.4, 1.6);
    return food;
}

static struct food cricket(void)
{
    const struct food_size sizes[] = {sized("small", 0.1, 0.2), sized("medium", 0.3, 0.6),
                                      sized("large", 0.7, 1)};
    struct food food = food_of("cricket", FOOD_INSECT, sizes, COUNT(sizes));
    food.calcium_to_phosphorus = fixture_cited(0.11, 0.11);
    return food;
}

static struct food one_size(const char *code, enum food_kind kind, double low_g, double high_g)
{
    const struct food_size size = sized("only", low_g, high_g);
    return food_of(code, kind, &size, 1);
}

static void meal_of(double low_g, double high_g)
{
    feeding()->has_meal = true;
    feeding()->meal_low_g = low_g;
    feeding()->meal_high_g = high_g;
}

static void choose(const struct food *foods, size_t count)
{
    give_foods(&stage, foods, count);
    feeding_choose_foods(&f.b, &stage);
}

/* "mouse fuzzy 2", a word each; size "-" for none. */
static void chosen_is(size_t at, const char *food, const char *size, int count)
{
    ck_assert_uint_gt(feeding()->food_count, at);
    const struct prey_choice *choice = &feeding()->foods[at];
    ck_assert_str_eq(choice->food, food);
    ck_assert_str_eq(choice->size ? choice->size : "-", size);
    ck_assert_int_eq(choice->count, count);
}

/* ---- prey ---- */

static const struct {
    double high_g;
    enum feeding_change change;
    const char *size;
    int count;
    double each_low_g, each_high_g;
} prey_rows[] = {
    {12, FEEDING_AS_USUAL, "fuzzy", 2, 3, 5},  /* 3 pinkies are 6 g, 2 fuzzies 10 */
    {10, FEEDING_AS_USUAL, "fuzzy", 2, 3, 5},  /* as heavy as the band allows */
    {9.9, FEEDING_AS_USUAL, "pinky", 3, 1, 2}, /* 6 g against one of 5 */
    {5.9, FEEDING_AS_USUAL, "fuzzy", 1, 3, 5}, /* 4 g against 5 */
    {4.9, FEEDING_AS_USUAL, "pinky", 2, 1, 2},
    {14.9, FEEDING_AS_USUAL, "fuzzy", 2, 3, 5},
    {100, FEEDING_AS_USUAL, "adult", 3, 20, 30}, /* three at most */
    {12, FEEDING_AFTER_VOMITING, "fuzzy", 1, 3, 5},
    {100, FEEDING_AFTER_VOMITING, "adult", 1, 20, 30},
};

START_TEST(the_heaviest_prey_that_fits)
{
    const struct food food = mouse();
    meal_of(0.5, prey_rows[_i].high_g);
    feeding()->change = prey_rows[_i].change;
    choose(&food, 1);
    chosen_is(0, "mouse", prey_rows[_i].size, prey_rows[_i].count);
    ck_assert_double_eq(feeding()->foods[0].each_low_g, prey_rows[_i].each_low_g);
    ck_assert_double_eq(feeding()->foods[0].each_high_g, prey_rows[_i].each_high_g);
    ck_assert_double_eq(feeding()->foods[0].calcium_to_phosphorus, 1.4);
    ck_assert_uint_eq(feeding()->food_count, 1);
    ck_assert_ptr_null(f.plan.review);
}
END_TEST

/* Three of 2 g or one of 6: one. Whichever stands first. */
START_TEST(of_equal_meals_the_fewest_pieces)
{
    const struct food_size sizes[] = {sized("a", 1, _i ? 6 : 2), sized("b", 1, _i ? 2 : 6)};
    const struct food food = food_of("mouse", FOOD_PREY, sizes, 2);
    meal_of(0.5, 6);
    choose(&food, 1);
    chosen_is(0, "mouse", _i ? "a" : "b", 1);
}
END_TEST

/* 3 x 0.7 is a little less than 2.1 in binary: still three. */
START_TEST(the_last_bit_takes_no_piece_away)
{
    const struct food food = one_size("mouse", FOOD_PREY, 0.6, 0.7);
    meal_of(0.5, 3 * 0.7 - 4e-16);
    choose(&food, 1);
    chosen_is(0, "mouse", "only", 3);
}
END_TEST

START_TEST(prey_that_is_all_too_heavy_is_not_offered)
{
    const struct food foods[] = {mouse(), one_size("chick", FOOD_PREY, 30, 40)};
    meal_of(1, 1.9);
    choose(foods, 2);
    ck_assert_uint_eq(feeding()->food_count, 0);
    const struct review *told = fixture_review(&f, "prey-none-fits");
    ck_assert_double_eq(told->facts->low, 1);
    ck_assert_double_eq(told->facts->high, 1.9);
    tear_down();
    set_up();
    const struct food again[] = {one_size("chick", FOOD_PREY, 30, 40), mouse()};
    meal_of(1, 2); /* a pinky of 2 g fits */
    choose(again, 2);
    ck_assert_uint_eq(feeding()->food_count, 1);
    chosen_is(0, "mouse", "pinky", 1);
    ck_assert_ptr_null(f.plan.review);
}
END_TEST

START_TEST(a_rising_meal_or_one_of_no_mass_names_the_prey_alone)
{
    const struct food food = mouse();
    meal_of(30, 60);
    feeding()->has_meal = _i;
    feeding()->is_rising = _i;
    choose(&food, 1);
    chosen_is(0, "mouse", "-", 0);
}
END_TEST

/* In the middle of its size: 2 fuzzies are 8 g, 3 chicks of 1-3 are 6. */
static const struct {
    double low_g;
    size_t count;
    bool told;
} short_rows[] = {{5, 2, false}, {6, 2, false}, {6.1, 1, false}, {8, 1, false}, {8.1, 2, true}};

START_TEST(prey_that_leaves_it_short_goes_where_another_does_not)
{
    const struct food foods[] = {one_size("chick", FOOD_PREY, 1, 3), mouse()};
    meal_of(short_rows[_i].low_g, 12);
    choose(foods, 2);
    ck_assert_uint_eq(feeding()->food_count, short_rows[_i].count);
    chosen_is(short_rows[_i].count - 1, "mouse", "fuzzy", 2);
    const struct review *told = fixture_review(&f, "prey-below-band");
    ck_assert_int_eq(told != NULL, short_rows[_i].told);
    if (told)
        ck_assert(told->facts->low == short_rows[_i].low_g && told->facts->high == 12);
}
END_TEST

/* Beside prey that is short other food stands, which is neither short nor enough. */
START_TEST(food_without_pieces_is_never_short)
{
    const struct food foods[] = {one_size("chick", FOOD_PREY, 1, 3),
                                 food_of("pellets", FOOD_PREPARED, NULL, 0)};
    meal_of(9, 12);
    choose(foods, 2);
    ck_assert_uint_eq(feeding()->food_count, 2);
    ck_assert_ptr_nonnull(fixture_review(&f, "prey-below-band"));
}
END_TEST

START_TEST(a_food_that_no_table_has_is_told)
{
    const struct text_value codes[] = {fixture_text("unicorn"), fixture_text("mouse")};
    const struct food food = mouse();
    meal_of(5, 12);
    give_foods(&stage, &food, 1);
    stage.foods = fixture_list(&f, codes, 2, sizeof *codes);
    feeding_choose_foods(&f.b, &stage);
    ck_assert_uint_eq(feeding()->food_count, 1);
    ck_assert_str_eq(fixture_review(&f, "food-unknown")->facts->text, "unicorn");
}
END_TEST

/* Watery food during loose stool: its kind goes with it. */
static const struct {
    enum severity severity;
    const char *found;
    bool of_kind, stays;
} left_rows[] = {{SEVERITY_MILD, "diarrhea", false, false},
                 {SEVERITY_NORMAL, "diarrhea", false, true},
                 {SEVERITY_SEVERE, "burn", false, true},
                 {SEVERITY_MILD, "diarrhea", true, false},
                 {SEVERITY_NORMAL, "diarrhea", true, true}};

START_TEST(some_food_is_left_out_while_it_is_ill)
{
    const struct text_value not_with = fixture_text("diarrhea");
    const struct finding_plan one = {.code = left_rows[_i].found,
                                     .severity = left_rows[_i].severity};
    struct food foods[] = {food_of("cucumber", FOOD_PLANT, NULL, 0),
                           food_of("fruit", FOOD_PLANT, NULL, 0)};
    foods[left_rows[_i].of_kind].not_with = fixture_list(&f, &not_with, 1, sizeof not_with);
    foods[0].like = fixture_text("fruit");
    found(&one, 1);
    give_foods(&stage, foods, 2);
    stage.foods.count = 1;
    feeding_choose_foods(&f.b, &stage);
    ck_assert_uint_eq(feeding()->food_count, left_rows[_i].stays);
}
END_TEST

/* ---- what it is used to ---- */

static const struct {
    double meal_g;
    const char *size; /* as the record names it, or NULL */
    int pieces;       /* as the record counts them; 0: a mass alone */
    const char *wanted;
    int count;
    double each_g; /* 0: of the size */
} now_rows[] = {
    {4, NULL, 0, "fuzzy", 1, 4},    {3, NULL, 0, "fuzzy", 1, 3},
    {5, NULL, 0, "fuzzy", 1, 5},    {2.5, NULL, 0, "pinky", 1, 0},
    {4, "fuzzy", 0, "fuzzy", 1, 4}, {4, "pinky", 0, "pinky", 2, 0},
    {4, NULL, 1, "fuzzy", 1, 4},    {20, NULL, 0, "adult", 1, 20},
    {8, "fuzzy", 2, "fuzzy", 2, 4}, {22.5, "adult", 1, "adult", 1, 22.5},
    {4, "pinky", 1, "pinky", 2, 0},
};

START_TEST(the_one_piece_that_it_gets_now_is_kept)
{
    const struct food food = mouse();
    struct visit_diet now = {.food = fixture_text("mouse"), .size = {.text = now_rows[_i].size}};
    if (now_rows[_i].pieces > 0)
        now.count = fixture_quantity(now_rows[_i].pieces);
    given(&now, 1);
    meal_of(now_rows[_i].meal_g, now_rows[_i].meal_g);
    feeding()->is_as_now = true;
    choose(&food, 1);
    chosen_is(0, "mouse", now_rows[_i].wanted, now_rows[_i].count);
    if (now_rows[_i].each_g > 0) {
        ck_assert_double_eq(feeding()->foods[0].each_low_g, now_rows[_i].each_g);
        ck_assert_double_eq(feeding()->foods[0].each_high_g, now_rows[_i].each_g);
    }
    ck_assert_double_eq(feeding()->foods[0].calcium_to_phosphorus, 1.4);
}
END_TEST

/* Of two kinds one is given now: an ill animal and one on a diet keep to it; plants stay. */
static const struct {
    bool as_now, has_meal, has_insects;
    enum feeding_change change;
    const char *now;
    size_t count;
} keep_rows[] = {
    {true, false, true, FEEDING_NO_DIETING, "roach", 2},
    {false, false, true, FEEDING_LONGER_INTERVAL, "roach", 2},
    {false, false, true, FEEDING_AS_USUAL, "roach", 3},
    {false, true, true, FEEDING_LONGER_INTERVAL, "roach", 3},
    {false, false, false, FEEDING_LONGER_INTERVAL, "roach", 3},
    {true, false, true, FEEDING_NO_DIETING, "locust", 3},
    {true, false, true, FEEDING_NO_DIETING, "greens", 3},
};

START_TEST(what_it_is_given_now_bounds_the_kinds)
{
    const struct food foods[] = {one_size("cricket", FOOD_INSECT, 0.1, 0.2),
                                 one_size("roach", FOOD_INSECT, 0.1, 0.2),
                                 food_of("greens", FOOD_PLANT, NULL, 0)};
    const struct visit_diet diets[] = {{.at = {"v.yaml", 1, 1}},
                                       {.food = fixture_text(keep_rows[_i].now)}};
    given(diets, 2);
    weigh(20);
    feeding()->is_as_now = keep_rows[_i].as_now;
    feeding()->has_meal = keep_rows[_i].has_meal;
    feeding()->has_insects = keep_rows[_i].has_insects;
    feeding()->change = keep_rows[_i].change;
    choose(foods, 3);
    ck_assert_uint_eq(feeding()->food_count, keep_rows[_i].count);
    chosen_is(0, keep_rows[_i].count == 2 ? "roach" : "cricket", "only", 0);
    chosen_is(keep_rows[_i].count - 1, "greens", "-", 0);
}
END_TEST

/* Of prey an ill animal keeps what it takes; a diet does not bind the kind of prey. */
START_TEST(of_prey_only_an_ill_animal_keeps_its_kind)
{
    const struct food foods[] = {one_size("rat", FOOD_PREY, 3, 4), mouse()};
    const struct visit_diet now = {.food = fixture_text("mouse")};
    given(&now, 1);
    meal_of(4, 4);
    feeding()->is_as_now = _i;
    feeding()->change = _i ? FEEDING_NO_DIETING : FEEDING_LONGER_INTERVAL;
    choose(foods, 2);
    ck_assert_uint_eq(feeding()->food_count, _i ? 1 : 2);
}
END_TEST

/* ---- insects ---- */

/* 3 % of 20 g are 0.6 g. */
static const struct {
    double mass_g, adult_g; /* 0: unknown */
    enum stage stage;
    const char *size;
    bool all_heavy;
} insect_rows[] = {
    {20, 0, STAGE_ADULT, "medium", false},   {19.9, 0, STAGE_ADULT, "small", false},
    {34, 0, STAGE_ADULT, "large", false},    {33, 0, STAGE_ADULT, "medium", false},
    {5, 0, STAGE_ADULT, "small", true},      {0, 20, STAGE_ADULT, "medium", false},
    {0, 20, STAGE_JUVENILE, "small", false}, {0, 0, STAGE_ADULT, "small", false},
    {19.9, 40, STAGE_ADULT, "small", false},
};

START_TEST(no_insect_is_heavier_than_a_small_share_of_the_body)
{
    const struct food food = cricket();
    if (insect_rows[_i].mass_g > 0)
        weigh(insect_rows[_i].mass_g);
    if (insect_rows[_i].adult_g > 0)
        f.species.adult_mass_g = fixture_cited(insect_rows[_i].adult_g, 100);
    feeding()->stage = insect_rows[_i].stage;
    feeding()->has_insects = true;
    choose(&food, 1);
    chosen_is(0, "cricket", insect_rows[_i].size, 0);
    ck_assert_double_eq(feeding()->foods[0].calcium_to_phosphorus, 0.11);
    const struct review *told = fixture_review(&f, "insects-all-heavy");
    ck_assert_int_eq(told != NULL, insect_rows[_i].all_heavy);
    if (told)
        ck_assert_double_eq_tol(told->facts->low, 0.15, 1e-12);
}
END_TEST

/* On a diet and of an ill one none is larger than now. */
START_TEST(none_is_larger_than_now)
{
    static const struct {
        enum feeding_change change;
        bool as_now;
        const char *now, *size;
    } rows[] = {{FEEDING_LONGER_INTERVAL, false, "small", "small"},
                {FEEDING_NO_DIETING, true, "small", "small"},
                {FEEDING_NO_DIETING, false, "small", "medium"},
                {FEEDING_LONGER_INTERVAL, false, NULL, "medium"},
                {FEEDING_LONGER_INTERVAL, false, "large", "medium"}};
    const struct food food = cricket();
    const struct visit_diet now = {.food = fixture_text("cricket"), .size = {.text = rows[_i].now}};
    given(&now, 1);
    weigh(20);
    feeding()->has_insects = true;
    feeding()->change = rows[_i].change;
    feeding()->is_as_now = rows[_i].as_now;
    choose(&food, 1);
    chosen_is(0, "cricket", rows[_i].size, 0);
    ck_assert_double_eq(feeding()->foods[0].each_low_g, *rows[_i].size == 's' ? 0.1 : 0.3);
    ck_assert_double_eq(feeding()->foods[0].each_high_g, *rows[_i].size == 's' ? 0.2 : 0.6);
}
END_TEST

/* A worm of 0.8 g for an animal of 20 g, which may have 0.6. */
START_TEST(heavy_insects_go_unless_nothing_lighter_is_there)
{
    const struct food worm = one_size("worm", FOOD_INSECT, 0.7, 0.8),
                      roach = one_size("roach", FOOD_INSECT, 0.8, 0.9),
                      greens = food_of("greens", FOOD_PLANT, NULL, 0);
    const struct {
        struct food foods[3];
        size_t count;
        bool has_insects;
        const char *kept[2];
        size_t left;
        bool told;
    } rows[] = {
        {{worm, cricket(), roach}, 3, true, {"cricket"}, 1, false},
        {{cricket(), worm}, 2, true, {"cricket"}, 1, false},
        {{worm, roach}, 2, true, {"worm"}, 1, true},
        {{roach, worm}, 2, true, {"worm"}, 1, true},
        {{greens, roach, worm}, 3, true, {"greens", "worm"}, 2, true},
        {{worm, greens}, 2, true, {"worm", "greens"}, 2, true},
        {{worm, greens}, 2, false, {"greens"}, 1, false},
        {{greens, worm}, 2, false, {"greens"}, 1, false},
    };
    weigh(20);
    feeding()->has_insects = rows[_i].has_insects;
    choose(rows[_i].foods, rows[_i].count);
    ck_assert_uint_eq(feeding()->food_count, rows[_i].left);
    for (size_t i = 0; i < rows[_i].left; i++)
        ck_assert_str_eq(feeding()->foods[i].food, rows[_i].kept[i]);
    ck_assert_int_eq(fixture_review(&f, "insects-all-heavy") != NULL, rows[_i].told);
}
END_TEST

/* ---- what it gets now ---- */

static struct visit_diet fed(const char *food, const char *size, double meal_g, double count,
                             double days)
{
    struct visit_diet diet = {.food = {.text = food}, .size = {.text = size}};
    if (meal_g > 0)
        diet.meal_g = fixture_quantity(meal_g);
    if (count > 0)
        diet.count = fixture_quantity(count);
    if (days > 0)
        diet.every_days = fixture_quantity(days);
    return diet;
}

/* Mice of 1-2 g (pinky, 1.5 in the middle), 0.8-1 kcal a gram; crickets without energy. */
static const struct {
    const char *what;
    struct {
        const char *food, *size;
        double meal_g, count, days;
    } diets[2];
    size_t count;
    bool has_g, has_kcal, has_count;
    double g_day, kcal_day, count_day;
} intake_rows[] = {
    {"grams", {{"mouse", NULL, 20, 0, 10}}, 1, true, true, false, 2, 2 * 1.6, 0},
    {"pieces", {{"mouse", "pinky", 0, 4, 3}}, 1, true, true, true, 2, 2 * 0.9, 4.0 / 3},
    {"pieces of no size", {{"mouse", NULL, 0, 4, 2}}, 1, false, false, true, 0, 0, 2},
    {"how often, unknown", {{"mouse", NULL, 20, 0, 0}}, 1, false, false, false, 0, 0, 0},
    {"two foods",
     {{"mouse", NULL, 20, 0, 10}, {"mouse", "pinky", 0, 2, 1}},
     2,
     true,
     true,
     false,
     5,
     3.2 + 2.7,
     2},
    {"one without energy",
     {{"mouse", NULL, 20, 0, 10}, {"cricket", NULL, 3, 0, 1}},
     2,
     true,
     false,
     false,
     5,
     3.2,
     0},
    {"one without grams",
     {{"cricket", NULL, 0, 6, 2}, {"mouse", NULL, 20, 0, 10}},
     2,
     false,
     false,
     false,
     2,
     0,
     3},
    {"plants are another matter",
     {{"greens", NULL, 50, 0, 1}, {"mouse", NULL, 20, 0, 10}},
     2,
     true,
     true,
     false,
     2,
     3.2,
     0},
    {"only plants", {{"greens", NULL, 50, 0, 1}}, 1, false, false, false, 0, 0, 0},
    {"nothing", {{0}}, 0, false, false, false, 0, 0, 0},
};

static void take_in(size_t row)
{
    struct food_size sizes[] = {sized("pinky", 1, 2), sized("adult", 20, 30)};
    sizes[0].kcal_per_g = fixture_cited(0.8, 1.0);
    struct food foods[] = {food_of("mouse", FOOD_PREY, sizes, 2), cricket(),
                           food_of("greens", FOOD_PLANT, NULL, 0)};
    foods[0].kcal_per_g = fixture_cited(1.5, 1.7);
    give_foods(&stage, foods, 3);
    struct visit_diet diets[2];
    for (size_t i = 0; i < intake_rows[row].count; i++)
        diets[i] = fed(intake_rows[row].diets[i].food, intake_rows[row].diets[i].size,
                       intake_rows[row].diets[i].meal_g, intake_rows[row].diets[i].count,
                       intake_rows[row].diets[i].days);
    given(diets, intake_rows[row].count);
    feeding()->diet = DIET_WHOLE_PREY;
    intake_plan(&f.b);
}

START_TEST(what_it_gets_now_a_day)
{
    take_in((size_t)_i);
    const struct feeding_now *now = &feeding()->now;
    ck_assert_int_eq(now->has_g, intake_rows[_i].has_g);
    ck_assert_int_eq(now->has_kcal, intake_rows[_i].has_kcal);
    ck_assert_int_eq(now->has_count, intake_rows[_i].has_count);
    ck_assert_double_eq_tol(now->g_day, intake_rows[_i].g_day, 1e-9);
    if (intake_rows[_i].has_kcal)
        ck_assert_double_eq_tol(now->kcal_day, intake_rows[_i].kcal_day, 1e-9);
    ck_assert_double_eq_tol(now->count_day, intake_rows[_i].count_day, 1e-9);
}
END_TEST

/* By mass as much as now; by energy no more than the densest food (1.7) makes of it, no less than
 * the leanest (1.5; the lean pinky is a size, and sizes only make it denser). 2 g of adults and 3
 * of pinkies are 3.2 and 2.7 kcal: 3.47 g of the densest; by mass it is 5 g, more than 3.93. */
START_TEST(as_much_as_now_by_mass_and_by_energy)
{
    struct ends bounds = {0};
    take_in(0);
    ck_assert(intake_bounds_g_day(&f.b, &stage, &bounds));
    ck_assert_double_eq_tol(bounds.low, 3.2 / 1.7, 1e-9);
    ck_assert_double_eq_tol(bounds.high, 3.2 / 1.5, 1e-9);
    take_in(4);
    ck_assert(intake_bounds_g_day(&f.b, &stage, &bounds));
    ck_assert_double_eq_tol(bounds.low, 5.9 / 1.7, 1e-9);
    ck_assert_double_eq(bounds.high, 5);
    take_in(5); /* without energy: as many grams */
    ck_assert(intake_bounds_g_day(&f.b, &stage, &bounds));
    ck_assert(bounds.low == 5 && bounds.high == 5);
    take_in(2);
    ck_assert(!intake_bounds_g_day(&f.b, &stage, &bounds));
}
END_TEST

/* Shown beside the plan: the first food of the meals, whatever stands before it. Leaves alone say
 * nothing of them. */
START_TEST(what_is_shown_is_of_the_meals)
{
    take_in(7);
    ck_assert(feeding()->has_meal_now && feeding()->has_interval_now && !feeding()->has_count_now);
    ck_assert_double_eq(feeding()->meal_now_g, 20);
    ck_assert_double_eq(feeding()->interval_now_days, 10);
    take_in(4);
    ck_assert_double_eq(feeding()->meal_now_g, 20); /* the first of two */
    take_in(1);
    ck_assert(!feeding()->has_meal_now && feeding()->has_count_now);
    ck_assert_double_eq(feeding()->count_now, 4);
    take_in(8);
    ck_assert(!feeding()->has_meal_now && !feeding()->has_interval_now);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("foods");
    TCase *tests = tcase_create("foods");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, the_heaviest_prey_that_fits, 0, COUNT(prey_rows));
    tcase_add_loop_test(tests, of_equal_meals_the_fewest_pieces, 0, 2);
    tcase_add_test(tests, the_last_bit_takes_no_piece_away);
    tcase_add_test(tests, prey_that_is_all_too_heavy_is_not_offered);
    tcase_add_loop_test(tests, a_rising_meal_or_one_of_no_mass_names_the_prey_alone, 0, 2);
    tcase_add_loop_test(tests, prey_that_leaves_it_short_goes_where_another_does_not, 0,
                        COUNT(short_rows));
    tcase_add_test(tests, food_without_pieces_is_never_short);
    tcase_add_test(tests, a_food_that_no_table_has_is_told);
    tcase_add_loop_test(tests, some_food_is_left_out_while_it_is_ill, 0, COUNT(left_rows));
    tcase_add_loop_test(tests, the_one_piece_that_it_gets_now_is_kept, 0, COUNT(now_rows));
    tcase_add_loop_test(tests, what_it_is_given_now_bounds_the_kinds, 0, COUNT(keep_rows));
    tcase_add_loop_test(tests, of_prey_only_an_ill_animal_keeps_its_kind, 0, 2);
    tcase_add_loop_test(tests, no_insect_is_heavier_than_a_small_share_of_the_body, 0,
                        COUNT(insect_rows));
    tcase_add_loop_test(tests, none_is_larger_than_now, 0, 5);
    tcase_add_loop_test(tests, heavy_insects_go_unless_nothing_lighter_is_there, 0, 8);
    tcase_add_loop_test(tests, what_it_gets_now_a_day, 0, COUNT(intake_rows));
    tcase_add_test(tests, as_much_as_now_by_mass_and_by_energy);
    tcase_add_test(tests, what_is_shown_is_of_the_meals);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
