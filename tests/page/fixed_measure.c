/* A font of fixed widths, so that layouts can be worked out by hand. */
#include "page/fixed_measure.h"

static double width_pt(const struct measure *self, enum text_style style, double size_pt,
                       const char *text, size_t length)
{
    (void)self;
    (void)style;
    size_t characters = 0;
    for (size_t i = 0; i < length; i++)
        characters += ((unsigned char)text[i] & 0xC0) != 0x80;
    return 0.5 * size_pt * (double)characters;
}

static bool has_glyph(const struct measure *self, enum text_style style, unsigned code_point)
{
    (void)self;
    (void)style;
    return code_point <= 0x2FFF;
}

const struct measure fixed_measure = {
    .width_pt = width_pt, .has_glyph = has_glyph, .ascent = 0.8, .descent = 0.2};
