/* Facts of an item and foods, as text: the parts of slots.h with tables of their own. */
#include "words/format_measured.h"
#include "words/format_opening.h"
#include "words/slots_inside.h"

#include <math.h>
#include <string.h>

/* ---- facts ------------------------------------------------------------------------- */

static const char *as_temp(const struct format *f, const struct plan_fact *fact)
{
    return fact->low == fact->high ? format_temp(f, fact->low)
                                   : format_temp_band(f, fact->low, fact->high);
}

static const char *as_temp_step(const struct format *f, const struct plan_fact *fact)
{
    return format_temp_step(f, fact->high);
}

static const char *as_percent(const struct format *f, const struct plan_fact *fact)
{
    return fact->low == fact->high ? format_percent(f, fact->low)
                                   : format_percent_band(f, fact->low, fact->high);
}

static const char *as_length(const struct format *f, const struct plan_fact *fact)
{
    return fact->low == fact->high ? format_length(f, fact->low)
                                   : format_length_band(f, fact->low, fact->high);
}

static const char *as_mass(const struct format *f, const struct plan_fact *fact)
{
    return fact->low == fact->high ? format_mass(f, fact->low)
                                   : format_mass_band(f, fact->low, fact->high);
}

static const char *as_days(const struct format *f, const struct plan_fact *fact)
{
    return format_days(f, fact->low, fact->high);
}

static const char *as_clock(const struct format *f, const struct plan_fact *fact)
{
    return format_clock(f, (int)fact->low);
}

static const char *as_hours(const struct format *f, const struct plan_fact *fact)
{
    return format_hours(f, fact->high);
}

static const char *as_uvi(const struct format *f, const struct plan_fact *fact)
{
    return fact->low == fact->high ? format_uvi(f, fact->low)
                                   : format_uvi_band(f, fact->low, fact->high);
}

static const char *as_concentration(const struct format *f, const struct plan_fact *fact)
{
    return format_concentration_band(f, fact->low, fact->high);
}

static const char *as_ph(const struct format *f, const struct plan_fact *fact)
{
    return format_ph_band(f, fact->low, fact->high);
}

static const char *as_hardness(const struct format *f, const struct plan_fact *fact)
{
    return format_hardness_band(f, fact->low, fact->high);
}

static const char *as_count(const struct format *f, const struct plan_fact *fact)
{
    return format_range(f, format_number(f, fact->low, 0), format_number(f, fact->high, 0));
}

static const char *as_power(const struct format *f, const struct plan_fact *fact)
{
    return format_power_band(f, fact->low, fact->high);
}

static const char *as_energy(const struct format *f, const struct plan_fact *fact)
{
    return format_energy_band(f, fact->low, fact->high);
}

static const char *as_ratio(const struct format *f, const struct plan_fact *fact)
{
    return format_range(f, format_number(f, fact->low, 2), format_number(f, fact->high, 2));
}

static const char *as_date(const struct format *f, const struct plan_fact *fact)
{
    return format_date_long(f, fact->date);
}

static const char *as_text(const struct format *f, const struct plan_fact *fact)
{
    (void)f;
    return fact->text ? fact->text : "";
}

const char *slots_fact_text(const struct phrase_context *ctx, const struct plan_fact *fact)
{
    static const char *(*const writers[])(const struct format *, const struct plan_fact *) = {
        [FACT_TEMPERATURE] = as_temp,
        [FACT_TEMPERATURE_STEP] = as_temp_step,
        [FACT_PERCENT] = as_percent,
        [FACT_LENGTH] = as_length,
        [FACT_MASS] = as_mass,
        [FACT_DAYS] = as_days,
        [FACT_CLOCK] = as_clock,
        [FACT_HOURS] = as_hours,
        [FACT_UVI] = as_uvi,
        [FACT_COUNT] = as_count,
        [FACT_POWER] = as_power,
        [FACT_ENERGY] = as_energy,
        [FACT_RATIO] = as_ratio,
        [FACT_CONCENTRATION] = as_concentration,
        [FACT_PH] = as_ph,
        [FACT_HARDNESS] = as_hardness,
        [FACT_DATE] = as_date,
        [FACT_TEXT] = as_text,
    };
    if (fact->kind == FACT_CODE || fact->kind == FACT_STANCE) {
        /* without the item's own facts: a code cannot name itself */
        struct phrase_context without_facts = *ctx;
        without_facts.facts = NULL;
        if (fact->kind == FACT_CODE)
            return phrase_named(&without_facts, fact->text);
        const char *stance = strrchr(fact->text, '.');
        const char *topic =
            arena_format(ctx->format.arena, "%.*s", (int)(stance - fact->text), fact->text);
        return phrase_stance(&without_facts, topic, stance + 1);
    }
    return writers[fact->kind](&ctx->format, fact);
}

