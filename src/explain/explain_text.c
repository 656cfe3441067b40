/* The plan as text, part by part: values, how each came about, remarks for review, sources. */
#include <math.h>

#include "explain/explain.h"
#include "explain/explain_parts.h"

#include <string.h>

static void add_band(struct strbuf *out, double low, double high, const char *unit)
{
    if (low == high)
        strbuf_addf(out, "%.10g %s", low, unit);
    else
        strbuf_addf(out, "%.10g-%.10g %s", low, high, unit);
}

static void add_heading(struct strbuf *out, const char *text)
{
    strbuf_addf(out, "%s%s\n", out->length ? "\n" : "", text);
}

static void add_provenance(struct strbuf *out, const struct provenance *from)
{
    if (!from->source)
        return;
    strbuf_addf(out, "      from %s: %s", explain_origin_word(from->origin), from->source);
    if (from->origin == ORIGIN_SPECIES_SHEET || from->origin == ORIGIN_REFERENCE)
        strbuf_addf(out, " [%s]", bind_choice_word(trust_choices, (int)from->trust));
    if (from->because)
        strbuf_addf(out, "; because: %s", from->because);
    explain_text_confirmed(out, &from->confirmed);
    strbuf_add_char(out, '\n');
}

static void write_patient(struct strbuf *out, const struct care_plan *p)
{
    const struct patient_plan *a = &p->patient;
    char day[16];
    date_write_iso(p->on, day);
    strbuf_addf(out, "%s, %s", a->name.text, plan_species_name(p, "en"));
    if (p->species.scientific)
        strbuf_addf(out, " (%s)", p->species.scientific);
    strbuf_addf(out, ", visit of %s\n", day);
    explain_text_reviewed(out, &p->species);
    if (a->age_known)
        strbuf_addf(out, "  age %ld days\n", a->age_days);
    if (a->has_mass)
        strbuf_addf(out, "  mass %.10g g\n", a->mass_g);
    if (a->has_length)
        strbuf_addf(out, "  length %.10g cm\n", a->length_cm);
    if (p->go_now)
        strbuf_add(out, "  GO NOW: something found cannot wait\n");
}

static void write_temperature(struct strbuf *out, const struct care_plan *p)
{
    add_heading(out, "Temperature");
    for (int zone = 0; zone < ZONE_COUNT; zone++) {
        const struct measured_plan *z = &p->measured[zone];
        if (!z->applies && !z->limit_only)
            continue;
        strbuf_addf(out, "  %s: %s ", bind_choice_word(zone_choices, zone),
                    z->limit_only ? "no target, but never above" : "target");
        add_band(out, z->limit_only ? z->high : z->low, z->high, "C");
        if (z->has_reading)
            strbuf_addf(out, ", reading %.10g C, %s", z->reading, explain_verdict_word(z->verdict));
        if (z->has_reading && z->change != 0)
            strbuf_addf(out, ", change by %+.10g C", z->change);
        strbuf_add(out, z->implausible ? ", the reading is implausible\n" : "\n");
        if (z->applies)
            add_provenance(out, &z->target_from);
    }
    strbuf_addf(out, "  gradient: %s, night drop: %s\n",
                bind_choice_word(gradient_state_choices, (int)p->temperature.gradient),
                bind_choice_word(night_state_choices, (int)p->temperature.night));
    explain_text_how(out, &p->temperature.how);
    const struct heating_plan *h = &p->temperature.heating;
    if (h->known)
        strbuf_addf(out, "  heating power: %.3g to %.3g W, always with a thermostat\n", h->low_w,
                    h->high_w);
    else
        strbuf_addf(out, "  heating power: not estimated (%s)\n",
                    h->why_not ? h->why_not : "unknown");
    explain_text_how(out, &h->how);
}

static void write_humidity(struct strbuf *out, const struct care_plan *p)
{
    const struct humidity_plan *h = &p->humidity;
    const struct measured_plan *air = &p->measured[MEASURE_HUMIDITY];
    if (!air->applies)
        return;
    add_heading(out, "Humidity");
    strbuf_add(out, "  target ");
    add_band(out, air->low, air->high, "%");
    if (air->has_reading)
        strbuf_addf(out, ", reading %.10g %% at %s, %s", air->reading,
                    bind_choice_word(zone_choices, (int)h->reading_at),
                    explain_verdict_word(air->verdict));
    strbuf_add_char(out, '\n');
    add_provenance(out, &air->target_from);
    for (size_t i = 0; i < h->equivalent_count; i++)
        strbuf_addf(out, "  the same air at %s: %.1f %%\n",
                    bind_choice_word(zone_choices, (int)h->equivalent[i].zone),
                    h->equivalent[i].rh_percent);
    if (h->has_dew_point)
        strbuf_addf(out, "  dew point %.1f C, coldest wall %s\n", h->dew_point_c,
                    bind_choice_word(wall_state_choices, (int)h->wall));
    explain_text_how(out, &h->how);
}

