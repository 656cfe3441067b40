/* Where a run of strips is parted: at the end of a page, and in columns. Inside the layout only. */
#ifndef BASKLEAF_PAGE_PARTING_H
#define BASKLEAF_PAGE_PARTING_H

#include "page/compose.h"

/* The most columns that one stack is poured down. */
enum { PART_COLUMNS_MOST = 4 };

/* What sums of rounded heights may be off by. */
static const double PART_SLACK_PT = 0.01;

/* The height of the table head that is drawn again where this strip begins a page or column. */
double part_head_height_pt(const struct strip *strip);

/* The strip that begins the next page when `first` begins one with `room`; NULL when all fit. What
 * is no worse than `at_ease` is taken for free. *over is the strip that did not fit, *how the ill
 * of the break. */
struct strip *part_find_break(struct strip *first, double room, enum strip_break at_ease,
                              struct strip **over, enum strip_break *how);

/* Parts columns that do not fit into the room; the rest, if any, becomes a strip of its own behind
 * this one, so that strip->next begins the next page. False, with nothing done, when they cannot be
 * parted fairly and there is no `need`. */
bool part_sides(struct composer *composer, struct strip *strip, double room, bool need);

/* Pours one stack, set for the first of `count` columns, down all of them: their heights as even
 * as its free breaks allow, each `step_pt` right of the one before. Appends the strip that holds
 * them. It may be higher than a page; the paginator pours it again. */
void part_pour(struct composer *composer, struct place *place, const struct stack *stack,
               size_t count, double step_pt);

#endif
