/* A logger's file: dialects, what is refused with its place, and statistics against readings that
 * were sorted and searched one by one. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "common/suite.h"
#include "records/log_read.h"

static struct arena arena;
static struct diag diag;
static char path[] = "/tmp/baskleaf-log-XXXXXX";
static const struct date VISIT = {2026, 3, 14};

static void set_up(void)
{
    arena_init(&arena);
    diag_init(&diag);
    memcpy(path + strlen(path) - 6, "XXXXXX", 6);
    int fd = mkstemp(path);
    ck_assert_int_ge(fd, 0);
    close(fd);
}

static void tear_down(void)
{
    unlink(path);
    arena_finish(&arena);
    diag_finish(&diag);
}

static const struct log_file *read_bytes(const char *bytes, size_t length)
{
    FILE *out = fopen(path, "w");
    ck_assert_ptr_nonnull(out);
    ck_assert_uint_eq(fwrite(bytes, 1, length, out), length);
    fclose(out);
    return log_read(path, VISIT, &arena, &diag);
}

static const struct log_file *read_text(const char *text)
{
    return read_bytes(text, strlen(text));
}

static struct log_part all_day(void)
{
    struct log_part part;
    for (int i = 0; i < LOG_QUARTERS; i++)
        part.in[i] = true;
    return part;
}

/* A third title that speaks of time is one of a logger's own: the first two are read. */
START_TEST(two_titles_of_time_are_read)
{
    const struct log_file *log =
        read_text("Date;Time;Time zone time;T1 Temperature (C)\n"
                  "2026-03-13;10:00;99:99;24.5\n2026-03-13;10:10;99:99;25.5\n");
    ck_assert_msg(log != NULL, "%s", diag.first ? diag.first->text : "");
    ck_assert_uint_eq(log->series_count, 1);
}
END_TEST

/* ---- dialects ------------------------------------------------------------------------ */

/* Each says 24.5 C at 10:00 and 25.5 C at 10:10 on 13 March 2026. */
static const char *const dialects[] = {
    "Time,T1 Temperature (C)\n2026-03-13 10:00,24.5\n2026-03-13 10:10,25.5\n",
    "\xEF\xBB\xBFTime;T1 Temperature (\xC2\xB0"
    "C)\r\n2026-03-13 10:00;24,5\r\n2026-03-13 "
    "10:10;25,5\r\n",
    "Date\tTime\tT1 Temp [\xB0"
    "C]\n13.03.2026\t10:00:00\t24.5\n13.03.2026\t10:10:00\t25.5\n",
    "Fecha,T1 Temperatura (C)\n13/03/2026 10:00,24,5\n13/03/2026 10:10,25,5\n",
    "Timestamp,T1 Temp F\n03/13/2026 10:00 AM,76.1\n3/13/26 10:10:00 a.m.,77.9\n",
    "Time,T1 Temperature\n2026-03-13T10:00:00.000,24.5 C\n2026-03-13T10:10,25.5\xC2\xB0"
    "C\n",
    "Recorder 7\nowner,\n\nTime,Battery (%),T1 Temperature (C),Dew point (C)\n"
    "2026-03-13 10:10,88,25.5,12\n2026-03-13 10:00,88,24.5,12\n",
    "\"Time\",\"T1 Temperature (C)\"\n\"2026-03-13 10:00\",\"24,5\"\n\"2026-03-13 10:10\",25.5",
};

START_TEST(reads_each_dialect)
{
    const struct log_file *log = read_text(dialects[_i]);
    ck_assert_msg(log != NULL, "%s", diag.first ? diag.first->text : "");
    ck_assert_uint_eq(log->series_count, 1);
    const struct log_series *t = &log->series[0];
    ck_assert_str_eq(t->probe, "T1");
    ck_assert_uint_eq(t->count, 2);
    ck_assert_double_eq_tol(t->lowest, 24.5, 1e-9);
    ck_assert_double_eq_tol(t->highest, 25.5, 1e-9);
    /* 20525 days from 1970 to 13 March 2026 */
    ck_assert_int_eq(t->first_s, 20525 * 86400L + 10 * 3600);
    ck_assert_int_eq(t->last_s - t->first_s, 600);
}
END_TEST

