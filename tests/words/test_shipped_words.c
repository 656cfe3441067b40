/* The words that were parsed when the program was built are those that parsing the files gives, and
 * a language of which one file is another is parsed and proven whole. */
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "common/suite.h"
#include "common/own_folder.h"
#include "base/file.h"
#include "words/shipped_words.h"
#include "words/wording.h"
#include "yaml/tree.h"

static const char *const langs[] = {"en", "es", "fr"};

enum { NAMES_MOST = 40 };

/* The files of a language that a sheet speaks from, sorted. */
static size_t files_of(const char *own, const char **names)
{
    const char **all;
    size_t count = 0, listed = file_list(own, ".yaml", &arena, &diag, &all);
    for (size_t i = 0; i < listed; i++)
        if (strncmp(all[i], "desk", 4) != 0)
            names[count++] = all[i];
    ck_assert(count > 5 && count < NAMES_MOST);
    return count;
}

static void same_phrase(const struct wording_phrase *one, const struct wording_phrase *other)
{
    ck_assert_uint_eq(one->count, other->count);
    for (size_t i = 0; i < other->count; i++) {
        ck_assert_int_eq(one->pieces[i].is_slot, other->pieces[i].is_slot);
        ck_assert_str_eq(one->pieces[i].text, other->pieces[i].text);
    }
}

static void same_entry(const struct wording_entry *one, const struct wording_entry *other)
{
    ck_assert_str_eq(one->key, other->key);
    ck_assert_str_eq(one->at.file, other->at.file);
    ck_assert_int_eq(one->at.line, other->at.line);
    ck_assert_int_eq(one->at.column, other->at.column);
    ck_assert_uint_eq(one->count, other->count);
    for (size_t i = 0; i < other->count; i++) {
        const struct wording_form *mine = &one->alternatives[i], *theirs = &other->alternatives[i];
        ck_assert_pstr_eq(mine->count_by, theirs->count_by);
        for (size_t k = 0; k < (theirs->count_by ? PLURAL_COUNT : 1); k++)
            same_phrase(&mine->forms[k], &theirs->forms[k]);
    }
}

static void same_family(const struct wording_family *one, const struct wording_family *other)
{
    ck_assert_uint_gt(other->count, 3);
    ck_assert_uint_eq(one->count, other->count);
    for (size_t i = 0; i < other->count; i++)
        ck_assert_str_eq(one->entries[i]->key, other->entries[i]->key);
}

static struct wording *found(const struct wording_source *source, const char *const *names,
                             size_t count)
{
    struct wording *out;
    ck_assert(
        shipped_words_find(source, &(struct shipped_names){names, count}, &arena, &diag, &out));
    return out;
}

START_TEST(gives_what_parsing_gives)
{
    const char *lang = langs[_i], *names[NAMES_MOST];
    const char *own = file_join(&arena, PROJECT_FOLDER "/templates/wording", lang);
    const size_t count = files_of(own, names);
    const struct wording_source source = {own, lang, language_read(own, lang, &arena, &diag)};
    struct node *trees[NAMES_MOST];
    size_t tree_count = 0;
    for (size_t i = 0; i < count; i++)
        if (strcmp(names[i], LANGUAGE_FILE) != 0)
            trees[tree_count++] = tree_read_file(file_join(&arena, own, names[i]), &arena, &diag);
    const struct wording *parsed = catalogue_read_trees(&source, trees, tree_count, &arena, &diag),
                         *shipped = found(&source, names, count);
    ck_assert_msg(parsed && shipped, "%s", lang);
    ck_assert(shipped->is_proven && !parsed->is_proven);
    ck_assert_str_eq(shipped->lang, lang);
    ck_assert_str_eq(shipped->folder, own);
    ck_assert_ptr_eq(shipped->language, source.language);
    ck_assert_uint_eq(shipped->count, parsed->count);
    for (size_t i = 0; i < parsed->count; i++) {
        same_entry(&shipped->entries[i], &parsed->entries[i]);
        ck_assert_ptr_eq(catalogue_find(shipped, parsed->entries[i].key), &shipped->entries[i]);
    }
    ck_assert_ptr_null(catalogue_find(shipped, "no.such.key"));
    same_family(&shipped->terms, &parsed->terms);
    same_family(&shipped->short_forms, &parsed->short_forms);
}
END_TEST

