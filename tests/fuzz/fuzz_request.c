/* Bytes -> a request's target, and what is made of its parameters. The first line is the target,
 * the second a Host. */
#include "fuzz/fuzz.h"

#include <string.h>

#include "desk/request.h"

static void check_text(const char *text)
{
    fuzz_must(text != NULL, "a part that was read is there");
    for (const char *c = text; *c; c++)
        fuzz_must((unsigned char)*c >= 0x20 && *c != 0x7f, "no control character comes through");
}

static void check_name(const char *name)
{
    if (!request_is_name(name, ".yaml"))
        return;
    fuzz_must(!strchr(name, '/') && !strstr(name, "..") && name[0] != '.',
              "a name never leads out of its folder");
    fuzz_must(strlen(name) <= REQUEST_NAME_LIMIT, "a name is short");
}

void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag)
{
    (void)diag;
    const char *line = memchr(bytes.data, '\n', bytes.length);
    size_t length = line ? (size_t)(line - bytes.data) : bytes.length;
    const char *host = line ? arena_copy_bytes(arena, line + 1, bytes.length - length - 1) : NULL;
    struct request request = {.host = host, .origin = host, .token = host, .path = "untouched"};
    if (request_host_is_ours(host, "127.0.0.1", 8080, false))
        fuzz_must(strstr(host, ":8080") && strlen(host) <= 14, "only a host of ours is ours");
    fuzz_must(!request_may_change(&request, "0123456789abcdef0123456789abcdef"),
              "no change without its token");
    if (!request_read_target(bytes.data, length, arena, &request)) {
        fuzz_must(strcmp(request.path, "untouched") == 0 && !request.parameter_count,
                  "a refusal leaves nothing");
        return;
    }
    fuzz_must(request.path[0] == '/' && !strstr(request.path, ".."), "a path is plain");
    fuzz_must(request.parameter_count <= REQUEST_PARAMETERS_MOST, "few parameters");
    for (size_t i = 0; i < request.parameter_count; i++) {
        check_text(request.parameters[i].key);
        check_text(request.parameters[i].value);
        check_name(request.parameters[i].value);
        fuzz_must(request_find(&request, request.parameters[i].key) == request.parameters[i].value,
                  "a key stands once");
    }
}
