/* What the two files that draw scenes share. */
#ifndef BASKLEAF_LAYOUT_SCENE_PARTS_H
#define BASKLEAF_LAYOUT_SCENE_PARTS_H

#include "layout/block_setters.h"

#define PAINTER_BAR_PT 4.0 /* half the length of a dimension's end bars */

/* Scene units. */
struct extent {
    double left, top, right, bottom;
};

/* A scene being drawn. */
struct painter {
    const struct composer *composer;
    struct fragment *fragment;
    int element;
    double scale;
    struct extent extent;     /* what is drawn, in scene units */
    double origin_pt;         /* where the extent's left edge stands on the page */
    double left_pt, right_pt; /* the room */
};

/* From scene units to the page's x and the fragment's y. */
struct point painter_place(const struct painter *painter, double x, double y);

struct rgb painter_ink(const struct painter *painter, enum ink ink);

/* 0 for no outline, else at least half a point. */
double painter_stroke_pt(const struct painter *painter, const struct shape *shape);

void painter_label(const struct painter *painter, const struct shape *shape);
void painter_dimension(const struct painter *painter, const struct shape *shape);

#endif
