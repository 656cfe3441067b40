/* Mass, power, time and dates: the part of format.h without bands of temperature or length. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "base/units.h"
#include "words/format.h"

static const double OUNCES_A_POUND = 16;
static const double GRAMS_A_KILOGRAM = 1000;

static const char *with_unit(const struct format *f, const char *key, const char *text,
                             double number)
{
    const struct named_value value = {"n", {text, true, number}};
    return format_pattern(f, key, &value, 1);
}

/* ---- mass ------------------------------------------------------------------------ */

/* An animal is weighed to a tenth where one gram is more than 2 % of it: the same mass as
 * the limit fine-scale-below-g of the reference values (common practice, no source). */
static const double WEIGHED_FINE_BELOW_G = 50;
static const double MEAL_FINE_BELOW_G = 10;

const char *format_grams(const struct format *f, double mass_g)
{
    if (mass_g >= 10 * GRAMS_A_KILOGRAM)
        return with_unit(f, "unit.kilogram", format_number(f, mass_g / GRAMS_A_KILOGRAM, 2), 0);
    return with_unit(f, "unit.gram",
                     format_number(f, mass_g, mass_g < WEIGHED_FINE_BELOW_G ? 1 : 0), 0);
}

static const char *both(const struct format *f, const char *first, const char *second)
{
    const struct named_value values[] = {{"first", {.text = first}}, {"second", {.text = second}}};
    return format_pattern(f, "unit.both", values, 2);
}

static const char *pounds(const struct format *f, double ounces)
{
    long whole = lround(ounces);
    long left = whole % (long)OUNCES_A_POUND;
    long pounds_whole = whole / (long)OUNCES_A_POUND;
    const char *pound = with_unit(f, "unit.pound", format_number(f, (double)pounds_whole, 0), 0);
    if (left == 0)
        return pound;
    return arena_format(f->arena, "%s\xc2\xa0%s", pound,
                        with_unit(f, "unit.ounce", format_number(f, (double)left, 0), 0));
}

static bool is_in_pounds(const struct format *f, double mass_g)
{
    return f->units == UNITS_US && lround(units_g_to_oz(mass_g)) >= (long)OUNCES_A_POUND;
}

/* A scale that shows what weighs less than a pound shows grams, and tenths of an ounce of it are
 * numbers that nobody keeps in mind. */
const char *format_mass(const struct format *f, double mass_g)
{
    return is_in_pounds(f, mass_g) ? pounds(f, units_g_to_oz(mass_g)) : format_grams(f, mass_g);
}

const char *format_mass_change(const struct format *f, double before_g, double now_g)
{
    const long before_oz = lround(units_g_to_oz(before_g)), now_oz = lround(units_g_to_oz(now_g));
    const long pound = (long)OUNCES_A_POUND, ounces = labs(now_oz - before_oz);
    if (f->units != UNITS_US || before_oz < pound || now_oz < pound || ounces == 0)
        return format_mass(f, fabs(now_g - before_g));
    return ounces < pound ? with_unit(f, "unit.ounce", format_number(f, (double)ounces, 0), 0)
                          : pounds(f, (double)ounces);
}

const char *format_mass_apart(const struct format *f, double mass_g, double other_g)
{
    const char *text = format_mass(f, mass_g);
    bool is_same = mass_g != other_g && strcmp(text, format_mass(f, other_g)) == 0;
    return is_same ? both(f, text, format_grams(f, mass_g)) : text;
}

/* The largest of 1 and 5 times a power of ten within a third of what may be lost or gained. A scale
 * shows tenths of small animals alone. */
static double call_step(double change_g, double now_g)
{
    static const double SHARE = 1.0 / 3, LEAST_FINE_G = 0.1, LEAST_G = 1;
    const double least = now_g < WEIGHED_FINE_BELOW_G ? LEAST_FINE_G : LEAST_G,
                 most = change_g * SHARE;
    double step = most > 0 ? pow(10, floor(log10(most))) : least;
    if (step * 5 <= most)
        step *= 5;
    return fmax(step, least);
}

