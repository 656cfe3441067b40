/* A list of boxes to tick that goes on over a page. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_PAGE_SPLIT_H
#define BASKLEAF_LAYOUT_PAGE_SPLIT_H

#include "layout/block_setters.h"

/* At how many entries the block may part, the first of which begins it; 0 where it may not. */
size_t page_split_count(const struct block *block);

/* The blocks up to `at` as they are, then its first `head` entries and the others as two blocks
 * with the same heading, then what stands behind. Returns the first of them, and in *second the
 * block of the others. */
const struct block *page_split(struct arena *arena, const struct block *from,
                               const struct block *at, size_t head, const struct block **second);

/* The blocks up to `end` alone. */
struct block *page_split_copy(struct arena *arena, const struct block *from,
                              const struct block *end, struct block **last);

#endif
