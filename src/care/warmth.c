/* The warm place and the cool end of an animal that is not well: a table by what is published. */
#include "care/warmth.h"

#include <math.h>
#include <string.h>

#include "care/measured.h"
#include "care/winter_rest.h"

typedef void aim_fn(struct care_build *b, enum measure_id measure);

/* ---- what the species has ---------------------------------------------------------------------
 */

static const struct band *healthy(const struct care_build *b, enum measure_id measure)
{
    return &b->in->species->measured[measure].range;
}

static const struct band *air_zone(const struct care_build *b)
{
    return &b->in->species->preferred_air.range;
}

/* No place gets warmer than the basking spot of a healthy animal, nor past the species' limit. */
static double warmest_c(const struct care_build *b)
{
    const struct band *basking = healthy(b, MEASURE_BASKING_SURFACE);
    const struct band *limit = &b->in->species->upper_limit.range;
    return fmin(basking->known ? basking->high : INFINITY, limit->known ? limit->low : INFINITY);
}

static void aim_from(struct care_build *b, enum measure_id measure,
                     const struct sourced_value *value)
{
    b->plan->measured[measure].target_from =
        build_from_sourced(value, &b->in->species->sources, ORIGIN_SPECIES_SHEET);
}

/* What no source carries is the veterinarian's to set; until then this stands in, from memory. */
static void aim_from_default(struct care_build *b, enum measure_id measure, const char *limit)
{
    b->plan->measured[measure].target_from = build_from_sourced(
        limit_find(b->in->reference, limit), &b->in->reference->sources, ORIGIN_REFERENCE);
}

/* ---- ends
 * ---------------------------------------------------------------------------------------- */

static void set_end(struct care_build *b, enum measure_id measure, const char *end,
                    struct derived made)
{
    struct measured_plan *plan = &b->plan->measured[measure];
    made.what = measured_name(b, measure, end);
    made.source = plan->target_from.source;
    build_derive(b, measured_how(b, measure), made);
    *(strcmp(end, "target_low") == 0 ? &plan->low : &plan->high) = made.value;
    plan->applies = true;
    plan->limit_only = false;
}

/* The end of the zone, or the healthy one's where that is higher; never above what the animal may
 * have at all. */
static void cap_high(struct care_build *b, enum measure_id measure, double usual_high)
{
    const struct band *zone = air_zone(b);
    double low = b->plan->measured[measure].low, most = warmest_c(b);
    const struct plan_input inputs[] = {
        {"zone-high", zone->high, "C"}, {"usual-high", usual_high, "C"}, {"warmest", most, "C"}};
    set_end(b, measure, "target_high",
            (struct derived){NULL, fmax(fmin(fmax(zone->high, usual_high), most), low),
                             .formula = "warm-end-of-zone", .inputs = inputs,
                             .input_count = isfinite(most) ? 3 : 2});
}

/* ---- an air zone is published -----------------------------------------------------------------
 */

/* The zone that a species seeks may end well above its warm side when it is well: who signs says
 * how warm, by day and by night; and what is too hot, where no source does. */
static void ask_of_warm_end(struct care_build *b, enum measure_id measure)
{
    const struct measured_plan *plan = &b->plan->measured[measure];
    const struct band *usual = healthy(b, MEASURE_WARM_SIDE);
    if (measure != MEASURE_WARM_SIDE)
        return;
    if (!b->in->species->upper_limit.range.known)
        build_review(b, REVIEW_MISSING, "upper-limit-unknown", b->in->species->preferred_air.at,
                     NULL);
    if (!usual->known || plan->high <= usual->high)
        return;
    struct plan_fact *facts =
        build_fact(b, "usual", FACT_TEMPERATURE, usual->low, usual->high, NULL);
    facts = build_fact(b, "chosen", FACT_TEMPERATURE, plan->low, plan->high, facts);
    build_review(b, REVIEW_REMARK, "ill-warmth-above-usual", b->in->species->preferred_air.at,
                 facts);
}

