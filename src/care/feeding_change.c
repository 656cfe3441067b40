/* What the settled stance of food makes of the usual meals: a rest, less, a rising schedule. */
#include "care/feeding.h"
#include "care/intake.h"
#include "care/weight.h"

#include <math.h>
#include <string.h>

static const char *limit_source(const struct care_build *b, const char *name)
{
    return build_from_sourced(limit_find(b->in->reference, name), &b->in->reference->sources,
                              ORIGIN_REFERENCE)
        .source;
}

static double times_longer(const struct care_build *b)
{
    return 1 + build_limit(b, "condition-interval-percent") / 100;
}

typedef void apply_fn(struct care_build *b, const struct species_feeding_stage *stage);

/* ---- a rest ---------------------------------------------------------------------------------- */

/* The phase that follows a rest: the first that is none; NULL when none is known. */
static const struct stance_phase *phase_after_rest(const struct care_build *b)
{
    for (size_t i = 0; i < b->plan->topic_count; i++) {
        const struct topic_plan *topic = &b->plan->topics[i];
        for (size_t k = 1; strcmp(topic->topic, "food") == 0 && k < topic->phase_count; k++)
            if (!feeding_is_pause(topic->phases[k].stance))
                return &topic->phases[k];
    }
    return NULL;
}

static void stop(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    f->paused = true;
    const struct stance_phase *next = phase_after_rest(b);
    f->has_resume = next != NULL;
    if (next)
        f->resume = next->from;
}

/* A share of a meal, by grams or pieces: of what it eats now where that is less than the usual
 * most. */
static void share_of_meal(struct care_build *b, const struct species_feeding_stage *stage,
                          const char *limit)
{
    struct feeding_plan *f = &b->plan->feeding;
    double percent = build_limit(b, limit), share = percent / 100, usual_g = f->meal_high_g;
    if (f->has_meal_now)
        usual_g = fmin(usual_g, f->meal_now_g);
    f->meal_high_g = usual_g * share;
    f->meal_low_g = fmin(f->meal_low_g * share, f->meal_high_g);
    if (f->now.has_count && f->has_interval_now)
        f->insects_high =
            (int)fmin(f->insects_high, ceil(f->now.count_day * f->interval_now_days - 1e-9));
    if (stage->insects.range.known)
        f->insects_high = (int)fmin(f->insects_high, stage->insects.range.high);
    f->insects_high = (int)fmax(1, floor(f->insects_high * share));
    f->insects_low = (int)fmin(fmax(1, floor(f->insects_low * share)), f->insects_high);
    feeding_share_of_beside(b, share);
    if (f->has_meal)
        build_derive(b, &f->how,
                     (struct derived){"feeding.share_of_meal_g", f->meal_high_g, "g",
                                      "share-of-meal", limit_source(b, limit),
                                      INPUTS({"usual", usual_g, "g"}, {"share", percent, "%"})});
}

static void restart(struct care_build *b, const struct species_feeding_stage *stage)
{
    share_of_meal(b, stage, "vomit-meal-percent");
}

/* More a day than the stage's largest meal on its most frequent day. */
static bool is_overfed(const struct care_build *b, const struct species_feeding_stage *stage)
{
    const struct feeding_plan *f = &b->plan->feeding;
    const struct band *share = &stage->meal_percent.range, *insects = &stage->insects.range;
    const double days = fmax(1, f->usual_low_days), most_g = b->plan->patient.mass_g * share->high;
    return (share->known && f->now.has_g && f->now.g_day > most_g / 100 / days + 1e-9) ||
           (insects->known && f->now.has_count && f->now.count_day > insects->high / days + 1e-9);
}

/* Smaller, and of a thin animal no less often than now, but no more in all than is usual: the days
 * of one that was overfed are no habit to keep. */
