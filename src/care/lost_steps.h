/* Which steps of the rules fell away with a stance that gave way. */
#ifndef BASKLEAF_CARE_LOST_STEPS_H
#define BASKLEAF_CARE_LOST_STEPS_H

#include "care/build.h"

/* Tells it for review; the plan's actions are settled. */
void lost_steps_tell(struct care_build *b);

#endif
