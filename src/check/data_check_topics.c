/* A text that speaks of a topic declares it: by each language's list of words (topic-words.TOPIC),
 * a * at a word's end standing for any ending, … for any slot. */
#include <ctype.h>
#include <stdint.h>
#include <string.h>

#include "base/strbuf.h"
#include "check/data_check.h"
#include "words/agreement.h"

/* What a keeper is told to do, to watch or not to mind; other texts may speak of anything. */
static bool tells_the_keeper(const char *key)
{
    static const struct {
        const char *family, *part;
    } rows[] = {{"action.", NULL},
                {"finding.", ".home"},
                {"procedure.", ".care"},
                {"caution.", NULL},
                {"stance.", NULL},
                {"sign.", NULL},
                {"normal.", NULL},
                {"law.", NULL},
                {"sheet.first-weeks.", NULL},
                {"sheet.setup.", NULL},
                {"sheet.feeding.", NULL},
                {"sheet.feeding-how.", NULL},
                {"sheet.feeding-change.", NULL},
                {"sheet.supplement.", NULL},
                {"sheet.winter-rest.", NULL},
                {"sheet.medicines.", NULL},
                {"sheet.temperature.", NULL},
                {"sheet.humidity.", NULL},
                {"sheet.light.", NULL},
                {"sheet.water.", NULL},
                {"sheet.follow-up.", NULL},
                {"sheet.go-now.", NULL},
                {"wall.way.", NULL},
                {"wall.food.", NULL},
                {"wall.caution.", NULL},
                {"wall.main.", NULL}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (strncmp(key, rows[i].family, strlen(rows[i].family)) == 0 &&
            (!rows[i].part || strstr(key, rows[i].part)))
            return true;
    return false;
}

/* Headings and single names may say a topic's word; what is called normal may not, for it says what
 * need not be done. */
static bool is_of_interest(const char *key)
{
    static const char normal[] = "normal.";
    return tells_the_keeper(key) &&
           (!data_check_describes(key) || strncmp(key, normal, sizeof normal - 1) == 0);
}

/* ---- the text as it is looked at ----------------------------------------------------------------
 */

/* A word that agrees with the patient's sex stands as of one whose sex is not known, which is how a
 * topic's words are written. */
static const char *look(const struct wording *words, const struct wording_piece *piece)
{
    const char *form =
        piece->is_slot ? agreement_form(words->language, piece->text, SEX_UNKNOWN) : piece->text;
    return form ? form : "…";
}

static void add_phrase(struct strbuf *text, const struct wording *words,
                       const struct wording_phrase *phrase)
{
    for (size_t i = 0; i < phrase->count; i++)
        for (const char *c = look(words, &phrase->pieces[i]); *c; c++)
            strbuf_add_char(text, (char)tolower((unsigned char)*c));
    strbuf_add_char(text, '\n');
}

static const char *whole_text(const struct wording *words, const struct wording_entry *entry,
                              struct arena *arena)
{
    struct strbuf text;
    strbuf_init(&text, arena);
    for (size_t i = 0; i < entry->count; i++) {
        const struct wording_form *form = &entry->alternatives[i];
        for (int k = 0; k < (form->count_by ? PLURAL_COUNT : 1); k++)
            add_phrase(&text, words, &form->forms[k]);
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

static bool any_is_of_topic(const struct list *topics, const char *topic)
{
    for (size_t i = 0; i < topics->count; i++)
        if (is_of_topic(LIST_AT(*topics, struct instruction_topic, i)->name.text, topic))
            return true;
    return false;
}

static bool lies_under(const char *key, const char *code)
{
    size_t length = strlen(code);
    return strncmp(key, code, length) == 0 && (!key[length] || key[length] == '.');
}

/* By its own row, by a row above it (action.X covers action.X.how), or as some row's variant. */
static bool row_declares(const struct instruction *one, const char *key, const char *topic)
{
    bool of_row = is_of_topic(one->topic.text, topic) || any_is_of_topic(&one->topics, topic);
    if (of_row && lies_under(key, one->code.text))
        return true;
    for (size_t i = 0; i < one->variants.count; i++) {
        const struct instruction_variant *variant =
            LIST_AT(one->variants, struct instruction_variant, i);
        if (lies_under(key, variant->key.text) &&
            (of_row || any_is_of_topic(&variant->topics, topic)))
            return true;
    }
    return false;
}

static bool is_declared(const struct instruction_catalogue *book, const char *key,
                        const char *topic)
{
    for (size_t i = 0; i < book->instructions.count; i++)
        if (row_declares(LIST_AT(book->instructions, struct instruction, i), key, topic))
            return true;
    return false;
}

/* The word of the topic's list that the text holds; NULL for none. */
static const char *spoken_word(const struct wording *words, const struct wording_entry *list,
                               const char *text, struct arena *arena)
{
    for (size_t i = 0; i < list->count; i++) {
        struct strbuf word;
        strbuf_init(&word, arena);
        add_phrase(&word, words, &list->alternatives[i].forms[0]);
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
    const char *text = whole_text(words, entry, p->arena);
    for (size_t i = 0; i < words->count; i++) {
        const struct wording_entry *list = &words->entries[i];
        if (strncmp(list->key, prefix, sizeof prefix - 1) != 0)
            continue;
        const char *topic = list->key + sizeof prefix - 1;
        const char *word = spoken_word(words, list, text, p->arena);
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
            if (is_of_interest(check->words[i]->entries[k].key))
                check_entry(check, check->words[i], &check->words[i]->entries[k]);
}
