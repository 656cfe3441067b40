/* Counts syllables, words and sentences, and applies the formulas. */
#include "words/readability.h"
#include "base/utf8.h"

#include <ctype.h>
#include <string.h>

/* ---- letters ---------------------------------------------------------------------- */

/* A letter of Latin-1 or a French ligature as its plain small one, with what stood above it kept
 * apart. */
struct letter {
    char base;   /* 'a'..'z', or 0 for no letter */
    bool accent; /* acute, of i and u */
    bool diaeresis;
    size_t bytes;
};

static struct letter letter_of(const char *at, size_t left)
{
    /* U+00C0 to U+00FF; 0 for the two signs that are no letters */
    static const char latin[] = "aaaaaaaceeeeiiiidnooooo\0ouuuuyps"
                                "aaaaaaaceeeeiiiidnooooo\0ouuuuypy";
    unsigned char c = (unsigned char)at[0];
    if (isalpha(c))
        return (struct letter){.base = (char)tolower(c), .bytes = 1};
    if (c == 0xC3 && left > 1) {
        unsigned index = (unsigned char)at[1] & 0x3Fu;
        unsigned low = index & 0x1Fu;         /* the same for capitals and small letters */
        bool accent = low == 13 || low == 26; /* of i and u alone it is asked */
        return (struct letter){latin[index], accent, low == 28 || low == 15, 2};
    }
    bool ligature = c == 0xC5 && left > 1 && ((unsigned char)at[1] & 0xFEu) == 0x92;
    if (ligature)
        return (struct letter){.base = 'o', .bytes = 2}; /* oe, as in coeur */
    size_t bytes = 1;
    while (bytes < left && utf8_goes_on(at[bytes]))
        bytes++;
    return (struct letter){.bytes = bytes};
}

static bool is_vowel(char c)
{
    return c && strchr("aeiouy", c) != NULL;
}

/* ---- English ------------------------------------------------------------------------ */

enum { WORD_MOST = 64 };

static size_t plain_letters(const char *word, size_t bytes, char out[WORD_MOST])
{
    size_t count = 0;
    for (size_t i = 0; i < bytes && count + 1 < WORD_MOST;) {
        struct letter letter = letter_of(word + i, bytes - i);
        if (letter.base)
            out[count++] = letter.base;
        i += letter.bytes;
    }
    out[count] = '\0';
    return count;
}

static bool ends_in(const char *word, size_t length, const char *ending)
{
    size_t bytes = strlen(ending);
    return length > bytes && strcmp(word + length - bytes, ending) == 0;
}

/* A last e is silent, and that of -es and -ed where no s, t or d sound needs it. */
static bool has_silent_end(const char *w, size_t n)
{
    if (ends_in(w, n, "le") && n > 2 && !is_vowel(w[n - 3]))
        return false;
    if (ends_in(w, n, "e"))
        return !is_vowel(w[n - 2]) || w[n - 2] == 'u';
    if (ends_in(w, n, "ed"))
        return !is_vowel(w[n - 3]) && w[n - 3] != 't' && w[n - 3] != 'd';
    if (ends_in(w, n, "es"))
        return !is_vowel(w[n - 3]) && strchr("sxzcg", w[n - 3]) == NULL && !ends_in(w, n, "ches") &&
               !ends_in(w, n, "shes") && !(ends_in(w, n, "les") && n > 3 && !is_vowel(w[n - 4]));
    return false;
}

