/* A logger's readings in a plan: which probe lies where, what is day and what is night, which
 * reading is judged, the last week hour by hour, and what lay outside. The readings are made here,
 * each quarter of an hour, so that every median, share and spell is known beforehand. When the day
 * begins, how old a log may be and what a meter may err is reference-values.yaml's. */
#include <math.h>
#include <string.h>

#include "care/fixture.h"
#include "care/log.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { QUARTER_S = 900, QUARTERS = 96, DAY_S = 86400 };

static struct care_fixture f;
static struct log_file file;
static struct visit_enclosure *home;

/* The visit is on 14 March 2026; the last whole day of a log is the 13th. */
static void set_up(void)
{
    fixture_init(&f);
    memset(&file, 0, sizeof file);
    home = &f.visit.enclosure;
    home->readings.log.file = fixture_text("log.csv");
    f.in.log = &file;
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static void again(void)
{
    tear_down();
    set_up();
}

static struct log_series *probe(const char *name, enum log_kind kind)
{
    struct log_series *series = &file.series[file.series_count++];
    *series = (struct log_series){.probe = name, .kind = kind};
    log_series_begin(series, &f.arena);
    return series;
}

/* One reading each quarter of an hour of so many whole days before the visit. */
static void read_days(struct log_series *series, int days, double (*value)(int day, int quarter))
{
    const int64_t first_s = ((int64_t)date_to_days(f.plan.on) - days) * DAY_S;
    for (int i = 0; i < days * QUARTERS; i++) {
        const double one = value(i / QUARTERS, i % QUARTERS);
        if (!isnan(one))
            ck_assert(log_series_add(series, first_s + (int64_t)i * QUARTER_S, one));
    }
    log_series_end(series);
    file.first_s = series->first_s;
    file.last_s = series->last_s;
}

/* 30 from six to six, 20 by night. */
static double day_and_night(int day, int quarter)
{
    (void)day;
    return quarter >= 24 && quarter < 72 ? 30 : 20;
}

static double day_and_night_humid(int day, int quarter)
{
    (void)day;
    return quarter >= 24 && quarter < 72 ? 40 : 70;
}

static void place(const char *const *names, const enum zone *zones, size_t count)
{
    struct visit_log_probe probes[6];
    for (size_t i = 0; i < count; i++)
        probes[i] = (struct visit_log_probe){fixture_text(names[i]), fixture_choice((int)zones[i])};
    home->readings.log.probes = fixture_list(&f, probes, count, sizeof *probes);
}

static const struct log_plan *made(void)
{
    ck_assert(log_plan(&f.b));
    return &f.plan.log;
}

static double judged(enum measure_id measure)
{
    const struct quantity *one = &f.b.in->visit->measured[measure];
    return one->known ? one->value : NAN;
}

/* ---- day and night -------------------------------------------------------------------------- */

/* So many hours round noon: the lamp's, else the middle of hers, else twelve, which is told. */
START_TEST(the_day_is_as_long_as_its_light)
{
    static const struct {
        double lamp, own_low, own_high, from, to;
    } rows[] = {{12, 0, 0, 6, 18},        {10, 0, 0, 7, 17}, {14, 12, 12, 5, 19},
                {0, 12, 14, 5.5, 18.5},   {0, 0, 0, 6, 18},  {24, 0, 0, 0, 24},
                {0.5, 0, 0, 11.75, 12.25}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        if (rows[i].lamp > 0)
            home->lamp.hours = fixture_quantity(rows[i].lamp);
        if (rows[i].own_low > 0)
            f.visit.targets.light_hours = fixture_band(rows[i].own_low, rows[i].own_high);
        read_days(probe("warm-side", LOG_TEMPERATURE), 2, day_and_night);
        const struct log_plan *log = made();
        const bool assumed = rows[i].lamp <= 0 && rows[i].own_low <= 0;
        ck_assert_double_eq(log->day_from_h, rows[i].from);
        ck_assert_double_eq(log->day_to_h, rows[i].to);
        ck_assert_int_eq(log->day_assumed, assumed);
        ck_assert_int_eq(fixture_review(&f, "log-day-assumed") != NULL, assumed);
        const struct log_part day = log_quarters(log, true), night = log_quarters(log, false);
        for (int q = 0; q < QUARTERS; q++) {
            const bool is_day = q / 4.0 >= rows[i].from && (q + 1) / 4.0 <= rows[i].to;
            ck_assert_msg(day.in[q] == is_day && night.in[q] == !is_day, "row %d, %d", i, q);
        }
    }
}
END_TEST

START_TEST(medians_of_day_and_night)
{
    read_days(probe("warm-side", LOG_TEMPERATURE), 3, day_and_night);
    const struct log_plan *log = made();
    ck_assert_uint_eq(log->probe_count, 1);
    const struct log_probe_plan *one = &log->probes[0];
    ck_assert(one->day.known && one->night.known && one->has_drop && !one->is_humidity);
    ck_assert(one->day.low == 30 && one->day.median == 30 && one->day.high == 30);
    ck_assert(one->night.low == 20 && one->night.median == 20 && one->night.high == 20);
    ck_assert(one->night_drop_c == 10 && one->lowest == 20 && one->highest == 30);
    ck_assert_double_eq_tol(one->coverage_percent, 100, 1e-9);
    ck_assert_double_eq(log->days, 3);
    ck_assert_int_eq(date_days_between(log->to, f.plan.on), 1);
    ck_assert_int_eq(date_days_between(log->from, log->to), 2);
}
END_TEST

static double only_by_night(int day, int quarter)
{
    (void)day;
    return quarter >= 24 && quarter < 72 ? NAN : 21;
}

/* Without a reading by day there is no drop, and nothing of the day to judge. */
START_TEST(a_part_that_was_not_read)
{
    read_days(probe("warm-side", LOG_TEMPERATURE), 3, only_by_night);
    const struct log_probe_plan *one = &made()->probes[0];
    ck_assert(!one->day.known && one->night.known && !one->has_drop);
    ck_assert_double_eq(one->night_drop_c, 0);
    ck_assert(isnan(judged(MEASURE_WARM_SIDE)));
    ck_assert_double_eq(judged(MEASURE_NIGHT), 21);
    ck_assert_double_lt(one->coverage_percent, 60);
    ck_assert_double_eq(f.plan.log.least_coverage_percent, one->coverage_percent);
}
END_TEST

/* ---- which probe lies where ----------------------------------------------------------------- */

START_TEST(places_by_the_record_or_by_the_titles)
{
    static const char *const names[] = {"T1", "T 2"};
    static const enum zone zones[] = {ZONE_COOL_SIDE, ZONE_BASKING_SURFACE};
    read_days(probe("T1", LOG_TEMPERATURE), 1, day_and_night);
    read_days(probe("t-2", LOG_TEMPERATURE), 1, day_and_night);
    read_days(probe("warm-side", LOG_TEMPERATURE), 1, day_and_night); /* the record does not say */
    place(names, zones, 2);
    const struct log_plan *log = made();
    ck_assert_uint_eq(log->probe_count, 2);
    ck_assert_int_eq(log->probes[0].zone, ZONE_COOL_SIDE);
    ck_assert_int_eq(log->probes[1].zone, ZONE_BASKING_SURFACE);
    again();
    read_days(probe("Warm side", LOG_TEMPERATURE), 1, day_and_night);
    read_days(probe("Sensor 4", LOG_TEMPERATURE), 1, day_and_night);
    read_days(probe("warm-side", LOG_TEMPERATURE), 1, day_and_night); /* in another unit */
    read_days(probe("warm-side", LOG_HUMIDITY), 1, day_and_night_humid);
    log = made();
    ck_assert_uint_eq(log->probe_count, 2);
    ck_assert_str_eq(log->probes[0].probe, "Warm side");
    ck_assert(log->probes[1].is_humidity && log->probes[1].zone == ZONE_WARM_SIDE);
}
END_TEST

static const struct {
    const char *names[2];
    enum zone zones[2];
    const char *code;
} refused_rows[] = {
    {{"T1", "T2"}, {ZONE_WARM_SIDE, ZONE_NIGHT}, "log-probe-night"},
    {{"T1", "T2"}, {ZONE_NIGHT_WARM_SIDE, ZONE_COOL_SIDE}, "log-probe-night"},
    {{"T1", "T2"}, {ZONE_WARM_SIDE, ZONE_WARM_SIDE}, "log-place-twice"},
    {{"T1", "T3"}, {ZONE_WARM_SIDE, ZONE_COOL_SIDE}, "log-no-such-probe"},
    {{"T0", "T2"}, {ZONE_WARM_SIDE, ZONE_COOL_SIDE}, "log-no-such-probe"},
    {{"T1", "T2"}, {ZONE_WARM_SIDE, ZONE_COOL_SIDE}, NULL},
};

START_TEST(what_cannot_be_a_place_is_refused)
{
    read_days(probe("T1", LOG_TEMPERATURE), 1, day_and_night);
    read_days(probe("T1", LOG_HUMIDITY), 1, day_and_night_humid);
    read_days(probe("T2", LOG_TEMPERATURE), 1, day_and_night);
    place(refused_rows[_i].names, refused_rows[_i].zones, 2);
    ck_assert_int_eq(log_plan(&f.b), refused_rows[_i].code == NULL);
    if (!refused_rows[_i].code)
        return;
    ck_assert(fixture_said(&f, refused_rows[_i].code));
    if (strstr(refused_rows[_i].code, "no-such")) /* each probe that there is, once */
        ck_assert_msg(strstr(f.diag.first->text, "it has 'T1', 'T2'"), "%s", f.diag.first->text);
}
END_TEST

static double at_limit(int day, int quarter)
{
    (void)day;
    (void)quarter;
    return 65;
}

static double above_limit(int day, int quarter)
{
    return at_limit(day, quarter) + 0.1;
}

/* 65 C half of the time is the hottest that is believed; a probe that nobody placed says nothing.
 */
START_TEST(a_log_that_says_nothing_is_refused)
{
    read_days(probe("basking-surface", LOG_TEMPERATURE), 1, at_limit);
    ck_assert(log_plan(&f.b));
    again();
    read_days(probe("basking-surface", LOG_TEMPERATURE), 1, above_limit);
    ck_assert(!log_plan(&f.b) && fixture_said(&f, "log-unit-unlikely"));
    again();
    read_days(probe("Sensor 4", LOG_TEMPERATURE), 1, day_and_night);
    ck_assert(!log_plan(&f.b) && fixture_said(&f, "log-without-place"));
    static const char *const places[] = {"basking-surface", "warm-side", "cool-side"};
    for (int i = 0; i < COUNT(places); i++) {
        again();
        probe(places[i], LOG_TEMPERATURE);
        ck_assert(!log_plan(&f.b) && fixture_said(&f, "log-without-readings"));
    }
}
END_TEST

/* ---- what is judged ------------------------------------------------------------------------- */

static double colder(int day, int quarter)
{
    return day_and_night(day, quarter) - 4;
}

/* The day is each place's own; the night is the cool side's, else the warm side's, and never that
 * of the lamp's surface. */
START_TEST(the_night_is_of_the_coolest_place)
{
    for (int i = 0; i < 3; i++) {
        again();
        read_days(probe("basking-surface", LOG_TEMPERATURE), 2, day_and_night);
        if (i > 0)
            read_days(probe("warm-side", LOG_TEMPERATURE), 2, day_and_night);
        if (i > 1)
            read_days(probe("cool-side", LOG_TEMPERATURE), 2, colder);
        const struct log_plan *log = made();
        ck_assert_double_eq(judged(MEASURE_BASKING_SURFACE), 30);
        const double wanted = i == 0 ? NAN : i == 1 ? 20 : 16;
        ck_assert(i == 0 ? isnan(judged(MEASURE_NIGHT)) : judged(MEASURE_NIGHT) == wanted);
        ck_assert_int_eq(log_night_probe(log) == NULL, i == 0);
        ck_assert(isnan(judged(MEASURE_NIGHT_WARM_SIDE))); /* nothing is meant of it */
    }
    again();
    f.species.measured[MEASURE_NIGHT_WARM_SIDE] = fixture_cited(20, 24);
    read_days(probe("warm-side", LOG_TEMPERATURE), 2, day_and_night);
    made();
    ck_assert_double_eq(judged(MEASURE_NIGHT_WARM_SIDE), 20);
}
END_TEST

/* Two thermometers may err by a degree each: what was written is named when it is further off than
 * two, and the logger's is judged all the same. */
START_TEST(what_was_written_gives_way)
{
    static const struct {
        double written;
        bool differs;
    } rows[] = {{30, false}, {32, false}, {28, false}, {32.1, true}, {27.9, true}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.visit.measured[MEASURE_WARM_SIDE] = fixture_quantity(rows[i].written);
        read_days(probe("warm-side", LOG_TEMPERATURE), 2, day_and_night);
        made();
        ck_assert_double_eq(judged(MEASURE_WARM_SIDE), 30);
        const struct review *told = fixture_review(&f, "log-differs");
        ck_assert_msg((told != NULL) == rows[i].differs, "row %d", i);
        if (told) {
            ck_assert_double_eq(fixture_fact(told, "written")->low, rows[i].written);
            ck_assert_double_eq(fixture_fact(told, "logged")->low, 30);
        }
    }
}
END_TEST

/* Humidity is judged at the place that the record names, else on the cool side first. */
START_TEST(humidity_is_of_one_place)
{
    static const char *const names[] = {"basking-surface", "warm-side", "cool-side"};
    static const struct {
        bool has[3];
        int named; /* -1: not */
        int wanted;
    } rows[] = {{{true, true, true}, -1, ZONE_COOL_SIDE},
                {{true, true, false}, -1, ZONE_WARM_SIDE},
                {{true, false, false}, -1, ZONE_BASKING_SURFACE},
                {{true, true, true}, ZONE_WARM_SIDE, ZONE_WARM_SIDE},
                {{true, false, true}, ZONE_BASKING_SURFACE, ZONE_BASKING_SURFACE},
                {{true, false, true}, ZONE_WARM_SIDE, -1}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        for (int k = 0; k < 3; k++)
            if (rows[i].has[k])
                read_days(probe(names[k], LOG_HUMIDITY), 1, day_and_night_humid);
        if (rows[i].named >= 0)
            home->readings.humidity_at = fixture_choice(rows[i].named);
        made();
        ck_assert(rows[i].wanted < 0 ? isnan(judged(MEASURE_HUMIDITY))
                                     : judged(MEASURE_HUMIDITY) == 40);
        if (rows[i].wanted >= 0)
            ck_assert_int_eq(f.b.in->visit->enclosure.readings.humidity_at.value, rows[i].wanted);
    }
}
END_TEST

/* ---- the week ------------------------------------------------------------------------------- */

/* Rises by the hour and from day to day, and the third day has no reading from ten to eleven. */
static double by_the_hour(int day, int quarter)
{
    if (day == 5 && quarter / 4 == 10)
        return NAN;
    return 10 + day + quarter / 4 * 0.5 + quarter % 4 * 0.1;
}

/* Of ten days the last seven, each hour and each day from its own lowest to its own highest. */
START_TEST(the_last_week_hour_by_hour)
{
    enum { DAYS = 10, SKIPPED = DAYS - 7 };
    read_days(probe("warm-side", LOG_TEMPERATURE), DAYS, by_the_hour);
    const struct log_plan *log = made();
    const struct log_probe_plan *one = &log->probes[0];
    ck_assert_int_eq(date_days_between(log->week_from, f.plan.on), 7);
    for (int i = 0; i < LOG_PLAN_HOURS; i++) {
        const int day = i / 24 + SKIPPED, hour = i % 24;
        const struct log_span_plan *span = &one->hours[i];
        ck_assert_msg(span->known == !(day == 5 && hour == 10), "hour %d", i);
        if (!span->known)
            continue;
        ck_assert_double_eq_tol(span->lowest, 10 + day + hour * 0.5, 1e-9);
        ck_assert_double_eq_tol(span->highest, 10 + day + hour * 0.5 + 0.3, 1e-9);
    }
    for (int i = 0; i < LOG_PLAN_DAYS; i++) {
        ck_assert(one->days[i].known);
        ck_assert_double_eq_tol(one->days[i].lowest, 10 + i + SKIPPED, 1e-9);
        ck_assert_double_eq_tol(one->days[i].highest, 10 + i + SKIPPED + 23 * 0.5 + 0.3, 1e-9);
    }
}
END_TEST

/* Sixty days old is not yet told, a day more is; and so is each cell that no instrument reads. */
START_TEST(an_old_log_is_told)
{
    for (int days = 60; days <= 61; days++) {
        again();
        read_days(probe("warm-side", LOG_TEMPERATURE), 1, day_and_night);
        f.plan.on = date_add_days(f.plan.on, days - 1); /* the last reading is of the day before */
        made();
        ck_assert_int_eq(fixture_review(&f, "log-old") != NULL, days > 60);
        ck_assert_ptr_null(fixture_review(&f, "log-left-out"));
    }
    again();
    file.left_out = 1;
    read_days(probe("warm-side", LOG_TEMPERATURE), 1, day_and_night);
    made();
    ck_assert_double_eq(fixture_fact(fixture_review(&f, "log-left-out"), "count")->low, 1);
}
END_TEST

/* ---- against the targets -------------------------------------------------------------------- */

static void aim(enum measure_id measure, double low, double high)
{
    f.plan.measured[measure] =
        (struct measured_plan){.applies = true, .low = low, .high = high, .most = INFINITY};
}

/* By day an hour each of 27, 28, 34 and 35 among 30, by night 17 for two hours, else 20. */
static double around(int day, int quarter)
{
    static const double at[] = {27, 28, 34, 35};
    const int hour = quarter / 4;
    (void)day;
    if (hour >= 8 && hour < 12)
        return at[hour - 8];
    return hour >= 6 && hour < 18 ? 30 : hour >= 2 && hour < 4 ? 17 : 20;
}

/* Of twelve hours by day one is below 28-34 and one above; the ends are within. Of twelve by night
 * two are below 18-22, from the first reading below to the last one and three quarters. */
START_TEST(how_much_lay_outside)
{
    read_days(probe("warm-side", LOG_TEMPERATURE), 2, around);
    home->lamp.hours = fixture_quantity(12);
    made();
    aim(MEASURE_WARM_SIDE, 28, 34);
    aim(MEASURE_NIGHT, 18, 22);
    f.plan.measured[ZONE_WARM_SIDE].most = 34;
    ck_assert(log_judge_plan(&f.b));
    const struct log_probe_plan *one = &f.plan.log.probes[0];
    ck_assert(one->day.has_outside && one->night.has_outside && one->has_limit);
    ck_assert_double_eq_tol(one->day.outside_percent, 100.0 * 2 / 12, 1e-9);
    ck_assert_double_eq_tol(one->night.outside_percent, 100.0 * 2 / 12, 1e-9);
    ck_assert(one->limit == 18); /* the lower end of its sheet's night */
    ck_assert_double_eq_tol(one->longest_below_h, 1.75, 1e-9);
    const struct review *cold = fixture_review(&f, "log-below-limit"),
                        *hot = fixture_review(&f, "log-above-limit");
    ck_assert_double_eq(fixture_fact(cold, "lowest")->low, 17);
    ck_assert_double_eq(fixture_fact(cold, "limit")->low, 18);
    ck_assert_double_eq(fixture_fact(hot, "highest")->low, 35);
    ck_assert_double_eq(fixture_fact(hot, "limit")->low, 34);
}
END_TEST

/* As low as the limit and as hot as the most is no fault. */
START_TEST(at_the_limit_nothing_is_told)
{
    read_days(probe("warm-side", LOG_TEMPERATURE), 2, around);
    f.species.measured[MEASURE_NIGHT] = fixture_cited(17, 22);
    made();
    aim(MEASURE_WARM_SIDE, 28, 34);
    f.plan.measured[ZONE_WARM_SIDE].most = 35;
    ck_assert(log_judge_plan(&f.b));
    ck_assert(!fixture_review(&f, "log-below-limit") && !fixture_review(&f, "log-above-limit"));
    ck_assert_double_eq(f.plan.log.probes[0].longest_below_h, 0);
    ck_assert(!f.plan.log.probes[0].night.has_outside); /* nothing is aimed at by night */
}
END_TEST

static double cold_for_three_hours(int day, int quarter)
{
    (void)day;
    return quarter < 12 ? 16 : 25;
}

static double colder_for_three_hours(int day, int quarter)
{
    return cold_for_three_hours(day, quarter) - (quarter < 12);
}

static double cold_for_four_hours(int day, int quarter)
{
    (void)day;
    return quarter < 16 ? 17 : 25;
}

static double never_cold(int day, int quarter)
{
    (void)day;
    (void)quarter;
    return 25;
}

/* The probe that was longest below 18 C is named, of as long the one that was colder, wherever it
 * stands in the file. */
START_TEST(the_coldest_probe_is_named)
{
    static double (*const shapes[])(int, int) = {cold_for_three_hours, colder_for_three_hours,
                                                 cold_for_four_hours, never_cold};
    static const char *const names[] = {"cool-side", "warm-side"};
    static const struct {
        int one, other;
        size_t coldest;
    } rows[] = {{0, 1, 1}, {1, 0, 0}, {2, 1, 0}, {1, 2, 1}, {0, 3, 0}, {3, 0, 1}, {0, 0, 0}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        read_days(probe(names[0], LOG_TEMPERATURE), 2, shapes[rows[i].one]);
        read_days(probe(names[1], LOG_TEMPERATURE), 2, shapes[rows[i].other]);
        made();
        ck_assert(log_judge_plan(&f.b) && f.plan.log.has_coldest);
        ck_assert_msg(f.plan.log.coldest == rows[i].coldest, "row %d", i);
    }
}
END_TEST

static Suite *make_suite(void)
{
    Suite *suite = suite_create("log_plan");
    TCase *tests = tcase_create("log_plan");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, the_day_is_as_long_as_its_light);
    tcase_add_test(tests, medians_of_day_and_night);
    tcase_add_test(tests, a_part_that_was_not_read);
    tcase_add_test(tests, places_by_the_record_or_by_the_titles);
    tcase_add_loop_test(tests, what_cannot_be_a_place_is_refused, 0, COUNT(refused_rows));
    tcase_add_test(tests, a_log_that_says_nothing_is_refused);
    tcase_add_test(tests, the_night_is_of_the_coolest_place);
    tcase_add_test(tests, what_was_written_gives_way);
    tcase_add_test(tests, humidity_is_of_one_place);
    tcase_add_test(tests, the_last_week_hour_by_hour);
    tcase_add_test(tests, an_old_log_is_told);
    tcase_add_test(tests, how_much_lay_outside);
    tcase_add_test(tests, at_the_limit_nothing_is_told);
    tcase_add_test(tests, the_coldest_probe_is_named);
    suite_add_tcase(suite, tests);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
