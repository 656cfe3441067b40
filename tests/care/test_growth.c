/* Growth and what the weight is meant to do. Percentages are worked out by hand; that a tenth
 * within two months or a fifth at all is a fast loss, and how much may be lost and gained before
 * the keeper calls, is common practice, no source (templates/reference-values.yaml). */
#include "common/suite.h"

#include <math.h>

#include "care/feeding_fixture.h"
#include "care/weight.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static void set_up(void)
{
    fixture_init(&f);
}

static struct visit_weighing weighed(struct date on, double mass_g)
{
    return (struct visit_weighing){.on = {.known = true, .date = on},
                                   .mass_g = fixture_quantity(mass_g)};
}

static struct date before(long days)
{
    return date_add_days(f.plan.on, -days);
}

static void weighed_before(const struct visit_weighing *earlier, size_t count)
{
    f.visit.patient.earlier = fixture_list(&f, earlier, count, sizeof *earlier);
}

/* By its age, which is known. */
static void be_of(enum stage stage)
{
    const struct species_feeding_stage stages[] = {
        {.stage = fixture_choice((int)stage), .until_age_days = fixture_quantity(400)},
        {.stage = fixture_choice(STAGE_ADULT)}};
    feed_by(stages, 2);
    f.plan.patient.age_known = true;
    f.plan.patient.age_days = stage == STAGE_ADULT ? 4000 : 399;
    feeding()->stage = stage;
}

/* ---- the weighings ---- */

START_TEST(weighings_that_can_be_right_in_order_of_day)
{
    struct visit_weighing earlier[] = {
        weighed(before(10), 90),   weighed(before(30), 50),    weighed(before(20), 200),
        weighed(before(40), 49.9), weighed(before(50), 200.1), weighed(before(0), 100),
        weighed(before(-1), 100),  weighed(before(60), 80),    weighed(before(70), 80)};
    earlier[7].mass_g.known = false;
    earlier[8].on.known = false;
    f.species.plausible_mass_g = fixture_band(50, 200);
    weighed_before(earlier, COUNT(earlier));
    weigh(100);
    ck_assert(growth_plan(&f.b));
    static const double wanted_g[] = {50, 200, 90, 100};
    const struct growth_plan *g = &f.plan.growth;
    ck_assert_uint_eq(g->weighing_count, 4);
    for (size_t i = 0; i < 4; i++)
        ck_assert_double_eq(g->weighings[i].mass_g, wanted_g[i]);
    ck_assert_int_eq(date_compare(g->weighings[3].on, f.plan.on), 0);
}
END_TEST

START_TEST(the_last_weighings_are_kept)
{
    struct visit_weighing earlier[WEIGHINGS_MOST + 2];
    for (size_t i = 0; i < COUNT(earlier); i++)
        earlier[i] = weighed(before((long)i + 1), 100 + (double)i);
    weighed_before(earlier, WEIGHINGS_MOST + 1 + (size_t)_i);
    ck_assert(growth_plan(&f.b));
    ck_assert_uint_eq(f.plan.growth.weighing_count, WEIGHINGS_MOST);
    ck_assert_double_eq(f.plan.growth.weighings[0].mass_g, 100 + WEIGHINGS_MOST - 1);
    ck_assert_double_eq(f.plan.growth.weighings[WEIGHINGS_MOST - 1].mass_g, 100);
}
END_TEST

/* The straight line of least squares, by hand. */
static const struct {
    struct {
        long days;
        double mass_g;
    } points[3];
    size_t count;
    bool has_trend;
    double first_g, last_g;
} trend_rows[] = {
    {{{20, 100}, {10, 110}, {0, 120}}, 3, true, 100, 120},
    {{{20, 100}, {10, 130}, {0, 100}}, 3, true, 110, 110},
    {{{30, 100}, {20, 100}, {0, 140}}, 3, true, 660.0 / 7, 960.0 / 7},
    {{{30, 100}, {0, 160}}, 2, true, 100, 160},
    {{{0, 160}}, 1, false, 0, 0},
};