size_t readability_english_syllables(const char *word, size_t bytes)
{
    /* two vowels side by side that are spoken apart */
    static const char *const parted[] = {"ia", "io", "iu", "eo", "ua", "uo"};
    static const char *const joined[] = {"tia", "tio", "cia", "cio", "sio", "gio",
                                         "gia", "qua", "gua", "quo", "peo"};
    char w[WORD_MOST];
    size_t n = plain_letters(word, bytes, w), count = 0;
    for (size_t i = 0; i < n; i++)
        count += is_vowel(w[i]) && (i == 0 || !is_vowel(w[i - 1]));
    for (size_t i = 0; i + 1 < n; i++)
        for (size_t k = 0; k < sizeof parted / sizeof *parted; k++)
            count += strncmp(w + i, parted[k], 2) == 0;
    for (size_t i = 0; i + 2 < n; i++)
        for (size_t k = 0; k < sizeof joined / sizeof *joined; k++)
            count -= count > 1 && strncmp(w + i, joined[k], 3) == 0;
    if (count > 1 && has_silent_end(w, n))
        count--;
    return count > 0 ? count : 1;
}

/* ---- Spanish ---------------------------------------------------------------------------- */

/* i and u without an accent lean on the vowel beside them; y does at a word's end. */
static bool leans(const struct letter *letter)
{
    return (letter->base == 'i' || letter->base == 'u' || letter->base == 'y') && !letter->accent;
}

/* The silent u of que and gui leans on the vowel behind it too, so it counts for none. */
size_t readability_spanish_syllables(const char *word, size_t bytes)
{
    size_t count = 0;
    bool after_vowel = false, before_leans = false;
    char before = 0;
    for (size_t i = 0; i < bytes;) {
        struct letter letter = letter_of(word + i, bytes - i);
        i += letter.bytes;
        bool last = i >= bytes;
        bool vowel = letter.base && (strchr("aeiou", letter.base) || (letter.base == 'y' && last));
        bool same = letter.base == before;
        if (vowel) {
            bool one = after_vowel && !same && (before_leans || leans(&letter));
            count += !one;
        }
        before_leans = vowel && leans(&letter);
        after_vowel = vowel;
        before = letter.base;
    }
    return count > 0 ? count : 1;
}

/* ---- French ----------------------------------------------------------------------------- */

enum { BEFORE_MOST = 3 };

/* A word as it is read: the part since the last hyphen or apostrophe, and the letters before. */
struct french {
    char before[BEFORE_MOST]; /* the nearest first; 0 for none */
    bool after_vowel, before_marked;
    size_t count, in_part;
    bool ends_mute; /* the last sound was a plain e, alone in its group */
};

static char letter_at(const char *word, size_t bytes, size_t at)
{
    return at < bytes ? letter_of(word + at, bytes - at).base : 0;
}

/* qu and gue have no u to hear; a y before a vowel is a consonant. */
static bool sounds(const struct french *f, char base, char next)
{
    if (base == 'u' &&
        (f->before[0] == 'q' || (f->before[0] == 'g' && next && strchr("eiy", next))))
        return false;
    return is_vowel(base) && !(base == 'y' && is_vowel(next));
}

/* Two vowels side by side that are spoken apart: réagir, aérer, boa, maïs, client. */
static bool parts(const struct french *f, const struct letter *letter, bool marked)
{
    char before = f->before[0];
    bool cluster = before == 'i' && f->before[1] && strchr("lr", f->before[1]) && f->before[2] &&
                   strchr("bcdfgptv", f->before[2]);
    return (f->before_marked && before == 'e' && letter->base != 'e') ||
           (marked && letter->base == 'e' && strchr("aeo", before)) || letter->diaeresis ||
           (before == 'o' && letter->base == 'a') || cluster;
}

static void read_letter(struct french *f, const struct letter *letter, char next)
{
    bool marked = letter->bytes > 1, vowel = sounds(f, letter->base, next);
    bool mute_s = letter->base == 's' && !next && f->ends_mute;
    if (!letter->base)
        *f = (struct french){.count = f->count};
    bool begins = vowel && (!f->after_vowel || parts(f, letter, marked));
    f->count += begins;
    f->in_part += begins;
    f->ends_mute = mute_s || (begins && letter->base == 'e' && !marked && !f->after_vowel);
    f->after_vowel = vowel;
    f->before_marked = marked;
    memmove(f->before + 1, f->before, BEFORE_MOST - 1);
    f->before[0] = letter->base;
}

