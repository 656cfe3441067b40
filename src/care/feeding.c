/* How much and how often: the species' stage, what findings change, what the veterinarian set. */
#include "care/feeding.h"

#include <math.h>
#include <string.h>

/* Where a threshold of the reference values comes from. */
static const char *limit_source(const struct care_build *b, const char *name)
{
    return build_from_sourced(limit_find(b->in->facts, name), &b->in->facts->sources,
                              ORIGIN_REFERENCE)
        .source;
}

/* ---- the usual meal ----------------------------------------------------------------------- */

static void derive_share(struct care_build *b, const char *what, double meal_g, double percent)
{
    struct feeding_plan *f = &b->plan->feeding;
    double mass_g = b->in->visit->patient.mass_g.value;
    struct ends mass = build_mass_g(b, mass_g);
    build_band(
        build_derive(b, &f->how,
                     (struct derived){what, meal_g, "g", "share-of-mass", f->meal_from.source,
                                      INPUTS({"mass", mass_g, "g"}, {"share", percent, "%"},
                                             {"scale-error", mass.high - mass_g, "g"})}),
        mass.low * percent / 100, mass.high * percent / 100);
}

static void plan_meal_mass(struct care_build *b, const struct sourced_value *percent)
{
    struct feeding_plan *f = &b->plan->feeding;
    if (!percent->range.known || !b->plan->patient.has_mass)
        return;
    double mass_g = b->in->visit->patient.mass_g.value;
    f->has_meal = true;
    f->meal_low_g = mass_g * percent->range.low / 100;
    f->meal_high_g = mass_g * percent->range.high / 100;
    f->meal_from = build_from_sourced(percent, &b->in->species->sources, ORIGIN_SPECIES_SHEET);
    derive_share(b, "feeding.meal_g.low", f->meal_low_g, percent->range.low);
    derive_share(b, "feeding.meal_g.high", f->meal_high_g, percent->range.high);
}

static void plan_usual(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct list *sources = &b->in->species->sources;
    plan_meal_mass(b, &stage->meal_percent);
    build_spread(b, "meal-spread", &stage->meal_percent, sources, FACT_PERCENT);
    if (stage->insects.range.known) {
        f->has_insects = true;
        f->insects_low = (int)stage->insects.range.low;
        f->insects_high = (int)stage->insects.range.high;
        if (!f->has_meal)
            f->meal_from = build_from_sourced(&stage->insects, sources, ORIGIN_SPECIES_SHEET);
    }
    const struct band *plants = &stage->plant_share_percent.range;
    if (plants->known) {
        f->has_plant_share = true;
        f->plant_low_percent = plants->low;
        f->plant_high_percent = plants->high;
        if (!f->has_meal && !f->has_insects)
            f->meal_from =
                build_from_sourced(&stage->plant_share_percent, sources, ORIGIN_SPECIES_SHEET);
    }
    f->every_low_days = f->usual_low_days = stage->every_days.range.low;
    f->every_high_days = f->usual_high_days = stage->every_days.range.high;
    f->every_from = build_from_sourced(&stage->every_days, sources, ORIGIN_SPECIES_SHEET);
    build_spread(b, "interval-spread", &stage->every_days, sources, FACT_DAYS);
}

/* Months without food are normal only for a grown animal whose weight holds. */
static void plan_limits(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct species *s = b->in->species;
    enum weight_state weight = b->plan->growth.weight;
    bool careful =
        f->stage != STAGE_ADULT || weight == WEIGHT_FALLING || weight == WEIGHT_FALLING_FAST;
    f->fast_limit_days = s->no_food_days.range.low;
    if (careful && s->no_food_young_days.range.known)
        f->fast_limit_days = s->no_food_young_days.range.low;
    f->stool_limit_days = s->no_stool_days.range.low;
}

/* ---- what a finding changes ---------------------------------------------------------------- */