START_TEST(the_line_through_the_weighings)
{
    struct visit_weighing earlier[3];
    size_t count = trend_rows[_i].count - 1;
    for (size_t i = 0; i < count; i++)
        earlier[i] =
            weighed(before(trend_rows[_i].points[i].days), trend_rows[_i].points[i].mass_g);
    weighed_before(earlier, count);
    weigh(trend_rows[_i].points[count].mass_g);
    ck_assert(growth_plan(&f.b));
    ck_assert_int_eq(f.plan.growth.has_trend, trend_rows[_i].has_trend);
    ck_assert_double_eq_tol(f.plan.growth.trend_first_g, trend_rows[_i].first_g, 1e-9);
    ck_assert_double_eq_tol(f.plan.growth.trend_last_g, trend_rows[_i].last_g, 1e-9);
}
END_TEST

/* Of 200 g. */
static const struct {
    enum stage stage;
    double now_g;
    long days;
    enum weight_state state;
    enum verdict verdict;
} state_rows[] = {
    {STAGE_ADULT, 160, 300, WEIGHT_FALLING_FAST, VERDICT_TOO_LOW},
    {STAGE_ADULT, 160.2, 300, WEIGHT_FALLING, VERDICT_TOO_LOW},
    {STAGE_ADULT, 160.2, 61, WEIGHT_FALLING, VERDICT_TOO_LOW},
    {STAGE_ADULT, 160.2, 60, WEIGHT_FALLING_FAST, VERDICT_TOO_LOW},
    {STAGE_ADULT, 180, 60, WEIGHT_FALLING_FAST, VERDICT_TOO_LOW},
    {STAGE_ADULT, 180, 61, WEIGHT_FALLING, VERDICT_TOO_LOW},
    {STAGE_ADULT, 180.2, 1, WEIGHT_FALLING, VERDICT_TOO_LOW},
    {STAGE_ADULT, 193.8, 30, WEIGHT_FALLING, VERDICT_TOO_LOW},
    {STAGE_ADULT, 194, 30, WEIGHT_STEADY, VERDICT_IN_RANGE},
    {STAGE_ADULT, 200, 300, WEIGHT_STEADY, VERDICT_IN_RANGE},
    {STAGE_ADULT, 206, 30, WEIGHT_STEADY, VERDICT_IN_RANGE},
    {STAGE_ADULT, 206.2, 30, WEIGHT_RISING, VERDICT_IN_RANGE},
    /* a young one should gain: 5 % is much; standing still for a month (14 February) is too little
     */
    {STAGE_JUVENILE, 190, 300, WEIGHT_FALLING_FAST, VERDICT_TOO_LOW},
    {STAGE_HATCHLING, 190, 300, WEIGHT_FALLING_FAST, VERDICT_TOO_LOW},
    {STAGE_JUVENILE, 190.2, 300, WEIGHT_FALLING, VERDICT_TOO_LOW},
    {STAGE_ADULT, 190, 300, WEIGHT_FALLING, VERDICT_TOO_LOW},
    {STAGE_JUVENILE, 200, 28, WEIGHT_STEADY, VERDICT_TOO_LOW},
    {STAGE_JUVENILE, 200, 27, WEIGHT_STEADY, VERDICT_IN_RANGE},
    {STAGE_JUVENILE, 240, 28, WEIGHT_RISING, VERDICT_IN_RANGE},
};

START_TEST(how_the_weight_goes)
{
    const struct visit_weighing then = weighed(before(state_rows[_i].days), 200);
    const double percent = (state_rows[_i].now_g - 200) / 2;
    weighed_before(&then, 1);
    weigh(state_rows[_i].now_g);
    be_of(state_rows[_i].stage);
    ck_assert(growth_plan(&f.b));
    const struct growth_plan *g = &f.plan.growth;
    ck_assert_int_eq(g->weight, state_rows[_i].state);
    ck_assert_int_eq(g->verdict, state_rows[_i].verdict);
    ck_assert_double_eq_tol(g->change_percent, percent, 1e-9);
    ck_assert_int_eq(g->per_days, state_rows[_i].days);
    ck_assert_double_eq_tol(g->percent_per_30_days, percent * 30 / (double)state_rows[_i].days,
                            1e-9);
    const struct review *told = fixture_review(&f, "young-not-growing");
    ck_assert_int_eq(told != NULL, g->weight == WEIGHT_STEADY && g->verdict == VERDICT_TOO_LOW);
    if (told)
        ck_assert_double_eq(fixture_fact(told, "change")->low, percent);
}
END_TEST

