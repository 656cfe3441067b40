/* Reads whole files, writes them through a file_writer, and lists folders. */
#include "base/file.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/file_writer.h"

static struct mark whole_file(const char *path)
{
    return (struct mark){.file = strcmp(path, "-") == 0 ? "<standard input>" : path};
}

/* A wrong name is the input's fault; everything else that stops a reading is the machine's. */
static bool is_wrong_name(int error)
{
    return error == ENOENT || error == ENOTDIR || error == EISDIR || error == EACCES ||
           error == ELOOP || error == ENAMETOOLONG || error == ENXIO;
}

bool file_unreadable(const char *path, int error, struct diag *diag)
{
    diag_report(diag, is_wrong_name(error) ? DIAG_ERROR : DIAG_FAULT, "cannot-read",
                whole_file(path), "cannot be read: %s", strerror(error));
    return false;
}

static bool too_large(struct diag *diag, const char *path, size_t limit)
{
    diag_report(diag, DIAG_ERROR, "file-too-large", whole_file(path),
                "is larger than the limit of %zu bytes", limit);
    return false;
}

/* Room for what is being read; it grows in the arena. */
static char *grow(struct arena *arena, char *data, size_t *capacity)
{
    char *moved = arena_take(arena, 2 * *capacity);
    memcpy(moved, data, *capacity);
    *capacity *= 2;
    return moved;
}

struct source {
    int fd;
    const char *path;
    size_t limit, expected; /* the file's size, 0 when it has none */
};

/* Reads until the end or one byte past the limit. */
static bool read_source(const struct source *from, struct arena *arena, struct diag *diag,
                        struct bytes *out)
{
    /* room for the NUL behind it and, so that the end is met at once, for one byte more */
    size_t capacity = from->expected > 0 ? from->expected + 2 : (size_t)16 * 1024, length = 0;
    char *data = arena_take_unset(arena, capacity);
    for (;;) {
        ssize_t got = read(from->fd, data + length, capacity - length - 1);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return file_unreadable(from->path, errno, diag);
        length += (size_t)got;
        if (length > from->limit)
            return too_large(diag, from->path, from->limit);
        if (got == 0)
            break;
        if (length == capacity - 1)
            data = grow(arena, data, &capacity);
    }
    data[length] = '\0';
    *out = (struct bytes){.data = data, .length = length};
    return true;
}

int file_open(const char *path, size_t limit, struct diag *diag)
{
    /* a pipe that nobody writes to ends at once instead of being waited for */
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    struct stat st;
    if (fd < 0 || fstat(fd, &st) != 0 || fcntl(fd, F_SETFL, 0) != 0)
        file_unreadable(path, errno, diag);
    else if (S_ISDIR(st.st_mode))
        diag_report(diag, DIAG_ERROR, "is-a-folder", whole_file(path),
                    "is a folder; name a file in it");
    else if (S_ISREG(st.st_mode) && (unsigned long long)st.st_size > limit)
        too_large(diag, path, limit);
    else
        return fd;
    if (fd >= 0)
        close(fd);
    return -1;
}

bool file_read(const char *path, size_t limit, struct arena *arena, struct diag *diag,
               struct bytes *out)
{
    if (strcmp(path, "-") == 0)
        return read_source(&(struct source){STDIN_FILENO, path, limit, 0}, arena, diag, out);
    int fd = file_open(path, limit, diag);
    if (fd < 0)
        return false;
    struct stat st;
    size_t size = fstat(fd, &st) == 0 && S_ISREG(st.st_mode) ? (size_t)st.st_size : 0;
    bool good = read_source(&(struct source){fd, path, limit, size}, arena, diag, out);
    close(fd);
    return good;
}

static bool write_fault(struct diag *diag, const char *path, const char *doing, int error)
{
    diag_report(diag, DIAG_FAULT, "cannot-write", (struct mark){.file = path},
                "%s failed: %s; nothing was written under this name", doing, strerror(error));
    return false;
}

static bool write_all(int fd, const char *data, size_t length)
{
    while (length > 0) {
        ssize_t put = write(fd, data, length);
        if (put < 0 && errno == EINTR)
            continue;
        if (put < 0)
            return false;
        data += put;
        length -= (size_t)put;
    }
    return true;
}

bool file_write_fd(int fd, const void *data, size_t length, const char *name, struct diag *diag)
{
    if (write_all(fd, data, length))
        return true;
    diag_report(diag, DIAG_FAULT, "cannot-write", (struct mark){.file = name}, "writing failed: %s",
                strerror(errno));
    return false;
}

