/* By hand: who must not hear which text. See whom_rows.c. */
#ifndef BASKLEAF_TESTS_WHOM_ROWS_H
#define BASKLEAF_TESTS_WHOM_ROWS_H

#include <stddef.h>

struct whom_row {
    const char *of;     /* as declared */
    size_t clause;      /* 0: the row's own, else the number of its variant */
    const char *animal; /* its species, and what else is to be said of the patient */
    const char *more;   /* further parts of the record */
    const char *never;  /* the key that this animal must not be told */
};

struct whom_said {
    const char *of, *groups;
};

struct whom_unseen {
    const char *of;
    size_t clause;
};

/* Each ends with a row of nothing. */
extern const struct whom_row whom_rows[];
extern const struct whom_said whom_said[];
extern const struct whom_unseen whom_unseen[];

#endif
