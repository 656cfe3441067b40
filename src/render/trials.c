/* A sheet composed in the language, units and paper that are asked for, and tried out. */
#include <string.h>

#include "render/trials.h"
#include "words/slots.h"

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

/* The keys under which the changed parts are worded. */
static size_t changed_keys(const struct signature *signature, struct arena *arena,
                           const char *const **out)
{
    const char **keys = ARENA_ARRAY(arena, const char *, SIGNATURE_PART_COUNT);
    size_t count = 0;
    for (int i = 0; i < SIGNATURE_PART_COUNT && signature->is_stale; i++)
        if (signature->changed[i])
            keys[count++] = signature_part_word((enum signature_part)i);
    *out = keys;
    return count;
}

/* In the language that was asked for, else the keeper's or the clinic's. */
static const struct wording *words_for(const struct sheet_inputs *in, struct diag *diag)
{
    const struct text_value wished = {.text = in->options->language}; /* has no place in a file */
    const struct text_value *language = wished.text ? &wished : &in->plan->keeper.language;
    return sheet_context_words(in->context, language->text, language->at, diag);
}

/* A sheet in one language does not name its animal in another. */
static bool has_name(const struct taxon_plan *species, const char *lang, struct diag *diag)
{
    if (species->is_unlisted || plan_name_in(species, lang))
        return true;
    diag_report_path(diag, DIAG_ERROR, "no-name", species->names_at, "species.names",
                     "'%s' has no name in '%s'; write it here", species->code, lang);
    return false;
}

/* NULL after errors. */
const struct sheet_template *trial_kind(const struct sheet_inputs *in, struct diag *diag)
{
    const struct text_value kind = {.text = in->options->kind ? in->options->kind : in->plan->kind};
    return sheet_kinds_need(&in->context->resources->kinds, &kind,
                            in->options->kind ? "--kind" : "visit.kind", diag);
}

bool trial_compose(const struct sheet_inputs *in, const struct savings *savings,
                   struct arena *arena, struct diag *diag, struct document *out)
{
    const struct care_plan *plan = in->plan;
    const struct sheet_options *options = in->options;
    const struct signature *signature = in->signature;
    struct choice_value units = {.value = (int)plan->keeper.units},
                        paper = {.value = (int)plan->letterhead.paper};
    if (!read_wish(options->paper, paper_choices, "paper", &paper, arena, diag) ||
        !read_wish(options->units, unit_system_choices, "units", &units, arena, diag))
        return false;
    struct compose_inputs inputs = {
        .plan = plan,
        .words = words_for(in, diag),
        .sheet = trial_kind(in, diag),
        .look = in->context->look,
        .units = (enum unit_system)units.value,
        .logo = in->context->logo,
        .said = savings->is_trial ? NULL : options->said,
        .paper = (enum clinic_paper)paper.value,
        .live_links = options->live_links,
        .is_signed = signature->is_signed,
        .signed_by = signature->by,
        .signed_on = signature->on,
        .brief_count = savings->brief,
        .steps_most = savings->steps,
        .wide = savings->wide,
        .to_edges = savings->to_edges,
        .inset_pt = savings->inset_pt,
        .whys = savings->whys,
        .message = savings->message,
        .message_is_small = savings->message_is_small,
        .medicines = savings->medicines,
        .lines = savings->lines,
        .cuts = savings->cuts,
        .says_key = savings->says_key,
        .says_known = savings->says_known,
        .closeness = savings->closeness,
        .moves_up = savings->moves_up,
        .without_normal = savings->without_normal,
        .first_page = savings->first_page,
        .is_trial = savings->is_trial,
        .kept = savings->kept,
    };
    memcpy(inputs.opened, savings->opened, sizeof inputs.opened);
    inputs.changed_count = changed_keys(signature, arena, &inputs.changed);
    if (!inputs.words || !inputs.sheet || !has_name(&plan->taxon, inputs.words->lang, diag) ||
        !compose_sheet(&inputs, arena, diag, out))
        return false;
    out->is_locked = options->is_locked;
    out->record_id = savings->is_trial ? NULL : sheet_record_id(plan, arena);
    return true;
}

bool sheet_compose(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
                   struct document *out)
{
    const struct savings none = {.steps =
                                     STEPS_MOST}; /* what stands where there is room, nowhere */
    return trial_compose(in, &none, arena, diag, out);
}

bool sheet_phrase_context(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
                          struct phrase_context *out)
{
    const struct care_plan *plan = in->plan;
    const struct sheet_options *options = in->options;
    struct choice_value units = {.value = (int)plan->keeper.units};
    if (!read_wish(options->units, unit_system_choices, "units", &units, arena, diag))
        return false;
    const struct wording *words = words_for(in, diag);
    if (!words)
        return false;
    *out = slots_context(
        (struct format){words, (enum unit_system)units.value, arena, diag, 0, false}, plan);
    return true;
}

/* Links part the texts, so that no block of a trial stands in the next. */
static void forget_blocks(const struct laying *l, const struct document *document)
{
    if (document->look.live_links)
        l->texts->diagrams = NULL;
}

bool trial_lay(const struct laying *l, const struct savings *savings, struct paged *out)
{
    struct document *document = ARENA_NEW(l->texts->arena, struct document);
    struct savings laid = *savings;
    /* what is said is noted while it is written */
    laid.kept = l->is_panels && !l->in->options->said ? l->kept : NULL;
    if (!trial_compose(l->in, &laid, l->texts->arena, l->diag, document))
        return false;
    forget_blocks(l, document);
    return layout_document(document, l->texts, l->diag, out);
}

/* How many of those pages take all that stands on them. False after errors. */
bool trial_from(const struct laying *l, const struct savings *savings, struct pages_asked asked,
                size_t *taken, bool *fits)
{
    struct savings tried = *savings;
    struct document document;
    arena_reset(l->trials);
    tried.is_trial = true;
    tried.kept = l->kept;
    if (!trial_compose(l->in, &tried, l->trials, l->diag, &document))
        return false;
    forget_blocks(l, &document);
    *taken = layout_pages_taken(&document, asked, l->texts, l->trials, l->diag, fits);
    return true;
}

/* Whether pages that are filled take it all; false after errors. */
bool trial_out(const struct laying *l, const struct savings *savings, bool *fits)
{
    size_t taken;
    return trial_from(l, savings, (struct pages_asked){0, 0}, &taken, fits);
}

/* Likewise, with so many further ones. */
bool trial_further(const struct laying *l, const struct savings *savings, size_t further,
                   bool *fits)
{
    size_t taken;
    return trial_from(l, savings, (struct pages_asked){0, further}, &taken, fits);
}
