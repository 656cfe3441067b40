/* The structure tree while it grows. */
#ifndef BASKLEAF_LAYOUT_ELEMENTS_H
#define BASKLEAF_LAYOUT_ELEMENTS_H

#include "document/draw_ops.h"
#include "base/arena.h"

/* Elements are named by their index, because the array moves while it grows. */
struct elements {
    struct arena *arena; /* borrowed; holds the array */
    struct element *items;
    size_t count, capacity;
};

/* Begins with the Document element, index 0. */
void elements_init(struct elements *elements, struct arena *arena);

/* Appends an element without marks and returns its index. */
int elements_add(struct elements *elements, enum element_type type, int parent);

/* U+2610: what a box to tick is read as, in any language, with a space before what follows. */
#define ELEMENTS_TICK_BOX "\u2610"

/* A Span that is read as a box to tick. */
int elements_add_tick_box(struct elements *elements, int parent);

/* Borrowed until the next elements_add. */
struct element *elements_find(struct elements *elements, int index);

/* Says that a mark of the element stands on a page: sets the page on which it and everything
 * around it begins, where that is not known yet. OPS_ARTIFACT is accepted and does nothing. */
void elements_mark(struct elements *elements, int index, int page);

#endif
