/* A data logger against the settled targets: shares outside, cold spells, heat past the limit. */
#include "care/log.h"

#include <math.h>
#include <string.h>

static const double HOUR_S = 3600, WHOLE_PERCENT = 100;

static const struct log_series *series_of(const struct care_build *b,
                                          const struct log_probe_plan *probe)
{
    for (size_t i = 0; i < b->in->log->series_count; i++) {
        const struct log_series *series = &b->in->log->series[i];
        if ((series->kind == LOG_HUMIDITY) == probe->is_humidity &&
            strcmp(series->probe, probe->probe) == 0)
            return series;
    }
    return NULL;
}

static void set_outside(struct log_part_plan *part, const struct log_series *series,
                        struct log_part quarters, const struct measured_plan *target)
{
    part->has_outside =
        part->known && target && target->applies && isfinite(target->low) && isfinite(target->high);
    if (!part->has_outside)
        return;
    part->target_low = target->low;
    part->target_high = target->high;
    part->outside_percent =
        WHOLE_PERCENT * (1 - log_series_share(series, &quarters, target->low, target->high));
}

/* What holds at a probe by night: the night's target at its own probe, the warm place's. */
static const struct measured_plan *night_target(const struct care_build *b,
                                                const struct log_probe_plan *probe)
{
    const struct measured_plan *warm = &b->plan->measured[MEASURE_NIGHT_WARM_SIDE];
    if (probe->is_humidity)
        return NULL;
    if (probe->zone == ZONE_WATER)
        return &b->plan->measured[MEASURE_WATER];
    if (probe->zone == ZONE_WARM_SIDE && warm->applies)
        return warm;
    return probe == log_night_probe(&b->plan->log) ? &b->plan->measured[MEASURE_NIGHT] : NULL;
}

static struct plan_fact *place(struct care_build *b, enum zone zone, struct plan_fact *next)
{
    const char *word = bind_choice_word(zone_choices, (int)zone);
    return build_fact_text(b, "zone", FACT_CODE, arena_format(b->arena, "zone.%s", word), next);
}

/* Below the lower end of what is published for the night, or for the water. */
static void judge_cold(struct care_build *b, struct log_probe_plan *probe,
                       const struct log_series *series)
{
    enum measure_id measure = probe->zone == ZONE_WATER ? MEASURE_WATER : MEASURE_NIGHT;
    const struct band *usual = &b->in->species->measured[measure].range;
    if (!usual->known)
        return;
    probe->has_limit = true;
    probe->limit = usual->low;
    probe->longest_below_h = (double)log_series_longest_below_s(series, usual->low) / HOUR_S;
    if (probe->lowest >= usual->low)
        return;
    struct plan_fact *facts =
        build_fact(b, "hours", FACT_HOURS, probe->longest_below_h, probe->longest_below_h, NULL);
    facts = build_fact(b, "limit", FACT_TEMPERATURE, usual->low, usual->low, facts);
    facts = build_fact(b, "lowest", FACT_TEMPERATURE, probe->lowest, probe->lowest, facts);
    build_review(b, REVIEW_REMARK, "log-below-limit", b->in->visit->enclosure.readings.log.file.at,
                 place(b, probe->zone, facts));
}

/* The one that the sheet speaks of: the longest spell, and of none the lowest reading. */
static void set_coldest(struct log_plan *log, size_t i)
{
    const struct log_probe_plan *probe = &log->probes[i], *most = &log->probes[log->coldest];
    if (!probe->has_limit)
        return;
    bool colder = probe->longest_below_h > most->longest_below_h ||
                  (probe->longest_below_h == most->longest_below_h &&
                   probe->lowest - probe->limit < most->lowest - most->limit);
    if (!log->has_coldest || colder)
        log->coldest = i;
    log->has_coldest = true;
}

/* A place whose own target lies above the limit, such as a basking spot, may be as warm as that. */
static void judge_heat(struct care_build *b, const struct log_probe_plan *probe)
{
    double most = b->plan->measured[probe->zone].most;
    if (!isfinite(most) || probe->highest <= most)
        return;
    struct plan_fact *facts = build_fact(b, "limit", FACT_TEMPERATURE, most, most, NULL);
    facts = build_fact(b, "highest", FACT_TEMPERATURE, probe->highest, probe->highest, facts);
    build_review(b, REVIEW_REMARK, "log-above-limit", b->in->visit->enclosure.readings.log.file.at,
                 place(b, probe->zone, facts));
}

bool log_judge_plan(struct care_build *b)
{
    struct log_plan *log = &b->plan->log;
    for (size_t i = 0; i < log->probe_count; i++) {
        struct log_probe_plan *probe = &log->probes[i];
        const struct log_series *series = series_of(b, probe);
        const struct measured_plan *day =
            &b->plan
                 ->measured[probe->is_humidity ? MEASURE_HUMIDITY : (enum measure_id)probe->zone];
        /* humidity's target is of one place */
        bool judged_here = !probe->is_humidity || probe->zone == ZONE_COOL_SIDE;
        set_outside(&probe->day, series, log_quarters(log, true), judged_here ? day : NULL);
        set_outside(&probe->night, series, log_quarters(log, false), night_target(b, probe));
        if (probe->is_humidity)
            continue;
        judge_cold(b, probe, series);
        set_coldest(log, i);
        judge_heat(b, probe);
    }
    return true;
}
