/* The U value of one face of the visit's box, for the heating and for the question whether
 * a wall runs wet. */
#ifndef BASKLEAF_CARE_HEATING_H
#define BASKLEAF_CARE_HEATING_H

#include "care/build.h"

/* `material` is a word of wall_choices or lid_choices; an unknown `thickness` means the material's
 * usual one; `film_limit` names the surface resistance of each face (ISO 6946, indoors). Adds a
 * derivation called `what` to `how`. False, *u_w_m2k untouched, when the reference values do not
 * know the material. */
bool heating_face_u(struct care_build *b, struct derivations *how, const char *material,
                    const struct quantity *thickness, const char *film_limit, const char *what,
                    double *u_w_m2k);

#endif
