/* How easy a text is to read, by published formulas with our own counts.
 *
 * English: Flesch reading ease and Flesch-Kincaid grade (Kincaid et al. 1975, NAVTRADEV RBR 8-75).
 * Spanish: Fernandez-Huerta (1959, as corrected) and Szigriszt / INFLESZ (Barrio-Cantalejo et al.
 * 2008: 65 and more is quite easy).
 *
 * A word is a run of letters, apostrophes and hyphens inside it; a number is not a word unless
 * letters stand in it. A sentence ends at . ! ? : or a line feed after at least one word; a full
 * stop between digits ends none.
 */
#ifndef BASKLEAF_WORDS_READABILITY_H
#define BASKLEAF_WORDS_READABILITY_H

#include <stdbool.h>
#include <stddef.h>

struct text_counts {
    size_t words, sentences, syllables;
};

/* Of one word of UTF-8; at least 1. English by groups of vowels with a silent e and common endings;
 * Spanish by vowels with diphthongs, which an accent on i or u parts. */
size_t readability_english_syllables(const char *word, size_t bytes);
size_t readability_spanish_syllables(const char *word, size_t bytes);

/* `lang` "es": Spanish; everything else is counted as English. */
struct text_counts readability_count(const char *text, const char *lang);

/* All of them need at least one word and one sentence; 0 without. */
double readability_flesch_ease(const struct text_counts *counts);
double readability_flesch_kincaid_grade(const struct text_counts *counts);
double readability_fernandez_huerta(const struct text_counts *counts);
double readability_szigriszt(const struct text_counts *counts);

#endif
