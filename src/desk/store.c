/* Names, versions, drafts and saving of records in their folder; nothing leaves that folder. */
#include "desk/store.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <nettle/sha2.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/fold.h"
#include "base/strbuf.h"
#include "desk/request.h"
#include "yaml/tree.h"
#include "base/hex.h"
#include "base/utf8.h"

static bool refuse(struct diag *diag, enum diag_severity severity, const char *code,
                   const char *file, const char *text)
{
    diag_report(diag, severity, code, (struct mark){.file = file}, "%s", text);
    return false;
}

bool store_init(struct store *store, const char *folder, struct diag *diag)
{
    *store = (struct store){.folder = folder, .folder_fd = -1};
    if (!file_is_folder(folder))
        return refuse(diag, DIAG_ERROR, "no-folder", folder, "is no folder of visit records");
    store->folder_fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (store->folder_fd < 0)
        return refuse(diag, DIAG_FAULT, "cannot-read", folder, strerror(errno));
    if (flock(store->folder_fd, LOCK_EX | LOCK_NB) != 0)
        return refuse(diag, DIAG_FAULT, "desk-runs", folder, "another desk serves this folder");
    return true;
}

void store_finish(struct store *store)
{
    if (store->folder_fd >= 0)
        close(store->folder_fd);
    free(store->entries);
    *store = (struct store){.folder_fd = -1};
}

void store_version(struct bytes text, char out[STORE_VERSION_BYTES])
{
    struct sha256_ctx sha;
    uint8_t digest[SHA256_DIGEST_SIZE];
    sha256_init(&sha);
    sha256_update(&sha, text.length, (const uint8_t *)text.data);
    sha256_digest(&sha, sizeof digest, digest);
    hex_write(out, digest, sizeof digest, HEX_SMALL);
}

/* ---- the list
 * ------------------------------------------------------------------------------------ */

/* Cut at a whole character. */
static void copy_text(char *out, size_t size, const char *text)
{
    size_t length = strlen(text);
    if (length >= size)
        for (length = size - 1; length && utf8_goes_on(text[length]);)
            length--;
    memcpy(out, text, length);
    out[length] = '\0';
}

static const char *text_at(const struct node *tree, const char *part, const char *key)
{
    const struct node *node = tree_find(tree_find(tree, part), key);
    return node && node->kind == NODE_SCALAR ? node->text : "";
}

/* What letters find: names without case and accents, telephones without spaces and signs. */
static void write_letters(struct store_entry *entry, const char *telephone, struct arena *arena)
{
    struct strbuf digits;
    strbuf_init(&digits, arena);
    for (const char *c = telephone; *c; c++)
        if (*c >= '0' && *c <= '9')
            strbuf_add_char(&digits, *c);
    copy_text(entry->letters, sizeof entry->letters,
              arena_format(arena, "%s %s %s", fold_text(entry->patient, arena),
                           fold_text(entry->keeper, arena), digits.text));
}

static void read_entry(const struct store *store, struct store_entry *entry)
{
    struct arena arena;
    struct diag quiet;
    struct bytes text;
    arena_init(&arena);
    diag_init(&quiet);
    entry->date = entry->booked = (struct date){0};
    entry->telephone[0] = entry->booked_at[0] = '\0';
    entry->patient[0] = entry->keeper[0] = entry->species[0] = entry->version[0] = '\0';
    entry->state = -1;
    if (store_read(store, entry->name, &arena, &quiet, &text)) {
        store_version(text, entry->version);
        const struct node *tree = tree_read_bytes(entry->name, text, &arena, &quiet);
        entry->broken_line = tree                                  ? 0
                             : quiet.first && quiet.first->at.line ? quiet.first->at.line
                                                                   : 1;
        copy_text(entry->patient, sizeof entry->patient, text_at(tree, "patient", "name"));
        copy_text(entry->species, sizeof entry->species, text_at(tree, "patient", "species"));
        copy_text(entry->keeper, sizeof entry->keeper, text_at(tree, "keeper", "name"));
        const char *telephone = text_at(tree, "keeper", "telephone");
        copy_text(entry->telephone, sizeof entry->telephone, telephone);
        write_letters(entry, telephone, &arena);
        date_read(text_at(tree, "visit", "date"), false, &entry->date);
        date_read(text_at(tree, "follow-up", "booked"), false, &entry->booked);
        copy_text(entry->booked_at, sizeof entry->booked_at,
                  text_at(tree, "follow-up", "booked-at"));
    }
    diag_finish(&quiet);
    arena_finish(&arena);
}

