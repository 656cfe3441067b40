/* "did you mean": the nearest of a set of names. */
#ifndef BASKLEAF_BASE_NEAREST_H
#define BASKLEAF_BASE_NEAREST_H

#include <stddef.h>

/* Names are offered one by one; the nearest so far is kept. */
struct nearest {
    const char *wanted;
    const char *best; /* NULL while nothing is near enough */
    size_t distance;
};

void nearest_init(struct nearest *nearest, const char *wanted);

/* Keeps `name` when its edit distance (insert, delete, change, swap of
 * neighbours) is the smallest yet and at most a third of the longer name, or 2 for short
 * ones. The first of equals stays. */
void nearest_offer(struct nearest *nearest, const char *name);

#endif
