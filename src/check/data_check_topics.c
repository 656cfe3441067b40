/* A text that speaks of a topic declares it: by each language's list of words (topic-words.TOPIC),
 * a * at a word's end standing for any ending, … for any slot. */
#include <ctype.h>
#include <stdint.h>
#include <string.h>

#include "base/strbuf.h"
#include "check/data_check.h"

/* What a keeper is told to do; other texts may speak of anything. */
static bool is_title(const char *key)
{
    static const char title[] = ".title";
    size_t length = strlen(key);
    return length >= sizeof title && strcmp(key + length - (sizeof title - 1), title) == 0;
}

static bool tells_the_keeper(const char *key)
{
    static const struct {
        const char *family, *part;
    } rows[] = {{"action.", NULL},       {"finding.", ".home"},    {"procedure.", ".care"},
                {"caution.", NULL},      {"stance.", NULL},        {"sheet.first-weeks.", NULL},
                {"sheet.set-up.", NULL}, {"sheet.feeding.", NULL}, {"sheet.feeding-how.", NULL}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows && !is_title(key); i++)
        if (strncmp(key, rows[i].family, strlen(rows[i].family)) == 0 &&
            (!rows[i].part || strstr(key, rows[i].part)))
            return true;
    return false;
}

/* ---- the text as it is looked at ----------------------------------------------------------------
 */

static void add_phrase(struct strbuf *text, const struct wording_phrase *phrase)
{
    for (size_t i = 0; i < phrase->count; i++) {
        if (phrase->pieces[i].is_slot) {
            strbuf_add(text, "…");
            continue;
        }
        for (const char *c = phrase->pieces[i].text; *c; c++)
            strbuf_add_char(text, (char)tolower((unsigned char)*c));
    }
    strbuf_add_char(text, '\n');
}

static const char *whole_text(const struct wording_entry *entry, struct arena *arena)
{
    struct strbuf text;
    strbuf_init(&text, arena);
    for (size_t i = 0; i < entry->count; i++) {
        const struct wording_form *form = &entry->alternatives[i];
        for (int k = 0; k < (form->count_by ? PLURAL_COUNT : 1); k++)
            add_phrase(&text, &form->forms[k]);
    }
    return text.text;
}

static bool is_letter(char c)
{
    return isalnum((unsigned char)c) || (unsigned char)c >= 0x80;
}

/* Does the text hold the word, as a whole word unless a * ends it? */
static bool holds(const char *text, const char *word)
{
    size_t length = strlen(word);
    bool open = length && word[length - 1] == '*';
    length -= open;
    for (const char *at = text; *at; at++) {
        bool begins = strncmp(at, word, length) == 0;
        if (begins && (at == text || !is_letter(at[-1])) && (open || !is_letter(at[length])))
            return true;
    }
    return false;
}

/* ---- declared or not
 * ------------------------------------------------------------------------------ */

/* heat stands for heat.source and the other parts too. */
static bool is_of_topic(const char *declared, const char *topic)
{
    size_t length = strlen(topic);
    return declared && strncmp(declared, topic, length) == 0 &&
           (!declared[length] || declared[length] == '.');
}

static bool declares(const struct instruction *one, const char *topic)
{
    if (is_of_topic(one->topic.text, topic))
        return true;
    for (size_t i = 0; i < one->topics.count; i++)
        if (is_of_topic(LIST_AT(one->topics, struct instruction_topic, i)->name.text, topic))
            return true;
    return false;
}

static bool stands_for(const struct instruction *one, const char *key)
{
    for (size_t i = 0; i < one->variants.count; i++) {
        const char *variant = LIST_AT(one->variants, struct instruction_variant, i)->key.text;
        size_t length = strlen(variant);
        if (strncmp(key, variant, length) == 0 && (!key[length] || key[length] == '.'))
            return true;
    }
    return false;
}

/* By its own row, by a row above it (action.X covers action.X.how), or as some row's variant. */
static bool is_declared(const struct instruction_catalogue *book, const char *key,
                        const char *topic)
{
    for (size_t i = 0; i < book->instructions.count; i++) {
        const struct instruction *one = LIST_AT(book->instructions, struct instruction, i);
        size_t length = strlen(one->code.text);
        bool own =
            strncmp(key, one->code.text, length) == 0 && (!key[length] || key[length] == '.');
        if ((own || stands_for(one, key)) && declares(one, topic))
            return true;
    }
    return false;
}

/* The word of the topic's list that the text holds; NULL for none. */
static const char *spoken_word(const struct wording_entry *list, const char *text,
                               struct arena *arena)
{
    for (size_t i = 0; i < list->count; i++) {
        struct strbuf word;
        strbuf_init(&word, arena);
        add_phrase(&word, &list->alternatives[i].forms[0]);
        word.text[word.length - 1] = '\0';
        if (holds(text, word.text))
            return word.text;
    }
    return NULL;
}

static void check_entry(const struct data_check *p, const struct wording *words,
                        const struct wording_entry *entry)
{
    static const char prefix[] = "topic-words.";
    const char *text = whole_text(entry, p->arena);
    for (size_t i = 0; i < words->count; i++) {
        const struct wording_entry *list = &words->entries[i];
        if (strncmp(list->key, prefix, sizeof prefix - 1) != 0)
            continue;
        const char *topic = list->key + sizeof prefix - 1;
        const char *word = spoken_word(list, text, p->arena);
        if (word && !is_declared(p->resources->instructions, entry->key, topic))
            diag_report(p->diag, DIAG_ERROR, "undeclared-topic", entry->at,
                        "'%s' speaks of the topic '%s' (\"%s\") without declaring it in "
                        "instructions.yaml",
                        entry->key, topic, word);
    }
}

void data_check_topics(const struct data_check *check)
{
    for (size_t i = 0; i < check->language_count; i++)
        for (size_t k = 0; k < check->words[i]->count; k++)
            if (tells_the_keeper(check->words[i]->entries[k].key))
                check_entry(check, check->words[i], &check->words[i]->entries[k]);
}
