/* Change between weighings, and the tortoise ratio. */
#include "care/feeding.h"
#include "care/weighings.h"

#include <math.h>

static void add_weighing(struct weighing_plan *items, size_t *count, struct weighing_plan one)
{
    size_t at = (*count)++;
    for (; at > 0 && date_compare(items[at - 1].on, one.on) > 0; at--)
        items[at] = items[at - 1];
    items[at] = one;
}

static void plan_weighings(struct care_build *b)
{
    const struct list *earlier = &b->in->visit->patient.earlier;
    struct weighing_plan *items = ARENA_ARRAY(b->arena, struct weighing_plan, earlier->count + 1);
    size_t count = 0;
    for (size_t i = 0; i < earlier->count; i++) {
        const struct visit_weighing *one = LIST_AT(*earlier, struct visit_weighing, i);
        if (weighings_is_usable(b, i))
            add_weighing(items, &count, (struct weighing_plan){one->on.date, one->mass_g.value});
    }
    if (b->plan->patient.has_mass)
        add_weighing(items, &count, (struct weighing_plan){b->plan->on, b->plan->patient.mass_g});
    size_t before = count > WEIGHINGS_MOST ? count - WEIGHINGS_MOST : 0;
    b->plan->growth.weighings = items + before;
    b->plan->growth.weighing_count = count - before;
}

/* Least squares over the weighings. */
static void plan_trend(struct care_build *b)
{
    struct growth_plan *g = &b->plan->growth;
    double n = (double)g->weighing_count, sx = 0, sy = 0, sxx = 0, sxy = 0, x = 0;
    for (size_t i = 0; i < g->weighing_count; i++) {
        double y = g->weighings[i].mass_g;
        x = (double)date_days_between(g->weighings[0].on, g->weighings[i].on);
        sx += x;
        sy += y;
        sxx += x * x;
        sxy += x * y;
    }
    double spread = n * sxx - sx * sx;
    g->has_trend = spread > 0;
    if (!g->has_trend)
        return;
    double slope = (n * sxy - sx * sy) / spread;
    g->trend_first_g = (sy - slope * sx) / n;
    g->trend_last_g = g->trend_first_g + slope * x;
}

static double change_percent(const struct care_build *b, const struct visit_weighing *before)
{
    double now_g = b->in->visit->patient.mass_g.value;
    return (now_g - before->mass_g.value) / before->mass_g.value * 100;
}

static enum weight_state judge(const struct care_build *b, const struct visit_weighing *before)
{
    double percent = change_percent(b, before);
    long days = date_days_between(before->on.date, b->plan->on);
    if (-percent >= build_limit(b, "mass-loss-slow-percent"))
        return WEIGHT_FALLING_FAST;
    if (feeding_is_young(b) && -percent >= build_limit(b, "mass-loss-young-percent"))
        return WEIGHT_FALLING_FAST;
    if (-percent >= build_limit(b, "mass-loss-fast-percent"))
        return days <= (long)build_limit(b, "mass-loss-fast-days") ? WEIGHT_FALLING_FAST
                                                                   : WEIGHT_FALLING;
    if (fabs(percent) <= build_limit(b, "mass-steady-percent"))
        return WEIGHT_STEADY;
    return percent > 0 ? WEIGHT_RISING : WEIGHT_FALLING;
}

/* A loss weighs more than a gain, a greater one more than a small one. */
static int gravity(const struct care_build *b, const struct visit_weighing *before)
{
    switch (judge(b, before)) {
    case WEIGHT_FALLING_FAST:
        return 3;
    case WEIGHT_FALLING:
        return -change_percent(b, before) >= build_limit(b, "mass-loss-fast-percent") ? 2 : 1;
    default:
        return 0;
    }
}

/* The weighing that today's is compared with: the last one, unless an earlier one shows a graver
 * loss that came in small steps. */
static const struct visit_weighing *find_reference(const struct care_build *b)
{
    const struct list *earlier = &b->in->visit->patient.earlier;
    const struct visit_weighing *chosen = NULL;
    for (size_t i = 0; i < earlier->count; i++) {
        const struct visit_weighing *one = LIST_AT(*earlier, struct visit_weighing, i);
        if (!weighings_is_usable(b, i))
            continue;
        int more = chosen ? gravity(b, one) - gravity(b, chosen) : 1;
        bool later = chosen && date_compare(one->on.date, chosen->on.date) > 0;
        if (more > 0 || (more == 0 && later))
            chosen = one;
    }
    return chosen;
}

/* Jackson 1976/1985: mass / straight carapace length cubed, Testudo graeca and T. hermanni only,
 * not for hatchlings. */
