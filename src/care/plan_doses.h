/* What page and plan ask of the doses that the clinic gives. */
#ifndef BASKLEAF_CARE_PLAN_DOSES_H
#define BASKLEAF_CARE_PLAN_DOSES_H

#include <stdbool.h>

struct care_plan;
struct dose_plan;
struct medicine_plan;

/* The first of its doses from tomorrow on for which it is brought here on an open day; NULL: none.
 */
const struct dose_plan *plan_next_dose_here(const struct care_plan *plan,
                                            const struct medicine_plan *medicine);
/* Given by the clinic, several a day: whoever signs is asked whether it stays in. */
bool plan_stays_by_clock(const struct medicine_plan *medicine);

#endif
