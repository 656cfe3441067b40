/* Inside care/: how much harm an action avoids for this animal today. */
#ifndef BASKLEAF_CARE_ACTION_ORDER_H
#define BASKLEAF_CARE_ACTION_ORDER_H

#include "care/build.h"

enum { HARM_MOST = 100 };

/* What one rule that holds weighs: its harm, lessened where a value lies only just outside, raised
 * by what was found. */
struct rule_weight {
    double harm;           /* 0-100 */
    double share;          /* of the rule's own harm: 1 far outside, or where nothing is graded */
    const char *raised_by; /* the finding's code; NULL for none */
    bool far_too_hot;      /* hotter than the animal bears, whatever the meter errs */
    bool within_error;     /* the meter may err by as much: never among the first */
};

struct rule_weight action_weigh(const struct care_build *b, const struct rule *rule);

/* No setting of a heater stands before what a disease itself asks for. A place that is far too hot
 * is put right next, but no other one before the last of them. What is only bought stands behind a
 * heater that gave way so. */
void action_cap_heaters(struct action *actions, size_t count);

#endif
