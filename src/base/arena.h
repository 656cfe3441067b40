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

#include <stdarg.h>
#include <stddef.h>

struct arena_block;

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

/* Zeroed storage of `size` bytes, aligned for any type. Never NULL. */
void *arena_take(struct arena *arena, size_t size) __attribute__((returns_nonnull));

/* The same with whatever was there before, for who fills all of it at once. */
void *arena_take_unset(struct arena *arena, size_t size) __attribute__((returns_nonnull));

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
