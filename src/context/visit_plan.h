/* From a visit record to its care plan. */
#ifndef BASKLEAF_CONTEXT_VISIT_PLAN_H
#define BASKLEAF_CONTEXT_VISIT_PLAN_H

#include "context/resources.h"

/* Reads the record at `path` ("-": standard input), finds its species sheet, checks its
 * findings and computes the plan. `today` bounds the dates. NULL after errors, all of which are in
 * `diag`. */
const struct care_plan *visit_plan_read(const struct resources *resources, const char *path,
                                        struct date today, struct arena *arena, struct diag *diag);

/* The same for a record that has been read. */
const struct care_plan *visit_plan_make(const struct resources *resources,
                                        const struct visit *visit, struct arena *arena,
                                        struct diag *diag);

/* The same with the species sheet at hand. */
const struct care_plan *visit_plan_for(const struct resources *resources, const struct visit *visit,
                                       const struct species *species, struct arena *arena,
                                       struct diag *diag);

#endif
