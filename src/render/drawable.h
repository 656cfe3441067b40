/* Can every text of a file be drawn with our fonts? Asked with the file at hand, so that a letter
 * that the fonts lack is told with its line, not only by its number. */
#ifndef BASKLEAF_RENDER_DRAWABLE_H
#define BASKLEAF_RENDER_DRAWABLE_H

#include "base/diag.h"
#include "document/measure.h"

struct node;

/* Each value of the tree that holds such a letter is a DIAG_ERROR at its place; keys are not
 * drawn, nor what stands under keys that begin with `passed_over` (NULL: none). */
bool drawable_check(const struct node *tree, const struct measure *measure, const char *passed_over,
                    struct diag *diag);

#endif
