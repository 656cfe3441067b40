/* Shapes of a scene to drawing operations: lines, areas, symbols, hatching. */
#include "layout/scene.h"

#include <math.h>

#include "layout/hatch.h"
#include "layout/modules.h"
#include "layout/scene_parts.h"

enum { CIRCLE_CORNERS = 32, SCALE_TRIES = 12 };

static const double SMALLEST_STROKE_PT = 0.5;
static const double SLACK_PT = 0.005;

struct point painter_place(const struct painter *painter, double x, double y)
{
    return (struct point){painter->origin_pt + (x - painter->extent.left) * painter->scale,
                          (y - painter->extent.top) * painter->scale};
}

struct rgb painter_ink(const struct painter *painter, enum ink ink)
{
    return painter->composer->look->inks[ink];
}

double painter_stroke_pt(const struct painter *painter, const struct shape *shape)
{
    return shape->stroke_pt > 0 ? fmax(shape->stroke_pt * painter->scale, SMALLEST_STROKE_PT) : 0;
}

static void outline(const struct painter *painter, const struct shape *shape, struct op *op)
{
    op->stroked = shape->stroke_pt > 0;
    op->stroke_pt = painter_stroke_pt(painter, shape);
    op->dash = shape->dash;
    op->ink = painter_ink(painter, shape->stroke_ink);
}

static struct point *place_points(const struct painter *painter, const struct shape *shape)
{
    struct point *points = ARENA_ARRAY(painter->composer->arena, struct point, shape->count);
    for (size_t i = 0; i < shape->count; i++)
        points[i] = painter_place(painter, shape->points[i].x, shape->points[i].y);
    return points;
}

/* Ground first, pattern on it, outline last. */
static void draw_area(const struct painter *painter, const struct shape *shape, struct op op,
                      const struct point *corners, size_t count)
{
    struct arena *arena = painter->composer->arena;
    struct rgb ink = painter_ink(painter, shape->fill_ink);
    bool solid = shape->fill == FILL_SOLID;
    op.element = painter->element;
    const struct pen pen = {painter->fragment, arena, painter->element};
    hatch_fill(&pen, corners, count, shape->fill, ink);
    if (solid || shape->stroke_pt > 0) {
        outline(painter, shape, &op);
        op.filled = solid;
        op.fill = ink;
        *fragment_add_op(painter->fragment, arena, op.kind, op.element) = op;
    }
}

static void draw_rect(const struct painter *painter, const struct shape *shape)
{
    struct point a = painter_place(painter, shape->x, shape->y);
    struct point b = painter_place(painter, shape->x + shape->width, shape->y + shape->height);
    const struct point corners[] = {a, {b.x, a.y}, b, {a.x, b.y}};
    struct op op = {.kind = OP_RECT, .x = a.x, .y = a.y, .width = b.x - a.x, .height = b.y - a.y};
    draw_area(painter, shape, op, corners, 4);
}

static void draw_circle(const struct painter *painter, const struct shape *shape)
{
    struct point centre = painter_place(painter, shape->x, shape->y);
    double radius = shape->width * painter->scale;
    struct point corners[CIRCLE_CORNERS];
    hatch_circle(centre.x, centre.y, radius, corners, CIRCLE_CORNERS);
    struct op op = {.kind = OP_CIRCLE, .x = centre.x, .y = centre.y, .width = radius};
    draw_area(painter, shape, op, corners, CIRCLE_CORNERS);
}

static void draw_polygon(const struct painter *painter, const struct shape *shape)
{
    struct point *points = place_points(painter, shape);
    struct op op = {.kind = OP_PATH, .points = points, .count = shape->count, .closed = true};
    draw_area(painter, shape, op, points, shape->count);
}

static void draw_polyline(const struct painter *painter, const struct shape *shape)
{
    if (shape->count < 2)
        return;
    struct op *op = fragment_add_op(painter->fragment, painter->composer->arena,
                                    shape->count == 2 ? OP_LINE : OP_PATH, painter->element);
    op->points = place_points(painter, shape);
    op->count = shape->count;
    outline(painter, shape, op);
    op->stroked = true;
    op->stroke_pt = fmax(op->stroke_pt, SMALLEST_STROKE_PT);
}

static void draw_modules(const struct painter *painter, const struct shape *shape)
{
    struct point corner = painter_place(painter, shape->x, shape->y);
    const struct pen pen = {painter->fragment, painter->composer->arena, painter->element};
    modules_draw(&pen, (struct square){corner.x, corner.y, shape->width * painter->scale},
                 shape->bits, shape->count, painter_ink(painter, shape->fill_ink),
                 painter_ink(painter, INK_PAPER));
}

static void widen(struct extent *extent, double x, double y, double by)
{
    extent->left = fmin(extent->left, x - by);
    extent->right = fmax(extent->right, x + by);
    extent->top = fmin(extent->top, y - by);
    extent->bottom = fmax(extent->bottom, y + by);
}

