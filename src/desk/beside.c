/* Takes a file that shall lie beside the records, looks at it, and keeps it under a name that says
 * what is in it: the same file twice is one, and another never takes its place. */
#include "desk/beside.h"

#include <string.h>
#include <unistd.h>

#include "base/fold.h"
#include "desk/handlers.h"
#include "layout/photo_file.h"
#include "records/log_read.h"

enum { STEM_BYTES = 40, DIGEST_LETTERS = 16 };

/* "week-0123456789abcdef.csv" of what was "Week 1.CSV". */
static const char *name_of(const char *file, const char *suffix, struct bytes content,
                           struct arena *arena)
{
    char digest[STORE_VERSION_BYTES];
    const char *dot = strrchr(file, '.');
    size_t length = dot && dot != file ? (size_t)(dot - file) : strlen(file);
    const char *stem = fold_slug(arena_copy_bytes(arena, file, length), STEM_BYTES, arena);
    store_version(content, digest);
    return arena_format(arena, "%s-%.*s%s", *stem ? stem : "file", DIGEST_LETTERS, digest, suffix);
}

static bool begins(struct bytes content, const char *sign, size_t length)
{
    return content.length >= length && memcmp(content.data, sign, length) == 0;
}

static void answer_file(struct answer *answer, const char *name, const struct log_file *log)
{
    struct json *j = &answer->json;
    json_open_object(j);
    json_key_text(j, "file", name);
    json_key(j, "probes");
    json_open_list(j);
    for (size_t i = 0; log && i < log->series_count; i++)
        if (i == 0 || strcmp(log->series[i].probe, log->series[i - 1].probe) != 0)
            json_text(j, log->series[i].probe);
    json_close_list(j);
    json_close_object(j);
}

static bool keep(struct answer *answer, const char *path)
{
    const struct bytes content = answer->request->body;
    if (file_exists(path) ||
        file_write_atomic(path, content.data, content.length, 0640, &answer->diag))
        return true;
    answer_refuse_faults(answer, 500, "not-kept-beside", NULL);
    return false;
}

static void take_photo(struct answer *answer, const char *file)
{
    const struct bytes content = answer->request->body;
    const bool png = begins(content, "\x89PNG", 4);
    const char *name = name_of(file, png ? ".png" : ".jpg", content, answer->arena);
    struct photo photo;
    if (!photo_file_make(content, file, (struct mark){0}, answer->arena, &answer->diag, &photo))
        answer_refuse_faults(answer, 422, "photo-not-read", NULL);
    else if (keep(answer, file_join(answer->arena, answer->desk->settings.folder, name)))
        answer_file(answer, name, NULL);
}

/* A logger's file is read where it lies; one that cannot be read does not stay. */
static void take_log(struct answer *answer, const char *file)
{
    struct date visit;
    const char *on = request_find(answer->request, "on");
    if (!on || !date_read(on, false, &visit))
        visit = desk_today(answer->desk);
    const char *name = name_of(file, ".csv", answer->request->body, answer->arena);
    const char *path = file_join(answer->arena, answer->desk->settings.folder, name);
    const bool was_there = file_exists(path);
    if (!keep(answer, path))
        return;
    const struct log_file *log = log_read(path, visit, answer->arena, &answer->diag);
    if (log) {
        answer_file(answer, name, log);
        return;
    }
    if (!was_there)
        unlink(path);
    answer_refuse_faults(answer, 422, "log-not-read", NULL);
}

/* ?as=photo|log&file=its own name&on=the day of the visit; the body is the file. */
void beside_drop(struct answer *answer)
{
    const char *as = request_find(answer->request, "as");
    const char *file = request_find(answer->request, "file");
    if (as && file && answer->request->body.length && strcmp(as, "photo") == 0)
        take_photo(answer, file);
    else if (as && file && answer->request->body.length && strcmp(as, "log") == 0)
        take_log(answer, file);
    else
        answer_refuse(answer, 400, "not-understood");
}
