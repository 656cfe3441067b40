/* The water on a sheet that hangs: its tests in lines by their result, and what to do with it. */
#include <string.h>

#include "base/strbuf.h"
#include "sheet/wall.h"
#include "words/format_measured.h"

enum water_group { WATER_OFF, WATER_EDGE, WATER_RIGHT, WATER_UNREAD, WATER_GROUP_COUNT };

static enum water_group group_of(const struct composition *c, enum measure_id measure)
{
    const struct measured_plan *plan = &c->plan->measured[measure];
    if (!plan->has_reading || plan->verdict == VERDICT_UNKNOWN)
        return WATER_UNREAD;
    if (plan->implausible || plan->verdict == VERDICT_BORDERLINE)
        return WATER_EDGE;
    return section_measure_is_right(c, measure) ? WATER_RIGHT : WATER_OFF;
}

/* "Ammonia 0.5 mg/l (aim for 0 mg/l)"; what is right is named alone. */
static const char *test_text(struct composition *c, enum measure_id measure, enum water_group group)
{
    const char *name = section_measure_name(c, measure);
    if (group == WATER_RIGHT)
        return name;
    struct plan_fact facts[] = {
        {.name = "name", .kind = FACT_TEXT, .text = name, .next = &facts[1]},
        {.name = "target",
         .kind = FACT_TEXT,
         .text = section_measure_target(c, measure),
         .next = group == WATER_UNREAD ? NULL : &facts[2]},
        {.name = "now",
         .kind = FACT_TEXT,
         .text = format_measured(&c->ctx.format, measures[measure].dimension,
                                 c->plan->measured[measure].reading)}};
    struct phrase_context ctx = c->ctx;
    ctx.facts = facts;
    return phrase(&ctx, group == WATER_UNREAD ? "wall.water.test-open" : "wall.water.test");
}

static void add_line(struct composition *c, struct panel *panel, const char *head_key,
                     const char *text)
{
    if (!text || !*text)
        return;
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->title = section_with_text(c, "sheet.run-in", "name", phrase(&c->ctx, head_key));
    entry->text = text;
}

/* Its gas is a part of it: named as right beside ammonia that is wrong it would say the contrary,
 * and beside ammonia that is right the same twice. */
static bool is_right_gas(const struct composition *c, enum measure_id measure)
{
    if (measure != MEASURE_NH3)
        return false;
    const enum water_group gas = group_of(c, measure), whole = group_of(c, MEASURE_AMMONIA);
    return (whole == WATER_OFF && gas != WATER_OFF) ||
           (whole == WATER_RIGHT && gas == WATER_RIGHT &&
            section_measure_shows(c, MEASURE_AMMONIA));
}

/* Where it is tight the table of the three days has the test, and here it stands no more. What is
 * wrong is never left to it: beside the others that are wrong it would seem to be right. */
static bool is_left_to_table(struct composition *c, enum measure_id measure)
{
    return section_is_close(c, CLOSE_LISTS) && wall_is_in_half_days(c, measure) &&
           group_of(c, measure) != WATER_OFF;
}

/* Nobody tests for waste in a dish that is emptied each day. */
static bool is_no_test_of_a_dish(const struct composition *c, enum measure_id measure)
{
    return !c->plan->water.lives_in_it && group_of(c, measure) == WATER_UNREAD;
}

static void add_tests(struct composition *c, struct panel *panel)
{
    static const char *const heads[WATER_GROUP_COUNT] = {"wall.water.off", "wall.water.edge",
                                                         "wall.water.right", "wall.water.unread"};
    for (int group = 0; group < WATER_GROUP_COUNT; group++) {
        const char *texts[MEASURE_COUNT];
        size_t count = 0;
        for (int m = 0; m < MEASURE_COUNT; m++)
            if (measures[m].part == PART_WATER && section_measure_shows(c, (enum measure_id)m) &&
                !is_left_to_table(c, (enum measure_id)m) && !is_right_gas(c, (enum measure_id)m) &&
                !is_no_test_of_a_dish(c, (enum measure_id)m) &&
                group_of(c, (enum measure_id)m) == (enum water_group)group)
                texts[count++] = test_text(c, (enum measure_id)m, (enum water_group)group);
        if (count)
            add_line(c, panel, heads[group],
                     arena_format(c->arena, "%s.", phrase_all_of(&c->ctx, texts, count)));
    }
}

/* In brief: the step that asks for it says how. */
static bool is_left_to_step(struct composition *c, const struct water_line *line)
{
    const bool is_change = strcmp(line->head, "sheet.water.today") == 0;
    return section_in_brief(c) &&
           (line->is_step || (is_change && section_has_action(c, "change-part-water")));
}

void section_wall_water(struct composition *c, struct block_builder *out)
{
    const struct water_plan *w = &c->plan->water;
    if (!w->applies || (!w->lives_in_it && !section_measures_read(c, PART_WATER)))
        return;
    struct panel *panel = wall_panel(c, out, PANEL_GRADES);
    panel->is_small = section_is_close(c, CLOSE_LISTS) && !section_is_opened(c);
    panel->title = phrase(&c->ctx, "sheet.water.title");
    add_tests(c, panel);
    struct water_line lines[WATER_LINES_MOST];
    const size_t count = section_water_lines(w, lines);
    for (size_t i = 0; i < count; i++)
        if (!is_left_to_step(c, &lines[i]))
            add_line(c, panel, lines[i].head, phrase_if_known(&c->ctx, lines[i].text));
}
