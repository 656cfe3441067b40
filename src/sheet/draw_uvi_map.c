/* The UV index over the box from the side, a number a place: for the veterinarian. */
#include <math.h>

#include "base/strbuf.h"
#include "sheet/draw.h"

static const double CELL_PT = 46, ROW_PT = 22, LEFT_PT = 52, TOP_PT = 18, FOOT_PT = 18;
static const double LAMP_PT = 5, LAMP_WIDE_PT = 40;

struct map_view {
    struct composition *c;
    struct drawing drawing;
    const struct uvi_map *map;
    struct strbuf told;
};

static double row_y(int row)
{
    return TOP_PT + (UVI_MAP_ROWS - 1 - row) * ROW_PT;
}

static const char *say(const struct map_view *v, const char *key, const char *height,
                       const char *values)
{
    struct plan_fact indexes = {.name = "indexes", .kind = FACT_TEXT, .text = values};
    struct plan_fact place = {
        .name = "height", .kind = FACT_TEXT, .text = height, .next = values ? &indexes : NULL};
    struct phrase_context ctx = v->c->ctx;
    ctx.facts = &place;
    return phrase(&ctx, key);
}

/* Too strong is crossed, right for the basking spot is striped. */
static enum fill_pattern fill_of(const struct map_view *v, double uvi)
{
    const struct measured_plan *light = &v->c->plan->measured[MEASURE_UVB];
    return uvi > light->high ? FILL_CROSS : uvi >= light->low ? FILL_STRIPES : FILL_NONE;
}

static const char *draw_cell(struct map_view *v, int row, int column)
{
    const struct uvi_map *map = v->map;
    double x = LEFT_PT + column * CELL_PT, y = row_y(row);
    bool known = map->has_uvi[row][column];
    double uvi = map->uvi[row][column];
    const char *text =
        known ? format_uvi(&v->c->ctx.format, uvi) : phrase(&v->c->ctx, "picture.uvi-map.unknown");
    draw_rect(&v->drawing, x, y, CELL_PT, ROW_PT,
              (struct draw_style){INK_MUTED, 0.5, DASH_SOLID, INK_LEAF,
                                  known ? fill_of(v, uvi) : FILL_NONE});
    double wide = draw_text_width_pt(text) + 4, middle = x + CELL_PT / 2;
    draw_rect(&v->drawing, middle - wide / 2, y + ROW_PT / 2 - DRAW_TEXT_PT * 0.7, wide,
              DRAW_TEXT_PT * 1.4, (struct draw_style){.fill_ink = INK_PAPER, .fill = FILL_SOLID});
    draw_label(&v->drawing, middle, y + ROW_PT / 2 + 3.2, ANCHOR_MIDDLE, text);
    return text;
}

static void draw_row(struct map_view *v, int row)
{
    const char *height = format_length(&v->c->ctx.format, v->map->above_floor_cm[row]);
    struct strbuf values;
    strbuf_init(&values, v->c->arena);
    draw_label(&v->drawing, LEFT_PT - 5, row_y(row) + ROW_PT / 2 + 3.2, ANCHOR_RIGHT, height);
    for (int column = 0; column < UVI_MAP_COLUMNS; column++)
        strbuf_addf(&values, "%s%s", column ? "; " : "", draw_cell(v, row, column));
    strbuf_addf(&v->told, " %s", say(v, "picture.uvi-map.row", height, values.text));
}

/* At its height where that lies in the box, else above it. */
static void draw_lamp(struct map_view *v)
{
    const struct uvi_map *map = v->map;
    double high_cm = map->above_floor_cm[0] * 2 * UVI_MAP_ROWS;
    double long_cm = map->from_end_cm[0] * 2 * UVI_MAP_COLUMNS;
    double y = TOP_PT + UVI_MAP_ROWS * ROW_PT * (1 - map->lamp_above_floor_cm / high_cm);
    double x = LEFT_PT + UVI_MAP_COLUMNS * CELL_PT * map->lamp_from_end_cm / long_cm;
    y = fmax(y, TOP_PT - LAMP_PT - 2);
    draw_rect(&v->drawing, x - LAMP_WIDE_PT / 2, y - LAMP_PT / 2, LAMP_WIDE_PT, LAMP_PT,
              (struct draw_style){INK_TEXT, 1, DASH_SOLID, INK_TEXT, FILL_SOLID});
}

bool draw_uvi_map(struct composition *c, struct picture *out)
{
    struct map_view v = {.c = c, .map = &c->plan->uvb.map};
    if (!v.map->known)
        return false;
    v.drawing =
        draw_start(c->arena, LEFT_PT + UVI_MAP_COLUMNS * CELL_PT, row_y(0) + ROW_PT + FOOT_PT);
    strbuf_init(&v.told, c->arena);
    const char *lamp = format_length(&c->ctx.format, v.map->lamp_above_floor_cm);
    strbuf_add(&v.told, say(&v, "picture.uvi-map.lamp", lamp, NULL));
    for (int row = UVI_MAP_ROWS - 1; row >= 0; row--)
        draw_row(&v, row);
    for (int column = 0; column < UVI_MAP_COLUMNS; column++)
        draw_label(&v.drawing, LEFT_PT + (column + 0.5) * CELL_PT, row_y(0) + ROW_PT + 12,
                   ANCHOR_MIDDLE, format_length(&c->ctx.format, v.map->from_end_cm[column]));
    draw_lamp(&v);
    *out = (struct picture){v.drawing.scene, say(&v, "picture.uvi-map.caption", lamp, NULL),
                            v.told.text};
    return true;
}
