/* `baskleaf check`: a file by its kind, a data folder as a whole, and the formats themselves. */
#include <string.h>

#include "base/messages.h"
#include "batch/packet.h"
#include "check/data_check.h"
#include "context/visit_plan.h"
#include "cli/tell_review.h"
#include "records/species_values.h"
#include "records/steps.h"
#include "records/mail_settings.h"
#include "records/roster.h"
#include "records/sheet_template.h"
#include "render/drawable.h"
#include "render/render.h"
#include "words/wording.h"

/* What kind of file it is shows in its keys. */
struct file_kind {
    const char *name; /* for --schema and --format; NULL: another key of the kind above */
    const char *key;  /* a key that only this kind has at its top */
    const struct schema *schema;
    void (*check)(struct run *run, struct node *tree, const char *path);
    bool is_drawn; /* its texts stand on sheets */
};

static void check_letters(struct run *run, const struct node *tree);
static void check_visit(struct run *run, struct node *tree, const char *path);
static void check_species(struct run *run, struct node *tree, const char *path);
static void check_unlisted(struct run *run, struct node *tree, const char *path);
static void check_clinic(struct run *run, struct node *tree, const char *path);
static void check_look(struct run *run, struct node *tree, const char *path);
static void check_sheet(struct run *run, struct node *tree, const char *path);
static void check_language(struct run *run, struct node *tree, const char *path);

static const struct file_kind file_kinds[] = {
    {"visit", "patient", &visit_schema, check_visit, false},
    {NULL, "visit", &visit_schema, check_visit, false},
    {"species", "species", &species_schema, check_species, true},
    {"unlisted", "groups", &unlisted_animals_schema, check_unlisted, false},
    {"findings", "findings", &finding_catalogue_schema, NULL, false},
    {"signs", "signs", &sign_catalogue_schema, NULL, false},
    {"rules", "rules", &rule_book_schema, NULL, false},
    {"topics", "topics", &topic_catalogue_schema, NULL, false},
    {"settlements", "settlements", &settlement_book_schema, NULL, false},
    {"instructions", "instructions", &instruction_catalogue_schema, NULL, false},
    {"steps", "steps", &step_book_schema, NULL, false},
    {"reference-values", "uv-zones", &reference_values_schema, NULL, false},
    {"foods", "never", &foods_schema, NULL, false},
    {"value-uses", "uses", &value_uses_schema, NULL, false},
    {"clinic", "telephone", &clinic_schema, check_clinic, true},
    {"mail-settings", "host", &mail_settings_schema, NULL, false},
    {"look", "colours", &look_schema, check_look, false},
    {"sheet", "sections", &sheet_template_schema, check_sheet, true},
    {"language", "reading-ease", &language_schema, check_language, false},
};

/* The language of the sheet is one that there are words for. */
static bool has_words(struct run *run, const struct resources *resources, const struct visit *visit)
{
    struct sheet_context context = {.resources = resources};
    const struct text_value *language = &visit->keeper.language;
    arena_init(&context.arena);
    bool good =
        !language->text || sheet_context_words(&context, language->text, language->at, &run->diag);
    arena_finish(&context.arena);
    return good;
}

static void check_visit(struct run *run, struct node *tree, const char *path)
{
    const struct visit *visit = visit_read_tree(tree, path, run->today, &run->arena, &run->diag);
    struct resources resources;
    if (visit)
        check_letters(run, visit->tree);
    if (!visit || !command_resources(run, &resources))
        return;
    const struct visit_record *record = visit_plan_make(&resources, visit, &run->arena, &run->diag);
    struct telling telling = {.run = run, .resources = &resources};
    if (record && has_words(run, &resources, visit))
        tell_review(&telling, record->plan, TOLD_ALL, "to look at before signing: ");
}

static void check_species(struct run *run, struct node *tree, const char *path)
{
    (void)tree;
    const struct species *species = species_read(path, &run->arena, &run->diag);
    if (!species)
        return;
    const struct species_review *review = &species->review;
    const char *line =
        arena_format(&run->arena, "%s: trust %d %%: %zu of %zu values are published or confirmed\n",
                     path, species_trust_percent(review), review->founded, review->count);
    command_print(run, line, strlen(line));
}

static void check_unlisted(struct run *run, struct node *tree, const char *path)
{
    (void)tree;
    unlisted_read(path, &run->arena, &run->diag);
}

static void check_clinic(struct run *run, struct node *tree, const char *path)
{
    (void)tree;
    const struct clinic *clinic = clinic_read(path, &run->arena, &run->diag);
    if (clinic && clinic->hours_text.count > 0)
        diag_report_path(&run->diag, DIAG_REMARK, "hours-as-text",
                         LIST_AT(clinic->hours_text, struct text_value, 0)->at, "hours",
                         "are free lines, printed as they stand in every language, and no check is "
                         "moved off a closed day; write {mon-fri: \"8:00-18:00\", sat: "
                         "\"9:00-13:00\"}");
}

