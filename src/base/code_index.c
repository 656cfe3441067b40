/* A hash table from dotted codes to their places. */
#include "base/code_index.h"

#include <string.h>

#include "base/hash.h"

struct code_index code_index_make(const char *const *codes, size_t count, struct arena *arena)
{
    size_t size = 1;
    while (size < 2 * count + 1)
        size *= 2;
    struct code_slot *slots = ARENA_ARRAY(arena, struct code_slot, size);
    for (size_t i = 0; i < count; i++) {
        const uint64_t hash = hash_text(HASH_START, codes[i]);
        size_t slot = hash & (size - 1);
        while (slots[slot].place != 0)
            slot = (slot + 1) & (size - 1);
        slots[slot] = (struct code_slot){(uint32_t)i + 1, (uint32_t)hash};
    }
    return (struct code_index){codes, count, slots, size};
}

static size_t find_exact(const struct code_index *index, const char *key, size_t length,
                         uint64_t hash)
{
    size_t mask = index->slot_count - 1;
    for (size_t slot = hash & mask; index->slots[slot].place != 0; slot = (slot + 1) & mask) {
        if (index->slots[slot].hash != (uint32_t)hash)
            continue;
        size_t place = index->slots[slot].place - 1;
        const char *code = index->codes[place];
        if (strncmp(code, key, length) == 0 && code[length] == '\0')
            return place;
    }
    return SIZE_MAX;
}

/* From the shortest part to the whole key, so that one pass hashes all of them. */
size_t code_index_find(const struct code_index *index, const char *key)
{
    size_t found = SIZE_MAX, length = 0;
    if (index->count == 0)
        return found;
    for (uint64_t hash = HASH_START;; hash = hash_bytes(hash, key + length++, 1)) {
        if (length > 0 && (key[length] == '.' || key[length] == '\0')) {
            size_t place = find_exact(index, key, length, hash);
            found = place != SIZE_MAX ? place : found;
        }
        if (key[length] == '\0')
            return found;
    }
}
