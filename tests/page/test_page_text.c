/* UTF-8, code pages, link targets and ToUnicode maps against their published tables. */
#include <iconv.h>
#include <stdint.h>
#include <string.h>

#include "common/suite.h"
#include "pdf/codepages.h"
#include "pdf/tounicode.h"
#include "pdf/uri.h"
#include "base/utf8.h"

/* The next code point of a text that ends in NUL, and where it ended. */
static int next(const char *text, size_t *at)
{
    *at = 0;
    return utf8_next(text, strlen(text), at);
}

START_TEST(utf8_reads_each_length)
{
    size_t at;
    ck_assert_int_eq(next("a", &at), 'a');
    ck_assert_uint_eq(at, 1);
    ck_assert_int_eq(next("\xC2\xB0", &at), 0xB0);
    ck_assert_uint_eq(at, 2);
    ck_assert_int_eq(next("\xE2\x89\xA5 5", &at), 0x2265);
    ck_assert_uint_eq(at, 3);
    ck_assert_int_eq(next("\xF0\x9F\xA6\x8E", &at), 0x1F98E);
    ck_assert_uint_eq(at, 4);
}
END_TEST

/* The Unicode Standard 15.0, table 3-7: every form that it leaves out. */
START_TEST(utf8_refuses_what_is_not_well_formed)
{
    static const char *const bad[] = {
        "\x80",     /* a trailing byte alone */
        "\xC0\xAF", /* an overlong slash */
        "\xC1\x81",
        "\xE0\x80\xAF",
        "\xE0\x9F\xBF",
        "\xED\xA0\x80", /* a surrogate */
        "\xF0\x8F\xBF\xBF",
        "\xF4\x90\x80\x80", /* beyond U+10FFFF */
        "\xF5\x80\x80\x80",
        "\xFE",
        "\xFF",
        "\xE2\x89", /* cut off */
        "\xE2\x28\xA1",
        "\xF0\x9F\xA6",
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        size_t at;
        ck_assert_msg(next(bad[i], &at) == UTF8_INVALID, "form %zu", i);
        ck_assert_uint_eq(at, 1);
    }
}
END_TEST

/* The C library's own table of code page 1252 against ours. */
START_TEST(win_ansi_equals_code_page_1252)
{
    iconv_t table = iconv_open("UTF-16BE", "CP1252");
    ck_assert(table != (iconv_t)-1);
    int known = 0;
    for (int code = 0x20; code < 0x100; code++) {
        char in = (char)code, out[4];
        char *from = &in, *to = out;
        size_t in_left = 1, out_left = sizeof out;
        bool has = iconv(table, &from, &in_left, &to, &out_left) != (size_t)-1 && code != 0x7F;
        unsigned expected = has ? (unsigned)(uint8_t)out[0] << 8 | (uint8_t)out[1] : 0;
        if (expected < 0xA0 && code >= 0x80)
            expected = 0; /* a control character is none */
        ck_assert_msg(codepages_unicode(CODEPAGE_WIN_ANSI, code) == expected, "byte %02X", code);
        enum codepage page;
        int back;
        if (expected != 0) {
            ck_assert(codepages_find(expected, &page, &back));
            ck_assert_int_eq(page, CODEPAGE_WIN_ANSI);
            ck_assert_int_eq(back, code);
            known++;
        }
    }
    iconv_close(table);
    ck_assert_int_eq(known, 95 + 27 + 96); /* ASCII, the upper 27, Latin-1 */
}
END_TEST

START_TEST(own_pages_lead_there_and_back)
{
    int rows = 0;
    for (int page = CODEPAGE_LETTERS; page < CODEPAGE_COUNT; page++) {
        unsigned last = 0;
        for (int code = 0; code < 256; code++) {
            unsigned code_point = codepages_unicode((enum codepage)page, code);
            if (code_point == 0) {
                ck_assert_ptr_null(codepages_name((enum codepage)page, code));
                continue;
            }
            enum codepage found;
            int back;
            ck_assert(code >= 33 && code_point > last);
            ck_assert(codepages_find(code_point, &found, &back));
            ck_assert_int_eq(found, page);
            ck_assert_int_eq(back, code);
            ck_assert_ptr_nonnull(codepages_name((enum codepage)page, code));
            last = code_point;
            rows++;
        }
    }
    ck_assert_int_gt(rows, 150);
}
END_TEST

