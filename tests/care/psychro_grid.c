/* Prints our moist air over a grid as CSV, for psychrolib_compare.mjs: 0 to 45 deg C by 1, 5 to 100
 * % by 5; columns temp_c, rh_percent, saturation_hpa, dew_point_c, rh_5_warmer_percent, water_g_m3.
 */
#include <stdio.h>

#include "care/moist_air.h"

int main(void)
{
    puts("temp_c,rh_percent,saturation_hpa,dew_point_c,rh_5_warmer_percent,water_g_m3");
    for (int t = 0; t <= 45; t++)
        for (int rh = 5; rh <= 100; rh += 5) {
            double saturation, dew, warmer, water;
            if (!moist_air_saturation_hpa(t, &saturation) || !moist_air_dew_point_c(t, rh, &dew) ||
                !moist_air_rh_at(t, rh, t + 5, &warmer) || !moist_air_water_g_m3(t, rh, &water))
                return 1;
            printf("%d,%d,%.9g,%.9g,%.9g,%.9g\n", t, rh, saturation, dew, warmer, water);
        }
    return 0;
}
