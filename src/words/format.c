/* Rounds and words temperatures, percents, UV index and lengths. */
#include "words/format.h"

#include <math.h>
#include <string.h>

#include "base/strbuf.h"
#include "base/units.h"

static const double NUDGE = 1e-6;              /* what arithmetic may leave on a whole step */
static const double SURELY_WHOLE_BELOW = 1e15; /* a double holds each whole number below */
static const double CM_FINE_BELOW = 10, INCH_FINE_BELOW = 10;

/* ---- patterns -------------------------------------------------------------------- */

struct named_source {
    struct slot_source source;
    const struct named_value *values;
    size_t count;
};

static bool find_named(const struct slot_source *self, const char *name, struct slot_value *out)
{
    const struct named_source *named = (const struct named_source *)self;
    for (size_t i = 0; i < named->count; i++) {
        if (strcmp(named->values[i].name, name) == 0) {
            *out = named->values[i].value;
            return true;
        }
    }
    return false;
}

const char *format_pattern_from(const struct format *f, const char *key,
                                const struct slot_source *slots)
{
    const struct wording_entry *entry = catalogue_find(f->words, key);
    if (!entry) {
        diag_report(f->diag, DIAG_ERROR, "no-wording", (struct mark){.file = f->words->folder},
                    "'%s' is not worded in the language '%s'", key, f->words->lang);
        return key;
    }
    const char *missing = NULL;
    const char *text = catalogue_fill(f->words, entry, slots, f->arena, &missing);
    if (text)
        return text;
    diag_report(f->diag, DIAG_ERROR, "unknown-slot", entry->at, "'%s' has no slot {%s}", key,
                missing);
    return key;
}

const char *format_pattern(const struct format *f, const char *key,
                           const struct named_value *values, size_t count)
{
    const struct named_source slots = {{find_named}, values, count};
    return format_pattern_from(f, key, &slots.source);
}

/* The pattern `key` around one text {n}; `number` chooses a plural. */
static const char *around(const struct format *f, const char *key, const char *text, double number)
{
    const struct named_value value = {"n", {text, true, number}};
    return format_pattern(f, key, &value, 1);
}

/* ---- plain numbers ------------------------------------------------------------------ */

const char *format_number(const struct format *f, double value, int decimals)
{
    double scale = decimals > 0 ? pow(10, decimals) : 1;
    double rounded = round(fabs(value) * scale + NUDGE) / scale;
    char *digits = rounded < SURELY_WHOLE_BELOW && rounded == floor(rounded)
                       ? arena_format(f->arena, "%zu", (size_t)rounded)
                       : arena_format(f->arena, "%.*f", decimals, rounded);
    if (strchr(digits, '.')) {
        char *end = digits + strlen(digits);
        while (end[-1] == '0')
            *--end = '\0';
        if (end[-1] == '.')
            end[-1] = '\0';
    }
    struct strbuf out;
    strbuf_init(&out, f->arena);
    if (value < 0 && rounded > 0)
        strbuf_add(&out, "\xe2\x88\x92");
    for (const char *c = digits; *c; c++)
        if (*c == '.')
            strbuf_add(&out, format_pattern(f, "number.decimal-mark", NULL, 0));
        else
            strbuf_add_char(&out, *c);
    return out.text;
}

const char *format_range(const struct format *f, const char *low, const char *high)
{
    if (strcmp(low, high) == 0)
        return low;
    const struct named_value values[] = {{"low", {.text = low}}, {"high", {.text = high}}};
    return format_pattern(f, "number.range", values, 2);
}

/* ---- rounding ----------------------------------------------------------------------- */

static double to_nearest(double value, double step)
{
    return round(value / step) * step;
}

static double step_up(double value, double step)
{
    return ceil(value / step - NUDGE) * step;
}

static double step_down(double value, double step)
{
    return floor(value / step + NUDGE) * step;
}

/* Inward at `step`, else ten times finer, else the middle. */
static struct shown_band inward(double low, double high, double step)
{
    for (int finer = 0; finer < 2; finer++, step /= 10) {
        struct shown_band band = {step_up(low, step), step_down(high, step)};
        if (band.low <= band.high + NUDGE)
            return band;
    }
    double middle = to_nearest((low + high) / 2, step);
    return (struct shown_band){middle, middle};
}

static const char *band_text(const struct format *f, struct shown_band band, int decimals)
{
    return format_range(f, format_number(f, band.low, decimals),
                        format_number(f, band.high, decimals));
}

