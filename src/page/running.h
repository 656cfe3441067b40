/* Running head and foot: the same on every page but for its number. Inside the layout only. */
#ifndef BASKLEAF_PAGE_RUNNING_H
#define BASKLEAF_PAGE_RUNNING_H

#include "page/compose.h"

/* What stands above and below every page's text. */
struct running {
    struct strip head; /* from the upper margin downwards */
    struct text_lines foot_left;
    struct type_setting type;
    double foot_height_pt;
};

/* Sets what does not depend on the page, and so the height that is left for text: fills
 * composer->top_pt and height_pt. A head that is too long is shortened to two lines with an
 * ellipsis. */
void running_plan(struct composer *composer, struct running *out);

/* Adds head and foot to every page, the head before its text, the foot behind it. */
void running_add(struct composer *composer, const struct running *running, struct paged *out);

#endif
