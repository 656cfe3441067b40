/* Plural categories of the Unicode CLDR, and the rules by which a number falls into one.
 *
 * Rules are written as CLDR writes them (UTS #35, part 3, Language Plural Rules Syntax): operands
 * n, i, v, w, f, t (and c, e, always 0 here), `%`, `=` and `!=` with lists and ranges of whole
 * numbers, `and`, `or`. Samples behind an `@` are passed over, so that a line of CLDR can be
 * taken as it is. `other` is what fits no rule.
 */
#ifndef BASKLEAF_WORDS_PLURAL_H
#define BASKLEAF_WORDS_PLURAL_H

#include "base/arena.h"

enum plural {
    PLURAL_ZERO,
    PLURAL_ONE,
    PLURAL_TWO,
    PLURAL_FEW,
    PLURAL_MANY,
    PLURAL_OTHER,
    PLURAL_COUNT
};

struct plural_condition;

/* Of one language; NULL for a category that it does not tell apart. */
struct plural_rules {
    const struct plural_condition *conditions[PLURAL_OTHER];
};

/* "few" */
const char *plural_word(enum plural plural);

/* NULL when the text is no condition; *wrong then points at what was not understood. */
const struct plural_condition *plural_parse(const char *text, struct arena *arena,
                                            const char **wrong);

/* The category of a number that is printed with at most three digits after the decimal mark and
 * without trailing zeros. */
enum plural plural_choose(const struct plural_rules *rules, double number);

#endif
