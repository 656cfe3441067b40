/* Turning blocks into fragments: what the parts of the layout share, and one function a kind of
 * block. Inside the layout only.
 */
#ifndef BASKLEAF_LAYOUT_BLOCK_SETTERS_H
#define BASKLEAF_LAYOUT_BLOCK_SETTERS_H

#include "layout/elements.h"
#include "layout/lines.h"
#include "document/measure.h"
#include "layout/fragments.h"
#include "base/diag.h"

/* What of a page gives way or takes what is left over, while it is tried. */
struct elastic {
    const struct fit_step *fit;
    double line_pt;           /* more height for each line of running text */
    double diagram_pt;        /* more height for a diagram */
    double row_pt;            /* more height for each row of steps */
    double notes_pt;          /* height for notes */
    size_t row_count;         /* rows of steps that were set */
    bool has_diagram;         /* one was set */
    double diagram_beside_pt; /* by so much a column beside its own is higher */
};

/* What the height of a block may follow from beside its words and its room. Whoever reads one of
 * them asks for it (block_asks ...), so that a height that was measured once stands wherever the
 * answers are the same. */
enum block_question {
    BLOCK_ASKS_TIGHT = 1, /* four of the look */
    BLOCK_ASKS_LEADS_IN = 2,
    BLOCK_ASKS_BOXES_FLOW = 4,
    BLOCK_ASKS_TICKS_FLOW = 8,
    BLOCK_ASKS_CLOSE = 16, /* panel_is_close */
    BLOCK_ASKS_FIT = 32    /* anything of the step */
};

/* One document on its way to pages. */
struct composer {
    const struct document *document; /* borrowed, like the next three */
    const struct look *look;
    const struct measure *measure;
    struct text_store *texts; /* borrowed */
    unsigned *asked;          /* borrowed; bits of block_question are added */
    struct arena *arena;
    struct diag *diag;
    struct elements elements;
    double page_width_pt, page_height_pt;
    double left_pt, width_pt; /* between the margins */
    double top_pt, height_pt; /* between running head and foot */
    bool logo_pending;        /* the clinic's logo is not on a page yet */
    bool only_measures;       /* what is set now is looked at for its height, then forgotten */
    struct elastic elastic;
    unsigned page_count, overfull; /* filled pages so far; a bit of each that would not fit */
    double letter_share[TEXT_STYLE_COUNT]; /* average width of a letter as a share of the size */
};

static inline unsigned look_answers(const struct look *look)
{
    return (look->tight ? BLOCK_ASKS_TIGHT : 0u) | (look->leads_in ? BLOCK_ASKS_LEADS_IN : 0u) |
           (look->boxes_flow ? BLOCK_ASKS_BOXES_FLOW : 0u) |
           (look->ticks_flow ? BLOCK_ASKS_TICKS_FLOW : 0u);
}

/* One of the look. */
static inline bool block_asks(const struct composer *composer, enum block_question question)
{
    *composer->asked |= (unsigned)question;
    return look_answers(composer->look) & (unsigned)question;
}

/* The step under way; NULL where no page is filled. */
static inline const struct fit_step *block_asks_fit(const struct composer *composer)
{
    *composer->asked |= BLOCK_ASKS_FIT;
    return composer->elastic.fit;
}

/* Room between blocks, rows and items as a share of what it is otherwise. */
static inline double gaps_share(const struct composer *composer)
{
    return composer->look->close ? 0.33 : 1;
}

/* Where blocks go: a stack, a stretch of the page's width, a parent in the structure. */
struct place {
    struct stack *stack;
    double left_pt, width_pt;
    int base;    /* the element that new sections hang under */
    int element; /* the element that blocks hang under: base or its last section */
    const struct frame *frame;
    double reserve_pt; /* height that frames around this place take from a page */
};

/* How a text is set. */
struct type_setting {
    double size_pt;
    double leading; /* line distance / size */
    enum ink ink;
    bool strong;
    enum anchor align;
};

/* ---- text (typeset.c) ---- */

struct type_setting typeset_plain(const struct composer *composer, double size_pt);

/* From a line's top to its baseline. */
double typeset_baseline_pt(const struct composer *composer, const struct type_setting *type);
double typeset_line_pt(const struct type_setting *type);

/* Lines no wider than `width_pt`, nor than what is comfortable to read at this size. */
struct text_lines typeset_break(const struct composer *composer, const struct type_setting *type,
                                const struct span *spans, double width_pt);

/* The elements of the spans under `parent`: parent itself, or a new Span or Link. NULL for none. */
const int *typeset_elements(struct composer *composer, int parent, const struct span *spans);

/* Room for a line: it is aligned between left and left + width, its baseline at y. */
struct line_place {
    double left_pt, width_pt, y;
};

/* Draws one line into a fragment. */
void typeset_draw(const struct composer *composer, const struct type_setting *type,
                  const struct text_line *line, const int *elements, struct fragment *fragment,
                  struct line_place at);

/* A fragment a line, with at least two lines of a paragraph kept together. Returns the number of
 * fragments added. */
size_t typeset_text(struct composer *composer, struct place *place, const struct type_setting *type,
                    const struct span *spans, int element);

/* ---- blocks; each appends to place->stack ---- */

/* Blocks one below the other with the gaps between them. */
void blocks_set(struct composer *composer, struct place *place, const struct block *blocks);

void list_set(struct composer *composer, struct place *place, const struct block *block);
void table_set(struct composer *composer, struct place *place, const struct block *block);
void callout_set(struct composer *composer, struct place *place, const struct block *block);
void columns_set(struct composer *composer, struct place *place, const struct block *block);
void picture_set(struct composer *composer, struct place *place, const struct block *block);
void panel_set(struct composer *composer, struct place *place, const struct block *block);
void page_set(struct composer *composer, struct place *place, const struct block *block);

/* Two stacks beside each other as one fragment. False, with nothing done, when that fragment would
 * not fit on a page. */
bool sides_join(struct composer *composer, struct place *place, const struct stack *sides,
                size_t count);

/* ---- the clinic's logo (logo.c) ---- */

/* The room it takes beside a title, 0 when it is not pending. */
double logo_width_pt(const struct composer *composer);

/* Draws it flush right in a fragment of its own; it is then no longer pending. */
void logo_set(struct composer *composer, struct place *place);

/* Draws it into a fragment that has no other figure, its upper left corner at x, y, no higher than
 * this; returns its width. */
double logo_draw(struct composer *composer, struct fragment *fragment, int parent, double x,
                 double y, double height_pt);

/* ---- helpers that cross files ---- */

/* What of a frame stands on one page: between two heights, open where it goes on. */
struct frame_part {
    double top, bottom;
    bool closed_above, closed_below;
};

void callout_draw_frame(const struct composer *composer, const struct frame *frame,
                        struct fragment *fragment, struct frame_part part);

/* An empty box to tick, its left edge at x, standing on the baseline y. Returns its side. */
double list_draw_tick_box(const struct composer *composer, const struct type_setting *type,
                          struct fragment *fragment, int element, double x, double y);

#endif
