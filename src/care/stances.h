/* Inside care/: what is called for, and how each topic is settled from it. */
#ifndef BASKLEAF_CARE_STANCES_H
#define BASKLEAF_CARE_STANCES_H

#include "care/build.h"

/* One call for one stance, dated. */
struct stance_call {
    size_t topic;       /* place in the catalogue */
    const char *stance; /* in this animal's own terms */
    size_t rank;
    struct date from;
    bool has_until;
    struct date until;
    enum phase_end end_by;
    const char *then;    /* what the same caller calls for when an undated end has come */
    const char *because; /* finding:CODE, done:CODE, call:NAME, settlement:NAME, veterinarian */
    const char *finding; /* CODE alone; NULL when nothing was found or done */
    const char *bundle;  /* NULL when it was called for by itself */
    const struct procedure_plan *until_check; /* ends when this is looked at; NULL: it does not */
};

struct stance_calls {
    struct stance_call *items;
    size_t count, room;
    bool after_readings;                          /* verdicts are known and may call */
    const struct stance_settlement **settlements; /* those whose condition holds */
    size_t settlement_count;
};

/* Calls for "topic:stance" in this animal's terms; `form` holds all but topic, stance and rank. */
void stances_call(struct care_build *b, const char *text, const struct stance_call *form);

/* Finds the settlements whose condition holds; before topics are settled. */
void stances_find_settlements(struct care_build *b);

/* The phases of one topic from the calls. */
struct topic_plan stances_settle(struct care_build *b, size_t topic);

/* The stance of a healthy animal of this kind; NULL when it has no such topic. */
const char *stances_usual(const struct care_build *b, const struct topic *topic);

/* In this animal's own terms; NULL when the call is meaningless for it. */
const char *stances_translate(const struct care_build *b, const struct topic *topic,
                              const char *stance);

/* What the plan keeps of the record's decisions; before topics are settled. */
void decisions_begin(struct care_build *b);
const struct decision_plan *decision_of(const struct care_build *b,
                                        const struct visit_decision *one);

bool stance_call_is_on(const struct stance_call *call, struct date day);

#endif
