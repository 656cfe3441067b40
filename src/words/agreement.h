/* Words that agree with the patient's sex: a language declares them in its language.yaml, and its
 * sentences name them as slots.
 *
 *     agreement:
 *       object-pronoun: {female: la, other: lo}     # "Lleva{patient.object-pronoun}"
 *
 * They are the language's own: its twin need not have them. */
#ifndef BASKLEAF_WORDS_AGREEMENT_H
#define BASKLEAF_WORDS_AGREEMENT_H

#include <stdbool.h>

#include "base/nearest.h"
#include "records/terms.h"
#include "words/language.h"

struct agreement {
    struct text_value name; /* behind "patient." */
    struct text_value female, other;
};

extern const struct schema agreement_schema;

/* Does the language declare this slot? */
bool agreement_has(const struct language *language, const char *slot);
/* What stands in it for an animal of this sex, "" for no letter; NULL where it is not declared.
 * One whose sex is not known takes the form of a male, as the grammar has it. */
const char *agreement_form(const struct language *language, const char *slot, enum sex sex);
/* The longer of its forms, for who measures a text without an animal. */
const char *agreement_longest(const struct language *language, const char *slot);
/* Offers every slot that the language declares. */
void agreement_offer(const struct language *language, struct nearest *nearest, struct arena *arena);

#endif
