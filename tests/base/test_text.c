/* Growing texts, JSON and the collecting of messages. */
#include <math.h>

#include "common/suite.h"
#include "base/fold.h"
#include "base/diag.h"
#include "base/json.h"

static struct arena arena;
static struct strbuf buf;

static void set_up(void)
{
    arena_init(&arena);
    strbuf_init(&buf, &arena);
}

static void tear_down(void)
{
    arena_finish(&arena);
}

START_TEST(strbuf_grows_and_ends_in_nul)
{
    for (int i = 0; i < 1000; i++)
        strbuf_addf(&buf, "%03d", i);
    ck_assert_uint_eq(buf.length, 3000);
    ck_assert_int_eq(buf.text[3000], '\0');
    ck_assert_str_eq(buf.text + 2997, "999");
    strbuf_clear(&buf);
    ck_assert_str_eq(buf.text, "");
}
END_TEST

/* RFC 8259, section 7 (escapes) and section 6 (no NaN, no infinity). */
START_TEST(json_escapes_and_separates)
{
    struct json json;
    json_init(&json, &buf);
    json_open_object(&json);
    json_key_text(&json, "a\"b", "line\nend\x01\\");
    json_key(&json, "list");
    json_open_list(&json);
    json_number(&json, 0.1);
    json_number(&json, NAN);
    json_number(&json, INFINITY);
    json_number(&json, -0.0);
    json_flag(&json, true);
    json_close_list(&json);
    json_key(&json, "empty");
    json_open_object(&json);
    json_close_object(&json);
    json_key_text(&json, "none", NULL);
    json_close_object(&json);
    ck_assert_str_eq(buf.text,
                     "{\n  \"a\\\"b\": \"line\\nend\\u0001\\\\\",\n  \"list\": [\n    0.1,\n"
                     "    null,\n    null,\n    0,\n    true\n  ],\n  \"empty\": {},\n"
                     "  \"none\": null\n}");
}
END_TEST

START_TEST(diag_collects_and_grades)
{
    struct diag diag;
    diag_init(&diag);
    ck_assert_int_eq(diag_exit_status(&diag), 0);
    diag_report(&diag, DIAG_REMARK, "r", (struct mark){0}, "fine");
    ck_assert(!diag_failed(&diag));
    diag_report_path(&diag, DIAG_ERROR, "unknown-key", (struct mark){"v.yaml", 3, 5}, "a.b",
                     "unknown key '%s'", "x\033y");
    ck_assert_int_eq(diag_exit_status(&diag), 1);
    diag_report(&diag, DIAG_USAGE, "u", (struct mark){0}, "bad option");
    ck_assert_int_eq(diag_exit_status(&diag), 2);
    diag_report(&diag, DIAG_FAULT, "f", (struct mark){0}, "disk full");
    ck_assert_int_eq(diag_exit_status(&diag), 3);
    ck_assert_str_eq(diag_message_line(diag.first->next, &arena),
                     "v.yaml:3:5: a.b: unknown key 'x\\x1by'");
    for (int i = 0; i < 1000; i++)
        diag_report(&diag, DIAG_ERROR, "e", (struct mark){0}, "more");
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], 1001);
    size_t kept = 0;
    for (struct diag_message *m = diag.first; m; m = m->next)
        kept++;
    ck_assert_uint_eq(kept, diag.limit);
    diag_finish(&diag);
}
END_TEST

/* Base letters: UnicodeData.txt of Unicode 15, canonical decompositions (U+00D1 is 004E 0303);
 * letters without one as they are written in plain ASCII by custom, no source. */
START_TEST(letters_fold_to_their_base)
{
    static const char *const rows[][2] = {
        {"\u00d1and\u00da", "nandu"},
        {"N\u0303u", "nu"},
        {"\u0141\u00f3d\u017a", "lodz"},
        {"Stra\u00dfe \u00d8", "strasse o"},
        {"\u00c6on", "aeon"},
        {"\u00d7 \u00f7", "\u00d7 \u00f7"},
        {"\u0160kolka", "skolka"},
        {"\u017d \u017f", "z s"},
        {"\u0394 \u732b 12", "\u0394 \u732b 12"},
        {"", ""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ck_assert_str_eq(fold_text(rows[i][0], &arena), rows[i][1]);
    ck_assert_str_eq(fold_text("a\xffZ", &arena), "a\xffz");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("text");
    TCase *tcase = tcase_create("text");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, strbuf_grows_and_ends_in_nul);
    tcase_add_test(tcase, json_escapes_and_separates);
    tcase_add_test(tcase, diag_collects_and_grades);
    tcase_add_test(tcase, letters_fold_to_their_base);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
