#include "care/feeding.h"

#include <math.h>

static bool is_past(const struct care_build *b, const struct species_feeding_stage *s, enum stage_reason *reason)
{
    const struct visit_patient *a = &b->in->visit->patient;
    if (s->until_age_days.known && b->plan->age_known) {
        *reason = STAGE_BY_AGE;
        return (double)b->plan->age_days >= s->until_age_days.value;
    }
    if (s->until_length_cm.known && b->plan->length_usable) {
        *reason = STAGE_BY_LENGTH;
        return a->length_cm.value >= s->until_length_cm.value;
    }
    if (s->until_mass_g.known && b->plan->mass_usable) {
        *reason = STAGE_BY_MASS;
        return a->mass_g.value >= s->until_mass_g.value;
    }
    *reason = STAGE_ASSUMED_ADULT;
    return true;
}

const struct species_feeding_stage *feeding_find_stage(struct care_build *b)
{
    const struct list *stages = &b->in->species->feeding;
    struct feeding_plan *f = &b->plan->feeding;
    const struct species_feeding_stage *stage = NULL;
    f->stage_reason = STAGE_ASSUMED_ADULT;
    for (size_t i = 0; i < stages->count; i++) {
        stage = LIST_AT(*stages, struct species_feeding_stage, i);
        if (i + 1 == stages->count || !is_past(b, stage, &f->stage_reason))
            break;
    }
    if (f->stage_reason == STAGE_ASSUMED_ADULT && stages->count > 1)
        build_review(b, REVIEW_MISSING, "stage-assumed", (struct mark){0}, NULL);
    f->stage = (enum stage)stage->stage.value;
    return stage;
}

static void scale_meal(struct feeding_plan *f, double factor)
{
    f->meal_low_g *= factor;
    f->meal_high_g *= factor;
    f->insects_low = (int)fmax(1, floor(f->insects_low * factor));
    f->insects_high = (int)fmax(1, floor(f->insects_high * factor));
}

static void pause_until(struct care_build *b, struct feeding_plan *f)
{
    f->paused = true;
    f->has_resume = true;
    f->resume = date_add_days(b->plan->on, (long)build_limit(b, "vomit-pause-high-days"));
}

/* How a finding changes meals and interval. The share by which an interval is lengthened or a meal made
 * smaller is the limit condition-interval-percent; a longer interval comes before a smaller meal. */
static void apply_change(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    double share = build_limit(b, "condition-interval-percent") / 100;
    f->change = b->feeding_change;
    f->change_from = b->feeding_change_from;
    switch (b->feeding_change) {
    case FEEDING_PAUSE:
        f->paused = true;
        break;
    case FEEDING_AFTER_VOMITING:
        pause_until(b, f);
        scale_meal(f, 0.5);
        break;
    case FEEDING_NO_LARGE_MEAL:
        f->meal_high_g = f->meal_low_g;
        f->insects_high = f->insects_low;
        break;
    case FEEDING_LONGER_INTERVAL:
        f->every_low_days = f->every_high_days;
        f->every_high_days = round(f->every_high_days * (1 + share));
        break;
    case FEEDING_SMALLER_MEALS:
        scale_meal(f, 1 - share / 2);
        break;
    case FEEDING_SHORTER_INTERVAL:
        f->every_high_days = f->every_low_days;
        f->meal_high_g = f->meal_low_g;
        break;
    case FEEDING_AS_USUAL:
    case FEEDING_NO_DIETING:
        break;
    }
    if (b->plan->go_now)
        f->paused = true;
}

static void plan_meal(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct cited *percent = &stage->meal_percent;
    if (percent->range.known && b->plan->mass_usable) {
        double mass_g = b->in->visit->patient.mass_g.value;
        f->has_meal = true;
        f->meal_low_g = mass_g * percent->range.low / 100;
        f->meal_high_g = mass_g * percent->range.high / 100;
        f->meal_from = build_from_cited(percent, &b->in->species->sources, ORIGIN_SPECIES_SHEET);
        build_derive(b, &f->how, "feeding.meal_g.low", f->meal_low_g, "g", "share-of-mass", f->meal_from.source,
                     INPUTS({"mass", mass_g, "g"}, {"share", percent->range.low, "%"}));
        build_derive(b, &f->how, "feeding.meal_g.high", f->meal_high_g, "g", "share-of-mass", f->meal_from.source,
                     INPUTS({"mass", mass_g, "g"}, {"share", percent->range.high, "%"}));
    }
    if (stage->insects.range.known) {
        f->has_insects = true;
        f->insects_low = (int)stage->insects.range.low;
        f->insects_high = (int)stage->insects.range.high;
        if (!f->has_meal)
            f->meal_from = build_from_cited(&stage->insects, &b->in->species->sources, ORIGIN_SPECIES_SHEET);
    }
    if (stage->plant_share_percent.range.known) {
        f->has_plant_share = true;
        f->plant_low_percent = stage->plant_share_percent.range.low;
        f->plant_high_percent = stage->plant_share_percent.range.high;
    }
    f->every_low_days = f->usual_low_days = stage->every_days.range.low;
    f->every_high_days = f->usual_high_days = stage->every_days.range.high;
}

/* A veterinarian's own numbers win, and the sheet says who set them. */
static void apply_own_targets(struct care_build *b)
{
    const struct visit_targets *own = &b->in->visit->targets;
    struct feeding_plan *f = &b->plan->feeding;
    if (own->meal_g.known) {
        f->has_meal = true;
        f->meal_low_g = own->meal_g.low;
        f->meal_high_g = own->meal_g.high;
        f->meal_from = build_from_veterinarian(b);
        build_review(b, REVIEW_OVERRIDE, "own-meal", own->meal_g.at, NULL);
    }
    if (own->every_days.known) {
        f->every_low_days = own->every_days.low;
        f->every_high_days = own->every_days.high;
        build_review(b, REVIEW_OVERRIDE, "own-interval", own->every_days.at, NULL);
    }
}

static void judge_own_feeding(struct care_build *b)
{
    const struct visit_diet *d = &b->in->visit->diet;
    struct feeding_plan *f = &b->plan->feeding;
    double pieces = d->count.known ? d->count.value : 1;
    if (d->meal_g.known && f->has_meal)
        f->meal_verdict = build_verdict(d->meal_g.value * pieces, f->meal_low_g, f->meal_high_g);
    else if (d->count.known && f->has_insects)
        f->meal_verdict = build_verdict(d->count.value, f->insects_low, f->insects_high);
    if (d->every_days.known)
        f->interval_verdict = build_verdict(d->every_days.value, f->every_low_days, f->every_high_days);
}

bool feeding_plan(struct care_build *b)
{
    const struct species *s = b->in->species;
    struct feeding_plan *f = &b->plan->feeding;
    const struct species_feeding_stage *stage = feeding_find_stage(b);
    f->diet = (enum diet_kind)s->diet.value;
    plan_meal(b, stage);
    apply_change(b);
    apply_own_targets(b);
    feeding_choose_foods(b, stage);
    judge_own_feeding(b);
    bool young = f->stage != STAGE_ADULT && s->no_food_young_days.range.known;
    f->fast_limit_days = young ? s->no_food_young_days.range.low : s->no_food_days.range.low;
    f->stool_limit_days = s->no_stool_days.range.low;
    feeding_plan_dates(b);
    feeding_plan_supplements(b);
    feeding_plan_energy(b);
    return true;
}