/* Its upper half, yet nowhere cooler than for a healthy animal. */
static void zone_upper_half(struct care_build *b, enum measure_id measure)
{
    const struct band *zone = air_zone(b), *usual = healthy(b, MEASURE_WARM_SIDE);
    double percent = build_limit(b, "ill-warmth-share-percent"), most = warmest_c(b);
    double inside = zone->low + (zone->high - zone->low) * percent / 100;
    double usual_low = usual->known ? usual->low : inside;
    aim_from(b, measure, &b->in->species->preferred_air);
    const struct plan_input inputs[] = {{"zone-low", zone->low, "C"},
                                        {"zone-high", zone->high, "C"},
                                        {"share", percent, "%"},
                                        {"usual-low", usual_low, "C"},
                                        {"warmest", most, "C"}};
    set_end(b, measure, "target_low",
            (struct derived){NULL, fmin(fmax(inside, usual_low), most), "C", "upper-part-of-zone",
                             NULL, inputs, isfinite(most) ? 5 : 4});
    cap_high(b, measure, usual->known ? usual->high : zone->high);
    ask_of_warm_end(b, measure);
}

/* The healthy cool end where it lies inside the zone; else moved up to the zone's lowest, as wide
 * as it was, but not into the warm half, and never where the warm side beside it begins: an animal
 * must find a cooler place. */
static void zone_cool_end(struct care_build *b, enum measure_id measure)
{
    const struct band *zone = air_zone(b), *usual = healthy(b, MEASURE_COOL_SIDE);
    double low = usual->known ? fmax(usual->low, zone->low) : zone->low;
    double wide = usual->known ? usual->high - usual->low : 0;
    const struct measured_plan *warm = &b->plan->measured[MEASURE_WARM_SIDE];
    double warm_low = warm->applies ? fmax(warm->low, low) : zone->high;
    double inside = fmin(fmin(zone->low + wide, (zone->low + zone->high) / 2), warm_low);
    double usual_low = usual->known ? usual->low : zone->low;
    double usual_high = usual->known ? usual->high : zone->low;
    aim_from(b, measure, &b->in->species->preferred_air);
    set_end(b, measure, "target_low",
            (struct derived){NULL, low, "C", "lifted-to-zone-low", NULL,
                             INPUTS({"usual-low", usual_low, "C"}, {"zone-low", zone->low, "C"})});
    set_end(b, measure, "target_high",
            (struct derived){NULL, fmax(usual_high, inside), "C", "lifted-to-zone-high", NULL,
                             INPUTS({"usual-low", usual_low, "C"}, {"usual-high", usual_high, "C"},
                                    {"zone-low", zone->low, "C"}, {"zone-high", zone->high, "C"},
                                    {"warm-low", warm_low, "C"})});
}

/* By night the lower part of what the same place has by day, and never the zone's own end. */
static void cap_by_day(struct care_build *b, enum measure_id measure)
{
    const struct band *zone = air_zone(b);
    const struct measured_plan *day = &b->plan->measured[MEASURE_WARM_SIDE];
    const double day_low = day->applies ? day->low : zone->low,
                 day_high = day->applies ? day->high : zone->high,
                 percent = build_limit(b, "ill-night-share-percent"),
                 low = b->plan->measured[measure].low;
    const struct plan_input inputs[] = {{"zone-high", zone->high, "C"},
                                        {"day-low", day_low, "C"},
                                        {"day-high", day_high, "C"},
                                        {"part", percent, "%"},
                                        {"night-low", low, "C"}};
    const double part = day_low + (day_high - day_low) * percent / 100;
    set_end(b, measure, "target_high",
            (struct derived){NULL, fmax(fmin(part, zone->high), low), "C", "low-part-of-day", NULL,
                             inputs, sizeof inputs / sizeof *inputs});
}

/* Where the airway asks for the upper half by night too: from the same low end as by day. */
static void night_upper_half(struct care_build *b, enum measure_id measure)
{
    const struct measured_plan *day = &b->plan->measured[MEASURE_WARM_SIDE];
    zone_upper_half(b, measure);
    if (day->applies && day->low < b->plan->measured[measure].low)
        set_end(b, measure, "target_low",
                (struct derived){NULL, day->low, "C", "low-end-of-day", NULL,
                                 INPUTS({"day-low", day->low, "C"})});
    cap_by_day(b, measure);
}

/* By night the zone's lower half or better, but no colder than the cool end beside it; its upper
 * half where the airway asks for it. */
