/* One run of a fuzz target: an arena, a sink, and what must hold of every message. */
#include "fuzz/fuzz.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/messages.h"

void fuzz_must(bool holds, const char *what)
{
    if (holds)
        return;
    fprintf(stderr, "does not hold: %s\n", what);
    abort();
}

static char path[64];

static void remove_file(void)
{
    unlink(path);
}

const char *fuzz_file(struct bytes bytes)
{
    if (!*path) {
        snprintf(path, sizeof path, "%s/baskleaf-fuzz-%ld.csv",
                 access("/dev/shm", W_OK) ? "/tmp" : "/dev/shm", (long)getpid());
        atexit(remove_file);
    }
    int file = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0600);
    fuzz_must(file >= 0 && write(file, bytes.data, bytes.length) == (ssize_t)bytes.length,
              "a file can be written");
    close(file);
    return path;
}

static void check_messages(const struct diag *diag, struct arena *arena)
{
    for (const struct diag_message *message = diag->first; message; message = message->next) {
        fuzz_must(message->text && *message->text, "a message says something");
        fuzz_must(messages_find(message->code) != NULL, "a message is registered");
        fuzz_must(message->at.line >= 0 && message->at.column >= 0, "a place counts from one");
        const char *line = diag_message_line(message, arena);
        for (const char *c = line; *c; c++)
            fuzz_must((unsigned char)*c >= 0x20 && *c != 0x7f,
                      "a message is one line of plain text");
    }
}

void fuzz_run(const void *data, size_t size)
{
    struct arena arena;
    struct diag diag;
    arena_init(&arena);
    diag_init(&diag);
    struct bytes bytes = {.data = arena_copy_bytes(&arena, data, size), .length = size};
    fuzz_one(bytes, &arena, &diag);
    check_messages(&diag, &arena);
    diag_finish(&diag);
    arena_finish(&arena);
}
