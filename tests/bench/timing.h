/* A clock and a middle, for benchmarks. */
#ifndef BASKLEAF_TESTS_TIMING_H
#define BASKLEAF_TESTS_TIMING_H

/* Seconds of the processor that this process took: other work on the machine does not count. */
double timing_now_s(void);

/* The middle of the values, which it sorts. */
double timing_median(double *values, int count);

#endif
