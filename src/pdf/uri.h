/* Link targets as a PDF may hold them. */
#ifndef BASKLEAF_PDF_URI_H
#define BASKLEAF_PDF_URI_H

#include "base/arena.h"

/* Percent-encodes every byte that RFC 3986 does not allow in a URI; what is encoded already
 * stays as it is. NULL gives "". The result is the arena's. */
const char *uri_encode(const char *uri, struct arena *arena);

#endif
