/* Text -> one mail address or none, and its link. */
#include <string.h>

#include "fuzz/fuzz.h"
#include "records/mail_address.h"

/* What would end a header's line, or begin another address, outside of a quoted string (RFC 5322,
 * 3.2.1 and 3.2.3). */
static void try_taken(const char *text)
{
    size_t length = strlen(text);
    fuzz_must(length <= 254, "an address has at most 254 bytes (RFC 5321, 4.5.3.1.3)");
    for (const char *c = text; *c; c++)
        fuzz_must((unsigned char)*c >= ' ' && *c != '\x7f', "an address holds no control");
    const char *at = strrchr(text, '@');
    fuzz_must(at && at > text && at - text <= 64 && strchr(at, '.'),
              "an address has a local part of at most 64 bytes and a domain of two labels");
    fuzz_must(!strpbrk(at + 1, " ,;:<>()[]\\\"") && at[1] != '.' && text[length - 1] != '.',
              "a domain is labels with dots between them");
    if (*text != '"')
        fuzz_must(strcspn(text, " ,;:<>()[]\\\"@") == (size_t)(at - text),
                  "a local part without quotes is atoms with dots between them");
    else
        fuzz_must(at[-1] == '"', "a quoted local part ends in its quote");
}

static void try_link(const char *text, struct arena *arena)
{
    const char *uri = mail_address_uri(text, arena);
    fuzz_must(strncmp(uri, "mailto:", 7) == 0, "a link says what it opens");
    for (const char *c = uri + 7; *c; c++)
        fuzz_must(*c > ' ' && *c < '\x7f' && !strchr("\"<>\\^`{|}?&#,;", *c),
                  "a link holds what a URI may hold, and no second field (RFC 6068, 2)");
}

void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag)
{
    (void)diag;
    if (bytes.length == 0 || memchr(bytes.data, 0, bytes.length))
        return;
    char *text = arena_take(arena, bytes.length + 1);
    memcpy(text, bytes.data, bytes.length);
    text[bytes.length] = 0;
    if (mail_address_is_one(text))
        try_taken(text);
    try_link(text, arena);
}
