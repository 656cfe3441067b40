/* What leaves the house, in the background: nobody at a desk waits for a mail server or a printer.
 *
 * Mail and print have a thread each; a thread shares nothing with the desk but the list of jobs
 * below its lock. Before an attempt its line stands in the record's log (mailing, printing) and
 * after it another with what came of it; what cannot be logged is not sent. What was refused for
 * now is tried again, what may have arrived never: a log that ends in "mailing" means that nobody
 * knows.
 */
#ifndef BASKLEAF_DESK_QUEUE_H
#define BASKLEAF_DESK_QUEUE_H

#include "base/date.h"
#include "base/file.h"
#include "base/json.h"

enum job_kind { JOB_MAIL, JOB_PRINT, JOB_KIND_COUNT };

struct queue;

/* What an attempt needs; copied. */
struct job_order {
    enum job_kind kind;
    const char *record, *version, *who;  /* what stands in the log */
    const char *log;                     /* its path */
    struct bytes body;                   /* the message or the PDF */
    const char *settings, *from, *to;    /* mail */
    const char *printer, *title, *paper; /* print; printer NULL: the default one */
    int copies;
};

/* NULL when the system refuses the threads. */
struct queue *queue_new(long long (*clock)(void));

/* Ends what is at work within some seconds. Accepts NULL. */
void queue_free(struct queue *queue);

/* The job's number, 0 when one of that kind for the record is under way. */
long queue_add(struct queue *queue, const struct job_order *order);

/* Is one of that kind for the record waiting or at work? */
bool queue_is_busy(struct queue *queue, enum job_kind kind, const char *record);

/* A waiting job at once instead of later; one that failed anew. False: no such job. */
bool queue_try_now(struct queue *queue, long number);

/* Takes a job that is not at work from the list. */
bool queue_drop(struct queue *queue, long number);

/* [{number, kind, record, state, why, tries}], newest first; those of one record, or all (NULL). */
void queue_write_json(struct queue *queue, const char *record, struct json *json);

/* {known, printers: [{name, info, default, paper, stopped}], why}; asked for by the print thread,
 * again when `anew`. */
void queue_write_printers(struct queue *queue, bool anew, struct json *json);

/* The paper of a printer as far as known, NULL else; a word of paper_choices, static. */
const char *queue_paper_of(struct queue *queue, const char *printer);

#endif
