/* A message by what its readers go by: heads by RFC 5322 (2.1.1, 3.2.4, 3.3, 3.6), encoded words by
 * RFC 2047 (2 and 5), parts by RFC 2046 (5.1.1, 5.1.4), base64 by RFC 2045 (6.8). Letters are
 * decoded and digests made by Nettle, days named by the C library. */
#include <nettle/base64.h>
#include <nettle/sha2.h>
#include <string.h>
#include <time.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "mail/address_domain.h"
#include "mail/message.h"

enum { LINE_MOST = 78, WORD_MOST = 75, BASE64_LINE_MOST = 76 };

static struct care_plan plan;
static struct message_parts parts;

static void set_up_message(void)
{
    set_up();
    plan = (struct care_plan){0};
    plan.letterhead.name = (struct text_value){.text = "Fern Hollow", .at = {"clinic.yaml", 1, 7}};
    plan.letterhead.email =
        (struct text_value){.text = "desk@fernhollow.example.org", .at = {"clinic.yaml", 2, 8}};
    plan.keeper.name = (struct text_value){.text = "Hana Okafor", .at = {"visit.yaml", 11, 9}};
    plan.keeper.email =
        (struct text_value){.text = "hana@example.org", .at = {"visit.yaml", 12, 9}};
    plan.patient.name = (struct text_value){.text = "Pebble", .at = {"visit.yaml", 2, 9}};
    parts = (struct message_parts){.subject = "Pebble",
                                   .text = "Dear Hana\n",
                                   .html = "<p>Dear Hana</p>\n",
                                   .pdf = {"%PDF-1", 6},
                                   .phone = {"%PDF-2", 6},
                                   .pdf_name = "pebble.pdf",
                                   .phone_name = "pebble.phone.pdf",
                                   .calendar_name = "pebble.ics",
                                   .record_id = "0123456789abcdef0123",
                                   .date = {2026, 3, 14}};
}

static const char *written(void)
{
    struct bytes out = {0};
    ck_assert(message_write(&plan, &parts, &arena, &diag, &out));
    ck_assert_uint_eq(strlen(out.data), out.length);
    const char *end = out.data;
    for (const char *at = out.data; (end = strstr(at, "\r\n")); at = end + 2) {
        ck_assert_msg(end - at <= LINE_MOST, "%td letters: %.90s", end - at, at);
        ck_assert_ptr_null(memchr(at, '\n', (size_t)(end - at)));
    }
    return out.data;
}

static const char *copied(const char *from, const char *end)
{
    return arena_copy_bytes(&arena, from, (size_t)(end - from));
}

/* What stands behind the name of a head, its further lines joined (RFC 5322, 2.2.3). */
static const char *head(const char *message, const char *name)
{
    const char *mark = arena_format(&arena, "%s:", name), *at = message;
    while (strncmp(at, mark, strlen(mark)) != 0) {
        at = strstr(at, "\r\n");
        ck_assert_msg(at && strncmp(at, "\r\n\r\n", 4) != 0, "no head %s", name);
        at += 2;
    }
    char *out = arena_copy_text(&arena, "");
    for (at += strlen(mark);; at = strstr(at, "\r\n") + 2) {
        const char *end = strstr(at, "\r\n");
        out = arena_format(&arena, "%s%s", out, copied(at, end));
        if (end[2] != ' ')
            break;
    }
    return *out == ' ' ? out + 1 : out;
}

static struct bytes decoded(const char *text, size_t length)
{
    struct base64_decode_ctx base64;
    char *out = arena_take(&arena, BASE64_DECODE_LENGTH(length) + 1);
    size_t count = 0;
    base64_decode_init(&base64);
    ck_assert(base64_decode_update(&base64, &count, (uint8_t *)out, length, text));
    ck_assert(base64_decode_final(&base64));
    out[count] = '\0';
    return (struct bytes){out, count};
}

/* ---- encoded words -------------------------------------------------------------------------- */

static bool is_whole(struct bytes word)
{
    size_t at = 0;
    while (at < word.length) {
        unsigned char c = (unsigned char)word.data[at];
        at += c < 0x80 ? 1 : c >= 0xf0 ? 4 : c >= 0xe0 ? 3 : c >= 0xc0 ? 2 : word.length;
    }
    return at == word.length;
}

