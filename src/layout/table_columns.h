/* Columns of a table that are as wide as what stands in them. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_TABLE_COLUMNS_H
#define BASKLEAF_LAYOUT_TABLE_COLUMNS_H

#include "layout/block_setters.h"

/* Shares of the size: between columns; between a tick box and its text. */
static const double TABLE_GUTTER = 1.0, TABLE_LEAST_GUTTER = 0.3, TABLE_TICK_GAP = 0.5;

/* Fills `widths`, in points and without gutters, when any of the block's shares is 0: such a
 * column is as wide as its widest line, up to the share of the table's width that makes the table
 * lowest, and the others part what is left by their shares. Without any other column what is left
 * goes to all alike. False, with nothing done, when no share is 0. */
bool table_fit(struct composer *composer, const struct type_setting *type,
               const struct block *block, double width_pt, double *widths);

/* Widens each column that is narrower than its longest word, at the cost of those that have room to
 * spare. Returns how much is lacking where all together have too little. */
double table_keep_words(struct composer *composer, const struct type_setting *type,
                        const struct block *block, size_t count, double *widths);

#endif
