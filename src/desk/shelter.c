/* A shelter's lists: kept by their digest, shown row by row, signed, made in a thread, taken as
 * ZIP. */
#include "desk/shelter.h"

#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>

#include "batch/packet_rows.h"
#include "desk/faults.h"
#include "desk/journal.h"
#include "desk/shelter_list.h"
#include "desk/zip.h"

enum { SHELTER_FILES_MOST = 5000, JOINED_LIMIT_BYTES = 256 * 1024 * 1024 };

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

/* The id of a list that lies there; NULL after a refusal. */
static const char *find_list(struct answer *answer, const char *id)
{
    if (shelter_is_id(id) && file_exists(shelter_path(answer, id, "roster.csv")))
        return id;
    answer_refuse(answer, 404, "no-list");
    return NULL;
}

/* ---- showing --------------------------------------------------------------------------------- */

static bool is_in_work(const struct answer *answer, const char *id)
{
    const struct shelter *shelter = answer->desk->shelter;
    return shelter && strcmp(shelter->id, id) == 0 && !atomic_load(&shelter->ended);
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
    json_key_flag(j, "joined", ended && shelter->good && shelter->counts.pdf_merge_pages > 0);
    json_key_integer(j, "bad", ended ? (long)shelter->counts.bad : 0);
    json_close_object(j);
}

static void write_columns(struct answer *answer, const struct shelter_list *list)
{
    struct json *j = &answer->json;
    const struct spreadsheet_row *titles = &list->table.rows[0];
    json_key(j, "columns");
    json_open_list(j);
    for (size_t i = 0; i < titles->count; i++) {
        json_open_object(j);
        json_key_text(j, "title", titles->cells[i]);
        json_key_text(j, "name", list->columns[i] < 0 ? "" : roster_columns[list->columns[i]].name);
        json_close_object(j);
    }
    json_close_list(j);
    json_key(j, "names");
    json_open_list(j);
    for (int i = 0; i < ROSTER_ENCLOSURE; i++)
        json_text(j, roster_columns[i].name);
    json_close_list(j);
}

/* The cell under a column, as it stands in the list. */
static const char *cell_of(const struct shelter_list *list, const struct spreadsheet_row *row,
                           enum roster_column column)
{
    for (size_t i = 0; i < row->count && i < list->table.rows[0].count; i++)
        if (list->columns[i] == (int)column)
            return row->cells[i];
    return "";
}

static void write_row(struct answer *answer, struct shelter_list *list, struct spreadsheet_row *row,
                      const struct diag *diag)
{
    struct json *j = &answer->json;
    json_open_object(j);
    json_key_integer(j, "line", row->line);
    json_key_flag(j, "left", list->left_out[row - list->table.rows]);
    json_key_flag(j, "good", !diag_failed(diag));
    json_key_text(j, "name", cell_of(list, row, ROSTER_NAME));
    json_key_text(j, "species", cell_of(list, row, ROSTER_SPECIES));
    json_key_text(j, "adopter", cell_of(list, row, ROSTER_ADOPTER));
    json_key(j, "cells");
    json_open_list(j);
    for (size_t i = 0; i < list->table.rows[0].count; i++)
        json_text(j, i < row->count ? row->cells[i] : "");
    json_close_list(j);
    json_key(j, "faults");
    faults_write_json(diag, NULL, answer->words, answer->arena, j);
    json_close_object(j);
}

/* What is done with each row and what is wrong with it. */
typedef void row_visitor(struct answer *answer, struct shelter_list *list,
                         struct spreadsheet_row *row, const struct diag *diag);

static void visit_row(struct answer *answer, struct shelter_list *list, struct spreadsheet_row *row,
                      struct packet_rows *rows, row_visitor *visit)
{
    struct arena arena;
    struct diag own;
    struct roster_row read;
    arena_init(&arena);
    diag_init(&own);
    bool is_left = list->left_out[row - list->table.rows];
    if (!is_left && roster_next(&rows->roster, &arena, &own, &read) == ROSTER_ROW && read.is_good)
        packet_rows_plan(rows, &read, &arena, &own);
    visit(answer, list, row, &own);
    diag_finish(&own);
    arena_finish(&arena);
}

static void visit_rows(struct answer *answer, struct shelter_list *list, struct packet_rows *rows,
                       row_visitor *visit)
{
    for (size_t i = 1; i < list->table.count; i++)
        visit_row(answer, list, &list->table.rows[i], rows, visit);
}

static bool open_rows(struct answer *answer, const struct packet_options *options,
                      struct packet_rows *rows)
{
    return packet_rows_init(rows, &answer->desk->shared->resources, options, &answer->diag) &&
           packet_rows_scan(rows, false, &answer->diag);
}

