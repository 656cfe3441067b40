/* Inside care/: what the weight is meant to do, and when to call. */
#ifndef BASKLEAF_CARE_WEIGHT_H
#define BASKLEAF_CARE_WEIGHT_H

#include "care/build.h"

/* What a diet takes off until the day of the next weighing; nothing for other animals. */
void weight_expect_on(struct care_build *b, struct date day);

#endif
