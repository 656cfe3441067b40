/* A hash table from dotted codes to their places. */
#include "base/code_index.h"

#include <string.h>

#include "base/hash.h"

/* Where the part of a code that begins here ends: at a dot or with the code. */
static size_t part_length(const char *code)
{
    return (size_t)(strchrnul(code, '.') - code);
}

/* Part by part, as code_index_find() goes through a key. */
static uint64_t hash_code(const char *code)
{
    uint64_t hash = HASH_START;
    for (;; code++) {
        const size_t length = part_length(code);
        hash = hash_quickly(hash, code, length);
        code += length;
        if (*code == '\0')
            return hash;
    }
}

struct code_index code_index_make(const char *const *codes, size_t count, struct arena *arena)
{
    size_t size = 1;
    while (size < 2 * count + 1)
        size *= 2;
    struct code_slot *slots = ARENA_ARRAY(arena, struct code_slot, size);
    for (size_t i = 0; i < count; i++) {
        const uint64_t hash = hash_code(codes[i]);
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
    uint64_t hash = HASH_START;
    while (index->count > 0) {
        const size_t part = part_length(key + length);
        hash = hash_quickly(hash, key + length, part);
        length += part;
        const size_t place = find_exact(index, key, length, hash);
        found = place != SIZE_MAX ? place : found;
        if (key[length] == '\0')
            break;
        length++;
    }
    return found;
}
