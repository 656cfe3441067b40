/* The grammar of a mail address: a second one behind a comma would get the sheet too. */
#include "records/mail_address.h"

#include <stddef.h>
#include <string.h>

#define LETTERS_AND_DIGITS "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"

/* An atom's characters (RFC 5322, 3.2.3) and a label's (RFC 1123, 2.1). */
static const char atom[] = LETTERS_AND_DIGITS "!#$%&'*+-/=?^_`{|}~";
static const char label[] = LETTERS_AND_DIGITS "-";

/* What stands behind parts of at least one character with dots between them, or NULL. */
static const char *dotted_end(const char *text, const char *characters)
{
    for (;; text++) {
        size_t length = strspn(text, characters);
        if (length == 0)
            return NULL;
        text += length;
        if (*text != '.')
            return text;
    }
}

bool mail_address_is_one(const char *text)
{
    enum { LOCAL_MOST = 64, ADDRESS_MOST = 254 };
    const char *at = dotted_end(text, atom);
    if (!at || *at != '@' || at - text > LOCAL_MOST || strlen(text) > ADDRESS_MOST)
        return false;
    const char *end = dotted_end(at + 1, label);
    return end && !*end && strchr(at, '.');
}
