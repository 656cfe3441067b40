/* Metabolic need by mass and temperature: published equations, one function each. */
#include "care/energy.h"

#include <math.h>

double energy_oxygen_ml_h(double mass_g, double temp_c, int resting)
{
    return 0.013 * pow(mass_g, 0.80) * pow(10, 0.038 * temp_c) * pow(10, 0.14 * resting);
}

double energy_oxygen_kcal_day(double mass_g, double temp_c, int resting)
{
    const double kcal_per_ml = 20.1 / 4184.0;
    return energy_oxygen_ml_h(mass_g, temp_c, resting) * 24 * kcal_per_ml;
}

double energy_least_kcal_day(double mass_g)
{
    return 10 * pow(mass_g / 1000, 0.75);
}
