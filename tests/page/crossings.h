/* Proof that in a drawing no text meets a text, a line or a shape. */
#ifndef BASKLEAF_TESTS_PAGE_CROSSINGS_H
#define BASKLEAF_TESTS_PAGE_CROSSINGS_H

#include "base/arena.h"
#include "document/draw_ops.h"
#include "document/measure.h"

/* Of the largest figure on a page: NULL, or what meets what, in words that belong to the arena. A
 * number in its own disc does not count. */
const char *crossings_check(const struct paged *paged, size_t page, const struct measure *measure,
                            struct arena *arena);

/* Of the same figure: marks on one another. */
const char *crossings_check_marks(const struct paged *paged, size_t page, struct arena *arena);

/* Of the same figure: what its leaders meet (each other, the sign of a lamp, which are its last
 * `sign_parts` curves, a mark that is not theirs, a bar, the distance), and marks on one another.
 */
const char *crossings_check_leaders(const struct paged *paged, size_t page, size_t sign_parts,
                                    struct arena *arena);

#endif