START_TEST(parts_probes_and_kinds)
{
    const struct log_file *log =
        read_text("Time,T1 Temperature (C),T1 Humidity (%),Sensor C Temperature (F),Sensor C "
                  "Humidity (%)\n2026-03-13 10:00,30,40,--,60\n2026-03-13 10:10,-127,,68,61\n");
    ck_assert_ptr_nonnull(log);
    ck_assert_uint_eq(log->series_count, 4);
    ck_assert_str_eq(log->series[0].probe, "T1");
    ck_assert_str_eq(log->series[3].probe, "Sensor C");
    ck_assert_int_eq(log->series[1].kind, LOG_HUMIDITY);
    ck_assert_uint_eq(log->series[0].count, 1);
    ck_assert_uint_eq(log->left_out, 1);
    ck_assert_double_eq_tol(log->series[2].lowest, 20, 1e-9);
    ck_assert_uint_eq(log->series[2].count, 1);
}
END_TEST

/* A recorder writes of itself above its titles, in more cells than they have: none of those is a
 * column. */
START_TEST(a_wider_row_above_the_titles_leaves_no_column)
{
    const struct log_file *log =
        read_text("Serial,Channel,T9 Temperature (C),T9 Humidity (%)\nTime,T1 Temperature (C)\n"
                  "2026-03-13 10:00,30\n2026-03-13 10:10,31\n");
    ck_assert_ptr_nonnull(log);
    ck_assert_uint_eq(log->series_count, 1);
    ck_assert_str_eq(log->series[0].probe, "T1");
    ck_assert_uint_eq(log->series[0].count, 2);
}
END_TEST

/* As coreutils says it of the same file. */
START_TEST(takes_the_digest_of_the_bytes)
{
    const struct log_file *log = read_text(dialects[0]);
    ck_assert_ptr_nonnull(log);
    char command[128], line[80] = "";
    snprintf(command, sizeof command, "sha256sum %s", path);
    FILE *sum = popen(command, "r"); /* NOLINT(cert-env33-c) */
    ck_assert_ptr_nonnull(fgets(line, 65, sum));
    pclose(sum);
    ck_assert_str_eq(log->sha256, line);
}
END_TEST

/* ---- what is refused ----------------------------------------------------------------- */

static const struct refusal {
    const char *text, *code;
    int line, column;
} refusals[] = {
    {"Time,T1 Temperature (C)\n02/03/2026 10:00,24\n02/03/2026 11:00,24\n", "log-date-order", 2, 1},
    {"Time,T1 Temperature\n2026-03-13 10:00,24\n", "log-without-unit", 2, 18},
    {"Time,Sensor C\n2026-03-13 10:00,24\n", "log-without-titles", 2, 1},
    {"Time,T1 Temperature (C)\n2026-03-13 10:00,warm\n", "log-number", 2, 18},
    {"Time,T1 Temperature (C)\n2026-03-13 10:00,24\n2026-03-15 10:00,24\n", "log-after-visit", 3,
     1},
    {"Time,T1 Temperature (C)\n2024-03-13 10:00,24\n", "log-of-another-year", 2, 1},
    {"Time,T1 Temperature (C)\n2026-03-12 10:00,24\n2026-03-13 10:00,24\n2026-03-12 11:00,24\n",
     "log-runs-back", 4, 1},
    {"Time,T1 Temperature (C)\n2026-03-13 10:00,24\n2026-03-12 10:00,24\n2026-03-13 11:00,24\n",
     "log-runs-back", 4, 1},
    {"Time,T1 Temperature (C)\n2026-03-12T10:00Z,24\n", "log-time", 2, 1},
    {"Time,T1 Temperature (C)\n13/03/2026 25:00,24\n", "log-time", 2, 1},
    {"Time,T1 Temperature (C)\n2026-02-30 10:00,24\n", "log-time", 2, 1},
    {"Time,T1 Temperature (C)\n2026-03-12,24\n", "log-time", 2, 1},
    {"Time,T1 Temperature (C)\n2026-03-12 25:00,24\n", "log-time", 2, 1},
    {"Time,T1 Temperature (C)\n2026-03-12 10:00,24,5,6\n", "log-row", 2, 1},
    {"Time,T1 Temperature (C)\n2026-03-12 10:00,24 %\n", "log-unit", 2, 18},
    {"Time,T1 Temperature (C)\n", "log-empty", 1, 1},
    {"", "log-empty", 1, 1},
};

