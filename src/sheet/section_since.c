/* What was done since the visit before and what still is not: as a table, and as lines. */
#include <string.h>

#include "sheet/wall.h"
#include "words/format_measured.h"

enum { FACTS_MOST = 4 };

/* In the order in which they are said: thanks first, then what is left. */
static const struct outcome_row {
    enum since_outcome outcome;
    const char *key;
} outcome_rows[] = {
    {SINCE_DONE, "sheet.since.done"},       {SINCE_NEAR, "sheet.since.near"},
    {SINCE_STILL, "sheet.since.still"},     {SINCE_TURNED, "sheet.since.turned"},
    {SINCE_UNKNOWN, "sheet.since.unknown"}, {SINCE_GOES_ON, "sheet.since.goes-on"},
    {SINCE_OVER, "sheet.since.over"},
};

struct fact_list {
    struct plan_fact items[FACTS_MOST];
    size_t count;
};

static void add_fact(struct fact_list *facts, const char *name, const char *text)
{
    if (!text)
        return;
    facts->items[facts->count] = (struct plan_fact){
        .name = name,
        .kind = FACT_TEXT,
        .text = text,
        .next = facts->count ? &facts->items[facts->count - 1] : NULL,
    };
    facts->count++;
}

static const char *phrase_with(struct composition *c, const char *key,
                               const struct fact_list *facts)
{
    struct phrase_context ctx = c->ctx;
    ctx.facts = facts->count ? &facts->items[facts->count - 1] : NULL;
    return phrase(&ctx, key);
}

static enum dimension dimension_of(const struct since_item *item)
{
    return item->place == PLACE_LAMP_DISTANCE ? DIM_LENGTH : measures[item->place].dimension;
}

static const char *value_text(struct composition *c, const struct since_item *item, bool known,
                              double value)
{
    return known ? format_measured(&c->ctx.format, dimension_of(item), value) : NULL;
}

/* The place where it was measured; of the rest what was asked for, as a thing. */
static const char *name_of(struct composition *c, const struct since_item *item)
{
    if (item->own)
        return item->own;
    if (item->has_place && item->place != PLACE_LAMP_DISTANCE)
        return section_measure_name(c, (enum measure_id)item->place);
    return phrase_code(&c->ctx, "since.what", item->code);
}

/* "Warm side: 27 C then, 31 C now, goal 30-33 C." */
static const char *item_text(struct composition *c, const struct since_item *item)
{
    struct fact_list facts = {0};
    add_fact(&facts, "name", name_of(c, item));
    if (item->has_place) {
        add_fact(&facts, "then", value_text(c, item, item->has_then, item->then));
        add_fact(&facts, "now", value_text(c, item, item->has_now, item->now));
        if (item->has_target)
            add_fact(
                &facts, "goal",
                format_measured_band(&c->ctx.format, dimension_of(item), item->low, item->high));
    }
    return phrase_with(c, "sheet.since.line", &facts);
}

static const char *weight_text(struct composition *c)
{
    const struct since_weight *w = &c->plan->since.weight;
    const struct format *format = &c->ctx.format;
    struct fact_list facts = {0};
    add_fact(&facts, "then", format_mass(format, w->then_g));
    add_fact(&facts, "now", format_mass(format, w->now_g));
    if (w->has_expected)
        add_fact(&facts, "goal", format_mass_band(format, w->expected_low_g, w->expected_high_g));
    return phrase_with(c, "sheet.since.weight", &facts);
}

/* One line an outcome, the weight last. Returns how many. */
static size_t collect(struct composition *c, struct now_line *lines)
{
    const struct since_plan *since = &c->plan->since;
    size_t count = 0;
    for (size_t r = 0; r < sizeof outcome_rows / sizeof *outcome_rows; r++) {
        const char *text = NULL;
        for (size_t i = 0; i < since->item_count; i++) {
            if (since->items[i].outcome != outcome_rows[r].outcome)
                continue;
            const char *one = item_text(c, &since->items[i]);
            text = text ? arena_format(c->arena, "%s %s", text, one) : one;
        }
        if (text)
            lines[count++] =
                (struct now_line){.end = phrase(&c->ctx, outcome_rows[r].key), .text = text};
    }
    if (since->weight.known)
        lines[count++] = (struct now_line){.end = phrase(&c->ctx, "sheet.since.weight-head"),
                                           .text = weight_text(c)};
    return count;
}

enum { LINES_MOST = sizeof outcome_rows / sizeof *outcome_rows + 1 };

static const char *title(struct composition *c)
{
    return section_with_date(c, "sheet.since.title", c->plan->since.on);
}

/* The share of the width that the outcomes take. */
#define OUTCOME_SHARE 0.27

void section_since(struct composition *c, struct block_builder *out)
{
    struct now_line lines[LINES_MOST];
    size_t count = c->plan->since.known ? collect(c, lines) : 0;
    if (!count)
        return;
    builder_heading(out, 2, title(c));
    struct block *pairs = builder_table(out, (const double[]){OUTCOME_SHARE, 1 - OUTCOME_SHARE}, 2);
    for (size_t i = 0; i < count; i++)
        section_pair(c, pairs, lines[i].end, lines[i].text);
}

void section_wall_since(struct composition *c, struct block_builder *out)
{
    struct now_line lines[LINES_MOST];
    size_t count = c->plan->since.known ? collect(c, lines) : 0;
    if (!count)
        return;
    struct panel *panel = wall_panel(c, out, PANEL_GRADES);
    panel->title = title(c);
    for (size_t i = 0; i < count; i++) {
        struct panel_entry *entry = wall_entry(c, &panel->entries);
        entry->title = lines[i].end;
        entry->text = lines[i].text;
    }
}
