/* Opening, keeping and saving one record. */
#include <ctype.h>
#include <string.h>

#include "base/fold.h"
#include "desk/drafts.h"
#include "desk/faults.h"
#include "desk/handlers.h"
#include "desk/journal.h"
#include "desk/queue.h"
#include "yaml/record_text.h"

static const struct visit_record *write_check(struct answer *answer, const char *name,
                                              const struct node *record)
{
    struct json *j = &answer->json;
    const struct visit_record *made = answer_record(answer, name, record);
    json_key(j, "faults");
    faults_write_json(&answer->diag, record, answer->words, answer->arena, j);
    json_key(j, "notes");
    faults_write_notes_json(&answer->diag, record, answer->words, answer->arena, j);
    plan_view_write(answer, made);
    return made;
}

/* ---- open
 * ------------------------------------------------------------------------------------------ */

static void write_draft(struct answer *answer, const struct draft *draft, const struct node *tree)
{
    struct json *j = &answer->json;
    char at[JOURNAL_TIME_BYTES];
    journal_time(draft->seconds, at);
    json_open_object(j);
    json_key_text(j, "window", draft->window);
    json_key_text(j, "at", at);
    json_key_text(j, "who", answer_text(tree, "who"));
    json_key_text(j, "version", answer_text(tree, "version"));
    json_key(j, "record");
    record_write_json(j, tree_find(tree, "record"));
    json_close_object(j);
}

/* What was typed and not saved in each window, newest first; the texts are what record_draft got.
 */
static size_t write_drafts(struct answer *answer, const char *key)
{
    const struct store *store = &answer->desk->store;
    struct draft *drafts;
    size_t count = drafts_list(store, key, answer->arena, &drafts), written = 0;
    json_key(&answer->json, "drafts");
    json_open_list(&answer->json);
    for (size_t i = 0; i < count; i++) {
        struct bytes text;
        struct diag quiet;
        if (!drafts_read(store, &drafts[i], answer->arena, &text))
            continue;
        diag_init(&quiet);
        const struct node *tree = tree_read_bytes(drafts[i].key, text, answer->arena, &quiet);
        diag_finish(&quiet);
        if (!tree || !tree_find(tree, "record"))
            continue;
        write_draft(answer, &drafts[i], tree);
        written++;
    }
    json_close_list(&answer->json);
    return written;
}

static bool has_remarks(struct bytes text)
{
    for (size_t i = 0; i < text.length; i++)
        if (text.data[i] == '#' && (i == 0 || isspace((unsigned char)text.data[i - 1])))
            return true;
    return false;
}

/* A visit that has no record yet, or has one by now. */
static void open_new(struct answer *answer, const char *key)
{
    struct json *j = &answer->json;
    const char *saved = drafts_saved_as(&answer->desk->store, key, answer->arena);
    json_open_object(j);
    json_key_text(j, "name", saved ? saved : "");
    json_key_text(j, "draft", key);
    if (!write_drafts(answer, key) && !saved) {
        answer_refuse(answer, 404, "no-record");
        return;
    }
    json_close_object(j);
}

/* Whose signature no longer holds, and which parts of the sheet changed since. */
static void write_stale(struct answer *answer, const struct visit_record *record)
{
    struct json *j = &answer->json;
    struct signature signature = {0};
    char on[16];
    json_key(j, "stale");
    if (!record ||
        !sheet_context_signature(&answer->desk->shared->sheet_context, record, NULL, answer->arena,
                                 &answer->diag, &signature) ||
        !signature.is_stale) {
        json_null(j);
        return;
    }
    date_write_iso(signature.on, on);
    json_open_object(j);
    json_key_text(j, "by", signature.by);
    json_key_text(j, "on", on);
    json_key(j, "changed");
    json_open_list(j);
    for (int part = 0; part < SIGNATURE_PART_COUNT; part++)
        if (signature.changed[part])
            json_text(j, signature_part_word((enum signature_part)part));
    json_close_list(j);
    json_close_object(j);
}

