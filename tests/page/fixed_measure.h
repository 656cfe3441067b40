/* A measure in which every character of every style is half as wide as its size, so that
 * expected lines can be counted by hand. */
#ifndef BASKLEAF_TESTS_PAGE_FIXED_MEASURE_H
#define BASKLEAF_TESTS_PAGE_FIXED_MEASURE_H

#include "document/measure.h"

/* Ascent 0.8, descent 0.2. Knows all characters up to U+2FFF. */
extern const struct measure fixed_measure;

#endif
