/* Texts of a drawing against its lines, circles and other texts. */
#include "page/crossings.h"

#include <math.h>
#include <string.h>

struct area {
    double left, top, right, bottom;
};

/* The letters themselves: without the room above capitals and half of what hangs below the line. */
static struct area letters_of(const struct op *op, const struct measure *measure)
{
    return (struct area){op->x + 0.3, op->y - 0.78 * measure->ascent * op->size_pt,
                         op->x + op->width - 0.3, op->y + 0.5 * measure->descent * op->size_pt};
}

static bool meet(struct area a, struct area b)
{
    return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/* Liang and Barsky 1984: does the segment enter the rectangle? */
static bool enters(struct point from, struct point to, struct area r)
{
    double t0 = 0, t1 = 1, dx = to.x - from.x, dy = to.y - from.y;
    const double p[] = {-dx, dx, -dy, dy},
                 q[] = {from.x - r.left, r.right - from.x, from.y - r.top, r.bottom - from.y};
    for (int i = 0; i < 4; i++) {
        if (p[i] == 0) {
            if (q[i] < 0)
                return false;
            continue;
        }
        double t = q[i] / p[i];
        if (p[i] < 0)
            t0 = fmax(t0, t);
        else
            t1 = fmin(t1, t);
    }
    return t0 < t1;
}

static bool is_white(struct rgb ink)
{
    return ink.r == 255 && ink.g == 255 && ink.b == 255;
}

static bool path_meets(const struct op *op, struct area text)
{
    double half = op->stroked ? op->stroke_pt / 2 : 0;
    struct area wide = {text.left - half, text.top - half, text.right + half, text.bottom + half};
    for (size_t i = 0; i + 1 < op->count; i++)
        if (enters(op->points[i], op->points[i + 1], wide))
            return true;
    return op->closed && op->count > 2 && enters(op->points[op->count - 1], op->points[0], wide);
}

/* A disc or ring that is not around the text itself. */
static bool circle_meets(const struct op *op, struct area text)
{
    double x = fmin(fmax(op->x, text.left), text.right),
           y = fmin(fmax(op->y, text.top), text.bottom);
    double middle_x = (text.left + text.right) / 2, middle_y = (text.top + text.bottom) / 2;
    bool own = hypot(middle_x - op->x, middle_y - op->y) < op->width / 2;
    return !own && hypot(x - op->x, y - op->y) < op->width;
}

static bool is_in(const struct op *op, struct area figure)
{
    double x = op->points != NULL && op->count > 0 ? op->points[0].x : op->x,
           y = op->points != NULL && op->count > 0 ? op->points[0].y : op->y;
    return x >= figure.left - 1 && x <= figure.right + 1 && y >= figure.top - 1 &&
           y <= figure.bottom + 1;
}

static bool shape_meets(const struct op *op, struct area text)
{
    if (op->kind == OP_CIRCLE)
        return !is_white(op->stroked ? op->ink : op->fill) && circle_meets(op, text);
    bool is_path = op->kind == OP_PATH || op->kind == OP_LINE;
    return is_path && !(op->stroked && is_white(op->ink)) && path_meets(op, text);
}

static struct area largest_figure(const struct paged *paged, size_t page, int *element)
{
    struct area largest = {0};
    for (size_t i = 0; i < paged->element_count; i++) {
        const struct element *e = &paged->elements[i];
        double area = (e->right - e->left) * (e->bottom - e->top);
        if (e->type == ELEMENT_FIGURE && e->page == (int)page &&
            area > (largest.right - largest.left) * (largest.bottom - largest.top)) {
            largest = (struct area){e->left, e->top, e->right, e->bottom};
            *element = (int)i;
        }
    }
    return largest;
}

const char *crossings_check(const struct paged *paged, size_t page, const struct measure *measure,
                            struct arena *arena)
{
    int element = -1;
    struct area figure = largest_figure(paged, page, &element);
    for (const struct op *a = paged->pages[page].first; a != NULL; a = a->next) {
        if (a->kind != OP_TEXT || !is_in(a, figure))
            continue;
        bool is_mark = strlen(a->text) == 1; /* on a disc of its own, which hides what is below */
        struct area text = letters_of(a, measure);
        for (const struct op *b = paged->pages[page].first; b != NULL; b = b->next) {
            if (b == a || !is_in(b, figure))
                continue;
            if (b->kind == OP_TEXT && meet(text, letters_of(b, measure)))
                return arena_format(arena, "\"%s\" meets \"%s\" at %.0f %.0f", a->text, b->text,
                                    a->x, a->y);
            if (b->kind != OP_TEXT && !is_mark && shape_meets(b, text))
                return arena_format(
                    arena, "\"%s\" at %.0f %.0f meets a shape of kind %d at %.0f %.0f", a->text,
                    a->x, a->y, (int)b->kind, b->count > 0 ? b->points[0].x : b->x,
                    b->count > 0 ? b->points[0].y : b->y);
        }
    }
    return NULL;
}

/* ---- leaders and marks ---- */

enum { SHAPES_MOST = 64 };

/* What a drawing has of each, in the order in which it is drawn. */
struct drawn {
    const struct op *leaders[SHAPES_MOST], *marks[SHAPES_MOST], *bars[SHAPES_MOST],
        *curves[SHAPES_MOST];
    size_t leader_count, mark_count, bar_count, curve_count;
    const struct op *distance;
};

static void note(const struct op **list, size_t *count, const struct op *op)
{
    if (*count < SHAPES_MOST)
        list[(*count)++] = op;
}

/* As it is drawn: leaders 0.9 pt thick, the distance 1.75, marks with a radius of 4 and more, bars
 * 6 pt high. */
static struct drawn sort_shapes(const struct paged *paged, size_t page)
{
    int figure = -1;
    largest_figure(paged, page, &figure);
    struct drawn d = {.distance = NULL};
    for (const struct op *op = paged->pages[page].first; op != NULL; op = op->next) {
        bool is_path = op->kind == OP_PATH || op->kind == OP_LINE;
        if (op->element != figure)
            continue;
        if (op->kind == OP_CIRCLE && op->width >= 4 && !is_white(op->stroked ? op->ink : op->fill))
            note(d.marks, &d.mark_count, op);
        if (is_path && op->verbs != NULL)
            note(d.curves, &d.curve_count, op);
        else if (is_path && op->stroke_pt == 0.9 && !op->closed)
            note(d.leaders, &d.leader_count, op);
        else if (is_path && op->stroke_pt == 1.75)
            d.distance = op;
        else if (is_path && op->closed && op->count == 4 &&
                 fabs(op->points[2].y - op->points[0].y - 6) < 0.02)
            note(d.bars, &d.bar_count, op);
    }
    return d;
}

static struct area bounds(const struct op *const *ops, size_t count)
{
    struct area box = {HUGE_VAL, HUGE_VAL, -HUGE_VAL, -HUGE_VAL};
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < ops[i]->count; k++) {
            box.left = fmin(box.left, ops[i]->points[k].x);
            box.right = fmax(box.right, ops[i]->points[k].x);
            box.top = fmin(box.top, ops[i]->points[k].y);
            box.bottom = fmax(box.bottom, ops[i]->points[k].y);
        }
    return box;
}

