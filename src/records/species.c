/* Reads a species sheet. */
#include "records/species.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "records/own_sheet.h"

bool species_has_trait(const struct species *species, enum trait trait)
{
    for (size_t i = 0; i < species->traits.count; i++)
        if (LIST_AT(species->traits, struct choice_value, i)->value == (int)trait)
            return true;
    return false;
}

const char *species_name(const struct species *species, const char *lang)
{
    const char *name = named_text_find(&species->names, lang);
    if (!name)
        name = named_text_find(&species->names, "en");
    return name ? name : species->scientific.text;
}

struct species *species_read(const char *path, struct arena *arena, struct diag *diag)
{
    struct node *tree = tree_read_file(path, arena, diag);
    return tree ? species_read_tree(tree, path, arena, diag) : NULL;
}

struct species *species_read_tree(const struct node *tree, const char *path, struct arena *arena,
                                  struct diag *diag)
{
    struct species *species = ARENA_NEW(arena, struct species);
    species->file = arena_copy_text(arena, path);
    if (!bind_record(tree, &species_schema, "", arena, diag, species) ||
        !species_check(species, diag))
        return NULL;
    const char *base = strrchr(path, '/');
    base = base ? base + 1 : path;
    size_t length = strlen(species->code.text);
    if (strcmp(path, "-") != 0 &&
        (strncmp(base, species->code.text, length) != 0 || strcmp(base + length, ".yaml") != 0)) {
        diag_report_path(diag, DIAG_ERROR, "code-not-file-name", species->code.at, "species.code",
                         "'%s' must equal the file's name without .yaml", species->code.text);
        return NULL;
    }
    own_sheet_confirm(species, species, NULL, arena);
    return species;
}
