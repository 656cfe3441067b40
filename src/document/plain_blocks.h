/* Panels and filled pages as ordinary blocks, for where nothing hangs on a wall: a small screen,
 * large print, a message. */
#ifndef BASKLEAF_DOCUMENT_PLAIN_BLOCKS_H
#define BASKLEAF_DOCUMENT_PLAIN_BLOCKS_H

#include "document/block_builder.h"

/* The same texts in the same order, in one column: a panel becomes a heading and what stands below
 * it. Left out is what only paper can do: lines for notes, lengths to lay something on, the strip
 * of a draft (document.draft_mark says it) and the small head of a further page. A
 * diagram becomes a list of what its labels say, below the drawing alone where it is bare. The
 * blocks given are not changed. */
struct block_builder plain_blocks(const struct block *blocks, struct arena *arena);

#endif
