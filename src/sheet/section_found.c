/* What was looked at and what it means, and what was done. */
#include "sheet/sections.h"

#include <string.h>

/* ---- findings ---------------------------------------------------------------------- */

static struct phrase_context finding_context(const struct composition *c,
                                             const struct finding_plan *finding)
{
    struct phrase_context ctx = c->ctx;
    ctx.where = finding->where;
    return ctx;
}

const char *section_degree(const struct phrase_context *ctx, const struct finding_plan *finding)
{
    if (finding->is_as_it_is)
        return NULL;
    if (finding->has_steps)
        return finding->step ? phrase_code(ctx, "severity", finding->step) : NULL;
    return phrase_code(ctx, "severity", bind_choice_word(severity_choices, (int)finding->severity));
}

const char *section_finding_name(struct composition *c, const struct finding_plan *finding)
{
    struct phrase_context ctx = finding_context(c, finding);
    const char *name = phrase_part(&ctx, "finding", finding->code, "name");
    if (!finding->is_suspected || finding->is_name_doubt)
        return name;
    name = section_with_text(c, "sheet.finding-perhaps", "name", text_small(c->arena, name));
    return text_capital(c->arena, name);
}

const char *section_meaning(struct composition *c, const struct finding_plan *finding)
{
    struct phrase_context ctx = finding_context(c, finding);
    const char *meaning = phrase_part(&ctx, "finding", finding->code, "meaning");
    return finding->is_suspected ? section_with_text(c, "sheet.finding-suspected", "meaning",
                                                     text_small(c->arena, meaning))
                                 : meaning;
}

const char *section_why(struct composition *c, const struct action_reason *reason)
{
    static const char of[] = "finding:";
    for (size_t i = 0; i < c->plan->finding_count; i++) {
        const struct finding_plan *finding = &c->plan->findings[i];
        if (finding->is_suspected && strncmp(reason->from, of, strlen(of)) == 0 &&
            strcmp(reason->from + strlen(of), finding->code) == 0)
            return section_with_text(c, "sheet.finding-why", "name",
                                     section_finding_name(c, finding));
    }
    return phrase_code(&c->ctx, "why", reason->rule);
}

const char *section_home(struct composition *c, struct phrase_context *ctx,
                         const struct finding_plan *finding)
{
    return phrase(ctx, arena_format(c->arena, "finding.%s.home", finding->code));
}

const char *section_note(struct composition *c, const struct finding_plan *finding)
{
    const char *note = text_ended(c->arena, finding->note);
    /* nobody writes as a veterinarian who has not looked */
    const char *key =
        finding->state == STATE_UNSEEN || (finding->state == STATE_GO_NOW && !c->plan->veterinarian)
            ? "sheet.finding-note-unseen"
            : "sheet.finding-note";
    return section_with_text(c, key, "note", note);
}

static struct span *found_cell(struct composition *c, const struct finding_plan *finding)
{
    struct phrase_context ctx = finding_context(c, finding);
    struct plan_fact severity = {
        .name = "severity",
        .kind = FACT_TEXT,
        .text = section_degree(&ctx, finding),
    };
    struct span *text = span_strong(c->arena, section_finding_name(c, finding));
    ctx.facts = severity.text ? &severity : NULL; /* what has no degree says none */
    const char *place = phrase_if_known(&ctx, "sheet.finding-place");
    return place ? span_below(c->arena, text, span_plain(c->arena, place)) : text;
}

static void add_found_row(struct composition *c, struct block *table,
                          const struct finding_plan *finding)
{
    struct arena *arena = c->arena;
    struct phrase_context ctx = finding_context(c, finding);
    struct table_row *row = table_add_row(arena, table);
    row_add(arena, row, found_cell(c, finding))->is_row_head = true;
    struct span *means = span_plain(arena, section_meaning(c, finding));
    if (finding->note)
        means = span_join(arena, means, span_plain(arena, section_note(c, finding)));
    row_add(arena, row, means);
    row_add(arena, row, span_plain(arena, section_home(c, &ctx, finding)));
}