START_TEST(refuses_with_the_place)
{
    const struct refusal *r = &refusals[_i];
    ck_assert_ptr_null(read_text(r->text));
    ck_assert_ptr_nonnull(diag.first);
    ck_assert_str_eq(diag.first->code, r->code);
    ck_assert_int_eq(diag.first->at.line, r->line);
    ck_assert_int_eq(diag.first->at.column, r->column);
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], 1);
}
END_TEST

START_TEST(refuses_what_is_not_text)
{
    ck_assert_ptr_null(read_bytes("T\0i\0m\0e\0", 8));
    ck_assert_str_eq(diag.first->code, "log-not-text");
    ck_assert_ptr_null(log_read("/tmp", VISIT, &arena, &diag));
    ck_assert_ptr_null(log_read("/dev/null", VISIT, &arena, &diag));
}
END_TEST

/* 12 March might be 3 December; the day 13 behind it tells. */
START_TEST(settles_the_order_by_a_later_row)
{
    const struct log_file *log = read_text("Time,T1 Temperature (C)\n12/03/2026 10:00,24\n"
                                           "13/03/2026 10:00,24\n");
    ck_assert_ptr_nonnull(log);
    ck_assert_int_eq(log->first_s, 20524 * 86400L + 10 * 3600);
    /* neither day is above 12, but 3 December would lie after the visit */
    log = read_text("Time,T1 Temperature (C)\n12/03/2026 10:00,24\n");
    ck_assert_ptr_nonnull(log);
    ck_assert_int_eq(log->first_s, 20524 * 86400L + 10 * 3600);
}
END_TEST

/* The same hour comes twice when the clocks are put back. */
START_TEST(bears_a_clock_put_back)
{
    const struct log_file *log =
        read_text("Time,T1 Temperature (C)\n2025-10-26 02:50,24\n2025-10-26 02:00,24\n"
                  "2025-10-26 02:10,24\n");
    ck_assert_ptr_nonnull(log);
    ck_assert_uint_eq(log->series[0].count, 3);
}
END_TEST

/* ---- the statistics ------------------------------------------------------------------ */

struct sample {
    int64_t at_s;
    double value;
};

static int by_value(const void *a, const void *b)
{
    double x = ((const struct sample *)a)->value, y = ((const struct sample *)b)->value;
    return (x > y) - (x < y);
}

/* Tried at each start: the longest run below the limit without a silence within. */
static int64_t naive_longest(const struct sample *all, int count, double limit)
{
    int64_t longest = 0;
    for (int from = 0; from < count; from++)
        for (int to = from; to < count && all[to].value < limit - 1e-9; to++) {
            if (to > from && all[to].at_s - all[to - 1].at_s > 7200)
                break;
            if (all[to].at_s - all[from].at_s > longest)
                longest = all[to].at_s - all[from].at_s;
        }
    return longest;
}

enum { SAMPLES = 600 };

static int random_samples(unsigned seed, struct sample *all)
{
    double value = 24;
    int64_t at_s = 20500 * 86400L;
    srand(seed); /* NOLINT */
    for (int i = 0; i < SAMPLES; i++) {
        at_s += rand() % 50 == 0 ? 3 * 3600 : 60 * (1 + rand() % 15); /* NOLINT */
        value += (rand() % 21 - 10) / 10.0;                           /* NOLINT */
        all[i] = (struct sample){at_s, round(value * 10) / 10};
    }
    return SAMPLES;
}

static void add_all(struct log_series *series, const struct sample *all, int count, bool backwards)
{
    *series = (struct log_series){.probe = "", .kind = LOG_TEMPERATURE};
    log_series_begin(series, &arena);
    for (int i = 0; i < count; i++) {
        const struct sample *one = &all[backwards ? count - 1 - i : i];
        ck_assert(log_series_add(series, one->at_s, one->value));
    }
    log_series_end(series);
}

