/* The words of a language: what a sentence may be, which alternative is said, which form a number
 * chooses, and whether two languages say the same. Plural forms by Unicode's rules for English (i =
 * 1 and v = 0) and a made-up few. */
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "words/catalogue.h"
#include "yaml/tree.h"

static struct language one, few;

static void set_up_languages(void)
{
    const char *wrong = NULL;
    set_up();
    one = few = (struct language){0};
    one.plurals.conditions[PLURAL_ONE] = few.plurals.conditions[PLURAL_ONE] =
        plural_parse("i = 1 and v = 0", &arena, &wrong);
    few.plurals.conditions[PLURAL_FEW] = plural_parse("i = 2..4 and v = 0", &arena, &wrong);
    ck_assert(one.plurals.conditions[PLURAL_ONE] && few.plurals.conditions[PLURAL_FEW]);
}

static const struct wording *read_in(const struct language *language, const char *lang,
                                     const char *text)
{
    struct node *tree =
        tree_read_bytes("words.yaml", (struct bytes){text, strlen(text)}, &arena, &diag);
    const struct wording_source source = {"words", lang, language};
    ck_assert_msg(tree, "%s", text);
    return catalogue_read_trees(&source, &tree, 1, &arena, &diag);
}

/* ---- what is refused ------------------------------------------------------------------------ */

static const struct {
    bool has_few;
    const char *text;
    const char *code, *says; /* NULL: nothing is wrong */
} rows[] = {
    {false, "a: b\n", NULL, NULL},
    {false, "a: \"{b} c {d.e-2}\"\n", NULL, NULL},
    {false, "a: \"{{b}}\"\n", NULL, NULL},
    {false, "a: [b, \"{c}\"]\n", NULL, NULL},
    {false, "a: {count-by: n, one: b, other: c}\n", NULL, NULL},
    {true, "a: {count-by: n, one: b, few: d, other: c}\n", NULL, NULL},
    {false, "a: \"\"\n", "empty-wording", "must be a sentence"},
    {false, "a: \" \t\"\n", "empty-wording", "must be a sentence"},
    {false, "a: ~\n", "empty-wording", "must be a sentence"},
    {false, "a: [b, [c]]\n", "empty-wording", "must be a sentence"},
    {false, "a: []\n", "empty-wording", "1 to 16 items"},
    {false, "a: \"b } c\"\n", "bad-slot", "a lone '}'"},
    {false, "a: \"b {\"\n", "bad-slot", "at '{'"},
    {false, "a: \"{}\"\n", "bad-slot", "at '{}'"},
    {false, "a: \"{B}\"\n", "bad-slot", "at '{B}'"},
    {false, "a: \"{b c}\"\n", "bad-slot", "at '{b c}'"},
    {false, "a: \"{b\"\n", "bad-slot", "at '{b'"},
    {false, "a: \"{b_}\"\n", "bad-slot", "at '{b_}'"},
    {false, "a: {one: b, other: c}\n", "no-count", "'count-by'"},
    {false, "a: {count-by: ~, one: b, other: c}\n", "no-count", "'count-by'"},
    {false, "a: {count-by: [n], one: b, other: c}\n", "no-count", "'count-by'"},
    {false, "a: {count-by: \"\", one: b, other: c}\n", "bad-slot", "'count-by' is a slot's name"},
    {false, "a: {count-by: N, one: b, other: c}\n", "bad-slot", "'count-by' is a slot's name"},
    {false, "a: {count-by: n m, one: b, other: c}\n", "bad-slot", "'count-by' is a slot's name"},
    {false, "a: {count-by: n, one: b, few: d, other: c}\n", "unknown-key",
     "unknown key 'few'; plural forms of this language have count-by, one and other"},
    {true, "a: {count-by: n, one: b, few: d, many: e, other: c}\n", "unknown-key",
     "have count-by, one, few and other"},
    {false, "a: {count-by: n, other: c}\n", "missing-plural", "'one' is missing"},
    {false, "a: {count-by: n, one: c}\n", "missing-plural", "'other' is missing"},
    {true, "a: {count-by: n, one: b, other: c}\n", "missing-plural", "'few' is missing"},
    {false, "[a]\n", "wrong-kind", "a mapping of keys"},
};

