/* A medicine in words, for sections, panels and the calendar. Inside the sheet layer only. */
#ifndef BASKLEAF_SHEET_MEDICINE_WORDS_H
#define BASKLEAF_SHEET_MEDICINE_WORDS_H

#include "words/phrase.h"

struct composition;

/* That and the directions as written; where there is neither, ask. */
const char *medicine_text_of(const struct phrase_context *ctx, const struct medicine_plan *m);
/* That and how it is given at home, where it is the only one given so. */
const char *medicine_text(const struct composition *c, const struct medicine_plan *m);
const char *medicine_name(const struct composition *c, const struct medicine_plan *m);
/* "morning", or by the clock. */
const char *medicine_time(const struct composition *c, const struct medicine_plan *m,
                          const struct dose_plan *dose);
/* "first, second" */
const char *medicine_and(const struct composition *c, const char *first, const char *second);
/* A sentence about one medicine by its {name}. */
const char *medicine_title(const struct composition *c, const char *key,
                           const struct medicine_plan *m);
/* Given by mouth today, while an animal that was put under may not be awake. */
const char *medicine_here_times(const struct phrase_context *ctx, const struct medicine_plan *m);
bool medicine_waits(const struct care_plan *plan, const struct medicine_plan *m);
/* What an animal that shakes or rolls would breathe in. */
bool medicine_needs_steady(const struct medicine_plan *m);
/* NULL where the keeper gives nothing. It stands on a line of its own: no one medicine is meant. */
const char *medicine_worse(const struct composition *c);
/* What goes for several of them and for none alone, and to ask before the first dose: it stands
 * behind all of them, never in the entry of one. */
enum { MEDICINE_SHARED_MOST = 20 };
struct medicine_shared {
    const char *names; /* NULL: of all of them */
    const char *text;
};
size_t medicine_shared(const struct composition *c,
                       struct medicine_shared shared[MEDICINE_SHARED_MOST]);
/* The same in one paragraph; NULL: nothing. */
const char *medicine_how(const struct composition *c);
/* Held for its medicine behind a meal it brings the meal up: which comes first (common practice, no
 * source); NULL where no meal falls on a day of a dose. */
const char *medicine_before_meal(const struct composition *c);
/* What follows the doses that are shown: "Salve: then Sun 6 Dec ____ and Mon 7 Dec ____."; NULL
 * when all are. */
const char *medicine_rest(const struct composition *c, const struct medicine_plan *m, size_t shown);

/* The first days on which any of the medicines has a dose at home, in order and without a gap: each
 * dose of these days has its box, whichever medicine it is of, as an empty cell says that nothing
 * is due. More than ten columns would be set smaller; what follows is said by its days. */
enum { MEDICINE_TICK_DAYS = 10 };
size_t medicine_tick_days(const struct care_plan *plan, struct date days[MEDICINE_TICK_DAYS]);
/* Is the day, if a dose falls on it, among them? */
bool medicine_has_box(const struct care_plan *plan, struct date day);

#endif
