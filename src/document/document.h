/* What a sheet says, in reading order, before anyone decides where it stands
 * on paper. The wording layer fills it from the plan; the page layer lays it out
 * and knows nothing else. Plain, complete, immutable once built; everything in
 * it belongs to the sheet's arena. All text is UTF-8 and already in the
 * sheet's language, with its numbers and units written out.
 */
#ifndef BASKLEAF_DOCUMENT_DOCUMENT_H
#define BASKLEAF_DOCUMENT_DOCUMENT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "document/panel.h"

/* ---- running text ---------------------------------------------------- */

enum text_style { TEXT_PLAIN, TEXT_STRONG, TEXT_STYLE_COUNT };

/* A stretch of text in one style. Spans of a paragraph follow one another
 * without any added space. */
struct span {
    const char *text;
    enum text_style style;
    const char *lang; /* BCP 47; NULL where it is the document's own */
    const char *uri;  /* link target, percent-encoded by the page layer; NULL for none */
    struct span *next;
};

/* ---- pictures -------------------------------------------------------- */

/* Roles, not colours: the look decides. Every role must stay tellable in one-bit
 * black and white by line, pattern or word, never by colour alone. */
enum ink {
    INK_TEXT,   /* near black */
    INK_MUTED,  /* grey, still 7:1 on paper */
    INK_ACCENT, /* headings, rules */
    INK_WARM,   /* warm end, basking */
    INK_COOL,   /* cool end, water */
    INK_ALERT,  /* go now */
    INK_LEAF,   /* fits the target */
    INK_PAPER,  /* the paper itself, to cover what lies below */
    INK_TINT,   /* a pale ground under text, at most 15 % grey */
    INK_COUNT
};

enum fill_pattern { FILL_NONE, FILL_SOLID, FILL_STRIPES, FILL_DOTS, FILL_CROSS };
enum line_dash { DASH_SOLID, DASH_DASHED, DASH_DOTTED };
enum anchor { ANCHOR_LEFT, ANCHOR_MIDDLE, ANCHOR_RIGHT };

enum shape_kind {
    SHAPE_RECT,      /* x, y = upper left; width, height */
    SHAPE_LINE,      /* points[0..1] */
    SHAPE_POLYLINE,  /* points[0..count-1] */
    SHAPE_POLYGON,   /* closed, may be filled */
    SHAPE_CIRCLE,    /* x, y = centre; radius in width */
    SHAPE_DIMENSION, /* points[0..1] with end bars and arrow heads; label in text beside its middle
                      */
    SHAPE_LABEL,  /* text at x, y (y = baseline of the first line); wraps at width when width > 0 */
    SHAPE_MODULES /* a square matrix of count x count bits (QR): bits row by row, side = width */
};

struct point {
    double x, y;
};

/* Scene units are points at natural size; x grows right, y grows down from the
 * upper left corner of the picture. */
struct shape {
    enum shape_kind kind;
    double x, y, width, height;
    const struct point *points;
    size_t count;
    const uint8_t *bits; /* SHAPE_MODULES: count*count values 0 or 1 */
    enum ink stroke_ink;
    double stroke_pt; /* 0: no outline; else at least 0.5 */
    enum line_dash dash;
    enum ink fill_ink;
    enum fill_pattern fill;
    const char *text;
    double text_pt; /* at least 9 */
    enum text_style text_style;
    enum ink text_ink;
    enum anchor anchor;
    struct shape *next;
};

struct scene {
    double width_pt, height_pt; /* natural size; scaled down, never up, to fit its column */
    struct shape *first;
};

/* A picture of pixels, as a JPEG of three colours; made and limited elsewhere. */
struct photo {
    const uint8_t *jpeg;
    size_t length;
    int width_px, height_px;
};

/* ---- blocks ---------------------------------------------------------- */

enum block_kind {
    BLOCK_HEADING,
    BLOCK_PARAGRAPH,
    BLOCK_LIST,
    BLOCK_TABLE,
    BLOCK_CALLOUT,
    BLOCK_PICTURE,
    BLOCK_COLUMNS,
    BLOCK_PANEL,
    BLOCK_PAGE,
    BLOCK_PAGE_BREAK
};

