/* Inside care/: the parts of the feeding plan. */
#ifndef BASKLEAF_CARE_FEEDING_H
#define BASKLEAF_CARE_FEEDING_H

#include "care/build.h"

/* The species' stage for this animal, with the reason; the last stage when nothing is known. */
const struct species_feeding_stage *feeding_find_stage(struct care_build *b);

/* The foods of the stage, each with the size and number that fit the meal band. */
void feeding_choose_foods(struct care_build *b, const struct species_feeding_stage *stage);

/* The next meals: from the last one (or the visit), never in the past, never before a pause
 * ends, never on the day before and of a recheck that needs an empty stomach. */
void feeding_plan_dates(struct care_build *b);

/* Supplements of the stage with their days over the next eight weeks. */
void feeding_plan_supplements(struct care_build *b);

/* Energy of the plan against metabolic need, for the veterinarian's eye. */
void feeding_plan_energy(struct care_build *b);

#endif
