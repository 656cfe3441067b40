/* The table of slots: each name can be found, and a sentence's own slots are told from others'. */
#include <string.h>

#include "common/suite.h"
#include "common/arena_and_diag.h"
#include "words/agreement.h"
#include "words/slots.h"
#include "words/wording.h"

/* The table is searched by halves, which finds nothing reliably in a table out of order. */
START_TEST(table_is_sorted_and_every_row_is_found)
{
    size_t count = 0;
    const struct slot_row *rows = slots_table(&count);
    ck_assert_uint_gt(count, 0);
    for (size_t i = 1; i < count; i++)
        ck_assert_msg(strcmp(rows[i - 1].name, rows[i].name) < 0, "%s stands before %s",
                      rows[i - 1].name, rows[i].name);
    for (size_t i = 0; i < count; i++)
        ck_assert_msg(slots_is_known(rows[i].name), "%s is not found", rows[i].name);
    ck_assert(!slots_is_known("humidty.target"));
}
END_TEST

static const struct {
    const char *text;
    const char *message; /* NULL: nothing is wrong */
} sentences[] = {
    {"sheet.note: \"{humidity.target}\"\n", NULL},
    {"sheet.note: \"{humidty.target}\"\n", "did you mean {humidity.target}?"},
    {"sheet.note: [\"{humidty.target} first\", \"then nothing\"]\n", "{humidty.target}"},
    {"sheet.note: {count-by: meal.cuont, one: \"a\", other: \"b\"}\n", "{meal.count}?"},
    {"sheet.note: \"{n}\"\n", "{n}"},
    {"unit.day: \"{n}\"\n", NULL},
    {"unit.day: \"{m}\"\n", "{m}"},
    {"unit.day: \"{humidity.target}\"\n", "{humidity.target}"},
    {"desk.title: \"{patient.name}\"\n", "{patient.name}"},
    {"desk.fault.out-of-range: \"{low}\"\n", NULL},
};

START_TEST(a_slot_that_nothing_fills_is_told)
{
    struct bytes bytes = {.data = arena_copy_text(&arena, sentences[_i].text),
                          .length = strlen(sentences[_i].text)};
    struct node *tree = tree_read_bytes("words.yaml", bytes, &arena, &diag);
    const char *wrong = NULL;
    struct language language = {.plurals.conditions[PLURAL_ONE] =
                                    plural_parse("i = 1 and v = 0", &arena, &wrong)};
    const struct wording_source source = {"words", "en", &language};
    const struct wording *words = catalogue_read_trees(&source, &tree, 1, &arena, &diag);
    ck_assert_ptr_nonnull(words);
    ck_assert_int_eq(wording_check_slots(words, &arena, &diag), sentences[_i].message == NULL);
    if (sentences[_i].message) {
        ck_assert_uint_eq(diag.counts[DIAG_ERROR], 1);
        ck_assert_ptr_nonnull(strstr(diag.first->text, sentences[_i].message));
        ck_assert_int_eq(diag.first->at.line, 1);
    }
}
END_TEST

/* What a sheet says of an animal may name whatever its plan knows; what is said before there is a
 * plan, of units, numbers, days and at the desk, or of the parts of a picture, names its own alone.
 */
static bool is_of_a_plan(const char *key)
{
    static const char *const apart[] = {"unit.",
                                        "number.",
                                        "hours.",
                                        "desk.",
                                        "sheet.date-",
                                        "sheet.list-",
                                        "picture.bands.row",
                                        "picture.enclosure.",
                                        "picture.legend",
                                        "picture.weight.point"};
    for (size_t i = 0; i < sizeof apart / sizeof *apart; i++)
        if (strncmp(key, apart[i], strlen(apart[i])) == 0)
            return false;
    return true;
}

static bool takes(const char *key, const char *slot)
{
    const char *text = arena_format(&arena, "%s: \"{%s}\"\n", key, slot);
    struct node *tree = tree_read_bytes(
        "words.yaml", (struct bytes){.data = text, .length = strlen(text)}, &arena, &diag);
    const struct language language = {0};
    const struct wording_source source = {"words", "en", &language};
    const struct wording *words = catalogue_read_trees(&source, &tree, 1, &arena, &diag);
    ck_assert_ptr_nonnull(words);
    return wording_check_slots(words, &arena, &diag);
}

START_TEST(a_sentence_of_a_plan_may_name_what_it_knows)
{
    const char *folder = PROJECT_FOLDER "/templates/wording/en", **names = NULL;
    size_t count = file_list(folder, ".yaml", &arena, &diag, &names), keys = 0;
    for (size_t i = 0; i < count; i++) {
        const struct node *file =
            tree_read_file(file_join(&arena, folder, names[i]), &arena, &diag);
        ck_assert_ptr_nonnull(file);
        for (size_t k = 0; k < file->count && strcmp(names[i], "language.yaml") != 0; k++, keys++) {
            const char *key = file->keys[k]->text;
            ck_assert_msg(takes(key, "patient.name") == is_of_a_plan(key), "%s", key);
            ck_assert_msg(!takes(key, "nobody.fills-it"), "%s", key);
        }
    }
    ck_assert_uint_gt(keys, 1000);
}
END_TEST

