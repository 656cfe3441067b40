/* The box from the side, to scale: where it is warm, where the lamp hangs, where to measure. */
#include <math.h>

#include "base/strbuf.h"
#include "sheet/draw.h"

/* Places on the picture, in points. The margins hold the labels of the dimensions. */
static const double WIDTH_PT = 270, LEFT_PT = 52, RIGHT_PT = 42, TOP_PT = 14;
static const double DRAWN_HEIGHT_PT = 118, COMPACT_HEIGHT_PT = 94, LEGEND_LINE_PT = 12,
                    LEGEND_INDENT_PT = 18;
static const double MARK_RADIUS_PT = 6.5, LAMP_HEIGHT_PT = 5, FLOOR_STRIP_PT = 6;
static const double BELOW_FLOOR_PT = 38;

/* Shares of the box's length and height. */
static const double BASK_FROM = 0.08, BASK_TO = 0.34, LAMP_AT = 0.21, BASK_MARK_AT = 0.12;
static const double WARM_PROBE_AT = 0.42, COOL_PROBE_AT = 0.93, DAMP_PROBE_AT = 0.80,
                    WATER_PROBE_AT = 0.58;

struct side_view {
    struct composition *c;
    struct drawing drawing;
    double length_cm, height_cm, platform_cm, back_cm,
        lamp_cm;          /* lamp above the floor; 0: not drawn */
    bool is_least;        /* drawn for the least box: the keeper's own is not known */
    double scale;         /* points a cm */
    double left, floor_y; /* of the box */
    double legend_y;
    bool has_half_line; /* of the legend: the right half is free */
    size_t marks;
    struct strbuf alternative; /* the alternative text */
};

static const struct draw_style OUTLINE = {.stroke_ink = INK_TEXT, .stroke_pt = 1.25};
static const struct draw_style THIN = {
    .stroke_ink = INK_MUTED, .stroke_pt = 0.5, .dash = DASH_DASHED};

static double x_at(const struct side_view *v, double share)
{
    return v->left + share * v->length_cm * v->scale;
}

static double y_at(const struct side_view *v, double above_floor_cm)
{
    return v->floor_y - above_floor_cm * v->scale;
}

/* ---- what is to be drawn ------------------------------------------------------------- */

static bool take_sizes(struct side_view *v)
{
    const struct care_plan *plan = v->c->plan;
    const struct enclosure_plan *box = &plan->enclosure;
    if (box->has_size) {
        v->length_cm = box->length_cm;
        v->height_cm = box->height_cm;
    } else if (box->known && box->least_height_cm > 0) {
        v->length_cm = box->least_length_cm;
        v->height_cm = box->least_height_cm;
        v->is_least = true;
    }
    if (!(v->length_cm > 0) || !(v->height_cm > 0))
        return false;
    v->platform_cm = fmin(box->platform_height_cm, v->height_cm);
    v->back_cm = box->back_height_cm;
    if (plan->measured[MEASURE_UVB].applies && plan->uvb.distance_why == DISTANCE_KNOWN &&
        !plan->uvb.lamp_overdue)
        v->lamp_cm = plan->uvb.recommended_cm + v->platform_cm + v->back_cm;
    return true;
}

static void place_box(struct side_view *v)
{
    double top_cm = fmax(v->height_cm, v->lamp_cm);
    double room = WIDTH_PT - LEFT_PT - RIGHT_PT;
    double height = v->c->sheet->compact.value ? COMPACT_HEIGHT_PT : DRAWN_HEIGHT_PT;
    v->scale = fmin(room / v->length_cm, height / top_cm);
    v->left = LEFT_PT + (room - v->length_cm * v->scale) / 2;
    v->floor_y = TOP_PT + top_cm * v->scale;
    v->legend_y = v->floor_y + BELOW_FLOOR_PT;
}

/* ---- the box ---------------------------------------------------------------------------- */

static bool has_zone(const struct side_view *v, enum zone zone)
{
    return v->c->plan->measured[zone].applies;
}

static bool is_all_water(const struct side_view *v)
{
    return has_zone(v, ZONE_WATER) && v->c->plan->taxon.habit == HABIT_AQUATIC &&
           !has_zone(v, ZONE_BASKING_SURFACE);
}

typedef const char *length_writer(const struct format *f, double length_cm);

static const char *both_units(struct side_view *v, length_writer *write, double length_cm)
{
    struct format other = v->c->ctx.format;
    const char *own = write(&other, length_cm);
    other.units = other.units == UNITS_US ? UNITS_METRIC : UNITS_US;
    const struct named_value values[] = {{"first", {.text = own}},
                                         {"second", {.text = write(&other, length_cm)}}};
    return format_pattern(&v->c->ctx.format, "unit.both", values, 2);
}

