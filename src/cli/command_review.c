/* `baskleaf review`: what a veterinarian has to confirm of a species sheet, and the clinic's own
 * sheet of what was confirmed. */
#include <string.h>

#include "cli/command.h"
#include "review/review_list.h"
#include "review/review_write.h"

static void list_values(struct run *run, const struct resources *resources)
{
    struct review_list list;
    struct strbuf out;
    struct species *species =
        library_find(resources->species_sheets, resources->places.species_dir, run->words[0],
                     (struct mark){0}, &run->arena, &run->diag);
    if (!species || !review_list_make(resources, species, &run->arena, &run->diag, &list))
        return;
    strbuf_init(&out, &run->arena);
    if (run->options.json)
        review_write_json(&list, &out);
    else
        review_write_text(&list, &out);
    command_print(run, out.text, out.length);
}

static bool usage(struct run *run, const char *text)
{
    diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0}, "%s", text);
    return false;
}

static bool is_line(const char *text)
{
    return !text || command_is_name(text);
}

static bool is_sound(struct run *run)
{
    const struct options *o = &run->options;
    if (!command_is_name(o->by))
        return usage(run, "to confirm or to set, 'review' needs --by with the name of the "
                          "veterinarian, on one line");
    if (!o->confirm && !o->set)
        return usage(run, "--by says who confirms; --confirm KEY,... or --set KEY=VALUE says what");
    if (!is_line(o->edition) || !is_line(o->reason))
        return usage(run, "--edition and --reason are one line each, of 200 bytes at most");
    return true;
}

static void write_sheet(struct run *run, const struct resources *resources)
{
    const struct options *o = &run->options;
    const char *folder = o->species_dir ? o->species_dir : resources_own_sheets(&run->arena);
    const char *path;
    const struct review_order order = {run->words[0], o->by,      run->today, o->confirm,
                                       o->set,        o->edition, o->reason};
    if (!folder) {
        diag_report(&run->diag, DIAG_FAULT, "no-home", (struct mark){0},
                    "HOME names no folder; --species-dir says where the sheet goes");
        return;
    }
    if (!review_write(resources, folder, &order, &run->arena, &run->diag, &path))
        return;
    const char *line = arena_format(&run->arena, "%s\n", path);
    command_print(run, line, strlen(line));
}

void command_review(struct run *run)
{
    const struct options *o = &run->options;
    struct resources resources;
    bool writes = o->by || o->confirm || o->set || o->edition || o->reason;
    if ((writes && !is_sound(run)) || !command_resources(run, &resources))
        return;
    if (writes)
        write_sheet(run, &resources);
    else
        list_values(run, &resources);
}
