/* The visits of a day and the state of each. */
#include <ctype.h>
#include <string.h>
#include <sys/stat.h>

#include "context/visit_plan.h"
#include "desk/handlers.h"
#include "desk/journal.h"

enum { LIST_MOST = 200 };

const char *list_state_word(enum visit_state state)
{
    static const char *const words[] = {
        [STATE_EXAMINE] = "examine", [STATE_SIGN] = "sign",     [STATE_READY] = "ready",
        [STATE_PRINTED] = "printed", [STATE_MAILED] = "mailed",
    };
    return words[state];
}

static long long log_size(const struct desk *desk, const char *name, struct arena *arena)
{
    struct stat st;
    return stat(store_log_path(&desk->store, name, arena), &st) == 0 ? (long long)st.st_size : 0;
}

static enum visit_state state_of(struct desk *desk, const char *name, struct arena *arena,
                                 struct diag *diag)
{
    struct bytes text;
    char version[STORE_VERSION_BYTES];
    struct signature signature;
    if (!store_read(&desk->store, name, arena, diag, &text))
        return STATE_EXAMINE;
    store_version(text, version);
    const struct node *tree = tree_read_bytes(name, text, arena, diag);
    const struct visit *visit =
        tree ? visit_read_tree(tree, name, desk_today(desk), arena, diag) : NULL;
    const struct visit_record *record =
        visit ? visit_plan_make(&desk->shared->resources, visit, arena, diag) : NULL;
    if (!record || record->plan->finding_count == 0)
        return STATE_EXAMINE;
    if (!sheet_context_signature(&desk->shared->sheet_context, record, arena, diag, &signature) ||
        !signature.is_signed)
        return STATE_SIGN;
    struct bytes log = journal_read(store_log_path(&desk->store, name, arena), arena);
    return journal_has(log, "mailed", version)    ? STATE_MAILED
           : journal_has(log, "printed", version) ? STATE_PRINTED
                                                  : STATE_READY;
}

static enum visit_state entry_state(struct desk *desk, struct store_entry *entry)
{
    struct arena arena;
    struct diag quiet;
    arena_init(&arena);
    diag_init(&quiet);
    long long size = log_size(desk, entry->name, &arena);
    if (entry->state < 0 || entry->log_size != size) {
        entry->state = (int)state_of(desk, entry->name, &arena, &quiet);
        entry->log_size = size;
    }
    diag_finish(&quiet);
    arena_finish(&arena);
    return (enum visit_state)entry->state;
}

enum visit_state list_state(struct answer *answer, const char *name)
{
    struct diag quiet;
    diag_init(&quiet);
    enum visit_state state = state_of(answer->desk, name, answer->arena, &quiet);
    diag_finish(&quiet);
    return state;
}

/* Letters anywhere in the text, ASCII without regard to case. */
static bool holds(const char *text, const char *letters)
{
    size_t length = strlen(letters);
    for (; *text; text++) {
        size_t i = 0;
        while (i < length && tolower((unsigned char)text[i]) == tolower((unsigned char)letters[i]))
            i++;
        if (i == length)
            return true;
    }
    return length == 0;
}

static bool is_wanted(const struct store_entry *entry, struct date day, const char *letters)
{
    if (letters && *letters)
        return holds(entry->patient, letters) || holds(entry->keeper, letters);
    return date_compare(entry->date, day) == 0 || !date_is_set(entry->date);
}

static void write_entry(struct answer *answer, struct store_entry *entry)
{
    struct json *j = &answer->json;
    char day[16] = "";
    if (date_is_set(entry->date))
        date_write_iso(entry->date, day);
    json_open_object(j);
    json_key_text(j, "name", entry->name);
    json_key_text(j, "patient", entry->patient);
    json_key_text(j, "keeper", entry->keeper);
    json_key_text(j, "species", entry->species);
    json_key_text(j, "date", day);
    json_key_text(j, "state", list_state_word(entry_state(answer->desk, entry)));
    json_close_object(j);
}

/* Drafts of records that have no file yet: somebody began and did not save. */
static void write_new_drafts(struct answer *answer)
{
    struct store *store = &answer->desk->store;
    const char **ids = NULL;
    size_t count = store_drafts(store, answer->arena, &ids);
    json_open_list(&answer->json);
    for (size_t i = 0; i < count; i++) {
        struct bytes text;
        struct diag quiet;
        if (strncmp(ids[i], "new-", 4) != 0 ||
            !store_draft_read(store, ids[i], answer->arena, &text))
            continue;
        diag_init(&quiet);
        const struct node *draft = tree_read_bytes(ids[i], text, answer->arena, &quiet);
        diag_finish(&quiet);
        const struct node *patient = tree_find(tree_find(draft, "record"), "patient");
        json_open_object(&answer->json);
        json_key_text(&answer->json, "draft", ids[i]);
        json_key_text(&answer->json, "patient", patient ? answer_text(patient, "name") : "");
        json_close_object(&answer->json);
    }
    json_close_list(&answer->json);
}

void list_visits(struct answer *answer)
{
    struct desk *desk = answer->desk;
    struct json *j = &answer->json;
    struct date day = desk_today(desk);
    const char *wanted = request_find(answer->request, "day");
    const char *letters = request_find(answer->request, "find");
    if (wanted && !date_read(wanted, false, &day)) {
        answer_refuse(answer, 400, "not-understood");
        return;
    }
    if (!store_refresh(&desk->store, &answer->diag)) {
        answer_refuse(answer, 500, "folder-not-read");
        return;
    }
    size_t shown = 0, found = 0;
    json_open_object(j);
    json_key(j, "visits");
    json_open_list(j);
    for (size_t i = 0; i < desk->store.count; i++) {
        if (!is_wanted(&desk->store.entries[i], day, letters))
            continue;
        if (++found <= LIST_MOST && ++shown)
            write_entry(answer, &desk->store.entries[i]);
    }
    json_close_list(j);
    json_key(j, "drafts");
    write_new_drafts(answer);
    json_key_integer(j, "found", (long)found);
    json_key_integer(j, "shown", (long)shown);
    json_key_integer(j, "records", (long)desk->store.count);
    json_key_integer(j, "other_names", (long)desk->store.other_names);
    json_key_flag(j, "templates_broken", desk->templates_broken);
    json_close_object(j);
}
