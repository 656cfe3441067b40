/* What a veterinarian should look at, in words. */
#ifndef BASKLEAF_CLI_TELL_REVIEW_H
#define BASKLEAF_CLI_TELL_REVIEW_H

#include "care/plan.h"
#include "cli/command.h"

/* All of it, or what can hardly be right and is asked back. */
enum told_reviews { TOLD_ALL, TOLD_ASKED };

/* Each as a remark at its place, behind `start`. */
void tell_review(struct run *run, const struct resources *resources, const struct care_plan *plan,
                 enum told_reviews which, const char *start);

#endif
