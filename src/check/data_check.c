/* Runs the checks over a data folder; tries the examples and scores how easily their sheets
 * read. */
#include "check/data_check.h"

#include <string.h>

#include "records/species_values.h"
#include "render/render.h"
#include "context/visit_plan.h"
#include "document/text_export.h"
#include "words/readability.h"

/* ---- trust ----------------------------------------------------------------------------------- */

static void tell_trust(const struct data_check *p)
{
    strbuf_add(p->out, "species sheets: the share of values that are published or confirmed\n");
    for (size_t i = 0; i < p->library.count; i++) {
        const struct species *species = p->library.items[i];
        strbuf_addf(p->out, "  %-24s %3d %%  %zu of %zu\n", species->code.text,
                    species_trust_percent(&species->review), species->review.founded,
                    species->review.count);
    }
}

/* ---- the whole --------------------------------------------------------------------------------
 */

static bool add_words(struct data_check *p, const char *lang, const char *folder)
{
    const struct wording *words =
        sheet_context_words(p->context, lang, (struct mark){.file = folder}, p->diag);
    if (words)
        p->words[p->language_count++] = words;
    return words != NULL;
}

static bool read_words(struct data_check *p)
{
    const char *folder = file_join(p->arena, p->resources->templates, "wording");
    const char **names = NULL;
    size_t count = file_list(folder, "", p->arena, p->diag, &names);
    p->words = ARENA_ARRAY(p->arena, const struct wording *, count + 2);
    bool good = count > 0;
    const struct wording_stand_in *stand_in = p->context->stand_in;
    bool is_new = stand_in != NULL;
    for (size_t i = 0; i < count; i++) {
        good = add_words(p, names[i], folder) && good;
        is_new = is_new && strcmp(names[i], stand_in->lang) != 0;
    }
    return is_new ? add_words(p, stand_in->lang, folder) && good : good;
}

static void run_checks(struct data_check *p)
{
    bool has_library = library_read(p->resources->species_sheets, p->resources->places.species_dir,
                                    p->arena, p->diag, &p->library);
    if (!read_words(p) || !has_library || diag_failed(p->diag))
        return;
    data_check_words(p);
    data_check_languages(p);
    data_check_signs(p);
    data_check_rules(p);
    data_check_sources(p);
    data_check_declared(p);
    data_check_topics(p);
    data_check_links(p);
    data_check_examples(p);
    tell_trust(p);
}

static void check_all(const struct resources *resources, const struct wording_stand_in *stand_in,
                      struct date today, struct arena *arena, struct diag *diag, struct strbuf *out)
{
    struct sheet_context context;
    struct data_check check = {.resources = resources,
                               .context = &context,
                               .today = today,
                               .arena = arena,
                               .diag = diag,
                               .out = out};
    if (sheet_context_init(&context, resources, diag)) {
        context.has_desk_words = true;
        context.stand_in = stand_in;
        run_checks(&check);
    }
    sheet_context_finish(&context);
}

void data_check_run(const struct resources *resources, struct date today, struct arena *arena,
                    struct diag *diag, struct strbuf *out)
{
    check_all(resources, NULL, today, arena, diag, out);
}

/* What is merely unused or untried in the folder is no matter of the file. */
void data_check_run_with(const struct resources *resources, const struct wording_stand_in *stand_in,
                         struct date today, struct arena *arena, struct diag *diag)
{
    struct strbuf tables;
    struct diag all;
    strbuf_init(&tables, arena);
    diag_init(&all);
    check_all(resources, stand_in, today, arena, &all, &tables);
    for (const struct diag_message *m = all.first; m; m = m->next)
        if (m->severity != DIAG_REMARK)
            diag_report_path(diag, m->severity, m->code, m->at, m->path, "%s", m->text);
    diag_finish(&all);
}

/* ---- reading ease -------------------------------------------------------------------------------
 */

enum { FEWEST_WORDS = 30 }; /* of a section that can be judged */

static const struct reading_formula *formula_of(const struct wording *words)
{
    return readability_formula(words->language->reading_ease.value);
}

/* The score of a text; false for too few words. */
static bool measure(const char *text, const struct reading_formula *formula, double *value)
{
    struct text_counts counts = readability_count(text, formula->syllables);
    if (counts.words < FEWEST_WORDS)
        return false;
    *value = formula->score(&counts);
    return true;
}

