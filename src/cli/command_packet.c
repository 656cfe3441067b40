/* `baskleaf packet`: a roster's sheets in one run. */
#include <stdlib.h>
#include <string.h>

#include "batch/packet.h"
#include "cli/command.h"
#include "cli/progress.h"
#include "batch/packet_folder.h"

static void show_progress(void *data, size_t done, size_t all)
{
    progress_show(data, done, all);
}

static void report_fault(void *data, const char *lines)
{
    progress_wipe(data);
    fputs(lines, stderr);
}

static bool read_count(const char *text, size_t most, char end, size_t *out, const char **rest)
{
    char *after;
    if (*text < '0' || *text > '9')
        return false;
    unsigned long value = strtoul(text, &after, 10);
    if (value < 1 || value > most || *after != end)
        return false;
    *out = value;
    *rest = after;
    return true;
}

static bool usage(struct run *run, const char *text)
{
    diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0}, "%s", text);
    return false;
}

static bool read_division(struct run *run, struct packet_options *sheet_options)
{
    const struct options *options = &run->options;
    const char *rest;
    if (options->jobs &&
        !read_count(options->jobs, PACKET_JOBS_MOST, '\0', &sheet_options->jobs, &rest))
        return usage(run, "'--jobs' takes a number from 1 to 64");
    if (options->shard &&
        (!read_count(options->shard, PACKET_SHARDS_MOST, '/', &sheet_options->shard, &rest) ||
         !read_count(rest + 1, PACKET_SHARDS_MOST, '\0', &sheet_options->shards, &rest) ||
         sheet_options->shard > sheet_options->shards))
        return usage(run, "'--shard' takes I/N, such as 2/8: the second of eight parts");
    return true;
}

/* out/NAME beside the data when the program runs from there, else in the folder it is called in. */
static const char *default_folder(struct run *run, const struct resources *resources)
{
    const char *path = run->words[0], *slash = strrchr(path, '/');
    const char *base = slash ? slash + 1 : path, *dot = strrchr(base, '.');
    const char *name =
        file_name_part(arena_copy_bytes(&run->arena, base,
                                        dot && dot > base ? (size_t)(dot - base) : strlen(base)),
                       &run->arena);
    const char *folder = file_join(&run->arena, resources->places.data_folder, "out");
    if (!file_is_folder(folder)) {
        folder = "out";
        if (!file_make_folder(folder, &run->diag))
            return NULL;
    }
    return file_join(&run->arena, folder, *name ? name : "packet");
}

static void tell_counts(struct run *run, const struct packet_options *sheet_options,
                        const struct packet_counts *counts)
{
    if (counts->bad)
        diag_report(&run->diag, DIAG_ERROR, "rows-left-out",
                    (struct mark){.file = sheet_options->roster},
                    "%zu of %zu rows were not made; the manifest gives each one's reason",
                    counts->bad, counts->rows);
    const char *line =
        arena_format(&run->arena, "%s: %zu made, %zu kept as they were, %zu left out\n",
                     sheet_options->folder, counts->made, counts->kept, counts->bad);
    command_print(run, line, strlen(line));
    if (!sheet_options->joined)
        return;
    size_t sheets = counts->made + counts->kept;
    const char *path = file_join(&run->arena, sheet_options->folder,
                                 packet_joined_name(sheet_options, &run->arena));
    line = sheets ? arena_format(&run->arena, "%s: %zu sheets on %zu pages\n", path, sheets,
                                 counts->pdf_merge_pages)
                  : arena_format(&run->arena, "%s: no sheet, so no such file\n", path);
    command_print(run, line, strlen(line));
}

void command_packet(struct run *run)
{
    struct resources resources;
    struct packet_options sheet_options = {
        .roster = run->words[0],
        .sheet = {.language = run->options.language,
                  .units = run->options.units,
                  .paper = run->options.paper},
        .drafts_too = run->options.drafts,
        .joined = run->options.joined,
        .replace = run->options.replace,
        .set_aside = run->options.set_aside,
        .resume = run->options.resume,
        .shard = 1,
        .shards = 1,
        .jobs = 1,
        .today = run->today,
    };
    if (strcmp(sheet_options.roster, "-") == 0) {
        usage(run, "a roster is read more than once; name its file, not standard input");
        return;
    }
    if (!read_division(run, &sheet_options) || !command_resources(run, &resources))
        return;
    sheet_options.folder =
        run->options.output ? run->options.output : default_folder(run, &resources);
    if (!sheet_options.folder)
        return;
    struct progress progress;
    struct packet_counts counts;
    progress_init(&progress);
    const struct packet_watch watch = {&progress, show_progress, report_fault};
    bool good = packet_write(&resources, &sheet_options, &watch, &run->diag, &counts);
    progress_wipe(&progress);
    if (good)
        tell_counts(run, &sheet_options, &counts);
}
