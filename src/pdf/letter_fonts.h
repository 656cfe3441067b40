/* The fonts of one document for letters that the body's font lacks: two-byte fonts whose codes are
 * numbered as they are drawn, one for each glyph and what it stands for. So that every code leads
 * to one text, whatever shape it has. Inside the pdf layer only. */
#ifndef BASKLEAF_PDF_LETTER_FONTS_H
#define BASKLEAF_PDF_LETTER_FONTS_H

#include "pdf/fonts.h"
#include "pdf/haru.h"
#include "pdf/letters.h"

struct letter_code {
    unsigned glyph;
    const char *text;
};

struct letter_font {
    HPDF_Dict font; /* NULL until something is drawn with it */
    struct letter_code *codes;
    size_t count, room;
};

struct letter_fonts {
    struct haru *haru;
    const struct fonts *fonts;
    struct letter_font *list; /* a face of the module each; NULL until needed */
};

/* Shows a run of glyphs where the text stands. */
void letter_fonts_show(struct letter_fonts *fonts, HPDF_Page page, const struct letter_run *run,
                       double size_pt);

/* After everything is drawn: embeds what was used, with widths and the way back to Unicode. */
void letter_fonts_finish(struct letter_fonts *fonts);

#endif
