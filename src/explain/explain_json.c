/* The whole plan, as JSON for programs and as an outline for people: written once. */
#include <math.h>

#include "base/json.h"
#include "explain/explain.h"
#include "explain/explain_parts.h"

/* ---- small writers ------------------------------------------------------------- */

static void key_verdict(struct json *j, enum verdict verdict)
{
    json_key_text(j, "verdict", explain_verdict_word(verdict));
}

static void key_facts(struct json *j, const struct plan_fact *facts)
{
    json_key(j, "facts");
    json_open_object(j);
    char time[TIME_ROOM];
    for (const struct plan_fact *f = facts; f; f = f->next)
        if (f->kind == FACT_DATE)
            explain_key_date(j, f->name, true, f->date);
        else if (f->kind == FACT_CLOCK)
            json_key_text(j, f->name, explain_clock_text(time, (int)f->low));
        else if (f->kind == FACT_CODE || f->kind == FACT_STANCE || f->kind == FACT_TEXT)
            json_key_text(j, f->name, f->text);
        else if (f->low == f->high)
            json_key_number(j, f->name, f->low);
        else
            explain_key_pair(j, f->name, true, f->low, f->high);
    json_close_object(j);
}

/* ---- the parts ------------------------------------------------------------------- */

static void write_patient(struct json *j, const struct care_plan *p)
{
    const struct patient_plan *a = &p->patient;
    json_key(j, "patient");
    json_open_object(j);
    json_key_text(j, "name", a->name.text);
    json_key_text(j, "sex", bind_choice_word(sex_choices, a->sex.value));
    explain_key_date(j, "hatched", a->age_known, a->hatched);
    explain_key_known(j, "age_days", a->age_known, (double)a->age_days);
    explain_key_known(j, "mass_g", a->has_mass, a->mass_g);
    explain_key_known(j, "length_cm", a->has_length, a->length_cm);
    json_key_text(j, "keeper", p->keeper.name.text);
    explain_key_date(j, "visit", true, p->on);
    json_key_text(j, "notes_in", p->notes_in);
    json_key_text(j, "veterinarian", p->veterinarian);
    json_key_flag(j, "go_now", p->go_now);
    json_close_object(j);
}

static void write_species(struct json *j, const struct care_plan *p)
{
    json_key(j, "species");
    json_open_object(j);
    json_key_text(j, "code", p->taxon.code);
    json_key_text(j, "name", plan_species_name(p, "en"));
    json_key_text(j, "scientific", p->taxon.scientific);
    json_key_text(j, "group", bind_choice_word(group_choices, (int)p->taxon.group));
    json_key_text(j, "reproduction",
                  p->taxon.reproduction_known
                      ? bind_choice_word(reproduction_choices, (int)p->taxon.reproduction)
                      : NULL);
    json_key_flag(j, "from_clinic", p->taxon.from_clinic);
    json_key_flag(j, "unlisted", p->taxon.is_unlisted);
    explain_json_reviewed(j, &p->taxon);
    json_close_object(j);
}

static void write_zone(struct json *j, enum zone zone, const struct measured_plan *z)
{
    json_open_object(j);
    json_key_text(j, "zone", bind_choice_word(zone_choices, (int)zone));
    explain_key_pair(j, "target", z->applies, z->low, z->high);
    explain_key_known(j, "limit", z->limit_only, z->high);
    explain_key_known(j, "reading", z->has_reading, z->reading);
    key_verdict(j, z->verdict);
    explain_key_known(j, "change", z->has_reading && !z->implausible, z->change);
    json_key_flag(j, "implausible", z->implausible);
    explain_json_provenance(j, "source", &z->target_from);
    json_close_object(j);
}

static void write_temperature(struct json *j, const struct care_plan *p)
{
    json_key(j, "temperature");
    json_open_list(j);
    for (int zone = 0; zone < ZONE_COUNT; zone++)
        if (p->measured[zone].applies || p->measured[zone].limit_only)
            write_zone(j, (enum zone)zone, &p->measured[zone]);
    json_close_list(j);
}

