/* FNV-1a of 32 bits: quick, and the same on every machine. For tables in memory. */
#ifndef BASKLEAF_BASE_HASH_H
#define BASKLEAF_BASE_HASH_H

#include <stdint.h>

#define HASH_START UINT32_C(0x811c9dc5)

/* Continues `hash` over a text. */
static inline uint32_t hash_text(uint32_t hash, const char *text)
{
    for (; *text; text++)
        hash = (hash ^ (unsigned char)*text) * UINT32_C(0x01000193);
    return hash;
}

#endif
