/* Finds the data folder beside the program and reads what all sheets share. */
#include "context/resources.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

bool resources_read(const struct places *places, struct arena *arena, struct diag *diag,
                    struct resources *out)
{
    *out = (struct resources){.places = *places};
    out->templates = file_join(arena, places->data_folder, "templates");
    out->species_sheets = file_join(arena, places->data_folder, "species-sheets");
    out->fonts = resources_find_fonts(places->data_folder, arena);
    const char *clinic = places->clinic_file ? places->clinic_file
                                             : resources_find_clinic(places->data_folder, arena);
    if (!resources_has_species_dir(places, diag))
        return false;
    out->clinic = clinic_read(clinic, arena, diag);
    out->catalogue =
        finding_catalogue_read(file_join(arena, out->templates, "findings.yaml"), arena, diag);
    out->signs =
        sign_catalogue_read(file_join(arena, out->templates, "warning-signs.yaml"), arena, diag);
    out->rules = rule_book_read(file_join(arena, out->templates, "rules.yaml"), arena, diag);
    out->steps = step_book_read(file_join(arena, out->templates, "steps.yaml"), arena, diag);
    out->reference = reference_values_read(
        file_join(arena, out->templates, "reference-values.yaml"), arena, diag);
    out->topics =
        topic_catalogue_read(file_join(arena, out->templates, "topics.yaml"), arena, diag);
    out->settlements = settlement_book_read(file_join(arena, out->templates, "settlements.yaml"),
                                            out->topics, arena, diag);
    out->instructions = instruction_catalogue_read(
        file_join(arena, out->templates, "instructions.yaml"), out->topics, arena, diag);
    if (out->rules && out->topics && !topic_rules_check(out->rules, out->topics, diag))
        return false;
    if (!out->topics || !out->settlements || !out->instructions || !out->catalogue ||
        !finding_calls_check(out->catalogue, out->topics, diag))
        return false;
    bool has_kinds =
        sheet_kinds_read(file_join(arena, out->templates, "sheets"), arena, diag, &out->kinds);
    out->unlisted = unlisted_read(file_join(arena, out->templates, "unlisted.yaml"), arena, diag);
    out->uses = value_uses_read(file_join(arena, out->templates, "value-uses.yaml"), out->rules,
                                arena, diag);
    return has_kinds && out->uses && out->clinic && out->catalogue && out->signs && out->rules &&
           out->steps && out->reference && out->unlisted;
}

bool resources_has_species_dir(const struct places *places, struct diag *diag)
{
    if (!places->species_dir || file_is_folder(places->species_dir))
        return true;
    diag_report(diag, DIAG_ERROR, "no-species-dir", (struct mark){.file = places->species_dir},
                "is no folder; --species-dir names the one with the clinic's own species sheets");
    return false;
}

const char *resources_own_clinic(struct arena *arena)
{
    const char *config = getenv("XDG_CONFIG_HOME"), *home = getenv("HOME");
    if (config && *config == '/')
        return file_join(arena, config, "baskleaf/clinic.yaml");
    return home && *home == '/' ? file_join(arena, home, ".config/baskleaf/clinic.yaml") : NULL;
}

const char *resources_own_sheets(struct arena *arena)
{
    const char *clinic = resources_own_clinic(arena);
    return clinic ? file_join(arena, file_folder_of(arena, clinic), "species-sheets") : NULL;
}

const char *resources_find_own_sheets(const char *named, struct arena *arena)
{
    static const char machine[] = "/etc/baskleaf/species-sheets";
    const char *own = named ? named : resources_own_sheets(arena);
    if (named || (own && file_is_folder(own)))
        return own;
    return file_is_folder(machine) ? machine : NULL;
}

const char *resources_find_clinic(const char *data_folder, struct arena *arena)
{
    static const char machine[] = "/etc/baskleaf/clinic.yaml";
    const char *own = resources_own_clinic(arena);
    if (own && file_exists(own))
        return own;
    return file_exists(machine) ? machine : file_join(arena, data_folder, "templates/clinic.yaml");
}

/* ---- looking for folders -----------------------------------------------------------------------
 *
 * No path of the build is in the program: it looks from its own place upward, so that what is moved
 * or renamed as a whole still finds itself. */

/* What `look` finds in the first of the folders above the program that has it, or NULL. */
static const char *look_upward(const char *(*look)(struct arena *arena, const char *folder),
                               struct arena *arena)
{
    enum { PATH_BYTES = 4096 };
    char *path = arena_take(arena, PATH_BYTES);
    ssize_t length = readlink("/proc/self/exe", path, PATH_BYTES - 1);
    if (length <= 0)
        return NULL;
    path[length] = '\0';
    for (char *slash; (slash = strrchr(path, '/')) && slash != path;) {
        *slash = '\0';
        const char *found = look(arena, path);
        if (found)
            return found;
    }
    return NULL;
}

static bool is_data(struct arena *arena, const char *folder)
{
    return file_exists(file_join(arena, folder, "templates/rules.yaml"));
}

/* A build outside the source folder keeps the name of it in a file of its own. */
static const char *source_of_build(struct arena *arena, const char *folder)
{
    struct diag quiet;
    struct bytes name;
    const char *path = file_join(arena, folder, "context/source-folder");
    diag_init(&quiet);
    bool good = file_is_regular(path) && file_read(path, FILE_LIMIT_BYTES, arena, &quiet, &name);
    diag_finish(&quiet);
    return good ? arena_copy_bytes(arena, name.data, strcspn(name.data, "\n")) : NULL;
}

static const char *data_here(struct arena *arena, const char *folder)
{
    const char *const places[] = {folder, file_join(arena, folder, BASKLEAF_DATA),
                                  source_of_build(arena, folder)};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++)
        if (places[i] && is_data(arena, places[i]))
            return arena_copy_text(arena, places[i]);
    return NULL;
}

const char *resources_find_data(struct arena *arena)
{
    const char *found = look_upward(data_here, arena);
    return found || BASKLEAF_DATA[0] != '/' || !is_data(arena, BASKLEAF_DATA) ? found
                                                                              : BASKLEAF_DATA;
}

static const char *fonts_here(struct arena *arena, const char *folder)
{
    static const char *const places[] = {"pdf/fonts", "src/pdf/fonts", BASKLEAF_DATA "/fonts"};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        const char *fonts = file_join(arena, folder, places[i]);
        if (file_exists(file_join(arena, fonts, "srgb.icc.z")))
            return fonts;
    }
    return NULL;
}

const char *resources_find_fonts(const char *data_folder, struct arena *arena)
{
    const char *beside = file_join(arena, data_folder, "fonts");
    const char *found = file_is_folder(beside) ? beside : look_upward(fonts_here, arena);
    return found ? found : beside;
}
