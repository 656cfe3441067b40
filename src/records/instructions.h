/* Whatever a sheet says that tells a keeper to do or to watch something: which topic it speaks of,
 * with which stances it agrees, whom it is for, and what is said instead.
 * templates/instructions.yaml. */
#ifndef BASKLEAF_RECORDS_INSTRUCTIONS_H
#define BASKLEAF_RECORDS_INSTRUCTIONS_H

#include "base/code_index.h"
#include "records/topics.h"

struct instruction_topic {
    struct text_value name; /* the topic */
    struct list stances;    /* of struct text_value: those it agrees with */
    struct mark at;
};

struct instruction_variant {
    struct whom whom;
    struct list stances;   /* of struct text_value: of the instruction's first topic; empty: all */
    struct list topics;    /* of struct instruction_topic: further ones, all must agree */
    struct text_value key; /* what is printed instead */
    struct text_value said_by; /* likewise */
    struct mark at;
};

struct instruction {
    struct text_value
        code; /* a wording key, or a key without its last part: action.raise-humidity */
    struct text_value section;
    struct text_value topic; /* NULL: it holds always, `for` alone decides */
    struct list stances;     /* of struct text_value */
    struct list topics;      /* of struct instruction_topic: further ones, all must agree */
    struct list says;        /* of struct instruction_topic: what need not be told beside it */
    struct list
        refers; /* of struct text_value: topics of which it only points to what the sheet says
                 */
    struct list signs; /* of struct text_value: warning signs that it says to call or to go for */
    struct whom whom;  /* key `for` */
    struct flag_value any_phase; /* one phase of the plan's weeks is enough: dated lines */
    struct flag_value at_meals;  /* it tells how to feed: while food rests, from when it is back */
    struct text_value said_by;   /* code of an action that says as much: beside it not printed */
    struct list variants;        /* of struct instruction_variant; the first that fits */
    struct mark at;
};

struct instruction_catalogue {
    struct list instructions; /* of struct instruction, sorted by code */
    struct list not_now;      /* of struct text_value: those that say what not to do */
    struct code_index index;  /* of their codes, by place in the list */
    bool is_shipped;          /* the file that came with the program */
};

extern const struct schema instruction_catalogue_schema;

/* Does what is printed say what not to do? */
bool instruction_is_not_now(const struct instruction_catalogue *catalogue, const char *key);

/* By code, as instruction_catalogue_read() gives them. What came with the program was sorted when
 * it was built. */
void instruction_catalogue_sort(struct instruction_catalogue *catalogue);

/* Sorted by code, topics and stances checked. */
struct instruction_catalogue *instruction_catalogue_read(const char *path,
                                                         const struct topic_catalogue *topics,
                                                         struct arena *arena, struct diag *diag);

#endif
