/* Weight over time: every weighing as a dot with its value, the straight trend as a dashed line. */
#include <math.h>

#include "base/strbuf.h"
#include "sheet/draw.h"

static const double WIDTH_PT = 430, HEIGHT_PT = 170;
static const double LEFT_PT = 40, RIGHT_PT = 40, TOP_PT = 26, BOTTOM_PT = 30, DOT_PT = 3;

struct weight_chart {
    const struct weighing_plan *items;
    size_t count;
    double least_g, most_g;
};

static struct weight_chart chart_of(const struct growth_plan *growth)
{
    struct weight_chart chart = {growth->weighings, growth->weighing_count, HUGE_VAL, 0};
    for (size_t i = 0; i < chart.count; i++) {
        chart.least_g = fmin(chart.least_g, chart.items[i].mass_g);
        chart.most_g = fmax(chart.most_g, chart.items[i].mass_g);
    }
    return chart;
}

static double x_of(const struct weight_chart *chart, double days)
{
    double all = (double)date_days_between(chart->items[0].on, chart->items[chart->count - 1].on);
    return LEFT_PT + (WIDTH_PT - LEFT_PT - RIGHT_PT) * (all > 0 ? days / all : 0.5);
}

static double y_of(const struct weight_chart *chart, double mass_g)
{
    double span = fmax(chart->most_g - chart->least_g, chart->most_g * 0.02);
    double share = (mass_g - chart->least_g) / span;
    return HEIGHT_PT - BOTTOM_PT - (HEIGHT_PT - TOP_PT - BOTTOM_PT) * fmin(1, fmax(0, share));
}

static double days_of(const struct weight_chart *chart, size_t i)
{
    return (double)date_days_between(chart->items[0].on, chart->items[i].on);
}

static void draw_trend(struct drawing *drawing, const struct weight_chart *chart,
                       const struct growth_plan *growth)
{
    if (!growth->has_trend)
        return;
    double last = days_of(chart, chart->count - 1);
    draw_line(drawing, x_of(chart, 0), y_of(chart, growth->trend_first_g), x_of(chart, last),
              y_of(chart, growth->trend_last_g),
              (struct draw_style){.stroke_ink = INK_MUTED, .stroke_pt = 1, .dash = DASH_DASHED});
}

/* A label only where it does not touch the one before it. */
static void draw_labels(struct composition *c, struct drawing *drawing,
                        const struct weight_chart *chart)
{
    double mass_end = -WIDTH_PT, date_end = -WIDTH_PT;
    for (size_t i = 0; i < chart->count; i++) {
        double x = x_of(chart, days_of(chart, i)), y = y_of(chart, chart->items[i].mass_g);
        const char *mass = format_mass(&c->ctx.format, chart->items[i].mass_g);
        const char *date = format_date_short(&c->ctx.format, chart->items[i].on);
        double mass_half = draw_text_width_pt(mass) / 2, date_half = draw_text_width_pt(date) / 2;
        draw_circle(drawing, x, y, DOT_PT,
                    (struct draw_style){INK_TEXT, 1, DASH_SOLID, INK_TEXT, FILL_SOLID});
        if (x - mass_half > mass_end) {
            draw_label(drawing, x, y - 8, ANCHOR_MIDDLE, mass)->text_style = TEXT_STRONG;
            mass_end = x + mass_half + 4;
        }
        if (x - date_half > date_end) {
            draw_label(drawing, x, HEIGHT_PT - 12, ANCHOR_MIDDLE, date);
            date_end = x + date_half + 4;
        }
    }
}

static const char *weight_alternative(struct composition *c, const struct weight_chart *chart)
{
    struct strbuf text;
    strbuf_init(&text, c->arena);
    strbuf_add(&text, phrase(&c->ctx, "picture.weight.caption"));
    for (size_t i = 0; i < chart->count; i++) {
        const struct format *f = &c->ctx.format;
        const struct named_value values[] = {
            {"date", {.text = format_date_short(f, chart->items[i].on)}},
            {"mass", {.text = format_mass(f, chart->items[i].mass_g)}}};
        strbuf_addf(&text, " %s", format_pattern(f, "picture.weight.point", values, 2));
    }
    return text.text;
}

bool draw_weight(struct composition *c, struct picture *out)
{
    const struct growth_plan *growth = &c->plan->growth;
    struct weight_chart chart = chart_of(growth);
    if (chart.count < 2)
        return false;
    struct drawing drawing = draw_start(c->arena, WIDTH_PT, HEIGHT_PT);
    double floor_y = HEIGHT_PT - BOTTOM_PT + 6;
    draw_line(&drawing, LEFT_PT / 2, floor_y, WIDTH_PT - RIGHT_PT / 2, floor_y,
              (struct draw_style){.stroke_ink = INK_TEXT, .stroke_pt = 0.75});
    draw_trend(&drawing, &chart, growth);
    struct point points[WEIGHINGS_MOST];
    for (size_t i = 0; i < chart.count; i++)
        points[i] =
            (struct point){x_of(&chart, days_of(&chart, i)), y_of(&chart, chart.items[i].mass_g)};
    draw_path(&drawing, points, chart.count, false,
              (struct draw_style){.stroke_ink = INK_TEXT, .stroke_pt = 1.25});
    draw_labels(c, &drawing, &chart);
    *out = (struct picture){drawing.scene, phrase(&c->ctx, "picture.weight.caption"),
                            weight_alternative(c, &chart)};
    return true;
}
