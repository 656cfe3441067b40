/* Escapes what may not stand in the target of a link (RFC 3986). */
#include "pdf/uri.h"
#include "base/hex.h"

#include <stdbool.h>
#include <string.h>

/* RFC 3986, 2.2 and 2.3, and the percent sign of what is encoded already. */
static const char allowed[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"
                              "-._~:/?#[]@!$&'()*+,;=";

const char *uri_encode(const char *uri, struct arena *arena)
{
    static const char digits[] = "0123456789ABCDEF";
    if (uri == NULL)
        return "";
    char *encoded = arena_take(arena, 3 * strlen(uri) + 1), *out = encoded;
    for (; *uri != '\0'; uri++) {
        bool kept = strchr(allowed, *uri) != NULL ||
                    (*uri == '%' && hex_value(uri[1]) >= 0 && hex_value(uri[2]) >= 0);
        if (kept) {
            *out++ = *uri;
        } else {
            *out++ = '%';
            *out++ = digits[(unsigned char)*uri >> 4];
            *out++ = digits[(unsigned char)*uri & 15];
        }
    }
    return encoded;
}
