/* Bookmarks from the headings. Inside the pdf layer only. */
#ifndef BASKLEAF_PDF_BOOKMARKS_H
#define BASKLEAF_PDF_BOOKMARKS_H

#include "pdf/structure.h"

/* After everything is drawn: one bookmark for every heading that has a title, nested by level. */
void outline_write(struct structure *structure);

#endif
