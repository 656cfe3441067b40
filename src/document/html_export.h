/* A document as one HTML page, for the body of a message. */
#ifndef BASKLEAF_DOCUMENT_HTML_EXPORT_H
#define BASKLEAF_DOCUMENT_HTML_EXPORT_H

#include "base/strbuf.h"
#include "document/document.h"

/* Appends a whole page (HTML 5, UTF-8) of one column that a small screen can show. All texts are
 * escaped. It holds no picture (its alternative is written), no script and no style sheet, and asks
 * for nothing from elsewhere: the only addresses in it are links to press, and none but tel, mailto
 * and https. Everything that text_export says of the same document is there, in the same order. */
void html_export(const struct document *document, struct strbuf *out);

#endif
