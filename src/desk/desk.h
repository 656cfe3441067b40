/* The front desk: answers requests over one folder of visit records. No sockets here (server.h has
 * them): a checked request in, a reply out, so that every answer can be tested without a network.
 *
 * One thread answers one request after the other, so nothing needs a lock; what may take long
 * (mail, print, many sheets) is done by threads that share no more than a list of jobs (queue.h,
 * shelter.h). Templates and species sheets that are edited while the desk runs are read again
 * before the next answer.
 */
#ifndef BASKLEAF_DESK_DESK_H
#define BASKLEAF_DESK_DESK_H

#include "render/sheet_context.h"
#include "desk/people.h"
#include "desk/request.h"
#include "desk/store.h"

enum { DESK_TOKEN_BYTES = 33 };

struct desk_settings {
    struct places places;
    const char *folder;        /* of visit records */
    const char *own_sheets;    /* where a review writes species sheets; NULL: nowhere */
    const char *mail_settings; /* the mail server's; NULL: the desk sends no mail */
    const char *page_folder;   /* the page's own files are read from here; NULL: those built in */
    int forget_days;           /* drafts, lost texts, voided records, lists; 0: never */
    bool needs_people;         /* nobody without a passphrase, whatever the folder says */
    struct date today;         /* fixed; year 0: the clock's */
    long long (*clock)(void);  /* seconds since 1970-01-01 UTC */
    struct date (*day)(void);  /* today in the clinic's time zone */
};

/* What all answers share and templates decide; read anew as one when a file of it changed. */
struct desk_shared {
    struct arena arena;
    struct resources resources;
    struct sheet_context sheet_context;
    struct library library;
    unsigned long long stamp; /* of the files' times and sizes */
};

struct shelter;
struct queue;

struct desk {
    struct desk_settings settings;
    struct desk_shared *shared; /* owned */
    bool templates_broken;      /* an edit since the start has faults: the parts before it go on */
    struct store store;
    struct people people;
    struct date purged;      /* the day on which old things were forgotten last */
    struct queue *queue;     /* owned */
    struct shelter *shelter; /* owned; NULL until sheets of a list were made */
    char token[DESK_TOKEN_BYTES];
};

struct reply {
    int status;            /* HTTP */
    const char *type;      /* Content-Type */
    struct bytes body;     /* the answer's arena, or static */
    const char *file_name; /* to save under; NULL: shown */
    const char *session;   /* a new key for the browser's cookie, "" ends it; NULL: as it is */
};

/* Reads what all answers share, locks the folder, draws the token. False after errors; desk_finish
 * all the same. */
bool desk_init(struct desk *desk, const struct desk_settings *settings, struct diag *diag);
void desk_finish(struct desk *desk);

/* Never fails: whatever is wrong is in the reply. */
void desk_answer(struct desk *desk, const struct request *request, struct arena *arena,
                 struct reply *reply);

#endif
