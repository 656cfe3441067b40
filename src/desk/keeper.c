/* Voiding one record, and handing out or forgetting all that lies here of one keeper. */
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/fold.h"
#include "desk/drafts.h"
#include "desk/handlers.h"
#include "desk/journal.h"
#include "desk/queue.h"
#include "desk/zip.h"

enum { KEEPER_FILES_MOST = 5000 };

/* ---- one record ------------------------------------------------------------------------------ */

static const char *in_folder(const struct answer *answer, const char *folder, const char *name)
{
    return arena_format(answer->arena, "%s/%s/%s", answer->desk->settings.folder, folder, name);
}

/* Record and log go to `.voided`, under names that nothing there has yet. */
static bool move_away(struct answer *answer, const struct opened *opened, const char *log)
{
    const char *stem = arena_format(answer->arena, "%.*s-%.12s", (int)strlen(opened->name) - 5,
                                    opened->name, opened->version);
    const char *record = file_join(answer->arena, answer->desk->settings.folder, opened->name);
    return store_side_folder(&answer->desk->store, ".voided", answer->arena, &answer->diag) &&
           rename(record, in_folder(answer, ".voided",
                                    arena_format(answer->arena, "%s.yaml", stem))) == 0 &&
           rename(log, in_folder(answer, ".voided", arena_format(answer->arena, "%s.log", stem))) ==
               0;
}

/* {name, version, who, why}: the record leaves the lists; it and who did it why stay. */
void record_void(struct answer *answer)
{
    struct node *body = answer_body(answer);
    struct opened opened;
    const char *who;
    if (!body || !answer_open(answer, answer_text(body, "name"), &opened) ||
        !(who = answer_who(answer, body)))
        return;
    if (strcmp(opened.version, answer_text(body, "version")) != 0) {
        answer_refuse(answer, 409, "changed-meanwhile");
        return;
    }
    if (!journal_is_name(answer_text(body, "why"))) {
        answer_refuse(answer, 422, "why-is-missing");
        return;
    }
    const char *log = store_log_path(&answer->desk->store, opened.name, answer->arena);
    const struct journal_line line = {answer->desk->settings.clock(), "voided", who, opened.version,
                                      answer_text(body, "why")};
    if (!journal_write(log, &line, &answer->diag) || !move_away(answer, &opened, log)) {
        answer_refuse_faults(answer, 500, "not-saved", NULL);
        return;
    }
    json_open_object(&answer->json);
    json_key_flag(&answer->json, "done", true);
    json_close_object(&answer->json);
}

/* ---- one keeper ------------------------------------------------------------------------------ */

/* What lies here of a keeper: paths in the folder of records. */
struct keeper_files {
    const char *keeper; /* folded */
    const char *paths[KEEPER_FILES_MOST];
    size_t count, records;
};

/* Where something of a keeper may lie. */
static const struct record_folder {
    const char *name, *suffix;
} record_folders[] = {
    {".", ".yaml"}, {".voided", ".yaml"}, {".kept", ".yaml"}, {".drafts", ".json"}};

/* What is done with a record that was found. */
typedef void record_taker(struct answer *answer, struct keeper_files *files,
                          const struct record_folder *folder, const char *path,
                          const struct node *record);

/* The record at the path, also a draft's; NULL where none can be read. */
static const struct node *read_record(struct answer *answer, const char *path)
{
    struct diag quiet;
    struct bytes text;
    diag_init(&quiet);
    const struct node *tree = file_read(path, FILE_LIMIT_BYTES, answer->arena, &quiet, &text)
                                  ? tree_read_bytes(path, text, answer->arena, &quiet)
                                  : NULL;
    diag_finish(&quiet);
    const struct node *record = tree_find(tree, "record"); /* of a draft */
    return record ? record : tree;
}

/* Each record of the keeper, or each of all others. */
static void take_records(struct answer *answer, struct keeper_files *files, bool theirs,
                         record_taker *take)
{
    for (size_t f = 0; f < sizeof record_folders / sizeof *record_folders; f++) {
        const struct record_folder *folder = &record_folders[f];
        const char **names = NULL;
        const char *where = file_join(answer->arena, answer->desk->settings.folder, folder->name);
        size_t count = file_is_folder(where)
                           ? file_list(where, folder->suffix, answer->arena, &answer->diag, &names)
                           : 0;
        for (size_t i = 0; i < count; i++) {
            const char *path = file_join(answer->arena, where, names[i]);
            const struct node *record = read_record(answer, path);
            const char *name = answer_text(tree_find(record, "keeper"), "name");
            if (record && (strcmp(fold_text(name, answer->arena), files->keeper) == 0) == theirs)
                take(answer, files, folder, path, record);
        }
    }
}

enum { BESIDE_MOST = 2 };

