/* A sheet with every kind of block, shape and tone, for the tests and for looking at. */
#ifndef BASKLEAF_TESTS_PAGE_EVERY_BLOCK_H
#define BASKLEAF_TESTS_PAGE_EVERY_BLOCK_H

#include "base/arena.h"
#include "document/document.h"

/* Everything is the arena's. */
struct document *every_block_make(struct arena *arena, enum paper paper);

#endif
