/* The visits of a day or those that match some letters, each with its state. */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "context/visit_plan.h"
#include "records/opening.h"
#include "desk/handlers.h"
#include "base/fold.h"
#include "desk/drafts.h"
#include "desk/journal.h"
#include "desk/queue.h"

enum { LIST_MOST = 200 };

const char *list_state_word(enum visit_state state)
{
    static const char *const words[] = {
        [STATE_EXAMINE] = "examine",
        [STATE_SIGN] = "sign",
        [STATE_READY] = "ready",
        [STATE_AT_PRINTER] = "at-printer",
        [STATE_PRINTED] = "printed",
        [STATE_MAILED] = "mailed",
        [STATE_MAYBE_MAILED] = "maybe-mailed",
    };
    return words[state];
}

static long long log_size(const struct desk *desk, const char *name, struct arena *arena)
{
    struct stat st;
    return stat(store_log_path(&desk->store, name, arena), &st) == 0 ? (long long)st.st_size : 0;
}

enum visit_state list_state_of_log(struct desk *desk, const char *name, const char *version,
                                   struct arena *arena)
{
    static const char *const mails[] = {"mailed",     "maybe-mailed", "mailing",
                                        "not-mailed", "mail-later",   NULL};
    static const char *const prints[] = {"printed",     "printed-by-hand", "at-printer",
                                         "not-printed", "printing",        NULL};
    struct bytes log = journal_read(store_log_path(&desk->store, name, arena), arena);
    const char *mail = journal_last(log, mails, version);
    const char *print = journal_last(log, prints, version);
    bool mail_is_busy = queue_is_busy(desk->queue, JOB_MAIL, name);
    if (mail && strcmp(mail, "mailed") == 0)
        return STATE_MAILED;
    if (mail && !mail_is_busy &&
        (strcmp(mail, "mailing") == 0 || strcmp(mail, "maybe-mailed") == 0))
        return STATE_MAYBE_MAILED;
    if (print && strncmp(print, "printed", 7) == 0)
        return STATE_PRINTED;
    return print && strcmp(print, "at-printer") == 0 ? STATE_AT_PRINTER : STATE_READY;
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
    if (!record)
        return STATE_EXAMINE;
    bool is_signed = sheet_context_signature(&desk->shared->sheet_context, record, NULL, arena,
                                             diag, &signature) &&
                     signature.is_signed;
    if (!is_signed)
        return record->plan->finding_count ? STATE_SIGN : STATE_EXAMINE;
    return list_state_of_log(desk, name, version, arena);
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

/* ---- finding -----------------------------------------------------------------------------------
 */

enum { WORDS_MOST = 8 };

/* A species as records write it, by code or by any name, with all its folded names. */
struct written_species {
    const char *written, *letters;
    struct written_species *next;
};

/* What somebody looks for: words in any order, each of them somewhere in the animal's, the keeper's
 * or the species' names or in the telephone number. */
struct wanted {
    struct date today, day;
    const char *words[WORDS_MOST];
    size_t word_count; /* 0: all of the day */
    const struct library *library;
    struct written_species *species; /* as they are met */
};

/* Words of digits and signs are parts of a telephone number: "555-01" is "55501". */
static const char *plain_word(char *word)
{
    if (word[strspn(word, "0123456789+-()./")])
        return word;
    size_t kept = 0;
    for (const char *c = word; *c; c++)
        if (*c >= '0' && *c <= '9')
            word[kept++] = *c;
    word[kept] = '\0';
    return word;
}

static void read_words(const char *letters, struct arena *arena, struct wanted *out)
{
    char *text = arena_copy_text(arena, fold_text(letters, arena)), *rest = NULL;
    for (char *word = strtok_r(text, " ", &rest); word && out->word_count < WORDS_MOST;
         word = strtok_r(NULL, " ", &rest))
        if (*plain_word(word))
            out->words[out->word_count++] = word;
}

/* Code, scientific name and the names in every language. */
static const char *species_letters(const struct species *species, struct arena *arena)
{
    struct strbuf text;
    strbuf_init(&text, arena);
    strbuf_addf(&text, "%s %s", species->code.text, species->scientific.text);
    for (size_t i = 0; i < species->names.count; i++)
        strbuf_addf(&text, " %s", LIST_AT(species->names, struct named_text, i)->text.text);
    for (size_t i = 0; i < species->also.count; i++)
        strbuf_addf(&text, " %s", LIST_AT(species->also, struct text_value, i)->text);
    return fold_text(text.text, arena);
}

static const char *letters_of(struct wanted *wanted, const char *written, struct arena *arena)
{
    for (const struct written_species *met = wanted->species; met; met = met->next)
        if (strcmp(met->written, written) == 0)
            return met->letters;
    struct diag quiet;
    diag_init(&quiet);
    const struct species *species =
        library_find_named(wanted->library, written, (struct mark){0}, arena, &quiet);
    diag_finish(&quiet);
    struct written_species *met = ARENA_NEW(arena, struct written_species);
    *met = (struct written_species){written, species ? species_letters(species, arena) : "",
                                    wanted->species};
    wanted->species = met;
    return met->letters;
}

static bool is_wanted(const struct store_entry *entry, struct wanted *wanted, struct arena *arena)
{
    if (!wanted->word_count)
        return date_compare(entry->date, wanted->day) == 0 || !date_is_set(entry->date);
    for (size_t i = 0; i < wanted->word_count; i++)
        if (!strstr(entry->letters, wanted->words[i]) &&
            !strstr(letters_of(wanted, entry->species, arena), wanted->words[i]))
            return false;
    return true;
}

struct found {
    struct store_entry *entry;
    bool is_today;
};

/* Today first, then the newest. */
static int in_order(const void *a, const void *b)
{
    const struct found *one = a, *other = b;
    if (one->is_today != other->is_today)
        return one->is_today ? -1 : 1;
    int order = date_compare(other->entry->date, one->entry->date);
    if (!order)
        order = strcmp(one->entry->letters, other->entry->letters);
    return order ? order : strcmp(one->entry->name, other->entry->name);
}

static size_t find_all(struct store *store, struct wanted *wanted, struct arena *arena,
                       struct found **out)
{
    size_t count = 0;
    *out = ARENA_ARRAY(arena, struct found, store->count + 1);
    for (size_t i = 0; i < store->count; i++) {
        struct store_entry *entry = &store->entries[i];
        if (is_wanted(entry, wanted, arena))
            (*out)[count++] = (struct found){entry, date_compare(entry->date, wanted->today) == 0};
    }
    qsort(*out, count, sizeof **out, in_order);
    return count;
}

/* ---- the answer --------------------------------------------------------------------------------
 */

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
    json_key_text(j, "telephone", entry->telephone);
    json_key_text(j, "species", entry->species);
    json_key_text(j, "date", day);
    json_key_text(j, "version", entry->version);
    json_key_integer(j, "broken", entry->broken_line);
    json_key_text(j, "state", list_state_word(entry_state(answer->desk, entry)));
    json_close_object(j);
}

