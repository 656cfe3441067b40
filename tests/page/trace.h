/* Prints drawing operations as text, one a line, for golden files. */
#ifndef BASKLEAF_TESTS_PAGE_TRACE_H
#define BASKLEAF_TESTS_PAGE_TRACE_H

#include "document/draw_ops.h"
#include "base/strbuf.h"

void trace_write(const struct paged *paged, struct strbuf *out);

#endif
