/* What a veterinarian should look at, in words. */
#ifndef BASKLEAF_CLI_TELL_REVIEW_H
#define BASKLEAF_CLI_TELL_REVIEW_H

#include "care/plan.h"
#include "cli/command.h"

/* All of it, or what can hardly be right and is asked back. */
enum told_reviews { TOLD_ALL, TOLD_ASKED };

/* Who tells, of one plan after another; `words` are read once and left NULL by who makes it. */
struct telling {
    struct run *run;
    const struct resources *resources;
    const struct wording *words;
};

/* Each as a remark at its place, behind `start`. */
void tell_review(struct telling *telling, const struct care_plan *plan, enum told_reviews which,
                 const char *start);

#endif
