/* Appends a line to a record's journal. */
#include "desk/journal.h"

#include <ctype.h>
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

bool journal_is_signer(const char *by)
{
    int words = 0, letters = 0;
    if (!journal_is_name(by))
        return false;
    for (const unsigned char *c = (const unsigned char *)by;; c++) {
        bool is_letter = *c >= 0x80 || isalpha(*c);
        letters = is_letter ? letters + 1 : 0;
        words += letters == 2; /* a word counts once it has two letters */
        if (!*c)
            return words >= 2;
    }
}

static bool fault(struct diag *diag, const char *path)
{
    diag_report(diag, DIAG_FAULT, "cannot-write", (struct mark){.file = path},
                "the log cannot be written: %s", strerror(errno));
    return false;
}

void journal_time(long long seconds, char out[JOURNAL_TIME_BYTES])
{
    struct tm utc;
    time_t at = (time_t)seconds;
    if (!gmtime_r(&at, &utc) || !strftime(out, JOURNAL_TIME_BYTES, "%Y-%m-%d %H:%M:%S UTC", &utc))
        out[0] = '\0';
}

static int open_log(const char *path)
{
    return open(path, O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0640);
}

bool journal_is_open(const char *path, struct diag *diag)
{
    int fd = open_log(path);
    if (fd < 0)
        return fault(diag, path);
    close(fd);
    return true;
}

bool journal_write(const char *path, const struct journal_line *line, struct diag *diag)
{
    char when[JOURNAL_TIME_BYTES];
    struct arena arena;
    journal_time(line->seconds, when);
    arena_init(&arena);
    const char *text = arena_format(&arena, "%s\t%s\t%s\t%s\t%s\n", when, line->event, line->who,
                                    line->version, line->remark ? line->remark : "");
    int fd = open_log(path);
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

const char *journal_last(struct bytes log, const char *const *events, const char *version)
{
    struct arena arena;
    const char *parts[PART_COUNT], *found = NULL;
    arena_init(&arena);
    for (size_t end = log.length; !found && line_before(log, &end, &arena, parts);)
        for (size_t i = 0; events[i] && !found; i++)
            if (strcmp(parts[PART_DEED], events[i]) == 0 &&
                strcmp(parts[PART_VERSION], version) == 0)
                found = events[i];
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
