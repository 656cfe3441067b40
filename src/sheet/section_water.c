/* The water: tests, what to change today and week by week, the new water, cooling. */
#include "sheet/sections.h"

size_t section_water_lines(const struct water_plan *w, struct water_line *lines)
{
    size_t count = 0;
    if (w->part_now)
        lines[count++] = (struct water_line){"sheet.water.today", "sheet.water.part", false};
    if (w->has_usual)
        lines[count++] = (struct water_line){
            "sheet.water.usual-head",
            w->is_unfiltered ? "sheet.water.usual-unfiltered" : "sheet.water.usual", false};
    if (!w->lives_in_it)
        lines[count++] = (struct water_line){"sheet.water.dish-head", "sheet.water.dish", false};
    /* a dish is emptied: there is no water for the new one to be as warm as */
    lines[count++] = (struct water_line){
        "sheet.water.new-head", w->lives_in_it ? "sheet.water.new" : "sheet.water.new-dish", false};
    if (w->cool_down)
        lines[count++] =
            (struct water_line){"sheet.water.cooling-head", "sheet.water.cooling", true};
    if (w->lives_in_it)
        lines[count++] =
            (struct water_line){"sheet.water.test-head",
                                w->part_now ? "sheet.water.test-again" : "sheet.water.test", false};
    return count;
}

void section_water(struct composition *c, struct block_builder *out)
{
    const struct water_plan *w = &c->plan->water;
    if (!w->applies || (!w->lives_in_it && !section_measures_read(c, PART_WATER)))
        return;
    section_title(c, out, "sheet.water.title");
    if (section_measures_show(c, PART_WATER))
        section_measures_table(c, out, PART_WATER);
    struct block *pairs = NULL; /* of no line there is no table either */
    struct water_line lines[WATER_LINES_MOST];
    const size_t count = section_water_lines(w, lines);
    for (size_t i = 0; i < count; i++) {
        const char *text = phrase_if_known(&c->ctx, lines[i].text);
        if (!text || !*text)
            continue;
        pairs = pairs ? pairs : section_pairs(c, out, 0.24);
        section_row(c, pairs, lines[i].head, text);
    }
}
