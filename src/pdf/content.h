/* Operators of a page's content whose numbers lie on its grid. Inside the pdf layer only.
 *
 * libharu's own calls clear half a kilobyte for each of them, which was a sixth of all drawing. */
#ifndef BASKLEAF_PDF_CONTENT_H
#define BASKLEAF_PDF_CONTENT_H

#include "pdf/haru.h"

/* A length on the page's grid of 1/16 pt: what a 32-bit number holds exactly, so that it is
 * written without a tail of digits. */
float content_grid(double pt);

enum { CONTENT_NUMBERS_MOST = 6 };

/* The numbers, all of them on the grid, and the operator behind them (ISO 32000-1, annex A). */
void content_write(HPDF_Page page, const float *numbers, size_t count, const char *operator);

#endif