static void zone_by_night(struct care_build *b, enum measure_id measure)
{
    const struct band *zone = air_zone(b), *cool = healthy(b, MEASURE_COOL_SIDE);
    const double usual_low = cool->known ? cool->low : zone->low;
    if (plan_holds(b->plan, "warmth-night.warm-place", "upper-half")) {
        night_upper_half(b, measure);
        return;
    }
    aim_from(b, measure, &b->in->species->preferred_air);
    set_end(b, measure, "target_low",
            (struct derived){NULL, fmax(usual_low, zone->low), "C", "lifted-to-zone-low", NULL,
                             INPUTS({"usual-low", usual_low, "C"}, {"zone-low", zone->low, "C"})});
    cap_by_day(b, measure);
}

/* ---- no air zone is published: a body temperature, or nothing -------------------------------- */

/* `from` to `to` percent of the healthy band of a place. */
static void part_of(struct care_build *b, enum measure_id measure, enum measure_id place,
                    double from, double to)
{
    const struct band *usual = healthy(b, place);
    const double percents[] = {from, to}, most = warmest_c(b);
    static const char *const ends[] = {"target_low", "target_high"};
    for (int i = 0; usual->known && i < 2; i++) {
        double value = usual->low + (usual->high - usual->low) * percents[i] / 100;
        const struct plan_input inputs[] = {{"band-low", usual->low, "C"},
                                            {"band-high", usual->high, "C"},
                                            {"part", percents[i], "%"},
                                            {"warmest", most, "C"}};
        set_end(b, measure, ends[i],
                (struct derived){NULL, fmin(value, most), "C", "part-of-healthy-band", NULL, inputs,
                                 isfinite(most) ? 4 : 3});
    }
}

static void warm_side_upper_part(struct care_build *b, enum measure_id measure)
{
    aim_from(b, measure, &b->in->species->measured[MEASURE_WARM_SIDE]);
    part_of(b, measure, MEASURE_WARM_SIDE, build_limit(b, "ill-warmth-share-percent"), 100);
}

static void warm_side_low_end(struct care_build *b, enum measure_id measure)
{
    aim_from_default(b, measure, "ill-night-share-percent");
    part_of(b, measure, MEASURE_WARM_SIDE, 0, build_limit(b, "ill-night-share-percent"));
}

static void cool_side_as_by_day(struct care_build *b, enum measure_id measure)
{
    aim_from_default(b, measure, "ill-night-share-percent");
    part_of(b, measure, MEASURE_COOL_SIDE, 0, 100);
}

static void water_upper_part(struct care_build *b, enum measure_id measure)
{
    aim_from_default(b, measure, "ill-warmth-share-percent");
    part_of(b, measure, MEASURE_WATER, build_limit(b, "ill-warmth-share-percent"), 100);
}

/* ---- after overheating ------------------------------------------------------------------------
 */

static void lower_half(struct care_build *b, enum measure_id measure)
{
    struct measured_plan *plan = &b->plan->measured[measure];
    if (plan->applies)
        measured_narrow(b, measure, LOWER_HALF, plan->target_from.because);
}

/* No spot is hotter than the warm side may be; without a reading there is nothing to say of it. */
static void no_hot_spot(struct care_build *b, enum measure_id measure)
{
    b->plan->measured[measure].applies = false;
}

/* ---- the table ----------------------------------------------------------------------------------
 */

static bool is_amphibian(const struct care_build *b)
{
    enum group group = (enum group)b->in->species->group.value;
    return group == GROUP_FROG || group == GROUP_SALAMANDER;
}

/* A chameleon: by night it is as cool everywhere as at the cool end by day. */
static bool drinks_drops_alone(const struct care_build *b)
{
    const struct species *s = b->in->species;
    return s->group.value == GROUP_LIZARD && species_has_trait(s, TRAIT_DRINKS_DROPS) &&
           !species_has_trait(s, TRAIT_DROPS_TAIL);
}

static bool has_air_zone(const struct care_build *b)
{
    return air_zone(b)->known;
}

static bool lives_in_water(const struct care_build *b)
{
    return healthy(b, MEASURE_WATER)->known;
}

static bool is_any(const struct care_build *b)
{
    (void)b;
    return true;
}

/* The first row that fits. NULL: the place stays as for a healthy animal. */
static const struct warmth_row {
    bool (*fits)(const struct care_build *);
    aim_fn *day_warm, *day_cool, *water;
    aim_fn *night_warm, *night_cool;
} rows[] = {
    {is_amphibian, NULL, NULL, NULL, NULL, NULL},
    {has_air_zone, zone_upper_half, zone_cool_end, NULL, zone_by_night, zone_cool_end},
    {drinks_drops_alone, warm_side_upper_part, NULL, NULL, cool_side_as_by_day,
     cool_side_as_by_day},
    {lives_in_water, NULL, NULL, water_upper_part, NULL, cool_side_as_by_day},
    {is_any, warm_side_upper_part, NULL, NULL, warm_side_low_end, cool_side_as_by_day},
};

