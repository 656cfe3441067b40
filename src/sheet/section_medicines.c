/* The medicines as the veterinarian wrote them, their days with boxes to tick. */
#include "sheet/sections.h"

#include "base/strbuf.h"
#include "sheet/medicine_words.h"

enum { TICK_COLUMNS = 3, TICKS_MOST = 30, TICKS_MOST_COMPACT = 12 };

/* "Sat 28 Nov", or "Sat 28 Nov, evening" where doses fall on several times of day; on one line, as
 * each line of a cell gets a box of its own. */
static const char *dose_text(struct composition *c, const struct medicine_plan *m, size_t i)
{
    const char *day = format_date_day(&c->ctx.format, m->doses[i].on);
    return m->says_at ? medicine_and(c, day, medicine_time(c, m, &m->doses[i])) : day;
}

static void add_ticks(struct composition *c, struct block_builder *out,
                      const struct medicine_plan *m)
{
    static const double shares[TICK_COLUMNS + 1] = {0.16, 0.28, 0.28, 0.28};
    size_t most = c->sheet->compact.value ? TICKS_MOST_COMPACT : TICKS_MOST;
    size_t doses = plan_home_doses(m); /* a last row is not left to be counted */
    size_t shown = doses <= most + TICK_COLUMNS ? doses : most;
    if (shown == 0)
        return;
    builder_spans(out, span_strong(c->arena, medicine_title(c, "sheet.medicines.ticks", m)),
                  PARAGRAPH_BODY);
    struct block *table = builder_table(out, shares, TICK_COLUMNS + 1);
    for (size_t row = 0; row < shown; row += TICK_COLUMNS) {
        struct table_row *cells = table_add_row(c->arena, table);
        size_t last = row + TICK_COLUMNS < shown ? row + TICK_COLUMNS : shown;
        row_add_head(c->arena, cells,
                     last == row + 1 ? arena_format(c->arena, "%zu", last)
                                     : arena_format(c->arena, "%zu\xe2\x80\x93%zu", row + 1, last));
        for (size_t i = row; i < row + TICK_COLUMNS; i++) {
            const char *text = i < shown ? dose_text(c, m, i) : "\xc2\xa0";
            row_add(c->arena, cells, span_plain(c->arena, text))->tick_box = i < shown;
        }
    }
    const char *rest = medicine_rest(c, m, shown);
    if (rest)
        builder_paragraph(out, rest);
}

void section_medicines(struct composition *c, struct block_builder *out)
{
    static const double shares[] = {0.3, 0.7};
    static const char *const heads[] = {"sheet.head.medicine", "sheet.head.directions"};
    if (c->plan->medicine_count == 0)
        return;
    section_title(c, out, "sheet.medicines.title");
    struct block *table = builder_table(out, shares, 2);
    section_head(c, table, heads, 2);
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct medicine_plan *m = &c->plan->medicines[i];
        struct table_row *row = table_add_row(c->arena, table);
        row_add_head(c->arena, row, medicine_name(c, m));
        row_add(c->arena, row, span_plain(c->arena, medicine_text(c, m)));
    }
    const struct medicine_plan *m;
    for (size_t i = 0; (m = plan_ticked(c->plan, i)); i++)
        add_ticks(c, out, m);
    const char *how = medicine_how(c);
    if (how)
        builder_paragraph(out, how);
    const char *worse = medicine_worse(c);
    if (worse)
        builder_paragraph(out, worse);
    builder_paragraph(out, phrase(&c->ctx, "sheet.medicines.only"));
}