static void check_look(struct run *run, struct node *tree, const char *path)
{
    (void)tree;
    look_read(path, &run->arena, &run->diag);
}

static void check_sheet(struct run *run, struct node *tree, const char *path)
{
    (void)tree;
    sheet_template_read(path, &run->arena, &run->diag);
}

/* The language is the folder's name, unless it is said. */
static void check_language(struct run *run, struct node *tree, const char *path)
{
    const struct wording_place place = wording_place_of(path, &run->arena);
    const char *lang = run->options.language ? run->options.language : place.lang;
    language_read_tree(tree, lang, &run->arena, &run->diag);
}

/* Sentences stand under keys with dots, as no other file has them at its top. */
static bool is_wording(const struct node *tree)
{
    for (size_t i = 0; tree->kind == NODE_MAP && i < tree->count; i++)
        if (strchr(tree->keys[i]->text, '.'))
            return true;
    return false;
}

/* The file of the language that has most in common with this one: the one with its first key. */
static const char *name_of_twin(struct run *run, const char *folder, const char *lang,
                                const struct node *tree)
{
    const struct wording *words = catalogue_read(folder, lang, NULL, &run->arena, &run->diag);
    for (size_t i = 0; words && i < tree->count; i++) {
        const struct wording_entry *entry = catalogue_find(words, tree->keys[i]->text);
        const char *name = entry ? strrchr(entry->at.file, '/') : NULL;
        if (name)
            return name + 1;
    }
    if (words)
        diag_report(&run->diag, DIAG_ERROR, "no-twin", tree->at,
                    "no key of this file stands in the language '%s'", lang);
    return NULL;
}

/* In the data folder itself, or beside a language.yaml of its own, a file stands in its own place;
 * anywhere else in the place of the one that the data has. */
static bool find_place(struct run *run, const char *own, const struct node *tree, const char *path,
                       struct wording_stand_in *out)
{
    const struct wording_place place = wording_place_of(path, &run->arena);
    const char *folder = file_join(&run->arena, place.folder, place.lang);
    const char *lang = run->options.language ? run->options.language : place.lang;
    *out = (struct wording_stand_in){place.lang, place.folder, place.file,
                                     file_join(&run->arena, folder, place.file)};
    if (file_exists(file_join(&run->arena, folder, LANGUAGE_FILE)))
        return true;
    if (!file_is_folder(file_join(&run->arena, own, lang))) {
        diag_report(&run->diag, DIAG_ERROR, "unknown-language", (struct mark){.file = path},
                    "whose words are these? Say --language with one of templates/wording, or lay "
                    "the file beside the language's " LANGUAGE_FILE);
        return false;
    }
    *out = (struct wording_stand_in){lang, NULL, place.file, path};
    if (!file_exists(file_join(&run->arena, file_join(&run->arena, own, lang), place.file)))
        out->name = name_of_twin(run, own, lang, tree);
    return out->name != NULL;
}

/* All that the check of a data folder would say, were the file in it. */
static void check_wording(struct run *run, const struct node *tree, const char *path)
{
    struct resources resources;
    struct wording_stand_in stand_in;
    const struct wording_place place = wording_place_of(path, &run->arena);
    /* a file of another data folder belongs to that one */
    if (!run->options.data && file_exists(file_join(&run->arena, place.folder, "../rules.yaml")))
        run->options.data = file_join(&run->arena, place.folder, "../..");
    if (!command_resources(run, &resources))
        return;
    const char *own = file_join(&run->arena, resources.templates, "wording");
    if (find_place(run, own, tree, path, &stand_in))
        data_check_run_with(&resources, &stand_in, run->today, &run->arena, &run->diag);
}

static void check_by_schema(struct run *run, const struct node *tree, const struct schema *schema)
{
    bind_record(tree, schema, "", &run->arena, &run->diag, arena_take(&run->arena, schema->size));
}

/* Letters that our fonts lack; the page of the desk is drawn by a browser. */
static void check_letters(struct run *run, const struct node *tree)
{
    const char *data = run->options.data ? run->options.data : resources_find_data(&run->arena);
    struct fonts *fonts =
        fonts_new(resources_find_fonts(data ? data : ".", &run->arena), &run->diag);
    if (fonts)
        drawable_check(tree, fonts_measure(fonts), "desk.", &run->diag);
    fonts_free(fonts);
}

static void tell_row(void *data, const struct care_plan *plan)
{
    tell_review(data, plan, TOLD_ASKED, "");
}

