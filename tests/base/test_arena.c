/* The arena: alignment, growth, formatting, and that finishing frees everything. */
#include <stdint.h>
#include <string.h>

#include "common/suite.h"
#include "base/arena.h"

START_TEST(takes_zeroed_aligned_storage)
{
    struct arena arena;
    arena_init(&arena);
    for (size_t size = 0; size < 70000; size = size * 2 + 3) {
        unsigned char *taken = arena_take(&arena, size);
        ck_assert_uint_eq((uintptr_t)taken % sizeof(max_align_t) % 16, 0);
        for (size_t i = 0; i < size; i++)
            ck_assert_uint_eq(taken[i], 0);
        memset(taken, 0xff, size);
    }
    arena_finish(&arena);
    arena_finish(&arena);
    arena_finish(NULL);
}
END_TEST

START_TEST(reset_keeps_memory_flat)
{
    struct arena arena;
    arena_init(&arena);
    arena_take(&arena, 5000);
    struct arena_block *kept = arena.newest;
    for (int i = 0; i < 1000; i++) {
        arena_reset(&arena);
        memset(arena_take(&arena, 5000), 1, 5000);
    }
    ck_assert_ptr_eq(arena.newest, kept);
    arena_reset(&arena);
    unsigned char *again = arena_take(&arena, 16);
    ck_assert_uint_eq(again[0], 0);
    arena_finish(&arena);
}
END_TEST

START_TEST(formats_and_copies)
{
    struct arena arena;
    arena_init(&arena);
    ck_assert_str_eq(arena_format(&arena, "%d %s", 7, "days"), "7 days");
    ck_assert_str_eq(arena_copy_bytes(&arena, "abcdef", 3), "abc");
    ck_assert_str_eq(arena_copy_text(&arena, ""), "");
    arena_finish(&arena);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("arena");
    TCase *tcase = tcase_create("arena");
    tcase_add_test(tcase, takes_zeroed_aligned_storage);
    tcase_add_test(tcase, reset_keeps_memory_flat);
    tcase_add_test(tcase, formats_and_copies);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
