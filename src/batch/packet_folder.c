/* Keeps two rosters from sharing a folder, and finds what an earlier run left in it. */
#include "batch/packet_folder.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/hash.h"
#include "base/file_writer.h"

const char *packet_joined_name(const struct packet_options *options, struct arena *arena)
{
    return options->shards > 1
               ? arena_format(arena, "joined-%zu-of-%zu.pdf", options->shard, options->shards)
               : "joined.pdf";
}

static const char *manifest_name(size_t shard, size_t shards, struct arena *arena)
{
    return shards > 1 ? arena_format(arena, "manifest-%zu-of-%zu.csv", shard, shards)
                      : "manifest.csv";
}

static const char owner_name[] = ".roster", aside_name[] = "set-aside";

/* ---- whose folder ------------------------------------------------------------------------------
 */

/* The roster whose sheets lie here: "" when nobody says so but there are PDFs or a manifest, NULL
 * for nobody's. */
static const char *owner_of(const struct packet_options *options, struct arena *arena)
{
    const char *folder = options->folder;
    struct diag quiet;
    struct bytes owner = {0};
    const char **names = NULL;
    const char *path = file_join(arena, folder, owner_name);
    diag_init(&quiet);
    bool known = file_is_regular(path) && file_read(path, FILE_LIMIT_BYTES, arena, &quiet, &owner);
    size_t pdfs = known ? 0 : file_list(folder, ".pdf", arena, &quiet, &names);
    diag_finish(&quiet);
    if (known)
        return arena_copy_bytes(arena, owner.data, strcspn(owner.data, "\n"));
    const char *manifest = manifest_name(options->shard, options->shards, arena);
    return pdfs || file_exists(file_join(arena, folder, manifest)) ? "" : NULL;
}

static bool is_foreign(const struct packet_options *options, const char *roster,
                       struct arena *arena, struct diag *diag)
{
    const char *owner = owner_of(options, arena);
    if (options->replace || !owner || strcmp(owner, roster) == 0)
        return false;
    diag_report(
        diag, DIAG_ERROR, "folder-of-others", (struct mark){.file = options->folder},
        *owner
            ? "holds the sheets of the roster '%s'; -o takes another folder, --replace "
              "writes over them"
            : "holds PDF files or a manifest that are not known to be of this roster%s; -o takes "
              "another folder, --replace writes over them",
        owner);
    return true;
}

/* A manifest or a joined file would take the roster's place. */
static bool is_in_the_way(const struct packet_options *options, struct arena *arena,
                          struct diag *diag)
{
    const char *const names[] = {manifest_name(options->shard, options->shards, arena),
                                 packet_joined_name(options, arena)};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (!file_is_same(options->roster, file_join(arena, options->folder, names[i])))
            continue;
        diag_report(diag, DIAG_ERROR, "output-is-input", (struct mark){.file = options->roster},
                    "is read by this command and is not written over; -o takes another folder");
        return true;
    }
    return false;
}

bool packet_folder_claim(const struct packet_options *options, struct arena *arena,
                         struct diag *diag)
{
    const char *found = file_real_path(arena, options->roster);
    const char *roster = found ? found : options->roster;
    if (!file_make_folder(options->folder, diag) || is_in_the_way(options, arena, diag) ||
        is_foreign(options, roster, arena, diag))
        return false;
    file_sweep(options->folder);
    const char *line = arena_format(arena, "%s\n", roster);
    return file_write_quickly(file_join(arena, options->folder, owner_name), line, strlen(line),
                              0640, diag);
}

/* ---- what no row made --------------------------------------------------------------------------
 */

struct listed {
    uint64_t *hashes;
    size_t count, room;
};

static void add_listed(struct listed *listed, const char *name, size_t length)
{
    if (listed->count == listed->room) {
        listed->room = listed->room ? listed->room * 2 : 256;
        listed->hashes = realloc(listed->hashes, listed->room * sizeof *listed->hashes);
        if (!listed->hashes)
            support_out_of_memory();
    }
    listed->hashes[listed->count++] = hash_bytes(HASH_START, name, length);
}

/* The fifth cell of "12,made,DIGEST,SUM,FILE,..."; none of the cells before it is ever quoted. */
static void take_manifest(struct listed *listed, const char *path)
{
    FILE *in = fopen(path, "rbe");
    char *line = NULL;
    size_t room = 0;
    while (in && getline(&line, &room, in) > 0) {
        const char *cell = line;
        for (int i = 0; i < 4 && cell; i++)
            cell = (cell = strchr(cell, ',')) ? cell + 1 : NULL;
        if (cell && *cell != ',')
            add_listed(listed, cell, strcspn(cell, ",\r\n"));
    }
    free(line);
    if (in)
        fclose(in);
}

