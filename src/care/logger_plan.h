/* The plan's part about a data logger: what it read of each place, by day and by night. */
#ifndef BASKLEAF_CARE_LOGGER_PLAN_H
#define BASKLEAF_CARE_LOGGER_PLAN_H

#include "base/date.h"
#include "records/terms.h"

enum { LOG_PLAN_DAYS = 7, LOG_PLAN_HOURS = LOG_PLAN_DAYS * 24 };

struct log_part_plan {
    bool known;
    double low, median, high; /* 5th, 50th and 95th percentile */
    bool has_outside;         /* it is held against a target */
    double target_low, target_high;
    double outside_percent; /* of the readings, outside the target that holds then */
};

/* Of an hour or a day: the lowest and the highest reading. */
struct log_span_plan {
    bool known;
    double lowest, highest;
};

struct log_probe_plan {
    const char *probe;
    enum zone zone;
    bool is_humidity;
    struct log_part_plan day, night;
    double lowest, highest, coverage_percent;
    bool has_drop;
    double night_drop_c; /* the medians' */
    bool has_limit;      /* the lower end of what is published for the night, or of the water */
    double limit, longest_below_h;
    struct log_span_plan *hours; /* [LOG_PLAN_HOURS] from the midnight that begins the week */
    struct log_span_plan days[LOG_PLAN_DAYS];
};

struct log_plan {
    const char *file; /* NULL: the record names none */
    const char *sha256;
    const char *previous_sha256; /* of that of the visit before */
    double rows, left_out;       /* cells that no instrument reads */
    struct date from, to;
    struct date week_from; /* the last days that are drawn begin here */
    double days, least_coverage_percent;
    bool has_coldest;
    size_t coldest; /* the probe that was longest below its limit */
    double day_from_h, day_to_h;
    bool day_assumed; /* no hours of light are known */
    struct log_probe_plan *probes;
    size_t probe_count;
};

#endif
