/* Drafts in the folder `.drafts`. */
#include "desk/drafts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "desk/request.h"
#include "base/hex.h"

enum { NEW_DIGITS = 16, WINDOW_LEAST = 8, WINDOW_MOST = 16 };

const char *drafts_key(const char *name, struct arena *arena)
{
    return request_is_name(name, ".yaml")
               ? arena_format(arena, "r-%.*s", (int)strlen(name) - 5, name)
               : NULL;
}

bool drafts_is_new_key(const char *key)
{
    return strncmp(key, "n-", 2) == 0 && strlen(key) == 2 + NEW_DIGITS &&
           strspn(key + 2, HEX_SMALL) == NEW_DIGITS;
}

/* Eight to sixteen small letters and digits. */
static bool drafts_is_window(const char *window)
{
    size_t length = strlen(window);
    return length >= WINDOW_LEAST && length <= WINDOW_MOST &&
           strspn(window, "abcdefghijklmnopqrstuvwxyz0123456789") == length;
}

static bool is_key(const char *key, struct arena *arena)
{
    return drafts_is_new_key(key) || (strncmp(key, "r-", 2) == 0 &&
                                      drafts_key(arena_format(arena, "%s.yaml", key + 2), arena));
}

/* NULL for what is no plain key and window. */
static const char *path_of(const struct store *store, const char *key, const char *window,
                           struct arena *arena)
{
    return is_key(key, arena) && drafts_is_window(window)
               ? arena_format(arena, "%s/.drafts/%s.%s.json", store->folder, key, window)
               : NULL;
}

bool drafts_write(const struct store *store, const struct draft *draft, struct bytes text,
                  struct arena *arena, struct diag *diag)
{
    const char *path = path_of(store, draft->key, draft->window, arena);
    if (path)
        return store_side_folder(store, ".drafts", arena, diag) &&
               file_write_atomic(path, text.data, text.length, 0600, diag);
    diag_report(diag, DIAG_ERROR, "no-record", (struct mark){.file = draft->key},
                "is no name of a draft");
    return false;
}

bool drafts_read(const struct store *store, const struct draft *draft, struct arena *arena,
                 struct bytes *out)
{
    struct diag quiet;
    const char *path = path_of(store, draft->key, draft->window, arena);
    diag_init(&quiet);
    bool good = path && file_exists(path) && file_read(path, FILE_LIMIT_BYTES, arena, &quiet, out);
    diag_finish(&quiet);
    return good;
}

void drafts_remove(const struct store *store, const char *key, const char *window,
                   struct arena *arena)
{
    const char *path = path_of(store, key, window, arena);
    if (path)
        unlink(path);
}

/* "r-biscuit.3f2a91bc.json" taken apart. */
static bool read_name(const struct store *store, const char *name, struct arena *arena,
                      struct draft *out)
{
    char *key = arena_copy_bytes(arena, name, strlen(name) - strlen(".json"));
    char *dot = strrchr(key, '.');
    struct stat st;
    if (!dot)
        return false;
    *dot = '\0';
    *out = (struct draft){.key = key, .window = dot + 1};
    const char *path = path_of(store, key, out->window, arena);
    if (!path || stat(path, &st) != 0)
        return false;
    out->seconds = (long long)st.st_mtime;
    return true;
}

static int newest_first(const void *a, const void *b)
{
    const struct draft *one = a, *other = b;
    if (one->seconds != other->seconds)
        return one->seconds < other->seconds ? 1 : -1;
    int order = strcmp(one->key, other->key);
    return order ? order : strcmp(one->window, other->window);
}

size_t drafts_list(const struct store *store, const char *key, struct arena *arena,
                   struct draft **out)
{
    struct diag quiet;
    const char **names = NULL, *folder = file_join(arena, store->folder, ".drafts");
    diag_init(&quiet);
    size_t found = file_is_folder(folder) ? file_list(folder, ".json", arena, &quiet, &names) : 0;
    diag_finish(&quiet);
    size_t count = 0;
    *out = ARENA_ARRAY(arena, struct draft, found + 1);
    for (size_t i = 0; i < found; i++)
        if (read_name(store, names[i], arena, &(*out)[count]) &&
            (!key || strcmp((*out)[count].key, key) == 0))
            count++;
    qsort(*out, count, sizeof **out, newest_first);
    return count;
}

static const char *saved_path(const struct store *store, const char *key, struct arena *arena)
{
    return arena_format(arena, "%s/.drafts/%s.saved", store->folder, key);
}

const char *drafts_saved_as(const struct store *store, const char *key, struct arena *arena)
{
    struct diag quiet;
    struct bytes text;
    if (!drafts_is_new_key(key))
        return NULL;
    const char *path = saved_path(store, key, arena);
    diag_init(&quiet);
    bool good = file_exists(path) && file_read(path, STORE_NAME_BYTES, arena, &quiet, &text) &&
                request_is_name(text.data, ".yaml");
    diag_finish(&quiet);
    return good ? text.data : NULL;
}

void drafts_settle(const struct store *store, const char *key, const char *name,
                   struct arena *arena, struct diag *diag)
{
    struct draft *others;
    const char *record = drafts_key(name, arena);
    if (!drafts_is_new_key(key) || !record || !store_side_folder(store, ".drafts", arena, diag))
        return;
    file_write_atomic(saved_path(store, key, arena), name, strlen(name), 0600, diag);
    size_t count = drafts_list(store, key, arena, &others);
    for (size_t i = 0; i < count; i++)
        (void)rename(path_of(store, key, others[i].window, arena),
                     path_of(store, record, others[i].window, arena));
}
