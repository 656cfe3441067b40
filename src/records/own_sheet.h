/* The clinic's own species sheet, as `baskleaf review` writes it: a whole sheet, with what a
 * veterinarian confirmed under `reviewed`, sealed by a hash in its last line.
 *
 * While the seal holds, the confirmed values are the clinic's and all else follows the sheet that
 * we ship: a value corrected there reaches every sheet. A confirmed value stays as it is, but is
 * open again once ours has changed under it. A sheet without a seal that holds was written or
 * edited by hand: it stands as it is, and no review writes over it.
 */
#ifndef BASKLEAF_RECORDS_OWN_SHEET_H
#define BASKLEAF_RECORDS_OWN_SHEET_H

#include "records/species_values.h"

enum { OWN_SHEET_DIGEST_BYTES = 17 }; /* 16 letters and a NUL */

/* The text with its seal behind it. */
struct bytes own_sheet_seal(struct bytes text, struct arena *arena);

/* Is it what a review wrote, to the byte? */
bool own_sheet_is_sealed(struct bytes text);

/* Digest of what a value says: its number, its source's text, and those of the others. */
void own_sheet_digest(const struct species *species, const struct species_value *value,
                      char out[OWN_SHEET_DIGEST_BYTES]);

/* A sheet with its tree. */
struct own_sheet {
    struct species *species;
    struct node *tree;
};

/* Puts the clinic's confirmed values into a tree of ours, which changes: those that differ from
 * ours. Sources come along under ids of their own. Of a value that ours has no more there is a
 * remark: it falls away. */
void own_sheet_merge(struct own_sheet own, struct own_sheet ours, struct arena *arena,
                     struct diag *diag);

/* Puts the mapping of a value, with every id of a source in it, in place of ours. `from` has the
 * sources' texts. */
struct own_graft {
    struct node *value;                /* a mapping of a value, or of enclosure.least */
    const struct species_value *place; /* where it goes */
    const struct list *sources;
};
void own_sheet_graft(const struct own_graft *graft, struct node *ours, struct arena *arena);

/* Marks the values of `species` that its own `reviewed`, or that of `own`, says are confirmed; with
 * `ours` (NULL: not at hand) also those of them that have changed under it. */
void own_sheet_confirm(struct species *species, const struct species *own, struct species *ours,
                       struct arena *arena);

#endif
