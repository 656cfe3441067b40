/* A line on a terminal that says how far a long run is and how long it will take. */
#ifndef BASKLEAF_CLI_PROGRESS_H
#define BASKLEAF_CLI_PROGRESS_H

#include <stdbool.h>
#include <stddef.h>

struct progress {
    bool is_shown; /* standard error is a terminal */
    double began_s, last_s;
    bool is_there; /* a line stands that has to be wiped */
};

void progress_init(struct progress *progress);

/* Draws at most ten times a second, and at the end. */
void progress_show(struct progress *progress, size_t done, size_t all);

/* Before anything else is written there. */
void progress_wipe(struct progress *progress);

/* "0:07", "12:30", "1:05:00" */
void progress_write_time(double seconds, char out[32]);

#endif
