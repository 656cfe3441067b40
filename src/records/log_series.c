/* Counts a probe's readings in bins, and its spells below each bin, as they go by. */
#include "records/log_series.h"

#include <math.h>
#include <stdlib.h>

static const double LOWEST = -40, A_TENTH = 10, ROUNDING = 1e-6;
static const double LEAST_HUMIDITY = 0.05; /* less is a broken sensor's nought */
enum { DAY_S = 86400, HOUR_S = 3600, QUARTER_S = 900 };

static double bin_value(int bin)
{
    return (bin + LOWEST * A_TENTH) / A_TENTH;
}

/* The first bin that is not below the limit. */
static int bin_from(double limit)
{
    double bin = ceil((limit - LOWEST) * A_TENTH - ROUNDING);
    return (int)fmax(0, fmin(bin, LOG_BINS));
}

void log_series_begin(struct log_series *series, struct arena *arena)
{
    series->counts = ARENA_ARRAY(arena, uint32_t, (size_t)LOG_QUARTERS * LOG_BINS);
    series->steps = ARENA_ARRAY(arena, uint32_t, LOG_SILENCE_S + 1);
    series->starts = ARENA_ARRAY(arena, int64_t, LOG_BINS + 1);
    series->longest = ARENA_ARRAY(arena, int64_t, LOG_BINS + 1);
    series->week = ARENA_ARRAY(arena, struct log_hour, LOG_WEEK_HOURS);
    series->previous_bin = LOG_BINS;
}

/* Of the limits from bin `from` to `to`; each was begun by a reading below it. */
static void end_spells(struct log_series *series, int from, int to)
{
    for (int bin = from; bin <= to; bin++) {
        int64_t lasted_s = llabs(series->previous_s - series->starts[bin]);
        series->longest[bin] = lasted_s > series->longest[bin] ? lasted_s : series->longest[bin];
    }
}

static void begin_spells(struct log_series *series, int from, int to, int64_t at_s)
{
    for (int bin = from; bin <= to; bin++)
        series->starts[bin] = at_s;
}

/* Rows run with the clock or against it. Where they turn, as when a clock is set, no spell goes
 * on: what lies between would be counted twice or not at all. */
static bool turns(struct log_series *series, int64_t at_s)
{
    const int way = (at_s > series->previous_s) - (at_s < series->previous_s);
    const bool is_turn = way != 0 && series->way != 0 && way != series->way;
    series->way = is_turn ? 0 : way != 0 ? way : series->way;
    return is_turn;
}

/* A step of no time is two readings of one moment: neither a step nor a silence. */
static void follow(struct log_series *series, int64_t at_s)
{
    int64_t step_s = llabs(at_s - series->previous_s);
    const bool is_silence = step_s > LOG_SILENCE_S;
    if (turns(series, at_s) || is_silence) {
        end_spells(series, series->previous_bin + 1, LOG_BINS);
        series->previous_bin = LOG_BINS;
    }
    series->steps[is_silence ? LOG_SILENCE_S : step_s]++;
}

static int64_t hour_of(int64_t at_s)
{
    return at_s / HOUR_S - (at_s % HOUR_S < 0); /* down, before 1970 too */
}

static struct log_hour *week_slot(const struct log_series *series, int64_t number)
{
    int64_t at = number % LOG_WEEK_HOURS;
    return &series->week[at < 0 ? at + LOG_WEEK_HOURS : at];
}

/* A later week takes the place of an earlier one, whichever way the rows run. */
static void add_to_week(struct log_series *series, int64_t at_s, double value)
{
    int64_t number = hour_of(at_s);
    struct log_hour *hour = week_slot(series, number);
    if (hour->known && hour->number > number)
        return;
    if (!hour->known || hour->number < number)
        *hour = (struct log_hour){true, number, value, value};
    hour->lowest = fmin(hour->lowest, value);
    hour->highest = fmax(hour->highest, value);
}

