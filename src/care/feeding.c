/* How much and how often: the species' stage, what findings change, what the veterinarian set. */
#include "care/feeding.h"
#include "care/intake.h"

#include <math.h>
#include <string.h>

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
    if (stage->insects.range.known && stage->insects_every_days.range.known) {
        const struct band *every = &stage->insects_every_days.range;
        f->beside = (struct feeding_beside){
            .is_known = true,
            .low = (int)stage->insects.range.low,
            .high = (int)stage->insects.range.high,
            .every_low_days = every->low,
            .every_high_days = every->high,
            .from = build_from_sourced(&stage->insects, sources, ORIGIN_SPECIES_SHEET),
            .every_from =
                build_from_sourced(&stage->insects_every_days, sources, ORIGIN_SPECIES_SHEET)};
        if (!f->has_meal)
            f->meal_from = f->beside.from;
    } else if (stage->insects.range.known) {
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

static void plan_limits(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    f->fast_limit_days = feeding_fast_limit_days(b);
    f->stool_limit_days = b->in->species->no_stool_days.range.low;
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
    f->begins_small = false; /* her amount is no half of another */
    f->has_meal = true;
    f->meal_low_g = own->low;
    f->meal_high_g = own->high;
    f->meal_from = build_from_veterinarian(b);
}

static void apply_own_insects(struct care_build *b, const struct band *own)
{
    struct feeding_plan *f = &b->plan->feeding;
    if (!own->known)
        return;
    double low = f->beside.is_known ? f->beside.low : f->insects_low,
           high = f->beside.is_known ? f->beside.high : f->insects_high;
    build_review(b, REVIEW_OVERRIDE, "own-insects", own->at,
                 build_fact(b, "target", FACT_COUNT, own->low, own->high,
                            build_fact(b, "usual", FACT_COUNT, low, high, NULL)));
    if (f->beside.is_known) {
        f->beside.low = (int)own->low;
        f->beside.high = (int)own->high;
        f->beside.from = f->meal_from = build_from_veterinarian(b);
        return;
    }
    f->has_insects = true;
    f->is_as_now = false;
    f->insects_low = (int)own->low;
    f->insects_high = (int)own->high;
    f->meal_from = build_from_veterinarian(b);
}

/* Beside her number of insects the time is theirs: a mix that is eaten all the time keeps its own.
 */
static void apply_insects_interval(struct care_build *b, const struct band *own)
{
    struct feeding_beside *beside = &b->plan->feeding.beside;
    build_review(b, REVIEW_OVERRIDE, "own-insects-interval", own->at,
                 build_fact(b, "target", FACT_DAYS, own->low, own->high,
                            build_fact(b, "usual", FACT_DAYS, beside->every_low_days,
                                       beside->every_high_days, NULL)));
    beside->every_low_days = own->low;
    beside->every_high_days = own->high;
    beside->every_from = build_from_veterinarian(b);
}

static void apply_own_interval(struct care_build *b, const struct visit_targets *targets)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct band *own = &targets->every_days;
    if (!own->known)
        return;
    if (f->beside.is_known && targets->insects.known && !targets->meal_g.known) {
        apply_insects_interval(b, own);
        return;
    }
    if (f->beside.is_known)
        build_review(b, REVIEW_REMARK, "own-interval-of-mix", own->at,
                     build_fact(b, "target", FACT_DAYS, own->low, own->high, NULL));
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
    apply_own_insects(b, &own->insects);
    apply_own_interval(b, own);
    if ((own->start_percent.known || own->start_days.known) && b->plan->feeding.start_days <= 0)
        build_review(b, REVIEW_REMARK, "own-start-unused",
                     own->start_percent.known ? own->start_percent.at : own->start_days.at, NULL);
    if (b->plan->feeding.paused && (own->meal_g.known || own->every_days.known))
        build_review(b, REVIEW_REMARK, "own-meal-while-paused", own->at,
                     build_fact_text(b, "finding", FACT_TEXT, b->plan->feeding.change_from, NULL));
}

