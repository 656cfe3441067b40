/* The people of a desk: their file, their passphrases, their sessions. */
#include "desk/people.h"

#include <crypt.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/random.h>
#include <sys/stat.h>

#include "base/fold.h"
#include "base/hex.h"
#include "base/json.h"
#include "desk/journal.h"
#include "yaml/tree.h"

static const struct {
    const char *word;
    enum role role;
} roles[] = {
    {"reception", ROLE_RECEPTION}, {"veterinarian", ROLE_VETERINARIAN}, {"shelter", ROLE_SHELTER}};

enum { ROLE_COUNT = sizeof roles / sizeof *roles };

enum role people_role(const char *word)
{
    for (size_t i = 0; i < ROLE_COUNT; i++)
        if (strcmp(roles[i].word, word) == 0)
            return roles[i].role;
    return (enum role)0;
}

const char *people_role_word(enum role role)
{
    for (size_t i = 0; i < ROLE_COUNT; i++)
        if (roles[i].role == role)
            return roles[i].word;
    return "";
}

/* ---- the file -------------------------------------------------------------------------------- */

static const char *path_of(const struct store *store, struct arena *arena)
{
    return file_join(arena, store->folder, ".people.yaml");
}

static bool refuse(struct diag *diag, const char *code, const char *path, const char *text)
{
    diag_report(diag, DIAG_ERROR, code, (struct mark){.file = path}, "%s", text);
    return false;
}

static const char *text_under(const struct node *node, const char *key)
{
    const struct node *found = tree_find(node, key);
    return found && found->kind == NODE_SCALAR ? found->text : "";
}

static bool read_person(const struct node *node, struct person *out)
{
    *out = (struct person){.role = people_role(text_under(node, "role"))};
    snprintf(out->name, sizeof out->name, "%s", text_under(node, "name"));
    snprintf(out->hash, sizeof out->hash, "%s", text_under(node, "passphrase"));
    return journal_is_name(out->name) && out->role && *out->hash;
}

static bool read_persons(const struct node *tree, const char *path, struct diag *diag,
                         struct people *out)
{
    const struct node *list = tree ? tree_find(tree, "people") : NULL;
    if (!list || list->kind != NODE_LIST || list->count > PEOPLE_MOST)
        return refuse(diag, "no-people", path, "holds no list of people");
    out->persons = calloc(list->count + 1, sizeof *out->persons);
    if (!out->persons)
        support_out_of_memory();
    for (size_t i = 0; i < list->count; i++)
        if (!read_person(list->items[i], &out->persons[out->count++]))
            return refuse(diag, "no-person", path,
                          "a person has a name, a role (reception, veterinarian or shelter) and a "
                          "passphrase's hash");
    return true;
}

/* False after errors; nobody when there is no file. */
static bool read_file(const struct store *store, struct arena *arena, struct diag *diag,
                      struct people *out)
{
    struct stat st;
    struct bytes text;
    const char *path = path_of(store, arena);
    *out = (struct people){0};
    if (stat(path, &st) != 0)
        return true;
    out->changed_ns = (long long)st.st_mtim.tv_sec * 1000000000LL + st.st_mtim.tv_nsec;
    if (st.st_mode & (S_IRWXG | S_IRWXO))
        return refuse(diag, "not-private", path, "others may read this file; chmod 600 ends that");
    return file_read(path, FILE_LIMIT_BYTES, arena, diag, &text) &&
           read_persons(tree_read_bytes(path, text, arena, diag), path, diag, out);
}

static struct person *find(const struct people *people, const char *name, struct arena *arena)
{
    const char *wanted = fold_text(name, arena);
    for (size_t i = 0; i < people->count; i++)
        if (strcmp(fold_text(people->persons[i].name, arena), wanted) == 0)
            return &people->persons[i];
    return NULL;
}

static bool is_as_read(const struct people *people, const char *path)
{
    struct stat st;
    if (stat(path, &st) != 0)
        return people->changed_ns == 0;
    return people->changed_ns == (long long)st.st_mtim.tv_sec * 1000000000LL + st.st_mtim.tv_nsec;
}

