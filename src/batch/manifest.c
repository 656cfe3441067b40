/* Writes the manifest's lines as they come and renames it when the run is done. */
#include "batch/manifest.h"
#include "base/hex.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

static const char titles[] = "row,status,digest,pdf-sha256,file,line,name,species,reason\r\n";

enum { PREFIX = 16 };

static bool fault(struct diag *diag, const char *path, const char *doing, int error)
{
    diag_report(diag, DIAG_FAULT, "cannot-write", (struct mark){.file = path}, "%s failed: %s",
                doing, strerror(error));
    return false;
}

/* A run that ended between the opening and the locking has renamed the file away. */
static bool is_same_file(int fd, const char *path)
{
    struct stat a, b;
    return fstat(fd, &a) == 0 && stat(path, &b) == 0 && a.st_ino == b.st_ino &&
           a.st_dev == b.st_dev;
}

static bool open_locked(struct manifest *manifest, struct diag *diag)
{
    for (int attempt = 0; attempt < 10; attempt++) {
        int fd = open(manifest->fresh, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0640);
        if (fd < 0)
            return fault(diag, manifest->fresh, "opening", errno);
        if (flock(fd, LOCK_EX | LOCK_NB) != 0) {
            close(fd);
            diag_report(
                diag, DIAG_FAULT, "two-runs", (struct mark){.file = manifest->path},
                "another run is writing this manifest; wait for it, or take another folder");
            return false;
        }
        if (is_same_file(fd, manifest->fresh)) {
            manifest->out = fdopen(fd, "r+");
            if (!manifest->out)
                support_out_of_memory();
            return true;
        }
        close(fd);
    }
    return fault(diag, manifest->fresh, "locking", EAGAIN);
}

bool manifest_open(struct manifest *manifest, const char *folder, size_t shard, size_t shards,
                   struct arena *arena, struct diag *diag)
{
    const char *name =
        shards > 1 ? arena_format(arena, "manifest-%zu-of-%zu.csv", shard, shards) : "manifest.csv";
    *manifest = (struct manifest){
        .folder = folder,
        .path = file_join(arena, folder, name),
        .fresh = file_join(arena, folder, arena_format(arena, ".%s.new", name)),
        .journal = file_join(arena, folder, arena_format(arena, ".%s.journal", name)),
    };
    return open_locked(manifest, diag);
}

void manifest_close(struct manifest *manifest)
{
    if (manifest->out)
        fclose(manifest->out);
    manifest->out = NULL;
}

/* ---- what earlier runs made --------------------------------------------------------------------
 */

static bool read_hex(const char *text, size_t length, uint64_t *out)
{
    uint64_t value = 0;
    for (size_t i = 0; i < PREFIX; i++) {
        int digit = i < length ? hex_value(text[i]) : -1;
        if (digit < 0)
            return false;
        value = value << 4 | (uint64_t)digit;
    }
    *out = value;
    return true;
}

/* "12,made,DIGEST,SUM,..." */
static void take_line(struct manifest *manifest, const char *line)
{
    char *rest;
    unsigned long long number = strtoull(line, &rest, 10);
    struct manifest_seen seen;
    if (rest == line || number < 1 || number > manifest->seen_count ||
        strncmp(rest, ",made,", 6) != 0)
        return;
    const char *digest = rest + 6, *sum = strchr(digest, ',');
    if (sum && read_hex(digest, (size_t)(sum - digest), &seen.digest) &&
        read_hex(sum + 1, strcspn(sum + 1, ","), &seen.sum))
        manifest->seen[number - 1] = seen;
}

/* Only whole lines count; the last one of a killed run may be torn. */
static void take_file(struct manifest *manifest, const char *path)
{
    FILE *in = fopen(path, "rbe");
    char *line = NULL;
    size_t room = 0;
    ssize_t length;
    while (in && (length = getline(&line, &room, in)) > 0)
        if (line[length - 1] == '\n')
            take_line(manifest, line);
    free(line);
    if (in)
        fclose(in);
}

/* What stands in the hidden file of a run that was interrupted goes behind the journal. */
static bool fold_into_journal(struct manifest *manifest, struct diag *diag)
{
    FILE *journal = fopen(manifest->journal, "abe");
    if (!journal)
        return fault(diag, manifest->journal, "opening", errno);
    char *line = NULL;
    size_t room = 0;
    ssize_t length;
    bool good = true;
    fputc('\n', journal); /* ends a line that an earlier kill has torn */
    while (good && (length = getline(&line, &room, manifest->out)) > 0)
        good =
            line[length - 1] != '\n' || fwrite(line, 1, (size_t)length, journal) == (size_t)length;
    free(line);
    int error = errno;
    if (fclose(journal) != 0 || !good)
        return fault(diag, manifest->journal, "writing", error);
    return true;
}

