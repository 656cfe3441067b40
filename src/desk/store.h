/* The folder of visit records: the only database. YAML files that may be edited by hand at any
 * time.
 *
 * Names come from the folder's own listing and must be plain (request_is_name); others are
 * counted and left alone. What was typed and not yet saved lies in `.drafts` (drafts.h), texts
 * that lost against a newer one in `.kept`; both are made when first needed. A version is the
 * SHA-256 (FIPS 180-4) of the file's bytes. Every write is atomic and fsynced (base/file.h).
 */
#ifndef BASKLEAF_DESK_STORE_H
#define BASKLEAF_DESK_STORE_H

#include "base/date.h"
#include "base/diag.h"
#include "base/file.h"

enum {
    STORE_VERSION_BYTES = 65,
    STORE_NAME_BYTES = 128,
    STORE_LABEL_BYTES = 160,
    STORE_LETTERS_BYTES = 400,
    STORE_SHORT_BYTES = 48,
    STORE_TIME_BYTES = 8,
    STORE_LEFT_MOST = 50
};

/* What a list needs of one record; read again only when the file's time, size or inode changed. */
struct store_entry {
    char name[STORE_NAME_BYTES];
    char version[STORE_VERSION_BYTES];
    char patient[STORE_LABEL_BYTES], keeper[STORE_LABEL_BYTES], species[STORE_NAME_BYTES];
    char letters[STORE_LETTERS_BYTES]; /* folded: patient, keeper, the telephone's digits */
    char telephone[STORE_SHORT_BYTES];
    struct date date;                 /* year 0: none could be read */
    struct date booked;               /* for the next visit; likewise */
    char booked_at[STORE_TIME_BYTES]; /* "10:30" */
    int broken_line;                  /* no YAML: where reading ended; 0: it is some */
    long long changed_ns, size;
    unsigned long long inode;
    int state;          /* the list's own, -1 until it is worked out */
    long long log_size; /* of the log when the state was worked out */
    bool seen;          /* in the listing that is being read */
};

struct store {
    const char *folder;          /* borrowed */
    int folder_fd;               /* held while the desk runs: one desk a folder */
    struct store_entry *entries; /* owned, by name */
    size_t count, capacity;
    size_t left_count; /* files that the desk leaves alone, the first of them by name: */
    char left[STORE_LEFT_MOST][STORE_LABEL_BYTES];
};

/* Locks the folder. False after a DIAG_ERROR (no such folder) or DIAG_FAULT (another desk has it).
 */
bool store_init(struct store *store, const char *folder, struct diag *diag);
void store_finish(struct store *store);

/* Brings the entries up to date with the folder. */
bool store_refresh(struct store *store, struct diag *diag);

void store_version(struct bytes text, char out[STORE_VERSION_BYTES]);

/* The record's text; a name that is not plain or no regular file is a DIAG_ERROR. */
bool store_read(const struct store *store, const char *name, struct arena *arena, struct diag *diag,
                struct bytes *out);

enum store_saved { STORE_SAVED, STORE_CONFLICT, STORE_FAILED };

struct store_saving {
    const char *name, *version; /* that was read */
    struct bytes text;
    bool keep_old; /* the text that is replaced goes to `.kept` */
};

/* Puts the text in the place of the version that was read. When the file changed meanwhile nothing
 * is overwritten: the text goes to `.kept`, *kept is its name, STORE_CONFLICT. */
enum store_saved store_save(const struct store *store, const struct store_saving *saving,
                            struct arena *arena, struct diag *diag, const char **kept);

/* A new record under "stem.yaml", or "stem-2.yaml" ... when that is taken. NULL after a fault. */
const char *store_add(const struct store *store, const char *stem, struct bytes text,
                      struct arena *arena, struct diag *diag);

/* A folder of the desk's own inside the folder, made when first needed. NULL after a fault. */
const char *store_side_folder(const struct store *store, const char *name, struct arena *arena,
                              struct diag *diag);

/* Where the record's log lies: "biscuit.log" beside "biscuit.yaml". */
const char *store_log_path(const struct store *store, const char *name, struct arena *arena);

#endif
