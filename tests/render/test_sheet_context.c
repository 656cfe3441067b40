/* The words of a language: read once and kept, and only from a folder of the words. */
#include "context/resources.h"
#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "render/sheet_context.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct resources resources;
static struct sheet_context context;

static void set_up_context(void)
{
    set_up();
    resources = (struct resources){.templates = PROJECT_FOLDER "/templates"};
    context = (struct sheet_context){.resources = &resources};
    arena_init(&context.arena);
}

static void tear_down_context(void)
{
    arena_finish(&context.arena);
    tear_down();
}

static const struct wording *words(const char *language)
{
    return sheet_context_words(&context, language, (struct mark){"visit.yaml", 3, 1}, &diag);
}

START_TEST(a_language_is_read_once)
{
    const struct wording *english = words("en"), *spanish = words("es");
    ck_assert_ptr_nonnull(english);
    ck_assert_ptr_nonnull(spanish);
    ck_assert_ptr_ne(english, spanish);
    ck_assert_ptr_eq(words("en"), english);
    ck_assert_ptr_eq(words("es"), spanish);
    ck_assert_uint_eq(context.language_count, 2);
    ck_assert(!diag_failed(&diag));
}
END_TEST

/* What is no tag is no folder of the words, though there be one of that path. */
START_TEST(what_is_no_language_is_told)
{
    static const char *const tags[] = {"", ".", "..", "../wording/en", "en/", "xx", "en1"};
    for (int i = 0; i < COUNT(tags); i++) {
        diag_finish(&diag);
        diag_init(&diag);
        ck_assert_msg(words(tags[i]) == NULL, "%s", tags[i]);
        ck_assert_str_eq(diag.first->code, "unknown-language");
        ck_assert_str_eq(diag.first->at.file, "visit.yaml");
    }
    ck_assert_uint_eq(context.language_count, 0);
}
END_TEST

START_TEST(there_is_room_for_so_many_languages)
{
    const struct wording other = {.lang = "zz"};
    for (int i = 0; i < SHEET_CONTEXT_LANGUAGES_MOST; i++)
        context.words[i] = &other;
    context.language_count = SHEET_CONTEXT_LANGUAGES_MOST - 1;
    ck_assert_ptr_nonnull(words("en"));
    ck_assert_uint_eq(context.language_count, SHEET_CONTEXT_LANGUAGES_MOST);
    ck_assert_ptr_null(words("es"));
    ck_assert_ptr_nonnull(words("en"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("sheet_context");
    TCase *tcase = tcase_create("sheet_context");
    tcase_add_checked_fixture(tcase, set_up_context, tear_down_context);
    tcase_set_timeout(tcase, 20);
    tcase_add_test(tcase, a_language_is_read_once);
    tcase_add_test(tcase, what_is_no_language_is_told);
    tcase_add_test(tcase, there_is_room_for_so_many_languages);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
