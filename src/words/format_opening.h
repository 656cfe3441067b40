/* The clinic's hours and closed days as text. */
#ifndef BASKLEAF_WORDS_FORMAT_OPENING_H
#define BASKLEAF_WORDS_FORMAT_OPENING_H

#include "records/opening.h"
#include "words/format.h"

/* "17:30"; "5:30 pm" for US units. `minute` of the day. */
const char *format_clock(const struct format *f, int minute);

/* "Mon to Fri 8:00-18:00, Sat 9:00-13:00"; by the clock of twelve hours for US units. NULL when the
 * hours are not known. */
const char *format_opening(const struct format *f, const struct opening *opening);

/* The closed days from one day to another: "Fri 25 Dec"; NULL for none. */
const char *format_closed(const struct format *f, const struct opening *opening, struct date from,
                          struct date to);

#endif
