/* What a TrueType font says about its characters: glyph, advance, ascent and descent.
 * Reads the tables in place and never beyond their end (OpenType 1.9: cmap format 4,
 * hmtx, hhea, head, maxp). */
#ifndef BASKLEAF_PDF_TRUETYPE_H
#define BASKLEAF_PDF_TRUETYPE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct truetype_table {
    size_t offset, length;
};

struct truetype {
    const uint8_t *data; /* borrowed */
    size_t length;
    struct truetype_table segments; /* the cmap's format 4 subtable */
    struct truetype_table advances; /* hmtx */
    unsigned units_per_em;
    unsigned glyph_count, advance_count;
    int ascent, descent; /* font units; descent is negative */
};

/* Finds the tables. False when the bytes are no such font or are cut short; *out is then
 * undefined. */
bool truetype_open(const void *data, size_t length, struct truetype *out);

/* The glyph for a code point of the basic plane, 0 when there is none. */
unsigned truetype_glyph(const struct truetype *font, unsigned code_point);

/* The glyph's advance in thousandths of the size, rounded down as libharu writes it into
 * the font's width table, so that both always agree. */
unsigned truetype_advance(const struct truetype *font, unsigned glyph);

#endif
