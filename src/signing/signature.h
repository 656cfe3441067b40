/* What a signature covers, and whether it still holds.
 *
 * A sheet depends on parts, each with a digest of its own (SHA-256, FIPS 180-4) so that a change
 * can be named: the visit record without its signature and behind it that of the visit before,
 * where it names one, the species sheet, the rules (rules, findings, warning signs, reference
 * values), the wording (the words of the sheet's own language that a sheet can print, kinds of
 * sheet, look, our fonts and those of the machine that draw letters of the record), the clinic's
 * details with its logo, and the program's formulas (CARE_FORMULA_EPOCH). Comments and spacing of
 * the record do not count, its keys, values and their order do; the other parts count byte by byte.
 * The digest that is written down is that of all of them, of who signed, of the day, and of each
 * language's words, which stand among the parts as "words-LANGUAGE": a sheet is only held against
 * those of the language it is printed in.
 */
#ifndef BASKLEAF_SIGNING_SIGNATURE_H
#define BASKLEAF_SIGNING_SIGNATURE_H

#include "context/visit_plan.h"
#include "pdf/pdf.h"

enum signature_part {
    SIGNATURE_VISIT,
    SIGNATURE_SPECIES,
    SIGNATURE_RULES,
    SIGNATURE_WORDING,
    SIGNATURE_CLINIC,
    SIGNATURE_PROGRAM,
    SIGNATURE_PART_COUNT
};

enum {
    SIGNATURE_HEX_BYTES = 65,     /* 64 letters and a NUL */
    SIGNATURE_SHORT_LETTERS = 16, /* of a part's digest are written down */
    SIGNATURE_LANGUAGES_MOST = 32
};

struct signature_words {
    const char *language;
    char digest[SIGNATURE_HEX_BYTES];
};

struct signature_digests {
    char parts[SIGNATURE_PART_COUNT][SIGNATURE_HEX_BYTES];
    char whole[SIGNATURE_HEX_BYTES];     /* of the parts */
    const struct signature_words *words; /* of each language, sorted; the arena's of the run */
    size_t language_count;
    const char *key;           /* the clinic's, as `places` has it; NULL: none */
    const struct fonts *fonts; /* borrowed: they name what draws further letters; NULL: unnamed */
};

struct signature {
    bool is_signed;                     /* and nothing has changed since: the sheet is no draft */
    bool is_stale;                      /* signed, but something has changed */
    bool changed[SIGNATURE_PART_COUNT]; /* when stale */
    const char *by;                     /* who signed; NULL when nobody did */
    struct date on;
    struct mark at; /* where the signature stands */
};

/* "visit", "species", ...: the key of the part's digest and the end of its wording key. */
const char *signature_part_word(enum signature_part part);

/* What all sheets of a run share: the parts that do not depend on the visit. Read once. The fonts
 * are those that the sheets are drawn with, and are borrowed by the digests. */
bool signature_read_shared(const struct resources *resources, const struct fonts *fonts,
                           struct arena *arena, struct diag *diag, struct signature_digests *out);

/* The digests of one sheet: those of `shared`, with the visit's and the species sheet's own. */
bool signature_digest(const struct visit_record *record, const struct signature_digests *shared,
                      struct arena *arena, struct diag *diag, struct signature_digests *out);

/* The same for a record's tree and the digest of its species sheet, when that is known already. */
void signature_digest_tree(const struct node *tree, const char *species,
                           const struct signature_digests *shared, struct signature_digests *out);

/* A species sheet: its file, with ours that it follows (NULL: none). */
bool signature_digest_species(const char *path, const char *below, struct arena *arena,
                              struct diag *diag, char out[SIGNATURE_HEX_BYTES]);

void signature_digest_texts(const char *const *texts, size_t count, char out[SIGNATURE_HEX_BYTES]);
void signature_digest_bytes(struct bytes bytes, char out[SIGNATURE_HEX_BYTES]);

/* Many records under one signature: their trees count as the visit's part, the digests of their
 * species sheets (NULL: unknown) as the species' part, both in the order in which they come. */
struct signature_roll;
struct signature_roll *signature_roll_new(const struct fonts *fonts, struct arena *arena);
void signature_roll_add(struct signature_roll *roll, const struct node *tree, const char *species);
void signature_roll_end(struct signature_roll *roll, const struct signature_digests *shared,
                        struct signature_digests *out);

/* What stands in the record as its digest: of the whole, who signed, on which day and the words
 * that were signed with them, so that none of them can be edited; keyed where the clinic has a key
 * (HMAC, RFC 2104, with SHA-256), so that nobody else can write it. */
void signature_code(const struct signature_digests *digests, const char *by, struct date on,
                    char out[SIGNATURE_HEX_BYTES]);

/* The clinic's key in the folder of a record or roster, a file that nobody else may read; NULL
 * where there is none. */
const char *signature_key_beside(const char *path, struct arena *arena);

/* Compares a signature with the digests of today. A signature without a digest counts as none. The
 * words of a language are left to signature_compare_words. */
void signature_compare(const struct visit_signature *signature,
                       const struct signature_digests *digests, struct signature *out);

/* A sheet in this language is a draft again when its words are not those that were signed. */
void signature_compare_words(const struct visit_signature *signature,
                             const struct signature_digests *digests, const char *language,
                             struct signature *out);

/* The digest of a language's words; "" when there is no such language. */
const char *signature_words_digest(const struct signature_digests *digests, const char *language);

/* Is there a signature to compare at all? */
bool signature_has_digest(const struct visit_signature *signature);

/* Says in a remark who signed and what changed since. */
void signature_tell_stale(const struct signature *signature, struct arena *arena,
                          struct diag *diag);

/* True when what was read from `file` may leave the clinic: signed, or drafts are asked for by
 * name. Else a DIAG_ERROR says why. */
bool signature_may_leave(const struct signature *signature, const char *file, bool drafts_too,
                         struct diag *diag);

#endif
