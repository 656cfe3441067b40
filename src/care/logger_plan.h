/* The plan's part about a data logger: what it read of each place, by day and by night. */
#ifndef BASKLEAF_CARE_LOGGER_PLAN_H
#define BASKLEAF_CARE_LOGGER_PLAN_H

#include "base/date.h"
#include "records/terms.h"

struct log_part_plan {
    bool known;
    double low, median, high; /* 5th, 50th and 95th percentile */
    bool has_outside;
    double outside_percent; /* of the readings, outside the target that holds then */
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
};

struct log_plan {
    const char *file; /* NULL: the record names none */
    const char *sha256;
    const char *previous_sha256; /* of that of the visit before */
    double rows, left_out;       /* cells that no instrument reads */
    struct date from, to;
    double day_from_h, day_to_h;
    bool day_assumed; /* no hours of light are known */
    struct log_probe_plan *probes;
    size_t probe_count;
};

#endif
