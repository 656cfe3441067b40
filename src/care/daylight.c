/* How long the day is: FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), equations 24, 25
 * and 34. */
#include "care/daylight.h"

#include <math.h>

#define PI 3.14159265358979323846

double daylight_hours(double latitude_deg, int day_of_year)
{
    double declination = 0.409 * sin(2 * PI / 365 * day_of_year - 1.39);
    double cosine = -tan(latitude_deg * PI / 180) * tan(declination);
    if (cosine <= -1)
        return 24;
    return cosine >= 1 ? 0 : 24 / PI * acos(cosine);
}