/* The scene's own box and whatever is drawn beyond it, labels apart. */
static struct extent find_extent(const struct scene *scene)
{
    struct extent extent = {0, 0, scene->width_pt, scene->height_pt};
    for (const struct shape *shape = scene->first; shape != NULL; shape = shape->next) {
        double half = shape->stroke_pt / 2;
        switch (shape->kind) {
        case SHAPE_RECT:
            widen(&extent, shape->x, shape->y, half);
            widen(&extent, shape->x + shape->width, shape->y + shape->height, half);
            break;
        case SHAPE_MODULES:
            widen(&extent, shape->x, shape->y, 0);
            widen(&extent, shape->x + shape->width, shape->y + shape->width, 0);
            break;
        case SHAPE_CIRCLE:
            widen(&extent, shape->x, shape->y, shape->width + half);
            break;
        case SHAPE_LABEL:
            break;
        case SHAPE_DIMENSION:
            half = PAINTER_BAR_PT;
            /* fall through */
        default:
            for (size_t i = 0; i < shape->count; i++)
                widen(&extent, shape->points[i].x, shape->points[i].y, half);
            break;
        }
    }
    return extent;
}

static void widen_by_op(struct extent *box, const struct op *op, const struct measure *measure)
{
    double half = op->stroked ? op->stroke_pt / 2 : 0;
    if (op->kind == OP_TEXT) {
        widen(box, op->x, op->y - op->size_pt * measure->ascent, 0);
        widen(box, op->x + op->width, op->y + op->size_pt * measure->descent, 0);
    } else if (op->kind == OP_CIRCLE) {
        widen(box, op->x, op->y, op->width + half);
    } else if (op->points == NULL) {
        widen(box, op->x, op->y, half);
        widen(box, op->x + op->width, op->y + op->height, half);
    }
    for (size_t i = 0; op->points != NULL && i < op->count; i++)
        widen(box, op->points[i].x, op->points[i].y, half);
}

/* Draws at painter->scale. Returns the box of all that was drawn, on the page across and in the
 * fragment down, together with the height that the scene itself asks for. */
static struct extent draw_shapes(const struct painter *painter, const struct scene *scene)
{
    static void (*const draw[])(const struct painter *, const struct shape *) = {
        [SHAPE_RECT] = draw_rect,         [SHAPE_LINE] = draw_polyline,
        [SHAPE_POLYLINE] = draw_polyline, [SHAPE_POLYGON] = draw_polygon,
        [SHAPE_CIRCLE] = draw_circle,     [SHAPE_DIMENSION] = painter_dimension,
        [SHAPE_LABEL] = painter_label,    [SHAPE_MODULES] = draw_modules,
    };
    struct fragment *fragment = painter->fragment;
    fragment->first_op = fragment->last_op = NULL;
    for (const struct shape *shape = scene->first; shape != NULL; shape = shape->next)
        draw[shape->kind](painter, shape);
    double height = (painter->extent.bottom - painter->extent.top) * painter->scale;
    struct extent box = {INFINITY, 0, -INFINITY, height};
    for (const struct op *op = fragment->first_op; op != NULL; op = op->next)
        widen_by_op(&box, op, painter->composer->measure);
    if (fragment->first_op == NULL) {
        box.left = painter->left_pt;
        box.right = fmin(painter->right_pt, painter->left_pt + scene->width_pt * painter->scale);
    }
    return box;
}

/* Letters, thin strokes and arrow heads do not shrink with the picture, so that its scale and
 * its place may take a few tries. True when another one is needed. */
static bool adjust(struct painter *painter, const struct scene_room *room, const struct extent *box)
{
    double width = (painter->extent.right - painter->extent.left) * painter->scale;
    double height = (painter->extent.bottom - painter->extent.top) * painter->scale;
    double too_wide = box->right - box->left - room->width_pt;
    double too_high = box->bottom - box->top - room->height_pt;
    if (too_wide > SLACK_PT || too_high > SLACK_PT) {
        double excess = fmax(too_wide / width, too_high / height);
        painter->scale *= fmax(0.5, 1 - excess);
        painter->origin_pt = painter->left_pt;
        return true;
    }
    double shift = fmax(0, painter->left_pt - box->left) - fmax(0, box->right - painter->right_pt);
    painter->origin_pt += shift;
    return fabs(shift) > SLACK_PT;
}

void scene_draw(const struct composer *composer, const struct scene *scene,
                const struct scene_room *room, struct fragment *fragment)
{
    struct painter painter = {.composer = composer,
                              .fragment = fragment,
                              .element = room->element,
                              .extent = find_extent(scene),
                              .origin_pt = room->left_pt,
                              .left_pt = room->left_pt,
                              .right_pt = room->left_pt + room->width_pt};
    double width = painter.extent.right - painter.extent.left;
    double height = painter.extent.bottom - painter.extent.top;
    painter.scale = fmin(1, fmin(room->width_pt / width, room->height_pt / height));
    struct extent box = draw_shapes(&painter, scene);
    for (int tries = 0; tries < SCALE_TRIES && adjust(&painter, room, &box); tries++)
        box = draw_shapes(&painter, scene);
    fragment->inset_pt = -box.top;
    fragment->height_pt = box.bottom - box.top;
    fragment->figure = room->element;
    fragment->figure_left = box.left;
    fragment->figure_right = box.right;
    fragment->figure_top = box.top;
    fragment->figure_bottom = box.bottom;
}
