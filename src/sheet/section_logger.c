/* What a data logger's readings rest on, in one sentence. */
#include <math.h>

#include "sheet/sections.h"

static const double SHOWN_HOURS = 0.5; /* what rounds to none is a moment */

static const char *key_of(const struct log_plan *log)
{
    if (!log->has_coldest)
        return "sheet.logger.only";
    const struct log_probe_plan *coldest = &log->probes[log->coldest];
    return coldest->lowest >= coldest->limit        ? "sheet.logger.never"
           : coldest->longest_below_h < SHOWN_HOURS ? "sheet.logger.moment"
                                                    : "sheet.logger.longest";
}

const char *section_logger_text(struct composition *c)
{
    const struct log_plan *log = &c->plan->log;
    if (!log->file)
        return NULL;
    const struct format *f = &c->ctx.format;
    struct plan_fact days = {
        .name = "days", .kind = FACT_TEXT, .text = format_days(f, log->days, log->days)};
    struct plan_fact coverage = {.name = "coverage",
                                 .kind = FACT_TEXT,
                                 .text = format_percent(f, floor(log->least_coverage_percent)),
                                 .next = &days};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &coverage;
    if (!log->has_coldest)
        return phrase(&ctx, key_of(log));
    const struct log_probe_plan *coldest = &log->probes[log->coldest];
    struct plan_fact limit = {.name = "limit",
                              .kind = FACT_TEXT,
                              .text = format_temp(f, coldest->limit),
                              .next = &coverage};
    struct plan_fact hours = {.name = "hours",
                              .kind = FACT_TEXT,
                              .text = format_hours(f, coldest->longest_below_h),
                              .next = &limit};
    struct plan_fact zone = {
        .name = "zone",
        .kind = FACT_TEXT,
        .text = phrase_part(&c->ctx, "measure", measures[coldest->zone].id, "plain"),
        .next = &hours};
    ctx.facts = &zone;
    return phrase(&ctx, key_of(log));
}
