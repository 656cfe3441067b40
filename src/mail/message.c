/* Headers, encoded words, boundaries and base64 of a message. */
#include "mail/message.h"

#include <nettle/base64.h>
#include <nettle/sha2.h>
#include <string.h>

#include "base/strbuf.h"
#include "mail/address_domain.h"
#include "base/hex.h"
#include "base/utf8.h"

enum { BASE64_LINE_BYTES = 57, WORD_BYTES = 42 }; /* 57 bytes make 76 letters, 42 make 56 */
enum { LINE_LETTERS = 78 };

/* ---- letters ------------------------------------------------------------------------------- */

static void add_base64(struct strbuf *out, const char *data, size_t length)
{
    char line[BASE64_ENCODE_RAW_LENGTH(BASE64_LINE_BYTES)];
    for (size_t at = 0; at < length; at += BASE64_LINE_BYTES) {
        size_t part = length - at < BASE64_LINE_BYTES ? length - at : BASE64_LINE_BYTES;
        base64_encode_raw(line, part, (const uint8_t *)data + at);
        strbuf_add_bytes(out, line, BASE64_ENCODE_RAW_LENGTH(part));
        strbuf_add(out, "\r\n");
    }
}

static bool is_plain(const char *text)
{
    for (const char *c = text; *c; c++)
        if ((unsigned char)*c >= 0x7f || *c < ' ' || strchr("\"\\()<>[]:;@,=?", *c))
            return false;
    return strlen(text) <= LINE_LETTERS - strlen("Subject: ");
}

/* Bytes of the next encoded word: whole letters, and no blank at its ends, which some readers
 * double there, unless there are blanks alone. */
static size_t word_bytes(const char *text)
{
    size_t most = WORD_BYTES;
    if (strlen(text) <= most)
        return strlen(text);
    while (utf8_goes_on(text[most]))
        most--;
    size_t part = most;
    while (part && (utf8_goes_on(text[part]) || text[part] == ' ' || text[part - 1] == ' '))
        part--;
    return part ? part : most;
}

/* Encoded words (RFC 2047), parted between characters. */
static void add_words(struct strbuf *out, const char *text)
{
    char letters[BASE64_ENCODE_RAW_LENGTH(WORD_BYTES)];
    for (const char *at = text; *at;) {
        size_t part = word_bytes(at);
        base64_encode_raw(letters, part, (const uint8_t *)at);
        strbuf_add(out, at == text ? "=?utf-8?B?" : "\r\n =?utf-8?B?");
        strbuf_add_bytes(out, letters, BASE64_ENCODE_RAW_LENGTH(part));
        strbuf_add(out, "?=");
        at += part;
    }
}

static void add_text_header(struct strbuf *out, const char *name, const char *text)
{
    strbuf_addf(out, "%s: ", name);
    if (is_plain(text))
        strbuf_add(out, text);
    else
        add_words(out, text);
    strbuf_add(out, "\r\n");
}

static void add_address(struct strbuf *out, const char *name, const char *person,
                        const char *address)
{
    strbuf_addf(out, "%s: ", name);
    if (person && is_plain(person))
        strbuf_addf(out, "\"%s\"\r\n ", person);
    else if (person)
        add_words(out, person), strbuf_add(out, "\r\n ");
    strbuf_addf(out, "<%s>\r\n", address);
}

/* ---- what must be there ---------------------------------------------------------------------- */

static bool is_one_line(const struct text_value *value, const char *what, struct diag *diag)
{
    for (const char *c = value->text; c && *c; c++) {
        if ((unsigned char)*c < ' ' || *c == 0x7f) {
            diag_report(diag, DIAG_ERROR, "bad-header", value->at,
                        "%s must be one line to stand in a message's head", what);
            return false;
        }
    }
    return true;
}

/* As it is sent. What is missing has no place: it is told where its `owner` stands. */
static bool read_address(const struct text_value *value, const struct text_value *owner,
                         const char *what, struct arena *arena, struct diag *diag, const char **out)
{
    if (!value->text || !*value->text) {
        diag_report(diag, DIAG_ERROR, "no-address", value->at.line ? value->at : owner->at,
                    "there is no mail address of %s; write it under 'email'", what);
        return false;
    }
    if (!is_one_line(value, what, diag))
        return false;
    if (mail_address_to_send(value->text, arena, out))
        return true;
    diag_report(diag, DIAG_ERROR, "not-an-address", value->at,
                "the mail address of %s, '%s', has letters in its domain that no domain can have",
                what, value->text);
    return false;
}

struct heads {
    const char *from, *to;
};

static bool read_heads(const struct care_plan *plan, struct arena *arena, struct diag *diag,
                       struct heads *out)
{
    const struct letterhead_plan *clinic = &plan->letterhead;
    const struct keeper_plan *keeper = &plan->keeper;
    const struct text_value *owner = keeper->name.text ? &keeper->name : &plan->patient.name;
    bool good = read_address(&clinic->email, &clinic->name, "the clinic", arena, diag, &out->from);
    good = read_address(&keeper->email, owner, "the keeper", arena, diag, &out->to) && good;
    good = is_one_line(&clinic->name, "the clinic's name", diag) && good;
    return is_one_line(&keeper->name, "the keeper's name", diag) && good;
}

