/* Short forms in a shown text: "cm", "UVB", "14 Mar". */
#ifndef BASKLEAF_PDF_SHORT_FORMS_H
#define BASKLEAF_PDF_SHORT_FORMS_H

#include "document/document.h"

struct short_form_found {
    const char *at;
    size_t length;
    const char *means;
};

/* The first one of the document's that stands whole at `from` or behind it, in its place. */
bool short_forms_next(const struct document *document, const char *text, const char *from,
                      struct short_form_found *out);

#endif
