/* Inside care/: what the two parts about a data logger share. Not for other layers. */
#ifndef BASKLEAF_CARE_LOG_H
#define BASKLEAF_CARE_LOG_H

#include "care/build.h"
#include "records/log_read.h"

/* The quarters of an hour that are the logger's day, or its night. */
struct log_part log_quarters(const struct log_plan *log, bool by_day);

/* The probe whose nights are judged: the cool side's, else the warm side's; never that of a lamp's
 * surface. NULL: none. */
const struct log_probe_plan *log_night_probe(const struct log_plan *log);

#endif
