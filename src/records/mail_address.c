/* The grammar of a mail address: a second one behind a comma would get the sheet too. */
#include "records/mail_address.h"

#include <stddef.h>
#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"

#define LETTERS_AND_DIGITS "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"

/* An atom's characters (RFC 5322, 3.2.3) and a label's (RFC 1123, 2.1). */
static const char atom[] = LETTERS_AND_DIGITS "!#$%&'*+-/=?^_`{|}~";
static const char label[] = LETTERS_AND_DIGITS "-";

/* ---- letters ------------------------------------------------------------------------------- */

/* White space, controls and what has no width or turns the direction: an address that looks like
 * another one (Unicode, PropList.txt and DerivedCoreProperties.txt). */
static bool is_hidden(int code_point)
{
    static const int ranges[][2] = {
        {0x80, 0xA0},     {0xAD, 0xAD},       {0x34F, 0x34F},     {0x61C, 0x61C},
        {0x115F, 0x1160}, {0x1680, 0x1680},   {0x17B4, 0x17B5},   {0x180B, 0x180F},
        {0x2000, 0x200F}, {0x2028, 0x202F},   {0x205F, 0x206F},   {0x3000, 0x3000},
        {0x3164, 0x3164}, {0xFE00, 0xFE0F},   {0xFEFF, 0xFEFF},   {0xFFA0, 0xFFA0},
        {0xFFF0, 0xFFFF}, {0x1BCA0, 0x1BCA3}, {0x1D173, 0x1D17A}, {0xE0000, 0xE0FFF},
    };
    for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++)
        if (code_point >= ranges[i][0] && code_point <= ranges[i][1])
            return true;
    return false;
}

/* How many bytes of the text are such a character or a letter beyond ASCII (RFC 6532, 3.1). */
static size_t one_of(const char *text, const char *characters)
{
    if ((unsigned char)*text < 0x80)
        return *text && strchr(characters, *text) ? 1 : 0;
    size_t length = 0;
    int code_point = utf8_next(text, strlen(text), &length);
    return code_point == UTF8_INVALID || is_hidden(code_point) ? 0 : length;
}

static size_t span_of(const char *text, const char *characters)
{
    size_t length = 0, one;
    while ((one = one_of(text + length, characters)) > 0)
        length += one;
    return length;
}

/* ---- parts --------------------------------------------------------------------------------- */

/* What stands behind atoms with dots between them, or NULL. */
static const char *dot_atom_end(const char *text)
{
    for (;; text++) {
        size_t length = span_of(text, atom);
        if (length == 0)
            return NULL;
        text += length;
        if (*text != '.')
            return text;
    }
}

/* What stands behind a quoted string (RFC 5321, 4.1.2), or NULL. */
static const char *quoted_end(const char *text)
{
    for (text++; *text && *text != '"';) {
        if (*text == '\\') {
            text++;
            if (*text < ' ' || *text > '~')
                return NULL;
            text++;
            continue;
        }
        size_t length = *text >= ' ' && *text <= '~' ? 1 : one_of(text, "");
        if (length == 0)
            return NULL;
        text += length;
    }
    return *text ? text + 1 : NULL;
}

/* Labels with dots between them, at least two, none with a hyphen at an end (RFC 1123, 2.1). */
static bool is_domain(const char *text)
{
    enum { LABEL_MOST = 63 };
    for (size_t count = 1;; count++) {
        size_t length = span_of(text, label);
        if (length == 0 || *text == '-' || text[length - 1] == '-')
            return false;
        /* a label beyond ASCII is measured in the form that is sent: see mail/address_domain.h */
        if (length > LABEL_MOST && strspn(text, label) == length)
            return false;
        text += length;
        if (*text != '.')
            return !*text && count > 1;
        text++;
    }
}

bool mail_address_is_one(const char *text)
{
    enum { LOCAL_MOST = 64, ADDRESS_MOST = 254 };
    const char *at = *text == '"' ? quoted_end(text) : dot_atom_end(text);
    return at && *at == '@' && at - text <= LOCAL_MOST && strlen(text) <= ADDRESS_MOST &&
           is_domain(at + 1);
}

bool mail_address_is_ascii(const char *text)
{
    while (*text && (unsigned char)*text < 0x80)
        text++;
    return !*text;
}

const char *mail_address_domain(const char *address)
{
    const char *at = strrchr(address, '@');
    return at ? at + 1 : "";
}

const char *mail_address_uri(const char *address, struct arena *arena)
{
    /* more than RFC 6068 asks for: what is unreserved there and the '+' of many addresses stay */
    static const char kept[] = LETTERS_AND_DIGITS "-._~+";
    struct strbuf uri;
    strbuf_init(&uri, arena);
    strbuf_add(&uri, "mailto:");
    const char *at = mail_address_domain(address) - 1;
    for (const char *c = address; *c; c++)
        if (c == at || strchr(kept, *c))
            strbuf_add_char(&uri, *c);
        else
            strbuf_addf(&uri, "%%%02X", (unsigned char)*c);
    return uri.text;
}
