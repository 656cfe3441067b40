/* Hidden files with a lock, which get their name when they are whole. */
#include "base/file_writer.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/random.h>
#include <time.h>
#include <unistd.h>

static const char hidden_start[] = ".baskleaf-";

static bool fault(const struct file_writer *writer, const char *doing, int error, struct diag *diag)
{
    diag_report(diag, DIAG_FAULT, "cannot-write", (struct mark){.file = writer->path},
                "%s failed: %s; nothing was written under this name", doing, strerror(error));
    return false;
}

/* ---- the hidden file --------------------------------------------------------------------------
 *
 * A writer holds a lock on its hidden file for as long as it lives, so that one that nobody holds
 * was left by a run that was killed. */

/* Locked and still there: a sweep may have come between the making and the locking. */
static bool hold(int fd)
{
    struct stat st;
    return flock(fd, LOCK_EX | LOCK_NB) == 0 && fstat(fd, &st) == 0 && st.st_nlink > 0;
}

/* Letters for a name, different in each process and at each call. */
static unsigned long long some_number(void)
{
    unsigned long long number;
    struct timespec now;
    if (getrandom(&number, sizeof number, GRND_NONBLOCK) == sizeof number)
        return number;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (unsigned long long)now.tv_nsec * 4194304u + (unsigned long long)getpid();
}

/* -1 and errno on failure. */
static int open_hidden(struct file_writer *writer, mode_t mode)
{
    const char *slash = strrchr(writer->target, '/');
    int folder_length = slash ? (int)(slash - writer->target + 1) : 0;
    for (int attempt = 0; attempt < 100; attempt++) {
        int made = snprintf(writer->hidden, sizeof writer->hidden, "%.*s%s%016llx", folder_length,
                            writer->target, hidden_start, some_number());
        if (made < 0 || (size_t)made >= sizeof writer->hidden) {
            errno = ENAMETOOLONG;
            return -1;
        }
        int fd = open(writer->hidden, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, mode);
        if (fd < 0 && errno != EEXIST)
            return -1;
        if (fd >= 0 && hold(fd))
            return fd;
        if (fd >= 0)
            close(fd);
    }
    errno = EEXIST;
    return -1;
}

void file_sweep(const char *folder)
{
    DIR *dir = opendir(folder);
    if (!dir && errno == ENOMEM)
        support_out_of_memory();
    for (struct dirent *entry; dir && (entry = readdir(dir));) {
        struct stat st;
        if (strncmp(entry->d_name, hidden_start, sizeof hidden_start - 1) != 0)
            continue;
        int fd = openat(dirfd(dir), entry->d_name,
                        O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY);
        if (fd < 0)
            continue;
        if (fstat(fd, &st) == 0 && S_ISREG(st.st_mode) && flock(fd, LOCK_EX | LOCK_NB) == 0)
            unlinkat(dirfd(dir), entry->d_name, 0);
        close(fd);
    }
    if (dir)
        closedir(dir);
}

/* ---- writing --------------------------------------------------------------------------------- */

/* The path behind a link, and what stands there. */
static bool find_target(struct file_writer *writer, struct diag *diag)
{
    writer->replaces = lstat(writer->path, &writer->old) == 0;
    if (writer->replaces && S_ISLNK(writer->old.st_mode)) { /* the link stays one */
        if (!realpath(writer->path, writer->target) || stat(writer->target, &writer->old) != 0)
            return fault(writer, "following the link", errno, diag);
    } else if (strlen(writer->path) >= sizeof writer->target) {
        return fault(writer, "making the file", ENAMETOOLONG, diag);
    } else {
        strcpy(writer->target, writer->path);
    }
    if (writer->replaces && !S_ISREG(writer->old.st_mode))
        return fault(writer, "writing", S_ISDIR(writer->old.st_mode) ? EISDIR : EINVAL, diag);
    return true;
}

bool file_writer_begin(struct file_writer *writer, const char *path, mode_t mode, struct diag *diag)
{
    writer->path = path;
    writer->fd = -1;
    if (!find_target(writer, diag))
        return false;
    writer->fd = open_hidden(writer, mode);
    return writer->fd >= 0 || fault(writer, "making the file", errno, diag);
}

/* A file that is replaced keeps its permissions and, as far as the system lets us, its owner. */
static const char *keep_as_it_was(const struct file_writer *writer)
{
    const struct stat *old = &writer->old;
    if (fchown(writer->fd, old->st_uid, old->st_gid) != 0 &&
        fchown(writer->fd, (uid_t)-1, old->st_gid) != 0)
        errno = 0; /* another's file in a shared folder: it becomes ours */
    return fchmod(writer->fd, old->st_mode & 07777) != 0 ? "setting the permissions" : NULL;
}

/* The lock stays with a second descriptor until the file has its name. */
static const char *close_and_rename(struct file_writer *writer, bool durable)
{
    int held = fcntl(writer->fd, F_DUPFD_CLOEXEC, 0);
    const char *failed = held < 0           ? "holding the file"
                         : writer->replaces ? keep_as_it_was(writer)
                                            : NULL;
    if (!failed && durable && fsync(writer->fd) != 0)
        failed = "fsync";
    int error = errno;
    if (close(writer->fd) != 0 && !failed) {
        failed = "closing";
        error = errno;
    }
    writer->fd = -1;
    if (!failed && rename(writer->hidden, writer->target) != 0) {
        failed = "renaming";
        error = errno;
    }
    if (failed)
        unlink(writer->hidden);
    if (held >= 0)
        (void)close(held);
    errno = error;
    return failed;
}

/* A folder's entry is only durable once the folder itself is synced. Some file systems refuse
 * fsync on a folder (EINVAL); the rename stands all the same. */
static void sync_folder_of(const char *path)
{
    char folder[PATH_MAX];
    const char *slash = strrchr(path, '/');
    size_t length = slash ? (size_t)(slash - path) : 0;
    memcpy(folder, path, length);
    folder[length] = '\0';
    int fd = open(slash ? (length ? folder : "/") : ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0)
        return;
    (void)fsync(fd);
    close(fd);
}

bool file_writer_finish(struct file_writer *writer, bool durable, struct diag *diag)
{
    const char *failed = close_and_rename(writer, durable);
    if (failed)
        return fault(writer, failed, errno, diag);
    if (durable)
        sync_folder_of(writer->target);
    return true;
}

void file_writer_abandon(struct file_writer *writer)
{
    if (writer->fd < 0)
        return;
    unlink(writer->hidden);
    (void)close(writer->fd);
    writer->fd = -1;
}
