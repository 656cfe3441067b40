/* Contradictions: which of two called-for things stays. */
#ifndef BASKLEAF_CARE_CONFLICTS_H
#define BASKLEAF_CARE_CONFLICTS_H

#include "care/build.h"

/* Something that is called for: an action's code, or a change such as "humidity:in-shed". */
struct conflict_claim {
    const char *code;
    const char *from; /* finding's code or rule's name */
    bool fixed;       /* decided earlier: it can make others go, and cannot go itself */
    bool dropped;
};

/* Applies the rule book's settlements in their order: where both `keep` and `drop` are claimed,
 * `drop` goes and the veterinarian is told (REVIEW_CONFLICT, named by the settlement). A name that
 * ends in * stands for every code that begins so; a code is never in conflict with itself. */
void conflicts_settle(struct care_build *b, struct conflict_claim *claims, size_t count);

/* Does a settlement let `code` go where `keep` is called for? Tells nobody. */
bool conflicts_drops(const struct care_build *b, const char *keep, const char *code);

#endif
