/* Inside care/: the winter's rest. */
#ifndef BASKLEAF_CARE_WINTER_REST_H
#define BASKLEAF_CARE_WINTER_REST_H

#include "care/build.h"

/* What speaks against a rest, into the plan. */
void winter_gate(struct care_build *b);

#endif
