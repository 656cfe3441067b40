/* pdf_write with libharu's memory under a test's control. */
#ifndef BASKLEAF_PDF_PDF_PARTS_H
#define BASKLEAF_PDF_PDF_PARTS_H

#include "pdf/haru.h"
#include "pdf/pdf.h"

/* As pdf_write; libharu takes its memory from `memory`, or from malloc when it is NULL. */
bool pdf_write_with(const struct haru_memory *memory, const struct paged *paged,
                    const struct fonts *fonts, struct arena *arena, struct diag *diag,
                    struct bytes *out);

#endif
