/* The table of measured quantities. */
#include "records/measures.h"

#include <string.h>

/* clang-format off */
#define ROW(name_, part_, dimension_, visit_, sheet_, error_) \
    [MEASURE_##name_] = {.part = part_, .dimension = DIM_##dimension_, .visit_path = visit_, \
                         .sheet_path = sheet_, .error = error_,
#define PLACE_ROW(name_, id_, dimension_, low_, high_, example_, aim_low_, aim_high_, aim_, error_, help_) \
    ROW(name_, PART_TEMPERATURE, dimension_, "enclosure.readings." id_, "temperature." id_, error_) .id = id_, .example = example_},
#define AIR_ROW(name_, id_, dimension_, low_, high_, example_, aim_low_, aim_high_, aim_, error_, help_) \
    ROW(name_, PART_HUMIDITY, dimension_, "enclosure.readings." id_, id_ ".range", error_) .id = id_, .example = example_},
#define LIGHT_ROW(name_, id_, dimension_, low_, high_, example_, aim_low_, aim_high_, aim_, error_, help_) \
    ROW(name_, PART_UVB, dimension_, "enclosure.lamp.measured.uvi", NULL, error_) .id = id_, .example = example_},
#define KIT_ROW(name_, id_, dimension_, low_, high_, example_, aim_low_, aim_high_, aim_, error_, help_) \
    ROW(name_, PART_WATER, dimension_, "water." id_, "water." id_, error_) .id = id_, .example = example_},
#define GAS_ROW(name_, id_, dimension_, low_, high_, example_, aim_low_, aim_high_, aim_, error_, help_) \
    ROW(name_, PART_WATER, dimension_, NULL, "water." id_, error_) .id = id_, .example = example_},
#define DEPTH_ROW(name_, id_, dimension_, low_, high_, example_, aim_low_, aim_high_, aim_, error_, help_) \
    ROW(name_, PART_WATER, dimension_, "water." id_, NULL, error_) .id = id_, .example = example_},

const struct measure_row measures[MEASURE_COUNT] = {
    PLACE_MEASURES(PLACE_ROW)
    AIR_MEASURES(AIR_ROW)
    LIGHT_MEASURES(LIGHT_ROW)
    KIT_MEASURES(KIT_ROW)
    GAS_MEASURES(GAS_ROW)
    DEPTH_MEASURES(DEPTH_ROW)
};
/* clang-format on */

bool measure_error_is_share(enum measure_id measure)
{
    static const char ending[] = "-percent";
    const char *error = measures[measure].error;
    if (!error || measures[measure].dimension == DIM_PERCENT)
        return false;
    size_t length = strlen(error);
    return length > sizeof ending && strcmp(error + length - sizeof ending + 1, ending) == 0;
}

const char *measure_part_word(enum measure_part part)
{
    static const char *const words[] = {
        [PART_TEMPERATURE] = "temperature",
        [PART_HUMIDITY] = "humidity",
        [PART_UVB] = "uvb",
        [PART_WATER] = "water",
    };
    return words[part];
}
