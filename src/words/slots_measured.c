/* Slots of what is measured: {ID.target}, {ID.reading}, {ID.missed}, {ID.change} of every row of
 * the table. */
#include <string.h>

#include "words/format_measured.h"
#include "words/slots_inside.h"

/* Once the warm place has a number by night, the lowest reading is that of the cool end. */
bool slots_night_has_two_ends(const struct care_plan *plan)
{
    return plan->measured[MEASURE_NIGHT].applies && plan->measured[MEASURE_NIGHT_WARM_SIDE].applies;
}

const char *slots_plain_place(const struct phrase_context *ctx, enum measure_id measure)
{
    const bool is_cool_end = measure == MEASURE_NIGHT && slots_night_has_two_ends(PLAN);
    return phrase_part(ctx, "measure", measures[measure].id, is_cool_end ? "plain-cool" : "plain");
}

bool slots_measured_target(const struct phrase_context *ctx, enum measure_id measure,
                           struct slot_value *out)
{
    const struct measured_plan *plan = &PLAN->measured[measure];
    return (plan->applies || plan->limit_only) &&
           give(out,
                format_measured_band(FORMAT, measures[measure].dimension, plan->low, plan->high));
}

bool slots_measured_reading(const struct phrase_context *ctx, enum measure_id measure,
                            struct slot_value *out)
{
    const struct measured_plan *plan = &PLAN->measured[measure];
    return plan->has_reading && !plan->implausible &&
           give(out, format_measured(FORMAT, measures[measure].dimension, plan->reading));
}

/* What misses the target of a well animal too: of an ill one's own target nobody is blamed. */
static bool measured_missed(const struct phrase_context *ctx, enum measure_id measure,
                            struct slot_value *out)
{
    return !PLAN->measured[measure].fits_usual && slots_measured_reading(ctx, measure, out);
}

static bool measured_change(const struct phrase_context *ctx, enum measure_id measure,
                            struct slot_value *out)
{
    const struct measured_plan *plan = &PLAN->measured[measure];
    return plan->change != 0 &&
           give(out, format_measured_change(FORMAT, measures[measure].dimension, plan->judged,
                                            plan->low, plan->high));
}

static const struct measured_slot {
    const char *part;
    slots_measured_getter *get;
} parts[] = {{".target", slots_measured_target},
             {".reading", slots_measured_reading},
             {".missed", measured_missed},
             {".change", measured_change}};

/* "warm-side.change" -> its getter and *measure; NULL when it is none. */
slots_measured_getter *slots_find_measured(const char *name, enum measure_id *measure)
{
    for (int m = 0; m < MEASURE_COUNT; m++) {
        size_t length = strlen(measures[m].id);
        if (strncmp(name, measures[m].id, length) != 0)
            continue;
        for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
            if (strcmp(name + length, parts[i].part) != 0)
                continue;
            *measure = (enum measure_id)m;
            return parts[i].get;
        }
    }
    return NULL;
}

const char *slots_measured_part(size_t place)
{
    return place < sizeof parts / sizeof *parts ? parts[place].part : NULL;
}
