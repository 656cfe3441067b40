/* The temperature plan: target, reading and verdict of each zone, gradient, night, upper limit. */
#include "care/measured.h"

#include <math.h>

#include "care/warmth.h"

static const char *zone_word(enum zone zone)
{
    return bind_choice_word(zone_choices, (int)zone);
}

static struct plan_fact *zone_fact(struct care_build *b, enum zone zone, struct plan_fact *next)
{
    return build_fact_text(b, "zone", FACT_CODE, arena_format(b->arena, "zone.%s", zone_word(zone)),
                           next);
}

/* A veterinarian may leave the species' band; the plan follows and says so. */
static void remark_own_target(struct care_build *b, enum zone zone, const struct band *own)
{
    const struct band *usual = &b->in->species->measured[zone].range;
    const struct band *limit = &b->in->species->upper_limit.range;
    double usual_high = usual->known ? usual->high : -INFINITY;
    if (usual->known)
        measured_remark_own(b, (enum measure_id)zone, usual->low, usual->high);
    if (limit->known && own->high > limit->low && own->high > usual_high) {
        struct plan_fact *facts =
            build_fact(b, "limit", FACT_TEMPERATURE, limit->low, limit->low, NULL);
        facts = build_fact(b, "target", FACT_TEMPERATURE, own->low, own->high, facts);
        build_review(b, REVIEW_OVERRIDE, "own-target-above-limit", own->at,
                     zone_fact(b, zone, facts));
    }
}

static void set_target(struct care_build *b, enum zone zone)
{
    const enum measure_id measure = (enum measure_id)zone;
    const struct band *own = &b->in->visit->targets.measured[measure];
    if (own->known)
        remark_own_target(b, zone, own);
    if (!measured_aim(b, measure))
        return;
    build_spread(b, "temperature-spread", &b->in->species->measured[measure],
                 &b->in->species->sources, FACT_TEMPERATURE);
}

/* ---- which readings cannot be right -------------------------------------------- */

static void disbelieve(struct care_build *b, enum zone zone, const char *code,
                       const struct quantity *against, const char *against_name)
{
    struct measured_plan *plan = &b->plan->measured[zone];
    const struct quantity *reading = &b->in->visit->measured[zone];
    if (plan->implausible)
        return;
    plan->implausible = true;
    struct plan_fact *facts = NULL;
    if (against)
        facts = build_fact(b, against_name, FACT_TEMPERATURE, against->value, against->value, NULL);
    facts = build_fact(b, "reading", FACT_TEMPERATURE, reading->value, reading->value, facts);
    build_review(b, REVIEW_IMPLAUSIBLE, code, reading->at, zone_fact(b, zone, facts));
}

static void judge_readings(struct care_build *b)
{
    const struct quantity *read = b->in->visit->measured;
    const struct quantity *room = &b->in->visit->enclosure.readings.room_c;
    double margin = build_limit(b, "temperature-reading-error-c");
    double hottest = build_limit(b, "temperature-hottest-c");
    for (int z = 0; z < ZONE_COUNT; z++)
        if (read[z].known && read[z].value > hottest)
            disbelieve(b, (enum zone)z, "reading-too-hot", NULL, NULL);
    /* a place that is heated by day is not colder than the room around it */
    for (int z = ZONE_BASKING_SURFACE; z <= ZONE_WARM_SIDE; z++)
        if (read[z].known && room->known && read[z].value < room->value - margin)
            disbelieve(b, (enum zone)z, "reading-below-room", room, "room");
    const struct quantity *night = &read[ZONE_NIGHT];
    const struct quantity *day = &read[ZONE_WARM_SIDE];
    if (night->known && day->known && !b->plan->measured[ZONE_WARM_SIDE].implausible &&
        night->value > day->value + margin)
        disbelieve(b, ZONE_NIGHT, "night-above-day", day, "warm-side");
}

/* ---- readings together --------------------------------------------------------------- */

static void derive_difference(struct care_build *b, const char *what, double value,
                              struct plan_input from, struct plan_input less)
{
    /* two thermometers, each with its own error, neither knowing of the other */
    double error = build_limit(b, "temperature-reading-error-c") * sqrt(2);
    struct derivation *made = build_derive(
        b, &b->plan->temperature.how,
        (struct derived){what, value, "K", "difference", "arithmetic", INPUTS(from, less)});
    build_band(made, value - error, value + error);
}