/* The text of a run of encoded words; how many they are. */
static size_t words_text(const char *words, const char **out)
{
    static const char open[] = "=?utf-8?B?";
    size_t count = 0;
    *out = "";
    for (const char *at = words; strncmp(at, open, strlen(open)) == 0; count++) {
        const char *end = strstr(at, "?=");
        ck_assert(end && end + 2 - at <= WORD_MOST);
        struct bytes word = decoded(at + strlen(open), (size_t)(end - at) - strlen(open));
        ck_assert_msg(is_whole(word), "a letter is parted: %s", words);
        ck_assert(word.length > 0);
        *out = arena_format(&arena, "%s%s", *out, word.data);
        at = end + 2 + (end[2] == ' ');
    }
    return count;
}

static const char *read_words(const char *text)
{
    const char *out = text;
    return words_text(text, &out) ? out : text;
}

/* RFC 5322, 3.2.4: of a quoted string, else encoded words; the address stands in its brackets
 * behind. */
static const char *read_person(const char *text)
{
    const char *address = strrchr(text, '<');
    ck_assert(address && address > text && address[-1] == ' ');
    if (*text != '"')
        return read_words(copied(text, address - 1));
    const char *end = strchr(text + 1, '"');
    ck_assert(end == address - 2);
    ck_assert_ptr_null(memchr(text, '\\', (size_t)(end - text)));
    return copied(text + 1, end);
}

static void check_heads(const char *text)
{
    parts.subject = text;
    plan.keeper.name.text = plan.letterhead.name.text = text;
    const char *message = written();
    ck_assert_str_eq(read_words(head(message, "Subject")), text);
    ck_assert_str_eq(read_person(head(message, "From")), text);
    ck_assert_str_eq(read_person(head(message, "To")), text);
}

/* Each printable letter of ASCII; what could end a quoted string or begin an encoded word is
 * encoded. */
START_TEST(each_letter_is_read_back)
{
    for (char c = ' '; c <= '~'; c++) {
        const char *text = arena_format(&arena, "a%cb", c);
        check_heads(text);
        bool plain = !strchr("\"\\()<>[]:;@,=?", c);
        ck_assert_msg((*head(written(), "Subject") == 'a') == plain, "%s", text);
    }
}
END_TEST

START_TEST(letters_beyond_ascii_are_encoded)
{
    static const char *const texts[] = {"\u00e9", "\u00ff", "a\u00a0", "\u674e\u5c0f\u9f99",
                                        "\U0001f98e"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        check_heads(texts[i]);
        ck_assert_int_eq(strncmp(head(written(), "Subject"), "=?", 2), 0);
    }
}
END_TEST

/* Of letters of each number of bytes, any length comes back whole, in as few words as letters
 * allow; a word neither begins nor ends with the blank between two of the text. */
START_TEST(a_text_of_any_length_is_read_back)
{
    static const char *const letters[] = {"\u00e9", "\u9f99", "\U0001f98e", "=", "\u00e9 ab "};
    for (size_t i = 0; i < sizeof letters / sizeof *letters; i++) {
        const char *text = "x", *read = NULL;
        for (size_t bytes = 1; bytes < 200; bytes += strlen(letters[i])) {
            text = arena_format(&arena, "%s%s", text, letters[i]);
            check_heads(text);
            size_t count = words_text(head(written(), "Subject"), &read);
            size_t room = 42 - strlen(letters[i]);
            ck_assert_uint_le(count, strlen(text) <= 42 ? 1 : strlen(text) / room + 1);
        }
    }
}
END_TEST

START_TEST(words_are_not_parted_at_a_blank)
{
    for (size_t before = 30; before < 50; before++) {
        char *text = arena_copy_text(&arena, "=================================================="
                                             "\u00e9 nothing else follows it here");
        text[before] = ' ';
        parts.subject = text;
        const char *words = head(written(), "Subject"), *read = NULL;
        ck_assert_uint_ge(words_text(words, &read), 2);
        ck_assert_str_eq(read, text);
        for (const char *at = words; (at = strstr(at, "?B?")); at += 3) {
            const char *end = strstr(at + 3, "?=");
            struct bytes word = decoded(at + 3, (size_t)(end - at - 3));
            ck_assert(word.data[0] != ' ' && word.data[word.length - 1] != ' ');
        }
    }
}
END_TEST