/* As it is where that is right, else as it is to be; 0 where nobody knows. */
static double water_depth_cm(const struct side_view *v)
{
    const struct measured_plan *depth = &v->c->plan->measured[MEASURE_DEPTH];
    double cm = depth->has_reading ? depth->reading : depth->applies ? depth->low : 0;
    if (depth->applies && depth->verdict != VERDICT_BORDERLINE)
        cm = fmin(fmax(cm, depth->low), depth->high);
    return fmin(cm, v->height_cm);
}

static void draw_depth(struct side_view *v, double depth_cm)
{
    double x = x_at(v, 1) - 10, surface_y = y_at(v, depth_cm),
           middle = (surface_y + v->floor_y) / 2;
    /* half a box leaves no room for both systems */
    const char *text = is_all_water(v) ? both_units(v, format_length, depth_cm)
                                       : format_length(&v->c->ctx.format, depth_cm);
    double width = draw_text_width_pt(text) + 6;
    draw_rect(&v->drawing, x - width - 4, middle - DRAW_TEXT_PT, width, DRAW_TEXT_PT + 5,
              (struct draw_style){.fill_ink = INK_PAPER, .fill = FILL_SOLID});
    draw_dimension(&v->drawing, x, surface_y, x, v->floor_y, NULL);
    draw_label(&v->drawing, x - 7, middle, ANCHOR_RIGHT, text)->text_style = TEXT_STRONG;
}

static void draw_water(struct side_view *v)
{
    static const double deep = 0.8, shallow = 0.45, shore = 0.5;
    bool all = is_all_water(v);
    double depth_cm = water_depth_cm(v), from = x_at(v, all ? 0 : shore);
    double depth =
        depth_cm > 0 ? depth_cm * v->scale : v->height_cm * v->scale * (all ? deep : shallow);
    draw_rect(&v->drawing, from, v->floor_y - depth, x_at(v, 1) - from, depth,
              (struct draw_style){INK_COOL, 0.75, DASH_SOLID, INK_COOL, FILL_DOTS});
    if (depth_cm > 0)
        draw_depth(v, depth_cm);
}

static void draw_floor(struct side_view *v)
{
    double y = v->floor_y - FLOOR_STRIP_PT, middle = x_at(v, 0.5);
    draw_rect(&v->drawing, v->left, y, middle - v->left, FLOOR_STRIP_PT,
              (struct draw_style){INK_WARM, 0.5, DASH_SOLID, INK_WARM, FILL_STRIPES});
    draw_rect(&v->drawing, middle, y, x_at(v, 1) - middle, FLOOR_STRIP_PT,
              (struct draw_style){INK_COOL, 0.5, DASH_SOLID, INK_COOL, FILL_DOTS});
    const char *warm = phrase(&v->c->ctx, "picture.warm"),
               *cool = phrase(&v->c->ctx, "picture.cool");
    double words = draw_text_width_pt(warm) + draw_text_width_pt(cool) + DRAW_TEXT_PT;
    double spread = fmax(0, words - v->length_cm * v->scale) / 2;
    draw_label(&v->drawing, v->left - spread, v->floor_y + 11, ANCHOR_LEFT, warm);
    draw_label(&v->drawing, x_at(v, 1) + spread, v->floor_y + 11, ANCHOR_RIGHT, cool);
}

static void draw_platform(struct side_view *v)
{
    double x = x_at(v, BASK_FROM), width = x_at(v, BASK_TO) - x;
    double height = fmax(v->platform_cm * v->scale, FLOOR_STRIP_PT + 2);
    draw_rect(&v->drawing, x, v->floor_y - height, width, height,
              (struct draw_style){INK_TEXT, 1, DASH_SOLID, INK_PAPER, FILL_SOLID});
}

/* A side of the box; the least box is rounded up, as in the set-up list. */
static length_writer *side_writer(const struct side_view *v)
{
    return v->is_least ? format_side_least : format_length;
}

/* Both systems, the keeper's first, one below the other. */
static void draw_both_units(struct side_view *v, double x, double y, enum anchor anchor,
                            length_writer *write, double length_cm)
{
    struct format other = v->c->ctx.format;
    const char *own = write(&other, length_cm);
    other.units = other.units == UNITS_US ? UNITS_METRIC : UNITS_US;
    draw_label(&v->drawing, x, y, anchor, own)->text_style = TEXT_STRONG;
    draw_label(&v->drawing, x, y + DRAW_TEXT_PT + 2, anchor, write(&other, length_cm));
}

