#include "care/build.h"

#include <math.h>

static const struct visit_weighing *last_weighing(const struct care_build *b)
{
    const struct list *earlier = &b->in->visit->patient.earlier;
    const struct visit_weighing *last = NULL;
    for (size_t i = 0; i < earlier->count; i++) {
        const struct visit_weighing *one = LIST_AT(*earlier, struct visit_weighing, i);
        bool usable = one->mass_g.known && one->on.known && date_compare(one->on.date, b->plan->on) < 0 &&
                      one->mass_g.value >= b->in->species->plausible_mass_g.low &&
                      one->mass_g.value <= b->in->species->plausible_mass_g.high;
        if (usable && (!last || date_compare(one->on.date, last->on.date) > 0))
            last = one;
    }
    return last;
}

static enum weight_state judge(const struct care_build *b, double percent, long days)
{
    if (-percent > build_limit(b, "mass-loss-slow-percent"))
        return WEIGHT_FALLING_FAST;
    if (-percent > build_limit(b, "mass-loss-fast-percent"))
        return days <= (long)build_limit(b, "mass-loss-fast-days") ? WEIGHT_FALLING_FAST : WEIGHT_FALLING;
    if (fabs(percent) <= build_limit(b, "mass-steady-percent"))
        return WEIGHT_STEADY;
    return percent > 0 ? WEIGHT_RISING : WEIGHT_FALLING;
}

/* Jackson 1976/1985: mass / straight carapace length cubed, Testudo graeca and T. hermanni only,
 * not for hatchlings. */
static void plan_ratio(struct care_build *b)
{
    const struct visit_patient *a = &b->in->visit->patient;
    struct growth_plan *g = &b->plan->growth;
    bool hatchling = b->plan->age_known && b->plan->age_days < 365;
    if (!b->in->species->jackson_ratio.value || !b->plan->mass_usable || !b->plan->length_usable || hatchling)
        return;
    g->has_ratio = true;
    g->ratio_g_cm3 = a->mass_g.value / pow(a->length_cm.value, 3);
    g->ratio_verdict = build_verdict(g->ratio_g_cm3, build_limit(b, "jackson-low"), build_limit(b, "jackson-high"));
    build_derive(b, &g->how, "growth.length_mass_ratio", g->ratio_g_cm3, "g/cm3", "jackson-ratio",
                 "Jackson 1976/1985, Testudo graeca and T. hermanni only",
                 INPUTS({"mass", a->mass_g.value, "g"}, {"carapace-length", a->length_cm.value, "cm"}));
}

bool growth_plan(struct care_build *b)
{
    struct growth_plan *g = &b->plan->growth;
    const struct visit_weighing *last = last_weighing(b);
    plan_ratio(b);
    if (!last || !b->plan->mass_usable)
        return true;
    double now = b->in->visit->patient.mass_g.value, before = last->mass_g.value;
    g->known = true;
    g->since = last->on.date;
    g->per_days = date_days_between(last->on.date, b->plan->on);
    g->change_percent = (now - before) / before * 100;
    g->percent_per_30_days = g->change_percent * 30 / (double)g->per_days;
    g->weight = judge(b, g->change_percent, g->per_days);
    bool falls = g->weight == WEIGHT_FALLING || g->weight == WEIGHT_FALLING_FAST;
    g->verdict = falls ? VERDICT_TOO_LOW : VERDICT_IN_RANGE;
    build_derive(b, &g->how, "growth.change_percent", g->change_percent, "%", "percent-change", "arithmetic",
                 INPUTS({"mass-now", now, "g"}, {"mass-before", before, "g"}, {"days", (double)g->per_days, "d"}));
    return true;
}
