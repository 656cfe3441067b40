/* What a sheet's file is called, and the number by which a sheet's own file is known again. */
#ifndef BASKLEAF_RENDER_FILE_NAME_H
#define BASKLEAF_RENDER_FILE_NAME_H

#include "care/plan.h"

/* The Latin letters (accents taken off, U+00C0 to U+017F) and digits of a text in lower case,
 * hyphens for all else, at most 60 bytes; may be empty. */
const char *file_name_part(const char *text, struct arena *arena);

/* "biscuit-rosa-lind-2026-03-14.pdf": the animal, its keeper (else the record's own file), the day.
 * Never a path. `ending` is without its dot. */
const char *sheet_name_with(const struct care_plan *plan, const char *ending, struct arena *arena);
const char *sheet_file_name(const struct care_plan *plan, struct arena *arena);

/* 32 hexadecimal digits, the same for every sheet of one animal's one visit and for no
 * other: out of the animal's name and species, the keeper, the visit's day and kind. Files made of
 * a visit carry it, so that none is written over by another's. */
const char *sheet_record_id(const struct care_plan *plan, struct arena *arena);

#endif
