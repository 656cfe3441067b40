/* What became of each row, as CSV (RFC 4180) in the order of the rows.
 *
 * A cell of the roster that a spreadsheet would run as a formula has an apostrophe before it, and
 * so has one that begins with an apostrophe: whoever takes the first one away has it as it was. The
 * same holds inside a cell behind each comma, semicolon and tab.
 *
 * While a run is under way its lines go to ".NAME.new", which is renamed when the run is done. What
 * interrupted runs have left there moves to ".NAME.journal" when a run resumes. A lock on the
 * former keeps two runs from writing the same manifest.
 */
#ifndef BASKLEAF_BATCH_MANIFEST_H
#define BASKLEAF_BATCH_MANIFEST_H

#include <stdint.h>
#include <stdio.h>

#include "signing/signature.h"

enum row_status { ROW_MADE, ROW_KEPT, ROW_BAD, ROW_FAILED };

struct row_result {
    size_t number;
    int line;
    enum row_status status;
    const char *name, *species; /* as the roster has them */
    const char *file;           /* in the folder */
    const char *digest;         /* of everything the sheet depends on */
    const char *sum;            /* SHA-256 of the PDF */
    const char *reason;         /* why it was not made */
    const char *messages;       /* all that was said, a line each */
};

struct manifest_seen {
    uint64_t digest, sum; /* the first letters of each; digest 0: none */
};

struct manifest {
    const char *folder, *path, *fresh, *journal;
    FILE *out;
    struct manifest_seen *seen; /* by row; what earlier runs made; NULL unless resuming */
    size_t seen_count;
};

/* "manifest.csv" or "manifest-2-of-3.csv" in `folder`. False after a fault or when another run
 * writes it; manifest_close all the same. */
bool manifest_open(struct manifest *manifest, const char *folder, size_t shard, size_t shards,
                   struct arena *arena, struct diag *diag);
void manifest_close(struct manifest *manifest);

/* Begins anew, or takes over what earlier runs made of `rows` rows. */
bool manifest_begin(struct manifest *manifest, bool resume, size_t rows, struct arena *arena,
                    struct diag *diag);

/* Did an earlier run make this file from the same things, and is it still what it wrote? */
bool manifest_has(const struct manifest *manifest, const struct row_result *row, const char *path,
                  struct arena *arena, char sum[SIGNATURE_HEX_BYTES]);

bool manifest_add(struct manifest *manifest, const struct row_result *row, struct diag *diag);

/* Makes the folder durable and puts the manifest under its name. */
bool manifest_finish(struct manifest *manifest, struct diag *diag);

#endif
