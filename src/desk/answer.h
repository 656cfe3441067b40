/* One answer of the desk in the making, and what its parts need for it. */
#ifndef BASKLEAF_DESK_ANSWER_H
#define BASKLEAF_DESK_ANSWER_H

#include "base/json.h"
#include "context/visit_plan.h"
#include "desk/desk.h"

/* One answer in the making. */
struct answer {
    struct desk *desk;
    const struct request *request;
    const struct wording *words; /* of the page's language */
    const struct person *person; /* who asks; NULL where the desk knows no people */
    struct arena *arena;
    struct diag diag; /* of this answer */
    struct json json;
    struct strbuf text;
    struct reply *reply;
};

typedef void desk_handler(struct answer *answer);

struct date desk_today(const struct desk *desk);

/* The word of a key of desk.yaml, or NULL. */
const char *desk_word(const struct wording *words, const char *key, struct arena *arena);

/* The body as a tree; NULL after a refusal. */
struct node *answer_body(struct answer *answer);

/* Text under a key of the body, "" when missing or no text. */
const char *answer_text(const struct node *body, const char *key);

/* Who does what the body asks for: the person who is logged in, else who the body says. NULL after
 * a refusal. */
const char *answer_who(struct answer *answer, const struct node *body);

/* Who signs, likewise; only a veterinarian where the desk knows people. NULL after a refusal. */
const char *answer_signer(struct answer *answer, const struct node *body);

/* Begins the JSON of the reply, and ends the answer with it. */
void answer_start(struct answer *answer);
void answer_finish(struct answer *answer, int status);

/* Ends the answer with a status and {error: code, faults: [...]}; the page words the code. */
void answer_refuse(struct answer *answer, int status, const char *code);

/* The same with what stands in the answer's diag, places seen as paths of `tree` (may be NULL). */
void answer_refuse_faults(struct answer *answer, int status, const char *code,
                          const struct node *tree);

/* A record's tree with its plan, NULL with the faults in the answer's diag. */
const struct visit_record *answer_record(struct answer *answer, const char *name,
                                         const struct node *tree);

/* Reads a record of the folder: its text, version and tree. False after a refusal. */
struct opened {
    const char *name;
    struct bytes text;
    char version[STORE_VERSION_BYTES];
    struct node *tree;
};
bool answer_open(struct answer *answer, const char *name, struct opened *out);

#endif
