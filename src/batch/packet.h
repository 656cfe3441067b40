/* Many sheets in one run: a roster's rows, one PDF each, and a manifest of what became of each.
 *
 * A row that is wrong is reported with its place and passed over; the rest are made. Files appear
 * whole or not at all. The manifest, manifest.csv, is complete once it stands under its name;
 * until then what is done stands in a hidden file beside it, for resuming. The same roster,
 * wishes and date give the same bytes, however the work was divided.
 */
#ifndef BASKLEAF_BATCH_PACKET_H
#define BASKLEAF_BATCH_PACKET_H

#include "render/render.h"

enum { PACKET_JOBS_MOST = 64, PACKET_SHARDS_MOST = 100000 };

struct packet_options {
    const char *roster;
    const char *folder; /* of the sheets and the manifest; made when its parent exists */
    struct sheet_options sheet;
    bool drafts_too;
    bool joined;          /* also all sheets in one file for the printer; see joined.h */
    bool replace;         /* write over another roster's sheets too */
    bool set_aside;       /* move PDFs of no row into a folder of their own */
    bool resume;          /* make only what is missing or has changed */
    size_t shard, shards; /* the shard-th of so many equal stretches of rows, from 1 */
    size_t jobs;          /* processes, from 1 */
    struct date today;
};

/* Who looks on. */
struct packet_watch {
    void *data;
    void (*progress)(void *data, size_t done, size_t all);
    void (*report)(void *data, const char *lines); /* what is wrong with one row */
};

struct packet_counts {
    size_t rows, made, kept, bad;
    size_t pdf_merge_pages; /* of the joined file, when one was asked for */
};

/* False after errors that concern the whole roster (with what is true of single rows only in the
 * counts and the manifest) or when the environment failed. */
bool packet_write(const struct resources *resources, const struct packet_options *options,
                  const struct packet_watch *watch, struct diag *diag, struct packet_counts *out);

/* Who is told of each row's plan. */
struct packet_telling {
    void (*each_plan)(void *data, const struct care_plan *plan); /* may be NULL: nobody is */
    void *data;
};

struct packet_signing {
    const char *roster, *by;
    struct date today;
    struct packet_telling telling;
};

/* Signs a roster: one signature for all its sheets. Refused with every fault of every row when any
 * row is wrong. Gives the file that was written. */
bool packet_sign(const struct resources *resources, const struct packet_signing *signing,
                 struct arena *arena, struct diag *diag, const char **written);

/* Reads every row of a roster as far as its plan. False after errors. */
bool packet_check(const struct resources *resources, const char *path, struct date today,
                  struct packet_telling telling, struct diag *diag);

#endif
