/* Fragments: what the flow is made of between blocks and pages.
 *
 * Every block becomes some fragments, one below the other in a stack: a line of text, a row of a
 * table, a picture. A fragment is never broken. Its operations have x from the page's left edge
 * already, but y from the fragment's own top; the paginator gives them their place.
 */
#ifndef BASKLEAF_LAYOUT_FRAGMENTS_H
#define BASKLEAF_LAYOUT_FRAGMENTS_H

#include <stdbool.h>

#include "document/draw_ops.h"
#include "base/arena.h"

/* How ill a page break before a fragment is taken. The paginator breaks at the last free place
 * of a full page, else at the last of the least ill. */
enum fragment_break {
    BREAK_FREE,
    BREAK_LONELY, /* behind the first or before the last of a list's items or a table's rows */
    BREAK_KEPT,   /* inside a block that is kept together */
    BREAK_GLUED   /* behind a heading; behind the first or before the last line of a paragraph */
};

struct fragment;

struct stack {
    struct fragment *first, *last;
    /* What the next fragment takes over: */
    double gap_pt;
    bool lonely, glued, new_page;
};

/* A callout's frame. It is drawn on every page that holds some of its fragments. */
struct frame {
    enum callout_tone tone;
    double left_pt, width_pt;
    double pad_pt; /* what its first and last fragment hold above and below their content */
    const struct fragment *first, *last;
    const struct frame *outer; /* NULL for none */
};

struct fragment {
    double height_pt;
    double gap_pt;   /* above; dropped at the top of a page */
    double inset_pt; /* how far below the fragment's top its operations begin */
    enum fragment_break before;
    bool new_page;
    struct op *first_op, *last_op;
    int figure; /* an element whose box is this fragment's figure_* rectangle, or OPS_ARTIFACT */
    double figure_left, figure_top, figure_right, figure_bottom;
    const struct frame *frame; /* innermost, or NULL */
    const struct stack *head;  /* drawn again when this fragment begins a page, or NULL */
    const struct stack *sides; /* stacks side by side in this one fragment, or NULL */
    size_t side_count;
    /* 0, or how far right of the one before each side is drawn: all are parts of one stack that
     * was set for the first */
    double side_step_pt;
    struct fragment *next;
};

/* Appends a fragment that takes over what the stack holds ready for it. */
struct fragment *stack_add(struct stack *stack, struct arena *arena, double height_pt,
                           const struct frame *frame);

/* The height of the fragments first..end (end not included; NULL for all), without the first gap.
 */
double stack_height_pt(const struct fragment *first, const struct fragment *end);

/* The fragment behind `mark`, or the first one when mark is NULL. */
struct fragment *stack_after(const struct stack *stack, const struct fragment *mark);

/* Where operations of one element are added. */
struct pen {
    struct fragment *fragment;
    struct arena *arena;
    int element;
};

/* Appends a zeroed operation. */
struct op *fragment_add_op(struct fragment *fragment, struct arena *arena, enum op_kind kind,
                           int element);

/* Puts the operations of `front` before those of `fragment`; `front` is then empty. */
void fragment_put_before(struct fragment *fragment, struct fragment *front);

/* A straight line; the caller sets its ink and width. */
struct op *fragment_add_line(struct fragment *fragment, struct arena *arena, int element,
                             struct point from, struct point to);

#endif
