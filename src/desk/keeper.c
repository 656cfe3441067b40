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

/* The record at the path, if it is this keeper's; else NULL. */
static const struct node *record_of(struct answer *answer, const char *path, const char *keeper)
{
    struct diag quiet;
    struct bytes text;
    diag_init(&quiet);
    const struct node *tree = file_read(path, FILE_LIMIT_BYTES, answer->arena, &quiet, &text)
                                  ? tree_read_bytes(path, text, answer->arena, &quiet)
                                  : NULL;
    diag_finish(&quiet);
    const struct node *record = tree ? tree_find(tree, "record") : NULL; /* of a draft */
    record = record ? record : tree;
    const struct node *part = tree ? tree_find(record, "keeper") : NULL;
    bool is_theirs =
        part && strcmp(fold_text(answer_text(part, "name"), answer->arena), keeper) == 0;
    return is_theirs ? record : NULL;
}

static void add_path(struct keeper_files *files, const char *path)
{
    if (files->count < KEEPER_FILES_MOST && file_exists(path))
        files->paths[files->count++] = path;
}

/* A photo or a logger's file that the record names, once. */
static void add_beside(struct answer *answer, struct keeper_files *files, const char *name)
{
    const char *dot = name ? strrchr(name, '.') : NULL;
    if (!dot || !request_is_name(name, dot) || strcmp(dot, ".yaml") == 0)
        return;
    const char *path = file_join(answer->arena, answer->desk->settings.folder, name);
    for (size_t i = 0; i < files->count; i++)
        if (strcmp(files->paths[i], path) == 0)
            return;
    add_path(files, path);
}

static void add_files_of(struct answer *answer, struct keeper_files *files,
                         const struct node *record)
{
    const struct node *patient = tree_find(record, "patient");
    const struct node *box = tree_find(record, "enclosure");
    const struct node *readings = box ? tree_find(box, "readings") : NULL;
    const struct node *log = readings ? tree_find(readings, "log") : NULL;
    if (patient)
        add_beside(answer, files, answer_text(patient, "photo"));
    if (log)
        add_beside(answer, files, log->kind == NODE_SCALAR ? log->text : answer_text(log, "file"));
}

static void find_in(struct answer *answer, const char *name, const char *suffix,
                    struct keeper_files *files)
{
    const char **names = NULL;
    const char *folder = file_join(answer->arena, answer->desk->settings.folder, name);
    size_t count = file_is_folder(folder)
                       ? file_list(folder, suffix, answer->arena, &answer->diag, &names)
                       : 0;
    for (size_t i = 0; i < count; i++) {
        const char *path = file_join(answer->arena, folder, names[i]);
        const struct node *record = record_of(answer, path, files->keeper);
        if (!record)
            continue;
        add_path(files, path);
        add_files_of(answer, files, record);
        add_path(files, arena_format(answer->arena, "%.*s.log",
                                     (int)(strlen(path) - strlen(suffix)), path));
        files->records += strcmp(name, ".") == 0;
    }
}

/* Records, voided ones, texts that lost, drafts. False after a refusal: no name, or nothing. */
static bool find_files(struct answer *answer, const char *keeper, struct keeper_files *out)
{
    *out = (struct keeper_files){.keeper = fold_text(keeper ? keeper : "", answer->arena)};
    if (*out->keeper) {
        find_in(answer, ".", ".yaml", out);
        find_in(answer, ".voided", ".yaml", out);
        find_in(answer, ".kept", ".yaml", out);
        find_in(answer, ".drafts", ".json", out);
    }
    if (!out->count)
        answer_refuse(answer, 404, "no-keeper");
    return out->count > 0;
}

/* ?name=: all of a keeper's as one archive */
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
        count += file_read(files->paths[i], FILE_LIMIT_BYTES, answer->arena, &answer->diag,
                           &entries[count].content);
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
