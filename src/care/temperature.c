/* The temperature plan: target, reading and verdict of each zone, gradient, night, upper limit. */
#include "care/build.h"

#include <math.h>

/* Targets and readings a zone, then what only several readings together can tell. */

static const char *zone_word(enum zone zone)
{
    return bind_choice_word(zone_choices, (int)zone);
}

static const char *name_of(struct care_build *b, enum zone zone, const char *part)
{
    return arena_format(b->arena, "temperature.%s.%s", zone_word(zone), part);
}

static struct plan_fact *zone_fact(struct care_build *b, enum zone zone, struct plan_fact *next)
{
    return build_fact_text(b, "zone", FACT_CODE, arena_format(b->arena, "zone.%s", zone_word(zone)),
                           next);
}

static double middle(double low, double high)
{
    return (low + high) / 2;
}

/* A veterinarian may leave the species' band; the plan follows and says so. */
static void remark_own_target(struct care_build *b, enum zone zone, const struct band *own)
{
    const struct sourced_value *usual = &b->in->species->zones[zone];
    const struct band *limit = &b->in->species->upper_limit.range;
    double usual_high = usual->range.known ? usual->range.high : -INFINITY;
    if (usual->range.known && (own->low < usual->range.low || own->high > usual->range.high)) {
        struct plan_fact *facts =
            build_fact(b, "usual", FACT_TEMPERATURE, usual->range.low, usual->range.high, NULL);
        facts = build_fact(b, "target", FACT_TEMPERATURE, own->low, own->high, facts);
        build_review(b, REVIEW_OVERRIDE, "own-temperature-target", own->at,
                     zone_fact(b, zone, facts));
    }
    if (limit->known && own->high > limit->low && own->high > usual_high) {
        struct plan_fact *facts =
            build_fact(b, "limit", FACT_TEMPERATURE, limit->low, limit->low, NULL);
        facts = build_fact(b, "target", FACT_TEMPERATURE, own->low, own->high, facts);
        build_review(b, REVIEW_OVERRIDE, "own-target-above-limit", own->at,
                     zone_fact(b, zone, facts));
    }
}

/* A finding moves the target into one half of the species' band, never outside it. */
static void narrow_target(struct care_build *b, enum zone zone, struct zone_plan *plan)
{
    if (b->warmth_change == WARMTH_AS_USUAL || plan->low_c == plan->high_c)
        return;
    bool warmer = b->warmth_change == WARMTH_UPPER_HALF;
    double half = middle(plan->low_c, plan->high_c);
    build_derive(b, &b->plan->temperature.how,
                 name_of(b, zone, warmer ? "target_low_c" : "target_high_c"), half, "C",
                 warmer ? "upper-half" : "lower-half", plan->target_from.source,
                 INPUTS({"band-low", plan->low_c, "C"}, {"band-high", plan->high_c, "C"}));
    *(warmer ? &plan->low_c : &plan->high_c) = half;
    plan->target_from.origin = ORIGIN_FINDING;
    plan->target_from.because = b->warmth_change_from;
}

static void set_target(struct care_build *b, enum zone zone)
{
    struct zone_plan *plan = &b->plan->temperature.zones[zone];
    const struct sourced_value *usual = &b->in->species->zones[zone];
    const struct band *own = &b->in->visit->targets.zones_c[zone];
    plan->applies = usual->range.known || own->known;
    if (own->known) {
        plan->low_c = own->low;
        plan->high_c = own->high;
        plan->target_from = build_from_veterinarian(b);
        remark_own_target(b, zone, own);
    } else if (usual->range.known) {
        plan->low_c = usual->range.low;
        plan->high_c = usual->range.high;
        plan->target_from =
            build_from_sourced(usual, &b->in->species->sources, ORIGIN_SPECIES_SHEET);
        narrow_target(b, zone, plan);
        build_spread(b, "temperature-spread", usual, &b->in->species->sources, FACT_TEMPERATURE);
    }
}

/* ---- which readings cannot be right -------------------------------------------- */

static void disbelieve(struct care_build *b, enum zone zone, const char *code,
                       const struct quantity *against, const char *against_name)
{
    struct zone_plan *plan = &b->plan->temperature.zones[zone];
    const struct quantity *reading = &b->in->visit->enclosure.readings.zones_c[zone];
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
    const struct visit_readings *read = &b->in->visit->enclosure.readings;
    double margin = build_limit(b, "temperature-reading-error-c");
    double hottest = build_limit(b, "temperature-hottest-c");
    for (int z = 0; z < ZONE_COUNT; z++)
        if (read->zones_c[z].known && read->zones_c[z].value > hottest)
            disbelieve(b, (enum zone)z, "reading-too-hot", NULL, NULL);
    /* a place that is heated by day is not colder than the room around it */
    for (int z = ZONE_BASKING_SURFACE; z <= ZONE_WARM_SIDE; z++)
        if (read->zones_c[z].known && read->room_c.known &&
            read->zones_c[z].value < read->room_c.value - margin)
            disbelieve(b, (enum zone)z, "reading-below-room", &read->room_c, "room");
    const struct quantity *night = &read->zones_c[ZONE_NIGHT];
    const struct quantity *day = &read->zones_c[ZONE_WARM_SIDE];
    if (night->known && day->known && !b->plan->temperature.zones[ZONE_WARM_SIDE].implausible &&
        night->value > day->value + margin)
        disbelieve(b, ZONE_NIGHT, "night-above-day", day, "warm-side");
}

