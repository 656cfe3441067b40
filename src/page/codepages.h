/* Which characters one byte can carry, and under which name.
 *
 * A sheet's text is drawn with single-byte fonts wherever possible, because they cost a
 * sixth of two-byte ones. There are two code pages: WinAnsi, and a page of our own for the
 * rest of Latin Extended-A, arrows, signs and fractions. What neither holds is drawn with the
 * full font and two bytes a character.
 *
 * The build cuts one small font file for each page, so that a sheet carries the second only
 * when it needs it.
 */
#ifndef BASKLEAF_PAGE_CODEPAGES_H
#define BASKLEAF_PAGE_CODEPAGES_H

#include <stdint.h>

enum codepage { CODEPAGE_WIN_ANSI, CODEPAGE_MORE, CODEPAGE_COUNT };

struct glyph_name {
    uint16_t code_point;
    const char *name; /* Adobe Glyph List */
};

enum {
    CODEPAGES_MORE_FIRST = 33, /* the code of row 0 of codepages_more; row i has 33 + i */
    CODEPAGES_MORE_COUNT = 173,
    CODEPAGES_MORE_LAST = CODEPAGES_MORE_FIRST + CODEPAGES_MORE_COUNT - 1
};

extern const struct glyph_name codepages_more[CODEPAGES_MORE_COUNT];

/* The byte for a code point, 0x20 to 0xFF, or -1 when the page has none. */
int codepages_win_ansi(unsigned code_point);

/* The same for our own page: 33 to 255, or -1. */
int codepages_more_code(unsigned code_point);

/* The code point behind a byte, or 0 when the page has none there. */
unsigned codepages_unicode(enum codepage page, int code);

#endif
