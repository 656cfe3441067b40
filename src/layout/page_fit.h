/* Filling one page: see document.h, BLOCK_PAGE. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_PAGE_FIT_H
#define BASKLEAF_LAYOUT_PAGE_FIT_H

#include "layout/block_setters.h"

/* Room above a block of a page as a share of the step's gap; a strip stands close to its head. */
double panel_gap_share(const struct block *block);
/* Is a page close at this step? */
bool panel_fits_close(const struct fit_step *fit);

/* Whether the page fits with the closest of its steps, where it may part to so many further pages;
 * counts it as a page. */
bool page_fits(struct composer *composer, const struct place *place, const struct block *block,
               size_t further);

/* Upper and lower margin of a page that is filled, and its foot: 10 pt text on the last line. */
void page_foot_plan(struct composer *composer);
void page_foot_add(struct composer *composer, struct paged *out);

#endif
