/* Appends a line to a record's journal. */
#include "desk/journal.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

bool journal_is_name(const char *who)
{
    if (!who || strlen(who) > JOURNAL_WHO_LIMIT || !who[strspn(who, " ")])
        return false;
    for (const char *c = who; *c; c++)
        if ((unsigned char)*c < 0x20 || *c == 0x7f)
            return false;
    return true;
}

static bool fault(struct diag *diag, const char *path)
{
    diag_report(diag, DIAG_FAULT, "cannot-write", (struct mark){.file = path},
                "the log cannot be written: %s", strerror(errno));
    return false;
}

bool journal_write(const char *path, const struct journal_line *line, struct diag *diag)
{
    char when[32];
    struct tm utc;
    time_t at = (time_t)line->seconds;
    if (!gmtime_r(&at, &utc) || !strftime(when, sizeof when, "%Y-%m-%d %H:%M:%S UTC", &utc))
        when[0] = '\0';
    struct arena arena;
    arena_init(&arena);
    const char *text = arena_format(&arena, "%s\t%s\t%s\t%s\t%s\n", when, line->event, line->who,
                                    line->version, line->remark ? line->remark : "");
    int fd = open(path, O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0640);
    bool good = fd >= 0 && file_write_fd(fd, text, strlen(text), path, diag) && fsync(fd) == 0;
    if (!good)
        fault(diag, path);
    if (fd >= 0)
        close(fd);
    arena_finish(&arena);
    return good;
}

struct bytes journal_read(const char *path, struct arena *arena)
{
    struct diag quiet;
    struct bytes out = {.data = "", .length = 0};
    diag_init(&quiet);
    if (file_exists(path))
        file_read(path, FILE_LIMIT_BYTES, arena, &quiet, &out);
    diag_finish(&quiet);
    return out;
}

enum { PART_AT, PART_DEED, PART_WHO, PART_VERSION, PART_REMARK, PART_COUNT };

/* Takes the line that ends at *end apart; *end moves to the end of the line before. False at the
 * top. */
static bool line_before(struct bytes log, size_t *end, struct arena *arena,
                        const char *parts[PART_COUNT])
{
    while (*end > 0 && log.data[*end - 1] == '\n')
        --*end;
    if (*end == 0)
        return false;
    size_t begin = *end;
    while (begin > 0 && log.data[begin - 1] != '\n')
        begin--;
    char *line = arena_copy_bytes(arena, log.data + begin, *end - begin);
    for (int i = 0; i < PART_COUNT; i++) {
        parts[i] = line ? line : "";
        char *tab = line ? strchr(line, '\t') : NULL;
        if (tab)
            *tab++ = '\0';
        line = tab;
    }
    *end = begin;
    return true;
}

bool journal_has(struct bytes log, const char *event, const char *version)
{
    struct arena arena;
    const char *parts[PART_COUNT];
    bool found = false;
    arena_init(&arena);
    for (size_t end = log.length; !found && line_before(log, &end, &arena, parts);)
        found = strcmp(parts[PART_DEED], event) == 0 && strcmp(parts[PART_VERSION], version) == 0;
    arena_finish(&arena);
    return found;
}

void journal_write_json(struct bytes log, struct json *json, struct arena *arena)
{
    const char *parts[PART_COUNT];
    json_open_list(json);
    for (size_t end = log.length; line_before(log, &end, arena, parts);) {
        json_open_object(json);
        json_key_text(json, "at", parts[PART_AT]);
        json_key_text(json, "deed", parts[PART_DEED]);
        json_key_text(json, "who", parts[PART_WHO]);
        json_key_text(json, "remark", parts[PART_REMARK]);
        json_close_object(json);
    }
    json_close_list(json);
}
