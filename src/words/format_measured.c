/* A measured quantity's numbers in the form of its dimension. */
#include "words/format_measured.h"

#include <math.h>

/* Too little to show in whole steps: the true difference, finer. */
static const char *temp_change(const struct format *f, double value, double low, double high)
{
    const char *step = format_temp_step_to_band(f, value, low, high);
    return step ? step : format_temp_step(f, value < low ? low - value : value - high);
}

static const char *percent_change(const struct format *f, double value, double low, double high)
{
    return format_points(f, value < low ? low - value : value - high);
}

static const char *uvi_change(const struct format *f, double value, double low, double high)
{
    return format_uvi(f, value < low ? low - value : value - high);
}

struct dimension_format {
    const char *(*one)(const struct format *f, double value);
    const char *(*band)(const struct format *f, double low, double high);
    const char *(*limit)(const struct format *f, double most); /* never above: rounds down */
    const char *(*change)(const struct format *f, double value, double low, double high);
};

static const struct dimension_format *format_of(enum dimension dimension)
{
    static const struct dimension_format rows[DIM_END] = {
        [DIM_TEMPERATURE] = {format_temp, format_temp_band, format_temp_limit, temp_change},
        [DIM_PERCENT] = {format_percent, format_percent_band, format_percent, percent_change},
        [DIM_UV_INDEX] = {format_uvi, format_uvi_band, format_uvi_limit, uvi_change},
    };
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
    if (isfinite(low))
        return of->band(f, low, high);
    const struct named_value most = {"most", {.text = of->limit(f, high)}};
    return format_pattern(f, "unit.at-most", &most, 1);
}

const char *format_measured_change(const struct format *f, enum dimension dimension, double value,
                                   double low, double high)
{
    return value >= low && value <= high ? NULL : format_of(dimension)->change(f, value, low, high);
}