/* ---- temperature --------------------------------------------------------------------- */

static bool in_us(const struct format *f)
{
    return f->units == UNITS_US;
}

static const char *degrees(const struct format *f, const char *number)
{
    return around(f, in_us(f) ? "unit.fahrenheit" : "unit.celsius", number, 0);
}

static double temp_step(const struct format *f)
{
    return in_us(f) ? 1 : 0.5;
}

/* A Celsius reading stays as it was written. */
static double reading_step(const struct format *f)
{
    return in_us(f) ? 1 : 0.1;
}

static double own_temp(const struct format *f, double temp_c)
{
    return in_us(f) ? units_c_to_f(temp_c) : temp_c;
}

double format_shown_temp(const struct format *f, double temp_c)
{
    return to_nearest(own_temp(f, temp_c), reading_step(f));
}

/* To the nearest, like a reading: a reading at the band's end shows the end's number, and no
 * thermometer tells the half degree that rounding inward would save. */
static struct shown_band format_shown_temp_band(const struct format *f, double low_c, double high_c)
{
    const double step = temp_step(f);
    return (struct shown_band){to_nearest(own_temp(f, low_c), step),
                               to_nearest(own_temp(f, high_c), step)};
}

const char *format_temp(const struct format *f, double temp_c)
{
    return degrees(f, format_number(f, format_shown_temp(f, temp_c), 1));
}

const char *format_temp_band(const struct format *f, double low_c, double high_c)
{
    return degrees(f, band_text(f, format_shown_temp_band(f, low_c, high_c), 2));
}

const char *format_temp_limit(const struct format *f, double temp_c)
{
    return degrees(f, format_number(f, step_down(own_temp(f, temp_c), temp_step(f)), 1));
}

const char *format_temp_step(const struct format *f, double step_c)
{
    double step = fabs(in_us(f) ? units_c_step_to_f_step(step_c) : step_c);
    double shown = to_nearest(step, temp_step(f));
    return degrees(f, format_number(f, shown > 0 ? shown : step, 1));
}

const char *format_temp_step_to_band(const struct format *f, double temp_c, double low_c,
                                     double high_c)
{
    struct shown_band band = format_shown_temp_band(f, low_c, high_c);
    double shown = format_shown_temp(f, temp_c);
    double step = shown < band.low ? band.low - shown : shown - band.high;
    return step > NUDGE ? degrees(f, format_number(f, step, 2)) : NULL;
}

/* ---- percent and UV index -------------------------------------------------------------- */

static const char *percent_text(const struct format *f, const char *number)
{
    return around(f, "unit.percent", number, 0);
}

const char *format_percent(const struct format *f, double percent)
{
    return percent_text(f, format_number(f, percent, 0));
}

const char *format_strength(const struct format *f, double percent)
{
    return percent_text(f, format_number(f, percent, percent < 1 ? 2 : 0));
}

const char *format_percent_band(const struct format *f, double low, double high)
{
    return percent_text(f, band_text(f, inward(low, high, 1), 1));
}

const char *format_points(const struct format *f, double points)
{
    double shown = fmax(1, to_nearest(fabs(points), 1));
    return around(f, "unit.points", format_number(f, shown, 0), shown);
}

const char *format_uvi(const struct format *f, double uvi)
{
    return format_number(f, uvi, 1);
}

const char *format_uvi_band(const struct format *f, double low, double high)
{
    return band_text(f, inward(low, high, 0.1), 2);
}

const char *format_uvi_limit(const struct format *f, double uvi)
{
    return format_number(f, step_down(uvi, 0.1), 1);
}

/* ---- length ---------------------------------------------------------------------------- */

static double own_length(const struct format *f, double length_cm)
{
    return in_us(f) ? units_cm_to_in(length_cm) : length_cm;
}

static double length_step(const struct format *f, double own)
{
    if (in_us(f))
        return own < INCH_FINE_BELOW ? 0.25 : 0.5;
    return own < CM_FINE_BELOW ? 0.5 : 1;
}

/* Quarters of an inch as the signs on a tape: 13½. */
static const char *length_number(const struct format *f, double own)
{
    static const char *const quarters[] = {"", "\xc2\xbc", "\xc2\xbd", "\xc2\xbe"};
    if (!in_us(f))
        return format_number(f, own, 1);
    long count = lround(own * 4);
    if (count % 4 == 0 || fabs(own * 4 - (double)count) > NUDGE * 100)
        return format_number(f, own, 2);
    long units = count / 4;
    const char *whole = units > 0 ? format_number(f, (double)units, 0) : "";
    return arena_format(f->arena, "%s%s", whole, quarters[count % 4]);
}

