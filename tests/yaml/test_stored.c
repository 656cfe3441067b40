/* What the store gives is what reading gives, for every file that comes with the program and is
 * read as a tree. */
#include <string.h>

#include "common/suite.h"
#include "common/arena_and_diag.h"
#include "base/file.h"
#include "yaml/stored.h"

static const char *const single_files[] = {"templates/clinic.yaml", "templates/value-uses.yaml"};
static const char *const folders[] = {"templates/wording/en", "templates/wording/es",
                                      "templates/wording/fr", "species-sheets"};

/* Counts the nodes on the way. */
static size_t compare(const struct node *one, const struct node *other, const char *path)
{
    size_t nodes = 1;
    ck_assert_msg(one->kind == other->kind && one->is_plain == other->is_plain &&
                      one->height == other->height && one->count == other->count &&
                      one->weight == other->weight && one->at.line == other->at.line &&
                      one->at.column == other->at.column,
                  "%s:%d:%d differs", path, other->at.line, other->at.column);
    ck_assert_str_eq(one->text, other->text);
    ck_assert_str_eq(one->at.file, path);
    for (size_t i = 0; i < one->count; i++) {
        nodes += one->kind == NODE_MAP ? compare(one->keys[i], other->keys[i], path) : 0;
        nodes += compare(one->items[i], other->items[i], path);
    }
    return nodes;
}

/* A comment behind the end says nothing, but is not in the store. */
static struct node *read_anew(const char *path, struct bytes bytes)
{
    const char *text = arena_format(&arena, "%s\n# read anew\n", bytes.data);
    bytes = (struct bytes){.data = text, .length = strlen(text)};
    ck_assert_ptr_null(stored_find(&stored_trees, path, bytes, &arena));
    return tree_read_bytes(path, bytes, &arena, &diag);
}

/* How many nodes it has. */
static size_t compare_file(const char *path)
{
    struct bytes bytes;
    ck_assert(file_read(path, FILE_LIMIT_BYTES, &arena, &diag, &bytes));
    const struct node *stored = stored_find(&stored_trees, path, bytes, &arena);
    ck_assert_msg(stored != NULL, "%s is not in the store", path);
    return compare(stored, read_anew(path, bytes), path);
}

START_TEST(gives_what_reading_gives)
{
    size_t files = sizeof single_files / sizeof *single_files, nodes = 0;
    for (size_t i = 0; i < files; i++)
        nodes += compare_file(file_join(&arena, PROJECT_FOLDER, single_files[i]));
    for (size_t i = 0; i < sizeof folders / sizeof *folders; i++) {
        const char **names, *folder = file_join(&arena, PROJECT_FOLDER, folders[i]);
        size_t count = file_list(folder, ".yaml", &arena, &diag, &names);
        for (size_t k = 0; k < count; k++)
            nodes += compare_file(file_join(&arena, folder, names[k]));
        files += count;
    }
    ck_assert_uint_eq(files, stored_trees.count);
    ck_assert_uint_gt(nodes, 5000);
    ck_assert(!diag_failed(&diag));
}
END_TEST

START_TEST(knows_no_file_that_differs_in_a_byte)
{
    const char *path = file_join(&arena, PROJECT_FOLDER, "templates/value-uses.yaml");
    struct bytes bytes;
    ck_assert(file_read(path, FILE_LIMIT_BYTES, &arena, &diag, &bytes));
    char *changed = arena_copy_bytes(&arena, bytes.data, bytes.length);
    changed[bytes.length / 2]++;
    struct bytes other = {.data = changed, .length = bytes.length};
    struct bytes shorter = {.data = bytes.data, .length = bytes.length - 1};
    ck_assert_ptr_nonnull(stored_find(&stored_trees, path, bytes, &arena));
    ck_assert_ptr_null(stored_find(&stored_trees, path, other, &arena));
    ck_assert_ptr_null(stored_find(&stored_trees, path, shorter, &arena));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("stored");
    TCase *tcase = tcase_create("stored");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, gives_what_reading_gives);
    tcase_add_test(tcase, knows_no_file_that_differs_in_a_byte);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
