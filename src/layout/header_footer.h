/* Running head and foot: the same on every page but for its number. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_HEADER_FOOTER_H
#define BASKLEAF_LAYOUT_HEADER_FOOTER_H

#include "layout/block_setters.h"

/* What stands above and below every page's text. */
struct header_footer {
    struct fragment head; /* from the upper margin downwards */
    struct text_lines foot_left;
    struct type_setting type;
    double foot_height_pt;
};

/* Sets what does not depend on the page, and so the height that is left for text: fills
 * composer->top_pt and height_pt. A head that is too long is shortened to two lines with an
 * ellipsis. */
void header_footer_plan(struct composer *composer, struct header_footer *out);

/* Adds head and foot to every page, the head before its text, the foot behind it. */
void header_footer_add(struct composer *composer, const struct header_footer *running,
                       struct paged *out);

/* "page 1 of 2" in the sheet's words. */
const char *header_footer_page_of(const struct composer *composer, size_t number, size_t count);

#endif