static void check_roster(struct run *run, const char *path)
{
    struct resources resources;
    struct telling telling = {.run = run, .resources = &resources};
    if (command_resources(run, &resources))
        packet_check(&resources, path, run->today, (struct packet_telling){tell_row, &telling},
                     &run->diag);
}

static void check_file(struct run *run, const char *path)
{
    if (roster_is_csv(path)) {
        check_roster(run, path);
        return;
    }
    struct node *tree = tree_read_file(path, &run->arena, &run->diag);
    if (!tree)
        return;
    if (roster_is_tree(tree)) {
        check_roster(run, path);
        return;
    }
    if (is_wording(tree)) {
        check_wording(run, tree, path);
        return;
    }
    for (size_t i = 0; i < sizeof file_kinds / sizeof *file_kinds; i++) {
        const struct file_kind *kind = &file_kinds[i];
        if (!tree_find(tree, kind->key))
            continue;
        if (kind->check)
            kind->check(run, tree, path);
        else
            check_by_schema(run, tree, kind->schema);
        if (!kind->check)
            data_check_sources_of(tree, &run->diag);
        if (kind->is_drawn)
            check_letters(run, tree);
        return;
    }
    diag_report(&run->diag, DIAG_ERROR, "unknown-kind-of-file", tree->at,
                "is none of the project's files: no visit, animals, species, findings, signs, "
                "rules, uv-zones, "
                "telephone, uses, colours, sections, reading-ease or keys with dots at its top");
}

/* A data folder as a whole: everything in it, and how it fits together. */
static void check_folder(struct run *run, const char *folder)
{
    struct resources resources;
    struct strbuf out;
    const struct places places = {
        .data_folder = folder,
        .clinic_file = run->options.clinic,
        .species_dir = resources_find_own_sheets(run->options.species_dir, &run->arena)};
    strbuf_init(&out, &run->arena);
    if (!file_exists(file_join(&run->arena, folder, "templates/rules.yaml")))
        diag_report(&run->diag, DIAG_ERROR, "no-data-folder", (struct mark){.file = folder},
                    "is a folder without templates/rules.yaml; name the folder that holds "
                    "templates and species-sheets, or files");
    else if (resources_read(&places, &run->arena, &run->diag, &resources))
        data_check_run(&resources, run->today, &run->arena, &run->diag, &out);
    command_print(run, out.text, out.length);
}

/* The kind a format was asked for by name, or NULL after a DIAG_USAGE that names them. */
static const struct schema *find_format(struct run *run, const char *name)
{
    const char *known = NULL;
    for (size_t i = 0; i < sizeof file_kinds / sizeof *file_kinds; i++) {
        const struct file_kind *kind = &file_kinds[i];
        if (!kind->name)
            continue;
        if (strcmp(kind->name, name) == 0)
            return kind->schema;
        known = known ? arena_format(&run->arena, "%s, %s", known, kind->name) : kind->name;
    }
    if (strcmp(name, "roster") == 0)
        return roster_format(&run->arena);
    known = arena_format(&run->arena, "%s, roster", known);
    diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0},
                "there is no format '%s'; these are: %s", name, known);
    return NULL;
}

/* The format of a kind of file: for people, or as JSON Schema for editors. */
static void print_format(struct run *run)
{
    bool for_editors = run->options.schema != NULL;
    const struct schema *schema =
        find_format(run, for_editors ? run->options.schema : run->options.format);
    struct strbuf out;
    strbuf_init(&out, &run->arena);
    if (!schema)
        return;
    if (for_editors)
        bind_write_json_schema(schema, &out);
    else
        bind_write_reference(schema, &out);
    command_print(run, out.text, out.length);
}

static void print_message(struct run *run, const char *name)
{
    struct strbuf out;
    strbuf_init(&out, &run->arena);
    if (!messages_write(name, &out))
        diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0},
                    "there is no message '%s'; write its number, such as B214, or all", name);
    command_print(run, out.text, out.length);
}

void command_check(struct run *run)
{
    if (run->options.message) {
        print_message(run, run->options.message);
        return;
    }
    if (run->options.schema || run->options.format) {
        print_format(run);
        return;
    }
    if (run->word_count == 0)
        diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0},
                    "name files or a data folder to check");
    for (int i = 0; i < run->word_count; i++) {
        int before = (int)run->diag.counts[DIAG_ERROR];
        if (file_is_folder(run->words[i]))
            check_folder(run, run->words[i]);
        else
            check_file(run, run->words[i]);
        if ((int)run->diag.counts[DIAG_ERROR] == before && !run->diag.counts[DIAG_FAULT]) {
            const char *line = arena_format(&run->arena, "%s: good\n", run->words[i]);
            command_print(run, line, strlen(line));
        }
    }
}