static bool is_hard(double value, const struct reading_formula *formula, bool whole)
{
    double limit = whole ? formula->sheet_limit : formula->section_limit;
    return limit > 0 && (formula->more_is_harder ? value > limit : value < limit);
}

static void judge_text(const struct data_check *p, const struct document *document,
                       const struct reading_formula *formula, const char *file, const char *section)
{
    struct strbuf text;
    double value = 0;
    strbuf_init(&text, p->arena);
    text_export_sentences(document, section, &text);
    if (!measure(text.text, formula, &value))
        return;
    const char *what = section ? section : "the whole sheet";
    strbuf_addf(p->out, "  %-16s %-5s %5.1f\n", what, document->lang, value);
    if (is_hard(value, formula, section == NULL))
        diag_report(p->diag, DIAG_ERROR, "hard-to-read", (struct mark){.file = file},
                    "%s is too hard to read in '%s' (%.1f): shorter sentences and words", what,
                    document->lang, value);
}

static void judge_document(const struct data_check *p, const struct document *document,
                           const struct wording *words, const char *file)
{
    const struct reading_formula *formula = formula_of(words);
    if (!formula)
        return;
    strbuf_addf(p->out, "%s: reading ease by section (%s)\n", file,
                bind_choice_word(reading_ease_choices, words->language->reading_ease.value));
    judge_text(p, document, formula, file, NULL);
    /* a list of publications has the words of their titles */
    for (const struct choice *section = sheet_section_choices; section->word; section++)
        if (section->value != SECTION_SOURCE_LINE)
            judge_text(p, document, formula, file, section->word);
}

/* ---- examples
 * ------------------------------------------------------------------------------------- */

static void add_rules(const struct care_plan *plan, const struct rule_book *book, const char *name,
                      const char **fired_by)
{
    for (size_t i = 0; i < book->rules.count; i++) {
        const char *rule = LIST_AT(book->rules, struct rule, i)->name.text;
        for (size_t k = 0; k < plan->action_count && !fired_by[i]; k++)
            for (const struct action_reason *r = plan->actions[k].reasons; r; r = r->next)
                if (strcmp(r->rule, rule) == 0)
                    fired_by[i] = name;
    }
}

static void try_example(const struct data_check *p, const char *path, const char *name,
                        const char **fired_by)
{
    const struct visit_record *record =
        visit_plan_read(p->resources, path, p->today, p->arena, p->diag);
    if (!record)
        return;
    const struct care_plan *plan = record->plan;
    add_rules(plan, p->resources->rules, name, fired_by);
    const struct signature none = {0};
    for (size_t i = 0; i < p->language_count; i++) {
        struct document document;
        const struct sheet_options options = {.language = p->words[i]->lang};
        const struct sheet_inputs in = {p->context, plan, &options, &none};
        if (sheet_compose(&in, p->arena, p->diag, &document))
            judge_document(p, &document, p->words[i], path);
    }
}

static void tell_rules(const struct data_check *p, const char *const *fired_by)
{
    const struct list *rules = &p->resources->rules->rules;
    strbuf_add(p->out, "rules, and the first example that fires each\n");
    for (size_t i = 0; i < rules->count; i++) {
        const struct rule *rule = LIST_AT(*rules, struct rule, i);
        strbuf_addf(p->out, "  %-24s %s\n", rule->name.text, fired_by[i] ? fired_by[i] : "-");
        if (!fired_by[i])
            diag_report(p->diag, DIAG_REMARK, "untried-rule", rule->at,
                        "no example in templates/visits fires '%s'", rule->name.text);
    }
}

void data_check_examples(const struct data_check *check)
{
    const char *folder = file_join(check->arena, check->resources->templates, "visits");
    const char **names = NULL;
    size_t count = file_list(folder, ".yaml", check->arena, check->diag, &names);
    const char **fired_by =
        ARENA_ARRAY(check->arena, const char *, check->resources->rules->rules.count + 1);
    for (size_t i = 0; i < count; i++)
        try_example(check, file_join(check->arena, folder, names[i]), names[i], fired_by);
    tell_rules(check, fired_by);
}