/* ---- what the keeper does now ------------------------------------------------------------------
 */

static void judge_own_feeding(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    if (f->paused)
        return;
    if (f->has_meal_now && f->has_meal)
        f->meal_verdict = build_verdict(f->meal_now_g, f->meal_low_g, f->meal_high_g);
    else if (f->has_count_now && f->has_insects)
        f->meal_verdict = build_verdict(f->count_now, f->insects_low, f->insects_high);
    if (f->has_interval_now && f->every_high_days > 0)
        f->interval_verdict =
            build_verdict(f->interval_now_days, f->every_low_days, f->every_high_days);
}

static void tell_long_fast(struct care_build *b)
{
    struct date_value last;
    double limit = b->plan->feeding.fast_limit_days;
    if (!visit_last_meal(b->in->visit, &last) || limit <= 0)
        return;
    double days = (double)date_days_between(last.date, b->plan->on);
    if (days > limit)
        build_review(b, REVIEW_REMARK, "no-food-past-limit", last.at,
                     build_fact(b, "days", FACT_DAYS, days, days,
                                build_fact(b, "limit", FACT_DAYS, limit, limit, NULL)));
}

/* How much and how often is a blank for the veterinarian. */
static void leave_amount(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    f->asks_amount = b->plan->has_blanks = true;
    f->has_meal = f->has_insects = false;
    f->every_low_days = f->every_high_days = 0;
}

/* Nobody has published what a frog's or a newt's diet is: the veterinarian's numbers say it, and
 * neither what it eats now nor the usual does, nor when it is ill besides and only offered food. */
static void ask_for_diet(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct visit_targets *own = &b->in->visit->targets;
    bool is_amphibian = b->in->species->group.value == GROUP_FROG ||
                        b->in->species->group.value == GROUP_SALAMANDER;
    const struct date day = plan_food_day(b->plan);
    bool is_written = (own->insects.known || own->meal_g.known) && own->every_days.known;
    if (!is_amphibian || !build_is_found(b, "overweight") || is_written ||
        !(plan_holds_on(b->plan, "food", "as-usual", day) ||
          plan_holds_on(b->plan, "food", "small", day) ||
          plan_holds_on(b->plan, "food", "offer-only", day)))
        return;
    leave_amount(b);
    f->change = FEEDING_AS_USUAL; /* "do not cut down" would be an amount */
    build_review(b, REVIEW_MISSING, "diet-number-missing", (struct mark){0}, NULL);
}

/* What the keeper does today, and how long a pause would be. */
static void plan_now(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    intake_plan(b);
    /* the days are a snake's alone (from memory, no source); for all others the veterinarian's */
    if (b->in->species->group.value != GROUP_SNAKE)
        return;
    f->pause_low_days = build_limit(b, "vomit-pause-low-days");
    f->pause_high_days = build_limit(b, "vomit-pause-high-days");
}

/* An animal without a sheet: what a finding forbids, and what the veterinarian set. */
static void plan_without_stages(struct care_build *b)
{
    const struct stance_phase *phase = plan_phase_on(b->plan, "food", b->plan->on);
    if (phase && feeding_is_pause(phase->stance))
        feeding_apply_stance(b, NULL);
    apply_own_targets(b);
    judge_own_feeding(b);
    feeding_plan_dates(b);
}

/* Pellets and fish are counted too. */
static bool is_in_pieces(const struct care_build *b)
{
    const struct feeding_plan *f = &b->plan->feeding;
    bool is_other = f->diet == DIET_AQUATIC;
    for (size_t i = 0; f->diet == DIET_MIXED && i < f->food_count; i++) {
        const struct food *food = food_find(b->in->reference, f->foods[i].food);
        is_other = is_other || !food ||
                   (food->kind.value != FOOD_INSECT && food->kind.value != FOOD_PLANT);
    }
    return is_other;
}

/* The food is hers: her numbers, what goes in by tube, a food among the medicines. Where the record
 * says none of them the sheet has only a line to write on. */
