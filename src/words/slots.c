/* The table of slots over the plan, one getter each. */
#include "words/slots.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "words/agreement.h"
#include "words/format_measured.h"
#include "words/format_opening.h"
#include "words/slots_inside.h"

static bool give_days(const struct phrase_context *ctx, struct slot_value *out, double low,
                      double high)
{
    return high > 0 && give_number(out, format_days(FORMAT, low, high), round(high));
}

#define GETTER(name_) static bool name_(const struct phrase_context *ctx, struct slot_value *out)

/* ---- names --------------------------------------------------------------------------- */

#define TEXT_GETTER(name_, value_)                                                                 \
    GETTER(name_)                                                                                  \
    {                                                                                              \
        return give(out, (value_));                                                                \
    }

/* What people wrote, in a sentence of its own direction. */
#define WRITTEN_GETTER(name_, value_)                                                              \
    GETTER(name_)                                                                                  \
    {                                                                                              \
        return give(out, utf8_set_apart((value_), ctx->format.arena));                             \
    }

WRITTEN_GETTER(patient_name, PLAN->patient.name.text)
WRITTEN_GETTER(keeper_name, PLAN->keeper.name.text)
WRITTEN_GETTER(clinic_name, PLAN->letterhead.name.text)
TEXT_GETTER(clinic_telephone, PLAN->letterhead.telephone)
TEXT_GETTER(clinic_out_of_hours, PLAN->letterhead.out_of_hours)
TEXT_GETTER(clinic_email, PLAN->letterhead.email.text)
TEXT_GETTER(clinic_web, PLAN->letterhead.web)
WRITTEN_GETTER(vet_name, PLAN->veterinarian)
TEXT_GETTER(species_common_name, plan_species_name(PLAN, ctx->format.words->lang))
WRITTEN_GETTER(finding_where, ctx->where)

/* The text, if any, and the lines, with commas between them; NULL for nothing. */
const char *slots_join_lines(const struct phrase_context *ctx, const char *text,
                             const char *const *lines, size_t count)
{
    for (size_t i = 0; i < count; i++)
        text = text ? arena_format(ctx->format.arena, "%s, %s", text, lines[i]) : lines[i];
    return text;
}

/* As long as the animal is today. */
GETTER(patient_length)
{
    return PLAN->patient.has_length && give(out, format_length(FORMAT, PLAN->patient.length_cm));
}

/* Its lines, with commas between them. */
GETTER(clinic_address)
{
    const struct letterhead_plan *clinic = &PLAN->letterhead;
    return give(out, slots_join_lines(ctx, NULL, clinic->address, clinic->address_count));
}

/* By the day of the week, or the clinic's own lines. */
GETTER(clinic_hours)
{
    const struct letterhead_plan *clinic = &PLAN->letterhead;
    return give(out, slots_join_lines(ctx, format_opening(FORMAT, &clinic->opening),
                                      clinic->hours_text, clinic->hours_text_count));
}

/* Of the weeks that a sheet plans. */
GETTER(clinic_closed)
{
    enum { SIX_WEEKS_DAYS = 42 };
    return give(out, format_closed(FORMAT, &PLAN->letterhead.opening, PLAN->on,
                                   date_add_days(PLAN->on, SIX_WEEKS_DAYS)));
}

/* Whom to ask where to go, on a day on which nobody is here. */
TEXT_GETTER(clinic_closed_today, opening_is_closed(&PLAN->letterhead.opening, PLAN->on)
                                     ? PLAN->letterhead.out_of_hours
                                     : NULL)

/* ---- what is measured ------------------------------------------------------------------- */

static const char *borderline_name(const struct phrase_context *ctx, enum measure_id measure)
{
    struct slot_value target;
    const char *name = slots_plain_place(ctx, measure);
    if (!slots_measured_target(ctx, measure, &target))
        return name;
    struct plan_fact aim = {.name = "target", .kind = FACT_TEXT, .text = target.text};
    struct plan_fact what = {.name = "what", .kind = FACT_TEXT, .text = name, .next = &aim};
    struct phrase_context own = *ctx;
    own.facts = &what;
    return phrase(&own, "sheet.borderline");
}