static void set_verdict(struct care_build *b, enum zone zone)
{
    struct zone_plan *plan = &b->plan->temperature.zones[zone];
    if (!plan->has_reading || plan->implausible || !plan->applies)
        return;
    plan->verdict = build_verdict(plan->reading_c, plan->low_c, plan->high_c);
    plan->change_c = build_step(plan->reading_c, plan->low_c, plan->high_c);
    if (plan->change_c == 0)
        return;
    double error = build_limit(b, "temperature-reading-error-c");
    struct derivation *made =
        build_derive(b, &b->plan->temperature.how, name_of(b, zone, "change_c"), plan->change_c,
                     "K", "nearest-end", "arithmetic",
                     INPUTS({"reading", plan->reading_c, "C"}, {"target-low", plan->low_c, "C"},
                            {"target-high", plan->high_c, "C"}, {"thermometer-error", error, "K"}));
    build_band(made, plan->change_c - error, plan->change_c + error);
}

/* ---- readings together --------------------------------------------------------------- */

static bool is_usable(const struct zone_plan *zone)
{
    return zone->has_reading && !zone->implausible;
}

static void derive_difference(struct care_build *b, const char *what, double value,
                              const char *from_name, double from, const char *less_name,
                              double less)
{
    /* two thermometers, each with its own error, neither knowing of the other */
    double error = build_limit(b, "temperature-reading-error-c") * sqrt(2);
    struct derivation *made =
        build_derive(b, &b->plan->temperature.how, what, value, "K", "difference", "arithmetic",
                     INPUTS({from_name, from, "C"}, {less_name, less, "C"}));
    build_band(made, value - error, value + error);
}

static void set_gradient(struct care_build *b)
{
    struct temperature_plan *plan = &b->plan->temperature;
    const struct zone_plan *cool = &plan->zones[ZONE_COOL_SIDE];
    enum zone warm_zone =
        is_usable(&plan->zones[ZONE_WARM_SIDE]) ? ZONE_WARM_SIDE : ZONE_BASKING_SURFACE;
    const struct zone_plan *warm = &plan->zones[warm_zone];
    if (!is_usable(cool) || !is_usable(warm) || !cool->applies || !warm->applies)
        return;
    plan->gradient_c = warm->reading_c - cool->reading_c;
    derive_difference(b, "temperature.gradient_c", plan->gradient_c, zone_word(warm_zone),
                      warm->reading_c, zone_word(ZONE_COOL_SIDE), cool->reading_c);
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
    const struct zone_plan *night = &plan->zones[ZONE_NIGHT];
    const struct zone_plan *day = &plan->zones[ZONE_WARM_SIDE];
    const struct band *usual = &b->in->species->night_drop.range;
    if (!is_usable(night) || !is_usable(day))
        return;
    double error = build_limit(b, "temperature-reading-error-c");
    double deepest = build_limit(b, "night-drop-deepest-c");
    plan->night_drop_c = day->reading_c - night->reading_c;
    derive_difference(b, "temperature.night_drop_c", plan->night_drop_c, zone_word(ZONE_WARM_SIDE),
                      day->reading_c, zone_word(ZONE_NIGHT), night->reading_c);
    double least = usual->known ? usual->low - error : error;
    double most = usual->known ? fmax(usual->high + error, deepest) : deepest;
    plan->night = NIGHT_GOOD;
    if (night->verdict == VERDICT_IN_RANGE)
        return;
    if (plan->night_drop_c < least && night->verdict != VERDICT_TOO_LOW)
        plan->night = NIGHT_NO_DROP;
    else if (plan->night_drop_c > most && night->verdict != VERDICT_TOO_HIGH)
        plan->night = NIGHT_TOO_DEEP;
}

/* One remark for all the places that were not read. */
static void remark_unread(struct care_build *b)
{
    struct plan_fact *facts = NULL;
    for (int z = ZONE_COUNT - 1; z >= 0; z--) {
        const struct zone_plan *zone = &b->plan->temperature.zones[z];
        if (zone->applies && !zone->has_reading)
            facts = zone_fact(b, (enum zone)z, facts);
    }
    if (facts)
        build_review(b, REVIEW_MISSING, "zones-unread", (struct mark){0}, facts);
}

bool temperature_plan(struct care_build *b)
{
    struct temperature_plan *plan = &b->plan->temperature;
    const struct visit_readings *read = &b->in->visit->enclosure.readings;
    const struct band *limit = &b->in->species->upper_limit.range;
    bool good = build_is_finite(b, &read->room_c, "enclosure.readings.room");
    for (int z = 0; z < ZONE_COUNT; z++) {
        const char *path = arena_format(b->arena, "enclosure.readings.%s", zone_word((enum zone)z));
        good = build_is_finite(b, &read->zones_c[z], path) && good;
        set_target(b, (enum zone)z);
        plan->zones[z].has_reading = read->zones_c[z].known;
        plan->zones[z].reading_c = read->zones_c[z].value;
    }
    if (!good)
        return false;
    remark_unread(b);
    judge_readings(b);
    for (int z = 0; z < ZONE_COUNT; z++)
        set_verdict(b, (enum zone)z);
    set_gradient(b);
    set_night(b);
    plan->has_upper_limit = limit->known;
    plan->upper_limit_c = limit->low; /* of a band, the careful end */
    return true;
}