static void set_gradient(struct care_build *b)
{
    struct temperature_plan *plan = &b->plan->temperature;
    const struct measured_plan *zones = b->plan->measured;
    const struct measured_plan *cool = &zones[ZONE_COOL_SIDE];
    enum zone warm_zone =
        measured_is_usable(&zones[ZONE_WARM_SIDE]) ? ZONE_WARM_SIDE : ZONE_BASKING_SURFACE;
    const struct measured_plan *warm = &zones[warm_zone];
    if (!measured_is_usable(cool) || !measured_is_usable(warm) || !cool->applies || !warm->applies)
        return;
    plan->gradient_c = warm->reading - cool->reading;
    derive_difference(b, "temperature.gradient_c", plan->gradient_c,
                      (struct plan_input){zone_word(warm_zone), warm->reading, "C"},
                      (struct plan_input){zone_word(ZONE_COOL_SIDE), cool->reading, "C"});
    bool both_right = warm->verdict == VERDICT_IN_RANGE && cool->verdict == VERDICT_IN_RANGE;
    if (plan->gradient_c < 0)
        plan->gradient = GRADIENT_INVERTED;
    else if (plan->gradient_c < build_limit(b, "gradient-least-c") && !both_right)
        plan->gradient = GRADIENT_TOO_FLAT;
    else
        plan->gradient = GRADIENT_GOOD;
}

/* A night inside its own target is good whatever the day was; outside it, the drop tells
 * whether the heating ran on or failed. */
static void set_night(struct care_build *b)
{
    struct temperature_plan *plan = &b->plan->temperature;
    const struct measured_plan *zones = b->plan->measured;
    const struct measured_plan *night = &zones[ZONE_NIGHT];
    const struct measured_plan *day = &zones[ZONE_WARM_SIDE];
    const struct band *usual = &b->in->species->night_drop.range;
    if (!measured_is_usable(night) || !measured_is_usable(day) || !night->applies)
        return;
    double error = build_limit(b, "temperature-reading-error-c");
    double deepest = build_limit(b, "night-drop-deepest-c");
    plan->night_drop_c = day->reading - night->reading;
    derive_difference(b, "temperature.night_drop_c", plan->night_drop_c,
                      (struct plan_input){zone_word(ZONE_WARM_SIDE), day->reading, "C"},
                      (struct plan_input){zone_word(ZONE_NIGHT), night->reading, "C"});
    double least = usual->known ? usual->low - error : error;
    double most = usual->known ? fmax(usual->high + error, deepest) : deepest;
    plan->night = NIGHT_GOOD;
    if (night->verdict == VERDICT_IN_RANGE || night->verdict == VERDICT_BORDERLINE)
        return;
    bool may_drop = !plan_holds(b->plan, "warmth-night", "no-drop");
    if (may_drop && plan->night_drop_c < least && night->verdict != VERDICT_TOO_LOW)
        plan->night = NIGHT_NO_DROP;
    else if (plan->night_drop_c > most && night->verdict != VERDICT_TOO_HIGH)
        plan->night = NIGHT_TOO_DEEP;
}

/* One remark for all the places that were not read. */
static void remark_unread(struct care_build *b)
{
    struct plan_fact *facts = NULL;
    for (int z = ZONE_COUNT - 1; z >= 0; z--) {
        const struct measured_plan *zone = &b->plan->measured[z];
        if (zone->applies && !zone->has_reading)
            facts = zone_fact(b, (enum zone)z, facts);
    }
    if (facts)
        build_review(b, REVIEW_MISSING, "zones-unread", (struct mark){0}, facts);
}

/* Right where it basked says nothing of lower down. Too cold there is colder still below, and too
 * hot stays a danger to what climbs up to it. */
static void forget_high_basking(struct care_build *b)
{
    struct measured_plan *basking = &b->plan->measured[ZONE_BASKING_SURFACE];
    if (!b->plan->lying.low || !basking->applies || !measured_is_usable(basking) ||
        basking->verdict == VERDICT_TOO_LOW || basking->verdict == VERDICT_TOO_HIGH)
        return;
    build_review(
        b, REVIEW_MISSING, "basking-read-higher", b->in->visit->measured[ZONE_BASKING_SURFACE].at,
        build_fact(b, "reading", FACT_TEMPERATURE, basking->reading, basking->reading, NULL));
    basking->has_reading = false;
    basking->read_higher = true;
    basking->verdict = VERDICT_UNKNOWN;
    basking->change = 0;
}

bool temperature_plan(struct care_build *b)
{
    struct temperature_plan *plan = &b->plan->temperature;
    const struct band *limit = &b->in->species->upper_limit.range;
    bool good =
        build_is_finite(b, &b->in->visit->enclosure.readings.room_c, "enclosure.readings.room");
    for (int z = 0; z < ZONE_COUNT; z++) {
        good = measured_read(b, (enum measure_id)z) && good;
        set_target(b, (enum zone)z);
        if (limit->known)
            measured_limit(b, (enum measure_id)z, limit->low); /* of a band, the careful end */
    }
    if (!good)
        return false;
    warmth_follow_stances(b);
    remark_unread(b);
    judge_readings(b);
    for (int z = 0; z < ZONE_COUNT; z++) {
        measured_judge(b, (enum measure_id)z);
        measured_derive_change(b, (enum measure_id)z);
    }
    forget_high_basking(b);
    set_gradient(b);
    set_night(b);
    plan->has_upper_limit = limit->known;
    plan->upper_limit_c = limit->low;
    return true;
}
