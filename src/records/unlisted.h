/* An animal without a species sheet: the visit names its kind and group, and only what holds for
 * the whole group is said of it. No other species' number is ever used for it. */
#ifndef BASKLEAF_RECORDS_UNLISTED_H
#define BASKLEAF_RECORDS_UNLISTED_H

#include "records/species.h"
#include "records/visit.h"

/* What patient.species says then. */
#define UNLISTED_CODE "unlisted"

struct unlisted_animals {
    struct list groups; /* of struct species: group, habit, traits, warnings and law alone */
    const char *file;   /* borrowed */
};

extern const struct schema unlisted_animals_schema;

/* Reads and checks the file: every group once. NULL after errors. */
struct unlisted_animals *unlisted_read(const char *path, struct arena *arena, struct diag *diag);

bool unlisted_is_meant(const struct visit *visit);

/* The visit's own words over its group's. NULL after errors. */
const struct species *unlisted_species(const struct unlisted_animals *animals,
                                       const struct visit *visit, struct arena *arena,
                                       struct diag *diag);

/* False after an error when the record describes an animal whose sheet it names. */
bool unlisted_is_absent(const struct visit *visit, struct diag *diag);

#endif