static const char *length_text(const struct format *f, const char *number)
{
    return around(f, in_us(f) ? "unit.inch" : "unit.centimetre", number, 0);
}

const char *format_length(const struct format *f, double length_cm)
{
    double own = own_length(f, length_cm);
    double step = length_step(f, own);
    double shown = to_nearest(own, step);
    return length_text(f, length_number(f, shown > 0 || own <= 0 ? shown : own));
}

/* As fine as its longer end is shown. A band of one length is that length. */
const char *format_length_band(const struct format *f, double low_cm, double high_cm)
{
    if (low_cm == high_cm)
        return format_length(f, low_cm);
    double low = own_length(f, low_cm), high = own_length(f, high_cm);
    struct shown_band band = inward(low, high, length_step(f, high));
    return length_text(f, format_range(f, length_number(f, band.low), length_number(f, band.high)));
}

const char *format_length_in_band(const struct format *f, double length_cm, double low_cm,
                                  double high_cm)
{
    double low = own_length(f, low_cm), high = own_length(f, high_cm),
           own = own_length(f, length_cm);
    if (length_cm < low_cm || length_cm > high_cm)
        return format_length(f, length_cm);
    struct shown_band band = inward(low, high, length_step(f, high));
    double shown = to_nearest(own, length_step(f, own));
    return length_text(f, length_number(f, fmin(fmax(shown, band.low), band.high)));
}

const char *format_length_least(const struct format *f, double length_cm)
{
    double own = own_length(f, length_cm);
    return length_text(f, length_number(f, step_up(own, length_step(f, own))));
}

const char *format_length_most(const struct format *f, double length_cm)
{
    double own = own_length(f, length_cm);
    double shown = step_down(own, length_step(f, own));
    return length_text(f, length_number(f, shown > 0 ? shown : own));
}

const char *format_side_least(const struct format *f, double length_cm)
{
    return length_text(f, format_number(f, step_up(own_length(f, length_cm), 1), 0));
}

/* Nobody measures a pen in inches: above six feet the sides are feet and half feet. */
static bool is_in_feet(const struct format *f, double length_cm)
{
    static const double FEET_FROM_IN = 72;
    return f->units == UNITS_US && units_cm_to_in(length_cm) >= FEET_FROM_IN;
}

static const double HALF_FOOT = 0.5, TENTH_OF_A_FOOT = 0.1;

static const char *side_text(const struct format *f, double side_cm, double step_ft, bool least)
{
    static const double INCHES_A_FOOT = 12;
    double own = own_length(f, side_cm) / (step_ft > 0 ? INCHES_A_FOOT : 1);
    double step = step_ft > 0 ? step_ft : 1;
    double shown = least ? step_up(own, step) : to_nearest(own, step);
    return format_number(f, shown, 1);
}

/* A step of 0: not in feet. */
static const char *box_text(const struct format *f, const double sides_cm[3], double step_ft,
                            bool least)
{
    const char *sides[3];
    for (size_t i = 0; i < 3; i++)
        sides[i] = side_text(f, sides_cm[i], step_ft, least);
    const struct named_value values[] = {{"length", {.text = sides[0]}},
                                         {"width", {.text = sides[1]}},
                                         {"height", {.text = sides[2]}}};
    const char *text = sides_cm[2] > 0 ? format_pattern(f, "number.box", values, 3)
                                       : format_pattern(f, "number.area", values, 2);
    return step_ft > 0 ? around(f, "unit.foot", text, 0) : length_text(f, text);
}

const char *format_box(const struct format *f, double length_cm, double width_cm, double height_cm,
                       bool least)
{
    const double sides_cm[] = {length_cm, width_cm, height_cm};
    return box_text(f, sides_cm, is_in_feet(f, length_cm) ? HALF_FOOT : 0, least);
}

/* What was read in inches keeps a tenth of a foot. */
const char *format_box_beside(const struct format *f, const double sides_cm[3], bool least,
                              double beside_length_cm)
{
    const bool is_large = is_in_feet(f, sides_cm[0]);
    const double step_ft = is_large || least ? HALF_FOOT : TENTH_OF_A_FOOT;
    return box_text(f, sides_cm, is_large || is_in_feet(f, beside_length_cm) ? step_ft : 0, least);
}
