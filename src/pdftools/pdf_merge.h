/* The sheets of a packet behind one another in one PDF for the printer.
 *
 * Each animal begins on an odd page, so that a printer that turns the page never sets two animals
 * on one leaf: a blank page follows an odd count. Pages, fonts and pictures are those of the
 * sheets; what only a screen needs (structure, links, bookmarks, the claims of PDF/A and PDF/UA)
 * stays with the single files. The same sheets in the same order give the same bytes.
 *
 * Sheets are read through libqpdf one at a time and written at once. What stays in memory is eight
 * bytes for each object of the file: about half a kilobyte a sheet. (libqpdf's own joining keeps
 * every sheet until the end: 0.4 megabytes a sheet.) The file may grow to 10 gigabytes, the most
 * that its table of places can name (ISO 32000-1, 7.5.4).
 */
#ifndef BASKLEAF_PDFTOOLS_PDF_MERGE_H
#define BASKLEAF_PDFTOOLS_PDF_MERGE_H

#include "base/file.h"

struct pdf_merge;

/* Begins a hidden file beside `path`. NULL after a DIAG_FAULT. */
struct pdf_merge *pdf_merge_begin(const char *path, struct diag *diag);

/* Appends one sheet. False after a DIAG_FAULT. */
bool pdf_merge_add(struct pdf_merge *merge, const char *sheet, struct diag *diag);

size_t pdf_merge_pages(const struct pdf_merge *merge); /* blank ones too */

/* Puts the file under its name, whole and durable; without a sheet there is none, and an earlier
 * one is removed. Frees. False after a DIAG_FAULT. */
bool pdf_merge_finish(struct pdf_merge *merge, struct diag *diag);

/* Removes the hidden file and leaves an earlier one as it was. Frees; NULL is allowed. */
void pdf_merge_abandon(struct pdf_merge *merge);

#endif