/* Towards today's mass: nobody calls later than was worked out. */
static double round_to_call(double call_g, double now_g)
{
    static const double SLACK = 1e-6;
    const double step = call_step(fabs(now_g - call_g), now_g);
    return call_g < now_g ? ceil(call_g / step - SLACK) * step
                          : floor(call_g / step + SLACK) * step;
}

/* Likewise to whole ounces of a pound or more; those of today tell nothing. */
static bool is_in_ounces(const struct format *f, double call_g, double now_g, double *shown_g)
{
    static const double SLACK = 1e-6;
    const double call_oz = units_g_to_oz(call_g);
    const double shown_oz = call_g < now_g ? ceil(call_oz - SLACK) : floor(call_oz + SLACK);
    *shown_g = shown_oz * UNITS_G_PER_OZ;
    return f->units == UNITS_US && shown_oz >= OUNCES_A_POUND &&
           strcmp(format_mass(f, *shown_g), format_mass(f, now_g)) != 0;
}

const char *format_mass_call(const struct format *f, double call_g, double now_g, bool is_written)
{
    double shown_g = call_g;
    const bool in_ounces = is_in_ounces(f, call_g, now_g, &shown_g);
    const bool as_it_is = is_written || is_in_pounds(f, call_g);
    if (!in_ounces)
        shown_g = as_it_is ? call_g : round_to_call(call_g, now_g);
    return format_mass_apart(f, shown_g, now_g);
}

/* Inward: a meal is never larger than the band, nor smaller. Where nothing would be left, a digit
 * more is shown, and at last the middle. One value alone goes to the nearest. */
static const char *inward_range(const struct format *f, double low, double high, int decimals)
{
    for (int finer = 0; low < high && finer < 2; finer++, decimals++) {
        double step = pow(10, -decimals);
        double shown_low = ceil(low / step - 1e-6) * step,
               shown_high = floor(high / step + 1e-6) * step;
        if (shown_low <= shown_high + step / 2)
            return format_range(f, format_number(f, shown_low, decimals),
                                format_number(f, shown_high, decimals));
    }
    return format_number(f, (low + high) / 2, decimals);
}

static const char *gram_band(const struct format *f, double low_g, double high_g)
{
    return with_unit(f, "unit.gram",
                     inward_range(f, low_g, high_g, low_g < MEAL_FINE_BELOW_G ? 1 : 0), 0);
}

/* Beside the grams, which are weighed, whole ounces alone: a range of them, or the one that the
 * whole band is near; NULL where neither is so. */
static const char *whole_ounces(const struct format *f, double low, double high)
{
    static const double NEAR_SHARE = 0.25, SLACK = 1e-6;
    const double whole = round((low + high) / 2);
    if (ceil(low - SLACK) < floor(high + SLACK) && low >= 1 - SLACK)
        return with_unit(f, "unit.ounce", inward_range(f, low, high, 0), 0);
    if (low < whole * (1 - NEAR_SHARE) || high > whole * (1 + NEAR_SHARE))
        return NULL;
    const struct named_value about = {
        "age", {.text = with_unit(f, "unit.ounce", format_number(f, whole, 0), 0)}};
    return format_pattern(f, "unit.about", &about, 1);
}

const char *format_mass_band(const struct format *f, double low_g, double high_g)
{
    const char *metric = gram_band(f, low_g, high_g);
    if (f->units != UNITS_US)
        return metric;
    double low = units_g_to_oz(low_g), high = units_g_to_oz(high_g);
    if (lround(low) >= (long)OUNCES_A_POUND) {
        const char *first = pounds(f, low), *last = pounds(f, high);
        return both(f, strcmp(first, last) == 0 ? first : format_range(f, first, last), metric);
    }
    const char *ounces = whole_ounces(f, low, high);
    return ounces ? both(f, metric, ounces) : metric;
}

/* ---- power and energy --------------------------------------------------------------- */

const char *format_power(const struct format *f, double w)
{
    return with_unit(f, "unit.watt", format_number(f, w, 0), 0);
}

const char *format_power_band(const struct format *f, double low_w, double high_w)
{
    const char *low = format_number(f, fmax(5, round(low_w / 5) * 5), 0);
    const char *high = format_number(f, fmax(5, round(high_w / 5) * 5), 0);
    return with_unit(f, "unit.watt", format_range(f, low, high), 0);
}

