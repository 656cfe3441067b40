/* Temperature, light and humidity in words. */
#include "sheet/sections.h"

/* ---- temperature -------------------------------------------------------------------- */

static bool is_over_limit(const struct care_plan *plan)
{
    bool over = false;
    for (int z = 0; z < ZONE_COUNT; z++)
        over = over || (plan->temperature.has_upper_limit &&
                        plan->measured[z].verdict == VERDICT_TOO_HIGH &&
                        plan->measured[z].judged > plan->temperature.upper_limit_c);
    return over;
}

static void add_notes(struct composition *c, struct block_builder *out, bool readings)
{
    const struct temperature_plan *t = &c->plan->temperature;
    bool flat = t->gradient == GRADIENT_TOO_FLAT || t->gradient == GRADIENT_INVERTED;
    const char *const keys[] = {
        is_over_limit(c->plan) ? "sheet.temperature.limit-passed" : "sheet.temperature.limit",
        flat ? "sheet.temperature.flat" : NULL,
        readings                                   ? NULL
        : c->plan->measured[MEASURE_WATER].applies ? "sheet.temperature.how-water"
                                                   : "sheet.temperature.how",
        "sheet.temperature.heating",
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
    if (!section_measures_show(c, PART_TEMPERATURE))
        return;
    section_title(c, out, "sheet.temperature.title");
    section_measures_table(c, out, PART_TEMPERATURE);
    add_notes(c, out, section_measures_read(c, PART_TEMPERATURE));
    const char *logger = section_logger_text(c);
    if (logger)
        builder_paragraph(out, logger);
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
        [DISTANCE_TOO_STRONG] = "sheet.light.too-strong",
        [DISTANCE_TOO_WEAK] = "sheet.light.too-weak",
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
    if (plan_holds(c->plan, "warmth-day", "rest")) /* it is dark */
        return;
    const struct uvb_plan *u = &c->plan->uvb;
    const struct measured_plan *light = &c->plan->measured[MEASURE_UVB];
    section_title(c, out, "sheet.light.title");
    struct block *table = add_pairs(c, out);
    /* a new lamp is about to come: its height, not that of the old one */
    const char *key = light->applies ? distance_key(u->lamp == LAMP_STATE_DUE && u->lamp_overdue
                                                        ? DISTANCE_KNOWN
                                                        : u->distance_why)
                      : u->sun       ? "sheet.light.sun"
                      : c->plan->taxon.is_unlisted ? "sheet.light.unlisted"
                                                   : "sheet.light.not-needed";
    section_row(c, table, "sheet.light.lamp", phrase(&c->ctx, key));
    if (light->applies) {
        section_row(c, table, "sheet.light.index", phrase_if_known(&c->ctx, "sheet.light.target"));
        /* when it is overdue, an action says so */
        if (!u->lamp_overdue && plan_has_date(c->plan, "lamp-change") &&
            !(c->sheet->compact.value && section_has_date(c, "lamp-change")))
            section_row(c, table, "sheet.light.change",
                        phrase_if_known(&c->ctx, "sheet.light.due"));
    }
    section_row(c, table, "sheet.light.day",
                phrase_if_known(&c->ctx, u->sun ? "sheet.light.daylight" : "sheet.light.hours"));
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
    /* nobody steers the air of what lives in water */
    if (!air->applies || !plan_phase_on(c->plan, "humidity", c->plan->on))
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