/* Both weighings may be off by 1 %, or by half a gram of so small an animal. */
START_TEST(what_the_scale_leaves_of_a_change)
{
    struct visit_weighing then = weighed(before(15), 100);
    weighed_before(&then, 1);
    weigh(90);
    ck_assert(growth_plan(&f.b));
    const struct derivation *change =
        fixture_derivation(&f.plan.growth.how, "growth.change_percent");
    ck_assert_double_eq_tol(change->value, -10, 1e-9);
    ck_assert_double_eq_tol(change->low, (89.1 / 101 - 1) * 100, 1e-9);
    ck_assert_double_eq_tol(change->high, (90.9 / 99 - 1) * 100, 1e-9);
    static const double inputs[] = {90, 100, 0.9, 1};
    ck_assert_uint_eq(change->input_count, COUNT(inputs));
    for (size_t i = 0; i < COUNT(inputs); i++)
        ck_assert_double_eq_tol(change->inputs[i].value, inputs[i], 1e-9);
    const struct derivation *month =
        fixture_derivation(&f.plan.growth.how, "growth.percent_per_30_days");
    ck_assert_double_eq_tol(month->value, -20, 1e-9);
    ck_assert_double_eq_tol(month->low, change->low * 2, 1e-9);
    ck_assert_double_eq_tol(month->high, change->high * 2, 1e-9);
    tear_down();
    set_up();
    then = weighed(before(15), 0.8);
    weighed_before(&then, 1);
    weigh(1);
    ck_assert(growth_plan(&f.b));
    change = fixture_derivation(&f.plan.growth.how, "growth.change_percent");
    ck_assert_double_eq_tol(change->low, (0.5 / 1.3 - 1) * 100, 1e-9);
    ck_assert_double_eq_tol(change->high, (1.5 / 0.4 - 1) * 100, 1e-9); /* by half at most */
}
END_TEST

/* Today 100 g; 100 g four weeks ago. An earlier weighing is the measure only of a graver loss. */
static const struct {
    double earlier_g;
    long days;
    bool chosen;
} reference_rows[] = {
    {115, 72, true},  /* 13 % */
    {105, 72, true},  /* 4.8 %, falling */
    {102, 72, false}, /* steady */
    {80, 72, false},  /* a gain */
    {130, 72, true},
};

START_TEST(a_loss_in_small_steps_is_found)
{
    const struct visit_weighing earlier[] = {
        weighed(before(28), 100),
        weighed(before(reference_rows[_i].days), reference_rows[_i].earlier_g)};
    weighed_before(earlier, 2);
    weigh(100);
    ck_assert(growth_plan(&f.b));
    ck_assert_int_eq(date_compare(f.plan.growth.since,
                                  before(reference_rows[_i].chosen ? reference_rows[_i].days : 28)),
                     0);
}
END_TEST

/* Of losses as grave the last one, in whatever order they are written; a graver one goes first. */
START_TEST(of_losses_as_grave_the_last)
{
    static const struct {
        double first_g, second_g; /* 90 and 70 days before */
        long since;
    } rows[] = {{105, 106, 70}, {115, 105, 90},   {105, 115, 70},  {130, 115, 90},
                {115, 130, 70}, {111.2, 109, 90}, {110.9, 109, 70}};
    for (int turned = 0; turned < 2; turned++) {
        const struct visit_weighing earlier[] = {
            weighed(before(turned ? 70 : 90), turned ? rows[_i].second_g : rows[_i].first_g),
            weighed(before(turned ? 90 : 70), turned ? rows[_i].first_g : rows[_i].second_g)};
        weighed_before(earlier, 2);
        weigh(100);
        ck_assert(growth_plan(&f.b));
        ck_assert_int_eq(date_compare(f.plan.growth.since, before(rows[_i].since)), 0);
    }
}
END_TEST

START_TEST(without_todays_mass_nothing_is_compared)
{
    const struct visit_weighing then = weighed(before(15), 100);
    weighed_before(&then, 1);
    ck_assert(growth_plan(&f.b));
    ck_assert(!f.plan.growth.known);
    ck_assert_uint_eq(f.plan.growth.weighing_count, 1);
}
END_TEST

