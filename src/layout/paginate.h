/* Fragments onto pages. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_PAGINATE_H
#define BASKLEAF_LAYOUT_PAGINATE_H

#include "layout/block_setters.h"

/* Fills out->pages with the fragments of a stack; an empty stack gives one empty page. Notes in
 * the elements where they begin. False after a DIAG_ERROR when there are more pages than
 * LAYOUT_PAGE_LIMIT. */
bool paginate_stack(struct composer *composer, const struct stack *stack, struct paged *out);

/* A place on a page: `dx` to the right of where the operations were set, `dy` below. */
struct page_place {
    struct paged *out;
    size_t page;
    double dx, dy;
};

/* Copies a fragment's operations to the end of a page; coordinates are rounded to a hundredth of a
 * point. As artifacts when `artifact` says so. */
void paginate_copy(struct composer *composer, const struct fragment *fragment, struct page_place to,
                   bool artifact);

#endif
