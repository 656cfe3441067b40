/* Finds short forms where they stand as whole words. */
#include "pdf/short_forms.h"

#include <string.h>

#define NO_BREAK_SPACE "\u00A0"

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
    if (at == text || is_behind_no_break(text, at))
        return true;
    char before = at[-1];
    return !is_ascii_letter(before) && !is_digit(before) && (unsigned char)before < 0x80;
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

static bool is_in_place(const struct short_form *form, const char *text, const char *at,
                        size_t length)
{
    size_t number_length = 0;
    const char *number;
    switch (form->place) {
    case SHORT_BEHIND_NUMBER:
        number = word_before(text, at, &number_length);
        return number && number_length > 0 && is_digit(*number);
    case SHORT_BEFORE_NUMBER:
        return is_digit(at[length + space_at(at + length)]);
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

bool short_forms_next(const struct document *document, const char *text, const char *from,
                      struct short_form_found *out)
{
    for (const char *at = from; *at; at++) {
        if (!begins_word(text, at))
            continue;
        for (size_t i = 0; i < document->short_form_count; i++) {
            const struct short_form *form = &document->short_forms[i];
            size_t length = strlen(form->text);
            if (*at != *form->text || strncmp(at, form->text, length) != 0 ||
                !ends_word(at + length) || !is_in_place(form, text, at, length))
                continue;
            *out = (struct short_form_found){at, length, meaning(form, text, at)};
            return true;
        }
    }
    return false;
}
