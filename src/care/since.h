/* Inside care/: what was advised at the visit before, and how it stands today. */
#ifndef BASKLEAF_CARE_SINCE_H
#define BASKLEAF_CARE_SINCE_H

#include "care/build.h"

/* Did the visit before ask for the same action, for something that the keeper can mend, and does
 * this rule ask for it again for such a reason? */
bool since_asked_before(const struct care_build *b, const struct rule *rule);

#endif
