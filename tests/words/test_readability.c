/* Our counters of reading ease against counts that anyone can repeat, and against the formulas as
 * published. */
#include <string.h>

#include "common/suite.h"
#include "words/readability.h"

/* Syllables as an English dictionary parts them (Merriam-Webster's dots, from memory). */
static const struct {
    const char *word;
    size_t syllables;
} english[] = {{"the", 1},         {"python", 2},       {"humidity", 4}, {"lamp", 1},
               {"temperature", 4}, {"measure", 2},      {"basking", 2},  {"weighed", 1},
               {"animal", 3},      {"table", 2},        {"scale", 1},    {"scales", 1},
               {"breathing", 2},   {"veterinarian", 6}, {"retained", 2}, {"mouth", 1},
               {"warmed", 1},      {"needed", 2},       {"people", 2},   {"tables", 2},
               {"seven", 2},       {"eyes", 1},         {"care", 1},     {"sheet", 1}};

/* Syllables by the rules of the Spanish Academy: two strong vowels part, an accented weak one
 * parts. */
static const struct {
    const char *word;
    size_t syllables;
} spanish[] = {{"pitón", 2},
               {"humedad", 3},
               {"día", 2},
               {"agua", 2},
               {"cuida", 2},
               {"lámpara", 3},
               {"país", 2},
               {"leer", 2},
               {"reptil", 2},
               {"ciudad", 2},
               {"búho", 2},
               {"aún", 2},
               {"baúl", 2},
               {"grúa", 2},
               {"raíz", 2},
               {"PAÍS", 2},
               {"BAÚL", 2},
               {"cuídate", 3},
               {"después", 2},
               {"acción", 2},
               {"huésped", 2},
               {"aéreo", 4},
               {"que", 1},
               {"guitarra", 3},
               {"pingüino", 3},
               {"veterinario", 5},
               {"muy", 1},
               {"buey", 1},
               /* a u that is silent between g or q and an accented i parts nothing */
               {"guía", 2},
               {"seguía", 3},
               {"quién", 1},
               {"quía", 2},
               /* what has no vowel is one */
               {"cm", 1}};

/* Syllables as they are heard, a last e silent (the dictionary of the French Academy, from
 * memory). */
static const struct {
    const char *word;
    size_t syllables;
} french[] = {{"eau", 1},      {"lampe", 1},    {"lampes", 1},    {"humidité", 4}, {"terrarium", 3},
              {"que", 1},      {"chaque", 1},   {"longue", 1},    {"guérir", 2},   {"l'animal", 3},
              {"qu'il", 1},    {"jusqu'au", 2}, {"œil", 1},       {"cœur", 1},     {"boa", 2},
              {"réagir", 3},   {"aérer", 3},    {"maïs", 2},      {"client", 2},   {"pluie", 1},
              {"idée", 2},     {"le", 1},       {"mettez-le", 3}, {"voyez", 2},    {"yeux", 1},
              {"cyclique", 2}, {"appelez", 3},  {"fiche", 1},     {"python", 2},   {"août", 1},
              {"fœtus", 2},    {"FŒTUS", 2},    {"phœnix", 2},    {"œdème", 2},    {"noël", 2},
              {"Saül", 2},     {"naïf", 2}};

START_TEST(counts_english_syllables)
{
    ck_assert_msg(readability_english_syllables(english[_i].word, strlen(english[_i].word)) ==
                      english[_i].syllables,
                  "%s: %zu", english[_i].word,
                  readability_english_syllables(english[_i].word, strlen(english[_i].word)));
}
END_TEST

START_TEST(counts_spanish_syllables)
{
    ck_assert_msg(readability_spanish_syllables(spanish[_i].word, strlen(spanish[_i].word)) ==
                      spanish[_i].syllables,
                  "%s: %zu", spanish[_i].word,
                  readability_spanish_syllables(spanish[_i].word, strlen(spanish[_i].word)));
}
END_TEST

START_TEST(counts_french_syllables)
{
    ck_assert_msg(readability_french_syllables(french[_i].word, strlen(french[_i].word)) ==
                      french[_i].syllables,
                  "%s: %zu", french[_i].word,
                  readability_french_syllables(french[_i].word, strlen(french[_i].word)));
}
END_TEST

/* Two sentences, 11 words, 14 syllables, counted by hand. */
START_TEST(counts_words_and_sentences)
{
    struct text_counts c = readability_count(
        "Warm the basking spot to 32.5 C. Read it after one hour.", readability_english_syllables);
    ck_assert_uint_eq(c.sentences, 2);
    ck_assert_uint_eq(c.words, 11);
}
END_TEST

/* What stands behind a word is not of it, though it would go on with the word's last letter: a
 * counter is told how many bytes are its own. Cut inside a letter, the half says nothing. */
START_TEST(what_stands_behind_a_word_is_not_counted)
{
    static syllable_counter *const counters[] = {
        readability_english_syllables, readability_spanish_syllables, readability_french_syllables};
    static const char *const words[] = {"c\u0153ur", "pit\u00F3n", "\u00E9t\u00E9s",
                                        "boas",      "table",      "needed",
                                        "\u0153il",  "scales",     "pit\u0153"};
    for (size_t w = 0; w < sizeof words / sizeof *words; w++)
        for (size_t c = 0; c < sizeof counters / sizeof *counters; c++)
            for (size_t bytes = 1; bytes <= strlen(words[w]); bytes++) {
                char alone[16] = {0}, before_marks[16];
                memcpy(alone, words[w], bytes);
                memset(before_marks, 0x93, sizeof before_marks);
                memcpy(before_marks, words[w], bytes);
                ck_assert_msg(counters[c](words[w], bytes) == counters[c](alone, bytes) &&
                                  counters[c](before_marks, bytes) == counters[c](alone, bytes),
                              "%s: %zu", words[w], bytes);
            }
}
END_TEST

