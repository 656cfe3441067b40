/* What a data logger read of each place, by day and by night. */
#include "explain/explain_parts.h"

static void write_part(struct json *j, const char *key, const struct log_part_plan *part)
{
    json_key(j, key);
    if (!part->known) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_number(j, "p5", part->low);
    json_key_number(j, "median", part->median);
    json_key_number(j, "p95", part->high);
    explain_key_pair(j, "target", part->has_outside, part->target_low, part->target_high);
    explain_key_known(j, "outside_percent", part->has_outside, part->outside_percent);
    json_close_object(j);
}

static void write_week(struct json *j, const struct log_plan *log,
                       const struct log_probe_plan *probe)
{
    json_key(j, "week");
    json_open_list(j);
    for (int day = 0; day < LOG_PLAN_DAYS; day++) {
        if (!probe->days[day].known)
            continue;
        json_open_object(j);
        explain_key_date(j, "on", true, date_add_days(log->week_from, day));
        json_key_number(j, "lowest", probe->days[day].lowest);
        json_key_number(j, "highest", probe->days[day].highest);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_probe(struct json *j, const struct log_plan *log,
                        const struct log_probe_plan *probe)
{
    json_open_object(j);
    json_key_text(j, "probe", probe->probe);
    json_key_text(j, "zone", bind_choice_word(zone_choices, (int)probe->zone));
    json_key_text(j, "unit", probe->is_humidity ? "%" : "C");
    write_part(j, "day", &probe->day);
    write_part(j, "night", &probe->night);
    json_key_number(j, "lowest", probe->lowest);
    json_key_number(j, "highest", probe->highest);
    json_key_number(j, "coverage_percent", probe->coverage_percent);
    if (!probe->is_humidity) {
        explain_key_known(j, "night_drop_c", probe->has_drop, probe->night_drop_c);
        explain_key_known(j, "lowest_usual", probe->has_limit, probe->limit);
        explain_key_known(j, "longest_below_h", probe->has_limit, probe->longest_below_h);
    }
    write_week(j, log, probe);
    json_close_object(j);
}

void explain_json_log(struct json *j, const struct care_plan *plan)
{
    const struct log_plan *log = &plan->log;
    if (!log->file)
        return;
    json_key(j, "logger");
    json_open_object(j);
    json_key_text(j, "file", log->file);
    json_key_text(j, "sha256", log->sha256);
    json_key_number(j, "rows", log->rows);
    json_key_number(j, "left_out", log->left_out);
    explain_key_date(j, "from", true, log->from);
    explain_key_date(j, "to", true, log->to);
    explain_key_pair(j, "day_hours", true, log->day_from_h, log->day_to_h);
    json_key_flag(j, "day_assumed", log->day_assumed);
    json_key(j, "probes");
    json_open_list(j);
    for (size_t i = 0; i < log->probe_count; i++)
        write_probe(j, log, &log->probes[i]);
    json_close_list(j);
    json_close_object(j);
}
