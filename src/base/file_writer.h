/* A file on its way to its name: written beside it under a hidden one, made durable, renamed. A
 * reader sees the old content or the new content and never a part; a run that is killed leaves
 * nothing but a hidden file, which the next one sweeps away. */
#ifndef BASKLEAF_BASE_FILE_WRITER_H
#define BASKLEAF_BASE_FILE_WRITER_H

#include <limits.h>
#include <sys/stat.h>

#include "base/diag.h"

struct file_writer {
    int fd;           /* to write to; locked until the file has its name; -1: none */
    const char *path; /* borrowed, as it was given */
    char target[PATH_MAX], hidden[PATH_MAX]; /* the path behind a link; where it is written */
    bool replaces;                           /* what stands there, as it is: */
    struct stat old;
};

/* What stands under the name keeps its permissions and owner, and a link stays one; a new file has
 * `mode` less the umask. False after a DIAG_FAULT, also where anything but a file stands; nothing
 * is held then. */
bool file_writer_begin(struct file_writer *writer, const char *path, mode_t mode,
                       struct diag *diag);

/* Durable: after a power cut too. False after a DIAG_FAULT; the old file is then untouched. Holds
 * nothing afterwards. */
bool file_writer_finish(struct file_writer *writer, bool durable, struct diag *diag);

/* Leaves the old file as it is. */
void file_writer_abandon(struct file_writer *writer);

/* Removes the hidden files of a folder that no running process holds. */
void file_sweep(const char *folder);

#endif