/* ---- the message ------------------------------------------------------------------------------
 */

/* Thirty-two letters of the content, for Message-ID and the boundary. */
static const char *content_key(const struct care_plan *plan, const struct message_parts *parts,
                               struct arena *arena)
{
    struct sha256_ctx sha;
    uint8_t digest[16];
    const char *to = plan->keeper.email.text;
    sha256_init(&sha);
    sha256_update(&sha, strlen(to), (const uint8_t *)to);
    sha256_update(&sha, strlen(parts->text), (const uint8_t *)parts->text);
    sha256_update(&sha, strlen(parts->html), (const uint8_t *)parts->html);
    struct bytes pdf = parts->pdf_plain.data ? parts->pdf_plain : parts->pdf;
    sha256_update(&sha, pdf.length, (const uint8_t *)pdf.data);
    if (parts->calendar.data)
        sha256_update(&sha, parts->calendar.length, (const uint8_t *)parts->calendar.data);
    sha256_digest(&sha, sizeof digest, digest);
    char *key = arena_take(arena, 2 * sizeof digest + 1);
    hex_write(key, digest, sizeof digest, HEX_SMALL);
    return key;
}

static void add_date(struct strbuf *out, struct date date)
{
    static const char days[] = "MonTueWedThuFriSatSun";
    static const char months[] = "JanFebMarAprMayJunJulAugSepOctNovDec";
    /* noon: nobody tells this program the hour */
    strbuf_addf(out, "Date: %.3s, %d %.3s %d 12:00:00 +0000\r\n",
                days + (ptrdiff_t)3 * (date_weekday(date) - 1), date.day,
                months + (ptrdiff_t)3 * (date.month - 1), date.year);
}

static void add_part(struct strbuf *out, const char *key, const char *type, const char *name,
                     struct bytes data)
{
    strbuf_addf(out, "--=_%s\r\nContent-Type: %s\r\nContent-Transfer-Encoding: base64\r\n", key,
                type);
    if (name)
        strbuf_addf(out, "Content-Disposition: attachment;\r\n filename=\"%s\"\r\n", name);
    strbuf_add(out, "\r\n");
    add_base64(out, data.data, data.length);
}

/* Text travels with CR LF, whatever carries it (RFC 2046). */
static struct bytes with_line_ends(const char *text, struct arena *arena)
{
    struct strbuf out;
    strbuf_init(&out, arena);
    for (const char *c = text; *c; c++) {
        if (*c == '\n')
            strbuf_add_char(&out, '\r');
        strbuf_add_char(&out, *c);
    }
    return (struct bytes){out.text, out.length};
}

/* The letter twice: who reads no HTML has it as flowed text. The best stands last (RFC 2046,
 * 5.1.4). */
static void add_letter(struct strbuf *out, const char *key, const struct message_parts *parts,
                       struct arena *arena)
{
    const char *inner = arena_format(arena, "letter_%s", key);
    strbuf_addf(out, "--=_%s\r\nContent-Type: multipart/alternative;\r\n", key);
    strbuf_addf(out, " boundary=\"=_%s\"\r\n\r\n", inner);
    add_part(out, inner, "text/plain; charset=utf-8; format=flowed", NULL,
             with_line_ends(parts->text, arena));
    add_part(out, inner, "text/html; charset=utf-8", NULL, with_line_ends(parts->html, arena));
    strbuf_addf(out, "--=_%s--\r\n", inner);
}

const char *message_id(const struct care_plan *plan, const struct message_parts *parts,
                       struct arena *arena)
{
    return arena_format(arena, "%s.%.16s@baskleaf.invalid", content_key(plan, parts, arena),
                        parts->record_id);
}

bool message_write(const struct care_plan *plan, const struct message_parts *parts,
                   struct arena *arena, struct diag *diag, struct bytes *out)
{
    struct heads heads;
    if (!read_heads(plan, arena, diag, &heads))
        return false;
    const struct letterhead_plan *clinic = &plan->letterhead;
    const struct keeper_plan *keeper = &plan->keeper;
    const char *key = content_key(plan, parts, arena);
    struct strbuf m;
    strbuf_init(&m, arena);
    add_address(&m, "From", clinic->name.text, heads.from);
    add_address(&m, "To", keeper->name.text, heads.to);
    add_text_header(&m, "Subject", parts->subject);
    add_date(&m, parts->date);
    strbuf_addf(&m, "Message-ID:\r\n <%s>\r\nMIME-Version: 1.0\r\n",
                message_id(plan, parts, arena));
    strbuf_addf(&m, "Content-Type: multipart/mixed;\r\n boundary=\"=_%s\"\r\n\r\n", key);
    add_letter(&m, key, parts, arena);
    add_part(&m, key, "application/pdf", parts->pdf_name, parts->pdf);
    add_part(&m, key, "application/pdf", parts->phone_name, parts->phone);
    if (parts->calendar.data)
        add_part(&m, key, "text/calendar; charset=utf-8; method=PUBLISH", parts->calendar_name,
                 parts->calendar);
    strbuf_addf(&m, "--=_%s--\r\n", key);
    *out = (struct bytes){m.text, m.length};
    return true;
}
