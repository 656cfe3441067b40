/* Which characters one byte can carry, and under which name.
 *
 * A sheet's text is drawn with single-byte fonts wherever possible, because they cost a
 * sixth of two-byte ones. There are three code pages: WinAnsi, and two of our own for the
 * rest of Latin Extended-A and for arrows, signs and fractions. What none of them holds is
 * drawn with the full font and two bytes a character.
 *
 * The build cuts one small font file for each page, so that a sheet carries those alone that
 * it needs.
 */
#ifndef BASKLEAF_PDF_CODEPAGES_H
#define BASKLEAF_PDF_CODEPAGES_H

#include <stdbool.h>

enum codepage { CODEPAGE_WIN_ANSI, CODEPAGE_LETTERS, CODEPAGE_SIGNS, CODEPAGE_COUNT };

/* Finds the page and the byte, 32 to 255, for a code point. False when no page has it; *page
 * and *code are then undefined. */
bool codepages_find(unsigned code_point, enum codepage *page, int *code);

/* The code point behind a byte, or 0 when the page has none there. */
unsigned codepages_unicode(enum codepage page, int code);

/* The glyph's name in the Adobe Glyph List behind a byte of a page of our own, or NULL;
 * always NULL for WinAnsi, which every PDF reader knows. */
const char *codepages_name(enum codepage page, int code);

#endif
