/* Reads the tables of a TrueType font in place, within their bounds. */
#include "pdf/truetype.h"

#include <string.h>

/* Big-endian numbers; 0 beyond the end, which every caller treats as absent. */
static unsigned read_u16(const struct truetype *font, size_t at)
{
    if (at + 2 > font->length)
        return 0;
    return (unsigned)font->data[at] << 8 | font->data[at + 1];
}

/* 32 bits. */
static size_t read_u32(const struct truetype *font, size_t at)
{
    return (size_t)read_u16(font, at) << 16 | read_u16(font, at + 2);
}

/* 16 bits with a sign. */
static int read_i16(const struct truetype *font, size_t at)
{
    return (int16_t)read_u16(font, at);
}

/* False when the table is missing or reaches beyond the file. */
static bool find_table(const struct truetype *font, const char tag[4], struct truetype_table *out)
{
    unsigned count = read_u16(font, 4);
    for (unsigned i = 0; i < count; i++) {
        size_t row = 12 + 16 * (size_t)i;
        if (row + 16 > font->length)
            return false;
        if (memcmp(font->data + row, tag, 4) == 0) {
            out->offset = read_u32(font, row + 8);
            out->length = read_u32(font, row + 12);
            return out->offset <= font->length && out->length <= font->length - out->offset;
        }
    }
    return false;
}

/* Whether the whole directory and every table lies within the file: libharu does not look. */
static bool is_whole(const struct truetype *font)
{
    unsigned count = read_u16(font, 4);
    for (unsigned i = 0; i < count; i++) {
        size_t row = 12 + 16 * (size_t)i;
        size_t offset = read_u32(font, row + 8), length = read_u32(font, row + 12);
        if (row + 16 > font->length || offset > font->length || length > font->length - offset)
            return false;
    }
    return count > 0;
}

/* The subtable for Windows and the basic plane (platform 3, encoding 1). */
static bool find_segments(struct truetype *font)
{
    struct truetype_table cmap;
    if (!find_table(font, "cmap", &cmap))
        return false;
    unsigned count = read_u16(font, cmap.offset + 2);
    for (unsigned i = 0; i < count; i++) {
        size_t row = cmap.offset + 4 + 8 * (size_t)i;
        size_t offset = read_u32(font, row + 4);
        if (read_u16(font, row) != 3 || read_u16(font, row + 2) != 1 || offset + 16 > cmap.length ||
            read_u16(font, cmap.offset + offset) != 4)
            continue;
        font->segments.offset = cmap.offset + offset;
        font->segments.length = cmap.length - offset;
        return true;
    }
    return false;
}

bool truetype_open(const void *data, size_t length, struct truetype *out)
{
    *out = (struct truetype){.data = data, .length = length};
    struct truetype_table head, hhea, maxp;
    if (!is_whole(out) || !find_table(out, "head", &head) || !find_table(out, "hhea", &hhea) ||
        !find_table(out, "maxp", &maxp) || !find_table(out, "hmtx", &out->advances) ||
        !find_segments(out))
        return false;
    out->units_per_em = read_u16(out, head.offset + 18);
    out->ascent = read_i16(out, hhea.offset + 4);
    out->descent = read_i16(out, hhea.offset + 6);
    out->advance_count = read_u16(out, hhea.offset + 34);
    out->glyph_count = read_u16(out, maxp.offset + 4);
    return out->units_per_em > 0 && out->advance_count > 0 &&
           4 * (size_t)out->advance_count <= out->advances.length;
}

/* The first segment whose last character is not below the code point. */
static unsigned find_segment(const struct truetype *font, unsigned count, unsigned code_point)
{
    unsigned low = 0, high = count;
    while (low < high) {
        unsigned middle = (low + high) / 2;
        if (read_u16(font, font->segments.offset + 14 + 2 * (size_t)middle) < code_point)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

unsigned truetype_glyph(const struct truetype *font, unsigned code_point)
{
    unsigned count = read_u16(font, font->segments.offset + 6) / 2;
    unsigned segment = find_segment(font, count, code_point);
    if (code_point > 0xFFFF || segment == count)
        return 0;
    size_t bytes = 2 * (size_t)count;
    size_t starts = font->segments.offset + 16 + bytes;
    unsigned start = read_u16(font, starts + 2 * (size_t)segment);
    unsigned delta = read_u16(font, starts + bytes + 2 * (size_t)segment);
    size_t offset_at = starts + 2 * bytes + 2 * (size_t)segment;
    unsigned offset = read_u16(font, offset_at);
    if (code_point < start)
        return 0;
    unsigned glyph = code_point;
    if (offset != 0) {
        glyph = read_u16(font, offset_at + offset + 2 * (size_t)(code_point - start));
        if (glyph == 0)
            return 0;
    }
    glyph = (glyph + delta) & 0xFFFF;
    return glyph < font->glyph_count ? glyph : 0;
}

unsigned truetype_advance(const struct truetype *font, unsigned glyph)
{
    unsigned row = glyph < font->advance_count ? glyph : font->advance_count - 1;
    return read_u16(font, font->advances.offset + 4 * (size_t)row) * 1000 / font->units_per_em;
}