START_TEST(agrees_with_sorting_and_searching)
{
    static const double percents[] = {0, 5, 50, 95, 100};
    struct sample all[SAMPLES], sorted[SAMPLES];
    struct log_series series;
    int count = random_samples((unsigned)_i + 1, all);
    add_all(&series, all, count, _i % 2 == 1);
    for (double limit = 10; limit < 40; limit += 0.7)
        ck_assert_int_eq(log_series_longest_below_s(&series, limit),
                         naive_longest(all, count, limit));
    struct log_part morning = {{0}};
    for (int quarter = 24; quarter < 48; quarter++)
        morning.in[quarter] = true;
    int kept = 0, within = 0;
    for (int i = 0; i < count; i++)
        if (all[i].at_s % 86400 >= 6 * 3600 && all[i].at_s % 86400 < 12 * 3600)
            sorted[kept++] = all[i];
    qsort(sorted, (size_t)kept, sizeof *sorted, by_value);
    ck_assert_uint_eq(log_series_count(&series, &morning), kept);
    for (size_t p = 0; p < sizeof percents / sizeof *percents; p++) {
        int rank = (int)ceil(percents[p] * kept / 100);
        ck_assert_double_eq_tol(log_series_percentile(&series, &morning, percents[p]),
                                sorted[rank < 1 ? 0 : rank - 1].value, 1e-9);
    }
    for (int i = 0; i < kept; i++)
        within += sorted[i].value >= 22.3 - 1e-9 && sorted[i].value <= 25.1 + 1e-9;
    ck_assert_double_eq_tol(log_series_share(&series, &morning, 22.3, 25.1), (double)within / kept,
                            1e-12);
}
END_TEST

/* Each hour of the last week, from its readings alone: tried hour by hour over nine days, from 1970
 * on, before it, and across its first second, which is hour 0. An hour a week later takes the
 * place. */
START_TEST(keeps_the_hours_of_the_last_week)
{
    static const int64_t begins_s[] = {20500 * 86400L, -3 * 86400L, -20500 * 86400L};
    const int64_t begin_s = begins_s[_i / 2], step_s = 1260; /* 21 minutes */
    struct log_series series = {.probe = "", .kind = LOG_TEMPERATURE};
    log_series_begin(&series, &arena);
    const int count = (int)(9 * 86400L / step_s);
    for (int i = 0; i < count; i++) {
        int at = _i % 2 ? count - 1 - i : i; /* forwards and backwards */
        ck_assert(log_series_add(&series, begin_s + at * step_s, 20 + at * 7 % 11));
    }
    log_series_end(&series);
    int64_t first = (int64_t)floor((double)begin_s / 3600);
    int64_t last = (int64_t)floor((double)(begin_s + (count - 1) * step_s) / 3600);
    for (int64_t number = first - 200; number <= last + 200; number++) {
        double lowest = INFINITY, highest = -INFINITY;
        for (int at = 0; at < count && number > last - LOG_WEEK_HOURS; at++)
            if (floor((double)(begin_s + at * step_s) / 3600) == (double)number) {
                lowest = fmin(lowest, 20 + at * 7 % 11);
                highest = fmax(highest, 20 + at * 7 % 11);
            }
        const struct log_hour *hour = log_series_hour(&series, number);
        ck_assert_int_eq(hour != NULL, lowest <= highest);
        if (!hour)
            continue;
        ck_assert_double_eq(hour->lowest, lowest);
        ck_assert_double_eq(hour->highest, highest);
    }
}
END_TEST

/* From -40 to 100 in tenths; the next tenth either way no instrument reads. Air of less than half
 * a tenth of a percent is a broken sensor's. */
