/* The rows of a stretch, made by one process or by several, handed out in the order of the roster.
 */
#ifndef BASKLEAF_BATCH_PACKET_JOBS_H
#define BASKLEAF_BATCH_PACKET_JOBS_H

#include "batch/packet_rows.h"

struct stretch {
    size_t first, last; /* rows from 1; empty when last < first */
};

struct row_taker {
    bool (*take)(void *data, const struct row_result *result);
    void *data;
};

/* Gives the taker each row of the stretch, in order; what it is given lives until it returns. Ends
 * early when the taker gives false or a process ends before its time (a DIAG_FAULT). */
bool packet_jobs_run(struct packet_rows *rows, const struct manifest *manifest,
                     struct stretch stretch, struct row_taker taker, struct diag *diag);

#endif
