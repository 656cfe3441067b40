/* A square matrix of dark modules (a QR symbol) as few rectangles. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_MODULES_H
#define BASKLEAF_LAYOUT_MODULES_H

#include <stdint.h>

#include "layout/fragments.h"

struct square {
    double x, y, side_pt; /* x, y: the upper left corner */
};

/* Draws count x count modules into a square: dark ones in the ink, on a ground of paper. A module's
 * side is a multiple of a quarter point, so that no rounding parts neighbours; the square is drawn
 * that much smaller, in the middle. */
void modules_draw(const struct pen *pen, struct square square, const uint8_t *bits, size_t count,
                  struct rgb ink, struct rgb paper);

#endif