static double condition_share(const struct care_build *b)
{
    return build_limit(b, "condition-interval-percent") / 100;
}

static void scale_meal(struct feeding_plan *f, double factor)
{
    f->meal_low_g *= factor;
    f->meal_high_g *= factor;
    f->insects_low = (int)fmax(1, floor(f->insects_low * factor));
    f->insects_high = (int)fmax(f->insects_low, floor(f->insects_high * factor));
}

static void keep_as_usual(struct care_build *b)
{
    (void)b;
}

/* The first day after today on which a meal may be offered again; false when none is known. */
static bool find_resume(const struct care_build *b, struct date *resume)
{
    for (size_t i = 0; i < b->plan->topic_count; i++) {
        const struct topic_plan *topic = &b->plan->topics[i];
        for (size_t k = 1; strcmp(topic->topic, "food") == 0 && k < topic->phase_count; k++)
            if (!feeding_is_pause(topic->phases[k].stance)) {
                *resume = topic->phases[k].from;
                return true;
            }
    }
    return false;
}

static void pause(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    f->paused = true;
    f->has_resume = find_resume(b, &f->resume);
}

/* A share of a meal, then the usual interval. */
static void restart(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    double percent = build_limit(b, "vomit-meal-percent"), usual_g = f->meal_high_g;
    scale_meal(f, percent / 100);
    if (f->has_meal)
        build_derive(b, &f->how,
                     (struct derived){"feeding.restart_meal_g", f->meal_high_g, "g",
                                      "share-of-meal", limit_source(b, "vomit-meal-percent"),
                                      INPUTS({"usual", usual_g, "g"}, {"share", percent, "%"})});
}

/* Nothing until the rest is over, then a share of a meal. */
static void after_vomiting(struct care_build *b)
{
    pause(b);
    restart(b);
}

static void no_large_meal(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    f->meal_high_g = f->meal_low_g;
    f->insects_high = f->insects_low;
}

/* The whole food waits so long, unlike the animal part of a mixed diet. */
static bool is_all_of_the_food(enum diet_kind diet)
{
    return diet == DIET_WHOLE_PREY || diet == DIET_INSECTS || diet == DIET_AQUATIC;
}

/* Longer intervals come before smaller meals. Plant eaters need fibre each day, so theirs stays;
 * nobody waits longer than the species' own limit without food. */
static void longer_interval(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    if (f->diet == DIET_PLANTS) {
        f->change = FEEDING_AS_USUAL;
        build_review(b, REVIEW_REMARK, "interval-kept-for-plants", (struct mark){0},
                     build_fact_text(b, "finding", FACT_TEXT, b->plan->feeding.change_from, NULL));
        return;
    }
    double times = 1 + condition_share(b), most = floor(f->fast_limit_days);
    f->every_low_days = ceil(f->every_low_days * times);
    f->every_high_days = ceil(f->every_high_days * times);
    if (is_all_of_the_food(f->diet) && most > f->usual_high_days && f->every_high_days > most) {
        f->every_high_days = most;
        f->every_low_days = fmin(f->every_low_days, most);
    }
    f->every_from.because = b->plan->feeding.change_from;
    build_derive(b, &f->how,
                 (struct derived){"feeding.every_days.high", f->every_high_days, "d",
                                  "interval-times", limit_source(b, "condition-interval-percent"),
                                  INPUTS({"usual", f->usual_high_days, "d"}, {"times", times, ""},
                                         {"fast-limit", f->fast_limit_days, "d"})});
}

/* The upper end of small meals at a shorter interval: the middle of the usual band, or more where
 * that would be less food a day than usual. */
static double small_meal_high(const struct feeding_plan *f, double low, double high)
{
    double usual_days = (f->usual_low_days + f->usual_high_days) / 2;
    double same_food = usual_days > 0 ? (low + high) * f->usual_low_days / usual_days - low : high;
    return fmin(high, fmax((low + high) / 2, same_food));
}

