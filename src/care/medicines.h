/* Inside care/: what looks like a slip of the pen among the medicines. */
#ifndef BASKLEAF_CARE_MEDICINES_H
#define BASKLEAF_CARE_MEDICINES_H

#include "care/build.h"

/* Remarks on one medicine, each with its place; the amount that dose and strength give. */
bool medicine_review(struct care_build *b, const struct visit_medicine *written,
                     struct medicine_plan *plan);
/* Two of one name. */
void medicine_review_names(struct care_build *b);

#endif