/* A last e or es is silent beside another vowel of its part; -ent is taken as heard. */
size_t readability_french_syllables(const char *word, size_t bytes)
{
    struct french f = {0};
    for (size_t i = 0; i < bytes;) {
        struct letter letter = letter_of(word + i, bytes - i);
        i += letter.bytes;
        read_letter(&f, &letter, letter_at(word, bytes, i));
    }
    f.count -= f.ends_mute && f.in_part > 1;
    return f.count > 0 ? f.count : 1;
}

/* ---- counting ------------------------------------------------------------------------------ */

/* Bytes of the word that begins here, 0 where none does. */
static size_t word_at(const char *text)
{
    size_t bytes = 0, end = strlen(text);
    while (bytes < end) {
        struct letter letter = letter_of(text + bytes, end - bytes);
        bool inner = bytes > 0 && (text[bytes] == '\'' || text[bytes] == '-') &&
                     letter_of(text + bytes + 1, end - bytes - 1).base;
        if (!letter.base && !inner)
            break;
        bytes += letter.bytes;
    }
    return bytes;
}

static bool ends_sentence(const char *text, const char *at)
{
    if (*at == '\n' || *at == '!' || *at == '?' || *at == ':')
        return true;
    bool number = at > text && isdigit((unsigned char)at[-1]) && isdigit((unsigned char)at[1]);
    return *at == '.' && !number;
}

struct text_counts readability_count(const char *text, syllable_counter *count)
{
    struct text_counts counts = {0};
    bool open = false;
    for (const char *at = text; *at;) {
        size_t bytes = word_at(at);
        if (bytes > 0) {
            counts.words++;
            counts.syllables += count(at, bytes);
            open = true;
            at += bytes;
            continue;
        }
        if (open && ends_sentence(text, at)) {
            counts.sentences++;
            open = false;
        }
        at += letter_of(at, strlen(at)).bytes;
    }
    counts.sentences += open;
    return counts;
}

/* ---- formulas ---------------------------------------------------------------------------------
 */

static double score(const struct text_counts *c, double start, double a_sentence, double a_word)
{
    if (c->words == 0 || c->sentences == 0)
        return 0;
    return start + a_sentence * (double)c->words / (double)c->sentences +
           a_word * (double)c->syllables / (double)c->words;
}

double readability_flesch_kincaid_grade(const struct text_counts *counts)
{
    return score(counts, -15.59, 0.39, 11.8);
}

double readability_szigriszt(const struct text_counts *counts)
{
    return score(counts, 206.835, -1, -62.3);
}

double readability_kandel_moles(const struct text_counts *counts)
{
    return score(counts, 207, -1.015, -73.6);
}

/* ---- which formula a language names ----------------------------------------------------------
 */

const struct choice reading_ease_choices[] = {
    {"none", READING_NONE, "no formula is known for this language"},
    {"flesch-kincaid", READING_FLESCH_KINCAID,
     "English: a grade, at most 6, a section 8, longer texts 3"},
    {"szigriszt", READING_SZIGRISZT, "Spanish: perspicuity, at least 65"},
    {"kandel-moles", READING_KANDEL_MOLES, "French: ease, at least 70"},
    {0}};

const struct reading_formula *readability_formula(int reading_ease)
{
    static const struct reading_formula formulas[] = {
        [READING_FLESCH_KINCAID] = {"en", readability_english_syllables,
                                    readability_flesch_kincaid_grade, true, 6, 8, 3},
        [READING_SZIGRISZT] = {"es", readability_spanish_syllables, readability_szigriszt, false,
                               65, 0, 0},
        [READING_KANDEL_MOLES] = {"fr", readability_french_syllables, readability_kandel_moles,
                                  false, 70, 0, 0},
    };
    return reading_ease == READING_NONE ? NULL : &formulas[reading_ease];
}
