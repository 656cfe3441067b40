/* A shelter's lists: kept by their digest, shown row by row, signed, made in a thread, taken as
 * ZIP. */
#include "desk/shelter.h"

#include <errno.h>
#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "batch/packet_rows.h"
#include "desk/journal.h"
#include "desk/zip.h"
#include "base/hex.h"

enum { SHELTER_ID_LETTERS = 16, SHELTER_FILES_MOST = 5000 };

struct shelter {
    pthread_t thread;
    char id[SHELTER_ID_LETTERS + 1];
    struct arena arena; /* the thread's own */
    struct places places;
    const char *roster, *sheets;
    struct date today;
    atomic_size_t done, all;
    atomic_bool ended;
    bool good;                   /* once it has ended */
    struct packet_counts counts; /* once it has ended */
};

/* ---- places
 * ---------------------------------------------------------------------------------------------------
 */

static bool is_id(const char *id)
{
    return id && strlen(id) == SHELTER_ID_LETTERS && strspn(id, HEX_SMALL) == SHELTER_ID_LETTERS;
}

static const char *place(struct answer *answer, const char *id, const char *name)
{
    return arena_format(answer->arena, "%s/.shelter/%s/%s", answer->desk->settings.folder, id,
                        name);
}

static bool make_folder(const char *path, struct diag *diag)
{
    if (mkdir(path, 0700) == 0 || errno == EEXIST)
        return true;
    diag_report(diag, DIAG_FAULT, "cannot-make-folder", (struct mark){.file = path}, "%s",
                strerror(errno));
    return false;
}

/* The id of a list that lies there, from the query or the body; NULL after a refusal. */
static const char *find_list(struct answer *answer, const char *id)
{
    if (is_id(id) && file_exists(place(answer, id, "roster.csv")))
        return id;
    answer_refuse(answer, 404, "no-list");
    return NULL;
}

/* ---- the rows
 * ---------------------------------------------------------------------------------------------------
 */

static void write_row(struct answer *answer, struct packet_rows *rows, const struct roster_row *row,
                      struct arena *arena, struct diag *diag)
{
    struct json *j = &answer->json;
    const struct care_plan *plan = row->is_good ? packet_rows_plan(rows, row, arena, diag) : NULL;
    json_open_object(j);
    json_key_integer(j, "number", (long)row->number);
    json_key_text(j, "name", roster_cell(row, ROSTER_NAME));
    json_key_text(j, "species", roster_cell(row, ROSTER_SPECIES));
    json_key_text(j, "adopter", roster_cell(row, ROSTER_ADOPTER));
    json_key_flag(j, "good", plan != NULL);
    json_key(j, "faults");
    json_open_list(j);
    for (const struct diag_message *m = diag->first; m; m = m->next)
        if (m->severity != DIAG_REMARK)
            json_text(j, m->path ? arena_format(arena, "%s: %s", m->path, m->text) : m->text);
    json_close_list(j);
    json_close_object(j);
}

static void write_rows(struct answer *answer, struct packet_rows *rows)
{
    enum roster_step step;
    json_key(&answer->json, "rows");
    json_open_list(&answer->json);
    do {
        struct arena arena;
        struct diag own;
        struct roster_row row;
        arena_init(&arena);
        diag_init(&own);
        step = roster_next(&rows->roster, &arena, &own, &row);
        if (step == ROSTER_ROW)
            write_row(answer, rows, &row, &arena, &own);
        diag_finish(&own);
        arena_finish(&arena);
    } while (step == ROSTER_ROW);
    json_close_list(&answer->json);
}

static void write_making(struct answer *answer, const char *id)
{
    const struct shelter *shelter = answer->desk->shelter;
    struct json *j = &answer->json;
    json_key(j, "making");
    if (!shelter || strcmp(shelter->id, id) != 0) {
        json_null(j);
        return;
    }
    bool ended = atomic_load(&shelter->ended);
    json_open_object(j);
    json_key_flag(j, "ended", ended);
    json_key_integer(j, "done", (long)atomic_load(&shelter->done));
    json_key_integer(j, "all", (long)atomic_load(&shelter->all));
    json_key_flag(j, "good", ended && shelter->good);
    json_key_integer(j, "bad", ended ? (long)shelter->counts.bad : 0);
    json_close_object(j);
}