/* "9:30" stands before "10:30"; without a time last. */
static int by_time(const void *a, const void *b)
{
    const struct store_entry *one = *(struct store_entry *const *)a,
                             *other = *(struct store_entry *const *)b;
    int minute = opening_minute(one->booked_at), later = opening_minute(other->booked_at);
    if (minute != later)
        return minute < 0 || (later >= 0 && minute > later) ? 1 : -1;
    return strcmp(one->letters, other->letters);
}

/* Has it come: does the same animal of the same keeper have a record of that day? */
static bool has_come(const struct store *store, const struct store_entry *booked)
{
    for (size_t i = 0; i < store->count; i++)
        if (date_compare(store->entries[i].date, booked->booked) == 0 &&
            strcmp(store->entries[i].letters, booked->letters) == 0)
            return true;
    return false;
}

/* Who is to come on the day that is shown. */
static void write_booked(struct answer *answer, struct date day)
{
    struct store *store = &answer->desk->store;
    struct store_entry **booked =
        ARENA_ARRAY(answer->arena, struct store_entry *, store->count + 1);
    size_t count = 0;
    for (size_t i = 0; i < store->count; i++)
        if (date_is_set(store->entries[i].booked) &&
            date_compare(store->entries[i].booked, day) == 0 &&
            !has_come(store, &store->entries[i]))
            booked[count++] = &store->entries[i];
    qsort(booked, count, sizeof *booked, by_time);
    json_key(&answer->json, "booked");
    json_open_list(&answer->json);
    for (size_t i = 0; i < count && i < LIST_MOST; i++) {
        json_open_object(&answer->json);
        json_key_text(&answer->json, "name", booked[i]->name);
        json_key_text(&answer->json, "patient", booked[i]->patient);
        json_key_text(&answer->json, "keeper", booked[i]->keeper);
        json_key_text(&answer->json, "telephone", booked[i]->telephone);
        json_key_text(&answer->json, "species", booked[i]->species);
        json_key_text(&answer->json, "at", booked[i]->booked_at);
        json_close_object(&answer->json);
    }
    json_close_list(&answer->json);
}