static void no_large_meal(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    const bool was_overfed = is_overfed(b, stage);
    share_of_meal(b, stage, "small-meal-percent");
    const double share = build_limit(b, "small-meal-percent") / 100;
    const double least_days = fmax(1, floor(f->usual_low_days * share));
    const double often_days = fmax(f->interval_now_days, least_days);
    if (f->every_low_days < (was_overfed ? f->usual_low_days : least_days)) {
        f->every_low_days = f->usual_low_days;
        f->every_high_days = f->usual_high_days;
    }
    if (b->plan->weight.purpose != WEIGHT_GAIN || !f->has_interval_now || was_overfed)
        return;
    f->every_low_days = fmin(f->every_low_days, often_days);
    f->every_high_days = fmin(f->every_high_days, often_days);
}

/* ---- less -------------------------------------------------------------------------------------
 */

static void remark_unknown_intake(struct care_build *b)
{
    build_review(b, REVIEW_MISSING, "intake-unknown", (struct mark){0},
                 build_fact_text(b, "finding", FACT_TEXT, b->plan->feeding.change_from, NULL));
}

/* The most of one meal: a share of the mass to reach, not of the fat; without one the usual most.
 */
static double most_for_goal_g(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct weight_plan *w = &b->plan->weight;
    const struct band *share = &stage->meal_percent.range;
    if (!w->has_goal || !share->known)
        return f->meal_high_g;
    double most_g = w->goal_g * share->high / 100;
    build_derive(b, &f->how,
                 (struct derived){"feeding.goal_meal_g", most_g, "g", "share-of-goal",
                                  f->meal_from.source,
                                  INPUTS({"goal", w->goal_g, "g"}, {"share", share->high, "%"})});
    return most_g;
}

/* The lightest that the stage's prey can weigh at its heaviest; 0 for food without sizes. */
static double smallest_prey_g(const struct care_build *b, const struct species_feeding_stage *stage)
{
    double least_g = INFINITY;
    for (size_t i = 0; i < stage->foods.count; i++) {
        const struct food *food =
            food_find(b->in->reference, LIST_AT(stage->foods, struct text_value, i)->text);
        if (!food || food->kind.value != FOOD_PREY || food->sizes.count == 0)
            continue;
        least_g = fmin(least_g, LIST_AT(food->sizes, struct food_size, 0)->mass_g.range.high);
    }
    return isfinite(least_g) ? least_g : 0;
}

/* The whole food waits so long, unlike the animal part of a mixed diet. */
static bool is_all_of_the_food(enum diet_kind diet)
{
    return diet == DIET_WHOLE_PREY || diet == DIET_AQUATIC;
}

/* Nobody waits longer than the species' own limit without food, unless it does so now. */
static double within_limit(const struct feeding_plan *f, double days)
{
    double most = floor(f->fast_limit_days);
    if (!is_all_of_the_food(f->diet) || most <= f->usual_high_days)
        return days;
    return fmin(days, fmax(most, f->interval_now_days));
}

static void derive_interval(struct care_build *b, double usual)
{
    struct feeding_plan *f = &b->plan->feeding;
    build_derive(b, &f->how,
                 (struct derived){"feeding.every_days.high", f->every_high_days, "d",
                                  "interval-times", limit_source(b, "condition-interval-percent"),
                                  INPUTS({"usual", usual, "d"}, {"times", times_longer(b), ""},
                                         {"usual-low", f->usual_low_days, "d"},
                                         {"fast-limit", f->fast_limit_days, "d"},
                                         {"lowest", f->every_low_days, "d"})});
}

/* Between two thirds of what it eats now and all of it, at a longer interval: never more a day than
 * now, nor so little that it starves. */
