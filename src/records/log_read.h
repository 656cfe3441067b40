/* A logger's file, as cheap recorders write it: a title row within the first lines, one row a
 * moment, commas, semicolons or tabs between the cells. Read once, in memory that does not grow. */
#ifndef BASKLEAF_RECORDS_LOG_READ_H
#define BASKLEAF_RECORDS_LOG_READ_H

#include "base/date.h"
#include "base/diag.h"
#include "records/log_series.h"

enum { LOG_SERIES_MOST = 16, LOG_HEX_BYTES = 65 };

struct log_file {
    const char *path;
    struct log_series series[LOG_SERIES_MOST];
    size_t series_count;
    uint64_t rows, left_out; /* cells that no such instrument reads */
    int64_t first_s, last_s;
    char sha256[LOG_HEX_BYTES]; /* of the file's bytes */
};

/* NULL after a DIAG_ERROR with its place. Readings after the day of the visit are an error, and so
 * is a log that ended a year before it. */
const struct log_file *log_read(const char *path, struct date visit, struct arena *arena,
                                struct diag *diag);

#endif