bool people_refresh(struct people *people, const struct store *store, struct arena *arena,
                    struct diag *diag)
{
    struct people anew;
    if (is_as_read(people, path_of(store, arena)))
        return true;
    if (!read_file(store, arena, diag, &anew)) {
        free(anew.persons);
        return false;
    }
    for (size_t i = 0; i < anew.count; i++) {
        const struct person *before = find(people, anew.persons[i].name, arena);
        if (before && strcmp(before->hash, anew.persons[i].hash) == 0) {
            anew.persons[i].failures = before->failures;
            anew.persons[i].wait_until = before->wait_until;
        }
    }
    /* whoever was changed or taken out logs in anew */
    for (size_t i = 0; people->sessions && i < PEOPLE_SESSIONS_MOST; i++) {
        const struct person *before = find(people, people->sessions[i].name, arena);
        const struct person *now = find(&anew, people->sessions[i].name, arena);
        if (!before || !now || strcmp(before->hash, now->hash) != 0 || before->role != now->role)
            people->sessions[i].key[0] = '\0';
    }
    free(people->persons);
    anew.sessions = people->sessions;
    *people = anew;
    return true;
}

void people_finish(struct people *people)
{
    free(people->persons);
    free(people->sessions);
    *people = (struct people){0};
}

static bool write_file(const struct store *store, const struct people *people, struct arena *arena,
                       struct diag *diag)
{
    struct strbuf text;
    struct json json;
    strbuf_init(&text, arena);
    json_init(&json, &text);
    json_open_object(&json);
    json_key(&json, "people");
    json_open_list(&json);
    for (size_t i = 0; i < people->count; i++) {
        json_open_object(&json);
        json_key_text(&json, "name", people->persons[i].name);
        json_key_text(&json, "role", people_role_word(people->persons[i].role));
        json_key_text(&json, "passphrase", people->persons[i].hash);
        json_close_object(&json);
    }
    json_close_list(&json);
    json_close_object(&json);
    strbuf_add_char(&text, '\n');
    return file_write_atomic(path_of(store, arena), text.text, text.length, 0600, diag);
}

static bool hash_passphrase(const char *passphrase, struct person *person, struct diag *diag)
{
    char setting[CRYPT_GENSALT_OUTPUT_SIZE];
    struct crypt_data *data = calloc(1, sizeof *data);
    if (!data)
        support_out_of_memory();
    /* "$7$" is scrypt at libxcrypt's own cost, salted with the system's random bytes */
    const char *made = crypt_gensalt_rn("$7$", 0, NULL, 0, setting, sizeof setting)
                           ? crypt_r(passphrase, setting, data)
                           : NULL;
    bool good = made && *made != '*' && strlen(made) < sizeof person->hash;
    if (good)
        snprintf(person->hash, sizeof person->hash, "%s", made);
    else
        diag_report(diag, DIAG_FAULT, "no-hash", (struct mark){0},
                    "the system's libcrypt knows no scrypt");
    explicit_bzero(data, sizeof *data);
    free(data);
    return good;
}

static bool draw_key(char out[PEOPLE_KEY_BYTES])
{
    unsigned char random[(PEOPLE_KEY_BYTES - 1) / 2];
    if (getrandom(random, sizeof random, 0) != (ssize_t)sizeof random)
        return false;
    hex_write(out, random, sizeof random, HEX_SMALL);
    return true;
}

/* From the first person on, signatures are keyed: what others write into a record is none. */
static bool make_signing_key(const struct store *store, struct arena *arena, struct diag *diag)
{
    char key[PEOPLE_KEY_BYTES];
    const char *path = file_join(arena, store->folder, ".signing-key");
    return file_exists(path) ||
           (draw_key(key) && file_write_atomic(path, key, strlen(key), 0600, diag));
}

bool people_set(const struct store *store, const char *name, enum role role, const char *passphrase,
                struct diag *diag)
{
    struct arena arena;
    struct people people;
    arena_init(&arena);
    bool good = read_file(store, &arena, diag, &people);
    if (good && !journal_is_signer(name))
        good = refuse(diag, "usage", NULL, "a person's whole name is needed, such as 'Ana Brook'");
    else if (good && strlen(passphrase) < PEOPLE_PASSPHRASE_LEAST)
        good = refuse(diag, "usage", NULL, "a passphrase has ten letters at least");
    struct person *person = good ? find(&people, name, &arena) : NULL;
    if (good && !person) {
        people.persons = realloc(people.persons, (people.count + 1) * sizeof *people.persons);
        if (!people.persons)
            support_out_of_memory();
        person = &people.persons[people.count++];
        *person = (struct person){0};
        snprintf(person->name, sizeof person->name, "%s", name);
    }
    if (good) {
        person->role = role;
        good = hash_passphrase(passphrase, person, diag) && make_signing_key(store, &arena, diag) &&
               write_file(store, &people, &arena, diag);
    }
    free(people.persons);
    arena_finish(&arena);
    return good;
}

