/* FNV-1a of 64 bits: quick, and the same on every machine. For tables in memory and names that
 * follow from a content; where somebody may wish to deceive, SHA-256 is taken. */
#ifndef BASKLEAF_BASE_HASH_H
#define BASKLEAF_BASE_HASH_H

#include <stddef.h>
#include <stdint.h>

#define HASH_START UINT64_C(0xcbf29ce484222325)
#define HASH_PRIME UINT64_C(0x100000001b3)

/* Continues `hash` over bytes. */
static inline uint64_t hash_bytes(uint64_t hash, const void *bytes, size_t count)
{
    const unsigned char *byte = bytes;
    for (size_t i = 0; i < count; i++)
        hash = (hash ^ byte[i]) * HASH_PRIME;
    return hash;
}

/* Continues `hash` over a text. */
static inline uint64_t hash_text(uint64_t hash, const char *text)
{
    for (; *text; text++)
        hash = (hash ^ (unsigned char)*text) * HASH_PRIME;
    return hash;
}

#endif