/* A subject is words of the clinic's and the keeper's: no letter of it ends its line. */
START_TEST(a_subject_ends_no_line)
{
    for (int c = 1; c <= 0x7f; c += c == ' ' - 1 ? 0x7f - c : 1) {
        const char *text = arena_format(&arena, "a%cBcc: all", c), *read = NULL;
        parts.subject = text;
        ck_assert_uint_eq(words_text(head(written(), "Subject"), &read), 1);
        ck_assert_str_eq(read, text);
        parts.subject = arena_format(&arena, "a%cb", c);
        ck_assert_uint_eq(words_text(head(written(), "Subject"), &read), 1);
    }
}
END_TEST

START_TEST(a_run_of_blanks_is_read_back)
{
    const char *read = NULL;
    parts.subject = "\u00e9                                                                    e";
    ck_assert_uint_le(words_text(head(written(), "Subject"), &read), 3);
    ck_assert_str_eq(read, parts.subject);
    parts.subject = "                                                            \u00e9";
    ck_assert_uint_eq(words_text(head(written(), "Subject"), &read), 2);
    ck_assert_str_eq(read, parts.subject);
    parts.subject = "\u00e9 forty-two bytes in all, then a blank.. ";
    ck_assert_uint_eq(strlen(parts.subject), 42);
    ck_assert_uint_eq(words_text(head(written(), "Subject"), &read), 1);
}
END_TEST

/* What fits a line is left as it is for whoever reads it raw. */
START_TEST(what_fits_a_line_is_plain)
{
    for (size_t length = 1; length < 120; length++) {
        char *text = arena_take(&arena, length + 1);
        memset(text, 'a', length);
        text[length] = '\0';
        check_heads(text);
        ck_assert_int_eq(*head(written(), "Subject") == 'a',
                         length + strlen("Subject: ") <= LINE_MOST);
    }
}
END_TEST

/* ---- heads ---------------------------------------------------------------------------------- */

START_TEST(a_head_is_one_line)
{
    struct text_value *const values[] = {&plan.letterhead.name, &plan.letterhead.email,
                                         &plan.keeper.name, &plan.keeper.email};
    for (size_t i = 0; i < sizeof values / sizeof *values; i++)
        for (int c = 1; c < 0x81; c++) {
            const char *text = arena_format(&arena, "a%cb@example.org", c),
                       *before = values[i]->text;
            struct bytes out = {.length = 99};
            size_t errors = diag.counts[DIAG_ERROR];
            if (c == 0x80) /* the first beyond ASCII is a letter of two bytes */
                text = "a\u00e0b@example.org";
            values[i]->text = text;
            bool control = c < ' ' || c == 0x7f;
            ck_assert_msg(message_write(&plan, &parts, &arena, &diag, &out) != control, "letter %d",
                          c);
            ck_assert_uint_eq(diag.counts[DIAG_ERROR] - errors, control ? 1 : 0);
            ck_assert(!control || (out.length == 99 && strcmp(diag.last->code, "bad-header") == 0 &&
                                   diag.last->at.line == values[i]->at.line));
            values[i]->text = before;
        }
}
END_TEST

/* Both that are lacking are told at once, each at its place, else where its owner is named. */
START_TEST(what_is_lacking_is_told_at_its_place)
{
    static const char *const nothing[] = {NULL, ""};
    for (size_t i = 0; i < 2; i++)
        for (int placed = 0; placed < 2; placed++)
            for (int named = 0; named < 2; named++) {
                struct bytes out;
                diag_finish(&diag);
                diag_init(&diag);
                plan.letterhead.email =
                    (struct text_value){nothing[i], {"clinic.yaml", placed ? 2 : 0, 8}};
                plan.keeper.email =
                    (struct text_value){nothing[i], {"visit.yaml", placed ? 12 : 0, 9}};
                plan.keeper.name.text = named ? "Hana" : NULL;
                ck_assert(!message_write(&plan, &parts, &arena, &diag, &out));
                ck_assert_uint_eq(diag.counts[DIAG_ERROR], 2);
                ck_assert_str_eq(diag.first->code, "no-address");
                ck_assert_int_eq(diag.first->at.line, placed ? 2 : 1);
                ck_assert_str_eq(diag.last->code, "no-address");
                ck_assert_int_eq(diag.last->at.line, placed ? 12 : named ? 11 : 2);
            }
}
END_TEST

