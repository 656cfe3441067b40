/* Topics of care, their stances in order of precedence, what stands in for them in animals that
 * lack one, bundles of calls, and settlements of calls that cannot both be followed.
 * templates/topics.yaml and templates/settlements.yaml. */
#ifndef BASKLEAF_RECORDS_TOPICS_H
#define BASKLEAF_RECORDS_TOPICS_H

#include "records/calls.h"
#include "records/rules.h"

enum topic_kind {
    TOPIC_ORDER,  /* the strongest wins */
    TOPIC_CHOICE, /* fixed by the animal; others are added to it */
    TOPIC_PARTS   /* all hold side by side */
};

struct topic_default {
    struct whom whom;
    struct flag_value ill; /* only for an animal that something was found on */
    struct text_value stance;
    struct mark at;
};

struct topic_translation {
    struct whom whom;
    struct list from;     /* of struct text_value; `any` for all */
    struct text_value to; /* a stance, another topic's topic:stance, or `drop` */
    struct mark at;
};

struct topic {
    struct text_value name;
    struct choice_value kind;
    struct list stances; /* of struct text_value, strongest first */
    struct whom whom;    /* animals that have the topic */
    struct text_value usual;
    struct list defaults;  /* of struct topic_default: where the usual one differs; first fit */
    struct list translate; /* of struct topic_translation: first fit */
    struct list needs_end; /* of struct text_value: stances that must have an end */
    struct list dangerous; /* of struct text_value: a decision for it asks for a second yes */
    struct list limits;    /* of struct text_value: stances whose limits stay when they lose */
    struct list parts;     /* of struct topic: topics of their own, named TOPIC.PART once read */
    struct flag_value goes_on; /* no phase of it ends it: water, light */
    struct flag_value
        usual_unsaid; /* what is usual for it needs no sentence, whoever asks for it */
    struct mark at;
};

struct bundle {
    struct text_value name;
    struct list rows; /* of struct call_row */
    struct mark at;
};

/* A verdict, a trait or the season that calls for something by itself. */
struct state_call {
    struct text_value name;
    struct rule_when when;
    struct call_row row; /* what it calls for; the row's own filters hold too */
};

struct topic_catalogue {
    struct list topics;  /* of struct topic, in file order, parts behind their topic */
    struct list bundles; /* of struct bundle */
    struct list calls;   /* of struct state_call */
    struct list written; /* of struct written_words */
    struct list sources;
    bool is_shipped; /* the file that came with the program */
};

/* Replaces what its condition's findings call for on the topics of `outcome`. */
struct stance_settlement {
    struct text_value name;
    struct rule_when when;
    struct list outcome;       /* of struct text_value: topic:stance */
    struct quantity lasting;   /* `lasting-days-least`: a call that ends sooner is none for it */
    struct flag_value ask;     /* the veterinarian looks at it before signing */
    struct flag_value confirm; /* a decision against it needs a second yes */
    struct text_value reason;  /* for explain */
    struct text_value source;
    struct choice_value trust;
    struct mark at;
};

struct settlement_book {
    struct list settlements; /* of struct stance_settlement */
    struct list sources;
    bool is_shipped; /* the file that came with the program */
};

extern const struct schema topic_catalogue_schema, settlement_book_schema;

struct topic_catalogue *topic_catalogue_read(const char *path, struct arena *arena,
                                             struct diag *diag);
/* Checks every outcome against the topics. */
struct settlement_book *settlement_book_read(const char *path, const struct topic_catalogue *topics,
                                             struct arena *arena, struct diag *diag);

/* The place of a topic in the catalogue by its name's first `length` bytes; SIZE_MAX for none. */
size_t topic_find(const struct topic_catalogue *catalogue, const char *name, size_t length);
/* The rank of a stance, 0 the strongest; SIZE_MAX for none. */
size_t topic_rank(const struct topic *topic, const char *stance);
const struct bundle *bundle_find(const struct topic_catalogue *catalogue, const char *name);

/* Has it a row of what is written of `of`, in the language, or in any for NULL? */
bool topic_knows_written(const struct topic_catalogue *catalogue, const char *of,
                         const char *language);
/* Has it rows of all these (struct text_value)? Says what it has none of, below `path`. */
bool topic_written_check(const struct topic_catalogue *topics, const struct list *wanted,
                         const char *path, struct diag *diag);

/* Were the topics and another file, both as they came, found right together when the program was
 * built? */
bool topics_proven_with(const struct topic_catalogue *topics, bool is_shipped);

bool topic_rules_check(const struct rule_book *book, const struct topic_catalogue *topics,
                       struct diag *diag);

/* Every call of a list of struct call_row names a bundle or a stance that there is; false after
 * errors with their places. */
bool calls_check(const struct list *rows, const struct topic_catalogue *topics, const char *path,
                 struct diag *diag);

/* Likewise of a list of struct text_value. */
bool call_list_check(const struct list *calls, const struct topic_catalogue *topics,
                     const char *path, struct diag *diag);

#endif
