/* Temperature, light and humidity in words. */
#include "wording/sections.h"

#include <math.h>

/* ---- temperature -------------------------------------------------------------------- */

static bool has_any_zone(const struct care_plan *plan)
{
    for (size_t i = 0; i < ZONE_COUNT; i++)
        if (plan->temperature.zones[i].applies)
            return true;
    return false;
}

static bool has_any_reading(const struct care_plan *plan)
{
    for (size_t i = 0; i < ZONE_COUNT; i++)
        if (plan->temperature.zones[i].applies && plan->temperature.zones[i].has_reading)
            return true;
    return false;
}

static void add_zone_row(struct composition *c, struct block *table, enum zone zone, bool readings)
{
    const struct zone_plan *z = &c->plan->temperature.zones[zone];
    const struct format *f = &c->speech.format;
    const char *word = bind_choice_word(zone_choices, (int)zone);
    struct table_row *row = table_add_row(c->arena, table);
    row_add_head(c->arena, row, say_code(&c->speech, "sheet.zone", word));
    row_add(c->arena, row, span_strong(c->arena, format_temp_band(f, z->low_c, z->high_c)));
    if (!readings)
        return;
    const char *reading =
        z->has_reading ? format_temp(f, z->reading_c) : say(&c->speech, "sheet.none");
    row_add(c->arena, row, span_plain(c->arena, reading));
    row_add(c->arena, row, span_plain(c->arena, section_zone_result(c, zone)));
}

static void add_notes(struct composition *c, struct chain *out)
{
    const struct temperature_plan *t = &c->plan->temperature;
    struct block *list = chain_list(out, LIST_BULLETS);
    section_bullet(c, list, "sheet.temperature.limit");
    if (t->gradient == GRADIENT_TOO_FLAT || t->gradient == GRADIENT_INVERTED)
        section_bullet(c, list, "sheet.temperature.flat");
    section_bullet(c, list,
                   t->zones[ZONE_WATER].applies ? "sheet.temperature.how-water"
                                                : "sheet.temperature.how");
    section_bullet(c, list, "sheet.temperature.heating");
}

void section_temperature(struct composition *c, struct chain *out)
{
    static const double with[] = {0.27, 0.25, 0.18, 0.30};
    static const double without[] = {0.5, 0.5};
    static const char *const heads[] = {"sheet.head.place", "sheet.head.aim", "sheet.head.now",
                                        "sheet.head.result"};
    if (!has_any_zone(c->plan))
        return;
    section_title(c, out, "sheet.temperature.title");
    bool readings = has_any_reading(c->plan);
    struct block *table = chain_table(out, readings ? with : without, readings ? 4 : 2);
    section_head(c, table, heads, readings ? 4 : 2);
    for (size_t i = 0; i < ZONE_COUNT; i++)
        if (c->plan->temperature.zones[i].applies)
            add_zone_row(c, table, (enum zone)i, readings);
    add_notes(c, out);
}

/* ---- light ---------------------------------------------------------------------------- */

static const char *distance_key(enum uvb_distance_why why)
{
    static const char *const keys[] = {
        [DISTANCE_KNOWN] = "sheet.light.distance",
        [DISTANCE_NO_READING] = "sheet.light.no-reading",
        [DISTANCE_NO_LAMP] = "sheet.light.no-lamp",
        [DISTANCE_BLOCKED] = "sheet.light.blocked",
        [DISTANCE_NOT_NEEDED] = "sheet.light.not-needed",
        [DISTANCE_OUT_OF_REACH] = "sheet.light.out-of-reach",
    };
    return keys[why];
}

void section_light(struct composition *c, struct chain *out)
{
    const struct uvb_plan *u = &c->plan->uvb;
    section_title(c, out, "sheet.light.title");
    struct block *list = chain_list(out, LIST_BULLETS);
    if (!u->applies) {
        list_add(c->arena, list, span_plain(c->arena, say(&c->speech, "sheet.light.not-needed")));
    } else {
        list_add(c->arena, list,
                 span_plain(c->arena, say(&c->speech, distance_key(u->distance_why))));
        section_bullet(c, list, "sheet.light.target");
        section_bullet(c, list, "sheet.light.now");
        section_bullet(c, list, "sheet.light.most");
        section_bullet(c, list, u->lamp_overdue ? "sheet.light.overdue" : "sheet.light.due");
    }
    section_bullet(c, list, "sheet.light.hours");
}

/* ---- humidity ---------------------------------------------------------------------------- */

static const char *verdict_key(enum verdict verdict)
{
    static const char *const keys[] = {
        [VERDICT_UNKNOWN] = "sheet.humidity.unknown",
        [VERDICT_IN_RANGE] = "sheet.humidity.in-range",
        [VERDICT_TOO_LOW] = "sheet.humidity.too-low",
        [VERDICT_TOO_HIGH] = "sheet.humidity.too-high",
    };
    return keys[verdict];
}

void section_humidity(struct composition *c, struct chain *out)
{
    const struct humidity_plan *h = &c->plan->humidity;
    if (!h->applies)
        return;
    section_title(c, out, "sheet.humidity.title");
    struct block *list = chain_list(out, LIST_BULLETS);
    list_add(c->arena, list,
             span_strong(c->arena, say(&c->speech, h->in_shed_now ? "sheet.humidity.target-shed-now"
                                                                  : "sheet.humidity.target")));
    if (h->has_reading)
        list_add(c->arena, list, span_plain(c->arena, say(&c->speech, verdict_key(h->verdict))));
    if (h->has_reading && h->reading_at != ZONE_WARM_SIDE)
        section_bullet(c, list, "sheet.humidity.warm");
    if (!h->in_shed_now)
        section_bullet(c, list, "sheet.humidity.shed");
    if (h->moist_hide)
        section_bullet(c, list, "sheet.humidity.moist-hide");
    if (h->wall == WALL_WET)
        section_bullet(c, list, "sheet.humidity.wet-wall");
    section_bullet(c, list, "sheet.humidity.how");
}
