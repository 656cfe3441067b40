/* The values of a species sheet that say where they come from, one after another, each under the
 * key that a review names it by: "temperature.warm-side", "feeding.stages.adult.meal",
 * "feeding.supplements.calcium.always.per-week", "enclosure.least". Found by the sheet's table. */
#ifndef BASKLEAF_RECORDS_SPECIES_VALUES_H
#define BASKLEAF_RECORDS_SPECIES_VALUES_H

#include "records/species.h"

struct species_value {
    const char *key;
    const struct field *field; /* of its band or box: dimension and bounds */
    const struct band *band;   /* NULL: a box */
    const struct box *box;     /* NULL: a band */
    const char *source;        /* an id of the sheet's sources */
    enum trust trust;
    const char *choice;                    /* why this one; NULL: unsaid */
    const struct list *disagrees;          /* of struct sourced_value; NULL for a box */
    const struct confirmation **confirmed; /* its place on the sheet */
    struct node *node; /* the mapping it stands in, where a tree was given; of a box the mapping
                          that has its keys */
};

/* All values that are written, in the order of the table; the count. `tree` is what the sheet was
 * read from, or NULL. */
size_t species_values(struct species *species, struct node *tree, struct arena *arena,
                      struct species_value **out);

/* The keys that values may have; "*" stands for an item of a list. */
size_t species_value_keys(struct arena *arena, const char ***out);

/* By key, or NULL. */
const struct species_value *species_value_find(const struct species_value *values, size_t count,
                                               const char *key);

/* Is it settled: published, or confirmed by the clinic? What is not is left to review. */
bool species_value_is_founded(const struct species_value *value);

/* Counts into species->review what of its values is settled and what is left. */
void species_values_count(struct species *species, const struct species_value *values,
                          size_t count);

/* The share of settled values in whole percent, never 100 while one is left; 0 without values. */
int species_trust_percent(const struct species_review *review);

#endif
