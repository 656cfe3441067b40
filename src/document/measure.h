/* How wide a text is. An interface, so that wrapping can be tested with a
 * fixed-width fake and laid out with the metrics of the embedded fonts. */
#ifndef BASKLEAF_DOCUMENT_MEASURE_H
#define BASKLEAF_DOCUMENT_MEASURE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "document/document.h"

struct measure {
    /* Advance in points of `length` bytes of UTF-8 at `size_pt`. */
    double (*width_pt)(const struct measure *self, enum text_style style, double size_pt,
                       const char *text, size_t length);
    /* Advances summed up in thousandths of the size: sums[i], of `length` + 1, are those of the
     * bytes before i, so that any part's width follows from two of them, to the last bit. False
     * where the parts of a text are not as wide as its whole. NULL: never. */
    bool (*sum)(const struct measure *self, enum text_style style, const char *text, size_t length,
                int32_t *sums);
    /* Does the font for this style have a glyph for the code point? */
    bool (*has_glyph)(const struct measure *self, enum text_style style, unsigned code_point);
    double ascent;  /* share of the size above the baseline, largest over the styles */
    double descent; /* share below, positive */
};

#endif
