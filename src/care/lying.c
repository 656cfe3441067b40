/* Where an animal that must not climb lies now: how high above the floor, and how far below the
 * place that its lamp and its readings are of. */
#include "care/build.h"

#include <math.h>

/* As high as the sheet lets it: on the floor, on a perch no higher than its own length (a rule of
 * clinics, from memory), on what is there as before, or as high as nobody has said. */
enum low_spot { SPOT_FLOOR, SPOT_OWN_LENGTH, SPOT_AS_BUILT, SPOT_NOT_SAID };

/* A row fits any habit where ANY stands for it; the first that fits counts. */
enum { ANY = -1 };

static const struct {
    int group, habit;
    const char *stance;
    enum low_spot spot;
} spots[] = {
    {GROUP_LIZARD, HABIT_ARBOREAL, "ground-only", SPOT_OWN_LENGTH},
    {GROUP_LIZARD, HABIT_ARBOREAL, "low", SPOT_OWN_LENGTH},
    {GROUP_TURTLE, ANY, "ground-only", SPOT_AS_BUILT}, /* a ramp leads up to its dry place */
    {GROUP_TURTLE, ANY, "low", SPOT_AS_BUILT},
    {ANY, HABIT_ARBOREAL, "low", SPOT_NOT_SAID},
    {ANY, ANY, "ground-only", SPOT_FLOOR},
    {ANY, ANY, "low", SPOT_FLOOR},
};

static enum low_spot spot_of(const struct care_build *b)
{
    const struct species *species = b->in->species;
    for (size_t i = 0; i < sizeof spots / sizeof *spots; i++)
        if ((spots[i].group == ANY || spots[i].group == (int)species->group.value) &&
            (spots[i].habit == ANY || spots[i].habit == (int)species->habit.value) &&
            plan_holds(b->plan, "climbing", spots[i].stance))
            return spots[i].spot;
    return SPOT_AS_BUILT;
}

bool lying_plan(struct care_build *b)
{
    struct lying_plan *lying = &b->plan->lying;
    const struct quantity *platform = &b->in->visit->enclosure.platform_height_cm;
    const struct patient_plan *animal = &b->plan->patient;
    const enum low_spot spot = spot_of(b);
    lying->own_length = spot == SPOT_OWN_LENGTH;
    if (spot == SPOT_AS_BUILT || !(platform->value >= 0))
        return true;
    double at_cm = spot == SPOT_OWN_LENGTH ? animal->length_cm : 0;
    lying->known = spot == SPOT_FLOOR || (spot == SPOT_OWN_LENGTH && animal->has_length);
    /* what never climbed and stood on nothing lies where it lay */
    lying->low = platform->known ? !lying->known || platform->value > at_cm
                                 : b->in->species->habit.value == HABIT_ARBOREAL;
    lying->known = lying->known && lying->low;
    if (!lying->known) {
        if (lying->low)
            build_review(b, REVIEW_MISSING, "low-place-unknown", platform->at, NULL);
        return true;
    }
    lying->above_floor_cm = at_cm;
    lying->has_lower_by = platform->known && isfinite(platform->value);
    if (lying->has_lower_by)
        lying->lower_by_cm = platform->value - at_cm;
    else
        build_review(b, REVIEW_MISSING, "low-place-unknown", platform->at, NULL);
    return true;
}