static void draw_size(struct side_view *v)
{
    double y = v->floor_y + 22, right = x_at(v, 1) + 9;
    draw_dimension(&v->drawing, v->left, y, x_at(v, 1), y, NULL);
    draw_label(&v->drawing, x_at(v, 0.5), y + 11, ANCHOR_MIDDLE,
               both_units(v, side_writer(v), v->length_cm));
    draw_dimension(&v->drawing, right, v->floor_y, right, y_at(v, v->height_cm), NULL);
    draw_both_units(v, right + 6, y_at(v, v->height_cm / 2), ANCHOR_LEFT, side_writer(v),
                    v->height_cm);
}

/* ---- the lamp ------------------------------------------------------------------------------ */

static void draw_lamp(struct side_view *v)
{
    if (v->lamp_cm <= 0)
        return;
    double lamp_y = y_at(v, v->lamp_cm), back_y = y_at(v, v->platform_cm + v->back_cm);
    double middle = x_at(v, LAMP_AT), half = (x_at(v, BASK_TO) - x_at(v, BASK_FROM)) / 2.4;
    draw_rect(&v->drawing, middle - half, lamp_y - LAMP_HEIGHT_PT, 2 * half, LAMP_HEIGHT_PT,
              (struct draw_style){INK_TEXT, 1, DASH_SOLID, INK_TEXT, FILL_SOLID});
    draw_line(&v->drawing, middle - half, lamp_y, x_at(v, BASK_FROM), back_y, THIN);
    draw_line(&v->drawing, middle + half, lamp_y, x_at(v, BASK_TO), back_y, THIN);
    double x = v->left - 9;
    draw_line(&v->drawing, x, lamp_y, middle - half, lamp_y, THIN);
    draw_line(&v->drawing, x, back_y, x_at(v, BASK_TO), back_y, THIN);
    draw_dimension(&v->drawing, x, lamp_y, x, back_y, NULL);
    draw_both_units(v, x - 6, (lamp_y + back_y) / 2, ANCHOR_RIGHT, format_length,
                    v->c->plan->uvb.recommended_cm);
}

/* ---- marks and their legend ------------------------------------------------------------------ */

static void add_alternative(struct side_view *v, const char *sentence)
{
    if (v->alternative.length > 0)
        strbuf_add_char(&v->alternative, ' ');
    strbuf_add(&v->alternative, sentence);
}

/* An entry of the legend: two a line where both are short, long ones over several lines. */
static void add_legend(struct side_view *v, const char *number, const char *text)
{
    bool is_short = draw_text_width_pt(text) <= WIDTH_PT / 2 - LEGEND_INDENT_PT;
    bool beside = is_short && v->has_half_line;
    double left = beside ? WIDTH_PT / 2 : 0;
    double room = (is_short ? WIDTH_PT / 2 : WIDTH_PT) - LEGEND_INDENT_PT;
    if (!beside)
        v->legend_y += LEGEND_LINE_PT;
    v->has_half_line = is_short && !beside;
    draw_label(&v->drawing, left + 8, v->legend_y, ANCHOR_MIDDLE, number)->text_style = TEXT_STRONG;
    draw_label(&v->drawing, left + LEGEND_INDENT_PT, v->legend_y, ANCHOR_LEFT, text)->width = room;
    v->legend_y += LEGEND_LINE_PT * (ceil(draw_text_width_pt(text) / room) - 1);
    const struct named_value values[] = {{"number", {.text = number}}, {"text", {.text = text}}};
    add_alternative(v, format_pattern(&v->c->ctx.format, "picture.legend", values, 2));
}

static void add_mark(struct side_view *v, double x, double y, const char *text)
{
    const char *number = arena_format(v->c->arena, "%zu", ++v->marks);
    draw_circle(&v->drawing, x, y, MARK_RADIUS_PT,
                (struct draw_style){INK_TEXT, 1, DASH_SOLID, INK_PAPER, FILL_SOLID});
    draw_label(&v->drawing, x, y + 3.2, ANCHOR_MIDDLE, number)->text_style = TEXT_STRONG;
    add_legend(v, number, text);
}

static void mark_zone(struct side_view *v, enum zone zone, double x, double y)
{
    if (!has_zone(v, zone))
        return;
    const char *word = bind_choice_word(zone_choices, (int)zone);
    add_mark(v, x, y, phrase_code(&v->c->ctx, "picture.probe", word));
}

