/* Who did what and when: one line a deed in a plain file beside the record.
 *     2026-03-14 10:22:05 UTC<TAB>signed<TAB>Dr Ines Calder<TAB>version of the record<TAB>remark
 */
#ifndef BASKLEAF_DESK_JOURNAL_H
#define BASKLEAF_DESK_JOURNAL_H

#include "desk/store.h"
#include "base/json.h"

enum { JOURNAL_WHO_LIMIT = 80 };

/* A name on one line, neither empty nor too long. */
bool journal_is_name(const char *who);

struct journal_line {
    long long seconds; /* since 1970-01-01 UTC */
    const char *event, *who;
    const char *version; /* of the record */
    const char *remark;  /* may be NULL */
};

/* Appends a line and fsyncs. False after a DIAG_FAULT. */
bool journal_write(const char *path, const struct journal_line *line, struct diag *diag);

/* Was `deed` done to this version of the record? */
bool journal_has(struct bytes log, const char *event, const char *version);

/* The lines as a JSON list of {at, deed, who, remark}, newest first. */
void journal_write_json(struct bytes log, struct json *json, struct arena *arena);

/* The log's bytes; none when there is no log yet. */
struct bytes journal_read(const char *path, struct arena *arena);

#endif
