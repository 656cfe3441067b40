/* Fragments onto pages. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_PAGINATE_H
#define BASKLEAF_LAYOUT_PAGINATE_H

#include "layout/block_setters.h"

/* Fills out->pages with the fragments of a stack; an empty stack gives one empty page. Notes in
 * the elements where they begin. False after a DIAG_ERROR when there are more pages than
 * LAYOUT_PAGE_LIMIT. */
bool paginate_stack(struct composer *composer, const struct stack *stack, struct paged *out);

/* Copies a fragment's operations to the end of a page, moved right by dx and down by dy;
 * coordinates are rounded to a hundredth of a point. As artifacts when `artifact` says so. */
void paginate_copy(struct composer *composer, const struct fragment *fragment, struct paged *out,
                   size_t page, double dx, double dy, bool artifact);

#endif
