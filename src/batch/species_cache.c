/* Finds a species sheet of the run by its code, reading and digesting it the first time. */
#include "batch/species_cache.h"

#include <string.h>

#include "base/fold.h"

struct species_cache_item {
    const char *words; /* as asked for, folded */
    const struct species *species;
    char digest[SIGNATURE_HEX_BYTES];
    struct species_cache_item *next;
};

void species_cache_init(struct species_cache *cache, const struct resources *resources)
{
    *cache = (struct species_cache){.resources = resources};
    arena_init(&cache->arena);
}

void species_cache_finish(struct species_cache *cache)
{
    arena_finish(&cache->arena);
}

static const struct species *find_by_name(struct species_cache *cache, const char *words,
                                          struct mark at, struct arena *arena, struct diag *diag)
{
    const struct places *places = &cache->resources->places;
    if (!cache->library) {
        struct library *library = ARENA_NEW(&cache->arena, struct library);
        if (!library_read(cache->resources->species_sheets, places->species_dir, &cache->arena,
                          diag, library))
            return NULL;
        cache->library = library;
    }
    return library_find_named(cache->library, words, at, arena, diag);
}

static bool has_sheet(const struct species_cache *cache, const char *code, struct arena *arena)
{
    const char *folders[] = {cache->resources->places.species_dir,
                             cache->resources->species_sheets};
    const char *name = arena_format(arena, "%s.yaml", code);
    bool found = false;
    for (size_t i = 0; i < 2 && !strchr(code, '/'); i++)
        found = found || (folders[i] && file_exists(file_join(arena, folders[i], name)));
    return found;
}

static const struct species_cache_item *find_item(const struct species_cache *cache,
                                                  const char *folded)
{
    const struct species_cache_item *item = cache->first;
    while (item && strcmp(item->words, folded) != 0)
        item = item->next;
    return item;
}

static const struct species_cache_item *add_item(struct species_cache *cache, const char *words,
                                                 const char *folded, struct mark at,
                                                 struct arena *arena, struct diag *diag)
{
    if (strcmp(folded, UNLISTED_CODE) == 0) {
        diag_report_path(diag, DIAG_ERROR, "unlisted-in-roster", at, "species",
                         "an animal without a sheet needs a visit record of its own");
        return NULL;
    }
    const struct resources *resources = cache->resources;
    const struct species *species =
        has_sheet(cache, folded, arena)
            ? library_find(resources->species_sheets, resources->places.species_dir, folded, at,
                           &cache->arena, diag)
            : find_by_name(cache, words, at, arena, diag);
    struct species_cache_item *item =
        species ? ARENA_NEW(&cache->arena, struct species_cache_item) : NULL;
    if (!item ||
        !signature_digest_species(species->file, species->below, arena, diag, item->digest))
        return NULL;
    item->words = arena_copy_text(&cache->arena, folded);
    item->species = species;
    item->next = cache->first;
    cache->first = item;
    return item;
}

bool species_cache_find(struct species_cache *cache, const char *words, struct mark at,
                        struct diag *diag, struct species_cache_find *out)
{
    struct arena arena;
    arena_init(&arena);
    const char *folded = fold_slug(words, SPECIES_NAME_MOST, &arena);
    const struct species_cache_item *item = find_item(cache, folded);
    if (!item)
        item = add_item(cache, words, folded, at, &arena, diag);
    if (item)
        *out = (struct species_cache_find){item->species, item->digest};
    arena_finish(&arena);
    return item != NULL;
}
