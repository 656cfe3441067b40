/* What one pass over a logger's readings leaves of one probe: enough for percentiles of any part
 * of the day and for the longest spell below any limit, in memory that does not grow. */
#ifndef BASKLEAF_RECORDS_LOG_SERIES_H
#define BASKLEAF_RECORDS_LOG_SERIES_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"

enum log_kind { LOG_TEMPERATURE, LOG_HUMIDITY };

/* Bins of a tenth, from -40 to 100: degrees or percent alike. */
enum { LOG_BINS = 1401, LOG_QUARTERS = 96, LOG_SILENCE_S = 2 * 60 * 60 };

/* The last week is kept hour by hour, to be drawn. */
enum { LOG_WEEK_DAYS = 7, LOG_WEEK_HOURS = LOG_WEEK_DAYS * 24 };

struct log_hour {
    bool known;
    int64_t number; /* hours since 1970 */
    double lowest, highest;
};

struct log_series {
    const char *probe; /* the title without quantity and unit; "" where nothing is left */
    enum log_kind kind;
    uint64_t count;
    double lowest, highest;    /* as read */
    int64_t first_s, last_s;   /* seconds since 1970 on the clock on the wall */
    uint32_t *counts;          /* [LOG_QUARTERS][LOG_BINS] */
    int bins_from, bins_to;    /* of these bins alone there are readings */
    uint32_t *steps;           /* [LOG_SILENCE_S + 1]: how often so many seconds went by */
    int64_t *starts, *longest; /* [LOG_BINS + 1]: spells below that bin */
    struct log_hour *week;     /* [LOG_WEEK_HOURS], an hour at its number modulo that */
    int64_t previous_s;
    int previous_bin;
    int way; /* of the rows: 1 with the clock, -1 against it, 0 not known */
};

/* The quarters of the day that are meant. */
struct log_part {
    bool in[LOG_QUARTERS];
};

void log_series_begin(struct log_series *series, struct arena *arena);

/* False, and not counted, where no such instrument reads so. */
bool log_series_add(struct log_series *series, int64_t at_s, double value);
void log_series_end(struct log_series *series);

/* How many readings fell into the part. */
uint64_t log_series_count(const struct log_series *series, const struct log_part *part);

/* By nearest rank, to a tenth; the part must have a reading. */
double log_series_percentile(const struct log_series *series, const struct log_part *part,
                             double percent);

/* The share of the part's readings from `low` to `high`, both ends within. */
double log_series_share(const struct log_series *series, const struct log_part *part, double low,
                        double high);

/* From the first to the last reading of the longest unbroken run below `limit`. */
int64_t log_series_longest_below_s(const struct log_series *series, double limit);

/* The hour of that number, if it lies in the last week of readings and has one; else NULL. */
const struct log_hour *log_series_hour(const struct log_series *series, int64_t number);

/* The middle step between readings, and the share of the time that has readings. */
int64_t log_series_step_s(const struct log_series *series);
double log_series_coverage(const struct log_series *series);

#endif
