/* Numbers that say where they come from.
 *
 * Every number of a species sheet or of the reference values is written as
 *   {range: 32-34 C, source: bsava, trust: memory}
 * where `source` names an entry of the same file's `sources` and `trust` says
 * how that source was read. A number without them is refused.
 */
#ifndef BASKLEAF_RECORDS_SOURCED_VALUE_H
#define BASKLEAF_RECORDS_SOURCED_VALUE_H

#include "yaml/bind.h"

enum trust {
    TRUST_ORIGINAL, /* the official text, data set or abstract itself was read */
    TRUST_COPY,     /* read through a copy, a wiki or a clinic's table */
    TRUST_MEMORY    /* common practice or from memory: to be reviewed */
};

extern const struct choice trust_choices[];

/* What the clinic's veterinarian confirmed of a value, as `reviewed` of the clinic's own sheet has
 * it. */
struct confirmation {
    const char *key;   /* of the value, see records/species_values.h */
    const char *value; /* as it was confirmed */
    const char *by;
    struct date on;
    const char *edition; /* what was consulted; NULL: unsaid */
    const char *reason;  /* NULL: unsaid */
    bool is_reopened;    /* what we ship has changed since */
};

struct sourced_value {
    struct band range; /* low == high for a single number */
    struct text_value source;
    struct choice_value trust;
    struct text_value choice;             /* why this one, where sources disagree */
    struct list disagrees;                /* of struct sourced_value: the values not chosen */
    const struct confirmation *confirmed; /* NULL: not by the clinic */
    struct mark at;
};

/* One schema a dimension; all fill struct sourced_value. */
extern const struct schema sourced_temperature_schema, sourced_percent_schema, sourced_mass_schema,
    sourced_length_schema, sourced_duration_schema, sourced_hours_schema, sourced_uvi_schema,
    sourced_count_schema, sourced_zone_schema, sourced_times_schema, sourced_often_schema,
    sourced_pieces_schema, sourced_concentration_schema, sourced_ph_schema, sourced_hardness_schema;

/* A free name with a text: names by language, sources by id. */
struct named_text {
    struct text_value name;
    struct text_value text;
};

extern const struct schema named_text_schema;

/* The text under a name in a list of struct named_text, or NULL. */
const char *named_text_find(const struct list *list, const char *name);

#endif
