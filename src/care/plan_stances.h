/* What a plan holds of a topic on a day. Asking settles nothing. */
#ifndef BASKLEAF_CARE_PLAN_STANCES_H
#define BASKLEAF_CARE_PLAN_STANCES_H

#include <stdbool.h>

#include "base/date.h"

struct care_plan;
struct stance_phase;
struct topic_plan;

/* So that plan_topic need not look through them. To be called again where they were replaced. */
void plan_index_topics(struct care_plan *plan, struct arena *arena);

/* A topic, and the phase of it that holds on a day; NULL when this animal has no such topic. */
const struct topic_plan *plan_topic(const struct care_plan *plan, const char *topic);
const struct stance_phase *plan_phase_on(const struct care_plan *plan, const char *topic,
                                         struct date day);
/* The day from which food may be offered: today, unless it rests until a day that is known. */
struct date plan_food_day(const struct care_plan *plan);

/* Does the stance hold on the day, as the topic's stance or beside it? */
bool plan_holds_on(const struct care_plan *plan, const char *topic, const char *stance,
                   struct date day);
bool plan_holds(const struct care_plan *plan, const char *topic, const char *stance);

#endif
