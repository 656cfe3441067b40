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

static struct area largest_figure(const struct paged *paged, size_t page)
{
    struct area largest = {0};
    for (size_t i = 0; i < paged->element_count; i++) {
        const struct element *e = &paged->elements[i];
        double area = (e->right - e->left) * (e->bottom - e->top);
        if (e->type == ELEMENT_FIGURE && e->page == (int)page &&
            area > (largest.right - largest.left) * (largest.bottom - largest.top))
            largest = (struct area){e->left, e->top, e->right, e->bottom};
    }
    return largest;
}

const char *crossings_check(const struct paged *paged, size_t page, const struct measure *measure,
                            struct arena *arena)
{
    struct area figure = largest_figure(paged, page);
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
