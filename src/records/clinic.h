/* The clinic's own details: on every sheet, in every message. */
#ifndef BASKLEAF_RECORDS_CLINIC_H
#define BASKLEAF_RECORDS_CLINIC_H

#include "base/file.h"
#include "records/opening.h"
#include "records/terms.h"

struct clinic {
    struct text_value name;
    struct list address; /* of struct text_value: lines */
    struct text_value telephone;
    struct text_value out_of_hours; /* telephone at night and on holidays */
    struct list hours;              /* of struct written_hours */
    struct list holidays;           /* of struct written_holiday */
    struct list hours_text; /* of struct text_value: free lines instead, as older files have */
    struct opening opening; /* what hours and holidays say */
    struct text_value email;
    struct text_value web;
    struct text_value language; /* default language of a sheet */
    struct choice_value units;  /* default units */
    struct choice_value paper;  /* a4 or letter */
    struct text_value logo;     /* a PNG file beside the clinic file */
    struct flag_value invented; /* an example's: nothing is signed with it */
    const char *file;
};

enum clinic_paper { CLINIC_PAPER_A4, CLINIC_PAPER_LETTER };

extern const struct schema clinic_schema;
extern const struct choice paper_choices[];

/* The logo's file: beside the clinic's own, or where an absolute path says; NULL for none. */
const char *clinic_logo_path(const struct clinic *clinic, struct arena *arena);

/* A DIAG_ERROR at its mark when the clinic is the invented one that comes with the program: then
 * nothing may be signed. */
bool clinic_may_sign(const struct clinic *clinic, struct diag *diag);

struct clinic *clinic_read(const char *path, struct arena *arena, struct diag *diag);
/* The same for a text that is going to stand at `path`. */
struct clinic *clinic_read_bytes(const char *path, struct bytes text, struct arena *arena,
                                 struct diag *diag);

#endif
