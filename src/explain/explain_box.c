/* What lies and stands in the box, and who shares it, for a professional's eye. */
#include "explain/explain_parts.h"

static void key_said(struct json *j, const char *key, int said)
{
    json_key(j, key);
    if (said < 0)
        json_null(j);
    else
        json_flag(j, said);
}

static void write_company(struct json *j, const struct company_plan *company)
{
    json_key(j, "company");
    json_open_object(j);
    explain_key_known(j, "animals", company->has_animals, company->animals);
    explain_key_known(j, "males", company->has_males, company->males);
    json_key(j, "mates");
    json_open_list(j);
    for (size_t i = 0; i < company->mate_count; i++)
        json_text(j, company->mates[i].code);
    json_close_list(j);
    json_key_text(j, "state", bind_choice_word(company_state_choices, (int)company->state));
    explain_key_known(j, "floor_times", company->has_floor, company->floor_times);
    explain_json_source(j, company->state != COMPANY_UNKNOWN, &company->from);
    json_close_object(j);
}

static void write_outdoors(struct json *j, const struct outdoors_plan *o)
{
    key_said(j, "outdoor", o->outdoor);
    json_key(j, "outdoors");
    json_open_object(j);
    explain_key_known(j, "latitude_deg", o->has_latitude, o->latitude_deg);
    explain_key_known(j, "day_hours", o->has_latitude, o->day_hours);
    explain_key_known(j, "morning_c", o->has_weather, o->morning_c);
    explain_key_known(j, "midday_c", o->has_weather, o->midday_c);
    explain_json_source(j, o->has_weather, &o->weather_from);
    explain_json_how(j, &o->how);
    json_close_object(j);
}

void explain_json_furnishing(struct json *j, const struct care_plan *plan)
{
    const struct enclosure_plan *e = &plan->enclosure;
    json_key_text(j, "substrate", e->substrate);
    json_key(j, "hides");
    json_open_object(j);
    explain_key_known(j, "number", e->has_hides, e->hides);
    explain_key_known(j, "wanted", e->has_hides_wanted, e->hides_wanted);
    json_key_text(j, "state", bind_choice_word(hides_state_choices, (int)e->hides_state));
    explain_json_source(j, e->has_hides_wanted, &e->hides_from);
    json_close_object(j);
    if (!e->has_nest) {
        json_key_text(j, "nest", NULL);
    } else {
        json_key(j, "nest");
        json_open_object(j);
        json_key(j, "depth_cm");
        json_open_list(j);
        json_number(j, e->nest_low_cm);
        json_number(j, e->nest_high_cm);
        json_close_list(j);
        explain_json_provenance(j, "source", &e->nest_from);
        json_close_object(j);
    }
    key_said(j, "shade", e->shade);
    key_said(j, "water_dish", e->water_dish);
    write_company(j, &e->company);
    write_outdoors(j, &e->outdoors);
}
