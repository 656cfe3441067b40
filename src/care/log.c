/* A data logger in place of single readings: which probe lies where, its percentiles by day and by
 * night, and what of them is judged. */
#include "care/log.h"

#include <math.h>
#include <string.h>

#include "base/fold.h"
#include "care/measured.h"

static const double LOW_PERCENT = 5, MIDDLE_PERCENT = 50, HIGH_PERCENT = 95;
static const double DAY_H = 24, QUARTERS_IN_HOUR = 4;
static const char *const PATH = "enclosure.readings.log";
enum { DAY_S = 86400, NAME_BYTES = 60 };

/* ---- day and night ------------------------------------------------------------------- */

static void set_day(struct care_build *b)
{
    const struct quantity *lamp = &b->in->visit->enclosure.lamp.hours;
    const struct band *own = &b->in->visit->targets.light_hours;
    struct log_plan *log = &b->plan->log;
    log->day_assumed = !lamp->known && !own->known;
    double hours = lamp->known  ? lamp->value
                   : own->known ? (own->low + own->high) / 2
                                : build_limit(b, "log-day-hours");
    double middle = build_limit(b, "log-day-middle-hour");
    log->day_from_h = fmax(middle - hours / 2, 0);
    log->day_to_h = fmin(middle + hours / 2, DAY_H);
    if (log->day_assumed)
        build_review(b, REVIEW_MISSING, "log-day-assumed",
                     b->in->visit->enclosure.readings.log.file.at,
                     build_fact(b, "hours", FACT_HOURS, hours, hours, NULL));
}

struct log_part log_quarters(const struct log_plan *log, bool by_day)
{
    struct log_part part;
    for (int i = 0; i < LOG_QUARTERS; i++) {
        double middle_h = (i + 0.5) / QUARTERS_IN_HOUR;
        part.in[i] = (middle_h > log->day_from_h && middle_h < log->day_to_h) == by_day;
    }
    return part;
}

static struct log_part_plan measure_part(const struct log_series *series, struct log_part part)
{
    if (!log_series_count(series, &part))
        return (struct log_part_plan){0};
    return (struct log_part_plan){
        .known = true,
        .low = log_series_percentile(series, &part, LOW_PERCENT),
        .median = log_series_percentile(series, &part, MIDDLE_PERCENT),
        .high = log_series_percentile(series, &part, HIGH_PERCENT),
    };
}

/* ---- which probe lies where ---------------------------------------------------------- */

static bool refuse(struct care_build *b, const char *code, struct mark at, const char *text)
{
    diag_report_path(b->diag, DIAG_ERROR, code, at, PATH, "%s", text);
    return false;
}

static bool is_same(struct care_build *b, const char *one, const char *other)
{
    return strcmp(fold_slug(one, NAME_BYTES, b->arena), fold_slug(other, NAME_BYTES, b->arena)) ==
           0;
}

static const char *probe_names(struct care_build *b)
{
    const char *names = "";
    for (size_t i = 0; i < b->in->log->series_count; i++) {
        const char *name = b->in->log->series[i].probe;
        if (i == 0 || strcmp(name, b->in->log->series[i - 1].probe) != 0)
            names = arena_format(b->arena, "%s%s'%s'", names, i ? ", " : "", name);
    }
    return names;
}

/* The place that the record gives a probe, else the one that its title names; -1: none. */
static int zone_of(struct care_build *b, const char *probe)
{
    const struct list *probes = &b->in->visit->enclosure.readings.log.probes;
    for (size_t i = 0; i < probes->count; i++) {
        const struct visit_log_probe *one = LIST_AT(*probes, struct visit_log_probe, i);
        if (is_same(b, one->name.text, probe))
            return one->zone.value;
    }
    for (int zone = 0; zone < ZONE_COUNT && !probes->count; zone++)
        if (is_same(b, bind_choice_word(zone_choices, zone), probe))
            return zone;
    return -1;
}

static bool check_probe(struct care_build *b, size_t i)
{
    const struct list *probes = &b->in->visit->enclosure.readings.log.probes;
    const struct visit_log_probe *one = LIST_AT(*probes, struct visit_log_probe, i);
    if (one->zone.value == ZONE_NIGHT || one->zone.value == ZONE_NIGHT_WARM_SIDE)
        return refuse(b, "log-probe-night", one->zone.at,
                      "a probe lies at a place, and its nights count by themselves; say warm-side "
                      "or cool-side");
    for (size_t k = 0; k < i; k++)
        if (LIST_AT(*probes, struct visit_log_probe, k)->zone.value == one->zone.value)
            return refuse(b, "log-place-twice", one->zone.at,
                          "two probes lie at one place; leave one of them out");
    for (size_t s = 0; s < b->in->log->series_count; s++)
        if (is_same(b, b->in->log->series[s].probe, one->name.text))
            return true;
    return refuse(b, "log-no-such-probe", one->name.at,
                  arena_format(b->arena, "'%s' is no probe of the file; it has %s", one->name.text,
                               probe_names(b)));
}