/* "the warm side (aim for 27-29 C) and the water (...)": what stands at the edge of its target. */
GETTER(borderline_names)
{
    const char *names[MEASURE_COUNT];
    size_t count = 0;
    for (int m = 0; m < MEASURE_COUNT; m++)
        if (PLAN->measured[m].verdict == VERDICT_BORDERLINE)
            names[count++] = borderline_name(ctx, (enum measure_id)m);
    return count && give(out, phrase_all_of(ctx, names, count));
}

TEXT_GETTER(borderline_heat, slots_heat_at_edge_text(ctx))

/* ---- temperature ------------------------------------------------------------------------ */

GETTER(upper_limit)
{
    const struct temperature_plan *t = &PLAN->temperature;
    return give(out, t->has_upper_limit ? format_temp_limit(FORMAT, t->upper_limit_c) : NULL);
}

/* ---- humidity ----------------------------------------------------------------------------- */

GETTER(humidity_after_shed)
{
    const struct humidity_plan *h = &PLAN->humidity;
    return give(out, h->in_shed_now
                         ? format_percent_band(FORMAT, h->after_low_percent, h->after_high_percent)
                         : NULL);
}

GETTER(humidity_at)
{
    const struct humidity_plan *h = &PLAN->humidity;
    return give(out,
                PLAN->measured[MEASURE_HUMIDITY].has_reading
                    ? phrase_code(ctx, "zone", bind_choice_word(zone_choices, (int)h->reading_at))
                    : NULL);
}

GETTER(humidity_shed_target)
{
    const struct humidity_plan *h = &PLAN->humidity;
    return give(out, h->has_shed_band
                         ? format_percent_band(FORMAT, h->shed_low_percent, h->shed_high_percent)
                         : NULL);
}

GETTER(humidity_warm_side)
{
    const struct humidity_plan *h = &PLAN->humidity;
    for (size_t i = 0; i < h->equivalent_count; i++)
        if (h->equivalent[i].zone == ZONE_WARM_SIDE)
            return give(out, format_percent(FORMAT, h->equivalent[i].rh_percent));
    return false;
}

GETTER(dew_point)
{
    const struct humidity_plan *h = &PLAN->humidity;
    return give(out, h->has_dew_point ? format_temp(FORMAT, h->dew_point_c) : NULL);
}

/* ---- water -------------------------------------------------------------------------------- */

#define WATER_GETTER(name_, text_)                                                                 \
    GETTER(name_)                                                                                  \
    {                                                                                              \
        const struct water_plan *w = &PLAN->water;                                                 \
        return give(out, (text_));                                                                 \
    }

WATER_GETTER(water_share, format_share(FORMAT, w->part_low_percent, w->part_high_percent))
WATER_GETTER(water_litres, slots_part_litres(ctx, w->part_low_percent, w->part_high_percent))
WATER_GETTER(water_part_depth, slots_part_depth(ctx, w->part_low_percent, w->part_high_percent))
WATER_GETTER(water_part_mark, slots_part_mark(ctx, w->part_low_percent, w->part_high_percent))
WATER_GETTER(water_usual_litres,
             w->has_usual ? slots_part_litres(ctx, w->usual_low_percent, w->usual_high_percent)
                          : NULL)
WATER_GETTER(water_apart, format_temp_step(FORMAT, w->part_apart_c))
WATER_GETTER(water_retest, w->part_now ? format_date_long(FORMAT, w->retest) : NULL)
WATER_GETTER(water_usual_share,
             w->has_usual ? format_share(FORMAT, w->usual_low_percent, w->usual_high_percent)
                          : NULL)
WATER_GETTER(water_cool_hour, w->cool_down ? format_temp_step(FORMAT, w->cool_c_hour) : NULL)
WATER_GETTER(water_cool_day, w->cool_down ? format_temp_step(FORMAT, w->cool_c_day) : NULL)
WATER_GETTER(water_cool_tonight, w->cool_down ? format_temp(FORMAT, w->cool_tonight_c) : NULL)
/* The target takes more than today. */
WATER_GETTER(water_cool_first,
             w->cool_down && w->cool_tonight_c > PLAN->measured[MEASURE_WATER].high
                 ? format_temp(FORMAT, w->cool_tonight_c)
                 : NULL)

GETTER(water_usual_days)
{
    const struct water_plan *w = &PLAN->water;
    return w->has_usual && give_days(ctx, out, w->usual_low_days, w->usual_high_days);
}