START_TEST(knows_no_other_files)
{
    const char *names[NAMES_MOST];
    const char *own = PROJECT_FOLDER "/templates/wording/en";
    const size_t count = files_of(own, names);
    const struct language *language = language_read(own, "en", &arena, &diag);
    const struct wording_source source = {own, "en", language}, other = {own, "es", language};
    ck_assert_ptr_nonnull(found(&source, names, count));
    ck_assert_ptr_null(found(&other, names, count));
    ck_assert_ptr_null(found(&source, names, count - 1));
    names[count] = "zoo.yaml";
    ck_assert_ptr_null(found(&source, names, count + 1));
    names[count - 1] = "zoo.yaml";
    ck_assert_ptr_null(found(&source, names, count));
    /* what cannot be read is a fault, and no reason to read it in another way */
    const struct wording_source nowhere = {"/nowhere", "en", language};
    struct wording *out;
    const size_t read = files_of(own, names);
    ck_assert(
        !shipped_words_find(&nowhere, &(struct shipped_names){names, read}, &arena, &diag, &out));
    ck_assert(diag_failed(&diag));
}
END_TEST

struct change {
    const char *lang, *file, *from, *to;
};

/* A copy of a language's files below the test's own folder, one of them changed. */
static void copy_with(const struct change *change)
{
    const char **names, *copy = file_join(&arena, folder, change->lang),
                        *own = file_join(&arena, PROJECT_FOLDER "/templates/wording", change->lang);
    ck_assert_int_eq(mkdir(copy, 0700), 0);
    const size_t count = file_list(own, ".yaml", &arena, &diag, &names);
    for (size_t i = 0; i < count; i++) {
        struct bytes bytes;
        const char *from = file_join(&arena, own, names[i]);
        ck_assert(file_read(from, FILE_LIMIT_BYTES, &arena, &diag, &bytes));
        char *text = arena_copy_bytes(&arena, bytes.data, bytes.length);
        if (strcmp(names[i], change->file) == 0) {
            char *at = strstr(text, change->from);
            ck_assert_ptr_nonnull(at);
            memcpy(at, change->to, strlen(change->to));
        }
        FILE *out = fopen(file_join(&arena, copy, names[i]), "w");
        ck_assert(out && fputs(text, out) >= 0 && fclose(out) == 0);
    }
}

/* The fault stands in one file; that of a row of the language shows in the texts of all others. */
START_TEST(proves_what_is_not_as_it_came)
{
    static const struct change changes[] = {
        {"en", "winter.yaml", "{patient.name}", "{patient.nome}"},
        {"es", "language.yaml", "object-pronoun", "object-pronoum"},
    };
    copy_with(&changes[_i]);
    ck_assert_ptr_null(wording_read(folder, changes[_i].lang, "desk", &arena, &diag));
    ck_assert(diag_failed(&diag));
    ck_assert_str_eq(diag.first->code, "unknown-slot");
    ck_assert_ptr_nonnull(strstr(diag.first->at.file, folder));
}
END_TEST

/* Nothing but a comment differs: read whole, without a fault. */
START_TEST(takes_what_is_edited_well)
{
    static const struct change change = {"en", "winter.yaml", "# The", "# the"};
    copy_with(&change);
    const struct wording *words = wording_read(folder, "en", "desk", &arena, &diag);
    ck_assert(words && !words->is_proven && !diag_failed(&diag));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("shipped_words");
    TCase *tcase = tcase_create("shipped_words");
    tcase_add_checked_fixture(tcase, set_up_folder, tear_down_folder);
    tcase_add_loop_test(tcase, gives_what_parsing_gives, 0, sizeof langs / sizeof *langs);
    tcase_add_test(tcase, knows_no_other_files);
    tcase_add_test(tcase, takes_what_is_edited_well);
    tcase_add_loop_test(tcase, proves_what_is_not_as_it_came, 0, 2);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