static bool check_probes(struct care_build *b)
{
    const struct list *probes = &b->in->visit->enclosure.readings.log.probes;
    bool good = true;
    for (size_t i = 0; i < probes->count; i++)
        good = check_probe(b, i) && good;
    return good;
}

/* ---- the readings that are judged ---------------------------------------------------- */

/* The logger wins; a written reading further off than both meters may err is named. */
static void put(struct care_build *b, struct visit *visit, enum measure_id measure, double value)
{
    struct quantity *reading = &visit->measured[measure];
    const struct mark at = visit->enclosure.readings.log.file.at;
    double error = measured_error(b, measure, value);
    if (reading->known && fabs(reading->value - value) > 2 * error) {
        enum fact_kind kind = measured_fact_kind(measure);
        struct plan_fact *facts = build_fact(b, "logged", kind, value, value, NULL);
        facts = build_fact(b, "written", kind, reading->value, reading->value, facts);
        build_review(b, REVIEW_CONFLICT, "log-differs", reading->at, facts);
    }
    *reading = (struct quantity){.known = true, .value = value, .written = value, .at = at};
}

static const struct log_probe_plan *find(const struct log_plan *log, enum zone zone, bool humidity)
{
    for (size_t i = 0; i < log->probe_count; i++)
        if (log->probes[i].zone == zone && log->probes[i].is_humidity == humidity)
            return &log->probes[i];
    return NULL;
}

const struct log_probe_plan *log_night_probe(const struct log_plan *log)
{
    const struct log_probe_plan *cool = find(log, ZONE_COOL_SIDE, false);
    return cool ? cool : find(log, ZONE_WARM_SIDE, false);
}

/* The night's reading is the lowest air at night: its 5th percentile, as one draught is no night.
 */
static void put_warmth(struct care_build *b, struct visit *visit)
{
    const struct log_plan *log = &b->plan->log;
    for (int zone = 0; zone < ZONE_COUNT; zone++) {
        const struct log_probe_plan *probe = find(log, (enum zone)zone, false);
        if (probe && probe->day.known)
            put(b, visit, (enum measure_id)zone, probe->day.median);
    }
    const struct log_probe_plan *night = log_night_probe(log);
    if (night && night->night.known)
        put(b, visit, MEASURE_NIGHT, night->night.low);
    const struct log_probe_plan *warm = find(log, ZONE_WARM_SIDE, false);
    bool aims = b->in->species->measured[MEASURE_NIGHT_WARM_SIDE].range.known ||
                b->in->visit->targets.measured[MEASURE_NIGHT_WARM_SIDE].known;
    if (warm && warm->night.known && aims)
        put(b, visit, MEASURE_NIGHT_WARM_SIDE, warm->night.median);
}

/* Humidity is judged at one place: the one that the record names, else the first of these. */
static void put_humidity(struct care_build *b, struct visit *visit)
{
    static const enum zone order[] = {ZONE_COOL_SIDE, ZONE_WARM_SIDE, ZONE_BASKING_SURFACE};
    struct choice_value *at = &visit->enclosure.readings.humidity_at;
    for (size_t i = 0; i < sizeof order / sizeof *order; i++) {
        const struct log_probe_plan *probe = find(&b->plan->log, order[i], true);
        if (!probe || !probe->day.known || (at->known && at->value != (int)order[i]))
            continue;
        put(b, visit, MEASURE_HUMIDITY, probe->day.median);
        *at = (struct choice_value){true, (int)order[i], visit->enclosure.readings.log.file.at};
        return;
    }
}

/* ---- the week ------------------------------------------------------------------------ */

static void widen(struct log_span_plan *span, const struct log_hour *hour)
{
    if (!span->known)
        *span = (struct log_span_plan){true, hour->lowest, hour->highest};
    span->lowest = fmin(span->lowest, hour->lowest);
    span->highest = fmax(span->highest, hour->highest);
}

static void set_week(struct care_build *b, struct log_probe_plan *probe,
                     const struct log_series *series)
{
    int64_t first = (int64_t)date_to_days(b->plan->log.week_from) * (int64_t)DAY_H;
    probe->hours = ARENA_ARRAY(b->arena, struct log_span_plan, LOG_PLAN_HOURS);
    for (int i = 0; i < LOG_PLAN_HOURS; i++) {
        const struct log_hour *hour = log_series_hour(series, first + i);
        if (!hour)
            continue;
        widen(&probe->hours[i], hour);
        widen(&probe->days[i / (int)DAY_H], hour);
    }
}

/* ---- the part ------------------------------------------------------------------------ */