void record_open(struct answer *answer)
{
    const char *id = request_find(answer->request, "draft");
    struct opened opened;
    if (id) {
        open_new(answer, id);
        return;
    }
    if (!answer_open(answer, request_find(answer->request, "name"), &opened))
        return;
    if (!opened.tree || opened.tree->kind != NODE_MAP) {
        answer_refuse_faults(answer, 422, "not-yaml", NULL);
        return;
    }
    struct json *j = &answer->json;
    const char *log = store_log_path(&answer->desk->store, opened.name, answer->arena);
    json_open_object(j);
    json_key_text(j, "name", opened.name);
    json_key_text(j, "version", opened.version);
    json_key_text(j, "state", list_state_word(list_state(answer, opened.name)));
    json_key_flag(j, "remarks", has_remarks(opened.text));
    json_key(j, "record");
    record_write_json(j, opened.tree);
    write_drafts(answer, drafts_key(opened.name, answer->arena));
    json_key(j, "log");
    journal_write_json(journal_read(log, answer->arena), j, answer->arena);
    json_key(j, "jobs");
    queue_write_json(answer->desk->queue, opened.name, j);
    write_stale(answer, write_check(answer, opened.name, opened.tree));
    json_close_object(j);
}

/* ---- keep what is typed
 * ------------------------------------------------------------------------------- */

/* Under which key the body's text is kept; NULL for none. A new visit that was saved meanwhile is
 * the record that it became. */
static const char *draft_key(struct answer *answer, const struct node *body)
{
    const char *name = answer_text(body, "name"), *key = answer_text(body, "draft");
    const char *saved = *name ? name : drafts_saved_as(&answer->desk->store, key, answer->arena);
    if (saved)
        return drafts_key(saved, answer->arena);
    return drafts_is_new_key(key) ? key : NULL;
}

/* {name or draft, window, version, who, record}: kept as it came, then looked at. */
void record_draft(struct answer *answer)
{
    struct node *body = answer_body(answer);
    if (!body)
        return;
    struct node *record = tree_find(body, "record");
    const struct draft draft = {.key = draft_key(answer, body),
                                .window = answer_text(body, "window")};
    if (!record || record->kind != NODE_MAP || !draft.key) {
        answer_refuse(answer, 400, "not-understood");
        return;
    }
    if (!drafts_write(&answer->desk->store, &draft, answer->request->body, answer->arena,
                      &answer->diag)) {
        answer_refuse_faults(answer, 500, "not-kept", NULL);
        return;
    }
    record_prune(record);
    json_open_object(&answer->json);
    write_check(answer, "record", record);
    json_close_object(&answer->json);
}

/* {name or draft, window} */
void record_discard(struct answer *answer)
{
    struct node *body = answer_body(answer);
    if (!body)
        return;
    const char *key = draft_key(answer, body);
    if (key)
        drafts_remove(&answer->desk->store, key, answer_text(body, "window"), answer->arena);
    json_open_object(&answer->json);
    json_key_flag(&answer->json, "done", key != NULL);
    json_close_object(&answer->json);
}

/* ---- save
 * ------------------------------------------------------------------------------------------------
 */

/* "biscuit-2026-03-14": plain letters of the animal's name and the day. */
static const char *stem_of(const struct node *record, struct arena *arena)
{
    enum { LETTERS_MOST = 40 };
    const char *stem =
        fold_slug(answer_text(tree_find(record, "patient"), "name"), LETTERS_MOST, arena);
    return arena_format(arena, "%s-%s", *stem ? stem : "animal",
                        answer_text(tree_find(record, "visit"), "date"));
}

struct saving {
    const char *key, *window, *name, *version, *who;
    bool over; /* the other text has been seen and is to go to .kept */
    struct node *record;
};

