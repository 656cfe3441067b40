/* Slots of what is around the animal: the lamp's distances and dates, hours of light, its mates,
 * its bandage. */
#include <math.h>
#include <string.h>

#include "words/format_measured.h"
#include "words/format_opening.h"
#include "words/slots_inside.h"

#define GETTER(name_) bool name_(const struct phrase_context *ctx, struct slot_value *out)

GETTER(uvb_background)
{
    const struct uvb_plan *u = &PLAN->uvb;
    bool known = PLAN->measured[MEASURE_UVB].applies && u->background_uvi > 0;
    return give(out, known ? format_uvi_limit(FORMAT, u->background_uvi) : NULL);
}

/* A distance from the reading of an old lamp would hang the new, stronger one too near. */
static bool give_distance(const struct phrase_context *ctx, struct slot_value *out,
                          const char *text)
{
    const struct uvb_plan *u = &PLAN->uvb;
    return give(out, u->distance_why == DISTANCE_KNOWN && !u->lamp_overdue ? text : NULL);
}

GETTER(uvb_distance)
{
    return give_distance(ctx, out, format_length(FORMAT, PLAN->uvb.recommended_cm));
}

/* The day on which the lamp's rest ends by itself, before it is looked at here: who gave it an end
 * of her own has it printed with the step. */
GETTER(uvb_off_call)
{
    const struct stance_phase *now = plan_phase_on(PLAN, "uvb-lamp", PLAN->on);
    const bool ends =
        now && strcmp(now->stance, "off-until") == 0 && now->has_until && !now->decision;
    const bool is_seen =
        PLAN->has_recheck && ends && date_days_between(PLAN->recheck, now->until) >= 0;
    return give(out, ends && !is_seen ? format_date_day(FORMAT, now->until) : NULL);
}

/* For what lies lower than its lamp was hung for. Only where this lamp stays and may burn. */
static bool give_low(const struct phrase_context *ctx, struct slot_value *out, bool when)
{
    const struct uvb_plan *u = &PLAN->uvb;
    if (!when || !PLAN->lying.low || u->lamp != LAMP_STATE_FINE ||
        plan_holds(PLAN, "uvb-lamp", "off-until"))
        return false;
    return give_distance(ctx, out, format_length(FORMAT, u->recommended_cm));
}

GETTER(uvb_low_distance)
{
    return give_low(ctx, out, true);
}

GETTER(uvb_mesh_distance)
{
    return give_low(ctx, out, PLAN->uvb.below_mesh);
}

/* Said where the lamp hangs as it should but for the low place: one that is too near for both has
 * one number, how near it may hang. */
GETTER(uvb_low_now)
{
    const struct lying_plan *lying = &PLAN->lying;
    const double cm = PLAN->enclosure.lamp_height_cm;
    const bool stays_too_near =
        lying->has_lower_by && PLAN->uvb.nearest_cm > 0 && cm < PLAN->uvb.nearest_cm;
    return give(out, lying->low && cm > 0 && !stays_too_near ? format_length(FORMAT, cm) : NULL);
}

GETTER(uvb_nearest)
{
    return give_distance(ctx, out, format_length_least(FORMAT, PLAN->uvb.nearest_cm));
}

GETTER(uvb_farthest)
{
    return give_distance(ctx, out, format_length_most(FORMAT, PLAN->uvb.farthest_cm));
}

GETTER(uvb_change)
{
    const struct uvb_plan *u = &PLAN->uvb;
    return give(out, u->has_change && u->change_cm != 0 ? format_length(FORMAT, fabs(u->change_cm))
                                                        : NULL);
}

GETTER(uvb_unreliable)
{
    const char *kind = PLAN->uvb.unreliable;
    return give(out, kind ? phrase_code(ctx, "lamp-kind", kind) : NULL);
}

GETTER(lamp_due)
{
    const struct uvb_plan *u = &PLAN->uvb;
    return give(out, u->has_lamp_due ? format_date_long(FORMAT, u->lamp_due) : NULL);
}

GETTER(aftercare_dry_from)
{
    const struct aftercare_plan *a = &PLAN->aftercare;
    return give(out, a->has_dry_from ? format_clock(FORMAT, a->dry_from_minute) : NULL);
}

