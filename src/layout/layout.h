/* Lays a document out on pages. */
#ifndef BASKLEAF_LAYOUT_LAYOUT_H
#define BASKLEAF_LAYOUT_LAYOUT_H

#include "document/draw_ops.h"
#include "base/diag.h"

enum { LAYOUT_PAGE_LIMIT = 200 };

/* Fills *out with pages whose every operation lies inside the margins. Text is
 * never clipped and never dropped: what does not fit flows on; an over-long
 * word is broken between characters. Returns false after a DIAG_ERROR when
 * the document needs more than LAYOUT_PAGE_LIMIT pages or holds a code point
 * that the fonts lack (named in the message). The measure, and
 * the arena of all storage, are those of `texts`. */
struct text_store; /* measured_text.h: serves several layouts of much the same text */
bool layout_document(const struct document *document, struct text_store *texts, struct diag *diag,
                     struct paged *out);

/* Whether the document is filled pages (BLOCK_PAGE) alone and each takes all that stands on it:
 * its pages in layout_document are then as many as its blocks. Draws nothing, so many can be tried;
 * what it takes of the arena may be forgotten with the document, and `texts` still holds. */
bool layout_pages_fit(const struct document *document, struct text_store *texts,
                      struct arena *arena, struct diag *diag);
/* How many pages from that one on take all that stands on them, up to the first that does not;
 * *fits: all do. */
size_t layout_pages_taken(const struct document *document, size_t from, struct text_store *texts,
                          struct arena *arena, struct diag *diag, bool *fits);

#endif
