/* Finds the photo beside the record and has it made fit to be shown. */
#include "context/photo.h"

#include <string.h>

#include "layout/photo_file.h"

static const char *const PATH = "patient.photo";

/* A path from the record; in a folder of records a bare name, so that nothing else is read. */
static const char *find_file(const struct resources *resources, const struct visit *visit,
                             struct arena *arena, struct diag *diag)
{
    const struct text_value *photo = &visit->patient.photo;
    const char *name = photo->text, *folder = resources->places.records, *why = NULL;
    if (name[0] == '/')
        why = "is a path from the root; write the path from this record";
    else if (folder && (name[0] == '.' || strchr(name, '/')))
        why = "must be the name of a file of the same folder";
    const char *path =
        why ? NULL : file_join(arena, folder ? folder : file_folder_of(arena, visit->file), name);
    if (path && !file_is_regular(path))
        why = arena_format(arena, "'%s' %s; name a PNG or JPEG file", path,
                           file_exists(path) ? "is no ordinary file" : "is not there");
    if (!why)
        return path;
    diag_report_path(diag, DIAG_ERROR, "no-photo", photo->at, PATH, "%s", why);
    return NULL;
}

bool photo_read(const struct resources *resources, const struct visit *visit, struct arena *arena,
                struct diag *diag, struct bytes *file, struct photo_plan *out)
{
    const struct text_value *name = &visit->patient.photo;
    struct photo photo;
    if (!name->text || !*name->text)
        return true;
    const char *path = find_file(resources, visit, arena, diag);
    if (!path || !file_read(path, PHOTO_LIMIT_BYTES, arena, diag, file) ||
        !photo_file_make(*file, name->text, name->at, arena, diag, &photo))
        return false;
    *out = (struct photo_plan){photo.jpeg, photo.length, photo.width_px, photo.height_px};
    return true;
}
