/* A string that grows inside an arena.
 *
 * Invariants: `text` is never NULL after init and always ends in NUL at
 * `text[length]`; it may move while growing, so do not keep pointers into it.
 */
#ifndef BASKLEAF_BASE_STRBUF_H
#define BASKLEAF_BASE_STRBUF_H

#include <stddef.h>

#include "base/arena.h"

struct strbuf {
    struct arena *arena; /* borrowed; holds the bytes */
    char *text;
    size_t length; /* bytes, without the NUL */
    size_t capacity;
};

void strbuf_init(struct strbuf *buf, struct arena *arena);
void strbuf_clear(struct strbuf *buf);
void strbuf_add(struct strbuf *buf, const char *text);
void strbuf_add_bytes(struct strbuf *buf, const char *bytes, size_t length);
void strbuf_add_char(struct strbuf *buf, char c);
void strbuf_add_number(struct strbuf *buf, size_t number);
void strbuf_addf(struct strbuf *buf, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
