/* Temperature, light and humidity in words. */
#include "sheet/sections.h"

/* ---- temperature -------------------------------------------------------------------- */

static bool has_any_zone(const struct care_plan *plan)
{
    for (size_t i = 0; i < ZONE_COUNT; i++)
        if (plan->measured[i].applies)
            return true;
    return false;
}

static bool has_any_reading(const struct care_plan *plan)
{
    for (size_t i = 0; i < ZONE_COUNT; i++)
        if (plan->measured[i].has_reading &&
            (plan->measured[i].applies || plan->measured[i].limit_only))
            return true;
    return false;
}

static void add_zone_row(struct composition *c, struct block *table, enum zone zone, bool readings)
{
    const struct measured_plan *z = &c->plan->measured[zone];
    const struct format *f = &c->ctx.format;
    struct table_row *row = table_add_row(c->arena, table);
    row_add_head(c->arena, row, section_measure_name(c, (enum measure_id)zone));
    row_add(c->arena, row, span_strong(c->arena, section_measure_target(c, (enum measure_id)zone)));
    if (!readings)
        return;
    const char *reading =
        z->has_reading ? format_temp(f, z->reading) : phrase(&c->ctx, "sheet.none");
    row_add(c->arena, row, span_plain(c->arena, reading));
    row_add(c->arena, row, span_plain(c->arena, section_measure_result(c, (enum measure_id)zone)));
}

static void add_notes(struct composition *c, struct block_builder *out, bool readings)
{
    const struct temperature_plan *t = &c->plan->temperature;
    bool flat = t->gradient == GRADIENT_TOO_FLAT || t->gradient == GRADIENT_INVERTED;
    const char *const keys[] = {
        "sheet.temperature.limit",
        flat ? "sheet.temperature.flat" : NULL,
        readings                                   ? NULL
        : c->plan->measured[MEASURE_WATER].applies ? "sheet.temperature.how-water"
                                                   : "sheet.temperature.how",
        readings ? NULL : "sheet.temperature.heating",
    };
    struct span *text = NULL;
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        const char *sentence = keys[i] ? phrase_if_known(&c->ctx, keys[i]) : NULL;
        if (sentence)
            text = span_join(c->arena, text, span_plain(c->arena, sentence));
    }
    if (text)
        builder_spans(out, text, PARAGRAPH_BODY);
}

void section_temperature(struct composition *c, struct block_builder *out)
{
    static const double with[] = {0.29, 0.25, 0.17, 0.29};
    static const double without[] = {0.5, 0.5};
    static const char *const heads[] = {"sheet.head.place", "sheet.head.aim", "sheet.head.now",
                                        "sheet.head.result"};
    if (!has_any_zone(c->plan))
        return;
    section_title(c, out, "sheet.temperature.title");
    bool readings = has_any_reading(c->plan);
    struct block *table = builder_table(out, readings ? with : without, readings ? 4 : 2);
    table->keep_if_room = true;
    section_head(c, table, heads, readings ? 4 : 2);
    for (size_t i = 0; i < ZONE_COUNT; i++)
        if (section_measure_shows(c, (enum measure_id)i))
            add_zone_row(c, table, (enum zone)i, readings);
    add_notes(c, out, readings);
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

static struct block *add_pairs(struct composition *c, struct block_builder *out)
{
    static const char *const heads[] = {"sheet.head.about", "sheet.head.do"};
    struct block *pairs = section_pairs(c, out, 0.24);
    if (!c->sheet->compact.value)
        section_head(c, pairs, heads, 2);
    return pairs;
}

void section_light(struct composition *c, struct block_builder *out)
{
    const struct uvb_plan *u = &c->plan->uvb;
    const struct measured_plan *light = &c->plan->measured[MEASURE_UVB];
    section_title(c, out, "sheet.light.title");
    struct block *table = add_pairs(c, out);
    const char *key = light->applies ? distance_key(u->distance_why) : "sheet.light.not-needed";
    section_row(c, table, "sheet.light.lamp", phrase(&c->ctx, key));
    if (light->applies) {
        section_row(c, table, "sheet.light.index", phrase_if_known(&c->ctx, "sheet.light.target"));
        /* when it is overdue, an action says so */
        if (!u->lamp_overdue && !(c->sheet->compact.value && section_has_date(c, "lamp-change")))
            section_row(c, table, "sheet.light.change",
                        phrase_if_known(&c->ctx, "sheet.light.due"));
    }
    section_row(c, table, "sheet.light.day", phrase_if_known(&c->ctx, "sheet.light.hours"));
}

/* ---- humidity ---------------------------------------------------------------------------- */

static const char *verdict_key(enum verdict verdict)
{
    static const char *const keys[] = {
        [VERDICT_UNKNOWN] = "sheet.humidity.unknown",
        [VERDICT_IN_RANGE] = "sheet.humidity.in-range",
        [VERDICT_BORDERLINE] = "sheet.humidity.borderline",
        [VERDICT_TOO_LOW] = "sheet.humidity.too-low",
        [VERDICT_TOO_HIGH] = "sheet.humidity.too-high",
    };
    return keys[verdict];
}

void section_humidity(struct composition *c, struct block_builder *out)
{
    const struct humidity_plan *h = &c->plan->humidity;
    const struct measured_plan *air = &c->plan->measured[MEASURE_HUMIDITY];
    if (!air->applies)
        return;
    section_title(c, out, "sheet.humidity.title");
    struct block *table = add_pairs(c, out);
    section_row(c, table, "sheet.head.aim",
                phrase(&c->ctx, h->in_shed_now ? "sheet.humidity.target-shed-now"
                                               : "sheet.humidity.target"));
    if (air->has_reading)
        section_row(c, table, "sheet.head.now", phrase(&c->ctx, verdict_key(air->verdict)));
    if (air->has_reading && h->reading_at != ZONE_WARM_SIDE && !c->sheet->compact.value)
        section_row(c, table, "sheet.humidity.warm-side",
                    phrase_if_known(&c->ctx, "sheet.humidity.warm"));
    if (!h->in_shed_now)
        section_row(c, table, "sheet.humidity.in-shed",
                    phrase_if_known(&c->ctx, "sheet.humidity.shed"));
    if (h->moist_hide && !h->in_shed_now)
        section_row(c, table, "sheet.humidity.hide", phrase(&c->ctx, "sheet.humidity.moist-hide"));
    if (h->wall == WALL_WET)
        section_row(c, table, "sheet.humidity.walls", phrase(&c->ctx, "sheet.humidity.wet-wall"));
    /* while it is being changed, the action says how often to measure */
    if (!section_has_action(c, "raise-humidity") && !section_has_action(c, "lower-humidity"))
        section_row(c, table, "sheet.humidity.measure", phrase(&c->ctx, "sheet.humidity.how"));
}
