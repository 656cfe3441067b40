/* Slots of how the weight has changed and what that means, of shares in plain words, and of the
 * place that a night's number is of, what heat lacks before it is turned up, and what it should
 * weigh next. */
#include <math.h>
#include <string.h>

#include "words/format.h"
#include "words/phrase.h"
#include "words/slots_inside.h"

#define GETTER(name_) bool name_(const struct phrase_context *ctx, struct slot_value *out)

/* As a scale shows it: nobody weighs per cent. */
static const char *change_text(const struct phrase_context *ctx)
{
    const struct growth_plan *g = &PLAN->growth;
    if (!g->known || g->change_percent <= -100)
        return NULL;
    double now_g = PLAN->patient.mass_g, before_g = now_g / (1 + g->change_percent / 100);
    return format_mass_change(FORMAT, before_g, now_g);
}

GETTER(weight_change)
{
    return give(out, change_text(ctx));
}

static bool is_falling(const struct growth_plan *g)
{
    return g->weight == WEIGHT_FALLING || g->weight == WEIGHT_FALLING_FAST;
}

/* Of a change that a scale can show. */
GETTER(weight_lost)
{
    return give(out, is_falling(&PLAN->growth) ? change_text(ctx) : NULL);
}

GETTER(weight_gained)
{
    return give(out, PLAN->growth.weight == WEIGHT_RISING ? change_text(ctx) : NULL);
}

/* Did it gain and is its score the middle one, as the veterinarian felt it? */
static bool is_gain_fine(const struct care_plan *plan)
{
    const struct weight_plan *w = &plan->weight;
    return plan->growth.weight == WEIGHT_RISING && w->has_score && 2 * w->score == 1 + w->score_of;
}

/* What the weight is meant to do, where it does something else; NULL for nothing to say. */
static const char *means_key(const struct care_plan *plan)
{
    const struct growth_plan *g = &plan->growth;
    static const char *const falling[] = {[WEIGHT_HOLD] = "sheet.weight.means.hold",
                                          [WEIGHT_LOSE] = "sheet.weight.means.wanted",
                                          [WEIGHT_GAIN] = "sheet.weight.means.gain",
                                          [WEIGHT_GROW] = "sheet.weight.means.grow",
                                          [WEIGHT_LAY] = NULL},
                             *const rising[] = {[WEIGHT_HOLD] = NULL,
                                                [WEIGHT_LOSE] = "sheet.weight.means.lose",
                                                [WEIGHT_GAIN] = "sheet.weight.means.wanted",
                                                [WEIGHT_GROW] = NULL,
                                                [WEIGHT_LAY] = "sheet.weight.means.carries"};
    if (!g->known || g->weight == WEIGHT_STEADY)
        return NULL;
    if (g->weight == WEIGHT_FALLING_FAST)
        return "sheet.weight.means.too-fast";
    if (plan->weight.purpose == WEIGHT_HOLD && plan->weight.has_high)
        return is_gain_fine(plan) ? "sheet.weight.means.hold-fine"
                                  : "sheet.weight.means.hold"; /* ill, it gains as it gets well */
    return is_falling(g) ? falling[plan->weight.purpose] : rising[plan->weight.purpose];
}

GETTER(weight_means)
{
    const char *key = means_key(PLAN);
    return give(out, key ? phrase(ctx, key) : NULL);
}

GETTER(plant_share)
{
    const struct feeding_plan *m = &PLAN->feeding;
    return give(out, m->has_plant_share
                         ? format_of_ten(FORMAT, m->plant_low_percent, m->plant_high_percent)
                         : NULL);
}

/* What can be seen on a plate: the part that lies nearest to the middle of the share; of a tenth or
 * nine the share itself says as much. */
GETTER(plant_part)
{
    static const struct {
        double percent;
        const char *key;
    } parts[] = {{10, NULL},         {25, "plate.quarter"},    {33, "plate.third"},
                 {50, "plate.half"}, {67, "plate.two-thirds"}, {75, "plate.three-quarters"},
                 {90, NULL}};
    const struct feeding_plan *m = &PLAN->feeding;
    const double middle = (m->plant_low_percent + m->plant_high_percent) / 2;
    size_t nearest = 0;
    for (size_t i = 1; i < sizeof parts / sizeof *parts; i++)
        if (fabs(parts[i].percent - middle) < fabs(parts[nearest].percent - middle))
            nearest = i;
    const char *key = m->has_plant_share ? parts[nearest].key : NULL;
    return give(out, key ? phrase(ctx, key) : NULL);
}

