/* Numbers that can each be right, and cannot be right together: size against age and length, a meal
 * against the animal, readings at the ends of what a meter shows. Nothing is left out of the plan
 * for it: the veterinarian is asked. */
#include "care/weighings.h"

#include <math.h>

#include "base/units.h"

static void ask_size(struct care_build *b, const char *code, struct mark at,
                     struct plan_fact *against)
{
    double mass_g = b->plan->patient.mass_g;
    build_review(b, REVIEW_IMPLAUSIBLE, code, at,
                 build_fact(b, "written", FACT_MASS, mass_g, mass_g, against));
}

/* As heavy as a grown one soon after hatching, or no heavier than a hatchling years later. */
static void judge_age(struct care_build *b)
{
    const struct patient_plan *patient = &b->plan->patient;
    const struct band *grown = &b->in->species->adult_mass_g.range;
    const struct band *hatched = &b->in->species->hatchling_mass_g.range;
    if (!patient->has_mass || !patient->age_known)
        return;
    double days = (double)patient->age_days;
    bool too_heavy = grown->known && days < build_limit(b, "newly-hatched-days") &&
                     patient->mass_g >= grown->low;
    bool too_light = hatched->known && days > build_limit(b, "past-hatchling-days") &&
                     patient->mass_g <= hatched->high * build_limit(b, "past-hatchling-times");
    if (too_heavy || too_light)
        ask_size(b, "age-mass-apart", b->in->visit->patient.mass_g.at,
                 build_fact(b, "age", FACT_DAYS, days, days, NULL));
}

/* Grown by its age, and of a young one's size. */
static void judge_grown(struct care_build *b)
{
    const struct patient_plan *patient = &b->plan->patient;
    const struct species *s = b->in->species;
    const struct band *mass = &s->adult_mass_g.range, *length = &s->adult_length_cm.range;
    double days = (double)patient->age_days, sure = build_limit(b, "grown-for-sure-days");
    if (s->longest_life_days.range.known)
        sure = fmin(sure, s->longest_life_days.range.high / 2);
    if (!patient->age_known || days < sure)
        return;
    if (patient->has_mass && mass->known &&
        patient->mass_g < mass->low * build_limit(b, "grown-least-mass-percent") / 100)
        ask_size(b, "age-mass-too-small", b->in->visit->patient.mass_g.at,
                 build_fact(b, "age", FACT_DAYS, days, days, NULL));
    if (patient->has_length && length->known &&
        patient->length_cm < length->low * build_limit(b, "grown-least-length-percent") / 100)
        build_review(b, REVIEW_IMPLAUSIBLE, "age-length-too-small",
                     b->in->visit->patient.length_cm.at,
                     build_fact(b, "length", FACT_LENGTH, patient->length_cm, patient->length_cm,
                                build_fact(b, "age", FACT_DAYS, days, days, NULL)));
}

/* An animal of twice the length and the same shape has eight times the mass: mass by the cube of
 * the length stays near that of a grown one. */
static void judge_shape(struct care_build *b)
{
    const struct patient_plan *patient = &b->plan->patient;
    const struct band *mass = &b->in->species->adult_mass_g.range;
    const struct band *length = &b->in->species->adult_length_cm.range;
    if (!patient->has_mass || !patient->has_length || !mass->known || !length->known)
        return;
    double times = build_limit(b, "body-shape-times");
    double stout = times * mass->high / pow(length->low, 3);
    double slender = mass->low / pow(length->high, 3) / times;
    double shape = patient->mass_g / pow(patient->length_cm, 3);
    if (shape > stout || shape < slender)
        ask_size(
            b, "mass-length-apart", b->in->visit->patient.length_cm.at,
            build_fact(b, "length", FACT_LENGTH, patient->length_cm, patient->length_cm, NULL));
}

/* More than an animal is given, and a tenth of it is not: a digit too many. */
static void ask_more(struct care_build *b, const struct quantity *written, const char *limit,
                     enum fact_kind kind, const char *code)
{
    if (!written->known || written->value <= build_limit(b, limit))
        return;
    double meant = written->value / 10;
    build_review(b, REVIEW_IMPLAUSIBLE, code, written->at,
                 build_fact(b, "written", kind, written->value, written->value,
                            build_fact(b, "meant", kind, meant, meant, NULL)));
}

