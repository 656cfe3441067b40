/* Which words may be said to whose keeper, by hand from the trade (common practice, no source). */
#ifndef BASKLEAF_TESTS_HEARERS_H
#define BASKLEAF_TESTS_HEARERS_H

#include <stddef.h>

/* Every species that has a sheet, by how it lives and what it eats. Of a group with few species
 * each is tried in several turns, so that a pair of findings meets each pair of severities. */
struct hearer {
    const char *animal;
    unsigned is; /* of enum hearer_kind */
    unsigned turns;
};

enum { HEARERS = 44, LANGUAGES = 3 };
extern const struct hearer hearers[HEARERS];
extern const char *const hearer_languages[LANGUAGES];

/* The first words in the text that this animal's keeper must not hear; NULL for none. */
const char *hearer_words_of_others(const struct hearer *hearer, size_t language, const char *text);

#endif
