/* What a species sheet must fulfil beyond its table: every id of a source is
 * known, and bands stand in the order that nature gives them. */
#include "records/species.h"

#include <string.h>

struct sourced_field {
    const char *path;
    size_t offset;
};

#define AT(path_, member_)                                                                         \
    {                                                                                              \
        path_, offsetof(struct species, member_)                                                   \
    }

static const struct sourced_field sourced_fields[] = {
    AT("temperature.preferred-air", preferred_air),
    AT("temperature.preferred-body", preferred_body),
    AT("temperature.upper-limit", upper_limit),
    AT("temperature.night-drop", night_drop),
    AT("humidity.in-shed", humidity_shed_percent),
    AT("humidity.least-humidity", least_humidity_percent),
    AT("species.brumation-least-age", brumation_least_age_days),
    AT("nest.depth", nest_depth_cm),
    AT("water.change-share", water_change_percent),
    AT("water.change-every", water_change_days),
    AT("water.unfiltered-share", unfiltered_change_percent),
    AT("water.unfiltered-every", unfiltered_change_days),
    AT("water.least-depth-times", least_depth_times),
    AT("water.most-depth-times", most_depth_times),
    AT("light.ferguson-zone", ferguson_zone),
    AT("light.hours-summer", hours_summer),
    AT("light.hours-winter", hours_winter),
    AT("feeding.longest-fast", no_food_days),
    AT("feeding.longest-fast-young", no_food_young_days),
    AT("feeding.longest-without-stool", no_stool_days),
    AT("size.adult-length", adult_length_cm),
    AT("size.adult-mass", adult_mass_g),
    AT("size.hatchling-mass", hatchling_mass_g),
    AT("size.longest-life", longest_life_days),
    AT("enclosure.length-times", enclosure_length_times),
    AT("enclosure.width-times", enclosure_width_times),
    AT("enclosure.height-times", enclosure_height_times),
    AT("enclosure.height-plus", enclosure_height_plus_cm),
};

static bool check_source(const struct species *s, const char *path,
                         const struct sourced_value *sourced, struct diag *diag)
{
    if (!sourced->range.known)
        return true;
    bool good = true;
    if (!named_text_find(&s->sources, sourced->source.text)) {
        diag_report_path(diag, DIAG_ERROR, "unknown-source", sourced->source.at, path,
                         "source '%s' is not among this file's sources", sourced->source.text);
        good = false;
    }
    for (size_t i = 0; i < sourced->disagrees.count; i++)
        good = check_source(s, path, LIST_AT(sourced->disagrees, struct sourced_value, i), diag) &&
               good;
    if (sourced->disagrees.count && !sourced->choice.text) {
        diag_report_path(
            diag, DIAG_ERROR, "choice-unsaid", sourced->at, path,
            "other values stand beside this one; say under 'choice' why this was chosen");
        good = false;
    }
    return good;
}

static bool check_all_sources(const struct species *s, struct diag *diag)
{
    bool good = true;
    for (int m = 0; m < MEASURE_COUNT; m++)
        good = check_source(s, measures[m].sheet_path, &s->measured[m], diag) && good;
    for (size_t i = 0; i < sizeof sourced_fields / sizeof *sourced_fields; i++) {
        const void *place = (const char *)s + sourced_fields[i].offset;
        good = check_source(s, sourced_fields[i].path, place, diag) && good;
    }
    for (size_t i = 0; i < s->feeding.count; i++) {
        const struct species_feeding_stage *stage =
            LIST_AT(s->feeding, struct species_feeding_stage, i);
        good = check_source(s, "feeding.stages.meal", &stage->meal_percent, diag) && good;
        good = check_source(s, "feeding.stages.insects", &stage->insects, diag) && good;
        good = check_source(s, "feeding.stages.insects-every", &stage->insects_every_days, diag) &&
               good;
        good = check_source(s, "feeding.stages.plant-share", &stage->plant_share_percent, diag) &&
               good;
        good = check_source(s, "feeding.stages.every", &stage->every_days, diag) && good;
    }
    for (size_t i = 0; i < s->supplements.count; i++) {
        const struct species_supplement *one =
            LIST_AT(s->supplements, struct species_supplement, i);
        good = check_source(s, "feeding.supplements.per-week", &one->per_week, diag) && good;
        good = check_source(s, "feeding.supplements.every-meals", &one->every_meals, diag) && good;
    }
    return good;
}

/* Nowhere in the animal's home may it be warmer than the animal bears. */
static bool check_upper_limit(const struct species *s, struct diag *diag)
{
    bool good = true;
    for (int zone = 0; zone < ZONE_COUNT && s->upper_limit.range.known; zone++) {
        const struct band *range = &s->measured[zone].range;
        if (!range->known || range->high <= s->upper_limit.range.high)
            continue;
        diag_report_path(
            diag, DIAG_ERROR, "limit-below-zone", range->at, "temperature.upper-limit",
            "'%s' goes up to %.4g C, above the %.4g C of 'upper-limit'; one of the two "
            "is wrong",
            bind_choice_word(zone_choices, zone), range->high, s->upper_limit.range.high);
        good = false;
    }
    return good;
}