bool people_remove(const struct store *store, const char *name, struct diag *diag)
{
    struct arena arena;
    struct people people;
    arena_init(&arena);
    bool good = read_file(store, &arena, diag, &people);
    struct person *person = good ? find(&people, name, &arena) : NULL;
    if (good && !person)
        good = refuse(diag, "no-person", NULL, "there is no person of that name");
    if (good && people.persons) {
        *person = people.persons[--people.count];
        good = write_file(store, &people, &arena, diag);
    }
    free(people.persons);
    arena_finish(&arena);
    return good;
}

/* ---- sessions -------------------------------------------------------------------------------- */

static bool is_right(const struct person *person, const char *passphrase)
{
    struct crypt_data *data = calloc(1, sizeof *data);
    if (!data)
        support_out_of_memory();
    const char *made = crypt_r(passphrase, person->hash, data);
    size_t length = strlen(person->hash);
    unsigned char differs = !made || strlen(made) != length;
    for (size_t i = 0; !differs && i < length; i++)
        differs |= (unsigned char)(made[i] ^ person->hash[i]);
    explicit_bzero(data, sizeof *data);
    free(data);
    return !differs;
}

static bool has_ended(const struct session *session, long long now)
{
    return !session->key[0] || now - session->seen > PEOPLE_IDLE_SECONDS ||
           now - session->begun > PEOPLE_DAY_SECONDS;
}

static const struct session *begin_session(struct people *people, const struct person *person,
                                           long long now)
{
    if (!people->sessions)
        people->sessions = calloc(PEOPLE_SESSIONS_MOST, sizeof *people->sessions);
    if (!people->sessions)
        support_out_of_memory();
    struct session *place = &people->sessions[0]; /* the one unused for longest goes */
    for (size_t i = 0; i < PEOPLE_SESSIONS_MOST && !has_ended(place, now); i++)
        if (has_ended(&people->sessions[i], now) || people->sessions[i].seen < place->seen)
            place = &people->sessions[i];
    *place = (struct session){.begun = now, .seen = now};
    snprintf(place->name, sizeof place->name, "%s", person->name);
    return draw_key(place->key) ? place : NULL;
}

enum people_entry people_log_in(struct people *people, const char *name, const char *passphrase,
                                long long now, const struct session **session)
{
    struct arena arena;
    arena_init(&arena);
    struct person *person = find(people, name, &arena);
    arena_finish(&arena);
    *session = NULL;
    if (!person)
        return PEOPLE_WRONG;
    if (now < person->wait_until)
        return PEOPLE_WAIT;
    if (is_right(person, passphrase)) {
        person->failures = 0;
        *session = begin_session(people, person, now);
        return *session ? PEOPLE_IN : PEOPLE_WRONG;
    }
    if (++person->failures % PEOPLE_TRIES_MOST == 0)
        person->wait_until = now + PEOPLE_WAIT_SECONDS * (person->failures / PEOPLE_TRIES_MOST);
    return PEOPLE_WRONG;
}

static struct session *find_session(struct people *people, const char *key)
{
    for (size_t i = 0;
         people->sessions && key && strlen(key) == PEOPLE_KEY_BYTES - 1 && i < PEOPLE_SESSIONS_MOST;
         i++) {
        unsigned char differs = 0; /* in constant time */
        for (size_t k = 0; k < PEOPLE_KEY_BYTES; k++)
            differs |= (unsigned char)(people->sessions[i].key[k] ^ key[k]);
        if (!differs)
            return &people->sessions[i];
    }
    return NULL;
}

const struct person *people_at(struct people *people, const char *key, long long now, bool counts)
{
    struct session *session = find_session(people, key);
    if (!session || has_ended(session, now))
        return NULL;
    if (counts)
        session->seen = now;
    struct arena arena;
    arena_init(&arena);
    const struct person *person = find(people, session->name, &arena);
    arena_finish(&arena);
    return person;
}

void people_log_out(struct people *people, const char *key)
{
    struct session *session = find_session(people, key);
    if (session)
        session->key[0] = '\0';
}