/* A list that cannot be read as a roster yet (a column is missing) still shows its columns. */
static void show(struct answer *answer, struct shelter_list *list)
{
    struct json *j = &answer->json;
    char at[JOURNAL_TIME_BYTES];
    struct packet_rows rows;
    const struct packet_options options = {.roster = shelter_path(answer, list->id, "roster.csv"),
                                           .today = desk_today(answer->desk)};
    bool is_read = open_rows(answer, &options, &rows);
    journal_time(list->seconds, at);
    json_open_object(j);
    json_key_text(j, "id", list->id);
    json_key_text(j, "file", list->file);
    json_key_text(j, "at", at);
    json_key_text(j, "encoding", list->table.encoding);
    json_key_flag(j, "signed", is_read && rows.signature.is_signed);
    json_key_text(j, "by", is_read ? rows.signature.by : NULL);
    write_columns(answer, list);
    json_key(j, "faults");
    faults_write_json(&answer->diag, NULL, answer->words, answer->arena, j);
    json_key(j, "rows");
    json_open_list(j);
    if (is_read)
        visit_rows(answer, list, &rows, write_row);
    json_close_list(j);
    write_making(answer, list->id);
    json_close_object(j);
    packet_rows_finish(&rows);
}

/* ?id=; with progress=, only how far the making is */
void shelter_show(struct answer *answer)
{
    struct shelter_list list;
    const char *id = request_find(answer->request, "id");
    if (shelter_is_id(id) && request_find(answer->request, "progress")) {
        json_open_object(&answer->json);
        write_making(answer, id);
        json_close_object(&answer->json);
    } else if (shelter_list_open(answer, id, &list))
        show(answer, &list);
}

/* The lists that were dropped, newest names last: ids are digests, so the page sorts by day. */
void shelter_lists(struct answer *answer)
{
    struct json *j = &answer->json;
    const char **ids = NULL,
               *folder = file_join(answer->arena, answer->desk->settings.folder, ".shelter");
    size_t count =
        file_is_folder(folder) ? file_list(folder, "", answer->arena, &answer->diag, &ids) : 0;
    json_open_object(j);
    json_key(j, "lists");
    json_open_list(j);
    for (size_t i = 0; i < count; i++) {
        struct shelter_list list;
        char at[JOURNAL_TIME_BYTES];
        if (!shelter_is_id(ids[i]) || !shelter_list_peek(answer, ids[i], &list))
            continue;
        journal_time(list.seconds, at);
        json_open_object(j);
        json_key_text(j, "id", list.id);
        json_key_text(j, "file", list.file);
        json_key_text(j, "at", at);
        json_close_object(j);
    }
    json_close_list(j);
    json_close_object(j);
}

/* ---- changing -------------------------------------------------------------------------------- */

/* The body is the file itself; ?file= its name. */
void shelter_drop(struct answer *answer)
{
    struct shelter_list list;
    const char *file = request_find(answer->request, "file");
    if (shelter_list_drop(answer, answer->request->body, file ? file : "", &list))
        show(answer, &list);
}

/* The list that a body names and that may be changed now. */
static struct node *open_for_change(struct answer *answer, struct shelter_list *out)
{
    struct node *body = answer_body(answer);
    if (!body || !shelter_list_open(answer, answer_text(body, "id"), out))
        return NULL;
    if (!is_in_work(answer, out->id))
        return body;
    answer_refuse(answer, 409, "list-in-work");
    return NULL;
}

/* {id, column: its number from 0, name: of a roster's column or ""} */
void shelter_column(struct answer *answer)
{
    struct shelter_list list;
    struct node *body = open_for_change(answer, &list);
    if (body && shelter_list_name_column(answer, &list,
                                         (size_t)strtoul(answer_text(body, "column"), NULL, 10),
                                         answer_text(body, "name")))
        show(answer, &list);
}

/* {id, line, cells: [...]}: a row as it should have been */
void shelter_mend(struct answer *answer)
{
    struct shelter_list list;
    struct node *body = open_for_change(answer, &list);
    if (!body)
        return;
    const struct node *cells = tree_find(body, "cells");
    struct spreadsheet_row *row =
        shelter_list_row(&list, (int)strtol(answer_text(body, "line"), NULL, 10));
    size_t titles = list.table.rows[0].count;
    if (!row || !cells || cells->kind != NODE_LIST || cells->count > titles) {
        answer_refuse(answer, 400, "not-understood");
        return;
    }
    const char **mended = ARENA_ARRAY(answer->arena, const char *, titles);
    for (size_t i = 0; i < titles; i++)
        mended[i] =
            i < cells->count && cells->items[i]->kind == NODE_SCALAR ? cells->items[i]->text : "";
    row->cells = mended;
    row->count = titles;
    list.left_out[row - list.table.rows] = false;
    if (shelter_list_save(answer, &list))
        show(answer, &list);
}

static void leave_out_when_bad(struct answer *answer, struct shelter_list *list,
                               struct spreadsheet_row *row, const struct diag *diag)
{
    (void)answer;
    if (diag_failed(diag))
        list->left_out[row - list->table.rows] = true;
}

