/* Reading UTF-8 one code point at a time. */
#ifndef BASKLEAF_BASE_UTF8_H
#define BASKLEAF_BASE_UTF8_H

#include <stddef.h>

enum { UTF8_INVALID = -1 };

/* The code point at text[*at] and moves *at behind it; *at must be below `length`. Bytes
 * that are no well-formed UTF-8 (The Unicode Standard, table 3-7) give UTF8_INVALID and
 * move by one byte. */
int utf8_next(const char *text, size_t length, size_t *at);

#endif