/* Jackson 1976/1985: mass in g by the cube of the straight carapace in cm; 0.18 to 0.22 here. */
static const struct {
    double mass_g;
    enum verdict verdict;
} ratio_rows[] = {{179, VERDICT_TOO_LOW},
                  {180, VERDICT_IN_RANGE},
                  {200, VERDICT_IN_RANGE},
                  {220, VERDICT_IN_RANGE},
                  {221, VERDICT_TOO_HIGH}};

static void measure_ratio(double mass_g)
{
    f.species.jackson_ratio = fixture_flag(true);
    weigh(mass_g);
    f.visit.patient.length_cm = fixture_quantity(10);
    f.plan.patient.has_length = true;
    f.plan.patient.length_cm = 10;
}

START_TEST(mass_by_the_cube_of_the_shell)
{
    const double mass_g = ratio_rows[_i].mass_g;
    measure_ratio(mass_g);
    ck_assert(growth_plan(&f.b));
    const struct growth_plan *g = &f.plan.growth;
    ck_assert(g->has_ratio);
    ck_assert_double_eq_tol(g->ratio_g_cm3, mass_g / 1000, 1e-12);
    ck_assert_int_eq(g->ratio_verdict, ratio_rows[_i].verdict);
    const struct review *told = fixture_review(&f, "length-mass-ratio-outside");
    ck_assert_int_eq(told != NULL, ratio_rows[_i].verdict != VERDICT_IN_RANGE);
    if (told)
        ck_assert(fixture_fact(told, "usual")->low == 0.18 &&
                  fixture_fact(told, "usual")->high == 0.22);
    const struct derivation *made = fixture_derivation(&g->how, "growth.length_mass_ratio");
    ck_assert_double_eq_tol(made->low, mass_g * 0.99 / pow(10.3, 3), 1e-12);
    ck_assert_double_eq_tol(made->high, mass_g * 1.01 / pow(9.7, 3), 1e-12);
    ck_assert_double_eq_tol(made->inputs[2].value, mass_g * 0.01, 1e-9);
    ck_assert_double_eq(made->inputs[3].value, 3);
}
END_TEST

START_TEST(the_ratio_is_of_grown_tortoises_that_were_measured)
{
    static const struct {
        bool of_species, has_mass, has_length;
        enum stage stage;
        bool age_known, made;
    } rows[] = {{true, true, true, STAGE_HATCHLING, true, false},
                {true, true, true, STAGE_HATCHLING, false, true},
                {true, true, true, STAGE_JUVENILE, true, true},
                {false, true, true, STAGE_ADULT, true, false},
                {true, false, true, STAGE_ADULT, true, false},
                {true, true, false, STAGE_ADULT, true, false}};
    measure_ratio(200);
    be_of(rows[_i].stage);
    f.species.jackson_ratio.value = rows[_i].of_species;
    f.plan.patient.has_mass = rows[_i].has_mass;
    f.plan.patient.has_length = rows[_i].has_length;
    f.plan.patient.age_known = rows[_i].age_known;
    ck_assert(growth_plan(&f.b));
    ck_assert_int_eq(f.plan.growth.has_ratio, rows[_i].made);
}
END_TEST

/* ---- what the weight is meant to do ---- */

static struct finding_plan one_found;

static void find(const char *code, enum severity severity)
{
    one_found = (struct finding_plan){.code = code, .severity = severity};
    found(&one_found, 1);
}