GETTER(water_cool_days)
{
    const struct water_plan *w = &PLAN->water;
    return w->cool_down && give_days(ctx, out, w->cool_days, w->cool_days);
}

/* ---- light ---------------------------------------------------------------------------------- */

GETTER(uvb_now)
{
    return slots_measured_reading(ctx, MEASURE_UVB, out);
}

/* ---- food ------------------------------------------------------------------------------------ */

static const struct prey_choice *prey_of(const struct phrase_context *ctx)
{
    if (ctx->prey)
        return ctx->prey;
    return PLAN->feeding.food_count ? &PLAN->feeding.foods[0] : NULL;
}

GETTER(meal_mass)
{
    const struct feeding_plan *m = &PLAN->feeding;
    return give(out, m->has_meal ? format_mass_band(FORMAT, m->meal_low_g, m->meal_high_g) : NULL);
}

GETTER(meal_count)
{
    const struct prey_choice *prey = prey_of(ctx);
    if (!prey || prey->count <= 0)
        return false;
    return give_number(out, format_number(FORMAT, prey->count, 0), prey->count);
}

TEXT_GETTER(meal_food, ctx->prey ? slots_food_text(ctx, ctx->prey) : slots_foods_text(ctx))

GETTER(insects_count)
{
    const struct feeding_plan *m = &PLAN->feeding;
    if (!m->has_insects)
        return false;
    return give_number(out,
                       format_range(FORMAT, format_number(FORMAT, m->insects_low, 0),
                                    format_number(FORMAT, m->insects_high, 0)),
                       m->insects_high);
}

GETTER(steps_first)
{
    const struct feeding_plan *m = &PLAN->feeding;
    const struct feeding_step *first = &m->steps[0];
    if (m->step_count == 0)
        return false;
    return give(out, m->has_meal ? format_mass_band(FORMAT, first->low_g, first->high_g)
                                 : format_range(FORMAT, format_number(FORMAT, first->low, 0),
                                                format_number(FORMAT, first->high, 0)));
}

GETTER(meal_interval)
{
    return give_days(ctx, out, PLAN->feeding.every_low_days, PLAN->feeding.every_high_days);
}

GETTER(meal_usual_interval)
{
    return give_days(ctx, out, PLAN->feeding.usual_low_days, PLAN->feeding.usual_high_days);
}

TEXT_GETTER(meal_next,
            PLAN->feeding.next_count ? format_date_long(FORMAT, PLAN->feeding.next[0]) : NULL)

GETTER(meal_now)
{
    const struct feeding_plan *m = &PLAN->feeding;
    if (m->has_meal_now)
        return give(out, format_mass(FORMAT, m->meal_now_g));
    return m->has_count_now &&
           give_number(out, format_number(FORMAT, m->count_now, 0), m->count_now);
}

GETTER(meal_interval_now)
{
    const struct feeding_plan *m = &PLAN->feeding;
    return m->has_interval_now && give_days(ctx, out, m->interval_now_days, m->interval_now_days);
}

GETTER(fast_limit)
{
    return give_days(ctx, out, PLAN->feeding.fast_limit_days, PLAN->feeding.fast_limit_days);
}

GETTER(stool_limit)
{
    return give_days(ctx, out, PLAN->feeding.stool_limit_days, PLAN->feeding.stool_limit_days);
}

/* The day of the first meal: the rest may be over sooner, and two days would be two orders. */
GETTER(feeding_resume)
{
    const struct feeding_plan *m = &PLAN->feeding;
    const bool is_later = m->next_count > 0 && date_compare(m->next[0], m->resume) > 0;
    return give(out,
                m->has_resume ? format_date_long(FORMAT, is_later ? m->next[0] : m->resume) : NULL);
}

/* The food that the veterinarian wrote: the day on which it begins behind a rest. */
GETTER(food_written_from)
{
    const struct date day = plan_food_day(PLAN);
    if (date_compare(day, PLAN->on) <= 0 || !plan_holds_on(PLAN, "food", "vet-plan", day))
        return false;
    const struct feeding_plan *m = &PLAN->feeding;
    struct date first = PLAN->tube_food.listed ? PLAN->tube_food.first : day;
    /* food among the medicines begins with its own first dose */
    if (!PLAN->tube_food.listed && m->has_written_first && date_compare(m->written_first, day) > 0)
        first = m->written_first;
    return give(out, format_date_long(FORMAT, first));
}

