/* The clinic's own details: on every sheet, in every message. */
#ifndef BASKLEAF_RECORDS_CLINIC_H
#define BASKLEAF_RECORDS_CLINIC_H

#include "records/terms.h"

struct clinic {
    struct text_value name;
    struct list address; /* of struct text_value: lines */
    struct text_value telephone;
    struct text_value out_of_hours; /* telephone at night and on holidays */
    struct list hours;              /* of struct text_value: lines as printed */
    struct text_value email;
    struct text_value web;
    struct text_value language; /* default language of a sheet */
    struct choice_value units;  /* default units */
    struct choice_value paper;  /* a4 or letter */
    struct text_value logo;     /* a PNG file beside the clinic file */
    const char *file;
};

enum clinic_paper { CLINIC_PAPER_A4, CLINIC_PAPER_LETTER };

extern const struct schema clinic_schema;
extern const struct choice paper_choices[];

/* The logo's file: beside the clinic's own, or where an absolute path says; NULL for none. */
const char *clinic_logo_path(const struct clinic *clinic, struct arena *arena);

struct clinic *clinic_read(const char *path, struct arena *arena, struct diag *diag);

#endif
