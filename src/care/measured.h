/* Inside care/: one measured quantity after another the same way - target, reading, verdict,
 * change. What only several of them together can tell is left to their parts. */
#ifndef BASKLEAF_CARE_MEASURED_H
#define BASKLEAF_CARE_MEASURED_H

#include "care/build.h"

/* The target: the veterinarian's own, else the species' band, whose sources' spread is told. False
 * where it is the veterinarian's: nothing changes it then. */
bool measured_aim(struct care_build *b, enum measure_id measure);

/* Tells the veterinarian where the own target leaves what is usual. */
void measured_remark_own(struct care_build *b, enum measure_id measure, double usual_low,
                         double usual_high);

/* A finding moves the target into one half of its band, never outside it: the upper, the lower, or
 * the half about its middle, which of a humidity is no narrower than what the meter may err either
 * way. */
enum band_half { UPPER_HALF, LOWER_HALF, MIDDLE_HALF };
void measured_narrow(struct care_build *b, enum measure_id measure, enum band_half half,
                     const char *because);

/* Takes over the record's reading. False after a fault with its place. */
bool measured_read(struct care_build *b, enum measure_id measure);

/* How far the meter may be off at this value; 0 where whatever it shows counts. */
double measured_error(const struct care_build *b, enum measure_id measure, double value);

/* What must never be passed: no error of the meter excuses it. Without a target the reading is held
 * against it alone. */
void measured_limit(struct care_build *b, enum measure_id measure, double most);

/* Verdict and change of a reading that is believed. */
void measured_judge(struct care_build *b, enum measure_id measure);

/* The change as a derivation in explain. */
void measured_derive_change(struct care_build *b, enum measure_id measure);

/* A believed reading. */
bool measured_is_usable(const struct measured_plan *plan);

/* "temperature.warm-side.change_c", "humidity.target_high_percent" */
const char *measured_name(struct care_build *b, enum measure_id measure, const char *what);

/* The derivations of the quantity's part. */
struct derivations *measured_how(struct care_build *b, enum measure_id measure);

/* In which form a value is shown to the veterinarian. */
enum fact_kind measured_fact_kind(enum measure_id measure);

#endif