static void show(struct answer *answer, const char *id)
{
    const struct packet_options sheet_options = {.roster = place(answer, id, "roster.csv"),
                                                 .today = desk_today(answer->desk)};
    struct packet_rows rows;
    bool good =
        packet_rows_init(&rows, &answer->desk->shared->resources, &sheet_options, &answer->diag) &&
        packet_rows_scan(&rows, false, &answer->diag);
    if (!good)
        answer_refuse_faults(answer, 422, "list-not-read", NULL);
    else {
        struct json *j = &answer->json;
        json_open_object(j);
        json_key_text(j, "id", id);
        json_key_flag(j, "signed", rows.signature.is_signed);
        json_key_text(j, "by", rows.signature.by);
        write_rows(answer, &rows);
        write_making(answer, id);
        json_close_object(j);
    }
    packet_rows_finish(&rows);
}

void shelter_show(struct answer *answer)
{
    const char *id = find_list(answer, request_find(answer->request, "id"));
    if (id && request_find(answer->request, "progress")) {
        json_open_object(&answer->json);
        write_making(answer, id);
        json_close_object(&answer->json);
    } else if (id)
        show(answer, id);
}

void shelter_drop(struct answer *answer)
{
    struct node *body = answer_body(answer);
    if (!body)
        return;
    const char *csv = answer_text(body, "csv");
    char version[STORE_VERSION_BYTES];
    store_version((struct bytes){csv, strlen(csv)}, version);
    const char *id = arena_copy_bytes(answer->arena, version, SHELTER_ID_LETTERS);
    const char *folder = answer->desk->settings.folder;
    bool kept =
        make_folder(arena_format(answer->arena, "%s/.shelter", folder), &answer->diag) &&
        make_folder(arena_format(answer->arena, "%s/.shelter/%s", folder, id), &answer->diag) &&
        file_write_atomic(place(answer, id, "roster.csv"), csv, strlen(csv), 0600, &answer->diag);
    if (kept)
        show(answer, id);
    else
        answer_refuse_faults(answer, 500, "not-saved", NULL);
}

void shelter_sign(struct answer *answer)
{
    struct node *body = answer_body(answer);
    const char *id = body ? find_list(answer, answer_text(body, "id")) : NULL;
    const char *by = body ? answer_text(body, "by") : "", *written;
    if (!id)
        return;
    if (!journal_is_signer(by)) {
        answer_refuse(answer, 422, "veterinarian-is-missing");
        return;
    }
    const struct packet_signing signing = {
        .roster = place(answer, id, "roster.csv"), .by = by, .today = desk_today(answer->desk)};
    if (packet_sign(&answer->desk->shared->resources, &signing, answer->arena, &answer->diag,
                    &written))
        show(answer, id);
    else
        answer_refuse_faults(answer, 422, "rows-wrong", NULL);
}

/* ---- making
 * -------------------------------------------------------------------------------------------------------
 */

static void count_progress(void *data, size_t done, size_t all)
{
    struct shelter *shelter = data;
    atomic_store(&shelter->done, done);
    atomic_store(&shelter->all, all);
}

/* What is wrong with a row stands beside it already and in the manifest. */
static void pass_over(void *data, const char *lines)
{
    (void)data;
    (void)lines;
}

static void *make_sheets(void *data)
{
    struct shelter *shelter = data;
    struct diag diag;
    struct resources resources;
    diag_init(&diag);
    const struct packet_options sheet_options = {
        .roster = shelter->roster,
        .folder = shelter->sheets,
        .resume = true,
        .shard = 1,
        .shards = 1,
        .jobs = 1,
        .today = shelter->today,
    };
    const struct packet_watch watch = {shelter, count_progress, pass_over};
    shelter->good = resources_read(&shelter->places, &shelter->arena, &diag, &resources) &&
                    packet_write(&resources, &sheet_options, &watch, &diag, &shelter->counts);
    diag_finish(&diag);
    atomic_store(&shelter->ended, true);
    return NULL;
}