static void write_test(struct strbuf *out, enum measure_id measure, const struct measured_plan *t)
{
    const char *unit = explain_unit(measure);
    const char *gap = *unit ? " " : "";
    strbuf_addf(out, "  %s:", measures[measure].id);
    if (t->applies && t->low == t->high)
        strbuf_addf(out, " target %.10g%s%s", t->low, gap, unit);
    else if (t->applies && isfinite(t->high))
        strbuf_addf(out, " target %.10g-%.10g%s%s", t->low, t->high, gap, unit);
    else if (t->applies)
        strbuf_addf(out, " target at least %.10g%s%s", t->low, gap, unit);
    if (t->has_reading)
        strbuf_addf(out, "%s reading %.4g%s%s, %s", t->applies ? "," : "", t->reading, gap, unit,
                    explain_verdict_word(t->verdict));
    strbuf_add_char(out, '\n');
    if (t->applies)
        add_provenance(out, &t->target_from);
}

static void write_water_change(struct strbuf *out, const struct water_plan *w)
{
    char day[16];
    if (w->has_usual)
        strbuf_addf(out, "  usual change: %.4g-%.4g %% every %.4g-%.4g days%s; the keeper's %s\n",
                    w->usual_low_percent, w->usual_high_percent, w->usual_low_days,
                    w->usual_high_days, w->is_unfiltered ? ", without a filter" : "",
                    explain_verdict_word(w->change_verdict));
    if (w->part_now) {
        date_write_iso(w->retest, day);
        strbuf_addf(out,
                    "  now: change %.4g-%.4g %%, no more than %.4g K apart, every %.4g days, test "
                    "again %s\n",
                    w->part_low_percent, w->part_high_percent, w->part_apart_c, w->part_every_days,
                    day);
    }
    if (w->cool_down)
        strbuf_addf(out, "  cool by %.4g K an hour and %.4g K a day at most, %.4g days\n",
                    w->cool_c_hour, w->cool_c_day, w->cool_days);
}

static void write_water(struct strbuf *out, const struct care_plan *p)
{
    const struct water_plan *w = &p->water;
    if (!w->applies && w->state == WATER_UNTESTED)
        return;
    add_heading(out, "Water");
    strbuf_addf(out, "  tests: %s, worst %s\n",
                bind_choice_word(water_state_choices, (int)w->state),
                explain_verdict_word(w->verdict));
    for (int m = 0; m < MEASURE_COUNT; m++)
        if (measures[m].part == PART_WATER &&
            (p->measured[m].applies || p->measured[m].has_reading))
            write_test(out, (enum measure_id)m, &p->measured[m]);
    write_water_change(out, w);
    explain_text_how(out, &w->how);
}

static void write_uvb(struct strbuf *out, const struct care_plan *p)
{
    const struct uvb_plan *u = &p->uvb;
    const struct measured_plan *light = &p->measured[MEASURE_UVB];
    if (!light->applies)
        return;
    add_heading(out, "UVB");
    strbuf_addf(out, "  Ferguson zone %d", u->zone_low);
    if (u->zone_high != u->zone_low)
        strbuf_addf(out, "-%d", u->zone_high);
    strbuf_add(out, ", target at the basking spot ");
    add_band(out, light->low, light->high, "UVI");
    strbuf_addf(out, ", never above %.3g UVI\n", u->most_uvi);
    add_provenance(out, &light->target_from);
    if (light->has_reading)
        strbuf_addf(out, "  now %.3g UVI, %s\n", light->reading,
                    explain_verdict_word(light->verdict));
    if (u->distance_why == DISTANCE_KNOWN)
        strbuf_addf(out, "  distance lamp to back: %.3g cm (nearest %.3g, farthest %.3g)\n",
                    u->recommended_cm, u->nearest_cm, u->farthest_cm);
    else
        strbuf_addf(out, "  distance: none said (%s)\n", explain_distance_word(u->distance_why));
    strbuf_addf(out, "  lamp: %s", bind_choice_word(lamp_state_choices, (int)u->lamp));
    if (u->has_lamp_due) {
        char day[16];
        date_write_iso(u->lamp_due, day);
        strbuf_addf(out, ", change due %s", day);
    }
    strbuf_addf(out, "; light %.10g h a day\n", u->hours_now);
    explain_text_how(out, &u->how);
}