/* ---- foods --------------------------------------------------------------------------- */

const char *slots_food_text(const struct phrase_context *ctx, const struct prey_choice *prey)
{
    struct phrase_context of = *ctx;
    of.prey = prey;
    of.facts = NULL;
    if (prey->size && prey->count > 0) {
        /* foods without sizes of their own are named by their plain name */
        const char *key = arena_format(ctx->format.arena, "food.%s.%s", prey->food, prey->size);
        const char *sized = phrase_if_worded(&of, key);
        if (sized)
            return sized;
    }
    return phrase_code(&of, "food", prey->food);
}

static const char *any_of(const struct phrase_context *ctx, const struct prey_choice *foods,
                          size_t count)
{
    if (count == 0)
        return NULL;
    const char **phrases = ARENA_ARRAY(ctx->format.arena, const char *, count);
    for (size_t i = 0; i < count; i++)
        phrases[i] = slots_food_text(ctx, &foods[i]);
    return phrase_any_of(ctx, phrases, count);
}

const char *slots_foods_text(const struct phrase_context *ctx)
{
    return any_of(ctx, ctx->plan->feeding.foods, ctx->plan->feeding.food_count);
}

const char *slots_line_text(const struct phrase_context *ctx, const struct feeding_line *line)
{
    return any_of(ctx, line->foods, line->food_count);
}

static const char *name_all(const struct phrase_context *ctx, const char *family,
                            const struct food_list *foods)
{
    const char **names = ARENA_ARRAY(ctx->format.arena, const char *, foods->count + 1);
    for (size_t i = 0; i < foods->count; i++)
        names[i] = phrase_code(ctx, family, foods->foods[i]);
    return foods->count ? phrase_all_of(ctx, names, foods->count) : NULL;
}

const char *slots_food_list_text(const struct phrase_context *ctx, const struct food_list *foods)
{
    return name_all(ctx, "food", foods);
}

static bool is_no_staple(const struct diet_food *one)
{
    return !one->is_left_out && one->has_class && one->food_class != FOOD_STAPLE;
}

static bool is_never(const struct diet_food *one)
{
    return one->is_never;
}

static bool is_named(const struct food_list *these, const char *code)
{
    for (size_t i = 0; i < these->count; i++)
        if (strcmp(these->foods[i], code) == 0)
            return true;
    return false;
}

/* Each once, though it may be given at two times of the week. */
static const char *given_text(const struct phrase_context *ctx, const char *family,
                              bool (*is_one)(const struct diet_food *))
{
    const struct diet_plan *diet = &ctx->plan->feeding.diet_now;
    const char **codes = ARENA_ARRAY(ctx->format.arena, const char *, diet->given_count + 1);
    struct food_list these = {codes, 0};
    for (size_t i = 0; i < diet->given_count; i++)
        if (is_one(&diet->given[i]) && !is_named(&these, diet->given[i].food))
            codes[these.count++] = diet->given[i].food;
    return name_all(ctx, family, &these);
}

const char *slots_others_text(const struct phrase_context *ctx)
{
    return given_text(ctx, "food", is_no_staple);
}

const char *slots_never_text(const struct phrase_context *ctx)
{
    return given_text(ctx, "never-food", is_never);
}

static bool is_poison(const struct diet_food *one)
{
    return one->is_never && one->because == NEVER_POISON;
}

const char *slots_poison_text(const struct phrase_context *ctx)
{
    return given_text(ctx, "never-food", is_poison);
}

static bool is_rich(const struct diet_food *one)
{
    return one->is_rich;
}

const char *slots_rich_text(const struct phrase_context *ctx)
{
    return given_text(ctx, "food", is_rich);
}

/* ---- weight and warmth ------------------------------------------------------------------ */

const char *slots_weighing_until_text(const struct phrase_context *ctx)
{
    const struct stance_phase *phase = plan_phase_on(ctx->plan, "weighing", ctx->plan->on);
    return phase && phase->has_until ? format_date_day(&ctx->format, phase->until) : NULL;
}

/* The rhythm behind that day, where it is weighed at home in another one: beside dates of that
 * rhythm "once a week" alone was taken for wrong. */
const char *slots_weighing_then_text(const struct phrase_context *ctx)
{
    const struct stance_phase *now = plan_phase_on(ctx->plan, "weighing", ctx->plan->on);
    const struct stance_phase *then =
        now && now->has_until ? plan_phase_on(ctx->plan, "weighing", now->until) : NULL;
    if (!then || strcmp(then->stance, now->stance) == 0)
        return NULL;
    return phrase_if_worded(ctx,
                            arena_format(ctx->format.arena, "weighing-rhythm.%s", then->stance));
}

