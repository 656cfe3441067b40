/* Which of the species' feeding stages this animal is in, and what told it. */
#include "care/feeding.h"

static bool is_past(const struct care_build *b, const struct species_feeding_stage *s,
                    enum stage_reason *reason)
{
    const struct visit_patient *a = &b->in->visit->patient;
    if (s->until_age_days.known && b->plan->patient.age_known) {
        *reason = STAGE_BY_AGE;
        return (double)b->plan->patient.age_days >= s->until_age_days.value;
    }
    if (s->until_length_cm.known && b->plan->patient.has_length) {
        *reason = STAGE_BY_LENGTH;
        return a->length_cm.value >= s->until_length_cm.value;
    }
    if (s->until_mass_g.known && b->plan->patient.has_mass) {
        *reason = STAGE_BY_MASS;
        return a->mass_g.value >= s->until_mass_g.value;
    }
    *reason = STAGE_ASSUMED_ADULT;
    return true;
}

const struct species_feeding_stage *feeding_find_stage(const struct care_build *b,
                                                       enum stage_reason *reason)
{
    const struct list *stages = &b->in->species->feeding;
    *reason = STAGE_ASSUMED_ADULT;
    for (size_t i = 0; i < stages->count; i++) {
        const struct species_feeding_stage *stage =
            LIST_AT(*stages, struct species_feeding_stage, i);
        if (i + 1 == stages->count || !is_past(b, stage, reason))
            return stage;
    }
    return NULL;
}

bool feeding_is_young(const struct care_build *b)
{
    enum stage_reason reason;
    const struct species_feeding_stage *stage = feeding_find_stage(b, &reason);
    return stage && reason != STAGE_ASSUMED_ADULT &&
           (stage->stage.value == STAGE_HATCHLING || stage->stage.value == STAGE_JUVENILE);
}

bool stage_plan(struct care_build *b)
{
    const struct species_feeding_stage *stage =
        feeding_find_stage(b, &b->plan->feeding.stage_reason);
    b->plan->feeding.stage = stage ? (enum stage)stage->stage.value : STAGE_ADULT;
    return true;
}
