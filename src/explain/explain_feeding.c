/* Food of the plan: what, how much, how often, and what it must never be given. */
#include "explain/explain.h"
#include "explain/explain_parts.h"

static void write_foods(struct json *j, const struct feeding_plan *f)
{
    json_key(j, "foods");
    json_open_list(j);
    for (size_t i = 0; i < f->food_count; i++) {
        const struct prey_choice *c = &f->foods[i];
        json_open_object(j);
        json_key_text(j, "food", c->food);
        json_key_text(j, "size", c->size);
        explain_key_known(j, "count", c->count > 0, c->count);
        explain_key_pair(j, "each_g", c->each_high_g > 0, c->each_low_g, c->each_high_g);
        explain_key_known(j, "calcium_to_phosphorus", c->calcium_to_phosphorus > 0,
                          c->calcium_to_phosphorus);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_food_rules(struct json *j, const struct feeding_plan *f)
{
    json_key(j, "never");
    json_open_list(j);
    for (size_t i = 0; i < f->never_count; i++) {
        json_open_object(j);
        json_key_text(j, "food", f->never[i].code);
        explain_json_provenance(j, "source", &f->never[i].from);
        json_close_object(j);
    }
    json_close_list(j);
    json_key(j, "size_rule");
    json_open_object(j);
    json_key_text(j, "code", f->size_rule);
    explain_json_source(j, f->size_rule != NULL, &f->size_from);
    json_close_object(j);
}

static void write_supplements(struct json *j, const struct feeding_plan *f)
{
    json_key(j, "supplements");
    json_open_list(j);
    for (size_t i = 0; i < f->supplement_count; i++) {
        const struct supplement_plan *s = &f->supplements[i];
        json_open_object(j);
        json_key_text(j, "what", bind_choice_word(supplement_choices, (int)s->what));
        explain_key_pair(j, "per_week", s->every_meals == 0 && !s->with_fish, s->per_week_low,
                         s->per_week_high);
        explain_key_known(j, "every_meals", s->every_meals > 0, s->every_meals);
        json_key_flag(j, "with_fish", s->with_fish);
        explain_json_provenance(j, "source", &s->from);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_next_meals(struct json *j, const struct feeding_plan *f)
{
    json_key(j, "next");
    json_open_list(j);
    for (size_t i = 0; i < f->next_count; i++) {
        char day[16];
        date_write_iso(f->next[i], day);
        json_text(j, day);
    }
    json_close_list(j);
}

static void write_now(struct json *j, const struct feeding_now *now)
{
    json_key(j, "now");
    json_open_object(j);
    explain_key_known(j, "kcal_day", now->has_kcal, now->kcal_day);
    explain_key_known(j, "g_day", now->has_g, now->g_day);
    explain_key_known(j, "count_day", now->has_count, now->count_day);
    json_close_object(j);
}

static void write_steps(struct json *j, const struct feeding_plan *f)
{
    json_key(j, "build_up");
    json_open_object(j);
    explain_key_known(j, "start_percent", f->is_rising, f->start_percent);
    explain_key_known(j, "days", f->is_rising, f->start_days);
    explain_json_source(j, f->is_rising, &f->start_from);
    json_close_object(j);
    json_key(j, "steps");
    json_open_list(j);
    for (size_t i = 0; i < f->step_count; i++) {
        const struct feeding_step *s = &f->steps[i];
        json_open_object(j);
        explain_key_date(j, "from", true, s->from);
        json_key_number(j, "share_percent", s->share_percent);
        explain_key_pair(j, "amount_g", f->has_meal, s->low_g, s->high_g);
        explain_key_pair(j, "count", !f->has_meal, s->low, s->high);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_line(struct json *j, const struct feeding_line *line)
{
    json_open_object(j);
    json_key_text(j, "kind", line->kind);
    json_key(j, "food");
    json_open_list(j);
    for (size_t i = 0; i < line->food_count; i++)
        json_text(j, line->foods[i].food);
    json_close_list(j);
    explain_key_pair(j, "amount_g", line->has_g, line->low_g, line->high_g);
    explain_key_pair(j, "count", line->has_count, line->low_count, line->high_count);
    explain_key_pair(j, "share_percent", line->has_share, line->low_percent, line->high_percent);
    explain_key_pair(j, "every_days", line->every_high_days > 0, line->every_low_days,
                     line->every_high_days);
    json_key(j, "next");
    json_open_list(j);
    for (size_t i = 0; i < line->next_count; i++) {
        char day[16];
        date_write_iso(line->next[i], day);
        json_text(j, day);
    }
    json_close_list(j);
    json_close_object(j);
}

static void write_lines(struct json *j, const struct feeding_plan *f)
{
    json_key(j, "lines");
    json_open_list(j);
    for (size_t i = 0; i < f->line_count; i++)
        write_line(j, &f->lines[i]);
    json_close_list(j);
}

/* What the keeper gives by tube. */
static void write_tube(struct json *j, const struct medicine_plan *tube)
{
    json_key(j, "tube");
    if (tube->listed == 0) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_number(j, "amount_ml", tube->amount);
    json_key_number(j, "every_hours", tube->every_h);
    json_key(j, "on");
    json_open_list(j);
    struct date day;
    char text[16];
    for (size_t at = 0; plan_dose_day(tube, &at, &day);) {
        date_write_iso(day, text);
        json_text(j, text);
    }
    json_close_list(j);
    json_close_object(j);
}

/* What the clinic gives by tube. */
static void write_tube_here(struct json *j, const struct tube_here_plan *here)
{
    char text[16];
    json_key(j, "tube_here");
    json_open_list(j);
    for (size_t i = 0; i < here->count; i++) {
        date_write_iso(here->days[i], text);
        json_text(j, text);
    }
    json_close_list(j);
}

void explain_json_feeding(struct json *j, const struct care_plan *p)
{
    const struct feeding_plan *f = &p->feeding;
    json_key(j, "feeding");
    json_open_object(j);
    json_key_text(j, "stage",
                  p->taxon.is_unlisted ? NULL : bind_choice_word(stage_choices, (int)f->stage));
    json_key_text(j, "stage_reason", explain_stage_reason_word(f->stage_reason));
    json_key_text(j, "food", f->food_count ? f->foods[0].food : NULL);
    write_foods(j, f);
    write_food_rules(j, f);
    explain_key_pair(j, "meal_g", f->has_meal, f->meal_low_g, f->meal_high_g);
    explain_key_pair(j, "insects", f->has_insects, f->insects_low, f->insects_high);
    explain_key_pair(j, "plant_percent", f->has_plant_share, f->plant_low_percent,
                     f->plant_high_percent);
    explain_key_pair(j, "every_days", true, f->every_low_days, f->every_high_days);
    explain_key_pair(j, "usual_every_days", true, f->usual_low_days, f->usual_high_days);
    json_key_text(j, "change", bind_choice_word(feeding_change_choices, (int)f->change));
    json_key_text(j, "change_from", f->change_from);
    json_key_flag(j, "asks_amount", f->asks_amount);
    json_key_flag(j, "paused", f->paused);
    explain_key_date(j, "resume", f->has_resume, f->resume);
    explain_key_date(j, "call_by", f->has_call_by, f->call_by);
    json_key_text(j, "meal_verdict", explain_verdict_word(f->meal_verdict));
    json_key_text(j, "interval_verdict", explain_verdict_word(f->interval_verdict));
    write_next_meals(j, f);
    write_tube(j, &p->tube_food);
    write_tube_here(j, &p->tube_here);
    write_supplements(j, f);
    write_now(j, &f->now);
    write_steps(j, f);
    write_lines(j, f);
    explain_json_diet(j, &f->diet_now);
    json_key(j, "energy");
    json_open_object(j);
    explain_key_pair(j, "need_kcal_day", f->has_need, f->need_low_kcal_day, f->need_high_kcal_day);
    explain_key_pair(j, "plan_kcal_day", f->has_energy, f->plan_low_kcal_day,
                     f->plan_high_kcal_day);
    json_close_object(j);
    explain_json_provenance(j, "source", &f->meal_from);
    explain_json_how(j, &f->how);
    json_close_object(j);
}
