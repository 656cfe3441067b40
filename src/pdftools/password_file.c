/* Reads the one line of a password file that its owner alone may read. */
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "pdftools/pdf_encrypt.h"

static bool refuse(const char *path, const char *text, struct diag *diag)
{
    diag_report(diag, DIAG_ERROR, "password-unusable", (struct mark){.file = path}, "%s", text);
    return false;
}

/* Asked of the open file: the name could stand for another one a moment later. */
static bool is_private(int fd, const char *path, struct diag *diag)
{
    struct stat st;
    if (fstat(fd, &st) != 0 || !S_ISREG(st.st_mode))
        return refuse(path, "is no file", diag);
    return (st.st_mode & 077) == 0 ||
           refuse(
               path,
               "others on this machine may read it, and it holds a password; chmod 600 closes it",
               diag);
}

static bool is_usable(const char *text, size_t length)
{
    bool good = length >= LOCK_PASSWORD_LEAST && length <= LOCK_PASSWORD_MOST;
    for (size_t i = 0; i < length && good; i++)
        good = text[i] >= 0x20 && text[i] <= 0x7e;
    return good;
}

/* With room for one byte too many, so that a longer one is seen. */
static const char *read_line(int fd, const char *path, struct arena *arena, struct diag *diag)
{
    enum { ROOM = LOCK_PASSWORD_MOST + 3 }; /* the longest and its line end */
    char *text = arena_take(arena, ROOM + 1);
    size_t length = 0;
    ssize_t got;
    while (length < ROOM && (got = read(fd, text + length, ROOM - length)) != 0) {
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0) {
            diag_report(diag, DIAG_FAULT, "cannot-read", (struct mark){.file = path},
                        "cannot be read: %s", strerror(errno));
            return NULL;
        }
        length += (size_t)got;
    }
    if (length && text[length - 1] == '\n')
        length--;
    if (length && text[length - 1] == '\r')
        length--;
    text[length] = '\0';
    if (is_usable(text, length))
        return text;
    refuse(path, "holds one line, the password: 8 to 127 letters, digits or signs without accents",
           diag);
    return NULL;
}

const char *password_file_read(const char *path, struct arena *arena, struct diag *diag)
{
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    if (fd < 0) {
        diag_report(diag, DIAG_ERROR, "cannot-read", (struct mark){.file = path},
                    "cannot be read: %s", strerror(errno));
        return NULL;
    }
    const char *password = is_private(fd, path, diag) ? read_line(fd, path, arena, diag) : NULL;
    close(fd);
    return password;
}
