/* Un-ionised ammonia out of total ammonia, pH and temperature. */
#include "care/ammonia.h"

#include <math.h>

double ammonia_share(double ph, double temp_c)
{
    double pka = 0.09018 + 2729.92 / (273.2 + temp_c);
    return 1 / (1 + pow(10, pka - ph));
}

double ammonia_from_nitrogen(double mg_l_n)
{
    return mg_l_n * 17.031 / 14.007;
}
