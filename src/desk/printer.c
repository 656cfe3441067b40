#include "desk/printer.h"

#include <errno.h>
#include <signal.h>
#include <spawn.h>
#include <stdint.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

extern char **environ;

static bool fault(struct diag *diag, const char *text)
{
    diag_report(diag, DIAG_FAULT, "cannot-print", (struct mark){0}, "printing failed: %s", text);
    return false;
}

/* A file without a name: no pipe can fill up, no sheet stays on the disk. */
static int open_with(struct bytes content, struct diag *diag)
{
    int fd = memfd_create("sheet", MFD_CLOEXEC);
    if (fd < 0 || !file_write_fd(fd, content.data, content.length, "<printer>", diag) ||
        lseek(fd, 0, SEEK_SET) != 0) {
        fault(diag, strerror(errno));
        if (fd >= 0)
            close(fd);
        return -1;
    }
    return fd;
}

static int start(int in, int out, const char *title, pid_t *pid)
{
    char *const words[] = {(char *)(uintptr_t) "lp", (char *)(uintptr_t) "-t",
                           (char *)(uintptr_t)title, NULL};
    posix_spawn_file_actions_t actions;
    posix_spawnattr_t attributes;
    sigset_t none;
    sigemptyset(&none);
    posix_spawn_file_actions_init(&actions);
    posix_spawnattr_init(&attributes);
    posix_spawn_file_actions_adddup2(&actions, in, STDIN_FILENO);
    posix_spawn_file_actions_adddup2(&actions, out, STDOUT_FILENO);
    posix_spawn_file_actions_adddup2(&actions, out, STDERR_FILENO);
    posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK);
    posix_spawnattr_setsigmask(&attributes, &none);
    int error = posix_spawnp(pid, "lp", &actions, &attributes, words, environ);
    posix_spawnattr_destroy(&attributes);
    posix_spawn_file_actions_destroy(&actions);
    return error;
}

/* The exit status; -1 when it had to be ended. */
static int wait_for(pid_t pid)
{
    const struct timespec step = {0, 20 * 1000 * 1000};
    int status = 0;
    for (int i = 0; i < PRINTER_SECONDS * 50; i++) {
        pid_t got = waitpid(pid, &status, WNOHANG);
        if (got == pid)
            return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
        if (got < 0 && errno != EINTR)
            return -1;
        nanosleep(&step, NULL);
    }
    kill(pid, SIGKILL);
    waitpid(pid, &status, 0);
    return -1;
}

static const char *said(int fd, struct arena *arena)
{
    enum { MOST = 300 };
    char *text = arena_take(arena, MOST + 1);
    ssize_t got = pread(fd, text, MOST, 0);
    if (got <= 0)
        return "lp did not take the sheet";
    for (char *c = text; *c; c++)
        if ((unsigned char)*c < 0x20 || *c == 0x7f)
            *c = ' ';
    return text;
}

bool printer_send(struct bytes pdf, const char *title, struct arena *arena, struct diag *diag)
{
    const struct bytes nothing = {"", 0};
    pid_t pid = 0;
    int in = open_with(pdf, diag);
    int out = in >= 0 ? open_with(nothing, diag) : -1;
    bool good = false;
    if (out >= 0) {
        int error = start(in, out, title, &pid);
        if (error)
            fault(diag, error == ENOENT ? "there is no 'lp' on this machine" : strerror(error));
        else
            good = wait_for(pid) == 0 || fault(diag, said(out, arena));
        close(out);
    }
    if (in >= 0)
        close(in);
    return good;
}
