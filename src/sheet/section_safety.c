/* Warning signs with whom to call, cautions, the law. */
#include <string.h>

#include "sheet/sections.h"

/* ---- warning signs ------------------------------------------------------------------ */

static size_t count_signs(const struct care_plan *plan, enum tier tier)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->warning_count; i++)
        count += plan->warnings[i].tier == tier;
    return count;
}

const char *section_sign(struct composition *c, const struct warning *warning)
{
    return warning->already ? phrase_part(&c->ctx, "sign", warning->code, "worse")
                            : phrase_code(&c->ctx, "sign", warning->code);
}

/* What to do, and below it the signs. The animal's own say so in words: who hears the sheet hears
 * no strong type. */
static void add_tier(struct composition *c, struct block_builder *out, enum tier tier)
{
    if (count_signs(c->plan, tier) == 0)
        return;
    const char *word = bind_choice_word(tier_choices, (int)tier);
    builder_heading(out, 3, phrase_code(&c->ctx, "sheet.tier", word));
    struct block *list = builder_list(out, LIST_BULLETS);
    /* a page that began with signs would not say how urgent they are */
    list->keep_together = true;
    for (size_t i = 0; i < c->plan->warning_count; i++) {
        const struct warning *warning = &c->plan->warnings[i];
        if (warning->tier != tier)
            continue;
        const char *sign = section_sign(c, warning);
        list_add(c->arena, list,
                 warning->own ? span_strong(c->arena, section_with_text(c, "sheet.warnings.own",
                                                                        "sign", sign))
                              : span_plain(c->arena, sign));
    }
}

void section_warnings(struct composition *c, struct block_builder *out)
{
    if (c->plan->warning_count == 0)
        return;
    section_title(c, out, "sheet.warnings.title");
    for (int tier = TIER_NOW; tier < TIER_COUNT; tier++)
        add_tier(c, out, (enum tier)tier);
    const char *open = phrase_if_known(&c->ctx, "sheet.open");
    if (open)
        builder_paragraph(out, open);
}

/* ---- cautions -------------------------------------------------------------------------- */

static const char *caution_text(struct composition *c, size_t i)
{
    return phrase_code(&c->ctx, "caution", c->plan->cautions[i]);
}

static const char *caution_about(struct composition *c, size_t i)
{
    const char *about = phrase_code(&c->ctx, "caution-about", c->plan->cautions[i]);
    return section_with_text(c, "sheet.run-in", "name", about);
}

static const char *law_text(struct composition *c)
{
    const struct taxon_plan *species = &c->plan->taxon;
    const char *text = NULL;
    for (size_t i = 0; i < species->law_count; i++) {
        const char *sentence = phrase_code(&c->ctx, "law", species->law[i]);
        text = text ? arena_format(c->arena, "%s %s", text, sentence) : sentence;
    }
    return text;
}

/* The species' own law follows what holds for all of them. */
static void add_caution_pairs(struct composition *c, struct block_builder *out)
{
    struct block *pairs = section_pairs(c, out, 0.2);
    for (size_t i = 0; i < c->plan->caution_count; i++) {
        const char *code = c->plan->cautions[i], *text = caution_text(c, i);
        const char *law = strcmp(code, "local-law") == 0 ? law_text(c) : NULL;
        section_pair(c, pairs, phrase_code(&c->ctx, "caution-about", code),
                     law ? arena_format(c->arena, "%s %s", text, law) : text);
    }
}

void section_cautions(struct composition *c, struct block_builder *out)
{
    if (c->plan->caution_count == 0)
        return;
    section_title(c, out, "sheet.cautions.title");
    if (c->sheet->compact.value) {
        add_caution_pairs(c, out);
        return;
    }
    struct block *list = builder_list(out, LIST_BULLETS);
    for (size_t i = 0; i < c->plan->caution_count; i++)
        list_add(c->arena, list,
                 span_join(c->arena, span_strong(c->arena, caution_about(c, i)),
                           span_plain(c->arena, caution_text(c, i))));
}

/* ---- the law ------------------------------------------------------------------------------ */

void section_law(struct composition *c, struct block_builder *out)
{
    const char *law = law_text(c);
    if (!law)
        return;
    struct span *text = span_strong(c->arena, phrase(&c->ctx, "sheet.law.title"));
    builder_spans(out, span_join(c->arena, text, span_plain(c->arena, law)), PARAGRAPH_BODY);
}
