/* From a visit record to its care plan. */
#ifndef BASKLEAF_CONTEXT_VISIT_PLAN_H
#define BASKLEAF_CONTEXT_VISIT_PLAN_H

#include "context/resources.h"

/* A record and the plan that it leads to. What a signature covers stands beside the plan, not in
 * it: whoever says the plan says nothing that only the record holds. */
struct visit_record {
    const char *file;
    const struct node *tree;     /* as it was read */
    const struct node *previous; /* likewise that of the visit before; NULL: none is named */
    const char *species_file;
    const char *species_below; /* our own sheet, where the clinic's one follows it; else NULL */
    struct bytes photo;        /* the file as it was read; data NULL: none is named */
    struct visit_signature signature;
    const struct care_plan *plan;
};

/* Reads the record at `path` ("-": standard input), finds its species sheet, checks its
 * findings and computes the plan. `today` bounds the dates. NULL after errors, all of which are in
 * `diag`. */
const struct visit_record *visit_plan_read(const struct resources *resources, const char *path,
                                           struct date today, struct arena *arena,
                                           struct diag *diag);

/* The same for a record that has been read. */
const struct visit_record *visit_plan_make(const struct resources *resources,
                                           const struct visit *visit, struct arena *arena,
                                           struct diag *diag);

/* The plan alone, with the species sheet at hand. A record that names a logger's file is refused:
 * what was signed would not cover that file. */
const struct care_plan *visit_plan_for(const struct resources *resources, const struct visit *visit,
                                       const struct species *species, struct arena *arena,
                                       struct diag *diag);

#endif
