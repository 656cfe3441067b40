/* Reads words and look the first time that they are asked for. */
#include "render/sheet_context.h"

#include <string.h>

#include "render/drawable.h"
#include "render/render.h"
#include "layout/logo_file.h"
#include "words/wording.h"

/* The clinic's logo beside its file; true where there is none. */
static bool read_logo(struct sheet_context *context, struct diag *diag)
{
    const struct clinic *clinic = context->resources->clinic;
    const char *path = clinic_logo_path(clinic, &context->arena);
    if (!path)
        return true;
    struct logo *logo = ARENA_NEW(&context->arena, struct logo);
    context->logo = logo;
    return logo_file_read(path, clinic->name.text, clinic->logo.at, &context->arena, diag, logo);
}

bool sheet_context_init(struct sheet_context *context, const struct resources *resources,
                        struct diag *diag)
{
    *context = (struct sheet_context){.resources = resources};
    arena_init(&context->arena);
    context->fonts = fonts_new(resources->fonts, diag);
    context->look = look_read(file_join(&context->arena, resources->templates, "look.yaml"),
                              &context->arena, diag);
    return read_logo(context, diag) && context->fonts && context->look;
}

void sheet_context_finish(struct sheet_context *context)
{
    fonts_free(context->fonts);
    arena_finish(&context->arena);
}

static bool is_plain_tag(const char *language)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ-";
    return *language && strspn(language, letters) == strlen(language);
}

const struct wording *sheet_context_words(struct sheet_context *context, const char *language,
                                          struct mark at, struct diag *diag)
{
    for (size_t i = 0; i < context->language_count; i++)
        if (strcmp(context->words[i]->lang, language) == 0)
            return context->words[i];
    const char *folder = file_join(&context->arena, context->resources->templates, "wording");
    const struct wording_stand_in *stand_in = context->stand_in;
    bool is_here = (stand_in && strcmp(stand_in->lang, language) == 0) ||
                   file_is_folder(file_join(&context->arena, folder, language));
    if (!is_plain_tag(language) || context->language_count == SHEET_CONTEXT_LANGUAGES_MOST ||
        !is_here) {
        diag_report(diag, DIAG_ERROR, "unknown-language", at,
                    "there is no wording for language '%s'; each is a folder of templates/wording",
                    language);
        return NULL;
    }
    const struct wording *words =
        wording_read_with(folder, language, context->has_desk_words ? NULL : WORDING_OF_DESK,
                          stand_in, &context->arena, diag);
    if (words)
        context->words[context->language_count++] = words;
    return words;
}

bool sheet_context_can_draw(const struct sheet_context *context, const struct node *tree,
                            struct diag *diag)
{
    return drawable_check(tree, fonts_measure(context->fonts), NULL, diag);
}

const struct signature_digests *sheet_context_digests(struct sheet_context *context,
                                                      struct diag *diag)
{
    if (!context->has_digests)
        context->has_digests = signature_read_shared(context->resources, context->fonts,
                                                     &context->arena, diag, &context->digests);
    return context->has_digests ? &context->digests : NULL;
}

bool sheet_context_signature(struct sheet_context *context, const struct visit_record *record,
                             const char *language, struct arena *arena, struct diag *diag,
                             struct signature *out)
{
    struct signature_digests own;
    *out = (struct signature){0};
    if (!signature_has_digest(&record->signature))
        return true; /* most records on their way to the veterinarian */
    if (!sheet_context_digests(context, diag) ||
        !signature_digest(record, &context->digests, arena, diag, &own))
        return false;
    signature_compare(&record->signature, &own, out);
    signature_compare_words(&record->signature, &own,
                            language ? language : record->plan->keeper.language.text, out);
    if (out->is_stale)
        signature_tell_stale(out, arena, diag);
    return true;
}