/* One way to fill a page; they are tried in turn until everything fits. No step makes type smaller.
 */
struct fit_step {
    double gap_pt; /* between blocks */
    double row_pt; /* a calendar's rows */
    int give_way;  /* blocks of this rank and below are left out */
};

enum list_marks { LIST_BULLETS, LIST_NUMBERS, LIST_TICK_BOXES };

/* How a callout is told from its neighbours: by frame, by shape and by its
 * title's word; the ink only helps. */
enum callout_tone {
    CALLOUT_PLAIN,  /* thin frame */
    CALLOUT_KEY,    /* the one main message: heavy frame */
    CALLOUT_GRAVE,  /* the same where it is grave: in the ink of what is urgent */
    CALLOUT_NOW,    /* triangle with an exclamation mark */
    CALLOUT_TODAY,  /* filled square mark */
    CALLOUT_SOON,   /* open circle mark */
    CALLOUT_DRAFT,  /* dashed heavy frame */
    CALLOUT_CUT_OUT /* dashed thin frame to cut along */
};

enum paragraph_size {
    PARAGRAPH_BODY,
    PARAGRAPH_LEAD,
    PARAGRAPH_SMALL,
    PARAGRAPH_FIGURE, /* a number to reach: it is seen first */
    PARAGRAPH_BUTTON  /* a link alone on its line: to be pressed on a screen */
};

struct list_item {
    struct span *text;
    struct block *more; /* further blocks inside the item, or NULL */
    struct list_item *next;
};

struct table_cell {
    struct span *text;
    bool is_row_head; /* TH with scope row */
    enum anchor align;
    /* an empty box to tick, drawn; text may follow it. When every line of the text is ended by
     * hand, each has a box. */
    bool tick_box;
    struct table_cell *next;
};

struct table_row {
    struct table_cell *cells; /* NULL: a line to write on */
    struct table_row *next;
};

struct column {
    struct block *blocks;
    double share; /* of the width; shares of one row sum to 1 */
    struct column *next;
};

/* What a block took of a page in a trial, and what that follows from. */
struct block_height {
    bool is_set, is_empty;
    unsigned asked, answers;    /* of the look and the step: bits of the layout's own */
    const struct fit_step *fit; /* of that trial */
    double width_pt, page_pt;   /* what there was of it, and of the page's height */
    double height_pt, gap_pt;   /* the gap above it, where another block stands there */
};
enum { HEIGHTS_KEPT = 6 }; /* white edges or none, two steps or three */

/* What trials remember of a block; one that stands on several pages or in several trials shares it.
 * Begins as zeros. */
struct block_memory {
    struct block_height heights[HEIGHTS_KEPT];
    size_t oldest;    /* of them */
    bool knows_terms; /* of the glossary, that stand in it */
    uint64_t terms;   /* a bit each */
};

struct block {
    enum block_kind kind;
    const char *section;     /* the template section's code, for traces and tests; may be NULL */
    bool keep_together;      /* do not break across pages when it fits on one */
    bool keep_if_room;       /* likewise, unless the look is tight */
    bool keep_with_next;     /* headings have this implied */
    int give_way;            /* on a page: 0, or the rank of the fit_step that leaves it out */
    bool parts_page;         /* on a page that does not fit: a further page begins with it */
    const struct look *look; /* on a page, of its own: there is room for it; NULL: the document's */
    struct block_memory *memory; /* may be NULL */
    union {
        struct {
            int level; /* 1 the sheet's title, 2 sections, 3 below */
            struct span *text;
        } heading;
        struct {
            struct span *text;
            enum paragraph_size size;
        } paragraph;
        struct {
            enum list_marks marks;
            struct list_item *items;
        } list;
        struct {
            /* column widths as shares of 1; 0: as wide as what stands in it, within reason, and the
             * others part what is left by their shares */
            const double *shares;
            size_t columns;
            struct table_row *head; /* repeated after a page break; may be NULL */
            struct table_row *rows;
            struct span *caption; /* may be NULL */
        } table;
        struct {
            enum callout_tone tone;
            struct span *title; /* may be NULL */
            struct block *blocks;
        } callout;
        struct {
            const struct scene *scene;
            const struct photo *photo; /* in place of a scene; NULL for none */
            struct span *caption;      /* may be NULL */
            const char *alternative;   /* what the picture says, in words; never NULL */
        } picture;
        struct {
            struct column *columns;
            size_t poured; /* 0, or how many columns the blocks of the only one run down in turn */
        } columns;
        const struct panel *panel;
        struct {
            struct block *blocks;  /* from the top */
            struct block *foot;    /* from the bottom; may be NULL */
            struct block *running; /* above what flows on to a further page; may be NULL */
            const struct fit_step *steps;
            size_t step_count;
        } page;
    } as;
    struct block *next;
};

