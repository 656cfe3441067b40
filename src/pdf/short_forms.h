/* Short forms in a shown text: "cm", "UVB", "14 Mar". */
#ifndef BASKLEAF_PDF_SHORT_FORMS_H
#define BASKLEAF_PDF_SHORT_FORMS_H

#include <stdint.h>

#include "document/document.h"

struct short_form_found {
    const char *at;
    size_t length;
    const char *means;
};

/* Those of a document, which is borrowed, by the bytes that they begin with. */
struct short_forms {
    const struct document *document;
    size_t first[256];    /* place plus one of the first that begins so; 0: none does */
    uint64_t second[256]; /* what may come behind that byte, a bit for a few bytes each */
};

struct short_forms short_forms_of(const struct document *document);

/* The first one of the document's that stands whole at `from` or behind it, in its place. */
bool short_forms_next(const struct short_forms *forms, const char *text, const char *from,
                      struct short_form_found *out);

#endif
