/* The set-up list, sources and who signed. */
#include "wording/sections.h"

/* ---- set-up list ---------------------------------------------------------------------- */

/* Bullets that say something only where the plan has the number. */
void section_setup_list(struct composition *c, struct chain *out)
{
    static const char *const keys[] = {
        "sheet.setup.size",   "sheet.setup.basking",    "sheet.setup.warm",
        "sheet.setup.cool",   "sheet.setup.night",      "sheet.setup.water",
        "sheet.setup.limit",  "sheet.setup.thermostat", "sheet.setup.guard",
        "sheet.setup.probes", "sheet.setup.humidity",   "sheet.setup.light",
        "sheet.setup.hours",  "sheet.setup.hides",      "sheet.setup.floor",
        "sheet.setup.dish",   "sheet.setup.food",       "sheet.setup.run",
        "sheet.setup.papers",
    };
    bool lives_in_water = c->plan->temperature.zones[ZONE_WATER].applies;
    section_title(c, out, "sheet.setup.title");
    chain_paragraph(out, say(&c->speech, "sheet.setup.how"));
    struct block *list = chain_list(out, LIST_TICK_BOXES);
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        section_bullet(c, list, keys[i]);
    section_bullet(c, list, lives_in_water ? "sheet.setup.clean-water" : "sheet.setup.drink");
}

/* ---- sources ---------------------------------------------------------------------------- */

static const char *trust_key(enum trust trust)
{
    static const char *const keys[] = {
        [TRUST_ORIGINAL] = "sheet.trust.original",
        [TRUST_COPY] = "sheet.trust.copy",
        [TRUST_MEMORY] = "sheet.trust.memory",
    };
    return keys[trust];
}

void section_sources(struct composition *c, struct chain *out)
{
    if (c->plan->source_count == 0)
        return;
    section_title(c, out, "sheet.sources.title");
    struct span *text = NULL;
    for (size_t i = 0; i < c->plan->source_count; i++) {
        const struct plan_source *source = &c->plan->sources[i];
        struct span *cited = span_plain(c->arena, source->text);
        const char *trust = say(&c->speech, trust_key(source->trust));
        text = span_below(c->arena, text, cited);
        span_join(c->arena, text, span_plain(c->arena, trust));
    }
    chain_spans(out, text, PARAGRAPH_SMALL);
}

/* ---- sign-off ----------------------------------------------------------------------------- */

static bool has_own_targets(const struct visit_targets *targets)
{
    bool any = targets->humidity_percent.known || targets->uvi.known || targets->meal_g.known ||
               targets->every_days.known;
    for (size_t i = 0; i < ZONE_COUNT; i++)
        any = any || targets->zones_c[i].known;
    return any;
}

static void add_own_targets(struct composition *c, struct chain *out)
{
    const struct visit *visit = c->plan->visit;
    if (!has_own_targets(&visit->targets))
        return;
    const char *by = visit->targets.by.text ? visit->targets.by.text : visit->veterinarian.text;
    chain_paragraph(out, by ? section_with_text(c, "sheet.sign-off.own-targets", "by", by)
                            : say(&c->speech, "sheet.sign-off.own-targets-clinic"));
    if (visit->targets.because.text)
        chain_paragraph(out, section_with_text(c, "sheet.sign-off.because", "because",
                                               visit->targets.because.text));
}

void section_sign_off(struct composition *c, struct chain *out)
{
    const struct visit_signature *signature = &c->plan->visit->signed_off;
    struct chain inside = chain_start(c->arena, out->section);
    if (c->is_signed && signature->by.text && signature->on.known) {
        struct plan_fact on = {.name = "date", .kind = FACT_DATE, .date = signature->on.date};
        struct plan_fact by = {
            .name = "by", .kind = FACT_TEXT, .text = signature->by.text, .next = &on};
        struct speech speech = c->speech;
        speech.facts = &by;
        chain_paragraph(&inside, say(&speech, "sheet.sign-off.approved"));
    } else {
        chain_paragraph(&inside, say(&c->speech, "sheet.sign-off.draft"));
    }
    add_own_targets(c, &inside);
    if (c->plan->species->from_clinic)
        chain_paragraph(&inside, say(&c->speech, "sheet.sign-off.own-species"));
    chain_paragraph(&inside, say(&c->speech, "sheet.sign-off.never-replaces"));
    chain_callout(out, c->is_signed ? CALLOUT_PLAIN : CALLOUT_DRAFT,
                  say(&c->speech, c->is_signed ? "sheet.sign-off.title" : "sheet.draft-mark"),
                  &inside);
}
