/* Target, reading, verdict and change of one measured quantity, the same way for all. */
#include "care/measured.h"

#include <math.h>

struct dimension_about {
    enum fact_kind fact;
    const char *unit, *step_unit; /* of explain */
    const char *suffix;           /* of a derivation's name */
    const char *error;            /* the meter's, as an input's name */
};

static const struct dimension_about *about(enum measure_id measure)
{
    static const struct dimension_about rows[DIM_END] = {
        [DIM_TEMPERATURE] = {FACT_TEMPERATURE, "C", "K", "c", "thermometer-error"},
        [DIM_PERCENT] = {FACT_PERCENT, "%", "%", "percent", "hygrometer-error"},
        [DIM_CONCENTRATION] = {FACT_CONCENTRATION, "mg/l", "mg/l", "mg_l", "kit-error"},
        [DIM_PH] = {FACT_PH, "", "", "ph", "meter-error"},
        [DIM_HARDNESS] = {FACT_HARDNESS, "dGH", "dGH", "dgh", "kit-error"},
        [DIM_LENGTH] = {FACT_LENGTH, "cm", "cm", "cm", "tape-error"},
        [DIM_UV_INDEX] = {FACT_UVI, "UVI", "UVI", "uvi", "meter-error"},
    };
    return &rows[measures[measure].dimension];
}

enum fact_kind measured_fact_kind(enum measure_id measure)
{
    return about(measure)->fact;
}

struct derivations *measured_how(struct care_build *b, enum measure_id measure)
{
    switch (measures[measure].part) {
    case PART_HUMIDITY:
        return &b->plan->humidity.how;
    case PART_UVB:
        return &b->plan->uvb.how;
    case PART_WATER:
        return &b->plan->water.how;
    case PART_TEMPERATURE:
        break;
    }
    return &b->plan->temperature.how;
}

const char *measured_name(struct care_build *b, enum measure_id measure, const char *what)
{
    const char *part = measure_part_word(measures[measure].part);
    bool alone = measures[measure].part == PART_HUMIDITY || measures[measure].part == PART_UVB;
    return alone ? arena_format(b->arena, "%s.%s_%s", part, what, about(measure)->suffix)
                 : arena_format(b->arena, "%s.%s.%s_%s", part, measures[measure].id, what,
                                about(measure)->suffix);
}

/* ---- the target --------------------------------------------------------------------- */

/* Where a part has many, which one is meant is said. */
static struct plan_fact *place_fact(struct care_build *b, enum measure_id measure,
                                    struct plan_fact *next)
{
    if (measures[measure].part == PART_WATER)
        return build_fact_text(b, "measure", FACT_CODE,
                               arena_format(b->arena, "measure.%s.plain", measures[measure].id),
                               next);
    if (measures[measure].part != PART_TEMPERATURE)
        return next;
    return build_fact_text(b, "zone", FACT_CODE,
                           arena_format(b->arena, "zone.%s", measures[measure].id), next);
}

void measured_remark_own(struct care_build *b, enum measure_id measure, double usual_low,
                         double usual_high)
{
    const struct band *own = &b->in->visit->targets.measured[measure];
    if (own->low >= usual_low && own->high <= usual_high)
        return;
    enum fact_kind kind = about(measure)->fact;
    struct plan_fact *facts = build_fact(b, "usual", kind, usual_low, usual_high, NULL);
    facts = build_fact(b, "target", kind, own->low, own->high, facts);
    build_review(b, REVIEW_OVERRIDE,
                 arena_format(b->arena, "own-%s-target", measure_part_word(measures[measure].part)),
                 own->at, place_fact(b, measure, facts));
}

bool measured_aim(struct care_build *b, enum measure_id measure)
{
    struct measured_plan *plan = &b->plan->measured[measure];
    const struct sourced_value *usual = &b->in->species->measured[measure];
    const struct band *own = &b->in->visit->targets.measured[measure];
    plan->applies = usual->range.known || own->known;
    if (own->known) {
        plan->low = plan->usual_low = own->low;
        plan->high = plan->usual_high = own->high;
        plan->target_from = build_from_veterinarian(b);
        return false;
    }
    if (!usual->range.known)
        return false;
    plan->low = plan->usual_low = usual->range.low;
    plan->high = plan->usual_high = usual->range.high;
    plan->target_from = build_from_sourced(usual, &b->in->species->sources, ORIGIN_SPECIES_SHEET);
    return true;
}

/* Where an end of the band goes: so far of the way from its lower to its upper end. */
struct end_move {
    const char *what, *formula;
    double share;
};

static double narrowed(struct care_build *b, enum measure_id measure, struct end_move move)
{
    const struct measured_plan *plan = &b->plan->measured[measure];
    const char *unit = about(measure)->unit;
    double value = plan->low + move.share * (plan->high - plan->low);
    build_derive(
        b, measured_how(b, measure),
        (struct derived){measured_name(b, measure, move.what), value, unit, move.formula,
                         plan->target_from.source,
                         INPUTS({"band-low", plan->low, unit}, {"band-high", plan->high, unit})});
    return value;
}