/* Of 600 g. 0: no alarm. */
static const struct {
    const char *stance, *found;
    enum severity severity;
    enum stage stage;
    enum weight_purpose purpose;
    double low_g, high_g, laid_g;
} purpose_rows[] = {
    {"as-usual", "shed", SEVERITY_NORMAL, STAGE_ADULT, WEIGHT_HOLD, 540, 660, 0},
    {"as-usual", "burn", SEVERITY_MILD, STAGE_ADULT, WEIGHT_HOLD, 540, 0, 0},
    {"as-usual", "overweight", SEVERITY_MILD, STAGE_ADULT, WEIGHT_HOLD, 540, 660, 0},
    {"less", "overweight", SEVERITY_MILD, STAGE_ADULT, WEIGHT_LOSE, 540, 618, 0},
    {"build-up", "burn", SEVERITY_MILD, STAGE_ADULT, WEIGHT_GAIN, 582, 660, 0},
    {"as-usual", "underweight", SEVERITY_MILD, STAGE_ADULT, WEIGHT_GAIN, 582, 660, 0},
    {"as-usual", "thin-tail", SEVERITY_MILD, STAGE_ADULT, WEIGHT_GAIN, 582, 660, 0},
    {"as-usual", "shed", SEVERITY_NORMAL, STAGE_JUVENILE, WEIGHT_GROW, 570, 0, 0},
    {"less", "gravid", SEVERITY_MILD, STAGE_ADULT, WEIGHT_LAY, 540, 0, 360},
    /* what fasts loses some, whatever it is meant to do */
    {"offer-only", "underweight", SEVERITY_MILD, STAGE_ADULT, WEIGHT_GAIN, 570, 660, 0},
    {"none-until-vet", "underweight", SEVERITY_MILD, STAGE_ADULT, WEIGHT_GAIN, 570, 660, 0},
    {"rest-until", "underweight", SEVERITY_MILD, STAGE_ADULT, WEIGHT_GAIN, 570, 660, 0},
    {"vet-plan", "underweight", SEVERITY_MILD, STAGE_ADULT, WEIGHT_GAIN, 570, 660, 0},
    {"offer-only", "shed", SEVERITY_NORMAL, STAGE_ADULT, WEIGHT_HOLD, 540, 660, 0},
};

START_TEST(the_keeper_calls_at_so_many_grams)
{
    weigh(600);
    be_of(purpose_rows[_i].stage);
    find(purpose_rows[_i].found, purpose_rows[_i].severity);
    fixture_settle(&f, "food", purpose_rows[_i].stance, "finding:burn");
    ck_assert(weight_plan(&f.b));
    const struct weight_plan *w = &f.plan.weight;
    ck_assert_int_eq(w->purpose, purpose_rows[_i].purpose);
    ck_assert(w->has_low);
    ck_assert_double_eq_tol(w->alarm_low_g, purpose_rows[_i].low_g, 1e-9);
    ck_assert_int_eq(w->has_high, purpose_rows[_i].high_g > 0);
    ck_assert_double_eq_tol(w->alarm_high_g, purpose_rows[_i].high_g, 1e-9);
    ck_assert_int_eq(w->has_laid_low, purpose_rows[_i].laid_g > 0);
    ck_assert_double_eq_tol(w->laid_low_g, purpose_rows[_i].laid_g, 1e-9);
    ck_assert_double_eq(w->alarm_days, 60);
    const struct derivation *low = fixture_derivation(&w->how, "weight.alarm_low_g");
    ck_assert_double_eq_tol(low->low, purpose_rows[_i].low_g * 0.99, 1e-9);
    ck_assert_double_eq_tol(low->high, purpose_rows[_i].low_g * 1.01, 1e-9);
    ck_assert_double_eq_tol(low->inputs[1].value, purpose_rows[_i].low_g / 6 - 100, 1e-9);
    ck_assert_double_eq_tol(low->inputs[2].value, 6, 1e-9);
}
END_TEST

START_TEST(a_gram_is_much_of_a_small_animal)
{
    weigh(_i ? 50 : 49.9);
    ck_assert(weight_plan(&f.b));
    ck_assert_int_eq(f.plan.weight.needs_fine_scale, !_i);
}
END_TEST

START_TEST(without_a_mass_there_is_no_alarm)
{
    ck_assert(weight_plan(&f.b));
    ck_assert(!f.plan.weight.has_low && !f.plan.weight.has_high);
}
END_TEST

/* What was lost already within sixty days counts: of the tenth of 600 g the rest, but no less than
 * 3 % (a scale's own error), 5 % of one that fasts. A diet that went too fast may lose 5 % more. */
