/* What shelters write in a list of animals, as a roster wants it: titles by other words, "M",
 * "2 yrs", "1,45 kg", "14.03.2026". What could mean two things stays as it is, for a person to
 * mend. */
#ifndef BASKLEAF_RECORDS_ROSTER_TITLES_H
#define BASKLEAF_RECORDS_ROSTER_TITLES_H

#include "records/roster.h"

/* The column that a title means, in English or Spanish; -1: nobody knows. */
int roster_title_column(const char *title, struct arena *arena);

/* "g" of "Weight (g)", "" where there is none. */
const char *roster_title_unit(const char *title, struct arena *arena);

/* A cell of that column as the roster's reader takes it; as it is where it means two things.
 * `has_decimal_comma`: the list comes from where 1.450 is more than a thousand. */
const char *roster_cell_plain(enum roster_column column, const char *text, bool has_decimal_comma,
                              struct arena *arena);

#endif