bool log_series_add(struct log_series *series, int64_t at_s, double value)
{
    double scaled = (value - LOWEST) * A_TENTH;
    if (!(scaled > -0.5 && scaled < LOG_BINS - 0.5) ||
        (series->kind == LOG_HUMIDITY && value < LEAST_HUMIDITY))
        return false;
    int bin = (int)lround(scaled);
    if (series->count)
        follow(series, at_s);
    int before = series->previous_bin;
    if (bin < before)
        begin_spells(series, bin + 1, before, at_s);
    else
        end_spells(series, before + 1, bin);
    if (!series->count || value < series->lowest)
        series->lowest = value;
    if (!series->count || value > series->highest)
        series->highest = value;
    if (!series->count || at_s < series->first_s)
        series->first_s = at_s;
    if (!series->count || at_s > series->last_s)
        series->last_s = at_s;
    int64_t of_day_s = ((at_s % DAY_S) + DAY_S) % DAY_S;
    series->counts[of_day_s / QUARTER_S * LOG_BINS + bin]++;
    series->bins_from = !series->count || bin < series->bins_from ? bin : series->bins_from;
    series->bins_to = bin >= series->bins_to ? bin + 1 : series->bins_to;
    add_to_week(series, at_s, value);
    series->count++;
    series->previous_s = at_s;
    series->previous_bin = bin;
    return true;
}

void log_series_end(struct log_series *series)
{
    if (series->count)
        end_spells(series, series->previous_bin + 1, LOG_BINS);
}

static uint64_t count_bin(const struct log_series *series, const struct log_part *part, int bin)
{
    uint64_t count = 0;
    for (int quarter = 0; quarter < LOG_QUARTERS; quarter++)
        if (part->in[quarter])
            count += series->counts[quarter * LOG_BINS + bin];
    return count;
}

uint64_t log_series_count(const struct log_series *series, const struct log_part *part)
{
    uint64_t count = 0;
    for (int bin = series->bins_from; bin < series->bins_to; bin++)
        count += count_bin(series, part, bin);
    return count;
}

double log_series_percentile(const struct log_series *series, const struct log_part *part,
                             double percent)
{
    double rank = ceil(percent / 100 * (double)log_series_count(series, part) - ROUNDING);
    uint64_t wanted = rank < 1 ? 1 : (uint64_t)rank, seen = 0;
    int bin = series->bins_from - 1;
    while (seen < wanted && bin < LOG_BINS - 1)
        seen += count_bin(series, part, ++bin);
    return bin_value(bin);
}

double log_series_share(const struct log_series *series, const struct log_part *part, double low,
                        double high)
{
    uint64_t all = log_series_count(series, part), within = 0;
    for (int bin = bin_from(low); bin < series->bins_to && bin_value(bin) <= high + ROUNDING; bin++)
        within += count_bin(series, part, bin);
    return all ? (double)within / (double)all : 0;
}

int64_t log_series_longest_below_s(const struct log_series *series, double limit)
{
    return series->longest[bin_from(limit)];
}

const struct log_hour *log_series_hour(const struct log_series *series, int64_t number)
{
    const struct log_hour *hour = week_slot(series, number);
    return hour->known && hour->number == number ? hour : NULL;
}

int64_t log_series_step_s(const struct log_series *series)
{
    uint64_t all = 0, seen = 0;
    for (int step = 1; step <= LOG_SILENCE_S; step++)
        all += series->steps[step];
    for (int step = 1; step <= LOG_SILENCE_S; step++) {
        seen += series->steps[step];
        if (all && seen * 2 >= all)
            return step;
    }
    return 0;
}

double log_series_coverage(const struct log_series *series)
{
    double step_s = (double)log_series_step_s(series);
    double span_s = (double)(series->last_s - series->first_s) + step_s;
    return span_s > 0 ? fmin((double)series->count * step_s / span_s, 1) : 0;
}