GETTER(feeding_pause)
{
    return give_days(ctx, out, PLAN->feeding.pause_low_days, PLAN->feeding.pause_high_days);
}

GETTER(quarantine_days)
{
    return give_days(ctx, out, PLAN->quarantine_low_days, PLAN->quarantine_high_days);
}

/* ---- box, weight, dates ------------------------------------------------------------------------
 */

GETTER(enclosure_least)
{
    const struct enclosure_plan *e = &PLAN->enclosure;
    return give(out, e->known ? format_box(FORMAT, e->wanted_length_cm, e->wanted_width_cm,
                                           e->wanted_height_cm, true)
                              : NULL);
}

GETTER(enclosure_grown)
{
    const struct enclosure_plan *e = &PLAN->enclosure;
    bool is_larger = e->has_grown && (e->grown_length_cm > e->least_length_cm ||
                                      e->grown_width_cm > e->least_width_cm ||
                                      e->grown_height_cm > e->least_height_cm);
    return give(out, is_larger ? format_box(FORMAT, e->grown_length_cm, e->grown_width_cm,
                                            e->grown_height_cm, true)
                               : NULL);
}

GETTER(company_animals)
{
    const struct company_plan *company = &PLAN->enclosure.company;
    bool several = company->has_floor && company->animals > 1;
    return give(out, several ? arena_format(ctx->format.arena, "%.0f", company->animals) : NULL);
}

TEXT_GETTER(diet_never, slots_never_text(ctx))
TEXT_GETTER(diet_poison, slots_poison_text(ctx))
TEXT_GETTER(diet_rich, slots_rich_text(ctx))
TEXT_GETTER(diet_others, slots_others_text(ctx))
TEXT_GETTER(diet_best, slots_food_list_text(ctx, &PLAN->feeding.diet_now.best))
TEXT_GETTER(diet_fish, slots_food_list_text(ctx, &PLAN->feeding.diet_now.fish))

GETTER(outdoors_day)
{
    const struct outdoors_plan *o = &PLAN->enclosure.outdoors;
    return give(out, o->has_latitude ? format_hours(FORMAT, o->day_hours) : NULL);
}

GETTER(outdoors_morning)
{
    const struct outdoors_plan *o = &PLAN->enclosure.outdoors;
    return give(out, o->has_weather ? format_temp(FORMAT, o->morning_c) : NULL);
}

GETTER(outdoors_midday)
{
    const struct outdoors_plan *o = &PLAN->enclosure.outdoors;
    return give(out, o->has_weather ? format_temp(FORMAT, o->midday_c) : NULL);
}

GETTER(enclosure_size)
{
    const struct enclosure_plan *e = &PLAN->enclosure;
    return give(out, e->has_size
                         ? format_box(FORMAT, e->length_cm, e->width_cm, e->height_cm, false)
                         : NULL);
}

GETTER(weight_now)
{
    const struct patient_plan *p = &PLAN->patient;
    return give(out, p->has_mass ? format_mass(FORMAT, p->mass_g) : NULL);
}

#define WEIGHT_GETTER(name_, known_, text_)                                                        \
    GETTER(name_)                                                                                  \
    {                                                                                              \
        const struct weight_plan *w = &PLAN->weight;                                               \
        return give(out, (known_) ? (text_) : NULL);                                               \
    }

static const double SCALE_FINE_STEP_G = 0.1;

WEIGHT_GETTER(weight_fine_step, w->needs_fine_scale, format_grams(FORMAT, SCALE_FINE_STEP_G))
/* no weight to call for beside the order not to weigh it */
static bool is_weighed(const struct phrase_context *ctx)
{
    const char *written = plan_holds(PLAN, "weighing", "as-written")
                              ? plan_printed_key(PLAN, "stance.weighing.as-written", FORMAT->arena)
                              : NULL;
    return !plan_holds(PLAN, "weighing", "not-at-home") &&
           !(written && strcmp(written, "stance.weighing.not-at-home") == 0);
}

WEIGHT_GETTER(weight_alarm_low, w->has_low,
              slots_call_mass_text(ctx, w->alarm_low_g, w->low_is_written))