static double turn_of(struct point a, struct point b, struct point c)
{
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

static bool lines_cross(const struct op *a, const struct op *b)
{
    for (size_t i = 0; i + 1 < a->count; i++)
        for (size_t k = 0; k + 1 < b->count; k++) {
            const struct point *p = a->points + i, *q = b->points + k;
            if (turn_of(p[0], p[1], q[0]) * turn_of(p[0], p[1], q[1]) < 0 &&
                turn_of(q[0], q[1], p[0]) * turn_of(q[0], q[1], p[1]) < 0)
                return true;
        }
    return false;
}

/* A line ends in its own mark. */
static bool meets_mark(const struct op *line, const struct op *mark)
{
    struct point end = line->points[line->count - 1];
    struct area box = {mark->x - mark->width * 0.7, mark->y - mark->width * 0.7,
                       mark->x + mark->width * 0.7, mark->y + mark->width * 0.7};
    return hypot(end.x - mark->x, end.y - mark->y) > 0.1 && path_meets(line, box);
}

/* Labels in one column lead past a lamp that hangs over the whole box: between it and the animal.
 */
static bool come_from_both_sides(const struct drawn *d)
{
    bool left = false, right = false;
    for (size_t i = 0; i < d->leader_count; i++) {
        const struct op *line = d->leaders[i];
        bool is_left = line->points[0].x < line->points[line->count - 1].x;
        left = left || is_left;
        right = right || !is_left;
    }
    return left && right;
}

static const char *leader_meets(const struct drawn *d, size_t at, struct area sign)
{
    const struct op *line = d->leaders[at];
    for (size_t i = 0; i < at; i++)
        if (lines_cross(line, d->leaders[i]))
            return "another leader";
    if (path_meets(line, sign))
        return "the lamp's sign";
    for (size_t i = 0; i < d->mark_count; i++)
        if (meets_mark(line, d->marks[i]))
            return "a mark";
    for (size_t i = 0; i < d->bar_count; i++)
        if (path_meets(line, bounds(&d->bars[i], 1)))
            return "a bar";
    return d->distance != NULL && come_from_both_sides(d) && lines_cross(line, d->distance)
               ? "the distance"
               : NULL;
}

const char *crossings_check_marks(const struct paged *paged, size_t page, struct arena *arena)
{
    struct drawn d = sort_shapes(paged, page);
    for (size_t i = 0; i < d.mark_count; i++)
        for (size_t k = 0; k < i; k++)
            if (hypot(d.marks[i]->x - d.marks[k]->x, d.marks[i]->y - d.marks[k]->y) <
                d.marks[i]->width + d.marks[k]->width - 0.1)
                return arena_format(arena, "marks meet at %.0f %.0f", d.marks[i]->x, d.marks[i]->y);
    return NULL;
}

const char *crossings_check_leaders(const struct paged *paged, size_t page, size_t sign_parts,
                                    struct arena *arena)
{
    struct drawn d = sort_shapes(paged, page);
    size_t parts = sign_parts < d.curve_count ? sign_parts : d.curve_count;
    struct area sign = bounds(d.curves + d.curve_count - parts, parts);
    for (size_t i = 0; i < d.leader_count; i++) {
        const char *met = leader_meets(&d, i, sign);
        if (met != NULL)
            return arena_format(arena, "the leader from %.0f %.0f to %.0f %.0f meets %s",
                                d.leaders[i]->points[0].x, d.leaders[i]->points[0].y,
                                d.leaders[i]->points[d.leaders[i]->count - 1].x,
                                d.leaders[i]->points[d.leaders[i]->count - 1].y, met);
    }
    return crossings_check_marks(paged, page, arena);
}
