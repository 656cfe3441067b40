/* Inside care/: the winter's rest. */
#ifndef BASKLEAF_CARE_WINTER_REST_H
#define BASKLEAF_CARE_WINTER_REST_H

#include "care/build.h"

/* What speaks against a rest, into the plan. */
void winter_gate(struct care_build *b);

/* The steps back to the warmth of `warm_on`, whose targets the places have: into the plan, where it
 * is colder than that. */
void winter_waking_plan(struct care_build *b, struct date warm_on);

#endif
