/* Puts accents that were written apart together, by libunistring. */
#include "records/lettering.h"

#include <stdlib.h>
#include <string.h>
#include <uninorm.h>

const char *lettering_compose(const char *text, struct arena *arena)
{
    size_t length = strlen(text), composed_length = 0;
    bool is_ascii = true;
    for (size_t i = 0; i < length && is_ascii; i++)
        is_ascii = (unsigned char)text[i] < 0x80;
    if (is_ascii)
        return text;
    uint8_t *composed =
        u8_normalize(UNINORM_NFC, (const uint8_t *)text, length, NULL, &composed_length);
    if (!composed)
        support_out_of_memory();
    bool is_same = composed_length == length && memcmp(composed, text, length) == 0;
    const char *out =
        is_same ? text : arena_copy_bytes(arena, (const char *)composed, composed_length);
    free(composed);
    return out;
}
