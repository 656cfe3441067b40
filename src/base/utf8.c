/* Decodes one code point, by the table of well-formed sequences of the Unicode Standard (3-7). */
#include "base/utf8.h"

#include <string.h>

#include <stdint.h>

/* One row a form of table 3-7: the lead bytes, the range of the second byte, the length. */
static const struct {
    uint8_t lead_from, lead_to, second_from, second_to, length;
} forms[] = {
    {0xC2, 0xDF, 0x80, 0xBF, 2}, {0xE0, 0xE0, 0xA0, 0xBF, 3}, {0xE1, 0xEC, 0x80, 0xBF, 3},
    {0xED, 0xED, 0x80, 0x9F, 3}, {0xEE, 0xEF, 0x80, 0xBF, 3}, {0xF0, 0xF0, 0x90, 0xBF, 4},
    {0xF1, 0xF3, 0x80, 0xBF, 4}, {0xF4, 0xF4, 0x80, 0x8F, 4},
};

int utf8_next(const char *text, size_t length, size_t *at)
{
    const uint8_t *bytes = (const uint8_t *)text + *at;
    size_t left = length - *at;
    *at += 1;
    if (bytes[0] < 0x80)
        return bytes[0];
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++) {
        if (bytes[0] < forms[i].lead_from || bytes[0] > forms[i].lead_to)
            continue;
        if (left < forms[i].length || bytes[1] < forms[i].second_from ||
            bytes[1] > forms[i].second_to)
            return UTF8_INVALID;
        int code_point = bytes[0] & (0x7F >> forms[i].length);
        for (size_t k = 1; k < forms[i].length; k++) {
            if (!utf8_goes_on(text[*at - 1 + k]))
                return UTF8_INVALID;
            code_point = code_point << 6 | (bytes[k] & 0x3F);
        }
        *at += forms[i].length - 1u;
        return code_point;
    }
    return UTF8_INVALID;
}

bool utf8_is_valid(const char *text, size_t length)
{
    for (size_t at = 0; at < length;)
        if (utf8_next(text, length, &at) == UTF8_INVALID)
            return false;
    return true;
}

size_t utf8_count(const char *text, size_t length)
{
    size_t count = 0;
    for (size_t i = 0; i < length; i++)
        count += !utf8_goes_on(text[i]);
    return count;
}

/* White_Space and the invisible among Default_Ignorable_Code_Point (Unicode, PropList.txt and
 * DerivedCoreProperties.txt), as UTF-8. */
static const char *const invisible[] =
    {
        "\t",           "\n",           "\v",
        "\f",           "\r",           " ",
        "\xC2\x85",                     /* next line */
        "\xC2\xA0",                     /* no-break space */
        "\xC2\xAD",                     /* soft hyphen */
        "\xCD\x8F",                     /* combining grapheme joiner */
        "\xE1\x85\x9F", "\xE1\x85\xA0", /* Hangul fillers, U+115F and 1160 */
        "\xE1\x9A\x80",                 /* ogham space */
        "\xE1\xA0\x8E",                 /* Mongolian vowel separator */
        "\xE2\x80\x80", "\xE2\x80\x81", "\xE2\x80\x82",
        "\xE2\x80\x83", "\xE2\x80\x84", "\xE2\x80\x85",
        "\xE2\x80\x86", "\xE2\x80\x87", "\xE2\x80\x88",
        "\xE2\x80\x89", "\xE2\x80\x8A", /* U+2000 to 200A: spaces of many widths */
        "\xE2\x80\x8B", "\xE2\x80\x8C", "\xE2\x80\x8D",
        "\xE2\x80\x8E", "\xE2\x80\x8F", /* U+200B to 200F: no width, direction */
        "\xE2\x80\xA8", "\xE2\x80\xA9", /* ends of line and paragraph */
        "\xE2\x80\xAF", "\xE2\x81\x9F", /* narrow spaces */
        "\xE2\x81\xA0", "\xE2\x81\xA1", "\xE2\x81\xA2",
        "\xE2\x81\xA3", "\xE2\x81\xA4", /* U+2060 to 2064: joiners */
        "\xE2\xA0\x80",                 /* braille without a dot, which shows nothing */
        "\xE3\x80\x80",                 /* ideographic space */
        "\xE3\x85\xA4",                 /* Hangul filler */
        "\xEF\xBE\xA0",                 /* half-width Hangul filler */
        "\xEF\xBB\xBF",                 /* zero width no-break space */
};

static size_t invisible_length(const char *text)
{
    for (size_t i = 0; i < sizeof invisible / sizeof *invisible; i++) {
        size_t length = strlen(invisible[i]);
        if (strncmp(text, invisible[i], length) == 0)
            return length;
    }
    return 0;
}

bool utf8_is_blank(const char *text)
{
    size_t length;
    if (*text > ' ' && *text <= '~') /* as nearly all begin */
        return false;
    while (*text && (length = invisible_length(text)) > 0)
        text += length;
    return !*text;
}

/* The blocks of Hebrew, Arabic and their neighbours, with their presentation forms. */
static bool is_from_right(int code_point)
{
    return (code_point >= 0x0590 && code_point <= 0x08FF) ||
           (code_point >= 0xFB1D && code_point <= 0xFDFF) ||
           (code_point >= 0xFE70 && code_point <= 0xFEFC) ||
           (code_point >= 0x10800 && code_point <= 0x10FFF) ||
           (code_point >= 0x1E800 && code_point <= 0x1EFFF);
}

const char *utf8_set_apart(const char *text, struct arena *arena)
{
    static const char first_strong[] = "\u2068", end[] = "\u2069";
    size_t length = text ? strlen(text) : 0;
    for (size_t at = 0; at < length;)
        if (is_from_right(utf8_next(text, length, &at)))
            return arena_format(arena, "%s%s%s", first_strong, text, end);
    return text;
}
