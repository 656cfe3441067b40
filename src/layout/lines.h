/* Breaks running text into lines.
 *
 * Break opportunities are those of Unicode Standard Annex 14, found by libunibreak over the
 * whole text, whatever its spans. There is no hyphenation. Spaces at a line's end take no
 * room and are not drawn. A word that is wider than the line is broken between characters,
 * never before a combining mark or beside a joiner. A line feed ends a line.
 */
#ifndef BASKLEAF_LAYOUT_LINES_H
#define BASKLEAF_LAYOUT_LINES_H

#include <stdbool.h>
#include <stddef.h>

#include "document/measure.h"
#include "base/arena.h"
#include "document/document.h"

enum { LINES_CHARACTER_LIMIT = 75 }; /* of a line of running text */

/* A text and the room it has. */
struct lines_job {
    const struct span *spans; /* borrowed; NULL gives no line */
    const char *lang;
    double size_pt;
    double width_pt;
    double indent_pt;       /* taken from the first line */
    size_t character_limit; /* 0: none */
    bool strong;            /* everything in TEXT_STRONG */
};

/* What of one span stands on one line. */
struct line_piece {
    size_t span; /* 0 for the first span */
    const char *text;
    enum text_style style;
    const char *uri, *lang; /* the span's own */
    double x, width_pt;     /* x from the line's beginning */
    struct line_piece *next;
};

struct text_line {
    struct line_piece *first; /* NULL for an empty line */
    double width_pt;
    bool
        ends_in_space; /* or in a line feed, which is not drawn; false for a word that was broken */
};

struct text_lines {
    struct text_line *items;
    size_t count;
    double size_pt; /* of their letters */
};

struct text_store; /* layout/measured_text.h */

/* Breaks valid UTF-8. Every line gets at least one character, even when the width is less. The
 * lines belong to the store and may be given out again; its measure says how wide a text is. */
struct text_lines lines_break(const struct lines_job *job, struct text_store *store);

/* The widest line. */
double lines_width_pt(const struct text_lines *lines);

#endif