static int by_value(const void *a, const void *b)
{
    uint64_t left = *(const uint64_t *)a, right = *(const uint64_t *)b;
    return (left > right) - (left < right);
}

/* False when a part's manifest is still missing. */
static bool read_manifests(const struct packet_options *options, struct arena *arena,
                           struct listed *listed)
{
    for (size_t i = 1; i <= options->shards; i++) {
        const char *path =
            file_join(arena, options->folder, manifest_name(i, options->shards, arena));
        if (!file_is_regular(path))
            return false;
        take_manifest(listed, path);
        if (options->joined) {
            const char *joined = options->shards == 1 ? "joined.pdf"
                                                      : arena_format(arena, "joined-%zu-of-%zu.pdf",
                                                                     i, options->shards);
            add_listed(listed, joined, strlen(joined));
        }
    }
    if (listed->count)
        qsort(listed->hashes, listed->count, sizeof *listed->hashes, by_value);
    return true;
}

static bool set_aside(const struct packet_options *options, const char *name, struct arena *arena,
                      struct diag *diag)
{
    const char *aside = file_join(arena, options->folder, aside_name);
    const char *from = file_join(arena, options->folder, name);
    const char *to = file_join(arena, aside, name);
    for (int i = 2; file_exists(to); i++)
        to = file_join(arena, aside, arena_format(arena, "%d-%s", i, name));
    if (!file_make_folder(aside, diag))
        return false;
    if (rename(from, to) == 0)
        return true;
    diag_report(diag, DIAG_FAULT, "cannot-write", (struct mark){.file = from},
                "moving it aside failed: %s", strerror(errno));
    return false;
}

struct name_list {
    const char **names;
    size_t count, room;
};

static void add_name(struct name_list *list, const char *name, struct arena *arena)
{
    if (list->count == list->room) {
        size_t room = list->room ? list->room * 2 : 16;
        const char **moved = ARENA_ARRAY(arena, const char *, room);
        if (list->count)
            memcpy(moved, list->names, list->count * sizeof *moved);
        list->names = moved;
        list->room = room;
    }
    list->names[list->count++] = name;
}

static int by_name(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static bool is_pdf(const char *name)
{
    size_t length = strlen(name);
    return name[0] != '.' && length > 4 && strcmp(name + length - 4, ".pdf") == 0;
}

/* The PDFs that nobody lists, in the order of their names. */
static size_t find_stale(const char *folder, const struct listed *listed, struct arena *arena,
                         const char ***out)
{
    struct name_list found = {0};
    DIR *dir = opendir(folder);
    for (struct dirent *entry; dir && (entry = readdir(dir));) {
        uint64_t hash = hash_text(HASH_START, entry->d_name);
        bool is_listed =
            listed->count && bsearch(&hash, listed->hashes, listed->count, sizeof hash, by_value);
        if (is_pdf(entry->d_name) && !is_listed)
            add_name(&found, arena_copy_text(arena, entry->d_name), arena);
    }
    if (!dir && errno == ENOMEM)
        support_out_of_memory();
    if (dir)
        closedir(dir);
    if (found.count)
        qsort(found.names, found.count, sizeof *found.names, by_name);
    *out = found.names;
    return found.count;
}

static void report_stale(const struct packet_options *options, const char *const *names,
                         size_t count, struct arena *arena, struct diag *diag)
{
    enum { NAMED_MOST = 5 };
    const char *first = "";
    for (size_t i = 0; i < count && i < NAMED_MOST; i++)
        first = arena_format(arena, "%s%s%s", first, i ? ", " : "", names[i]);
    if (count > 0)
        diag_report(diag, DIAG_REMARK, "stale-files", (struct mark){.file = options->folder},
                    "%zu PDF files here are of no row of this roster: %s%s; --set-aside moves them "
                    "into '%s'",
                    count, first, count > NAMED_MOST ? ", ..." : "", aside_name);
}

bool packet_folder_tidy(const struct packet_options *options, struct arena *arena,
                        struct diag *diag)
{
    struct listed listed = {0};
    const char **names = NULL;
    bool good = true;
    size_t count = read_manifests(options, arena, &listed)
                       ? find_stale(options->folder, &listed, arena, &names)
                       : 0;
    free(listed.hashes);
    if (!options->set_aside)
        report_stale(options, names, count, arena, diag);
    for (size_t i = 0; options->set_aside && good && i < count; i++)
        good = set_aside(options, names[i], arena, diag);
    return good;
}
