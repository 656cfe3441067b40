/* Growing texts, JSON, the collecting of messages, and how bytes and names are written. */
#include <math.h>

#include "common/suite.h"
#include "base/diag.h"
#include "base/fold.h"
#include "base/hash.h"
#include "base/hex.h"
#include "base/json.h"
#include "base/utf8.h"

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
START_TEST(the_same_calls_write_an_outline)
{
    struct json json;
    json_init_outline(&json, &buf);
    json_open_object(&json);
    json_key(&json, "patient");
    json_open_object(&json);
    json_key_text(&json, "name", "Fern");
    json_key_number(&json, "mass_g", 68);
    json_key_text(&json, "sex", NULL);
    json_key_flag(&json, "go_now", false);
    json_key(&json, "target");
    json_open_list(&json);
    json_number(&json, 27);
    json_number(&json, 30.5);
    json_close_list(&json);
    json_key(&json, "zones");
    json_open_list(&json);
    json_open_object(&json);
    json_key_text(&json, "code", "night");
    json_key_flag(&json, "already", true);
    json_close_object(&json);
    json_close_list(&json);
    json_key(&json, "nothing");
    json_open_list(&json);
    json_close_list(&json);
    json_close_object(&json);
    json_key(&json, "uvb");
    json_null(&json);
    json_close_object(&json);
    ck_assert_str_eq(buf.text, "Patient\n  Fern, mass 68 g, target 27 to 30.5\n  zones:\n"
                               "    - night, already yes\n");
}
END_TEST

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
                     "v.yaml:3:5: a.b: unknown key 'x\\x1by' [B214]");
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

/* RFC 4648, section 10: the test vectors of base16. */
START_TEST(hex_writes_and_reads)
{
    char out[13];
    hex_write(out, "foobar", 6, HEX_CAPITAL);
    ck_assert_str_eq(out, "666F6F626172");
    hex_write(out, "fo", 2, HEX_SMALL);
    ck_assert_str_eq(out, "666f");
    ck_assert_int_eq(hex_value('0'), 0);
    ck_assert_int_eq(hex_value('9'), 9);
    ck_assert_int_eq(hex_value('a'), 10);
    ck_assert_int_eq(hex_value('F'), 15);
    for (const char *c = "/:@G`g\xff"; *c; c++)
        ck_assert_int_eq(hex_value(*c), -1);
    ck_assert_int_eq(hex_value('\0'), -1);
}
END_TEST

/* draft-eastlake-fnv, test vectors of the 64-bit FNV-1a, from memory. */
START_TEST(hash_is_fnv_1a)
{
    ck_assert_uint_eq(hash_text(HASH_START, ""), UINT64_C(0xcbf29ce484222325));
    ck_assert_uint_eq(hash_text(HASH_START, "a"), UINT64_C(0xaf63dc4c8601ec8c));
    ck_assert_uint_eq(hash_text(HASH_START, "foobar"), UINT64_C(0x85944171f73967e8));
    ck_assert_uint_eq(hash_bytes(HASH_START, "foobar", 6), UINT64_C(0x85944171f73967e8));
}
END_TEST

/* The Unicode Standard, section 3.9, table 3-7 and the examples of ill-formed sequences there. */
static const struct {
    const char *text;
    bool is_valid;
    size_t count;
} utf8_rows[] = {
    {"A\xC3\xB1\xE2\x82\xAC\xF0\x90\x8C\x82", true, 4},
    {"\xED\x9F\xBF\xEE\x80\x80\xF4\x8F\xBF\xBF", true, 3},
    {"\xC0\xAF", false, 0},         /* overlong */
    {"\xE0\x9F\x80", false, 0},     /* overlong */
    {"\xF0\x8F\x80\x80", false, 0}, /* overlong */
    {"\xED\xA0\x80", false, 0},     /* a surrogate */
    {"\xF4\x90\x80\x80", false, 0}, /* above U+10FFFF */
    {"\xE1\x80\xE2", false, 0},     /* cut short */
    {"\xC3", false, 0},             /* cut short at the end */
    {"\x80", false, 0},
    {"\xF5\x80\x80\x80", false, 0},
};

START_TEST(utf8_knows_what_is_well_formed)
{
    const char *text = utf8_rows[_i].text;
    ck_assert_int_eq(utf8_is_valid(text, strlen(text)), utf8_rows[_i].is_valid);
    if (utf8_rows[_i].is_valid)
        ck_assert_uint_eq(utf8_count(text, strlen(text)), utf8_rows[_i].count);
}
END_TEST

/* Common practice, no source. */
START_TEST(names_become_slugs)
{
    ck_assert_str_eq(fold_slug(" Ball\tpython ", 60, &arena), "ball-python");
    ck_assert_str_eq(fold_slug("ball_-_PYTHONS", 11, &arena), "ball-python");
    ck_assert_str_eq(fold_slug("ball pythons", 5, &arena), "ball");
    ck_assert_str_eq(fold_slug("\u00d1u & \u00c6on (7)", 60, &arena), "nu-aeon-7");
    ck_assert_str_eq(fold_slug("../\u732b", 60, &arena), "");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("text");
    TCase *tcase = tcase_create("text");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, strbuf_grows_and_ends_in_nul);
    tcase_add_test(tcase, json_escapes_and_separates);
    tcase_add_test(tcase, the_same_calls_write_an_outline);
    tcase_add_test(tcase, diag_collects_and_grades);
    tcase_add_test(tcase, letters_fold_to_their_base);
    tcase_add_test(tcase, hex_writes_and_reads);
    tcase_add_test(tcase, hash_is_fnv_1a);
    tcase_add_loop_test(tcase, utf8_knows_what_is_well_formed, 0,
                        sizeof utf8_rows / sizeof *utf8_rows);
    tcase_add_test(tcase, names_become_slugs);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
