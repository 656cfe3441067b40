/* Rows of pixels on their way to a small upright picture. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_PHOTO_PIXELS_H
#define BASKLEAF_LAYOUT_PHOTO_PIXELS_H

#include "base/arena.h"
#include "base/file.h"

#include <stdbool.h>
#include <stdint.h>

/* RGB of 8 bits, row by row from the top. */
struct photo_pixels {
    uint8_t *rgb;
    int width, height;
};

/* Takes full rows one at a time, so that no more of a large picture is kept than what is shown. */
struct photo_shrink {
    struct photo_pixels out;
    int width, height, row; /* of the source, and the row to come */
    uint64_t *sums;         /* of the row of `out` under way: weight 1 a source pixel */
    uint32_t *counts;
};

/* `side` is the longer side's most. */
struct photo_shrink photo_shrink_start(int width, int height, int side, struct arena *arena);
void photo_shrink_row(struct photo_shrink *shrink, const uint8_t *rgb);

/* By the mark of Exif 2.3, tag 0x0112: 1 as it is, 2 mirrored, 3 upside down ... 8. */
struct photo_pixels photo_turn(struct photo_pixels from, int orientation, struct arena *arena);

/* The mark in the body of an Exif segment that begins with its byte order; 1 where there is none
 * that can be read. */
int photo_orientation(const uint8_t *tiff, size_t length);

#endif