static void shorter_interval(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    f->every_high_days = f->every_low_days;
    f->meal_high_g = small_meal_high(f, f->meal_low_g, f->meal_high_g);
    f->insects_high = (int)ceil(small_meal_high(f, f->insects_low, f->insects_high));
    f->every_from.because = b->plan->feeding.change_from;
    build_derive(b, &f->how,
                 (struct derived){"feeding.every_days.high", f->every_high_days, "d",
                                  "interval-low-end", "arithmetic",
                                  INPUTS({"usual-low", f->usual_low_days, "d"},
                                         {"usual-high", f->usual_high_days, "d"})});
}

/* What each stance of the topic food does to the plan. */
static const struct food_row {
    const char *stance;
    enum feeding_change change;
    void (*apply)(struct care_build *);
} food_rows[] = {
    {"none-until-vet", FEEDING_PAUSE, pause},
    {"rest-until", FEEDING_AFTER_VOMITING, after_vomiting},
    {"vet-plan", FEEDING_PAUSE, pause},
    {"restart", FEEDING_NO_LARGE_MEAL, restart},
    {"offer-only", FEEDING_NO_DIETING, keep_as_usual},
    {"build-up", FEEDING_SHORTER_INTERVAL, shorter_interval},
    {"small", FEEDING_NO_LARGE_MEAL, no_large_meal},
    {"less", FEEDING_LONGER_INTERVAL, longer_interval},
    {"as-usual", FEEDING_AS_USUAL, keep_as_usual},
};

static const struct food_row *food_row(const char *stance)
{
    for (size_t i = 0; i < sizeof food_rows / sizeof *food_rows; i++)
        if (strcmp(food_rows[i].stance, stance) == 0)
            return &food_rows[i];
    return NULL;
}

static bool has_vomited(const struct care_build *b)
{
    for (size_t i = 0; i < b->plan->finding_count; i++)
        if (strcmp(b->plan->findings[i].code, "vomited") == 0)
            return true;
    return false;
}

/* The stance that the meals of the coming weeks are planned by: today's, or after a rest what
 * follows it. */
static void apply_change(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct stance_phase *phase = plan_phase_on(b->plan, "food", b->plan->on);
    const struct food_row *row = phase ? food_row(phase->stance) : NULL;
    if (!row)
        return;
    f->change = row->change;
    f->change_from = build_stance_from(phase);
    row->apply(b);
    /* a rest for another reason than food that came up */
    if (f->change == FEEDING_AFTER_VOMITING && !has_vomited(b))
        f->change = FEEDING_PAUSE;
}

/* ---- what the veterinarian set --------------------------------------------------------------- */

static void apply_own_meal(struct care_build *b, const struct band *own)
{
    struct feeding_plan *f = &b->plan->feeding;
    struct plan_fact *facts = NULL;
    if (!own->known)
        return;
    if (f->has_meal)
        facts = build_fact(b, "usual", FACT_MASS, f->meal_low_g, f->meal_high_g, NULL);
    build_review(b, REVIEW_OVERRIDE, "own-meal", own->at,
                 build_fact(b, "target", FACT_MASS, own->low, own->high, facts));
    f->has_meal = true;
    f->meal_low_g = own->low;
    f->meal_high_g = own->high;
    f->meal_from = build_from_veterinarian(b);
}

static void apply_own_interval(struct care_build *b, const struct band *own)
{
    struct feeding_plan *f = &b->plan->feeding;
    if (!own->known)
        return;
    build_review(
        b, REVIEW_OVERRIDE, "own-interval", own->at,
        build_fact(b, "target", FACT_DAYS, own->low, own->high,
                   build_fact(b, "usual", FACT_DAYS, f->every_low_days, f->every_high_days, NULL)));
    f->every_low_days = own->low;
    f->every_high_days = own->high;
    f->every_from = build_from_veterinarian(b);
}

