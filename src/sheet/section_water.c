/* The water: tests, what to change today and week by week, the new water, cooling. */
#include "sheet/sections.h"

static const char *today_key(const struct water_plan *w)
{
    return w->has_litres ? "sheet.water.part-litres" : "sheet.water.part";
}

void section_water(struct composition *c, struct block_builder *out)
{
    const struct water_plan *w = &c->plan->water;
    if (!w->applies || (!w->lives_in_it && !section_measures_read(c, PART_WATER)))
        return;
    section_title(c, out, "sheet.water.title");
    if (section_measures_show(c, PART_WATER))
        section_measures_table(c, out, PART_WATER);
    struct block *pairs = section_pairs(c, out, 0.24);
    if (w->part_now)
        section_row(c, pairs, "sheet.water.today", phrase_if_known(&c->ctx, today_key(w)));
    if (w->has_usual)
        section_row(c, pairs, "sheet.water.usual-head",
                    phrase_if_known(&c->ctx, w->is_unfiltered ? "sheet.water.usual-unfiltered"
                                                              : "sheet.water.usual"));
    if (!w->lives_in_it)
        section_row(c, pairs, "sheet.water.dish-head", phrase(&c->ctx, "sheet.water.dish"));
    section_row(c, pairs, "sheet.water.new-head", phrase_if_known(&c->ctx, "sheet.water.new"));
    if (w->cool_down)
        section_row(c, pairs, "sheet.water.cooling-head",
                    phrase_if_known(&c->ctx, "sheet.water.cooling"));
    if (!w->lives_in_it)
        return;
    section_row(
        c, pairs, "sheet.water.test-head",
        phrase_if_known(&c->ctx, w->part_now ? "sheet.water.test-again" : "sheet.water.test"));
}
