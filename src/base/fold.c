/* Folding letters, and names out of them. */
#include "base/fold.h"

#include <ctype.h>
#include <string.h>

#include "base/utf8.h"

enum { FIRST_LETTER = 0xC0, FIRST_MARK = 0x300, LAST_MARK = 0x36F };

/* From U+00C0 on; "" stays as it is. */
static const char letters[][3] = {
    "a", "a", "a",  "a",  "a", "a", "ae", "c",  "e",  "e", "e", "e", "i",  "i",  "i", "i", "d", "n",
    "o", "o", "o",  "o",  "o", "",  "o",  "u",  "u",  "u", "u", "y", "th", "ss", "a", "a", "a", "a",
    "a", "a", "ae", "c",  "e", "e", "e",  "e",  "i",  "i", "i", "i", "d",  "n",  "o", "o", "o", "o",
    "o", "",  "o",  "u",  "u", "u", "u",  "y",  "th", "y", "a", "a", "a",  "a",  "a", "a", "c", "c",
    "c", "c", "c",  "c",  "c", "c", "d",  "d",  "d",  "d", "e", "e", "e",  "e",  "e", "e", "e", "e",
    "e", "e", "g",  "g",  "g", "g", "g",  "g",  "g",  "g", "h", "h", "h",  "h",  "i", "i", "i", "i",
    "i", "i", "i",  "i",  "i", "i", "ij", "ij", "j",  "j", "k", "k", "k",  "l",  "l", "l", "l", "l",
    "l", "l", "l",  "l",  "l", "n", "n",  "n",  "n",  "n", "n", "n", "n",  "n",  "o", "o", "o", "o",
    "o", "o", "oe", "oe", "r", "r", "r",  "r",  "r",  "r", "s", "s", "s",  "s",  "s", "s", "s", "s",
    "t", "t", "t",  "t",  "t", "t", "u",  "u",  "u",  "u", "u", "u", "u",  "u",  "u", "u", "u", "u",
    "w", "w", "y",  "y",  "y", "z", "z",  "z",  "z",  "z", "z", "s",
};

enum { LETTER_COUNT = sizeof letters / sizeof *letters };

const char *fold_text(const char *text, struct arena *arena)
{
    size_t length = strlen(text), filled = 0;
    char *out = arena_take(arena, length + 1); /* no letter grows: two stand for two bytes */
    for (size_t at = 0; at < length;) {
        size_t begin = at;
        int c = (unsigned char)text[at] < 0x80 ? text[at++] : utf8_next(text, length, &at);
        int letter = c - FIRST_LETTER;
        if (c >= 'A' && c <= 'Z')
            out[filled++] = (char)(c - 'A' + 'a');
        else if (letter >= 0 && letter < LETTER_COUNT && *letters[letter])
            for (const char *l = letters[letter]; *l; l++)
                out[filled++] = *l;
        else if (c < FIRST_MARK || c > LAST_MARK)
            while (begin < at)
                out[filled++] = text[begin++];
    }
    return out;
}

const char *fold_slug(const char *text, size_t most, struct arena *arena)
{
    const char *folded = fold_text(text, arena);
    char *out = arena_take(arena, strlen(folded) + 1);
    size_t length = 0;
    for (const char *c = folded; *c && length < most; c++)
        if ((unsigned char)*c < 0x80 && isalnum((unsigned char)*c))
            out[length++] = *c;
        else if (length && out[length - 1] != '-')
            out[length++] = '-';
    while (length && out[length - 1] == '-')
        length--;
    out[length] = '\0';
    return out;
}
