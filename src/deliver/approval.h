/* What a signature covers, and whether it still holds.
 *
 * A sheet depends on five parts, each with a digest of its own (SHA-256, FIPS 180-4) so that a
 * change can be named: the visit record without its signature, the species sheet, the rules
 * (rules, findings, warning signs, reference values), the wording (words of every language, kinds
 * of sheet, look) and the clinic's details. Comments and spacing of the record do not count, its
 * keys, values and their order do; the other parts count byte by byte. The whole digest is that of
 * the five.
 */
#ifndef BASKLEAF_DELIVER_APPROVAL_H
#define BASKLEAF_DELIVER_APPROVAL_H

#include "deliver/resources.h"

enum approval_part {
    APPROVAL_VISIT,
    APPROVAL_SPECIES,
    APPROVAL_RULES,
    APPROVAL_WORDING,
    APPROVAL_CLINIC,
    APPROVAL_PART_COUNT
};

enum { APPROVAL_HEX_BYTES = 65 }; /* 64 letters and a NUL */

struct approval_digests {
    char parts[APPROVAL_PART_COUNT][APPROVAL_HEX_BYTES];
    char whole[APPROVAL_HEX_BYTES];
};

struct approval {
    bool is_signed;                    /* and nothing has changed since: the sheet is no draft */
    bool is_stale;                     /* signed, but something has changed */
    bool changed[APPROVAL_PART_COUNT]; /* when stale */
    const char *by;                    /* who signed; NULL when nobody did */
    struct date on;
};

/* "visit", "species", ...: the key of the part's digest and the end of its wording key. */
const char *approval_part_word(enum approval_part part);

/* What all sheets of a run share: the parts that do not depend on the visit. Read once. */
bool approval_read_shared(const struct resources *resources, struct arena *arena, struct diag *diag,
                          struct approval_digests *out);

/* The digests of one sheet: those of `shared`, with the visit's and the species sheet's own. */
bool approval_digest(const struct care_plan *plan, const struct approval_digests *shared,
                     struct arena *arena, struct diag *diag, struct approval_digests *out);

/* Compares the record's signature with the digests of today. A signature without a digest counts as
 * none. */
void approval_compare(const struct visit *visit, const struct approval_digests *digests,
                      struct approval *out);

/* Is there a signature to compare at all? */
bool approval_has_digest(const struct visit *visit);

/* Says in a remark who signed and what changed since. */
void approval_tell_stale(const struct approval *approval, const struct visit *visit,
                         struct arena *arena, struct diag *diag);

/* True when the sheet may leave the clinic: signed, or drafts are asked for by name. Else a
 * DIAG_ERROR says why. */
bool approval_may_leave(const struct approval *approval, const struct care_plan *plan,
                        bool drafts_too, struct diag *diag);

#endif
