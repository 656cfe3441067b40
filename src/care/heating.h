/* The U value of one face of the visit's box, for the heating and for the question whether
 * a wall runs wet. */
#ifndef BASKLEAF_CARE_HEATING_H
#define BASKLEAF_CARE_HEATING_H

#include "care/build.h"

struct heated_face {
    const char *material;             /* a word of wall_choices or lid_choices */
    const struct quantity *thickness; /* unknown: the material's usual one */
    const char *film_limit;           /* names its surface resistance (ISO 6946, indoors) */
    const char *what;                 /* of the derivation */
};

/* Adds a derivation to `how`. False, *u_w_m2k untouched, when the reference values do not know
 * the material. */
bool heating_face_u(struct care_build *b, struct derivations *how, const struct heated_face *face,
                    double *u_w_m2k);

#endif