void shelter_free(struct shelter *shelter)
{
    if (!shelter)
        return;
    pthread_join(shelter->thread, NULL);
    arena_finish(&shelter->arena);
    free(shelter);
}

static struct shelter *shelter_new(struct answer *answer, const char *id)
{
    struct shelter *shelter = calloc(1, sizeof *shelter);
    if (!shelter)
        support_out_of_memory();
    arena_init(&shelter->arena);
    snprintf(shelter->id, sizeof shelter->id, "%s", id);
    shelter->places = answer->desk->settings.places;
    shelter->roster = arena_copy_text(&shelter->arena, place(answer, id, "roster.csv"));
    shelter->sheets = arena_copy_text(&shelter->arena, place(answer, id, "sheets"));
    shelter->today = desk_today(answer->desk);
    if (pthread_create(&shelter->thread, NULL, make_sheets, shelter) == 0)
        return shelter;
    arena_finish(&shelter->arena);
    free(shelter);
    return NULL;
}

/* Nothing leaves the house unsigned: the list is signed first. */
static bool is_signed(struct answer *answer, const char *id)
{
    const struct packet_options sheet_options = {.roster = place(answer, id, "roster.csv"),
                                                 .today = desk_today(answer->desk)};
    struct packet_rows rows;
    bool good =
        packet_rows_init(&rows, &answer->desk->shared->resources, &sheet_options, &answer->diag) &&
        packet_rows_scan(&rows, false, &answer->diag) && rows.signature.is_signed;
    packet_rows_finish(&rows);
    return good;
}

void shelter_make(struct answer *answer)
{
    struct node *body = answer_body(answer);
    struct desk *desk = answer->desk;
    const char *id = body ? find_list(answer, answer_text(body, "id")) : NULL;
    if (!id)
        return;
    if (desk->shelter && !atomic_load(&desk->shelter->ended)) {
        answer_refuse(answer, 409, "list-in-work");
        return;
    }
    if (!is_signed(answer, id)) {
        answer_refuse(answer, 422, "list-not-signed");
        return;
    }
    shelter_free(desk->shelter);
    desk->shelter = shelter_new(answer, id);
    if (!desk->shelter) {
        answer_refuse(answer, 500, "not-saved");
        return;
    }
    json_open_object(&answer->json);
    write_making(answer, id);
    json_close_object(&answer->json);
}

/* ---- taking
 * -------------------------------------------------------------------------------------------------------
 */

static size_t add_files(struct answer *answer, const char *folder, const char *suffix,
                        struct zip_file *files, size_t count)
{
    const char **names = NULL;
    size_t found = file_list(folder, suffix, answer->arena, &answer->diag, &names);
    for (size_t i = 0; i < found && count < SHELTER_FILES_MOST; i++) {
        files[count].name = names[i];
        count += file_read(file_join(answer->arena, folder, names[i]), FILE_LIMIT_BYTES,
                           answer->arena, &answer->diag, &files[count].content);
    }
    return count;
}

void shelter_take(struct answer *answer)
{
    const char *id = find_list(answer, request_find(answer->request, "id"));
    if (!id)
        return;
    const char *folder = place(answer, id, "sheets");
    const struct shelter *shelter = answer->desk->shelter;
    bool in_work = shelter && strcmp(shelter->id, id) == 0 && !atomic_load(&shelter->ended);
    if (in_work || !file_exists(file_join(answer->arena, folder, "manifest.csv"))) {
        answer_refuse(answer, 409, in_work ? "list-in-work" : "list-not-made");
        return;
    }
    struct zip_file *files = ARENA_ARRAY(answer->arena, struct zip_file, SHELTER_FILES_MOST + 1);
    size_t count = add_files(answer, folder, ".csv", files, 0);
    count = add_files(answer, folder, ".pdf", files, count);
    struct strbuf archive;
    strbuf_init(&archive, answer->arena);
    zip_write(files, count, &archive);
    *answer->reply =
        (struct reply){200, "application/zip", {archive.text, archive.length}, "sheets.zip"};
}