static void write_foods(struct strbuf *out, const struct feeding_plan *f)
{
    for (size_t i = 0; i < f->food_count; i++) {
        const struct prey_choice *c = &f->foods[i];
        strbuf_addf(out, "  food: %s%s%s", c->food, c->size ? ", " : "", c->size ? c->size : "");
        if (c->count > 0)
            strbuf_addf(out, " x %d", c->count);
        if (c->each_high_g > 0) {
            strbuf_add(out, ", each ");
            add_band(out, c->each_low_g, c->each_high_g, "g");
        }
        if (c->calcium_to_phosphorus > 0)
            strbuf_addf(out, ", Ca:P %.2g", c->calcium_to_phosphorus);
        strbuf_add_char(out, '\n');
    }
    for (size_t i = 0; i < f->never_count; i++)
        strbuf_addf(out, "%s %s", i ? "," : "  never:", f->never[i].code);
    if (f->never_count)
        strbuf_add_char(out, '\n');
    for (size_t i = 0; i < f->never_count; i++)
        if (i == 0 || strcmp(f->never[i].from.source, f->never[i - 1].from.source) != 0)
            add_provenance(out, &f->never[i].from);
    if (f->size_rule) {
        strbuf_addf(out, "  size of a piece: %s\n", f->size_rule);
        add_provenance(out, &f->size_from);
    }
}

static void write_meal_dates(struct strbuf *out, const struct feeding_plan *f)
{
    if (f->paused)
        strbuf_add(out, "  no food for now\n");
    if (!f->next_count)
        return;
    strbuf_add(out, "  next:");
    for (size_t i = 0; i < f->next_count; i++) {
        char day[16];
        date_write_iso(f->next[i], day);
        strbuf_addf(out, " %s", day);
    }
    strbuf_add_char(out, '\n');
}

static void write_feeding(struct strbuf *out, const struct care_plan *p)
{
    const struct feeding_plan *f = &p->feeding;
    add_heading(out, "Feeding");
    if (p->species.is_unlisted)
        strbuf_add(out, "  no species sheet: the veterinarian's own numbers alone\n");
    else
        strbuf_addf(out, "  stage %s (%s)\n", bind_choice_word(stage_choices, (int)f->stage),
                    explain_stage_reason_word(f->stage_reason));
    if (f->has_meal) {
        strbuf_add(out, "  meal ");
        add_band(out, f->meal_low_g, f->meal_high_g, "g");
        strbuf_addf(out, ", today's meal %s\n", explain_verdict_word(f->meal_verdict));
        add_provenance(out, &f->meal_from);
    }
    if (f->has_insects)
        strbuf_addf(out, "  insects a meal: %d-%d\n", f->insects_low, f->insects_high);
    write_foods(out, f);
    strbuf_add(out, "  every ");
    add_band(out, f->every_low_days, f->every_high_days, "days");
    if (f->change != FEEDING_AS_USUAL)
        strbuf_addf(out, " (%s, from %s)", bind_choice_word(feeding_change_choices, (int)f->change),
                    f->change_from ? f->change_from : "?");
    strbuf_addf(out, ", today's interval %s\n", explain_verdict_word(f->interval_verdict));
    write_meal_dates(out, f);
    for (size_t i = 0; i < f->supplement_count; i++) {
        const struct supplement_plan *s = &f->supplements[i];
        strbuf_addf(out, "  supplement: %s, ", bind_choice_word(supplement_choices, (int)s->what));
        if (s->every_meals)
            strbuf_addf(out, "every %d. meal\n", s->every_meals);
        else
            strbuf_addf(out, "%.3g-%.3g times a week\n", s->per_week_low, s->per_week_high);
    }
    if (f->now.has_g)
        strbuf_addf(out, "  now: %.3g g a day\n", f->now.g_day);
    for (size_t i = 0; i < f->step_count; i++) {
        const struct feeding_step *s = &f->steps[i];
        char day[16];
        date_write_iso(s->from, day);
        strbuf_addf(out, "  from %s: ", day);
        add_band(out, f->has_meal ? s->low_g : s->low, f->has_meal ? s->high_g : s->high,
                 f->has_meal ? "g" : "insects");
        strbuf_add(out, " a meal\n");
    }
    if (f->has_energy)
        strbuf_addf(out, "  energy: need %.3g-%.3g, plan %.3g-%.3g kcal a day\n",
                    f->need_low_kcal_day, f->need_high_kcal_day, f->plan_low_kcal_day,
                    f->plan_high_kcal_day);
    explain_text_how(out, &f->how);
}

