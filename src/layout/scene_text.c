/* Texts of a scene: labels broken and held inside the picture, dimension lines with their ends. */
#include <math.h>

#include "layout/scene_parts.h"

static const double SMALLEST_TEXT_PT = 9;
static const double LABEL_LEADING = 1.25;
static const double ARROW_PT = 7, ARROW_HALF_PT = 2.2;
static const double GROUND_PT = 2; /* of paper around a dimension's label */
static const double BESIDE_PT = 5; /* between a dimension line and a label beside it */
static const double THIN_PT = 0.75;

/* The lines of a shape's text at the size they are drawn at. */
struct label {
    struct type_setting type;
    struct text_lines lines;
    double width_pt, height_pt;
};

/* Letters keep 9 pt, however small the picture gets, and never grow. */
static struct label break_label(const struct painter *painter, const struct shape *shape,
                                double width_pt)
{
    const struct composer *composer = painter->composer;
    double size = fmax(SMALLEST_TEXT_PT, shape->text_pt * painter->scale);
    struct label label = {.type = {.size_pt = size,
                                   .leading = LABEL_LEADING,
                                   .ink = shape->text_ink,
                                   .strong = shape->text_style == TEXT_STRONG,
                                   .align = shape->anchor}};
    double room = painter->right_pt - painter->left_pt;
    struct span *span = ARENA_NEW(composer->arena, struct span);
    span->text = shape->text != NULL ? shape->text : "";
    struct lines_job job = {.spans = span,
                            .lang = composer->document->lang,
                            .size_pt = size,
                            .width_pt = width_pt > 0 && width_pt < room ? width_pt : room,
                            .strong = label.type.strong};
    label.lines = lines_break(&job, composer->texts);
    label.width_pt = lines_width_pt(&label.lines);
    label.height_pt = typeset_line_pt(&label.type) * (double)label.lines.count;
    return label;
}

/* Moves a stretch of the page's width into the room. */
static double clamp_left(const struct painter *painter, double left, double width)
{
    return fmax(painter->left_pt, fmin(left, painter->right_pt - width));
}

static void draw_lines(const struct painter *painter, const struct label *label, double left,
                       double baseline)
{
    for (size_t i = 0; i < label->lines.count; i++) {
        /* what stands beside it is no part of its last word either */
        struct text_line line = label->lines.items[i];
        line.ends_in_space = true;
        int *elements = ARENA_NEW(painter->composer->arena, int);
        *elements = painter->element;
        typeset_draw(painter->composer, &label->type, &line, elements, painter->fragment,
                     (struct line_place){left, label->width_pt,
                                         baseline + typeset_line_pt(&label->type) * (double)i});
    }
}

void painter_label(const struct painter *painter, const struct shape *shape)
{
    struct label label = break_label(painter, shape, shape->width * painter->scale);
    struct point at = painter_place(painter, shape->x, shape->y);
    double left = at.x;
    if (shape->anchor == ANCHOR_MIDDLE)
        left -= label.width_pt / 2;
    else if (shape->anchor == ANCHOR_RIGHT)
        left -= label.width_pt;
    draw_lines(painter, &label, clamp_left(painter, left, label.width_pt), at.y);
}

static void add_stroke(const struct painter *painter, const struct shape *shape, struct point from,
                       struct point to)
{
    struct op *op =
        fragment_add_line(painter->fragment, painter->composer->arena, painter->element, from, to);
    op->stroke_pt = fmax(painter_stroke_pt(painter, shape), THIN_PT);
    op->dash = shape->dash;
    op->ink = painter_ink(painter, shape->stroke_ink);
}

/* End bar across the line and an arrow head that touches it; (dx, dy) points outwards. */
static void draw_end(const struct painter *painter, const struct shape *shape, struct point tip,
                     double dx, double dy, double arrow)
{
    add_stroke(painter, shape,
               (struct point){tip.x - dy * PAINTER_BAR_PT, tip.y + dx * PAINTER_BAR_PT},
               (struct point){tip.x + dy * PAINTER_BAR_PT, tip.y - dx * PAINTER_BAR_PT});
    struct point *points = ARENA_ARRAY(painter->composer->arena, struct point, 3);
    double half = ARROW_HALF_PT * arrow / ARROW_PT;
    points[0] = tip;
    points[1] = (struct point){tip.x - dx * arrow - dy * half, tip.y - dy * arrow + dx * half};
    points[2] = (struct point){tip.x - dx * arrow + dy * half, tip.y - dy * arrow - dx * half};
    struct op *op =
        fragment_add_op(painter->fragment, painter->composer->arena, OP_PATH, painter->element);
    op->points = points;
    op->count = 3;
    op->closed = op->filled = true;
    op->fill = painter_ink(painter, shape->stroke_ink);
}

/* The label's upper left corner: on the line's middle where the line is long enough to be
 * seen on both sides, else above a lying line and beside a standing one. */
static struct point label_corner(const struct painter *painter, const struct label *label,
                                 struct point a, struct point b)
{
    struct point corner = {(a.x + b.x - label->width_pt) / 2, (a.y + b.y - label->height_pt) / 2};
    bool lying = fabs(b.x - a.x) >= fabs(b.y - a.y);
    double length = hypot(b.x - a.x, b.y - a.y);
    double needed = (lying ? label->width_pt : label->height_pt) + 2 * (ARROW_PT + BESIDE_PT);
    if (length < needed && lying) {
        corner.y = fmin(a.y, b.y) - PAINTER_BAR_PT - label->height_pt;
    } else if (length < needed) {
        double beside = fmax(a.x, b.x) + PAINTER_BAR_PT + BESIDE_PT;
        corner.x = beside + label->width_pt <= painter->right_pt
                       ? beside
                       : fmin(a.x, b.x) - PAINTER_BAR_PT - BESIDE_PT - label->width_pt;
    }
    corner.x = clamp_left(painter, corner.x - GROUND_PT, label->width_pt + 2 * GROUND_PT);
    corner.x += GROUND_PT;
    return corner;
}

void painter_dimension(const struct painter *painter, const struct shape *shape)
{
    if (shape->count < 2)
        return;
    struct point a = painter_place(painter, shape->points[0].x, shape->points[0].y);
    struct point b = painter_place(painter, shape->points[1].x, shape->points[1].y);
    double length = hypot(b.x - a.x, b.y - a.y);
    if (length > 0) {
        double dx = (b.x - a.x) / length, dy = (b.y - a.y) / length;
        double arrow = fmin(ARROW_PT, length / 2);
        add_stroke(painter, shape, a, b);
        draw_end(painter, shape, a, -dx, -dy, arrow);
        draw_end(painter, shape, b, dx, dy, arrow);
    }
    struct label label = break_label(painter, shape, shape->width * painter->scale);
    if (label.lines.count == 0)
        return;
    label.type.align = ANCHOR_MIDDLE;
    struct point corner = label_corner(painter, &label, a, b);
    struct op *ground =
        fragment_add_op(painter->fragment, painter->composer->arena, OP_RECT, painter->element);
    ground->x = corner.x - GROUND_PT;
    ground->y = corner.y;
    ground->width = label.width_pt + 2 * GROUND_PT;
    ground->height = label.height_pt;
    ground->filled = true;
    ground->fill = painter_ink(painter, INK_PAPER);
    draw_lines(painter, &label, corner.x,
               corner.y + typeset_baseline_pt(painter->composer, &label.type));
}
