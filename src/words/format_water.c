/* Numbers of a test kit and of a tank: concentration, pH, hardness, litres. */
#include <math.h>

#include "base/units.h"
#include "words/format.h"

static const char *with_unit(const struct format *f, const char *key, const char *text)
{
    const struct named_value value = {"n", {.text = text}};
    return format_pattern(f, key, &value, 1);
}

/* As finely as a kit of that range is read, and finer below it. */
static const char *concentration(const struct format *f, double mg_l)
{
    return format_number(f, mg_l, mg_l < 0.1 ? 3 : mg_l < 1 ? 2 : mg_l < 10 ? 1 : 0);
}

const char *format_concentration(const struct format *f, double mg_l)
{
    return with_unit(f, "unit.mg-l", concentration(f, mg_l));
}

const char *format_concentration_band(const struct format *f, double low_mg_l, double high_mg_l)
{
    return with_unit(f, "unit.mg-l",
                     format_range(f, concentration(f, low_mg_l), concentration(f, high_mg_l)));
}

const char *format_ph(const struct format *f, double ph)
{
    return format_number(f, ph, 1);
}

const char *format_ph_band(const struct format *f, double low, double high)
{
    return format_range(f, format_ph(f, low), format_ph(f, high));
}

const char *format_hardness(const struct format *f, double dgh)
{
    return with_unit(f, "unit.dgh", format_number(f, dgh, 0));
}

const char *format_hardness_band(const struct format *f, double low_dgh, double high_dgh)
{
    return with_unit(f, "unit.dgh",
                     format_range(f, format_number(f, low_dgh, 0), format_number(f, high_dgh, 0)));
}

/* Whole litres or gallons from ten on. */
const char *format_volume_band(const struct format *f, double low_l, double high_l)
{
    bool us = f->units == UNITS_US;
    double low = us ? units_l_to_gal(low_l) : low_l, high = us ? units_l_to_gal(high_l) : high_l;
    int decimals = high < 10 ? 1 : 0;
    return with_unit(
        f, us ? "unit.gallon" : "unit.litre",
        format_range(f, format_number(f, low, decimals), format_number(f, high, decimals)));
}
