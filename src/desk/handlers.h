/* Every answer of the desk, as one row each in the table of desk.c. */
#ifndef BASKLEAF_DESK_HANDLERS_H
#define BASKLEAF_DESK_HANDLERS_H

#include "desk/answer.h"
#include "words/phrase.h"

/* form.c: what the page is made of */
desk_handler form_start;

/* list.c: the visits of a day or those that match some letters */
desk_handler list_visits;

/* record.c: open, keep what is typed, save */
desk_handler record_open, record_draft, record_discard, record_save;

/* beside.c */
desk_handler beside_drop;

/* plan_view.c */
desk_handler plan_view_sheet, plan_view_preview;

/* hand_out.c */
desk_handler action_sign, action_print, action_printed_by_hand, action_mail;

/* keeper.c */
desk_handler record_void, keeper_export, keeper_forget;

/* people_view.c */
desk_handler people_view_login, people_view_logout;

/* Who is at the desk, as keys of the answer. */
void people_view_write(struct answer *answer);

/* review_view.c: what a veterinarian has to confirm of a species, and confirming it */
desk_handler review_view_all, review_view_one, review_view_settle;

/* jobs.c */
desk_handler jobs_list, jobs_change, jobs_printers;

/* The live plan of a record as {plan: {...}}; nothing when there is none. */
void plan_view_write(struct answer *answer, const struct visit_record *record);

/* topics_view.c: what holds of each topic as `topics`, why, until when, and what else could. */
void topics_view_write(struct json *j, const struct phrase_context *ctx);

enum visit_state {
    STATE_EXAMINE,
    STATE_SIGN,
    STATE_READY,
    STATE_AT_PRINTER,
    STATE_PRINTED,
    STATE_MAILED,
    STATE_MAYBE_MAILED, /* handed over, and nobody knows what came of it */
};

/* The state of a record in the folder. */
enum visit_state list_state(struct answer *answer, const char *name);
const char *list_state_word(enum visit_state state);

/* How far a mail or a print of this version came, by its log. */
enum visit_state list_state_of_log(struct desk *desk, const char *name, const char *version,
                                   struct arena *arena);

#endif