/* ---- the whole ------------------------------------------------------- */

/* PAPER_PHONE: pages of the size of a small screen */
enum paper { PAPER_A4, PAPER_LETTER, PAPER_PHONE };

struct rgb {
    uint8_t r, g, b;
};

/* Nothing is printed nearer to an edge: what printers of offices and homes leave white (common
 * practice, no source). */
enum { LOOK_LEAST_MARGIN_PT = 18 };

/* A clinic's look; read from templates, checked against the standard there. */
struct look {
    enum paper paper;
    double margin_pt; /* at least 36 */
    double inset_pt;  /* so much more of it left and right of the text */
    double body_pt;   /* at least 12 */
    double table_pt;  /* at least 10 */
    double small_pt;  /* at least 9 */
    double heading_pt[3];
    double leading;  /* line distance / text size, at least 1.25 */
    bool tight;      /* what is kept together only if there is room may break */
    bool to_edges;   /* pages that are filled use all the paper that a printer reaches */
    bool leads_in;   /* headings stand on the line of what they head */
    bool boxes_flow; /* what has a box before it begins where the one before ends */
    bool ticks_flow; /* so does what has a box to tick */
    bool close;      /* less room between blocks, rows and items; the lines stay as far apart */
    struct rgb inks[INK_COUNT];
    bool live_links; /* links are clickable and drawn as links */
};

/* Raw 8-bit RGB pixels, row by row from the top; decoded and limited elsewhere. */
struct logo {
    const uint8_t *pixels;
    int width_px, height_px;
    const char *alternative;
};

/* Something said in another language than the sheet's, wherever it stands in a text. */
struct foreign_text {
    const char *text, *lang;
};

/* Where a short form is one: "14 Mar" is a month, "Mar 14" need not be. A number stands before the
 * no-break space, or behind a space of any kind. */
enum short_place { SHORT_ANYWHERE, SHORT_BEHIND_NUMBER, SHORT_BEFORE_NUMBER };

/* A short form and what it is read as. */
struct short_form {
    const char *text, *means;
    const char *means_one; /* behind the number 1; NULL: as else */
    enum short_place place;
};

struct document {
    const char *lang; /* BCP 47 of the sheet */
    const struct foreign_text *foreign;
    size_t foreign_count;
    const struct short_form *short_forms;
    size_t short_form_count;
    const char *title;
    const char *subject;
    const char *summary; /* who it is and what comes first, on one line */
    const char *author;  /* the clinic */
    const char *keywords;
    const char *created;                /* YYYY-MM-DD: the visit's day, never the clock */
    const char *head_left, *head_right; /* on every page: animal and keeper; date */
    bool reads_head;         /* head and foot are content once, and artifacts on the other pages */
    const char *foot_left;   /* clinic and telephone */
    const char *page_of;     /* "page {n} of {m}" in the sheet's language */
    const char *draft_mark;  /* NULL when signed; else said on every page */
    const struct logo *logo; /* NULL for none */
    struct look look;
    struct block *blocks;
    const char *record_id; /* 32 hexadecimal digits that stay the same when the file is made anew,
                              or NULL */
    bool is_locked;        /* it is going to have a password, so it claims no PDF/A */
};

#endif
