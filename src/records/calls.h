/* Calls for stances: what a finding, a procedure or a verdict asks of a topic, and until when. */
#ifndef BASKLEAF_RECORDS_CALLS_H
#define BASKLEAF_RECORDS_CALLS_H

#include "records/sourced_value.h"
#include "records/whom.h"

/* What ends a phase. A date is worked out where there is one: the recheck's, or that of `days`. */
enum phase_end {
    PHASE_END_NONE,
    PHASE_END_RECHECK,
    PHASE_END_DATE, /* a date that must be on the record */
    PHASE_END_VETERINARIAN,
    PHASE_END_TESTS,
    PHASE_END_SHED,
    PHASE_END_LAID,
    PHASE_END_STOOL,
    PHASE_END_TWO_MEALS,
    PHASE_END_AWAKE,    /* fully awake again, on the visit's day */
    PHASE_END_MEASURED, /* a reading is right again, at the recheck at the latest */
    PHASE_END_COUNT
};

/* What the record may date. */
enum history_event {
    EVENT_REGURGITATED,
    EVENT_ATE,
    EVENT_STOOL,
    EVENT_SHED,
    EVENT_OPERATED,
    EVENT_WOKE_FROM_REST,
    EVENT_OWNED_SINCE,
    EVENT_STOOL_CLEAN,
    EVENT_COUNT
};

/* How a veterinarian has dealt with what was found. */
enum finding_state {
    STATE_UNSEEN, /* no veterinarian has looked */
    STATE_SEEN,   /* treated or looked at here */
    STATE_UNDER_TREATMENT,
    STATE_REFERRED,
    STATE_GO_NOW
};

struct call_row {
    struct list calls;      /* of struct text_value: "topic:stance", or a bundle's name */
    struct whom whom;       /* animals */
    struct list severities; /* of struct choice_value; empty: every level but normal */
    struct list states;     /* of struct choice_value: finding_state; empty: all */
    struct list steps;      /* of struct text_value: of the finding's own scale; empty: all */
    /* of struct text_value: what the place of a finding is of, by `written`; empty: any place */
    struct list where, never_where;
    struct choice_value until;
    struct sourced_value days; /* how long the phase lasts; its longer end is taken */
    struct choice_value since; /* history_event it counts from; the visit's day when left out */
    struct quantity phase;     /* 1 when left out; a later one starts where the one before ends */
    struct text_value source;  /* of rows that stand by themselves */
    struct choice_value trust;
    struct mark at;
};

extern const struct schema call_row_schema;
extern const struct choice phase_end_choices[], history_event_choices[], finding_state_choices[];

/* The rows of a schema whose struct holds a `struct call_row` as its member `in_`, or is one. */
#define CALL_ROWS(struct_, in_) CALL_ROWS_OF(struct_, in_.)
#define CALL_ROWS_OF(struct_, in_)                                                                 \
    ROW(TEXTS, struct_, in_ calls, "call", .required = true, .most = 24,                           \
        .help = "topic:stance, or the name of a bundle", .example = "[ill, bath:none]"),           \
        WHOM_ROWS_OF(struct_, in_),                                                                \
        ROW(CHOICES, struct_, in_ severities, "severities", .choices = severity_choices,           \
            .help = "every level but normal when left out"),                                       \
        ROW(CHOICES, struct_, in_ states, "states", .choices = finding_state_choices,              \
            .help = "all when left out"),                                                          \
        ROW(TEXTS, struct_, in_ steps, "steps", .most = 12,                                        \
            .help = "of the finding's own scale; all when left out"),                              \
        ROW(TEXTS, struct_, in_ where, "where", .most = 4,                                         \
            .help = "what its place is of, by a row of 'written' in topics.yaml"),                 \
        ROW(TEXTS, struct_, in_ never_where, "never-where", .most = 4,                             \
            .help = "what its place is not of, likewise"),                                         \
        ROW(CHOICE, struct_, in_ until, "until", .choices = phase_end_choices,                     \
            .help = "what ends it"),                                                               \
        ROW(RECORD, struct_, in_ days, "days", .schema = &sourced_duration_schema,                 \
            .help = "how long it lasts; the longer end is taken"),                                 \
        ROW(CHOICE, struct_, in_ since, "since", .choices = history_event_choices,                 \
            .help = "the event it counts from; the visit when left out or undated"),               \
        ROW(QUANTITY, struct_, in_ phase, "phase", WHOLE(1, 9),                                    \
            .help = "a later phase starts where the one before ends", .example = "2"),             \
        ROW(TEXT, struct_, in_ source, "source", .help = "an id of the sources"),                  \
        ROW(CHOICE, struct_, in_ trust, "trust", .choices = trust_choices,                         \
            .help = "how it was read")

/* "food:small" -> topic "food", stance "small"; false where it names a bundle. The length of the
 * topic's name is left in `length`. */
bool call_is_stance(const char *call, size_t *length, const char **stance);

/* The stance of a call for this topic; NULL for all others. */
static inline const char *call_stance_of(const char *call, const char *topic)
{
    for (; *topic && *call == *topic; topic++)
        call++;
    return !*topic && *call == ':' ? call + 1 : NULL;
}

#endif
