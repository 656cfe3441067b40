/* Inside care/: what the keeper gives now, a day. */
#ifndef BASKLEAF_CARE_INTAKE_H
#define BASKLEAF_CARE_INTAKE_H

#include "care/build.h"

/* Grams a day of one entry; 0 when they cannot be said. */
double intake_g_day(const struct care_build *b, const struct visit_diet *diet);

/* Sums the record's diet into plan->feeding.now, and the first animal food's own numbers. */
void intake_plan(struct care_build *b);

/* The most grams a day of the stage's foods that are no more than now, and the fewest that are no
 * less, by mass and by energy. False when what it gets now cannot be said in grams. */
bool intake_bounds_g_day(const struct care_build *b, const struct species_feeding_stage *stage,
                         struct ends *most_and_least);

/* Energy of a food in a size, as fed: the size's own or the food's. NULL when none is known. */
const struct band *intake_energy(const struct food *food, const char *size);

#endif
