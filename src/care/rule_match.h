/* Does a rule's condition hold for this plan? */
#ifndef BASKLEAF_CARE_RULE_MATCH_H
#define BASKLEAF_CARE_RULE_MATCH_H

#include "care/build.h"

/* True when everything that is written holds. *from (arena's text) then names what made it
 * hold first: "finding:retained-shed", "zone:warm-side", "humidity" ... or "species". */
bool rule_when_match(struct care_build *b, const struct rule_when *when, const char **from);

#endif
