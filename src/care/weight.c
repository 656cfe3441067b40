/* What the weight is meant to do from today on: its goal, and the grams at which to call. */
#include "care/weight.h"

#include <math.h>
#include <string.h>

#include "care/feeding.h"

/* ---- the purpose --------------------------------------------------------------------------------
 */

static enum weight_purpose purpose(const struct care_build *b)
{
    static const struct {
        const char *stance;
        enum weight_purpose purpose;
    } rows[] = {{"less", WEIGHT_LOSE}, {"build-up", WEIGHT_GAIN}};
    if (build_is_found(b, "gravid"))
        return WEIGHT_LAY;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (plan_holds(b->plan, "food", rows[i].stance))
            return rows[i].purpose;
    /* whatever its food has to wait for */
    if (build_is_found(b, "underweight") || build_is_found(b, "thin-tail"))
        return WEIGHT_GAIN;
    return feeding_is_young(b) ? WEIGHT_GROW : WEIGHT_HOLD;
}

/* ---- the goal -----------------------------------------------------------------------------------
 */

/* The last weighing that was marked as of a healthy animal. */
static const struct visit_weighing *last_healthy(const struct care_build *b)
{
    const struct list *earlier = &b->in->visit->patient.earlier;
    const struct visit_weighing *last = NULL;
    for (size_t i = 0; i < earlier->count; i++) {
        const struct visit_weighing *one = LIST_AT(*earlier, struct visit_weighing, i);
        if (one->healthy.value && one->mass_g.known && one->on.known &&
            date_compare(one->on.date, b->plan->on) < 0 &&
            (!last || date_compare(one->on.date, last->on.date) > 0))
            last = one;
    }
    return last;
}

/* A goal on the wrong side of today's mass is none. */
static bool is_towards(enum weight_purpose purpose, double goal_g, double now_g)
{
    return purpose == WEIGHT_LOSE ? goal_g < now_g : purpose != WEIGHT_GAIN || goal_g > now_g;
}

/* A point in the wrong place or another unit: the meals of a diet follow the goal, so one that no
 * animal reaches starves or stuffs it. A young one may have its grown mass as its goal. */
static bool is_out_of_reach(struct care_build *b, const struct quantity *goal)
{
    double now_g = b->plan->patient.mass_g, times = build_limit(b, "goal-mass-times");
    bool far_above = b->plan->weight.purpose != WEIGHT_GROW && goal->value > now_g * times;
    if (!b->plan->patient.has_mass || (!far_above && goal->value * times >= now_g))
        return false;
    build_review(b, REVIEW_IMPLAUSIBLE, "goal-out-of-reach", goal->at,
                 build_fact(b, "written", FACT_MASS, goal->value, goal->value,
                            build_fact(b, "before", FACT_MASS, now_g, now_g, NULL)));
    return true;
}

static void find_goal(struct care_build *b)
{
    const struct visit_patient *a = &b->in->visit->patient;
    struct weight_plan *w = &b->plan->weight;
    const struct visit_weighing *healthy = last_healthy(b);
    const struct quantity *goal = a->goal_mass_g.known ? &a->goal_mass_g
                                  : healthy            ? &healthy->mass_g
                                                       : NULL;
    bool is_diet = w->purpose == WEIGHT_LOSE || w->purpose == WEIGHT_GAIN;
    if (goal && is_out_of_reach(b, goal))
        return;
    if (goal && is_towards(w->purpose, goal->value, b->plan->patient.mass_g)) {
        w->has_goal = true;
        w->goal_g = goal->value;
        w->goal_from = a->goal_mass_g.known ? "goal-mass" : "healthy";
    } else if (goal && is_diet) {
        build_review(b, REVIEW_CONFLICT, "goal-on-the-wrong-side", goal->at,
                     build_fact(b, "goal", FACT_MASS, goal->value, goal->value, NULL));
    } else if (is_diet) {
        build_review(b, REVIEW_MISSING, "goal-missing", (struct mark){0}, NULL);
    }
}

/* A score of the scale's fat half beside a rising schedule, or of its thin half beside a diet. */
static void check_score(struct care_build *b)
{
    const struct visit_body_score *score = &b->in->visit->patient.body_score;
    struct weight_plan *w = &b->plan->weight;
    if (!score->score.known || !score->of.known)
        return;
    w->has_score = true;
    w->score = score->score.value;
    w->score_of = score->of.value;
    double middle = (1 + w->score_of) / 2;
    bool against = (w->purpose == WEIGHT_LOSE && w->score < middle) ||
                   (w->purpose == WEIGHT_GAIN && w->score > middle);
    if (against)
        build_review(b, REVIEW_CONFLICT, "score-against-food", score->score.at,
                     build_fact(b, "of", FACT_COUNT, w->score_of, w->score_of,
                                build_fact(b, "score", FACT_COUNT, w->score, w->score, NULL)));
}

