/* Makes a plan: runs each computation of this layer in the order in which they need each other. */
#include "care/build.h"

/* In this order: each rests on what stands before it. */
typedef bool part_fn(struct care_build *);
static part_fn *const parts[] = {
    identity_plan,
    opening_hours_plan,
    patient_plan,
    plausible_plan,
    plausible_days_plan,
    own_targets_check,
    stage_plan,
    findings_plan,
    aftercare_plan,
    growth_plan,
    recheck_plan,
    winter_rest_plan,
    season_plan,
    company_plan, /* who shares the box decides who lives and eats alone */
    stances_plan,
    winter_rest_calls_plan,
    long_fast_calls_plan,
    stances_settle_plan,
    brought_in_plan, /* what comes in today leaves its pen, and all that is on record of it */
    aftercare_said_plan,
    winter_rest_stance_plan,
    lying_plan,
    log_plan,
    temperature_plan,
    heating_plan,
    humidity_plan,
    log_judge_plan,
    water_plan,
    outdoors_plan,
    uvb_plan,
    weight_plan,
    medicines_plan,
    company_floor_plan,
    enclosure_plan,
    plausible_home_plan,
    stances_after_readings_plan, /* readings too say how much may be fed */
    feeding_rest_over_check,
    tube_food_plan,
    tube_here_plan,
    feeding_plan,
    long_fast_asks_plan,
    decisions_plan,
    instructions_agree_plan,
    actions_plan,
    since_plan,
    steps_plan,
    call_days_plan,
    warnings_plan,
    blanks_plan,
    dates_plan,
    stances_speak_plan,
    sources_plan,
};

const struct care_plan *care_plan_make(const struct care_inputs *inputs, struct arena *arena,
                                       struct diag *diag)
{
    struct care_plan *plan = ARENA_NEW(arena, struct care_plan);
    plan->on = inputs->visit->date.date;
    plan->notes_in = inputs->visit->notes_in.text;
    struct care_build build = {.in = inputs, .plan = plan, .arena = arena, .diag = diag};
    bool good = true;
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        good = parts[i](&build) && good;
    return good ? plan : NULL;
}
