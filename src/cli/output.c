/* Where a command's result goes. */
#include <string.h>

#include "pdftools/pdf_encrypt.h"
#include "cli/command.h"
#include "base/file_writer.h"
#include "yaml/tree.h"

/* out/ of the project when the program runs from it, else of the folder it is called in. */
static const char *default_output(struct run *run, const struct resources *resources,
                                  const char *name)
{
    const char *folder = file_join(&run->arena, resources->places.data_folder, "out");
    if (!file_is_folder(folder)) {
        folder = "out";
        if (!file_make_folder(folder, &run->diag))
            return NULL;
    }
    return file_join(&run->arena, folder, name);
}

/* ---- what must not be written over -------------------------------------------------------------
 */

static bool is_below(const char *path, const char *folder, struct arena *arena)
{
    const char *place = file_real_path(arena, folder);
    size_t length = place ? strlen(place) : 0;
    return place && strncmp(path, place, length) == 0 && path[length] == '/';
}

/* Everything the program reads of its own, but for the records and rosters that lie there. */
static bool is_data(const struct resources *resources, const char *output, struct arena *arena)
{
    const char *path = file_real_path(arena, output);
    const char *visits = file_join(arena, resources->templates, "visits");
    const char *rosters = file_join(arena, resources->templates, "rosters");
    const char *own = resources->places.species_dir;
    return path && ((is_below(path, resources->templates, arena) &&
                     !is_below(path, visits, arena) && !is_below(path, rosters, arena)) ||
                    is_below(path, resources->species_sheets, arena) ||
                    (own && is_below(path, own, arena)));
}

/* The photo, the logger's file and the visit before, which lie beside the record. */
static bool is_beside_record(const struct run *run, const char *output, struct arena *arena)
{
    static const char *const named[][4] = {
        {"patient", "photo"}, {"visit", "previous"}, {"enclosure", "readings", "log", "file"}};
    const char *folder = file_folder_of(arena, run->words[0]);
    for (size_t i = 0; i < sizeof named / sizeof *named; i++) {
        const struct node *found = run->record;
        for (size_t k = 0; k < 4 && named[i][k] && found; k++)
            found = tree_find(found, named[i][k]);
        if (found && found->kind == NODE_SCALAR &&
            file_is_same(file_join(arena, folder, found->text), output))
            return true;
    }
    return false;
}

bool command_reads(const struct run *run, const struct resources *resources, const char *output,
                   struct arena *arena)
{
    const char *logo = clinic_logo_path(resources->clinic, arena);
    const char *const named[] = {run->options.settings, run->options.password_file,
                                 resources->clinic->file, logo};
    for (int i = 0; i < run->word_count; i++)
        if (file_is_same(run->words[i], output))
            return true;
    for (size_t i = 0; i < sizeof named / sizeof *named; i++)
        if (named[i] && file_is_same(named[i], output))
            return true;
    return is_beside_record(run, output, arena) || is_data(resources, output, arena);
}

/* The very same bytes, or a file of the same visit and sort: a sheet, a message and a calendar
 * begin each with letters of its own. */
static bool is_ours(const char *output, const struct result *result, struct arena *arena)
{
    enum { ID_LETTERS = 16, SORT_LETTERS = 4 };
    struct diag quiet;
    struct bytes old;
    diag_init(&quiet);
    bool read = file_read(output, FILE_LIMIT_BYTES, arena, &quiet, &old);
    diag_finish(&quiet);
    if (!read)
        return false;
    return (old.length == result->bytes.length &&
            memcmp(old.data, result->bytes.data, old.length) == 0) ||
           (result->record_id && old.length > SORT_LETTERS &&
            memcmp(old.data, result->bytes.data, SORT_LETTERS) == 0 &&
            memmem(old.data, old.length, result->record_id, ID_LETTERS) != NULL);
}

static bool may_write(struct run *run, const struct resources *resources, const char *output,
                      const struct result *result)
{
    const struct mark at = {.file = output};
    if (!file_is_regular(output))
        return true; /* nothing stands there yet, or a device */
    if (command_reads(run, resources, output, &run->arena)) {
        diag_report(&run->diag, DIAG_ERROR, "output-is-input", at,
                    "is read by this command and is not written over; -o takes another name");
        return false;
    }
    if (run->options.replace || is_ours(output, result, &run->arena))
        return true;
    diag_report(&run->diag, DIAG_ERROR, "would-overwrite", at,
                "stands there already and was not made of this visit; -o takes another name, "
                "--replace writes over it");
    return false;
}

const char *command_deliver(struct run *run, const struct resources *resources,
                            const struct result *result)
{
    const char *output =
        run->options.output ? run->options.output : default_output(run, resources, result->name);
    if (!output)
        return NULL;
    if (strcmp(output, "-") == 0) {
        command_print(run, result->bytes.data, result->bytes.length);
        return output;
    }
    if (!may_write(run, resources, output, result))
        return NULL;
    file_sweep(file_folder_of(&run->arena, output));
    /* it holds a keeper's name: others on the machine need not read it */
    if (!file_write_atomic(output, result->bytes.data, result->bytes.length, 0640, &run->diag))
        return NULL;
    const char *line = arena_format(&run->arena, "%s\n", output);
    command_print(run, line, strlen(line));
    return output;
}

void command_deliver_or_print(struct run *run, const struct resources *resources,
                              struct bytes bytes)
{
    if (run->options.output)
        command_deliver(run, resources, &(struct result){.bytes = bytes});
    else
        command_print(run, bytes.data, bytes.length);
}

bool command_password(struct run *run, const char **out)
{
    const char *path = run->options.password_file;
    *out = path ? password_file_read(path, &run->arena, &run->diag) : NULL;
    return !path || *out;
}
