/* A measured quantity's numbers in the form of its dimension: every dimension that a row of
 * records/measures.h has stands in the table of format_measured.c. */
#ifndef BASKLEAF_WORDS_FORMAT_MEASURED_H
#define BASKLEAF_WORDS_FORMAT_MEASURED_H

#include "words/format.h"

const char *format_measured(const struct format *f, enum dimension dimension, double value);
/* "84-88 °F"; "at most 82 °F" where the lower end is -INFINITY, "at least 25 cm" where the upper
 * one is INFINITY */
const char *format_measured_band(const struct format *f, enum dimension dimension, double low,
                                 double high);
/* From the value to the nearest end of the band, without a sign; NULL inside. */
const char *format_measured_change(const struct format *f, enum dimension dimension, double value,
                                   double low, double high);

#endif
