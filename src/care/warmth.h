/* Inside care/: where it is how warm for an animal that is ill, operated on, gravid, thin or was
 * overheated. */
#ifndef BASKLEAF_CARE_WARMTH_H
#define BASKLEAF_CARE_WARMTH_H

#include "care/build.h"

/* Moves the temperature targets as the settled warmth of day and night asks for. A veterinarian's
 * own target stays. Needs the healthy targets of all places. */
void warmth_follow_stances(struct care_build *b);

#endif
