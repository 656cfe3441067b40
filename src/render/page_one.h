/* What the first page of a sheet that hangs says beside its rows, and how many rows it has. */
#ifndef BASKLEAF_RENDER_PAGE_ONE_H
#define BASKLEAF_RENDER_PAGE_ONE_H

#include "render/trials.h"

struct aside {
    enum message_says message;
    bool says_key;
    unsigned whys;
};

enum { PAGE_ONE_WHYS = 7 }; /* all rows say why */
/* What stands there in any case. */
extern const struct aside page_one_bare;

void page_one_say(struct savings *savings, const struct aside *aside);
/* Rows that page one has no room for stand on page two. False after errors, like the next. */
bool page_one_move_steps(const struct laying *l, struct savings *savings);
/* Once all else is settled, with so many further pages: of what it gave up it says again what there
 * is room for. */
bool page_one_say_again(const struct laying *l, struct savings *savings, size_t further);

#endif
