/* Where a number of the plan comes from: who says so, by which formula, of what. */
#ifndef BASKLEAF_CARE_PLAN_SOURCES_H
#define BASKLEAF_CARE_PLAN_SOURCES_H

#include <stdbool.h>
#include <stddef.h>

#include "records/sourced_value.h"

/* ---- where a number comes from ---------------------------------------------- */

enum origin {
    ORIGIN_SPECIES_SHEET,
    ORIGIN_REFERENCE,
    ORIGIN_VETERINARIAN,
    ORIGIN_FINDING,
    ORIGIN_KEEPER
};

/* That the clinic's veterinarian confirmed a value of the species sheet. */
struct plan_confirmed {
    const char *key, *value; /* of the sheet, as it was confirmed */
    const char *by;          /* NULL: nobody, or what we ship has changed since */
    struct date on;
    const char *edition; /* what was consulted; NULL: unsaid */
};

struct provenance {
    enum origin origin;
    const char *source;  /* the citation's text, or who set it */
    enum trust trust;    /* of a sheet's or reference value */
    const char *because; /* finding code or the veterinarian's words; NULL for none */
    struct plan_confirmed confirmed;
};

struct plan_input {
    const char *name; /* "uvi at 30 cm" as a code: uvi-measured */
    double value;
    const char *unit; /* "C", "cm", "UVI", "%", "g", "W", "" */
};

/* One computed number: what it is, from what, by which formula, how sure. Part of
 * `how` lists in explain. */
struct derivation {
    const char *what; /* "uvb.distance.recommended_cm" */
    double value;
    const char *unit;
    const char *formula; /* code of the formula: keitz-tube, inverse-square, buck-1996 ... */
    const char *source;  /* the formula's publication */
    const struct plan_input *inputs;
    size_t input_count;
    double low, high; /* the band that the inputs' uncertainty leaves; both the value itself
                         where the rule leaves none: counted days, a band's own middle */
    struct derivation *next;
};

struct derivations {
    struct derivation *first, *last;
};

/* A named value inside an item (a review remark, a date, a reason). */
enum fact_kind {
    FACT_TEMPERATURE,
    FACT_TEMPERATURE_STEP,
    FACT_PERCENT,
    FACT_LENGTH,
    FACT_MASS,
    FACT_DAYS,
    FACT_CLOCK, /* minutes of the day */
    FACT_HOURS,
    FACT_UVI,
    FACT_CONCENTRATION,
    FACT_PH,
    FACT_HARDNESS,
    FACT_COUNT,
    FACT_POWER,
    FACT_ENERGY,
    FACT_RATIO,
    FACT_DATE,
    FACT_CODE,   /* a wording key: zone.cool-side */
    FACT_STANCE, /* of a topic: supplement.as-written */
    FACT_TEXT    /* words of the record itself, printed as written */
};

struct plan_fact {
    const char *name;
    enum fact_kind kind;
    double low, high; /* equal for a single number */
    struct date date;
    const char *text; /* FACT_CODE, FACT_STANCE, FACT_TEXT */
    struct plan_fact *next;
};

#endif
