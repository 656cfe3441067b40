/* What was typed and not saved: one file for each window, so that two windows on one visit never
 * overwrite each other.
 *     .drafts/r-biscuit.3f2a91bc.json            typed in one window into biscuit.yaml
 *     .drafts/n-0123456789abcdef.3f2a91bc.json   of a visit that has no record yet
 *     .drafts/n-0123456789abcdef.saved           the name of the record that it became
 */
#ifndef BASKLEAF_DESK_DRAFTS_H
#define BASKLEAF_DESK_DRAFTS_H

#include "desk/store.h"

struct draft {
    const char *key; /* "r-biscuit" */
    const char *window;
    long long seconds; /* when it was kept, since 1970-01-01 UTC */
};

/* The key of a record's drafts; NULL where the name is not plain. */
const char *drafts_key(const char *name, struct arena *arena);

/* "n-" and 16 digits of a number that the window drew. */
bool drafts_is_new_key(const char *key);

bool drafts_write(const struct store *store, const struct draft *draft, struct bytes text,
                  struct arena *arena, struct diag *diag);
/* False: there is none. */
bool drafts_read(const struct store *store, const struct draft *draft, struct arena *arena,
                 struct bytes *out);
void drafts_remove(const struct store *store, const char *key, const char *window,
                   struct arena *arena);

/* All, or those of one key, newest first. */
size_t drafts_list(const struct store *store, const char *key, struct arena *arena,
                   struct draft **out);

/* The record that a new visit became; NULL while it is new. */
const char *drafts_saved_as(const struct store *store, const char *key, struct arena *arena);

/* From now on `key` is the record `name`: what other windows typed goes with it. */
void drafts_settle(const struct store *store, const char *key, const char *name,
                   struct arena *arena, struct diag *diag);

#endif
