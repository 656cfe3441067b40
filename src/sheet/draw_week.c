/* The last week of a data logger: of each probe its lowest and highest reading of every hour, over
 * the striped bands of its targets by day and by night. */
#include <math.h>

#include "base/strbuf.h"
#include "sheet/draw.h"
#include "words/format_measured.h"

static const double WIDTH_PT = 430, ROW_PT = 62,
                    LARGE_ROW_PT = 150; /* of the picture; of a probe in it */
static const double LEFT_PT = 52, RIGHT_PT = 8, HEAD_PT = 18, FOOT_PT = 18, EDGE_SHARE = 0.08;
static const double LINE_PT = 10; /* that two labels do not touch */
static const double DAY_H = 24;

struct week {
    struct composition *c;
    struct drawing drawing;
    const struct log_plan *log;
    const struct log_probe_plan *probe; /* the row under way */
    double row_pt, top, from, to;       /* its height, its upper edge, its scale */
    struct strbuf alternative;
};

static enum dimension dimension_of(const struct log_probe_plan *probe)
{
    return probe->is_humidity ? DIM_PERCENT : DIM_TEMPERATURE;
}

static double x_of(double hour)
{
    return LEFT_PT + (WIDTH_PT - LEFT_PT - RIGHT_PT) * hour / LOG_PLAN_HOURS;
}

static double y_of(const struct week *w, double value)
{
    double share = (value - w->from) / (w->to - w->from);
    return w->top + HEAD_PT + w->row_pt * (1 - share);
}

/* ---- the scale ----------------------------------------------------------------------- */

static void include(struct week *w, double low, double high)
{
    w->from = fmin(w->from, low);
    w->to = fmax(w->to, high);
}

static bool set_scale(struct week *w)
{
    w->from = HUGE_VAL;
    w->to = -HUGE_VAL;
    for (int day = 0; day < LOG_PLAN_DAYS; day++)
        if (w->probe->days[day].known)
            include(w, w->probe->days[day].lowest, w->probe->days[day].highest);
    if (!isfinite(w->from))
        return false;
    const struct log_part_plan *parts[] = {&w->probe->day, &w->probe->night};
    for (int i = 0; i < 2; i++)
        if (parts[i]->has_outside)
            include(w, parts[i]->target_low, parts[i]->target_high);
    if (w->probe->has_limit)
        include(w, w->probe->limit, w->probe->limit);
    double edge = fmax((w->to - w->from) * EDGE_SHARE, 0.5);
    include(w, w->from - edge, w->to + edge);
    return true;
}

/* ---- what is drawn ------------------------------------------------------------------- */

static void draw_target(struct week *w, const struct log_part_plan *part, double from_h,
                        double to_h)
{
    if (!part->has_outside || to_h <= from_h)
        return;
    double high = y_of(w, part->target_high), low = y_of(w, part->target_low);
    draw_rect(&w->drawing, x_of(from_h), high, x_of(to_h) - x_of(from_h), low - high,
              (struct draw_style){INK_LEAF, 0.5, DASH_SOLID, INK_LEAF, FILL_STRIPES});
}

/* Night until the lamp goes on, the day, night again. */
static void draw_targets(struct week *w)
{
    for (int day = 0; day < LOG_PLAN_DAYS; day++) {
        double start = day * DAY_H, on = start + w->log->day_from_h, off = start + w->log->day_to_h;
        draw_target(w, &w->probe->night, start, on);
        draw_target(w, &w->probe->day, on, off);
        draw_target(w, &w->probe->night, off, start + DAY_H);
    }
}

/* Hours in a row as one shape; one without readings parts it. */
static void draw_readings(struct week *w)
{
    struct point points[2 * LOG_PLAN_HOURS];
    const struct log_span_plan *hours = w->probe->hours;
    for (int i = 0; i < LOG_PLAN_HOURS; i++) {
        int end = i;
        while (end < LOG_PLAN_HOURS && hours[end].known)
            end++;
        size_t count = 2 * (size_t)(end - i);
        for (int k = i; k < end; k++) {
            points[k - i] = (struct point){x_of(k + 0.5), y_of(w, hours[k].highest)};
            points[count - 1 - (size_t)(k - i)] =
                (struct point){x_of(k + 0.5), y_of(w, hours[k].lowest)};
        }
        if (count)
            draw_path(&w->drawing, points, count, true,
                      (struct draw_style){INK_TEXT, 1, DASH_SOLID, INK_TEXT, FILL_SOLID});
        i = end;
    }
}

static void draw_frame(struct week *w)
{
    const struct format *f = &w->c->ctx.format;
    double floor_y = w->top + HEAD_PT + w->row_pt, right = WIDTH_PT - RIGHT_PT;
    const struct draw_style thin = {.stroke_ink = INK_MUTED, .stroke_pt = 0.5};
    for (int day = 0; day <= LOG_PLAN_DAYS; day++) {
        double x = x_of(day * DAY_H);
        draw_line(&w->drawing, x, w->top + HEAD_PT, x, floor_y, thin);
        if (day < LOG_PLAN_DAYS)
            draw_label(&w->drawing, (x + x_of((day + 1) * DAY_H)) / 2, floor_y + 12, ANCHOR_MIDDLE,
                       format_date_weekday(f, date_add_days(w->log->week_from, day)));
    }
    draw_line(&w->drawing, LEFT_PT, floor_y, right, floor_y, thin);
    if (w->probe->has_limit)
        draw_line(&w->drawing, LEFT_PT, y_of(w, w->probe->limit), right, y_of(w, w->probe->limit),
                  (struct draw_style){.stroke_ink = INK_TEXT, .stroke_pt = 1, .dash = DASH_DASHED});
}

