/* Reading within limits, writing at once or not at all, listing folders. */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "common/suite.h"
#include "base/file.h"

static char folder[] = "/tmp/baskleaf-test-XXXXXX";
static struct arena arena;
static struct diag diag;

static void set_up(void)
{
    strcpy(folder + strlen(folder) - 6, "XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    arena_init(&arena);
    diag_init(&diag);
}

static void tear_down(void)
{
    const char **names;
    struct diag ignored;
    diag_init(&ignored);
    size_t count = file_list(folder, "", &arena, &ignored, &names);
    for (size_t i = 0; i < count; i++)
        unlink(file_join(&arena, folder, names[i]));
    diag_finish(&ignored);
    ck_assert_int_eq(rmdir(folder), 0); /* fails when a temporary file was left */
    arena_finish(&arena);
    diag_finish(&diag);
}

START_TEST(writes_whole_and_reads_back)
{
    const char *path = file_join(&arena, folder, "sheet.pdf");
    ck_assert(file_write_atomic(path, "one", 3, 0640, &diag));
    ck_assert(file_write_atomic(path, "second", 6, 0600, &diag));
    struct bytes bytes;
    ck_assert(file_read(path, 100, &arena, &diag, &bytes));
    ck_assert_uint_eq(bytes.length, 6);
    ck_assert_mem_eq(bytes.data, "second", 7);
    struct stat st;
    ck_assert_int_eq(stat(path, &st), 0);
    ck_assert_int_eq(st.st_mode & 0777, 0640);
    ck_assert_int_eq(diag_exit_status(&diag), 0);
}
END_TEST

START_TEST(refuses_missing_folder_and_large)
{
    struct bytes bytes = {.length = 77};
    ck_assert(!file_read(folder, 100, &arena, &diag, &bytes));
    ck_assert_str_eq(diag.last->code, "is-a-folder");
    ck_assert(!file_read(file_join(&arena, folder, "none"), 100, &arena, &diag, &bytes));
    ck_assert_str_eq(diag.last->code, "cannot-read");
    const char *path = file_join(&arena, folder, "large.yaml");
    ck_assert(file_write_atomic(path, "12345678", 8, 0600, &diag));
    ck_assert(!file_read(path, 7, &arena, &diag, &bytes));
    ck_assert_str_eq(diag.last->code, "file-too-large");
    ck_assert(file_read(path, 8, &arena, &diag, &bytes));
    ck_assert_int_eq(diag_exit_status(&diag), 1);
}
END_TEST

START_TEST(failure_leaves_nothing_behind)
{
    ck_assert(!file_write_atomic(file_join(&arena, folder, "no/such/place"), "x", 1, 0600, &diag));
    ck_assert(!file_write_atomic(folder, "x", 1, 0600, &diag));
    ck_assert_int_eq(diag_exit_status(&diag), 3);
}
END_TEST

START_TEST(lists_in_byte_order)
{
    static const char *const made[] = {"b.yaml", "a.yaml", "B.yaml", "c.txt", ".hidden.yaml"};
    for (size_t i = 0; i < 5; i++)
        ck_assert(file_write_atomic(file_join(&arena, folder, made[i]), "", 0, 0600, &diag));
    const char **names;
    ck_assert_uint_eq(file_list(folder, ".yaml", &arena, &diag, &names), 3);
    ck_assert_str_eq(names[0], "B.yaml");
    ck_assert_str_eq(names[2], "b.yaml");
    unlink(file_join(&arena, folder, ".hidden.yaml"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("file");
    TCase *tcase = tcase_create("file");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, writes_whole_and_reads_back);
    tcase_add_test(tcase, refuses_missing_folder_and_large);
    tcase_add_test(tcase, failure_leaves_nothing_behind);
    tcase_add_test(tcase, lists_in_byte_order);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
