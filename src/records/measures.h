/* What is measured in an animal's home and judged against a target: one row a quantity.
 *
 * The row drives everything that is alike for all of them: the keys of the visit record, of the
 * species sheet and of the veterinarian's targets, the reading's range and error, verdict and
 * change in the plan, a rule's condition `when: {ID: [too-low]}`, the slots {ID.target},
 * {ID.reading} and {ID.change}, explain, the picture of bands, a roster's columns and the desk's
 * form. A new quantity is a row here, words `measure.ID.*` in every language, and data.
 */
#ifndef BASKLEAF_RECORDS_MEASURES_H
#define BASKLEAF_RECORDS_MEASURES_H

#include <stdbool.h>

#include "base/units.h"

/* X(NAME, id, DIMENSION, its range as a reading, an example, its range as a target, an example,
 *   the meter's error: a name of the reference values' limits or NULL, what it is)
 *
 * An error whose name ends in -percent is a share of the reading, but of a percentage its points.
 * Without one whatever the meter shows counts. */

/* Warmth of the places, in the order of enum zone. On the visit under enclosure.readings, on the
 * species sheet under temperature. */
#define PLACE_MEASURES(X)                                                                          \
    X(BASKING_SURFACE, "basking-surface", TEMPERATURE, -20, 90, "29 C", 0, 60, "32-34 C",          \
      "temperature-reading-error-c", "surface under the basking lamp")                             \
    X(WARM_SIDE, "warm-side", TEMPERATURE, -20, 70, "27 C", 0, 45, "30-32 C",                      \
      "temperature-reading-error-c", "air at the warm side by day")                                \
    X(COOL_SIDE, "cool-side", TEMPERATURE, -20, 70, "25 C", 0, 40, "24-26 C",                      \
      "temperature-reading-error-c", "air at the cool side by day")                                \
    X(NIGHT, "night", TEMPERATURE, -20, 70, "21 C", 0, 40, "24-26 C",                              \
      "temperature-reading-error-c", "lowest air at night")                                        \
    X(NIGHT_WARM_SIDE, "night-warm-side", TEMPERATURE, -20, 70, "29 C", 0, 45, "28-30 C",          \
      "temperature-reading-error-c", "the warm place at night")                                    \
    X(WATER, "water", TEMPERATURE, -5, 60, "24 C", 0, 40, "16-18 C",                               \
      "temperature-reading-error-c", "the water it lives in")

/* The air's moisture: on the visit under enclosure.readings, on the species sheet humidity.range.
 */
#define AIR_MEASURES(X)                                                                            \
    X(HUMIDITY, "humidity", PERCENT, 0, 1000, "40 %", 1, 100, "55-65 %",                           \
      "humidity-reading-error-percent", "relative humidity")

/* UV index where the animal basks: worked out from the lamp's own reading; the target is the
 * species' UV zone. */
#define LIGHT_MEASURES(X)                                                                          \
    X(UVB, "uvb", UV_INDEX, 0, 100, "3.2", 0, 12, "2-3", "uv-reading-error-percent",               \
      "UV index at the basking spot")

/* What a test kit reads: on the visit and on the species sheet under water. Whatever shows of the
 * poisons counts. */
#define KIT_MEASURES(X)                                                                            \
    X(AMMONIA, "ammonia", CONCENTRATION, 0, 100, "0.5 mg/l", 0, 10, "0 mg/l", NULL,                \
      "ammonia, as ammonia-as says")                                                               \
    X(NITRITE, "nitrite", CONCENTRATION, 0, 100, "0 mg/l", 0, 10, "0 mg/l", NULL, "nitrite")       \
    X(NITRATE, "nitrate", CONCENTRATION, 0, 2000, "20 mg/l", 0, 500, "0-20 mg/l",                  \
      "nitrate-reading-error-percent", "nitrate (NO3)")                                            \
    X(CHLORINE, "chlorine", CONCENTRATION, 0, 50, "0 mg/l", 0, 5, "0 mg/l", NULL,                  \
      "chlorine and chloramine")                                                                   \
    X(PH, "ph", PH, 0, 14, "7.5", 4, 10, "6.5-8", "ph-reading-error", "pH value")                  \
    X(HARDNESS, "hardness", HARDNESS, 0, 100, "10 dGH", 0, 60, "7-14 dGH",                         \
      "hardness-reading-error-dgh", "general hardness")

/* Worked out from the kit's reading, pH and warmth; the target stands on the species sheet. */
#define GAS_MEASURES(X)                                                                            \
    X(NH3, "nh3", CONCENTRATION, 0, 100, "0.01 mg/l", 0, 1, "0-0.02 mg/l", NULL,                   \
      "un-ionised ammonia, the part that poisons")

/* On the visit under water; the target is worked out from the animal's length. */
#define DEPTH_MEASURES(X)                                                                          \
    X(DEPTH, "depth", LENGTH, 0, 500, "25 cm", 1, 300, "25-40 cm", NULL, "depth of the water")

#define ALL_MEASURES(X)                                                                            \
    PLACE_MEASURES(X)                                                                              \
    AIR_MEASURES(X)                                                                                \
    LIGHT_MEASURES(X) KIT_MEASURES(X) GAS_MEASURES(X) DEPTH_MEASURES(X)

/* Those that are read at home, each with a key of the visit record. */
#define READ_MEASURES(X) PLACE_MEASURES(X) AIR_MEASURES(X) KIT_MEASURES(X) DEPTH_MEASURES(X)

enum measure_id {
#define MEASURE_NAME(name_, ...) MEASURE_##name_,
    ALL_MEASURES(MEASURE_NAME)
#undef MEASURE_NAME
        MEASURE_COUNT
};

/* Which part of the plan it belongs to. */
enum measure_part { PART_TEMPERATURE, PART_HUMIDITY, PART_UVB, PART_WATER };

struct measure_row {
    const char *id;
    enum measure_part part;
    enum dimension dimension;
    const char *visit_path; /* for faults: enclosure.readings.night; NULL: worked out */
    const char *sheet_path; /* on the species sheet: temperature.night; NULL: it has no key */
    const char *error;      /* NULL: whatever the meter shows counts */
    const char *example;    /* a reading as it is written */
};

extern const struct measure_row measures[MEASURE_COUNT];

/* Is the error a share of the reading in percent? */
bool measure_error_is_share(enum measure_id measure);

/* "temperature", "humidity" ...: the part as a code. */
const char *measure_part_word(enum measure_part part);

#endif
