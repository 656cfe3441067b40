/* Which earlier weighings can be right. Inside care/. */
#ifndef BASKLEAF_CARE_WEIGHINGS_H
#define BASKLEAF_CARE_WEIGHINGS_H

#include "care/build.h"

/* Asks back about each earlier weighing that does not go with those beside it, and leaves out what
 * no animal can weigh. */
void weighings_judge(struct care_build *b);

/* Is the earlier weighing `i` of the record one to reckon with? */
bool weighings_is_usable(const struct care_build *b, size_t i);

/* The last of them, or NULL. */
const struct visit_weighing *weighings_last(const struct care_build *b);

/* Can an animal of that day weigh ten times as much today, or else twice? */
enum growth { GROWTH_POSSIBLE, GROWTH_DOUBTED, GROWTH_IMPOSSIBLE };
enum growth weighings_growth(const struct care_build *b, const struct visit_weighing *from,
                             bool is_tenfold);

#endif