static bool has_something_found(const struct composition *c)
{
    for (size_t i = 0; i < c->plan->finding_count; i++)
        if (c->plan->findings[i].severity != SEVERITY_NORMAL)
            return true;
    return false;
}

static struct span *fine_sentences(struct composition *c)
{
    struct span *text = NULL;
    for (size_t i = 0; i < c->plan->finding_count; i++) {
        const struct finding_plan *finding = &c->plan->findings[i];
        if (finding->severity != SEVERITY_NORMAL)
            continue;
        struct phrase_context ctx = finding_context(c, finding);
        const char *sentence = phrase_part(&ctx, "finding", finding->code, "normal");
        text = span_join(c->arena, text, span_plain(c->arena, sentence));
        if (finding->note)
            text = span_join(c->arena, text, span_plain(c->arena, section_note(c, finding)));
    }
    return text;
}

/* The names alone, each with a full stop, for a compact sheet; notes stand whole. */
static const char *fine_names(struct composition *c)
{
    const char *names = "", *notes = "";
    for (size_t i = 0; i < c->plan->finding_count; i++) {
        const struct finding_plan *finding = &c->plan->findings[i];
        if (finding->severity != SEVERITY_NORMAL)
            continue;
        const char *name = section_finding_name(c, finding);
        names = arena_format(c->arena, "%s%s%s.", names, *names ? " " : "", name);
        if (finding->note)
            notes = arena_format(c->arena, "%s %s", notes, section_note(c, finding));
    }
    return *names ? arena_format(c->arena, "%s%s", names, notes) : NULL;
}

static bool add_fine(struct composition *c, struct block_builder *out, bool names)
{
    const char *listed = names ? fine_names(c) : NULL;
    struct span *fine = listed ? span_plain(c->arena, listed) : fine_sentences(c);
    if (fine)
        builder_spans(
            out,
            span_join(c->arena, span_strong(c->arena, phrase(&c->ctx, "sheet.found.fine")), fine),
            PARAGRAPH_BODY);
    return fine != NULL;
}

/* Beside something found, what is fine stands with what is normal, or on a compact sheet here with
 * its names alone, so that page one has room for what to change. */
void section_found(struct composition *c, struct block_builder *out)
{
    static const double shares[] = {0.25, 0.4, 0.35};
    static const char *const heads[] = {"sheet.head.found", "sheet.head.meaning",
                                        "sheet.head.home"};
    section_title(c, out, "sheet.found.title");
    struct block *table = NULL;
    for (size_t i = 0; i < c->plan->finding_count; i++) {
        if (c->plan->findings[i].severity == SEVERITY_NORMAL)
            continue;
        if (!table) {
            table = builder_table(out, shares, 3);
            section_head(c, table, heads, 3);
        }
        add_found_row(c, table, &c->plan->findings[i]);
    }
    const char *weight = phrase_if_known(&c->ctx, "sheet.weight.since");
    if (weight)
        builder_paragraph(out, weight);
    if (table && c->sheet->compact.value)
        add_fine(c, out, true);
    else if (!table && !add_fine(c, out, false))
        builder_paragraph(out, phrase(&c->ctx, "sheet.found.none"));
}

/* ---- normal for the species ------------------------------------------------------------ */

static const char *normal_text(struct composition *c, size_t i)
{
    return phrase_code(&c->ctx, "normal", c->plan->taxon.normal[i]);
}

/* Nobody may wait for that who has to go at once. */
const char *section_normal_now(struct composition *c)
{
    return c->plan->go_now ? "" : phrase(&c->ctx, "normal.now");
}

