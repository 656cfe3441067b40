/* Texts in another language than the sheet's, found where they stand. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_FOREIGN_H
#define BASKLEAF_LAYOUT_FOREIGN_H

#include "base/arena.h"
#include "document/document.h"

/* The spans, parted where one of the document's foreign texts begins or ends; such a text has its
 * language. The very same spans when none stands there. */
const struct span *foreign_part(const struct document *document, const struct span *spans,
                                struct arena *arena);

#endif
