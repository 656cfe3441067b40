/* The document's metadata as XML (XMP, ISO 16684-1), with what it claims to conform to. */
#ifndef BASKLEAF_PDF_XMP_H
#define BASKLEAF_PDF_XMP_H

#include "base/strbuf.h"
#include "document/document.h"

/* Appends the packet. PDF/A-2a is claimed unless the document is going to have a password, which
 * PDF/A forbids; PDF/UA-1 always. `producer` is the library that writes the file. */
void xmp_write(const struct document *document, const char *producer, struct strbuf *out);

#endif