/* All letters of ISO 8859-2, by the C library's table: Central Europe in single bytes. */
START_TEST(pages_hold_all_of_latin_2)
{
    iconv_t table = iconv_open("UTF-16BE", "ISO-8859-2");
    ck_assert(table != (iconv_t)-1);
    for (int code = 0xA0; code < 0x100; code++) {
        char in = (char)code, out[4];
        char *from = &in, *to = out;
        size_t in_left = 1, out_left = sizeof out;
        ck_assert(iconv(table, &from, &in_left, &to, &out_left) != (size_t)-1);
        unsigned code_point = (unsigned)(uint8_t)out[0] << 8 | (uint8_t)out[1];
        enum codepage page;
        int back;
        ck_assert_msg(codepages_find(code_point, &page, &back), "U+%04X", code_point);
    }
    iconv_close(table);
}
END_TEST

START_TEST(pages_lack_what_they_lack)
{
    static const unsigned absent[] = {0, 0x1F, 0x7F, 0x81, 0x9D, 0x3B1, 0x416, 0x1EA1, 0xFFFF};
    for (size_t i = 0; i < sizeof absent / sizeof absent[0]; i++) {
        enum codepage page;
        int code;
        ck_assert_msg(!codepages_find(absent[i], &page, &code), "U+%04X", absent[i]);
    }
}
END_TEST

/* RFC 3986: allowed characters stay, all others become %XX; the examples are section 2.1's. */
START_TEST(uri_is_percent_encoded)
{
    struct arena arena;
    arena_init(&arena);
    ck_assert_str_eq(uri_encode("https://example.org/a?b=c&d#e", &arena),
                     "https://example.org/a?b=c&d#e");
    ck_assert_str_eq(uri_encode("tel:+1-555-0100", &arena), "tel:+1-555-0100");
    ck_assert_str_eq(uri_encode("a b\n\"<>\\^`{|}", &arena), "a%20b%0A%22%3C%3E%5C%5E%60%7B%7C%7D");
    ck_assert_str_eq(uri_encode("\xC3\xA9", &arena), "%C3%A9");
    ck_assert_str_eq(uri_encode("50% %41 %4", &arena), "50%25%20%41%20%254");
    ck_assert_str_eq(uri_encode(NULL, &arena), "");
    arena_finish(&arena);
}
END_TEST

/* ISO 32000-1, 9.10.3: the last byte of a range may not overflow, on either side. */
START_TEST(ranges_stop_at_their_last_byte)
{
    struct arena arena;
    struct strbuf out;
    arena_init(&arena);
    strbuf_init(&out, &arena);
    uint8_t *used = arena_take(&arena, 8192);
    for (unsigned code = 0x3FE; code <= 0x402; code++)
        used[code / 8] |= (uint8_t)(1u << code % 8);
    tounicode_two_byte(used, &out);
    ck_assert_ptr_nonnull(strstr(out.text, "2 beginbfrange\n"
                                           "<03FE><03FF><03FE>\n"
                                           "<0400><0402><0400>\n"
                                           "endbfrange\n"));
    arena_finish(&arena);
}
END_TEST

START_TEST(more_than_a_hundred_ranges_take_two_blocks)
{
    struct arena arena;
    struct strbuf out;
    arena_init(&arena);
    strbuf_init(&out, &arena);
    uint8_t *used = arena_take(&arena, 8192);
    for (unsigned i = 0; i < 101; i++)
        used[i] = 1; /* every eighth code point */
    tounicode_two_byte(used, &out);
    ck_assert_ptr_nonnull(strstr(out.text, "100 beginbfrange\n<0000><0000><0000>\n"));
    ck_assert_ptr_nonnull(strstr(out.text, "\n1 beginbfrange\n<0320><0320><0320>\n"));
    arena_finish(&arena);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("page_text");
    TCase *tcase = tcase_create("all");
    tcase_add_test(tcase, utf8_reads_each_length);
    tcase_add_test(tcase, utf8_refuses_what_is_not_well_formed);
    tcase_add_test(tcase, win_ansi_equals_code_page_1252);
    tcase_add_test(tcase, own_pages_lead_there_and_back);
    tcase_add_test(tcase, pages_hold_all_of_latin_2);
    tcase_add_test(tcase, pages_lack_what_they_lack);
    tcase_add_test(tcase, uri_is_percent_encoded);
    tcase_add_test(tcase, ranges_stop_at_their_last_byte);
    tcase_add_test(tcase, more_than_a_hundred_ranges_take_two_blocks);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
