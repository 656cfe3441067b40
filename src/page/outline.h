/* Bookmarks from the headings. Inside the libharu player only. */
#ifndef BASKLEAF_PAGE_OUTLINE_H
#define BASKLEAF_PAGE_OUTLINE_H

#include "page/structure.h"

/* After everything is drawn: one bookmark for every heading that has a title, nested by level. */
void outline_write(struct structure *structure);

#endif