static void tell_saved(struct answer *answer, const struct saving *saving, const char *name,
                       struct bytes text, const char *kept)
{
    struct desk *desk = answer->desk;
    char version[STORE_VERSION_BYTES];
    store_version(text, version);
    const char *key = drafts_key(name, answer->arena);
    drafts_settle(&desk->store, saving->key, name, answer->arena, &answer->diag);
    drafts_remove(&desk->store, key, saving->window, answer->arena);
    const char *log = store_log_path(&desk->store, name, answer->arena);
    const struct journal_line line = {desk->settings.clock(), "saved", saving->who, version, kept};
    bool logged = journal_write(log, &line, &answer->diag);
    json_open_object(&answer->json);
    json_key_text(&answer->json, "name", name);
    json_key_text(&answer->json, "version", version);
    json_key_text(&answer->json, "kept", kept);
    json_key_flag(&answer->json, "unlogged", !logged);
    json_close_object(&answer->json);
}

static void tell_conflict(struct answer *answer, const struct saving *saving, const char *kept,
                          const char *version)
{
    answer->reply->status = 409;
    json_open_object(&answer->json);
    json_key_text(&answer->json, "name", saving->name);
    json_key_text(&answer->json, "error", "changed-meanwhile");
    json_key_text(&answer->json, "kept", kept);
    json_key_text(&answer->json, "version", version);
    json_close_object(&answer->json);
}

static void save_again(struct answer *answer, const struct saving *saving)
{
    struct opened opened;
    const char *kept = NULL;
    bool loses_remarks;
    if (!answer_open(answer, saving->name, &opened))
        return;
    struct bytes text =
        record_text(saving->record, &visit_schema, opened.text, answer->arena, &loses_remarks);
    bool is_same =
        text.length == opened.text.length && memcmp(text.data, opened.text.data, text.length) == 0;
    if (is_same) { /* a second click, or another window was faster with the same */
        tell_saved(answer, saving, saving->name, text, NULL);
        return;
    }
    bool keep_old = loses_remarks || saving->over;
    const struct store_saving again = {saving->name, saving->version, text, keep_old};
    enum store_saved saved =
        store_save(&answer->desk->store, &again, answer->arena, &answer->diag, &kept);
    if (saved == STORE_SAVED) {
        tell_saved(answer, saving, saving->name, text, kept);
        return;
    }
    if (saved == STORE_CONFLICT)
        tell_conflict(answer, saving, kept, opened.version);
    else
        answer_refuse_faults(answer, 500, "not-saved", NULL);
}

static void save_new(struct answer *answer, const struct saving *saving)
{
    bool loses_remarks;
    struct bytes text = record_text(saving->record, &visit_schema, (struct bytes){"", 0},
                                    answer->arena, &loses_remarks);
    const char *name = store_add(&answer->desk->store, stem_of(saving->record, answer->arena), text,
                                 answer->arena, &answer->diag);
    if (name)
        tell_saved(answer, saving, name, text, NULL);
    else
        answer_refuse_faults(answer, 500, "not-saved", NULL);
}

/* {name or draft, window, version, who, record}; an empty name is a new record. Only a record
 * without a fault goes into the folder; the draft keeps every other. */
void record_save(struct answer *answer)
{
    struct node *body = answer_body(answer);
    if (!body)
        return;
    const char *key = answer_text(body, "draft"), *name = answer_text(body, "name");
    const char *saved = *name ? NULL : drafts_saved_as(&answer->desk->store, key, answer->arena);
    struct saving saving = {
        .key = key,
        .window = answer_text(body, "window"),
        .name = saved ? saved : name,
        .version = answer_text(body, "version"),
        .over = strcmp(answer_text(body, "over"), "yes") == 0,
        .record = tree_find(body, "record"),
    };
    bool is_known = *saving.name || drafts_is_new_key(saving.key);
    if (!saving.record || saving.record->kind != NODE_MAP || !is_known) {
        answer_refuse(answer, 400, "not-understood");
        return;
    }
    if (!(saving.who = answer_who(answer, body)))
        return;
    record_prune(saving.record);
    if (!answer_record(answer, *saving.name ? saving.name : "record", saving.record))
        answer_refuse_faults(answer, 422, "faults", saving.record);
    else if (*saving.name)
        save_again(answer, &saving);
    else
        save_new(answer, &saving);
}