const char *format_energy_band(const struct format *f, double low_kcal, double high_kcal)
{
    int decimals = high_kcal < 10 ? 1 : 0;
    const char *low = format_number(f, low_kcal, decimals);
    return with_unit(f, "unit.kcal-day",
                     format_range(f, low, format_number(f, high_kcal, decimals)), 0);
}

/* ---- what is given at a time ---- */

const char *format_amount(const struct format *f, double written, enum unit unit)
{
    static const struct {
        enum unit unit;
        const char *key;
    } rows[] = {
        {UNIT_MILLILITRE, "unit.millilitre"},
        {UNIT_MILLIGRAM, "unit.milligram"},
        {UNIT_MICROGRAM, "unit.microgram"},
        {UNIT_GRAM, "unit.gram"},
        {UNIT_DROP, "unit.drop"},
        {UNIT_TABLET, "unit.tablet"},
        {UNIT_CAPSULE, "unit.capsule"},
        {UNIT_INTERNATIONAL, "unit.international"},
    };
    size_t i = 0;
    while (i + 1 < sizeof rows / sizeof *rows && rows[i].unit != unit)
        i++;
    static const int AS_WRITTEN_DECIMALS =
        6; /* a dose is never rounded; what is not needed falls off */
    return with_unit(f, rows[i].key, format_number(f, written, AS_WRITTEN_DECIMALS), written);
}

/* ---- time ---------------------------------------------------------------------------- */

const char *format_days(const struct format *f, double low_days, double high_days)
{
    double low = fmax(1, round(low_days)), high = fmax(low, round(high_days));
    const char *key = "unit.day";
    if (low >= 14 && fmod(low, 7) == 0 && fmod(high, 7) == 0) {
        key = "unit.week";
        low /= 7;
        high /= 7;
    }
    return with_unit(f, key, format_range(f, format_number(f, low, 0), format_number(f, high, 0)),
                     high);
}

const char *format_hours(const struct format *f, double hours)
{
    double shown = round(hours * 2) / 2;
    return with_unit(f, "unit.hour", format_number(f, shown, 1), shown);
}

const char *format_interval(const struct format *f, double hours)
{
    static const double DAY_H = 24;
    bool days = hours > DAY_H && fmod(hours, DAY_H) == 0;
    return days ? with_unit(f, "unit.day", format_number(f, hours / DAY_H, 0), hours / DAY_H)
                : with_unit(f, "unit.hour", format_number(f, hours, 1), hours);
}

/* The parts of a date are worded as a pattern asks for them: most ask for two of six. */
struct date_source {
    struct slot_source source;
    const struct format *format;
    struct date date;
};

static const char *name_in_date(const struct format *f, const char *what, int number, bool is_short)
{
    const char *key = arena_format(f->arena, is_short ? "%s.%d.short" : "%s.%d", what, number);
    return format_pattern(f, key, NULL, 0);
}

static bool find_in_date(const struct slot_source *self, const char *name, struct slot_value *out)
{
    const struct date_source *source = (const struct date_source *)self;
    const struct format *f = source->format;
    const struct date date = source->date;
    if (strcmp(name, "day") == 0)
        *out = (struct slot_value){arena_format(f->arena, "%d", date.day), true, date.day};
    else if (strcmp(name, "year") == 0)
        *out = (struct slot_value){.text = arena_format(f->arena, "%d", date.year)};
    else if (strcmp(name, "month") == 0 || strcmp(name, "month-short") == 0)
        *out = (struct slot_value){
            .text = name_in_date(f, "month", date.month, name[strlen("month")] != '\0')};
    else if (strcmp(name, "weekday") == 0 || strcmp(name, "weekday-short") == 0)
        *out = (struct slot_value){.text = name_in_date(f, "weekday", date_weekday(date),
                                                        name[strlen("weekday")] != '\0')};
    else
        return false;
    return true;
}

static const char *date_text(const struct format *f, const char *key, struct date date)
{
    const struct date_source source = {{find_in_date}, f, date};
    return format_pattern_from(f, key, &source.source);
}