static void judge_meals(struct care_build *b)
{
    const struct list *diet = &b->in->visit->diet;
    double mass_g = b->plan->patient.mass_g;
    double most_g = mass_g * build_limit(b, "meal-most-percent") / 100;
    for (size_t i = 0; i < diet->count; i++) {
        const struct visit_diet *one = LIST_AT(*diet, struct visit_diet, i);
        const struct quantity *meal = &one->meal_g;
        if (b->plan->patient.has_mass && meal->known && meal->value > most_g)
            ask_size(b, "meal-mass-apart", meal->at,
                     build_fact(b, "meal", FACT_MASS, meal->value, meal->value, NULL));
        ask_more(b, &one->count, "meal-pieces-most", FACT_COUNT, "meal-pieces-implausible");
        ask_more(b, &one->every_days, "meals-apart-most-days", FACT_DAYS,
                 "meals-apart-implausible");
    }
}

/* ---- earlier lengths ------------------------------------------------------------------------ */

/* What was meant / what was written. All of them make more than ten times the mass. */
static const double length_slips[] = {10, 0.1, UNITS_CM_PER_INCH, 1 / UNITS_CM_PER_INCH};

/* The slip that makes the earlier length today's. A young animal grows so much, but takes its
 * time; none shrinks. 0: none does. */
static double length_slip(const struct care_build *b, const struct visit_weighing *one)
{
    double share = build_limit(b, "length-slip-percent") / 100;
    double now_cm = b->plan->patient.length_cm;
    for (size_t i = 0; i < sizeof length_slips / sizeof *length_slips; i++)
        if (fabs(one->length_cm.value * length_slips[i] / now_cm - 1) <= share)
            return length_slips[i] < 1 || weighings_growth(b, one, true) != GROWTH_POSSIBLE
                       ? length_slips[i]
                       : 0;
    return 0;
}

static void judge_length(struct care_build *b, const struct visit_weighing *one)
{
    const struct quantity *written = &one->length_cm;
    const struct band *bounds = &b->in->species->plausible_length_cm;
    double now_cm = b->plan->patient.length_cm;
    double slip = b->plan->patient.has_length && one->on.known ? length_slip(b, one) : 0;
    struct plan_fact *facts =
        build_fact(b, "written", FACT_LENGTH, written->value, written->value, NULL);
    if (one->on.known)
        facts = build_fact_date(b, "on", one->on.date, facts);
    if (slip > 0) {
        double meant = written->value * slip;
        facts = build_fact(b, "meant", FACT_LENGTH, meant, meant, facts);
        build_review(b, REVIEW_IMPLAUSIBLE, "earlier-length-apart", written->at,
                     build_fact(b, "beside", FACT_LENGTH, now_cm, now_cm, facts));
    } else if (bounds->known && (written->value < bounds->low || written->value > bounds->high)) {
        build_review(b, REVIEW_IMPLAUSIBLE, "earlier-length-implausible", written->at, facts);
    }
}

static void judge_lengths(struct care_build *b)
{
    const struct list *earlier = &b->in->visit->patient.earlier;
    for (size_t i = 0; i < earlier->count; i++)
        if (LIST_AT(*earlier, struct visit_weighing, i)->length_cm.known)
            judge_length(b, LIST_AT(*earlier, struct visit_weighing, i));
}

static void judge_ends(struct care_build *b)
{
    const struct quantity *read = b->in->visit->measured;
    const struct quantity *air = &read[MEASURE_HUMIDITY];
    double coldest = build_limit(b, "temperature-coldest-c");
    for (int z = 0; z < ZONE_COUNT; z++)
        if (read[z].known && read[z].value <= coldest)
            build_review(
                b, REVIEW_IMPLAUSIBLE, "reading-too-cold", read[z].at,
                build_fact(b, "reading", FACT_TEMPERATURE, read[z].value, read[z].value, NULL));
    bool too_dry = air->known && air->value < build_limit(b, "humidity-driest-percent");
    bool too_wet = air->known && air->value > build_limit(b, "humidity-wettest-percent");
    if (too_dry || too_wet)
        build_review(b, REVIEW_IMPLAUSIBLE, too_dry ? "reading-too-dry" : "reading-too-wet",
                     air->at, build_fact(b, "reading", FACT_PERCENT, air->value, air->value, NULL));
}

bool plausible_plan(struct care_build *b)
{
    judge_age(b);
    judge_grown(b);
    judge_shape(b);
    judge_meals(b);
    judge_lengths(b);
    judge_ends(b);
    return true;
}
