/* Which words may be said to whose keeper, by hand from the trade (common practice, no source). */
#ifndef BASKLEAF_TESTS_HEARERS_H
#define BASKLEAF_TESTS_HEARERS_H

#include <stddef.h>

/* One of each way of living: prey eaters on the ground and in trees, egg layers and bearers,
 * insect, plant and mixed feeders, drop drinkers, swimmers, skin breathers. */
struct hearer {
    const char *animal;
    unsigned is; /* of enum hearer_kind */
};

enum { HEARERS = 15, LANGUAGES = 3 };
extern const struct hearer hearers[HEARERS];
extern const char *const hearer_languages[LANGUAGES];

/* The first words in the text that this animal's keeper must not hear; NULL for none. */
const char *hearer_words_of_others(const struct hearer *hearer, size_t language, const char *text);

#endif
