/* Out of the winter's rest: in equal steps from what was read to the warmth of a day that is awake.
 */
#include <string.h>

#include "care/measured.h"
#include "care/winter_rest.h"

/* The place that is warmed, else the next one that was read; NULL for none. */
static const struct measured_plan *read_place(const struct care_build *b)
{
    static const enum measure_id places[] = {MEASURE_WARM_SIDE, MEASURE_COOL_SIDE, MEASURE_NIGHT};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++)
        if (measured_is_usable(&b->plan->measured[places[i]]))
            return &b->plan->measured[places[i]];
    return NULL;
}

/* A step a day, today the first and the whole warmth the last, by day and by night alike. */
static void plan_warming(struct care_build *b, double from_c)
{
    struct winter_rest_plan *w = &b->plan->winter_rest;
    const long days = date_days_between(b->plan->on, w->warm_on);
    const char *source = build_from_sourced(limit_find(b->in->reference, "rest-wake-days"),
                                            &b->in->reference->sources, ORIGIN_REFERENCE)
                             .source;
    for (long i = 0; i <= days && w->warming_count < REST_STEPS_MOST; i++) {
        double to_c = from_c + (w->warm_low_c - from_c) * (double)(i + 1) / (double)(days + 1);
        w->warming[w->warming_count++] = (struct rest_step){date_add_days(b->plan->on, i), to_c};
        build_derive(b, &w->how,
                     (struct derived){
                         "winter_rest.warming_c", to_c, "C", "warming-step", source,
                         INPUTS({"reading", from_c, "C"}, {"target-low", w->warm_low_c, "C"},
                                {"step", (double)(i + 1), ""}, {"steps", (double)(days + 1), ""})});
    }
}

void winter_waking_plan(struct care_build *b, struct date warm_on)
{
    struct winter_rest_plan *w = &b->plan->winter_rest;
    const struct measured_plan *warm = &b->plan->measured[MEASURE_WARM_SIDE],
                               *cool = &b->plan->measured[MEASURE_COOL_SIDE], *read = read_place(b);
    bool ends_now = plan_holds(b->plan, "winter-rest", "wake-now");
    /* one that has been awake for a day and was not measured may lie warm already */
    w->is_woken_cold = warm->applies && (read ? read->judged_high < warm->low : ends_now);
    if (!w->is_woken_cold)
        return;
    w->warm_on = warm_on;
    w->warm_low_c = warm->low;
    w->warm_high_c = warm->high;
    if (cool->applies) {
        w->cool_low_c = cool->low;
        w->cool_high_c = cool->high;
    }
    if (read)
        plan_warming(b, read->reading);
}
