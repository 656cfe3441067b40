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

void retention_purge(const struct store *store, int days, long long now)
{
    static const char *const folders[] = {".drafts", ".kept", ".voided", ".shelter"};
    for (size_t i = 0; days > 0 && i < sizeof folders / sizeof *folders; i++)
        purge_folder(store->folder_fd, folders[i], now - (long long)days * DAY_SECONDS, 0);
}
