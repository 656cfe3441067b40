/* The visit before, as the record names it: found, read, held against the animal of today. */
#ifndef BASKLEAF_CONTEXT_PREVIOUS_H
#define BASKLEAF_CONTEXT_PREVIOUS_H

#include "context/resources.h"

/* Reads the record that `visit.previous` names. What that one names in turn is not read. NULL after
 * a DIAG_ERROR: it is missing, does not lie before, or is another animal's. */
const struct visit *previous_read(const struct resources *resources, const struct visit *visit,
                                  struct arena *arena, struct diag *diag);

/* Is it of today's species, by whatever name either record calls it? False after a DIAG_ERROR. */
bool previous_is_of(const struct visit *visit, const struct species *now,
                    const struct species *then, struct arena *arena, struct diag *diag);

#endif