/* Own numbers win over the sheet and over findings, but say nothing of when to begin again. */
static void apply_own_targets(struct care_build *b)
{
    const struct visit_targets *own = &b->in->visit->targets;
    apply_own_meal(b, &own->meal_g);
    apply_own_interval(b, &own->every_days);
    if (b->plan->feeding.paused && (own->meal_g.known || own->every_days.known))
        build_review(b, REVIEW_REMARK, "own-meal-while-paused", own->at,
                     build_fact_text(b, "finding", FACT_TEXT, b->plan->feeding.change_from, NULL));
}

/* ---- what the keeper does now ------------------------------------------------------------------
 */

static void judge_own_feeding(struct care_build *b)
{
    const struct visit_diet *d = &b->in->visit->diet;
    struct feeding_plan *f = &b->plan->feeding;
    if (f->paused)
        return;
    if (d->meal_g.known && f->has_meal)
        f->meal_verdict = build_verdict(d->meal_g.value, f->meal_low_g, f->meal_high_g);
    else if (d->count.known && f->has_insects)
        f->meal_verdict = build_verdict(d->count.value, f->insects_low, f->insects_high);
    if (d->every_days.known && f->every_high_days > 0)
        f->interval_verdict =
            build_verdict(d->every_days.value, f->every_low_days, f->every_high_days);
}

static void tell_long_fast(struct care_build *b)
{
    const struct date_value *last = &b->in->visit->diet.last;
    double limit = b->plan->feeding.fast_limit_days;
    if (!last->known || limit <= 0)
        return;
    double days = (double)date_days_between(last->date, b->plan->on);
    if (days > limit)
        build_review(b, REVIEW_REMARK, "no-food-past-limit", last->at,
                     build_fact(b, "days", FACT_DAYS, days, days,
                                build_fact(b, "limit", FACT_DAYS, limit, limit, NULL)));
}

/* What the keeper does today, and how long a pause would be. */
static void plan_now(struct care_build *b)
{
    const struct visit_diet *diet = &b->in->visit->diet;
    struct feeding_plan *f = &b->plan->feeding;
    f->has_meal_now = diet->meal_g.known;
    f->meal_now_g = diet->meal_g.value;
    f->has_count_now = diet->count.known;
    f->count_now = diet->count.value;
    f->has_interval_now = diet->every_days.known;
    f->interval_now_days = diet->every_days.value;
    f->pause_low_days = build_limit(b, "vomit-pause-low-days");
    f->pause_high_days = build_limit(b, "vomit-pause-high-days");
}

/* An animal without a sheet: what a finding forbids, and what the veterinarian set. */
static void plan_without_stages(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct stance_phase *phase = plan_phase_on(b->plan, "food", b->plan->on);
    if (phase && feeding_is_pause(phase->stance)) {
        f->change = FEEDING_PAUSE;
        f->change_from = build_stance_from(phase);
        pause(b);
    }
    apply_own_targets(b);
    judge_own_feeding(b);
    feeding_plan_dates(b);
}

bool feeding_plan(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    plan_now(b);
    const struct species_feeding_stage *stage = feeding_find_stage(b, &f->stage_reason);
    f->has_diet = b->in->species->diet.known;
    f->diet = (enum diet_kind)b->in->species->diet.value;
    if (!stage) {
        plan_without_stages(b);
        return true;
    }
    if (f->stage_reason == STAGE_ASSUMED_ADULT && b->in->species->feeding.count > 1)
        build_review(b, REVIEW_MISSING, "stage-assumed", (struct mark){0}, NULL);
    plan_limits(b);
    plan_usual(b, stage);
    apply_change(b);
    apply_own_targets(b);
    feeding_choose_foods(b, stage);
    judge_own_feeding(b);
    tell_long_fast(b);
    feeding_plan_dates(b);
    feeding_plan_supplements(b);
    feeding_plan_energy(b);
    return true;
}
