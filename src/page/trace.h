/* Prints drawing operations as text, one a line, for golden files. */
#ifndef BASKLEAF_PAGE_TRACE_H
#define BASKLEAF_PAGE_TRACE_H

#include "page/ops.h"
#include "support/strbuf.h"

void trace_write(const struct paged *paged, struct strbuf *out);

#endif
