/* A drawing to scale of a box seen from the front, with labels at its places. Lengths are in units
 * of the thing drawn, x from the left wall, y upwards from the floor. What the box is for, it does
 * not know.
 */
#ifndef BASKLEAF_DOCUMENT_DIAGRAM_H
#define BASKLEAF_DOCUMENT_DIAGRAM_H

#include "document/panel.h"

enum thing_kind {
    THING_BLOCK,     /* a rectangle of paper with an outline */
    THING_BAR,       /* a solid one, at least 5 pt high; open: dashed and empty */
    THING_LINE,      /* points, `stroke` thick in units of length */
    THING_AREA,      /* closed points, outlined thin */
    THING_WATER,     /* from x over `width` up to y: a wave line and level dashes */
    THING_PICTOGRAM, /* a pictogram of 24 pt, its middle at x, y */
    THING_OUTLINE,   /* an animal: feet at x, y; `width` long from its left end */
    THING_EYE,       /* a dot of paper, `width` across */
    THING_LEVEL      /* a limit: a level line of dashes from x over `width` at y */
};

struct diagram_thing {
    enum thing_kind kind;
    double x, y, width, height;
    const double *points; /* x and y in turn */
    size_t count;
    double stroke;
    bool is_open;     /* still to be added: dashed */
    bool is_off;      /* THING_BAR: hollow and crossed out */
    bool is_animal;   /* THING_LINE: marks stand beside it */
    bool is_mirrored; /* THING_OUTLINE: it looks to the left */
    const struct pictogram *pictogram;
    const char *word; /* stands under the floor below it */
    const char *mark; /* of a lamp, the water or an area: the step about it */
    bool is_mark_solid;
};

struct diagram_label {
    const char *title, *value, *now;
    const struct pictogram *pictogram; /* before the title */
    enum turn turn;
    const char *turn_said;
    bool is_now_open;
    bool is_large; /* a step: its number is as large as the row's */
    const char *mark;
    bool is_mark_solid;
    bool has_point;
    bool is_level; /* of a THING_LEVEL: its point moves along the line to where there is room */
    bool is_mark_beside; /* its mark stands beside its value and not at its point */
    bool is_upper;       /* hangs in the air: the upper row where the labels stand in the box */
    double x, y;         /* of its point */
};

/* A length between two heights, with an arrow head at each. */
struct diagram_distance {
    double x, from, to;
    size_t label; /* which one says it */
};

struct diagram {
    double length, height;               /* of the box; 0: not known, the labels stand in a row */
    double needed_length, needed_height; /* a larger box, dashed; 0: none */
    double top; /* the highest thing above the floor, at least the height */
    bool has_lid;
    bool is_bare; /* points and marks alone: what its labels say stands elsewhere */
    const struct diagram_thing *things;
    size_t thing_count;
    const struct diagram_label *labels;
    size_t label_count;
    const struct diagram_distance *distance; /* NULL: none */
    const char *alternative;
    const char *enlarged; /* told where a THING_OUTLINE is drawn larger than it is; NULL: nothing */
};

#endif
