/* Runs one Check suite under Meson: TAP on standard output, status 0; Meson
 * reads the failures from the TAP lines. */
#ifndef BASKLEAF_TESTS_SUITE_H
#define BASKLEAF_TESTS_SUITE_H

#include <check.h>

int suite_run(Suite *suite);

#endif
