/* Inside care/: what looks like a slip of the pen among the medicines. */
#ifndef BASKLEAF_CARE_MEDICINES_H
#define BASKLEAF_CARE_MEDICINES_H

#include "care/build.h"

/* Every eight hours: its doses stand by the clock, at this full hour in that part of the day. */
bool medicine_is_thrice_daily(const struct medicine_plan *m);
int medicine_clock_hour(enum day_part part);

/* Remarks on one medicine, each with its place; the amount that dose and strength give. */
void medicine_review(struct care_build *b, const struct visit_medicine *written,
                     struct medicine_plan *plan);
/* Two of one name. */
void medicine_review_names(struct care_build *b);

#endif
