/* Memory that lives exactly as long as one sheet.
 *
 * One arena is made for each sheet (or for each long-lived thing, such as the
 * species library) and released at once. Nothing taken from an arena is freed
 * alone, so every pointer that comes out of a sheet's work has one owner.
 *
 * Policy on exhaustion, for the whole program: limits on input (file size,
 * depth, number of nodes, list lengths, pages) are ordinary errors and keep
 * every honest run far below the machine's memory. Should the system refuse
 * memory all the same, support_out_of_memory() says so and ends the process
 * with status 3. Nothing is half-written then, because output files are built
 * in memory and only renamed into place when complete (see file.h).
 */
#ifndef BASKLEAF_BASE_ARENA_H
#define BASKLEAF_BASE_ARENA_H

#include <stdalign.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

/* Under an address sanitizer what nobody took of a block may not be touched, and a gap behind each
 * piece shows a step past its end. */
#if defined(__SANITIZE_ADDRESS__)
#define ARENA_IS_WATCHED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define ARENA_IS_WATCHED 1
#endif
#endif

/* For arena.c and the two functions below alone. */
struct arena_block {
    struct arena_block *older;
    size_t size;
    size_t used;
    size_t touched;   /* of the bytes: behind these all are still zero */
    void *mapped;     /* the piece of the system that it lies in; NULL: the heap's */
    size_t map_bytes; /* of that piece */
    alignas(max_align_t) unsigned char bytes[];
};

struct arena {
    struct arena_block *newest; /* owned; chain of blocks, newest first */
    struct arena_block *spare;  /* owned; blocks of before the last reset */
    size_t used_bytes;          /* handed out so far, for tests and benchmarks */
};

/* Caller's storage; takes no memory yet. */
void arena_init(struct arena *arena);

/* The same with a first piece of `size` bytes straight from the system, in huge pages where it has
 * them: what comes from there is zero and need not be cleared. For what a run takes once. */
void arena_init_fresh(struct arena *arena, size_t size);

/* Releases everything that was taken. Accepts NULL; may be called twice. */
void arena_finish(struct arena *arena);

/* Forgets the content but keeps the blocks for the next sheet, so that a run
 * of many sheets stays flat in memory and asks the system for none. */
void arena_reset(struct arena *arena);

/* As arena_take_unset, from a further block where the newest has no room. */
void *arena_take_slowly(struct arena *arena, size_t size) __attribute__((returns_nonnull));

/* Storage of `size` bytes with whatever was there before, for who fills all of it at once; aligned
 * for any type. Never NULL. */
__attribute__((returns_nonnull)) static inline void *arena_take_unset(struct arena *arena,
                                                                      size_t size)
{
#ifndef ARENA_IS_WATCHED
    const size_t step = alignof(max_align_t);
    struct arena_block *block = arena->newest;
    const size_t room = block ? block->size - block->used : 0,
                 rounded = (size + step - 1) / step * step;
    if (block && size <= room && rounded <= room) {
        void *taken = block->bytes + block->used;
        block->used += rounded;
        arena->used_bytes += rounded;
        return taken;
    }
#endif
    return arena_take_slowly(arena, size);
}

/* The same, zeroed. Never NULL. */
__attribute__((returns_nonnull)) static inline void *arena_take(struct arena *arena, size_t size)
{
    unsigned char *taken = arena_take_unset(arena, size);
    const struct arena_block *block = arena->newest;
    const size_t from = (size_t)(taken - block->bytes), left = block->touched - from;
    if (from < block->touched && left >= size)
        memset(taken, 0, size);
    else if (from < block->touched)
        memset(taken, 0, left);
    return taken;
}

/* Zeroed array of `count` items. Never NULL; overflow ends the process. */
void *arena_take_array(struct arena *arena, size_t count, size_t item_size);

/* The same with whatever was there before, for who counts what it fills. */
void *arena_take_array_unset(struct arena *arena, size_t count, size_t item_size);

/* Copies; the result ends in NUL and belongs to the arena. */
char *arena_copy_text(struct arena *arena, const char *text);
char *arena_copy_bytes(struct arena *arena, const char *bytes, size_t length);

/* printf into the arena. Numbers follow the C locale (the program never calls
 * setlocale). */
char *arena_format(struct arena *arena, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
char *arena_format_list(struct arena *arena, const char *format, va_list args)
    __attribute__((format(printf, 2, 0)));

/* Typed shorthands. */
#define ARENA_NEW(arena, type) ((type *)arena_take((arena), sizeof(type)))
#define ARENA_ARRAY(arena, type, count) ((type *)arena_take_array((arena), (count), sizeof(type)))
#define ARENA_ARRAY_UNSET(arena, type, count)                                                      \
    ((type *)arena_take_array_unset((arena), (count), sizeof(type)))

/* Says "out of memory" on standard error and ends the process with status 3. */
_Noreturn void support_out_of_memory(void);

#endif
