/* Writes the clinic's own species sheet: what its veterinarian confirmed or changed. */
#ifndef BASKLEAF_REVIEW_REVIEW_WRITE_H
#define BASKLEAF_REVIEW_REVIEW_WRITE_H

#include "context/resources.h"

struct review_order {
    const char *species; /* its code */
    const char *by;
    struct date on;
    const char *confirm; /* keys, parted by commas; NULL: none */
    const char *set;     /* KEY=VALUE, parted by semicolons; NULL: none */
    const char *edition; /* what was consulted; NULL: unsaid */
    const char *reason;  /* NULL: unsaid */
};

/* Writes the sheet of `folder`, which is made if need be, and gives its path. False after errors,
 * and nothing is written then: a key that the sheet does not have, a value that cannot be, a sheet
 * that was written or edited by hand. */
bool review_write(const struct resources *resources, const char *folder,
                  const struct review_order *order, struct arena *arena, struct diag *diag,
                  const char **path);

#endif