static void less_than_now(struct care_build *b, const struct species_feeding_stage *stage,
                          double now_g_day)
{
    struct feeding_plan *f = &b->plan->feeding;
    double times = times_longer(b), smallest_g = smallest_prey_g(b, stage);
    double days = fmax(ceil(f->interval_now_days * times - 1e-9), f->usual_low_days);
    days = within_limit(f, days);
    if (now_g_day * days < smallest_g)
        days = within_limit(f, ceil(smallest_g / now_g_day - 1e-9));
    f->every_low_days = f->every_high_days = days;
    double most_g = now_g_day * days;
    f->meal_high_g = fmin(most_for_goal_g(b, stage), most_g);
    f->meal_low_g = fmin(most_g / times, f->meal_high_g);
    derive_interval(b, f->interval_now_days);
    build_derive(b, &f->how,
                 (struct derived){"feeding.most_meal_g", most_g, "g", "present-intake",
                                  "arithmetic",
                                  INPUTS({"now", now_g_day, "g/d"}, {"interval", days, "d"})});
}

/* Where nobody knows what it eats now: half again the usual interval. */
static void less_than_usual(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    double times = times_longer(b), usual = fmax(f->usual_high_days, f->interval_now_days);
    double most_g = f->has_meal ? most_for_goal_g(b, stage) : 0;
    f->every_high_days = within_limit(f, ceil(usual * times));
    f->every_low_days =
        fmin(ceil(fmax(f->usual_low_days * times, f->interval_now_days)), f->every_high_days);
    if (f->has_meal && most_g < f->meal_high_g) {
        f->meal_low_g *= most_g / f->meal_high_g; /* the band keeps its shape */
        f->meal_high_g = most_g;
    }
    derive_interval(b, usual);
    if (f->has_meal)
        remark_unknown_intake(b);
}

/* A longer interval comes before a smaller meal. */
static void longer_interval(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    struct ends now;
    f->every_from.because = f->change_from;
    if (f->has_meal && f->has_interval_now && intake_bounds_g_day(b, stage, &now))
        less_than_now(b, stage, now.low);
    else
        less_than_usual(b, stage);
}

/* Insect eaters keep their days: fewer insects, never more a day than now, never none. */
static void fewer_insects(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    double times = times_longer(b), least = f->insects_low / times, most = f->insects_high / times;
    f->every_from.because = f->change_from;
    if (f->now.has_count && f->has_interval_now && f->now.count_day > 0) {
        double days = fmax(f->interval_now_days, ceil(1 / f->now.count_day - 1e-9));
        f->every_low_days = f->every_high_days = days;
        most = fmin(f->insects_high, f->now.count_day * days);
        least = most / times;
    } else {
        remark_unknown_intake(b);
    }
    f->insects_high = (int)fmax(1, floor(most + 1e-9));
    f->insects_low = (int)fmin(fmax(1, ceil(least - 1e-9)), f->insects_high);
    build_derive(b, &f->how,
                 (struct derived){"feeding.insects.high", f->insects_high, "", "fewer-insects",
                                  limit_source(b, "condition-interval-percent"),
                                  INPUTS({"most", most, ""})});
}

/* Food whose amount nobody knows keeps its days, or those of now where they are rarer. */
static void keep_days(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    f->every_low_days = fmax(f->every_low_days, f->interval_now_days);
    f->every_high_days = fmax(f->every_high_days, f->every_low_days);
    f->every_from.because = f->change_from;
    remark_unknown_intake(b);
}

/* Plant eaters need fibre each day, so theirs stays. */
static void less(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    feeding_less_beside(b, times_longer(b));
    if (f->diet == DIET_PLANTS) {
        f->change = FEEDING_AS_USUAL;
        build_review(b, REVIEW_REMARK, "interval-kept-for-plants", (struct mark){0},
                     build_fact_text(b, "finding", FACT_TEXT, f->change_from, NULL));
    } else if (feeding_less_than_present(b, times_longer(b))) {
        return;
    } else if (f->has_insects && !f->has_meal) {
        fewer_insects(b);
    } else if (f->diet == DIET_FRUIT_MIX || f->diet == DIET_MIXED) {
        keep_days(b);
    } else {
        longer_interval(b, stage);
    }
}

/* ---- build up ----------------------------------------------------------------------------------
 */

