/* Can everything in a document be drawn? Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_CHECK_TEXT_H
#define BASKLEAF_LAYOUT_CHECK_TEXT_H

#include "document/measure.h"
#include "base/diag.h"

/* Looks through every text of the document. Each invalid text, each control character but
 * line feed, and each code point that a font lacks where it is to be drawn is a DIAG_ERROR,
 * once each. True when there was none. */
bool check_text_document(const struct document *document, const struct measure *measure,
                         struct diag *diag);

#endif
