/* Who it is, what cannot wait, the clinic's message, and the clinic's own paragraphs. */
#include "sheet/sections.h"

/* ---- the animal ------------------------------------------------------------------- */

struct animal_cell {
    const char *head_key;
    struct span *text;
};

static struct span *species_cell(struct composition *c)
{
    const char *name = plan_species_name(c->plan, c->ctx.format.words->lang);
    if (!c->plan->taxon.scientific)
        return span_plain(c->arena, text_capital(c->arena, name));
    struct span *text =
        span_plain(c->arena, arena_format(c->arena, "%s,", text_capital(c->arena, name)));
    struct span *scientific = span_plain(c->arena, c->plan->taxon.scientific);
    scientific->lang = "la";
    return span_join(c->arena, text, scientific);
}

static size_t add_cell(struct composition *c, struct animal_cell *cells, size_t count,
                       const char *head_key, const char *text)
{
    if (!text)
        return count;
    cells[count] = (struct animal_cell){head_key, span_plain(c->arena, text)};
    return count + 1;
}

static size_t collect_cells(struct composition *c, struct animal_cell *cells)
{
    const struct care_plan *plan = c->plan;
    const struct patient_plan *patient = &plan->patient;
    const struct format *f = &c->ctx.format;
    size_t count = 0;
    cells[count++] = (struct animal_cell){"sheet.head.species", species_cell(c)};
    if (patient->sex.known)
        count = add_cell(
            c, cells, count, "sheet.head.sex",
            phrase_code(&c->ctx, "sheet.sex", bind_choice_word(sex_choices, patient->sex.value)));
    if (patient->age_known && date_is_set(patient->hatched))
        count =
            add_cell(c, cells, count, "sheet.head.age", format_age(f, patient->hatched, plan->on));
    if (patient->has_mass)
        count = add_cell(c, cells, count, "sheet.head.weight", format_mass(f, patient->mass_g));
    if (patient->has_length)
        count =
            add_cell(c, cells, count, "sheet.head.length", format_length(f, patient->length_cm));
    count = add_cell(c, cells, count, "sheet.head.visit", format_date_short(f, plan->on));
    return add_cell(c, cells, count, "sheet.head.vet", plan->veterinarian);
}

/* Before anything else: that no number but the veterinarian's own stands here. */
static void warn_of_unlisted(struct composition *c, struct block_builder *out)
{
    if (!c->plan->taxon.is_unlisted)
        return;
    struct block_builder inside = builder_start(c->arena, out->section);
    builder_paragraph(&inside,
                      phrase(&c->ctx, c->plan->own_targets.any ? "sheet.unlisted.own-targets"
                                                               : "sheet.unlisted.no-targets"));
    builder_callout(out, CALLOUT_PLAIN, phrase(&c->ctx, "sheet.unlisted.title"), &inside);
}

void section_animal(struct composition *c, struct block_builder *out)
{
    enum { CELLS_MOST = 7 };
    struct animal_cell cells[CELLS_MOST];
    static const double as_wide_as_needed[CELLS_MOST] = {0};
    builder_heading(out, 1, phrase_code(&c->ctx, "sheet.title", c->sheet->kind.text));
    size_t count = collect_cells(c, cells);
    struct block *table = builder_table(out, as_wide_as_needed, count);
    struct table_row *head = table_add_head(c->arena, table);
    struct table_row *row = table_add_row(c->arena, table);
    for (size_t i = 0; i < count; i++) {
        row_add(c->arena, head, span_strong(c->arena, phrase(&c->ctx, cells[i].head_key)));
        row_add(c->arena, row, cells[i].text);
    }
    warn_of_unlisted(c, out);
}

/* ---- what cannot wait --------------------------------------------------------------- */

void section_go_now(struct composition *c, struct block_builder *out)
{
    if (!c->plan->go_now)
        return;
    struct block_builder inside = builder_start(c->arena, out->section);
    struct block *list = NULL;
    for (size_t i = 0; i < c->plan->finding_count; i++) {
        const struct finding_plan *finding = &c->plan->findings[i];
        if (!finding->is_urgent || finding->tier != TIER_NOW)
            continue;
        if (!list)
            list = builder_list(&inside, LIST_BULLETS);
        list_add(c->arena, list, span_plain(c->arena, section_finding_name(c, finding)));
    }
    builder_paragraph(&inside, phrase(&c->ctx, "sheet.go-now.call"));
    builder_callout(out, CALLOUT_NOW, phrase(&c->ctx, "sheet.go-now.title"), &inside);
}

void section_message(struct composition *c, struct block_builder *out)
{
    const char *text = c->plan->message;
    if (!text)
        return;
    struct block_builder inside = builder_start(c->arena, out->section);
    builder_paragraph(&inside, text);
    builder_callout(out, CALLOUT_PLAIN, phrase(&c->ctx, "sheet.message.title"), &inside);
}

void section_own(struct composition *c, struct block_builder *out)
{
    const char *lang = c->ctx.format.words->lang;
    const char *title = named_text_find(&c->entry->title, lang);
    const char *text = named_text_find(&c->entry->text, lang);
    if (!text)
        return;
    if (title)
        builder_heading(out, 2, title);
    builder_paragraph(out, text);
}

void section_page_break(struct composition *c, struct block_builder *out)
{
    (void)c;
    builder_add(out, BLOCK_PAGE_BREAK);
}
