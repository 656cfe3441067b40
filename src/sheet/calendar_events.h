/* The plan's dates as entries of a calendar, in words.
 *
 * Of each kind there is a fixed number of places (meal 8, supplement 16, weigh 4, the others 1), in
 * order of day; a place that this plan does not need is said to be free, so that a later visit's
 * calendar can take back what an earlier one set. Supplements of one day are one entry. A medicine
 * is one entry that comes again, at its place among the medicines of the record. */
#ifndef BASKLEAF_SHEET_CALENDAR_EVENTS_H
#define BASKLEAF_SHEET_CALENDAR_EVENTS_H

#include "words/phrase.h"

struct calendar_event {
    const char *what; /* the kind */
    int place;        /* from 1, within the kind */
    bool is_free;     /* nothing on it: to be cancelled where it stands */
    struct date on;   /* the plan's own day when free */
    const char *summary;
    const char *about;
    bool a_day_before;       /* reminds a day before too */
    const struct date *more; /* the further days of one that comes again */
    size_t more_count;
};

struct calendar_events {
    const struct calendar_event *items;
    size_t count;
    const char *name; /* of the calendar */
};

/* All of it in the arena. A sentence that is missing is a DIAG_ERROR as in say.h. */
struct calendar_events calendar_events_make(const struct phrase_context *ctx, struct arena *arena);

#endif
