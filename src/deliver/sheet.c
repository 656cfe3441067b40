#include "deliver/sheet.h"

#include <ctype.h>
#include <string.h>

#include "page/layout.h"
#include "wording/compose.h"

static bool read_wish(const char *wish, const struct choice *choices, const char *option,
                      struct choice_value *out, struct arena *arena, struct diag *diag)
{
    if (!wish)
        return true;
    for (const struct choice *c = choices; c->word; c++) {
        if (strcmp(c->word, wish) == 0) {
            *out = (struct choice_value){.known = true, .value = c->value};
            return true;
        }
    }
    diag_report(diag, DIAG_USAGE, "usage", (struct mark){0}, "'--%s' takes %s, not '%s'", option,
                bind_choice_list(choices, arena), wish);
    return false;
}

static const struct wording *read_words(const struct resources *resources, const char *language,
                                        struct mark at, struct arena *arena, struct diag *diag)
{
    const char *folder = file_join(arena, resources->templates, "wording");
    bool plain = *language && strspn(language, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ-") == strlen(language);
    if (!plain || !file_is_folder(file_join(arena, folder, language))) {
        diag_report(diag, DIAG_ERROR, "unknown-language", at,
                    "there is no wording for language '%s'; each is a folder of templates/wording", language);
        return NULL;
    }
    return catalogue_read(folder, language, arena, diag);
}

static const char *kind_file(const struct resources *resources, const struct visit *visit, struct arena *arena)
{
    const char *word = bind_choice_word(sheet_choices, visit->kind.value);
    return file_join(arena, resources->templates, arena_format(arena, "sheets/%s.yaml", word));
}

static bool set_pages(const struct document *document, const struct fonts *fonts, struct arena *arena,
                      struct diag *diag, struct bytes *out)
{
    struct paged paged = {0};
    return layout_document(document, fonts_measure(fonts), arena, diag, &paged) &&
           pdf_write(&paged, fonts, arena, diag, out);
}

bool sheet_write(const struct resources *resources, const struct care_plan *plan,
                 const struct sheet_wishes *wishes, const struct fonts *fonts, struct arena *arena,
                 struct diag *diag, struct bytes *out)
{
    const struct visit *visit = plan->visit;
    struct clinic clinic = *plan->clinic;
    struct choice_value units = {.value = (int)compose_units(visit, plan->clinic)};
    if (!read_wish(wishes->paper, paper_choices, "paper", &clinic.paper, arena, diag) ||
        !read_wish(wishes->units, unit_system_choices, "units", &units, arena, diag))
        return false;
    const char *language = wishes->language ? wishes->language : compose_language(visit, plan->clinic);
    struct care_plan own = *plan;
    own.clinic = &clinic;
    const struct compose_inputs inputs = {
        .plan = &own,
        .words = read_words(resources, language, visit->keeper.language.at, arena, diag),
        .sheet = sheet_template_read(kind_file(resources, visit, arena),
                                     bind_choice_word(sheet_choices, visit->kind.value), arena, diag),
        .look = look_read(file_join(arena, resources->templates, "look.yaml"), arena, diag),
        .units = (enum unit_system)units.value,
        /* a signature counts only with the digest of what was signed, which nothing writes yet */
        .is_signed = false,
    };
    struct document document = {0};
    return inputs.words && inputs.sheet && inputs.look && compose_sheet(&inputs, arena, diag, &document) &&
           set_pages(&document, fonts, arena, diag, out);
}

const char *sheet_file_name(const struct care_plan *plan, struct arena *arena)
{
    enum { NAME_BYTES = 60 };
    char name[NAME_BYTES + 1];
    size_t length = 0;
    for (const char *c = plan->visit->patient.name.text; *c && length < NAME_BYTES; c++) {
        if (isalnum((unsigned char)*c) && (unsigned char)*c < 0x80)
            name[length++] = (char)tolower((unsigned char)*c);
        else if (length && name[length - 1] != '-')
            name[length++] = '-';
    }
    while (length && name[length - 1] == '-')
        length--;
    name[length] = '\0';
    char day[16];
    date_write_iso(plan->on, day);
    return arena_format(arena, "%s-%s.pdf", length ? name : "animal", day);
}

const char *sheet_fonts_folder(const struct resources *resources, struct arena *arena)
{
    const char *beside = file_join(arena, resources->places.data_folder, "fonts");
    return file_is_folder(beside) ? beside : BASKLEAF_FONTS_FOLDER;
}
