/* Appends to a growing text; the buffer doubles, so that appending costs the same on average. */
#include "base/strbuf.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/plain_format.h"

void strbuf_init(struct strbuf *buf, struct arena *arena)
{
    *buf = (struct strbuf){.arena = arena, .text = arena_take_unset(arena, 64), .capacity = 64};
    buf->text[0] = '\0';
}

void strbuf_clear(struct strbuf *buf)
{
    buf->length = 0;
    buf->text[0] = '\0';
}

static void strbuf_reserve(struct strbuf *buf, size_t more)
{
    if (more >= SIZE_MAX / 4 - buf->length)
        support_out_of_memory();
    size_t needed = buf->length + more + 1;
    if (needed <= buf->capacity)
        return;
    size_t capacity = buf->capacity * 2;
    if (capacity < needed)
        capacity = needed;
    char *moved = arena_take_unset(buf->arena, capacity);
    memcpy(moved, buf->text, buf->length + 1);
    buf->text = moved;
    buf->capacity = capacity;
}

void strbuf_add_bytes(struct strbuf *buf, const char *bytes, size_t length)
{
    strbuf_reserve(buf, length);
    if (length)
        memcpy(buf->text + buf->length, bytes, length);
    buf->length += length;
    buf->text[buf->length] = '\0';
}

void strbuf_add(struct strbuf *buf, const char *text)
{
    strbuf_add_bytes(buf, text, strlen(text));
}

void strbuf_add_char(struct strbuf *buf, char c)
{
    strbuf_add_bytes(buf, &c, 1);
}

void strbuf_add_number(struct strbuf *buf, size_t number)
{
    char digits[24], *first = digits + sizeof digits;
    do
        *--first = (char)('0' + number % 10);
    while (number /= 10);
    strbuf_add_bytes(buf, first, (size_t)(digits + sizeof digits - first));
}

void strbuf_addf(struct strbuf *buf, const char *format, ...)
{
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    size_t room = buf->capacity - buf->length;
    const size_t plain = plain_format(buf->text + buf->length, room, format, args);
    if (plain < room) {
        buf->length += plain;
        buf->text[buf->length] = '\0';
        va_end(args);
        va_end(again);
        return;
    }
    int length = vsnprintf(buf->text + buf->length, room, format, args);
    va_end(args);
    if (length > 0 && (size_t)length >= room) {
        buf->text[buf->length] = '\0';
        strbuf_reserve(buf, (size_t)length);
        vsnprintf(buf->text + buf->length, (size_t)length + 1, format, again);
    }
    va_end(again);
    if (length > 0)
        buf->length += (size_t)length;
}
