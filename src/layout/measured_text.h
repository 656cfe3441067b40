/* Texts measured between their break opportunities, each once however often and however wide it is
 * set. For the layout, and for
 * who lays out more than once.
 *
 * Break opportunities are those of Unicode Standard Annex 14, found by libunibreak over the whole
 * text, whatever its spans, but none stands in a band of numbers such as "30-32" (U+2013).
 */
#ifndef BASKLEAF_LAYOUT_MEASURED_TEXT_H
#define BASKLEAF_LAYOUT_MEASURED_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "layout/elements.h"
#include "layout/lines.h"

/* From one break opportunity to the next. */
struct segment {
    size_t end, content_end; /* bytes; the content is without spaces at the end */
    double content_pt, whole_pt;
    size_t content_characters, whole_characters;
    bool must; /* a line ends here */
};

/* What a span says, and where its bytes stand in the whole text. The span itself may be gone, and
 * the document with it. */
struct stretch {
    enum text_style style;
    const char *uri, *lang; /* copies; NULL as in the span */
    size_t begin, end;
    const int32_t *sums; /* of its advances from `begin`, see measure.h; NULL: each part anew */
};

/* The lines of a text in a room of its own. */
struct broken_text {
    double width_pt;
    struct broken_text *next; /* beside what is compared first: most of a list is passed by */
    double indent_pt;
    size_t limit;
    struct text_lines lines;
};

struct measured {
    const struct measure *measure; /* borrowed */
    double size_pt;
    bool strong;
    const char *lang, *text; /* all spans, one behind the other */
    size_t length;
    struct stretch *stretches;
    size_t stretch_count;
    bool has_line_ends, is_ascii;
    struct segment whole; /* all of it on one line */
    const struct segment *segments;
    size_t segment_count;       /* 0 until measured_segments was called */
    struct broken_text *broken; /* for each room that was asked for */
    uint32_t hash;
    struct measured *next;
};

/* Texts measured so far. All of them lie in the arena. */
struct text_store {
    const struct measure *measure;
    struct arena *arena;
    double letter_share[TEXT_STYLE_COUNT]; /* see struct composer */
    unsigned asked;                        /* likewise */
    struct elements trial_elements;        /* of what is only measured; its array is used again */
    struct kept_diagram *diagrams;         /* placed so far, of blocks that are still there */
    struct measured *slots[256];
};

/* Both are borrowed. */
void text_store_init(struct text_store *store, const struct measure *measure, struct arena *arena);

/* The job's text in its size and style, measured now or before. Never NULL. */
struct measured *text_store_find(struct text_store *store, const struct lines_job *job);

/* Sees to it that the segments are there; a text that fits one line needs none. */
void measured_segments(struct text_store *store, struct measured *text);

/* The width of the bytes from..to, each span's share in its own style. */
double measured_width_pt(const struct measured *text, size_t from, size_t to);
size_t measured_characters(const struct measured *text, size_t from, size_t to);

enum text_style measured_style(const struct measured *text, const struct stretch *stretch);

/* Where the bytes from..to end without spaces and line ends. */
size_t measured_trim(const struct measured *text, size_t from, size_t to);

#endif
