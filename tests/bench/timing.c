/* The processor's time of this process, which another's work does not lengthen, and the median of
 * runs. */
#include "bench/timing.h"

#include <stdlib.h>
#include <time.h>

double timing_now_s(void)
{
    struct timespec time;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return (double)time.tv_sec + (double)time.tv_nsec / 1e9;
}

static int compare_doubles(const void *a, const void *b)
{
    double left = *(const double *)a, right = *(const double *)b;
    return (left > right) - (left < right);
}

double timing_median(double *values, int count)
{
    qsort(values, (size_t)count, sizeof *values, compare_doubles);
    return values[count / 2];
}
