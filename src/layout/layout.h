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

/* What is asked of pages that are filled: those from one on, and onto how many further pages the
 * last of them may part. */
struct pages_asked {
    size_t from, further;
};

/* How many of those pages take all that stands on them, up to the first that does not; *fits: the
 * document is filled pages (BLOCK_PAGE) alone and all do, so that layout_document needs no further
 * ones. Draws nothing, so many can be tried; what it takes of the arena may be forgotten with the
 * document, and `texts` still holds. */
size_t layout_pages_taken(const struct document *document, struct pages_asked asked,
                          struct text_store *texts, struct arena *arena, struct diag *diag,
                          bool *fits);
/* Whether all of its pages do, without a further one. */
bool layout_pages_fit(const struct document *document, struct text_store *texts,
                      struct arena *arena, struct diag *diag);

#endif