static void take_written_food(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct visit_targets *own = &b->in->visit->targets;
    bool by_tube = b->plan->aftercare.tube_ml > 0 && b->plan->aftercare.tube_every_h > 0;
    if (!plan_holds_on(b->plan, "food", "vet-plan", plan_food_day(b->plan)) || by_tube)
        return;
    /* of two foods in rhythms of their own one number says too little */
    f->is_written =
        (own->meal_g.known || own->insects.known) && own->every_days.known && !f->beside.is_known;
    f->written_medicine = written_medicine(&b->in->topics->written, b->in->visit, WRITTEN_FOOD);
    if (!f->is_written && !f->written_medicine)
        build_review(b, REVIEW_MISSING, "food-not-written", (struct mark){0}, NULL);
}

/* What the keeper gives now is no measure where it is several times what the animal needs: how far
 * an ill one is cut down is the veterinarian's. */
static void ask_where_far_too_much(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    bool is_keepers = f->meal_from.origin == ORIGIN_KEEPER && f->has_insects;
    if (!is_keepers || (f->paused && !f->has_resume) || !f->has_need || !f->now.has_kcal ||
        f->now.kcal_day <= build_limit(b, "energy-far-above-times") * f->need_high_kcal_day)
        return;
    leave_amount(b);
    struct plan_fact *facts =
        build_fact(b, "plan", FACT_ENERGY, f->now.kcal_day, f->now.kcal_day, NULL);
    build_review(
        b, REVIEW_MISSING, "present-far-above-need", (struct mark){0},
        build_fact(b, "need", FACT_ENERGY, f->need_low_kcal_day, f->need_high_kcal_day, facts));
}

/* Prey far heavier than what it is used to is asked about, however usual of its kind. */
static void ask_where_far_above_now(struct care_build *b)
{
    const struct feeding_plan *f = &b->plan->feeding;
    const bool is_planned = f->has_meal && (!f->paused || f->has_resume);
    if (!is_planned || !f->has_meal_now || f->meal_from.origin == ORIGIN_VETERINARIAN ||
        f->meal_high_g <= build_limit(b, "meal-most-times") * f->meal_now_g + 1e-9)
        return;
    build_review(
        b, REVIEW_REMARK, "meal-far-above-now", (struct mark){0},
        build_fact(b, "meal", FACT_MASS, f->meal_now_g, f->meal_now_g,
                   build_fact(b, "written", FACT_MASS, f->meal_high_g, f->meal_high_g, NULL)));
}

bool feeding_plan(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct species_feeding_stage *stage = feeding_find_stage(b, &f->stage_reason);
    f->has_diet = b->in->species->diet.known;
    f->diet = (enum diet_kind)b->in->species->diet.value;
    f->is_fasted = b->in->visit->follow_up.empty_stomach.value && b->plan->has_recheck;
    plan_now(b);
    feeding_plan_rules(b);
    feeding_judge_diet(b, stage);
    feeding_plan_classes(b, stage);
    if (!stage) {
        plan_without_stages(b);
        return true;
    }
    if (f->stage_reason == STAGE_ASSUMED_ADULT && b->in->species->feeding.count > 1)
        build_review(b, REVIEW_MISSING, "stage-assumed", (struct mark){0}, NULL);
    plan_limits(b);
    plan_usual(b, stage);
    feeding_apply_stance(b, stage);
    apply_own_targets(b);
    ask_for_diet(b);
    take_written_food(b);
    feeding_plan_need(b);
    ask_where_far_too_much(b);
    feeding_choose_foods(b, stage);
    f->is_in_pieces = f->is_in_pieces || is_in_pieces(b);
    judge_own_feeding(b);
    tell_long_fast(b);
    feeding_plan_dates(b);
    feeding_plan_beside_days(b);
    feeding_plan_steps(b);
    ask_where_far_above_now(b);
    feeding_plan_lines(b);
    feeding_plan_supplements(b);
    feeding_plan_energy(b);
    return true;
}