/* The ligature is o and e, wherever it stands. */
START_TEST(a_ligature_is_two_letters)
{
    static const char *const rows[][2] = {
        {"\u0153il", "oeil"}, {"f\u0153tus", "foetus"}, {"pit\u0153", "pitoe"}, {"\u0152", "oe"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ck_assert_uint_eq(readability_french_syllables(rows[i][0], strlen(rows[i][0])),
                          readability_french_syllables(rows[i][1], strlen(rows[i][1])));
}
END_TEST

static size_t bytes_of(const char *word, size_t bytes)
{
    (void)word;
    return bytes;
}

/* A word is a run of letters with apostrophes and hyphens inside it, not before it nor behind it;
 * how many bytes that are is counted by hand. */
START_TEST(what_a_word_is)
{
    static const struct {
        const char *text;
        size_t words, bytes;
    } rows[] = {{"don't", 1, 5},
                {"well-known", 1, 10},
                {"'tis", 1, 3},
                {"its dogs'", 2, 7},
                {"low- or", 2, 5},
                {"a - b", 2, 2},
                {"a--b", 2, 2},
                {"mi-\u00e9", 1, 5},
                {"l'\u00e9t\u00e9", 1, 7},
                {"3-day", 1, 3},
                {"12 34", 0, 0},
                {"-", 0, 0},
                {"'", 0, 0},
                {"", 0, 0}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct text_counts c = readability_count(rows[i].text, bytes_of);
        ck_assert_msg(c.words == rows[i].words && c.syllables == rows[i].bytes,
                      "%s: %zu words of %zu bytes", rows[i].text, c.words, c.syllables);
    }
}
END_TEST

/* A line, an exclamation, a question and a colon end a sentence as a full stop does; a comma and
 * the point of a number do not. */
START_TEST(what_ends_a_sentence)
{
    static const struct {
        const char *text;
        size_t sentences;
    } rows[] = {{"Warm it. Cool it.", 2},  {"Warm it\nCool it.", 2}, {"Warm it! Cool it.", 2},
                {"Warm it? Cool it.", 2},  {"Warm it: Cool it.", 2}, {"Warm it, cool it.", 1},
                {"Warm it to 3.5 now.", 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct text_counts c = readability_count(rows[i].text, readability_english_syllables);
        ck_assert_msg(c.sentences == rows[i].sentences, "%s: %zu", rows[i].text, c.sentences);
    }
}
END_TEST

/* A language whose reading ease nobody measures has no formula, each other the one of its name. */
START_TEST(each_measure_has_its_formula)
{
    ck_assert_ptr_null(readability_formula(READING_NONE));
    ck_assert(readability_formula(READING_FLESCH_KINCAID)->score ==
              readability_flesch_kincaid_grade);
    /* a handout's running text: grade 6 at most, no section above 8 (handout-standards.md: the
     * AMA's and patient education's 4th to 6th grade) */
    ck_assert_double_eq(readability_formula(READING_FLESCH_KINCAID)->sheet_limit, 6);
    ck_assert_double_eq(readability_formula(READING_FLESCH_KINCAID)->section_limit, 8);
    ck_assert(readability_formula(READING_FLESCH_KINCAID)->more_is_harder);
    ck_assert(readability_formula(READING_SZIGRISZT)->score == readability_szigriszt);
    ck_assert(readability_formula(READING_KANDEL_MOLES)->score == readability_kandel_moles);
}
END_TEST

/* Kincaid et al. 1975: grade = 0.39 words/sentences + 11.8 syllables/words - 15.59.
 * 100 words, 10 sentences, 130 syllables by hand: 3.65. */
START_TEST(follows_the_published_formulas)
{
    const struct text_counts counts = {.words = 100, .sentences = 10, .syllables = 130};
    ck_assert_double_eq_tol(readability_flesch_kincaid_grade(&counts), 3.65, 1e-9);
    /* Szigriszt 1993: 206.835 - 62.3 syllables/words - words/sentences; 200 syllables: 72.235 */
    const struct text_counts other = {.words = 100, .sentences = 10, .syllables = 200};
    ck_assert_double_eq_tol(readability_szigriszt(&other), 72.235, 1e-9);
    /* Kandel and Moles 1958, from memory: 207 - 1.015 words/sentences - 73.6 syllables/words;
     * 207 - 10.15 - 95.68 */
    ck_assert_double_eq_tol(readability_kandel_moles(&counts), 101.17, 1e-9);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("readability");
    TCase *tests = tcase_create("readability");
    tcase_add_loop_test(tests, counts_english_syllables, 0, sizeof english / sizeof *english);
    tcase_add_loop_test(tests, counts_spanish_syllables, 0, sizeof spanish / sizeof *spanish);
    tcase_add_loop_test(tests, counts_french_syllables, 0, sizeof french / sizeof *french);
    tcase_add_test(tests, counts_words_and_sentences);
    tcase_add_test(tests, a_ligature_is_two_letters);
    tcase_add_test(tests, what_stands_behind_a_word_is_not_counted);
    tcase_add_test(tests, what_a_word_is);
    tcase_add_test(tests, what_ends_a_sentence);
    tcase_add_test(tests, each_measure_has_its_formula);
    tcase_add_test(tests, follows_the_published_formulas);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
