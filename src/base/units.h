/* Quantities with their unit, read from text and kept in one unit a dimension.
 *
 *   dimension      kept in   written as
 *   temperature    deg C     29 C, 84 F, 29 °C
 *   mass           g         1450 g, 1.45 kg, 3 lb 3 oz
 *   length         cm        118 cm, 6 mm, 1.2 m, 48 in, 4 ft 2 in
 *   percent        %         35 %
 *   duration       days      7 days, 3 weeks, 6 months, 2 years
 *   hours          h         12 h
 *   uv-index       UVI       3.2 (a number without a unit: the UV index has none)
 *   power          W         60 W
 *   concentration  mg/l      0.5 mg/l, 0.5 ppm (in fresh water a litre weighs a kilogram)
 *   hardness       dGH       8 dGH, 143 mg/l (as calcium carbonate)
 *   ph             pH        7.5 (a number without a unit)
 *   volume         l         90 l, 500 ml, 20 gal (US)
 *   interval       h         12 h, 2 days, 1 week
 *   amount         as written  0.2 ml, 5 mg, 2 drops: what is given at a time. Its units do not
 *                  become one another, so the number stays as written, with its unit beside it
 *   dose           mg/kg     5 mg/kg
 *   strength       mg/ml     25 mg/ml
 *   count          1         4 (a bare number)
 *
 * A decimal comma does too (1,85 kg), so do spaces that do not break, letters of either case and
 * the words that people write out (lbs, grams, ºC, días). A comma that could part thousands (1,450
 * g) is a fault.
 *
 * A bare number where a unit is needed is an error: nobody can tell 29 C from 29 F.
 * "6 months" is kept as 182.625 days for comparing, with the unit it was written
 * in beside it, so that calendar arithmetic can use months.
 */
#ifndef BASKLEAF_BASE_UNITS_H
#define BASKLEAF_BASE_UNITS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/diag.h"

enum dimension {
    DIM_TEMPERATURE,
    DIM_MASS,
    DIM_LENGTH,
    DIM_PERCENT,
    DIM_DURATION,
    DIM_HOURS,
    DIM_UV_INDEX,
    DIM_POWER,
    DIM_CONCENTRATION,
    DIM_HARDNESS,
    DIM_PH,
    DIM_VOLUME,
    DIM_INTERVAL,
    DIM_AMOUNT,
    DIM_DOSE,
    DIM_STRENGTH,
    DIM_COUNT,
    DIM_END
};

enum unit {
    UNIT_NONE,
    UNIT_CELSIUS,
    UNIT_FAHRENHEIT,
    UNIT_GRAM,
    UNIT_KILOGRAM,
    UNIT_OUNCE,
    UNIT_POUND,
    UNIT_MILLIMETRE,
    UNIT_CENTIMETRE,
    UNIT_METRE,
    UNIT_INCH,
    UNIT_FOOT,
    UNIT_PERCENT,
    UNIT_DAY,
    UNIT_WEEK,
    UNIT_MONTH,
    UNIT_YEAR,
    UNIT_HOUR,
    UNIT_MINUTE,
    UNIT_WATT,
    UNIT_MG_PER_LITRE,
    UNIT_DEGREE_HARDNESS,
    UNIT_LITRE,
    UNIT_MILLILITRE,
    UNIT_GALLON,
    UNIT_MILLIGRAM,
    UNIT_MICROGRAM,
    UNIT_DROP,
    UNIT_TABLET,
    UNIT_CAPSULE,
    UNIT_INTERNATIONAL,
    UNIT_MG_PER_KG,
    UNIT_MG_PER_ML
};

/* One value. `known` false: nothing was written, the other fields are zero. */
struct quantity {
    bool known;
    double value;   /* in the dimension's own unit */
    double written; /* as written, in `unit` (the first unit of "3 lb 3 oz") */
    enum unit unit;
    struct mark at;
};

/* low <= high, both in the dimension's own unit. */
struct band {
    bool known;
    double low, high;
    enum unit unit;
    struct mark at;
};

/* Length, width, height in cm. */
struct box {
    bool known;
    double length_cm, width_cm, height_cm;
    enum unit unit;
    struct mark at;
};

/* The readers. On failure they return false, leave *out untouched and point
 * *why (arena's text, lower case, no full stop) at what is wrong and which units would do. */
bool units_read_quantity(const char *text, enum dimension dimension, struct arena *arena,
                         struct quantity *out, const char **why);
/* "30-32 C", "30–32 C", "25 C" (low == high), "5 - 10 %" */
bool units_read_band(const char *text, enum dimension dimension, struct arena *arena,
                     struct band *out, const char **why);
/* "120 x 60 x 60 cm", "48 x 24 x 24 in" */
bool units_read_box(const char *text, struct arena *arena, struct box *out, const char **why);

/* "C or F", "g, kg, oz or lb": the units a dimension may be written in; NULL
 * for the dimensions without a unit. */
const char *units_allowed(enum dimension dimension);
/* "([Cc]|°[Cc]|[Ff]|°[Ff])": a regular expression of the units a dimension may be written in, in
 * the arena; NULL for the dimensions without a unit. */
const char *units_pattern(enum dimension dimension, struct arena *arena);
/* May a second, smaller unit follow ("3 lb 3 oz")? */
bool units_may_follow(enum dimension dimension);
/* The unit that people who think in C, cm and g, or in F, in and oz, write first; NULL for the
 * dimensions without a unit. Common practice, no source. */
const char *units_usual(enum dimension dimension, bool is_us);
const char *units_symbol(enum unit unit);

/* A number as written in a unit, in its dimension's own unit, and back. */
double units_from_written(double written, enum unit unit);
double units_to_written(double value, enum unit unit);

/* Inch, pound and ounce, exact by definition (international yard and pound, 1959). */
#define UNITS_CM_PER_INCH 2.54
#define UNITS_G_PER_LB 453.59237
#define UNITS_G_PER_OZ 28.349523125

/* Conversions, exact by definition: 1 in = 2.54 cm, 1 lb = 453.59237 g
 * (international yard and pound, 1959); F = C * 9/5 + 32. A difference of
 * temperature has no 32 in it. */
double units_c_to_f(double temp_c);
double units_c_step_to_f_step(double step_c);
double units_cm_to_in(double length_cm);
double units_g_to_oz(double mass_g);
/* 1 US gallon = 231 cubic inches = 3.785411784 l exactly. */
double units_l_to_gal(double volume_l);

#endif
