/* Arenas as a chain of blocks: taking moves a pointer on, finishing frees the whole chain. */
#include "base/arena.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "base/plain_format.h"

#ifdef ARENA_IS_WATCHED
#include <sanitizer/asan_interface.h>
enum { GAP_BYTES = 512 }; /* wider than most of what stands in arrays */
#else
#define ASAN_POISON_MEMORY_REGION(at, size) ((void)(at), (void)(size))
#define ASAN_UNPOISON_MEMORY_REGION(at, size) ((void)(at), (void)(size))
enum { GAP_BYTES = 0 };
#endif

enum {
    FIRST_BLOCK_BYTES = 16 * 1024,
    LARGEST_STEP_BYTES = 1024 * 1024,
    HUGE_PAGE_BYTES = 2 * 1024 * 1024
};

_Noreturn void support_out_of_memory(void)
{
    static const char message[] = "baskleaf: out of memory; nothing was written\n";
    ssize_t ignored = write(STDERR_FILENO, message, sizeof message - 1);
    (void)ignored;
    _Exit(3);
}

void arena_init(struct arena *arena)
{
    *arena = (struct arena){0};
}

void arena_init_fresh(struct arena *arena, size_t size)
{
    arena_init(arena);
#ifdef MADV_HUGEPAGE
    const size_t room = size + HUGE_PAGE_BYTES;
    unsigned char *piece =
        mmap(NULL, room, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    if (piece == MAP_FAILED)
        return; /* then its memory is the heap's */
    const size_t before = HUGE_PAGE_BYTES - (uintptr_t)piece % HUGE_PAGE_BYTES;
    madvise(piece + before, size, MADV_HUGEPAGE);
    struct arena_block *block = (struct arena_block *)(void *)(piece + before);
    *block = (struct arena_block){.size = size - sizeof *block, .mapped = piece, .map_bytes = room};
    ASAN_POISON_MEMORY_REGION(block->bytes, block->size);
    arena->newest = block;
#else
    (void)size;
#endif
}

static void free_chain(struct arena_block *block)
{
    while (block) {
        struct arena_block *older = block->older;
        ASAN_UNPOISON_MEMORY_REGION(block->bytes, block->size);
        if (block->mapped)
            munmap(block->mapped, block->map_bytes);
        else
            free(block);
        block = older;
    }
}

void arena_finish(struct arena *arena)
{
    if (!arena)
        return;
    free_chain(arena->newest);
    free_chain(arena->spare);
    *arena = (struct arena){0};
}

/* Begins it anew: what was handed out may hold anything. */
static void touch_used(struct arena_block *block)
{
    if (block->touched < block->used)
        block->touched = block->used;
    block->used = 0;
    ASAN_POISON_MEMORY_REGION(block->bytes, block->size);
}

void arena_reset(struct arena *arena)
{
    struct arena_block *kept = arena->newest;
    if (!kept)
        return;
    struct arena_block *oldest = kept;
    while (oldest->older)
        oldest = oldest->older;
    oldest->older = arena->spare;
    arena->spare = kept->older;
    kept->older = NULL;
    touch_used(kept);
    arena->used_bytes = 0;
}

/* A spare block that is large enough, or NULL. */
static struct arena_block *take_spare(struct arena *arena, size_t needed)
{
    for (struct arena_block **link = &arena->spare; *link; link = &(*link)->older) {
        struct arena_block *block = *link;
        if (block->size < needed)
            continue;
        *link = block->older;
        return block;
    }
    return NULL;
}

static struct arena_block *arena_grow(struct arena *arena, size_t needed)
{
    size_t size = arena->newest ? arena->newest->size * 2 : FIRST_BLOCK_BYTES;
    if (size > LARGEST_STEP_BYTES)
        size = LARGEST_STEP_BYTES;
    if (size < needed)
        size = needed;
    if (size > SIZE_MAX - sizeof(struct arena_block))
        support_out_of_memory();
    struct arena_block *block = take_spare(arena, needed);
    if (block) {
        touch_used(block);
    } else {
        block = malloc(sizeof *block + size);
        if (!block)
            support_out_of_memory();
        *block = (struct arena_block){.size = size, .touched = size};
        ASAN_POISON_MEMORY_REGION(block->bytes, block->size);
    }
    block->older = arena->newest;
    arena->newest = block;
    return block;
}

void *arena_take_slowly(struct arena *arena, size_t size)
{
    const size_t step = alignof(max_align_t);
    if (size > SIZE_MAX - step - GAP_BYTES)
        support_out_of_memory();
    size_t rounded = (size + step - 1) / step * step + GAP_BYTES;
    struct arena_block *block = arena->newest;
    if (!block || block->size - block->used < rounded)
        block = arena_grow(arena, rounded);
    void *taken = block->bytes + block->used;
    block->used += rounded;
    arena->used_bytes += rounded;
    ASAN_UNPOISON_MEMORY_REGION(taken, size);
    return taken;
}

void *arena_take_array(struct arena *arena, size_t count, size_t item_size)
{
    if (item_size && count > SIZE_MAX / item_size)
        support_out_of_memory();
    return arena_take(arena, count * item_size);
}

void *arena_take_array_unset(struct arena *arena, size_t count, size_t item_size)
{
    if (item_size && count > SIZE_MAX / item_size)
        support_out_of_memory();
    return arena_take_unset(arena, count * item_size);
}

char *arena_copy_bytes(struct arena *arena, const char *bytes, size_t length)
{
    if (length == SIZE_MAX)
        support_out_of_memory();
    char *copy = arena_take_unset(arena, length + 1);
    if (length)
        memcpy(copy, bytes, length);
    copy[length] = '\0';
    return copy;
}

char *arena_copy_text(struct arena *arena, const char *text)
{
    return arena_copy_bytes(arena, text, strlen(text));
}

char *arena_format_list(struct arena *arena, const char *format, va_list args)
{
    char first[256]; /* room for most texts, which are then written once */
    const size_t plain = plain_format(first, sizeof first, format, args);
    if (plain < sizeof first)
        return arena_copy_bytes(arena, first, plain);
    if (plain != PLAIN_FORMAT_OTHER) {
        char *whole = arena_take(arena, plain + 1);
        plain_format(whole, plain, format, args);
        return whole;
    }
    va_list first_time;
    va_copy(first_time, args);
    int length = vsnprintf(first, sizeof first, format, first_time);
    va_end(first_time);
    char *text = arena_take(arena, length < 0 ? 1 : (size_t)length + 1);
    if (length > 0 && (size_t)length < sizeof first)
        memcpy(text, first, (size_t)length + 1);
    else if (length > 0)
        vsnprintf(text, (size_t)length + 1, format, args);
    return text;
}

char *arena_format(struct arena *arena, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    char *text = arena_format_list(arena, format, args);
    va_end(args);
    return text;
}