/* Somebody began and did not save: what was typed last in any window. */
static void write_begun(struct answer *answer, const struct draft *draft)
{
    struct bytes text;
    struct diag quiet;
    char at[JOURNAL_TIME_BYTES];
    if (!drafts_read(&answer->desk->store, draft, answer->arena, &text))
        return;
    diag_init(&quiet);
    const struct node *tree = tree_read_bytes(draft->key, text, answer->arena, &quiet);
    diag_finish(&quiet);
    const struct node *record = tree ? tree_find(tree, "record") : NULL;
    const struct node *patient = record ? tree_find(record, "patient") : NULL;
    journal_time(draft->seconds, at);
    json_open_object(&answer->json);
    json_key_text(&answer->json, "draft", draft->key);
    json_key_text(&answer->json, "patient", patient ? answer_text(patient, "name") : "");
    json_key_text(&answer->json, "who", tree ? answer_text(tree, "who") : "");
    json_key_text(&answer->json, "at", at);
    json_close_object(&answer->json);
}

/* Drafts of visits that have no record yet, one line for all windows. */
static void write_new_drafts(struct answer *answer)
{
    struct draft *drafts;
    size_t count = drafts_list(&answer->desk->store, NULL, answer->arena, &drafts);
    json_open_list(&answer->json);
    for (size_t i = 0; i < count; i++) {
        bool seen = !drafts_is_new_key(drafts[i].key);
        for (size_t k = 0; k < i && !seen; k++)
            seen = strcmp(drafts[k].key, drafts[i].key) == 0;
        if (!seen)
            write_begun(answer, &drafts[i]);
    }
    json_close_list(&answer->json);
}

/* Files that are no visits here, by name; the page says why. */
static void write_left(struct answer *answer)
{
    const struct store *store = &answer->desk->store;
    json_key(&answer->json, "left");
    json_open_list(&answer->json);
    for (size_t i = 0; i < store->left_count && i < STORE_LEFT_MOST; i++)
        json_text(&answer->json, store->left[i]);
    json_close_list(&answer->json);
}

static bool read_wanted(struct answer *answer, struct wanted *out)
{
    const char *day = request_find(answer->request, "day");
    const char *letters = request_find(answer->request, "find");
    *out = (struct wanted){.today = desk_today(answer->desk),
                           .library = &answer->desk->shared->library};
    out->day = out->today;
    if (letters)
        read_words(letters, answer->arena, out);
    return !day || date_read(day, false, &out->day);
}

static void write_found(struct answer *answer, struct wanted *wanted)
{
    struct json *j = &answer->json;
    struct found *found;
    size_t count = find_all(&answer->desk->store, wanted, answer->arena, &found);
    size_t shown = count < LIST_MOST ? count : LIST_MOST;
    json_key(j, "visits");
    json_open_list(j);
    for (size_t i = 0; i < shown; i++)
        write_entry(answer, found[i].entry);
    json_close_list(j);
    json_key_integer(j, "found", (long)count);
    json_key_integer(j, "shown", (long)shown);
}

void list_visits(struct answer *answer)
{
    struct desk *desk = answer->desk;
    struct json *j = &answer->json;
    struct wanted wanted;
    char today[16];
    if (!read_wanted(answer, &wanted)) {
        answer_refuse(answer, 400, "not-understood");
        return;
    }
    if (!store_refresh(&desk->store, &answer->diag)) {
        answer_refuse(answer, 500, "folder-not-read");
        return;
    }
    date_write_iso(wanted.today, today);
    json_open_object(j);
    json_key_text(j, "today", today);
    write_found(answer, &wanted);
    write_booked(answer, wanted.day);
    json_key(j, "drafts");
    write_new_drafts(answer);
    json_key(j, "jobs");
    queue_write_json(desk->queue, NULL, j);
    json_key_integer(j, "records", (long)desk->store.count);
    write_left(answer);
    json_key_flag(j, "templates_broken", desk->templates_broken);
    json_close_object(j);
}