START_TEST(a_sentence_is_read_or_told)
{
    const struct wording *words = read_in(rows[_i].has_few ? &few : &one, "en", rows[_i].text);
    ck_assert_msg((words != NULL) == !rows[_i].code, "%s", rows[_i].text);
    ck_assert_int_eq(diag.counts[DIAG_ERROR] > 0, rows[_i].code != NULL);
    if (!rows[_i].code)
        return;
    ck_assert_str_eq(diag.first->code, rows[_i].code);
    ck_assert_msg(strstr(diag.first->text, rows[_i].says), "%s", diag.first->text);
    ck_assert_int_eq(diag.first->at.line, 1);
}
END_TEST

/* A language of no further form has the other alone. */
START_TEST(a_language_without_plurals_has_one_form)
{
    const struct language none = {0};
    ck_assert_ptr_nonnull(read_in(&none, "ja", "a: {count-by: n, other: c}\n"));
    ck_assert_ptr_null(read_in(&none, "ja", "a: {count-by: n, one: b, other: c}\n"));
    ck_assert_ptr_nonnull(strstr(diag.first->text, "have count-by, other"));
}
END_TEST

/* Every category that a language has is listed, from the first; what follows a slot that is none is
 * looked at too. */
START_TEST(each_fault_of_a_sentence_is_told)
{
    const char *wrong = NULL;
    struct language all = few;
    all.plurals.conditions[PLURAL_ZERO] = plural_parse("n = 0", &arena, &wrong);
    ck_assert_ptr_null(
        read_in(&all, "cy", "a: {count-by: n, zero: z, one: b, few: d, many: e, other: c}\n"));
    ck_assert_ptr_nonnull(strstr(diag.first->text, "have count-by, zero, one, few and other"));
    diag_finish(&diag);
    diag_init(&diag);
    ck_assert_ptr_null(read_in(&one, "en", "a: \"{} {{{B\"\n"));
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], 3); /* no name, its brace alone, a capital */
}
END_TEST

START_TEST(a_sentence_has_its_room)
{
    for (int items = 15; items <= 17; items++) {
        const char *text = "a: [b";
        for (int i = 1; i < items; i++)
            text = arena_format(&arena, "%s, b", text);
        ck_assert_int_eq(read_in(&one, "en", arena_format(&arena, "%s]\n", text)) != NULL,
                         items <= 16);
    }
    for (int pieces = 63; pieces <= 65; pieces++) {
        const char *text = "a: \"";
        for (int i = 0; i < pieces; i++)
            text = arena_format(&arena, "%s%s", text, i % 2 ? "{b}" : "c");
        ck_assert_int_eq(read_in(&one, "en", arena_format(&arena, "%s\"\n", text)) != NULL,
                         pieces <= 64);
    }
}
END_TEST

START_TEST(a_key_stands_once_over_all_files)
{
    static const char first[] = "a: b\nc: d\n", second[] = "e: f\n\nc: g\n";
    struct node *trees[] = {
        tree_read_bytes("first.yaml", (struct bytes){first, sizeof first - 1}, &arena, &diag),
        tree_read_bytes("second.yaml", (struct bytes){second, sizeof second - 1}, &arena, &diag)};
    const struct wording_source source = {"words", "en", &one};
    ck_assert_ptr_null(catalogue_read_trees(&source, trees, 2, &arena, &diag));
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], 1);
    ck_assert_int_eq(diag.first->at.line, 3);
    ck_assert_ptr_nonnull(strstr(diag.first->text, "'c' already stands in first.yaml:2"));
    ck_assert_ptr_nonnull(catalogue_read_trees(&source, trees, 1, &arena, &diag));
    ck_assert_ptr_null(
        catalogue_read_trees(&source, (struct node *[]){trees[1], NULL}, 2, &arena, &diag));
}
END_TEST

/* ---- finding -------------------------------------------------------------------------------- */

START_TEST(each_key_is_found_however_many_there_are)
{
    for (int keys = 1; keys < 70; keys++) {
        const char *text = "";
        for (int i = 0; i < keys; i++)
            text = arena_format(&arena, "%skey-%d: sentence %d\n", text, i, i);
        const struct wording *words = read_in(&one, "en", text);
        for (int i = 0; i < keys; i++) {
            const struct wording_entry *entry =
                catalogue_find(words, arena_format(&arena, "key-%d", i));
            ck_assert_ptr_nonnull(entry);
            ck_assert_int_eq(entry->at.line, i + 1);
            ck_assert_str_eq(catalogue_fill(words, entry, NULL, &arena, NULL),
                             arena_format(&arena, "sentence %d", i));
        }
        ck_assert_ptr_null(catalogue_find(words, arena_format(&arena, "key-%d", keys)));
        ck_assert_ptr_null(catalogue_find(words, ""));
    }
}
END_TEST