/* what a thin animal gains short of its goal alarms nobody */
WEIGHT_GETTER(weight_alarm_high,
              w->has_high && (w->purpose != WEIGHT_GAIN || w->has_goal) && is_weighed(ctx),
              slots_call_mass_text(ctx, w->alarm_high_g, w->high_is_written))
TEXT_GETTER(depth_own, slots_depth_own_text(ctx))
TEXT_GETTER(weighing_then, slots_weighing_then_text(ctx))
TEXT_GETTER(weighing_until, slots_weighing_until_text(ctx))
TEXT_GETTER(weight_before_rest, slots_rest_mass_text(ctx, false))
TEXT_GETTER(weight_at_rest, slots_rest_mass_text(ctx, true))
TEXT_GETTER(wake_steps, slots_wake_steps_text(ctx))
TEXT_GETTER(weight_laid_low, slots_laid_text(ctx, REPRODUCTION_EGG_LAYER))
TEXT_GETTER(weight_born_low, slots_laid_text(ctx, REPRODUCTION_LIVE_BEARER))

WEIGHT_GETTER(weight_goal, w->has_goal, format_mass(FORMAT, w->goal_g))
WEIGHT_GETTER(weight_expected_on, w->has_expected, format_date_day(FORMAT, w->weigh_on))

GETTER(weight_alarm_days)
{
    const struct weight_plan *w = &PLAN->weight;
    return w->has_low && give_days(ctx, out, w->alarm_days, w->alarm_days);
}

GETTER(weight_prey_days)
{
    const struct weight_plan *w = &PLAN->weight;
    return w->prey_days > 0 && give_days(ctx, out, w->prey_days, w->prey_days);
}

TEXT_GETTER(weight_since, PLAN->growth.known ? format_date_short(FORMAT, PLAN->growth.since) : NULL)

GETTER(weight_days)
{
    double days = (double)PLAN->growth.per_days;
    return PLAN->growth.known && give_days(ctx, out, days, days);
}

TEXT_GETTER(eggs_by, PLAN->has_eggs_by ? format_date_day(FORMAT, PLAN->eggs_by) : NULL)
TEXT_GETTER(urine_by, PLAN->has_urine_by ? format_date_day(FORMAT, PLAN->urine_by) : NULL)

TEXT_GETTER(recheck_date, PLAN->has_recheck ? format_date_long(FORMAT, PLAN->recheck) : NULL)

GETTER(aftercare_awake)
{
    const struct aftercare_plan *a = &PLAN->aftercare;
    return give(out, a->has_awake_by ? format_clock(FORMAT, a->awake_by_minute) : NULL);
}

GETTER(aftercare_dry_hours)
{
    double hours = PLAN->aftercare.dry_hours;
    return hours > 0 && give_number(out, format_hours(FORMAT, hours), hours);
}

GETTER(aftercare_dry_times)
{
    double times = PLAN->aftercare.dry_times;
    return times > 0 && give_number(out, format_number(FORMAT, times, 0), times);
}

TEXT_GETTER(aftercare_tube, PLAN->aftercare.tube_ml > 0
                                ? format_amount(FORMAT, PLAN->aftercare.tube_ml, UNIT_MILLILITRE)
                                : NULL)

TEXT_GETTER(aftercare_tube_food, PLAN->aftercare.tube_food     ? PLAN->aftercare.tube_food
                                 : PLAN->aftercare.tube_ml > 0 ? phrase(ctx, "sheet.tube-food")
                                                               : NULL)

/* What becomes of a dressing in the water, where that was written. */
GETTER(dressing_in_water)
{
    for (size_t i = 0; i < PLAN->procedure_count; i++)
        if (PLAN->procedures[i].in_water)
            return give(out, phrase_code(ctx, "dressing", PLAN->procedures[i].in_water));
    return false;
}

GETTER(aftercare_tube_every)
{
    double hours = PLAN->aftercare.tube_every_h;
    if (hours <= 0)
        return false;
    return give_number(out, format_interval(FORMAT, hours), hours);
}

TEXT_GETTER(aftercare_tube_first,
            PLAN->tube_food.listed ? format_date_day(FORMAT, PLAN->tube_food.first) : NULL)

