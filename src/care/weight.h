/* Inside care/: what the weight is meant to do, and when to call. */
#ifndef BASKLEAF_CARE_WEIGHT_H
#define BASKLEAF_CARE_WEIGHT_H

#include "care/build.h"

/* What a diet takes off in some days: `what` is the derivation's. */
struct weight_curve {
    enum weight_purpose purpose;
    double from_g, goal_g; /* 0: no goal */
    double days;
    const char *what;
};

/* False for a weight that is meant to do something else. */
bool weight_expected(struct care_build *b, const struct weight_curve *curve,
                     struct derivations *how, struct ends *out);

/* What a diet takes off until the day of the next weighing; nothing for other animals. */
void weight_expect_on(struct care_build *b, struct date day);

/* Falling fast, or by more than is told as much. */
bool weight_has_lost_much(const struct care_build *b);

#endif