bool manifest_begin(struct manifest *manifest, bool resume, size_t rows, struct arena *arena,
                    struct diag *diag)
{
    if (resume) {
        manifest->seen = ARENA_ARRAY(arena, struct manifest_seen, rows);
        manifest->seen_count = rows;
        if (!fold_into_journal(manifest, diag))
            return false;
        take_file(manifest, manifest->path);
        take_file(manifest, manifest->journal);
    } else if (unlink(manifest->journal) != 0 && errno != ENOENT) {
        return fault(diag, manifest->journal, "removing", errno);
    }
    rewind(manifest->out);
    if (ftruncate(fileno(manifest->out), 0) != 0 || fputs(titles, manifest->out) == EOF)
        return fault(diag, manifest->fresh, "writing", errno);
    return true;
}

bool manifest_has(const struct manifest *manifest, const struct row_result *row, const char *path,
                  struct arena *arena, char sum[SIGNATURE_HEX_BYTES])
{
    uint64_t digest, found;
    if (!manifest->seen || row->number > manifest->seen_count || !file_exists(path))
        return false;
    const struct manifest_seen *seen = &manifest->seen[row->number - 1];
    if (!read_hex(row->digest, PREFIX, &digest) || digest != seen->digest)
        return false;
    struct diag quiet;
    struct bytes bytes;
    diag_init(&quiet);
    bool good = file_read(path, FILE_LIMIT_BYTES, arena, &quiet, &bytes);
    diag_finish(&quiet);
    if (!good)
        return false;
    signature_digest_bytes(bytes, sum);
    return read_hex(sum, PREFIX, &found) && found == seen->sum;
}

/* ---- writing -----------------------------------------------------------------------------------
 */

/* A spreadsheet takes a cell that begins so for a formula and runs it, some of them also where the
 * sign is full-width. An apostrophe before it makes it text (OWASP, CSV Injection); one is put
 * before an apostrophe too, so that whoever takes the first one away has the cell as it was. Where
 * lists are parted by semicolons or tabs, a cell of ours is parted there as well, quoted or not: so
 * the same holds behind each sign that may part. */
static bool is_taken_for_a_formula(const char *text)
{
    static const char *const wide[] = {"\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"}; /* = + - @ */
    for (size_t i = 0; i < sizeof wide / sizeof *wide; i++)
        if (strncmp(text, wide[i], strlen(wide[i])) == 0)
            return true;
    return *text && strchr("=+-@\t\r\n'", *text);
}

static void put_cell(FILE *out, const char *text)
{
    bool quoted = text[strcspn(text, ",;\t\"\r\n")] != '\0';
    if (quoted)
        fputc('"', out);
    for (const char *c = text; *c; c++) {
        if ((c == text || strchr(",;\t", c[-1])) && is_taken_for_a_formula(c + strspn(c, "\"")))
            fputc('\'', out);
        if (*c == '"')
            fputc('"', out);
        fputc(*c, out);
    }
    if (quoted)
        fputc('"', out);
}

bool manifest_add(struct manifest *manifest, const struct row_result *row, struct diag *diag)
{
    FILE *out = manifest->out;
    bool good = row->status == ROW_MADE || row->status == ROW_KEPT;
    fprintf(out, "%zu,%s,%s,%s,%s,%d,", row->number, good ? "made" : "bad", row->digest, row->sum,
            good ? row->file : "", row->line);
    put_cell(out, row->name);
    fputc(',', out);
    put_cell(out, row->species);
    fputc(',', out);
    put_cell(out, row->reason);
    fputs("\r\n", out);
    if (fflush(out) != 0)
        return fault(diag, manifest->fresh, "writing", errno);
    return true;
}

bool manifest_finish(struct manifest *manifest, struct diag *diag)
{
    if (fflush(manifest->out) != 0 || !file_sync(manifest->folder, diag))
        return diag_failed(diag) ? false : fault(diag, manifest->fresh, "writing", errno);
    if (rename(manifest->fresh, manifest->path) != 0)
        return fault(diag, manifest->path, "renaming", errno);
    if (unlink(manifest->journal) != 0 && errno != ENOENT)
        return fault(diag, manifest->journal, "removing", errno);
    return true;
}
