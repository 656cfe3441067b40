/* What a language is beyond its sentences: templates/wording/<lang>/language.yaml.
 *
 *     plurals: {one: i = 1 and v = 0}   # as the Unicode CLDR has them; `other` is the rest
 *     reading-ease: flesch-kincaid      # a formula made for this language, or none
 *     agreement: {...}                  # words that agree with the patient's sex (agreement.h)
 *     sounds: {...}                     # words that change before a sound (sound.h)
 */
#ifndef BASKLEAF_WORDS_LANGUAGE_H
#define BASKLEAF_WORDS_LANGUAGE_H

#include "words/plural.h"
#include "words/readability.h"
#include "yaml/bind.h"

#define LANGUAGE_FILE "language.yaml"

struct language {
    struct text_value plural_texts[PLURAL_OTHER];
    struct plural_rules plurals;
    struct choice_value reading_ease;
    struct list agreement; /* of struct agreement */
    struct list sounds;    /* of struct sound */
};

extern const struct schema language_schema;

/* From its tree; `lang` is the folder's name. NULL after errors: a condition that cannot be
 * read, a formula that was made for another language. */
struct node;
const struct language *language_read_tree(const struct node *tree, const char *lang,
                                          struct arena *arena, struct diag *diag);

/* The same from <folder>/language.yaml. */
const struct language *language_read(const char *folder, const char *lang, struct arena *arena,
                                     struct diag *diag);

#endif