TEXT_GETTER(booked_at, PLAN->booked_minute >= 0 ? format_clock(FORMAT, PLAN->booked_minute) : NULL)
/* The next visit need not be the one that is booked: a dose may be given here before. */
TEXT_GETTER(visit_next_at, PLAN->has_next_visit && PLAN->next_visit_minute >= 0
                               ? format_clock(FORMAT, PLAN->next_visit_minute)
                               : NULL)
TEXT_GETTER(visit_next, PLAN->has_next_visit ? format_date_long(FORMAT, PLAN->next_visit) : NULL)

GETTER(recheck_days)
{
    double days = (double)date_days_between(PLAN->on, PLAN->recheck);
    return PLAN->has_recheck && give_days(ctx, out, days, days);
}

TEXT_GETTER(food_written_first, PLAN->feeding.has_written_first
                                    ? format_date_day(FORMAT, PLAN->feeding.written_first)
                                    : NULL)
TEXT_GETTER(food_medicine, PLAN->feeding.written_medicine)

TEXT_GETTER(food_call_by,
            PLAN->feeding.has_call_by ? format_date_day(FORMAT, PLAN->feeding.call_by) : NULL)

/* The first meal, where its mouth or airway is treated or its empty gut warms until then: no gate
 * opens before. */
TEXT_GETTER(meal_not_before, PLAN->feeding.is_treated || PLAN->feeding.is_warming
                                 ? format_date_day(FORMAT, PLAN->feeding.next[0])
                                 : NULL)

TEXT_GETTER(meal_next_dose,
            PLAN->feeding.has_dose_after ? format_date_day(FORMAT, PLAN->feeding.dose_after) : NULL)

/* The first meal, where a portion that holds until the check would be over by then. */
TEXT_GETTER(food_after_check, PLAN->feeding.starts_after_check
                                  ? format_date_day(FORMAT, PLAN->feeding.next[0])
                                  : NULL)

/* A call for what is not right by then, told of food that comes back only later, would be one of a
 * day that is past. */
TEXT_GETTER(food_way_out, date_compare(plan_food_day(PLAN), PLAN->way_out) <= 0
                              ? format_date_day(FORMAT, PLAN->way_out)
                              : NULL)

GETTER(steps_way_out)
{
    return give(out, format_date_day(FORMAT, PLAN->way_out));
}

GETTER(sign_days)
{
    return give_days(ctx, out, PLAN->sign_lasting_days, PLAN->sign_lasting_days);
}

TEXT_GETTER(thirst_call_by,
            PLAN->has_thirst_call ? format_date_day(FORMAT, PLAN->thirst_call) : NULL)
TEXT_GETTER(bath_drink, slots_drink_bath_text(ctx))

TEXT_GETTER(bath_from, PLAN->has_bath_from ? format_date_long(FORMAT, PLAN->bath_from) : NULL)
TEXT_GETTER(bath_written_from,
            PLAN->has_bath_written_from ? format_date_long(FORMAT, PLAN->bath_written_from) : NULL)

/* ---- the table ----------------------------------------------------------------------------------
 */

#define ROW(name_, getter_)                                                                        \
    {                                                                                              \
        (name_), getter_                                                                           \
    }

