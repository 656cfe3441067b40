/* Inside care/: what looks like a slip of the pen among the medicines. */
#ifndef BASKLEAF_CARE_MEDICINES_H
#define BASKLEAF_CARE_MEDICINES_H

#include "care/build.h"

/* Remarks on one medicine, each with its place; the amount that dose and strength give. */
bool medicine_review(struct care_build *b, const struct visit_medicine *written,
                     struct medicine_plan *plan);
/* Each bath at home, and each thing on the skin, has a part of the day of its own, as written. */
bool medicine_baths_apart(const struct care_build *b);
/* Two of one name. */
void medicine_review_names(struct care_build *b);
void medicine_review_uses(struct care_build *b);
/* Directions that lean on another medicine which ends sooner. */
void medicine_review_order(struct care_build *b);

#endif
