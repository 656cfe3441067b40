/* Judges a request: method, path, host, origin and token, before anything answers it. */
#include "desk/request.h"
#include "base/hex.h"
#include "base/utf8.h"

#include <stdio.h>
#include <string.h>

static const char letters_and_digits[] =
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";

static bool is_one_of(char c, const char *set)
{
    return c && strchr(set, c);
}

static bool is_alnum(char c)
{
    return is_one_of(c, letters_and_digits);
}

/* Well-formed UTF-8 without control characters. */
static bool is_clean_text(const char *text, size_t length)
{
    for (size_t at = 0; at < length;) {
        int code_point = utf8_next(text, length, &at);
        if (code_point < 0x20 || (code_point >= 0x7f && code_point < 0xa0))
            return false;
    }
    return true;
}

/* NULL for a broken escape or for bytes that are no clean text. */
static const char *decode(const char *text, size_t length, struct arena *arena)
{
    char *out = arena_take(arena, length + 1);
    size_t made = 0;
    for (size_t i = 0; i < length; i++) {
        if (text[i] != '%') {
            out[made++] = text[i] == '+' ? ' ' : text[i];
            continue;
        }
        int high = length - i > 2 ? hex_value(text[i + 1]) : -1;
        int low = length - i > 2 ? hex_value(text[i + 2]) : -1;
        if (high < 0 || low < 0)
            return NULL;
        out[made++] = (char)(high * 16 + low);
        i += 2;
    }
    return is_clean_text(out, made) ? out : NULL;
}

static bool is_plain_path(const char *path, size_t length)
{
    if (!length || path[0] != '/')
        return false;
    for (size_t i = 0; i < length; i++) {
        if (!is_alnum(path[i]) && !is_one_of(path[i], "/._-"))
            return false;
        if (i && path[i - 1] == path[i] && is_one_of(path[i], "/."))
            return false;
    }
    return true;
}

static bool read_parameter(const char *text, size_t length, struct arena *arena,
                           struct request *out)
{
    const char *equals = memchr(text, '=', length);
    size_t key_length = equals ? (size_t)(equals - text) : length;
    if (!key_length || key_length > 20 || out->parameter_count == REQUEST_PARAMETERS_MOST)
        return false;
    for (size_t i = 0; i < key_length; i++)
        if (!(text[i] >= 'a' && text[i] <= 'z'))
            return false;
    const char *key = arena_copy_bytes(arena, text, key_length);
    const char *value = equals ? decode(equals + 1, length - key_length - 1, arena) : "";
    if (!value || request_find(out, key))
        return false;
    out->parameters[out->parameter_count++] = (struct request_parameter){key, value};
    return true;
}

bool request_read_target(const char *target, size_t length, struct arena *arena,
                         struct request *out)
{
    if (length > REQUEST_TARGET_LIMIT)
        return false;
    const char *question = memchr(target, '?', length);
    size_t path_length = question ? (size_t)(question - target) : length;
    struct request read = *out;
    read.parameter_count = 0;
    if (!is_plain_path(target, path_length))
        return false;
    read.path = arena_copy_bytes(arena, target, path_length);
    for (const char *at = question; at && at + 1 < target + length;) {
        const char *begin = at + 1;
        const char *end = memchr(begin, '&', (size_t)(target + length - begin));
        size_t size = (size_t)((end ? end : target + length) - begin);
        if (!read_parameter(begin, size, arena, &read))
            return false;
        at = end;
    }
    *out = read;
    return true;
}

const char *request_find(const struct request *request, const char *key)
{
    for (size_t i = 0; i < request->parameter_count; i++)
        if (strcmp(request->parameters[i].key, key) == 0)
            return request->parameters[i].value;
    return NULL;
}

bool request_is_name(const char *text, const char *suffix)
{
    if (!text || !is_alnum(text[0]))
        return false;
    size_t length = strlen(text), tail = strlen(suffix);
    if (length > REQUEST_NAME_LIMIT || length <= tail || strcmp(text + length - tail, suffix) != 0)
        return false;
    for (size_t i = 0; i < length; i++)
        if (!is_alnum(text[i]) && !is_one_of(text[i], "._-"))
            return false;
    return !strstr(text, "..");
}

/* "name:port", or the name alone where the port is the scheme's own. */
static bool names_place(const char *host, const char *name, unsigned port, bool is_own_port)
{
    char ours[300];
    snprintf(ours, sizeof ours, "%s:%u", name, port);
    return strcmp(host, ours) == 0 || (is_own_port && strcmp(host, name) == 0);
}

bool request_host_is_ours(const char *host, const char *address, unsigned port, bool is_tls)
{
    static const char *const loopback[] = {"127.0.0.1", "localhost", "[::1]"};
    char name[280];
    bool is_own_port = port == (is_tls ? 443u : 80u);
    if (!host)
        return false;
    bool is_loopback = strncmp(address, "127.", 4) == 0 || strcmp(address, "::1") == 0;
    for (size_t i = 0; is_loopback && i < sizeof loopback / sizeof *loopback; i++)
        if (names_place(host, loopback[i], port, is_own_port))
            return true;
    snprintf(name, sizeof name, strchr(address, ':') ? "[%s]" : "%s", address);
    return names_place(host, name, port, is_own_port);
}

static bool same_in_constant_time(const char *a, const char *b)
{
    size_t length = strlen(b);
    if (strlen(a) != length)
        return false;
    unsigned char differs = 0;
    for (size_t i = 0; i < length; i++)
        differs |= (unsigned char)(a[i] ^ b[i]);
    return differs == 0;
}

bool request_may_change(const struct request *request, const char *token)
{
    const char *scheme = request->is_tls ? "https://" : "http://";
    if (!request->origin || !request->host || !request->token)
        return false;
    if (strncmp(request->origin, scheme, strlen(scheme)) != 0 ||
        strcmp(request->origin + strlen(scheme), request->host) != 0)
        return false;
    if (request->fetch_site && strcmp(request->fetch_site, "same-origin") != 0)
        return false;
    return same_in_constant_time(request->token, token);
}