/* ---- alarms
 * ----------------------------------------------------------------------------------------
 */

static double limit_high(const struct care_build *b, const char *name)
{
    return limit_find(b->in->reference, name)->range.high;
}

static const char *limit_source(const struct care_build *b, const char *name)
{
    return build_from_sourced(limit_find(b->in->reference, name), &b->in->reference->sources,
                              ORIGIN_REFERENCE)
        .source;
}

static double derive(struct care_build *b, const char *what, double percent, const char *limit)
{
    double now_g = b->plan->patient.mass_g, value_g = now_g * (1 + percent / 100);
    struct ends mass = build_mass_g(b, now_g);
    build_band(build_derive(b, &b->plan->weight.how,
                            (struct derived){what, value_g, "g", "percent-of-today",
                                             limit_source(b, limit),
                                             INPUTS({"mass", now_g, "g"}, {"percent", percent, "%"},
                                                    {"scale-error", mass.high - now_g, "g"})}),
               mass.low * (1 + percent / 100), mass.high * (1 + percent / 100));
    return value_g;
}

/* What may be lost and gained before the keeper calls, by purpose; a limit of NULL: no alarm. */
static const struct alarm_row {
    const char *loss, *gain, *laid;
} alarm_rows[] = {
    [WEIGHT_HOLD] = {"mass-loss-fast-percent", "mass-gain-percent", NULL},
    [WEIGHT_LOSE] = {"mass-loss-fast-percent", "mass-steady-percent", NULL},
    [WEIGHT_GAIN] = {"mass-steady-percent", "mass-gain-percent", NULL},
    /* within what is steady lie the scale's error and what a full or empty gut weighs */
    [WEIGHT_GROW] = {"mass-loss-young-percent", NULL, NULL},
    /* what laying takes off is no alarm once, and no excuse before */
    [WEIGHT_LAY] = {"mass-loss-fast-percent", NULL, "laying-loss-percent"},
};

/* Eggs or young took it with them. */
static bool has_given_birth(const struct care_build *b)
{
    return build_is_found(b, "after-laying") || build_is_found(b, "after-birth");
}

bool weight_has_lost_much(const struct care_build *b)
{
    const struct growth_plan *g = &b->plan->growth;
    return g->known && !has_given_birth(b) &&
           (g->weight == WEIGHT_FALLING_FAST ||
            -g->change_percent > build_limit(b, "mass-loss-fast-percent"));
}

/* Its food rests, or it does not eat by itself: some is lost, whatever the weight is meant to do.
 */
static bool is_fasting(const struct care_build *b)
{
    static const char *const rests[] = {"none-until-vet", "rest-until", "vet-plan", "offer-only"};
    for (size_t i = 0; i < sizeof rests / sizeof *rests; i++)
        if (plan_holds(b->plan, "food", rests[i]))
            return true;
    return false;
}

/* The limit of a loss and how much of it is left: what was lost within its days already counts, but
 * a scale's own error is no alarm. A diet's loss is meant, so what went too fast halves it. */
static double loss_percent(struct care_build *b, const struct alarm_row *row, const char **limit)
{
    const struct growth_plan *g = &b->plan->growth;
    const char *usual = "mass-loss-fast-percent", *rest = "mass-loss-fasting-percent";
    const char *least =
        is_fasting(b) || b->plan->weight.purpose == WEIGHT_LOSE ? rest : "mass-steady-percent";
    bool is_usual = strcmp(row->loss, usual) == 0;
    bool is_diet = b->plan->weight.purpose == WEIGHT_LOSE;
    bool is_recent = g->known && !has_given_birth(b) && g->change_percent < 0 &&
                     g->per_days <= (long)build_limit(b, "mass-loss-fast-days");
    const bool may_lose_less = !is_usual && is_fasting(b);
    *limit = weight_has_lost_much(b) || may_lose_less ? least : row->loss;
    double percent = limit_high(b, *limit);
    if (*limit == usual && is_recent && !is_diet)
        percent = fmax(percent + g->change_percent, limit_high(b, least));
    return percent;
}

/* What was lost over a longer time than the alarm's own comes on top of it: she is told. */
static void review_alarm(struct care_build *b, const char *limit, double loss)
{
    const struct growth_plan *g = &b->plan->growth;
    const double steady = limit_high(b, "mass-steady-percent");
    if (strcmp(limit, "mass-loss-fast-percent") != 0 || !g->known || has_given_birth(b) ||
        -g->change_percent <= steady || loss < limit_high(b, limit) ||
        b->plan->weight.purpose == WEIGHT_LOSE)
        return;
    build_review(b, REVIEW_REMARK, "alarm-after-loss", (struct mark){0},
                 build_fact(b, "lost", FACT_PERCENT, -g->change_percent, -g->change_percent,
                            build_fact(b, "more", FACT_PERCENT, loss, loss, NULL)));
}

