/* What a plan holds of a topic on a day: asked by whoever has the plan, settles nothing. */
#include <string.h>

#include "base/same_text.h"
#include "care/plan.h"

const struct topic_plan *plan_topic(const struct care_plan *plan, const char *topic)
{
    for (size_t i = 0; i < plan->topic_count; i++)
        if (same_text(plan->topics[i].topic, topic))
            return &plan->topics[i];
    return NULL;
}

const struct stance_phase *plan_phase_on(const struct care_plan *plan, const char *topic,
                                         struct date day)
{
    const struct topic_plan *one = plan_topic(plan, topic);
    if (!one)
        return NULL;
    const struct stance_phase *found = &one->phases[0];
    for (size_t k = 0; k < one->phase_count; k++)
        if (date_compare(one->phases[k].from, day) <= 0)
            found = &one->phases[k];
    return found;
}

bool plan_holds_on(const struct care_plan *plan, const char *topic, const char *stance,
                   struct date day)
{
    const struct stance_phase *phase = plan_phase_on(plan, topic, day);
    if (!phase)
        return false;
    for (size_t i = 0; i < phase->with_count; i++)
        if (strcmp(phase->with[i], stance) == 0)
            return true;
    return strcmp(phase->stance, stance) == 0;
}

bool plan_holds(const struct care_plan *plan, const char *topic, const char *stance)
{
    return plan_holds_on(plan, topic, stance, plan->on);
}

static bool is_food_rest(const struct stance_phase *phase)
{
    return strcmp(phase->stance, "none-until-vet") == 0 || strcmp(phase->stance, "rest-until") == 0;
}

struct date plan_food_day(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->topic_count; i++) {
        const struct topic_plan *topic = &plan->topics[i];
        for (size_t k = 0; strcmp(topic->topic, "food") == 0 && k < topic->phase_count; k++)
            if (!is_food_rest(&topic->phases[k]))
                return k ? topic->phases[k].from : plan->on;
    }
    return plan->on;
}
