/* How long the day is. */
#ifndef BASKLEAF_CARE_DAYLIGHT_H
#define BASKLEAF_CARE_DAYLIGHT_H

/* Sunrise to sunset in hours, of the sun's middle and without the air's bending of light, which
 * adds some minutes. Day of the year from 1; 0 and 24 where the sun does not rise or set. */
double daylight_hours(double latitude_deg, int day_of_year);

#endif