static const struct {
    bool known;
    enum weight_state state;
    double change_percent;
    long days;
    const char *found;
    const char *stance;
    bool lost_much;
    double low_g;
    bool has_high, told;
} lost_rows[] = {
    {true, WEIGHT_FALLING_FAST, -6, 30, "shed", "as-usual", true, 582, false, false},
    {true, WEIGHT_FALLING, -10.1, 70, "shed", "as-usual", true, 582, false, false},
    {true, WEIGHT_FALLING, -10, 61, "shed", "as-usual", false, 540, true, false},
    {true, WEIGHT_FALLING, -10, 60, "shed", "as-usual", false, 582, true, false},
    {true, WEIGHT_FALLING, -4, 61, "shed", "as-usual", false, 540, true, false},
    {true, WEIGHT_FALLING, -4, 60, "shed", "as-usual", false, 564, true, false},
    {true, WEIGHT_FALLING, -8, 30, "shed", "as-usual", false, 582, true, false},
    {true, WEIGHT_FALLING, -8, 30, "shed", "offer-only", false, 570, true, false},
    {true, WEIGHT_FALLING, -4, 30, "shed", "offer-only", false, 564, true, false},
    {true, WEIGHT_FALLING, -4, 30, "shed", "less", false, 540, true, false},
    {true, WEIGHT_RISING, 20, 30, "shed", "as-usual", false, 540, true, false},
    {true, WEIGHT_STEADY, 0.5, 30, "shed", "as-usual", false, 540, true, false},
    {true, WEIGHT_STEADY, -0.5, 30, "shed", "as-usual", false, 543, true, false},
    {false, WEIGHT_FALLING_FAST, -30, 30, "shed", "as-usual", false, 540, true, false},
    /* she regains it: no weight is too high */
    {true, WEIGHT_FALLING_FAST, -30, 30, "after-laying", "as-usual", false, 540, false, false},
    {true, WEIGHT_FALLING_FAST, -30, 30, "after-birth", "as-usual", false, 540, false, false},
    {true, WEIGHT_FALLING_FAST, -30, 30, "shed", "less", true, 570, true, true},
    {true, WEIGHT_FALLING_FAST, -30, 30, "shed", "offer-only", true, 570, false, false},
};

START_TEST(what_was_lost_is_not_lost_again)
{
    weigh(600);
    find(lost_rows[_i].found,
         strcmp(lost_rows[_i].found, "shed") == 0 ? SEVERITY_NORMAL : SEVERITY_MILD);
    f.plan.growth.known = lost_rows[_i].known;
    f.plan.growth.weight = lost_rows[_i].state;
    f.plan.growth.change_percent = lost_rows[_i].change_percent;
    f.plan.growth.per_days = lost_rows[_i].days;
    fixture_settle(&f, "food", lost_rows[_i].stance, "finding:burn");
    ck_assert_int_eq(weight_has_lost_much(&f.b), lost_rows[_i].lost_much);
    ck_assert(weight_plan(&f.b));
    ck_assert_double_eq_tol(f.plan.weight.alarm_low_g, lost_rows[_i].low_g, 1e-9);
    ck_assert_int_eq(f.plan.weight.has_high, lost_rows[_i].has_high);
    const struct review *told = fixture_review(&f, "diet-after-fast-loss");
    ck_assert_int_eq(told != NULL, lost_rows[_i].told);
    if (told)
        ck_assert_double_eq(fixture_fact(told, "change")->low, lost_rows[_i].change_percent);
}
END_TEST

/* A goal for an animal of 600 g; a diet neither halves nor doubles it. */
static const struct {
    const char *stance;
    double goal_g;
    bool has_goal;
    const char *told;
    double low_g, high_g;
} goal_rows[] = {
    {"less", 560, true, NULL, 560, 618},
    {"less", 500, true, NULL, 540, 618},
    {"less", 599, true, NULL, 599, 618},
    {"less", 600, false, "goal-on-the-wrong-side", 540, 618},
    {"less", 300, true, NULL, 540, 618},
    {"less", 299, false, "goal-out-of-reach", 540, 618},
    {"less", 0, false, "goal-missing", 540, 618},
    {"build-up", 700, true, NULL, 582, 700},
    {"build-up", 650, true, NULL, 582, 660},
    {"build-up", 600, false, "goal-on-the-wrong-side", 582, 660},
    {"build-up", 1200, true, NULL, 582, 1200},
    {"build-up", 1201, false, "goal-out-of-reach", 582, 660},
    {"build-up", 0, false, "goal-missing", 582, 660},
    {"as-usual", 700, true, NULL, 540, 660},
    {"as-usual", 500, true, NULL, 540, 660},
    {"as-usual", 1201, false, "goal-out-of-reach", 540, 660},
    {"as-usual", 0, false, NULL, 540, 660},
};

