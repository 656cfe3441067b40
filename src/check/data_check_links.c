/* Do the longer texts of a language keep their links, or are they cut into short sentences? */
#include <string.h>

#include "check/data_check.h"
#include "words/agreement.h"
#include "words/readability.h"

enum {
    LONG_WORDS =
        12, /* fewer are one thought, a row or a label, and may stay as short as they are */
    POOL_WORDS = 100 /* fewer in a file say nothing about it */
};

/* The longer texts of one file together. */
struct pool {
    const struct data_check *check;
    const struct wording *words;
    const struct reading_formula *formula;
    const char *file;
    struct text_counts counts;
};

static void judge_pool(const struct pool *pool)
{
    if (!pool->file || pool->counts.words < POOL_WORDS)
        return;
    const char *name = strrchr(pool->file, '/');
    double value = pool->formula->score(&pool->counts);
    strbuf_addf(pool->check->out, "  %-16s %-5s %5.1f\n", name ? name + 1 : pool->file,
                pool->words->lang, value);
    if (value < pool->formula->long_floor)
        diag_report(pool->check->diag, DIAG_ERROR, "cut-short", (struct mark){.file = pool->file},
                    "the longer texts are cut into short sentences in '%s' (%.1f, at least %.0f): "
                    "join what belongs together",
                    pool->words->lang, value, pool->formula->long_floor);
}

/* What stands in a slot is not known here: it counts as a number does, as no word. Of a word that
 * agrees with the patient's sex the longer form counts. */
static const char *counted(const struct pool *pool, const struct wording_piece *piece)
{
    const char *form =
        piece->is_slot ? agreement_longest(pool->words->language, piece->text) : piece->text;
    return form ? form : "0";
}

static void add_phrase(struct pool *pool, const struct wording_phrase *phrase)
{
    struct strbuf text;
    strbuf_init(&text, pool->check->arena);
    for (size_t i = 0; i < phrase->count; i++)
        strbuf_add(&text, counted(pool, &phrase->pieces[i]));
    size_t length = strlen(text.text);
    if (length == 0 || !strchr(".!?", text.text[length - 1]))
        return; /* a part of a line */
    struct text_counts counts = readability_count(text.text, pool->formula->syllables);
    if (counts.words < LONG_WORDS)
        return;
    pool->counts.words += counts.words;
    pool->counts.sentences += counts.sentences;
    pool->counts.syllables += counts.syllables;
}

/* The desk's words are for the clinic, and many are remarks of one line. */
static bool is_for_the_clinic(const char *key)
{
    return strncmp(key, "desk.", 5) == 0 || strncmp(key, "review.", 7) == 0;
}

static void add_entry(struct pool *pool, const struct wording_entry *entry)
{
    if (is_for_the_clinic(entry->key))
        return;
    for (size_t i = 0; i < entry->count; i++) {
        const struct wording_form *form = &entry->alternatives[i];
        for (size_t k = 0; k < (form->count_by ? PLURAL_COUNT : 1); k++)
            add_phrase(pool, &form->forms[k]);
    }
}

/* Files stand one after the other in the entries. */
static void judge_language(const struct data_check *p, const struct wording *words)
{
    struct pool pool = {
        p, words, readability_formula(words->language->reading_ease.value), NULL, {0}};
    if (!pool.formula || pool.formula->long_floor <= 0)
        return;
    strbuf_addf(p->out, "longer texts of '%s': reading ease by file (%s)\n", words->lang,
                bind_choice_word(reading_ease_choices, words->language->reading_ease.value));
    for (size_t i = 0; i < words->count; i++) {
        const char *file = words->entries[i].at.file;
        if (!pool.file || strcmp(pool.file, file) != 0) {
            judge_pool(&pool);
            pool.file = file;
            pool.counts = (struct text_counts){0};
        }
        add_entry(&pool, &words->entries[i]);
    }
    judge_pool(&pool);
}

void data_check_links(const struct data_check *p)
{
    for (size_t i = 0; i < p->language_count; i++)
        judge_language(p, p->words[i]);
}
