/* Words that change before a sound: a language declares them in its language.yaml.
 *
 *     sounds:
 *       y: {becomes: e, before: [i, hi], but: [hia, hie]}     # "dolor e infección"
 */
#ifndef BASKLEAF_WORDS_SOUND_H
#define BASKLEAF_WORDS_SOUND_H

#include "words/language.h"

struct sound {
    struct text_value name; /* the word that changes */
    struct text_value becomes;
    struct list before, but; /* of struct text_value: how the next word begins, in small letters */
};

extern const struct schema sound_schema;

/* `text` ends with `next`: the word before that as it sounds there. */
const char *sound_joined(const struct language *language, const char *text, const char *next,
                         struct arena *arena);

#endif