static void write_weighings(struct strbuf *out, const struct growth_plan *g)
{
    strbuf_add(out, "  weighed:");
    for (size_t i = 0; i < g->weighing_count; i++) {
        char day[16];
        date_write_iso(g->weighings[i].on, day);
        strbuf_addf(out, "%s %.10g g on %s", i ? "," : "", g->weighings[i].mass_g, day);
    }
    if (g->has_trend)
        strbuf_addf(out, "; trend %.4g to %.4g g", g->trend_first_g, g->trend_last_g);
    strbuf_add_char(out, '\n');
}

static void write_weight(struct strbuf *out, const struct care_plan *p)
{
    const struct weight_plan *w = &p->weight;
    if (!w->has_low)
        return;
    add_heading(out, "Weight");
    strbuf_addf(out, "  to %s", explain_weight_purpose_word(w->purpose));
    if (w->has_goal)
        strbuf_addf(out, ", goal %.4g g (%s)", w->goal_g, w->goal_from);
    strbuf_addf(out, "; call at %.4g g or less", w->alarm_low_g);
    if (w->has_high)
        strbuf_addf(out, ", at %.4g g or more", w->alarm_high_g);
    strbuf_addf(out, ", within %.4g days\n", w->alarm_days);
    explain_text_how(out, &w->how);
}

static void write_winter_rest(struct strbuf *out, const struct care_plan *p)
{
    const struct winter_rest_plan *w = &p->winter_rest;
    if (!w->is_asked)
        return;
    add_heading(out, "Winter rest");
    strbuf_addf(out, "  %s", w->is_allowed ? "may be" : "no");
    for (size_t i = 0; i < w->why_count; i++)
        strbuf_addf(out, "%s%s", i ? ", " : ": ", w->why[i]);
    strbuf_add_char(out, '\n');
    if (w->has_c)
        strbuf_addf(out, "  at %.4g to %.4g C\n", w->low_c, w->high_c);
    if (w->has_mass)
        strbuf_addf(out, "  from %.4g g; call at %.4g g, wake at %.4g g\n", w->start_g, w->call_g,
                    w->wake_g);
    explain_text_how(out, &w->how);
}

static void write_body_and_box(struct strbuf *out, const struct care_plan *p)
{
    const struct growth_plan *g = &p->growth;
    if (g->known) {
        add_heading(out, "Growth");
        strbuf_addf(out, "  %+.3g %% in %ld days (%+.3g %% in 30 days), %s\n", g->change_percent,
                    g->per_days, g->percent_per_30_days,
                    bind_choice_word(weight_state_choices, (int)g->weight));
        write_weighings(out, g);
        explain_text_how(out, &g->how);
    }
    write_weight(out, p);
    write_winter_rest(out, p);
    const struct enclosure_plan *e = &p->enclosure;
    if (!e->known)
        return;
    add_heading(out, "Enclosure");
    strbuf_addf(out, "  least %.4g x %.4g x %.4g cm, %s\n", e->least_length_cm, e->least_width_cm,
                e->least_height_cm, explain_verdict_word(e->verdict));
    if (e->has_grown)
        strbuf_addf(out, "  when grown %.4g x %.4g x %.4g cm\n", e->grown_length_cm,
                    e->grown_width_cm, e->grown_height_cm);
    add_provenance(out, &e->from);
    explain_text_how(out, &e->how);
}