static void add_marks(struct side_view *v)
{
    double high = v->height_cm * v->scale;
    /* where the animal lies; in a low box the marks must not lie on one another */
    double air_y = v->floor_y - FLOOR_STRIP_PT - MARK_RADIUS_PT - 2;
    double damp_y = fmin(air_y - 2.4 * MARK_RADIUS_PT, v->floor_y - high * 0.35);
    double basking_y = y_at(v, v->platform_cm) - MARK_RADIUS_PT;
    basking_y = fmin(basking_y, v->floor_y - FLOOR_STRIP_PT - MARK_RADIUS_PT - 2);
    mark_zone(v, ZONE_BASKING_SURFACE, x_at(v, BASK_MARK_AT), basking_y);
    mark_zone(v, ZONE_WARM_SIDE, x_at(v, WARM_PROBE_AT), air_y);
    /* the air's meters hang over the water */
    double water_cm = has_zone(v, ZONE_WATER) ? water_depth_cm(v) : 0;
    double cool_y = water_cm > 0 ? y_at(v, water_cm) - MARK_RADIUS_PT - 2 : air_y;
    damp_y = fmin(damp_y, cool_y);
    mark_zone(v, ZONE_COOL_SIDE, x_at(v, COOL_PROBE_AT), cool_y);
    if (v->c->plan->measured[MEASURE_HUMIDITY].applies)
        add_mark(v, x_at(v, DAMP_PROBE_AT), damp_y, phrase(&v->c->ctx, "picture.probe.humidity"));
    double water_at = is_all_water(v) ? 0.5 : water_cm > 0 ? WATER_PROBE_AT : COOL_PROBE_AT;
    double deep_y = water_cm > 0 ? fmin(water_cm * v->scale / 2, high * 0.25) : high * 0.25;
    mark_zone(v, ZONE_WATER, x_at(v, water_at), v->floor_y - deep_y);
}

/* ---- the whole ----------------------------------------------------------------------------------
 */

static const char *caption(const struct side_view *v)
{
    const char *key = v->is_least ? "picture.enclosure.caption-least" : "picture.enclosure.caption";
    bool damp = v->c->plan->measured[MEASURE_HUMIDITY].applies;
    return phrase(&v->c->ctx, damp || v->is_least ? key : "picture.enclosure.caption-water");
}

/* The lamp and the box in words, before the legend. */
static void tell_sizes(struct side_view *v)
{
    const struct named_value values[] = {
        {"length", {.text = both_units(v, side_writer(v), v->length_cm)}},
        {"height", {.text = both_units(v, side_writer(v), v->height_cm)}}};
    add_alternative(v, caption(v));
    add_alternative(v, format_pattern(&v->c->ctx.format, "picture.enclosure.size", values, 2));
    double water_cm = has_zone(v, ZONE_WATER) ? water_depth_cm(v) : 0;
    if (water_cm > 0) {
        const struct named_value water = {"height",
                                          {.text = both_units(v, format_length, water_cm)}};
        add_alternative(v, format_pattern(&v->c->ctx.format, "picture.enclosure.water", &water, 1));
    }
    if (v->lamp_cm > 0) {
        const struct named_value lamp = {
            "distance", {.text = both_units(v, format_length, v->c->plan->uvb.recommended_cm)}};
        add_alternative(v, format_pattern(&v->c->ctx.format, "picture.enclosure.lamp", &lamp, 1));
    }
}

bool draw_enclosure(struct composition *c, struct picture *out)
{
    struct side_view v = {.c = c};
    if (!take_sizes(&v))
        return false;
    strbuf_init(&v.alternative, c->arena);
    place_box(&v);
    v.drawing = draw_start(c->arena, WIDTH_PT, 0);
    tell_sizes(&v);
    if (has_zone(&v, ZONE_WATER))
        draw_water(&v);
    if (!is_all_water(&v))
        draw_floor(&v);
    draw_rect(&v.drawing, v.left, y_at(&v, v.height_cm), v.length_cm * v.scale,
              v.height_cm * v.scale, OUTLINE);
    if (has_zone(&v, ZONE_BASKING_SURFACE))
        draw_platform(&v);
    draw_lamp(&v);
    draw_size(&v);
    add_marks(&v);
    if (v.lamp_cm > 0)
        add_legend(&v, "\xe2\x86\x95", phrase(&c->ctx, "picture.lamp-distance"));
    v.drawing.scene->height_pt = v.legend_y + 4;
    *out = (struct picture){v.drawing.scene, caption(&v), v.alternative.text};
    return true;
}
