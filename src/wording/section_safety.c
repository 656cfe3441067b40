/* Warning signs with whom to call, cautions, the law. */
#include "wording/sections.h"

/* ---- warning signs ------------------------------------------------------------------ */

static size_t count_signs(const struct care_plan *plan, enum tier tier)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->warning_count; i++)
        count += plan->warnings[i].tier == tier;
    return count;
}

/* A sign a line, the animal's own in strong type. */
static struct span *signs_text(struct composition *c, enum tier tier, size_t from, size_t to)
{
    struct span *text = NULL;
    size_t at = 0;
    for (size_t i = 0; i < c->plan->warning_count; i++) {
        const struct warning *warning = &c->plan->warnings[i];
        if (warning->tier != tier)
            continue;
        if (at >= from && at < to) {
            const char *sign = say_code(&c->speech, "sign", warning->code);
            struct span *span =
                warning->own ? span_strong(c->arena, sign) : span_plain(c->arena, sign);
            text = span_below(c->arena, text, span);
        }
        at++;
    }
    return text;
}

static void add_tier_row(struct composition *c, struct block *table, enum tier tier)
{
    size_t count = count_signs(c->plan, tier);
    if (count == 0)
        return;
    const char *word = bind_choice_word(tier_choices, (int)tier);
    struct table_row *row = table_add_row(c->arena, table);
    struct table_cell *head = row_add_head(c->arena, row, say_code(&c->speech, "tier", word));
    span_below(c->arena, head->text,
               span_plain(c->arena, say_code(&c->speech, "sheet.tier-call", word)));
    size_t half = (count + 1) / 2;
    row_add(c->arena, row, signs_text(c, tier, 0, half));
    row_add(c->arena, row, signs_text(c, tier, half, count));
}

static bool has_own_sign(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->warning_count; i++)
        if (plan->warnings[i].own)
            return true;
    return false;
}

void section_warnings(struct composition *c, struct chain *out)
{
    static const double shares[] = {0.24, 0.38, 0.38};
    static const char *const heads[] = {"sheet.head.when", "sheet.head.signs",
                                        "sheet.head.more-signs"};
    if (c->plan->warning_count == 0)
        return;
    section_title(c, out, "sheet.warnings.title");
    struct block *table = chain_table(out, shares, 3);
    section_head(c, table, heads, 3);
    for (int tier = TIER_NOW; tier < TIER_COUNT; tier++)
        add_tier_row(c, table, (enum tier)tier);
    if (has_own_sign(c->plan))
        table->as.table.caption = span_plain(c->arena, say(&c->speech, "sheet.warnings.own"));
}

/* ---- cautions -------------------------------------------------------------------------- */

static const char *caution_text(struct composition *c, size_t i)
{
    return say_code(&c->speech, "caution", c->plan->cautions[i]);
}

static void add_caution_table(struct composition *c, struct chain *out)
{
    static const double shares[] = {1};
    static const char *const heads[] = {"sheet.head.always"};
    struct block *table = chain_table(out, shares, 1);
    section_head(c, table, heads, 1);
    for (size_t i = 0; i < c->plan->caution_count; i++)
        row_add(c->arena, table_add_row(c->arena, table), span_plain(c->arena, caution_text(c, i)));
}

void section_cautions(struct composition *c, struct chain *out)
{
    if (c->plan->caution_count == 0)
        return;
    section_title(c, out, "sheet.cautions.title");
    if (c->sheet->compact.value) {
        add_caution_table(c, out);
        return;
    }
    struct block *list = chain_list(out, LIST_BULLETS);
    for (size_t i = 0; i < c->plan->caution_count; i++)
        list_add(c->arena, list, span_plain(c->arena, caution_text(c, i)));
}

/* ---- the law ------------------------------------------------------------------------------ */

void section_law(struct composition *c, struct chain *out)
{
    const struct list *laws = &c->plan->species->law;
    if (laws->count == 0)
        return;
    struct span *text = span_strong(c->arena, say(&c->speech, "sheet.law.title"));
    for (size_t i = 0; i < laws->count; i++) {
        const char *word =
            bind_choice_word(law_choices, LIST_AT(*laws, struct choice_value, i)->value);
        text = span_join(c->arena, text, span_plain(c->arena, say_code(&c->speech, "law", word)));
    }
    chain_spans(out, text, c->sheet->compact.value ? PARAGRAPH_SMALL : PARAGRAPH_BODY);
}