static void write_findings(struct strbuf *out, const struct care_plan *p)
{
    add_heading(out, "Findings");
    for (size_t i = 0; i < p->finding_count; i++) {
        const struct finding_plan *f = &p->findings[i];
        strbuf_addf(out, "  %s: %s%s%s", f->code,
                    bind_choice_word(severity_choices, (int)f->severity), f->where ? ", " : "",
                    f->where ? f->where : "");
        if (f->is_urgent)
            strbuf_addf(out, ", %s", bind_choice_word(tier_choices, (int)f->tier));
        strbuf_add_char(out, '\n');
    }
    for (size_t i = 0; i < p->procedure_count; i++)
        strbuf_addf(out, "  done today: %s\n", p->procedures[i].code);
}

static void write_reason(struct strbuf *out, const struct action_reason *r)
{
    strbuf_addf(out, "      rule %s, from %s", r->rule, r->from ? r->from : "-");
    if (r->share < 1 || r->raised_by)
        strbuf_addf(out, ", weighs %.3g", r->harm);
    if (r->share < 1)
        strbuf_addf(out, " (%.0f %% for how far outside)", r->share * 100);
    if (r->raised_by)
        strbuf_addf(out, " (raised by %s)", r->raised_by);
    strbuf_addf(out, "; %s [%s]\n", r->source ? r->source : "-",
                bind_choice_word(trust_choices, (int)r->trust));
}

static void write_actions(struct strbuf *out, const struct care_plan *p)
{
    add_heading(out, "Actions, most harm avoided first");
    for (size_t i = 0; i < p->action_count; i++) {
        const struct action *a = &p->actions[i];
        strbuf_addf(out, "  %zu. %s (harm %.3g)%s", i + 1, a->own ? a->own : a->code, a->harm,
                    a->is_first ? ", first" : "");
        if (a->is_second)
            strbuf_add(out, ", a second time");
        explain_text_decision(out, p, a->decision);
        strbuf_add_char(out, '\n');
        for (const struct action_reason *r = a->reasons; r; r = r->next)
            write_reason(out, r);
    }
}

static void write_warnings(struct strbuf *out, const struct care_plan *p)
{
    add_heading(out, "Warning signs");
    for (size_t i = 0; i < p->warning_count; i++)
        strbuf_addf(out, "  %s: %s (%s)\n",
                    bind_choice_word(tier_choices, (int)p->warnings[i].tier), p->warnings[i].code,
                    p->warnings[i].because);
    add_heading(out, "Dates");
    for (size_t i = 0; i < p->date_count; i++) {
        char day[16];
        date_write_iso(p->dates[i].on, day);
        strbuf_addf(out, "  %s %s\n", day, p->dates[i].what);
    }
}

static void add_fact(struct strbuf *out, const struct plan_fact *f)
{
    char day[16];
    strbuf_addf(out, " %s=", f->name);
    if (f->kind == FACT_DATE) {
        date_write_iso(f->date, day);
        strbuf_add(out, day);
    } else if (f->text) {
        strbuf_add(out, f->text);
    } else if (f->low == f->high) {
        strbuf_addf(out, "%.6g", f->low);
    } else {
        strbuf_addf(out, "%.6g-%.6g", f->low, f->high);
    }
}

static void write_review(struct strbuf *out, const struct care_plan *p)
{
    add_heading(out, "For the veterinarian's eye");
    for (const struct review *r = p->review; r; r = r->next) {
        strbuf_addf(out, "  %s: %s", explain_review_word(r->kind), r->code);
        if (r->at.line > 0)
            strbuf_addf(out, " (line %d)", r->at.line);
        for (const struct plan_fact *f = r->facts; f; f = f->next)
            add_fact(out, f);
        strbuf_add_char(out, '\n');
    }
    add_heading(out, "Sources");
    for (size_t i = 0; i < p->source_count; i++)
        strbuf_addf(out, "  [%s] %s (%s)\n",
                    bind_choice_word(trust_choices, (int)p->sources[i].trust), p->sources[i].text,
                    p->sources[i].used_for ? p->sources[i].used_for : "-");
}

void explain_write_text(const struct care_plan *plan, struct strbuf *out)
{
    write_patient(out, plan);
    write_findings(out, plan);
    explain_text_medicines(out, plan);
    explain_text_since(out, plan);
    explain_text_stances(out, plan);
    write_actions(out, plan);
    write_temperature(out, plan);
    write_uvb(out, plan);
    write_humidity(out, plan);
    write_water(out, plan);
    write_feeding(out, plan);
    write_body_and_box(out, plan);
    write_warnings(out, plan);
    write_review(out, plan);
}
