/* How the plan's actions stand in the rows of a sheet, and until when they must be done. */
#include <math.h>
#include <string.h>

#include "care/build.h"

/* Is an ill animal's food, its water, or the warmth that it needs itself, what the numbers are for?
 */
static bool waits_for_warmth(const struct care_build *b, const struct step_plan *steps)
{
    const struct care_plan *plan = b->plan;
    if (!build_has_illness(b))
        return false;
    if (plan_holds(plan, "water-change", "part-now-then-daily"))
        return true; /* it breathes what poisons it */
    if (plan_holds(plan, "food-gate", "warm-and-watered-first") ||
        plan_holds(plan, "food-gate", "watered-first"))
        return true;
    for (size_t i = 0; i < plan->action_count; i++)
        if ((plan->actions[i].is_tonight && steps[i].heats) || /* on page two as well */
            (plan_holds(plan, "warmth-day", "ill-warm") && steps[i].has_place &&
             steps[i].place == MEASURE_WARM_SIDE))
            return true;
    return false;
}

/* A variant that is about something else may need nothing. */
static bool is_bought(const struct step *step, const struct action *action)
{
    return step->bought.value && (strcmp(action->words, action->code) == 0 ||
                                  list_has_text(&step->bought_as, action->words));
}

/* "Turn the heat up", and the record says nothing of any heater. At night a room can be warmed. */
static bool lacks_heater(const struct care_build *b, const struct step *step)
{
    const struct visit *visit = b->in->visit;
    return step->heats.value && step->place.value != MEASURE_NIGHT &&
           visit->enclosure.heat.count == 0 && !visit_thermostat(visit).known &&
           !visit_heat_guard(visit).known;
}

/* Is what is printed of its `how` one of these variants? */
static bool says_one_of(const struct care_build *b, const struct list *variants,
                        const struct action *action)
{
    const char *key = arena_format(b->arena, "action.%s.how", action->code);
    const char *printed = plan_printed_key(b->plan, key, b->arena);
    return printed && list_has_text(variants, printed + strlen("action."));
}

/* What it drank, ate or weighs is written down once, though two steps ask for it. */
static const char *written_down(const struct step_plan *steps, size_t count,
                                const struct step *step)
{
    const char *what = step->write.text;
    if (!what || step->place.known || strcmp(what, "done") == 0)
        return what;
    for (size_t i = 0; i < count; i++)
        if (steps[i].write && strcmp(steps[i].write, what) == 0)
            return NULL;
    return what;
}

/* One step for both ends of the night: it shows the warm place where that is too cold and no other
 * step says its number by night. */
static void take_warm_places(const struct care_build *b, struct step_plan *steps)
{
    const struct care_plan *plan = b->plan;
    bool is_warmed = false;
    for (size_t i = 0; i < plan->action_count; i++)
        is_warmed |= steps[i].warms_night && steps[i].place == MEASURE_WARM_SIDE &&
                     plan->measured[MEASURE_WARM_SIDE].verdict == VERDICT_TOO_LOW;
    for (size_t i = 0; i < plan->action_count && !is_warmed; i++) {
        const struct step *step = step_find(b->in->steps, plan->actions[i].code);
        if (step && steps[i].has_place && step->or_warm_place.known &&
            plan->measured[step->or_warm_place.value].verdict == VERDICT_TOO_LOW)
            steps[i].place = step->or_warm_place.value;
    }
}

bool steps_plan(struct care_build *b)
{
    struct care_plan *plan = b->plan;
    const struct step_book *book = b->in->steps;
    struct step_plan *steps = ARENA_ARRAY(b->arena, struct step_plan, plan->action_count + 1);
    for (size_t i = 0; i < plan->action_count; i++) {
        const struct step *step = step_find(book, plan->actions[i].code);
        if (!step) { /* the veterinarian's own words */
            steps[i].pictogram = PICTOGRAM_WRITTEN;
            continue;
        }
        /* a variant with a row of its own shows its own picture: no guard beside "unplug" */
        const struct step *said = step_find(book, plan->actions[i].words);
        const char *key = arena_format(b->arena, "action.%s.do", plan->actions[i].code);
        steps[i] = (struct step_plan){
            /* a variant that is about something else has not the number of the place */
            .has_place = step->place.known && plan_prints_same_topic(plan, key),
            .place = step->place.value,
            .pictogram = (enum pictogram_name)(said ? said : step)->pictogram.value,
            .write = written_down(steps, i, step),
            .is_bought = is_bought(step, &plan->actions[i]),
            .heats = step->heats.value,
            .lacks_heater = lacks_heater(b, step),
            .makes_heat_safe = step->makes_heat_safe.value,
            .holds_food =
                step->food_waits.value && plan_holds(plan, "food-gate", "warm-and-watered-first"),
            .warms_night = says_one_of(b, &step->warms_night, &plan->actions[i]),
            .in_tub = says_one_of(b, &step->in_tub, &plan->actions[i]),
        };
    }
    take_warm_places(b, steps);
    plan->steps = steps;
    const struct band *days =
        waits_for_warmth(b, steps) ? &book->way_out_fasting_days.range : &book->way_out_days.range;
    /* whoever calls calls in opening hours: before a closed day rather than after it */
    struct date latest = date_add_days(plan->on, lround(days->low));
    /* whoever warms a box in steps has not failed before the last of them */
    if (plan->winter_rest.is_woken_cold && date_compare(plan->winter_rest.warm_on, latest) > 0)
        latest = plan->winter_rest.warm_on;
    plan->way_out = build_open_day(b, latest, latest).on;
    if (plan->has_recheck && date_compare(plan->recheck, plan->way_out) < 0)
        plan->way_out = plan->recheck; /* what is not right by then is seen there */
    return true;
}
