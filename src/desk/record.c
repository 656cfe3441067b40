/* Opening, keeping and saving one record. */
#include <ctype.h>
#include <string.h>
#include <sys/random.h>

#include "desk/faults.h"
#include "desk/handlers.h"
#include "desk/journal.h"
#include "desk/record_text.h"

/* "biscuit" of "biscuit.yaml": the id of its draft. */
static const char *draft_id(const char *name, struct arena *arena)
{
    return arena_copy_bytes(arena, name, strlen(name) - 5);
}

static void write_check(struct answer *answer, const char *name, const struct node *record)
{
    struct json *j = &answer->json;
    const struct visit_record *made = answer_record(answer, name, record);
    json_key(j, "faults");
    faults_write_json(&answer->diag, record, answer->words, answer->arena, j);
    plan_view_write(answer, made ? made->plan : NULL);
}

/* ---- open
 * ------------------------------------------------------------------------------------------ */

/* What was typed and not saved; its text is what record_draft got. */
static const struct node *read_draft(struct answer *answer, const char *id)
{
    struct bytes text;
    struct diag quiet;
    if (!store_draft_read(&answer->desk->store, id, answer->arena, &text))
        return NULL;
    diag_init(&quiet);
    const struct node *draft = tree_read_bytes(id, text, answer->arena, &quiet);
    diag_finish(&quiet);
    return draft && tree_find(draft, "record") ? draft : NULL;
}

static void write_draft(struct answer *answer, const struct node *draft)
{
    struct json *j = &answer->json;
    json_key(j, "draft");
    if (!draft) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_text(j, "version", answer_text(draft, "version"));
    json_key(j, "record");
    record_write_json(j, tree_find(draft, "record"));
    json_close_object(j);
}

static bool has_remarks(struct bytes text)
{
    for (size_t i = 0; i < text.length; i++)
        if (text.data[i] == '#' && (i == 0 || isspace((unsigned char)text.data[i - 1])))
            return true;
    return false;
}

static void open_new_draft(struct answer *answer, const char *id)
{
    const struct node *draft = strncmp(id, "new-", 4) == 0 ? read_draft(answer, id) : NULL;
    struct json *j = &answer->json;
    if (!draft) {
        answer_refuse(answer, 404, "no-record");
        return;
    }
    json_open_object(j);
    json_key_text(j, "name", "");
    json_key_text(j, "id", id);
    write_draft(answer, draft);
    json_close_object(j);
}