/* The files beside a record that it names: a photo, a logger's readings. */
static size_t beside_of(struct answer *answer, const struct node *record, const char **out)
{
    const struct node *log =
        tree_find(tree_find(tree_find(record, "enclosure"), "readings"), "log");
    const char *names[BESIDE_MOST] = {answer_text(tree_find(record, "patient"), "photo"),
                                      log && log->kind == NODE_SCALAR ? log->text
                                                                      : answer_text(log, "file")};
    size_t count = 0;
    for (size_t i = 0; i < BESIDE_MOST; i++) {
        const char *dot = strrchr(names[i], '.');
        if (dot && request_is_name(names[i], dot) && strcmp(dot, ".yaml") != 0 &&
            strcmp(dot, ".log") != 0)
            out[count++] = file_join(answer->arena, answer->desk->settings.folder, names[i]);
    }
    return count;
}

/* The place of a path in the list; its length where it is not there. */
static size_t place_of_path(const struct keeper_files *files, const char *path)
{
    size_t at = 0;
    while (at < files->count && strcmp(files->paths[at], path) != 0)
        at++;
    return at;
}

static void add_path(struct keeper_files *files, const char *path)
{
    if (files->count < KEEPER_FILES_MOST && place_of_path(files, path) == files->count)
        files->paths[files->count++] = path;
}

static void add_record(struct answer *answer, struct keeper_files *files,
                       const struct record_folder *folder, const char *path,
                       const struct node *record)
{
    const char *beside[BESIDE_MOST];
    size_t count = beside_of(answer, record, beside);
    add_path(files, path);
    for (size_t i = 0; i < count; i++)
        add_path(files, beside[i]);
    add_path(files, arena_format(answer->arena, "%.*s.log",
                                 (int)(strlen(path) - strlen(folder->suffix)), path));
    files->records += folder == &record_folders[0];
}

/* What another keeper's record names too is not this one's alone. */
static void leave_shared(struct answer *answer, struct keeper_files *files,
                         const struct record_folder *folder, const char *path,
                         const struct node *record)
{
    const char *beside[BESIDE_MOST];
    size_t count = beside_of(answer, record, beside);
    (void)folder, (void)path;
    for (size_t i = 0; i < count; i++) {
        size_t at = place_of_path(files, beside[i]);
        if (at < files->count)
            files->paths[at] = files->paths[--files->count];
    }
}

/* Records, voided ones, texts that lost, drafts. False after a refusal: no name, or nothing. */
static bool find_files(struct answer *answer, const char *keeper, struct keeper_files *out)
{
    *out = (struct keeper_files){.keeper = fold_text(keeper ? keeper : "", answer->arena)};
    if (*out->keeper)
        take_records(answer, out, true, add_record);
    if (!out->count)
        answer_refuse(answer, 404, "no-keeper");
    return out->count > 0;
}

/* ?name=: all of a keeper's as one archive, or nothing: no part of it is left out unsaid */
void keeper_export(struct answer *answer)
{
    struct keeper_files *files = ARENA_NEW(answer->arena, struct keeper_files);
    if (!find_files(answer, request_find(answer->request, "name"), files))
        return;
    struct zip_file *entries = ARENA_ARRAY(answer->arena, struct zip_file, files->count);
    size_t count = 0, skip = strlen(answer->desk->settings.folder) + 1;
    for (size_t i = 0; i < files->count; i++) {
        entries[count].name = files->paths[i] + skip;
        if (strncmp(entries[count].name, "./", 2) == 0)
            entries[count].name += 2;
        if (!file_exists(files->paths[i])) /* a record that has no log yet */
            continue;
        if (!file_read(files->paths[i], REQUEST_FILE_LIMIT, answer->arena, &answer->diag,
                       &entries[count++].content)) {
            answer_refuse(answer, 413, "too-large");
            return;
        }
    }
    struct strbuf archive;
    strbuf_init(&archive, answer->arena);
    zip_write(entries, count, &archive);
    *answer->reply = (struct reply){.status = 200,
                                    .type = "application/zip",
                                    .body = {archive.text, archive.length},
                                    .file_name = "keeper.zip"};
}

/* {keeper, who}: forgotten for good; that and how much stands in `forgotten.log`, not whose. */
void keeper_forget(struct answer *answer)
{
    struct node *body = answer_body(answer);
    struct keeper_files *files = ARENA_NEW(answer->arena, struct keeper_files);
    const char *who;
    if (!body || !(who = answer_who(answer, body)) ||
        !find_files(answer, answer_text(body, "keeper"), files))
        return;
    take_records(answer, files, false, leave_shared);
    const struct journal_line line = {
        answer->desk->settings.clock(), "forgotten", who, "",
        arena_format(answer->arena, "%zu records, %zu files", files->records, files->count)};
    if (!journal_write(file_join(answer->arena, answer->desk->settings.folder, "forgotten.log"),
                       &line, &answer->diag)) {
        answer_refuse_faults(answer, 500, "not-logged", NULL);
        return;
    }
    size_t gone = 0;
    for (size_t i = 0; i < files->count; i++)
        gone += unlink(files->paths[i]) == 0;
    json_open_object(&answer->json);
    json_key_integer(&answer->json, "records", (long)files->records);
    json_key_integer(&answer->json, "files", (long)gone);
    json_close_object(&answer->json);
}
