/* A short word changes before a sound: "y" is "e" before "i" and "hi", and stays before "hia" and
 * "hie" (RAE, Ortografia de la lengua espanola, 2010). */
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "words/sound.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct text_value before[] = {{.text = "i"}, {.text = "\xc3\xad"}, {.text = "hi"}},
                         but[] = {{.text = "hia"}, {.text = "hie"}},
                         before_o[] = {{.text = "o"}, {.text = "ho"}};
static struct sound sounds[] = {
    {.name = {.text = "y"},
     .becomes = {.text = "e"},
     .before = {.items = before, .count = 3},
     .but = {.items = but, .count = 2}},
    {.name = {.text = "o"}, .becomes = {.text = "u"}, .before = {.items = before_o, .count = 2}},
};
static const struct language spanish = {.sounds = {.items = sounds, .count = 2}};

static const struct {
    const char *text, *next, *said;
} rows[] = {
    {"dolor y infecci\xc3\xb3n", "infecci\xc3\xb3n", "dolor e infecci\xc3\xb3n"},
    {"dolor y Infecci\xc3\xb3n", "Infecci\xc3\xb3n", "dolor e Infecci\xc3\xb3n"},
    {"dolor y hinchaz\xc3\xb3n", "hinchaz\xc3\xb3n", "dolor e hinchaz\xc3\xb3n"},
    {"agua y hielo", "hielo", "agua y hielo"},
    {"agua y hiato", "hiato", "agua y hiato"},
    {"agua y sal", "sal", "agua y sal"},
    {"dolor y \xc3\xadleo", "\xc3\xadleo", "dolor e \xc3\xadleo"},
    {"siete o ocho", "ocho", "siete u ocho"},
    {"uno o hoja", "hoja", "uno u hoja"},
    {"uno o dos", "dos", "uno o dos"},
    {"ley infecci\xc3\xb3n", "infecci\xc3\xb3n", "ley infecci\xc3\xb3n"}, /* no word by itself */
    {"y infecci\xc3\xb3n", "infecci\xc3\xb3n", "y infecci\xc3\xb3n"},     /* nothing before it */
    {" y i", "i", " e i"},
    {"a y i", "i", "a e i"},
    {"a y h", "h", "a y h"},
    {"a y i y o", "o", "a y i y o"},
    {"a y i", "o", "a y i"}, /* it does not end with that */
};

START_TEST(a_word_sounds_by_the_next)
{
    ck_assert_str_eq(sound_joined(&spanish, rows[_i].text, rows[_i].next, &arena), rows[_i].said);
}
END_TEST

START_TEST(a_language_without_sounds_changes_nothing)
{
    const struct language none = {0};
    ck_assert_str_eq(sound_joined(&none, "dolor y infecto", "infecto", &arena), "dolor y infecto");
}
END_TEST

/* What it becomes and before what must be said; at most sixteen beginnings. */
START_TEST(a_sound_is_read_whole)
{
    static const struct {
        const char *text;
        bool good;
    } files[] = {
        {"becomes: e\nbefore: [i]\n", true},
        {"becomes: e\nbefore: [i]\nbut: [hia]\n", true},
        {"becomes: e\n", false},
        {"before: [i]\n", false},
        {"becomes: e\nbefore: [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p]\n", true},
        {"becomes: e\nbefore: [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, q]\n", false},
        {"becomes: e\nbefore: [a]\nbut: [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p]\n", true},
        {"becomes: e\nbefore: [a]\nbut: [a, b, c, d, e, f, g, h, i, j, k, l, m, n, o, p, "
         "q]\n",
         false}};
    for (int i = 0; i < COUNT(files); i++) {
        struct sound sound = {0};
        const struct node *tree = tree_read_bytes(
            "a.yaml", (struct bytes){files[i].text, strlen(files[i].text)}, &arena, &diag);
        ck_assert_msg(bind_record(tree, &sound_schema, "", &arena, &diag, &sound) == files[i].good,
                      "%s", files[i].text);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("sound");
    TCase *tcase = tcase_create("sound");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_loop_test(tcase, a_word_sounds_by_the_next, 0, COUNT(rows));
    tcase_add_test(tcase, a_language_without_sounds_changes_nothing);
    tcase_add_test(tcase, a_sound_is_read_whole);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
