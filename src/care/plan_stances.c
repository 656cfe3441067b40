/* What a plan holds of a topic on a day: asked by whoever has the plan, settles nothing. */
#include <string.h>

#include "base/same_text.h"
#include "care/plan.h"

/* ---- topics by name ---- */

enum { SLOTS = 256 }; /* some four for each topic */

struct topic_index {
    const struct topic_plan *topics; /* of which it was made */
    size_t count;
    unsigned char places[SLOTS]; /* plus one; 0: none */
};

static size_t slot_of(const char *topic)
{
    size_t slot = 0;
    for (; *topic; topic++)
        slot = slot * 31 + (unsigned char)*topic;
    return slot % SLOTS;
}

void plan_index_topics(struct care_plan *plan, struct arena *arena)
{
    struct topic_index *index = ARENA_NEW(arena, struct topic_index);
    index->topics = plan->topics;
    index->count = plan->topic_count;
    for (size_t i = 0; i < plan->topic_count && i + 1 < SLOTS; i++) {
        size_t slot = slot_of(plan->topics[i].topic);
        while (index->places[slot])
            slot = (slot + 1) % SLOTS;
        index->places[slot] = (unsigned char)(i + 1);
    }
    plan->topic_index = plan->topic_count < SLOTS ? index : NULL;
}

static const struct topic_plan *find_indexed(const struct topic_index *index, const char *topic)
{
    for (size_t slot = slot_of(topic); index->places[slot]; slot = (slot + 1) % SLOTS) {
        const struct topic_plan *one = &index->topics[index->places[slot] - 1];
        if (same_text(one->topic, topic))
            return one;
    }
    return NULL;
}

const struct topic_plan *plan_topic(const struct care_plan *plan, const char *topic)
{
    if (plan->topic_index && plan->topic_index->topics == plan->topics &&
        plan->topic_index->count == plan->topic_count)
        return find_indexed(plan->topic_index, topic);
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
