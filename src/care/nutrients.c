/* Energy and calcium of the plan, told to the veterinarian alone. */
#include "care/energy.h"
#include "care/feeding.h"
#include "care/intake.h"

#include <math.h>
#include <string.h>

#define SQUAMATES "Andrews & Pough 1985, Physiol. Zool. 58:214-231, eq. 2; 20.1 J per ml of oxygen"
#define LEAST "10 x kg^0.75 kcal a day, handbook K, from memory"

/* What it selects for its body, else the middle of the preferred air or of the warm side; 0 when
 * none is known. */
static double body_temperature_c(const struct care_build *b)
{
    const struct species *s = b->in->species;
    const struct band *preferred =
        s->preferred_body.range.known ? &s->preferred_body.range : &s->preferred_air.range;
    const struct measured_plan *warm = &b->plan->measured[ZONE_WARM_SIDE];
    if (preferred->known)
        return (preferred->low + preferred->high) / 2;
    return warm->applies ? (warm->low + warm->high) / 2 : 0;
}

static double derive_squamate(struct care_build *b, const char *what, int resting, double mass_g,
                              double temp_c)
{
    double kcal = energy_oxygen_kcal_day(mass_g, temp_c, resting),
           error_c = build_limit(b, "temperature-reading-error-c");
    struct ends mass = build_mass_g(b, mass_g);
    build_band(build_derive(
                   b, &b->plan->feeding.how,
                   (struct derived){what, kcal, "kcal/d", "andrews-pough-1985", SQUAMATES,
                                    INPUTS({"mass", mass_g, "g"}, {"body-temperature", temp_c, "C"},
                                           {"scale-error", mass.high - mass_g, "g"},
                                           {"thermometer-error", error_c, "K"})}),
               energy_oxygen_kcal_day(mass.low, temp_c - error_c, resting),
               energy_oxygen_kcal_day(mass.high, temp_c + error_c, resting));
    return kcal;
}

/* From the lowest to the highest of what the formulas that hold for this animal say, if any does.
 */
void feeding_plan_need(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    enum group group = (enum group)b->in->species->group.value;
    double mass_g = b->in->visit->patient.mass_g.value, temp_c = body_temperature_c(b);
    /* amphibians are in neither formula's data */
    if (!b->plan->patient.has_mass || group == GROUP_FROG || group == GROUP_SALAMANDER)
        return;
    double least = energy_least_kcal_day(mass_g);
    f->has_need = true;
    f->need_low_kcal_day = f->need_high_kcal_day = least;
    struct ends mass = build_mass_g(b, mass_g);
    build_band(build_derive(b, &f->how,
                            (struct derived){"feeding.energy.need.least", least, "kcal/d",
                                             "least-energy-reptiles", LEAST,
                                             INPUTS({"mass", mass_g, "g"},
                                                    {"scale-error", mass.high - mass_g, "g"})}),
               energy_least_kcal_day(mass.low), energy_least_kcal_day(mass.high));
    bool is_squamate = group == GROUP_SNAKE || group == GROUP_LIZARD;
    if (!is_squamate || temp_c < ENERGY_COLDEST_C || temp_c > ENERGY_HOTTEST_C)
        return;
    double standard = derive_squamate(b, "feeding.energy.need.standard", 0, mass_g, temp_c),
           resting = derive_squamate(b, "feeding.energy.need.resting", 1, mass_g, temp_c);
    f->need_low_kcal_day = fmin(least, standard);
    f->need_high_kcal_day = fmax(least, resting);
}

/* Grams of one meal of this food, where they can be said. */
static bool meal_grams(const struct feeding_plan *f, const struct prey_choice *c, double *low_g,
                       double *high_g)
{
    if (c->count > 0) {
        *low_g = c->count * c->each_low_g;
        *high_g = c->count * c->each_high_g;
    } else if (f->has_meal) {
        *low_g = f->meal_low_g;
        *high_g = f->meal_high_g;
    } else if (f->has_insects && c->size) {
        *low_g = f->insects_low * c->each_low_g;
        *high_g = f->insects_high * c->each_high_g;
    } else {
        return false;
    }
    return true;
}

