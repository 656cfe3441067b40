/* Proof by bounding boxes that nothing is clipped and nothing overlaps. */
#ifndef BASKLEAF_TESTS_PAGE_BOXES_H
#define BASKLEAF_TESTS_PAGE_BOXES_H

#include "document/measure.h"
#include "document/draw_ops.h"
#include "base/arena.h"

/* NULL when every operation of every page lies inside the margins, strokes included, each
 * text's width is what `measure` says, and no two texts of a page overlap; else what is
 * wrong, in words that belong to the arena. */
const char *layout_check_boxes(const struct paged *paged, const struct measure *measure,
                               struct arena *arena);

#endif