static bool is_night_of_warm_place(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->action_count; i++)
        if (plan->steps[i].has_place && plan->steps[i].place == MEASURE_NIGHT_WARM_SIDE)
            return true;
    return false;
}

/* What the step that warms the night warms its warm place to; nothing where that is no step's. */
GETTER(night_warm_end)
{
    return is_night_of_warm_place(PLAN) && slots_measured_target(ctx, MEASURE_NIGHT_WARM_SIDE, out);
}

GETTER(night_end)
{
    if (is_night_of_warm_place(PLAN))
        return give(out, slots_plain_place(ctx, MEASURE_NIGHT_WARM_SIDE));
    return give(out, slots_night_has_two_ends(PLAN) ? slots_plain_place(ctx, MEASURE_NIGHT) : NULL);
}

static bool asks_for(const struct care_plan *plan, const char *action)
{
    for (size_t i = 0; i < plan->action_count; i++)
        if (strcmp(plan->actions[i].code, action) == 0)
            return true;
    return false;
}

GETTER(heating_power)
{
    const struct heating_plan *h = &PLAN->temperature.heating;
    return give(out, h->known ? format_power_band(FORMAT, h->low_w, h->high_w) : NULL);
}

/* The watts of what heats now, where even the least that is needed is more. */
GETTER(heating_too_weak)
{
    const struct heating_plan *h = &PLAN->temperature.heating;
    const bool is_too_weak = h->known && h->own_w > 0 && h->own_w < h->low_w;
    return give(out, is_too_weak ? format_power(FORMAT, h->own_w) : NULL);
}

/* What makes the heat safe and is not there yet, as the plan's own actions say. */
GETTER(heat_missing)
{
    const bool thermostat = asks_for(PLAN, "add-thermostat"),
               guard = asks_for(PLAN, "guard-the-heat");
    const char *key = thermostat && guard ? "sheet.heat-missing.both"
                      : thermostat        ? "sheet.heat-missing.thermostat"
                      : guard             ? "sheet.heat-missing.guard"
                                          : NULL;
    return give(out, key ? phrase(ctx, key) : NULL);
}

/* How warm the floor is on which it wakes: as this animal's night is. A turtle of dry hours wakes
 * in the dry box of those hours, which has one number. */
GETTER(wake_warm)
{
    const bool in_box = asks_for(PLAN, "keep-dry-hours");
    return give(out, phrase(ctx, in_box ? "sheet.wake-warm.dry" : "sheet.wake-warm"));
}

/* Where it sits lower now: the heat is turned up by its own step where there is one, and nothing
 * is hung nearer either way. */
GETTER(heat_cool_there)
{
    const char *key = asks_for(PLAN, "warm-basking")     ? "sheet.cool-there.step"
                      : asks_for(PLAN, "warm-warm-side") ? "sheet.cool-there.warm-side"
                                                         : "sheet.cool-there.ask";
    return give(out, asks_for(PLAN, "protect-bones") ? phrase(ctx, key) : NULL);
}

/* ---- what it should weigh ---- */

/* In pounds a loss of some grams ends where it begins: "4 lb to 4 lb 1 oz" of 4 lb 1 oz. */
static bool ends_at_now(const struct phrase_context *ctx)
{
    const struct weight_plan *w = &PLAN->weight;
    const struct patient_plan *p = &PLAN->patient;
    return FORMAT->units == UNITS_US && p->has_mass && w->expected_high_g < p->mass_g &&
           strcmp(format_mass(FORMAT, w->expected_high_g), format_mass(FORMAT, p->mass_g)) == 0;
}

GETTER(weight_next)
{
    const struct weight_plan *w = &PLAN->weight;
    if (!w->has_expected)
        return give(out, NULL);
    if (!ends_at_now(ctx))
        return give(out, format_mass_band(FORMAT, w->expected_low_g, w->expected_high_g));
    const double now_g = PLAN->patient.mass_g,
                 next_g = (w->expected_low_g + w->expected_high_g) / 2;
    struct plan_fact what = {
        .name = "what", .kind = FACT_TEXT, .text = format_mass_change(FORMAT, now_g, next_g)};
    struct phrase_context own = *ctx;
    own.facts = &what;
    return give(out, phrase(&own, "sheet.weight.less"));
}