void record_open(struct answer *answer)
{
    const char *id = request_find(answer->request, "draft");
    struct opened opened;
    if (id) {
        open_new_draft(answer, id);
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
    json_key_text(j, "id", draft_id(opened.name, answer->arena));
    json_key_text(j, "version", opened.version);
    json_key_text(j, "state", list_state_word(list_state(answer, opened.name)));
    json_key_flag(j, "remarks", has_remarks(opened.text));
    json_key(j, "record");
    record_write_json(j, opened.tree);
    write_draft(answer, read_draft(answer, draft_id(opened.name, answer->arena)));
    json_key(j, "log");
    journal_write_json(journal_read(log, answer->arena), j, answer->arena);
    write_check(answer, opened.name, opened.tree);
    json_close_object(j);
}

/* ---- keep what is typed
 * ------------------------------------------------------------------------------- */

static const char *fresh_id(struct arena *arena)
{
    unsigned char random[8] = {0};
    if (getrandom(random, sizeof random, 0) != (ssize_t)sizeof random)
        return NULL;
    struct strbuf id;
    strbuf_init(&id, arena);
    strbuf_add(&id, "new-");
    for (size_t i = 0; i < sizeof random; i++)
        strbuf_addf(&id, "%02x", random[i]);
    return id.text;
}

/* {id, version, record}: kept as it came, then looked at. */
void record_draft(struct answer *answer)
{
    struct node *body = answer_body(answer);
    if (!body)
        return;
    struct node *record = tree_find(body, "record");
    const char *id = answer_text(body, "id");
    if (!*id)
        id = fresh_id(answer->arena);
    if (!record || record->kind != NODE_MAP || !id) {
        answer_refuse(answer, 400, "not-understood");
        return;
    }
    if (!store_draft_write(&answer->desk->store, id, answer->request->body, answer->arena,
                           &answer->diag)) {
        answer_refuse_faults(answer, 500, "not-kept", NULL);
        return;
    }
    record_prune(record);
    json_open_object(&answer->json);
    json_key_text(&answer->json, "id", id);
    write_check(answer, "record", record);
    json_close_object(&answer->json);
}

void record_discard(struct answer *answer)
{
    struct node *body = answer_body(answer);
    if (!body)
        return;
    store_draft_remove(&answer->desk->store, answer_text(body, "id"), answer->arena);
    json_open_object(&answer->json);
    json_key_flag(&answer->json, "done", true);
    json_close_object(&answer->json);
}

/* ---- save
 * ------------------------------------------------------------------------------------------------
 */

/* "biscuit-2026-03-14": plain letters of the animal's name and the day. */
static const char *stem_of(const struct care_plan *plan, struct arena *arena)
{
    enum { LETTERS_MOST = 40 };
    char stem[LETTERS_MOST + 1];
    size_t length = 0;
    for (const char *c = plan->patient.name.text; *c && length < LETTERS_MOST; c++)
        if ((unsigned char)*c < 0x80 && isalnum((unsigned char)*c))
            stem[length++] = (char)tolower((unsigned char)*c);
        else if (length && stem[length - 1] != '-')
            stem[length++] = '-';
    while (length && stem[length - 1] == '-')
        length--;
    stem[length] = '\0';
    char day[16];
    date_write_iso(plan->on, day);
    /* "new-" begins the ids of drafts that have no record */
    return arena_format(arena, "%s-%s", length && strcmp(stem, "new") != 0 ? stem : "animal", day);
}

struct saving {
    const char *id, *name, *version, *who;
    bool over; /* the other text has been seen and is to go to .kept */
    struct node *record;
    const struct care_plan *plan;
};

static void tell_saved(struct answer *answer, const struct saving *saving, const char *name,
                       struct bytes text, const char *kept)
{
    struct desk *desk = answer->desk;
    char version[STORE_VERSION_BYTES];
    store_version(text, version);
    store_draft_remove(&desk->store, saving->id, answer->arena);
    const char *log = store_log_path(&desk->store, name, answer->arena);
    const struct journal_line line = {desk->settings.clock(), "saved", saving->who, version, kept};
    journal_write(log, &line, &answer->diag);
    json_open_object(&answer->json);
    json_key_text(&answer->json, "name", name);
    json_key_text(&answer->json, "version", version);
    json_key_text(&answer->json, "kept", kept);
    json_close_object(&answer->json);
}

static void tell_conflict(struct answer *answer, const char *kept, const char *version)
{
    answer->reply->status = 409;
    json_open_object(&answer->json);
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
    const struct store_saving again = {saving->name, saving->version, text,
                                       loses_remarks || saving->over};
    enum store_saved saved =
        store_save(&answer->desk->store, &again, answer->arena, &answer->diag, &kept);
    if (saved == STORE_SAVED) {
        tell_saved(answer, saving, saving->name, text, kept);
        return;
    }
    if (saved == STORE_CONFLICT)
        tell_conflict(answer, kept, opened.version);
    else
        answer_refuse_faults(answer, 500, "not-saved", NULL);
}

static void save_new(struct answer *answer, const struct saving *saving)
{
    bool loses_remarks;
    struct bytes text = record_text(saving->record, &visit_schema, (struct bytes){"", 0},
                                    answer->arena, &loses_remarks);
    const char *name = store_add(&answer->desk->store, stem_of(saving->plan, answer->arena), text,
                                 answer->arena, &answer->diag);
    if (name)
        tell_saved(answer, saving, name, text, NULL);
    else
        answer_refuse_faults(answer, 500, "not-saved", NULL);
}

/* {id, name, version, who, record}; an empty name is a new record. Only a record without a fault
 * goes into the folder; the draft keeps every other. */
void record_save(struct answer *answer)
{
    struct node *body = answer_body(answer);
    if (!body)
        return;
    struct saving saving = {
        .id = answer_text(body, "id"),
        .name = answer_text(body, "name"),
        .version = answer_text(body, "version"),
        .who = answer_text(body, "who"),
        .over = strcmp(answer_text(body, "over"), "yes") == 0,
        .record = tree_find(body, "record"),
    };
    if (!saving.record || saving.record->kind != NODE_MAP) {
        answer_refuse(answer, 400, "not-understood");
        return;
    }
    if (!journal_is_name(saving.who)) {
        answer_refuse(answer, 422, "who-is-missing");
        return;
    }
    record_prune(saving.record);
    const struct visit_record *made =
        answer_record(answer, *saving.name ? saving.name : "record", saving.record);
    saving.plan = made ? made->plan : NULL;
    if (!saving.plan)
        answer_refuse_faults(answer, 422, "faults", saving.record);
    else if (*saving.name)
        save_again(answer, &saving);
    else
        save_new(answer, &saving);
}
