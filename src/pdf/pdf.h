/* Plays drawing operations into a PDF through libharu. The only header of the
 * page layer that hides libharu; nothing above knows it. */
#ifndef BASKLEAF_PDF_PDF_H
#define BASKLEAF_PDF_PDF_H

#include "document/measure.h"
#include "document/draw_ops.h"
#include "base/arena.h"
#include "base/diag.h"
#include "base/file.h"
#include "base/strbuf.h"

/* The fonts of a run, read once and kept. */
struct fonts;

/* Loads the two fonts (plain, strong) and their metrics from `folder`. On
 * failure reports DIAG_FAULT and returns NULL. */
struct fonts *fonts_new(const char *folder, struct diag *diag);
void fonts_free(struct fonts *fonts);

/* Metrics of the same fonts; borrowed, lives as long as the fonts. */
const struct measure *fonts_measure(const struct fonts *fonts);

/* Appends which fonts beside these draw letters of a text, a line each with a number that changes
 * with the font's file, but for those that stand there already. */
void fonts_name_further(const struct fonts *fonts, const char *text, struct strbuf *out);

/* Writes PDF 1.7 that is both PDF/UA-1 and PDF/A-2a (PDF/UA-1 alone when the document says
 * that it is going to have a password).
 * The same operations give the same bytes. On failure the first libharu error, or
 * what is wrong with the operations, is reported as one DIAG_FAULT, false returned and *out
 * untouched. */
bool pdf_write(const struct paged *paged, const struct fonts *fonts, struct arena *arena,
               struct diag *diag, struct bytes *out);

#endif
