/* A measured quantity's numbers in the form of its dimension. */
#include "words/format_measured.h"

#include <assert.h>
#include <math.h>

static double gap(double value, double low, double high)
{
    return fmax(low - value, value - high);
}

/* Too little to show in whole steps: the true difference, finer. */
static const char *temp_change(const struct format *f, double value, double low, double high)
{
    const char *step = format_temp_step_to_band(f, value, low, high);
    return step ? step : format_temp_step(f, gap(value, low, high));
}

static const char *percent_change(const struct format *f, double value, double low, double high)
{
    return format_points(f, gap(value, low, high));
}

static const char *uvi_change(const struct format *f, double value, double low, double high)
{
    return format_uvi(f, gap(value, low, high));
}

static const char *concentration_change(const struct format *f, double value, double low,
                                        double high)
{
    return format_concentration(f, gap(value, low, high));
}

static const char *ph_change(const struct format *f, double value, double low, double high)
{
    return format_ph(f, gap(value, low, high));
}

static const char *hardness_change(const struct format *f, double value, double low, double high)
{
    return format_hardness(f, fmax(1, gap(value, low, high)));
}

static const char *length_change(const struct format *f, double value, double low, double high)
{
    return format_length(f, gap(value, low, high));
}

struct dimension_format {
    const char *(*one)(const struct format *f, double value);
    const char *(*band)(const struct format *f, double low, double high);
    const char *(*least)(const struct format *f, double least); /* never below: rounds up */
    const char *(*limit)(const struct format *f, double most);  /* never above: rounds down */
    const char *(*change)(const struct format *f, double value, double low, double high);
};

static const struct dimension_format *format_of(enum dimension dimension)
{
    static const struct dimension_format rows[DIM_END] = {
        [DIM_TEMPERATURE] = {format_temp, format_temp_band, format_temp, format_temp_limit,
                             temp_change},
        [DIM_PERCENT] = {format_percent, format_percent_band, format_percent, format_percent,
                         percent_change},
        [DIM_CONCENTRATION] = {format_concentration, format_concentration_band,
                               format_concentration, format_concentration, concentration_change},
        [DIM_PH] = {format_ph, format_ph_band, format_ph, format_ph, ph_change},
        [DIM_HARDNESS] = {format_hardness, format_hardness_band, format_hardness, format_hardness,
                          hardness_change},
        [DIM_LENGTH] = {format_length, format_length_band, format_length_least, format_length_most,
                        length_change},
        [DIM_UV_INDEX] = {format_uvi, format_uvi_band, format_uvi, format_uvi_limit, uvi_change},
    };
    /* the measures are of these dimensions alone (records/measures.c) */
    assert(rows[dimension].one && rows[dimension].band && rows[dimension].least &&
           rows[dimension].limit && rows[dimension].change);
    return &rows[dimension];
}

const char *format_measured(const struct format *f, enum dimension dimension, double value)
{
    return format_of(dimension)->one(f, value);
}

const char *format_measured_band(const struct format *f, enum dimension dimension, double low,
                                 double high)
{
    const struct dimension_format *of = format_of(dimension);
    if (isfinite(low) && isfinite(high))
        return of->band(f, low, high);
    if (isfinite(low)) {
        const struct named_value least = {"least", {.text = of->least(f, low)}};
        return format_pattern(f, "unit.at-least", &least, 1);
    }
    const struct named_value most = {"most", {.text = of->limit(f, high)}};
    return format_pattern(f, "unit.at-most", &most, 1);
}

const char *format_measured_change(const struct format *f, enum dimension dimension, double value,
                                   double low, double high)
{
    return value >= low && value <= high ? NULL : format_of(dimension)->change(f, value, low, high);
}