/* Sorted by name; a test says so. */
static const struct slot_row rows[] = {
    ROW("aftercare.awake", aftercare_awake),
    ROW("aftercare.dry-from", aftercare_dry_from),
    ROW("aftercare.dry-hours", aftercare_dry_hours),
    ROW("aftercare.dry-times", aftercare_dry_times),
    ROW("aftercare.dry-to", aftercare_dry_to),
    ROW("aftercare.dry-until", aftercare_dry_until),
    ROW("aftercare.next-tube", aftercare_next_tube),
    ROW("aftercare.tube", aftercare_tube),
    ROW("aftercare.tube-days", aftercare_tube_days),
    ROW("aftercare.tube-every", aftercare_tube_every),
    ROW("aftercare.tube-first", aftercare_tube_first),
    ROW("aftercare.tube-food", aftercare_tube_food),
    ROW("bandage.medicine", bandage_medicine),
    ROW("bath.drink", bath_drink),
    ROW("bath.from", bath_from),
    ROW("bath.written-from", bath_written_from),
    ROW("borderline.heat", borderline_heat),
    ROW("borderline.names", borderline_names),
    ROW("chytrid.product", chytrid_product),
    ROW("chytrid.seconds", chytrid_seconds),
    ROW("clinic.address", clinic_address),
    ROW("clinic.closed", clinic_closed),
    ROW("clinic.closed-today", clinic_closed_today),
    ROW("clinic.email", clinic_email),
    ROW("clinic.hours", clinic_hours),
    ROW("clinic.name", clinic_name),
    ROW("clinic.out-of-hours", clinic_out_of_hours),
    ROW("clinic.telephone", clinic_telephone),
    ROW("clinic.web", clinic_web),
    ROW("company.animals", company_animals),
    ROW("company.housed", company_housed),
    ROW("company.mates", company_mates),
    ROW("company.other-kinds", company_other_kinds),
    ROW("company.others", company_others),
    ROW("company.tub", company_tub),
    ROW("cryptosporidium.product", cryptosporidium_product),
    ROW("depth.own", depth_own),
    ROW("dew-point", dew_point),
    ROW("diet.best", diet_best),
    ROW("diet.fish", diet_fish),
    ROW("diet.never", diet_never),
    ROW("diet.others", diet_others),
    ROW("diet.poison", diet_poison),
    ROW("diet.rich", diet_rich),
    ROW("dressing.in-water", dressing_in_water),
    ROW("eggs.by", eggs_by),
    ROW("enclosure.grown", enclosure_grown),
    ROW("enclosure.least", enclosure_least),
    ROW("enclosure.size", enclosure_size),
    ROW("fast.limit", fast_limit),
    ROW("feeding.pause", feeding_pause),
    ROW("feeding.resume", feeding_resume),
    ROW("finding.where", finding_where),
    ROW("food.after-check", food_after_check),
    ROW("food.call-by", food_call_by),
    ROW("food.medicine", food_medicine),
    ROW("food.way-out", food_way_out),
    ROW("food.written-first", food_written_first),
    ROW("food.written-from", food_written_from),
    ROW("heat.cool-there", heat_cool_there),
    ROW("heat.missing", heat_missing),
    ROW("heating.power", heating_power),
    ROW("heating.too-weak", heating_too_weak),
    ROW("humidity.after-shed", humidity_after_shed),
    ROW("humidity.at", humidity_at),
    ROW("humidity.shed-target", humidity_shed_target),
    ROW("humidity.warm-side", humidity_warm_side),
    ROW("insects.count", insects_count),
    ROW("keeper.name", keeper_name),
    ROW("lamp.age", lamp_age),
    ROW("lamp.due", lamp_due),
    ROW("lamp.hangs", lamp_hangs),
    ROW("lamp.old-age", lamp_old_age),
    ROW("light.hours", light_hours),
    ROW("light.plain-hours", light_plain_hours),
    ROW("meal.count", meal_count),
    ROW("meal.food", meal_food),
    ROW("meal.interval", meal_interval),
    ROW("meal.interval-now", meal_interval_now),
    ROW("meal.mass", meal_mass),
    ROW("meal.next", meal_next),
    ROW("meal.next-dose", meal_next_dose),
    ROW("meal.not-before", meal_not_before),
    ROW("meal.now", meal_now),
    ROW("meal.usual-interval", meal_usual_interval),
    ROW("nest.depth", nest_depth),
    ROW("nest.rim", nest_rim),
    ROW("night.end", night_end),
    ROW("night.warm-end", night_warm_end),
    ROW("outdoors.day", outdoors_day),
    ROW("outdoors.midday", outdoors_midday),
    ROW("outdoors.morning", outdoors_morning),
    ROW("patient.length", patient_length),
    ROW("patient.name", patient_name),
    ROW("plant.part", plant_part),
    ROW("plant.share", plant_share),
    ROW("quarantine.days", quarantine_days),
    ROW("ranavirus.product", ranavirus_product),
    ROW("ranavirus.seconds", ranavirus_seconds),
    ROW("recheck.date", recheck_date),
    ROW("recheck.days", recheck_days),
    ROW("sign.days", sign_days),
    ROW("species.name", species_common_name),
    ROW("steps.first", steps_first),
    ROW("steps.way-out", steps_way_out),
    ROW("stool.limit", stool_limit),
    ROW("thirst.call-by", thirst_call_by),
    ROW("upper-limit", upper_limit),
    ROW("urine.by", urine_by),
    ROW("uvb.background", uvb_background),
    ROW("uvb.change", uvb_change),
    ROW("uvb.distance", uvb_distance),
    ROW("uvb.farthest", uvb_farthest),
    ROW("uvb.low-distance", uvb_low_distance),
    ROW("uvb.low-now", uvb_low_now),
    ROW("uvb.mesh-distance", uvb_mesh_distance),
    ROW("uvb.nearest", uvb_nearest),
    ROW("uvb.now", uvb_now),
    ROW("uvb.off-call", uvb_off_call),
    ROW("uvb.unreliable", uvb_unreliable),
    ROW("vet.name", vet_name),
    ROW("visit.booked-at", booked_at),
    ROW("visit.next", visit_next),
    ROW("visit.next-at", visit_next_at),
    ROW("wake.steps", wake_steps),
    ROW("wake.warm", wake_warm),
    ROW("water.apart", water_apart),
    ROW("water.cool-day", water_cool_day),
    ROW("water.cool-days", water_cool_days),
    ROW("water.cool-first", water_cool_first),
    ROW("water.cool-hour", water_cool_hour),
    ROW("water.cool-tonight", water_cool_tonight),
    ROW("water.litres", water_litres),
    ROW("water.part-depth", water_part_depth),
    ROW("water.part-mark", water_part_mark),
    ROW("water.retest", water_retest),
    ROW("water.share", water_share),
    ROW("water.tub", water_tub),
    ROW("water.usual-days", water_usual_days),
    ROW("water.usual-litres", water_usual_litres),
    ROW("water.usual-share", water_usual_share),
    ROW("weighing.then", weighing_then),
    ROW("weighing.until", weighing_until),
    ROW("weight.alarm-days", weight_alarm_days),
    ROW("weight.alarm-high", weight_alarm_high),
    ROW("weight.alarm-low", weight_alarm_low),
    ROW("weight.at-rest", weight_at_rest),
    ROW("weight.before-rest", weight_before_rest),
    ROW("weight.born-low", weight_born_low),
    ROW("weight.change", weight_change),
    ROW("weight.days", weight_days),
    ROW("weight.expected", weight_next),
    ROW("weight.expected-on", weight_expected_on),
    ROW("weight.fine-step", weight_fine_step),
    ROW("weight.gained", weight_gained),
    ROW("weight.goal", weight_goal),
    ROW("weight.laid-low", weight_laid_low),
    ROW("weight.lost", weight_lost),
    ROW("weight.means", weight_means),
    ROW("weight.now", weight_now),
    ROW("weight.prey-days", weight_prey_days),
    ROW("weight.since", weight_since),
};

