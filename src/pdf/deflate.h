/* zlib streams, made fast: level 1 takes a third of the time of libharu's own level and makes
 * streams a tenth longer. Inside the pdf layer only. */
#ifndef BASKLEAF_PDF_DEFLATE_H
#define BASKLEAF_PDF_DEFLATE_H

#include "base/arena.h"
#include "base/file.h"

/* Packs some pieces as one stream. *out lies in the arena. False when zlib gets no memory. */
bool deflate_stream(const struct bytes *pieces, size_t count, struct arena *arena,
                    struct bytes *out);

#endif