/* Each zone's band lies at or above the one before it, at both ends. */
static bool check_zone_order(const struct species *s, struct diag *diag)
{
    static const enum zone upward[] = {ZONE_NIGHT, ZONE_COOL_SIDE, ZONE_WARM_SIDE,
                                       ZONE_BASKING_SURFACE};
    const struct sourced_value *below = NULL;
    bool good = true;
    for (size_t i = 0; i < 4; i++) {
        const struct sourced_value *zone = &s->measured[upward[i]];
        if (!zone->range.known)
            continue;
        if (below && (zone->range.low < below->range.low || zone->range.high < below->range.high)) {
            diag_report_path(
                diag, DIAG_ERROR, "zones-out-of-order", zone->range.at, "temperature",
                "'%s' (%.4g-%.4g C) lies below the zone that must be cooler (%.4g-%.4g C)",
                bind_choice_word(zone_choices, (int)upward[i]), zone->range.low, zone->range.high,
                below->range.low, below->range.high);
            good = false;
        }
        below = zone;
    }
    return check_upper_limit(s, diag) && good;
}

struct need {
    bool holds;
    struct mark at;
    const char *path;
    const char *what;
};

static bool nest_fits(const struct species *s)
{
    return s->reproduction.value == REPRODUCTION_EGG_LAYER
               ? s->nest_kind.value != NEST_DRY_HIDE
               : s->nest_kind.value == NEST_DRY_HIDE || s->nest_kind.value == NEST_NONE;
}

static bool nest_is_dug(const struct species *s)
{
    return s->nest_kind.value == NEST_SOIL_BOX || s->nest_kind.value == NEST_FLOOR_BIN ||
           s->nest_kind.value == NEST_SOIL_PEN || s->nest_kind.value == NEST_LAND_AREA;
}

/* Which parts an animal of this way of life must have. */
static bool check_completeness(const struct species *s, struct diag *diag)
{
    bool aquatic = s->habit.value == HABIT_AQUATIC;
    bool in_water = aquatic || s->habit.value == HABIT_SEMI_AQUATIC;
    const struct need needs[] = {
        {!in_water || s->measured[MEASURE_WATER].range.known, s->habit.at, "temperature.water",
         "is needed for an animal that lives in water"},
        {aquatic ||
             (s->measured[MEASURE_COOL_SIDE].range.known && s->measured[MEASURE_NIGHT].range.known),
         s->habit.at, "temperature", "needs cool-side and night"},
        {aquatic || s->measured[MEASURE_HUMIDITY].range.known, s->habit.at, "humidity.range",
         "is needed for an animal that lives on land"},
        {!s->needs_uvb.value || s->ferguson_zone.range.known, s->needs_uvb.at,
         "light.ferguson-zone", "is needed where UVB is offered"},
        {!s->enclosure_least.known ||
             (s->enclosure_least_source.text && s->enclosure_least_trust.known),
         s->enclosure_least.at, "enclosure.least", "needs least-source and least-trust"},
        {!s->enclosure_least_source.text ||
             named_text_find(&s->sources, s->enclosure_least_source.text),
         s->enclosure_least_source.at, "enclosure.least-source",
         "is not among this file's sources"},
        {s->brumation.value == BRUMATION_NEVER || s->brumation_least_age_days.range.known,
         s->brumation.at, "species.brumation-least-age", "is needed where a winter rest may be"},
        {nest_fits(s), s->nest_kind.at, "nest.kind", "does not fit how it reproduces"},
        {!nest_is_dug(s) || s->nest_depth_cm.range.known, s->nest_kind.at, "nest.depth",
         "is needed where she digs"},
        {!s->least_humidity_percent.range.known ||
             s->least_humidity_percent.range.low <= s->measured[MEASURE_HUMIDITY].range.low,
         s->least_humidity_percent.at, "humidity.least-humidity", "lies above the usual band"},
        {!s->enclosure_height_plus_cm.range.known || s->enclosure_height_times.range.known,
         s->enclosure_height_plus_cm.at, "enclosure.height-plus", "needs height-times"},
        {s->enclosure_length_times.range.known || s->enclosure_least.known, s->habit.at,
         "enclosure", "needs length-times or least"},
        {named_text_find(&s->names, "en") != NULL, s->code.at, "species.names",
         "needs an English name"},
    };
    bool good = true;
    for (size_t i = 0; i < sizeof needs / sizeof *needs; i++) {
        if (needs[i].holds)
            continue;
        diag_report_path(diag, DIAG_ERROR, "incomplete-sheet", needs[i].at, needs[i].path, "%s",
                         needs[i].what);
        good = false;
    }
    return good;
}

bool species_check(const struct species *species, struct diag *diag)
{
    bool good = check_all_sources(species, diag);
    good = check_zone_order(species, diag) && good;
    good = check_completeness(species, diag) && good;
    return good;
}