/* Where a file of words stands: a folder a language. */
START_TEST(the_place_of_a_file_says_its_language)
{
    static const struct {
        const char *path, *folder, *lang, *file;
    } rows[] = {{"nowhere/wording/es/sheet.yaml", "nowhere/wording", "es", "sheet.yaml"},
                {"/nowhere/es/sheet.yaml", "/nowhere", "es", "sheet.yaml"},
                {"/es-none/sheet.yaml", "/", "es-none", "sheet.yaml"},
                {"es-none/s.yaml", ".", "es-none", "s.yaml"},
                {"none.yaml", ".", ".", "none.yaml"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct wording_place place = wording_place_of(rows[i].path, &arena);
        ck_assert_str_eq(place.folder, rows[i].folder);
        ck_assert_str_eq(place.lang, rows[i].lang);
        ck_assert_str_eq(place.file, rows[i].file);
    }
}
END_TEST

/* ---- of a plan that knows nothing ----------------------------------------------------------- */

/* These hold a number whenever there is a plan; what says them asks first whether there is such a
 * lamp, a change of water, a step that is not done. A place to wake in is warm, with a number or
 * without. */
static const char *const asked_for_first[] = {"steps.way-out", "uvb.distance", "uvb.farthest",
                                              "uvb.nearest",   "wake.warm",    "water.apart",
                                              "water.share"};

static bool is_asked_for_first(const char *name)
{
    for (size_t i = 0; i < sizeof asked_for_first / sizeof *asked_for_first; i++)
        if (strcmp(asked_for_first[i], name) == 0)
            return true;
    return false;
}

/* No number and no word comes out of nothing: a sentence that lacks one is not said. */
START_TEST(what_a_plan_does_not_know_fills_no_slot)
{
    const struct wording *words =
        wording_read(PROJECT_FOLDER "/templates/wording", "en", NULL, &arena, &diag);
    const struct care_plan plan = {.on = {2026, 3, 14}, .booked_minute = -1};
    const struct format format = {.words = words, .arena = &arena, .diag = &diag};
    const struct phrase_context ctx = slots_context(format, &plan);
    size_t count = 0;
    const struct slot_row *rows = slots_table(&count);
    ck_assert_ptr_nonnull(words);
    for (size_t i = 0; i < count; i++) {
        struct slot_value value = {.text = "untouched"};
        bool gives = rows[i].get(&ctx, &value);
        ck_assert_msg(gives == is_asked_for_first(rows[i].name), "%s: %s", rows[i].name,
                      value.text);
        ck_assert_msg(gives || strcmp(value.text, "untouched") == 0, "%s", rows[i].name);
    }
}
END_TEST

static const char *slot_text(const struct care_plan *plan, const char *name)
{
    const struct wording *words =
        wording_read(PROJECT_FOLDER "/templates/wording", "en", NULL, &arena, &diag);
    const struct format format = {.words = words, .arena = &arena, .diag = &diag};
    const struct phrase_context ctx = slots_context(format, plan);
    struct slot_value value = {0};
    size_t count = 0;
    const struct slot_row *rows = slots_table(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(rows[i].name, name) == 0)
            return rows[i].get(&ctx, &value) ? value.text : NULL;
    ck_abort_msg("there is no slot %s", name);
    return NULL;
}

/* The air of the warm side where it was worked out, and not what lies behind the last place. */
START_TEST(the_air_of_the_warm_side_is_told_where_it_is_known)
{
    struct care_plan plan = {.on = {2026, 3, 14}, .booked_minute = -1};
    const size_t room = sizeof plan.humidity.equivalent / sizeof *plan.humidity.equivalent;
    for (size_t i = 0; i < room; i++)
        plan.humidity.equivalent[i].zone = ZONE_COOL_SIDE;
    plan.humidity.equivalent[1].zone = ZONE_WARM_SIDE;
    plan.humidity.equivalent[1].rh_percent = 43;
    plan.humidity.equivalent_count = 1;
    ck_assert_ptr_null(slot_text(&plan, "humidity.warm-side"));
    plan.humidity.equivalent_count = 2;
    ck_assert_ptr_nonnull(strstr(slot_text(&plan, "humidity.warm-side"), "43"));
}
END_TEST

static size_t times_in(const char *text, const char *part)
{
    size_t count = 0;
    for (; text && (text = strstr(text, part)); text++)
        count++;
    return count;
}

/* A food that is given at two times of the week is named once, and with the others. */
START_TEST(a_food_is_named_once)
{
    const struct wording *words =
        wording_read(PROJECT_FOLDER "/templates/wording", "en", NULL, &arena, &diag);
    struct diet_food given[] = {
        {.food = "mouse", .has_class = true, .food_class = FOOD_TREAT, .is_rich = true},
        {.food = "rat", .has_class = true, .food_class = FOOD_TREAT},
        {.food = "mouse", .has_class = true, .food_class = FOOD_TREAT, .is_rich = true},
        {.food = "rat", .has_class = true, .food_class = FOOD_STAPLE},
    };
    struct care_plan plan = {.on = {2026, 3, 14}, .booked_minute = -1};
    plan.feeding.diet_now.given = given;
    plan.feeding.diet_now.given_count = 4;
    const struct format format = {.words = words, .arena = &arena, .diag = &diag};
    const struct phrase_context own = slots_context(format, &plan);
    const char *others = slots_others_text(&own);
    ck_assert_uint_eq(times_in(others, "mice"), 1);
    ck_assert_uint_eq(times_in(others, "rats"), 1);
    ck_assert_uint_eq(times_in(slots_rich_text(&own), "mice"), 1);
    ck_assert_uint_eq(times_in(slots_rich_text(&own), "rats"), 0);
    given[1].is_left_out = true; /* while what was found lasts */
    ck_assert_uint_eq(times_in(slots_others_text(&own), "rats"), 0);
    given[0].has_class = given[2].has_class = false;
    ck_assert_ptr_null(slots_others_text(&own));
}
END_TEST

/* ---- words that agree with the patient's sex ---------------------------------------------- */

static const struct language *language_of(const char *agreement)
{
    const char *text = arena_format(&arena, "reading-ease: none\nagreement:\n%s", agreement);
    struct node *tree = tree_read_bytes(
        "language.yaml", (struct bytes){.data = text, .length = strlen(text)}, &arena, &diag);
    return language_read_tree(tree, "xx", &arena, &diag);
}

/* One whose sex is not known reads as a male; a form that is not written has no letter. */
START_TEST(a_word_agrees_with_the_sex)
{
    const struct language *language =
        language_of("  pronoun: {female: la, other: lo}\n  ending: {female: e}\n"
                    "  polite: {female: her, other: himself}\n");
    ck_assert_ptr_nonnull(language);
    ck_assert_str_eq(agreement_form(language, "patient.pronoun", SEX_FEMALE), "la");
    ck_assert_str_eq(agreement_form(language, "patient.pronoun", SEX_MALE), "lo");
    ck_assert_str_eq(agreement_form(language, "patient.pronoun", SEX_UNKNOWN), "lo");
    ck_assert_str_eq(agreement_form(language, "patient.ending", SEX_FEMALE), "e");
    ck_assert_str_eq(agreement_form(language, "patient.ending", SEX_MALE), "");
    ck_assert_str_eq(agreement_longest(language, "patient.ending"), "e");
    ck_assert_str_eq(agreement_longest(language, "patient.polite"), "himself");
    ck_assert(agreement_has(language, "patient.polite"));
    ck_assert(!agreement_has(language, "polite") && !agreement_has(language, "patient.name"));
    ck_assert_ptr_null(agreement_form(language, "patient.name", SEX_FEMALE));
    ck_assert_ptr_null(agreement_longest(language, "keeper.pronoun"));
}
END_TEST

/* The plan's own name would hide it. */
START_TEST(a_name_of_the_plan_is_no_word_that_agrees)
{
    const struct wording words = {.language = language_of("  length: {female: a, other: o}\n")};
    ck_assert(!wording_check_slots(&words, &arena, &diag));
    ck_assert_str_eq(diag.first->code, "bad-slot");
    ck_assert_int_eq(diag.first->at.line, 3);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("slots");
    TCase *own = tcase_create("slots");
    tcase_add_checked_fixture(own, set_up, tear_down);
    tcase_add_test(own, table_is_sorted_and_every_row_is_found);
    tcase_add_loop_test(own, a_slot_that_nothing_fills_is_told, 0,
                        sizeof sentences / sizeof *sentences);
    tcase_set_timeout(own, 30);
    tcase_add_test(own, a_sentence_of_a_plan_may_name_what_it_knows);
    tcase_add_test(own, the_place_of_a_file_says_its_language);
    tcase_add_test(own, what_a_plan_does_not_know_fills_no_slot);
    tcase_add_test(own, the_air_of_the_warm_side_is_told_where_it_is_known);
    tcase_add_test(own, a_food_is_named_once);
    tcase_add_test(own, a_word_agrees_with_the_sex);
    tcase_add_test(own, a_name_of_the_plan_is_no_word_that_agrees);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
