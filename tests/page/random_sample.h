/* Drawing operations in no sensible order: any element on any page, any kind of mark, texts in
 * every font. What a sheet must keep even so is checked in conformance/test_random.py. */
#ifndef BASKLEAF_TESTS_PAGE_RANDOM_SAMPLE_H
#define BASKLEAF_TESTS_PAGE_RANDOM_SAMPLE_H

#include "page/sample.h"

/* The same seed gives the same sheet. Everything is the arena's. */
struct sample *random_sample_make(unsigned seed, struct arena *arena);

#endif
