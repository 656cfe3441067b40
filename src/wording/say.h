/* A sentence of the catalogue, spoken for one plan: keys in, whole sentences out. */
#ifndef BASKLEAF_WORDING_SAY_H
#define BASKLEAF_WORDING_SAY_H

#include "care/plan.h"
#include "wording/format.h"

/* Who is spoken for. Copy it to add an item's own facts. */
struct speech {
    struct format format;
    const struct care_plan *plan;
    const struct plan_fact *facts;  /* an item's own: these names come first; may be NULL */
    const char *where;              /* {finding.where}: the record's words; may be NULL */
    const struct prey_choice *prey; /* {meal.count} and {meal.food} of this one; NULL: the plan's */
};

/* The sentence under a key, in the arena. A missing key, or one of which no alternative can be
 * said because a slot has no value, is a DIAG_ERROR; the key itself then stands for the
 * sentence, never nothing. */
const char *say(const struct speech *speech, const char *key);

/* "family.code" and "family.code.part". */
const char *say_code(const struct speech *speech, const char *family, const char *code);
const char *say_part(const struct speech *speech, const char *family, const char *code,
                     const char *part);

/* NULL where the catalogue has no such key; otherwise as say. */
const char *say_if_worded(const struct speech *speech, const char *key);

/* NULL where a slot has no value for this plan; a missing key is an error as in say. */
const char *say_if_known(const struct speech *speech, const char *key);

/* "a", "a or b", "a, b or c" (or with "and") out of whole phrases. */
const char *say_any_of(const struct speech *speech, const char *const *phrases, size_t count);
const char *say_all_of(const struct speech *speech, const char *const *phrases, size_t count);

#endif