/* Of the mass to reach, where it is heavier than the thin one. */
static void full_meal(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct weight_plan *w = &b->plan->weight;
    const struct band *share = &stage->meal_percent.range;
    if (!w->has_goal || !share->known || w->goal_g <= b->plan->patient.mass_g)
        return;
    f->meal_low_g = w->goal_g * share->low / 100;
    f->meal_high_g = w->goal_g * share->high / 100;
    build_derive(b, &f->how,
                 (struct derived){"feeding.goal_meal_g", f->meal_high_g, "g", "share-of-goal",
                                  f->meal_from.source,
                                  INPUTS({"goal", w->goal_g, "g"}, {"share", share->high, "%"})});
}

/* The same food a day as at the shortest usual interval. */
static void scale_to_interval(struct feeding_plan *f)
{
    double share = f->usual_low_days > 0 ? f->every_low_days / f->usual_low_days : 1;
    f->meal_low_g *= share;
    f->meal_high_g *= share;
    f->insects_low = (int)fmax(1, floor(f->insects_low * share));
    f->insects_high = (int)fmax(f->insects_low, ceil(f->insects_high * share));
}

/* With which share of a full meal it begins, and when it comes to all of it: as the veterinarian
 * wrote, else as is practice, and then she is told. */
static void plan_start(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct visit_targets *own = &b->in->visit->targets;
    bool is_own = own->start_percent.known || own->start_days.known;
    f->start_percent = own->start_percent.known ? own->start_percent.value
                                                : 100 / fmax(1, build_limit(b, "build-up-steps"));
    f->start_days =
        fmax(1, own->start_days.known ? own->start_days.value : build_limit(b, "build-up-days"));
    f->start_from = is_own ? build_from_veterinarian(b)
                           : build_from_sourced(limit_find(b->in->reference, "build-up-days"),
                                                &b->in->reference->sources, ORIGIN_REFERENCE);
    if (!is_own)
        build_review(
            b, REVIEW_REMARK, "build-up-share", (struct mark){0},
            build_fact(b, "share", FACT_PERCENT, f->start_percent, f->start_percent,
                       build_fact(b, "days", FACT_DAYS, f->start_days, f->start_days, NULL)));
}

/* As often as now or as the shortest usual interval, never less a day than now. */
static void build_up(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    struct ends now = {0};
    if (f->has_interval_now)
        f->every_low_days = fmin(f->every_low_days, f->interval_now_days);
    f->every_high_days = f->every_low_days;
    f->every_from.because = f->change_from;
    feeding_more_beside(b, f->beside.every_low_days);
    build_derive(b, &f->how,
                 (struct derived){"feeding.every_days.high", f->every_high_days, "d",
                                  "shortest-interval", "arithmetic",
                                  INPUTS({"usual-low", f->usual_low_days, "d"},
                                         {"now", f->interval_now_days, "d"})});
    full_meal(b, stage);
    scale_to_interval(f);
    if (!f->has_meal && !f->has_insects) {
        feeding_present_or_more(b); /* nobody knows how much more */
        return;
    }
    f->is_rising =
        f->has_meal ? intake_bounds_g_day(b, stage, &now) : f->has_insects && f->now.has_count;
    if (!f->is_rising && (f->has_meal || f->has_insects))
        remark_unknown_intake(b);
    if (f->is_rising)
        plan_start(b);
    if (f->is_rising && f->has_meal)
        f->least_meal_g = now.high * f->every_high_days;
    if (f->is_rising && !f->has_meal)
        f->least_insects = f->now.count_day * f->every_high_days;
}

/* ---- as usual, of a thin one -------------------------------------------------------------------
 */

/* Found thin, or much lighter than it was. */
static bool is_thin(const struct care_build *b)
{
    return weight_has_lost_much(b) || build_is_found(b, "underweight") ||
           build_is_found(b, "thin-tail");
}

