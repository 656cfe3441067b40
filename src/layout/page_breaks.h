/* Where a run of fragments is parted: at the end of a page, and in columns. Inside the layout only.
 */
#ifndef BASKLEAF_LAYOUT_PAGE_BREAKS_H
#define BASKLEAF_LAYOUT_PAGE_BREAKS_H

#include "layout/block_setters.h"

/* The most columns that one stack is poured down. */
enum { PART_COLUMNS_MOST = 4 };

/* What sums of rounded heights may be off by. */
static const double PART_SLACK_PT = 0.01;

/* The height of the table head that is drawn again where this fragment begins a page or column. */
double page_break_head_height_pt(const struct fragment *fragment);

/* The fragment that begins the next page when `first` begins one with `room`; NULL when all fit.
 * What is no worse than `at_ease` is taken for free. *over is the fragment that did not fit, *how
 * the ill of the break. */
struct fragment *page_break_find_break(struct fragment *first, double room,
                                       enum fragment_break at_ease, struct fragment **over,
                                       enum fragment_break *how);

/* Parts columns that do not fit into the room; the rest, if any, becomes a fragment of its own
 * behind this one, so that fragment->next begins the next page. False, with nothing done, when they
 * cannot be parted fairly and there is no `need`. */
bool page_break_sides(struct composer *composer, struct fragment *fragment, double room, bool need);

/* Pours one stack, set for the first of `count` columns, down all of them: their heights as even
 * as its free breaks allow, each `step_pt` right of the one before. Appends the fragment that holds
 * them. It may be higher than a page; the paginator pours it again. */
void page_break_pour(struct composer *composer, struct place *place, const struct stack *stack,
                     size_t count, double step_pt);

#endif
