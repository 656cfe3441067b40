/* The water: tests, what to change today and week by week, the new water, cooling. */
#include "sheet/sections.h"

static bool changes_now(const struct water_plan *w)
{
    return w->part_now;
}

static const char *today_key(const struct water_plan *w)
{
    return w->has_litres ? "sheet.water.part-litres" : "sheet.water.part";
}

static bool has_usual(const struct water_plan *w)
{
    return w->has_usual;
}

static const char *usual_key(const struct water_plan *w)
{
    return w->is_unfiltered ? "sheet.water.usual-unfiltered" : "sheet.water.usual";
}

static bool is_dish(const struct water_plan *w)
{
    return !w->lives_in_it;
}

static const char *dish_key(const struct water_plan *w)
{
    (void)w;
    return "sheet.water.dish";
}

static bool always(const struct water_plan *w)
{
    (void)w;
    return true;
}

static const char *new_key(const struct water_plan *w)
{
    (void)w;
    return "sheet.water.new";
}

static bool cools(const struct water_plan *w)
{
    return w->cool_down;
}

static const char *cooling_key(const struct water_plan *w)
{
    (void)w;
    return "sheet.water.cooling";
}

static bool lives_in_it(const struct water_plan *w)
{
    return w->lives_in_it;
}

static const char *test_key(const struct water_plan *w)
{
    return w->part_now ? "sheet.water.test-again" : "sheet.water.test";
}

const struct water_line section_water_lines[SECTION_WATER_LINES] = {
    {"sheet.water.today", changes_now, today_key, false},
    {"sheet.water.usual-head", has_usual, usual_key, false},
    {"sheet.water.dish-head", is_dish, dish_key, false},
    {"sheet.water.new-head", always, new_key, false},
    {"sheet.water.cooling-head", cools, cooling_key, true},
    {"sheet.water.test-head", lives_in_it, test_key, false},
};

void section_water(struct composition *c, struct block_builder *out)
{
    const struct water_plan *w = &c->plan->water;
    if (!w->applies || (!w->lives_in_it && !section_measures_read(c, PART_WATER)))
        return;
    section_title(c, out, "sheet.water.title");
    if (section_measures_show(c, PART_WATER))
        section_measures_table(c, out, PART_WATER);
    struct block *pairs = section_pairs(c, out, 0.24);
    for (size_t i = 0; i < SECTION_WATER_LINES; i++) {
        const struct water_line *line = &section_water_lines[i];
        if (line->is_said(w))
            section_row(c, pairs, line->head, phrase_if_known(&c->ctx, line->text(w)));
    }
}