START_TEST(a_code_stands_between_its_family_and_its_last_part)
{
    static const struct {
        const char *key;
        size_t length;
    } keys[] = {{"short.uv.form", 2}, {"short.a.form", 1}, {"short.form", 0},
                {"short..form", 0},   {"short.uv.for", 0}, {"short.uv.form.x", 0},
                {"shor.uv.form", 0},  {"short.", 0},       {"", 0},
                {"short.a.b.form", 3}};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        ck_assert_msg(catalogue_code_length(keys[i].key, "short.", ".form") == keys[i].length, "%s",
                      keys[i].key);
    const struct wording *words =
        read_in(&one, "en",
                "short.uv.form: a\nterm.x.word: b\nshort.c.form: d\nshort.c.word: e\nterm.x: f\n");
    ck_assert_uint_eq(words->short_forms.count, 2);
    ck_assert_str_eq(words->short_forms.entries[0]->key, "short.uv.form");
    ck_assert_str_eq(words->short_forms.entries[1]->key, "short.c.form");
    ck_assert_uint_eq(words->terms.count, 1);
    ck_assert_str_eq(words->terms.entries[0]->key, "term.x.word");
}
END_TEST

/* ---- filling -------------------------------------------------------------------------------- */

/* n is a number, t a text, everything else is not known. */
static double n;

static bool find(const struct slot_source *self, const char *name, struct slot_value *out)
{
    (void)self;
    if (strcmp(name, "n") == 0)
        *out = (struct slot_value){
            .text = arena_format(&arena, "%g", n), .has_number = true, .number = n};
    else if (strcmp(name, "t") == 0)
        *out = (struct slot_value){.text = "text"};
    return strcmp(name, "n") == 0 || strcmp(name, "t") == 0;
}

static const struct {
    const char *text;
    double n;
    const char *filled, *missing;
} fills[] = {
    {"a: \"b\"\n", 1, "b", NULL},
    {"a: \"{t}\"\n", 1, "text", NULL},
    {"a: \"b {t} c {n}\"\n", 7, "b text c 7", NULL},
    {"a: \"{{t}} {t}\"\n", 1, "{t} text", NULL},
    {"a: \"}}{t}{{\"\n", 1, "}text{", NULL},
    {"a: \"b {x}\"\n", 1, NULL, "x"},
    {"a: [\"b {x}\", \"c {y}\"]\n", 1, NULL, "y"},
    {"a: [\"b {x}\", \"c {t}\", \"d\"]\n", 1, "c text", NULL},
    {"a: {count-by: n, one: \"{n} day\", few: \"{n} dny\", other: \"{n} days\"}\n", 1, "1 day",
     NULL},
    {"a: {count-by: n, one: \"{n} day\", few: \"{n} dny\", other: \"{n} days\"}\n", 3, "3 dny",
     NULL},
    {"a: {count-by: n, one: \"{n} day\", few: \"{n} dny\", other: \"{n} days\"}\n", 5, "5 days",
     NULL},
    {"a: {count-by: n, one: \"{n} day\", few: \"{n} dny\", other: \"{n} days\"}\n", 1.5, "1.5 days",
     NULL},
    {"a: {count-by: t, one: b, few: c, other: d}\n", 1, "d", NULL},
    {"a: {count-by: x, one: b, few: c, other: d}\n", 1, NULL, "x"},
    {"a: [{count-by: x, one: b, few: c, other: d}, e]\n", 1, "e", NULL},
};

START_TEST(the_first_that_can_be_said_is_said)
{
    const struct slot_source slots = {find};
    const struct wording *words = read_in(&few, "cs", fills[_i].text);
    const char *missing = NULL;
    n = fills[_i].n;
    const char *filled =
        catalogue_fill(words, catalogue_find(words, "a"), &slots, &arena, &missing);
    if (fills[_i].filled)
        ck_assert_str_eq(filled, fills[_i].filled);
    else
        ck_assert_msg(!filled, "%s", filled);
    ck_assert_msg(fills[_i].missing ? missing && strcmp(missing, fills[_i].missing) == 0 : !missing,
                  "%s", missing);
    ck_assert_int_eq(catalogue_fill(words, catalogue_find(words, "a"), &slots, &arena, NULL) !=
                         NULL,
                     fills[_i].filled != NULL);
}
END_TEST