GETTER(aftercare_dry_to)
{
    enum { HOUR_MINUTES = 60, DAY_MINUTES = 24 * HOUR_MINUTES };
    const struct aftercare_plan *a = &PLAN->aftercare;
    const long end = a->dry_from_minute + lround(a->dry_hours * HOUR_MINUTES);
    return give(out, a->has_dry_from ? format_clock(FORMAT, (int)(end % DAY_MINUTES)) : NULL);
}

/* The last day of the hours out of the water: where a finding keeps them open, the day that was
 * written for them. */
GETTER(aftercare_dry_until)
{
    const struct stance_phase *now = plan_phase_on(PLAN, "dry-hours", PLAN->on);
    if (now && now->has_until)
        return give(out, format_date_long(FORMAT, now->until));
    for (size_t i = 0; i < PLAN->procedure_count; i++)
        if (strcmp(PLAN->procedures[i].code, "dry-hours") == 0 && PLAN->procedures[i].has_check)
            return give(out, format_date_long(FORMAT, PLAN->procedures[i].check));
    return give(out, NULL);
}

GETTER(lamp_age)
{
    const struct uvb_plan *u = &PLAN->uvb;
    return give(out, u->has_lamp_due ? format_age(FORMAT, u->lamp_installed, PLAN->on) : NULL);
}

/* Of one that is too old: another is changed for its light. */
GETTER(lamp_old_age)
{
    return PLAN->uvb.lamp_overdue && lamp_age(ctx, out);
}

GETTER(lamp_hangs)
{
    const struct uvb_plan *u = &PLAN->uvb;
    return give(out, u->hangs_cm > 0 ? format_length(FORMAT, u->hangs_cm) : NULL);
}

GETTER(light_hours)
{
    const struct uvb_plan *u = &PLAN->uvb;
    if (u->hours_now <= 0)
        return false;
    return give_number(out, format_hours(FORMAT, u->hours_now), u->hours_now);
}

/* While its UVB lamp is off, another light gives the hours. */
GETTER(light_plain_hours)
{
    const struct uvb_plan *u = &PLAN->uvb;
    const bool has_no_place =
        PLAN->measured[MEASURE_UVB].verdict == VERDICT_TOO_HIGH && u->lamp == LAMP_STATE_UNMEASURED;
    return (has_no_place || plan_holds(PLAN, "uvb-lamp", "off-until")) && light_hours(ctx, out);
}

/* How high what she climbs into may be. */
GETTER(nest_rim)
{
    const double rim_cm = PLAN->enclosure.nest_rim_cm;
    return rim_cm > 0 && give(out, format_length(FORMAT, rim_cm));
}

/* How deep the ground is in which she digs. */
GETTER(nest_depth)
{
    const struct enclosure_plan *e = &PLAN->enclosure;
    return give(out, e->has_nest ? format_measured_band(FORMAT, measures[MEASURE_DEPTH].dimension,
                                                        e->nest_low_cm, e->nest_high_cm)
                                 : NULL);
}

/* The kinds that share the box, each once; those without a sheet are not named. */
static const char *mate_names(const struct phrase_context *ctx, bool with_own_kind)
{
    const struct company_plan *company = &PLAN->enclosure.company;
    const char *own = plan_species_name(PLAN, ctx->format.words->lang);
    const char **names = ARENA_ARRAY(ctx->format.arena, const char *, company->mate_count + 1);
    size_t count = 0;
    for (size_t i = 0; i < company->mate_count; i++) {
        const char *name = plan_mate_name(&company->mates[i], ctx->format.words->lang);
        if (name && (with_own_kind || !own || strcmp(name, own) != 0))
            names[count++] = name;
    }
    return slots_join_lines(ctx, NULL, names, count);
}

GETTER(company_mates)
{
    return give(out, mate_names(ctx, true));
}

/* How many live with it; nothing where nobody said how many live there. */
GETTER(company_others)
{
    const struct company_plan *company = &PLAN->enclosure.company;
    const double others = company->animals - 1;
    return company->has_animals && others >= 1 &&
           give_number(out, arena_format(ctx->format.arena, "%.0f", others), others);
}

/* How many live in the box, this one with them; nothing where nobody said how many. */
GETTER(company_housed)
{
    const struct company_plan *company = &PLAN->enclosure.company;
    return company->has_animals &&
           give_number(out, arena_format(ctx->format.arena, "%.0f", company->animals),
                       company->animals);
}

