/* Telephone numbers, the mail address and the web address of the clinic as links, wherever a sheet
 * names them. */
#ifndef BASKLEAF_SHEET_CONTACT_LINKS_H
#define BASKLEAF_SHEET_CONTACT_LINKS_H

#include "care/plan.h"
#include "document/document.h"

/* Parts every text of the blocks that holds one of them. */
void contact_links_set(const struct letterhead_plan *clinic, struct block *blocks,
                       struct arena *arena);

#endif