/* The middle of a narrow band of humidity: nobody can keep to what the meter cannot show. */
static bool is_too_fine(const struct care_build *b, enum measure_id measure)
{
    const struct measured_plan *plan = &b->plan->measured[measure];
    double half = (plan->high - plan->low) / 2;
    return measure == MEASURE_HUMIDITY && half + 1e-9 < 2 * measured_error(b, measure, plan->low);
}

void measured_narrow(struct care_build *b, enum measure_id measure, enum band_half half,
                     const char *because)
{
    struct measured_plan *plan = &b->plan->measured[measure];
    const double low = plan->low, high = plan->high;
    if (low == high || (half == MIDDLE_HALF && is_too_fine(b, measure)))
        return;
    if (half == UPPER_HALF) {
        plan->low = narrowed(b, measure, (struct end_move){"target_low", "upper-half", 0.5});
    } else if (half == LOWER_HALF) {
        plan->high = narrowed(b, measure, (struct end_move){"target_high", "lower-half", 0.5});
    } else {
        double least =
            narrowed(b, measure, (struct end_move){"target_low", "middle-half-low", 0.25});
        plan->high =
            narrowed(b, measure, (struct end_move){"target_high", "middle-half-high", 0.75});
        plan->low = least;
    }
    plan->target_from.origin = ORIGIN_FINDING;
    plan->target_from.because = because;
}

void measured_limit(struct care_build *b, enum measure_id measure, double most)
{
    struct measured_plan *plan = &b->plan->measured[measure];
    plan->limit_only = !plan->applies && plan->has_reading;
    plan->most = plan->applies ? fmax(most, plan->high) : most;
    if (!plan->limit_only)
        return;
    plan->low = -INFINITY;
    plan->high = most;
}

/* ---- the reading -------------------------------------------------------------------- */

double measured_error(const struct care_build *b, enum measure_id measure, double value)
{
    if (!measures[measure].error)
        return 0;
    double error = build_limit(b, measures[measure].error);
    return measure_error_is_share(measure) ? fabs(value) * error / 100 : error;
}

bool measured_read(struct care_build *b, enum measure_id measure)
{
    struct measured_plan *plan = &b->plan->measured[measure];
    const struct quantity *reading = &b->in->visit->measured[measure];
    plan->has_reading = reading->known;
    plan->reading = plan->judged = reading->value;
    double error = measured_error(b, measure, reading->value);
    plan->judged_low = reading->value - error;
    plan->judged_high = reading->value + error;
    plan->most = INFINITY;
    return build_is_finite(b, reading, measures[measure].visit_path);
}

bool measured_is_usable(const struct measured_plan *plan)
{
    return plan->has_reading && !plan->implausible;
}

/* Outside, but the true value may as well lie inside: measured again before anything is changed.
 */
static bool is_borderline(const struct measured_plan *plan)
{
    if (plan->judged > plan->most)
        return false;
    return plan->verdict == VERDICT_TOO_LOW    ? plan->judged_high >= plan->low
           : plan->verdict == VERDICT_TOO_HIGH ? plan->judged_low <= plan->high
                                               : false;
}

/* Read in whole degrees Fahrenheit a band is as well: 84 F is inside 29-32 C, which is shown as
 * 84-90 F, though it is 28.9 C. Above the upper limit nothing is rounded away. */
static double in_shown_band(const struct care_build *b, enum measure_id measure)
{
    const struct measured_plan *plan = &b->plan->measured[measure];
    const double read_f = round(units_c_to_f(plan->judged));
    if (b->in->visit->measured[measure].unit != UNIT_FAHRENHEIT || plan->judged > plan->most ||
        read_f < round(units_c_to_f(plan->low)) || read_f > round(units_c_to_f(plan->high)))
        return plan->judged;
    return fmin(fmax(plan->judged, plan->low), plan->high);
}

void measured_judge(struct care_build *b, enum measure_id measure)
{
    struct measured_plan *plan = &b->plan->measured[measure];
    if (!measured_is_usable(plan) || !(plan->applies || plan->limit_only))
        return;
    const double judged = in_shown_band(b, measure);
    plan->verdict = build_verdict(judged, plan->low, plan->high);
    plan->change = build_step(judged, plan->low, plan->high);
    if (is_borderline(plan))
        plan->verdict = VERDICT_BORDERLINE;
    plan->fits_usual =
        plan->applies && plan->judged >= plan->usual_low && plan->judged <= plan->usual_high;
}

void measured_derive_change(struct care_build *b, enum measure_id measure)
{
    const struct measured_plan *plan = &b->plan->measured[measure];
    const struct dimension_about *of = about(measure);
    if (plan->change == 0)
        return;
    struct plan_input inputs[4] = {{"reading", plan->reading, of->unit}};
    size_t count = 1;
    if (isfinite(plan->low))
        inputs[count++] = (struct plan_input){"target-low", plan->low, of->unit};
    if (isfinite(plan->high))
        inputs[count++] = (struct plan_input){"target-high", plan->high, of->unit};
    inputs[count++] =
        (struct plan_input){of->error, measured_error(b, measure, plan->judged), of->step_unit};
    struct derivation *made =
        build_derive(b, measured_how(b, measure),
                     (struct derived){measured_name(b, measure, "change"), plan->change,
                                      of->step_unit, "nearest-end", "arithmetic", inputs, count});
    build_band(made, plan->change - (plan->judged_high - plan->judged),
               plan->change + (plan->judged - plan->judged_low));
}
