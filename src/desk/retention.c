/* Forgetting by age. */
#include "desk/retention.h"

#include <dirent.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { DAY_SECONDS = 24 * 3600, DEPTH_MOST = 4 };

static void purge_folder(int above, const char *name, long long before, int depth);

/* Folders go when they are empty; links are never followed. */
static void purge_entry(int folder, const char *name, long long before, int depth)
{
    struct stat st;
    if (fstatat(folder, name, &st, AT_SYMLINK_NOFOLLOW) != 0)
        return;
    if (S_ISDIR(st.st_mode) && depth < DEPTH_MOST) {
        purge_folder(folder, name, before, depth + 1);
        (void)unlinkat(folder, name, AT_REMOVEDIR);
    } else if ((long long)st.st_mtime < before)
        (void)unlinkat(folder, name, 0);
}

static void purge_folder(int above, const char *name, long long before, int depth)
{
    int fd = openat(above, name, O_RDONLY | O_DIRECTORY | O_CLOEXEC | O_NOFOLLOW);
    DIR *folder = fd >= 0 ? fdopendir(fd) : NULL;
    if (!folder) {
        if (fd >= 0)
            close(fd);
        return;
    }
    for (struct dirent *one; (one = readdir(folder));)
        if (strcmp(one->d_name, ".") != 0 && strcmp(one->d_name, "..") != 0)
            purge_entry(fd, one->d_name, before, depth);
    closedir(folder);
}

/* ---- files beside the records that no text names any more ---- */

/* As the desk names what is dropped (beside.c): "week-1-0123456789abcdef.csv". */
static bool is_dropped_name(const char *name, const char *suffix)
{
    enum { DIGEST_LETTERS = 16 };
    size_t length = strlen(name), end = strlen(suffix);
    if (length < end + DIGEST_LETTERS + 2)
        return false;
    const char *digest = name + length - end - DIGEST_LETTERS;
    return digest[-1] == '-' && strspn(digest, "0123456789abcdef") == DIGEST_LETTERS;
}

struct orphans {
    const char **names; /* NULL: a text names it */
    size_t count;
};

static void find_dropped(const struct store *store, long long before, struct arena *arena,
                         struct diag *quiet, struct orphans *out)
{
    static const char *const suffixes[] = {".csv", ".jpg", ".png"};
    for (size_t i = 0; i < sizeof suffixes / sizeof *suffixes; i++) {
        const char **names = NULL;
        size_t count = file_list(store->folder, suffixes[i], arena, quiet, &names);
        const char **grown = ARENA_ARRAY(arena, const char *, out->count + count + 1);
        for (size_t k = 0; k < out->count; k++)
            grown[k] = out->names[k];
        out->names = grown;
        for (size_t k = 0; k < count; k++) {
            struct stat st;
            if (is_dropped_name(names[k], suffixes[i]) &&
                fstatat(store->folder_fd, names[k], &st, AT_SYMLINK_NOFOLLOW) == 0 &&
                S_ISREG(st.st_mode) && (long long)st.st_mtime < before)
                out->names[out->count++] = names[k];
        }
    }
}

/* What cannot be read may name any of them. */
static void strike_named(const char *path, struct orphans *orphans)
{
    static const size_t LIMIT = (size_t)16 << 20;
    struct arena arena;
    struct diag quiet;
    struct bytes text;
    arena_init(&arena);
    diag_init(&quiet);
    bool read = file_read(path, LIMIT, &arena, &quiet, &text);
    for (size_t i = 0; i < orphans->count; i++)
        if (orphans->names[i] &&
            (!read || memmem(text.data, text.length, orphans->names[i], strlen(orphans->names[i]))))
            orphans->names[i] = NULL;
    diag_finish(&quiet);
    arena_finish(&arena);
}

static void purge_orphans(const struct store *store, long long before)
{
    static const struct {
        const char *folder, *suffix;
    } texts[] = {{".", ".yaml"}, {".drafts", ""}, {".kept", ""}, {".voided", ""}};
    struct orphans orphans = {0};
    struct arena arena;
    struct diag quiet;
    arena_init(&arena);
    diag_init(&quiet);
    find_dropped(store, before, &arena, &quiet, &orphans);
    for (size_t i = 0; orphans.count && i < sizeof texts / sizeof *texts; i++) {
        const char **names = NULL;
        const char *folder = file_join(&arena, store->folder, texts[i].folder);
        size_t count = file_list(folder, texts[i].suffix, &arena, &quiet, &names);
        for (size_t k = 0; k < count; k++)
            strike_named(file_join(&arena, folder, names[k]), &orphans);
    }
    for (size_t i = 0; i < orphans.count; i++)
        if (orphans.names[i])
            (void)unlinkat(store->folder_fd, orphans.names[i], 0);
    diag_finish(&quiet);
    arena_finish(&arena);
}

void retention_purge(const struct store *store, int days, long long now)
{
    static const char *const folders[] = {".drafts", ".kept", ".voided", ".shelter"};
    const long long before = now - (long long)days * DAY_SECONDS;
    if (days <= 0)
        return;
    for (size_t i = 0; i < sizeof folders / sizeof *folders; i++)
        purge_folder(store->folder_fd, folders[i], before, 0);
    purge_orphans(store, before);
}
