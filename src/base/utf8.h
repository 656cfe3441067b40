/* Reading UTF-8 one code point at a time. */
#ifndef BASKLEAF_BASE_UTF8_H
#define BASKLEAF_BASE_UTF8_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

enum { UTF8_INVALID = -1 };

/* The code point at text[*at] and moves *at behind it; *at must be below `length`. Bytes
 * that are no well-formed UTF-8 (The Unicode Standard, table 3-7) give UTF8_INVALID and
 * move by one byte. */
int utf8_next(const char *text, size_t length, size_t *at);

/* Is all of it well-formed? */
bool utf8_is_valid(const char *text, size_t length);

/* Does a character go on with this byte, rather than begin? */
static inline bool utf8_goes_on(char byte)
{
    return ((unsigned char)byte & 0xC0) == 0x80;
}

/* How many characters begin in it. */
size_t utf8_count(const char *text, size_t length);
/* Nothing that can be seen: no character at all, or white space and characters without width alone.
 */
bool utf8_is_blank(const char *text);

/* A text with letters from right to left between the marks that keep its direction to itself
 * (Unicode Standard Annex 9, 2.4: isolates), so that what stands beside it keeps its own; any other
 * text as it is. */
const char *utf8_set_apart(const char *text, struct arena *arena);

#endif
