/* The species sheets of a run: each is read once, when it is first asked for, and kept with its
 * digest. */
#ifndef BASKLEAF_DELIVER_SHELF_H
#define BASKLEAF_DELIVER_SHELF_H

#include "deliver/approval.h"

struct shelf_item;

struct shelf {
    const struct resources *resources;
    struct arena arena; /* lives as long as the shelf */
    struct shelf_item *first;
    struct library *library; /* read when a name is asked for that is no code */
};

struct shelf_find {
    const struct species *species;
    const char *digest;
};

void shelf_init(struct shelf *shelf, const struct resources *resources);
void shelf_finish(struct shelf *shelf);

/* By code or by any name of any language, capitals and hyphens aside. False after a DIAG_ERROR that
 * names the nearest. */
bool shelf_find(struct shelf *shelf, const char *words, struct mark at, struct diag *diag,
                struct shelf_find *out);

#endif
