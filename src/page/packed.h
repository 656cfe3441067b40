/* zlib streams, made fast: level 1 takes a third of the time of libharu's own level and makes
 * streams a tenth longer. Inside the libharu player only. */
#ifndef BASKLEAF_PAGE_PACKED_H
#define BASKLEAF_PAGE_PACKED_H

#include "support/arena.h"
#include "support/file.h"

/* *out lies in the arena. False when zlib gets no memory. */
bool packed_make(const void *data, size_t length, struct arena *arena, struct bytes *out);

#endif