/* ---- two languages -------------------------------------------------------------------------- */

static const struct {
    const char *a, *b;
    size_t faults;
    const char *says;
} pairs[] = {
    {"a: b\n", "a: c\n", 0, NULL},
    {"a: \"{t} {n}\"\n", "a: \"{n} und {t}\"\n", 0, NULL},
    {"a: [\"{t}\", b]\n", "a: [c, \"{t}\"]\n", 0, NULL},
    {"a: {count-by: n, one: \"{t}\", other: c}\n", "a: {count-by: n, one: c, other: \"{t}\"}\n", 0,
     NULL},
    {"a: b\nc: d\n", "a: b\n", 1, "'c' is not worded in the language 'es'"},
    {"a: b\n", "a: b\nc: d\n", 1, "'c' is not worded in the language 'en'"},
    {"a: \"{t}\"\n", "a: b\n", 1,
     "'a' has the slot {t}, which its twin in 'es' (words.yaml:1) lacks"},
    {"a: b\n", "a: \"{t}\"\n", 1, "which its twin in 'en'"},
    {"a: \"{t} {t} {n}\"\n", "a: b\n", 2, "{t}"},
    {"a: {count-by: n, one: b, other: c}\n", "a: d\n", 1, "{n}"},
    {"a: {count-by: n, one: b, other: \"{t}\"}\n", "a: \"{n}\"\n", 1, "{t}"},
    {"a: \"{t}\"\nb: \"{n}\"\n", "b: \"{n}\"\n", 1, "'a' is not worded"},
};

START_TEST(two_languages_say_the_same)
{
    const struct wording *a = read_in(&one, "en", pairs[_i].a),
                         *b = read_in(&one, "es", pairs[_i].b);
    ck_assert(a && b && !diag.first);
    ck_assert_int_eq(catalogue_check_pair(a, b, &diag), pairs[_i].faults == 0);
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], pairs[_i].faults);
    if (pairs[_i].says)
        ck_assert_msg(strstr(diag.first->text, pairs[_i].says), "%s", diag.first->text);
}
END_TEST

START_TEST(a_stand_in_takes_the_place_of_one_file)
{
    const struct wording_stand_in in = {
        .lang = "es", .name = "sheet.yaml", .path = "/own/sheet.yaml"};
    ck_assert_str_eq(wording_file_path(&in, "es", "/w/es", "sheet.yaml", &arena),
                     "/own/sheet.yaml");
    ck_assert_str_eq(wording_file_path(&in, "es", "/w/es", "wall.yaml", &arena), "/w/es/wall.yaml");
    ck_assert_str_eq(wording_file_path(&in, "en", "/w/en", "sheet.yaml", &arena),
                     "/w/en/sheet.yaml");
    ck_assert_str_eq(wording_file_path(NULL, "es", "/w/es", "sheet.yaml", &arena),
                     "/w/es/sheet.yaml");
}
END_TEST

#define COUNT(rows_) (int)(sizeof(rows_) / sizeof *(rows_))

int main(void)
{
    Suite *suite = suite_create("catalogue");
    TCase *own = tcase_create("catalogue");
    tcase_add_checked_fixture(own, set_up_languages, tear_down);
    tcase_set_timeout(own, 30);
    tcase_add_loop_test(own, a_sentence_is_read_or_told, 0, COUNT(rows));
    tcase_add_test(own, a_language_without_plurals_has_one_form);
    tcase_add_test(own, each_fault_of_a_sentence_is_told);
    tcase_add_test(own, a_sentence_has_its_room);
    tcase_add_test(own, a_key_stands_once_over_all_files);
    tcase_add_test(own, each_key_is_found_however_many_there_are);
    tcase_add_test(own, a_code_stands_between_its_family_and_its_last_part);
    tcase_add_loop_test(own, the_first_that_can_be_said_is_said, 0, COUNT(fills));
    tcase_add_loop_test(own, two_languages_say_the_same, 0, COUNT(pairs));
    tcase_add_test(own, a_stand_in_takes_the_place_of_one_file);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