/* 80 degrees in the middle are a recorder set to F whose title says C, or is in no animal's home.
 */
static bool is_warmth(struct care_build *b, const struct log_probe_plan *probe)
{
    const struct log_part_plan *part = probe->day.known ? &probe->day : &probe->night;
    if (probe->is_humidity || part->median <= build_limit(b, "temperature-hottest-c"))
        return true;
    return refuse(b, "log-unit-unlikely", b->in->visit->enclosure.readings.log.file.at,
                  arena_format(b->arena,
                               "'%s' reads %.1f C half of the time or more, where no animal lives; "
                               "if the recorder was set to F, write F into the file's title, such "
                               "as Temperature (F)",
                               probe->probe, part->median));
}

/* Nothing was counted: no place was given, or no reading of those that have one can be. */
static bool refuse_all(struct care_build *b)
{
    const struct mark at = b->in->visit->enclosure.readings.log.file.at;
    bool placed = false;
    for (size_t i = 0; i < b->in->log->series_count; i++)
        placed = placed || zone_of(b, b->in->log->series[i].probe) >= 0;
    return refuse(b, placed ? "log-without-readings" : "log-without-place", at,
                  placed ? "no reading of its probes is one that such an instrument can take; is "
                           "it the recorder's own file, with its units?"
                         : arena_format(b->arena,
                                        "no probe of the file has a place; say where each lies, "
                                        "such as probes: {T1: warm-side}; it has %s",
                                        probe_names(b)));
}

static bool add_probes(struct care_build *b)
{
    struct log_plan *log = &b->plan->log;
    const struct log_file *file = b->in->log;
    log->least_coverage_percent = 100;
    log->probes = ARENA_ARRAY(b->arena, struct log_probe_plan, file->series_count);
    for (size_t i = 0; i < file->series_count; i++) {
        const struct log_series *series = &file->series[i];
        int zone = zone_of(b, series->probe);
        /* some recorders write one probe in both units */
        if (zone < 0 || !series->count || find(log, (enum zone)zone, series->kind == LOG_HUMIDITY))
            continue;
        struct log_probe_plan *probe = &log->probes[log->probe_count++];
        *probe = (struct log_probe_plan){
            .probe = series->probe,
            .zone = (enum zone)zone,
            .is_humidity = series->kind == LOG_HUMIDITY,
            .day = measure_part(series, log_quarters(log, true)),
            .night = measure_part(series, log_quarters(log, false)),
            .lowest = series->lowest,
            .highest = series->highest,
            .coverage_percent = log_series_coverage(series) * 100,
        };
        if (!is_warmth(b, probe))
            return false;
        set_week(b, probe, series);
        log->least_coverage_percent = fmin(log->least_coverage_percent, probe->coverage_percent);
        probe->has_drop = !probe->is_humidity && probe->day.known && probe->night.known;
        probe->night_drop_c = probe->has_drop ? probe->day.median - probe->night.median : 0;
    }
    return log->probe_count || refuse_all(b);
}

static void remark_file(struct care_build *b)
{
    const struct mark at = b->in->visit->enclosure.readings.log.file.at;
    const struct log_plan *log = &b->plan->log;
    if (date_days_between(log->to, b->plan->on) > (long)build_limit(b, "log-old-days"))
        build_review(b, REVIEW_REMARK, "log-old", at, build_fact_date(b, "to", log->to, NULL));
    if (log->left_out > 0)
        build_review(b, REVIEW_REMARK, "log-left-out", at,
                     build_fact(b, "count", FACT_COUNT, log->left_out, log->left_out, NULL));
}

bool log_plan(struct care_build *b)
{
    const struct log_file *file = b->in->log;
    struct log_plan *log = &b->plan->log;
    if (b->in->previous.plan)
        log->previous_sha256 = b->in->previous.plan->log.sha256;
    if (!file)
        return true;
    log->file = b->in->visit->enclosure.readings.log.file.text;
    log->sha256 = file->sha256;
    log->rows = (double)file->rows;
    log->left_out = (double)file->left_out;
    log->from = date_from_days((long)(file->first_s / DAY_S));
    log->to = date_from_days((long)(file->last_s / DAY_S));
    log->days = (double)date_days_between(log->from, log->to) + 1;
    log->week_from = date_add_days(log->to, 1 - LOG_PLAN_DAYS);
    if (!check_probes(b))
        return false;
    set_day(b);
    if (!add_probes(b))
        return false;
    remark_file(b);
    struct visit *visit = ARENA_NEW(b->arena, struct visit);
    struct care_inputs *in = ARENA_NEW(b->arena, struct care_inputs);
    *visit = *b->in->visit;
    *in = *b->in;
    put_warmth(b, visit);
    put_humidity(b, visit);
    in->visit = visit;
    b->in = in;
    return true;
}
