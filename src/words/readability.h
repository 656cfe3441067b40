/* How easy a text is to read, by published formulas with our own counts.
 *
 * English: Flesch reading ease and Flesch-Kincaid grade (Kincaid et al. 1975, NAVTRADEV RBR 8-75).
 * Spanish: Fernandez-Huerta (1959, as corrected) and Szigriszt / INFLESZ (Barrio-Cantalejo et al.
 * 2008: 65 and more is quite easy).
 * French: Kandel and Moles (1958, from memory), who fitted Flesch's formula to French so that its
 * scale holds: 70 and more is fairly easy, as for Flesch.
 *
 * A word is a run of letters, apostrophes and hyphens inside it; a number is not a word unless
 * letters stand in it. A sentence ends at . ! ? : or a line feed after at least one word; a full
 * stop between digits ends none.
 */
#ifndef BASKLEAF_WORDS_READABILITY_H
#define BASKLEAF_WORDS_READABILITY_H

#include <stdbool.h>
#include <stddef.h>

#include "yaml/bind.h"

struct text_counts {
    size_t words, sentences, syllables;
};

/* Of one word of UTF-8; at least 1. English by groups of vowels with a silent e and common endings;
 * Spanish by vowels with diphthongs, which an accent on i or u parts; French by groups of vowels
 * with a silent last e. */
size_t readability_english_syllables(const char *word, size_t bytes);
size_t readability_spanish_syllables(const char *word, size_t bytes);
size_t readability_french_syllables(const char *word, size_t bytes);

/* Syllables by `count`, one of those above. */
typedef size_t syllable_counter(const char *word, size_t bytes);
struct text_counts readability_count(const char *text, syllable_counter *count);

/* All of them need at least one word and one sentence; 0 without. */
double readability_flesch_kincaid_grade(const struct text_counts *counts);
double readability_szigriszt(const struct text_counts *counts);
double readability_kandel_moles(const struct text_counts *counts);

/* ---- which formula a language names ---- */

enum reading_ease { READING_NONE, READING_FLESCH_KINCAID, READING_SZIGRISZT, READING_KANDEL_MOLES };

extern const struct choice reading_ease_choices[];

/* A formula holds for the language that it was made for, and for no other. */
struct reading_formula {
    const char *lang;
    syllable_counter *syllables;
    double (*score)(const struct text_counts *counts);
    bool more_is_harder;
    double sheet_limit;   /* of a whole sheet */
    double section_limit; /* of one section; 0: not judged */
    double long_floor;    /* of a file's longer texts together, which below it are cut into short
                           * sentences; 0: not judged */
};

/* NULL for READING_NONE. */
const struct reading_formula *readability_formula(int reading_ease);

#endif