static void write_equivalents(struct json *j, const struct humidity_plan *h)
{
    json_key(j, "equivalent");
    json_open_list(j);
    for (size_t i = 0; i < h->equivalent_count; i++) {
        json_open_object(j);
        json_key_text(j, "zone", bind_choice_word(zone_choices, (int)h->equivalent[i].zone));
        json_key_number(j, "rh", h->equivalent[i].rh_percent);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_humidity(struct json *j, const struct care_plan *p)
{
    const struct humidity_plan *h = &p->humidity;
    const struct measured_plan *air = &p->measured[MEASURE_HUMIDITY];
    json_key(j, "humidity");
    if (!air->applies) {
        json_null(j);
        return;
    }
    json_open_object(j);
    explain_key_pair(j, "target", true, air->low, air->high);
    explain_key_known(j, "reading", air->has_reading, air->reading);
    json_key_text(j, "at",
                  air->has_reading ? bind_choice_word(zone_choices, (int)h->reading_at) : NULL);
    const bool is_judged = air->verdict != VERDICT_UNKNOWN;
    explain_key_known(j, "judged", is_judged, air->judged);
    json_key_text(j, "judged_at",
                  is_judged ? bind_choice_word(zone_choices, (int)h->reading_at) : NULL);
    key_verdict(j, air->verdict);
    explain_key_known(j, "change", is_judged, air->change);
    write_equivalents(j, h);
    explain_key_known(j, "dew_point", h->has_dew_point, h->dew_point_c);
    json_key_text(j, "wall", bind_choice_word(wall_state_choices, (int)h->wall));
    explain_key_known(j, "water_lack_g_m3", h->has_water_lack, h->water_lack_g_m3);
    explain_key_pair(j, "in_shed", h->has_shed_band, h->shed_low_percent, h->shed_high_percent);
    json_key_flag(j, "in_shed_now", h->in_shed_now);
    explain_json_provenance(j, "source", &air->target_from);
    explain_json_how(j, &h->how);
    json_close_object(j);
}

static void write_tests(struct json *j, const struct care_plan *p)
{
    json_key(j, "tests");
    json_open_list(j);
    for (int m = 0; m < MEASURE_COUNT; m++) {
        const struct measured_plan *t = &p->measured[m];
        if (measures[m].part != PART_WATER || (!t->applies && !t->has_reading))
            continue;
        json_open_object(j);
        json_key_text(j, "id", measures[m].id);
        json_key_text(j, "unit", explain_unit((enum measure_id)m));
        explain_key_known(j, "target_low", t->applies, t->low);
        explain_key_known(j, "target_high", t->applies && isfinite(t->high), t->high);
        explain_key_known(j, "reading", t->has_reading, t->reading);
        key_verdict(j, t->verdict);
        explain_key_known(j, "change", t->has_reading && t->applies, t->change);
        explain_json_source(j, t->applies, &t->target_from);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_cooling(struct json *j, const struct water_plan *w)
{
    json_key(j, "cooling");
    if (!w->cool_down) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_number(j, "step_c_hour", w->cool_c_hour);
    json_key_number(j, "step_c_day", w->cool_c_day);
    json_key_number(j, "days", w->cool_days);
    json_close_object(j);
}

static void write_water(struct json *j, const struct care_plan *p)
{
    const struct water_plan *w = &p->water;
    const struct measured_plan *gas = &p->measured[MEASURE_NH3];
    json_key(j, "water");
    if (!w->applies && w->state == WATER_UNTESTED) {
        json_null(j);
        return;
    }
    json_open_object(j);
    explain_key_known(j, "ammonia_total_mg_l", w->has_total, w->ammonia_total_mg_l);
    explain_key_known(j, "nh3_mg_l", gas->has_reading, gas->reading);
    key_verdict(j, w->verdict);
    json_key_text(j, "state", bind_choice_word(water_state_choices, (int)w->state));
    explain_key_pair(j, "change_share_percent", w->part_now, w->part_low_percent,
                     w->part_high_percent);
    explain_key_pair(j, "change_l", w->part_now && w->has_litres, w->part_low_l, w->part_high_l);
    explain_key_known(j, "change_apart_c", w->part_now, w->part_apart_c);
    explain_key_known(j, "change_every_days", w->part_now, w->part_every_days);
    explain_key_date(j, "retest", w->part_now, w->retest);
    explain_key_pair(j, "usual_share_percent", w->has_usual, w->usual_low_percent,
                     w->usual_high_percent);
    explain_key_pair(j, "usual_every_days", w->has_usual, w->usual_low_days, w->usual_high_days);
    json_key_text(j, "change_verdict", explain_verdict_word(w->change_verdict));
    explain_key_known(j, "volume_l", w->has_litres, w->volume_l);
    write_cooling(j, w);
    write_tests(j, p);
    explain_json_how(j, &w->how);
    json_close_object(j);
}

static void write_distance(struct json *j, const struct uvb_plan *u)
{
    bool known = u->distance_why == DISTANCE_KNOWN;
    json_key(j, "distance");
    json_open_object(j);
    explain_key_known(j, "recommended_cm", known, u->recommended_cm);
    explain_key_known(j, "nearest_cm", known, u->nearest_cm);
    explain_key_known(j, "farthest_cm", known, u->farthest_cm);
    json_key_text(j, "why", explain_distance_word(u->distance_why));
    json_close_object(j);
}

static void write_map(struct json *j, const struct uvi_map *map)
{
    json_key(j, "map");
    if (!map->known) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_number(j, "lamp_above_floor_cm", map->lamp_above_floor_cm);
    json_key_number(j, "lamp_from_end_cm", map->lamp_from_end_cm);
    json_key(j, "from_end_cm");
    json_open_list(j);
    for (int column = 0; column < UVI_MAP_COLUMNS; column++)
        json_number(j, map->from_end_cm[column]);
    json_close_list(j);
    json_key(j, "rows");
    json_open_list(j);
    for (int row = UVI_MAP_ROWS - 1; row >= 0; row--) {
        json_open_object(j);
        json_key_number(j, "above_floor_cm", map->above_floor_cm[row]);
        json_key(j, "uvi");
        json_open_list(j);
        for (int column = 0; column < UVI_MAP_COLUMNS; column++)
            if (map->has_uvi[row][column])
                json_number(j, map->uvi[row][column]);
            else
                json_null(j);
        json_close_list(j);
        json_close_object(j);
    }
    json_close_list(j);
    json_close_object(j);
}

static void write_uvb(struct json *j, const struct care_plan *p)
{
    const struct uvb_plan *u = &p->uvb;
    const struct measured_plan *light = &p->measured[MEASURE_UVB];
    json_key(j, "uvb");
    if (!light->applies && !u->sun) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key(j, "zone");
    if (u->zone_low == u->zone_high)
        json_integer(j, u->zone_low);
    else
        json_text(j, arena_format(j->out->arena, "%d-%d", u->zone_low, u->zone_high));
    explain_key_pair(j, "uvi_target", true, light->low, light->high);
    json_key_number(j, "uvi_most", u->most_uvi);
    explain_key_known(j, "uvi_aim", u->aim_uvi > 0, u->aim_uvi);
    explain_key_known(j, "background_uvi", u->background_uvi > 0, u->background_uvi);
    json_key_text(j, "zone_use", u->use_because);
    explain_key_known(j, "uvi_now", light->has_reading, light->reading);
    write_distance(j, u);
    key_verdict(j, light->verdict);
    explain_key_known(j, "change_cm", u->has_change, u->change_cm);
    explain_key_known(j, "lamp_above_platform_cm", u->has_lamp_above_platform,
                      u->lamp_above_platform_cm);
    explain_key_known(j, "lamp_above_floor_cm", u->has_lamp_above_floor, u->lamp_above_floor_cm);
    json_key_flag(j, "below_mesh", u->below_mesh);
    explain_key_known(j, "lies_above_floor_cm", p->lying.known, p->lying.above_floor_cm);
    explain_key_known(j, "lies_lower_by_cm", p->lying.has_lower_by, p->lying.lower_by_cm);
    explain_key_known(j, "shade_uvi", u->has_shade_uvi, u->shade_uvi);
    write_map(j, &u->map);
    json_key_flag(j, "sun", u->sun);
    json_key_text(j, "perch", bind_choice_word(perch_state_choices, (int)u->perch));
    explain_key_known(j, "perch_below_lamp_cm", u->perch != PERCH_UNKNOWN, u->perch_below_lamp_cm);
    explain_key_known(j, "perch_uvi", u->has_perch_uvi, u->perch_uvi);
    json_key_text(j, "lamp", bind_choice_word(lamp_state_choices, (int)u->lamp));
    explain_key_date(j, "lamp_due", u->has_lamp_due, u->lamp_due);
    json_key_number(j, "hours", u->hours_now);
    explain_json_provenance(j, "source", &light->target_from);
    explain_json_how(j, &u->how);
    json_close_object(j);
}

static void key_box(struct json *j, const char *key, bool known, double l, double w, double h)
{
    json_key(j, key);
    if (!known) {
        json_null(j);
        return;
    }
    json_open_list(j);
    json_number(j, l);
    json_number(j, w);
    if (h > 0)
        json_number(j, h);
    else
        json_null(j); /* of no height is asked */
    json_close_list(j);
}

static void write_heating(struct json *j, const struct heating_plan *h)
{
    json_key(j, "heating");
    json_open_object(j);
    explain_key_pair(j, "power_w", h->known, h->low_w, h->high_w);
    json_key_text(j, "not_estimated", h->known ? NULL : h->why_not);
    explain_key_known(j, "own_w", h->own_w > 0, h->own_w);
    json_key_flag(j, "thermostat", true);
    explain_json_how(j, &h->how);
    json_close_object(j);
}

static void write_enclosure(struct json *j, const struct care_plan *p)
{
    const struct enclosure_plan *e = &p->enclosure;
    json_key(j, "enclosure");
    json_open_object(j);
    key_box(j, "minimum_cm", e->known, e->least_length_cm, e->least_width_cm, e->least_height_cm);
    key_box(j, "grown_cm", e->has_grown, e->grown_length_cm, e->grown_width_cm, e->grown_height_cm);
    key_box(j, "size_cm", e->has_size, e->length_cm, e->width_cm, e->height_cm);
    key_verdict(j, e->verdict);
    key_box(j, "short_cm", e->verdict == VERDICT_TOO_LOW, e->short_length_cm, e->short_width_cm,
            e->short_height_cm);
    json_key_text(j, "gradient",
                  bind_choice_word(gradient_state_choices, (int)p->temperature.gradient));
    json_key_text(j, "night_drop",
                  bind_choice_word(night_state_choices, (int)p->temperature.night));
    write_heating(j, &p->temperature.heating);
    explain_json_furnishing(j, p);
    explain_json_provenance(j, "source", &e->from);
    explain_json_how(j, &e->how);
    json_key(j, "temperature");
    json_open_object(j);
    explain_json_how(j, &p->temperature.how);
    json_close_object(j);
    json_close_object(j);
}

static void write_weighings(struct json *j, const struct growth_plan *g)
{
    json_key(j, "weighings");
    json_open_list(j);
    for (size_t i = 0; i < g->weighing_count; i++) {
        json_open_object(j);
        explain_key_date(j, "on", true, g->weighings[i].on);
        explain_key_known(j, "mass_g", true, g->weighings[i].mass_g);
        json_close_object(j);
    }
    json_close_list(j);
    explain_key_pair(j, "trend_g", g->has_trend, g->trend_first_g, g->trend_last_g);
}

static void write_growth(struct json *j, const struct care_plan *p)
{
    const struct growth_plan *g = &p->growth;
    json_key(j, "growth");
    json_open_object(j);
    explain_key_known(j, "change_percent", g->known, g->change_percent);
    explain_key_known(j, "per_days", g->known, (double)g->per_days);
    explain_key_known(j, "percent_per_30_days", g->known, g->percent_per_30_days);
    explain_key_date(j, "since", g->known, g->since);
    write_weighings(j, g);
    key_verdict(j, g->verdict);
    json_key_text(j, "weight", bind_choice_word(weight_state_choices, (int)g->weight));
    explain_key_known(j, "length_mass_ratio", g->has_ratio, g->ratio_g_cm3);
    json_key_text(j, "ratio_verdict", g->has_ratio ? explain_verdict_word(g->ratio_verdict) : NULL);
    explain_json_how(j, &g->how);
    json_close_object(j);
}

static void write_weight(struct json *j, const struct care_plan *p)
{
    const struct weight_plan *w = &p->weight;
    json_key(j, "weight");
    json_open_object(j);
    json_key_text(j, "purpose", explain_weight_purpose_word(w->purpose));
    explain_key_known(j, "change_percent", p->growth.known, p->growth.change_percent);
    key_verdict(j, p->growth.verdict);
    explain_key_known(j, "goal_g", w->has_goal, w->goal_g);
    json_key_text(j, "goal_from", w->goal_from);
    explain_key_known(j, "alarm_low_g", w->has_low, w->alarm_low_g);
    explain_key_known(j, "alarm_high_g", w->has_high, w->alarm_high_g);
    explain_key_known(j, "alarm_days", w->has_low, w->alarm_days);
    explain_key_known(j, "prey_days", w->prey_days > 0, w->prey_days);
    explain_key_known(j, "laid_low_g", w->has_laid_low, w->laid_low_g);
    explain_key_pair(j, "expected_g", w->has_expected, w->expected_low_g, w->expected_high_g);
    explain_key_date(j, "expected_on", w->has_expected, w->weigh_on);
    explain_key_known(j, "score", w->has_score, w->score);
    explain_key_known(j, "score_of", w->has_score, w->score_of);
    explain_json_how(j, &w->how);
    json_close_object(j);
}

static void write_rest_steps(struct json *j, const char *key, const struct rest_step *steps,
                             size_t count)
{
    json_key(j, key);
    json_open_list(j);
    for (size_t i = 0; i < count; i++) {
        json_open_object(j);
        explain_key_date(j, "on", true, steps[i].on);
        json_key_number(j, "to_c", steps[i].to_c);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_rest_dates(struct json *j, const struct winter_rest_plan *w)
{
    json_key(j, "dates");
    json_open_object(j);
    explain_key_date(j, "last_meal", w->has_last_meal, w->last_meal);
    write_rest_steps(j, "cooling", w->steps, w->step_count);
    explain_key_date(j, "starts", w->has_start, w->start);
    explain_key_date(j, "wakes", w->has_wake, w->wake);
    explain_key_date(j, "eats_by", w->has_wake, w->eat_by);
    write_rest_steps(j, "warming", w->warming, w->warming_count);
    json_close_object(j);
}

static void write_rest_limits(struct json *j, const struct winter_rest_plan *w)
{
    json_key(j, "limits_g");
    json_open_object(j);
    explain_key_known(j, "start", w->has_mass, w->start_g);
    explain_key_known(j, "call", w->has_mass, w->call_g);
    explain_key_known(j, "wake", w->has_mass, w->wake_g);
    json_key(j, "weekly");
    json_open_list(j);
    for (size_t i = 0; i < w->week_count; i++) {
        json_open_object(j);
        explain_key_date(j, "on", true, w->weeks[i].on);
        json_key_number(j, "least", w->weeks[i].least_g);
        json_close_object(j);
    }
    json_close_list(j);
    json_close_object(j);
}

/* Nobody asked: null, for a kind that never rests a no. */
static void write_winter_rest(struct json *j, const struct care_plan *p)
{
    const struct winter_rest_plan *w = &p->winter_rest;
    bool never = plan_holds(p, "winter-rest", "never");
    json_key(j, "winter_rest");
    json_open_object(j);
    if (w->is_asked || never) {
        json_key_flag(j, "allowed", w->is_allowed);
    } else {
        json_key(j, "allowed");
        json_null(j);
    }
    json_key_flag(j, "under_way", w->in_progress);
    json_key(j, "why");
    json_open_list(j);
    for (size_t i = 0; i < w->why_count; i++)
        json_text(j, w->why[i]);
    if (!w->is_asked && never)
        json_text(j, "species");
    json_close_list(j);
    explain_key_pair(j, "temperature_c", w->has_c, w->low_c, w->high_c);
    write_rest_dates(j, w);
    write_rest_limits(j, w);
    explain_json_how(j, &w->how);
    json_close_object(j);
}

static void write_disinfectant(struct json *j, const struct disinfectant_plan *row)
{
    json_key(j, "disinfectant");
    if (!row) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_text(j, "product", row->product);
    explain_key_known(j, "percent", row->has_percent, row->percent);
    explain_key_known(j, "seconds", row->has_seconds, row->seconds);
    explain_json_provenance(j, "source", &row->from);
    json_close_object(j);
}

static void write_findings(struct json *j, const struct care_plan *p)
{
    json_key(j, "findings");
    json_open_list(j);
    for (size_t i = 0; i < p->finding_count; i++) {
        const struct finding_plan *f = &p->findings[i];
        json_open_object(j);
        json_key_text(j, "code", f->code);
        json_key_text(j, "state", bind_choice_word(finding_state_choices, (int)f->state));
        json_key_text(j, "severity", bind_choice_word(severity_choices, (int)f->severity));
        json_key_text(j, "certainty", f->is_suspected ? "suspected" : "certain");
        json_key_text(j, "where", f->where);
        json_key_text(j, "system", bind_choice_word(body_system_choices, (int)f->system));
        json_key_text(j, "tier",
                      f->is_urgent ? bind_choice_word(tier_choices, (int)f->tier) : NULL);
        json_key_text(j, "note", f->note);
        explain_key_pair(j, "recheck_days", f->has_recheck, f->recheck_low_days,
                         f->recheck_high_days);
        write_disinfectant(j, f->disinfectant);
        json_close_object(j);
    }
    for (size_t i = 0; i < p->procedure_count; i++) {
        json_open_object(j);
        json_key_text(j, "code", p->procedures[i].code);
        json_key_text(j, "severity", NULL);
        json_key_text(j, "done", "today");
        explain_key_date(j, "result_by", p->procedures[i].has_result, p->procedures[i].result);
        explain_key_date(j, "check", p->procedures[i].has_check, p->procedures[i].check);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_reasons(struct json *j, const struct action *a)
{
    json_key(j, "why");
    json_open_list(j);
    for (const struct action_reason *r = a->reasons; r; r = r->next)
        json_text(j, r->rule);
    json_close_list(j);
    json_key(j, "from");
    json_open_list(j);
    for (const struct action_reason *r = a->reasons; r; r = r->next)
        json_text(j, r->from);
    json_close_list(j);
    json_key(j, "source");
    json_open_list(j);
    for (const struct action_reason *r = a->reasons; r; r = r->next)
        json_text(j, r->source);
    json_close_list(j);
}

/* What each rule weighs: how far outside the value lies, and what was found. */
static void write_weights(struct json *j, const struct action *a)
{
    json_key(j, "weights");
    json_open_list(j);
    for (const struct action_reason *r = a->reasons; r; r = r->next) {
        json_open_object(j);
        json_key_text(j, "rule", r->rule);
        json_key_number(j, "harm", r->harm);
        json_key_number(j, "outside_share", r->share);
        json_key_text(j, "raised_by", r->raised_by);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_actions(struct json *j, const struct care_plan *p)
{
    json_key(j, "actions");
    json_open_list(j);
    for (size_t i = 0; i < p->action_count; i++) {
        const struct action *a = &p->actions[i];
        json_open_object(j);
        json_key_text(j, "code", a->code);
        write_reasons(j, a);
        json_key_text(j, "words", a->own);
        json_key_text(j, "own_words", a->hers);
        explain_json_decision(j, p, a->decision);
        write_weights(j, a);
        json_key_number(j, "harm", a->harm);
        json_key_flag(j, "first", a->is_first);
        json_key_flag(j, "tonight", a->is_tonight);
        if (a->is_second)
            json_key_flag(j, "second_time", true);
        explain_key_date(j, "start", a->has_start, a->start);
        explain_key_date(j, "end", a->has_end, a->end);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_warnings(struct json *j, const struct care_plan *p)
{
    json_key(j, "warnings");
    json_open_list(j);
    for (size_t i = 0; i < p->warning_count; i++) {
        const struct warning *w = &p->warnings[i];
        json_open_object(j);
        json_key_text(j, "tier", bind_choice_word(tier_choices, (int)w->tier));
        json_key_text(j, "code", w->code);
        json_key_text(j, "because", w->because);
        json_key_flag(j, "already", w->already);
        json_close_object(j);
    }
    json_close_list(j);
    json_key(j, "cautions");
    json_open_list(j);
    for (size_t i = 0; i < p->caution_count; i++)
        json_text(j, p->cautions[i]);
    json_close_list(j);
}

static void write_dates(struct json *j, const struct care_plan *p)
{
    json_key(j, "dates");
    json_open_list(j);
    for (size_t i = 0; i < p->date_count; i++) {
        json_open_object(j);
        explain_key_date(j, "on", true, p->dates[i].on);
        json_key_text(j, "what", p->dates[i].what);
        key_facts(j, p->dates[i].facts);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_review(struct json *j, const struct care_plan *p)
{
    json_key(j, "review");
    json_open_list(j);
    for (const struct review *r = p->review; r; r = r->next) {
        json_open_object(j);
        json_key_text(j, "kind", explain_review_word(r->kind));
        json_key_text(j, "code", r->code);
        json_key(j, "line");
        if (r->at.line > 0)
            json_integer(j, r->at.line);
        else
            json_null(j);
        key_facts(j, r->facts);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_sources(struct json *j, const struct care_plan *p)
{
    json_key(j, "sources");
    json_open_list(j);
    for (size_t i = 0; i < p->source_count; i++) {
        json_open_object(j);
        json_key_text(j, "text", p->sources[i].text);
        json_key_text(j, "trust", bind_choice_word(trust_choices, (int)p->sources[i].trust));
        json_key_text(j, "used_for", p->sources[i].used_for);
        json_close_object(j);
    }
    json_close_list(j);
}

typedef void part_fn(struct json *, const struct care_plan *);

static void write_all_of(struct json *j, const struct care_plan *plan, part_fn *const *parts,
                         size_t count)
{
    for (size_t i = 0; i < count; i++)
        parts[i](j, plan);
}

static void write_parts(struct json *j, const struct care_plan *plan,
                        const struct explain_printed *printed)
{
    static part_fn *const parts[] = {
        write_patient,
        write_species,
        explain_json_log,
        write_temperature,
        write_humidity,
        write_water,
        write_uvb,
        explain_json_feeding,
        write_enclosure,
        write_growth,
        write_weight,
        explain_json_since,
        write_winter_rest,
        write_findings,
        explain_json_medicines,
        explain_json_stances,
        write_actions,
    };
    static part_fn *const last_parts[] = {
        write_warnings,
        write_dates,
        write_review,
        write_sources,
    };
    json_open_object(j);
    write_all_of(j, plan, parts, sizeof parts / sizeof *parts);
    explain_json_instructions(j, printed);
    write_all_of(j, plan, last_parts, sizeof last_parts / sizeof *last_parts);
    json_close_object(j);
}

void explain_write_json(const struct care_plan *plan, const struct explain_printed *printed,
                        struct strbuf *out)
{
    struct json j;
    json_init(&j, out);
    write_parts(&j, plan, printed);
    strbuf_add_char(out, '\n');
}

void explain_write_text(const struct care_plan *plan, struct strbuf *out)
{
    struct json j;
    json_init_outline(&j, out);
    write_parts(&j, plan, NULL);
}
