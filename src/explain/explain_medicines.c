/* The medicines with their doses, for a professional's eye. */
#include "explain/explain_parts.h"

#include <stdio.h>

static const char *part_word(const struct medicine_plan *m, const struct dose_plan *dose)
{
    return m->says_at ? bind_choice_word(day_part_choices, (int)dose->at) : NULL;
}

const char *explain_clock_text(char out[TIME_ROOM], int minute)
{
    enum { HOUR_MINUTES = 60 };
    snprintf(out, TIME_ROOM, "%d:%02d", minute / HOUR_MINUTES, minute % HOUR_MINUTES);
    return out;
}

static void write_amount(struct json *j, const struct medicine_plan *m)
{
    json_key(j, "amount");
    if (!m->has_amount) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_number(j, "value", m->amount);
    json_key_text(j, "unit", units_symbol(m->amount_unit));
    json_close_object(j);
}

static void write_doses(struct json *j, const struct medicine_plan *m)
{
    json_key(j, "doses");
    json_open_list(j);
    char time[TIME_ROOM];
    for (size_t i = 0; i < m->listed; i++) {
        json_open_object(j);
        explain_key_date(j, "on", true, m->doses[i].on);
        json_key_text(j, "at", part_word(m, &m->doses[i]));
        json_key_text(j, "time",
                      m->says_clock && !m->asks_hours ? explain_clock_text(time, m->doses[i].minute)
                                                      : NULL);
        json_close_object(j);
    }
    json_close_list(j);
}

void explain_json_medicines(struct json *j, const struct care_plan *plan)
{
    json_key(j, "medicines");
    json_open_list(j);
    for (size_t i = 0; i < plan->medicine_count; i++) {
        const struct medicine_plan *m = &plan->medicines[i];
        json_open_object(j);
        json_key_text(j, "name", m->name);
        write_amount(j, m);
        json_key_text(j, "route",
                      m->has_route ? bind_choice_word(route_choices, (int)m->route) : NULL);
        json_key_text(j, "given", m->is_given_here ? "here" : "at-home");
        explain_key_known(j, "every_hours", m->has_every, m->every_h);
        explain_key_known(j, "for_days", m->has_for, m->for_days);
        explain_key_known(j, "dose_count", m->dose_count > 0, (double)m->dose_count);
        json_key_flag(j, "given_today", m->is_given_today);
        char time[TIME_ROOM];
        json_key_text(j, "given_today_at",
                      m->given_minute < 0 ? NULL : explain_clock_text(time, m->given_minute));
        explain_key_date(j, "first", m->has_first, m->first);
        explain_key_date(j, "last", m->has_last, m->last);
        write_doses(j, m);
        json_key_text(j, "directions", m->directions);
        json_key_text(j, "for_what", m->for_what);
        json_key_text(j, "watch", m->watch);
        explain_json_how(j, &m->how);
        json_close_object(j);
    }
    json_close_list(j);
}
