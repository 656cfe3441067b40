/* Measured quantities on a sheet: name, target, reading and result, alone and as a table. */
#include "sheet/sections.h"
#include "words/format_measured.h"

const char *section_measure_name(struct composition *c, enum measure_id measure)
{
    /* by night the lowest reading is that of the cool end once the warm place has a number */
    bool of_two = measure == MEASURE_NIGHT && c->plan->measured[MEASURE_NIGHT_WARM_SIDE].applies;
    return phrase_part(&c->ctx, "measure", measures[measure].id, of_two ? "name-cool" : "name");
}

bool section_measure_shows(const struct composition *c, enum measure_id measure)
{
    const struct measured_plan *plan = &c->plan->measured[measure];
    /* what nobody can read off a meter is shown where it was worked out */
    if (!measures[measure].visit_path && !plan->has_reading)
        return false;
    return plan->applies || (plan->limit_only && plan->change != 0);
}

const char *section_measure_target(struct composition *c, enum measure_id measure)
{
    const struct measured_plan *plan = &c->plan->measured[measure];
    return format_measured_band(&c->ctx.format, measures[measure].dimension, plan->low, plan->high);
}

/* What differs by less than is printed is called right: nobody can act on it. */
bool section_measure_is_right(const struct composition *c, enum measure_id measure)
{
    const struct measured_plan *plan = &c->plan->measured[measure];
    return plan->verdict == VERDICT_IN_RANGE ||
           (measures[measure].dimension == DIM_TEMPERATURE &&
            !format_temp_step_to_band(&c->ctx.format, plan->judged, plan->low, plan->high));
}

const char *section_measure_result(struct composition *c, enum measure_id measure)
{
    const struct measured_plan *plan = &c->plan->measured[measure];
    const enum dimension dimension = measures[measure].dimension;
    if (plan->implausible)
        return phrase(&c->ctx, "sheet.result.measure-again");
    if (plan->verdict == VERDICT_UNKNOWN)
        return phrase(&c->ctx, "sheet.result.unknown");
    if (plan->verdict == VERDICT_BORDERLINE)
        return phrase(&c->ctx, "sheet.result.borderline");
    if (section_measure_is_right(c, measure))
        return phrase(&c->ctx, "sheet.result.in-range");
    const char *key =
        arena_format(c->arena, "sheet.result.%s.%s", measure_part_word(measures[measure].part),
                     bind_choice_word(verdict_choices, (int)plan->verdict));
    return section_with_text(
        c, key, "change",
        format_measured_change(&c->ctx.format, dimension, plan->judged, plan->low, plan->high));
}

/* ---- as a table -------------------------------------------------------------------------- */

bool section_measures_show(const struct composition *c, enum measure_part part)
{
    for (int m = 0; m < MEASURE_COUNT; m++)
        if (measures[m].part == part && section_measure_shows(c, (enum measure_id)m))
            return true;
    return false;
}

bool section_measures_read(const struct composition *c, enum measure_part part)
{
    for (int m = 0; m < MEASURE_COUNT; m++)
        if (measures[m].part == part && c->plan->measured[m].has_reading &&
            (c->plan->measured[m].applies || c->plan->measured[m].limit_only))
            return true;
    return false;
}

static void add_row(struct composition *c, struct block *table, enum measure_id measure,
                    bool readings)
{
    const struct measured_plan *plan = &c->plan->measured[measure];
    struct table_row *row = table_add_row(c->arena, table);
    row_add_head(c->arena, row, section_measure_name(c, measure));
    row_add(c->arena, row, span_strong(c->arena, section_measure_target(c, measure)));
    if (!readings)
        return;
    const char *reading =
        plan->has_reading
            ? format_measured(&c->ctx.format, measures[measure].dimension, plan->reading)
            : phrase(&c->ctx, "sheet.none");
    row_add(c->arena, row, span_plain(c->arena, reading));
    row_add(c->arena, row, span_plain(c->arena, section_measure_result(c, measure)));
}

void section_measures_table(struct composition *c, struct block_builder *out,
                            enum measure_part part)
{
    static const double with[] = {0.29, 0.25, 0.17, 0.29};
    static const double tests[] = {0.27, 0.29, 0.24, 0.20};
    static const double without[] = {0.5, 0.5};
    static const char *const heads[] = {"sheet.head.place", "sheet.head.aim", "sheet.head.now",
                                        "sheet.head.result"};
    static const char *const test_heads[] = {"sheet.head.test", "sheet.head.aim", "sheet.head.now",
                                             "sheet.head.result"};
    bool readings = section_measures_read(c, part), of_water = part == PART_WATER;
    const double *widths = !readings ? without : of_water ? tests : with;
    struct block *table = builder_table(out, widths, readings ? 4 : 2);
    table->keep_if_room = true;
    section_head(c, table, of_water ? test_heads : heads, readings ? 4 : 2);
    for (int m = 0; m < MEASURE_COUNT; m++)
        if (measures[m].part == part && section_measure_shows(c, (enum measure_id)m))
            add_row(c, table, (enum measure_id)m, readings);
}
