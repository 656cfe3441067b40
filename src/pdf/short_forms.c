/* Finds short forms where they stand as whole words. */
#include "pdf/short_forms.h"

#include <string.h>

#define NO_BREAK_SPACE "\u00A0"
#define EN_DASH "\u2013"

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_ascii_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* The length of a space that begins at `at`; 0 for none. */
static size_t space_at(const char *at)
{
    size_t wide = strlen(NO_BREAK_SPACE);
    return *at == ' ' ? 1 : strncmp(at, NO_BREAK_SPACE, wide) == 0 ? wide : 0;
}

static bool is_behind_no_break(const char *text, const char *at)
{
    size_t wide = strlen(NO_BREAK_SPACE);
    return (size_t)(at - text) >= wide && strncmp(at - wide, NO_BREAK_SPACE, wide) == 0;
}

/* Dashes, quotes and bullets of the block U+2000 and the no-break space are no letters. */
static bool ends_word(const char *at)
{
    bool is_letter = is_ascii_letter(*at) || is_digit(*at) || (unsigned char)*at >= 0x80;
    return !is_letter || space_at(at) > 0 || strncmp(at, "\xe2\x80", 2) == 0;
}

static bool begins_word(const char *text, const char *at)
{
    if (at == text)
        return true;
    char before = at[-1];
    if ((unsigned char)before >= 0x80)
        return is_behind_no_break(text, at);
    return !is_ascii_letter(before) && !is_digit(before);
}

/* The word before the no-break space, "10–14" or "1er"; NULL where none ends there. */
static const char *word_before(const char *text, const char *at, size_t *length)
{
    if (!is_behind_no_break(text, at))
        return NULL;
    const char *end = at - strlen(NO_BREAK_SPACE), *begin = end;
    while (begin > text && begin[-1] != ' ' && begin[-1] != '(' && !is_behind_no_break(text, begin))
        begin--;
    *length = (size_t)(end - begin);
    return begin;
}

/* "14", "10–14", "1er"; of "4 lb–4 lb" the word before the second lb is "lb–4". */
static bool is_behind_number(const char *text, const char *at)
{
    size_t length = 0;
    const char *number = word_before(text, at, &length);
    if (!number || length == 0)
        return false;
    const char *dash = memmem(number, length, EN_DASH, strlen(EN_DASH));
    return is_digit(*number) || (dash && is_digit(dash[strlen(EN_DASH)]));
}

/* "by", "el", "le": a word of two letters before this one. */
static bool is_behind_two_letters(const char *text, const char *at)
{
    return at - text >= 3 && at[-1] == ' ' && is_ascii_letter(at[-2]) && is_ascii_letter(at[-3]) &&
           (at - text == 3 || at[-4] == ' ');
}

/* At the end of a line the number stands on the next: of many dates, and of "by Tue". */
static bool is_before_number(const char *text, const char *at, const char *behind)
{
    const char *next = behind + space_at(behind);
    bool is_listed = at - text >= 2 && strncmp(at - 2, ", ", 2) == 0;
    return is_digit(*next) || (*next == '\0' && (is_listed || is_behind_two_letters(text, at)));
}

/* "Mon" in "Mon to Fri 8:00": a word, and another that stands before a number. */
static bool is_before_another(const struct document *document, const char *behind)
{
    const char *word = behind + space_at(behind), *end = word;
    while (*end && space_at(end) == 0)
        end++;
    const char *next = end + space_at(end);
    if (word == behind || next == end)
        return false;
    for (size_t i = 0; i < document->short_form_count; i++) {
        const struct short_form *form = &document->short_forms[i];
        size_t length = strlen(form->text);
        if (form->place == SHORT_BEFORE_NUMBER && strncmp(next, form->text, length) == 0 &&
            ends_word(next + length) && is_digit(next[length + space_at(next + length)]))
            return true;
    }
    return false;
}

static bool is_in_place(const struct document *document, const struct short_form *form,
                        const char *text, const char *at)
{
    const char *behind = at + strlen(form->text);
    switch (form->place) {
    case SHORT_BEHIND_NUMBER:
        /* a degree sign means nothing else, before a line to write on too */
        return is_behind_number(text, at) || (unsigned char)*at >= 0x80;
    case SHORT_BEFORE_NUMBER:
        return is_before_number(text, at, behind) || is_before_another(document, behind);
    default:
        return true;
    }
}

static const char *meaning(const struct short_form *form, const char *text, const char *at)
{
    size_t length = 0;
    const char *number = form->means_one ? word_before(text, at, &length) : NULL;
    return number && length == 1 && *number == '1' ? form->means_one : form->means;
}

/* Some bytes share one. */
static uint64_t bit_of(char c)
{
    return UINT64_C(1) << ((unsigned char)c & 63);
}

struct short_forms short_forms_of(const struct document *document)
{
    struct short_forms forms = {.document = document};
    for (size_t i = document->short_form_count; i-- > 0;) {
        const char *text = document->short_forms[i].text;
        forms.first[(unsigned char)*text] = i + 1;
        forms.second[(unsigned char)*text] |= text[1] ? bit_of(text[1]) : UINT64_MAX;
    }
    return forms;
}

/* The next form behind this one that begins so; the number of all where none does. */
static size_t next_form(const struct document *document, size_t from, char c)
{
    size_t i = from + 1;
    while (i < document->short_form_count && *document->short_forms[i].text != c)
        i++;
    return i;
}

bool short_forms_next(const struct short_forms *forms, const char *text, const char *from,
                      struct short_form_found *out)
{
    const struct document *document = forms->document;
    for (const char *at = from; *at; at++) {
        const size_t first = forms->first[(unsigned char)*at];
        if (first == 0 || !(forms->second[(unsigned char)*at] & bit_of(at[1])) ||
            !begins_word(text, at))
            continue;
        for (size_t i = first - 1; i < document->short_form_count;
             i = next_form(document, i, *at)) {
            const struct short_form *form = &document->short_forms[i];
            size_t length = strlen(form->text);
            if (strncmp(at, form->text, length) != 0 || !ends_word(at + length) ||
                !is_in_place(document, form, text, at))
                continue;
            *out = (struct short_form_found){at, length, meaning(form, text, at)};
            return true;
        }
    }
    return false;
}