/* What a weak animal may lie in has no published number: the veterinarian's alone. */
const char *slots_depth_own_text(const struct phrase_context *ctx)
{
    const struct measured_plan *depth = &ctx->plan->measured[MEASURE_DEPTH];
    return depth->target_from.origin == ORIGIN_VETERINARIAN
               ? format_measured_band(&ctx->format, measures[MEASURE_DEPTH].dimension, depth->low,
                                      depth->high)
               : NULL;
}

const char *slots_call_mass_text(const struct phrase_context *ctx, double mass_g, bool is_written)
{
    const double now_g = ctx->plan->patient.mass_g;
    return format_mass_call(&ctx->format, mass_g, now_g, is_written);
}

static const double WHOLE_PERCENT = 100;

/* Is the tank itself let down, and for longer than until it is awake? Litres are of the whole, and
 * of what is left nobody knows them. A tub of its own leaves the tank as it is. */
static bool is_let_down(const struct care_plan *plan)
{
    const struct stance_phase *level = plan_phase_on(plan, "water-level", plan->on);
    if (!level || level->end_by == PHASE_END_AWAKE || strcmp(level->stance, "usual") == 0)
        return false;
    for (size_t i = 0; i < plan->action_count; i++)
        if (plan->steps[i].in_tub)
            return false;
    return true;
}

const char *slots_part_litres(const struct phrase_context *ctx, double low_percent,
                              double high_percent)
{
    const struct water_plan *w = &ctx->plan->water;
    return w->has_litres && !is_let_down(ctx->plan)
               ? format_volume_part(&ctx->format, w->volume_l * low_percent / WHOLE_PERCENT,
                                    w->volume_l * high_percent / WHOLE_PERCENT)
               : NULL;
}

/* Walls stand upright: a quarter of the depth is a quarter of the water. */
const char *slots_part_depth(const struct phrase_context *ctx, double low_percent,
                             double high_percent)
{
    const struct measured_plan *depth = &ctx->plan->measured[MEASURE_DEPTH];
    const bool is_own = depth->target_from.origin == ORIGIN_VETERINARIAN;
    double deep_cm = 0;
    if (is_let_down(ctx->plan))
        deep_cm = is_own ? depth->low : 0;
    else if (depth->has_reading && !depth->implausible)
        deep_cm = depth->reading;
    return deep_cm > 0 ? format_length_most(&ctx->format, deep_cm * (low_percent + high_percent) /
                                                              2 / WHOLE_PERCENT)
                       : NULL;
}

const char *slots_part_mark(const struct phrase_context *ctx, double low_percent,
                            double high_percent)
{
    static const double QUARTER_PERCENT = 25;
    return (low_percent + high_percent) / 2 == QUARTER_PERCENT &&
                   !slots_part_litres(ctx, low_percent, high_percent) &&
                   !slots_part_depth(ctx, low_percent, high_percent)
               ? phrase_if_known(ctx, "sheet.water.mark")
               : NULL;
}

const char *slots_laid_text(const struct phrase_context *ctx, enum reproduction kind)
{
    const struct taxon_plan *species = &ctx->plan->taxon;
    const struct weight_plan *weight = &ctx->plan->weight;
    return weight->has_laid_low && species->reproduction_known && species->reproduction == kind
               ? format_mass(&ctx->format, weight->laid_low_g)
               : NULL;
}

const char *slots_rest_mass_text(const struct phrase_context *ctx, bool in_progress)
{
    const struct winter_rest_plan *rest = &ctx->plan->winter_rest;
    const struct weight_plan *weight = &ctx->plan->weight;
    if (!rest->is_allowed || !rest->has_mass || rest->in_progress != in_progress)
        return NULL;
    return in_progress ? format_mass(&ctx->format, rest->call_g)
           : weight->has_low
               ? slots_call_mass_text(ctx, weight->alarm_low_g, weight->low_is_written)
               : NULL;
}

const char *slots_drink_bath_text(const struct phrase_context *ctx)
{
    const struct care_plan *plan = ctx->plan;
    return plan->drink_bath_high_c > 0
               ? format_measured_band(&ctx->format, DIM_TEMPERATURE, plan->drink_bath_low_c,
                                      plan->drink_bath_high_c)
               : NULL;
}