/* As much a day as now: more often within the usual, then more a meal. */
static double keep_above_now(struct feeding_plan *f, double least, double now_a_day)
{
    if (now_a_day <= 0 || f->every_high_days <= 0)
        return least;
    if (least < now_a_day * f->every_high_days)
        f->every_high_days = fmax(f->every_low_days, floor(least / now_a_day + 1e-9));
    return fmax(least, now_a_day * f->every_high_days);
}

/* Of an animal that is a little thin: the upper half of the usual, never less a day than now. */
static void usual_of_thin(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    struct ends now = {0};
    if (!is_thin(b))
        return;
    feeding_more_beside(b, f->beside.every_high_days);
    if (!f->has_meal && !f->has_insects) {
        feeding_present_or_more(b);
    } else if (f->has_meal) {
        double least_g = (f->meal_low_g + f->meal_high_g) / 2;
        bool known = intake_bounds_g_day(b, stage, &now);
        f->meal_low_g = known ? keep_above_now(f, least_g, now.high) : least_g;
        f->meal_high_g = fmax(f->meal_high_g, f->meal_low_g);
    } else if (f->has_insects) {
        double least = ceil((f->insects_low + f->insects_high) / 2.0);
        if (f->now.has_count)
            least = keep_above_now(f, least, f->now.count_day);
        f->insects_low = (int)ceil(least - 1e-9);
        f->insects_high = (int)fmax(f->insects_high, f->insects_low);
    }
}

static void rest(struct care_build *b, const struct species_feeding_stage *stage);
static void offer_as_now(struct care_build *b, const struct species_feeding_stage *stage);

/* ---- the table ----------------------------------------------------------------------------------
 */

static const struct food_row {
    const char *stance;
    enum feeding_change change;
    apply_fn *apply;
} food_rows[] = {
    {"none-until-vet", FEEDING_PAUSE, rest},
    {"rest-until", FEEDING_PAUSE, rest},
    {"vet-plan", FEEDING_PAUSE, rest},
    {"restart", FEEDING_NO_LARGE_MEAL, restart},
    {"offer-only", FEEDING_NO_DIETING, offer_as_now},
    {"build-up", FEEDING_SHORTER_INTERVAL, build_up},
    {"small", FEEDING_NO_LARGE_MEAL, no_large_meal},
    {"less", FEEDING_LONGER_INTERVAL, less},
    {"as-usual", FEEDING_AS_USUAL, usual_of_thin},
};

static const struct food_row *food_row(const char *stance)
{
    for (size_t i = 0; i < sizeof food_rows / sizeof *food_rows; i++)
        if (strcmp(food_rows[i].stance, stance) == 0)
            return &food_rows[i];
    return NULL;
}

/* What the rest itself says comes after it; NULL for nothing. */
static const char *said_to_follow(const struct care_build *b)
{
    const struct stance_phase *now = plan_phase_on(b->plan, "food", b->plan->on);
    return now && !now->has_until ? now->then : NULL;
}

static void keep_limit(struct care_build *b, const struct species_feeding_stage *stage,
                       const struct stance_phase *phase);

/* Whoever swallows prey whole and was ill does not begin with a whole meal, although nothing else
 * asks for less by then (common practice, no source). */
static bool begins_small(const struct care_build *b, const char *next)
{
    bool is_ill = false;
    for (size_t i = 0; i < b->plan->finding_count; i++)
        is_ill |= b->plan->findings[i].severity != SEVERITY_NORMAL;
    return is_ill && strcmp(next, "as-usual") == 0 && b->plan->feeding.diet == DIET_WHOLE_PREY &&
           !build_is_found(b, "gravid") && !is_thin(b);
}