/* The veterinarian's own target stays. */
static void aim(struct care_build *b, enum measure_id measure, aim_fn *make, const char *because)
{
    struct measured_plan *plan = &b->plan->measured[measure];
    if (!make || b->in->visit->targets.measured[measure].known)
        return;
    plan->target_from.because = because;
    make(b, measure);
    plan->target_from.origin = ORIGIN_FINDING;
    plan->target_from.because = because;
}

static void cool_down(struct care_build *b, const char *because)
{
    for (int m = MEASURE_WARM_SIDE; m <= MEASURE_COOL_SIDE; m++)
        aim(b, (enum measure_id)m, lower_half, because);
    aim(b, MEASURE_WATER, lower_half, because);
    aim(b, MEASURE_BASKING_SURFACE, no_hot_spot, because);
    if (!b->in->visit->targets.measured[MEASURE_BASKING_SURFACE].known &&
        b->plan->measured[MEASURE_WARM_SIDE].applies)
        measured_limit(b, MEASURE_BASKING_SURFACE, b->plan->measured[MEASURE_WARM_SIDE].high);
}

/* It lies in the cold by plan, or comes out of it: nothing is turned up to a healthy day's place to
 * bask. The winter's own numbers stand in its plan. */
static void in_winter_rest(struct care_build *b)
{
    for (int zone = 0; zone < ZONE_COUNT; zone++)
        if (!b->in->visit->targets.measured[zone].known)
            b->plan->measured[zone].applies = false;
}

/* The stance of the day and where it comes from; NULL when it is the animal's usual one. */
static const char *settled(const struct care_build *b, const char *topic, struct date on,
                           const char **from)
{
    const struct stance_phase *phase = plan_phase_on(b->plan, topic, on);
    *from = build_stance_from(phase);
    return *from ? phase->stance : "";
}

static void follow_on(struct care_build *b, struct date on)
{
    const struct warmth_row *row = rows;
    while (!row->fits(b))
        row++;
    const char *from, *day = settled(b, "warmth-day", on, &from);
    if (strcmp(day, "ill-warm") == 0) {
        aim(b, MEASURE_WARM_SIDE, row->day_warm, from);
        aim(b, MEASURE_COOL_SIDE, row->day_cool, from);
        aim(b, MEASURE_WATER, row->water, from);
    } else if (strcmp(day, "cool-down") == 0) {
        cool_down(b, from);
    } else if (strcmp(day, "rest") == 0) {
        in_winter_rest(b);
    } else if (strcmp(day, "wake-steps") == 0) {
        aim(b, MEASURE_BASKING_SURFACE, no_hot_spot, from);
    }
    if (strcmp(settled(b, "warmth-night", on, &from), "no-drop") == 0) {
        /* the cool end that by night is never under the zone is no cooler by day */
        if (row->night_cool == zone_cool_end && (!*day || strcmp(day, "usual") == 0))
            aim(b, MEASURE_COOL_SIDE, row->day_cool, from);
        aim(b, MEASURE_NIGHT_WARM_SIDE, row->night_warm, from);
        aim(b, MEASURE_NIGHT, row->night_cool, from);
    }
}

/* Out of the winter's rest the places are those of the day on which the warmth is back: until then
 * it rises in steps, and what is still cold has no target to be turned up to in one night. */
void warmth_follow_stances(struct care_build *b)
{
    const char *from, *day = settled(b, "warmth-day", b->plan->on, &from);
    const struct stance_phase *now = plan_phase_on(b->plan, "warmth-day", b->plan->on);
    const bool wakes = strcmp(day, "wake-steps") == 0 && now->has_until;
    if (!wakes) {
        follow_on(b, b->plan->on);
        return;
    }
    follow_on(b, now->until);
    winter_waking_plan(b, now->until);
    if (b->plan->winter_rest.is_woken_cold)
        in_winter_rest(b);
    else
        aim(b, MEASURE_BASKING_SURFACE, no_hot_spot, from);
}