/* RFC 5892: U+2603 stands in no domain; what is sent as it is written (without libidn2) is sent. */
START_TEST(a_domain_that_none_can_be_has_no_message)
{
    const char *sent = NULL;
    struct bytes out;
    plan.keeper.email.text = "hana@a\u2603b.example.org";
    bool can = mail_address_to_send(plan.keeper.email.text, &arena, &sent);
    ck_assert_int_eq(message_write(&plan, &parts, &arena, &diag, &out), can);
    ck_assert(can || (strcmp(diag.last->code, "not-an-address") == 0 && diag.last->at.line == 12));
}
END_TEST

/* RFC 5322, 3.3, every day of two years, one of them a leap year. */
START_TEST(the_day_is_named)
{
    for (time_t day = 1767225600; day < 1767225600 + 800 * 86400L; day += 86400) {
        char wanted[64];
        struct tm tm;
        gmtime_r(&day, &tm);
        parts.date = (struct date){tm.tm_year + 1900, tm.tm_mon + 1, tm.tm_mday};
        strftime(wanted, sizeof wanted, "%a, %d %b %Y 12:00:00 +0000", &tm);
        if (wanted[5] == '0') /* a day of one digit may be written so (RFC 5322, 3.3) */
            memmove(wanted + 5, wanted + 6, strlen(wanted + 5));
        ck_assert_str_eq(head(written(), "Date"), wanted);
    }
}
END_TEST

/* ---- the message's name --------------------------------------------------------------------- */

static const char *key_of(const char *id)
{
    ck_assert_msg(strspn(id, "0123456789abcdef") == 32 && id[32] == '.', "%s", id);
    return copied(id, id + 32);
}

START_TEST(the_id_is_made_of_the_content)
{
    struct sha256_ctx sha;
    uint8_t digest[SHA256_DIGEST_SIZE];
    char wanted[33] = "";
    const char *all = "hana@example.orgDear Hana\n<p>Dear Hana</p>\n%PDF-1BEGIN";
    parts.calendar = (struct bytes){"BEGIN", 5};
    sha256_init(&sha);
    sha256_update(&sha, strlen(all), (const uint8_t *)all);
    sha256_digest(&sha, sizeof digest, digest);
    for (size_t i = 0; i < 16; i++)
        snprintf(wanted + 2 * i, 3, "%02x", digest[i]);
    const char *id = message_id(&plan, &parts, &arena);
    ck_assert_str_eq(id, arena_format(&arena, "%s.0123456789abcdef@baskleaf.invalid", wanted));
    ck_assert_str_eq(head(written(), "Message-ID"), arena_format(&arena, "<%s>", id));
    /* each part makes another one; a password does not */
    const struct message_parts before = parts;
    parts.text = "Dear Ana\n";
    ck_assert_str_ne(key_of(message_id(&plan, &parts, &arena)), wanted);
    parts = before, parts.html = "<p>Dear Ana</p>\n";
    ck_assert_str_ne(key_of(message_id(&plan, &parts, &arena)), wanted);
    parts = before, parts.calendar = (struct bytes){0};
    ck_assert_str_ne(key_of(message_id(&plan, &parts, &arena)), wanted);
    parts = before, parts.pdf = (struct bytes){"%PDF-3", 6};
    ck_assert_str_ne(key_of(message_id(&plan, &parts, &arena)), wanted);
    parts.pdf_plain = before.pdf;
    ck_assert_str_eq(key_of(message_id(&plan, &parts, &arena)), wanted);
}
END_TEST

/* ---- parts ---------------------------------------------------------------------------------- */

static const char *boundary(const char *type)
{
    const char *at = strstr(type, "boundary=\"");
    ck_assert_ptr_nonnull(at);
    at += strlen("boundary=\"");
    return copied(at, strchr(at, '"'));
}

/* The parts of what a boundary parts (RFC 2046, 5.1.1): after the blank line of the heads to the
 * boundary that ends it. */
static size_t split(const char *text, const char *key, const char **out, size_t most)
{
    const char *mark = arena_format(&arena, "--%s", key), *at = strstr(text, mark);
    size_t count = 0;
    ck_assert_ptr_nonnull(at);
    for (at += strlen(mark); strncmp(at, "--\r\n", 4) != 0; at += strlen(mark)) {
        const char *end = strstr(at, arena_format(&arena, "\r\n%s", mark));
        ck_assert_msg(end && count < most && strncmp(at, "\r\n", 2) == 0, "%.200s", at);
        out[count++] = copied(at + 2, end + 2);
        at = end + 2;
    }
    return count;
}

