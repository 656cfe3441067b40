/* Makes scenes: shapes, dimension lines and labels added one after another. */
#include "sheet/draw.h"

#include <ctype.h>
#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"

static const double EM_SHARE = 0.55; /* of a character, without the fonts at hand */

struct drawing draw_start(struct arena *arena, double width_pt, double height_pt)
{
    struct drawing drawing = {.arena = arena, .scene = ARENA_NEW(arena, struct scene)};
    drawing.scene->width_pt = width_pt;
    drawing.scene->height_pt = height_pt;
    return drawing;
}

static struct shape *add(struct drawing *drawing, enum shape_kind kind, struct draw_style style)
{
    struct shape *shape = ARENA_NEW(drawing->arena, struct shape);
    shape->kind = kind;
    shape->stroke_ink = style.stroke_ink;
    shape->stroke_pt = style.stroke_pt;
    shape->dash = style.dash;
    shape->fill_ink = style.fill_ink;
    shape->fill = style.fill;
    shape->text_ink = INK_TEXT;
    shape->text_pt = DRAW_TEXT_PT;
    if (drawing->last)
        drawing->last->next = shape;
    else
        drawing->scene->first = shape;
    drawing->last = shape;
    return shape;
}

static void give_points(struct drawing *drawing, struct shape *shape, const struct point *points,
                        size_t count)
{
    struct point *copy = ARENA_ARRAY(drawing->arena, struct point, count);
    memcpy(copy, points, count * sizeof *copy);
    shape->points = copy;
    shape->count = count;
}

struct shape *draw_rect(struct drawing *drawing, double x, double y, double width, double height,
                        struct draw_style style)
{
    struct shape *shape = add(drawing, SHAPE_RECT, style);
    shape->x = x;
    shape->y = y;
    shape->width = width;
    shape->height = height;
    return shape;
}

struct shape *draw_line(struct drawing *drawing, double x1, double y1, double x2, double y2,
                        struct draw_style style)
{
    struct shape *shape = add(drawing, SHAPE_LINE, style);
    give_points(drawing, shape, (struct point[]){{x1, y1}, {x2, y2}}, 2);
    return shape;
}

struct shape *draw_path(struct drawing *drawing, const struct point *points, size_t count,
                        bool closed, struct draw_style style)
{
    struct shape *shape = add(drawing, closed ? SHAPE_POLYGON : SHAPE_POLYLINE, style);
    give_points(drawing, shape, points, count);
    return shape;
}

struct shape *draw_circle(struct drawing *drawing, double x, double y, double radius,
                          struct draw_style style)
{
    struct shape *shape = add(drawing, SHAPE_CIRCLE, style);
    shape->x = x;
    shape->y = y;
    shape->width = radius;
    return shape;
}

struct shape *draw_dimension(struct drawing *drawing, double x1, double y1, double x2, double y2,
                             const char *text)
{
    struct shape *shape = add(drawing, SHAPE_DIMENSION,
                              (struct draw_style){.stroke_ink = INK_TEXT, .stroke_pt = 0.75});
    give_points(drawing, shape, (struct point[]){{x1, y1}, {x2, y2}}, 2);
    shape->text = text;
    shape->text_style = TEXT_STRONG;
    return shape;
}

struct shape *draw_label(struct drawing *drawing, double x, double y, enum anchor anchor,
                         const char *text)
{
    struct shape *shape = add(drawing, SHAPE_LABEL, (struct draw_style){0});
    shape->x = x;
    shape->y = y;
    shape->anchor = anchor;
    shape->text = text;
    return shape;
}

double draw_text_width_pt(const char *text)
{
    return (double)utf8_count(text, strlen(text)) * EM_SHARE * DRAW_TEXT_PT;
}

const char *draw_telephone_uri(struct arena *arena, const char *telephone)
{
    struct strbuf uri;
    bool any = false;
    strbuf_init(&uri, arena);
    strbuf_add(&uri, "tel:");
    for (const char *c = telephone; c && *c; c++) {
        if (isdigit((unsigned char)*c) || (*c == '+' && !any)) {
            strbuf_add_char(&uri, *c);
            any = true;
        }
    }
    return any && uri.length > strlen("tel:+") ? uri.text : NULL;
}