/* The week's lowest and highest at the left, each where it stands. */
static void draw_ends(struct week *w, double lowest, double highest)
{
    const struct format *f = &w->c->ctx.format;
    enum dimension dimension = dimension_of(w->probe);
    double low_y = y_of(w, lowest) + 3, high_y = y_of(w, highest) + 3;
    draw_label(&w->drawing, LEFT_PT - 4, low_y, ANCHOR_RIGHT,
               format_measured(f, dimension, lowest));
    if (low_y - high_y >= LINE_PT)
        draw_label(&w->drawing, LEFT_PT - 4, high_y, ANCHOR_RIGHT,
                   format_measured(f, dimension, highest));
}

/* ---- in words ------------------------------------------------------------------------ */

static const char *phrase_with(struct week *w, const char *key, struct plan_fact *facts)
{
    struct phrase_context ctx = w->c->ctx;
    ctx.facts = facts;
    return phrase(&ctx, key);
}

static const char *name_of(const struct week *w)
{
    const struct phrase_context *ctx = &w->c->ctx;
    return w->probe->is_humidity
               ? phrase_part(ctx, "measure", measures[MEASURE_HUMIDITY].id, "name")
               : section_measure_name(w->c, (enum measure_id)w->probe->zone);
}

static const char *band(const struct week *w, const struct log_part_plan *part)
{
    return format_measured_band(&w->c->ctx.format, dimension_of(w->probe), part->target_low,
                                part->target_high);
}

static const char *head_of(struct week *w)
{
    struct plan_fact name = {.name = "name", .kind = FACT_TEXT, .text = name_of(w)};
    struct plan_fact target = {.name = "target", .kind = FACT_TEXT, .next = &name};
    const char *text = phrase_with(w, "picture.week.probe", &name);
    struct {
        const struct log_part_plan *part;
        const char *key;
    } parts[] = {{&w->probe->day, "picture.week.day"}, {&w->probe->night, "picture.week.night"}};
    for (int i = 0; i < 2; i++) {
        if (!parts[i].part->has_outside)
            continue;
        target.text = band(w, parts[i].part);
        text = arena_format(w->c->arena, "%s %s", text, phrase_with(w, parts[i].key, &target));
    }
    if (!w->probe->has_limit)
        return text;
    target.text = format_temp(&w->c->ctx.format, w->probe->limit);
    return arena_format(w->c->arena, "%s %s", text, phrase_with(w, "picture.week.limit", &target));
}

static void tell_day(struct week *w, int day)
{
    const struct format *f = &w->c->ctx.format;
    const struct log_span_plan *span = &w->probe->days[day];
    struct plan_fact low = {.name = "low",
                            .kind = FACT_TEXT,
                            .text = format_measured(f, dimension_of(w->probe), span->lowest)};
    struct plan_fact high = {.name = "high",
                             .kind = FACT_TEXT,
                             .text = format_measured(f, dimension_of(w->probe), span->highest),
                             .next = &low};
    struct plan_fact date = {.name = "date",
                             .kind = FACT_TEXT,
                             .text = format_date_day(f, date_add_days(w->log->week_from, day)),
                             .next = &high};
    strbuf_addf(&w->alternative, " %s", phrase_with(w, "picture.week.span", &date));
}

/* ---- a row a probe ------------------------------------------------------------------- */

static bool add_probe(struct week *w)
{
    if (!set_scale(w))
        return false;
    double lowest = HUGE_VAL, highest = -HUGE_VAL;
    const char *head = head_of(w);
    draw_label(&w->drawing, 0, w->top + 12, ANCHOR_LEFT, head)->width = WIDTH_PT;
    strbuf_addf(&w->alternative, "%s%s", w->alternative.length ? " " : "", head);
    for (int day = 0; day < LOG_PLAN_DAYS; day++) {
        const struct log_span_plan *span = &w->probe->days[day];
        if (!span->known)
            continue;
        lowest = fmin(lowest, span->lowest);
        highest = fmax(highest, span->highest);
        tell_day(w, day);
    }
    draw_targets(w);
    draw_frame(w);
    draw_readings(w);
    draw_ends(w, lowest, highest);
    return true;
}

static bool draw_rows(struct composition *c, double row_pt, struct picture *out)
{
    struct week w = {.c = c, .log = &c->plan->log, .row_pt = row_pt};
    w.drawing = draw_start(c->arena, WIDTH_PT, 0);
    strbuf_init(&w.alternative, c->arena);
    for (size_t i = 0; i < w.log->probe_count; i++) {
        w.probe = &w.log->probes[i];
        if (add_probe(&w))
            w.top += HEAD_PT + row_pt + FOOT_PT;
    }
    if (w.top <= 0)
        return false;
    w.drawing.scene->height_pt = w.top;
    *out = (struct picture){w.drawing.scene, phrase(&c->ctx, "picture.week.caption"),
                            w.alternative.text};
    return true;
}

bool draw_week(struct composition *c, struct picture *out)
{
    return draw_rows(c, ROW_PT, out);
}

bool draw_week_large(struct composition *c, struct picture *out)
{
    return draw_rows(c, LARGE_ROW_PT, out);
}
