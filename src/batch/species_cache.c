/* Finds a species sheet of the run by its code, reading and digesting it the first time. */
#include "batch/species_cache.h"

#include <ctype.h>
#include <string.h>

#include "base/nearest.h"

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

enum { WORDS_MOST = 128 };

/* "Ball python " and "ball-python" are the same. */
static void fold(const char *words, char out[WORDS_MOST])
{
    size_t length = 0;
    for (const char *c = words; *c && length < WORDS_MOST - 1; c++) {
        bool gap = *c == ' ' || *c == '-' || *c == '_' || *c == '\t';
        if (!gap)
            out[length++] = (char)tolower((unsigned char)*c);
        else if (length && out[length - 1] != '-')
            out[length++] = '-';
    }
    while (length && out[length - 1] == '-')
        length--;
    out[length] = '\0';
}

static bool is_name(const char *name, const char *folded, struct nearest *nearest)
{
    char own[WORDS_MOST];
    fold(name, own);
    nearest_offer(nearest, name);
    return strcmp(own, folded) == 0;
}

static bool has_name(const struct species *species, const char *folded, struct nearest *nearest)
{
    bool found = is_name(species->code.text, folded, nearest) ||
                 is_name(species->scientific.text, folded, nearest);
    for (size_t i = 0; i < species->names.count && !found; i++)
        found = is_name(LIST_AT(species->names, struct named_text, i)->text.text, folded, nearest);
    for (size_t i = 0; i < species->also.count && !found; i++)
        found = is_name(LIST_AT(species->also, struct text_value, i)->text, folded, nearest);
    return found;
}

/* Names may stand for two species; then neither is taken. */
static const struct species *find_by_name(struct species_cache *cache, const char *words,
                                          const char *folded, struct mark at, struct diag *diag)
{
    const struct places *places = &cache->resources->places;
    if (!cache->library) {
        struct library *library = ARENA_NEW(&cache->arena, struct library);
        if (!library_read(cache->resources->species_sheets, places->species_dir, &cache->arena,
                          diag, library))
            return NULL;
        cache->library = library;
    }
    const struct species *found = NULL;
    struct nearest nearest;
    nearest_init(&nearest, words);
    for (size_t i = 0; i < cache->library->count; i++) {
        const struct species *species = cache->library->items[i];
        if (!has_name(species, folded, &nearest))
            continue;
        if (found) {
            diag_report_path(diag, DIAG_ERROR, "two-species", at, "species",
                             "'%s' is a name of %s and of %s; write the code", words,
                             found->code.text, species->code.text);
            return NULL;
        }
        found = species;
    }
    if (!found)
        diag_report_path(diag, DIAG_ERROR, "unknown-species", at, "species",
                         nearest.best
                             ? "there is no species sheet '%s'; did you mean '%s'?"
                             : "there is no species sheet '%s'; 'baskleaf species' lists them%s",
                         words, nearest.best ? nearest.best : "");
    return found;
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

bool species_cache_find(struct species_cache *cache, const char *words, struct mark at,
                        struct diag *diag, struct species_cache_find *out)
{
    char folded[WORDS_MOST];
    fold(words, folded);
    for (const struct species_cache_item *item = cache->first; item; item = item->next) {
        if (strcmp(item->words, folded) == 0) {
            *out = (struct species_cache_find){item->species, item->digest};
            return true;
        }
    }
    if (strcmp(folded, UNLISTED_CODE) == 0) {
        diag_report_path(diag, DIAG_ERROR, "unlisted-in-roster", at, "species",
                         "an animal without a sheet needs a visit record of its own");
        return false;
    }
    struct arena small;
    arena_init(&small);
    const struct species *species =
        has_sheet(cache, folded, &small)
            ? library_find(cache->resources->species_sheets, cache->resources->places.species_dir,
                           folded, at, &cache->arena, diag)
            : find_by_name(cache, words, folded, at, diag);
    struct species_cache_item *item =
        species ? ARENA_NEW(&cache->arena, struct species_cache_item) : NULL;
    bool good = item && signature_digest_file(species->file, &small, diag, item->digest);
    arena_finish(&small);
    if (!good)
        return false;
    item->words = arena_copy_text(&cache->arena, folded);
    item->species = species;
    item->next = cache->first;
    cache->first = item;
    *out = (struct species_cache_find){species, item->digest};
    return true;
}
