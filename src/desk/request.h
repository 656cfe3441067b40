/* What a browser asked for, taken apart and judged before anything else sees it. Knows no sockets
 * and no files: bytes in, a checked request or a refusal out (the fuzz target of the desk).
 *
 * Targets follow RFC 3986 (path and query), Host and Origin RFC 9110 and RFC 6454. The desk's own
 * paths need no escapes, so a path with one is refused.
 */
#ifndef BASKLEAF_DESK_REQUEST_H
#define BASKLEAF_DESK_REQUEST_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/file.h"

enum {
    REQUEST_TARGET_LIMIT = 2048,
    REQUEST_PARAMETERS_MOST = 8,
    REQUEST_NAME_LIMIT = 120,
    REQUEST_BODY_LIMIT = 1024 * 1024,
    REQUEST_FILE_LIMIT = 24 * 1024 * 1024 /* of a photo or a logger's file */
};

enum request_method { REQUEST_GET, REQUEST_POST, REQUEST_OTHER };

struct request_parameter {
    const char *key;
    const char *value;
};

struct request {
    enum request_method method;
    const char *path; /* "/api/visits" */
    struct request_parameter parameters[REQUEST_PARAMETERS_MOST];
    size_t parameter_count;
    struct bytes body;
    const char *host, *origin, *token, *fetch_site; /* headers; NULL where missing */
    const char *session;                            /* of the cookie; NULL where missing */
    bool is_tls;
};

/* Splits "/path?key=value&..." into the arena. Values are percent-decoded UTF-8 without control
 * characters. False when anything is out of the ordinary; *out is then untouched. */
bool request_read_target(const char *target, size_t length, struct arena *arena,
                         struct request *out);

/* The value of a parameter, or NULL. */
const char *request_find(const struct request *request, const char *key);

/* A plain file name: letters, digits, '.', '-' and '_', begun by a letter or digit, no "..", ending
 * in `suffix`, REQUEST_NAME_LIMIT bytes at most. Only such a name is ever joined to a folder. */
bool request_is_name(const char *text, const char *suffix);

/* The Host header names this desk: `address:port`, or localhost, 127.0.0.1 or [::1] with the port
 * where the address is loopback. The port of the scheme itself (80, or 443 with TLS) may be left
 * out. */
bool request_host_is_ours(const char *host, const char *address, unsigned port, bool is_tls);

/* A change may come only from a page of this desk: Origin is there and is the scheme and the Host,
 * the token is the desk's, and the browser, where it says (Sec-Fetch-Site), speaks of the same
 * origin. Compares the token in constant time. */
bool request_may_change(const struct request *request, const char *token);

#endif