static struct store_entry *add_entry(struct store *store)
{
    if (store->count == store->capacity) {
        size_t capacity = store->capacity ? store->capacity * 2 : 64;
        struct store_entry *moved = realloc(store->entries, capacity * sizeof *moved);
        if (!moved)
            support_out_of_memory();
        store->entries = moved;
        store->capacity = capacity;
    }
    struct store_entry *entry = &store->entries[store->count++];
    memset(entry, 0, sizeof *entry);
    return entry;
}

static int by_name(const void *a, const void *b)
{
    return strcmp(((const struct store_entry *)a)->name, ((const struct store_entry *)b)->name);
}

static struct store_entry *find_among(struct store_entry *entries, size_t count, const char *name)
{
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        int order = strcmp(name, entries[middle].name);
        if (order == 0)
            return &entries[middle];
        order < 0 ? (high = middle) : (low = middle + 1);
    }
    return NULL;
}

/* What somebody may take for a record. */
static bool looks_like_record(const char *name)
{
    const char *end = strrchr(name, '.');
    return end && end != name && *name != '.' &&
           (strcasecmp(end, ".yaml") == 0 || strcasecmp(end, ".yml") == 0);
}

/* One that is no plain file or has no plain name. */
static void leave(struct store *store, const char *name)
{
    if (store->left_count < STORE_LEFT_MOST)
        copy_text(store->left[store->left_count], STORE_LABEL_BYTES, name);
    store->left_count++;
}

static void see_file(struct store *store, size_t known, const char *name)
{
    struct stat st;
    if (fstatat(store->folder_fd, name, &st, AT_SYMLINK_NOFOLLOW) != 0)
        return;
    if (!S_ISREG(st.st_mode) || !request_is_name(name, ".yaml")) {
        leave(store, name);
        return;
    }
    struct store_entry *entry = find_among(store->entries, known, name);
    long long changed = (long long)st.st_mtim.tv_sec * 1000000000LL + st.st_mtim.tv_nsec;
    if (entry && entry->changed_ns == changed && entry->size == st.st_size &&
        entry->inode == st.st_ino) {
        entry->seen = true;
        return;
    }
    if (!entry) {
        entry = add_entry(store);
        /* request_is_name takes none that is longer */
        snprintf(entry->name, sizeof entry->name, "%.*s", (int)sizeof entry->name - 1, name);
    }
    entry->changed_ns = changed;
    entry->size = st.st_size;
    entry->inode = st.st_ino;
    entry->seen = true;
    read_entry(store, entry);
}

static void drop_unseen(struct store *store)
{
    size_t kept = 0;
    for (size_t i = 0; i < store->count; i++)
        if (store->entries[i].seen)
            store->entries[kept++] = store->entries[i];
    store->count = kept;
}

bool store_refresh(struct store *store, struct diag *diag)
{
    DIR *folder = opendir(store->folder);
    if (!folder)
        return refuse(diag, DIAG_FAULT, "cannot-read", store->folder, strerror(errno));
    size_t known = store->count;
    store->left_count = 0;
    for (size_t i = 0; i < known; i++)
        store->entries[i].seen = false;
    for (struct dirent *one; (one = readdir(folder));)
        if (looks_like_record(one->d_name))
            see_file(store, known, one->d_name);
    closedir(folder);
    drop_unseen(store);
    if (store->count)
        qsort(store->entries, store->count, sizeof *store->entries, by_name);
    return true;
}

