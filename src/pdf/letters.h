/* Letters that the body's font lacks, and those that run from right to left or join: which font of
 * this machine has them, in which order and shape they are drawn.
 *
 * HarfBuzz and FriBidi do the work. Half of a cold start would go to loading them, and few sheets
 * need them, so they stand in a module of their own, `baskleaf-letters.so`, beside the program or
 * in its libexec folder, which is loaded with the first such letter. Without the module, or where
 * no font has a letter, the letter is told as lacking. Inside the pdf layer only.
 *
 * The module's faces are TrueType fonts of Debian's packages in fixed places
 * (letters/letters_faces.c). */
#ifndef BASKLEAF_PDF_LETTERS_H
#define BASKLEAF_PDF_LETTERS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/file.h"
#include "document/document.h"

struct letters; /* the module's own */

enum { LETTERS_BODY = -1, LETTERS_FACES_MOST = 128 };

/* Lengths are thousandths of the size. */
struct letter_glyph {
    unsigned glyph;
    int advance, x_offset, y_offset;
    const char *text; /* what it stands for; "" where the glyph before it stands for all */
};

/* A stretch that one font draws. */
struct letter_run {
    int face;          /* LETTERS_BODY, or a face of the module */
    int left, width;   /* where it begins on paper, from the line's beginning */
    bool is_backward;  /* its glyphs, which stand as they are read, begin at its right end */
    const char *text;  /* the body's: as it is drawn from left to right */
    const char *reads; /* where its letters in their order are not what it reads; else NULL */
    const struct letter_glyph *glyphs;
    size_t count;
};

/* Its runs stand as they are read. */
struct letter_line {
    struct letter_run *runs;
    size_t count;
    int width;
    bool is_reordered; /* a run does not begin where the one before it ends */
};

struct letter_face {
    const char *name; /* its PostScript name */
    int ascent, descent, cap_height, box[4];
    bool is_strong;
};

/* Which glyphs to keep; places[i] becomes the new number of glyphs[i]. */
struct letter_cut {
    const unsigned *glyphs;
    unsigned *places;
    size_t count;
};

/* The advance of the body's font; -1 where it lacks the letter. */
typedef int letters_body(const void *body, enum text_style style, unsigned code_point);

struct letters_calls {
    struct letters *(*open)(letters_body *advance, const void *body);
    void (*close)(struct letters *letters);
    /* Can it be drawn, by the body's font or another? */
    bool (*has)(struct letters *letters, enum text_style style, unsigned code_point);
    /* Valid UTF-8 in runs, with their places on paper. False where something has no font. */
    bool (*lay)(struct letters *letters, enum text_style style, struct bytes text,
                struct arena *arena, struct letter_line *out);
    void (*face)(struct letters *letters, int face, struct letter_face *out);
    /* The face's name, and a number that is another one when its file is another. */
    const char *(*seal)(struct letters *letters, int face);
    /* The advance that a PDF's table of widths shall say. */
    int (*width)(struct letters *letters, int face, unsigned glyph);
    /* The face cut down to some glyphs. False on failure. */
    bool (*cut)(struct letters *letters, int face, const struct letter_cut *cut,
                struct arena *arena, struct bytes *out);
};

/* The module's only symbol. */
#define LETTERS_SYMBOL "baskleaf_letters"
extern const struct letters_calls baskleaf_letters;

/* Must a text with this letter be laid out by the module: a mark that joins what stands before it,
 * a letter from right to left, or a sign that steers the direction? */
bool letters_are_needed(unsigned code_point);

/* The module, loaded now; NULL where there is none. */
const struct letters_calls *letters_load(void);

#endif
