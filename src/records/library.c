/* Finds species sheets, one or all, the clinic's own before ours. */
#include <stdlib.h>
#include <string.h>

#include "records/own_sheet.h"

static bool is_plain_code(const char *code)
{
    for (const char *c = code; *c; c++)
        if (!(*c >= 'a' && *c <= 'z') && !(*c >= '0' && *c <= '9') && *c != '-')
            return false;
    return *code != '\0' && strlen(code) < 64;
}

/* Ours with the clinic's confirmed values in it. */
static struct species *read_merged(struct own_sheet own, struct own_sheet ours, const char *path,
                                   struct arena *arena, struct diag *diag)
{
    own_sheet_merge(own, ours, arena, diag);
    struct species *merged = species_read_tree(ours.tree, path, arena, diag);
    if (!merged)
        return NULL;
    own_sheet_confirm(merged, own.species, ours.species, arena);
    return merged;
}

static struct species *read_over(const char *path, const char *ours_path, struct arena *arena,
                                 struct diag *diag)
{
    struct bytes text;
    struct own_sheet own, ours = {0};
    if (!file_read(path, FILE_LIMIT_BYTES, arena, diag, &text))
        return NULL;
    own.tree = tree_read_bytes(arena_copy_text(arena, path), text, arena, diag);
    own.species = own.tree ? species_read_tree(own.tree, path, arena, diag) : NULL;
    if (!own.species || !ours_path || own.species->reviewed.count == 0)
        return own.species;
    ours.tree = tree_read_file(ours_path, arena, diag);
    ours.species = ours.tree ? species_read_tree(ours.tree, ours_path, arena, diag) : NULL;
    if (!ours.species)
        return NULL;
    if (!own_sheet_is_sealed(text)) {
        own_sheet_confirm(own.species, own.species, ours.species, arena);
        return own.species;
    }
    struct species *merged = read_merged(own, ours, path, arena, diag);
    if (merged)
        merged->below = ours.species->file;
    return merged;
}

/* The clinic's own sheet, over ours of the same name where there is one. */
static struct species *read_clinic(const char *path, const char *folder, struct arena *arena,
                                   struct diag *diag)
{
    const char *slash = strrchr(path, '/');
    const char *ours = file_join(arena, folder, slash ? slash + 1 : path);
    struct species *species = read_over(path, file_exists(ours) ? ours : NULL, arena, diag);
    if (species)
        species->from_clinic = true;
    return species;
}

struct species *library_find(const char *folder, const char *clinic_folder, const char *code,
                             struct mark at, struct arena *arena, struct diag *diag)
{
    const char *folders[] = {clinic_folder, folder};
    for (size_t i = 0; i < 2 && is_plain_code(code); i++) {
        if (!folders[i])
            continue;
        const char *path = file_join(arena, folders[i], arena_format(arena, "%s.yaml", code));
        if (!file_exists(path))
            continue;
        struct species *species =
            i == 0 ? read_clinic(path, folder, arena, diag) : species_read(path, arena, diag);
        return species;
    }
    /* no code: a name; a sheet that cannot be read has none, and whoever needs it says why */
    struct diag quiet;
    struct library library;
    diag_init(&quiet);
    library_read(folder, clinic_folder, arena, &quiet, &library);
    diag_finish(&quiet);
    return library_find_named(&library, code, at, arena, diag);
}

static int by_code(const void *a, const void *b)
{
    const struct species *const *left = a, *const *right = b;
    return strcmp((*left)->code.text, (*right)->code.text);
}

static bool is_overridden(const char *clinic_folder, const char *name, struct arena *arena)
{
    return clinic_folder && file_exists(file_join(arena, clinic_folder, name));
}

/* Two sheets for one species would differ one day. */
static bool check_scientific_names(const struct library *library, struct diag *diag)
{
    bool good = true;
    for (size_t i = 1; i < library->count; i++)
        for (size_t k = 0; k < i; k++) {
            const struct text_value *name = &library->items[i]->scientific,
                                    *other = &library->items[k]->scientific;
            if (strcmp(name->text, other->text) != 0)
                continue;
            diag_report_path(diag, DIAG_ERROR, "species-twice", name->at, "species.scientific",
                             "'%s' is also the scientific name in %s:%d; one sheet a species",
                             name->text, other->at.file, other->at.line);
            good = false;
        }
    return good;
}

bool library_read(const char *folder, const char *clinic_folder, struct arena *arena,
                  struct diag *diag, struct library *out)
{
    const char **ours = NULL, **theirs = NULL;
    size_t own_count = file_list(folder, ".yaml", arena, diag, &ours);
    size_t clinic_count =
        clinic_folder ? file_list(clinic_folder, ".yaml", arena, diag, &theirs) : 0;
    *out =
        (struct library){.items = ARENA_ARRAY(arena, struct species *, own_count + clinic_count)};
    bool good = own_count > 0;
    for (size_t i = 0; i < own_count + clinic_count; i++) {
        bool clinic = i >= own_count;
        const char *name = clinic ? theirs[i - own_count] : ours[i];
        if (!clinic && is_overridden(clinic_folder, name, arena))
            continue;
        const char *path = file_join(arena, clinic ? clinic_folder : folder, name);
        struct species *species =
            clinic ? read_clinic(path, folder, arena, diag) : species_read(path, arena, diag);
        good = good && species;
        if (species)
            out->items[out->count++] = species;
    }
    qsort(out->items, out->count, sizeof *out->items, by_code);
    return check_scientific_names(out, diag) && good;
}
