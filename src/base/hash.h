/* FNV-1a of 64 bits: the same on every machine, for names that follow from a content. A second one
 * for tables in memory, which reads eight bytes at a time, as the machine has them. Where somebody
 * may wish to deceive, SHA-256 is taken. */
#ifndef BASKLEAF_BASE_HASH_H
#define BASKLEAF_BASE_HASH_H

#include <stddef.h>
#include <stdint.h>
#include <string.h>

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

/* Takes eight bytes in; the high bits of a product hold what the low ones do not. */
static inline uint64_t hash_take(uint64_t hash, uint64_t eight)
{
    enum { HALF_BITS = 32 };
    hash = (hash ^ eight) * UINT64_C(0x9e3779b97f4a7c15);
    return hash ^ hash >> HALF_BITS;
}

/* Continues `hash` over `count` bytes, for a table in memory alone. */
static inline uint64_t hash_quickly(uint64_t hash, const char *bytes, size_t count)
{
    uint64_t eight = 0, rest = count;
    for (; rest >= sizeof eight; rest -= sizeof eight, bytes += sizeof eight) {
        memcpy(&eight, bytes, sizeof eight);
        hash = hash_take(hash, eight);
    }
    uint32_t first = 0, last = 0;
    if (rest >= sizeof first) {
        memcpy(&first, bytes, sizeof first);
        memcpy(&last, bytes + rest - sizeof last, sizeof last);
    } else {
        for (size_t i = 0; i < rest; i++)
            first = first << 8 | (unsigned char)bytes[i];
    }
    return hash_take(hash, (uint64_t)last << 32 | first | (uint64_t)count << 56);
}

#endif
