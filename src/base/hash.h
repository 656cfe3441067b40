/* FNV-1a of 32 and of 64 bits: quick, and the same on every machine. For tables in memory. */
#ifndef BASKLEAF_BASE_HASH_H
#define BASKLEAF_BASE_HASH_H

#include <stddef.h>
#include <stdint.h>

#define HASH_START UINT32_C(0x811c9dc5)

/* Continues `hash` over a text. */
static inline uint32_t hash_text(uint32_t hash, const char *text)
{
    for (; *text; text++)
        hash = (hash ^ (unsigned char)*text) * UINT32_C(0x01000193);
    return hash;
}

/* 64 bits: for sets so large that 32 would let two texts meet. */
static inline uint64_t hash_bytes(const char *bytes, size_t length)
{
    uint64_t hash = UINT64_C(0xcbf29ce484222325);
    for (size_t i = 0; i < length; i++)
        hash = (hash ^ (unsigned char)bytes[i]) * UINT64_C(0x100000001b3);
    return hash;
}

#endif