/* "Sun 29 Nov: 17 C": one step back to the warmth of the day. */
static const char *warming_step_text(const struct phrase_context *ctx, const struct rest_step *step)
{
    const double to_c = round(step->to_c); /* no heater is set finer */
    struct plan_fact warmth = {
        .name = "warmth", .kind = FACT_TEMPERATURE, .low = to_c, .high = to_c};
    struct plan_fact date = {.name = "date",
                             .kind = FACT_TEXT,
                             .text = format_date_day(&ctx->format, step->on),
                             .next = &warmth};
    struct phrase_context own = *ctx;
    own.facts = &date;
    return phrase(&own, "sheet.winter-rest.warming-step");
}

/* The steps, then what holds from the day on which all of the warmth is back. */
const char *slots_wake_steps_text(const struct phrase_context *ctx)
{
    const struct winter_rest_plan *rest = &ctx->plan->winter_rest;
    const char *texts[REST_STEPS_MOST];
    size_t count = 0;
    for (; count + 1 < rest->warming_count; count++)
        texts[count] = warming_step_text(ctx, &rest->warming[count]);
    if (count == 0)
        return NULL;
    struct plan_fact cool = {.name = "cool",
                             .kind = FACT_TEMPERATURE,
                             .low = rest->cool_low_c,
                             .high = rest->cool_high_c};
    struct plan_fact warmth = {.name = "warmth",
                               .kind = FACT_TEMPERATURE,
                               .low = rest->warm_low_c,
                               .high = rest->warm_high_c,
                               .next = rest->cool_high_c > 0 ? &cool : NULL};
    struct plan_fact date = {.name = "date",
                             .kind = FACT_TEXT,
                             .text = format_date_day(&ctx->format, rest->warm_on),
                             .next = &warmth};
    struct plan_fact steps = {.name = "steps",
                              .kind = FACT_TEXT,
                              .text = phrase_all_of(ctx, texts, count),
                              .next = &date};
    struct phrase_context own = *ctx;
    own.facts = &steps;
    return phrase(&own, "sheet.winter-rest.warming");
}

/* Is this the day's warmth of a place alone, because its night is another number? */
static bool is_of_the_day(const struct care_plan *plan, enum measure_id measure, double c)
{
    const struct measured_plan *night =
        measure == MEASURE_WARM_SIDE   ? &plan->measured[MEASURE_NIGHT_WARM_SIDE]
        : measure == MEASURE_COOL_SIDE ? &plan->measured[MEASURE_NIGHT]
                                       : NULL;
    return night && night->applies && isfinite(night->low + night->high) &&
           (c < night->low || c > night->high);
}

/* "the cool side to 26 C": no keeper works out the middle of two numbers.
 * Rounded as the band is, so it lies in what is printed. */
static const char *set_to_middle(const struct phrase_context *ctx, enum measure_id measure)
{
    const struct measured_plan *plan = &ctx->plan->measured[measure];
    const double middle = (plan->low + plan->high) / 2;
    struct plan_fact target = {
        .name = "target",
        .kind = FACT_TEXT,
        .text = format_measured_band(&ctx->format, measures[measure].dimension, middle, middle)};
    struct plan_fact what = {.name = "what",
                             .kind = FACT_TEXT,
                             .text = slots_plain_place(ctx, measure),
                             .next = &target};
    struct phrase_context own = *ctx;
    own.facts = &what;
    return phrase(&own, is_of_the_day(ctx->plan, measure, middle) ? "sheet.middle-by-day"
                                                                  : "sheet.middle");
}

/* A step that warms the place has said how far: a second number would be another answer. */
static bool is_warmed(const struct care_plan *plan, enum measure_id measure)
{
    for (size_t i = 0; i < plan->action_count; i++)
        if (plan->steps[i].heats && plan->steps[i].has_place &&
            plan->steps[i].place == (int)measure)
            return true;
    return false;
}

/* No heater is set to the cool side, by day or by night: that follows from the warm one. */
static bool follows_warm_place(const struct care_plan *plan, enum measure_id measure)
{
    return measure == MEASURE_COOL_SIDE ||
           (measure == MEASURE_NIGHT && slots_night_has_two_ends(plan));
}

const char *slots_heat_at_edge_text(const struct phrase_context *ctx)
{
    const char *names[MEASURE_COUNT];
    size_t count = 0;
    for (int m = 0; m < MEASURE_COUNT; m++) {
        const struct measured_plan *one = &ctx->plan->measured[m];
        if (one->applies && one->verdict == VERDICT_BORDERLINE &&
            measures[m].dimension == DIM_TEMPERATURE && isfinite(one->low + one->high) &&
            !follows_warm_place(ctx->plan, (enum measure_id)m) &&
            !is_warmed(ctx->plan, (enum measure_id)m))
            names[count++] = set_to_middle(ctx, (enum measure_id)m);
    }
    return count ? phrase_all_of(ctx, names, count) : NULL;
}
