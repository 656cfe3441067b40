/* Buck's equation; dew point, and humidity moved to another temperature. */
#include "care/moist_air.h"

#include <math.h>

/* Buck 1996, over water. */
#define BUCK_A 6.1121
#define BUCK_B 18.678
#define BUCK_C 257.14
#define BUCK_D 234.5

#define KELVIN_AT_0_C 273.15
#define WATER_G_K_PER_HPA_M3 216.679

/* comparisons with NaN are false, so a NaN is refused too */
static bool is_temperature(double temp_c)
{
    return temp_c >= MOIST_AIR_LOWEST_C && temp_c <= MOIST_AIR_HIGHEST_C;
}

static bool is_humidity(double rh_percent)
{
    return rh_percent > 0 && rh_percent <= 100;
}

static double buck_exponent(double temp_c)
{
    return (BUCK_B - temp_c / BUCK_D) * temp_c / (BUCK_C + temp_c);
}

bool moist_air_saturation_hpa(double temp_c, double *hpa)
{
    if (!is_temperature(temp_c))
        return false;
    *hpa = BUCK_A * exp(buck_exponent(temp_c));
    return true;
}

bool moist_air_dew_point_c(double temp_c, double rh_percent, double *dew_c)
{
    if (!is_temperature(temp_c) || !is_humidity(rh_percent))
        return false;
    /* (B - t/D) t = g (C + t) is a quadratic in t; the smaller root is the physical one */
    double g = log(rh_percent / 100) + buck_exponent(temp_c);
    double p = BUCK_B - g;
    double dew = BUCK_D / 2 * (p - sqrt(p * p - 4 * BUCK_C * g / BUCK_D));
    if (!is_temperature(dew))
        return false;
    *dew_c = dew;
    return true;
}

bool moist_air_rh_at(double from_c, double rh_percent, double to_c, double *rh_there_percent)
{
    double from_hpa, to_hpa;
    if (!is_humidity(rh_percent) || !moist_air_saturation_hpa(from_c, &from_hpa) ||
        !moist_air_saturation_hpa(to_c, &to_hpa))
        return false;
    *rh_there_percent = rh_percent * from_hpa / to_hpa;
    return true;
}

bool moist_air_water_g_m3(double temp_c, double rh_percent, double *water_g_m3)
{
    double saturated_hpa;
    if (!is_humidity(rh_percent) || !moist_air_saturation_hpa(temp_c, &saturated_hpa))
        return false;
    double vapour_hpa = saturated_hpa * rh_percent / 100;
    *water_g_m3 = WATER_G_K_PER_HPA_M3 * vapour_hpa / (temp_c + KELVIN_AT_0_C);
    return true;
}
