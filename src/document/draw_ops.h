/* Drawing operations: what stands where, on which page, and what it means.
 *
 * The layout engine emits them; one player drives libharu (pdf.h), another
 * prints them as text, one a line (trace.h). Coordinates are points, x from the
 * left edge, y from the TOP edge of the page growing down; the pdf layer
 * turns them over.
 *
 * Every mark on a page belongs either to an element of the structure tree
 * (element >= 0) or is an artifact (element == OPS_ARTIFACT). Operations of one
 * element that follow one another share one marked-content sequence.
 */
#ifndef BASKLEAF_DOCUMENT_DRAW_OPS_H
#define BASKLEAF_DOCUMENT_DRAW_OPS_H

#include <stdbool.h>
#include <stddef.h>

#include "document/document.h"

enum { OPS_ARTIFACT = -1 };

/* Standard structure types of ISO 32000-1, 14.8.4. */
enum element_type {
    ELEMENT_DOCUMENT,
    ELEMENT_SECT,
    ELEMENT_H1,
    ELEMENT_H2,
    ELEMENT_H3,
    ELEMENT_P,
    ELEMENT_L,
    ELEMENT_LI,
    ELEMENT_LBL,
    ELEMENT_LBODY,
    ELEMENT_TABLE,
    ELEMENT_THEAD,
    ELEMENT_TBODY,
    ELEMENT_TR,
    ELEMENT_TH,
    ELEMENT_TD,
    ELEMENT_FIGURE,
    ELEMENT_CAPTION,
    ELEMENT_DIV,
    ELEMENT_SPAN,
    ELEMENT_LINK,
    ELEMENT_TYPE_COUNT
};

enum th_scope { SCOPE_NONE, SCOPE_COLUMN, SCOPE_ROW };
enum list_numbering { NUMBERING_NONE, NUMBERING_DISC, NUMBERING_DECIMAL, NUMBERING_UNORDERED };

struct element {
    enum element_type type;
    int parent;              /* index; -1 for the root alone. Children stand in index order. */
    const char *lang;        /* NULL: inherited */
    const char *alternative; /* figures and links */
    const char *actual;      /* what marks that are no letters stand for: "warmer"; else NULL */
    const char *title;       /* headings: text for the outline; else NULL */
    enum th_scope scope;
    enum list_numbering numbering;
    int page;                        /* 0-based page on which it begins; -1 while it has no marks */
    double left, top, right, bottom; /* figures: bounding box on that page */
};

enum op_kind {
    OP_TEXT, /* one line's stretch in one style at (x, y), y = baseline */
    OP_LINE, /* points[0..1] */
    OP_PATH, /* points; closed says whether it returns; fill and stroke */
    OP_RECT,
    OP_CIRCLE, /* x, y centre; radius in width */
    OP_IMAGE,  /* the photo in the rectangle, or without one the document's logo */
    OP_LINK    /* clickable rectangle for uri; belongs to a Link element */
};

struct op {
    enum op_kind kind;
    int element;
    double x, y, width, height; /* OP_TEXT: width is the measured advance */
    const struct point *points;
    size_t count;
    bool closed;
    const char
        *verbs;   /* OP_PATH with curves: M, L (a point), C (three), Z (none); NULL: a polygon */
    bool round;   /* ends and corners of the stroke */
    bool clipped; /* reserved for fills drawn as patterns: clip to (x,y,width,height) */
    const char *text;
    bool space_after; /* the line goes on below: a space that nobody sees keeps the words apart */
    const char *lang; /* of this text alone; NULL: its element's */
    enum text_style style;
    double size_pt;
    struct rgb ink;
    bool stroked;
    double stroke_pt;
    enum line_dash dash;
    bool filled;
    struct rgb fill;
    const char *uri;
    const struct photo *photo; /* OP_IMAGE */
    struct op *next;
};

struct page {
    struct op *first, *last;
    size_t count;
};

struct paged {
    double page_width_pt, page_height_pt;
    struct page *pages;
    size_t page_count;
    struct element *elements; /* [0] is the Document */
    size_t element_count;
    const struct document *document; /* borrowed: metadata, logo */
    unsigned overfull;               /* bit n: what begins on page n did not fit on it */
};

/* The standard name of a type: "Table", "TH" ... */
const char *draw_ops_element_name(enum element_type type);

#endif
