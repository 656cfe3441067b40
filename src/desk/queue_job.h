/* A job of the queue and the attempts at it. */
#ifndef BASKLEAF_DESK_QUEUE_JOB_H
#define BASKLEAF_DESK_QUEUE_JOB_H

#include "desk/queue.h"

enum job_state {
    JOB_WAITING,    /* for its turn, or for a later try */
    JOB_AT_WORK,    /* an attempt is under way */
    JOB_AT_PRINTER, /* handed over; the print system says more */
    JOB_STOPPED,    /* handed over, and the printer stands still */
    JOB_DONE,
    JOB_UNSURE, /* it may have arrived */
    JOB_FAILED,
};

enum { JOB_WHY_BYTES = 240 };

struct job {
    struct job *next;
    struct arena arena;
    struct job_order order;
    long number;
    enum job_state state;
    bool in_hand; /* a thread has it: nobody else changes or drops it */
    char why[JOB_WHY_BYTES];
    int tries;
    long long due; /* not before */
    int print_job; /* the print system's number, once handed over */
    char printer[128];
};

/* What came of an attempt; copied into the job below the lock. */
struct outcome {
    enum job_state state;
    char why[JOB_WHY_BYTES];
    bool again; /* nothing has arrived: a later try may do */
    int print_job;
    char printer[128];
};

/* Tries once, or looks where the job at the printer stands. `job` is not written. */
void job_attempt(const struct job *job, long long (*clock)(void), struct outcome *out);

#endif
