/* The one sink for everything that is wrong or worth a remark.
 *
 * A sink is made by main (or by a test), passed down, and printed at the end:
 * all faults of a run are collected, not the first alone. A message names its
 * place and says what is wrong and what would be right, in lower case and
 * without a full stop:
 *     visit.yaml:12:9: unknown key 'humidty'; did you mean 'humidity'? [B214]
 * The number behind it is that of its code in base/messages.h, where every code has a row.
 */
#ifndef BASKLEAF_BASE_DIAG_H
#define BASKLEAF_BASE_DIAG_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/arena.h"

/* Where a value stood. line and column count from 1; line 0 means "the file as
 * a whole", file NULL means "no file" (the command line, the program). */
struct mark {
    const char *file; /* borrowed; lives as long as the tree it came from */
    int line;
    int column;
};

enum diag_severity {
    DIAG_REMARK, /* worth knowing, changes nothing */
    DIAG_ERROR,  /* the input is wrong: exit status 1 */
    DIAG_USAGE,  /* the command line is wrong: exit status 2 */
    DIAG_FAULT,  /* output or environment failed: exit status 3 */
};

struct diag_message {
    enum diag_severity severity;
    const char *code; /* a row of base/messages.h: "unknown-key" */
    struct mark at;
    const char *path; /* keys down to the value: "enclosure.readings.night", or NULL */
    const char *text;
    struct diag_message *next;
};

struct diag {
    struct arena arena; /* owned */
    struct diag_message *first;
    struct diag_message *last;
    size_t counts[4]; /* by severity */
    size_t limit;     /* messages kept; further ones are only counted */
};

void diag_init(struct diag *diag);
void diag_finish(struct diag *diag);

/* Adds one message; `at` and all text is copied. */
void diag_report(struct diag *diag, enum diag_severity severity, const char *code, struct mark at,
                 const char *format, ...) __attribute__((format(printf, 5, 6)));

/* The same with the path of keys; `path` may be NULL. */
void diag_report_path(struct diag *diag, enum diag_severity severity, const char *code,
                      struct mark at, const char *path, const char *format, ...)
    __attribute__((format(printf, 6, 7)));

/* True when anything graver than a remark was said. */
bool diag_failed(const struct diag *diag);

/* 0, 1, 2 or 3: the gravest severity, as the program's exit status. */
int diag_exit_status(const struct diag *diag);

/* One line a message, ordered as reported. */
void diag_print(const struct diag *diag, FILE *out);

/* The line for one message without the line break; text belongs to `arena`. */
const char *diag_message_line(const struct diag_message *message, struct arena *arena);

#endif
