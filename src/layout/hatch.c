/* Parallel lines clipped to a rectangle or a polygon. */
#include "layout/hatch.h"

#include <math.h>
#include <stdlib.h>

static const double PI = 3.14159265358979323846;

/* One family of parallel lines. */
struct family {
    double degrees, spacing_pt, stroke_pt;
    enum line_dash dash;
};

enum { FAMILIES = 2 };

static const struct family patterns[][FAMILIES] = {
    [FILL_STRIPES] = {{45, 5, 0.75, DASH_SOLID}},
    [FILL_DOTS] = {{0, 4, 1.1, DASH_DOTTED}},
    [FILL_CROSS] = {{45, 6, 0.6, DASH_SOLID}, {-45, 6, 0.6, DASH_SOLID}},
};

static int compare(const void *a, const void *b)
{
    const double *x = a, *y = b;
    return (*x > *y) - (*x < *y);
}

/* Where the line v = `level` crosses the outline, in rising u. Points are in (u, v). */
static size_t cross(const struct point *points, size_t count, double level, double *out)
{
    size_t found = 0;
    for (size_t i = 0; i < count; i++) {
        struct point a = points[i], b = points[(i + 1) % count];
        /* half-open, so that a corner on the line counts once */
        if ((a.y <= level) != (b.y <= level))
            out[found++] = a.x + (level - a.y) / (b.y - a.y) * (b.x - a.x);
    }
    qsort(out, found, sizeof *out, compare);
    return found;
}

static void draw_family(const struct pen *pen, const struct point *points, size_t count,
                        const struct family *family, struct rgb ink)
{
    double c = cos(family->degrees * PI / 180), s = sin(family->degrees * PI / 180);
    struct point *turned = ARENA_ARRAY(pen->arena, struct point, count);
    double *crossings = ARENA_ARRAY(pen->arena, double, count);
    double top = INFINITY, bottom = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        turned[i] =
            (struct point){c * points[i].x - s * points[i].y, s * points[i].x + c * points[i].y};
        top = fmin(top, turned[i].y);
        bottom = fmax(bottom, turned[i].y);
    }
    double spacing = family->spacing_pt;
    for (double level = top + spacing / 2; level < bottom; level += spacing) {
        size_t found = cross(turned, count, level, crossings);
        for (size_t i = 0; i + 1 < found; i += 2) {
            double u = crossings[i], v = crossings[i + 1];
            struct op *op = fragment_add_line(pen->fragment, pen->arena, pen->element,
                                              (struct point){c * u + s * level, c * level - s * u},
                                              (struct point){c * v + s * level, c * level - s * v});
            op->stroke_pt = family->stroke_pt;
            op->dash = family->dash;
            op->ink = ink;
        }
    }
}

void hatch_fill(const struct pen *pen, const struct point *points, size_t count,
                enum fill_pattern pattern, struct rgb ink)
{
    if (pattern == FILL_NONE || pattern == FILL_SOLID || count < 3)
        return;
    for (int i = 0; i < FAMILIES && patterns[pattern][i].spacing_pt > 0; i++)
        draw_family(pen, points, count, &patterns[pattern][i], ink);
}

void hatch_circle(double x, double y, double radius, struct point *points, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        double angle = 2 * PI * (double)i / (double)count;
        points[i] = (struct point){x + radius * cos(angle), y + radius * sin(angle)};
    }
}