START_TEST(counts_what_an_instrument_can_read)
{
    static const struct {
        enum log_kind kind;
        double value;
        bool counted;
    } rows[] = {
        {LOG_TEMPERATURE, -40, true},     {LOG_TEMPERATURE, -40.04, true},
        {LOG_TEMPERATURE, -40.1, false},  {LOG_TEMPERATURE, 100, true},
        {LOG_TEMPERATURE, 100.04, true},  {LOG_TEMPERATURE, 100.1, false},
        {LOG_TEMPERATURE, 100.05, false}, {LOG_TEMPERATURE, 0, true},
        {LOG_TEMPERATURE, NAN, false},    {LOG_HUMIDITY, 0, false},
        {LOG_HUMIDITY, 0.04, false},      {LOG_HUMIDITY, 0.05, true},
        {LOG_HUMIDITY, 100, true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct log_series series = {.probe = "", .kind = rows[i].kind};
        struct log_part part = all_day();
        log_series_begin(&series, &arena);
        ck_assert_msg(log_series_add(&series, 0, rows[i].value) == rows[i].counted, "row %zu", i);
        log_series_end(&series);
        ck_assert_uint_eq(series.count, rows[i].counted);
        ck_assert_uint_eq(log_series_count(&series, &part), rows[i].counted);
        if (!rows[i].counted)
            continue;
        ck_assert_double_eq(series.lowest, rows[i].value);
        ck_assert_double_eq(series.highest, rows[i].value);
        ck_assert_double_eq_tol(log_series_percentile(&series, &part, 50), rows[i].value,
                                0.05 + 1e-9);
        ck_assert_double_eq(log_series_share(&series, &part, -40, 100.1), 1);
        ck_assert_double_eq(log_series_share(&series, &part, rows[i].value + 0.2, 100.1), 0);
    }
}
END_TEST

/* A limit that lies outside of what is read has all below it or nothing. */
START_TEST(below_a_limit_outside_of_the_bins)
{
    struct log_series series = {.probe = "", .kind = LOG_TEMPERATURE};
    log_series_begin(&series, &arena);
    static const double values[] = {-40, -39.9, 99.9, 100, -40};
    for (int i = 0; i < 5; i++)
        ck_assert(log_series_add(&series, 600L * i, values[i]));
    log_series_end(&series);
    ck_assert_int_eq(log_series_longest_below_s(&series, 500), 2400);
    ck_assert_int_eq(log_series_longest_below_s(&series, 100.1), 2400);
    ck_assert_int_eq(log_series_longest_below_s(&series, 100), 1200);
    ck_assert_int_eq(log_series_longest_below_s(&series, 99.9), 600);
    ck_assert_int_eq(log_series_longest_below_s(&series, -39.9), 0);
    ck_assert_int_eq(log_series_longest_below_s(&series, -40), 0);
    ck_assert_int_eq(log_series_longest_below_s(&series, -500), 0);
}
END_TEST

/* Two hours without a reading are a step as any other; one second more is a silence, which ends a
 * spell. Two readings of one moment are no step. The middle of the steps is said. */
START_TEST(a_silence_begins_past_two_hours)
{
    for (int longer_s = 0; longer_s < 2; longer_s++) {
        struct log_series series = {.probe = "", .kind = LOG_TEMPERATURE};
        log_series_begin(&series, &arena);
        const int64_t at_s[] = {0, 7200 + longer_s, 14400 + longer_s};
        for (int i = 0; i < 3; i++)
            ck_assert(log_series_add(&series, at_s[i], 20));
        log_series_end(&series);
        ck_assert_int_eq(log_series_longest_below_s(&series, 25), longer_s ? 7200 : 14400);
        ck_assert_int_eq(log_series_step_s(&series), 7200);
    }
    static const struct {
        int64_t at_s[5];
        int count;
        int64_t step_s;
    } rows[] = {{{0, 0, 0}, 3, 0},
                {{0, 1}, 2, 1},
                {{0, 0, 60, 60}, 4, 60},
                {{0, 60, 180}, 3, 60},
                {{0, 60, 180, 300}, 4, 120},
                {{5}, 1, 0},
                {{0, 10, 30, 60, 100}, 5, 20}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct log_series series = {.probe = "", .kind = LOG_TEMPERATURE};
        log_series_begin(&series, &arena);
        for (int k = 0; k < rows[i].count; k++)
            ck_assert(log_series_add(&series, rows[i].at_s[k], 20));
        log_series_end(&series);
        ck_assert_msg(log_series_step_s(&series) == rows[i].step_s, "row %zu", i);
        ck_assert_int_eq(series.first_s, rows[i].at_s[0]);
        ck_assert_int_eq(series.last_s, rows[i].at_s[rows[i].count - 1]);
    }
}
END_TEST

/* A clock that is set ends a spell; minutes and degrees by hand. What lies below a limit lies below
 * each higher one, so that its longest spell is no longer than theirs. */
START_TEST(rows_that_turn_end_a_spell)
{
    static const struct {
        int count, minutes[5], degrees[5], longest_below_20, longest_below_50;
    } rows[] = {
        {5, {0, 51, 20, 10, 10}, {25, 0, 2, 45, 25}, 0, 51},   /* forth, back, and back again */
        {4, {0, 10, 20, 30}, {10, 10, 10, 30}, 20, 30},        /* one way */
        {4, {30, 20, 10, 0}, {10, 10, 10, 30}, 20, 30},        /* the newest first */
        {5, {0, 40, 60, 5, 25}, {10, 10, 10, 10, 10}, 60, 60}, /* an hour back in autumn */
        {5, {0, 10, 10, 0, 10}, {10, 10, 10, 10, 10}, 10, 10}, /* one moment twice */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct log_series series = {.probe = "", .kind = LOG_TEMPERATURE};
        log_series_begin(&series, &arena);
        for (int k = 0; k < rows[i].count; k++)
            ck_assert(log_series_add(&series, 60 * rows[i].minutes[k], rows[i].degrees[k]));
        log_series_end(&series);
        ck_assert_int_eq(log_series_longest_below_s(&series, 20), 60 * rows[i].longest_below_20);
        ck_assert_int_eq(log_series_longest_below_s(&series, 50), 60 * rows[i].longest_below_50);
    }
}
END_TEST

/* One reading alone covers no time; readings that follow on one another cover all of it, and more
 * of them no more. */
START_TEST(covers_all_and_no_more)
{
    struct log_series series = {.probe = "", .kind = LOG_TEMPERATURE};
    log_series_begin(&series, &arena);
    ck_assert(log_series_add(&series, 60, 20));
    ck_assert_double_eq(log_series_coverage(&series), 0);
    for (int i = 2; i < 10; i++)
        ck_assert(log_series_add(&series, 60 * i, 20));
    ck_assert_double_eq(log_series_coverage(&series), 1);
    ck_assert(log_series_add(&series, 60 * 9, 20));
    ck_assert_double_eq(log_series_coverage(&series), 1);
}
END_TEST

/* Ten readings ten minutes apart, five silent hours, ten more: 20 of (400 + 10) / 10 = 41. */
START_TEST(says_how_much_is_covered)
{
    struct log_series series = {.kind = LOG_TEMPERATURE};
    log_series_begin(&series, &arena);
    for (int i = 0; i < 20; i++)
        log_series_add(&series, 600L * i + (i >= 10 ? 600L * 21 : 0), 24);
    log_series_end(&series);
    ck_assert_int_eq(log_series_step_s(&series), 600);
    ck_assert_double_eq_tol(log_series_coverage(&series), 20 / 41.0, 1e-9);
    struct log_part part = all_day();
    ck_assert_uint_eq(log_series_count(&series, &part), 20);
}
END_TEST

/* Two hundred thousand rows take no more memory than two. */
START_TEST(streams_in_flat_memory)
{
    FILE *out = fopen(path, "w");
    fputs("Time,T1 Temperature (C)\n", out);
    for (int i = 0; i < 200000; i++)
        fprintf(out, "2026-03-%02d %02d:%02d:%02d,%d.%d\n", 1 + i / 86400, i / 3600 % 24,
                i / 60 % 60, i % 60, 20 + i % 7, i % 10);
    fclose(out);
    const struct log_file *log = log_read(path, VISIT, &arena, &diag);
    ck_assert_ptr_nonnull(log);
    ck_assert_uint_eq(log->rows, 200000);
    size_t many = arena.used_bytes;
    ck_assert_ptr_nonnull(read_text(dialects[0]));
    ck_assert_uint_eq(arena.used_bytes - many, many);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("log");
    TCase *tests = tcase_create("log");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, reads_each_dialect, 0, sizeof dialects / sizeof *dialects);
    tcase_add_test(tests, parts_probes_and_kinds);
    tcase_add_test(tests, a_wider_row_above_the_titles_leaves_no_column);
    tcase_add_test(tests, takes_the_digest_of_the_bytes);
    tcase_add_loop_test(tests, refuses_with_the_place, 0, sizeof refusals / sizeof *refusals);
    tcase_add_test(tests, refuses_what_is_not_text);
    tcase_add_test(tests, settles_the_order_by_a_later_row);
    tcase_add_test(tests, bears_a_clock_put_back);
    tcase_add_loop_test(tests, agrees_with_sorting_and_searching, 0, 20);
    tcase_add_loop_test(tests, keeps_the_hours_of_the_last_week, 0, 6);
    tcase_add_test(tests, counts_what_an_instrument_can_read);
    tcase_add_test(tests, below_a_limit_outside_of_the_bins);
    tcase_add_test(tests, a_silence_begins_past_two_hours);
    tcase_add_test(tests, rows_that_turn_end_a_spell);
    tcase_add_test(tests, covers_all_and_no_more);
    tcase_add_test(tests, says_how_much_is_covered);
    tcase_add_test(tests, streams_in_flat_memory);
    tcase_add_test(tests, two_titles_of_time_are_read);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
