/* The font objects of one document: which font draws which character, and what each font
 * has drawn in the end. Inside the pdf layer only. */
#ifndef BASKLEAF_PDF_TYPEFACES_H
#define BASKLEAF_PDF_TYPEFACES_H

#include "pdf/fonts.h"
#include "pdf/haru.h"
#include "pdf/letter_fonts.h"

enum { TYPEFACES_RUN_LIMIT = 255 }; /* bytes of one run */

/* A small font of one code page in this document. */
struct typeface {
    HPDF_FontDef definition; /* a copy of the fonts' own that this document may change */
    HPDF_Font font;          /* NULL until something is drawn with it */
};

/* The whole font of a style, for characters that no code page has. */
struct wide_typeface {
    HPDF_FontDef definition; /* the document's; NULL until needed */
    HPDF_Font font;
    uint8_t *used; /* one bit for each code point of the basic plane */
};

struct typefaces {
    struct haru *haru;         /* borrowed */
    const struct fonts *fonts; /* borrowed */
    struct typeface small[TEXT_STYLE_COUNT][CODEPAGE_COUNT];
    struct wide_typeface wide[TEXT_STYLE_COUNT];
    HPDF_Encoder encoders[CODEPAGE_COUNT];
    struct letter_fonts letters;
};

/* Some characters of a text that one font draws. */
struct run {
    HPDF_Font font;
    char codes[TYPEFACES_RUN_LIMIT + 1]; /* as libharu wants them; ends in NUL */
};

void typefaces_init(struct typefaces *faces, struct haru *haru, const struct fonts *fonts);

/* Takes the longest run from the text at *at and moves *at behind it; *at must be below
 * `length`. False when libharu failed, when the text is no UTF-8 or when no font has the
 * character (both reported as DIAG_FAULT). */
bool typefaces_next_run(struct typefaces *faces, enum text_style style, const char *text,
                        size_t length, size_t *at, struct run *run);

/* After everything is drawn: embeds what was used, with descriptors and ToUnicode. */
void typefaces_finish(struct typefaces *faces);

#endif