static void plan_ratio(struct care_build *b)
{
    const struct visit_patient *a = &b->in->visit->patient;
    struct growth_plan *g = &b->plan->growth;
    enum stage_reason reason;
    const struct species_feeding_stage *stage = feeding_find_stage(b, &reason);
    bool hatchling =
        stage && reason != STAGE_ASSUMED_ADULT && stage->stage.value == STAGE_HATCHLING;
    if (!b->in->species->jackson_ratio.value || !b->plan->patient.has_mass ||
        !b->plan->patient.has_length || hatchling)
        return;
    g->has_ratio = true;
    g->ratio_g_cm3 = a->mass_g.value / pow(a->length_cm.value, 3);
    g->ratio_verdict = build_verdict(g->ratio_g_cm3, build_limit(b, "jackson-low"),
                                     build_limit(b, "jackson-high"));
    struct ends mass = build_mass_g(b, a->mass_g.value),
                length = build_length_cm(b, a->length_cm.value);
    struct derivation *made = build_derive(
        b, &g->how,
        (struct derived){
            "growth.length_mass_ratio", g->ratio_g_cm3, "g/cm3", "jackson-ratio",
            "Jackson 1976/1985, Testudo graeca and T. hermanni only",
            INPUTS({"mass", a->mass_g.value, "g"}, {"carapace-length", a->length_cm.value, "cm"},
                   {"scale-error", mass.high - a->mass_g.value, "g"},
                   {"tape-error", build_limit(b, "length-reading-error-percent"), "%"})});
    build_band(made, mass.low / pow(length.high, 3), mass.high / pow(length.low, 3));
    if (g->ratio_verdict != VERDICT_IN_RANGE)
        build_review(b, REVIEW_REMARK, "length-mass-ratio-outside", a->mass_g.at,
                     build_fact(b, "ratio", FACT_RATIO, g->ratio_g_cm3, g->ratio_g_cm3,
                                build_fact(b, "usual", FACT_RATIO, build_limit(b, "jackson-low"),
                                           build_limit(b, "jackson-high"), NULL)));
}

/* A young animal should gain: standing still for a month is too little. */
static bool stands_still_young(const struct care_build *b)
{
    const struct growth_plan *g = &b->plan->growth;
    struct date month_ago =
        date_add_months(b->plan->on, -(int)build_limit(b, "weigh-steady-months"));
    return g->weight == WEIGHT_STEADY && date_compare(g->since, month_ago) <= 0 &&
           feeding_is_young(b);
}

static void plan_verdict(struct care_build *b)
{
    struct growth_plan *g = &b->plan->growth;
    bool falls = g->weight == WEIGHT_FALLING || g->weight == WEIGHT_FALLING_FAST;
    g->verdict = VERDICT_IN_RANGE;
    if (falls || stands_still_young(b))
        g->verdict = VERDICT_TOO_LOW;
    if (!falls && g->verdict == VERDICT_TOO_LOW)
        build_review(b, REVIEW_REMARK, "young-not-growing", b->in->visit->patient.mass_g.at,
                     build_fact(b, "change", FACT_PERCENT, g->change_percent, g->change_percent,
                                build_fact_date(b, "since", g->since, NULL)));
}

/* Both weighings may be off, each its own way. */
static void derive_change(struct care_build *b, double before_g)
{
    struct growth_plan *g = &b->plan->growth;
    double now_g = b->in->visit->patient.mass_g.value, days = (double)g->per_days;
    struct ends now = build_mass_g(b, now_g), before = build_mass_g(b, before_g);
    struct derivation *change = build_derive(
        b, &g->how,
        (struct derived){"growth.change_percent", g->change_percent, "%", "percent-change",
                         "arithmetic",
                         INPUTS({"mass-now", now_g, "g"}, {"mass-before", before_g, "g"},
                                {"scale-error-now", now.high - now_g, "g"},
                                {"scale-error-before", before.high - before_g, "g"})});
    double lightest_g = fmax(before.low, before_g / 2); /* a scale that may be off by all of it */
    build_band(change, (now.low / before.high - 1) * 100, (now.high / lightest_g - 1) * 100);
    struct derivation *month = build_derive(
        b, &g->how,
        (struct derived){"growth.percent_per_30_days", g->percent_per_30_days, "%",
                         "percent-per-30-days", "arithmetic",
                         INPUTS({"change", g->change_percent, "%"}, {"days", days, "d"})});
    build_band(month, change->low * 30 / days, change->high * 30 / days);
}

bool growth_plan(struct care_build *b)
{
    struct growth_plan *g = &b->plan->growth;
    plan_weighings(b);
    plan_trend(b);
    plan_ratio(b);
    const struct visit_weighing *before = b->plan->patient.has_mass ? find_reference(b) : NULL;
    if (!before)
        return true;
    g->known = true;
    g->since = before->on.date;
    g->per_days = date_days_between(before->on.date, b->plan->on);
    g->change_percent = change_percent(b, before);
    g->percent_per_30_days = g->change_percent * 30 / (double)g->per_days;
    g->weight = judge(b, before);
    plan_verdict(b);
    derive_change(b, before->mass_g.value);
    return true;
}
