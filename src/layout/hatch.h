/* Fills areas with lines cut off at their outline, because a printer's own pattern fills are
 * not to be relied on. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_HATCH_H
#define BASKLEAF_LAYOUT_HATCH_H

#include "layout/fragments.h"

/* Adds the lines of a pattern (stripes, dots or cross) inside a closed polygon, by the even-odd
 * rule. FILL_NONE and FILL_SOLID add nothing. */
void hatch_fill(const struct pen *pen, const struct point *points, size_t count,
                enum fill_pattern pattern, struct rgb ink);

/* A circle as a polygon of `count` points. */
void hatch_circle(double x, double y, double radius, struct point *points, size_t count);

#endif
