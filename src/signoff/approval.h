/* What a signature covers, and whether it still holds.
 *
 * A sheet depends on five parts, each with a digest of its own (SHA-256, FIPS 180-4) so that a
 * change can be named: the visit record without its signature, the species sheet, the rules
 * (rules, findings, warning signs, reference values), the wording (words of every language, kinds
 * of sheet, look) and the clinic's details. Comments and spacing of the record do not count, its
 * keys, values and their order do; the other parts count byte by byte. The whole digest is that of
 * the five.
 */
#ifndef BASKLEAF_SIGNOFF_APPROVAL_H
#define BASKLEAF_SIGNOFF_APPROVAL_H

#include "context/visit_plan.h"

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
    struct mark at; /* where the signature stands */
};

/* "visit", "species", ...: the key of the part's digest and the end of its wording key. */
const char *approval_part_word(enum approval_part part);

/* What all sheets of a run share: the parts that do not depend on the visit. Read once. */
bool approval_read_shared(const struct resources *resources, struct arena *arena, struct diag *diag,
                          struct approval_digests *out);

/* The digests of one sheet: those of `shared`, with the visit's and the species sheet's own. */
bool approval_digest(const struct visit_record *record, const struct approval_digests *shared,
                     struct arena *arena, struct diag *diag, struct approval_digests *out);

/* The same for a record's tree and the digest of its species sheet, when that is known already. */
void approval_digest_tree(const struct node *tree, const char *species,
                          const struct approval_digests *shared, struct approval_digests *out);

bool approval_digest_file(const char *path, struct arena *arena, struct diag *diag,
                          char out[APPROVAL_HEX_BYTES]);
void approval_digest_texts(const char *const *texts, size_t count, char out[APPROVAL_HEX_BYTES]);
void approval_digest_bytes(struct bytes bytes, char out[APPROVAL_HEX_BYTES]);

/* Many records under one signature: their trees count as the visit's part, the digests of their
 * species sheets (NULL: unknown) as the species' part, both in the order in which they come. */
struct approval_roll;
struct approval_roll *approval_roll_new(struct arena *arena);
void approval_roll_add(struct approval_roll *roll, const struct node *tree, const char *species);
void approval_roll_end(struct approval_roll *roll, const struct approval_digests *shared,
                       struct approval_digests *out);

/* Compares a signature with the digests of today. A signature without a digest counts as none. */
void approval_compare(const struct visit_signature *signature,
                      const struct approval_digests *digests, struct approval *out);

/* Is there a signature to compare at all? */
bool approval_has_digest(const struct visit_signature *signature);

/* Says in a remark who signed and what changed since. */
void approval_tell_stale(const struct approval *approval, struct arena *arena, struct diag *diag);

/* True when what was read from `file` may leave the clinic: signed, or drafts are asked for by
 * name. Else a DIAG_ERROR says why. */
bool approval_may_leave(const struct approval *approval, const char *file, bool drafts_too,
                        struct diag *diag);

#endif
