/* `baskleaf species`: the species sheets that there are, or those whose names hold a word. */
#include <ctype.h>
#include <string.h>
#include <strings.h>

#include "cli/command.h"
#include "records/species_values.h"

/* Letters outside ASCII are compared as they stand. */
static bool contains(const char *text, const char *word)
{
    size_t length = strlen(word);
    for (; *text; text++)
        if (strncasecmp(text, word, length) == 0)
            return true;
    return length == 0;
}

static bool has_word(const struct species *species, const char *word)
{
    if (contains(species->code.text, word) || contains(species->scientific.text, word))
        return true;
    for (size_t i = 0; i < species->names.count; i++)
        if (contains(LIST_AT(species->names, struct named_text, i)->text.text, word))
            return true;
    for (size_t i = 0; i < species->also.count; i++)
        if (contains(LIST_AT(species->also, struct text_value, i)->text, word))
            return true;
    return false;
}

static bool has_all_words(const struct species *species, const struct run *run)
{
    for (int i = 0; i < run->word_count; i++)
        if (!has_word(species, run->words[i]))
            return false;
    return true;
}

void command_species(struct run *run)
{
    const char *data = run->options.data ? run->options.data : resources_find_data(&run->arena);
    struct library library;
    if (!data) {
        diag_report(&run->diag, DIAG_FAULT, "no-data", (struct mark){0},
                    "the folder with species-sheets was not found; name it with --data");
        return;
    }
    const char *own = resources_find_own_sheets(run->options.species_dir, &run->arena);
    library_read(file_join(&run->arena, data, "species-sheets"), own, &run->arena, &run->diag,
                 &library);
    if (own && !file_is_folder(own)) /* the list without the clinic's own would be another's */
        return;
    struct strbuf out;
    strbuf_init(&out, &run->arena);
    for (size_t i = 0; i < library.count; i++) {
        const struct species *species = library.items[i];
        if (!has_all_words(species, run))
            continue;
        strbuf_addf(&out, "%-22s %3d %%  %s (%s)%s\n", species->code.text,
                    species_trust_percent(&species->review), species_name(species, "en"),
                    species->scientific.text,
                    species->from_clinic ? ", the clinic's own sheet" : "");
    }
    if (!out.length)
        diag_report(&run->diag, DIAG_ERROR, "no-species", (struct mark){0},
                    "no species sheet has these words; 'baskleaf species' lists all");
    command_print(run, out.text, out.length);
}
