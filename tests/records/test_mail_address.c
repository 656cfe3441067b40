/* The grammar of a mail address by RFC 5322, 3.2.3, 3.2.4 and 3.4.1, RFC 5321, 4.5.3.1, RFC 1123,
 * 2.1 and RFC 6531; letters that nobody can see by Unicode 15.0, PropList.txt (White_Space) and
 * DerivedCoreProperties.txt (Default_Ignorable_Code_Point); links by RFC 6068. */
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "records/mail_address.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static const struct {
    const char *text;
    bool good;
} rows[] = {
    {"hana@example.org", true},
    {"a@b.c", true},
    {"A.b-9@sub.example.org", true},
    {"!#$%&'*+-/=?^_`{|}~@b.c", true},
    {"h\u00E9@b.c", true},
    {"a@b\u00E9.c", true},
    {"\U0001F98E@b.c", true},
    {"\"a b\"@b.c", true},
    {"\"a\\\"b\"@b.c", true},
    {"\"a\\\\\"@b.c", true},
    {"\"a\\ \"@b.c", true},
    {"\"a\\~\"@b.c", true},
    {"\"@\"@b.c", true},
    {"\"\"@b.c", true},
    {"\"h\u00E9\"@b.c", true},
    {"\"~\"@b.c", true},
    {"", false},
    {"a", false},
    {"a@", false},
    {"@b.c", false},
    {"a@b", false},
    {"a@b.", false},
    {"a@.b", false},
    {"a@b..c", false},
    {"a@b.c.", false},
    {".a@b.c", false},
    {"a.@b.c", false},
    {"a..b@b.c", false},
    {"a b@b.c", false},
    {"a@b.c x", false},
    {"a@b.c,d@e.f", false},
    {"a@b.c>", false},
    {"<a@b.c>", false},
    {"a@b@c.d", false},
    {"a(x)@b.c", false},
    {"a@[127.0.0.1]", false},
    {"a@-b.c", false},
    {"a@b-.c", false},
    {"a@b.-c", false},
    {"a@b.c-", false},
    {"a@b_c.d", false},
    {"\"a@b.c", false},
    {"\"a\"b@b.c", false},
    {"\"a\\", false},
    {"\"a\\\x1F\"@b.c", false},
    {"\"a\\\x7F\"@b.c", false},
    {"\"a\x7F\"@b.c", false},
    {"\"a\nb\"@b.c", false},
    {"a\x7F@b.c", false},
    {"\xC3@b.c", false},
    {"\"\xC3\"@b.c", false},
};

START_TEST(one_address_and_nothing_else)
{
    ck_assert_msg(mail_address_is_one(rows[_i].text) == rows[_i].good, "%s", rows[_i].text);
}
END_TEST

static char *letters(size_t count)
{
    char *text = arena_take_array(&arena, count + 1, 1);
    memset(text, 'a', count);
    return text;
}

/* 64 before the sign, 63 a label, 254 in all. */
START_TEST(the_lengths_of_the_standard)
{
    ck_assert(mail_address_is_one(arena_format(&arena, "%s@b.c", letters(64))));
    ck_assert(!mail_address_is_one(arena_format(&arena, "%s@b.c", letters(65))));
    ck_assert(mail_address_is_one(arena_format(&arena, "\"%s\"@b.c", letters(62))));
    ck_assert(!mail_address_is_one(arena_format(&arena, "\"%s\"@b.c", letters(63))));
    ck_assert(mail_address_is_one(arena_format(&arena, "a@%s.c", letters(63))));
    ck_assert(!mail_address_is_one(arena_format(&arena, "a@%s.c", letters(64))));
    ck_assert(mail_address_is_one(arena_format(&arena, "a@b.%s", letters(63))));
    ck_assert(!mail_address_is_one(arena_format(&arena, "a@b.%s", letters(64))));
    /* beyond ASCII a label is measured in the form that is sent */
    ck_assert(mail_address_is_one(arena_format(&arena, "a@%s\u00E9.c", letters(63))));
    const char *labels = arena_format(&arena, "%s.%s.%s", letters(63), letters(63), letters(61));
    ck_assert(mail_address_is_one(arena_format(&arena, "%s@%s", letters(65 - 1), labels)));
    ck_assert(!mail_address_is_one(arena_format(&arena, "%s@%sa", letters(65 - 1), labels)));
}
END_TEST