/* Lines of 76 letters but for the last. */
static struct bytes body(const char *part)
{
    const char *at = strstr(part, "\r\n\r\n");
    ck_assert_ptr_nonnull(at);
    ck_assert_str_eq(head(part, "Content-Transfer-Encoding"), "base64");
    at += 4;
    for (const char *line = at, *end; (end = strstr(line, "\r\n")); line = end + 2)
        ck_assert(end - line == BASE64_LINE_MOST ||
                  (end[2] == '\0' && end - line < BASE64_LINE_MOST && end > line));
    return decoded(at, strlen(at));
}

static void check_bytes(struct bytes found, const void *data, size_t length)
{
    ck_assert_uint_eq(found.length, length);
    ck_assert_int_eq(memcmp(found.data, data, length), 0);
}

START_TEST(each_part_is_read_back)
{
    static char noise[400];
    for (size_t i = 0; i < sizeof noise; i++)
        noise[i] = (char)(i * 167 % 251);
    for (size_t length = 0; length < 180; length++)
        for (int dated = 0; dated < 2; dated++) {
            const char *found[4], *letter[2];
            parts.pdf = (struct bytes){noise, length};
            parts.phone = (struct bytes){noise + 1, 57};
            parts.calendar = (struct bytes){dated ? noise + 2 : NULL, dated ? length : 0};
            const char *message = written();
            ck_assert_str_eq(head(message, "MIME-Version"), "1.0");
            ck_assert_int_eq(strncmp(head(message, "Content-Type"), "multipart/mixed;", 16), 0);
            ck_assert_uint_eq(split(message, boundary(head(message, "Content-Type")), found, 4),
                              dated ? 4 : 3);
            check_bytes(body(found[1]), noise, length);
            check_bytes(body(found[2]), noise + 1, 57);
            ck_assert_str_eq(head(found[1], "Content-Type"), "application/pdf");
            ck_assert_str_eq(head(found[1], "Content-Disposition"),
                             "attachment; filename=\"pebble.pdf\"");
            ck_assert_str_eq(head(found[2], "Content-Disposition"),
                             "attachment; filename=\"pebble.phone.pdf\"");
            if (dated) {
                check_bytes(body(found[3]), noise + 2, length);
                ck_assert_str_eq(head(found[3], "Content-Disposition"),
                                 "attachment; filename=\"pebble.ics\"");
                ck_assert_int_eq(strncmp(head(found[3], "Content-Type"), "text/calendar;", 14), 0);
            }
            /* the letter, the best of its kinds last */
            ck_assert_int_eq(strncmp(head(found[0], "Content-Type"), "multipart/alternative;", 22),
                             0);
            ck_assert_uint_eq(split(found[0], boundary(head(found[0], "Content-Type")), letter, 2),
                              2);
            ck_assert_int_eq(strncmp(head(letter[0], "Content-Type"), "text/plain;", 11), 0);
            ck_assert_int_eq(strncmp(head(letter[1], "Content-Type"), "text/html;", 10), 0);
            check_bytes(body(letter[0]), "Dear Hana\r\n", 11);
            check_bytes(body(letter[1]), "<p>Dear Hana</p>\r\n", 18);
        }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("message");
    TCase *own = tcase_create("message");
    tcase_add_checked_fixture(own, set_up_message, tear_down);
    tcase_set_timeout(own, 30);
    tcase_add_test(own, each_letter_is_read_back);
    tcase_add_test(own, letters_beyond_ascii_are_encoded);
    tcase_add_test(own, a_text_of_any_length_is_read_back);
    tcase_add_test(own, words_are_not_parted_at_a_blank);
    tcase_add_test(own, a_subject_ends_no_line);
    tcase_add_test(own, a_run_of_blanks_is_read_back);
    tcase_add_test(own, a_domain_that_none_can_be_has_no_message);
    tcase_add_test(own, what_fits_a_line_is_plain);
    tcase_add_test(own, a_head_is_one_line);
    tcase_add_test(own, what_is_lacking_is_told_at_its_place);
    tcase_add_test(own, the_day_is_named);
    tcase_add_test(own, the_id_is_made_of_the_content);
    tcase_add_test(own, each_part_is_read_back);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
