/* What all rows of a run share, and the way of one row to its sheet. */
#ifndef BASKLEAF_BATCH_PACKET_ROWS_H
#define BASKLEAF_BATCH_PACKET_ROWS_H

#include "batch/manifest.h"
#include "batch/packet.h"
#include "batch/species_cache.h"
#include "records/roster.h"

struct row_name; /* of a row with an id, to find two that would share a file */

struct packet_rows {
    const struct resources *resources;
    const struct packet_options *options;
    struct sheet_context context;
    struct species_cache cache;
    struct roster roster;
    struct arena arena; /* lives as long as the run */
    size_t count;
    struct row_name *names;
    size_t name_count, name_room;
    uint64_t
        *seen; /* of each row as it was digested, where the roster has a signature; else NULL */
    size_t seen_room;
    struct signature_digests digests; /* of the whole roster, when it was asked for */
    struct signature signature;
};

/* Opens the roster and what sheets are set with. packet_rows_finish all the same. */
bool packet_rows_init(struct packet_rows *rows, const struct resources *resources,
                      const struct packet_options *options, struct diag *diag);
void packet_rows_finish(struct packet_rows *rows);

/* Reads all rows once: counts them, sees that the file can be read to its end, notes which names
 * stand twice and, when the roster is signed or `with_digest` says so, works out its digest.
 * Faults of single rows are left for later. */
bool packet_rows_scan(struct packet_rows *rows, bool with_digest, struct diag *diag);

/* The row's visit and plan. NULL after errors, which are in `diag`. */
const struct care_plan *packet_rows_plan(struct packet_rows *rows, const struct roster_row *row,
                                         struct arena *arena, struct diag *diag);

/* Makes the row's sheet, or finds it made. `diag` holds what was wrong with reading the row and is
 * the row's own. Everything in *out is the arena's. */
void packet_rows_make(struct packet_rows *rows, const struct manifest *manifest,
                      const struct roster_row *row, struct diag *diag, struct arena *arena,
                      struct row_result *out);

#endif