const char *format_date_long(const struct format *f, struct date date)
{
    return date.year == f->year ? format_date_day(f, date) : date_text(f, "sheet.date-long", date);
}

const char *format_date_short(const struct format *f, struct date date)
{
    return date_text(f, "sheet.date-short", date);
}

const char *format_date_day(const struct format *f, struct date date)
{
    return date_text(f, f->is_brief ? "sheet.date-day-brief" : "sheet.date-day", date);
}

const char *format_date_weekday(const struct format *f, struct date date)
{
    return date_text(f, "sheet.date-weekday", date);
}

const char *format_age(const struct format *f, struct date hatched, struct date on)
{
    long days = date_days_between(hatched, on);
    int day = hatched.day > 0 ? hatched.day : 15;
    int month = hatched.month > 0 ? hatched.month : 7;
    int months = (on.year - hatched.year) * 12 + on.month - month - (on.day < day);
    if (months < 2)
        return format_days(f, (double)days, (double)days);
    int years = months / 12, left = months % 12;
    const char *year_text = with_unit(f, "unit.year", format_number(f, years, 0), years);
    const char *month_text = with_unit(f, "unit.month", format_number(f, years ? left : months, 0),
                                       years ? left : months);
    const struct named_value age[] = {{"age", {.text = year_text}}};
    if (years > 0 && hatched.month == 0)
        return format_pattern(f, "unit.about", age, 1);
    if (years == 0)
        return month_text;
    if (left == 0 || years >= 5)
        return year_text;
    const struct named_value values[] = {{"years", {.text = year_text}},
                                         {"months", {.text = month_text}}};
    return format_pattern(f, "unit.years-months", values, 2);
}

/* ---- shares in words ---------------------------------------------------------------- */

/* NULL where none is near enough. */
static const char *share_word(const struct format *f, double percent)
{
    static const struct {
        double percent;
        const char *key;
    } rows[] = {{20, "unit.share.fifth"},
                {25, "unit.share.quarter"},
                {100.0 / 3, "unit.share.third"},
                {50, "unit.share.half"},
                {200.0 / 3, "unit.share.two-thirds"},
                {75, "unit.share.three-quarters"}};
    static const double NEAR_PERCENT = 3.5;
    size_t best = 0;
    for (size_t i = 1; i < sizeof rows / sizeof *rows; i++)
        if (fabs(rows[i].percent - percent) < fabs(rows[best].percent - percent))
            best = i;
    return fabs(rows[best].percent - percent) <= NEAR_PERCENT
               ? format_pattern(f, rows[best].key, NULL, 0)
               : NULL;
}

const char *format_share(const struct format *f, double low_percent, double high_percent)
{
    static const double NARROW_PERCENT = 10;
    const char *middle = share_word(f, (low_percent + high_percent) / 2);
    if (middle && high_percent - low_percent <= NARROW_PERCENT)
        return middle;
    const char *low = share_word(f, low_percent), *high = share_word(f, high_percent);
    if (!low || !high)
        return low_percent < high_percent ? format_percent_band(f, low_percent, high_percent)
                                          : format_percent(f, low_percent);
    if (strcmp(low, high) == 0)
        return low;
    const struct named_value values[] = {{"low", {.text = low}}, {"high", {.text = high}}};
    return format_pattern(f, "number.words", values, 2);
}

const char *format_of_ten(const struct format *f, double low_percent, double high_percent)
{
    static const double PERCENT_A_PART = 10, ALL = 10;
    double low = round(low_percent / PERCENT_A_PART), high = round(high_percent / PERCENT_A_PART);
    if (low >= ALL)
        return format_pattern(f, "unit.parts-all", NULL, 0);
    if (high >= ALL) {
        const struct named_value least = {
            "least", {.text = with_unit(f, "unit.parts", format_number(f, low, 0), 0)}};
        return format_pattern(f, "unit.at-least", &least, 1);
    }
    return with_unit(f, "unit.parts",
                     format_range(f, format_number(f, low, 0), format_number(f, high, 0)), 0);
}