static void set_alarms(struct care_build *b)
{
    struct weight_plan *w = &b->plan->weight;
    const struct alarm_row *row = &alarm_rows[w->purpose];
    if (!b->plan->patient.has_mass)
        return;
    w->has_low = true;
    w->needs_fine_scale = b->plan->patient.mass_g < build_limit(b, "fine-scale-below-g");
    bool lost = weight_has_lost_much(b) && w->purpose != WEIGHT_LOSE;
    const char *limit;
    double loss = loss_percent(b, row, &limit);
    const struct quantity *own = &b->in->visit->targets.call_mass_g;
    if (own->known) { /* the veterinarian's own */
        w->alarm_low_g = own->value;
        w->low_is_written = true;
    } else {
        w->alarm_low_g = derive(b, "weight.alarm_low_g", -loss, limit);
        review_alarm(b, limit, loss);
    }
    if (w->purpose == WEIGHT_LOSE && weight_has_lost_much(b))
        build_review(b, REVIEW_CONFLICT, "diet-after-fast-loss", b->in->visit->patient.mass_g.at,
                     build_fact(b, "change", FACT_PERCENT, b->plan->growth.change_percent,
                                b->plan->growth.change_percent,
                                build_fact_date(b, "since", b->plan->growth.since, NULL)));
    w->alarm_days = build_limit(b, "mass-loss-fast-days");
    w->has_laid_low = row->laid != NULL;
    if (w->has_laid_low)
        w->laid_low_g = derive(b, "weight.laid_low_g", -limit_high(b, row->laid), row->laid);
    /* an ill animal that gains is getting well */
    bool is_ill =
        w->purpose == WEIGHT_HOLD && build_has_illness(b) && !build_is_found(b, "overweight");
    if (row->gain && !is_ill && !lost) {
        w->has_high = true;
        w->alarm_high_g = derive(b, "weight.alarm_high_g", limit_high(b, row->gain), row->gain);
    }
    /* a goal that is reached is the time to ask, too */
    if (w->has_goal && w->purpose == WEIGHT_GAIN && w->goal_g > w->alarm_high_g)
        w->alarm_high_g = w->goal_g, w->high_is_written = true;
    if (w->has_goal && w->purpose == WEIGHT_LOSE && w->goal_g > w->alarm_low_g)
        w->alarm_low_g = w->goal_g, w->low_is_written = true;
}

static const char *const LOSS = "diet-loss-week-percent";

bool weight_expected(struct care_build *b, const struct weight_curve *curve,
                     struct derivations *how, struct ends *out)
{
    double weeks = curve->days / 7, from_g = curve->from_g;
    double least = build_limit(b, LOSS), most = limit_high(b, LOSS);
    if (curve->purpose != WEIGHT_LOSE || weeks <= 0)
        return false;
    out->low = fmax(from_g - from_g * most / 100 * weeks, curve->goal_g);
    out->high = fmax(from_g - from_g * least / 100 * weeks, curve->goal_g);
    build_band(build_derive(b, how,
                            (struct derived){curve->what, (out->low + out->high) / 2, "g",
                                             "loss-a-week", limit_source(b, LOSS),
                                             INPUTS({"mass", from_g, "g"}, {"weeks", weeks, ""},
                                                    {"least", least, "%"}, {"most", most, "%"},
                                                    {"goal", curve->goal_g, "g"})}),
               out->low, out->high);
    return true;
}

void weight_expect_on(struct care_build *b, struct date day)
{
    struct weight_plan *w = &b->plan->weight;
    const struct weight_curve curve = {
        .purpose = w->purpose,
        .from_g = b->plan->patient.mass_g,
        .goal_g = w->has_goal ? w->goal_g : 0,
        .days = (double)date_days_between(b->plan->on, day),
        .what = "weight.expected_g",
    };
    struct ends expected;
    if (!b->plan->patient.has_mass || w->has_expected ||
        !weight_expected(b, &curve, &w->how, &expected))
        return;
    w->has_expected = true;
    w->weigh_on = day;
    w->expected_low_g = expected.low;
    w->expected_high_g = expected.high;
}

bool weight_plan(struct care_build *b)
{
    b->plan->weight.purpose = purpose(b);
    find_goal(b);
    check_score(b);
    set_alarms(b);
    return true;
}
