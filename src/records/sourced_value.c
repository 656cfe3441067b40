/* The tables of a number with its source and trust, one pair for each dimension. */
#include "records/sourced_value.h"

#include <string.h>

#include "records/table.h"

const struct choice trust_choices[] = {
    {"original", TRUST_ORIGINAL, "the official text, data set or abstract was read"},
    {"copy", TRUST_COPY, "read through a copy, a wiki or a clinic's table"},
    {"memory", TRUST_MEMORY, "common practice or from memory; to be reviewed"},
    {0},
};

#define SOURCED_ROWS(dimension_, low_, high_, example_)                                            \
    ROW(BAND, sourced_value, range, "range", IN(dimension_, low_, high_), .required = true,        \
        .help = "the number or the band", .example = example_),                                    \
        ROW(TEXT, sourced_value, source, "source", .required = true,                               \
            .help = "an id of this file's sources", .example = "practice"),                        \
        ROW(CHOICE, sourced_value, trust, "trust", .choices = trust_choices, .required = true,     \
            .help = "how the source was read", .example = "memory")

/* Two schemas a dimension: the chosen value, and the ones beside it that were not. */
#define SOURCED_SCHEMA(short_, dimension_, low_, high_, what_, example_)                           \
    static const struct field short_##_other_fields[] = {                                          \
        SOURCED_ROWS(dimension_, low_, high_, example_),                                           \
    };                                                                                             \
    static const struct schema short_##_other_schema =                                             \
        SCHEMA(sourced_value, short_##_other_fields, what_ " not chosen",                          \
               "A value that was not chosen.", MARKED(sourced_value, at));                         \
    static const struct field short_##_fields[] = {                                                \
        SOURCED_ROWS(dimension_, low_, high_, example_),                                           \
        ROW(TEXT, sourced_value, choice, "choice",                                                 \
            .help = "why this one, where sources disagree"),                                       \
        ROW(RECORDS, sourced_value, disagrees, "disagrees", .schema = &short_##_other_schema,      \
            .most = 12, .help = "the values that were not chosen"),                                \
    };                                                                                             \
    const struct schema sourced_##short_##_schema =                                                \
        SCHEMA(sourced_value, short_##_fields, what_ " with its source",                           \
               "A number that says where it "                                                      \
               "comes from.",                                                                      \
               MARKED(sourced_value, at))

SOURCED_SCHEMA(temperature, TEMPERATURE, -5, 60, "temperature", "32-34 C");
SOURCED_SCHEMA(percent, PERCENT, 0, 100, "percentage", "50-60 %");
SOURCED_SCHEMA(mass, MASS, 0.1, 300000, "mass", "1200-1700 g");
SOURCED_SCHEMA(length, LENGTH, 0.1, 1000, "length", "100-150 cm");
SOURCED_SCHEMA(duration, DURATION, 0.2, 60000, "duration", "7-14 days");
SOURCED_SCHEMA(hours, HOURS, 0, 24, "hours", "12 h");
SOURCED_SCHEMA(uvi, UV_INDEX, 0, 15, "UV index", "0.7-1.0");
SOURCED_SCHEMA(concentration, CONCENTRATION, 0, 2000, "concentration", "0-20 mg/l");
SOURCED_SCHEMA(ph, PH, 0, 14, "pH value", "6.5-8");
SOURCED_SCHEMA(hardness, HARDNESS, 0, 100, "hardness", "7-14 dGH");
SOURCED_SCHEMA(zone, COUNT, 1, 4, "zone", "3");
SOURCED_SCHEMA(times, COUNT, 0.1, 20, "multiple", "1-1.5");
SOURCED_SCHEMA(often, COUNT, 0.1, 20, "number", "1-2");
SOURCED_SCHEMA(pieces, COUNT, 0.1, 200, "number", "3-5");
SOURCED_SCHEMA(count, COUNT, 0, 1000000, "number", "1-2");

static const struct field named_text_fields[] = {
    ROW(TEXT, named_text, text, "text", .required = true, .help = "the text"),
};

const struct schema named_text_schema = SCHEMA(named_text, named_text_fields, "named text",
                                               "A text under a name.", .short_key = "text");

const char *named_text_find(const struct list *list, const char *name)
{
    for (size_t i = 0; i < list->count; i++) {
        const struct named_text *item = LIST_AT(*list, struct named_text, i);
        if (item->name.text && strcmp(item->name.text, name) == 0)
            return item->text.text;
    }
    return NULL;
}
