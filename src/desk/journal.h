/* Who did what and when: one line a deed in a plain file beside the record.
 *     2026-03-14 10:22:05 UTC<TAB>signed<TAB>Dr Ines Calder<TAB>version of the record<TAB>remark
 */
#ifndef BASKLEAF_DESK_JOURNAL_H
#define BASKLEAF_DESK_JOURNAL_H

#include "desk/store.h"
#include "base/json.h"

enum { JOURNAL_WHO_LIMIT = 80, JOURNAL_TIME_BYTES = 32 };

/* "2026-03-14 10:22:05 UTC" of seconds since 1970-01-01 UTC. */
void journal_time(long long seconds, char out[JOURNAL_TIME_BYTES]);

/* Can a line be appended? Nothing leaves the house that cannot be logged. False after a
 * DIAG_FAULT. */
bool journal_is_open(const char *path, struct diag *diag);

/* A name on one line, neither empty nor too long. */
bool journal_is_name(const char *who);

/* The same for a signature: two words of letters at least, so that a slip of the hand signs
 * nothing. */
bool journal_is_signer(const char *by);

struct journal_line {
    long long seconds; /* since 1970-01-01 UTC */
    const char *event, *who;
    const char *version; /* of the record */
    const char *remark;  /* may be NULL */
};

/* Appends a line and fsyncs. False after a DIAG_FAULT. */
bool journal_write(const char *path, const struct journal_line *line, struct diag *diag);

/* The last of these events (NULL ends them) that this version of the record saw; NULL: none. */
const char *journal_last(struct bytes log, const char *const *events, const char *version);

/* The lines as a JSON list of {at, deed, who, remark}, newest first. */
void journal_write_json(struct bytes log, struct json *json, struct arena *arena);

/* The log's bytes; none when there is no log yet. */
struct bytes journal_read(const char *path, struct arena *arena);

#endif