static void tell_energy(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    double times = build_limit(b, "energy-far-above-times");
    const char *code = NULL;
    if (f->plan_high_kcal_day < f->need_low_kcal_day)
        code = "energy-below-need";
    else if (f->plan_low_kcal_day > times * f->need_high_kcal_day)
        code = "energy-far-above-need";
    if (!code)
        return;
    struct plan_fact *facts =
        build_fact(b, "plan", FACT_ENERGY, f->plan_low_kcal_day, f->plan_high_kcal_day, NULL);
    build_review(
        b, REVIEW_REMARK, code, (struct mark){0},
        build_fact(b, "need", FACT_ENERGY, f->need_low_kcal_day, f->need_high_kcal_day, facts));
}

/* The insects of one meal may be any of their size. */
static void derive_insects(struct care_build *b, const char *what, int count, double each_g,
                           const struct prey_choice *insect)
{
    build_band(
        build_derive(b, &b->plan->feeding.how,
                     (struct derived){what, count * each_g, "g", "count-times-mass", "arithmetic",
                                      INPUTS({"count", count, ""}, {"each", each_g, "g"},
                                             {"least-each", insect->each_low_g, "g"},
                                             {"most-each", insect->each_high_g, "g"})}),
        count * insect->each_low_g, count * insect->each_high_g);
}

/* A food's energy differs from batch to batch by more than a scale is off. */
static void derive_intake(struct care_build *b, const char *what, double meal_g, double kcal_g,
                          double days)
{
    double kcal = meal_g * kcal_g / days, error = build_limit(b, "food-energy-error-percent") / 100;
    build_band(
        build_derive(
            b, &b->plan->feeding.how,
            (struct derived){what, kcal, "kcal/d", "meal-energy-a-day", "arithmetic",
                             INPUTS({"meal", meal_g, "g"}, {"energy", kcal_g, "kcal/g"},
                                    {"interval", days, "d"}, {"energy-error", error * 100, "%"})}),
        kcal * (1 - error), kcal * (1 + error));
}

/* The first food stands for the plan; a mixed diet's plants have no mass here, so it has no sum. */
static void plan_energy(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct prey_choice *first = f->food_count ? &f->foods[0] : NULL;
    const struct food *food = first ? food_find(b->in->reference, first->food) : NULL;
    bool whole = f->diet == DIET_WHOLE_PREY || f->diet == DIET_INSECTS;
    double low_g, high_g;
    if (!food || !whole || f->paused || f->every_low_days <= 0 ||
        !meal_grams(f, first, &low_g, &high_g))
        return;
    if (f->has_insects && !f->has_meal) {
        derive_insects(b, "feeding.insects_g.low", f->insects_low, first->each_low_g, first);
        derive_insects(b, "feeding.insects_g.high", f->insects_high, first->each_high_g, first);
    }
    const struct band *energy = intake_energy(food, first->size);
    if (!energy->known || !f->has_need)
        return;
    f->has_energy = true;
    f->plan_low_kcal_day = low_g * energy->low / f->every_high_days;
    f->plan_high_kcal_day = high_g * energy->high / f->every_low_days;
    derive_intake(b, "feeding.energy.plan.low", low_g, energy->low, f->every_high_days);
    derive_intake(b, "feeding.energy.plan.high", high_g, energy->high, f->every_low_days);
    tell_energy(b);
}

static bool has_calcium(const struct feeding_plan *f)
{
    for (size_t i = 0; i < f->supplement_count; i++)
        if (f->supplements[i].what == SUPPLEMENT_CALCIUM ||
            f->supplements[i].what == SUPPLEMENT_CALCIUM_D3)
            return true;
    return false;
}

/* Food with less calcium than phosphorus and no calcium on it. */
static void tell_calcium(struct care_build *b)
{
    const struct feeding_plan *f = &b->plan->feeding;
    double least = build_limit(b, "calcium-to-phosphorus-least");
    for (size_t i = 0; i < f->food_count && !has_calcium(f); i++) {
        double ratio = f->foods[i].calcium_to_phosphorus;
        if (ratio <= 0 || ratio >= least)
            continue;
        struct plan_fact *facts = build_fact(b, "least", FACT_RATIO, least, least, NULL);
        facts = build_fact(b, "ratio", FACT_RATIO, ratio, ratio, facts);
        build_review(b, REVIEW_REMARK, "calcium-short", (struct mark){0},
                     build_fact_text(b, "food", FACT_TEXT, f->foods[i].food, facts));
    }
}

void feeding_plan_energy(struct care_build *b)
{
    plan_energy(b);
    tell_calcium(b);
}
