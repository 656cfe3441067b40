/* A gut that stood empty longer than its kind bears begins with a small meal: what it asks for. */
#include <stdint.h>
#include <string.h>

#include "care/feeding.h"
#include "care/stances.h"

/* Months without food are normal only for a grown animal whose weight holds. */
double feeding_fast_limit_days(const struct care_build *b)
{
    const struct species *s = b->in->species;
    enum weight_state weight = b->plan->growth.weight;
    bool careful = b->plan->feeding.stage != STAGE_ADULT || weight == WEIGHT_FALLING ||
                   weight == WEIGHT_FALLING_FAST;
    return careful && s->no_food_young_days.range.known ? s->no_food_young_days.range.low
                                                        : s->no_food_days.range.low;
}

/* As what holds, or as a limit of what holds. */
static bool has_stance(const struct stance_phase *phase, const char *stance)
{
    for (size_t i = 0; i < phase->limit_count; i++)
        if (strcmp(phase->limits[i], stance) == 0)
            return true;
    return strcmp(phase->stance, stance) == 0;
}

/* Its own share of a meal rises from a small one already: somebody calls for it, or a settlement of
 * a thin animal puts it in place. */
static bool is_built_up(struct care_build *b)
{
    for (size_t i = 0; i < b->calls->count; i++)
        if (strcmp(b->calls->items[i].stance, "build-up") == 0)
            return true;
    const size_t food = topic_find(b->in->topics, "food", strlen("food"));
    const struct topic_plan settled =
        food != SIZE_MAX ? stances_settle(b, food) : (struct topic_plan){0};
    for (size_t k = 0; k < settled.phase_count; k++)
        if (has_stance(&settled.phases[k], "build-up"))
            return true;
    return false;
}

bool long_fast_calls_plan(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    struct date_value last;
    const double limit = feeding_fast_limit_days(b);
    f->is_long_fast = limit > 0 && visit_last_meal(b->in->visit, &last) &&
                      (double)date_days_between(last.date, b->plan->on) > limit;
    /* insects and leaves come a little a day by themselves, and nobody cuts down the food of eggs
     */
    if (!f->is_long_fast || b->in->species->diet.value != DIET_WHOLE_PREY ||
        build_is_found(b, "gravid") || is_built_up(b))
        return true;
    stances_call(b, "food:small",
                 &(struct stance_call){.from = b->plan->on,
                                       .has_until = b->plan->has_recheck,
                                       .until = b->plan->recheck,
                                       .end_by = PHASE_END_RECHECK,
                                       .because = "call:long-fast"});
    return true;
}

/* No source says on which day an empty gut is filled again. */
bool long_fast_asks_plan(struct care_build *b)
{
    const struct stance_phase *food = plan_phase_on(b->plan, "food", b->plan->on);
    const struct feeding_plan *f = &b->plan->feeding;
    const bool is_woken = plan_holds(b->plan, "warmth-day", "wake-steps");
    if ((!f->is_long_fast && !is_woken) || !food || food->decision || f->next_count == 0)
        return true;
    build_review(b, REVIEW_MISSING, "first-meal-after-fast", (struct mark){0},
                 build_fact_date(b, "on", f->next[0], NULL));
    return true;
}