/* Nothing until the rest is over, then meals as what follows asks for, whoever let it rest. */
static void rest(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct stance_phase *next = phase_after_rest(b);
    const char *stance = next ? next->stance : said_to_follow(b);
    const struct food_row *row = stance ? food_row(stance) : NULL;
    stop(b);
    /* a rest for another reason than food that came up says so */
    const bool is_dated = f->has_resume || plan_holds(b->plan, "food", "rest-until");
    f->change = is_dated && build_is_found(b, "vomited") ? FEEDING_AFTER_VOMITING : FEEDING_PAUSE;
    if (!stage || !row)
        return;
    f->begins_small = begins_small(b, stance);
    if (f->begins_small)
        row = food_row("small");
    row->apply(b, stage);
    /* half a meal is bounded enough */
    if (next && row->apply != restart)
        keep_limit(b, stage, next);
}

/* What it eats now is the least and the most of a meal, but no more than the usual most. */
static void keep_amount_now(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    double meal_g = f->now.has_g ? f->now.g_day * f->interval_now_days : 0,
           pieces = f->now.has_count ? f->now.count_day * f->interval_now_days : 0;
    const struct provenance keeper = {.origin = ORIGIN_KEEPER, .because = f->change_from};
    if (f->has_meal && meal_g > 0) {
        f->meal_low_g = f->meal_high_g = fmin(meal_g, f->meal_high_g);
        f->meal_from = keeper;
        f->is_as_now = true;
    } else if (f->has_insects && !f->has_meal && pieces >= 1 - 1e-9) {
        /* beside more insects than are usual the plants cannot be their share of all food */
        if (f->now.count_day > f->insects_high / fmax(f->usual_low_days, 1) + 1e-9)
            f->has_plant_share = false;
        f->insects_low = f->insects_high = (int)floor(pieces + 1e-9);
        f->meal_from = keeper;
        f->is_as_now = true;
    }
}

/* Of an animal that is only offered food: what it is used to on the days that it is used to. */
static void offer_as_now(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    (void)stage;
    feeding_beside_as_now(b);
    /* plants stand there each day, however seldom something was given */
    if (!f->has_interval_now || f->diet == DIET_PLANTS)
        return;
    /* waiting longer than the species does is no habit to keep */
    double days = f->interval_now_days, longest = fmax(f->every_high_days, f->fast_limit_days);
    /* nor is being fed more often than is usual of a fat one; one with eggs is on no diet */
    if (build_is_found(b, "overweight") && b->plan->weight.purpose != WEIGHT_LAY)
        days = fmax(days, f->every_low_days);
    f->every_low_days = f->every_high_days = days <= longest ? days : f->every_high_days;
    f->every_from = (struct provenance){.origin = ORIGIN_KEEPER, .because = f->change_from};
    keep_amount_now(b);
    /* what it gets now is none of the meals planned: nothing that could be cut down stays */
    if (!f->is_as_now && (f->now.has_g || f->now.has_count))
        f->change = FEEDING_AS_USUAL;
}

/* What lost against offering alone still bounds what is offered: the strictest of it. */
static void keep_limit(struct care_build *b, const struct species_feeding_stage *stage,
                       const struct stance_phase *phase)
{
    static const char *const strictest_first[] = {"small", "build-up", "less"};
    for (size_t i = 0; i < sizeof strictest_first / sizeof *strictest_first; i++)
        for (size_t k = 0; k < phase->limit_count; k++)
            if (strcmp(phase->limits[k], strictest_first[i]) == 0) {
                const struct food_row *row = food_row(strictest_first[i]);
                if (row)
                    row->apply(b, stage);
                /* "do not cut down" beside a small meal would be two orders */
                if (row && i == 0)
                    b->plan->feeding.change = row->change;
                return;
            }
}

void feeding_apply_stance(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct stance_phase *phase = plan_phase_on(b->plan, "food", b->plan->on);
    const struct food_row *row = phase ? food_row(phase->stance) : NULL;
    if (!row)
        return;
    f->change = row->change;
    f->change_from = build_stance_from(phase);
    if (stage)
        row->apply(b, stage);
    else if (feeding_is_pause(row->stance))
        stop(b);
    if (stage && !feeding_is_pause(row->stance))
        keep_limit(b, stage, phase);
}
