#include "deliver/press.h"

#include <string.h>

#include "deliver/sheet.h"
#include "page/logo_file.h"

/* The clinic's logo beside its file; true where there is none. */
static bool read_logo(struct press *press, struct diag *diag)
{
    const struct clinic *clinic = press->resources->clinic;
    const char *path = clinic_logo_path(clinic, &press->arena);
    if (!path)
        return true;
    struct logo *logo = ARENA_NEW(&press->arena, struct logo);
    press->logo = logo;
    return logo_file_read(path, clinic->name.text, clinic->logo.at, &press->arena, diag, logo);
}

bool press_init(struct press *press, const struct resources *resources, struct diag *diag)
{
    *press = (struct press){.resources = resources};
    arena_init(&press->arena);
    press->fonts = fonts_new(sheet_fonts_folder(resources, &press->arena), diag);
    press->look =
        look_read(file_join(&press->arena, resources->templates, "look.yaml"), &press->arena, diag);
    return read_logo(press, diag) && press->fonts && press->look;
}

void press_finish(struct press *press)
{
    fonts_free(press->fonts);
    arena_finish(&press->arena);
}

static bool is_plain_tag(const char *language)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ-";
    return *language && strspn(language, letters) == strlen(language);
}

const struct wording *press_words(struct press *press, const char *language, struct mark at,
                                  struct diag *diag)
{
    for (size_t i = 0; i < press->language_count; i++)
        if (strcmp(press->words[i]->lang, language) == 0)
            return press->words[i];
    const char *folder = file_join(&press->arena, press->resources->templates, "wording");
    if (!is_plain_tag(language) || press->language_count == PRESS_LANGUAGES_MOST ||
        !file_is_folder(file_join(&press->arena, folder, language))) {
        diag_report(diag, DIAG_ERROR, "unknown-language", at,
                    "there is no wording for language '%s'; each is a folder of templates/wording",
                    language);
        return NULL;
    }
    const struct wording *words = catalogue_read(
        folder, language, press->has_desk_words ? NULL : "desk.yaml", &press->arena, diag);
    if (words)
        press->words[press->language_count++] = words;
    return words;
}

const struct sheet_template *press_kind(struct press *press, int kind, struct diag *diag)
{
    const char *word = bind_choice_word(sheet_choices, kind);
    if (!press->kinds[kind]) {
        const char *name = arena_format(&press->arena, "sheets/%s.yaml", word);
        press->kinds[kind] = sheet_template_read(
            file_join(&press->arena, press->resources->templates, name), word, &press->arena, diag);
    }
    return press->kinds[kind];
}

const struct approval_digests *press_digests(struct press *press, struct diag *diag)
{
    if (!press->has_digests)
        press->has_digests =
            approval_read_shared(press->resources, &press->arena, diag, &press->digests);
    return press->has_digests ? &press->digests : NULL;
}

bool press_approval(struct press *press, const struct care_plan *plan, struct arena *arena,
                    struct diag *diag, struct approval *out)
{
    struct approval_digests own;
    *out = (struct approval){0};
    if (!approval_has_digest(&plan->visit->signed_off))
        return true; /* most records on their way to the veterinarian */
    if (!press_digests(press, diag) || !approval_digest(plan, &press->digests, arena, diag, &own))
        return false;
    approval_compare(&plan->visit->signed_off, &own, out);
    if (out->is_stale)
        approval_tell_stale(out, arena, diag);
    return true;
}
