/* Pictograms and outlines as parts that a layout can draw at any size. */
#ifndef BASKLEAF_DOCUMENT_PICTOGRAM_H
#define BASKLEAF_DOCUMENT_PICTOGRAM_H

#include <stdbool.h>
#include <stddef.h>

enum pictogram_part_kind {
    PICTOGRAM_FILL,   /* a closed path */
    PICTOGRAM_STROKE, /* a path with round ends and corners */
    PICTOGRAM_DISC,   /* "x y radius" */
    PICTOGRAM_RING    /* the same, not filled */
};

/* Paths are written as in SVG with the commands M L H V C Z and h v l, absolute or, in small
 * letters, relative. */
struct pictogram_part {
    enum pictogram_part_kind kind;
    bool is_paper; /* cut out of what lies below */
    double stroke; /* of PICTOGRAM_STROKE and PICTOGRAM_RING, in the sign's units */
    const char *path;
};

struct pictogram {
    const struct pictogram_part *parts;
    size_t count;
    double field;  /* its width in its own units; 48 for a pictogram */
    double height; /* of an outline: it stands on y = 0 and is so high; 0: as high as wide */
};

#endif