/* ---- records
 * --------------------------------------------------------------------------------------- */

bool store_read(const struct store *store, const char *name, struct arena *arena, struct diag *diag,
                struct bytes *out)
{
    struct stat st;
    if (!request_is_name(name, ".yaml") ||
        fstatat(store->folder_fd, name, &st, AT_SYMLINK_NOFOLLOW) != 0 || !S_ISREG(st.st_mode))
        return refuse(diag, DIAG_ERROR, "no-record", name, "there is no such record");
    return file_read(file_join(arena, store->folder, name), FILE_LIMIT_BYTES, arena, diag, out);
}

const char *store_side_folder(const struct store *store, const char *name, struct arena *arena,
                              struct diag *diag)
{
    const char *folder = file_join(arena, store->folder, name);
    if (file_is_folder(folder))
        return folder;
    if (mkdir(folder, 0700) == 0 || errno == EEXIST)
        return folder;
    refuse(diag, DIAG_FAULT, "cannot-make-folder", folder, strerror(errno));
    return NULL;
}

static const char *keep(const struct store *store, const char *name, struct bytes text,
                        struct arena *arena, struct diag *diag)
{
    char version[STORE_VERSION_BYTES];
    const char *folder = store_side_folder(store, ".kept", arena, diag);
    store_version(text, version);
    const char *kept = arena_format(arena, "%.*s-%.12s.yaml", (int)strlen(name) - 5, name, version);
    return folder && file_write_atomic(file_join(arena, folder, kept), text.data, text.length, 0600,
                                       diag)
               ? arena_format(arena, ".kept/%s", kept)
               : NULL;
}

enum store_saved store_save(const struct store *store, const struct store_saving *saving,
                            struct arena *arena, struct diag *diag, const char **kept)
{
    struct bytes old;
    char found[STORE_VERSION_BYTES];
    *kept = NULL;
    if (!store_read(store, saving->name, arena, diag, &old))
        return STORE_FAILED;
    store_version(old, found);
    if (strcmp(found, saving->version) != 0) {
        *kept = keep(store, saving->name, saving->text, arena, diag);
        return *kept ? STORE_CONFLICT : STORE_FAILED;
    }
    if (saving->keep_old && !(*kept = keep(store, saving->name, old, arena, diag)))
        return STORE_FAILED;
    const char *path = file_join(arena, store->folder, saving->name);
    return file_write_atomic(path, saving->text.data, saving->text.length, 0640, diag)
               ? STORE_SAVED
               : STORE_FAILED;
}

const char *store_add(const struct store *store, const char *stem, struct bytes text,
                      struct arena *arena, struct diag *diag)
{
    const char *folder = store_side_folder(store, ".drafts", arena, diag);
    const char *whole = folder ? file_join(arena, folder, "whole.tmp") : NULL;
    if (!whole || !file_write_atomic(whole, text.data, text.length, 0640, diag))
        return NULL;
    const char *name = NULL;
    for (int i = 1; i < 1000 && !name; i++) {
        const char *wanted = i == 1 ? arena_format(arena, "%s.yaml", stem)
                                    : arena_format(arena, "%s-%d.yaml", stem, i);
        /* unlike a rename, a link never takes the place of a file that is there */
        if (link(whole, file_join(arena, store->folder, wanted)) == 0)
            name = wanted;
        else if (errno != EEXIST) {
            refuse(diag, DIAG_FAULT, "cannot-write", store->folder, strerror(errno));
            break;
        }
    }
    unlink(whole);
    (void)fsync(store->folder_fd);
    return name;
}

const char *store_log_path(const struct store *store, const char *name, struct arena *arena)
{
    return arena_format(arena, "%s/%.*s.log", store->folder, (int)strlen(name) - 5, name);
}