/* In brief nothing: the species' other sheets say it. */
void section_normal(struct composition *c, struct block_builder *out)
{
    const size_t count = c->plan->taxon.normal_count;
    bool fine = !c->sheet->compact.value && has_something_found(c) && fine_sentences(c);
    if (section_in_brief(c) || (count == 0 && !fine))
        return;
    section_title(c, out, "sheet.normal.title");
    if (fine)
        add_fine(c, out, false);
    if (count == 0)
        return;
    struct block *list = builder_list(out, LIST_BULLETS);
    if (*section_normal_now(c))
        list_add(c->arena, list, span_plain(c->arena, section_normal_now(c)));
    for (size_t i = 0; i < count; i++)
        if (*normal_text(c, i)) /* what is of the other sex is none of its own */
            list_add(c->arena, list, span_plain(c->arena, normal_text(c, i)));
}

/* ---- what was done ------------------------------------------------------------- */

/* Its day among the dates: the clinic is open then, whatever day was written. */
static struct date check_day(struct composition *c, const struct procedure_plan *done)
{
    const char *name = arena_format(c->arena, "procedure.%s.name", done->code);
    for (size_t i = 0; i < c->plan->date_count; i++) {
        const struct plan_date *one = &c->plan->dates[i];
        if (strcmp(one->what, "check-after") == 0 && one->facts && one->facts->text &&
            strcmp(one->facts->text, name) == 0)
            return one->on;
    }
    return done->check;
}

const char *section_care(struct composition *c, const struct procedure_plan *done)
{
    struct plan_fact check = {.name = "check", .kind = FACT_TEXT};
    struct plan_fact in_water = {.name = "in-water", .kind = FACT_TEXT};
    struct phrase_context ctx = c->ctx;
    if (done->has_check) {
        check.text = format_date_day(&ctx.format, check_day(c, done));
        ctx.facts = &check;
    }
    if (done->in_water) {
        in_water.text = phrase_code(&c->ctx, "dressing", done->in_water);
        in_water.next = done->has_check ? &check : NULL;
        ctx.facts = &in_water;
    }
    const char *care = phrase_part(&ctx, "procedure", done->code, "care");
    if (!care || !*care)
        return NULL;
    const char *how = bind_choice_word(result_by_choices, (int)done->result_by);
    if (!done->awaits_result)
        return care;
    const char *result =
        done->has_result
            ? section_with_date(c, arena_format(c->arena, "sheet.awaited.%s", how), done->result)
            : phrase(&c->ctx, "sheet.awaited.soon");
    return arena_format(c->arena, "%s %s", care, result);
}

bool section_has_care(struct composition *c)
{
    for (size_t i = 0; i < c->plan->procedure_count; i++)
        if (section_care(c, &c->plan->procedures[i]))
            return true;
    return false;
}

static void add_aftercare_pairs(struct composition *c, struct block_builder *out)
{
    struct block *pairs = section_pairs(c, out, 0.2);
    for (size_t i = 0; i < c->plan->procedure_count; i++) {
        const char *code = c->plan->procedures[i].code;
        const char *care = section_care(c, &c->plan->procedures[i]);
        if (care)
            section_pair(c, pairs, phrase_part(&c->ctx, "procedure", code, "name"), care);
    }
}

void section_aftercare(struct composition *c, struct block_builder *out)
{
    if (!section_has_care(c))
        return;
    section_title(c, out, "sheet.aftercare.title");
    if (c->sheet->compact.value) {
        add_aftercare_pairs(c, out);
        return;
    }
    struct block *list = builder_list(out, LIST_BULLETS);
    for (size_t i = 0; i < c->plan->procedure_count; i++) {
        const char *code = c->plan->procedures[i].code;
        const char *name = section_with_text(c, "sheet.run-in", "name",
                                             phrase_part(&c->ctx, "procedure", code, "name"));
        const char *care = section_care(c, &c->plan->procedures[i]);
        if (care)
            list_add(c->arena, list,
                     span_join(c->arena, span_strong(c->arena, name), span_plain(c->arena, care)));
    }
}