/* {id}: all rows with a fault; {id, line, left: yes or no}: that one */
void shelter_leave(struct answer *answer)
{
    struct shelter_list list;
    struct node *body = open_for_change(answer, &list);
    if (!body)
        return;
    struct packet_rows rows;
    const char *line = answer_text(body, "line");
    const struct spreadsheet_row *row = shelter_list_row(&list, (int)strtol(line, NULL, 10));
    if (row)
        list.left_out[row - list.table.rows] = strcmp(answer_text(body, "left"), "no") != 0;
    else {
        const struct packet_options options = {.roster =
                                                   shelter_path(answer, list.id, "roster.csv"),
                                               .today = desk_today(answer->desk)};
        if (open_rows(answer, &options, &rows))
            visit_rows(answer, &list, &rows, leave_out_when_bad);
        packet_rows_finish(&rows);
    }
    if (shelter_list_save(answer, &list))
        show(answer, &list);
}

/* {id, by} */
void shelter_sign(struct answer *answer)
{
    struct shelter_list list;
    struct node *body = open_for_change(answer, &list);
    const char *by, *written;
    if (!body)
        return;
    if (!(by = answer_signer(answer, body)))
        return;
    const struct packet_signing signing = {.roster = shelter_path(answer, list.id, "roster.csv"),
                                           .by = by,
                                           .today = desk_today(answer->desk)};
    if (packet_sign(&answer->desk->shared->resources, &signing, answer->arena, &answer->diag,
                    &written))
        show(answer, &list);
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

/* Sheets can be made where they cannot be joined. */
static bool was_built_without(const struct diag *diag)
{
    for (const struct diag_message *m = diag->first; m; m = m->next)
        if (strcmp(m->code, "built-without") == 0)
            return true;
    return false;
}

static void *make_sheets(void *data)
{
    struct shelter *shelter = data;
    struct diag diag;
    struct resources resources;
    diag_init(&diag);
    struct packet_options options = {
        .roster = shelter->roster,
        .folder = shelter->sheets,
        .joined = true,
        .replace = true, /* an earlier run of this same list */
        .resume = true,
        .shard = 1,
        .shards = 1,
        .jobs = 1,
        .today = shelter->today,
    };
    const struct packet_watch watch = {shelter, count_progress, pass_over};
    shelter->good = resources_read(&shelter->places, &shelter->arena, &diag, &resources) &&
                    packet_write(&resources, &options, &watch, &diag, &shelter->counts);
    if (!shelter->good && was_built_without(&diag)) {
        options.joined = false;
        shelter->good = packet_write(&resources, &options, &watch, &diag, &shelter->counts);
    }
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
    shelter->roster = arena_copy_text(&shelter->arena, shelter_path(answer, id, "roster.csv"));
    shelter->sheets = arena_copy_text(&shelter->arena, shelter_path(answer, id, "sheets"));
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
    const struct packet_options sheet_options = {.roster = shelter_path(answer, id, "roster.csv"),
                                                 .today = desk_today(answer->desk)};
    struct packet_rows rows;
    bool good =
        packet_rows_init(&rows, &answer->desk->shared->resources, &sheet_options, &answer->diag) &&
        packet_rows_scan(&rows, false, &answer->diag) && rows.signature.is_signed;
    packet_rows_finish(&rows);
    return good;
}

/* {id} */
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
        if (strcmp(names[i], "joined.pdf") == 0)
            continue;
        files[count].name = names[i];
        count += file_read(file_join(answer->arena, folder, names[i]), FILE_LIMIT_BYTES,
                           answer->arena, &answer->diag, &files[count].content);
    }
    return count;
}

/* The folder of the sheets of a list that are made; NULL after a refusal. */
static const char *find_sheets(struct answer *answer, const char *name)
{
    const char *id = find_list(answer, request_find(answer->request, "id"));
    if (!id)
        return NULL;
    const char *folder = shelter_path(answer, id, "sheets");
    bool in_work = is_in_work(answer, id);
    if (!in_work && file_exists(file_join(answer->arena, folder, name)))
        return folder;
    answer_refuse(answer, 409, in_work ? "list-in-work" : "list-not-made");
    return NULL;
}

/* ?id=: all as an archive */
void shelter_take(struct answer *answer)
{
    const char *folder = find_sheets(answer, "manifest.csv");
    if (!folder)
        return;
    struct zip_file *files = ARENA_ARRAY(answer->arena, struct zip_file, SHELTER_FILES_MOST + 1);
    size_t count = add_files(answer, folder, ".csv", files, 0);
    count = add_files(answer, folder, ".pdf", files, count);
    struct strbuf archive;
    strbuf_init(&archive, answer->arena);
    zip_write(files, count, &archive);
    *answer->reply = (struct reply){.status = 200,
                                    .type = "application/zip",
                                    .body = {archive.text, archive.length},
                                    .file_name = "sheets.zip"};
}

/* ?id=: all behind one another, for the printer */
void shelter_joined(struct answer *answer)
{
    const char *folder = find_sheets(answer, "joined.pdf");
    struct bytes pdf;
    if (!folder)
        return;
    if (file_read(file_join(answer->arena, folder, "joined.pdf"), JOINED_LIMIT_BYTES, answer->arena,
                  &answer->diag, &pdf))
        *answer->reply = (struct reply){
            .status = 200, .type = "application/pdf", .body = pdf, .file_name = "sheets.pdf"};
    else
        answer_refuse_faults(answer, 500, "list-not-made", NULL);
}
