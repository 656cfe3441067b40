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

/* Down: gravel and glass take room, and less than the middle is still in the band. */
const char *format_volume_part(const struct format *f, double low_l, double high_l)
{
    static const struct {
        double from, step;
        int decimals;
    } rows[] = {{20, 5, 0}, {5, 1, 0}, {1, 0.5, 1}, {0, 0.1, 1}};
    const bool us = f->units == UNITS_US;
    const double middle_l = (low_l + high_l) / 2, middle = us ? units_l_to_gal(middle_l) : middle_l;
    size_t row = 0;
    while (middle < rows[row].from)
        row++;
    const double shown = floor(middle / rows[row].step + 1e-9) * rows[row].step;
    return with_unit(f, us ? "unit.gallon" : "unit.litre",
                     format_number(f, shown > 0 ? shown : middle, rows[row].decimals));
}
