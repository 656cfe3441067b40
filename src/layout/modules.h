/* A square matrix of dark modules (a QR symbol) as few rectangles. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_MODULES_H
#define BASKLEAF_LAYOUT_MODULES_H

#include <stdint.h>

#include "layout/fragments.h"

/* Draws count x count modules into a square of `side_pt` whose upper left corner is x, y: dark
 * ones in the ink, on a ground of paper. A module's side is a multiple of a quarter point, so
 * that no rounding parts neighbours; the square is drawn that much smaller, in the middle. */
void modules_draw(struct fragment *fragment, struct arena *arena, int element, double x, double y,
                  double side_pt, const uint8_t *bits, size_t count, struct rgb ink,
                  struct rgb paper);

#endif
