/* Target bands with the readings on them: a filled bar for the band, a triangle for the reading,
 * both named in words. */
#include <math.h>
#include <string.h>

#include "base/strbuf.h"
#include "sheet/draw.h"
#include "words/format_measured.h"

static const double WIDTH_PT = 430, SCALE_LEFT_PT = 20, SCALE_RIGHT_PT = 20;
static const double ROW_PT = 58, END_AT_PT = 12, END_ROOM_PT = 70, BAR_AT_PT = 30, BAR_PT = 9,
                    TRIANGLE_PT = 5;

/* One row: a band in the plan's unit with its texts. */
struct band_row {
    const char *name, *target, *reading, *result;
    double low, high, value;
};

struct band_picture {
    struct composition *c;
    struct drawing drawing;
    size_t rows;
    struct strbuf alternative;
};

static double x_of(double value, double from, double to)
{
    double share = (value - from) / (to - from);
    double room = WIDTH_PT - SCALE_LEFT_PT - SCALE_RIGHT_PT;
    return SCALE_LEFT_PT + room * fmin(1, fmax(0, share));
}

static void draw_reading(struct band_picture *p, double x, double bar_y)
{
    const struct point tip[] = {{x, bar_y - 1},
                                {x - TRIANGLE_PT, bar_y - 1 - TRIANGLE_PT * 1.6},
                                {x + TRIANGLE_PT, bar_y - 1 - TRIANGLE_PT * 1.6}};
    draw_path(&p->drawing, tip, 3, true,
              (struct draw_style){INK_TEXT, 0.75, DASH_SOLID, INK_TEXT, FILL_SOLID});
    draw_line(&p->drawing, x, bar_y - 1, x, bar_y + BAR_PT + 2,
              (struct draw_style){.stroke_ink = INK_TEXT, .stroke_pt = 1});
}

/* The two numbers of the target's words at the ends of the bar; those of a short one stand outside
 * of it. */
static void draw_ends(struct band_picture *p, const struct band_row *row, double low_x,
                      double high_x, double bar_y)
{
    static const char dash[] = "\xe2\x80\x93";
    const char *between = strstr(row->target, dash);
    double y = bar_y + BAR_PT + END_AT_PT;
    if (!between) {
        draw_label(&p->drawing, (low_x + high_x) / 2, y, ANCHOR_MIDDLE, row->target);
        return;
    }
    bool wide = high_x - low_x >= END_ROOM_PT;
    draw_label(&p->drawing, low_x, y, wide ? ANCHOR_MIDDLE : ANCHOR_RIGHT,
               arena_copy_bytes(p->c->arena, row->target, (size_t)(between - row->target)));
    draw_label(&p->drawing, high_x, y, wide ? ANCHOR_MIDDLE : ANCHOR_LEFT,
               between + sizeof dash - 1);
}

static void add_row(struct band_picture *p, const struct band_row *row)
{
    const struct format *f = &p->c->ctx.format;
    double y = ROW_PT * (double)p->rows++;
    double span = fmax(row->high - row->low, 1);
    double from = fmin(row->low, row->value) - span, to = fmax(row->high, row->value) + span;
    double bar_y = y + BAR_AT_PT, low_x = x_of(row->low, from, to),
           high_x = x_of(row->high, from, to);
    const struct named_value values[] = {{"name", {.text = row->name}},
                                         {"target", {.text = row->target}},
                                         {"reading", {.text = row->reading}},
                                         {"result", {.text = row->result}}};
    const char *words = format_pattern(f, "picture.bands.row", values, 4);
    draw_label(&p->drawing, 0, y + 12, ANCHOR_LEFT, words)->width = WIDTH_PT;
    draw_line(&p->drawing, SCALE_LEFT_PT, bar_y + BAR_PT, WIDTH_PT - SCALE_RIGHT_PT, bar_y + BAR_PT,
              (struct draw_style){.stroke_ink = INK_MUTED, .stroke_pt = 0.75});
    draw_rect(&p->drawing, low_x, bar_y, high_x - low_x, BAR_PT,
              (struct draw_style){INK_LEAF, 1, DASH_SOLID, INK_LEAF, FILL_STRIPES});
    draw_ends(p, row, low_x, high_x, bar_y);
    draw_reading(p, x_of(row->value, from, to), bar_y);
    if (p->alternative.length > 0)
        strbuf_add_char(&p->alternative, ' ');
    strbuf_add(&p->alternative, words);
}

static void add_measure(struct band_picture *p, enum measure_id measure)
{
    const struct measured_plan *plan = &p->c->plan->measured[measure];
    const enum dimension dimension = measures[measure].dimension;
    const struct format *f = &p->c->ctx.format;
    if (!plan->applies || !plan->has_reading || plan->implausible || !isfinite(plan->high))
        return;
    add_row(p, &(struct band_row){section_measure_name(p->c, measure),
                                  format_measured_band(f, dimension, plan->low, plan->high),
                                  format_measured(f, dimension, plan->judged),
                                  section_measure_result(p->c, measure), plan->low, plan->high,
                                  plan->judged});
}

bool draw_bands(struct composition *c, struct picture *out)
{
    struct band_picture p = {.c = c, .drawing = draw_start(c->arena, WIDTH_PT, 0)};
    strbuf_init(&p.alternative, c->arena);
    for (int m = 0; m < MEASURE_COUNT; m++)
        add_measure(&p, (enum measure_id)m);
    if (p.rows == 0)
        return false;
    p.drawing.scene->height_pt = ROW_PT * (double)p.rows;
    *out = (struct picture){p.drawing.scene, phrase(&c->ctx, "picture.bands.caption"),
                            p.alternative.text};
    return true;
}