const struct slot_row *slots_table(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}

static int compare_rows(const void *a, const void *b)
{
    const struct slot_row *one = a, *other = b;
    return strcmp(one->name, other->name);
}

static const struct slot_row *find_row(const char *name)
{
    const struct slot_row wanted = {.name = name};
    return bsearch(&wanted, rows, sizeof rows / sizeof *rows, sizeof *rows, compare_rows);
}

void slots_offer(struct nearest *nearest, struct arena *arena)
{
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        nearest_offer(nearest, rows[i].name);
    for (int m = 0; m < MEASURE_COUNT; m++)
        for (size_t i = 0; slots_measured_part(i); i++)
            nearest_offer(nearest,
                          arena_format(arena, "%s%s", measures[m].id, slots_measured_part(i)));
}

bool slots_is_known(const char *name)
{
    enum measure_id measure;
    return find_row(name) != NULL || slots_find_measured(name, &measure) != NULL;
}

bool slots_find(const struct phrase_context *ctx, const char *name, struct slot_value *out)
{
    for (const struct plan_fact *fact = ctx->facts; fact; fact = fact->next)
        if (strcmp(fact->name, name) == 0)
            return give_number(out, slots_fact_text(ctx, fact), fact->high);
    const struct slot_row *row = find_row(name);
    if (row)
        return row->get(ctx, out);
    enum measure_id measure;
    slots_measured_getter *get = slots_find_measured(name, &measure);
    return get ? get(ctx, measure, out)
               : give(out, agreement_form(ctx->format.words->language, name,
                                          (enum sex)PLAN->patient.sex.value));
}

struct phrase_context slots_context(struct format format, const struct care_plan *plan)
{
    return (struct phrase_context){.find_slot = slots_find, .format = format, .plan = plan};
}
