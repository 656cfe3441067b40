/* Finds a species by any of its names, in any language, capitals, accents and hyphens aside. */
#include <string.h>

#include "base/fold.h"
#include "base/nearest.h"
#include "records/species.h"

/* A name that is looked for, as it folds, and the nearest of those that are not it. */
struct wanted {
    const char *folded;
    struct nearest nearest;
    struct arena *arena;
};

static bool is_name(struct wanted *wanted, const char *name)
{
    nearest_offer(&wanted->nearest, name);
    return strcmp(fold_slug(name, SPECIES_NAME_MOST, wanted->arena), wanted->folded) == 0;
}

static bool has_name(struct wanted *wanted, const struct species *species)
{
    bool found = is_name(wanted, species->code.text) || is_name(wanted, species->scientific.text);
    for (size_t i = 0; i < species->names.count && !found; i++)
        found = is_name(wanted, LIST_AT(species->names, struct named_text, i)->text.text);
    for (size_t i = 0; i < species->also.count && !found; i++)
        found = is_name(wanted, LIST_AT(species->also, struct text_value, i)->text);
    return found;
}

struct species *library_find_named(const struct library *library, const char *words, struct mark at,
                                   struct arena *arena, struct diag *diag)
{
    struct species *found = NULL;
    struct wanted wanted = {fold_slug(words, SPECIES_NAME_MOST, arena), .arena = arena};
    nearest_init(&wanted.nearest, words);
    for (size_t i = 0; i < library->count; i++) {
        struct species *species = library->items[i];
        if (!has_name(&wanted, species))
            continue;
        if (found) {
            diag_report_path(diag, DIAG_ERROR, "two-species", at, "species",
                             "'%s' is a name of %s and of %s; write the code", words,
                             found->code.text, species->code.text);
            return NULL;
        }
        found = species;
    }
    const char *nearest = wanted.nearest.best;
    if (!found)
        diag_report_path(diag, DIAG_ERROR, "unknown-species", at, "species",
                         nearest ? "there is no species sheet '%s'; did you mean '%s'?"
                                 : "there is no species sheet '%s'; 'baskleaf species' lists "
                                   "them%s",
                         words, nearest ? nearest : "");
    return found;
}
