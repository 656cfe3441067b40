/* Finds the form of a short word that the next one asks for. */
#include "words/sound.h"

#include <ctype.h>
#include <string.h>

#include "records/table.h"

static const struct field sound_fields[] = {
    ROW(TEXT, sound, becomes, "becomes", .required = true, .help = "what it becomes",
        .example = "e"),
    ROW(TEXTS, sound, before, "before", .required = true, .most = 16,
        .help = "how the next word begins, in small letters"),
    ROW(TEXTS, sound, but, "but", .most = 16, .help = "beginnings before which it stays"),
};
const struct schema sound_schema =
    SCHEMA(sound, sound_fields, "sound", "A word that changes before a sound, by the word.");

/* A capital is the same sound; one with an accent has a row of its own. */
static bool begins_with(const char *text, const struct text_value *start)
{
    size_t i = 0;
    while (start->text[i] && tolower((unsigned char)text[i]) == (unsigned char)start->text[i])
        i++;
    return start->text[i] == '\0';
}

static bool begins_with_one(const char *text, const struct list *starts)
{
    for (size_t i = 0; i < starts->count; i++)
        if (begins_with(text, LIST_AT(*starts, struct text_value, i)))
            return true;
    return false;
}

const char *sound_joined(const struct language *language, const char *text, const char *next,
                         struct arena *arena)
{
    const size_t length = strlen(text), next_length = strlen(next);
    for (size_t i = 0; i < language->sounds.count; i++) {
        const struct sound *sound = LIST_AT(language->sounds, struct sound, i);
        const char *word = arena_format(arena, " %s %s", sound->name.text, next);
        const size_t word_length = strlen(word);
        if (length < word_length || strcmp(text + length - word_length, word) != 0 ||
            !begins_with_one(next, &sound->before) || begins_with_one(next, &sound->but))
            continue;
        return arena_format(arena, "%.*s %s %s", (int)(length - word_length), text,
                            sound->becomes.text, text + length - next_length);
    }
    return text;
}
