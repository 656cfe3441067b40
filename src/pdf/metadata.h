/* What a document says about itself: information, XMP, language, output intent. Inside the
 * pdf layer only. */
#ifndef BASKLEAF_PDF_METADATA_H
#define BASKLEAF_PDF_METADATA_H

#include "pdf/fonts.h"
#include "pdf/haru.h"

/* Fills the catalogue and the information dictionary from the document. */
void metadata_write(struct haru *haru, const struct document *document, const struct fonts *fonts);

#endif