/* First and last of each range, and what lies beside it and can be seen. */
static const struct {
    unsigned first, last;
} hidden_rows[] = {
    {0x80, 0xA0},     {0xAD, 0xAD},     {0x34F, 0x34F},     {0x61C, 0x61C},     {0x115F, 0x1160},
    {0x1680, 0x1680}, {0x17B4, 0x17B5}, {0x180B, 0x180F},   {0x2000, 0x200F},   {0x2028, 0x202F},
    {0x205F, 0x206F}, {0x3000, 0x3000}, {0x3164, 0x3164},   {0xFE00, 0xFE0F},   {0xFEFF, 0xFEFF},
    {0xFFA0, 0xFFA0}, {0xFFF0, 0xFFF8}, {0x1BCA0, 0x1BCA3}, {0x1D173, 0x1D17A}, {0xE0000, 0xE0FFF},
};

static bool is_taken(unsigned code_point)
{
    char bytes[8] = {0};
    size_t length = code_point < 0x800 ? 2 : code_point < 0x10000 ? 3 : 4;
    static const unsigned char leads[] = {0, 0, 0xC0, 0xE0, 0xF0};
    for (size_t i = length; i-- > 1; code_point >>= 6)
        bytes[i] = (char)(0x80 | (code_point & 0x3F));
    bytes[0] = (char)(leads[length] | code_point);
    return mail_address_is_one(arena_format(&arena, "a%sb@c.d", bytes));
}

START_TEST(no_letter_that_nobody_can_see)
{
    const unsigned first = hidden_rows[_i].first, last = hidden_rows[_i].last;
    ck_assert(!is_taken(first) && !is_taken(last) && !is_taken((first + last) / 2));
    if (first > 0x80)
        ck_assert(is_taken(first - 1));
    if (last != 0xFFF8)
        ck_assert(is_taken(last + 1));
}
END_TEST

START_TEST(an_address_as_a_link)
{
    static const struct {
        const char *address, *uri, *domain;
        bool ascii;
    } links[] = {
        {"a.b-c_d~e+f@x.org", "mailto:a.b-c_d~e+f@x.org", "x.org", true},
        {"\"a b\"@x.org", "mailto:%22a%20b%22@x.org", "x.org", true},
        {"\"a@b\"@x.org", "mailto:%22a%40b%22@x.org", "x.org", true},
        {"a%b&c?d=e@x.org", "mailto:a%25b%26c%3Fd%3De@x.org", "x.org", true},
        {"h\u00E9@x.org", "mailto:h%C3%A9@x.org", "x.org", false},
        {"h@\u00E9.org", "mailto:h@%C3%A9.org", "\u00E9.org", false},
    };
    ck_assert_str_eq(mail_address_uri(links[_i].address, &arena), links[_i].uri);
    ck_assert_str_eq(mail_address_domain(links[_i].address), links[_i].domain);
    ck_assert_int_eq(mail_address_is_ascii(links[_i].address), links[_i].ascii);
}
END_TEST

START_TEST(what_has_no_sign_has_no_domain)
{
    ck_assert_str_eq(mail_address_domain("nobody"), "");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("mail_address");
    TCase *tests = tcase_create("mail_address");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, one_address_and_nothing_else, 0, COUNT(rows));
    tcase_add_test(tests, the_lengths_of_the_standard);
    tcase_add_loop_test(tests, no_letter_that_nobody_can_see, 0, COUNT(hidden_rows));
    tcase_add_loop_test(tests, an_address_as_a_link, 0, 6);
    tcase_add_test(tests, what_has_no_sign_has_no_domain);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
