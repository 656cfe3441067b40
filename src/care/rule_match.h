/* Does a rule's condition hold for this plan? */
#ifndef BASKLEAF_CARE_RULE_MATCH_H
#define BASKLEAF_CARE_RULE_MATCH_H

#include "care/build.h"

/* How what a condition asked for at another time stands now; the gravest last. */
enum mended {
    MENDED_NOTHING, /* it looks at nothing that a keeper mends */
    MENDED_YES,
    MENDED_NEARLY,  /* outside by no more than the meter errs */
    MENDED_UNKNOWN, /* nobody looked */
    MENDED_NOT,     /* as bad as it asks for */
    MENDED_TURNED   /* outside on the other side */
};

/* Does a condition ask for something bad of the home, which a keeper can mend? */
bool rule_when_mends(const struct rule_when *when);
enum mended rule_when_mended(const struct care_build *b, const struct rule_when *when);

/* True when everything that is written holds. *from (arena's text) then names what made it
 * hold first: "finding:retained-shed", "zone:warm-side", "humidity" ... or "species". */
bool rule_when_match(struct care_build *b, const struct rule_when *when, const char **from);

/* The topic of which a stance that the condition asks for was called for today and gave way, while
 * all else of it holds; NULL for none, and where who signs decided it. */
const struct topic_plan *rule_when_gave_way(struct care_build *b, const struct rule_when *when);

/* The first quantity with one of the condition's any-reading verdicts that is not passed over, as
 * *from above; NULL for none. `passes_over` may be NULL. */
typedef bool rule_passes_over(const char *from, const void *who);
const char *rule_any_reading(const struct care_build *b, const struct rule_when *when,
                             rule_passes_over *passes_over, const void *who);

#endif