START_TEST(a_goal_lies_where_the_weight_is_meant_to_go)
{
    weigh(600);
    find("shed", SEVERITY_NORMAL);
    fixture_settle(&f, "food", goal_rows[_i].stance, "finding:burn");
    if (goal_rows[_i].goal_g > 0)
        f.visit.patient.goal_mass_g = fixture_quantity(goal_rows[_i].goal_g);
    ck_assert(weight_plan(&f.b));
    const struct weight_plan *w = &f.plan.weight;
    ck_assert_int_eq(w->has_goal, goal_rows[_i].has_goal);
    if (w->has_goal) {
        ck_assert_double_eq(w->goal_g, goal_rows[_i].goal_g);
        ck_assert_str_eq(w->goal_from, "goal-mass");
    }
    if (goal_rows[_i].told)
        ck_assert_str_eq(f.plan.review->code, goal_rows[_i].told);
    ck_assert_int_eq(f.plan.review != NULL, goal_rows[_i].told != NULL);
    ck_assert_double_eq_tol(w->alarm_low_g, goal_rows[_i].low_g, 1e-9);
    ck_assert_double_eq_tol(w->alarm_high_g, goal_rows[_i].high_g, 1e-9);
}
END_TEST

START_TEST(a_young_animal_may_have_its_grown_mass_as_its_goal)
{
    weigh(600);
    be_of(STAGE_JUVENILE);
    f.visit.patient.goal_mass_g = fixture_quantity(4000);
    ck_assert(weight_plan(&f.b));
    ck_assert(f.plan.weight.has_goal);
}
END_TEST

/* The last weighing of a healthy animal is the goal of one that has none written. */
START_TEST(the_last_healthy_weighing_is_the_goal)
{
    struct visit_weighing earlier[] = {weighed(before(300), 550), weighed(before(100), 540),
                                       weighed(before(200), 530), weighed(before(50), 520),
                                       weighed(before(0), 510),   weighed(before(10), 500),
                                       weighed(before(5), 490)};
    for (size_t i = 0; i < COUNT(earlier); i++)
        earlier[i].healthy = fixture_flag(i != 3);
    earlier[5].mass_g.known = false;
    earlier[6].on.known = false;
    weighed_before(earlier, COUNT(earlier));
    weigh(600);
    fixture_settle(&f, "food", "less", "finding:overweight");
    ck_assert(weight_plan(&f.b));
    ck_assert_double_eq(f.plan.weight.goal_g, 540);
    ck_assert_str_eq(f.plan.weight.goal_from, "healthy");
}
END_TEST

/* Of two on one day the one that was written first, as among the weighings beside each other. */
START_TEST(of_two_healthy_weighings_on_a_day_the_first)
{
    struct visit_weighing earlier[] = {weighed(before(100), 540), weighed(before(100), 550)};
    for (size_t i = 0; i < COUNT(earlier); i++)
        earlier[i].healthy = fixture_flag(true);
    weighed_before(earlier, COUNT(earlier));
    weigh(600);
    fixture_settle(&f, "food", "less", "finding:overweight");
    ck_assert(weight_plan(&f.b));
    ck_assert_double_eq(f.plan.weight.goal_g, 540);
}
END_TEST

/* The middle of a scale of nine is five. */
static const struct {
    const char *stance;
    double score, of;
    bool against;
} score_rows[] = {{"less", 4, 9, true},      {"less", 5, 9, false},     {"less", 6, 9, false},
                  {"build-up", 6, 9, true},  {"build-up", 5, 9, false}, {"build-up", 4, 9, false},
                  {"as-usual", 9, 9, false}, {"less", 2, 5, true},      {"less", 3, 5, false}};

START_TEST(a_score_on_the_other_side_is_told)
{
    weigh(600);
    f.visit.patient.goal_mass_g = fixture_quantity(*score_rows[_i].stance == 'l' ? 500 : 700);
    f.visit.patient.body_score.score = fixture_quantity(score_rows[_i].score);
    f.visit.patient.body_score.of = fixture_quantity(score_rows[_i].of);
    fixture_settle(&f, "food", score_rows[_i].stance, "finding:burn");
    ck_assert(weight_plan(&f.b));
    ck_assert(f.plan.weight.has_score && f.plan.weight.score == score_rows[_i].score &&
              f.plan.weight.score_of == score_rows[_i].of);
    const struct review *told = fixture_review(&f, "score-against-food");
    ck_assert_int_eq(told != NULL, score_rows[_i].against);
    if (told)
        ck_assert(fixture_fact(told, "score")->low == score_rows[_i].score &&
                  fixture_fact(told, "of")->high == score_rows[_i].of);
}
END_TEST

