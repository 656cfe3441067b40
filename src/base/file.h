/* Reading whole files within a limit, and writing them so that a reader sees
 * the old content or the new content and never a part. */
#ifndef BASKLEAF_BASE_FILE_H
#define BASKLEAF_BASE_FILE_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#include "base/arena.h"
#include "base/diag.h"

enum { FILE_LIMIT_BYTES = 4 * 1024 * 1024 };

struct bytes {
    const char *data; /* arena's; NUL after the last byte */
    size_t length;
};

/* Reads `path` ("-" is standard input) up to `limit` bytes. A missing file, a
 * directory or a file over the limit is reported as DIAG_ERROR at the file, a machine that cannot
 * read it as DIAG_FAULT; returns false and leaves *out untouched. */
bool file_read(const char *path, size_t limit, struct arena *arena, struct diag *diag,
               struct bytes *out);

/* A descriptor to read `path` from, for the caller to close; -1 when it is refused as above. */
int file_open(const char *path, size_t limit, struct diag *diag);

/* Reports that `path` cannot be read, as above; returns false. */
bool file_unreadable(const char *path, int error, struct diag *diag);

/* By a durable file_writer, see there. A device or a named pipe is written to as it is. On any
 * failure the old file is untouched, DIAG_FAULT is reported and false returned. */
bool file_write_atomic(const char *path, const void *data, size_t length, mode_t mode,
                       struct diag *diag);

/* Do both names lead to one file, however they are spelled (links, dots, letter case)? "-" as the
 * first is what stands at standard input. */
bool file_is_same(const char *a, const char *b);

/* The same without fsync: whole after a kill, but not after a power cut until file_sync has been
 * called for its folder. For runs that write many files. */
bool file_write_quickly(const char *path, const void *data, size_t length, mode_t mode,
                        struct diag *diag);

/* Makes everything on the folder's file system durable. */
bool file_sync(const char *folder, struct diag *diag);

/* Writes everything to an open descriptor (standard output). False on failure,
 * with DIAG_FAULT. */
bool file_write_fd(int fd, const void *data, size_t length, const char *name, struct diag *diag);

/* Makes the folder (its parent must exist) unless it is there. */
bool file_make_folder(const char *path, struct diag *diag);
/* The same for every folder that a file's path names. */
bool file_make_folders(const char *path, struct arena *arena, struct diag *diag);

bool file_exists(const char *path);
bool file_is_folder(const char *path);
bool file_is_regular(const char *path);

/* The one name of what stands there, without links and dots; NULL when nothing does. */
const char *file_real_path(struct arena *arena, const char *path);

/* The folder a file lies in; "." for a bare name. */
const char *file_folder_of(struct arena *arena, const char *path);

/* "folder/name" in the arena. */
const char *file_join(struct arena *arena, const char *folder, const char *name);

/* The names in a folder that end in `suffix`, sorted bytewise, so that the
 * order never depends on the file system. Returns the count; *out is the
 * arena's. A folder that cannot be read is reported as in file_read, and 0. */
size_t file_list(const char *folder, const char *suffix, struct arena *arena, struct diag *diag,
                 const char ***out);

#endif
