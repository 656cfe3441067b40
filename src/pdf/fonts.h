/* The inside of struct fonts, for the pdf layer alone. */
#ifndef BASKLEAF_PDF_FONTS_H
#define BASKLEAF_PDF_FONTS_H

#include "pdf/codepages.h"
#include "pdf/haru_inside.h"
#include "pdf/letters.h"
#include "pdf/pdf.h"
#include "pdf/truetype.h"

enum {
    FONTS_TAG_LENGTH = 6,     /* letters before the "+" of a subset's name */
    FONTS_TABLE_COUNT = 0x250 /* code points whose advances stand in a table */
};

/* One font file for one code page: ready to be copied into a PDF as it is. */
struct font_cut {
    struct bytes deflated; /* the font program as a zlib stream */
    struct bytes program;
    HPDF_FontDef definition; /* owned; every glyph marked as used; NULL until it is asked for */
};

struct face {
    struct font_cut cuts[CODEPAGE_COUNT];
    struct bytes full;                   /* the whole font, not packed */
    struct truetype metrics;             /* of the whole font */
    int32_t advances[FONTS_TABLE_COUNT]; /* thousandths; -1 where there is no glyph */
};

struct fonts {
    struct measure measure; /* first, so that a measure is its fonts */
    struct arena arena;
    HPDF_MMgr memory; /* owns the definitions */
    struct face faces[TEXT_STYLE_COUNT];
    struct bytes profile; /* the sRGB profile as a zlib stream */
    /* what draws further letters: NULL until needed, and where the module is not there */
    const struct letters_calls *calls;
    struct letters *letters;
    bool letters_tried;
    struct fonts *self;
};

/* libharu's form of a cut, never changed after its first use, when it is loaded: most sheets use
 * two or three. NULL when libharu cannot, with memory->error set. */
HPDF_FontDef fonts_definition(const struct fonts *fonts, enum text_style style, enum codepage page);

/* The advance in thousandths of the size, or -1 when the face has no glyph. */
int fonts_advance(const struct fonts *fonts, enum text_style style, unsigned code_point);

/* Must the text be laid out by the module for further letters? */
bool fonts_needs_letters(const struct fonts *fonts, enum text_style style, struct bytes text);

/* Loads that module the first time; false where there is none. */
bool fonts_load_letters(const struct fonts *fonts);

/* Six capital letters that depend on nothing but the hash; not ended by NUL. */
void fonts_tag(uint64_t hash, char tag[FONTS_TAG_LENGTH]);

/* Loads a TrueType font for libharu. NULL on failure, with memory->error set. */
HPDF_FontDef fonts_load_definition(HPDF_MMgr memory, const void *data, size_t length);

/* Puts "TAGTAG+Name" where libharu takes a font's name from. */
void fonts_name_definition(HPDF_FontDef definition, uint64_t hash);

#endif
