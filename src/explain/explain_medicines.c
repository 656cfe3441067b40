/* The medicines with their doses, for a professional's eye. */
#include "explain/explain_parts.h"

static const char *part_word(const struct medicine_plan *m, const struct dose_plan *dose)
{
    return m->says_at ? bind_choice_word(day_part_choices, (int)dose->at) : NULL;
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
    for (size_t i = 0; i < m->listed; i++) {
        json_open_object(j);
        explain_key_date(j, "on", true, m->doses[i].on);
        json_key_text(j, "at", part_word(m, &m->doses[i]));
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
        explain_key_date(j, "first", m->has_first, m->first);
        explain_key_date(j, "last", m->has_last, m->last);
        write_doses(j, m);
        json_key_text(j, "directions", m->directions);
        explain_json_how(j, &m->how);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_schedule(struct strbuf *out, const struct medicine_plan *m)
{
    char day[16];
    if (m->has_amount)
        strbuf_addf(out, ", %.6g %s", m->amount, units_symbol(m->amount_unit));
    if (m->has_route)
        strbuf_addf(out, ", %s", bind_choice_word(route_choices, (int)m->route));
    if (m->has_every)
        strbuf_addf(out, ", every %.6g h", m->every_h);
    if (m->dose_count > 0)
        strbuf_addf(out, ", %ld doses", m->dose_count);
    else if (m->has_every)
        strbuf_add(out, ", no end");
    if (m->has_first) {
        date_write_iso(m->first, day);
        strbuf_addf(out, ", from %s", day);
    }
    if (m->has_last) {
        date_write_iso(m->last, day);
        strbuf_addf(out, " to %s", day);
    }
}

void explain_text_medicines(struct strbuf *out, const struct care_plan *plan)
{
    if (plan->medicine_count > 0)
        strbuf_add(out, "\nMedicines, as written\n");
    for (size_t i = 0; i < plan->medicine_count; i++) {
        const struct medicine_plan *m = &plan->medicines[i];
        strbuf_addf(out, "  %s", m->name);
        write_schedule(out, m);
        strbuf_add_char(out, '\n');
        if (m->directions)
            strbuf_addf(out, "    directions: %s\n", m->directions);
        explain_text_how(out, &m->how);
    }
}
