/* The arena: alignment, growth, formatting, and that finishing frees everything. */
#include <limits.h>
#include <stdint.h>
#include <stdio.h>
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

/* Zeroed from the system or by us: first, behind the piece's end, and once it is used again. */
START_TEST(fresh_storage_is_zeroed_too)
{
    enum { PIECE = 4096, TAKES = 3 };
    struct arena arena;
    arena_init_fresh(&arena, PIECE);
    for (int round = 0; round < 3; round++) {
        for (size_t size = 500, i = 0; i < (size_t)TAKES * (1 + round); i++) {
            unsigned char *taken = arena_take(&arena, size + i * 300);
            for (size_t k = 0; k < size + i * 300; k++)
                ck_assert_uint_eq(taken[k], 0);
            memset(taken, 0xff, size + i * 300);
            memset(arena_take_unset(&arena, 32), 0xff, 32);
        }
        arena_reset(&arena);
    }
    arena_finish(&arena);
    ck_assert_ptr_null(arena.newest);
}
END_TEST

/* Each has a place of its own, before a block ends and behind it. */
START_TEST(arrays_without_zeros_keep_apart)
{
    enum { ARRAYS = 400, ITEMS = 37 };
    struct arena arena;
    uint32_t *arrays[ARRAYS];
    arena_init(&arena);
    for (uint32_t i = 0; i < ARRAYS; i++) {
        arrays[i] = ARENA_ARRAY_UNSET(&arena, uint32_t, ITEMS);
        ck_assert_uint_eq((uintptr_t)arrays[i] % 16, 0);
        for (uint32_t k = 0; k < ITEMS; k++)
            arrays[i][k] = i * ITEMS + k;
    }
    for (uint32_t i = 0; i < ARRAYS; i++)
        for (uint32_t k = 0; k < ITEMS; k++)
            ck_assert_uint_eq(arrays[i][k], i * ITEMS + k);
    ck_assert_uint_ge(arena.used_bytes, sizeof(uint32_t) * ITEMS * ARRAYS);
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

/* What is said without printf is what printf says. */
START_TEST(plain_formats_are_printfs)
{
    struct arena arena;
    char expected[1024], letters[601];
    arena_init(&arena);
    memset(letters, 'x', sizeof letters - 1);
    letters[sizeof letters - 1] = '\0';
#define CK_FORMAT(...)                                                                             \
    snprintf(expected, sizeof expected, __VA_ARGS__);                                              \
    ck_assert_str_eq(arena_format(&arena, __VA_ARGS__), expected)
    CK_FORMAT("%d|%d|%d", 0, INT_MAX, INT_MIN);
    CK_FORMAT("%u|%zu|%zu", UINT_MAX, (size_t)0, SIZE_MAX);
    CK_FORMAT("%s, %.*s, %.*s and %.*s", "whole", 3, "parts", 0, "none", -1, "all");
    CK_FORMAT("100 %% of %c", 'c');
    CK_FORMAT("%s%s", letters, "");
    CK_FORMAT("%02d:%02d", 7, 5);
    CK_FORMAT("%s %.1f", letters, 2.25);
    CK_FORMAT("%s", "");
#undef CK_FORMAT
    arena_finish(&arena);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("arena");
    TCase *tcase = tcase_create("arena");
    tcase_add_test(tcase, takes_zeroed_aligned_storage);
    tcase_add_test(tcase, reset_keeps_memory_flat);
    tcase_add_test(tcase, fresh_storage_is_zeroed_too);
    tcase_add_test(tcase, arrays_without_zeros_keep_apart);
    tcase_add_test(tcase, formats_and_copies);
    tcase_add_test(tcase, plain_formats_are_printfs);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
