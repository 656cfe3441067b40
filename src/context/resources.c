/* Finds the data folder beside the program and reads what all sheets share. */
#include "context/resources.h"

#include <string.h>
#include <unistd.h>

bool resources_read(const struct places *places, struct arena *arena, struct diag *diag,
                    struct resources *out)
{
    *out = (struct resources){.places = *places};
    out->templates = file_join(arena, places->data_folder, "templates");
    out->species_sheets = file_join(arena, places->data_folder, "species-sheets");
    const char *clinic =
        places->clinic_file ? places->clinic_file : file_join(arena, out->templates, "clinic.yaml");
    out->clinic = clinic_read(clinic, arena, diag);
    out->catalogue =
        finding_catalogue_read(file_join(arena, out->templates, "findings.yaml"), arena, diag);
    out->signs =
        sign_catalogue_read(file_join(arena, out->templates, "warning-signs.yaml"), arena, diag);
    out->rules = rule_book_read(file_join(arena, out->templates, "rules.yaml"), arena, diag);
    out->facts = reference_values_read(file_join(arena, out->templates, "reference-values.yaml"),
                                       arena, diag);
    out->topics =
        topic_catalogue_read(file_join(arena, out->templates, "topics.yaml"), arena, diag);
    out->settlements = settlement_book_read(file_join(arena, out->templates, "settlements.yaml"),
                                            out->topics, arena, diag);
    out->instructions = instruction_catalogue_read(
        file_join(arena, out->templates, "instructions.yaml"), out->topics, arena, diag);
    if (!out->topics || !out->settlements || !out->instructions || !out->catalogue ||
        !finding_calls_check(out->catalogue, out->topics, diag))
        return false;
    bool has_kinds =
        sheet_kinds_read(file_join(arena, out->templates, "sheets"), arena, diag, &out->kinds);
    out->unlisted = unlisted_read(file_join(arena, out->templates, "unlisted.yaml"), arena, diag);
    return has_kinds && out->clinic && out->catalogue && out->signs && out->rules && out->facts &&
           out->unlisted;
}

static const char *data_in(struct arena *arena, const char *folder)
{
    return file_exists(file_join(arena, folder, "templates/rules.yaml")) ? folder : NULL;
}

const char *resources_find_data(struct arena *arena)
{
    enum { PATH_BYTES = 4096 };
    char *path = arena_take(arena, PATH_BYTES);
    ssize_t length = readlink("/proc/self/exe", path, PATH_BYTES - 1);
    if (length <= 0)
        return NULL;
    path[length] = '\0';
    for (char *slash; (slash = strrchr(path, '/')) && slash != path;) {
        *slash = '\0';
        const char *found = data_in(arena, path);
        if (!found)
            found = data_in(arena, file_join(arena, path, "share/baskleaf"));
        if (found)
            return arena_copy_text(arena, found);
    }
    return NULL;
}
