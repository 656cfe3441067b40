/* Where a record's logger file lies: below the record, never elsewhere. */
#include "context/visit_log.h"

#include <string.h>

static const char *const PATH = "enclosure.readings.log";

static bool climbs(const char *name)
{
    return strcmp(name, "..") == 0 || strncmp(name, "../", 3) == 0 || strstr(name, "/../") ||
           (strlen(name) > 3 && strcmp(name + strlen(name) - 3, "/..") == 0);
}

const struct log_file *visit_log_read(const struct resources *resources, const struct visit *visit,
                                      struct arena *arena, struct diag *diag)
{
    const struct text_value *file = &visit->enclosure.readings.log.file;
    const char *name = file->text, *folder = resources->places.records, *why = NULL;
    if (name[0] == '/' || climbs(name))
        why = "must lie in the record's folder or below it";
    else if (folder && strchr(name, '/'))
        why = "must be the name of a file of the same folder";
    const char *path =
        why ? NULL : file_join(arena, folder ? folder : file_folder_of(arena, visit->file), name);
    if (path && !file_is_regular(path))
        why = arena_format(arena, "'%s' %s; name the logger's CSV file", path,
                           file_exists(path) ? "is no ordinary file" : "is not there");
    if (!why)
        return log_read(path, visit->date.date, arena, diag);
    diag_report_path(diag, DIAG_ERROR, "no-log", file->at, PATH, "%s", why);
    return NULL;
}
