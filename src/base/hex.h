/* Bytes as hexadecimal digits, and digits as what they stand for. */
#ifndef BASKLEAF_BASE_HEX_H
#define BASKLEAF_BASE_HEX_H

#include <stddef.h>

#define HEX_SMALL "0123456789abcdef"
#define HEX_CAPITAL "0123456789ABCDEF"

/* Two digits a byte, high half first, and a NUL: `out` takes 2 * count + 1. */
static inline void hex_write(char *out, const void *bytes, size_t count, const char *digits)
{
    const unsigned char *byte = bytes;
    for (size_t i = 0; i < count; i++) {
        out[2 * i] = digits[byte[i] >> 4];
        out[2 * i + 1] = digits[byte[i] & 15];
    }
    out[2 * count] = '\0';
}

/* 0 to 15, or -1 for what is no digit. */
static inline int hex_value(char c)
{
    return c >= '0' && c <= '9'   ? c - '0'
           : c >= 'a' && c <= 'f' ? c - 'a' + 10
           : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                  : -1;
}

#endif