/* A device or a named pipe cannot be replaced, only written to. */
static bool write_to_device(const char *path, const void *data, size_t length, struct diag *diag)
{
    int fd = open(path, O_WRONLY | O_CLOEXEC | O_NOCTTY);
    if (fd < 0)
        return write_fault(diag, path, "opening", errno);
    bool good = file_write_fd(fd, data, length, path, diag);
    if (close(fd) != 0 && good)
        return write_fault(diag, path, "closing", errno);
    return good;
}

static bool write_whole(const char *path, struct bytes content, mode_t mode, bool durable,
                        struct diag *diag)
{
    struct stat st;
    struct file_writer writer;
    if (stat(path, &st) == 0 && !S_ISREG(st.st_mode) && !S_ISDIR(st.st_mode))
        return write_to_device(path, content.data, content.length, diag);
    if (!file_writer_begin(&writer, path, mode, diag))
        return false;
    if (write_all(writer.fd, content.data, content.length))
        return file_writer_finish(&writer, durable, diag);
    write_fault(diag, path, "writing", errno);
    file_writer_abandon(&writer);
    return false;
}

bool file_write_atomic(const char *path, const void *data, size_t length, mode_t mode,
                       struct diag *diag)
{
    return write_whole(path, (struct bytes){data, length}, mode, true, diag);
}

bool file_write_quickly(const char *path, const void *data, size_t length, mode_t mode,
                        struct diag *diag)
{
    return write_whole(path, (struct bytes){data, length}, mode, false, diag);
}

bool file_sync(const char *folder, struct diag *diag)
{
    int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    bool good = fd >= 0 && syncfs(fd) == 0;
    int error = errno;
    if (fd >= 0)
        close(fd);
    if (!good)
        diag_report(diag, DIAG_FAULT, "cannot-write", (struct mark){.file = folder},
                    "syncing failed: %s", strerror(error));
    return good;
}

bool file_make_folder(const char *path, struct diag *diag)
{
    if (mkdir(path, 0777) == 0 || (errno == EEXIST && file_is_folder(path)))
        return true;
    diag_report(diag, DIAG_FAULT, "cannot-make-folder", (struct mark){.file = path},
                "the folder cannot be made: %s", strerror(errno));
    return false;
}

bool file_make_folders(const char *path, struct arena *arena, struct diag *diag)
{
    for (const char *slash = strchr(path + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
        const char *folder = arena_copy_bytes(arena, path, (size_t)(slash - path));
        if (!file_is_folder(folder) && !file_make_folder(folder, diag))
            return false;
    }
    return true;
}

bool file_exists(const char *path)
{
    return access(path, F_OK) == 0;
}

bool file_is_folder(const char *path)
{
    struct stat st;
    return stat(path, &st) == 0 && S_ISDIR(st.st_mode);
}

bool file_is_regular(const char *path)
{
    struct stat st;
    return stat(path, &st) == 0 && S_ISREG(st.st_mode);
}

const char *file_real_path(struct arena *arena, const char *path)
{
    char place[PATH_MAX];
    return realpath(path, place) ? arena_copy_text(arena, place) : NULL;
}

const char *file_folder_of(struct arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/');
    if (!slash)
        return ".";
    return slash == path ? "/" : arena_copy_bytes(arena, path, (size_t)(slash - path));
}

static int look_at(const char *path, struct stat *out)
{
    return strcmp(path, "-") == 0 ? fstat(STDIN_FILENO, out) : stat(path, out);
}

bool file_is_same(const char *a, const char *b)
{
    struct stat one, other;
    return look_at(a, &one) == 0 && stat(b, &other) == 0 && one.st_dev == other.st_dev &&
           one.st_ino == other.st_ino;
}

const char *file_join(struct arena *arena, const char *folder, const char *name)
{
    size_t length = strlen(folder);
    const char *between = length && folder[length - 1] == '/' ? "" : "/";
    return arena_format(arena, "%s%s%s", folder, between, name);
}

static int by_bytes(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

size_t file_list(const char *folder, const char *suffix, struct arena *arena, struct diag *diag,
                 const char ***out)
{
    DIR *dir = opendir(folder);
    if (!dir) {
        file_unreadable(folder, errno, diag);
        return 0;
    }
    size_t count = 0, capacity = 32;
    const char **names = ARENA_ARRAY(arena, const char *, capacity);
    for (struct dirent *entry; (entry = readdir(dir));) {
        size_t length = strlen(entry->d_name), tail = strlen(suffix);
        if (entry->d_name[0] == '.' || length <= tail ||
            strcmp(entry->d_name + length - tail, suffix) != 0)
            continue;
        if (count == capacity) {
            const char **more = ARENA_ARRAY(arena, const char *, capacity * 2);
            memcpy(more, names, count * sizeof *names);
            names = more;
            capacity *= 2;
        }
        names[count++] = arena_copy_text(arena, entry->d_name);
    }
    closedir(dir);
    qsort(names, count, sizeof *names, by_bytes);
    *out = names;
    return count;
}
