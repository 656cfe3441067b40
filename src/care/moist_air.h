/* Moist air at ordinary pressure: vapour pressure, dew point, relative humidity moved along
 * a temperature gradient, grams of water. Plain numbers; no records.
 *
 * Temperatures deg C, vapour pressure hPa, relative humidity %, water g/m3.
 *
 * Main equation: Buck, A. L. (1981) J. Appl. Meteorol. 20:1527-1532, constants as
 * revised by Buck Research (1996): es = 6.1121 exp((18.678 - t/234.5) t / (257.14 + t)), within
 * 0.05 % from 0 to 50 deg C. The two Magnus sets are there to show how far published
 * equations lie apart; constants of different sets are never mixed.
 *
 * Below 0 deg C everything is over (supercooled) water, as hygrometers and dew points are
 * given by convention; it is only needed for the dew point of dry air.
 *
 * All functions return false and leave *out untouched when an input is not finite, a
 * temperature lies outside MOIST_AIR_LOWEST_C .. MOIST_AIR_HIGHEST_C, or a relative humidity
 * is not above 0 and at most 100.
 */
#ifndef BASKLEAF_CARE_MOIST_AIR_H
#define BASKLEAF_CARE_MOIST_AIR_H

#include <stdbool.h>

#define MOIST_AIR_LOWEST_C (-40.0)
#define MOIST_AIR_HIGHEST_C 50.0

/* Saturation vapour pressure over water. */
bool moist_air_saturation_hpa(double temp_c, double *hpa);

/* The temperature at which this air would begin to drop water. Closed inverse of the same
 * equation. */
bool moist_air_dew_point_c(double temp_c, double rh_percent, double *dew_c);

/* Relative humidity of the same air warmed or cooled from one temperature to another in a box
 * that breathes with the room: the vapour pressure stays (a sealed box would keep g/m3 instead
 * and read a little higher). Above 100 means that the air cannot hold its water there. */
bool moist_air_rh_at(double from_c, double rh_percent, double to_c, double *rh_there_percent);

/* Grams of water in a cubic metre: 216.679 e / T, e in hPa, T in K (ideal gas, WMO No. 8). */
bool moist_air_water_g_m3(double temp_c, double rh_percent, double *water_g_m3);

#endif
