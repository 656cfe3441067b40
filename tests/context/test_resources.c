/* What all sheets share is read whole or not at all, and each folder and file is looked for where
 * it is said to be. */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/file.h"
#include "common/own_folder.h"
#include "context/resources.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static const char *const parts[] = {"clinic.yaml",
                                    "findings.yaml",
                                    "foods.yaml",
                                    "instructions.yaml",
                                    "reference-values.yaml",
                                    "rules.yaml",
                                    "settlements.yaml",
                                    "sheets",
                                    "steps.yaml",
                                    "topics.yaml",
                                    "unlisted.yaml",
                                    "value-uses.yaml",
                                    "warning-signs.yaml"};

static const char *in(const char *name)
{
    return file_join(&arena, folder, name);
}

static void put(const char *path, const char *text)
{
    ck_assert(file_make_folders(path, &arena, &diag));
    ck_assert(file_write_atomic(path, text, strlen(text), 0600, &diag));
}

/* A data folder of our own files, but for one that is of a wrong form. */
static void make_data(const char *wrong)
{
    ck_assert_int_eq(system(arena_format(&arena, "rm -rf '%s/templates'", folder)), 0);
    ck_assert_int_eq(mkdir(in("templates"), 0700), 0);
    for (int i = 0; i < COUNT(parts); i++) {
        const char *path = file_join(&arena, in("templates"), parts[i]);
        if (wrong && strcmp(parts[i], wrong) == 0)
            put(strcmp(wrong, "sheets") == 0 ? file_join(&arena, path, "none.yaml") : path,
                "no-such-key: 1\n");
        else
            ck_assert_int_eq(
                symlink(file_join(&arena, PROJECT_FOLDER "/templates", parts[i]), path), 0);
    }
}

static bool is_read(void)
{
    struct resources resources;
    const struct places places = {.data_folder = folder,
                                  .clinic_file = in("templates/clinic.yaml")};
    diag_finish(&diag);
    diag_init(&diag);
    return resources_read(&places, &arena, &diag, &resources);
}

START_TEST(one_part_that_is_wrong_is_enough)
{
    make_data(NULL);
    ck_assert(is_read());
    ck_assert(!diag_failed(&diag));
    for (int i = 0; i < COUNT(parts); i++) {
        make_data(parts[i]);
        ck_assert_msg(!is_read(), "%s", parts[i]);
        ck_assert_msg(diag_failed(&diag), "%s", parts[i]);
    }
}
END_TEST

START_TEST(a_folder_of_own_sheets_must_be_there)
{
    struct places places = {.data_folder = PROJECT_FOLDER};
    struct resources resources;
    ck_assert(resources_has_species_dir(&places, &diag));
    places.species_dir = folder;
    ck_assert(resources_has_species_dir(&places, &diag));
    ck_assert(!diag_failed(&diag));
    places.species_dir = in("none");
    ck_assert(!resources_has_species_dir(&places, &diag));
    ck_assert_str_eq(diag.first->code, "no-species-dir");
    ck_assert(!resources_read(&places, &arena, &diag, &resources));
}
END_TEST

/* ---- the user's own
 * ------------------------------------------------------------------------------- */

static void live_at(const char *config, const char *home)
{
    if (config)
        setenv("XDG_CONFIG_HOME", config, 1);
    else
        unsetenv("XDG_CONFIG_HOME");
    if (home)
        setenv("HOME", home, 1);
    else
        unsetenv("HOME");
}

/* XDG Base Directory Specification 0.8: a path that is not absolute counts for nothing. */
START_TEST(the_users_own_file_lies_in_their_configuration)
{
    static const struct {
        const char *config, *home, *file;
    } rows[] = {{"/a/b", "/home/rosa", "/a/b/baskleaf/clinic.yaml"},
                {NULL, "/home/rosa", "/home/rosa/.config/baskleaf/clinic.yaml"},
                {"", "/home/rosa", "/home/rosa/.config/baskleaf/clinic.yaml"},
                {"a/b", "/home/rosa", "/home/rosa/.config/baskleaf/clinic.yaml"},
                {NULL, "rosa", NULL},
                {NULL, "", NULL},
                {NULL, NULL, NULL},
                {"/a/b", NULL, "/a/b/baskleaf/clinic.yaml"}};
    for (int i = 0; i < COUNT(rows); i++) {
        live_at(rows[i].config, rows[i].home);
        const char *clinic = resources_own_clinic(&arena), *sheets = resources_own_sheets(&arena);
        ck_assert_int_eq(clinic == NULL, rows[i].file == NULL);
        ck_assert_int_eq(sheets == NULL, rows[i].file == NULL);
        if (!clinic)
            continue;
        ck_assert_str_eq(clinic, rows[i].file);
        ck_assert_str_eq(sheets,
                         file_join(&arena, file_folder_of(&arena, rows[i].file), "species-sheets"));
    }
}
END_TEST

static bool has_machines_own(void)
{
    return file_exists("/etc/baskleaf/clinic.yaml") ||
           file_is_folder("/etc/baskleaf/species-sheets");
}

START_TEST(what_is_the_users_own_goes_first)
{
    if (has_machines_own())
        return;
    live_at(folder, NULL);
    const char *named = in("named"), *sheets = in("baskleaf/species-sheets"),
               *clinic = in("baskleaf/clinic.yaml");
    ck_assert_ptr_null(resources_find_own_sheets(NULL, &arena));
    ck_assert_str_eq(resources_find_own_sheets(named, &arena), named);
    ck_assert_str_eq(resources_find_clinic("/data", &arena), "/data/templates/clinic.yaml");
    put(clinic, "name: x\n");
    ck_assert_str_eq(resources_find_clinic("/data", &arena), clinic);
    ck_assert_ptr_null(resources_find_own_sheets(NULL, &arena));
    ck_assert_int_eq(mkdir(sheets, 0700), 0);
    ck_assert_str_eq(resources_find_own_sheets(NULL, &arena), sheets);
    ck_assert_str_eq(resources_find_own_sheets(named, &arena), named);
    live_at(NULL, NULL);
    ck_assert_ptr_null(resources_find_own_sheets(NULL, &arena));
    ck_assert_str_eq(resources_find_clinic("/data", &arena), "/data/templates/clinic.yaml");
}
END_TEST

START_TEST(fonts_lie_beside_the_data_or_in_the_build)
{
    const char *beside = in("fonts");
    const char *built = resources_find_fonts(folder, &arena);
    ck_assert_str_ne(built, beside);
    ck_assert(file_exists(file_join(&arena, built, "srgb.icc.z")));
    ck_assert_int_eq(mkdir(beside, 0700), 0);
    ck_assert_str_eq(resources_find_fonts(folder, &arena), beside);
    const char *data = resources_find_data(&arena);
    ck_assert_ptr_nonnull(data);
    ck_assert(file_exists(file_join(&arena, data, "templates/rules.yaml")));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("resources");
    TCase *tcase = tcase_create("resources");
    tcase_add_checked_fixture(tcase, set_up_folder, tear_down_folder);
    tcase_set_timeout(tcase, 30);
    tcase_add_test(tcase, one_part_that_is_wrong_is_enough);
    tcase_add_test(tcase, a_folder_of_own_sheets_must_be_there);
    tcase_add_test(tcase, the_users_own_file_lies_in_their_configuration);
    tcase_add_test(tcase, what_is_the_users_own_goes_first);
    tcase_add_test(tcase, fonts_lie_beside_the_data_or_in_the_build);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
