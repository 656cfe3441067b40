/* Dotted codes, found by a key that is one of them or begins with one: action.raise-humidity by
 * action.raise-humidity.how. */
#ifndef BASKLEAF_BASE_CODE_INDEX_H
#define BASKLEAF_BASE_CODE_INDEX_H

#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

struct code_slot {
    uint32_t place; /* among the codes, plus one; 0 where none is */
    uint32_t hash;  /* its lower half: most others are told apart by it */
};

struct code_index {
    const char *const *codes; /* borrowed */
    size_t count;
    /* by the hash of the code; a power of two */
    const struct code_slot *slots;
    size_t slot_count;
};

struct code_index code_index_make(const char *const *codes, size_t count, struct arena *arena);

/* The place of the longest code that the key is or begins with; SIZE_MAX when there is none. */
size_t code_index_find(const struct code_index *index, const char *key);

#endif
