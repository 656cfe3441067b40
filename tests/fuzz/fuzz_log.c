/* Bytes -> a logger's file. The reader takes a file, so it gets one. What is read holds together:
 * percentiles rise, shares and coverage stay below one. */
#include <string.h>

#include "fuzz/fuzz.h"
#include "records/log_read.h"

static void look_at(const struct log_series *series)
{
    struct log_part all;
    memset(&all, 1, sizeof all);
    uint64_t count = log_series_count(series, &all);
    fuzz_must(count == series->count, "each reading is counted once");
    if (!count)
        return;
    double low = log_series_percentile(series, &all, 5);
    double middle = log_series_percentile(series, &all, 50);
    double high = log_series_percentile(series, &all, 95);
    fuzz_must(low <= middle && middle <= high, "percentiles rise");
    fuzz_must(low >= series->lowest - 0.06 && high <= series->highest + 0.06,
              "percentiles lie between the lowest and the highest");
    double share = log_series_share(series, &all, low, high), covered = log_series_coverage(series);
    fuzz_must(share > 0 && share <= 1 && covered >= 0 && covered <= 1, "shares are shares");
    fuzz_must(log_series_longest_below_s(series, middle) <=
                  log_series_longest_below_s(series, high),
              "a higher limit has no shorter spell");
}

void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag)
{
    const char *path = fuzz_file(bytes);
    const struct log_file *log = log_read(path, (struct date){2026, 3, 20}, arena, diag);
    fuzz_must((log != NULL) != diag_failed(diag), "read, or a fault said");
    for (size_t i = 0; log && i < log->series_count; i++)
        look_at(&log->series[i]);
}
