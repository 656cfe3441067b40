/* The species sheets of a run: each is read once, when it is first asked for, and kept with its
 * digest. */
#ifndef BASKLEAF_BATCH_SPECIES_CACHE_H
#define BASKLEAF_BATCH_SPECIES_CACHE_H

#include "signing/signature.h"

struct species_cache_item;

struct species_cache {
    const struct resources *resources;
    struct arena arena; /* lives as long as the cache */
    struct species_cache_item *first;
    struct library *library; /* read when a name is asked for that is no code */
};

struct species_cache_find {
    const struct species *species;
    const char *digest;
};

void species_cache_init(struct species_cache *cache, const struct resources *resources);
void species_cache_finish(struct species_cache *cache);

/* By code or by any name of any language, capitals and hyphens aside. False after a DIAG_ERROR that
 * names the nearest. */
bool species_cache_find(struct species_cache *cache, const char *words, struct mark at,
                        struct diag *diag, struct species_cache_find *out);

#endif
