/* Preloaded into the program under test: makes the Nth call of one function fail.
 *
 *   FAULT_CALL   write, fsync, rename, read, open, close, alloc (malloc, calloc, realloc)
 *   FAULT_AT     1 for the first call; 0: none
 *   FAULT_EVERY  1: that call and each one after it
 *   FAULT_COUNT  file that receives "CALL COUNT" lines when the process ends
 *
 * Only calls of the program and its libraries count, from the first line of main on.
 */
#undef _FILE_OFFSET_BITS /* open and open64 are two functions here */
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <unistd.h>

enum call {
    CALL_WRITE,
    CALL_FSYNC,
    CALL_RENAME,
    CALL_READ,
    CALL_OPEN,
    CALL_CLOSE,
    CALL_ALLOC,
    CALLS
};

static const char *const names[CALLS] = {"write", "fsync", "rename", "read",
                                         "open",  "close", "alloc"};
static const int errors[CALLS] = {ENOSPC, EIO, EIO, EIO, EMFILE, EIO, ENOMEM};
static long counts[CALLS];
static int failing = -1;
static long fail_at;
static bool fail_every, is_running;

static bool must_fail(enum call call)
{
    if (!is_running)
        return false;
    long now = __atomic_add_fetch(&counts[call], 1, __ATOMIC_RELAXED);
    if ((int)call != failing || fail_at == 0 || now < fail_at || (now > fail_at && !fail_every))
        return false;
    errno = errors[call];
    return true;
}

static void report(void)
{
    is_running = false;
    const char *path = getenv("FAULT_COUNT");
    FILE *out = path ? fopen(path, "w") : NULL;
    if (!out)
        return;
    for (int i = 0; i < CALLS; i++)
        fprintf(out, "%s %ld\n", names[i], counts[i]);
    fclose(out);
}

__attribute__((constructor)) static void begin(void)
{
    const char *name = getenv("FAULT_CALL");
    for (int i = 0; name && i < CALLS; i++)
        if (strcmp(name, names[i]) == 0)
            failing = i;
    fail_at = getenv("FAULT_AT") ? atol(getenv("FAULT_AT")) : 0;
    fail_every = getenv("FAULT_EVERY") != NULL;
    atexit(report);
    is_running = true;
}

/* POSIX asks that dlsym's pointer can be called; ISO C has no cast for it. */
#define REAL(name) (__extension__(__typeof__(&name)) dlsym(RTLD_NEXT, #name))

ssize_t write(int fd, const void *data, size_t size)
{
    /* what is said on standard error is how the test learns of the fault */
    if (fd != STDERR_FILENO && must_fail(CALL_WRITE))
        return -1;
    return REAL(write)(fd, data, size);
}

ssize_t read(int fd, void *data, size_t size)
{
    return must_fail(CALL_READ) ? -1 : REAL(read)(fd, data, size);
}

int fsync(int fd)
{
    return must_fail(CALL_FSYNC) ? -1 : REAL(fsync)(fd);
}

int rename(const char *from, const char *to)
{
    return must_fail(CALL_RENAME) ? -1 : REAL(rename)(from, to);
}

int open(const char *path, int flags, ...)
{
    va_list args;
    va_start(args, flags);
    mode_t mode = flags & (O_CREAT | O_TMPFILE) ? va_arg(args, mode_t) : 0;
    va_end(args);
    return must_fail(CALL_OPEN) ? -1 : REAL(open)(path, flags, mode);
}

/* the names that a build for large files calls */
int open64(const char *path, int flags, ...)
{
    va_list args;
    va_start(args, flags);
    mode_t mode = flags & (O_CREAT | O_TMPFILE) ? va_arg(args, mode_t) : 0;
    va_end(args);
    return must_fail(CALL_OPEN) ? -1 : REAL(open64)(path, flags, mode);
}

int close(int fd)
{
    /* a failed close has closed all the same */
    bool fails = must_fail(CALL_CLOSE);
    int result = REAL(close)(fd);
    if (!fails)
        return result;
    errno = EIO;
    return -1;
}

/* glibc's own names, so that dlsym's needs cannot turn in a circle */
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);

void *malloc(size_t size)
{
    return must_fail(CALL_ALLOC) ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return must_fail(CALL_ALLOC) ? NULL : __libc_calloc(count, size);
}

void *realloc(void *old, size_t size)
{
    return must_fail(CALL_ALLOC) ? NULL : __libc_realloc(old, size);
}