/* One where this animal is told to live apart, in a tub until a second tank is ready. */
GETTER(company_tub)
{
    for (size_t i = 0; i < PLAN->action_count; i++)
        if (strcmp(PLAN->actions[i].code, "own-box") == 0)
            return give_number(out, "1", 1);
    return false;
}

/* One where any step puts it in one: what is done to the water is done to both. */
GETTER(water_tub)
{
    for (size_t i = 0; i < PLAN->action_count; i++)
        if (PLAN->steps[i].in_tub || strcmp(PLAN->actions[i].code, "own-box") == 0)
            return give_number(out, "1", 1);
    return false;
}

GETTER(company_other_kinds)
{
    return give(out, mate_names(ctx, false));
}

/* What goes on the skin at home of one that has a bandage, which stays on at home. */
GETTER(bandage_medicine)
{
    const char **names = ARENA_ARRAY(ctx->format.arena, const char *, PLAN->medicine_count + 1);
    size_t count = 0;
    bool is_bandaged = false;
    for (size_t i = 0; i < PLAN->procedure_count; i++)
        is_bandaged |= strcmp(PLAN->procedures[i].code, "bandage") == 0;
    for (size_t i = 0; i < PLAN->medicine_count && is_bandaged; i++)
        if (PLAN->medicines[i].has_route && PLAN->medicines[i].route == ROUTE_ON_THE_SKIN &&
            !PLAN->medicines[i].is_given_here)
            names[count++] = PLAN->medicines[i].name;
    return give(out, count > 0 ? phrase_all_of(ctx, names, count) : NULL);
}

/* ---- hygiene ---- */

static const struct disinfectant_plan *disinfectant_of(const struct phrase_context *ctx,
                                                       const char *finding)
{
    for (size_t i = 0; i < PLAN->finding_count; i++)
        if (strcmp(PLAN->findings[i].code, finding) == 0)
            return PLAN->findings[i].disinfectant;
    return NULL;
}

/* "chlorhexidine of 0.75 %" */
static bool give_product(const struct phrase_context *ctx, struct slot_value *out,
                         const char *finding)
{
    const struct disinfectant_plan *row = disinfectant_of(ctx, finding);
    if (!row)
        return false;
    const char *product = phrase_code(ctx, "disinfectant", row->product);
    if (!row->has_percent)
        return give(out, product);
    const struct named_value values[] = {
        {"product", {.text = product}},
        {"percent", {.text = format_strength(FORMAT, row->percent)}}};
    return give(out, format_pattern(FORMAT, "unit.strength", values, 2));
}

static bool give_seconds(const struct phrase_context *ctx, struct slot_value *out,
                         const char *finding)
{
    const struct disinfectant_plan *row = disinfectant_of(ctx, finding);
    return give(out, row && row->has_seconds ? format_number(FORMAT, row->seconds, 0) : NULL);
}

GETTER(chytrid_product)
{
    return give_product(ctx, out, "chytrid");
}

GETTER(chytrid_seconds)
{
    return give_seconds(ctx, out, "chytrid");
}

GETTER(ranavirus_product)
{
    return give_product(ctx, out, "ranavirus");
}

GETTER(ranavirus_seconds)
{
    return give_seconds(ctx, out, "ranavirus");
}

GETTER(cryptosporidium_product)
{
    return give_product(ctx, out, "cryptosporidium");
}

/* What was given through a tube here and is given again. */
bool aftercare_next_tube(const struct phrase_context *ctx, struct slot_value *out)
{
    const struct tube_here_plan *here = &PLAN->tube_here;
    return give(out, here->count ? format_date_day(FORMAT, here->days[0]) : NULL);
}

/* Its doses by their days; of a long course the first, as all stand with the medicines. */
bool aftercare_tube_days(const struct phrase_context *ctx, struct slot_value *out)
{
    enum { MOST = 4 };
    const struct tube_here_plan *here = &PLAN->tube_here;
    const char *days[MOST];
    if (!here->has_doses)
        return false;
    if (here->count > MOST)
        return give(out, phrase(ctx, "sheet.tube-days-many"));
    for (size_t i = 0; i < here->count; i++)
        days[i] = format_date_day(FORMAT, here->days[i]);
    return give(out, phrase_all_of(ctx, days, here->count));
}