/* Half a percent to one a week, never past the goal. */
static const struct {
    const char *stance;
    long days;
    double goal_g;
    bool expected;
    double low_g, high_g;
} loss_rows[] = {
    {"less", 28, 500, true, 576, 588},
    {"less", 28, 580, true, 580, 588},
    {"less", 28, 590, true, 590, 590},
    {"less", 7, 500, true, 594, 597},
    {"less", 1, 500, true, 600 - 6 / 7.0, 600 - 3 / 7.0},
    {"less", 0, 500, false, 0, 0},
    {"as-usual", 28, 500, false, 0, 0},
};

START_TEST(what_a_diet_should_have_lost_by_then)
{
    weigh(600);
    f.visit.patient.goal_mass_g = fixture_quantity(loss_rows[_i].goal_g);
    fixture_settle(&f, "food", loss_rows[_i].stance, "finding:burn");
    ck_assert(weight_plan(&f.b));
    weight_expect_on(&f.b, date_add_days(f.plan.on, loss_rows[_i].days));
    const struct weight_plan *w = &f.plan.weight;
    ck_assert_int_eq(w->has_expected, loss_rows[_i].expected);
    ck_assert_double_eq_tol(w->expected_low_g, loss_rows[_i].low_g, 1e-9);
    ck_assert_double_eq_tol(w->expected_high_g, loss_rows[_i].high_g, 1e-9);
    if (!loss_rows[_i].expected)
        return;
    ck_assert_int_eq(date_days_between(f.plan.on, w->weigh_on), loss_rows[_i].days);
    const struct derivation *made = fixture_derivation(&w->how, "weight.expected_g");
    ck_assert_double_eq_tol(made->value, (loss_rows[_i].low_g + loss_rows[_i].high_g) / 2, 1e-9);
    ck_assert_double_eq_tol(made->inputs[1].value, (double)loss_rows[_i].days / 7, 1e-9);
    weight_expect_on(&f.b, date_add_days(f.plan.on, 56)); /* the first day stands */
    ck_assert_int_eq(date_days_between(f.plan.on, w->weigh_on), loss_rows[_i].days);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("growth");
    TCase *tests = tcase_create("growth");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, weighings_that_can_be_right_in_order_of_day);
    tcase_add_loop_test(tests, the_last_weighings_are_kept, 0, 2);
    tcase_add_loop_test(tests, the_line_through_the_weighings, 0, COUNT(trend_rows));
    tcase_add_loop_test(tests, how_the_weight_goes, 0, COUNT(state_rows));
    tcase_add_test(tests, what_the_scale_leaves_of_a_change);
    tcase_add_loop_test(tests, a_loss_in_small_steps_is_found, 0, COUNT(reference_rows));
    tcase_add_loop_test(tests, of_losses_as_grave_the_last, 0, 7);
    tcase_add_test(tests, without_todays_mass_nothing_is_compared);
    tcase_add_loop_test(tests, mass_by_the_cube_of_the_shell, 0, COUNT(ratio_rows));
    tcase_add_loop_test(tests, the_ratio_is_of_grown_tortoises_that_were_measured, 0, 6);
    tcase_add_loop_test(tests, the_keeper_calls_at_so_many_grams, 0, COUNT(purpose_rows));
    tcase_add_loop_test(tests, a_gram_is_much_of_a_small_animal, 0, 2);
    tcase_add_test(tests, without_a_mass_there_is_no_alarm);
    tcase_add_loop_test(tests, what_was_lost_is_not_lost_again, 0, COUNT(lost_rows));
    tcase_add_loop_test(tests, a_goal_lies_where_the_weight_is_meant_to_go, 0, COUNT(goal_rows));
    tcase_add_test(tests, a_young_animal_may_have_its_grown_mass_as_its_goal);
    tcase_add_test(tests, the_last_healthy_weighing_is_the_goal);
    tcase_add_test(tests, of_two_healthy_weighings_on_a_day_the_first);
    tcase_add_loop_test(tests, a_score_on_the_other_side_is_told, 0, COUNT(score_rows));
    tcase_add_loop_test(tests, what_a_diet_should_have_lost_by_then, 0, COUNT(loss_rows));
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
